/* motion_read.c: a motion program back into beam-on paths, strictly and without knowing how we write them.
 *
 * Understood: words in any order and spacing, N numbers, comments in ( ) and after ;, lines of % alone, G0 G1 G2 G3 with
 * X Y I J, F, G4, G17, G20/G70 G21/G71, G40, G90 G91, G94, M2 and M30, and the laser's own lines as its description gives
 * them. Everything else is a fault with file and line; all faults are listed. Arc rule: start and end distances
 * from the centre agree within 0.002 mm (NIST RS274/NGC report, Kramer et al. 2000, from memory). */
#include "papers/motion_parts.h"

#include <math.h>
#include <string.h>

#define ARC_AGREES_MM 0.002
#define MM_PER_INCH   25.4 /* exact by definition */
#define LONGEST_BULGE 1.2  /* arcs beyond some 200 degrees become two (ours) */

typedef enum beam_line { BEAM_ON, BEAM_OFF, ETCH_ON, ETCH_OFF, BEAM_LINES } beam_line;

typedef struct reader {
    sw_run *run;
    const sw_laser *laser;
    sw_place place;
    bool faulty, ended, last_is_end;
    bool beam, etching;
    motion_line words[BEAM_LINES], last_word; /* the laser's lines; empty = none */
    motion_line *own;                         /* those of its program's start and end, scratch */
    size_t own_count, own_room;
    uint32_t lengths;   /* bits: the laser's lines have such lengths, 31 = that or more */
    double mm_per_unit; /* 0 = not said yet */
    int absolute;       /* -1 = not said yet */
    int motion;         /* modal G0..G3, -1 = none yet */
    bool has_feed;
    sw_point at;
    sw_move *moves; /* of the pass begun, scratch */
    size_t move_count, move_room;
    sw_cut_pass *passes; /* keep */
    size_t pass_count, pass_room;
} reader;

#define fault(r, field, ...) ((r)->faulty = true, (void)sw_fail((r)->run, SW_BAD_INPUT, (r)->place, field, __VA_ARGS__))

static double length_of(double x_mm, double y_mm)
{
    return sqrt(x_mm * x_mm + y_mm * y_mm);
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

static double coordinate(const reader *r, const motion_block *b, char letter, double now_mm)
{
    if (!motion_has(b, letter)) return now_mm;
    double mm = motion_word(b, letter) * r->mm_per_unit;
    return r->absolute == 1 ? mm : now_mm + mm;
}

static sw_status add_halves(reader *r, double half_bulge, sw_point middle, sw_point to)
{
    SW_TRY(add_move(r, half_bulge, middle));
    return add_move(r, half_bulge, to);
}

/* The middle of an arc lies bulge / 2 chords to its right; tan(a/2) = tan a / (1 + sqrt(1 + tan2 a)). */
static sw_status add_arc(reader *r, double bulge, sw_point to)
{
    if (fabs(bulge) <= LONGEST_BULGE) return add_move(r, bulge, to);
    double dx = to.x_mm - r->at.x_mm, dy = to.y_mm - r->at.y_mm;
    sw_point middle = {(r->at.x_mm + to.x_mm + dy * bulge) / 2, (r->at.y_mm + to.y_mm - dx * bulge) / 2};
    return add_halves(r, bulge / (1 + sqrt(1 + bulge * bulge)), middle, to);
}

/* Of the arc to the left (counter-clockwise) about the centre, which lies high_mm left of the chord's middle: the arc's
 * rise over half the chord. Rise (r - high), or c2/4 / (r + high), which is the same without cancelling. */
static double bulge_about(double high_mm, double chord_mm)
{
    double half_mm = chord_mm / 2, radius_mm = length_of(high_mm, half_mm);
    return high_mm > 0 ? half_mm / (radius_mm + high_mm) : (radius_mm - high_mm) / half_mm;
}

static bool centre_agrees(reader *r, double start_mm, double end_mm)
{
    if (fabs(start_mm - end_mm) <= ARC_AGREES_MM + SW_SAME_POINT_MM && start_mm >= SW_SHORTEST_MM) return true;
    fault(
        r, "motion",
        "an arc starts %.4f mm from its centre and ends %.4f mm from it; these must agree within %g mm and be above %g mm",
        start_mm, end_mm, ARC_AGREES_MM, SW_SHORTEST_MM);
    return false;
}

static sw_status arc(reader *r, const motion_block *b, sw_point to)
{
    if (!motion_has(b, 'I') && !motion_has(b, 'J')) {
        fault(r, "motion", "an arc has no I and J; give its centre from its start");
        return SW_OK;
    }
    double i_mm = motion_word(b, 'I') * r->mm_per_unit, j_mm = motion_word(b, 'J') * r->mm_per_unit;
    double dx = to.x_mm - r->at.x_mm, dy = to.y_mm - r->at.y_mm, chord_mm = length_of(dx, dy);
    double way = r->motion == 3 ? 1 : -1;
    if (!centre_agrees(r, length_of(i_mm, j_mm), length_of(dx - i_mm, dy - j_mm))) return SW_OK;
    if (chord_mm < SW_SAME_POINT_MM)
        return add_halves(r, way, (sw_point){r->at.x_mm + 2 * i_mm, r->at.y_mm + 2 * j_mm}, to);
    return add_arc(r, way * bulge_about(way * (j_mm * dx - i_mm * dy) / chord_mm, chord_mm), to);
}

static bool may_move(reader *r, const motion_block *b)
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
    else if (r->motion < 2 && (motion_has(b, 'I') || motion_has(b, 'J')))
        fault(r, "motion", "I or J on a straight move; they belong to G2 and G3");
    else
        return true;
    return false;
}

static sw_status move(reader *r, const motion_block *b)
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

static void check_letters(reader *r, const motion_block *b)
{
    const uint32_t known = 1u << ('X' - 'A') | 1u << ('Y' - 'A') | 1u << ('I' - 'A') | 1u << ('J' - 'A') |
                           1u << ('F' - 'A') | 1u << ('P' - 'A');
    char letter = 'A';
    if ((b->given & ~known) == 0) return;
    while (!motion_has(b, letter) || (known >> (letter - 'A') & 1u) != 0) letter++;
    fault(r, "motion", "%c is not understood here; known are G M X Y I J F P N", letter);
}

static bool dwells(const motion_block *b)
{
    for (int i = 0; i < b->g_count; i++)
        if (b->g[i] == 4) return true;
    return false;
}

static sw_status run_block(reader *r, const motion_block *b, bool laser_line)
{
    if (!laser_line) check_letters(r, b);
    for (int i = 0; i < b->g_count; i++) g_code(r, b->g[i], laser_line);
    for (int i = 0; i < b->m_count; i++) m_code(r, b->m[i], laser_line);
    if (motion_has(b, 'F') && !laser_line) {
        if (!(motion_word(b, 'F') > 0)) fault(r, "motion", "a feed of %g; give one above 0", motion_word(b, 'F'));
        r->has_feed = true;
    }
    bool moves = motion_has(b, 'X') || motion_has(b, 'Y') || motion_has(b, 'I') || motion_has(b, 'J');
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
static int beam_line_of(const reader *r, const motion_line *line)
{
    for (int k = 0; k < BEAM_LINES; k++) {
        if (r->words[k].length == 0 || !motion_same(line, &r->words[k])) continue;
        bool shared = k == BEAM_OFF && motion_same(&r->words[BEAM_OFF], &r->words[ETCH_OFF]);
        return shared && r->etching ? ETCH_OFF : k;
    }
    return -1;
}

/* ---- lines ---- */

static uint32_t length_bit(size_t signs)
{
    return 1u << (signs < 31 ? signs : 31);
}

static bool is_own(const reader *r, const motion_line *line)
{
    for (size_t i = 0; i < r->own_count; i++)
        if (motion_same(line, &r->own[i])) return true;
    return false;
}

static sw_status own_line(reader *r, const motion_line *line)
{
    motion_block b;
    size_t errors = r->run->error_count;
    bool faulty = r->faulty;
    if (motion_words(r->run, r->place, line, &b)) return run_block(r, &b, true);
    r->run->error_count = errors; /* what the laser's own lines say is the works' business */
    r->faulty = faulty;
    return SW_OK;
}

static sw_status words_line(reader *r, const motion_line *line)
{
    motion_block b;
    if (motion_words(r->run, r->place, line, &b)) return run_block(r, &b, false);
    r->faulty = true;
    return SW_OK;
}

static bool says_nothing(const motion_line *line)
{
    return line->length == 0 || (line->length == 1 && line->text[0] == '%');
}

static void check_end(reader *r)
{
    if (r->ended) fault(r, "motion", "words come after the program's end; take them out");
}

static sw_status read_any_line(reader *r, const char *bytes, size_t length)
{
    motion_line line;
    const char *why = "";
    if (!motion_clean(bytes, length, &line, &why)) {
        fault(r, "motion", "%s; mend the line", why);
        return SW_OK;
    }
    if (says_nothing(&line)) return SW_OK;
    bool may_be_laser_s = (r->lengths & length_bit(line.length)) != 0;
    bool own = may_be_laser_s && is_own(r, &line);
    r->last_is_end = may_be_laser_s && motion_same(&line, &r->last_word);
    if (!own) check_end(r);
    int beam = may_be_laser_s ? beam_line_of(r, &line) : -1;
    if (beam >= 0) return beam_words(r, (beam_line)beam);
    return own ? own_line(r, &line) : words_line(r, &line);
}

/* Most lines are plain words, and not as long as any of the laser's own. */
static sw_status read_line(reader *r, const char *bytes, size_t length)
{
    motion_block plain;
    size_t signs = 0;
    if (!motion_plain(bytes, length, &plain, &signs) || (r->lengths & length_bit(signs)) != 0)
        return read_any_line(r, bytes, length);
    r->last_is_end = false;
    check_end(r);
    return run_block(r, &plain, false);
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
    if (r->last_word.length > 0 && !r->last_is_end)
        fault(r, "motion", "the last line is not the program's end \"%s\"; it was cut short", r->last_word.text);
    return SW_OK;
}

/* ---- the laser's words ---- */

static void clean_word(reader *r, const char *text, motion_line *out)
{
    const char *why = "";
    if (motion_clean(text, strcspn(text, "\n"), out, &why)) return;
    *out = (motion_line){0};
    fault(r, "laser.program", "the laser's line \"%.40s\" cannot be read back: %s", text, why);
}

/* Of the program's start or end: remembered as the laser's own, the last of them as `last`. */
static sw_status take_lines(reader *r, const char *lines, motion_line *last)
{
    while (*lines != '\0') {
        motion_line *own = sw_grow(r->run, r->run->scratch, r->own, r->own_count, &r->own_room, sizeof *own);
        if (own == NULL) return SW_NO_MEMORY;
        r->own = own;
        clean_word(r, lines, &own[r->own_count]);
        if (!says_nothing(&own[r->own_count])) *last = own[r->own_count];
        r->own_count++;
        lines += strcspn(lines, "\n");
        lines += *lines == '\n' ? 1 : 0;
    }
    return SW_OK;
}

static sw_status take_words(reader *r)
{
    motion_line first = {0};
    clean_word(r, r->laser->beam_on, &r->words[BEAM_ON]);
    clean_word(r, r->laser->beam_off, &r->words[BEAM_OFF]);
    clean_word(r, r->laser->etch_on, &r->words[ETCH_ON]);
    clean_word(r, r->laser->etch_off, &r->words[ETCH_OFF]);
    if (motion_same(&r->words[BEAM_ON], &r->words[ETCH_ON]))
        fault(r, "laser.program",
              "beam_on and etch_on are the same line \"%s\"; a program cannot be read back: give two lines",
              r->words[BEAM_ON].text);
    SW_TRY(take_lines(r, r->laser->program_start, &first));
    SW_TRY(take_lines(r, r->laser->program_end, &r->last_word));
    for (int k = 0; k < BEAM_LINES; k++) r->lengths |= length_bit(r->words[k].length);
    for (size_t i = 0; i < r->own_count; i++) r->lengths |= length_bit(r->own[i].length);
    return SW_OK;
}

static sw_status read_program(reader *r, const char *bytes, size_t length)
{
    SW_TRY(take_words(r));
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
