/* material.c: conductivity, heat capacity and expansion over temperature, strength of hot steel, burn thresholds. */
#include "matter/material_parts.h"

#include <math.h>
#include <string.h>

size_t sw_material_count(void)
{
    return material_count;
}

const sw_material *sw_material_at(size_t i)
{
    return i < material_count ? &material_rows[i] : NULL;
}

const sw_material *sw_material_find(const char *name)
{
    if (name == NULL) return NULL;
    for (size_t i = 0; i < material_count; i++)
        if (strcmp(material_rows[i].name, name) == 0) return &material_rows[i];
    return NULL;
}

static double held(double value, double low, double high)
{
    if (isnan(value)) return value;
    return value < low ? low : value > high ? high : value;
}

static double on_curve(const material_curve *curve, double t_c)
{
    if (curve->count == 0 || isnan(t_c)) return NAN;
    const material_point *p = curve->points;
    if (t_c <= p[0].t_c) return p[0].value;
    for (size_t i = 1; i < curve->count; i++)
        if (t_c <= p[i].t_c)
            return p[i - 1].value + (p[i].value - p[i - 1].value) * (t_c - p[i - 1].t_c) / (p[i].t_c - p[i - 1].t_c);
    return p[curve->count - 1].value;
}

/* ---- carbon steel, EN 1993-1-2:2005, 3.4.1, theta in degC, 20 to 1200 ----------------------------------------- */

static const double steel_low_c = 20.0, steel_high_c = 1200.0;

static double carbon_conductivity(double theta)
{
    return theta >= 800.0 ? 27.3 : 54.0 - 3.33e-2 * theta;
}

static double carbon_capacity(double theta)
{
    if (theta >= 900.0) return 650.0;
    if (theta >= 735.0) return 545.0 + 17820.0 / (theta - 731.0);
    if (theta >= 600.0) return 666.0 + 13002.0 / (738.0 - theta);
    return 425.0 + theta * (0.773 + theta * (-1.69e-3 + theta * 2.22e-6));
}

static double carbon_expansion(double theta)
{
    if (theta < 750.0) return 1.2e-5 * theta + 0.4e-8 * theta * theta - 2.416e-4;
    if (theta <= 860.0) return 1.1e-2;
    return 2e-5 * theta - 6.2e-3;
}

/* ---- austenitic stainless steel, EN 1993-1-2:2005, annex C, same range ------------------------------------------ */

static double austenite_conductivity(double theta)
{
    return 14.6 + 1.27e-2 * theta;
}

static double austenite_capacity(double theta)
{
    return 450.0 + theta * (0.280 + theta * (-2.91e-4 + theta * 1.34e-7));
}

static double austenite_expansion(double theta)
{
    return (16.0 + 4.79e-3 * theta - 1.243e-6 * theta * theta) * (theta - 20.0) * 1e-6;
}

/* ---- any material ------------------------------------------------------------------------------------------------ */

static double steel_c(double t_k)
{
    return held(sw_c_from_k(t_k), steel_low_c, steel_high_c);
}

double sw_material_conductivity(const sw_material *m, double t_k)
{
    const material_law *law = &material_laws[m->law];
    if (law->form == MATERIAL_CARBON_STEEL) return carbon_conductivity(steel_c(t_k));
    if (law->form == MATERIAL_AUSTENITE) return austenite_conductivity(steel_c(t_k));
    return on_curve(&law->conductivity, sw_c_from_k(t_k));
}

double sw_material_capacity(const sw_material *m, double t_k)
{
    const material_law *law = &material_laws[m->law];
    if (law->form == MATERIAL_CARBON_STEEL) return carbon_capacity(steel_c(t_k));
    if (law->form == MATERIAL_AUSTENITE) return austenite_capacity(steel_c(t_k));
    return on_curve(&law->capacity, sw_c_from_k(t_k));
}

double sw_material_expansion(const sw_material *m, double t_k)
{
    const material_law *law = &material_laws[m->law];
    if (law->form == MATERIAL_CARBON_STEEL) return carbon_expansion(steel_c(t_k));
    if (law->form == MATERIAL_AUSTENITE) return austenite_expansion(steel_c(t_k));
    double t_c = sw_c_from_k(t_k);
    return on_curve(&law->expansion, t_c) * (t_c - 20.0);
}

sw_steel_factors sw_steel_factors_at(double t_k)
{
    const material_factors_row *row = material_factors;
    double t_c = steel_c(t_k);
    if (isnan(t_c)) return (sw_steel_factors){NAN, NAN, NAN};
    size_t i = 1;
    while (i + 1 < MATERIAL_FACTORS && t_c > row[i].t_c) i++;
    double part = (t_c - row[i - 1].t_c) / (row[i].t_c - row[i - 1].t_c);
    return (sw_steel_factors){
        .yield = row[i - 1].yield + part * (row[i].yield - row[i - 1].yield),
        .proportional = row[i - 1].proportional + part * (row[i].proportional - row[i - 1].proportional),
        .modulus = row[i - 1].modulus + part * (row[i].modulus - row[i - 1].modulus),
    };
}

/* Between tabled contact times the longer one counts, which has the lower threshold. Below 0.5 s the standard gives none. */
double sw_burn_threshold_c(sw_touch surface, double contact_s)
{
    if ((int)surface < 0 || (int)surface >= MATERIAL_SURFACES || !(contact_s >= material_contact_s[0])) return NAN;
    const double *row = material_burn_c[surface];
    for (int i = 0; i < MATERIAL_CONTACTS; i++)
        if (contact_s <= material_contact_s[i] && row[i] > 0) return row[i];
    return row[MATERIAL_CONTACTS - 1];
}
