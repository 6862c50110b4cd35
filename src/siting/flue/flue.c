/* flue.c: the steps of the flue study, in the order of handbook S1.12. */
#include "siting/flue/flue_parts.h"

#include <math.h>

sw_flue_appliance flue_lowest_of(const sw_flue_input *in)
{
    return in->lowest.kg_s > 0 ? in->lowest : sw_flue_lowest(&in->nominal);
}

bool flue_lowest_declared(const sw_flue_input *in)
{
    return in->lowest.kg_s > 0;
}

/* ---- the conditions ---- */

typedef struct asked { /* the same in every condition */
    const sw_flue_input *in;
    double hold_pa, supply_pa;
} asked;

static bool solve_case(const asked *all, const sw_flue_gas *gas, const sw_flue_appliance *a, flue_condition condition,
                       sw_flue_case *c)
{
    const sw_flue_input *in = all->in;
    condition.hold_pa = all->hold_pa;
    condition.supply_pa = all->supply_pa;
    return flue_settle(in, gas, a, &condition, c) && a->t_k > condition.around_k[in->house->parts[0].around];
}

static sw_status take_lines(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    enum { CASES = 5 };
    sw_flue_case *const cases[CASES] = {&r->pressure, &r->temperature, &r->over, &r->pressure_low, &r->temperature_low};
    for (size_t i = 0; i < CASES; i++) {
        cases[i]->lines = SW_KEEP(run, in->house->part_count, sw_flue_line);
        if (cases[i]->lines == NULL) return SW_NO_MEMORY;
    }
    return SW_OK;
}

bool flue_solve_cases(const sw_flue_input *in, const sw_flue_options *opt, sw_flue_result *r)
{
    const sw_house *house = in->house;
    sw_flue_appliance low = flue_lowest_of(in);
    r->gas = sw_flue_gas_of(&in->wood, in->nominal.co2_dry);
    r->low_gas = sw_flue_gas_of(&in->wood, low.co2_dry);
    const asked all = {in, flue_hold_pa(in, opt), flue_supply_pa(in, opt)};
    asked quiet = all; /* too much draught is judged without what fans and safety add to P_B */
    if (in->supply_computed) quiet.supply_pa = fmin(all.supply_pa, in->room_pa);
    r->stabiliser_pa = all.hold_pa > 0 ? all.hold_pa : (double)NAN;
    bool solved = solve_case(&all, &r->gas, &in->nominal, flue_pressure(house, opt), &r->pressure);
    solved = solve_case(&all, &r->gas, &in->nominal, flue_temperature(house, opt), &r->temperature) && solved;
    solved = solve_case(&quiet, &r->gas, &in->nominal, flue_over(house, opt), &r->over) && solved;
    solved = solve_case(&all, &r->low_gas, &low, flue_pressure(house, opt), &r->pressure_low) && solved;
    return solve_case(&all, &r->low_gas, &low, flue_temperature(house, opt), &r->temperature_low) && solved;
}

/* ---- least height ---- */

/* What is left over the draught and the room condition when the chimney is `scale` times as long. */
static double left_pa(const sw_flue_input *in, const sw_flue_gas *gas, flue_condition condition, double scale)
{
    sw_flue_case c = {.lines = NULL};
    condition.scale = scale;
    if (!flue_walk(in, gas, &in->nominal, &condition, &c)) return NAN;
    return c.P_Z - fmax(c.P_Ze, c.P_B);
}

/* Draught first grows with the height and then falls where the gas cools: the first crossing from below counts. */
double flue_least_height_m(const sw_flue_input *in, const sw_flue_gas *gas, const sw_flue_options *opt)
{
    enum { STEPS = 60, HALVINGS = 40 };
    double height_m = flue_chimney_rise_m(in->house), high = SW_FLUE_MOST_M / height_m, low = high * 1e-4;
    flue_condition condition = flue_pressure(in->house, opt);
    condition.supply_pa = flue_supply_pa(in, opt);
    double ratio = pow(high / low, 1.0 / STEPS);
    if (left_pa(in, gas, condition, low) >= 0) return low * height_m;
    for (int i = 0; i < STEPS; i++) {
        high = low * ratio;
        if (!(left_pa(in, gas, condition, high) >= 0)) {
            low = high;
            continue;
        }
        for (int k = 0; k < HALVINGS; k++) {
            double middle = 0.5 * (low + high);
            *(left_pa(in, gas, condition, middle) >= 0 ? &high : &low) = middle;
        }
        return high * height_m;
    }
    return NAN;
}

/* ---- verdicts ---- */

static double over_dew_k(const sw_flue_case *c, bool wet_class)
{
    return c->outlet_wall_k - (wet_class ? sw_k_from_c(0) : c->dew_point_k);
}

double flue_over_dew_k(const sw_flue_input *in, const sw_flue_result *r)
{
    bool wet = flue_is_wet(in->house);
    double over_k = over_dew_k(&r->temperature, wet);
    return flue_lowest_declared(in) ? fmin(over_k, over_dew_k(&r->temperature_low, wet)) : over_k;
}

void flue_sum_up(const sw_flue_input *in, sw_flue_result *r)
{
    r->reserve_pa = r->pressure.P_Z - r->pressure.P_Ze;
    r->draws = r->reserve_pa >= 0 && r->pressure.P_Z >= r->pressure.P_B;
    r->dry = flue_over_dew_k(in, r) >= 0;
    r->over_draught = r->over.P_Z > in->nominal.most_pa + r->over.P_FV + r->over.P_B;
    if (!flue_lowest_declared(in)) return;
    r->reserve_pa = fmin(r->reserve_pa, r->pressure_low.P_Z - r->pressure_low.P_Ze);
    r->draws = r->draws && r->reserve_pa >= 0 && r->pressure_low.P_Z >= r->pressure_low.P_B;
}

static void forget(sw_flue_result *r)
{
    r->draws = r->dry = r->over_draught = false;
    r->reserve_pa = r->least_height_m = NAN;
}

sw_status sw_flue_solve(sw_run *run, const sw_flue_input *in, const sw_flue_options *opt, const sw_flue_result **result)
{
    *result = NULL;
    SW_TRY(sw_flue_check(run, in, opt)); /* flue_check.c */
    sw_flue_result *r = SW_KEEP(run, 1, sw_flue_result);
    if (r == NULL) return SW_NO_MEMORY;
    SW_TRY(take_lines(run, in, r));
    r->solved = flue_solve_cases(in, opt, r); /* flue_case.c */
    r->wind_pa = r->pressure.wind_pa;
    r->first_wet_m = NAN;
    if (r->solved)
        flue_sum_up(in, r);
    else
        forget(r);
    if (r->solved) r->least_height_m = flue_least_height_m(in, &r->gas, opt);
    r->door = (sw_flue_open_door){NAN, NAN, NAN, NAN, NAN, NAN};
    if (r->solved) r->door = flue_door(in, opt, &r->pressure_low); /* flue_door.c */
    SW_TRY(flue_judge(run, in, opt, r));                           /* flue_findings.c */
    sw_findings_sort(&r->findings);
    *result = r;
    return SW_OK;
}
