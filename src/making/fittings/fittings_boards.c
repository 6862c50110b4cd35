/* fittings_boards.c: the cut list of lining boards. */
#include "making/fittings/fittings_parts.h"

#include <math.h>

double fittings_cut_mm(const fittings_job *job, double drawn_mm)
{
    const double same = 1e-9, step_mm = job->opt->step_mm;
    if (job->opt->gap_mm_m <= 0) return drawn_mm;
    double smaller_mm = drawn_mm - job->opt->gap_mm_m * sw_m_from_mm(drawn_mm);
    return fmax(step_mm, floor(smaller_mm / step_mm + same) * step_mm);
}

static sw_board_cut cut_of(const fittings_job *job, const sw_item *item)
{
    sw_box b = sw_contour_box(item->shape.outline);
    double x_mm = b.x1_mm - b.x0_mm, y_mm = b.y1_mm - b.y0_mm;
    double w_mm = fittings_cut_mm(job, x_mm), h_mm = fittings_cut_mm(job, y_mm);
    sw_board_cut cut = {.item = item, .count = item->count, .holes = item->shape.hole_count};
    cut.length_mm = fmax(w_mm, h_mm);
    cut.width_mm = fmin(w_mm, h_mm);
    cut.mass_kg = item->mass_kg * (w_mm * h_mm) / (x_mm * y_mm);
    return cut;
}

sw_status fittings_boards(sw_run *run, fittings_job *job)
{
    const sw_stove *stove = job->in->stove;
    sw_board_cut *cuts = SW_KEEP(run, stove->item_count, sw_board_cut);
    if (cuts == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->item_count; i++) {
        const sw_item *item = &stove->items[i];
        if (item->kind == SW_ITEM_BOARD && item->shape.outline.n > 0)
            cuts[job->result->cut_count++] = cut_of(job, item);
    }
    job->result->cuts = cuts;
    return SW_OK;
}
