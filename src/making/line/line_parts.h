/* line_parts.h: what the steps of the line study share. For this folder only. */
#ifndef SW_MAKING_LINE_LINE_PARTS_H
#define SW_MAKING_LINE_LINE_PARTS_H

#include "making/line/line.h"

/* ---- order of things: line_graph.c ------------------------------------------------------------------------------------- */

typedef struct line_graph { /* in run->scratch */
    size_t count;
    const size_t *after_first, *after;   /* [count + 1]: after[after_first[i] ..] must wait for i */
    const size_t *before_first, *before; /* [count + 1] */
    size_t *order;                       /* [sorted] each behind all that stand before it */
    size_t sorted;                       /* < count: there is a ring */
} line_graph;

sw_status line_graph_make(sw_run *run, size_t count, const sw_before *pairs, size_t pair_count, line_graph *graph);
/* Names along a ring, "a, b, a": only when sorted < count. Long rings are shortened. */
sw_status line_graph_ring(sw_run *run, const line_graph *graph, const char *(*name)(const void *of, size_t i),
                          const void *of, const char **text);

/* ---- flow shop ------------------------------------------------------------------------------------------------------------ */

/* ---- the study --------------------------------------------------------------------------------------------------------------- */

#define LINE_NONE SIZE_MAX

typedef struct line_work {  /* one task, ready to be scheduled */
    size_t station;         /* LINE_NONE = there is none */
    size_t group;           /* set-up; LINE_NONE = needs none and leaves the machine as it is */
    double set_up_s, run_s; /* of one stove, slowed by what the station stands still */
    double attended_s;      /* part of run_s, from its start, that binds people */
    double rest_s, head_s, tail_s;
    double group_s;        /* of a group's first task: the least set-up for it */
    size_t together;       /* at least 1 */
    const size_t *targets; /* [target_count] stations with a limited buffer that it hands on to */
    size_t target_count;
    bool placed; /* waits in such a buffer */
} line_work;

typedef struct line_place {          /* one station */
    size_t machines, people, buffer; /* buffer: stoves; LINE_NONE = as many as wanted */
    double rate_h, labour_h;         /* of a machine with its people; part of it that is people */
    const size_t *tasks;             /* [task_count] those done there */
    size_t task_count, placed;       /* placed: how many of them wait in its buffer */
    double least_s;                  /* set-ups, each group once */
    size_t groups;                   /* how many */
} line_place;

typedef enum line_stay {
    LINE_STAY_LOT,
    LINE_STAY_LONG,
    LINE_STAY_NOT
} line_stay; /* with a set-up: within the lot, always */

typedef struct line_choice { /* what decides a schedule */
    size_t *rank;            /* [task_count] lower goes first */
    size_t lot;
    line_stay stay;
    bool wait;       /* an oven waits until it is full */
    bool downstream; /* people go to the later stations first; else to the fuller ones */
    const char *rule;
} line_choice;

typedef struct line_outcome {
    double makespan_s, flow_s, set_up_s, worth_s; /* worth: what the search makes small */
    double busy_s, people_s;                      /* machine time, and time of people */
} line_outcome;

typedef struct line_record { /* kept of one schedule alone */
    sw_line_bar *bars;
    size_t bar_count;
    double *start_s, *end_s;       /* [batch] */
    double *blocked_s, *starved_s; /* [station_count] */
    sw_line_level *changes;        /* people: +n at, -n at */
    size_t change_count;
} line_record;

typedef struct line_state line_state; /* of a running schedule: line_schedule.c */

typedef struct line_job {
    const sw_line_input *in;
    const sw_line_options *opt;
    sw_line_result *result; /* in run->keep */
    sw_line_load *loads;    /* of the result */
    line_graph graph;
    line_work *works;   /* [task_count] */
    line_place *places; /* [station_count] */
    size_t stations, batch, people, groups;
    size_t *by_load; /* [stations] fullest first */
    bool can_run;    /* every task has a station with machines and enough people */
    line_state *state;
    line_choice best;
    line_outcome outcome;
    double tried;
    const sw_line_bar *exact; /* [task_count * batch] shorter than what the search found; NULL = none */
    bool proved;              /* no schedule is shorter */
} line_job;

sw_status line_check(sw_run *run, const sw_line_input *in, const sw_line_options *opt); /* line_check.c */
/* The one named ("" or NULL: none); else the first of the operation with a machine; else the first of it; or LINE_NONE. */
size_t line_station_of(const sw_works *works, sw_operation operation, const char *name);
sw_status line_route(sw_run *run, line_job *job); /* line_route.c: works, places */
sw_status line_loads(sw_run *run, line_job *job); /* line_load.c: loads without a schedule, takt, bottleneck */
void line_paces(line_job *job);                   /* line_load.c: from set_up_s and run_s of the loads */

/* line_bound.c; station: LINE_NONE = one stove's longest way, LINE_NONE - 1 = people */
sw_status line_bound(sw_run *run, const line_job *job, double *bound_s, size_t *station);

sw_status line_state_make(sw_run *run, line_job *job); /* line_schedule.c */
/* record: NULL = only the figures. A schedule that stands still is a fault of ours: asserted. */
line_outcome line_schedule(line_job *job, const line_choice *choice, line_record *record);
double line_runs(const line_job *job, const line_work *work); /* how often a machine runs it in a batch, at least */

sw_status line_search(sw_run *run, line_job *job); /* line_search.c: best, outcome */
line_outcome line_improve(sw_run *run, line_job *job, line_choice *choice, line_outcome from, double rounds,
                          uint64_t seed);
/* line_exact.c: sets exact and proved where the batch is small; told: that schedule with its figures. */
sw_status line_exact(sw_run *run, line_job *job);
line_outcome line_exact_told(const line_job *job, line_record *record);
sw_status line_plan(sw_run *run, line_job *job); /* line_plan.c: the result's plan, loads as scheduled */
sw_status line_record_make(sw_run *run, const line_job *job, bool keep, line_record *record);
void line_tell_loads(line_job *job, const line_record *record, double makespan_s);
sw_status line_hand(sw_run *run, line_job *job); /* line_hand.c: balance of the hand work */
bool line_by_hand(const sw_line_task *task);
double line_fullest_s(const sw_balance *balance); /* largest load */

typedef struct line_sum {                                  /* money for one stove */
    double by_kind[SW_MONEYS], credit, unit, idle, labour; /* labour: with that of set-ups */
} line_sum;
line_sum line_cost_sum(const line_job *job, const line_outcome *outcome); /* line_cost.c; outcome NULL: least set-ups */
sw_status line_cost(sw_run *run, line_job *job);
sw_status line_what_if(sw_run *run, line_job *job);  /* line_what_if.c */
sw_status line_findings(sw_run *run, line_job *job); /* line_findings.c */

#endif
