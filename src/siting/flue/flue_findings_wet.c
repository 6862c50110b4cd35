/* flue_findings_wet.c: does water condense in the flue, where, and may it? */
#include "siting/flue/flue_parts.h"

#include <math.h>
#include <string.h>

#define EN_TEMPERATURE "EN 13384-1 cl. 5.3, 5.12 (from memory); T_iob: GOST R 59978.2-2022 table 2 (seen)"

static sw_status add(sw_run *run, sw_flue_result *r, sw_finding f, bool soft)
{
    if (f.what == NULL || f.where == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_finding_add(run, &r->findings, f, 0));
    sw_finding *last = &r->findings.items[r->findings.count - 1];
    if (soft && last->verdict == SW_FAILS) last->verdict = SW_WATCH;
    return SW_OK;
}

bool flue_is_wet(const sw_house *house)
{
    bool any = false;
    for (size_t i = 0; i < house->part_count; i++) {
        sw_chimney_class class;
        if (house->parts[i].pipe) continue;
        if (!sw_chimney_class_read(house->parts[i].designation, &class) || !class.wet) return false;
        any = true;
    }
    return any;
}

/* ---- at the outlet ---- */

static sw_status judge_outlet(sw_run *run, const sw_flue_input *in, sw_flue_result *r, const sw_flue_case *c,
                              const char *where, bool soft)
{
    bool wet = flue_is_wet(in->house);
    sw_finding f = flue_finding(in, wet ? "frost" : "condensation", where);
    f.sense = SW_AT_LEAST;
    f.value = sw_c_from_k(c->outlet_wall_k);
    f.limit = wet ? 0 : sw_c_from_k(c->dew_point_k);
    f.unit = "degC";
    f.what = sw_text_format(run, run->keep,
                            "at the outlet the inner wall is at %.1f degC with %.0f degC outside; %s %.1f degC%s",
                            f.value, sw_c_from_k(c->outside_k), wet ? "water freezes at" : "water condenses below",
                            f.limit, soft ? " (this output is estimated, not declared)" : "");
    f.source = wet ? EN_TEMPERATURE ": T_iob >= 0 degC, class W" : EN_TEMPERATURE ": T_iob >= T_p, class D";
    if (f.value < f.limit)
        f.remedy =
            "insulate the flue, or a narrower insulated liner; a warmer part over the roof; if no insulation cures it: no slow fires";
    return add(run, r, f, soft);
}

/* ---- along the way ---- */

/* Where along a part the wall falls through the dew point, 0..1: both run with exp(-K x); NAN it does not. */
static double crossing(const sw_flue_line *l, double dew_k)
{
    if (l->wall_k >= dew_k) return NAN;
    if (l->wall_entry_k <= dew_k || !(l->K > 0)) return 0;
    double left = (dew_k - l->around_k) / (l->wall_entry_k - l->around_k);
    return left > 0 ? fmin(1, -log(left) / l->K) : 1;
}

/* The first wet part of all, and at what of its length; r->first_wet_m is the first place of the chimney, wet pipe or not. */
static const sw_flue_line *first_wet(sw_flue_result *r, double *at_m)
{
    const sw_flue_line *first = NULL;
    double so_far_m = 0;
    for (size_t i = 0; i < r->temperature.line_count; i++) {
        const sw_flue_line *l = &r->temperature.lines[i];
        double wet_m = crossing(l, r->temperature.dew_point_k) * l->part->length_m;
        if (!isnan(wet_m) && first == NULL) {
            first = l;
            *at_m = wet_m;
        }
        if (l->part->pipe) continue;
        if (!isnan(wet_m)) {
            r->first_wet_m = so_far_m + wet_m;
            return first;
        }
        so_far_m += l->part->length_m;
    }
    return first;
}

static sw_status judge_along(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    double at_m = 0;
    const sw_flue_line *l = first_wet(r, &at_m);
    sw_finding f = flue_finding(in, "wet_wall", l != NULL ? l->part->name : "flue");
    f.source = "same test at the end of every part: Russian adoption of EN 13384-1, equations 141-142 (seen)";
    if (l == NULL) {
        f.what =
            sw_text_format(run, run->keep, "no part's wall falls below the dew point of %.1f degC at nominal output",
                           sw_c_from_k(r->temperature.dew_point_k));
        return add(run, r, f, false);
    }
    f.what =
        sw_text_format(run, run->keep, "from %.1f m along this part on, the wall is below the dew point of %.1f degC",
                       at_m, sw_c_from_k(r->temperature.dew_point_k));
    f.verdict = SW_WATCH;
    f.remedy = "water and tar run down from there: insulate from below this place on";
    f.place = l->part->place;
    return add(run, r, f, false);
}

/* ---- where insulation begins ---- */

static sw_status judge_change(sw_run *run, const sw_flue_input *in, sw_flue_result *r, const sw_flue_line *l)
{
    static const double more = 1.05; /* ours: less is no added insulation */
    if (l->part->pipe || !(l[1].resistance > more * l->resistance)) return SW_OK;
    sw_finding f = flue_finding(in, "insulation_change", l->part->name);
    f.sense = SW_AT_LEAST;
    f.value = sw_c_from_k(l->wall_k);
    f.limit = sw_c_from_k(r->temperature.dew_point_k);
    f.unit = "degC";
    f.what =
        sw_text_format(run, run->keep, "just before the better insulation of \"%s\" the inner wall is at %.1f degC",
                       l[1].part->name, f.value);
    f.source = EN_TEMPERATURE ": T_irb >= T_g";
    if (f.value < f.limit) f.remedy = "begin the insulation further down";
    f.place = l->part->place;
    return add(run, r, f, flue_is_wet(in->house));
}

static sw_status judge_stabiliser(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    if (!in->house->stabiliser) return SW_OK;
    sw_finding f = flue_finding(in, "stabiliser_air", "chimney");
    const sw_flue_case *c = &r->temperature;
    f.what = sw_text_format(
        run, run->keep,
        "on the coldest day %.1f g/s of room air go through the stabiliser: the gas comes to the chimney's foot with %.0f "
        "degC and its dew point to %.1f degC; both are counted",
        c->air_kg_s * 1e3, sw_c_from_k(c->mixed_k), sw_c_from_k(c->dew_point_k));
    f.source = "balances of heat and of air (physics); EN 13384-1 has a clause for such devices (from memory)";
    return add(run, r, f, false);
}

sw_status flue_judge_wet(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    SW_TRY(judge_outlet(run, in, r, &r->temperature, "outlet, nominal output", false));
    SW_TRY(judge_outlet(run, in, r, &r->temperature_low, "outlet, lowest output", !flue_lowest_declared(in)));
    SW_TRY(judge_along(run, in, r));
    for (size_t i = 0; i + 1 < r->temperature.line_count; i++)
        SW_TRY(judge_change(run, in, r, &r->temperature.lines[i]));
    return judge_stabiliser(run, in, r);
}
