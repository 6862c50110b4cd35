/* net_gap.c: air rising through the convection gap, by its own lightness against its losses.
 *
 *   g H (rho_0 - rho_m) = m^2/2 [z_in/(rho_0 A_in^2) + z_out/(rho_out A_out^2)] + f (H/D_h) rho_m v^2/2
 *   T_out = T_w - (T_w - T_0) e^-NTU,  T_m = T_w - (T_w - T_0)(1 - e^-NTU)/NTU,  NTU = h A/(m c_p)
 * with T_w the mean of the walls over their areas: handbook F6.5, first principles. Friction: Churchill 1977. Film: laminar
 * between plates with entrance (Edwards et al. 1979), Gnielinski from Re 4000, straight between 2300 and 4000. A gap colder
 * than the room falls the same way. */
#include "burning/heat/net_parts.h"

#include <math.h>

static const double share_in = 0.6; /* of the gap's losses at its way in: 1.5 of 2.5 */

typedef struct channel {
    double wall_k, air_k, height_m, hydraulic_m, section_m2, area_m2;
    double loss_in_m4, loss_out_m4; /* z/A^2 */
    sw_air air;
} channel;

static double or_section(double opening_m2, double section_m2)
{
    return opening_m2 > 0 ? opening_m2 : section_m2;
}

static channel channel_of(const sw_heat_net *net, double wall_k, double air_k)
{
    const sw_scene *s = net->scene;
    double width_m = s->gap_m2 / s->gap_width_m;
    double in_m2 = or_section(s->gap_in_m2, s->gap_m2), out_m2 = or_section(s->gap_out_m2, s->gap_m2);
    return (channel){.wall_k = net_held(wall_k, 200, 1500),
                     .air_k = air_k,
                     .height_m = s->gap_height_m,
                     .hydraulic_m = 2 * s->gap_width_m * width_m / (s->gap_width_m + width_m),
                     .section_m2 = s->gap_m2,
                     .area_m2 = net->gap_area_m2,
                     .loss_in_m4 = share_in * net->model.gap_loss / (in_m2 * in_m2),
                     .loss_out_m4 = (1 - share_in) * net->model.gap_loss / (out_m2 * out_m2),
                     .air = sw_air_at(air_k)};
}

static double nusselt(const channel *c, double re, double pr)
{
    static const double first = 2300, full = 4000, most = 5e6;
    double laminar = sw_nu_plates_entrance(re * pr * c->hydraulic_m / c->height_m);
    if (re <= first) return laminar;
    double at = fmin(fmax(re, full), most);
    double turbulent = sw_nu_gnielinski(at, pr, sw_friction_petukhov(at));
    double part = fmin((re - first) / (full - first), 1);
    return (1 - part) * laminar + part * turbulent;
}

/* What the walls do to so much air; properties at the mean it takes. */
static net_gap_flow warmed(const channel *c, double kg_s, double *re)
{
    net_gap_flow f = {.kg_s = kg_s, .mean_k = 0.5 * (c->wall_k + c->air_k)};
    double over_k = c->wall_k - c->air_k;
    for (int round = 0; round < 3; round++) { /* the properties move the mean by little: settled to 1e-3 K */
        sw_air at = sw_air_at(f.mean_k);
        *re = kg_s / c->section_m2 * c->hydraulic_m / at.viscosity;
        f.h = nusselt(c, *re, at.pr) * at.conductivity / c->hydraulic_m;
        double ntu = f.h * c->area_m2 / (kg_s * at.cp), mean_share = -expm1(-ntu) / ntu;
        f.out_k = c->wall_k - over_k * exp(-ntu);
        f.mean_k = c->wall_k - over_k * mean_share;
        f.mean_by_wall = 1 - mean_share;
    }
    return f;
}

/* *over_pa: lightness less losses. */
static net_gap_flow pass(const channel *c, double kg_s, double *over_pa)
{
    double re, rho_0 = c->air.density;
    net_gap_flow f = warmed(c, kg_s, &re);
    double rho_m = rho_0 * c->air_k / f.mean_k, rho_out = rho_0 * c->air_k / f.out_k;
    double v = kg_s / (rho_m * c->section_m2);
    double friction = sw_friction_churchill(re, 0) * c->height_m / c->hydraulic_m * rho_m * v * v / 2;
    double rise = SW_GRAVITY * c->height_m * fabs(rho_0 - rho_m);
    *over_pa = rise - kg_s * kg_s / 2 * (c->loss_in_m4 / rho_0 + c->loss_out_m4 / rho_out) - friction;
    return f;
}

static net_gap_flow still(const sw_heat_net *net, double wall_k)
{
    double half_m = net->scene->gap_width_m > 0 ? 0.5 * net->scene->gap_width_m : 0.015;
    double k = sw_air_at(net_held(wall_k, 200, 1500)).conductivity;
    return (net_gap_flow){.h = k / half_m, .out_k = wall_k, .mean_k = wall_k, .mean_by_wall = 1};
}

/* The flow at which lightness and losses are equal: secant on the logarithm, kept between what is too little and too much. */
static net_gap_flow balance(const channel *c, double guess_kg_s)
{
    double low = log(1e-9 * c->section_m2), high = log(1e3 * c->section_m2), over = 0;
    double x = net_held(log(fmax(guess_kg_s, 1e-30)), low, high), x0 = NAN, over0 = 0;
    net_gap_flow f = {0};
    for (int round = 0; round < 80; round++) {
        f = pass(c, exp(x), &over);
        *(over > 0 ? &low : &high) = x;
        double next = isnan(x0) ? x + (over > 0 ? 0.02 : -0.02) : x - over * (x - x0) / (over - over0);
        if (over == 0 || fabs(next - x) < 1e-12) break;
        if (!(next > low && next < high)) next = 0.5 * (low + high);
        x0 = x, over0 = over;
        x = next;
    }
    return f;
}

net_gap_flow net_gap_at(const sw_heat_net *net, double wall_k, double air_k, double guess_kg_s)
{
    const sw_scene *s = net->scene;
    bool open = s->gap_m2 > 0 && s->gap_width_m > 0 && s->gap_height_m > 0 && net->gap_area_m2 > 0;
    if (!open || fabs(wall_k - air_k) < 1e-6) {
        net_gap_flow f = still(net, wall_k);
        if (net->gap_area_m2 <= 0) f.out_k = f.mean_k = air_k;
        return f;
    }
    channel c = channel_of(net, wall_k, air_k);
    return balance(&c, guess_kg_s > 0 ? guess_kg_s : 0.5 * c.section_m2);
}

void net_gap_march(size_t steps, double flow_w_k, const double *w_k, const double *wall_k, double in_k, double *mean_k,
                   double *out_k)
{
    double air = in_k;
    for (size_t i = 0; i < steps; i++) {
        double n = flow_w_k > 0 ? w_k[i] / flow_w_k : 0;
        double share = n > 1e-9 ? -expm1(-n) / n : 1;
        mean_k[i] = w_k[i] > 0 ? wall_k[i] - (wall_k[i] - air) * share : air;
        if (n > 0) air = wall_k[i] - (wall_k[i] - air) * exp(-n);
    }
    *out_k = air;
}
