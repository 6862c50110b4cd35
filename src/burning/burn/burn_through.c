/* burn_through.c: a whole burn from cold, through refuels and slides moved.
 *
 * States: temperature of every part's node, masses of the fuel bed, combustion air, and the integrals of the balance. Gas
 * follows at once (seconds against minutes). The air follows what the openings want within air_lag_s: the column of gas has
 * to be moved, and so the right-hand side stays smooth. Integrator: CVODE's variable-order backward differences, dense
 * Newton; it starts anew at each event. */
#include "burning/burn/burn_solver.h"
#include "burning/burn/through_parts.h"

#include <cvode/cvode.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <string.h>
#include <sunmatrix/sunmatrix_dense.h>

static const double air_least_kg_s = 1e-5;
static const double air_lag_s = 5, sample_s = 60, step_most_s = 120;                               /* ours */
static const double relative = 1e-4, kelvin = 0.05, kilogram = 1e-5, air_kg_s = 1e-6, joule = 1e3; /* tolerances */
static const double stray = 0.25;      /* of the air that does not come from below, so much reaches the bed. Ours */
static const double kindling = 0.15;   /* of the first charge, split fine and lit: it burns without drying. Ours */
static const double drying_most = 0.5; /* of what the fire gives at the moment, that drying may take. Ours */
static const double glow_k = 1050, glow_kg = 0.15; /* of a bed of char; mass at which it counts half. Ours */
typedef struct machine {                           /* CVODE's parts */
    burn_solver lu;
    SUNContext context;
    N_Vector y, slope, tolerance;
    SUNMatrix matrix;
    SUNLinearSolver solver;
    void *cvode;
} machine;

/* ---- the right-hand side -------------------------------------------------------------------------------------- */

/* The integrator may pass below nothing by its tolerance. */
static sw_batch_state real_bed_of(const double *extras)
{
    double masses[AIR];
    sw_batch_state s;
    for (size_t i = 0; i < AIR; i++) masses[i] = fmax(extras[BATCH + i], 0);
    memcpy(&s, masses, sizeof s);
    return s;
}

/* What the charge sees: the hot sides of lining and grate by area, and its own glowing char. */
static double bed_k(const through *h, const double *t_k, double char_kg)
{
    const sw_scene *s = h->b->in.scene;
    double area = 0, sum = 0, glow = char_kg / (char_kg + glow_kg);
    for (size_t i = 0; i < s->part_count; i++) {
        if (s->parts[i].kind != SW_PART_LINING && s->parts[i].kind != SW_PART_GRATE) continue;
        area += s->parts[i].area_m2;
        sum += s->parts[i].area_m2 * t_k[sw_heat_net_node(h->b->net, i, true)];
    }
    double walls = area > 0 ? sum / area : h->room_k;
    return glow * glow_k + (1 - glow) * walls;
}

/* The gas of what burns with the air there is; without enough, that much less of it burns. */
static void mix(through *h, double air, double burnt)
{
    sw_batch_rates r = h->rates;
    r.water_kg_s *= burnt, r.volatiles_kg_s *= burnt, r.char_kg_s *= burnt, r.air_kg_s *= burnt;
    sw_mixture flow = sw_batch_gas_kmol_s(&r, &h->b->fuel, &h->batch, air, h->b->humidity);
    double kg_s = sw_mixture_kg(&flow), kmol_s = sw_mixture_kmol(&flow), one_bar = 1.01325;
    sw_heat_fire *fire = &h->now.fire;
    for (size_t i = 0; i < SW_GASES; i++) fire->gas.kmol[i] = flow.kmol[i] / kg_s;
    fire->gas_kg_s = kg_s;
    fire->p_h2o_bar = one_bar * flow.kmol[SW_GAS_H2O] / kmol_s;
    fire->p_co2_bar = one_bar * flow.kmol[SW_GAS_CO2] / kmol_s;
    h->now.gas.co2_dry = flow.kmol[SW_GAS_CO2] / (kmol_s - flow.kmol[SW_GAS_H2O]);
}

/* A fire cannot dry more wood than its heat allows: the drying, and what follows from it, slowed to that. */
static void hold_drying(sw_batch_rates *r, sw_batch_state *d)
{
    double taken_w = r->water_kg_s * through_evaporation, most_w = drying_most * (r->heat_w + taken_w);
    if (taken_w <= most_w || !(taken_w > 0)) return;
    double share = most_w / taken_w, dried = -d->dry_kg;
    r->heat_w += (1 - share) * taken_w;
    r->water_kg_s *= share;
    d->water_kg *= share;
    d->dry_kg *= share;
    d->volatiles_kg -= (1 - share) * dried;
}

static void burn_now(through *h, const double *t_k, const double *extras, sw_batch_state *d)
{
    double air = fmax(extras[AIR], air_least_kg_s);
    sw_batch_state bed = real_bed_of(extras);
    h->rates = sw_batch_rates_at(&bed, &h->b->fuel, &h->batch, (h->primary_part + stray * (1 - h->primary_part)) * air,
                                 bed_k(h, t_k, bed.char_kg), d);
    hold_drying(&h->rates, d);
    double burnt = h->rates.air_kg_s > air ? air / h->rates.air_kg_s : 1;
    sw_heat_fire *fire = &h->now.fire;
    fire->heat_w = h->rates.heat_w * (h->rates.heat_w > 0 ? burnt * (1 - h->lost_share) : 1);
    fire->air_kg_s = air;
    fire->air_k = h->room_k;
    h->now.lambda = air / fmax(h->rates.air_kg_s, air_kg_s);
    mix(h, air, burnt);
}

static sw_status wanted_air(through *h, double *wanted)
{
    sw_burn *b = h->b;
    b->spaces[SW_AIR_FIREBOX].source_kg_s = h->now.fire.gas_kg_s - h->now.fire.air_kg_s;
    SW_TRY(burn_air_solve(h->run, b, &h->now.heat, h->room_k, &h->now.air, wanted));
    double primary = burn_air_through(b, &h->now.air, "primary");
    if (*wanted > 0) h->primary_part = fmin(fmax(primary / *wanted, 0), 1);
    (void)burn_air_ducts(b, &h->now.air, &h->now.fire);
    return SW_OK;
}

static sw_status slopes(through *h, const double *y, double *dy)
{
    const double *extras = y + h->nodes;
    double *d = dy + h->nodes, wanted = 0;
    sw_batch_state batch;
    burn_now(h, y, extras, &batch);
    memcpy(h->now.heat.t_k, y, h->nodes * sizeof *y);
    SW_TRY(sw_heat_net_flux(h->run, h->b->net, &h->now.fire, &h->now.room, &h->now.heat, h->flux_w));
    SW_TRY(wanted_air(h, &wanted));
    sw_heat_net_capacity(h->b->net, h->now.heat.t_k, h->capacity);
    for (size_t i = 0; i < h->nodes; i++) dy[i] = h->flux_w[i] / h->capacity[i];
    memcpy(d + BATCH, &batch, sizeof batch);
    d[AIR] = (wanted - extras[AIR]) / air_lag_s;
    d[HEAT_J] = h->rates.heat_w;
    d[OUTPUT_J] = h->now.heat.useful_w;
    d[FLUE_J] = h->now.heat.flue_w;
    d[LOST_J] = h->rates.heat_w - h->now.fire.heat_w;
    d[AIR_KG] = h->now.fire.air_kg_s;
    d[NEEDED_KG] = h->rates.air_kg_s;
    d[GAS_KG] = h->now.fire.gas_kg_s;
    d[GAS_KG_K] = h->now.fire.gas_kg_s * h->now.heat.flue_k;
    return SW_OK;
}

static int right_hand_side(sunrealtype t, N_Vector y, N_Vector dy, void *context)
{
    (void)t;
    through *h = context;
    size_t errors = h->run->error_count;
    h->status = slopes(h, N_VGetArrayPointer(y), N_VGetArrayPointer(dy));
    if (h->status == SW_OK) return 0;
    if (h->status != SW_NO_SOLUTION) return -1;
    h->run->error_count = errors; /* CVODE tries again with a shorter step */
    return 1;
}

/* Forward differences for fuel and air, wide enough that the gases' own tolerance does not show. */
static double width_of(size_t at, double y)
{
    return fmax(1e-3 * fabs(y), 10 * (at < AIR ? kilogram : air_kg_s));
}

/* By the network's own slopes; what bed and openings take from temperatures is left out: it changes slowly. */
static int by_temperatures(through *h, N_Vector y, N_Vector dy, SUNMatrix J)
{
    int status = right_hand_side(0, y, dy, h);
    if (status == 0) status = right_hand_side(0, y, dy, h); /* with the ducts' shares of the first look */
    if (status != 0) return status;
    sw_heat_net_flux_slope(h->b->net, h->slope);
    for (size_t column = 0; column < h->nodes; column++) {
        double *out = SUNDenseMatrix_Column(J, (sunindextype)column);
        for (size_t row = 0; row < h->nodes; row++) out[row] = h->slope[row * h->nodes + column] / h->capacity[row];
    }
    return 0;
}

/* NOLINTNEXTLINE(readability-function-size): CVODE calls it so. J comes cleared */
static int jacobian(sunrealtype t, N_Vector y, N_Vector dy, SUNMatrix J, void *context, N_Vector moved, N_Vector a,
                    N_Vector here)
{
    (void)dy;
    through *h = context;
    int status = by_temperatures(h, y, here, J);
    if (status != 0) return status;
    double *at = N_VGetArrayPointer(moved);
    const double *base = N_VGetArrayPointer(here), *there = N_VGetArrayPointer(a);
    size_t n = h->nodes + STATES;
    memcpy(at, N_VGetArrayPointer(y), n * sizeof *at);
    for (size_t column = h->nodes; column < n; column++) {
        double kept = at[column], width = width_of(column - h->nodes, kept);
        at[column] = kept + width;
        status = right_hand_side(t, moved, a, h);
        if (status != 0) return status;
        at[column] = kept;
        double *out = SUNDenseMatrix_Column(J, (sunindextype)column);
        for (size_t row = 0; row < n; row++) out[row] = (there[row] - base[row]) / width;
    }
    return 0;
}

/* ---- samples -------------------------------------------------------------------------------------------------- */

static double most_of(const through *h, sw_part_class kind)
{
    const sw_scene *s = h->b->in.scene;
    double most = 0;
    for (size_t i = 0; i < s->part_count; i++)
        if (burn_is(s, i, kind)) most = fmax(most, h->now.heat.t_k[sw_heat_net_node(h->b->net, i, true)]);
    return most;
}

static void take_sample(through *h, double time_s, const double *y)
{
    const sw_batch_state bed = through_bed(y + h->nodes);
    const sw_heat_state *heat = &h->now.heat;
    if (h->made->sample_count == h->sample_room) return;
    h->samples[h->made->sample_count++] =
        (sw_burn_sample){.time_s = time_s,
                         .fuel_w = h->rates.heat_w,
                         .output_w = heat->useful_w,
                         .transmitted_w = heat->transmitted_w,
                         .flue_k = heat->flue_k,
                         .lambda = h->now.lambda,
                         .gas_kg_s = h->now.fire.gas_kg_s,
                         .co2_dry = h->now.gas.co2_dry,
                         .wood_kg = sw_batch_kg(&bed) - bed.ash_kg,
                         .firebox_k = heat->t_k[sw_heat_net_gas(h->b->net, SW_GAS_FIREBOX)],
                         .pane_k = most_of(h, SW_PART_PANE),
                         .shell_k = most_of(h, SW_PART_SHELL),
                         .lining_k = most_of(h, SW_PART_LINING)};
    const sw_scene *s = h->b->in.scene;
    double *row = h->parts_k + (h->made->sample_count - 1) * s->part_count;
    for (size_t i = 0; i < s->part_count; i++) {
        row[i] = heat->t_k[sw_heat_net_node(h->b->net, i, true)];
        h->most_k[i] = fmax(h->most_k[i], row[i]);
    }
}

/* ---- CVODE ------------------------------------------------------------------------------------------------------ */

static void be_quiet(int code, const char *module, const char *function, char *message, void *context)
{
    (void)code, (void)module, (void)function, (void)message, (void)context;
}

static void set_tolerances(const through *h, double *tolerance)
{
    for (size_t i = 0; i < h->nodes; i++) tolerance[i] = kelvin;
    double *extras = tolerance + h->nodes;
    for (size_t i = 0; i < AIR; i++) extras[i] = kilogram;
    extras[AIR] = air_kg_s;
    for (size_t i = HEAT_J; i < EXTRAS; i++) extras[i] = joule;
}

static bool build(through *h, machine *m)
{
    sunindextype n = (sunindextype)(h->nodes + EXTRAS);
    if (SUNContext_Create(NULL, &m->context) != 0) return false;
    m->y = N_VNew_Serial(n, m->context);
    m->tolerance = N_VNew_Serial(n, m->context);
    m->slope = N_VNew_Serial(n, m->context);
    m->matrix = SUNDenseMatrix(n, n, m->context);
    m->cvode = CVodeCreate(CV_BDF, m->context);
    if (m->y == NULL || m->tolerance == NULL || m->slope == NULL || m->matrix == NULL || m->cvode == NULL) return false;
    m->lu = (burn_solver){SW_KEEP(h->run, (size_t)(n * n), double), SW_KEEP(h->run, (size_t)n, size_t), (size_t)n};
    m->solver = burn_solver_of(&m->lu, m->context);
    if (m->lu.a == NULL || m->lu.pivot == NULL || m->solver == NULL) return false;
    set_tolerances(h, N_VGetArrayPointer(m->tolerance));
    double *y = N_VGetArrayPointer(m->y);
    memset(y, 0, (size_t)n * sizeof *y);
    for (size_t i = 0; i < h->nodes; i++) y[i] = h->room_k;
    (void)CVodeSetErrHandlerFn(m->cvode, be_quiet, NULL);
    return CVodeInit(m->cvode, right_hand_side, 0, m->y) == 0 && CVodeSetUserData(m->cvode, h) == 0 &&
           CVodeSVtolerances(m->cvode, relative, m->tolerance) == 0 &&
           CVodeSetLinearSolver(m->cvode, m->solver, m->matrix) == 0 && CVodeSetJacFn(m->cvode, jacobian) == 0 &&
           CVodeSetMaxStep(m->cvode, step_most_s) == 0 && CVodeSetMaxNumSteps(m->cvode, 5000) == 0;
}

static void scrap(machine *m)
{
    if (m->cvode != NULL) CVodeFree(&m->cvode);
    if (m->solver != NULL) SUNLinSolFreeEmpty(m->solver);
    if (m->matrix != NULL) SUNMatDestroy(m->matrix);
    if (m->y != NULL) N_VDestroy(m->y);
    if (m->tolerance != NULL) N_VDestroy(m->tolerance);
    if (m->slope != NULL) N_VDestroy(m->slope);
    if (m->context != NULL) (void)SUNContext_Free(&m->context);
}

static sw_status not_settled(const through *h, const machine *m, double time_s)
{
    if (h->status != SW_OK && h->status != SW_NO_SOLUTION) return h->status;
    long steps = 0, fails = 0;
    double step_s = 0;
    (void)CVodeGetNumSteps(m->cvode, &steps);
    (void)CVodeGetNumErrTestFails(m->cvode, &fails);
    (void)CVodeGetCurrentStep(m->cvode, &step_s);
    return sw_fail(
        h->run, SW_NO_SOLUTION, h->b->in.stove->place, "burn",
        "the burn cannot be followed beyond %.1f min: %ld steps and %ld refused ones after the last event, the "
        "next would be %.2g s; nothing after that is a result",
        sw_min_from_s(time_s), steps, fails, step_s);
}

/* The kindling is dry and alight; the heat that dried it is not this fire's. */
static void light(through *h, sw_batch_state *bed)
{
    double water_kg = kindling * bed->water_kg, dry_kg = kindling * bed->dry_kg;
    bed->water_kg -= water_kg;
    bed->dry_kg -= dry_kg;
    bed->front_kg += dry_kg;
    h->made->fuel_j += water_kg * through_evaporation;
}

/* Charges and slides of one event, into the states. */
static void apply(through *h, const sw_burn_event *e, double *y)
{
    sw_batch_state bed = through_bed(y + h->nodes);
    if (e->wood_kg > 0) {
        bool first = h->made->fuel_j <= 0;
        sw_batch_charge(&bed, &h->b->fuel, e->wood_kg);
        h->made->fuel_j += e->wood_kg * sw_fuel_lhv(&h->b->fuel);
        if (first) light(h, &bed);
    }
    memcpy(y + h->nodes + BATCH, &bed, sizeof bed);
    burn_air_slides(h->b, e->primary_share, e->wash_share, e->rear_share);
}

/* Everything at the states themselves: the integrator's last look was elsewhere. The second takes the ducts' shares of the
 * first. */
static sw_status sample_at(through *h, const machine *m, double time_s)
{
    const double *y = N_VGetArrayPointer(m->y);
    for (int look = 0; look < 2; look++) SW_TRY(slopes(h, y, N_VGetArrayPointer(m->slope)));
    take_sample(h, time_s, y);
    return SW_OK;
}

/* From an event to the next, a sample each minute. */
static sw_status stretch(through *h, machine *m, double from_s, double to_s)
{
    double *y = N_VGetArrayPointer(m->y), wanted = 0, reached = from_s;
    SW_TRY(y[h->nodes + AIR] > 0 ? SW_OK : wanted_air(h, &wanted));
    if (y[h->nodes + AIR] <= 0) y[h->nodes + AIR] = wanted;
    SW_TRY(sample_at(h, m, from_s));
    if (CVodeReInit(m->cvode, from_s, m->y) != 0 || CVodeSetStopTime(m->cvode, to_s) != 0)
        return not_settled(h, m, from_s);
    for (int i = 1; reached < to_s; i++) {
        double next = from_s + i * sample_s;
        if (sw_run_cancelled(h->run)) return sw_fail(h->run, SW_CANCELLED, (sw_place){0}, "burn", "stopped");
        if (CVode(m->cvode, fmin(next, to_s), m->y, &reached, CV_NORMAL) < 0) return not_settled(h, m, reached);
        SW_TRY(sample_at(h, m, reached));
        sw_run_progress(h->run, "burn", reached, h->end_s, "");
    }
    long steps = 0;
    (void)CVodeGetNumSteps(m->cvode, &steps);
    h->made->steps += (size_t)steps;
    return SW_OK;
}

/* ---- all of it ------------------------------------------------------------------------------------------------ */

static sw_status follow_events(through *h, machine *m, const sw_burn_event *events, size_t count, double end_s)
{
    for (size_t i = 0; i < count; i++) {
        double to_s = i + 1 < count ? events[i + 1].time_s : end_s;
        apply(h, &events[i], N_VGetArrayPointer(m->y));
        SW_TRY(stretch(h, m, events[i].time_s, to_s));
    }
    through_close(h, N_VGetArrayPointer(m->y));
    return SW_OK;
}

static sw_status check_events(sw_run *run, const sw_burn *b, const sw_burn_event *events, size_t count, double end_s)
{
    double before_s = 0;
    bool fed = count > 0 && events[0].time_s <= 0 && events[0].wood_kg > 0;
    for (size_t i = 0; i < count; i++) {
        bool right = events[i].time_s >= before_s && events[i].wood_kg >= 0 && events[i].wood_kg <= 50;
        if (!right)
            return sw_fail(run, SW_OUT_OF_RANGE, b->in.stove->place, "events",
                           "event %zu: times must not go back and charges be 0 to 50 kg", i + 1);
        before_s = events[i].time_s;
    }
    if (fed && end_s > before_s && end_s <= 7 * sw_s_from_h(24)) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, b->in.stove->place, "events",
                   "a burn begins with wood at 0 s and ends after its last event, within 7 days");
}

static sw_status prepare(sw_run *run, sw_burn *b, double end_s, size_t events, through *h)
{
    size_t nodes = sw_heat_net_nodes(b->net);
    *h = (through){.run = run, .b = b, .nodes = nodes - SW_GAS_NODES, .batch = sw_batch_model_defaults()};
    h->room_k = sw_k_from_c(b->opt.room_c);
    h->end_s = end_s;
    h->now.room = (sw_heat_room){h->room_k, h->room_k};
    h->sample_room = (size_t)(end_s / sample_s) + 2 * events + 2;
    sw_fire_gas gas = sw_fire_gas_of(&b->fuel, 2, b->humidity);
    burn_fire_of(b, 1, 2 * gas.air_min_kg, sw_k_from_c(250), h->room_k, &h->now);
    h->lost_share = 1 - h->now.fire.heat_w / h->now.fuel_w;
    h->now.fire = (sw_heat_fire){0};
    h->now.heat.t_k = SW_KEEP(run, nodes, double);
    h->flux_w = SW_KEEP(run, nodes, double);
    h->capacity = SW_KEEP(run, nodes, double);
    h->slope = SW_KEEP(run, h->nodes * h->nodes, double);
    h->made = SW_KEEP(run, 1, sw_burn_run);
    h->samples = SW_KEEP(run, h->sample_room, sw_burn_sample);
    h->most_k = SW_KEEP(run, b->in.scene->part_count, double);
    h->parts_k = SW_KEEP(run, h->sample_room * b->in.scene->part_count, double);
    if (h->now.heat.t_k == NULL || h->flux_w == NULL || h->capacity == NULL || h->slope == NULL || h->made == NULL ||
        h->samples == NULL || h->most_k == NULL || h->parts_k == NULL)
        return SW_NO_MEMORY;
    for (size_t i = 0; i < nodes; i++) h->now.heat.t_k[i] = h->room_k;
    h->now.heat.flue_k = h->now.heat.leaving_k = h->room_k;
    h->made->samples = h->samples;
    h->made->most_k = h->most_k;
    h->made->parts_k = h->parts_k;
    return SW_OK;
}

sw_status sw_burn_through(sw_run *run, sw_burn *b, const sw_burn_event *events, size_t count, double end_s,
                          const sw_burn_run **result)
{
    *result = NULL;
    through h;
    SW_TRY(check_events(run, b, events, count, end_s));
    SW_TRY(prepare(run, b, end_s, count, &h));
    machine m = {0};
    sw_status status = build(&h, &m)
                           ? follow_events(&h, &m, events, count, end_s)
                           : sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "burn", "no memory for the integrator");
    scrap(&m);
    burn_air_slides(b, b->opt.primary_share, b->opt.wash_share, b->opt.rear_share);
    if (status == SW_OK) *result = h.made;
    return status;
}
