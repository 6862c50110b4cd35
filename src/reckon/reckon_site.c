/* reckon_site.c: distances, shields, air of the room, hearth and floor by hand. Sources stand in each row. */
#include "reckon/reckon_parts.h"
#include "siting/flue/flue.h"
#include "siting/site/site.h"

#include <math.h>

static const double limit_k = 65, room_density = 1.2, wall_emissivity = 0.9;

static sw_hot_panel panel_of(const double *in) /* W, H, T, e */
{
    return (sw_hot_panel){"panel", sw_m_from_mm(in[0]), sw_m_from_mm(in[1]), sw_k_from_c(in[2]), in[3]};
}

static void wall_before_panel(const double *in, double *out)
{
    sw_hot_panel panel = panel_of(in);
    double d_m = sw_m_from_mm(in[4]), room_k = sw_k_from_c(in[5]);
    out[0] = sw_wall_view(&panel, d_m);
    out[1] = sw_c_from_k(sw_wall_k(&panel, d_m, room_k, wall_emissivity, in[6]));
    out[2] = sw_mm_from_m(sw_wall_distance_m(&panel, room_k, wall_emissivity, in[6], limit_k));
}

static void wall_behind_shield(const double *in, double *out)
{
    sw_hot_panel panel = panel_of(in);
    double d_m = sw_m_from_mm(in[4]), room_k = sw_k_from_c(in[5]), shield_k = 0;
    out[1] = sw_c_from_k(sw_wall_behind_shield_k(&panel, d_m, room_k, in[6], &shield_k));
    out[0] = sw_c_from_k(shield_k);
    out[2] = sw_mm_from_m(sw_shield_distance_m(&panel, room_k, in[6], limit_k));
}

static void wall_beside_pipe(const double *in, double *out)
{
    double d_m = sw_m_from_mm(in[0]), pipe_k = sw_k_from_c(in[1]), axis_m = sw_m_from_mm(in[3]),
           room_k = sw_k_from_c(in[4]);
    double wall_k = sw_wall_beside_pipe_k(d_m, pipe_k, in[2], axis_m, room_k);
    out[0] = isnan(wall_k) ? (double)NAN : d_m / 2 / axis_m;
    out[1] = sw_c_from_k(wall_k);
    out[2] = sw_mm_from_m(sw_pipe_distance_m(d_m, pipe_k, in[2], room_k, limit_k));
}

static void pipe_outside(const double *in, double *out)
{
    double inner_m = sw_m_from_mm(in[0]), outer_m = sw_m_from_mm(in[1]);
    out[0] = sw_c_from_k(sw_pipe_surface_k(inner_m, outer_m, in[2], sw_k_from_c(in[3]), sw_k_from_c(in[4])));
}

static void stack_contact(const double *in, double *out)
{
    out[0] = sw_c_from_k(sw_flue_wood_limit_k(sw_m_from_mm(in[0]), sw_m_from_mm(in[1]), in[2]));
}

static void vent_flow(const double *in, double *out)
{
    out[0] = sw_s_from_h(sw_opening_m3_s(sw_m2_from_mm2(in[0]), in[1], in[2]));
    out[1] = sqrt(2 * in[1] / in[2]);
}

static void vent_area(const double *in, double *out)
{
    out[0] = sw_mm2_from_m2(sw_room_vent_m2(sw_h_from_s(in[0]), 0, in[1]));
    out[1] = sqrt(2 * in[1] / room_density);
}

static void house_leakage(const double *in, double *out)
{
    double at_50_pa = sw_h_from_s(in[0] * in[1]);
    out[0] = sw_s_from_h(sw_leakage_m3_s(at_50_pa, in[2]));
    out[1] = sw_s_from_h(sw_leakage_m3_s(at_50_pa, 1));
}

static void room_depression(const double *in, double *out)
{
    double drawn_m3_s = sw_h_from_s(in[0] + in[4]), at_50_pa = sw_h_from_s(in[1] * in[2]), limit_pa = in[5];
    double depression_pa = sw_room_depression_pa(drawn_m3_s, at_50_pa, sw_m2_from_mm2(in[3]));
    out[0] = isfinite(depression_pa) ? depression_pa : (double)NAN;
    out[1] = sw_mm2_from_m2(sw_room_vent_m2(drawn_m3_s, at_50_pa, limit_pa));
}

static void room_air_rules(const double *in, double *out)
{
    double output_w = in[0] * 1e3;
    out[0] = sw_mm2_from_m2(sw_site_vent_m2("England", output_w, sw_h_from_s(in[1]), in[2] != 0).value);
    const sw_site_rule *volume = sw_site_rule_find("Germany", "room_m3_kw"),
                       *most = sw_site_rule_find("Germany", "room_most_kw");
    out[1] = volume != NULL && most != NULL && in[0] <= most->value ? volume->value * in[0] : (double)NAN;
}

static void hearth_plate(const double *in, double *out)
{
    static const char *const codes[] = {"England", "Germany", "USA"};
    for (size_t i = 0; i < sizeof codes / sizeof *codes; i++)
        (void)sw_site_hearth_mm(codes[i], in[2] != 0, in[0], in[1], &out[2 * i]);
}

static void floor_load(const double *in, double *out)
{
    double area_m2 = sw_m2_from_mm2(in[2] * in[3]);
    out[0] = area_m2 * sw_m_from_mm(in[4]) * in[5];
    out[1] = sw_floor_pa(in[0] + out[0], area_m2) / 1e3;
    out[2] = in[0] * SW_GRAVITY / in[1];
}

static void floor_under(const double *in, double *out)
{
    const sw_hot_panel under = {"", sw_m_from_mm(in[0]), sw_m_from_mm(in[1]), sw_k_from_c(in[2]), 0.9};
    double plate_k = NAN, room_k = sw_k_from_c(in[4]);
    double floor_k =
        sw_floor_under_k(&under, sw_m_from_mm(in[3]), room_k, in[5], in[6] >= 1e9 ? (double)INFINITY : in[6], &plate_k);
    out[0] = sw_c_from_k(plate_k);
    out[1] = sw_c_from_k(floor_k);
}

static void room_supply(const double *in, double *out)
{
    const sw_house house = {.room_m3 = in[1],
                            .envelope_m2 = in[2],
                            .permeability_m_s = sw_h_from_s(in[3]),
                            .vent_m2 = sw_m2_from_mm2(in[4]),
                            .extract_m3_s = sw_h_from_s(in[5])};
    sw_site_supply s = sw_site_supply_of(&house, in[0] * 1e-3);
    out[0] = s.pa;
    out[1] = s.open_pa;
    out[2] = s.shut_pa;
    out[3] = s.leak_share;
}

static void outlet_height(const double *in, double *out)
{
    static const char *const codes[] = {"England", "USA", "Germany", "France"};
    sw_roof roof = {sw_rad_from_deg(in[0]), sw_m_from_mm(in[1]), 0, NAN, NAN, NAN, NAN, false};
    for (size_t i = 0; i < sizeof codes / sizeof *codes; i++)
        out[i] = sw_mm_from_m(sw_site_outlet_m(codes[i], &roof).value);
}

static void flue_rule(const double *in, double *out)
{
    out[0] = sw_site_flue_mm("England", in[0] * 1e3, false, true).value;
    out[1] = sw_site_flue_mm("England", in[0] * 1e3, true, true).value;
    out[2] = in[2] * in[3] / (SW_PI / 4 * in[1] * in[1]);
}

/* clang-format off */
#define BALANCE  "catalogue of configuration factors; textbook balance, 1.31 dT^(1/3) and F = r/s (from memory)"
#define WORST    "worst point; plume left out: add a fifth to distances (common practice)"
#define ENGLAND  "Approved Document J"
#define RULES    "rules as printed, none stands for another; see docs/studies/site.md for what was seen"
#define IN_WIDE  {"W", "mm", "panel, wide", NAN, 1, 1e4}
#define IN_HIGH  {"H", "mm", "panel, high", NAN, 1, 1e4}
#define IN_T     {"T", "degC", "panel", NAN, 0, 1500}
#define IN_E     {"e", "", "emissivity of the hot face", 0.9, 0.001, 1}
#define IN_ROOM  {"Tr", "degC", "room", 20, -30, 60}
#define OUT_FOR  {"d65", "mm", "distance that keeps the wall within 65 K of the room"}
#define IN_KW    {"P", "kW", "heat output", NAN, 0, 100}
#define IN_Q50   {"q50", "m3/h/m2", "air permeability of the house at 50 Pa", 5, 0, 100}
#define IN_SHELL {"A", "m2", "envelope of the house", NAN, 0, 1e5}

static const sw_reckon rows[] = {
    {"wall_before_panel", "how hot a wall gets before a hot panel", "a [F (e s T4 + (1 - e) s Tr4) + (1 - F) s Tr4] = a s Tw4 + 1.31 dT^(4/3) + dT/R, a 0.9", WORST, BALANCE,
     {IN_WIDE, IN_HIGH, IN_T, IN_E, {"d", "mm", "distance", NAN, 0, 1e5}, IN_ROOM, {"R", "m2K/W", "resistance behind the surface; 1e9 = insulated", 1e9, 1e-3, 1e9}},
     {{"F", "", "share of panel in what it sees"}, {"Tw", "degC", "wall"}, OUT_FOR}, wall_before_panel},
    {"wall_behind_shield", "how hot an insulated wall gets behind a ventilated shield", "shield and wall lose 5 W/(m2 K) to the room on each face; exchange 1/(1/eb + 1/0.9 - 1) between them", WORST "; thin shield, air on both sides", "derived: balance of shield and wall",
     {IN_WIDE, IN_HIGH, IN_T, IN_E, {"d", "mm", "panel to shield", NAN, 0, 1e5}, IN_ROOM, {"eb", "", "emissivity of the shield's back", 0.9, 0.001, 1}},
     {{"Ts", "degC", "shield"}, {"Tw", "degC", "wall"}, {"d65", "mm", "panel to shield that keeps the wall within 65 K"}}, wall_behind_shield},
    {"wall_beside_pipe", "how hot an insulated wall gets beside a long hot pipe", "F = r/s; balance as wall_before_panel", "long pipe; " WORST, BALANCE,
     {{"D", "mm", "outside of the pipe", NAN, 10, 1000}, {"T", "degC", "its surface", NAN, 0, 1500}, IN_E, {"s", "mm", "axis to wall", NAN, 1, 1e5}, IN_ROOM},
     {{"F", "", "share of pipe in what it sees"}, {"Tw", "degC", "wall"}, {"d65", "mm", "surface to wall that keeps it within 65 K"}}, wall_beside_pipe},
    {"pipe_outside", "how hot the outside of a connecting pipe gets", "bare: 0.9 sigma (T4 - Tr4) + 1.31 dT^(4/3) = 6.8 (Tg - Tr), which gives the film inside; then steady through it and R", "still room, painted pipe", "ASHRAE Handbook, chimney chapter (from memory): 6.8 W/(m2 K)",
     {{"D", "mm", "inside", NAN, 10, 1000}, {"Da", "mm", "outside", NAN, 10, 2000}, {"R", "m2K/W", "resistance of its wall at its inner face", 0, 0, 100}, {"T", "degC", "gas", NAN, 0, 1500}, IN_ROOM}, {{"To", "degC", "outside"}}, pipe_outside},
    {"stack_contact", "gas temperature at which timber against a stack reaches 85 degC", "t = tu + (85 - tu) Da 8/D [1/15 + R + D/(8 Da)], tu 20", "steady", "EN 15287-1+A1 as applied in an article of 2016 (figures seen)",
     {{"D", "mm", "hydraulic diameter inside", NAN, 10, 2000}, {"Da", "mm", "outside", NAN, 10, 5000}, {"R", "m2K/W", "resistance of the wall at its inner face", NAN, 0, 100}}, {{"t", "degC", "gas"}}, stack_contact},
    {"vent_flow", "air through an opening of the house", "V = 0.6 A sqrt(2 dp/rho)", "sharp opening", "Bernoulli; Cd textbook (from memory)",
     {{"A", "mm2", "equivalent area", NAN, 0, 1e7}, {"dp", "Pa", "room below outside", 4, 0, 1000}, {"rho", "kg/m3", "air", 1.2, 0.1, 10}}, {{"V", "m3/h", "air"}, {"v", "m/s", "velocity of the jet"}}, vent_flow},
    {"vent_area", "opening of the house for so much air", "A = V/(0.6 sqrt(2 dp/rho)), rho 1.2", "sharp opening; leaks left out", "Bernoulli; Cd textbook (from memory)",
     {{"V", "m3/h", "air", NAN, 0, 1e5}, {"dp", "Pa", "room below outside", 4, 1e-3, 1000}}, {{"A", "mm2", "equivalent area"}, {"v", "m/s", "velocity of the jet"}}, vent_area},
    {"house_leakage", "air that leaks into a house", "V = C dp^0.65, C from the flow at 50 Pa", "usual exponent", "textbook (from memory)",
     {IN_SHELL, IN_Q50, {"dp", "Pa", "house below outside", 4, 0, 1000}}, {{"V", "m3/h", "air"}, {"C", "m3/h/Pa^0.65", "at 1 Pa"}}, house_leakage},
    {"room_depression", "how far fans and stove bring the room below outside", "V = C dp^0.65 + 0.6 A sqrt(2 dp/1.2)", "all leaks of the house serve the room; limit 4 Pa: EN 13384-1 (from memory)", "textbook (from memory)",
     {{"V", "m3/h", "all fans at full", NAN, 0, 1e5}, IN_SHELL, IN_Q50, {"vent", "mm2", "permanent opening", 0, 0, 1e7}, {"stove", "m3/h", "air of the stove", 0, 0, 1e4}, {"limit", "Pa", "allowed", 4, 0.1, 100}},
     {{"dp", "Pa", "room below outside"}, {"need", "mm2", "opening that keeps the limit"}}, room_depression},
    {"room_air_rules", "room air by rule", "England: 550 or 850 mm2/kW by tightness and stabiliser; Germany: 4 m3 of room a kW", RULES, ENGLAND " table 1 (reprint seen, last line from memory); model firing ordinance 3 (summaries seen)",
     {IN_KW, IN_Q50, {"stabiliser", "", "1 = with a draught stabiliser", 0, 0, 1}}, {{"England", "mm2", "permanent opening"}, {"Germany", "m3", "room with an outside window or door"}}, room_air_rules},
    {"hearth_plate", "least hearth plate under a free-standing stove, by rule", "England 150 round and 225 before (300 usable open); Germany 300 beside, 500 before; USA 305 and 457", RULES, ENGLAND " section 2 (seen); Brandenburg ordinance 4(8) (seen); an article that quotes NFPA 211 (seen)",
     {{"w", "mm", "stove, wide", NAN, 1, 1e4}, {"d", "mm", "stove, deep", NAN, 1, 1e4}, {"open", "", "1 = usable open", 0, 0, 1}},
     {{"w_en", "mm", "England, wide"}, {"d_en", "mm", "England, deep"}, {"w_de", "mm", "Germany, wide"}, {"d_de", "mm", "Germany, deep to the stove's back"}, {"w_us", "mm", "USA, wide"}, {"d_us", "mm", "USA, deep to the stove's back"}}, hearth_plate},
    {"floor_load", "load of stove and hearth on the floor", "p = (m + w d s rho) g/(w d); leg m g/n", "compare with 1.5 to 2.0 kN/m2 and 2.0 to 3.0 kN", "EN 1991-1-1 category A (from memory)",
     {{"m", "kg", "stove and what it carries", NAN, 0, 1e4}, {"n", "", "legs", 4, 1, 100}, {"w", "mm", "hearth, wide", NAN, 1, 1e4}, {"d", "mm", "hearth, deep", NAN, 1, 1e4}, {"s", "mm", "hearth, thick", 0, 0, 1000}, {"rho", "kg/m3", "hearth", 2800, 0, 2e4}},
     {{"mh", "kg", "hearth"}, {"p", "kN/m2", "on the floor"}, {"leg", "N", "each leg"}}, floor_load},
    {"floor_under", "how hot the floor under a stove gets", "a [F e s T4 + (1 - F e) s Tr4] = a s Tp4 + (Tp - Tr)/(Rp + Rf); Tf = Tp - (Tp - Tr) Rp/(Rp + Rf), a 0.9", "under the middle; no convection, no spreading to the sides: the warmer side", "catalogue of configuration factors; textbook balance",
     {IN_WIDE, {"D", "mm", "underside, deep", NAN, 1, 1e4}, IN_T, {"g", "mm", "underside to hearth plate", NAN, 0, 3000}, IN_ROOM, {"Rp", "m2K/W", "hearth plate, thickness by conductivity", 0, 0, 100}, {"Rf", "m2K/W", "floor below it; 1e9 = insulated", 1e9, 1e-3, 1e9}},
     {{"Tp", "degC", "top of the plate"}, {"Tf", "degC", "floor below it"}}, floor_under},
    {"room_supply", "what the fire's air costs on its way into the room", "PB = 1.2 max(room below outside, inner doors open or shut); shut: leaks of half the room's walls and its floor", "share of the leaks: ours, room 2.4 m high", "EN 13384-1 (from memory), SEB 1.2 doubtful; flows textbook (from memory)",
     {{"m", "g/s", "air of the fire", NAN, 0, 1000}, {"V", "m3", "room", NAN, 1, 1e4}, IN_SHELL, IN_Q50, {"vent", "mm2", "permanent opening", 0, 0, 1e7}, {"fans", "m3/h", "all at full", 0, 0, 1e5}},
     {{"PB", "Pa", "pressure of the supply"}, {"open", "Pa", "room below outside, doors open, fans on"}, {"shut", "Pa", "doors shut"}, {"share", "", "of the house's leaks"}}, room_supply},
    {"outlet_height", "least height of the outlet above where the flue leaves the roof, by rule", "ridge, horizontal distance and things near, each code its own way", RULES "; windows and other buildings left out", ENGLAND " diagram 17; IRC R1003.9; 1. BImSchV 19 (2010); French order of 22 October 1969",
     {{"pitch", "deg", "of the roof", NAN, 0, 80}, {"r", "mm", "plan distance to the ridge", NAN, 0, 1e5}}, {{"England", "mm", "Approved Document J, strict reading"}, {"USA", "mm", "residential code"}, {"Germany", "mm", "text of 2010"}, {"France", "mm", "order of 1969"}}, outlet_height},
    {"flue_rule", "least flue by output, and a shaft against the collar", "table by output; share = w d/(pi D2/4)", RULES "; exempt to 20 kW, else to 50 kW; NFPA 211 asks a share of 1 to 3 (from memory)", ENGLAND " table 2 (reprint seen)",
     {IN_KW, {"D", "mm", "collar", 150, 10, 1000}, {"w", "mm", "shaft, wide", 300, 10, 5000}, {"d", "mm", "shaft, deep", 300, 10, 5000}}, {{"d", "mm", "England, round"}, {"d_exempt", "mm", "England, stove proved clean enough for smoke control areas"}, {"share", "", "shaft by collar"}}, flue_rule},
};
/* clang-format on */

const sw_reckon *sw_reckon_site(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
