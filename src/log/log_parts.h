/* log_parts.h: what the files of src/log share. */
#ifndef SW_LOG_LOG_PARTS_H
#define SW_LOG_LOG_PARTS_H

#include "log/log.h"

#include <sqlite3.h>

enum {
    LOG_KINDS = 32,               /* room for statements */
    LOG_APPLICATION = 0x53774c67, /* "SwLg" in the file's header, bytes 68 to 71 */
    LOG_COMMON = 8                /* columns of every select before the fields */
};

struct sw_log {
    sqlite3 *db;
    char *path;
    double wait_s;
    int version; /* of the file */
    bool read_only;
    int64_t now_ms;                  /* 0 = the clock */
    sqlite3_stmt *insert[LOG_KINDS]; /* made when first needed */
};

/* SQL: the row of alias a was neither corrected nor withdrawn. */
#define LOG_HOLDS(kind, a)                                                                                             \
    a ".\"withdrawn\"=0 AND NOT EXISTS(SELECT 1 FROM \"" kind "\" later WHERE later.\"corrects\"=" a ".\"id\")"

/* Tells what SQLite's code means for the user, and what to do; gives the status. */
sw_status log_fail(sw_run *run, const sw_log *log, int code);
sw_status log_do(sw_run *run, sw_log *log, const char *sql); /* one or more statements without answer */
sw_status log_prepare(sw_run *run, sw_log *log, const char *sql, sqlite3_stmt **statement);
sw_status log_number(sw_run *run, sw_log *log, const char *sql, int64_t *value); /* the first column of the first row */
int64_t log_now_ms(const sw_log *log);

/* A transaction that writes; end commits when status is SW_OK and undoes otherwise, and gives what came of it. */
sw_status log_begin(sw_run *run, sw_log *log);
sw_status log_end(sw_run *run, sw_log *log, sw_status status);

/* Makes, in the transaction under way, what versions above `from` up to `to` brought. from 0: all. */
sw_status log_schema(sw_run *run, sw_log *log, int from, int to);
int log_since(int since);                                    /* 0 is 1 */
const sw_log_field *log_name_field(const sw_log_kind *kind); /* what its records are called by; NULL = none */

/* Checks and appends one record in the transaction under way. place: where it came from. */
sw_status log_insert(sw_run *run, sw_log *log, sw_place place, const sw_log_record *record, int64_t *id);
/* Everything that can be wrong with a record by itself. */
sw_status log_check_record(sw_run *run, sw_place place, const sw_log_record *record);
bool log_has_word(const char *words, const char *word); /* of a choice */

#endif
