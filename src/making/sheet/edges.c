/* edges.c: the named edges of a folded piece as chains of points with the sheet's normal: outlines and holes of faces,
 * rims, ends and cut-outs of zones. Mid-surface, piece frame. */
#include "making/sheet/sheet_parts.h"

#include <math.h>

typedef struct chain { /* the closed line an edge is a run of, and the part it lies on */
    const sw_edge *edge;
    sw_contour line;
    int part;
    double round_rad, stretch; /* of a zone: angle a mm of its y; its y folded over its y in the flat */
    double outer_mm;
} chain;

static sw_status bad_edge(const sw_edge_tracer *t, const sw_edge *edge)
{
    const sw_piece *p = t->tree->piece;
    return sw_fail(t->run, SW_BAD_INPUT, p->place, edge->name,
                   "%s %s: edge '%s' names no segments of a face or a bent zone", p->number, p->name, edge->name);
}

static sw_status face_line(const sw_edge_tracer *t, const sw_edge *edge, chain *c)
{
    const sw_piece *p = t->tree->piece;
    if (edge->face < 0 || (size_t)edge->face >= p->face_count) return bad_edge(t, edge);
    const sw_region *r = &p->faces[edge->face].region;
    if (edge->hole > r->hole_count) return bad_edge(t, edge);
    c->line = edge->hole == 0 ? r->outline : r->holes[edge->hole - 1];
    c->part = edge->face;
    return SW_OK;
}

static sw_status zone_line(const sw_edge_tracer *t, const sw_edge *edge, chain *c)
{
    const sw_piece *p = t->tree->piece;
    if (edge->zone > p->bend_count || edge->hole > p->bends[edge->zone - 1].hole_count) return bad_edge(t, edge);
    int bend = (int)edge->zone - 1;
    const sw_bend *b = &p->bends[bend];
    const sw_zone *z = &t->tree->zones[bend];
    size_t n = edge->hole == 0 ? 4 : b->holes[edge->hole - 1].contour.n;
    sw_vertex *room = SW_SCRATCH(t->run, n, sw_vertex);
    if (room == NULL) return SW_NO_MEMORY;
    c->line = (sw_contour){room, n};
    if (edge->hole == 0) {
        room[1].x_mm = room[2].x_mm = z->width_mm;
        room[2].y_mm = room[3].y_mm = z->allowance_mm;
    } else
        c->line = sw_sheet_zone_hole(t->tree, bend, edge->hole - 1, room);
    c->part = (int)p->face_count + bend;
    c->round_rad = fabs(b->angle_rad) / z->allowance_mm;
    c->stretch = c->round_rad * z->middle_mm;
    c->outer_mm = b->radius_mm + p->thickness_mm;
    return SW_OK;
}

static sw_status find_line(const sw_edge_tracer *t, const sw_edge *edge, chain *c)
{
    *c = (chain){.edge = edge, .stretch = 1.0};
    SW_TRY(edge->zone == 0 ? face_line(t, edge, c) : zone_line(t, edge, c));
    bool run = edge->first < c->line.n && edge->count > 0 && edge->count <= c->line.n;
    return run ? SW_OK : bad_edge(t, edge);
}

static sw_vertex segment_at(const chain *c, size_t i, sw_point *to)
{
    SW_ASSERT(c->line.n > 0); /* bad_edge has refused the others */
    sw_vertex next = c->line.v[(i + 1) % c->line.n];
    *to = (sw_point){next.x_mm, next.y_mm};
    return c->line.v[i % c->line.n];
}

/* So many that neither the drawn arc nor the bent sheet leaves its chord by more than chord_mm. */
static size_t chords_at(const sw_edge_tracer *t, const chain *c, size_t i)
{
    sw_point to;
    sw_vertex from = segment_at(c, i, &to);
    size_t drawn = sw_sheet_chords(from, to, t->chord_mm);
    if (c->round_rad == 0.0) return drawn;
    double turn_rad =
        c->round_rad * fmax(fabs(to.y_mm - from.y_mm), from.bulge == 0.0 ? 0.0 : sw_segment_length(from, to));
    double step_rad = 2.0 * acos(fmax(0.0, 1.0 - t->chord_mm / c->outer_mm));
    size_t bent = (size_t)ceil(turn_rad / step_rad - 1e-9);
    return bent > drawn ? bent : drawn;
}

/* An arc in a zone keeps its length only where K is 1/2, as in all wide rolls; else it is that of the flat. */
static double folded_length(const chain *c, sw_vertex from, sw_point to)
{
    if (fabs(from.bulge) > SW_FLAT_BULGE) return sw_segment_length(from, to);
    return hypot(to.x_mm - from.x_mm, (to.y_mm - from.y_mm) * c->stretch);
}

static void *room_for(const sw_edge_tracer *t, size_t count, size_t size)
{
    return t->into == t->run->keep ? sw_keep(t->run, count, size) : sw_scratch(t->run, count, size);
}

static sw_status trace(const sw_edge_tracer *t, const chain *c, sw_folded_edge *out)
{
    size_t most = 1, n = 0;
    for (size_t i = c->edge->first; i < c->edge->first + c->edge->count; i++) most += chords_at(t, c, i);
    sw_vec3 *points = room_for(t, most, sizeof *points), *normals = room_for(t, most, sizeof *normals);
    if (points == NULL || normals == NULL) return SW_NO_MEMORY;
    sw_part_axes axes = sw_sheet_part_axes(t->tree, t->frames, c->part);
    *out = (sw_folded_edge){.name = c->edge->name, .points = points, .normals = normals};
    for (size_t i = c->edge->first; i < c->edge->first + c->edge->count; i++) {
        sw_point to;
        sw_vertex from = segment_at(c, i, &to);
        size_t chords = chords_at(t, c, i);
        for (size_t k = n == 0 ? 0 : 1; k <= chords; k++, n++) {
            sw_point p = sw_segment_point(from, to, (double)k / (double)chords);
            points[n] = sw_part_axes_point(&axes, p, 0.0);
            normals[n] = sw_vec3_sub(sw_part_axes_point(&axes, p, 1.0), points[n]);
        }
        out->length_mm += folded_length(c, from, to);
    }
    out->count = n;
    return SW_OK;
}

sw_status sw_sheet_trace(const sw_edge_tracer *t, const sw_edge *edge, sw_folded_edge *out)
{
    chain c;
    SW_TRY(find_line(t, edge, &c));
    return trace(t, &c, out);
}

sw_status sw_sheet_edges(sw_run *run, const sw_tree *tree, const sw_frame *frames, double chord_mm,
                         const sw_folded_edge **edges)
{
    const sw_piece *piece = tree->piece;
    sw_edge_tracer t = {run, run->keep, tree, frames, chord_mm};
    sw_folded_edge *out = SW_KEEP(run, piece->edge_count, sw_folded_edge);
    if (out == NULL) return SW_NO_MEMORY;
    for (size_t e = 0; e < piece->edge_count; e++) SW_TRY(sw_sheet_trace(&t, &piece->edges[e], &out[e]));
    *edges = out;
    return SW_OK;
}
