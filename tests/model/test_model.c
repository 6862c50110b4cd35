#include "model/model.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

static sw_finding finding_of(sw_sense sense, double value, double limit)
{
    return (sw_finding){.study = "sheet",
                        .check = "least_flange",
                        .what = "",
                        .where = "",
                        .sense = sense,
                        .value = value,
                        .limit = limit,
                        .unit = "mm",
                        .source = "",
                        .remedy = "",
                        .verdict = SW_WATCH};
}

static const sw_finding *judged(sw_test *t, sw_findings *list, sw_finding finding, double watch_margin)
{
    if (!sw_ok(t, sw_finding_add(&t->run, list, finding, watch_margin))) return &list->items[0];
    return &list->items[list->count - 1];
}

static void a_value_is_judged_against_its_limit(sw_test *t)
{
    sw_findings list = {0};
    const sw_finding *f = judged(t, &list, finding_of(SW_AT_LEAST, 12.0, 10.0), 0.1);
    sw_near(t, f->margin, 0.2, 1e-12, "derived: (12 - 10)/10");
    sw_true(t, f->verdict == SW_HOLDS);
    f = judged(t, &list, finding_of(SW_AT_LEAST, 10.5, 10.0), 0.1);
    sw_true(t, f->verdict == SW_WATCH);
    f = judged(t, &list, finding_of(SW_AT_LEAST, 9.0, 10.0), 0.1);
    sw_near(t, f->margin, -0.1, 1e-12, "derived: (9 - 10)/10");
    sw_true(t, f->verdict == SW_FAILS);
    f = judged(t, &list, finding_of(SW_AT_MOST, 8.0, 10.0), 0.0);
    sw_near(t, f->margin, 0.2, 1e-12, "derived: (10 - 8)/10");
    f = judged(t, &list, finding_of(SW_AT_MOST, 10.0, 10.0), 0.0);
    sw_true(t, f->verdict == SW_HOLDS);
}

static void a_limit_of_zero_has_an_absolute_margin(sw_test *t)
{
    sw_findings list = {0};
    sw_near(t, judged(t, &list, finding_of(SW_AT_LEAST, 3.0, 0.0), 0.0)->margin, 3.0, 0.0, "derived: 3 - 0");
    sw_near(t, judged(t, &list, finding_of(SW_AT_MOST, 3.0, 0.0), 0.0)->margin, -3.0, 0.0, "derived: 0 - 3");
}

static void a_missing_number_is_unknown_and_a_statement_keeps_its_verdict(sw_test *t)
{
    sw_findings list = {0};
    sw_true(t, judged(t, &list, finding_of(SW_AT_LEAST, NAN, 1.0), 0.0)->verdict == SW_UNKNOWN);
    sw_true(t, judged(t, &list, finding_of(SW_AT_MOST, 1.0, NAN), 0.0)->verdict == SW_UNKNOWN);
    const sw_finding *stated = judged(t, &list, finding_of(SW_STATED, NAN, NAN), 0.0);
    sw_true(t, stated->verdict == SW_WATCH && isnan(stated->margin));
}

static bool in_order(const sw_finding *a, const sw_finding *b) /* as the header promises; equal ones by `what` */
{
    if (a->verdict != b->verdict) return a->verdict < b->verdict;
    if (!isnan(a->margin) && !isnan(b->margin) && a->margin != b->margin) return a->margin < b->margin;
    if (isnan(a->margin) != isnan(b->margin)) return isnan(b->margin);
    int where = strcmp(a->where, b->where);
    return where != 0 ? where < 0 : strcmp(a->what, b->what) < 0;
}

static void findings_sort_worst_first_and_keep_equal_ones_in_order(sw_test *t)
{
    static const char *const places[] = {"a", "b", "c"};
    sw_random random = sw_random_seeded(7);
    for (int round = 0; round < 20; round++) {
        sw_findings list = {0};
        size_t count = 1 + sw_random_below(&random, 300);
        for (size_t i = 0; i < count; i++) {
            sw_finding f = finding_of(SW_AT_LEAST, (double)sw_random_below(&random, 5), 2.0);
            if (sw_random_below(&random, 9) == 0) f.value = NAN;
            f.where = places[sw_random_below(&random, 3)];
            f.what = sw_text_format(&t->run, t->run.keep, "%05zu", i);
            (void)judged(t, &list, f, 0.3);
        }
        sw_findings_sort(&list);
        sw_true(t, list.count == count);
        for (size_t i = 1; i < count; i++)
            if (!sw_true(t, in_order(&list.items[i - 1], &list.items[i]))) return;
    }
}

static void findings_are_counted_by_verdict_and_begin_without_a_number(sw_test *t)
{
    sw_findings list = {0};
    size_t counts[SW_VERDICTS] = {9, 9, 9, 9};
    sw_finding f = sw_finding_of("sheet", "touch", "a", (sw_place){.line = 7});
    sw_true(t, f.sense == SW_STATED && isnan(f.value) && isnan(f.limit) && f.verdict == SW_HOLDS && f.place.line == 7);
    for (int i = 0; i < 6; i++) {
        f.verdict = i < 1 ? SW_FAILS : i < 3 ? SW_WATCH : SW_HOLDS;
        sw_ok(t, sw_finding_add(&t->run, &list, f, 0));
    }
    sw_findings_count(&list, counts);
    sw_true(t, counts[SW_FAILS] == 1 && counts[SW_WATCH] == 2 && counts[SW_UNKNOWN] == 0 && counts[SW_HOLDS] == 3);
}

static void names_are_the_words_of_the_description(sw_test *t)
{
    sw_same_text(t, sw_joint_kind_name(SW_JOINT_SLOT_TAB), "slot and tab");
    sw_same_text(t, sw_seam_kind_name(SW_SEAM_OUTSIDE), "outside corner");
    sw_same_text(t, sw_verdict_name(SW_FAILS), "fails");
    sw_same_text(t, sw_verdict_name(SW_UNKNOWN), "unknown");
    sw_same_text(t, sw_joint_kind_name(SW_JOINT_KINDS), "");
}

static void a_piece_is_found_by_name_or_number(sw_test *t)
{
    const sw_piece pieces[] = {{.number = "A-01", .name = "left side"}, {.number = "A-02", .name = "back"}};
    const sw_stove stove = {.pieces = pieces, .piece_count = 2};
    sw_true(t, sw_stove_piece_index(&stove, "back") == 1);
    sw_true(t, sw_stove_piece_index(&stove, "A-01") == 0);
    sw_true(t, sw_stove_piece_index(&stove, "front") == -1);
}

static void a_laser_row_is_found_by_grade_and_thickness(sw_test *t)
{
    const sw_grade *s235 = sw_grade_find("S235");
    const sw_laser_row rows[] = {{.grade = s235, .thickness_mm = 3.0}, {.grade = s235, .thickness_mm = 4.0}};
    const sw_works works = {.laser = {.rows = rows, .row_count = 2}};
    sw_true(t, sw_works_laser_row(&works, s235, 4.0) == &rows[1]);
    sw_true(t, sw_works_laser_row(&works, s235, 3.5) == NULL);
    sw_true(t, sw_works_laser_row(&works, sw_grade_find("S355"), 4.0) == NULL);
}

static void a_refused_allocation_is_no_memory(sw_test *t)
{
    sw_findings list = {0};
    sw_arena_fail_at(t->run.keep, 1);
    sw_true(t, sw_finding_add(&t->run, &list, finding_of(SW_AT_LEAST, 1.0, 1.0), 0.0) == SW_NO_MEMORY);
    sw_true(t, list.count == 0);
}

SW_TESTS(SW_CASE(a_value_is_judged_against_its_limit), SW_CASE(a_limit_of_zero_has_an_absolute_margin),
         SW_CASE(a_missing_number_is_unknown_and_a_statement_keeps_its_verdict),
         SW_CASE(findings_sort_worst_first_and_keep_equal_ones_in_order),
         SW_CASE(findings_are_counted_by_verdict_and_begin_without_a_number),
         SW_CASE(names_are_the_words_of_the_description), SW_CASE(a_piece_is_found_by_name_or_number),
         SW_CASE(a_laser_row_is_found_by_grade_and_thickness), SW_CASE(a_refused_allocation_is_no_memory))
