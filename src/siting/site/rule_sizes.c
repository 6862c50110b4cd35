/* rule_sizes.c: rules that follow from numbers of the house: outlet above the roof, flue, vent, hearth plate.
 * handbook S3.3, S3.4, S4.1, S5.4. One function a code; the figures are the rows of rule_tables.c. */
#include "siting/site/site.h"

#include <math.h>
#include <string.h>

static const double flat_deg = 10; /* ours: a roof flatter than this has no ridge to go by */

static double kw(double w)
{
    return w / 1e3;
}

static double row(const char *code, const char *what)
{
    const sw_site_rule *rule = sw_site_rule_find(code, what);
    return rule == NULL ? (double)NAN : rule->value;
}

static double row_m(const char *code, const char *what)
{
    return sw_m_from_mm(row(code, what));
}

/* ---- outlet above where the flue leaves the roof ---- */

/* Raises what is asked to `least_m` of the row `what`. */
static void ask(sw_site_asked *asked, const char *code, double least_m, const char *what, const char *by)
{
    if (asked->rule != NULL && !(least_m > asked->value)) return;
    *asked = (sw_site_asked){least_m, sw_site_rule_find(code, what), by};
}

/* Above a window or another building that is near enough. */
static void ask_beside(sw_site_asked *asked, const char *code, double away_m, double top_m, const char *thing)
{
    bool window = strcmp(thing, "window") == 0;
    const char *within = window ? "outlet_window_within_mm" : "outlet_things_within_mm";
    const char *above = window ? "outlet_above_window_mm" : "outlet_above_things_mm";
    if (sw_site_rule_find(code, within) == NULL) /* a code that knows things alone: a window is one */
        within = "outlet_things_within_mm", above = "outlet_above_things_mm";
    if (away_m <= row_m(code, within) && !isnan(top_m)) ask(asked, code, top_m + row_m(code, above), above, thing);
}

/* Approved Document J, diagram 17. Just above the ridge no roof lies at the outlet's level: handbook FS-14, strict reading. */
static sw_site_asked england_outlet(const char *code, const sw_roof *roof)
{
    double slope = tan(roof->pitch_rad), ridge_m = roof->ridge_m * slope;
    sw_site_asked asked = {0};
    if (roof->pitch_rad < sw_rad_from_deg(flat_deg)) {
        ask(&asked, code, row_m(code, "outlet_above_roof_mm"), "outlet_above_roof_mm", "flat roof");
    } else if (roof->ridge_m <= row_m(code, "outlet_ridge_near_mm")) {
        ask(&asked, code, ridge_m + row_m(code, "outlet_above_ridge_mm"), "outlet_above_ridge_mm", "ridge");
    } else {
        double clear_m = fmin(row_m(code, "outlet_from_roof_mm"), roof->ridge_m) * slope;
        ask(&asked, code, clear_m, "outlet_from_roof_mm", "roof surface");
        ask(&asked, code, fmin(row_m(code, "outlet_above_roof_mm"), ridge_m), "outlet_above_roof_mm", "roof surface");
    }
    if (roof->thatched) {
        ask(&asked, code, row_m(code, "outlet_thatch_roof_mm"), "outlet_thatch_roof_mm", "thatch");
        ask(&asked, code, ridge_m + row_m(code, "outlet_thatch_ridge_mm"), "outlet_thatch_ridge_mm", "ridge of thatch");
    }
    return asked;
}

/* 1. BImSchV, 19: over the ridge, or clear of the roof; the distance from a flatter roof is taken square to it. */
static sw_site_asked germany_outlet(const char *code, const sw_roof *roof)
{
    double slope = tan(roof->pitch_rad), ridge_m = roof->ridge_m * slope + row_m(code, "outlet_above_ridge_mm");
    bool flat = roof->pitch_rad <= sw_rad_from_deg(row(code, "outlet_flat_deg"));
    double clear_m =
        flat ? row_m(code, "outlet_above_roof_mm") / cos(roof->pitch_rad) : row_m(code, "outlet_from_roof_mm") * slope;
    sw_site_asked asked = {0};
    if (ridge_m <= clear_m)
        ask(&asked, code, ridge_m, "outlet_above_ridge_mm", "ridge");
    else
        ask(&asked, code, clear_m, flat ? "outlet_above_roof_mm" : "outlet_from_roof_mm", "roof surface");
    return asked;
}

/* Above everything near, the roof itself being one of the things. IRC R1003.9; order of 22 October 1969. */
static sw_site_asked things_outlet(const char *code, const sw_roof *roof)
{
    double within_m = fmin(row_m(code, "outlet_things_within_mm"), roof->ridge_m);
    sw_site_asked asked = {0};
    ask(&asked, code, within_m * tan(roof->pitch_rad) + row_m(code, "outlet_above_things_mm"), "outlet_above_things_mm",
        "roof nearby");
    if (sw_site_rule_find(code, "outlet_above_roof_mm") != NULL)
        ask(&asked, code, row_m(code, "outlet_above_roof_mm"), "outlet_above_roof_mm", "roof surface");
    return asked;
}

static const struct outlet_rule {
    const char *code;
    sw_site_asked (*asked)(const char *code, const sw_roof *roof);
} outlets[] = {
    {"England", england_outlet}, {"Germany", germany_outlet}, {"USA", things_outlet}, {"France", things_outlet}};

sw_site_asked sw_site_outlet_m(const char *code, const sw_roof *roof)
{
    for (size_t i = 0; i < sizeof outlets / sizeof *outlets; i++) {
        if (strcmp(outlets[i].code, code) != 0) continue;
        sw_site_asked asked = outlets[i].asked(code, roof);
        if (isnan(roof->pitch_rad) || isnan(roof->ridge_m)) asked.value = NAN;
        if (isnan(asked.value)) return asked;
        ask_beside(&asked, code, roof->window_m, roof->window_top_m, "window");
        ask_beside(&asked, code, roof->neighbour_m, roof->neighbour_top_m, "other building");
        return asked;
    }
    return (sw_site_asked){NAN, NULL, ""};
}

/* ---- flue ---- */

sw_site_asked sw_site_flue_mm(const char *code, double output_w, bool exempt, bool round)
{
    const char *const names[][3] = {{"flue_exempt_most_kw", "flue_exempt_mm", "flue_exempt_side_mm"},
                                    {"flue_most_kw", "flue_mm", "flue_side_mm"},
                                    {"flue_large_most_kw", "flue_large_mm", "flue_large_side_mm"}};
    const char *by = round ? "diameter" : "least side";
    for (size_t i = exempt ? 0 : 1; i < sizeof names / sizeof *names; i++) {
        if (!(kw(output_w) <= row(code, names[i][0]))) continue;
        const sw_site_rule *rule = sw_site_rule_find(code, names[i][round ? 1 : 2]);
        return (sw_site_asked){rule == NULL ? (double)NAN : rule->value, rule, by};
    }
    return (sw_site_asked){NAN, sw_site_rule_find(code, "flue_large_mm"), by};
}

/* ---- vent ---- */

static sw_site_asked by_kw(const char *code, const char *what, double output_kw)
{
    const sw_site_rule *rule = sw_site_rule_find(code, what);
    return (sw_site_asked){sw_m2_from_mm2(rule->value * output_kw), rule, "output"};
}

sw_site_asked sw_site_vent_m2(const char *code, double output_w, double permeability_m_s, bool stabiliser)
{
    const sw_site_rule *limit = sw_site_rule_find(code, "vent_tight_m3_h_m2");
    if (limit == NULL || isnan(permeability_m_s)) return (sw_site_asked){NAN, limit, "output"};
    bool tight = sw_s_from_h(permeability_m_s) <= limit->value * (1 + 1e-12); /* m/s to m/h and back */
    double output_kw = kw(output_w), first_kw = fmin(output_kw, row(code, "vent_free_kw")),
           rest_kw = output_kw - first_kw;
    if (tight) return by_kw(code, stabiliser ? "vent_stabiliser_tight_mm2_kw" : "vent_tight_mm2_kw", output_kw);
    if (!stabiliser) return by_kw(code, "vent_leaky_mm2_kw", rest_kw);
    sw_site_asked asked = by_kw(code, "vent_stabiliser_rest_mm2_kw", rest_kw);
    asked.value += sw_m2_from_mm2(row(code, "vent_stabiliser_first_mm2_kw") * first_kw);
    return asked;
}

/* ---- hearth ---- */

bool sw_site_hearth_mm(const char *code, bool usable_open, double width_mm, double depth_mm, double mm[2])
{
    double side_mm = row(code, "hearth_side_mm"), front_mm = row(code, "hearth_front_mm");
    double open_mm = row(code, "hearth_front_open_mm"), back_mm = row(code, "hearth_back_mm");
    mm[0] = mm[1] = NAN;
    if (isnan(side_mm) || isnan(front_mm)) return false;
    mm[0] = width_mm + 2 * side_mm;
    mm[1] = depth_mm + (usable_open && !isnan(open_mm) ? open_mm : front_mm) + (isnan(back_mm) ? 0 : back_mm);
    return true;
}
