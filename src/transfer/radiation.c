/* radiation.c: black bodies, plates and shields, and the net-radiation method.
 *
 * Incropera & DeWitt ch. 13, Modest, Radiative Heat Transfer, ch. 5 (from memory; first principles). */
#include "transfer/transfer.h"

#include <math.h>

static const double c2_um_k = 14387.77; /* second radiation constant, CODATA 2018 */

/* Integral of x3/(e^x - 1) from 0 to z below 1: z3 (1/3 - z/8 + sum B_2k z^2k/((2k + 3)(2k)!)), B = Bernoulli numbers. */
static double planck_small(double z)
{
    static const double c[] = {1.0 / 60.0,        -1.0 / 5040.0,     1.0 / 272160.0,
                               -1.0 / 13305600.0, 1.0 / 622702080.0, -691.0 / 19615115520000.0};
    double sum = 0.0, z2 = z * z;
    for (size_t k = sizeof c / sizeof *c; k-- > 0;) sum = (sum + c[k]) * z2;
    return z2 * z * (1.0 / 3.0 - z / 8.0 + sum);
}

/* The same integral from z to infinity, z at least 1: sum e^(-nz)/n (z3 + 3 z2/n + 6 z/n2 + 6/n3). */
static double planck_large(double z)
{
    double sum = 0.0, one = exp(-z), power = one;
    for (int i = 1; i < 60 && power > 1e-18 * sum; i++) {
        double n = i;
        sum += power / n * (((z + 3.0 / n) * z + 6.0 / (n * n)) * z + 6.0 / (n * n * n));
        power *= one;
    }
    return sum;
}

/* Chang & Rhee 1984 for the series; 15/pi4 times the integral of x3/(e^x - 1) from c2/(lambda T). */
double sw_black_fraction(double lambda_t_um_k)
{
    if (!(lambda_t_um_k >= 0.0)) return NAN;
    double z = c2_um_k / lambda_t_um_k, scale = 15.0 / (SW_PI * SW_PI * SW_PI * SW_PI);
    if (z > 700.0) return 0.0;
    return z < 1.0 ? 1.0 - scale * planck_small(z) : scale * planck_large(z);
}

static bool is_emissivity(double e)
{
    return e > 0.0 && e <= 1.0;
}

static double black_w_m2(double t_k)
{
    return SW_STEFAN_BOLTZMANN * t_k * t_k * t_k * t_k;
}

double sw_plates_exchange(double t1_k, double e1, double t2_k, double e2)
{
    return sw_shielded_exchange(t1_k, e1, t2_k, e2, 0, 1.0);
}

/* sigma (T1^4 - T2^4)/(1/e1 + 1/e2 - 1 + N (2/es - 1)), shields alike on both sides. */
double sw_shielded_exchange(double t1_k, double e1, double t2_k, double e2, size_t shields, double shield_e)
{
    if (!(t1_k >= 0.0) || !(t2_k >= 0.0) || !is_emissivity(e1) || !is_emissivity(e2) || !is_emissivity(shield_e))
        return NAN;
    double resistance = 1.0 / e1 + 1.0 / e2 - 1.0 + (double)shields * (2.0 / shield_e - 1.0);
    return (black_w_m2(t1_k) - black_w_m2(t2_k)) / resistance;
}

/* ---- the net-radiation method -------------------------------------------------------------------------------- */

static const double row_tolerance = 1e-3, least_pivot = 1e-12;

static sw_status fault(sw_run *run, size_t i, const char *what, double got, const char *allowed)
{
    return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "enclosure", "surface %zu: %s %g is not %s", i + 1, what, got,
                   allowed);
}

static sw_status check_row(sw_run *run, const sw_enclosure *e, size_t i)
{
    double sum = 0.0, least = 0.0;
    for (size_t j = 0; j < e->n; j++) {
        sum += e->F[i * e->n + j];
        least = fmin(least, e->F[i * e->n + j]);
    }
    if (least < -row_tolerance) return fault(run, i, "view factor", least, "0 or above");
    if (!(fabs(sum - 1.0) <= row_tolerance)) return fault(run, i, "sum of view factors", sum, "1 within 0.001");
    return SW_OK;
}

static sw_status check_surface(sw_run *run, const sw_enclosure *e, size_t i)
{
    sw_status status = check_row(run, e, i);
    if (!is_emissivity(e->emissivity[i])) status = fault(run, i, "emissivity", e->emissivity[i], "in (0, 1]");
    if (!(e->area_m2[i] > 0.0)) status = fault(run, i, "area", e->area_m2[i], "above 0");
    if (e->known_t[i] && !(e->t_k[i] >= 0.0 && isfinite(e->t_k[i])))
        status = fault(run, i, "temperature", e->t_k[i], "0 K or above");
    if (!e->known_t[i] && !isfinite(e->q[i])) status = fault(run, i, "flux", e->q[i], "a number");
    return status;
}

static sw_status check(sw_run *run, const sw_enclosure *e)
{
    sw_status status = SW_OK;
    for (size_t i = 0; i < e->n; i++) {
        sw_status one = check_surface(run, e, i);
        if (one != SW_OK) status = one;
    }
    if (!(e->e_gas >= 0.0 && e->e_gas <= 1.0) || (e->e_gas > 0.0 && !(e->gas_k >= 0.0 && isfinite(e->gas_k))))
        status = sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "enclosure",
                         "gas of emissivity %g at %g K: 0 to 1 and 0 K or above are allowed", e->e_gas, e->gas_k);
    return status;
}

static double gas_share_w_m2(const sw_enclosure *e)
{
    return e->e_gas > 0.0 ? e->e_gas * black_w_m2(e->gas_k) : 0.0;
}

/* J_i - (1 - e_i)[(1 - e_g) sum F_ij J_j + e_g sigma T_g^4] = e_i sigma T_i^4, or with known flux
 * J_i - (1 - e_g) sum F_ij J_j = q_i + e_g sigma T_g^4. */
static void fill(const sw_enclosure *e, double *a, double *b)
{
    double gas = gas_share_w_m2(e);
    for (size_t i = 0; i < e->n; i++) {
        double reflected = e->known_t[i] ? 1.0 - e->emissivity[i] : 1.0;
        for (size_t j = 0; j < e->n; j++)
            a[i * e->n + j] = (i == j ? 1.0 : 0.0) - reflected * (1.0 - e->e_gas) * e->F[i * e->n + j];
        b[i] = reflected * gas + (e->known_t[i] ? e->emissivity[i] * black_w_m2(e->t_k[i]) : e->q[i]);
    }
}

static bool solve_dense(double *a, double *b, size_t *pivot, size_t n)
{
    if (!sw_lu(a, n, n, pivot)) return false;
    for (size_t k = 0; k < n; k++)
        if (!(fabs(a[k * n + k]) > least_pivot)) return false;
    sw_lu_solve(a, n, n, pivot, b);
    return true;
}

static double incoming_w_m2(const sw_enclosure *e, size_t i)
{
    double sum = 0.0;
    for (size_t j = 0; j < e->n; j++) sum += e->F[i * e->n + j] * e->J[j];
    return (1.0 - e->e_gas) * sum + gas_share_w_m2(e);
}

/* q_i = J_i - H_i; T_i^4 = [J_i + (1 - e_i) q_i/e_i]/sigma */
static sw_status fill_rest(sw_run *run, const sw_enclosure *e)
{
    sw_status status = SW_OK;
    for (size_t i = 0; i < e->n; i++) {
        double emissivity = e->emissivity[i];
        if (e->known_t[i]) {
            e->q[i] = e->J[i] - incoming_w_m2(e, i);
            continue;
        }
        double black = e->J[i] + (1.0 - emissivity) / emissivity * e->q[i];
        if (black < 0.0)
            status = sw_fail(run, SW_NO_SOLUTION, (sw_place){0}, "enclosure",
                             "surface %zu: a net flux of %g W/m2 would need less than 0 K; give a larger one", i + 1,
                             e->q[i]);
        e->t_k[i] = black < 0.0 ? (double)NAN : sqrt(sqrt(black / SW_STEFAN_BOLTZMANN));
    }
    return status;
}

static sw_status solve(sw_run *run, const sw_enclosure *e)
{
    double *a = SW_SCRATCH(run, e->n * e->n, double);
    size_t *pivot = SW_SCRATCH(run, e->n, size_t);
    if (a == NULL || pivot == NULL) return SW_NO_MEMORY;
    fill(e, a, e->J);
    if (!solve_dense(a, e->J, pivot, e->n))
        return sw_fail(run, SW_NO_SOLUTION, (sw_place){0}, "enclosure",
                       "nothing sets the temperature of some surfaces; give one of them a temperature, or a gas");
    return fill_rest(run, e);
}

sw_status sw_enclosure_solve(sw_run *run, const sw_enclosure *e)
{
    SW_TRY(check(run, e));
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = solve(run, e);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
