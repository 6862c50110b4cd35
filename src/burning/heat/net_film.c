/* net_film.c: film coefficients of surfaces.
 *
 * Free convection by the way a surface faces (transfer's sw_free_h: Churchill & Chu sideways, McAdams up and down); inside,
 * the flue gas drives a duct flow through each space as well: hydraulic diameter 4V/A, section the bed's area below the baffle
 * and the throat's above it, sw_nu_duct. Both together by the cubes, h^3 = h_free^3 + h_driven^3 (Incropera ch. 9, mixed
 * convection, assisting; from memory). */
#include "burning/heat/net_parts.h"

#include <math.h>

static const double floor_gap_most_m = 0.05; /* a face down nearer to the floor has still air under it; ours */
static const double way = 3;                 /* hydraulic diameters from one turn to the next, each a new start; ours */
static const double floor_gap_least_m = 0.002;

static net_film film_of(const sw_heat_net *net, const sw_scene_surface *s)
{
    static const double least_m = 0.02;
    net_film f = {.node = s->hot_side ? net->hot[s->part] : net->cold[s->part],
                  .area_m2 = s->area_m2,
                  .height_m = fmax(s->height_m, least_m),
                  .across_m = fmax(0.25 * sqrt(s->area_m2), 0.25 * least_m)}; /* of a square: A/P */
    double sum = s->side + s->up + s->down;
    f.side = sum > 0 ? s->side / sum : 1;
    f.up = sum > 0 ? s->up / sum : 0;
    f.down = sum > 0 ? s->down / sum : 0;
    if (s->medium == SW_MEDIUM_ROOM && f.down > 0.5 && s->middle_z_m < floor_gap_most_m)
        f.floor_m = fmax(s->middle_z_m, floor_gap_least_m);
    return f;
}

static void note_floor(sw_heat_net *net, double *shown_m2)
{
    const net_films *room = &net->films[SW_MEDIUM_ROOM];
    for (size_t i = 0; i < room->count; i++) {
        const net_film *f = &room->items[i];
        shown_m2[f->node] += f->area_m2;
        if (f->floor_m > 0) net->floor_share[f->node] += f->area_m2;
    }
    for (size_t i = 0; i < net->solids; i++)
        if (shown_m2[i] > 0) net->floor_share[i] /= shown_m2[i];
}

static double height_of(const sw_scene_surface *s)
{
    static const double least_m = 1e-3;
    return fmax(s->height_m, least_m);
}

/* How much of each surface of the gap lies in each step of its height. */
static void share_gap(sw_heat_net *net)
{
    const sw_scene *scene = net->scene;
    const net_film *film = net->films[SW_MEDIUM_GAP].items;
    double low = (double)INFINITY, high = -(double)INFINITY, *share = net->gap_share;
    for (size_t i = 0; i < scene->surface_count; i++) {
        const sw_scene_surface *s = &scene->surfaces[i];
        if (s->medium != SW_MEDIUM_GAP) continue;
        low = fmin(low, s->middle_z_m - 0.5 * height_of(s));
        high = fmax(high, s->middle_z_m + 0.5 * height_of(s));
    }
    for (size_t i = 0; i < scene->surface_count; i++) {
        const sw_scene_surface *s = &scene->surfaces[i];
        if (s->medium != SW_MEDIUM_GAP) continue;
        double from = s->middle_z_m - 0.5 * height_of(s), to = from + height_of(s), step = (high - low) / NET_GAP_STEPS;
        for (int k = 0; k < NET_GAP_STEPS; k++) {
            double over = fmin(to, low + step * (k + 1)) - fmax(from, low + step * k);
            share[k] = fmax(0, over) / (to - from);
            net->gap_step_m2[k] += share[k] * film->area_m2;
        }
        share += NET_GAP_STEPS;
        film++;
    }
}

sw_status net_films_make(sw_run *run, sw_heat_net *net)
{
    const sw_scene *scene = net->scene;
    for (int m = 0; m < SW_MEDIA; m++) {
        net->films[m].items = SW_KEEP(run, scene->surface_count + 1, net_film);
        if (net->films[m].items == NULL) return SW_NO_MEMORY;
    }
    for (size_t i = 0; i < scene->surface_count; i++) {
        net_films *films = &net->films[scene->surfaces[i].medium];
        films->items[films->count] = film_of(net, &scene->surfaces[i]);
        if (net->bed.lies_on[i]) films->items[films->count].area_m2 *= 1 - net->bed.cover;
        films->count++;
    }
    net->floor_share = SW_KEEP(run, net->solids + 1, double);
    if (net->floor_share == NULL) return SW_NO_MEMORY;
    note_floor(net, net->step); /* zeroed, and not yet in use */
    for (size_t i = 0; i <= net->nodes; i++) net->step[i] = 0;
    SW_TRY(net_ducts_make(run, net));
    for (size_t i = 0; i < net->films[SW_MEDIUM_GAP].count; i++)
        net->gap_area_m2 += net->films[SW_MEDIUM_GAP].items[i].area_m2;
    net->gap_share = SW_KEEP(run, NET_GAP_STEPS * net->films[SW_MEDIUM_GAP].count + 1, double);
    if (net->gap_share == NULL) return SW_NO_MEMORY;
    share_gap(net);
    return SW_OK;
}

/* Properties of air are known from 200 to 1500 K; beyond, they are held. By 2 K they change straight: to 5e-5 of h. */
static const double air_first_k = 200, air_last_k = 1500, air_step_k = 2;

static double held_k(double t_k)
{
    return net_held(t_k, air_first_k, air_last_k);
}

sw_status net_film_air_make(sw_run *run, sw_heat_net *net)
{
    net->film_air = SW_KEEP(run, NET_AIR_ROWS, sw_film_air);
    if (net->film_air == NULL) return SW_NO_MEMORY;
    for (int i = 0; i < NET_AIR_ROWS; i++)
        net->film_air[i] = sw_film_air_at(fmin(air_first_k + i * air_step_k, air_last_k));
    return SW_OK;
}

static sw_film_air film_air(const sw_heat_net *net, double t_k)
{
    double at = (t_k - air_first_k) / air_step_k;
    size_t row = (size_t)fmin(at, NET_AIR_ROWS - 2);
    const sw_film_air *a = &net->film_air[row], *b = a + 1;
    double part = at - (double)row;
    return (sw_film_air){a->rayleigh + part * (b->rayleigh - a->rayleigh), a->plate + part * (b->plate - a->plate),
                         a->conductivity + part * (b->conductivity - a->conductivity)};
}

double net_film_free(const sw_heat_net *net, const net_film *f, double surface_k, double gas_k)
{
    double s = held_k(surface_k), g = held_k(gas_k), h = 0;
    const sw_film_air air = film_air(net, 0.5 * (s + g));
    if (f->floor_m > 0) return air.conductivity / f->floor_m;
    if (f->side > 0) h += f->side * sw_free_h_in(&air, SW_FACING_SIDE, s - g, f->height_m);
    if (f->up > 0) h += f->up * sw_free_h_in(&air, SW_FACING_UP, s - g, f->across_m);
    if (f->down > 0) h += f->down * sw_free_h_in(&air, SW_FACING_DOWN, s - g, f->across_m);
    return h;
}

/* Laminar from the start of a duct: Nu = 3.66 + 0.0668 Gz/(1 + 0.04 Gz^(2/3)); Hausen, as in Incropera ch. 8 (from memory). */
static double entrance_nu(double gz)
{
    return 3.66 + 0.0668 * gz / (1 + 0.04 * cbrt(gz * gz));
}

double net_film_driven(const sw_heat_net *net, sw_medium medium, double gas_k)
{
    const sw_scene *s = net->scene;
    bool below = medium == SW_MEDIUM_FIRE;
    double section_m2 = below ? s->base_m2 : s->throat_m2, volume_m3 = below ? s->firebox_m3 : s->upper_m3;
    double hydraulic_m = 4 * volume_m3 / (below ? s->firebox_m2 : s->upper_m2);
    if (!(section_m2 > 0) || !(hydraulic_m > 0) || !(net->now.gas_kg_s > 0)) return 0;
    sw_air gas = sw_air_at(held_k(gas_k));
    double re = net->now.gas_kg_s / section_m2 * hydraulic_m / gas.viscosity;
    double nu = fmax(entrance_nu(re * gas.pr / way), sw_nu_duct(fmin(re, 5e6), gas.pr, 0, 1 / way));
    return nu * gas.conductivity / hydraulic_m;
}
