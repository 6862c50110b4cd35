/* fit_settle.c: before a welder tacks a piece he moves it so that its joints close. All pieces at once, as rigid bodies, by
 * least squares: sum (d/w)2 over the gaps' departures d from the drawing, plus sum (x/X)2 over the moves x, X the option
 * adjust_mm (turns: that over the piece's lever). The answer is linear, so every row's sensitivities change for good:
 *   S' = S - g M^-1 N,   M = 1 + G'T G',   N = G'T S/w,   G' = moves X / w of the gaps, g = moves X of the row.
 * w is what the welder notices, more where the drawing leaves clearance that he may use up. */
#include "making/fit/fit_parts.h"

#include <math.h>
#include <string.h>

enum { MOVES = 6 };

typedef struct settle {
    fit_job *job;
    size_t *order;   /* [specimen_count] place of each joined specimen among the unknowns; SIZE_MAX = none */
    size_t unknowns; /* 6 a joined specimen */
    size_t *from;    /* [unknowns] first column of each row of the envelope */
    double **factor; /* [unknowns] row i holds columns from[i] .. i */
    double *effects; /* [unknowns * contributor_count] N */
    double *y;       /* [unknowns] */
} settle;

/* The row's change a standard move of the specimen at `end`. */
static double moved(const fit_job *job, size_t row, size_t specimen, int axis)
{
    const fit_specimen *s = &job->specimens[specimen];
    double reach = job->opt->adjust_mm / (axis < 3 ? 1 : s->lever_mm[axis - 3]);
    return fit_line(job, row)[s->place + (size_t)axis] * reach;
}

static bool is_gap(const fit_row *row)
{
    return row->kind == FIT_GAP || row->kind == FIT_SLOT;
}

static double notice_mm(const fit_job *job, const fit_row *row)
{
    return job->opt->see_mm + fmax(0, row->value) / 2;
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
    s->unknowns = MOVES * placed;
    return SW_OK;
}

/* ---- the matrix and its root ---- */

static sw_status make_envelope(sw_run *run, settle *s)
{
    const fit_job *job = s->job;
    s->from = SW_SCRATCH(run, s->unknowns, size_t);
    s->factor = SW_SCRATCH(run, s->unknowns, double *);
    if (s->from == NULL || s->factor == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->unknowns; i++) s->from[i] = i - i % MOVES;
    for (size_t r = 0; r < job->row_count; r++) {
        size_t a = MOVES * s->order[job->rows[r].a.specimen], b = MOVES * s->order[job->rows[r].b.specimen];
        size_t low = a < b ? a : b, high = a < b ? b : a;
        for (size_t k = 0; k < MOVES; k++)
            if (low < s->from[high + k]) s->from[high + k] = low;
    }
    for (size_t i = 0; i < s->unknowns; i++) {
        s->factor[i] = SW_SCRATCH(run, i - s->from[i] + 1, double);
        if (s->factor[i] == NULL) return SW_NO_MEMORY;
        s->factor[i][i - s->from[i]] = 1;
    }
    return SW_OK;
}

typedef struct moves { /* the unknowns one row depends on */
    size_t at[2 * MOVES], count;
    double by[2 * MOVES];
} moves;

/* A row within one specimen does not feel it move. */
static moves moves_of(const settle *s, size_t row)
{
    const fit_row *r = &s->job->rows[row];
    moves m = {.count = 0};
    if (r->a.specimen == r->b.specimen) return m;
    for (int end = 0; end < 2; end++) {
        size_t specimen = end == 0 ? r->a.specimen : r->b.specimen;
        for (int axis = 0; axis < MOVES; axis++) {
            m.at[m.count] = MOVES * s->order[specimen] + (size_t)axis;
            m.by[m.count++] = moved(s->job, row, specimen, axis);
        }
    }
    return m;
}

static void add_row(settle *s, size_t row)
{
    const fit_job *job = s->job;
    double w = notice_mm(job, &job->rows[row]);
    moves m = moves_of(s, row);
    const double *line = fit_line(job, row);
    for (size_t i = 0; i < m.count; i++) {
        for (size_t k = 0; k < m.count; k++)
            if (m.at[k] <= m.at[i]) s->factor[m.at[i]][m.at[k] - s->from[m.at[i]]] += m.by[i] * m.by[k] / (w * w);
        double *effects = s->effects + m.at[i] * job->contributor_count, by = m.by[i] / (w * w);
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

static void settle_row(settle *s, size_t row)
{
    fit_job *job = s->job;
    moves m = moves_of(s, row);
    memset(s->y, 0, s->unknowns * sizeof *s->y);
    for (size_t i = 0; i < m.count; i++) s->y[m.at[i]] += m.by[i];
    if (m.count == 0) return;
    solve(s, s->y);
    double *line = fit_line(job, row);
    for (size_t i = 0; i < s->unknowns; i++) {
        const double *effects = s->effects + i * job->contributor_count;
        double by = s->y[i];
        if (fabs(by) < 1e-12) continue;
        for (size_t c = 0; c < job->contributor_count; c++) line[c] -= by * effects[c];
    }
}

sw_status fit_settle(sw_run *run, fit_job *job)
{
    settle s = {.job = job};
    if (!(job->opt->adjust_mm > 0) || job->row_count == 0) return SW_OK;
    SW_TRY(find_order(run, &s));
    SW_TRY(make_envelope(run, &s));
    s.effects = SW_SCRATCH(run, s.unknowns * job->contributor_count, double);
    s.y = SW_SCRATCH(run, s.unknowns, double);
    if (s.effects == NULL || s.y == NULL) return SW_NO_MEMORY;
    for (size_t r = 0; r < job->row_count; r++)
        if (is_gap(&job->rows[r])) add_row(&s, r);
    take_root(&s);
    for (size_t r = 0; r < job->row_count; r++) settle_row(&s, r);
    return SW_OK;
}
