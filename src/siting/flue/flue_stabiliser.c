/* flue_stabiliser.c: the room air that a draught stabiliser lets into the chimney's foot.
 *
 * A weighted disc opens as far as it must so that where it stands no more than its set draught over the room is left; the air cools the
 * gas and thins it, so that chimney lifts less and carries more. EN 13384-1 has clauses of its own for such devices (secondary air,
 * from memory); their characteristic figures were not at hand, so the disc is taken as ideal between shut and wide open (ours). */
#include "siting/flue/flue_parts.h"

#include <math.h>

static const double disc_cd = 0.6;      /* sharp opening, textbooks (from memory) */
static const double settled_pa = 1e-6;  /* of the draught it holds */
static const double most_by_gas = 1e3;  /* kg of air a kg of gas */
static const double first_by_gas = 0.5; /* to start from */
enum { ROUNDS = 60 };

double sw_flue_stabiliser_kg_s(double diameter_m, double pa, double density)
{
    return pa > 0 ? disc_cd * SW_PI / 4 * diameter_m * diameter_m * sqrt(2 * density * pa) : 0;
}

/* The reverse: what the disc, wide open, takes for so much air. */
static double wide_open_pa(double diameter_m, double kg_s, double density)
{
    double by_area = kg_s / (disc_cd * SW_PI / 4 * diameter_m * diameter_m);
    return by_area * by_area / (2 * density);
}

double flue_supply_pa(const sw_flue_input *in, const sw_flue_options *opt)
{
    return in->supply_computed ? in->supply_pa : opt->supply_pa;
}

/* What gives the stove its need and a little more: P_W + P_FV of a mild day; the room is P_B below outside, and the disc stands in it. */
double flue_hold_pa(const sw_flue_input *in, const sw_flue_options *opt)
{
    static const double least_pa = 1, more_pa = 0.5; /* ours: no disc is set lower; nor so that a mild day just fails */
    if (!in->house->stabiliser) return 0;
    if (in->house->stabiliser_pa > 0) return in->house->stabiliser_pa;
    if (in->hold_pa > 0) return in->hold_pa;
    flue_condition mild = flue_pressure(in->house, opt);
    sw_flue_gas gas = sw_flue_gas_of(&in->wood, in->nominal.co2_dry);
    sw_flue_case c = {.lines = NULL};
    return flue_walk(in, &gas, &in->nominal, &mild, &c) ? fmax(c.P_W + c.P_FV + more_pa, least_pa) : least_pa;
}

typedef struct disc {
    const sw_flue_input *in;
    const sw_flue_gas *gas;
    const sw_flue_appliance *appliance;
    flue_condition condition;
    sw_flue_case *c;
    double diameter_m, room_density;
    bool walked;
} disc;

/* Draught over the room where it stands, less what it holds with so much air. */
static double over_pa(disc *d, double air_kg_s)
{
    d->condition.air_kg_s = air_kg_s;
    d->walked = flue_walk(d->in, d->gas, d->appliance, &d->condition, d->c);
    double held_pa = fmax(d->condition.hold_pa, wide_open_pa(d->diameter_m, air_kg_s, d->room_density));
    return d->walked ? d->c->P_Z - d->c->P_B - held_pa : (double)NAN;
}

/* Falls with the air: Illinois' regula falsi (from memory) between too little and too much. */
static bool open_it(disc *d, double shut_over_pa)
{
    double low = 0, low_over = shut_over_pa, high = first_by_gas * d->appliance->kg_s, high_over = over_pa(d, high);
    int kept = 0;
    while (high_over > 0 && high < most_by_gas * d->appliance->kg_s) {
        low = high, low_over = high_over;
        high *= 2;
        high_over = over_pa(d, high);
    }
    if (!(high_over <= 0)) return false;
    for (int i = 0; i < ROUNDS; i++) {
        double x = high - high_over * (high - low) / (high_over - low_over), over = over_pa(d, x);
        if (!d->walked) return false;
        if (fabs(over) <= settled_pa || high - low <= 1e-12 * high) return true;
        if (over > 0) {
            low = x, low_over = over;
            if (kept == 1) high_over /= 2;
            kept = 1;
        } else {
            high = x, high_over = over;
            if (kept == -1) low_over /= 2;
            kept = -1;
        }
    }
    return false;
}

static double disc_m(const sw_house *house)
{
    if (house->stabiliser_mm > 0) return sw_m_from_mm(house->stabiliser_mm);
    return sw_flue_hydraulic_m(&house->parts[0]); /* as the pipe it sits in */
}

bool flue_settle(const sw_flue_input *in, const sw_flue_gas *gas, const sw_flue_appliance *appliance,
                 const flue_condition *condition, sw_flue_case *c)
{
    disc d = {.in = in, .gas = gas, .appliance = appliance, .condition = *condition, .c = c};
    d.condition.air_kg_s = 0;
    if (!flue_walk(in, gas, appliance, &d.condition, c)) return false;
    double shut_over_pa = c->P_Z - c->P_B - condition->hold_pa;
    if (!(condition->hold_pa > 0) || !(appliance->kg_s > 0) || shut_over_pa <= 0) return true;
    d.diameter_m = disc_m(in->house);
    d.room_density = sw_flue_air_density(c->outside_pa, condition->around_k[SW_HEATED]);
    return open_it(&d, shut_over_pa);
}
