/* fit_settle.c: before a welder tacks a piece he moves it so that its joints close, and springs its flanges and rolled ends a
 * little. All pieces at once, by least squares: sum (d/w)2 over the departures d of the gaps from the drawing, plus sum (x/X)2
 * over the moves x. X is the option adjust_mm (turns: that over the piece's lever), for bends and rolls the turn that moves
 * the free edge by flex_mm. The answer is linear, so every row's sensitivities change for good:
 *   S' = S - g M^-1 N,   M = 1 + G'T G',   N = G'T S/w,   G' = moves X / w of the gaps, g = moves X of the row.
 * w is what the welder notices, more where the drawing leaves clearance that he may use up. */
#include "making/fit/fit_parts.h"

#include <math.h>
#include <string.h>

typedef struct settle {
    fit_job *job;
    size_t *order;   /* [specimen_count] place of each joined specimen among them; SIZE_MAX = none */
    size_t *first;   /* [joined + 1] by that place: its first unknown */
    size_t *columns; /* [unknowns] contributor that moves alike */
    double *reaches; /* [unknowns] X */
    size_t joined, unknowns;
    size_t *from;          /* [unknowns] first column of each row of the envelope */
    double **factor;       /* [unknowns] row i holds columns from[i] .. i */
    double *effects;       /* [unknowns * contributor_count] N */
    uint32_t *touched;     /* [unknowns * contributor_count] which of them are not 0 */
    size_t *touched_count; /* [unknowns] */
    double *y;             /* [unknowns] */
    size_t *at;            /* [unknowns] room for one row's moves */
    double *by;
} settle;

/* Gaps, and the surfaces of a butt joint, which are brought flush. */
static bool is_seen(const fit_job *job, const fit_row *row)
{
    bool butt = job->in->model->stove->joints[row->joint].kind == SW_JOINT_BUTT;
    return row->kind == FIT_GAP || row->kind == FIT_SLOT || (butt && row->kind == FIT_ACROSS);
}

static double notice_mm(const fit_job *job, const fit_row *row)
{
    return job->opt->see_mm + fmax(0, row->value) / 2;
}

/* ---- what can be moved ---- */

/* How far the free end of a rolled zone moves a mm of its radius. */
static double roll_way(const sw_bend *b)
{
    const double least = 0.2;
    double a = fabs(b->angle_rad);
    return fmax(least, hypot(sin(a) - a * cos(a), 1 - cos(a) - a * sin(a)));
}

/* X of a contributor taken as a move, 0 = cannot be moved. */
static double reach_of(const fit_job *job, const sw_fit_contributor *c)
{
    const sw_piece *p = job->in->sheet->pieces[c->piece].piece;
    const fit_specimen *s = &job->specimens[job->specimen_first[c->piece] + (size_t)c->placement];
    switch (c->operation) {
    case SW_FIT_PLACE:
        return job->opt->adjust_mm / (c->axis < 3 ? 1 : s->lever_mm[c->axis - 3]);
    case SW_FIT_ANGLE:
        return job->opt->flex_mm / fmax(p->thickness_mm, fit_outside_height_mm(p, (size_t)c->bend));
    case SW_FIT_ROLL:
        return job->opt->flex_mm / roll_way(&p->bends[c->bend]);
    default:
        return 0;
    }
}

static bool of_specimen(const fit_job *job, const sw_fit_contributor *c, size_t specimen)
{
    return c->piece == job->specimens[specimen].piece && c->placement == job->specimens[specimen].placement;
}

static sw_status find_unknowns(sw_run *run, settle *s)
{
    const fit_job *job = s->job;
    size_t n = job->contributor_count + 1;
    s->first = SW_SCRATCH(run, s->joined + 1, size_t);
    s->columns = SW_SCRATCH(run, n, size_t);
    s->reaches = SW_SCRATCH(run, n, double);
    s->at = SW_SCRATCH(run, n, size_t);
    s->by = SW_SCRATCH(run, n, double);
    size_t *who = SW_SCRATCH(run, s->joined + 1, size_t);
    if (s->first == NULL || s->columns == NULL || s->reaches == NULL || s->at == NULL || s->by == NULL || who == NULL)
        return SW_NO_MEMORY;
    for (size_t i = 0; i < job->specimen_count; i++)
        if (s->order[i] != SIZE_MAX) who[s->order[i]] = i;
    for (size_t k = 0; k < s->joined; k++) {
        s->first[k] = s->unknowns;
        for (size_t c = 0; c < job->contributor_count; c++) {
            double reach = reach_of(job, &job->contributors[c]);
            if (!(reach > 0) || !of_specimen(job, &job->contributors[c], who[k])) continue;
            s->columns[s->unknowns] = c;
            s->reaches[s->unknowns++] = reach;
        }
    }
    s->first[s->joined] = s->unknowns;
    return SW_OK;
}

/* ---- order: breadth first along the joints, so that the envelope stays narrow ---- */

static bool touches(const fit_row *row, size_t specimen, size_t *other)
{
    if (row->a.specimen != specimen && row->b.specimen != specimen) return false;
    *other = row->a.specimen == specimen ? row->b.specimen : row->a.specimen;
    return true;
}

static sw_status find_order(sw_run *run, settle *s)
{
    const fit_job *job = s->job;
    size_t count = job->specimen_count, done = 0, placed = 0;
    size_t *queue = SW_SCRATCH(run, count + 1, size_t);
    s->order = SW_SCRATCH(run, count + 1, size_t);
    if (queue == NULL || s->order == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) s->order[i] = SIZE_MAX;
    for (size_t start = 0; start < count; start++) {
        if (job->specimens[start].place == SIZE_MAX || s->order[start] != SIZE_MAX) continue;
        queue[placed] = start;
        s->order[start] = placed++;
        for (; done < placed; done++)
            for (size_t r = 0; r < job->row_count; r++) {
                size_t other = 0;
                if (!touches(&job->rows[r], queue[done], &other) || s->order[other] != SIZE_MAX) continue;
                queue[placed] = other;
                s->order[other] = placed++;
            }
    }
    for (size_t i = 0; i < count; i++)
        if (s->order[i] != SIZE_MAX) s->order[i] = placed - 1 - s->order[i]; /* reversed: less fill */
    s->joined = placed;
    return SW_OK;
}

/* ---- the matrix and its root ---- */

static void widen(settle *s, const fit_row *row)
{
    size_t a = s->order[row->a.specimen], b = s->order[row->b.specimen], low = a < b ? a : b, high = a < b ? b : a;
    for (size_t i = s->first[high]; i < s->first[high + 1]; i++)
        if (s->first[low] < s->from[i]) s->from[i] = s->first[low];
}

static sw_status make_envelope(sw_run *run, settle *s)
{
    s->from = SW_SCRATCH(run, s->unknowns + 1, size_t);
    s->factor = SW_SCRATCH(run, s->unknowns + 1, double *);
    if (s->from == NULL || s->factor == NULL) return SW_NO_MEMORY;
    for (size_t k = 0; k < s->joined; k++)
        for (size_t i = s->first[k]; i < s->first[k + 1]; i++) s->from[i] = s->first[k];
    for (size_t r = 0; r < s->job->row_count; r++) widen(s, &s->job->rows[r]);
    for (size_t i = 0; i < s->unknowns; i++) {
        s->factor[i] = SW_SCRATCH(run, i - s->from[i] + 1, double);
        if (s->factor[i] == NULL) return SW_NO_MEMORY;
        s->factor[i][i - s->from[i]] = 1;
    }
    return SW_OK;
}

/* The unknowns that one row depends on, into s->at and s->by; gives how many. */
static size_t moves_of(settle *s, size_t row)
{
    const fit_row *r = &s->job->rows[row];
    const double *line = fit_line(s->job, row);
    size_t count = 0, ends[2] = {s->order[r->a.specimen], s->order[r->b.specimen]};
    for (size_t e = 0; e < (ends[0] == ends[1] ? 1U : 2U); e++)
        for (size_t i = s->first[ends[e]]; i < s->first[ends[e] + 1]; i++) {
            double by = line[s->columns[i]] * s->reaches[i];
            if (by == 0) continue;
            s->at[count] = i;
            s->by[count++] = by;
        }
    return count;
}

static void add_row(settle *s, size_t row)
{
    const fit_job *job = s->job;
    double w = notice_mm(job, &job->rows[row]);
    size_t count = moves_of(s, row);
    const double *line = fit_line(job, row);
    for (size_t i = 0; i < count; i++) {
        size_t at = s->at[i];
        for (size_t k = 0; k < count; k++)
            if (s->at[k] <= at) s->factor[at][s->at[k] - s->from[at]] += s->by[i] * s->by[k] / (w * w);
        double *effects = s->effects + at * job->contributor_count, by = s->by[i] / (w * w);
        for (size_t c = 0; c < job->contributor_count; c++) effects[c] += by * line[c];
    }
}

static double dot(const double *a, const double *b, size_t n)
{
    double sum = 0;
    for (size_t i = 0; i < n; i++) sum += a[i] * b[i];
    return sum;
}

/* Cholesky along the rows: entries left of from[] stay 0. M is 1 plus a square, so no root can fail. */
static void take_root(settle *s)
{
    for (size_t i = 0; i < s->unknowns; i++) {
        double *row = s->factor[i];
        size_t first = s->from[i];
        for (size_t k = first; k <= i; k++) {
            size_t begin = s->from[k] > first ? s->from[k] : first;
            double sum = row[k - first] - dot(row + (begin - first), s->factor[k] + (begin - s->from[k]), k - begin);
            row[k - first] = k < i ? sum / s->factor[k][k - s->from[k]] : sqrt(sum);
        }
    }
}

static void solve(const settle *s, double *y)
{
    for (size_t i = 0; i < s->unknowns; i++) {
        size_t first = s->from[i];
        y[i] = (y[i] - dot(s->factor[i], y + first, i - first)) / s->factor[i][i - first];
    }
    for (size_t i = s->unknowns; i-- > 0;) {
        size_t first = s->from[i];
        y[i] /= s->factor[i][i - first];
        for (size_t k = first; k < i; k++) y[k] -= s->factor[i][k - first] * y[i];
    }
}

/* ---- applied ---- */

static void find_touched(settle *s)
{
    size_t n = s->job->contributor_count;
    for (size_t i = 0; i < s->unknowns; i++)
        for (size_t c = 0; c < n; c++)
            if (s->effects[i * n + c] != 0) s->touched[i * n + s->touched_count[i]++] = (uint32_t)c;
}

static void settle_row(settle *s, size_t row)
{
    fit_job *job = s->job;
    size_t count = moves_of(s, row);
    if (count == 0) return;
    memset(s->y, 0, s->unknowns * sizeof *s->y);
    for (size_t i = 0; i < count; i++) s->y[s->at[i]] = s->by[i];
    solve(s, s->y);
    double *line = fit_line(job, row);
    for (size_t i = 0; i < s->unknowns; i++) {
        const double *effects = s->effects + i * job->contributor_count;
        double by = s->y[i];
        if (fabs(by) < 1e-12) continue;
        const uint32_t *touched = s->touched + i * job->contributor_count;
        for (size_t k = 0; k < s->touched_count[i]; k++) line[touched[k]] -= by * effects[touched[k]];
    }
}

sw_status fit_settle(sw_run *run, fit_job *job)
{
    settle s = {.job = job};
    if (job->row_count == 0) return SW_OK;
    SW_TRY(find_order(run, &s));
    SW_TRY(find_unknowns(run, &s));
    if (s.unknowns == 0) return SW_OK;
    SW_TRY(make_envelope(run, &s));
    s.effects = SW_SCRATCH(run, s.unknowns * job->contributor_count, double);
    s.y = SW_SCRATCH(run, s.unknowns, double);
    s.touched = SW_SCRATCH(run, s.unknowns * job->contributor_count, uint32_t);
    s.touched_count = SW_SCRATCH(run, s.unknowns, size_t);
    if (s.effects == NULL || s.y == NULL || s.touched == NULL || s.touched_count == NULL) return SW_NO_MEMORY;
    for (size_t r = 0; r < job->row_count; r++)
        if (is_seen(job, &job->rows[r])) add_row(&s, r);
    take_root(&s);
    find_touched(&s);
    for (size_t r = 0; r < job->row_count; r++) settle_row(&s, r);
    return SW_OK;
}
