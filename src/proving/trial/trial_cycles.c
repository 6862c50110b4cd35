/* trial_cycles.c: the charges, the means of each, what each and all of them say. */
#include "proving/trial/trial_parts.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

/* ---- charges ---- */

enum { LOOK_BACK = 256 };        /* rows at most, so that a dense file costs no more */
static const double look_s = 90; /* ours: within this the wood is laid in */

/* The lowest reading of the scale in the rows before, within look_s. */
static size_t lowest_before(const sw_trial_record *r, const double *kg, size_t row)
{
    size_t low = row;
    for (size_t n = 0, i = row; n < LOOK_BACK && i-- > 0 && r->time_s[row] - r->time_s[i] <= look_s; n++)
        if (!isnan(kg[i]) && !(kg[i] >= kg[low])) low = i;
    return low;
}

static size_t highest_after(const sw_trial_record *r, const double *kg, size_t row)
{
    size_t high = row;
    for (size_t i = row + 1; i < r->row_count && i - row < LOOK_BACK && r->time_s[i] - r->time_s[row] <= look_s; i++)
        if (kg[i] > kg[high]) high = i;
    return high;
}

static size_t seen_on_scale(const trial_job *job, sw_trial_charge *charges)
{
    const sw_trial_record *r = job->record;
    const sw_trial_column *scale = sw_trial_column_of(r, SW_TRIAL_SCALE);
    size_t count = 0;
    if (scale == NULL) return 0;
    const double *kg = scale->values;
    for (size_t i = 1; i < r->row_count && count < SW_TRIAL_CHARGES; i++) {
        if (isnan(kg[i])) continue;
        size_t low = lowest_before(r, kg, i);
        if (!(kg[i] - kg[low] >= job->opt->charge_least_kg)) continue;
        size_t high = highest_after(r, kg, i);
        charges[count++] = (sw_trial_charge){r->time_s[low], kg[high] - kg[low]};
        while (i < r->row_count && r->time_s[i] - r->time_s[high] <= look_s) i++;
    }
    return count;
}

sw_status trial_charges(sw_run *run, trial_job *job)
{
    const sw_trial_record *r = job->record;
    sw_trial_charge *charges = SW_KEEP(run, SW_TRIAL_CHARGES, sw_trial_charge);
    if (charges == NULL) return SW_NO_MEMORY;
    size_t count = r->charge_count;
    for (size_t i = 0; i < count; i++) charges[i] = r->charges[i];
    if (count == 0) count = seen_on_scale(job, charges);
    job->result->charges = charges;
    job->result->charge_count = count;
    if (count > 0) return SW_OK;
    return sw_fail(
        run, SW_BAD_INPUT, (sw_place){.file = r->file}, "charge",
        "no charge is told, and none is seen on a scale; write \"# charge = 12 min, 1.85 kg\" above the table");
}

/* ---- means ---- */

size_t trial_row_from(const sw_trial_record *record, double time_s)
{
    size_t low = 0, high = record->row_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (record->time_s[middle] < time_s)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

double trial_mean_over(const trial_job *job, const sw_trial_column *column, double start_s, double end_s,
                       double *covered_s)
{
    const sw_trial_record *r = job->record;
    const double *x = column->values, *t = r->time_s;
    double area = 0, covered = 0;
    size_t first = trial_row_from(r, start_s);
    for (size_t i = first > 0 ? first - 1 : 0; i + 1 < r->row_count && t[i] < end_s; i++) {
        double dt = t[i + 1] - t[i], rise = x[i + 1] - x[i];
        if (isnan(rise) || dt > job->gap_s) continue;
        double a = t[i] < start_s ? start_s : t[i], b = t[i + 1] > end_s ? end_s : t[i + 1];
        area += (b - a) * (x[i] + rise / dt * ((a + b) / 2 - t[i]));
        covered += b - a;
    }
    *covered_s = covered;
    return covered > 0 ? area / covered : (double)NAN;
}

void trial_gaps(trial_job *job)
{
    const sw_trial_record *r = job->record;
    sw_trial_result *out = job->result;
    for (size_t i = 1; i < r->row_count; i++) {
        double dt = r->time_s[i] - r->time_s[i - 1];
        if (dt <= job->gap_s) continue;
        out->gap_count++;
        out->gaps_s += dt;
        if (dt > out->longest_gap_s) out->longest_gap_s = dt;
    }
}

/* Mean of a quantity over the cycle; NAN without a column. Where it is needed, it may be the worst covered. */
static double mean_of(const trial_job *job, sw_trial_cycle *c, sw_trial_quantity of, bool needed)
{
    const sw_trial_column *column = sw_trial_column_of(job->record, of);
    double covered_s = 0;
    if (column == NULL) return NAN;
    double mean = trial_mean_over(job, column, c->start_s, c->end_s, &covered_s),
           share = covered_s / (c->end_s - c->start_s);
    if (needed && share < c->coverage) c->coverage = share;
    return mean;
}

static double not_negative(double x)
{
    return x < 0 ? 0 : x; /* NAN stays */
}

static double raw_emission(const trial_job *job, sw_trial_cycle *c, sw_emission which, sw_trial_quantity of)
{
    const sw_trial_column *column = sw_trial_column_of(job->record, of);
    if (column == NULL) return NAN;
    double mean = not_negative(mean_of(job, c, of, false));
    return column->by_mass ? mean : sw_emission_mg_m3n(which, mean);
}

static void measure(const trial_job *job, sw_trial_cycle *c)
{
    double max = job->result->co2_max;
    bool co2 = sw_trial_column_of(job->record, SW_TRIAL_CO2) != NULL;
    c->coverage = 1;
    c->flue_k = mean_of(job, c, SW_TRIAL_FLUE, true);
    c->room_k = mean_of(job, c, SW_TRIAL_ROOM, true);
    c->draught_pa = mean_of(job, c, SW_TRIAL_DRAUGHT, false);
    c->co2_dry = not_negative(mean_of(job, c, SW_TRIAL_CO2, co2));
    c->o2_dry = not_negative(mean_of(job, c, SW_TRIAL_O2, !co2));
    if (!co2) c->co2_dry = sw_trial_co2_of_o2(c->o2_dry, max);
    if (sw_trial_column_of(job->record, SW_TRIAL_O2) == NULL) c->o2_dry = TRIAL_AIR_O2 * (1 - c->co2_dry / max);
    const sw_trial_column *co = sw_trial_column_of(job->record, SW_TRIAL_CO);
    c->co_dry = not_negative(mean_of(job, c, SW_TRIAL_CO, co != NULL));
    c->raw[SW_EMISSION_CO] = raw_emission(job, c, SW_EMISSION_CO, SW_TRIAL_CO);
    if (co != NULL && co->by_mass) c->co_dry /= sw_emission_mg_m3n(SW_EMISSION_CO, 1);
    c->raw[SW_EMISSION_OGC] = raw_emission(job, c, SW_EMISSION_OGC, SW_TRIAL_OGC);
    c->raw[SW_EMISSION_NOX] = raw_emission(job, c, SW_EMISSION_NOX, SW_TRIAL_NOX);
    c->raw[SW_EMISSION_PM] = raw_emission(job, c, SW_EMISSION_PM, SW_TRIAL_PM);
}

/* ---- what the means say ---- */

static double residue_j(const trial_job *job)
{
    const sw_trial_record *r = job->record;
    if (isnan(r->residue) || isnan(r->residue_c)) return TRIAL_RESIDUE * job->result->wood.lhv;
    return sw_fire_residue_j(r->residue_c, r->residue);
}

void trial_evaluate(trial_job *job, sw_trial_cycle *c)
{
    const sw_trial_record *r = job->record;
    const sw_trial_wood *wood = &job->result->wood;
    double co = isnan(c->co_dry) && sw_trial_column_of(r, SW_TRIAL_CO) == NULL ? 0 : c->co_dry;
    bool residue = !isnan(r->residue) && !isnan(r->residue_c);
    sw_trial_gas gas = {c->flue_k, c->room_k, c->co2_dry, co, residue_j(job), residue ? r->residue * r->residue_c : 0};
    double wood_kg_s = c->wood_kg / (c->end_s - c->start_s);
    c->losses = sw_trial_losses_of(wood, &gas);
    c->fuel_w = wood_kg_s * wood->lhv;
    c->output_w = c->losses.efficiency * c->fuel_w;
    c->flow_kg_s = wood_kg_s * c->losses.gas_kg;
    c->gas_kg_s =
        wood_kg_s * sw_fire_gas_of(&job->fuel, sw_fire_lambda_from_co2(&job->fuel, c->co2_dry + co), 0).gas_kg;
    for (size_t i = 0; i < SW_EMISSIONS; i++) c->at_13[i] = sw_emission_at_13(c->raw[i], c->o2_dry);
}

size_t trial_warm_up(const trial_job *job)
{
    size_t asked = (size_t)job->opt->warm_up;
    return job->result->charge_count > asked ? asked : 0;
}

static void judge(const trial_job *job, sw_trial_cycle *c, size_t number)
{
    c->why = "";
    if (!(c->end_s > c->start_s) || !(c->wood_kg > 0))
        c->why = "lasts no time";
    else if (c->coverage < job->opt->coverage_least)
        c->why = "too many readings are lost";
    else if (isnan(c->losses.efficiency))
        c->why = "the gas has neither CO2 nor CO in it";
    else if (c->losses.efficiency <= 0)
        c->why = "the losses are more than the heat of the wood: readings or wood are wrong";
    else if (number < trial_warm_up(job))
        c->why = "lights and warms the stove";
    c->valid = c->why[0] == '\0';
}

/* ---- the whole ---- */

typedef struct summed { /* a mean over the cycles, and whether time or heat weighs it */
    size_t offset;
    bool by_heat;
} summed;
#define BY_TIME(field)                                                                                                 \
    {                                                                                                                  \
        offsetof(sw_trial_cycle, field), false                                                                         \
    }
#define BY_HEAT(field)                                                                                                 \
    {                                                                                                                  \
        offsetof(sw_trial_cycle, field), true                                                                          \
    }
static const summed fields[] = {
    BY_TIME(flue_k),          BY_TIME(room_k),         BY_TIME(draught_pa),     BY_TIME(co2_dry),
    BY_TIME(o2_dry),          BY_TIME(co_dry),         BY_TIME(raw[0]),         BY_TIME(raw[1]),
    BY_TIME(raw[2]),          BY_TIME(raw[3]),         BY_TIME(gas_kg_s),       BY_TIME(flow_kg_s),
    BY_HEAT(losses.sensible), BY_HEAT(losses.co),      BY_HEAT(losses.residue), BY_HEAT(losses.sensible_j),
    BY_HEAT(losses.co_j),     BY_HEAT(losses.dry_m3n), BY_HEAT(losses.gas_kg),
};

/* NAN without a valid cycle. The wood is one, so its mass is its heat. */
static double mean_of_cycles(const trial_job *job, summed field)
{
    double sum = 0, weights = 0;
    for (size_t i = 0; i < job->result->cycle_count; i++) {
        const sw_trial_cycle *c = &job->cycles[i];
        double value = 0, weight = field.by_heat ? c->wood_kg : c->end_s - c->start_s;
        if (!c->valid) continue;
        memcpy(&value, (const char *)c + field.offset, sizeof value);
        sum += value * weight;
        weights += weight;
    }
    return weights > 0 ? sum / weights : (double)NAN;
}

/* Start, end, wood, coverage; gives how long the valid cycles last. */
static double add_up(const trial_job *job, sw_trial_cycle *w)
{
    double lasts_s = 0;
    for (size_t i = 0; i < job->result->cycle_count; i++) {
        const sw_trial_cycle *c = &job->cycles[i];
        if (!c->valid) continue;
        if (!w->valid) w->start_s = c->start_s;
        w->end_s = c->end_s;
        w->wood_kg += c->wood_kg;
        lasts_s += c->end_s - c->start_s;
        if (c->coverage < w->coverage) w->coverage = c->coverage;
        w->valid = true;
    }
    return lasts_s;
}

/* Means over time; losses by heat, so that they still add up. */
static void sum_up(trial_job *job, sw_trial_cycle *w)
{
    *w = (sw_trial_cycle){.start_s = NAN, .end_s = NAN, .coverage = 1, .why = ""};
    double lasts_s = add_up(job, w);
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++) {
        double mean = mean_of_cycles(job, fields[i]);
        memcpy((char *)w + fields[i].offset, &mean, sizeof mean);
    }
    if (!w->valid) w->why = "no charge counts";
    w->losses.efficiency = 1 - w->losses.sensible - w->losses.co - w->losses.residue;
    w->losses.cp_dry = sw_trial_cp_dry(w->flue_k, w->co2_dry);
    w->losses.cp_water = sw_trial_cp_water(w->flue_k);
    w->fuel_w = lasts_s > 0 ? w->wood_kg / lasts_s * job->result->wood.lhv : (double)NAN;
    w->output_w = w->losses.efficiency * w->fuel_w;
    for (size_t k = 0; k < SW_EMISSIONS; k++) w->at_13[k] = sw_emission_at_13(w->raw[k], w->o2_dry);
}

sw_status trial_cycles(sw_run *run, trial_job *job)
{
    sw_trial_result *out = job->result;
    const sw_trial_record *r = job->record;
    double last_s = r->time_s[r->row_count - 1];
    size_t skipped = trial_warm_up(job);
    job->cycles = SW_KEEP(run, out->charge_count, sw_trial_cycle);
    if (job->cycles == NULL) return SW_NO_MEMORY;
    out->cycles = job->cycles;
    out->cycle_count = out->charge_count;
    if (!isnan(r->end_s) && r->end_s < last_s) last_s = r->end_s;
    for (size_t i = 0; i < out->cycle_count; i++) {
        sw_trial_cycle *c = &job->cycles[i];
        c->start_s = out->charges[i].time_s;
        c->end_s = i + 1 < out->cycle_count ? out->charges[i + 1].time_s : last_s;
        c->wood_kg = out->charges[i].wood_kg;
        measure(job, c);
        if (i >= skipped && i - skipped < r->filter_count) {
            const sw_trial_filter *f = &r->filters[i - skipped];
            c->raw[SW_EMISSION_PM] = f->mg / f->m3n;
        }
        trial_evaluate(job, c);
        judge(job, c, i);
        out->valid_count += c->valid ? 1 : 0;
    }
    sum_up(job, &out->whole);
    return SW_OK;
}
