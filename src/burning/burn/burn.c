/* burn.c: fire, air and heat brought to one steady point.
 *
 * Inner loop: air. With a guess of the air the gas and every temperature follow; with these the openings let in another
 * amount: a secant on the difference. Outer loop: fuel, until the output is the duty's, where the fuel is not given. */
#include "burning/burn/burn_parts.h"

#include <math.h>
#include <string.h>

static const sw_option rows[] = {
    SW_OPTION(sw_burn_options, fuel_kg_h, "kg/h", 0, 0, 30, "wood burnt; 0 = what gives the duty's output", "ours"),
    SW_OPTION(sw_burn_options, moisture, "", 0.16, 0, 0.6, "of the wood, share of the whole",
              "EN 16510-1 test fuel 16 +- 4 % (from memory)"),
    SW_OPTION(sw_burn_options, draught_pa, "Pa", 12, 0, 100, "at the collar", "type test draught, handbook F1.3"),
    SW_OPTION(sw_burn_options, room_c, "degC", 20, -20, 45, "of the room", "ours"),
    SW_OPTION(sw_burn_options, co_ppm13, "ppm", 1000, 0, 20000, "CO, dry at 13 % O2", "ours: 0.1 %, handbook F2.5"),
    SW_OPTION(sw_burn_options, primary_share, "", 0.1, 0, 1, "primary slide, share open", "ours"),
    SW_OPTION(sw_burn_options, wash_share, "", 1, 0, 1, "airwash slide, share open", "ours"),
    SW_OPTION(sw_burn_options, rear_share, "", 1, 0, 1, "rear jets, share open", "ours"),
    SW_OPTION(sw_burn_options, lambda, "", 0, 0, 20,
              "excess air ratio instead of what the openings let in; 0 = they do", "ours"),
};
enum { ROWS = sizeof rows / sizeof *rows, AIR_ROUNDS = 40, FUEL_ROUNDS = 30 };

static const double settled = 1e-7; /* relative change of air or fuel */

const sw_option *sw_burn_option_table(size_t *count)
{
    *count = ROWS;
    return rows;
}

sw_burn_options sw_burn_options_defaults(void)
{
    sw_burn_options o = {.made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(rows, ROWS, &o);
    return o;
}

/* ---- opening -------------------------------------------------------------------------------------- */

static sw_status find_fuel(sw_run *run, sw_burn *b)
{
    const char *name = b->in.stove->duty.fuel;
    const sw_fuel *fuel = sw_fuel_find(name);
    if (fuel == NULL)
        return sw_fail(run, SW_BAD_INPUT, b->in.stove->place, "duty.fuel",
                       "\"%s\" is no fuel of the table; e.g. \"%s\"", name, sw_fuel_at(0)->name);
    b->fuel = *fuel;
    b->fuel.moisture = b->opt.moisture;
    b->humidity = sw_air_humidity(sw_k_from_c(b->opt.room_c), 0.5);
    return SW_OK;
}

static sw_status take_options(sw_run *run, sw_burn *b, const sw_burn_options *opt)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    SW_TRY(sw_options_check(run, rows, ROWS, opt));
    b->opt = *opt;
    return find_fuel(run, b);
}

static sw_status take_model(sw_run *run, sw_burn *b, const sw_heat_model *model)
{
    b->model = *model;
    b->last = (sw_burn_point){0};
    return sw_heat_net_make(run, b->in.scene, model, &b->net);
}

sw_status sw_burn_open(sw_run *run, const sw_burn_input *in, const sw_burn_options *opt, const sw_heat_model *model,
                       sw_burn **burn)
{
    sw_burn *b = SW_KEEP(run, 1, sw_burn);
    if (b == NULL) return SW_NO_MEMORY;
    b->in = *in;
    SW_TRY(take_options(run, b, opt));
    SW_TRY(take_model(run, b, model));
    SW_TRY(burn_air_make(run, b));
    *burn = b;
    return SW_OK;
}

static bool same_model(const sw_heat_model *a, const sw_heat_model *b)
{
    size_t count = 0;
    const sw_option *table = sw_heat_model_table(&count);
    for (size_t i = 0; i < count; i++)
        if (memcmp((const char *)a + table[i].offset, (const char *)b + table[i].offset, sizeof(double)) != 0)
            return false;
    return true;
}

sw_status sw_burn_change(sw_run *run, sw_burn *b, const sw_burn_options *opt, const sw_heat_model *model)
{
    SW_TRY(take_options(run, b, opt));
    if (!same_model(&b->model, model)) SW_TRY(take_model(run, b, model));
    burn_air_draught(b, opt->draught_pa);
    burn_air_slides(b, opt->primary_share, opt->wash_share, opt->rear_share);
    return SW_OK;
}

/* ---- air ---------------------------------------------------------------------------------------------- */

/* Everything that follows from so much fuel and air; *wanted: the air the openings then let in. */
static sw_status follow(sw_run *run, sw_burn *b, double fuel_kg_s, double air_kg_s, sw_burn_point *p, double *wanted)
{
    double flue_k = p->heat.rounds > 0 ? p->heat.flue_k : sw_k_from_c(280);
    burn_fire_of(b, fuel_kg_s, air_kg_s, flue_k, p->room.air_k, p);
    if (p->air.flows != NULL) (void)burn_air_ducts(b, &p->air, &p->fire);
    SW_TRY(sw_heat_net_steady(run, b->net, &p->fire, &p->room, &p->heat));
    b->spaces[SW_AIR_FIREBOX].source_kg_s = p->fire.gas_kg_s - p->fire.air_kg_s;
    p->rounds++;
    SW_TRY(burn_air_solve(run, b, &p->heat, p->room.air_k, &p->air, wanted));
    if (b->opt.lambda > 0) *wanted = air_kg_s;
    return SW_OK;
}

/* Whether the openings share out the air as the last answer took it. */
static bool shared_out(const sw_burn *b, const sw_burn_point *p)
{
    sw_heat_fire next = p->fire;
    return burn_air_ducts(b, &p->air, &next) <= settled;
}

static double air_least_kg_s(const sw_burn *b, double fuel_kg_s)
{
    return fuel_kg_s * sw_fire_gas_of(&b->fuel, 1, b->humidity).air_kg;
}

/* A secant on what is wanted less what was given. */
static sw_status settle_air(sw_run *run, sw_burn *b, double fuel_kg_s, sw_burn_point *p)
{
    double least = air_least_kg_s(b, fuel_kg_s), lambda = b->opt.lambda > 0 ? b->opt.lambda : 2.2;
    double x = p->fire.air_kg_s > 0 && b->opt.lambda <= 0 ? p->fire.air_kg_s : lambda * least;
    double x0 = NAN, g0 = NAN, wanted = 0;
    for (int i = 0; i < AIR_ROUNDS; i++) {
        SW_TRY(follow(run, b, fuel_kg_s, x, p, &wanted));
        double g = wanted - x;
        if (fabs(g) <= settled * x && shared_out(b, p)) return SW_OK;
        double slope = isnan(x0) || x == x0 ? -1 : (g - g0) / (x - x0);
        if (!(slope < -0.2)) slope = -1; /* more air cools the stove, which lets in less: always below -1 + a little */
        x0 = x, g0 = g;
        x = fmax(x - g / slope, 0.05 * least);
    }
    return sw_fail(
        run, SW_NO_SOLUTION, b->in.stove->place, "air",
        "the air let in and the %.2f g/s assumed still differ by %.2g %% after %d rounds with %.2f kg/h of wood; "
        "nothing of it is a result",
        x0 * 1e3, (wanted - x0) / x0 * 100, AIR_ROUNDS, fuel_kg_s * sw_s_from_h(1));
}

/* ---- fuel ------------------------------------------------------------------------------------------------ */

static sw_status settle_fuel(sw_run *run, sw_burn *b, sw_burn_point *p)
{
    const sw_duty *duty = &b->in.stove->duty;
    double lhv = sw_fuel_lhv(&b->fuel);
    double x = p->fuel_kg_s > 0 ? p->fuel_kg_s : duty->output_w / (duty->efficiency * lhv), x0 = NAN, g0 = NAN;
    int tried = 0;
    while (tried < FUEL_ROUNDS) {
        tried++;
        SW_TRY(settle_air(run, b, x, p));
        double g = p->heat.useful_w - duty->output_w;
        if (fabs(g) <= settled * duty->output_w) return SW_OK;
        double slope = isnan(x0) || x == x0 ? p->heat.useful_w / x : (g - g0) / (x - x0);
        if (!(slope > 0)) break;
        x0 = x, g0 = g;
        x = fmin(fmax(x - g / slope, 0.5 * x), 2 * x);
    }
    return sw_fail(
        run, SW_NO_SOLUTION, b->in.stove->place, "duty.output",
        "no amount of wood gives %.2f kW with these openings and draught: try %d, %.2f kg/h, gave %.2f kW with "
        "excess air %.2f, %.2f kW off; nothing of it is a result",
        duty->output_w * 1e-3, tried, p->fuel_kg_s * sw_s_from_h(1), p->heat.useful_w * 1e-3, p->lambda,
        fabs(p->heat.useful_w - duty->output_w) * 1e-3);
}

static void tell(sw_burn_point *p)
{
    p->output_w = p->heat.useful_w;
    p->efficiency = p->fuel_w > 0 ? p->output_w / p->fuel_w : (double)NAN;
    p->flue_k = p->heat.flue_k;
    p->gas_kg_s = p->fire.gas_kg_s;
    p->balance = p->fire.heat_w > 0 ? fabs(p->heat.residual_w) / p->fire.heat_w : fabs(p->heat.residual_w);
}

sw_status sw_burn_steady(sw_run *run, sw_burn *b, sw_burn_point *point)
{
    sw_burn_point p = b->last;
    p.rounds = 0;
    p.room = (sw_heat_room){sw_k_from_c(b->opt.room_c), sw_k_from_c(b->opt.room_c)};
    double given = b->opt.fuel_kg_h / sw_s_from_h(1);
    SW_TRY(given > 0 ? settle_air(run, b, given, &p) : settle_fuel(run, b, &p));
    tell(&p);
    b->last = p;
    *point = p;
    return SW_OK;
}

double sw_burn_part_k(const sw_burn *b, const sw_burn_point *point, size_t part, bool hot_side)
{
    return point->heat.t_k[sw_heat_net_node(b->net, part, hot_side)];
}

double sw_burn_gas_k(const sw_burn *b, const sw_burn_point *point, int gas_node)
{
    return point->heat.t_k[sw_heat_net_gas(b->net, gas_node)];
}
