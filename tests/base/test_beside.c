/* Work beside a run: what was found there belongs to the run afterwards. */
#include "sw_test.h"

#include "base/beside.h"

#include <string.h>

static void answers_and_errors_made_beside_live_on(sw_test *t)
{
    sw_run beside;
    char *before = sw_keep(&t->run, 100, 1);
    memset(before, 'a', 100);
    sw_ok(t, sw_run_open_beside(&beside, &t->run, 4));
    char *text = sw_keep(&beside, 300000, 1);
    memset(text, 'b', 300000);
    (void)sw_fail(&beside, SW_BAD_INPUT, (sw_place){0}, "field", "what is wrong");
    size_t bytes = sw_arena_bytes(t->run.keep) + sw_arena_bytes(beside.keep), errors = t->run.error_count;
    sw_run_join(&t->run, &beside);
    sw_true(t, sw_arena_bytes(t->run.keep) == bytes);
    char *after = sw_keep(&t->run, 100, 1);
    memset(after, 'c', 100);
    sw_true(t, before[0] == 'a' && before[99] == 'a' && text[0] == 'b' && text[299999] == 'b');
    if (sw_true(t, t->run.error_count == errors + 1)) sw_same_text(t, t->run.errors[errors].text, "what is wrong");
    sw_run_clear_errors(&t->run);
}

static void what_was_taken_before_survives_a_rewind_to_then(sw_test *t)
{
    sw_run beside;
    char *before = sw_keep(&t->run, 16, 1);
    before[0] = 'a';
    size_t mark = sw_arena_mark(t->run.keep);
    sw_ok(t, sw_run_open_beside(&beside, &t->run, 1));
    for (int i = 0; i < 20; i++) sw_true(t, sw_keep(&beside, 50000, 1) != NULL);
    sw_run_join(&t->run, &beside);
    sw_true(t, sw_keep(&t->run, 50000, 1) != NULL);
    sw_arena_rewind(t->run.keep, mark);
    sw_true(t, sw_arena_mark(t->run.keep) == mark && before[0] == 'a');
    const char *anew = sw_keep(&t->run, 1000, 1);
    for (size_t i = 0; i < 1000; i++)
        if (!sw_true(t, anew[i] == 0)) break; /* memory comes zeroed */
}

static void a_share_is_no_more_than_its_part_of_the_ceiling(sw_test *t)
{
    sw_run run, beside;
    sw_ok(t, sw_run_open(&run, (size_t)8 << 20));
    sw_ok(t, sw_run_open_beside(&beside, &run, 4));
    sw_true(t, sw_keep(&beside, (size_t)3 << 20, 1) == NULL);
    sw_true(t, beside.error_count == 1 && beside.errors[0].status == SW_NO_MEMORY);
    sw_run_join(&run, &beside);
    sw_true(t, run.error_count == 1 && sw_keep(&run, (size_t)6 << 20, 1) != NULL);
    sw_run_close(&run);
}

SW_TESTS(SW_CASE(answers_and_errors_made_beside_live_on), SW_CASE(what_was_taken_before_survives_a_rewind_to_then),
         SW_CASE(a_share_is_no_more_than_its_part_of_the_ceiling))
