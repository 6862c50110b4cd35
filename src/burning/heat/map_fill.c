/* map_fill.c: from meshes, facets and patches to the system that is solved. */
#include "burning/heat/map_parts.h"

#include <math.h>

/* ---- conduction ---- */

static void add_triangles(map_job *job, uint32_t sheet)
{
    const map_sheet *s = &job->sheets[sheet];
    uint32_t layers = s->body->layered ? 2 : 1, up = (uint32_t)s->plane.point_count;
    for (uint32_t layer = 0; layer < layers; layer++)
        for (size_t i = 0; i < s->plane.triangle_count; i++) {
            const sw_triangle *v = &s->plane.triangles[i];
            uint32_t base = s->first + layer * up;
            map_triangle *t = &job->sys.triangles[job->sys.triangle_count++];
            *t = (map_triangle){{base + v->a, base + v->b, base + v->c}, sheet, s->body->thickness_m / layers, {0}};
            sw_point corner[3] = {s->plane.points[v->a], s->plane.points[v->b], s->plane.points[v->c]};
            map_half_cots(corner, t->half_cot);
        }
}

static sw_status fill_triangles(sw_run *run, map_job *job)
{
    size_t parts = job->scene->part_count, most = 0;
    for (size_t i = 0; i < parts; i++) most += 2 * job->sheets[i].plane.triangle_count;
    job->sys.triangles = SW_SCRATCH(run, most + 1, map_triangle);
    job->sys.matters = SW_SCRATCH(run, parts + 1, map_matter);
    bool *glass = SW_SCRATCH(run, job->sys.nodes + 1, bool);
    if (job->sys.triangles == NULL || job->sys.matters == NULL || glass == NULL) return SW_NO_MEMORY;
    for (uint32_t i = 0; i < parts; i++) {
        const scene_body *b = job->sheets[i].body;
        job->sys.matters[i] = (map_matter){b->material, 0.0, b->layered ? job->net->model.lining_k_factor : 1.0};
        add_triangles(job, i);
    }
    for (size_t i = 0; i < job->sys.nodes; i++)
        if (job->part_of[i] != MAP_NONE) glass[i] = job->scene->parts[job->part_of[i]].kind == SW_PART_PANE;
    job->sys.glass = glass;
    return SW_OK;
}

/* ---- films: one a surface of the scene, in its order ---- */

static sw_status fill_films(sw_run *run, map_job *job)
{
    const sw_scene *scene = job->scene;
    size_t at[SW_MEDIA] = {0};
    job->sys.film_count = scene->surface_count;
    job->sys.films = SW_SCRATCH(run, scene->surface_count + 1, map_film);
    if (job->sys.films == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < scene->surface_count; i++) {
        sw_medium m = scene->surfaces[i].medium;
        job->sys.films[i] = (map_film){.medium = m, .law = &job->net->films[m].items[at[m]++]};
    }
    return SW_OK;
}

/* ---- shares ---- */

static void add_share(map_system *sys, uint32_t node, uint32_t patch, double area_m2, uint32_t *last)
{
    uint32_t at = last[node];
    if (at == MAP_NONE || sys->shares[at].patch != patch) {
        at = last[node] = (uint32_t)sys->share_count++;
        sys->shares[at] = (map_share){node, patch, 0.0};
    }
    sys->shares[at].area_m2 += area_m2;
}

/* Facets in order of their patches, so that shares come by patch. */
static sw_status order_facets(sw_run *run, const map_job *job, uint32_t **order, size_t *count)
{
    size_t *start = SW_SCRATCH(run, job->sys.patch_count + 2, size_t);
    *order = SW_SCRATCH(run, job->facet_count + 1, uint32_t);
    if (start == NULL || *order == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->facet_count; i++)
        if (job->facets[i].patch != MAP_NONE) start[job->facets[i].patch + 1]++;
    for (size_t p = 0; p < job->sys.patch_count; p++) start[p + 1] += start[p];
    *count = start[job->sys.patch_count];
    for (uint32_t i = 0; i < job->facet_count; i++)
        if (job->facets[i].patch != MAP_NONE) (*order)[start[job->facets[i].patch]++] = i;
    return SW_OK;
}

static bool is_bar(const map_job *job, uint32_t patch)
{
    return job->sheets[job->scene->surfaces[job->surface_of[patch]].part].plane.point_count == 0;
}

/* Share of a patch that embers lie on: there it is they that radiate and warm the gas. */
static double cover_of(const map_job *job, uint32_t patch)
{
    bool under = job->sys.bed != MAP_NONE && job->net->bed.lies_on[job->surface_of[patch]];
    return under ? job->net->bed.cover : 0.0;
}

static sw_status fill_shares(sw_run *run, map_job *job)
{
    map_system *sys = &job->sys;
    uint32_t *order = NULL, *last = SW_SCRATCH(run, sys->nodes + 1, uint32_t);
    size_t count = 0, at = 0;
    sys->shares = SW_SCRATCH(run, 4 * job->facet_count + 2 * sys->patch_count + 1, map_share);
    if (last == NULL || sys->shares == NULL) return SW_NO_MEMORY;
    SW_TRY(order_facets(run, job, &order, &count));
    for (size_t i = 0; i < sys->nodes; i++) last[i] = MAP_NONE;
    for (uint32_t p = 0; p < sys->patch_count; p++) {
        uint32_t bar = job->sheets[job->scene->surfaces[job->surface_of[p]].part].first;
        if (is_bar(job, p)) add_share(sys, bar, p, sys->patches[p].area_m2, last);
        for (; at < count && job->facets[order[at]].patch == p; at++) {
            const map_facet *f = &job->facets[order[at]];
            for (uint32_t k = 0; k < f->corners; k++)
                add_share(sys, f->node[k], p, (1.0 - cover_of(job, p)) * f->area_m2 / f->corners, last);
        }
        if (cover_of(job, p) > 0.0) add_share(sys, sys->bed, p, cover_of(job, p) * sys->patches[p].area_m2, last);
    }
    return SW_OK;
}

/* ---- heights in the gap ---- */

static sw_status fill_steps(sw_run *run, map_job *job)
{
    map_system *sys = &job->sys;
    double *z = SW_SCRATCH(run, sys->patch_count + 1, double), low = (double)INFINITY, high = -(double)INFINITY;
    if (z == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->facet_count; i++) {
        const map_facet *f = &job->facets[i];
        if (f->patch != MAP_NONE) z[f->patch] += f->area_m2 * (double)f->at.z_mm;
    }
    for (size_t p = 0; p < sys->patch_count; p++) {
        z[p] /= sys->patches[p].area_m2;
        if (job->scene->surfaces[job->surface_of[p]].medium != SW_MEDIUM_GAP) continue;
        low = fmin(low, z[p]), high = fmax(high, z[p]);
    }
    for (size_t p = 0; p < sys->patch_count; p++) {
        double share = high > low ? (z[p] - low) / (high - low) : 0.0;
        sys->patches[p].step = (uint32_t)net_held(share * MAP_GAP_STEPS, 0, MAP_GAP_STEPS - 1);
    }
    return SW_OK;
}

/* ---- embers ---- */

/* W/(m2 K) through the ash under them. */
static double ash_w_m2_k(const map_job *job)
{
    double g = 0.0;
    for (size_t i = 0; i < job->net->bed.link_count; i++) g += job->net->bed.links[i].g;
    return g / job->net->bed.area_m2;
}

static sw_status link_bed(sw_run *run, map_job *job)
{
    map_system *sys = &job->sys;
    for (size_t i = 0; sys->bed != MAP_NONE && i < sys->share_count; i++) {
        const map_share *s = &sys->shares[i];
        double cover = cover_of(job, s->patch);
        if (s->node == sys->bed || !(cover > 0.0)) continue;
        double g = ash_w_m2_k(job) * cover / (1.0 - cover) * s->area_m2;
        SW_TRY(map_join(run, job, (net_link){.kind = NET_LINK_FIXED, .g = g}, s->node, sys->bed));
    }
    return SW_OK;
}

sw_status map_fill(sw_run *run, map_job *job)
{
    SW_TRY(fill_triangles(run, job));
    SW_TRY(fill_films(run, job));
    SW_TRY(fill_shares(run, job));
    SW_TRY(link_bed(run, job));
    SW_TRY(fill_steps(run, job));
    job->sys.net = job->net;
    job->sys.laws = job->net;
    job->sys.unknowns = job->sys.nodes + 2;
    job->sys.walls_k = job->net->room.walls_k;
    return map_system_room(run, &job->sys);
}
