/* house_record.c: the form of the first fire, to be filled in by hand: what to read and when, what this house should give, where to
 * stop, what to do. The names in small print are those that --record reads back. */
#include "papers/house_parts.h"

#include <math.h>
#include <string.h>

#define MOST_MM  243.0 /* of a page */
#define HEAD_MM  34.0  /* of the first page: who, when, weather; the table's head */
#define NEXT_MM  16.0  /* of the others: date; the table's head */
#define FOOT_MM  29.0  /* of the last page: remarks, signatures */
#define LEAST_MM 10.4  /* a row: room for a hand */
#define LINE_MM  2.8
#define WORDS_MM 1.9

/* Columns: reading | when | should be | stop | read | in order */
static const double edges_mm[] = {0, 33, 93, 115, 133, 153, DOC_WIDTH_MM};

typedef struct row_words {
    doc_lines name, when, band, stop, remedy;
    double high_mm;
} row_words;

static const char *plain_name(sw_run *run, const char *name)
{
    static const char *const units[] = {"_pa", "_c", "_percent", "_ppm"},
                             *const said[][2] = {{"flue_co2_percent", "CO\xe2\x82\x82 of the flue gas"},
                                                 {"co_rise_ppm", "carbon monoxide, rise"},
                                                 {"co_alarm_sounds", "CO alarm sounds"},
                                                 {"co_alarm_sited", "CO alarm in its place"},
                                                 {"smoke_spillage_fans", "smoke spillage, fans on"},
                                                 {"room_depression_pa", "room below outside"}};
    for (size_t i = 0; i < sizeof said / sizeof *said; i++)
        if (strcmp(name, said[i][0]) == 0) return said[i][1];
    char *text = (char *)(uintptr_t)sw_text_copy(run, run->scratch, name);
    if (text == NULL) return NULL;
    for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
        size_t n = strlen(text), k = strlen(units[i]);
        if (n > k && strcmp(text + n - k, units[i]) == 0) text[n - k] = '\0';
    }
    for (char *c = text; *c != '\0'; c++)
        if (*c == '_') *c = ' ';
    return text;
}

/* As many digits as an instrument shows. */
static const char *told(sw_run *run, double value)
{
    return words_number(run, value, fabs(value) < 100 ? 1 : 0);
}

static const char *unit_of(const sw_expected *e)
{
    return strcmp(e->unit, "degC") == 0 ? CELSIUS_C : e->unit;
}

static const char *band_words(sw_run *run, const sw_expected *e)
{
    if (e->yes_no) return e->expected > 0.5 ? "yes" : "no";
    const char *low = told(run, e->low), *high = told(run, e->high), *mean = told(run, e->expected), *unit = unit_of(e);
    if (low == NULL || high == NULL || mean == NULL) return NULL;
    if (isfinite(e->low) && isfinite(e->high)) return sw_text_format(run, run->scratch, "%s to %s %s", low, high, unit);
    if (isfinite(e->low)) return sw_text_format(run, run->scratch, "at least %s %s", low, unit);
    if (isfinite(e->high)) return sw_text_format(run, run->scratch, "at most %s %s", high, unit);
    return isfinite(e->expected) ? sw_text_format(run, run->scratch, "near %s %s", mean, unit) : "write down";
}

/* Where the fire is stopped; between here and the band it is watched. */
static const char *stop_words(sw_run *run, const sw_expected *e)
{
    if (e->yes_no) return e->expected > 0.5 ? "if no" : "if yes";
    double low = isfinite(e->stop_low) ? e->stop_low : e->low, high = isfinite(e->stop_high) ? e->stop_high : e->high;
    const char *a = told(run, low), *b = told(run, high);
    if (a == NULL || b == NULL) return NULL;
    if (isfinite(low) && isfinite(high)) return sw_text_format(run, run->scratch, "below %s, above %s", a, b);
    if (isfinite(low)) return sw_text_format(run, run->scratch, "below %s", a);
    if (isfinite(high)) return sw_text_format(run, run->scratch, "above %s", b);
    return "\xe2\x80\x93";
}

static sw_status wrapped(sw_run *run, lettering *letters, double wide_mm, bool bold, const char *text, doc_lines *out)
{
    *out = (doc_lines){0};
    if (text == NULL) return SW_NO_MEMORY;
    return text[0] == '\0' ? SW_OK : doc_wrap(run, letters, (doc_measure){WORDS_MM, wide_mm - 2.4, bold}, text, out);
}

static double column_mm(size_t i)
{
    return edges_mm[i + 1] - edges_mm[i];
}

static sw_status words_of(sw_run *run, const paper_desk *desk, const sw_expected *e, row_words *w)
{
    const char *band = band_words(run, e),
               *remedy = e->remedy[0] == '\0' ? "" : sw_text_format(run, run->scratch, "Else: %s.", e->remedy);
    if (band != NULL && !e->yes_no && isfinite(e->expected) && e->expected != e->low &&
        (isfinite(e->low) || isfinite(e->high)))
        band = sw_text_format(run, run->scratch, "%s; computed %.0f", band, e->expected);
    SW_TRY(wrapped(run, desk->letters, column_mm(0), true, plain_name(run, e->name), &w->name));
    SW_TRY(wrapped(run, desk->letters, column_mm(1), false, e->when, &w->when));
    SW_TRY(wrapped(run, desk->letters, column_mm(2), false, band, &w->band));
    SW_TRY(wrapped(run, desk->letters, column_mm(3), false, stop_words(run, e), &w->stop));
    SW_TRY(wrapped(run, desk->letters, edges_mm[4], false, remedy, &w->remedy));
    double most = fmax(fmax((double)w->name.count + 1, (double)w->when.count),
                       fmax((double)w->band.count, (double)w->stop.count));
    w->high_mm = fmax(LEAST_MM, LINE_MM * (most + (double)w->remedy.count) + 2.4);
    return SW_OK;
}

/* All rows on one page; or, where that is too much, half of them on each of two. */
static sw_status room_for(sw_run *run, const paper_desk *desk, double *most_mm)
{
    const sw_site_result *s = desk->d->housed->site;
    double rows_mm = 0;
    for (size_t i = 0; i < s->expected_count; i++) {
        row_words w;
        SW_TRY(words_of(run, desk, &s->expected[i], &w));
        rows_mm += w.high_mm;
    }
    *most_mm = HEAD_MM + rows_mm + FOOT_MM <= MOST_MM ? MOST_MM : fmin(MOST_MM, HEAD_MM + rows_mm / 2);
    return SW_OK;
}

sw_status record_rows(sw_run *run, const paper_desk *desk, size_t first, size_t *count, double *high_mm)
{
    const sw_site_result *s = desk->d->housed->site;
    double most_mm = MOST_MM;
    if (first == 0) SW_TRY(room_for(run, desk, &most_mm));
    *high_mm = first == 0 ? HEAD_MM : NEXT_MM;
    *count = 0;
    for (size_t i = first; i < s->expected_count; i++) {
        row_words w;
        SW_TRY(words_of(run, desk, &s->expected[i], &w));
        double more_mm = w.high_mm + (i + 1 == s->expected_count ? FOOT_MM : 0);
        if (*high_mm + more_mm > most_mm && *count > 0) return SW_OK;
        *high_mm += more_mm;
        ++*count;
    }
    return SW_OK;
}

/* ---- drawing ------------------------------------------------------------------------------------------------------------ */

static void blank(sw_pen *pen, double x, double y, double to, const char *name)
{
    pen_write(pen, (sw_point){x, y}, look_type_grey(WORDS_MM, SW_LEFT), name);
    double from = x + pen_width(pen, WORDS_MM, false, name) + 1.5;
    sw_pen_line(pen, look_grey(0.2), (sw_point){from, y + 0.8}, (sw_point){to, y + 0.8});
}

/* Names of the columns, over the line at y. */
static void draw_columns(sw_pen *pen, sw_box box, double y)
{
    static const char *const names[] = {"reading", "when and where", "should be", "fails: stop", "read", "in order?"};
    for (size_t i = 0; i < 6; i++)
        pen_write(pen, (sw_point){box.x0_mm + edges_mm[i] + 1.2, y - 2.4}, look_type_grey(WORDS_MM, SW_LEFT), names[i]);
    sw_pen_line(pen, look_dark(0.4), (sw_point){box.x0_mm, y}, (sw_point){box.x1_mm, y});
}

static double draw_head(sw_pen *pen, sw_box box, bool whole)
{
    double x = box.x0_mm, y = box.y0_mm + 4, end = box.y0_mm + (whole ? HEAD_MM : NEXT_MM);
    blank(pen, x, y, x + 56, "date");
    blank(pen, x + 60, y, x + 116, "fitter");
    blank(pen, x + 120, y, box.x1_mm, whole ? "licence no." : "stove's serial no.");
    draw_columns(pen, box, end);
    if (!whole) return end;
    blank(pen, x, y + 8, x + 56, "stove's serial no.");
    blank(pen, x + 60, y + 8, x + 116, "outside, " CELSIUS_C);
    blank(pen, x + 120, y + 8, box.x1_mm, "wind");
    blank(pen, x, y + 16, x + 116, "instruments, with their last calibration");
    blank(pen, x + 120, y + 16, box.x1_mm, "wood, % water");
    return end;
}

static void put_lines(sw_pen *pen, double x, double y, pen_type type, const doc_lines *lines)
{
    for (size_t i = 0; i < lines->count; i++)
        pen_write(pen, (sw_point){x, y + LINE_MM * (double)i}, type, lines->lines[i]);
}

static void tick_box(sw_pen *pen, double x, double y, const char *name)
{
    const pen_paint frame = {.stroke = true, .stroke_ink = look_dark(0.25)};
    pen_box(pen, &frame, (sw_box){x, y, x + 3.6, y + 3.6});
    pen_write(pen, (sw_point){x + 4.6, y + 2.8}, look_type(WORDS_MM, SW_LEFT), name);
}

static void draw_row(sw_pen *pen, sw_box box, const sw_expected *e, const row_words *w)
{
    const pen_paint frame = {.fill = true, .fill_ink = look_white(), .stroke = true, .stroke_ink = look_dark(0.25)};
    double x = box.x0_mm, y = box.y0_mm + 3.2,
           most = fmax(fmax((double)w->name.count + 1, (double)w->when.count),
                       fmax((double)w->band.count, (double)w->stop.count));
    put_lines(pen, x + 1.2, y, look_type_bold(WORDS_MM, SW_LEFT), &w->name);
    pen_write(pen, (sw_point){x + 1.2, y + LINE_MM * (double)w->name.count}, look_type_grey(1.45, SW_LEFT), e->name);
    put_lines(pen, x + edges_mm[1] + 1.2, y, look_type(WORDS_MM, SW_LEFT), &w->when);
    put_lines(pen, x + edges_mm[2] + 1.2, y, look_type(WORDS_MM, SW_LEFT), &w->band);
    put_lines(pen, x + edges_mm[3] + 1.2, y, look_type(WORDS_MM, SW_LEFT), &w->stop);
    put_lines(pen, x + 1.2, y + LINE_MM * most + 0.4, look_type_grey(WORDS_MM, SW_LEFT), &w->remedy);
    double read_x = x + edges_mm[4] + 0.8, read_y = box.y0_mm + 1.2;
    if (e->yes_no) {
        tick_box(pen, read_x, read_y + 2.2, "yes");
        tick_box(pen, read_x + 10.5, read_y + 2.2, "no");
    } else {
        pen_box(pen, &frame, (sw_box){read_x, read_y, x + edges_mm[5] - 1.6, read_y + 8.0});
        pen_write(pen, (sw_point){x + edges_mm[5] - 2.4, read_y + 7.2}, look_type_grey(1.5, SW_RIGHT), unit_of(e));
    }
    tick_box(pen, x + edges_mm[5] + 0.8, read_y + 2.2, "yes");
    tick_box(pen, x + edges_mm[5] + 11.4, read_y + 2.2, "no");
    sw_pen_line(pen, look_light(0.2), (sw_point){x, box.y1_mm}, (sw_point){box.x1_mm, box.y1_mm});
}

static void draw_foot(sw_pen *pen, sw_box box, double y)
{
    blank(pen, box.x0_mm, y + 8, box.x1_mm, "remarks");
    tick_box(pen, box.x0_mm, y + 12, "all in order: the stove may be used");
    tick_box(pen, box.x0_mm + 72, y + 12, "not in order: fire out, stove shut off and labelled");
    blank(pen, box.x0_mm, y + 25, box.x0_mm + 82, "fitter's signature");
    blank(pen, box.x0_mm + 90, y + 25, box.x1_mm, "owner's signature");
}

sw_status draw_record(sw_run *run, const paper_desk *desk, size_t first, size_t count, sw_pen *pen, sw_box box)
{
    const sw_site_result *s = desk->d->housed->site;
    double y = draw_head(pen, box, first == 0);
    for (size_t i = first; i < first + count && i < s->expected_count; i++) {
        row_words w;
        SW_TRY(words_of(run, desk, &s->expected[i], &w));
        draw_row(pen, (sw_box){box.x0_mm, y, box.x1_mm, y + w.high_mm}, &s->expected[i], &w);
        y += w.high_mm;
    }
    if (first + count >= s->expected_count) draw_foot(pen, box, y);
    return SW_OK;
}
