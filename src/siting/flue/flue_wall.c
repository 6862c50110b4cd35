/* flue_wall.c: what the walls of pipes and chimneys are made of, and what they resist. */
#include "siting/flue/flue_parts.h"

#include <math.h>
#include <string.h>

#define PHYSICS "building-physics handbooks (from memory)"
#define STEELS  "EN 10088-1 and EN 1993-1-2 (from memory)"

/* Conductivity of insulation: at 150 degC, the usual mean of a flue's. */
static const sw_flue_material materials[] = {
    {"air gap", 0, 0, 0, false, "closed gap: 1/(h_r + h_c), h_r 6.0, h_c 1.3 (computed)"},
    {"brick", 0.75, 1800, 840, true, PHYSICS},
    {"clay", 1.1, 2000, 900, false, "fireclay and clay liners 1.0 to 1.2: " PHYSICS},
    {"concrete", 1.4, 2200, 1000, true, PHYSICS},
    {"lightweight concrete", 0.5, 1000, 1000, true, PHYSICS},
    {"mineral wool", 0.065, 100, 840, false, "0.05, 0.065, 0.08 at 50, 150, 250 degC: " PHYSICS},
    {"mild steel", 50, 7850, 480, false, STEELS},
    {"pumice", 0.35, 800, 1000, true, PHYSICS},
    {"stainless steel", 17, 7900, 500, false, STEELS},
    {"steel", 50, 7850, 480, false, STEELS},
    {"stone", 2.3, 2400, 900, true, PHYSICS},
    {"vermiculite", 0.10, 120, 900, false, "loose fill, doubtful: " PHYSICS},
    {"vermiculite mortar", 0.15, 400, 900, false, "0.15 to 0.2, doubtful: " PHYSICS},
};
static const double gap_h = 7.3;         /* W/(m2 K), across a closed gap */
static const double square_factor = 1.1; /* y: EN 13384-1 annex A (from memory) */
static const double warm_k = 423.15;     /* a flue's insulation, for conductivities of matter's table */
static const double soaked_m = 0.030;    /* heat goes so far into brick in half an hour: handbook S3.1 */
static const double liner_j_m2_k = 1900; /* 0.5 mm of stainless steel, where a wall has no layers (ours) */

size_t sw_flue_material_count(void)
{
    return sizeof materials / sizeof *materials;
}

const sw_flue_material *sw_flue_material_at(size_t i)
{
    return i < sw_flue_material_count() ? &materials[i] : NULL;
}

const sw_flue_material *sw_flue_material_find(const char *name)
{
    for (size_t i = 0; i < sw_flue_material_count(); i++)
        if (strcmp(materials[i].name, name) == 0) return &materials[i];
    return NULL;
}

/* ---- sections ---- */

static double hydraulic_m(const sw_flue_part *part, double layers_mm)
{
    double a_m = sw_m_from_mm(part->width_mm + 2 * layers_mm), b_m = sw_m_from_mm(part->depth_mm + 2 * layers_mm);
    return part->round ? a_m : 2 * a_m * b_m / (a_m + b_m); /* 4 A/U */
}

double sw_flue_hydraulic_m(const sw_flue_part *part)
{
    return hydraulic_m(part, 0);
}

double sw_flue_area_m2(const sw_flue_part *part)
{
    if (part->round) return SW_PI / 4 * sw_m2_from_mm2(part->width_mm * part->width_mm);
    return sw_m2_from_mm2(part->width_mm * part->depth_mm);
}

double sw_flue_outer_m(const sw_flue_part *part)
{
    double mm = 0;
    if (!isnan(part->outer_mm)) return sw_m_from_mm(part->outer_mm);
    for (size_t i = 0; i < part->layer_count; i++) mm += part->layers[i].thickness_mm;
    return hydraulic_m(part, mm);
}

/* ---- resistance ---- */

/* (1/Lambda) = y D_h/(2 lambda) ln(D_out/D_in): EN 13384-1 annex A (from memory), y 1 round, 1.1 square or to 1 : 1.5 */
double sw_flue_layer_resistance(double y, double inner_d_m, double conductivity, double from_d_m, double to_d_m)
{
    return y * inner_d_m / (2 * conductivity) * log(to_d_m / from_d_m);
}

double sw_flue_layer_conductivity(const sw_flue_layer *layer)
{
    if (!isnan(layer->conductivity)) return layer->conductivity;
    const sw_flue_material *own = sw_flue_material_find(layer->material);
    if (own != NULL) return own->conductivity;
    const sw_material *other = sw_material_find(layer->material);
    return other != NULL ? sw_material_conductivity(other, warm_k) : (double)NAN;
}

static bool is_masonry(const sw_flue_layer *layer)
{
    const sw_flue_material *m = sw_flue_material_find(layer->material);
    return m != NULL && m->masonry;
}

static double layer_resistance(const sw_flue_part *part, size_t i, double from_mm)
{
    const sw_flue_layer *layer = &part->layers[i];
    double inner_m = hydraulic_m(part, 0), from_m = hydraulic_m(part, from_mm),
           to_m = hydraulic_m(part, from_mm + layer->thickness_mm), conductivity = sw_flue_layer_conductivity(layer);
    if (conductivity == 0) return inner_m / from_m / gap_h;
    bool square = !part->round || (i > 0 && is_masonry(layer)); /* masonry stands square round a liner */
    return sw_flue_layer_resistance(square ? square_factor : 1, inner_m, conductivity, from_m, to_m);
}

double sw_flue_resistance(const sw_flue_part *part)
{
    double sum = 0, from_mm = 0;
    if (!isnan(part->resistance)) return part->resistance;
    for (size_t i = 0; i < part->layer_count; i++) {
        sum += layer_resistance(part, i, from_mm);
        from_mm += part->layers[i].thickness_mm;
    }
    return sum;
}

/* Inside the building and behind a cladding 8, outside 23: GOST R 59978.2-2022 (seen) */
double flue_film(const sw_flue_part *part)
{
    return part->around == SW_OUTDOORS && !part->clad ? 23 : 8;
}

/* ---- heat it holds ---- */

static void store(const sw_flue_layer *layer, double *density, double *capacity)
{
    const sw_flue_material *own = sw_flue_material_find(layer->material);
    const sw_material *other = own == NULL ? sw_material_find(layer->material) : NULL;
    *density = own != NULL ? own->density : other != NULL ? other->density : 1000;
    *capacity = own != NULL ? own->capacity : other != NULL ? sw_material_capacity(other, warm_k) : 1000;
}

double flue_capacity_j_m2_k(const sw_flue_part *part)
{
    double sum = 0, depth_m = 0, inner_m = hydraulic_m(part, 0);
    for (size_t i = 0; i < part->layer_count && depth_m < soaked_m; i++) {
        double thick_m = sw_m_from_mm(part->layers[i].thickness_mm), density, capacity;
        if (depth_m + thick_m > soaked_m) thick_m = soaked_m - depth_m;
        store(&part->layers[i], &density, &capacity);
        sum += density * capacity * thick_m * (inner_m + 2 * depth_m + thick_m) / inner_m;
        depth_m += thick_m;
        if (sw_flue_layer_conductivity(&part->layers[i]) < 0.2)
            break; /* beyond insulation or a gap the wall stays cold */
    }
    return sum > 0 ? sum : liner_j_m2_k;
}

/* ---- wood beside it ---- */

/* EN 15287-1 as a Czech article of 2016 applies it (seen): alpha_i 15, alpha_a 8 W/(m2 K), 85 degC, room 20 degC:
 *   t_gas = t_u + (t_c - t_u) (D_ha alpha_a/D_h) (1/alpha_i + 1/Lambda + D_h/(D_ha alpha_a)) */
double sw_flue_wood_limit_k(double inner_d_m, double outer_d_m, double resistance)
{
    static const double inner_h = 15, outer_h = 8, wood_c = 85, room_c = 20;
    if (!(inner_d_m > 0) || !(outer_d_m >= inner_d_m) || !(resistance >= 0)) return NAN;
    double out = outer_d_m * outer_h / inner_d_m;
    return sw_k_from_c(room_c + (wood_c - room_c) * out * (1 / inner_h + resistance + 1 / out));
}
