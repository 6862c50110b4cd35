/* reckon_convection.c: natural convection, gaps and channels, ducts and openings. Sources stand in each row. */
#include "reckon/reckon_parts.h"
#include "transfer/transfer.h"

#include <math.h>

#define CHURCHILL_CHU                                                                                                  \
    "Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975) 1323 and 1049 (the first found, the second from memory)"
#define MCADAMS   "McAdams, as in Incropera ch. 9 (from memory)"
#define VDI       "VDI Heat Atlas, F2 (found; f2 from memory)"
#define STILL_AIR "air at 1 atm, film temperature -73 to 1227 degC"

static double black_w_m2(double t_k)
{
    return SW_STEFAN_BOLTZMANN * t_k * t_k * t_k * t_k;
}

/* ---- streams ----------------------------------------------------------------------------------------------------- */

static void stream(const double *in, double *out)
{
    double m = in[0], wall_c = in[2], n = 0, mean_c = in[1];
    for (int round = 0; round < 20; round++) { /* c_p at the mean */
        n = in[4] * in[3] / (m * sw_air_at(sw_k_from_c(mean_c)).cp);
        mean_c = wall_c + (in[1] - wall_c) * sw_stream_mean(n);
    }
    out[0] = n;
    out[1] = wall_c + (in[1] - wall_c) * exp(-n);
    out[2] = mean_c;
    out[3] = in[4] * in[3] * (wall_c - mean_c);
}

static void passing_gas(const double *in, double *out)
{
    out[0] = sw_passing_share(in[0], in[1]);
    out[1] = out[0] / (1 - out[0]);
}

/* ---- free surfaces ----------------------------------------------------------------------------------------------- */

static void nu_upright(const double *in, double *out)
{
    out[0] = sw_nu_plate(in[0], in[1]);
    out[1] = sw_nu_plate_laminar(in[0], in[1]);
    out[2] = sw_nu_cylinder(in[0], in[1]);
}

static void nu_level(const double *in, double *out)
{
    out[0] = sw_nu_hot_up(in[0]);
    out[1] = sw_nu_hot_down(in[0]);
    out[2] = sw_nu_hot_up_vdi(in[0], in[1]);
    out[3] = sw_nu_hot_down_vdi(in[0], in[1]);
}

static void hot_wall(const double *in, double *out)
{
    double wall_k = sw_k_from_c(in[0]), room_k = sw_k_from_c(in[1]), over_k = wall_k - room_k;
    out[0] = sw_rayleigh(wall_k, room_k, sw_m_from_mm(in[2]));
    out[1] = sw_free_h(SW_FACING_SIDE, wall_k, room_k, sw_m_from_mm(in[2]));
    double radiant = in[3] * (black_w_m2(wall_k) - black_w_m2(room_k));
    out[2] = radiant / over_k;
    out[3] = out[1] * over_k + radiant;
    out[4] = out[1] * over_k / out[3];
}

static void hot_top(const double *in, double *out)
{
    double top_k = sw_k_from_c(in[0]), room_k = sw_k_from_c(in[1]);
    double a_m = sw_m_from_mm(in[2]), b_m = sw_m_from_mm(in[3]), length_m = 0.5 * a_m * b_m / (a_m + b_m);
    double k = sw_air_at(0.5 * (top_k + room_k)).conductivity, pr = sw_air_at(0.5 * (top_k + room_k)).pr;
    out[0] = sw_mm_from_m(length_m);
    out[1] = sw_rayleigh(top_k, room_k, length_m);
    out[2] = sw_free_h(SW_FACING_UP, top_k, room_k, length_m);
    out[3] = sw_free_h(SW_FACING_DOWN, top_k, room_k, length_m);
    out[4] = sw_nu_hot_up_vdi(out[1], pr) * k / length_m;
    out[5] = sw_nu_hot_down_vdi(out[1], pr) * k / length_m;
}

static void level_pipe(const double *in, double *out)
{
    double pipe_k = sw_k_from_c(in[0]), room_k = sw_k_from_c(in[1]), d_m = sw_m_from_mm(in[2]);
    sw_air air = sw_air_at(0.5 * (pipe_k + room_k));
    out[0] = sw_rayleigh(pipe_k, room_k, d_m);
    out[1] = sw_nu_cylinder(out[0], air.pr) * air.conductivity / d_m;
    out[2] = out[1] * SW_PI * d_m * (pipe_k - room_k);
}

static void tilted_wall(const double *in, double *out)
{
    double wall_k = sw_k_from_c(in[0]), room_k = sw_k_from_c(in[1]), height_m = sw_m_from_mm(in[2]);
    sw_air air = sw_air_at(0.5 * (wall_k + room_k));
    out[0] = sw_rayleigh(wall_k, room_k, height_m) * cos(sw_rad_from_deg(in[3]));
    out[1] = sw_nu_plate(out[0], air.pr) * air.conductivity / height_m;
    out[2] = out[1] * (wall_k - room_k);
}

static void upright_pipe(const double *in, double *out)
{
    double pipe_k = sw_k_from_c(in[0]), room_k = sw_k_from_c(in[1]), height_m = sw_m_from_mm(in[2]);
    sw_air air = sw_air_at(0.5 * (pipe_k + room_k));
    out[0] = sw_rayleigh(pipe_k, room_k, height_m);
    out[1] = 35 * in[2] / sqrt(sqrt(out[0] / air.pr));
    bool as_plate = in[3] >= out[1];
    out[2] = as_plate ? sw_nu_plate(out[0], air.pr) * air.conductivity / height_m : (double)NAN;
    out[3] = out[2] * SW_PI * sw_m_from_mm(in[3]) * (pipe_k - room_k);
}

/* ---- gaps and channels ------------------------------------------------------------------------------------------- */

static void closed_gap(const double *in, double *out)
{
    double hot_k = sw_k_from_c(in[0]), cold_k = sw_k_from_c(in[1]), gap_m = sw_m_from_mm(in[2]);
    sw_air air = sw_air_at(0.5 * (hot_k + cold_k));
    out[0] = sw_rayleigh(hot_k, cold_k, gap_m);
    out[1] = sw_nu_gap_vertical(out[0], in[3] / in[2]);
    out[2] = sw_nu_gap_macgregor(out[0], air.pr, in[3] / in[2]);
    out[3] = sw_nu_gap_horizontal(out[0]);
    out[4] = out[1] * air.conductivity / gap_m * (hot_k - cold_k);
    out[5] = sw_plates_exchange(hot_k, in[4], cold_k, in[4]);
}

static void nu_gap(const double *in, double *out)
{
    out[0] = sw_nu_gap_vertical(in[0], in[1]);
    out[1] = sw_nu_gap_macgregor(in[0], in[2], in[1]);
    out[2] = sw_nu_gap_horizontal(in[0]);
}

static void nu_channel(const double *in, double *out)
{
    out[0] = sw_nu_channel_elenbaas(in[0]);
    out[1] = sw_nu_channel_both(in[0]);
    out[2] = sw_nu_channel_one(in[0]);
    out[3] = sw_nu_channel_flux(in[0], true);
    out[4] = sw_nu_channel_flux(in[0], false);
}

static void open_channel(const double *in, double *out)
{
    double wall_k = sw_k_from_c(in[0]), room_k = sw_k_from_c(in[1]);
    double gap_m = sw_m_from_mm(in[2]), height_m = sw_m_from_mm(in[3]);
    double k = sw_air_at(0.5 * (wall_k + room_k)).conductivity;
    out[0] = sw_rayleigh(wall_k, room_k, gap_m) * gap_m / height_m;
    out[1] = sw_nu_channel_both(out[0]) * k / gap_m;
    out[2] = sw_nu_channel_one(out[0]) * k / gap_m;
    out[3] = sw_mm_from_m(sw_channel_best_gap_m(sw_rayleigh(wall_k, room_k, height_m), height_m));
}

/* Gap between a hot body and its shell, open to the room below and above over its full section. */
typedef struct gap {
    double body_k, room_k, height_m, width_m, gap_m, zeta_in, emissivity, shell_h; /* given */
    double shell_k, kg_s, mean_k, out_k, h;                                        /* found */
} gap;

/* Air warms towards the mean of the two walls; h from the flow. Nu on the hydraulic diameter: developing laminar flow between
 * plates to Re 2300, Gnielinski with Churchill's friction from 4000, linear between. */
static void warm(gap *g)
{
    double area_m2 = g->width_m * g->gap_m, d_m = 2 * area_m2 / (g->width_m + g->gap_m);
    double wall_k = 0.5 * (g->body_k + g->shell_k);
    g->mean_k = g->room_k;
    for (int round = 0; round < 40; round++) {
        sw_air air = sw_air_at(g->mean_k);
        double re = g->kg_s * d_m / (area_m2 * air.viscosity);
        double nu = sw_nu_plates_entrance(re * air.pr * d_m / g->height_m);
        double part = fmin(fmax((re - 2300) / (4000 - 2300), 0), 1), full = fmax(re, 4000);
        if (part > 0) nu = (1 - part) * nu + part * sw_nu_gnielinski(full, air.pr, sw_friction_churchill(full, 0));
        g->h = nu * air.conductivity / d_m;
        double ntu = g->h * 2 * g->width_m * g->height_m / (g->kg_s * air.cp);
        g->mean_k = wall_k + (wall_k - g->room_k) * expm1(-ntu) / ntu;
        g->out_k = wall_k - (wall_k - g->room_k) * exp(-ntu);
    }
}

/* Buoyancy less losses, Pa: falls as the flow grows. */
static double spare_pa(gap *g)
{
    double area_m2 = g->width_m * g->gap_m, d_m = 2 * area_m2 / (g->width_m + g->gap_m);
    warm(g);
    double rho_0 = sw_air_at(g->room_k).density, rho_out = sw_air_at(g->out_k).density;
    sw_air mean = sw_air_at(g->mean_k);
    double flux = g->kg_s / area_m2, f = sw_friction_churchill(flux * d_m / mean.viscosity, 0);
    double losses = 0.5 * flux * flux * (g->zeta_in / rho_0 + 1 / rho_out + f * g->height_m / d_m / mean.density);
    return SW_GRAVITY * g->height_m * (rho_0 - mean.density) - losses;
}

/* Heat into the shell less heat out of it, W/m2, with the flow that its temperature causes. */
static double shell_rest(gap *g)
{
    double low = 1e-7, high = 10;
    for (int round = 0; round < 50; round++) {
        g->kg_s = sqrt(low * high);
        if (spare_pa(g) > 0)
            low = g->kg_s;
        else
            high = g->kg_s;
    }
    return sw_plates_exchange(g->body_k, g->emissivity, g->shell_k, g->emissivity) - g->h * (g->shell_k - g->mean_k) -
           g->shell_h * (g->shell_k - g->room_k) - g->emissivity * (black_w_m2(g->shell_k) - black_w_m2(g->room_k));
}

static void shell_gap(const double *in, double *out)
{
    static const double room_c = 20;
    gap g = {.body_k = sw_k_from_c(in[0]),
             .room_k = sw_k_from_c(room_c),
             .height_m = sw_m_from_mm(in[1]),
             .width_m = sw_m_from_mm(in[2]),
             .gap_m = sw_m_from_mm(in[3]),
             .zeta_in = in[4],
             .emissivity = in[5],
             .shell_h = in[6]};
    double low_k = g.room_k, high_k = g.body_k, area_m2 = g.height_m * g.width_m;
    for (int round = 0; round < 50; round++) {
        g.shell_k = 0.5 * (low_k + high_k);
        if (shell_rest(&g) > 0)
            low_k = g.shell_k;
        else
            high_k = g.shell_k;
    }
    double residual = shell_rest(&g);
    out[0] = fabs(residual) < 1e-3 ? sw_c_from_k(g.shell_k) : (double)NAN;
    out[1] = g.kg_s;
    out[2] = sw_c_from_k(g.out_k);
    out[3] = area_m2 * g.h * (g.body_k + g.shell_k - 2 * g.mean_k);
    out[4] = area_m2 * sw_plates_exchange(g.body_k, g.emissivity, g.shell_k, g.emissivity);
    out[5] = out[4] + area_m2 * g.h * (g.body_k - g.mean_k);
}

/* ---- ducts and openings ------------------------------------------------------------------------------------------ */

static void friction(const double *in, double *out)
{
    out[0] = sw_friction_churchill(in[0], in[1] / in[2]);
    out[1] = sw_friction_colebrook(in[0], in[1] / in[2]);
    out[2] = sw_friction_petukhov(in[0]);
    out[3] = sw_friction_laminar(in[0]);
}

static void duct_heat(const double *in, double *out)
{
    out[0] = sw_nu_duct(in[0], in[1], in[2], in[3]);
    out[1] = sw_nu_gnielinski(in[0], in[1], sw_friction_petukhov(in[0]));
    out[2] = sw_nu_dittus_boelter(in[0], in[1]);
    out[3] = sw_nu_plates_entrance(in[0] * in[1] * in[3]);
}

static void duct_loss(const double *in, double *out)
{
    sw_air air = sw_air_at(sw_k_from_c(in[1]));
    double d_m = sw_m_from_mm(in[3]), flux = in[0] / sw_m2_from_mm2(in[2]);
    out[0] = flux / air.density;
    out[1] = flux * d_m / air.viscosity;
    out[2] = sw_friction_churchill(out[1], in[5] / in[3]);
    out[3] = (in[6] + out[2] * sw_m_from_mm(in[4]) / d_m) * 0.5 * air.density * out[0] * out[0];
}

static void orifice(const double *in, double *out)
{
    double rho = sw_air_at(sw_k_from_c(in[2])).density, area_m2 = sw_m2_from_mm2(in[1]);
    out[0] = sw_orifice_kg_s(in[0], area_m2, rho, in[3]);
    out[1] = sqrt(2 * in[3] / rho);
    out[2] = sw_orifice_zeta(in[0]);
    out[3] = rho;
}

/* clang-format off */
#define RA {"Ra", "", "Rayleigh number", NAN, -1e12, 1e13}
#define PR {"Pr", "", "Prandtl number", 0.7, 0.01, 1e4}

static const sw_reckon rows[] = {
    {"nu_upright", "Nusselt numbers of plates and pipes in still air", "plate {0.825 + 0.387 Ra^(1/6)/[1 + (0.492/Pr)^(9/16)]^(8/27)}2, laminar 0.68 + 0.670 Ra^(1/4)/[..]^(4/9); level pipe 0.60 and 0.559", "Ra to 1e12, laminar to 1e9", CHURCHILL_CHU,
     {RA, PR}, {{"plate", "", "vertical plate, on its height"}, {"laminar", "", "vertical plate, laminar"}, {"pipe", "", "horizontal cylinder, on its diameter"}}, nu_upright},
    {"nu_level", "Nusselt numbers of level plates in still air", "hot up max(0.54 Ra^(1/4), 0.15 Ra^(1/3)), hot down 0.27 Ra^(1/4); VDI 0.766 (Ra f2)^(1/5) or 0.15 (Ra f2)^(1/3), 0.6 (Ra f1)^(1/5)", "up to 1e11, down 1e5 to 1e10; the two schools differ by a third on the hot-up side", MCADAMS "; " VDI,
     {RA, PR}, {{"up", "", "hot side up"}, {"down", "", "hot side down"}, {"upv", "", "hot side up, VDI"}, {"downv", "", "hot side down, VDI"}}, nu_level},
    {"hot_wall", "heat from a vertical hot wall to the room", "h by Churchill & Chu, radiation e sigma (T4 - T04)", STILL_AIR, CHURCHILL_CHU,
     {{"T", "degC", "wall", NAN, -50, 1500}, {"T0", "degC", "room", 20, -50, 100}, {"H", "mm", "height", NAN, 1, 2e4}, {"e", "", "emissivity", 0.9, 0, 1}},
     {{"Ra", "", "Rayleigh number"}, {"h", "W/(m2 K)", "convection"}, {"hr", "W/(m2 K)", "radiation"}, {"q", "W/m2", "heat flux, both"}, {"share", "", "convection's share"}}, hot_wall},
    {"hot_top", "convection of a level plate", "L = a b/(2 (a + b)), h = Nu k/L", STILL_AIR "; held at the ends of the range of Ra", MCADAMS "; " VDI,
     {{"T", "degC", "plate", NAN, -50, 1500}, {"T0", "degC", "room", 20, -50, 100}, {"a", "mm", "length", NAN, 1, 2e4}, {"b", "mm", "width", NAN, 1, 2e4}},
     {{"L", "mm", "area by perimeter"}, {"Ra", "", "Rayleigh number on it"}, {"up", "W/(m2 K)", "hot side up"}, {"down", "W/(m2 K)", "hot side down"}, {"upv", "W/(m2 K)", "hot side up, VDI"}, {"downv", "W/(m2 K)", "hot side down, VDI"}}, hot_top},
    {"level_pipe", "convection of a horizontal pipe", "Nu = {0.60 + 0.387 Ra^(1/6)/[1 + (0.559/Pr)^(9/16)]^(8/27)}2", STILL_AIR, CHURCHILL_CHU,
     {{"T", "degC", "pipe", NAN, -50, 1500}, {"T0", "degC", "room", 20, -50, 100}, {"D", "mm", "diameter", NAN, 1, 5e3}}, {{"Ra", "", "Rayleigh number"}, {"h", "W/(m2 K)", "convection"}, {"q", "W/m", "heat a metre of pipe"}}, level_pipe},
    {"tilted_wall", "convection of a hot wall that leans, its lower side", "as hot_wall with g cos(tilt)", STILL_AIR "; tilt to 60 degrees", "Incropera ch. 9 (from memory); " CHURCHILL_CHU,
     {{"T", "degC", "wall", NAN, -50, 1500}, {"T0", "degC", "room", 20, -50, 100}, {"L", "mm", "length up the slope", NAN, 1, 2e4}, {"tilt", "deg", "from upright", NAN, 0, 60}},
     {{"Ra", "", "Rayleigh number with g cos(tilt)"}, {"h", "W/(m2 K)", "convection"}, {"q", "W/m2", "heat flux"}}, tilted_wall},
    {"upright_pipe", "convection of a vertical pipe", "as a plate of its height where D is at least 35 H/Gr^(1/4)", STILL_AIR, CHURCHILL_CHU,
     {{"T", "degC", "pipe", NAN, -50, 1500}, {"T0", "degC", "room", 20, -50, 100}, {"H", "mm", "height", NAN, 1, 2e4}, {"D", "mm", "diameter", NAN, 1, 5e3}},
     {{"Ra", "", "Rayleigh number on the height"}, {"least", "mm", "diameter from which it counts as a plate"}, {"h", "W/(m2 K)", "convection"}, {"q", "W/m", "heat a metre of pipe"}}, upright_pipe},
    {"nu_gap", "Nusselt numbers of closed gaps", "vertical max(0.0605 Ra^(1/3), {1 + [0.104 Ra^0.293/(1 + (6310/Ra)^1.36)]3}^(1/3), 0.242 (Ra s/H)^0.272); level 1 + 1.44 [1 - 1708/Ra]+ + [(Ra/5830)^(1/3) - 1]+; MacGregor 0.42 Ra^(1/4) Pr^0.012 (H/s)^-0.3",
     "vertical H/s 5 to 110, Ra to 2e7; MacGregor H/s 10 to 40, Ra 1e4 to 1e7; level Ra to 1e8, negative = heated above", "ElSherbiny, Raithby & Hollands, J. Heat Transfer 104 (1982) 96; Hollands et al. 1975; MacGregor & Emery 1969 (from memory)",
     {RA, {"HS", "", "height by gap", 20, 1, 1e3}, PR}, {{"upright", "", "vertical gap"}, {"macgregor", "", "vertical gap, MacGregor & Emery"}, {"level", "", "level layer heated below"}}, nu_gap},
    {"closed_gap", "heat across a closed air gap", "q = Nu k (T1 - T2)/s; radiation sigma (T14 - T24)/(2/e - 1)", "H/s 5 to 110, Ra to 2e7", "ElSherbiny, Raithby & Hollands, J. Heat Transfer 104 (1982) 96 (from memory)",
     {{"T1", "degC", "hot side", NAN, -50, 1500}, {"T2", "degC", "cold side", NAN, -50, 1500}, {"s", "mm", "gap", NAN, 0.1, 1e3}, {"H", "mm", "height", NAN, 1, 1e4}, {"e", "", "emissivity of both", 0.85, 0.01, 1}},
     {{"Ra", "", "Rayleigh number on the gap"}, {"Nu", "", "Nusselt number"}, {"macgregor", "", "the same by MacGregor & Emery"}, {"level", "", "if it lay level, heated below"}, {"q", "W/m2", "conduction and convection"}, {"qr", "W/m2", "radiation"}}, closed_gap},
    {"nu_channel", "Nusselt numbers of open vertical channels", "X/24 [1 - exp(-35/X)]^(3/4); [C1/X2 + 2.873/X^(1/2)]^(-1/2), C1 576, 144; even flux [C1/X + 2.51/X^(2/5)]^(-1/2), C1 48, 24", "X = Ra_S S/L, Elenbaas 0.1 to 1e5", "Elenbaas, Physica 9 (1942) 1; Bar-Cohen & Rohsenow, J. Heat Transfer 106 (1984) 116 (from memory)",
     {{"X", "", "channel number", NAN, 1e-6, 1e9}}, {{"elenbaas", "", "Elenbaas"}, {"both", "", "both walls hot"}, {"one", "", "one wall hot, one insulated"}, {"fboth", "", "even flux on both, at the top"}, {"fone", "", "even flux on one, at the top"}}, nu_channel},
    {"open_channel", "convection in an open vertical channel", "h = Nu k/S; best gap 2.714 L/Ra_L^(1/4)", STILL_AIR, "Bar-Cohen & Rohsenow, J. Heat Transfer 106 (1984) 116 (from memory)",
     {{"T", "degC", "walls", NAN, -50, 1500}, {"T0", "degC", "air below", 20, -50, 500}, {"S", "mm", "gap", NAN, 0.1, 1e3}, {"L", "mm", "height", NAN, 1, 1e4}},
     {{"X", "", "channel number"}, {"h", "W/(m2 K)", "both walls hot"}, {"h1", "W/(m2 K)", "one wall hot, one insulated"}, {"best", "mm", "gap that carries most heat"}}, open_channel},
    {"shell_gap", "convection gap between stove body and shell", "g H (rho0 - rho) = m2/2 [zeta/rho0 + 1/rho_out + f H/(D rho)]/A2; air warms towards the mean of the walls; shell: radiation in = convection + radiation out", "room 20 degC, gap open over its full section; inlet losses dominate",
     "first principles; Nu: Edwards et al. 1979 in Mills (from memory), Gnielinski from Re 4000",
     {{"T", "degC", "body", NAN, 30, 800}, {"H", "mm", "height", 900, 10, 1e4}, {"W", "mm", "width", 450, 10, 1e4}, {"s", "mm", "gap", 30, 2, 500}, {"zeta", "", "loss at the inlet", 1.5, 0, 100}, {"e", "", "emissivity of all faces", 0.9, 0.01, 1}, {"h", "W/(m2 K)", "convection outside the shell", 5, 0, 100}},
     {{"shell", "degC", "shell"}, {"m", "kg/s", "air"}, {"out", "degC", "air at the top"}, {"air", "W", "heat into the air"}, {"rad", "W", "radiation from body to shell"}, {"sum", "W", "heat from the body"}}, shell_gap},
    {"friction", "friction factor of a duct (Darcy)", "f = 8 [(8/Re)^12 + (A + B)^-1.5]^(1/12); 1/sqrt f = -2 log10(eps/(3.7 D) + 2.51/(Re sqrt f)); smooth (0.790 ln Re - 1.64)^-2; laminar 64/Re", "Colebrook Re from 4000, Petukhov 3e3 to 5e6",
     "Churchill 1977, Colebrook 1939, Petukhov 1970 (from memory, confirmed)", {{"Re", "", "Reynolds number", NAN, 1e-3, 1e9}, {"eps", "mm", "roughness", 0, 0, 100}, {"D", "mm", "hydraulic diameter", 100, 0.1, 1e5}},
     {{"f", "", "all regimes, Churchill"}, {"colebrook", "", "Colebrook"}, {"smooth", "", "Petukhov"}, {"laminar", "", "64/Re"}}, friction},
    {"duct_heat", "Nusselt numbers of flow in ducts", "3.66; from Re 4000 (f/8)(Re - 1000) Pr/[1 + 12.7 sqrt(f/8) (Pr^(2/3) - 1)] [1 + (D/L)^(2/3)]; linear between 2300 and 4000", "Re to 5e6, Pr 0.5 to 2000; +-30 % below Re 4000", "Gnielinski 1976 and Int. J. Heat Mass Transfer 63 (2013) 134; Incropera table 8.1 (from memory)",
     {{"Re", "", "Reynolds number", NAN, 0, 1e7}, PR, {"rough", "", "roughness by diameter", 0, 0, 0.1}, {"DL", "", "diameter by length", 0, 0, 10}},
     {{"Nu", "", "any flow, round"}, {"gnielinski", "", "long smooth duct"}, {"dittus", "", "Dittus & Boelter, from Re 1e4"}, {"plates", "", "developing laminar flow between plates"}}, duct_heat},
    {"stream", "air or gas that passes walls at one temperature", "T_out = T_w + (T_in - T_w) e^-N, mean T_w + (T_in - T_w)(1 - e^-N)/N, N = h A/(m c_p)", "c_p at the mean; steady", "Incropera ch. 8 (from memory)",
     {{"m", "kg/s", "flow", NAN, 1e-7, 100}, {"Tin", "degC", "enters", 20, -50, 1200}, {"Tw", "degC", "walls", NAN, -50, 1200}, {"A", "m2", "their area", NAN, 1e-6, 1e4}, {"h", "W/(m2 K)", "film", 6, 0, 1e4}},
     {{"N", "", "transfer units"}, {"out", "degC", "leaves"}, {"mean", "degC", "mean"}, {"Q", "W", "heat taken"}}, stream},
    {"passing_gas", "how far a furnace gas's mean stands over what leaves", "(T - T_out)/(T_in - T_out) = c [(1 - e^-N)/N - e^-N]/(1 - e^-N)", "c 0 stirred, 1 passing along; walls at one temperature", "limits: Hottel & Sarofim, Radiative Transfer, 1967 (from memory); between: ours",
     {{"N", "", "transfer units to the walls", NAN, 0, 100}, {"c", "", "share of the way that passes", 0.75, 0, 1}}, {{"share", "", "of how far it cools"}, {"r", "", "by the mean's distance from what enters"}}, passing_gas},
    {"duct_loss", "pressure lost in a duct", "dp = (zeta + f L/D) rho v2/2", "air at 1 atm; small pressures", "Idelchik, Handbook of Hydraulic Resistance: entry 0.5, exit 1, mitred bend 1.1 to 1.3, smooth bend 0.2 to 0.4; Churchill 1977 (from memory)",
     {{"m", "kg/s", "flow", NAN, 0, 100}, {"T", "degC", "air", 20, -50, 1200}, {"A", "mm2", "section", NAN, 1, 1e8}, {"D", "mm", "hydraulic diameter, 4 A by rim", NAN, 0.1, 1e5}, {"L", "mm", "length", 0, 0, 1e6}, {"eps", "mm", "roughness", 0.09, 0, 100}, {"zeta", "", "sum of single losses", 1.5, 0, 1e3}},
     {{"v", "m/s", "velocity"}, {"Re", "", "Reynolds number"}, {"f", "", "friction factor"}, {"dp", "Pa", "pressure lost"}}, duct_loss},
    {"orifice_flow", "air through a hole", "m = Cd A sqrt(2 rho dp)", "small pressures; air of the temperature in the hole", "Bernoulli; Cd: Idelchik, Handbook of Hydraulic Resistance (from memory)",
     {{"Cd", "", "discharge coefficient: sharp 0.62, short tube 0.80, rounded 0.97", 0.62, 0.01, 1}, {"A", "mm2", "free area", NAN, 0, 1e7}, {"T", "degC", "air in the hole", 20, -50, 1200}, {"dp", "Pa", "pressure", NAN, 0, 1e3}},
     {{"m", "kg/s", "flow"}, {"v", "m/s", "velocity of the jet"}, {"zeta", "", "loss coefficient"}, {"rho", "kg/m3", "density"}}, orifice},
};
/* clang-format on */

const sw_reckon *sw_reckon_convection(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
