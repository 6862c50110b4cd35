/* rings.c: triangles between straight rings, swept from left to right.
 *
 * The sweep line runs through strips of material, each between two borders. A strip keeps the chain of corners, from its
 * lower border to its upper one, whose right is not yet filled; a corner that comes fills what it sees of the chain with
 * triangles and joins it. Corners of one x come from below, as if the line leaned a little.
 * Method: S. Hertel, K. Mehlhorn, "Fast triangulation of simple polygons" (1983). The triangles are then flipped until
 * Delaunay (rings_flip.c) and proved by their area; where it fails, the caller may ask GEOS. */
#include "geometry/rings_parts.h"

#include <math.h>
#include <stdlib.h>

static const uint32_t none = UINT32_MAX;

typedef struct link { /* a corner in the chain of a strip */
    uint32_t point, below, above;
} link;

typedef struct strip {
    uint32_t low, high;           /* the corners at which its borders end to the right */
    uint32_t bottom, top, newest; /* links of its chain; newest: the rightmost corner */
} strip;

typedef struct sweeper {
    const sw_point *points;
    uint32_t *before, *after, *rank; /* [point_count] neighbours on the ring; place from left to right */
    strip *strips;                   /* in no order */
    size_t strip_count;
    link *links;
    uint32_t link_count;
    sw_triangle *triangles;
    size_t triangle_count, triangle_room;
    bool broken; /* borders that touch or cross: no answer */
} sweeper;

static double cross(sw_point a, sw_point b, sw_point c)
{
    return (b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm);
}

/* ---- chains --------------------------------------------------------------------------------------- */

static void add_triangle(sweeper *w, uint32_t a, uint32_t b, uint32_t c)
{
    w->broken = w->broken || w->triangle_count == w->triangle_room;
    if (!w->broken) w->triangles[w->triangle_count++] = (sw_triangle){a, b, c};
}

static uint32_t new_link(sweeper *w, uint32_t point, uint32_t below, uint32_t above)
{
    uint32_t l = w->link_count++;
    w->links[l] = (link){point, below, above};
    if (below != none) w->links[below].above = l;
    if (above != none) w->links[above].below = l;
    return l;
}

/* Fills what v, right of the chain and below `at`, sees of it upwards; gives the last link seen. */
static uint32_t fill_up(sweeper *w, uint32_t at, uint32_t v)
{
    for (uint32_t next = w->links[at].above; next != none; next = w->links[at].above) {
        uint32_t a = w->links[at].point, b = w->links[next].point;
        if (!(cross(w->points[a], w->points[v], w->points[b]) > 0.0)) break;
        add_triangle(w, a, v, b);
        at = next;
    }
    return at;
}

static uint32_t fill_down(sweeper *w, uint32_t at, uint32_t v)
{
    for (uint32_t next = w->links[at].below; next != none; next = w->links[at].below) {
        uint32_t a = w->links[at].point, b = w->links[next].point;
        if (!(cross(w->points[a], w->points[b], w->points[v]) > 0.0)) break;
        add_triangle(w, a, b, v);
        at = next;
    }
    return at;
}

/* ---- strips --------------------------------------------------------------------------------------- */

static strip *add_strip(sweeper *w, strip s)
{
    w->strips[w->strip_count] = s;
    return &w->strips[w->strip_count++];
}

static void drop_strip(sweeper *w, strip *s)
{
    *s = w->strips[--w->strip_count];
}

static strip *strip_above(const sweeper *w, uint32_t v) /* whose low border ends in v */
{
    for (size_t i = 0; i < w->strip_count; i++)
        if (w->strips[i].low == v) return &w->strips[i];
    return NULL;
}

static strip *strip_below(const sweeper *w, uint32_t v) /* whose high border ends in v */
{
    for (size_t i = 0; i < w->strip_count; i++)
        if (w->strips[i].high == v) return &w->strips[i];
    return NULL;
}

static strip *strip_round(const sweeper *w, uint32_t v)
{
    const sw_point *p = w->points;
    for (size_t i = 0; i < w->strip_count; i++) {
        strip *s = &w->strips[i];
        bool over_low = cross(p[w->links[s->bottom].point], p[s->low], p[v]) > 0.0;
        if (over_low && cross(p[w->links[s->top].point], p[s->high], p[v]) < 0.0) return s;
    }
    return NULL;
}

/* ---- corners, by where their two borders lead ------------------------------------------------------ */

static void start(sweeper *w, uint32_t v)
{
    uint32_t l = new_link(w, v, none, none);
    add_strip(w, (strip){w->after[v], w->before[v], l, l, l});
}

/* Borders open to the right within a strip: the way to its newest corner parts it in two. */
static void split(sweeper *w, uint32_t v)
{
    strip *s = strip_round(w, v);
    w->broken = w->broken || s == NULL;
    if (w->broken) return;
    uint32_t meet = s->newest, above = w->links[meet].above;
    uint32_t again = new_link(w, w->links[meet].point, none, above);
    strip upper = {w->after[v], s->high, none, above == none ? again : s->top, none};
    w->links[meet].above = none;
    s->high = w->before[v];
    s->top = s->newest = new_link(w, v, fill_down(w, meet, v), none);
    upper.bottom = upper.newest = new_link(w, v, none, fill_up(w, again, v));
    add_strip(w, upper);
}

static void go_on_low(sweeper *w, uint32_t v)
{
    strip *s = strip_above(w, v);
    w->broken = w->broken || s == NULL;
    if (w->broken) return;
    s->low = w->after[v];
    s->bottom = s->newest = new_link(w, v, none, fill_up(w, s->bottom, v));
}

static void go_on_high(sweeper *w, uint32_t v)
{
    strip *s = strip_below(w, v);
    w->broken = w->broken || s == NULL;
    if (w->broken) return;
    s->high = w->before[v];
    s->top = s->newest = new_link(w, v, fill_down(w, s->top, v), none);
}

/* Two strips become one. */
static void merge(sweeper *w, uint32_t v)
{
    strip *upper = strip_above(w, v), *lower = strip_below(w, v);
    w->broken = w->broken || upper == NULL || lower == NULL || upper == lower;
    if (w->broken) return;
    uint32_t below = fill_down(w, lower->top, v), above = fill_up(w, upper->bottom, v);
    lower->newest = new_link(w, v, below, above);
    lower->top = upper->top;
    lower->high = upper->high;
    drop_strip(w, upper);
}

static void end(sweeper *w, uint32_t v)
{
    strip *s = strip_above(w, v);
    w->broken = w->broken || s == NULL || s->high != v;
    if (w->broken) return;
    for (uint32_t at = s->bottom, next; (next = w->links[at].above) != none; at = next)
        add_triangle(w, w->links[at].point, v, w->links[next].point);
    drop_strip(w, s);
}

static void meet_corner(sweeper *w, uint32_t v)
{
    bool from_left = w->rank[w->before[v]] < w->rank[v], to_left = w->rank[w->after[v]] < w->rank[v];
    if (from_left != to_left) {
        if (from_left)
            go_on_low(w, v); /* material lies to the left of a border's way */
        else
            go_on_high(w, v);
        return;
    }
    bool convex = cross(w->points[w->before[v]], w->points[v], w->points[w->after[v]]) > 0.0;
    if (from_left && convex)
        end(w, v);
    else if (from_left)
        merge(w, v);
    else if (convex)
        start(w, v);
    else
        split(w, v);
}

/* ---- the whole ------------------------------------------------------------------------------------ */

typedef struct corner {
    sw_point at;
    uint32_t point;
} corner;

static int compare_corners(const void *left, const void *right)
{
    const corner *a = left, *b = right;
    if (a->at.x_mm != b->at.x_mm) return a->at.x_mm < b->at.x_mm ? -1 : 1;
    if (a->at.y_mm != b->at.y_mm) return a->at.y_mm < b->at.y_mm ? -1 : 1;
    return (a->point > b->point) - (a->point < b->point);
}

static void link_rings(sweeper *w, const sw_rings *rings)
{
    for (size_t r = 0; r < rings->count; r++) {
        size_t first = r == 0 ? 0 : rings->ends[r - 1], end = rings->ends[r];
        for (size_t i = first; i < end; i++) {
            uint32_t next = (uint32_t)(i + 1 < end ? i + 1 : first);
            w->after[i] = next;
            w->before[next] = (uint32_t)i;
        }
    }
}

static sw_status sweep(sw_run *run, sweeper *w, const sw_rings *rings)
{
    size_t n = rings->ends[rings->count - 1];
    corner *order = SW_SCRATCH(run, n, corner);
    w->before = SW_SCRATCH(run, n, uint32_t);
    w->after = SW_SCRATCH(run, n, uint32_t);
    w->rank = SW_SCRATCH(run, n, uint32_t);
    w->strips = SW_SCRATCH(run, n, strip);
    w->links = SW_SCRATCH(run, 3 * n, link); /* a split takes three, all others one */
    w->triangle_room = n + 2 * rings->count;
    w->triangles = SW_SCRATCH(run, w->triangle_room, sw_triangle);
    bool all = order != NULL && w->before != NULL && w->after != NULL && w->rank != NULL && w->strips != NULL &&
               w->links != NULL && w->triangles != NULL;
    if (!all) return SW_NO_MEMORY;
    link_rings(w, rings);
    for (size_t i = 0; i < n; i++) order[i] = (corner){rings->points[i], (uint32_t)i};
    qsort(order, n, sizeof *order, compare_corners);
    for (size_t i = 0; i < n; i++) w->rank[order[i].point] = (uint32_t)i;
    for (size_t i = 0; i < n && !w->broken; i++) meet_corner(w, order[i].point);
    w->broken = w->broken || w->strip_count > 0;
    return SW_OK;
}

static double ring_area(const sw_point *p, size_t from, size_t to)
{
    double twice = 0.0;
    for (size_t i = from; i < to; i++) {
        sw_point a = p[i], b = p[i + 1 < to ? i + 1 : from];
        twice += a.x_mm * b.y_mm - b.x_mm * a.y_mm;
    }
    return twice / 2.0;
}

double sw_rings_area(const sw_rings *rings)
{
    double area_mm2 = 0.0;
    for (size_t r = 0; r < rings->count; r++)
        area_mm2 += ring_area(rings->points, r == 0 ? 0 : rings->ends[r - 1], rings->ends[r]);
    return area_mm2;
}

/* The triangles must cover the rings and nothing else. */
static bool covers(const sweeper *w, const sw_rings *rings)
{
    double sum = 0.0, area_mm2 = sw_rings_area(rings);
    for (size_t t = 0; t < w->triangle_count; t++) {
        double twice = cross(w->points[w->triangles[t].a], w->points[w->triangles[t].b], w->points[w->triangles[t].c]);
        if (!(twice > 0.0)) return false;
        sum += twice / 2.0;
    }
    return fabs(sum - area_mm2) <= 1e-9 * (1.0 + area_mm2);
}

sw_status sw_rings_triangulate(sw_run *run, const sw_rings *rings, sw_triangle **triangles, size_t *count)
{
    sweeper w = {.points = rings->points};
    *triangles = NULL;
    *count = 0;
    SW_TRY(sweep(run, &w, rings));
    if (w.broken) return SW_OK;
    SW_TRY(sw_rings_flip(run, rings->points, rings->ends[rings->count - 1], w.triangles, w.triangle_count));
    if (!covers(&w, rings)) return SW_OK;
    *triangles = w.triangles;
    *count = w.triangle_count;
    return SW_OK;
}
