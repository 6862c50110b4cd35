/* net_bed.c: the bed of embers, where the char's share of the heat is set free.
 *
 * A grey surface of the bed's area on the grate and floor, emissivity 0.9 (handbook F5.2, E6). It takes the place of what it
 * covers: each surface it lies on keeps 1 - c of its area and views, c goes to the bed. It radiates into the firebox, its
 * top warms the gas as a floor does, and through ash it warms what it lies on. Quasi-steady like the gases:
 *   s_b s_f Q = sum G (E_b - E_j) + h A (T_b - T_g) + A k/d (T_b - T_floor)
 * Ash: 20 mm of 0.1 W/(m K) (common practice, no source). */
#include "burning/heat/net_parts.h"

#include <math.h>

static const double ash_w_m2_k = 0.1 / 0.02, near_m = 0.05, cover_most = 0.98;

static bool is_under(const sw_scene *scene, const sw_scene_surface *s)
{
    return s->medium == SW_MEDIUM_FIRE && s->up > 0.5 && !(s->middle_z_m > scene->bed_height_m + near_m);
}

static void link_to(sw_heat_net *net, const sw_scene_surface *s)
{
    net_link *l = &net->bed.links[net->bed.link_count++];
    *l = (net_link){.kind = NET_LINK_FIXED,
                    .a = sw_heat_net_gas(net, SW_GAS_BED),
                    .b = s->hot_side ? net->hot[s->part] : net->cold[s->part],
                    .g = net->bed.cover * s->area_m2 * ash_w_m2_k};
}

sw_status net_bed_make(sw_run *run, sw_heat_net *net)
{
    const sw_scene *scene = net->scene;
    bool *lies_on = SW_KEEP(run, scene->surface_count + 1, bool);
    net->bed.links = SW_KEEP(run, scene->surface_count + 1, net_link);
    if (lies_on == NULL || net->bed.links == NULL) return SW_NO_MEMORY;
    net->bed.lies_on = lies_on;
    double under_m2 = 0;
    for (size_t i = 0; i < scene->surface_count; i++) {
        lies_on[i] = is_under(scene, &scene->surfaces[i]);
        if (lies_on[i]) under_m2 += scene->surfaces[i].area_m2;
    }
    if (!(under_m2 > 0) || !(scene->base_m2 > 0) || !(net->model.bed_share > 0)) return SW_OK;
    net->bed.cover = fmin(scene->base_m2 / under_m2, cover_most);
    net->bed.area_m2 = net->bed.cover * under_m2;
    net->bed.film = (net_film){.area_m2 = net->bed.area_m2, .across_m = 0.25 * sqrt(net->bed.area_m2), .up = 1};
    for (size_t i = 0; i < scene->surface_count; i++)
        if (lies_on[i]) link_to(net, &scene->surfaces[i]);
    return SW_OK;
}

static void flow(sw_heat_net *net, size_t a, size_t b, double g, double steer, bool with_jacobian)
{
    double q = g * (net->x[a] - net->x[b]);
    net->R[a] -= q;
    net->R[b] += q;
    if (!with_jacobian) return;
    *net_jacobian(net, a, a) -= steer * g;
    *net_jacobian(net, a, b) += steer * g;
    *net_jacobian(net, b, a) += steer * g;
    *net_jacobian(net, b, b) -= steer * g;
}

void net_bed_balance(sw_heat_net *net, bool with_jacobian)
{
    size_t bed = sw_heat_net_gas(net, SW_GAS_BED), gas = sw_heat_net_gas(net, SW_GAS_FIREBOX);
    double heat_w = net->flame_share * net->now.heat_w;
    if (!(net->bed.cover > 0)) { /* no bed: as warm as the gas */
        net->R[gas] += heat_w;
        net->R[bed] = net->x[gas] - net->x[bed];
        if (with_jacobian) *net_jacobian(net, bed, gas) += 1, *net_jacobian(net, bed, bed) -= 1;
        return;
    }
    net->R[bed] += net->model.bed_share * heat_w;
    net->R[gas] += (1 - net->model.bed_share) * heat_w;
    double h = net->model.inside_h_factor * net_film_free(net, &net->bed.film, net->x[bed], net->x[gas]);
    flow(net, bed, gas, h * net->bed.area_m2, 1.29, with_jacobian);
    for (size_t i = 0; i < net->bed.link_count; i++)
        flow(net, bed, net->bed.links[i].b, net->bed.links[i].g, 1, with_jacobian);
}
