/* heft_findings.c: what a team can carry, and whether the stove stands. Who lifts what is the lifting study's to say. */
#include "making/heft/heft_parts.h"

#include <math.h>

static const double tip_least_deg = 10.0; /* common practice, no source; the appliance standard governs */

/* Two people 2/3 and three 1/2 of the sum of their single limits; more is unwise: NAN. Source: HSE, quoted in safety
 * guides (from memory). */
double sw_team_mass_kg(size_t people, double single)
{
    if (people <= 1) return (double)people * single;
    if (people > 3) return NAN;
    return (people == 2 ? 2.0 / 3 : 1.0 / 2) * (double)people * single;
}

static sw_finding blank(const heft_job *job, const char *check, const char *where)
{
    return sw_finding_of("heft", check, where, job->in->stove->place);
}

static sw_finding tips_at(const heft_job *job, const char *check, double tip_rad)
{
    sw_finding f = blank(job, check, "stove");
    f.sense = SW_AT_LEAST;
    f.value = sw_deg_from_rad(tip_rad);
    f.limit = tip_least_deg;
    f.unit = "deg";
    f.source = "common practice, no source; the appliance standard governs";
    return f;
}

static sw_status tip_finding(sw_run *run, heft_job *job)
{
    const sw_heft_result *r = job->result;
    sw_finding f = tips_at(job, "tipping", r->tip_rad);
    f.what = sw_text_format(run, run->keep, "tips at %.1f deg, door shut; centre of gravity %.0f mm above the floor",
                            f.value, r->stove.centre.z_mm);
    if (isnan(f.value)) f.what = "nothing of the stove stands within 5 mm of the floor, so tipping is not known";
    if (f.what == NULL) return SW_NO_MEMORY;
    if (isnan(f.value))
        f.remedy = "place the stove with its feet on the floor, z = 0";
    else if (f.value < f.limit)
        f.remedy = "a wider base, or mass lower down";
    return sw_finding_add(run, &job->result->findings, f, 0.2);
}

static sw_status open_finding(sw_run *run, heft_job *job)
{
    const sw_heft_result *r = job->result;
    if (job->in->stove->hinge_count == 0) return SW_OK;
    sw_finding f = tips_at(job, "tipping_open", r->open_rad);
    if (isnan(f.value)) {
        f.what = "with a door open it is not known: nothing stands on the floor, or seams hold what a hinge carries to "
                 "more than half of the stove";
        f.remedy = "place the stove with its feet on the floor, and let no seam cross a hinge";
        return sw_finding_add(run, &job->result->findings, f, 0.2);
    }
    f.what = sw_text_format(run, run->keep, "tips at %.1f deg, open: %s (shut %.1f deg)", f.value, r->open,
                            sw_deg_from_rad(r->tip_rad));
    if (f.what == NULL) return SW_NO_MEMORY;
    if (f.value < f.limit) f.remedy = "a wider base in front, a lighter door, or screw the stove down";
    return sw_finding_add(run, &job->result->findings, f, 0.2);
}

sw_status heft_findings(sw_run *run, heft_job *job)
{
    SW_TRY(tip_finding(run, job));
    return open_finding(run, job);
}
