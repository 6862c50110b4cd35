/* fit_draw.c: stoves drawn at random. The linear model in blocks of stoves: normal numbers for every contributor that matters,
 * times the sensitivities, gives every point's gap; of each joint the widest counts, its piece pushed home. Shares of the work
 * have their own random numbers and tallies, added in order: the same on any number of threads. */
#include "making/fit/fit_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { CHUNKS = 64, BLOCK = 64, FINE = 20, CELLS = SW_FIT_BINS * FINE };

typedef struct term {
    size_t column; /* of the numbers drawn */
    double by;     /* mm of the row a standard deviation of the contributor */
} term;

typedef struct tally {
    size_t over, clash, no_entry;
    double sum, square;
    uint32_t cells[CELLS];
} tally;

typedef struct scheme { /* read only while stoves are drawn */
    const fit_job *job;
    fit_normals normals;
    term **terms;        /* [row_count] of each row that is drawn */
    size_t *term_counts; /* [row_count] */
    bool *drawn;         /* [row_count] */
    size_t columns;
    double *span_mm; /* [joint_count] of the cells */
    size_t stoves;
    tally *tallies;  /* [CHUNKS * joint_count] */
    size_t *all_fit; /* [CHUNKS] */
    double *numbers; /* [CHUNKS * columns * BLOCK] */
    const sw_run *run;
} scheme;

/* ---- terms ---- */

static double part_of(const fit_job *job, size_t row, size_t contributor)
{
    return fit_line(job, row)[contributor] * job->contributors[contributor].sigma;
}

static int larger_first(const void *left, const void *right)
{
    const term *a = left, *b = right;
    double x = fabs(a->by), y = fabs(b->by);
    if (x != y) return x > y ? -1 : 1;
    return a->column < b->column ? -1 : a->column > b->column ? 1 : 0;
}

/* The largest terms of a row; what is left out is a ten-thousandth of its variance at most. */
static size_t cut_terms(term *terms, size_t count)
{
    const double dropped = 1e-4;
    double total = 0, rest = 0;
    qsort(terms, count, sizeof *terms, larger_first);
    for (size_t i = 0; i < count; i++) total += terms[i].by * terms[i].by;
    while (count > 0 && rest + terms[count - 1].by * terms[count - 1].by <= dropped * total) {
        rest += terms[count - 1].by * terms[count - 1].by;
        count--;
    }
    return count;
}

/* Between two points whose gaps vary evenly from one to the other none is widest or narrowest: it need not be drawn. */
static bool between(const fit_job *job, size_t row, size_t first, size_t last)
{
    const double alike = 1e-3; /* of the row's sigma, and mm of the gap as drawn */
    double along = 0, square = 0, off = 0;
    for (size_t i = 0; i < job->contributor_count; i++) {
        double from = part_of(job, first, i), step = part_of(job, last, i) - from;
        along += (part_of(job, row, i) - from) * step;
        square += step * step;
    }
    double t = square > 0 ? along / square : 0, sigma = fit_row_sigma(job, row);
    for (size_t i = 0; i < job->contributor_count; i++) {
        double from = part_of(job, first, i);
        double gap = part_of(job, row, i) - from - t * (part_of(job, last, i) - from);
        off += gap * gap;
    }
    double drawn = job->rows[first].value + t * (job->rows[last].value - job->rows[first].value);
    return t >= 0 && t <= 1 && off <= alike * alike * sigma * sigma && fabs(job->rows[row].value - drawn) <= alike;
}

static bool is_drawn(const fit_job *job, size_t row)
{
    size_t joint = job->rows[row].joint, first = job->joint_first[joint];
    size_t count = job->joints[joint].point_count;
    if (row >= first + count) return false; /* offsets */
    return row == first || row + 1 == first + count || !between(job, row, first, first + count - 1);
}

/* Columns are numbered as they come up, so that numbers drawn for nothing are few. */
static sw_status find_row_terms(sw_run *run, scheme *s, size_t row, size_t *columns)
{
    const fit_job *job = s->job;
    size_t count = 0;
    term *all = SW_SCRATCH(run, job->contributor_count + 1, term);
    if (all == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->contributor_count; i++) all[count++] = (term){i, part_of(job, row, i)};
    count = cut_terms(all, count);
    s->terms[row] = all;
    s->term_counts[row] = count;
    for (size_t i = 0; i < count; i++) {
        size_t *column = &columns[all[i].column];
        if (*column == SIZE_MAX) *column = s->columns++;
        all[i].column = *column;
    }
    return SW_OK;
}

static sw_status find_terms(sw_run *run, scheme *s)
{
    const fit_job *job = s->job;
    size_t *columns = SW_SCRATCH(run, job->contributor_count + 1, size_t);
    s->terms = SW_SCRATCH(run, job->row_count, term *);
    s->term_counts = SW_SCRATCH(run, job->row_count, size_t);
    s->drawn = SW_SCRATCH(run, job->row_count, bool);
    if (columns == NULL || s->terms == NULL || s->term_counts == NULL || s->drawn == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->contributor_count; i++) columns[i] = SIZE_MAX;
    for (size_t r = 0; r < job->row_count; r++) {
        s->drawn[r] = is_drawn(job, r);
        if (s->drawn[r]) SW_TRY(find_row_terms(run, s, r, columns));
    }
    return SW_OK;
}

/* ---- one block ---- */

typedef struct block {
    const scheme *s;
    const double *numbers; /* [columns * BLOCK] */
    size_t count;
    bool fails[BLOCK];
} block;

static void find_row(const scheme *s, const double *numbers, size_t row, double *out)
{
    enum { LANES = 8 }; /* sums that stay in registers */
    const term *terms = s->terms[row];
    for (size_t at = 0; at < BLOCK; at += LANES) {
        double sum[LANES];
        for (size_t k = 0; k < LANES; k++) sum[k] = s->job->rows[row].value;
        for (size_t t = 0; t < s->term_counts[row]; t++) {
            const double *x = numbers + terms[t].column * BLOCK + at;
            for (size_t k = 0; k < LANES; k++) sum[k] += terms[t].by * x[k];
        }
        memcpy(out + at, sum, sizeof sum);
    }
}

static void count_stove(const scheme *s, size_t joint, double widest_mm, tally *t)
{
    double cell = widest_mm / s->span_mm[joint] * CELLS;
    t->cells[cell < CELLS ? (size_t)cell : CELLS - 1]++;
    t->sum += widest_mm;
    t->square += widest_mm * widest_mm;
}

/* A piece that would overlap somewhere stands off by so much: then the joint gapes elsewhere. */
static void count_joint(block *b, size_t joint, tally *t)
{
    const fit_job *job = b->s->job;
    const sw_fit_joint *j = &job->joints[joint];
    double low[BLOCK], high[BLOCK], row[BLOCK];
    size_t first = job->joint_first[joint];
    if (j->point_count == 0) return;
    find_row(b->s, b->numbers, first, low);
    memcpy(high, low, sizeof high);
    for (size_t p = 1; p < j->point_count; p++) {
        if (!b->s->drawn[first + p]) continue;
        find_row(b->s, b->numbers, first + p, row);
        for (size_t k = 0; k < BLOCK; k++) {
            low[k] = row[k] < low[k] ? row[k] : low[k];
            high[k] = row[k] > high[k] ? row[k] : high[k];
        }
    }
    bool slot = j->points[0].slot;
    for (size_t k = 0; k < b->count; k++) {
        double widest_mm = high[k] + (low[k] < 0 ? -low[k] : 0);
        bool over = widest_mm > j->limit_mm, no_entry = slot && low[k] < 0;
        bool clash = !slot && low[k] < -job->opt->press_mm;
        count_stove(b->s, joint, widest_mm, t);
        t->over += over ? 1 : 0;
        t->clash += clash ? 1 : 0;
        t->no_entry += no_entry ? 1 : 0;
        b->fails[k] = b->fails[k] || over || clash || no_entry;
    }
}

static void draw_chunk(void *context, size_t chunk)
{
    scheme *s = context;
    size_t joints = s->job->result->joint_count, from = s->stoves * chunk / CHUNKS;
    size_t to = s->stoves * (chunk + 1) / CHUNKS;
    double *numbers = s->numbers + chunk * s->columns * BLOCK;
    sw_random random = sw_random_seeded((uint64_t)s->job->opt->seed * 0x9E3779B97F4A7C15u + chunk);
    for (size_t at = from; at < to && !sw_run_cancelled(s->run); at += BLOCK) {
        block b = {.s = s, .numbers = numbers, .count = to - at < BLOCK ? to - at : BLOCK};
        for (size_t i = 0; i < s->columns * BLOCK; i++) numbers[i] = fit_normal(&s->normals, &random);
        for (size_t j = 0; j < joints; j++) count_joint(&b, j, &s->tallies[chunk * joints + j]);
        for (size_t k = 0; k < b.count; k++) s->all_fit[chunk] += b.fails[k] ? 0 : 1;
    }
}

/* ---- sums ---- */

static double quantile(const tally *t, double stoves, double share, double span_mm)
{
    double below = 0;
    for (size_t i = 0; i < CELLS; i++) {
        double here = t->cells[i];
        if (below + here >= share * stoves && here > 0)
            return span_mm * ((double)i + (share * stoves - below) / here) / CELLS;
        below += here;
    }
    return span_mm;
}

static void add_tally(tally *to, const tally *from)
{
    to->over += from->over;
    to->clash += from->clash;
    to->no_entry += from->no_entry;
    to->sum += from->sum;
    to->square += from->square;
    for (size_t i = 0; i < CELLS; i++) to->cells[i] += from->cells[i];
}

static void tell_joint(const scheme *s, const tally *t, double span_mm, sw_fit_joint *j)
{
    double n = (double)s->stoves;
    j->mean_mm = t->sum / n;
    j->spread_mm = sqrt(fmax(0, t->square / n - j->mean_mm * j->mean_mm));
    j->p50_mm = quantile(t, n, 0.5, span_mm);
    j->p95_mm = quantile(t, n, 0.95, span_mm);
    j->p99_mm = quantile(t, n, 0.99, span_mm);
    j->bin_mm = span_mm / SW_FIT_BINS;
    for (size_t i = 0; i < CELLS; i++) j->bins[i / FINE] += t->cells[i] / n;
    j->over = (double)t->over / n;
    j->over_error = sw_tail_error(j->over, n);
    j->clash = (double)t->clash / n;
    j->clash_error = sw_tail_error(j->clash, n);
    if (!j->points[0].slot) return;
    j->no_entry = (double)t->no_entry / n;
    j->no_entry_error = sw_tail_error(j->no_entry, n);
}

static void sum_up(const scheme *s, fit_job *job)
{
    size_t joints = job->result->joint_count, all = 0;
    for (size_t c = 1; c < CHUNKS; c++)
        for (size_t j = 0; j < joints; j++) add_tally(&s->tallies[j], &s->tallies[c * joints + j]);
    for (size_t j = 0; j < joints; j++)
        if (job->joints[j].point_count > 0) tell_joint(s, &s->tallies[j], s->span_mm[j], &job->joints[j]);
    for (size_t c = 0; c < CHUNKS; c++) all += s->all_fit[c];
    job->result->stoves = s->stoves;
    job->result->all_fit = (double)all / (double)s->stoves;
    job->result->all_fit_error = sw_tail_error(job->result->all_fit, (double)s->stoves);
}

/* From 0 to beyond nearly all stoves, and beyond the limit. */
static void find_span(const scheme *s, size_t joint)
{
    const sw_fit_joint *j = &s->job->joints[joint];
    double span_mm = 1.25 * j->limit_mm;
    for (size_t p = 0; p < j->point_count; p++)
        span_mm = fmax(span_mm, fmax(0, j->points[p].gap_mm) + 4.5 * j->points[p].sigma_mm);
    s->span_mm[joint] = span_mm > 0 ? span_mm : 1;
}

/* Without stoves drawn: the normal law at the point judged. */
static void estimate(fit_job *job)
{
    for (size_t i = 0; i < job->result->joint_count; i++) {
        sw_fit_joint *j = &job->joints[i];
        if (j->point_count == 0) continue;
        const sw_fit_point *p = &j->points[j->judged];
        j->over = sw_tail_share(j->limit_mm, p->gap_mm, p->sigma_mm);
        j->over_error = 0;
        j->mean_mm = j->p50_mm = p->gap_mm;
        j->p95_mm = p->gap_mm + sw_normal_quantile(0.95) * p->sigma_mm;
        j->p99_mm = p->gap_mm + sw_normal_quantile(0.99) * p->sigma_mm;
        j->spread_mm = p->sigma_mm;
    }
}

sw_status fit_draw(sw_run *run, fit_job *job)
{
    size_t joints = job->result->joint_count;
    scheme *s = SW_SCRATCH(run, 1, scheme);
    if (s == NULL) return SW_NO_MEMORY;
    *s = (scheme){.job = job, .stoves = (size_t)job->opt->stoves, .run = run};
    job->result->all_fit = job->result->all_fit_error = NAN;
    if (s->stoves == 0 || job->row_count == 0) {
        estimate(job);
        return SW_OK;
    }
    SW_TRY(find_terms(run, s));
    s->tallies = SW_SCRATCH(run, CHUNKS * joints, tally);
    s->all_fit = SW_SCRATCH(run, CHUNKS, size_t);
    s->span_mm = SW_SCRATCH(run, joints, double);
    s->numbers = SW_SCRATCH(run, CHUNKS * s->columns * BLOCK + 1, double);
    if (s->tallies == NULL || s->all_fit == NULL || s->span_mm == NULL || s->numbers == NULL) return SW_NO_MEMORY;
    for (size_t j = 0; j < joints; j++) find_span(s, j);
    fit_normals_make(&s->normals);
    sw_run_progress(run, "drawing stoves", 0, (double)s->stoves, "");
    sw_parallel_for(run->threads, CHUNKS, draw_chunk, s);
    if (sw_run_cancelled(run)) return SW_CANCELLED;
    sum_up(s, job);
    return SW_OK;
}
