/* map_views.c: rays between patches counted to A_i F_ij, sparse; both directions weighed into one number; rows made to close by
 * one factor a patch (scene_balance's way, Ruiz 2001, for sparse rows). One enclosure a space, as in net_exchange.c: what
 * leaves it goes to the throat (black at the other gas's temperature) or to the room. */
#include "burning/heat/map_parts.h"

#include <math.h>
#include <stdlib.h>

enum { MOST_ROUNDS = 60 };

typedef struct counts { /* area that rays of each row stand for, by column; rows of one space */
    size_t rows;
    size_t *start;
    uint32_t *column;
    double *area;
} counts;

static map_space_name space_at(const map_system *sys, uint32_t patch)
{
    int s = 0;
    while (s + 1 < MAP_SPACES && patch >= sys->spaces[s].first + sys->spaces[s].patches) s++;
    return (map_space_name)s;
}

/* Column of a ray in its own space: patches, then throat, room. */
static size_t column_of(const map_system *sys, map_space_name own, size_t row, const map_ray *r)
{
    const map_space *s = &sys->spaces[own];
    if (r->end == MAP_FLUE || r->end == MAP_LOST) return row;
    if (r->end == MAP_ROOM) return s->patches + 1;
    map_space_name other = space_at(sys, r->body);
    if (other == own) return r->body - s->first;
    if (own != MAP_OUTER && other != MAP_OUTER) return own == MAP_BELOW ? s->patches : row;
    return s->patches + 1;
}

/* ---- counting ---- */

typedef struct order { /* facets by patch */
    size_t *start;
    uint32_t *facet;
} order;

static sw_status sort_facets(sw_run *run, const map_job *job, order *o)
{
    size_t n = job->sys.patch_count;
    o->start = SW_SCRATCH(run, n + 2, size_t);
    o->facet = SW_SCRATCH(run, job->facet_count + 1, uint32_t);
    if (o->start == NULL || o->facet == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->facet_count; i++)
        if (job->facets[i].patch != MAP_NONE) o->start[job->facets[i].patch + 2]++;
    for (size_t p = 0; p < n; p++) o->start[p + 2] += o->start[p + 1];
    for (uint32_t i = 0; i < job->facet_count; i++)
        if (job->facets[i].patch != MAP_NONE) o->facet[o->start[job->facets[i].patch + 1]++] = i;
    return SW_OK;
}

static void add_rays(const map_job *job, map_space_name own, size_t row, uint32_t facet, double *sum)
{
    double each = job->facets[facet].area_m2 / (double)job->rays_each;
    for (size_t k = 0; k < job->rays_each; k++)
        sum[column_of(&job->sys, own, row, &job->rays[facet * job->rays_each + k])] += each;
}

static const double own_view = 1e-12; /* so that every row has one, to be closed by */

static sw_status count_rays(sw_run *run, const map_job *job, const order *o, map_space_name own, counts *c)
{
    const map_space *s = &job->sys.spaces[own];
    size_t most = s->rows;
    for (size_t p = s->first; p < s->first + s->patches; p++)
        most += (o->start[p + 1] - o->start[p]) * job->rays_each + 1;
    double *sum = SW_SCRATCH(run, s->rows + 1, double);
    *c = (counts){s->rows, SW_SCRATCH(run, s->rows + 1, size_t), SW_SCRATCH(run, most, uint32_t),
                  SW_SCRATCH(run, most, double)};
    if (sum == NULL || c->start == NULL || c->column == NULL || c->area == NULL) return SW_NO_MEMORY;
    for (size_t row = 0; row < s->rows; row++) {
        size_t at = c->start[row], p = s->first + row;
        if (row < s->patches)
            for (size_t i = o->start[p]; i < o->start[p + 1]; i++) add_rays(job, own, row, o->facet[i], sum);
        if (row < s->patches && o->start[p] == o->start[p + 1]) /* a bar sees the room */
            sum[s->patches + 1] = job->sys.patches[p].area_m2;
        if (row < s->patches) sum[row] += own_view * job->sys.patches[p].area_m2;
        for (size_t k = 0; k < s->rows; k++) {
            if (!(sum[k] > 0.0)) continue;
            c->column[at] = (uint32_t)k;
            c->area[at++] = sum[k];
            sum[k] = 0.0;
        }
        c->start[row + 1] = at;
    }
    return SW_OK;
}

static sw_status transposed(sw_run *run, const counts *c, counts *t)
{
    size_t all = c->start[c->rows];
    *t = (counts){c->rows, SW_SCRATCH(run, c->rows + 3, size_t), SW_SCRATCH(run, all + 1, uint32_t),
                  SW_SCRATCH(run, all + 1, double)};
    if (t->start == NULL || t->column == NULL || t->area == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < all; i++) t->start[c->column[i] + 2]++;
    for (size_t r = 0; r < c->rows; r++) t->start[r + 2] += t->start[r + 1];
    for (uint32_t r = 0; r < c->rows; r++)
        for (size_t i = c->start[r]; i < c->start[r + 1]; i++) {
            size_t at = t->start[c->column[i] + 1]++;
            t->column[at] = r;
            t->area[at] = c->area[i];
        }
    return SW_OK;
}

/* ---- one symmetric matrix ---- */

/* (c_ij/w_i + c_ji/w_j)/(1/w_i + 1/w_j), w the area a ray of the row stands for; openings cast none: the patch's own then. */
static double weighed(double c_ij, double c_ji, double w_i, double w_j)
{
    if (!(w_i > 0.0) && !(w_j > 0.0)) return c_ij + c_ji; /* a bar and the room: told once */
    if (!(w_j > 0.0)) return c_ij;
    if (!(w_i > 0.0)) return c_ji;
    return (c_ij / w_i + c_ji / w_j) / (1.0 / w_i + 1.0 / w_j);
}

static double area_a_ray(const map_job *job, const order *o, const map_space *s, size_t row)
{
    if (row >= s->patches) return 0.0;
    size_t p = s->first + row, facets = o->start[p + 1] - o->start[p];
    return facets > 0 ? job->sys.patches[p].area_m2 / (double)(facets * job->rays_each) : 0.0;
}

static sw_status merge(sw_run *run, map_space *s, const counts *c, const counts *t, const double *w)
{
    size_t most = c->start[s->rows] + t->start[s->rows] + s->rows, at = 0;
    s->start = SW_SCRATCH(run, s->rows + 1, size_t);
    s->column = SW_SCRATCH(run, most + 1, uint32_t);
    s->view = SW_SCRATCH(run, most + 1, double);
    if (s->start == NULL || s->column == NULL || s->view == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->rows; i++) {
        size_t p = c->start[i], q = t->start[i];
        while (p < c->start[i + 1] || q < t->start[i + 1]) {
            uint32_t a = p < c->start[i + 1] ? c->column[p] : MAP_NONE,
                     b = q < t->start[i + 1] ? t->column[q] : MAP_NONE;
            uint32_t j = a < b ? a : b;
            double c_ij = a == j ? c->area[p++] : 0.0, c_ji = b == j ? t->area[q++] : 0.0;
            if (i >= s->patches && j >= s->patches) continue;
            s->column[at] = j;
            s->view[at++] = weighed(c_ij, c_ji, w[i], w[j]);
        }
        s->start[i + 1] = at;
    }
    return SW_OK;
}

static double row_sum(const map_space *s, size_t i)
{
    double sum = 0.0;
    for (size_t k = s->start[i]; k < s->start[i + 1]; k++) sum += s->view[k];
    return sum;
}

static double scale_once(map_space *s, double *factor)
{
    double worst = 0.0;
    for (size_t i = 0; i < s->rows; i++) {
        double sum = row_sum(s, i);
        factor[i] = i < s->patches && sum > 0.0 ? sqrt(s->area[i] / sum) : 1.0;
        if (i < s->patches && s->area[i] > 0.0) worst = fmax(worst, fabs(sum / s->area[i] - 1.0));
    }
    for (size_t i = 0; i < s->rows; i++)
        for (size_t k = s->start[i]; k < s->start[i + 1]; k++) s->view[k] *= factor[i] * factor[s->column[k]];
    return worst;
}

/* The little that is left goes to the patch's view of itself; `own` views are there for every patch. */
static void close_rows(map_space *s)
{
    for (size_t i = 0; i < s->patches; i++) {
        double left = s->area[i] - row_sum(s, i);
        for (size_t k = s->start[i]; k < s->start[i + 1]; k++)
            if (s->column[k] == i) s->view[k] += left;
    }
    for (size_t i = s->patches; i < s->rows; i++) s->area[i] = row_sum(s, i);
}

static sw_status open_space(sw_run *run, const map_system *sys, map_space *s)
{
    s->rows = s->patches + 2;
    double **arrays[] = {&s->area, &s->e, &s->E, &s->H, &s->dH};
    for (size_t i = 0; i < sizeof arrays / sizeof *arrays; i++)
        if ((*arrays[i] = SW_SCRATCH(run, s->rows, double)) == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->rows; i++) {
        s->e[i] = i < s->patches ? sys->patches[s->first + i].e : 1.0;
        if (i < s->patches) s->area[i] = sys->patches[s->first + i].area_m2;
    }
    return SW_OK;
}

static sw_status make_space(sw_run *run, map_job *job, const order *o, map_space_name own)
{
    map_space *s = &job->sys.spaces[own];
    counts c, t;
    SW_TRY(open_space(run, &job->sys, s));
    SW_TRY(count_rays(run, job, o, own, &c));
    SW_TRY(transposed(run, &c, &t));
    double *w = SW_SCRATCH(run, s->rows, double), *factor = SW_SCRATCH(run, s->rows, double);
    if (w == NULL || factor == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->rows; i++) w[i] = area_a_ray(job, o, s, i);
    SW_TRY(merge(run, s, &c, &t, w));
    for (int round = 0; round < MOST_ROUNDS; round++)
        if (scale_once(s, factor) < 1e-6) break;
    close_rows(s);
    return SW_OK;
}

sw_status map_views(sw_run *run, map_job *job)
{
    order o;
    SW_TRY(sort_facets(run, job, &o));
    for (int s = 0; s < MAP_SPACES; s++) SW_TRY(make_space(run, job, &o, (map_space_name)s));
    return SW_OK;
}
