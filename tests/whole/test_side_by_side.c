/* Studies side by side on two threads give, to the letter, what they give one after another. */
#include "demo_request.h"
#include "sw_test.h"

#include <stdio.h>
#include <string.h>

static const char *told(sw_test *t, const sw_request *request, int threads)
{
    sw_run run;
    sw_dossier d;
    sw_writer *w = NULL;
    const char *text = "";
    size_t length = 0;
    if (!sw_ok(t, sw_run_open(&run, (size_t)1 << 30))) return "";
    run.threads = threads;
    sw_status status = sw_dossier_make(&run, request, SW_DO_CHECK, "", &d);
    if (status == SW_OK) status = sw_writer_to_memory(&run, &w);
    if (status == SW_OK) status = sw_paper_json(&run, &d, w);
    if (status == SW_OK) status = sw_writer_take(&run, w, &text, &length);
    sw_true(t, status == SW_OK && length > 1000);
    text = sw_text_copy(&t->run, t->run.keep, text);
    sw_run_close(&run);
    return text;
}

/* Behind the time a nest took, which is never the same. */
static bool same_but_for_seconds(const char *a, const char *b)
{
    while (*a != '\0' && *a == *b) {
        if (strncmp(a, "\"seconds\":", 10) == 0) {
            a += 10 + strcspn(a + 10, ",}");
            b += 10 + strcspn(b + 10, ",}");
        } else {
            a++;
            b++;
        }
    }
    if (*a != *b) printf("    %.80s\n    %.80s\n", a, b);
    return *a == *b;
}

static void compare(sw_test *t, const char *stove, const char *house)
{
    sw_request request = DEMO_REQUEST;
    request.words[0] = stove;
    request.house = house;
    request.batch = 2;
    sw_true(t, same_but_for_seconds(told(t, &request, 1), told(t, &request, 2)));
}

static void the_three_stoves_get_the_same_answers(sw_test *t)
{
    compare(t, SW_SOURCE_DIR "/demo/a.stove.lua", SW_SOURCE_DIR "/demo/demo.house.lua");
    compare(t, SW_SOURCE_DIR "/demo/b.stove.lua", NULL);
    compare(t, SW_SOURCE_DIR "/demo/c.stove.lua", NULL);
}

static sw_status status_within(sw_test *t, size_t ceiling_bytes)
{
    sw_run run;
    sw_dossier d;
    const sw_request request = DEMO_REQUEST;
    if (!sw_ok(t, sw_run_open(&run, ceiling_bytes))) return SW_INTERNAL;
    run.threads = 2;
    sw_status status = sw_dossier_make(&run, &request, SW_DO_CHECK, "", &d);
    sw_true(t, status == SW_OK || run.error_count > 0);
    sw_run_close(&run);
    return status;
}

static void too_little_memory_is_told(sw_test *t)
{
    for (size_t mb = 2; mb <= 32; mb *= 2) {
        sw_status status = status_within(t, mb << 20);
        sw_true(t, status == SW_OK || status == SW_NO_MEMORY);
    }
    sw_true(t, status_within(t, (size_t)2 << 20) == SW_NO_MEMORY);
}

SW_TESTS(SW_CASE(the_three_stoves_get_the_same_answers), SW_CASE(too_little_memory_is_told))
