/* find_code.c: which rules apply, and how far what burns may warm. handbook S5.1 */
#include "siting/site/site_parts.h"

#include <math.h>
#include <string.h>

#define ALL_CODES "England, USA, Germany, France, Czechia"

static const double test_rise_k = 65; /* EN 13240, 5.9; EN 16510-1 (from memory) */

static const char *known_code(const char *code)
{
    for (size_t i = 0; i < sw_site_code_count(); i++)
        if (strcmp(sw_site_code_at(i), code) == 0) return sw_site_code_at(i);
    return NULL;
}

static const char *nearest_code(const char *code)
{
    enum { MOST = 16 };
    const char *names[MOST];
    size_t count = 0;
    while (count < MOST && count < sw_site_code_count()) names[count] = sw_site_code_at(count), count++;
    return sw_text_nearest(code, names, count);
}

static sw_status unknown_code(sw_run *run, site_job *job)
{
    const char *code = job->house->code, *near = nearest_code(code);
    sw_finding f = {.check = "code", .where = "house", .source = "ours: rules of different codes are never mixed"};
    f.remedy = "name the code that applies (" ALL_CODES ") or have the rules of the place checked by the fitter";
    if (code[0] == '\0')
        f.what = "no code is named: physics alone is judged, no rule of any country";
    else if (near == NULL)
        f.what =
            sw_text_format(run, run->keep, "the rules of \"%.60s\" are not known here: physics alone is judged", code);
    else
        f.what = sw_text_format(run, run->keep,
                                "the rules of \"%.60s\" are not known here (did you mean %s?): physics alone is judged",
                                code, near);
    return site_state(run, job, f, SW_UNKNOWN);
}

/* 65 K above the room; where the code gives an absolute limit, the lesser of both. */
static sw_status allowed_rise(sw_run *run, site_job *job)
{
    const sw_site_rule *limit = site_rule(job, "combustible_c");
    job->rise_k = test_rise_k;
    job->rise_source = "EN 13240, 5.9, and EN 16510-1: 65 K above the room (from memory)";
    if (limit == NULL || sw_k_from_c(limit->value) - job->in->room_k >= test_rise_k) return SW_OK;
    job->rise_k = sw_k_from_c(limit->value) - job->in->room_k;
    job->rise_source = site_rule_source(run, limit);
    return job->rise_source == NULL ? SW_NO_MEMORY : SW_OK;
}

/* What a known code may be silent on here: another's rule never stands in, so it is told. */
sw_status site_find_unruled(sw_run *run, site_job *job)
{
    enum { ROWS = 3 };
    static const struct {
        const char *check, *where, *words, *rules[ROWS];
    } topics[] = {
        {"hearth_rule", "hearth", "the hearth plate", {"hearth_front_mm", "hearth_side_mm", "hearth_back_mm"}},
        {"outlet_rule",
         "outlet",
         "the outlet's height",
         {"outlet_above_roof_mm", "outlet_above_things_mm", "outlet_above_ridge_mm"}},
        {"flue_rule", "flue", "the size of the flue", {"flue_mm", "flue_share_of_outlet", "flue_least_mm2"}},
    };
    for (size_t i = 0; job->code[0] != '\0' && i < sizeof topics / sizeof *topics; i++) {
        bool held = false;
        for (size_t k = 0; k < ROWS; k++) held = held || site_rule(job, topics[i].rules[k]) != NULL;
        if (held) continue;
        sw_finding f = {.check = topics[i].check, .where = topics[i].where};
        f.what = sw_text_format(run, run->keep, "no rule of %s is held here for %s", job->code, topics[i].words);
        f.source = "ours: rules of different codes are never mixed";
        f.remedy = "ask the local authority or the sweep";
        SW_TRY(site_state(run, job, f, SW_UNKNOWN));
    }
    return SW_OK;
}

sw_status site_find_code(sw_run *run, site_job *job)
{
    const char *code = known_code(job->house->code);
    if (code == NULL) {
        SW_TRY(unknown_code(run, job));
        return allowed_rise(run, job);
    }
    job->code = code;
    sw_finding f = {.check = "code", .where = "house", .source = "docs/studies/site.md", .remedy = ""};
    f.what =
        sw_text_format(run, run->keep, "judged by the rules of %s as far as they are held here, and by physics", code);
    SW_TRY(site_state(run, job, f, SW_HOLDS));
    return allowed_rise(run, job);
}
