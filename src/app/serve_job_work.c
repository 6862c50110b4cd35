/* serve_job_work.c: the kinds of long work: each does what a command does, into the job's own folder. */
#include "app/serve.h"

#include <string.h>
#include <time.h>

typedef struct job_work {
    serve *s;
    sw_run *run;
    serve_job *job;
    sw_request request;
    sw_folder folder;
    json_t *files;
    const char *result;
} job_work;

typedef struct kind_row {
    const char *name;
    sw_status (*work)(job_work *w);
} kind_row;

static void list_file(job_work *w, const char *path, const char *what)
{
    (void)json_array_append_new(w->files, json_pack("{s:s, s:s}", "path", path, "what", what));
}

static const char *path_of(job_work *w, const char *name)
{
    return sw_text_format(w->run, w->run->keep, "%s/%s", w->folder.working, name);
}

static sw_status tell_dossier(job_work *w, const sw_dossier *d)
{
    sw_writer *out = NULL;
    size_t length = 0;
    SW_TRY(sw_writer_to_memory(w->run, &out));
    sw_status status = sw_paper_json(w->run, d, out);
    if (status == SW_OK) return sw_writer_take(w->run, out, &w->result, &length);
    sw_writer_abandon(out);
    return status;
}

static sw_status study(job_work *w, unsigned work, const char *date, sw_dossier *d)
{
    sw_status status = sw_dossier_make(w->run, &w->request, work, date, d);
    if (status != SW_OK) return status;
    return sw_run_cancelled(w->run) ? SW_CANCELLED : SW_OK;
}

static sw_status make_dossier(job_work *w)
{
    sw_dossier d;
    const sw_paper_file *files = NULL;
    size_t count = 0;
    char now[40];
    serve_now(now);
    now[10] = '\0';              /* the day */
    w->request.command = "make"; /* with all its sheets */
    SW_TRY(study(w, SW_DO_MAKE, now, &d));
    SW_TRY(sw_papers_write(w->run, &d, &w->folder, &files, &count));
    for (size_t i = 0; i < count; i++) list_file(w, files[i].path, files[i].what);
    return tell_dossier(w, &d);
}

static sw_status draw_nest(job_work *w, const sw_dossier *d, size_t nest)
{
    const sw_nested *n = &d->nests[nest];
    for (size_t k = 0; n->result != NULL && k < n->result->sheet_count; k++) {
        const char *name = sw_text_format(w->run, w->run->keep, "nest-%zu-%zu.svg", nest + 1, k + 1);
        const char *what = sw_text_format(w->run, w->run->keep, "%s, sheet %zu", n->name, k + 1);
        const char *path = name == NULL || what == NULL ? NULL : path_of(w, name);
        if (path == NULL) return SW_NO_MEMORY;
        SW_TRY(sw_paper_nest_map(w->run, d, nest, k, path));
        list_file(w, name, what);
    }
    return SW_OK;
}

static sw_status make_nest(job_work *w)
{
    sw_dossier d;
    if (w->request.works == NULL)
        return sw_fail(w->run, SW_BAD_INPUT, (sw_place){0}, "works", "is missing: nesting needs the stock of a works");
    SW_TRY(study(w, SW_DO_NEST | SW_DO_CUT, "", &d));
    for (size_t i = 0; i < d.nest_count; i++) SW_TRY(draw_nest(w, &d, i));
    return tell_dossier(w, &d);
}

static sw_status make_map(job_work *w)
{
    sw_dossier d;
    const char *path = path_of(w, "temperature.glb");
    if (path == NULL) return SW_NO_MEMORY;
    SW_TRY(study(w, SW_DO_BURN | SW_DO_MAP, "", &d));
    if (d.burned != NULL && d.burned->hot_k != NULL) {
        SW_TRY(sw_paper_gltf_heat(w->run, &d, path));
        list_file(w, "temperature.glb", "the stove coloured by the temperature of its surface");
    }
    return tell_dossier(w, &d);
}

/* The stove on its chimney over weather and slide, and other chimneys beside it. */
static sw_status make_chimney(job_work *w)
{
    sw_dossier d;
    if (w->request.house == NULL)
        return sw_fail(w->run, SW_BAD_INPUT, (sw_place){0}, "house", "is missing: the operating map needs a chimney");
    w->request.map = true;
    SW_TRY(study(w, SW_DO_HEFT | SW_DO_BURN | SW_DO_HOUSE | SW_DO_SIZE, "", &d));
    return tell_dossier(w, &d);
}

static sw_status make_bands(job_work *w)
{
    sw_dossier d;
    if (w->request.bands < 1) w->request.bands = 200;
    SW_TRY(study(w, SW_DO_BURN, "", &d));
    return tell_dossier(w, &d);
}

static sw_status make_through(job_work *w)
{
    sw_dossier d;
    SW_TRY(study(w, SW_DO_BURN | SW_DO_THROUGH, "", &d));
    return tell_dossier(w, &d);
}

static sw_status make_sweep(job_work *w)
{
    sw_writer *out = NULL;
    size_t length = 0;
    w->request.out = path_of(w, "sweep.csv");
    w->request.json = true;
    if (w->request.out == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_writer_to_memory(w->run, &out));
    int code = sw_command_sweep(w->run, &w->request, out);
    sw_status status = sw_writer_take(w->run, out, &w->result, &length);
    if (sw_run_cancelled(w->run)) return SW_CANCELLED;
    if (code >= SW_EXIT_INPUT) return code == SW_EXIT_INPUT ? SW_BAD_INPUT : SW_INTERNAL;
    list_file(w, "sweep.csv", "the table");
    return status;
}

static const kind_row kinds[] = {
    {"dossier", make_dossier}, {"nest", make_nest},       {"map", make_map},         {"sweep", make_sweep},
    {"bands", make_bands},     {"through", make_through}, {"chimney", make_chimney},
};

static const kind_row *find_kind(const char *name)
{
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (strcmp(kinds[i].name, name) == 0) return &kinds[i];
    return NULL;
}

bool serve_job_kind(const char *name)
{
    return find_kind(name) != NULL;
}

static sw_status work_in_folder(job_work *w)
{
    sw_run *run = w->run;
    const char *place = sw_text_format(run, run->keep, "%s/job-%u", w->s->scratch, w->job->id);
    if (place == NULL) return SW_NO_MEMORY;
    SW_TRY(serve_state_read(w->s, run, w->job->body, &w->request));
    SW_TRY(sw_folder_open(run, place, &w->folder));
    sw_status status = find_kind(w->job->kind)->work(w);
    if (status == SW_OK) status = sw_folder_publish(run, &w->folder);
    sw_folder_discard(&w->folder);
    return status;
}

sw_status serve_job_work(serve *s, sw_run *run, serve_job *job, const char **result)
{
    const sw_request *q = s->request;
    bool is_nest = strcmp(job->kind, "nest") == 0; /* stopped early, its best so far is the answer */
    job_work w = {.s = s, .run = run, .job = job, .files = json_array()};
    w.request = (sw_request){.command = "serve",
                             .batch = 1,
                             .seed = q->seed,
                             .threads = q->threads,
                             .memory_mb = q->memory_mb,
                             .stop = is_nest ? &job->cancel : NULL};
    sw_status status = work_in_folder(&w);
    (void)pthread_mutex_lock(&s->lock);
    if (status == SW_OK) {
        job->files = json_incref(w.files);
        job->folder = strdup(w.folder.path);
    }
    (void)pthread_mutex_unlock(&s->lock);
    json_decref(w.files);
    *result = w.result;
    return status;
}
