/* cut_formulas.c: the single formulas of thermal cutting. */
#include "making/cut/cut.h"

#include <math.h>

/* From rest to rest with acceleration a and at most speed v: t = d/v + v/a if d >= v^2/a, else 2 sqrt(d/a).
 * Source: derived (uniform acceleration, trapezoid or triangle of speed). */
double sw_move_time_s(double d_mm, double v_mm_s, double a_mm_s2)
{
    if (!(d_mm >= 0) || !(v_mm_s > 0) || !(a_mm_s2 > 0)) return NAN;
    if (d_mm >= v_mm_s * v_mm_s / a_mm_s2) return d_mm / v_mm_s + v_mm_s / a_mm_s2;
    return 2 * sqrt(d_mm / a_mm_s2);
}

/* v_max = sqrt(a_c r): centripetal acceleration on an arc. Source: derived (kinematics). */
double sw_corner_speed_mm_s(double radius_mm, double accel_mm_s2)
{
    if (!(radius_mm >= 0) || !(accel_mm_s2 > 0)) return NAN;
    return sqrt(accel_mm_s2 * radius_mm);
}

/* v = e P / (rho H_m w s): the share e of the beam power melts the kerf, density kg/m3, H_m J/kg.
 * Source: energy balance, Steen & Mazumder, Laser Material Processing (from memory). */
double sw_laser_speed_mm_s(double share, double power_w, double density, double melt_j_kg, double kerf_mm, double s_mm)
{
    if (!(share > 0) || !(power_w > 0) || !(density > 0) || !(melt_j_kg > 0) || !(kerf_mm > 0) || !(s_mm > 0))
        return NAN;
    return sw_mm_from_m(share * power_w / (density * melt_j_kg * sw_m_from_mm(kerf_mm) * sw_m_from_mm(s_mm)));
}

/* Choked when p_b/p0 <= (2/(g+1))^(g/(g-1)). Source: isentropic flow, any text on gas dynamics (derived). */
bool sw_nozzle_choked(double p0_pa, double pb_pa, double gamma)
{
    return pb_pa / p0_pa <= pow(2 / (gamma + 1), gamma / (gamma - 1));
}

/* Isentropic nozzle, p0 and p_b absolute, A the nozzle's opening. Choked:
 *   m = C_d A p0 sqrt(g/(R T0)) (2/(g+1))^((g+1)/(2(g-1)))
 * and else, with r = p_b/p0,
 *   m = C_d A p0 sqrt(2 g/((g-1) R T0) (r^(2/g) - r^((g+1)/g))).
 * Source: isentropic flow, any text on gas dynamics (derived). NAN for p_b > p0. */
double sw_nozzle_flow_kg_s(double cd, double d_mm, double p0_pa, double pb_pa, double t0_k, double gas_r, double gamma)
{
    if (!(cd >= 0) || !(d_mm >= 0) || !(p0_pa > 0) || !(pb_pa >= 0) || pb_pa > p0_pa) return NAN;
    if (!(t0_k > 0) || !(gas_r > 0) || !(gamma > 1)) return NAN;
    double area = SW_PI / 4 * sw_m2_from_mm2(d_mm * d_mm), r = pb_pa / p0_pa;
    if (sw_nozzle_choked(p0_pa, pb_pa, gamma))
        return cd * area * p0_pa * sqrt(gamma / (gas_r * t0_k)) * pow(2 / (gamma + 1), (gamma + 1) / (2 * (gamma - 1)));
    double spread = pow(r, 2 / gamma) - pow(r, (gamma + 1) / gamma);
    return cd * area * p0_pa * sqrt(2 * gamma / ((gamma - 1) * gas_r * t0_k) * spread);
}

/* V = m R T / p at 0 C and 101325 Pa. Source: ideal gas. */
double sw_normal_m3_s(double flow_kg_s, double gas_r)
{
    const double normal_pa = 101325.0; /* ISO 13443 / DIN 1343 (from memory) */
    return flow_kg_s * gas_r * sw_k_from_c(0) / normal_pa;
}

/* n equal rectangles w x h in a row, neighbours sharing the cut of height h: n 2w + (n+1) h. Source: derived. */
double sw_common_cut_length_mm(size_t n, double w_mm, double h_mm)
{
    if (n == 0) return 0;
    return (double)n * 2 * w_mm + (double)(n + 1) * h_mm;
}

/* Half the kerf: outward on outlines, inward on holes. Source: derived. */
double sw_kerf_offset_mm(double kerf_mm)
{
    return kerf_mm / 2;
}

/* t = L/v + n t_p + L_r/v_r, without corners. Source: derived. */
double sw_cut_time_s(double cut_mm, double feed_mm_s, size_t pierces, double pierce_s, double rapid_mm,
                     double rapid_mm_s)
{
    if (!(cut_mm >= 0) || !(feed_mm_s > 0) || !(rapid_mm >= 0) || !(rapid_mm_s > 0)) return NAN;
    return cut_mm / feed_mm_s + (double)pierces * pierce_s + rapid_mm / rapid_mm_s;
}

/* rate t / L. Source: derived. */
double sw_cut_cost_per_m(double rate_h, double time_s, double cut_mm)
{
    if (!(cut_mm > 0)) return NAN;
    return rate_h * sw_h_from_s(time_s) / sw_m_from_mm(cut_mm);
}
