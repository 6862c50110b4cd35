/* pane.c: panes that let part of the radiation through: one slab, bands of wavelength, and the pane's own balance.
 *
 * Siegel & Howell, Thermal Radiation Heat Transfer; Duffie & Beckman, Solar Engineering (from memory; first principles). */
#include "transfer/transfer.h"

#include <math.h>

/* All reflections between the faces: T = ti (1 - r)2/(1 - r2 ti2), R = r (1 + ti T), A = (1 - r)(1 - ti)/(1 - r ti). */
sw_slab_optics sw_pane_optics(double internal_transmittance, double surface_reflectance)
{
    double ti = internal_transmittance, r = surface_reflectance;
    if (!(ti >= 0.0 && ti <= 1.0) || !(r >= 0.0 && r < 1.0)) return (sw_slab_optics){NAN, NAN, NAN};
    double through = ti * (1.0 - r) * (1.0 - r) / (1.0 - r * r * ti * ti);
    return (sw_slab_optics){through, r * (1.0 + ti * through), (1.0 - r) * (1.0 - ti) / (1.0 - r * ti)};
}

double sw_fresnel_normal(double n)
{
    if (!(n > 0.0)) return NAN;
    double r = (n - 1.0) / (n + 1.0);
    return r * r;
}

/* ---- bands --------------------------------------------------------------------------------------------------------- */

static const sw_pane clear_pane = {
    {{2.7, 0.80, 0.10}, {3.3, 0.05, 0.05}, {4.2, 0.40, 0.05}, {INFINITY, 0.0, 0.10}},
    "rounded from makers' transmission curves of 4 mm clear glass-ceramic (from memory)"};
static const sw_pane sooted_pane = {{{2.7, 0.0, 0.05}, {3.3, 0.0, 0.05}, {4.2, 0.0, 0.05}, {INFINITY, 0.0, 0.05}},
                                    "soot covered: emissivity 0.95 (Incropera A.11, from memory), nothing let through"};

const sw_pane *sw_pane_clear(void)
{
    return &clear_pane;
}

const sw_pane *sw_pane_sooted(void)
{
    return &sooted_pane;
}

static double emissivity(sw_pane_band band)
{
    return 1.0 - band.transmitted - band.reflected;
}

double sw_pane_band_share(const sw_pane *pane, size_t band, double source_k)
{
    if (band >= SW_PANE_BANDS || !(source_k > 0.0)) return NAN;
    double below = band == 0 ? 0.0 : sw_black_fraction(pane->bands[band - 1].to_um * source_k);
    return sw_black_fraction(pane->bands[band].to_um * source_k) - below;
}

typedef struct split {
    double transmitted, absorbed;
} split;

static split split_of(const sw_pane *pane, double source_k)
{
    split s = {0.0, 0.0};
    if (!(source_k > 0.0)) return (split){NAN, NAN};
    double below = 0.0;
    for (size_t i = 0; i < SW_PANE_BANDS; i++) {
        double up_to = sw_black_fraction(pane->bands[i].to_um * source_k);
        s.transmitted += pane->bands[i].transmitted * (up_to - below);
        s.absorbed += emissivity(pane->bands[i]) * (up_to - below);
        below = up_to;
    }
    return s;
}

double sw_pane_transmitted(const sw_pane *pane, double source_k)
{
    return split_of(pane, source_k).transmitted;
}

double sw_pane_absorbed(const sw_pane *pane, double source_k)
{
    return split_of(pane, source_k).absorbed;
}

/* ---- balance --------------------------------------------------------------------------------------------------------- */

static double emitted_w_m2(const sw_pane *pane, double t_k)
{
    return split_of(pane, t_k).absorbed * SW_STEFAN_BOLTZMANN * t_k * t_k * t_k * t_k;
}

static double incoming_w_m2(const sw_pane *pane, sw_pane_state s)
{
    return s.fire_e * emitted_w_m2(pane, s.fire_k) + emitted_w_m2(pane, s.room_k);
}

static double balance(const sw_pane *pane, sw_pane_state s, double incoming, double pane_k)
{
    return incoming - 2.0 * emitted_w_m2(pane, pane_k) + s.h_in * (s.gas_k - pane_k) - s.h_out * (pane_k - s.room_k);
}

/* sum over bands e_b [G_f f_b(T_f) + sigma T_r^4 f_b(T_r) - 2 sigma T_g^4 f_b(T_g)] + h_i (T_gas - T_g) - h_o (T_g - T_r) */
double sw_pane_balance(const sw_pane *pane, sw_pane_state s, double pane_k)
{
    return balance(pane, s, incoming_w_m2(pane, s), pane_k);
}

static bool is_possible(sw_pane_state s)
{
    return s.fire_k > 0.0 && s.gas_k > 0.0 && s.room_k > 0.0 && s.fire_e >= 0.0 && s.fire_e <= 1.0 && s.h_in >= 0.0 &&
           s.h_out >= 0.0 && isfinite(s.fire_k + s.gas_k + s.room_k + s.h_in + s.h_out);
}

/* The balance falls with the pane's temperature: false position, the end that stays halved (Illinois). */
double sw_pane_k(const sw_pane *pane, sw_pane_state s)
{
    if (!is_possible(s)) return NAN;
    double incoming = incoming_w_m2(pane, s);
    double low_k = 0.5 * fmin(s.gas_k, s.room_k), high_k = fmax(fmax(s.fire_k, s.gas_k), s.room_k) + 1.0;
    double low = balance(pane, s, incoming, low_k), high = balance(pane, s, incoming, high_k);
    if (!(low >= 0.0 && high <= 0.0)) return NAN;
    int side = 0;
    for (int round = 0; round < 100; round++) {
        double t_k = low_k + (high_k - low_k) * low / (low - high);
        double b = balance(pane, s, incoming, t_k);
        if (fabs(b) <= 1e-9 * (incoming + 1.0) || high_k - low_k < 1e-10 * high_k) return t_k;
        if (b > 0.0) {
            low_k = t_k, low = b;
            if (side == 1) high *= 0.5;
            side = 1;
        } else {
            high_k = t_k, high = b;
            if (side == -1) low *= 0.5;
            side = -1;
        }
    }
    return NAN;
}
