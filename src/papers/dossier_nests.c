/* dossier_nests.c: nests, cut times and cost, with a map of every layout. */
#include "papers/doc_parts.h"

#include <math.h>

static sw_status sheet_figure(sw_run *run, const doc_book *doc, size_t nest, size_t sheet, sw_pen *pen, sw_box box)
{
    return draw_nest(run, doc->desk, nest, sheet, false, pen, box);
}

static sw_status nest_table(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"material", 2.0, SW_LEFT},
                                         {"layouts", 0.9, SW_RIGHT},
                                         {"sheets", 0.9, SW_RIGHT},
                                         {"density", 1.0, SW_RIGHT},
                                         {"no layout can pass", 1.2, SW_RIGHT},
                                         {"sheet cost", 1.3, SW_RIGHT},
                                         {"scrap, kg", 1.0, SW_RIGHT}};
    doc_table table = {.columns = columns, .column_count = 7};
    for (size_t i = 0; i < doc->d->nest_count; i++) {
        const sw_nested *n = &doc->d->nests[i];
        const sw_nest_result *r = n->result;
        if (r == NULL) continue;
        const char *const cells[] = {n->name,
                                     sw_text_format(run, run->scratch, "%zu", r->sheet_count),
                                     sw_text_format(run, run->scratch, "%zu", r->sheets_total),
                                     sw_text_format(run, run->scratch, "%.1f %%", 100.0 * r->density),
                                     sw_text_format(run, run->scratch, "%.1f %%", 100.0 * r->bound_density),
                                     words_number(run, r->cost, 2),
                                     words_number(run, r->scrap_kg, 1)};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

static sw_status refusals(sw_run *run, doc_book *doc)
{
    for (size_t i = 0; i < doc->d->nest_count; i++) {
        const sw_nested *n = &doc->d->nests[i];
        if (n->result == NULL)
            SW_TRY(doc_paragraph(run, doc,
                                 sw_text_format(run, run->scratch, "%s could not be nested: %s", n->name, n->why)));
    }
    return SW_OK;
}

typedef struct sums {
    double cut_m, time_s, gas_m3, cost;
} sums;

static sw_status cut_row(sw_run *run, doc_table *table, const sw_nested *n, size_t index, sums *sum)
{
    const sw_cut_plan *p = n->plans[index];
    size_t repeat = n->result->sheets[index].repeat;
    double times = (double)repeat;
    sum->cut_m += times * sw_m_from_mm(p->cut_mm);
    sum->time_s += times * p->total_s;
    sum->gas_m3 += times * p->gas_m3;
    sum->cost += times * p->cost;
    const char *const cells[] = {sw_text_format(run, run->scratch, "%s, layout %zu", n->name, index + 1),
                                 sw_text_format(run, run->scratch, "%zu", repeat),
                                 words_number(run, sw_m_from_mm(p->cut_mm), 1),
                                 sw_text_format(run, run->scratch, "%zu", p->pierces),
                                 words_time(run, p->total_s),
                                 words_number(run, p->gas_m3, 2),
                                 words_number(run, p->cost, 2)};
    return doc_row(run, table, cells);
}

static sw_status cut_table(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"one sheet of", 2.6, SW_LEFT},  {"times", 0.8, SW_RIGHT},
                                         {"cut, m", 1.0, SW_RIGHT},       {"pierces", 0.9, SW_RIGHT},
                                         {"machine time", 1.3, SW_RIGHT}, {"gas, m\xc2\xb3", 0.9, SW_RIGHT},
                                         {"cutting cost", 1.2, SW_RIGHT}};
    doc_table table = {.columns = columns, .column_count = 7};
    sums sum = {0};
    for (size_t i = 0; i < doc->d->nest_count; i++) {
        const sw_nested *n = &doc->d->nests[i];
        for (size_t j = 0; n->result != NULL && n->plans != NULL && j < n->result->sheet_count; j++)
            if (n->plans[j] != NULL) SW_TRY(cut_row(run, &table, n, j, &sum));
    }
    if (table.rows == 0) return SW_OK;
    const char *const total[] = {"whole batch",
                                 "",
                                 words_number(run, sum.cut_m, 1),
                                 "",
                                 words_time(run, sum.time_s),
                                 words_number(run, sum.gas_m3, 2),
                                 words_number(run, sum.cost, 2)};
    SW_TRY(doc_row(run, &table, total));
    SW_TRY(doc_heading(run, doc, 2, "Cutting: times and cost"));
    return doc_put_table(run, doc, &table);
}

static sw_status maps(sw_run *run, doc_book *doc)
{
    for (size_t i = 0; i < doc->d->nest_count; i++) {
        const sw_nested *n = &doc->d->nests[i];
        for (size_t j = 0; n->result != NULL && j < n->result->sheet_count; j++) {
            const sw_nest_sheet *s = &n->result->sheets[j];
            double high_mm = fmin(150.0, DOC_WIDTH_MM * s->stock->width_mm / s->stock->length_mm);
            const char *caption = sw_text_format(
                run, run->scratch,
                "%s, layout %zu, cut %zu\xc3\x97 on %s (%.0f \xc3\x97 %.0f mm): %.1f %% of the sheet used.", n->name,
                j + 1, s->repeat, s->stock->name, s->stock->length_mm, s->stock->width_mm, 100.0 * s->density);
            if (caption == NULL) return SW_NO_MEMORY;
            SW_TRY(
                doc_add(run, doc,
                        (doc_block){.kind = DOC_FIGURE, .text = caption, .figure = {sheet_figure, i, j, high_mm, 0}}));
        }
    }
    return SW_OK;
}

sw_status dossier_nests(sw_run *run, doc_book *doc)
{
    if (doc->d->nest_count == 0) return SW_OK;
    const char *currency = doc->d->model.works == NULL ? "" : doc->d->model.works->currency;
    SW_TRY(doc_heading(run, doc, 1, "Nests and cutting"));
    SW_TRY(refusals(run, doc));
    SW_TRY(doc_paragraph(run, doc,
                         sw_text_format(run, run->scratch,
                                        "For the whole batch. Money in %s. Density is piece area over sheet area.",
                                        currency)));
    SW_TRY(nest_table(run, doc));
    SW_TRY(cut_table(run, doc));
    return maps(run, doc);
}
