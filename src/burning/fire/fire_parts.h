/* fire_parts.h: what the files of burning/fire share. Nobody else includes it. */
#ifndef SW_BURNING_FIRE_FIRE_PARTS_H
#define SW_BURNING_FIRE_FIRE_PARTS_H

#include "burning/fire/fire.h"

/* kg/kmol: CIAAW abridged standard atomic weights. */
#define FIRE_C  12.011
#define FIRE_H  1.008
#define FIRE_O  15.999
#define FIRE_N  14.007
#define FIRE_S  32.06
#define FIRE_W  18.015 /* water */
#define FIRE_CO 28.010

#define FIRE_AIR_O2 0.2095 /* share of dry air; the rest is nitrogen with argon */
#define FIRE_AIR_N2 0.7905
#define FIRE_AIR    28.964   /* kg/kmol dry air */
#define FIRE_M3N    22.414   /* m3 per kmol of ideal gas at 0 degC, 101 325 Pa */
#define FIRE_ATM    101325.0 /* Pa */

#define FIRE_KILO 1e3 /* J of a kJ, mol of a kmol */
#define FIRE_MEGA 1e6

#define FIRE_EVAPORATION   2.443e6  /* J/kg water at 25 degC: ISO 18125 (from memory) */
#define FIRE_WATER_PER_H   8.936    /* kg water per kg hydrogen */
#define FIRE_MOISTURE_MOST 0.6      /* wet basis: wetter wood does not burn on its own (common practice, no source) */
#define FIRE_REFERENCE_O2  0.13     /* of the room heater standards */
#define FIRE_RESIDUE_SHARE 0.005    /* of LHV, logs, where it is not measured: EN 16510-1 (from memory) */
#define FIRE_CO_J_MOL      282.98e3 /* net heat of CO: formation enthalpies of CO and CO2 */

static inline double fire_per_million(double share)
{
    return share * FIRE_MEGA;
}
static inline double fire_from_per_million(double ppm)
{
    return ppm / FIRE_MEGA;
}
static inline double fire_reference_k(void)
{
    return sw_k_from_c(25); /* where heating values and formation enthalpies are given */
}

typedef struct fire_elements {
    double c, h, o, n, s, water, ash;
} fire_elements;                                     /* kg per kg of fuel */
fire_elements fire_elements_of(const sw_fuel *fuel); /* as fired; all NAN outside the range of moisture */
double fire_o2_min_kmol(const fire_elements *e);     /* per kg of fuel */
/* Of complete combustion with air_kmol of dry air and humidity kmol water per kmol of it. */
sw_mixture fire_products(const fire_elements *e, double air_kmol, double humidity);

typedef struct fire_job {
    const sw_fire_input *in;
    const sw_fire_options *opt;
    sw_fire_result *result;
} fire_job;
sw_status fire_check(sw_run *run, const fire_job *job); /* fire_check.c: every fault recorded, the first one's status */
sw_status fire_findings(sw_run *run, const fire_job *job); /* fire_findings.c */

#endif
