/* log_history.c: what is known of one stove: what it is, what it is made of, how it measured, how it burnt; then all by time. */
#include "papers/log_parts.h"

#include <string.h>

enum { COLUMNS_MOST = SW_LOG_FIELDS + 4, HASH_SHOWN = 12 };

static const char *field_text(sw_run *run, const sw_log_field *f, const sw_log_value *v)
{
    char time[SW_LOG_TIME_ROOM];
    if (!v->there) return "";
    switch (f->type) {
    case SW_LOG_NUMBER:
        return sw_text_format(run, run->scratch, "%.10g", v->number);
    case SW_LOG_WHOLE:
        return sw_text_format(run, run->scratch, "%lld", (long long)v->whole);
    case SW_LOG_TIME:
        sw_log_time_text(v->whole, time);
        return sw_text_format(run, run->scratch, "%s", time);
    case SW_LOG_DOCUMENT:
        return sw_text_format(run, run->scratch, "%zu bytes", strlen(v->text));
    case SW_LOG_HASH:
        return sw_text_format(run, run->scratch, "%.*s\xe2\x80\xa6", HASH_SHOWN, v->text);
    default:
        return v->text;
    }
}

static const sw_log_value *value_named(const sw_log_record *r, const char *name)
{
    size_t i = sw_log_field_find(r->kind, name);
    return i == SIZE_MAX || !r->values[i].there ? NULL : &r->values[i];
}

static bool is_outside(const sw_log_record *r)
{
    const sw_log_value *value = value_named(r, "value"), *low = value_named(r, "low"), *high = value_named(r, "high");
    if (value == NULL) value = value_named(r, "flow_m3_h");
    if (high == NULL) high = value_named(r, "limit_m3_h");
    if (value == NULL) return false;
    return (low != NULL && value->number < low->number) || (high != NULL && value->number > high->number);
}

static bool has_word(const sw_log_record *r, const char *field, const char *word)
{
    const sw_log_value *v = value_named(r, field);
    return v != NULL && strcmp(v->text, word) == 0;
}

/* What somebody should look at: a reading outside, a seam that failed, a fault not decided, a stove to be stopped. */
static const char *alarm(const sw_log_record *r)
{
    if (r->corrected_by != 0 || r->withdrawn) return "";
    if (is_outside(r)) return "outside its limits";
    if (has_word(r, "result", "fail")) return "failed";
    if (has_word(r, "decision", "open")) return "not decided";
    if (has_word(r, "state", "stop")) return "stop";
    return has_word(r, "flue", "fails") ? "the flue fails" : "";
}

static const char *state(sw_run *run, const sw_log_record *r)
{
    if (r->corrected_by != 0) return sw_text_format(run, run->scratch, "corrected by %lld", (long long)r->corrected_by);
    if (r->corrects != 0)
        return sw_text_format(run, run->scratch, "%s %lld: %s", r->withdrawn ? "withdraws" : "corrects",
                              (long long)r->corrects, r->why);
    return alarm(r);
}

/* "2026-03-05 14:20" */
static const char *minute(sw_run *run, int64_t ms)
{
    char time[SW_LOG_TIME_ROOM];
    sw_log_time_text(ms, time);
    return sw_text_format(run, run->scratch, "%.10s %.5s", time, time + 11);
}

/* ---- kind by kind ---------------------------------------------------------------------------------------------------- */

static bool is_used(const sw_log_records *all, const sw_log_kind *kind, size_t field)
{
    if (strcmp(kind->fields[field].name, "serial") == 0) return false; /* the same in all */
    for (size_t i = 0; i < all->count; i++)
        if (all->items[i].kind == kind && all->items[i].values[field].there) return true;
    return false;
}

static sw_status kind_row(sw_run *run, doc_table *table, const sw_log_record *r, const size_t *fields, size_t count)
{
    const char *cells[COLUMNS_MOST];
    size_t n = 0;
    cells[n++] = sw_text_format(run, run->scratch, "%lld", (long long)r->id);
    cells[n++] = minute(run, r->at_ms);
    for (size_t i = 0; i < count; i++) cells[n++] = field_text(run, &r->kind->fields[fields[i]], &r->values[fields[i]]);
    cells[n++] = r->by;
    cells[n++] = state(run, r);
    return doc_row(run, table, cells);
}

static const char *field_title(sw_run *run, const sw_log_field *f)
{
    bool told = f->unit == NULL || strstr(f->name, "_") != NULL || strcmp(f->unit, "as unit") == 0;
    return told ? f->name : sw_text_format(run, run->scratch, "%s, %s", f->name, f->unit);
}

static sw_status kind_table(sw_run *run, doc_book *doc, const sw_log_kind *kind)
{
    const sw_log_records *all = doc->logged->history;
    doc_column *columns = SW_SCRATCH(run, COLUMNS_MOST, doc_column);
    size_t fields[SW_LOG_FIELDS], n = 0, count = 0;
    if (columns == NULL) return SW_NO_MEMORY;
    columns[count++] = (doc_column){"no.", 0.6, SW_RIGHT};
    columns[count++] = (doc_column){"when, UTC", 2.2, SW_LEFT};
    for (size_t i = 0; i < kind->field_count; i++) {
        const sw_log_field *f = &kind->fields[i];
        if (!is_used(all, kind, i)) continue;
        const char *title = field_title(run, f);
        if (title == NULL) return SW_NO_MEMORY;
        bool number = f->type == SW_LOG_NUMBER || f->type == SW_LOG_WHOLE;
        columns[count++] = (doc_column){title, number ? 1.3 : 2, number ? SW_RIGHT : SW_LEFT};
        fields[n++] = i;
    }
    columns[count++] = (doc_column){"by", 1, SW_LEFT};
    columns[count++] = (doc_column){"", 2.2, SW_LEFT};
    doc_table table = {.columns = columns, .column_count = count, .dense = true};
    for (size_t i = 0; i < all->count; i++)
        if (all->items[i].kind == kind) SW_TRY(kind_row(run, &table, &all->items[i], fields, n));
    if (table.rows == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 2, sw_text_format(run, run->scratch, "%s: %s", kind->plural, kind->meaning)));
    return doc_put_table(run, doc, &table);
}

/* ---- the whole --------------------------------------------------------------------------------------------------------- */

static const char *summary(sw_run *run, const sw_log_record *r)
{
    const char *all = "";
    for (size_t i = 0; i < r->kind->field_count && all != NULL; i++) {
        const char *text = field_text(run, &r->kind->fields[i], &r->values[i]);
        bool skipped = text != NULL && (text[0] == '\0' || strcmp(r->kind->fields[i].name, "serial") == 0 ||
                                        r->kind->fields[i].type == SW_LOG_DOCUMENT);
        if (!skipped)
            all = text == NULL ? NULL
                               : sw_text_format(run, run->scratch, "%s%s%s %s", all, all[0] == '\0' ? "" : ", ",
                                                r->kind->fields[i].name, text);
    }
    return all;
}

static sw_status alarms(sw_run *run, doc_book *doc)
{
    const sw_log_records *all = doc->logged->history;
    size_t count = 0;
    SW_TRY(doc_heading(run, doc, 1, "To be looked at"));
    for (size_t i = 0; i < all->count; i++) {
        const sw_log_record *r = &all->items[i];
        if (alarm(r)[0] == '\0') continue;
        const char *what = summary(run, r);
        if (what == NULL) return SW_NO_MEMORY;
        const char *text =
            sw_text_format(run, run->scratch, "%s %lld, %s: %s", r->kind->name, (long long)r->id, alarm(r), what);
        if (text == NULL) return SW_NO_MEMORY;
        SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_ITEM, .text = text}));
        count++;
    }
    return count > 0 ? SW_OK
                     : doc_paragraph(run, doc, "Nothing: every reading is within its limits, every fault decided.");
}

static sw_status by_time(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"when, UTC", 1.6, SW_LEFT}, {"what", 1.4, SW_LEFT},
                                         {"no.", 0.5, SW_RIGHT},      {"", 6, SW_LEFT},
                                         {"by", 0.8, SW_LEFT},        {"", 1.8, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = sizeof columns / sizeof *columns, .dense = true};
    const sw_log_records *all = doc->logged->history;
    for (size_t i = 0; i < all->count; i++) {
        const sw_log_record *r = &all->items[i];
        const char *const cells[] = {
            minute(run, r->at_ms), r->kind->name, sw_text_format(run, run->scratch, "%lld", (long long)r->id),
            summary(run, r),       r->by,         state(run, r)};
        SW_TRY(doc_row(run, &table, cells));
    }
    SW_TRY(doc_heading(run, doc, 1, "All by time"));
    return doc_put_table(run, doc, &table);
}

static sw_status code_figure(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a;
    (void)b;
    double side_mm = box.y1_mm - box.y0_mm;
    return draw_qr(run, pen, (sw_box){box.x0_mm, box.y0_mm, box.x0_mm + side_mm, box.y1_mm}, doc->logged->serial);
}

sw_status logged_history(sw_run *run, doc_book *doc)
{
    SW_TRY(doc_paragraph(
        run, doc,
        "Every record that names this stove, what these name in turn, and what was found on its whole batch. Nothing was "
        "overwritten: what was corrected stands beside its correction."));
    SW_TRY(doc_add(run, doc,
                   (doc_block){.kind = DOC_FIGURE,
                               .text = sw_text_format(run, run->scratch, "Serial number %s", doc->logged->serial),
                               .figure = {.draw = code_figure, .height_mm = 26}}));
    SW_TRY(alarms(run, doc));
    SW_TRY(doc_heading(run, doc, 1, "By kind"));
    for (size_t i = 0; i < sw_log_kind_count(); i++) SW_TRY(kind_table(run, doc, sw_log_kind_at(i)));
    return by_time(run, doc);
}
