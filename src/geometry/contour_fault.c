/* contour_fault.c: what makes a contour or region unusable, in words.
 *
 * The contours are judged together, check by check: each by itself first, then its edges, then its place among the
 * others. Convex contours cannot cross themselves; a few convex holes whose boxes keep clear of each other and of the
 * outline's edges need only lie inside. For all else the segments of all contours are prepared once, and pairs whose
 * boxes meet are looked at. */
#include "geometry/fault_parts.h"

typedef struct look {
    sw_run *run;
    const sw_contour *contours; /* [count]; of a region: the outline, then its holes */
    size_t count;
    bool region;
    int *turn;             /* [count] as contour_convex */
    const sw_edges *edges; /* of all contours, or of the outline alone */
    size_t *first;         /* [count + 1] of the edges of each contour */
    const char **fault;    /* NULL until one is found */
} look;

/* Of contour k: a region's are named. People count contours, edges and vertices from 1; contour 0 is the outline. */
static sw_status say(const look *l, size_t k, const char *text)
{
    if (text != NULL && l->region)
        text = k == 0 ? sw_text_format(l->run, l->run->keep, "outline: %s", text)
                      : sw_text_format(l->run, l->run->keep, "hole %zu: %s", k, text);
    *l->fault = text;
    return text == NULL ? SW_NO_MEMORY : SW_OK;
}

/* Of the region as a whole. */
static sw_status say_plain(const look *l, const char *text)
{
    *l->fault = text;
    return text == NULL ? SW_NO_MEMORY : SW_OK;
}

/* ---- a contour by itself ------------------------------------------------------------- */

static bool vertex_finite(sw_vertex v)
{
    return isfinite(v.x_mm) && isfinite(v.y_mm) && isfinite(v.bulge);
}

static bool all_straight(sw_contour c)
{
    for (size_t i = 0; i < c.n; i++)
        if (bends(c.v[i].bulge)) return false;
    return true;
}

static sw_status vertex_faults(const look *l, size_t k)
{
    sw_contour c = l->contours[k];
    sw_run *run = l->run;
    if (c.n < 2)
        return say(l, k,
                   sw_text_format(run, run->keep,
                                  "%zu vertices enclose nothing; at least 2 with an arc or 3 are needed", c.n));
    for (size_t i = 0; i < c.n; i++)
        if (!vertex_finite(c.v[i]))
            return say(l, k,
                       sw_text_format(run, run->keep, "vertex %zu is not finite: (%g, %g), bulge %g", i + 1,
                                      c.v[i].x_mm, c.v[i].y_mm, c.v[i].bulge));
    if (c.n == 2 && all_straight(c))
        return say(l, k, sw_text_format(run, run->keep, "2 straight edges enclose nothing; at least 3 are needed"));
    return SW_OK;
}

static sw_status length_faults(const look *l, size_t k)
{
    sw_contour c = l->contours[k];
    for (size_t i = 0; i < c.n; i++) {
        double chord_mm = gap_mm(point_of(c.v[i]), contour_next(c, i));
        if (chord_mm >= SW_SHORTEST_MM) continue;
        double length_mm = sw_segment_length(c.v[i], contour_next(c, i));
        if (length_mm < SW_SHORTEST_MM || chord_mm <= SW_SAME_POINT_MM)
            return say(l, k,
                       sw_text_format(l->run, l->run->keep,
                                      "edge %zu at (%.6g, %.6g) is %.3g mm long; at least %g mm is needed", i + 1,
                                      c.v[i].x_mm, c.v[i].y_mm, length_mm, SW_SHORTEST_MM));
    }
    return SW_OK;
}

/* Whether p is the vertex that edges i and j, neighbours in a contour of n, share. */
static bool is_joint(const segment *edges, size_t i, size_t j, size_t n, sw_point p)
{
    if ((i + 1) % n == j && same_point(p, edges[i].to)) return true;
    return (j + 1) % n == i && same_point(p, edges[j].to);
}

/* Two lines of one corner that opens by more than 0.01 rad meet there and nowhere else: both are at least SW_SHORTEST_MM
 * long, so their far ends are ten times SW_SAME_POINT_MM apart from the other line. */
static bool is_open_corner(const segment *a, const segment *b)
{
    const double least_sin2 = 0.01 * 0.01;
    if (is_arc(a) || is_arc(b)) return is_onward_corner(a, b);
    sw_point u = minus(point_of(a->from), a->to), v = minus(b->to, a->to);
    double opening = cross(u, v);
    return opening * opening > least_sin2 * dot(u, u) * dot(v, v);
}

static sw_status pair_fault(const look *l, size_t k, size_t i, size_t j)
{
    const segment *edges = l->edges->segments + l->first[k];
    if (j == i + 1 && is_open_corner(&edges[i], &edges[j])) return SW_OK;
    if (i == 0 && j + 1 == l->contours[k].n && is_open_corner(&edges[j], &edges[i])) return SW_OK;
    sw_point at[CROSSINGS_MAX];
    size_t count = segments_cross(&edges[i], &edges[j], at);
    for (size_t c = 0; c < count; c++)
        if (!is_joint(edges, i, j, l->contours[k].n, at[c]))
            return say(l, k,
                       sw_text_format(l->run, l->run->keep, "edges %zu and %zu cross or touch at (%.6g, %.6g)", i + 1,
                                      j + 1, at[c].x_mm, at[c].y_mm));
    return SW_OK;
}

static sw_status crossing_faults(const look *l, size_t k)
{
    if (l->turn[k] != 0) return SW_OK;
    size_t first = l->first[k], end = l->first[k + 1];
    const segment *edges = l->edges->segments;
    for (size_t i = first; i < end; i++) {
        edge_walk walk = edge_walk_of(l->edges, box_grown(edges[i].box, SW_SAME_POINT_MM), i + 1, end);
        for (const segment *s; *l->fault == NULL && (s = edge_next(&walk)) != NULL;)
            SW_TRY(pair_fault(l, k, i - first, (size_t)(s - edges) - first));
    }
    return SW_OK;
}

/* Area below what the shortest edge could bound in the contour's box: no sheet is left. */
static sw_status area_faults(const look *l, size_t k)
{
    sw_run *run = l->run;
    if (k == 0 && encloses_plainly(l->contours[k], SW_SAME_POINT_MM)) return SW_OK;
    bool convex = l->turn[k] != 0; /* has an area, and its turn is the sign */
    double area_mm2 = convex ? l->turn[k] : sw_contour_area(l->contours[k]);
    if (!convex && fabs(area_mm2) <= SW_SAME_POINT_MM * sw_contour_length(l->contours[k]))
        return say(l, k, sw_text_format(run, run->keep, "the contour encloses no area (%.3g mm2)", area_mm2));
    if (l->region && k == 0 && area_mm2 < 0.0)
        return say_plain(l,
                         sw_text_format(run, run->keep, "the outline runs clockwise; outlines run counter-clockwise"));
    if (l->region && k > 0 && area_mm2 > 0.0)
        return say_plain(l, sw_text_format(run, run->keep, "hole %zu runs counter-clockwise; holes run clockwise", k));
    return SW_OK;
}

/* ---- contours among each other ------------------------------------------------------- */

static size_t contour_at(const look *l, size_t edge)
{
    size_t low = 0, high = l->count;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (l->first[middle] <= edge)
            low = middle;
        else
            high = middle;
    }
    return low;
}

/* Contours j < k. */
static sw_status say_touch(const look *l, size_t j, size_t k)
{
    sw_run *run = l->run;
    if (j == 0) return say_plain(l, sw_text_format(run, run->keep, "hole %zu crosses or touches the outline", k));
    return say_plain(l, sw_text_format(run, run->keep, "holes %zu and %zu cross or touch", j, k));
}

/* The edges of hole k against those of all contours before it. */
static sw_status touch_faults(const look *l, size_t k)
{
    const segment *edges = l->edges->segments;
    for (size_t i = l->first[k]; i < l->first[k + 1]; i++) {
        edge_walk walk = edge_walk_of(l->edges, box_grown(edges[i].box, SW_SAME_POINT_MM), 0, l->first[k]);
        for (const segment *s; (s = edge_next(&walk)) != NULL;) {
            sw_point at[CROSSINGS_MAX];
            if (segments_cross(&edges[i], s, at) == 0) continue;
            return say_touch(l, contour_at(l, (size_t)(s - edges)), k);
        }
    }
    return SW_OK;
}

static bool lies_in(const look *l, sw_point p, size_t k)
{
    return edges_turns(l->edges, p, l->first[k], l->first[k + 1]) != 0;
}

static sw_status say_misplaced(const look *l, size_t k, sw_point p)
{
    sw_run *run = l->run;
    if (!lies_in(l, p, 0))
        return say_plain(
            l, sw_text_format(run, run->keep, "hole %zu at (%.6g, %.6g) lies outside the outline", k, p.x_mm, p.y_mm));
    size_t other = 1;
    while (other == k || !lies_in(l, p, other)) other++;
    return say_plain(l, sw_text_format(run, run->keep, "holes %zu and %zu lie in each other", other < k ? other : k,
                                       other < k ? k : other));
}

/* Contours that touch nowhere: a hole whose first vertex lies in the outline and in no other hole has its place. The
 * outline turns +1 round it, a hole -1. */
static sw_status place_faults(const look *l, size_t k)
{
    sw_point p = point_of(l->contours[k].v[0]);
    int turns = edges_turns(l->edges, p, 0, l->first[k]) + edges_turns(l->edges, p, l->first[k + 1], l->edges->count);
    return turns == 1 ? SW_OK : say_misplaced(l, k, p);
}

/* ---- the checks in turn -------------------------------------------------------------- */

typedef sw_status check(const look *l, size_t k);

static sw_status check_all(const look *l, size_t from, size_t end, check *const *checks, size_t count)
{
    for (size_t c = 0; c < count; c++)
        for (size_t k = from; k < end; k++)
            if (*l->fault == NULL) SW_TRY(checks[c](l, k));
    return SW_OK;
}

static sw_status see_turns(look *l)
{
    l->turn = SW_SCRATCH(l->run, l->count, int);
    if (l->turn == NULL) return SW_NO_MEMORY;
    for (size_t k = 0; k < l->count; k++) l->turn[k] = contour_convex(l->contours[k]);
    return SW_OK;
}

/* The edges of the first `count` contours. */
static sw_status prepare(look *l, size_t count)
{
    l->first = SW_SCRATCH(l->run, count + 1, size_t);
    if (l->first == NULL) return SW_NO_MEMORY;
    for (size_t k = 0; k < count; k++) l->first[k + 1] = l->first[k] + l->contours[k].n;
    return sw_edges_make(l->run, l->run->scratch, l->contours, count, &l->edges);
}

/* ---- holes told apart by their boxes ------------------------------------------------- */

enum { FEW_HOLES = 48 }; /* each box is compared with all others */

/* Convex, clockwise, and their boxes apart. boxes[hole_count] */
static bool holes_are_plain(const look *l, sw_box boxes[FEW_HOLES])
{
    if (l->count - 1 > FEW_HOLES) return false;
    for (size_t k = 1; k < l->count; k++) {
        if (l->turn[k] != -1) return false;
        boxes[k - 1] = box_grown(contour_cover(l->contours[k]), SW_SAME_POINT_MM);
        for (size_t j = 1; j < k; j++)
            if (boxes_meet(boxes[j - 1], boxes[k - 1])) return false;
    }
    return true;
}

/* No edge of the outline reaches a hole's box, and the hole lies inside. */
static bool holes_are_inside(const look *l, const sw_box boxes[FEW_HOLES])
{
    for (size_t k = 1; k < l->count; k++) {
        edge_walk walk = edge_walk_all(l->edges, boxes[k - 1]);
        if (edge_next(&walk) != NULL) return false;
        if (edges_turns(l->edges, point_of(l->contours[k].v[0]), 0, l->edges->count) != 1) return false;
    }
    return true;
}

static check *const alone[] = {crossing_faults, area_faults};

/* *judged: whether that was enough to tell. */
static sw_status look_at_plain(look *l, bool *judged)
{
    sw_box boxes[FEW_HOLES];
    *judged = false;
    if (!holes_are_plain(l, boxes)) return SW_OK;
    if (l->count > 1 || l->turn[0] == 0) SW_TRY(prepare(l, 1));
    SW_TRY(check_all(l, 0, 1, alone, 2));
    *judged = *l->fault != NULL || holes_are_inside(l, boxes);
    return SW_OK;
}

static sw_status look_at(look *l)
{
    check *const sound[] = {vertex_faults, length_faults}, *const placed[] = {touch_faults, place_faults};
    bool judged;
    SW_TRY(check_all(l, 0, l->count, sound, 2));
    if (*l->fault != NULL) return SW_OK;
    SW_TRY(see_turns(l));
    SW_TRY(look_at_plain(l, &judged));
    if (judged) return SW_OK;
    SW_TRY(prepare(l, l->count));
    SW_TRY(check_all(l, 0, l->count, alone, 2));
    return check_all(l, 1, l->count, placed, 2);
}

sw_status sw_contour_fault(sw_run *run, sw_contour c, const char **fault)
{
    size_t mark = sw_arena_mark(run->scratch);
    *fault = NULL;
    sw_status status = look_at(&(look){.run = run, .contours = &c, .count = 1, .fault = fault});
    sw_arena_rewind(run->scratch, mark);
    return status;
}

static sw_status region_fault(sw_run *run, const sw_region *r, const char **fault)
{
    sw_contour *all = SW_SCRATCH(run, r->hole_count + 1, sw_contour);
    if (all == NULL) return SW_NO_MEMORY;
    all[0] = r->outline;
    for (size_t h = 0; h < r->hole_count; h++) all[h + 1] = r->holes[h];
    look l = {.run = run, .contours = all, .count = r->hole_count + 1, .region = true, .fault = fault};
    return look_at(&l);
}

sw_status sw_region_fault(sw_run *run, const sw_region *r, const char **fault)
{
    size_t mark = sw_arena_mark(run->scratch);
    *fault = NULL;
    sw_status status = region_fault(run, r, fault);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
