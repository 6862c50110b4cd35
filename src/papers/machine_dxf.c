/* machine_dxf.c: DXF of flats and of nested sheets, and the reading back that every such file must pass. */
#include "papers/machine_parts.h"

#include <math.h>
#include <string.h>

typedef struct drawing {
    sw_dxf_path *paths;
    sw_dxf_text *texts;
    size_t path_count, text_count;
} drawing;

static sw_status drawing_open(sw_run *run, size_t paths, size_t texts, drawing *g)
{
    *g = (drawing){SW_SCRATCH(run, paths + 1, sw_dxf_path), SW_SCRATCH(run, texts + 1, sw_dxf_text), 0, 0};
    return g->paths == NULL || g->texts == NULL ? SW_NO_MEMORY : SW_OK;
}

static void add_path(drawing *g, const char *layer, bool closed, const sw_vertex *v, size_t n)
{
    g->paths[g->path_count++] = (sw_dxf_path){layer, closed, v, n};
}

static void add_region(drawing *g, const sw_region *r)
{
    add_path(g, "CUT", true, r->outline.v, r->outline.n);
    for (size_t i = 0; i < r->hole_count; i++) add_path(g, "CUT", true, r->holes[i].v, r->holes[i].n);
}

static sw_status write_drawing(sw_run *run, const drawing *g, const char *path)
{
    const sw_dxf_drawing whole = {g->paths, g->path_count, g->texts, g->text_count};
    sw_writer *w = NULL;
    SW_TRY(sw_writer_to_file(run, path, &w));
    sw_dxf_write(w, &whole);
    return sw_writer_close(run, w);
}

static sw_status flat_drawing(sw_run *run, const sw_flat *flat, drawing *g)
{
    SW_TRY(drawing_open(run, 1 + flat->region.hole_count + flat->mark_count + flat->bend_count, flat->mark_count, g));
    add_region(g, &flat->region);
    for (size_t i = 0; i < flat->mark_count; i++) {
        const sw_flat_mark *mark = &flat->marks[i];
        if (mark->path.n >= 2) add_path(g, "ETCH", false, mark->path.v, mark->path.n);
        if (mark->text[0] != '\0')
            g->texts[g->text_count++] = (sw_dxf_text){"ETCH", mark->text, mark->at, mark->height_mm, mark->turn_rad};
    }
    for (size_t i = 0; i < flat->bend_count; i++) {
        sw_vertex *line = SW_SCRATCH(run, 2, sw_vertex);
        if (line == NULL) return SW_NO_MEMORY;
        line[0] = (sw_vertex){flat->bends[i].from.x_mm, flat->bends[i].from.y_mm, 0.0};
        line[1] = (sw_vertex){flat->bends[i].to.x_mm, flat->bends[i].to.y_mm, 0.0};
        add_path(g, "BEND", false, line, 2);
    }
    return SW_OK;
}

static sw_status flat_written(sw_run *run, const sw_flat *flat, const char *path)
{
    drawing g;
    SW_TRY(flat_drawing(run, flat, &g));
    return write_drawing(run, &g, path);
}

sw_status sw_paper_flat_dxf(sw_run *run, const sw_sheet_piece *piece, const char *path)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = flat_written(run, &piece->flat, path);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

static sw_status sheet_written(sw_run *run, const sw_cut_input *cut, const char *path)
{
    drawing g;
    size_t paths = 0;
    for (size_t i = 0; i < cut->part_count; i++)
        paths += 1 + cut->parts[i].region.hole_count + cut->parts[i].etch_count;
    SW_TRY(drawing_open(run, paths, 0, &g));
    for (size_t i = 0; i < cut->part_count; i++) {
        const sw_cut_part *part = &cut->parts[i];
        add_region(&g, &part->region);
        for (size_t j = 0; j < part->etch_count; j++)
            if (part->etches[j].n >= 2) add_path(&g, "ETCH", false, part->etches[j].v, part->etches[j].n);
    }
    return write_drawing(run, &g, path);
}

sw_status sw_paper_sheet_dxf(sw_run *run, const sw_cut_input *cut, const char *path)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = sheet_written(run, cut, path);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

/* ---- reading back ---- */

enum { MOST_BYTES = 1 << 28 };
#define JOIN_MM    1e-4 /* written with more digits than that */
#define IN_STEP_MM 1e-7 /* written with nine decimals: nearer than this is the same */
#define LIKE_MM    2e-3 /* shapes further apart than this are another part: ours, far below any laser */
#define LIKE_MM2   0.5

typedef struct tally {
    double length_mm, area_mm2;
    sw_box box;
    size_t count;
} tally;

static void count_contour(tally *t, sw_contour c)
{
    sw_box b = sw_contour_box(c);
    if (t->count == 0) t->box = b;
    t->box = (sw_box){fmin(t->box.x0_mm, b.x0_mm), fmin(t->box.y0_mm, b.y0_mm), fmax(t->box.x1_mm, b.x1_mm),
                      fmax(t->box.y1_mm, b.y1_mm)};
    t->length_mm += sw_contour_length(c);
    t->area_mm2 += fabs(sw_contour_area(c));
    t->count++;
}

static sw_vertex vertex_of(const sw_vertex *v, size_t n, size_t i)
{
    return v[i < n ? i : i - n];
}

static sw_point end_of(const sw_vertex *v, size_t n, size_t i)
{
    sw_vertex next = vertex_of(v, n, i + 1);
    return (sw_point){next.x_mm, next.y_mm};
}

/* Whether the file has the same lines and arcs, in order, none farther from its own than rounding. */
static bool in_step(sw_contour want, const sw_dxf_path *got)
{
    if (want.n != got->n) return false;
    for (size_t i = 0; i < want.n; i++)
        if (!(machine_apart_mm(want.v[i], end_of(want.v, want.n, i), got->v[i], end_of(got->v, got->n, i)) <=
              IN_STEP_MM))
            return false;
    return true;
}

static bool is_circle(const sw_vertex *v, size_t n)
{
    return n == 2 && fabs(fabs(v[0].bulge) - 1) < SW_FLAT_BULGE && fabs(fabs(v[1].bulge) - 1) < SW_FLAT_BULGE;
}

/* Two full circles, wherever they start and whichever way they run: centre and radius are the same. */
static bool same_circle(sw_contour want, const sw_dxf_path *got)
{
    if (!is_circle(want.v, want.n) || !is_circle(got->v, got->n)) return false;
    const sw_vertex *a = want.v, *b = got->v;
    double centre_mm =
        hypot(a[0].x_mm + a[1].x_mm - b[0].x_mm - b[1].x_mm, a[0].y_mm + a[1].y_mm - b[0].y_mm - b[1].y_mm) / 2;
    double radius_mm = hypot(a[0].x_mm - a[1].x_mm, a[0].y_mm - a[1].y_mm) / 2;
    return centre_mm + fabs(hypot(b[0].x_mm - b[1].x_mm, b[0].y_mm - b[1].y_mm) / 2 - radius_mm) <= IN_STEP_MM;
}

/* Every vertex and middle of the contour lies on the path of the same number in the file. */
static bool same_curve(sw_contour want, const sw_dxf_path *got)
{
    const sw_contour curve = {got->v, got->n};
    for (size_t i = 0; i < want.n; i++) {
        sw_vertex v = want.v[i];
        sw_point middle = sw_segment_point(v, end_of(want.v, want.n, i), 0.5);
        if (sw_contour_distance(curve, (sw_point){v.x_mm, v.y_mm}) > LIKE_MM) return false;
        if (sw_contour_distance(curve, middle) > LIKE_MM) return false;
    }
    return true;
}

static sw_status differs(sw_run *run, const char *path, const char *what, double got, double want)
{
    return sw_fail(
        run, SW_INTERNAL, (sw_place){0}, path,
        "reads back with %s %.4f where %.4f was written; nothing of it counts: please report it with the input", what,
        got, want);
}

/* Sums of the contours that are not in step. */
static sw_status compare(sw_run *run, const char *path, const tally *got, const tally *want)
{
    if (got->count == 0 && want->count == 0) return SW_OK;
    if (got->count != want->count) return differs(run, path, "contours", (double)got->count, (double)want->count);
    double slack_mm = LIKE_MM * (1.0 + (double)want->count);
    if (fabs(got->length_mm - want->length_mm) > slack_mm)
        return differs(run, path, "cut length", got->length_mm, want->length_mm);
    if (fabs(got->area_mm2 - want->area_mm2) > LIKE_MM2 * (1.0 + (double)want->count))
        return differs(run, path, "area", got->area_mm2, want->area_mm2);
    if (fabs(got->box.x1_mm - want->box.x1_mm) > LIKE_MM || fabs(got->box.x0_mm - want->box.x0_mm) > LIKE_MM)
        return differs(run, path, "right edge", got->box.x1_mm, want->box.x1_mm);
    if (fabs(got->box.y1_mm - want->box.y1_mm) > LIKE_MM || fabs(got->box.y0_mm - want->box.y0_mm) > LIKE_MM)
        return differs(run, path, "upper edge", got->box.y1_mm, want->box.y1_mm);
    return SW_OK;
}

static sw_status read_cut(sw_run *run, const char *path, sw_dxf_drawing *got)
{
    const char *bytes = NULL, *skipped = NULL;
    size_t length = 0;
    SW_TRY(sw_file_read(run, path, MOST_BYTES, &bytes, &length));
    SW_TRY(sw_dxf_read(run, path, bytes, length, JOIN_MM, got, &skipped));
    if (skipped[0] == '\0') return SW_OK;
    return sw_fail(run, SW_INTERNAL, (sw_place){0}, path,
                   "holds entities that were not written: %s; please report it with the input", skipped);
}

/* A file read back: its cut contours are taken one after the other. */
typedef struct reading {
    sw_run *run;
    const char *path;
    sw_dxf_drawing got;
    size_t next, taken; /* path to look at, contours so far */
    tally have, want;   /* of the contours that are not in step */
} reading;

static const sw_dxf_path *next_cut(reading *r)
{
    while (r->next < r->got.path_count && strcmp(r->got.paths[r->next].layer, "CUT") != 0) r->next++;
    return r->next < r->got.path_count ? &r->got.paths[r->next++] : NULL;
}

static sw_status same_contour(reading *r, sw_contour want)
{
    const sw_dxf_path *p = next_cut(r);
    if (p == NULL) return differs(r->run, r->path, "contours", (double)r->taken, (double)r->taken + 1);
    r->taken++;
    if (p->closed && (in_step(want, p) || same_circle(want, p))) return SW_OK;
    if (!p->closed || !same_curve(want, p))
        return differs(r->run, r->path, "contour number", (double)r->next, (double)r->next);
    count_contour(&r->have, (sw_contour){p->v, p->n});
    count_contour(&r->want, want);
    return SW_OK;
}

static sw_status same_region(reading *r, const sw_region *region)
{
    SW_TRY(same_contour(r, region->outline));
    for (size_t i = 0; i < region->hole_count; i++) SW_TRY(same_contour(r, region->holes[i]));
    return SW_OK;
}

static sw_status nothing_more(reading *r)
{
    if (next_cut(r) != NULL) return differs(r->run, r->path, "contours", (double)r->taken + 1, (double)r->taken);
    return compare(r->run, r->path, &r->have, &r->want);
}

static sw_status flat_same(sw_run *run, const sw_sheet_piece *piece, const char *path)
{
    reading r = {.run = run, .path = path};
    const sw_flat *flat = &piece->flat;
    machine_marks etched = {0}, bent = {0};
    SW_TRY(read_cut(run, path, &r.got));
    SW_TRY(same_region(&r, &flat->region));
    SW_TRY(nothing_more(&r));
    for (size_t i = 0; i < flat->mark_count; i++)
        machine_marks_count(&etched, flat->marks[i].path.v, flat->marks[i].path.n, false);
    for (size_t i = 0; i < flat->bend_count; i++) {
        sw_point from = flat->bends[i].from, to = flat->bends[i].to;
        const sw_vertex line[] = {{from.x_mm, from.y_mm, 0.0}, {to.x_mm, to.y_mm, 0.0}};
        machine_marks_count(&bent, line, 2, false);
    }
    SW_TRY(machine_marks_same(run, path, &r.got, "ETCH", &etched));
    SW_TRY(machine_marks_same(run, path, &r.got, "BEND", &bent));
    return machine_texts_same(run, path, &r.got, flat);
}

static sw_status sheet_same(sw_run *run, const sw_cut_input *cut, const char *path)
{
    reading r = {.run = run, .path = path};
    machine_marks etched = {0};
    SW_TRY(read_cut(run, path, &r.got));
    for (size_t i = 0; i < cut->part_count; i++) SW_TRY(same_region(&r, &cut->parts[i].region));
    SW_TRY(nothing_more(&r));
    for (size_t i = 0; i < cut->part_count; i++)
        for (size_t j = 0; j < cut->parts[i].etch_count; j++)
            machine_marks_count(&etched, cut->parts[i].etches[j].v, cut->parts[i].etches[j].n, false);
    return machine_marks_same(run, path, &r.got, "ETCH", &etched);
}

/* What was read is given back when all is well; errors keep their text. */
sw_status machine_check_flat_dxf(sw_run *run, const sw_sheet_piece *piece, const char *path)
{
    size_t mark = sw_arena_mark(run->keep);
    sw_status status = flat_same(run, piece, path);
    if (status == SW_OK) sw_arena_rewind(run->keep, mark);
    return status;
}

sw_status machine_check_sheet_dxf(sw_run *run, const sw_cut_input *cut, const char *path)
{
    size_t mark = sw_arena_mark(run->keep);
    sw_status status = sheet_same(run, cut, path);
    if (status == SW_OK) sw_arena_rewind(run->keep, mark);
    return status;
}

/* ---- the motion program ---- */

#define MOTION_LIKE_MM 2e-3 /* programs carry micrometres */

static sw_status motion_same(sw_run *run, const sw_cut_input *cut, const sw_cut_plan *plan, const char *path)
{
    const char *bytes = NULL;
    size_t length = 0, count = 0;
    const sw_cut_pass *passes = NULL;
    double worst_mm = 0.0;
    SW_TRY(sw_file_read(run, path, MOST_BYTES, &bytes, &length));
    SW_TRY(sw_motion_read(run, path, bytes, length, cut->laser, &passes, &count));
    SW_TRY(sw_motion_compare(run, plan, passes, count, &worst_mm));
    if (worst_mm <= MOTION_LIKE_MM) return SW_OK;
    return differs(run, path, "a path off by mm", worst_mm, 0.0);
}

sw_status machine_check_motion(sw_run *run, const sw_cut_input *cut, const sw_cut_plan *plan, const char *path)
{
    size_t mark = sw_arena_mark(run->keep);
    sw_status status = motion_same(run, cut, plan, path);
    if (status == SW_OK) sw_arena_rewind(run->keep, mark);
    return status;
}
