/* matter.h: what the stove is made of: grades and their published figures.
 *
 * SI, MPa for strengths as the standards print them, mm for sheet. Each table stands in a *_table.c with
 * its source on top. A grade not in the table is NULL, never a guess. */
#ifndef SW_MATTER_MATTER_H
#define SW_MATTER_MATTER_H

#include "base/base.h"

typedef enum sw_matter_kind {
    SW_STEEL,
    SW_STAINLESS,
    SW_CAST_IRON,
    SW_BOARD,
    SW_GLASS,
    SW_ROPE,
    SW_MATTER_OTHER
} sw_matter_kind;

typedef struct sw_grade {
    const char *name;     /* "S235" as written in descriptions */
    const char *standard; /* "EN 10025-2" */
    sw_matter_kind kind;
    double density;                            /* kg/m3 */
    double re_min_mpa, rm_min_mpa, rm_max_mpa; /* 0 = does not apply */
    double young_mpa, poisson;
    const char *source; /* of these figures, with how it was obtained */
} sw_grade;

size_t sw_grade_count(void);
const sw_grade *sw_grade_at(size_t i);
const sw_grade *sw_grade_find(const char *name); /* NULL = unknown */

/* Mass of a flat piece of sheet. density kg/m3 */
static inline double sw_sheet_mass_kg(double density, double area_mm2, double thickness_mm)
{
    return density * sw_m3_from_mm3(area_mm2 * thickness_mm);
}

/* Least inside radius for bending, mm, by DIN 6935 (1975-10), bend across the rolling direction and angle up
 * to 120 degrees; along the rolling direction, or above 120, the next thicker column. NAN outside the table
 * (thickness over 12 mm, Rm over 640 MPa, not steel). rm_mpa is the grade's minimum tensile strength. */
double sw_min_bend_radius_mm(double rm_mpa, double thickness_mm, bool along_rolling, double angle_rad);
#define SW_MIN_BEND_RADIUS_SOURCE "DIN 6935:1975-10, least bending radii"

/* Least inside radius for bending of steels of flanging quality C, mm, by EN 10025-2 table 12 (from memory): S235 and
 * S355, over 1 to 10 mm. NAN elsewhere. */
double sw_flanging_radius_mm(const sw_grade *grade, double thickness_mm, bool along_rolling);

/* Limit deviation of a bend angle, plus or minus, by the length of the shorter leg: DIN 6935 (from memory). */
double sw_bend_angle_deviation_rad(double shorter_leg_mm);

/* Thickness tolerance, +- mm: EN 10051:2010 category A (hot rolled) or EN 10131:2006 normal (cold rolled).
 * NAN outside the table. */
double sw_thickness_tolerance_mm(const sw_grade *grade, double thickness_mm, double sheet_width_mm);
/* Special tolerance of cold rolled sheet, +- mm, EN 10131:2006. NAN outside the table. */
double sw_special_tolerance_mm(double thickness_mm, double sheet_width_mm);

/* ---- gases (gas.c, gas_table.c) --------------------------------------------------------------------------------- */

typedef enum sw_gas { SW_GAS_N2, SW_GAS_O2, SW_GAS_CO2, SW_GAS_H2O, SW_GAS_CO, SW_GASES } sw_gas;

#define SW_GAS_CONSTANT 8.314463 /* J/(mol K), CODATA 2018 */
double sw_gas_kg_kmol(sw_gas gas);
double sw_gas_cp_j_mol_k(sw_gas gas, double t_k);         /* NASA polynomials, 200..3500 K; NAN outside */
double sw_gas_enthalpy_j_mol(sw_gas gas, double t_k);     /* with the heat of formation at 298.15 K */
double sw_gas_cp_shomate_j_mol_k(sw_gas gas, double t_k); /* the other published set, to check against and for air */
double sw_gas_enthalpy_shomate_j_mol(sw_gas gas, double t_k); /* h - h(298.15 K) */

typedef struct sw_mixture {
    double kmol[SW_GASES];
} sw_mixture; /* of any amount, e.g. per kg of fuel */
double sw_mixture_kmol(const sw_mixture *m);
double sw_mixture_kg(const sw_mixture *m);
double sw_mixture_enthalpy_j(const sw_mixture *m, double t_k); /* with formation */
double sw_mixture_heat_j(const sw_mixture *m, double from_k, double to_k);
double sw_mixture_cp_j_k(const sw_mixture *m, double t_k);
double sw_mixture_density(const sw_mixture *m, double t_k, double p_pa); /* kg/m3 */
/* Temperature at which the mixture holds that enthalpy, K; NAN outside 200..3500 K. */
double sw_mixture_temperature_k(const sw_mixture *m, double enthalpy_j);

/* Dry air at 101 325 Pa: ISO 2533 / US Standard Atmosphere 1976 for viscosity and conductivity. 200..1500 K, NAN outside.
 * Flue gas of wood is taken as air for transport properties (few per cent). */
typedef struct sw_air {
    double density, cp, viscosity, kinematic, conductivity, pr;
} sw_air; /* kg/m3, J/(kg K), Pa s, m2/s, W/(m K) */
sw_air sw_air_at(double t_k);
double sw_water_pressure_pa(double t_k); /* saturation over water: Magnus */
double sw_dew_point_k(double p_pa);      /* of a vapour pressure: inverse Magnus; NAN outside */
double sw_water_pressure_antoine_pa(double t_k);

/* ---- materials (material.c, material_table.c) ------------------------------------------------------------------------------ */

typedef struct sw_material {
    const char *name;  /* as items and grades are written: "S235", "vermiculite board", "glass-ceramic" */
    double density;    /* kg/m3 */
    double emissivity; /* usual surface, total hemispherical; its source with the rest */
    double service_c;  /* long-term limit of the material, degC; NAN = none known */
    double peak_c;     /* the same for the minutes of each charge when it burns highest; at least service_c */
    const char *service_source, *source;
    int law; /* material.c's own */
} sw_material;
const sw_material *sw_material_find(const char *name); /* the grade's or item's material; NULL = unknown */
size_t sw_material_count(void);
const sw_material *sw_material_at(size_t i);
/* Conductivity W/(m K) and heat capacity J/(kg K); held at the ends of the published range. */
double sw_material_conductivity(const sw_material *m, double t_k);
double sw_material_capacity(const sw_material *m, double t_k);
double sw_material_expansion(const sw_material *m, double t_k); /* dL/L from 20 degC; NAN unknown */
/* Carbon steel in fire, EN 1993-1-2 table 3.1, linear between: share of yield, proportional limit, modulus. */
typedef struct sw_steel_factors {
    double yield, proportional, modulus;
} sw_steel_factors;
sw_steel_factors sw_steel_factors_at(double t_k);
/* Burn threshold, degC, ISO 13732-1 as reproduced: by surface and contact time; NAN where none is tabled. */
typedef enum sw_touch { SW_TOUCH_METAL, SW_TOUCH_WOOD, SW_TOUCH_PLASTIC, SW_TOUCH_GLASS } sw_touch;
double sw_burn_threshold_c(sw_touch surface, double contact_s);

#endif
