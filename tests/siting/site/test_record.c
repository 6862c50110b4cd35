/* The record of the first fire: what is expected in this house, and readings judged. handbook section 6 */
#include "site_house.h"

static const sw_expected *expected(sw_test *t, const sw_site_result *r, const char *name)
{
    for (size_t i = 0; i < r->expected_count; i++)
        if (strcmp(r->expected[i].name, name) == 0) return &r->expected[i];
    static const sw_expected none;
    sw_true_at(t, false, name, __FILE__, __LINE__);
    return &none;
}

static sw_status record(sw_test *t, const placed *p, const char *text, sw_findings *findings)
{
    return sw_site_record(&t->run, solved(t, p), "fire.csv", text, strlen(text), findings);
}

static bool reading(sw_test *t, const char *line, const char *name, sw_verdict verdict)
{
    sw_findings findings = {0};
    const char *text = sw_text_format(&t->run, t->run.keep, "name,value\n%s\n", line);
    sw_ok(t, record(t, placed_stove(t), text, &findings));
    return has_verdict(t, &findings, "first_fire", name, verdict);
}

static void bands_are_the_handbooks(sw_test *t)
{
    placed *p = placed_stove(t);
    const char *book = "handbook S6: record of the first fire";
    const sw_site_result *r = solved(t, p);
    sw_near(t, expected(t, r, "hot_draught_pa")->low, 10, 1e-9, book);
    sw_near(t, expected(t, r, "hot_draught_pa")->high, 20, 1e-9, book);
    sw_near(t, expected(t, r, "flue_gas_c")->low, 220, 1e-9, book);
    sw_near(t, expected(t, r, "flue_gas_c")->high, 340, 1e-9, book);
    sw_near(t, expected(t, r, "room_depression_pa")->high, 4, 1e-9, book);
    sw_near(t, expected(t, r, "co_rise_ppm")->high, 3, 1e-9, book);
    sw_near(t, expected(t, r, "surroundings_c")->high, 85, 1e-9, book);
    sw_near(t, expected(t, r, "hearth_c")->high, 100, 1e-9, book);
    p->house.declared_pa = 11;
    p->house.declared_most_pa = 15;
    p->house.declared_k = sw_k_from_c(300);
    r = solved(t, p);
    sw_near(t, expected(t, r, "hot_draught_pa")->low, 9, 1e-9, book);
    sw_near(t, expected(t, r, "hot_draught_pa")->high, 15, 1e-9, book);
    sw_near(t, expected(t, r, "flue_gas_c")->expected, 300, 1e-9, book);
    p->in.draught_pa = p->house.declared_pa = p->house.declared_most_pa = NAN;
    sw_near(t, expected(t, solved(t, p), "hot_draught_pa")->high, 20, 1e-9, "handbook S6: 10 to 20 Pa typical");
}

static void the_draught_expected_is_that_of_the_chimney_but_the_band_is_the_stoves(sw_test *t)
{
    placed *p = placed_stove(t);
    p->in.chimney_pa = 27;
    const sw_expected *e = expected(t, solved(t, p), "hot_draught_pa");
    sw_near(t, e->expected, 27, 0, "given");
    sw_near(t, e->high, 20, 0, "handbook S6: 12 Pa and 8 more");
    p->in.chimney_pa = 0;
    sw_near(t, expected(t, solved(t, p), "hot_draught_pa")->expected, 12, 0, "not computed: the stove's need");
}

static void readings_pass_are_watched_or_stop(sw_test *t)
{
    reading(t, "standing_draught_pa,5", "standing_draught_pa", SW_HOLDS);
    reading(t, "standing_draught_pa,1", "standing_draught_pa", SW_WATCH);
    reading(t, "standing_draught_pa,-1", "standing_draught_pa", SW_FAILS);
    reading(t, "hot_draught_pa,21", "hot_draught_pa", SW_FAILS);
    reading(t, "co_rise_ppm,2", "co_rise_ppm", SW_HOLDS);
    reading(t, "co_rise_ppm,6", "co_rise_ppm", SW_WATCH);
    reading(t, "co_rise_ppm,12", "co_rise_ppm", SW_FAILS);
    reading(t, "surroundings_c,86", "surroundings_c", SW_FAILS);
    reading(t, "flue_co2_percent,8", "flue_co2_percent", SW_HOLDS);
    reading(t, "curing_fires,2", "curing_fires", SW_FAILS);
}

static void failed_spillage_test_fails_and_answers_hold(sw_test *t)
{
    reading(t, "smoke_spillage,yes", "smoke_spillage", SW_FAILS);
    reading(t, "smoke_spillage,no", "smoke_spillage", SW_HOLDS);
    reading(t, "co_alarm_sounds,no", "co_alarm_sounds", SW_FAILS);
    reading(t, "papers,yes", "papers", SW_HOLDS);
}

static void what_was_not_read_is_unknown(sw_test *t)
{
    sw_findings findings = {0};
    placed *p = placed_stove(t);
    sw_ok(t, record(t, p, "name;value;note\nhot_draught_pa;12,5;steady\nflue_gas_c;;\n", &findings));
    sw_near(t, (double)findings.count, (double)solved(t, p)->expected_count, 0, "a finding for each line expected");
    has_verdict(t, &findings, "first_fire", "hot_draught_pa", SW_HOLDS);
    has_verdict(t, &findings, "first_fire", "flue_gas_c", SW_UNKNOWN);
    has_verdict(t, &findings, "first_fire", "door_seal", SW_UNKNOWN);
    sw_near(t, finding(&findings, "first_fire", "hot_draught_pa")->value, 12.5, 1e-12, "decimal comma");
}

static void every_wrong_line_is_told_with_the_nearest_name(sw_test *t)
{
    sw_findings findings = {0};
    const char *text = "name,value\nhot_drought_pa,12\nflue_gas_c,warm\nsmoke_spillage,maybe\npapers,yes\npapers,no\n"
                       "door_seal,yes,3\nco_rise_ppm,1e9\n";
    sw_true(t, record(t, placed_stove(t), text, &findings) == SW_BAD_INPUT);
    sw_near(t, (double)findings.count, 0, 0, "no finding from a wrong record");
    sw_near(t, (double)t->run.error_count, 6, 0, "one for each wrong line");
    static const struct {
        int line;
        const char *part;
    } told[] = {{2, "did you mean hot_draught_pa"}, {3, "warm"},    {4, "neither yes nor no"},
                {6, "read before, in line 5"},      {7, "3 cells"}, {8, "1e9"}};
    for (size_t i = 0; i < sizeof told / sizeof *told; i++) {
        bool seen = false;
        for (size_t k = 0; k < t->run.error_count; k++)
            seen = seen ||
                   (t->run.errors[k].place.line == told[i].line && strstr(t->run.errors[k].text, told[i].part) != NULL);
        sw_true_at(t, seen, told[i].part, __FILE__, __LINE__);
    }
}

static void missing_columns_and_empty_files_are_told(sw_test *t)
{
    sw_findings findings = {0};
    sw_true(t, record(t, placed_stove(t), "nam,value\npapers,yes\n", &findings) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "did you mean it by nam");
    sw_true(t, record(t, placed_stove(t), "", &findings) == SW_BAD_INPUT);
    sw_true(t, record(t, placed_stove(t), "\xff\xfe", &findings) == SW_BAD_INPUT);
    sw_true(t, findings.count == 0);
}

static void every_cut_short_record_is_judged_or_refused(sw_test *t)
{
    const char *text = "name,value\n\"hot_draught_pa\",12.5\nsmoke_spillage,no\nco_rise_ppm,\"1\"\n";
    const sw_site_result *r = solved(t, placed_stove(t));
    for (size_t n = 0; n <= strlen(text); n++) {
        sw_findings findings = {0};
        char *exact = SW_KEEP(&t->run, n + 1, char);
        memcpy(exact, text, n);
        sw_status status = sw_site_record(&t->run, r, "cut.csv", exact, n, &findings);
        sw_true(t, status == SW_BAD_INPUT ? findings.count == 0 : findings.count == r->expected_count);
        sw_run_clear_errors(&t->run);
    }
}

static void every_failed_allocation_is_survived(sw_test *t)
{
    const char *text = "name,value\nhot_draught_pa,12\nsmoke_spillage,no\nco_rise_ppm,1\n";
    const sw_site_result *r = solved(t, placed_stove(t));
    sw_arena *arenas[] = {t->run.keep, t->run.scratch};
    for (int a = 0; a < 2; a++) {
        sw_status status = SW_NO_MEMORY;
        for (size_t nth = 1; nth < 1000 && status == SW_NO_MEMORY; nth++) {
            sw_findings findings = {0};
            sw_arena_fail_at(arenas[a], nth);
            status = sw_site_record(&t->run, r, "fire.csv", text, strlen(text), &findings);
            sw_arena_fail_at(arenas[a], 0);
            sw_run_clear_errors(&t->run);
        }
        sw_true(t, status == SW_OK);
    }
}

SW_TESTS(SW_CASE(bands_are_the_handbooks),
         SW_CASE(the_draught_expected_is_that_of_the_chimney_but_the_band_is_the_stoves),
         SW_CASE(readings_pass_are_watched_or_stop), SW_CASE(failed_spillage_test_fails_and_answers_hold),
         SW_CASE(what_was_not_read_is_unknown), SW_CASE(every_wrong_line_is_told_with_the_nearest_name),
         SW_CASE(missing_columns_and_empty_files_are_told), SW_CASE(every_cut_short_record_is_judged_or_refused),
         SW_CASE(every_failed_allocation_is_survived))
