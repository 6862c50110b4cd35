/* solid.c: picture of solids in parallel view. Triangles go through a depth buffer (which keeps shade and part),
 * then the sharp edges and outlines are walked and kept where the buffer shows them: lines stay lines on paper. */
#include "papers/papers_parts.h"
#include "papers/solid_parts.h"

#include <math.h>
#include <string.h>

solid_view solid_view_stove(void)
{
    return (solid_view){{0.52, -0.80, 0.40}, {0.0, 0.0, 1.0}};
}
solid_view solid_view_piece(void)
{
    return (solid_view){{0.55, -0.62, 0.60}, {0.0, 0.0, 1.0}};
}

static solid_axes axes_of(solid_view view)
{
    solid_axes a;
    a.near = sw_vec3_unit(view.towards_viewer);
    a.right = sw_vec3_unit(sw_vec3_cross(view.up, a.near));
    a.up = sw_vec3_cross(a.near, a.right);
    return a;
}

/* A direction of the world in the frame's own axes. */
static sw_vec3 inside_frame(sw_frame f, sw_vec3 d)
{
    return (sw_vec3){sw_vec3_dot(f.x, d), sw_vec3_dot(f.y, d), sw_vec3_dot(f.z, d)};
}

static sw_status look_at(sw_run *run, const solid_part *part, const solid_axes *axes, solid_seen *out)
{
    const sw_mesh *mesh = &part->mesh;
    sw_vec3 *points = SW_SCRATCH(run, mesh->point_count + 1, sw_vec3);
    if (points == NULL) return SW_NO_MEMORY;
    sw_vec3 right = inside_frame(part->frame, axes->right), up = inside_frame(part->frame, axes->up),
            near = inside_frame(part->frame, axes->near), o = sw_vec3_add(part->frame.origin, part->shift_mm);
    double x_mm = sw_vec3_dot(o, axes->right), y_mm = sw_vec3_dot(o, axes->up), z_mm = sw_vec3_dot(o, axes->near);
    for (size_t i = 0; i < mesh->point_count; i++) {
        sw_vec3 p = mesh->points[i];
        points[i] = (sw_vec3){x_mm + sw_vec3_dot(p, right), y_mm + sw_vec3_dot(p, up), z_mm + sw_vec3_dot(p, near)};
    }
    *out = (solid_seen){points, mesh->point_count, part->shape, right, up, near, part->colour};
    return SW_OK;
}

static void extend(sw_box *box, const solid_seen *s)
{
    for (size_t i = 0; i < s->point_count; i++) {
        sw_vec3 p = s->points[i];
        box->x0_mm = p.x_mm < box->x0_mm ? p.x_mm : box->x0_mm;
        box->y0_mm = p.y_mm < box->y0_mm ? p.y_mm : box->y0_mm;
        box->x1_mm = p.x_mm > box->x1_mm ? p.x_mm : box->x1_mm;
        box->y1_mm = p.y_mm > box->y1_mm ? p.y_mm : box->y1_mm;
    }
}

/* Page millimetres from the picture's top left, y down; depth keeps the world's millimetres times the scale. */
static void to_page(const solid_seen *s, sw_box box, double scale)
{
    for (size_t i = 0; i < s->point_count; i++) {
        sw_vec3 p = s->points[i];
        s->points[i] = (sw_vec3){(p.x_mm - box.x0_mm) * scale, (box.y1_mm - p.y_mm) * scale, p.z_mm * scale};
    }
}

static sw_status canvas_open(sw_run *run, const solid_picture *p, double pixels_per_mm, solid_canvas *c)
{
    c->columns = (int)ceil(p->width_mm * pixels_per_mm) + 2;
    c->rows = (int)ceil(p->height_mm * pixels_per_mm) + 2;
    c->pixels_per_mm = pixels_per_mm;
    size_t count = (size_t)c->columns * (size_t)c->rows;
    c->pixels = SW_SCRATCH(run, count, uint32_t);
    c->parts = SW_SCRATCH(run, count, int32_t);
    c->depths = SW_SCRATCH(run, count, float);
    if (c->pixels == NULL || c->parts == NULL || c->depths == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) {
        c->pixels[i] = 0x00ffffffu;
        c->parts[i] = -1;
        c->depths[i] = -INFINITY;
    }
    return SW_OK;
}

sw_status solid_draw(sw_run *run, const solid_part *parts, size_t count, solid_view view, solid_wish wish,
                     solid_picture *out)
{
    *out = (solid_picture){0};
    solid_axes axes = axes_of(view);
    solid_seen *all = SW_SCRATCH(run, count + 1, solid_seen);
    if (all == NULL) return SW_NO_MEMORY;
    sw_box box = {INFINITY, INFINITY, -INFINITY, -INFINITY};
    for (size_t i = 0; i < count; i++) {
        SW_TRY(look_at(run, &parts[i], &axes, &all[i]));
        extend(&box, &all[i]);
    }
    double wide_mm = box.x1_mm - box.x0_mm, high_mm = box.y1_mm - box.y0_mm;
    if (!isfinite(wide_mm) || !isfinite(high_mm) || wide_mm + high_mm <= SW_SHORTEST_MM) return SW_OK;
    out->scale = fmin(wish.width_mm / fmax(wide_mm, SW_SHORTEST_MM), wish.height_mm / fmax(high_mm, SW_SHORTEST_MM));
    out->width_mm = wide_mm * out->scale;
    out->height_mm = high_mm * out->scale;
    solid_canvas canvas;
    SW_TRY(canvas_open(run, out, wish.pixels_per_mm, &canvas));
    for (size_t i = 0; i < count; i++) {
        to_page(&all[i], box, out->scale);
        solid_fill(&canvas, &all[i], (int32_t)i);
    }
    solid_lines lines = {0};
    for (size_t i = 0; i < count; i++) SW_TRY(solid_edges(run, &canvas, &all[i], &lines));
    out->pixels_per_mm = wish.pixels_per_mm;
    out->pixels = (pen_picture){.pixels = canvas.pixels, .columns = canvas.columns, .rows = canvas.rows};
    out->parts = canvas.parts;
    return solid_chains(run, &lines, &out->chains, &out->chain_count);
}

void solid_show(sw_pen *pen, sw_point at, double zoom, const solid_picture *p, double line_mm)
{
    if (p->pixels.columns == 0) return;
    double pixel_mm = zoom / p->pixels_per_mm;
    const pen_paint paint = {.stroke = true, .stroke_ink = look_dark(line_mm)};
    pen_show(pen,
             (sw_box){at.x_mm, at.y_mm, at.x_mm + p->pixels.columns * pixel_mm, at.y_mm + p->pixels.rows * pixel_mm},
             &p->pixels);
    pen->kind->begin(pen);
    for (size_t i = 0; i < p->chain_count; i++) {
        const solid_chain *chain = &p->chains[i];
        for (size_t k = 0; k < chain->count; k++) {
            sw_point q = {at.x_mm + zoom * chain->points[k].x_mm, at.y_mm + zoom * chain->points[k].y_mm};
            if (k == 0)
                pen->kind->move(pen, q);
            else
                pen->kind->line(pen, q);
        }
    }
    pen->kind->paint(pen, &paint);
}

/* Mean of up to four pixels, channel by channel. */
static uint32_t mean_of(const pen_picture *p, int column, int row)
{
    uint32_t sums[3] = {0}, count = 0;
    for (int j = row; j < row + 2 && j < p->rows; j++) {
        for (int i = column; i < column + 2 && i < p->columns; i++, count++) {
            uint32_t pixel = p->pixels[(size_t)j * (size_t)p->columns + (size_t)i];
            for (int k = 0; k < 3; k++) sums[k] += pixel >> (8 * k) & 255u;
        }
    }
    if (count == 0) return 0x00ffffffu;
    return (sums[0] / count) | (sums[1] / count) << 8 | (sums[2] / count) << 16;
}

sw_status solid_softened(sw_run *run, solid_picture *picture)
{
    const pen_picture fine = picture->pixels;
    int columns = (fine.columns + 1) / 2, rows = (fine.rows + 1) / 2;
    uint32_t *pixels = SW_SCRATCH(run, (size_t)columns * (size_t)rows + 1, uint32_t);
    if (pixels == NULL) return SW_NO_MEMORY;
    for (int row = 0; row < rows; row++)
        for (int column = 0; column < columns; column++)
            pixels[(size_t)row * (size_t)columns + (size_t)column] = mean_of(&fine, 2 * column, 2 * row);
    picture->pixels = (pen_picture){.pixels = pixels, .columns = columns, .rows = rows};
    picture->pixels_per_mm /= 2.0;
    return SW_OK;
}

sw_status solid_packed(sw_run *run, solid_picture *picture)
{
    pen_picture *p = &picture->pixels;
    const png_picture plain = {p->pixels, p->columns, p->rows, sizeof *p->pixels * (size_t)p->columns};
    byte_run rows = {0};
    if (p->columns == 0) return SW_OK;
    png_packed *packed = SW_SCRATCH(run, 1, png_packed);
    bool whole = packed != NULL && png_pack(&plain, &rows, packed);
    unsigned char *kept = whole ? sw_scratch(run, rows.used, 1) : NULL;
    if (kept != NULL) {
        memcpy(kept, rows.at, rows.used);
        packed->rows = kept;
        p->packed = packed;
    }
    bytes_free(&rows);
    if (packed != NULL && !whole)
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "picture", "no memory for a picture; allow more memory");
    return kept == NULL ? SW_NO_MEMORY : SW_OK;
}

/* Sums column, row and count of the pixels of each part into sums[count][3]. */
static void sum_up(const solid_picture *p, double (*sums)[3])
{
    for (int row = 0; row < p->pixels.rows; row++) {
        const int32_t *line = p->parts + (size_t)row * (size_t)p->pixels.columns;
        for (int column = 0; column < p->pixels.columns; column++) {
            if (line[column] < 0) continue;
            double *sum = sums[line[column]];
            sum[0] += column;
            sum[1] += row;
            sum[2] += 1.0;
        }
    }
}

static void take_nearest(const solid_picture *p, double (*sums)[3], solid_anchor *anchors)
{
    for (int row = 0; row < p->pixels.rows; row++) {
        const int32_t *line = p->parts + (size_t)row * (size_t)p->pixels.columns;
        for (int column = 0; column < p->pixels.columns; column++) {
            if (line[column] < 0) continue;
            const double *sum = sums[line[column]];
            solid_anchor *a = &anchors[line[column]];
            double dx = column - sum[0] / sum[2], dy = row - sum[1] / sum[2], off = dx * dx + dy * dy;
            if (a->seen && off >= a->off) continue;
            *a = (solid_anchor){true, {(column + 0.5) / p->pixels_per_mm, (row + 0.5) / p->pixels_per_mm}, off};
        }
    }
}

sw_status solid_anchors(sw_run *run, const solid_picture *p, size_t count, const solid_anchor **anchors)
{
    double(*sums)[3] = sw_scratch(run, count + 1, sizeof *sums);
    solid_anchor *all = SW_SCRATCH(run, count + 1, solid_anchor);
    *anchors = all;
    if (sums == NULL || all == NULL) return SW_NO_MEMORY;
    sum_up(p, sums);
    take_nearest(p, sums, all);
    return SW_OK;
}
