/* site_wall.c: how hot a wall gets before a hot face, behind a shield, beside a pipe.
 *
 * Balance of the worst point, handbook S5.2 and S5.3: what it absorbs it gives back by radiation, convection to the room and
 * what lies behind. Each balance rises with the wall's temperature and is solved by bisection. */
#include "siting/site/site.h"

#include <math.h>

enum { HALVINGS = 200 }; /* more than the doubles between any two bounds have */

static const double sound_emissivity = 0.9; /* of walls, shields' fronts: handbook S5.2 */
static const double shield_h = 5;           /* W/(m2 K), each face of a ventilated shield: handbook S5.3 */
static const double touching_m = 1e-9;      /* nearer counts as touching */
static const double farthest_m = 1000;

static double fourth(double t_k)
{
    return t_k * t_k * t_k * t_k;
}

static bool is_share(double emissivity)
{
    return emissivity > 0 && emissivity <= 1;
}

static bool is_sound(const sw_hot_panel *p, double room_k)
{
    return p->width_m > 0 && p->height_m > 0 && isfinite(p->width_m) && isfinite(p->height_m) && room_k > 0 &&
           p->t_k >= room_k && isfinite(p->t_k) && is_share(p->emissivity);
}

/* Root of a rising function between bounds that enclose it. */
static double root(double (*f)(const void *context, double x), const void *context, double low, double high)
{
    for (int i = 0; i < HALVINGS; i++) {
        double middle = low + (high - low) / 2;
        if (!(middle > low && middle < high)) break;
        if (f(context, middle) > 0)
            high = middle;
        else
            low = middle;
    }
    return low + (high - low) / 2;
}

/* Natural convection of a warm wall in still air, W/m2: 1.31 dT^(4/3), turbulent vertical wall, simplified textbook form
 * (from memory). handbook S5.2 */
static double convected(double rise_k)
{
    return rise_k > 0 ? 1.31 * rise_k * cbrt(rise_k) : 0;
}

/* Radiation that meets a point which sees a share F of the hot face and the room else, W/m2. handbook S5.2 */
static double incident(double F, double hot_k, double emissivity, double room_k)
{
    double room = SW_STEFAN_BOLTZMANN * fourth(room_k);
    return F * (emissivity * SW_STEFAN_BOLTZMANN * fourth(hot_k) + (1 - emissivity) * room) + (1 - F) * room;
}

double sw_wall_view(const sw_hot_panel *panel, double distance_m)
{
    if (!(distance_m >= 0)) return NAN;
    if (distance_m < touching_m) return 1;
    return 4 * sw_view_point_parallel(panel->width_m / 2, panel->height_m / 2, distance_m);
}

/* ---- bare wall ---- */

typedef struct bare_wall {
    double incident, room_k, emissivity, resistance;
} bare_wall;

static double bare_loss(const void *context, double wall_k)
{
    const bare_wall *w = context;
    double rise_k = wall_k - w->room_k;
    return w->emissivity * SW_STEFAN_BOLTZMANN * fourth(wall_k) + convected(rise_k) + rise_k / w->resistance -
           w->emissivity * w->incident;
}

double sw_wall_k(const sw_hot_panel *panel, double distance_m, double room_k, double wall_emissivity, double resistance)
{
    double F = sw_wall_view(panel, distance_m);
    if (!is_sound(panel, room_k) || isnan(F) || !is_share(wall_emissivity) || !(resistance > 0)) return NAN;
    bare_wall wall = {incident(F, panel->t_k, panel->emissivity, room_k), room_k, wall_emissivity, resistance};
    return root(bare_loss, &wall, room_k, panel->t_k);
}

/* ---- over the stove ---- */

/* Axis of a turbulent plume, dT = 9.1 (T/(g cp2 rho2))^(1/3) Q^(2/3) (z - z0)^(-5/3), z0 = 0.083 Q^(2/5) - 1.02 D, kW and m:
 * Heskestad, Fire Safety Journal 7 (1984), from memory. Made for fires; over a stove's broad top it is the warmer side. */
double sw_plume_rise_k(double warm_w, double width_m, double height_m, double room_k)
{
    if (!(warm_w >= 0) || !(width_m > 0) || !(height_m >= 0) || !(room_k > 0) || isinf(warm_w)) return NAN;
    const sw_air air = sw_air_at(room_k);
    double kw = warm_w / 1e3, cp_kj = air.cp / 1e3, origin_m = 0.083 * pow(kw, 0.4) - 1.02 * width_m;
    double by = cbrt(room_k / (SW_GRAVITY * cp_kj * cp_kj * air.density * air.density));
    double over_m = fmax(height_m - origin_m, 0.1); /* nearer the formula has no meaning */
    return 9.1 * by * pow(kw, 2.0 / 3) * pow(over_m, -5.0 / 3);
}

typedef struct ceiling {
    bare_wall wall;
    double air_k;
} ceiling;

/* As a bare wall, but the air at it is the plume's. */
static double ceiling_loss(const void *context, double t_k)
{
    const ceiling *c = context;
    double over_k = t_k - c->air_k, taken = over_k < 0 ? convected(-over_k) : -convected(over_k);
    return bare_loss(&c->wall, t_k) - convected(t_k - c->wall.room_k) - taken;
}

double sw_ceiling_k(const sw_hot_panel *panel, double distance_m, double room_k, double ceiling_emissivity,
                    double resistance, double warm_w)
{
    double F = sw_wall_view(panel, distance_m);
    if (!is_sound(panel, room_k) || isnan(F) || !is_share(ceiling_emissivity) || !(resistance > 0)) return NAN;
    double rise_k = sw_plume_rise_k(warm_w, sqrt(panel->width_m * panel->height_m), distance_m, room_k);
    if (isnan(rise_k)) return NAN;
    double air_k = room_k + fmin(rise_k, panel->t_k - room_k); /* no air is warmer than what warms it */
    ceiling c = {{incident(F, panel->t_k, panel->emissivity, room_k), room_k, ceiling_emissivity, resistance}, air_k};
    return root(ceiling_loss, &c, room_k, panel->t_k);
}

/* ---- under the stove ---- */

/* No convection: the air between lies still and is no colder than the plate (ours, the warmer side). */
static double plate_loss(const void *context, double plate_k)
{
    const bare_wall *w = context;
    return w->emissivity * (SW_STEFAN_BOLTZMANN * fourth(plate_k) - w->incident) +
           (plate_k - w->room_k) / w->resistance;
}

double sw_floor_under_k(const sw_hot_panel *underside, double gap_m, double room_k, double plate_resistance,
                        double floor_resistance, double *plate_k)
{
    double F = sw_wall_view(underside, gap_m), all = plate_resistance + floor_resistance;
    if (plate_k != NULL) *plate_k = NAN;
    if (!is_sound(underside, room_k) || isnan(F) || !(plate_resistance >= 0) || !(floor_resistance > 0)) return NAN;
    bare_wall plate = {incident(F, underside->t_k, underside->emissivity, room_k), room_k, sound_emissivity, all};
    double top_k = root(plate_loss, &plate, room_k, underside->t_k);
    if (plate_k != NULL) *plate_k = top_k;
    return isinf(all) ? top_k : top_k - (top_k - room_k) * plate_resistance / all;
}

/* A long cylinder seen by an element facing its axis at distance s: F = r/s (from memory). handbook S5.2 */
double sw_wall_beside_pipe_k(double pipe_diameter_m, double pipe_k, double emissivity, double axis_m, double room_k)
{
    double radius_m = pipe_diameter_m / 2;
    bool sound = radius_m > 0 && axis_m >= radius_m && isfinite(axis_m) && room_k > 0 && pipe_k >= room_k;
    if (!sound || isinf(pipe_k) || !is_share(emissivity)) return NAN;
    bare_wall wall = {incident(radius_m / axis_m, pipe_k, emissivity, room_k), room_k, sound_emissivity, INFINITY};
    return root(bare_loss, &wall, room_k, pipe_k);
}

/* ---- a pipe ---- */

static const double pipe_h =
    6.8; /* gas to room by a bare stove pipe, W/(m2 K): ASHRAE, chimney chapter (from memory) */

typedef struct giving_pipe { /* what reaches the outer surface, W/m2 of it: steady + by_k (gas - outside) */
    double steady, by_k, gas_k, room_k;
} giving_pipe;

/* Lost to the room less what the gas gives; the cylinder's convection is taken as a wall's. */
static double pipe_loss(const void *context, double outside_k)
{
    const giving_pipe *p = context;
    double lost = sound_emissivity * SW_STEFAN_BOLTZMANN * (fourth(outside_k) - fourth(p->room_k)) +
                  convected(outside_k - p->room_k);
    return lost - p->steady - p->by_k * (p->gas_k - outside_k);
}

/* The film inside is what 6.8 W/(m2 K) leave for it on a bare pipe. That of EN 13384-1 is a forced flow's and gives less:
 * the safe side for a chimney that must keep warm, the wrong one for what stands beside a pipe. */
double sw_pipe_surface_k(double inner_m, double outer_m, double resistance, double gas_k, double room_k)
{
    bool sound = inner_m > 0 && outer_m >= inner_m && isfinite(outer_m) && resistance >= 0 && room_k > 0;
    if (!sound || !(gas_k >= room_k) || isinf(gas_k)) return NAN;
    giving_pipe bare = {pipe_h * (gas_k - room_k), 0, gas_k, room_k};
    double bare_k = root(pipe_loss, &bare, room_k, gas_k);
    if (!(bare_k < gas_k) || bare.steady <= 0) return bare_k;
    double between = (gas_k - bare_k) / bare.steady + resistance;
    giving_pipe pipe = {0, inner_m / outer_m / between, gas_k, room_k};
    return root(pipe_loss, &pipe, room_k, gas_k);
}

/* ---- behind a shield ---- */

typedef struct shielded_wall {
    double incident, room_k, exchange; /* e_eff sigma */
} shielded_wall;

/* The wall's own balance gives the shield: e_eff sigma (T_s4 - T_w4) = h (T_w - T_r). */
static double shield_of(const shielded_wall *w, double wall_k)
{
    return sqrt(sqrt(fourth(wall_k) + shield_h * (wall_k - w->room_k) / w->exchange));
}

static double shield_loss(const void *context, double wall_k)
{
    const shielded_wall *w = context;
    double shield_k = shield_of(w, wall_k);
    return sound_emissivity * SW_STEFAN_BOLTZMANN * fourth(shield_k) + 2 * shield_h * (shield_k - w->room_k) +
           shield_h * (wall_k - w->room_k) - sound_emissivity * w->incident;
}

double sw_wall_behind_shield_k(const sw_hot_panel *panel, double distance_m, double room_k,
                               double shield_back_emissivity, double *shield_k)
{
    double F = sw_wall_view(panel, distance_m);
    if (shield_k != NULL) *shield_k = NAN;
    if (!is_sound(panel, room_k) || isnan(F) || !is_share(shield_back_emissivity)) return NAN;
    double effective = 1 / (1 / shield_back_emissivity + 1 / sound_emissivity - 1);
    shielded_wall wall = {incident(F, panel->t_k, panel->emissivity, room_k), room_k, effective * SW_STEFAN_BOLTZMANN};
    double wall_k = root(shield_loss, &wall, room_k, panel->t_k);
    if (shield_k != NULL) *shield_k = shield_of(&wall, wall_k);
    return wall_k;
}

/* ---- distances ---- */

typedef struct approach { /* a wall (or the shield before it) drawn away from a panel */
    const sw_hot_panel *panel;
    double room_k, emissivity, resistance, shield_back, rise_k; /* shield_back NAN = no shield */
    double warm_w;                                              /* NAN = beside the stove, not over it */
} approach;

static double cooler_than_allowed(const void *context, double distance_m)
{
    const approach *a = context;
    double t_k =
        !isnan(a->warm_w)       ? sw_ceiling_k(a->panel, distance_m, a->room_k, a->emissivity, a->resistance, a->warm_w)
        : isnan(a->shield_back) ? sw_wall_k(a->panel, distance_m, a->room_k, a->emissivity, a->resistance)
                                : sw_wall_behind_shield_k(a->panel, distance_m, a->room_k, a->shield_back, NULL);
    return a->room_k + a->rise_k - t_k;
}

static double distance_of(const approach *a)
{
    double touching = cooler_than_allowed(a, 0), far_m = 1;
    if (isnan(touching)) return NAN;
    if (touching >= 0) return 0;
    while (cooler_than_allowed(a, far_m) < 0) {
        if (far_m > farthest_m) return INFINITY;
        far_m *= 2;
    }
    return root(cooler_than_allowed, a, 0, far_m);
}

double sw_wall_distance_m(const sw_hot_panel *panel, double room_k, double wall_emissivity, double resistance,
                          double rise_k)
{
    approach a = {panel, room_k, wall_emissivity, resistance, NAN, rise_k, NAN};
    return distance_of(&a);
}

double sw_ceiling_distance_m(const sw_hot_panel *panel, double room_k, double ceiling_emissivity, double resistance,
                             double warm_w, double rise_k)
{
    approach a = {panel, room_k, ceiling_emissivity, resistance, NAN, rise_k, warm_w};
    return isnan(warm_w) ? (double)NAN : distance_of(&a);
}

double sw_shield_distance_m(const sw_hot_panel *panel, double room_k, double shield_back_emissivity, double rise_k)
{
    approach a = {panel, room_k, sound_emissivity, INFINITY, shield_back_emissivity, rise_k, NAN};
    return isnan(shield_back_emissivity) ? (double)NAN : distance_of(&a);
}

/* The wall's balance solved for F = r/s. */
double sw_pipe_distance_m(double pipe_diameter_m, double pipe_k, double emissivity, double room_k, double rise_k)
{
    double radius_m = pipe_diameter_m / 2;
    bool sound = radius_m > 0 && isfinite(radius_m) && room_k > 0 && pipe_k >= room_k && isfinite(pipe_k);
    if (!sound || !is_share(emissivity) || isnan(rise_k)) return NAN;
    if (!(rise_k > 0)) return pipe_k > room_k ? INFINITY : 0;
    double gained = sound_emissivity * emissivity * (fourth(pipe_k) - fourth(room_k)) * SW_STEFAN_BOLTZMANN;
    double lost =
        sound_emissivity * SW_STEFAN_BOLTZMANN * (fourth(room_k + rise_k) - fourth(room_k)) + convected(rise_k);
    return fmax(radius_m * gained / lost - radius_m, 0);
}
