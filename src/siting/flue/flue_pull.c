/* flue_pull.c: the draught at the stove's collar for one gas flow and one weather: steady, without margins, no memory. */
#include "siting/flue/flue_parts.h"

#include <math.h>

static flue_condition weather_of(const sw_flue_input *in, const sw_flue_options *opt, const sw_flue_now *now)
{
    flue_condition condition = flue_weather(in->house, opt, now->outside_k, now->wind_pa);
    condition.supply_pa = in->room_pa;
    return condition;
}

sw_flue_pull sw_flue_pull_of(const sw_flue_input *in, const sw_flue_gas *gas, const sw_flue_options *opt,
                             sw_flue_now now)
{
    flue_condition condition = weather_of(in, opt, &now);
    sw_flue_appliance a = {.kg_s = now.kg_s, .t_k = now.t_k, .co2_dry = now.co2_dry};
    sw_flue_case c = {.lines = NULL};
    sw_flue_gas own;
    if (gas == NULL) {
        own = sw_flue_gas_of(&in->wood, now.co2_dry);
        gas = &own;
    }
    if (now.kg_s > 0) condition.hold_pa = flue_hold_pa(in, opt);
    if (!flue_settle(in, gas, &a, &condition, &c)) return (sw_flue_pull){NAN, NAN, NAN, NAN, NAN, NAN};
    double resistance_pa = c.P_R + c.P_RV;
    sw_flue_pull pull = {.outlet_k = c.outlet_k, .wall_k = c.outlet_wall_k, .velocity_m_s = c.velocity_m_s};
    pull.air_kg_s = c.air_kg_s;
    pull.dew_point_k = c.dew_point_k;
    pull.draught_pa = c.P_H + c.P_HV - (now.kg_s < 0 ? -resistance_pa : resistance_pa) - c.wind_pa - in->room_pa;
    return pull;
}

sw_status sw_flue_along(sw_run *run, const sw_flue_input *in, const sw_flue_options *opt, sw_flue_now now,
                        const sw_flue_case **along)
{
    flue_condition condition = weather_of(in, opt, &now);
    sw_flue_appliance a = {.kg_s = now.kg_s, .t_k = now.t_k, .co2_dry = now.co2_dry};
    sw_flue_gas gas = sw_flue_gas_of(&in->wood, now.co2_dry);
    sw_flue_case *c = SW_KEEP(run, 1, sw_flue_case);
    *along = NULL;
    SW_ASSERT(now.kg_s > 0);
    if (c == NULL) return SW_NO_MEMORY;
    *c = (sw_flue_case){.lines = SW_KEEP(run, in->house->part_count, sw_flue_line)};
    if (c->lines == NULL) return SW_NO_MEMORY;
    condition.hold_pa = flue_hold_pa(in, opt);
    if (!flue_settle(in, &gas, &a, &condition, c))
        return sw_fail(run, SW_NO_SOLUTION, in->house->place, "flue", "the gas does not settle along the chimney");
    *along = c;
    return SW_OK;
}
