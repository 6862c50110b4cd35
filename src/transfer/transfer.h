/* transfer.h: published formulas of heat transfer and duct flow, one function each; no state, no memory.
 *
 * SI, temperatures in K, lengths in m. Each formula stands beside its source in the .c file. Outside a formula's range the
 * answer is NAN, unless the comment says how it goes on. Shared by air, heat, flue and site. */
#ifndef SW_TRANSFER_TRANSFER_H
#define SW_TRANSFER_TRANSFER_H

#include "matter/matter.h"

#define SW_STEFAN_BOLTZMANN 5.670374e-8 /* W/(m2 K4), CODATA 2018 */

/* ---- convection.c: Nusselt numbers; properties at the film temperature ------------------------------------- */

typedef enum sw_facing { SW_FACING_SIDE, SW_FACING_UP, SW_FACING_DOWN } sw_facing;

/* g beta dT L3 / (nu alpha) of air at 1 atm between a surface and the room, beta = 1/T_film; dT taken positive. */
double sw_rayleigh(double surface_k, double fluid_k, double length_m);
double sw_nu_plate(double ra, double pr);         /* vertical plate, all Ra up to 1e12: Churchill & Chu 1975 */
double sw_nu_plate_laminar(double ra, double pr); /* Ra up to 1e9 */
double sw_nu_cylinder(double ra, double pr);      /* horizontal, on D, up to 1e12 */
double sw_nu_hot_up(double ra);   /* McAdams, L = A/P, 1e4..1e11; below 1e4 the conduction end is kept >= 1 */
double sw_nu_hot_down(double ra); /* 0.27 Ra^1/4, 1e5..1e10 */
double sw_nu_hot_up_vdi(double ra, double pr);
double sw_nu_hot_down_vdi(double ra, double pr);
/* Natural convection of a surface to still air, W/(m2 K): plate, hot up or hot down (a cold surface the other way
 * round), air properties at the film temperature. 0 when both are equally warm. Clamps Ra into the formula's range. */
double sw_free_h(sw_facing facing, double surface_k, double air_k, double length_m);
/* The same in two steps, for who asks often and keeps the first: all of it that only the film temperature decides. */
typedef struct sw_film_air {
    double rayleigh; /* of 1 K over 1 m, 1/(K m3) */
    double plate;    /* factor of Ra^(1/6) in sw_nu_plate */
    double conductivity;
} sw_film_air;
sw_film_air sw_film_air_at(double film_k); /* 200..1500 K, NAN outside */
double sw_free_h_in(const sw_film_air *air, sw_facing facing, double over_k, double length_m); /* over: surface - air */

double sw_nu_gap_vertical(double ra, double height_by_gap); /* closed; ElSherbiny, Raithby & Hollands 1982 */
double sw_nu_gap_horizontal(double ra);                     /* closed, heated below; Hollands */
double sw_nu_gap_macgregor(double ra, double pr, double height_by_gap);
double sw_nu_channel_elenbaas(double x);                    /* open vertical channel, X = Ra_S S/L */
double sw_nu_channel_both(double x);                        /* Bar-Cohen & Rohsenow: isothermal both walls */
double sw_nu_channel_one(double x);                         /* one isothermal, one adiabatic */
double sw_nu_channel_flux(double x_flux, bool both);        /* constant flux, local at the top */
double sw_channel_best_gap_m(double ra_l, double length_m); /* 2.714 L / Ra_L^1/4 */

/* ---- ducts.c: flow in ducts and through openings -------------------------------------------------------------- */

double sw_friction_laminar(double re);                          /* 64/Re */
double sw_friction_churchill(double re, double roughness);      /* Darcy; roughness = eps/D; all Re > 0 */
double sw_friction_colebrook(double re, double roughness);      /* Re > 4000, solved to 1e-12 */
double sw_friction_petukhov(double re);                         /* smooth, 3e3..5e6 */
double sw_nu_gnielinski(double re, double pr, double friction); /* 3000..5e6 */
/* Circular or, with the hydraulic diameter, any duct: laminar 3.66, Gnielinski above 4000, linear between 2300 and 4000,
 * entrance factor 1 + (D/L)^2/3 on the turbulent part. */
double sw_nu_duct(double re, double pr, double roughness, double d_by_l);
/* A stream past walls at one temperature T_w, n = h A/(m c_p): its mean's (T - T_w)/(T_in - T_w) = (1 - e^-n)/n; 1 at 0.
 * Incropera ch. 8 (from memory). */
double sw_stream_mean(double n);
/* Gas of a furnace between stirred (passing 0: leaves at its mean) and passing along (1: a stream as above):
 *   (T - T_out)/(T_in - T_out) = passing [(1 - e^-n)/n - e^-n]/(1 - e^-n)
 * from passing/2 (n = 0) to 0. Both limits: Hottel & Sarofim, Radiative Transfer, 1967 (from memory); between: ours. */
double sw_passing_share(double n, double passing);
double sw_nu_plates_entrance(double gz); /* parallel plates, Edwards et al. 1979 */
double sw_nu_dittus_boelter(double re, double pr);
double sw_orifice_kg_s(double cd, double area_m2, double density, double pressure_pa); /* sign follows the pressure */
double sw_orifice_zeta(double cd);                                                     /* 1/cd^2 */

/* ---- conduction.c --------------------------------------------------------------------------------------------- */

double sw_fin_m(double h, double perimeter_m, double k, double area_m2); /* 1/m */
double sw_fin_efficiency(double ml);                                     /* adiabatic tip: tanh(mL)/(mL) */
double sw_fin_infinite_w(double h, double perimeter_m, double k, double area_m2, double over_k);
double sw_lumped_s(double mass_kg, double heat_capacity, double h, double area_m2); /* time constant */
/* Slab of half-thickness L, theta = (T - T_inf)/(T_0 - T_inf) at x/L (0 = middle or insulated back) and time Fo:
 * the whole series. */
double sw_slab_theta(double bi, double fo, double x_by_l);
double sw_slab_root(double bi);                                              /* first root of z tan z = Bi */
double sw_semi_infinite_step(double x_m, double diffusivity, double time_s); /* erfc(x/(2 sqrt(at))) */
double sw_semi_infinite_flux_k(double q, double k, double diffusivity, double x_m, double time_s); /* rise, K */
double sw_contact_k(double effusivity_1, double t1_k, double effusivity_2, double t2_k);
double sw_plate_edge_series(double x, double y);            /* unit square, top edge 1: Laplace */
double sw_plate_flux_series(double x, double y, double m2); /* unit square, -lap u + m2 u = 1, edges 0 */

/* ---- view_factors.c: closed forms; each between 0 and 1 ------------------------------------------------------------- */

double sw_view_parallel(double a_m, double b_m, double apart_m);             /* equal aligned rectangles */
double sw_view_corner(double common_m, double emitter_m, double receiver_m); /* perpendicular, common edge */
double sw_view_discs(double r1_m, double r2_m, double apart_m);              /* coaxial */
double sw_view_strips(double width_m, double apart_m);                       /* long equal strips */
double sw_view_point_parallel(double a_m, double b_m, double apart_m);       /* element opposite one corner */
double sw_view_point_upright(double a_m, double b_m, double apart_m); /* element perpendicular to the rectangle */

/* ---- radiation.c ----------------------------------------------------------------------------------------------------- */

double sw_black_fraction(double lambda_t_um_k); /* share of black-body emission below lambda T, um K */
double sw_plates_exchange(double t1_k, double e1, double t2_k, double e2); /* W/m2 between parallel plates */
double sw_shielded_exchange(double t1_k, double e1, double t2_k, double e2, size_t shields, double shield_e);

/* Radiosities of n grey diffuse surfaces. F [n*n] row i: what leaves i and meets j; area_m2, emissivity [n]; known_t[i]
 * tells whether t_k[i] is given or the net flux q[i] W/m2 (0 = re-radiating); the other of the two is filled in. A grey
 * gas with emissivity e_gas at gas_k fills the enclosure (0 = none). SW_OUT_OF_RANGE: a row of F far from summing to 1, an
 * emissivity outside (0, 1]; SW_NO_SOLUTION: singular. Scratch memory of `run`. */
typedef struct sw_enclosure {
    size_t n;
    const double *F, *area_m2, *emissivity;
    const bool *known_t;
    double *t_k, *q, *J;
    double e_gas, gas_k;
} sw_enclosure;
sw_status sw_enclosure_solve(sw_run *run, const sw_enclosure *e);

/* ---- gas_radiation.c --------------------------------------------------------------------------------------------------- */

/* Total emissivity of H2O and CO2 at partial pressures (bar), total 1.01325 bar unless given, path in m: Leckner 1972. T from
 * 400 to 3000 K; pressures x path below the range count as 0, NAN above it. */
typedef struct sw_gas_path {
    double p_h2o_bar, p_co2_bar, p_bar, length_m;
} sw_gas_path;
double sw_leckner_h2o(sw_gas_path path, double gas_k);
double sw_leckner_co2(sw_gas_path path, double gas_k);
double sw_leckner_overlap(sw_gas_path path);
double sw_leckner(sw_gas_path path, double gas_k); /* both, less the overlap */
double sw_leckner_absorptivity(sw_gas_path path, double gas_k, double wall_k);
typedef enum sw_wsgg_set {
    SW_WSGG_CO2,
    SW_WSGG_EQUAL,
    SW_WSGG_DOUBLE,
    SW_WSGG_H2O,
    SW_WSGG_STEAM,
    SW_WSGG_SETS
} sw_wsgg_set;
double sw_wsgg(sw_wsgg_set set, double pressure_path_atm_m,
               double gas_k);                            /* Smith, Shen & Friedman 1982, 600..2400 K */
double sw_soot_k_1_m(double volume_share, double gas_k); /* Planck mean */
double sw_soot_emissivity(double k_1_m, double length_m);
double sw_emissivity_both(double gas, double soot);                                          /* e1 + e2 - e1 e2 */
double sw_mean_beam_m(double volume_m3, double area_m2);                                     /* 3.6 V/A */
double sw_furnace_exchange_m2(double sink_m2, double sink_e, double total_m2, double gas_e); /* GS, speckled walls */

/* ---- pane.c: semi-transparent panes ------------------------------------------------------------------------------------------ */

typedef struct sw_slab_optics {
    double transmitted, reflected, absorbed;
} sw_slab_optics;
sw_slab_optics sw_pane_optics(double internal_transmittance, double surface_reflectance);
double sw_fresnel_normal(double n);

enum { SW_PANE_BANDS = 4 };
typedef struct sw_pane_band {
    double to_um, transmitted, reflected; /* from the band before (0) up to to_um, the last INFINITY */
} sw_pane_band;
typedef struct sw_pane {
    sw_pane_band bands[SW_PANE_BANDS];
    const char *source;
} sw_pane;
const sw_pane *sw_pane_clear(void);  /* 4 mm clear glass-ceramic */
const sw_pane *sw_pane_sooted(void); /* the same behind a film of soot */
double sw_pane_band_share(const sw_pane *pane, size_t band, double source_k);
double sw_pane_transmitted(const sw_pane *pane, double source_k); /* of a black source at that temperature */
double sw_pane_absorbed(const sw_pane *pane, double source_k);    /* = emissivity towards that spectrum */
/* Net heat into a thin pane, W/m2 (0 = balance): e_f sigma T_f^4 from the fire, room at room_k both for radiation and
 * outside convection. */
typedef struct sw_pane_state {
    double fire_k, fire_e, gas_k, h_in, h_out, room_k;
} sw_pane_state;
double sw_pane_balance(const sw_pane *pane, sw_pane_state s, double pane_k);
double sw_pane_k(const sw_pane *pane, sw_pane_state s); /* its root; NAN when it does not settle */

#endif
