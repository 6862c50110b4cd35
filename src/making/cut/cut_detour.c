/* cut_detour.c: a way round what may stand up: shortest way over the corners of the grown hulls of what is in the way
 * (A*: Hart, Nilsson & Raphael 1968, from memory; on a visibility graph, edges tested only when they would help). Tried
 * with the loops the straight way crosses, then with all in the box between the two ends, then with these loops' own
 * corners. */
#include "making/cut/cut_parts.h"

enum { NODES_MAX = 240, HULL_MAX = 256, BLOCKERS_MAX = 16 };

typedef struct graph {
    const cut_danger *danger;
    sw_box sheet;
    double clear_mm;           /* how far a way round keeps from what may stand up */
    sw_point nodes[NODES_MAX]; /* 0 = from, 1 = to */
    size_t count;
    double best_mm[NODES_MAX];
    size_t before[NODES_MAX];
    bool settled[NODES_MAX];
    double limit_mm;
} graph;

/* ---- hulls ---- */

static double turn(sw_point a, sw_point b, sw_point c)
{
    return (b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm);
}

/* Vertices of the path, arcs by points with about 1 mm to the chord. */
static size_t sample_path(const cut_loop *loop, sw_point *out)
{
    size_t count = 0;
    sw_contour path = loop->track->path;
    for (size_t i = 0; i < path.n && count < HULL_MAX; i++) {
        const sw_vertex *next = &path.v[(i + 1) % path.n];
        sw_point to = {next->x_mm, next->y_mm};
        sw_arc arc = sw_segment_arc(path.v[i], to);
        int steps = 1;
        if (isfinite(arc.radius_mm)) {
            double step_rad = arc.radius_mm <= 2 ? SW_PI / 4 : 2 * acos(1 - 1 / arc.radius_mm);
            steps = (int)fmax(1, ceil(fabs(arc.sweep_rad) / step_rad));
        }
        for (int k = 0; k < steps && count < HULL_MAX; k++)
            out[count++] = cut_plus(sw_segment_point(path.v[i], to, (double)k / steps), loop->by);
    }
    return count;
}

static sw_point edge_normal(sw_point a, sw_point b)
{
    double length_mm = cut_distance(a, b);
    return (sw_point){(b.y_mm - a.y_mm) / length_mm, -(b.x_mm - a.x_mm) / length_mm};
}

/* The corner moved out so that both edges move out by clear_mm, at most twice as far itself. */
static sw_point pushed(sw_point before, sw_point corner, sw_point after, double clear_mm)
{
    sw_point n1 = edge_normal(before, corner), n2 = edge_normal(corner, after);
    double dot = n1.x_mm * n2.x_mm + n1.y_mm * n2.y_mm;
    double k = clear_mm / fmax(1 + dot, 0.5);
    return (sw_point){corner.x_mm + k * (n1.x_mm + n2.x_mm), corner.y_mm + k * (n1.y_mm + n2.y_mm)};
}

static bool on_sheet(sw_box sheet, sw_point p)
{
    return p.x_mm >= sheet.x0_mm && p.x_mm <= sheet.x1_mm && p.y_mm >= sheet.y0_mm && p.y_mm <= sheet.y1_mm;
}

static void add_corner(graph *g, sw_point before, sw_point corner, sw_point after)
{
    sw_point p = pushed(before, corner, after, g->clear_mm);
    if (g->count < NODES_MAX && on_sheet(g->sheet, p)) g->nodes[g->count++] = p;
}

static void add_hull(graph *g, const cut_loop *loop)
{
    sw_point points[HULL_MAX] = {{0}}, hull[2 * HULL_MAX] = {{0}};
    size_t n = sw_points_hull(points, sample_path(loop, points), hull);
    if (n < 3) return;
    for (size_t i = 0; i < n; i++) add_corner(g, hull[(i + n - 1) % n], hull[i], hull[(i + 1) % n]);
}

/* The loop's own outward corners: where pieces lie in each other's bays the hulls leave no way. Holes run clockwise. */
static void add_corners(graph *g, const cut_loop *loop)
{
    sw_point points[HULL_MAX] = {{0}};
    size_t n = sample_path(loop, points);
    for (size_t i = 0; i < n; i++) {
        sw_point before = points[(i + n - 1) % n], after = points[(i + 1) % n];
        if (loop->track->contour < 0 && turn(before, points[i], after) > 0) add_corner(g, before, points[i], after);
        if (loop->track->contour >= 0 && turn(after, points[i], before) > 0) add_corner(g, after, points[i], before);
    }
}

/* ---- shortest way ---- */

/* At least how long the way through node i is. */
static double through_mm(const graph *g, size_t i)
{
    return g->best_mm[i] + cut_distance(g->nodes[i], g->nodes[1]);
}

static size_t nearest_open(const graph *g)
{
    size_t best = g->count;
    double best_mm = g->limit_mm;
    for (size_t i = 0; i < g->count; i++) {
        if (g->settled[i] || through_mm(g, i) > best_mm) continue;
        best = i;
        best_mm = through_mm(g, i);
    }
    return best;
}

static void reach_from(graph *g, size_t at)
{
    for (size_t i = 0; i < g->count; i++) {
        double length_mm = g->best_mm[at] + cut_distance(g->nodes[at], g->nodes[i]);
        if (g->settled[i] || length_mm >= g->best_mm[i]) continue;
        if (length_mm + cut_distance(g->nodes[i], g->nodes[1]) > g->limit_mm) continue;
        if (cut_any_crossed(g->danger, g->nodes[at], g->nodes[i])) continue;
        g->best_mm[i] = length_mm;
        g->before[i] = at;
    }
}

static bool shortest(graph *g)
{
    for (size_t i = 0; i < g->count; i++) {
        g->best_mm[i] = i == 0 ? 0 : INFINITY;
        g->settled[i] = false;
    }
    for (;;) {
        size_t at = nearest_open(g);
        if (at == g->count) return false;
        if (at == 1) return true;
        g->settled[at] = true;
        reach_from(g, at);
    }
}

static sw_status way_points(sw_run *run, const graph *g, const sw_point **points, size_t *count)
{
    size_t n = 0;
    for (size_t i = g->before[1]; i != 0; i = g->before[i]) n++;
    sw_point *out = SW_SCRATCH(run, n, sw_point);
    if (out == NULL) return SW_NO_MEMORY;
    size_t k = n;
    for (size_t i = g->before[1]; i != 0; i = g->before[i]) out[--k] = g->nodes[i];
    *points = out;
    *count = n;
    return SW_OK;
}

static bool box_between(const cut_loop *loop, sw_point a, sw_point b)
{
    return loop->box.x0_mm <= fmax(a.x_mm, b.x_mm) && loop->box.x1_mm >= fmin(a.x_mm, b.x_mm) &&
           loop->box.y0_mm <= fmax(a.y_mm, b.y_mm) && loop->box.y1_mm >= fmin(a.y_mm, b.y_mm);
}

typedef enum effort { HULLS_CROSSED, HULLS_BETWEEN, CORNERS_BETWEEN, EFFORTS } effort;

static void add_blockers(graph *g, effort tried)
{
    size_t blockers = 0;
    sw_point a = g->nodes[0], b = g->nodes[1];
    g->count = 2;
    for (size_t i = 0; i < g->danger->count && blockers < BLOCKERS_MAX; i++) {
        const cut_loop *loop = g->danger->loops[i];
        if (tried == HULLS_CROSSED ? !cut_crosses(loop, a, b) : !box_between(loop, a, b)) continue;
        if (tried == CORNERS_BETWEEN)
            add_corners(g, loop);
        else
            add_hull(g, loop);
        blockers++;
    }
}

sw_status cut_detour(sw_run *run, const cut_danger *danger, sw_point a, sw_point b, const sw_point **points,
                     size_t *count)
{
    *points = NULL;
    *count = 0;
    graph *g = SW_SCRATCH(run, 1, graph);
    if (g == NULL) return SW_NO_MEMORY;
    g->danger = danger;
    g->sheet = sw_edges_box(danger->job->sheet);
    g->clear_mm = fmax(2, danger->job->in->row->web_mm / 2); /* ours: middle of the web, at least 2 mm */
    g->nodes[0] = a;
    g->nodes[1] = b;
    g->limit_mm = cut_distance(a, b) + CUT_LIFT_S * danger->job->in->laser->rapid_mm_s; /* longer: lifting is cheaper */
    for (int tried = 0; tried < EFFORTS; tried++) {
        add_blockers(g, (effort)tried);
        if (shortest(g)) return way_points(run, g, points, count);
    }
    return SW_OK;
}
