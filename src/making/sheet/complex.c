/* complex.c: the flat as triangles. Faces and zones are triangulated one by one and joined along the tangent lines,
 * where both sides have the same vertices. Zones are cut across so finely that chords stay near the arc. */
#include "making/sheet/sheet_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct joiner {
    sw_run *run;
    const sw_tree *tree;
    double chord_mm;
    sw_node *nodes;
    size_t node_count, node_room;
    sw_triangle *triangles;
    size_t triangle_count, triangle_room;
    size_t *node_first, *part_first; /* nodes of face f; triangles of a part */
} joiner;

typedef struct station { /* a node on a tangent line */
    double along_mm;
    uint32_t node;
} station;

/* ---- plane triangles ---------------------------------------------------------------------- */

static sw_status copy_mesh(sw_run *run, const sw_mesh *m, sw_mesh *out)
{
    sw_vec3 *points = SW_SCRATCH(run, m->point_count, sw_vec3);
    sw_triangle *triangles = SW_SCRATCH(run, m->triangle_count, sw_triangle);
    if (points == NULL || triangles == NULL) return SW_NO_MEMORY;
    memcpy(points, m->points, m->point_count * sizeof *points);
    memcpy(triangles, m->triangles, m->triangle_count * sizeof *triangles);
    *out = (sw_mesh){points, m->point_count, triangles, m->triangle_count};
    return SW_OK;
}

/* Triangles of a region, in run->scratch; what the geometry kept on the way is given back. */
static sw_status triangulate(sw_run *run, const sw_region *r, double chord_mm, double most_y_mm, sw_mesh *out)
{
    size_t mark = sw_arena_mark(run->keep);
    sw_mesh kept;
    sw_status status = sw_region_triangles(run, r, chord_mm, most_y_mm, &kept);
    if (status == SW_OK) status = copy_mesh(run, &kept, out);
    if (status == SW_OK) sw_arena_rewind(run->keep, mark); /* else the error's text lives there */
    return status;
}

/* When triangles fail, says what is wrong with the drawing. */
static sw_status blame_region(joiner *j, const sw_region *r, const char *part, sw_status status)
{
    const char *fault = NULL;
    const sw_piece *p = j->tree->piece;
    if (status == SW_NO_MEMORY || sw_region_fault(j->run, r, &fault) != SW_OK || fault == NULL) return status;
    return sw_fail(j->run, SW_BAD_INPUT, p->place, part, "%s %s, %s: %s; draw it without", p->number, p->name, part,
                   fault);
}

static sw_status add_node(joiner *j, int part, double x_mm, double y_mm)
{
    sw_node *grown = sw_grow(j->run, j->run->scratch, j->nodes, j->node_count, &j->node_room, sizeof *grown);
    if (grown == NULL) return SW_NO_MEMORY;
    j->nodes = grown;
    grown[j->node_count++] = (sw_node){part, {x_mm, y_mm}};
    return SW_OK;
}

/* Takes the mesh's triangles over; map[point] = node. */
static sw_status add_triangles(joiner *j, const sw_mesh *m, const uint32_t *map)
{
    for (size_t i = 0; i < m->triangle_count; i++) {
        sw_triangle t = m->triangles[i];
        sw_triangle *grown =
            sw_grow(j->run, j->run->scratch, j->triangles, j->triangle_count, &j->triangle_room, sizeof *grown);
        if (grown == NULL) return SW_NO_MEMORY;
        j->triangles = grown;
        grown[j->triangle_count++] = (sw_triangle){map[t.a], map[t.b], map[t.c]};
    }
    return SW_OK;
}

/* ---- faces -------------------------------------------------------------------------------- */

static void put_vertex(sw_contour *c, sw_vertex *room, sw_vertex v)
{
    sw_vertex *last = c->n > 0 ? &room[c->n - 1] : NULL;
    bool doubled = last != NULL && sw_same_point((sw_point){last->x_mm, last->y_mm}, (sw_point){v.x_mm, v.y_mm});
    if (doubled) c->n--;
    room[c->n++] = v;
}

/* The face's outline with the ends of its bends as vertices. */
static sw_status outline_with_bends(joiner *j, int face, sw_contour *out)
{
    const sw_tree *tree = j->tree;
    const sw_contour *c = &tree->piece->faces[face].region.outline;
    size_t seats = tree->first[face + 1] - tree->first[face];
    sw_vertex *room = SW_SCRATCH(j->run, c->n + 2 * seats, sw_vertex);
    if (room == NULL) return SW_NO_MEMORY;
    *out = (sw_contour){room, 0};
    for (size_t i = 0; i < c->n; i++) {
        put_vertex(out, room, c->v[i]);
        for (size_t s = tree->first[face]; s < tree->first[face + 1]; s++) {
            if (tree->seats[s].segment != i) continue;
            const sw_bend *b = &tree->piece->bends[tree->seats[s].bend];
            put_vertex(out, room, (sw_vertex){b->from.x_mm, b->from.y_mm, 0.0});
            put_vertex(out, room, (sw_vertex){b->to.x_mm, b->to.y_mm, 0.0});
        }
    }
    sw_vertex first = room[0], last = room[out->n - 1];
    if (out->n > 2 && sw_same_point((sw_point){first.x_mm, first.y_mm}, (sw_point){last.x_mm, last.y_mm})) out->n--;
    return SW_OK;
}

/* A face without depth is just its vertices, each once. */
static sw_status add_line(joiner *j, int face, sw_contour outline)
{
    size_t first = j->node_count;
    for (size_t i = 0; i < outline.n; i++) {
        bool known = false;
        for (size_t k = first; k < j->node_count && !known; k++)
            known = sw_same_point(j->nodes[k].at, (sw_point){outline.v[i].x_mm, outline.v[i].y_mm});
        if (!known) SW_TRY(add_node(j, face, outline.v[i].x_mm, outline.v[i].y_mm));
    }
    return SW_OK;
}

/* Triangles over just the outline's and holes' vertices: by a sweep, by GEOS where it fails. */
static sw_status triangulate_face(joiner *j, const sw_region *r, const char *name, sw_mesh *mesh)
{
    sw_rings rings;
    sw_triangle *triangles = NULL;
    size_t count = 0;
    SW_TRY(sw_sheet_rings(j->run, r, j->chord_mm, &rings));
    SW_TRY(sw_rings_triangulate(j->run, &rings, &triangles, &count));
    if (triangles == NULL) {
        sw_status status = triangulate(j->run, r, j->chord_mm, 0.0, mesh);
        return status == SW_OK ? SW_OK : blame_region(j, r, name, status);
    }
    size_t total = rings.ends[rings.count - 1];
    sw_vec3 *points = SW_SCRATCH(j->run, total, sw_vec3);
    if (points == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < total; i++) points[i] = (sw_vec3){rings.points[i].x_mm, rings.points[i].y_mm, 0.0};
    *mesh = (sw_mesh){points, total, triangles, count};
    return SW_OK;
}

static sw_status add_face(joiner *j, int face)
{
    const sw_face *f = &j->tree->piece->faces[face];
    sw_region r = f->region;
    sw_mesh mesh;
    SW_TRY(outline_with_bends(j, face, &r.outline));
    if (r.outline.n == 2 && fabs(r.outline.v[0].bulge) <= SW_FLAT_BULGE) return add_line(j, face, r.outline);
    if (fabs(sw_contour_area(r.outline)) < SW_SHORTEST_MM * SW_SHORTEST_MM) return add_line(j, face, r.outline);
    SW_TRY(triangulate_face(j, &r, f->name, &mesh));
    uint32_t *map = SW_SCRATCH(j->run, mesh.point_count, uint32_t);
    if (map == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < mesh.point_count; i++) {
        map[i] = (uint32_t)j->node_count;
        SW_TRY(add_node(j, face, mesh.points[i].x_mm, mesh.points[i].y_mm));
    }
    return add_triangles(j, &mesh, map);
}

/* ---- zones -------------------------------------------------------------------------------- */

static int compare_stations(const void *left, const void *right)
{
    double a = ((const station *)left)->along_mm, b = ((const station *)right)->along_mm;
    return (a > b) - (a < b);
}

/* The nodes of a face on a tangent line of the zone, by distance along the child's x. */
static sw_status find_stations(joiner *j, int bend, bool of_child, station **out, size_t *count)
{
    const sw_bend *b = &j->tree->piece->bends[bend];
    int face = of_child ? b->child : b->parent;
    double w_mm = j->tree->zones[bend].width_mm;
    sw_motion strip = {.turn_rad = atan2(b->from.y_mm - b->to.y_mm, b->from.x_mm - b->to.x_mm),
                       .dx_mm = b->to.x_mm,
                       .dy_mm = b->to.y_mm};
    size_t first = j->node_first[face], end = j->node_first[face + 1];
    station *s = SW_SCRATCH(j->run, end - first, station);
    if (s == NULL) return SW_NO_MEMORY;
    size_t n = 0;
    for (size_t k = first; k < end; k++) {
        sw_point p = of_child ? j->nodes[k].at : sw_motion_back(strip, j->nodes[k].at);
        bool on = fabs(p.y_mm) <= 2.0 * SW_SAME_POINT_MM && p.x_mm >= -2.0 * SW_SAME_POINT_MM &&
                  p.x_mm <= w_mm + 2.0 * SW_SAME_POINT_MM;
        if (on) s[n++] = (station){p.x_mm, (uint32_t)k};
    }
    qsort(s, n, sizeof *s, compare_stations);
    if (n < 2)
        return sw_fail(j->run, SW_INTERNAL, b->place, b->name, "%s, %s: %zu corners on a tangent line; needs 2",
                       j->tree->piece->number, b->name, n);
    *out = s;
    *count = n;
    return SW_OK;
}

/* Bands round the bend so that the chord at the outer skin stays within chord_mm. */
static size_t bands_of(double outer_mm, double angle_rad, double chord_mm)
{
    double step_rad = 2.0 * acos(fmax(0.0, 1.0 - chord_mm / outer_mm));
    return (size_t)ceil(fmax(2.0, fabs(angle_rad) / step_rad));
}

/* The zone's border counter-clockwise: along the parent's line, then back along the child's. ring[i] = node. */
static sw_status zone_border(joiner *j, int bend, sw_contour *outline, uint32_t **ring)
{
    const sw_zone *z = &j->tree->zones[bend];
    station *near = NULL, *far = NULL;
    size_t nears = 0, fars = 0;
    SW_TRY(find_stations(j, bend, false, &near, &nears));
    SW_TRY(find_stations(j, bend, true, &far, &fars));
    sw_vertex *v = SW_SCRATCH(j->run, nears + fars, sw_vertex);
    uint32_t *node = SW_SCRATCH(j->run, nears + fars, uint32_t);
    if (v == NULL || node == NULL) return SW_NO_MEMORY;
    near[0].along_mm = far[0].along_mm = 0.0;
    near[nears - 1].along_mm = far[fars - 1].along_mm = z->width_mm;
    for (size_t i = 0; i < nears; i++) {
        v[i] = (sw_vertex){near[i].along_mm, 0.0, 0.0};
        node[i] = near[i].node;
    }
    for (size_t i = 0; i < fars; i++) {
        v[nears + i] = (sw_vertex){far[fars - 1 - i].along_mm, z->allowance_mm, 0.0};
        node[nears + i] = far[fars - 1 - i].node;
    }
    *outline = (sw_contour){v, nears + fars};
    *ring = node;
    return SW_OK;
}

static sw_status zone_region(joiner *j, int bend, sw_region *r, uint32_t **ring)
{
    const sw_bend *b = &j->tree->piece->bends[bend];
    SW_TRY(zone_border(j, bend, &r->outline, ring));
    sw_contour *holes = SW_SCRATCH(j->run, b->hole_count, sw_contour);
    if (holes == NULL) return SW_NO_MEMORY;
    for (size_t h = 0; h < b->hole_count; h++) {
        sw_vertex *room = SW_SCRATCH(j->run, b->holes[h].contour.n, sw_vertex);
        if (room == NULL) return SW_NO_MEMORY;
        holes[h] = sw_sheet_zone_hole(j->tree, bend, h, room);
    }
    r->holes = holes;
    r->hole_count = b->hole_count;
    return SW_OK;
}

/* Bands by slicing, by GEOS where that fails. The border's corners come first. */
static sw_status slice_zone(joiner *j, int bend, const sw_region *r, sw_mesh *mesh)
{
    const sw_bend *b = &j->tree->piece->bends[bend];
    double top_mm = j->tree->zones[bend].allowance_mm;
    size_t bands = bands_of(b->radius_mm + j->tree->piece->thickness_mm, b->angle_rad, j->chord_mm);
    sw_rings rings;
    SW_TRY(sw_sheet_rings(j->run, r, j->chord_mm, &rings));
    SW_TRY(sw_sheet_slice(j->run, &rings, top_mm, bands, mesh));
    if (mesh->points != NULL) return SW_OK;
    sw_status status = triangulate(j->run, r, j->chord_mm, top_mm / (double)bands, mesh);
    return status == SW_OK ? SW_OK : blame_region(j, r, b->name, status);
}

static sw_status add_zone(joiner *j, int bend)
{
    sw_region r;
    sw_mesh mesh;
    uint32_t *ring = NULL;
    SW_TRY(zone_region(j, bend, &r, &ring));
    SW_TRY(slice_zone(j, bend, &r, &mesh));
    uint32_t *map = SW_SCRATCH(j->run, mesh.point_count, uint32_t);
    if (map == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < mesh.point_count; i++) {
        map[i] = i < r.outline.n ? ring[i] : (uint32_t)j->node_count;
        if (i < r.outline.n) continue;
        SW_TRY(add_node(j, (int)j->tree->piece->face_count + bend, mesh.points[i].x_mm, mesh.points[i].y_mm));
    }
    return add_triangles(j, &mesh, map);
}

/* ---- borders ------------------------------------------------------------------------------ */

typedef struct half_edges { /* out of node n: to[first[n]] .. to[first[n+1]-1], each of the part beside it */
    size_t *first;
    uint32_t *to;
    int *part;
} half_edges;

static const uint32_t *corner_of(const sw_triangle *t, int k)
{
    return k == 0 ? &t->a : k == 1 ? &t->b : &t->c;
}

static sw_status list_half_edges(joiner *j, size_t part_count, half_edges *h)
{
    h->first = SW_SCRATCH(j->run, j->node_count + 2, size_t);
    h->to = SW_SCRATCH(j->run, 3 * j->triangle_count, uint32_t);
    h->part = SW_SCRATCH(j->run, 3 * j->triangle_count, int);
    if (h->first == NULL || h->to == NULL || h->part == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < j->triangle_count; i++)
        for (int k = 0; k < 3; k++) h->first[*corner_of(&j->triangles[i], k) + 2]++;
    for (size_t n = 0; n < j->node_count; n++) h->first[n + 2] += h->first[n + 1];
    for (size_t part = 0; part < part_count; part++)
        for (size_t i = j->part_first[part]; i < j->part_first[part + 1]; i++)
            for (int k = 0; k < 3; k++) {
                size_t at = h->first[*corner_of(&j->triangles[i], k) + 1]++;
                h->to[at] = *corner_of(&j->triangles[i], (k + 1) % 3);
                h->part[at] = (int)part;
            }
    return SW_OK;
}

/* The part on the other side of a -> b, -1 = none. */
static int part_across(const half_edges *h, uint32_t a, uint32_t b)
{
    for (size_t i = h->first[b]; i < h->first[b + 1]; i++)
        if (h->to[i] == a) return h->part[i];
    return -1;
}

static sw_status find_rims(joiner *j, size_t part_count, sw_complex *out)
{
    half_edges h = {0};
    SW_TRY(list_half_edges(j, part_count, &h));
    uint32_t *rim = SW_SCRATCH(j->run, 6 * j->triangle_count, uint32_t);
    uint32_t *part_rim = SW_SCRATCH(j->run, 6 * j->triangle_count, uint32_t);
    size_t *first = SW_SCRATCH(j->run, part_count + 1, size_t);
    if (rim == NULL || part_rim == NULL || first == NULL) return SW_NO_MEMORY;
    size_t rims = 0, part_rims = 0;
    for (size_t part = 0; part < part_count; part++) {
        for (size_t i = j->part_first[part]; i < j->part_first[part + 1]; i++)
            for (int k = 0; k < 3; k++) {
                uint32_t a = *corner_of(&j->triangles[i], k), b = *corner_of(&j->triangles[i], (k + 1) % 3);
                int across = part_across(&h, a, b);
                if (across == (int)part) continue;
                memcpy(&part_rim[2 * part_rims++], (uint32_t[2]){a, b}, 2 * sizeof a);
                if (across < 0) memcpy(&rim[2 * rims++], (uint32_t[2]){a, b}, 2 * sizeof a);
            }
        first[part + 1] = part_rims;
    }
    out->rim = rim;
    out->rim_count = rims;
    out->part_rim = part_rim;
    out->part_rim_first = first;
    return SW_OK;
}

sw_status sw_sheet_complex(sw_run *run, const sw_tree *tree, double chord_mm, sw_complex *out)
{
    size_t faces = tree->piece->face_count, parts = faces + tree->piece->bend_count;
    joiner j = {.run = run, .tree = tree, .chord_mm = chord_mm};
    j.node_first = SW_SCRATCH(run, faces + 1, size_t);
    j.part_first = SW_SCRATCH(run, parts + 1, size_t);
    if (j.node_first == NULL || j.part_first == NULL) return SW_NO_MEMORY;
    for (size_t part = 0; part < parts; part++) {
        if (part < faces) SW_TRY(add_face(&j, (int)part));
        if (part < faces) j.node_first[part + 1] = j.node_count;
        if (part >= faces) SW_TRY(add_zone(&j, (int)(part - faces)));
        j.part_first[part + 1] = j.triangle_count;
    }
    *out = (sw_complex){.nodes = j.nodes, .node_count = j.node_count, .triangles = j.triangles};
    out->triangle_count = j.triangle_count;
    out->part_first = j.part_first;
    out->part_count = parts;
    return find_rims(&j, parts, out);
}
