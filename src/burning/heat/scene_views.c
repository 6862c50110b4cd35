/* scene_views.c: rays between surfaces counted to A_i F_ij; both directions weighed into one number; then rows made
 * to close. */
#include "burning/heat/scene_parts.h"

#include <math.h>

enum { MOST_ROUNDS = 200 };

static double row_sum(const double *S, size_t n, size_t i)
{
    double sum = 0.0;
    for (size_t j = 0; j < n; j++) sum += S[i * n + j];
    return sum;
}

/* One symmetric scaling; gives how far a row was off. The last column is the room: it takes what comes. */
static double scale_once(double *S, size_t n, const double *area, double *factor)
{
    double worst = 0.0;
    for (size_t i = 0; i + 1 < n; i++) {
        double sum = row_sum(S, n, i);
        factor[i] = sum > 0.0 ? sqrt(area[i] / sum) : 1.0;
        worst = fmax(worst, fabs(sum / area[i] - 1.0));
    }
    factor[n - 1] = 1.0;
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j < n; j++) S[i * n + j] *= factor[i] * factor[j];
    return worst;
}

/* Takes rows that are too long down to their area, then leaves what is missing to the surface's view of itself. */
static double close_rows(double *S, size_t n, const double *area, double *factor)
{
    double worst = 0.0;
    for (size_t i = 0; i + 1 < n; i++) {
        double sum = row_sum(S, n, i);
        factor[i] = sum > area[i] ? area[i] / sum : 1.0;
        worst = fmax(worst, fabs(sum / area[i] - 1.0));
    }
    factor[n - 1] = 1.0;
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j < n; j++) S[i * n + j] *= fmin(factor[i], factor[j]);
    for (size_t i = 0; i + 1 < n; i++) S[i * n + i] += fmax(0.0, area[i] - row_sum(S, n, i));
    return worst;
}

/* Iterative proportional fitting with one factor a surface, so that symmetry stays (Ruiz 2001, square roots of the
 * row sums; from memory). cost n^2 a round */
double scene_balance(double *S, size_t n, const double *area, double *work)
{
    for (int round = 0; round < MOST_ROUNDS; round++)
        if (scale_once(S, n, area, work) < 1e-9) break;
    return close_rows(S, n, area, work);
}

/* ---- counting ---- */

/* Surfaces at both ends; the room for a ray that leaves, itself for one that goes up the flue. */
static bool ends_of(const scene_job *job, const scene_sample *s, size_t *from, size_t *to)
{
    if (s->cell == SCENE_NONE) return false;
    *from = scene_surface_of(job, s->body, s->cell, &s->at);
    *to = job->scene->surface_count;
    if (s->leaves_flue) *to = *from;
    if (s->hit != SCENE_NONE) *to = scene_surface_of(job, s->hit, s->hit_cell, &s->to);
    return *from != SCENE_NONE && *to != SCENE_NONE;
}

/* Rays each way estimate the same number; the better is the one with the smaller area a ray:
 * (a_ij/w_i + a_ji/w_j)/(1/w_i + 1/w_j), a area of the rays that go there, w area a ray. Source: weights inverse to the
 * variance of a count. */
static void weigh(const double *gone, const double *w, size_t n, double *S)
{
    for (size_t i = 0; i + 1 < n; i++) {
        S[i * n + i] = gone[i * n + i];
        S[i * n + n - 1] = S[(n - 1) * n + i] = gone[i * n + n - 1];
        for (size_t j = i + 1; j + 1 < n; j++) {
            if (!(gone[i * n + j] + gone[j * n + i] > 0.0)) continue;
            double both = 0.0, shares = 0.0;
            if (w[i] > 0.0) both += gone[i * n + j] / w[i], shares += 1.0 / w[i];
            if (w[j] > 0.0) both += gone[j * n + i] / w[j], shares += 1.0 / w[j];
            S[i * n + j] = S[j * n + i] = both / shares;
        }
    }
}

static void bars_see_the_room(const scene_job *job, size_t n, double *S)
{
    for (size_t i = 0; i + 1 < n; i++)
        if (!(row_sum(S, n, i) > 0.0)) S[i * n + n - 1] = S[(n - 1) * n + i] = job->surfaces[i].area_m2;
}

sw_status scene_views(sw_run *run, scene_job *job)
{
    sw_scene *s = job->scene;
    size_t n = s->surface_count + 1;
    double *S = SW_KEEP(run, n * n, double), *gone = SW_SCRATCH(run, n * n, double);
    double *w = SW_SCRATCH(run, n, double), *cast = SW_SCRATCH(run, n, double);
    double *area = SW_SCRATCH(run, n, double), *work = SW_SCRATCH(run, n, double);
    if (S == NULL || gone == NULL || w == NULL || cast == NULL || area == NULL || work == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->sample_count; i++) {
        size_t from = 0, to = 0;
        if (!ends_of(job, &job->samples[i], &from, &to)) continue;
        double weight = (double)job->samples[i].weight_m2;
        gone[from * n + to] += weight;
        w[from] += weight;
        cast[from] += 1.0;
    }
    for (size_t i = 0; i < n; i++) w[i] = cast[i] > 0.0 ? w[i] / cast[i] : 0.0;
    for (size_t i = 0; i + 1 < n; i++) area[i] = s->surfaces[i].area_m2;
    weigh(gone, w, n, S);
    bars_see_the_room(job, n, S);
    s->view_m2 = S;
    s->closure = scene_balance(S, n, area, work);
    return SW_OK;
}
