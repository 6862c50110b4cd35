/* scene_throat.c: the smallest plan section beside the lowest baffle. Level cuts through it are ruled with rays. A
 * stretch counts where both of its ends have fire gas before them, neither over nor under the baffle, and hanging
 * together with its edge: an air way in front of it does not. Slits narrower than SLIT_MM (a loose baffle's play at
 * the walls) are closed. */
#include "burning/heat/scene_parts.h"

#include <math.h>
#include <string.h>

#define LINE_MM 4.0  /* between ruled lines, and along them */
#define SLIT_MM 12.0 /* narrower ones are play, not throat; ours */
enum { LEVELS = 5, MOST_HITS = 64 };

typedef struct plan {
    double x_mm, y_mm; /* lower corner */
    size_t columns, rows;
    unsigned char *free;    /* [columns x rows] 1 = open to the gas */
    unsigned char *covered; /* [columns x rows] 1 = over or under the baffle */
} plan;

static const scene_body *lowest_baffle(const scene_job *job)
{
    const scene_body *best = NULL;
    for (size_t i = 0; i < job->body_count; i++) {
        const scene_body *b = &job->bodies[i];
        sw_vec3 low, high;
        if (b->kind != SW_PART_BAFFLE || b->mesh.triangle_count == 0) continue;
        sw_mesh_box(&b->mesh, &low, &high);
        if (low.z_mm <= job->level_mm && job->level_mm <= high.z_mm) best = b;
    }
    return best;
}

/* ---- shadow of the baffle ---- */

static double twice_area(sw_vec3 a, sw_vec3 b, double x, double y)
{
    return (b.x_mm - a.x_mm) * (y - a.y_mm) - (b.y_mm - a.y_mm) * (x - a.x_mm);
}

static void cover_triangle(plan *p, sw_vec3 a, sw_vec3 b, sw_vec3 c)
{
    double x0 = fmin(a.x_mm, fmin(b.x_mm, c.x_mm)), x1 = fmax(a.x_mm, fmax(b.x_mm, c.x_mm));
    double y0 = fmin(a.y_mm, fmin(b.y_mm, c.y_mm)), y1 = fmax(a.y_mm, fmax(b.y_mm, c.y_mm));
    size_t column0 = (size_t)fmax(0.0, floor((x0 - p->x_mm) / LINE_MM)),
           row0 = (size_t)fmax(0.0, floor((y0 - p->y_mm) / LINE_MM));
    for (size_t row = row0; row < p->rows && p->y_mm + (double)row * LINE_MM < y1; row++)
        for (size_t k = column0; k < p->columns && p->x_mm + (double)k * LINE_MM < x1; k++) {
            double x = p->x_mm + ((double)k + 0.5) * LINE_MM, y = p->y_mm + ((double)row + 0.5) * LINE_MM;
            double u = twice_area(a, b, x, y), v = twice_area(b, c, x, y), w = twice_area(c, a, x, y);
            if ((u >= 0.0 && v >= 0.0 && w >= 0.0) || (u <= 0.0 && v <= 0.0 && w <= 0.0))
                p->covered[row * p->columns + k] = 1;
        }
}

static void cover(plan *p, const sw_mesh *m)
{
    for (size_t i = 0; i < m->triangle_count; i++) {
        const sw_triangle *t = &m->triangles[i];
        cover_triangle(p, m->points[t->a], m->points[t->b], m->points[t->c]);
    }
}

/* ---- level cuts ---- */

static bool wets(const scene_job *job, const ray_hit *h, sw_vec3 at)
{
    uint32_t body = job->body_of[h->triangle];
    scene_spot spot = {(float)at.x_mm,
                       (float)at.y_mm,
                       (float)at.z_mm,
                       {(float)h->normal.x_mm, (float)h->normal.y_mm, (float)h->normal.z_mm}};
    return body < job->body_count && scene_inside(job, scene_cell_find(job, body, &spot));
}

static void mark(plan *p, size_t row, double from_mm, double to_mm)
{
    size_t first = (size_t)fmax(0.0, ceil((from_mm - p->x_mm) / LINE_MM - 0.5));
    double end = fmin((double)p->columns, floor((to_mm - p->x_mm) / LINE_MM + 0.5));
    for (size_t k = first; (double)k < end; k++) p->free[row * p->columns + k] = 1;
}

/* From left to right: out of a solid (hit from behind) to into the next (hit from before). */
static void rule_line(const scene_job *job, plan *p, size_t row, double z_mm)
{
    sw_vec3 at = {p->x_mm - LINE_MM, p->y_mm + ((double)row + 0.5) * LINE_MM, z_mm};
    const sw_vec3 right = {1.0, 0.0, 0.0};
    double end_mm = p->x_mm + (double)(p->columns + 1) * LINE_MM, from_mm = (double)NAN;
    for (int i = 0; i < MOST_HITS && at.x_mm < end_mm; i++) {
        ray_hit h = rays_first(job->rays, at, right, end_mm - at.x_mm);
        if (isinf(h.length_mm)) return;
        at.x_mm += h.length_mm;
        bool wet = wets(job, &h, at);
        if (!h.back && wet && isfinite(from_mm)) mark(p, row, from_mm, at.x_mm);
        from_mm = h.back && wet ? at.x_mm : (double)NAN;
        at.x_mm += 1e-2;
    }
}

/* Clears runs shorter than the slit along one axis. */
static void close_slits(unsigned char *line, size_t count, size_t stride)
{
    const size_t least = (size_t)(SLIT_MM / LINE_MM);
    for (size_t i = 0; i < count;) {
        size_t end = i;
        while (end < count && line[end * stride]) end++;
        for (size_t k = i; end - i < least && k < end; k++) line[k * stride] = 0;
        i = end + 1;
    }
}

/* 2 = hangs together with the baffle's edge. Grown from there row by row until nothing changes. */
static bool grow(plan *p, size_t i, size_t k)
{
    size_t at = i * p->columns + k;
    if (p->free[at] != 1) return false;
    bool left = k > 0 && (p->covered[at - 1] || p->free[at - 1] == 2);
    bool right = k + 1 < p->columns && (p->covered[at + 1] || p->free[at + 1] == 2);
    bool before = i > 0 && (p->covered[at - p->columns] || p->free[at - p->columns] == 2);
    bool behind = i + 1 < p->rows && (p->covered[at + p->columns] || p->free[at + p->columns] == 2);
    if (!left && !right && !before && !behind) return false;
    p->free[at] = 2;
    return true;
}

static void find_connected(plan *p)
{
    for (bool changed = true; changed;) {
        changed = false;
        for (size_t i = 0; i < p->rows; i++)
            for (size_t k = 0; k < p->columns; k++) changed |= grow(p, i, k);
        for (size_t i = p->rows; i-- > 0;)
            for (size_t k = p->columns; k-- > 0;) changed |= grow(p, i, k);
    }
}

static double section_m2(const scene_job *job, plan *p, double z_mm)
{
    size_t cells = 0;
    memset(p->free, 0, p->columns * p->rows);
    for (size_t row = 0; row < p->rows; row++) rule_line(job, p, row, z_mm);
    for (size_t i = 0; i < p->columns * p->rows; i++) p->free[i] = p->free[i] && !p->covered[i];
    for (size_t row = 0; row < p->rows; row++) close_slits(p->free + row * p->columns, p->columns, 1);
    for (size_t k = 0; k < p->columns; k++) close_slits(p->free + k, p->rows, p->columns);
    find_connected(p);
    for (size_t i = 0; i < p->columns * p->rows; i++) cells += p->free[i] == 2;
    return sw_m2_from_mm2((double)cells * LINE_MM * LINE_MM);
}

/* Plan of all skins with fire gas before them; not the whole stove's. */
static void frame_plan(const scene_job *job, plan *p)
{
    double x0 = job->high.x_mm, x1 = job->low.x_mm, y0 = job->high.y_mm, y1 = job->low.y_mm;
    for (size_t i = 0; i < job->sample_count; i++) {
        const scene_sample *s = &job->samples[i];
        if (!scene_inside(job, s->cell)) continue;
        x0 = fmin(x0, (double)s->at.x_mm);
        x1 = fmax(x1, (double)s->at.x_mm);
        y0 = fmin(y0, (double)s->at.y_mm);
        y1 = fmax(y1, (double)s->at.y_mm);
    }
    p->x_mm = x0 - 2.0 * LINE_MM;
    p->y_mm = y0;
    p->columns = (size_t)fmax(1.0, ceil((x1 - x0) / LINE_MM) + 4.0);
    p->rows = (size_t)fmax(1.0, ceil((y1 - y0) / LINE_MM) + 1.0);
}

sw_status scene_throat(sw_run *run, const scene_job *job)
{
    sw_scene *s = job->scene;
    const scene_body *baffle = lowest_baffle(job);
    s->throat_m2 = s->throat_height_m = (double)NAN;
    if (baffle == NULL) return SW_OK;
    plan p = {0};
    frame_plan(job, &p);
    p.free = SW_SCRATCH(run, p.columns * p.rows, unsigned char);
    p.covered = SW_SCRATCH(run, p.columns * p.rows, unsigned char);
    if (p.free == NULL || p.covered == NULL) return SW_NO_MEMORY;
    cover(&p, &baffle->mesh);
    sw_vec3 low, high;
    sw_mesh_box(&baffle->mesh, &low, &high);
    for (int i = 0; i < LEVELS; i++) {
        double z_mm = low.z_mm + (high.z_mm - low.z_mm) * (i + 0.5) / LEVELS, area = section_m2(job, &p, z_mm);
        if (!(area > 0.0) || area >= s->throat_m2) continue;
        s->throat_m2 = area;
        s->throat_height_m = sw_m_from_mm(z_mm);
    }
    return SW_OK;
}
