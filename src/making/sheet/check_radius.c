/* check_radius.c: can the steel be bent so tightly? Least inside radius by DIN 6935. */
#include "making/sheet/sheet_parts.h"

#include <math.h>

typedef struct radius_need {
    const sw_bend *bend;
    double limit_mm, along_mm; /* for this bend as it lies; along the rolling direction */
    bool may_lie_along;        /* the nest may turn it along the rolling direction */
    double margin;
} radius_need;

/* Bend line within 45 degrees of the sheet's x, which runs along the rolling direction. */
static bool lies_along(const sw_flat_bend *b)
{
    return fabs(b->to.x_mm - b->from.x_mm) >= fabs(b->to.y_mm - b->from.y_mm);
}

static radius_need need_of(const sw_piece *p, const sw_flat_bend *b)
{
    bool known = p->turns == SW_TURN_FIXED || p->turns == SW_TURN_HALF;
    double rm_mpa = p->grade == NULL ? (double)NAN : p->grade->rm_min_mpa;
    radius_need n = {.bend = b->bend, .may_lie_along = !known};
    n.along_mm = sw_min_bend_radius_mm(rm_mpa, p->thickness_mm, true, b->bend->angle_rad);
    n.limit_mm = sw_min_bend_radius_mm(rm_mpa, p->thickness_mm, known && lies_along(b), b->bend->angle_rad);
    n.margin = (b->bend->radius_mm - n.limit_mm) / n.limit_mm;
    return n;
}

sw_status sw_check_radius(sw_run *run, const sw_sheet_study *study, const sw_sheet_case *c)
{
    const sw_piece *p = c->piece->piece;
    radius_need worst = {.bend = NULL};
    for (size_t i = 0; i < c->piece->flat.bend_count; i++) {
        const sw_flat_bend *b = &c->piece->flat.bends[i];
        if (b->bend->kind != SW_PRESSED) continue;
        radius_need n = need_of(p, b);
        if (worst.bend == NULL || n.margin < worst.margin) worst = n;
    }
    if (worst.bend == NULL) return SW_OK;
    bool tight_along = worst.may_lie_along && worst.bend->radius_mm < worst.along_mm;
    bool across_does = worst.bend->radius_mm >= worst.limit_mm; /* turning the piece helps only then */
    sw_finding f = {.check = "least_radius",
                    .sense = SW_AT_LEAST,
                    .value = worst.bend->radius_mm,
                    .limit = worst.limit_mm,
                    .unit = "mm",
                    .source = SW_MIN_BEND_RADIUS_SOURCE,
                    .place = worst.bend->place};
    f.what = sw_text_format(run, run->keep, "inside radius %.3g mm in %.3g mm %s, at least %.3g mm%s", f.value,
                            p->thickness_mm, p->grade == NULL ? "steel" : p->grade->name, f.limit,
                            tight_along ? " across the rolling direction; more along it" : "");
    f.where = sw_text_format(run, run->keep, "%s %s, %s", p->number, p->name, worst.bend->name);
    f.remedy = isnan(f.limit) ? "outside the table of least radii: prove the radius by a trial bend"
               : tight_along && across_does
                   ? "fix how the piece lies on the sheet (turns) so that the bend runs across the rolling direction"
                   : "a larger inside radius, or a grade for flanging with a trial bend";
    return sw_sheet_report(run, study, f, tight_along ? (worst.along_mm - worst.limit_mm) / worst.limit_mm : 0.0);
}
