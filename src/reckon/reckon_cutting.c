/* reckon_cutting.c: laser cutting by hand. Sources stand in each row; the functions are those of making/cut. */
#include "geometry/geometry.h"
#include "geometry/tolerance.h"
#include "making/cut/cut.h"
#include "reckon/reckon_parts.h"

#include <math.h>

#define ISO9013        "ISO 9013:2017, tables 4 and 5 (from memory)"
#define ISO9013_LIMITS "ISO 9013:2017, limit deviations of nominal dimensions (found in a stored copy of the tables)"
#define MECHANICS      "derived: uniform acceleration"

static void quality(const double *in, double *out)
{
    out[0] = sw_iso9013_u_mm((int)in[0], in[1]);
    out[1] = sw_iso9013_rz5_um((int)in[0], in[1]);
}

static void deviation(const double *in, double *out)
{
    out[0] = sw_iso9013_deviation_mm((int)in[0], in[1], in[2]);
}
static void common_cut(const double *in, double *out)
{
    out[0] = in[0] * 2 * (in[1] + in[2]);
    out[1] = sw_common_cut_length_mm((size_t)in[0], in[1], in[2]);
}

static void laser_speed(const double *in, double *out)
{
    double v_mm_s = sw_laser_speed_mm_s(in[0], in[1], in[2], in[3], in[4], in[5]);
    out[0] = sw_m_min_from_mm_s(v_mm_s);
}

static void corner_speed(const double *in, double *out)
{
    out[0] = sw_m_min_from_mm_s(sw_corner_speed_mm_s(in[0], sw_mm_from_m(in[1])));
}
static void move_time(const double *in, double *out)
{
    out[0] = sw_move_time_s(in[0], sw_mm_s_from_m_min(in[1]), sw_mm_from_m(in[2]));
}

static void nozzle_flow(const double *in, double *out)
{
    out[0] = sw_nozzle_flow_kg_s(in[0], in[1], sw_pa_from_bar(in[2]), sw_pa_from_bar(in[3]), sw_k_from_c(in[4]), in[5],
                                 in[6]);
    out[1] = out[0] * sw_s_from_h(1);
    out[2] = sw_normal_m3_s(out[0], in[5]) * sw_s_from_h(1);
    out[3] = pow(2 / (in[6] + 1), in[6] / (in[6] - 1));
}

static void cut_cost(const double *in, double *out)
{
    double cut_mm = sw_mm_from_m(in[0]);
    double total_s = sw_cut_time_s(cut_mm, sw_mm_s_from_m_min(in[1]), (size_t)in[2], in[3], sw_mm_from_m(in[4]),
                                   sw_mm_s_from_m_min(in[5]));
    out[0] = sw_min_from_s(total_s);
    out[1] = sw_h_from_s(total_s) * in[6];
    out[2] = sw_cut_cost_per_m(in[6], total_s, cut_mm);
}

static void bulge(const double *in, double *out)
{
    sw_vertex from = {0, 0, tan(sw_rad_from_deg(in[1]) / 4)};
    sw_point to = {in[0], 0};
    sw_arc arc = sw_segment_arc(from, to);
    out[0] = from.bulge;
    out[1] = arc.radius_mm;
    out[2] = sw_segment_length(from, to);
    out[3] = from.bulge * in[0] / 2;
    sw_vertex segment[] = {from, {to.x_mm, to.y_mm, 0}};
    out[4] = sw_contour_area((sw_contour){segment, 2});
    out[5] = arc.centre.y_mm;
}

static void obround(const double *in, double *out)
{
    double half_mm = (in[0] - in[1]) / 2, r_mm = in[1] / 2;
    sw_vertex v[] = {{-half_mm, -r_mm, 0}, {half_mm, -r_mm, 1}, {half_mm, r_mm, 0}, {-half_mm, r_mm, 1}};
    bool slot = half_mm > 0;
    out[0] = slot ? sw_contour_area((sw_contour){v, 4}) : (double)NAN;
    out[1] = slot ? sw_contour_length((sw_contour){v, 4}) : (double)NAN;
}

/* An arc as the motion words write it: G2 or G3 from (x0,y0) to (x1,y1) about (x0+I, y0+J); the ends may coincide. */
static void motion_arc(const double *in, double *out)
{
    out[0] = hypot(in[4], in[5]);
    double from_rad = atan2(-in[5], -in[4]), to_rad = atan2(in[3] - in[1] - in[5], in[2] - in[0] - in[4]);
    double turn_rad = in[6] > 2.5 ? to_rad - from_rad : from_rad - to_rad;
    if (out[0] * turn_rad <= SW_SAME_POINT_MM) turn_rad += 2 * SW_PI;
    out[1] = sw_deg_from_rad(turn_rad);
    out[2] = out[0] * turn_rad;
    out[3] = fabs(hypot(in[2] - in[0] - in[4], in[3] - in[1] - in[5]) - out[0]);
}

static void kerf_offset(const double *in, double *out)
{
    out[0] = sw_kerf_offset_mm(in[0]);
}

static void cut_limits(const double *in, double *out)
{
    double s_mm = in[0];
    out[0] = s_mm;
    out[1] = 0.7 * s_mm;
    out[2] = s_mm;
    out[3] = fmax(s_mm, 5);
    out[4] = fmax(1.5 * s_mm, 8);
    out[5] = s_mm + 1;
}

/* clang-format off */
#define IN_S {"s", "mm", "sheet thickness", NAN, 0.1, 50}

static const sw_reckon rows[] = {
    {"cut_quality", "perpendicularity and roughness of a thermal cut", "u = u0 + u1 a; Rz5 = z0 + z1 a by range", "ranges 1 to 5 (roughness 1 to 4)", ISO9013,
     {{"range", "", "quality range", 1, 1, 5}, IN_S}, {{"u", "mm", "perpendicularity"}, {"Rz5", "um", "mean roughness depth"}}, quality},
    {"cut_deviation", "limit deviation of a cut dimension", "table by class, thickness and nominal size", "thickness to 10 mm, sizes to 4000 mm", ISO9013_LIMITS,
     {{"class", "", "1 = laser, 2 = flame and plasma", 1, 1, 2}, IN_S, {"L", "mm", "nominal size", NAN, 0.01, 4000}}, {{"T", "mm", "limit deviation, plus or minus"}}, deviation},
    {"common_cut", "path saved when a row of rectangles shares its cuts", "n 2(w + h) -> n 2w + (n + 1) h", "one row; both neighbours share one kerf", "derived: counting of edges",
     {{"n", "", "pieces in the row", NAN, 1, 1000}, {"w", "mm", "width along the row", NAN, 0.1, 1e4}, {"h", "mm", "height, the shared side", NAN, 0.1, 1e4}},
     {{"apart", "mm", "path cut apart"}, {"shared", "mm", "path with shared cuts"}}, common_cut},
    {"laser_speed", "cutting speed from the energy balance", "v = e P/(rho H w s)", "an upper estimate for clean steel", "energy balance as in Steen & Mazumder, Laser Material Processing (from memory)",
     {{"e", "", "share of the power that melts", 0.3, 0.01, 1}, {"P", "W", "laser power", NAN, 1, 1e5}, {"rho", "kg/m3", "density", 7850, 100, 2e4}, {"H", "J/kg", "heat to melt", 1.25e6, 1e4, 1e8}, {"w", "mm", "kerf width", 0.3, 0.01, 5}, IN_S},
     {{"v", "m/min", "cutting speed"}}, laser_speed},
    {"corner_speed", "speed round an arc at a given sideways acceleration", "v = sqrt(a r)", "any", "derived: centripetal acceleration",
     {{"r", "mm", "radius", NAN, 0, 1e5}, {"a", "m/s2", "acceleration", 10, 0.01, 1000}}, {{"v", "m/min", "speed"}}, corner_speed},
    {"move_time", "time of a straight move from rest to rest", "t = d/v + v/a, or 2 sqrt(d/a) when v is not reached", "any", MECHANICS,
     {{"d", "mm", "distance", NAN, 0, 1e6}, {"v", "m/min", "speed", 60, 0.01, 1e4}, {"a", "m/s2", "acceleration", 10, 0.01, 1000}}, {{"t", "s", "time"}}, move_time},
    {"nozzle_flow", "assist gas through the nozzle, choked or not", "isentropic nozzle; choked when pb/p0 is at most (2/(g+1))^(g/(g-1))", "ideal gas", "derived: isentropic nozzle flow (any gas-dynamics text)",
     {{"Cd", "", "discharge coefficient", 1, 0.1, 1}, {"d", "mm", "nozzle bore", NAN, 0.1, 20}, {"p0", "bar", "supply pressure, absolute", NAN, 0.1, 300}, {"pb", "bar", "back pressure, absolute", 1.01325, 0, 300}, {"T0", "degC", "gas temperature", 20, -50, 200}, {"R", "J/kg/K", "gas constant (N2 296.8, O2 259.8)", 296.8, 50, 5000}, {"gamma", "", "ratio of heat capacities", 1.4, 1.01, 1.7}},
     {{"m", "kg/s", "mass flow"}, {"m_h", "kg/h", "mass flow"}, {"V", "m3/h", "volume at 0 degC and 1.01325 bar"}, {"choked", "", "choked while pb/p0 is at most this"}}, nozzle_flow},
    {"cut_cost", "time and cost of a cut", "t = L/v + n tp + Lr/vr; cost a metre = rate t/L", "corners not slowed", "derived: sum of times",
     {{"L", "m", "cut length", NAN, 1e-3, 1e5}, {"v", "m/min", "feed", NAN, 0.01, 200}, {"n", "", "pierces", 1, 0, 1e6}, {"tp", "s", "pierce time", 0.5, 0, 60}, {"Lr", "m", "rapid length", 0, 0, 1e5}, {"vr", "m/min", "rapid speed", 60, 0.1, 1000}, {"rate", "1/h", "cost of an hour", NAN, 0, 1e4}},
     {{"t", "min", "time"}, {"cost", "", "cost"}, {"per_m", "1/m", "cost a metre"}}, cut_cost},
    {"bulge", "an arc over its chord as DXF writes it", "b = tan(theta/4); R = c (1 + b2)/(4 |b|)", "theta to 350 degrees", "DXF reference, VERTEX group 42; rest derived",
     {{"c", "mm", "chord", NAN, 1e-3, 1e5}, {"theta", "deg", "included angle", NAN, 0.01, 350}},
     {{"b", "", "bulge"}, {"R", "mm", "radius"}, {"arc", "mm", "arc length"}, {"h", "mm", "sagitta, to the right of travel"}, {"area", "mm2", "area between arc and chord"}, {"yc", "mm", "centre, to the left of the chord's middle"}}, bulge},
    {"obround", "area and outline of a slot with round ends", "A = (l - w) w + pi w2/4; U = 2 (l - w) + pi w", "l above w", "derived: plane geometry",
     {{"l", "mm", "length over all", NAN, 0.1, 1e5}, {"w", "mm", "width", NAN, 0.1, 1e4}}, {{"A", "mm2", "area"}, {"U", "mm", "outline"}}, obround},
    {"motion_arc", "an arc in motion words: G2 or G3 with I and J", "R = hypot(I, J); length = R turn; both ends as far from the centre", "mismatch at most 0.002 mm, else the words are refused", "ISO 6983-1; NIST RS274/NGC report, Kramer et al. 2000 (from memory)",
     {{"x0", "mm", "start", NAN, -1e5, 1e5}, {"y0", "mm", "start", NAN, -1e5, 1e5}, {"x1", "mm", "end", NAN, -1e5, 1e5}, {"y1", "mm", "end", NAN, -1e5, 1e5}, {"I", "mm", "centre from the start, along x", NAN, -1e5, 1e5}, {"J", "mm", "centre from the start, along y", NAN, -1e5, 1e5}, {"G", "", "2 = clockwise, 3 = counter-clockwise", 3, 2, 3}},
     {{"R", "mm", "radius"}, {"turn", "deg", "angle turned"}, {"length", "mm", "length"}, {"mismatch", "mm", "difference of the radii at both ends"}}, motion_arc},
    {"kerf_offset", "how far the path lies from the contour", "offset = w/2, outward on outlines, inward on holes", "any", "derived: half the kerf",
     {{"w", "mm", "kerf width", NAN, 0, 10}}, {{"offset", "mm", "path off the contour, into the scrap"}}, kerf_offset},
    {"cut_limits", "holes, webs and spacing that a laser cuts well", "hole, web s; process limit 0.7 s; apart max(s, 5) or max(1.5 s, 8); lead s + 1", "sheet to about 10 mm", "hole and web: sheet-metal design rules; 0.7 s: a laser shop's limits; the rest common practice, no source",
     {IN_S}, {{"hole", "mm", "least hole, and slot width, to design with"}, {"limit", "mm", "least hole the process makes"}, {"web", "mm", "least web between cuts"}, {"n2", "mm", "pieces apart, cut with nitrogen"}, {"o2", "mm", "pieces apart, cut with oxygen"}, {"lead", "mm", "lead-in, about"}}, cut_limits},
};
/* clang-format on */

const sw_reckon *sw_reckon_cutting(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
