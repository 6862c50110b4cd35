#include "matter/matter.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

#define STEEL "handbook F8.1: EN 1993-1-2:2005, 3.4.1, computed"
#define TABLE "EN 1993-1-2:2005, table 3.1 (found)"
#define BURNS "handbook F9.1: ISO 13732-1:2006"

static double at_k(double t_c)
{
    return sw_k_from_c(t_c);
}

static void every_grade_has_its_material(sw_test *t)
{
    for (size_t i = 0; i < sw_grade_count(); i++) {
        const sw_grade *grade = sw_grade_at(i);
        const sw_material *m = sw_material_find(grade->name);
        if (!sw_true(t, m != NULL)) return;
        if (grade->density > 0) sw_near(t, m->density, grade->density, 0, "the same figure in both tables");
    }
}

static void every_material_is_found_and_plausible_over_its_whole_life(sw_test *t)
{
    for (size_t i = 0; i < sw_material_count(); i++) {
        const sw_material *m = sw_material_at(i);
        sw_true(t, sw_material_find(m->name) == m);
        sw_true(t, strlen(m->source) > 0 && strlen(m->service_source) > 0);
        sw_true(t, m->density > 0 && m->emissivity > 0 && m->emissivity < 1 && m->service_c > 0);
        for (double t_c = -30; t_c <= 1300; t_c += 10) {
            double k = sw_material_conductivity(m, at_k(t_c)), c = sw_material_capacity(m, at_k(t_c));
            if (!sw_true(t, k > 0.02 && k < 60 && c > 300 && c <= 5000)) return;
        }
    }
    sw_true(t, sw_material_at(sw_material_count()) == NULL);
}

static void an_unknown_material_is_null_and_never_a_guess(sw_test *t)
{
    sw_true(t, sw_material_find("S236") == NULL && sw_material_find("") == NULL && sw_material_find(NULL) == NULL);
}

static void carbon_steel_follows_the_eurocode(sw_test *t)
{
    static const double t_c[11] = {20, 100, 200, 300, 400, 500, 600, 700, 735, 800, 900};
    static const double c[11] = {439.8, 487.6, 529.8, 564.7, 605.9, 666.5, 760.2, 1008.2, 5000, 803.3, 650};
    static const double k[11] = {53.33, 50.67, 47.34, 44.01, 40.68, 37.35, 34.02, 30.69, 29.52, 27.3, 27.3};
    static const double l[11] = {0, 0.998, 2.318, 3.718, 5.198, 6.758, 8.398, 10.12, 10.74, 11.0, 11.8};
    const sw_material *m = sw_material_find("S235");
    for (int i = 0; i < 11; i++) {
        double c_tolerance = t_c[i] == 900 ? 0.5 : 0.06; /* the branch below 900 ends at 650.4 */
        sw_near(t, sw_material_capacity(m, at_k(t_c[i])), c[i], c_tolerance, STEEL);
        sw_near(t, sw_material_conductivity(m, at_k(t_c[i])), k[i], 6e-3, STEEL);
        sw_near(t, 1e3 * sw_material_expansion(m, at_k(t_c[i])), l[i], l[i] < 10 ? 6e-4 : 6e-3, STEEL);
    }
}

static double heat_kj(const sw_material *m, double from_c, double to_c)
{
    enum { STEPS = 20000 };
    double sum = 0, step = (to_c - from_c) / STEPS;
    for (int i = 0; i < STEPS; i++) sum += sw_material_capacity(m, at_k(from_c + (i + 0.5) * step)) * step;
    return sum / 1e3;
}

static void heating_steel_takes_the_heat_the_handbook_says(sw_test *t)
{
    const sw_material *m = sw_material_find("S235");
    sw_near(t, heat_kj(m, 20, 500), 264.7, 0.06, STEEL);
    sw_near(t, heat_kj(m, 20, 700), 419.1, 0.06, STEEL);
}

static void the_branches_of_steel_meet(sw_test *t)
{
    static const double joins_c[] = {600, 735, 900};
    const sw_material *m = sw_material_find("S235");
    for (int i = 0; i < 3; i++) {
        double below = sw_material_capacity(m, at_k(joins_c[i] - 1e-9));
        double above = sw_material_capacity(m, at_k(joins_c[i] + 1e-9));
        sw_near(t, above, below, 2e-3 * below, "EN 1993-1-2:2005: 17820 in the third branch, not 1820");
    }
    double at_750 = sw_material_expansion(m, at_k(750 - 1e-9));
    sw_near(t, 1e3 * at_750, 11.0, 0.01, "continuity of the elongation");
    sw_near(t, 1e3 * sw_material_expansion(m, at_k(860 + 1e-9)), 11.0, 1e-6, "continuity of the elongation");
}

static void stainless_steel_follows_annex_c(sw_test *t)
{
    const char *book = "handbook F8.2: EN 1993-1-2 annex C, computed";
    static const double t_c[3] = {20, 400, 800}, c[3] = {455.5, 524.0, 556.4}, k[3] = {14.85, 19.68, 24.76};
    const sw_material *m = sw_material_find("1.4301");
    for (int i = 0; i < 3; i++) {
        sw_near(t, sw_material_capacity(m, at_k(t_c[i])), c[i], 0.06, book);
        sw_near(t, sw_material_conductivity(m, at_k(t_c[i])), k[i], 6e-3, book);
    }
    sw_near(t, sw_material_expansion(m, at_k(600)), 1.069e-2, 6e-6, book);
}

static void linings_and_refractories_follow_their_tables(sw_test *t)
{
    const char *board = "handbook F8.3: makers' data, from memory, +-25 %", *atlas = "VDI Heat Atlas, D6 (found)";
    static const double t_c[4] = {200, 400, 600, 800}, k[4] = {0.14, 0.16, 0.18, 0.21};
    const sw_material *m = sw_material_find("vermiculite board"), *f = sw_material_find("fireclay");
    for (int i = 0; i < 4; i++) sw_near(t, sw_material_conductivity(m, at_k(t_c[i])), k[i], 0.0065, board);
    sw_near(t, sw_material_conductivity(m, at_k(500)), 0.175, 1e-9, "handbook F8.3: k = 0.12 + 1.1e-4 t");
    sw_near(t, sw_material_conductivity(f, at_k(800)), 1.15, 1e-12, atlas);
    sw_near(t, sw_material_conductivity(f, at_k(700)), 1.125, 1e-12, atlas);
    sw_near(t, sw_material_capacity(f, at_k(1000)), 1037, 1e-9, atlas);
    sw_near(t, sw_material_conductivity(sw_material_find("insulating brick"), at_k(600)), 0.16, 1e-12, atlas);
    sw_near(t, sw_material_conductivity(sw_material_find("calcium silicate board"), at_k(600)), 0.11, 1e-12, board);
    sw_near(t, sw_material_conductivity(sw_material_find("light vermiculite board"), at_k(400)), 0.12, 1e-12, board);
}

static void grey_iron_has_the_mean_heats_of_en_1561(sw_test *t)
{
    const sw_material *m = sw_material_find("EN-GJL-200");
    sw_near(t, heat_kj(m, 20, 200) * 1e3 / 180, 460, 0.1, "EN 1561 annex, 20 to 200 degC, from memory");
    sw_near(t, heat_kj(m, 20, 600) * 1e3 / 580, 535, 0.1, "EN 1561 annex, 20 to 600 degC, from memory");
    sw_near(t, sw_material_conductivity(m, at_k(100)), 49, 1.01, "EN 1561 annex, 48 to 50 at 100 degC, from memory");
}

static void beyond_its_published_range_a_property_is_held(sw_test *t)
{
    const sw_material *f = sw_material_find("fireclay"), *s = sw_material_find("S235");
    sw_near(t, sw_material_conductivity(f, at_k(20)), 1.05, 1e-12, "held at 400 degC");
    sw_near(t, sw_material_conductivity(f, at_k(1500)), 1.22, 1e-12, "held at 1200 degC");
    sw_near(t, sw_material_conductivity(s, at_k(-20)), 53.334, 1e-9, "held at 20 degC");
    sw_near(t, sw_material_capacity(s, at_k(1400)), 650, 0, "held at 1200 degC");
    sw_true(t, isnan(sw_material_conductivity(f, NAN)) && isnan(sw_material_capacity(s, NAN)));
}

static void glass_ceramic_does_not_grow_and_boards_do_not_say(sw_test *t)
{
    const sw_material *g = sw_material_find("glass-ceramic");
    sw_near(t, sw_material_expansion(g, at_k(700)), 0, 0.5e-6 * 680, "pane maker's page: (0 +- 0.5)e-6 (found)");
    sw_true(t, isnan(sw_material_expansion(sw_material_find("vermiculite board"), at_k(300))));
    double iron = sw_material_expansion(sw_material_find("EN-GJL-200"), at_k(400));
    sw_near(t, iron, 13.0e-6 * 380, 1e-12, "EN 1561 annex, from memory");
}

static void hot_steel_loses_strength_by_the_table(sw_test *t)
{
    static const double t_c[10] = {20, 100, 200, 300, 400, 500, 600, 700, 800, 900};
    static const double y[10] = {1, 1, 1, 1, 1, 0.78, 0.47, 0.23, 0.11, 0.06};
    static const double p[10] = {1, 1, 0.807, 0.613, 0.420, 0.360, 0.180, 0.075, 0.050, 0.0375};
    static const double e[10] = {1, 1, 0.90, 0.80, 0.70, 0.60, 0.31, 0.13, 0.09, 0.0675};
    for (int i = 0; i < 10; i++) {
        sw_steel_factors f = sw_steel_factors_at(at_k(t_c[i]));
        sw_near(t, f.yield, y[i], 1e-12, TABLE);
        sw_near(t, f.proportional, p[i], 1e-12, TABLE);
        sw_near(t, f.modulus, e[i], 1e-12, TABLE);
    }
    sw_near(t, sw_steel_factors_at(at_k(550)).yield, 0.625, 1e-12, TABLE ", linear between");
    sw_near(t, sw_steel_factors_at(at_k(-40)).modulus, 1, 0, "cold steel is whole");
    sw_near(t, sw_steel_factors_at(at_k(1300)).yield, 0, 0, TABLE);
    sw_true(t, isnan(sw_steel_factors_at(NAN).yield));
}

static void steel_never_gains_strength_by_heat(sw_test *t)
{
    sw_steel_factors before = sw_steel_factors_at(at_k(0));
    for (double t_c = 5; t_c <= 1250; t_c += 5) {
        sw_steel_factors f = sw_steel_factors_at(at_k(t_c));
        if (!sw_true(t,
                     f.yield <= before.yield && f.modulus <= before.modulus && f.proportional <= before.proportional))
            return;
        before = f;
    }
}

static void burn_thresholds_are_those_of_the_standard(sw_test *t)
{
    static const sw_touch all[] = {SW_TOUCH_METAL, SW_TOUCH_WOOD, SW_TOUCH_PLASTIC, SW_TOUCH_GLASS};
    for (int i = 0; i < 4; i++) {
        sw_near(t, sw_burn_threshold_c(all[i], 600), 48, 0, BURNS " (found twice)");
        sw_near(t, sw_burn_threshold_c(all[i], 28800), 43, 0, BURNS " (found twice)");
    }
    sw_near(t, sw_burn_threshold_c(SW_TOUCH_METAL, 1), 62, 0, BURNS ", lower end (found)");
    sw_near(t, sw_burn_threshold_c(SW_TOUCH_METAL, 5), 56, 0, BURNS ", lower end (found)");
    sw_near(t, sw_burn_threshold_c(SW_TOUCH_METAL, 60), 51, 0, BURNS " (found twice)");
    sw_near(t, sw_burn_threshold_c(SW_TOUCH_WOOD, 1), 110, 0, BURNS ", lower end (found)");
    sw_near(t, sw_burn_threshold_c(SW_TOUCH_WOOD, 60), 60, 0, BURNS " (found twice)");
    sw_near(t, sw_burn_threshold_c(SW_TOUCH_PLASTIC, 2), 80, 0, BURNS ", lower end (found)");
    sw_near(t, sw_burn_threshold_c(SW_TOUCH_GLASS, 1), 80, 0, BURNS ", lower end (from memory)");
    sw_near(t, sw_burn_threshold_c(SW_TOUCH_GLASS, 60), 56, 0, BURNS " (from memory)");
}

static void a_longer_touch_never_allows_more(sw_test *t)
{
    for (int surface = 0; surface < 4; surface++) {
        double before = sw_burn_threshold_c((sw_touch)surface, 0.5);
        for (double s = 0.5; s < 1e5; s *= 1.1) {
            double now = sw_burn_threshold_c((sw_touch)surface, s);
            if (!sw_true(t, now <= before)) return;
            before = now;
        }
    }
    sw_near(t, sw_burn_threshold_c(SW_TOUCH_GLASS, 1.5), 66, 0, "the next longer contact that is tabled counts");
    sw_true(t, isnan(sw_burn_threshold_c(SW_TOUCH_METAL, 0.4)) && isnan(sw_burn_threshold_c(SW_TOUCH_METAL, NAN)));
    sw_true(t, isnan(sw_burn_threshold_c((sw_touch)9, 1)));
}

SW_TESTS(SW_CASE(every_grade_has_its_material), SW_CASE(every_material_is_found_and_plausible_over_its_whole_life),
         SW_CASE(an_unknown_material_is_null_and_never_a_guess), SW_CASE(carbon_steel_follows_the_eurocode),
         SW_CASE(heating_steel_takes_the_heat_the_handbook_says), SW_CASE(the_branches_of_steel_meet),
         SW_CASE(stainless_steel_follows_annex_c), SW_CASE(linings_and_refractories_follow_their_tables),
         SW_CASE(grey_iron_has_the_mean_heats_of_en_1561), SW_CASE(beyond_its_published_range_a_property_is_held),
         SW_CASE(glass_ceramic_does_not_grow_and_boards_do_not_say), SW_CASE(hot_steel_loses_strength_by_the_table),
         SW_CASE(steel_never_gains_strength_by_heat), SW_CASE(burn_thresholds_are_those_of_the_standard),
         SW_CASE(a_longer_touch_never_allows_more))
