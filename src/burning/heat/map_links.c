/* map_links.c: through linings, over faces that touch or nearly touch, and by small parts that hold two others together. */
#include "burning/heat/map_parts.h"

#include <math.h>

sw_status map_join(sw_run *run, map_job *job, net_link law, uint32_t a, uint32_t b)
{
    map_system *sys = &job->sys;
    law.a = a, law.b = b;
    if (a == b) return SW_OK;
    net_link *grown = sw_grow(run, run->scratch, sys->links, sys->link_count, &job->link_room, sizeof *grown);
    if (grown == NULL) return SW_NO_MEMORY;
    sys->links = grown;
    grown[sys->link_count++] = law;
    return SW_OK;
}

/* ---- linings ---- */

static sw_status through(sw_run *run, map_job *job, size_t sheet, double *node_m2)
{
    const map_sheet *s = &job->sheets[sheet];
    uint32_t up = (uint32_t)s->plane.point_count;
    for (uint32_t i = s->facet; i < s->facet + s->facets; i++) {
        const map_facet *f = &job->facets[i];
        for (uint32_t k = 0; f->side < 0 && k < 3; k++) node_m2[f->node[k] - s->first] += f->area_m2 / 3.0;
    }
    for (uint32_t i = 0; i < up; i++) {
        net_link law = {.kind = NET_LINK_LAYER, .g = node_m2[i] / s->body->thickness_m, .material = s->body->material};
        SW_TRY(map_join(run, job, law, s->first + i, s->first + up + i));
        node_m2[i] = 0.0;
    }
    return SW_OK;
}

/* ---- touching faces ---- */

/* The facet of the other part that lies where the normal ends. */
static uint32_t other_side(const map_job *job, uint32_t facet)
{
    const scene_sample *s = &job->seen.samples[facet];
    sw_vec3 n = scene_normal(&s->at);
    sw_vec3 at = sw_vec3_add(scene_place(&s->at), sw_vec3_scaled(n, (double)s->clear_mm));
    return map_nearest(job, job->seen.bodies[s->pressed].part, at, sw_vec3_scaled(n, -1.0), false);
}

typedef struct touches { /* area that each part's facets touch of each other part, [parts * parts] */
    double *area_m2;
    size_t parts;
} touches;

static uint32_t touched_part(const map_job *job, uint32_t facet)
{
    uint32_t body = job->seen.samples[facet].pressed;
    return body == SCENE_NONE ? SCENE_NONE : job->seen.bodies[body].part;
}

static sw_vec3 node_place(const map_job *job, uint32_t node)
{
    const map_sheet *s = &job->sheets[job->part_of[node]];
    if (s->plane.point_count == 0) return s->body->frame.origin;
    return s->points[(node - s->first) % s->plane.point_count];
}

static uint32_t nearest_corner(const map_job *job, const map_facet *f, sw_vec3 at)
{
    double least = (double)INFINITY;
    uint32_t best = 0;
    for (uint32_t k = 0; k < f->corners; k++) {
        sw_vec3 d = sw_vec3_sub(node_place(job, f->node[k]), at);
        double far = sw_vec3_dot(d, d);
        if (far < least) least = far, best = k;
    }
    return f->node[best];
}

/* Node by node: a mean over corners would take heat from one that has none. Facets of both parts tell of the same area: each
 * of one half of the mean. */
static sw_status touch(sw_run *run, map_job *job, const touches *all, uint32_t facet)
{
    const map_facet *f = &job->facets[facet];
    uint32_t part = touched_part(job, facet);
    if (part == SCENE_NONE || part == f->sheet || job->sheets[part].facets == 0) return SW_OK;
    double own = all->area_m2[f->sheet * all->parts + part], other = all->area_m2[part * all->parts + f->sheet];
    double share = other > 0.0 ? 0.5 : 1.0, gap_m = sw_m_from_mm((double)job->seen.samples[facet].clear_mm);
    uint32_t to = other_side(job, facet);
    if (to == MAP_NONE || !(own > 0.0)) return SW_OK;
    sw_scene_contact c = {.a = f->sheet, .b = part, .area_m2 = share * f->area_m2 / f->corners, .gap_m = gap_m};
    net_link law = net_touch(job->net, &c);
    for (uint32_t k = 0; k < f->corners; k++) {
        uint32_t node = nearest_corner(job, &job->facets[to], node_place(job, f->node[k]));
        SW_TRY(map_join(run, job, law, f->node[k], node));
    }
    return SW_OK;
}

/* ---- small parts between ---- */

static uint32_t nodes_of(const map_sheet *s)
{
    return s->plane.point_count == 0 ? 1 : (uint32_t)s->plane.point_count * (s->body->layered ? 2 : 1);
}

static uint32_t nearest_node(const map_job *job, const map_sheet *s, sw_vec3 at, double *far_mm)
{
    double least = (double)INFINITY;
    uint32_t best = s->first;
    for (uint32_t i = s->first; i < s->first + nodes_of(s); i++) {
        sw_vec3 p = node_place(job, i);
        double x = p.x_mm - at.x_mm, y = p.y_mm - at.y_mm, z = p.z_mm - at.z_mm, far = x * x + y * y + z * z;
        if (far < least) least = far, best = i;
    }
    *far_mm = sqrt(least);
    return best;
}

typedef struct pairs { /* for each node of one part the nearest of the other */
    uint32_t *to;
    double *far_mm;
    double least_mm;
} pairs;

static sw_status find_pairs(sw_run *run, const map_job *job, const map_sheet *a, const map_sheet *b, pairs *out)
{
    uint32_t n = nodes_of(a);
    *out = (pairs){SW_SCRATCH(run, n, uint32_t), SW_SCRATCH(run, n, double), (double)INFINITY};
    if (out->to == NULL || out->far_mm == NULL) return SW_NO_MEMORY;
    for (uint32_t i = 0; i < n; i++) {
        out->to[i] = nearest_node(job, b, node_place(job, a->first + i), &out->far_mm[i]);
        out->least_mm = fmin(out->least_mm, out->far_mm[i]);
    }
    return SW_OK;
}

/* Area of a contact that the facets of both parts have not met: they have no rims. */
static double missing_m2(const touches *all, const sw_scene_contact *c)
{
    static const double little = 0.25; /* of the contact: within the scatter of rays; ours */
    double from_a = all->area_m2[c->a * all->parts + c->b], from_b = all->area_m2[c->b * all->parts + c->a];
    double met = from_a > 0.0 && from_b > 0.0 ? 0.5 * (from_a + from_b) : from_a + from_b;
    if (c->between) return c->area_m2;
    return c->area_m2 - met > little * c->area_m2 ? c->area_m2 - met : 0.0;
}

/* Contacts of rims, and by small parts between: shared out over the nodes that are nearest to the other part. */
static sw_status bridge(sw_run *run, map_job *job, const touches *all, const sw_scene_contact *c)
{
    static const double about = 0.6; /* of a triangle's side: how much further off nodes still count; ours */
    if (c->edge_m > 0.0 || c->a == c->b) return SW_OK;
    const map_sheet *a = &job->sheets[c->a], *b = &job->sheets[c->b];
    double count = 0.0, share = missing_m2(all, c) / c->area_m2;
    pairs p;
    if (!(share > 0.0)) return SW_OK;
    SW_TRY(find_pairs(run, job, a, b, &p));
    for (uint32_t i = 0; i < nodes_of(a); i++) count += p.far_mm[i] <= p.least_mm + about * a->side_mm;
    for (uint32_t i = 0; i < nodes_of(a); i++) {
        if (p.far_mm[i] > p.least_mm + about * a->side_mm) continue;
        net_link law = net_touch(job->net, c);
        law.g *= share / count, law.radiant_m2 *= share / count;
        SW_TRY(map_join(run, job, law, a->first + i, p.to[i]));
    }
    return SW_OK;
}

sw_status map_links(sw_run *run, map_job *job)
{
    size_t parts = job->scene->part_count;
    touches all = {SW_SCRATCH(run, parts * parts + 1, double), parts};
    double *node_m2 = SW_SCRATCH(run, job->sys.nodes + 1, double);
    if (all.area_m2 == NULL || node_m2 == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < parts; i++)
        if (job->sheets[i].body->layered) SW_TRY(through(run, job, i, node_m2));
    for (uint32_t i = 0; i < job->facet_count; i++) {
        uint32_t part = touched_part(job, i);
        if (part != SCENE_NONE) all.area_m2[job->facets[i].sheet * parts + part] += job->facets[i].area_m2;
    }
    for (uint32_t i = 0; i < job->facet_count; i++) SW_TRY(touch(run, job, &all, i));
    for (size_t i = 0; i < job->scene->contact_count; i++) SW_TRY(bridge(run, job, &all, &job->scene->contacts[i]));
    return map_seams(run, job);
}
