/* join_stated.c: preheat, shrinkage, the leak test, and figures that the works did not give. */
#include "making/join/join_findings_parts.h"

#include <string.h>

sw_status join_judge_preheat(sw_run *run, join_job *job)
{
    double thick_mm = 0, least_heat = INFINITY;
    const sw_join_options *o = job->opt;
    for (size_t i = 0; i < job->seam_count; i++) {
        const sw_join_seam *s = job->seams[i].out;
        thick_mm = fmax(thick_mm, fmax(s->thick_a_mm, s->thick_b_mm));
        least_heat = fmin(least_heat, s->heat_kj_mm);
    }
    if (job->seam_count == 0) return SW_OK;
    double cet = sw_carbon_equivalent_cet((sw_composition){.c = o->carbon, .mn = o->manganese});
    const double formula_from_mm = 10, most_cet = 0.36;
    bool none = thick_mm <= formula_from_mm && cet <= most_cet;
    double preheat_k = sw_preheat_k(cet, thick_mm, o->hydrogen, least_heat);
    sw_finding f = join_statement(job, "preheat", "all seams", SW_HOLDS);
    f.source = "EN 1011-2 annex C, method B (from memory); none below 10 mm: common practice, no source";
    f.remedy = "ask a welding engineer, or keep below 10 mm and CET 0.36";
    f.verdict = none ? SW_HOLDS : isnan(preheat_k) ? SW_UNKNOWN : SW_WATCH;
    if (none)
        f.what = sw_text_format(run, run->keep, "CET %.2f, sheets to %g mm: no preheat (the formula begins at 10 mm)",
                                cet, thick_mm);
    else if (isnan(preheat_k))
        f.what = sw_text_format(run, run->keep, "CET %.2f, sheets to %g mm: outside what the formula of preheat covers",
                                cet, thick_mm);
    else
        f.what = sw_text_format(run, run->keep, "CET %.2f, sheets to %g mm: preheat to %.0f degC", cet, thick_mm,
                                sw_c_from_k(preheat_k));
    return join_report(run, job, f, 0);
}

typedef struct shrunk { /* the most of each over all seams */
    size_t known, unknown;
    double across_mm, along_mm;
    const sw_join_seam *rises; /* NULL = none is long enough */
} shrunk;

static shrunk shrunk_most(const join_job *job)
{
    shrunk most = {0};
    for (size_t i = 0; i < job->seam_count; i++) {
        const sw_join_seam *s = job->seams[i].out;
        if (isnan(s->transverse_mm))
            most.unknown++;
        else
            most.known++;
        most.across_mm = fmax(most.across_mm, s->transverse_mm);
        most.along_mm = fmax(most.along_mm, s->along_mm);
        if (!isnan(s->rise_mm) && (most.rises == NULL || s->rise_mm > most.rises->rise_mm)) most.rises = s;
    }
    return most;
}

sw_status join_state_shrinkage(sw_run *run, join_job *job)
{
    shrunk most = shrunk_most(job);
    if (job->seam_count == 0) return SW_OK;
    sw_finding f = join_statement(job, "shrinkage", "all seams", SW_HOLDS);
    f.source =
        "across: Okerblom, a butt outside its range by Spraragen and Ettinger; along: a welding institute's published answers on distortion; rise: "
        "Blodgett, to the peak of Watanabe and Satoh (all but the answers from memory)";
    const char *across = most.known == 0 ? "unknown"
                                         : sw_text_format(run, run->keep, "to %.2f mm (%zu seams; of %zu unknown)",
                                                          most.across_mm, most.known, most.unknown);
    const char *rise = most.rises == NULL ? "of none known"
                                          : sw_text_format(run, run->keep, "at most %.1f mm, %s (doubtful)",
                                                           most.rises->rise_mm, most.rises->joint->name);
    if (across == NULL || rise == NULL) return SW_NO_MEMORY;
    f.what = sw_text_format(run, run->keep,
                            "estimates, plus or minus 50 %%: across a seam %s; along to %.2f mm; rise of a flange over "
                            "%.0f mm %s",
                            across, most.along_mm, job->opt->width_mm, rise);
    return join_report(run, job, f, 0);
}

sw_status join_state_leak(sw_run *run, join_job *job)
{
    const sw_join_result *r = job->result;
    if (r->leak_count == 0) return SW_OK;
    sw_finding f = join_statement(job, "leak_test", "tight seams", SW_UNKNOWN);
    f.source = "2 m3/h at 10 Pa is often quoted (from memory, doubtful): EN 16510-1 and the approval rule";
    f.remedy = "close flue and air inlets, blow or suck, read the flow; search with smoke or soap at the points listed";
    f.what = sw_text_format(
        run, run->keep,
        "to be measured: %.1f m of tight seam, %zu points to look at; the limit of %.2f m3/h at %.0f Pa is "
        "an opening of %.0f mm2, or a gap of %.3f mm along all of it",
        sw_m_from_mm(r->tight_mm), r->leak_count, job->opt->leak_m3_s / sw_h_from_s(1), job->opt->leak_pa,
        r->leak_area_mm2, r->leak_gap_mm);
    return join_report(run, job, f, 0);
}

typedef struct wanted {
    double value;
    const char *name;
    bool robot;
} wanted;

/* One finding names what is missing and what is not known because of it. */
sw_status join_state_figures(sw_run *run, join_job *job)
{
    const sw_welding *w = job->welding;
    if (w == NULL) return SW_OK;
    const wanted all[] = {{w->hand_share, "arc-on share by hand", false},
                          {w->tack_s, "time of a tack", false},
                          {w->hand_torch.nozzle_long_mm, "torch held by hand", false},
                          {w->hand_torch.arm_long_mm, "what carries the torch by hand, up to the arm", false},
                          {w->robot_torch.nozzle_long_mm, "torch of the robot", true},
                          {w->robot_torch.arm_long_mm, "what carries the robot's torch, up to the arm", true},
                          {w->robot_air_mm_s, "robot speed between seams", true},
                          {w->robot_start_s, "robot start", true},
                          {w->turn_s, "turn of the positioner", true},
                          {w->fixture_s, "fixture time", true},
                          {w->gap_bridged, "gap the robot bridges", true},
                          {w->robot_load_kg, "load of the positioner", true},
                          {w->reach_mm, "reach of the robot", true},
                          {sw_weld_efficiency(w->process) > 0, "a process with a known thermal efficiency", false}};
    const char *text = NULL;
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        if (all[i].value > 0 || (all[i].robot && !w->robot)) continue;
        text = text == NULL ? all[i].name : sw_text_format(run, run->keep, "%s, %s", text, all[i].name);
        if (text == NULL) return SW_NO_MEMORY;
    }
    if (text == NULL) return SW_OK;
    sw_finding f = join_statement(job, "works_figures", "welding table", SW_UNKNOWN);
    f.source = "works description";
    f.place = job->in->works->place;
    f.remedy = "give them in the welding table of the works";
    f.what = sw_text_format(run, run->keep,
                            "not given, so that times and costs count without or the check is left out: %s", text);
    return join_report(run, job, f, 0);
}
