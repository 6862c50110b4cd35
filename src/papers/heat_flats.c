/* heat_flats.c: lines of equal temperature on the flats, a page each: every sheet piece, then every item with a shape (boards
 * with their hot side, panes), each in the place where it gets hottest. Colours mean the same on all pages. */
#include "papers/chart_parts.h"

#include <math.h>

#define EDGE_MM   12.0
#define HEAD_MM   17.0
#define FOOT_MM   16.0
#define NUMBER_MM 1.9
enum { LEVELS_WANTED = 14, LEVELS_MOST = 60 };

typedef struct heat_page {
    const paper_desk *desk;
    sw_pen *pen;
    const char *number, *name, *material;
    size_t placement, placements;
    const sw_region *region; /* NULL: a bent pane */
    const sw_flat *flat;     /* of a sheet piece; else NULL */
    const sw_heat_map_part *map;
    const double *t_k; /* [map->mesh.point_count] drawn: the hot side of a board */
    heat_field field;
    sw_box box; /* of the flat */
    double low_c, high_c, step;
    size_t hottest; /* point */
    heat_span span;
    double scale;
    sw_point at; /* page point of the flat's (0,0) */
    taken taken;
} heat_page;

/* ---- which pages ---- */

/* The placement in which the part gets hottest; NULL when the map has none of them. */
static const sw_heat_map_part *hottest_of(const sw_burned *b, int tag, size_t count, size_t *placement)
{
    const sw_heat_map_part *best = NULL;
    for (size_t i = 0; i < count; i++) {
        const sw_heat_map_part *p = heat_map_of(b, heat_part_of(b->scene, tag, i));
        if (p == NULL || (best != NULL && p->most_k <= best->most_k)) continue;
        best = p;
        *placement = i;
    }
    return best;
}

static bool piece_page(const sw_dossier *d, size_t index, heat_page *p)
{
    const sw_piece *piece = &d->model.stove->pieces[index];
    p->map = hottest_of(d->burned, (int)index, piece->count, &p->placement);
    p->number = piece->number;
    p->name = piece->name;
    p->material = piece->grade->name;
    p->placements = piece->count;
    p->flat = &d->sheet->pieces[index].flat;
    p->region = &p->flat->region;
    return p->map != NULL;
}

static bool item_page(const sw_dossier *d, size_t index, heat_page *p)
{
    const sw_item *item = &d->model.stove->items[index];
    p->map = hottest_of(d->burned, -1 - (int)index, item->count, &p->placement);
    p->number = item->number;
    p->name = item->name;
    p->material = item->material;
    p->placements = item->count;
    p->flat = NULL;
    p->region = item->shape.outline.n > 0 ? &item->shape : NULL;
    return p->map != NULL;
}

/* The n-th of pieces and items; false when it has no page. */
static bool page_at(const sw_dossier *d, size_t n, heat_page *p)
{
    size_t pieces = d->sheet->piece_count;
    return n < pieces ? piece_page(d, n, p) : item_page(d, n - pieces, p);
}

size_t heat_flat_pages(const sw_dossier *d)
{
    size_t count = 0;
    heat_page p = {0};
    if (!heat_is_known(d) || d->burned->map == NULL) return 0;
    for (size_t i = 0; i < d->sheet->piece_count + d->model.stove->item_count; i++) count += page_at(d, i, &p) ? 1 : 0;
    return count;
}

/* ---- measures ---- */

static sw_status read_field(sw_run *run, heat_page *p)
{
    const sw_mesh *mesh = &p->map->mesh;
    p->t_k = p->map->hot_k != NULL ? p->map->hot_k : p->map->t_k;
    double *c = SW_SCRATCH(run, mesh->point_count, double);
    p->field = (heat_field){mesh, p->map->flat, c, heat_twins(run, mesh)};
    if (c == NULL || p->field.twins == NULL) return SW_NO_MEMORY;
    p->low_c = INFINITY, p->high_c = -INFINITY;
    p->box = (sw_box){INFINITY, INFINITY, -INFINITY, -INFINITY};
    for (size_t i = 0; i < mesh->point_count; i++) {
        sw_point at = p->map->flat[i];
        c[i] = sw_c_from_k(p->t_k[i]);
        if (c[i] > p->high_c) p->high_c = c[i], p->hottest = i;
        p->low_c = fmin(p->low_c, c[i]);
        p->box = (sw_box){fmin(p->box.x0_mm, at.x_mm), fmin(p->box.y0_mm, at.y_mm), fmax(p->box.x1_mm, at.x_mm),
                          fmax(p->box.y1_mm, at.y_mm)};
    }
    p->step = fmax(chart_step(fmax(p->high_c - p->low_c, 1e-3), LEVELS_WANTED), 1);
    return SW_OK;
}

static void place(heat_page *p)
{
    double wide_mm = p->pen->width_mm - 2 * EDGE_MM, high_mm = p->pen->height_mm - 2 * EDGE_MM - HEAD_MM - FOOT_MM;
    double w = p->box.x1_mm - p->box.x0_mm, h = p->box.y1_mm - p->box.y0_mm;
    p->scale = fmin(1, fmin(wide_mm / w, high_mm / h));
    p->at = (sw_point){p->pen->width_mm / 2 - p->scale * (p->box.x0_mm + p->box.x1_mm) / 2,
                       EDGE_MM + HEAD_MM + high_mm / 2 + p->scale * (p->box.y0_mm + p->box.y1_mm) / 2};
}

static sw_point on_page(const heat_page *p, sw_point q)
{
    return (sw_point){p->at.x_mm + p->scale * q.x_mm, p->at.y_mm - p->scale * q.y_mm};
}

/* ---- colours and lines ---- */

static void fill_loops(const heat_page *p, const heat_loop *loops, size_t count, sw_ink ink)
{
    const pen_kind *kind = p->pen->kind;
    const pen_paint paint = {.fill = true, .fill_ink = ink};
    kind->begin(p->pen);
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; k < loops[i].count; k++) {
            sw_point at = on_page(p, loops[i].points[k]);
            if (k == 0)
                kind->move(p->pen, at);
            else
                kind->line(p->pen, at);
        }
        kind->shut(p->pen);
    }
    kind->paint(p->pen, &paint);
}

/* The isotherms of the loops, or their parts along the border. */
static void stroke_loops(const heat_page *p, const heat_loop *loops, size_t count, sw_ink ink, bool border)
{
    const pen_kind *kind = p->pen->kind;
    const pen_paint paint = {.stroke = true, .stroke_ink = ink};
    bool any = false;
    kind->begin(p->pen);
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0, n = loops[i].count; k < n; k++) {
            bool goes_on = k > 0 && loops[i].inside[k - 1] != border;
            if (loops[i].inside[k] == border) continue;
            if (!goes_on) kind->move(p->pen, on_page(p, loops[i].points[k]));
            kind->line(p->pen, on_page(p, loops[i].points[(k + 1) % n]));
            any = true;
        }
    if (any) kind->paint(p->pen, &paint);
}

typedef struct level_label {
    double c, long_mm; /* the isotherm's longest stretch, page mm */
    sw_point at;
} level_label;

/* Middle of the longest stretch of isotherm among the loops. */
static level_label label_of(const heat_page *p, const heat_loop *loops, size_t count, double c)
{
    level_label best = {.c = c};
    for (size_t i = 0; i < count; i++) {
        double length = 0;
        size_t begun = 0;
        for (size_t k = 0, n = loops[i].count; k < n; k++) {
            sw_point a = loops[i].points[k], b = loops[i].points[(k + 1) % n];
            if (!loops[i].inside[k]) {
                length = 0;
                begun = k + 1;
                continue;
            }
            length += p->scale * hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
            if (length > best.long_mm)
                best.long_mm = length, best.at = on_page(p, loops[i].points[(begun + k + 1) / 2]);
        }
    }
    return best;
}

/* A white ground under a text, so that it is read on any colour; not where something stands already. */
static sw_status write_over(sw_run *run, heat_page *p, sw_point at, pen_type type, const char *text)
{
    double wide_mm = pen_width(p->pen, type.height_mm, type.bold, text) + 1.2, high_mm = type.height_mm + 1.2;
    double left_mm = type.align == SW_CENTRE ? wide_mm / 2 : type.align == SW_RIGHT ? wide_mm - 0.6 : 0.6;
    sw_box box = {at.x_mm - left_mm, at.y_mm - type.height_mm - 0.6, at.x_mm - left_mm + wide_mm,
                  at.y_mm - type.height_mm - 0.6 + high_mm};
    const pen_paint ground = {.fill = true, .fill_ink = look_white()};
    if (!taken_free(&p->taken, box)) return SW_OK;
    SW_TRY(taken_box(run, &p->taken, box));
    pen_box(p->pen, &ground, box);
    pen_write(p->pen, at, type, text);
    return SW_OK;
}

static sw_status write_levels(sw_run *run, heat_page *p, const level_label *labels, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const char *text = chart_tick(run, labels[i].c, p->step);
        if (text == NULL) return SW_NO_MEMORY;
        if (labels[i].long_mm < 6) continue;
        SW_TRY(write_over(run, p, (sw_point){labels[i].at.x_mm, labels[i].at.y_mm + NUMBER_MM / 2},
                          look_type(NUMBER_MM, SW_CENTRE), text));
    }
    return SW_OK;
}

static sw_ink band_ink(const heat_page *p, double from_c, double to_c)
{
    double middle_c = (fmax(from_c, p->low_c) + fmin(to_c, p->high_c)) / 2;
    return look_heat(heat_share(p->span, middle_c), 0);
}

/* The coolest over all, then what is hotter over it, level by level. */
static sw_status bands(sw_run *run, heat_page *p, level_label *labels, size_t *count)
{
    const heat_loop *loops = NULL;
    size_t n = 0;
    double first_c = (floor(p->low_c / p->step) + 1) * p->step;
    SW_TRY(heat_loops(run, &p->field, -INFINITY, &loops, &n));
    fill_loops(p, loops, n, band_ink(p, p->low_c, first_c));
    if (p->region == NULL) stroke_loops(p, loops, n, look_dark(0.35), true);
    for (size_t k = 0; k < LEVELS_MOST && first_c + (double)k * p->step < p->high_c; k++) {
        double c = first_c + (double)k * p->step;
        SW_TRY(heat_loops(run, &p->field, c, &loops, &n));
        fill_loops(p, loops, n, band_ink(p, c, c + p->step));
        stroke_loops(p, loops, n, look_dark(0.13), false);
        labels[(*count)++] = label_of(p, loops, n, c);
    }
    return SW_OK;
}

static void outline(const heat_page *p)
{
    const sw_region *r = p->region;
    const sw_motion still = {0};
    int dashes = 0;
    const double *chain = look_chain(&dashes);
    for (size_t i = 0; r != NULL && i < r->hole_count; i++) {
        const sw_region hole = {r->holes[i], NULL, 0};
        sw_pen_region(p->pen, look_white(), look_dark(0.2), still, p->scale, p->at, &hole);
    }
    for (size_t i = 0; p->flat != NULL && i < p->flat->bend_count; i++) {
        const sw_flat_bend *bend = &p->flat->bends[i];
        if (bend->bend->kind == SW_ROLLED) continue; /* its middle is no line to be seen */
        sw_pen_line(p->pen, look_dashed(look_dark(0.15), chain, dashes), on_page(p, bend->from), on_page(p, bend->to));
    }
    if (r != NULL) sw_pen_contour(p->pen, look_dark(0.35), still, p->scale, p->at, r->outline);
}

/* A ring and the temperature beside it, to the side where the page has room. */
static sw_status mark_hottest(sw_run *run, heat_page *p)
{
    sw_point at = on_page(p, p->map->flat[p->hottest]);
    const char *text = sw_text_format(run, run->scratch, "%.0f " CELSIUS, p->high_c);
    if (text == NULL) return SW_NO_MEMORY;
    const pen_paint ring = {.fill = true, .fill_ink = look_white(), .stroke = true, .stroke_ink = look_dark(0.35)},
                    dot = {.fill = true, .fill_ink = look_dark(0)};
    bool left = at.x_mm > p->pen->width_mm - EDGE_MM - 20;
    pen_circle(p->pen, &ring, at, 1.3);
    pen_circle(p->pen, &dot, at, 0.5);
    return write_over(run, p, (sw_point){at.x_mm + (left ? -2.6 : 2.6), at.y_mm + 1.2},
                      look_type_bold(2.4, left ? SW_RIGHT : SW_LEFT), text);
}

/* ---- the page ---- */

static sw_status header(sw_run *run, const heat_page *p)
{
    double right_mm = p->pen->width_mm - EDGE_MM, number_mm = pen_width(p->pen, 3.4, true, p->number);
    const char *name = words_within(run, p->pen, 3.4, false, right_mm - EDGE_MM - number_mm - 4, p->name);
    const char *place = p->placements < 2 ? ""
                                          : sw_text_format(run, run->scratch, ", the hottest of %zu (no. %zu)",
                                                           p->placements, p->placement + 1);
    if (name == NULL || place == NULL) return SW_NO_MEMORY;
    const char *facts = sw_text_format(
        run, run->scratch, "%s%s%s: coolest %.0f, mean %.0f, hottest %.0f " CELSIUS " at the duty; a line every %.0f K",
        p->material, p->map->hot_k != NULL ? ", hot side" : "", place, p->low_c, sw_c_from_k(p->map->mean_k), p->high_c,
        p->step);
    if (facts == NULL) return SW_NO_MEMORY;
    facts = words_within(run, p->pen, 2, false, right_mm - EDGE_MM, facts);
    if (facts == NULL) return SW_NO_MEMORY;
    pen_write(p->pen, (sw_point){EDGE_MM, EDGE_MM + 3.4}, look_type_bold(3.4, SW_LEFT), p->number);
    pen_write(p->pen, (sw_point){EDGE_MM + number_mm + 3, EDGE_MM + 3.4}, look_type(3.4, SW_LEFT), name);
    pen_write(p->pen, (sw_point){EDGE_MM, EDGE_MM + 9}, look_type_grey(2, SW_LEFT), facts);
    sw_pen_line(p->pen, look_rust(0.4), (sw_point){EDGE_MM, EDGE_MM + 11.5}, (sw_point){right_mm, EDGE_MM + 11.5});
    return SW_OK;
}

/* The scale of all pages; a bar over it shows what of it is on this one. */
static sw_status footer(sw_run *run, const heat_page *p)
{
    double y_mm = p->pen->height_mm - EDGE_MM - 9, x0_mm = EDGE_MM + 10, x1_mm = p->pen->width_mm - EDGE_MM - 10;
    double from_mm = x0_mm + (x1_mm - x0_mm) * heat_share(p->span, p->low_c),
           to_mm = x0_mm + (x1_mm - x0_mm) * heat_share(p->span, p->high_c);
    sw_pen_line(p->pen, look_dark(0.6), (sw_point){from_mm, y_mm - 1}, (sw_point){to_mm, y_mm - 1});
    SW_TRY(draw_heat_scale(run, p->pen, (sw_box){x0_mm, y_mm, x1_mm, y_mm + 3}, p->span));
    const char *caution =
        p->flat != NULL ? "Flat seen from the front side; chain lines: bends. Computed for the middle of the sheet; "
                          "supports and never replaces the type test."
                        : "Seen from above its own plane. Computed; supports and never replaces the type test.";
    return draw_caution(run, p->pen, (sw_point){EDGE_MM, p->pen->height_mm - EDGE_MM + 1.5}, caution);
}

static sw_status drawn(sw_run *run, heat_page *p)
{
    level_label labels[LEVELS_MOST];
    size_t count = 0;
    SW_TRY(header(run, p));
    SW_TRY(bands(run, p, labels, &count));
    outline(p);
    SW_TRY(mark_hottest(run, p));
    SW_TRY(write_levels(run, p, labels, count));
    return footer(run, p);
}

static sw_status one_page(sw_run *run, heat_page *p)
{
    SW_TRY(read_field(run, p));
    bool lying = p->box.x1_mm - p->box.x0_mm > p->box.y1_mm - p->box.y0_mm;
    const char *title = sw_text_format(run, run->scratch, "%s %s", p->number, p->name);
    if (title == NULL) return SW_NO_MEMORY;
    sw_pen_page(p->pen, lying ? A4_LONG_MM : A4_SHORT_MM, lying ? A4_SHORT_MM : A4_LONG_MM);
    pen_entry(p->pen, title, p->number);
    place(p);
    return drawn(run, p);
}

sw_status paper_heat_flats(sw_run *run, const paper_desk *desk, sw_pen *document)
{
    const sw_dossier *d = desk->d;
    heat_span span = heat_span_of(d->burned);
    for (size_t i = 0; i < d->sheet->piece_count + d->model.stove->item_count; i++) {
        heat_page p = {.desk = desk, .pen = document, .span = span};
        if (!page_at(d, i, &p)) continue;
        size_t mark = sw_arena_mark(run->scratch);
        sw_status status = one_page(run, &p);
        sw_arena_rewind(run->scratch, mark);
        SW_TRY(status);
    }
    return SW_OK;
}
