/* flue_door.c: does smoke stay in when the fire door is opened to refuel?
 *
 * Room air goes in through the whole opening, mixes with the gas of the embers and cools it; more goes in until the flue's lift is used
 * up by flue, throat, outlet and door. Common practice of open fires judges the mean velocity in the opening. */
#include "siting/flue/flue_parts.h"

#include <math.h>

static const double opening_cd = 0.6;  /* sharp opening, textbooks (from memory) */
static const double outlet_zeta = 0.5; /* into the stove's outlet, sharp edge: Idelchik (from memory) */
/* Mean velocity in the opening of a fireplace that keeps its smoke: 0.8 ft/s, ASHRAE Handbook, HVAC Systems and Equipment, chimney
 * chapter (from memory). Made for open fires; for a stove's door common practice has no better figure. */
static const double wanted_m_s = 0.24;
static const double most_kg_s = 2;
enum { HALVINGS = 45 };

double sw_flue_door_loss_pa(double kg_s, double area_m2, double density)
{
    double flow = kg_s / (opening_cd * area_m2);
    return flow * flow / (2 * density);
}

typedef struct open_door {
    const sw_flue_input *in;
    const sw_flue_case *low; /* the fire just before */
    sw_flue_appliance embers;
    sw_flue_gas gas;
    double area_m2, collar_m2, throat_m2, room_k, room_density;
    double mixed_k, lift_pa, loss_pa;
} open_door;

/* Draught at the stove's outlet, of gas that the walls warm or cool as they stood before the door was opened. */
static double lift_pa(const open_door *d, const sw_flue_gas *gas, double kg_s)
{
    const sw_house *house = d->in->house;
    double t_k = d->mixed_k, sum_pa = 0, first_pa = NAN, last_pa = 0;
    for (size_t i = 0; i < house->part_count; i++) {
        const sw_flue_part *part = &house->parts[i];
        const sw_flue_line *before = &d->low->lines[i];
        sw_flue_duct duct = flue_bare_duct(house, part, 0.5 * (before->wall_entry_k + before->wall_k));
        sw_flue_line l = sw_flue_cool(&duct, gas, kg_s, t_k, d->low->outside_pa);
        double zeta = part->zeta + (i + 1 == house->part_count ? house->terminal_zeta : 0);
        last_pa = l.density * l.velocity_m_s * l.velocity_m_s / 2;
        if (isnan(first_pa)) first_pa = last_pa;
        sum_pa += sw_flue_draught_pa(part->rise_m, d->low->outside_density, l.density) -
                  (l.psi * part->length_m / duct.hydraulic_m + zeta) * last_pa;
        t_k = l.exit_k;
    }
    return sum_pa - (last_pa - first_pa) - d->low->P_B;
}

/* Left over of the flue's lift with so much air through the door; NAN when the flue cannot be walked. */
static double left_pa(open_door *d, double air_kg_s)
{
    double air = air_kg_s / d->embers.kg_s;
    sw_flue_gas thinned = sw_flue_gas_thinned(&d->in->wood, &d->gas, air);
    d->mixed_k = sw_flue_mixed_k(&d->gas, &thinned, air, d->embers.t_k, d->room_k);
    double all_kg_s = d->embers.kg_s + air_kg_s, flow = all_kg_s / d->collar_m2;
    double density = d->low->outside_pa / (thinned.gas_constant * d->mixed_k);
    d->lift_pa = lift_pa(d, &thinned, all_kg_s);
    d->loss_pa = sw_flue_door_loss_pa(air_kg_s, d->area_m2, d->room_density) +
                 sw_flue_door_loss_pa(all_kg_s, d->throat_m2, density) +
                 (1 + outlet_zeta) * flow * flow / (2 * density); /* from rest */
    return d->lift_pa - d->loss_pa;
}

/* Embers give the least gas and the coldest: the lowest output. No safety factor on the flue, no wind; P_B as for the
 * fire's own air, so a tight room holds back more than this says. */
static open_door make_door(const sw_flue_input *in, const sw_flue_options *opt, const sw_flue_case *low)
{
    open_door d = {.in = in, .low = low, .embers = flue_lowest_of(in)};
    d.room_k = sw_k_from_c(opt->room_c);
    d.gas = sw_flue_gas_of(&in->wood, d.embers.co2_dry);
    d.area_m2 = sw_m2_from_mm2(in->door_width_mm * in->door_height_mm);
    d.collar_m2 = flue_collar_m2(in);
    d.throat_m2 = in->throat_m2 > 0 ? in->throat_m2 : d.collar_m2;
    d.room_density = sw_flue_air_density(low->outside_pa, d.room_k);
    return d;
}

sw_flue_open_door flue_door(const sw_flue_input *in, const sw_flue_options *opt, const sw_flue_case *low)
{
    sw_flue_open_door out = {NAN, NAN, NAN, wanted_m_s, NAN, NAN};
    if (!(in->door_width_mm > 0) || !(in->door_height_mm > 0)) return out;
    open_door d = make_door(in, opt, low);
    (void)left_pa(&d, wanted_m_s * d.area_m2 * d.room_density);
    out.lift_pa = d.lift_pa;
    out.loss_pa = d.loss_pa;
    double less = 0, more = most_kg_s;
    if (!(left_pa(&d, less) > 0)) return out;
    for (int i = 0; i < HALVINGS; i++) {
        double middle = 0.5 * (less + more);
        *(left_pa(&d, middle) > 0 ? &less : &more) = middle;
    }
    (void)left_pa(&d, less);
    out.air_kg_s = less;
    out.velocity_m_s = less / (d.room_density * d.area_m2);
    out.mixed_k = d.mixed_k;
    return out;
}
