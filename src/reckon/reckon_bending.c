/* reckon_bending.c: sheet bending by hand. Sources stand in each row; the functions are those of making/sheet. */
#include "making/sheet/sheet.h"
#include "matter/matter.h"
#include "reckon/reckon_parts.h"

#include <math.h>

#define DIN6935  "DIN 6935:2011-10, calculation of flat length"
#define GEOMETRY "derived: plane geometry of the bend"

/* clang-format off */
#define IN_S  {"s", "mm", "sheet thickness", NAN, 0.1, 50}
#define IN_R  {"r", "mm", "inside radius", NAN, 0, 10000}
#define IN_K  {"K", "", "neutral-axis factor t_n/s", NAN, 0, 1}
#define IN_A  {"A", "deg", "bend angle (0 = flat)", 90, 0, 180}
#define IN_BETA {"beta", "deg", "opening angle between the legs (180 = flat)", 90, 0, 180}

static void din6935_k(const double *in, double *out)
{
    out[0] = sw_din6935_k(in[0], in[1]);
    out[1] = out[0] / 2;
}

static void din6935_length(const double *in, double *out)
{
    double v_mm = sw_din6935_v(in[0], in[1], sw_rad_from_deg(in[2]), in[5] > 0.5);
    out[0] = sw_din6935_k(in[0], in[1]);
    out[1] = v_mm;
    out[2] = in[3] + in[4] + v_mm;
}

static void bends_length(const double *in, double *out)
{
    out[0] = sw_din6935_v(in[0], in[1], sw_rad_from_deg(in[2]), false);
    out[1] = in[3] + in[4] * out[0];
}

static void bend_by_k(const double *in, double *out)
{
    double angle_rad = sw_rad_from_deg(in[3]);
    out[0] = sw_bend_allowance_mm(in[0], in[1], in[2], angle_rad);
    out[1] = sw_bend_setback_mm(in[0], in[1], angle_rad);
    out[2] = 2 * out[1] - out[0];
}

static void k_from_strip(const double *in, double *out) { out[0] = sw_k_from_strip(in[0], in[1], in[2], in[3], sw_rad_from_deg(in[4]), in[5]); }

static void joggle(const double *in, double *out)
{
    sw_joggle j = sw_joggle_of(in[0], in[1], in[2], in[3], sw_rad_from_deg(in[4]));
    out[0] = j.straight_mm;
    out[1] = j.run_mm;
    out[2] = j.least_offset_mm;
    out[3] = in[5] + in[6] + j.developed_mm;
}

static void closed_hem(const double *in, double *out)
{
    out[0] = sw_hem_length_mm(in[0], in[1], in[2], in[3]);
    out[1] = 4 * in[2];
}

/* Open hem: inside radius = half the gap, v of DIN 6935 at beta = 0. */
static void open_hem(const double *in, double *out) { out[0] = in[0] + in[1] + sw_din6935_v(in[3] / 2, in[2], 0, false); }

static void slot_width(const double *in, double *out) { out[0] = sw_slot_width_mm(in[0], in[1], sw_rad_from_deg(in[2]), in[3]); }

static void least_radius(const double *in, double *out)
{
    out[0] = sw_min_bend_radius_mm(in[0], in[1], false, sw_rad_from_deg(in[2]));
    out[1] = sw_min_bend_radius_mm(in[0], in[1], true, sw_rad_from_deg(in[2]));
}

static void flanging_radius(const double *in, double *out)
{
    const sw_grade *s235 = sw_grade_find("S235"), *s355 = sw_grade_find("S355");
    out[0] = sw_flanging_radius_mm(s235, in[0], false);
    out[1] = sw_flanging_radius_mm(s235, in[0], true);
    out[2] = sw_flanging_radius_mm(s355, in[0], false);
    out[3] = sw_flanging_radius_mm(s355, in[0], true);
}

static void angle_deviation(const double *in, double *out)
{
    out[0] = sw_deg_from_rad(sw_bend_angle_deviation_rad(in[0]));
}

static void sagitta(const double *in, double *out) { out[0] = sw_sagitta_mm(in[0], in[1]); }
static void radius_from_sagitta(const double *in, double *out) { out[0] = sw_radius_from_sagitta_mm(in[0], in[1]); }

static const sw_reckon rows[] = {
    {"din6935_k", "correction factor of the neutral axis", "k = 0.65 + 0.5 log10(r/s), k = 1 above r/s = 5; K = k/2", "r/s at least 0.3", DIN6935,
     {IN_R, IN_S}, {{"k", "", "correction factor"}, {"K", "", "neutral-axis factor"}}, din6935_k},
    {"din6935_length", "developed length of one bend", "L = a + b + v; v = (180-beta)/180 pi (r + k s/2) - 2 (r + s) [tan((180-beta)/2) above 90 deg]",
     "r/s at least 0.3; legs to the outer tangent up to beta = 90, to the outside intersection above", DIN6935,
     {IN_R, IN_S, IN_BETA, {"a", "mm", "first leg", NAN, 0, 1e5}, {"b", "mm", "second leg", NAN, 0, 1e5}, {"step", "", "1 = the standard's v = 0 above 165 deg, 0 = the formula goes on", 0, 0, 1}},
     {{"k", "", "correction factor"}, {"v", "mm", "compensation value"}, {"L", "mm", "developed length"}}, din6935_length},
    {"bends_length", "developed length of a part with several equal bends", "L = sum of the legs + n v", "as din6935_length; legs measured as there, one between two bends to both", DIN6935,
     {IN_R, IN_S, IN_BETA, {"legs", "mm", "sum of all legs", NAN, 0, 1e6}, {"n", "", "bends", NAN, 0, 100}},
     {{"v", "mm", "compensation value of one bend"}, {"L", "mm", "developed length"}}, bends_length},
    {"bend_by_k", "allowance, setback and deduction from a K factor", "BA = A (r + K s); OSSB = (r + s) tan(A/2), r + s above 90 deg; BD = 2 OSSB - BA", "any", GEOMETRY,
     {IN_R, IN_S, IN_K, IN_A}, {{"BA", "mm", "bend allowance"}, {"OSSB", "mm", "outside setback"}, {"BD", "mm", "bend deduction"}}, bend_by_k},
    {"k_from_strip", "K factor from a bent test strip", "BA = L - (a - OSSB) - (b - OSSB); K = (BA/A - r)/s", "A above 0", GEOMETRY,
     {{"a", "mm", "first leg, outside", NAN, 0, 1e4}, {"b", "mm", "second leg, outside", NAN, 0, 1e4}, IN_S, IN_R, IN_A, {"L", "mm", "flat length before bending", NAN, 0, 1e5}},
     {{"K", "", "neutral-axis factor"}}, k_from_strip},
    {"joggle", "two equal opposite bends", "t = (h - 2R(1 - cos A))/sin A; x = 2R sin A + t cos A; L = l1 + l2 + 2A(r + K s) + t; R = r + s/2", "h at least (2r + s)(1 - cos A)", GEOMETRY,
     {{"h", "mm", "offset, same face to same face", NAN, 0, 1000}, IN_S, IN_R, IN_K, {"A", "deg", "angle of each bend", 45, 1, 90}, {"l1", "mm", "first flat", 0, 0, 1e4}, {"l2", "mm", "second flat", 0, 0, 1e4}},
     {{"t", "mm", "straight between the bends"}, {"x", "mm", "run"}, {"h_min", "mm", "least offset"}, {"L", "mm", "developed length"}}, joggle},
    {"closed_hem", "developed length with an edge folded flat", "L = a + h - 2 s + pi K s", "r near 0; K from a test, 0.30 to 0.33 is common practice, no source", GEOMETRY,
     {{"a", "mm", "sheet to the outside of the fold", NAN, 0, 1e5}, {"h", "mm", "hem to the outside of the fold", NAN, 0, 1e4}, IN_S, {"K", "", "neutral-axis factor", 0.33, 0, 1}},
     {{"L", "mm", "developed length"}, {"h_min", "mm", "least hem, 4 s (common practice, no source)"}}, closed_hem},
    {"open_hem", "developed length with an open fold", "L = a + h + v(beta = 0), r = gap/2", "gap/2 at least 0.3 s", DIN6935,
     {{"a", "mm", "sheet to the outside of the fold", NAN, 0, 1e5}, {"h", "mm", "hem to the outside of the fold", NAN, 0, 1e4}, IN_S, {"gap", "mm", "clear gap in the fold", NAN, 0, 100}},
     {{"L", "mm", "developed length"}}, open_hem},
    {"slot_width", "slot for a plate that passes through at an angle", "w = s1/sin(phi) + s2/|tan(phi)| + c", "phi above 0", GEOMETRY,
     {{"s1", "mm", "plate that passes through", NAN, 0.1, 50}, {"s2", "mm", "plate with the slot", NAN, 0.1, 50}, {"phi", "deg", "crossing angle (90 = square)", 90, 5, 90}, {"c", "mm", "clearance", 0.2, 0, 10}},
     {{"w", "mm", "slot width"}}, slot_width},
    {"least_radius", "least inside radius for bending", "table by thickness and tensile strength", "steel up to 12 mm and 640 MPa", SW_MIN_BEND_RADIUS_SOURCE,
     {{"Rm", "MPa", "least tensile strength", NAN, 100, 1000}, IN_S, IN_A}, {{"r_across", "mm", "bend across the rolling direction"}, {"r_along", "mm", "bend along it"}}, least_radius},
    {"flanging_radius", "least inside radius of steels of flanging quality C", "table by grade and thickness", "1 to 10 mm, bends to 90 deg", "EN 10025-2, table 12 (from memory)",
     {IN_S}, {{"s235", "mm", "S235, bend across the rolling direction"}, {"s235_along", "mm", "S235, along it"}, {"s355", "mm", "S355, across"}, {"s355_along", "mm", "S355, along"}}, flanging_radius},
    {"angle_deviation", "how far a bend angle may be off", "table by the shorter leg", "any leg", "DIN 6935, limit deviations of angles (from memory)",
     {{"leg", "mm", "shorter leg", NAN, 0.1, 1e5}}, {{"T", "deg", "limit deviation, plus or minus"}}, angle_deviation},
    {"sagitta", "height of an arc over its chord", "h = R - sqrt(R2 - c2/4)", "c at most 2R", GEOMETRY,
     {{"R", "mm", "radius", NAN, 0, 1e5}, {"c", "mm", "chord", NAN, 0, 1e5}}, {{"h", "mm", "sagitta"}}, sagitta},
    {"radius_from_sagitta", "radius measured with a three-point gauge", "R = c2/(8h) + h/2", "h above 0", GEOMETRY,
     {{"h", "mm", "sagitta", NAN, 1e-6, 1e5}, {"c", "mm", "chord", NAN, 0, 1e5}}, {{"R", "mm", "radius"}}, radius_from_sagitta},
};
/* clang-format on */

const sw_reckon *sw_reckon_bending(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
