/* net_exchange.c: total exchange areas of an enclosure of grey diffuse surfaces with a grey gas between them.
 *
 * Net-radiation method (Hottel & Sarofim, Radiative Transfer, 1967; Modest, Radiative Heat Transfer, ch. 5; from memory).
 * With V_ij = A_i F_ij, tau = 1 - e_gas on every way, y_i what meets surface i, W:
 *   y = tau V (e E + (1 - e)/A y) + e_gas (V 1) E_gas,   G_ij = e_i dy_i/dE_j
 * so that surface i gains sum G_ij (E_j - E_i), E = sigma T^4. G is symmetric: what one gives the other gets. It depends on
 * the gas's emissivity alone, so it is made once for a row of emissivities and taken between them by a cubic. */
#include "burning/heat/net_parts.h"

#include <math.h>
#include <string.h>

static const double ember_e = 0.9;    /* handbook F5.2, E6 */
static const double knot_step = 0.08; /* 0 .. 0.96; ours: the cubic between is exact to 1e-6 of the area */

typedef struct job { /* one enclosure while it is made; rows: surfaces, then throat, room and bed of embers */
    sw_heat_net *net;
    bool member[SW_MEDIA];
    bool throat; /* what another gas space sees of this one passes an opening that is black at that gas's temperature */
    size_t *surface;
    size_t surfaces, rows;
    double *V, *e, *rho_a; /* rho_a: (1 - e)/A */
    size_t *body;          /* [rows] */
    double *K, *rhs;
    size_t *pivot;
} job;

static bool is_gas_space(sw_medium m)
{
    return m == SW_MEDIUM_FIRE || m == SW_MEDIUM_UPPER;
}

/* Where a view from surface i on scene surface j goes: its row, or the throat's, or the room's. */
static size_t row_of(const job *j, const size_t *row, size_t i, size_t other)
{
    const sw_scene_surface *s = &j->net->scene->surfaces[other];
    if (j->member[s->medium]) return row[other];
    if (is_gas_space(s->medium) && is_gas_space(j->net->scene->surfaces[j->surface[i]].medium))
        return j->throat ? j->surfaces : i;
    return j->surfaces + 1;
}

static void fill_surfaces(job *j)
{
    const sw_scene *scene = j->net->scene;
    for (size_t i = 0; i < j->surfaces; i++) {
        const sw_scene_surface *s = &scene->surfaces[j->surface[i]];
        j->e[i] = scene->parts[s->part].kind == SW_PART_PANE ? j->net->pane_e : s->emissivity;
        j->rho_a[i] = (1 - j->e[i]) / s->area_m2;
    }
    size_t throat = j->surfaces, room = throat + 1, bed = throat + 2;
    j->e[throat] = j->e[room] = 1;
    j->e[bed] = ember_e;
    if (j->net->bed.area_m2 > 0) j->rho_a[bed] = (1 - ember_e) / j->net->bed.area_m2;
}

/* A surface that the bed lies on gives it the share c of all its views, and keeps the rest. */
static void give_to_bed(job *j)
{
    size_t n = j->rows, bed = j->surfaces + 2;
    double c = j->net->bed.cover;
    for (size_t i = 0; i < j->surfaces; i++) {
        if (!j->net->bed.lies_on[j->surface[i]]) continue;
        for (size_t k = 0; k < n; k++) j->V[bed * n + k] += c * j->V[i * n + k], j->V[i * n + k] *= 1 - c;
        for (size_t k = 0; k < n; k++) j->V[k * n + bed] += c * j->V[k * n + i], j->V[k * n + i] *= 1 - c;
        j->rho_a[i] /= 1 - c;
    }
}

static void fill_views(job *j, size_t *row)
{
    const sw_scene *scene = j->net->scene;
    size_t all = scene->surface_count, n = j->rows, room = j->surfaces + 1;
    for (size_t i = 0; i < j->surfaces; i++) row[j->surface[i]] = i;
    for (size_t i = 0; i < j->surfaces; i++) {
        const double *view = &scene->view_m2[j->surface[i] * (all + 1)];
        for (size_t k = 0; k < all; k++) j->V[i * n + row_of(j, row, i, k)] += view[k];
        j->V[i * n + room] += view[all];
    }
    for (size_t i = 0; i < j->surfaces; i++)
        for (size_t k = j->surfaces; k < n; k++) j->V[k * n + i] = j->V[i * n + k];
    fill_surfaces(j);
    if (j->member[SW_MEDIUM_FIRE] && j->net->bed.cover > 0) give_to_bed(j);
}

static size_t body_of(net_enclosure *e, size_t source)
{
    for (size_t b = 0; b < e->bodies; b++)
        if (e->source[b] == source) return b;
    e->source[e->bodies] = source;
    return e->bodies++;
}

static bool is_seen(const job *j, size_t row)
{
    double sum = 0;
    for (size_t i = 0; i < j->surfaces; i++) sum += j->V[row * j->rows + i];
    return sum > 0;
}

static void find_bodies(job *j, net_enclosure *e, size_t own_gas, size_t other_gas)
{
    sw_heat_net *net = j->net;
    for (size_t i = 0; i < j->surfaces; i++) {
        const sw_scene_surface *s = &net->scene->surfaces[j->surface[i]];
        j->body[i] = body_of(e, s->hot_side ? net->hot[s->part] : net->cold[s->part]);
    }
    const size_t throat = j->surfaces, room = throat + 1, none = SIZE_MAX;
    j->body[throat] = is_seen(j, throat) ? body_of(e, other_gas) : none;
    j->body[room] = is_seen(j, room) ? body_of(e, net->nodes) : none;
    j->body[room + 1] = is_seen(j, room + 1) ? body_of(e, sw_heat_net_gas(net, SW_GAS_BED)) : none;
    bool room_seen = j->body[room] != none;
    size_t gas = own_gas == none ? none : body_of(e, own_gas);
    e->room = room_seen ? j->body[room] : e->bodies;
    e->gas = gas == none ? e->bodies : gas;
}

/* One right-hand side: what a source of unit E sends to each row, ways of the gas included. */
static void send(const job *j, double tau, size_t source)
{
    size_t n = j->rows;
    for (size_t i = 0; i < n; i++) j->rhs[i] = tau * j->V[i * n + source] * j->e[source];
}

static void send_gas(const job *j, double tau)
{
    size_t n = j->rows;
    for (size_t i = 0; i < n; i++) {
        double sum = 0;
        for (size_t k = 0; k < n; k++) sum += j->V[i * n + k];
        j->rhs[i] = (1 - tau) * sum;
    }
}

static void gather(const job *j, const net_enclosure *e, size_t from_body, double *G)
{
    if (from_body == SIZE_MAX) return;
    for (size_t i = 0; i < j->rows; i++)
        if (j->body[i] != SIZE_MAX) G[j->body[i] * e->bodies + from_body] += j->e[i] * j->rhs[i];
}

static void make_symmetric(double *G, size_t n, size_t gas)
{
    for (size_t a = 0; a < n; a++)
        for (size_t b = 0; b < a; b++) {
            double mean = a == gas ? G[b * n + a] : b == gas ? G[a * n + b] : 0.5 * (G[a * n + b] + G[b * n + a]);
            G[a * n + b] = G[b * n + a] = mean;
        }
}

static sw_status fill_knot(sw_run *run, job *j, const net_enclosure *e, double tau, double *G)
{
    size_t n = j->rows;
    for (size_t i = 0; i < n * n; i++) j->K[i] = (i / n == i % n ? 1.0 : 0.0) - tau * j->V[i] * j->rho_a[i % n];
    if (!sw_lu(j->K, n, n, j->pivot))
        return sw_fail(run, SW_NO_SOLUTION, (sw_place){0}, "scene.view_m2", "surfaces that reflect all they get");
    for (size_t s = 0; s < n; s++) {
        send(j, tau, s);
        sw_lu_solve(j->K, n, n, j->pivot, j->rhs);
        gather(j, e, j->body[s], G);
    }
    if (e->gas < e->bodies) {
        send_gas(j, tau);
        sw_lu_solve(j->K, n, n, j->pivot, j->rhs);
        gather(j, e, e->gas, G);
    }
    make_symmetric(G, e->bodies, e->gas);
    return SW_OK;
}

static sw_status take_room(sw_run *run, job *j, net_enclosure *e, size_t all)
{
    size_t n = j->rows;
    j->V = SW_SCRATCH(run, n * n, double);
    j->e = SW_SCRATCH(run, n, double);
    j->rho_a = SW_SCRATCH(run, n, double);
    j->body = SW_SCRATCH(run, n, size_t);
    j->K = SW_SCRATCH(run, n * n, double);
    j->rhs = SW_SCRATCH(run, n, double);
    j->pivot = SW_SCRATCH(run, n, size_t);
    size_t *row = SW_SCRATCH(run, all + 1, size_t);
    e->source = SW_KEEP(run, n + 1, size_t);
    if (!j->V || !j->e || !j->rho_a || !j->body || !j->K || !j->rhs || !j->pivot || !row || !e->source)
        return SW_NO_MEMORY;
    fill_views(j, row);
    return SW_OK;
}

static sw_status make_one(sw_run *run, sw_heat_net *net, job j, net_enclosure *e, size_t own_gas, size_t other_gas)
{
    const sw_scene *scene = net->scene;
    j.net = net;
    j.surface = SW_SCRATCH(run, scene->surface_count + 1, size_t);
    if (j.surface == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < scene->surface_count; i++)
        if (j.member[scene->surfaces[i].medium]) j.surface[j.surfaces++] = i;
    j.rows = j.surfaces + 3;
    SW_TRY(take_room(run, &j, e, scene->surface_count));
    find_bodies(&j, e, own_gas, other_gas);
    e->knots = e->gas < e->bodies ? NET_KNOTS : 1;
    size_t square = e->bodies * e->bodies;
    e->table = SW_KEEP(run, e->knots * square + 1, double);
    e->G = SW_KEEP(run, square + 1, double);
    if (e->table == NULL || e->G == NULL) return SW_NO_MEMORY;
    for (size_t k = 0; k < e->knots; k++)
        SW_TRY(fill_knot(run, &j, e, 1 - knot_step * (double)k, &e->table[k * square]));
    if (square > 0) memcpy(e->G, e->table, square * sizeof *e->G);
    return SW_OK;
}

static sw_status make_in_scratch(sw_run *run, sw_heat_net *net, job j, net_enclosure *e, size_t own, size_t other)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = make_one(run, net, j, e, own, other);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

sw_status net_exchange_make(sw_run *run, sw_heat_net *net)
{
    size_t below = sw_heat_net_gas(net, SW_GAS_FIREBOX), above = sw_heat_net_gas(net, SW_GAS_UPPER);
    job fire = {.member = {[SW_MEDIUM_FIRE] = true}, .throat = true};
    job upper = {.member = {[SW_MEDIUM_UPPER] = true}};
    job outer = {.member = {[SW_MEDIUM_GAP] = true, [SW_MEDIUM_ROOM] = true}};
    SW_TRY(make_in_scratch(run, net, fire, &net->fire, below, above));
    SW_TRY(make_in_scratch(run, net, upper, &net->upper, above, SIZE_MAX));
    return make_in_scratch(run, net, outer, &net->outer, SIZE_MAX, SIZE_MAX);
}

/* Lagrange's cubic through the four knots around. */
void net_exchange_at(net_enclosure *e, double gas_emissivity)
{
    if (e->knots < 4) return;
    size_t square = e->bodies * e->bodies;
    double s = net_held(gas_emissivity / knot_step, 0, (double)(e->knots - 1));
    size_t first = s < 1 ? 0 : (size_t)s - 1;
    if (first > e->knots - 4) first = e->knots - 4;
    double u = s - (double)first;
    double w[4] = {-(u - 1) * (u - 2) * (u - 3) / 6, u * (u - 2) * (u - 3) / 2, -u * (u - 1) * (u - 3) / 2,
                   u * (u - 1) * (u - 2) / 6};
    const double *a = &e->table[first * square], *b = a + square, *c = b + square, *d = c + square;
    for (size_t i = 0; i < square; i++) e->G[i] = w[0] * a[i] + w[1] * b[i] + w[2] * c[i] + w[3] * d[i];
}
