/* map_radiosity.c: what meets the patches of an enclosure of grey diffuse surfaces with a grey gas between them.
 *
 *   A_i H_i = tau sum_j V_ij (e_j E_j + (1 - e_j) H_j) + e_gas A_i E_gas      tau = 1 - e_gas
 * as in net_exchange.c (Hottel & Sarofim 1967), by sweeps (Gauss-Seidel): each takes the error down by about the mean
 * reflectance, and both ways alternate. */
#include "burning/heat/map_parts.h"

#include <math.h>

static double met(const map_space *s, const double *E, double gas_E, const double *H, size_t i)
{
    double sum = 0.0;
    for (size_t k = s->start[i]; k < s->start[i + 1]; k++) {
        size_t j = s->column[k];
        sum += s->view[k] * (s->e[j] * E[j] + (1.0 - s->e[j]) * H[j]);
    }
    return s->area[i] > 0.0 ? (1.0 - s->gas_e) * sum / s->area[i] + s->gas_e * gas_E : 0.0;
}

void map_space_settle(map_space *s, const double *E, double gas_E, double *H, int sweeps)
{
    for (int round = 0; round < sweeps; round++) {
        double most = 0.0, change = 0.0;
        for (size_t n = 0; n < s->rows; n++) {
            size_t i = round % 2 == 0 ? n : s->rows - 1 - n;
            double now = met(s, E, gas_E, H, i);
            change = fmax(change, fabs(now - H[i]));
            most = fmax(most, fabs(now));
            H[i] = now;
        }
        if (change <= 1e-9 * most) break;
    }
}
