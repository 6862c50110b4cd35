/* serve_studies.c: what follows a change on the page at once: findings, the solid, a flat. */
#include "app/serve.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { SENT_MOST = 256 << 20 };

void serve_answer_study(serve_call *call, serve_answer_of make)
{
    serve_work work;
    json_t *state = serve_body(call);
    if (state == NULL) return;
    if (serve_work_open(call, &work)) {
        sw_status status = serve_state_read(call->s, &work.run, state, &work.request);
        sw_status studies = serve_studies_read(&work.run, state, &work.studies);
        if (status == SW_OK) status = studies;
        if (status == SW_OK) status = make(call, &work, state);
        if (status != SW_OK) serve_say_errors(call, &work.run, status);
        serve_work_close(&work);
    }
    json_decref(state);
}

/* ---- findings and figures -------------------------------------------------------------------------------------- */

/* The answer of `check --json` with two fields before it. */
static sw_status compute(serve_call *call, serve_work *work, const json_t *state)
{
    sw_run *run = &work->run;
    sw_dossier d;
    sw_writer *w = NULL, *whole = NULL;
    const char *text = NULL;
    size_t length = 0;
    double begun_s = sw_seconds();
    long revision = serve_version(call->s);
    (void)state;
    SW_TRY(sw_dossier_make(run, &work->request, work->studies, "", &d));
    SW_TRY(sw_writer_to_memory(run, &w));
    sw_status status = sw_paper_json(run, &d, w);
    if (status != SW_OK) sw_writer_abandon(w);
    SW_TRY(status);
    SW_TRY(sw_writer_take(run, w, &text, &length));
    SW_ASSERT(text[0] == '{');
    SW_TRY(sw_writer_to_memory(run, &whole));
    sw_print(whole, "{\"took_ms\":%.1f,\"revision\":%ld,", (sw_seconds() - begun_s) * 1e3, revision);
    sw_write(whole, text + 1, length - 1);
    return serve_say_written(call, run, whole, SW_OK, "application/json");
}

void serve_compute(serve_call *call)
{
    serve_answer_study(call, compute);
}

/* ---- files that are made and sent at once ------------------------------------------------------------------------- */

static sw_status send_made(serve_call *call, sw_run *run, const char *path, const char *type)
{
    const char *bytes = NULL;
    size_t length = 0;
    sw_status status = sw_file_read(run, path, SENT_MOST, &bytes, &length);
    (void)unlink(path);
    if (status == SW_OK) serve_say_bytes(call, MHD_HTTP_OK, type, bytes, length);
    return status;
}

enum { HELD_MOST = 4000, MARK_DIGITS = 16 };

/* Marks of the geometry the page holds. SW_BAD_INPUT: not a list of marks, or too many. */
static sw_status read_held(sw_run *run, const json_t *list, uint64_t **held, size_t *count)
{
    *count = json_array_size(list);
    *held = SW_KEEP(run, *count + 1, uint64_t);
    if (*held == NULL) return SW_NO_MEMORY;
    bool good = json_is_array(list) && *count <= HELD_MOST;
    for (size_t i = 0; good && i < *count; i++) {
        const char *text = json_string_value(json_array_get(list, i));
        good = text != NULL && strlen(text) == MARK_DIGITS && strspn(text, "0123456789abcdef") == MARK_DIGITS;
        if (good) (*held)[i] = strtoull(text, NULL, 16);
    }
    if (good) return SW_OK;
    return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "held", "must be a list of at most %d marks of 16 hex digits",
                   HELD_MOST);
}

/* Nothing but what a picture needs. */
static sw_status light_model(serve_call *call, serve_work *work, const json_t *state)
{
    sw_run *run = &work->run;
    sw_dossier d;
    sw_writer *w = NULL;
    uint64_t *held = NULL;
    size_t count = 0;
    SW_TRY(read_held(run, json_object_get(state, "held"), &held, &count));
    SW_TRY(serve_number_read(run, state, "chord_mm", 0.01, 2, &work->request.chord_mm));
    work->request.house = work->request.house_text = NULL;
    SW_TRY(sw_dossier_make(run, &work->request, SW_DO_SOLIDS, "", &d));
    SW_TRY(sw_writer_to_memory(run, &w));
    return serve_say_written(call, run, w, sw_paper_gltf_light(run, &d, held, count, w), "model/gltf-binary");
}

void serve_picture(serve_call *call)
{
    serve_answer_study(call, light_model);
}

static sw_status model(serve_call *call, serve_work *work, const json_t *state)
{
    sw_run *run = &work->run;
    sw_dossier d;
    const char *colour = json_string_value(json_object_get(state, "colour"));
    bool hot = colour != NULL && strcmp(colour, "temperature") == 0;
    const char *path = serve_scratch_path(call->s, run, ".glb");
    if (path == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_dossier_make(run, &work->request, hot ? SW_DO_BURN : SW_DO_SHEET, "", &d));
    if (hot && (d.burned == NULL || d.burned->hot_k == NULL))
        return sw_fail(run, SW_NO_SOLUTION, (sw_place){0}, "colour", "no temperatures: %s",
                       d.burned == NULL ? "the fire was not computed" : d.burned->why);
    SW_TRY(hot ? sw_paper_gltf_heat(run, &d, path) : sw_paper_gltf(run, &d, path));
    return send_made(call, run, path, "model/gltf-binary");
}

void serve_model(serve_call *call)
{
    serve_answer_study(call, model);
}

static sw_status flat(serve_call *call, serve_work *work, const json_t *state)
{
    sw_run *run = &work->run;
    sw_dossier d;
    const char *piece = json_string_value(json_object_get(state, "piece"));
    const char *path = serve_scratch_path(call->s, run, ".svg");
    if (path == NULL) return SW_NO_MEMORY;
    if (piece == NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "piece", "is missing: give a piece's number, e.g. A-03");
    SW_TRY(sw_dossier_make(run, &work->request, SW_DO_SHEET, "", &d));
    int index = sw_stove_piece_index(d.model.stove, piece);
    if (index < 0 || (size_t)index >= d.sheet->piece_count)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "piece", "\"%.60s\" is no sheet piece of this stove", piece);
    SW_TRY(sw_paper_flat(run, &d, (size_t)index, path));
    return send_made(call, run, path, "image/svg+xml");
}

void serve_flat(serve_call *call)
{
    serve_answer_study(call, flat);
}
