#include "watertight.h"

enum { SEEDS = 500 };

typedef struct subject { /* one random piece, folded both ways and laid flat */
    sw_test *t;
    maker *m;
    sw_solid solid, mirrored;
    sw_flat flat;
} subject;

static bool watertight_and_of_the_right_volume(const subject *s)
{
    double want = s->solid.mid_area_mm2 * s->m->piece.thickness_mm;
    return sw_true(s->t, watertight(s->t, &s->solid.mesh)) &&
           sw_near(s->t, sw_mesh_volume(&s->solid.mesh), want, 2e-2 * want, "derived: within the chord error");
}

/* Zones at their own factor; with K = 1/2 the middle has the area of the flat. */
static bool the_middle_differs_from_the_flat_by_the_factor_alone(const subject *s)
{
    double want = s->flat.area_mm2;
    for (size_t i = 0; i < s->flat.bend_count; i++) {
        const sw_flat_bend *b = &s->flat.bends[i];
        double w = hypot(b->bend->to.x_mm - b->bend->from.x_mm, b->bend->to.y_mm - b->bend->from.y_mm);
        double zone = w * b->allowance_mm,
               middle = fabs(b->bend->angle_rad) * (b->bend->radius_mm + s->m->piece.thickness_mm / 2);
        double holes = 0.0;
        for (size_t h = 0; h < b->bend->hole_count; h++) holes += fabs(sw_contour_area(b->bend->holes[h].contour));
        want += (middle / b->allowance_mm - 1.0) * (zone - holes);
    }
    return sw_near(s->t, s->solid.mid_area_mm2, want, 1e-9 * want,
                   "conservation: each zone grows to its middle length");
}

static double flat_distance(const sw_flat *flat, int face, sw_vertex a, sw_vertex b)
{
    sw_point p = sw_motion_point(flat->faces[face], (sw_point){a.x_mm, a.y_mm});
    sw_point q = sw_motion_point(flat->faces[face], (sw_point){b.x_mm, b.y_mm});
    return hypot(q.x_mm - p.x_mm, q.y_mm - p.y_mm);
}

static bool free_edges_are_as_long_folded_as_flat(const subject *s)
{
    for (size_t e = 0; e < s->m->piece.edge_count; e++) {
        const sw_edge *edge = &s->m->edges[e];
        const sw_folded_edge *folded = &s->solid.edges[e];
        sw_contour c = s->m->faces[edge->face].region.outline;
        sw_vertex a = c.v[edge->first], b = c.v[(edge->first + 1) % c.n];
        double want = flat_distance(&s->flat, edge->face, a, b),
               length = sw_segment_length(a, (sw_point){b.x_mm, b.y_mm});
        double got = sw_vec3_length(sw_vec3_sub(folded->points[folded->count - 1], folded->points[0]));
        if (!sw_near(s->t, got, want, 1e-9 * (1.0 + want), "rigid motion: ends of a free edge")) return false;
        if (!sw_near(s->t, folded->length_mm, length, 1e-9 * length, "rigid motion: along a free edge")) return false;
    }
    return true;
}

/* Along the sides of a zone: folded the chord of its middle radius, flat its allowance. */
static bool zones_keep_their_distances(const subject *s)
{
    for (size_t i = 0; i < s->m->piece.bend_count; i++) {
        const sw_bend *b = &s->m->bends[i];
        sw_frame parent = s->solid.faces[b->parent], child = s->solid.faces[b->child];
        double R = b->radius_mm + s->m->piece.thickness_mm / 2.0,
               w = hypot(b->to.x_mm - b->from.x_mm, b->to.y_mm - b->from.y_mm);
        sw_vec3 to = sw_frame_point(parent, (sw_vec3){b->to.x_mm, b->to.y_mm, 0});
        sw_vec3 from = sw_frame_point(parent, (sw_vec3){b->from.x_mm, b->from.y_mm, 0});
        sw_vec3 end = sw_frame_point(child, (sw_vec3){w, 0, 0});
        double chord = 2 * R * fabs(sin(b->angle_rad / 2));
        sw_near(s->t, sw_vec3_length(sw_vec3_sub(child.origin, to)), chord, 1e-9 * (1 + R), "derived: 2 R sin(A/2)");
        sw_near(s->t, sw_vec3_length(sw_vec3_sub(end, from)), chord, 1e-9 * (1 + R), "derived: 2 R sin(A/2)");
        if (!sw_near(s->t, sw_vec3_dot(parent.z, child.z), cos(b->angle_rad), 1e-9, "derived: turned by the angle"))
            return false;
        sw_point p = sw_motion_point(s->flat.faces[b->parent], b->to),
                 q = sw_motion_point(s->flat.faces[b->child], (sw_point){0, 0});
        if (!sw_near(s->t, hypot(q.x_mm - p.x_mm, q.y_mm - p.y_mm), s->flat.bends[i].allowance_mm, 1e-9,
                     "derived: allowance"))
            return false;
    }
    return true;
}

static bool turning_every_bend_over_mirrors_the_solid(const subject *s)
{
    for (size_t f = 0; f < s->m->piece.face_count; f++) {
        sw_vec3 a = s->solid.faces[f].origin, b = s->mirrored.faces[f].origin;
        sw_near(s->t, b.x_mm, a.x_mm, 1e-9, "symmetry: mirror in the root's plane");
        sw_near(s->t, b.y_mm, a.y_mm, 1e-9, "symmetry: mirror in the root's plane");
        if (!sw_near(s->t, b.z_mm, -a.z_mm, 1e-9, "symmetry: mirror in the root's plane")) return false;
    }
    return sw_near(s->t, s->mirrored.centroid.z_mm, -s->solid.centroid.z_mm, 1e-6,
                   "symmetry: mirror in the root's plane") &&
           sw_near(s->t, s->mirrored.mid_area_mm2, s->solid.mid_area_mm2, 1e-6, "symmetry: mirror in the root's plane");
}

static bool make_subject(subject *s, uint64_t seed)
{
    sw_sheet_options opt = sw_sheet_options_defaults();
    opt.chord_mm = 0.5;
    s->m = maker_random(&s->t->run, seed, NAN);
    if (!sw_ok(s->t, sw_sheet_fold(&s->t->run, &s->m->piece, &opt, &s->solid))) return false;
    if (!sw_ok(s->t, sw_sheet_unfold(&s->t->run, &s->m->piece, NULL, &s->flat))) return false;
    for (size_t i = 0; i < s->m->piece.bend_count; i++) s->m->bends[i].angle_rad = -s->m->bends[i].angle_rad;
    if (!sw_ok(s->t, sw_sheet_fold(&s->t->run, &s->m->piece, &opt, &s->mirrored))) return false;
    for (size_t i = 0; i < s->m->piece.bend_count; i++) s->m->bends[i].angle_rad = -s->m->bends[i].angle_rad;
    return true;
}

static void every_random_piece_obeys_the_laws_of_folding(sw_test *t)
{
    static bool (*const laws[])(const subject *) = {
        watertight_and_of_the_right_volume, the_middle_differs_from_the_flat_by_the_factor_alone,
        free_edges_are_as_long_folded_as_flat, zones_keep_their_distances, turning_every_bend_over_mirrors_the_solid};
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        t->seed = seed;
        size_t keep = sw_arena_mark(t->run.keep), scratch = sw_arena_mark(t->run.scratch);
        subject s = {.t = t};
        if (!make_subject(&s, seed)) return;
        for (size_t i = 0; i < sizeof laws / sizeof *laws; i++)
            if (!sw_true(t, laws[i](&s))) return;
        sw_arena_rewind(t->run.keep, keep);
        sw_arena_rewind(t->run.scratch, scratch);
    }
    t->seed = 0;
}

static void the_middle_keeps_the_flat_area_at_a_factor_of_one_half(sw_test *t)
{
    sw_sheet_options opt = sw_sheet_options_defaults();
    opt.chord_mm = 2.0;
    for (uint64_t seed = 501; seed <= 600; seed++) {
        t->seed = seed;
        size_t mark = sw_arena_mark(t->run.keep);
        maker *m = maker_random(&t->run, seed, 0.5);
        sw_solid solid;
        sw_flat flat;
        if (!sw_ok(t, sw_sheet_fold(&t->run, &m->piece, &opt, &solid))) return;
        if (!sw_ok(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat))) return;
        if (!sw_near(t, solid.mid_area_mm2, flat.area_mm2, 1e-9 * flat.area_mm2, "conservation: K = 0.5")) return;
        sw_arena_rewind(t->run.keep, mark);
    }
    t->seed = 0;
}

SW_TESTS(SW_CASE(every_random_piece_obeys_the_laws_of_folding),
         SW_CASE(the_middle_keeps_the_flat_area_at_a_factor_of_one_half))
