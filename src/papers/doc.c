/* doc.c: builds the document in memory and breaks texts into lines. */
#include "papers/doc_parts.h"

#include <string.h>

sw_status doc_add(sw_run *run, doc_book *doc, doc_block block)
{
    doc_block *blocks = sw_grow(run, run->scratch, doc->blocks, doc->count, &doc->room, sizeof *blocks);
    if (blocks == NULL) return SW_NO_MEMORY;
    doc->blocks = blocks;
    doc->blocks[doc->count++] = block;
    return SW_OK;
}

sw_status doc_heading(sw_run *run, doc_book *doc, int level, const char *text)
{
    if (text == NULL) return SW_NO_MEMORY;
    return doc_add(run, doc, (doc_block){.kind = DOC_HEADING, .level = level, .text = text});
}

sw_status doc_summary(sw_run *run, doc_book *doc, size_t counts[SW_VERDICTS])
{
    doc_block block = {.kind = DOC_SUMMARY};
    sw_findings_count(&doc->d->findings, counts);
    memcpy(block.counts, counts, sizeof block.counts);
    return doc_add(run, doc, block);
}

sw_status doc_paragraph(sw_run *run, doc_book *doc, const char *text)
{
    if (text == NULL) return SW_NO_MEMORY;
    return text[0] == '\0' ? SW_OK : doc_add(run, doc, (doc_block){.kind = DOC_PARAGRAPH, .text = text});
}

sw_status doc_row(sw_run *run, doc_table *table, const char *const *cells)
{
    for (size_t i = 0; i < table->column_count; i++) {
        if (cells[i] == NULL) return SW_NO_MEMORY;
        const char **all =
            sw_grow(run, run->scratch, table->cells, table->rows * table->column_count + i, &table->room, sizeof *all);
        if (all == NULL) return SW_NO_MEMORY;
        table->cells = all;
        all[table->rows * table->column_count + i] = cells[i];
    }
    table->rows++;
    return SW_OK;
}

sw_status doc_put_table(sw_run *run, doc_book *doc, const doc_table *table)
{
    doc_table *kept = SW_SCRATCH(run, 1, doc_table);
    if (kept == NULL) return SW_NO_MEMORY;
    *kept = *table;
    return table->rows == 0 ? SW_OK : doc_add(run, doc, (doc_block){.kind = DOC_TABLE, .table = kept});
}

/* ---- lines ---- */

typedef struct breaker {
    const char **lines;
    size_t count, room;
} breaker;

static sw_status put_line(sw_run *run, breaker *b, const char *from, size_t length)
{
    const char **lines = sw_grow(run, run->scratch, b->lines, b->count, &b->room, sizeof *lines);
    if (lines == NULL) return SW_NO_MEMORY;
    b->lines = lines;
    char *line = SW_SCRATCH(run, length + 1, char);
    if (line == NULL) return SW_NO_MEMORY;
    memcpy(line, from, length);
    b->lines[b->count++] = line;
    return SW_OK;
}

size_t doc_first_line(lettering *letters, doc_measure m, const char *text)
{
    double used_mm = 0.0;
    size_t space = 0;
    for (const char *c = text; *c != '\0';) {
        size_t end = (size_t)(c - text);
        uint32_t code = lettering_code(&c);
        used_mm += m.height_mm * lettering_advance(letters, m.bold, code);
        if (code == ' ') space = end;
        if (used_mm > m.most_mm && end > 0 && code != ' ') return space > 0 ? space : end;
        if (*c == '\0') return (size_t)(c - text);
    }
    return 0;
}

sw_status doc_wrap(sw_run *run, lettering *letters, doc_measure measure, const char *text, doc_lines *out)
{
    breaker b = {0};
    do {
        size_t n = doc_first_line(letters, measure, text);
        SW_TRY(put_line(run, &b, text, n));
        text += n;
        while (*text == ' ') text++;
    } while (*text != '\0');
    *out = (doc_lines){b.lines, b.count};
    return SW_OK;
}
