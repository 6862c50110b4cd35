/* sheets.c: what the sheets of the workshop share: a document of its own, facts in two columns, open points, scales. */
#include "papers/chart_parts.h"
#include "papers/sheets_parts.h"

#include <math.h>

enum { POINTS_MOST = 12, TICKS_MOST = 24 };

static sw_status rendered(sw_run *run, const paper_desk *desk, const char *title, sheet_content *content,
                          const char *path)
{
    const sw_dossier *d = desk->d;
    const char *works = d->model.works == NULL ? "no works given" : d->model.works->name;
    doc_book doc = {.d = d, .desk = desk};
    doc.title = sw_text_format(run, run->scratch, "%s: %s", title, d->model.stove->title);
    doc.subtitle = sw_text_format(
        run, run->scratch, "Works: %s. Batch of %zu. From %s%s%s, %s. stovewright " SW_VERSION ".", works, d->batch,
        d->model.stove_file, d->model.works_file[0] == '\0' ? "" : " and ", d->model.works_file, d->date);
    if (doc.title == NULL || doc.subtitle == NULL) return SW_NO_MEMORY;
    SW_TRY(content(run, &doc));
    return doc_to_pdf(run, &doc, path);
}

sw_status sheet_write(sw_run *run, const paper_desk *desk, const char *title, sheet_content *content, const char *path)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = rendered(run, desk, title, content, path);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

sw_status sheet_items(sw_run *run, doc_book *doc, const char *const *texts, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (texts[i] == NULL) return SW_NO_MEMORY;
        SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_ITEM, .text = texts[i]}));
    }
    return SW_OK;
}

sw_status sheet_open_points(sw_run *run, doc_book *doc, const sw_findings *findings)
{
    size_t total = 0, shown = 0;
    for (size_t i = 0; i < findings->count; i++) total += findings->items[i].verdict != SW_HOLDS;
    if (total == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "Open points"));
    static const sw_verdict order[] = {SW_FAILS, SW_WATCH, SW_UNKNOWN};
    for (size_t k = 0; k < sizeof order / sizeof *order; k++)
        for (size_t i = 0; i < findings->count && shown < POINTS_MOST; i++) {
            if (findings->items[i].verdict != order[k]) continue;
            SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_FINDING, .finding = &findings->items[i]}));
            shown++;
        }
    if (shown == total) return SW_OK;
    return doc_paragraph(run, doc, sw_text_format(run, run->scratch, "%zu more stand in the dossier.", total - shown));
}

sw_status sheet_facts(sw_run *run, doc_book *doc, const sheet_fact *facts, size_t count)
{
    static const doc_column columns[] = {
        {"", 3.0, SW_LEFT}, {"", 2.4, SW_LEFT}, {"", 3.0, SW_LEFT}, {"", 2.4, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = 4};
    size_t half = (count + 1) / 2;
    for (size_t i = 0; i < half; i++) {
        bool second = half + i < count;
        const char *const cells[] = {facts[i].name, facts[i].value, second ? facts[half + i].name : "",
                                     second ? facts[half + i].value : ""};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

sw_status sheet_put(sw_run *run, doc_book *doc, sheet_figure f)
{
    if (f.caption == NULL) return SW_NO_MEMORY;
    return doc_add(run, doc,
                   (doc_block){.kind = DOC_FIGURE,
                               .text = f.caption,
                               .figure = {.draw = f.draw, .a = f.a, .b = f.b, .height_mm = f.high_mm}});
}

/* ---- words -------------------------------------------------------------------------------------------------------------- */

const char *sheet_fixed(sw_run *run, double value, int decimals)
{
    if (!isfinite(value)) return "\xe2\x80\x93";
    double least = 0.5 * pow(10, -decimals); /* no "-0" */
    return sw_text_format(run, run->scratch, "%.*f", decimals, fabs(value) < least ? 0.0 : value);
}

const char *sheet_place(sw_run *run, sw_vec3 p)
{
    const char *x = sheet_fixed(run, p.x_mm, 0), *y = sheet_fixed(run, p.y_mm, 0), *z = sheet_fixed(run, p.z_mm, 0);
    if (x == NULL || y == NULL || z == NULL) return NULL;
    return sw_text_format(run, run->scratch, "%s, %s, %s", x, y, z);
}

const char *sheet_celsius(sw_run *run, double t_k)
{
    return sheet_fixed(run, sw_c_from_k(t_k), 0);
}

/* ---- scales ------------------------------------------------------------------------------------------------------------- */

double sheet_on(sheet_scale s, double value, double from_mm, double to_mm)
{
    return from_mm + (to_mm - from_mm) * (value - s.low) / (s.high - s.low);
}

sw_status sheet_ticks_up(sw_run *run, sw_pen *pen, sw_box in, sheet_scale s)
{
    double step = chart_step(s.high - s.low, fmax(2, (in.y1_mm - in.y0_mm) / 8));
    for (int k = 0; k < TICKS_MOST; k++) {
        double v = (ceil(s.low / step - 1e-9) + k) * step, y = sheet_on(s, v, in.y1_mm, in.y0_mm);
        if (v > s.high + 1e-9 * step) break;
        const char *text = chart_tick(run, v, step);
        if (text == NULL) return SW_NO_MEMORY;
        sw_pen_line(pen, look_light(0.12), (sw_point){in.x0_mm, y}, (sw_point){in.x1_mm, y});
        pen_write(pen, (sw_point){in.x0_mm - 1.5, y + SHEET_SMALL_MM / 2}, look_type_grey(SHEET_SMALL_MM, SW_RIGHT),
                  text);
    }
    return SW_OK;
}

sw_status sheet_ticks_along(sw_run *run, sw_pen *pen, sw_box in, sheet_scale s)
{
    double step = chart_step(s.high - s.low, fmax(2, (in.x1_mm - in.x0_mm) / 14));
    for (int k = 0; k < TICKS_MOST; k++) {
        double v = (ceil(s.low / step - 1e-9) + k) * step, x = sheet_on(s, v, in.x0_mm, in.x1_mm);
        if (v > s.high + 1e-9 * step) break;
        const char *text = chart_tick(run, v, step);
        if (text == NULL) return SW_NO_MEMORY;
        sw_pen_line(pen, look_light(0.12), (sw_point){x, in.y0_mm}, (sw_point){x, in.y1_mm});
        pen_write(pen, (sw_point){x, in.y1_mm + 3.2}, look_type_grey(SHEET_SMALL_MM, SW_CENTRE), text);
    }
    return SW_OK;
}

void sheet_blank(sw_pen *pen, sw_point at, double to_mm, const char *name)
{
    pen_write(pen, at, look_type_grey(SHEET_SMALL_MM, SW_LEFT), name);
    double from = at.x_mm + pen_width(pen, SHEET_SMALL_MM, false, name) + 1.5;
    sw_pen_line(pen, look_grey(0.2), (sw_point){from, at.y_mm + 0.8}, (sw_point){to_mm, at.y_mm + 0.8});
}

void sheet_lines(sw_pen *pen, sw_point at, pen_type type, double line_mm, const doc_lines *lines)
{
    for (size_t i = 0; i < lines->count; i++)
        pen_write(pen, (sw_point){at.x_mm, at.y_mm + line_mm * (double)i}, type, lines->lines[i]);
}
