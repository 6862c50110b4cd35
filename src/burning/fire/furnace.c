/* furnace.c: temperature of a well-stirred firebox.
 *
 * One grey gas zone between a sink and re-radiating walls, Hottel & Sarofim, Radiative Transfer, 1967 ("speckled walls"):
 *   phi Q_fuel + H_air = m sum y_i h_i(T_g) + GS sigma (T_g^4 - T_1^4) + h A (T_g - T_1)
 *   1/GS = 1/(A_1 e_1) + (1/e_g - 1)/A_T
 * e_g of the gas of complete combustion by Leckner, with soot beside it, over the mean beam 3.6 V/A. The heat that does not
 * leave falls strictly with T_g, so there is one root; regula falsi (Illinois) keeps it bracketed. */
#include "burning/fire/fire_parts.h"

#include <math.h>

static const double least_k = 400, most_k = 3000; /* range of the emissivity */
static const double settled_share = 1e-10;        /* residual of the heat brought */
static const double one_bar = 1.01325;
enum { ROUNDS_MOST = 100 };

static const sw_option table[] = {
    SW_OPTION(sw_furnace, fuel_kg_s, "kg/s", 6e-4, 1e-7, 0.1, "fuel as fired", "ours"),
    SW_OPTION(sw_furnace, burned_share, "", 1, 0.01, 1, "share of the heat set free in the firebox", "ours"),
    SW_OPTION(sw_furnace, lambda, "", 1.8, 1, 20, "excess air", "range of the balance of moles"),
    SW_OPTION(sw_furnace, air_k, "K", 298, 220, 1500, "air where it enters", "range of the gas enthalpies"),
    SW_OPTION(sw_furnace, volume_m3, "m3", 0.05, 1e-4, 100, "volume of the firebox", "ours"),
    SW_OPTION(sw_furnace, area_m2, "m2", 0.8, 1e-3, 100, "all walls of the firebox", "ours"),
    SW_OPTION(sw_furnace, sink_m2, "m2", 0.2, 1e-4, 100, "walls that take heat away", "ours"),
    SW_OPTION(sw_furnace, sink_e, "", 0.85, 0.01, 1, "their emissivity", "ours"),
    SW_OPTION(sw_furnace, sink_k, "K", 720, 220, 2500, "their temperature", "ours"),
    SW_OPTION(sw_furnace, h_convection, "W/(m2 K)", 0, 0, 1000, "convection to the sink", "ours"),
    SW_OPTION(sw_furnace, convection_m2, "m2", 0, 0, 100, "area of that convection", "ours"),
    SW_OPTION(sw_furnace, soot_k_1_m, "1/m", 0, 0, 100, "grey coefficient of the flame", "ours"),
};

typedef struct zone {
    const sw_furnace *in;
    sw_mixture gas; /* kmol/s */
    sw_gas_path path;
    double brought_w; /* by fuel and air, above 25 degC */
} zone;

static zone zone_of(const sw_fuel *fuel, const sw_furnace *in)
{
    sw_fire_gas g = sw_fire_gas_of(fuel, in->lambda, 0);
    double wet_kmol = sw_mixture_kmol(&g.wet), air_kmol_s = in->fuel_kg_s * g.air_kg / FIRE_AIR;
    sw_mixture air = {{[SW_GAS_O2] = FIRE_AIR_O2 * air_kmol_s, [SW_GAS_N2] = FIRE_AIR_N2 * air_kmol_s}};
    zone z = {.in = in, .gas = g.wet};
    for (size_t i = 0; i < SW_GASES; i++) z.gas.kmol[i] *= in->fuel_kg_s;
    z.path = (sw_gas_path){.p_h2o_bar = one_bar * g.wet.kmol[SW_GAS_H2O] / wet_kmol,
                           .p_co2_bar = one_bar * g.wet.kmol[SW_GAS_CO2] / wet_kmol,
                           .p_bar = one_bar,
                           .length_m = sw_mean_beam_m(in->volume_m3, in->area_m2)};
    z.brought_w = in->burned_share * in->fuel_kg_s * g.lhv + sw_mixture_heat_j(&air, fire_reference_k(), in->air_k);
    return z;
}

/* Heat left over at that gas temperature, W; fills out. */
static double left_over(const zone *z, double gas_k, sw_furnace_result *out)
{
    const sw_furnace *in = z->in;
    double soot = in->soot_k_1_m > 0 ? sw_soot_emissivity(in->soot_k_1_m, z->path.length_m) : 0;
    double t2 = gas_k * gas_k, s2 = in->sink_k * in->sink_k;
    out->gas_k = gas_k;
    out->emissivity = sw_emissivity_both(sw_leckner(z->path, gas_k), soot);
    out->exchange_m2 =
        out->emissivity <= 0 ? 0 : sw_furnace_exchange_m2(in->sink_m2, in->sink_e, in->area_m2, out->emissivity);
    out->radiant_w = out->exchange_m2 * SW_STEFAN_BOLTZMANN * (t2 * t2 - s2 * s2);
    out->convected_w = in->h_convection * in->convection_m2 * (gas_k - in->sink_k);
    out->leaving_w = sw_mixture_heat_j(&z->gas, fire_reference_k(), gas_k);
    out->residual_w = z->brought_w - out->leaving_w - out->radiant_w - out->convected_w;
    return out->residual_w;
}

sw_status sw_furnace_balance(const sw_fuel *fuel, const sw_furnace *in, sw_furnace_result *out)
{
    zone z = zone_of(fuel, in);
    double low_k = least_k, high_k = most_k;
    *out = (sw_furnace_result){0};
    double low_w = left_over(&z, low_k, out);
    if (!(low_w >= 0)) return SW_NO_SOLUTION;
    double high_w = left_over(&z, high_k, out);
    if (!(high_w <= 0)) return SW_NO_SOLUTION;
    int side = 0;
    for (int round = 1; round <= ROUNDS_MOST; round++) {
        double middle_k = high_w == low_w ? low_k : (low_k * high_w - high_k * low_w) / (high_w - low_w);
        double w = left_over(&z, middle_k, out);
        out->rounds = round;
        if (fabs(w) <= settled_share * fabs(z.brought_w)) return SW_OK;
        if (w > 0) {
            low_k = middle_k;
            low_w = w;
            if (side == 1) high_w /= 2;
            side = 1;
        } else if (w < 0) {
            high_k = middle_k;
            high_w = w;
            if (side == -1) low_w /= 2;
            side = -1;
        } else {
            return SW_NO_SOLUTION; /* no number */
        }
    }
    return SW_NO_SOLUTION;
}

static sw_status check(sw_run *run, const sw_fuel *fuel, const sw_furnace *in)
{
    sw_status status = sw_options_check(run, table, sizeof table / sizeof *table, in);
    if (in->sink_m2 > in->area_m2)
        status = sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "sink_m2", "%g m2 is more than the %g m2 of all walls",
                         in->sink_m2, in->area_m2);
    if (!(sw_fuel_lhv(fuel) > 0))
        status = sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "moisture", "%g leaves no heat; give 0 to %g, wet basis",
                         fuel->moisture, FIRE_MOISTURE_MOST);
    return status;
}

sw_status sw_furnace_solve(sw_run *run, const sw_fuel *fuel, const sw_furnace *in, sw_furnace_result *out)
{
    *out = (sw_furnace_result){0};
    SW_TRY(check(run, fuel, in));
    if (sw_furnace_balance(fuel, in, out) == SW_OK) return SW_OK;
    return sw_fail(run, SW_NO_SOLUTION, (sw_place){0}, "furnace",
                   "no gas temperature from %g to %g K closes the balance: %g W are left over at %g K after %d rounds",
                   least_k, most_k, out->residual_w, out->gas_k, out->rounds);
}
