/* csv.c: tables of text: RFC 4180, with what spreadsheets do to it: a mark at the start, semicolons or tabs, decimal commas. */
#include "base/base.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { ROWS_MOST = 2000000, COLUMNS_MOST = 256, BYTES_MOST = 1 << 28 };

typedef struct reader {
    sw_run *run;
    sw_csv *csv;
    char *at, *end; /* what is left of our copy; cells are cut out of it in place */
    int line;
    size_t room;
    const char **row; /* [COLUMNS_MOST] */
} reader;

/* The sign between the cells of the first line: the one seen most often outside quotes. */
static char separator_of(const char *text)
{
    static const char signs[] = {',', ';', '\t'};
    size_t seen[3] = {0};
    bool quoted = false;
    for (const char *p = text; *p != '\0' && (quoted || *p != '\n'); p++) {
        if (*p == '"') quoted = !quoted;
        for (size_t k = 0; k < 3 && !quoted; k++) seen[k] += *p == signs[k] ? 1 : 0;
    }
    size_t best = 0;
    for (size_t k = 1; k < 3; k++)
        if (seen[k] > seen[best]) best = k;
    return signs[best];
}

static sw_place here(const reader *r)
{
    return (sw_place){.file = r->csv->file, .line = r->line, .column = 0};
}

/* Takes a quoted cell, doubled quotes made single; false when the closing quote is missing. */
static bool take_quoted(reader *r, char **cell)
{
    char *to = *cell = r->at;
    for (char *from = r->at + 1; from < r->end; from++) {
        if (*from == '\n') r->line++;
        if (*from == '"' && from + 1 < r->end && from[1] == '"')
            from++;
        else if (*from == '"') {
            *to = '\0';
            r->at = from + 1;
            return true;
        }
        *to++ = *from;
    }
    return false;
}

static void take_plain(reader *r, char **cell)
{
    *cell = r->at;
    while (r->at < r->end && *r->at != r->csv->separator && *r->at != '\n' && *r->at != '\r') r->at++;
}

static char *trimmed(char *cell)
{
    while (*cell == ' ' || *cell == '\t') cell++;
    for (size_t n = strlen(cell); n > 0 && (cell[n - 1] == ' ' || cell[n - 1] == '\t'); n--) cell[n - 1] = '\0';
    return cell;
}

/* One line's cells into r->row; the sign after a cell is overwritten with its end, after it was looked at. */
static sw_status take_row(reader *r, size_t *count)
{
    for (*count = 0;;) {
        char *cell = r->at;
        sw_place place = here(r);
        if (*count == COLUMNS_MOST)
            return sw_fail(r->run, SW_BAD_INPUT, place, "", "more than %d columns", COLUMNS_MOST);
        bool quoted = r->at < r->end && *r->at == '"';
        if (quoted && !take_quoted(r, &cell))
            return sw_fail(r->run, SW_BAD_INPUT, place, "", "a quote opened here is never closed");
        if (!quoted) take_plain(r, &cell);
        char sign = r->at < r->end ? *r->at : '\n';
        if (sign != r->csv->separator && sign != '\n' && sign != '\r')
            return sw_fail(r->run, SW_BAD_INPUT, here(r), "", "text after a closing quote");
        if (r->at < r->end) *r->at++ = '\0';
        r->row[(*count)++] = quoted ? cell : trimmed(cell);
        if (sign == '\r' && r->at < r->end && *r->at == '\n') r->at++;
        if (sign == '\n' || sign == '\r') return SW_OK;
    }
}

static bool is_blank(const reader *r, size_t count)
{
    return count == 1 && r->row[0][0] == '\0';
}

static sw_status keep_row(reader *r, size_t count, int line)
{
    sw_csv *csv = r->csv;
    if (count != csv->column_count)
        return sw_fail(r->run, SW_BAD_INPUT, (sw_place){.file = csv->file, .line = line}, "",
                       "%zu cells where the first line names %zu columns", count, csv->column_count);
    if (csv->row_count == ROWS_MOST)
        return sw_fail(r->run, SW_BAD_INPUT, (sw_place){.file = csv->file, .line = line}, "", "more than %d lines",
                       ROWS_MOST);
    size_t rows = csv->row_count, room = r->room;
    const char **cells =
        sw_grow(r->run, r->run->keep, (void *)csv->cells, rows, &room, csv->column_count * sizeof *cells);
    room = r->room;
    int *lines = cells == NULL ? NULL : sw_grow(r->run, r->run->keep, (void *)csv->lines, rows, &room, sizeof *lines);
    if (lines == NULL) return SW_NO_MEMORY;
    r->room = room;
    csv->cells = cells;
    csv->lines = lines;
    memcpy(cells + rows * csv->column_count, r->row, csv->column_count * sizeof *cells);
    lines[rows] = line;
    csv->row_count++;
    return SW_OK;
}

static sw_status take_names(reader *r)
{
    size_t count = 0;
    do {
        if (r->at >= r->end)
            return sw_fail(r->run, SW_BAD_INPUT, here(r), "", "is empty; the first line names the columns");
        r->line++;
        SW_TRY(take_row(r, &count));
    } while (is_blank(r, count));
    const char **names = SW_KEEP(r->run, count, const char *);
    if (names == NULL) return SW_NO_MEMORY;
    memcpy(names, r->row, count * sizeof *names);
    r->csv->names = names;
    r->csv->column_count = count;
    return SW_OK;
}

static sw_status take_rows(reader *r)
{
    sw_status worst = SW_OK;
    while (r->at < r->end) {
        size_t count = 0;
        int line = ++r->line;
        SW_TRY(take_row(r, &count));
        if (is_blank(r, count)) continue;
        sw_status status = keep_row(r, count, line);
        if (status != SW_OK && status != SW_BAD_INPUT) return status;
        if (status != SW_OK) worst = status;
    }
    return worst;
}

sw_status sw_csv_read(sw_run *run, const char *file, const char *bytes, size_t length, sw_csv *csv)
{
    *csv = (sw_csv){.file = file};
    reader r = {.run = run, .csv = csv};
    if (length > BYTES_MOST || !sw_text_is_utf8(bytes, length) || memchr(bytes, '\0', length) != NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){.file = file}, "",
                       "is no UTF-8 text of at most %d MB; save it as CSV in UTF-8", BYTES_MOST >> 20);
    r.at = sw_keep(run, length + 1, 1);
    r.row = SW_KEEP(run, COLUMNS_MOST, const char *);
    if (r.at == NULL || r.row == NULL) return SW_NO_MEMORY;
    memcpy(r.at, bytes, length);
    r.at[length] = '\0';
    r.end = r.at + length;
    if (length >= 3 && memcmp(r.at, "\xef\xbb\xbf", 3) == 0) r.at += 3;
    csv->separator = separator_of(r.at);
    SW_TRY(take_names(&r));
    return take_rows(&r);
}

size_t sw_csv_column(const sw_csv *csv, const char *name)
{
    for (size_t i = 0; i < csv->column_count; i++)
        if (strcmp(csv->names[i], name) == 0) return i;
    return SIZE_MAX;
}

const char *sw_csv_cell(const sw_csv *csv, size_t row, size_t column)
{
    return csv->cells[row * csv->column_count + column];
}

sw_place sw_csv_place(const sw_csv *csv, size_t row)
{
    return (sw_place){.file = csv->file, .line = csv->lines[row], .column = 0};
}

sw_status sw_csv_number(sw_run *run, const sw_csv *csv, size_t row, size_t column, double low, double high,
                        double *value)
{
    enum { ROOM = 64 };
    const char *cell = sw_csv_cell(csv, row, column);
    char text[ROOM], *end = NULL;
    size_t length = strlen(cell);
    *value = NAN;
    if (length < ROOM) {
        memcpy(text, cell, length + 1);
        char *comma = csv->separator == ',' ? NULL : strchr(text, ',');
        if (comma != NULL) *comma = '.';
        errno = 0;
        *value = strtod(text, &end);
    }
    bool number = end != NULL && end != text && *end == '\0' && errno == 0 && isfinite(*value);
    if (number && *value >= low && *value <= high) return SW_OK;
    *value = NAN;
    return sw_fail(run, SW_BAD_INPUT, sw_csv_place(csv, row), csv->names[column],
                   "\"%.40s\" is no number from %g to %g", cell, low, high);
}

static bool is_armed(const char *text)
{
    while (*text == '\'') text++;
    return *text != '\0' && strchr("=+-@\t\r", *text) != NULL;
}

const char *sw_csv_as_it_was(const char *cell)
{
    return cell[0] == '\'' && is_armed(cell) ? cell + 1 : cell;
}

static void write_quoted(sw_writer *writer, const char *lead, const char *text)
{
    sw_write_text(writer, "\"");
    sw_write_text(writer, lead);
    for (const char *c = text; *c != '\0'; c++) sw_write(writer, *c == '"' ? "\"\"" : c, *c == '"' ? 2 : 1);
    sw_write_text(writer, "\"");
}

void sw_csv_write_text(sw_writer *writer, const char *text)
{
    if (text == NULL) return;
    const char *lead = is_armed(text) ? "'" : "";
    size_t length = strlen(text);
    bool blank = length > 0 && (text[0] == ' ' || text[length - 1] == ' '); /* at an end: the reader drops it */
    if (blank || strpbrk(text, ",;\t\"\r\n") != NULL) {
        write_quoted(writer, lead, text);
        return;
    }
    sw_write_text(writer, lead);
    sw_write_text(writer, text);
}
