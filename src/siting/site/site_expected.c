/* site_expected.c: the record of the first fire for this house: readings, when, pass bands. handbook section 6 */
#include "siting/site/site_parts.h"

#include <math.h>
#include <string.h>

static const char standing_name[] = "standing_draught_pa";

#define PRACTICE SITE_PRACTICE
#define STEADY   "steady fire, about 30 min after refuelling, doors and windows shut"

enum { LINES_MOST = 24 };

typedef struct record {
    sw_expected *lines; /* [LINES_MOST] */
    size_t count;
} record;

static sw_expected *line(record *r, const char *name, const char *unit, const char *when)
{
    SW_ASSERT(r->count < LINES_MOST);
    sw_expected *e = &r->lines[r->count++];
    *e = (sw_expected){.name = name, .unit = unit, .when = when, .source = PRACTICE, .remedy = ""};
    e->expected = e->low = e->high = e->stop_low = e->stop_high = NAN;
    return e;
}

static void asked(record *r, const char *name, const char *when, bool yes, const char *source, const char *remedy)
{
    sw_expected *e = line(r, name, "", when);
    e->yes_no = true;
    e->expected = yes ? 1 : 0;
    e->source = source;
    e->remedy = remedy;
}

static double first_known(double a, double b)
{
    return isnan(a) ? b : a;
}

/* ---- draught and gas ---- */

static void standing(record *r, const site_job *job)
{
    sw_expected *e = line(r, standing_name, "Pa",
                          "cold, before lighting, at the outlet's test point, 150 mm or "
                          "two diameters from any regulator");
    e->expected = job->in->standing_pa;
    e->low = 2;
    e->stop_low = 0;
    e->source =
        "expected: a mild day, the flue as cold as outside; place and cold reading: HETAS (seen); limits: " PRACTICE;
    e->remedy = "below 2 Pa preheat the flue; below 0 do not light: find the cause";
}

static void hot_draught(record *r, const site_job *job)
{
    const double below_pa = 2, above_pa = 8, usual_low_pa = 10, usual_high_pa = 20;
    const sw_house *house = job->house;
    sw_expected *e = line(r, "hot_draught_pa", "Pa", STEADY);
    double need_pa = first_known(house->declared_pa, job->in->draught_pa), chimney_pa = job->in->chimney_pa;
    e->expected = chimney_pa > 0 ? chimney_pa : need_pa;
    e->low = isnan(need_pa) ? usual_low_pa : fmax(need_pa - below_pa, 0);
    e->high = isnan(need_pa) ? usual_high_pa : need_pa + above_pa;
    e->high =
        first_known(house->declared_most_pa, e->high); /* what the maker has proved stands before the usual (ours) */
    e->source = PRACTICE "; test bench 12 Pa, EN 13240 (from memory)";
    e->remedy = isnan(house->declared_most_pa)
                    ? "too little: look at the flue and its outlet; too much: a draught stabiliser, or declare the "
                      "most_draught that the type test proved"
                    : "too little: look at the flue and its outlet; too much: a draught stabiliser";
}

static void flue_gas(record *r, const site_job *job)
{
    const double band_k = 60;
    sw_expected *e = line(r, "flue_gas_c", "degC", STEADY ", at the outlet's test point");
    e->expected = sw_c_from_k(first_known(job->house->declared_k, job->in->flue_k));
    e->low = e->expected - band_k;
    e->high = e->expected + band_k;
    e->remedy = "look at air slides, load and draught";
    double co2_dry = first_known(job->house->declared_co2, job->in->co2_dry);
    if (isnan(co2_dry)) return;
    e = line(r, "flue_co2_percent", "%", STEADY ", dry gas");
    e->expected = 100 * co2_dry;
    e->source = "computed, for comparison";
}

/* ---- room ---- */

static void room(record *r, const site_job *job)
{
    bool england = site_rule(job, "extract_spillage_test") != NULL;
    const char *spillage = england ? "Approved Document J, 1.20, and HETAS in principle (seen); 30 s: " PRACTICE
                                   : "HETAS in principle (seen); 30 s: " PRACTICE;
    const char *stop = "stop: no fire until smoke stays in";
    asked(r, "smoke_spillage", "smoke match round door, joints, stabiliser, 30 s", false, spillage, stop);
    asked(r, "smoke_spillage_fans", "the same with all extract fans at full, inner door open and shut", false, spillage,
          stop);
    sw_expected *e = line(r, "room_depression_pa", "Pa", "fans at full, stove closed");
    e->expected = isinf(job->r->fans_pa) ? (double)NAN : job->r->fans_pa;
    e->high = job->depression_most_pa;
    e->source = job->depression_source;
    e->remedy = "a permanent opening to the outside, or fans that stop while the stove burns";
    e = line(r, "co_rise_ppm", "ppm",
             "breathing height, 1 m in front, at refuelling and after 30 min; over background");
    e->expected = 0;
    e->high = 3;
    e->stop_high = 10;
    e->remedy = "above 10 ppm stop, air the room, find where gas escapes; never judge by smell";
}

/* ---- surroundings ---- */

static void surroundings(record *r, const site_job *job)
{
    const double most_c = 85;
    sw_expected *e = line(r, "surroundings_c", "degC",
                          "contact thermometer on the nearest combustible, after 1 h at "
                          "nominal fire");
    e->expected = sw_c_from_k(job->surroundings_k);
    e->high = fmin(sw_c_from_k(job->in->room_k + job->rise_k), most_c);
    e->source = "EN 13240, 5.9: 65 K above the room; EN 1443: 85 degC (both from memory)";
    e->remedy = "let the fire go out; more distance or a shield";
}

static void hearth(record *r, const site_job *job)
{
    const sw_site_rule *limit = site_rule(job, "hearth_cool_c");
    bool thin =
        limit != NULL && job->house->hearth_mm > 0 && !(job->house->hearth_mm >= site_rule_value(job, "hearth_hot_mm"));
    if (!thin && !job->house->floor_combustible) return;
    if (limit != NULL && !thin) return;
    sw_expected *e = line(r, "hearth_c", "degC", "under the stove, after 1 h at nominal fire");
    e->high = thin ? limit->value : sw_c_from_k(job->in->room_k + job->rise_k);
    e->source = thin ? "Approved Document J, section 2 (seen): hearths thinner than a constructional one"
                     : "EN 13240, 5.9: the floor as the walls, 65 K above the room (from memory)";
    e->remedy = "a constructional hearth, or a heat shield under the stove";
}

static void checks(record *r)
{
    asked(r, "door_seal", "paper strip clamped at 8 points, cold: drags all round", true, PRACTICE,
          "a new rope, or the "
          "door set again");
    asked(r, "controls",
          "each air slide free over its travel and marked; stabiliser set; door shuts by itself if asked", true,
          PRACTICE, "mend it before the fire");
    asked(r, "co_alarm_sounds", "test button", true, "EN 50292 (seen)", "no fire without an alarm that sounds");
    asked(r, "co_alarm_sited", "placed as the findings or its maker say", true, "EN 50292 (seen)", "move it");
    asked(r, "papers", "notice plate, designation, serial number, instruction handed over", true,
          PRACTICE "; England: Approved Document J, 1.57 (from memory)", "hand them over");
    sw_expected *e = line(r, "curing_fires", "",
                          "small 30 to 60 min, medium with the surface about 200 degC for 1 h, "
                          "full 1 to 2 h; cooling between, windows open");
    e->expected = e->low = 3;
    e->remedy = "the paint and lining are cured by three rising fires";
}

/* ---- what this house will miss by its own forecast ---- */

/* A flue as cold as a mild day draws nothing in any house: only one that draws the wrong way is worth a warning. */
static bool misses(const sw_expected *e)
{
    static const double same = 1e-9;
    if (strcmp(e->name, standing_name) == 0 && e->expected >= -same) return false;
    return !e->yes_no && (e->expected < e->low - same || e->expected > e->high + same);
}

/* Watched, not failed: the study that computed the figure judges it; the record only measures it. */
static sw_status forecast(sw_run *run, site_job *job, const sw_expected *e)
{
    bool low = e->expected < e->low;
    sw_finding f = {.check = "first_fire_forecast", .where = e->name, .unit = e->unit, .source = e->source};
    f.sense = low ? SW_AT_LEAST : SW_AT_MOST;
    f.value = e->expected;
    f.limit = low ? e->low : e->high;
    f.remedy = e->remedy;
    f.what = sw_text_format(run, run->keep, "%s: %.4g %s expected in this house, %s %.4g asked at the first fire (%s)",
                            e->name, e->expected, e->unit, low ? "at least" : "at most", f.limit, e->when);
    return site_add(run, job, f, 0, SITE_SOFT);
}

sw_status site_expect(sw_run *run, site_job *job)
{
    record r = {.lines = SW_KEEP(run, LINES_MOST, sw_expected)};
    if (r.lines == NULL) return SW_NO_MEMORY;
    standing(&r, job);
    hot_draught(&r, job);
    flue_gas(&r, job);
    room(&r, job);
    surroundings(&r, job);
    hearth(&r, job);
    checks(&r);
    job->r->expected = r.lines;
    job->r->expected_count = r.count;
    for (size_t i = 0; i < r.count; i++)
        if (misses(&r.lines[i])) SW_TRY(forecast(run, job, &r.lines[i]));
    return SW_OK;
}
