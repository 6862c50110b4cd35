/* map_steer.c: what map_matrix leaves out of the derivative: radiation that comes from elsewhere, the gases, the gap's air, what
 * panes let through. Films and conductivities count as fixed within a step. */
#include "burning/heat/map_parts.h"

#include <math.h>
#include <string.h>

enum { SWEEPS = 6 };
static const double share_power = 1.25; /* of a pane's share with the source's temperature, as in net_flux.c */

static double steer(double t_k)
{
    return 4.0 * SW_STEFAN_BOLTZMANN * t_k * t_k * t_k;
}

static double node_steer(const map_system *sys, size_t node)
{
    double t = sys->x[node];
    return sys->glass != NULL && sys->glass[node] ? map_pane_steer(sys, t) : steer(t);
}

static void gather(const map_system *sys, const double *v, bool to_pass, double *dE)
{
    memset(dE, 0, sys->patch_count * sizeof *dE);
    for (size_t i = 0; i < sys->share_count; i++) {
        const map_share *s = &sys->shares[i];
        double d = s->area_m2 * node_steer(sys, s->node) * v[s->node];
        if (to_pass) d *= sys->glass[s->node] ? 0.0 : share_power * map_pane_share(sys, sys->x[s->node]);
        dE[s->patch] += d;
    }
    for (size_t p = 0; p < sys->patch_count; p++) dE[p] /= sys->patches[p].area_m2;
}

static double gas_change(const map_system *sys, const double *v, size_t gas, bool to_pass)
{
    if (sys->unknowns == sys->nodes) return 0.0;
    double t = sys->x[sys->nodes + gas], d = steer(t) * v[sys->nodes + gas];
    return to_pass ? share_power * d * map_pane_share(sys, t) : d;
}

static void meet_space(map_system *sys, int space, const double *v, bool to_pass, double *met)
{
    map_space *s = &sys->spaces[space];
    for (size_t i = 0; i < s->patches; i++) s->E[i] = sys->spare[s->first + i];
    s->E[s->patches] = gas_change(sys, v, MAP_ABOVE, to_pass);
    s->E[s->patches + 1] = 0.0;
    s->gas_E = space == MAP_OUTER ? 0.0 : gas_change(sys, v, (size_t)space, to_pass);
    memset(met, 0, s->rows * sizeof *met);
    map_space_settle(s, s->E, s->gas_E, met, SWEEPS);
}

/* The gas's and the throat's own sending stands in the matrix. */
static void meet_gases(map_system *sys, int space, double *into)
{
    const map_space *s = &sys->spaces[space];
    if (sys->unknowns == sys->nodes) return;
    into[sys->nodes + MAP_ABOVE] += s->area[s->patches] * s->dH[s->patches];
    if (space == MAP_OUTER) return;
    double sum = 0.0;
    for (size_t i = 0; i < s->rows; i++) sum += s->area[i] * (s->e[i] * s->E[i] + (1.0 - s->e[i]) * s->dH[i]);
    into[sys->nodes + (size_t)space] += s->gas_e * sum;
}

static void meet_patches(const map_system *sys, double *into)
{
    int space = 0;
    for (size_t i = 0; i < sys->share_count; i++) {
        const map_share *h = &sys->shares[i];
        while (space + 1 < MAP_SPACES && h->patch >= sys->spaces[space].first + sys->spaces[space].patches) space++;
        const map_space *s = &sys->spaces[space];
        into[h->node] += h->area_m2 * sys->patches[h->patch].e * s->dH[h->patch - s->first];
    }
}

static void pass_panes(map_system *sys, const double *v, double *into)
{
    map_space *s = &sys->spaces[MAP_BELOW];
    if (sys->net == NULL || sys->net->pane_count == 0 || s->patches == 0) return;
    gather(sys, v, true, sys->spare);
    meet_space(sys, MAP_BELOW, v, true, s->dH);
    for (size_t i = 0; i < sys->share_count; i++) {
        const map_share *h = &sys->shares[i];
        if (h->patch >= s->first + s->patches) break;
        if (!sys->patches[h->patch].glass) continue;
        into[h->node] -= h->area_m2 * sys->patches[h->patch].e * s->dH[h->patch];
    }
}

/* ---- air ---- */

static void march(const map_system *sys, const double *v, double change_k[MAP_GAP_STEPS])
{
    double walls[MAP_GAP_STEPS] = {0}, areas[MAP_GAP_STEPS] = {0}, out_k, all = 0.0, sum = 0.0;
    for (size_t i = 0; i < sys->share_count; i++) {
        const map_share *s = &sys->shares[i];
        const map_patch *p = &sys->patches[s->patch];
        if (p->film == MAP_NONE || sys->films[p->film].medium != SW_MEDIUM_GAP) continue;
        double open_m2 = map_open(&sys->films[p->film]) * s->area_m2;
        walls[p->step] += open_m2 * v[s->node];
        areas[p->step] += open_m2;
    }
    for (int i = 0; i < MAP_GAP_STEPS; i++) {
        all += areas[i];
        sum += walls[i];
        if (areas[i] > 0.0) walls[i] /= areas[i];
    }
    if (sys->gap_kg_s > 0.0)
        map_gap_march(sys, walls, 0.0, change_k, &out_k);
    else
        for (int i = 0; i < MAP_GAP_STEPS; i++) change_k[i] = all > 0.0 ? sum / all : 0.0;
}

/* What a share gives to the air of a duct, W/K; *duct: which. */
static double led_w_k(const map_system *sys, const map_share *s, size_t *duct)
{
    uint32_t film = sys->patches[s->patch].film;
    const net_duct_air *air = NULL;
    if (film == MAP_NONE) return 0.0;
    double h = map_duct_h(sys, &sys->films[film], &air);
    *duct = h > 0.0 ? (size_t)(air - sys->ducts) : SW_DUCT_NONE;
    return h * (1.0 - map_open(&sys->films[film])) * s->area_m2;
}

/* What the ducts' air takes with it to the fire, and what it gives back to their faces. */
static void lead(const map_system *sys, const double *v, double *into)
{
    double sum[SW_DUCTS] = {0};
    size_t d = SW_DUCT_NONE;
    for (size_t i = 0; i < sys->share_count; i++) {
        double w_k = led_w_k(sys, &sys->shares[i], &d);
        if (w_k > 0.0) sum[d] += w_k * v[sys->shares[i].node];
    }
    for (size_t i = 0; i < sys->share_count; i++) {
        double w_k = led_w_k(sys, &sys->shares[i], &d);
        const net_duct_air *air = &sys->ducts[d];
        if (w_k > 0.0) into[sys->shares[i].node] += w_k * (1.0 - air->mean_share) * sum[d] / air->w_k;
    }
    for (d = SW_DUCT_NONE + 1; d < SW_DUCTS; d++) into[sys->nodes] += sys->ducts[d].mean_share * sum[d];
}

static void wash(map_system *sys, const double *v, double *into)
{
    double gap[MAP_GAP_STEPS] = {0};
    march(sys, v, gap);
    if (sys->net->duct_wall_count > 0) lead(sys, v, into);
    for (size_t i = 0; i < sys->share_count; i++) {
        const map_share *s = &sys->shares[i];
        const map_patch *p = &sys->patches[s->patch];
        if (p->film == MAP_NONE) continue;
        const map_film *f = &sys->films[p->film];
        double w_k = f->h * map_open(f) * s->area_m2;
        if (f->medium == SW_MEDIUM_GAP) into[s->node] += w_k * gap[p->step];
        if (f->medium == SW_MEDIUM_GAP || f->medium == SW_MEDIUM_ROOM) continue;
        size_t gas = sys->nodes + (f->medium == SW_MEDIUM_UPPER);
        into[s->node] += w_k * v[gas];
        into[gas] += w_k * v[s->node];
    }
}

static void pass_gas(const map_system *sys, const double *v, double *into)
{
    const sw_heat_net *net = sys->net;
    size_t below = net->solids, above = below + 1, stride = net->nodes + 1;
    into[sys->nodes + 1] += net->J[above * stride + below] * v[sys->nodes];
    into[sys->nodes] += net->J[below * stride + above] * v[sys->nodes + 1];
    if (sys->bed == MAP_NONE) return;
    size_t bed = sw_heat_net_gas(net, SW_GAS_BED);
    into[sys->nodes] += net->J[below * stride + bed] * v[sys->bed];
    into[sys->nodes + 1] += net->J[above * stride + bed] * v[sys->bed];
}

void map_incoming(map_system *sys, const double *v, double *into)
{
    memset(into, 0, sys->unknowns * sizeof *into);
    gather(sys, v, false, sys->spare);
    for (int space = 0; space < MAP_SPACES; space++) {
        if (sys->spaces[space].rows == 0) continue;
        meet_space(sys, space, v, false, sys->spaces[space].dH);
        meet_gases(sys, space, into);
    }
    meet_patches(sys, into);
    pass_panes(sys, v, into);
    if (sys->net != NULL) {
        wash(sys, v, into);
        pass_gas(sys, v, into);
    }
    for (size_t i = 0; sys->held != NULL && i < sys->nodes; i++)
        if (sys->held[i]) into[i] = 0.0;
}

/* ---- the diagonal, for the matrix ---- */

void map_diagonal(const map_system *sys, double *d)
{
    memset(d, 0, sys->unknowns * sizeof *d);
    for (size_t i = 0; i < sys->share_count; i++) {
        const map_share *s = &sys->shares[i];
        const map_patch *p = &sys->patches[s->patch];
        const map_film *f = p->film == MAP_NONE ? NULL : &sys->films[p->film];
        const net_duct_air *air = NULL;
        double h = f == NULL ? 0.0 : f->h * map_open(f) + map_duct_h(sys, f, &air) * (1.0 - map_open(f));
        d[s->node] += s->area_m2 * (p->e * node_steer(sys, s->node) + h);
        if (sys->net == NULL || p->film == MAP_NONE) continue;
        if (sys->films[p->film].medium == SW_MEDIUM_FIRE) d[sys->nodes] += s->area_m2 * h;
        if (sys->films[p->film].medium == SW_MEDIUM_UPPER) d[sys->nodes + 1] += s->area_m2 * h;
    }
    if (sys->net == NULL) return;
    for (int space = 0; space < MAP_SPACES; space++) {
        const map_space *s = &sys->spaces[space];
        if (s->rows == 0) continue;
        d[sys->nodes + 1] += s->area[s->patches] * steer(sys->x[sys->nodes + 1]);
        for (size_t i = 0; space != MAP_OUTER && i < s->rows; i++)
            d[sys->nodes + (size_t)space] += s->gas_e * s->area[i] * steer(sys->x[sys->nodes + (size_t)space]);
    }
    const sw_heat_net *net = sys->net;
    for (size_t g = 0; g < 2; g++) {
        size_t i = net->solids + g;
        d[sys->nodes + g] += fmax(1e-9, -net->J[i * (net->nodes + 1) + i]);
    }
    size_t bed = sw_heat_net_gas(net, SW_GAS_BED);
    if (sys->bed != MAP_NONE) d[sys->bed] -= net->J[bed * (net->nodes + 1) + bed];
}
