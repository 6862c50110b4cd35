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

/* Number of the face; neighbours of one colour and part share it. */
static uint32_t face_number(solid_canvas *c, uint32_t colour, int32_t part)
{
    const solid_face *last = &c->faces[c->face_count];
    if (c->face_count == 0 || last->colour != colour || last->part != part)
        c->faces[++c->face_count] = (solid_face){colour, part};
    return c->face_count;
}

/* Without branches, so that several pixels go at a time. z: depth of the first pixel, step: its rise a pixel. */
static void fill_row(float *restrict depths, uint32_t *restrict seen, int count, float z, float step, uint32_t face)
{
    for (int i = 0; i < count; i++) {
        float here = z + step * (float)i;
        seen[i] = here > depths[i] ? face : seen[i];
        depths[i] = here > depths[i] ? here : depths[i];
    }
}

/* x of the line a-b at height y; a.y_mm < b.y_mm is the caller's. */
typedef struct side {
    double x, y, slope;
} side;

static side side_of(sw_vec3 a, sw_vec3 b)
{
    return (side){a.x_mm, a.y_mm, b.y_mm > a.y_mm ? (b.x_mm - a.x_mm) / (b.y_mm - a.y_mm) : 0.0};
}

static double side_at(side s, double y)
{
    return s.x + (y - s.y) * s.slope;
}

static void order(sw_vec3 *a, sw_vec3 *b) /* the upper one first */
{
    if (a->y_mm <= b->y_mm) return;
    sw_vec3 keep = *a;
    *a = *b;
    *b = keep;
}

static int first_centre(double edge, int most) /* the first pixel whose middle is not before the edge */
{
    double at = ceil(edge - 0.5);
    return at < 0.0 ? 0 : at > most ? most : (int)at;
}

/* Corners in pixels, with z the depth; per_x, per_y: its rise a pixel. */
static void fill_triangle(solid_canvas *c, sw_vec3 p[3], double per_x, double per_y, uint32_t face)
{
    order(&p[0], &p[1]);
    order(&p[1], &p[2]);
    order(&p[0], &p[1]);
    side whole = side_of(p[0], p[2]), upper = side_of(p[0], p[1]), lower = side_of(p[1], p[2]);
    int end = first_centre(p[2].y_mm, c->rows);
    for (int row = first_centre(p[0].y_mm, c->rows); row < end; row++) {
        double y = row + 0.5, x1 = side_at(whole, y), x2 = side_at(y < p[1].y_mm ? upper : lower, y);
        int from = first_centre(x1 < x2 ? x1 : x2, c->columns), to = first_centre(x1 < x2 ? x2 : x1, c->columns);
        double z = p[0].z_mm + per_y * (y - p[0].y_mm) + per_x * (from + 0.5 - p[0].x_mm);
        size_t at = (size_t)row * (size_t)c->columns + (size_t)from;
        fill_row(c->depths + at, c->seen + at, to - from, (float)z, (float)per_x, face);
    }
}

void solid_fill(solid_canvas *c, const solid_seen *s, int32_t part)
{
    const sw_mesh *mesh = &s->shape->mesh;
    double k = c->pixels_per_mm;
    for (size_t i = 0; i < mesh->triangle_count; i++) {
        if (!solid_faces(s, i)) continue; /* turned away or seen edge on */
        const uint32_t corners[3] = {mesh->triangles[i].a, mesh->triangles[i].b, mesh->triangles[i].c};
        sw_vec3 n = seen_normal(s, i), p[3];
        for (int j = 0; j < 3; j++) {
            sw_vec3 q = s->points[corners[j]];
            p[j] = (sw_vec3){q.x_mm * k, q.y_mm * k, q.z_mm};
        }
        uint32_t face = face_number(c, shade(s->colour, n), part);
        fill_triangle(c, p, -n.x_mm / (n.z_mm * k), -n.y_mm / (n.z_mm * k), face);
    }
}
