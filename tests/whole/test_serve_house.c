/* The workbench's house: a working copy of its text, and the stove on its chimney in any weather. */
#include "serve_fixture.h"

#include <math.h>

#define ASKED "\"stove\":\"a.stove.lua\",\"house\":\"demo.house.lua\""

/* Of a house without a stabiliser, which would hold the draught. */
static const char weather[] =
    "{\"stove\":\"a.stove.lua\",\"house\":\"short.house.lua\",\"outside_c\":%g,\"wind_pa\":%g}";

/* The house's text with one word put in another's place. */
static json_t *changed(sw_test *t, server *s, const char *old, const char *new)
{
    const char *text = body_of(got(t, s, "/api/house/demo.house.lua")), *at = strstr(text, old);
    if (!sw_true(t, at != NULL)) return NULL;
    const char *copy = sw_text_format(&t->run, t->run.keep, "%.*s%s%s", (int)(at - text), text, new, at + strlen(old));
    return json_pack("{s:s, s:s, s:s, s:[s]}", "stove", "a.stove.lua", "house", "demo.house.lua", "house_text", copy,
                     "studies", "house");
}

static const char *ask(sw_test *t, server *s, json_t *body)
{
    char *text = json_dumps(body, JSON_COMPACT);
    const char *answer = posted(t, s, "/api/compute", text);
    free(text);
    json_decref(body);
    return answer;
}

static void a_working_copy_is_computed_and_the_file_stays(sw_test *t)
{
    server s;
    open_bench(t, &s);
    const char *before = body_of(got(t, &s, "/api/house/demo.house.lua"));
    const char *answer = ask(t, &s, changed(t, &s, "length = 3*m", "length = 4.5*m"));
    answers(t, answer, 200);
    json_t *root = json_loads(body_of(answer), 0, NULL);
    const json_t *part = json_array_get(json_object_get(json_object_get(root, "house"), "parts"), 1);
    sw_same_text(t, json_string_value(json_object_get(part, "name")), "in the rooms");
    sw_near(t, json_real_value(json_object_get(part, "length_m")), 4.5, 1e-12, "as it was written");
    json_decref(root);
    sw_same_text(t, body_of(got(t, &s, "/api/house/demo.house.lua")), before);
    stop(t, &s);
}

static void faults_of_a_working_copy_are_told_at_its_lines(sw_test *t)
{
    server s;
    open_bench(t, &s);
    const char *answer = ask(t, &s, changed(t, &s, "length = 3*m", "lenght = 3*m"));
    answers(t, answer, 422);
    json_t *root = json_loads(body_of(answer), 0, NULL);
    const json_t *where = json_object_get(json_object_get(root, "error"), "where");
    sw_same_text(t, json_string_value(json_object_get(where, "file")), "demo.house.lua");
    sw_true(t, json_integer_value(json_object_get(where, "line")) == 14);
    json_decref(root);
    stop(t, &s);
}

static void a_working_copy_reaches_nothing_outside_its_sandbox(sw_test *t)
{
    server s;
    open_bench(t, &s);
    answers(t, ask(t, &s, changed(t, &s, "house {", "local f = io.open(\"x\")\nhouse {")), 422);
    answers(t, ask(t, &s, changed(t, &s, "house {", "while true do end\nhouse {")), 422);
    stop(t, &s);
}

static double draught_pa(sw_test *t, server *s, double outside_c, double wind_pa)
{
    const char *body = sw_text_format(&t->run, t->run.keep, weather, outside_c, wind_pa);
    const char *answer = posted(t, s, "/api/operating", body);
    answers(t, answer, 200);
    json_t *root = json_loads(body_of(answer), 0, NULL);
    const json_t *along = json_object_get(root, "along");
    sw_true(t, json_array_size(json_object_get(along, "parts")) == 2);
    double pa = json_real_value(json_object_get(json_object_get(root, "point"), "draught_pa"));
    json_decref(root);
    return pa;
}

static void cold_weather_draws_more_and_wind_takes_some_of_it(sw_test *t)
{
    server s;
    open_bench(t, &s);
    copy_file(t, "short.house.lua", s.folder);
    double mild = draught_pa(t, &s, 15, 0);
    sw_true(t, draught_pa(t, &s, -10, 0) > mild + 1);
    double windy = draught_pa(t, &s, 15, 5);
    sw_true(t, fabs(mild - windy - 5) < 1);
    stop(t, &s);
}

typedef struct refusal {
    const char *path, *body;
    int code;
    const char *part;
} refusal;

static const refusal refusals[] = {
    {"/api/operating", "{" ASKED ",\"outside_c\":80}", 422, "from -50 to 45"},
    {"/api/operating", "{" ASKED ",\"wind_pa\":\"strong\"}", 422, "wind_pa"},
    {"/api/operating", "{\"stove\":\"a.stove.lua\"}", 422, "*.house.lua"},
    {"/api/compute", "{" ASKED ",\"house_text\":5}", 422, "must be a text"},
    {"/api/compute", "{\"stove\":\"a.stove.lua\",\"house_text\":\"\"}", 422, "needs house"},
};

static void what_cannot_be_asked_is_explained(sw_test *t)
{
    server s;
    open_bench(t, &s);
    for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++) {
        const char *answer = posted(t, &s, refusals[i].path, refusals[i].body);
        answers(t, answer, refusals[i].code);
        sw_contains(t, answer, refusals[i].part);
    }
    answers(t, got(t, &s, "/api/house/none.house.lua"), 404);
    answers(t, got(t, &s, "/api/house/a.stove.lua"), 404);
    answers(t, got(t, &s, "/api/house/..%2Fdemo.house.lua"), 404);
    stop(t, &s);
}

static void a_dossier_holds_the_calculation_line_by_line(sw_test *t)
{
    server s;
    open_bench(t, &s);
    sw_contains(t, posted(t, &s, "/api/job", "{" ASKED ",\"kind\":\"dossier\"}"), "\"job\":1");
    sw_contains(t, job_end(t, &s, "/api/job/1"), "\"state\":\"done\"");
    const char *page = got(t, &s, "/api/job/1/file/dossier.html");
    sw_contains(t, page, "The chimney, line by line");
    sw_contains(t, page, "On the real chimney");
    stop(t, &s);
}

SW_TESTS(SW_CASE(a_dossier_holds_the_calculation_line_by_line), SW_CASE(a_working_copy_is_computed_and_the_file_stays),
         SW_CASE(faults_of_a_working_copy_are_told_at_its_lines),
         SW_CASE(a_working_copy_reaches_nothing_outside_its_sandbox),
         SW_CASE(cold_weather_draws_more_and_wind_takes_some_of_it), SW_CASE(what_cannot_be_asked_is_explained))
