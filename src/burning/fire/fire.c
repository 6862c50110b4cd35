/* fire.c: the steps from a stove's duty to fuel, air, gas and losses. */
#include "burning/fire/fire.h"

#include "burning/fire/fire_parts.h"

#include <math.h>

static const sw_option table[] = {
    SW_OPTION(sw_fire_options, moisture, "", 0.16, 0, FIRE_MOISTURE_MOST, "water of the wood as fired, wet basis",
              "test fuel of EN 13240 annex B, 16 +- 4 % (from memory)"),
    SW_OPTION(sw_fire_options, lambda, "", 2.2, 0.01, 20, "excess air, mean of a burn; below 1 some wood finds no air",
              "mean CO2 of 8 to 11 % (from memory)"),
    SW_OPTION(sw_fire_options, flue_c, "degC", 240, 20, 900, "flue gas at the spigot, mean of a burn",
              "220 to 330 degC in type tests (from memory)"),
    SW_OPTION(sw_fire_options, room_c, "degC", 20, -30, 50, "air of the room", "EN 13240 (from memory)"),
    SW_OPTION(sw_fire_options, humidity, "", 0.5, 0, 1, "relative humidity of the room's air", "ours"),
    SW_OPTION(sw_fire_options, co_ppm13, "ppm", 1000, 0, 20000, "CO in dry gas at 13 % O2, mean of a burn",
              "450 to 1500 mg/m3n measured on two stoves (found)"),
};
enum { TABLE_ROWS = sizeof table / sizeof *table, HALVINGS = 60 };

const sw_option *sw_fire_option_table(size_t *count)
{
    *count = TABLE_ROWS;
    return table;
}

sw_fire_options sw_fire_options_defaults(void)
{
    sw_fire_options o = {.made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(table, TABLE_ROWS, &o);
    return o;
}

/* lambda of the wood finds air and burns with just enough of it, the rest leaves as it is. */
static sw_fire_losses losses_at(const fire_job *job, double flue_k)
{
    const sw_fire_result *r = job->result;
    double burnt = fmin(job->opt->lambda, 1);
    sw_fire_losses l =
        sw_fire_losses_at(&r->fuel, &r->gas, flue_k, sw_k_from_c(job->opt->room_c), r->co_dry, FIRE_RESIDUE_SHARE);
    double *of[] = {&l.sensible,          &l.co,          &l.residue,          &l.efficiency,
                    &l.standard_sensible, &l.standard_co, &l.standard_residue, &l.standard_efficiency};
    for (size_t i = 0; i < sizeof of / sizeof *of; i++) *of[i] *= burnt;
    l.unburnt = 1 - burnt;
    return l;
}

static void burn(const fire_job *job)
{
    const sw_fire_options *opt = job->opt;
    const sw_duty *duty = &job->in->stove->duty;
    sw_fire_result *r = job->result;
    double room_k = sw_k_from_c(opt->room_c);
    r->fuel = *sw_fuel_find(duty->fuel);
    r->fuel.moisture = opt->moisture;
    r->gas = sw_fire_gas_of(&r->fuel, fmax(opt->lambda, 1), sw_air_humidity(room_k, opt->humidity));
    r->co_dry = sw_fire_at_reference_o2(fire_from_per_million(opt->co_ppm13), FIRE_REFERENCE_O2, r->gas.o2_dry);
    r->losses = losses_at(job, sw_k_from_c(opt->flue_c));
    r->flame_k = sw_fire_flame_k(&r->fuel, fmax(opt->lambda, 1), room_k);
    double asked_kg_s = duty->output_w / (duty->efficiency * r->gas.lhv);
    r->fuel_kg_s = job->in->fuel_kg_s > 0 ? job->in->fuel_kg_s : asked_kg_s;
    r->fuel_w = r->fuel_kg_s * r->gas.lhv;
    r->batch_kg = r->fuel_kg_s * duty->refuel_s;
    r->air_kg_s = r->fuel_kg_s * r->gas.air_kg * fmin(opt->lambda, 1);
    r->gas_kg_s = r->air_kg_s + r->fuel_kg_s * (r->gas.gas_kg - r->gas.air_kg);
}

/* Efficiency falls strictly with the flue gas, so halving finds where it is what is wanted. */
static double flue_most_k(const fire_job *job)
{
    double room_k = sw_k_from_c(job->opt->room_c), low_k = room_k, high_k = sw_k_from_c(1000);
    double wanted = job->in->stove->duty.efficiency;
    for (int i = 0; i < HALVINGS; i++) {
        double k = (low_k + high_k) / 2;
        if (losses_at(job, k).efficiency >= wanted)
            low_k = k;
        else
            high_k = k;
    }
    return low_k > room_k ? low_k : (double)NAN;
}

static sw_status steps(sw_run *run, const sw_fire_input *in, const sw_fire_options *opt, const sw_fire_result **result)
{
    fire_job job = {.in = in, .opt = opt};
    SW_TRY(fire_check(run, &job));
    job.result = SW_KEEP(run, 1, sw_fire_result);
    if (job.result == NULL) return SW_NO_MEMORY;
    burn(&job);
    job.result->flue_most_k = flue_most_k(&job);
    SW_TRY(fire_findings(run, &job));
    *result = job.result;
    return SW_OK;
}

sw_status sw_fire_solve(sw_run *run, const sw_fire_input *in, const sw_fire_options *opt, const sw_fire_result **result)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    size_t mark = sw_arena_mark(run->scratch);
    *result = NULL;
    sw_status status = steps(run, in, opt, result);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
