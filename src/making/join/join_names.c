/* join_names.c: seams that share a finding, as one text. */

#include "making/join/join_findings_parts.h"

const char *join_names(sw_run *run, const join_job *job, const bool *chosen, size_t named_most)
{
    const char *text = NULL;
    size_t count = 0;
    for (size_t i = 0; i < job->seam_count; i++) {
        if (!chosen[i]) continue;
        const char *name = job->seams[i].out->joint->name;
        if (count++ >= named_most) continue;
        text = text == NULL ? name : sw_text_format(run, run->keep, "%s, %s", text, name);
        if (text == NULL) return NULL;
    }
    if (count <= named_most) return text == NULL ? "" : text;
    return sw_text_format(run, run->keep, "%s and %zu more", text, count - named_most);
}

static bool same(double a, double b)
{
    return (isnan(a) && isnan(b)) || fabs(a - b) < 1e-9;
}

static bool alike(const sw_join_seam *s, const sw_join_seam *t, bool heat)
{
    if (heat && (!same(s->heat_kj_mm, t->heat_kj_mm) || s->station != t->station)) return false;
    return same(s->throat_mm, t->throat_mm) && s->kind == t->kind && s->joint->tight == t->joint->tight &&
           same(fmin(s->thick_a_mm, s->thick_b_mm), fmin(t->thick_a_mm, t->thick_b_mm)) &&
           same(fmax(s->thick_a_mm, s->thick_b_mm), fmax(t->thick_a_mm, t->thick_b_mm));
}

size_t join_alike(const join_job *job, size_t seam, bool heat, bool *chosen)
{
    size_t count = 0;
    const sw_join_seam *s = job->seams[seam].out;
    for (size_t i = 0; i < job->seam_count; i++) {
        chosen[i] = alike(s, job->seams[i].out, heat);
        if (chosen[i] && i < seam) return 0;
        count += chosen[i];
    }
    return count;
}
