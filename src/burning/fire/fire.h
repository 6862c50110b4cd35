/* fire.h: wood, the air it needs, the gas it makes, what is lost, how hot the furnace gets, how a batch burns.
 *
 * Per kg of fuel as fired unless said. SI; temperatures K; moisture is the wet basis w = water / (water + dry wood).
 * A dry percentage is a share (0..1) of the dry gas volume. Stoichiometry by balance of moles; gas enthalpies from
 * matter. Method and checks: docs/studies/fire.md. */
#ifndef SW_BURNING_FIRE_FIRE_H
#define SW_BURNING_FIRE_FIRE_H

#include "model/model.h"
#include "transfer/transfer.h"

/* ---- fuel.c, fuel_table.c ------------------------------------------------------------------------------------ */

typedef struct sw_fuel {
    const char *name;     /* "beech logs", "spruce logs", ... as a stove's duty names it */
    double c, h, o, n, s; /* mass shares of dry, ash-free wood; together 1 */
    double ash;           /* share of dry mass */
    double moisture;      /* share of the whole, as fired */
    double lhv_dry;       /* J/kg dry; NAN = from the composition */
    const char *source;
} sw_fuel;
size_t sw_fuel_count(void);
const sw_fuel *sw_fuel_at(size_t i);
const sw_fuel *sw_fuel_find(const char *name); /* NULL = unknown */
double sw_fuel_hhv_dry(const sw_fuel *fuel);   /* J/kg by composition: Channiwala & Parikh 2002 */
double sw_fuel_lhv_dry(const sw_fuel *fuel);   /* J/kg dry: as given, else by composition */
double sw_fuel_lhv(const sw_fuel *fuel);       /* J/kg as fired; NAN for a moisture outside 0..0.6 */
double sw_moisture_dry_basis(double moisture); /* kg water per kg dry wood */

/* ---- gas.c -------------------------------------------------------------------------------------------------------- */

typedef struct sw_fire_gas { /* of one kg of fuel with lambda times the air it needs */
    double lambda;
    double air_min_kg, air_kg; /* dry air */
    double gas_kg;             /* wet flue gas */
    sw_mixture wet;            /* kmol per kg fuel; argon counts as nitrogen, the trace of SO2 as CO2 */
    double dry_m3n, wet_m3n;
    double co2_dry, o2_dry, co2_max_dry, h2o_wet; /* shares */
    double dew_point_k;                           /* of its water */
    double lhv;                                   /* J/kg fuel */
} sw_fire_gas;
/* humidity: kmol water per kmol dry air, 0..0.2. Values outside lambda 1..20, moisture 0..0.6 give NANs. */
sw_fire_gas sw_fire_gas_of(const sw_fuel *fuel, double lambda, double humidity);
/* From the dry gas, exact for complete combustion; with CO in it give O2 - CO/2 and CO2 + CO. NAN outside 0 <= O2 < 0.2095,
 * 0 < CO2 <= the fuel's largest. */
double sw_fire_lambda_from_o2(const sw_fuel *fuel, double o2_dry);
double sw_fire_lambda_from_co2(const sw_fuel *fuel, double co2_dry);
double sw_fire_at_reference_o2(double value, double o2_dry, double reference_o2); /* (0.2095 - ref)/(0.2095 - o2) */
double sw_fire_co_mg_m3n(double co_share);
double sw_fire_dry_m3n(const sw_fuel *fuel, double o2_dry); /* dry gas per kg fuel at that oxygen */
double sw_fire_mg_mj(const sw_fuel *fuel, double mg_m3n, double reference_o2);
double sw_air_humidity(double room_k, double relative); /* kmol water per kmol dry air at 101 325 Pa */

/* ---- loss.c ---------------------------------------------------------------------------------------------------------- */

typedef struct sw_fire_losses { /* shares of the fuel's LHV */
    double sensible, co, residue, efficiency;
    double unburnt; /* what finds no air: of a starved fire, else 0 */
    double standard_sensible, standard_co, standard_residue,
        standard_efficiency; /* by the test standard's short formulas */
} sw_fire_losses;
/* co_dry: share of dry gas at the given lambda, its carbon taken from the CO2. residue_share: share of LHV left in the ash
 * (0.005 usual). */
sw_fire_losses sw_fire_losses_at(const sw_fuel *fuel, const sw_fire_gas *gas, double flue_k, double room_k,
                                 double co_dry, double residue_share);
typedef struct sw_fire_short { /* the standard's short formulas on a measured gas */
    double cp_dry, cp_water;   /* J/(m3n K) */
    double sensible_j, co_j;   /* J per kg fuel as fired */
} sw_fire_short;
sw_fire_short sw_fire_short_losses(const sw_fuel *fuel, double co2_dry, double co_dry, double flue_k, double room_k);
double sw_fire_residue_j(double combustible, double residue); /* J per kg fuel; shares of the residue, of the fuel */
double sw_fire_flame_k(const sw_fuel *fuel, double lambda, double air_k); /* adiabatic, complete, no dissociation */
double sw_fire_batch_kg(double output_w, double refuel_s, double lhv, double efficiency);

/* ---- furnace.c: one well-stirred gas zone ------------------------------------------------------------------------------ */

typedef struct sw_furnace {
    double fuel_kg_s, burned_share, lambda, air_k; /* burned_share: of the heat set free in the firebox */
    double volume_m3, area_m2;                     /* of the firebox: mean beam */
    double sink_m2, sink_e, sink_k;                /* what cools it by radiation; the rest re-radiates */
    double h_convection, convection_m2;            /* to the sink's temperature; 0 = none */
    double soot_k_1_m;                             /* 0 = none */
} sw_furnace;
typedef struct sw_furnace_result {
    double gas_k, emissivity, exchange_m2, radiant_w, convected_w,
        leaving_w; /* leaving: above air_k's enthalpy at 25 degC */
    double residual_w;
    int rounds;
} sw_furnace_result;
/* SW_OUT_OF_RANGE (field named), SW_NO_SOLUTION with the residual: the gas would be colder than 400 K or hotter than 3000 K. */
sw_status sw_furnace_solve(sw_run *run, const sw_fuel *fuel, const sw_furnace *in, sw_furnace_result *out);
/* The same for checked input, without a run: SW_OK or SW_NO_SOLUTION, *out with what there is. */
sw_status sw_furnace_balance(const sw_fuel *fuel, const sw_furnace *in, sw_furnace_result *out);

/* ---- batch.c: how a charge of logs burns over time ------------------------------------------------------------------------- */

typedef struct sw_batch_model { /* named, bounded constants: sw_batch_model_defaults() */
    double char_share;          /* of dry, ash-free mass left as char: 0.18 */
    double char_lhv;            /* J/kg: 32.8 MJ/kg */
    double volatile_s;          /* tau of the release of logs 80 mm thick on a bed of 900 K: 480 s */
    double char_s;              /* first-order time of char: 1200 s */
    double drying_s;            /* first-order time to dry such a charge on such a bed: 60 s, so 95 % in 3 min */
    double char_lambda;         /* primary air needed per char air: >= 1 */
    double log_m;               /* thickness of the split logs: 0.08 m */
} sw_batch_model;
sw_batch_model sw_batch_model_defaults(void);
const sw_option *sw_batch_model_table(size_t *count);
/* Share of the volatiles released up to t, and the rate 1/s: 1 - (1 + t/tau) exp(-t/tau), t/tau2 exp(-t/tau). */
double sw_batch_released(double time_s, double tau_s);
double sw_batch_rate_1_s(double time_s, double tau_s);
/* How much slower than the reference logs of that thickness on that bed dry and give out gas, as a factor on the times. */
double sw_batch_slowness(const sw_batch_model *model, double bed_k);
double sw_batch_volatile_lhv(const sw_fuel *fuel, const sw_batch_model *model); /* J/kg of volatiles */

/* kg in the firebox, over all charges. dry_kg is still wet inside; then volatiles_kg is dried and warms up, front_kg gives out
 * its gas: all three dry, ash-free wood with the char it will leave. */
typedef struct sw_batch_state {
    double water_kg, dry_kg, volatiles_kg, front_kg, char_kg, ash_kg;
} sw_batch_state;
typedef struct sw_batch_rates {
    double water_kg_s, volatiles_kg_s, char_kg_s;
    double heat_w;   /* set free, LHV, less the drying */
    double air_kg_s; /* stoichiometric for what burns now */
} sw_batch_rates;
void sw_batch_charge(sw_batch_state *state, const sw_fuel *fuel, double wood_kg);
double sw_batch_kg(const sw_batch_state *state);
/* Rates for the state; the char's is limited by the primary air, the drying and the release grow with a hot bed (bed_k). d:
 * derivative of the state, per s. Mass closes: what leaves is what the rates say. Fuel: of the mean charge. */
sw_batch_rates sw_batch_rates_at(const sw_batch_state *state, const sw_fuel *fuel, const sw_batch_model *model,
                                 double primary_kg_s, double bed_k, sw_batch_state *d);
/* Wet flue gas, kmol/s, of what burns now in that much dry air; NANs when the air is less than it needs. */
sw_mixture sw_batch_gas_kmol_s(const sw_batch_rates *rates, const sw_fuel *fuel, const sw_batch_model *model,
                               double air_kg_s, double humidity);

/* ---- the study --------------------------------------------------------------------------------------------------------------- */

typedef struct sw_fire_options {
    double moisture, lambda, flue_c, room_c, humidity,
        co_ppm13; /* mean of a burn; lambda below 1: starved; humidity: relative, of the room; co: dry at 13 % O2 */
    uint32_t made_by_defaults;
} sw_fire_options;
sw_fire_options sw_fire_options_defaults(void);
const sw_option *sw_fire_option_table(size_t *count);

typedef struct sw_fire_input {
    const sw_stove *stove;
    double firebox_m3, firebox_m2, base_m2; /* from heat's scene; NAN = unknown */
    double fuel_kg_s;                       /* what burns; 0 = what the duty asks for */
} sw_fire_input;
typedef struct sw_fire_result {
    sw_fuel fuel;
    sw_fire_gas gas;
    sw_fire_losses losses;
    double co_dry; /* share at this lambda */
    double fuel_kg_s, fuel_w, batch_kg, air_kg_s, gas_kg_s, flame_k;
    double flue_most_k; /* hottest flue gas at which the wanted efficiency is reached; NAN = at none */
    sw_findings
        findings; /* moisture, heating value, lambda, CO2, CO, dew point and tar against the flue, loading of the
                             firebox, refuelling, efficiency wanted */
} sw_fire_result;
/* result in run->keep. SW_OUT_OF_RANGE (option, duty or size named), SW_BAD_INPUT (fuel unknown: names those known);
 * every fault is recorded. */
sw_status sw_fire_solve(sw_run *run, const sw_fire_input *in, const sw_fire_options *opt,
                        const sw_fire_result **result);

#endif
