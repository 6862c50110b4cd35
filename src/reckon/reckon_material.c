/* reckon_material.c: hot steel, linings, burn thresholds. Sources stand in each row. */
#include "matter/matter.h"
#include "reckon/reckon_parts.h"

#include <math.h>

static void hot_steel(const double *in, double *out)
{
    const sw_material *m = sw_material_find("S235");
    double t_k = sw_k_from_c(in[0]);
    sw_steel_factors f = sw_steel_factors_at(t_k);
    out[0] = sw_material_capacity(m, t_k);
    out[1] = sw_material_conductivity(m, t_k);
    out[2] = sw_material_expansion(m, t_k);
    out[3] = f.yield;
    out[4] = f.proportional;
    out[5] = f.modulus;
}

static void hot_stainless(const double *in, double *out)
{
    const sw_material *m = sw_material_find("1.4301");
    double t_k = sw_k_from_c(in[0]);
    out[0] = sw_material_capacity(m, t_k);
    out[1] = sw_material_conductivity(m, t_k);
    out[2] = sw_material_expansion(m, t_k);
}

static void growth(const double *in, double *out)
{
    static const char *const names[] = {"S235", "1.4301", "1.4016", "EN-GJL-200"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        out[i] = in[0] * sw_material_expansion(sw_material_find(names[i]), sw_k_from_c(in[1]));
}

static void linings(const double *in, double *out)
{
    static const char *const names[] = {"light vermiculite board", "vermiculite board", "dense vermiculite board",
                                        "calcium silicate board",  "fireclay",          "fibre blanket"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        out[i] = sw_material_conductivity(sw_material_find(names[i]), sw_k_from_c(in[0]));
}

/* Even steps of at most 1 K: the peak of carbon steel at 735 degC is narrow. */
static void steel_heat(const double *in, double *out)
{
    static const char *const names[] = {"S235", "1.4301", "EN-GJL-200"};
    int steps = (int)fabs(in[1] - in[0]) + 1;
    double step_k = (in[1] - in[0]) / steps;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        const sw_material *m = sw_material_find(names[i]);
        out[i] = 0;
        for (int k = 0; k < steps; k++)
            out[i] += 1e-3 * step_k * sw_material_capacity(m, sw_k_from_c(in[0] + (k + 0.5) * step_k));
    }
}

static void burns(const double *in, double *out)
{
    static const sw_touch surfaces[] = {SW_TOUCH_METAL, SW_TOUCH_GLASS, SW_TOUCH_PLASTIC, SW_TOUCH_WOOD};
    for (size_t i = 0; i < sizeof surfaces / sizeof *surfaces; i++) out[i] = sw_burn_threshold_c(surfaces[i], in[0]);
}

/* clang-format off */
static const sw_reckon rows[] = {
    {"hot_steel", "carbon steel at a temperature", "c, k, dL/L and factors of strength as tabled, linear between", "20 to 1200 degC, held outside; factors for minutes of fire, not for creep",
     "EN 1993-1-2:2005, 3.4.1 and table 3.1 (found as quoted)", {{"T", "degC", "temperature", NAN, -100, 1500}},
     {{"c", "J/(kg K)", "heat capacity"}, {"k", "W/(m K)", "conductivity"}, {"e", "", "elongation from 20 degC, share"}, {"ky", "", "yield strength, share"}, {"kp", "", "proportional limit, share"}, {"kE", "", "modulus, share"}}, hot_steel},
    {"hot_stainless", "austenitic stainless steel at a temperature", "c = 450 + 0.28 t - 2.91e-4 t2 + 1.34e-7 t3, k = 14.6 + 0.0127 t", "20 to 1200 degC, held outside",
     "EN 1993-1-2:2005, annex C (found)", {{"T", "degC", "temperature", NAN, -100, 1500}},
     {{"c", "J/(kg K)", "heat capacity"}, {"k", "W/(m K)", "conductivity"}, {"e", "", "elongation from 20 degC, share"}}, hot_stainless},
    {"growth", "how much longer a part gets when hot", "dL = L e(T)", "20 to 1200 degC", "EN 1993-1-2:2005 (found); ferritic: EN 10088-1, iron: EN 1561 (from memory)",
     {{"L", "mm", "length at 20 degC", NAN, 0, 1e5}, {"T", "degC", "temperature", NAN, 20, 1200}},
     {{"steel", "mm", "carbon steel"}, {"austenitic", "mm", "1.4301"}, {"ferritic", "mm", "1.4016"}, {"iron", "mm", "EN-GJL-200"}}, growth},
    {"steel_heat", "heat that a kilogram of sheet or iron takes up", "q = integral of c from T1 to T2", "20 to 1200 degC", "EN 1993-1-2:2005 (found); iron: EN 1561 (from memory)",
     {{"T1", "degC", "from", 20, 20, 1200}, {"T2", "degC", "to", NAN, 20, 1200}},
     {{"steel", "kJ/kg", "carbon steel"}, {"austenitic", "kJ/kg", "1.4301"}, {"iron", "kJ/kg", "EN-GJL-200"}}, steel_heat},
    {"linings", "conductivity of linings at their mean temperature", "as tabled, linear between; usual board k = 0.12 + 1.1e-4 t", "200 to 800 degC, fireclay 400 to 1200; held outside; boards +-25 %",
     "fireclay: VDI Heat Atlas D6 (found); boards and blanket: makers' usual data (from memory)", {{"T", "degC", "mean temperature", NAN, 0, 1500}},
     {{"light", "W/(m K)", "vermiculite 350 to 450 kg/m3"}, {"board", "W/(m K)", "vermiculite 600 to 700 kg/m3"}, {"dense", "W/(m K)", "vermiculite 1000 to 1200 kg/m3"}, {"silicate", "W/(m K)", "calcium silicate 250 kg/m3"},
      {"fireclay", "W/(m K)", "fireclay brick"}, {"blanket", "W/(m K)", "fibre blanket 128 kg/m3"}}, linings},
    {"burn_threshold", "surface temperature from which a touch burns", "table by surface and time, lower ends; between times the longer counts", "0.5 s and longer",
     "ISO 13732-1:2006 as reproduced (found); glass, and 0.5 and 10 s: from memory", {{"time", "s", "time of contact", NAN, 0, 1e6}},
     {{"metal", "degC", "bare smooth metal"}, {"glass", "degC", "glass, ceramics, stone"}, {"plastic", "degC", "plastics"}, {"wood", "degC", "wood"}}, burns},
};
/* clang-format on */

const sw_reckon *sw_reckon_material(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
