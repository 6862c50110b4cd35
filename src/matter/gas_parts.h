/* gas_parts.h: the published coefficients behind gas.c; for gas.c and gas_table.c alone. */
#ifndef SW_MATTER_GAS_PARTS_H
#define SW_MATTER_GAS_PARTS_H

#include "matter/matter.h"

/* cp/R = a[0] + a[1] T + a[2] T2 + a[3] T3 + a[4] T4; h/(R T) = a[0] + a[1] T/2 + ... + a[4] T4/5 + a[5]/T */
enum { GAS_NASA = 6 };
typedef struct gas_nasa_row {
    double low[GAS_NASA], high[GAS_NASA]; /* up to and above 1000 K */
} gas_nasa_row;

/* cp = A + B t + C t2 + D t3 + E/t2 in J/(mol K), t = T in thousands of K; h - h(298.15 K) in kJ/mol takes F and H too. */
typedef struct gas_shomate_row {
    double from_k, to_k, A, B, C, D, E, F, H;
} gas_shomate_row;

extern const double gas_kg_kmol[SW_GASES];
extern const gas_nasa_row gas_nasa[SW_GASES];
extern const gas_shomate_row gas_shomate[SW_GASES][2]; /* second row with to_k 0 = none */

#endif
