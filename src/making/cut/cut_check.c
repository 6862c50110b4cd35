/* cut_check.c: refuses figures with which no plan can be made. */
#include "making/cut/cut_parts.h"

#include <math.h>

typedef struct figure {
    const char *field, *unit;
    double value, low, high;
    bool low_allowed;
} figure;

static sw_status check_figure(sw_run *run, sw_place place, const figure *f)
{
    bool above = f->low_allowed ? f->value >= f->low : f->value > f->low;
    if (above && f->value <= f->high) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, place, f->field, "%g %s is outside %s %g to %g %s; mend the laser's figures",
                   f->value, f->unit, f->low_allowed ? "the range" : "what lies above", f->low, f->high, f->unit);
}

static bool has_etches(const sw_cut_input *in)
{
    for (size_t i = 0; i < in->part_count; i++)
        if (in->parts[i].etch_count > 0) return true;
    return false;
}

static sw_status check_machine(sw_run *run, const sw_cut_input *in)
{
    const sw_laser *l = in->laser;
    const figure figures[] = {
        {"laser.rapid", "mm/s", l->rapid_mm_s, 0, 1e5, false},
        {"laser.acceleration", "mm/s2", l->accel_mm_s2, 0, 1e6, false},
        {"laser.rate", "per h", l->rate_h, 0, 1e6, true},
        {"laser.micro_joint", "mm", l->micro_joint_mm, 0, 20, true},
        {"laser.micro_below", "mm", l->micro_below_mm, 0, 1e5, true},
        {"laser.etch", "mm/s", has_etches(in) ? l->etch_mm_s : 1, 0, 1e5, false},
    };
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++) SW_TRY(check_figure(run, l->place, &figures[i]));
    return SW_OK;
}

static sw_status check_row(sw_run *run, const sw_laser_row *r)
{
    const figure figures[] = {
        {"laser.rows.thickness", "mm", r->thickness_mm, 0, 100, false},
        {"laser.rows.feed", "mm/s", r->feed_mm_s, 0, 1e5, false},
        {"laser.rows.pierce", "s", r->pierce_s, 0, 100, true},
        {"laser.rows.kerf", "mm", r->kerf_mm, 0, 10, true},
        {"laser.rows.lead", "mm", r->lead_mm, 0, 100, false},
        {"laser.rows.flow", "m3/s", r->gas_m3_s, 0, 1, true},
        {"laser.rows.gas_price", "per m3", r->gas_price, 0, 1e6, true},
    };
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++) SW_TRY(check_figure(run, r->place, &figures[i]));
    return SW_OK;
}

static bool finite_contour(sw_contour c)
{
    for (size_t i = 0; i < c.n; i++)
        if (!isfinite(c.v[i].x_mm) || !isfinite(c.v[i].y_mm) || !isfinite(c.v[i].bulge)) return false;
    return c.n >= 2;
}

static sw_status check_part(sw_run *run, const sw_cut_part *part)
{
    bool sound = finite_contour(part->region.outline);
    for (size_t h = 0; h < part->region.hole_count; h++) sound = sound && finite_contour(part->region.holes[h]);
    for (size_t e = 0; e < part->etch_count; e++)
        sound = sound && finite_contour((sw_contour){part->etches[e].v, part->etches[e].n});
    if (sound) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, part->label,
                   "a contour or etch of the piece has fewer than 2 points or a coordinate that is no number; "
                   "unfold the piece again");
}

sw_status cut_check(sw_run *run, const sw_cut_input *in)
{
    SW_ASSERT(in->laser != NULL && in->stock != NULL);
    for (size_t i = 0; i < in->part_count; i++) SW_TRY(check_part(run, &in->parts[i]));
    SW_TRY(check_machine(run, in));
    return in->row == NULL ? SW_OK : check_row(run, in->row);
}
