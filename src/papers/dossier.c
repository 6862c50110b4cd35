/* dossier.c: what the dossier says, in order; one source for HTML and PDF. */
#include "papers/doc_parts.h"

static sw_status content(sw_run *run, doc_book *doc)
{
    SW_TRY(dossier_front(run, doc));
    SW_TRY(dossier_figures(run, doc));
    SW_TRY(dossier_burning(run, doc));
    SW_TRY(dossier_housed(run, doc));
    SW_TRY(dossier_masses(run, doc));
    SW_TRY(dossier_pieces(run, doc));
    SW_TRY(dossier_bends(run, doc));
    SW_TRY(dossier_nests(run, doc));
    SW_TRY(dossier_workshop(run, doc));
    SW_TRY(dossier_cautions(run, doc));
    SW_TRY(dossier_holding(run, doc));
    return dossier_reckoned(run, doc);
}

static const char *subtitle(sw_run *run, const sw_dossier *d)
{
    const char *works = d->model.works == NULL ? "no works given" : d->model.works->name;
    return sw_text_format(
        run, run->scratch, "Dossier of %s. Works: %s. Batch of %zu. From %s%s%s. stovewright " SW_VERSION ".", d->date,
        works, d->batch, d->model.stove_file, d->model.works_file[0] == '\0' ? "" : " and ", d->model.works_file);
}

static sw_status rendered(sw_run *run, const paper_desk *desk, const char *folder)
{
    const sw_dossier *d = desk->d;
    doc_book doc = {.d = d, .desk = desk, .title = d->model.stove->title, .subtitle = subtitle(run, d)};
    const char *html = sw_text_format(run, run->scratch, "%s/dossier.html", folder),
               *pdf = sw_text_format(run, run->scratch, "%s/dossier.pdf", folder);
    if (doc.subtitle == NULL || html == NULL || pdf == NULL) return SW_NO_MEMORY;
    SW_TRY(content(run, &doc));
    SW_TRY(doc_to_html(run, &doc, html));
    return doc_to_pdf(run, &doc, pdf);
}

sw_status paper_dossier(sw_run *run, const paper_desk *desk, const char *folder)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = rendered(run, desk, folder);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

sw_status sw_paper_dossier(sw_run *run, const sw_dossier *d, const char *folder)
{
    size_t mark = sw_arena_mark(run->scratch);
    paper_desk desk;
    sw_status status = desk_whole(run, d, &desk);
    if (status == SW_OK) status = rendered(run, &desk, folder);
    desk_close(&desk);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
