/* views.c: the assembled and the exploded picture. In the exploded one every number stands once, in the margins
 * left and right, in the order of height of what it names, with a leader to a part of it that is seen. */
#include "papers/papers_parts.h"

#include <math.h>
#include <stdlib.h>

#define LABEL_MM  2.3
#define MARGIN_MM 40.0
#define PITCH_MM  4.6

typedef struct label {
    const char *number, *name;
    sw_point at;
    double y_mm;
} label;

static int by_height(const void *left, const void *right)
{
    const label *a = left, *b = right;
    if (a->at.y_mm != b->at.y_mm) return a->at.y_mm < b->at.y_mm ? -1 : 1;
    return a->at.x_mm < b->at.x_mm ? -1 : a->at.x_mm > b->at.x_mm;
}

static int by_side(const void *left, const void *right)
{
    const label *a = left, *b = right;
    return a->at.x_mm < b->at.x_mm ? -1 : a->at.x_mm > b->at.x_mm;
}

/* Heights at least a pitch apart inside low..high, near those of the anchors. */
static void stack(label *labels, size_t count, double low_mm, double high_mm, double pitch_mm)
{
    double least = low_mm;
    for (size_t i = 0; i < count; i++) {
        labels[i].y_mm = fmax(labels[i].at.y_mm, least);
        least = labels[i].y_mm + pitch_mm;
    }
    double most = high_mm;
    for (size_t i = count; i-- > 0;) {
        labels[i].y_mm = fmin(labels[i].y_mm, most);
        most = labels[i].y_mm - pitch_mm;
    }
}

static sw_status show_label(sw_run *run, sw_pen *pen, sw_box box, const label *l, bool left, double height_mm)
{
    double edge_mm = left ? box.x0_mm + MARGIN_MM - 3.0 : box.x1_mm - MARGIN_MM + 3.0, way = left ? 1.0 : -1.0;
    double number_mm = pen_width(pen, height_mm, true, l->number);
    const char *name = words_within(run, pen, height_mm * 0.82, false, MARGIN_MM - 6.0 - number_mm, l->name);
    if (name == NULL) return SW_NO_MEMORY;
    const sw_point leader[3] = {{edge_mm, l->y_mm}, {edge_mm + 2.0 * way, l->y_mm}, l->at};
    const pen_paint dot = {.fill = true, .fill_ink = look_rust(0.0)};
    sw_pen_polygon(pen, look_rust(0.13), leader, 3, false);
    pen_circle(pen, &dot, l->at, 0.45);
    pen_type number = look_type_bold(height_mm, left ? SW_RIGHT : SW_LEFT),
             words = look_type_grey(height_mm * 0.82, number.align);
    sw_point at = {edge_mm - 1.0 * way, l->y_mm + height_mm / 2.0};
    pen_write(pen, at, number, l->number);
    at.x_mm -= way * (number_mm + 1.3);
    pen_write(pen, at, words, name);
    return SW_OK;
}

static sw_status show_labels(sw_run *run, sw_pen *pen, sw_box box, label *labels, size_t count)
{
    qsort(labels, count, sizeof *labels, by_side);
    size_t half = (count + 1) / 2, sizes[2] = {half, count - half};
    for (int side = 0; side < 2; side++) {
        label *mine = labels + (side == 0 ? 0 : half);
        qsort(mine, sizes[side], sizeof *mine, by_height);
        double room_mm = box.y1_mm - box.y0_mm - 4.0,
               pitch_mm = fmin(PITCH_MM, room_mm / fmax(1.0, (double)sizes[side]));
        stack(mine, sizes[side], box.y0_mm + 2.0, box.y1_mm - 2.0, pitch_mm);
        for (size_t i = 0; i < sizes[side]; i++)
            SW_TRY(show_label(run, pen, box, &mine[i], side == 0, fmin(LABEL_MM, 0.72 * pitch_mm)));
    }
    return SW_OK;
}

/* One label a number: the first placement that is seen. */
static sw_status label_parts(sw_run *run, const paper_desk *desk, const stove_view *view, double zoom, sw_point origin,
                             sw_pen *pen, sw_box box)
{
    const sw_stove *stove = desk->d->model.stove;
    label *labels = SW_SCRATCH(run, view->part_count + 1, label);
    if (labels == NULL) return SW_NO_MEMORY;
    size_t n = 0;
    for (size_t i = 0, done = SIZE_MAX; i < view->part_count; i++) {
        int tag = view->parts[i].tag;
        const solid_anchor *anchor = &view->picture.anchors[i];
        if (!anchor->seen || (size_t)(unsigned)tag == done) continue;
        done = (size_t)(unsigned)tag;
        const char *number = tag >= 0 ? stove->pieces[tag].number : stove->items[-1 - tag].number;
        const char *name = tag >= 0 ? stove->pieces[tag].name : stove->items[-1 - tag].name;
        labels[n++] =
            (label){number, name, {origin.x_mm + zoom * anchor->at.x_mm, origin.y_mm + zoom * anchor->at.y_mm}, 0.0};
    }
    return show_labels(run, pen, box, labels, n);
}

#define PAGE_WIDE_MM (A4_SHORT_MM - 20.0)
#define PAGE_HIGH_MM (A4_LONG_MM - 40.0)

static double margin_of(bool exploded)
{
    return exploded ? MARGIN_MM : 4.0;
}

/* Pieces have their shapes on the desk; of an item, whose placements stand together, the first makes it. */
static sw_status give_shapes(sw_run *run, const paper_desk *desk, solid_part *parts, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (parts[i].tag >= 0)
            parts[i].shape = desk->shapes[parts[i].tag];
        else if (i > 0 && parts[i - 1].tag == parts[i].tag)
            parts[i].shape = parts[i - 1].shape;
        else
            SW_TRY(solid_shape_make(run, parts[i].mesh, &parts[i].shape));
    }
    return SW_OK;
}

sw_status view_parts(sw_run *run, const paper_desk *desk, const solid_part **parts, size_t *count)
{
    const solid_part *plain = NULL;
    SW_TRY(solid_stove(run, desk->d, true, &plain, count));
    solid_part *shaped = SW_SCRATCH(run, *count + 1, solid_part);
    if (shaped == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < *count; i++) shaped[i] = plain[i];
    *parts = shaped;
    return give_shapes(run, desk, shaped, *count);
}

sw_status view_make(sw_run *run, const solid_part *parts, size_t count, bool exploded, stove_view *view)
{
    const solid_wish wish = {PAGE_WIDE_MM - 2.0 * margin_of(exploded), PAGE_HIGH_MM - 4.0, PEN_PIXELS_PER_MM, exploded};
    solid_part *mine = SW_SCRATCH(run, count + 1, solid_part);
    if (mine == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) {
        mine[i] = parts[i];
        if (!exploded) mine[i].shift_mm = (sw_vec3){0};
    }
    *view = (stove_view){.exploded = exploded, .parts = mine, .part_count = count};
    SW_TRY(solid_draw(run, mine, count, solid_view_stove(), wish, &view->picture));
    return solid_packed(run, &view->picture);
}

sw_status draw_view(sw_run *run, const paper_desk *desk, const stove_view *view, sw_pen *pen, sw_box box)
{
    const solid_picture *p = &view->picture;
    double margin_mm = margin_of(view->exploded), wide_mm = box.x1_mm - box.x0_mm - 2.0 * margin_mm,
           high_mm = box.y1_mm - box.y0_mm - 4.0;
    if (!(p->width_mm > 0.0 && p->height_mm > 0.0)) return SW_OK;
    double zoom = fmin(wide_mm / p->width_mm, high_mm / p->height_mm);
    sw_point origin = {box.x0_mm + margin_mm + (wide_mm - zoom * p->width_mm) / 2.0,
                       box.y0_mm + 2.0 + (high_mm - zoom * p->height_mm) / 2.0};
    solid_show(pen, origin, zoom, p, 0.15);
    return view->exploded ? label_parts(run, desk, view, zoom, origin, pen, box) : SW_OK;
}

static sw_status page(sw_run *run, const paper_desk *desk, const stove_view *view, sw_pen *pen)
{
    const sw_dossier *d = desk->d;
    const char *title = words_within(run, pen, 4.5, true, 130.0, d->model.stove->title);
    if (title == NULL) return SW_NO_MEMORY;
    pen_write(pen, (sw_point){10.0, 16.0}, look_type_bold(4.5, SW_LEFT), title);
    pen_write(pen, (sw_point){A4_SHORT_MM - 10.0, 16.0}, look_type_grey(2.4, SW_RIGHT),
              view->exploded ? "exploded view" : "assembled view");
    pen_write(pen, (sw_point){A4_SHORT_MM - 10.0, 20.5}, look_type_grey(2.0, SW_RIGHT), d->date);
    sw_pen_line(pen, look_rust(0.5), (sw_point){10.0, 23.0}, (sw_point){A4_SHORT_MM - 10.0, 23.0});
    const sw_box box = {10.0, 26.0, 10.0 + PAGE_WIDE_MM, 26.0 + PAGE_HIGH_MM};
    SW_TRY(draw_view(run, desk, view, pen, box));
    return draw_caution(run, pen, (sw_point){10.0, A4_LONG_MM - 8.0},
                        "Picture not to scale; pieces in the colours of their subassemblies.");
}

static sw_status open_page(sw_run *run, const paper_desk *desk, const char *path, sw_pen **pen)
{
    SW_TRY(pen_open_lettered(run, path, desk->letters, A4_SHORT_MM, A4_LONG_MM, pen));
    pen_about(*pen, desk->d->model.stove->title, desk->d->date);
    return SW_OK;
}

/* Closes the pens that are open; after a failure none leaves a file. */
static sw_status close_both(sw_run *run, sw_status status, sw_pen *one, sw_pen *other)
{
    sw_pen *pens[2] = {one, other};
    for (int i = 0; i < 2; i++) {
        if (pens[i] == NULL) continue;
        if (status == SW_OK)
            status = sw_pen_close(run, pens[i]);
        else
            sw_pen_abandon(pens[i]);
    }
    return status;
}

static sw_status drawn(sw_run *run, const paper_desk *desk, const stove_view *view, const char *path,
                       const char *second)
{
    sw_pen *one = NULL, *other = NULL;
    sw_status status = open_page(run, desk, path, &one);
    if (status == SW_OK && second != NULL) status = open_page(run, desk, second, &other);
    if (status == SW_OK && other == NULL) status = page(run, desk, view, one);
    if (status == SW_OK && other != NULL) {
        sw_pen both = pen_pair_of(one, other);
        status = page(run, desk, view, &both);
    }
    return close_both(run, status, one, other);
}

sw_status paper_view(sw_run *run, const paper_desk *desk, const stove_view *view, const char *path, const char *second)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = drawn(run, desk, view, path, second);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

static sw_status one_view(sw_run *run, paper_desk *desk, bool exploded, const char *path)
{
    const solid_part *parts = NULL;
    size_t count = 0;
    stove_view view;
    for (size_t i = 0; i < desk->d->sheet->piece_count; i++) SW_TRY(desk_shape(run, desk, i));
    SW_TRY(view_parts(run, desk, &parts, &count));
    SW_TRY(view_make(run, parts, count, exploded, &view));
    return drawn(run, desk, &view, path, NULL);
}

sw_status sw_paper_views(sw_run *run, const sw_dossier *d, bool exploded, const char *path)
{
    size_t mark = sw_arena_mark(run->scratch);
    paper_desk desk;
    sw_status status = desk_open(run, d, &desk);
    if (status == SW_OK) status = one_view(run, &desk, exploded, path);
    desk_close(&desk);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
