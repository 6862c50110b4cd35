/* house_map.c: the operating map: outside temperature over the wash slide; its states told apart by signs as well as by tones,
 * the safe region framed. */
#include "papers/house_parts.h"

#include <math.h>
#include <string.h>

enum { STROKES_MOST = 2 };

typedef struct look_state { /* tone and sign: strokes within a cell, 0..1 to the right and down */
    unsigned rgb;
    double strokes[STROKES_MOST][4];
    int count;
    bool ring;
} look_state;

static const look_state states[SW_DRAW_STATES] = {
    [SW_DRAW_SAFE] = {0xe3eadf, {{0}}, 0, false},
    [SW_DRAW_WEAK] = {0xd3dce6, {{0}}, 0, true},
    [SW_DRAW_STARVED] = {0xe2b9a8, {{0.25, 0.8, 0.75, 0.2}}, 1, false},
    [SW_DRAW_WASTE] = {0xf0dfae, {{0.25, 0.2, 0.75, 0.8}}, 1, false},
    [SW_DRAW_WET] = {0xb9cdd6, {{0.2, 0.35, 0.8, 0.35}, {0.2, 0.65, 0.8, 0.65}}, 2, false},
    [SW_DRAW_NONE] = {0xc2bcb5, {{0.25, 0.2, 0.75, 0.8}, {0.25, 0.8, 0.75, 0.2}}, 2, false},
    [SW_DRAW_STRONG] = {0xd9c3d6, {{0.25, 0.7, 0.5, 0.25}, {0.5, 0.25, 0.75, 0.7}}, 2, false},
    [SW_DRAW_UNSOLVED] = {0xf6f4f1, {{0.5, 0.2, 0.5, 0.8}}, 1, false},
};

static sw_ink tone(sw_draw_state state)
{
    unsigned rgb = states[state].rgb;
    return (sw_ink){.r = (double)(rgb >> 16 & 255u) / 255.0,
                    .g = (double)(rgb >> 8 & 255u) / 255.0,
                    .b = (double)(rgb & 255u) / 255.0};
}

static void sign(sw_pen *pen, sw_box cell, sw_draw_state state)
{
    const look_state *look = &states[state];
    double wide = cell.x1_mm - cell.x0_mm, high = cell.y1_mm - cell.y0_mm;
    sw_point lines[STROKES_MOST][2];
    for (int i = 0; i < look->count; i++) {
        lines[i][0] = (sw_point){cell.x0_mm + wide * look->strokes[i][0], cell.y0_mm + high * look->strokes[i][1]};
        lines[i][1] = (sw_point){cell.x0_mm + wide * look->strokes[i][2], cell.y0_mm + high * look->strokes[i][3]};
    }
    pen_lines(pen, look_dark(0.18), (const sw_point(*)[2])lines, (size_t)look->count);
    const pen_paint ring = {.stroke = true, .stroke_ink = look_dark(0.18)};
    if (look->ring)
        pen_circle(pen, &ring, (sw_point){(cell.x0_mm + cell.x1_mm) / 2, (cell.y0_mm + cell.y1_mm) / 2}, high * 0.24);
}

typedef struct chart_map {
    sw_pen *pen;
    const sw_draw_map *m;
    house_field field;
} chart_map;

static sw_draw_state state_at(const sw_draw_map *m, size_t column, size_t row)
{
    return m->points[row * m->columns + column].state;
}

/* Edges left to right and from below; cell k of n lies about point k. */
static double edge_x(const chart_map *c, size_t column)
{
    return c->field.in.x0_mm + (c->field.in.x1_mm - c->field.in.x0_mm) * (double)column / (double)c->m->columns;
}

static double edge_y(const chart_map *c, size_t row)
{
    return c->field.in.y1_mm - (c->field.in.y1_mm - c->field.in.y0_mm) * (double)row / (double)c->m->rows;
}

static sw_box cell_of(const chart_map *c, size_t column, size_t row)
{
    return (sw_box){edge_x(c, column), edge_y(c, row + 1), edge_x(c, column + 1), edge_y(c, row)};
}

static void fill_cells(const chart_map *c)
{
    for (size_t row = 0; row < c->m->rows; row++)
        for (size_t k = 0, end = 0; k < c->m->columns; k = end) {
            sw_draw_state s = state_at(c->m, k, row);
            for (end = k; end < c->m->columns && state_at(c->m, end, row) == s; end++) {}
            const pen_paint paint = {.fill = true, .fill_ink = tone(s)};
            sw_box run = cell_of(c, k, row);
            run.x1_mm = edge_x(c, end);
            pen_box(c->pen, &paint, run);
        }
    for (size_t row = 0; row < c->m->rows; row++)
        for (size_t k = 0; k < c->m->columns; k++) sign(c->pen, cell_of(c, k, row), state_at(c->m, k, row));
}

/* A thick line between every safe cell and its neighbour that is not, and round the field where safe cells reach it. */
static void frame_safe(const chart_map *c)
{
    const sw_draw_map *m = c->m;
    sw_ink ink = look_dark(0.6);
    for (size_t row = 0; row < m->rows; row++)
        for (size_t k = 0; k < m->columns; k++) {
            if (state_at(m, k, row) != SW_DRAW_SAFE) continue;
            sw_box b = cell_of(c, k, row);
            bool left = k == 0 || state_at(m, k - 1, row) != SW_DRAW_SAFE,
                 right = k + 1 == m->columns || state_at(m, k + 1, row) != SW_DRAW_SAFE,
                 below = row == 0 || state_at(m, k, row - 1) != SW_DRAW_SAFE,
                 above = row + 1 == m->rows || state_at(m, k, row + 1) != SW_DRAW_SAFE;
            if (left) sw_pen_line(c->pen, ink, (sw_point){b.x0_mm, b.y0_mm}, (sw_point){b.x0_mm, b.y1_mm});
            if (right) sw_pen_line(c->pen, ink, (sw_point){b.x1_mm, b.y0_mm}, (sw_point){b.x1_mm, b.y1_mm});
            if (below) sw_pen_line(c->pen, ink, (sw_point){b.x0_mm, b.y1_mm}, (sw_point){b.x1_mm, b.y1_mm});
            if (above) sw_pen_line(c->pen, ink, (sw_point){b.x0_mm, b.y0_mm}, (sw_point){b.x1_mm, b.y0_mm});
        }
}

static const char *meaning(sw_run *run, sw_draw_state state)
{
    const sw_draw_limits l = sw_draw_limits_defaults();
    switch (state) {
    case SW_DRAW_WEAK:
        return sw_text_format(run, run->scratch, "below %g Pa at the collar: smoke may enter the room", l.least_pa);
    case SW_DRAW_STARVED:
        return sw_text_format(run, run->scratch, "excess air below %g: smoke and carbon monoxide", l.least_lambda);
    case SW_DRAW_WASTE:
        return sw_text_format(run, run->scratch, "excess air above %g or gas above %.0f " CELSIUS_C, l.most_lambda,
                              sw_c_from_k(l.most_k));
    case SW_DRAW_WET:
        return "the flue's wall at the outlet is below the dew point";
    case SW_DRAW_NONE:
        return "the chimney does not draw: no fire";
    case SW_DRAW_STRONG:
        return sw_text_format(run, run->scratch, "it draws over %g times the air", SW_DRAW_MOST_LAMBDA);
    case SW_DRAW_UNSOLVED:
        return "no balance found: not known";
    default:
        return "draws, burns clean, stays dry";
    }
}

/* The states that the map holds. */
static sw_status legend(sw_run *run, sw_pen *pen, sw_box box, const sw_draw_map *m)
{
    size_t cells[SW_DRAW_STATES] = {0};
    for (size_t i = 0; i < m->columns * m->rows; i++) cells[m->points[i].state]++;
    double y = box.y0_mm;
    for (int s = 0; s < SW_DRAW_STATES; s++) {
        if (cells[s] == 0) continue;
        const pen_paint paint = {.fill = true,
                                 .fill_ink = tone((sw_draw_state)s),
                                 .stroke = true,
                                 .stroke_ink = look_dark(s == 0 ? 0.6 : 0.15)};
        const sw_box cell = {box.x0_mm, y, box.x0_mm + 6, y + 4.5};
        pen_box(pen, &paint, cell);
        sign(pen, cell, (sw_draw_state)s);
        const char *name = sw_text_format(run, run->scratch, "%s: %.0f %%", sw_draw_state_name((sw_draw_state)s),
                                          100 * (double)cells[s] / (double)(m->columns * m->rows)),
                   *text = meaning(run, (sw_draw_state)s);
        doc_lines lines = {0};
        if (name == NULL || text == NULL) return SW_NO_MEMORY;
        pen_write(pen, (sw_point){box.x0_mm + 8, y + 3}, look_type_bold(HOUSE_SMALL_MM, SW_LEFT), name);
        SW_TRY(doc_wrap(run, pen->letters, (doc_measure){HOUSE_SMALL_MM - 0.2, box.x1_mm - box.x0_mm - 8, false}, text,
                        &lines));
        for (size_t i = 0; i < lines.count; i++)
            pen_write(pen, (sw_point){box.x0_mm + 8, y + 6.6 + 3.3 * (double)i},
                      look_type_grey(HOUSE_SMALL_MM - 0.2, SW_LEFT), lines.lines[i]);
        y += 5.9 + 3.3 * (double)lines.count;
    }
    return SW_OK;
}

static void mark_day(const chart_map *c, double outside_k, double share, const char *name)
{
    double t = sw_c_from_k(outside_k);
    if (!(t >= c->field.x0 && t <= c->field.x1 && share >= c->field.y0 && share <= c->field.y1)) return;
    const pen_paint dot = {.fill = true, .fill_ink = look_white(), .stroke = true, .stroke_ink = look_dark(0.5)};
    sw_point at = house_at(&c->field, t, share);
    double wide = pen_width(c->pen, HOUSE_SMALL_MM, true, name),
           x = fmin(at.x_mm + 2.5, c->field.in.x1_mm - wide - 1.5);
    const pen_paint ground = {.fill = true, .fill_ink = look_white()};
    double y = at.y_mm > c->field.in.y0_mm + 8 ? at.y_mm - 3 : at.y_mm + 5.5;
    pen_box(c->pen, &ground, (sw_box){x - 0.8, y - HOUSE_SMALL_MM - 0.7, x + wide + 0.8, y + 0.9});
    pen_write(c->pen, (sw_point){x, y}, look_type_bold(HOUSE_SMALL_MM, SW_LEFT), name);
    pen_circle(c->pen, &dot, at, 1.2);
}

sw_status draw_operating(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box)
{
    const sw_draw_map *m = d->housed->map;
    if (m == NULL || m->columns < 2 || m->rows < 2) return SW_OK;
    double low = sw_c_from_k(m->outside_low_k), high = sw_c_from_k(m->outside_high_k);
    double half_x = (high - low) / (double)(m->columns - 1) / 2,
           half_y = 100 * (m->share_high - m->share_low) / (double)(m->rows - 1) / 2;
    chart_map c = {pen,
                   m,
                   {pen,
                    {box.x0_mm + 14, box.y0_mm + 2, box.x0_mm + 118, box.y1_mm - 9},
                    low - half_x,
                    high + half_x,
                    100 * m->share_low - half_y,
                    100 * m->share_high + half_y}};
    SW_TRY(house_grid(run, &c.field, "outside, " CELSIUS_C, "wash slide open, %"));
    fill_cells(&c);
    frame_safe(&c);
    if (d->burned != NULL && d->burned->options != NULL) {
        double share = 100 * d->burned->options->wash_share;
        mark_day(&c, sw_k_from_c(15), share, "mild day");
        mark_day(&c, d->model.house->least_k, share, "coldest day");
    }
    return legend(run, pen, (sw_box){box.x0_mm + 123, box.y0_mm + 2, box.x1_mm, box.y1_mm}, m);
}
