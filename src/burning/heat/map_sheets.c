/* map_sheets.c: every part of the scene gets its middle surface in triangles; about as many in all as wished. */
#include "burning/heat/map_parts.h"

#include <math.h>

/* Region in whose plane the part is meshed; a bent pane is a rectangle of its width and way round. */
static sw_status pane_region(sw_run *run, map_sheet *s)
{
    const sw_vec3 *c = s->body->mesh.points;
    size_t strips = s->body->mesh.point_count / 4 - 1;
    double round_mm = 0.0, wide_mm = sw_vec3_length(sw_vec3_sub(c[1], c[0]));
    for (size_t i = 0; i < strips; i++) round_mm += sw_vec3_length(sw_vec3_sub(c[4 * i + 4], c[4 * i]));
    s->band = &s->body->mesh;
    return sw_contour_rectangle(run, (sw_box){0.0, 0.0, wide_mm, round_mm}, 0.0, &s->region.outline);
}

static sw_status find_region(sw_run *run, const map_job *job, map_sheet *s)
{
    const scene_body *b = s->body;
    if (b->piece >= 0) {
        s->piece = &job->stove->pieces[b->piece];
        s->folded = &job->result->pieces[b->piece];
        s->region = s->folded->flat.region;
        return SW_OK;
    }
    s->region = job->stove->items[b->item].shape;
    if (s->region.outline.n == 0 && b->mesh.triangle_count > 0) return pane_region(run, s);
    return SW_OK;
}

/* N = area/(sqrt(3)/4 h^2) and half a triangle more for every step of the border. */
static double side_mm(double n, double area_mm2, double rim_mm)
{
    double a = area_mm2 * 4.0 / sqrt(3.0), b = 0.5 * rim_mm;
    return (b + sqrt(b * b + 4.0 * n * a)) / (2.0 * n);
}

static double even_side_mm(const map_job *job)
{
    double area_mm2 = 0.0, rim_mm = 0.0;
    for (size_t i = 0; i < job->scene->part_count; i++) {
        const map_sheet *s = &job->sheets[i];
        if (s->region.outline.n == 0) continue;
        area_mm2 += sw_region_area(&s->region);
        rim_mm += sw_region_length(&s->region);
    }
    return side_mm(job->opt->triangles, area_mm2, rim_mm);
}

static sw_status place_points(sw_run *run, map_sheet *s)
{
    sw_vec3 normal;
    s->points = SW_SCRATCH(run, s->plane.point_count + 1, sw_vec3);
    if (s->points == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->plane.point_count; i++) map_place(s, s->plane.points[i], &s->points[i], &normal);
    return SW_OK;
}

/* A handle without shape is one node. */
static sw_status mesh_part(sw_run *run, map_job *job, map_sheet *s, double step_mm)
{
    s->side_mm = step_mm;
    s->first = (uint32_t)job->sys.nodes;
    if (s->region.outline.n == 0) {
        job->sys.nodes += 1;
        return SW_OK;
    }
    SW_TRY(map_mesh(run, &s->region, step_mm, &s->plane));
    job->sys.nodes += s->plane.point_count * (s->body->layered ? 2 : 1);
    return place_points(run, s);
}

sw_status map_sheet_alone(sw_run *run, const map_job *job, const scene_body *body, double triangles, map_sheet *s)
{
    *s = (map_sheet){.body = body};
    SW_TRY(find_region(run, job, s));
    if (s->region.outline.n == 0) return SW_OK;
    s->side_mm = side_mm(triangles, sw_region_area(&s->region), sw_region_length(&s->region));
    SW_TRY(map_mesh(run, &s->region, s->side_mm, &s->plane));
    return place_points(run, s);
}

static sw_status match_bodies(sw_run *run, map_job *job)
{
    size_t parts = 0;
    for (size_t i = 0; i < job->seen.body_count; i++) {
        const scene_body *b = &job->seen.bodies[i];
        if (b->part == SCENE_NONE) continue;
        if (b->part < job->scene->part_count) job->sheets[b->part].body = b;
        parts++;
    }
    if (parts == job->scene->part_count) return SW_OK;
    return sw_fail(run, SW_BAD_INPUT, job->stove->place, "scene",
                   "%zu parts, but the stove has %zu: make the scene of this stove", job->scene->part_count, parts);
}

sw_status map_sheets(sw_run *run, map_job *job)
{
    job->sheets = SW_SCRATCH(run, job->scene->part_count + 1, map_sheet);
    if (job->sheets == NULL) return SW_NO_MEMORY;
    SW_TRY(match_bodies(run, job));
    for (size_t i = 0; i < job->scene->part_count; i++) SW_TRY(find_region(run, job, &job->sheets[i]));
    double step_mm = even_side_mm(job);
    for (size_t i = 0; i < job->scene->part_count; i++) SW_TRY(mesh_part(run, job, &job->sheets[i], step_mm));
    job->sys.bed = job->net->bed.cover > 0.0 ? (uint32_t)job->sys.nodes++ : MAP_NONE;
    job->part_of = SW_SCRATCH(run, job->sys.nodes + 1, uint32_t);
    if (job->part_of == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->scene->part_count; i++) {
        size_t end = i + 1 < job->scene->part_count ? job->sheets[i + 1].first : job->sys.nodes;
        for (size_t n = job->sheets[i].first; n < end; n++) job->part_of[n] = (uint32_t)i;
    }
    if (job->sys.bed != MAP_NONE) job->part_of[job->sys.bed] = MAP_NONE;
    return SW_OK;
}
