/* line.h: how a batch of stoves goes through the works: route, load, takt, line balance, schedule and cost.
 *
 * Times s of working time (shifts laid end to end), money in the works' currency. The study knows no pieces: it takes the
 * tasks of one stove with the times that other studies found, the materials, the stations and a batch; a builder makes
 * the tasks from simple figures of each piece and body. Below the study stand the published solvers it is built from and
 * beside: line balancing, the permutation flow shop, and single formulas. Everything is
 * deterministic; random choices come from the seed of the options. Method: docs/studies/line.md. */
#ifndef SW_MAKING_LINE_LINE_H
#define SW_MAKING_LINE_LINE_H

#include "model/model.h"

/* ---- single formulas, also for reckon: line_formulas.c. NAN outside their range ------------------------------------- */

double sw_takt_s(double available_s, double demand);
/* Little 1961: things under way, things a second, s each; the one that is NAN is found from the others. */
double sw_little_under_way(double per_s, double flow_s);
double sw_little_flow_s(double under_way, double per_s);
typedef struct sw_oee {
    double availability, performance, quality, all;
} sw_oee; /* shares; performance above 1 means that the ideal time is wrong */
sw_oee sw_oee_of(double planned_s, double down_s, double ideal_s, double made, double rejected);
double sw_learning_s(double first_s, double rate, double n);       /* of the n-th, Wright 1936; rate 0.5 .. 1 */
double sw_learning_total_s(double first_s, double rate, size_t n); /* of the first n */
/* Mean wait before `machines` equal machines of utilisation u: Kingman 1961 for one, Sakasegawa's form for more. ca, ce:
 * coefficients of variation of the times between arrivals and of service. NAN unless 0 <= u < 1. */
double sw_queue_s(double ca, double ce, double u, double each_s, double machines);
double sw_balance_stations_least(double sum_s, double most_s,
                                 double cycle_s); /* max(1, ceil(sum/c)); NAN if most > c */
double sw_balance_cycle_least_s(double sum_s, double most_s, double stations); /* max(most, sum/m) */
double sw_balance_efficiency(double sum_s, double stations, double cycle_s);
typedef struct sw_unit_cost {
    double set_up, unit, base; /* set-ups shared by the batch; without and with overhead */
} sw_unit_cost;
sw_unit_cost sw_unit_cost_of(double material, double set_up_batch, double batch, double run, double bought,
                             double overhead);

/* ---- line balancing: line_balance.c ----------------------------------------------------------------------------------- */

typedef struct sw_before { /* task `first` is done before task `then`; indices from 0 */
    size_t first, then;
} sw_before;

enum { SW_BALANCE_TASKS = 256 }; /* most tasks of one problem */

typedef struct sw_balance_input {
    const double *times_s; /* [count], > 0 */
    size_t count;
    const sw_before *before;
    size_t before_count;
    double nodes; /* limit of the search in each problem; 0 = 2e6 */
} sw_balance_input;

typedef struct sw_balance {
    const size_t *station; /* [count] of each task, from 0 */
    size_t stations;       /* used */
    double cycle_s;        /* SALBP-1: as given; SALBP-2: the largest load */
    double bound;          /* no balance has fewer stations (SALBP-1) or a shorter cycle (SALBP-2) */
    bool proved;           /* the balance is as good as its bound */
    double nodes;          /* of the search */
    double efficiency;     /* sum of times/(stations cycle) */
    const double *loads_s; /* [stations] */
} sw_balance;

/* SALBP-1: fewest stations for a cycle. SALBP-2: shortest cycle for a number of stations. Exact by branch and bound over
 * maximal station loads unless the node limit is reached; then the best found with its bound, proved = false.
 * result    in run->keep
 * returns   SW_OUT_OF_RANGE (a time, the cycle or the number of stations that cannot be; a task longer than the cycle),
 *           SW_BAD_INPUT (an index beyond the tasks; a ring, named), SW_NO_MEMORY, SW_CANCELLED
 * sources   Baybars 1986, Scholl 1999 (problem); Jackson 1956, Hoffmann 1963, Johnson 1988 (station loads, maximal loads) */
sw_status sw_balance_stations(sw_run *run, const sw_balance_input *in, double cycle_s, const sw_balance **result);
sw_status sw_balance_cycle(sw_run *run, const sw_balance_input *in, size_t stations, const sw_balance **result);

/* ---- permutation flow shop: line_flow.c -------------------------------------------------------------------------------- */

typedef struct
    sw_flow_shop {         /* every job visits machines 0, 1, .. in this order; all machines keep one order of jobs */
    const double *times_s; /* [machines * jobs], machine by machine: times_s[machine * jobs + job] */
    size_t jobs, machines;
} sw_flow_shop;

double sw_flow_makespan_s(const sw_flow_shop *shop, const size_t *order, size_t count); /* of the first count in order;
                                                                                            NAN above 64 machines */
double sw_flow_machine_bound_s(const sw_flow_shop *shop); /* largest of least head + load + least tail */
/* Johnson 1954: shortest for two machines. order [jobs]; false unless there are two machines. */
bool sw_flow_johnson(const sw_flow_shop *shop, size_t *order);

/* ---- the study: tasks and what they need ---------------------------------------------------------------------------------- */

typedef struct sw_line_task {
    const char *name, *part; /* "bend left side"; the piece or body it works on */
    sw_operation operation;
    const char *station;      /* name; "" = the first station of the operation that has a machine */
    double set_up_s;          /* done when the machine was last set up for another group */
    const char *set_up_group; /* tasks of one group share a set-up; "" = a group of its own */
    double run_s;             /* of one */
    size_t count;             /* in one stove, at least 1 */
    double unattended;        /* share of the run that needs no people, 0 .. 1 */
    double rest_s;            /* lies so long afterwards without a machine: drying, cooling */
    size_t together;          /* stoves that one machine takes at once (oven); 0 = one */
    const size_t *after;      /* [after_count] indices of tasks that must be done before */
    size_t after_count;
} sw_line_task;

typedef enum sw_line_money {
    SW_MONEY_SHEET,
    SW_MONEY_ITEM,
    SW_MONEY_CONSUMABLE,
    SW_MONEY_MACHINE,
    SW_MONEY_LABOUR,
    SW_MONEY_SET_UP,
    SW_MONEY_OVERHEAD,
    SW_MONEYS
} sw_line_money;
const char *sw_line_money_name(sw_line_money kind); /* "sheet" "bought item" "consumable" "machine" "labour" ... */

typedef struct sw_line_material {
    const char *name;
    sw_line_money kind; /* SW_MONEY_SHEET, SW_MONEY_ITEM or SW_MONEY_CONSUMABLE */
    double quantity;    /* for one stove, in `unit`; shown, not used */
    const char *unit;
    double cost;   /* for one stove, before the credit, >= 0 */
    double credit; /* scrap and remnants given back, for one stove, >= 0 */
} sw_line_material;

typedef struct sw_line_input {
    const char *name; /* of the stove */
    const sw_line_task *tasks;
    size_t task_count;
    const sw_line_material *materials;
    size_t material_count;
    const sw_works *works; /* stations, labour, rates of the machines' own tables */
    size_t batch;          /* stoves, 1 .. 200 */
    size_t people;         /* at hand in one shift; 0 = as many as the stations' machines need */
} sw_line_input;

enum { SW_LINE_BATCH = 200, SW_LINE_TASKS = 1000 };

typedef struct sw_line_options {
    double rounds;         /* schedules tried by exchanging and moving tasks in the order of precedence */
    double what_if_rounds; /* the same for each what-if */
    double seed;
    double flow_weight;   /* worth of 1 s of mean flow time in s of makespan */
    double set_up_weight; /* worth of 1 s of set-up in s of makespan */
    double variation;     /* coefficient of variation of arrivals, for the queue figure */
    double busy_most;     /* utilisation above which a station is watched */
    double shift_premium; /* share of labour that a second shift costs more */
    double balance_nodes; /* limit of the line balance's search */
    double exact_nodes;   /* limit of the search for a small batch's shortest schedule; 0 = none */
    uint32_t made_by_defaults;
} sw_line_options;
const sw_option *sw_line_option_table(size_t *count);
sw_line_options sw_line_options_defaults(void);

/* ---- a builder of tasks from simple figures: line_build.c ------------------------------------------------------------------ */

typedef struct sw_line_piece { /* a time of 0 leaves the step out; times of one piece */
    const char *name, *body;   /* name of its sw_line_body */
    size_t count;              /* in one stove */
    double mass_kg;
    double cut_s, cut_set_up_s;
    const char *cut_group; /* sheet: "3 mm S235" */
    double edge_mm;        /* to deburr: at the deburring station's speed */
    double bend_s, bend_set_up_s;
    const char *bend_group; /* tools: "V 24, punch 86 deg" */
    double roll_s, roll_set_up_s;
    const char *roll_group; /* "3 mm, radius 180" */
} sw_line_piece;

typedef struct sw_line_body {
    const char *name, *into; /* into: the body it is built into; "" = it is the stove's own, or finished apart */
    double mass_kg;
    double tack_s;
    double weld_s, weld_set_up_s, weld_unattended; /* robot, or all there is */
    double hand_weld_s;
    const char *weld_station,
        *hand_station; /* "" = the first that welds; for the hand: the first that welds by hand, or else that welds */
    double leak_s, blast_s, blast_set_up_s, blast_unattended;
    double coat_s, coat_set_up_s, dry_s, cure_s;
    const char *coat_group; /* colour */
    size_t cure_together;   /* stoves in the oven at once */
} sw_line_body;

typedef struct sw_line_step { /* work after coating: lining, glazing, assembly, test, packing */
    const char *name, *body;  /* body "" = of the stove: after all bodies' steps */
    sw_operation operation;
    double run_s;
    const char *after; /* names of steps before it, with ", " between; "" = only what its body needs */
} sw_line_step;

typedef struct sw_line_figures {
    const sw_line_piece *pieces;
    size_t piece_count;
    const sw_line_body *bodies;
    size_t body_count;
    const sw_line_step *steps;
    size_t step_count;
    const sw_works *works; /* handling of each station (each_s, per_kg_s) is added to every run; deburring speed */
} sw_line_figures;

/* Pieces: cut - deburr - bend - roll; bodies, after their pieces and the bodies built into them: tack - weld - weld by hand -
 * leak test - blast - coat - cure; steps of a body after its last such task and after all steps of bodies built into it; steps of the stove last.
 * Where a body has nothing to be done, its parts go on to what follows. *tasks, *count in run->keep.
 * returns  SW_BAD_INPUT (a body or step that is not there, bodies or steps in a ring), SW_NO_MEMORY */
sw_status sw_line_tasks_make(sw_run *run, const sw_line_figures *figures, const sw_line_task **tasks, size_t *count);

/* ---- result ------------------------------------------------------------------------------------------------------------------ */

typedef struct sw_line_route { /* one task: a line of the route table, in the tasks' order */
    size_t task, station;      /* station: index into works->stations, SIZE_MAX = none */
    double set_up_s, run_s;    /* run: of all `count` in one stove, slowed by what the station stands still */
    double head_s, tail_s;     /* longest way before and after it in one stove */
    bool critical;             /* on the longest way */
} sw_line_route;

typedef struct sw_line_load { /* one station, in the works' order */
    const char *station;
    size_t machines, people; /* people: at one machine */
    size_t tasks;            /* of one stove there */
    size_t set_ups;          /* in the schedule; each group once when there is none */
    double set_up_s, run_s;  /* of the whole batch, all machines together */
    double stove_s;          /* one stove keeps one machine so long: (set-ups + run)/batch */
    double pace_s;           /* least time from stove to stove: stove_s/machines; NAN without a machine */
    double busy;             /* share of the makespan that its machines work; NAN without a schedule */
    double busy_wanted;      /* the same at the wanted number a week; above 1 it cannot */
    double blocked_s;        /* a machine stood with work at hand because there was no place behind it */
    double starved_s;        /* ... because no people were free */
    double queue_s;          /* mean wait by Kingman at the wanted pace: plausibility; NAN at or above full */
    double rate_h;           /* of one machine with its people, as used */
} sw_line_load;

typedef struct sw_line_bar {           /* one box of the chart */
    size_t station, machine;           /* machine from 0 */
    size_t task, stove;                /* stove from 0; the first of `stoves` in an oven */
    size_t stoves;                     /* at once; else 1 */
    double start_s, run_from_s, end_s; /* set-up from start to run_from */
} sw_line_bar;

typedef struct sw_line_level { /* from here on, until the next */
    double at_s;
    size_t count;
} sw_line_level;

typedef struct sw_line_plan {
    const sw_line_bar *bars; /* by start */
    size_t bar_count;
    double makespan_s, bound_s, gap;           /* gap: makespan/bound - 1 */
    const char *bound_by;                      /* "station press brake", "people", "longest way of one stove", ... */
    bool proved;                               /* no schedule is shorter: the bound is met, or all were looked at */
    double shifts, days, weeks;                /* of the makespan; NAN without shifts */
    const double *stove_start_s, *stove_end_s; /* [batch] */
    double flow_s;                             /* mean of end - start */
    const sw_line_level *under_way;            /* stoves begun and not finished */
    size_t under_way_count;
    double under_way_mean;       /* over the makespan; equals throughput x mean flow time (Little) */
    const sw_line_level *people; /* at work */
    size_t people_count, people_most;
    double people_busy; /* share of the people at hand, over the makespan */
    const char *rule;   /* that the best schedule started from; "all schedules looked at", ... */
    size_t lot;         /* stoves whose tasks of one kind are done in one go */
    double tried;       /* schedules */
} sw_line_plan;

typedef struct sw_line_cost_line {
    const char *name;
    sw_line_money kind;
    double stove, share; /* money for one stove; share of the sum */
} sw_line_cost_line;

typedef struct sw_line_cost {
    double by_kind[SW_MONEYS]; /* for one stove */
    double credit;             /* already taken off the sheets */
    double unit, base, batch;  /* sum without overhead; with; base x batch */
    double set_up_least;       /* set-ups for one stove if each group were set up once a batch */
    double idle;               /* machines and people that stand by during the makespan, for one stove; not in unit */
    const sw_line_cost_line *lines; /* most money first; sum = base */
    size_t line_count;
} sw_line_cost;

typedef struct sw_line_batch_cost { /* each set-up once a batch */
    size_t batch;
    double unit, base;
} sw_line_batch_cost;

typedef struct sw_line_what_if {
    const char *what;                /* "one more machine: press brake", "a second shift", "one more person" */
    size_t station;                  /* SIZE_MAX = not of one station */
    double makespan_s, days, pace_s; /* pace of the then slowest station */
    double unit, idle;               /* cost for one stove */
    double makespan_change_s, days_change, unit_change, idle_change; /* against the works as they are */
} sw_line_what_if;

typedef struct sw_line_result {
    const sw_line_route *routes; /* [task_count] */
    size_t route_count;
    const sw_line_load *loads; /* [station_count of the works] */
    size_t load_count;
    size_t bottleneck;         /* index of the load with the longest pace; SIZE_MAX = none */
    double takt_s;             /* NAN when no number a week is wanted */
    double week;               /* stoves a week that the bottleneck lets through; NAN without shifts */
    double week_planned;       /* the batch's own: batch a makespan, with filling and emptying of the line */
    double longest_way_s;      /* of one stove alone, no waits */
    size_t people;             /* at hand, as used */
    double people_needed;      /* at the wanted pace; NAN without */
    const sw_balance *balance; /* of the hand work within takt; NULL when there is none, no takt or a task beyond it */
    const sw_balance *balance_even; /* the same places with the shortest cycle found; NULL as balance */
    const size_t *balance_tasks;    /* [balance_count] task index of each of its tasks */
    size_t balance_count;
    const sw_line_plan *plan; /* NULL when a station or machine is missing: a finding says so */
    sw_line_cost cost;
    const sw_line_batch_cost *batch_costs;
    size_t batch_cost_count; /* 1 2 5 10 20 50 */
    const sw_line_what_if *what_ifs;
    size_t what_if_count; /* 0 without a plan */
    sw_findings findings;
} sw_line_result;

/* Checks (study "line"): station (an operation has no station: fails), machine (a station of the route has no machine:
 * fails), takt (pace of each station above takt: fails, near it: watch; else the bottleneck), busy (utilisation at the
 * wanted number), queue (stated), people (needed against at hand), balance (hand work against takt), makespan (beside its
 * bound; stated), buffer (stood blocked; watch).
 * result   in run->keep; points into the input's texts
 * returns  SW_OUT_OF_RANGE (negative or absurd figures; each names its task, material or option), SW_BAD_INPUT (unknown
 *          station or predecessor; a ring of predecessors, named), SW_CANCELLED (before a first schedule), SW_NO_MEMORY
 * cost     rounds x (tasks x batch x tasks of a station); a batch of at most 48 tasks: exact_nodes x its tasks squared */
sw_status sw_line_solve(sw_run *run, const sw_line_input *in, const sw_line_options *opt,
                        const sw_line_result **result);

#endif
