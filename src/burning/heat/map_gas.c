/* map_gas.c: film coefficients at the means of their surfaces, by the network's laws; the gap's air, step by step on its
 * way up. */
#include "burning/heat/map_parts.h"

#include <math.h>
#include <string.h>

static void find_means(map_system *sys)
{
    for (size_t f = 0; f < sys->film_count; f++) sys->films[f].mean_k = sys->films[f].area_m2 = 0.0;
    for (size_t i = 0; i < sys->share_count; i++) {
        const map_share *s = &sys->shares[i];
        uint32_t f = sys->patches[s->patch].film;
        if (f == MAP_NONE) continue;
        sys->films[f].mean_k += s->area_m2 * sys->x[s->node];
        sys->films[f].area_m2 += s->area_m2;
    }
    for (size_t f = 0; f < sys->film_count; f++)
        if (sys->films[f].area_m2 > 0.0) sys->films[f].mean_k /= sys->films[f].area_m2;
}

static void settle_inside(map_system *sys, map_film *f, size_t gas)
{
    double gas_k = sys->x[sys->nodes + gas], free = net_film_free(sys->net, f->law, f->mean_k, gas_k);
    double driven = net_film_driven(sys->net, f->medium, gas_k);
    f->h = sys->net->model.inside_h_factor * cbrt(free * free * free + driven * driven * driven);
    f->air_k = gas_k;
}

static void settle_film(map_system *sys, map_film *f)
{
    if (f->law == NULL || !(f->area_m2 > 0.0)) return;
    if (f->medium == SW_MEDIUM_FIRE) settle_inside(sys, f, 0);
    if (f->medium == SW_MEDIUM_UPPER) settle_inside(sys, f, 1);
    if (f->medium != SW_MEDIUM_ROOM) return;
    f->air_k = sys->net->room.air_k;
    f->h = net_film_free(sys->net, f->law, f->mean_k, f->air_k);
    if (!(f->law->floor_m > 0.0)) f->h *= sys->net->model.outside_h_factor;
}

/* ---- gap ---- */

static double mean_wall(const map_system *sys, double *area_m2)
{
    double sum = 0.0, area = 0.0;
    for (size_t f = 0; f < sys->film_count; f++) {
        if (sys->films[f].medium != SW_MEDIUM_GAP) continue;
        double open_m2 = map_open(&sys->films[f]) * sys->films[f].area_m2;
        sum += open_m2 * sys->films[f].mean_k;
        area += open_m2;
    }
    *area_m2 = area;
    return area > 0.0 ? sum / area : sys->net->room.air_k;
}

static void walls_by_step(const map_system *sys, const double *t_k, double wall_k[MAP_GAP_STEPS],
                          double area[MAP_GAP_STEPS])
{
    for (int i = 0; i < MAP_GAP_STEPS; i++) wall_k[i] = area[i] = 0.0;
    for (size_t i = 0; i < sys->share_count; i++) {
        const map_share *s = &sys->shares[i];
        const map_patch *p = &sys->patches[s->patch];
        if (p->film == MAP_NONE || sys->films[p->film].medium != SW_MEDIUM_GAP) continue;
        double open_m2 = map_open(&sys->films[p->film]) * s->area_m2;
        wall_k[p->step] += open_m2 * t_k[s->node];
        area[p->step] += open_m2;
    }
    for (int i = 0; i < MAP_GAP_STEPS; i++)
        if (area[i] > 0.0) wall_k[i] /= area[i];
}

void map_gap_march(const map_system *sys, const double *wall_k, double in_k, double mean_k[MAP_GAP_STEPS],
                   double *out_k)
{
    net_gap_march(MAP_GAP_STEPS, sys->gap_kg_s * sys->gap_cp, sys->gap_w_k, wall_k, in_k, mean_k, out_k);
}

static void settle_gap(map_system *sys)
{
    double area_m2, wall_k = mean_wall(sys, &area_m2), walls[MAP_GAP_STEPS], areas[MAP_GAP_STEPS];
    net_gap_flow flow = net_gap_at(sys->net, wall_k, sys->net->room.air_k, sys->net->gap_kg_s);
    sys->net->gap_kg_s = sys->gap_kg_s = flow.kg_s;
    sys->gap_cp = sw_air_at(net_held(flow.mean_k, 200, 1500)).cp;
    walls_by_step(sys, sys->x, walls, areas);
    for (int i = 0; i < MAP_GAP_STEPS; i++) sys->gap_w_k[i] = flow.h * areas[i];
    for (size_t f = 0; f < sys->film_count; f++)
        if (sys->films[f].medium == SW_MEDIUM_GAP) sys->films[f].h = flow.h;
    if (flow.kg_s > 0.0) {
        map_gap_march(sys, walls, sys->net->room.air_k, sys->gap_air_k, &sys->gap_out_k);
        return;
    }
    sys->gap_out_k = flow.out_k; /* still air as warm as its walls */
    for (int i = 0; i < MAP_GAP_STEPS; i++) sys->gap_air_k[i] = wall_k;
}

/* ---- ducts ---- */

double map_duct_h(const map_system *sys, const map_film *f, const net_duct_air **air)
{
    if (f->law == NULL || !(f->law->duct_share > 0.0)) return 0.0;
    *air = &sys->ducts[sys->net->duct_walls[f->law->duct_wall].duct];
    return (*air)->w_k > 0.0 ? sys->net->duct_faces.h[f->law->duct_wall] : 0.0;
}

static void settle_ducts(map_system *sys)
{
    const net_duct_faces *faces = &sys->net->duct_faces;
    for (size_t f = 0; f < sys->film_count; f++) {
        const map_film *film = &sys->films[f];
        if (film->law == NULL || !(film->law->duct_share > 0.0)) continue;
        faces->t_k[film->law->duct_wall] = film->mean_k;
        faces->area_m2[film->law->duct_wall] = film->law->duct_share * film->area_m2;
    }
    sys->net->flows.preheat_w = 0.0;
    for (sw_duct d = SW_DUCT_NONE + 1; d < SW_DUCTS; d++) {
        sys->ducts[d] = net_duct_at(sys->net, d, faces);
        sys->net->flows.preheat_w += sys->ducts[d].heat_w;
    }
}

void map_films_settle(map_system *sys)
{
    if (sys->net == NULL) return;
    find_means(sys);
    settle_ducts(sys);
    for (size_t f = 0; f < sys->film_count; f++) settle_film(sys, &sys->films[f]);
    settle_gap(sys);
}
