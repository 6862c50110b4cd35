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

static double cost(const sw_dossier *d)
{
    return d->shop.line == NULL ? (double)NAN : d->shop.line->cost.base;
}
static double sheet_cost(const sw_dossier *d)
{
    return d->shop.line == NULL ? (double)NAN : d->shop.line->cost.by_kind[SW_MONEY_SHEET];
}
static double weld_m(const sw_dossier *d)
{
    return d->shop.join == NULL ? (double)NAN : d->shop.join->weld_mm * 1e-3;
}
static double way_h(const sw_dossier *d)
{
    return d->shop.line == NULL ? (double)NAN : sw_h_from_s(d->shop.line->longest_way_s);
}

enum {
    BURNT = SW_DO_BURN | SW_DO_POINT,
    MADE = SW_DO_NEST | SW_DO_CUT | SW_DO_FORM | SW_DO_JOIN | SW_DO_COAT | SW_DO_LINE
};

static const sw_quantity quantities[] = {
    {"output_kw", "kW", "heat into the room", BURNT, output_kw},
    {"fuel_kg_h", "kg/h", "wood burnt", BURNT, fuel_kg_h},
    {"efficiency", "%", "heat into the room of the wood's", BURNT, efficiency},
    {"lambda", "", "excess air ratio", BURNT, lambda},
    {"air_g_s", "g/s", "combustion air", BURNT, air_g_s},
    {"gas_g_s", "g/s", "flue gas", BURNT, gas_g_s},
    {"flue_c", "degC", "flue gas at the collar", BURNT, flue_c},
    {"pane_c", "degC", "hottest pane", BURNT, pane_c},
    {"wall_c", "degC", "hottest wall of the furnace", BURNT, wall_c},
    {"shell_c", "degC", "hottest part of the shell", BURNT, shell_c},
    {"lining_c", "degC", "hottest lining", BURNT, lining_c},
    {"handle_c", "degC", "hottest handle", BURNT, handle_c},
    {"gap_g_s", "g/s", "air through the convection gap", BURNT, gap_g_s},
    {"glass_share", "%", "of the output that leaves by the pane", BURNT, glass_share},
    {"sheet_kg", "kg", "mass of the sheet pieces", 0, sheet_kg},
    {"mass_kg", "kg", "mass of the stove", 0, mass_kg},
    {"cost", "money", "one stove of the batch, with overhead (--works, --batch)", MADE, cost},
    {"sheet_cost", "money", "of it sheets, less scrap and remnants", MADE, sheet_cost},
    {"weld_m", "m", "weld on one stove (--works)", MADE, weld_m},
    {"way_h", "h", "one stove alone through the works, no waits", MADE, way_h},
};

size_t sw_quantity_count(void)
{
    return sizeof quantities / sizeof *quantities;
}

const sw_quantity *sw_quantity_at(size_t i)
{
    return &quantities[i];
}
