/* trial_read.c: the table of a test in one pass over its bytes. */
#include "proving/trial/trial_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { BYTES_MOST = 1 << 28, ROWS_MOST = 2000000, STEPS_MOST = 4096 };

typedef struct reading {
    sw_run *run;
    sw_trial_record *r;
    trial_header header;
    const char *at, *end;
    int line;
    trial_text cells[SW_TRIAL_COLUMNS];
    size_t cell_count, name_count;
    trial_text names[SW_TRIAL_COLUMNS];
    trial_column_kind kinds[SW_TRIAL_COLUMNS];
    size_t column[SW_TRIAL_COLUMNS]; /* of the record; SIZE_MAX = not used */
    size_t time;
    double *time_s;
    double first_s, midnights_s, last_s;
    bool stamps, numbers, dated;
    size_t room;
    sw_status worst;
} reading;

static sw_place here(const reading *d)
{
    return (sw_place){.file = d->r->file, .line = d->line};
}

static void bad(reading *d, const char *field, const char *text)
{
    d->worst = sw_fail(d->run, SW_BAD_INPUT, here(d), field, "%s", text);
}

static trial_text next_line(reading *d)
{
    const char *stop = memchr(d->at, '\n', (size_t)(d->end - d->at));
    if (stop == NULL) stop = d->end;
    trial_text t = {d->at, (size_t)(stop - d->at)};
    d->at = stop < d->end ? stop + 1 : stop;
    d->line++;
    if (t.length > 0 && t.at[t.length - 1] == '\r') t.length--;
    return t;
}

static char separator_of(trial_text line)
{
    static const char signs[] = {',', ';', '\t'};
    size_t seen[3] = {0}, best = 0;
    for (size_t i = 0; i < line.length; i++)
        for (size_t k = 0; k < 3; k++) seen[k] += line.at[i] == signs[k] ? 1 : 0;
    if (seen[1] > 0) return ';'; /* commas beside semicolons are decimals */
    for (size_t k = 1; k < 3; k++)
        if (seen[k] > seen[best]) best = k;
    return signs[best];
}

/* Cells of a line, still with blanks and quotes; SW_TRIAL_COLUMNS + 1 = too many. A quoted cell may hold the separator. */
static size_t split(reading *d, trial_text line)
{
    const char *p = line.at, *end = line.at + line.length;
    size_t n = 0;
    for (; n < SW_TRIAL_COLUMNS; n++) {
        const char *start = p;
        bool quoted = false;
        while (p < end && (quoted || *p != d->r->separator)) quoted ^= *p++ == '"';
        d->cells[n] = (trial_text){start, (size_t)(p - start)};
        if (p == end) return n + 1;
        p++;
    }
    return SW_TRIAL_COLUMNS + 1;
}

/* ---- columns ---- */

static bool blank_line(trial_text line)
{
    for (size_t i = 0; i < line.length; i++)
        if (line.at[i] != ' ' && line.at[i] != '\t' && line.at[i] != ';' && line.at[i] != ',') return false;
    return true;
}

/* A line below the names in which nothing is a number or a time: the units. */
static bool units_line(const reading *d)
{
    bool some = false;
    for (size_t i = 0; i < d->cell_count; i++) {
        trial_text cell = trial_trimmed(d->cells[i]);
        double value = 0;
        bool dated = false;
        if (trial_number(cell, &value) || trial_stamp(cell, &value, &dated)) return false;
        some |= trial_is_unit(cell);
    }
    return some && d->cell_count > 1;
}

static const char *text_of(reading *d, trial_text t)
{
    const char *text = sw_text_format(d->run, d->run->keep, "%.*s", (int)sw_text_cut(t.at, t.length, 80), t.at);
    if (text == NULL) d->worst = SW_NO_MEMORY;
    return text == NULL ? "" : text;
}

static sw_status ignore(reading *d, trial_text name)
{
    sw_trial_record *r = d->r;
    if (name.length == 0) return SW_OK;
    r->ignored =
        sw_text_format(d->run, d->run->keep, "%s%s%s", r->ignored, r->ignored_count > 0 ? ", " : "", text_of(d, name));
    r->ignored_count++;
    return r->ignored == NULL ? SW_NO_MEMORY : SW_OK;
}

static void take_column(reading *d, size_t i)
{
    sw_trial_record *r = d->r;
    trial_column_kind *k = &d->kinds[i];
    const char *name = text_of(d, trial_trimmed(k->of == SW_TRIAL_SURFACE ? k->place : d->names[i]));
    if (k->of != SW_TRIAL_SURFACE && sw_trial_column_of(r, k->of) != NULL) {
        bad(d, name, "is measured in two columns; name one of them otherwise");
        return;
    }
    if (k->unit_missing) {
        bad(d, name,
            "needs its unit in the name: CO, OGC and NOx in [%], [ppm] or [mg/m3]; temperatures in [degC] or [K]");
        return;
    }
    d->column[i] = r->column_count;
    r->columns[r->column_count++] = (sw_trial_column){
        .of = k->of, .name = name, .by_mass = k->by_mass, .first_odd = "", .values = SW_KEEP(d->run, d->room, double)};
    if (r->columns[r->column_count - 1].values == NULL) d->worst = SW_NO_MEMORY;
}

static sw_status take_columns(reading *d, bool units)
{
    d->time = SIZE_MAX;
    for (size_t i = 0; i < d->name_count; i++) {
        trial_text unit = units && i < d->cell_count ? trial_trimmed(d->cells[i]) : (trial_text){"", 0};
        trial_column_kind k = d->kinds[i] = trial_column_of_name(d->names[i], unit);
        d->column[i] = SIZE_MAX;
        if (k.is_time && !k.unit_missing && d->time == SIZE_MAX)
            d->time = i;
        else if (!k.known || k.is_time)
            SW_TRY(ignore(d, trial_trimmed(d->names[i])));
        else
            take_column(d, i);
        if (d->worst == SW_NO_MEMORY) return SW_NO_MEMORY;
    }
    if (d->time == SIZE_MAX) bad(d, "time", "no column is the time; name one time_s, time_min or time (stamps)");
    d->time_s = SW_KEEP(d->run, d->room, double);
    return d->time_s == NULL ? SW_NO_MEMORY : SW_OK;
}

static sw_status needed(reading *d)
{
    static const sw_trial_quantity both[] = {SW_TRIAL_FLUE, SW_TRIAL_ROOM};
    for (size_t i = 0; i < 2; i++)
        if (sw_trial_column_of(d->r, both[i]) == NULL) bad(d, sw_trial_quantity_name(both[i]), "has no column");
    if (sw_trial_column_of(d->r, SW_TRIAL_CO2) == NULL && sw_trial_column_of(d->r, SW_TRIAL_O2) == NULL)
        bad(d, "CO2", "has no column, nor has O2; one of them is needed");
    return d->worst;
}

/* ---- rows ---- */

/* Seconds from the first row. */
static bool time_of(reading *d, double *time_s)
{
    trial_text cell = trial_trimmed(d->cells[d->time]);
    double t = 0;
    bool dated = false;
    if (!d->stamps && trial_number(cell, &t)) {
        d->numbers = true;
        t *= d->kinds[d->time].scale;
    } else if (!d->numbers && trial_stamp(cell, &t, &dated)) {
        if (d->r->row_count > 0 && dated != d->dated) return false;
        d->stamps = true;
        d->dated = dated;
        if (!dated && d->r->row_count > 0 && t + d->midnights_s < d->last_s - sw_s_from_h(12))
            d->midnights_s += sw_s_from_h(24);
        t += d->midnights_s;
    } else {
        return false;
    }
    if (!(fabs(t) < 1e12)) return false;
    *time_s = t;
    return true;
}

static void lose(reading *d, sw_trial_column *c, trial_text cell, bool odd)
{
    c->lost++;
    if (c->first_lost_line == 0) c->first_lost_line = d->line;
    if (!odd) return;
    if (c->odd++ == 0) c->first_odd = text_of(d, (trial_text){cell.at, sw_text_cut(cell.at, cell.length, 24)});
}

static void take_cell(reading *d, size_t i, size_t row)
{
    sw_trial_column *c = &d->r->columns[d->column[i]];
    const trial_column_kind *k = &d->kinds[i];
    trial_text cell = i < d->cell_count ? trial_trimmed(d->cells[i]) : (trial_text){"", 0};
    double value = 0;
    c->values[row] = NAN;
    if (!trial_number(cell, &value)) {
        lose(d, c, cell, !trial_is_gap(cell));
        return;
    }
    value = value * k->scale + k->offset;
    if (value >= k->low && value <= k->high)
        c->values[row] = value;
    else
        lose(d, c, cell, true);
}

static void take_row(reading *d)
{
    sw_trial_record *r = d->r;
    double t = 0;
    if (d->cell_count > d->name_count) {
        bad(d, "", "more cells than the line of names has; decimal commas need semicolons or tabs between the cells");
        return;
    }
    if (d->time >= d->cell_count || !time_of(d, &t)) {
        bad(d, "time", "is neither a number nor a time stamp as hh:mm:ss, yyyy-mm-dd hh:mm:ss or dd.mm.yyyy hh:mm:ss");
        return;
    }
    if (r->row_count == 0) d->first_s = t;
    if (r->row_count > 0 && t < d->last_s) {
        bad(d, "time", "goes back; put the rows in order of time");
        return;
    }
    if (r->row_count > 0 && t == d->last_s) {
        r->repeated_rows++;
        return;
    }
    d->last_s = t;
    size_t row = r->row_count++;
    d->time_s[row] = t - d->first_s;
    for (size_t i = 0; i < d->name_count; i++)
        if (d->column[i] != SIZE_MAX) take_cell(d, i, row);
}

static sw_status take_rows(reading *d)
{
    while (d->at < d->end) {
        trial_text line = next_line(d);
        if (blank_line(line) || *line.at == '#') continue;
        d->cell_count = split(d, line);
        take_row(d);
        if (d->worst == SW_NO_MEMORY) return SW_NO_MEMORY;
    }
    return d->worst;
}

/* ---- the file ---- */

static sw_status take_header(reading *d)
{
    while (d->at < d->end) {
        trial_text line = next_line(d);
        if (blank_line(line)) continue;
        if (*line.at == '#') {
            (void)trial_header_line(&d->header, (trial_text){line.at + 1, line.length - 1}, d->line);
            continue;
        }
        d->r->separator = separator_of(line);
        d->name_count = split(d, line);
        if (d->name_count > SW_TRIAL_COLUMNS)
            return sw_fail(d->run, SW_BAD_INPUT, here(d), "", "more than %d columns", SW_TRIAL_COLUMNS);
        for (size_t i = 0; i < d->name_count; i++) d->names[i] = trial_trimmed(d->cells[i]);
        return SW_OK;
    }
    return sw_fail(d->run, SW_BAD_INPUT, here(d), "",
                   "holds no table; below the lines of # stands one with the columns' names");
}

static sw_status take_table(reading *d)
{
    const char *start = d->at;
    int line = d->line;
    bool units = false;
    while (d->at < d->end && !units) {
        trial_text next = next_line(d);
        if (blank_line(next)) continue;
        d->cell_count = split(d, next);
        units = d->cell_count <= SW_TRIAL_COLUMNS && units_line(d);
        break;
    }
    SW_TRY(take_columns(d, units));
    if (!units) d->at = start, d->line = line;
    SW_TRY(needed(d));
    return take_rows(d);
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double usual_step_s(const sw_trial_record *r)
{
    double steps[STEPS_MOST];
    size_t n = 0, every = r->row_count / STEPS_MOST + 1;
    for (size_t i = 1; i < r->row_count && n < STEPS_MOST; i += every) steps[n++] = r->time_s[i] - r->time_s[i - 1];
    if (n == 0) return NAN;
    qsort(steps, n, sizeof *steps, by_size);
    return steps[n / 2];
}

/* Clock times of charges become seconds from the first row. */
static sw_status place_charges(reading *d)
{
    sw_trial_record *r = d->r;
    double day_s = sw_s_from_h(24), last_s = -1;
    for (size_t i = 0; i < r->charge_count; i++) {
        double *t = &r->charges[i].time_s;
        if (d->header.stamped[i] && d->stamps) {
            *t -= d->first_s;
            if (*t < 0 || !d->dated) *t = fmod(fmod(*t, day_s) + day_s, day_s);
            while (*t <= last_s) *t += day_s;
        }
        if ((d->header.stamped[i] && !d->stamps) || *t <= last_s || *t > r->time_s[r->row_count - 1])
            return sw_fail(
                d->run, SW_BAD_INPUT, (sw_place){.file = r->file}, "charge",
                "charge %zu is not in order, after the last row, or of the clock where the table counts from 0", i + 1);
        last_s = *t;
    }
    return SW_OK;
}

static sw_status read_all(reading *d)
{
    SW_TRY(take_header(d));
    SW_TRY(take_table(d));
    d->r->time_s = d->time_s;
    if (d->header.status != SW_OK) return d->header.status;
    if (d->r->row_count < 2) return sw_fail(d->run, SW_BAD_INPUT, here(d), "", "holds fewer than two rows of readings");
    for (size_t i = 0; i < d->r->column_count; i++)
        if (d->r->columns[i].lost == d->r->row_count) bad(d, d->r->columns[i].name, "has not one reading in it");
    if (d->worst != SW_OK) return d->worst;
    d->r->step_s = usual_step_s(d->r);
    return place_charges(d);
}

static size_t lines_in(const char *bytes, size_t length)
{
    size_t n = 1;
    for (const char *p = bytes, *end = bytes + length; (p = memchr(p, '\n', (size_t)(end - p))) != NULL; p++) n++;
    return n;
}

sw_status sw_trial_read(sw_run *run, const char *file, const char *bytes, size_t length, sw_trial_record *record)
{
    *record = (sw_trial_record){.file = file, .note = "", .model = "", .maker = "", .fuel = "", .ignored = ""};
    record->moisture = record->c = record->h = record->lhv = record->lhv_dry = NAN;
    record->residue = record->residue_c = record->end_s = record->step_s = NAN;
    if (length > BYTES_MOST || !sw_text_is_utf8(bytes, length) || memchr(bytes, '\0', length) != NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){.file = file}, "",
                       "is no UTF-8 text of at most %d MB; save it as CSV in UTF-8", BYTES_MOST >> 20);
    size_t mark = sw_arena_mark(run->scratch);
    reading *d = SW_SCRATCH(run, 1, reading);
    sw_status status = SW_NO_MEMORY;
    if (d != NULL) {
        *d = (reading){.run = run, .r = record, .at = bytes, .end = bytes + length};
        d->header = (trial_header){.run = run, .record = record};
        d->room = lines_in(bytes, length);
        if (length >= 3 && memcmp(bytes, "\xef\xbb\xbf", 3) == 0) d->at += 3;
        status = d->room > ROWS_MOST ? sw_fail(run, SW_BAD_INPUT, here(d), "", "more than %d lines", ROWS_MOST)
                                     : read_all(d);
    }
    sw_arena_rewind(run->scratch, mark);
    return status;
}

const sw_trial_column *sw_trial_column_of(const sw_trial_record *record, sw_trial_quantity of)
{
    for (size_t i = 0; i < record->column_count; i++)
        if (record->columns[i].of == of) return &record->columns[i];
    return NULL;
}
