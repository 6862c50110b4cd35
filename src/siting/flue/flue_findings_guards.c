/* flue_findings_guards.c: figures that are allowed and still a warning: handbook S1.12. */
#include "siting/flue/flue_parts.h"

#include <math.h>
#include <string.h>

static sw_status add(sw_run *run, sw_flue_result *r, sw_finding f)
{
    if (f.what == NULL) return SW_NO_MEMORY;
    return sw_finding_add(run, &r->findings, f, 0);
}

static sw_status judge_velocity(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    static const double least_m_s = 0.5;
    sw_finding f = flue_finding(in, "velocity", "chimney");
    f.what = sw_text_format(run, run->keep, "gas rises at %.2f m/s where it is slowest (usual: from %.1f m/s)",
                            r->pressure.velocity_m_s, least_m_s);
    f.source = "older Czech and German practice, articles seen; EN 13384-1 has no limit for solid fuel";
    if (!(r->pressure.velocity_m_s >= least_m_s)) {
        f.verdict = SW_WATCH;
        f.remedy = "a narrower flue is faster and warmer; wind disturbs slow gas";
    }
    return add(run, r, f);
}

/* A flue narrower than the stove's outlet: what the code names, or NULL. The site study holds the same rules as rows
 * flue_share_of_outlet. */
static const char *forbidden(const char *code)
{
    static const char *const rules[][2] = {
        {"England", "Approved Document J, table 2: never smaller than the appliance outlet (seen in several reprints)"},
        {"USA", "NFPA 211: flue area not below the collar's (from memory)"},
        {"France", "the connecting pipe not below the socket (seen in a stove installer's guide)"}};
    for (size_t i = 0; i < sizeof rules / sizeof *rules; i++)
        if (strcmp(code, rules[i][0]) == 0) return rules[i][1];
    return NULL;
}

double flue_narrowest_m2(const sw_house *house)
{
    double least_m2 = INFINITY;
    for (size_t i = 0; i < house->part_count; i++) least_m2 = fmin(least_m2, sw_flue_area_m2(&house->parts[i]));
    return least_m2;
}

bool flue_is_narrowed(const sw_flue_input *in)
{
    return flue_narrowest_m2(in->house) < flue_collar_m2(in) * (1 - 1e-9);
}

static sw_status judge_narrow(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    const char *rule = forbidden(in->house->code);
    if (!flue_is_narrowed(in)) return SW_OK;
    sw_finding f = flue_finding(in, "narrowed", "flue");
    f.what = sw_text_format(run, run->keep, "the flue narrows to %.0f %% of the stove's outlet",
                            100 * flue_narrowest_m2(in->house) / flue_collar_m2(in));
    f.verdict = rule == NULL ? SW_WATCH : SW_FAILS;
    f.source = rule == NULL ? "never smaller than the appliance outlet: makers' instructions, seen" : rule;
    f.remedy = "no part of the flue narrower than the outlet, unless the maker allows it";
    return add(run, r, f);
}

static sw_status judge_area(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    static const double most = 3;
    double area_m2 = 0, collar_m2 = flue_collar_m2(in);
    for (size_t i = 0; i < in->house->part_count; i++)
        if (!in->house->parts[i].pipe) area_m2 = fmax(area_m2, sw_flue_area_m2(&in->house->parts[i]));
    sw_finding f = flue_finding(in, "area_ratio", "chimney");
    f.what =
        sw_text_format(run, run->keep, "the chimney's section is %.2f times the stove's outlet (usual: to %.0f times)",
                       area_m2 / collar_m2, most);
    f.source = "NFPA 211 (from memory), a warning only";
    f.value = area_m2 / collar_m2;
    f.limit = most;
    if (area_m2 > most * collar_m2) {
        f.verdict = SW_WATCH;
        f.remedy = "line it: a wide shaft is slow, cold and wet";
    }
    return add(run, r, f);
}

static sw_status judge_height(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    static const double least_m = 4.5;
    double height_m = flue_chimney_rise_m(in->house);
    for (size_t i = 0; i < in->house->part_count; i++)
        if (in->house->parts[i].pipe) height_m += in->house->parts[i].rise_m;
    sw_finding f = flue_finding(in, "height", "chimney");
    f.what = sw_text_format(run, run->keep, "the outlet stands %.2f m over the stove's (usual: from %.1f m)", height_m,
                            least_m);
    f.source = "Approved Document J 2.8 (a district council's note, seen): 4.5 m could be satisfactory";
    if (height_m < least_m) {
        f.verdict = SW_WATCH;
        f.remedy = "a flue this short hangs on weather and wind; the draught at the first fire decides";
    }
    return add(run, r, f);
}

static sw_status judge_falling(sw_run *run, const sw_flue_input *in, sw_flue_result *r, const sw_flue_part *part)
{
    sw_finding f = flue_finding(in, "falling_pipe", part->name);
    f.what = sw_text_format(run, run->keep, "the pipe falls %.2f m on its way to the chimney", -part->rise_m);
    f.verdict = SW_WATCH;
    f.source = "handbook S1.12; " FLUE_HABIT;
    f.remedy = "lead it level or rising; cold gas collects in a falling pipe and holds up the start";
    f.place = part->place;
    return add(run, r, f);
}

static sw_status judge_rough(sw_run *run, const sw_flue_input *in, sw_flue_result *r, const sw_flue_line *l)
{
    sw_finding f = flue_finding(in, "roughness", l->part->name);
    f.what = sw_text_format(run, run->keep, "so rough that friction is %.1f times a smooth wall's; 3 times is counted",
                            l->psi / l->psi_smooth);
    f.verdict = SW_WATCH;
    f.source = "EN 13384-1 cl. 5.8.3.2 (from memory): psi/psi_smooth < 3";
    f.remedy = "line the flue";
    f.place = l->part->place;
    return add(run, r, f);
}

sw_status flue_judge_guards(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    SW_TRY(judge_velocity(run, in, r));
    SW_TRY(judge_area(run, in, r));
    SW_TRY(judge_narrow(run, in, r));
    SW_TRY(judge_height(run, in, r));
    for (size_t i = 0; i < r->pressure.line_count; i++) {
        const sw_flue_line *l = &r->pressure.lines[i];
        if (l->part->rise_m < 0) SW_TRY(judge_falling(run, in, r, l->part));
        if (l->psi >= 3 * l->psi_smooth) SW_TRY(judge_rough(run, in, r, l));
    }
    return SW_OK;
}
