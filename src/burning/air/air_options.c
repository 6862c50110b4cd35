/* air_options.c: what can be set in the study of air. */
#include "burning/air/air.h"

#define IDELCHIK "Idelchik, Handbook of Hydraulic Resistance (from memory)"

static const sw_option options[] = {
    SW_OPTION(sw_air_options, draught_pa, "Pa", 12, 0, 100, "draught at the collar, below the room at the same height",
              "type test of room heaters: 12 Pa (EN 13240, from memory)"),
    SW_OPTION(sw_air_options, room_c, "degC", 20, -30, 60, "air of the room",
              "type test of room heaters (from memory)"),
    SW_OPTION(sw_air_options, firebox_c, "degC", 750, -30, 1500, "mean gas below the baffle",
              "common practice, no source: 700 to 950 in a steady burn"),
    SW_OPTION(sw_air_options, upper_c, "degC", 450, -30, 1500, "mean gas above the baffle", "ours: between both"),
    SW_OPTION(sw_air_options, flue_c, "degC", 270, -30, 1000, "gas in the collar",
              "common practice, no source: 220 to 330 in a type test"),
    SW_OPTION(sw_air_options, preheat_c, "degC", 150, -30, 800, "air in wash slots, rear jets and secondary openings",
              "ours: ducts along a warm body"),
    SW_OPTION(sw_air_options, primary_share, "", 0.2, 0, 1, "how far the primary slide is open",
              "common practice, no source: nearly shut after ignition"),
    SW_OPTION(sw_air_options, wash_share, "", 1, 0, 1, "how far the airwash slide is open", "ours"),
    SW_OPTION(sw_air_options, rear_share, "", 1, 0, 1, "how far rear jets and secondary openings are open", "ours"),
    SW_OPTION(sw_air_options, leak_mm2, "mm2", 250, 0, 1e5, "free area of door seals and joints",
              "ours: about a tenth of the air of a usual stove"),
    SW_OPTION(sw_air_options, opening_cd, "", 0.62, 0.3, 1, "discharge coefficient of the openings",
              "sharp-edged holes in sheet 0.60 to 0.62: " IDELCHIK),
    SW_OPTION(sw_air_options, throat_cd, "", 0.62, 0.3, 1, "discharge coefficient of the throat at the baffle",
              "sharp-edged: " IDELCHIK),
    SW_OPTION(sw_air_options, collar_cd, "", 0.82, 0.3, 1, "discharge coefficient of the collar",
              "sharp entry 0.5 and the velocity head 1, 1/sqrt(1.5): " IDELCHIK),
    SW_OPTION(sw_air_options, bed_mm, "mm", 60, 0, 500, "depth of the embers that primary air passes", "ours"),
    SW_OPTION(sw_air_options, bed_piece_mm, "mm", 25, 2, 200, "size of a piece of ember", "ours"),
    SW_OPTION(sw_air_options, bed_void, "", 0.5, 0.2, 0.95, "share of voids in the embers",
              "packed beds 0.4 to 0.5: Ergun 1952 (from memory)"),
};

const sw_option *sw_air_option_table(size_t *count)
{
    *count = sizeof options / sizeof *options;
    return options;
}

sw_air_options sw_air_options_defaults(void)
{
    sw_air_options o = {.made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(options, sizeof options / sizeof *options, &o);
    return o;
}
