/* card_weld.c: the welding card: cautions, what the whole takes, then each body with its pictures and tables. Cautions: common
 * practice, no source. */
#include "papers/cards_parts.h"
#include "papers/sheets_parts.h"

#include <math.h>

static const char *const cautions[] = {
    "The arc blinds and burns: helmet, gloves and closed clothes; screens before the place so that nobody beside it looks into the arc.",
    "Fumes are drawn off at the torch. Zinc, paint, oil and cleaner are off the seam before it is welded: their fumes are poison, and beside chlorinated cleaners none is welded at all.",
    "Fresh seams are hot for a quarter of an hour; bodies are marked hot and put where nobody leans on them. Spatter starts fires: nothing that burns within 10 m, a look back after the shift.",
    "Shielding gas drives out breath in pits and closed rooms. Cylinders are chained. The robot's fence is shut before it moves; teaching at reduced speed with the enabling switch.",
};

static sw_status items(sw_run *run, doc_book *doc)
{
    SW_TRY(doc_heading(run, doc, 1, "Before anything else"));
    for (size_t i = 0; i < sizeof cautions / sizeof *cautions; i++)
        SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_ITEM, .text = cautions[i]}));
    return SW_OK;
}

static const char *body_title(sw_run *run, const weld_body *w)
{
    return sw_text_format(run, run->scratch, "%zu  %s", w->number, w->body->name);
}

static sw_status body_row(sw_run *run, doc_table *table, const weld_body *w)
{
    const sw_join_body *b = w->body;
    const char *const cells[] = {body_title(run, w),
                                 words_number(run, b->mass_kg, 1),
                                 sw_text_format(run, run->scratch, "%zu", b->piece_count),
                                 sw_text_format(run, run->scratch, "%zu", b->tack_count),
                                 sw_text_format(run, run->scratch, "%zu", b->robot_count),
                                 sw_text_format(run, run->scratch, "%zu", b->hand_count),
                                 words_number(run, sw_m_from_mm(b->robot_mm + b->hand_mm), 2),
                                 words_time(run, b->tack_s),
                                 b->robot_count == 0 ? "\xe2\x80\x93" : words_time(run, b->robot_s),
                                 b->hand_count == 0 ? "\xe2\x80\x93" : words_time(run, b->hand_s)};
    return doc_row(run, table, cells);
}

static const char *totals(sw_run *run, const sw_join_result *j)
{
    const char *arc = words_time(run, j->arc_s), *area = words_number(run, j->leak_area_mm2, 0),
               *gap = words_number(run, j->leak_gap_mm, 3);
    if (arc == NULL || area == NULL || gap == NULL) return NULL;
    return sw_text_format(
        run, run->scratch,
        "One stove: %.2f m of seam, %s of arc, %.3f kg of wire, %.0f l of gas, %.2f kWh from the mains. Tight seams %.2f m: "
        "as much as may leak is an opening of %s mm\xc2\xb2, or a gap of %s mm along all of it.%s",
        sw_m_from_mm(j->weld_mm), arc, j->wire_kg, j->gas_m3 * 1e3, sw_kwh_from_j(j->energy_j),
        sw_m_from_mm(j->tight_mm), area, gap,
        j->unknown > 0 ? " Seams without settings in the works are not in these sums." : "");
}

static sw_status overview(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"body, in the order of welding", 4.6, SW_LEFT},
                                         {"mass, kg", 0.9, SW_RIGHT},
                                         {"pieces", 0.9, SW_RIGHT},
                                         {"tacks", 0.8, SW_RIGHT},
                                         {"seams by robot", 1.0, SW_RIGHT},
                                         {"by hand", 0.8, SW_RIGHT},
                                         {"seam, m", 0.9, SW_RIGHT},
                                         {"tacking", 1.1, SW_RIGHT},
                                         {"robot", 1.1, SW_RIGHT},
                                         {"hand", 1.1, SW_RIGHT}};
    const sw_join_result *j = doc->d->shop.join;
    doc_table table = {.columns = columns, .column_count = 10};
    for (size_t i = 0; i < j->body_count; i++) {
        weld_body w;
        SW_TRY(weld_body_of(run, j, i, &w));
        SW_TRY(body_row(run, &table, &w));
    }
    SW_TRY(doc_heading(run, doc, 1, "The whole"));
    SW_TRY(doc_paragraph(run, doc, totals(run, j)));
    return doc_put_table(run, doc, &table);
}

static const char *body_facts(sw_run *run, const weld_body *w)
{
    const sw_join_body *b = w->body;
    const char *centre = sheet_place(run, b->centre);
    if (centre == NULL) return NULL;
    return sw_text_format(
        run, run->scratch, "%.1f kg, longest side %.0f mm, centre of mass at %s mm in the stove's frame.%s%s",
        b->mass_kg, b->span_mm, centre, b->ahead ? " Welded ahead, before the body it belongs to closes." : "",
        b->robot_count == 0 ? ""
        : b->proved         ? " The robot's order is the best there is."
                            : " The robot's order is good; that none is better was not proved.");
}

static sw_status body_pages(sw_run *run, doc_book *doc, size_t index)
{
    weld_body w;
    SW_TRY(weld_body_of(run, doc->d->shop.join, index, &w));
    const char *title = body_title(run, &w);
    if (title == NULL) return SW_NO_MEMORY;
    SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_PAGE}));
    SW_TRY(doc_heading(run, doc, 1, title));
    SW_TRY(doc_paragraph(run, doc, body_facts(run, &w)));
    if (w.count > 0)
        SW_TRY(doc_add(
            run, doc,
            (doc_block){.kind = DOC_FIGURE,
                        .text =
                            "Numbers: order of welding. Thick: seen from there; dashed: behind sheet. Not to scale.",
                        .figure = {.draw = draw_weld_views, .a = index, .height_mm = weld_views_height_mm(w.body)}}));
    return weld_tables(run, doc, &w);
}

static sw_status rendered(sw_run *run, const paper_desk *desk, const char *path)
{
    const sw_dossier *d = desk->d;
    doc_book doc = {.d = d, .desk = desk};
    doc.title = sw_text_format(run, run->scratch, "Welding: %s", d->model.stove->title);
    doc.subtitle = sw_text_format(run, run->scratch,
                                  "From %s, %s. stovewright " SW_VERSION
                                  ". The points of all seams for whoever teaches the robot: welding/seams.csv.",
                                  d->model.stove_file, d->date);
    if (doc.title == NULL || doc.subtitle == NULL) return SW_NO_MEMORY;
    SW_TRY(items(run, &doc));
    SW_TRY(overview(run, &doc));
    for (size_t i = 0; i < d->shop.join->body_count; i++) SW_TRY(body_pages(run, &doc, i));
    return doc_to_pdf(run, &doc, path);
}

sw_status paper_welding(sw_run *run, const paper_desk *desk, const char *path)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = rendered(run, desk, path);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
