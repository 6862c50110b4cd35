/* log.h: the works' records: what was built from what, by whom, how it measured and how it burnt.
 *
 * One SQLite file (https://sqlite.org, 3.40 or later) that several processes of one machine may use at once. A kind is a
 * table of typed fields (kinds.c); schema, checks, CSV columns, command line and JSON follow from it. Every record says when
 * it held (at), when it was entered and by whom. Nothing is overwritten or deleted: a correction is a new record that names
 * the one it replaces, a withdrawal a correction that says "does not hold". Triggers in the file refuse anything else, also
 * to other programs. What sw_log_add has confirmed is on the disk (WAL, synchronous FULL) and whole.
 *
 * Times are ms since 1970 in UTC; at the surface ISO 8601 (2026-03-05T14:20:00Z). Other units stand in the field.
 * A sw_log is one connection: for one thread, and one at a time in a process, for opening reads the file's head, and closing that
 * drops the locks POSIX keeps for the process. Texts of answers live in run->keep.
 *
 * Errors: SW_BAD_INPUT a record is wrong (every fault is told), SW_OUT_OF_RANGE the file is of a newer program, SW_IO file
 * missing, locked, full, read-only or damaged. After any of them the file is as it was before the call. */
#ifndef SW_LOG_LOG_H
#define SW_LOG_LOG_H

#include "base/base.h"

enum { SW_LOG_VERSION = 2, SW_LOG_FIELDS = 16, SW_LOG_TIME_ROOM = 32, SW_LOG_HASH_ROOM = 65 };

/* ---- kinds -------------------------------------------------------------------------- */

typedef enum sw_log_type {
    SW_LOG_TEXT,
    SW_LOG_DOCUMENT, /* a long text, e.g. a description word for word */
    SW_LOG_HASH,     /* SHA-256 of the document `of`, in hex; reckoned, never asked */
    SW_LOG_NUMBER,
    SW_LOG_WHOLE,
    SW_LOG_TIME,
    SW_LOG_CHOICE, /* one of the words in `of`, parted by | */
    SW_LOG_NAME,   /* what others call this record by; given once for ever */
    SW_LOG_LINK    /* the name of a record of kind `of` that must be there */
} sw_log_type;

typedef struct sw_log_field {
    const char *name, *unit;
    sw_log_type type;
    bool needed;
    const char *of;   /* see the types; NULL where it means nothing */
    double low, high; /* numbers; both 0 = any finite one */
    int since;        /* log version that brought it; 0 = the first */
    const char *meaning;
} sw_log_field;

typedef struct sw_log_kind {
    const char *name, *plural, *meaning, *example; /* example: as it stands after `add` */
    const sw_log_field *fields;
    size_t field_count; /* at most SW_LOG_FIELDS */
    int since;
} sw_log_kind;

size_t sw_log_kind_count(void);
const sw_log_kind *sw_log_kind_at(size_t index);
const sw_log_kind *sw_log_kind_find(const char *name); /* singular or plural; NULL = none */
/* As find; SW_BAD_INPUT names the nearest. */
sw_status sw_log_kind_named(sw_run *run, const char *name, const sw_log_kind **kind);
size_t sw_log_field_find(const sw_log_kind *kind, const char *name); /* SIZE_MAX = none */

/* ---- records ------------------------------------------------------------------------ */

typedef struct sw_log_value {
    bool there;
    double number; /* SW_LOG_NUMBER */
    int64_t whole; /* SW_LOG_WHOLE, SW_LOG_TIME */
    const char *text;
} sw_log_value;

typedef struct sw_log_record {
    const sw_log_kind *kind;
    int64_t id;                         /* within its kind; set by the log */
    int64_t at_ms, entered_ms;          /* when it held (0 = now), when it was written (set by the log) */
    const char *by, *why;               /* why: of a correction */
    int64_t corrects;                   /* id of the record it replaces, 0 = none */
    int64_t corrected_by;               /* set by the log; 0 = holds still */
    bool withdrawn;                     /* a correction that says: does not hold */
    sw_log_value values[SW_LOG_FIELDS]; /* [kind->field_count] */
} sw_log_record;

/* The text of a field; "" where there is none. */
const char *sw_log_text(const sw_log_record *record, const char *field);

typedef struct sw_log_records {
    const sw_log_record *items;
    size_t count;
} sw_log_records;

/* From texts "field=value", and at, by, why. For a document "@path" takes the file's text. SW_BAD_INPUT: every unknown field
 * and unfit value, with what is allowed. Does not ask for what is missing: sw_log_add does. */
sw_status sw_log_record_read(sw_run *run, const sw_log_kind *kind, const char *const *settings, size_t count,
                             sw_log_record *record);
/* One value from text; `field` is named in errors. */
sw_status sw_log_value_read(sw_run *run, sw_place place, const sw_log_field *field, const char *text,
                            sw_log_value *value);
sw_status sw_log_time_read(sw_run *run, sw_place place, const char *field, const char *text, int64_t *ms);
void sw_log_time_text(int64_t ms, char out[SW_LOG_TIME_ROOM]);
void sw_log_write_value(sw_writer *out, const sw_log_field *field,
                        const sw_log_value *value); /* nothing when not there */
/* FIPS 180-4, in hex. */
void sw_log_sha256(const void *bytes, size_t length, char out[SW_LOG_HASH_ROOM]);

/* ---- the file ----------------------------------------------------------------------- */

typedef struct sw_log sw_log;

typedef enum sw_log_mode {
    SW_LOG_READ,  /* also from a read-only disk */
    SW_LOG_WRITE, /* an older log is brought up to SW_LOG_VERSION, whole or not at all */
    SW_LOG_CREATE /* refuses a file that holds anything */
} sw_log_mode;

typedef struct sw_log_options {
    sw_log_mode mode;
    double wait_s;      /* for other processes; 10 */
    int version;        /* CREATE: as an older program would; SW_LOG_VERSION */
    int64_t most_bytes; /* the file must not grow above; 0 = no limit */
    int64_t now_ms;     /* 0 = the clock */
    int64_t
        look_most_bytes; /* files up to this are read through for damage when opened (PRAGMA quick_check); 4 MiB, 0 = none */
} sw_log_options;

sw_log_options sw_log_defaults(sw_log_mode mode);
sw_status sw_log_open(sw_run *run, const char *path, const sw_log_options *options, sw_log **log);
void sw_log_close(sw_log *log); /* NULL is allowed */
int sw_log_version(const sw_log *log);

/* ---- writing ------------------------------------------------------------------------ */

/* All in one transaction: after SW_OK all are durable, after anything else none is there. ids [count] or NULL. A record with
 * `corrects` must be complete. */
sw_status sw_log_add(sw_run *run, sw_log *log, const sw_log_record *records, size_t count, int64_t *ids);
/* As add, for who may ask twice because an answer got lost: a record that is there already with the same at_ms (which must be
 * set), by and values is not appended again; its id is told. ids [count], not NULL. *appended: how many were
 * new, 0 when it fails. */
sw_status sw_log_add_once(sw_run *run, sw_log *log, const sw_log_record *records, size_t count, int64_t *ids,
                          size_t *appended);
/* Appends a record that replaces number `id`: the values in `change` that are there, the others as they were; by and why are
 * needed. change->withdrawn withdraws. SW_BAD_INPUT when it was corrected before: names by which. */
sw_status sw_log_correct(sw_run *run, sw_log *log, int64_t id, const sw_log_record *change, int64_t *new_id);

/* ---- reading ------------------------------------------------------------------------ */

typedef struct sw_log_query {
    sw_log_record like;     /* kind, and every value that is there must be equal */
    int64_t id;             /* this one alone; 0 = any */
    int64_t from_ms, to_ms; /* of at: from <= at < to; 0 = open */
    bool all;               /* also what was corrected or withdrawn */
    size_t most;            /* 0 = all */
    bool newest;            /* last entered first */
} sw_log_query;

/* In the order they were entered, or the other way round. The record is lent until visit returns; another status than SW_OK stops and is passed on. */
typedef sw_status sw_log_visit_fn(void *context, const sw_log_record *record);
sw_status sw_log_visit(sw_run *run, sw_log *log, const sw_log_query *query, sw_log_visit_fn *visit, void *context);
sw_status sw_log_find(sw_run *run, sw_log *log, const sw_log_query *query, sw_log_records *found);

/* All that is known of one stove, by time: every record that names the serial number, those they name in turn (batch, design,
 * sheets, house ...), and what was found on its whole batch; corrected ones, too. SW_BAD_INPUT: no such number. */
sw_status sw_log_history(sw_run *run, sw_log *log, const char *serial, sw_log_records *history);

typedef struct sw_log_remnant {
    const char *name, *sheet, *heat, *material, *place;
    double thickness_mm, length_mm, width_mm;
} sw_log_remnant;

/* Remnants whose last move was into stock. */
sw_status sw_log_stock(sw_run *run, sw_log *log, const sw_log_remnant **stock, size_t *count);

/* ---- tables ------------------------------------------------------------------------- */

/* Columns id, at, by, entered, corrects, corrected_by, withdrawn, why and the fields. RFC 4180; a text that a spreadsheet would
 * run (= + - @ first) gets an apostrophe before it, which import takes off again. Without query->all corrections
 * stand for themselves: no corrects, no why. */
sw_status sw_log_export(sw_run *run, sw_log *log, const sw_log_query *query, sw_writer *out);
/* Columns by name in any order; by: where the table has no such column or cell (NULL = none). `corrects` names an `id` of the
 * same table; entered and corrected_by are passed over. All lines or none; every fault is told. */
sw_status sw_log_import(sw_run *run, sw_log *log, const sw_log_kind *kind, const sw_csv *csv, const char *by,
                        size_t *added);

/* ---- keeping ------------------------------------------------------------------------ */

/* Copies the log while others work on it, checks the copy, then gives it its name. Refuses a name that is taken. */
sw_status sw_log_backup(sw_run *run, sw_log *log, const char *path);
/* Reads all: SQLite's own check, links, hashes, triggers. faults: one line each; 0 = sound. */
sw_status sw_log_check(sw_run *run, sw_log *log, const char *const **faults, size_t *count);

/* ---- statistics --------------------------------------------------------------------- */

typedef struct sw_log_capability { /* one feature in one batch and unit, under one pair of limits */
    const char *feature, *batch, *unit;
    size_t count, outside;
    double mean, sigma, low, high; /* a limit that is not there: NAN */
    double cpk;                    /* NAN below 2 readings or without spread */
} sw_log_capability;

typedef struct sw_log_scrap {
    char month[8]; /* "2026-03" */
    double sheet_kg, scrap_kg;
} sw_log_scrap;

typedef struct sw_log_pace {
    const char *operation;
    size_t count;
    double planned_s, actual_s; /* sums over records that have both */
} sw_log_pace;

typedef struct sw_log_statistics {
    const sw_log_capability *capability;
    size_t capability_count;
    const sw_log_scrap *scrap;
    size_t scrap_count;
    const sw_log_pace *pace;
    size_t pace_count;
} sw_log_statistics;

/* Of the records that hold. Cpk = min(high - mean, mean - low)/(3 sigma), ISO 22514-2 (from memory), sigma of the sample. */
sw_status sw_log_reckon(sw_run *run, sw_log *log, sw_log_statistics *statistics);

#endif
