/* tree.c: reads the face tree of a piece: which bend sits where on which outline. Refuses trees that are none. */
#include "making/sheet/sheet_parts.h"

#include <math.h>
#include <stdlib.h>

typedef struct build { /* the tree while it is made */
    sw_run *run;
    const sw_piece *piece;
    sw_seat *seats;
    size_t *first, *open_at, *close_at;
    int *bend_of;
    sw_zone *zones;
    sw_motion *faces;
} build;

bool sw_same_point(sw_point a, sw_point b)
{
    return fabs(a.x_mm - b.x_mm) <= SW_SAME_POINT_MM && fabs(a.y_mm - b.y_mm) <= SW_SAME_POINT_MM;
}

static sw_status bad_bend(build *b, const sw_bend *bend, const char *what)
{
    return sw_fail(b->run, SW_BAD_INPUT, bend->place, bend->name, "%s %s, %s: %s", b->piece->number, b->piece->name,
                   bend->name, what);
}

static sw_status make_room(build *b)
{
    size_t faces = b->piece->face_count, bends = b->piece->bend_count;
    b->seats = SW_SCRATCH(b->run, bends, sw_seat);
    b->zones = SW_SCRATCH(b->run, bends, sw_zone);
    b->first = SW_SCRATCH(b->run, faces + 1, size_t);
    b->open_at = SW_SCRATCH(b->run, faces, size_t);
    b->close_at = SW_SCRATCH(b->run, faces, size_t);
    b->bend_of = SW_SCRATCH(b->run, faces, int);
    b->faces = SW_SCRATCH(b->run, faces, sw_motion);
    bool all = b->seats != NULL && b->zones != NULL && b->first != NULL && b->open_at != NULL && b->close_at != NULL &&
               b->bend_of != NULL && b->faces != NULL;
    return all ? SW_OK : SW_NO_MEMORY;
}

static sw_status check_faces(build *b)
{
    const sw_piece *p = b->piece;
    if (p->face_count == 0 || !(p->thickness_mm > 0.0))
        return sw_fail(b->run, SW_BAD_INPUT, p->place, "thickness",
                       "%s %s: thickness %g mm and %zu faces; needs a "
                       "thickness above 0 and at least one face",
                       p->number, p->name, p->thickness_mm, p->face_count);
    for (size_t f = 0; f < p->face_count; f++) {
        if (p->faces[f].region.outline.n < 2)
            return sw_fail(b->run, SW_BAD_INPUT, p->place, p->faces[f].name, "%s %s: face '%s' has no outline",
                           p->number, p->name, p->faces[f].name);
        b->bend_of[f] = -1;
    }
    return SW_OK;
}

static sw_status check_links(build *b)
{
    int count = (int)b->piece->face_count;
    for (size_t i = 0; i < b->piece->bend_count; i++) {
        const sw_bend *bend = &b->piece->bends[i];
        if (bend->parent < 0 || bend->child <= bend->parent || bend->child >= count)
            return bad_bend(b, bend, "joins no parent face to a later child face");
        if (b->bend_of[bend->child] >= 0) return bad_bend(b, bend, "its child face already hangs on another bend");
        b->bend_of[bend->child] = (int)i;
    }
    for (int f = 1; f < count; f++) {
        if (b->bend_of[f] >= 0) continue;
        return sw_fail(b->run, SW_BAD_INPUT, b->piece->place, b->piece->faces[f].name,
                       "%s %s: face '%s' hangs on no bend", b->piece->number, b->piece->name, b->piece->faces[f].name);
    }
    return SW_OK;
}

static sw_status check_bend(build *b, const sw_bend *bend)
{
    double most_rad = bend->kind == SW_ROLLED ? 2.0 * SW_PI : SW_PI, angle_rad = fabs(bend->angle_rad);
    if (!(bend->radius_mm >= 0.0) || isinf(bend->radius_mm)) return bad_bend(b, bend, "its inside radius is below 0");
    if (!(angle_rad > 0.0 && angle_rad <= most_rad * (1.0 + 1e-12)))
        return bad_bend(b, bend,
                        bend->kind == SW_ROLLED ? "its angle is not within 0 to 360 degrees either way"
                                                : "its angle is not within 0 to 180 degrees either way");
    return SW_OK;
}

/* Where p lies along the segment, mm; NAN when off it. */
static double along_segment(sw_vertex v, sw_point to, sw_point p)
{
    double dx = to.x_mm - v.x_mm, dy = to.y_mm - v.y_mm, length_mm = hypot(dx, dy);
    double t_mm = ((p.x_mm - v.x_mm) * dx + (p.y_mm - v.y_mm) * dy) / length_mm;
    double off_mm = ((p.x_mm - v.x_mm) * dy - (p.y_mm - v.y_mm) * dx) / length_mm;
    bool on = fabs(off_mm) <= SW_SAME_POINT_MM && t_mm >= -SW_SAME_POINT_MM && t_mm <= length_mm + SW_SAME_POINT_MM;
    return on ? t_mm : (double)NAN;
}

static bool find_seat(const sw_contour *outline, const sw_bend *bend, sw_seat *seat)
{
    for (size_t i = 0; i < outline->n; i++) {
        sw_vertex v = outline->v[i], next = outline->v[(i + 1) % outline->n];
        if (fabs(v.bulge) > SW_FLAT_BULGE) continue;
        seat->from_mm = along_segment(v, (sw_point){next.x_mm, next.y_mm}, bend->from);
        seat->to_mm = along_segment(v, (sw_point){next.x_mm, next.y_mm}, bend->to);
        seat->segment = i;
        if (seat->to_mm - seat->from_mm > SW_SHORTEST_MM) return true;
    }
    return false;
}

static size_t find_vertex(const sw_contour *c, sw_point p)
{
    for (size_t i = 0; i < c->n; i++)
        if (sw_same_point((sw_point){c->v[i].x_mm, c->v[i].y_mm}, p)) return i;
    return c->n;
}

/* The child's bend edge: vertices (0,0) and (w,0), nothing but straight segments on y = 0 between them. */
static sw_status find_bend_edge(build *b, const sw_bend *bend, double width_mm)
{
    const sw_contour *c = &b->piece->faces[bend->child].region.outline;
    size_t close = find_vertex(c, (sw_point){0.0, 0.0}), open = find_vertex(c, (sw_point){width_mm, 0.0});
    if (close == c->n || open == c->n)
        return sw_fail(b->run, SW_BAD_INPUT, bend->place, bend->name,
                       "%s %s, %s: face '%s' needs the corners (0, 0) and (%.6g, 0), the ends of the bend",
                       b->piece->number, b->piece->name, bend->name, b->piece->faces[bend->child].name, width_mm);
    for (size_t i = close; i != open; i = (i + 1) % c->n) {
        bool straight = fabs(c->v[i].bulge) <= SW_FLAT_BULGE && fabs(c->v[i].y_mm) <= SW_SAME_POINT_MM;
        if (!straight) return bad_bend(b, bend, "the child's outline does not run straight along the bend");
    }
    b->open_at[bend->child] = open;
    b->close_at[bend->child] = close;
    return SW_OK;
}

static sw_status seat_bends(build *b, const sw_works *works, bool needs_rule)
{
    for (size_t i = 0; i < b->piece->bend_count; i++) {
        const sw_bend *bend = &b->piece->bends[i];
        SW_TRY(check_bend(b, bend));
        b->seats[i].face = bend->parent;
        b->seats[i].bend = (int)i;
        if (!find_seat(&b->piece->faces[bend->parent].region.outline, bend, &b->seats[i]))
            return bad_bend(b, bend, "its ends lie on no straight edge of the parent face, in outline direction");
        b->zones[i].width_mm = hypot(bend->to.x_mm - bend->from.x_mm, bend->to.y_mm - bend->from.y_mm);
        SW_TRY(sw_sheet_rule(b->run, b->piece, bend, works, needs_rule, &b->zones[i]));
        if (b->zones[i].allowance_mm < SW_SHORTEST_MM) return bad_bend(b, bend, "its developed length is 0");
        SW_TRY(find_bend_edge(b, bend, b->zones[i].width_mm));
    }
    return SW_OK;
}

static int compare_seats(const void *left, const void *right)
{
    const sw_seat *a = left, *b = right;
    if (a->face != b->face) return a->face < b->face ? -1 : 1;
    if (a->segment != b->segment) return a->segment < b->segment ? -1 : 1;
    if (a->from_mm != b->from_mm) return a->from_mm < b->from_mm ? -1 : 1;
    return 0;
}

/* Whether the segment lies on the stretch by which the face itself hangs on its parent. */
static bool on_own_bend(const build *b, int face, size_t segment)
{
    if (b->bend_of[face] < 0) return false;
    size_t n = b->piece->faces[face].region.outline.n;
    for (size_t i = b->close_at[face]; i != b->open_at[face]; i = (i + 1) % n)
        if (i == segment) return true;
    return false;
}

static sw_status sort_seats(build *b)
{
    size_t count = b->piece->bend_count;
    qsort(b->seats, count, sizeof *b->seats, compare_seats);
    for (size_t i = 0; i < count; i++) {
        const sw_seat *s = &b->seats[i], *before = i > 0 ? &b->seats[i - 1] : NULL;
        const sw_bend *bend = &b->piece->bends[s->bend];
        b->first[s->face + 1]++;
        if (on_own_bend(b, s->face, s->segment)) return bad_bend(b, bend, "sits on the edge by which its parent hangs");
        bool overlap = before != NULL && before->face == s->face && before->segment == s->segment &&
                       s->from_mm < before->to_mm - SW_SAME_POINT_MM;
        if (overlap) return bad_bend(b, bend, "overlaps another bend on the same edge");
    }
    for (size_t f = 0; f < b->piece->face_count; f++) b->first[f + 1] += b->first[f];
    return SW_OK;
}

size_t sw_sheet_steps(const sw_tree *tree, int face)
{
    size_t n = tree->piece->faces[face].region.outline.n;
    if (tree->bend_of[face] < 0) return n;
    return (tree->close_at[face] + n - tree->open_at[face]) % n;
}

/* The zone lies to the right of from -> to; the child's x runs back along it, its y away from the parent. */
static sw_motion strip_motion(const sw_bend *bend, double out_mm)
{
    double w_mm = hypot(bend->to.x_mm - bend->from.x_mm, bend->to.y_mm - bend->from.y_mm);
    double ux = (bend->to.x_mm - bend->from.x_mm) / w_mm, uy = (bend->to.y_mm - bend->from.y_mm) / w_mm;
    return (sw_motion){
        .turn_rad = atan2(-uy, -ux), .dx_mm = bend->to.x_mm + uy * out_mm, .dy_mm = bend->to.y_mm - ux * out_mm};
}

sw_motion sw_sheet_child_motion(const sw_tree *tree, int bend)
{
    return strip_motion(&tree->piece->bends[bend], tree->zones[bend].allowance_mm);
}

sw_motion sw_sheet_zone_motion(const sw_tree *tree, int bend)
{
    const sw_bend *b = &tree->piece->bends[bend];
    return sw_motion_then(strip_motion(b, 0.0), tree->faces[b->parent]);
}

sw_contour sw_sheet_zone_hole(const sw_tree *tree, int bend, size_t hole, sw_vertex *room)
{
    const sw_bend *b = &tree->piece->bends[bend];
    const sw_zone_hole *h = &b->holes[hole];
    double y_mm = h->angle_rad / fabs(b->angle_rad) * tree->zones[bend].allowance_mm;
    for (size_t i = 0; i < h->contour.n; i++) {
        sw_vertex v = h->contour.v[i];
        room[i] = (sw_vertex){v.x_mm + h->along_mm, v.y_mm + y_mm, v.bulge};
    }
    return (sw_contour){room, h->contour.n};
}

/* A cut-out that reaches out of its zone would have to be cut in the face as well. */
static sw_status check_zone_holes(build *b, const sw_tree *tree)
{
    for (size_t i = 0; i < b->piece->bend_count; i++) {
        const sw_bend *bend = &b->piece->bends[i];
        for (size_t h = 0; h < bend->hole_count; h++) {
            sw_vertex *room = SW_SCRATCH(b->run, bend->holes[h].contour.n, sw_vertex);
            if (room == NULL) return SW_NO_MEMORY;
            sw_box box = sw_contour_box(sw_sheet_zone_hole(tree, (int)i, h, room));
            bool inside = box.x0_mm > SW_SHORTEST_MM && box.y0_mm > SW_SHORTEST_MM &&
                          box.x1_mm < tree->zones[i].width_mm - SW_SHORTEST_MM &&
                          box.y1_mm < tree->zones[i].allowance_mm - SW_SHORTEST_MM;
            if (inside) continue;
            return sw_fail(
                b->run, SW_BAD_INPUT, bend->place, "holes",
                "%s %s, %s: cut-out %zu reaches from (%.3f, %.3f) to (%.3f, %.3f) in a zone of %.3f x %.3f mm; "
                "keep it inside the zone, or turn the rest into a cut-out of the face",
                b->piece->number, b->piece->name, bend->name, h + 1, box.x0_mm, box.y0_mm, box.x1_mm, box.y1_mm,
                tree->zones[i].width_mm, tree->zones[i].allowance_mm);
        }
    }
    return SW_OK;
}

sw_status sw_sheet_tree(sw_run *run, const sw_piece *piece, const sw_works *works, bool needs_rule, sw_tree *tree)
{
    build b = {.run = run, .piece = piece};
    SW_TRY(make_room(&b));
    SW_TRY(check_faces(&b));
    SW_TRY(check_links(&b));
    SW_TRY(seat_bends(&b, works, needs_rule));
    SW_TRY(sort_seats(&b));
    *tree = (sw_tree){piece, b.seats, b.first, b.open_at, b.close_at, b.bend_of, b.zones, b.faces};
    for (size_t f = 1; f < piece->face_count; f++) {
        int bend = b.bend_of[f];
        b.faces[f] = sw_motion_then(sw_sheet_child_motion(tree, bend), b.faces[piece->bends[bend].parent]);
    }
    return check_zone_holes(&b, tree);
}

sw_motion sw_sheet_part_motion(const sw_tree *tree, int part)
{
    int faces = (int)tree->piece->face_count;
    return part < faces ? tree->faces[part] : sw_sheet_zone_motion(tree, part - faces);
}

sw_point sw_motion_back(sw_motion motion, sw_point p)
{
    double c = cos(motion.turn_rad), s = sin(motion.turn_rad), x = p.x_mm - motion.dx_mm, y = p.y_mm - motion.dy_mm;
    return (sw_point){c * x + s * y, c * y - s * x};
}
