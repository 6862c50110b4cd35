#include "matter/matter.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

#define RADII "DIN 6935:1975-10, least inside radii"
#define HOT   "EN 10051:2010, category A"
#define COLD  "EN 10131:2006, normal"

static void every_grade_is_found_by_its_own_name(sw_test *t)
{
    for (size_t i = 0; i < sw_grade_count(); i++) {
        const sw_grade *grade = sw_grade_at(i);
        sw_true(t, sw_grade_find(grade->name) == grade);
        sw_true(t, strlen(grade->source) > 0);
    }
    sw_true(t, sw_grade_at(sw_grade_count()) == NULL);
}

static void an_unknown_grade_is_null_and_never_a_guess(sw_test *t)
{
    sw_true(t, sw_grade_find("S236") == NULL);
    sw_true(t, sw_grade_find("") == NULL);
}

static void structural_steel_has_the_strengths_of_en_10025(sw_test *t)
{
    const sw_grade *s235 = sw_grade_find("S235"), *s355 = sw_grade_find("S355"), *dc01 = sw_grade_find("DC01");
    sw_near(t, s235->re_min_mpa, 235.0, 0.0, "EN 10025-2, S235JR, from memory");
    sw_near(t, s235->rm_min_mpa, 360.0, 0.0, "EN 10025-2, S235JR, from memory");
    sw_near(t, s355->rm_min_mpa, 470.0, 0.0, "EN 10025-2, S355J2, from memory");
    sw_near(t, dc01->rm_min_mpa, 270.0, 0.0, "EN 10130, DC01, from memory");
    sw_near(t, s235->density * sw_m_from_mm(1.0), 7.85, 1e-12, "EN 10025-2: 7.85 kg/m2 per mm, from memory");
}

static void least_radius_follows_the_table(sw_test *t)
{
    double square_rad = sw_rad_from_deg(90.0);
    sw_near(t, sw_min_bend_radius_mm(360.0, 4.0, false, square_rad), 5.0, 0.0, RADII);
    sw_near(t, sw_min_bend_radius_mm(360.0, 1.0, false, square_rad), 1.0, 0.0, RADII);
    sw_near(t, sw_min_bend_radius_mm(470.0, 5.0, false, square_rad), 8.0, 0.0, RADII);
    sw_near(t, sw_min_bend_radius_mm(520.0, 2.0, false, square_rad), 4.0, 0.0, RADII);
    sw_near(t, sw_min_bend_radius_mm(360.0, 12.0, false, square_rad), 20.0, 0.0, RADII);
}

static void along_the_rolling_direction_and_beyond_120_degrees_take_the_next_column(sw_test *t)
{
    sw_near(t, sw_min_bend_radius_mm(360.0, 4.0, true, sw_rad_from_deg(90.0)), 6.0, 0.0, RADII);
    sw_near(t, sw_min_bend_radius_mm(360.0, 4.0, false, sw_rad_from_deg(-135.0)), 6.0, 0.0, RADII);
    sw_near(t, sw_min_bend_radius_mm(360.0, 4.0, true, sw_rad_from_deg(135.0)), 6.0, 0.0, RADII);
    sw_near(t, sw_min_bend_radius_mm(360.0, 4.0, false, sw_rad_from_deg(120.0)), 5.0, 0.0, RADII);
}

static void outside_the_radius_table_there_is_no_answer(sw_test *t)
{
    sw_true(t, isnan(sw_min_bend_radius_mm(360.0, 12.5, false, 1.0)));
    sw_true(t, isnan(sw_min_bend_radius_mm(360.0, 12.0, true, 1.0)));
    sw_true(t, isnan(sw_min_bend_radius_mm(700.0, 4.0, false, 1.0)));
    sw_true(t, isnan(sw_min_bend_radius_mm(0.0, 4.0, false, 1.0)));
    sw_true(t, isnan(sw_min_bend_radius_mm(360.0, NAN, false, 1.0)));
    sw_true(t, isnan(sw_min_bend_radius_mm(360.0, -1.0, false, 1.0)));
}

static void hot_rolled_tolerance_follows_the_table(sw_test *t)
{
    const sw_grade *s235 = sw_grade_find("S235");
    sw_near(t, sw_thickness_tolerance_mm(s235, 4.0, 1500.0), 0.24, 0.0, HOT);
    sw_near(t, sw_thickness_tolerance_mm(s235, 3.0, 1200.0), 0.20, 0.0, HOT);
    sw_near(t, sw_thickness_tolerance_mm(s235, 10.0, 2000.0), 0.40, 0.0, HOT);
    sw_near(t, sw_thickness_tolerance_mm(sw_grade_find("S355"), 4.0, 1500.0), 0.276, 1e-12,
            "EN 10051, category B: 15 % wider than A");
    sw_true(t, isnan(sw_thickness_tolerance_mm(s235, 2.0, 2000.0)));
    sw_true(t, isnan(sw_thickness_tolerance_mm(s235, 12.0, 1500.0)));
}

static void cold_rolled_tolerance_follows_the_table(sw_test *t)
{
    const sw_grade *dc01 = sw_grade_find("DC01");
    sw_near(t, sw_thickness_tolerance_mm(dc01, 1.5, 1250.0), 0.09, 0.0, COLD);
    sw_near(t, sw_thickness_tolerance_mm(dc01, 2.0, 1000.0), 0.10, 0.0, COLD);
    sw_near(t, sw_thickness_tolerance_mm(dc01, 3.0, 1600.0), 0.16, 0.0, COLD);
    sw_true(t, isnan(sw_thickness_tolerance_mm(dc01, 0.5, 1000.0)));
    sw_true(t, isnan(sw_thickness_tolerance_mm(sw_grade_find("1.4301"), 2.0, 1000.0)));
}

SW_TESTS(SW_CASE(every_grade_is_found_by_its_own_name), SW_CASE(an_unknown_grade_is_null_and_never_a_guess),
         SW_CASE(structural_steel_has_the_strengths_of_en_10025), SW_CASE(least_radius_follows_the_table),
         SW_CASE(along_the_rolling_direction_and_beyond_120_degrees_take_the_next_column),
         SW_CASE(outside_the_radius_table_there_is_no_answer), SW_CASE(hot_rolled_tolerance_follows_the_table),
         SW_CASE(cold_rolled_tolerance_follows_the_table))
