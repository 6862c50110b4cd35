/* charts.c: many line charts with the same lines on one sheet: what a sweep found. */
#include "papers/chart_parts.h"

#include <math.h>

enum { ACROSS = 2, ROWS_A_PAGE = 4 };

#define EDGE_MM 10.0
#define WIDE_MM ((A4_SHORT_MM - 2.0 * EDGE_MM) / ACROSS)
#define HIGH_MM 60.0

typedef struct sheet {
    sw_pen *pen;
    const char *title;
    const sw_line_chart *charts;
    size_t count;
    double below_head_mm; /* y where the charts begin */
} sheet;

/* Names of the lines in rows below the title, each with its stroke; gives where they end. */
static double legend(const sheet *s, bool shown)
{
    const double text_mm = 2, row_mm = 4.6;
    double x = EDGE_MM, y = EDGE_MM + 9;
    const sw_line_chart *c = &s->charts[0];
    for (size_t i = 0; i < c->line_count && c->line_count > 1; i++) {
        double wide_mm = 13 + pen_width(s->pen, text_mm, false, c->lines[i].name);
        if (x > EDGE_MM && x + wide_mm > A4_SHORT_MM - EDGE_MM) x = EDGE_MM, y += row_mm;
        if (shown) {
            sw_pen_line(s->pen, look_line(i, 0.6), (sw_point){x, y - 0.9}, (sw_point){x + 8, y - 0.9});
            pen_write(s->pen, (sw_point){x + 9.5, y}, look_type(text_mm, SW_LEFT), c->lines[i].name);
        }
        x += wide_mm + 3;
    }
    return y + (c->line_count > 1 ? 3 : -3);
}

static sw_status draw_one(sw_run *run, const sheet *s, const sw_line_chart *c, sw_box box)
{
    chart_line *lines = SW_SCRATCH(run, c->line_count + 1, chart_line);
    if (lines == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < c->line_count; i++)
        lines[i] =
            (chart_line){c->lines[i].name, c->lines[i].x, c->lines[i].y, c->lines[i].count, i, c->lines[i].count <= 24};
    const chart drawn = {.title = c->title,
                         .x_name = c->x_name,
                         .y_name = c->y_name,
                         .lines = lines,
                         .line_count = c->line_count,
                         .x_low = NAN,
                         .x_high = NAN,
                         .y_low = NAN,
                         .y_high = NAN,
                         .last = true,
                         .bare = true};
    return draw_chart(run, s->pen, box, &drawn);
}

static sw_status head(sw_run *run, const sheet *s)
{
    const pen_paint ground = {.fill = true, .fill_ink = look_white()};
    pen_box(s->pen, &ground, (sw_box){0, 0, s->pen->width_mm, s->pen->height_mm});
    const char *title = words_within(run, s->pen, 2.8, true, A4_SHORT_MM - 2 * EDGE_MM, s->title);
    if (title == NULL) return SW_NO_MEMORY;
    pen_write(s->pen, (sw_point){EDGE_MM, EDGE_MM + 2.8}, look_type_bold(2.8, SW_LEFT), title);
    (void)legend(s, true);
    return SW_OK;
}

static sw_status draw_all(sw_run *run, const sheet *s, size_t rows_a_page)
{
    for (size_t i = 0; i < s->count; i++) {
        size_t row = i / ACROSS % rows_a_page;
        bool turns = row == 0 && i % ACROSS == 0;
        if (turns && i > 0) sw_pen_page(s->pen, s->pen->width_mm, s->pen->height_mm);
        if (turns) SW_TRY(head(run, s));
        double x = EDGE_MM + WIDE_MM * (double)(i % ACROSS), y = s->below_head_mm + HIGH_MM * (double)row;
        SW_TRY(draw_one(run, s, &s->charts[i], (sw_box){x, y, x + WIDE_MM - 2, y + HIGH_MM - 2}));
    }
    return SW_OK;
}

static bool has_pages(const char *path)
{
    return sw_text_ends_with(path, ".pdf");
}

/* The height of a page that holds all is known when the names have been measured. */
static sw_status written(sw_run *run, sheet *s, lettering *letters, const char *path)
{
    sw_pen measure = {.kind = &pen_trace, .letters = letters};
    s->pen = &measure;
    s->below_head_mm = legend(s, false);
    size_t rows = (s->count + ACROSS - 1) / ACROSS, page_rows = has_pages(path) ? ROWS_A_PAGE : rows;
    double high_mm = has_pages(path) ? A4_LONG_MM : s->below_head_mm + HIGH_MM * (double)rows + EDGE_MM;
    SW_TRY(pen_open_lettered(run, path, letters, A4_SHORT_MM, high_mm, &s->pen));
    pen_about(s->pen, s->title, "2000-01-01");
    sw_status status = draw_all(run, s, page_rows);
    if (status == SW_OK) return sw_pen_close(run, s->pen);
    sw_pen_abandon(s->pen);
    return status;
}

sw_status sw_paper_charts(sw_run *run, const char *title, const sw_line_chart *charts, size_t count, const char *path)
{
    size_t mark = sw_arena_mark(run->scratch);
    lettering *letters = NULL;
    sheet s = {.title = title, .charts = charts, .count = count};
    SW_ASSERT(count > 0);
    for (size_t i = 0; i < count; i++) SW_ASSERT(charts[i].line_count <= SW_CHART_LINES);
    sw_status status = lettering_open(run, &letters);
    if (status == SW_OK) status = written(run, &s, letters, path);
    lettering_close(letters);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
