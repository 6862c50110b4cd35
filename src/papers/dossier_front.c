/* dossier_front.c: the front page: verdicts in numbers, then every finding, worst first; what holds as a table. */
#include "papers/doc_parts.h"

#include <math.h>

static const char *verdict_sentence(sw_run *run, const size_t counts[SW_VERDICTS])
{
    if (counts[SW_FAILS] > 0)
        return sw_text_format(run, run->scratch,
                              "%zu check%s. Mend what fails before any sheet is cut; what to do stands beside each.",
                              counts[SW_FAILS], counts[SW_FAILS] == 1 ? " fails" : "s fail");
    if (counts[SW_UNKNOWN] > 0)
        return "No check fails, but some could not be judged: settle these by trial or by the purchased standard.";
    if (counts[SW_WATCH] > 0) return "No check fails. Some hold with little margin: watch these in the works.";
    return counts[SW_HOLDS] > 0 ? "All checks hold." : "Nothing was checked.";
}

/* The checks that hold, at the end: their sentences carry value and limit. */
sw_status dossier_holding(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {
        {"what holds", 4.6, SW_LEFT}, {"where", 2.6, SW_LEFT}, {"margin", 0.7, SW_RIGHT}, {"source", 3.1, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = 4, .dense = true};
    const sw_findings *all = &doc->d->findings;
    for (size_t i = 0; i < all->count; i++) {
        const sw_finding *f = &all->items[i];
        if (f->verdict != SW_HOLDS) continue;
        const char *const cells[] = {f->what, f->where, words_margin(run, f), f->source};
        SW_TRY(doc_row(run, &table, cells));
    }
    if (table.rows == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "What holds"));
    return doc_put_table(run, doc, &table);
}

static sw_status note(sw_run *run, doc_book *doc, const char *about, const char *text)
{
    if (text[0] == '\0') return SW_OK;
    return doc_paragraph(run, doc, sw_text_format(run, run->scratch, "%s: %s", about, text));
}

sw_status dossier_front(sw_run *run, doc_book *doc)
{
    const sw_findings *all = &doc->d->findings;
    size_t counts[SW_VERDICTS];
    SW_TRY(doc_summary(run, doc, counts));
    SW_TRY(doc_paragraph(run, doc, verdict_sentence(run, counts)));
    SW_TRY(dossier_headlines(run, doc));
    SW_TRY(note(run, doc, "About this stove", doc->d->model.stove->note));
    if (doc->d->model.works != NULL) SW_TRY(note(run, doc, "About this works", doc->d->model.works->note));
    SW_TRY(doc_paragraph(
        run, doc,
        "These results support and never replace type testing by an accredited body, local building codes and licensed practice. "
        "Cautions for the people who cut, bend, weld, lift, coat and light the stove are at the end."));
    if (all->count > counts[SW_HOLDS]) SW_TRY(doc_heading(run, doc, 1, "Findings, worst first"));
    for (size_t i = 0; i < all->count; i++)
        if (all->items[i].verdict != SW_HOLDS)
            SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_FINDING, .finding = &all->items[i]}));
    return SW_OK;
}
