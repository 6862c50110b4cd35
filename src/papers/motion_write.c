/* motion_write.c: the program of one sheet in ISO 6983 words.
 *
 * G0 to the pierce, the laser's beam word, G1/G2/G3 along the pass, the beam word off; the laser's own lines around it.
 * Coordinates are absolute mm with 3 decimals, I and J from the arc's start, F in mm/min where it changes. Arcs are at
 * most half circles. Source: ISO 6983-1; NIST RS274/NGC report, Kramer et al. 2000 (from memory): the distances of an
 * arc's start and end from its centre agree within 0.002 mm. */
#include "papers/papers.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { GRID_PER_MM = 1000 }; /* steps of the third decimal */
enum { MOST_CHORDS = 10000 };

typedef struct grid {
    long x, y;
} grid; /* thousandths of a millimetre */

typedef struct program {
    sw_writer *out;
    grid at;
    double feed_mm_s; /* last F written, 0 = none yet */
} program;

static grid grid_of(double x_mm, double y_mm)
{
    return (grid){lround(x_mm * GRID_PER_MM), lround(y_mm * GRID_PER_MM)};
}

static sw_point point_of(grid g)
{
    return (sw_point){(double)g.x / GRID_PER_MM, (double)g.y / GRID_PER_MM};
}

static double from_to(grid a, grid b)
{
    return hypot((double)(b.x - a.x), (double)(b.y - a.y));
}

static void print_number(sw_writer *out, char letter, long value)
{
    long size = labs(value);
    sw_print(out, " %c%s%ld.%03ld", letter, value < 0 ? "-" : "", size / GRID_PER_MM, size % GRID_PER_MM);
}

static void print_feed(program *p, double feed_mm_s)
{
    if (feed_mm_s == p->feed_mm_s) return;
    sw_print(p->out, " F%.6g", sw_mm_from_m(sw_m_min_from_mm_s(feed_mm_s)));
    p->feed_mm_s = feed_mm_s;
}

static void print_position(program *p, const char *word, grid to)
{
    sw_print(p->out, "%s", word);
    print_number(p->out, 'X', to.x);
    print_number(p->out, 'Y', to.y);
    p->at = to;
}

static void rapid(program *p, sw_point to)
{
    grid target = grid_of(to.x_mm, to.y_mm);
    if (target.x == p->at.x && target.y == p->at.y) return;
    print_position(p, "G0", target);
    sw_print(p->out, "\n");
}

static void straight(program *p, grid to, double feed_mm_s)
{
    if (to.x == p->at.x && to.y == p->at.y) return;
    print_position(p, "G1", to);
    print_feed(p, feed_mm_s);
    sw_print(p->out, "\n");
}

static double sweep_about(grid centre, grid from, grid to, double bulge)
{
    double a_rad = atan2((double)(from.y - centre.y), (double)(from.x - centre.x));
    double b_rad = atan2((double)(to.y - centre.y), (double)(to.x - centre.x));
    double sweep_rad = b_rad - a_rad;
    sweep_rad -= floor(sweep_rad / (2 * SW_PI)) * 2 * SW_PI;
    return bulge > 0 ? sweep_rad : sweep_rad - 2 * SW_PI;
}

/* How badly a centre serves, in steps: the arc's middle off the wanted one (chord c: c/2 times the difference of the
 * bulges), and a share of what start and end distances differ by. */
static double centre_fault(grid centre, grid from, grid to, double bulge)
{
    double differ = fabs(from_to(centre, from) - from_to(centre, to));
    double middle = fabs(tan(sweep_about(centre, from, to, bulge) / 4) - bulge) * from_to(from, to) / 2;
    return middle + differ / 2;
}

/* The grid point at or beside the centre that serves best: at most 1.5 steps away, so that the two distances differ by
 * at most 1.5 steps too. */
static grid centre_on_grid(grid from, grid to, double bulge)
{
    sw_point a = point_of(from), b = point_of(to);
    sw_arc arc = sw_segment_arc((sw_vertex){a.x_mm, a.y_mm, bulge}, b);
    grid near = grid_of(arc.centre.x_mm, arc.centre.y_mm), best = near;
    for (long dx = -1; dx <= 1; dx++)
        for (long dy = -1; dy <= 1; dy++) {
            grid beside = {near.x + dx, near.y + dy};
            if (centre_fault(beside, from, to, bulge) < centre_fault(best, from, to, bulge)) best = beside;
        }
    return best;
}

/* Largest distance of the arc as it will be read from the true one, mm. */
static double arc_off_mm(const sw_move *arc, grid from, grid to, grid centre)
{
    sw_arc wanted = sw_segment_arc(arc->from, arc->to);
    sw_point a = point_of(from);
    sw_vertex start = {a.x_mm, a.y_mm, tan(sweep_about(centre, from, to, arc->from.bulge) / 4)};
    double worst_mm = 0;
    for (int k = 0; k <= 8; k++) {
        sw_point p = sw_segment_point(start, point_of(to), k / 8.0);
        double radius_mm = hypot(p.x_mm - wanted.centre.x_mm, p.y_mm - wanted.centre.y_mm);
        worst_mm = fmax(worst_mm, fabs(radius_mm - wanted.radius_mm));
    }
    return worst_mm;
}

static void print_arc(program *p, grid to, grid centre, double bulge, double feed_mm_s)
{
    grid from = p->at;
    print_position(p, bulge > 0 ? "G3" : "G2", to);
    print_number(p->out, 'I', centre.x - from.x);
    print_number(p->out, 'J', centre.y - from.y);
    print_feed(p, feed_mm_s);
    sw_print(p->out, "\n");
}

/* Controls bound I and J: arcs flatter than this radius go as chords within half the last decimal. */
static const double flattest_radius_mm = 1e5; /* ours */

static bool chords(program *p, const sw_move *arc, double feed_mm_s)
{
    if (sw_segment_arc(arc->from, arc->to).radius_mm < flattest_radius_mm) return false;
    double chord_mm = hypot(arc->to.x_mm - arc->from.x_mm, arc->to.y_mm - arc->from.y_mm);
    double count =
        ceil(sqrt(fabs(arc->from.bulge) * chord_mm * GRID_PER_MM)); /* sagitta b c/2, a part has 1/n2 of it */
    for (int k = 1; k <= count; k++) {
        sw_point to = sw_segment_point(arc->from, arc->to, (double)k / count);
        straight(p, grid_of(to.x_mm, to.y_mm), feed_mm_s);
    }
    return true;
}

/* In two halves, beyond half a circle (by more than rounding) or where rounding to the grid would take the arc too far
 * off; splits: how often it may still be halved. */
static void curved(program *p, const sw_move *arc, double feed_mm_s, int splits)
{
    const double most_off_mm = 0.8 / GRID_PER_MM;
    double bulge = arc->from.bulge;
    grid from = p->at, to = grid_of(arc->to.x_mm, arc->to.y_mm);
    bool at_most_half = fabs(bulge) <= 1 + SW_SAME_POINT_MM;
    if (at_most_half && fabs(bulge) * from_to(from, to) / 2 < 0.5) { /* flatter than the last decimal */
        straight(p, to, feed_mm_s);
        return;
    }
    if (chords(p, arc, feed_mm_s)) return;
    if (at_most_half) {
        grid centre = centre_on_grid(from, to, bulge);
        if (splits == 0 || arc_off_mm(arc, from, to, centre) <= most_off_mm) {
            print_arc(p, to, centre, bulge, feed_mm_s);
            return;
        }
    }
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

static void write_pass(program *p, const sw_cut_input *cut, const sw_cut_pass *pass)
{
    const sw_laser *laser = cut->laser;
    bool etch = pass->moves[0].kind == SW_MOVE_ETCH;
    for (size_t i = 0; i < pass->via_count; i++) rapid(p, pass->via[i]);
    rapid(p, pass->start);
    sw_print(p->out, "%s\n", etch ? laser->etch_on : laser->beam_on);
    for (size_t i = 0; i < pass->move_count; i++)
        write_move(p, &pass->moves[i], etch ? laser->etch_mm_s : cut->row->feed_mm_s);
    sw_print(p->out, "%s\n", etch ? laser->etch_off : laser->beam_off);
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
