/* conduction.c: fins, lumped bodies, slabs, deep bodies and plates with a closed answer.
 *
 * All from the equation of conduction: Carslaw & Jaeger, Conduction of Heat in Solids; Incropera ch. 2 to 5. */
#include "transfer/transfer.h"

#include <math.h>

/* ---- fins and lumped bodies --------------------------------------------------------------------------------------- */

double sw_fin_m(double h, double perimeter_m, double k, double area_m2)
{
    return sqrt(h * perimeter_m / (k * area_m2));
}

double sw_fin_efficiency(double ml)
{
    if (!(ml >= 0)) return NAN;
    return ml > 0 ? tanh(ml) / ml : 1.0;
}

double sw_fin_infinite_w(double h, double perimeter_m, double k, double area_m2, double over_k)
{
    return sqrt(h * perimeter_m * k * area_m2) * over_k;
}

double sw_lumped_s(double mass_kg, double heat_capacity, double h, double area_m2)
{
    return mass_kg * heat_capacity / (h * area_m2);
}

/* ---- slab --------------------------------------------------------------------------------------------------------- */

/* Root number n (from 0) of z tan z = Bi, between n pi and (n + 1/2) pi: Newton on z - n pi - atan(Bi/z), which rises and bends
 * one way only. */
static double slab_root(double bi, int n)
{
    double low = n * SW_PI, high = (n + 0.5) * SW_PI;
    if (isinf(bi)) return high;
    double z = n == 0 ? sqrt(bi / (1 + bi * 4 / (SW_PI * SW_PI))) : low + atan(bi / (low + 0.25 * SW_PI));
    for (int round = 0; round < 50; round++) {
        double step = (z - low - atan2(bi, z)) / (1 + bi / (z * z + bi * bi));
        double next = z - step;
        if (next <= low) next = 0.5 * (low + z);
        if (next > high) next = high;
        if (fabs(next - z) <= 1e-15 * high) return next;
        z = next;
    }
    return z; /* within a few roundings of the root: Newton has gone quiet */
}

double sw_slab_root(double bi)
{
    if (!(bi >= 0)) return NAN;
    return bi > 0 ? slab_root(bi, 0) : 0.0;
}

/* exp(y^2) erfc(y), y >= 0; asymptotic series above 20 (last term 1e-11) */
static double scaled_erfc(double y)
{
    if (y < 20) return exp(y * y) * erfc(y);
    double s = 1 / (2 * y * y);
    return (1 - s * (1 - 3 * s * (1 - 5 * s * (1 - 7 * s)))) / (y * sqrt(SW_PI));
}

/* Early, the face at distance d (in half-thicknesses) cools a body without end:
 *   1 - theta = erfc(xi) - exp(Bi d + Bi^2 Fo) erfc(xi + Bi sqrt Fo), xi = d/(2 sqrt Fo) */
static double face_loss(double bi, double fo, double d)
{
    double xi = d / (2 * sqrt(fo));
    if (isinf(bi)) return erfc(xi);
    return erfc(xi) - exp(-xi * xi) * scaled_erfc(xi + bi * sqrt(fo));
}

/* theta = sum A_n exp(-zeta_n^2 Fo) cos(zeta_n x/L), A_n = 4 sin zeta/(2 zeta + sin 2 zeta) */
static double slab_series(double bi, double fo, double x_by_l)
{
    double theta = 0;
    for (int n = 0; n < 100; n++) {
        double z = slab_root(bi, n);
        double fade = exp(-z * z * fo);
        theta += 4 * sin(z) / (2 * z + sin(2 * z)) * fade * cos(z * x_by_l);
        if (fade < 1e-17) break;
    }
    return theta;
}

/* Below Fo 0.01, where the series needs many terms, the faces do not feel each other yet: the remainder is of the order of
 * erfc(1/(2 sqrt Fo)) = 2e-12. */
double sw_slab_theta(double bi, double fo, double x_by_l)
{
    if (!(bi >= 0) || !(fo >= 0) || !(x_by_l >= 0 && x_by_l <= 1)) return NAN;
    if (bi == 0 || fo == 0) return 1.0;
    if (fo < 0.01) return 1 - face_loss(bi, fo, 1 - x_by_l) - face_loss(bi, fo, 1 + x_by_l);
    return slab_series(bi, fo, x_by_l);
}

/* ---- deep bodies ---------------------------------------------------------------------------------------------------- */

double sw_semi_infinite_step(double x_m, double diffusivity, double time_s)
{
    if (!(x_m >= 0) || !(diffusivity > 0) || !(time_s >= 0)) return NAN;
    if (time_s == 0) return x_m > 0 ? 0.0 : 1.0;
    return erfc(x_m / (2 * sqrt(diffusivity * time_s)));
}

/* dT = 2 q/k sqrt(a t/pi) exp(-x^2/(4 a t)) - q x/k erfc(x/(2 sqrt(a t))) */
double sw_semi_infinite_flux_k(double q, double k, double diffusivity, double x_m, double time_s)
{
    if (!(k > 0) || !(x_m >= 0) || !(diffusivity > 0) || !(time_s >= 0)) return NAN;
    if (time_s == 0) return 0;
    double reach_m = sqrt(diffusivity * time_s), xi = x_m / (2 * reach_m);
    return q / k * (2 * reach_m / sqrt(SW_PI) * exp(-xi * xi) - x_m * erfc(xi));
}

double sw_contact_k(double effusivity_1, double t1_k, double effusivity_2, double t2_k)
{
    return (effusivity_1 * t1_k + effusivity_2 * t2_k) / (effusivity_1 + effusivity_2);
}

/* ---- plates --------------------------------------------------------------------------------------------------------- */

static bool in_square(double x, double y)
{
    return x >= 0 && x <= 1 && y >= 0 && y <= 1;
}

/* Incropera eq. 4.19: theta = 4/pi sum over odd n of 1/n sin(n pi x) sinh(n pi y)/sinh(n pi). The quotient of sinh is a series
 * of exp(-n pi d) over the images of the hot edge at d = 2 j + 1 -+ y, and the sum over n of each is closed:
 *   4/pi sum 1/n sin(n pi x) exp(-n pi d) = 2/pi atan(sin(pi x)/sinh(pi d)) */
double sw_plate_edge_series(double x, double y)
{
    if (!in_square(x, y)) return NAN;
    double theta = 0, s = sin(SW_PI * x);
    if (x == 0 || x == 1) return 0;
    for (int j = 0; j < 8; j++)
        theta += atan2(s, sinh(SW_PI * (2 * j + 1 - y))) - atan2(s, sinh(SW_PI * (2 * j + 1 + y)));
    return 2 / SW_PI * theta;
}

/* Strip between two cold edges: -u'' + m2 u = 1, written so that nothing cancels as m2 goes to 0. */
static double strip(double x, double m2)
{
    if (m2 == 0) return 0.5 * x * (1 - x);
    double m = sqrt(m2);
    return expm1(-m * x) * expm1(-m * (1 - x)) / ((1 + exp(-m)) * m2);
}

/* u = sum over odd m, n of 16/{pi^2 m n [pi^2 (m^2 + n^2) + M^2]} sin(m pi x) sin(n pi y): a sine series of the source 1. The sum
 * over m is closed; what is left runs over n with beta^2 = n^2 pi^2 + M^2 and fades as exp(-beta y):
 *   u = strip(x) - sum 4/(n pi beta^2) sin(n pi x) cosh(beta (y - 1/2))/cosh(beta/2) */
double sw_plate_flux_series(double x, double y, double m2)
{
    if (!in_square(x, y) || !(m2 >= 0)) return NAN;
    if (x == 0 || x == 1 || y == 0 || y == 1) return 0;
    double u = strip(x, m2);
    for (int n = 1; n < 20000; n += 2) {
        double b2 = n * n * SW_PI * SW_PI + m2, b = sqrt(b2);
        double size = 4 / (n * SW_PI * b2) * (exp(-b * y) + exp(-b * (1 - y))) / (1 + exp(-b));
        u -= size * sin(n * SW_PI * x);
        if (size < 1e-17) break;
    }
    return u;
}
