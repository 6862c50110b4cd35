/* limits_wood.c: wall and floor of wood beside and under the stove.
 *
 * The wood takes up no heat (as behind insulation: the worst case), so opposite the middle of a warm panel
 *   e [F (J - sigma T^4) + (1 - F) sigma (T_r^4 - T^4)] = h (T - T_r)
 * F: four elements of a rectangle parallel to the wood; J of the panel with what it reflects of the room; h free convection
 * of the wall to room air; under the stove instead still air of the distance between panel and floor. Air that rises warm
 * from the stove along the wall is not counted. */
#include "burning/heat/limits_parts.h"

#include <math.h>

static const double wood_e = 0.90; /* wood, wallpaper, plaster: Incropera A.11 (from memory) */
static const double rise_most_k = 65;

static double fourth(double t_k)
{
    return SW_STEFAN_BOLTZMANN * t_k * t_k * t_k * t_k;
}

static double into_wood(limits_panel p, double F, double t_k)
{
    double J = p.emissivity * fourth(p.t_k) + (1 - p.emissivity) * fourth(p.room_k);
    double q = wood_e * (F * (J - fourth(t_k)) + (1 - F) * (fourth(p.room_k) - fourth(t_k)));
    if (p.floor) return q + sw_air_at(0.5 * (p.t_k + t_k)).conductivity / p.distance_m * (p.t_k - t_k);
    return q - sw_free_h(SW_FACING_SIDE, t_k, p.room_k, p.height_m) * (t_k - p.room_k);
}

double limits_wood_k(limits_panel p)
{
    if (!(p.distance_m > 0) || !(p.width_m > 0) || !(p.height_m > 0) || !(p.t_k > 0) || !(p.room_k > 0)) return NAN;
    double F = 4 * sw_view_point_parallel(0.5 * p.width_m, 0.5 * p.height_m, p.distance_m);
    double low = fmin(p.t_k, p.room_k), high = fmax(p.t_k, p.room_k);
    for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (low + high);
        *(into_wood(p, F, middle) > 0 ? &low : &high) = middle;
    }
    return 0.5 * (low + high);
}

/* ---- panels of a stove ------------------------------------------------------------------------------------------ */

typedef struct sum {
    double area_m2, emits, e_area, height_m, z_area;
} sum;

static void add_surface(sum *s, const sw_scene_surface *f, double t_k)
{
    s->area_m2 += f->area_m2;
    s->emits += f->area_m2 * fourth(t_k);
    s->e_area += f->area_m2 * f->emissivity;
    s->height_m = fmax(s->height_m, f->height_m);
    s->z_area += f->area_m2 * f->middle_z_m;
}

typedef struct side {
    double x, y; /* outwards */
} side;

/* Whether a part's sheet lies across that direction, on that side of the stove's middle. */
static bool faces(const sw_heat_limits_input *in, const sw_scene_part *p, side to, sw_vec3 middle)
{
    if (p->piece < 0 || (size_t)p->piece >= in->stove->piece_count) return false;
    const sw_piece *piece = &in->stove->pieces[p->piece];
    if (p->placement >= piece->count || piece->placements == NULL) return false;
    const sw_frame *f = &piece->placements[p->placement];
    double across = fabs(f->z.x_mm * to.x + f->z.y_mm * to.y);
    double out = (f->origin.x_mm - middle.x_mm) * to.x + (f->origin.y_mm - middle.y_mm) * to.y;
    return across > 0.7 && out > 0;
}

static sw_vec3 middle_of(const sw_stove *stove)
{
    sw_vec3 all = {0, 0, 0};
    double n = 0;
    for (size_t i = 0; i < stove->piece_count; i++)
        for (size_t k = 0; stove->pieces[i].placements != NULL && k < stove->pieces[i].count; k++) {
            n += 1;
            all = sw_vec3_add(all, stove->pieces[i].placements[k].origin);
        }
    return n > 0 ? sw_vec3_scaled(all, 1 / n) : all;
}

static sum sum_of(const sw_heat_limits_input *in, const side *to, bool down)
{
    sum s = {0};
    sw_vec3 middle = middle_of(in->stove);
    for (size_t i = 0; i < in->scene->surface_count; i++) {
        const sw_scene_surface *f = &in->scene->surfaces[i];
        const sw_scene_part *p = &in->scene->parts[f->part];
        if (f->medium != SW_MEDIUM_ROOM || (down ? f->down : f->side) < 0.5) continue;
        if (to != NULL && !faces(in, p, *to, middle)) continue;
        if (to == NULL && !down && p->kind != SW_PART_SHELL && p->kind != SW_PART_WALL) continue;
        add_surface(&s, f, in->hot_k[f->part]);
    }
    return s;
}

static limits_panel panel_of(const sw_heat_limits_input *in, sum s, double share)
{
    limits_panel p = {.room_k = in->room_k};
    p.t_k = sqrt(sqrt(s.emits / s.area_m2 / SW_STEFAN_BOLTZMANN));
    p.emissivity = s.e_area / s.area_m2;
    p.height_m = s.height_m > 0 ? s.height_m : sqrt(s.area_m2 * share);
    p.width_m = s.area_m2 * share / p.height_m;
    return p;
}

static sw_status add_wood(sw_run *run, const sw_heat_limits_input *in, sw_findings *findings, const char *check,
                          const char *where, limits_panel p)
{
    double rise_k = limits_wood_k(p) - in->room_k;
    sw_finding f = {.study = "heat", .check = check, .where = where, .sense = SW_AT_MOST, .value = rise_k};
    f.limit = rise_most_k;
    f.unit = "K";
    f.what = sw_text_format(run, run->keep,
                            "wood %.0f mm from a panel of %.0f degC gets %.0f K warmer than the room; it bears %.0f K",
                            sw_mm_from_m(p.distance_m), sw_c_from_k(p.t_k), rise_k, rise_most_k);
    if (f.what == NULL) return SW_NO_MEMORY;
    f.source = "EN 13240, EN 16510-1: 65 K over the room at combustible surroundings (from memory)";
    f.remedy = "";
    f.place = in->stove->place;
    SW_TRY(sw_finding_add(run, findings, f, 0.15));
    sw_finding *added = &findings->items[findings->count - 1];
    if (added->verdict != SW_HOLDS)
        added->remedy =
            p.floor ? "a shield below, or higher feet" : "more distance, or a bright shield behind the panel";
    return SW_OK;
}

/* A stove without a panel that faces there: the mean of its upright outer parts, a quarter of their area. */
static sw_status check_side(sw_run *run, const sw_heat_limits_input *in, sw_findings *findings, const char *where,
                            side to, double distance_m)
{
    if (isnan(distance_m)) return SW_OK;
    double share = 1;
    sum s = sum_of(in, &to, false);
    if (!(s.area_m2 > 0)) {
        share = 0.25;
        s = sum_of(in, NULL, false);
    }
    if (!(s.area_m2 > 0)) return SW_OK;
    limits_panel p = panel_of(in, s, share);
    p.distance_m = distance_m;
    return add_wood(run, in, findings, "wall_of_wood", where, p);
}

static sw_status check_floor(sw_run *run, const sw_heat_limits_input *in, sw_findings *findings)
{
    static const double least_m = 0.005;
    sum s = sum_of(in, NULL, true);
    if (!(s.area_m2 > 0)) return SW_OK;
    s.height_m = 0;
    limits_panel p = panel_of(in, s, 1);
    p.floor = true;
    p.distance_m = fmax(s.z_area / s.area_m2, least_m);
    SW_TRY(add_wood(run, in, findings, "floor_of_wood", "floor", p));
    sw_finding *last = &findings->items[findings->count - 1];
    if (last->verdict == SW_FAILS) { /* a stove may ask for a hearth; whether there is one, the house says */
        last->verdict = SW_WATCH;
        last->remedy = "put it on a hearth plate that does not burn; or a shield below, or higher feet";
    }
    return SW_OK;
}

sw_status limits_wood(sw_run *run, const sw_heat_limits_input *in, sw_findings *findings)
{
    SW_TRY(check_side(run, in, findings, "wall behind", (side){0, 1}, in->back_distance_m));
    SW_TRY(check_side(run, in, findings, "wall to the left", (side){-1, 0}, in->side_distance_m));
    SW_TRY(check_side(run, in, findings, "wall to the right", (side){1, 0}, in->side_distance_m));
    return check_floor(run, in, findings);
}
