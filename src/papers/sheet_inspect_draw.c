/* sheet_inspect_draw.c: rows of the inspection plan with boxes for the readings; the gap of a joint as a histogram beside what
 * makes it wide. */
#include "papers/sheets_parts.h"

#include <math.h>
#include <string.h>

/* ---- rows of the plan ---------------------------------------------------------------------------------------------------- */

enum { BOXES_ACROSS = 5, BOXES_MOST = 20 };

#define WORDS_MM 1.85
#define LINE_MM  3.3
#define HEAD_MM  14.0 /* who and when; names of the columns */
#define FOOT_MM  9.0
#define BOX_MM   7.0

/* number | piece, feature | nominal, limits | gauge | sample | readings */
static const double edges_mm[] = {0, 6, 48, 79, 106, 122, DOC_WIDTH_MM};

typedef struct plan_row {
    doc_lines name, gauge;
    const char *number, *nominal, *limits, *sample, *accept, *more;
    size_t boxes;
    double high_mm;
} plan_row;

static sw_status wrapped(sw_run *run, const doc_book *doc, size_t column, const char *text, doc_lines *out)
{
    if (text == NULL) return SW_NO_MEMORY;
    double wide_mm = edges_mm[column + 1] - edges_mm[column] - 2;
    return doc_wrap(run, doc->desk->letters, (doc_measure){WORDS_MM, wide_mm, false}, text, out);
}

static const char *unit_of(const char *unit)
{
    return strcmp(unit, "deg") == 0 ? "\xc2\xb0" : unit;
}

static const char *limit_words(sw_run *run, const sw_fit_inspection *p)
{
    if (!(p->low <= p->high)) return "gauge too coarse";
    return sw_text_format(run, run->scratch, "%.2f to %.2f", p->low, p->high);
}

static sw_status row_of(sw_run *run, const doc_book *doc, size_t index, plan_row *w)
{
    const sw_fit_inspection *p = &doc->d->shop.fit->plan[index];
    const char *unit = unit_of(p->unit);
    size_t sample = p->sampling.sample;
    w->number = sw_text_format(run, run->scratch, "%zu", index + 1);
    w->nominal = sw_text_format(run, run->scratch, "%.2f %s", p->nominal, unit);
    w->limits = limit_words(run, p);
    w->sample = p->sampling.letter == 0 ? "all" : sw_text_format(run, run->scratch, "%zu of %zu", sample, p->lot);
    w->accept = sw_text_format(run, run->scratch, "acc %zu rej %zu", p->sampling.accept, p->sampling.reject);
    SW_TRY(wrapped(run, doc, 1, sw_text_format(run, run->scratch, "%s: %s", p->piece_label, p->feature), &w->name));
    SW_TRY(wrapped(run, doc, 3, sw_text_format(run, run->scratch, "%s, U %.3g %s", p->gauge, p->gauge_u, unit),
                   &w->gauge));
    if (w->number == NULL || w->nominal == NULL || w->limits == NULL || w->sample == NULL || w->accept == NULL)
        return SW_NO_MEMORY;
    if (p->sampling.letter == 0) sample = p->lot;
    w->boxes = sample < BOXES_MOST ? sample : BOXES_MOST;
    w->more = sample <= BOXES_MOST ? "" : sw_text_format(run, run->scratch, "%zu more: overleaf", sample - BOXES_MOST);
    if (w->more == NULL) return SW_NO_MEMORY;
    double lines = fmax(fmax((double)w->name.count, (double)w->gauge.count), 2),
           boxes = ceil((double)w->boxes / BOXES_ACROSS);
    w->high_mm = fmax(LINE_MM * lines + 3.2, (BOX_MM + 1) * boxes + (w->more[0] == '\0' ? 1.6 : 4.6));
    return SW_OK;
}

sw_status inspect_rows(sw_run *run, const doc_book *doc, size_t first, double most_mm, size_t *count, double *high_mm)
{
    const sw_fit_result *r = doc->d->shop.fit;
    *high_mm = HEAD_MM;
    *count = 0;
    for (size_t i = first; i < r->plan_count; i++) {
        plan_row w;
        SW_TRY(row_of(run, doc, i, &w));
        double more_mm = w.high_mm + (i + 1 == r->plan_count ? FOOT_MM : 0);
        if (*high_mm + more_mm > most_mm && *count > 0) return SW_OK;
        *high_mm += more_mm;
        ++*count;
    }
    return SW_OK;
}

static void draw_boxes(sw_pen *pen, sw_box box, const plan_row *w)
{
    const pen_paint frame = {.stroke = true, .stroke_ink = look_dark(0.2)};
    double x0 = box.x0_mm + edges_mm[5], wide = (edges_mm[6] - edges_mm[5]) / BOXES_ACROSS, y = box.y0_mm + 0.8;
    for (size_t i = 0; i < w->boxes; i++) {
        size_t row = i / BOXES_ACROSS;
        double x = x0 + wide * (double)(i % BOXES_ACROSS), top = y + (BOX_MM + 1) * (double)row;
        pen_box(pen, &frame, (sw_box){x, top, x + wide - 1, top + BOX_MM});
    }
    if (w->more[0] != '\0')
        pen_write(pen, (sw_point){box.x1_mm - 1, box.y1_mm - 1.4}, look_type_grey(1.6, SW_RIGHT), w->more);
}

static void draw_row(sw_pen *pen, sw_box box, const plan_row *w)
{
    double x = box.x0_mm, y = box.y0_mm + 3.6;
    pen_type type = look_type(WORDS_MM, SW_LEFT), grey = look_type_grey(WORDS_MM, SW_LEFT);
    pen_write(pen, (sw_point){x + edges_mm[1] - 1.6, y}, look_type_bold(WORDS_MM, SW_RIGHT), w->number);
    sheet_lines(pen, (sw_point){x + edges_mm[1], y}, type, LINE_MM, &w->name);
    pen_write(pen, (sw_point){x + edges_mm[2], y}, type, w->nominal);
    pen_write(pen, (sw_point){x + edges_mm[2], y + LINE_MM}, look_type_bold(WORDS_MM, SW_LEFT), w->limits);
    sheet_lines(pen, (sw_point){x + edges_mm[3], y}, grey, LINE_MM, &w->gauge);
    pen_write(pen, (sw_point){x + edges_mm[4], y}, type, w->sample);
    pen_write(pen, (sw_point){x + edges_mm[4], y + LINE_MM}, look_type_grey(1.7, SW_LEFT), w->accept);
    draw_boxes(pen, box, w);
    sw_pen_line(pen, look_light(0.15), (sw_point){x, box.y1_mm}, (sw_point){box.x1_mm, box.y1_mm});
}

static double draw_head(sw_pen *pen, sw_box box)
{
    static const char *const names[] = {"", "piece: feature", "nominal, limits", "gauge", "sample", "readings"};
    double y = box.y0_mm + HEAD_MM;
    sheet_blank(pen, (sw_point){box.x0_mm, box.y0_mm + 4}, box.x0_mm + 44, "date");
    sheet_blank(pen, (sw_point){box.x0_mm + 50, box.y0_mm + 4}, box.x0_mm + 112, "measured by");
    sheet_blank(pen, (sw_point){box.x0_mm + 118, box.y0_mm + 4}, box.x1_mm, "batch");
    for (size_t i = 1; i < 6; i++)
        pen_write(pen, (sw_point){box.x0_mm + edges_mm[i], y - 1.8}, look_type_grey(WORDS_MM, SW_LEFT), names[i]);
    sw_pen_line(pen, look_dark(0.35), (sw_point){box.x0_mm, y}, (sw_point){box.x1_mm, y});
    return y;
}

sw_status draw_plan_rows(sw_run *run, const doc_book *doc, size_t first, size_t count, sw_pen *pen, sw_box box)
{
    size_t total = doc->d->shop.fit->plan_count;
    double y = draw_head(pen, box);
    for (size_t i = first; i < first + count && i < total; i++) {
        plan_row w;
        SW_TRY(row_of(run, doc, i, &w));
        draw_row(pen, (sw_box){box.x0_mm, y, box.x1_mm, y + w.high_mm}, &w);
        y += w.high_mm;
    }
    if (first + count < total) return SW_OK;
    sheet_blank(pen, (sw_point){box.x0_mm, y + 7}, box.x0_mm + 108, "lot accepted: yes / no, remarks");
    sheet_blank(pen, (sw_point){box.x0_mm + 114, y + 7}, box.x1_mm, "signature");
    return SW_OK;
}

/* ---- a joint ---------------------------------------------------------------------------------------------------------------- */

static sw_status draw_bins(sw_run *run, sw_pen *pen, sw_box in, const sw_fit_joint *j)
{
    static const double dash[] = {1.6, 0.9};
    double most = 1e-6, end_mm = j->bin_mm * SW_FIT_BINS;
    for (int i = 0; i < SW_FIT_BINS; i++) most = fmax(most, j->bins[i]);
    sheet_scale along = {0, fmax(end_mm, j->limit_mm + j->bin_mm)}, up = {0, 110 * most};
    SW_TRY(sheet_ticks_along(run, pen, in, along));
    SW_TRY(sheet_ticks_up(run, pen, in, up));
    for (int i = 0; i < SW_FIT_BINS; i++) {
        double from = j->bin_mm * i;
        bool wide = from >= j->limit_mm - 1e-9;
        const pen_paint bar = {
            .fill = true, .fill_ink = wide ? look_rust(0) : look_group(0), .stroke = true, .stroke_ink = look_white()};
        if (j->bins[i] <= 0) continue;
        pen_paint edge = bar;
        edge.stroke_ink.width_mm = 0.15;
        pen_box(pen, &edge,
                (sw_box){sheet_on(along, from, in.x0_mm, in.x1_mm), sheet_on(up, 100 * j->bins[i], in.y1_mm, in.y0_mm),
                         sheet_on(along, from + j->bin_mm, in.x0_mm, in.x1_mm), in.y1_mm});
    }
    sw_pen_line(pen, look_dark(0.25), (sw_point){in.x0_mm, in.y1_mm}, (sw_point){in.x1_mm, in.y1_mm});
    double x = sheet_on(along, j->limit_mm, in.x0_mm, in.x1_mm);
    if (!(x >= in.x0_mm && x <= in.x1_mm)) return SW_OK;
    sw_pen_line(pen, look_dashed(look_rust(0.4), dash, 2), (sw_point){x, in.y0_mm - 2}, (sw_point){x, in.y1_mm});
    pen_type type = look_type_bold(SHEET_SMALL_MM, SW_RIGHT);
    type.ink = look_rust(0);
    const char *text = sw_text_format(run, run->scratch, "limit %.2f", j->limit_mm);
    if (text == NULL) return SW_NO_MEMORY;
    bool left = x - pen_width(pen, SHEET_SMALL_MM, true, text) > in.x0_mm;
    type.align = left ? SW_RIGHT : SW_LEFT;
    pen_write(pen, (sw_point){x + (left ? -1.2 : 1.2), in.y0_mm - 0.6}, type, text);
    return SW_OK;
}

static sw_status draw_shares(sw_run *run, sw_pen *pen, sw_box box, const sw_fit_joint *j)
{
    const double name_mm = 20, pitch_mm = 4.4;
    double wide = box.x1_mm - box.x0_mm - name_mm - 12, y = box.y0_mm;
    for (int i = 0; i < SW_FIT_OPERATIONS; i++) {
        double share = j->by_operation[i];
        const char *value =
            share > 0 && share < 0.005 ? "< 1 %" : sw_text_format(run, run->scratch, "%.0f %%", 100 * share);
        if (value == NULL) return SW_NO_MEMORY;
        const pen_paint bar = {.fill = true, .fill_ink = share >= 0.3 ? look_rust(0) : look_group(0)};
        double x = box.x0_mm + name_mm, end = x + wide * fmin(fmax(share, 0), 1);
        pen_write(pen, (sw_point){x - 1.5, y + 3}, look_type(SHEET_SMALL_MM, SW_RIGHT),
                  sw_fit_operation_name((sw_fit_operation)i));
        if (end > x + 0.05) pen_box(pen, &bar, (sw_box){x, y + 0.7, end, y + 3.6});
        pen_write(pen, (sw_point){end + 1.2, y + 3}, look_type_grey(SHEET_SMALL_MM, SW_LEFT), value);
        y += pitch_mm;
    }
    sw_pen_line(pen, look_dark(0.2), (sw_point){box.x0_mm + name_mm, box.y0_mm}, (sw_point){box.x0_mm + name_mm, y});
    return SW_OK;
}

/* The three contributors that count most, below the bars. */
static sw_status draw_contributors(sw_run *run, sw_pen *pen, sw_box box, const sw_fit_result *r, const sw_fit_joint *j)
{
    double y = box.y0_mm;
    for (int i = 0; i < 3 && j->shares[i].share > 0.005; i++) {
        const char *text = sw_text_format(run, run->scratch, "%.0f %%  %s", 100 * j->shares[i].share,
                                          r->contributors[j->shares[i].contributor].name);
        if (text != NULL) text = words_within(run, pen, 1.7, false, box.x1_mm - box.x0_mm, text);
        if (text == NULL) return SW_NO_MEMORY;
        pen_write(pen, (sw_point){box.x0_mm, y}, look_type_grey(1.7, SW_LEFT), text);
        y += 3.5;
    }
    return SW_OK;
}

sw_status draw_joint(sw_run *run, const doc_book *doc, size_t joint, size_t unused, sw_pen *pen, sw_box box)
{
    (void)unused;
    const sw_fit_result *r = doc->d->shop.fit;
    const sw_fit_joint *j = &r->joints[joint];
    const sw_box in = {box.x0_mm + 13, box.y0_mm + 9, box.x0_mm + 92, box.y1_mm - 8.5},
                 bars = {box.x0_mm + 100, box.y0_mm + 9, box.x1_mm, box.y0_mm + 36},
                 words = {box.x0_mm + 100, bars.y1_mm + 3.4, box.x1_mm, box.y1_mm};
    const char *title = words_within(run, pen, 2.1, true, 88, j->joint->name);
    if (title == NULL) return SW_NO_MEMORY;
    pen_write(pen, (sw_point){box.x0_mm, box.y0_mm + 4}, look_type_bold(2.1, SW_LEFT), title);
    pen_write(pen, (sw_point){box.x0_mm + 100, box.y0_mm + 4}, look_type_grey(SHEET_SMALL_MM, SW_LEFT),
              "shares of the variance at the likeliest place");
    SW_TRY(draw_bins(run, pen, in, j));
    pen_write(pen, (sw_point){(in.x0_mm + in.x1_mm) / 2, in.y1_mm + 6.8}, look_type_grey(SHEET_SMALL_MM, SW_CENTRE),
              "widest gap, mm");
    pen_type upright = look_type_grey(SHEET_SMALL_MM, SW_CENTRE);
    upright.turn_rad = SW_PI / 2;
    pen_write(pen, (sw_point){box.x0_mm + 2.5, (in.y0_mm + in.y1_mm) / 2}, upright, "stoves, %");
    SW_TRY(draw_shares(run, pen, bars, j));
    return draw_contributors(run, pen, words, r, j);
}
