/* heft_lift_trolley.c: the stove on the works' trolley, stopped suddenly and pushed.
 *
 * Its box stands over the middle of the deck, longer side along the longer wheel base. Two edges can give way: those of
 * its own feet, and the line of the wheels, with the centre of gravity raised by the deck. Source: derived, moments. */
#include "making/heft/heft_lift_parts.h"

#include <math.h>

static const sw_lift_step *whole_stove(const lift_job *job)
{
    for (size_t i = 0; i < job->step_count; i++)
        if (job->steps[i].kind == SW_LIFT_PACK) return &job->steps[i];
    return NULL;
}

static double wheels_edge_mm(const sw_trolley *t, const sw_lift_step *stove)
{
    const sw_lift_box *b = &stove->box;
    double off_x_mm = fabs(stove->centre.x_mm - (b->low.x_mm + b->high.x_mm) / 2);
    double off_y_mm = fabs(stove->centre.y_mm - (b->low.y_mm + b->high.y_mm) / 2);
    double longer_mm = fmax(t->length_mm, t->width_mm), shorter_mm = fmin(t->length_mm, t->width_mm);
    bool wide = b->high.x_mm - b->low.x_mm >= b->high.y_mm - b->low.y_mm;
    return fmin((wide ? longer_mm : shorter_mm) / 2 - off_x_mm, (wide ? shorter_mm : longer_mm) / 2 - off_y_mm);
}

void lift_trolley(const lift_job *job)
{
    sw_lift_trolley *r = &job->result->trolley;
    *r = (sw_lift_trolley){NAN, NAN, NAN, NAN, NAN, NAN};
    const sw_lift_step *stove = whole_stove(job);
    const sw_heft_result *heft = job->in->heft;
    if (stove == NULL) return;
    double m_kg = stove->mass_kg, z_mm = stove->centre.z_mm;
    double feet_mm = z_mm * tan(heft->tip_rad);
    r->stop_feet_m_s2 = sw_tip_stop_m_s2(feet_mm, z_mm);
    r->push_feet_n = sw_tip_push_n(m_kg, feet_mm, job->opt->push_mm);
    const sw_trolley *t = job->in->works == NULL ? NULL : &job->in->works->trolley;
    if (t == NULL || !(t->length_mm > 0) || !(t->width_mm > 0)) return;
    double edge_mm = wheels_edge_mm(t, stove);
    r->centre_mm = z_mm + t->high_mm;
    r->tip_rad = sw_tip_angle_rad(edge_mm, r->centre_mm);
    r->stop_wheels_m_s2 = sw_tip_stop_m_s2(edge_mm, r->centre_mm);
    r->push_wheels_n = sw_tip_push_n(m_kg, edge_mm, job->opt->push_mm);
}
