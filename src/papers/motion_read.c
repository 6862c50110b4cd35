/* motion_read.c: a motion program back into beam-on paths, strictly and without knowing how we write them.
 *
 * Understood: words in any order and spacing, N numbers, comments in ( ) and after ;, lines of % alone, G0 G1 G2 G3 with
 * X Y I J, F, G4, G17, G20/G70 G21/G71, G40, G90 G91, G94, M2 and M30, and the laser's own lines as its description gives
 * them. Everything else is a fault with file and line; all faults are listed. Arc rule: start and end distances
 * from the centre agree within 0.002 mm (NIST RS274/NGC report, Kramer et al. 2000, from memory). */
#include "papers/papers.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { LONGEST_LINE = 256, MOST_CODES = 8 };
#define LARGEST_WORD  1e6 /* no coordinate or feed of a cutting table is larger (ours) */
#define ARC_AGREES_MM 0.002
#define MM_PER_INCH   25.4 /* exact by definition */

typedef enum beam_line { BEAM_ON, BEAM_OFF, ETCH_ON, ETCH_OFF, BEAM_LINES } beam_line;

typedef struct block { /* the words of one line */
    double value[26];  /* by letter */
    bool given[26];
    int g[MOST_CODES], m[MOST_CODES];
    int g_count, m_count;
} block;

typedef struct reader {
    sw_run *run;
    const sw_laser *laser;
    sw_place place;
    bool faulty, ended, last_is_end;
    bool beam, etching;
    char words[BEAM_LINES][LONGEST_LINE], last_word[LONGEST_LINE]; /* the laser's lines, as clean_line leaves them */
    double mm_per_unit;                                            /* 0 = not said yet */
    int absolute;                                                  /* -1 = not said yet */
    int motion;                                                    /* modal G0..G3, -1 = none yet */
    bool has_feed;
    sw_point at;
    sw_move *moves; /* of the pass begun, scratch */
    size_t move_count, move_room;
    sw_cut_pass *passes; /* keep */
    size_t pass_count, pass_room;
} reader;

#define fault(r, field, ...) ((r)->faulty = true, (void)sw_fail((r)->run, SW_BAD_INPUT, (r)->place, field, __VA_ARGS__))

/* ---- a line into clean text ---- */

/* Without blanks, comments and N word, in capitals. False with a reason when a comment is open, the line too long or a
 * byte no program has. */
static bool clean_line(const char *line, size_t length, char out[LONGEST_LINE], const char **why)
{
    size_t n = 0;
    bool comment = false;
    for (size_t i = 0; i < length && !(line[i] == ';' && !comment); i++) {
        char c = line[i];
        if (c == '(' || c == ')') {
            if (comment == (c == '(')) return *why = "a bracket of a comment has no partner", false;
            comment = c == '(';
            continue;
        }
        if (c < ' ' && c != '\t' && c != '\r') return *why = "a byte that is no text", false;
        if (comment || c == ' ' || c == '\t' || c == '\r') continue;
        if (n + 1 >= LONGEST_LINE) return *why = "the line is longer than 255 signs", false;
        out[n++] = c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : c;
    }
    out[n] = '\0';
    if (comment) return *why = "a comment is not closed", false;
    if (out[0] != 'N' || out[1] < '0' || out[1] > '9') return true;
    size_t digits = 1 + strspn(out + 1, "0123456789");
    memmove(out, out + digits, n - digits + 1);
    return true;
}

/* ---- words ---- */

/* Digits with at most one point. Copied out first: strtod alone would read G0X1 as a hexadecimal number. */
static bool number(const char **at, double *value)
{
    char digits[32] = "";
    const char *p = *at;
    if (*p == '+' || *p == '-') p++;
    size_t whole = strspn(p, "0123456789");
    p += whole;
    size_t part = *p == '.' ? strspn(p + 1, "0123456789") : 0;
    if (*p == '.') p += part + 1;
    size_t length = (size_t)(p - *at);
    if (whole + part == 0 || length >= sizeof digits) return false;
    memcpy(digits, *at, length);
    *value = strtod(digits, NULL);
    *at = p;
    return fabs(*value) <= LARGEST_WORD;
}

static bool add_code(int *codes, int *count, double value)
{
    if (value != floor(value) || value < 0 || *count >= MOST_CODES) return false;
    codes[(*count)++] = (int)value;
    return true;
}

static bool add_word(reader *r, block *b, char letter, double value)
{
    if (letter == 'G' || letter == 'M') {
        bool taken = letter == 'G' ? add_code(b->g, &b->g_count, value) : add_code(b->m, &b->m_count, value);
        if (!taken)
            fault(r, "motion", "%c%g is not understood; allowed are whole codes, at most %d a line", letter, value,
                  MOST_CODES);
        return taken;
    }
    if (b->given[letter - 'A']) {
        fault(r, "motion", "%c stands twice in one line; give it once", letter);
        return false;
    }
    b->given[letter - 'A'] = true;
    b->value[letter - 'A'] = value;
    return true;
}

static bool parse(reader *r, const char *text, block *b)
{
    *b = (block){0};
    for (const char *at = text; *at != '\0';) {
        char letter = *at;
        double value;
        if (letter < 'A' || letter > 'Z') {
            fault(r, "motion", "\"%.20s\" is no word; a word is a letter and a number", at);
            return false;
        }
        at++;
        if (!number(&at, &value)) {
            fault(r, "motion", "\"%c%.20s\" is no word; a word is a letter and a number up to %g", letter, at,
                  LARGEST_WORD);
            return false;
        }
        if (!add_word(r, b, letter, value)) return false;
    }
    return true;
}

static bool has(const block *b, char letter)
{
    return b->given[letter - 'A'];
}
static double word(const block *b, char letter)
{
    return b->value[letter - 'A'];
}

/* ---- moves ---- */

static sw_status add_move(reader *r, double bulge, sw_point to)
{
    sw_vertex from = {r->at.x_mm, r->at.y_mm, bulge};
    r->at = to;
    if (!r->beam) return SW_OK;
    sw_move *moves = sw_grow(r->run, r->run->scratch, r->moves, r->move_count, &r->move_room, sizeof *moves);
    if (moves == NULL) return SW_NO_MEMORY;
    r->moves = moves;
    r->moves[r->move_count++] = (sw_move){r->etching ? SW_MOVE_ETCH : SW_MOVE_CUT, from, to};
    return SW_OK;
}

static double coordinate(const reader *r, const block *b, char letter, double now_mm)
{
    if (!has(b, letter)) return now_mm;
    double mm = word(b, letter) * r->mm_per_unit;
    return r->absolute == 1 ? mm : now_mm + mm;
}

/* Arcs beyond half a circle become two. */
static sw_status add_arc(reader *r, sw_point centre, sw_point to, double sweep_rad)
{
    if (fabs(sweep_rad) <= SW_PI * (1 + SW_SAME_POINT_MM)) return add_move(r, tan(sweep_rad / 4), to);
    double dx = r->at.x_mm - centre.x_mm, dy = r->at.y_mm - centre.y_mm, half = sweep_rad / 2;
    sw_point middle = {centre.x_mm + dx * cos(half) - dy * sin(half), centre.y_mm + dx * sin(half) + dy * cos(half)};
    SW_TRY(add_move(r, tan(half / 4), middle));
    return add_move(r, tan(half / 4), to);
}

static sw_status arc(reader *r, const block *b, sw_point to)
{
    if (!has(b, 'I') && !has(b, 'J')) {
        fault(r, "motion", "an arc has no I and J; give its centre from its start");
        return SW_OK;
    }
    double i_mm = word(b, 'I') * r->mm_per_unit, j_mm = word(b, 'J') * r->mm_per_unit;
    sw_point centre = {r->at.x_mm + i_mm, r->at.y_mm + j_mm};
    double start_mm = hypot(i_mm, j_mm), end_mm = hypot(to.x_mm - centre.x_mm, to.y_mm - centre.y_mm);
    if (!(fabs(start_mm - end_mm) <= ARC_AGREES_MM + SW_SAME_POINT_MM) || start_mm < SW_SHORTEST_MM) {
        fault(
            r, "motion",
            "an arc starts %.4f mm from its centre and ends %.4f mm from it; these must agree within %g mm and be above %g mm",
            start_mm, end_mm, ARC_AGREES_MM, SW_SHORTEST_MM);
        return SW_OK;
    }
    double sweep_rad = atan2(to.y_mm - centre.y_mm, to.x_mm - centre.x_mm) - atan2(-j_mm, -i_mm);
    sweep_rad -= floor(sweep_rad / (2 * SW_PI)) * 2 * SW_PI; /* 0 .. 2 pi */
    bool same = hypot(to.x_mm - r->at.x_mm, to.y_mm - r->at.y_mm) < SW_SAME_POINT_MM;
    if (r->motion == 2) sweep_rad -= 2 * SW_PI;
    if (same) sweep_rad = r->motion == 2 ? -2 * SW_PI : 2 * SW_PI;
    return add_arc(r, centre, to, sweep_rad);
}

static bool may_move(reader *r, const block *b)
{
    if (r->motion < 0)
        fault(r, "motion", "coordinates come before any of G0 G1 G2 G3; say which move");
    else if (r->mm_per_unit <= 0)
        fault(r, "motion", "a move comes before G21 or G20; say mm or inch first");
    else if (r->absolute < 0)
        fault(r, "motion", "a move comes before G90 or G91; say absolute or incremental first");
    else if (r->motion == 0 && r->beam)
        fault(r, "motion", "a rapid with the beam on; switch it off first");
    else if (r->motion > 0 && !r->has_feed)
        fault(r, "motion", "a move at feed comes before any F; give the feed");
    else if (r->motion < 2 && (has(b, 'I') || has(b, 'J')))
        fault(r, "motion", "I or J on a straight move; they belong to G2 and G3");
    else
        return true;
    return false;
}

static sw_status move(reader *r, const block *b)
{
    if (!may_move(r, b)) return SW_OK;
    sw_point to = {coordinate(r, b, 'X', r->at.x_mm), coordinate(r, b, 'Y', r->at.y_mm)};
    if (r->motion >= 2) return arc(r, b, to);
    if (to.x_mm == r->at.x_mm && to.y_mm == r->at.y_mm) return SW_OK;
    return add_move(r, 0, to);
}

/* ---- codes ---- */

/* laser_line: the laser's own line may say more than we understand. */
static void g_code(reader *r, int code, bool laser_line)
{
    switch (code) {
    case 0:
    case 1:
    case 2:
    case 3:
        r->motion = code;
        return;
    case 20:
    case 70:
        r->mm_per_unit = MM_PER_INCH;
        return;
    case 21:
    case 71:
        r->mm_per_unit = 1;
        return;
    case 90:
        r->absolute = 1;
        return;
    case 91:
        r->absolute = 0;
        return;
    case 4:
    case 17:
    case 40:
    case 94:
        return;
    default:
        if (!laser_line)
            fault(r, "motion", "G%d is not understood; known are G0 to G4, G17, G20, G21, G40, G70, G71, G90, G91, G94",
                  code);
    }
}

static void m_code(reader *r, int code, bool laser_line)
{
    if (code == 2 || code == 30)
        r->ended = true;
    else if (!laser_line)
        fault(r, "motion", "M%d is not one of the laser's words; known are its beam and etch lines, M2 and M30", code);
}

static void check_letters(reader *r, const block *b)
{
    for (int letter = 'A'; letter <= 'Z'; letter++)
        if (has(b, (char)letter) && strchr("XYIJFP", letter) == NULL) {
            fault(r, "motion", "%c is not understood here; known are G M X Y I J F P N", letter);
            return;
        }
}

static bool dwells(const block *b)
{
    for (int i = 0; i < b->g_count; i++)
        if (b->g[i] == 4) return true;
    return false;
}

static sw_status run_block(reader *r, const block *b, bool laser_line)
{
    if (!laser_line) check_letters(r, b);
    for (int i = 0; i < b->g_count; i++) g_code(r, b->g[i], laser_line);
    for (int i = 0; i < b->m_count; i++) m_code(r, b->m[i], laser_line);
    if (has(b, 'F') && !laser_line) {
        if (!(word(b, 'F') > 0)) fault(r, "motion", "a feed of %g; give one above 0", word(b, 'F'));
        r->has_feed = true;
    }
    bool moves = has(b, 'X') || has(b, 'Y') || has(b, 'I') || has(b, 'J');
    return moves && !dwells(b) ? move(r, b) : SW_OK;
}

/* ---- the beam ---- */

static void beam_on(reader *r, bool etching)
{
    if (r->beam) fault(r, "motion", "the beam is switched on but it is on already");
    r->beam = true;
    r->etching = etching;
    r->move_count = 0;
}

static sw_status beam_off(reader *r, bool etching)
{
    if (!r->beam) return SW_OK; /* harmless, and usual at a program's start */
    if (etching != r->etching) fault(r, "motion", "the beam is switched off by the other kind's word");
    r->beam = false;
    if (r->move_count == 0) {
        fault(r, "motion", "the beam is switched on and off without a move");
        return SW_OK;
    }
    sw_move *moves = SW_KEEP(r->run, r->move_count, sw_move);
    sw_cut_pass *passes = sw_grow(r->run, r->run->keep, r->passes, r->pass_count, &r->pass_room, sizeof *passes);
    if (moves == NULL || passes == NULL) return SW_NO_MEMORY;
    memcpy(moves, r->moves, r->move_count * sizeof *moves);
    r->passes = passes;
    sw_point start = {moves[0].from.x_mm, moves[0].from.y_mm};
    r->passes[r->pass_count++] =
        (sw_cut_pass){.moves = moves, .move_count = r->move_count, .start = start, .contour = -1};
    return SW_OK;
}

static sw_status beam_words(reader *r, beam_line line)
{
    if (line == BEAM_ON || line == ETCH_ON) {
        beam_on(r, line == ETCH_ON);
        return SW_OK;
    }
    return beam_off(r, line == ETCH_OFF);
}

/* The etch's off word may be the cut's: then it switches off what is on. */
static int beam_line_of(const reader *r, const char *text)
{
    bool off_is_shared = strcmp(r->words[BEAM_OFF], r->words[ETCH_OFF]) == 0;
    for (int k = 0; k < BEAM_LINES; k++) {
        if (r->words[k][0] == '\0' || strcmp(text, r->words[k]) != 0) continue;
        return k == BEAM_OFF && off_is_shared && r->etching ? ETCH_OFF : k;
    }
    return -1;
}

/* ---- lines ---- */

/* Whether the text is one of the lines, cleaned the same way. */
static bool among(const char *lines, const char *text)
{
    char clean[LONGEST_LINE];
    const char *why;
    while (*lines != '\0') {
        size_t length = strcspn(lines, "\n");
        if (clean_line(lines, length, clean, &why) && strcmp(clean, text) == 0) return true;
        lines += length + (lines[length] == '\n' ? 1 : 0);
    }
    return false;
}

static sw_status laser_line(reader *r, const char *text)
{
    block b = {0};
    size_t errors = r->run->error_count;
    bool faulty = r->faulty;
    if (parse(r, text, &b)) return run_block(r, &b, true);
    r->run->error_count = errors; /* what the laser's own lines say is the works' business */
    r->faulty = faulty;
    return SW_OK;
}

static sw_status read_line(reader *r, const char *line, size_t length)
{
    char text[LONGEST_LINE];
    const char *why = "";
    block b;
    if (!clean_line(line, length, text, &why)) {
        fault(r, "motion", "%s; mend the line", why);
        return SW_OK;
    }
    if (text[0] == '\0' || strcmp(text, "%") == 0) return SW_OK;
    bool own = among(r->laser->program_start, text) || among(r->laser->program_end, text);
    r->last_is_end = strcmp(text, r->last_word) == 0;
    if (r->ended && !own) fault(r, "motion", "words come after the program's end; take them out");
    int beam = beam_line_of(r, text);
    if (beam >= 0) return beam_words(r, (beam_line)beam);
    if (own) return laser_line(r, text);
    return parse(r, text, &b) ? run_block(r, &b, false) : SW_OK;
}

static sw_status read_lines(reader *r, const char *bytes, size_t length)
{
    for (size_t at = 0; at < length;) {
        const char *end = memchr(bytes + at, '\n', length - at);
        size_t size = end == NULL ? length - at : (size_t)(end - bytes) - at;
        r->place.line++;
        SW_TRY(read_line(r, bytes + at, size));
        at += size + 1;
    }
    if (r->beam) fault(r, "motion", "the program ends with the beam on; it was cut short");
    if (r->last_word[0] != '\0' && !r->last_is_end)
        fault(r, "motion", "the last line is not the program's end \"%s\"; it was cut short", r->last_word);
    return SW_OK;
}

/* ---- the laser's words ---- */

static void clean_word(reader *r, const char *text, char out[LONGEST_LINE])
{
    const char *why = "";
    if (clean_line(text, strcspn(text, "\n"), out, &why)) return;
    out[0] = '\0';
    fault(r, "laser.program", "the laser's line \"%.40s\" cannot be read back: %s", text, why);
}

static void clean_last_line(reader *r, const char *lines)
{
    char clean[LONGEST_LINE];
    while (*lines != '\0') {
        size_t length = strcspn(lines, "\n");
        clean_word(r, lines, clean);
        if (clean[0] != '\0' && strcmp(clean, "%") != 0) memcpy(r->last_word, clean, sizeof clean);
        lines += length + (lines[length] == '\n' ? 1 : 0);
    }
}

static void take_words(reader *r)
{
    clean_word(r, r->laser->beam_on, r->words[BEAM_ON]);
    clean_word(r, r->laser->beam_off, r->words[BEAM_OFF]);
    clean_word(r, r->laser->etch_on, r->words[ETCH_ON]);
    clean_word(r, r->laser->etch_off, r->words[ETCH_OFF]);
    clean_last_line(r, r->laser->program_end);
    if (strcmp(r->words[BEAM_ON], r->words[ETCH_ON]) == 0)
        fault(r, "laser.program",
              "beam_on and etch_on are the same line \"%s\"; a program cannot be read back: give two lines",
              r->words[BEAM_ON]);
}

static sw_status read_program(reader *r, const char *bytes, size_t length)
{
    take_words(r);
    if (!r->faulty) SW_TRY(read_lines(r, bytes, length));
    return r->faulty ? SW_BAD_INPUT : SW_OK;
}

sw_status sw_motion_read(sw_run *run, const char *file, const char *bytes, size_t length, const sw_laser *laser,
                         const sw_cut_pass **passes, size_t *count)
{
    size_t mark = sw_arena_mark(run->scratch);
    reader r = {.run = run, .laser = laser, .place = {.file = file}, .absolute = -1, .motion = -1};
    *passes = NULL;
    *count = 0;
    sw_status status = read_program(&r, bytes, length);
    sw_arena_rewind(run->scratch, mark);
    if (status != SW_OK) return status;
    *passes = r.passes;
    *count = r.pass_count;
    return SW_OK;
}
