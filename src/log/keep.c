/* keep.c: backup and check. */
#include "log/log_parts.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { PAGES_A_STEP = 2048, FAULTS_MOST = 100 };

/* ---- backup ---------------------------------------------------------------------------- */

static sw_status copy_pages(sw_run *run, sw_log *log, sqlite3 *to)
{
    sqlite3_backup *backup = sqlite3_backup_init(to, "main", log->db, "main");
    if (backup == NULL) return log_fail(run, log, sqlite3_extended_errcode(to));
    int code = SQLITE_OK;
    double begun = sw_seconds();
    while (code == SQLITE_OK || (code & 0xff) == SQLITE_BUSY || (code & 0xff) == SQLITE_LOCKED) {
        code = sqlite3_backup_step(backup, PAGES_A_STEP);
        if (code != SQLITE_OK && code != SQLITE_DONE && sw_seconds() - begun > log->wait_s) break;
        if (code != SQLITE_OK && code != SQLITE_DONE) (void)sqlite3_sleep(5);
        if (sw_run_cancelled(run)) break;
    }
    (void)sqlite3_backup_finish(backup);
    if (sw_run_cancelled(run))
        return sw_fail(run, SW_CANCELLED, (sw_place){0}, log->path, "backup stopped; nothing was left");
    return code == SQLITE_DONE ? SW_OK : log_fail(run, log, code);
}

static int first_word(void *context, int count, char **texts, char **names)
{
    (void)count;
    (void)names;
    *(bool *)context = texts[0] != NULL && strcmp(texts[0], "ok") == 0;
    return 0;
}

/* Without WAL the copy is one file. */
static sw_status finish_copy(sw_run *run, sw_log *log, sqlite3 *to, const char *part)
{
    bool sound = false;
    sw_status status = copy_pages(run, log, to);
    if (status == SW_OK && sqlite3_exec(to, "PRAGMA journal_mode=DELETE", NULL, NULL, NULL) != SQLITE_OK)
        status = sw_fail(run, SW_IO, (sw_place){0}, part, "the copy cannot be finished: %s", sqlite3_errmsg(to));
    if (status == SW_OK) (void)sqlite3_exec(to, "PRAGMA quick_check(1)", first_word, &sound, NULL);
    if (status == SW_OK && !sound)
        status =
            sw_fail(run, SW_IO, (sw_place){0}, part, "the copy is damaged, so the log may be; run `log FILE check`");
    return status;
}

static void remove_beside(sw_run *run, const char *part)
{
    static const char *const ends[] = {"", "-journal", "-wal", "-shm"};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        const char *name = sw_text_format(run, run->scratch, "%s%s", part, ends[i]);
        if (name != NULL) (void)unlink(name);
    }
}

sw_status sw_log_backup(sw_run *run, sw_log *log, const char *path)
{
    sqlite3 *to = NULL;
    const char *at = path[0] == '/' ? path : sw_text_format(run, run->scratch, "./%s", path);
    const char *part = at == NULL ? NULL : sw_text_format(run, run->scratch, "%s.%ld.part", at, (long)getpid());
    if (part == NULL) return SW_NO_MEMORY;
    if (access(at, F_OK) == 0)
        return sw_fail(run, SW_IO, (sw_place){0}, path,
                       "is there already; a backup overwrites nothing: take another name");
    remove_beside(run, part);
    sw_status status = SW_OK;
    if (sqlite3_open_v2(part, &to, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX, NULL) != SQLITE_OK)
        status = sw_fail(run, SW_IO, (sw_place){0}, path, "cannot be written: %s; choose another place",
                         to == NULL ? "no memory" : sqlite3_errmsg(to));
    if (status == SW_OK) status = finish_copy(run, log, to, path);
    (void)sqlite3_close_v2(to);
    /* link refuses a name that was taken meanwhile; not every disk has it */
    bool named = status == SW_OK && (link(part, at) == 0 || (errno == EPERM && rename(part, at) == 0));
    if (status == SW_OK && !named)
        status = sw_fail(run, SW_IO, (sw_place){0}, path, "the copy cannot be given its name: %s", strerror(errno));
    remove_beside(run, part);
    return status;
}

/* ---- check ------------------------------------------------------------------------------ */

typedef struct fault_list {
    sw_run *run;
    const char **items;
    size_t count, room;
    bool no_memory;
} fault_list;

static void add_fault(fault_list *list, const char *text)
{
    if (list->count >= FAULTS_MOST || list->no_memory) return;
    const char **items =
        sw_grow(list->run, list->run->keep, (void *)list->items, list->count, &list->room, sizeof *items);
    if (items == NULL || text == NULL) {
        list->no_memory = true;
        return;
    }
    list->items = items;
    items[list->count++] = text;
}

/* Rows of one text each; "ok" is no fault. Damage met on the way is a fault, too. */
static void ask(fault_list *list, sw_log *log, const char *sql, const char *what)
{
    sqlite3_stmt *s = NULL;
    int code = sqlite3_prepare_v2(log->db, sql, -1, &s, NULL);
    while (code == SQLITE_OK || code == SQLITE_ROW) {
        code = sqlite3_step(s);
        if (code != SQLITE_ROW) break;
        const char *text = (const char *)sqlite3_column_text(s, 0);
        if (text == NULL || strcmp(text, "ok") == 0) continue;
        add_fault(list, sw_text_format(list->run, list->run->keep, "%s: %s", what, text));
    }
    if (code != SQLITE_DONE && code != SQLITE_ROW)
        add_fault(list, sw_text_format(list->run, list->run->keep, "%s: %s", what, sqlite3_errmsg(log->db)));
    (void)sqlite3_finalize(s);
}

static sw_status check_hash(void *context, const sw_log_record *r)
{
    fault_list *list = context;
    char digest[SW_LOG_HASH_ROOM];
    for (size_t i = 0; i < r->kind->field_count; i++) {
        if (r->kind->fields[i].type != SW_LOG_HASH) continue;
        const sw_log_value *of = &r->values[sw_log_field_find(r->kind, r->kind->fields[i].of)];
        if (of->there) sw_log_sha256(of->text, strlen(of->text), digest);
        if (of->there && r->values[i].there && strcmp(digest, r->values[i].text) == 0) continue;
        add_fault(list,
                  sw_text_format(list->run, list->run->keep, "%s number %lld: its text is not the one that was hashed",
                                 r->kind->name, (long long)r->id));
    }
    return SW_OK;
}

static void check_trigger(fault_list *list, sw_log *log, const char *kind, const char *end, const char *table_end)
{
    const char *sql = sw_text_format(list->run, list->run->scratch,
                                     "SELECT '%s_%s is missing' WHERE NOT EXISTS(SELECT 1 FROM sqlite_master WHERE "
                                     "type='trigger' AND name='%s_%s' AND tbl_name='%s%s')",
                                     kind, end, kind, end, kind, table_end);
    if (sql != NULL) ask(list, log, sql, "guard");
}

static void check_triggers(fault_list *list, sw_log *log)
{
    static const char *const ends[][2] = {{"insert", ""}, {"no_UPDATE", ""}, {"no_DELETE", ""}};
    static const char *const of_names[][2] = {{"named", ""}, {"name_no_UPDATE", "_name"}, {"name_no_DELETE", "_name"}};
    for (size_t i = 0; i < sw_log_kind_count(); i++) {
        const sw_log_kind *kind = sw_log_kind_at(i);
        if (log_since(kind->since) > log->version) continue;
        for (size_t k = 0; k < 3; k++) check_trigger(list, log, kind->name, ends[k][0], ends[k][1]);
        for (size_t k = 0; k < 3 && log_name_field(kind) != NULL; k++)
            check_trigger(list, log, kind->name, of_names[k][0], of_names[k][1]);
    }
}

static sw_status check_hashes(fault_list *list, sw_log *log)
{
    for (size_t i = 0; i < sw_log_kind_count(); i++) {
        const sw_log_kind *kind = sw_log_kind_at(i);
        bool hashed = false;
        for (size_t k = 0; k < kind->field_count; k++) hashed = hashed || kind->fields[k].type == SW_LOG_HASH;
        if (hashed)
            SW_TRY(
                sw_log_visit(list->run, log, &(sw_log_query){.like = {.kind = kind}, .all = true}, check_hash, list));
    }
    return SW_OK;
}

sw_status sw_log_check(sw_run *run, sw_log *log, const char *const **faults, size_t *count)
{
    fault_list list = {.run = run};
    ask(&list, log, "PRAGMA integrity_check(50)", "file");
    if (list.count == 0)
        ask(&list, log,
            "SELECT \"table\"||' number '||rowid||' names a '||\"parent\"||' that is not there' FROM "
            "pragma_foreign_key_check",
            "link");
    check_triggers(&list, log);
    if (list.count == 0) SW_TRY(check_hashes(&list, log));
    *faults = list.items;
    *count = list.count;
    return list.no_memory ? SW_NO_MEMORY : SW_OK;
}
