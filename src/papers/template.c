/* template.c: curvature templates 1:1 for rolled zones: a gauge whose upper edge has the inside radius, to be laid
 * into the shell while it is rolled. Larger ones are tiled on A4 with an overlap; every page carries a bar of 100 mm
 * and the sagittas by which the print and the shell can be checked. */
#include "papers/papers_parts.h"

#include <math.h>

#define WINDOW_X_MM    18.5 /* of a tile on the lying page */
#define WINDOW_Y_MM    44.0
#define WINDOW_WIDE_MM 260.0
#define WINDOW_HIGH_MM 128.0
#define OVERLAP_MM     10.0
#define BODY_MM        32.0 /* below the ends of the arc: enough to hold */

typedef struct gauge {
    double radius_mm, half_rad, chord_mm, sagitta_mm, wide_mm, high_mm;
} gauge;
typedef struct tile {
    sw_box part;
    sw_point at;
} tile; /* part of the gauge (y up); page point of its lower left */

static gauge gauge_of(const sw_flat_bend *bend)
{
    gauge g = {.radius_mm = bend->bend->radius_mm};
    g.chord_mm = sw_roll_template_mm(g.radius_mm, bend->bend->angle_rad);
    g.half_rad = asin(g.chord_mm / (2.0 * g.radius_mm));
    g.sagitta_mm = sw_sagitta_mm(g.radius_mm, g.chord_mm);
    g.wide_mm = g.chord_mm;
    g.high_mm = BODY_MM + g.sagitta_mm;
    return g;
}

/* Cuts a-b to the box (Liang and Barsky 1984); false when nothing is left. */
static bool cut_to_box(sw_box box, sw_point *a, sw_point *b)
{
    double dx = b->x_mm - a->x_mm, dy = b->y_mm - a->y_mm, t0 = 0.0, t1 = 1.0;
    const double rates[4] = {-dx, dx, -dy, dy};
    const double rooms[4] = {a->x_mm - box.x0_mm, box.x1_mm - a->x_mm, a->y_mm - box.y0_mm, box.y1_mm - a->y_mm};
    for (int i = 0; i < 4; i++) {
        if (rates[i] == 0.0 && rooms[i] < 0.0) return false;
        if (rates[i] < 0.0) t0 = fmax(t0, rooms[i] / rates[i]);
        if (rates[i] > 0.0) t1 = fmin(t1, rooms[i] / rates[i]);
    }
    if (t0 > t1) return false;
    sw_point start = *a;
    *a = (sw_point){start.x_mm + t0 * dx, start.y_mm + t0 * dy};
    *b = (sw_point){start.x_mm + t1 * dx, start.y_mm + t1 * dy};
    return true;
}

static sw_point on_tile(const tile *t, sw_point p)
{
    return (sw_point){t->at.x_mm + p.x_mm - t->part.x0_mm, t->at.y_mm - (p.y_mm - t->part.y0_mm)};
}

static void stroke(sw_pen *pen, const tile *t, sw_ink ink, sw_point a, sw_point b)
{
    if (!cut_to_box(t->part, &a, &b)) return;
    sw_pen_line(pen, ink, on_tile(t, a), on_tile(t, b));
}

static sw_point on_arc(const gauge *g, double angle_rad) /* from the middle, to the right positive */
{
    return (sw_point){g->wide_mm / 2.0 + g->radius_mm * sin(angle_rad),
                      g->high_mm - g->radius_mm * (1.0 - cos(angle_rad))};
}

static void show_gauge(sw_pen *pen, const tile *t, const gauge *g)
{
    sw_ink dark = look_dark(0.25), grey = look_grey(0.13);
    int steps = (int)ceil(2.0 * g->half_rad / (2.0 * acos(1.0 - fmin(0.9, 0.005 / g->radius_mm))));
    sw_point last = on_arc(g, -g->half_rad), left = {0.0, 0.0}, right = {g->wide_mm, 0.0};
    stroke(pen, t, dark, left, last);
    for (int i = 1; i <= steps; i++) {
        sw_point next = on_arc(g, g->half_rad * (2.0 * i / steps - 1.0));
        stroke(pen, t, dark, last, next);
        last = next;
    }
    stroke(pen, t, dark, last, right);
    stroke(pen, t, dark, right, left);
    double middle_mm = g->wide_mm / 2.0;
    stroke(pen, t, grey, (sw_point){middle_mm, 0.0}, (sw_point){middle_mm, g->high_mm});
    stroke(pen, t, grey, (sw_point){0.0, BODY_MM}, (sw_point){g->wide_mm, BODY_MM}); /* the chord */
}

static void corner(sw_pen *pen, double x, double y, double dx, double dy)
{
    const sw_point lines[2][2] = {{{x + dx * 1.5, y}, {x + dx * 6.0, y}}, {{x, y + dy * 1.5}, {x, y + dy * 6.0}}};
    pen_lines(pen, look_dark(0.13), lines, 2);
}

static void crop_marks(sw_pen *pen)
{
    double x0 = WINDOW_X_MM, y0 = WINDOW_Y_MM, x1 = x0 + WINDOW_WIDE_MM, y1 = y0 + WINDOW_HIGH_MM;
    corner(pen, x0, y0, -1, -1);
    corner(pen, x1, y0, 1, -1);
    corner(pen, x0, y1, -1, 1);
    corner(pen, x1, y1, 1, 1);
}

static void scale_bar(sw_pen *pen, sw_point at)
{
    for (int i = 0; i < 10; i++) {
        const pen_paint block = {
            .fill = i % 2 == 0, .fill_ink = look_dark(0.0), .stroke = true, .stroke_ink = look_dark(0.1)};
        pen_box(pen, &block, (sw_box){at.x_mm + 10.0 * i, at.y_mm - 1.5, at.x_mm + 10.0 * (i + 1), at.y_mm});
    }
    const sw_point ends[2][2] = {{{at.x_mm, at.y_mm - 4.0}, {at.x_mm, at.y_mm}},
                                 {{at.x_mm + 100.0, at.y_mm - 4.0}, {at.x_mm + 100.0, at.y_mm}}};
    pen_lines(pen, look_dark(0.1), ends, 2);
    pen_write(pen, (sw_point){at.x_mm + 103.0, at.y_mm}, look_type(2.2, SW_LEFT),
              "100 mm: measure this bar; print at 100 %, not fitted to the page");
}

static sw_status page_words(sw_run *run, sw_pen *pen, const sw_piece *piece, const gauge *g, const sw_flat_bend *bend,
                            const char *sheet)
{
    const char *radius = words_number(run, g->radius_mm, 2), *chord = words_number(run, g->chord_mm, 2);
    const char *sagitta = words_number(run, g->sagitta_mm, 2),
               *s100 = words_number(run, sw_sagitta_mm(g->radius_mm, fmin(100.0, g->chord_mm)), 2);
    const char *c100 = words_number(run, fmin(100.0, g->chord_mm), 2);
    if (radius == NULL || chord == NULL || sagitta == NULL || s100 == NULL || c100 == NULL) return SW_NO_MEMORY;
    const char *lines[3] = {
        sw_text_format(run, run->scratch, "%s, inside radius %s mm, %s", bend->bend->name, radius,
                       bend->up ? "rolled up" : "rolled down"),
        sw_text_format(run, run->scratch, "whole template: chord %s mm, check sagitta %s mm at the middle line", chord,
                       sagitta),
        sw_text_format(
            run, run->scratch,
            "over a chord of %s mm anywhere: check sagitta %s mm. Lay the round edge into the shell; light may show nowhere.",
            c100, s100)};
    const char *name = words_within(run, pen, 2.6, false, 150.0, piece->name);
    if (lines[0] == NULL || lines[1] == NULL || lines[2] == NULL || name == NULL) return SW_NO_MEMORY;
    double wide_mm = pen_width(pen, 5.0, true, piece->number);
    pen_write(pen, (sw_point){10.0, 16.0}, look_type_bold(5.0, SW_LEFT), piece->number);
    pen_write(pen, (sw_point){14.0 + wide_mm, 16.0}, look_type(2.6, SW_LEFT), name);
    pen_write(pen, (sw_point){A4_LONG_MM - 10.0, 16.0}, look_type_grey(2.4, SW_RIGHT), sheet);
    sw_pen_line(pen, look_rust(0.5), (sw_point){10.0, 19.0}, (sw_point){A4_LONG_MM - 10.0, 19.0});
    for (int i = 0; i < 3; i++) pen_write(pen, (sw_point){10.0, 24.5 + 4.2 * i}, look_type(2.2, SW_LEFT), lines[i]);
    return SW_OK;
}

typedef struct tiling {
    int index, columns, rows;
} tiling; /* tiles counted row by row from the lower left */

static sw_status one_page(sw_run *run, sw_pen *pen, const sw_piece *piece, const sw_flat_bend *bend, const gauge *g,
                          tiling in)
{
    int column = in.index % in.columns, row = in.index / in.columns, count = in.columns * in.rows;
    double step_x_mm = WINDOW_WIDE_MM - OVERLAP_MM, step_y_mm = WINDOW_HIGH_MM - OVERLAP_MM;
    double x_mm = step_x_mm * column, y_mm = step_y_mm * row;
    tile t = {{x_mm, y_mm, x_mm + WINDOW_WIDE_MM, y_mm + WINDOW_HIGH_MM}, {WINDOW_X_MM, WINDOW_Y_MM + WINDOW_HIGH_MM}};
    const char *sheet =
        count == 1 ? "curvature template 1:1"
                   : sw_text_format(run, run->scratch, "curvature template 1:1, part %d of %d (column %d, row %d)",
                                    in.index + 1, count, column + 1, row + 1);
    if (sheet == NULL) return SW_NO_MEMORY;
    SW_TRY(page_words(run, pen, piece, g, bend, sheet));
    if (count > 1) crop_marks(pen);
    static const double dash_mm[] = {1.5, 1.5};
    sw_ink seam = look_dashed(look_rust(0.13), dash_mm, 2);
    double x1 = WINDOW_X_MM + WINDOW_WIDE_MM, y0 = WINDOW_Y_MM, y1 = y0 + WINDOW_HIGH_MM;
    if (column + 1 < in.columns)
        sw_pen_line(pen, seam, (sw_point){x1 - OVERLAP_MM, y0}, (sw_point){x1 - OVERLAP_MM, y1});
    if (row + 1 < in.rows)
        sw_pen_line(pen, seam, (sw_point){WINDOW_X_MM, y0 + OVERLAP_MM}, (sw_point){x1, y0 + OVERLAP_MM});
    show_gauge(pen, &t, g);
    scale_bar(pen, (sw_point){WINDOW_X_MM, A4_SHORT_MM - 18.0});
    return draw_caution(
        run, pen, (sw_point){10.0, A4_SHORT_MM - 8.0},
        "Overlap the parts at the dashed lines and cut along the outline; glue on board or sheet. Rolls: pinch points, keep hands off the nip; "
        "support the shell.");
}

static int tiles_along(double length_mm, double window_mm)
{
    return length_mm <= window_mm ? 1 : (int)ceil((length_mm - OVERLAP_MM) / (window_mm - OVERLAP_MM) - 1e-9);
}

static bool seen_before(const sw_flat *flat, size_t index)
{
    const sw_bend *bend = flat->bends[index].bend;
    for (size_t i = 0; i < index; i++) {
        const sw_bend *other = flat->bends[i].bend;
        if (other->kind == SW_ROLLED && other->radius_mm == bend->radius_mm &&
            fabs(other->angle_rad) >= fabs(bend->angle_rad))
            return true;
    }
    return false;
}

static sw_status pages(sw_run *run, const sw_sheet_piece *piece, sw_pen *pen)
{
    bool first = true;
    for (size_t i = 0; i < piece->flat.bend_count; i++) {
        const sw_flat_bend *bend = &piece->flat.bends[i];
        if (bend->bend->kind != SW_ROLLED || seen_before(&piece->flat, i)) continue;
        gauge g = gauge_of(bend);
        tiling in = {0, tiles_along(g.wide_mm, WINDOW_WIDE_MM), tiles_along(g.high_mm, WINDOW_HIGH_MM)};
        for (; in.index < in.columns * in.rows; in.index++) {
            if (!first) sw_pen_page(pen, A4_LONG_MM, A4_SHORT_MM);
            first = false;
            SW_TRY(one_page(run, pen, piece->piece, bend, &g, in));
        }
    }
    if (!first) return SW_OK;
    return sw_fail(run, SW_BAD_INPUT, piece->piece->place, piece->piece->name,
                   "has no rolled zone, so there is no curvature template; ask for a rolled piece");
}

static sw_status written(sw_run *run, const paper_desk *desk, const sw_sheet_piece *piece, const char *path)
{
    sw_pen *pen = NULL;
    SW_TRY(pen_open_lettered(run, path, desk->letters, A4_LONG_MM, A4_SHORT_MM, &pen));
    pen_about(pen, piece->piece->name, desk->d->date);
    sw_status status = pages(run, piece, pen);
    if (status == SW_OK) return sw_pen_close(run, pen);
    sw_pen_abandon(pen);
    return status;
}

sw_status paper_template(sw_run *run, const paper_desk *desk, size_t piece, const char *path)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = written(run, desk, &desk->d->sheet->pieces[piece], path);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

sw_status sw_paper_template(sw_run *run, const sw_dossier *d, size_t piece, const char *path)
{
    SW_ASSERT(piece < d->sheet->piece_count);
    size_t mark = sw_arena_mark(run->scratch);
    paper_desk desk;
    sw_status status = desk_open(run, d, &desk);
    if (status == SW_OK) status = paper_template(run, &desk, piece, path);
    desk_close(&desk);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
