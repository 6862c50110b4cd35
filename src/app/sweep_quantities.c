/* sweep_quantities.c: what a sweep can report of a design. */
#include "app/sweep.h"

#include <math.h>

static const sw_burn_point *point(const sw_dossier *d)
{
    return d->burned == NULL ? NULL : d->burned->point;
}

static double hottest_c(const sw_dossier *d, sw_part_class kind)
{
    double most = NAN;
    if (point(d) == NULL) return NAN;
    const sw_scene *s = d->burned->scene;
    for (size_t i = 0; i < s->part_count; i++) {
        bool seen = kind != SW_PART_SHELL || sw_scene_shows(s, i, SW_MEDIUM_ROOM);
        if (s->parts[i].kind == kind && seen) most = fmax(most, d->burned->hot_k[i]);
    }
    return sw_c_from_k(most);
}

static double sheet_kg(const sw_dossier *d)
{
    return d->sheet == NULL ? (double)NAN : d->sheet->mass_kg;
}
static double mass_kg(const sw_dossier *d)
{
    return d->heft == NULL ? (double)NAN : d->heft->stove.mass_kg;
}
static double output_kw(const sw_dossier *d)
{
    return point(d) == NULL ? (double)NAN : point(d)->output_w * 1e-3;
}
static double fuel_kg_h(const sw_dossier *d)
{
    return point(d) == NULL ? (double)NAN : point(d)->fuel_kg_s * sw_s_from_h(1);
}
static double efficiency(const sw_dossier *d)
{
    return point(d) == NULL ? (double)NAN : point(d)->efficiency * 100;
}
static double lambda(const sw_dossier *d)
{
    return point(d) == NULL ? (double)NAN : point(d)->lambda;
}
static double air_g_s(const sw_dossier *d)
{
    return point(d) == NULL ? (double)NAN : point(d)->fire.air_kg_s * 1e3;
}
static double gas_g_s(const sw_dossier *d)
{
    return point(d) == NULL ? (double)NAN : point(d)->gas_kg_s * 1e3;
}
static double gap_g_s(const sw_dossier *d)
{
    return point(d) == NULL ? (double)NAN : point(d)->heat.gap_kg_s * 1e3;
}
static double flue_c(const sw_dossier *d)
{
    return point(d) == NULL ? (double)NAN : sw_c_from_k(point(d)->flue_k);
}
static double glass_share(const sw_dossier *d)
{
    const sw_burn_point *p = point(d);
    return p == NULL ? (double)NAN : (p->heat.transmitted_w + p->heat.glass_w) / p->output_w * 100;
}
static double pane_c(const sw_dossier *d)
{
    return hottest_c(d, SW_PART_PANE);
}
static double wall_c(const sw_dossier *d)
{
    return hottest_c(d, SW_PART_WALL);
}
static double shell_c(const sw_dossier *d)
{
    return hottest_c(d, SW_PART_SHELL);
}
static double lining_c(const sw_dossier *d)
{
    return hottest_c(d, SW_PART_LINING);
}
static double handle_c(const sw_dossier *d)
{
    return hottest_c(d, SW_PART_HANDLE);
}

static const sw_quantity quantities[] = {
    {"output_kw", "kW", "heat into the room", output_kw},
    {"fuel_kg_h", "kg/h", "wood burnt", fuel_kg_h},
    {"efficiency", "%", "heat into the room of the wood's", efficiency},
    {"lambda", "", "excess air ratio", lambda},
    {"air_g_s", "g/s", "combustion air", air_g_s},
    {"gas_g_s", "g/s", "flue gas", gas_g_s},
    {"flue_c", "degC", "flue gas at the collar", flue_c},
    {"pane_c", "degC", "hottest pane", pane_c},
    {"wall_c", "degC", "hottest wall of the furnace", wall_c},
    {"shell_c", "degC", "hottest part of the shell", shell_c},
    {"lining_c", "degC", "hottest lining", lining_c},
    {"handle_c", "degC", "hottest handle", handle_c},
    {"gap_g_s", "g/s", "air through the convection gap", gap_g_s},
    {"glass_share", "%", "of the output that leaves by the pane", glass_share},
    {"sheet_kg", "kg", "mass of the sheet pieces", sheet_kg},
    {"mass_kg", "kg", "mass of the stove", mass_kg},
};

size_t sw_quantity_count(void)
{
    return sizeof quantities / sizeof *quantities;
}

const sw_quantity *sw_quantity_at(size_t i)
{
    return &quantities[i];
}
