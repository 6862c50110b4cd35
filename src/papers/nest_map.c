/* nest_map.c: a nested sheet drawn to scale: pieces in the colour of their number with the number inside, the
 * remnant hatched, and the figures of this sheet. */
#include "papers/papers_parts.h"

#include <math.h>
#include <string.h>

typedef struct map {
    double scale;
    sw_point at;
} map; /* page point of the sheet's (0,0), page mm a mm */

static const sw_motion still = {0};

static sw_point on_map(const map *m, double x_mm, double y_mm)
{
    return (sw_point){m->at.x_mm + m->scale * x_mm, m->at.y_mm - m->scale * y_mm};
}

static void hatch_box(sw_pen *pen, sw_box b)
{
    enum { MOST = 300 };
    sw_point lines[MOST][2];
    size_t count = 0;
    double wide = b.x1_mm - b.x0_mm, high = b.y1_mm - b.y0_mm, step = fmax(2.5, (wide + high) / MOST);
    while (count < MOST && step * (double)(count + 1) < wide + high) {
        double c = step * (double)(count + 1);
        double over_x = fmax(0.0, c - wide), over_y = fmax(0.0, c - high);
        lines[count][0] = (sw_point){b.x0_mm + fmin(c, wide), b.y0_mm + over_x};
        lines[count][1] = (sw_point){b.x0_mm + over_y, b.y0_mm + fmin(c, high)};
        count++;
    }
    pen_lines(pen, look_light(0.13), (const sw_point(*)[2])lines, count);
}

static void remnant(sw_pen *pen, const map *m, const sw_nest_sheet *sheet)
{
    if (!(sheet->remnant_length_mm > 0.0) || !(sheet->remnant_width_mm > 0.0)) return;
    double x_mm = sheet->remnant_x_mm, y_mm = sheet->remnant_y_mm;
    sw_point low = on_map(m, x_mm, y_mm);
    sw_point top = on_map(m, x_mm + sheet->remnant_length_mm, y_mm + sheet->remnant_width_mm);
    sw_box box = {low.x_mm, top.y_mm, top.x_mm, low.y_mm};
    const pen_paint frame = {.stroke = true, .stroke_ink = look_grey(0.18)};
    hatch_box(pen, box);
    pen_box(pen, &frame, box);
}

/* Where nothing may be cut. */
static void zones(sw_pen *pen, const map *m, const sw_stock *stock)
{
    const pen_paint paint = {.fill = true, .fill_ink = look_grey(0.0), .stroke = true, .stroke_ink = look_dark(0.25)};
    for (size_t i = 0; i < stock->zone_count; i++) {
        sw_point low = on_map(m, stock->zones[i].box.x0_mm, stock->zones[i].box.y0_mm);
        sw_point top = on_map(m, stock->zones[i].box.x1_mm, stock->zones[i].box.y1_mm);
        pen_box(pen, &paint, (sw_box){low.x_mm, top.y_mm, top.x_mm, low.y_mm});
    }
}

static sw_status remnant_label(sw_run *run, sw_pen *pen, const map *m, const sw_nest_sheet *sheet)
{
    if (!(sheet->remnant_length_mm > 0.0) || !(sheet->remnant_width_mm > 0.0)) return SW_OK;
    const char *l = words_number(run, sheet->remnant_length_mm, 0), *w = words_number(run, sheet->remnant_width_mm, 0);
    if (l == NULL || w == NULL) return SW_NO_MEMORY;
    const char *text = sw_text_format(run, run->scratch, "remnant %s \xc3\x97 %s", l, w);
    if (text == NULL) return SW_NO_MEMORY;
    sw_point c = on_map(m, sheet->remnant_x_mm + sheet->remnant_length_mm / 2.0,
                        sheet->remnant_y_mm + sheet->remnant_width_mm / 2.0);
    double wide_mm = pen_width(pen, 2.2, false, text);
    bool upright = wide_mm + 4.0 > sheet->remnant_length_mm * m->scale;
    pen_type type = look_type_grey(2.2, SW_CENTRE);
    const pen_paint ground = {.fill = true, .fill_ink = look_white()};
    double half_x = upright ? 2.0 : wide_mm / 2.0 + 1.0, half_y = upright ? wide_mm / 2.0 + 1.0 : 2.0;
    if (2.0 * half_x > sheet->remnant_length_mm * m->scale || 2.0 * half_y > sheet->remnant_width_mm * m->scale)
        return SW_OK;
    pen_box(pen, &ground, (sw_box){c.x_mm - half_x, c.y_mm - half_y, c.x_mm + half_x, c.y_mm + half_y});
    type.turn_rad = upright ? SW_PI / 2.0 : 0.0;
    pen_write(pen, (sw_point){upright ? c.x_mm + 1.1 : c.x_mm, upright ? c.y_mm : c.y_mm + 1.1}, type, text);
    return SW_OK;
}

static void piece_label(sw_pen *pen, const map *m, sw_point centre, const nest_label *label, bool upright,
                        const char *text)
{
    double height_mm = 2.6, wide_mm = pen_width(pen, height_mm, false, text);
    double fit = fmin(2.0 * BAND_SHARE * label->room_mm / height_mm, 1.9 * label->along_mm / wide_mm) * m->scale;
    if (fit < 1.0) height_mm *= fit;
    if (height_mm < 1.0) return;
    pen_type type = look_type(height_mm, SW_CENTRE);
    sw_point c = on_map(m, centre.x_mm, centre.y_mm);
    type.turn_rad = upright ? SW_PI / 2.0 : 0.0;
    if (upright)
        c.x_mm += height_mm / 2.0;
    else
        c.y_mm += height_mm / 2.0;
    pen_write(pen, c, type, text);
}

static void show_place(sw_pen *pen, const map *m, const sw_nest_shape *shape, const sw_nest_place *place)
{
    const pen_paint paint = {
        .fill = true, .fill_ink = look_piece((size_t)shape->tag), .stroke = true, .stroke_ink = look_dark(0.15)};
    pen_region_stamp(pen, &paint, place->motion, m->scale, m->at, &shape->region);
}

static void label_place(const paper_desk *desk, sw_pen *pen, const map *m, const sw_nest_shape *shape,
                        const sw_nest_place *place, const nest_label *label)
{
    const sw_stove *stove = desk->d->model.stove;
    bool known = shape->tag >= 0 && (size_t)shape->tag < stove->piece_count;
    bool quarter = fabs(sin(place->motion.turn_rad)) > 0.7;
    piece_label(pen, m, sw_motion_point(place->motion, label->at), label, quarter != label->upright,
                known ? stove->pieces[shape->tag].number : shape->name);
}

/* The head's ways with the beam off, as one path: thin, so that pieces stay in front. */
static void show_rapids(sw_pen *pen, const map *m, const sw_cut_plan *plan)
{
    static const double dash_mm[] = {0.9, 0.7};
    const pen_paint paint = {.stroke = true, .stroke_ink = look_dashed(look_rust(0.08), dash_mm, 2)};
    sw_point here = {0};
    pen->kind->begin(pen);
    for (size_t i = 0; i < plan->pass_count; i++) {
        const sw_cut_pass *pass = &plan->passes[i];
        pen->kind->move(pen, on_map(m, here.x_mm, here.y_mm));
        for (size_t k = 0; k < pass->via_count; k++)
            pen->kind->line(pen, on_map(m, pass->via[k].x_mm, pass->via[k].y_mm));
        pen->kind->line(pen, on_map(m, pass->start.x_mm, pass->start.y_mm));
        here = pass->move_count == 0 ? pass->start : pass->moves[pass->move_count - 1].to;
    }
    pen->kind->paint(pen, &paint);
}

sw_status draw_nest(sw_run *run, const paper_desk *desk, size_t nest_index, size_t index, bool rapids, sw_pen *pen,
                    sw_box box)
{
    const sw_nested *nest = &desk->d->nests[nest_index];
    const nest_label *labels = desk->labels[nest_index];
    const sw_nest_shape *shapes = nest->input->shapes;
    const sw_nest_sheet *sheet = &nest->result->sheets[index];
    double wide_mm = box.x1_mm - box.x0_mm, high_mm = box.y1_mm - box.y0_mm;
    map m = {.scale = fmin(wide_mm / sheet->stock->length_mm, high_mm / sheet->stock->width_mm)};
    m.at = (sw_point){box.x0_mm, box.y0_mm + m.scale * sheet->stock->width_mm};
    sw_pen_region(pen, look_pale(), look_dark(0.35), still, m.scale, m.at, &sheet->stock->shape);
    remnant(pen, &m, sheet);
    zones(pen, &m, sheet->stock);
    for (size_t i = 0; i < sheet->place_count; i++)
        show_place(pen, &m, &shapes[sheet->places[i].shape], &sheet->places[i]);
    if (rapids) show_rapids(pen, &m, nest->plans[index]);
    for (size_t i = 0; i < sheet->place_count; i++) {
        const sw_nest_place *place = &sheet->places[i];
        label_place(desk, pen, &m, &shapes[place->shape], place, &labels[place->shape]);
    }
    return remnant_label(run, pen, &m, sheet);
}

/* ---- the page ---- */

static sw_status legend(sw_run *run, sw_pen *pen, const sw_nested *nest, const sw_stove *stove, size_t index,
                        sw_box box)
{
    const sw_nest_sheet *sheet = &nest->result->sheets[index];
    const pen_paint frame = {.stroke = true, .stroke_ink = look_grey(0.1)};
    double x_mm = box.x0_mm, y_mm = box.y0_mm, column_mm = 46.0;
    for (size_t shape = 0; shape < nest->input->shape_count; shape++) {
        size_t count = 0;
        for (size_t i = 0; i < sheet->place_count; i++) count += sheet->places[i].shape == shape;
        if (count == 0) continue;
        if (y_mm + 4.0 > box.y1_mm) y_mm = box.y0_mm, x_mm += column_mm;
        if (x_mm + column_mm > box.x1_mm + 1.0) return SW_OK;
        int tag = nest->input->shapes[shape].tag;
        bool known = tag >= 0 && (size_t)tag < stove->piece_count;
        const char *text =
            sw_text_format(run, run->scratch, "%zu\xc3\x97 %s %s", count, known ? stove->pieces[tag].number : "",
                           known ? stove->pieces[tag].name : nest->input->shapes[shape].name);
        if (text == NULL) return SW_NO_MEMORY;
        text = words_within(run, pen, 1.8, false, column_mm - 8.0, text);
        if (text == NULL) return SW_NO_MEMORY;
        pen_paint chip = frame;
        chip.fill = true;
        chip.fill_ink = look_piece((size_t)tag);
        pen_box(pen, &chip, (sw_box){x_mm, y_mm, x_mm + 4.0, y_mm + 2.4});
        pen_write(pen, (sw_point){x_mm + 5.5, y_mm + 2.1}, look_type(1.8, SW_LEFT), text);
        y_mm += 4.0;
    }
    return SW_OK;
}

static sw_status figures(sw_run *run, sw_pen *pen, const sw_nested *nest, const sw_dossier *d, size_t index, sw_box box)
{
    const sw_nest_sheet *sheet = &nest->result->sheets[index];
    const sw_cut_plan *plan = nest->plans == NULL ? NULL : nest->plans[index];
    const char *currency = d->model.works == NULL ? "" : d->model.works->currency;
    const char *none = "\xe2\x80\x93";
    const strip_cell cells[] = {
        {"stock", sheet->stock->name, 1.5},
        {"sheet",
         sw_text_format(run, run->scratch, "%.0f \xc3\x97 %.0f mm", sheet->stock->length_mm, sheet->stock->width_mm),
         1.5},
        {"cut this layout", sw_text_format(run, run->scratch, "%zu\xc3\x97", sheet->repeat), 0.9},
        {"completes lot", sheet->completes == 0 ? none : sw_text_format(run, run->scratch, "%zu", sheet->completes),
         0.9},
        {"pieces", sw_text_format(run, run->scratch, "%zu", sheet->place_count), 0.7},
        {"density", sw_text_format(run, run->scratch, "%.1f %%", 100.0 * sheet->density), 0.9},
        {"cut length", plan == NULL ? none : sw_text_format(run, run->scratch, "%.1f m", sw_m_from_mm(plan->cut_mm)),
         1.0},
        {"pierces", plan == NULL ? none : sw_text_format(run, run->scratch, "%zu", plan->pierces), 0.8},
        {"machine time", plan == NULL ? none : words_time(run, plan->total_s), 1.2},
        {"cutting cost", plan == NULL ? none : sw_text_format(run, run->scratch, "%.2f %s", plan->cost, currency),
         1.2}};
    enum { CELLS = sizeof cells / sizeof *cells };
    for (size_t i = 0; i < CELLS; i++)
        if (cells[i].value == NULL) return SW_NO_MEMORY;
    return draw_strip(run, pen, box, cells, CELLS);
}

static sw_status page(sw_run *run, const paper_desk *desk, size_t index, size_t sheet, sw_pen *pen)
{
    const sw_dossier *d = desk->d;
    const sw_nested *nest = &d->nests[index];
    const char *title = sw_text_format(run, run->scratch, "%s, sheet layout %zu of %zu", nest->name, sheet + 1,
                                       nest->result->sheet_count);
    if (title == NULL) return SW_NO_MEMORY;
    double right_mm = A4_LONG_MM - 10.0;
    pen_write(pen, (sw_point){10.0, 16.5}, look_type_bold(4.5, SW_LEFT), title);
    const char *stove = words_within(run, pen, 2.4, false, 120.0, d->model.stove->title);
    if (stove == NULL) return SW_NO_MEMORY;
    pen_write(pen, (sw_point){right_mm, 13.5}, look_type_grey(2.4, SW_RIGHT), stove);
    pen_write(pen, (sw_point){right_mm, 17.5}, look_type_grey(2.0, SW_RIGHT), d->date);
    const double foot_mm = A4_SHORT_MM - 10.0 - 4.0;
    const sw_box strip = {10.0, foot_mm - 13.0, right_mm, foot_mm}, drawing = {10.0, 22.0, right_mm, 22.0 + 128.0};
    bool planned = nest->plans != NULL && nest->plans[sheet] != NULL;
    SW_TRY(draw_nest(run, desk, index, sheet, planned, pen, drawing));
    const sw_stock *stock = nest->result->sheets[sheet].stock;
    double scale = fmin((drawing.x1_mm - drawing.x0_mm) / stock->length_mm, 128.0 / stock->width_mm);
    double below_mm = drawing.y0_mm + scale * stock->width_mm;
    sw_pen_line(pen, look_grey(0.2), (sw_point){10.0, below_mm + 3.0},
                (sw_point){10.0 + 100.0 * scale * 5.0, below_mm + 3.0});
    pen_write(pen, (sw_point){12.0 + 100.0 * scale * 5.0, below_mm + 4.0}, look_type_grey(1.8, SW_LEFT),
              planned ? "500 mm; rolling direction along the sheet's length; dashed: the head's way with the beam off"
                      : "500 mm; rolling direction along the sheet's length");
    SW_TRY(legend(run, pen, nest, d->model.stove, sheet, (sw_box){10.0, below_mm + 8.0, right_mm, strip.y0_mm - 2.0}));
    SW_TRY(figures(run, pen, nest, d, sheet, strip));
    return draw_caution(
        run, pen, (sw_point){10.0, A4_SHORT_MM - 8.0},
        "Laser: class 4 beam inside, enclosure shut, fume extraction on. Sheets and skeletons: sharp edges, lift with the gear "
        "inspected for their mass. Cut-outs are hot.");
}

static sw_status marked(sw_run *run, const paper_desk *desk, size_t nest, size_t sheet, sw_pen *file, sw_pen *document)
{
    const char *name = desk->d->nests[nest].name;
    pen_about(file, name, desk->d->date);
    if (document == NULL) return page(run, desk, nest, sheet, file);
    const char *title = sw_text_format(run, run->scratch, "%s, layout %zu", name, sheet + 1);
    if (title == NULL) return SW_NO_MEMORY;
    sw_pen both = pen_pair_of(file, document);
    sw_pen_page(document, A4_LONG_MM, A4_SHORT_MM);
    pen_entry(document, title, title);
    return page(run, desk, nest, sheet, &both);
}

static sw_status written(sw_run *run, const paper_desk *desk, size_t nest, size_t sheet, const char *path,
                         sw_pen *document)
{
    sw_pen *file = NULL;
    SW_TRY(pen_open_lettered(run, path, desk->letters, A4_LONG_MM, A4_SHORT_MM, &file));
    sw_status status = marked(run, desk, nest, sheet, file, document);
    if (status == SW_OK) return sw_pen_close(run, file);
    sw_pen_abandon(file);
    return status;
}

sw_status paper_nest_map(sw_run *run, const paper_desk *desk, size_t nest, size_t sheet, const char *path,
                         sw_pen *document)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = written(run, desk, nest, sheet, path, document);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

sw_status sw_paper_nest_map(sw_run *run, const sw_dossier *d, size_t nest, size_t sheet, const char *path)
{
    SW_ASSERT(nest < d->nest_count && d->nests[nest].result != NULL && sheet < d->nests[nest].result->sheet_count);
    size_t mark = sw_arena_mark(run->scratch);
    paper_desk desk;
    sw_status status = desk_open(run, d, &desk);
    if (status == SW_OK) status = desk_labels(run, &desk, nest);
    if (status == SW_OK) status = paper_nest_map(run, &desk, nest, sheet, path, NULL);
    desk_close(&desk);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
