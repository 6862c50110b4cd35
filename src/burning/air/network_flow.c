/* network_flow.c: the flow through one way and how it grows with the pressure. */
#include "burning/air/air_parts.h"

#include <math.h>

/* About zero the root is made linear: ours, far below any pressure that matters; at 0.02 Pa it is off by 6e-6. */
static const double smooth_pa = 1e-4;
/* Sheet ducts with joints: ASHRAE Fundamentals, "medium smooth" (from memory). */
static const double roughness_m = 0.09e-3;
static const double creeping_re = 1e-3; /* below, Churchill's formula is 64/Re to all digits */
static const double duct_tolerance = 1e-13;
enum { DUCT_ROUNDS = 80 };

/* m = K dp/(dp2 + e2)^(1/4): the orifice law K sqrt(dp), analytic and rising through zero. */
static void orifice(air_link *link, double k)
{
    double p = link->pressure_pa, square = p * p + smooth_pa * smooth_pa, s = sqrt(square), root = sqrt(s);
    link->kg_s = k * p / root;
    link->slope = k * (0.5 * p * p + smooth_pa * smooth_pa) / (square * root);
}

/* ---- ducts: dp = (1/cd2 + f L/D) m2/(2 rho A2) ---- */

typedef struct duct {
    double fixed, friction; /* of m2: without and with the friction factor */
    double re_by_kg_s, roughness;
} duct;

static duct duct_of(const air_link *link, double density, double viscosity)
{
    double dynamic = 1 / (2 * density * link->area_m2 * link->area_m2);
    return (duct){.fixed = dynamic / (link->cd * link->cd),
                  .friction = dynamic * link->duct_by_d,
                  .re_by_kg_s = link->hydraulic_m / (link->area_m2 * viscosity),
                  .roughness = roughness_m / link->hydraulic_m};
}

/* Natural logarithm of the pressure at that flow over the one wanted; *power: d ln dp/d ln m. */
static double duct_miss(const duct *d, double kg_s, double want_pa, double *power)
{
    const double apart = 1e-4;
    double re = kg_s * d->re_by_kg_s;
    double f = sw_friction_churchill(re, d->roughness), more = sw_friction_churchill(re * (1 + apart), d->roughness),
           less = sw_friction_churchill(re * (1 - apart), d->roughness);
    double total = d->fixed + f * d->friction;
    *power = 2 + (more - less) / (2 * apart) * d->friction / total;
    return log(total * kg_s * kg_s / want_pa);
}

/* Newton in the logarithms from the laminar answer; the power lies between 1 (laminar) and about 4 (transition). */
static void duct_flow(air_link *link, const duct *d)
{
    double want_pa = fabs(link->pressure_pa);
    double laminar = 64 * d->friction / d->re_by_kg_s, root = sqrt(laminar * laminar + 4 * d->fixed * want_pa);
    double kg_s = 2 * want_pa / (laminar + root);
    link->kg_s = copysign(kg_s, link->pressure_pa);
    link->slope = 1 / root;
    if (kg_s * d->re_by_kg_s < creeping_re) return;
    for (int i = 0; i < DUCT_ROUNDS; i++) {
        double power = 2, miss = duct_miss(d, kg_s, want_pa, &power);
        power = fmin(fmax(power, 1), 4);
        link->kg_s = copysign(kg_s, link->pressure_pa);
        link->slope = kg_s / (want_pa * power);
        if (fabs(miss) < duct_tolerance) return;
        kg_s *= exp(-miss / power);
    }
    link->kg_s = link->slope = NAN; /* the network then says that it did not settle */
}

void air_flow_at(air_link *link, double pressure_pa)
{
    bool forth = pressure_pa >= 0;
    link->pressure_pa = pressure_pa;
    if (!(link->duct_by_d > 0)) {
        orifice(link, forth ? link->forth : link->back);
        return;
    }
    duct d = forth ? duct_of(link, link->density_forth, link->viscosity_forth)
                   : duct_of(link, link->density_back, link->viscosity_back);
    duct_flow(link, &d);
}
