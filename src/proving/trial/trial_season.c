/* trial_season.c: seasonal efficiency by Regulation (EU) 2015/1185 annex III, index and class by 2015/1186 annex II. */
#include "proving/trial/trial_parts.h"

#include <math.h>

/* F(2), % : 2015/1185 annex III point 5 (seen). */
static const struct {
    const char *name;
    double f2;
} controls[] = {
    {"single stage, no room temperature control", 0},
    {"two or more manual stages, no room temperature control", 1},
    {"mechanic thermostat room temperature control", 2},
    {"electronic room temperature control", 4},
    {"electronic room temperature control plus day timer", 6},
    {"electronic room temperature control plus week timer", 7},
};

const char *sw_trial_control_name(sw_trial_control control)
{
    return (size_t)control < SW_CONTROLS ? controls[control].name : "?";
}

/* 2015/1186 annex II table 1 (seen): lower bound included. The index is rounded to 1e-9 first, because 1.45 x 0.80 is not
 * exact and an edge must stay an edge. */
const char *sw_trial_class(double index)
{
    static const struct {
        double least;
        const char *name;
    } classes[] = {{130, "A++"}, {107, "A+"}, {88, "A"}, {82, "B"}, {77, "C"}, {72, "D"}, {62, "E"}, {42, "F"}};
    static const double grain = 1e9;
    if (!isfinite(index)) return "?";
    double exact = round(index * grain) / grain;
    for (size_t i = 0; i < sizeof classes / sizeof *classes; i++)
        if (exact >= classes[i].least) return classes[i].name;
    return "G";
}

/* eta_S = eta - 10 % + F(2) + F(3) - F(4) - F(5);  EEI = 1.45 eta - 10 % + ... (biomass; form from memory, 1.45 seen)
 * F(4) = 2.5 (0.2 el_max + 0.8 el_min + 1.3 el_sb)/P;  F(5) = 0.5 P_pilot/P (forms from memory, units and 2.5 seen) */
sw_trial_season sw_trial_season_of(double efficiency, double output_w, const sw_trial_features *features)
{
    static const double blf = 1.45;
    const sw_trial_features *f = features;
    sw_trial_season s = {0};
    if (f->low_tested) {
        s.f2 = (size_t)f->control < SW_CONTROLS ? controls[f->control].f2 / 100 : (double)NAN;
        s.f3 = ((f->presence ? 1 : 0) + (f->window ? 1 : 0) + (f->distance ? 1 : 0)) / 100.0;
    }
    double used_w = 0.2 * f->el_most_w + 0.8 * f->el_least_w + 1.3 * f->el_standby_w;
    s.f4 = used_w > 0 ? 2.5 * used_w / output_w : 0;
    s.f5 = f->pilot_w > 0 ? 0.5 * f->pilot_w / output_w : 0;
    double corrections = s.f2 + s.f3 - s.f4 - s.f5;
    s.efficiency = efficiency - 0.10 + corrections;
    s.index = 100 * (blf * efficiency - 0.10 + corrections);
    s.class_ = sw_trial_class(s.index);
    return s;
}
