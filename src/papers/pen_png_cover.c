/* pen_png_cover.c: lines by their distance from each pixel's middle. A pixel half a pixel inside the line's edge is wholly
 * covered, one half a pixel outside is not covered at all, and in between the share is linear: exact for edges along
 * rows and columns (ours). */
#include "papers/pen_png_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

bool png_cover_open(png_cover *c, int columns, int rows)
{
    *c = (png_cover){.shares = calloc((size_t)columns * (size_t)rows, 1), .columns = columns, .rows = rows};
    c->from_row = rows;
    return c->shares != NULL;
}

void png_cover_close(png_cover *c)
{
    free(c->shares);
    *c = (png_cover){0};
}

/* The whole pixels below the value, 0 .. most. */
static int inside(double value, int most)
{
    return value <= 0.0 ? 0 : value >= most ? most : (int)value;
}

void png_cover_reach(png_cover *c, double from_row, double end_row)
{
    int from = inside(from_row, c->rows), end = inside(end_row + 1.0, c->rows);
    if (from < c->from_row) c->from_row = from;
    if (end > c->end_row) c->end_row = end;
}

/* A line along its major axis u, which is x or y; v is the other one. */
typedef struct course {
    unsigned char *shares;
    size_t u_step, v_step; /* bytes to the next pixel */
    int u_count, v_count;
    double u0, v0, du, dv, length; /* start, way and length */
    double reach;                  /* beyond this distance nothing is covered */
} course;

static void cover_pixel(const course *s, int u, int v)
{
    double along = (u + 0.5 - s->u0) * s->du + (v + 0.5 - s->v0) * s->dv; /* du, dv: unit */
    double across = (u + 0.5 - s->u0) * s->dv - (v + 0.5 - s->v0) * s->du;
    double beyond = along < 0.0 ? along : along > s->length ? along - s->length : 0.0;
    double distance = beyond == 0.0 ? fabs(across) : sqrt(across * across + beyond * beyond);
    double share = s->reach - distance;
    if (share <= 0.0) return;
    unsigned char *at = s->shares + (size_t)u * s->u_step + (size_t)v * s->v_step;
    unsigned char here = (unsigned char)(share >= 1.0 ? 255.0 : 255.0 * share + 0.5);
    if (here > *at) *at = here;
}

static void cover_course(const course *s)
{
    double end = s->u0 + s->du * s->length, slope = s->dv / s->du, half = s->reach * sqrt(1.0 + slope * slope);
    int from = inside(fmin(s->u0, end) - s->reach, s->u_count),
        to = inside(fmax(s->u0, end) + s->reach + 1.0, s->u_count);
    for (int u = from; u < to; u++) {
        double v = s->v0 + (u + 0.5 - s->u0) * slope;
        int last = inside(v + half + 1.0, s->v_count);
        for (int k = inside(v - half, s->v_count); k < last; k++) cover_pixel(s, u, k);
    }
}

void png_cover_line(png_cover *c, png_dot a, png_dot b, double width)
{
    double dx = b.x - a.x, dy = b.y - a.y, length = hypot(dx, dy), reach = width / 2.0 + 0.5;
    size_t row = (size_t)c->columns;
    if (!isfinite(length)) return;
    if (length > 0.0) {
        dx /= length;
        dy /= length;
    } else {
        dx = 1.0; /* a dot */
    }
    png_cover_reach(c, fmin(a.y, b.y) - reach - 1.0, fmax(a.y, b.y) + reach + 1.0);
    const course flat = {c->shares, 1, row, c->columns, c->rows, a.x, a.y, dx, dy, length, reach};
    const course steep = {c->shares, row, 1, c->rows, c->columns, a.y, a.x, dy, dx, length, reach};
    cover_course(fabs(dx) >= fabs(dy) ? &flat : &steep);
}

static uint32_t channel(double share)
{
    return (uint32_t)(255.0 * fmin(1.0, fmax(0.0, share)) + 0.5);
}

/* (ink share + ground (255 - share)) / 255, rounded. */
static uint32_t mixed(uint32_t ink, uint32_t ground, uint32_t share)
{
    return (ink * share + ground * (255 - share) + 127) / 255;
}

static void ink_pixel(uint32_t *pixel, const uint32_t ink[3], uint32_t share)
{
    uint32_t r = mixed(ink[0], *pixel >> 16 & 255u, share), g = mixed(ink[1], *pixel >> 8 & 255u, share);
    *pixel = r << 16 | g << 8 | mixed(ink[2], *pixel & 255u, share);
}

static void ink_row(unsigned char *shares, int columns, const uint32_t ink[3], uint32_t *pixels)
{
    enum { AT_ONCE = 32 };
    static const unsigned char nothing[AT_ONCE] = {0};
    for (int x = 0; x < columns; x += AT_ONCE) {
        int count = columns - x < AT_ONCE ? columns - x : AT_ONCE;
        if (memcmp(shares + x, nothing, (size_t)count) == 0) continue;
        for (int i = x; i < x + count; i++)
            if (shares[i] != 0) ink_pixel(&pixels[i], ink, shares[i]);
        memset(shares + x, 0, (size_t)count);
    }
}

void png_cover_ink(png_cover *c, const sw_ink *ink, uint32_t *pixels)
{
    const uint32_t channels[3] = {channel(ink->r), channel(ink->g), channel(ink->b)};
    for (int row = c->from_row; row < c->end_row; row++)
        ink_row(c->shares + (size_t)row * (size_t)c->columns, c->columns, channels,
                pixels + (size_t)row * (size_t)c->columns);
    c->from_row = c->rows;
    c->end_row = 0;
}
