/* form_body.c: a piece prepared for the press: its zones, outlines as chords, bends by face. */
#include "making/form/form_parts.h"

static const double outline_mm = 0.2; /* chord error of outlines in sections: below the contact that counts. ours */

/* Axes at the bend in the parent's frame: x along the child's x, y out of the parent, z the parent's; origin at `to`. */
static sw_frame bend_axes(const sw_bend *b, double width_mm)
{
    double ux = (b->to.x_mm - b->from.x_mm) / width_mm, uy = (b->to.y_mm - b->from.y_mm) / width_mm;
    return (sw_frame){{-ux, -uy, 0.0}, {uy, -ux, 0.0}, {0.0, 0.0, 1.0}, {b->to.x_mm, b->to.y_mm, 0.0}};
}

static const sw_flat_bend *flat_of(const sw_sheet_piece *s, const sw_bend *b)
{
    for (size_t i = 0; i < s->flat.bend_count; i++)
        if (s->flat.bends[i].bend == b) return &s->flat.bends[i];
    return NULL;
}

static form_zone zone_of(const sw_sheet_piece *s, const sw_bend *b)
{
    const sw_flat_bend *flat = flat_of(s, b);
    form_zone z = {.width_mm = hypot(b->to.x_mm - b->from.x_mm, b->to.y_mm - b->from.y_mm)};
    z.middle_mm = b->radius_mm + s->piece->thickness_mm / 2.0;
    z.angle_rad = fabs(b->angle_rad);
    z.side = b->angle_rad > 0.0 ? 1.0 : -1.0;
    z.allowance_mm = flat == NULL ? z.middle_mm * z.angle_rad : flat->allowance_mm;
    z.rule = flat == NULL ? "" : flat->rule;
    z.axes = bend_axes(b, z.width_mm);
    z.child_flat = form_child_frame(&z, 0.0);
    z.child_bent = form_child_frame(&z, 1.0);
    return z;
}

static sw_status outline_of(sw_run *run, sw_contour c, form_outline *out)
{
    bool arcs = false;
    for (size_t i = 0; i < c.n; i++) arcs = arcs || fabs(c.v[i].bulge) > SW_FLAT_BULGE;
    sw_contour flat = c;
    if (arcs) SW_TRY(sw_contour_flattened(run, c, outline_mm, &flat));
    sw_point *p = SW_SCRATCH(run, flat.n, sw_point);
    if (p == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < flat.n; i++) p[i] = (sw_point){flat.v[i].x_mm, flat.v[i].y_mm};
    *out = (form_outline){p, flat.n};
    return SW_OK;
}

static sw_status outlines(sw_run *run, const sw_piece *p, form_body *body)
{
    form_outline *faces = SW_SCRATCH(run, p->face_count, form_outline);
    int *bend_of = SW_SCRATCH(run, p->face_count, int);
    if (faces == NULL || bend_of == NULL) return SW_NO_MEMORY;
    for (size_t f = 0; f < p->face_count; f++) {
        bend_of[f] = -1;
        SW_TRY(outline_of(run, p->faces[f].region.outline, &faces[f]));
    }
    for (size_t b = 0; b < p->bend_count; b++) bend_of[p->bends[b].child] = (int)b;
    body->faces = faces;
    body->bend_of = bend_of;
    return SW_OK;
}

static sw_status routes(sw_run *run, form_body *body)
{
    uint32_t *route = SW_SCRATCH(run, body->piece->face_count, uint32_t);
    if (route == NULL) return SW_NO_MEMORY;
    body->route = route;
    for (size_t f = 1; f < body->piece->face_count && body->line_count <= FORM_LINES; f++) {
        int bend = body->bend_of[f], line = body->line_of[bend];
        route[f] = route[body->piece->bends[bend].parent] | (line < 0 ? 0u : 1u << line);
    }
    return SW_OK;
}

sw_status form_body_make(sw_run *run, const sw_form_options *opt, const sw_sheet_piece *piece, form_body *body)
{
    const sw_piece *p = piece->piece;
    *body = (form_body){.piece = p, .sheet = piece, .rolls_made = true};
    form_zone *zones = SW_SCRATCH(run, p->bend_count, form_zone);
    if (zones == NULL && p->bend_count > 0) return SW_NO_MEMORY;
    body->slab_room = p->face_count;
    for (size_t b = 0; b < p->bend_count; b++) {
        zones[b] = zone_of(piece, &p->bends[b]);
        body->slab_room += 4 + (size_t)(zones[b].angle_rad / 0.25);
    }
    body->zones = zones;
    SW_TRY(outlines(run, p, body));
    SW_TRY(form_lines(run, opt, body));
    return routes(run, body);
}
