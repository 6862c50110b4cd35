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

typedef struct side { /* a line down the picture: x at the row's middle, and its growth a row */
    double x, step;
} side;

static side side_of(sw_vec3 a, sw_vec3 b, int row)
{
    double step = b.y_mm > a.y_mm ? (b.x_mm - a.x_mm) / (b.y_mm - a.y_mm) : 0.0;
    return (side){a.x_mm + (row + 0.5 - a.y_mm) * step, step};
}

static void order(sw_vec3 *a, sw_vec3 *b) /* the upper one first */
{
    if (a->y_mm <= b->y_mm) return;
    sw_vec3 keep = *a;
    *a = *b;
    *b = keep;
}

/* The first pixel whose middle lies behind the edge, 0 .. most; neighbours agree on it, so none is left out. */
static int first_behind(double edge, int most)
{
    double behind = edge + 0.5;
    behind = behind < most ? behind : most;
    return behind > 0.0 ? (int)behind : 0;
}

typedef struct plane {
    double at_origin, per_x, per_y;
} plane; /* depth over the picture, pixels */

/* Between two sides that do not cross within the rows. */
static void fill_rows(solid_canvas *c, side left, side right, int from_row, int end_row, const plane *p, uint32_t face)
{
    double middle = (end_row - from_row - 1) / 2.0, z = p->at_origin + p->per_y * (from_row + 0.5) + p->per_x * 0.5;
    size_t row = (size_t)from_row * (size_t)c->columns;
    if (left.x + middle * left.step > right.x + middle * right.step) {
        side keep = left;
        left = right;
        right = keep;
    }
    for (int i = from_row; i < end_row; i++) {
        int from = first_behind(left.x, c->columns), to = first_behind(right.x, c->columns);
        if (from < to)
            fill_row(c->depths + row + from, c->seen + row + from, to - from, (float)(z + p->per_x * from),
                     (float)p->per_x, face);
        left.x += left.step;
        right.x += right.step;
        z += p->per_y;
        row += (size_t)c->columns;
    }
}

/* Corners in pixels, with z the depth; per_x, per_y: its rise a pixel. */
static void fill_triangle(solid_canvas *c, sw_vec3 p[3], double per_x, double per_y, uint32_t face)
{
    order(&p[0], &p[1]);
    order(&p[1], &p[2]);
    order(&p[0], &p[1]);
    int top = first_behind(p[0].y_mm, c->rows), middle = first_behind(p[1].y_mm, c->rows),
        bottom = first_behind(p[2].y_mm, c->rows);
    if (top == bottom) return;
    const plane depth = {p[0].z_mm - per_x * p[0].x_mm - per_y * p[0].y_mm, per_x, per_y};
    fill_rows(c, side_of(p[0], p[2], top), side_of(p[0], p[1], top), top, middle, &depth, face);
    fill_rows(c, side_of(p[0], p[2], middle), side_of(p[1], p[2], middle), middle, bottom, &depth, face);
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
