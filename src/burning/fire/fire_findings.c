/* fire_findings.c: is the wood dry, the air right, the chimney dry, the firebox rightly loaded, the efficiency within reach. */
#include "burning/fire/fire_parts.h"

#include <math.h>

#define PRACTICE "common practice, no source"

/* A band with one value: the nearer end is the finding's limit. usual: a band of practice, outside it is watched only. */
typedef struct band {
    const char *check, *where, *name, *unit;
    double value, low, high;
    bool usual;
    double watch_margin;
    const char *source, *below, *above; /* what to do */
} band;

static sw_finding blank(const fire_job *job, const char *check, const char *where)
{
    sw_finding f = {.study = "fire", .check = check, .what = "", .where = where, .unit = "", .source = ""};
    f.value = f.limit = f.margin = NAN;
    f.verdict = SW_HOLDS;
    f.remedy = "";
    f.place = job->in->stove->place;
    return f;
}

static sw_status add(sw_run *run, const fire_job *job, sw_finding f, double watch_margin, bool usual)
{
    sw_findings *findings = &job->result->findings;
    if (f.what == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_finding_add(run, findings, f, watch_margin));
    sw_finding *added = &findings->items[findings->count - 1];
    if (usual && added->verdict == SW_FAILS) added->verdict = SW_WATCH;
    if (added->verdict == SW_HOLDS) added->remedy = "";
    return SW_OK;
}

static sw_status add_band(sw_run *run, const fire_job *job, band b)
{
    sw_finding f = blank(job, b.check, b.where);
    bool to_low = (b.value - b.low) / b.low < (b.high - b.value) / b.high;
    f.sense = to_low ? SW_AT_LEAST : SW_AT_MOST;
    f.value = b.value;
    f.limit = to_low ? b.low : b.high;
    f.unit = b.unit;
    f.source = b.source;
    f.remedy = to_low ? b.below : b.above;
    const char *space = b.unit[0] == '\0' ? "" : " ";
    f.what = sw_text_format(run, run->keep, "%s %.3g%s%s; %g to %g%s%s %s", b.name, b.value, space, b.unit, b.low,
                            b.high, space, b.unit, b.usual ? "is usual" : "is asked");
    if (isnan(b.value)) {
        f.what = sw_text_format(run, run->keep, "%s is not known: the size of the firebox is missing", b.name);
        f.remedy = "give the stove's firebox parts their roles, so that its size can be found";
    }
    return add(run, job, f, b.watch_margin, b.usual);
}

static sw_status fuel_findings(sw_run *run, const fire_job *job)
{
    const sw_fire_result *r = job->result;
    SW_TRY(add_band(run, job,
                    (band){"moisture", "fuel", "the wood's water is", "%", 100 * r->fuel.moisture, 12, 20,
                           r->fuel.moisture < 0.12, 0,
                           "EN 13240 annex B test fuel 16 +- 4 % (from memory); ISO 17225-5 class M20",
                           "wood this dry burns fast: smaller charges", "dry the wood longer, to 20 % or less"}));
    return add_band(run, job,
                    (band){"heating_value", "fuel", "the dry wood's net heating value is", "MJ/kg",
                           sw_fuel_lhv_dry(&r->fuel) / FIRE_MEGA, 17.5, 20, true, 0, PRACTICE,
                           "look at the composition and heating value again",
                           "look at the composition and heating value again"});
}

static sw_status gas_findings(sw_run *run, const fire_job *job)
{
    const sw_fire_result *r = job->result;
    SW_TRY(add_band(run, job,
                    (band){"lambda", "air", "the excess air is", "", job->opt->lambda, 1.6, 2.5, job->opt->lambda >= 1,
                           0, PRACTICE ": total of all air, mean of a burn", "more air, or the flame lacks it",
                           "less air: it only cools the flame and carries heat away"}));
    SW_TRY(add_band(run, job,
                    (band){"co2", "flue gas", "mean CO2 of the dry gas is", "%", 100 * r->gas.co2_dry, 8, 11, true, 0,
                           "log stoves in type tests (from memory)", "less air", "more air"}));
    sw_finding f = blank(job, "co", "flue gas");
    f.sense = SW_AT_MOST;
    f.value = sw_fire_co_mg_m3n(fire_from_per_million(job->opt->co_ppm13));
    f.limit = 1500;
    f.unit = "mg/m3n";
    f.source = "EU 2015/1185, closed fronted stoves, at 13 % O2 (from memory)";
    f.remedy = "hotter firebox, better mixing of the secondary air, smaller logs";
    f.what = sw_text_format(run, run->keep, "CO %.0f mg/m3n at 13 %% O2, %.0f mg/MJ: assumed, a type test measures it",
                            f.value, sw_fire_mg_mj(&r->fuel, f.value, FIRE_REFERENCE_O2));
    if (r->losses.unburnt > 0) { /* far beyond any limit, but nobody knows how far */
        f.value = NAN;
        f.remedy = "more air, or less wood at a time";
        f.what = sw_text_format(run, run->keep, "%.0f %% of the wood finds no air and leaves as smoke, tar and CO",
                                100 * r->losses.unburnt);
    }
    return add(run, job, f, 0.1, false);
}

static sw_status chimney_findings(sw_run *run, const fire_job *job)
{
    const sw_fire_result *r = job->result;
    sw_finding f = blank(job, "dew_point", "flue gas");
    f.sense = SW_AT_LEAST;
    f.value = job->opt->flue_c;
    f.limit = sw_c_from_k(r->gas.dew_point_k);
    f.unit = "degC";
    f.source = "derived: saturation of the gas's water (Magnus, WMO coefficients, from memory)";
    f.remedy = "hotter flue gas, drier wood";
    f.what = sw_text_format(run, run->keep, "flue gas leaves at %.0f degC; its water condenses at %.1f degC", f.value,
                            f.limit);
    SW_TRY(add(run, job, f, 1, false));
    f.check = "tar";
    f.limit = 150;
    f.source = PRACTICE ": tar settles on walls colder than about 120 to 150 degC";
    f.remedy = "hotter flue gas, more air at low load, an insulated flue";
    f.what = sw_text_format(run, run->keep, "flue gas leaves at %.0f degC; tar settles on walls colder than %.0f degC",
                            f.value, f.limit);
    return add(run, job, f, 0.2, true);
}

/* Logs lie with as much air as wood between them, and the fire needs room over them. */
static sw_status charge_finding(sw_run *run, const fire_job *job)
{
    static const double stacked_kg_m3 = 450;
    double share = job->result->batch_kg / stacked_kg_m3 / job->in->firebox_m3;
    sw_finding f = blank(job, "charge_room", "firebox");
    f.sense = SW_AT_MOST;
    f.value = 100 * share;
    f.limit = 75;
    f.unit = "%";
    f.source = "stacked beech, air-dry, 450 kg/m3 (from memory); half full, three quarters at most: " PRACTICE;
    f.remedy = "refuel sooner with less, or a larger firebox";
    f.what = isnan(share) ? "the size of the firebox is missing"
                          : sw_text_format(run, run->keep, "a charge of %.2f kg, stacked, fills %.0f %% of the firebox",
                                           job->result->batch_kg, f.value);
    return add(run, job, f, 1 - 50 / f.limit, false);
}

static sw_status firebox_findings(sw_run *run, const fire_job *job)
{
    const sw_fire_result *r = job->result;
    const sw_fire_input *in = job->in;
    double fuel_kw = r->fuel_w / FIRE_KILO;
    SW_TRY(add_band(run, job,
                    (band){"volume_loading", "firebox", "fuel power by volume", "kW/m3", fuel_kw / in->firebox_m3, 150,
                           350, true, 0, PRACTICE ", stoves of 5 to 8 kW", "a smaller firebox burns hotter and cleaner",
                           "a larger firebox, or less output"}));
    SW_TRY(add_band(run, job,
                    (band){"base_loading", "firebox", "fuel power by base area", "kW/m2", fuel_kw / in->base_m2, 60,
                           120, true, 0, PRACTICE, "a smaller base, so that the bed stays hot",
                           "a larger base, or less output"}));
    SW_TRY(charge_finding(run, job));
    return add_band(run, job,
                    (band){"charge", "firebox", "wood of a charge by volume", "kg/m3", r->batch_kg / in->firebox_m3, 25,
                           45, true, 0, "computed from charges of type tests by EN 13240",
                           "a smaller firebox, or longer burns", "refuel sooner with less, or a larger firebox"});
}

static sw_status duty_findings(sw_run *run, const fire_job *job)
{
    const sw_fire_result *r = job->result;
    const sw_duty *duty = &job->in->stove->duty;
    sw_finding f = blank(job, "refuelling", "duty");
    f.sense = SW_AT_LEAST;
    f.value = sw_min_from_s(duty->refuel_s);
    f.limit = 45;
    f.unit = "min";
    f.source = "EN 13240: refuelling interval on wood at nominal output (found in a summary of the standard)";
    f.remedy = "longer between refuellings, with larger charges";
    f.what = sw_text_format(run, run->keep, "%.2f kg of wood every %.0f min", r->batch_kg, f.value);
    SW_TRY(add(run, job, f, 0, false));
    f = blank(job, "efficiency", "duty");
    f.sense = SW_AT_LEAST;
    f.value = 100 * r->losses.efficiency;
    f.limit = 100 * duty->efficiency;
    f.unit = "%";
    f.source = "the duty's own wish, against the balance of the losses";
    f.remedy = "cooler flue gas or less excess air";
    f.what = sw_text_format(
        run, run->keep,
        "losses leave %.1f %%: flue gas at %.0f degC %.1f %%, CO %.1f %%, residue %.1f %%; %.1f %% wanted "
        "allows %.0f degC",
        f.value, job->opt->flue_c, 100 * r->losses.sensible, 100 * r->losses.co, 100 * r->losses.residue, f.limit,
        sw_c_from_k(r->flue_most_k));
    if (r->losses.unburnt > 0) {
        f.remedy = "more air, or less wood at a time";
        f.what =
            sw_text_format(run, run->keep, "losses leave %.1f %%: %.0f %% of the wood finds no air; %.1f %% wanted",
                           f.value, 100 * r->losses.unburnt, f.limit);
    } else if (isnan(r->flue_most_k))
        f.what = sw_text_format(run, run->keep, "losses leave %.1f %%; %.1f %% is not reached at any flue temperature",
                                f.value, f.limit);
    return add(run, job, f, 0, false);
}

sw_status fire_findings(sw_run *run, const fire_job *job)
{
    SW_TRY(fuel_findings(run, job));
    SW_TRY(gas_findings(run, job));
    SW_TRY(chimney_findings(run, job));
    SW_TRY(firebox_findings(run, job));
    return duty_findings(run, job);
}
