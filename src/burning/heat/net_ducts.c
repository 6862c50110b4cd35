/* net_ducts.c: air that is warmed in its ducts on the way to the fire.
 *
 * A duct's air touches one face of the parts that lead it (scene_ducts.c), as far as the scene shows it there to the gap, and of
 * each wall that closes it as much as they see of that wall. It comes from the room and takes, with T_w the mean of these
 * faces by their films and N = sum h A/(m c_p),
 *   Q = m c_p (T_w - T_0)(1 - e^-N),   T_m = T_w - (T_w - T_0)(1 - e^-N)/N
 * (Incropera ch. 8, wall at one temperature; from memory); each face gives h A (T_i - T_m). Film: free convection, as in the
 * gap where it stands still, times `duct_h_factor`; what drives such narrow ways at a few tenths of a gram is of the same size.
 * All of Q is given back to the gas below the baffle. A duct without flow, or one that is not known, gives nothing. */
#include "burning/heat/net_parts.h"

#include <math.h>

static const double least_kg_s = 1e-7;

/* ---- made ---- */

static double half(const sw_heat_net *net, const sw_scene_surface *s)
{
    return fmin(s->area_m2, net->scene->parts[s->part].area_m2);
}

/* What the ducts' own surfaces see of a wall in the gap, by way; the larger counts. */
static double closed_m2(const sw_heat_net *net, size_t wall, sw_duct *duct)
{
    const sw_scene *s = net->scene;
    double by[SW_DUCTS] = {0};
    for (size_t i = 0; i < s->surface_count; i++)
        if (s->surfaces[i].medium == SW_MEDIUM_GAP)
            by[s->parts[s->surfaces[i].part].duct] += s->view_m2[i * (s->surface_count + 1) + wall];
    *duct = SW_DUCT_NONE + 1;
    for (sw_duct d = *duct + 1; d < SW_DUCTS; d++)
        if (by[d] > by[*duct]) *duct = d;
    return fmin(by[*duct], 0.5 * s->surfaces[wall].area_m2); /* the other half is its face to the room's air */
}

static double inside_m2(const sw_heat_net *net, size_t surface, sw_duct *duct)
{
    const sw_scene_surface *s = &net->scene->surfaces[surface];
    const sw_scene_part *p = &net->scene->parts[s->part];
    *duct = p->duct;
    if (p->duct != SW_DUCT_NONE) return half(net, s);
    return p->kind == SW_PART_WALL || p->kind == SW_PART_BAFFLE ? closed_m2(net, surface, duct) : 0;
}

sw_status net_ducts_make(sw_run *run, sw_heat_net *net)
{
    const sw_scene *scene = net->scene;
    net_films *gap = &net->films[SW_MEDIUM_GAP];
    net->duct_walls = SW_KEEP(run, gap->count + 1, net_duct_wall);
    net->by_duct = SW_KEEP(run, net->nodes + 1, double);
    net_duct_faces *faces = &net->duct_faces;
    faces->t_k = SW_KEEP(run, gap->count + 1, double);
    faces->area_m2 = SW_KEEP(run, gap->count + 1, double);
    faces->h = SW_KEEP(run, gap->count + 1, double);
    if (net->duct_walls == NULL || net->by_duct == NULL) return SW_NO_MEMORY;
    if (faces->t_k == NULL || faces->area_m2 == NULL || faces->h == NULL) return SW_NO_MEMORY;
    for (size_t i = 0, at = 0; net->model.duct_h_factor > 0 && i < scene->surface_count; i++) {
        if (scene->surfaces[i].medium != SW_MEDIUM_GAP) continue;
        net_film *f = &gap->items[at++];
        sw_duct duct;
        double m2 = fmin(inside_m2(net, i, &duct), f->area_m2);
        if (!(m2 > 0)) continue;
        f->duct_share = m2 / f->area_m2;
        f->duct_wall = net->duct_wall_count;
        f->area_m2 -= m2;
        net->duct_walls[net->duct_wall_count++] = (net_duct_wall){duct, f, m2};
    }
    return SW_OK;
}

/* ---- at work ---- */

static void films(const sw_heat_net *net, sw_duct duct, const net_duct_faces *faces, net_duct_air *air)
{
    double wall = 0;
    air->w_k = 0;
    for (size_t i = 0; i < net->duct_wall_count; i++) {
        const net_duct_wall *w = &net->duct_walls[i];
        if (w->duct != duct) continue;
        faces->h[i] = net->model.duct_h_factor * net_film_free(net, w->film, faces->t_k[i], air->mean_k);
        air->w_k += faces->h[i] * faces->area_m2[i];
        wall += faces->h[i] * faces->area_m2[i] * faces->t_k[i];
    }
    air->wall_k = air->w_k > 0 ? wall / air->w_k : net->now.air_k;
}

net_duct_air net_duct_at(const sw_heat_net *net, sw_duct duct, const net_duct_faces *faces)
{
    double m = net->now.duct_kg_s[duct], in_k = net->now.air_k;
    net_duct_air air = {.mean_k = in_k, .out_k = in_k, .wall_k = in_k};
    for (int round = 0; m > least_kg_s && round < 3; round++) { /* the film hardly depends on the air's mean */
        films(net, duct, faces, &air);
        double flow_w_k = m * sw_air_at(net_held(air.mean_k, 200, 1500)).cp, n = air.w_k / flow_w_k;
        air.mean_share = sw_stream_mean(n);
        air.mean_k = air.wall_k - (air.wall_k - in_k) * air.mean_share;
        air.out_k = air.wall_k - (air.wall_k - in_k) * exp(-n);
        air.heat_w = air.w_k * (air.wall_k - air.mean_k);
    }
    return air;
}

static void one_duct(sw_heat_net *net, sw_duct duct, const net_duct_faces *faces, bool with_jacobian)
{
    net_duct_air air = net_duct_at(net, duct, faces);
    size_t below = sw_heat_net_gas(net, SW_GAS_FIREBOX);
    net->flows.duct_k[duct] = air.w_k > 0 ? air.out_k : 0;
    net->flows.preheat_w += air.heat_w;
    net->R[below] += air.heat_w;
    for (size_t i = 0; air.w_k > 0 && i < net->duct_wall_count; i++) {
        if (net->duct_walls[i].duct != duct) continue;
        size_t node = net->duct_walls[i].film->node;
        double w_k = faces->h[i] * faces->area_m2[i];
        net->R[node] -= w_k * (faces->t_k[i] - air.mean_k);
        if (!with_jacobian) continue;
        net->by_duct[node] += air.mean_share * w_k;
        *net_jacobian(net, node, node) -= w_k;
        *net_jacobian(net, below, node) += air.mean_share * w_k;
        for (size_t j = 0; j < net->duct_wall_count; j++)
            if (net->duct_walls[j].duct == duct)
                *net_jacobian(net, node, net->duct_walls[j].film->node) +=
                    w_k * (1 - air.mean_share) * faces->h[j] * faces->area_m2[j] / air.w_k;
    }
}

void net_ducts_balance(sw_heat_net *net, bool with_jacobian)
{
    const net_duct_faces *faces = &net->duct_faces;
    for (size_t i = 0; i < net->duct_wall_count; i++) {
        faces->t_k[i] = net->x[net->duct_walls[i].film->node];
        faces->area_m2[i] = net->duct_walls[i].area_m2;
    }
    for (size_t i = 0; with_jacobian && i <= net->nodes; i++) net->by_duct[i] = 0;
    for (sw_duct d = SW_DUCT_NONE + 1; d < SW_DUCTS; d++) one_duct(net, d, faces, with_jacobian);
}
