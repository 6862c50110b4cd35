/* heft_parts.h: what the steps of the heft study share. For this folder only. */
#ifndef SW_MAKING_HEFT_HEFT_PARTS_H
#define SW_MAKING_HEFT_HEFT_PARTS_H

#include "making/heft/heft.h"

typedef struct heft_job {
    const sw_heft_input *in;
    sw_body *placed;     /* [placed_count] every placed piece and item, stove frame; in run->scratch */
    const char **groups; /* [placed_count] the group of each */
    size_t placed_count;
    sw_heft_result *result;
} heft_job;

sw_status heft_lines(sw_run *run, heft_job *job);    /* heft_lines.c */
sw_body heft_item_body(const sw_item *item);         /* of one, in its own frame */
sw_status heft_support(sw_run *run, heft_job *job);  /* heft_support.c */
sw_status heft_open(sw_run *run, heft_job *job);     /* heft_open.c: after heft_support */
sw_status heft_findings(sw_run *run, heft_job *job); /* heft_findings.c */

#endif
