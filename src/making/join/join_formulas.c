/* join_formulas.c: the single formulas of welding thin steel. */
#include "making/join/join.h"

#include <math.h>
#include <string.h>

static const double steel_kg_m3 = 7850.0, air_kg_m3 = 1.2, mm_per_inch = 25.4;

/* z = a sqrt 2 of an equal-leg mitre fillet. Source: derived. */
double sw_fillet_leg_mm(double throat_mm)
{
    return throat_mm > 0 ? throat_mm * sqrt(2.0) : (double)NAN;
}

/* A = a2 (1 + e). Source: derived; e 0.1 to 0.3 common practice, no source. */
double sw_fillet_area_mm2(double throat_mm, double excess)
{
    return throat_mm > 0 && excess >= 0 ? throat_mm * throat_mm * (1 + excess) : (double)NAN;
}

/* m = rho A a metre. Source: derived. */
double sw_weld_kg_m(double area_mm2)
{
    return area_mm2 >= 0 ? steel_kg_m3 * sw_m2_from_mm2(area_mm2) : (double)NAN;
}

static double wire_m2(double wire_mm)
{
    double d_m = sw_m_from_mm(wire_mm);
    return SW_PI / 4 * d_m * d_m;
}

/* 1/(rho pi/4 d2). Source: derived. */
double sw_wire_m_kg(double wire_mm)
{
    return wire_mm > 0 ? 1 / (steel_kg_m3 * wire_m2(wire_mm)) : (double)NAN;
}

/* pi/4 d2 v_w rho. Source: derived. */
double sw_wire_kg_s(double wire_mm, double feed_m_s)
{
    return wire_mm > 0 && feed_m_s >= 0 ? wire_m2(wire_mm) * feed_m_s * steel_kg_m3 : (double)NAN;
}

/* v = eta feed/(rho A): what the wire lays down fills the seam. Source: derived; eta 0.95 of solid wire common practice,
 * no source. */
double sw_weld_travel_mm_s(double wire_mm, double feed_m_s, double area_mm2, double share)
{
    if (!(area_mm2 > 0) || !(share > 0 && share <= 1)) return NAN;
    return sw_mm_from_m(share * sw_wire_kg_s(wire_mm, feed_m_s) / sw_weld_kg_m(area_mm2));
}

/* EN 1011-1, clause 19: thermal efficiency by process number of ISO 4063 (found in a quotation of the standard). */
double sw_weld_efficiency(const char *process)
{
    static const struct {
        const char *process;
        double k;
    } rows[] = {{"121", 1.0}, {"111", 0.8}, {"131", 0.8}, {"135", 0.8}, {"136", 0.8}, {"138", 0.8}, {"141", 0.6}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (strcmp(rows[i].process, process) == 0) return rows[i].k;
    return NAN;
}

/* Q = k U I/v 10^-3, kJ/mm, v mm/s. Source: EN 1011-1, clause 19. */
double sw_heat_input_kj_mm(double k, double volts, double amps, double travel_mm_s)
{
    if (!(k > 0 && k <= 1) || !(volts > 0) || !(amps > 0) || !(travel_mm_s > 0)) return NAN;
    const double kj_per_j = 1e-3;
    return k * volts * amps / travel_mm_s * kj_per_j;
}

/* CE = C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15. Source: International Institute of Welding. */
double sw_carbon_equivalent(sw_composition s)
{
    return s.c + s.mn / 6 + (s.cr + s.mo + s.v) / 5 + (s.ni + s.cu) / 15;
}

/* CET = C + (Mn + Mo)/10 + (Cr + Cu)/20 + Ni/40. Source: EN 1011-2, annex C, method B (from memory). */
double sw_carbon_equivalent_cet(sw_composition s)
{
    return s.c + (s.mn + s.mo) / 10 + (s.cr + s.cu) / 20 + s.ni / 40;
}

static bool within(double value, double low, double high)
{
    return value >= low && value <= high;
}

/* T_p = 697 CET + 160 tanh(d/35) + 62 HD^0.35 + (53 CET - 32) Q - 328, degC. Source: EN 1011-2, annex C, method B (found
 * in a quotation; the range from memory). */
double sw_preheat_k(double cet, double d_mm, double hydrogen, double q_kj_mm)
{
    bool holds = within(cet, 0.2, 0.5) && within(d_mm, 10, 90) && within(hydrogen, 1, 20) && within(q_kj_mm, 0.5, 4);
    if (!holds) return NAN;
    double t_c = 697 * cet + 160 * tanh(d_mm / 35) + 62 * pow(hydrogen, 0.35) + (53 * cet - 32) * q_kj_mm - 328;
    return sw_k_from_c(t_c);
}

/* 0.8 mm a weld while the leg is at most 3/4 t. Source: a welding institute's published answers on distortion; +- 50 %. */
double sw_shrink_fillet_mm(double leg_mm, double thickness_mm)
{
    return leg_mm > 0 && leg_mm <= 0.75 * thickness_mm ? 0.8 : (double)NAN;
}

/* 0.10 A_w/t, unrestrained, single run. Source: Blodgett, Design of Weldments, sect. 7.7 (from memory); +- 50 %. */
double sw_shrink_butt_mm(double area_mm2, double thickness_mm)
{
    return area_mm2 >= 0 && thickness_mm > 0 ? 0.10 * area_mm2 / thickness_mm : (double)NAN;
}

/* 0.2 A_w/t + 0.05 g. Source: Spraragen & Ettinger 1950 (from memory); +- 50 %. */
double sw_shrink_butt_gap_mm(double area_mm2, double thickness_mm, double gap_mm)
{
    return area_mm2 >= 0 && thickness_mm > 0 && gap_mm >= 0 ? 0.2 * area_mm2 / thickness_mm + 0.05 * gap_mm
                                                            : (double)NAN;
}

/* Fillet 0.8 mm, butt 3 mm in 3 m. Source: a welding institute's published answers on distortion; +- 50 %. */
double sw_shrink_along_mm(double length_mm, bool butt)
{
    return length_mm >= 0 ? (butt ? 3.0 : 0.8) * sw_m_from_mm(length_mm) / 3 : (double)NAN;
}

/* 0.005 A_w d L2/I. Source: Blodgett, Design of Weldments, sect. 7.7 (from memory); +- 50 %. */
double sw_bow_mm(double area_mm2, double off_mm, double length_mm, double inertia_mm4)
{
    if (!(area_mm2 >= 0) || !(length_mm >= 0) || !(inertia_mm4 > 0)) return NAN;
    return 0.005 * area_mm2 * off_mm * length_mm * length_mm / inertia_mm4;
}

/* q = Q 2 t_b/(2 t_b + t_a): a seam's heat goes into the sheets as they are thick, both ways in the one that runs on, one
 * way in the other. Source: common practice, no source. */
static double heat_into(double q_j_mm, double on_mm, double foot_mm)
{
    return q_j_mm * 2 * on_mm / (2 * on_mm + foot_mm);
}

/* d = mu alpha/(rho c) q/t, mu 1: what was hot through the thickness shrinks free. Source: Okerblom, The Calculations of
 * Deformations of Welded Metal Structures (from memory); +- 50 %. Holds while the strip that the line source heats by more
 * than 600 K, 0.484 q/(rho c t 600 K), is wider than the sheet is thick (ours). */
double sw_shrink_across_mm(double heat_kj_mm, double on_mm, double foot_mm)
{
    if (!(heat_kj_mm > 0) || !(on_mm > 0) || !(foot_mm >= 0)) return NAN;
    const double alpha_k = 12e-6, rho_c_j_mm3k = 3.8e-3, hot_k = 600, line_source = 0.484, j_per_kj = 1e3;
    double q_j_mm = heat_into(heat_kj_mm * j_per_kj, on_mm, foot_mm);
    if (line_source * q_j_mm / (rho_c_j_mm3k * on_mm * hot_k) < on_mm) return NAN;
    return alpha_k / rho_c_j_mm3k * q_j_mm / on_mm;
}

/* 0.02 W w^1.3/t2 in inches only. Source: Blodgett (from memory, dimensional, doubtful); +- 50 % at best. No more than
 * 0.03 W: the angle has a peak, near 9 mm of plate for fillets of 6 mm, and is less in sheet that is heated through.
 * Source: Masubuchi, Analysis of Welded Structures, after Watanabe and Satoh (from memory). */
double sw_flange_rise_mm(double width_mm, double leg_mm, double thickness_mm)
{
    if (!(width_mm > 0) || !(leg_mm > 0) || !(thickness_mm > 0)) return NAN;
    const double peak_rad = 0.03;
    double w_in = width_mm / mm_per_inch, leg_in = leg_mm / mm_per_inch, t_in = thickness_mm / mm_per_inch;
    return fmin(0.02 * w_in * pow(leg_in, 1.3) / (t_in * t_in) * mm_per_inch, peak_rad * width_mm);
}

/* V = cd A sqrt(2 dp/rho). Source: derived (orifice). */
double sw_leak_m3_s(double area_mm2, double pressure_pa, double cd)
{
    if (!(area_mm2 >= 0) || !(pressure_pa >= 0) || !(cd > 0 && cd <= 1)) return NAN;
    return cd * sw_m2_from_mm2(area_mm2) * sqrt(2 * pressure_pa / air_kg_m3);
}

double sw_leak_area_mm2(double flow_m3_s, double pressure_pa, double cd)
{
    return flow_m3_s >= 0 && pressure_pa > 0 ? flow_m3_s / sw_leak_m3_s(1, pressure_pa, cd) : (double)NAN;
}

/* V proportional to dp^n, n 0.5 (orifice) to 1 (fine cracks). Source: common practice, no source. */
double sw_leak_rescaled_m3_s(double flow_m3_s, double from_pa, double to_pa, double exponent)
{
    if (!(flow_m3_s >= 0) || !(from_pa > 0) || !(to_pa >= 0) || !within(exponent, 0.5, 1)) return NAN;
    return flow_m3_s * pow(to_pa / from_pa, exponent);
}

/* Middles of 10 to 15 mm up to 3 mm of sheet, 15 to 25 mm from there to 6. Source: common practice, no source. */
double sw_tack_length_mm(double thickness_mm)
{
    if (!(thickness_mm > 0) || thickness_mm > 6) return NAN;
    return thickness_mm <= 3 ? 12.5 : 20;
}

/* Middles of 50 to 100 mm up to 3 mm of sheet, 100 to 150 mm from there to 6. Source: common practice, no source. */
double sw_tack_pitch_mm(double thickness_mm)
{
    if (!(thickness_mm > 0) || thickness_mm > 6) return NAN;
    return thickness_mm <= 3 ? 75 : 125;
}
