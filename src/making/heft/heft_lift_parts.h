/* heft_lift_parts.h: what the steps of the lifting study share. For this folder only. */
#ifndef SW_MAKING_HEFT_HEFT_LIFT_PARTS_H
#define SW_MAKING_HEFT_HEFT_LIFT_PARTS_H

#include "making/heft/heft.h"

typedef struct lift_member { /* a placed piece or item */
    sw_body body;            /* stove's frame */
    sw_lift_box box;
    const char *group;
    bool loose; /* lies in the stove without being held: board, casting */
} lift_member;

typedef struct lift_job {
    const sw_lift_input *in;
    const sw_lift_options *opt;
    lift_member *members; /* [member_count] pieces' places in order, then items'; in run->scratch */
    size_t member_count;
    size_t *first; /* [piece_count] index of a piece's first member */
    sw_lift_step *steps;
    size_t step_count, room;
    sw_lift_result *result;
} lift_job;

/* heft_lift_members.c */
sw_status lift_members(sw_run *run, lift_job *job);
/* The members for which in[i] holds, put together: mass, centre, box of the step. */
sw_status lift_gather(sw_run *run, const lift_job *job, const bool *in, sw_lift_step *step);
sw_status lift_welded(sw_run *run, const lift_job *job, bool *in); /* the heaviest body that seams hold together */

sw_status lift_steps(sw_run *run, lift_job *job);           /* heft_lift_steps.c: what is lifted, by the route */
void lift_judge(const lift_job *job, sw_lift_step *step);   /* heft_lift_judge.c: who lifts it */
void lift_by_gear(const lift_job *job, sw_lift_step *step); /* heft_lift_sling.c: hoist, sling, points */
void lift_trolley(const lift_job *job);                     /* heft_lift_trolley.c */
sw_status lift_findings(sw_run *run, lift_job *job);        /* heft_lift_findings.c */

#endif
