/* The workbench's server under many at once: everyone is answered, and it grows neither in threads nor in memory. */
#include "serve_fixture.h"
#include "serve_load.h"

/* Threads: one that talks, one that keeps house, one for jobs and three hands, of which those that compute do so on up to 8
 * (serve.c): 38 at most, and some for sanitizers; a thread a client would be 220. Memory: 120 MB as measured, a little more than two
 * answers at a time and those kept (serve.h); the rest is for sanitizers and for more cores. */
enum { THREADS_MOST = 64, MEMORY_MOST_KB = 1500 << 10 };

static void two_hundred_who_poll_and_twenty_who_drag_are_all_answered(sw_test *t)
{
    server s;
    open_bench(t, &s);
    load l = {.server = &s, .pollers = 200, .askers = 20, .seconds = 3};
    l.touched = sw_text_format(&t->run, t->run.keep, "%s/touched.csv", s.folder);
    load_run(&l);
    if (atomic_load(&l.errors) > 0) printf("    %s\n", l.fault);
    sw_true(t, atomic_load(&l.errors) == 0);
    sw_true(t, l.polls.count > 200 && l.answers.count >= 20);
    sw_true(t, l.threads > 0 && l.threads <= THREADS_MOST);
    sw_true(t, l.memory_kb > 0 && l.memory_kb <= MEMORY_MOST_KB);
    answers(t, posted(t, &s, "/api/compute", state), 200);
    free(l.polls.s);
    free(l.answers.s);
    stop(t, &s);
}

SW_TESTS(SW_CASE(two_hundred_who_poll_and_twenty_who_drag_are_all_answered))
