#include "siting/draw/draw.h"

#include <math.h>
#include <stdatomic.h>
#include <stdio.h>

enum { ROUNDS_MOST = 60 };

static const double settled_pa = 1e-4, first_lambda = 2.2, least_lambda = 0.3, wider = 1.25;

static const char *const state_names[SW_DRAW_STATES] = {"safe",     "weak draught",  "too little air", "wood wasted",
                                                        "wet flue", "does not draw", "too strong",     "not solved"};

const char *sw_draw_state_name(sw_draw_state state)
{
    return state_names[state];
}

bool sw_draw_is_point(sw_draw_state state)
{
    return state != SW_DRAW_NONE && state != SW_DRAW_STRONG && state != SW_DRAW_UNSOLVED;
}

sw_draw_limits sw_draw_limits_defaults(void)
{
    /* weak: below a third of the usual 12 Pa; the rest as the findings of fire and heat. Common practice, no source */
    return (sw_draw_limits){.least_pa = 4, .least_lambda = 1.3, .most_lambda = 4, .most_k = sw_k_from_c(400)};
}

typedef struct draw_job {
    sw_run *run;
    const sw_draw_input *in;
    sw_burn *burn;
    sw_draw_weather weather;
    sw_flue_gas gas;
    sw_draw_point *point;
} draw_job;

static double given(double wanted, double otherwise)
{
    return isnan(wanted) ? otherwise : wanted;
}

/* With so much air: what the chimney gives for its gas, less what the openings need for it. */
static sw_status miss(draw_job *job, double lambda, double *over_pa)
{
    sw_burn_options opt = job->in->burn;
    const sw_draw_weather *w = &job->weather;
    sw_burn_point p;
    double need_pa = 0;
    opt.lambda = lambda;
    opt.primary_share = given(w->primary_share, opt.primary_share);
    opt.wash_share = given(w->wash_share, opt.wash_share);
    opt.rear_share = given(w->rear_share, opt.rear_share);
    SW_TRY(sw_burn_change(job->run, job->burn, &opt, &job->in->heat));
    SW_TRY(sw_burn_steady(job->run, job->burn, &p));
    SW_TRY(sw_burn_draught(job->run, job->burn, &p, &need_pa));
    const sw_flue_now now = {w->outside_k, w->wind_pa, p.gas_kg_s, p.flue_k, p.gas.co2_dry};
    sw_flue_pull pull = sw_flue_pull_of(job->in->flue, NULL, job->in->flue_options, now);
    *over_pa = pull.draught_pa - need_pa;
    *job->point = (sw_draw_point){.draught_pa = need_pa,
                                  .output_w = p.output_w,
                                  .efficiency = p.efficiency,
                                  .lambda = p.lambda,
                                  .flue_k = p.flue_k,
                                  .gas_kg_s = p.gas_kg_s,
                                  .co2_dry = p.gas.co2_dry,
                                  .outlet_k = pull.outlet_k,
                                  .wall_k = pull.wall_k,
                                  .dew_point_k = pull.air_kg_s > 0 ? pull.dew_point_k : p.gas.dew_point_k,
                                  .residual_pa = *over_pa,
                                  .rounds = job->point->rounds + 1};
    return SW_OK;
}

static sw_draw_state judge(const draw_job *job)
{
    const sw_draw_point *p = job->point;
    const sw_draw_limits *l = &job->in->limits;
    if (p->lambda < l->least_lambda) return SW_DRAW_STARVED;
    if (p->draught_pa < l->least_pa) return SW_DRAW_WEAK;
    if (p->wall_k < p->dew_point_k) return SW_DRAW_WET;
    return p->lambda > l->most_lambda || p->flue_k > l->most_k ? SW_DRAW_WASTE : SW_DRAW_SAFE;
}

typedef struct bracket {
    double low, low_over, high, high_over; /* excess air; over > 0 at low, < 0 at high */
} bracket;

/* Regula falsi with Illinois' halving (from memory): always between too little air and too much. */
static sw_status close_in(draw_job *job, bracket b)
{
    int kept = 0;
    for (int i = 0; i < ROUNDS_MOST; i++) {
        double x = b.high - b.high_over * (b.high - b.low) / (b.high_over - b.low_over), over = 0;
        SW_TRY(miss(job, x, &over));
        if (fabs(over) <= settled_pa) return SW_OK;
        if (over > 0) {
            b.low = x, b.low_over = over;
            if (kept == 1) b.high_over /= 2;
            kept = 1;
        } else {
            b.high = x, b.high_over = over;
            if (kept == -1) b.low_over /= 2;
            kept = -1;
        }
    }
    return sw_fail(job->run, SW_NO_SOLUTION, (sw_place){0}, "draught",
                   "stove and chimney still differ by %.2g Pa after %d rounds; nothing of it is a result",
                   job->point->residual_pa, ROUNDS_MOST);
}

/* Outwards from a guess; *found false when the chimney gives too little even for the least air. */
static sw_status enclose(draw_job *job, double guess, bracket *b, bool *found)
{
    double x = fmin(fmax(guess, least_lambda), SW_DRAW_MOST_LAMBDA), over = 0;
    SW_TRY(miss(job, x, &over));
    *found = true;
    *b = (bracket){x, over, x, over};
    while (b->low_over <= 0 && b->low > least_lambda) {
        b->high = b->low, b->high_over = b->low_over;
        b->low = fmax(b->low / wider, least_lambda);
        SW_TRY(miss(job, b->low, &b->low_over));
    }
    *found = b->low_over > 0;
    while (*found && b->high_over >= 0 && b->high < SW_DRAW_MOST_LAMBDA) {
        b->low = b->high, b->low_over = b->high_over;
        b->high = fmin(b->high * wider, SW_DRAW_MOST_LAMBDA);
        SW_TRY(miss(job, b->high, &b->high_over));
    }
    return SW_OK;
}

static sw_status solve(draw_job *job, double guess)
{
    bracket b;
    bool found = false;
    SW_TRY(enclose(job, guess, &b, &found));
    if (!found) {
        job->point->state = SW_DRAW_NONE;
        return SW_OK;
    }
    if (b.high_over > 0) {
        job->point->state = SW_DRAW_STRONG;
        return SW_OK;
    }
    SW_TRY(close_in(job, b));
    job->point->state = judge(job);
    return SW_OK;
}

static sw_draw_point unsolved(void)
{
    return (sw_draw_point){SW_DRAW_UNSOLVED, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, 0};
}

sw_status sw_draw_solve(sw_run *run, const sw_draw_input *in, sw_burn *burn, sw_draw_weather weather,
                        sw_draw_point *point)
{
    SW_ASSERT(in->burn.fuel_kg_h > 0);
    double guess = point->lambda > 0 ? point->lambda : first_lambda;
    *point = (sw_draw_point){0};
    draw_job job = {.run = run, .in = in, .burn = burn, .weather = weather, .point = point};
    sw_status status = solve(&job, guess);
    if (status != SW_OK) *point = unsolved();
    return status;
}

/* ---- a map ------------------------------------------------------------------------------------------------------ */

typedef struct row_fault { /* copied: the texts of a row's run end with it */
    sw_status status;      /* SW_OK where the row came to its end */
    sw_place place;
    char field[80], text[400];
} row_fault;

typedef struct map_job {
    sw_run *run;
    const sw_draw_input *in;
    const sw_burn_input *stove;
    double wind_pa;
    sw_draw_map *map;
    row_fault *faults;   /* [rows] */
    atomic_size_t done;  /* rows */
    atomic_flag telling; /* one thread tells at a time; the others go on */
} map_job;

static void tell_done(map_job *job)
{
    size_t done = atomic_fetch_add(&job->done, 1) + 1;
    if (atomic_flag_test_and_set(&job->telling)) return;
    sw_run_progress(job->run, "operating map", (double)done, (double)job->map->rows, "");
    atomic_flag_clear(&job->telling);
}

static double between(double low, double high, size_t i, size_t count)
{
    return count < 2 ? low : low + (high - low) * (double)i / (double)(count - 1);
}

/* A row from cold to warm. */
static sw_status row(map_job *job, sw_run *run, size_t index)
{
    const sw_draw_map *m = job->map;
    sw_burn *burn = NULL;
    SW_TRY(sw_burn_open(run, job->stove, &job->in->burn, &job->in->heat, &burn));
    for (size_t i = 0; i < m->columns && !sw_run_cancelled(job->run); i++) {
        sw_draw_weather w = {.outside_k = between(m->outside_low_k, m->outside_high_k, i, m->columns),
                             .wind_pa = job->wind_pa,
                             .primary_share = NAN,
                             .wash_share = between(m->share_low, m->share_high, index, m->rows),
                             .rear_share = NAN};
        sw_draw_point *p = &m->points[index * m->columns + i];
        if (i > 0) p->lambda = p[-1].lambda; /* to start from */
        sw_status status = sw_draw_solve(run, job->in, burn, w, p);
        if (status != SW_OK && status != SW_NO_SOLUTION) return status;
        sw_run_clear_errors(run);
    }
    return SW_OK;
}

static void keep_fault(row_fault *fault, const sw_run *run, sw_status status)
{
    fault->status = status;
    if (status == SW_OK || run->error_count == 0) return;
    fault->place = run->errors[0].place;
    (void)snprintf(fault->field, sizeof fault->field, "%s", run->errors[0].field);
    (void)snprintf(fault->text, sizeof fault->text, "%s", run->errors[0].text);
}

static void work(void *context, size_t index)
{
    enum { ROW_MEMORY = 1 << 26 };
    map_job *job = context;
    sw_run run;
    for (size_t i = 0; i < job->map->columns; i++) job->map->points[index * job->map->columns + i] = unsolved();
    row_fault *fault = &job->faults[index];
    fault->status = sw_run_open(&run, ROW_MEMORY);
    if (fault->status != SW_OK) return;
    keep_fault(fault, &run, row(job, &run, index));
    sw_run_close(&run);
    tell_done(job);
}

/* The first row's fault, whatever thread had it. */
static sw_status worst_of(sw_run *run, const row_fault *faults, size_t rows)
{
    for (size_t i = 0; i < rows; i++) {
        const row_fault *f = &faults[i];
        if (f->status == SW_OK) continue;
        return sw_fail(run, f->status, f->place, f->field[0] == '\0' ? "map" : f->field, "%s",
                       f->text[0] == '\0' ? "a row of the operating map found no memory" : f->text);
    }
    return SW_OK;
}

sw_status sw_draw_map_solve(sw_run *run, const sw_draw_input *in, const sw_burn_input *stove, double wind_pa,
                            sw_draw_map *map)
{
    map->points = SW_KEEP(run, map->rows * map->columns, sw_draw_point);
    row_fault *faults = SW_SCRATCH(run, map->rows, row_fault);
    if (map->points == NULL || faults == NULL) return SW_NO_MEMORY;
    map_job job = {.run = run,
                   .in = in,
                   .stove = stove,
                   .wind_pa = wind_pa,
                   .map = map,
                   .faults = faults,
                   .telling = ATOMIC_FLAG_INIT};
    map->wind_pa = wind_pa;
    sw_parallel_for(run->threads, map->rows, work, &job);
    if (sw_run_cancelled(run)) return sw_fail(run, SW_CANCELLED, (sw_place){0}, "map", "stopped");
    return worst_of(run, faults, map->rows);
}
