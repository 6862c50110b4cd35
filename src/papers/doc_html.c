/* doc_html.c: the document as one HTML file that needs nothing else: style inside, figures as inline SVG, no script. */
#include "papers/doc_parts.h"

#include <math.h>

static void escaped(sw_writer *w, const char *text)
{
    const char *from = text;
    for (const char *c = text;; c++) {
        const char *entity = *c == '&'   ? "&amp;"
                             : *c == '<' ? "&lt;"
                             : *c == '>' ? "&gt;"
                             : *c == '"' ? "&quot;"
                                         : NULL;
        if (entity == NULL && *c != '\0') continue;
        sw_write(w, from, (size_t)(c - from));
        if (*c == '\0') return;
        sw_write_text(w, entity);
        from = c + 1;
    }
}

static void element(sw_writer *w, const char *open, const char *text, const char *shut)
{
    sw_write_text(w, open);
    escaped(w, text);
    sw_write_text(w, shut);
}

static const char *align_class(sw_align align)
{
    return align == SW_RIGHT ? " class=\"r\"" : align == SW_CENTRE ? " class=\"c\"" : "";
}

static void table_html(sw_writer *w, const doc_table *t)
{
    sw_write_text(w, "<div class=\"wide\"><table><thead><tr>");
    for (size_t i = 0; i < t->column_count; i++) {
        sw_print(w, "<th scope=\"col\"%s>", align_class(t->columns[i].align));
        element(w, "", t->columns[i].title, "</th>");
    }
    sw_write_text(w, "</tr></thead><tbody>\n");
    for (size_t row = 0; row < t->rows; row++) {
        sw_write_text(w, "<tr>");
        for (size_t i = 0; i < t->column_count; i++) {
            sw_write_text(w, "<td");
            sw_write_text(w, align_class(t->columns[i].align));
            element(w, " data-k=\"", t->columns[i].title, "\">"); /* named beside it where rows are stacked */
            element(w, "", t->cells[row * t->column_count + i], "</td>");
        }
        sw_write_text(w, "</tr>\n");
    }
    sw_write_text(w, "</tbody></table></div>\n");
}

static void term(sw_writer *w, const char *name, const char *text)
{
    if (text == NULL || text[0] == '\0') return;
    sw_print(w, "<div><dt>%s</dt>", name);
    element(w, "<dd>", text, "</dd></div>");
}

static sw_status finding_html(sw_run *run, sw_writer *w, const sw_finding *f)
{
    const char *name = sw_verdict_name(f->verdict);
    const char *value = isfinite(f->value) ? sw_text_format(run, run->scratch, "%.4g %s", f->value, f->unit) : "";
    const char *limit = words_limit(run, f), *margin = words_margin(run, f);
    if (value == NULL || limit == NULL || margin == NULL) return SW_NO_MEMORY;
    sw_print(w, "<article class=\"find %s\"><p><b class=\"%s\">%s</b>", name, name, name);
    element(w, "", f->what, "</p><dl>");
    bool stated = f->sense == SW_STATED;
    term(w, "where", f->where);
    term(w, "value", value);
    term(w, "limit", stated ? "" : limit);
    term(w, "margin", stated ? "" : margin);
    term(w, "source", f->source);
    term(w, "what to do", f->remedy);
    if (f->place.file != NULL && f->place.line > 0) {
        const char *place = sw_text_format(run, run->scratch, "%s:%d", f->place.file, f->place.line);
        if (place == NULL) return SW_NO_MEMORY;
        term(w, "described at", place);
    }
    sw_write_text(w, "</dl></article>\n");
    return SW_OK;
}

static void summary_html(sw_writer *w, const size_t counts[SW_VERDICTS])
{
    static const sw_verdict order[] = {SW_FAILS, SW_WATCH, SW_UNKNOWN, SW_HOLDS};
    sw_write_text(w, "<ul class=\"sum\">");
    for (int i = 0; i < 4; i++) {
        const char *name = sw_verdict_name(order[i]);
        sw_print(w, "<li class=\"%s\"><b>%zu</b>%s</li>", name, counts[order[i]], name);
    }
    sw_write_text(w, "</ul>\n");
}

static sw_status figure_html(sw_run *run, const pen_host *host, const doc_book *doc, const doc_block *block)
{
    sw_writer *w = host->writer;
    const doc_figure *f = &block->figure;
    sw_pen *pen = NULL;
    sw_write_text(w, "<figure role=\"img\" aria-label=\"");
    escaped(w, block->text);
    sw_write_text(w, "\">\n");
    SW_TRY(pen_open_within(run, host, DOC_WIDTH_MM, f->height_mm, &pen));
    sw_status status = f->draw(run, doc, f->a, f->b, pen, (sw_box){0.0, 0.0, DOC_WIDTH_MM, f->height_mm});
    if (status != SW_OK) {
        sw_pen_abandon(pen);
        return status;
    }
    SW_TRY(sw_pen_close(run, pen));
    element(w, "<figcaption>", block->text, "</figcaption></figure>\n");
    return SW_OK;
}

static sw_status block_html(sw_run *run, const pen_host *host, const doc_book *doc, const doc_block *b)
{
    sw_writer *w = host->writer;
    switch (b->kind) {
    case DOC_HEADING:
        element(w, b->level == 1 ? "<h2>" : "<h3>", b->text, b->level == 1 ? "</h2>\n" : "</h3>\n");
        return SW_OK;
    case DOC_PARAGRAPH:
        element(w, "<p>", b->text, "</p>\n");
        return SW_OK;
    case DOC_ITEM:
        element(w, "<li>", b->text, "</li>\n");
        return SW_OK;
    case DOC_TABLE:
        table_html(w, b->table);
        return SW_OK;
    case DOC_FINDING:
        return finding_html(run, w, b->finding);
    case DOC_SUMMARY:
        summary_html(w, b->counts);
        return SW_OK;
    case DOC_FIGURE:
        return figure_html(run, host, doc, b);
    case DOC_PAGE:
        return SW_OK;
    }
    return SW_OK;
}

static sw_status body_html(sw_run *run, const pen_host *host, const doc_book *doc)
{
    sw_writer *w = host->writer;
    sw_write_text(w, "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"/>"
                     "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>");
    element(w, "<title>", doc->title, "</title>");
    sw_print(w, "<style>\n%s</style></head><body><main>\n", doc_html_style);
    element(w, "<header><h1>", doc->title, "</h1>");
    element(w, "<p class=\"soft\">", doc->subtitle, "</p></header>\n");
    bool listing = false;
    for (size_t i = 0; i < doc->count; i++) {
        bool item = doc->blocks[i].kind == DOC_ITEM;
        if (item != listing) sw_write_text(w, item ? "<ul class=\"cautions\">\n" : "</ul>\n");
        listing = item;
        SW_TRY(block_html(run, host, doc, &doc->blocks[i]));
    }
    sw_print(w, "%s</main></body></html>\n", listing ? "</ul>\n" : "");
    return SW_OK;
}

sw_status doc_to_html(sw_run *run, const doc_book *doc, const char *path)
{
    sw_writer *w = NULL;
    SW_TRY(sw_writer_to_file(run, path, &w));
    pen_stamps stamps = {0};
    const pen_host host = {w, doc->desk->letters, &stamps};
    sw_status status = body_html(run, &host, doc);
    pen_stamps_free(&stamps);
    if (status != SW_OK) {
        sw_writer_abandon(w);
        return status;
    }
    return sw_writer_close(run, w);
}
