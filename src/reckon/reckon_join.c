/* reckon_join.c: welding thin steel, over the functions of making/join. */
#include "making/join/join.h"
#include "reckon/reckon_parts.h"

#include <math.h>

static double m_s(double m_min)
{
    return sw_m_from_mm(sw_mm_s_from_m_min(m_min));
}

static void fillet(const double *in, double *out)
{
    out[0] = sw_fillet_leg_mm(in[0]);
    out[1] = sw_fillet_area_mm2(in[0], in[1]);
    out[2] = sw_weld_kg_m(out[1]);
}

static void wire(const double *in, double *out)
{
    out[0] = sw_wire_m_kg(in[0]);
    out[1] = sw_wire_kg_s(in[0], m_s(in[1])) * sw_s_from_h(1);
}

static void weld_time(const double *in, double *out)
{
    double area_mm2 = sw_fillet_area_mm2(in[1], in[2]), length_mm = sw_mm_from_m(in[0]);
    double v_mm_s = sw_weld_travel_mm_s(in[3], m_s(in[4]), area_mm2, in[5]);
    double arc_s = length_mm / v_mm_s;
    out[0] = sw_m_min_from_mm_s(v_mm_s);
    out[1] = sw_min_from_s(arc_s);
    out[2] = sw_weld_kg_m(area_mm2) * in[0] / in[5];
    out[3] = in[6] * sw_min_from_s(arc_s);
    out[4] = sw_min_from_s(arc_s) / in[7];
}

static void heat(const double *in, double *out)
{
    out[0] = sw_heat_input_kj_mm(in[0], in[1], in[2], sw_mm_s_from_m_min(in[3]));
}

static sw_composition composition(const double *in)
{
    return (sw_composition){.c = in[0], .mn = in[1], .cr = in[2], .mo = in[3], .v = in[4], .ni = in[5], .cu = in[6]};
}

static void equivalents(const double *in, double *out)
{
    out[0] = sw_carbon_equivalent(composition(in));
    out[1] = sw_carbon_equivalent_cet(composition(in));
}

static void preheat(const double *in, double *out)
{
    out[0] = sw_c_from_k(sw_preheat_k(in[0], in[1], in[2], in[3]));
}

static void butt_shrinkage(const double *in, double *out)
{
    out[0] = sw_shrink_butt_mm(in[0], in[1]);
    out[1] = sw_shrink_butt_gap_mm(in[0], in[1], in[2]);
}

static void fillet_shrinkage(const double *in, double *out)
{
    out[0] = sw_shrink_fillet_mm(in[0], in[1]);
    out[1] = sw_shrink_along_mm(sw_mm_from_m(in[2]), false);
    out[2] = sw_flange_rise_mm(in[3], in[0], in[1]);
}

static void sheet_shrinkage(const double *in, double *out)
{
    out[0] = sw_shrink_across_mm(in[0], in[1], in[2]);
}

static void bow(const double *in, double *out)
{
    out[0] = sw_bow_mm(in[0], in[1], in[2], in[3]);
}

static void leak(const double *in, double *out)
{
    double flow = sw_leak_m3_s(in[0], in[1], in[2]);
    out[0] = flow * sw_s_from_h(1);
    out[1] = sw_leak_rescaled_m3_s(flow, in[1], in[3], in[4]) * sw_s_from_h(1);
}

static void tacks(const double *in, double *out)
{
    double pitch_mm = sw_tack_pitch_mm(in[0]);
    out[0] = sw_tack_length_mm(in[0]);
    out[1] = pitch_mm;
    out[2] = fmax(1, ceil(in[1] / pitch_mm - 1e-9));
}

/* clang-format off */
#define IN_A    {"a", "mm", "throat", NAN, 0.1, 50}
#define IN_T    {"t", "mm", "sheet thickness", NAN, 0.1, 50}
#define IN_E    {"e", "", "convexity and gap, share on top", 0.1, 0, 1}
#define IN_D    {"d", "mm", "wire", 1.0, 0.1, 5}
#define IN_VW   {"vw", "m/min", "wire feed", NAN, 0.1, 50}
#define PERCENT(name) {name, "%", "mass share of " name, 0, 0, 10}
#define SHRINK  "a welding institute's published answers on distortion; the rise: Blodgett (from memory, doubtful), to the peak of Watanabe and Satoh (from memory); all plus or minus 50 %"

static const sw_reckon rows[] = {
    {"fillet", "leg, area and mass of an equal-leg fillet", "z = a sqrt 2; A = a2 (1 + e); m = rho A", "any", "derived; e 0.1 to 0.3 common practice, no source",
     {IN_A, IN_E}, {{"z", "mm", "leg"}, {"A", "mm2", "area"}, {"m", "kg/m", "steel laid down"}}, fillet},
    {"wire", "length of a kilogram of wire, and its feed", "1/(rho pi/4 d2); pi/4 d2 vw rho", "solid steel wire", "derived",
     {IN_D, IN_VW}, {{"L", "m/kg", "length"}, {"feed", "kg/h", "melted"}}, wire},
    {"weld_time", "speed, time, wire and gas of a fillet", "v = eta feed/(rho A); t = L/v; wire m L/eta", "solid wire", "derived; eta 0.95 common practice, no source",
     {{"L", "m", "length of seam", NAN, 1e-3, 1e4}, IN_A, IN_E, IN_D, IN_VW, {"eta", "", "share of the wire that stays", 0.95, 0.1, 1}, {"gas", "l/min", "gas", 14, 0, 100}, {"duty", "", "arc-on share", 0.3, 0.01, 1}},
     {{"v", "m/min", "travel"}, {"arc", "min", "arc time"}, {"wire", "kg", "wire fed"}, {"gas", "l", "gas"}, {"time", "min", "time with all else"}}, weld_time},
    {"heat_input", "heat input of an arc", "Q = k U I/v", "k: 121 1.0; 111, 131, 135, 136, 138 0.8; 141 0.6", "EN 1011-1 clause 19 (found in a quotation)",
     {{"k", "", "thermal efficiency", 0.8, 0.1, 1}, {"U", "V", "voltage", NAN, 1, 100}, {"I", "A", "current", NAN, 1, 2000}, {"v", "m/min", "travel", NAN, 0.01, 20}}, {{"Q", "kJ/mm", "heat input"}}, heat},
    {"carbon_equivalent", "carbon equivalents of a steel", "CE = C + Mn/6 + (Cr+Mo+V)/5 + (Ni+Cu)/15; CET = C + (Mn+Mo)/10 + (Cr+Cu)/20 + Ni/40", "unalloyed and low-alloy steel", "International Institute of Welding; EN 1011-2 annex C (from memory)",
     {{"C", "%", "carbon", NAN, 0, 2}, {"Mn", "%", "manganese", NAN, 0, 5}, PERCENT("Cr"), PERCENT("Mo"), PERCENT("V"), PERCENT("Ni"), PERCENT("Cu")},
     {{"CE", "%", "of the institute"}, {"CET", "%", "of EN 1011-2 method B"}}, equivalents},
    {"preheat", "preheat temperature", "697 CET + 160 tanh(d/35) + 62 HD^0.35 + (53 CET - 32) Q - 328", "CET 0.2 to 0.5, d 10 to 90, HD 1 to 20, Q 0.5 to 4", "EN 1011-2 annex C, method B (found in a quotation; range from memory)",
     {{"CET", "%", "carbon equivalent", NAN, 0, 1}, {"d", "mm", "thickness", NAN, 0.1, 500}, {"HD", "ml/100g", "hydrogen", 5, 0.1, 50}, {"Q", "kJ/mm", "heat input", NAN, 0.01, 20}}, {{"Tp", "degC", "preheat"}}, preheat},
    {"butt_shrinkage", "shrinkage across a butt seam", "0.10 A/t; 0.2 A/t + 0.05 g", "single run, unrestrained; plus or minus 50 %", "Blodgett, Design of Weldments, sect. 7.7; Spraragen & Ettinger 1950 (both from memory)",
     {{"A", "mm2", "area of the weld", NAN, 0.1, 1e4}, IN_T, {"g", "mm", "root gap", 0, 0, 20}}, {{"S", "mm", "Blodgett"}, {"Sg", "mm", "Spraragen and Ettinger"}}, butt_shrinkage},
    {"fillet_shrinkage", "shrinkage of a fillet, and how far it raises a flange", "across 0.8; along 0.8 in 3 m; rise 0.02 W z^1.3/t2 in inches, to 0.03 W", "across: plate, leg to 3/4 t", SHRINK,
     {{"z", "mm", "leg", NAN, 0.1, 50}, IN_T, {"L", "m", "length", 1, 0, 100}, {"W", "mm", "width of the flange", 100, 1, 5000}}, {{"across", "mm", "across the seam"}, {"along", "mm", "along the seam"}, {"rise", "mm", "at the flange's edge"}}, fillet_shrinkage},
    {"sheet_shrinkage", "shrinkage across a seam of thin sheet from its heat", "alpha/(rho c) q/t, q = Q 2 t/(2 t + tf)", "heated through: 0.484 q/(rho c t 600 K) at least t; plus or minus 50 %", "Okerblom, The Calculations of Deformations of Welded Metal Structures (from memory); range ours",
     {{"Q", "kJ/mm", "heat input", NAN, 1e-3, 20}, {"t", "mm", "sheet that runs on, or of the butt", NAN, 0.1, 50}, {"tf", "mm", "sheet that stands on it, 0: butt", 0, 0, 50}}, {{"S", "mm", "across the seam"}}, sheet_shrinkage},
    {"weld_bow", "bow of a member with a seam off its neutral axis", "0.005 A d L2/I", "plus or minus 50 %", "Blodgett, Design of Weldments, sect. 7.7 (from memory)",
     {{"A", "mm2", "area of the weld", NAN, 0, 1e4}, {"d", "mm", "weld off the neutral axis", NAN, -1e4, 1e4}, {"L", "mm", "length", NAN, 0, 1e5}, {"I", "mm4", "second moment", NAN, 1e-3, 1e12}}, {{"bow", "mm", "bow"}}, bow},
    {"leak", "flow through small openings, and at another pressure", "V = cd A sqrt(2 dp/rho); V2 = V (p2/p)^n", "rho 1.2 kg/m3; n 0.5 to 1", "derived (orifice); n common practice, no source",
     {{"A", "mm2", "openings together", NAN, 0, 1e6}, {"dp", "Pa", "pressure", 10, 0.1, 1e4}, {"cd", "", "discharge coefficient", 0.6, 0.1, 1}, {"p2", "Pa", "other pressure", 10, 0, 1e4}, {"n", "", "exponent", 0.65, 0.5, 1}},
     {{"V", "m3/h", "leak"}, {"V2", "m3/h", "at the other pressure"}}, leak},
    {"tacks", "tacks of a seam", "length 10-15, pitch 50-100 to 3 mm; 15-25, 100-150 to 6 mm; half a pitch at the ends", "sheet to 6 mm", "common practice, no source",
     {{"t", "mm", "thinner sheet", NAN, 0.1, 50}, {"L", "mm", "length of seam", NAN, 1, 1e5}}, {{"length", "mm", "of a tack"}, {"pitch", "mm", "pitch"}, {"n", "", "how many"}}, tacks},
};
/* clang-format on */

const sw_reckon *sw_reckon_join(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
