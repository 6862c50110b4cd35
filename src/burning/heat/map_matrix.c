/* map_matrix.c: the sparse symmetric part of the derivative, and its factor by CHOLMOD (Chen, Davis, Hager & Rajamanickam 2008,
 * ACM Trans. Math. Softw. 35/3). Simplicial, one thread: the same bytes whatever the machine does besides. The two gases are
 * a diagonal of their own. */
#include "burning/heat/map_parts.h"

#include <cholmod.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

struct map_matrix {
    cholmod_common common;
    cholmod_triplet *triplets;
    cholmod_sparse *sparse;
    cholmod_factor *factor;
    cholmod_dense *in, *out, *y, *work;
    size_t nodes, unknowns;
    double *diagonal; /* [unknowns] */
};

static void add(cholmod_triplet *t, uint32_t i, uint32_t j, double value)
{
    int *rows = t->i, *columns = t->j;
    double *values = t->x;
    rows[t->nnz] = (int)(i > j ? i : j);
    columns[t->nnz] = (int)(i > j ? j : i);
    values[t->nnz++] = value;
}

static bool is_held(const map_system *sys, uint32_t node)
{
    return sys->held != NULL && sys->held[node];
}

static void add_pair(cholmod_triplet *t, const map_system *sys, uint32_t i, uint32_t j, double value)
{
    bool free = !is_held(sys, i) && !is_held(sys, j);
    add(t, i, j, free ? value : 0.0);
}

static void add_triangles(map_matrix *m, const map_system *sys)
{
    for (size_t i = 0; i < sys->triangle_count; i++) {
        const map_triangle *t = &sys->triangles[i];
        double mean = (sys->x[t->node[0]] + sys->x[t->node[1]] + sys->x[t->node[2]]) / 3.0;
        double kt = map_conductivity(&sys->matters[t->matter], mean) * t->thickness_m;
        for (int e = 0; e < 3; e++) {
            uint32_t a = t->node[e], b = t->node[(e + 1) % 3];
            add_pair(m->triplets, sys, a, b, -kt * t->half_cot[e]);
            m->diagonal[a] += kt * t->half_cot[e];
            m->diagonal[b] += kt * t->half_cot[e];
        }
    }
}

static void add_link(map_matrix *m, const map_system *sys, const net_link *l)
{
    double g = net_link_w_k(sys->laws, l, sys->x[l->a], sys->x[l->b]);
    add_pair(m->triplets, sys, (uint32_t)l->a, (uint32_t)l->b, -g);
    m->diagonal[l->a] += g;
    m->diagonal[l->b] += g;
}

static bool fill(map_matrix *m, const map_system *sys)
{
    m->triplets->nnz = 0;
    map_diagonal(sys, m->diagonal);
    add_triangles(m, sys);
    for (size_t i = 0; i < sys->link_count; i++) add_link(m, sys, &sys->links[i]);
    for (uint32_t i = 0; i < sys->nodes; i++) {
        if (is_held(sys, i)) m->diagonal[i] = 1.0;
        add(m->triplets, i, i, m->diagonal[i]);
    }
    cholmod_free_sparse(&m->sparse, &m->common);
    m->sparse = cholmod_triplet_to_sparse(m->triplets, m->triplets->nnz, &m->common);
    return m->sparse != NULL;
}

static size_t most_entries(const map_system *sys)
{
    return sys->nodes + 3 * sys->triangle_count + sys->link_count + 1;
}

static bool take(map_matrix *m, const map_system *sys)
{
    cholmod_common *c = &m->common;
    m->triplets = cholmod_allocate_triplet(m->nodes, m->nodes, most_entries(sys), -1, CHOLMOD_REAL, c);
    m->in = cholmod_allocate_dense(m->nodes, 1, m->nodes, CHOLMOD_REAL, c);
    m->diagonal = calloc(m->unknowns + 1, sizeof *m->diagonal);
    return m->triplets != NULL && m->in != NULL && m->diagonal != NULL;
}

sw_status map_matrix_open(sw_run *run, const map_system *sys, map_matrix **out)
{
    map_matrix *m = calloc(1, sizeof *m);
    *out = m;
    if (m == NULL) return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "no memory for the matrix of the map");
    m->nodes = sys->nodes;
    m->unknowns = sys->unknowns;
    cholmod_start(&m->common);
    m->common.print = 0;
    m->common.supernodal = CHOLMOD_SIMPLICIAL;
    m->common.nmethods = 1;
    m->common.method[0].ordering = CHOLMOD_AMD;
    m->common.postorder = 1;
    if (take(m, sys)) return SW_OK;
    map_matrix_close(m);
    *out = NULL;
    return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "no memory for the matrix of the map");
}

void map_matrix_close(map_matrix *m)
{
    if (m == NULL) return;
    cholmod_free_triplet(&m->triplets, &m->common);
    cholmod_free_sparse(&m->sparse, &m->common);
    cholmod_free_factor(&m->factor, &m->common);
    cholmod_free_dense(&m->in, &m->common);
    cholmod_free_dense(&m->out, &m->common);
    cholmod_free_dense(&m->y, &m->common);
    cholmod_free_dense(&m->work, &m->common);
    cholmod_finish(&m->common);
    free(m->diagonal);
    free(m);
}

sw_status map_matrix_renew(sw_run *run, map_matrix *m, const map_system *sys)
{
    if (!fill(m, sys)) return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "no memory for the matrix of the map");
    if (m->factor == NULL) m->factor = cholmod_analyze(m->sparse, &m->common);
    if (m->factor == NULL || !cholmod_factorize(m->sparse, m->factor, &m->common))
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "no memory for the factor of the map's matrix");
    if (m->common.status == CHOLMOD_OK && m->factor->minor >= m->nodes) return SW_OK;
    return sw_fail(run, SW_NO_SOLUTION, (sw_place){0}, "heat map", "node %zu of %zu has no way for its heat to leave",
                   m->factor->minor, m->nodes);
}

void map_matrix_times(map_matrix *m, const double *v, double *out)
{
    const int *start = m->sparse->p, *row = m->sparse->i;
    const double *value = m->sparse->x;
    memset(out, 0, m->unknowns * sizeof *out);
    for (size_t j = 0; j < m->nodes; j++)
        for (int k = start[j]; k < start[j + 1]; k++) {
            size_t i = (size_t)row[k];
            out[i] += value[k] * v[j];
            if (i != j) out[j] += value[k] * v[i];
        }
    for (size_t g = m->nodes; g < m->unknowns; g++) out[g] = m->diagonal[g] * v[g];
}

void map_matrix_solve(map_matrix *m, const double *b, double *out)
{
    memcpy(m->in->x, b, m->nodes * sizeof *b);
    cholmod_solve2(CHOLMOD_A, m->factor, m->in, NULL, &m->out, NULL, &m->y, &m->work, &m->common);
    memcpy(out, m->out->x, m->nodes * sizeof *out);
    for (size_t g = m->nodes; g < m->unknowns; g++) out[g] = b[g] / m->diagonal[g];
}
