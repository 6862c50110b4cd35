/* net_check.c: what of a scene or a moment cannot be; every fault is told. */
#include "burning/heat/net_parts.h"

#include <math.h>

static bool is_amount(double x)
{
    return x >= 0 && isfinite(x);
}

static sw_status check_part(sw_run *run, const sw_scene_part *p)
{
    if (p->material == NULL)
        return sw_fail(run, SW_BAD_INPUT, p->place, p->name, "no material known of it; name one of the table");
    if (!is_amount(p->mass_kg) || !is_amount(p->area_m2) || !is_amount(p->thickness_m))
        return sw_fail(run, SW_BAD_INPUT, p->place, p->name, "mass %g kg, area %g m2, thickness %g m cannot be",
                       p->mass_kg, p->area_m2, p->thickness_m);
    if (p->layered && !(p->thickness_m > 0))
        return sw_fail(run, SW_BAD_INPUT, p->place, p->name, "a lining without thickness; give it one");
    return SW_OK;
}

static sw_status check_surface(sw_run *run, const sw_scene *scene, const sw_scene_surface *s)
{
    if (s->part >= scene->part_count || (int)s->medium < 0 || s->medium >= SW_MEDIA)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "scene", "a surface of no part, or towards nothing");
    const sw_scene_part *p = &scene->parts[s->part];
    if (!(s->emissivity > 0 && s->emissivity <= 1))
        return sw_fail(run, SW_BAD_INPUT, p->place, p->name,
                       "emissivity %g of its surface is outside 0 to 1; give its material one", s->emissivity);
    if (!(s->area_m2 > 0 && isfinite(s->area_m2)) || !is_amount(s->height_m))
        return sw_fail(run, SW_BAD_INPUT, p->place, p->name, "a surface of %g m2, %g m high cannot be", s->area_m2,
                       s->height_m);
    return SW_OK;
}

static sw_status check_contact(sw_run *run, const sw_scene *scene, const sw_scene_contact *c)
{
    if (c->a < scene->part_count && c->b < scene->part_count && is_amount(c->area_m2) && is_amount(c->gap_m) &&
        is_amount(c->edge_m))
        return SW_OK;
    const sw_scene_part *p = c->a < scene->part_count ? &scene->parts[c->a] : NULL;
    return sw_fail(run, SW_BAD_INPUT, p ? p->place : (sw_place){0}, p ? p->name : "scene",
                   "a contact of %g m2 over %g m, edge %g m cannot be", c->area_m2, c->gap_m, c->edge_m);
}

static sw_status check_views(sw_run *run, const sw_scene *scene)
{
    size_t n = scene->surface_count + 1;
    for (size_t i = 0; i < n * n && scene->surface_count > 0; i++)
        if (!is_amount(scene->view_m2[i]))
            return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "scene", "view of surface %zu on %zu is %g m2", i / n,
                           i % n, scene->view_m2[i]);
    return SW_OK;
}

static void note(sw_status *worst, sw_status status)
{
    if (*worst == SW_OK) *worst = status;
}

sw_status net_check_scene(sw_run *run, const sw_scene *scene)
{
    sw_status status = SW_OK;
    if (scene->part_count == 0)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "scene", "no part, so nothing to get hot");
    for (size_t i = 0; i < scene->part_count; i++) note(&status, check_part(run, &scene->parts[i]));
    for (size_t i = 0; i < scene->surface_count; i++) note(&status, check_surface(run, scene, &scene->surfaces[i]));
    for (size_t i = 0; i < scene->contact_count; i++) note(&status, check_contact(run, scene, &scene->contacts[i]));
    note(&status, check_views(run, scene));
    return status;
}

/* ---- one moment ------------------------------------------------------------------------------------------ */

static sw_status check_range(sw_run *run, const char *field, double value, double low, double high, const char *unit)
{
    if (value >= low && value <= high) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, field, "%g %s is outside %g to %g", value, unit, low, high);
}

sw_status net_check_moment(sw_run *run, const sw_heat_fire *fire, const sw_heat_room *room)
{
    static const double cold_k = 220, hot_k = 1400, most = 1e12;
    sw_status status = SW_OK;
    note(&status, check_range(run, "fire.heat_w", fire->heat_w, -most, most, "W"));
    note(&status, check_range(run, "fire.air_kg_s", fire->air_kg_s, 0, most, "kg/s"));
    note(&status, check_range(run, "fire.gas_kg_s", fire->gas_kg_s, 0, most, "kg/s"));
    note(&status, check_range(run, "fire.air_k", fire->air_k, cold_k, hot_k, "K"));
    note(&status, check_range(run, "fire.p_h2o_bar", fire->p_h2o_bar, 0, 1.1, "bar"));
    note(&status, check_range(run, "fire.p_co2_bar", fire->p_co2_bar, 0, 1.1, "bar"));
    note(&status, check_range(run, "room.air_k", room->air_k, cold_k, hot_k, "K"));
    note(&status, check_range(run, "room.walls_k", room->walls_k, cold_k, hot_k, "K"));
    if (fire->gas_kg_s > 0 && !(sw_mixture_kg(&fire->gas) > 0))
        note(&status, sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "fire.gas", "gas flows, but of what is not given"));
    return status;
}
