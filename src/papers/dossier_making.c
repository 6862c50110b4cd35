/* dossier_making.c: masses, piece list, bend tables. */
#include "papers/doc_parts.h"

#include <math.h>

static sw_status mass_row(sw_run *run, doc_table *table, const char *name, const sw_body *b)
{
    const char *const cells[] = {name, words_number(run, b->mass_kg, 2), words_number(run, b->centre.x_mm, 0),
                                 words_number(run, b->centre.y_mm, 0), words_number(run, b->centre.z_mm, 0)};
    return doc_row(run, table, cells);
}

sw_status dossier_masses(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"part", 4.0, SW_LEFT},
                                         {"mass, kg", 1.2, SW_RIGHT},
                                         {"centre of gravity x, mm", 1.6, SW_RIGHT},
                                         {"y, mm", 1.2, SW_RIGHT},
                                         {"z, mm", 1.2, SW_RIGHT}};
    const sw_heft_result *heft = doc->d->heft;
    if (heft == NULL) return SW_OK;
    doc_table table = {.columns = columns, .column_count = 5};
    for (size_t i = 0; i < heft->group_count; i++) {
        const char *name = heft->groups[i].name;
        for (size_t j = 0; j < doc->d->model.stove->group_count; j++)
            if (heft->groups[i].name == doc->d->model.stove->groups[j].name)
                name = doc->d->model.stove->groups[j].title;
        SW_TRY(mass_row(run, &table, name, &heft->groups[i].body));
    }
    SW_TRY(mass_row(run, &table, "whole stove", &heft->stove));
    SW_TRY(doc_heading(run, doc, 1, "Masses"));
    SW_TRY(doc_paragraph(
        run, doc,
        "Frame of the stove: x to the right seen from the front, y to the back, z up, from the floor under the middle of the front."));
    return doc_put_table(run, doc, &table);
}

static sw_status items(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"number", 1.0, SW_LEFT},          {"name", 2.6, SW_LEFT},
                                         {"part of", 1.4, SW_LEFT},         {"material", 2.0, SW_LEFT},
                                         {"in a stove", 0.9, SW_RIGHT},     {"batch", 0.8, SW_RIGHT},
                                         {"mass of one, kg", 1.1, SW_RIGHT}};
    const sw_stove *stove = doc->d->model.stove;
    doc_table table = {.columns = columns, .column_count = 7};
    for (size_t i = 0; i < stove->item_count; i++) {
        const sw_item *item = &stove->items[i];
        const char *const cells[] = {item->number,
                                     item->name,
                                     item->group,
                                     item->material,
                                     sw_text_format(run, run->scratch, "%zu", item->count),
                                     sw_text_format(run, run->scratch, "%zu", item->count * doc->d->batch),
                                     words_number(run, item->mass_kg, 3)};
        SW_TRY(doc_row(run, &table, cells));
    }
    if (table.rows == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 2, "Castings and bought-in parts"));
    return doc_put_table(run, doc, &table);
}

sw_status dossier_pieces(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {
        {"number", 1.0, SW_LEFT},      {"name", 2.6, SW_LEFT},      {"part of", 1.3, SW_LEFT},
        {"material", 1.5, SW_LEFT},    {"flat, mm", 1.7, SW_RIGHT}, {"bends", 0.7, SW_RIGHT},
        {"in a stove", 0.8, SW_RIGHT}, {"batch", 0.8, SW_RIGHT},    {"mass of one, kg", 1.0, SW_RIGHT}};
    doc_table table = {.columns = columns, .column_count = 9};
    for (size_t i = 0; i < doc->d->sheet->piece_count; i++) {
        const sw_sheet_piece *p = &doc->d->sheet->pieces[i];
        const char *thick = words_number(run, p->piece->thickness_mm, 2), *l = words_mm(run, p->flat.box.x1_mm),
                   *w = words_mm(run, p->flat.box.y1_mm);
        if (thick == NULL || l == NULL || w == NULL) return SW_NO_MEMORY;
        const char *const cells[] = {p->piece->number,
                                     p->piece->name,
                                     p->piece->group,
                                     sw_text_format(run, run->scratch, "%s, %s mm", p->piece->grade->name, thick),
                                     sw_text_format(run, run->scratch, "%s \xc3\x97 %s", l, w),
                                     sw_text_format(run, run->scratch, "%zu", p->flat.bend_count),
                                     sw_text_format(run, run->scratch, "%zu", p->piece->count),
                                     sw_text_format(run, run->scratch, "%zu", p->piece->count * doc->d->batch),
                                     words_number(run, p->mass_kg, 3)};
        SW_TRY(doc_row(run, &table, cells));
    }
    SW_TRY(doc_heading(run, doc, 1, "Pieces"));
    SW_TRY(doc_put_table(run, doc, &table));
    return items(run, doc);
}

static const char *bend_place(sw_run *run, const sw_flat_bend *b)
{
    const char *x0 = words_mm(run, b->from.x_mm), *y0 = words_mm(run, b->from.y_mm), *x1 = words_mm(run, b->to.x_mm),
               *y1 = words_mm(run, b->to.y_mm);
    if (x0 == NULL || y0 == NULL || x1 == NULL || y1 == NULL) return NULL;
    if (fabs(b->from.x_mm - b->to.x_mm) < 1e-3) return sw_text_format(run, run->scratch, "x %s", x0);
    if (fabs(b->from.y_mm - b->to.y_mm) < 1e-3) return sw_text_format(run, run->scratch, "y %s", y0);
    return sw_text_format(run, run->scratch, "%s, %s to %s, %s", x0, y0, x1, y1);
}

sw_status dossier_bends(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {
        {"piece", 2.3, SW_LEFT},         {"bend", 0.6, SW_LEFT},         {"angle, way, inside radius", 2.0, SW_LEFT},
        {"middle at, mm", 1.5, SW_LEFT}, {"length, mm", 0.85, SW_RIGHT}, {"allowance, mm", 1.05, SW_RIGHT},
        {"k/2", 0.7, SW_RIGHT},          {"rule", 3.0, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = 8};
    for (size_t i = 0; i < doc->d->sheet->piece_count; i++) {
        const sw_sheet_piece *p = &doc->d->sheet->pieces[i];
        for (size_t j = 0; j < p->flat.bend_count; j++) {
            const sw_flat_bend *b = &p->flat.bends[j];
            double length_mm = hypot(b->to.x_mm - b->from.x_mm, b->to.y_mm - b->from.y_mm);
            const char *const cells[] = {
                j > 0 ? "" : sw_text_format(run, run->scratch, "%s %s", p->piece->number, p->piece->name),
                sw_text_format(run, run->scratch, "B%zu", j + 1),
                words_bend(run, b),
                bend_place(run, b),
                words_mm(run, length_mm),
                words_number(run, b->allowance_mm, 2),
                words_number(run, b->k, 3),
                b->rule};
            SW_TRY(doc_row(run, &table, cells));
        }
    }
    if (table.rows == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "Bends"));
    SW_TRY(doc_paragraph(
        run, doc,
        "Places are measured in the flat from its lower left corner, front side up; the allowance is the developed length of the bend."));
    return doc_put_table(run, doc, &table);
}
