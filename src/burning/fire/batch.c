/* batch.c: how a charge of logs burns over time.
 *
 * Engineering model, not from a standard: dry, ash-free wood goes through drying (first order, its water with it), warming up
 * and the front (two first-order steps of tau each), so that a dried charge gives out volatiles as t/tau2 exp(-t/tau); char
 * share of what the front passes stays and burns at first order, no faster than the primary air allows. All is linear in the
 * masses but the char's limit, so charges may lie on each other, and mass closes whatever the step. */
#include "burning/fire/fire_parts.h"

#include <math.h>

static const double reference_log_m = 0.08; /* split logs 70 to 90 mm: operating manuals of steel stoves (found) */
static const double reference_bed_k = 900;  /* bed of a small-block wood fire, lambda 1 to 2 (found) */

static const sw_option table[] = {
    SW_OPTION(sw_batch_model, char_share, "", 0.18, 0.10, 0.30, "dry, ash-free mass left as char",
              "15 to 22 % under stove conditions (from memory)"),
    SW_OPTION(sw_batch_model, char_lhv, "J/kg", 32.8e6, 30e6, 34e6, "net heating value of char",
              "32 to 33 MJ/kg (from memory)"),
    SW_OPTION(sw_batch_model, volatile_s, "s", 480, 60, 3000, "time of the release, reference logs on a hot bed",
              "flaming 15 to 30 min (common practice, no source)"),
    SW_OPTION(sw_batch_model, char_s, "s", 1200, 120, 7200, "first-order time of the char",
              "burn-out 15 to 30 min (common practice, no source)"),
    SW_OPTION(sw_batch_model, drying_s, "s", 60, 5, 1800, "first-order time of drying, reference logs on a hot bed",
              "drying and ignition 2 to 5 min (common practice, no source), taken as 95 % in 3 min"),
    SW_OPTION(sw_batch_model, char_lambda, "", 1.5, 1, 5, "primary air for each the char needs", "ours"),
    SW_OPTION(sw_batch_model, log_m, "m", 0.08, 0.02, 0.25, "thickness of the split logs",
              "70 to 90 mm: operating manuals (found)"),
};
enum { TABLE_ROWS = sizeof table / sizeof *table };

const sw_option *sw_batch_model_table(size_t *count)
{
    *count = TABLE_ROWS;
    return table;
}

sw_batch_model sw_batch_model_defaults(void)
{
    sw_batch_model m = {0};
    sw_options_fill(table, TABLE_ROWS, &m);
    return m;
}

double sw_batch_released(double time_s, double tau_s)
{
    double x = fmax(time_s, 0) / tau_s;
    return 1 - (1 + x) * exp(-x);
}

double sw_batch_rate_1_s(double time_s, double tau_s)
{
    double x = fmax(time_s, 0) / tau_s;
    return x * exp(-x) / tau_s;
}

/* The front runs in at a nearly constant rate (EN 1995-1-2 table 3.1: 0.65 mm/min, from memory), so times grow as the
 * thickness. Heat comes from bed and walls by radiation, and from the charge's own flame, which burns on a cold bed as
 * well: speed 1/4 on a cold bed, 1 on one of 900 K, up to 1 1/2, between them by (T/900 K)^4 (ours). */
double sw_batch_slowness(const sw_batch_model *model, double bed_k)
{
    double t = fmax(bed_k, 0) / reference_bed_k, x = t * t * t * t;
    double speed = 0.25 + 1.25 * (x / (x + 2.0 / 3));
    return model->log_m / reference_log_m / speed;
}

double sw_batch_volatile_lhv(const sw_fuel *fuel, const sw_batch_model *model)
{
    double lhv_daf = sw_fuel_lhv_dry(fuel) / (1 - fuel->ash);
    return (lhv_daf - model->char_share * model->char_lhv) / (1 - model->char_share);
}

void sw_batch_charge(sw_batch_state *state, const sw_fuel *fuel, double wood_kg)
{
    double dry_kg = wood_kg * (1 - fuel->moisture);
    state->water_kg += wood_kg * fuel->moisture;
    state->ash_kg += dry_kg * fuel->ash;
    state->dry_kg += dry_kg * (1 - fuel->ash);
}

double sw_batch_kg(const sw_batch_state *s)
{
    return s->water_kg + s->dry_kg + s->volatiles_kg + s->front_kg + s->char_kg + s->ash_kg;
}

/* Elements of a kg of volatiles: those of the wood less the char, which is carbon. */
static fire_elements volatiles_of(const sw_fuel *fuel, const sw_batch_model *model)
{
    double v = 1 - model->char_share;
    return (fire_elements){
        .c = (fuel->c - model->char_share) / v, .h = fuel->h / v, .o = fuel->o / v, .n = fuel->n / v, .s = fuel->s / v};
}

static double air_kg_per_kg(const fire_elements *e)
{
    return fire_o2_min_kmol(e) / FIRE_AIR_O2 * FIRE_AIR;
}

static double char_burning_kg_s(const sw_batch_state *state, const sw_batch_model *model, double primary_kg_s)
{
    const fire_elements carbon = {.c = 1};
    double most_kg_s = fmax(primary_kg_s, 0) / (model->char_lambda * air_kg_per_kg(&carbon));
    return fmin(state->char_kg / model->char_s, most_kg_s);
}

sw_batch_rates sw_batch_rates_at(const sw_batch_state *state, const sw_fuel *fuel, const sw_batch_model *model,
                                 double primary_kg_s, double bed_k, sw_batch_state *d)
{
    const fire_elements carbon = {.c = 1}, volatiles = volatiles_of(fuel, model);
    double slow = sw_batch_slowness(model, bed_k);
    double drying = 1 / (slow * model->drying_s), release = 1 / (slow * model->volatile_s);
    double passed_kg_s = release * state->front_kg;
    sw_batch_rates r = {.water_kg_s = drying * state->water_kg,
                        .volatiles_kg_s = (1 - model->char_share) * passed_kg_s,
                        .char_kg_s = char_burning_kg_s(state, model, primary_kg_s)};
    r.heat_w = r.volatiles_kg_s * sw_batch_volatile_lhv(fuel, model) + r.char_kg_s * model->char_lhv -
               r.water_kg_s * FIRE_EVAPORATION;
    r.air_kg_s = r.volatiles_kg_s * air_kg_per_kg(&volatiles) + r.char_kg_s * air_kg_per_kg(&carbon);
    *d = (sw_batch_state){.water_kg = -r.water_kg_s,
                          .dry_kg = -drying * state->dry_kg,
                          .volatiles_kg = drying * state->dry_kg - release * state->volatiles_kg,
                          .front_kg = release * state->volatiles_kg - passed_kg_s,
                          .char_kg = model->char_share * passed_kg_s - r.char_kg_s};
    return r;
}

sw_mixture sw_batch_gas_kmol_s(const sw_batch_rates *rates, const sw_fuel *fuel, const sw_batch_model *model,
                               double air_kg_s, double humidity)
{
    fire_elements v = volatiles_of(fuel, model);
    double of = rates->volatiles_kg_s;
    fire_elements now = {.c = of * v.c + rates->char_kg_s,
                         .h = of * v.h,
                         .o = of * v.o,
                         .n = of * v.n,
                         .s = of * v.s,
                         .water = rates->water_kg_s};
    sw_mixture m = fire_products(&now, air_kg_s / FIRE_AIR, humidity);
    double needed_kg_s = rates->air_kg_s * (1 - 1e-12); /* a rounding below what it needs is enough */
    for (size_t i = 0; i < SW_GASES && !(air_kg_s >= needed_kg_s); i++) m.kmol[i] = NAN;
    m.kmol[SW_GAS_O2] = m.kmol[SW_GAS_O2] < 0 ? 0 : m.kmol[SW_GAS_O2];
    return m;
}
