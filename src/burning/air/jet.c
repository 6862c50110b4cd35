/* jet.c: round turbulent free jets.
 *
 * Decay on the axis: Hinze & van der Hegge Zijnen 1949, as in Beer & Chigier, Combustion Aerodynamics, 1972 (from memory).
 * Jets of another density: Thring & Newby, 4th Symposium on Combustion, 1953 (from memory): a hole is as wide as one that
 * gives the same mass and momentum in gas of the surroundings' density, d_e = d sqrt(rho_jet/rho_gas). */
#include "burning/air/air.h"

#include <math.h>

static const double decay = 6.3;  /* Schlichting, Boundary-Layer Theory: 6.57 by his eddy viscosity (from memory) */
static const double origin = 0.6; /* the virtual origin lies that many holes behind */

static double equivalent_m(double hole_m, double jet_k, double gas_k)
{
    return hole_m > 0 && jet_k > 0 && gas_k > 0 ? hole_m * sqrt(gas_k / jet_k) : (double)NAN;
}

/* u/u0 = 6.3 d_e/(x + 0.6 d_e), 1 within the core of 5.7 d_e */
double sw_jet_share(double x_m, double hole_m, double jet_k, double gas_k)
{
    double d_m = equivalent_m(hole_m, jet_k, gas_k);
    if (!(x_m >= 0) || isnan(d_m)) return NAN;
    return fmin(1, decay * d_m / (x_m + origin * d_m));
}

double sw_jet_reach_m(double hole_m, double jet_k, double gas_k, double to_share)
{
    if (!(to_share > 0 && to_share <= 1)) return NAN;
    return equivalent_m(hole_m, jet_k, gas_k) * (decay / to_share - origin);
}
