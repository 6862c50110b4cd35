/* flue_findings.c: what the study says, topic by topic. */
#include "siting/flue/flue_parts.h"

#include <math.h>

sw_finding flue_finding(const sw_flue_input *in, const char *check, const char *where)
{
    sw_finding f = sw_finding_of("flue", check, where, in->house->place);
    f.source = FLUE_HABIT;
    return f;
}

/* The reason, as far as it can be told. */
static const char *why_unsolved(const sw_flue_input *in)
{
    double gas_k = fmin(in->nominal.t_k, flue_lowest_of(in).t_k);
    return gas_k <= 293.15 + 1
               ? "the gas leaves the stove no warmer than the air round the flue, so nothing makes it rise"
               : "the temperatures along the flue did not settle; a part's figures lie far outside what chimneys are";
}

static sw_status judge_unsolved(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    sw_finding f = flue_finding(in, "solved", "chimney");
    f.what = why_unsolved(in);
    f.verdict = SW_FAILS;
    f.source = "handbook S1.12: gas no warmer than its surroundings is refused";
    f.remedy = "check flow and temperature of the gas and the lengths and walls of the flue";
    return sw_finding_add(run, &r->findings, f, 0);
}

sw_status flue_judge(sw_run *run, const sw_flue_input *in, const sw_flue_options *opt, sw_flue_result *r)
{
    SW_TRY(flue_judge_survey(run, in, r));
    SW_TRY(flue_judge_class(run, in, r));
    if (!r->solved) return judge_unsolved(run, in, r);
    SW_TRY(flue_judge_draught(run, in, opt, r));
    SW_TRY(flue_judge_guards(run, in, r));
    return flue_judge_wet(run, in, r);
}
