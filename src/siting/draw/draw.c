#include "siting/draw/draw.h"

#include <math.h>

enum { ROUNDS_MOST = 60 };

static const double settled_pa = 1e-4, least_draught_pa = 0.5, most_draught_pa = 90;

static const char *const state_names[SW_DRAW_STATES] = {"safe",        "weak draught", "too little air",
                                                        "wood wasted", "wet flue",     "does not draw"};

const char *sw_draw_state_name(sw_draw_state state)
{
    return state_names[state];
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

/* What the chimney gives for the gas of this draught, less the draught. */
static sw_status miss(draw_job *job, double draught_pa, double *over_pa)
{
    sw_burn_options opt = job->in->burn;
    const sw_draw_weather *w = &job->weather;
    sw_burn_point p;
    opt.draught_pa = draught_pa;
    opt.primary_share = given(w->primary_share, opt.primary_share);
    opt.wash_share = given(w->wash_share, opt.wash_share);
    opt.rear_share = given(w->rear_share, opt.rear_share);
    SW_TRY(sw_burn_change(job->run, job->burn, &opt, &job->in->heat));
    SW_TRY(sw_burn_steady(job->run, job->burn, &p));
    const sw_flue_now now = {w->outside_k, w->wind_pa, p.gas_kg_s, p.flue_k, p.gas.co2_dry};
    sw_flue_pull pull = sw_flue_pull_of(job->in->flue, NULL, job->in->flue_options, now);
    *over_pa = pull.draught_pa - draught_pa;
    *job->point = (sw_draw_point){.draught_pa = draught_pa,
                                  .output_w = p.output_w,
                                  .efficiency = p.efficiency,
                                  .lambda = p.lambda,
                                  .flue_k = p.flue_k,
                                  .gas_kg_s = p.gas_kg_s,
                                  .outlet_k = pull.outlet_k,
                                  .wall_k = pull.wall_k,
                                  .dew_point_k = p.gas.dew_point_k,
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

/* Regula falsi with Illinois' halving (from memory): always between a draught that is too small and one too large. */
static sw_status close_in(draw_job *job, double low_pa, double low_over, double high_pa, double high_over)
{
    int kept = 0;
    for (int i = 0; i < ROUNDS_MOST; i++) {
        double x = high_pa - high_over * (high_pa - low_pa) / (high_over - low_over), over = 0;
        SW_TRY(miss(job, x, &over));
        if (fabs(over) <= settled_pa) return SW_OK;
        if (over > 0) {
            low_pa = x, low_over = over;
            if (kept == 1) high_over /= 2;
            kept = 1;
        } else {
            high_pa = x, high_over = over;
            if (kept == -1) low_over /= 2;
            kept = -1;
        }
    }
    return sw_fail(job->run, SW_NO_SOLUTION, (sw_place){0}, "draught",
                   "stove and chimney still differ by %.2g Pa after %d rounds; nothing of it is a result",
                   job->point->residual_pa, ROUNDS_MOST);
}

static sw_status solve(draw_job *job)
{
    double low_over = 0, high_over = 0, high_pa = 12;
    SW_TRY(miss(job, least_draught_pa, &low_over));
    if (!(low_over > 0)) {
        job->point->state = SW_DRAW_NONE;
        return SW_OK;
    }
    SW_TRY(miss(job, high_pa, &high_over));
    while (high_over > 0 && high_pa < most_draught_pa) {
        high_pa = fmin(2 * high_pa, most_draught_pa);
        SW_TRY(miss(job, high_pa, &high_over));
    }
    if (high_over > 0)
        return sw_fail(job->run, SW_NO_SOLUTION, (sw_place){0}, "draught", "the chimney draws more than %.0f Pa",
                       most_draught_pa);
    SW_TRY(close_in(job, least_draught_pa, low_over, high_pa, high_over));
    job->point->state = judge(job);
    return SW_OK;
}

sw_status sw_draw_solve(sw_run *run, const sw_draw_input *in, sw_burn *burn, sw_draw_weather weather,
                        sw_draw_point *point)
{
    SW_ASSERT(in->burn.fuel_kg_h > 0);
    *point = (sw_draw_point){0};
    draw_job job = {.run = run, .in = in, .burn = burn, .weather = weather, .point = point};
    return solve(&job);
}

/* ---- a map ------------------------------------------------------------------------------------------------------ */

typedef struct map_job {
    sw_run *run;
    const sw_draw_input *in;
    const sw_burn_input *stove;
    double wind_pa;
    sw_draw_map *map;
} map_job;

static double between(double low, double high, size_t i, size_t count)
{
    return count < 2 ? low : low + (high - low) * (double)i / (double)(count - 1);
}

/* A row from warm to cold; what does not settle stays "does not draw", with its residual. */
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
        if (sw_draw_solve(run, job->in, burn, w, p) != SW_OK) p->state = SW_DRAW_NONE;
        sw_run_clear_errors(run);
    }
    return SW_OK;
}

static void work(void *context, size_t index)
{
    enum { ROW_MEMORY = 1 << 26 };
    map_job *job = context;
    sw_run run;
    for (size_t i = 0; i < job->map->columns; i++)
        job->map->points[index * job->map->columns + i] = (sw_draw_point){.state = SW_DRAW_NONE};
    if (sw_run_open(&run, ROW_MEMORY) != SW_OK) return;
    (void)row(job, &run, index);
    sw_run_close(&run);
}

sw_status sw_draw_map_solve(sw_run *run, const sw_draw_input *in, const sw_burn_input *stove, double wind_pa,
                            sw_draw_map *map)
{
    map->points = SW_KEEP(run, map->rows * map->columns, sw_draw_point);
    if (map->points == NULL) return SW_NO_MEMORY;
    map_job job = {run, in, stove, wind_pa, map};
    sw_parallel_for(run->threads, map->rows, work, &job);
    return sw_run_cancelled(run) ? sw_fail(run, SW_CANCELLED, (sw_place){0}, "map", "stopped") : SW_OK;
}
