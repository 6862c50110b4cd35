/* Strip instances as the literature gives them: read, solved, told; wrong ones refused with the place and the remedy. */
#include "program.h"

#include <jansson.h>

static const char *written(sw_test *t, const char *text)
{
    char *path = sw_keep(&t->run, 64, 1);
    strcpy(path, "/tmp/sw-instance-XXXXXX");
    int file = mkstemp(path);
    size_t length = strlen(text);
    sw_true(t, file >= 0 && write(file, text, length) == (ssize_t)length);
    (void)close(file);
    return path;
}

static outcome nested(sw_test *t, const char *text, const char *more)
{
    const char *path = written(t, text);
    outcome o = said(t, sw_text_format(&t->run, t->run.keep, "nest --instance %s %s", path, more));
    (void)unlink(path);
    return o;
}

/* Four squares of 20 and two halves of 20 x 40 fill 40 x 80 to the last corner. */
static const char full[] = "{\"name\": \"full\", \"strip_width\": 40, \"pieces\": ["
                           "{\"count\": 4, \"rotations_deg\": [0], \"outline\": [[0,0],[20,0],[20,20],[0,20],[0,0]]},"
                           "{\"count\": 2, \"rotations_deg\": [0, 180], \"outline\": [[0,0],[0,40],[20,40],[20,0]]}]}";

static void a_strip_that_can_be_filled_is_filled_and_told_as_json(sw_test *t)
{
    outcome o = nested(t, full, "--iterations 30 --json");
    json_t *root = json_loads(o.text, 0, NULL);
    sw_true(t, o.code == 0 && root != NULL);
    sw_near(t, json_number_value(json_object_get(root, "length")), 80, 80 * 1e-5, "derived: 3200 mm2 over 40 mm");
    sw_near(t, json_number_value(json_object_get(root, "density")), 1, 1e-5, "derived");
    sw_true(t, json_integer_value(json_object_get(root, "pieces")) == 6);
    sw_true(t, json_is_true(json_object_get(root, "overlap_free")));
    sw_same_text(t, json_string_value(json_object_get(root, "name")), "full");
    json_decref(root);
}

static void the_same_seed_threads_and_iterations_give_the_same_picture(sw_test *t)
{
    const char *picture[2];
    for (int i = 0; i < 2; i++) {
        const char *out = sw_text_format(&t->run, t->run.keep, "/tmp/sw-instance-%ld-%d.svg", (long)getpid(), i);
        outcome o =
            nested(t, full, sw_text_format(&t->run, t->run.keep, "--iterations 12 --threads 2 --seed 7 --out %s", out));
        size_t length = 0;
        sw_true(t, o.code == 0);
        sw_ok(t, sw_file_read(&t->run, out, 1 << 20, &picture[i], &length));
        (void)unlink(out);
    }
    sw_contains(t, picture[0], "<svg");
    sw_same_text(t, picture[0], picture[1]);
}

typedef struct wrong {
    const char *text;
    int code;
    const char *part;
} wrong;

#define PIECES(list) "{\"name\": \"x\", \"strip_width\": 40, \"pieces\": [" list "]}"
#define SQUARE       "[[0,0],[20,0],[20,20],[0,20]]"

static const wrong wrongs[] = {
    {"", 2, "is no JSON"},
    {"[1, 2]", 2, "must be an object"},
    {"{\"name\": \"x\"}", 2, "strip_width"},
    {"{\"strip_width\": -1, \"pieces\": []}", 2, "strip_width: must be a number above 0"},
    {"{\"strip_width\": 40, \"pieces\": 3}", 2, "pieces: must be a list"},
    {PIECES("{\"count\": 0, \"outline\": " SQUARE "}"), 2, "pieces[0].count: must be a whole number from 1"},
    {PIECES("{\"count\": 1.5, \"outline\": " SQUARE "}"), 2, "pieces[0].count"},
    {PIECES("{\"count\": 1, \"rotations_deg\": [0, 45], \"outline\": " SQUARE "}"), 2, "must be [0], [0, 180]"},
    {PIECES("{\"count\": 1, \"rotations_deg\": [90], \"outline\": " SQUARE "}"), 2, "rotations_deg"},
    {PIECES("{\"count\": 1, \"outline\": [[0,0],[1,1]]}"), 2, "has 2 points; 3 to"},
    {PIECES("{\"count\": 1, \"outline\": [[0,0],[9,0],[9,9],[1]]}"), 2, "point 4 must be two numbers"},
    {PIECES("{\"count\": 1, \"outline\": [[0,0],[9,0],[9,\"9\"]]}"), 2, "point 3 must be two numbers"},
    {PIECES("{\"count\": 1, \"outline\": [[0,0],[0,0],[9,0],[9,0]]}"), 2, "fewer than 3 different points"},
    {PIECES("{\"count\": 1, \"outline\": [[0,0],[10,10],[10,0],[0,10]]}"), 2, "cross"},
    {PIECES("{\"count\": 1, \"outline\": [[0,0],[5,0],[10,0]]}"), 2, "outline"},
    {PIECES("{\"count\": 1, \"outline\": [[0,0],[90,0],[90,90],[0,90]]}"), 2,
     "is 90 across at its allowed turns; the strip is 40"},
    {PIECES("{\"count\": 6000, \"outline\": " SQUARE "}"), 2, "from 1 to 5000"},
};

static void wrong_instances_are_refused_with_place_and_remedy(sw_test *t)
{
    for (size_t i = 0; i < sizeof wrongs / sizeof *wrongs; i++) {
        ended(t, wrongs[i].text, nested(t, wrongs[i].text, "--iterations 1"), wrongs[i].code, wrongs[i].part);
    }
}

static void all_wrong_pieces_of_a_file_are_told_at_once(sw_test *t)
{
    outcome o = nested(t,
                       PIECES("{\"count\": 0, \"outline\": " SQUARE "}, {\"count\": 1, \"rotations_deg\": [7], "
                              "\"outline\": [[0,0],[1,1]]}"),
                       "");
    sw_true(t, o.code == 2);
    sw_contains(t, o.text, "pieces[0].count");
    sw_contains(t, o.text, "pieces[1].rotations_deg");
    sw_contains(t, o.text, "pieces[1].outline");
}

static void an_outline_of_a_million_points_is_refused(sw_test *t)
{
    size_t room = 26 << 20, at = 0;
    char *text = malloc(room);
    at += (size_t)snprintf(text, room, "{\"strip_width\": 40, \"pieces\": [{\"count\": 1, \"outline\": [");
    for (int i = 0; i < 1000000; i++)
        at += (size_t)snprintf(text + at, room - at, "%s[%d,%d]", i == 0 ? "" : ",", i, i % 7);
    (void)snprintf(text + at, room - at, "]}]}");
    outcome o = nested(t, text, "");
    free(text);
    sw_true(t, o.code == 2);
    sw_contains(t, o.text, "has 1000000 points; 3 to 4000 are allowed: simplify it");
}

static void a_stove_and_an_instance_are_not_taken_together(sw_test *t)
{
    ended(t, "some.stove.lua", nested(t, full, "some.stove.lua"), 2, "not both");
}

SW_TESTS(SW_CASE(a_strip_that_can_be_filled_is_filled_and_told_as_json),
         SW_CASE(the_same_seed_threads_and_iterations_give_the_same_picture),
         SW_CASE(wrong_instances_are_refused_with_place_and_remedy),
         SW_CASE(all_wrong_pieces_of_a_file_are_told_at_once), SW_CASE(an_outline_of_a_million_points_is_refused),
         SW_CASE(a_stove_and_an_instance_are_not_taken_together))
