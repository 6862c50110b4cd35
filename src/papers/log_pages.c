/* log_pages.c: a page of the works' log as HTML or PDF, by the ending of its name. */
#include "papers/log_parts.h"

static sw_status rendered(sw_run *run, const sw_logged *l, const paper_desk *desk, const char *path)
{
    bool history = l->history != NULL;
    doc_book doc = {.d = desk->d, .desk = desk, .logged = l};
    doc.title = history ? sw_text_format(run, run->scratch, "Stove %s: history", l->serial) : "The works in figures";
    doc.subtitle = sw_text_format(run, run->scratch, "From %s, %s. stovewright " SW_VERSION ".", l->log, l->date);
    if (doc.title == NULL || doc.subtitle == NULL) return SW_NO_MEMORY;
    SW_TRY(history ? logged_history(run, &doc) : logged_statistics(run, &doc));
    return sw_text_ends_with(path, ".pdf") ? doc_to_pdf(run, &doc, path) : doc_to_html(run, &doc, path);
}

sw_status sw_paper_log(sw_run *run, const sw_logged *logged, const char *path)
{
    size_t mark = sw_arena_mark(run->scratch);
    const sw_dossier none = {.date = logged->date};
    paper_desk desk = {.d = &none};
    if (!sw_text_ends_with(path, ".pdf") && !sw_text_ends_with(path, ".html"))
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--out", "\"%s\": a page of the log is a .html or a .pdf",
                       path);
    sw_status status = lettering_open(run, &desk.letters);
    if (status == SW_OK) status = rendered(run, logged, &desk, path);
    lettering_close(desk.letters);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
