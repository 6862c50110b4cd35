/* flue_options.c: what can be set in the study of the flue. */
#include "siting/flue/flue.h"

static const sw_option options[] = {
    SW_OPTION(sw_flue_options, supply_pa, "Pa", 4, 0, 50, "what the combustion air costs on its way into the room",
              "EN 13384-1, where no opening is calculated (from memory)"),
    SW_OPTION(sw_flue_options, room_c, "degC", 20, -30, 40, "heated rooms round the flue",
              "EN 13384-1 cl. 5.7.1 (from memory)"),
    SW_OPTION(sw_flue_options, s_e, "", 1.5, 1, 2, "flow safety coefficient S_E",
              "EN 13384-1 cl. 5.7.8: natural draught, solid fuel (from memory)"),
    SW_OPTION(sw_flue_options, s_h_pressure, "", 0.5, 0, 1, "temperature instability S_H of the pressure condition",
              "EN 13384-1 cl. 5.7.7 (from memory)"),
};

const sw_option *sw_flue_option_table(size_t *count)
{
    *count = sizeof options / sizeof *options;
    return options;
}

sw_flue_options sw_flue_options_defaults(void)
{
    sw_flue_options o = {.made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(options, sizeof options / sizeof *options, &o);
    return o;
}
