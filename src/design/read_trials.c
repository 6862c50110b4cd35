/* read_trials.c: the works' trial bends and trial rolls as measured: `strips` of the press and `trials` of the rolls
 * name a CSV file beside the description. Its columns carry their unit in their name, in any order; every wrong line
 * is told with its number. Whether the trials agree with each other is for the study that fits them. */
#include "design/design_parts.h"

#include <string.h>

enum { TRIAL_BYTES = 1 << 20, TRIALS_MOST = 2000, COLUMNS_MOST = 10 };

typedef struct column {
    const char *name;
    size_t offset; /* of a double; mm, or rad from degrees */
    double low, high;
    bool needed, angle;
} column;

typedef struct trial_table { /* one kind of file */
    const char *field;       /* of the description that names the file */
    const column *columns;   /* [count] of numbers; "material" and "note" stand beside them */
    size_t count;
} trial_table;

typedef struct trial_file {
    const trial_table *kind;
    sw_csv csv;
    size_t material, at[COLUMNS_MOST]; /* columns of the file; SIZE_MAX = none */
} trial_file;

#define MEASURED(type, label, member, least, most)                                                                     \
    .name = label, .offset = offsetof(type, member), .low = least, .high = most

static design_scope file_scope(const design_scope *s, sw_place place)
{
    return (design_scope){.d = s->d, .table = s->table, .place = place, .subject = "", .path = ""};
}

/* ---- columns ---- */

static size_t known_names(const trial_table *kind, const char **names)
{
    size_t n = 0;
    names[n++] = "material";
    for (size_t i = 0; i < kind->count; i++) names[n++] = kind->columns[i].name;
    names[n++] = "note";
    return n;
}

static size_t needed_column(const design_scope *at, const sw_csv *csv, const char *name)
{
    size_t found = sw_csv_column(csv, name);
    if (found == SIZE_MAX)
        design_fault(at, name, "is missing among the columns that the first line names; it is needed");
    return found;
}

/* Every column must be known, once, and none that is needed may be missing; false = noted. */
static bool find_columns(const design_scope *s, trial_file *f)
{
    const char *names[COLUMNS_MOST + 2];
    size_t known = known_names(f->kind, names), before = s->d->faults;
    design_scope at = file_scope(s, (sw_place){.file = f->csv.file, .line = 1});
    for (size_t i = 0; i < f->csv.column_count; i++) {
        bool fits = false;
        for (size_t j = 0; j < known && !fits; j++) fits = strcmp(names[j], f->csv.names[i]) == 0;
        if (!fits)
            design_fault(&at, f->csv.names[i], "is not a column known here%s",
                         design_hint(s->d, f->csv.names[i], names, known));
        else if (sw_csv_column(&f->csv, f->csv.names[i]) != i)
            design_fault(&at, f->csv.names[i], "names two columns; keep one");
    }
    f->material = needed_column(&at, &f->csv, "material");
    for (size_t j = 0; j < f->kind->count; j++) {
        const column *c = &f->kind->columns[j];
        f->at[j] = c->needed ? needed_column(&at, &f->csv, c->name) : sw_csv_column(&f->csv, c->name);
    }
    return before == s->d->faults;
}

/* ---- lines ---- */

/* The cell into the trial; a cell that may be left out and is empty leaves 0. */
static void read_cell(const design_scope *s, const trial_file *f, size_t row, size_t j, void *trial)
{
    const column *c = &f->kind->columns[j];
    double value;
    if (f->at[j] == SIZE_MAX || (!c->needed && sw_csv_cell(&f->csv, row, f->at[j])[0] == '\0')) return;
    sw_status status = sw_csv_number(s->d->run, &f->csv, row, f->at[j], c->low, c->high, &value);
    if (status == SW_NO_MEMORY) design_must(s->d, status);
    if (status != SW_OK) {
        s->d->faults++; /* recorded with its line */
        return;
    }
    *(double *)((char *)trial + c->offset) = c->angle ? sw_rad_from_deg(value) : value;
}

static void read_line(const design_scope *s, const trial_file *f, size_t row, const sw_grade **grade, sw_place *place,
                      void *trial)
{
    *place = sw_csv_place(&f->csv, row);
    design_scope at = file_scope(s, *place);
    *grade = design_works_grade(&at, sw_csv_cell(&f->csv, row, f->material));
    for (size_t j = 0; j < f->kind->count; j++) read_cell(s, f, row, j, trial);
}

/* ---- the file ---- */

static bool take_file(const design_scope *s, const char *path, trial_file *f)
{
    sw_run *run = s->d->run;
    const char *bytes;
    size_t length;
    sw_status status = sw_file_read(run, path, TRIAL_BYTES, &bytes, &length);
    if (status == SW_OK) status = sw_csv_read(run, path, bytes, length, &f->csv);
    if (status == SW_NO_MEMORY) design_must(s->d, status);
    if (status != SW_OK || !find_columns(s, f)) {
        design_fault(s, f->kind->field, "the trials \"%s\" cannot be used, see the message before", path);
        return false;
    }
    if (f->csv.row_count >= 1 && f->csv.row_count <= TRIALS_MOST) return true;
    design_fault(s, f->kind->field, "\"%s\" holds %zu trials, allowed is 1 to %d", path, f->csv.row_count, TRIALS_MOST);
    return false;
}

/* The file that the field names, its columns found; false when there is none (noted, or the field is absent). */
static bool open_file(const design_scope *s, const trial_table *kind, trial_file *f)
{
    lua_State *L = s->d->L;
    *f = (trial_file){.kind = kind};
    SW_ASSERT(kind->count <= COLUMNS_MOST);
    bool given = lua_getfield(L, s->table, kind->field) != LUA_TNIL;
    const char *path = given ? design_beside(s, kind->field, lua_gettop(L)) : NULL;
    bool good = path != NULL && take_file(s, path, f);
    lua_pop(L, 1);
    return good;
}

/* Says at the line of the description how many faults its file has. */
static void sum_up(const design_scope *s, const trial_file *f, size_t before)
{
    size_t wrong = s->d->faults - before;
    if (wrong > 0)
        design_fault(s, f->kind->field, "\"%s\" has %zu fault%s, see the messages before; nothing of it is used",
                     f->csv.file, wrong, sw_plural(wrong));
}

void design_read_strips(const design_scope *s, sw_press *press)
{
    static const column columns[] = {
        {MEASURED(sw_strip, "thickness_mm", thickness_mm, 0.3, 50.0), .needed = true},
        {MEASURED(sw_strip, "die_mm", die_mm, 2.0, 500.0), .needed = true},
        {MEASURED(sw_strip, "flat_mm", flat_mm, 5.0, 5e3), .needed = true},
        {MEASURED(sw_strip, "leg_a_mm", leg_a_mm, 1.0, 5e3), .needed = true},
        {MEASURED(sw_strip, "leg_b_mm", leg_b_mm, 1.0, 5e3), .needed = true},
        {MEASURED(sw_strip, "angle_deg", got_rad, 1.0, 180.0), .needed = true, .angle = true},
        {MEASURED(sw_strip, "set_deg", set_rad, 1.0, 180.0), .angle = true},
        {MEASURED(sw_strip, "radius_mm", radius_mm, 0.0, 1e3)},
    };
    static const trial_table kind = {"strips", columns, DESIGN_COUNT_OF(columns)};
    trial_file f;
    if (!open_file(s, &kind, &f)) return;
    size_t before = s->d->faults;
    sw_strip *strips = DESIGN_TAKE(s->d, f.csv.row_count, sw_strip);
    for (size_t i = 0; i < f.csv.row_count; i++) read_line(s, &f, i, &strips[i].grade, &strips[i].place, &strips[i]);
    sum_up(s, &f, before);
    press->strips = strips;
    press->strip_count = f.csv.row_count;
}

void design_read_roll_trials(const design_scope *s, sw_rolls *rolls)
{
    static const column columns[] = {
        {MEASURED(sw_roll_trial, "thickness_mm", thickness_mm, 0.3, 50.0), .needed = true},
        {MEASURED(sw_roll_trial, "feed_mm", feed_mm, 0.01, 500.0), .needed = true},
        {MEASURED(sw_roll_trial, "radius_mm", radius_mm, 5.0, 1e5), .needed = true},
    };
    static const trial_table kind = {"trials", columns, DESIGN_COUNT_OF(columns)};
    trial_file f;
    if (!open_file(s, &kind, &f)) return;
    size_t before = s->d->faults;
    sw_roll_trial *trials = DESIGN_TAKE(s->d, f.csv.row_count, sw_roll_trial);
    for (size_t i = 0; i < f.csv.row_count; i++) read_line(s, &f, i, &trials[i].grade, &trials[i].place, &trials[i]);
    sum_up(s, &f, before);
    rolls->trials = trials;
    rolls->trial_count = f.csv.row_count;
}
