/* log_statistics.c: capability over batches, scrap over months, time actual against planned: tables with bars. */
#include "papers/log_parts.h"

#include <math.h>

enum { ROWS_A_FIGURE = 30 };
#define ROW_MM 5.4

typedef struct bar {
    const char *name, *text;
    double value;
    bool bad;
} bar;

typedef enum bars_of { OF_CAPABILITY, OF_SCRAP, OF_PACE } bars_of;

static const double cpk_least = 1.33; /* four standard deviations to the nearer limit: common practice, no source */

static size_t bar_count(const sw_log_statistics *s, bars_of of)
{
    return of == OF_CAPABILITY ? s->capability_count : of == OF_SCRAP ? s->scrap_count : s->pace_count;
}

static sw_status bar_at(sw_run *run, const sw_log_statistics *s, bars_of of, size_t i, bar *b)
{
    if (of == OF_CAPABILITY) {
        const sw_log_capability *c = &s->capability[i];
        const char *name = sw_text_format(run, run->scratch, "%s, %s", c->feature, c->batch);
        const char *text = isfinite(c->cpk) ? sw_text_format(run, run->scratch, "%.2f", c->cpk) : "not known";
        *b = (bar){name, text, c->cpk, c->cpk < cpk_least};
    } else if (of == OF_SCRAP) {
        const sw_log_scrap *m = &s->scrap[i];
        double share = m->sheet_kg > 0 ? 100 * m->scrap_kg / m->sheet_kg : (double)NAN;
        const char *text = isnan(share) ? "no steel told"
                                        : sw_text_format(run, run->scratch, "%.1f %%, %.0f of %.0f kg", share,
                                                         m->scrap_kg, m->sheet_kg);
        *b = (bar){m->month, text, share, false};
    } else {
        const sw_log_pace *p = &s->pace[i];
        double share = p->planned_s > 0 ? 100 * p->actual_s / p->planned_s : (double)NAN;
        const char *text =
            isnan(share) ? "nothing planned" : sw_text_format(run, run->scratch, "%.0f %%, %zu times", share, p->count);
        *b = (bar){p->operation, text, share, share > 100};
    }
    return b->name == NULL || b->text == NULL ? SW_NO_MEMORY : SW_OK;
}

static double mark_of(bars_of of)
{
    return of == OF_CAPABILITY ? cpk_least : of == OF_PACE ? 100 : (double)NAN;
}

/* a: bars_of; b: the first bar. */
static sw_status draw_bars(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    const sw_log_statistics *s = doc->logged->statistics;
    bars_of of = (bars_of)a;
    const double names_mm = 58, texts_mm = 34, small_mm = 1.9;
    size_t end = bar_count(s, of);
    double most = isnan(mark_of(of)) ? 1 : 1.2 * mark_of(of);
    bar item;
    for (size_t i = 0; i < end; i++) {
        SW_TRY(bar_at(run, s, of, i, &item));
        if (isfinite(item.value)) most = fmax(most, item.value);
    }
    if (end > b + ROWS_A_FIGURE) end = b + ROWS_A_FIGURE;
    double from = box.x0_mm + names_mm, wide = box.x1_mm - texts_mm - from, y = box.y0_mm;
    for (size_t i = b; i < end; i++) {
        SW_TRY(bar_at(run, s, of, i, &item));
        const char *name = words_within(run, pen, small_mm, false, names_mm - 3, item.name);
        if (name == NULL) return SW_NO_MEMORY;
        double to = from + wide * fmax(isfinite(item.value) ? item.value : 0, 0) / most;
        const pen_paint paint = {.fill = true, .fill_ink = item.bad ? look_rust(0) : look_grey(0)};
        pen_write(pen, (sw_point){from - 2, y + 3.6}, look_type(small_mm, SW_RIGHT), name);
        if (to > from) pen_box(pen, &paint, (sw_box){from, y + 1, to, y + ROW_MM - 0.8});
        pen_write(pen, (sw_point){to + 1.5, y + 3.6}, look_type_grey(small_mm, SW_LEFT), item.text);
        y += ROW_MM;
    }
    sw_pen_line(pen, look_grey(0.2), (sw_point){from, box.y0_mm}, (sw_point){from, y});
    double mark = from + wide * mark_of(of) / most;
    if (isfinite(mark)) sw_pen_line(pen, look_dark(0.3), (sw_point){mark, box.y0_mm}, (sw_point){mark, y});
    return SW_OK;
}

static sw_status part(sw_run *run, doc_book *doc, bars_of of, const char *title, const char *caption)
{
    size_t count = bar_count(doc->logged->statistics, of);
    if (count == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, title));
    for (size_t first = 0; first < count; first += ROWS_A_FIGURE) {
        size_t rows = count - first < ROWS_A_FIGURE ? count - first : ROWS_A_FIGURE;
        const doc_figure f = {.draw = draw_bars, .a = (size_t)of, .b = first, .height_mm = ROW_MM * (double)rows + 1};
        SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_FIGURE, .text = caption, .figure = f}));
    }
    return SW_OK;
}

static const char *figure(sw_run *run, double value)
{
    return isfinite(value) ? sw_text_format(run, run->scratch, "%.4g", value) : "\xe2\x80\x93";
}

static sw_status capability(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"feature", 2.6, SW_LEFT}, {"batch", 1.3, SW_LEFT},  {"unit", 0.8, SW_LEFT},
                                         {"readings", 1, SW_RIGHT}, {"outside", 1, SW_RIGHT}, {"mean", 1.1, SW_RIGHT},
                                         {"s", 1.1, SW_RIGHT},      {"least", 1, SW_RIGHT},   {"most", 1, SW_RIGHT},
                                         {"Cpk", 1, SW_RIGHT}};
    doc_table table = {.columns = columns, .column_count = sizeof columns / sizeof *columns, .dense = true};
    const sw_log_statistics *s = doc->logged->statistics;
    for (size_t i = 0; i < s->capability_count; i++) {
        const sw_log_capability *c = &s->capability[i];
        const char *const cells[] = {c->feature,
                                     c->batch,
                                     c->unit,
                                     sw_text_format(run, run->scratch, "%zu", c->count),
                                     sw_text_format(run, run->scratch, "%zu", c->outside),
                                     figure(run, c->mean),
                                     figure(run, c->sigma),
                                     figure(run, c->low),
                                     figure(run, c->high),
                                     figure(run, c->cpk)};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

sw_status logged_statistics(sw_run *run, doc_book *doc)
{
    const sw_log_statistics *s = doc->logged->statistics;
    if (s->capability_count + s->scrap_count + s->pace_count == 0)
        return doc_paragraph(run, doc, "Nothing to count yet: no inspections, no cuttings, no times are recorded.");
    SW_TRY(part(
        run, doc, OF_CAPABILITY, "Capability over batches",
        "Cpk = distance of the mean to the nearer limit over 3 s (ISO 22514-2, from memory), of the records that hold. Upright line: "
        "1.33 (common practice, no source). A Cpk of few readings is uncertain."));
    SW_TRY(capability(run, doc));
    SW_TRY(part(run, doc, OF_SCRAP, "Scrap over months", "Scrap as a share of the steel cut in that month."));
    return part(run, doc, OF_PACE, "Time, actual against planned",
                "Of the records that have both; upright line: as planned.");
}
