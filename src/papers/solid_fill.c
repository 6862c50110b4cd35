/* solid_fill.c: fills triangles row by row into the depth buffer, with Lambert's cosine shading under one light. */
#include "papers/solid_parts.h"

#include <math.h>

/* Unit outward normal as seen: x right, y down the page, z near. */
static sw_vec3 seen_normal(const solid_seen *s, size_t triangle)
{
    sw_vec3 n = s->shape->normals[triangle];
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

/* Where the edge p-q meets the row y: widens low..high. */
static void span(sw_vec3 p, sw_vec3 q, double y, double *low, double *high)
{
    if ((p.y_mm <= y) == (q.y_mm <= y)) return;
    double x = p.x_mm + (q.x_mm - p.x_mm) * (y - p.y_mm) / (q.y_mm - p.y_mm);
    *low = fmin(*low, x);
    *high = fmax(*high, x);
}

typedef struct row_span {
    double low, high, depth, per_x;
} row_span; /* pixels from..to; depth at x = 0 and its rise */

static void fill_row(solid_canvas *c, int row, row_span s, uint32_t colour, int32_t part)
{
    int from = (int)ceil(s.low - 0.5), to = (int)ceil(s.high - 0.5);
    if (from < 0) from = 0;
    if (to > c->columns) to = c->columns;
    size_t base = (size_t)row * (size_t)c->columns;
    for (int column = from; column < to; column++) {
        size_t i = base + (size_t)column;
        float z = (float)(s.depth + s.per_x * (column + 0.5));
        if (z <= c->depths[i]) continue;
        c->depths[i] = z;
        c->pixels[i] = colour;
        c->parts[i] = part;
    }
}

static void fill_triangle(solid_canvas *c, sw_vec3 p[3], sw_vec3 normal, uint32_t colour, int32_t part)
{
    for (int i = 0; i < 3; i++) {
        p[i].x_mm *= c->pixels_per_mm;
        p[i].y_mm *= c->pixels_per_mm;
    }
    /* plane in pixels: n . (x / ppm, y / ppm, z) = n . p0 */
    double per_x = -normal.x_mm / (normal.z_mm * c->pixels_per_mm),
           per_y = -normal.y_mm / (normal.z_mm * c->pixels_per_mm);
    double top = fmin(p[0].y_mm, fmin(p[1].y_mm, p[2].y_mm)), bottom = fmax(p[0].y_mm, fmax(p[1].y_mm, p[2].y_mm));
    int from = (int)ceil(top - 0.5), to = (int)ceil(bottom - 0.5);
    if (from < 0) from = 0;
    if (to > c->rows) to = c->rows;
    for (int row = from; row < to; row++) {
        double y = row + 0.5, low = INFINITY, high = -INFINITY;
        span(p[0], p[1], y, &low, &high);
        span(p[1], p[2], y, &low, &high);
        span(p[2], p[0], y, &low, &high);
        if (low >= high) continue;
        double depth = p[0].z_mm + per_y * (y - p[0].y_mm) - per_x * p[0].x_mm;
        fill_row(c, row, (row_span){low, high, depth, per_x}, colour, part);
    }
}

void solid_fill(solid_canvas *canvas, const solid_seen *s, int32_t part)
{
    const sw_mesh *mesh = &s->shape->mesh;
    for (size_t i = 0; i < mesh->triangle_count; i++) {
        if (!solid_faces(s, i)) continue; /* turned away or seen edge on */
        const sw_triangle *t = &mesh->triangles[i];
        sw_vec3 normal = seen_normal(s, i);
        sw_vec3 corners[3] = {s->points[t->a], s->points[t->b], s->points[t->c]};
        fill_triangle(canvas, corners, normal, shade(s->colour, normal), part);
    }
}
