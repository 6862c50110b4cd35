/* tables.c: records as CSV, out and in. */
#include "log/log_parts.h"

#include <stdlib.h>
#include <string.h>

/* ---- out ------------------------------------------------------------------------------- */

/* An empty text is not the same as none. */
static void write_cell(sw_writer *out, const char *text)
{
    if (text != NULL && text[0] == '\0') sw_write_text(out, "\"\"");
    sw_csv_write_text(out, text);
}

static void write_number_or_nothing(sw_writer *out, int64_t number)
{
    if (number != 0) sw_print(out, "%lld", (long long)number);
    sw_write_text(out, ",");
}

typedef struct export
{
    sw_run *run;
    sw_writer *out;
    bool all; /* without what was corrected, a correction stands for itself: its `corrects` would name nothing */
}
export;

static sw_status write_row(void *context, const sw_log_record *r)
{
    const export *to = context;
    sw_writer *out = to->out;
    char at[SW_LOG_TIME_ROOM], entered[SW_LOG_TIME_ROOM];
    sw_log_time_text(r->at_ms, at);
    sw_log_time_text(r->entered_ms, entered);
    sw_print(out, "%lld,%s,", (long long)r->id, at);
    write_cell(out, r->by);
    sw_print(out, ",%s,", entered);
    write_number_or_nothing(out, to->all ? r->corrects : 0);
    write_number_or_nothing(out, r->corrected_by);
    sw_print(out, "%s,", r->withdrawn ? "1" : "");
    write_cell(out, to->all ? r->why : NULL);
    for (size_t i = 0; i < r->kind->field_count; i++) {
        const sw_log_field *f = &r->kind->fields[i];
        sw_write_text(out, ",");
        if (r->values[i].there && r->values[i].text != NULL)
            write_cell(out, r->values[i].text);
        else
            sw_log_write_value(out, f, &r->values[i]);
    }
    sw_write_text(out, "\r\n");
    return SW_OK;
}

sw_status sw_log_export(sw_run *run, sw_log *log, const sw_log_query *query, sw_writer *out)
{
    const sw_log_kind *kind = query->like.kind;
    sw_write_text(out, "id,at,by,entered,corrects,corrected_by,withdrawn,why");
    for (size_t i = 0; i < kind->field_count; i++) sw_print(out, ",%s", kind->fields[i].name);
    sw_write_text(out, "\r\n");
    export to = {run, out, query->all};
    return sw_log_visit(run, log, query, write_row, &to);
}

/* ---- in -------------------------------------------------------------------------------- */

enum { AT, BY, WHY, ID, CORRECTS, WITHDRAWN, ENTERED, CORRECTED_BY, COMMON_COUNT, UNKNOWN = -1, FIELD = 100 };
static const char *const common[COMMON_COUNT] = {"at",       "by",        "why",     "id",
                                                 "corrects", "withdrawn", "entered", "corrected_by"};

typedef struct import_row {
    int64_t old_id, new_id;
} import_row;

typedef struct import {
    sw_run *run;
    sw_log *log;
    const sw_log_kind *kind;
    const sw_csv *csv;
    const char *by;
    int *what;        /* [csv->column_count]: a common one, or FIELD + index */
    import_row *rows; /* [row_count], those read so far, by old_id */
    size_t row_count;
} import;

static int what_is(const sw_log_kind *kind, const char *name)
{
    for (int i = 0; i < COMMON_COUNT; i++)
        if (strcmp(common[i], name) == 0) return i;
    size_t field = sw_log_field_find(kind, name);
    return field == SIZE_MAX ? UNKNOWN : FIELD + (int)field;
}

static sw_status unknown_column(const import *in, const char *name)
{
    const char *names[SW_LOG_FIELDS + COMMON_COUNT];
    memcpy(names, common, sizeof common);
    for (size_t i = 0; i < in->kind->field_count; i++) names[i + COMMON_COUNT] = in->kind->fields[i].name;
    const char *near = sw_text_nearest(name, names, in->kind->field_count + COMMON_COUNT);
    sw_place place = {.file = in->csv->file, .line = 1};
    if (near != NULL)
        return sw_fail(in->run, SW_BAD_INPUT, place, name, "is no column of %s; did you mean %s?", in->kind->plural,
                       near);
    return sw_fail(in->run, SW_BAD_INPUT, place, name, "is no column of %s; `log add %s --help` lists them",
                   in->kind->plural, in->kind->name);
}

static sw_status read_columns(import *in)
{
    sw_status worst = SW_OK;
    in->what = SW_KEEP(in->run, in->csv->column_count, int);
    in->rows = SW_KEEP(in->run, in->csv->row_count + 1, import_row);
    if (in->what == NULL || in->rows == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < in->csv->column_count; i++) {
        const char *name = in->csv->names[i];
        in->what[i] = what_is(in->kind, name);
        if (in->what[i] == UNKNOWN) worst = unknown_column(in, name);
        if (sw_csv_column(in->csv, name) != i)
            worst =
                sw_fail(in->run, SW_BAD_INPUT, (sw_place){.file = in->csv->file, .line = 1}, name, "names two columns");
    }
    return worst;
}

static import_row *find_row(const import *in, int64_t old_id)
{
    size_t low = 0, high = in->row_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (in->rows[middle].old_id < old_id)
            low = middle + 1;
        else
            high = middle;
    }
    return low < in->row_count && in->rows[low].old_id == old_id ? &in->rows[low] : NULL;
}

static sw_status remember(import *in, sw_place place, int64_t old_id, int64_t new_id)
{
    if (old_id == 0) return SW_OK;
    if (find_row(in, old_id) != NULL)
        return sw_fail(in->run, SW_BAD_INPUT, place, "id", "%lld stands there twice", (long long)old_id);
    size_t at = in->row_count++; /* tables come sorted as a rule */
    for (; at > 0 && in->rows[at - 1].old_id > old_id; at--) in->rows[at] = in->rows[at - 1];
    in->rows[at] = (import_row){old_id, new_id};
    return SW_OK;
}

static sw_status read_whole(const import *in, size_t row, size_t column, int64_t low, int64_t high, int64_t *whole)
{
    double value = 0;
    SW_TRY(sw_csv_number(in->run, in->csv, row, column, (double)low, (double)high, &value));
    *whole = (int64_t)value;
    return SW_OK;
}

static sw_status read_common(const import *in, size_t row, size_t column, sw_log_record *r, int64_t *old_id)
{
    const char *cell = sw_csv_cell(in->csv, row, column);
    sw_place place = sw_csv_place(in->csv, row);
    const int64_t most = (int64_t)1 << 52;
    int64_t whole = 0;
    switch (in->what[column]) {
    case AT:
        return sw_log_time_read(in->run, place, "at", cell, &r->at_ms);
    case BY:
        r->by = sw_csv_as_it_was(cell);
        return SW_OK;
    case WHY:
        r->why = sw_csv_as_it_was(cell);
        return SW_OK;
    case ID:
        return read_whole(in, row, column, 1, most, old_id);
    case WITHDRAWN:
        SW_TRY(read_whole(in, row, column, 0, 1, &whole));
        r->withdrawn = whole == 1;
        return SW_OK;
    case CORRECTS:
        SW_TRY(read_whole(in, row, column, 1, most, &whole));
        if (find_row(in, whole) == NULL)
            return sw_fail(in->run, SW_BAD_INPUT, place, "corrects", "no line before this one has the id %lld",
                           (long long)whole);
        r->corrects = find_row(in, whole)->new_id;
        return SW_OK;
    default:
        return SW_OK; /* entered, corrected_by: the log's own */
    }
}

static sw_status read_cell(const import *in, size_t row, size_t column, sw_log_record *r, int64_t *old_id)
{
    const char *cell = sw_csv_cell(in->csv, row, column);
    if (cell[0] == '\0') return SW_OK;
    if (in->what[column] < FIELD) return read_common(in, row, column, r, old_id);
    size_t i = (size_t)(in->what[column] - FIELD);
    const sw_log_field *f = &in->kind->fields[i];
    sw_log_value *v = &r->values[i];
    if (f->type != SW_LOG_NUMBER) {
        SW_TRY(sw_log_value_read(in->run, sw_csv_place(in->csv, row), f, sw_csv_as_it_was(cell), v));
        return SW_OK;
    }
    const double most = 1e300; /* decimal commas are the table's matter; limits are judged with the record */
    SW_TRY(sw_csv_number(in->run, in->csv, row, column, -most, most, &v->number));
    v->there = true;
    return SW_OK;
}

static sw_status import_one(import *in, size_t row)
{
    sw_log_record record = {.kind = in->kind, .by = in->by};
    sw_place place = sw_csv_place(in->csv, row);
    int64_t old_id = 0, new_id = 0;
    sw_status worst = SW_OK;
    for (size_t i = 0; i < in->csv->column_count; i++) {
        sw_status status = read_cell(in, row, i, &record, &old_id);
        if (status != SW_OK) worst = status;
    }
    if (worst != SW_OK) return worst;
    if (record.withdrawn && record.corrects == 0)
        return sw_fail(in->run, SW_BAD_INPUT, place, "withdrawn", "needs `corrects`: the record it withdraws");
    SW_TRY(log_insert(in->run, in->log, place, &record, &new_id));
    return remember(in, place, old_id, new_id);
}

static sw_status import_rows(import *in)
{
    sw_status worst = SW_OK;
    for (size_t i = 0; i < in->csv->row_count; i++) {
        sw_status status = import_one(in, i);
        if (status != SW_OK && status != SW_BAD_INPUT) return status;
        if (status != SW_OK) worst = status;
        if (sw_run_cancelled(in->run))
            return sw_fail(in->run, SW_CANCELLED, (sw_place){0}, in->csv->file, "stopped; nothing was recorded");
    }
    return worst;
}

sw_status sw_log_import(sw_run *run, sw_log *log, const sw_log_kind *kind, const sw_csv *csv, const char *by,
                        size_t *added)
{
import in = {.run = run, .log = log, .kind = kind, .csv = csv, .by = by };
    *added = 0;
    SW_TRY(read_columns(&in));
    SW_TRY(log_begin(run, log));
    SW_TRY(log_end(run, log, import_rows(&in)));
    *added = csv->row_count;
    return SW_OK;
}
