/* map_pane.c: panes, by the network's shares (net_pane.c).
 *
 * Of what a pane takes from a source at T the share s(T) = t/(t + a) goes through it, the rest stays. Before the fire two
 * fields are settled: all that is sent, and, source by source, the part s(T) of it that would pass; the room shines in by the
 * pane as much as its own part. What passes meets what the pane's outer face sees. */
#include "burning/heat/map_parts.h"

#include <math.h>
#include <string.h>

enum { SWEEPS = 60 };
static const double first_k = 200, row_k = 10; /* of the network's tables */

static double on_table(const double *table, double t_k)
{
    double s = net_held((t_k - first_k) / row_k, 0, NET_PANE_ROWS - 1);
    size_t i = s >= NET_PANE_ROWS - 1 ? NET_PANE_ROWS - 2 : (size_t)s;
    return table[i] + (table[i + 1] - table[i]) * (s - (double)i);
}

double map_pane_share(const map_system *sys, double t_k)
{
    double passes = on_table(sys->net->pane_passes, t_k);
    return passes / (passes + on_table(sys->net->pane_absorbs, t_k));
}

static double black(double t_k)
{
    return SW_STEFAN_BOLTZMANN * t_k * t_k * t_k * t_k;
}

double map_pane_room(const map_system *sys)
{
    return map_pane_share(sys, sys->walls_k) * black(sys->walls_k);
}

double map_pane_sends(const map_system *sys, double t_k)
{
    return (1.0 - map_pane_share(sys, t_k)) * black(t_k) + map_pane_room(sys);
}

double map_pane_steer(const map_system *sys, double t_k)
{
    const double by_k = 1.0;
    return (map_pane_sends(sys, t_k + by_k) - map_pane_sends(sys, t_k - by_k)) / (2.0 * by_k);
}

/* The passed heat leaves the outer patches as if a black body sent it: e E A. */
static void send_outside(map_system *sys)
{
    map_space *s = &sys->spaces[MAP_OUTER];
    memset(s->E, 0, s->rows * sizeof *s->E);
    memset(s->dH, 0, s->rows * sizeof *s->dH);
    for (size_t i = 0; i < sys->share_count; i++) {
        const map_share *h = &sys->shares[i];
        if (h->patch < s->first || !(sys->outer_m2[h->node] > 0.0)) continue;
        s->E[h->patch - s->first] += sys->through[h->node] * h->area_m2 / sys->outer_m2[h->node];
    }
    for (size_t i = 0; i < s->patches; i++) s->E[i] /= s->area[i] * s->e[i];
    map_space_settle(s, s->E, 0.0, s->dH, SWEEPS);
}

/* Of what meets another pane behind, as much goes on as a source as hot as the fire's gas would send through. */
static void meet_outside(map_system *sys)
{
    const map_space *s = &sys->spaces[MAP_OUTER];
    double on = map_pane_share(sys, sys->x[sys->nodes]);
    for (size_t i = 0; i < sys->share_count; i++) {
        const map_share *h = &sys->shares[i];
        if (h->patch < s->first) continue;
        double q = h->area_m2 * sys->patches[h->patch].e * s->dH[h->patch - s->first];
        if (sys->patches[h->patch].glass) {
            sys->transmitted_w += on * q;
            q *= 1.0 - on;
        }
        sys->R[h->node] += q;
    }
    for (size_t i = s->patches; i < s->rows; i++) sys->transmitted_w += s->area[i] * s->dH[i];
}

void map_panes_pass(map_system *sys)
{
    map_space *s = &sys->spaces[MAP_BELOW];
    double gas_E;
    if (sys->net == NULL || sys->net->pane_count == 0 || s->patches == 0) return;
    map_gather(sys, true, sys->spare);
    map_sources(sys, MAP_BELOW, sys->spare, true, &gas_E);
    map_space_settle(s, s->E, gas_E, sys->thru, SWEEPS);
    memset(sys->through, 0, sys->nodes * sizeof *sys->through);
    for (size_t i = 0; i < sys->share_count; i++) {
        const map_share *h = &sys->shares[i];
        if (h->patch >= s->first + s->patches) break;
        if (!sys->patches[h->patch].glass) continue;
        double met = sys->thru[h->patch - s->first] - map_pane_room(sys);
        double q = h->area_m2 * sys->patches[h->patch].e * met;
        sys->R[h->node] -= q;
        if (sys->outer_m2[h->node] > 0.0)
            sys->through[h->node] += q;
        else
            sys->transmitted_w += q;
    }
    send_outside(sys);
    meet_outside(sys);
}
