/* motion_compare.c: how far a program read back lies from the plan, pass by pass. */
#include "papers/machine_parts.h"

#include <math.h>

static const double rounding_mm = 1e-3;        /* three decimals: nearer than this is the same. Ours */
static const double sample_mm = 5.0;           /* a line's points looked at are not farther apart (ours) */
enum { LEAST_SAMPLES = 4, MOST_SAMPLES = 64 }; /* of one move; arcs take 64 to the circle */

static double distance(sw_point a, sw_point b)
{
    return hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm);
}

static sw_point start_of(const sw_move *m)
{
    return (sw_point){m->from.x_mm, m->from.y_mm};
}

static double line_distance(sw_point a, sw_point b, sw_point p)
{
    double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, length2 = dx * dx + dy * dy;
    if (!(length2 > 0)) return distance(a, p);
    double t = ((p.x_mm - a.x_mm) * dx + (p.y_mm - a.y_mm) * dy) / length2;
    t = fmin(fmax(t, 0), 1);
    return distance((sw_point){a.x_mm + t * dx, a.y_mm + t * dy}, p);
}

static double move_distance(const sw_move *m, sw_point p)
{
    double ends_mm = fmin(distance(start_of(m), p), distance(m->to, p));
    if (fabs(m->from.bulge) < SW_FLAT_BULGE) return line_distance(start_of(m), m->to, p);
    sw_arc arc = sw_segment_arc(m->from, m->to);
    double turned_rad = atan2(p.y_mm - arc.centre.y_mm, p.x_mm - arc.centre.x_mm) - arc.from_rad;
    if (arc.sweep_rad < 0) turned_rad = -turned_rad;
    turned_rad -= floor(turned_rad / (2 * SW_PI)) * 2 * SW_PI;
    if (turned_rad > fabs(arc.sweep_rad)) return ends_mm;
    return fmin(ends_mm, fabs(distance(arc.centre, p) - arc.radius_mm));
}

/* Distance of p from the pass. The search begins at move *near and ends at the move within `enough`, where the next
 * one begins. */
static double pass_distance(const sw_cut_pass *pass, sw_point p, size_t *near, double enough_mm)
{
    double best_mm = INFINITY;
    for (size_t k = 0; k < pass->move_count && best_mm > enough_mm; k++) {
        size_t index = (*near + k) % pass->move_count;
        best_mm = fmin(best_mm, move_distance(&pass->moves[index], p));
        if (best_mm <= enough_mm) *near = index;
    }
    return best_mm;
}

static int samples_of(const sw_move *m)
{
    double by_length = sw_segment_length(m->from, m->to) / sample_mm;
    double by_turn = fabs(atan(m->from.bulge)) * 4 / (2 * SW_PI) * MOST_SAMPLES;
    return (int)ceil(fmin(fmax(fmax(by_length, by_turn), LEAST_SAMPLES), MOST_SAMPLES));
}

/* Largest distance of the points of one move from the pass, looked for from move *near on. */
static double move_off(const sw_move *m, const sw_cut_pass *to, size_t *near, double enough_mm)
{
    for (size_t i = *near; i < to->move_count && i <= *near + 1; i++) {
        double bound_mm = machine_apart_mm(m->from, m->to, to->moves[i].from, to->moves[i].to);
        if (bound_mm > enough_mm) continue;
        *near = i;
        return bound_mm;
    }
    double worst_mm = 0;
    int samples = samples_of(m);
    for (int k = 0; k <= samples; k++) {
        sw_point p = sw_segment_point(m->from, m->to, (double)k / samples);
        worst_mm = fmax(worst_mm, pass_distance(to, p, near, fmax(worst_mm, enough_mm)));
    }
    return worst_mm;
}

static double one_way(const sw_cut_pass *from, const sw_cut_pass *to)
{
    double worst_mm = 0;
    size_t near = 0;
    for (size_t i = 0; i < from->move_count; i++)
        worst_mm = fmax(worst_mm, move_off(&from->moves[i], to, &near, fmax(worst_mm, rounding_mm)));
    return worst_mm;
}

static double pass_length(const sw_cut_pass *pass)
{
    double length_mm = 0;
    for (size_t i = 0; i < pass->move_count; i++)
        length_mm += sw_segment_length(pass->moves[i].from, pass->moves[i].to);
    return length_mm;
}

static sw_point point_along(const sw_cut_pass *pass, double along_mm)
{
    for (size_t i = 0; i < pass->move_count; i++) {
        const sw_move *m = &pass->moves[i];
        double length_mm = sw_segment_length(m->from, m->to);
        if (along_mm <= length_mm && length_mm > 0) return sw_segment_point(m->from, m->to, along_mm / length_mm);
        along_mm -= length_mm;
    }
    return pass->moves[pass->move_count - 1].to;
}

/* Both run the same way: points at the same share of the length are close, allowing for lengths that differ a little. */
static bool same_way(const sw_cut_pass *a, const sw_cut_pass *b)
{
    double a_mm = pass_length(a), b_mm = pass_length(b), allowed_mm = fmax(0.5, 0.02 * a_mm);
    for (int quarter = 1; quarter < 4; quarter++)
        if (distance(point_along(a, a_mm * quarter / 4), point_along(b, b_mm * quarter / 4)) > allowed_mm) return false;
    return true;
}

static double ends_distance(const sw_cut_pass *a, const sw_cut_pass *b)
{
    double starts_mm = distance(start_of(&a->moves[0]), start_of(&b->moves[0]));
    return fmax(starts_mm, distance(a->moves[a->move_count - 1].to, b->moves[b->move_count - 1].to));
}

/* Whether the passes have the same moves in the same order and direction, each nearer than what counts as the same;
 * *off_mm is then no less than the largest distance. */
static bool in_step(const sw_cut_pass *plan, const sw_cut_pass *read, double *off_mm)
{
    if (plan->move_count != read->move_count) return false;
    *off_mm = 0;
    for (size_t i = 0; i < plan->move_count; i++) {
        const sw_move *want = &plan->moves[i], *got = &read->moves[i];
        *off_mm = fmax(*off_mm, machine_apart_mm(want->from, want->to, got->from, got->to));
        if (*off_mm > rounding_mm) return false;
    }
    return true;
}

static sw_status compare_pass(sw_run *run, size_t i, const sw_cut_pass *plan, const sw_cut_pass *read, double *worst_mm)
{
    if (plan->moves[0].kind != read->moves[0].kind)
        return sw_fail(
            run, SW_BAD_INPUT, (sw_place){0}, "motion", "pass %zu of the program is a %s, the plan wants a %s", i + 1,
            read->moves[0].kind == SW_MOVE_ETCH ? "etch" : "cut", plan->moves[0].kind == SW_MOVE_ETCH ? "etch" : "cut");
    double step_mm = 0;
    if (in_step(plan, read, &step_mm)) {
        *worst_mm = fmax(*worst_mm, step_mm);
        return SW_OK;
    }
    double off_mm = fmax(ends_distance(plan, read), fmax(one_way(plan, read), one_way(read, plan)));
    *worst_mm = fmax(*worst_mm, off_mm);
    if (off_mm < sample_mm && !same_way(plan, read))
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "motion",
                       "pass %zu of the program runs another way round than the plan", i + 1);
    return SW_OK;
}

sw_status sw_motion_compare(sw_run *run, const sw_cut_plan *plan, const sw_cut_pass *passes, size_t count,
                            double *worst_mm)
{
    *worst_mm = 0;
    if (count != plan->pass_count)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "motion", "the program has %zu passes, the plan %zu", count,
                       plan->pass_count);
    for (size_t i = 0; i < count; i++) SW_TRY(compare_pass(run, i, &plan->passes[i], &passes[i], worst_mm));
    return SW_OK;
}
