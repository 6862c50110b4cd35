/* Heating values of wood, and which woods are known. */
#include "sw_test.h"
#include "wood.h"

#include <string.h>

static double mj(double j)
{
    return j * 1e-6;
}
static double kwh(double j)
{
    return j / 3.6e6;
}

static void beech_has_the_handbooks_heating_values(sw_test *t)
{
    static const double rows[][2] = {{0, 18.566}, {0.12, 16.045}, {0.16, 15.204}, {0.20, 14.364}, {0.25, 13.313}};
    sw_fuel f = beech(0);
    sw_near(t, mj(sw_fuel_hhv_dry(&f)), 19.912, 5e-4, "handbook F1.2, computed from Channiwala & Parikh 2002");
    sw_near(t, mj(sw_fuel_lhv_dry(&f)), 18.566, 5e-4, "handbook F1.2, computed");
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        f = beech(rows[i][0]);
        sw_near(t, mj(sw_fuel_lhv(&f)), rows[i][1], 5e-4, "handbook F1.2, computed, ISO 18125 form (from memory)");
    }
}

static void published_tables_of_beech_are_met(sw_test *t)
{
    static const double rows[][2] = {{0.10, 4.53}, {0.20, 3.97}, {0.50, 2.22}};
    const char *table = "handbook F1.2: boiler planning guide quoting a research centre for firewood (found)";
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        sw_fuel f = beech(rows[i][0]);
        sw_near(t, kwh(sw_fuel_lhv(&f)), rows[i][1], 0.011 * rows[i][1], table);
    }
    sw_fuel f = beech(0.15);
    sw_near(t, kwh(sw_fuel_lhv(&f)), 4.13, 0.04 * 4.13,
            "handbook F1.2: boiler manual, table of heating values (found)");
}

static void published_tables_of_other_woods_are_met(sw_test *t)
{
    static const struct {
        const char *name;
        double kwh;
    } rows[] = {{"spruce logs", 4.49}, {"pine logs", 4.32}, {"larch logs", 4.27}, {"fir logs", 4.40},
                {"birch logs", 4.01},  {"ash logs", 4.10},  {"oak logs", 4.10}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        sw_fuel f = *sw_fuel_find(rows[i].name);
        f.moisture = 0.15;
        sw_near(t, kwh(sw_fuel_lhv(&f)), rows[i].kwh, 0.06 * rows[i].kwh,
                "handbook F1.4: boiler manual, w 15 % (found)");
    }
}

static void moisture_counts_on_dry_wood_or_on_all(sw_test *t)
{
    sw_near(t, sw_moisture_dry_basis(0.16), 0.1905, 5e-5, "handbook F1.1, computed");
    sw_near(t, sw_moisture_dry_basis(0.16), 0.19, 0.01,
            "US EPA method 28: 19 to 25 % dry basis is 16 to 20 % wet (from memory)");
    sw_near(t, sw_moisture_dry_basis(0.20), 0.25, 1e-12, "US EPA method 28: 25 % dry basis is 20 % wet");
    sw_true(t,
            isnan(sw_moisture_dry_basis(1)) && isnan(sw_moisture_dry_basis(-0.1)) && isnan(sw_moisture_dry_basis(NAN)));
}

static void every_known_wood_is_plausible_and_has_a_source(sw_test *t)
{
    for (size_t i = 0; i < sw_fuel_count(); i++) {
        const sw_fuel *f = sw_fuel_at(i);
        sw_near(t, f->c + f->h + f->o + f->n + f->s, 1, 1e-12, "law: shares of dry, ash-free wood");
        sw_true(t, mj(sw_fuel_lhv_dry(f)) > 17.5 && mj(sw_fuel_lhv_dry(f)) < 20);
        sw_true(t, f->o >= 0.40 && f->o <= 0.45 && f->c >= 0.47 && f->c <= 0.54);
        sw_true(t, strlen(f->source) > 10 && sw_fuel_find(f->name) == f);
    }
    sw_true(t, sw_fuel_at(sw_fuel_count()) == NULL && sw_fuel_find("peat") == NULL && sw_fuel_find("") == NULL);
}

static void each_kg_of_water_costs_its_evaporation(sw_test *t)
{
    sw_random r = sw_random_seeded(11);
    for (int i = 0; i < 200; i++) {
        sw_fuel f = random_wood(&r);
        double dry_j = sw_fuel_lhv_dry(&f), w = f.moisture;
        if (!sw_near(t, sw_fuel_lhv(&f), dry_j - w * (dry_j + 2.443e6), 1e-6 * dry_j, "law: linear in the moisture"))
            return;
    }
}

static void a_given_heating_value_stands_before_the_formula(sw_test *t)
{
    sw_fuel f = beech(0.2);
    f.lhv_dry = 19e6;
    sw_near(t, sw_fuel_lhv(&f), 19e6 * 0.8 - 2.443e6 * 0.2, 1e-6, "derived: LHV_d (1 - w) - 2.443 w");
}

static void outside_the_range_there_is_no_heating_value(sw_test *t)
{
    const double moistures[] = {-0.01, 0.61, 1, NAN, INFINITY};
    for (size_t i = 0; i < sizeof moistures / sizeof *moistures; i++) {
        sw_fuel f = beech(moistures[i]);
        sw_true(t, isnan(sw_fuel_lhv(&f)));
    }
    sw_fuel f = beech(0);
    f.o = 0.6;
    sw_true(t, isnan(sw_fuel_hhv_dry(&f)));
    f.o = NAN;
    sw_true(t, isnan(sw_fuel_hhv_dry(&f)));
}

SW_TESTS(SW_CASE(beech_has_the_handbooks_heating_values), SW_CASE(published_tables_of_beech_are_met),
         SW_CASE(published_tables_of_other_woods_are_met), SW_CASE(moisture_counts_on_dry_wood_or_on_all),
         SW_CASE(every_known_wood_is_plausible_and_has_a_source), SW_CASE(each_kg_of_water_costs_its_evaporation),
         SW_CASE(a_given_heating_value_stands_before_the_formula), SW_CASE(outside_the_range_there_is_no_heating_value))
