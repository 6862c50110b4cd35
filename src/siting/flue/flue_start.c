/* flue_start.c: from a cold shaft to a drawing one. Order of magnitude: each part's wall is one capacity. */
#include "siting/flue/flue_parts.h"

#include <math.h>

enum { STEPS = 720 };
static const double step_s = 10; /* two hours in all */

typedef struct warming {                      /* one part */
    sw_flue_duct duct;                        /* from the gas to the wall */
    double wall_k, capacity, outer, around_k; /* J/(m2 K) and W/(m2 K) by inner surface */
} warming;

static double whole_m(const sw_house *house, bool pipe)
{
    double sum = 0;
    for (size_t i = 0; i < house->part_count; i++)
        if (house->parts[i].pipe == pipe) sum += house->parts[i].length_m;
    return sum;
}

sw_flue_duct flue_bare_duct(const sw_house *house, const sw_flue_part *part, double wall_k)
{
    sw_flue_duct d = {.hydraulic_m = sw_flue_hydraulic_m(part), .area_m2 = sw_flue_area_m2(part)};
    d.perimeter_m = 4 * d.area_m2 / d.hydraulic_m;
    d.outer_m = sw_flue_outer_m(part);
    d.length_m = part->length_m;
    d.whole_m = whole_m(house, part->pipe);
    d.roughness_m = sw_m_from_mm(part->roughness_mm);
    d.outer_h = INFINITY;
    d.around_k = wall_k;
    d.s_h = 1;
    return d;
}

static warming make_warming(const sw_house *house, const sw_flue_part *part, const flue_condition *c, double shaft_k)
{
    warming w = {.capacity = flue_capacity_j_m2_k(part), .around_k = c->around_k[part->around]};
    w.wall_k = part->pipe ? c->around_k[SW_HEATED] : shaft_k;
    w.duct = flue_bare_duct(house, part, w.wall_k);
    w.outer = 1 / (sw_flue_resistance(part) + w.duct.hydraulic_m / (w.duct.outer_m * flue_film(part)));
    return w;
}

/* The wall goes towards the balance of both sides, exactly while the gas stays as it is. */
static void warm(warming *w, const sw_flue_line *l)
{
    double both = l->inner_h + w->outer, balance_k = (l->inner_h * l->mean_k + w->outer * w->around_k) / both;
    w->wall_k = balance_k + (w->wall_k - balance_k) * exp(-both * step_s / w->capacity);
}

typedef struct fire { /* gas at the stove's outlet */
    double kg_s, t_k;
} fire;

/* Of the course between its points, held after the last; without one, nominal. */
static fire fire_at(const sw_flue_input *in, double time_s)
{
    const sw_flue_course *l = in->lighting;
    size_t i = 0;
    if (l == NULL) return (fire){in->nominal.kg_s, in->nominal.t_k};
    while (i + 1 < l->count && l->time_s[i + 1] <= time_s) i++;
    if (i + 1 == l->count) return (fire){l->kg_s[i], l->t_k[i]};
    double share = fmax(time_s - l->time_s[i], 0) / (l->time_s[i + 1] - l->time_s[i]);
    return (fire){l->kg_s[i] + share * (l->kg_s[i + 1] - l->kg_s[i]), l->t_k[i] + share * (l->t_k[i + 1] - l->t_k[i])};
}

/* Draught at the collar with the walls as they are; they then warm for one step. */
static double step(const sw_flue_input *in, const sw_flue_gas *gas, fire now, const flue_condition *c, warming *walls)
{
    const sw_house *house = in->house;
    double t_k = now.t_k, sum_pa = 0, first_pa = NAN, last_pa = 0;
    for (size_t i = 0; i < house->part_count; i++) {
        warming *w = &walls[i];
        const sw_flue_part *part = &house->parts[i];
        w->duct.around_k = w->wall_k;
        sw_flue_line l = sw_flue_cool(&w->duct, gas, now.kg_s, t_k, c->outside_pa);
        double zeta = part->zeta + (i + 1 == house->part_count ? house->terminal_zeta : 0);
        last_pa = l.density * l.velocity_m_s * l.velocity_m_s / 2;
        if (isnan(first_pa)) first_pa = last_pa;
        sum_pa += sw_flue_draught_pa(part->rise_m, c->outside_density, l.density) -
                  (l.psi * part->length_m / w->duct.hydraulic_m + zeta) * last_pa;
        warm(w, &l);
        t_k = l.exit_k;
    }
    return sum_pa - (last_pa - first_pa) - c->wind_pa;
}

static sw_status check_course(sw_run *run, const sw_flue_input *in)
{
    const sw_flue_course *l = in->lighting;
    bool sound = l == NULL || (l->count > 0 && l->time_s[0] >= 0);
    for (size_t i = 0; l != NULL && i < l->count; i++)
        sound = sound && l->kg_s[i] > 0 && l->kg_s[i] <= 1 && l->t_k[i] >= 200 && l->t_k[i] <= 1500 &&
                (i == 0 || l->time_s[i] > l->time_s[i - 1]);
    if (sound) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, in->house->place, "lighting",
                   "the gas from lighting on must have rising times, above 0 to 1 kg/s, 200 to 1500 K");
}

static double crossing_s(const double *time_s, const double *draught_pa, double wanted_pa)
{
    if (draught_pa[0] >= wanted_pa) return 0;
    for (size_t i = 1; i <= STEPS; i++)
        if (draught_pa[i] >= wanted_pa)
            return time_s[i] - step_s * (draught_pa[i] - wanted_pa) / (draught_pa[i] - draught_pa[i - 1]);
    return INFINITY;
}

static sw_status start_up(sw_run *run, const sw_flue_input *in, const flue_condition *c, double shaft_k,
                          sw_flue_start *start)
{
    const sw_house *house = in->house;
    double *time_s = SW_KEEP(run, STEPS + 1, double), *draught_pa = SW_KEEP(run, STEPS + 1, double);
    warming *walls = SW_SCRATCH(run, house->part_count, warming);
    if (time_s == NULL || draught_pa == NULL || walls == NULL) return SW_NO_MEMORY;
    sw_flue_gas gas = sw_flue_gas_of(&in->wood, in->nominal.co2_dry);
    for (size_t i = 0; i < house->part_count; i++) walls[i] = make_warming(house, &house->parts[i], c, shaft_k);
    for (size_t i = 0; i <= STEPS; i++) {
        time_s[i] = step_s * (double)i;
        draught_pa[i] = step(in, &gas, fire_at(in, time_s[i]), c, walls);
        if (!isfinite(draught_pa[i]))
            return sw_fail(run, SW_NO_SOLUTION, house->place, "flue", "heating up did not settle after %g s",
                           time_s[i]);
    }
    start->standing_pa = sw_flue_standing_pa(flue_chimney_rise_m(house), c->outside_k, shaft_k, c->outside_pa);
    start->time_s = time_s;
    start->draught_pa = draught_pa;
    start->count = STEPS + 1;
    start->draws_after_s = crossing_s(time_s, draught_pa, in->nominal.need_pa + c->supply_pa);
    return SW_OK;
}

sw_status sw_flue_start_up(sw_run *run, const sw_flue_input *in, const sw_flue_options *opt, double outside_k,
                           double shaft_k, sw_flue_start *start)
{
    *start = (sw_flue_start){.standing_pa = NAN, .draws_after_s = NAN};
    SW_TRY(sw_flue_check(run, in, opt));
    SW_TRY(check_course(run, in));
    if (!(outside_k >= 200 && outside_k <= 330 && shaft_k >= 200 && shaft_k <= 600))
        return sw_fail(run, SW_OUT_OF_RANGE, in->house->place, "start",
                       "%g K outside and %g K in the shaft cannot be; allowed 200 to 330 and 200 to 600", outside_k,
                       shaft_k);
    flue_condition c = flue_weather(in->house, opt, outside_k, 0);
    c.supply_pa = flue_supply_pa(in, opt);
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = start_up(run, in, &c, shaft_k, start);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
