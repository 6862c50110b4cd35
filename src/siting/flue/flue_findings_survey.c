/* flue_findings_survey.c: may a shaft that was there be used again: handbook S3.2, in the order of the work. */
#include "siting/flue/flue_parts.h"

#include <math.h>
#include <string.h>

static const double litre_m3 = 1e-3; /* 1 l/(s m2) is 1e-3 m3/(s m2) */

static bool lined(const sw_house *house)
{
    for (size_t i = 0; i < house->part_count; i++)
        if (!house->parts[i].pipe && !house->parts[i].liner) return false;
    return true;
}

static sw_status say(sw_run *run, const sw_flue_input *in, sw_flue_result *r, sw_finding f)
{
    (void)in;
    if (f.what == NULL) return SW_NO_MEMORY;
    return sw_finding_add(run, &r->findings, f, 0);
}

/* ---- free and tight ---- */

static sw_status judge_blocked(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    static const double least = 0.95;
    double share = in->house->survey.open_share;
    sw_finding f = flue_finding(in, "blocked", "old shaft");
    f.sense = SW_AT_LEAST;
    f.value = share;
    f.limit = least;
    f.source = "free by coring ball or camera; " FLUE_HABIT;
    f.what = isnan(share) ? "whether the shaft is free was not looked at"
                          : sw_text_format(run, run->keep, "%.0f %% of the shaft's section is free", 100 * share);
    if (!(share >= least))
        f.remedy = isnan(share) ? "sweep it, pass a coring ball through, look with a camera, let a smoke pellet draw"
                                : "clear it before anything else: gas that cannot leave comes into the room";
    return say(run, in, r, f);
}

static sw_status judge_leak(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    static const double n2 = 3.0; /* l/(s m2) at 20 Pa */
    double leak = in->house->survey.leak_m3_s_m2 / litre_m3;
    bool inner = lined(in->house);
    sw_finding f = flue_finding(in, "leak", "old shaft");
    f.source = "N2 for masonry: Irish guide J appendix A (seen); 3.0 l/(s m2) at 20 Pa: EN 1443 (from memory)";
    f.what = isnan(leak) ? "whether the shaft is tight was not tested"
                         : sw_text_format(run, run->keep, "the shaft leaks %.2f l/(s m2), N2 allows %.1f%s", leak, n2,
                                          inner ? "; a liner carries the gas" : "");
    f.sense = inner ? SW_STATED : SW_AT_MOST;
    f.value = leak;
    f.limit = n2;
    f.unit = "l/(s m2)";
    if (inner && !(leak <= n2)) f.verdict = SW_WATCH;
    if (!(leak <= n2))
        f.remedy =
            isnan(leak)
                ? "warm it, fill it with smoke, shut base and top, at least 5 minutes, look in every room, loft and next door"
                : "repair it, or line it in one length and test the liner";
    return say(run, in, r, f);
}

/* ---- what was seen ---- */

typedef struct sight {
    const char *check, *seen, *not_seen, *remedy;
    sw_verdict bare, inside_liner; /* verdict when seen: unlined, lined */
} sight;

static const sight sights[] = {
    {"tar", "the shaft is tarred", "no tar in the shaft",
     "sweep the tar out, then line it: tar burns and soaks through brick", SW_FAILS, SW_WATCH},
    {"cracked", "the shaft is cracked", "no cracks in the shaft",
     "repair it, or line it with a liner of T400 or above, G", SW_FAILS, SW_WATCH},
    {"damp", "the shaft is damp", "the shaft is dry", "find where water comes in; do not light a fire in a wet chimney",
     SW_WATCH, SW_WATCH},
    {"shared", "another fireplace or neighbour uses the same shaft", "the shaft serves this stove alone",
     "a flue of its own for each stove: trace it and shut off the other, or line it", SW_FAILS, SW_WATCH},
    {"timber_inside", "timber is built into the shaft", "no timber in the shaft", "take the timber out before any fire",
     SW_FAILS, SW_FAILS},
};

static bool seen(const sw_survey *s, size_t i)
{
    const bool there[] = {s->tar, s->cracked, s->damp, s->shared, s->timber_inside};
    return there[i];
}

static sw_status judge_sight(sw_run *run, const sw_flue_input *in, sw_flue_result *r, size_t i)
{
    const sight *s = &sights[i];
    bool there = seen(&in->house->survey, i);
    sw_finding f = flue_finding(in, s->check, "old shaft");
    f.what = there ? s->seen : s->not_seen;
    f.source = "survey of an old shaft: Approved Document J appendix E (reprint seen); " FLUE_HABIT;
    if (there) {
        f.verdict = lined(in->house) ? s->inside_liner : s->bare;
        f.remedy = s->remedy;
    }
    return say(run, in, r, f);
}

static sw_status judge_swept(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    bool swept = in->house->survey.swept;
    sw_finding f = flue_finding(in, "swept", "old shaft");
    f.what = swept ? "the shaft was swept" : "the shaft was not swept";
    f.verdict = swept ? SW_HOLDS : SW_FAILS;
    f.source = "sweep before inspection and use: " FLUE_HABIT;
    f.remedy = swept ? "" : "sweep it, then look: what was not swept cannot be judged";
    return say(run, in, r, f);
}

/* Oversize, tar or condensation ask for a liner. */
static sw_status judge_unlined(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    bool inner = lined(in->house),
         needed = in->house->survey.tar || in->house->survey.cracked || (r->solved && !r->dry);
    sw_finding f = flue_finding(in, "lining", "old shaft");
    f.what = inner    ? "a liner carries the gas"
             : needed ? "the shaft is not lined, and tar, cracks or condensation ask for a liner"
                      : "the shaft is not lined; by these numbers it may stay so";
    f.source = "oversize, tarred or wet shafts are lined: stove installer's regulation page (seen)";
    if (!inner && needed) {
        f.verdict = SW_FAILS;
        f.remedy = "a liner of T400 or above, G, in one length without joints, insulated; see the sizes tried";
    }
    return say(run, in, r, f);
}

sw_status flue_judge_survey(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    if (!in->house->survey.old_shaft) return SW_OK;
    SW_TRY(judge_swept(run, in, r));
    SW_TRY(judge_blocked(run, in, r));
    SW_TRY(judge_leak(run, in, r));
    for (size_t i = 0; i < sizeof sights / sizeof *sights; i++) SW_TRY(judge_sight(run, in, r, i));
    return judge_unlined(run, in, r);
}
