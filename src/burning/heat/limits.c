/* limits.c: what coating, steel, lining, pane, rope, hands and flue bear, against the temperatures there are.
 *
 * A check over parts tells the worst part, and every other part that does not hold. */
#include "burning/heat/limits_parts.h"

#include <math.h>

static const double shortest_touch_s = 5; /* to open a door; ours */

sw_status limits_add(sw_run *run, sw_findings *findings, const limits_check *check, const sw_scene_part *part,
                     double value, double limit)
{
    sw_finding f = {.study = "heat",
                    .check = check->check,
                    .where = part->name,
                    .sense = SW_AT_MOST,
                    .value = value,
                    .limit = limit,
                    .unit = check->unit,
                    .source = check->source,
                    .remedy = "",
                    .place = part->place};
    f.what = sw_text_format(run, run->keep, "%s%s: %.0f %s%s %.0f %s", check->before, part->name, value, check->unit,
                            check->between, limit, check->unit);
    if (f.what == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_finding_add(run, findings, f, check->watch));
    sw_finding *added = &findings->items[findings->count - 1];
    if (added->verdict != SW_HOLDS) added->remedy = check->remedy;
    return SW_OK;
}

/* ---- over parts ---------------------------------------------------------------------------------------------- */

typedef struct part_check {
    limits_check text;
    bool (*applies)(const sw_heat_limits_input *in, size_t part);
    double (*value)(const sw_heat_limits_input *in, size_t part);
    double (*limit)(const sw_heat_limits_input *in, size_t part);
} part_check;

static const sw_grade *grade_of(const sw_heat_limits_input *in, size_t part)
{
    int piece = in->scene->parts[part].piece;
    return piece >= 0 && (size_t)piece < in->stove->piece_count ? in->stove->pieces[piece].grade : NULL;
}

static bool is_kind(const sw_heat_limits_input *in, size_t part, sw_part_class kind)
{
    return in->scene->parts[part].kind == kind;
}

static bool is_metal(const sw_heat_limits_input *in, size_t part)
{
    const sw_grade *g = grade_of(in, part);
    if (g != NULL) return g->kind == SW_STEEL || g->kind == SW_STAINLESS || g->kind == SW_CAST_IRON;
    return is_kind(in, part, SW_PART_GRATE) || is_kind(in, part, SW_PART_HANDLE);
}

static bool is_handle(const sw_heat_limits_input *in, size_t part)
{
    return is_kind(in, part, SW_PART_HANDLE);
}
static bool is_coated(const sw_heat_limits_input *in, size_t part)
{
    const sw_grade *g = grade_of(in, part);
    return g != NULL && g->kind == SW_STEEL && sw_scene_shows(in->scene, part, SW_MEDIUM_ROOM);
}
static bool is_scaling(const sw_heat_limits_input *in, size_t part)
{
    return is_metal(in, part) && !is_kind(in, part, SW_PART_HANDLE);
}
static bool is_lining(const sw_heat_limits_input *in, size_t part)
{
    return is_kind(in, part, SW_PART_LINING);
}
static bool is_pane(const sw_heat_limits_input *in, size_t part)
{
    return is_kind(in, part, SW_PART_PANE);
}

static double hot_c(const sw_heat_limits_input *in, size_t part)
{
    return sw_c_from_k(in->hot_k[part]);
}
static double rise_k(const sw_heat_limits_input *in, size_t part)
{
    return in->hot_k[part] - in->room_k;
}

static sw_touch touch_of(const sw_heat_limits_input *in, size_t part)
{
    const sw_material *m = in->scene->parts[part].material;
    if (m != NULL && (m == sw_material_find("spruce") || m == sw_material_find("beech"))) return SW_TOUCH_WOOD;
    return m != NULL && m == sw_material_find("glass-ceramic") ? SW_TOUCH_GLASS : SW_TOUCH_METAL;
}
static double touch_c(const sw_heat_limits_input *in, size_t part)
{
    return sw_burn_threshold_c(touch_of(in, part), shortest_touch_s);
}
static double touch_rise_k(const sw_heat_limits_input *in, size_t part)
{
    static const double metal_k = 35, ceramic_k = 45, wood_k = 60;
    sw_touch touch = touch_of(in, part);
    return touch == SW_TOUCH_METAL ? metal_k : touch == SW_TOUCH_GLASS ? ceramic_k : wood_k;
}
static double service_c(const sw_heat_limits_input *in, size_t part)
{
    const sw_material *m = in->scene->parts[part].material;
    return m == NULL ? (double)NAN : m->service_c;
}
static double coating_c(const sw_heat_limits_input *in, size_t part)
{
    (void)in, (void)part;
    return 600;
}
static double most_c(const sw_heat_limits_input *in, size_t part)
{
    return sw_c_from_k(in->most_k[part]);
}
static double peak_c(const sw_heat_limits_input *in, size_t part)
{
    const sw_material *m = in->scene->parts[part].material;
    return m == NULL ? (double)NAN : m->peak_c;
}

#define PAINT "makers of stove paint, common practice, no source: 400 to 500 degC for long, 600 for short"

/* clang-format off */
static const part_check checks[] = {
    {{"handle_rise", "", " over the room; hands bear",
      "EN 13240, EN 16510-1: operating parts, metal 35, ceramic 45, wood and plastic 60 K (from memory)",
      "supply a glove or tool with the stove, or move it away from the fire, or hold it by less metal", "K", 0.1},
     is_handle, rise_k, touch_rise_k},
    {{"handle_burn", "", "; skin burns after 5 s from",
      "ISO 13732-1:2006, as reproduced (handbook F9.1)",
      "supply a glove or tool with the stove, or move it away from the fire, or hold it by less metal", "degC", 0.05},
     is_handle, hot_c, touch_c},
    {{"coating", "", "; stove paint of its class bears",
      PAINT, "line it, shield it, or leave it without paint", "degC", 0.17},
     is_coated, hot_c, coating_c},
    {{"coating_peak", "", " at the peak of a burn; stove paint of its class bears for short",
      PAINT, "line it, shield it, or leave it without paint", "degC", 0.1},
     is_coated, most_c, coating_c},
    {{"scaling", "", "; its grade scales above", NULL,
      "line it, shield it, or take a grade that bears more", "degC", 0.1},
     is_scaling, hot_c, service_c},
    {{"scaling_peak", "", " at the peak of a burn; its grade bears that below", NULL,
      "line it, shield it, smaller charges, or take a grade that bears more", "degC", 0.05},
     is_scaling, most_c, peak_c},
    {{"lining", "", " on its hot side; its material bears", NULL, "a board that bears more", "degC",
      0.1},
     is_lining, hot_c, service_c},
    {{"lining_peak", "", " on its hot side at the peak of a burn; its material bears", NULL, "a board that bears more",
      "degC", 0.1},
     is_lining, most_c, peak_c},
    {{"pane", "", "; glass-ceramic bears for thousands of hours", NULL,
      "more air along the pane, or the pane further from the fire", "degC", 0.1},
     is_pane, hot_c, service_c},
    {{"pane_peak", "", " at the peak of a burn; glass-ceramic bears for a hundred hours", NULL,
      "more air along the pane, smaller charges, or the pane further from the fire", "degC", 0.1},
     is_pane, most_c, peak_c},
};
/* clang-format on */

static size_t worst_of(const sw_heat_limits_input *in, const part_check *c)
{
    size_t worst = SIZE_MAX;
    double least = INFINITY;
    for (size_t i = 0; i < in->scene->part_count; i++) {
        double margin = 1 - c->value(in, i) / c->limit(in, i);
        if (!c->applies(in, i) || !(margin < least)) continue;
        least = margin;
        worst = i;
    }
    return worst;
}

/* The standards allow a hot handle when a tool or glove is supplied with the stove: nothing fails, but it must be done. */
static void excuse(sw_findings *findings)
{
    sw_finding *last = &findings->items[findings->count - 1];
    if (last->verdict == SW_FAILS) last->verdict = SW_WATCH;
}

static sw_status run_check(sw_run *run, const sw_heat_limits_input *in, const part_check *c, sw_findings *findings)
{
    if (c->value == most_c && in->most_k == NULL) return SW_OK;
    size_t worst = worst_of(in, c);
    for (size_t i = 0; i < in->scene->part_count; i++) {
        if (!c->applies(in, i)) continue;
        double value = c->value(in, i), limit = c->limit(in, i);
        if (i != worst && value <= (1 - c->text.watch) * limit) continue;
        limits_check text = c->text;
        const sw_material *m = in->scene->parts[i].material;
        if (text.source == NULL) text.source = m != NULL && m->service_source != NULL ? m->service_source : "unknown";
        SW_TRY(limits_add(run, findings, &text, &in->scene->parts[i], value, limit));
        if (c->applies == is_handle) excuse(findings);
    }
    return SW_OK;
}

/* ---- rope: lies between door, pane and frame, no hotter than what it seals --------------------------------------- */

static bool has_rope(const sw_stove *stove)
{
    for (size_t i = 0; i < stove->item_count; i++)
        if (stove->items[i].kind == SW_ITEM_ROPE) return true;
    return false;
}

static sw_status check_rope(sw_run *run, const sw_heat_limits_input *in, const double *k, const char *check,
                            const char *between, sw_findings *findings)
{
    const limits_check text = {check,
                               "rope at the ",
                               between,
                               "common practice, no source",
                               "a rope that bears more, or more distance from the fire",
                               "degC",
                               0.1};
    static const double rope_c = 550;
    size_t hottest = SIZE_MAX;
    for (size_t i = 0; i < in->scene->part_count; i++) {
        bool sealed = is_pane(in, i) || is_kind(in, i, SW_PART_DOOR);
        if (sealed && (hottest == SIZE_MAX || k[i] > k[hottest])) hottest = i;
    }
    if (!has_rope(in->stove) || hottest == SIZE_MAX) return SW_OK;
    return limits_add(run, findings, &text, &in->scene->parts[hottest], sw_c_from_k(k[hottest]), rope_c);
}

sw_status limits_parts(sw_run *run, const sw_heat_limits_input *in, sw_findings *findings)
{
    for (size_t i = 0; i < sizeof checks / sizeof *checks; i++) SW_TRY(run_check(run, in, &checks[i], findings));
    SW_TRY(check_rope(run, in, in->hot_k, "rope", " at most; glass rope bears", findings));
    if (in->most_k == NULL) return SW_OK;
    return check_rope(run, in, in->most_k, "rope_peak", " at most at the peak of a burn; glass rope bears", findings);
}

/* ---- flue ---------------------------------------------------------------------------------------------------------- */

/* Of a gas: where it is told, how warm; what helps is said where it does not hold. */
static sw_status add_gas(sw_run *run, const sw_heat_limits_input *in, sw_findings *findings, sw_finding f, double watch,
                         const char *remedy)
{
    f.study = "heat";
    f.unit = "degC";
    f.remedy = "";
    f.place = in->stove->place;
    if (f.what == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_finding_add(run, findings, f, watch));
    sw_finding *added = &findings->items[findings->count - 1];
    if (added->verdict != SW_HOLDS) added->remedy = remedy;
    return SW_OK;
}

static sw_status add_flue(sw_run *run, const sw_heat_limits_input *in, sw_findings *findings, sw_finding f,
                          double watch, const char *remedy)
{
    f.where = "flue collar";
    f.value = sw_c_from_k(in->flue_k);
    return add_gas(run, in, findings, f, watch, remedy);
}

sw_status limits_flue(sw_run *run, const sw_heat_limits_input *in, sw_findings *findings)
{
    static const double tar_c = 120, waste_c = 400;
    static const char *const warmer = "less surface above the baffle, or more fuel at a time";
    double flue_c = sw_c_from_k(in->flue_k), dew_c = sw_c_from_k(in->dew_point_k);
    sw_finding dew = {.check = "flue_dew_point", .sense = SW_AT_LEAST, .limit = dew_c};
    dew.what =
        sw_text_format(run, run->keep, "gas leaves at %.0f degC; its water condenses at %.0f degC", flue_c, dew_c);
    dew.source = "water dew point of the gas (handbook F2.3)";
    SW_TRY(add_flue(run, in, findings, dew, 0.5, warmer));
    sw_finding tar = {.check = "flue_tar", .sense = SW_AT_LEAST, .limit = tar_c};
    tar.what =
        sw_text_format(run, run->keep, "gas leaves at %.0f degC; tar settles below %.0f to 150 degC", flue_c, tar_c);
    tar.source = "common practice, no source: 120 to 150 degC";
    SW_TRY(add_flue(run, in, findings, tar, 0.25, warmer));
    sw_finding hot = {.check = "flue_waste", .sense = SW_AT_MOST, .limit = waste_c};
    hot.what =
        sw_text_format(run, run->keep, "gas leaves at %.0f degC; above %.0f degC heat is wasted and the flue suffers",
                       flue_c, waste_c);
    hot.source = "common practice, no source; type tests 220 to 330 degC (handbook F10)";
    SW_TRY(add_flue(run, in, findings, hot, 0.15,
                    "more surface above the baffle, a longer way to the collar, or less fuel"));
    excuse(findings); /* practice, not a rule */
    return SW_OK;
}

/* CO burns out quickly only where it is hot. */
static sw_status limits_flame(sw_run *run, const sw_heat_limits_input *in, sw_findings *findings)
{
    static const double cold_c = 700, clean_c = 850;
    if (!(in->flame_k > 0)) return SW_OK;
    double flame_c = sw_c_from_k(in->flame_k);
    sw_finding f = {.check = "flame_cold", .where = "firebox", .sense = SW_AT_LEAST, .value = flame_c, .limit = cold_c};
    f.source =
        "firebox gas 700 to 950 degC (handbook F10); EU 2010/75, waste: 850 degC for two seconds, for comparison "
        "(from memory)";
    f.what = sw_text_format(
        run, run->keep,
        "gas in the flame, nothing given off yet, %.0f degC; CO burns out poorly below %.0f to %.0f degC", flame_c,
        cold_c, clean_c);
    SW_TRY(add_gas(run, in, findings, f, (clean_c - cold_c) / cold_c,
                   "less excess air, more of it by the ducts, a smaller firebox or more lining in it, drier wood"));
    excuse(findings); /* a mean, and practice: a type test measures CO */
    return SW_OK;
}

static sw_status check_input(sw_run *run, const sw_heat_limits_input *in)
{
    sw_status status = SW_OK;
    for (size_t i = 0; i < in->scene->part_count; i++)
        if (!(in->hot_k[i] > 0) || !(in->cold_k[i] > 0))
            status = sw_fail(run, SW_OUT_OF_RANGE, in->scene->parts[i].place, in->scene->parts[i].name,
                             "temperatures %g and %g K cannot be", in->hot_k[i], in->cold_k[i]);
    if (!(in->room_k > 0) || !(in->flue_k > 0))
        status = sw_fail(run, SW_OUT_OF_RANGE, in->stove->place, "room, flue", "temperatures %g and %g K cannot be",
                         in->room_k, in->flue_k);
    return status;
}

sw_status sw_heat_limits(sw_run *run, const sw_heat_limits_input *in, sw_findings *findings)
{
    SW_TRY(check_input(run, in));
    SW_TRY(limits_parts(run, in, findings));
    SW_TRY(limits_flue(run, in, findings));
    SW_TRY(limits_flame(run, in, findings));
    return limits_wood(run, in, findings);
}
