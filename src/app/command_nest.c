/* command_nest.c: `nest` of a stove on the works' sheets, or with --instance of a strip as the literature compares methods. */
#include "app/app.h"
#include "app/instance.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>

typedef struct strip_answer {
    const sw_instance *instance;
    const sw_strip_result *result;
    double length; /* in the file's units */
} strip_answer;

static const double picture_mm = 260; /* the longer side: an A4 sheet across */

/* A colour a kind, far apart on the wheel, pale enough for print. */
static sw_ink tint(size_t kind)
{
    double turn = fmod((double)kind * 0.618034, 1) * 2 * SW_PI;
    return (sw_ink){.r = 0.80 + 0.14 * cos(turn),
                    .g = 0.80 + 0.14 * cos(turn - 2 * SW_PI / 3),
                    .b = 0.80 + 0.14 * cos(turn + 2 * SW_PI / 3)};
}

static sw_status draw(sw_run *run, const strip_answer *a, const char *path)
{
    const sw_strip_input *in = &a->instance->input;
    double scale = picture_mm / fmax(a->result->length_mm, in->width_mm);
    double wide_mm = scale * a->result->length_mm, high_mm = scale * in->width_mm;
    const char *text = sw_text_format(run, run->scratch, "%s: %.2f %% of %g \xc3\x97 %.4f, %zu pieces", in->name,
                                      100 * a->result->density, a->instance->width, a->length, a->result->place_count);
    if (text == NULL) return SW_NO_MEMORY;
    sw_pen *pen = NULL;
    SW_TRY(sw_pen_open(run, path, wide_mm + 10, high_mm + 16, &pen));
    const sw_point frame[] = {{5, 5}, {5 + wide_mm, 5}, {5 + wide_mm, 5 + high_mm}, {5, 5 + high_mm}};
    const sw_ink line = {.width_mm = 0.15}, pale = {.r = 0.96, .g = 0.96, .b = 0.95};
    sw_pen_polygon(pen, pale, frame, 4, true);
    for (size_t i = 0; i < a->result->place_count; i++) {
        const sw_nest_place *p = &a->result->places[i];
        sw_pen_region(pen, tint(p->shape), line, p->motion, scale, (sw_point){5, 5 + high_mm},
                      &in->shapes[p->shape].region);
    }
    sw_pen_polygon(pen, line, frame, 4, true);
    sw_pen_text(pen, (sw_point){5, high_mm + 11}, 3, SW_LEFT, 0, text);
    return sw_pen_close(run, pen);
}

static void print_text(sw_writer *out, const sw_request *request, const strip_answer *a)
{
    const sw_strip_result *r = a->result;
    sw_print(out, "%s: %zu pieces on a strip of width %g\n", a->instance->input.name, r->place_count,
             a->instance->width);
    if (a->instance->source[0] != '\0') sw_print(out, "from %s\n", a->instance->source);
    sw_print(out, "length %.4f, density %.2f %%, no overlap (checked by GEOS)\n", a->length, 100 * r->density);
    sw_print(out, "%.1f s, %.0f threads, seed %.0f, %llu rounds, %.2f million positions looked at a second\n",
             r->seconds, request->threads, request->seed, (unsigned long long)r->rounds,
             (double)r->looks / fmax(r->seconds, 1e-9) * 1e-6);
    if (request->out != NULL) sw_print(out, "drawn in %s\n", request->out);
}

static sw_status print_json(sw_run *run, sw_writer *out, const sw_request *request, const strip_answer *a)
{
    const sw_strip_result *r = a->result;
    json_t *root = json_pack("{s:i, s:s, s:s, s:f, s:f, s:f, s:f, s:I, s:b, s:I, s:I, s:f, s:f}", "schema", 1, "name",
                             a->instance->input.name, "source", a->instance->source, "strip_width", a->instance->width,
                             "density", r->density, "length", a->length, "seconds", r->seconds, "pieces",
                             (json_int_t)r->place_count, "overlap_free", 1, "rounds", (json_int_t)r->rounds, "looks",
                             (json_int_t)r->looks, "threads", request->threads, "seed", request->seed);
    char *text = root == NULL ? NULL : json_dumps(root, JSON_INDENT(2) | JSON_REAL_PRECISION(12));
    json_decref(root);
    if (text == NULL) return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "no memory for the answer");
    sw_print(out, "%s\n", text);
    free(text);
    return SW_OK;
}

/* Ctrl-C gives the best so far, so drawing and telling go on. */
static void go_on_after_stop(const sw_request *request)
{
    if (request->stop != NULL) atomic_store(request->stop, 0);
}

static sw_status strip(sw_run *run, const sw_request *request, sw_writer *out)
{
    sw_instance instance;
    SW_TRY(sw_instance_read(run, request->instance, &instance));
    sw_strip_options options = sw_strip_options_defaults();
    options.rounds = request->iterations;
    options.seed = (uint64_t)request->seed;
    options.threads = (int)request->threads;
    options.budget_s = request->seconds;
    strip_answer a = {.instance = &instance};
    SW_TRY(sw_strip_solve(run, &instance.input, &options, &a.result));
    go_on_after_stop(request);
    a.length = a.result->length_mm / instance.scale;
    if (request->out != NULL) SW_TRY(draw(run, &a, request->out));
    if (request->json) return print_json(run, out, request, &a);
    print_text(out, request, &a);
    return SW_OK;
}

int sw_command_nest(sw_run *run, const sw_request *request, sw_writer *out)
{
    if (request->instance == NULL) return sw_command_study(run, request, out);
    if (request->word_count > 0)
        return sw_exit_of_status(sw_fail(run, SW_BAD_INPUT, (sw_place){0}, request->words[0],
                                         "nest takes a stove or --instance FILE, not both"));
    return sw_exit_of_status(strip(run, request, out));
}
