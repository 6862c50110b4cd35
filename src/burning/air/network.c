/* network.c: the pressures at which the mass that enters every space leaves it.
 *
 * The flows rise with the pressure over each way, so the balances are the slopes of a convex function of the free
 * pressures (its co-content: Birkhoff & Diaz 1956): the answer is unique, Newton's matrix is symmetric and positive, and a
 * step is right as long as the balances do not turn round along it. A square root alone makes plain Newton swing for ever
 * between two points; shortening a step that turns them round is the cure. */
#include "burning/air/air_parts.h"

#include <float.h>
#include <math.h>
#include <string.h>

static const double settled = 1e-10; /* residual over the largest flow */
static const double turned = 0.5;    /* how far the balance along a step may turn round */
enum { ROUNDS = 100, SHORTER = 12 };

/* ---- memory, once ---- */

static sw_status make_work(sw_run *run, size_t spaces, size_t ways, sw_air_solution *solution)
{
    struct sw_air_work *w = SW_KEEP(run, 1, struct sw_air_work);
    double *numbers = SW_KEEP(run, spaces * (spaces + 6), double);
    if (w == NULL || numbers == NULL) return SW_NO_MEMORY;
    w->row = SW_KEEP(run, spaces, int);
    w->reached = SW_KEEP(run, spaces, bool);
    w->links = SW_KEEP(run, ways, air_link);
    if (w->row == NULL || w->reached == NULL || w->links == NULL) return SW_NO_MEMORY;
    double **parts[] = {&w->density, &w->pressure, &w->trial, &w->inflow, &w->step, &w->source, &w->matrix};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) *parts[i] = numbers + i * spaces;
    w->space_room = spaces;
    w->way_room = ways;
    solution->work = w;
    return SW_OK;
}

static sw_status make_room(sw_run *run, const sw_air_network *network, sw_air_solution *solution)
{
    size_t spaces = network->space_count, ways = network->way_count;
    const struct sw_air_work *w = solution->work;
    bool fits = w != NULL && w->space_room >= spaces && w->way_room >= ways;
    if (w != NULL && !fits) solution->pressure_pa = NULL;
    if (!fits) SW_TRY(make_work(run, spaces, ways, solution));
    if (solution->pressure_pa == NULL) solution->pressure_pa = SW_KEEP(run, spaces, double);
    if (!fits || solution->flows == NULL) solution->flows = SW_KEEP(run, ways, sw_air_flow);
    return solution->pressure_pa == NULL || solution->flows == NULL ? SW_NO_MEMORY : SW_OK;
}

/* ---- making ready ---- */

static void number_rows(const sw_air_network *network, struct sw_air_work *work)
{
    work->free_count = 0;
    for (size_t i = 0; i < network->space_count; i++) {
        const sw_air_space *s = &network->spaces[i];
        work->density[i] = sw_air_density(s->t_k);
        work->row[i] = AIR_FIXED;
        if (s->fixed) continue;
        work->source[work->free_count] = s->source_kg_s;
        work->row[i] = (int)work->free_count++;
    }
}

/* Pressure of a space at a height over that at its own, both against the reference's air at the same height. */
static double rise_pa(const sw_air_network *network, const struct sw_air_work *work, size_t space, double height_m)
{
    return SW_GRAVITY * (work->density[0] - work->density[space]) * (height_m - network->spaces[space].height_m);
}

static double viscosity(double t_k)
{
    const double tabled_k = 1500; /* where matter's formula ends; held beyond */
    return sw_air_at(fmin(t_k, tabled_k)).viscosity;
}

static air_link link_of(const sw_air_network *network, const struct sw_air_work *work, const sw_air_way *way)
{
    air_link l = {.from = way->from, .to = way->to, .area_m2 = way->area_m2, .cd = way->cd};
    double forth_k = isnan(way->gas_k) ? network->spaces[way->from].t_k : way->gas_k;
    l.from_row = work->row[way->from];
    l.to_row = work->row[way->to];
    l.lift_pa = rise_pa(network, work, way->from, way->height_m) - rise_pa(network, work, way->to, way->height_m);
    l.density_forth = isnan(way->gas_k) ? work->density[way->from] : sw_air_density(forth_k);
    l.density_back = work->density[way->to];
    l.forth = way->cd * way->area_m2 * sqrt(2 * l.density_forth);
    l.back = way->cd * way->area_m2 * sqrt(2 * l.density_back);
    if (!(way->length_m > 0 && way->area_m2 > 0)) return l;
    l.hydraulic_m = way->hydraulic_m;
    l.duct_by_d = way->length_m / way->hydraulic_m;
    l.viscosity_forth = viscosity(forth_k);
    l.viscosity_back = viscosity(network->spaces[way->to].t_k);
    return l;
}

static void make_ready(const sw_air_network *network, struct sw_air_work *work)
{
    number_rows(network, work);
    work->link_count = network->way_count;
    for (size_t i = 0; i < network->way_count; i++) work->links[i] = link_of(network, work, &network->ways[i]);
}

/* ---- balances ---- */

static void sum_up(struct sw_air_work *work)
{
    memcpy(work->inflow, work->source, work->free_count * sizeof *work->inflow);
    for (size_t i = 0; i < work->link_count; i++) {
        const air_link *l = &work->links[i];
        if (l->from_row >= 0) work->inflow[l->from_row] -= l->kg_s;
        if (l->to_row >= 0) work->inflow[l->to_row] += l->kg_s;
    }
    work->worst_kg_s = 0;
    for (size_t i = 0; i < work->free_count && !isnan(work->worst_kg_s); i++) {
        if (fabs(work->inflow[i]) <= work->worst_kg_s) continue; /* NAN is the worst */
        work->worst_kg_s = fabs(work->inflow[i]);
        work->worst = i;
    }
}

/* Flows at the pressures p [spaces]; inflow, worst and noise follow. */
static void evaluate(struct sw_air_work *work, const double *p)
{
    double most_pa = 0, steepest = 0;
    work->largest_kg_s = 0;
    for (size_t i = 0; i < work->link_count; i++) {
        air_link *l = &work->links[i];
        air_flow_at(l, p[l->from] - p[l->to] + l->lift_pa);
        work->largest_kg_s = fmax(work->largest_kg_s, fabs(l->kg_s));
        most_pa = fmax(most_pa, fmax(fabs(p[l->from]), fmax(fabs(p[l->to]), fabs(l->lift_pa))));
        steepest = fmax(steepest, l->slope);
    }
    work->noise_kg_s = 16 * DBL_EPSILON * most_pa * steepest;
    sum_up(work);
}

/* Flows as if they were straight with the slope at 1 Pa: a first guess. */
static void evaluate_straight(struct sw_air_work *work, const double *p)
{
    for (size_t i = 0; i < work->link_count; i++) {
        air_link *l = &work->links[i];
        l->slope = fmax(l->forth, l->back);
        l->kg_s = l->slope * (p[l->from] - p[l->to] + l->lift_pa);
    }
    sum_up(work);
}

/* ---- Newton's step ---- */

/* Off the diagonal the slope between two free spaces, on it the slope towards known pressures. */
static void add_slopes(struct sw_air_work *work)
{
    size_t n = work->free_count;
    double *m = work->matrix;
    memset(m, 0, n * n * sizeof *m);
    for (size_t i = 0; i < work->link_count; i++) {
        const air_link *l = &work->links[i];
        size_t from = (size_t)(l->from_row >= 0 ? l->from_row : l->to_row);
        size_t to = (size_t)(l->to_row >= 0 ? l->to_row : l->from_row);
        if (l->from_row < 0 && l->to_row < 0) continue;
        m[from * n + to] += l->slope;
        if (from != to) m[to * n + from] += l->slope;
    }
}

/* Takes space k out: what joined it joins its neighbours (star-mesh transformation). Only sums of positive numbers, so that
 * a way however steep hides no other. */
static bool take_out(double *m, double *x, size_t n, size_t k)
{
    double *row = m + k * n, pivot = row[k];
    for (size_t j = k + 1; j < n; j++) pivot += row[j];
    if (!(pivot > 0)) return false;
    for (size_t i = k + 1; i < n; i++) {
        double share = row[i] / pivot;
        if (share == 0) continue;
        x[i] += share * x[k];
        m[i * n + i] += share * row[k];
        for (size_t j = k + 1; j < n; j++)
            if (j != i) m[i * n + j] += share * row[j];
    }
    row[k] = pivot;
    return true;
}

/* x holds the inflows, then the rises of pressure that balance them. */
static bool solve_dense(double *m, double *x, size_t n)
{
    for (size_t k = 0; k < n; k++)
        if (!take_out(m, x, n, k)) return false;
    for (size_t k = n; k-- > 0;) {
        for (size_t j = k + 1; j < n; j++) x[k] += m[k * n + j] * x[j];
        x[k] /= m[k * n + k];
    }
    return true;
}

static bool find_step(struct sw_air_work *work)
{
    memcpy(work->step, work->inflow, work->free_count * sizeof *work->step);
    add_slopes(work);
    return solve_dense(work->matrix, work->step, work->free_count);
}

static double along_step(const struct sw_air_work *work)
{
    double sum = 0;
    for (size_t i = 0; i < work->free_count; i++) sum += work->inflow[i] * work->step[i];
    return sum;
}

static void move(const sw_air_network *network, struct sw_air_work *work, double share)
{
    for (size_t i = 0; i < network->space_count; i++)
        work->trial[i] = work->pressure[i] + (work->row[i] >= 0 ? share * work->step[work->row[i]] : 0);
}

/* Goes along the step, shortened until the balance along it has not turned round by much; the flows are then those at the
 * new pressures. */
static void take_step(const sw_air_network *network, struct sw_air_work *work)
{
    double before = along_step(work), share = 1;
    for (int i = 0; i < SHORTER; i++) {
        move(network, work, share);
        evaluate(work, work->trial);
        double after = along_step(work);
        if (after >= -turned * before) break;
        share *= fmin(fmax(before / (before - after), 0.1), 0.9);
    }
    double *old = work->pressure;
    work->pressure = work->trial;
    work->trial = old;
}

/* ---- the solve ---- */

static bool usable(const sw_air_network *network, const double *pressure_pa)
{
    for (size_t i = 0; i < network->space_count; i++)
        if (!isfinite(pressure_pa[i])) return false;
    return true;
}

static void start(const sw_air_network *network, struct sw_air_work *work, const double *warm_pa)
{
    bool warm = warm_pa != NULL && usable(network, warm_pa);
    for (size_t i = 0; i < network->space_count; i++)
        work->pressure[i] = network->spaces[i].fixed ? network->spaces[i].pressure_pa : warm ? warm_pa[i] : 0;
    if (warm) return;
    evaluate_straight(work, work->pressure);
    if (!find_step(work)) return;
    move(network, work, 1);
    memcpy(work->pressure, work->trial, network->space_count * sizeof *work->pressure);
}

static bool good_enough(const struct sw_air_work *work)
{
    return work->worst_kg_s <= settled * work->largest_kg_s + work->noise_kg_s;
}

static sw_status not_settled(sw_run *run, const sw_air_network *network, sw_air_solution *solution)
{
    const struct sw_air_work *work = solution->work;
    const char *worst = "?";
    for (size_t i = 0; i < network->space_count; i++) {
        solution->pressure_pa[i] = NAN;
        if (work->row[i] == (int)work->worst && network->spaces[i].name != NULL) worst = network->spaces[i].name;
    }
    for (size_t i = 0; i < network->way_count; i++) solution->flows[i] = (sw_air_flow){NAN, NAN, NAN, NAN};
    return sw_fail(
        run, SW_NO_SOLUTION, (sw_place){0}, "air network",
        "not settled after %d rounds: %.3g kg/s too much in space \"%s\" (largest flow %.3g kg/s); look at its "
        "ways for areas far too large or too small",
        solution->rounds, work->worst_kg_s, worst, work->largest_kg_s);
}

static double entering(const sw_air_network *network, const struct sw_air_work *work)
{
    double sum = 0;
    for (size_t i = 0; i < network->way_count; i++) {
        const air_link *l = &work->links[i];
        const sw_air_space *source = &network->spaces[l->kg_s > 0 ? l->from : l->to];
        if (source->fixed && source->pressure_pa >= 0) sum += fabs(l->kg_s);
    }
    return sum;
}

static void give(const sw_air_network *network, sw_air_solution *solution)
{
    const struct sw_air_work *work = solution->work;
    double whole = entering(network, work);
    memcpy(solution->pressure_pa, work->pressure, network->space_count * sizeof *work->pressure);
    for (size_t i = 0; i < network->way_count; i++) {
        const air_link *l = &work->links[i];
        double density = l->kg_s >= 0 ? l->density_forth : l->density_back;
        solution->flows[i] = (sw_air_flow){.kg_s = l->kg_s,
                                           .velocity_m_s = l->area_m2 > 0 ? l->kg_s / (density * l->area_m2) : 0,
                                           .pressure_pa = l->pressure_pa,
                                           .share = whole > 0 ? l->kg_s / whole : (double)NAN};
    }
}

static sw_status settle(sw_run *run, const sw_air_network *network, sw_air_solution *solution)
{
    struct sw_air_work *work = solution->work;
    evaluate(work, work->pressure);
    solution->rounds = 0;
    while (!good_enough(work) && solution->rounds < ROUNDS && find_step(work)) {
        take_step(network, work);
        solution->rounds++;
    }
    solution->residual_kg_s = work->worst_kg_s;
    if (!good_enough(work)) return not_settled(run, network, solution);
    give(network, solution);
    return SW_OK;
}

sw_status sw_air_network_solve(sw_run *run, const sw_air_network *network, sw_air_solution *solution)
{
    SW_TRY(air_network_check(run, network));
    const double *warm_pa = solution->pressure_pa;
    SW_TRY(make_room(run, network, solution));
    make_ready(network, solution->work);
    SW_TRY(air_network_reach(run, network, solution->work));
    start(network, solution->work, solution->pressure_pa == warm_pa ? warm_pa : NULL);
    return settle(run, network, solution);
}
