/* log_label.c: labels of stoves: the serial number in letters and as a QR code (ISO/IEC 18004, made by libqrencode). */
#include "papers/log_parts.h"

#include <errno.h>
#include <qrencode.h>
#include <stdlib.h>

#define LABEL_WIDE_MM 100.0
#define LABEL_HIGH_MM 50.0
#define EDGE_MM       4.0

enum { QUIET = 4 }; /* modules left free around a code */

static void draw_modules(const QRcode *code, sw_pen *pen, sw_box box)
{
    const pen_paint black = {.fill = true, .fill_ink = {0, 0, 0, 0, NULL, 0}};
    double step_mm = (box.x1_mm - box.x0_mm) / (code->width + 2 * QUIET);
    for (int row = 0; row < code->width; row++) {
        for (int from = 0, to = 0; from < code->width; from = to + 1) { /* runs of dark modules as one bar */
            while (from < code->width && (code->data[row * code->width + from] & 1) == 0) from++;
            for (to = from; to < code->width && (code->data[row * code->width + to] & 1) != 0;) to++;
            if (to == from) break;
            pen_box(pen, &black,
                    (sw_box){box.x0_mm + step_mm * (from + QUIET), box.y0_mm + step_mm * (row + QUIET),
                             box.x0_mm + step_mm * (to + QUIET), box.y0_mm + step_mm * (row + QUIET + 1)});
        }
    }
}

sw_status draw_qr(sw_run *run, sw_pen *pen, sw_box box, const char *text)
{
    const pen_paint white = {.fill = true, .fill_ink = look_white()};
    QRcode *code = QRcode_encodeString8bit(text, 0, QR_ECLEVEL_M);
    if (code == NULL && errno == ENOMEM)
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "label", "no memory for a code");
    if (code == NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "label",
                       "\"%s\" finds no room in a code; take a shorter number", text);
    pen_box(pen, &white, box);
    draw_modules(code, pen, box);
    QRcode_free(code);
    return SW_OK;
}

static sw_status draw_label(sw_run *run, const sw_label *l, sw_pen *pen)
{
    const double code_mm = LABEL_HIGH_MM - 2 * EDGE_MM, words_x = EDGE_MM + code_mm + 3,
                 room_mm = LABEL_WIDE_MM - EDGE_MM - words_x;
    const char *const small[][2] = {{"model", l->model}, {"batch", l->batch}, {"works", l->works}};
    SW_TRY(draw_qr(run, pen, (sw_box){EDGE_MM, EDGE_MM, EDGE_MM + code_mm, EDGE_MM + code_mm}, l->serial));
    double size_mm = 6, wide_mm = pen_width(pen, size_mm, true, l->serial), y_mm = 26;
    if (wide_mm > room_mm) size_mm *= room_mm / wide_mm;
    pen_write(pen, (sw_point){words_x, 9}, look_type_grey(2, SW_LEFT), "serial number");
    pen_write(pen, (sw_point){words_x, 17}, look_type_bold(size_mm, SW_LEFT), l->serial);
    for (size_t i = 0; i < sizeof small / sizeof *small; i++) {
        if (small[i][1][0] == '\0') continue;
        const char *text = words_within(run, pen, 2.6, false, room_mm, small[i][1]);
        if (text == NULL) return SW_NO_MEMORY;
        pen_write(pen, (sw_point){words_x, y_mm}, look_type_grey(1.8, SW_LEFT), small[i][0]);
        pen_write(pen, (sw_point){words_x, y_mm + 4}, look_type(2.6, SW_LEFT), text);
        y_mm += 8.5;
    }
    return SW_OK;
}

static sw_status draw_labels(sw_run *run, const sw_label *labels, size_t count, sw_pen *pen)
{
    for (size_t i = 0; i < count; i++) {
        if (i > 0) sw_pen_page(pen, LABEL_WIDE_MM, LABEL_HIGH_MM);
        SW_TRY(draw_label(run, &labels[i], pen));
    }
    return SW_OK;
}

static sw_status written(sw_run *run, const sw_label *labels, size_t count, const char *date, const char *path,
                         lettering *letters)
{
    sw_pen *pen = NULL;
    SW_TRY(pen_open_lettered(run, path, letters, LABEL_WIDE_MM, LABEL_HIGH_MM, &pen));
    pen_about(pen, "Labels", date);
    sw_status status = draw_labels(run, labels, count, pen);
    if (status == SW_OK) return sw_pen_close(run, pen);
    sw_pen_abandon(pen);
    return status;
}

sw_status sw_paper_labels(sw_run *run, const sw_label *labels, size_t count, const char *date, const char *path)
{
    size_t mark = sw_arena_mark(run->scratch);
    lettering *letters = NULL;
    sw_status status = lettering_open(run, &letters);
    if (status == SW_OK) status = written(run, labels, count, date, path, letters);
    lettering_close(letters);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
