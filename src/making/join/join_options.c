/* join_options.c: what can be set in the study of welding. */
#include "making/join/join.h"

#define PRACTICE "common practice, no source"

/* clang-format off */
static const sw_option options[] = {
    SW_OPTION(sw_join_options, step_mm, "mm", 10, 1, 100, "spacing of points along a seam", "ours: below the length of a tack"),
    SW_OPTION(sw_join_options, access_mm, "mm", 40, 5, 500, "spacing of the points where the torch is tried", "ours: two torch diameters"),
    SW_OPTION(sw_join_options, end_mm, "mm", 20, 0, 100, "ends of a seam welded from the last place the torch reaches", "ours: about a torch's diameter"),
    SW_OPTION(sw_join_options, stickout_mm, "mm", 15, 5, 40, "from the root of the seam to the nozzle", PRACTICE),
    SW_OPTION(sw_join_options, tilt_rad, "rad", 25 * (SW_PI / 180), 0, 1, "largest tilt of the torch off the bisector", PRACTICE),
    SW_OPTION(sw_join_options, stride_mm, "mm", 150, 50, 2000, "back-step stride; seams longer than two are laid in strides", "100 to 200 mm: " PRACTICE),
    SW_OPTION(sw_join_options, overlap_mm, "mm", 10, 0, 50, "overlap of every restart on a tight seam", PRACTICE),
    SW_OPTION(sw_join_options, excess, "", 0.1, 0, 1, "convexity and gap: share on top of the seam's area", "0.1 to 0.3: " PRACTICE),
    SW_OPTION(sw_join_options, wire_share, "", 0.95, 0.5, 1, "share of the wire that stays in the seam", "solid wire: " PRACTICE),
    SW_OPTION(sw_join_options, throat_share, "", 0.7, 0.3, 1, "largest throat, share of the thinner sheet", "a at most 0.7 t_min: DIN 18800-1 (from memory)"),
    SW_OPTION(sw_join_options, tight_share, "", 0.5, 0.1, 1, "least throat of a tight seam, share of the thinner sheet", "gas-tightness welds 0.5 to 0.7 t_min: " PRACTICE),
    SW_OPTION(sw_join_options, heat_least, "kJ/mm2", 0.03, 0, 1, "least heat input, kJ/mm a mm of the thicker sheet", "ours: below a maker's fillet settings, 0.075 to 0.11"),
    SW_OPTION(sw_join_options, heat_most, "kJ/mm2", 0.15, 0.01, 2, "largest heat input, kJ/mm a mm of the thinner sheet", "ours: above a maker's fillet settings, 0.075 to 0.11"),
    SW_OPTION(sw_join_options, robot_seam_mm, "mm", 20, 0, 1000, "shorter seams are welded by hand", "ours"),
    SW_OPTION(sw_join_options, balance_s, "s", 5, 0, 1000, "cost of a seam on the side already pulled to, in comparisons", "ours"),
    SW_OPTION(sw_join_options, back_mm, "mm", 60, 0, 1000, "the torch is drawn back this far between seams", "ours"),
    SW_OPTION(sw_join_options, carbon, "%", 0.17, 0.01, 0.5, "carbon of the sheet", "S235JR, most: EN 10025-2 (from memory)"),
    SW_OPTION(sw_join_options, manganese, "%", 1.4, 0, 3, "manganese of the sheet", "S235JR, most: EN 10025-2 (from memory)"),
    SW_OPTION(sw_join_options, hydrogen, "ml/100g", 5, 1, 20, "hydrogen of the weld metal", "solid wire: " PRACTICE),
    SW_OPTION(sw_join_options, source_share, "", 0.8, 0.2, 1, "power of the arc over power from the mains", "inverter: " PRACTICE),
    SW_OPTION(sw_join_options, width_mm, "mm", 100, 1, 2000, "width over which the angular distortion is told", "ours"),
    SW_OPTION(sw_join_options, leak_m3_s, "m3/s", 5.5556e-4, 0, 1, "largest leak of the tight seams together", "2 m3/h at 10 Pa is often quoted (from memory, doubtful): see EN 16510-1 and the approval"),
    SW_OPTION(sw_join_options, leak_pa, "Pa", 10, 1, 500, "pressure of the leak test", PRACTICE),
};
/* clang-format on */

const sw_option *sw_join_option_table(size_t *count)
{
    *count = sizeof options / sizeof *options;
    return options;
}

sw_join_options sw_join_options_defaults(void)
{
    sw_join_options o = {.made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(options, sizeof options / sizeof *options, &o);
    return o;
}
