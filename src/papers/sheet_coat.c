/* sheet_coat.c: blasting, masking, coats, curing, first fires, and whether the coating stands the heat. */
#include "papers/chart_parts.h"
#include "papers/sheets_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char *with_unit(sw_run *run, double value, int decimals, const char *unit)
{
    const char *text = sheet_fixed(run, value, decimals);
    if (text == NULL || !isfinite(value)) return text;
    return sw_text_format(run, run->scratch, "%s %s", text, unit);
}

static const char *money(sw_run *run, const doc_book *doc, double value)
{
    const char *currency = doc->d->model.works == NULL ? "" : doc->d->model.works->currency;
    return with_unit(run, value, 2, currency);
}

/* ---- figures of one stove -------------------------------------------------------------------------------------------------- */

static sw_status blasting(sw_run *run, doc_book *doc)
{
    const sw_coat_result *r = doc->d->shop.coat;
    const sheet_fact facts[] = {
        {"grade, ISO 8501-1", r->grade == NULL || r->grade[0] == '\0' ? "\xe2\x80\x93" : r->grade},
        {"area", with_unit(run, r->blast_m2, 2, "m\xc2\xb2")},
        {"time of a stove", words_time(run, r->blast_s)},
        {"set-up of a batch", words_time(run, r->blast_setup_s)},
        {"media used up", with_unit(run, r->media_kg, 1, "kg")},
        {"media through the nozzle", with_unit(run, r->nozzle_kg, 0, "kg")},
        {"media, cost", money(run, doc, r->media_cost)},
        {"machine and people, cost", money(run, doc, r->blast_cost)}};
    SW_TRY(doc_heading(run, doc, 1, "Blasting"));
    return sheet_facts(run, doc, facts, sizeof facts / sizeof *facts);
}

static const char *coating_name(const doc_book *doc)
{
    const sw_works *w = doc->d->model.works;
    return w == NULL || w->coating.name == NULL || w->coating.name[0] == '\0' ? "\xe2\x80\x93" : w->coating.name;
}

static sw_status coating(sw_run *run, doc_book *doc)
{
    const sw_coat_result *r = doc->d->shop.coat;
    const sheet_fact facts[] = {{"coating", coating_name(doc)},
                                {"area without what is masked", with_unit(run, r->coat_m2, 2, "m\xc2\xb2")},
                                {"masked", with_unit(run, r->masked_m2, 3, "m\xc2\xb2")},
                                {"dry film, all coats", with_unit(run, r->film_um, 0, "\xc2\xb5m")},
                                {"paint", with_unit(run, r->litres, 2, "l")},
                                {"one litre covers, in theory", with_unit(run, r->cover_m2_l, 1, "m\xc2\xb2")},
                                {"film left on the stove", with_unit(run, r->film_kg, 2, "kg")},
                                {"spraying of a stove", words_time(run, r->coat_s)},
                                {"set-up of a batch", words_time(run, r->coat_setup_s)},
                                {"first blasted to last sprayed", words_time(run, r->blast_to_coat_s)},
                                {"paint, cost", money(run, doc, r->paint_cost)},
                                {"machine and people, cost", money(run, doc, r->coat_cost)}};
    SW_TRY(doc_heading(run, doc, 1, "Coating"));
    return sheet_facts(run, doc, facts, sizeof facts / sizeof *facts);
}

static sw_status coats(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"coat", 1.0, SW_LEFT},
                                         {"wet film, \xc2\xb5m", 1.5, SW_RIGHT},
                                         {"dry film, \xc2\xb5m", 1.5, SW_RIGHT},
                                         {"litres", 1.3, SW_RIGHT},
                                         {"on the stove", 1.6, SW_RIGHT},
                                         {"solvent, kg", 1.6, SW_RIGHT},
                                         {"spraying", 1.8, SW_RIGHT},
                                         {"drying", 1.8, SW_RIGHT}};
    const sw_coat_result *r = doc->d->shop.coat;
    doc_table table = {.columns = columns, .column_count = 8};
    for (size_t i = 0; i < r->coat_count; i++) {
        const sw_coat_coat *c = &r->coats[i];
        const char *const cells[] = {sw_text_format(run, run->scratch, "%zu", i + 1),
                                     sheet_fixed(run, c->wet_um, 0),
                                     sheet_fixed(run, c->film_um, 0),
                                     sheet_fixed(run, c->litres, 2),
                                     sheet_fixed(run, c->landed_litres, 2),
                                     sheet_fixed(run, c->solvent_kg, 2),
                                     words_time(run, c->spray_s),
                                     words_time(run, c->dry_s)};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

static sw_status masks(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"what", 1.8, SW_LEFT},    {"where", 3.4, SW_LEFT},
                                         {"number", 1.0, SW_RIGHT}, {"length, mm", 1.4, SW_RIGHT},
                                         {"how", 4.6, SW_LEFT},     {"done", 0.8, SW_CENTRE}};
    const sw_coat_result *r = doc->d->shop.coat;
    doc_table table = {.columns = columns, .column_count = 6};
    for (size_t i = 0; i < r->mask_count; i++) {
        const sw_coat_mask *m = &r->masks[i];
        const char *const cells[] = {sw_mask_kind_name(m->kind),
                                     m->group == NULL || m->group[0] == '\0'
                                         ? m->where
                                         : sw_text_format(run, run->scratch, "%s (%s)", m->where, m->group),
                                     sw_text_format(run, run->scratch, "%zu", m->count),
                                     m->length_mm > 0 ? sheet_fixed(run, m->length_mm, 0) : "",
                                     m->how,
                                     "\xe2\x80\xa6\xe2\x80\xa6"};
        SW_TRY(doc_row(run, &table, cells));
    }
    if (table.rows == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "Mask before coating"));
    return doc_put_table(run, doc, &table);
}

/* ---- curing ---------------------------------------------------------------------------------------------------------------- */

enum { CURE_POINTS = 24 };

typedef struct curve {
    double min[CURE_POINTS], c[CURE_POINTS];
    size_t count;
} curve;

static void add(curve *v, double s, double t_k)
{
    if (v->count == CURE_POINTS) return;
    v->min[v->count] = sw_min_from_s(s);
    v->c[v->count++] = sw_c_from_k(t_k);
}

/* A step goes to its temperature; one at the temperature before holds it. Cooling takes what it takes: told apart. */
static void curves(const sw_coat_result *r, curve *metal, curve *cooling)
{
    double t_s = 0;
    *metal = *cooling = (curve){.count = 0};
    for (size_t i = 0; i < r->cure_count; i++) {
        const sw_coat_step *s = &r->cure[i];
        double before_k = i == 0 ? s->temperature_k : r->cure[i - 1].temperature_k;
        if (i == 0) add(metal, 0, s->temperature_k);
        if (s->time_s > 0) {
            t_s += s->time_s;
            add(metal, t_s, s->temperature_k);
            continue;
        }
        add(cooling, t_s, before_k);
        for (int k = 1; k <= 12; k++)
            add(cooling, t_s + 450.0 * k, s->temperature_k + (before_k - s->temperature_k) * exp(-0.3 * k));
        t_s += 5400;
    }
}

static sw_status draw_cure(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a;
    (void)b;
    curve metal, cooling;
    curves(doc->d->shop.coat, &metal, &cooling);
    const chart_line lines[] = {{"metal", metal.min, metal.c, metal.count, 0, true},
                                {"cools by itself", cooling.min, cooling.c, cooling.count, 1, false}};
    const chart c = {.title = "Curing",
                     .x_name = "minutes",
                     .y_name = "metal, " CELSIUS,
                     .lines = lines,
                     .line_count = cooling.count > 0 ? 2 : 1,
                     .x_low = 0,
                     .x_high = NAN,
                     .y_low = 0,
                     .y_high = NAN,
                     .last = true};
    return draw_chart(run, pen, box, &c);
}

static sw_status steps_table(sw_run *run, doc_book *doc, const sw_coat_step *steps, size_t count)
{
    static const doc_column columns[] = {
        {"step", 2.2, SW_LEFT}, {"metal, " CELSIUS, 1.2, SW_RIGHT}, {"time", 1.3, SW_RIGHT}, {"how", 7, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = 4};
    for (size_t i = 0; i < count; i++) {
        const char *const cells[] = {steps[i].name, sheet_celsius(run, steps[i].temperature_k),
                                     steps[i].time_s > 0 ? words_time(run, steps[i].time_s) : "by itself",
                                     steps[i].text};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

static sw_status curing(sw_run *run, doc_book *doc)
{
    const sw_coat_result *r = doc->d->shop.coat;
    if (r->cure_count > 0) {
        const char *load = words_time(run, r->cure_s), *each = words_time(run, r->cure_each_s);
        if (load == NULL || each == NULL) return SW_NO_MEMORY;
        SW_TRY(doc_heading(run, doc, 1, "Drying and curing"));
        SW_TRY(steps_table(run, doc, r->cure, r->cure_count));
        SW_TRY(
            sheet_put(run, doc,
                      (sheet_figure){draw_cure, 0, 0, 52,
                                     sw_text_format(run, run->scratch,
                                                    "Oven for one load: %s, of one stove %s. How fast it cools is not "
                                                    "computed; the dashed line shows no more than its kind.",
                                                    load, each)}));
    }
    if (r->fire_count == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "First fires"));
    return steps_table(run, doc, r->fires, r->fire_count);
}

/* ---- pieces, ratings --------------------------------------------------------------------------------------------------------- */

static const char *sides_words(sw_run *run, const sw_coat_sides *s)
{
    const char *which = s->outer && s->inner ? "both" : s->outer ? "outer" : s->inner ? "inner" : "none";
    return sw_text_format(run, run->scratch, "%s: %s", which, s->why);
}

static sw_status pieces(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"", 0.9, SW_LEFT},
                                         {"piece", 3.2, SW_LEFT},
                                         {"number", 0.9, SW_RIGHT},
                                         {"one side, m\xc2\xb2", 1.3, SW_RIGHT},
                                         {"coated sides", 4.2, SW_LEFT},
                                         {"coated, m\xc2\xb2", 1.3, SW_RIGHT},
                                         {"blasting", 1.3, SW_RIGHT},
                                         {"coating", 1.3, SW_RIGHT}};
    const sw_coat_result *r = doc->d->shop.coat;
    doc_table table = {.columns = columns, .column_count = 8, .dense = true};
    for (size_t i = 0; i < r->line_count; i++) {
        const sw_coat_line *l = &r->lines[i];
        const char *const cells[] = {
            l->piece->number,
            l->thin ? sw_text_format(run, run->scratch, "%s (thin: blast gently)", l->piece->name) : l->piece->name,
            sw_text_format(run, run->scratch, "%zu", l->count),
            sheet_fixed(run, l->side_m2, 3),
            sides_words(run, &l->sides),
            sheet_fixed(run, l->coat_m2, 3),
            words_time(run, l->blast_s),
            words_time(run, l->coat_s)};
        SW_TRY(doc_row(run, &table, cells));
    }
    SW_TRY(doc_heading(run, doc, 1, "Pieces"));
    return doc_put_table(run, doc, &table);
}

static int hottest_first(const void *left, const void *right)
{
    const sw_coat_rating *const *a = left, *const *b = right;
    double x = isnan((*a)->margin_k) ? HUGE_VAL : (*a)->margin_k, y = isnan((*b)->margin_k) ? HUGE_VAL : (*b)->margin_k;
    if ((*a)->coated != (*b)->coated) return (*a)->coated ? -1 : 1;
    if (x != y) return x < y ? -1 : 1;
    return *a < *b ? -1 : *a > *b; /* as in the result */
}

static sw_status ratings(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"part", 4.4, SW_LEFT},
                                         {"as hot as, " CELSIUS, 1.8, SW_RIGHT},
                                         {"coating stands, " CELSIUS, 2.2, SW_RIGHT},
                                         {"margin, K", 1.6, SW_RIGHT}};
    const sw_coat_result *r = doc->d->shop.coat;
    doc_table table = {.columns = columns, .column_count = 4, .dense = true};
    const sw_coat_rating **sorted = SW_SCRATCH(run, r->rating_count + 1, const sw_coat_rating *);
    if (sorted == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < r->rating_count; i++) sorted[i] = &r->ratings[i];
    qsort((void *)sorted, r->rating_count, sizeof(void *), hottest_first);
    for (size_t i = 0; i < r->rating_count && sorted[i]->coated; i++) {
        const char *const cells[] = {sorted[i]->name, sheet_celsius(run, sorted[i]->temperature_k),
                                     sheet_celsius(run, sorted[i]->class_k), sheet_fixed(run, sorted[i]->margin_k, 0)};
        SW_TRY(doc_row(run, &table, cells));
    }
    SW_TRY(doc_heading(run, doc, 1, "Will it stand the heat"));
    if (table.rows == 0)
        return doc_paragraph(run, doc, "No temperatures of coated parts were computed, so nothing is rated.");
    SW_TRY(doc_paragraph(run, doc, "Coated parts, least margin first, as hot as the fire makes them."));
    return doc_put_table(run, doc, &table);
}

/* ---- air -------------------------------------------------------------------------------------------------------------------- */

static sw_status air(sw_run *run, doc_book *doc)
{
    const sw_coat_result *r = doc->d->shop.coat;
    const sheet_fact facts[] = {
        {"solvent of a stove", with_unit(run, r->solvent_kg, 2, "kg")},
        {"while a coat leaves the most", with_unit(run, 1e3 * r->solvent_kg_s, 2, "g/s")},
        {"lower explosive limit", with_unit(run, 1e3 * r->lel_kg_m3, 0, "g/m\xc2\xb3")},
        {"least air of the booth, by that alone", with_unit(run, r->air_m3_s * sw_s_from_h(1), 0, "m\xc2\xb3/h")}};
    SW_TRY(doc_heading(run, doc, 1, "Air and solvent"));
    SW_TRY(sheet_facts(run, doc, facts, sizeof facts / sizeof *facts));
    return doc_paragraph(
        run, doc,
        "People need far more air than the explosive limit asks for: the limits of the data sheet at the "
        "painter's breath count, besides breathing protection.");
}

static sw_status content(sw_run *run, doc_book *doc)
{
    const sw_coat_result *r = doc->d->shop.coat;
    SW_TRY(doc_heading(run, doc, 1, "Before anything else"));
    SW_TRY(sheet_items(run, doc, r->cautions, r->caution_count));
    SW_TRY(air(run, doc));
    SW_TRY(blasting(run, doc));
    SW_TRY(masks(run, doc));
    SW_TRY(coating(run, doc));
    SW_TRY(coats(run, doc));
    SW_TRY(curing(run, doc));
    SW_TRY(ratings(run, doc));
    SW_TRY(pieces(run, doc));
    return sheet_open_points(run, doc, &r->findings);
}

sw_status paper_coating(sw_run *run, const paper_desk *desk, const char *path)
{
    return sheet_write(run, desk, "Blasting and coating", content, path);
}
