/* fit_judge.c: chains of every point, which point of a joint is the worst, and what its variance is made of. */
#include "making/fit/fit_parts.h"

#include <math.h>

static bool is_gap(const fit_row *row)
{
    return row->kind == FIT_GAP || row->kind == FIT_SLOT;
}

/* ---- chains ---- */

/* What moves the row and has no tolerance; NULL = none. */
static const sw_fit_contributor *untold(const fit_job *job, size_t r)
{
    const double felt_mm = 1e-6;
    for (size_t i = 0; i < job->contributor_count; i++)
        if (job->contributors[i].outside && fabs(fit_line(job, r)[i]) * job->contributors[i].sigma > felt_mm)
            return &job->contributors[i];
    return NULL;
}

static sw_fit_point point_of(const fit_job *job, size_t r, const double *tolerances)
{
    const fit_row *row = &job->rows[r];
    const double *line = fit_line(job, r);
    size_t n = job->contributor_count;
    sw_fit_point p = {.normal = row->way, .slot = row->kind == FIT_SLOT, .gap_mm = row->value};
    p.at = sw_frame_point(fit_frame(job, row->a.specimen), row->a.at);
    p.worst_mm = sw_chain_worst(tolerances, line, n);
    p.rss_mm = sw_chain_rss(tolerances, line, n);
    p.inflated_mm = sw_chain_inflated(tolerances, line, n);
    p.sigma_mm = fit_row_sigma(job, r);
    if (untold(job, r) != NULL) p.worst_mm = p.rss_mm = p.inflated_mm = NAN;
    return p;
}

/* ---- limits ---- */

static void find_limit(const fit_job *job, sw_fit_joint *j)
{
    const sw_works *works = job->in->model->works;
    const sw_stove *stove = job->in->model->stove;
    const sw_joint *joint = j->joint;
    j->limit_mm = joint->gap_max_mm;
    j->limit_source = "stove description, gap of the joint";
    j->mismatch_limit_mm = NAN;
    double thin_mm = fmin(stove->pieces[joint->a.piece].thickness_mm, stove->pieces[joint->b.piece].thickness_mm);
    if (joint->kind == SW_JOINT_BUTT && joint->seam != SW_SEAM_NONE)
        j->mismatch_limit_mm = sw_iso5817_misalignment_mm('C', thin_mm);
    if (works == NULL || joint->seam == SW_SEAM_NONE || !(works->welding.gap_bridged > 0)) return;
    double bridged_mm = works->welding.gap_bridged * thin_mm;
    if (bridged_mm >= j->limit_mm) return;
    j->limit_mm = bridged_mm;
    j->limit_source = "works description, gap bridged in the seam, share of the thinner sheet";
    j->limit_bridged = true;
}

/* ---- shares ---- */

static double variance_of(const fit_job *job, size_t row, size_t contributor)
{
    double part = fit_line(job, row)[contributor] * job->contributors[contributor].sigma;
    return part * part;
}

static void insert(sw_fit_joint *j, sw_fit_share share)
{
    for (size_t k = 0; k < SW_FIT_SHARES; k++) {
        if (share.share <= j->shares[k].share) continue;
        sw_fit_share pushed = j->shares[k];
        j->shares[k] = share;
        share = pushed;
    }
}

static bool same_sheet(const sw_piece *p, const sw_piece *q)
{
    return p->grade == q->grade && fabs(p->thickness_mm - q->thickness_mm) < SW_SAME_POINT_MM;
}

bool fit_of_chain(const fit_job *job, size_t row, const sw_fit_contributor *c)
{
    const size_t ends[2] = {job->rows[row].a.specimen, job->rows[row].b.specimen};
    for (size_t e = 0; e < 2; e++) {
        const fit_specimen *s = &job->specimens[ends[e]];
        bool of_piece = c->piece == s->piece && c->placement == s->placement;
        if (c->operation == SW_FIT_THICKNESS)
            of_piece = same_sheet(job->in->sheet->pieces[c->piece].piece, job->in->sheet->pieces[s->piece].piece);
        if (of_piece) return true;
    }
    return false;
}

/* By operation all that varies it; named are only features of its own two pieces. */
static void find_shares(const fit_job *job, size_t row, sw_fit_joint *j)
{
    double sigma = fit_row_sigma(job, row), total = sigma * sigma;
    if (!(total > 0)) return;
    for (size_t i = 0; i < job->contributor_count; i++) {
        double share = variance_of(job, row, i) / total;
        j->by_operation[job->contributors[i].operation] += share;
        if (fit_of_chain(job, row, &job->contributors[i])) insert(j, (sw_fit_share){i, fit_line(job, row)[i], share});
    }
}

/* With all else as it is, the largest contributor may vary so much that the gap passes its limit no oftener than allowed. */
static double needed(const fit_job *job, size_t row, const sw_fit_joint *j)
{
    double sigma = fit_row_sigma(job, row), room_mm = j->limit_mm - job->rows[row].value;
    if (j->shares[0].share <= 0 || !(job->opt->allowed < 0.5)) return NAN;
    double wanted = room_mm / sw_normal_quantile(1 - job->opt->allowed), total = sigma * sigma;
    double rest = total * (1 - j->shares[0].share);
    if (wanted >= sigma || !(wanted > 0) || wanted * wanted <= rest) return NAN;
    return 3 * sqrt(wanted * wanted - rest) / fabs(j->shares[0].sensitivity);
}

/* ---- a joint ---- */

static bool worse(const sw_fit_joint *j, const sw_fit_point *p, const sw_fit_point *q)
{
    return sw_tail_share(j->limit_mm, p->gap_mm, p->sigma_mm) > sw_tail_share(j->limit_mm, q->gap_mm, q->sigma_mm) ||
           (j->limit_mm - p->gap_mm) * q->sigma_mm < (j->limit_mm - q->gap_mm) * p->sigma_mm;
}

static sw_status judge_joint(sw_run *run, fit_job *job, size_t index, const double *tolerances)
{
    sw_fit_joint *j = &job->joints[index];
    size_t first = job->joint_first[index], end = job->joint_first[index + 1], count = 0;
    j->joint = &job->in->model->stove->joints[index];
    j->over = j->clash = j->no_entry = j->mismatch_over = j->tolerance_needed = NAN;
    j->over_error = j->clash_error = j->no_entry_error = NAN;
    find_limit(job, j);
    while (first + count < end && is_gap(&job->rows[first + count])) count++;
    sw_fit_point *points = SW_KEEP(run, count, sw_fit_point);
    if (points == NULL) return SW_NO_MEMORY;
    for (size_t k = 0; k < count; k++) {
        points[k] = point_of(job, first + k, tolerances);
        if (j->outside == NULL && isnan(points[k].worst_mm)) j->outside = untold(job, first + k);
        if (k > 0 && worse(j, &points[k], &points[j->judged])) j->judged = k;
    }
    j->points = points;
    j->point_count = count;
    if (count == 0) return SW_OK;
    find_shares(job, first + j->judged, j);
    j->tolerance_needed = needed(job, first + j->judged, j);
    for (size_t r = first + count; r < end; r++) {
        double sigma_mm = fit_row_sigma(job, r);
        if (job->rows[r].kind == FIT_ACROSS)
            j->across_mm = sigma_mm;
        else
            j->along_mm = sigma_mm;
    }
    if (!isnan(j->mismatch_limit_mm)) j->mismatch_over = 2 * sw_tail_share(j->mismatch_limit_mm, 0, j->across_mm);
    return SW_OK;
}

sw_status fit_judge(sw_run *run, fit_job *job)
{
    size_t count = job->in->model->stove->joint_count;
    double *tolerances = SW_SCRATCH(run, job->contributor_count + 1, double);
    job->joints = SW_KEEP(run, count, sw_fit_joint);
    if (tolerances == NULL || job->joints == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->contributor_count; i++) {
        const sw_fit_contributor *c = &job->contributors[i];
        tolerances[i] = c->outside ? 0 : c->tolerance; /* what leans on it gets no sum */
    }
    for (size_t j = 0; j < count; j++) SW_TRY(judge_joint(run, job, j, tolerances));
    job->result->joints = job->joints;
    job->result->joint_count = count;
    return SW_OK;
}
