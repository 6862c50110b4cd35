/* heft_lift_sling.c: which hoist of the works lifts a load, on what sling and from which points. */
#include "making/heft/heft_lift_parts.h"

#include <math.h>
#include <string.h>

/* Strong enough; one that stands at the station before others, then the weakest. */
static const sw_hoist *choose(const lift_job *job, const sw_lift_step *step)
{
    const sw_works *works = job->in->works;
    const sw_hoist *best = NULL;
    bool best_here = false;
    for (size_t i = 0; works != NULL && i < works->hoist_count; i++) {
        const sw_hoist *h = &works->hoists[i];
        if (sw_hoist_need_kg(step->mass_kg, h->rigging_kg, job->opt->dynamic) > h->swl_kg) continue;
        bool here = step->station[0] != '\0' && strcmp(h->station, step->station) == 0;
        if (best != NULL && (here < best_here || (here == best_here && h->swl_kg >= best->swl_kg))) continue;
        best = h;
        best_here = here;
    }
    return best;
}

static void end_share(sw_lift_step *step)
{
    double x_mm = step->box.high.x_mm - step->box.low.x_mm, y_mm = step->box.high.y_mm - step->box.low.y_mm;
    double l_mm = fmax(x_mm, y_mm);
    double e_mm = x_mm >= y_mm ? step->centre.x_mm - step->box.low.x_mm : step->centre.y_mm - step->box.low.y_mm;
    double a_n = sw_pick_load_n(1, l_mm, e_mm) / SW_GRAVITY;
    step->end_share = fmax(a_n, 1 - a_n);
}

static void add_point(sw_lift_step *step, double dx_mm, double dy_mm)
{
    step->points[step->point_count++] =
        (sw_vec3){step->centre.x_mm + dx_mm, step->centre.y_mm + dy_mm, step->box.high.z_mm};
}

/* Points round the centre of gravity, so far apart as the nearer ends of the box let them. Gives how far each is from the
 * centre; 0 without room. */
static double place_points(const lift_job *job, sw_lift_step *step)
{
    const sw_lift_box *b = &step->box;
    double inset_mm = job->opt->inset_mm;
    double x_mm = fmin(step->centre.x_mm - b->low.x_mm, b->high.x_mm - step->centre.x_mm) - inset_mm;
    double y_mm = fmin(step->centre.y_mm - b->low.y_mm, b->high.y_mm - step->centre.y_mm) - inset_mm;
    if (step->legs == 1) {
        add_point(step, 0, 0);
        return 0;
    }
    if (fmax(x_mm, y_mm) <= 0 || (step->legs > 2 && fmin(x_mm, y_mm) <= 0)) return 0;
    if (step->legs == 2) {
        bool along_x = x_mm >= y_mm;
        for (int s = -1; s <= 1; s += 2) add_point(step, along_x ? s * x_mm : 0, along_x ? 0 : s * y_mm);
        return fmax(x_mm, y_mm);
    }
    if (step->legs == 3) {
        double r_mm = fmin(x_mm, y_mm);
        for (int k = 0; k < 3; k++) add_point(step, r_mm * cos(2 * SW_PI * k / 3), r_mm * sin(2 * SW_PI * k / 3));
        return r_mm;
    }
    for (int k = 0; k < 4; k++) add_point(step, k % 3 == 0 ? -x_mm : x_mm, k < 2 ? -y_mm : y_mm);
    return hypot(x_mm, y_mm);
}

/* Legs that hang straight need a beam of the points' distance above them: no length then. */
static void sling(const lift_job *job, sw_lift_step *step)
{
    const sw_hoist *h = step->hoist;
    step->legs = (size_t)(h != NULL && h->legs >= 1 ? h->legs : job->opt->legs);
    step->leg_angle_rad =
        h != NULL && h->leg_angle_rad > 0 ? h->leg_angle_rad : sw_rad_from_deg(job->opt->leg_angle_deg);
    if (step->legs == 1) step->leg_angle_rad = 0;
    double counted = sw_sling_legs_counted(step->legs);
    step->leg_n = sw_sling_leg_n(step->mass_kg, counted, step->leg_angle_rad);
    step->pull_n = sw_sling_pull_n(step->mass_kg, counted, step->leg_angle_rad);
    double reach_mm = place_points(job, step);
    bool spread = reach_mm > 0 && step->leg_angle_rad > 0;
    step->hook_mm = spread ? reach_mm / tan(step->leg_angle_rad) : (double)NAN;
    step->leg_mm = spread ? reach_mm / sin(step->leg_angle_rad) : (double)NAN;
}

/* A sheet lies under the pads of a vacuum beam, 0.207 of its sides from their ends, where it sags least: two supports of a
 * beam under its own weight, any text on statics. The hook pulls straight. */
static void under_pads(sw_lift_step *step)
{
    const double from_middle = 0.5 - 0.207;
    double x_mm = from_middle * (step->box.high.x_mm - step->box.low.x_mm);
    double y_mm = from_middle * (step->box.high.y_mm - step->box.low.y_mm);
    for (int k = 0; k < 4; k++) add_point(step, k % 3 == 0 ? -x_mm : x_mm, k < 2 ? -y_mm : y_mm);
    step->legs = 1;
    step->leg_angle_rad = 0;
    step->leg_n = sw_sling_leg_n(step->mass_kg, 1, 0);
    step->pull_n = 0;
}

void lift_by_gear(const lift_job *job, sw_lift_step *step)
{
    step->need_kg = step->size_kg = step->leg_angle_rad = step->leg_n = step->pull_n = NAN;
    step->leg_mm = step->hook_mm = step->end_share = NAN;
    if (step->way != SW_LIFT_GEAR || step->kind == SW_LIFT_HOUSE) return;
    step->hoist = choose(job, step);
    double rigging_kg = step->hoist != NULL ? step->hoist->rigging_kg : 0;
    step->need_kg = sw_hoist_need_kg(step->mass_kg, rigging_kg, job->opt->dynamic);
    step->size_kg = sw_hoist_size_kg(step->need_kg);
    end_share(step);
    if (step->kind == SW_LIFT_SHEET || step->kind == SW_LIFT_FLAT)
        under_pads(step);
    else
        sling(job, step);
}
