/* serve_state.c: what the page has chosen, as a request of the command line. Every fault is told. */
#include "app/serve.h"

#include <math.h>
#include <string.h>

/* Only what stands in the project's own folder: no path, nothing hidden. */
const char *serve_find_file(const serve *s, sw_run *run, const char *name, const char *ending)
{
    size_t length = strlen(name), tail = strlen(ending);
    bool fits = length > tail && strcmp(name + length - tail, ending) == 0 && strchr(name, '/') == NULL;
    if (!fits || name[0] == '.') return NULL;
    return sw_text_format(run, run->keep, "%s/%s", s->folder, name);
}

static const char *read_file(const serve *s, sw_run *run, const json_t *state, const char *field, const char *ending)
{
    const json_t *value = json_object_get(state, field);
    if (value == NULL || json_is_null(value)) return NULL;
    const char *name = json_string_value(value);
    const char *path = name == NULL ? NULL : serve_find_file(s, run, name, ending);
    if (path == NULL)
        (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, field, "must be the name of a file of the project, like x%s",
                      ending);
    return path;
}

static const char *setting_text(sw_run *run, const char *name, const json_t *value)
{
    if (json_is_string(value)) return sw_text_format(run, run->keep, "%s=%s", name, json_string_value(value));
    if (json_is_number(value)) return sw_text_format(run, run->keep, "%s=%.17g", name, json_number_value(value));
    return NULL;
}

static bool good_name(const char *name)
{
    return name[0] != '\0' && strlen(name) <= 100 && strchr(name, '=') == NULL;
}

void serve_pairs_read(sw_run *run, const json_t *state, const char *field, const char *list[SW_WORDS_MAX],
                      size_t *count)
{
    json_t *pairs = json_object_get(state, field), *value = NULL;
    const char *name = NULL;
    if (pairs != NULL && !json_is_null(pairs) && !json_is_object(pairs))
        (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, field, "must be an object of names and values");
    json_object_foreach(pairs, name, value)
    {
        const char *text = good_name(name) ? setting_text(run, name, value) : NULL;
        if (text == NULL)
            (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, field, "\"%.100s\" must be a text or a number", name);
        else if (*count == SW_WORDS_MAX) {
            (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, field, "more than %d of them", SW_WORDS_MAX);
            return;
        } else
            list[(*count)++] = text;
    }
}

static void read_number(sw_run *run, const json_t *state, const char *field, double low, double high, bool whole,
                        double *number)
{
    const json_t *value = json_object_get(state, field);
    if (value == NULL || json_is_null(value)) return;
    double given = json_is_number(value) ? json_number_value(value) : (double)NAN;
    if (!(given >= low && given <= high) || (whole && given != floor(given)))
        (void)sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, field, "must be a %snumber from %g to %g",
                      whole ? "whole " : "", low, high);
    else
        *number = given;
}

sw_status serve_number_read(sw_run *run, const json_t *state, const char *field, double low, double high,
                            double *number)
{
    size_t errors = run->error_count;
    read_number(run, state, field, low, high, false, number);
    return run->error_count == errors ? SW_OK : SW_OUT_OF_RANGE;
}

enum { HOUSE_MOST = 64 << 10 }; /* ours: a house is told in 3 kB */

/* A working copy of the house, as the page has changed it. */
static void read_house_text(sw_run *run, const json_t *state, sw_request *request)
{
    const json_t *value = json_object_get(state, "house_text");
    if (value == NULL || json_is_null(value)) return;
    if (!json_is_string(value) || json_string_length(value) > HOUSE_MOST)
        (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "house_text", "must be a text of at most %d KiB",
                      HOUSE_MOST >> 10);
    else if (request->house == NULL)
        (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "house_text", "needs house, the name it stands for");
    else
        request->house_text = sw_text_copy(run, run->keep, json_string_value(value));
}

static void read_axes(sw_run *run, const json_t *state, sw_request *request)
{
    const json_t *list = json_object_get(state, "vary");
    for (size_t i = 0; i < json_array_size(list) && i < SW_WORDS_MAX; i++) {
        const char *text = json_string_value(json_array_get(list, i));
        const char *equals = text == NULL ? NULL : strchr(text, '=');
        if (equals == NULL || equals == text)
            (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "vary", "must be a list of texts name=from:to:count");
        else
            request->axes[request->axis_count++] = sw_text_copy(run, run->keep, text);
    }
}

static void read_report(sw_run *run, const json_t *state, sw_request *request)
{
    const json_t *list = json_object_get(state, "report");
    const char *all = NULL;
    for (size_t i = 0; i < json_array_size(list) && i < SW_WORDS_MAX; i++) {
        const char *text = json_string_value(json_array_get(list, i));
        if (text == NULL)
            (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "report", "must be a list of names");
        else
            all = sw_text_format(run, run->keep, "%s%s%.100s", all == NULL ? "" : all, all == NULL ? "" : ",", text);
    }
    request->report = all;
}

sw_status serve_state_read(const serve *s, sw_run *run, const json_t *state, sw_request *request)
{
    request->words[0] = read_file(s, run, state, "stove", ".stove.lua");
    request->works = read_file(s, run, state, "works", ".works.lua");
    request->house = read_file(s, run, state, "house", ".house.lua");
    request->word_count = 1;
    if (request->words[0] == NULL && run->error_count == 0)
        (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "stove", "is missing: give the name of a *.stove.lua file");
    serve_pairs_read(run, state, "set", request->settings, &request->setting_count);
    serve_pairs_read(run, state, "with", request->conditions, &request->condition_count);
    read_number(run, state, "batch", 1, 10000, true, &request->batch);
    read_number(run, state, "seconds", 0, 3000, false, &request->seconds);
    read_number(run, state, "bands", 0, 5000, true, &request->bands);
    read_number(run, state, "wind_pa", -100, 100, false, &request->wind_pa);
    read_house_text(run, state, request);
    read_axes(run, state, request);
    read_report(run, state, request);
    return run->error_count == 0 ? SW_OK : SW_BAD_INPUT;
}

/* ---- studies -------------------------------------------------------------------------------------------------------- */

typedef struct study_row {
    const char *name;
    unsigned work;
} study_row;

static const study_row studies[] = {
    {"sheet", SW_DO_SHEET},
    {"heft", SW_DO_HEFT | SW_DO_LIFT},
    {"lift", SW_DO_HEFT | SW_DO_LIFT},
    {"burn", SW_DO_BURN},
    {"fire", SW_DO_BURN},
    {"air", SW_DO_BURN},
    {"heat", SW_DO_BURN},
    {"through", SW_DO_BURN | SW_DO_THROUGH},
    {"map", SW_DO_BURN | SW_DO_MAP},
    {"house", SW_DO_HEFT | SW_DO_BURN | SW_DO_HOUSE},
    {"flue", SW_DO_HEFT | SW_DO_BURN | SW_DO_HOUSE | SW_DO_SIZE},
    {"site", SW_DO_HEFT | SW_DO_BURN | SW_DO_HOUSE},
    {"form", SW_DO_FORM},
    {"join", SW_DO_JOIN},
    {"fit", SW_DO_FIT},
    {"coat", SW_DO_BURN | SW_DO_COAT},
    {"fittings", SW_DO_FITTINGS},
    {"nest", SW_DO_NEST},
    {"cut", SW_DO_NEST | SW_DO_CUT},
    {"line", SW_DO_HEFT | SW_DO_NEST | SW_DO_CUT | SW_DO_FORM | SW_DO_JOIN | SW_DO_COAT | SW_DO_LINE},
};
enum { WEIGHED_MOST = 16 << 10 };
enum { STUDY_COUNT = sizeof studies / sizeof *studies };

static const unsigned without_nests = SW_DO_HEFT | SW_DO_LIFT | SW_DO_BURN | SW_DO_HOUSE | SW_DO_FORM | SW_DO_JOIN |
                                      SW_DO_FIT | SW_DO_COAT | SW_DO_FITTINGS;

static void add_study(sw_run *run, const char *name, unsigned *work)
{
    const char *names[STUDY_COUNT];
    for (size_t i = 0; i < STUDY_COUNT; i++) {
        names[i] = studies[i].name;
        if (name != NULL && strcmp(name, names[i]) == 0) {
            *work |= studies[i].work;
            return;
        }
    }
    const char *near = name == NULL ? NULL : sw_text_nearest(name, names, STUDY_COUNT);
    (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "studies", "\"%.60s\" is no study%s%s", name == NULL ? "" : name,
                  near == NULL ? "" : "; did you mean ", near == NULL ? "" : near);
}

sw_status serve_studies_read(sw_run *run, const json_t *state, unsigned *work)
{
    const json_t *list = json_object_get(state, "studies");
    *work = list == NULL ? without_nests : SW_DO_SHEET;
    if (list != NULL && !json_is_array(list))
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "studies", "must be a list of names");
    for (size_t i = 0; i < json_array_size(list); i++) add_study(run, json_string_value(json_array_get(list, i)), work);
    return run->error_count == 0 ? SW_OK : SW_BAD_INPUT;
}

/* What may keep a change on the page from being seen is done after what does not. */
unsigned serve_weight(const serve_call *call)
{
    static const unsigned quick = SW_DO_HEFT | SW_DO_BURN,
                          slow = SW_DO_NEST | SW_DO_LINE | SW_DO_MAP | SW_DO_THROUGH | SW_DO_SIZE;
    sw_run run;
    unsigned work = 0;
    if (call->length > WEIGHED_MOST || sw_run_open(&run, (size_t)1 << 20) != SW_OK) return 2;
    json_t *state = json_loadb(call->body == NULL ? "" : call->body, call->length, 0, NULL);
    if (strcmp(call->path, "/api/compute") == 0) (void)serve_studies_read(&run, state, &work);
    json_decref(state);
    sw_run_close(&run);
    return (work & slow) != 0 ? 2 : (work & ~quick) != 0 ? 1 : 0;
}
