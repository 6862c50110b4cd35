/* heft_lift_judge.c: how a load is held, and whether one person, two or gear lifts it.
 *
 * One person's hands lie at the middle of the load: H = grip + half the depth that stands towards the body, at least 250 mm,
 * where the equation begins. A flat is carried upright, a piece with its least side to the body, a body standing as it does
 * in the stove. Two people stand at its ends and hold these: H = grip (ours). */
#include "making/heft/heft_lift_parts.h"

#include <math.h>

static const double least_reach_mm = 250;

static sw_vec3 extent(const sw_lift_step *step)
{
    return sw_vec3_sub(step->box.high, step->box.low);
}

static bool is_piece(sw_lift_kind kind)
{
    return kind == SW_LIFT_FLAT || kind == SW_LIFT_SHEET || kind == SW_LIFT_PRESS || kind == SW_LIFT_ROLLS;
}

static double depth_mm(const sw_lift_step *step)
{
    sw_vec3 d = extent(step);
    double least_mm = fmin(d.x_mm, d.y_mm);
    return fmax(0, is_piece(step->kind) ? fmin(least_mm, d.z_mm) : least_mm);
}

static double longest_mm(const sw_lift_step *step)
{
    sw_vec3 d = extent(step);
    return fmax(d.x_mm, fmax(d.y_mm, d.z_mm));
}

static const char *held(const sw_lift_step *step)
{
    bool sheet = step->kind == SW_LIFT_FLAT || step->kind == SW_LIFT_SHEET;
    if (step->way == SW_LIFT_GEAR && sheet) return "lying, by a vacuum lifter or sheet clamps";
    if (step->way == SW_LIFT_GEAR && step->kind == SW_LIFT_HOUSE) return "standing, on a stair climber or sack truck";
    if (step->way == SW_LIFT_GEAR) return "hanging from its lifting points";
    if (step->way == SW_LIFT_TWO) return sheet ? "upright, one at each end" : "one at each end, under its lower edges";
    if (sheet) return "upright, by its edges, in cut-resistant gloves";
    return is_piece(step->kind) ? "its least side to the body, under its edges" : "standing, under its lower edges";
}

/* Sheet with bare edges has no good place for a hand: poor; a body has edges to reach under: fair (ours). */
static sw_niosh_task task_of(const lift_job *job, const sw_lift_step *step)
{
    const sw_lift_options *o = job->opt;
    sw_niosh_task task = {.v_mm = o->from_mm, .d_mm = fabs(o->to_mm - o->from_mm), .per_min = o->per_min};
    task.h_mm = fmax(least_reach_mm, o->grip_mm + depth_mm(step) / 2);
    task.turn_rad = sw_rad_from_deg(o->turn_deg);
    task.spell = o->spell_h <= 1 ? SW_SPELL_1_H : o->spell_h <= 2 ? SW_SPELL_2_H : SW_SPELL_8_H;
    task.coupling = is_piece(step->kind) ? SW_COUPLING_POOR : SW_COUPLING_FAIR;
    return task;
}

/* The less of where the lift begins and where it ends. */
static double limit_kg(const lift_job *job, const sw_niosh_task *task, sw_niosh *from, sw_niosh *to)
{
    sw_niosh_task end = *task;
    end.v_mm = job->opt->to_mm;
    *from = sw_niosh_limit(task, SW_NIOSH_CM);
    *to = sw_niosh_limit(&end, SW_NIOSH_CM);
    return fmin(from->rwl_kg, to->rwl_kg);
}

void lift_judge(const lift_job *job, sw_lift_step *step)
{
    step->task = task_of(job, step);
    sw_niosh_task at_end = step->task;
    at_end.h_mm = fmax(least_reach_mm, job->opt->grip_mm);
    sw_niosh from, to;
    double alone_kg = limit_kg(job, &step->task, &step->from, &step->to);
    step->single_kg = fmin(job->result->single_kg, alone_kg);
    step->team_kg = sw_team_mass_kg(2, fmin(job->result->single_kg, limit_kg(job, &at_end, &from, &to)));
    step->index = sw_niosh_index(step->mass_kg, alone_kg);
    bool is_long = longest_mm(step) > job->opt->long_mm;
    step->way = step->mass_kg <= step->single_kg && !is_long ? SW_LIFT_ONE
                : step->mass_kg <= step->team_kg             ? SW_LIFT_TWO
                                                             : SW_LIFT_GEAR;
    step->held = held(step);
}
