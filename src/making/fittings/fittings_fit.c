/* fittings_fit.c: boards, panes and grates in their places, cold and hot. */
#include "making/fittings/fittings_parts.h"

#include <math.h>

static bool is_fitted(const sw_item *item)
{
    bool kind = item->kind == SW_ITEM_BOARD || item->kind == SW_ITEM_GLASS || item->kind == SW_ITEM_CAST;
    return kind && item->shape.outline.n > 0 && item->count > 0;
}

static double option_k(const sw_fittings_options *o, sw_item_kind kind, bool outer)
{
    bool board = kind == SW_ITEM_BOARD, glass = kind == SW_ITEM_GLASS;
    double out_c = board ? o->wall_c : glass ? o->frame_c : o->seat_c;
    double in_c = board ? o->board_c : glass ? o->pane_c : o->grate_c;
    return sw_k_from_c(outer ? out_c : in_c);
}

double fittings_hot_k(const fittings_job *job, const sw_item *item, bool outer, bool *found)
{
    const sw_fit_heat *heat = job->in->heat;
    size_t i = (size_t)(item - job->in->stove->items);
    double t_k = heat == NULL ? (double)NAN : outer ? heat[i].round_k : heat[i].part_k;
    *found = isfinite(t_k);
    return *found ? t_k : option_k(job->opt, item->kind, outer);
}

static sw_matter_kind matter_of(sw_item_kind kind)
{
    return kind == SW_ITEM_BOARD ? SW_BOARD : kind == SW_ITEM_GLASS ? SW_GLASS : SW_CAST_IRON;
}

static double sum_mm(const double gap_mm[SW_SIDES], int axis)
{
    return gap_mm[2 * axis] + gap_mm[2 * axis + 1];
}

/* The place counts whose lesser sum of gaps is least. */
static double tightness(const double gap_mm[SW_SIDES])
{
    return fmin(sum_mm(gap_mm, 0), sum_mm(gap_mm, 1));
}

static sw_status tightest(sw_run *run, const fittings_gaps *gaps, sw_fit *fit)
{
    double best_mm = NAN;
    for (size_t k = 0; k < fit->item->count; k++) {
        double gap_mm[SW_SIDES];
        const char *beside[SW_SIDES];
        SW_TRY(fittings_gaps_of(run, gaps, fit->item, k, gap_mm, beside));
        if (k > 0 && !(tightness(gap_mm) < best_mm)) continue;
        best_mm = tightness(gap_mm);
        for (int s = 0; s < SW_SIDES; s++) {
            fit->gap_mm[s] = gap_mm[s];
            fit->beside[s] = beside[s];
        }
    }
    return SW_OK;
}

static void cold_and_hot(const fittings_job *job, sw_fit *fit)
{
    fit->inner_k = fittings_hot_k(job, fit->item, false, &fit->inner_found);
    fit->outer_k = fittings_hot_k(job, fit->item, true, &fit->outer_found);
    double in = sw_fit_elongation(matter_of(fit->item->kind), fit->inner_k);
    double out = sw_fit_elongation(SW_STEEL, fit->outer_k);
    for (int a = 0; a < 2; a++) {
        double size_mm = fit->size_mm[a];
        fit->cut_mm[a] = fit->item->kind == SW_ITEM_BOARD ? size_mm - fittings_cut_mm(job, size_mm) : 0;
        fit->inner_mm[a] = (size_mm - fit->cut_mm[a]) * in;
        fit->cold_mm[a] = sum_mm(fit->gap_mm, a) + fit->cut_mm[a];
        double opening_mm = isfinite(fit->cold_mm[a]) ? size_mm - fit->cut_mm[a] + fit->cold_mm[a] : size_mm;
        fit->outer_mm[a] = opening_mm * out;
        fit->need_mm[a] = sw_fit_clearance_mm(fit->inner_mm[a], fit->outer_mm[a], job->opt->tolerance_mm);
        fit->hot_mm[a] = fit->cold_mm[a] - fit->inner_mm[a] + fit->outer_mm[a];
    }
}

static sw_status fit_of(sw_run *run, const fittings_job *job, const fittings_gaps *gaps, const sw_item *item,
                        sw_fit *fit)
{
    sw_box b = sw_contour_box(item->shape.outline);
    *fit = (sw_fit){.item = item, .size_mm = {b.x1_mm - b.x0_mm, b.y1_mm - b.y0_mm}};
    SW_TRY(tightest(run, gaps, fit));
    cold_and_hot(job, fit);
    return SW_OK;
}

sw_status fittings_fits(sw_run *run, fittings_job *job)
{
    const sw_stove *stove = job->in->stove;
    fittings_gaps *gaps = NULL;
    sw_fit *fits = SW_KEEP(run, stove->item_count, sw_fit);
    if (fits == NULL) return SW_NO_MEMORY;
    SW_TRY(fittings_gaps_make(run, job, &gaps));
    for (size_t i = 0; i < stove->item_count; i++)
        if (is_fitted(&stove->items[i]))
            SW_TRY(fit_of(run, job, gaps, &stove->items[i], &fits[job->result->fit_count++]));
    job->result->fits = fits;
    return SW_OK;
}
