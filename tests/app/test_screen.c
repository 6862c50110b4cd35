/* What stands on the screen: columns, signs and names, on the stove of `stovewright new`. */
#include "app/app.h"
#include "sw_test.h"

#include <string.h>

#define EXAMPLE(kind) SW_SOURCE_DIR "/src/app/example/example." kind ".lua"

static bool made(sw_test *t, unsigned work, sw_dossier *d)
{
    static const sw_request request = {.command = "fit",
                                       .words = {EXAMPLE("stove")},
                                       .word_count = 1,
                                       .works = EXAMPLE("works"),
                                       .house = EXAMPLE("house"),
                                       .batch = 1,
                                       .seed = 1,
                                       .threads = 1};
    return sw_ok(t, sw_dossier_make(&t->run, &request, work, "", d));
}

static const char *printed(sw_test *t, const sw_dossier *d, void (*print)(sw_writer *out, const sw_dossier *d))
{
    sw_writer *out = NULL;
    const char *text = "";
    size_t length = 0;
    if (!sw_ok(t, sw_writer_to_memory(&t->run, &out))) return "";
    print(out, d);
    return sw_ok(t, sw_writer_take(&t->run, out, &text, &length)) ? text : "";
}

/* Letters from the start of its line; of the first place where it stands. */
static size_t column_of(const char *text, const char *words)
{
    const char *at = strstr(text, words), *start = at;
    while (at != NULL && start > text && start[-1] != '\n') start--;
    return at == NULL ? 0 : (size_t)(at - start);
}

static void a_column_is_as_wide_as_its_longest_entry(sw_test *t)
{
    sw_dossier d;
    if (!made(t, SW_DO_HEFT | SW_DO_LIFT | SW_DO_JOIN, &d)) return;
    const char *lifts = printed(t, &d, sw_print_lift), *seams = printed(t, &d, sw_print_join);
    sw_true(t, column_of(lifts, "into the house") == column_of(lifts, "into its place"));
    sw_contains(t, lifts, "grate into the house");
    sw_contains(t, lifts, ", 1 leg\n");
    const char *row = strstr(seams, "joined: ");
    if (!sw_true(t, row != NULL)) return;
    sw_true(t, column_of(seams, "mass kg") + strlen("mass kg") == column_of(row, "47.7") + strlen("47.7"));
}

static void no_figure_is_a_negative_zero(sw_test *t)
{
    sw_dossier d;
    if (!made(t, SW_DO_HEFT | SW_DO_NEST | SW_DO_CUT | SW_DO_FORM | SW_DO_JOIN | SW_DO_COAT | SW_DO_LINE, &d)) return;
    sw_true(t, strstr(printed(t, &d, sw_print_line), " -0.0") == NULL);
    sw_true(t, sw_without_sign(-0.04, 1) == 0 && sw_without_sign(-0.06, 1) < 0);
}

static void how_busy_a_station_is_says_of_what(sw_test *t)
{
    sw_dossier d;
    if (!made(t, SW_DO_HEFT | SW_DO_NEST | SW_DO_CUT | SW_DO_FORM | SW_DO_JOIN | SW_DO_COAT | SW_DO_LINE, &d)) return;
    const char *text = printed(t, &d, sw_print_line);
    sw_contains(t, text, "at takt  in batch");
    sw_contains(t, text, "Busy at takt: ");
}

/* Once the schedule fetched each die again and again, and the paper told two costs of the same stove. */
static void one_stove_costs_the_same_by_its_schedule_and_over_the_batch(sw_test *t)
{
    sw_dossier d;
    if (!made(t, SW_DO_HEFT | SW_DO_NEST | SW_DO_CUT | SW_DO_FORM | SW_DO_JOIN | SW_DO_COAT | SW_DO_LINE, &d)) return;
    const sw_line_result *r = d.shop.line;
    sw_true(t, r->batch_cost_count > 0 && r->batch_costs[0].batch == 1);
    sw_near(t, r->cost.base, r->batch_costs[0].base, 1e-6, "balance: each tool set up once in both");
}

static void worst_case_and_root_of_squares_have_the_drawn_gap_in_them(sw_test *t)
{
    sw_dossier d;
    if (!made(t, SW_DO_FIT, &d)) return;
    const char *text = printed(t, &d, sw_print_fit);
    size_t seen = 0;
    for (size_t i = 0; i < d.shop.fit->joint_count; i++) {
        const sw_fit_joint *j = &d.shop.fit->joints[i];
        const sw_fit_point *p = &j->points[j->judged];
        if (j->point_count == 0 || !(p->gap_mm > 0.1)) continue;
        sw_contains(t, text,
                    sw_text_format(&t->run, t->run.keep, "%7.2f %7.2f %7.2f %7.2f", j->limit_mm, p->gap_mm,
                                   p->gap_mm + p->worst_mm, p->gap_mm + p->rss_mm));
        seen++;
    }
    sw_true(t, seen > 0);
}

static void yes_and_no_stand_in_their_column(sw_test *t)
{
    sw_dossier d;
    if (!made(t, SW_DO_HEFT | SW_DO_BURN | SW_DO_HOUSE, &d)) return;
    const char *text = printed(t, &d, sw_print_site);
    sw_true(t, column_of(text, "smoke match round door") == column_of(text, "steady fire, about 30 min"));
    sw_true(t, column_of(text, " hearth plate, width  ") == column_of(text, " outlet   "));
}

SW_TESTS(SW_CASE(a_column_is_as_wide_as_its_longest_entry), SW_CASE(no_figure_is_a_negative_zero),
         SW_CASE(how_busy_a_station_is_says_of_what),
         SW_CASE(one_stove_costs_the_same_by_its_schedule_and_over_the_batch),
         SW_CASE(worst_case_and_root_of_squares_have_the_drawn_gap_in_them), SW_CASE(yes_and_no_stand_in_their_column))
