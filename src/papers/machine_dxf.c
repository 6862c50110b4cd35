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
#define JOIN_MM  1e-4 /* written with more digits than that */
#define LIKE_MM  2e-3 /* shapes further apart than this are another part: ours, far below any laser */
#define LIKE_MM2 0.5

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

static void count_region(tally *t, const sw_region *r)
{
    count_contour(t, r->outline);
    for (size_t i = 0; i < r->hole_count; i++) count_contour(t, r->holes[i]);
}

/* Every vertex of the contour lies on the path of the same number in the file. */
static bool same_curve(sw_contour want, const sw_dxf_path *got)
{
    const sw_contour curve = {got->v, got->n};
    for (size_t i = 0; i < want.n; i++) {
        sw_vertex v = want.v[i], next = want.v[(i + 1) % want.n];
        sw_point middle = sw_segment_point(v, (sw_point){next.x_mm, next.y_mm}, 0.5);
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

static sw_status compare(sw_run *run, const char *path, const tally *got, const tally *want)
{
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

static sw_status same_region(sw_run *run, const char *path, const sw_dxf_drawing *got, const sw_region *region,
                             size_t *next, tally *sum)
{
    for (size_t i = 0; i <= region->hole_count; i++) {
        sw_contour want = i == 0 ? region->outline : region->holes[i - 1];
        while (*next < got->path_count && strcmp(got->paths[*next].layer, "CUT") != 0) ++*next;
        if (*next >= got->path_count)
            return differs(run, path, "contours", (double)sum->count, (double)region->hole_count + 1.0);
        const sw_dxf_path *p = &got->paths[(*next)++];
        count_contour(sum, (sw_contour){p->v, p->n});
        if (!p->closed || !same_curve(want, p))
            return differs(run, path, "contour number", (double)*next, (double)*next);
    }
    return SW_OK;
}

sw_status machine_check_flat_dxf(sw_run *run, const sw_sheet_piece *piece, const char *path)
{
    sw_dxf_drawing got;
    tally sum = {0}, want = {0};
    size_t next = 0;
    SW_TRY(read_cut(run, path, &got));
    SW_TRY(same_region(run, path, &got, &piece->flat.region, &next, &sum));
    count_region(&want, &piece->flat.region);
    return compare(run, path, &sum, &want);
}

sw_status machine_check_sheet_dxf(sw_run *run, const sw_cut_input *cut, const char *path)
{
    sw_dxf_drawing got;
    tally sum = {0}, want = {0};
    size_t next = 0;
    SW_TRY(read_cut(run, path, &got));
    for (size_t i = 0; i < cut->part_count; i++) {
        SW_TRY(same_region(run, path, &got, &cut->parts[i].region, &next, &sum));
        count_region(&want, &cut->parts[i].region);
    }
    return compare(run, path, &sum, &want);
}

/* ---- the motion program ---- */

#define MOTION_LIKE_MM 2e-3 /* programs carry micrometres */

sw_status machine_check_motion(sw_run *run, const sw_cut_input *cut, const sw_cut_plan *plan, const char *path)
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
