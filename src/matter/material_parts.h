/* material_parts.h: the laws behind material.c; for material.c and material_table.c alone. */
#ifndef SW_MATTER_MATERIAL_PARTS_H
#define SW_MATTER_MATERIAL_PARTS_H

#include "matter/matter.h"

/* A property over temperature: linear between points, held outside them. */
enum { MATERIAL_POINTS = 6 };
typedef struct material_point {
    double t_c, value;
} material_point;
typedef struct material_curve {
    size_t count;
    material_point points[MATERIAL_POINTS];
} material_curve;

typedef enum material_form { MATERIAL_CURVES, MATERIAL_CARBON_STEEL, MATERIAL_AUSTENITE } material_form;
typedef struct material_law {
    material_form form; /* the steels of EN 1993-1-2 have formulas, the others curves */
    material_curve conductivity, capacity;
    material_curve expansion; /* mean coefficient from 20 degC, 1/K; count 0 = unknown */
} material_law;

/* sw_material.law counts in this table. */
extern const material_law material_laws[];
extern const sw_material material_rows[];
extern const size_t material_count;

typedef struct material_factors_row {
    double t_c, yield, proportional, modulus;
} material_factors_row;
enum { MATERIAL_FACTORS = 13 };
extern const material_factors_row material_factors[MATERIAL_FACTORS];

enum { MATERIAL_CONTACTS = 8, MATERIAL_SURFACES = 4 };
extern const double material_contact_s[MATERIAL_CONTACTS];
extern const double material_burn_c[MATERIAL_SURFACES][MATERIAL_CONTACTS]; /* 0 = none tabled */

#endif
