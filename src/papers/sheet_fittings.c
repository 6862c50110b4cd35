/* sheet_fittings.c: boards to cut and how they lie on the sheets, gaps cold and hot, pane, ropes, grate, ball drop. */
#include "papers/sheets_parts.h"

#include <math.h>
#include <string.h>

enum { SHEETS_A_ROW = 2, LAYOUTS_MOST = 60 };

static const char *times(sw_run *run, size_t count)
{
    return sw_text_format(run, run->scratch, "%zu", count);
}

static const char *gap(sw_run *run, double mm)
{
    return isinf(mm) && mm > 0 ? "free" : sheet_fixed(run, mm, 1);
}

/* ---- boards -------------------------------------------------------------------------------------------------------------- */

static sw_status cut_list(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"", 0.9, SW_LEFT},           {"board", 3.4, SW_LEFT},
                                         {"number", 1.25, SW_RIGHT},   {"length, mm", 1.4, SW_RIGHT},
                                         {"width, mm", 1.4, SW_RIGHT}, {"thick, mm", 1.2, SW_RIGHT},
                                         {"holes", 0.9, SW_RIGHT},     {"mass, kg", 1.2, SW_RIGHT},
                                         {"material", 2.6, SW_LEFT},   {"cut", 0.8, SW_CENTRE}};
    const sw_fittings_result *r = doc->d->shop.fittings;
    doc_table table = {.columns = columns, .column_count = 10};
    if (r->cut_count == 0) return SW_OK;
    for (size_t i = 0; i < r->cut_count; i++) {
        const sw_board_cut *c = &r->cuts[i];
        const char *const cells[] = {c->item->number,
                                     c->item->name,
                                     times(run, c->count),
                                     words_mm(run, c->length_mm),
                                     words_mm(run, c->width_mm),
                                     words_mm(run, c->item->thickness_mm),
                                     c->holes == 0 ? "" : times(run, c->holes),
                                     sheet_fixed(run, c->mass_kg, 2),
                                     c->item->material,
                                     "\xe2\x80\xa6\xe2\x80\xa6"};
        SW_TRY(doc_row(run, &table, cells));
    }
    SW_TRY(doc_heading(run, doc, 1, "Boards to cut"));
    SW_TRY(doc_paragraph(run, doc,
                         "Sizes as cut, number in one stove. Cut with dust extraction, breathing protection and "
                         "gloves; drill holes after a trial fit."));
    return doc_put_table(run, doc, &table);
}

/* ---- sheets laid alike are drawn once ---- */

static bool same_place(const sw_board_place *a, const sw_board_place *b)
{
    return a->cut == b->cut && a->turned == b->turned && fabs(a->box.x0_mm - b->box.x0_mm) < SW_SAME_POINT_MM &&
           fabs(a->box.y0_mm - b->box.y0_mm) < SW_SAME_POINT_MM;
}

static bool alike(const sw_board_sheet *a, const sw_board_sheet *b)
{
    if (strcmp(a->material, b->material) != 0 || a->thickness_mm != b->thickness_mm || a->count != b->count)
        return false;
    for (size_t i = 0; i < a->count; i++)
        if (!same_place(&a->places[i], &b->places[i])) return false;
    return true;
}

static bool is_new(const sw_fittings_result *r, size_t sheet)
{
    for (size_t i = 0; i < sheet; i++)
        if (alike(&r->sheets[i], &r->sheets[sheet])) return false;
    return true;
}

static size_t layout_count(const sw_fittings_result *r)
{
    size_t count = 0;
    for (size_t i = 0; i < r->sheet_count; i++) count += is_new(r, i);
    return count;
}

/* The first sheet of the layout; r->sheet_count when there are fewer. *many: sheets laid so. */
static size_t sheet_of_layout(const sw_fittings_result *r, size_t layout, size_t *many)
{
    size_t sheet = 0;
    *many = 0;
    while (sheet < r->sheet_count && (!is_new(r, sheet) || layout-- > 0)) sheet++;
    for (size_t i = sheet; i < r->sheet_count; i++) *many += alike(&r->sheets[i], &r->sheets[sheet]);
    return sheet;
}

static const char *board_words(sw_run *run, const sw_fittings_result *r, const sw_board_place *p)
{
    return sw_text_format(run, run->scratch, "%s", r->cuts[p->cut].item->number);
}

static sw_status draw_board(sw_run *run, sw_pen *pen, const sw_fittings_result *r, const sw_board_place *p, sw_box b)
{
    const pen_paint paint = {
        .fill = true, .fill_ink = look_piece(p->cut), .stroke = true, .stroke_ink = look_dark(0.2)};
    const sw_board_cut *c = &r->cuts[p->cut];
    double wide = b.x1_mm - b.x0_mm, high = b.y1_mm - b.y0_mm, x = (b.x0_mm + b.x1_mm) / 2, y = (b.y0_mm + b.y1_mm) / 2;
    const char *number = board_words(run, r, p), *length = words_mm(run, c->length_mm),
               *width = words_mm(run, c->width_mm);
    if (number == NULL || length == NULL || width == NULL) return SW_NO_MEMORY;
    const char *size = p->turned ? sw_text_format(run, run->scratch, "%s \xc3\x97 %s", width, length)
                                 : sw_text_format(run, run->scratch, "%s \xc3\x97 %s", length, width);
    if (size == NULL) return SW_NO_MEMORY;
    pen_box(pen, &paint, b);
    bool upright = high > wide && pen_width(pen, 2.1, true, number) > wide - 1;
    pen_type bold = look_type_bold(2.1, SW_CENTRE), grey = look_type_grey(1.7, SW_CENTRE);
    bold.turn_rad = grey.turn_rad = upright ? SW_PI / 2 : 0;
    double along = upright ? high : wide, across = upright ? wide : high;
    bool both = across > 7 && pen_width(pen, 1.7, false, size) < along - 1.5;
    if (across < 2.8 || pen_width(pen, 2.1, true, number) > along - 0.6) return SW_OK;
    double off = both ? -0.6 : 1.05;
    pen_write(pen, upright ? (sw_point){x + off, y} : (sw_point){x, y + off}, bold, number);
    if (both) pen_write(pen, upright ? (sw_point){x + 2.7, y} : (sw_point){x, y + 2.7}, grey, size);
    return SW_OK;
}

static sw_status draw_layout(sw_run *run, sw_pen *pen, const sw_fittings_result *r, size_t layout, sw_box box)
{
    size_t many, index = sheet_of_layout(r, layout, &many);
    if (index == r->sheet_count) return SW_OK;
    const sw_board_sheet *s = &r->sheets[index];
    const pen_paint ground = {.fill = true, .fill_ink = look_pale(), .stroke = true, .stroke_ink = look_dark(0.35)};
    double scale = fmin((box.x1_mm - box.x0_mm) / s->length_mm, (box.y1_mm - box.y0_mm - 6) / s->width_mm);
    double low = box.y0_mm + 6 + scale * s->width_mm;
    const char *title =
        sw_text_format(run, run->scratch, "%zu \xc3\x97 %s, %g \xc3\x97 %g \xc3\x97 %g mm, %.0f %% used", many,
                       s->material, s->length_mm, s->width_mm, s->thickness_mm, 100 * s->used);
    if (title != NULL) title = words_within(run, pen, 1.9, false, box.x1_mm - box.x0_mm, title);
    if (title == NULL) return SW_NO_MEMORY;
    pen_write(pen, (sw_point){box.x0_mm, box.y0_mm + 3.6}, look_type(1.9, SW_LEFT), title);
    pen_box(pen, &ground, (sw_box){box.x0_mm, box.y0_mm + 6, box.x0_mm + scale * s->length_mm, low});
    for (size_t i = 0; i < s->count; i++) {
        sw_box b = s->places[i].box;
        SW_TRY(draw_board(run, pen, r, &s->places[i],
                          (sw_box){box.x0_mm + scale * b.x0_mm, low - scale * b.y1_mm, box.x0_mm + scale * b.x1_mm,
                                   low - scale * b.y0_mm}));
    }
    return SW_OK;
}

sw_status draw_boards(sw_run *run, const doc_book *doc, size_t first, size_t count, sw_pen *pen, sw_box box)
{
    const sw_fittings_result *r = doc->d->shop.fittings;
    double wide = (box.x1_mm - box.x0_mm - 6) / SHEETS_A_ROW;
    for (size_t i = first; i < first + count; i++) {
        double x = box.x0_mm + (wide + 6) * (double)(i - first);
        SW_TRY(draw_layout(run, pen, r, i, (sw_box){x, box.y0_mm, x + wide, box.y1_mm}));
    }
    return SW_OK;
}

static const char *nest_words(sw_run *run, const sw_board_nest *n)
{
    const char *left =
        n->left_out == 0 ? "" : sw_text_format(run, run->scratch, " %zu boards are larger than a sheet.", n->left_out);
    if (left == NULL) return NULL;
    return sw_text_format(run, run->scratch, "%s %g mm: %zu %s; fewer than %zu cannot do.%s", n->material,
                          n->thickness_mm, n->sheets, n->sheets == 1 ? "sheet" : "sheets", n->bound, left);
}

static double row_high_mm(const sw_fittings_result *r, size_t first, size_t count)
{
    double high = 20, wide = (DOC_WIDTH_MM - 6) / SHEETS_A_ROW;
    for (size_t i = first; i < first + count; i++) {
        size_t many, sheet = sheet_of_layout(r, i, &many);
        high = fmax(high, fmin(90, wide * r->sheets[sheet].width_mm / r->sheets[sheet].length_mm));
    }
    return high + 7;
}

static sw_status nests(sw_run *run, doc_book *doc)
{
    const sw_fittings_result *r = doc->d->shop.fittings;
    if (r->sheet_count == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 2, "How they lie on the sheets"));
    const char *all = "";
    for (size_t i = 0; i < r->nest_count && all != NULL; i++) {
        const char *one = nest_words(run, &r->nests[i]);
        all = one == NULL ? NULL : sw_text_format(run, run->scratch, "%s%s%s", all, i == 0 ? "" : " ", one);
    }
    if (all != NULL)
        all = sw_text_format(run, run->scratch, "%s Sheets laid alike are drawn once, with their number.", all);
    SW_TRY(doc_paragraph(run, doc, all));
    size_t layouts = layout_count(r), drawn = layouts < LAYOUTS_MOST ? layouts : LAYOUTS_MOST;
    for (size_t first = 0; first < drawn; first += SHEETS_A_ROW) {
        size_t count = drawn - first < SHEETS_A_ROW ? drawn - first : SHEETS_A_ROW;
        SW_TRY(sheet_put(run, doc,
                         (sheet_figure){draw_boards, first, count, row_high_mm(r, first, count),
                                        "Every board is reached by cuts from edge to edge."}));
    }
    if (layouts <= drawn) return SW_OK;
    return doc_paragraph(run, doc,
                         sw_text_format(run, run->scratch, "%zu layouts more are not drawn.", layouts - drawn));
}

/* ---- gaps ----------------------------------------------------------------------------------------------------------------- */

static const char *both(sw_run *run, const double mm[2])
{
    const char *x = gap(run, mm[0]), *y = gap(run, mm[1]);
    return x == NULL || y == NULL ? NULL : sw_text_format(run, run->scratch, "%s / %s", x, y);
}

static sw_status gaps(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"", 1.0, SW_LEFT},
                                         {"part", 3.2, SW_LEFT},
                                         {"left", 0.9, SW_RIGHT},
                                         {"right", 0.9, SW_RIGHT},
                                         {"below", 0.9, SW_RIGHT},
                                         {"above", 0.9, SW_RIGHT},
                                         {"asked for x / y", 2.0, SW_RIGHT},
                                         {"cold x / y", 2.0, SW_RIGHT},
                                         {"hot x / y", 2.0, SW_RIGHT},
                                         {"degC / round", 1.9, SW_RIGHT}};
    const sw_fittings_result *r = doc->d->shop.fittings;
    doc_table table = {.columns = columns, .column_count = 10, .dense = true};
    if (r->fit_count == 0) return SW_OK;
    for (size_t i = 0; i < r->fit_count; i++) {
        const sw_fit *f = &r->fits[i];
        const char *const cells[] = {f->item->number,
                                     f->item->name,
                                     gap(run, f->gap_mm[SW_SIDE_LEFT]),
                                     gap(run, f->gap_mm[SW_SIDE_RIGHT]),
                                     gap(run, f->gap_mm[SW_SIDE_BELOW]),
                                     gap(run, f->gap_mm[SW_SIDE_ABOVE]),
                                     both(run, f->need_mm),
                                     both(run, f->cold_mm),
                                     both(run, f->hot_mm),
                                     sw_text_format(run, run->scratch, "%.0f%s / %.0f%s", sw_c_from_k(f->inner_k),
                                                    f->inner_found ? "" : "*", sw_c_from_k(f->outer_k),
                                                    f->outer_found ? "" : "*")};
        SW_TRY(doc_row(run, &table, cells));
    }
    SW_TRY(doc_heading(run, doc, 1, "Gaps, cold and hot"));
    SW_TRY(
        doc_paragraph(run, doc,
                      "In mm, in the part's own plane. Asked for, cold and hot are sums of both sides, along its x "
                      "and its y. Free: nothing lies within 30 mm. Last: how hot the part and the sheet round it get "
                      "by the heat study; * an option (common practice, no source)."));
    return doc_put_table(run, doc, &table);
}

/* ---- glass, rope, grate, drop ---------------------------------------------------------------------------------------------- */

static sw_status panes(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"", 0.9, SW_LEFT},           {"pane", 2.6, SW_LEFT},
                                         {"width, mm", 1.3, SW_RIGHT}, {"height, mm", 1.3, SW_RIGHT},
                                         {"thick, mm", 1.2, SW_RIGHT}, {"mass, kg", 1.2, SW_RIGHT},
                                         {"edge, mm", 1.2, SW_RIGHT},  {"beside, mm", 1.3, SW_RIGHT},
                                         {"under, mm", 1.2, SW_RIGHT}, {"stands on", 2.4, SW_LEFT}};
    const sw_fittings_result *r = doc->d->shop.fittings;
    doc_table table = {.columns = columns, .column_count = 10};
    for (size_t i = 0; i < r->pane_count; i++) {
        const sw_fit_pane *p = &r->panes[i];
        const char *const cells[] = {p->item->number,
                                     p->item->name,
                                     sheet_fixed(run, p->width_mm, 1),
                                     sheet_fixed(run, p->height_mm, 1),
                                     sheet_fixed(run, p->thickness_mm > 0 ? p->thickness_mm : (double)NAN, 1),
                                     sheet_fixed(run, p->mass_kg, 2),
                                     sheet_fixed(run, p->round_mm, 0),
                                     gap(run, p->least_mm),
                                     gap(run, p->under_mm),
                                     p->stands_on == NULL || p->stands_on[0] == '\0' ? "nothing found" : p->stands_on};
        SW_TRY(doc_row(run, &table, cells));
    }
    if (table.rows == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "Glass"));
    return doc_put_table(run, doc, &table);
}

static const char *groove_words(sw_run *run, const sw_item *rope)
{
    if (!(rope->groove_width_mm > 0)) return "\xe2\x80\x93";
    return sw_text_format(run, run->scratch, "%.1f \xc3\x97 %.1f", rope->groove_width_mm, rope->groove_depth_mm);
}

static sw_status ropes(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"", 1.0, SW_LEFT},
                                         {"rope", 2.6, SW_LEFT},
                                         {"number", 1.0, SW_RIGHT},
                                         {"thick, mm", 1.1, SW_RIGHT},
                                         {"length, mm", 1.2, SW_RIGHT},
                                         {"mass, kg", 1.1, SW_RIGHT},
                                         {"groove, mm", 1.5, SW_RIGHT},
                                         {"joint, mm", 1.1, SW_RIGHT},
                                         {"pressed, %", 1.2, SW_RIGHT},
                                         {"hot, %", 0.9, SW_RIGHT},
                                         {"fills, %", 1.0, SW_RIGHT},
                                         {"material", 1.7, SW_LEFT}};
    const sw_fittings_result *r = doc->d->shop.fittings;
    doc_table table = {.columns = columns, .column_count = 12, .dense = true};
    for (size_t i = 0; i < r->rope_count; i++) {
        const sw_rope *p = &r->ropes[i];
        bool seated = p->item->groove_width_mm > 0;
        const char *const cells[] = {p->item->number,
                                     p->item->name,
                                     times(run, p->count),
                                     sheet_fixed(run, p->item->rope_mm > 0 ? p->item->rope_mm : (double)NAN, 1),
                                     sheet_fixed(run, p->length_mm, 0),
                                     sheet_fixed(run, p->mass_kg, 3),
                                     groove_words(run, p->item),
                                     sheet_fixed(run, seated ? p->item->joint_mm : (double)NAN, 1),
                                     sheet_fixed(run, 100 * p->seat.compression, 0),
                                     sheet_fixed(run, 100 * p->seat.hot, 0),
                                     sheet_fixed(run, 100 * p->seat.fill, 0),
                                     p->item->material};
        SW_TRY(doc_row(run, &table, cells));
    }
    if (table.rows == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "Ropes"));
    SW_TRY(doc_paragraph(run, doc,
                         sw_text_format(run, run->scratch,
                                        "Groove: width by depth. Pressed new and cold by 20 to 40 %%, with the joint "
                                        "%g mm further open hot by 15 %% at least (common practice, no source); a rope "
                                        "fills at most 105 %% of its closed groove (ours). A dash: the description "
                                        "does not tell.",
                                        r->options.opens_mm)));
    return doc_put_table(run, doc, &table);
}

static sw_status grates(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"", 1.0, SW_LEFT},
                                         {"grate", 3.6, SW_LEFT},
                                         {"clearance a side, x, mm", 2.0, SW_RIGHT},
                                         {"y, mm", 1.4, SW_RIGHT},
                                         {"gaps between bars, mm", 2.4, SW_RIGHT}};
    const sw_fittings_result *r = doc->d->shop.fittings;
    doc_table table = {.columns = columns, .column_count = 5};
    for (size_t i = 0; i < r->grate_count; i++) {
        const sw_grate *g = &r->grates[i];
        const char *const cells[] = {g->item->number, g->item->name, sheet_fixed(run, g->need_mm[0], 1),
                                     sheet_fixed(run, g->need_mm[1], 1),
                                     isfinite(g->bar_least_mm) ? sw_text_format(run, run->scratch, "%.1f to %.1f",
                                                                                g->bar_least_mm, g->bar_most_mm)
                                                               : "\xe2\x80\x93"};
        SW_TRY(doc_row(run, &table, cells));
    }
    if (table.rows == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "Grate"));
    return doc_put_table(run, doc, &table);
}

static sw_status drop(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"level", 2.2, SW_LEFT},      {"body", 3.2, SW_LEFT},
                                         {"energy, J", 1.2, SW_RIGHT}, {"this ball from, mm", 1.7, SW_RIGHT},
                                         {"reached", 1.0, SW_LEFT},    {"source", 3.6, SW_LEFT}};
    const sw_drop *p = &doc->d->shop.fittings->drop;
    doc_table table = {.columns = columns, .column_count = 6, .dense = true};
    for (size_t i = 0; i < p->level_count; i++) {
        const sw_drop_level *l = &p->levels[i];
        const char *const cells[] = {l->level->name,
                                     l->level->body,
                                     sheet_fixed(run, l->level->energy, 2),
                                     sheet_fixed(run, l->height_mm, 0),
                                     l->reached ? "yes" : "no",
                                     l->level->source};
        SW_TRY(doc_row(run, &table, cells));
    }
    if (!(p->mass_kg > 0)) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "Ball drop on the pane"));
    SW_TRY(doc_paragraph(
        run, doc,
        sw_text_format(run, run->scratch,
                       "A steel ball of %.3f kg arrives with %.2f J at %.2f m/s. Levels are for comparison: "
                       "equal energy is not equal damage. Test behind a screen, goggles on, nobody near.",
                       p->mass_kg, p->energy, p->speed_m_s)));
    return doc_put_table(run, doc, &table);
}

static sw_status content(sw_run *run, doc_book *doc)
{
    const sw_fittings_result *r = doc->d->shop.fittings;
    SW_TRY(doc_heading(run, doc, 1, "Before anything else"));
    SW_TRY(sheet_items(run, doc, r->cautions, r->caution_count));
    SW_TRY(cut_list(run, doc));
    SW_TRY(nests(run, doc));
    SW_TRY(gaps(run, doc));
    SW_TRY(panes(run, doc));
    SW_TRY(ropes(run, doc));
    SW_TRY(grates(run, doc));
    SW_TRY(drop(run, doc));
    return sheet_open_points(run, doc, &r->findings);
}

sw_status paper_fittings(sw_run *run, const paper_desk *desk, const char *path)
{
    return sheet_write(run, desk, "Lining, glass and fittings", content, path);
}
