/* find_recess.c: an old fireplace the stove stands in: its walls and lintel as what is near, room left, its hearth. handbook S5.4 */
#include "siting/site/site_parts.h"

#include <math.h>

static const double gap_mm = 50; /* for a hand, a brush and moving air (common practice, no source) */

typedef struct gaps { /* from the stove's box, mm; below 0 it does not fit */
    double left_mm, right_mm, back_mm, over_mm;
    double in_mm; /* the stove's front behind the opening; below 0 it stands out */
} gaps;

static gaps gaps_of(const sw_recess *r, double width_mm, double depth_mm, double height_mm)
{
    double spare_mm = r->width_mm - width_mm, left_mm = isnan(r->left_mm) ? spare_mm / 2 : r->left_mm;
    return (gaps){left_mm, spare_mm - left_mm, r->back_mm, r->height_mm - height_mm,
                  r->depth_mm - r->back_mm - depth_mm};
}

/* ---- as near things ---- */

static sw_near wall(const sw_recess *r, const char *name, const char *side, double distance_mm)
{
    return (sw_near){.name = name,
                     .side = side,
                     .distance_mm = fmax(distance_mm, 0),
                     .combustible = r->combustible,
                     .resistance = NAN,
                     .thickness_mm = r->thickness_mm,
                     .shield_emissivity = 0.9,
                     .place = r->place};
}

sw_status sw_site_placed(sw_run *run, const sw_house *house, double width_mm, double depth_mm, double height_mm,
                         const sw_house **placed)
{
    enum { WALLS = 4 };
    const sw_recess *r = &house->recess;
    *placed = house;
    if (!(r->width_mm > 0)) return SW_OK;
    sw_house *copy = SW_KEEP(run, 1, sw_house);
    sw_near *near = SW_KEEP(run, house->near_count + WALLS, sw_near);
    if (copy == NULL || near == NULL) return SW_NO_MEMORY;
    *copy = *house;
    for (size_t i = 0; i < house->near_count; i++) near[i] = house->near[i];
    gaps g = gaps_of(r, width_mm, depth_mm, height_mm);
    sw_near *of = &near[house->near_count];
    of[0] = wall(r, "recess, back", "back", g.back_mm);
    of[1] = wall(r, "recess, left jamb", "left", g.left_mm);
    of[2] = wall(r, "recess, right jamb", "right", g.right_mm);
    of[3] = wall(r, "recess, lintel", "above", g.over_mm);
    of[3].combustible = r->lintel_combustible;
    of[3].resistance = r->lintel_resistance;
    of[3].shield_mm = r->lintel_shield_mm < of[3].distance_mm ? r->lintel_shield_mm : 0;
    copy->near = near;
    copy->near_count = house->near_count + WALLS;
    *placed = copy;
    return SW_OK;
}

/* ---- judged ---- */

static sw_status fits(sw_run *run, site_job *job, gaps g)
{
    const sw_recess *r = &job->house->recess;
    double least_mm = fmin(fmin(g.left_mm, g.right_mm), fmin(g.back_mm, g.over_mm));
    sw_finding f = {.check = "recess_fit", .where = "recess", .place = r->place, .source = SITE_PRACTICE, .remedy = ""};
    f.what = sw_text_format(
        run, run->keep,
        "in the recess of %.0f x %.0f x %.0f mm the stove has %.0f mm to the left, %.0f to the right, %.0f "
        "behind, %.0f under the lintel, and stands %.0f mm %s its front; usual are %.0f mm all round",
        r->width_mm, r->height_mm, r->depth_mm, g.left_mm, g.right_mm, g.back_mm, g.over_mm, fabs(g.in_mm),
        g.in_mm < 0 ? "out of" : "behind", gap_mm);
    if (least_mm < gap_mm)
        f.remedy = least_mm < 0 ? "a smaller stove, a larger opening, or the stove before the recess"
                                : "more room round it: it must be reached, swept, and air must move";
    return site_state(run, job, f, least_mm < 0 ? SW_FAILS : least_mm < gap_mm ? SW_WATCH : SW_HOLDS);
}

static sw_status keep(sw_run *run, site_job *job, const char *rule_name, const char *words, double there_mm)
{
    const sw_site_rule *rule = site_rule(job, rule_name);
    if (rule == NULL) return SW_OK;
    sw_finding f = {.check = rule_name, .where = "recess", .place = job->house->recess.place};
    f.value = there_mm;
    f.limit = rule->value;
    f.source = site_rule_source(run, rule);
    f.remedy = "a larger hearth before and beside the recess";
    return site_keep_off(run, job, words, f);
}

sw_status site_find_recess(sw_run *run, site_job *job)
{
    const sw_house *h = job->house;
    const sw_recess *r = &h->recess;
    if (!(r->width_mm > 0)) return SW_OK;
    gaps g = gaps_of(r, job->in->width_mm, job->in->depth_mm, job->in->height_mm);
    SW_TRY(fits(run, job, g));
    if (!(h->hearth_mm > 0)) return SW_OK;
    SW_TRY(keep(run, job, "hearth_recess_front_mm", "hearth before the jambs", h->hearth_front_mm - g.in_mm));
    /* `side` is told for any stove that may stand there, so it does not say where the plate lies */
    return keep(run, job, "hearth_recess_side_mm", "hearth beside the recess, if it lies in its middle",
                (h->hearth_width_mm - r->width_mm) / 2);
}
