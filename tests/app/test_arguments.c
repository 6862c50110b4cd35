/* Which option goes with which command, and what may stand where the stove does. */
#include "app/app.h"
#include "sw_test.h"

enum { MOST = 8 };

static sw_status read(sw_test *t, const char *line)
{
    sw_request request;
    char *words[MOST] = {"stovewright"}, *rest = (char *)(uintptr_t)sw_text_copy(&t->run, t->run.keep, line);
    int count = 1;
    for (char *at = rest; *at != '\0' && count < MOST;) {
        words[count++] = at;
        while (*at != ' ' && *at != '\0') at++;
        if (*at == ' ') *at++ = '\0';
    }
    sw_run_clear_errors(&t->run);
    return sw_request_read(&t->run, count, words, &request);
}

static void an_option_that_a_command_does_not_heed_is_refused_and_told_where_it_goes(sw_test *t)
{
    static const char *const wrong[][2] = {{"sheet E --out x.svg", "give it to make, nest, join, sweep, trial and log"},
                                           {"check E --out zzz", "changes nothing in what `check` does"},
                                           {"check E --vary lining=24mm:30mm:4", "give it to sweep"},
                                           {"nest E --record r.csv", "give it to site, check and make"},
                                           {"fire E --batch 3", "changes nothing in what `fire` does"},
                                           {"fire E --map", "give it to heat, make and flue"},
                                           {"air E --explain", "give it to flue"},
                                           {"--report cost heat E", "give it to sweep"},
                                           {"flue E --batch=5", "changes nothing in what `flue` does"},
                                           {"reckon bulge --works W", "changes nothing in what `reckon` does"}};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        sw_true(t, read(t, wrong[i][0]) == SW_BAD_INPUT && t->run.error_count == 1);
        sw_contains(t, t->run.errors[0].text, wrong[i][1]);
    }
}

static void an_option_is_taken_where_its_help_lists_it(sw_test *t)
{
    static const char *const right[] = {"make E --out folder --batch 20", "sweep E --vary a=1:2:3 --report cost",
                                        "site E --record r.csv",          "fit E --batch 20 --measured m.csv",
                                        "coat E --batch 4 --json",        "nest --instance i.json --iterations 9",
                                        "log FILE stock --all --json",    "serve demo --seed 3 --port 0",
                                        "flue E --map --explain",         "join E --out seams.csv"};
    for (size_t i = 0; i < sizeof right / sizeof *right; i++) sw_ok(t, read(t, right[i]));
}

static void a_works_or_a_house_where_the_stove_belongs_is_told_by_its_name(sw_test *t)
{
    sw_true(t, read(t, "check mine/example.works.lua") == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "describes a works: give it with --works");
    sw_true(t, read(t, "flue mine/example.house.lua") == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "describes a house: give it with --house");
    sw_ok(t, read(t, "check mine/example.stove.lua --works mine/example.works.lua"));
}

SW_TESTS(SW_CASE(an_option_that_a_command_does_not_heed_is_refused_and_told_where_it_goes),
         SW_CASE(an_option_is_taken_where_its_help_lists_it),
         SW_CASE(a_works_or_a_house_where_the_stove_belongs_is_told_by_its_name))
