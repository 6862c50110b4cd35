/* schema.c: tables, indices and triggers from the table of kinds.
 *
 * Invariants the file itself keeps, whoever writes to it: rows are never changed or taken out; a name is given once; a record
 * is corrected at most once (so corrections are chains); a correction keeps the name; links point to names that are there. */
#include "log/log_parts.h"

#include <string.h>

static const char *const sql_types[] = {
    [SW_LOG_TEXT] = "TEXT",   [SW_LOG_DOCUMENT] = "TEXT", [SW_LOG_HASH] = "TEXT",
    [SW_LOG_NUMBER] = "REAL", [SW_LOG_WHOLE] = "INTEGER", [SW_LOG_TIME] = "INTEGER",
    [SW_LOG_CHOICE] = "TEXT", [SW_LOG_NAME] = "TEXT",     [SW_LOG_LINK] = "TEXT",
};

int log_since(int since)
{
    return since == 0 ? 1 : since;
}

static bool is_between(int since, int from, int to)
{
    return log_since(since) > from && log_since(since) <= to;
}

const sw_log_field *log_name_field(const sw_log_kind *kind)
{
    return kind->fields[0].type == SW_LOG_NAME ? &kind->fields[0] : NULL; /* the first by custom of kinds.c */
}

static void print_choice(sw_writer *sql, const sw_log_field *f)
{
    sw_print(sql, " CHECK(\"%s\" IN ('", f->name);
    for (const char *p = f->of; *p != '\0'; p++) {
        if (*p == '|')
            sw_write_text(sql, "','");
        else
            sw_write(sql, p, 1);
    }
    sw_write_text(sql, "'))");
}

static void print_column(sw_writer *sql, const sw_log_field *f)
{
    sw_print(sql, "\"%s\" %s", f->name, sql_types[f->type]);
    if (f->needed) sw_write_text(sql, " NOT NULL");
    if (f->type == SW_LOG_CHOICE) print_choice(sql, f);
    if (f->type == SW_LOG_LINK) sw_print(sql, " REFERENCES \"%s_name\"(\"name\")", f->of);
}

static void print_index(sw_writer *sql, const sw_log_kind *kind, const sw_log_field *f)
{
    if (f->type == SW_LOG_LINK || f->type == SW_LOG_NAME)
        sw_print(sql, "CREATE INDEX \"%s_by_%s\" ON \"%s\"(\"%s\");\n", kind->name, f->name, kind->name, f->name);
}

static void print_table(sw_writer *sql, const sw_log_kind *kind, int to)
{
    const char *k = kind->name;
    sw_print(
        sql,
        "CREATE TABLE \"%s\"(\n\"id\" INTEGER PRIMARY KEY,\n\"at\" INTEGER NOT NULL,\n\"entered\" INTEGER NOT NULL,\n"
        "\"by\" TEXT NOT NULL CHECK(length(\"by\")>0),\n\"corrects\" INTEGER REFERENCES \"%s\"(\"id\"),\n"
        "\"withdrawn\" INTEGER NOT NULL CHECK(\"withdrawn\"=0 OR (\"withdrawn\"=1 AND \"corrects\" NOT NULL)),\n"
        "\"why\" TEXT CHECK(\"corrects\" IS NULL OR \"why\" NOT NULL)",
        k, k);
    for (size_t i = 0; i < kind->field_count; i++) {
        if (log_since(kind->fields[i].since) > to) continue;
        sw_write_text(sql, ",\n");
        print_column(sql, &kind->fields[i]);
    }
    sw_print(sql,
             ") STRICT;\nCREATE UNIQUE INDEX \"%s_corrected\" ON \"%s\"(\"corrects\") WHERE \"corrects\" NOT NULL;\n",
             k, k);
    sw_print(sql, "CREATE INDEX \"%s_by_at\" ON \"%s\"(\"at\");\n", k, k);
    for (size_t i = 0; i < kind->field_count; i++)
        if (log_since(kind->fields[i].since) <= to) print_index(sql, kind, &kind->fields[i]);
}

static void print_guards(sw_writer *sql, const char *table)
{
    static const char *const ways[] = {"UPDATE", "DELETE"};
    for (size_t i = 0; i < 2; i++)
        sw_print(sql,
                 "CREATE TRIGGER \"%s_no_%s\" BEFORE %s ON \"%s\" BEGIN SELECT RAISE(ABORT,"
                 "'records are never changed or deleted: append a correction'); END;\n",
                 table, ways[i], ways[i], table);
}

/* INSERT OR REPLACE would delete without a trigger, so whatever it could replace is refused first. */
static void print_insert_guard(sw_writer *sql, const sw_log_kind *kind)
{
    const char *k = kind->name;
    const sw_log_field *name = log_name_field(kind);
    sw_print(sql,
             "CREATE TRIGGER \"%s_insert\" BEFORE INSERT ON \"%s\" BEGIN SELECT CASE\n"
             "WHEN EXISTS(SELECT 1 FROM \"%s\" WHERE \"id\"=NEW.\"id\") THEN RAISE(ABORT,'that number is taken')\n"
             "WHEN NEW.\"corrects\" NOT NULL AND EXISTS(SELECT 1 FROM \"%s\" WHERE \"corrects\"=NEW.\"corrects\")\n"
             "THEN RAISE(ABORT,'was corrected before')\n",
             k, k, k, k);
    if (name != NULL)
        sw_print(
            sql,
            "WHEN NEW.\"corrects\" IS NULL AND EXISTS(SELECT 1 FROM \"%s_name\" WHERE \"name\"=NEW.\"%s\")\n"
            "THEN RAISE(ABORT,'that name is taken')\n"
            "WHEN NEW.\"corrects\" NOT NULL AND NEW.\"%s\" IS NOT\n"
            "(SELECT \"%s\" FROM \"%s\" WHERE \"id\"=NEW.\"corrects\") THEN RAISE(ABORT,'a correction keeps the name')\n",
            k, name->name, name->name, name->name, k);
    sw_write_text(sql, "END; END;\n");
}

static void print_names(sw_writer *sql, const sw_log_kind *kind)
{
    const char *k = kind->name;
    const sw_log_field *name = log_name_field(kind);
    if (name == NULL) return;
    sw_print(sql, "CREATE TABLE \"%s_name\"(\"name\" TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;\n", k);
    sw_print(sql,
             "CREATE TRIGGER \"%s_named\" AFTER INSERT ON \"%s\" WHEN NEW.\"corrects\" IS NULL BEGIN\n"
             "INSERT INTO \"%s_name\" VALUES(NEW.\"%s\"); END;\n",
             k, k, k, name->name);
    sw_print(
        sql,
        "CREATE TRIGGER \"%s_name_no_UPDATE\" BEFORE UPDATE ON \"%s_name\" BEGIN SELECT RAISE(ABORT,'names stay'); END;\n"
        "CREATE TRIGGER \"%s_name_no_DELETE\" BEFORE DELETE ON \"%s_name\" BEGIN SELECT RAISE(ABORT,'names stay'); END;\n",
        k, k, k, k);
}

static void print_kind(sw_writer *sql, const sw_log_kind *kind, int to)
{
    print_table(sql, kind, to);
    print_guards(sql, kind->name);
    print_insert_guard(sql, kind);
    print_names(sql, kind);
}

static void print_new_fields(sw_writer *sql, const sw_log_kind *kind, int from, int to)
{
    for (size_t i = 0; i < kind->field_count; i++) {
        if (!is_between(kind->fields[i].since, from, to)) continue;
        sw_print(sql, "ALTER TABLE \"%s\" ADD COLUMN ", kind->name);
        print_column(sql, &kind->fields[i]);
        sw_write_text(sql, ";\n");
        print_index(sql, kind, &kind->fields[i]);
    }
}

sw_status log_schema(sw_run *run, sw_log *log, int from, int to)
{
    sw_writer *sql = NULL;
    const char *text = NULL;
    size_t length = 0;
    SW_TRY(sw_writer_to_memory(run, &sql));
    for (size_t i = 0; i < sw_log_kind_count(); i++) {
        const sw_log_kind *kind = sw_log_kind_at(i);
        if (is_between(kind->since, from, to))
            print_kind(sql, kind, to);
        else if (log_since(kind->since) <= from)
            print_new_fields(sql, kind, from, to);
    }
    sw_print(sql, "PRAGMA application_id=%d; PRAGMA user_version=%d;", LOG_APPLICATION, to);
    SW_TRY(sw_writer_take(run, sql, &text, &length));
    SW_TRY(log_do(run, log, text));
    log->version = to;
    return SW_OK;
}
