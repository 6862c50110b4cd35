/* flat_tables.c: the bend table and the table of cut-outs below a flat; beside each other on a lying page. What
 * finds no room goes on a second page (PDF); one-page files say so. */
#include "papers/flat_parts.h"

#include <math.h>

#define TEXT_MM      1.9
#define WIDE_PAGE_MM 230.0
#define MOST_MM      92.0 /* tables on the first page stay below this */

typedef struct column {
    const char *title;
    double share;
} column;

static const column bend_columns[] = {{"bend", 0.6},   {"angle, way, radius", 2.0}, {"at", 2.4},
                                      {"length", 0.9}, {"allowance", 1.0},          {"k/2", 0.8},
                                      {"rule", 0.6}};
static const column hole_columns[] = {{"cut-out", 0.8}, {"shape", 2.0}, {"number", 0.8}, {"middle at", 6.0}};
enum { BEND_COLUMNS = 7, HOLE_COLUMNS = 4 };

static bool beside(const flat_sheet *f, double width_mm)
{
    return width_mm > WIDE_PAGE_MM && f->piece->flat.bend_count > 0 && f->group_count > 0;
}

/* Lines the places of a group take, about: 20 figures of 6 letters in a wide column. */
static size_t lines_of(const hole_group *g, double column_mm)
{
    double a_line = fmax(1.0, floor(column_mm / 13.5));
    size_t rows = 1;
    for (size_t i = 1; i < g->count; i++)
        if (fabs(g->places[i].y_mm - g->places[i - 1].y_mm) > 5e-3) rows++;
    double figures = (double)g->count + 1.35 * (double)rows;
    return (size_t)fmax(1.0, ceil(figures / a_line + 0.3));
}

static double holes_column_mm(double width_mm)
{
    return width_mm * 6.0 / 9.6 - 2.0;
}

static double holes_height(const flat_sheet *f, double width_mm)
{
    double rows = 0.0;
    for (size_t i = 0; i < f->group_count; i++) rows += (double)lines_of(&f->groups[i], holes_column_mm(width_mm));
    return f->group_count == 0 ? 0.0 : (rows + 1.0) * FLAT_ROW_MM + 2.0;
}

static double bends_height(const flat_sheet *f, double width_mm)
{
    size_t n = f->piece->flat.bend_count;
    return n == 0 ? 0.0 : (double)(n + 1 + flat_rule_lines(f, width_mm)) * FLAT_ROW_MM + 2.0;
}

/* The last column numbers the rules where there are several. */
static int bend_column_count(const flat_sheet *f)
{
    return f->rule_count > 1 ? BEND_COLUMNS : BEND_COLUMNS - 1;
}

double flat_tables_height(const flat_sheet *f, double page_width_mm)
{
    bool halves = beside(f, page_width_mm);
    double width_mm = halves ? page_width_mm / 2.0 - 2.0 : page_width_mm;
    double bends_mm = bends_height(f, width_mm), holes_mm = holes_height(f, width_mm);
    double both_mm = halves ? fmax(bends_mm, holes_mm) : bends_mm + holes_mm;
    return fmin(both_mm, MOST_MM) + 2.0;
}

static void head(sw_pen *pen, sw_box box, const column *columns, int count)
{
    double total = 0.0, x_mm = box.x0_mm;
    for (int i = 0; i < count; i++) total += columns[i].share;
    for (int i = 0; i < count; i++) {
        pen_write(pen, (sw_point){x_mm + 1.0, box.y0_mm + 3.0}, look_type_grey(1.7, SW_LEFT), columns[i].title);
        x_mm += (box.x1_mm - box.x0_mm) * columns[i].share / total;
    }
    sw_pen_line(pen, look_grey(0.2), (sw_point){box.x0_mm, box.y0_mm + FLAT_ROW_MM},
                (sw_point){box.x1_mm, box.y0_mm + FLAT_ROW_MM});
}

static double column_mm(sw_box box, const column *columns, int count, int index)
{
    double total = 0.0;
    for (int i = 0; i < count; i++) total += columns[i].share;
    return (box.x1_mm - box.x0_mm) * columns[index].share / total;
}

static const char *position(sw_run *run, const sw_flat_bend *b)
{
    const char *x0 = words_mm(run, b->from.x_mm), *y0 = words_mm(run, b->from.y_mm);
    const char *x1 = words_mm(run, b->to.x_mm), *y1 = words_mm(run, b->to.y_mm);
    if (x0 == NULL || y0 == NULL || x1 == NULL || y1 == NULL) return NULL;
    if (fabs(b->from.x_mm - b->to.x_mm) < 1e-3) return sw_text_format(run, run->scratch, "x %s", x0);
    if (fabs(b->from.y_mm - b->to.y_mm) < 1e-3) return sw_text_format(run, run->scratch, "y %s", y0);
    return sw_text_format(run, run->scratch, "%s, %s to %s, %s", x0, y0, x1, y1);
}

static sw_status bend_row(sw_run *run, flat_sheet *f, sw_box box, size_t index, double y_mm)
{
    const sw_flat_bend *b = &f->piece->flat.bends[index];
    double length_mm = hypot(b->to.x_mm - b->from.x_mm, b->to.y_mm - b->from.y_mm), x_mm = box.x0_mm;
    const char *cells[BEND_COLUMNS] = {sw_text_format(run, run->scratch, "B%zu", index + 1),
                                       words_bend(run, b),
                                       position(run, b),
                                       words_mm(run, length_mm),
                                       words_number(run, b->allowance_mm, 2),
                                       words_number(run, b->k, 3),
                                       sw_text_format(run, run->scratch, "%zu", f->rule_of[index] + 1)};
    int columns = bend_column_count(f);
    for (int i = 0; i < columns; i++) {
        if (cells[i] == NULL) return SW_NO_MEMORY;
        double wide_mm = column_mm(box, bend_columns, columns, i);
        const char *text = words_within(run, f->pen, TEXT_MM, false, wide_mm - 1.5, cells[i]);
        if (text == NULL) return SW_NO_MEMORY;
        pen_write(f->pen, (sw_point){x_mm + 1.0, y_mm + 3.1}, look_type(TEXT_MM, SW_LEFT), text);
        x_mm += wide_mm;
    }
    return SW_OK;
}

typedef struct pencil {
    sw_point at;
    double left_mm, right_mm;
} pencil; /* writes figures left to right, line after line */

static void figure(sw_pen *pen, pencil *p, const char *text, bool grey, double gap_mm)
{
    double wide_mm = pen_width(pen, TEXT_MM, false, text);
    if (p->at.x_mm + wide_mm > p->right_mm && p->at.x_mm > p->left_mm) {
        p->at.x_mm = p->left_mm;
        p->at.y_mm += FLAT_ROW_MM;
    }
    pen_write(pen, p->at, grey ? look_type_grey(TEXT_MM, SW_LEFT) : look_type(TEXT_MM, SW_LEFT), text);
    p->at.x_mm += wide_mm + gap_mm;
}

/* "y 30: 20  60  100" for each height at which holes lie. Gives the lines used. */
static sw_status hole_row(sw_run *run, flat_sheet *f, sw_box box, const hole_group *g, double *y_mm)
{
    double x_mm = box.x0_mm;
    const char *cells[3] = {g->tag, g->what, sw_text_format(run, run->scratch, "%zu", g->count)};
    for (int i = 0; i < 3; i++) {
        if (cells[i] == NULL) return SW_NO_MEMORY;
        double wide_mm = column_mm(box, hole_columns, HOLE_COLUMNS, i);
        const char *text = words_within(run, f->pen, TEXT_MM, false, wide_mm - 1.5, cells[i]);
        if (text == NULL) return SW_NO_MEMORY;
        pen_write(f->pen, (sw_point){x_mm + 1.0, *y_mm + 3.1}, look_type(TEXT_MM, SW_LEFT), text);
        x_mm += wide_mm;
    }
    pencil p = {{x_mm + 1.0, *y_mm + 3.1}, x_mm + 1.0, box.x1_mm};
    for (size_t i = 0; i < g->count; i++) {
        bool new_row = i == 0 || fabs(g->places[i].y_mm - g->places[i - 1].y_mm) > 5e-3;
        const char *x = words_mm(run, g->places[i].x_mm), *y = words_mm(run, g->places[i].y_mm);
        if (x == NULL || y == NULL) return SW_NO_MEMORY;
        const char *lead = new_row ? sw_text_format(run, run->scratch, "y %s:  x", y) : "";
        if (lead == NULL) return SW_NO_MEMORY;
        if (new_row) figure(f->pen, &p, lead, true, 1.2);
        bool last = i + 1 == g->count || fabs(g->places[i + 1].y_mm - g->places[i].y_mm) > 5e-3;
        figure(f->pen, &p, x, false, last ? 4.5 : 2.4);
    }
    *y_mm = p.at.y_mm - 3.1 + FLAT_ROW_MM;
    return SW_OK;
}

static void rule(sw_pen *pen, sw_box box, double y_mm)
{
    sw_pen_line(pen, look_light(0.13), (sw_point){box.x0_mm, y_mm}, (sw_point){box.x1_mm, y_mm});
}

/* Starts the continuation page; a one-page file says where the rest is, false when there is none but such. */
static bool turn_page(flat_sheet *f, sw_box *box, double *y_mm)
{
    const sw_point foot = {box->x0_mm + 1.0, *y_mm + 3.0};
    if (!pen_turn(f->pen, foot, look_type_grey(1.7, SW_LEFT), "more rows on the second page of this flat in flats.pdf"))
        return false;
    pen_write(f->pen, (sw_point){box->x0_mm, 16.0}, look_type_bold(3.5, SW_LEFT), f->piece->piece->number);
    pen_write(f->pen, (sw_point){box->x1_mm, 16.0}, look_type_grey(2.0, SW_RIGHT), f->piece->piece->name);
    box->y0_mm = 20.0;
    box->y1_mm = f->pen->height_mm - 12.0;
    *y_mm = box->y0_mm;
    return true;
}

static sw_status bend_table(sw_run *run, flat_sheet *f, sw_box *box, double *y_mm)
{
    size_t n = f->piece->flat.bend_count;
    if (n == 0) return SW_OK;
    head(f->pen, (sw_box){box->x0_mm, *y_mm, box->x1_mm, 0.0}, bend_columns, bend_column_count(f));
    *y_mm += FLAT_ROW_MM;
    for (size_t i = 0; i < n; i++) {
        if (*y_mm + 2.0 * FLAT_ROW_MM > box->y1_mm && i + 1 < n && !turn_page(f, box, y_mm)) return SW_OK;
        SW_TRY(bend_row(run, f, *box, i, *y_mm));
        *y_mm += FLAT_ROW_MM;
        rule(f->pen, *box, *y_mm);
    }
    for (size_t i = 0; i < f->rule_count; i++) {
        if (*y_mm + FLAT_ROW_MM > box->y1_mm && !turn_page(f, box, y_mm)) return SW_OK;
        SW_TRY(flat_rule_write(run, f, i, *box, y_mm));
    }
    *y_mm += 2.0;
    return SW_OK;
}

static sw_status hole_table(sw_run *run, flat_sheet *f, sw_box *box, double *y_mm)
{
    if (f->group_count == 0) return SW_OK;
    double middle_mm = holes_column_mm(box->x1_mm - box->x0_mm);
    if (*y_mm + 2.0 * FLAT_ROW_MM > box->y1_mm && !turn_page(f, box, y_mm)) return SW_OK;
    head(f->pen, (sw_box){box->x0_mm, *y_mm, box->x1_mm, 0.0}, hole_columns, HOLE_COLUMNS);
    *y_mm += FLAT_ROW_MM;
    for (size_t i = 0; i < f->group_count; i++) {
        double need_mm = (double)lines_of(&f->groups[i], middle_mm) * FLAT_ROW_MM;
        bool more = i + 1 < f->group_count;
        if (*y_mm + need_mm + (more ? FLAT_ROW_MM : 0.0) > box->y1_mm && !turn_page(f, box, y_mm)) return SW_OK;
        SW_TRY(hole_row(run, f, *box, &f->groups[i], y_mm));
        rule(f->pen, *box, *y_mm);
    }
    return SW_OK;
}

sw_status flat_tables(sw_run *run, flat_sheet *f, sw_box box)
{
    double y_mm = box.y0_mm;
    if (!beside(f, box.x1_mm - box.x0_mm)) {
        SW_TRY(bend_table(run, f, &box, &y_mm));
        return hole_table(run, f, &box, &y_mm);
    }
    double middle_mm = (box.x0_mm + box.x1_mm) / 2.0;
    sw_box left = box, right = box;
    left.x1_mm = middle_mm - 2.0;
    right.x0_mm = middle_mm + 2.0;
    SW_TRY(bend_table(run, f, &left, &y_mm));
    y_mm = box.y0_mm;
    return hole_table(run, f, &right, &y_mm);
}
