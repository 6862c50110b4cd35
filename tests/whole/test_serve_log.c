/* The works' log over the workbench's server: what is entered, what is refused, what strangers get. */
#include "serve_fixture.h"

#include <sqlite3.h>

/* ---- a log to work on ------------------------------------------------------------------------------------------------ */

static const char at_noon[] = "2026-03-05T12:00:00.250Z";

/* Adds one record; `values` without braces. */
static const char *added(sw_test *t, const server *s, const char *kind, const char *values)
{
    const char *path = sw_text_format(&t->run, t->run.keep, "/api/log/add/%s", kind);
    const char *body = sw_text_format(&t->run, t->run.keep, "{\"by\":\"ab\",\"records\":[{%s}]}", values);
    return posted(t, s, path, body);
}

static void open_log(sw_test *t, server *s)
{
    open_bench(t, s);
    answers(t, posted(t, s, "/api/log/new", "{}"), 200);
}

static void add_stove(sw_test *t, const server *s)
{
    answers(t, added(t, s, "design", "\"name\":\"A-3\",\"part\":\"stove\",\"text\":{\"file\":\"a.stove.lua\"}"), 200);
    answers(t, added(t, s, "batch", "\"name\":\"B-7\",\"design\":\"A-3\",\"stoves\":20"), 200);
    answers(t, added(t, s, "serial", "\"number\":\"S-0001\",\"batch\":\"B-7\""), 200);
    answers(t, added(t, s, "house", "\"name\":\"H-31\",\"flue\":\"holds\",\"reserve_pa\":4.2"), 200);
}

static size_t count_of(sw_test *t, const server *s, const char *path, const char *list)
{
    json_t *root = json_loads(body_of(got(t, s, path)), 0, NULL);
    size_t count = json_array_size(json_object_get(root, list));
    json_decref(root);
    return count;
}

/* ---- making and entering ------------------------------------------------------------------------------------------------- */

static void a_log_that_is_not_there_is_told_and_made(sw_test *t)
{
    server s;
    open_bench(t, &s);
    const char *missing = got(t, &s, "/api/log/about");
    answers(t, missing, 200);
    sw_contains(t, missing, "\"state\":\"missing\"");
    const char *refused = got(t, &s, "/api/log/serials");
    answers(t, refused, 500);
    sw_contains(t, refused, "is not there");
    sw_true(t, strstr(refused, s.folder) == NULL); /* where it lies is no business of the page */
    answers(t, posted(t, &s, "/api/log/new", "{}"), 200);
    sw_contains(t, got(t, &s, "/api/log/about"), "\"state\":\"open\"");
    sw_contains(t, posted(t, &s, "/api/log/new", "{}"), "is there already and holds something");
    sw_contains(t, got(t, &s, "/api/activity"), "\"what\":\"log made\"");
    stop(t, &s);
}

static void another_file_is_the_log_where_it_is_named(sw_test *t)
{
    const char *folder = project(t), *path = sw_text_format(&t->run, t->run.keep, "%s/other.log", folder);
    const char *const more[] = {"--log", path, NULL};
    struct stat about;
    server s;
    start(t, &s, folder, more);
    take_cookie(t, &s, got(t, &s, "/"));
    sw_contains(t, got(t, &s, "/api/log/about"), "\"file\":\"other.log\"");
    answers(t, posted(t, &s, "/api/log/new", "{}"), 200);
    sw_true(t, stat(path, &about) == 0);
    stop(t, &s);
}

static void a_stove_is_entered_and_its_history_read(sw_test *t)
{
    server s;
    open_log(t, &s);
    add_stove(t, &s);
    const char *inspected = posted(t, &s, "/api/log/add/inspection",
                                   "{\"by\":\"ab\",\"at\":\"2026-03-05T12:00:00Z\",\"records\":["
                                   "{\"serial\":\"S-0001\",\"feature\":\"door gap\",\"value\":1.4,\"low\":1,\"high\":2,"
                                   "\"unit\":\"mm\"},"
                                   "{\"serial\":\"S-0001\",\"feature\":\"foot\",\"value\":\"2.5\",\"high\":2}]}");
    answers(t, inspected, 200);
    sw_contains(t, inspected, "\"ids\":[1,2]");
    sw_contains(t, inspected, "\"verdicts\":[\"holds\",\"outside\"]");
    answers(t,
            added(t, &s, "firstfire",
                  "\"serial\":\"S-0001\",\"house\":\"H-31\",\"reading\":\"hot_draught_pa\",\"value\":13,\"low\":10,"
                  "\"high\":20,\"unit\":\"Pa\""),
            200);
    const char *history = got(t, &s, "/api/log/history/S-0001");
    answers(t, history, 200);
    sw_contains(t, history, "\"feature\":\"door gap\"");
    sw_contains(t, history, "\"reading\":\"hot_draught_pa\"");
    sw_contains(t, history, "\"at\":\"2026-03-05T12:00:00Z\"");
    sw_contains(t, history, "\"kind\":\"design\"");
    sw_true(t, strstr(history, "stove {") == NULL); /* descriptions stay where they are */
    const char *serials = got(t, &s, "/api/log/serials?find=s-00");
    sw_contains(t, serials, "\"counts\":{\"inspection\":2,\"firstfire\":1},\"outside\":1,\"open\":0");
    sw_true(t, count_of(t, &s, "/api/log/serials?find=none", "serials") == 0);
    sw_contains(t, got(t, &s, "/api/activity"), "\"what\":\"recorded 2 inspections\"");
    answers(t, got(t, &s, "/api/log/history/S-0002"), 404);
    stop(t, &s);
}

static void a_description_is_kept_word_for_word(sw_test *t)
{
    server s;
    open_log(t, &s);
    add_stove(t, &s);
    const char *command =
        sw_text_format(&t->run, t->run.keep,
                       "cd '%s' && sha256sum a.stove.lua | cut -c1-64 > sum && '%s' log works.log list design "
                       "--json | grep -q \"$(cat sum)\"",
                       s.folder, SW_PROGRAM);
    sw_true(t, system(command) == 0);
    stop(t, &s);
}

static void what_is_sent_again_stands_once(sw_test *t)
{
    server s;
    open_log(t, &s);
    add_stove(t, &s);
    const char *body =
        sw_text_format(&t->run, t->run.keep,
                       "{\"by\":\"ab\",\"at\":\"%s\",\"records\":[{\"serial\":\"S-0001\",\"house\":\"H-31\","
                       "\"reading\":\"flue_gas_c\",\"value\":301.1},{\"serial\":\"S-0001\","
                       "\"house\":\"H-31\",\"reading\":\"papers\",\"value\":1,\"note\":\"handed over\"}]}",
                       at_noon);
    sw_contains(t, posted(t, &s, "/api/log/add/firstfire", body), "\"ids\":[1,2],\"appended\":2");
    const char *again = posted(t, &s, "/api/log/add/firstfire", body);
    answers(t, again, 200);
    sw_contains(t, again, "\"ids\":[1,2],\"appended\":0");
    sw_true(t, count_of(t, &s, "/api/log/list/firstfires", "records") == 2);
    stop(t, &s);
}

static void all_of_a_call_is_recorded_or_nothing(sw_test *t)
{
    server s;
    open_log(t, &s);
    add_stove(t, &s);
    const char *answer = posted(t, &s, "/api/log/add/inspection",
                                "{\"by\":\"ab\",\"records\":[{\"serial\":\"S-0001\",\"feature\":\"foot\",\"value\":2},"
                                "{\"serial\":\"S-0009\",\"feature\":\"foot\",\"value\":2},"
                                "{\"serial\":\"S-0001\",\"value\":2}]}");
    answers(t, answer, 422);
    sw_contains(t, answer, "there is no serial \\\"S-0009\\\"; add it first");
    sw_contains(t, answer, "{\"file\":\"inspections\",\"line\":2}");
    sw_contains(t, answer, "{\"file\":\"inspections\",\"line\":3}");
    sw_true(t, count_of(t, &s, "/api/log/list/inspection", "records") == 0);
    stop(t, &s);
}

static void a_correction_is_appended_and_the_old_one_stays(sw_test *t)
{
    server s;
    open_log(t, &s);
    add_stove(t, &s);
    answers(t, added(t, &s, "inspection", "\"serial\":\"S-0001\",\"feature\":\"foot\",\"value\":7"), 200);
    answers(t, posted(t, &s, "/api/log/correct/inspection/1", "{\"by\":\"cd\",\"values\":{\"value\":1.7}}"), 422);
    const char *corrected = posted(t, &s, "/api/log/correct/inspection/1",
                                   "{\"by\":\"cd\",\"why\":\"misread\",\"values\":{\"value\":1.7}}");
    answers(t, corrected, 200);
    sw_contains(t, corrected, "\"id\":2");
    sw_contains(t, posted(t, &s, "/api/log/withdraw/inspection/1", "{\"by\":\"cd\",\"why\":\"x\"}"),
                "was corrected by number 2 before; correct that one");
    const char *holds = got(t, &s, "/api/log/list/inspection");
    sw_contains(t, holds, "\"value\":1.7");
    sw_true(t, strstr(holds, "\"value\":7") == NULL);
    sw_contains(t, got(t, &s, "/api/log/list/inspection?all=1"), "\"value\":7");
    answers(t, posted(t, &s, "/api/log/withdraw/inspection/2", "{\"by\":\"cd\",\"why\":\"other stove\"}"), 200);
    sw_true(t, count_of(t, &s, "/api/log/list/inspection", "records") == 0);
    sw_true(t, count_of(t, &s, "/api/log/list/inspection?all=1", "records") == 3);
    stop(t, &s);
}

static void lists_take_fields_times_and_a_length(sw_test *t)
{
    server s;
    open_log(t, &s);
    add_stove(t, &s);
    for (int i = 1; i <= 5; i++)
        answers(t,
                added(t, &s, "sheet",
                      sw_text_format(&t->run, t->run.keep,
                                     "\"name\":\"P-%d\",\"heat\":\"48%d\",\"material\":\"S235\",\"thickness_mm\":%d,"
                                     "\"length_mm\":3000,\"width_mm\":1500",
                                     i, i % 2, i)),
                200);
    const char *newest = got(t, &s, "/api/log/list/sheet?most=2");
    sw_contains(t, newest, "\"more\":true");
    sw_true(t, strstr(newest, "P-5") != NULL && strstr(newest, "P-4") != NULL && strstr(newest, "P-3") == NULL);
    sw_true(t, count_of(t, &s, "/api/log/list/sheets?heat=481", "records") == 3);
    sw_true(t, count_of(t, &s, "/api/log/list/sheets?thickness_mm=2", "records") == 1);
    sw_true(t, count_of(t, &s, "/api/log/list/sheets?until=2020-01-01", "records") == 0);
    sw_contains(t, got(t, &s, "/api/log/kinds"), "\"name\":\"nonconformity\"");
    sw_contains(t, got(t, &s, "/api/log/stock"), "\"stock\":[]");
    sw_contains(t, got(t, &s, "/api/log/stats"), "\"capability\":[]");
    stop(t, &s);
}

/* ---- fools -------------------------------------------------------------------------------------------------------------------- */

typedef struct wrong_entry {
    const char *path, *body; /* body NULL: asked with GET */
    int code;
    const char *part;
} wrong_entry;

static const wrong_entry wrong_entries[] = {
    {"/api/log/add/inspection", "", 400, "no JSON"},
    {"/api/log/add/inspection", "[]", 400, "object"},
    {"/api/log/add/inspection", "{\"by\":\"a\\u0000b\",\"records\":[{}]}", 400, "no JSON"},
    {"/api/log/add/inspection", "{}", 422, "list of 1 to 500"},
    {"/api/log/add/inspection", "{\"records\":{}}", 422, "list of 1 to 500"},
    {"/api/log/add/inspection", "{\"records\":[]}", 422, "list of 1 to 500"},
    {"/api/log/add/inspection", "{\"records\":[7]}", 422, "must be an object"},
    {"/api/log/add/inspection", "{\"records\":[{}]}", 422, "who enters this"},
    {"/api/log/add/inspection", "{\"by\":7,\"records\":[{}]}", 422, "must be a text"},
    {"/api/log/add/inspection", "{\"by\":\"ab\",\"at\":\"noon\",\"records\":[{}]}", 422, "is no time"},
    {"/api/log/add/inspection", "{\"by\":\"ab\",\"records\":[{\"values\":1}]}", 422, "did you mean value?"},
    {"/api/log/add/inspection", "{\"by\":\"ab\",\"records\":[{\"value\":true}]}", 422, "text or a number"},
    {"/api/log/add/inspection", "{\"by\":\"ab\",\"records\":[{\"value\":\"1,4\"}]}", 422, "is no number"},
    {"/api/log/add/inspection", "{\"by\":\"ab\",\"records\":[{\"value\":\"nan\"}]}", 422, "is no number"},
    {"/api/log/add/inspection", "{\"by\":\"ab\",\"record\":[],\"records\":[{}]}", 422, "is not asked for here"},
    {"/api/log/add/inspection", "{\"by\":\"ab\",\"id\":4,\"records\":[{}]}", 422, "is not asked for here"},
    {"/api/log/add/inspection", "{\"by\":\"ab\",\"records\":[{\"id\":4}]}", 422, "is no field"},
    {"/api/log/add/inspektion", "{\"by\":\"ab\",\"records\":[{}]}", 422, "did you mean inspection?"},
    {"/api/log/add/sqlite_master", "{\"by\":\"ab\",\"records\":[{}]}", 422, "is no kind of record"},
    {"/api/log/add/serial%22%3BDROP%20TABLE%20serial", "{\"by\":\"ab\",\"records\":[{}]}", 422, "is no kind of record"},
    {"/api/log/add/", "{}", 404, "nothing under"},
    {"/api/log/correct/inspection", "{\"by\":\"ab\"}", 422, "KIND/NUMBER"},
    {"/api/log/correct/inspection/x", "{\"by\":\"ab\"}", 422, "KIND/NUMBER"},
    {"/api/log/correct/inspection/-1", "{\"by\":\"ab\"}", 422, "KIND/NUMBER"},
    {"/api/log/correct/inspection/99999999999999999999", "{\"by\":\"ab\"}", 422, "KIND/NUMBER"},
    {"/api/log/correct/inspection/77", "{\"by\":\"ab\",\"why\":\"x\"}", 422, "there is no inspection number 77"},
    {"/api/log/withdraw/inspection/77", "{\"by\":\"ab\",\"values\":{}}", 422, "is not asked for here"},
    {"/api/log/nothing", "{}", 404, "nothing under"},
    {"/api/log/serials", "{}", 405, "method"},
    {"/api/log/", NULL, 404, "nothing under"},
    {"/api/log/new", NULL, 405, "method"},
    {"/api/log/list/", NULL, 404, "nothing under"},
    {"/api/log/list/serial?numer=x", NULL, 422, "did you mean number?"},
    {"/api/log/list/serial?most=0", NULL, 422, "from 1 to 1000"},
    {"/api/log/list/serial?most=1e3", NULL, 422, "from 1 to 1000"},
    {"/api/log/list/serial?from=x", NULL, 422, "is no time"},
    {"/api/log/list/serial?number=%ff", NULL, 422, "UTF-8"},
    {"/api/log/list/serial?%ff=1", NULL, 422, "UTF-8"},
    {"/api/log/list/%ff", NULL, 404, "nothing under"},
    {"/api/log/history/%ff%00", NULL, 404, "no stove of this number"},
    {"/api/log/history/S-0001'%20OR%20'1'='1", NULL, 404, "no stove of this number"},
    {"/api/log/list/serial?number=S-0001'%20OR%20'1'='1", NULL, 200, "\"records\":[]"},
};

static void every_wrong_entry_is_explained_and_none_recorded(sw_test *t)
{
    server s;
    open_log(t, &s);
    add_stove(t, &s);
    for (size_t i = 0; i < sizeof wrong_entries / sizeof *wrong_entries; i++) {
        const wrong_entry *w = &wrong_entries[i];
        const char *answer = w->body == NULL ? got(t, &s, w->path) : posted(t, &s, w->path, w->body);
        if (!answers(t, answer, w->code)) printf("    %s %s\n", w->path, w->body == NULL ? "" : w->body);
        sw_contains(t, answer, w->part);
    }
    answers(t, asked(t, &s, "DELETE", "/api/log/list/serial", "X-Stovewright: 1\r\n", NULL), 405);
    sw_true(t, count_of(t, &s, "/api/log/list/inspection?all=1", "records") == 0);
    sw_true(t, count_of(t, &s, "/api/log/serials", "serials") == 1);
    stop(t, &s);
}

/* On the command line @ takes a file; who asks over the net must not have the server read one. */
static void no_entry_makes_the_server_read_a_file_outside(sw_test *t)
{
    static const char *const files[] = {"../a.stove.lua", "/etc/passwd", "works.log", ".stovewright/activity.json",
                                        "sub/a.stove.lua"};
    server s;
    open_log(t, &s);
    answers(t, added(t, &s, "design", "\"name\":\"X\",\"part\":\"stove\",\"text\":\"@/etc/hostname\""), 200);
    const char *literal =
        sw_text_format(&t->run, t->run.keep, "'%s' log '%s/works.log' list design --json | grep -q '@/etc/hostname'",
                       SW_PROGRAM, s.folder);
    sw_true(t, system(literal) == 0);
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        const char *answer =
            added(t, &s, "design",
                  sw_text_format(&t->run, t->run.keep, "\"name\":\"Y\",\"part\":\"stove\",\"text\":{\"file\":\"%s\"}",
                                 files[i]));
        answers(t, answer, 422);
        sw_contains(t, answer, "must name a description of the project");
    }
    sw_contains(t, added(t, &s, "design", "\"name\":{\"file\":\"a.stove.lua\"},\"part\":\"stove\",\"text\":\"x\""),
                "takes no file");
    stop(t, &s);
}

static void strangers_reach_no_log(sw_test *t)
{
    static const char body[] = "{\"by\":\"ab\",\"records\":[{\"name\":\"H-1\",\"flue\":\"holds\"}]}";
    server s;
    open_log(t, &s);
    server stranger = s;
    stranger.cookie[0] = '\0';
    answers(t, got(t, &stranger, "/api/log/serials"), 401);
    answers(t, posted(t, &stranger, "/api/log/add/house", body), 401);
    answers(t, asked(t, &s, "POST", "/api/log/add/house", "", body), 403);
    answers(
        t, asked(t, &s, "POST", "/api/log/add/house", "X-Stovewright: 1\r\nOrigin: http://elsewhere.example\r\n", body),
        403);
    const char *large =
        sw_text_format(&t->run, t->run.keep,
                       "POST /api/log/add/house HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n%sX-Stovewright: 1\r\n"
                       "Content-Length: 2000000\r\n\r\n",
                       s.port, s.cookie);
    answers(t, heard(t, &s, large, strlen(large)), 413);
    sw_true(t, count_of(t, &s, "/api/log/list/house", "records") == 0);
    stop(t, &s);
}

/* ---- a file that cannot be used ------------------------------------------------------------------------------------------------ */

static sqlite3 *opened(sw_test *t, const server *s)
{
    sqlite3 *db = NULL;
    sw_true(t, sqlite3_open(sw_text_format(&t->run, t->run.keep, "%s/works.log", s->folder), &db) == SQLITE_OK);
    return db;
}

static void a_log_held_by_another_program_is_told(sw_test *t)
{
    server s;
    open_log(t, &s);
    sqlite3 *db = opened(t, &s);
    sw_true(t, sqlite3_exec(db, "BEGIN IMMEDIATE", NULL, NULL, NULL) == SQLITE_OK);
    const char *refused = added(t, &s, "house", "\"name\":\"H-1\",\"flue\":\"holds\"");
    answers(t, refused, 500);
    sw_contains(t, refused, "another program holds it and did not let go within 3 s; nothing was recorded");
    answers(t, got(t, &s, "/api/log/list/house"), 200); /* it can still be read */
    sw_true(t, sqlite3_exec(db, "ROLLBACK", NULL, NULL, NULL) == SQLITE_OK);
    (void)sqlite3_close(db);
    answers(t, added(t, &s, "house", "\"name\":\"H-1\",\"flue\":\"holds\""), 200);
    stop(t, &s);
}

static void a_log_of_a_newer_program_is_left_alone(sw_test *t)
{
    server s;
    open_log(t, &s);
    sqlite3 *db = opened(t, &s);
    sw_true(t, sqlite3_exec(db, "PRAGMA user_version=99", NULL, NULL, NULL) == SQLITE_OK);
    (void)sqlite3_close(db);
    const char *about = got(t, &s, "/api/log/about");
    sw_contains(t, about, "\"state\":\"unusable\"");
    sw_contains(t, about, "is a log of version 99, this program knows up to");
    sw_contains(t, added(t, &s, "house", "\"name\":\"H-1\",\"flue\":\"holds\""), "nothing was touched");
    sw_contains(t, got(t, &s, "/api/log/serials"), "use the newer program");
    stop(t, &s);
}

static void a_file_that_is_no_log_is_left_alone(sw_test *t)
{
    server s;
    open_bench(t, &s);
    write_file(t, s.folder, "works.log", "a list of things to buy\n");
    sw_contains(t, got(t, &s, "/api/log/about"), "is no log");
    sw_contains(t, posted(t, &s, "/api/log/new", "{}"), "nothing was touched");
    const char *same =
        sw_text_format(&t->run, t->run.keep, "echo 'a list of things to buy' | cmp -s - '%s/works.log'", s.folder);
    sw_true(t, system(same) == 0);
    stop(t, &s);
}

/* Threads of one process share its file locks: the server must not let one call drop another's. */
static void many_who_enter_at_once_lose_nothing(sw_test *t)
{
    enum { ROUNDS = 4, AT_ONCE = 12 };
    int lines[AT_ONCE];
    server s;
    open_log(t, &s);
    add_stove(t, &s);
    for (int round = 0; round < ROUNDS; round++) {
        for (int i = 0; i < AT_ONCE; i++)
            lines[i] =
                sent(t, &s, "POST", "/api/log/add/service", "X-Stovewright: 1\r\n",
                     "{\"by\":\"ab\",\"records\":[{\"serial\":\"S-0001\",\"what\":\"swept\",\"state\":\"good\"}]}");
        const char *beside =
            sw_text_format(&t->run, t->run.keep,
                           "'%s' log '%s/works.log' add service serial=S-0001 what=rope state=good by=cd >/dev/null",
                           SW_PROGRAM, s.folder);
        sw_true(t, system(beside) == 0);
        for (int i = 0; i < AT_ONCE; i++) answers(t, rest_of(t, lines[i]), 200);
    }
    sw_true(t, count_of(t, &s, "/api/log/list/service", "records") == ROUNDS * (AT_ONCE + 1));
    const char *check =
        sw_text_format(&t->run, t->run.keep, "'%s' log '%s/works.log' check >/dev/null", SW_PROGRAM, s.folder);
    sw_true(t, system(check) == 0);
    stop(t, &s);
}

SW_TESTS(SW_CASE(a_log_that_is_not_there_is_told_and_made), SW_CASE(another_file_is_the_log_where_it_is_named),
         SW_CASE(a_stove_is_entered_and_its_history_read), SW_CASE(a_description_is_kept_word_for_word),
         SW_CASE(what_is_sent_again_stands_once), SW_CASE(all_of_a_call_is_recorded_or_nothing),
         SW_CASE(a_correction_is_appended_and_the_old_one_stays), SW_CASE(lists_take_fields_times_and_a_length),
         SW_CASE(every_wrong_entry_is_explained_and_none_recorded),
         SW_CASE(no_entry_makes_the_server_read_a_file_outside), SW_CASE(strangers_reach_no_log),
         SW_CASE(a_log_held_by_another_program_is_told), SW_CASE(a_log_of_a_newer_program_is_left_alone),
         SW_CASE(a_file_that_is_no_log_is_left_alone), SW_CASE(many_who_enter_at_once_lose_nothing))
