/* map_flux.c: heat into every node and gas, and how what meets them changes. */
#include "burning/heat/map_parts.h"

#include <math.h>
#include <string.h>

enum { SWEEPS = 60, STEER_SWEEPS = 8 };

double map_conductivity(const map_matter *m, double t_k)
{
    return m->material == NULL ? m->fixed : m->factor * sw_material_conductivity(m->material, t_k);
}

static double black(double t_k)
{
    return SW_STEFAN_BOLTZMANN * t_k * t_k * t_k * t_k;
}

static double sent(const map_system *sys, size_t node)
{
    double t_k = sys->x[node];
    return sys->glass != NULL && sys->glass[node] ? map_pane_sends(sys, t_k) : black(t_k);
}

/* ---- conduction ---- */

static void conduct(map_system *sys)
{
    for (size_t i = 0; i < sys->triangle_count; i++) {
        const map_triangle *t = &sys->triangles[i];
        double x[3] = {sys->x[t->node[0]], sys->x[t->node[1]], sys->x[t->node[2]]};
        double kt = map_conductivity(&sys->matters[t->matter], (x[0] + x[1] + x[2]) / 3.0) * t->thickness_m;
        for (int e = 0; e < 3; e++) {
            double q = kt * t->half_cot[e] * (x[e] - x[(e + 1) % 3]);
            sys->R[t->node[e]] -= q;
            sys->R[t->node[(e + 1) % 3]] += q;
        }
    }
}

static void cross_links(map_system *sys)
{
    for (size_t i = 0; i < sys->link_count; i++) {
        const net_link *l = &sys->links[i];
        double q = net_link_w_k(sys->laws, l, sys->x[l->a], sys->x[l->b]) * (sys->x[l->a] - sys->x[l->b]);
        sys->R[l->a] -= q;
        sys->R[l->b] += q;
    }
}

/* ---- radiation ---- */

void map_gather(map_system *sys, bool to_pass, double *E)
{
    memset(E, 0, sys->patch_count * sizeof *E);
    for (size_t i = 0; i < sys->share_count; i++) {
        const map_share *s = &sys->shares[i];
        double e = sent(sys, s->node);
        if (to_pass) e = sys->glass[s->node] ? map_pane_room(sys) : e * map_pane_share(sys, sys->x[s->node]);
        E[s->patch] += s->area_m2 * e;
    }
    for (size_t p = 0; p < sys->patch_count; p++) E[p] /= sys->patches[p].area_m2;
}

static double gas_k(const map_system *sys, int space)
{
    return sys->unknowns > sys->nodes && space != MAP_OUTER ? sys->x[sys->nodes + (size_t)space] : sys->walls_k;
}

static double source(const map_system *sys, double t_k, bool to_pass)
{
    return black(t_k) * (to_pass ? map_pane_share(sys, t_k) : 1.0);
}

/* Sets the space's E from the patches' of all; throat and room after them. */
void map_sources(const map_system *sys, int space, const double *E, bool to_pass, double *gas_E)
{
    const map_space *s = &sys->spaces[space];
    for (size_t i = 0; i < s->patches; i++) s->E[i] = E[s->first + i];
    s->E[s->patches] = source(sys, gas_k(sys, MAP_ABOVE), to_pass);
    s->E[s->patches + 1] = source(sys, sys->walls_k, to_pass);
    *gas_E = s->gas_e > 0.0 ? source(sys, gas_k(sys, space), to_pass) : 0.0;
}

/* Into a gas: what it takes of all that is sent and reflected, less what it gives. */
static double into_gas(const map_space *s, const double *E, const double *H, double gas_E)
{
    double sum = 0.0;
    for (size_t i = 0; i < s->rows; i++) sum += s->area[i] * (s->e[i] * E[i] + (1.0 - s->e[i]) * H[i] - gas_E);
    return s->gas_e * sum;
}

static void radiate_space(map_system *sys, int space)
{
    map_space *s = &sys->spaces[space];
    if (s->rows == 0) return;
    map_sources(sys, space, sys->spare, false, &s->gas_E);
    map_space_settle(s, s->E, s->gas_E, s->H, SWEEPS);
    s->gas_w = into_gas(s, s->E, s->H, s->gas_E);
    size_t throat = s->patches, room = throat + 1;
    sys->useful_w += s->area[room] * (s->H[room] - s->E[room]);
    if (sys->unknowns == sys->nodes) return;
    sys->R[sys->nodes + MAP_ABOVE] += s->area[throat] * (s->H[throat] - s->E[throat]);
    if (space != MAP_OUTER) sys->R[sys->nodes + (size_t)space] += s->gas_w;
}

static const double *met(const map_system *sys, uint32_t patch, bool change)
{
    int k = 0;
    while (k + 1 < MAP_SPACES && patch >= sys->spaces[k].first + sys->spaces[k].patches) k++;
    const map_space *s = &sys->spaces[k];
    return &(change ? s->dH : s->H)[patch - s->first];
}

static void radiate(map_system *sys)
{
    map_gather(sys, false, sys->spare);
    for (int space = 0; space < MAP_SPACES; space++) radiate_space(sys, space);
    for (size_t i = 0; i < sys->share_count; i++) {
        const map_share *s = &sys->shares[i];
        double E = sent(sys, s->node);
        sys->R[s->node] += s->area_m2 * sys->patches[s->patch].e * (*met(sys, s->patch, false) - E);
    }
}

/* ---- films ---- */

static double air_of(const map_system *sys, const map_patch *p)
{
    const map_film *f = &sys->films[p->film];
    return f->law != NULL && f->medium == SW_MEDIUM_GAP ? sys->gap_air_k[p->step] : f->air_k;
}

static void wash(map_system *sys)
{
    for (size_t i = 0; i < sys->share_count; i++) {
        const map_share *s = &sys->shares[i];
        const map_patch *p = &sys->patches[s->patch];
        if (p->film == MAP_NONE) continue;
        const map_film *f = &sys->films[p->film];
        const net_duct_air *duct = NULL;
        double duct_h = map_duct_h(sys, f, &duct);
        double q = f->h * map_open(f) * s->area_m2 * (air_of(sys, p) - sys->x[s->node]);
        sys->R[s->node] += q;
        if (duct_h > 0.0)
            sys->R[s->node] += duct_h * (1.0 - map_open(f)) * s->area_m2 * (duct->mean_k - sys->x[s->node]);
        if (sys->unknowns > sys->nodes && f->medium == SW_MEDIUM_FIRE) sys->R[sys->nodes] -= q;
        if (sys->unknowns > sys->nodes && f->medium == SW_MEDIUM_UPPER) sys->R[sys->nodes + 1] -= q;
        if (f->medium == SW_MEDIUM_GAP || f->medium == SW_MEDIUM_ROOM) sys->useful_w -= q;
    }
}

/* ---- gases ---- */

static void settle_gases(map_system *sys)
{
    sw_heat_net *net = sys->net;
    for (size_t g = 0; g < 2; g++) net->x[net->solids + g] = sys->x[sys->nodes + g];
    if (sys->bed != MAP_NONE) net->x[sw_heat_net_gas(net, SW_GAS_BED)] = sys->x[sys->bed];
    double fire_e, upper_e;
    net_gas_emissivities(net, net->x, &fire_e, &upper_e);
    sys->spaces[MAP_BELOW].gas_e = fire_e;
    sys->spaces[MAP_ABOVE].gas_e = upper_e;
    sys->spaces[MAP_OUTER].gas_e = 0.0;
}

/* Conductance of a gas to its walls, W/K: films, and radiation as if the gas alone sent. */
static double gas_w_k(map_system *sys, map_space_name space, sw_medium medium)
{
    double sum = 0.0, t = sys->x[sys->nodes + (size_t)space];
    map_space *s = &sys->spaces[space];
    for (size_t f = 0; f < sys->film_count; f++)
        if (sys->films[f].medium == medium) sum += sys->films[f].h * sys->films[f].area_m2;
    if (!(s->gas_e > 0.0)) return sum;
    memset(s->E, 0, s->rows * sizeof *s->E);
    memset(s->dH, 0, s->rows * sizeof *s->dH);
    map_space_settle(s, s->E, 1.0, s->dH, STEER_SWEEPS);
    for (size_t i = 0; i < s->rows; i++) sum += s->area[i] * s->e[i] * s->dH[i] * 4.0 * black(t) / t;
    return sum;
}

static void balance_gases(map_system *sys)
{
    sw_heat_net *net = sys->net;
    size_t n = net->nodes + 1;
    memset(net->R, 0, n * sizeof *net->R);
    memset(net->J, 0, n * n * sizeof *net->J);
    net->below_w_k = gas_w_k(sys, MAP_BELOW, SW_MEDIUM_FIRE);
    net->above_w_k = gas_w_k(sys, MAP_ABOVE, SW_MEDIUM_UPPER);
    net_gas_balance(net, true);
    for (size_t g = 0; g < 2; g++) sys->R[sys->nodes + g] += net->R[net->solids + g];
    double heat_w = net->flame_share * net->now.heat_w,
           bed_w = sys->bed == MAP_NONE ? 0.0 : net->model.bed_share * heat_w;
    sys->R[sys->nodes] += heat_w - bed_w + net->flows.preheat_w;
    if (sys->bed != MAP_NONE) sys->R[sys->bed] += bed_w + net->R[sw_heat_net_gas(net, SW_GAS_BED)];
    sys->flue_w = net->flows.flue;
}

void map_flux(map_system *sys)
{
    memset(sys->R, 0, sys->unknowns * sizeof *sys->R);
    sys->useful_w = sys->flue_w = sys->transmitted_w = 0.0;
    if (sys->net != NULL) settle_gases(sys);
    map_films_settle(sys);
    if (sys->net != NULL) balance_gases(sys);
    conduct(sys);
    cross_links(sys);
    radiate(sys);
    map_panes_pass(sys);
    wash(sys);
    sys->useful_w += sys->transmitted_w;
    for (size_t i = 0; i < sys->nodes; i++) {
        if (sys->load_w != NULL) sys->R[i] += sys->load_w[i];
        if (sys->held != NULL && sys->held[i]) sys->R[i] = 0.0;
    }
}
