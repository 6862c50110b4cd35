/* solid_fill.c: fills flat faces row by row into the depth buffer, with Lambert's cosine shading under one light. A row
 * lies inside between its first and second crossing of the borders, its third and fourth, and so on. */
#include "papers/solid_parts.h"

#include <math.h>
#include <string.h>

/* Unit outward normal as seen: x right, y down the page, z near. */
static sw_vec3 seen_normal(const solid_seen *s, const solid_flat *flat)
{
    sw_vec3 n = flat->normal;
    return (sw_vec3){sw_vec3_dot(n, s->right), -sw_vec3_dot(n, s->up), sw_vec3_dot(n, s->near)};
}

static uint32_t shade(sw_ink colour, sw_vec3 normal)
{
    const sw_vec3 light = {-0.35, -0.70, 0.62}; /* from the upper left before the picture */
    double cosine = fmax(0.0, sw_vec3_dot(normal, light));
    double bright = 0.68 + 0.36 * cosine;
    uint32_t r = (uint32_t)(255.0 * fmin(1.0, colour.r * bright)), g = (uint32_t)(255.0 * fmin(1.0, colour.g * bright));
    uint32_t b = (uint32_t)(255.0 * fmin(1.0, colour.b * bright));
    return r << 16 | g << 8 | b;
}

/* What the pixels of the face say: its number, which neighbours of one colour and part share, or just the colour. */
static uint32_t face_mark(solid_canvas *c, uint32_t colour, int32_t part)
{
    if (c->faces == NULL) return colour;
    const solid_face *last = &c->faces[c->face_count];
    if (c->face_count == 0 || last->colour != colour || last->part != part)
        c->faces[++c->face_count] = (solid_face){colour, part};
    return c->face_count;
}

/* Four pixels at a time: without branches. */
typedef float four_depths __attribute__((vector_size(16)));
typedef int32_t four_marks __attribute__((vector_size(16))); /* also all bits or none: where a comparison holds */

/* z: depth of the first pixel, step: its rise a pixel. */
static void fill_span(float *restrict depths, uint32_t *restrict seen, int count, float z, float step, uint32_t mark)
{
    const four_depths rise = {4.0f * step, 4.0f * step, 4.0f * step, 4.0f * step};
    const four_marks mine = {(int32_t)mark, (int32_t)mark, (int32_t)mark, (int32_t)mark};
    four_depths here = {z, z + step, z + 2.0f * step, z + 3.0f * step};
    int i = 0;
    for (; i + 4 <= count; i += 4) {
        four_depths there;
        four_marks marks;
        memcpy(&there, depths + i, sizeof there);
        memcpy(&marks, seen + i, sizeof marks);
        const four_marks nearer = here > there;
        marks = (mine & nearer) | (marks & ~nearer);
        there = (four_depths)(((four_marks)here & nearer) | ((four_marks)there & ~nearer));
        memcpy(depths + i, &there, sizeof there);
        memcpy(seen + i, &marks, sizeof marks);
        here += rise;
    }
    for (int k = 0; i < count; i++, k++) {
        if (!(here[k] > depths[i])) continue;
        depths[i] = here[k];
        seen[i] = mark;
    }
}

/* The first pixel whose middle lies behind the edge, 0 .. most; neighbours agree on it, so none is left out. */
static int first_behind(double edge, int most)
{
    double behind = edge + 0.5;
    behind = behind < most ? behind : most;
    return behind > 0.0 ? (int)behind : 0;
}

/* ---- where the rows cross the borders ---- */

static solid_slope slope_of(const solid_canvas *c, const solid_seen *s, const solid_border *b)
{
    sw_vec3 p = s->points[b->a], q = s->points[b->b];
    sw_vec3 upper = p.y_mm <= q.y_mm ? p : q, lower = p.y_mm <= q.y_mm ? q : p;
    double k = c->pixels_per_mm, y = upper.y_mm * k;
    solid_slope out = {first_behind(y, c->rows), first_behind(lower.y_mm * k, c->rows), upper.x_mm * k, 0.0};
    if (out.from == out.end) return out;
    out.step = (lower.x_mm - upper.x_mm) / (lower.y_mm - upper.y_mm);
    out.x += (out.from + 0.5 - y) * out.step;
    return out;
}

typedef struct rows {
    int from, end;
    size_t slopes; /* that cross them */
} rows;

/* Keeps the slopes, and counts into row_ends, row by row, how many crossings there are up to it; gives the rows that
 * have any. */
static rows count_crossings(const solid_canvas *c, const solid_seen *s, const solid_flat *flat)
{
    rows all = {.from = c->rows};
    const solid_border *borders = s->shape->borders;
    for (uint32_t i = flat->first; i < flat->end; i++) {
        solid_slope l = slope_of(c, s, &borders[i]);
        if (l.from == l.end) continue;
        c->slopes[all.slopes++] = l;
        c->row_ends[l.from]++; /* more and fewer than in the row before, wrapping below 0 */
        c->row_ends[l.end]--;
        all.from = l.from < all.from ? l.from : all.from;
        all.end = l.end > all.end ? l.end : all.end;
    }
    return all;
}

/* From changes a row to where each row begins; gives how many crossings there are. */
static size_t lay_rows(const solid_canvas *c, rows all)
{
    uint32_t here = 0, sum = 0;
    for (int row = all.from; row < all.end; row++) {
        here += c->row_ends[row];
        c->row_ends[row] = sum;
        sum += here;
    }
    return sum;
}

static sw_status slopes_reserve(sw_run *run, solid_canvas *c, size_t count)
{
    if (count <= c->slope_room) return SW_OK;
    c->slope_room = 0;
    c->slopes = SW_SCRATCH(run, 2 * count, solid_slope);
    if (c->slopes == NULL) return SW_NO_MEMORY;
    c->slope_room = 2 * count;
    return SW_OK;
}

static sw_status crossings_reserve(sw_run *run, solid_canvas *c, size_t count)
{
    if (count <= c->crossing_room) return SW_OK;
    c->crossing_room = 0;
    c->crossings = SW_SCRATCH(run, 2 * count, int32_t);
    if (c->crossings == NULL) return SW_NO_MEMORY;
    c->crossing_room = 2 * count;
    return SW_OK;
}

static void enter_crossings(const solid_canvas *c, size_t slopes)
{
    for (size_t i = 0; i < slopes; i++) {
        solid_slope l = c->slopes[i];
        for (int row = l.from; row < l.end; row++) {
            c->crossings[c->row_ends[row]++] = first_behind(l.x, c->columns);
            l.x += l.step;
        }
    }
}

static void sort_crossings(int32_t *x, size_t count) /* two nearly always, else few */
{
    if (count == 2 && x[0] <= x[1]) return;
    for (size_t i = 1; i < count; i++) {
        int32_t here = x[i];
        size_t k = i;
        for (; k > 0 && x[k - 1] > here; k--) x[k] = x[k - 1];
        x[k] = here;
    }
}

/* ---- one flat ---- */

typedef struct plane {
    double at_origin, per_x, per_y;
} plane; /* depth over the picture, pixels */

static plane plane_of(const solid_canvas *c, sw_vec3 point, sw_vec3 normal)
{
    double per_x_mm = -normal.x_mm / normal.z_mm, per_y_mm = -normal.y_mm / normal.z_mm, k = c->pixels_per_mm;
    return (plane){point.z_mm - per_x_mm * point.x_mm - per_y_mm * point.y_mm, per_x_mm / k, per_y_mm / k};
}

static void fill_rows(const solid_canvas *c, rows all, const plane *p, uint32_t mark)
{
    uint32_t first = 0;
    for (int row = all.from; row < all.end; row++) {
        size_t count = c->row_ends[row] - first, at = (size_t)row * (size_t)c->columns;
        int32_t *x = c->crossings + first;
        double z = p->at_origin + p->per_y * (row + 0.5) + p->per_x * 0.5;
        sort_crossings(x, count);
        for (size_t i = 0; i + 1 < count; i += 2) {
            size_t from = (size_t)x[i];
            if (x[i] == x[i + 1]) continue;
            fill_span(c->depths + at + from, c->seen + at + from, x[i + 1] - x[i], (float)(z + p->per_x * x[i]),
                      (float)p->per_x, mark);
        }
        first = c->row_ends[row];
    }
}

static sw_status fill_flat(sw_run *run, solid_canvas *c, const solid_seen *s, const solid_flat *flat, int32_t part)
{
    SW_TRY(slopes_reserve(run, c, flat->end - flat->first));
    rows all = count_crossings(c, s, flat);
    if (all.from >= all.end) return SW_OK;
    SW_TRY(crossings_reserve(run, c, lay_rows(c, all)));
    enter_crossings(c, all.slopes);
    sw_vec3 normal = seen_normal(s, flat);
    const plane depth = plane_of(c, s->points[s->shape->borders[flat->first].a], normal);
    fill_rows(c, all, &depth, face_mark(c, shade(s->colour, normal), part));
    memset(c->row_ends + all.from, 0, (size_t)(all.end + 1 - all.from) * sizeof *c->row_ends);
    return SW_OK;
}

sw_status solid_fill(sw_run *run, solid_canvas *c, const solid_seen *s, int32_t part)
{
    for (size_t i = 0; i < s->shape->flat_count; i++) /* those turned away or seen edge on show nothing */
        if (solid_faces(s, i)) SW_TRY(fill_flat(run, c, s, &s->shape->flats[i], part));
    return SW_OK;
}
