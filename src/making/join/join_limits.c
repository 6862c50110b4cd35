/* join_limits.c: throats and heat against the sheets, and what the works' rows lay down. Seams alike share a finding. */
#include "making/join/join_findings_parts.h"

#define FILLET_SOURCE                                                                                                  \
    "a at most 0.7 t_min: DIN 18800-1 (from memory); gas-tightness welds 0.5 to 0.7 t_min: common practice, no source"
#define HEAT_SOURCE                                                                                                    \
    "EN 1011-1 for the heat input; range: ours, about a maker's MAG fillet settings of 0.075 to 0.11 kJ/mm a mm of sheet"

typedef struct judge {
    sw_run *run;
    join_job *job;
    bool *chosen; /* [seams] alike */
    size_t held;  /* seams that hold */
    double tightest;
    sw_finding best; /* of those that hold, the one nearest to its limit */
} judge;

static sw_status judge_make(sw_run *run, join_job *job, judge *j)
{
    *j = (judge){.run = run, .job = job, .chosen = SW_SCRATCH(run, job->seam_count, bool), .tightest = INFINITY};
    return j->chosen == NULL ? SW_NO_MEMORY : SW_OK;
}

static double room_of(const sw_finding *f)
{
    double room = f->sense == SW_AT_LEAST ? f->value - f->limit : f->limit - f->value;
    return f->limit > 0 ? room / f->limit : room;
}

/* Those that hold are told in one line at the end; `soft` makes what is over the limit a thing to watch. */
static sw_status judge_one(judge *j, sw_finding f, size_t count, bool soft)
{
    double room = room_of(&f);
    if (room >= -1e-9) {
        j->held += count;
        if (room >= j->tightest) return SW_OK;
        j->tightest = room;
        j->best = f;
        return SW_OK;
    }
    f.where = join_names(j->run, j->job, j->chosen, JOIN_NAMED);
    SW_TRY(join_report(j->run, j->job, f, 0));
    sw_findings *all = &j->job->result->findings;
    if (soft && all->items[all->count - 1].verdict == SW_FAILS) all->items[all->count - 1].verdict = SW_WATCH;
    return SW_OK;
}

static sw_status tell_held(judge *j, const char *what)
{
    if (j->held == 0) return SW_OK;
    j->best.what =
        sw_text_format(j->run, j->run->keep, "%zu seams %s; nearest to its limit: %s", j->held, what, j->best.where);
    j->best.where = "all other seams";
    return join_report(j->run, j->job, j->best, 0);
}

/* ---- throats ---------------------------------------------------------------------------------------------- */

static sw_status throat_most(judge *j, const sw_join_seam *s, size_t count)
{
    double thin_mm = fmin(s->thick_a_mm, s->thick_b_mm);
    sw_finding f = {.check = "throat_most",
                    .sense = SW_AT_MOST,
                    .value = s->throat_mm,
                    .limit = j->job->opt->throat_share * thin_mm,
                    .unit = "mm",
                    .source = FILLET_SOURCE,
                    .where = s->joint->name,
                    .place = s->joint->place};
    f.what = sw_text_format(j->run, j->run->keep,
                            "throat %.1f mm on sheets of %g and %g mm: more heat and pull than the thinner needs",
                            s->throat_mm, s->thick_a_mm, s->thick_b_mm);
    f.remedy = sw_text_format(j->run, j->run->keep, "a throat of %.1f mm", floor(f.limit * 10 + 1e-9) / 10);
    return judge_one(j, f, count, s->throat_mm <= thin_mm);
}

static sw_status throat_least(judge *j, const sw_join_seam *s, size_t count)
{
    double thin_mm = fmin(s->thick_a_mm, s->thick_b_mm);
    if (!s->joint->tight) return SW_OK;
    sw_finding f = {.check = "throat_least",
                    .sense = SW_AT_LEAST,
                    .value = s->throat_mm,
                    .limit = j->job->opt->tight_share * thin_mm,
                    .unit = "mm",
                    .source = FILLET_SOURCE,
                    .where = s->joint->name,
                    .place = s->joint->place};
    f.what = sw_text_format(j->run, j->run->keep, "throat %.1f mm of a tight seam on sheets of %g and %g mm",
                            s->throat_mm, s->thick_a_mm, s->thick_b_mm);
    f.remedy = sw_text_format(j->run, j->run->keep, "a throat of %.1f mm or more", ceil(f.limit * 10 - 1e-9) / 10);
    return judge_one(j, f, count, false);
}

static sw_status each(judge *j, bool heat, sw_status (*one)(judge *, const sw_join_seam *, size_t))
{
    for (size_t i = 0; i < j->job->seam_count; i++) {
        size_t count = join_alike(j->job, i, heat, j->chosen);
        if (count > 0) SW_TRY(one(j, j->job->seams[i].out, count));
    }
    return SW_OK;
}

sw_status join_judge_throats(sw_run *run, join_job *job)
{
    judge most, least;
    SW_TRY(judge_make(run, job, &most));
    SW_TRY(each(&most, false, throat_most));
    SW_TRY(tell_held(&most, "are no thicker than their sheets want"));
    SW_TRY(judge_make(run, job, &least));
    SW_TRY(each(&least, false, throat_least));
    return tell_held(&least, "are thick enough to hold gas");
}

/* ---- heat ---------------------------------------------------------------------------------------------------- */

static const double doubtful = 2; /* the range is ours: up to so far off it is a thing to watch */

static sw_status heat_most(judge *j, const sw_join_seam *s, size_t count)
{
    if (isnan(s->heat_kj_mm)) return SW_OK;
    sw_finding f = {.check = "heat_most",
                    .sense = SW_AT_MOST,
                    .value = s->heat_kj_mm,
                    .limit = j->job->opt->heat_most * fmin(s->thick_a_mm, s->thick_b_mm),
                    .unit = "kJ/mm",
                    .source = HEAT_SOURCE,
                    .where = s->joint->name,
                    .place = s->row->place};
    f.what =
        sw_text_format(j->run, j->run->keep, "%.3f kJ/mm into sheets of %g and %g mm: they may burn through and warp",
                       s->heat_kj_mm, s->thick_a_mm, s->thick_b_mm);
    f.remedy = "weld faster, or with less current or a thinner throat";
    return judge_one(j, f, count, f.value <= doubtful * f.limit);
}

static sw_status heat_least(judge *j, const sw_join_seam *s, size_t count)
{
    if (isnan(s->heat_kj_mm)) return SW_OK;
    sw_finding f = {.check = "heat_least",
                    .sense = SW_AT_LEAST,
                    .value = s->heat_kj_mm,
                    .limit = j->job->opt->heat_least * fmax(s->thick_a_mm, s->thick_b_mm),
                    .unit = "kJ/mm",
                    .source = HEAT_SOURCE,
                    .where = s->joint->name,
                    .place = s->row->place};
    f.what = sw_text_format(j->run, j->run->keep, "%.3f kJ/mm into sheets of %g and %g mm: the thicker may not fuse",
                            s->heat_kj_mm, s->thick_a_mm, s->thick_b_mm);
    f.remedy = "weld slower or with more current, or warm the thicker sheet";
    return judge_one(j, f, count, f.value * doubtful >= f.limit);
}

sw_status join_judge_heat(sw_run *run, join_job *job)
{
    judge most, least;
    SW_TRY(judge_make(run, job, &most));
    SW_TRY(each(&most, true, heat_most));
    SW_TRY(tell_held(&most, "put no more heat into the thinner sheet than it stands"));
    SW_TRY(judge_make(run, job, &least));
    SW_TRY(each(&least, true, heat_least));
    return tell_held(&least, "put enough heat into the thicker sheet");
}

/* ---- what a row lays down ------------------------------------------------------------------------------------- */

/* The throat that wire and speed of the row fill: the filling of the seam backwards. */
static double laid_mm(const join_job *job, const sw_join_seam *s)
{
    double area_mm2 = sw_weld_travel_mm_s(s->row->wire_mm, s->row->feed_m_s, 1, job->opt->wire_share) / s->travel_mm_s;
    return sqrt(area_mm2 / (1 + job->opt->excess));
}

static sw_status deposit(judge *j, const sw_join_seam *s, size_t count)
{
    if (s->row == NULL || !(s->row->feed_m_s > 0) || s->kind != SW_SEAM_FILLET) return SW_OK;
    const double slack = 0.9; /* ours: speeds and feeds of a table are rounded */
    sw_finding f = {.check = "deposit",
                    .sense = SW_AT_LEAST,
                    .value = laid_mm(j->job, s),
                    .limit = slack * s->throat_mm,
                    .unit = "mm",
                    .source = "derived: filler laid down a mm of seam; nine tenths of the throat: ours",
                    .where = s->joint->name,
                    .place = s->row->place};
    f.what = sw_text_format(j->run, j->run->keep,
                            "wire %.1f mm at %.1f m/min and %.1f mm/s by %s lay a throat of %.2f mm, wanted %.1f",
                            s->row->wire_mm, s->row->feed_m_s / sw_min_from_s(1), s->travel_mm_s,
                            sw_join_station_name(s->station), f.value, s->throat_mm);
    f.remedy = "in the works' weld row: weld slower or feed more wire";
    return judge_one(j, f, count, true);
}

sw_status join_judge_deposit(sw_run *run, join_job *job)
{
    judge j;
    SW_TRY(judge_make(run, job, &j));
    SW_TRY(each(&j, true, deposit));
    return tell_held(&j, "get the throat that the works' wire and speed lay down");
}
