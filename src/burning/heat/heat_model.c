/* heat_model.c: the constants of the heat network that a hot test may correct. */
#include "burning/heat/heat.h"

static const sw_option rows[] = {
    SW_OPTION(sw_heat_model, contact_r, "m2 K/W", 0.02, 1e-4, 0.5, "between a board and the sheet it lies against",
              "common practice, no source: 0.5 to 1 mm of air, 0.01 to 0.03"),
    SW_OPTION(sw_heat_model, inside_h_factor, "", 1.5, 0.0, 5.0, "on convection inside firebox and upper space",
              "ours: flames stir; 8 W/(m2 K) is usual at a pane (handbook F5.3, E9), still gas gives 5 to 6"),
    SW_OPTION(sw_heat_model, outside_h_factor, "", 1.0, 0.0, 5.0, "on free convection of shell and glass", "ours"),
    SW_OPTION(sw_heat_model, gap_loss, "", 2.5, 0.1, 100.0, "loss coefficients of the convection gap, way in and out",
              "1.5 in, 1.0 out: Idelchik, Handbook of Hydraulic Resistance (from memory)"),
    SW_OPTION(sw_heat_model, soot_k_1_m, "1/m", 0.8, 0.0, 5.0, "absorption of the flame's soot",
              "wood cribs: Hagglund & Persson 1976 in Drysdale, Introduction to Fire Dynamics (from memory)"),
    SW_OPTION(sw_heat_model, lining_k_factor, "", 1.0, 0.2, 5.0, "on the lining's conductivity",
              "ours: makers' +- 25 %"),
    SW_OPTION(sw_heat_model, flame_share, "", 0.9, 0.0, 1.0, "of the heat: set free below the baffle",
              "common practice, no source"),
    SW_OPTION(sw_heat_model, passing_share, "", 0.75, 0.0, 1.0,
              "of the gas below the baffle's way: passes along and cools part by part; 0: stirred, leaves at its mean",
              "between 0.45 (mean 170 K over what leaves: Hottel & Sarofim 1967) and 1 (mean sqrt(T_ad T_out): boiler "
              "practice), both from memory"),
    SW_OPTION(sw_heat_model, bed_share, "", 0.3, 0.0, 1.0, "of that: set free in the bed of embers",
              "char's share of the heat, 0.18 x 32.8 MJ/kg of 18.66: handbook F3.1"),
    SW_OPTION(sw_heat_model, duct_h_factor, "", 1.0, 0.0, 5.0,
              "on the films in the ducts of wash and jets; 0: they warm no air", "ours"),
    SW_OPTION(sw_heat_model, ember_gas_share, "", 1.0, 0.0, 3.0,
              "of the least gas that burning char makes: leaves the embers as warm as they are",
              "11.5 kg of air for a kg of char, handbook F3.1; 0: none"),
};
enum { ROWS = sizeof rows / sizeof *rows };

const sw_option *sw_heat_model_table(size_t *count)
{
    *count = ROWS;
    return rows;
}

sw_heat_model sw_heat_model_defaults(void)
{
    sw_heat_model m = {0};
    sw_options_fill(rows, ROWS, &m);
    return m;
}
