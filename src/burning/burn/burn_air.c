/* burn_air.c: the stove's openings under the draught, with the gases as warm as the network of parts says. */
#include "burning/burn/burn_parts.h"

#include <math.h>
#include <string.h>

static const double fired_c = 700, upper_c = 450, flue_c = 280; /* before the first temperatures are known. Ours */

static sw_status copy_network(sw_run *run, sw_burn *b, const sw_air_network *from)
{
    b->network = *from;
    b->spaces = SW_KEEP(run, from->space_count, sw_air_space);
    b->ways = SW_KEEP(run, from->way_count, sw_air_way);
    b->slide_m2 = SW_KEEP(run, from->way_count, double);
    b->own_k = SW_KEEP(run, from->way_count, double);
    if (b->spaces == NULL || b->ways == NULL || b->slide_m2 == NULL || b->own_k == NULL) return SW_NO_MEMORY;
    memcpy(b->spaces, from->spaces, from->space_count * sizeof *b->spaces);
    memcpy(b->ways, from->ways, from->way_count * sizeof *b->ways);
    for (size_t i = 0; i < from->way_count; i++) {
        b->slide_m2[i] = from->ways[i].area_m2;
        b->own_k[i] = from->ways[i].gas_k;
    }
    b->network.spaces = b->spaces;
    b->network.ways = b->ways;
    return SW_OK;
}

/* Without a baffle the gas passes the whole section of the firebox on its way to the collar. */
static sw_air_input burn_air_input(const sw_burn *b)
{
    const sw_scene *s = b->in.scene;
    bool baffle = s->throat_m2 > 0;
    double throat_m2 = baffle ? s->throat_m2 : s->base_m2, at_m = baffle ? s->throat_height_m : s->collar_height_m;
    return (sw_air_input){.stove = b->in.stove,
                          .geometry = {throat_m2, at_m, s->collar_m2, s->collar_height_m, s->bed_height_m, s->base_m2},
                          .fuel_kg_s = NAN,
                          .air_min_kg = NAN};
}

sw_status burn_air_make(sw_run *run, sw_burn *b)
{
    sw_air_options opt = sw_air_options_defaults();
    opt.draught_pa = b->opt.draught_pa;
    opt.room_c = b->opt.room_c;
    opt.primary_share = opt.wash_share = opt.rear_share = 1;
    const sw_air_input in = burn_air_input(b);
    sw_air_network whole;
    SW_TRY(sw_air_network_make(run, &in, &opt, &whole));
    SW_TRY(copy_network(run, b, &whole));
    burn_air_slides(b, b->opt.primary_share, b->opt.wash_share, b->opt.rear_share);
    return SW_OK;
}

void burn_air_draught(sw_burn *b, double draught_pa)
{
    b->spaces[SW_AIR_COLLAR].pressure_pa = -draught_pa;
}

static double slide_of(const char *kind, double primary, double wash, double rear)
{
    if (strcmp(kind, "primary") == 0) return primary;
    if (strcmp(kind, "wash") == 0) return wash;
    if (strcmp(kind, "rear jet") == 0 || strcmp(kind, "secondary") == 0) return rear;
    return NAN;
}

void burn_air_slides(sw_burn *b, double primary, double wash, double rear)
{
    for (size_t i = 0; i < b->network.way_count; i++) {
        double share = slide_of(b->ways[i].kind, primary, wash, rear);
        if (!isnan(share)) b->ways[i].area_m2 = share * b->slide_m2[i];
    }
}

/* Where no duct warms it, the air is as warm as the study of air takes it; so is primary air, which is warmed behind its opening. */
static void warm_ducts(sw_burn *b, const sw_heat_state *heat, bool known)
{
    for (size_t i = 0; i < b->in.stove->opening_count; i++) {
        sw_duct duct = sw_duct_of(b->ways[i].kind);
        double duct_k = known && duct != SW_DUCT_PRIMARY ? heat->duct_k[duct] : 0;
        b->ways[i].gas_k = duct_k > 0 ? duct_k : b->own_k[i];
    }
}

static void warm(sw_burn *b, const sw_heat_state *heat, double room_k)
{
    bool known = heat->t_k != NULL && heat->t_k[0] > 0 && heat->flue_k > 0;
    b->spaces[SW_AIR_ROOM].t_k = room_k;
    b->spaces[SW_AIR_FIREBOX].t_k = known ? heat->t_k[sw_heat_net_gas(b->net, SW_GAS_FIREBOX)] : sw_k_from_c(fired_c);
    b->spaces[SW_AIR_UPPER].t_k = known ? heat->t_k[sw_heat_net_gas(b->net, SW_GAS_UPPER)] : sw_k_from_c(upper_c);
    b->ways[b->in.stove->opening_count + SW_AIR_THROAT].gas_k = known ? heat->leaving_k : (double)NAN;
    b->spaces[SW_AIR_COLLAR].t_k = known ? heat->flue_k : sw_k_from_c(flue_c);
    warm_ducts(b, heat, known);
}

sw_status burn_air_solve(sw_run *run, sw_burn *b, const sw_heat_state *heat, double room_k, sw_air_solution *air,
                         double *air_kg_s)
{
    warm(b, heat, room_k);
    SW_TRY(sw_air_network_solve(run, &b->network, air));
    *air_kg_s = 0;
    for (size_t i = 0; i < b->network.way_count; i++) {
        const sw_air_way *way = &b->ways[i];
        double into = way->from == SW_AIR_ROOM ? air->flows[i].kg_s : way->to == SW_AIR_ROOM ? -air->flows[i].kg_s : 0;
        *air_kg_s += into;
    }
    return SW_OK;
}

double burn_air_ducts(const sw_burn *b, const sw_air_solution *air, sw_heat_fire *fire)
{
    double whole = sw_air_entering_kg_s(&b->network, air), by[SW_DUCTS] = {0}, off = 0;
    for (size_t i = 0; i < b->in.stove->opening_count; i++)
        by[sw_duct_of(b->ways[i].kind)] += fmax(air->flows[i].kg_s, 0);
    for (sw_duct d = SW_DUCT_NONE + 1; d < SW_DUCTS; d++) {
        double kg_s = whole > 0 ? fire->air_kg_s * by[d] / whole : 0;
        off = fmax(off, fabs(kg_s - fire->duct_kg_s[d]));
        fire->duct_kg_s[d] = kg_s;
    }
    return fire->air_kg_s > 0 ? off / fire->air_kg_s : 0;
}

double burn_air_through(const sw_burn *b, const sw_air_solution *air, const char *kind)
{
    double sum = 0;
    for (size_t i = 0; i < b->network.way_count; i++)
        if (strcmp(b->ways[i].kind, kind) == 0) sum += air->flows[i].kg_s;
    return sum;
}

/* The spaces and ways as they are now, for somebody else to keep. */
static sw_status keep_network(sw_run *run, const sw_burn *b, sw_air_network *out)
{
    sw_air_space *spaces = SW_KEEP(run, b->network.space_count, sw_air_space);
    sw_air_way *ways = SW_KEEP(run, b->network.way_count, sw_air_way);
    if (spaces == NULL || ways == NULL) return SW_NO_MEMORY;
    memcpy(spaces, b->spaces, b->network.space_count * sizeof *spaces);
    memcpy(ways, b->ways, b->network.way_count * sizeof *ways);
    *out = b->network;
    out->spaces = spaces;
    out->ways = ways;
    return SW_OK;
}

sw_status sw_burn_air(sw_run *run, sw_burn *b, const sw_burn_point *point, const sw_air_result **air)
{
    sw_air_input in = burn_air_input(b);
    sw_air_result *r = SW_KEEP(run, 1, sw_air_result);
    if (r == NULL) return SW_NO_MEMORY;
    in.fuel_kg_s = point->fuel_kg_s;
    in.air_min_kg = point->gas.air_min_kg;
    in.made_kg_s = point->fire.gas_kg_s - point->fire.air_kg_s; /* wood less ash, and the air's moisture */
    warm(b, &point->heat, point->room.air_k);
    b->spaces[SW_AIR_FIREBOX].source_kg_s = in.made_kg_s;
    SW_TRY(keep_network(run, b, &r->network));
    SW_TRY(sw_air_network_solve(run, &r->network, &r->solution));
    SW_TRY(sw_air_tell(run, &in, r));
    *air = r;
    return SW_OK;
}

/* Flow goes as the root of the draught left after buoyancy: Newton on its square, from the last draught. */
static sw_status find_draught(sw_run *run, sw_burn *b, const sw_burn_point *point, double *draught_pa)
{
    enum { ROUNDS = 60 };
    static const double settled = 1e-7, most_pa = 200, step_pa = 0.5;
    double x = b->opt.draught_pa, x0 = NAN, f0 = NAN, got = 0, wanted = point->fire.air_kg_s;
    sw_air_solution air = point->air;
    for (int i = 0; i < ROUNDS && x <= most_pa; i++) {
        burn_air_draught(b, x);
        SW_TRY(burn_air_solve(run, b, &point->heat, point->room.air_k, &air, &got));
        double f = (got > 0 ? got * got : -got * got) - wanted * wanted;
        if (fabs(f) <= settled * wanted * wanted) {
            *draught_pa = x;
            return SW_OK;
        }
        double slope =
            isnan(x0) || x == x0 ? (got > 0 ? got * got : wanted * wanted) / fmax(x, 1) : (f - f0) / (x - x0);
        x0 = x, f0 = f;
        x = slope > 0 ? x - f / slope : x + step_pa;
    }
    return sw_fail(run, SW_NO_SOLUTION, b->in.stove->place, "draught",
                   "no draught up to %.0f Pa lets in %.2f g/s of air through the openings", most_pa, wanted * 1e3);
}

/* Other questions are asked at the draught of the options. */
sw_status sw_burn_draught(sw_run *run, sw_burn *b, const sw_burn_point *point, double *draught_pa)
{
    sw_status status = find_draught(run, b, point, draught_pa);
    burn_air_draught(b, b->opt.draught_pa);
    return status;
}
