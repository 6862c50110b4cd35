/* serve_watch.c: the files of the project: which there are, what they are, which have changed. */
#include "app/serve.h"

#include <dirent.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static const double poll_s = 25; /* ours: below what proxies and browsers wait for */

static const char *kind_of(const char *name)
{
    if (sw_text_ends_with(name, ".stove.lua")) return "stove";
    if (sw_text_ends_with(name, ".works.lua")) return "works";
    return sw_text_ends_with(name, ".house.lua") ? "house" : NULL;
}

/* ---- looking -------------------------------------------------------------------------------------------------- */

static bool is_watched(const char *name)
{
    return name[0] != '.' && strlen(name) < sizeof((serve_file *)0)->name &&
           (sw_text_ends_with(name, ".lua") || sw_text_ends_with(name, ".csv") || sw_text_ends_with(name, ".dxf") ||
            sw_text_ends_with(name, ".DXF"));
}

static serve_file *find_or_add(serve *s, const char *name)
{
    for (size_t i = 0; i < s->file_count; i++)
        if (strcmp(s->files[i].name, name) == 0) return &s->files[i];
    if (s->file_count == SERVE_FILES_MOST) return NULL;
    serve_file *f = &s->files[s->file_count++];
    memset(f, 0, sizeof *f);
    (void)snprintf(f->name, sizeof f->name, "%s", name);
    return f;
}

/* With the lock. Whether the file differs from what was known. */
static bool look_at(serve *s, const char *name, bool *seen)
{
    char path[4096];
    struct stat about;
    int written = snprintf(path, sizeof path, "%s/%s", s->folder, name);
    if (written < 0 || (size_t)written >= sizeof path || stat(path, &about) != 0 || !S_ISREG(about.st_mode))
        return false;
    serve_file *f = find_or_add(s, name);
    if (f == NULL) return false;
    int64_t changed_ms = (int64_t)about.st_mtim.tv_sec * 1000 + about.st_mtim.tv_nsec / 1000000;
    bool differs = !f->there || f->changed_ms != changed_ms || f->size != about.st_size;
    f->changed_ms = changed_ms;
    f->size = about.st_size;
    f->there = true;
    if (differs) f->version = s->version + 1;
    seen[f - s->files] = true;
    return differs;
}

static bool look_at_all(serve *s, DIR *folder)
{
    bool seen[SERVE_FILES_MOST] = {false}, differs = false;
    const struct dirent *entry = NULL;
    while ((entry = readdir(folder)) != NULL)
        if (is_watched(entry->d_name) && look_at(s, entry->d_name, seen)) differs = true;
    for (size_t i = 0; i < s->file_count; i++) {
        if (seen[i] || !s->files[i].there) continue;
        s->files[i].there = false;
        s->files[i].version = s->version + 1;
        differs = true;
    }
    return differs;
}

void serve_scan(serve *s)
{
    DIR *folder = opendir(s->folder);
    if (folder == NULL) return;
    (void)pthread_mutex_lock(&s->lock);
    if (look_at_all(s, folder)) s->version++;
    (void)pthread_mutex_unlock(&s->lock);
    (void)closedir(folder);
}

/* ---- GET /api/watch ------------------------------------------------------------------------------------------------ */

/* With the lock. A page that knows more than we do has outlived a server: it is told everything. */
static json_t *changes_since(const serve *s, long since)
{
    json_t *list = json_array();
    if (since > s->version) since = 0;
    for (size_t i = 0; i < s->file_count; i++)
        if (s->files[i].version > since) (void)json_array_append_new(list, json_string(s->files[i].name));
    return json_pack("{s:I, s:o}", "version", (json_int_t)s->version, "changed", list);
}

long serve_version(serve *s)
{
    (void)pthread_mutex_lock(&s->lock);
    long version = s->version;
    (void)pthread_mutex_unlock(&s->lock);
    return version;
}

/* With the lock: off the list are those who are to be told. */
static serve_call *ripe_watchers(serve *s, double now_s)
{
    serve_call *ripe = NULL;
    for (serve_call **at = &s->watching; *at != NULL;) {
        serve_call *c = *at;
        if (c->since == s->version && now_s < c->due_s && !serve_went_away(c)) {
            at = &c->next;
            continue;
        }
        *at = c->next;
        c->next = ripe;
        ripe = c;
        serve_say_json(c, MHD_HTTP_OK, changes_since(s, c->since));
    }
    return ripe;
}

void serve_tell_watchers(serve *s)
{
    (void)pthread_mutex_lock(&s->lock);
    serve_call *ripe = ripe_watchers(s, sw_seconds());
    (void)pthread_mutex_unlock(&s->lock);
    serve_resume(ripe);
}

void serve_watch(serve_call *call)
{
    serve *s = call->s;
    const char *text = MHD_lookup_connection_value(call->connection, MHD_GET_ARGUMENT_KIND, "since");
    char *end = NULL;
    long since = text == NULL ? 0 : strtol(text, &end, 10);
    if (text != NULL && (end == text || *end != '\0' || since < 0)) {
        serve_say_error(call, MHD_HTTP_BAD_REQUEST, "since must be a version", "give the one of the last answer");
        return;
    }
    json_t *root = NULL;
    (void)pthread_mutex_lock(&s->lock);
    if (since == s->version && !atomic_load(&s->stopping)) {
        call->since = since;
        call->due_s = sw_seconds() + poll_s;
        MHD_suspend_connection(call->connection);
        call->resting = true;
        call->next = s->watching;
        s->watching = call;
    } else
        root = changes_since(s, since);
    (void)pthread_mutex_unlock(&s->lock);
    if (root != NULL) serve_say_json(call, MHD_HTTP_OK, root);
}

/* ---- GET /api/project ---------------------------------------------------------------------------------------------- */

static const char *title_of(const sw_model *model, const char *kind)
{
    const char *title = "";
    if (kind[0] == 's') title = model->stove->title[0] != '\0' ? model->stove->title : model->stove->name;
    if (kind[0] == 'w') title = model->works->name;
    if (kind[0] == 'h') title = model->house->name;
    return title;
}

static json_t *errors_of(const sw_run *run)
{
    json_t *list = json_array();
    for (size_t i = 0; i < run->error_count && i < SW_ERROR_MAX; i++) {
        const sw_error *e = &run->errors[i];
        char text[1200];
        (void)snprintf(text, sizeof text, "%s%s%s", e->field, e->field[0] == '\0' ? "" : ": ", e->text);
        (void)json_array_append_new(list, json_pack("{s:i, s:s}", "line", e->place.line, "text", text));
    }
    return list;
}

static json_t *tell_file(const serve *s, sw_run *run, const serve_file *f)
{
    const char *kind = kind_of(f->name), *title = "";
    char path[4096];
    const sw_model *model = NULL;
    (void)snprintf(path, sizeof path, "%s/%s", s->folder, f->name);
    const sw_design_input in = {.stove_path = kind[0] == 's' ? path : NULL,
                                .works_path = kind[0] == 'w' ? path : NULL,
                                .house_path = kind[0] == 'h' ? path : NULL};
    size_t kept = sw_arena_mark(run->keep), way = sw_arena_mark(run->scratch);
    sw_run_clear_errors(run);
    if (sw_design_read(run, &in, &model) == SW_OK) title = title_of(model, kind);
    json_t *root = json_pack("{s:s, s:s, s:s, s:I, s:o}", "name", f->name, "kind", kind, "title", title, "changed",
                             (json_int_t)f->changed_ms, "errors", errors_of(run));
    sw_arena_rewind(run->keep, kept);
    sw_arena_rewind(run->scratch, way);
    return root;
}

static int by_name(const void *a, const void *b)
{
    return strcmp(((const serve_file *)a)->name, ((const serve_file *)b)->name);
}

/* A copy, so that reading the files does not hold the lock. */
static serve_file *descriptions(serve *s, sw_run *run, size_t *count, long *version)
{
    serve_file *list = SW_KEEP(run, SERVE_FILES_MOST, serve_file);
    if (list == NULL) return NULL;
    (void)pthread_mutex_lock(&s->lock);
    for (size_t i = 0; i < s->file_count; i++)
        if (s->files[i].there && kind_of(s->files[i].name) != NULL) list[(*count)++] = s->files[i];
    *version = s->version;
    (void)pthread_mutex_unlock(&s->lock);
    qsort(list, *count, sizeof *list, by_name);
    return list;
}

void serve_project(serve_call *call)
{
    serve_work work;
    size_t count = 0;
    long version = 0;
    if (!serve_work_open(call, &work)) return;
    const serve_file *list = descriptions(call->s, &work.run, &count, &version);
    json_t *files = list == NULL ? NULL : json_array();
    for (size_t i = 0; list != NULL && i < count && !sw_run_cancelled(&work.run); i++)
        (void)json_array_append_new(files, tell_file(call->s, &work.run, &list[i]));
    serve_work_close(&work);
    serve_say_json(call, MHD_HTTP_OK,
                   files == NULL ? NULL : json_pack("{s:o, s:I}", "files", files, "version", (json_int_t)version));
}
