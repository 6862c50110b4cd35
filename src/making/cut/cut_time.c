/* cut_time.c: lengths, times, gas and cost of the passes.
 *
 * The head stops where it pierces, where a pass ends and at every corner of more than 10 degrees; between two stops
 * it moves as a trapezoid of speed (sw_move_time_s, derived). Arcs too small for the feed are run at the corner
 * speed sqrt(a r) (derived); slowing down before them is not modelled. Gas flows whenever the beam is on. */
#include "making/cut/cut_parts.h"

typedef struct drive {
    double speed_mm_s, accel_mm_s2;
} drive;

static bool stops_between(sw_point before, sw_point after)
{
    return before.x_mm * after.x_mm + before.y_mm * after.y_mm < cos(sw_rad_from_deg(10));
}

/* What an arc costs more than at full speed. Of bulge b over the chord c it has the radius c (1 + b^2) / (4 b). */
static double arc_delay_s(const sw_move *move, double length_mm, drive pace)
{
    double b = fabs(move->from.bulge);
    if (b < SW_FLAT_BULGE) return 0;
    double chord_mm = cut_distance((sw_point){move->from.x_mm, move->from.y_mm}, move->to);
    double corner_mm_s = sw_corner_speed_mm_s(chord_mm * (1 + b * b) / (4 * b), pace.accel_mm_s2);
    if (!(corner_mm_s < pace.speed_mm_s) || !(corner_mm_s > 0)) return 0;
    return length_mm / corner_mm_s - length_mm / pace.speed_mm_s;
}

static double pass_time_s(const sw_cut_pass *pass, drive pace, double *length_mm)
{
    double time_s = 0, stretch_mm = 0;
    sw_point before = {0, 0};
    for (size_t i = 0; i < pass->move_count; i++) {
        const sw_move *move = &pass->moves[i];
        double move_mm = sw_segment_length(move->from, move->to);
        cut_ends ends = cut_ends_of(move->from, move->to);
        if (i > 0 && stops_between(before, ends.start)) {
            time_s += sw_move_time_s(stretch_mm, pace.speed_mm_s, pace.accel_mm_s2);
            stretch_mm = 0;
        }
        *length_mm += move_mm;
        stretch_mm += move_mm;
        time_s += arc_delay_s(move, move_mm, pace);
        before = ends.end;
    }
    return time_s + sw_move_time_s(stretch_mm, pace.speed_mm_s, pace.accel_mm_s2);
}

static double leg_s(sw_point from, sw_point to, const sw_laser *laser, double *length_mm)
{
    double d = cut_distance(from, to);
    *length_mm += d;
    return sw_move_time_s(d, laser->rapid_mm_s, laser->accel_mm_s2);
}

static void add_rapids(const sw_cut_pass *pass, const sw_laser *laser, sw_point at, sw_cut_plan *plan)
{
    for (size_t i = 0; i < pass->via_count; i++) {
        plan->rapid_s += leg_s(at, pass->via[i], laser, &plan->rapid_mm);
        at = pass->via[i];
    }
    plan->rapid_s += leg_s(at, pass->start, laser, &plan->rapid_mm);
}

static void add_pass(const sw_cut_input *in, const sw_cut_pass *pass, sw_cut_plan *plan)
{
    const sw_laser *laser = in->laser;
    if (pass->moves[0].kind == SW_MOVE_ETCH) {
        plan->etch_s += pass_time_s(pass, (drive){laser->etch_mm_s, laser->accel_mm_s2}, &plan->etch_mm);
        return;
    }
    plan->cut_s += pass_time_s(pass, (drive){in->row->feed_mm_s, laser->accel_mm_s2}, &plan->cut_mm);
    plan->pierces++;
}

void cut_times(const sw_cut_input *in, sw_cut_plan *plan)
{
    sw_point at = {0, 0};
    for (size_t i = 0; i < plan->pass_count; i++) {
        const sw_cut_pass *pass = &plan->passes[i];
        add_rapids(pass, in->laser, at, plan);
        add_pass(in, pass, plan);
        at = pass->moves[pass->move_count - 1].to;
    }
    plan->pierce_s = (double)plan->pierces * in->row->pierce_s;
    plan->corner_s = plan->cut_s - plan->cut_mm / in->row->feed_mm_s;
    plan->total_s = plan->cut_s + plan->pierce_s + plan->rapid_s + plan->etch_s;
    plan->gas_m3 = (plan->cut_s + plan->pierce_s + plan->etch_s) * in->row->gas_m3_s;
    plan->cost = in->laser->rate_h * sw_h_from_s(plan->total_s) + plan->gas_m3 * in->row->gas_price;
}
