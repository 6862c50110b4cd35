/* open.c: the file: what it is before it is touched, opening, versions, and what SQLite's codes mean. */
#include "log/log_parts.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

enum { LOOK_BYTES = 4 << 20 }; /* read through in some ms */
enum { HEADER_BYTES = 100, VERSION_AT = 60, APPLICATION_AT = 68, PAGE_BYTES = 4096 };

sw_log_options sw_log_defaults(sw_log_mode mode)
{
    return (sw_log_options){.mode = mode, .wait_s = 10, .version = SW_LOG_VERSION, .look_most_bytes = LOOK_BYTES};
}

int sw_log_version(const sw_log *log)
{
    return log->version;
}

int64_t log_now_ms(const sw_log *log)
{
    struct timespec now = {0};
    if (log->now_ms != 0) return log->now_ms;
    (void)clock_gettime(CLOCK_REALTIME, &now);
    return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static sw_status tell(sw_run *run, const sw_log *log, const char *text)
{
    return sw_fail(run, SW_IO, (sw_place){0}, log->path, "%s", text);
}

sw_status log_fail(sw_run *run, const sw_log *log, int code)
{
    switch (code & 0xff) {
    case SQLITE_FULL:
        return tell(run, log, "the disk is full; nothing of this was recorded: make room and do it again");
    case SQLITE_READONLY:
        return tell(run, log,
                    "may not be written: file, folder or disk is read-only; mend the rights, or only read it");
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return sw_fail(run, SW_IO, (sw_place){0}, log->path,
                       "another program holds it and did not let go within %g s; nothing was recorded: do it again",
                       log->wait_s);
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
        return tell(run, log,
                    "is damaged; leave it as it is, keep a copy with its -wal file, go on with the last backup, "
                    "and see `log FILE check`");
    case SQLITE_CANTOPEN:
        return tell(run, log, "cannot be opened; check the name and the rights of file and folder");
    case SQLITE_IOERR:
        return sw_fail(run, SW_IO, (sw_place){0}, log->path,
                       "the disk refused (%s); nothing of this was recorded: check the disk and its room, do it again",
                       log->db == NULL ? "" : sqlite3_errstr(sqlite3_extended_errcode(log->db)));
    case SQLITE_NOMEM:
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, log->path, "no memory for the records");
    case SQLITE_CONSTRAINT:
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, log->path, "%s", sqlite3_errmsg(log->db));
    default:
        return sw_fail(run, SW_INTERNAL, (sw_place){0}, log->path, "%s", sqlite3_errmsg(log->db));
    }
}

sw_status log_do(sw_run *run, sw_log *log, const char *sql)
{
    int code = sqlite3_exec(log->db, sql, NULL, NULL, NULL);
    return code == SQLITE_OK ? SW_OK : log_fail(run, log, code);
}

sw_status log_prepare(sw_run *run, sw_log *log, const char *sql, sqlite3_stmt **statement)
{
    int code = sqlite3_prepare_v2(log->db, sql, -1, statement, NULL);
    return code == SQLITE_OK ? SW_OK : log_fail(run, log, code);
}

sw_status log_number(sw_run *run, sw_log *log, const char *sql, int64_t *value)
{
    sqlite3_stmt *statement = NULL;
    *value = 0;
    SW_TRY(log_prepare(run, log, sql, &statement));
    int code = sqlite3_step(statement);
    if (code == SQLITE_ROW) *value = sqlite3_column_int64(statement, 0);
    (void)sqlite3_finalize(statement);
    return code == SQLITE_ROW || code == SQLITE_DONE ? SW_OK : log_fail(run, log, code);
}

sw_status log_begin(sw_run *run, sw_log *log)
{
    if (log->read_only)
        return sw_fail(run, SW_IO, (sw_place){0}, log->path, "was opened to be read; open it for writing");
    return log_do(run, log, "BEGIN IMMEDIATE");
}

sw_status log_end(sw_run *run, sw_log *log, sw_status status)
{
    if (status == SW_OK) status = log_do(run, log, "COMMIT");
    if (status != SW_OK && sqlite3_get_autocommit(log->db) == 0)
        (void)sqlite3_exec(log->db, "ROLLBACK", NULL, NULL, NULL);
    return status;
}

/* ---- before the file is touched ------------------------------------------------------ */

static uint32_t big_endian(const unsigned char *b)
{
    return (uint32_t)b[0] << 24 | (uint32_t)b[1] << 16 | (uint32_t)b[2] << 8 | (uint32_t)b[3];
}

static sw_status refuse_version(sw_run *run, const char *path, int64_t version)
{
    return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, path,
                   "is a log of version %lld, this program knows up to %d; use the newer program; nothing was touched",
                   (long long)version, SW_LOG_VERSION);
}

static sw_status judge_header(sw_run *run, const char *path, const unsigned char *head, size_t length)
{
    if (length == 0) return SW_OK;
    if (length < HEADER_BYTES || memcmp(head, "SQLite format 3", 16) != 0)
        return sw_fail(run, SW_IO, (sw_place){0}, path, "is no log, or its start is damaged; nothing was touched");
    uint32_t application = big_endian(head + APPLICATION_AT), version = big_endian(head + VERSION_AT);
    if (application != 0 && application != LOG_APPLICATION)
        return sw_fail(run, SW_IO, (sw_place){0}, path, "is another program's database; nothing was touched");
    if (application == LOG_APPLICATION && version > SW_LOG_VERSION) return refuse_version(run, path, version);
    return SW_OK;
}

/* *there: the file exists. */
static sw_status look_at(sw_run *run, const char *path, sw_log_mode mode, bool *there)
{
    unsigned char head[HEADER_BYTES];
    struct stat about;
    int descriptor = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    *there = descriptor >= 0;
    if (descriptor < 0 && errno == ENOENT && mode == SW_LOG_CREATE) return SW_OK;
    if (descriptor < 0 && errno == ENOENT)
        return sw_fail(run, SW_IO, (sw_place){0}, path, "is not there; `stovewright log %s new` makes one", path);
    if (descriptor < 0)
        return sw_fail(run, SW_IO, (sw_place){0}, path, "cannot be read: %s; check the rights", strerror(errno));
    ssize_t n = fstat(descriptor, &about) == 0 && S_ISREG(about.st_mode) ? read(descriptor, head, sizeof head) : -1;
    (void)close(descriptor);
    if (n < 0) return sw_fail(run, SW_IO, (sw_place){0}, path, "is no file that can be read");
    return judge_header(run, path, head, (size_t)n);
}

/* ---- opening -------------------------------------------------------------------------- */

static bool is_plain(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || strchr("/._-~", c) != NULL;
}

/* The path as a URI that promises nobody writes: SQLite then needs no file beside it. */
static sw_status immutable_uri(sw_run *run, const char *path, const char **uri)
{
    sw_writer *out = NULL;
    size_t length = 0;
    SW_TRY(sw_writer_to_memory(run, &out));
    sw_write_text(out, "file:");
    for (const char *p = path; *p != '\0'; p++) {
        if (is_plain(*p))
            sw_write(out, p, 1);
        else
            sw_print(out, "%%%02X", (unsigned)(unsigned char)*p);
    }
    sw_write_text(out, "?immutable=1");
    return sw_writer_take(run, out, uri, &length);
}

static int open_at(sw_log *log, const char *name, int flags)
{
    if (log->db != NULL) (void)sqlite3_close_v2(log->db);
    log->db = NULL;
    int code = sqlite3_open_v2(name, &log->db, flags | SQLITE_OPEN_NOMUTEX, NULL);
    if (code != SQLITE_OK) return code;
    (void)sqlite3_extended_result_codes(log->db, 1);
    (void)sqlite3_busy_timeout(log->db, (int)(log->wait_s * 1000));
    (void)sqlite3_db_config(log->db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
    (void)sqlite3_db_config(log->db, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
    return sqlite3_exec(log->db, "PRAGMA foreign_keys=ON; PRAGMA synchronous=FULL; PRAGMA recursive_triggers=ON;", NULL,
                        NULL, NULL);
}

static int try_reading(sw_log *log)
{
    return sqlite3_exec(log->db, "SELECT count(*) FROM sqlite_master", NULL, NULL, NULL);
}

static bool has_bytes_in_wal(sw_run *run, const char *path)
{
    struct stat about;
    const char *wal = sw_text_format(run, run->scratch, "%s-wal", path);
    return wal != NULL && stat(wal, &about) == 0 && about.st_size > 0;
}

static sw_status open_to_read(sw_run *run, sw_log *log)
{
    const char *uri = NULL;
    int code = open_at(log, log->path, SQLITE_OPEN_READONLY);
    if (code == SQLITE_OK) code = try_reading(log);
    if (code == SQLITE_OK) return SW_OK;
    int plain = code & 0xff;
    bool rights = plain == SQLITE_CANTOPEN || plain == SQLITE_READONLY;
    if (!rights || has_bytes_in_wal(run, log->path)) return log_fail(run, log, code);
    SW_TRY(immutable_uri(run, log->path, &uri));
    code = open_at(log, uri, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI);
    if (code == SQLITE_OK) code = try_reading(log);
    return code == SQLITE_OK ? SW_OK : log_fail(run, log, code);
}

static int look_at_word(void *context, int count, char **texts, char **names)
{
    (void)count;
    (void)names;
    *(bool *)context = texts[0] != NULL && strcmp(texts[0], "ok") == 0;
    return 0;
}

/* A small file is read through for damage, of a large one the size alone is looked at: `log check` reads it. */
static sw_status look_through(sw_run *run, sw_log *log, const sw_log_options *o)
{
    struct stat about;
    int64_t pages = 0, page_bytes = 0;
    bool sound = false;
    if (o->look_most_bytes <= 0 || stat(log->path, &about) != 0) return SW_OK;
    if (about.st_size > o->look_most_bytes) {
        SW_TRY(log_number(run, log, "PRAGMA page_count", &pages));
        SW_TRY(log_number(run, log, "PRAGMA page_size", &page_bytes));
        /* looked at anew: others may have written meanwhile; a -wal file stays while we have it open */
        bool whole =
            has_bytes_in_wal(run, log->path) || stat(log->path, &about) != 0 || about.st_size >= pages * page_bytes;
        return whole ? SW_OK : log_fail(run, log, SQLITE_CORRUPT);
    }
    int code = sqlite3_exec(log->db, "PRAGMA quick_check(1)", look_at_word, &sound, NULL);
    if (code != SQLITE_OK) return log_fail(run, log, code);
    return sound ? SW_OK : log_fail(run, log, SQLITE_CORRUPT);
}

/* WAL stays switched on in the file; switching needs it alone, hence the patience. */
static sw_status turn_wal_on(sw_run *run, sw_log *log)
{
    for (double begun = sw_seconds();;) {
        int code = sqlite3_exec(log->db, "PRAGMA journal_mode=WAL", NULL, NULL, NULL);
        if (code == SQLITE_OK) return SW_OK;
        if ((code & 0xff) != SQLITE_BUSY || sw_seconds() - begun > log->wait_s) return log_fail(run, log, code);
        (void)sqlite3_sleep(5);
    }
}

static sw_status judge_version(sw_run *run, sw_log *log)
{
    int64_t application = 0, version = 0;
    SW_TRY(log_number(run, log, "PRAGMA application_id", &application));
    SW_TRY(log_number(run, log, "PRAGMA user_version", &version));
    if (version == 0)
        return sw_fail(run, SW_IO, (sw_place){0}, log->path, "holds no log yet; `stovewright log %s new` makes one",
                       log->path);
    if (application != LOG_APPLICATION)
        return sw_fail(run, SW_IO, (sw_place){0}, log->path, "is another program's database; nothing was touched");
    if (version < 0 || version > SW_LOG_VERSION) return refuse_version(run, log->path, version);
    log->version = (int)version;
    return SW_OK;
}

static sw_status create_inside(sw_run *run, sw_log *log, int version)
{
    int64_t holds = 0;
    SW_TRY(log_number(run, log, "SELECT count(*) FROM sqlite_master", &holds));
    if (holds > 0)
        return sw_fail(run, SW_IO, (sw_place){0}, log->path,
                       "is there already and holds something; take another name, or leave out `new`");
    return log_schema(run, log, 0, version);
}

static sw_status migrate_inside(sw_run *run, sw_log *log)
{
    SW_TRY(judge_version(run, log)); /* another process may have been quicker */
    return log->version == SW_LOG_VERSION ? SW_OK : log_schema(run, log, log->version, SW_LOG_VERSION);
}

static sw_status open_to_write(sw_run *run, sw_log *log, const sw_log_options *o)
{
    bool create = o->mode == SW_LOG_CREATE;
    int code = open_at(log, log->path, SQLITE_OPEN_READWRITE | (create ? SQLITE_OPEN_CREATE : 0));
    if (code == SQLITE_OK) code = try_reading(log);
    if (code != SQLITE_OK) return log_fail(run, log, code);
    if (!create) SW_TRY(judge_version(run, log));
    if (!create) SW_TRY(look_through(run, log, o));
    if (sqlite3_db_readonly(log->db, "main") == 1) return log_fail(run, log, SQLITE_READONLY);
    if (create) {
        SW_TRY(log_begin(run, log));
        SW_TRY(log_end(run, log, create_inside(run, log, o->version)));
    } else if (log->version < SW_LOG_VERSION) {
        SW_TRY(log_begin(run, log));
        SW_TRY(log_end(run, log, migrate_inside(run, log)));
    }
    SW_TRY(turn_wal_on(run, log));
    if (o->most_bytes <= 0) return SW_OK;
    int64_t pages = 0;
    const char *limit = sw_text_format(run, run->scratch, "PRAGMA max_page_count=%lld",
                                       (long long)(o->most_bytes / PAGE_BYTES > 0 ? o->most_bytes / PAGE_BYTES : 1));
    return limit == NULL ? SW_NO_MEMORY : log_number(run, log, limit, &pages);
}

/* ":memory:" and the like are names of files here. */
static char *path_of(const char *path)
{
    size_t n = strlen(path), lead = path[0] == '/' ? 0 : 2;
    char *copy = malloc(n + lead + 1);
    if (copy == NULL) return NULL;
    memcpy(copy, "./", lead);
    memcpy(copy + lead, path, n + 1);
    return copy;
}

static sw_status open_log(sw_run *run, sw_log *log, const sw_log_options *options)
{
    if (options->mode != SW_LOG_READ) return open_to_write(run, log, options);
    SW_TRY(open_to_read(run, log));
    SW_TRY(judge_version(run, log));
    return look_through(run, log, options);
}

sw_status sw_log_open(sw_run *run, const char *path, const sw_log_options *options, sw_log **log)
{
    bool there = false;
    *log = NULL;
    SW_TRY(look_at(run, path, options->mode, &there));
    sw_log *made = calloc(1, sizeof *made);
    if (made != NULL) made->path = path_of(path);
    if (made == NULL || made->path == NULL) {
        free(made);
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, path, "no memory to open it");
    }
    made->wait_s = options->wait_s;
    made->read_only = options->mode == SW_LOG_READ;
    made->now_ms = options->now_ms;
    sw_status status = open_log(run, made, options);
    if (status == SW_OK)
        *log = made;
    else
        sw_log_close(made);
    return status;
}

void sw_log_close(sw_log *log)
{
    if (log == NULL) return;
    for (size_t i = 0; i < LOG_KINDS; i++) (void)sqlite3_finalize(log->insert[i]);
    (void)sqlite3_close_v2(log->db);
    free(log->path);
    free(log);
}
