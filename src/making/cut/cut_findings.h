/* cut_findings.h: the checks of a planned sheet. For this folder only. */
#ifndef SW_MAKING_CUT_CUT_FINDINGS_H
#define SW_MAKING_CUT_CUT_FINDINGS_H

#include "making/cut/cut_parts.h"

/* A stated finding of this study that holds; the rest is the caller's to fill. */
sw_finding cut_finding(const cut_job *job, const char *check, const char *where);
const char *cut_loop_name(sw_run *run, const cut_job *job, size_t part,
                          int contour); /* in run->keep; NULL on no memory */

/* cut_size_findings.c */
sw_status cut_piece_findings(sw_run *run, cut_job *job, size_t part); /* what the kerf swallows, narrowest hole, web */
sw_status cut_gap_finding(sw_run *run, cut_job *job);                 /* least gap between pieces on the sheet */

#endif
