/* write.c: appending records and corrections. */
#include "log/log_parts.h"

#include <string.h>

static size_t index_of(const sw_log_kind *kind)
{
    return (size_t)(kind - sw_log_kind_at(0));
}

/* A log made as an older one lacks the newer fields. */
static bool is_known(const sw_log *log, const sw_log_field *field)
{
    return log_since(field->since) <= log->version;
}

static sw_status insert_statement(sw_run *run, sw_log *log, const sw_log_kind *kind, sqlite3_stmt **statement)
{
    size_t at = index_of(kind);
    SW_ASSERT(at < LOG_KINDS);
    *statement = log->insert[at];
    if (*statement != NULL) return SW_OK;
    sw_writer *sql = NULL;
    const char *text = NULL;
    size_t length = 0;
    SW_TRY(sw_writer_to_memory(run, &sql));
    sw_print(sql, "INSERT INTO \"%s\"(\"at\",\"entered\",\"by\",\"corrects\",\"withdrawn\",\"why\"", kind->name);
    for (size_t i = 0; i < kind->field_count; i++)
        if (is_known(log, &kind->fields[i])) sw_print(sql, ",\"%s\"", kind->fields[i].name);
    sw_write_text(sql, ")VALUES(?1,?2,?3,?4,?5,?6");
    for (size_t i = 0; i < kind->field_count; i++)
        if (is_known(log, &kind->fields[i])) sw_print(sql, ",?%zu", i + 7);
    sw_write_text(sql, ")");
    SW_TRY(sw_writer_take(run, sql, &text, &length));
    SW_TRY(log_prepare(run, log, text, &log->insert[at]));
    *statement = log->insert[at];
    return SW_OK;
}

static int bind_value(sqlite3_stmt *s, int at, const sw_log_field *f, const sw_log_value *v)
{
    if (!v->there) return sqlite3_bind_null(s, at);
    if (f->type == SW_LOG_NUMBER) return sqlite3_bind_double(s, at, v->number);
    if (f->type == SW_LOG_WHOLE || f->type == SW_LOG_TIME) return sqlite3_bind_int64(s, at, v->whole);
    return sqlite3_bind_text(s, at, v->text, -1, SQLITE_STATIC);
}

static int bind_record(const sw_log *log, sqlite3_stmt *s, const sw_log_record *r)
{
    int64_t now_ms = log_now_ms(log);
    int worst = sqlite3_bind_int64(s, 1, r->at_ms != 0 ? r->at_ms : now_ms);
    worst |= sqlite3_bind_int64(s, 2, now_ms);
    worst |= sqlite3_bind_text(s, 3, r->by, -1, SQLITE_STATIC);
    worst |= r->corrects == 0 ? sqlite3_bind_null(s, 4) : sqlite3_bind_int64(s, 4, r->corrects);
    worst |= sqlite3_bind_int(s, 5, r->withdrawn ? 1 : 0);
    worst |= sqlite3_bind_text(s, 6, r->corrects == 0 ? NULL : r->why, -1, SQLITE_STATIC);
    for (size_t i = 0; i < r->kind->field_count; i++)
        if (is_known(log, &r->kind->fields[i])) worst |= bind_value(s, (int)i + 7, &r->kind->fields[i], &r->values[i]);
    return worst == SQLITE_OK ? SQLITE_OK : SQLITE_NOMEM;
}

/* Fills in hashes; one that was given must be right. */
static sw_status fill_hashes(sw_run *run, sw_place place, sw_log_record *record)
{
    char digest[SW_LOG_HASH_ROOM];
    for (size_t i = 0; i < record->kind->field_count; i++) {
        const sw_log_field *f = &record->kind->fields[i];
        if (f->type != SW_LOG_HASH) continue;
        const sw_log_value *of = &record->values[sw_log_field_find(record->kind, f->of)];
        sw_log_sha256(of->text, strlen(of->text), digest);
        if (record->values[i].there && strcmp(record->values[i].text, digest) != 0)
            return sw_fail(run, SW_BAD_INPUT, place, f->name, "is not the SHA-256 of this %s: that is %s", f->of,
                           digest);
        record->values[i].text = sw_text_copy(run, run->keep, digest);
        if (record->values[i].text == NULL) return SW_NO_MEMORY;
        record->values[i].there = true;
    }
    return SW_OK;
}

static sw_status has_name(sw_run *run, sw_log *log, const char *kind, const char *name, bool *there)
{
    sqlite3_stmt *s = NULL;
    const char *sql = sw_text_format(run, run->scratch, "SELECT 1 FROM \"%s_name\" WHERE \"name\"=?", kind);
    if (sql == NULL) return SW_NO_MEMORY;
    SW_TRY(log_prepare(run, log, sql, &s));
    (void)sqlite3_bind_text(s, 1, name, -1, SQLITE_STATIC);
    int code = sqlite3_step(s);
    *there = code == SQLITE_ROW;
    (void)sqlite3_finalize(s);
    return code == SQLITE_ROW || code == SQLITE_DONE ? SW_OK : log_fail(run, log, code);
}

/* Which link or name made the file refuse the record. */
static sw_status explain(sw_run *run, sw_log *log, sw_place place, const sw_log_record *r)
{
    const char *said = sw_text_copy(run, run->scratch, sqlite3_errmsg(log->db));
    size_t before = run->error_count;
    for (size_t i = 0; i < r->kind->field_count; i++) {
        const sw_log_field *f = &r->kind->fields[i];
        bool link = f->type == SW_LOG_LINK, there = false;
        if (!r->values[i].there || (!link && (f->type != SW_LOG_NAME || r->corrects != 0))) continue;
        SW_TRY(has_name(run, log, link ? f->of : r->kind->name, r->values[i].text, &there));
        if (link && !there)
            (void)sw_fail(run, SW_BAD_INPUT, place, f->name, "there is no %s \"%s\"; add it first", f->of,
                          r->values[i].text);
        if (!link && there)
            (void)sw_fail(run, SW_BAD_INPUT, place, f->name,
                          "%s \"%s\" is recorded already; take another name, or correct that record", r->kind->name,
                          r->values[i].text);
    }
    if (run->error_count > before) return SW_BAD_INPUT;
    if (r->corrects != 0)
        return sw_fail(run, SW_BAD_INPUT, place, r->kind->name, "%s number %lld: %s", r->kind->name,
                       (long long)r->corrects, said == NULL ? "" : said);
    return sw_fail(run, SW_BAD_INPUT, place, r->kind->name, "%s", said == NULL ? "" : said);
}

sw_status log_insert(sw_run *run, sw_log *log, sw_place place, const sw_log_record *record, int64_t *id)
{
    sqlite3_stmt *statement = NULL;
    sw_log_record whole = *record;
    SW_TRY(log_check_record(run, place, record));
    SW_TRY(fill_hashes(run, place, &whole));
    SW_TRY(insert_statement(run, log, record->kind, &statement));
    int code = bind_record(log, statement, &whole);
    if (code == SQLITE_OK) code = sqlite3_step(statement);
    sw_status status = SW_OK;
    if ((code & 0xff) == SQLITE_CONSTRAINT)
        status = explain(run, log, place, &whole);
    else if (code != SQLITE_DONE)
        status = log_fail(run, log, code);
    (void)sqlite3_reset(statement);
    (void)sqlite3_clear_bindings(statement);
    if (status == SW_OK && id != NULL) *id = sqlite3_last_insert_rowid(log->db);
    return status;
}

/* Of one of several records: counted from 1. */
static sw_place place_of(const sw_log_record *record, size_t index, size_t count)
{
    return count < 2 ? (sw_place){0} : (sw_place){.file = record->kind->plural, .line = (int)index + 1};
}

/* Every wrong record is told, so that a list is mended in one go; a fault of the file stops. */
static sw_status insert_all(sw_run *run, sw_log *log, const sw_log_record *records, size_t count, int64_t *ids)
{
    sw_status worst = SW_OK;
    for (size_t i = 0; i < count; i++) {
        sw_place place = place_of(&records[i], i, count);
        sw_status status = log_insert(run, log, place, &records[i], ids == NULL ? NULL : &ids[i]);
        if (status != SW_OK && status != SW_BAD_INPUT) return status;
        if (status != SW_OK) worst = status;
    }
    return worst;
}

sw_status sw_log_add(sw_run *run, sw_log *log, const sw_log_record *records, size_t count, int64_t *ids)
{
    SW_TRY(log_begin(run, log));
    return log_end(run, log, insert_all(run, log, records, count, ids));
}

/* ---- what may come twice ------------------------------------------------------------------ */

/* Nor is the end of its chain of corrections withdrawn: a withdrawal may itself be corrected. */
static void print_stands(sw_writer *sql, const char *kind)
{
    sw_print(sql,
             " AND NOT EXISTS(WITH RECURSIVE chain(\"id\",\"withdrawn\") AS("
             "SELECT c.\"id\",c.\"withdrawn\" FROM \"%s\" c WHERE c.\"corrects\"=k.\"id\" UNION ALL "
             "SELECT n.\"id\",n.\"withdrawn\" FROM \"%s\" n JOIN chain ON n.\"corrects\"=chain.\"id\") "
             "SELECT 1 FROM chain WHERE \"withdrawn\"<>0 AND NOT EXISTS("
             "SELECT 1 FROM \"%s\" later WHERE later.\"corrects\"=chain.\"id\"))",
             kind, kind, kind);
}

/* A record equal in all that its writer gave and not withdrawn since; hashes follow from the rest. */
static sw_status prepare_equal(sw_run *run, sw_log *log, const sw_log_record *r, sqlite3_stmt **s)
{
    sw_writer *sql = NULL;
    const char *text = NULL;
    size_t length = 0;
    SW_TRY(sw_writer_to_memory(run, &sql));
    sw_print(sql, "SELECT k.\"id\" FROM \"%s\" k WHERE k.\"at\"=?1 AND k.\"by\"=?2 AND k.\"corrects\" IS NULL",
             r->kind->name);
    for (size_t i = 0; i < r->kind->field_count; i++)
        if (is_known(log, &r->kind->fields[i]) && r->kind->fields[i].type != SW_LOG_HASH)
            sw_print(sql, " AND k.\"%s\" IS ?%zu", r->kind->fields[i].name, i + 3);
    print_stands(sql, r->kind->name);
    SW_TRY(sw_writer_take(run, sql, &text, &length));
    return log_prepare(run, log, text, s);
}

static sw_status find_equal(sw_run *run, sw_log *log, const sw_log_record *r, int64_t *id)
{
    sqlite3_stmt *s = NULL;
    *id = 0;
    SW_TRY(prepare_equal(run, log, r, &s));
    (void)sqlite3_bind_int64(s, 1, r->at_ms);
    (void)sqlite3_bind_text(s, 2, r->by, -1, SQLITE_STATIC);
    for (size_t i = 0; i < r->kind->field_count; i++)
        if (is_known(log, &r->kind->fields[i]) && r->kind->fields[i].type != SW_LOG_HASH)
            (void)bind_value(s, (int)i + 3, &r->kind->fields[i], &r->values[i]);
    int code = sqlite3_step(s);
    if (code == SQLITE_ROW) *id = sqlite3_column_int64(s, 0);
    (void)sqlite3_finalize(s);
    return code == SQLITE_ROW || code == SQLITE_DONE ? SW_OK : log_fail(run, log, code);
}

static sw_status insert_new(sw_run *run, sw_log *log, const sw_log_record *records, size_t count, int64_t *ids,
                            size_t *appended)
{
    sw_status worst = SW_OK;
    for (size_t i = 0; i < count; i++) {
        sw_place place = place_of(&records[i], i, count);
        if (records[i].at_ms == 0)
            return sw_fail(run, SW_BAD_INPUT, place, "at", "is missing: when it held, e.g. 2026-03-05T14:20:00Z");
        SW_TRY(find_equal(run, log, &records[i], &ids[i]));
        if (ids[i] != 0) continue;
        sw_status status = log_insert(run, log, place, &records[i], &ids[i]);
        if (status != SW_OK && status != SW_BAD_INPUT) return status;
        if (status != SW_OK)
            worst = status;
        else
            (*appended)++;
    }
    return worst;
}

sw_status sw_log_add_once(sw_run *run, sw_log *log, const sw_log_record *records, size_t count, int64_t *ids,
                          size_t *appended)
{
    *appended = 0;
    SW_TRY(log_begin(run, log));
    sw_status status = log_end(run, log, insert_new(run, log, records, count, ids, appended));
    if (status != SW_OK) *appended = 0; /* taken back */
    return status;
}

/* ---- corrections ---------------------------------------------------------------------------- */

static sw_status correct_inside(sw_run *run, sw_log *log, int64_t id, const sw_log_record *change, int64_t *new_id)
{
    const sw_log_kind *kind = change->kind;
    sw_log_records found = {0};
    SW_TRY(sw_log_find(run, log, &(sw_log_query){.like = {.kind = kind}, .id = id, .all = true}, &found));
    if (found.count == 0)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, kind->name, "there is no %s number %lld", kind->name,
                       (long long)id);
    sw_log_record merged = found.items[0];
    if (merged.corrected_by != 0)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, kind->name,
                       "%s number %lld was corrected by number %lld before; correct that one", kind->name,
                       (long long)id, (long long)merged.corrected_by);
    for (size_t i = 0; i < kind->field_count; i++) {
        if (kind->fields[i].type == SW_LOG_HASH) merged.values[i] = (sw_log_value){0};
        if (!change->values[i].there) continue;
        if (kind->fields[i].type == SW_LOG_NAME && strcmp(change->values[i].text, merged.values[i].text) != 0)
            return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, kind->fields[i].name,
                           "a name stays; withdraw \"%s\" and add \"%s\" instead", merged.values[i].text,
                           change->values[i].text);
        merged.values[i] = change->values[i];
    }
    merged.by = change->by;
    merged.why = change->why;
    merged.withdrawn = change->withdrawn;
    merged.corrects = id;
    if (change->at_ms != 0) merged.at_ms = change->at_ms;
    return log_insert(run, log, (sw_place){0}, &merged, new_id);
}

sw_status sw_log_correct(sw_run *run, sw_log *log, int64_t id, const sw_log_record *change, int64_t *new_id)
{
    SW_TRY(log_begin(run, log));
    return log_end(run, log, correct_inside(run, log, id, change, new_id));
}
