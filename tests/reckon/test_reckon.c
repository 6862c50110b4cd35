#include "reckon_solved.h"

#include <math.h>
#include <string.h>

static void din6935_length_gives_the_handbook_brackets(sw_test *t)
{
    const char *book = "table-book page printing DIN 6935 (found; prints v = 5.77 with k read as 0.7 and L about 32)";
    const double *out = SOLVED(t, "din6935_length", "r=6", "s=5", "beta=60", "a=16", "b=21");
    sw_near(t, out[0], 0.6896, 5e-5, book);
    sw_near(t, out[1], -5.77, 0.06, book);
    sw_near(t, out[1], -5.823, 5e-4, "handbook W1.1, computed from DIN 6935");
    out = SOLVED(t, "din6935_length", "r=4", "s=3", "beta=90", "a=60", "b=40");
    sw_near(t, out[2], 93.962, 5e-4, "handbook W1.2, computed from DIN 6935");
}

static void strip_joggle_hem_and_slot_give_the_handbook_examples(sw_test *t)
{
    sw_near(t, SOLVED(t, "k_from_strip", "a=50", "b=30", "s=3", "r=3.2", "A=90", "L=74.40")[0], 0.3763, 5e-5,
            "handbook W1.5, computed");
    const double *j = SOLVED(t, "joggle", "h=8", "s=3", "r=3", "K=0.36", "A=45", "l1=40", "l2=30");
    sw_near(t, j[0], 7.5858, 5e-5, "handbook W1.6, computed");
    sw_near(t, j[1], 11.7279, 5e-5, "handbook W1.6, computed");
    sw_near(t, j[2], 2.6360, 5e-5, "handbook W1.6, computed");
    sw_near(t, j[3], 83.9946, 5e-5, "handbook W1.6, computed");
    sw_near(t, SOLVED(t, "closed_hem", "a=100", "h=12", "s=1.5")[0], 110.555, 5e-4, "handbook 1.6, computed");
    sw_near(t, SOLVED(t, "open_hem", "a=100", "h=12", "s=1.5", "gap=2")[0], 111.466, 5e-4, "handbook 1.6, computed");
    sw_near(t, SOLVED(t, "slot_width", "s1=3", "s2=3", "phi=60", "c=0")[0], 5.196, 5e-4, "handbook 1.6, computed");
}

static void gauging_gives_the_handbook_arcs(sw_test *t)
{
    sw_near(t, SOLVED(t, "sagitta", "R=250", "c=150")[0], 11.5152, 5e-5, "handbook W3.4, computed");
    sw_near(t, SOLVED(t, "radius_from_sagitta", "h=11", "c=150")[0], 261.18, 5e-3, "handbook W3.4, computed");
    sw_near(t, SOLVED(t, "least_radius", "Rm=360", "s=3", "A=90")[0], 3, 0,
            "DIN 6935:1975-10, least bending radii (found)");
}

static void several_bends_and_their_tolerances_follow_the_handbook(sw_test *t)
{
    sw_near(t, SOLVED(t, "bends_length", "r=2.5", "s=2", "beta=90", "legs=160", "n=2")[1], 152.048, 5e-4,
            "handbook W1.3, computed from DIN 6935");
    sw_near(t, SOLVED(t, "din6935_length", "r=3", "s=3", "beta=170", "a=50", "b=50", "step=1")[2], 100, 0,
            "DIN 6935:2011-10: v = 0 above 165 degrees");
    const char *angles = "DIN 6935, limit deviations of angles (from memory)";
    sw_near(t, SOLVED(t, "angle_deviation", "leg=30")[0], 2, 1e-12, angles);
    sw_near(t, SOLVED(t, "angle_deviation", "leg=60")[0], 1.5, 1e-12, angles);
    sw_near(t, SOLVED(t, "angle_deviation", "leg=500")[0], 1, 1e-12, angles);
    const double *r = SOLVED(t, "flanging_radius", "s=4");
    const char *flanging = "EN 10025-2, table 12 (from memory)";
    sw_near(t, r[0], 5, 0, flanging);
    sw_near(t, r[1], 6, 0, flanging);
    sw_near(t, r[2], 6, 0, flanging);
    sw_near(t, r[3], 8, 0, flanging);
    sw_true(t, isnan(SOLVED(t, "flanging_radius", "s=11")[0]));
    sw_near(t, SOLVED(t, "closed_hem", "a=100", "h=12", "s=2")[1], 8, 0, "common practice, no source: 4 s");
}

static void arcs_slots_and_limits_of_cutting_follow_the_handbook(sw_test *t)
{
    const double *b = SOLVED(t, "bulge", "c=10", "theta=90");
    sw_near(t, b[4], 14.2699, 5e-5, "handbook W4.4, computed");
    sw_near(t, b[5], 5, 1e-12, "handbook W4.4, computed");
    sw_near(t, SOLVED(t, "bulge", "c=10", "theta=180")[4], 39.2699, 5e-5, "handbook W4.4, computed");
    const double *slot = SOLVED(t, "obround", "l=40", "w=10");
    sw_near(t, slot[0], 378.540, 5e-4, "handbook W4.4, computed");
    sw_near(t, slot[1], 91.416, 5e-4, "handbook W4.4, computed");
    sw_true(t, isnan(SOLVED(t, "obround", "l=10", "w=10.5")[0]));
    const double *arc = SOLVED(t, "motion_arc", "x0=10", "y0=0", "x1=0", "y1=10", "I=-10", "J=0");
    sw_near(t, arc[2], 15.708, 5e-4, "handbook 4.6, computed");
    sw_near(t, arc[3], 0, 1e-12, "law: both ends lie on the circle");
    arc = SOLVED(t, "motion_arc", "x0=10", "y0=0", "x1=10", "y1=0", "I=-10", "J=0", "G=2");
    sw_near(t, arc[1], 360, 1e-9, "NIST RS274/NGC report (from memory): end = start is a full circle");
    sw_near(t, SOLVED(t, "motion_arc", "x0=10", "y0=0", "x1=0", "y1=10", "I=-10", "J=0", "G=2")[1], 270, 1e-9,
            "law: the other way round");
    sw_near(t, SOLVED(t, "kerf_offset", "w=0.3")[0], 0.15, 1e-15, "derived: half the kerf");
    const double *limits = SOLVED(t, "cut_limits", "s=6");
    sw_near(t, limits[0], 6, 0, "sheet-metal design rules: least hole s");
    sw_near(t, limits[1], 4.2, 1e-12, "laser shop's limits: 0.7 s");
    sw_near(t, limits[3], 6, 0, "common practice, no source: max(s, 5 mm)");
    sw_near(t, limits[4], 9, 0, "common practice, no source: max(1.5 s, 8 mm)");
    sw_near(t, SOLVED(t, "nozzle_flow", "d=2", "p0=13")[3], 0.528, 5e-4, "isentropic flow: critical ratio at 1.4");
}

static void cutting_gives_the_handbook_examples(sw_test *t)
{
    const double *q = SOLVED(t, "cut_quality", "range=2", "s=6");
    sw_near(t, q[0], 0.192, 5e-4, "ISO 9013:2017 table 4 (from memory)");
    sw_near(t, q[1], 44.8, 5e-2, "ISO 9013:2017 table 5 (from memory)");
    sw_near(t, SOLVED(t, "cut_deviation", "class=1", "s=4", "L=500")[0], 0.40, 0,
            "ISO 9013:2017, limit deviations (found)");
    sw_near(t, SOLVED(t, "common_cut", "n=10", "w=100", "h=60")[1], 2660, 1e-9, "handbook 4.2, computed");
    sw_near(t, SOLVED(t, "laser_speed", "P=2000", "s=3")[0], 4.08, 5e-3, "handbook W4.1, computed");
    sw_near(t, SOLVED(t, "corner_speed", "r=2")[0], 8.49, 5e-3, "handbook 4.3, computed");
    sw_near(t, SOLVED(t, "move_time", "d=400")[0], 0.500, 5e-4, "handbook 4.3, computed");
    sw_near(t, SOLVED(t, "move_time", "d=50")[0], 0.1414, 5e-5, "handbook 4.3, computed");
    const double *n = SOLVED(t, "nozzle_flow", "d=2", "p0=13.01325");
    sw_near(t, n[0], 9.490e-3, 5e-6, "handbook W4.2, computed");
    sw_near(t, n[2], 27.3, 5e-2, "handbook W4.2, computed");
    sw_near(t, SOLVED(t, "nozzle_flow", "d=1.5", "p0=1.51325", "R=259.8")[0], 0.633e-3, 1e-6,
            "handbook W4.2 (oxygen, not choked), computed");
    const double *c = SOLVED(t, "cut_cost", "L=3.4", "v=3", "n=5", "tp=0.5", "Lr=2.5", "rate=95");
    sw_near(t, c[0], 1.2167, 5e-5, "handbook W4.3, computed");
    sw_near(t, c[1], 1.926, 5e-4, "handbook W4.3, computed");
    sw_near(t, c[2], 0.567, 5e-4, "handbook W4.3, computed");
    const double *b = SOLVED(t, "bulge", "c=10", "theta=90");
    sw_near(t, b[0], 0.414214, 5e-7, "handbook W4.4, computed");
    sw_near(t, b[1], 7.0711, 5e-5, "handbook W4.4, computed");
    sw_near(t, b[2], 11.1072, 5e-5, "handbook W4.4, computed");
    sw_near(t, b[3], 2.0711, 5e-5, "handbook W4.4, computed");
}

static void stock_gives_the_handbook_examples(sw_test *t)
{
    sw_near(t, SOLVED(t, "sheet_mass", "L=3000", "W=1500", "s=4")[0], 141.30, 5e-3,
            "handbook 5.1, computed with 7.85 kg/dm3 (EN 10025-2, from memory)");
    const double *c = SOLVED(t, "steel_cost", "m=73.594", "used=0.72", "p=0.95", "scrap=0.22");
    sw_near(t, c[0], 52.988, 5e-4, "handbook W5.1, computed");
    sw_near(t, c[1], 1.2339, 5e-5, "handbook W5.1, computed");
    sw_near(t, c[2], 1.3194, 5e-5, "handbook W5.1, computed");
    const double *tol = SOLVED(t, "thickness_tolerance", "s=4", "w=1500");
    sw_near(t, tol[0], 0.24, 0, "EN 10051:2010 category A, 3 to 4 mm, 1200 to 1500 wide (found)");
    sw_near(t, SOLVED(t, "thickness_tolerance", "s=4", "w=1500", "Re=355")[0], 0.276, 1e-12,
            "EN 10051, category B: 15 % wider (share found for an older edition)");
    sw_near(t, SOLVED(t, "thickness_tolerance", "s=1.5", "w=1250")[2], 0.06, 0, "EN 10131:2006, special (found)");
}

static void outside_its_range_a_formula_gives_nan(sw_test *t)
{
    sw_true(t, isnan(SOLVED(t, "din6935_k", "r=0.1", "s=4")[0]));
    sw_true(t, isnan(SOLVED(t, "joggle", "h=0.5", "s=3", "r=3", "K=0.36")[0]));
    sw_true(t, isnan(SOLVED(t, "least_radius", "Rm=900", "s=3")[0]));
}

static sw_status status_of(sw_test *t, const char *name, const char *a, const char *b)
{
    double in[SW_RECKON_INPUTS], out[SW_RECKON_OUTPUTS];
    const char *settings[] = {a, b};
    sw_run_clear_errors(&t->run);
    return sw_reckon_solve(&t->run, sw_reckon_find(name), settings, 2, in, out);
}

static void wrong_settings_are_named(sw_test *t)
{
    sw_true(t, status_of(t, "din6935_k", "r=4", "z=3") == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "not known");
    sw_true(t, status_of(t, "din6935_k", "r=4kg", "s=3") == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "give the number in mm");
    sw_true(t, status_of(t, "din6935_k", "r=4", "r=3") == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "twice");
    sw_true(t, status_of(t, "din6935_k", "r=4", "s=-3") == SW_OUT_OF_RANGE);
    sw_contains(t, t->run.errors[0].text, "outside");
    sw_true(t, status_of(t, "sagitta", "R=4", "R") == SW_BAD_INPUT);
    sw_true(t, status_of(t, "sagitta", "R=nan", "c=1") == SW_BAD_INPUT);
}

static void every_formula_has_a_source_and_names_its_numbers(sw_test *t)
{
    for (size_t i = 0; i < sw_reckon_count(); i++) {
        const sw_reckon *r = sw_reckon_at(i);
        sw_true(t, strlen(r->source) > 5 && strlen(r->formula) > 3 && strlen(r->range) > 2);
        sw_true(t, sw_reckon_input_count(r) > 0 && sw_reckon_output_count(r) > 0);
        sw_true(t, sw_reckon_find(r->name) == r);
    }
}

SW_TESTS(SW_CASE(din6935_length_gives_the_handbook_brackets),
         SW_CASE(strip_joggle_hem_and_slot_give_the_handbook_examples), SW_CASE(gauging_gives_the_handbook_arcs),
         SW_CASE(several_bends_and_their_tolerances_follow_the_handbook),
         SW_CASE(arcs_slots_and_limits_of_cutting_follow_the_handbook), SW_CASE(cutting_gives_the_handbook_examples),
         SW_CASE(stock_gives_the_handbook_examples), SW_CASE(outside_its_range_a_formula_gives_nan),
         SW_CASE(wrong_settings_are_named), SW_CASE(every_formula_has_a_source_and_names_its_numbers))
