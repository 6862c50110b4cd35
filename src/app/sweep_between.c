/* sweep_between.c: a sweep over many geometries: some designs are computed, the others lie on a surface through them.
 *
 * Response surface (Box & Wilson 1951, from memory): every quantity is a sum of products of Chebyshev polynomials of the axes up
 * to a total degree, by least squares over designs spread evenly with the density that suits them, denser towards the ends. A fifth
 * of the computed designs is held back; the degree with the least worst miss there is taken, and the surface is used only where
 * no quantity misses one of them by more than it may: 3 K, 0.5 points of a per cent, else 1 %. Then all of them are fitted once
 * more. Else, and where a design has no answer, each is computed. What was computed keeps its own answer. */
#include "app/sweep.h"

#include <math.h>
#include <string.h>

enum { FEWEST = 1000, DEGREES = 4, TERMS_MOST = 210, HELD_EACH = 5, TIMES = 3, MORE = 25 };

static const int own_memory = 1 << 22;

typedef struct between {
    sw_run *run; /* of the caller */
    const sw_sweep *sweep;
    double *values;
    size_t *design; /* [count] that are computed, in the order they were drawn */
    size_t count;
    double *answer; /* [count * quantities] */
    size_t *failed; /* [count] */
    atomic_size_t done;
    int power[TERMS_MOST][SW_SWEEP_AXES];
    size_t terms;
} between;

/* ---- which ---- */

static size_t geometries(const sw_sweep *s)
{
    size_t n = 1;
    for (size_t i = 0; i < s->axis_count; i++) n *= s->axes[i].condition ? 1 : s->axes[i].count;
    return n;
}

static size_t true_axes(const sw_sweep *s)
{
    size_t n = 0;
    for (size_t i = 0; i < s->axis_count; i++) n += s->axes[i].count > 1 ? 1 : 0;
    return n;
}

static int sum_of(const int *power, size_t count)
{
    int sum = 0;
    for (size_t i = 0; i < count; i++) sum += power[i];
    return sum;
}

/* All products up to the degree, no axis with more than its steps tell apart. */
static void list_terms(between *b, int degree)
{
    const sw_sweep *s = b->sweep;
    int power[SW_SWEEP_AXES] = {0};
    b->terms = 0;
    for (;;) {
        if (sum_of(power, s->axis_count) <= degree) memcpy(b->power[b->terms++], power, sizeof power);
        size_t i = 0;
        while (i < s->axis_count) {
            power[i]++;
            if ((size_t)power[i] < s->axes[i].count && sum_of(power, s->axis_count) <= degree) break;
            power[i++] = 0;
        }
        if (i == s->axis_count) return;
    }
}

/* Along each axis the arcsine's density, by an additive sequence of square roots of primes (Richtmyer 1951, from memory). */
static size_t drawn(const sw_sweep *s, size_t k)
{
    static const double by[SW_SWEEP_AXES] = {0.41421356237309515, 0.73205080756887719, 0.23606797749978969,
                                             0.64575131106459072, 0.31662479035539981, 0.60555127546398912};
    size_t design = 0;
    for (size_t i = 0; i < s->axis_count; i++) {
        double whole, u = modf(0.5 + (double)k * by[i], &whole), last = (double)(s->axes[i].count - 1);
        design = design * s->axes[i].count + (size_t)round(last * 0.5 * (1.0 - cos(SW_PI * u)));
    }
    return design;
}

static bool has(const between *b, size_t design)
{
    for (size_t i = 0; i < b->count; i++)
        if (b->design[i] == design) return true;
    return false;
}

static void choose(between *b, size_t wanted)
{
    for (size_t k = 0; b->count < wanted && k < 20 * wanted; k++) {
        size_t design = drawn(b->sweep, k);
        if (!has(b, design)) b->design[b->count++] = design;
    }
}

/* ---- computed ---- */

static void compute(void *context, size_t i)
{
    between *b = context;
    const sw_sweep *s = b->sweep;
    sw_request request = *s->request;
    sw_sweep one = *s;
    sw_run run;
    const char *why = "";
    b->failed[i] = 1;
    if (sw_run_cancelled(b->run) || sw_run_open(&run, (size_t)own_memory) != SW_OK) return;
    run.cancel = b->run->cancel;
    request.threads = 1;
    one.request = &request;
    one.designs = 1;
    for (size_t k = 0; k < s->axis_count; k++) {
        one.axes[k].from = one.axes[k].to = sw_sweep_value(s, k, b->design[i]);
        one.axes[k].count = 1;
    }
    if (sw_sweep_solve(&run, &one, &b->answer[i * s->quantity_count], &b->failed[i], &why) != SW_OK) b->failed[i] = 1;
    sw_run_close(&run);
    size_t done = atomic_fetch_add(&b->done, 1) + 1;
    if (sw_run_cancelled(b->run)) return;
#pragma omp critical(sw_sweep_progress)
    sw_run_progress(b->run, "sweep", (double)done, (double)b->count, "designs to lay the others between");
}

/* ---- fitted ---- */

static double chebyshev(int n, double x)
{
    return cos(n * acos(fmin(1.0, fmax(-1.0, x))));
}

static void row_of(const between *b, size_t design, double *row)
{
    const sw_sweep *s = b->sweep;
    double at[SW_SWEEP_AXES][DEGREES + 1];
    for (size_t i = s->axis_count; i-- > 0;) {
        size_t steps = s->axes[i].count, k = design % steps;
        double x = steps > 1 ? 2.0 * (double)k / (double)(steps - 1) - 1.0 : 0.0;
        design /= steps;
        for (int n = 0; n <= DEGREES; n++) at[i][n] = chebyshev(n, x);
    }
    for (size_t t = 0; t < b->terms; t++) {
        row[t] = 1.0;
        for (size_t i = 0; i < s->axis_count; i++) row[t] *= at[i][b->power[t][i]];
    }
}

static bool is_held(size_t i)
{
    return i % HELD_EACH == HELD_EACH - 1;
}

typedef struct fitted {
    double *normal, *sum,
        *row; /* [terms^2], [quantities * terms]: right hand sides, then weights of the terms; [terms] */
    size_t *pivot;
} fitted;

static bool fit(const between *b, bool all, fitted *f)
{
    size_t n = b->terms, quantities = b->sweep->quantity_count;
    memset(f->normal, 0, n * n * sizeof *f->normal);
    memset(f->sum, 0, n * quantities * sizeof *f->sum);
    for (size_t i = 0; i < b->count; i++) {
        if (!all && is_held(i)) continue;
        row_of(b, b->design[i], f->row);
        for (size_t t = 0; t < n; t++) {
            for (size_t u = 0; u < n; u++) f->normal[t * n + u] += f->row[t] * f->row[u];
            for (size_t q = 0; q < quantities; q++) f->sum[q * n + t] += f->row[t] * b->answer[i * quantities + q];
        }
    }
    if (!sw_lu(f->normal, n, n, f->pivot)) return false;
    for (size_t q = 0; q < quantities; q++) sw_lu_solve(f->normal, n, n, f->pivot, &f->sum[q * n]);
    return true;
}

static double on_surface(const between *b, const fitted *f, size_t quantity)
{
    double sum = 0.0;
    for (size_t t = 0; t < b->terms; t++) sum += f->sum[quantity * b->terms + t] * f->row[t];
    return sum;
}

static double may_miss(const sw_quantity *q, double value)
{
    if (strcmp(q->unit, "degC") == 0) return 3.0;
    return strcmp(q->unit, "%") == 0 ? 0.5 : 0.01 * fabs(value);
}

/* Worst miss of each quantity at the designs held back; gives the worst of all over what it may be. */
static double missed(const between *b, const fitted *f, double *off)
{
    const sw_sweep *s = b->sweep;
    double worst = 0.0;
    for (size_t q = 0; q < s->quantity_count; q++) off[q] = 0.0;
    for (size_t i = 0; i < b->count; i++) {
        if (!is_held(i)) continue;
        row_of(b, b->design[i], f->row);
        for (size_t q = 0; q < s->quantity_count; q++) {
            double value = b->answer[i * s->quantity_count + q], miss = fabs(on_surface(b, f, q) - value);
            double may = may_miss(s->quantities[q], value);
            off[q] = fmax(off[q], miss);
            worst = fmax(worst, miss <= 1e-9 * fabs(value) ? 0.0 : miss / may);
        }
    }
    return worst;
}

static sw_status open_fitted(sw_run *run, const between *b, fitted *f)
{
    size_t n = TERMS_MOST;
    *f = (fitted){.normal = SW_SCRATCH(run, n * n, double),
                  .sum = SW_SCRATCH(run, n * b->sweep->quantity_count, double),
                  .row = SW_SCRATCH(run, n, double),
                  .pivot = SW_SCRATCH(run, n, size_t)};
    return f->normal == NULL || f->sum == NULL || f->row == NULL || f->pivot == NULL ? SW_NO_MEMORY : SW_OK;
}

static void lay_all(const between *b, const fitted *f)
{
    size_t quantities = b->sweep->quantity_count;
    for (size_t d = 0; d < b->sweep->designs; d++) {
        row_of(b, d, f->row);
        for (size_t q = 0; q < quantities; q++) b->values[d * quantities + q] = on_surface(b, f, q);
    }
    for (size_t i = 0; i < b->count; i++)
        memcpy(&b->values[b->design[i] * quantities], &b->answer[i * quantities], quantities * sizeof *b->values);
}

/* surface->degree stays 0 where no degree is good enough. */
static sw_status lay(sw_run *run, between *b, sw_sweep_surface *surface)
{
    fitted f;
    double best = 1.0, off[SW_SWEEP_QUANTITIES];
    SW_TRY(open_fitted(run, b, &f));
    for (int degree = 1; degree <= DEGREES; degree++) {
        list_terms(b, degree);
        if (!fit(b, false, &f)) continue;
        double worst = missed(b, &f, off);
        if (!(worst < best)) continue;
        best = worst;
        surface->degree = degree;
        memcpy(surface->off, off, sizeof off);
    }
    if (surface->degree == 0) return SW_OK;
    list_terms(b, surface->degree);
    if (!fit(b, true, &f)) {
        surface->degree = 0;
        return SW_OK;
    }
    lay_all(b, &f);
    surface->computed = b->count;
    surface->held = b->count / HELD_EACH;
    return SW_OK;
}

static bool suits(const sw_sweep *s)
{
    return !s->request->all && geometries(s) >= FEWEST;
}

static sw_status try_surface(sw_run *run, between *b, sw_sweep_surface *surface)
{
    const sw_sweep *s = b->sweep;
    list_terms(b, DEGREES);
    size_t wanted = (size_t)TIMES * b->terms + (size_t)MORE * (true_axes(s) > 1 ? 2U : 1U);
    if (wanted > s->designs / 2) return SW_OK;
    b->design = SW_SCRATCH(run, wanted, size_t);
    b->answer = SW_SCRATCH(run, wanted * s->quantity_count, double);
    b->failed = SW_SCRATCH(run, wanted, size_t);
    if (b->design == NULL || b->answer == NULL || b->failed == NULL) return SW_NO_MEMORY;
    choose(b, wanted);
    sw_parallel_for((int)s->request->threads, b->count, compute, b);
    if (sw_run_cancelled(run)) return sw_fail(run, SW_CANCELLED, (sw_place){0}, "sweep", "stopped before its end");
    for (size_t i = 0; i < b->count; i++)
        if (b->failed[i] > 0) return SW_OK;
    for (size_t i = 0; i < b->count * s->quantity_count; i++)
        if (!isfinite(b->answer[i])) return SW_OK;
    return lay(run, b, surface);
}

sw_status sw_sweep_solve_between(sw_run *run, const sw_sweep *s, double *values, size_t *failed, const char **why,
                                 sw_sweep_surface *surface)
{
    *surface = (sw_sweep_surface){0};
    *failed = 0;
    *why = "";
    if (suits(s)) {
        size_t mark = sw_arena_mark(run->scratch);
        between b = {.run = run, .sweep = s, .values = values};
        sw_status status = try_surface(run, &b, surface);
        sw_arena_rewind(run->scratch, mark);
        if (status != SW_OK || surface->degree > 0) return status;
    }
    return sw_sweep_solve(run, s, values, failed, why);
}
