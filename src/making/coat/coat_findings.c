/* coat_findings.c: what of blasting and coating needs care. */
#include "making/coat/coat_parts.h"

#include <math.h>

#define PRACTICE "common practice, no source"

sw_finding coat_finding(const coat_job *job, const char *check, const char *where)
{
    sw_place place = job->coating != NULL     ? job->coating->place
                     : job->in->works != NULL ? job->in->works->place
                                              : job->in->stove->place;
    return sw_finding_of("coat", check, where, place);
}

static sw_status add(sw_run *run, coat_job *job, sw_finding f, double watch)
{
    return f.what == NULL ? SW_NO_MEMORY : sw_finding_add(run, &job->result->findings, f, watch);
}

static sw_status missing(sw_run *run, coat_job *job, const char *check, const char *what, const char *remedy)
{
    sw_finding f = coat_finding(job, check, "works");
    f.verdict = SW_UNKNOWN;
    f.what = what;
    f.remedy = remedy;
    f.source = "works description";
    return add(run, job, f, 0);
}

/* ---- blasting ---- */

static sw_status thin_finding(sw_run *run, coat_job *job, const sw_coat_line *line)
{
    sw_finding f = coat_finding(job, "thin_sheet", line->piece->name);
    f.sense = SW_AT_LEAST;
    f.value = line->piece->thickness_mm;
    f.limit = job->blasting->least_mm;
    f.unit = "mm";
    f.source = "works description; sheet blasted from one side bows: " PRACTICE;
    f.remedy = "blast both sides at low pressure, or degrease and scuff it instead";
    f.place = line->piece->place;
    f.what = sw_text_format(run, run->keep, "sheet of %g mm may bow when blasted; the works blasts from %g mm", f.value,
                            f.limit);
    return add(run, job, f, 0);
}

static sw_status profile_finding(sw_run *run, coat_job *job)
{
    double peak_um = job->coating->film_um * (double)job->coating->coats;
    sw_finding f = coat_finding(job, "profile", "blasted surface");
    f.sense = SW_AT_MOST;
    f.value = job->opt->rz_um;
    f.limit = peak_um;
    f.unit = "um";
    f.source = "peaks must stay covered: " PRACTICE "; segments of ISO 8503-1 (from memory)";
    f.remedy = f.value > f.limit ? "finer media or another coat" : "";
    f.what = sw_text_format(run, run->keep, "profile Rz %g um under %g um of dry film", f.value, f.limit);
    return add(run, job, f, 0.1);
}

/* ---- spraying ---- */

static sw_status time_finding(sw_run *run, coat_job *job, const char *check, double time_s, double limit_h,
                              const char *what, const char *remedy)
{
    sw_finding f = coat_finding(job, check, "batch");
    f.sense = SW_AT_MOST;
    f.value = sw_h_from_s(time_s);
    f.limit = limit_h;
    f.unit = "h";
    f.source = PRACTICE;
    f.remedy = f.value <= f.limit ? "" : remedy;
    f.what = sw_text_format(run, run->keep, "%s of %g stoves take %.2f h", what, job->opt->stoves, f.value);
    return add(run, job, f, 0.1);
}

static sw_status solvent_finding(sw_run *run, coat_job *job)
{
    const sw_coat_result *r = job->result;
    sw_finding f = coat_finding(job, "solvent", "booth");
    f.source =
        "25 % of the lower explosive limit: EN 16985 and EN 1539 (from memory); xylene: IEC 60079-20-1 (from memory)";
    f.what = sw_text_format(run, run->keep,
                            "%.0f g of solvent a stove; at least %.0f m3/h of air keep it below %.0f %% of the "
                            "explosive limit of %.1f g/m3; health limits ask for far more",
                            sw_mm_from_m(r->solvent_kg), sw_s_from_h(r->air_m3_s), 100 * job->opt->lel_part,
                            sw_mm_from_m(r->lel_kg_m3));
    return add(run, job, f, 0);
}

static sw_status paint_findings(sw_run *run, coat_job *job)
{
    const sw_coat_result *r = job->result;
    SW_TRY(profile_finding(run, job));
    SW_TRY(time_finding(run, job, "pot", r->pot_s, job->opt->pot_h, "all coats", "open pots as they are needed"));
    if (job->blasting == NULL) return solvent_finding(run, job);
    SW_TRY(time_finding(run, job, "coat_within", r->blast_to_coat_s, job->opt->coat_within_h,
                        "from the first blasting to the end of the first coat", "smaller batches, coat each at once"));
    return solvent_finding(run, job);
}

sw_status coat_findings(sw_run *run, coat_job *job)
{
    const sw_coat_result *r = job->result;
    if (job->blasting == NULL)
        SW_TRY(missing(run, job, "blast_table", "the works has no figures for blasting: no media, no time",
                       "give the works' blasting table"));
    for (size_t i = 0; i < r->line_count; i++)
        if (r->lines[i].thin) SW_TRY(thin_finding(run, job, &r->lines[i]));
    if (job->coating != NULL) return paint_findings(run, job);
    return missing(run, job, "coat_table", "the works has no coating: no litres, no solvent, no curing",
                   "give the works' coating table");
}
