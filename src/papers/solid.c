/* solid.c: picture of solids in parallel view. Flat faces go through a depth buffer (which keeps shade and part),
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

typedef struct extent {
    sw_vec3 low, high;
} extent; /* of all points as seen */

static void extend(extent *e, const solid_seen *s)
{
    for (size_t i = 0; i < s->point_count; i++) {
        sw_vec3 p = s->points[i];
        e->low.x_mm = p.x_mm < e->low.x_mm ? p.x_mm : e->low.x_mm;
        e->low.y_mm = p.y_mm < e->low.y_mm ? p.y_mm : e->low.y_mm;
        e->low.z_mm = p.z_mm < e->low.z_mm ? p.z_mm : e->low.z_mm;
        e->high.x_mm = p.x_mm > e->high.x_mm ? p.x_mm : e->high.x_mm;
        e->high.y_mm = p.y_mm > e->high.y_mm ? p.y_mm : e->high.y_mm;
    }
}

/* Page millimetres from the picture's top left, y down; depth from behind all, so that 0 stands for nothing. */
static void to_page(const solid_seen *s, const extent *e, double scale)
{
    for (size_t i = 0; i < s->point_count; i++) {
        sw_vec3 p = s->points[i];
        s->points[i] = (sw_vec3){(p.x_mm - e->low.x_mm) * scale, (e->high.y_mm - p.y_mm) * scale,
                                 (p.z_mm - e->low.z_mm) * scale + 1.0};
    }
}

static int even_above(double pixels)
{
    return 2 * ((int)ceil(pixels) / 2) + 2;
}

/* face_count: at most so many; 0 = the pixels need not tell their faces. */
static sw_status canvas_open(sw_run *run, const solid_picture *p, double pixels_per_mm, size_t face_count,
                             solid_canvas *c)
{
    *c = (solid_canvas){.columns = even_above(p->width_mm * pixels_per_mm),
                        .rows = even_above(p->height_mm * pixels_per_mm),
                        .pixels_per_mm = pixels_per_mm};
    size_t count = (size_t)c->columns * (size_t)c->rows;
    c->seen = SW_SCRATCH(run, count, uint32_t);
    c->depths = SW_SCRATCH(run, count, float);
    c->row_ends = SW_SCRATCH(run, (size_t)c->rows + 1, uint32_t);
    if (c->seen == NULL || c->depths == NULL || c->row_ends == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; face_count == 0 && i < count; i++) c->seen[i] = 0x00ffffffu;
    if (face_count == 0) return SW_OK;
    c->faces = SW_SCRATCH(run, face_count + 1, solid_face);
    return c->faces == NULL ? SW_NO_MEMORY : SW_OK;
}

static sw_status fill_all(sw_run *run, const solid_seen *all, size_t count, solid_wish wish, size_t flats,
                          solid_canvas *canvas, solid_picture *out)
{
    SW_TRY(canvas_open(run, out, wish.pixels_per_mm, flats, canvas));
    for (size_t i = 0; i < count; i++) SW_TRY(solid_fill(run, canvas, &all[i], (int32_t)i));
    out->pixels_per_mm = wish.pixels_per_mm;
    out->pixels = (pen_picture){.pixels = canvas->seen, .columns = canvas->columns, .rows = canvas->rows};
    out->sight.depths = canvas->depths;
    return SW_OK;
}

/* all[count] lies on the page: fills the canvas, finds the lines, reads the canvas off. */
static sw_status draw_all(sw_run *run, const solid_seen *all, size_t count, solid_wish wish, solid_picture *out)
{
    solid_canvas canvas;
    solid_lines lines = {0};
    size_t flats = 0;
    for (size_t i = 0; wish.anchors && i < count; i++) flats += all[i].shape->flat_count;
    SW_TRY(fill_all(run, all, count, wish, flats, &canvas, out));
    for (size_t i = 0; i < count; i++) SW_TRY(solid_edges(run, &canvas, &all[i], &lines));
    if (wish.anchors) SW_TRY(solid_anchors(run, &canvas, count, &out->anchors));
    if (canvas.faces != NULL) solid_colour(&canvas);
    return solid_chains(run, &lines, &out->chains, &out->chain_count);
}

/* Sizes the picture and lays all parts on the page; nothing to see leaves it without size. */
static sw_status set_out(sw_run *run, const solid_part *parts, size_t count, solid_view view, solid_wish wish,
                         solid_seen **seen, solid_picture *out)
{
    *out = (solid_picture){0};
    solid_axes axes = axes_of(view);
    solid_seen *all = SW_SCRATCH(run, count + 1, solid_seen);
    if (all == NULL) return SW_NO_MEMORY;
    *seen = all;
    extent e = {{INFINITY, INFINITY, INFINITY}, {-INFINITY, -INFINITY, -INFINITY}};
    for (size_t i = 0; i < count; i++) {
        SW_TRY(look_at(run, &parts[i], &axes, &all[i]));
        extend(&e, &all[i]);
    }
    double wide_mm = e.high.x_mm - e.low.x_mm, high_mm = e.high.y_mm - e.low.y_mm;
    if (!isfinite(wide_mm) || !isfinite(high_mm) || wide_mm + high_mm <= SW_SHORTEST_MM) return SW_OK;
    out->scale = fmin(wish.width_mm / fmax(wide_mm, SW_SHORTEST_MM), wish.height_mm / fmax(high_mm, SW_SHORTEST_MM));
    out->width_mm = wide_mm * out->scale;
    out->height_mm = high_mm * out->scale;
    out->sight = (solid_sight){axes.right, axes.up, axes.near, e.low.x_mm, e.high.y_mm, e.low.z_mm, NULL};
    for (size_t i = 0; i < count; i++) to_page(&all[i], &e, out->scale);
    return SW_OK;
}

sw_status solid_draw(sw_run *run, const solid_part *parts, size_t count, solid_view view, solid_wish wish,
                     solid_picture *out)
{
    solid_seen *all = NULL;
    SW_TRY(set_out(run, parts, count, view, wish, &all, out));
    return out->scale > 0.0 ? draw_all(run, all, count, wish, out) : SW_OK;
}

sw_status solid_look(sw_run *run, const solid_part *parts, size_t count, solid_view view, solid_wish wish,
                     solid_picture *out)
{
    solid_seen *all = NULL;
    solid_canvas canvas;
    SW_TRY(set_out(run, parts, count, view, wish, &all, out));
    return out->scale > 0.0 ? fill_all(run, all, count, wish, 0, &canvas, out) : SW_OK;
}

sw_point solid_at(const solid_picture *p, sw_vec3 world)
{
    return (sw_point){(sw_vec3_dot(world, p->sight.right) - p->sight.x0_mm) * p->scale,
                      (p->sight.y1_mm - sw_vec3_dot(world, p->sight.up)) * p->scale};
}

bool solid_sees(const solid_picture *p, sw_vec3 world, double slack_mm)
{
    sw_point at = solid_at(p, world);
    double column = floor(at.x_mm * p->pixels_per_mm), row = floor(at.y_mm * p->pixels_per_mm);
    if (!(column >= 0.0 && row >= 0.0 && column < p->pixels.columns && row < p->pixels.rows)) return true;
    double before_mm = (double)p->sight.depths[(size_t)row * (size_t)p->pixels.columns + (size_t)column] - 1.0;
    double depth_mm = (sw_vec3_dot(world, p->sight.near) - p->sight.z0_mm) * p->scale;
    return depth_mm >= before_mm - slack_mm * p->scale;
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
