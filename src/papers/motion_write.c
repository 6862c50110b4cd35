/* motion_write.c: the program of one sheet in ISO 6983 words.
 *
 * G0 to the pierce, the laser's beam word, G1/G2/G3 along the pass, the beam word off; the laser's own lines around it.
 * Coordinates are absolute mm with 3 decimals, I and J from the arc's start, F in mm/min where it changes. Arcs are at
 * most half circles. Source: ISO 6983-1; NIST RS274/NGC report, Kramer et al. 2000 (from memory): the distances of an
 * arc's start and end from its centre agree within 0.002 mm. */
#include "papers/bytes_parts.h"
#include "papers/papers.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { GRID_PER_MM = 1000, DECIMALS = 3 }; /* steps of the third decimal */
enum { MOST_CHORDS = 10000 };

typedef struct grid {
    long x, y;
} grid; /* thousandths of a millimetre */

typedef struct program {
    sw_writer *out;
    grid at;
    double feed_mm_s; /* last F written, 0 = none yet */
} program;

static long step_of(double mm)
{
    double steps = mm * GRID_PER_MM;
    return (long)(steps < 0 ? steps - 0.5 : steps + 0.5);
}

static grid grid_of(double x_mm, double y_mm)
{
    return (grid){step_of(x_mm), step_of(y_mm)};
}

static sw_point point_of(grid g)
{
    return (sw_point){(double)g.x / GRID_PER_MM, (double)g.y / GRID_PER_MM};
}

static double length_of(double x_mm, double y_mm)
{
    return sqrt(x_mm * x_mm + y_mm * y_mm);
}

/* ---- lines, put together in place ---- */

enum { LINE_ROOM = 512 }; /* a word, four numbers of at most 32 signs with their letters, and a feed of at most 352 */

static char *number_at(char *at, const char letter[2], long value)
{
    memcpy(at, letter, 2);
    return at + 2 + bytes_thousandths(at + 2, value);
}

static char *position_at(char *at, const char word[2], grid to)
{
    memcpy(at, word, 2);
    return number_at(number_at(at + 2, " X", to.x), " Y", to.y);
}

/* F where it changes, and the line's end. */
static void end_line(program *p, const char *start, char *at, double feed_mm_s)
{
    if (feed_mm_s != p->feed_mm_s) {
        memcpy(at, " F", 2);
        at += 2 + sw_number_trimmed(at + 2, sw_mm_from_m(sw_m_min_from_mm_s(feed_mm_s)), DECIMALS);
        p->feed_mm_s = feed_mm_s;
    }
    *at++ = '\n';
    sw_wrote(p->out, (size_t)(at - start));
}

static void put_straight(program *p, const char word[2], grid to, double feed_mm_s)
{
    if (to.x == p->at.x && to.y == p->at.y) return;
    p->at = to;
    char *start = sw_write_room(p->out, LINE_ROOM);
    if (start != NULL) end_line(p, start, position_at(start, word, to), feed_mm_s);
}

static void rapid(program *p, sw_point to)
{
    put_straight(p, "G0", grid_of(to.x_mm, to.y_mm), p->feed_mm_s);
}

static void straight(program *p, grid to, double feed_mm_s)
{
    put_straight(p, "G1", to, feed_mm_s);
}

static void put_arc(program *p, grid to, grid centre, double bulge, double feed_mm_s)
{
    grid from = p->at;
    p->at = to;
    char *start = sw_write_room(p->out, LINE_ROOM);
    if (start == NULL) return;
    char *at = position_at(start, bulge > 0 ? "G3" : "G2", to);
    at = number_at(number_at(at, " I", centre.x - from.x), " J", centre.y - from.y);
    end_line(p, start, at, feed_mm_s);
}

/* ---- arcs: a chord, and a circle about a centre on the grid ---- */

typedef struct chord {
    sw_point middle, along; /* mm; unit vector from start to end */
    double half_mm, way;    /* way: 1 counter-clockwise, -1 clockwise */
} chord;

typedef struct curve { /* the arc of the chord that a control makes of a centre */
    double high_mm;    /* the centre is this far from the chord, positive on the side away from the arc */
    double radius_mm, rise_mm;
    double differ_mm; /* start and end distances from the centre differ by this */
} curve;

static chord chord_of(sw_point from, sw_point to, double bulge)
{
    double dx = to.x_mm - from.x_mm, dy = to.y_mm - from.y_mm, length_mm = length_of(dx, dy);
    sw_point middle = {(from.x_mm + to.x_mm) / 2, (from.y_mm + to.y_mm) / 2};
    return (chord){middle, {dx / length_mm, dy / length_mm}, length_mm / 2, bulge > 0 ? 1 : -1};
}

static sw_point beside(const chord *c, double high_mm)
{
    double left_mm = c->way * high_mm;
    return (sw_point){c->middle.x_mm - left_mm * c->along.y_mm, c->middle.y_mm + left_mm * c->along.x_mm};
}

/* Centre and radius of the arc with this bulge: rise b c/2, radius (1 + b2) c / 4b. */
static curve wanted_curve(const chord *c, double bulge)
{
    double b = fabs(bulge), half_mm = c->half_mm;
    return (curve){half_mm * (1 - b * b) / (2 * b), half_mm * (1 + b * b) / (2 * b), half_mm * b, 0};
}

/* The rise r - high is half2 / (r + high), which loses no digits in flat arcs. */
static curve curve_about(const chord *c, sw_point centre)
{
    double x_mm = centre.x_mm - c->middle.x_mm, y_mm = centre.y_mm - c->middle.y_mm, half_mm = c->half_mm;
    double high_mm = c->way * (c->along.x_mm * y_mm - c->along.y_mm * x_mm), radius_mm = length_of(high_mm, half_mm);
    double rise_mm = high_mm > 0 ? half_mm * half_mm / (radius_mm + high_mm) : radius_mm - high_mm;
    double off_mm = fabs(c->along.x_mm * x_mm + c->along.y_mm * y_mm);
    return (curve){high_mm, radius_mm, rise_mm, 2 * half_mm * off_mm / radius_mm};
}

/* The grid point at or beside the centre that serves best: at most 1.5 steps away, so that start and end distances
 * differ by at most 1.5 steps too. Judged by how far the arc's middle is off, and half of what the distances differ. */
static grid centre_on_grid(const chord *c, const curve *wanted)
{
    sw_point centre = beside(c, wanted->high_mm);
    grid near = grid_of(centre.x_mm, centre.y_mm), best = near;
    double least_mm = INFINITY;
    for (long dx = -1; dx <= 1; dx++)
        for (long dy = -1; dy <= 1; dy++) {
            grid tried = {near.x + dx, near.y + dy};
            curve made = curve_about(c, point_of(tried));
            double fault_mm = fabs(made.rise_mm - wanted->rise_mm) + made.differ_mm / 2;
            if (fault_mm >= least_mm) continue;
            least_mm = fault_mm;
            best = tried;
        }
    return best;
}

/* Point of the arc at share -1 .. 1 from its middle: q = tan of half the angle from there, so that no angle is needed. */
static sw_point curve_point(const chord *c, const curve *made, double share)
{
    double q = share * made->rise_mm / c->half_mm, whole_mm = made->radius_mm / (1 + q * q);
    double up_mm = whole_mm * (1 - q * q), on_mm = whole_mm * 2 * q;
    sw_point p = beside(c, made->high_mm - up_mm);
    return (sw_point){p.x_mm + on_mm * c->along.x_mm, p.y_mm + on_mm * c->along.y_mm};
}

/* Whether the arc as it will be read keeps to the circle of the true one: its points are off by no more than the
 * centres and radii differ together; only where that is too much they are looked at. */
static bool keeps_to(const sw_move *arc, const chord *c, const curve *made, double most_off_mm)
{
    chord true_chord = chord_of((sw_point){arc->from.x_mm, arc->from.y_mm}, arc->to, arc->from.bulge);
    curve wanted = wanted_curve(&true_chord, arc->from.bulge);
    sw_point centre = beside(&true_chord, wanted.high_mm), moved = beside(c, made->high_mm);
    double centres_mm = length_of(moved.x_mm - centre.x_mm, moved.y_mm - centre.y_mm);
    if (centres_mm + fabs(made->radius_mm - wanted.radius_mm) <= most_off_mm) return true;
    for (int k = -4; k <= 4; k++) {
        sw_point p = curve_point(c, made, k / 4.0);
        double radius_mm = length_of(p.x_mm - centre.x_mm, p.y_mm - centre.y_mm);
        if (fabs(radius_mm - wanted.radius_mm) > most_off_mm) return false;
    }
    return true;
}

/* Controls bound I and J: arcs flatter than this radius go as chords within half the last decimal. */
static const double flattest_radius_mm = 1e5; /* ours */

static bool chords(program *p, const sw_move *arc, double feed_mm_s)
{
    double b = fabs(arc->from.bulge);
    double chord_mm = length_of(arc->to.x_mm - arc->from.x_mm, arc->to.y_mm - arc->from.y_mm);
    if (chord_mm * (1 + b * b) < flattest_radius_mm * 4 * b) return false;
    double count = ceil(sqrt(b * chord_mm * GRID_PER_MM)); /* sagitta b c/2, a part has 1/n2 of it */
    for (int k = 1; k <= count; k++) {
        sw_point to = sw_segment_point(arc->from, arc->to, (double)k / count);
        straight(p, grid_of(to.x_mm, to.y_mm), feed_mm_s);
    }
    return true;
}

/* One arc to the grid point, if it has a centre that takes it near enough to the true one; `any` is taken if it must. */
static bool whole_arc(program *p, const sw_move *arc, grid to, double feed_mm_s, bool any)
{
    const double most_off_mm = 0.8 / GRID_PER_MM;
    double bulge = arc->from.bulge;
    chord c = chord_of(point_of(p->at), point_of(to), bulge);
    curve wanted = wanted_curve(&c, bulge);
    grid centre = centre_on_grid(&c, &wanted);
    curve made = curve_about(&c, point_of(centre));
    if (!any && !keeps_to(arc, &c, &made, most_off_mm)) return false;
    put_arc(p, to, centre, bulge, feed_mm_s);
    return true;
}

/* In two halves, beyond half a circle (by more than rounding) or where rounding to the grid would take the arc too far
 * off; splits: how often it may still be halved. */
static void curved(program *p, const sw_move *arc, double feed_mm_s, int splits)
{
    double bulge = arc->from.bulge;
    grid to = grid_of(arc->to.x_mm, arc->to.y_mm);
    bool at_most_half = fabs(bulge) <= 1 + SW_SAME_POINT_MM;
    double steps = length_of((double)(to.x - p->at.x), (double)(to.y - p->at.y));
    if (at_most_half && fabs(bulge) * steps / 2 < 0.5) { /* flatter than the last decimal */
        straight(p, to, feed_mm_s);
        return;
    }
    if (chords(p, arc, feed_mm_s)) return;
    if (at_most_half && whole_arc(p, arc, to, feed_mm_s, splits == 0)) return;
    double half = tan(atan(bulge) / 2);
    sw_point middle = sw_segment_point(arc->from, arc->to, 0.5);
    const sw_move first = {arc->kind, {arc->from.x_mm, arc->from.y_mm, half}, middle};
    const sw_move second = {arc->kind, {middle.x_mm, middle.y_mm, half}, arc->to};
    curved(p, &first, feed_mm_s, splits == 0 ? 0 : splits - 1);
    curved(p, &second, feed_mm_s, splits == 0 ? 0 : splits - 1);
}

static void write_move(program *p, const sw_move *move, double feed_mm_s)
{
    if (fabs(move->from.bulge) < SW_FLAT_BULGE)
        straight(p, grid_of(move->to.x_mm, move->to.y_mm), feed_mm_s);
    else
        curved(p, move, feed_mm_s, 3);
}

static void put_text(sw_writer *out, const char *line)
{
    sw_write_text(out, line);
    sw_write(out, "\n", 1);
}

static void write_pass(program *p, const sw_cut_input *cut, const sw_cut_pass *pass)
{
    const sw_laser *laser = cut->laser;
    bool etch = pass->moves[0].kind == SW_MOVE_ETCH;
    for (size_t i = 0; i < pass->via_count; i++) rapid(p, pass->via[i]);
    rapid(p, pass->start);
    put_text(p->out, etch ? laser->etch_on : laser->beam_on);
    for (size_t i = 0; i < pass->move_count; i++)
        write_move(p, &pass->moves[i], etch ? laser->etch_mm_s : cut->row->feed_mm_s);
    put_text(p->out, etch ? laser->etch_off : laser->beam_off);
}

/* Comments hold the name without what would end them. */
static void write_comment(sw_writer *out, const char *text)
{
    sw_print(out, "(");
    for (const char *c = text; *c != '\0'; c++)
        if (*c >= ' ' && *c < 127 && strchr("()%;", *c) == NULL) sw_print(out, "%c", *c);
    sw_print(out, ")\n");
}

static void write_lines(sw_writer *out, const char *lines)
{
    size_t length = strlen(lines);
    sw_write(out, lines, length);
    if (length > 0 && lines[length - 1] != '\n') sw_print(out, "\n");
}

static bool names_word(const char *lines, const char *word)
{
    for (const char *at = strstr(lines, word); at != NULL; at = strstr(at + 1, word))
        if (strchr("0123456789.", at[strlen(word)]) == NULL || at[strlen(word)] == '\0') return true;
    return false;
}

static void write_program(program *p, const sw_cut_input *cut, const sw_cut_plan *plan)
{
    const sw_laser *laser = cut->laser;
    write_comment(p->out, cut->name);
    write_lines(p->out, laser->program_start);
    if (!names_word(laser->program_start, "G21") && !names_word(laser->program_start, "G71")) sw_print(p->out, "G21\n");
    if (!names_word(laser->program_start, "G90")) sw_print(p->out, "G90\n");
    for (size_t i = 0; i < plan->pass_count; i++) write_pass(p, cut, &plan->passes[i]);
    write_lines(p->out, laser->program_end);
}

static sw_status check_words(sw_run *run, const sw_laser *laser, const sw_cut_plan *plan)
{
    bool etches = plan->pass_count > 0 && plan->passes[0].moves[0].kind == SW_MOVE_ETCH;
    if (laser->beam_on[0] == '\0' || laser->beam_off[0] == '\0')
        return sw_fail(run, SW_BAD_INPUT, laser->place, "laser.program",
                       "the laser has no beam_on or beam_off line; give both");
    if (etches && (laser->etch_on[0] == '\0' || laser->etch_off[0] == '\0'))
        return sw_fail(run, SW_BAD_INPUT, laser->place, "laser.program",
                       "pieces are etched but the laser has no etch_on or etch_off line; give both");
    return SW_OK;
}

sw_status sw_paper_motion(sw_run *run, const sw_cut_input *cut, const sw_cut_plan *plan, const char *path)
{
    program p = {0};
    SW_TRY(check_words(run, cut->laser, plan));
    SW_TRY(sw_writer_to_file(run, path, &p.out));
    write_program(&p, cut, plan);
    return sw_writer_close(run, p.out);
}
