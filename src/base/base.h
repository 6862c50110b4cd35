/* base.h: what every other folder stands on.
 *
 * Status and error list, arenas, the run (state of one call chain), text, the one
 * buffered writer, output folders that appear whole or not at all, option tables,
 * random numbers, laws of chance, small dense systems, parallel loops and unit conversion.
 *
 * Nothing here knows stoves. Nothing here prints or exits, except a failed SW_ASSERT,
 * which is a programmer's mistake and aborts with file and line. */
#ifndef SW_BASE_BASE_H
#define SW_BASE_BASE_H

#include <stdarg.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* ---- units: the only place with conversion factors ------------------------------- */

#define SW_PI      3.14159265358979323846
#define SW_GRAVITY 9.80665 /* m/s2, standard gravity, ISO 80000-3 */

static inline double sw_mm_from_m(double m)
{
    return m * 1000.0;
}
static inline double sw_m_from_mm(double mm)
{
    return mm / 1000.0;
}
static inline double sw_m2_from_mm2(double mm2)
{
    return mm2 * 1e-6;
}
static inline double sw_m3_from_mm3(double mm3)
{
    return mm3 * 1e-9;
}
static inline double sw_mm2_from_m2(double m2)
{
    return m2 * 1e6;
}
static inline double sw_rad_from_deg(double deg)
{
    return deg * (SW_PI / 180.0);
}
static inline double sw_deg_from_rad(double rad)
{
    return rad * (180.0 / SW_PI);
}
static inline double sw_pa_from_bar(double bar)
{
    return bar * 1e5;
}
static inline double sw_k_from_c(double c)
{
    return c + 273.15;
}
static inline double sw_c_from_k(double k)
{
    return k - 273.15;
}
static inline double sw_kwh_from_j(double j)
{
    return j / 3.6e6;
}
static inline double sw_h_from_s(double s)
{
    return s / 3600.0;
}
static inline double sw_s_from_h(double h)
{
    return h * 3600.0;
}
static inline double sw_min_from_s(double s)
{
    return s / 60.0;
}
static inline double sw_s_from_min(double min)
{
    return min * 60.0;
}
static inline double sw_mm_s_from_m_min(double m_min)
{
    return m_min * (1000.0 / 60.0);
}
static inline double sw_m_min_from_mm_s(double mm_s)
{
    return mm_s * (60.0 / 1000.0);
}

/* ---- status ---------------------------------------------------------------------- */

/* One list makes the enum, the stable names (JSON), the texts and docs/errors.md:
 * name, stable name, what it means, what to do. */
#define SW_STATUS_LIST(X)                                                                                              \
    X(OK, "ok", "done", "")                                                                                            \
    X(BAD_INPUT, "bad_input", "the input is wrong", "mend the places named and run again")                             \
    X(OUT_OF_RANGE, "out_of_range", "a value is outside its range", "see the range in the message")                    \
    X(NO_SOLUTION, "no_solution", "no answer was found", "see what was tried in the message")                          \
    X(NO_MEMORY, "no_memory", "the memory limit is reached", "a smaller input, or --memory")                           \
    X(IO, "io", "a file could not be read or written", "see the path and reason in the message")                       \
    X(CANCELLED, "cancelled", "stopped on request", "")                                                                \
    X(INTERNAL, "internal", "a check inside the program failed", "please report it with the input")

typedef enum sw_status {
#define SW_STATUS_ENUM(name, stable, text, remedy) SW_##name,
    SW_STATUS_LIST(SW_STATUS_ENUM)
#undef SW_STATUS_ENUM
        SW_STATUS_COUNT
} sw_status;

const char *sw_status_name(sw_status status);   /* "out_of_range": stable, for JSON */
const char *sw_status_text(sw_status status);   /* one line for people */
const char *sw_status_remedy(sw_status status); /* what to do next; may be "" */

/* Passes a failed status on unchanged. Not in a function that holds an arena mark. */
#define SW_TRY(call)                                                                                                   \
    do {                                                                                                               \
        sw_status sw_try_status_ = (call);                                                                             \
        if (sw_try_status_ != SW_OK) return sw_try_status_;                                                            \
    } while (0)

/* A programmer's mistake. Active in every build. */
#define SW_ASSERT(condition)                                                                                           \
    do {                                                                                                               \
        if (!(condition)) sw_assert_failed(#condition, __FILE__, __LINE__);                                            \
    } while (0)
_Noreturn void sw_assert_failed(const char *condition, const char *file, int line);

/* ---- arenas ---------------------------------------------------------------------- */

/* Blocks of memory freed together. Not for two threads at once. */
typedef struct sw_arena sw_arena;

sw_arena *sw_arena_open(size_t ceiling_bytes);                   /* NULL when even the first block is refused */
void sw_arena_close(sw_arena *arena);                            /* NULL is allowed */
void *sw_arena_take(sw_arena *arena, size_t count, size_t size); /* zeroed, 16-byte aligned; NULL
                                                                    at the ceiling or overflow */
size_t sw_arena_mark(const sw_arena *arena);
void sw_arena_rewind(sw_arena *arena, size_t mark);
size_t sw_arena_bytes(const sw_arena *arena);       /* bytes handed out since open or rewind */
size_t sw_arena_takes(const sw_arena *arena);       /* how many requests so far */
void sw_arena_fail_at(sw_arena *arena, size_t nth); /* tests: refuse request number nth from now; 0 = never */

/* ---- the run: state of one call chain on one thread ------------------------------- */

typedef struct sw_place {
    const char *file; /* as the user named it; NULL = unknown */
    int line, column; /* 1-based; 0 = unknown */
} sw_place;

typedef struct sw_error {
    sw_status status;
    sw_place place;
    const char *field; /* dotted path "baffle.angle"; may be "" */
    const char *text;  /* one line: what is wrong, what was given, what is allowed, what to do */
} sw_error;

typedef struct sw_progress {
    const char *task;   /* "nesting 4 mm S235" */
    double done, total; /* in any unit; total 0 = unknown */
    const char *note;   /* "71.2 % of the sheet used"; may be "" */
} sw_progress;

enum { SW_ERROR_MAX = 200 }; /* further errors are counted, not kept */

typedef struct sw_run {
    sw_arena *keep;    /* answers; lives as long as the caller wants them */
    sw_arena *scratch; /* the way there */
    sw_error errors[SW_ERROR_MAX];
    size_t error_count;       /* may exceed SW_ERROR_MAX: the rest was not kept */
    const atomic_int *cancel; /* NULL or a flag set elsewhere: stop soon with what there is */
    void (*on_progress)(void *context, const sw_progress *progress); /* NULL = nobody listens */
    void *progress_context;
    int threads; /* for parallel loops; at least 1 */
} sw_run;

/* Opens both arenas with the ceiling and 1 thread. Returns SW_NO_MEMORY or SW_OK. */
sw_status sw_run_open(sw_run *run, size_t ceiling_bytes);
void sw_run_close(sw_run *run);
void sw_run_clear_errors(sw_run *run);
bool sw_run_cancelled(const sw_run *run);
void sw_run_progress(const sw_run *run, const char *task, double done, double total, const char *note);

/* Records an error and gives its status back, so that `return sw_fail(...)` reads well. The text is
 * copied into run->keep. A reader that wants all faults of a file calls it and goes on. */
sw_status sw_fail(sw_run *run, sw_status status, sw_place place, const char *field, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* count x size zeroed bytes of run->keep / run->scratch; on refusal records SW_NO_MEMORY, gives NULL. */
void *sw_keep(sw_run *run, size_t count, size_t size);
void *sw_scratch(sw_run *run, size_t count, size_t size);
#define SW_KEEP(run, count, type)    ((type *)sw_keep((run), (count), sizeof(type)))
#define SW_SCRATCH(run, count, type) ((type *)sw_scratch((run), (count), sizeof(type)))

/* Makes room for one more item in a growing array of the arena `from` (run->keep or run->scratch):
 * gives the (perhaps moved) array, or NULL with SW_NO_MEMORY recorded. *room is its capacity. */
void *sw_grow(sw_run *run, sw_arena *from, void *items, size_t count, size_t *room, size_t size);

/* ---- text ------------------------------------------------------------------------- */

const char *sw_text_copy(sw_run *run, sw_arena *into, const char *text); /* NULL on no memory */
const char *sw_text_format(sw_run *run, sw_arena *into, const char *format, ...)
    __attribute__((format(printf, 3, 4)));                    /* NULL on no memory */
int sw_text_distance(const char *a, const char *b);           /* edit distance, Levenshtein; capped at 99 */
bool sw_text_ends_with(const char *text, const char *ending); /* and is longer */
/* The name in names[count] nearest to `wrong`, or NULL if none is near enough to be meant. */
const char *sw_text_nearest(const char *wrong, const char *const *names, size_t count);
const char *sw_plural(size_t count); /* "s", or "" of one */
bool sw_text_is_utf8(const char *bytes, size_t length);
/* How many of the bytes stand in `most` without parting a character of UTF-8; for "%.*s" and the like. */
size_t sw_text_cut(const char *bytes, size_t length, size_t most);

/* ---- files ------------------------------------------------------------------------ */

/* Whole file into run->keep, NUL-terminated. SW_IO with path and reason; SW_OUT_OF_RANGE above limit. */
sw_status sw_file_read(sw_run *run, const char *path, size_t limit_bytes, const char **bytes, size_t *length);

/* The one way out. Text goes to memory or a file; the first failure sticks until close reports it. */
typedef struct sw_writer sw_writer;

sw_status sw_writer_to_memory(sw_run *run, sw_writer **writer);                 /* grows in scratch-free heap */
sw_status sw_writer_to_file(sw_run *run, const char *path, sw_writer **writer); /* path.part, renamed at close */
sw_status sw_writer_to_stream(sw_run *run, int descriptor, sw_writer **writer); /* 1 or 2 */
void sw_print(sw_writer *writer, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* A space and a number of a table, right in `width`, "-" when it is not finite; `decimals` below 0: so many digits. */
void sw_print_cell(sw_writer *writer, int width, int decimals, double value);
void sw_write(sw_writer *writer, const void *bytes, size_t length);
/* In place: room for up to `most` bytes, NULL after a failure; then how many of them were filled. */
char *sw_write_room(sw_writer *writer, size_t most);
void sw_wrote(sw_writer *writer, size_t length);
/* Flushes, renames, frees the writer. Any earlier failure comes out here as SW_IO and the part file is gone. */
sw_status sw_writer_close(sw_run *run, sw_writer *writer);
/* As close, for memory writers: the text, NUL-terminated, in run->keep. */
sw_status sw_writer_take(sw_run *run, sw_writer *writer, const char **text, size_t *length);
void sw_writer_abandon(sw_writer *writer); /* frees without writing; NULL is allowed */

/* ---- numbers ---------------------------------------------------------------------- */

enum { SW_MOST_DECIMALS = 15, SW_SCALED_ROOM = 32, SW_NUMBER_ROOM = 352 }; /* the largest double with all decimals */

/* Text of value x 10^-decimals: (-1500, 3) gives "-1.500". Each gives the length; no NUL at the end. */
size_t sw_number_scaled(char out[SW_SCALED_ROOM], int64_t value, int decimals);
/* As printf's %.*f to the last digit, but a value that rounds to nothing has no sign. Fast up to 2^53 / 10^decimals. */
size_t sw_number_fixed(char out[SW_NUMBER_ROOM], double value, int decimals);
size_t sw_number_trimmed(char out[SW_NUMBER_ROOM], double value,
                         int decimals); /* without zeros at the end: "12.5", "0" */
void sw_write_scaled(sw_writer *writer, int64_t value, int decimals);
void sw_write_fixed(sw_writer *writer, double value, int decimals);
void sw_write_trimmed(sw_writer *writer, double value, int decimals);
void sw_write_text(sw_writer *writer, const char *text);
/* The number at the start of text: sign, digits, at most one point; no exponent. Correctly rounded. Gives the bytes
 * taken, 0 when there is none or it has 64 or more. */
size_t sw_number_read(const char *text, size_t length, double *value);

/* ---- folders ---------------------------------------------------------------------- */

/* An output folder that appears whole or not at all: files go to a folder beside it, publish
 * renames. An existing folder of that name is replaced only if we made it (it holds our mark). */
typedef struct sw_folder {
    const char *path;    /* final, as the user named it */
    const char *working; /* where to write until publish */
} sw_folder;

sw_status sw_folder_open(sw_run *run, const char *path, sw_folder *folder); /* SW_IO: why, what to do */
sw_status sw_folder_open_new(sw_run *run, const char *path,
                             sw_folder *folder); /* as open, but refuses any folder that is there */
sw_status sw_folder_sub(sw_run *run, const sw_folder *folder, const char *name, const char **path);
sw_status sw_folder_publish(sw_run *run, sw_folder *folder);
void sw_folder_discard(sw_folder *folder); /* removes what was written; safe after publish */

/* ---- tables of text ---------------------------------------------------------------- */

typedef struct sw_csv { /* the first line names the columns; in run->keep */
    const char *file;
    char separator;     /* , ; or tab, as the first line shows; with ; and tab numbers may have a decimal comma */
    const char **names; /* [column_count] */
    size_t column_count, row_count;
    const char **cells; /* [row_count * column_count] */
    const int *lines;   /* [row_count] in the file */
} sw_csv;

/* SW_BAD_INPUT: every line with too few or too many cells, an open quote, bytes that are no text; blank lines are passed
 * over. file: as it shall stand in messages. */
sw_status sw_csv_read(sw_run *run, const char *file, const char *bytes, size_t length, sw_csv *csv);
size_t sw_csv_column(const sw_csv *csv, const char *name); /* SIZE_MAX = none */
/* A cell of text: quoted where it must be, quotes doubled (RFC 4180); nothing for NULL or "". Cells that begin with = + - @
 * are run by spreadsheets as formulas (OWASP, "CSV injection"; seen). An apostrophe before such a text makes it a text there,
 * one more before texts that have such an apostrophe themselves, so that sw_csv_as_it_was gives back what went out. */
void sw_csv_write_text(sw_writer *writer, const char *text);
const char *sw_csv_as_it_was(const char *cell);
const char *sw_csv_cell(const sw_csv *csv, size_t row, size_t column);
sw_place sw_csv_place(const sw_csv *csv, size_t row);
/* SW_BAD_INPUT with place and column; *value NAN then. */
sw_status sw_csv_number(sw_run *run, const sw_csv *csv, size_t row, size_t column, double low, double high,
                        double *value);

/* ---- option tables ---------------------------------------------------------------- */

/* One row an option: feeds defaults, range checks, --set style arguments, JSON and the manual. */
typedef struct sw_option {
    const char *name, *unit; /* "web_mm", "mm" */
    size_t offset;           /* of a double in the options struct */
    double fallback, low, high;
    const char *meaning, *source;
} sw_option;

#define SW_OPTION(type, field, unit, fallback, low, high, meaning, source)                                             \
    {                                                                                                                  \
#field, unit, offsetof(type, field), fallback, low, high, meaning, source                                      \
    }
#define SW_DEFAULTS_MARK 0x53746f76u /* made_by_defaults of a struct that came from ..._defaults() */

void sw_options_fill(const sw_option *table, size_t count, void *options);
/* SW_OUT_OF_RANGE names the option, its value and range (NaN is outside every range). */
sw_status sw_options_check(sw_run *run, const sw_option *table, size_t count, const void *options);
/* Sets from "name=value" the options of the table that have this name; *known becomes true when one has. SW_BAD_INPUT: no
 * number; SW_OUT_OF_RANGE names the range. */
sw_status sw_options_set(sw_run *run, const sw_option *table, size_t count, void *options, const char *setting,
                         bool *known);

/* ---- laws of chance: quantiles, NAN outside their range ---------------------------------- */

double sw_normal_share(double z);        /* below z standard deviations */
double sw_normal_quantile(double share); /* 0 < share < 1 */
double sw_chi_square_quantile(double share, double freedom);
double sw_student_t(double share, size_t freedom); /* 0.5 <= share < 1, freedom from 1 */

/* ---- small dense systems --------------------------------------------------------------- */

/* Factors a, n rows of `stride`, in place; pivot [n]. False: singular or not finite. */
bool sw_lu(double *a, size_t n, size_t stride, size_t *pivot);
void sw_lu_solve(const double *a, size_t n, size_t stride, const size_t *pivot, double *b); /* b becomes x */

/* ---- random numbers ---------------------------------------------------------------- */

typedef struct sw_random {
    uint64_t s[4];
} sw_random; /* xoshiro256**, Blackman & Vigna 2018 */

sw_random sw_random_seeded(uint64_t seed);
uint64_t sw_random_next(sw_random *random);
double sw_random_unit(sw_random *random); /* [0, 1) */
double sw_random_between(sw_random *random, double low, double high);
size_t sw_random_below(sw_random *random, size_t count); /* 0 .. count-1 */

/* ---- parallel loops ---------------------------------------------------------------- */

/* Calls body(context, i) for i = 0 .. count-1 on up to `threads` threads, in any order. The body
 * writes only to its own i; reductions are the caller's, in fixed order afterwards. */
void sw_parallel_for(int threads, size_t count, void (*body)(void *context, size_t i), void *context);

double sw_seconds(void); /* monotonic clock, s */

#endif
