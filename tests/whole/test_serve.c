/* What the workbench's server answers: studies, faults, formulas, watching, jobs, variants. */
#include "serve_fixture.h"

/* ---- asking ------------------------------------------------------------------------------------------------------------- */

static void findings_are_those_of_the_command_line(sw_test *t)
{
    server s;
    open_bench(t, &s);
    const char *answer = posted(t, &s, "/api/compute", state);
    answers(t, answer, 200);
    json_t *root = json_loads(body_of(answer), 0, NULL);
    sw_true(t, json_is_number(json_object_get(root, "took_ms")) && json_is_integer(json_object_get(root, "revision")));
    sw_true(t, json_array_size(json_object_get(root, "findings")) > 0);
    json_decref(root);
    const char *model = posted(t, &s, "/api/model", state);
    answers(t, model, 200);
    sw_true(t, strncmp(body_of(model), "glTF", 4) == 0);
    sw_contains(t, posted(t, &s, "/api/flat", "{\"stove\":\"a.stove.lua\",\"piece\":\"A-03\"}"), "<svg");
    stop(t, &s);
}

static void many_who_ask_the_same_at_once_get_the_same(sw_test *t)
{
    static const char full[] = "{\"stove\":\"a.stove.lua\",\"works\":\"demo.works.lua\",\"house\":\"demo.house.lua\"}";
    int lines[6];
    const char *first = NULL;
    server s;
    open_bench(t, &s);
    for (size_t i = 0; i < 6; i++) lines[i] = sent(t, &s, "POST", "/api/compute", "X-Stovewright: 1\r\n", full);
    for (size_t i = 0; i < 6; i++) {
        const char *answer = rest_of(t, lines[i]);
        answers(t, answer, 200);
        if (first == NULL) first = body_of(answer);
        sw_same_text(t, body_of(answer), first); /* to the time it took: it was computed once */
    }
    stop(t, &s);
}

static void an_answer_is_kept_until_a_file_changes(sw_test *t)
{
    server s;
    open_bench(t, &s);
    const char *first = body_of(posted(t, &s, "/api/compute", state));
    sw_same_text(t, body_of(posted(t, &s, "/api/compute", state)), first);
    write_file(t, s.folder, "new.csv", "a\n1\n");
    json_t *before = json_loads(first, 0, NULL);
    json_t *after = json_loads(body_of(posted(t, &s, "/api/compute", state)), 0, NULL);
    sw_true(t, json_integer_value(json_object_get(after, "revision")) >
                   json_integer_value(json_object_get(before, "revision")));
    json_decref(before);
    json_decref(after);
    stop(t, &s);
}

static void all_faults_of_a_file_come_at_once_with_their_lines(sw_test *t)
{
    server s;
    open_bench(t, &s);
    write_file(t, s.folder, "bad.stove.lua", "stove {\n  name = 5,\n  nonsense = 1,\n}\n");
    const char *answer = posted(t, &s, "/api/compute", "{\"stove\":\"bad.stove.lua\"}");
    answers(t, answer, 422);
    json_t *root = json_loads(body_of(answer), 0, NULL);
    const json_t *error = json_object_get(root, "error"), *where = json_object_get(error, "where");
    sw_true(t, json_array_size(json_object_get(root, "errors")) > 1);
    sw_true(t, json_integer_value(json_object_get(where, "line")) > 0);
    sw_same_text(t, json_string_value(json_object_get(where, "file")), "bad.stove.lua");
    json_decref(root);
    sw_contains(t, got(t, &s, "/api/project"), "\"name\":\"bad.stove.lua\"");
    stop(t, &s);
}

typedef struct question {
    const char *path, *body;
    int code;
    const char *part;
} question;

static const question wrong_questions[] = {
    {"/api/compute", "", 400, "no JSON"},
    {"/api/compute", "{\"stove\":", 400, "line 1"},
    {"/api/compute", "[1,2]", 400, "object"},
    {"/api/compute", "{}", 422, "is missing"},
    {"/api/compute", "{\"stove\":\"../a.stove.lua\"}", 422, "file of the project"},
    {"/api/compute", "{\"stove\":\"/etc/passwd\"}", 422, "file of the project"},
    {"/api/compute", "{\"stove\":\"a.stove.lua\",\"works\":7}", 422, "file of the project"},
    {"/api/compute", "{\"stove\":\"none.stove.lua\"}", 500, "No such file"},
    {"/api/compute", "{\"stove\":\"a.stove.lua\",\"batch\":0}", 422, "from 1 to"},
    {"/api/compute", "{\"stove\":\"a.stove.lua\",\"set\":{\"wall\":[]}}", 422, "text or a number"},
    {"/api/compute", "{\"stove\":\"a.stove.lua\",\"studies\":[\"hefd\"]}", 422, "did you mean heft"},
    {"/api/flat", "{\"stove\":\"a.stove.lua\",\"piece\":\"Z-99\"}", 422, "no sheet piece"},
    {"/api/reckon", "{\"name\":\"nothing\"}", 422, "no formula"},
    {"/api/reckon", "{\"name\":\"din6935_k\",\"values\":{\"r\":4}}", 422, "missing"},
    {"/api/job", "{\"kind\":\"holiday\"}", 400, "none we know"},
    {"/api/variants", "{\"name\":\"\"}", 400, "1 to 80"},
    {"/api/nothing", "{}", 404, "nothing under"},
    {"/api/project", "{}", 405, "method"},
};

static void every_wrong_question_is_explained(sw_test *t)
{
    server s;
    open_bench(t, &s);
    for (size_t i = 0; i < sizeof wrong_questions / sizeof *wrong_questions; i++) {
        const question *q = &wrong_questions[i];
        const char *answer = posted(t, &s, q->path, q->body);
        if (!answers(t, answer, q->code)) printf("    %s %s\n", q->path, q->body);
        sw_contains(t, answer, q->part);
        sw_contains(t, answer, "\"remedy\"");
    }
    stop(t, &s);
}

static void a_formula_answers(sw_test *t)
{
    server s;
    open_bench(t, &s);
    sw_contains(t, got(t, &s, "/api/reckon"), "\"din6935_length\"");
    const char *answer =
        posted(t, &s, "/api/reckon",
               "{\"name\":\"din6935_length\",\"values\":{\"r\":4,\"s\":3,\"beta\":90,\"a\":60,\"b\":40}}");
    answers(t, answer, 200);
    sw_contains(t, answer, "\"source\":\"DIN 6935");
    stop(t, &s);
}

/* ---- watching, jobs, variants ---------------------------------------------------------------------------------------------- */

static void a_saved_file_is_told(sw_test *t)
{
    server s;
    open_bench(t, &s);
    json_t *root = json_loads(body_of(got(t, &s, "/api/watch?since=0")), 0, NULL);
    long version = (long)json_integer_value(json_object_get(root, "version"));
    sw_true(t, version > 0 && json_array_size(json_object_get(root, "changed")) >= 5);
    json_decref(root);
    write_file(t, s.folder, "new.stove.lua", "");
    const char *path = sw_text_format(&t->run, t->run.keep, "/api/watch?since=%ld", version);
    sw_contains(t, got(t, &s, path), "\"changed\":[\"new.stove.lua\"]");
    answers(t, got(t, &s, "/api/watch?since=x"), 400);
    stop(t, &s);
}

static void a_job_keeps_its_answer_and_files(sw_test *t)
{
    server s;
    open_bench(t, &s);
    sw_contains(t,
                posted(t, &s, "/api/job",
                       "{\"stove\":\"a.stove.lua\",\"kind\":\"sweep\",\"vary\":[\"draught_pa=8:16:2\"],"
                       "\"report\":[\"output_kw\"]}"),
                "\"job\":1");
    sw_contains(t, posted(t, &s, "/api/job", "{\"stove\":\"none.stove.lua\",\"kind\":\"map\"}"), "\"job\":2");
    const char *done = job_end(t, &s, "/api/job/1");
    sw_contains(t, done, "\"state\":\"done\"");
    sw_contains(t, done, "\"result\":{");
    sw_contains(t, got(t, &s, "/api/job/1/file/sweep.csv"), "draught_pa,output_kw");
    answers(t, got(t, &s, "/api/job/1/file/../../a.stove.lua"), 404);
    answers(t, got(t, &s, "/api/job/1/file/other.csv"), 404);
    answers(t, got(t, &s, "/api/job/99"), 404);
    answers(t, got(t, &s, "/api/job/x"), 404);
    const char *failed = job_end(t, &s, "/api/job/2");
    sw_contains(t, failed, "\"state\":\"failed\"");
    sw_contains(t, failed, "No such file");
    sw_contains(t, got(t, &s, "/api/jobs"), "\"job\":2");
    stop(t, &s);
}

static void a_job_is_cancelled(sw_test *t)
{
    server s;
    open_bench(t, &s);
    (void)posted(t, &s, "/api/job", "{\"stove\":\"a.stove.lua\",\"kind\":\"bands\",\"bands\":5000}");
    (void)posted(t, &s, "/api/job", "{\"stove\":\"a.stove.lua\",\"kind\":\"bands\",\"bands\":5000}");
    sw_contains(t, asked(t, &s, "DELETE", "/api/job/2", "X-Stovewright: 1\r\n", NULL), "\"state\":\"cancelled\"");
    answers(t, asked(t, &s, "DELETE", "/api/job/1", "X-Stovewright: 1\r\n", NULL), 200);
    sw_contains(t, job_end(t, &s, "/api/job/1"), "\"state\":\"cancelled\"");
    stop(t, &s);
}

static void variants_are_kept_and_who_changed_them(sw_test *t)
{
    server s;
    open_bench(t, &s);
    answers(t, posted(t, &s, "/api/variants", "{\"name\":\"wide / tall\",\"state\":{\"stove\":\"a.stove.lua\"}}"), 200);
    sw_contains(t, got(t, &s, "/api/variants"), "\"state\":{\"stove\":\"a.stove.lua\"}");
    answers(t, asked(t, &s, "DELETE", "/api/variants/wide%20%2F%20tall", "X-Stovewright: 1\r\n", NULL), 200);
    sw_same_text(t, body_of(got(t, &s, "/api/variants")), "[]");
    answers(t, asked(t, &s, "DELETE", "/api/variants/none", "X-Stovewright: 1\r\n", NULL), 404);
    sw_contains(t, got(t, &s, "/api/activity"), "\"who\":\"127.0.0.1\",\"what\":\"variant dropped\"");
    stop(t, &s);
}

static void who_changed_what_outlives_the_server(sw_test *t)
{
    server s;
    open_bench(t, &s);
    answers(t, posted(t, &s, "/api/activity", "{\"what\":\"wider\",\"state\":{\"stove\":\"a.stove.lua\"}}"), 200);
    (void)posted(t, &s, "/api/job", "{\"stove\":\"a.stove.lua\",\"kind\":\"bands\",\"bands\":5000}");
    (void)asked(t, &s, "DELETE", "/api/job/1", "X-Stovewright: 1\r\n", NULL);
    halt(t, &s);
    start(t, &s, s.folder, NULL);
    take_cookie(t, &s, got(t, &s, "/"));
    json_t *list = json_loads(body_of(got(t, &s, "/api/activity")), 0, NULL);
    static const char *const newest_first[] = {"job cancelled", "job started", "wider"};
    if (sw_true(t, json_array_size(list) == 3))
        for (size_t i = 0; i < 3; i++) {
            const json_t *entry = json_array_get(list, i);
            sw_same_text(t, json_string_value(json_object_get(entry, "what")), newest_first[i]);
            sw_same_text(t, json_string_value(json_object_get(entry, "who")), "127.0.0.1");
            sw_true(t, json_is_string(json_object_get(entry, "when")) && json_object_get(entry, "about") != NULL);
        }
    json_decref(list);
    stop(t, &s);
}

static void only_the_last_two_hundred_changes_are_told(sw_test *t)
{
    server s;
    open_bench(t, &s);
    for (int i = 0; i < 203; i++) {
        size_t mark = sw_arena_mark(t->run.keep);
        const char *body = sw_text_format(&t->run, t->run.keep, "{\"what\":\"change %d\"}", i);
        if (!answers(t, posted(t, &s, "/api/activity", body), 200)) break;
        sw_arena_rewind(t->run.keep, mark);
    }
    json_t *list = json_loads(body_of(got(t, &s, "/api/activity")), 0, NULL);
    sw_true(t, json_array_size(list) == 200);
    sw_same_text(t, json_string_value(json_object_get(json_array_get(list, 199), "what")), "change 3");
    json_decref(list);
    stop(t, &s);
}

static void a_spoilt_list_of_changes_does_not_keep_the_server_from_starting(sw_test *t)
{
    const char *folder = project(t), *own = sw_text_format(&t->run, t->run.keep, "%s/.stovewright", folder);
    server s;
    sw_true(t, mkdir(own, 0777) == 0);
    write_file(t, own, "activity.json", "[{\"when\": ");
    start(t, &s, folder, NULL);
    take_cookie(t, &s, got(t, &s, "/"));
    sw_same_text(t, body_of(got(t, &s, "/api/activity")), "[]");
    stop(t, &s);
}

/* Both places are taken by nests of most of an hour, and one more waits; all who asked leave, by end or by reset. Who asks now would
 * give up after 100 s (serve_process.h). */
static void what_nobody_waits_for_makes_room(sw_test *t)
{
    const struct linger reset = {.l_onoff = 1};
    const struct timespec pause = {.tv_nsec = 300000000};
    server s;
    open_bench(t, &s);
    for (int i = 0; i < 3; i++) {
        const char *body = sw_text_format(&t->run, t->run.keep,
                                          "{\"stove\":\"a.stove.lua\",\"works\":\"demo.works.lua\",\"batch\":%d,"
                                          "\"seconds\":3000,\"studies\":[\"nest\"]}",
                                          i + 1);
        int line = sent(t, &s, "POST", "/api/compute", "X-Stovewright: 1\r\n", body);
        (void)nanosleep(&pause, NULL);
        if (i > 0) (void)setsockopt(line, SOL_SOCKET, SO_LINGER, &reset, sizeof reset);
        (void)close(line);
    }
    answers(t, posted(t, &s, "/api/compute", state), 200);
    stop(t, &s);
}

SW_TESTS(SW_CASE(many_who_ask_the_same_at_once_get_the_same), SW_CASE(findings_are_those_of_the_command_line),
         SW_CASE(all_faults_of_a_file_come_at_once_with_their_lines), SW_CASE(every_wrong_question_is_explained),
         SW_CASE(a_formula_answers), SW_CASE(a_saved_file_is_told), SW_CASE(a_job_keeps_its_answer_and_files),
         SW_CASE(a_job_is_cancelled), SW_CASE(variants_are_kept_and_who_changed_them),
         SW_CASE(an_answer_is_kept_until_a_file_changes), SW_CASE(who_changed_what_outlives_the_server),
         SW_CASE(only_the_last_two_hundred_changes_are_told),
         SW_CASE(a_spoilt_list_of_changes_does_not_keep_the_server_from_starting),
         SW_CASE(what_nobody_waits_for_makes_room))
