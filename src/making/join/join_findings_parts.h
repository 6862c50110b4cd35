/* join_findings_parts.h: what the files of findings share; for join_findings.c, join_limits.c, join_stated.c and join_names.c alone. */
#ifndef SW_MAKING_JOIN_JOIN_FINDINGS_PARTS_H
#define SW_MAKING_JOIN_JOIN_FINDINGS_PARTS_H

#include "making/join/join_parts.h"

enum { JOIN_NAMED = 3 }; /* seams that a finding names (ours) */

/* A finding that judges no number, about the stove as a whole; the rest is the caller's. */
sw_finding join_statement(const join_job *job, const char *check, const char *where, sw_verdict verdict);
/* Marks the seams with the same throat, sheets, kind and tightness, and station and heat where these count; how many, 0
 * when an earlier one was asked for. */
size_t join_alike(const join_job *job, size_t seam, bool heat, bool *chosen);

sw_status join_judge_throats(sw_run *run, join_job *job); /* join_limits.c */
sw_status join_judge_heat(sw_run *run, join_job *job);
sw_status join_judge_deposit(sw_run *run, join_job *job);
sw_status join_judge_preheat(sw_run *run, join_job *job); /* join_stated.c */
sw_status join_state_shrinkage(sw_run *run, join_job *job);
sw_status join_state_leak(sw_run *run, join_job *job);
sw_status join_state_figures(sw_run *run, join_job *job);

#endif
