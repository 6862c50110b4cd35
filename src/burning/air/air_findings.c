/* air_findings.c: shares, velocities, excess air, and whether smoke comes out into the room. */
#include "burning/air/air_parts.h"

#include <math.h>
#include <string.h>

#define PRACTICE "common practice, no source"

typedef struct band {
    const char *kind, *words;
    double low, high;
    const char *too_little, *too_much;
} band;

/* Shares of the air of a steady burn. */
static const band shares[] = {
    {"primary", "primary air", 0, 0.30, "gas leaves by it: more draught",
     "shut the primary slide after ignition, or make its openings smaller"},
    {"wash", "airwash", 0.40, 0.60, "a wider slot above the glass, or less air elsewhere",
     "a narrower slot above the glass, or more air by the rear jets"},
    {"rear jet", "rear jets", 0.10, 0.30, "more or larger holes in the back", "fewer or smaller holes in the back"},
    {"leak", "leaks", 0, 0.15, "gas leaves by them: more draught", "a better door seal, tighter joints"},
};

static const double wash_least_m_s = 1.0; /* ours: weaker films break up before they reach the sill */
static const double gas_most_m_s = 6.0;   /* EN 15544, gas in the flues of masonry heaters, 1.2 to 6 (from memory) */
static const double inlet_low = 5.0 / 12, inlet_high = 8.0 / 12; /* of the draught, spent in the openings */
static const double lambda_low = 1.6, lambda_high = 2.5;

typedef struct judge_job {
    const sw_air_input *in;
    const sw_air_network *network;
    const sw_air_solution *solution;
    sw_findings *findings;
} judge_job;

static sw_finding blank(const judge_job *job, const char *check, const char *where)
{
    sw_finding f = {.study = "air", .check = check, .what = "", .where = where, .sense = SW_STATED, .unit = ""};
    f.value = f.limit = f.margin = NAN;
    f.verdict = SW_HOLDS;
    f.source = PRACTICE;
    f.remedy = "";
    f.place = job->in->stove->place;
    return f;
}

static bool is_opening(const sw_air_way *w)
{
    return w->from == SW_AIR_ROOM && strcmp(w->kind, "leak") != 0;
}

static sw_place place_of(const judge_job *job, size_t way)
{
    const sw_stove *stove = job->in->stove;
    return way < stove->opening_count ? stove->openings[way].place : stove->place;
}

static double kg_h(double kg_s)
{
    return sw_s_from_h(kg_s); /* as many kg in an hour */
}

/* ---- shares ---- */

static bool has_kind(const judge_job *job, const char *kind)
{
    for (size_t i = 0; i < job->network->way_count; i++)
        if (strcmp(job->network->ways[i].kind, kind) == 0) return true;
    return false;
}

static sw_status share_finding(sw_run *run, const judge_job *job, const band *b)
{
    double share = sw_air_share_of(job->network, job->solution, b->kind);
    double air_kg_s = sw_air_entering_kg_s(job->network, job->solution);
    sw_finding f = blank(job, "air_share", b->kind);
    f.what = sw_text_format(run, run->keep, "%s: %.0f %% of %.1f kg/h of air (usual in a steady burn: %.0f to %.0f %%)",
                            b->words, 100 * share, kg_h(air_kg_s), 100 * b->low, 100 * b->high);
    if (f.what == NULL) return SW_NO_MEMORY;
    if (isnan(share)) {
        f.what = "no air enters, so its shares are not known";
        f.verdict = SW_UNKNOWN;
        f.remedy = "more draught";
    } else if (share < b->low || share > b->high) {
        f.verdict = SW_WATCH;
        f.remedy = share < b->low ? b->too_little : b->too_much;
    }
    return sw_finding_add(run, job->findings, f, 0);
}

static sw_status share_findings(sw_run *run, const judge_job *job)
{
    for (size_t i = 0; i < sizeof shares / sizeof *shares; i++)
        if (has_kind(job, shares[i].kind)) SW_TRY(share_finding(run, job, &shares[i]));
    return SW_OK;
}

/* ---- single ways ---- */

static sw_status reversed_finding(sw_run *run, const judge_job *job, size_t way)
{
    const sw_air_flow *flow = &job->solution->flows[way];
    sw_finding f = blank(job, "reversed_flow", job->network->ways[way].name);
    f.what = sw_text_format(run, run->keep, "%.2f kg/h of gas leave the stove here into the room", kg_h(-flow->kg_s));
    if (f.what == NULL) return SW_NO_MEMORY;
    f.sense = SW_AT_LEAST;
    f.value = kg_h(flow->kg_s);
    f.limit = 0;
    f.unit = "kg/h";
    f.source = "no smoke into the room: EN 16510-1 (from memory)";
    f.remedy = "lower openings, a wider throat and collar, or more draught";
    f.place = place_of(job, way);
    return sw_finding_add(run, job->findings, f, 0);
}

static sw_status reversed_findings(sw_run *run, const judge_job *job)
{
    size_t reversed = 0;
    for (size_t i = 0; i < job->network->way_count; i++) {
        if (!(job->solution->flows[i].kg_s < 0)) continue;
        reversed++;
        SW_TRY(reversed_finding(run, job, i));
    }
    if (reversed > 0) return SW_OK;
    sw_finding f = blank(job, "reversed_flow", "stove");
    f.what = "every opening lets air in and the collar lets gas out";
    f.source = "no smoke into the room: EN 16510-1 (from memory)";
    return sw_finding_add(run, job->findings, f, 0);
}

static sw_status wash_finding(sw_run *run, const judge_job *job, size_t way)
{
    const sw_air_flow *flow = &job->solution->flows[way];
    sw_finding f = blank(job, "wash_velocity", job->network->ways[way].name);
    f.what = sw_text_format(run, run->keep, "%.1f kg/h leave the slot above the glass at %.1f m/s under %.1f Pa",
                            kg_h(flow->kg_s), flow->velocity_m_s, flow->pressure_pa);
    if (f.what == NULL) return SW_NO_MEMORY;
    f.source = "ours; " PRACTICE;
    f.place = place_of(job, way);
    if (!(flow->velocity_m_s >= wash_least_m_s)) {
        f.verdict = SW_WATCH;
        f.remedy = "a wash this weak lets soot settle on the glass: more draught, or less air by other ways";
    }
    return sw_finding_add(run, job->findings, f, 0);
}

static sw_status gas_finding(sw_run *run, const judge_job *job, size_t way)
{
    const sw_air_flow *flow = &job->solution->flows[way];
    sw_finding f = blank(job, "gas_velocity", job->network->ways[way].name);
    f.what = sw_text_format(run, run->keep, "gas passes the %s at %.1f m/s and loses %.1f Pa", f.where,
                            flow->velocity_m_s, flow->pressure_pa);
    if (f.what == NULL) return SW_NO_MEMORY;
    f.source = "EN 15544, gas in the flues of masonry heaters, for comparison: 1.2 to 6 m/s (from memory)";
    if (!(flow->velocity_m_s <= gas_most_m_s)) {
        f.verdict = SW_WATCH;
        f.remedy = "a larger free area: gas this fast hums, carries ash and eats up the draught";
    }
    return sw_finding_add(run, job->findings, f, 0);
}

static sw_status opening_finding(sw_run *run, const judge_job *job, size_t way)
{
    const sw_air_flow *flow = &job->solution->flows[way];
    const sw_air_way *w = &job->network->ways[way];
    sw_finding f = blank(job, "opening", w->name);
    f.what = sw_text_format(run, run->keep, "%.1f kg/h through %.0f mm2 at %.1f m/s under %.1f Pa", kg_h(flow->kg_s),
                            sw_mm2_from_m2(w->area_m2), flow->velocity_m_s, flow->pressure_pa);
    if (f.what == NULL) return SW_NO_MEMORY;
    f.source = "computed: orifice law";
    f.place = place_of(job, way);
    return sw_finding_add(run, job->findings, f, 0);
}

static const double still_m_s = 1; /* ours: slower air is carried away by the gas of the firebox */

/* How far a jet's axis stays faster than that, against half the firebox. */
static sw_status jet_finding(sw_run *run, const judge_job *job, size_t way)
{
    const sw_air_flow *flow = &job->solution->flows[way];
    const sw_air_way *w = &job->network->ways[way];
    double gas_k = job->network->spaces[w->to].t_k, half_m = 0.5 * sqrt(job->in->geometry.base_m2);
    double jet_k = isnan(w->gas_k) ? job->network->spaces[w->from].t_k : w->gas_k;
    if (!(w->hole_m > 0) || !(flow->velocity_m_s > still_m_s) || !(half_m > 0)) return SW_OK;
    double reach_m = sw_jet_reach_m(w->hole_m, jet_k, gas_k, still_m_s / flow->velocity_m_s);
    sw_finding f = blank(job, "jet_reach", w->name);
    f.what = sw_text_format(run, run->keep,
                            "jets of %.1f mm leave at %.1f m/s and are faster than %.0f m/s for %.0f mm; "
                            "the middle of the fire is %.0f mm away",
                            sw_mm_from_m(w->hole_m), flow->velocity_m_s, still_m_s, sw_mm_from_m(reach_m),
                            sw_mm_from_m(half_m));
    if (f.what == NULL) return SW_NO_MEMORY;
    f.source = "round free jet, the most a small jet reaches: Beer & Chigier 1972, Thring & Newby 1953 (from memory); "
               "1 m/s and the middle: ours";
    f.place = place_of(job, way);
    if (reach_m < half_m) {
        f.verdict = SW_WATCH;
        f.remedy = "fewer and larger holes, or more draught";
    }
    return sw_finding_add(run, job->findings, f, 0);
}

static sw_status way_finding(sw_run *run, const judge_job *job, size_t way)
{
    const sw_air_way *w = &job->network->ways[way];
    if (!(w->area_m2 > 0)) return SW_OK;
    if (strcmp(w->kind, "throat") == 0 || strcmp(w->kind, "collar") == 0) return gas_finding(run, job, way);
    if (strcmp(w->kind, "wash") == 0) return wash_finding(run, job, way);
    if (strcmp(w->kind, "rear jet") == 0 || strcmp(w->kind, "secondary") == 0) SW_TRY(jet_finding(run, job, way));
    return opening_finding(run, job, way);
}

/* ---- the whole ---- */

/* Mean pressure over the openings, by the air through each. */
static double inlet_pa(const judge_job *job)
{
    double sum = 0, air_kg_s = 0;
    for (size_t i = 0; i < job->network->way_count; i++) {
        const sw_air_flow *flow = &job->solution->flows[i];
        if (!is_opening(&job->network->ways[i])) continue;
        sum += flow->kg_s * flow->pressure_pa;
        air_kg_s += flow->kg_s;
    }
    return air_kg_s > 0 ? sum / air_kg_s : (double)NAN;
}

static sw_status inlet_finding(sw_run *run, const judge_job *job)
{
    double pa = inlet_pa(job), draught_pa = -job->network->spaces[SW_AIR_COLLAR].pressure_pa;
    sw_finding f = blank(job, "inlet_pressure", "openings");
    f.what =
        sw_text_format(run, run->keep, "the openings take %.1f Pa, with %.1f Pa of draught (usual: %.1f to %.1f Pa)",
                       pa, draught_pa, inlet_low * draught_pa, inlet_high * draught_pa);
    if (f.what == NULL) return SW_NO_MEMORY;
    if (!(pa >= inlet_low * draught_pa)) { /* more than usual is no harm: the slides then rule the fire */
        f.verdict = isnan(pa) ? SW_UNKNOWN : SW_WATCH;
        f.remedy = "a wider throat and collar, or smaller openings";
    }
    return sw_finding_add(run, job->findings, f, 0);
}

static const char *lambda_remedy(double lambda)
{
    if (isnan(lambda)) return "give the fuel rate";
    if (lambda < lambda_low) return "more air: larger openings or slides further open, or less wood at a time";
    return lambda > lambda_high ? "less air: smaller openings or slides further shut" : "";
}

static sw_status lambda_finding(sw_run *run, const judge_job *job)
{
    double air_kg_s = sw_air_entering_kg_s(job->network, job->solution), lambda = air_lambda(job->in, air_kg_s);
    sw_finding f = blank(job, "excess_air", "stove");
    f.what =
        sw_text_format(run, run->keep, "excess air ratio %.2f: %.1f kg/h of air (usual mean of a burn: %.1f to %.1f)",
                       lambda, kg_h(air_kg_s), lambda_low, lambda_high);
    if (f.what == NULL) return SW_NO_MEMORY;
    f.remedy = lambda_remedy(lambda);
    f.verdict = lambda >= lambda_low && lambda <= lambda_high ? SW_HOLDS : SW_WATCH;
    if (isnan(lambda)) {
        f.what = "the fuel rate is not known, so neither is the excess air ratio";
        f.verdict = SW_UNKNOWN;
    } else if (lambda < lambda_low) {
        f.sense = SW_AT_LEAST;
        f.value = lambda;
        f.limit = 1;
        f.source = "balance of moles: below 1 the fuel cannot burn; usual 1.6 to 2.5: " PRACTICE;
    }
    return sw_finding_add(run, job->findings, f, lambda_low - 1);
}

sw_status sw_air_judge(sw_run *run, const sw_air_input *in, const sw_air_network *network,
                       const sw_air_solution *solution, sw_findings *findings)
{
    const judge_job job = {.in = in, .network = network, .solution = solution, .findings = findings};
    SW_TRY(lambda_finding(run, &job));
    SW_TRY(share_findings(run, &job));
    SW_TRY(inlet_finding(run, &job));
    SW_TRY(reversed_findings(run, &job));
    for (size_t i = 0; i < network->way_count; i++) SW_TRY(way_finding(run, &job, i));
    return SW_OK;
}
