/* Rules: worked examples, rows well formed, codes never mixed. */
#include "siting/site/site.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

static sw_roof roof(double pitch_deg, double ridge_m)
{
    return (sw_roof){.pitch_rad = sw_rad_from_deg(pitch_deg),
                     .ridge_m = ridge_m,
                     .above_m = 1,
                     .window_m = NAN,
                     .window_top_m = NAN,
                     .neighbour_m = NAN,
                     .neighbour_top_m = NAN};
}

static double outlet(const char *code, double pitch_deg, double ridge_m)
{
    sw_roof r = roof(pitch_deg, ridge_m);
    return sw_site_outlet_m(code, &r).value;
}

static void outlet_heights_are_the_handbooks(sw_test *t)
{
    const char *book = "handbook FS-14, computed: Approved Document J, diagram 17; IRC R1003.9";
    sw_near(t, outlet("England", 40, 4.0), 1.930, 6e-4, book);
    sw_near(t, outlet("England", 40, 1.5), 1.259, 6e-4, book);
    sw_near(t, outlet("England", 40, 0.4), 0.936, 6e-4, book);
    sw_near(t, outlet("USA", 40, 1.5), 1.868, 1e-3, book);
}

static void other_outlets_follow_their_texts(sw_test *t)
{
    sw_near(t, outlet("England", 0, 5), 1.0, 1e-9, "Approved Document J, diagram 17 B (from memory): flat roof");
    sw_near(t, outlet("USA", 0, 5), 0.914, 1e-9, "IRC R1003.9: flat roof");
    sw_near(t, outlet("Germany", 40, 4), 2.3 * tan(sw_rad_from_deg(40)), 1e-9, "1. BImSchV, 19: 2.3 m from the roof");
    sw_near(t, outlet("Germany", 40, 0.4), 0.4 + 0.4 * tan(sw_rad_from_deg(40)), 1e-9, "1. BImSchV, 19: ridge");
    sw_near(t, outlet("Germany", 15, 8), 1 / cos(sw_rad_from_deg(15)), 1e-9, "1. BImSchV, 19: 1 m from the roof");
    sw_near(t, outlet("France", 30, 5), 0.4 + 5 * tan(sw_rad_from_deg(30)), 1e-9, "order of 22 October 1969");
    sw_true(t, isnan(outlet("Czechia", 30, 5)) && isnan(outlet("", 30, 5)));
}

static void windows_neighbours_and_thatch_raise_the_outlet(sw_test *t)
{
    sw_roof r = roof(40, 0.4);
    r.window_m = 2.0;
    r.window_top_m = 1.5;
    sw_site_asked asked = sw_site_outlet_m("England", &r);
    sw_near(t, asked.value, 2.5, 1e-9, "Approved Document J, diagram 17 C: 1 m above the window");
    sw_same_text(t, asked.by, "window");
    r.window_m = 2.4;
    sw_near(t, sw_site_outlet_m("England", &r).value, 0.936, 6e-4, "handbook FS-14: the window is too far to count");
    sw_near(t, sw_site_outlet_m("Germany", &r).value, 2.5, 1e-9, "1. BImSchV, 19: 15 m");
    r.neighbour_m = 2.2;
    r.neighbour_top_m = 3;
    sw_near(t, sw_site_outlet_m("England", &r).value, 3.6, 1e-9, "Approved Document J, diagram 17 D: 0.6 m above it");
    r = roof(40, 4);
    r.thatched = true;
    sw_near(t, sw_site_outlet_m("England", &r).value, 0.6 + 4 * tan(sw_rad_from_deg(40)), 1e-9,
            "Approved Document J: thatch, 0.6 m above the ridge");
    r.pitch_rad = NAN;
    sw_true(t, isnan(sw_site_outlet_m("England", &r).value) && sw_site_outlet_m("England", &r).rule != NULL);
}

static void flue_sizes_are_the_handbooks(sw_test *t)
{
    const char *book = "handbook FS-15: Approved Document J, table 2";
    sw_near(t, sw_site_flue_mm("England", 7000, false, true).value, 150, 1e-9, book);
    sw_near(t, sw_site_flue_mm("England", 7000, true, true).value, 125, 1e-9, book);
    sw_near(t, sw_site_flue_mm("England", 25000, true, true).value, 150, 1e-9, book);
    sw_near(t, sw_site_flue_mm("England", 40000, false, true).value, 175, 1e-9, book);
    sw_near(t, sw_site_flue_mm("England", 7000, false, false).value, 125, 1e-9, book);
    sw_true(t, isnan(sw_site_flue_mm("England", 60000, false, true).value));
    sw_true(t, sw_site_flue_mm("USA", 7000, false, true).rule == NULL);
}

static double vent_mm2(double output_w, double m3_h_m2, bool stabiliser)
{
    return sw_mm2_from_m2(sw_site_vent_m2("England", output_w, sw_h_from_s(m3_h_m2), stabiliser).value);
}

static void vents_are_the_handbooks(sw_test *t)
{
    const char *book = "handbook FS-16: Approved Document J, table 1";
    sw_near(t, vent_mm2(7000, 8, false), 1100, 1e-6, book);
    sw_near(t, vent_mm2(7000, 3, false), 3850, 1e-6, book);
    sw_near(t, vent_mm2(12000, 8, true), 7450, 1e-6, book);
    sw_near(t, vent_mm2(4900, 8, false), 0, 1e-6, book);
    sw_near(t, vent_mm2(7000, 5, false), 3850, 1e-6, "Approved Document J, table 1: 5.0 counts as tight");
    sw_near(t, vent_mm2(4000, 3, true), 3400, 1e-6, "Approved Document J, table 1: 850 on the whole output");
}

static void hearth_plates_are_the_handbooks(sw_test *t)
{
    const char *book = "handbook FS-24: Approved Document J, section 2";
    double mm[2];
    sw_true(t, sw_site_hearth_mm("England", false, 500, 400, mm));
    sw_near(t, mm[0], 800, 1e-9, book);
    sw_near(t, mm[1], 775, 1e-9, book);
    sw_true(t, sw_site_hearth_mm("England", true, 500, 400, mm));
    sw_near(t, mm[1], 850, 1e-9, book);
    sw_true(t, sw_site_hearth_mm("Germany", false, 500, 400, mm));
    sw_near(t, mm[0], 1100, 1e-9, "Brandenburg ordinance, 4(8): 30 cm each side");
    sw_true(t, !sw_site_hearth_mm("France", false, 500, 400, mm) && isnan(mm[0]));
}

static bool is_code(const char *code)
{
    for (size_t i = 0; i < sw_site_code_count(); i++)
        if (strcmp(sw_site_code_at(i), code) == 0) return true;
    return false;
}

static void every_row_has_code_edition_clause_source_and_is_found(sw_test *t)
{
    for (size_t i = 0; i < sw_site_rule_count(); i++) {
        const sw_site_rule *r = sw_site_rule_at(i);
        sw_true(t, is_code(r->code) && r->edition[0] != '\0' && r->clause[0] != '\0' && r->source[0] != '\0');
        sw_true(t, r->value > 0 && isfinite(r->value));
        if (!sw_true(t, sw_site_rule_find(r->code, r->what) == r)) return; /* so no name stands twice in a code */
    }
    sw_true(t, sw_site_rule_at(sw_site_rule_count()) == NULL && sw_site_code_at(sw_site_code_count()) == NULL);
}

static void no_code_answers_for_another(sw_test *t)
{
    for (size_t i = 0; i < sw_site_rule_count(); i++)
        for (size_t k = 0; k < sw_site_code_count(); k++) {
            const char *code = sw_site_code_at(k);
            const sw_site_rule *found = sw_site_rule_find(code, sw_site_rule_at(i)->what);
            if (!sw_true(t, found == NULL || strcmp(found->code, code) == 0)) return;
        }
    sw_true(t, sw_site_rule_find("", "hearth_front_mm") == NULL);
    sw_true(t, sw_site_rule_find("Atlantis", "hearth_front_mm") == NULL);
}

SW_TESTS(SW_CASE(outlet_heights_are_the_handbooks), SW_CASE(other_outlets_follow_their_texts),
         SW_CASE(windows_neighbours_and_thatch_raise_the_outlet), SW_CASE(flue_sizes_are_the_handbooks),
         SW_CASE(vents_are_the_handbooks), SW_CASE(hearth_plates_are_the_handbooks),
         SW_CASE(every_row_has_code_edition_clause_source_and_is_found), SW_CASE(no_code_answers_for_another))
