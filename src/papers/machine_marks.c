/* machine_marks.c: what a drawing carries besides its cuts, read back: etched and bent lines as sums, since lines whose ends
 * meet are joined by the reader; texts one by one. */
#include "papers/machine_parts.h"

#include <math.h>
#include <string.h>

#define LIKE_MM      2e-3 /* as of cuts */
#define SHORT_MM     1e-3 /* shorter segments are not counted: some are lost where ends meet */
#define LIKE_TEXT_MM 1e-6 /* written with nine decimals */

static void count_segment(machine_marks *m, sw_vertex from, sw_point to)
{
    double length_mm = sw_segment_length(from, to);
    sw_point middle = sw_segment_point(from, to, 0.5);
    const sw_point all[] = {{from.x_mm, from.y_mm}, middle, to};
    for (size_t i = 0; i < 3; i++) {
        if (m->segments == 0 && i == 0) m->box = (sw_box){all[0].x_mm, all[0].y_mm, all[0].x_mm, all[0].y_mm};
        m->box = (sw_box){fmin(m->box.x0_mm, all[i].x_mm), fmin(m->box.y0_mm, all[i].y_mm),
                          fmax(m->box.x1_mm, all[i].x_mm), fmax(m->box.y1_mm, all[i].y_mm)};
    }
    m->segments++;
    m->length_mm += length_mm;
}

void machine_marks_count(machine_marks *m, const sw_vertex *v, size_t n, bool closed)
{
    for (size_t i = 0; i + (closed ? 0 : 1) < n; i++) {
        sw_vertex next = v[i + 1 < n ? i + 1 : 0];
        sw_point to = {next.x_mm, next.y_mm};
        if (sw_segment_length(v[i], to) > SHORT_MM) count_segment(m, v[i], to);
    }
}

static sw_status differs(sw_run *run, const char *path, const char *layer, const char *what, double got, double want)
{
    return sw_fail(run, SW_INTERNAL, (sw_place){0}, path,
                   "reads back with %s of %s %.4f where %.4f was written; nothing of it counts: please report it with "
                   "the input",
                   what, layer, got, want);
}

sw_status machine_marks_same(sw_run *run, const char *path, const sw_dxf_drawing *got, const char *layer,
                             const machine_marks *want)
{
    machine_marks have = {0};
    for (size_t i = 0; i < got->path_count; i++) {
        const sw_dxf_path *p = &got->paths[i];
        if (strcmp(p->layer, layer) == 0) machine_marks_count(&have, p->v, p->n, p->closed);
    }
    double slack_mm = LIKE_MM * (1.0 + (double)want->segments);
    if (have.segments != want->segments)
        return differs(run, path, layer, "segments", (double)have.segments, (double)want->segments);
    if (!(fabs(have.length_mm - want->length_mm) <= slack_mm))
        return differs(run, path, layer, "length", have.length_mm, want->length_mm);
    const double a[] = {have.box.x0_mm, have.box.y0_mm, have.box.x1_mm, have.box.y1_mm};
    const double b[] = {want->box.x0_mm, want->box.y0_mm, want->box.x1_mm, want->box.y1_mm};
    static const char *const names[] = {"left edge", "lower edge", "right edge", "upper edge"};
    for (size_t i = 0; i < 4; i++)
        if (!(fabs(a[i] - b[i]) <= LIKE_MM)) return differs(run, path, layer, names[i], a[i], b[i]);
    return SW_OK;
}

/* Whether the file can hold the text as it is: the writer says \U+XXXX for what is not ASCII, up to U+FFFF, and blanks at the
 * ends are lost. */
static bool comes_back(const char *text)
{
    size_t n = strlen(text);
    if (n == 0 || text[0] == ' ' || text[n - 1] == ' ' || !sw_text_is_utf8(text, n)) return false;
    for (size_t i = 0; i < n; i++)
        if ((unsigned char)text[i] < ' ' || text[i] == '\\' || text[i] == 0x7F || (unsigned char)text[i] >= 0xF0)
            return false;
    return true;
}

sw_status machine_texts_same(sw_run *run, const char *path, const sw_dxf_drawing *got, const sw_flat *flat)
{
    size_t count = 0;
    for (size_t i = 0; i < flat->mark_count; i++) {
        const sw_flat_mark *mark = &flat->marks[i];
        if (mark->text[0] == '\0') continue;
        if (count == got->text_count) return differs(run, path, "ETCH", "texts", (double)count, (double)count + 1.0);
        const sw_dxf_text *t = &got->texts[count++];
        if (strcmp(t->layer, "ETCH") != 0 || (comes_back(mark->text) && strcmp(t->text, mark->text) != 0))
            return differs(run, path, "ETCH", "other words in text number", (double)count, (double)count);
        double off_mm = hypot(t->at.x_mm - mark->at.x_mm, t->at.y_mm - mark->at.y_mm) +
                        fabs(t->height_mm - mark->height_mm) + mark->height_mm * fabs(t->turn_rad - mark->turn_rad);
        if (!(off_mm <= LIKE_TEXT_MM)) return differs(run, path, "ETCH", "a text off by mm", off_mm, 0.0);
    }
    if (count == got->text_count) return SW_OK;
    return differs(run, path, "ETCH", "texts", (double)got->text_count, (double)count);
}
