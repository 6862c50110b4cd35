/* fittings_glass.c: panes, ropes and the ball drop. */
#include "making/fittings/fittings_parts.h"

#include <math.h>

/* The side that looks most downwards in the stove; SW_SIDES when the pane lies. */
static sw_side lower_side(const sw_item *item)
{
    double x_up = item->placements[0].x.z_mm, y_up = item->placements[0].y.z_mm;
    if (fmax(fabs(x_up), fabs(y_up)) < 0.5) return SW_SIDES;
    if (fabs(x_up) > fabs(y_up)) return x_up > 0 ? SW_SIDE_LEFT : SW_SIDE_RIGHT;
    return y_up > 0 ? SW_SIDE_BELOW : SW_SIDE_ABOVE;
}

static void beside(const fittings_job *job, sw_fit_pane *pane)
{
    sw_side lower = lower_side(pane->item);
    for (size_t i = 0; i < job->result->fit_count; i++) {
        const sw_fit *fit = &job->result->fits[i];
        if (fit->item != pane->item) continue;
        for (int s = 0; s < SW_SIDES; s++) {
            double *into_mm = s == (int)lower ? &pane->under_mm : &pane->least_mm;
            *into_mm = fmin(*into_mm, fit->gap_mm[s]);
            if (s == (int)lower) pane->stands_on = fit->beside[s];
        }
    }
}

static sw_fit_pane pane_of(const fittings_job *job, const sw_item *item)
{
    sw_fit_pane pane = {.item = item,
                        .width_mm = NAN,
                        .height_mm = NAN,
                        .area_m2 = NAN,
                        .round_mm = NAN,
                        .least_mm = NAN,
                        .under_mm = NAN,
                        .stands_on = ""};
    pane.mass_kg = item->mass_kg;
    pane.thickness_mm = item->thickness_mm;
    if (item->shape.outline.n == 0) return pane;
    sw_box b = sw_contour_box(item->shape.outline);
    pane.width_mm = b.x1_mm - b.x0_mm;
    pane.height_mm = b.y1_mm - b.y0_mm;
    pane.area_m2 = sw_m2_from_mm2(sw_region_area(&item->shape));
    pane.round_mm = sw_contour_length(item->shape.outline);
    beside(job, &pane);
    return pane;
}

static sw_rope rope_of(const fittings_job *job, const sw_item *item)
{
    sw_rope rope = {.item = item, .count = item->count, .length_mm = item->length_mm, .mass_kg = item->mass_kg};
    double d_mm = item->rope_mm, deep_mm = item->groove_depth_mm, joint_mm = item->joint_mm;
    bool told = d_mm > 0 && item->groove_width_mm > 0;
    rope.seat = (sw_rope_seat){NAN, NAN, NAN};
    if (!told) return rope;
    rope.seat.compression = sw_rope_compression(d_mm, deep_mm, joint_mm);
    rope.seat.hot = sw_rope_compression(d_mm, deep_mm, joint_mm + job->opt->opens_mm);
    rope.seat.fill = sw_rope_fill(d_mm, item->groove_width_mm, deep_mm + joint_mm);
    return rope;
}

static sw_status panes_and_ropes(sw_run *run, fittings_job *job)
{
    const sw_stove *stove = job->in->stove;
    sw_fit_pane *panes = SW_KEEP(run, stove->item_count, sw_fit_pane);
    sw_rope *ropes = SW_KEEP(run, stove->item_count, sw_rope);
    if (panes == NULL || ropes == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->item_count; i++) {
        const sw_item *item = &stove->items[i];
        if (item->kind == SW_ITEM_GLASS) panes[job->result->pane_count++] = pane_of(job, item);
        if (item->kind == SW_ITEM_ROPE) ropes[job->result->rope_count++] = rope_of(job, item);
    }
    job->result->panes = panes;
    job->result->ropes = ropes;
    return SW_OK;
}

static sw_status drop(sw_run *run, fittings_job *job)
{
    size_t count;
    const sw_impact_level *levels = sw_impact_levels(&count);
    sw_drop_level *out = SW_KEEP(run, count, sw_drop_level);
    if (out == NULL) return SW_NO_MEMORY;
    sw_drop *d = &job->result->drop;
    d->mass_kg = sw_ball_kg(job->opt->ball_mm);
    d->energy = sw_drop_j(d->mass_kg, job->opt->drop_mm);
    d->speed_m_s = sw_drop_m_s(job->opt->drop_mm);
    for (size_t i = 0; i < count; i++)
        out[i] =
            (sw_drop_level){&levels[i], sw_drop_height_mm(levels[i].energy, d->mass_kg), d->energy >= levels[i].energy};
    d->levels = out;
    d->level_count = count;
    return SW_OK;
}

sw_status fittings_glass(sw_run *run, fittings_job *job)
{
    SW_TRY(panes_and_ropes(run, job));
    return drop(run, job);
}
