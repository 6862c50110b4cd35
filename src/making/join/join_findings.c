/* join_findings.c: rows, access, gaps, tightness: seam by seam; limits and statements are in join_limits.c, join_stated.c. */
#include "making/join/join_findings_parts.h"

#define GEOMETRY                                                                                                       \
    "geometry: the works' torches with what carries them, as cylinders, tilted as far as the option says and turned "  \
    "about the wire"

static sw_finding about(const sw_join_seam *s, const char *check)
{
    return sw_finding_of("join", check, s->joint->name, s->joint->place);
}

sw_finding join_statement(const join_job *job, const char *check, const char *where, sw_verdict verdict)
{
    sw_finding f = sw_finding_of("join", check, where, job->in->stove->place);
    f.verdict = verdict;
    return f;
}

/* ---- rows ---------------------------------------------------------------------------------------------- */

static sw_status no_table(sw_run *run, join_job *job)
{
    sw_finding f = join_statement(job, "weld_table", "works", SW_UNKNOWN);
    f.source = "works description";
    f.remedy = "a welding table with a row for each throat";
    f.what =
        sw_text_format(run, run->keep, "no welding table: speed, time, wire, gas and heat of %zu seams are not known",
                       job->seam_count);
    return join_report(run, job, f, 0);
}

static sw_status without_row(sw_run *run, join_job *job, size_t seam, const bool *chosen, size_t count)
{
    const sw_join_seam *s = job->seams[seam].out;
    sw_finding f = about(s, "weld_row");
    f.sense = SW_STATED;
    f.unit = "mm";
    f.verdict = SW_UNKNOWN;
    f.source = "works description";
    f.where = join_names(run, job, chosen, JOIN_NAMED);
    f.what = sw_text_format(run, run->keep,
                            "no weld row for throat %.1f mm on sheets of %g and %g mm: %zu seams are not in the sums",
                            s->throat_mm, s->thick_a_mm, s->thick_b_mm, count);
    f.remedy = "a row for this throat in the works' welding table, or a throat that has one";
    return join_report(run, job, f, 0);
}

static sw_status rows(sw_run *run, join_job *job)
{
    bool *chosen = SW_SCRATCH(run, job->seam_count, bool);
    if (chosen == NULL) return SW_NO_MEMORY;
    if (job->welding == NULL) return job->seam_count > 0 ? no_table(run, job) : SW_OK;
    for (size_t i = 0; i < job->seam_count; i++) {
        if (job->seams[i].out->row != NULL) continue;
        size_t count = join_alike(job, i, false, chosen);
        if (count > 0) SW_TRY(without_row(run, job, i, chosen, count));
    }
    return SW_OK;
}

/* ---- where the seam is, and whether a torch gets there -------------------------------------------------- */

static sw_status apart(sw_run *run, join_job *job, const sw_join_seam *s)
{
    sw_finding f = about(s, "touch");
    f.sense = SW_AT_LEAST;
    f.value = s->touch_mm;
    f.limit = SW_SHORTEST_MM;
    f.unit = "mm";
    f.source = "stove description, gap of the joint";
    f.what = sw_text_format(run, run->keep, "the edge of %s touches %s nowhere: there is nothing to weld", s->a, s->b);
    f.remedy = "move the piece to its partner, or name the edge that meets it";
    return join_report(run, job, f, 0);
}

static sw_finding out_of_reach(const sw_join_seam *s)
{
    sw_finding f = about(s, "access");
    f.sense = SW_AT_MOST;
    f.value = s->blocked_mm;
    f.limit = 0;
    f.unit = "mm";
    return f;
}

/* Every order ends with one of the ring's seams out of reach: this one is left. */
static sw_status in_ring(sw_run *run, join_job *job, const join_seam *seam)
{
    const sw_join_seam *s = seam->out;
    sw_finding f = out_of_reach(s);
    f.source = GEOMETRY "; derived: all orders";
    f.what =
        sw_text_format(run, run->keep,
                       "no order of welding: of %s the last one is always out of reach; here %.0f of %.0f mm, with "
                       "%s in the way, tilted up to %.0f degrees and turned all round",
                       seam->ring, s->blocked_mm, s->touch_mm, s->in_the_way, sw_deg_from_rad(job->opt->tilt_rad));
    f.remedy = "make room between these seams (a wider gully, a lower flange), close one of them without a torch, or "
               "take a slimmer torch";
    return join_report(run, job, f, 0);
}

/* With its two pieces alone in place: one of these is in the way. */
static sw_status hopeless(sw_run *run, join_job *job, const sw_join_seam *s)
{
    sw_finding f = out_of_reach(s);
    f.source = GEOMETRY;
    f.what = sw_text_format(
        run, run->keep,
        "no torch reaches %.0f of %.0f mm: %s is in the way, tilted up to %.0f degrees and turned all round",
        s->blocked_mm, s->touch_mm, s->in_the_way, sw_deg_from_rad(job->opt->tilt_rad));
    f.remedy =
        "weld from the sheet's other side, make room beside the seam (a lower flange, an edge farther from it), or "
        "take a slimmer torch";
    return join_report(run, job, f, 0);
}

static sw_status unreached(sw_run *run, join_job *job, const join_seam *seam)
{
    return seam->ring != NULL ? in_ring(run, job, seam) : hopeless(run, job, seam->out);
}

static bool known_to_its_arm(const join_job *job, sw_join_station s)
{
    return !join_torch_known(job, s) || job->torches[s].arm_long_mm > 0;
}

static sw_status reached(sw_run *run, join_job *job, size_t count)
{
    bool whole = known_to_its_arm(job, SW_JOIN_HAND) && known_to_its_arm(job, SW_JOIN_ROBOT);
    sw_finding f = join_statement(job, "access", "all other seams", SW_HOLDS);
    f.source = GEOMETRY;
    f.what = sw_text_format(run, run->keep, "a torch reaches %zu seams past the pieces in place%s", count,
                            whole ? "" : "; what carries a torch was not given to its end");
    return join_report(run, job, f, 0);
}

static sw_status ahead(sw_run *run, join_job *job, const bool *chosen, size_t count)
{
    sw_finding f = join_statement(job, "weld_ahead", join_names(run, job, chosen, JOIN_NAMED), SW_WATCH);
    f.source = GEOMETRY;
    f.remedy = "weld them in the order of the plan, before the pieces named on the card are set up";
    f.what = sw_text_format(run, run->keep, "%zu seam%s out of reach once the body is closed", count,
                            count == 1 ? " is" : "s are");
    return join_report(run, job, f, 0);
}

static const char *barring(sw_run *run, const join_job *job, const bool *chosen)
{
    enum { NAMED = 3 };
    size_t *times = SW_SCRATCH(run, job->instance_count, size_t), named = 0;
    const char *text = "";
    if (times == NULL) return NULL;
    for (size_t i = 0; i < job->seam_count; i++)
        if (chosen[i]) times[job->seams[i].bars_robot]++;
    for (; named < NAMED && text != NULL; named++) {
        size_t most = 0;
        for (size_t i = 1; i < job->instance_count; i++)
            if (times[i] > times[most]) most = i;
        if (times[most] == 0) break;
        text = sw_text_format(run, run->keep, "%s%s%s (%zu)", text, named == 0 ? "" : ", ", job->instances[most].label,
                              times[most]);
        times[most] = 0;
    }
    return text;
}

/* Seams that a hand reaches and the robot does not: nothing is wrong with that, but it costs time. */
static sw_status hand_alone(sw_run *run, join_job *job)
{
    bool *chosen = SW_SCRATCH(run, job->seam_count, bool);
    size_t count = 0;
    if (chosen == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->seam_count; i++) {
        const join_seam *seam = &job->seams[i];
        chosen[i] = seam->count > 0 && seam->out->reached && seam->by == SW_JOIN_HAND && seam->bars_robot != SIZE_MAX;
        count += chosen[i];
    }
    if (count == 0) return SW_OK;
    const char *past = barring(run, job, chosen);
    if (past == NULL) return SW_NO_MEMORY;
    sw_finding f = join_statement(job, "hand_access", join_names(run, job, chosen, JOIN_NAMED), SW_HOLDS);
    f.source = GEOMETRY;
    f.what = sw_text_format(
        run, run->keep, "%zu seams a hand reaches and the robot does not: its torch does not get past %s", count, past);
    return join_report(run, job, f, 0);
}

static sw_status no_torch(sw_run *run, join_job *job)
{
    sw_finding f = join_statement(job, "access", "all seams", SW_UNKNOWN);
    f.source = "works description";
    f.remedy = "give the torches of hand and robot in the welding table";
    f.what = "the works give no torch: whether it reaches the seams is not known";
    return join_report(run, job, f, 0);
}

static sw_status access(sw_run *run, join_job *job)
{
    bool *early = SW_SCRATCH(run, job->seam_count, bool);
    size_t good = 0, early_count = 0;
    if (early == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->seam_count; i++) {
        const join_seam *seam = &job->seams[i];
        early[i] = seam->count > 0 && seam->out->reached && seam->out->ahead_of[0] != '\0';
        early_count += early[i];
        if (seam->out->touch_mm < SW_SHORTEST_MM)
            SW_TRY(apart(run, job, seam->out));
        else if (!seam->out->reached)
            SW_TRY(unreached(run, job, seam));
        else
            good++;
    }
    if (!join_torch_known(job, SW_JOIN_HAND) && !join_torch_known(job, SW_JOIN_ROBOT))
        return job->seam_count > 0 ? no_torch(run, job) : SW_OK;
    SW_TRY(hand_alone(run, job));
    if (early_count > 0) SW_TRY(ahead(run, job, early, early_count));
    return good > 0 ? reached(run, job, good) : SW_OK;
}

/* ---- gaps and tightness ------------------------------------------------------------------------------------ */

static sw_status gap(sw_run *run, join_job *job, const sw_join_seam *s)
{
    sw_finding f = about(s, "robot_gap");
    f.sense = SW_AT_MOST;
    f.value = join_gap_mm(job, s);
    f.limit = join_gap_bridged_mm(job, s);
    f.unit = "mm";
    f.source = "works description, gap bridged";
    if (!(f.value > f.limit)) return SW_OK;
    f.what = sw_text_format(run, run->keep, "gapes %.2f mm, the robot bridges %.2f: it goes to the hand station",
                            f.value, f.limit);
    f.remedy = "bring the edge nearer to its partner, or clamp it";
    SW_TRY(join_report(run, job, f, 0));
    job->result->findings.items[job->result->findings.count - 1].verdict = SW_WATCH;
    return SW_OK;
}

static sw_status interrupted(sw_run *run, join_job *job, const sw_join_seam *s)
{
    sw_finding f = about(s, "tight_seam");
    f.sense = SW_AT_LEAST;
    f.value = s->weld_mm;
    f.limit = s->touch_mm;
    f.unit = "mm";
    f.source = "derived: gas passes between stitches";
    f.what = sw_text_format(run, run->keep, "must hold gas but is interrupted: %.0f of %.0f mm are welded", s->weld_mm,
                            s->touch_mm);
    f.remedy = "a continuous seam, or do not call it tight";
    return join_report(run, job, f, 0);
}

static sw_status tight_without_seam(sw_run *run, join_job *job, const sw_joint *joint)
{
    sw_finding f = join_statement(job, "tight_seam", joint->name, SW_WATCH);
    f.place = joint->place;
    f.source = "common practice, no source";
    f.what = "must hold gas but has no seam: rope, cement or a clamped face must do it";
    f.remedy = "give it a seam, or say how it is sealed";
    return join_report(run, job, f, 0);
}

static sw_status seams(sw_run *run, join_job *job)
{
    const sw_stove *stove = job->in->stove;
    for (size_t i = 0; i < job->seam_count; i++) {
        const sw_join_seam *s = job->seams[i].out;
        if (job->welding != NULL && job->welding->robot && job->welding->gap_bridged > 0) SW_TRY(gap(run, job, s));
        if (s->joint->tight && s->weld_mm < s->touch_mm - 1) SW_TRY(interrupted(run, job, s));
    }
    for (size_t i = 0; i < stove->joint_count; i++)
        if (stove->joints[i].tight && stove->joints[i].seam == SW_SEAM_NONE)
            SW_TRY(tight_without_seam(run, job, &stove->joints[i]));
    return SW_OK;
}

sw_status join_findings(sw_run *run, join_job *job)
{
    static sw_status (*const checks[])(sw_run *, join_job *) = {rows,
                                                                access,
                                                                seams,
                                                                join_judge_throats,
                                                                join_judge_heat,
                                                                join_judge_deposit,
                                                                join_judge_preheat,
                                                                join_state_shrinkage,
                                                                join_state_leak,
                                                                join_state_figures};
    for (size_t i = 0; i < sizeof checks / sizeof *checks; i++) SW_TRY(checks[i](run, job));
    return SW_OK;
}
