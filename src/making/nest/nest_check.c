/* nest_check.c: refuses what the search could not answer sensibly. All faults are listed. */
#include "making/nest/nest_parts.h"

#include <math.h>

static const double pieces_most = 1e12; /* more is a slip of the pen, and sums of counts stay exact. Ours */

static sw_status check_length(sw_run *run, const char *field, double value_mm, double high_mm)
{
    if (value_mm >= 0 && value_mm <= high_mm) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, field, "%s: %g mm is outside 0 to %g mm", field, value_mm,
                   high_mm);
}

static bool is_finite_contour(sw_contour c)
{
    for (size_t i = 0; i < c.n; i++)
        if (!isfinite(c.v[i].x_mm) || !isfinite(c.v[i].y_mm) || !isfinite(c.v[i].bulge)) return false;
    return c.n >= 2;
}

static bool is_finite_region(const sw_region *r)
{
    bool finite = is_finite_contour(r->outline);
    for (size_t i = 0; i < r->hole_count; i++) finite = finite && is_finite_contour(r->holes[i]);
    return finite;
}

static sw_status check_shape(sw_run *run, const sw_nest_input *in, size_t i)
{
    const sw_nest_shape *shape = &in->shapes[i];
    if (!is_finite_region(&shape->region))
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "shapes",
                       "piece \"%s\" has no outline of finite points: at least two vertices are needed", shape->name);
    double area_mm2 = sw_region_area(&shape->region);
    if (area_mm2 > 0) return SW_OK;
    return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "shapes",
                   "piece \"%s\" has an area of %g mm2: more than 0 is needed, outline counter-clockwise, holes "
                   "clockwise within it",
                   shape->name, area_mm2);
}

static sw_status check_stock(sw_run *run, const sw_stock *stock)
{
    bool sound = is_finite_region(&stock->shape) && sw_region_area(&stock->shape) > 0;
    if (sound) return SW_OK;
    return sw_fail(run, SW_BAD_INPUT, stock->place, "stock",
                   "sheet \"%s\" has no outline with an area above 0: give its length and width or a shape",
                   stock->name);
}

static sw_status check_counts(sw_run *run, const sw_nest_input *in)
{
    double pieces = 0;
    for (size_t i = 0; i < in->shape_count; i++) pieces += (double)in->shapes[i].count;
    if (pieces <= pieces_most) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "count",
                   "%g pieces are too many: at most %g; nest a smaller batch", pieces, pieces_most);
}

static sw_status check_lots(sw_run *run, const sw_nest_input *in)
{
    for (size_t i = 0; in->lot > 0 && in->stoves > 0 && i < in->shape_count; i++)
        if (in->shapes[i].count % in->stoves != 0)
            return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "stoves",
                           "piece \"%s\" is wanted %zu times for %zu stoves: lots need a whole number in each stove",
                           in->shapes[i].name, in->shapes[i].count, in->stoves);
    return SW_OK;
}

sw_status nest_check(sw_run *run, const sw_nest_input *in, const sw_nest_options *opt)
{
    size_t rows = 0;
    const sw_option *table = sw_nest_option_table(&rows);
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    SW_TRY(sw_options_check(run, table, rows, opt));
    SW_TRY(check_length(run, "web_mm", in->web_mm, 200));
    SW_TRY(check_length(run, "margin_mm", in->margin_mm, 500));
    SW_TRY(check_counts(run, in));
    sw_status status = check_lots(run, in);
    for (size_t i = 0; i < in->shape_count; i++) {
        sw_status one = check_shape(run, in, i);
        if (one != SW_OK) status = one;
    }
    for (size_t i = 0; i < in->stock_count; i++) {
        sw_status one = check_stock(run, in->stock[i]);
        if (one != SW_OK) status = one;
    }
    return status;
}
