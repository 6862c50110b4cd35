/* check_marks.c: do etched texts and lines lie on the steel of their face? What reaches over an edge or a hole is burnt
 * into the grid of the table or lost, and a mark beside its face comes to lie on a bend or on another piece's sheet. */
#include "making/sheet/sheet_parts.h"

#include <math.h>

/* Width of an etched text by its height, a letter: ours, as the piece's number is placed. */
static const double letter_width = 0.8;

typedef struct etching { /* the marks of one face against its edges */
    const sw_edges *edges;
    const sw_region *region;
} etching;

static size_t letters_of(const char *text)
{
    size_t n = 0;
    for (; *text != '\0'; text++)
        n += ((unsigned char)*text & 0xC0U) != 0x80U; /* UTF-8: not the bytes that follow on */
    return n;
}

/* Lower left corner first, counter-clockwise. */
static void text_box(const sw_mark *m, sw_point box[4])
{
    double c = cos(m->turn_rad), s = sin(m->turn_rad), h = m->height_mm;
    double w = letter_width * h * (double)letters_of(m->text);
    const double x[4] = {0.0, w, w, 0.0}, y[4] = {0.0, 0.0, h, h};
    for (int i = 0; i < 4; i++) box[i] = (sw_point){m->at.x_mm + c * x[i] - s * y[i], m->at.y_mm + s * x[i] + c * y[i]};
}

static bool way_inside(const etching *e, sw_vertex from, sw_point to)
{
    return sw_edges_side(e->edges, (sw_point){from.x_mm, from.y_mm}) > 0 &&
           sw_edges_clear(e->edges, from, to, SW_SAME_POINT_MM);
}

static bool text_inside(const etching *e, const sw_mark *m)
{
    sw_point box[4];
    sw_vertex v[4];
    text_box(m, box);
    for (int i = 0; i < 4; i++) v[i] = (sw_vertex){box[i].x_mm, box[i].y_mm, 0.0};
    for (int i = 0; i < 4; i++)
        if (!way_inside(e, v[i], box[(i + 1) % 4])) return false;
    for (size_t h = 0; h < e->region->hole_count; h++) { /* a hole wholly under the text */
        sw_vertex p = e->region->holes[h].v[0];
        if (sw_contour_side((sw_contour){v, 4}, (sw_point){p.x_mm, p.y_mm}) > 0) return false;
    }
    return true;
}

static bool path_inside(const etching *e, sw_path path)
{
    for (size_t i = 0; i + 1 < path.n; i++)
        if (!way_inside(e, path.v[i], (sw_point){path.v[i + 1].x_mm, path.v[i + 1].y_mm})) return false;
    return true;
}

static sw_finding finding_of(sw_verdict verdict)
{
    sw_finding f = sw_finding_of("sheet", "mark_inside", "", (sw_place){0});
    f.verdict = verdict;
    f.source = "plane geometry: what is etched must lie on its face; a letter taken as 0.8 heights wide";
    return f;
}

static sw_status report_mark(sw_run *run, const sw_sheet_study *study, const sw_piece *p, size_t face, size_t mark)
{
    const sw_mark *m = &p->faces[face].marks[mark];
    bool text = m->text[0] != '\0';
    sw_point at = text || m->path.n == 0 ? m->at : (sw_point){m->path.v[0].x_mm, m->path.v[0].y_mm};
    sw_finding f = finding_of(SW_FAILS);
    f.place = p->place;
    f.where =
        sw_text_format(run, run->keep, "%s %s, face %s, mark %zu", p->number, p->name, p->faces[face].name, mark + 1);
    f.what = text ? sw_text_format(run, run->keep,
                                   "the text \"%s\" at (%.1f, %.1f), %.3g mm high, reaches over an edge of its face",
                                   m->text, at.x_mm, at.y_mm, m->height_mm)
                  : sw_text_format(run, run->keep, "the line from (%.1f, %.1f) reaches over an edge of its face",
                                   at.x_mm, at.y_mm);
    f.remedy = text ? "move the text (at, of a piece's number number_at), make it lower, or leave it out"
                    : "shorten or move the line";
    return sw_sheet_report(run, study, f, 0.0);
}

/* *bad counts what is reported. */
static sw_status check_face(sw_run *run, const sw_sheet_study *study, const sw_piece *p, size_t face, size_t *bad)
{
    const sw_face *f = &p->faces[face];
    etching e = {.region = &f->region};
    SW_TRY(sw_edges_of_region(run, run->scratch, &f->region, &e.edges));
    for (size_t i = 0; i < f->mark_count; i++) {
        const sw_mark *m = &f->marks[i];
        if (m->text[0] != '\0' ? text_inside(&e, m) : path_inside(&e, m->path)) continue;
        SW_TRY(report_mark(run, study, p, face, i));
        (*bad)++;
    }
    return SW_OK;
}

static sw_status check(sw_run *run, const sw_sheet_study *study)
{
    size_t marks = 0, bad = 0;
    for (size_t i = 0; i < study->case_count; i++) {
        const sw_piece *p = study->cases[i].piece->piece;
        for (size_t face = 0; face < p->face_count; face++) {
            if (p->faces[face].mark_count == 0) continue;
            marks += p->faces[face].mark_count;
            SW_TRY(check_face(run, study, p, face, &bad));
        }
    }
    if (marks == 0 || bad > 0) return SW_OK;
    sw_finding f = finding_of(SW_HOLDS);
    f.where = "all pieces";
    f.remedy = "";
    f.what = sw_text_format(run, run->keep, "%zu etched texts and lines, all within their faces", marks);
    return sw_sheet_report(run, study, f, 0.0);
}

sw_status sw_check_marks(sw_run *run, const sw_sheet_study *study)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = check(run, study);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
