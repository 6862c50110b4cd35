/* net_ways.c: conduction where the way in the sheets counts: joints and narrow touches.
 *
 * A sheet has one temperature, its mean, but hands heat on at its joints, each of which lies higher or lower than the mean. With
 * q the heat from a to b of each link, r what the touch or bead itself resists and W the scene's way_k_w (K/W):
 *   T_a - T_b = r q + W q,   so   q = (diag r + W)^-1 B T   and   spread = B^T (diag r + W)^-1 B
 * whose columns sum to zero; without what the sheets take up through their surfaces (add_rise) it is symmetric. W has the rises
 * of a plate that loses h to both sides (scene_ways.c), so heat that comes in at the top of a long stand does not reach its foot.
 * r is taken at HEAT_JOINT_K; what air gaps conduct more when they are warmer stays a link of its own. */
#include "burning/heat/net_parts.h"

#include <math.h>

static double resists(const sw_heat_net *net, const net_link *l)
{
    return 1 / net_link_w_k(net, l, HEAT_JOINT_K, HEAT_JOINT_K);
}

static double way(const sw_heat_net *net, const net_link *a, const net_link *b)
{
    return net->scene->way_k_w[a->contact * net->scene->contact_count + b->contact];
}

/* What is left of an air gap: by how much it conducts more than at HEAT_JOINT_K, by the share that the ways let through;
 * d/dg of 1/(1/g + W) is (1/(1 + W g))^2. */
static net_link left_over(const sw_heat_net *net, net_link l)
{
    double g = 1 / resists(net, &l), through = 1 / (1 + way(net, &l, &l) * g), share = through * through;
    l.g *= share;
    l.radiant_m2 *= share;
    l.less_w_k = share * g;
    return l;
}

/* Copies those of contacts to `out`; of them only what changes with temperature stays. */
static size_t take(sw_heat_net *net, net_link *out)
{
    size_t left = 0, taken = 0;
    for (size_t i = 0; i < net->link_count; i++) {
        net_link l = net->links[i];
        if (l.contact != NET_NO_CONTACT) out[taken++] = l;
        if (l.contact != NET_NO_CONTACT && l.kind == NET_LINK_AIR) l = left_over(net, l);
        if (l.contact == NET_NO_CONTACT || l.kind == NET_LINK_AIR) net->links[left++] = l;
    }
    net->link_count = left;
    return taken;
}

/* ---- heat that enters by surfaces ---- */

double net_side_h(sw_medium medium)
{
    static const double h[SW_MEDIA] = {40, 25, 8, 12}; /* film and radiation; ours, about what the demo stoves have */
    return h[medium];
}

/* W/K that a part takes up from what it faces. */
static double takes_w_k(const sw_scene *s, size_t part, sw_medium medium)
{
    double area_m2 = 0;
    for (size_t i = 0; i < s->surface_count; i++)
        if (s->surfaces[i].part == part && s->surfaces[i].medium == medium) area_m2 += s->surfaces[i].area_m2;
    return area_m2 * net_side_h(medium);
}

typedef struct job {
    net_link *links;
    size_t count, *pivot;
    double *M, *b; /* b[n][solids + 2]: T_a - T_b of each link by the temperatures of all, over the room's */
} job;

/* What the sheet of one end stands over its mean at the contact: sum of rise h A (T_gas - T). */
static void add_rise(const sw_heat_net *net, const net_link *l, bool of_b, double *row)
{
    const sw_scene *s = net->scene;
    size_t node = of_b ? l->b : l->a, part = net->part_of[node];
    const double *rise = &s->rise_k_w[(2 * l->contact + (of_b ? 1 : 0)) * SW_MEDIA];
    double sign = of_b ? -1 : 1;
    for (int m = 0; m < SW_MEDIA; m++) {
        if (rise[m] == 0) continue;
        double over = sign * rise[m] * takes_w_k(s, part, (sw_medium)m);
        row[node] -= over;
        if (m == SW_MEDIUM_FIRE) row[net->solids] += over;
        if (m == SW_MEDIUM_UPPER) row[net->solids + 1] += over;
    }
}

static void fill_row(const sw_heat_net *net, const net_link *l, double *row)
{
    row[l->a] += 1;
    row[l->b] -= 1;
    if (net->scene->rise_k_w == NULL) return;
    add_rise(net, l, false, row);
    add_rise(net, l, true, row);
}

/* One column of spread: heat out of every node for node or gas i one kelvin above the rest. */
static void column(sw_heat_net *net, job *j, size_t i, double *q)
{
    size_t wide = net->solids + 2;
    for (size_t k = 0; k < j->count; k++) q[k] = j->b[k * wide + i];
    sw_lu_solve(j->M, j->count, j->count, j->pivot, q);
    for (size_t k = 0; k < j->count; k++) {
        net->spread[j->links[k].a * wide + i] += q[k];
        net->spread[j->links[k].b * wide + i] -= q[k];
    }
}

static sw_status make(sw_run *run, sw_heat_net *net)
{
    job j = {.links = SW_SCRATCH(run, net->link_count + 1, net_link)};
    if (j.links == NULL) return SW_NO_MEMORY;
    size_t n = j.count = take(net, j.links);
    j.M = SW_SCRATCH(run, n * n + 1, double);
    j.b = SW_SCRATCH(run, n * (net->solids + 2) + 1, double);
    double *q = SW_SCRATCH(run, n + 1, double);
    j.pivot = SW_SCRATCH(run, n + 1, size_t);
    if (j.M == NULL || j.b == NULL || q == NULL || j.pivot == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < n; k++)
            j.M[i * n + k] = way(net, &j.links[i], &j.links[k]) + (i == k ? resists(net, &j.links[i]) : 0);
    if (!sw_lu(j.M, n, n, j.pivot))
        return sw_fail(run, SW_NO_SOLUTION, (sw_place){0}, "scene.way_k_w", "ways in the sheets that resist nothing");
    for (size_t i = 0; i < n; i++) fill_row(net, &j.links[i], &j.b[i * (net->solids + 2)]);
    for (size_t i = 0; i < net->solids + 2; i++) column(net, &j, i, q);
    return SW_OK;
}

sw_status net_ways_make(sw_run *run, sw_heat_net *net)
{
    net->spread = SW_KEEP(run, net->solids * (net->solids + 2) + 1, double);
    if (net->spread == NULL) return SW_NO_MEMORY;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = make(run, net);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
