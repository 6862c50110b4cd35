/* reckon_fittings.c: lining, pane, rope, grate and ball drop by hand. Sources stand in each row; the functions are those of
 * making/fittings. */
#include "making/fittings/fittings.h"
#include "reckon/reckon_parts.h"

#include <math.h>

#define PRACTICE "common practice, no source"

static sw_matter_kind kind_of(double number)
{
    static const sw_matter_kind kinds[] = {SW_STEEL, SW_STAINLESS, SW_CAST_IRON, SW_BOARD, SW_GLASS};
    return kinds[(int)number];
}

static void fit_gap(const double *in, double *out)
{
    out[0] = in[0] * sw_fit_elongation(kind_of(in[1]), sw_k_from_c(in[2]));
    out[1] = in[0] * sw_fit_elongation(kind_of(in[3]), sw_k_from_c(in[4]));
    out[2] = sw_fit_clearance_mm(out[0], out[1], in[5]);
}

static void grate_gap(const double *in, double *out)
{
    out[0] = sw_fit_growth_mm(in[0], in[1] * 1e-6, in[2]);
    out[1] = sw_grate_clearance_mm(in[0], in[1] * 1e-6, in[2]);
}

static void rope(const double *in, double *out)
{
    out[0] = 100 * sw_rope_compression(in[0], in[1], in[2]);
    out[1] = 100 * sw_rope_fill(in[0], in[3], in[1] + in[2]);
    out[2] = sw_rope_length_mm(in[4], 1);
    out[3] = sw_rope_length_mm(in[4], 1.02);
}

static void ball_drop(const double *in, double *out)
{
    out[0] = sw_ball_kg(in[0]);
    out[1] = sw_drop_j(out[0], in[1]);
    out[2] = sw_drop_m_s(in[1]);
}

static void drop_height(const double *in, double *out)
{
    out[0] = sw_drop_height_mm(in[0], in[1]);
    out[1] = sw_ball_mm(in[1]);
    out[2] = sw_drop_m_s(out[0]);
}

static void hot_bolt(const double *in, double *out)
{
    out[0] = sw_bolt_factor(sw_k_from_c(in[0]));
}

/* clang-format off */
#define KINDS "0 = steel, 1 = stainless, 2 = grey iron, 3 = board, 4 = glass-ceramic"

static const sw_reckon rows[] = {
    {"fit_gap", "cold clearance of a part that gets hot in another", "growth inside - growth outside + tolerance + 0.5 mm", "20 degC to 800 (board, glass) or 1200 degC", "derived; steels EN 1993-1-2 (found), iron, board 9e-6, glass 0.5e-6: from memory",
     {{"L", "mm", "length", NAN, 0, 1e5}, {"in", "", "inner part: " KINDS, NAN, 0, 4}, {"T_in", "degC", "inner part", NAN, 20, 1200}, {"out", "", "outer part, as inner", 0, 0, 4}, {"T_out", "degC", "outer part", NAN, 20, 1200}, {"tol", "mm", "tolerance of both", 0, 0, 50}},
     {{"dL_in", "mm", "growth of the inner part"}, {"dL_out", "mm", "growth of the outer part"}, {"gap", "mm", "cold gaps together, at least"}}, fit_gap},
    {"grate_gap", "room beside a grate", "alpha L dT/2 + 1 mm", "any", "growth derived, 1 mm: " PRACTICE,
     {{"L", "mm", "length", NAN, 0, 1e4}, {"alpha", "1e-6/K", "expansion", 12, 0, 50}, {"dT", "K", "rise", 580, 0, 1200}}, {{"dL", "mm", "growth"}, {"gap", "mm", "a side"}}, grate_gap},
    {"rope", "rope in its groove", "c = (d - g - j)/d; fill = (pi d2/4)/(w (g + j))", "any", "derived; 20 to 40 % new, 15 % hot at least: " PRACTICE,
     {{"d", "mm", "rope", NAN, 1, 50}, {"g", "mm", "depth of the groove", NAN, 0, 50}, {"j", "mm", "gap of the closed joint", NAN, 0, 20}, {"w", "mm", "width of the groove", NAN, 1, 100}, {"L", "mm", "middle line of the groove", 0, 0, 1e5}},
     {{"c", "%", "compression"}, {"fill", "%", "of the closed groove, at most 105"}, {"from", "mm", "length of the rope"}, {"to", "mm", "with 2 %"}}, rope},
    {"ball_drop", "steel ball falling on a pane", "m = rho pi d3/6; E = m g h; v = sqrt(2 g h)", "steel of 7850 kg/m3, no air", "physics",
     {{"d", "mm", "ball", NAN, 1, 1000}, {"h", "mm", "height", NAN, 0, 1e5}}, {{"m", "kg", "ball"}, {"E", "J", "energy"}, {"v", "m/s", "speed"}}, ball_drop},
    {"drop_height", "height for an energy", "h = E/(m g)", "IK08 5, IK09 10, IK10 20 J; equal energy is not equal damage", "physics; EN 62262 (found)",
     {{"E", "J", "energy", NAN, 0, 1e5}, {"m", "kg", "ball", 10, 1e-3, 1e4}}, {{"h", "mm", "height"}, {"d", "mm", "steel ball of that mass"}, {"v", "m/s", "speed"}}, drop_height},
    {"hot_bolt", "strength of a hot bolt", "k_b, linear between the rows", "to 1000 degC", "EN 1993-1-2:2005, table D.1 (from memory)",
     {{"T", "degC", "bolt", NAN, 0, 1000}}, {{"kb", "", "share of its strength at 20 degC"}}, hot_bolt},
};
/* clang-format on */

const sw_reckon *sw_reckon_fittings(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
