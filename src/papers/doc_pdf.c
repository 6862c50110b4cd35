/* doc_pdf.c: the document as PDF pages: a cursor runs down the page and turns it where a block finds no room. */
#include "papers/doc_parts.h"

#include <math.h>

#define EDGE_MM   18.0
#define TOP_MM    22.0
#define BOTTOM_MM 18.0
#define TEXT_MM   2.05
#define LINE_MM   4.2

typedef struct cursor {
    const doc_book *doc;
    sw_pen *pen;
    double y_mm; /* top of what comes next */
    int page;
} cursor;

static sw_status furniture(sw_run *run, cursor *c)
{
    const char *number = sw_text_format(run, run->scratch, "%d", c->page);
    if (number == NULL) return SW_NO_MEMORY;
    double right_mm = A4_SHORT_MM - EDGE_MM, foot_mm = A4_LONG_MM - 10.0;
    pen_write(c->pen, (sw_point){right_mm, foot_mm}, look_type_grey(1.8, SW_RIGHT), number);
    const char *title = words_within(run, c->pen, 1.8, false, 120.0, c->doc->title);
    if (title == NULL) return SW_NO_MEMORY;
    pen_write(c->pen, (sw_point){EDGE_MM, foot_mm}, look_type_grey(1.8, SW_LEFT), title);
    sw_pen_line(c->pen, look_light(0.2), (sw_point){EDGE_MM, foot_mm - 4.0}, (sw_point){right_mm, foot_mm - 4.0});
    c->y_mm = TOP_MM;
    return SW_OK;
}

static sw_status turn(sw_run *run, cursor *c)
{
    sw_pen_page(c->pen, A4_SHORT_MM, A4_LONG_MM);
    c->page++;
    return furniture(run, c);
}

static double left_on_page(const cursor *c)
{
    return A4_LONG_MM - BOTTOM_MM - c->y_mm;
}

static sw_status room_for(sw_run *run, cursor *c, double high_mm)
{
    if (high_mm <= left_on_page(c) || c->y_mm <= TOP_MM) return SW_OK;
    return turn(run, c);
}

static sw_status put_text(sw_run *run, cursor *c, double indent_mm, pen_type type, double line_mm, const char *text)
{
    doc_lines out = {0};
    SW_TRY(
        doc_wrap(run, c->pen->letters, (doc_measure){type.height_mm, DOC_WIDTH_MM - indent_mm, type.bold}, text, &out));
    for (size_t i = 0; i < out.count; i++) {
        SW_TRY(room_for(run, c, line_mm));
        pen_write(c->pen, (sw_point){EDGE_MM + indent_mm, c->y_mm + type.height_mm}, type, out.lines[i]);
        c->y_mm += line_mm;
    }
    return SW_OK;
}

enum { SHORT_ROWS = 14 }; /* a table that is not parted */

static double cell_line_mm(const doc_table *t);

static const double caption_mm = 8.0; /* below a figure */

static double figure_least_mm(const doc_figure *f)
{
    return f->least_mm > 0.0 ? f->least_mm : f->height_mm;
}

/* What a heading needs below it on its page: headings right below, a figure or a short table whole, paragraphs before
 * them, else a few lines. */
static double follows_mm(const doc_block *b, size_t left)
{
    double high_mm = 17.0;
    for (; left > 0 && b->kind == DOC_HEADING; b++, left--) high_mm += 9.0;
    for (; left > 0 && b->kind == DOC_PARAGRAPH; b++, left--) high_mm += 3.0 * LINE_MM + 1.4;
    if (left > 0 && b->kind == DOC_FIGURE) return high_mm + figure_least_mm(&b->figure) + caption_mm;
    if (left > 0 && b->kind == DOC_TABLE && b->table->rows <= SHORT_ROWS)
        return high_mm + (double)(b->table->rows + 1) * (cell_line_mm(b->table) + 1.3);
    return high_mm + 16.0;
}

static sw_status heading_pdf(sw_run *run, cursor *c, const doc_block *b, size_t left)
{
    double size_mm = b->level == 1 ? 3.6 : 2.5;
    SW_TRY(room_for(run, c, follows_mm(b + 1, left)));
    if (c->y_mm > TOP_MM) c->y_mm += b->level == 1 ? 7.0 : 3.5;
    SW_TRY(put_text(run, c, 0.0, look_type_bold(size_mm, SW_LEFT), size_mm * 1.8, b->text));
    if (b->level == 1)
        sw_pen_line(c->pen, look_rust(0.4), (sw_point){EDGE_MM, c->y_mm}, (sw_point){EDGE_MM + DOC_WIDTH_MM, c->y_mm});
    c->y_mm += b->level == 1 ? 3.5 : 0.5;
    return SW_OK;
}

static sw_status item_pdf(sw_run *run, cursor *c, const char *text)
{
    SW_TRY(room_for(run, c, 2.0 * LINE_MM));
    const pen_paint dot = {.fill = true, .fill_ink = look_rust(0.0)};
    pen_circle(c->pen, &dot, (sw_point){EDGE_MM + 1.2, c->y_mm + TEXT_MM / 2.0}, 0.6);
    SW_TRY(put_text(run, c, 4.5, look_type(TEXT_MM, SW_LEFT), LINE_MM, text));
    c->y_mm += 1.0;
    return SW_OK;
}

/* ---- tables ---- */

static double cell_mm(const doc_table *t)
{
    return t->dense ? 1.5 : 1.85; /* height of capitals */
}

static double cell_line_mm(const doc_table *t)
{
    return t->dense ? 2.9 : 3.7;
}

static double column_mm(const doc_table *t, size_t index)
{
    double total = 0.0;
    for (size_t i = 0; i < t->column_count; i++) total += t->columns[i].share;
    return DOC_WIDTH_MM * t->columns[index].share / total;
}

static doc_measure cell_measure(const doc_table *t, size_t index)
{
    return (doc_measure){cell_mm(t), column_mm(t, index) - 2.0, false};
}

/* Lines from .. to - 1 of a cell, those that it has. */
typedef struct slice {
    size_t from, to;
} slice;

static void put_cell(cursor *c, const doc_table *t, size_t index, const doc_lines *cell, slice part, double x_mm,
                     bool grey)
{
    sw_align align = t->columns[index].align;
    double wide_mm = column_mm(t, index);
    pen_type type = grey ? look_type_grey(cell_mm(t), align) : look_type(cell_mm(t), align);
    double at_mm = align == SW_RIGHT ? x_mm + wide_mm - 2.0 : align == SW_CENTRE ? x_mm + wide_mm / 2.0 : x_mm;
    for (size_t i = part.from; i < cell->count && i < part.to; i++)
        pen_write(c->pen, (sw_point){at_mm, c->y_mm + 1.1 + cell_mm(t) + cell_line_mm(t) * (double)(i - part.from)},
                  type, cell->lines[i]);
}

static sw_status table_head(sw_run *run, cursor *c, const doc_table *t)
{
    double x_mm = EDGE_MM, most = 1.0;
    bool named = false;
    doc_lines *cells = SW_SCRATCH(run, t->column_count, doc_lines);
    if (cells == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < t->column_count; i++) {
        SW_TRY(doc_wrap(run, c->pen->letters, cell_measure(t, i), t->columns[i].title, &cells[i]));
        most = fmax(most, (double)cells[i].count);
        named = named || t->columns[i].title[0] != '\0';
    }
    double high_mm = named ? most * cell_line_mm(t) + 1.4 : 0.0;
    for (size_t i = 0; i < t->column_count && named; i++) {
        put_cell(c, t, i, &cells[i], (slice){0, cells[i].count}, x_mm, true);
        x_mm += column_mm(t, i);
    }
    c->y_mm += high_mm;
    sw_pen_line(c->pen, look_grey(0.2), (sw_point){EDGE_MM, c->y_mm}, (sw_point){EDGE_MM + DOC_WIDTH_MM, c->y_mm});
    return SW_OK;
}

/* How many lines fit under what is above them; at least one, so that there is an end. */
static size_t lines_that_fit(const cursor *c, double line_mm, double besides_mm)
{
    double fit = floor((left_on_page(c) - besides_mm) / line_mm + SW_SAME_POINT_MM);
    return fit > 1.0 ? (size_t)fit : 1;
}

/* A row that is higher than a page goes on on the next, under the table's head. */
static sw_status table_row(sw_run *run, cursor *c, const doc_table *t, size_t row, doc_lines *cells)
{
    size_t most = 1;
    for (size_t i = 0; i < t->column_count; i++) {
        const char *text = t->cells[row * t->column_count + i];
        SW_TRY(doc_wrap(run, c->pen->letters, cell_measure(t, i), text, &cells[i]));
        if (cells[i].count > most) most = cells[i].count;
    }
    bool parted = (double)most * cell_line_mm(t) + 1.2 > left_on_page(c);
    for (slice part = {0, 0}; part.to < most; part.from = part.to) {
        if (parted) {
            SW_TRY(turn(run, c));
            SW_TRY(table_head(run, c, t));
        }
        size_t fit = lines_that_fit(c, cell_line_mm(t), 1.2);
        part.to = most - part.from < fit ? most : part.from + fit;
        double x_mm = EDGE_MM;
        for (size_t i = 0; i < t->column_count; i++) {
            put_cell(c, t, i, &cells[i], part, x_mm, false);
            x_mm += column_mm(t, i);
        }
        c->y_mm += (double)(part.to - part.from) * cell_line_mm(t) + 1.2;
        sw_pen_line(c->pen, look_light(0.13), (sw_point){EDGE_MM, c->y_mm},
                    (sw_point){EDGE_MM + DOC_WIDTH_MM, c->y_mm});
    }
    return SW_OK;
}

static sw_status table_pdf(sw_run *run, cursor *c, const doc_table *t)
{
    doc_lines *cells = SW_SCRATCH(run, t->column_count, doc_lines);
    if (cells == NULL) return SW_NO_MEMORY;
    SW_TRY(room_for(run, c, 3.0 * cell_line_mm(t) + 4.0));
    SW_TRY(table_head(run, c, t));
    for (size_t row = 0; row < t->rows; row++) SW_TRY(table_row(run, c, t, row, cells));
    c->y_mm += 3.0;
    return SW_OK;
}

/* ---- findings ---- */

static sw_status finding_facts(sw_run *run, const sw_finding *f, const char **facts, const char **remedy)
{
    const char *limit = words_limit(run, f), *margin = words_margin(run, f);
    if (limit == NULL || margin == NULL) return SW_NO_MEMORY;
    if (f->sense == SW_STATED || !isfinite(f->value))
        *facts = sw_text_format(run, run->scratch, "%s.  Source: %s", f->where, f->source);
    else
        *facts = sw_text_format(run, run->scratch, "%s.  Value %.4g %s, limit %s, margin %s.  Source: %s", f->where,
                                f->value, f->unit, limit, margin, f->source);
    *remedy = f->remedy[0] == '\0' ? "" : sw_text_format(run, run->scratch, "What to do: %s", f->remedy);
    return *facts == NULL || *remedy == NULL ? SW_NO_MEMORY : SW_OK;
}

#define FINDING_INDENT_MM 24.0

/* Lines part.from .. part.to - 1 of what, facts and remedy, on their ground. */
static void put_finding(cursor *c, const sw_finding *f, const doc_lines lines[3], slice part)
{
    double high_mm = 3.0 + (double)(part.to - part.from) * LINE_MM, y_mm = c->y_mm + 2.0 + TEXT_MM;
    const pen_paint ground = {.fill = true, .fill_ink = look_pale()},
                    edge = {.fill = true, .fill_ink = look_verdict(f->verdict)};
    pen_box(c->pen, &ground, (sw_box){EDGE_MM, c->y_mm, EDGE_MM + DOC_WIDTH_MM, c->y_mm + high_mm});
    pen_box(c->pen, &edge, (sw_box){EDGE_MM, c->y_mm, EDGE_MM + 1.6, c->y_mm + high_mm});
    pen_type verdict = look_type_bold(TEXT_MM, SW_LEFT);
    verdict.ink = look_verdict(f->verdict);
    pen_write(c->pen, (sw_point){EDGE_MM + 4.5, y_mm}, verdict, sw_verdict_name(f->verdict));
    for (size_t i = 0, at = 0; i < 3; i++) {
        for (size_t j = 0; j < lines[i].count; j++, at++) {
            if (at < part.from || at >= part.to) continue;
            pen_write(c->pen, (sw_point){EDGE_MM + FINDING_INDENT_MM, y_mm},
                      i == 1 ? look_type_grey(TEXT_MM, SW_LEFT) : look_type(TEXT_MM, SW_LEFT), lines[i].lines[j]);
            y_mm += LINE_MM;
        }
    }
    c->y_mm += high_mm + 2.0;
}

static sw_status finding_pdf(sw_run *run, cursor *c, const sw_finding *f)
{
    const char *facts = NULL, *remedy = NULL;
    doc_lines lines[3] = {{0}};
    size_t count = 0;
    SW_TRY(finding_facts(run, f, &facts, &remedy));
    const char *texts[3] = {f->what, facts, remedy};
    for (int i = 0; i < 3; i++) {
        if (texts[i][0] == '\0') continue;
        SW_TRY(doc_wrap(run, c->pen->letters, (doc_measure){TEXT_MM, DOC_WIDTH_MM - FINDING_INDENT_MM - 3.0, false},
                        texts[i], &lines[i]));
        count += lines[i].count;
    }
    for (slice part = {0, 0}; part.to < count; part.from = part.to) {
        SW_TRY(room_for(run, c, (double)(count - part.from) * LINE_MM + 5.0));
        size_t fit = lines_that_fit(c, LINE_MM, 3.0);
        part.to = count - part.from < fit ? count : part.from + fit;
        put_finding(c, f, lines, part);
    }
    return SW_OK;
}

static sw_status summary_pdf(sw_run *run, cursor *c, const size_t counts[SW_VERDICTS])
{
    double wide_mm = (DOC_WIDTH_MM - 3.0 * 4.0) / 4.0;
    SW_TRY(room_for(run, c, 20.0));
    for (int i = 0; i < 4; i++) {
        sw_verdict verdict = (sw_verdict)i;
        double x_mm = EDGE_MM + (wide_mm + 4.0) * i;
        const pen_paint ground = {.fill = true, .fill_ink = look_pale()},
                        edge = {.fill = true, .fill_ink = look_verdict(verdict)};
        const char *number = sw_text_format(run, run->scratch, "%zu", counts[verdict]);
        if (number == NULL) return SW_NO_MEMORY;
        pen_box(c->pen, &ground, (sw_box){x_mm, c->y_mm, x_mm + wide_mm, c->y_mm + 15.0});
        pen_box(c->pen, &edge, (sw_box){x_mm, c->y_mm, x_mm + 1.6, c->y_mm + 15.0});
        pen_type type = look_type_bold(4.6, SW_LEFT);
        type.ink = look_verdict(verdict);
        pen_write(c->pen, (sw_point){x_mm + 5.0, c->y_mm + 7.4}, type, number);
        pen_write(c->pen, (sw_point){x_mm + 5.0, c->y_mm + 12.4}, look_type(2.1, SW_LEFT), sw_verdict_name(verdict));
    }
    c->y_mm += 19.0;
    return SW_OK;
}

static sw_status figure_pdf(sw_run *run, cursor *c, const doc_block *b)
{
    const doc_figure *f = &b->figure;
    SW_TRY(room_for(run, c, figure_least_mm(f) + caption_mm));
    double high_mm = fmin(f->height_mm, left_on_page(c) - caption_mm);
    const sw_box box = {EDGE_MM, c->y_mm, EDGE_MM + DOC_WIDTH_MM, c->y_mm + high_mm};
    SW_TRY(f->draw(run, c->doc, f->a, f->b, c->pen, box));
    c->y_mm += high_mm + 2.0;
    SW_TRY(put_text(run, c, 0.0, look_type_grey(1.9, SW_LEFT), 4.0, b->text));
    c->y_mm += 2.0;
    return SW_OK;
}

static sw_status block_pdf(sw_run *run, cursor *c, size_t index)
{
    const doc_block *b = &c->doc->blocks[index];
    switch (b->kind) {
    case DOC_HEADING:
        return heading_pdf(run, c, b, c->doc->count - index - 1);
    case DOC_PARAGRAPH:
        SW_TRY(put_text(run, c, 0.0, look_type(TEXT_MM, SW_LEFT), LINE_MM, b->text));
        c->y_mm += 1.4;
        return SW_OK;
    case DOC_ITEM:
        return item_pdf(run, c, b->text);
    case DOC_TABLE:
        return table_pdf(run, c, b->table);
    case DOC_FINDING:
        return finding_pdf(run, c, b->finding);
    case DOC_SUMMARY:
        return summary_pdf(run, c, b->counts);
    case DOC_FIGURE:
        return figure_pdf(run, c, b);
    case DOC_PAGE:
        return c->y_mm > TOP_MM ? turn(run, c) : SW_OK;
    }
    return SW_OK;
}

static sw_status body_pdf(sw_run *run, cursor *c)
{
    SW_TRY(furniture(run, c));
    SW_TRY(put_text(run, c, 0.0, look_type_bold(5.6, SW_LEFT), 9.0, c->doc->title));
    SW_TRY(put_text(run, c, 0.0, look_type_grey(TEXT_MM, SW_LEFT), LINE_MM, c->doc->subtitle));
    c->y_mm += 1.0;
    sw_pen_line(c->pen, look_rust(0.7), (sw_point){EDGE_MM, c->y_mm}, (sw_point){EDGE_MM + DOC_WIDTH_MM, c->y_mm});
    c->y_mm += 5.0;
    for (size_t i = 0; i < c->doc->count; i++) SW_TRY(block_pdf(run, c, i));
    return SW_OK;
}

sw_status doc_to_pdf(sw_run *run, const doc_book *doc, const char *path)
{
    cursor c = {.doc = doc, .page = 1};
    SW_TRY(pen_open_lettered(run, path, doc->desk->letters, A4_SHORT_MM, A4_LONG_MM, &c.pen));
    pen_about(c.pen, doc->title, doc->d->date);
    sw_status status = body_pdf(run, &c);
    if (status != SW_OK) {
        sw_pen_abandon(c.pen);
        return status;
    }
    return sw_pen_close(run, c.pen);
}
