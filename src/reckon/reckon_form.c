/* reckon_form.c: press brake and plate rolls by hand. Sources stand in each row; the functions are those of making/form. */
#include "making/form/form.h"
#include "reckon/reckon_parts.h"

#include <math.h>

#define CHART    "a toolmaker's air bending chart for mild steel of 450 N/mm2, and a press-brake maker's page on dies"
#define DERIVED  "derived: geometry of the bend"
#define GARDINER "Gardiner, Trans. ASME 79 (1957); Kalpakjian and Schmid, ch. 16 (from memory)"
#define MDH      "Marciniak, Duncan, Hu, Mechanics of Sheet Metal Forming, eqs 6.18 to 6.21; springback form derived"

static void press_force(const double *in, double *out)
{
    out[0] = sw_press_force_n(1.33, in[1], in[0], in[3], in[2]) / 1e3;
    out[1] = sw_press_force_n(1.5, in[1], in[0], in[3], in[2]) / 1e3;
    out[2] = sw_press_force_n(sw_press_factor(in[0], in[2]), in[1], in[0], in[3], in[2]) / 1e3;
}

static void die(const double *in, double *out)
{
    double die_mm = in[1] > 0.0 ? in[1] : sw_die_wanted_mm(in[0]);
    out[0] = sw_die_wanted_mm(in[0]);
    out[1] = sw_natural_radius_mm(die_mm, SW_STEEL);
    out[2] = sw_natural_radius_mm(die_mm, SW_STAINLESS);
    out[3] = sw_least_flange_mm(die_mm);
}

static void punch_depth(const double *in, double *out)
{
    double A = sw_rad_from_deg(in[3]);
    out[0] = sw_punch_depth_mm(in[0], in[1], in[2], A);
    out[1] = sw_punch_slope_mm(in[0], in[1], in[2], A) * sw_rad_from_deg(1.0);
}

static void springback(const double *in, double *out)
{
    double loaded_mm = sw_springback_loaded_mm(in[1], in[2], in[3], in[0]);
    out[0] = loaded_mm;
    out[1] = sw_springback_ratio(loaded_mm, in[2], in[3], in[0]);
    out[2] = sw_deg_from_rad(sw_overbend_rad(loaded_mm, in[1], in[0], sw_rad_from_deg(in[4])));
}

static void sprung(const double *in, double *out)
{
    out[0] = sw_springback_ratio(in[1], in[2], in[3], in[0]);
    out[1] = in[1] / out[0];
    out[2] = sw_deg_from_rad(sw_overbend_rad(in[1], out[1], in[0], sw_rad_from_deg(in[4])));
}

static void springback_factor(const double *in, double *out)
{
    static const char *const grades[] = {"DC01", "DC04", "1.4301"};
    out[0] = sw_springback_factor(grades[in[0] < 1.5 ? 0 : in[0] < 2.5 ? 1 : 2], in[2], in[1]);
    out[1] = sw_springback_tool_radius_mm(out[0], in[2], in[1]);
    out[2] = in[3] / out[0];
}

static void channel(const double *in, double *out)
{
    out[0] = sw_channel_flange_mm(in[0], in[1]);
}

static void three_rolls(const double *in, double *out)
{
    sw_strip_steel m = {in[2], in[5], 0.3, in[6] > 0.5};
    double s_mm = in[0], kappa_f = 1.0 / (in[1] + s_mm / 2.0);
    double kappa = sw_loaded_curvature(kappa_f, sw_yield_curvature(&m, s_mm)), loaded_mm = 1.0 / kappa - s_mm / 2.0;
    double contact_rad = sw_roll_contact_rad(loaded_mm, s_mm, in[3], in[4] / 2.0);
    out[0] = loaded_mm;
    out[1] = sw_roll_feed_mm(loaded_mm, s_mm, in[3], in[4] / 2.0);
    out[2] = sw_deg_from_rad(contact_rad);
    out[3] = sw_roll_flat_mm(loaded_mm, s_mm, contact_rad);
    out[4] = sw_bending_moment_n(&m, s_mm, kappa);
    out[5] = sw_roll_force_n_mm(out[4], loaded_mm, s_mm, contact_rad);
}

static void roll_springback(const double *in, double *out)
{
    sw_strip_steel m = {in[2], in[3], 0.3, in[4] > 0.5};
    double kappa = 1.0 / (in[1] + in[0] / 2.0), kappa_f = sw_sprung_curvature(kappa, sw_yield_curvature(&m, in[0]));
    out[0] = sw_yield_curvature(&m, in[0]);
    out[1] = 1.0 / kappa_f - in[0] / 2.0;
}

static void four_rolls(const double *in, double *out)
{
    double tilt_rad = sw_rad_from_deg(in[6]);
    sw_four_rolls r = {in[2], in[3], {in[4], in[5]}, {-sin(tilt_rad), cos(tilt_rad)}};
    out[0] = sw_four_roll_setting_mm(&r, in[0], in[1]);
    out[1] = sw_four_roll_flat_mm(&r, in[0]);
    out[2] = out[0] - out[1];
}

/* clang-format off */
#define IN_S  {"s", "mm", "sheet thickness", NAN, 0.1, 50}
#define IN_V  {"V", "mm", "die opening", NAN, 1, 500}
#define IN_RE {"Re", "MPa", "yield stress", NAN, 1, 2000}
#define IN_E  {"E", "MPa", "Young's modulus", 210000, 1e3, 1e6}
#define IN_A  {"A", "deg", "bend angle (0 = flat)", 90, 0, 179}
#define IN_PLANE {"plane", "", "1 = wide sheet (plane strain), 0 = narrow strip", 0, 0, 1}

static const sw_reckon rows[] = {
    {"press_force", "force of an air bend", "F = C Rm s2 l/V", "V/s from 6 to 15", "common practice; Lange, Umformtechnik vol. 3; Oehler/Kaiser (from memory)",
     {IN_S, {"Rm", "MPa", "upper tensile strength", NAN, 50, 2000}, IN_V, {"l", "mm", "length of the bend", NAN, 0, 2e4}},
     {{"F_low", "kN", "with C 1.33"}, {"F", "kN", "with C 1.5, for the machine's capacity"}, {"F_V", "kN", "with C = 1 + 4 s/V"}}, press_force},
    {"press_die", "die, radius it makes, least flange", "V = 6, 8, 10, 12 s; chart of radius and flange", "dies of 6 to 80 mm by the chart, 0.16 V and 0.7 V beyond", CHART,
     {IN_S, {"V", "mm", "die opening; 0 = by the rule", 0, 0, 500}},
     {{"V_rule", "mm", "die opening by the rule"}, {"r", "mm", "natural inside radius, mild steel"}, {"r_stainless", "mm", "the same, stainless (common practice, no source)"}, {"b_min", "mm", "least outside flange at 90 deg"}}, die},
    {"punch_depth", "how deep the punch goes for a bend angle", "y = (V/2) tan(A/2) - (r + s)(1/cos(A/2) - 1)", "sharp shoulders, legs that reach them", DERIVED,
     {IN_V, IN_S, {"r", "mm", "inside radius", NAN, 0, 200}, IN_A}, {{"y", "mm", "depth from touching the flat sheet"}, {"dy", "mm", "more depth a degree"}}, punch_depth},
    {"overbend", "radius and angle under load for a wanted bend", "R_i/R_f = 4 q3 - 3 q + 1, q = R_i Re/(E s); the neutral length stays", "any radius", GARDINER,
     {IN_S, {"R_f", "mm", "inside radius wanted", NAN, 0.1, 1e4}, IN_RE, IN_E, IN_A}, {{"R_i", "mm", "inside radius under load"}, {"ratio", "", "R_i/R_f"}, {"A_i", "deg", "angle under load"}}, springback},
    {"springback", "what a bend springs back to", "R_i/R_f = 4 q3 - 3 q + 1, q = R_i Re/(E s)", "q to 0.5", GARDINER,
     {IN_S, {"R_i", "mm", "inside radius under load", NAN, 0.1, 1e4}, IN_RE, IN_E, IN_A}, {{"ratio", "", "R_i/R_f"}, {"R_f", "mm", "inside radius that stays"}, {"A_i", "deg", "angle under load for A"}}, sprung},
    {"springback_factor", "springback by the table book's factor", "alpha1 = alpha2/k_R, r1 = k_R (r2 + s/2) - s/2", "r2/s from 1 to 100 (stainless to 40)", "table book after Oehler and VDI 3389, header from memory",
     {{"grade", "", "1 = DC01, 2 = DC04, 3 = 1.4301", 1, 1, 3}, IN_S, {"r2", "mm", "inside radius wanted", NAN, 0.1, 1e4}, IN_A}, {{"k_R", "", "springback factor"}, {"r1", "mm", "radius of the tool"}, {"A1", "deg", "angle under load"}}, springback_factor},
    {"channel_flange", "longest first flange of a channel in a right-angled V", "h = w - p/sqrt(2)", "straight punch", DERIVED,
     {{"w", "mm", "base", NAN, 0, 1e4}, {"p", "mm", "thickness of the punch", NAN, 0, 500}}, {{"h", "mm", "longest first flange"}}, channel},
    {"three_rolls", "settings of three rolls for a wanted radius", "kappa of the springback cubic; x = D - sqrt(D2 - a2), D = R_i + s + r_l; P = 2 M/(R_m tan phi)", "circle between the contacts: a first setting", MDH,
     {IN_S, {"R_f", "mm", "inside radius wanted", NAN, 1, 1e5}, IN_RE, {"r_l", "mm", "radius of the lower rolls", NAN, 1, 2000}, {"centres", "mm", "between the lower rolls", NAN, 1, 5000}, IN_E, IN_PLANE},
     {{"R_i", "mm", "inside radius under load"}, {"x", "mm", "downfeed from flat"}, {"phi", "deg", "contact angle"}, {"flat", "mm", "end that stays flat"}, {"M", "N", "moment a mm of width, N mm/mm"}, {"P", "N/mm", "top-roll force a mm of width"}}, three_rolls},
    {"roll_springback", "what a rolled curvature springs back to", "kappa_f = kappa - 1.5 kappa_e + kappa_e3/(2 kappa2)", "elastic, then perfectly plastic", MDH,
     {IN_S, {"R_i", "mm", "inside radius under load", NAN, 1, 1e5}, IN_RE, IN_E, IN_PLANE}, {{"kappa_e", "1/mm", "yield curvature"}, {"R_f", "mm", "inside radius that stays"}}, roll_springback},
    {"four_rolls", "setting of the side roll of four", "|P0 + lambda u - O| = R_i + s + r_s, O = (0, R_i - r_u), smaller root", "plate pinched under the top roll", DERIVED,
     {IN_S, {"R_i", "mm", "inside radius under load", NAN, 1, 1e5}, {"r_u", "mm", "radius of the top roll", NAN, 1, 2000}, {"r_s", "mm", "radius of the side roll", NAN, 1, 2000},
      {"x0", "mm", "side roll's start, sideways", NAN, -5000, 5000}, {"y0", "mm", "side roll's start, height", NAN, -5000, 5000}, {"tilt", "deg", "of its way from upright towards the top roll", 30, 0, 80}},
     {{"lambda", "mm", "setting"}, {"flat", "mm", "setting at flat plate"}, {"stroke", "mm", "from flat"}}, four_rolls},
};
/* clang-format on */

const sw_reckon *sw_reckon_form(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
