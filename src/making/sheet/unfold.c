/* unfold.c: the flat pattern. One walk along the outlines of the face tree stitches one outline. */
#include "making/sheet/sheet_parts.h"

#include <math.h>

typedef struct walk {
    const sw_tree *tree;
    sw_vertex *out;
    size_t count;
} walk;

static sw_point moved(sw_motion m, sw_vertex v)
{
    return sw_motion_point(m, (sw_point){v.x_mm, v.y_mm});
}

/* A point where the last one already lies takes its place: the stretch between them has no length. */
static void emit(walk *w, sw_point p, double bulge)
{
    bool doubled = w->count > 0 && sw_same_point(p, (sw_point){w->out[w->count - 1].x_mm, w->out[w->count - 1].y_mm});
    if (doubled) w->count--;
    w->out[w->count++] = (sw_vertex){p.x_mm, p.y_mm, bulge};
}

/* Walks a face from its open corner round to its closing one; at each bend on the way it crosses the zone, walks
 * the child and comes back. Depth: that of the tree. */
static void walk_face(walk *w, int face)
{
    const sw_tree *tree = w->tree;
    const sw_contour *c = &tree->piece->faces[face].region.outline;
    sw_motion m = tree->faces[face];
    size_t steps = sw_sheet_steps(tree, face);
    for (size_t step = 0; step < steps; step++) {
        size_t i = (tree->open_at[face] + step) % c->n;
        emit(w, moved(m, c->v[i]), c->v[i].bulge);
        for (size_t s = tree->first[face]; s < tree->first[face + 1]; s++) {
            if (tree->seats[s].segment != i) continue;
            const sw_bend *bend = &tree->piece->bends[tree->seats[s].bend];
            emit(w, sw_motion_point(m, bend->from), 0.0);
            walk_face(w, bend->child);
            emit(w, sw_motion_point(m, bend->to), 0.0);
        }
    }
    if (tree->bend_of[face] >= 0) emit(w, moved(m, c->v[tree->close_at[face]]), 0.0);
}

static sw_status walk_outline(sw_run *run, const sw_tree *tree, sw_contour *raw)
{
    size_t most = 0;
    for (size_t f = 0; f < tree->piece->face_count; f++) most += tree->piece->faces[f].region.outline.n + 1;
    walk w = {.tree = tree, .out = SW_SCRATCH(run, most + 2 * tree->piece->bend_count, sw_vertex)};
    if (w.out == NULL) return SW_NO_MEMORY;
    walk_face(&w, 0);
    sw_vertex last = w.out[w.count - 1];
    bool doubled =
        w.count > 2 && sw_same_point((sw_point){last.x_mm, last.y_mm}, (sw_point){w.out[0].x_mm, w.out[0].y_mm});
    if (doubled) w.count--;
    *raw = (sw_contour){w.out, w.count};
    sw_box box = sw_contour_box(*raw);
    for (size_t i = 0; i < w.count; i++) {
        w.out[i].x_mm -= box.x0_mm;
        w.out[i].y_mm -= box.y0_mm;
    }
    for (size_t f = 0; f < tree->piece->face_count; f++) {
        tree->faces[f].dx_mm -= box.x0_mm;
        tree->faces[f].dy_mm -= box.y0_mm;
    }
    return SW_OK;
}

static size_t count_holes(const sw_piece *piece)
{
    size_t count = 0;
    for (size_t f = 0; f < piece->face_count; f++) count += piece->faces[f].region.hole_count;
    for (size_t i = 0; i < piece->bend_count; i++) count += piece->bends[i].hole_count;
    return count;
}

static sw_status move_zone_hole(sw_run *run, const sw_tree *tree, int bend, size_t hole, sw_contour *out)
{
    sw_vertex *room = SW_SCRATCH(run, tree->piece->bends[bend].holes[hole].contour.n, sw_vertex);
    if (room == NULL) return SW_NO_MEMORY;
    return sw_contour_moved(run, sw_sheet_zone_hole(tree, bend, hole, room), sw_sheet_zone_motion(tree, bend), out);
}

static sw_status move_holes(sw_run *run, const sw_tree *tree, sw_region *region)
{
    const sw_piece *piece = tree->piece;
    size_t total = count_holes(piece), count = 0;
    region->holes = NULL;
    region->hole_count = 0;
    if (total == 0) return SW_OK;
    sw_contour *holes = SW_KEEP(run, total, sw_contour);
    if (holes == NULL) return SW_NO_MEMORY;
    for (size_t f = 0; f < piece->face_count; f++)
        for (size_t h = 0; h < piece->faces[f].region.hole_count; h++)
            SW_TRY(sw_contour_moved(run, piece->faces[f].region.holes[h], tree->faces[f], &holes[count++]));
    for (size_t i = 0; i < piece->bend_count; i++)
        for (size_t h = 0; h < piece->bends[i].hole_count; h++)
            SW_TRY(move_zone_hole(run, tree, (int)i, h, &holes[count++]));
    region->holes = holes;
    region->hole_count = total;
    return SW_OK;
}

static sw_flat_bend flat_bend(const sw_tree *tree, int i)
{
    const sw_zone *z = &tree->zones[i];
    sw_motion m = sw_sheet_zone_motion(tree, i);
    sw_flat_bend b = {.bend = &tree->piece->bends[i], .allowance_mm = z->allowance_mm, .k = z->k, .rule = z->rule};
    b.up = b.bend->angle_rad > 0.0;
    b.from = sw_motion_point(m, (sw_point){z->width_mm, z->allowance_mm / 2.0});
    b.to = sw_motion_point(m, (sw_point){0.0, z->allowance_mm / 2.0});
    b.zone[0] = sw_motion_point(m, (sw_point){0.0, 0.0});
    b.zone[1] = sw_motion_point(m, (sw_point){z->width_mm, 0.0});
    b.zone[2] = sw_motion_point(m, (sw_point){z->width_mm, z->allowance_mm});
    b.zone[3] = sw_motion_point(m, (sw_point){0.0, z->allowance_mm});
    return b;
}

static sw_status move_bends(sw_run *run, const sw_tree *tree, sw_flat *flat)
{
    sw_flat_bend *bends = SW_KEEP(run, tree->piece->bend_count, sw_flat_bend);
    if (bends == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < tree->piece->bend_count; i++) {
        bends[i] = flat_bend(tree, (int)i);
        if (tree->zones[i].unruled && flat->unruled == NULL) flat->unruled = bends[i].bend;
    }
    flat->bends = bends;
    flat->bend_count = tree->piece->bend_count;
    return SW_OK;
}

static sw_status move_mark(sw_run *run, const sw_mark *mark, sw_motion m, sw_flat_mark *out)
{
    out->text = mark->text;
    out->at = sw_motion_point(m, mark->at);
    out->height_mm = mark->height_mm;
    out->turn_rad = mark->turn_rad + m.turn_rad;
    out->path = (sw_path){NULL, 0};
    if (mark->path.n == 0) return SW_OK;
    sw_vertex *v = SW_KEEP(run, mark->path.n, sw_vertex);
    if (v == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < mark->path.n; i++) {
        sw_point p = moved(m, mark->path.v[i]);
        v[i] = (sw_vertex){p.x_mm, p.y_mm, mark->path.v[i].bulge};
    }
    out->path = (sw_path){v, mark->path.n};
    return SW_OK;
}

static sw_status move_marks(sw_run *run, const sw_tree *tree, sw_flat *flat)
{
    size_t total = 0, count = 0;
    for (size_t f = 0; f < tree->piece->face_count; f++) total += tree->piece->faces[f].mark_count;
    sw_flat_mark *marks = SW_KEEP(run, total, sw_flat_mark);
    if (marks == NULL) return SW_NO_MEMORY;
    for (size_t f = 0; f < tree->piece->face_count; f++)
        for (size_t i = 0; i < tree->piece->faces[f].mark_count; i++)
            SW_TRY(move_mark(run, &tree->piece->faces[f].marks[i], tree->faces[f], &marks[count++]));
    flat->marks = marks;
    flat->mark_count = total;
    return SW_OK;
}

static sw_status keep_motions(sw_run *run, const sw_tree *tree, sw_flat *flat)
{
    sw_motion *faces = SW_KEEP(run, tree->piece->face_count, sw_motion);
    if (faces == NULL) return SW_NO_MEMORY;
    for (size_t f = 0; f < tree->piece->face_count; f++) faces[f] = tree->faces[f];
    flat->faces = faces;
    return SW_OK;
}

sw_status sw_sheet_unfold_tree(sw_run *run, const sw_tree *tree, sw_flat *flat)
{
    sw_contour raw;
    *flat = (sw_flat){0};
    SW_TRY(walk_outline(run, tree, &raw));
    SW_TRY(sw_contour_tidied(run, raw, &flat->region.outline));
    SW_TRY(move_holes(run, tree, &flat->region));
    SW_TRY(move_bends(run, tree, flat));
    SW_TRY(move_marks(run, tree, flat));
    SW_TRY(keep_motions(run, tree, flat));
    flat->box = sw_contour_box(flat->region.outline);
    flat->area_mm2 = sw_region_area(&flat->region);
    flat->cut_mm = sw_region_length(&flat->region);
    return SW_OK;
}

static sw_status unfold(sw_run *run, const sw_piece *piece, const sw_works *works, sw_flat *flat)
{
    sw_tree tree;
    SW_TRY(sw_sheet_tree(run, piece, works, true, &tree));
    return sw_sheet_unfold_tree(run, &tree, flat);
}

sw_status sw_sheet_unfold(sw_run *run, const sw_piece *piece, const sw_works *works, sw_flat *flat)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = unfold(run, piece, works, flat);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
