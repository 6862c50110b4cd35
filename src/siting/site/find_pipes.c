/* find_pipes.c: distances of pipes and stacks from what burns, the pipe's way, the flue's size. handbook S3.2, S3.4, S3.5 */
#include "siting/site/site_parts.h"

#include <math.h>
#include <string.h>

static const double pipe_emissivity = 0.9; /* painted steel, as the walls of handbook FS-22 */
static const double watch_share = 0.1;     /* ours */
static const double same_share = 0.01;     /* ours: tubes are round to some tenths of a mm */
static const double insulation_w_mk = 0.2; /* ours: a sheath that conducts less counts as insulation */

#define FARTHER "more distance, or a ventilated shield between"

static bool
is_declared(const sw_flue_part *part) /* its own distance is part of its designation: judged by the flue study */
{
    return part->designation[0] != '\0';
}

/* ---- distances ---- */

static sw_status by_rule(sw_run *run, site_job *job, const sw_flue_part *part, const sw_site_rule *rule,
                         double needed_mm)
{
    if (rule == NULL) return SW_OK;
    sw_finding f = {.check = "flue_distance", .where = part->name, .place = part->place};
    f.value = part->combustible_mm;
    f.limit = needed_mm;
    f.source = site_rule_source(run, rule);
    f.remedy = FARTHER;
    return site_keep_off(run, job, sw_text_format(run, run->keep, "combustible beside %s", part->name), f);
}

static bool is_sheathed(const site_job *job, const sw_flue_part *part)
{
    for (size_t i = 0; i < part->layer_count; i++) {
        double conductivity = sw_flue_layer_conductivity(&part->layers[i]); /* 0: an air gap is no insulation */
        if (conductivity > 0 && conductivity <= insulation_w_mk &&
            part->layers[i].thickness_mm >= site_rule_value(job, "pipe_sheath_mm"))
            return true;
    }
    return false;
}

/* Multiples of the pipe's diameter, or a distance; less where it is sheathed. */
static sw_status pipe_by_rule(sw_run *run, site_job *job, const sw_flue_part *part)
{
    const sw_site_rule *times = site_rule(job, "pipe_diameters"),
                       *rule = site_rule(job, is_sheathed(job, part) ? "pipe_sheathed_mm" : "pipe_mm");
    if (times == NULL) return by_rule(run, job, part, rule, rule == NULL ? (double)NAN : rule->value);
    double outer_mm = site_part_outer_mm(part);
    if (isnan(outer_mm)) outer_mm = sw_mm_from_m(job->in->pipe_diameter_m);
    if (isnan(outer_mm)) outer_mm = site_part_side_mm(part);
    return by_rule(run, job, part, times, times->value * outer_mm);
}

static sw_status pipe_temperature(sw_run *run, site_job *job, const sw_flue_part *part)
{
    double d_m = job->in->pipe_diameter_m, pipe_k = job->in->pipe_k, room_k = job->in->room_k;
    sw_finding f = {.check = "pipe_temperature", .where = part->name, .sense = SW_AT_MOST, .unit = "K"};
    f.place = part->place;
    f.limit = job->rise_k;
    f.source = job->rise_source;
    f.remedy = FARTHER;
    double axis_m = d_m / 2 + sw_m_from_mm(part->combustible_mm),
           wall_k = sw_wall_beside_pipe_k(d_m, pipe_k, pipe_emissivity, axis_m, room_k);
    double needed_mm = sw_mm_from_m(sw_pipe_distance_m(d_m, pipe_k, pipe_emissivity, room_k, job->rise_k));
    f.value = wall_k - room_k;
    if (isnan(wall_k)) {
        f.what = sw_text_format(run, run->keep, "%s: the pipe's temperature is not computed", part->name);
        return site_add(run, job, f, 0, SITE_HARD);
    }
    if (!(job->surroundings_k > wall_k)) job->surroundings_k = wall_k;
    f.what = sw_text_format(run, run->keep,
                            "what burns %.0f mm from %s warms to %.0f degC, %.0f K above the room; %.0f mm keep it "
                            "within %.0f K",
                            part->combustible_mm, part->name, sw_c_from_k(wall_k), f.value, ceil(needed_mm), f.limit);
    SW_TRY(site_need(run, job,
                     (sw_site_need){"combustible beside the pipe, by computed temperature", part->name, needed_mm,
                                    part->combustible_mm, "handbook S5.2, long cylinder"}));
    return site_add(run, job, f, watch_share, SITE_HARD);
}

/* From the outer face, or so far from the flue itself: whichever is met. */
static sw_status stack_by_rule(sw_run *run, site_job *job, const sw_flue_part *part)
{
    const sw_site_rule *rule = site_rule(job, "stack_outside_mm"), *flue = site_rule(job, "stack_from_flue_mm");
    if (rule != NULL && flue != NULL) {
        double wall_mm = (site_part_outer_mm(part) - site_part_side_mm(part)) / 2;
        double needed_mm = isnan(wall_mm) ? rule->value : fmin(rule->value, fmax(flue->value - wall_mm, 0));
        return by_rule(run, job, part, rule, needed_mm);
    }
    bool outdoors = part->around == SW_OUTDOORS;
    rule = site_rule(job, outdoors ? "stack_outdoors_mm" : "stack_inside_mm");
    if (rule != NULL) return by_rule(run, job, part, rule, rule->value);
    bool insulated = sw_flue_resistance(part) >= site_rule_value(job, "stack_insulated_m2k_w");
    rule = site_rule(job, insulated ? "stack_insulated_mm" : "stack_bare_mm");
    return by_rule(run, job, part, rule, rule == NULL ? (double)NAN : rule->value);
}

/* By layers, or declared with the outer size. */
static bool wall_told(const sw_flue_part *part)
{
    return part->layer_count > 0 || (!isnan(part->resistance) && !isnan(part->outer_mm));
}

static sw_status stack_contact(sw_run *run, site_job *job, const sw_flue_part *part)
{
    double resistance = wall_told(part) ? sw_flue_resistance(part) : (double)NAN;
    if (isnan(resistance) || part->combustible_mm > 0) return SW_OK;
    sw_finding f = {.check = "stack_contact", .where = part->name, .sense = SW_AT_MOST, .unit = "degC"};
    f.place = part->place;
    f.value = sw_c_from_k(job->in->flue_k);
    f.limit = sw_c_from_k(sw_flue_wood_limit_k(sw_flue_hydraulic_m(part), sw_flue_outer_m(part), resistance));
    f.source = "steady balance, 85 degC at the combustible: EN 15287-1+A1 as applied in an article of 2016 (seen)";
    f.remedy = FARTHER;
    f.what = sw_text_format(run, run->keep, "what burns touches %s: it keeps below 85 degC up to %.0f degC of gas",
                            part->name, f.limit);
    return site_add(run, job, f, watch_share, SITE_HARD);
}

static sw_status distances(sw_run *run, site_job *job, const sw_flue_part *part)
{
    if (isnan(part->combustible_mm)) return SW_OK;
    if (part->pipe) SW_TRY(pipe_temperature(run, job, part));
    if (!part->pipe) SW_TRY(stack_contact(run, job, part));
    if (is_declared(part)) return SW_OK;
    return part->pipe ? pipe_by_rule(run, job, part) : stack_by_rule(run, job, part);
}

/* ---- way ---- */

static sw_status falls(sw_run *run, site_job *job, const sw_flue_part *part)
{
    if (!(part->rise_m < 0)) return SW_OK;
    sw_finding f = {.check = "falling_pipe", .where = part->name, .place = part->place, .source = SITE_PRACTICE};
    f.what = sw_text_format(run, run->keep, "%s falls by %.0f mm", part->name, -sw_mm_from_m(part->rise_m));
    f.remedy = "lead it upwards all the way";
    return site_state(run, job, f, SW_FAILS);
}

/* Length and rise tell how steep a part is on the whole, or how long its level piece is if the rest is upright. */
static sw_status level_run(sw_run *run, site_job *job, const sw_flue_part *part)
{
    const sw_site_rule *level = site_rule(job, "pipe_level_mm"), *steep = site_rule(job, "pipe_steep_deg");
    if (level == NULL || steep == NULL || !part->pipe) return SW_OK;
    bool steep_enough = part->rise_m >= part->length_m * cos(sw_rad_from_deg(steep->value));
    sw_finding f = {.check = "level_pipe", .where = part->name, .sense = SW_AT_MOST, .unit = "mm"};
    f.place = part->place;
    f.value = steep_enough ? 0 : sw_mm_from_m(part->length_m - part->rise_m);
    f.limit = level->value;
    f.source = site_rule_source(run, level);
    f.remedy = "a shorter level piece behind the stove, the rest within 45 degrees of upright";
    f.what = steep_enough ? sw_text_format(run, run->keep, "%s keeps within %.0f degrees of upright on the whole",
                                           part->name, steep->value)
                          : sw_text_format(run, run->keep, "%s has about %.0f mm of level run", part->name, f.value);
    return site_add(run, job, f, 0, SITE_SOFT); /* judged by length and rise alone */
}

typedef struct way_up { /* of the whole flue */
    size_t bends;
    double sharpest_deg;
    bool door; /* of the pipe or the chimney's foot: the stove itself lets a brush in only past its baffle */
} way_up;

static way_up way_of(const sw_house *house)
{
    way_up w = {0};
    for (size_t i = 0; i < house->part_count; i++) {
        w.bends += house->parts[i].bends;
        w.sharpest_deg = fmax(w.sharpest_deg, sw_deg_from_rad(house->parts[i].sharpest_rad));
        w.door = w.door || house->parts[i].soot_door;
    }
    return w;
}

static const double most_bends = 4, most_deg = 45; /* twin-wall makers' instructions (seen) */

/* A tee counts as a right-angled bend; with a soot door there it can be swept. */
static sw_status bends(sw_run *run, site_job *job, way_up w)
{
    const sw_site_rule *most = site_rule(job, "bends_most"), *bend = site_rule(job, "bend_deg");
    bool ruled = most != NULL && bend != NULL;
    double allowed = ruled ? most->value : most_bends, allowed_deg = ruled ? bend->value : most_deg;
    bool sharp = w.sharpest_deg > allowed_deg + 1e-6, holds = (double)w.bends <= allowed && (!sharp || w.door);
    sw_finding f = {.check = "bends", .where = "flue", .remedy = "fewer and flatter bends, or a tee with a soot door"};
    f.source = ruled ? site_rule_source(run, most) : "twin-wall makers' instructions (seen)";
    f.what = sw_text_format(run, run->keep,
                            "%zu bends, the sharpest %.0f degrees%s; at most %.0f, none over %.0f degrees "
                            "unless a soot door lets the brush in there",
                            w.bends, w.sharpest_deg, w.door ? ", with a soot door" : "", allowed, allowed_deg);
    if (holds) f.remedy = "";
    return site_state(run, job, f, holds ? SW_HOLDS : SW_WATCH);
}

static sw_status sweeping(sw_run *run, site_job *job)
{
    way_up w = way_of(job->house);
    SW_TRY(bends(run, job, w));
    sw_finding f = {.check = "sweeping", .where = "flue", .source = SITE_PRACTICE};
    f.what = w.door
                 ? "a soot door lets the brush in; every metre must be within its reach"
                 : "no soot door is described: the brush must reach every metre through the stove or from the outlet";
    f.remedy = w.door ? "" : "a soot door at the chimney's foot, or the sweep's word that he reaches all of it";
    return site_state(run, job, f, w.door ? SW_HOLDS : SW_WATCH);
}

/* ---- size ---- */

/* Approved Document J, table 2. Whether a stove is proved clean enough for the smaller flue is not described. handbook FS-15 */
static sw_status least_size(sw_run *run, site_job *job, const sw_flue_part *part)
{
    sw_site_asked asked = sw_site_flue_mm(job->code, job->in->output_w, false, part->round),
                  exempt = sw_site_flue_mm(job->code, job->in->output_w, true, part->round);
    if (asked.rule == NULL) return SW_OK;
    sw_finding f = {.check = "flue_size", .where = part->name, .place = part->place};
    f.value = site_part_side_mm(part);
    f.limit = asked.value;
    f.source = site_rule_source(run, asked.rule);
    f.remedy = "a wider flue";
    if (f.value < asked.value && f.value >= exempt.value) {
        f.what = sw_text_format(run, run->keep,
                                "%s, %s %.0f mm: enough only if the stove is proved clean enough for "
                                "smoke control areas, otherwise %.0f mm",
                                part->name, asked.by, f.value, asked.value);
        return site_state(run, job, f, SW_WATCH);
    }
    return site_keep_off(run, job, sw_text_format(run, run->keep, "%s, %s", part->name, asked.by), f);
}

/* The stove's outlet; where it is not known the first part is taken as wide. */
static double outlet_m2(const site_job *job)
{
    double d_m = sw_m_from_mm(job->in->collar_mm);
    return d_m > 0 ? SW_PI / 4 * d_m * d_m : site_part_area_m2(&job->house->parts[0]);
}

/* Area against that of the stove's outlet. */
static sw_status share_of_outlet(sw_run *run, site_job *job, const sw_flue_part *part)
{
    const sw_site_rule *least = site_rule(job, "flue_share_of_outlet");
    bool outside = part->around == SW_OUTDOORS;
    const sw_site_rule *most = site_rule(job, outside ? "flue_most_share_outside" : "flue_most_share");
    double share = site_part_area_m2(part) / outlet_m2(job);
    if (fabs(share - 1) < same_share) share = 1;
    sw_finding f = {.check = "flue_share", .where = part->name, .value = share, .unit = "", .place = part->place};
    f.what = sw_text_format(run, run->keep, "%s has %.2f times the area of the stove's outlet", part->name, share);
    f.remedy = share < 1 ? "a flue as wide as the stove's outlet" : "line the flue";
    if (least != NULL && (share < least->value || most == NULL)) {
        f.sense = SW_AT_LEAST;
        f.limit = least->value;
        f.source = site_rule_source(run, least);
        return site_add(run, job, f, 0, SITE_HARD);
    }
    if (most == NULL) return SW_OK;
    f.sense = SW_AT_MOST;
    f.limit = most->value;
    f.source = site_rule_source(run, most);
    return site_add(run, job, f, 0, SITE_HARD);
}

/* The older German rule: area, least side, sides' ratio. */
static sw_status old_size(sw_run *run, site_job *job, const sw_flue_part *part)
{
    const sw_site_rule *area = site_rule(job, "flue_least_mm2"), *aspect = site_rule(job, "flue_aspect_most");
    if (area == NULL || aspect == NULL) return SW_OK;
    bool brick = !part->pipe && !part->round && !part->liner;
    const sw_site_rule *side = site_rule(job, brick ? "flue_side_brick_mm" : "flue_side_least_mm");
    double area_mm2 = sw_mm2_from_m2(site_part_area_m2(part)), side_mm = site_part_side_mm(part);
    double sides = part->round ? 1 : fmax(part->width_mm, part->depth_mm) / side_mm;
    sw_finding f = {
        .check = "flue_size", .where = part->name, .place = part->place, .remedy = "another flue, or a liner"};
    f.source = site_rule_source(run, area);
    f.what = sw_text_format(run, run->keep,
                            "%s: %.0f cm2 (at least %.0f), least side %.0f mm (at least %.0f), sides 1 : %.2f (at most "
                            "1 : %.1f)",
                            part->name, area_mm2 / 100, area->value / 100, side_mm, side->value, sides, aspect->value);
    bool holds = area_mm2 >= area->value && side_mm >= side->value && sides <= aspect->value;
    if (holds) f.remedy = "";
    return site_state(run, job, f, holds ? SW_HOLDS : SW_FAILS);
}

sw_status site_find_pipes(sw_run *run, site_job *job)
{
    for (size_t i = 0; i < job->house->part_count; i++) {
        const sw_flue_part *part = &job->house->parts[i];
        SW_TRY(distances(run, job, part));
        SW_TRY(falls(run, job, part));
        SW_TRY(level_run(run, job, part));
        SW_TRY(least_size(run, job, part));
        if (i > 0 || job->in->collar_mm > 0) SW_TRY(share_of_outlet(run, job, part));
        SW_TRY(old_size(run, job, part));
    }
    return job->house->part_count > 0 ? sweeping(run, job) : SW_OK;
}
