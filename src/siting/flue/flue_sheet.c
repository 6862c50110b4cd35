/* flue_sheet.c: the calculation as a list of lines: symbol, formula, value, unit, source. Data only; papers write it. */
#include "siting/flue/flue_parts.h"

#include <math.h>
#include <string.h>

typedef struct row { /* a double at an offset of the struct the block is about */
    const char *symbol, *formula, *unit, *source;
    size_t offset;
} row;

/* clang-format off */
#define GAS(field)  offsetof(sw_flue_gas, field)
#define LINE(field) offsetof(sw_flue_line, field)
#define CASE(field) offsetof(sw_flue_case, field)
#define COMBUSTION  "combustion calculation, textbooks (from memory)"
#define EN(clause)  "EN 13384-1 cl. " clause " (from memory)"

static const row gas_rows[] = {
    {"lambda",        "n_s/n_O2",                                  "",          COMBUSTION,   GAS(lambda)},
    {"sigma(CO2)",    "given: share of the dry gas",               "",          "declared or computed for the stove", GAS(co2_dry)},
    {"sigma(CO2)max", "n_C/(n_C + 3.77327 n_O2)",                  "",          COMBUSTION,   GAS(co2_max)},
    {"sigma(H2O)",    "n_H2O/(n_dry + n_H2O) + 0.011",             "",          EN("5.7.6"),  GAS(h2o_wet)},
    {"m_g",           "sum(n_i M_i), wet gas of 1 kg of wood",     "kg/kg",     COMBUSTION,   GAS(kg_per_kg)},
    {"m_a",           "n_s (M_O2 + 3.77327 M_N2)",                "kg/kg",     COMBUSTION,   GAS(air_kg_per_kg)},
    {"R",             "8314.46/M",                                 "J/(kg K)",  "ideal gas",  GAS(gas_constant)},
};
static const row air_rows[] = {
    {"T_L",   "outside air",                      "K",     EN("5.7.1"), CASE(outside_k)},
    {"p_L",   "97 000 exp(-g z/(R_L T_L))",       "Pa",    EN("5.7.2"), CASE(outside_pa)},
    {"rho_L", "p_L/(R_L T_L), R_L 288",           "kg/m3", EN("5.7.4"), CASE(outside_density)},
    {"S_H",   "temperature instability",          "",      EN("5.7.7"), CASE(s_h)},
    {"S_E",   "flow safety",                      "",      EN("5.7.8"), CASE(s_e)},
    {"m",     "gas from the stove",               "kg/s",  "declared or computed for the stove", CASE(gas_kg_s)},
    {"T_W",   "gas from the stove",               "K",     "declared or computed for the stove", CASE(gas_k)},
};
static const row disc_rows[] = {
    {"m_NL",         "room air through the stabiliser, so that P_Z - P_B is what it holds, or the disc is wide open", "kg/s", "balance of pressures (physics)", CASE(air_kg_s)},
    {"T_eNL",        "gas and air together: m c_p (T - T_room) before and after",  "K", "balance of heat (physics)", CASE(mixed_k)},
    {"sigma(CO2)NL", "of both, dry: oxygen supplied in proportion to all the air", "",  COMBUSTION, CASE(co2_dry)},
};
static const row line_rows[] = {
    {"T_e",      "gas at the beginning of the part",                             "K",        EN("5.8"),     LINE(entry_k)},
    {"T_u",      "air round it",                                                 "K",        EN("5.7.1"),   LINE(around_k)},
    {"T_m",      "T_u + (T_e - T_u)/K (1 - exp(-K))",                            "K",        EN("5.8"),     LINE(mean_k)},
    {"T_o",      "T_u + (T_e - T_u) exp(-K)",                                    "K",        EN("5.8"),     LINE(exit_k)},
    {"c_p",      "sum(n_i c_p,i)/sum(n_i M_i)",                                  "J/(kg K)", "NIST Chemistry WebBook, Shomate (seen)", LINE(cp)},
    {"lambda_A", "0.0223 + 0.000065 t_m",                                        "W/(m K)",  "EN 13384-1 annex (from memory)", LINE(conductivity)},
    {"eta_A",    "15e-6 + 47e-9 t_m - 20e-12 t_m2",                              "Pa s",     "EN 13384-1 annex (from memory)", LINE(viscosity)},
    {"rho_m",    "p_L/(R T_m)",                                                  "kg/m3",    EN("5.9"),     LINE(density)},
    {"w_m",      "m/(A rho_m)",                                                  "m/s",      EN("5.9"),     LINE(velocity_m_s)},
    {"Re",       "w_m D_h rho_m/eta_A, below 2300 counted as 2300",              "",         EN("5.8.3.2"), LINE(re)},
    {"Pr",       "eta_A c_p/lambda_A",                                           "",         EN("5.8.3.2"), LINE(pr)},
    {"psi",      "1/sqrt(psi) = -2 log10(2.51/(Re sqrt(psi)) + r/(3.71 D_h))",   "",         "Colebrook and White (from memory)", LINE(psi)},
    {"psi_s",    "psi with r = 0",                                               "",         "Colebrook and White (from memory)", LINE(psi_smooth)},
    {"Nu",       "(psi/psi_s)^0.67 0.0214 (Re^0.8 - 100) Pr^0.4 (1 + (D_h/L)^0.67)", "",    EN("5.8.3.2"), LINE(nu)},
    {"alpha_i",  "lambda_A Nu/D_h",                                              "W/(m2 K)", EN("5.8.3.2"), LINE(inner_h)},
    {"alpha_a",  "8 inside or clad, 23 outside",                                 "W/(m2 K)", "GOST R 59978.2-2022 (seen)", LINE(outer_h)},
    {"1/Lambda", "sum of y D_h/(2 lambda) ln(D_out/D_in), or declared",          "m2 K/W",   "EN 13384-1 annex A (from memory)", LINE(resistance)},
    {"k",        "1/(1/alpha_i + S_H [1/Lambda + D_h/(D_ha alpha_a)])",          "W/(m2 K)", "quantities: EN 13084-1 annex A.4 (seen); form from memory", LINE(k)},
    {"K",        "U k L/(m c_p)",                                                "",         EN("5.8"),     LINE(K)},
    {"T_wall",   "T_o - k_b/alpha_i (T_o - T_u), its end at equilibrium",        "K",        "GOST R 59978.2-2022 table 2 (seen)", LINE(wall_k)},
    {"P_H,part", "H g (rho_L - rho_m), rho_m of the whole section",              "Pa",       EN("5.10.2"),  LINE(draught_pa)},
    {"P_E,part", "(psi L/D_h + sum zeta) rho_m w_m2/2",                          "Pa",       EN("5.10.3"),  LINE(friction_pa)},
};
static const row sum_rows[] = {
    {"P_H",   "sum of H g (rho_L - rho_m)",                        "Pa", EN("5.10.2"), CASE(P_H)},
    {"P_E",   "sum of (psi L/D_h + zeta) rho_m w_m2/2",            "Pa", EN("5.10.3"), CASE(P_E)},
    {"P_G",   "rho_2 w_2^2/2 - rho_1 w_1^2/2",                     "Pa", EN("5.10.3"), CASE(P_G)},
    {"P_R",   "S_E P_E + S_EG P_G; S_EG = S_E, or 1 where the gas slows down",          "Pa", EN("5.10.3"), CASE(P_R)},
    {"P_L",   "wind: 0, 25 inland, 40 coast in an adverse zone",   "Pa", EN("5.10.4"), CASE(wind_pa)},
    {"P_Z",   "P_H - P_R - P_L",                                   "Pa", EN("5.10.1"), CASE(P_Z)},
    {"P_HV",  "pipe: H_V g (rho_L - rho_mV)",                      "Pa", EN("5.11.3"), CASE(P_HV)},
    {"P_EV",  "pipe: (psi L/D_h + zeta) rho w2/2",                 "Pa", EN("5.11.3"), CASE(P_EV)},
    {"P_GV",  "pipe: rho_2 w_2^2/2 - rho_1 w_1^2/2",              "Pa", EN("5.11.3"), CASE(P_GV)},
    {"P_RV",  "S_E P_EV + S_EGV P_GV; S_EGV likewise",                             "Pa", EN("5.11.3"), CASE(P_RV)},
    {"P_FV",  "P_RV - P_HV",                                       "Pa", EN("5.11.3"), CASE(P_FV)},
    {"P_B",   "air supply: S_EB 1.2 times the room below outside, or 4 Pa",                "Pa", EN("5.11.4"), CASE(P_B)},
    {"P_W",   "draught the stove needs",                           "Pa", "declared or computed for the stove", CASE(P_W)},
    {"P_Ze",  "P_W + P_FV + P_B",                                  "Pa", EN("5.11"),   CASE(P_Ze)},
};
static const row wet_rows[] = {
    {"T_ob",  "gas at the outlet",                                 "K", EN("5.8"),    CASE(outlet_k)},
    {"T_iob", "T_ob - k_ob/alpha_i (T_ob - T_uo)",                 "K", "GOST R 59978.2-2022 table 2 (seen)", CASE(outlet_wall_k)},
    {"p_D",   "sigma(H2O) p_L, of gas and stabiliser air together",  "Pa", EN("5.7.6"), CASE(vapour_pa)},
    {"T_p",   "4077.9/(23.6448 - ln p_D) - 236.67 degC",           "K", EN("5.7.6"),  CASE(dew_point_k)},
};
/* clang-format on */
typedef struct open_row { /* of the door */
    const char *symbol, *formula, *unit;
    size_t offset;
} open_row;
#define DOOR(field) offsetof(sw_flue_open_door, field)
static const open_row door_rows[] = {
    {"m_door", "air through it, where lift and losses meet: P_H + P_HV - P_R - P_RV - P_B = P_loss", "kg/s",
     DOOR(air_kg_s)},
    {"w_door", "m_door/(rho_room A_door)", "m/s", DOOR(velocity_m_s)},
    {"w_keep", "mean velocity that keeps smoke in", "m/s", DOOR(wanted_m_s)},
    {"T_door", "gas of the embers and the air together", "K", DOOR(mixed_k)},
    {"P_lift", "P_H + P_HV - P_R - P_RV - P_B with w_keep", "Pa", DOOR(lift_pa)},
    {"P_loss", "(m/(0.6 A))^2/(2 rho) of door and throat, 1.5 rho w2/2 from rest into the outlet, with w_keep", "Pa",
     DOOR(loss_pa)},
};
#define ROWS(table) (table), sizeof(table) / sizeof *(table)

typedef struct sheet {
    sw_run *run;
    sw_flue_step *steps;
    size_t count, room;
} sheet;

static sw_status add(sheet *s, const row *r, const void *of, const char *where)
{
    sw_flue_step *steps = sw_grow(s->run, s->run->keep, s->steps, s->count, &s->room, sizeof *steps);
    if (steps == NULL || where == NULL) return SW_NO_MEMORY;
    s->steps = steps;
    steps[s->count] = (sw_flue_step){r->symbol, r->formula, r->unit, r->source, where, 0};
    memcpy(&steps[s->count++].value, (const char *)of + r->offset, sizeof(double));
    return SW_OK;
}

static sw_status add_rows(sheet *s, const row *rows, size_t count, const void *of, const char *where)
{
    for (size_t i = 0; i < count; i++) SW_TRY(add(s, &rows[i], of, where));
    return SW_OK;
}

/* What a part is, before what happens in it. */
static sw_status add_shape(sheet *s, const sw_flue_part *part, const char *where)
{
    double d_m = sw_flue_hydraulic_m(part), area_m2 = sw_flue_area_m2(part), outer_m = sw_flue_outer_m(part);
    const double values[] = {part->length_m, part->rise_m,       area_m2,   4 * area_m2 / d_m, d_m,
                             outer_m,        part->roughness_mm, part->zeta};
    static const row rows[] = {{"L", "length along the flow", "m", "described", 0},
                               {"H", "height gained", "m", "described", 0},
                               {"A", "clear section", "m2", "geometry", 0},
                               {"U", "4 A/D_h", "m", "geometry", 0},
                               {"D_h", "4 A/U", "m", "geometry", 0},
                               {"D_ha", "outer, over all layers", "m", "described", 0},
                               {"r", "mean roughness of the inner wall", "mm", "EN 13384-1 table B.4 (from memory)", 0},
                               {"zeta", "bends and tee", "", "ASHRAE, chimney chapter (from memory), or described", 0}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) SW_TRY(add(s, &rows[i], &values[i], where));
    return SW_OK;
}

static sw_status add_door(sheet *s, const sw_flue_open_door *door)
{
    for (size_t i = 0; !isnan(door->lift_pa) && i < sizeof door_rows / sizeof *door_rows; i++) {
        const open_row *o = &door_rows[i];
        const row as = {o->symbol, o->formula, o->unit, "physics; w_keep: ASHRAE, chimney chapter (from memory)",
                        o->offset};
        SW_TRY(add(s, &as, door, "fire door wide open on embers, mild day"));
    }
    return SW_OK;
}

static sw_status add_case(sheet *s, const sw_flue_case *c, const char *title)
{
    SW_TRY(add_rows(s, ROWS(air_rows), c, title));
    for (size_t i = 0; i < c->line_count; i++) {
        const char *where = sw_text_format(s->run, s->run->keep, "%s: %s", title, c->lines[i].part->name);
        if (where == NULL) return SW_NO_MEMORY;
        SW_TRY(add_shape(s, c->lines[i].part, where));
        SW_TRY(add_rows(s, ROWS(line_rows), &c->lines[i], where));
    }
    if (c->air_kg_s > 0) SW_TRY(add_rows(s, ROWS(disc_rows), c, title));
    SW_TRY(add_rows(s, ROWS(sum_rows), c, title));
    return add_rows(s, ROWS(wet_rows), c, title);
}

sw_status sw_flue_explain(sw_run *run, const sw_flue_result *r, const sw_flue_step **steps, size_t *count)
{
    sheet s = {.run = run};
    *steps = NULL;
    *count = 0;
    SW_TRY(add_rows(&s, ROWS(gas_rows), &r->gas, "gas"));
    if (r->solved) {
        SW_TRY(add_case(&s, &r->pressure, "pressure condition, nominal output"));
        SW_TRY(add_case(&s, &r->temperature, "temperature condition, nominal output"));
        SW_TRY(add_case(&s, &r->over, "coldest day, nominal output"));
        SW_TRY(add_case(&s, &r->pressure_low, "pressure condition, lowest output"));
        SW_TRY(add_case(&s, &r->temperature_low, "temperature condition, lowest output"));
        SW_TRY(add_door(&s, &r->door));
    }
    *steps = s.steps;
    *count = s.count;
    return SW_OK;
}
