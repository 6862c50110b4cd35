/* read.c: queries, the history of a stove, remnants in stock. */
#include "log/log_parts.h"

#include <stdlib.h>
#include <string.h>

static void print_select(sw_writer *sql, const sw_log *log, const sw_log_kind *kind)
{
    sw_print(sql,
             "SELECT k.\"id\",k.\"at\",k.\"entered\",k.\"by\",k.\"corrects\",k.\"withdrawn\",k.\"why\","
             "(SELECT c.\"id\" FROM \"%s\" c WHERE c.\"corrects\"=k.\"id\")",
             kind->name);
    for (size_t i = 0; i < kind->field_count; i++) {
        if (log_since(kind->fields[i].since) > log->version)
            sw_write_text(sql, ",NULL");
        else
            sw_print(sql, ",k.\"%s\"", kind->fields[i].name);
    }
    sw_print(sql, " FROM \"%s\" k WHERE 1", kind->name);
}

static void print_where(sw_writer *sql, const sw_log_query *q, int version)
{
    const sw_log_kind *kind = q->like.kind;
    for (size_t i = 0; i < kind->field_count; i++) {
        if (!q->like.values[i].there) continue;
        if (log_since(kind->fields[i].since) > version)
            sw_write_text(sql, " AND 0");
        else
            sw_print(sql, " AND k.\"%s\"=?%zu", kind->fields[i].name, i + 1);
    }
    if (q->id != 0) sw_print(sql, " AND k.\"id\"=%lld", (long long)q->id);
    if (q->from_ms != 0) sw_print(sql, " AND k.\"at\">=%lld", (long long)q->from_ms);
    if (q->to_ms != 0) sw_print(sql, " AND k.\"at\"<%lld", (long long)q->to_ms);
    if (!q->all)
        sw_print(sql, " AND k.\"withdrawn\"=0 AND NOT EXISTS(SELECT 1 FROM \"%s\" c WHERE c.\"corrects\"=k.\"id\")",
                 kind->name);
    sw_write_text(sql, q->newest ? " ORDER BY k.\"id\" DESC" : " ORDER BY k.\"id\"");
    if (q->most != 0) sw_print(sql, " LIMIT %zu", q->most);
}

static const char *text_at(sqlite3_stmt *s, int column)
{
    return (const char *)sqlite3_column_text(s, column);
}

static void take_value(sqlite3_stmt *s, int column, const sw_log_field *f, sw_log_value *v)
{
    *v = (sw_log_value){.there = sqlite3_column_type(s, column) != SQLITE_NULL};
    if (!v->there) return;
    if (f->type == SW_LOG_NUMBER)
        v->number = sqlite3_column_double(s, column);
    else if (f->type == SW_LOG_WHOLE || f->type == SW_LOG_TIME)
        v->whole = sqlite3_column_int64(s, column);
    else
        v->text = text_at(s, column);
}

static void take_record(sqlite3_stmt *s, const sw_log_kind *kind, sw_log_record *r)
{
    *r = (sw_log_record){.kind = kind};
    r->id = sqlite3_column_int64(s, 0);
    r->at_ms = sqlite3_column_int64(s, 1);
    r->entered_ms = sqlite3_column_int64(s, 2);
    r->by = text_at(s, 3);
    r->corrects = sqlite3_column_int64(s, 4);
    r->withdrawn = sqlite3_column_int(s, 5) != 0;
    r->why = text_at(s, 6);
    r->corrected_by = sqlite3_column_int64(s, 7);
    for (size_t i = 0; i < kind->field_count; i++) take_value(s, (int)i + LOG_COMMON, &kind->fields[i], &r->values[i]);
}

static void bind_like(sqlite3_stmt *s, const sw_log_record *like)
{
    for (size_t i = 0; i < like->kind->field_count; i++) {
        const sw_log_value *v = &like->values[i];
        if (!v->there) continue;
        if (like->kind->fields[i].type == SW_LOG_NUMBER)
            (void)sqlite3_bind_double(s, (int)i + 1, v->number);
        else if (v->text == NULL)
            (void)sqlite3_bind_int64(s, (int)i + 1, v->whole);
        else
            (void)sqlite3_bind_text(s, (int)i + 1, v->text, -1, SQLITE_STATIC);
    }
}

static sw_status visit_rows(sw_run *run, sw_log *log, sqlite3_stmt *s, const sw_log_kind *kind, sw_log_visit_fn *visit,
                            void *context)
{
    for (;;) {
        sw_log_record record;
        int code = sqlite3_step(s);
        if (code == SQLITE_DONE) return SW_OK;
        if (code != SQLITE_ROW) return log_fail(run, log, code);
        take_record(s, kind, &record);
        SW_TRY(visit(context, &record));
        if (sw_run_cancelled(run)) return sw_fail(run, SW_CANCELLED, (sw_place){0}, log->path, "stopped while reading");
    }
}

sw_status sw_log_visit(sw_run *run, sw_log *log, const sw_log_query *query, sw_log_visit_fn *visit, void *context)
{
    const sw_log_kind *kind = query->like.kind;
    sw_writer *sql = NULL;
    const char *text = NULL;
    size_t length = 0;
    sqlite3_stmt *s = NULL;
    if (log_since(kind->since) > log->version) return SW_OK;
    SW_TRY(sw_writer_to_memory(run, &sql));
    print_select(sql, log, kind);
    print_where(sql, query, log->version);
    SW_TRY(sw_writer_take(run, sql, &text, &length));
    SW_TRY(log_prepare(run, log, text, &s));
    bind_like(s, &query->like);
    sw_status status = visit_rows(run, log, s, kind, visit, context);
    (void)sqlite3_finalize(s);
    return status;
}

/* ---- lists ----------------------------------------------------------------------------- */

typedef struct collection {
    sw_run *run;
    sw_log_record *items;
    size_t count, room;
    bool without_serial; /* take only records that name no serial */
} collection;

static bool keep_text(sw_run *run, const char **text)
{
    if (*text != NULL) *text = sw_text_copy(run, run->keep, *text);
    return *text != NULL;
}

static sw_status collect(void *context, const sw_log_record *record)
{
    collection *c = context;
    size_t serial = sw_log_field_find(record->kind, "serial");
    if (c->without_serial && serial != SIZE_MAX && record->values[serial].there) return SW_OK;
    sw_log_record *items = sw_grow(c->run, c->run->keep, c->items, c->count, &c->room, sizeof *items);
    if (items == NULL) return SW_NO_MEMORY;
    c->items = items;
    sw_log_record *r = &items[c->count];
    *r = *record;
    bool good = keep_text(c->run, &r->by) && (r->why == NULL || keep_text(c->run, &r->why));
    for (size_t i = 0; i < r->kind->field_count && good; i++)
        good = r->values[i].text == NULL || keep_text(c->run, &r->values[i].text);
    c->count += good ? 1 : 0;
    return good ? SW_OK : SW_NO_MEMORY;
}

sw_status sw_log_find(sw_run *run, sw_log *log, const sw_log_query *query, sw_log_records *found)
{
    collection c = {.run = run};
    *found = (sw_log_records){0};
    SW_TRY(sw_log_visit(run, log, query, collect, &c));
    *found = (sw_log_records){.items = c.items, .count = c.count};
    return SW_OK;
}

/* ---- history ---------------------------------------------------------------------------- */

static sw_status collect_where(sw_run *run, sw_log *log, const sw_log_kind *kind, size_t field, const char *name,
                               collection *c)
{
    sw_log_query query = {.like = {.kind = kind}, .all = true};
    query.like.values[field] = (sw_log_value){.there = true, .text = name};
    return sw_log_visit(run, log, &query, collect, c);
}

static bool is_collected(const collection *c, const sw_log_kind *kind, const char *name)
{
    for (size_t i = 0; i < c->count; i++)
        if (c->items[i].kind == kind && strcmp(c->items[i].values[0].text, name) == 0) return true;
    return false;
}

/* What the records found so far name in turn, until nothing is added. */
static sw_status collect_named(sw_run *run, sw_log *log, collection *c)
{
    for (size_t i = 0; i < c->count; i++) {
        const sw_log_record record = c->items[i];
        for (size_t k = 0; k < record.kind->field_count; k++) {
            const sw_log_field *f = &record.kind->fields[k];
            if (f->type != SW_LOG_LINK || !record.values[k].there || strcmp(f->of, "serial") == 0) continue;
            const sw_log_kind *kind = sw_log_kind_find(f->of);
            if (is_collected(c, kind, record.values[k].text)) continue;
            SW_TRY(collect_where(run, log, kind, 0, record.values[k].text, c));
        }
    }
    return SW_OK;
}

static sw_status collect_serial(sw_run *run, sw_log *log, const char *serial, collection *c)
{
    for (size_t i = 0; i < sw_log_kind_count(); i++) {
        const sw_log_kind *kind = sw_log_kind_at(i);
        size_t field = sw_log_field_find(kind, "serial");
        if (field != SIZE_MAX) SW_TRY(collect_where(run, log, kind, field, serial, c));
    }
    return SW_OK;
}

/* Records on the whole batch: those that may name a serial and do not. */
static sw_status collect_batch(sw_run *run, sw_log *log, const char *batch, collection *c)
{
    c->without_serial = true;
    for (size_t i = 0; i < sw_log_kind_count(); i++) {
        const sw_log_kind *kind = sw_log_kind_at(i);
        size_t field = sw_log_field_find(kind, "batch"), serial = sw_log_field_find(kind, "serial");
        if (field == SIZE_MAX || serial == SIZE_MAX) continue;
        SW_TRY(collect_where(run, log, kind, field, batch, c));
    }
    c->without_serial = false;
    return SW_OK;
}

static int by_time(const void *a, const void *b)
{
    const sw_log_record *x = a, *y = b;
    if (x->at_ms != y->at_ms) return x->at_ms < y->at_ms ? -1 : 1;
    if (x->kind != y->kind) return x->kind < y->kind ? -1 : 1;
    return x->id < y->id ? -1 : x->id > y->id ? 1 : 0;
}

static sw_status collect_history(sw_run *run, sw_log *log, const char *serial, collection *c)
{
    const sw_log_kind *kind = sw_log_kind_find("serial");
    SW_TRY(collect_where(run, log, kind, 0, serial, c));
    if (c->count == 0) return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, serial, "no stove of this number is recorded");
    const char *batch = c->items[c->count - 1].values[sw_log_field_find(kind, "batch")].text;
    SW_TRY(collect_serial(run, log, serial, c));
    SW_TRY(collect_batch(run, log, batch, c));
    return collect_named(run, log, c);
}

sw_status sw_log_history(sw_run *run, sw_log *log, const char *serial, sw_log_records *history)
{
    collection c = {.run = run};
    *history = (sw_log_records){0};
    SW_TRY(log_do(run, log, "BEGIN")); /* one moment for all kinds */
    sw_status status = collect_history(run, log, serial, &c);
    (void)sqlite3_exec(log->db, "ROLLBACK", NULL, NULL, NULL);
    if (status != SW_OK) return status;
    if (c.items != NULL) qsort(c.items, c.count, sizeof *c.items, by_time);
    *history = (sw_log_records){.items = c.items, .count = c.count};
    return SW_OK;
}

/* ---- stock ------------------------------------------------------------------------------- */

/* Corrected, a move keeps its place among those of the same time: that of the first record of its chain. */
#define FIRST_MOVE(a)                                                                                                  \
    "(WITH RECURSIVE up(\"id\",\"corrects\") AS(SELECT " a ".\"id\"," a ".\"corrects\" UNION ALL SELECT p.\"id\","     \
    "p.\"corrects\" FROM \"move\" p JOIN up ON p.\"id\"=up.\"corrects\")SELECT \"id\" FROM up WHERE \"corrects\" IS NULL)"

static const char stock_sql[] =
    "SELECT r.\"name\",s.\"name\",s.\"heat\",s.\"material\",s.\"thickness_mm\",r.\"length_mm\",r.\"width_mm\",m.\"place\" "
    "FROM \"remnant\" r JOIN \"sheet\" s ON s.\"name\"=r.\"sheet\" JOIN \"move\" m ON m.\"remnant\"=r.\"name\" "
    "WHERE " LOG_HOLDS("remnant", "r") " AND " LOG_HOLDS("sheet", "s") " AND " LOG_HOLDS(
        "move", "m") " AND m.\"way\"='in' "
                     "AND NOT EXISTS(SELECT 1 FROM \"move\" n WHERE n.\"remnant\"=r.\"name\" AND " LOG_HOLDS(
                         "move",
                         "n") " AND (n.\"at\"," FIRST_MOVE("n") ")>(m.\"at\"," FIRST_MOVE("m") ")) ORDER BY r.\"id\"";

static sw_status take_stock(sw_run *run, sw_log *log, sqlite3_stmt *s, const sw_log_remnant **stock, size_t *count)
{
    sw_log_remnant *items = NULL;
    size_t room = 0;
    for (*count = 0;; (*count)++) {
        int code = sqlite3_step(s);
        if (code == SQLITE_DONE) break;
        if (code != SQLITE_ROW) return log_fail(run, log, code);
        items = sw_grow(run, run->keep, items, *count, &room, sizeof *items);
        if (items == NULL) return SW_NO_MEMORY;
        sw_log_remnant *r = &items[*count];
        *r = (sw_log_remnant){text_at(s, 0), text_at(s, 1), text_at(s, 2), text_at(s, 3), text_at(s, 7), 0, 0, 0};
        r->thickness_mm = sqlite3_column_double(s, 4);
        r->length_mm = sqlite3_column_double(s, 5);
        r->width_mm = sqlite3_column_double(s, 6);
        bool good = keep_text(run, &r->name) && keep_text(run, &r->sheet) && keep_text(run, &r->heat) &&
                    keep_text(run, &r->material) && (r->place == NULL || keep_text(run, &r->place));
        if (!good) return SW_NO_MEMORY;
    }
    *stock = items;
    return SW_OK;
}

sw_status sw_log_stock(sw_run *run, sw_log *log, const sw_log_remnant **stock, size_t *count)
{
    sqlite3_stmt *s = NULL;
    *stock = NULL;
    *count = 0;
    SW_TRY(log_prepare(run, log, stock_sql, &s));
    sw_status status = take_stock(run, log, s, stock, count);
    (void)sqlite3_finalize(s);
    return status;
}
