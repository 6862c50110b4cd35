/* serve_own.c: what the workbench itself keeps in DIR/.stovewright: variants and who changed what. Each file is written whole. */
#include "app/serve.h"

#include <errno.h>
#include <netdb.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <time.h>

enum { OWN_MOST = 8 << 20 };

static const char *own_path(const serve *s, sw_run *run, const char *name)
{
    return sw_text_format(run, run->keep, "%s/.stovewright/%s", s->folder, name);
}

json_t *serve_own_read(serve *s, sw_run *run, const char *name)
{
    const char *path = own_path(s, run, name), *bytes = NULL;
    struct stat about;
    size_t length = 0;
    if (path == NULL || stat(path, &about) != 0 || sw_file_read(run, path, OWN_MOST, &bytes, &length) != SW_OK)
        return NULL;
    json_t *root = json_loadb(bytes, length, 0, NULL);
    if (json_is_array(root)) return root;
    json_decref(root);
    return NULL;
}

sw_status serve_own_write(serve *s, sw_run *run, const char *name, const json_t *root)
{
    const char *folder = own_path(s, run, ""), *path = own_path(s, run, name);
    sw_writer *w = NULL;
    if (folder == NULL || path == NULL) return SW_NO_MEMORY;
    if (mkdir(folder, 0777) != 0 && errno != EEXIST)
        return sw_fail(run, SW_IO, (sw_place){0}, folder, "cannot be made: %s", strerror(errno));
    char *text = json_dumps(root, JSON_INDENT(1));
    if (text == NULL) return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "no memory for %s", name);
    sw_status status = sw_writer_to_file(run, path, &w);
    if (status == SW_OK) {
        sw_write_text(w, text);
        sw_write_text(w, "\n");
        status = sw_writer_close(run, w);
    }
    free(text);
    return status;
}

void serve_now(char text[40])
{
    time_t now = time(NULL);
    struct tm parts;
    text[0] = '\0';
    if (gmtime_r(&now, &parts) != NULL) (void)strftime(text, 40, "%Y-%m-%dT%H:%M:%SZ", &parts);
}

/* ---- activity ------------------------------------------------------------------------------------------------------- */

static const char activity_name[] = "activity.json", variants_name[] = "variants.json";

void serve_caller(const serve_call *call, char text[64])
{
    const union MHD_ConnectionInfo *about =
        MHD_get_connection_info(call->connection, MHD_CONNECTION_INFO_CLIENT_ADDRESS);
    const struct sockaddr *a = about == NULL ? NULL : about->client_addr;
    socklen_t size = a == NULL                  ? 0
                     : a->sa_family == AF_INET6 ? sizeof(struct sockaddr_in6)
                                                : sizeof(struct sockaddr_in);
    if (a == NULL || getnameinfo(a, size, text, 64, NULL, 0, NI_NUMERICHOST) != 0) (void)snprintf(text, 64, "unknown");
}

void serve_read_activity(serve *s, sw_run *run)
{
    s->activity = serve_own_read(s, run, activity_name);
    sw_run_clear_errors(run); /* a spoilt list is no reason not to start */
    if (s->activity == NULL) s->activity = json_array();
}

void serve_note(serve *s, const char *who, const char *what, json_t *about)
{
    sw_run run;
    char when[40];
    serve_now(when);
    json_t *entry = json_pack("{s:s, s:s, s:s, s:o*}", "when", when, "who", who, "what", what, "about", about);
    (void)pthread_mutex_lock(&s->own_lock);
    (void)json_array_append_new(s->activity, entry);
    while (json_array_size(s->activity) > SERVE_ACTIVITY_KEPT) (void)json_array_remove(s->activity, 0);
    if (sw_run_open(&run, (size_t)64 << 20) == SW_OK) {
        (void)serve_own_write(s, &run, activity_name, s->activity);
        sw_run_close(&run);
    }
    (void)pthread_mutex_unlock(&s->own_lock);
}

void serve_activity(serve_call *call)
{
    serve *s = call->s;
    json_t *list = json_array();
    (void)pthread_mutex_lock(&s->own_lock);
    for (size_t i = json_array_size(s->activity); i > 0; i--)
        (void)json_array_append_new(list, json_deep_copy(json_array_get(s->activity, i - 1)));
    (void)pthread_mutex_unlock(&s->own_lock);
    serve_say_json(call, MHD_HTTP_OK, list);
}

static bool good_text(const char *text, size_t most)
{
    if (text == NULL || text[0] == '\0' || strlen(text) > most) return false;
    for (const char *c = text; *c != '\0'; c++)
        if ((unsigned char)*c < ' ' || *c == 127) return false;
    return true;
}

void serve_activity_add(serve_call *call)
{
    char who[64];
    json_t *body = serve_body(call);
    if (body == NULL) return;
    const char *what = json_string_value(json_object_get(body, "what"));
    serve_caller(call, who);
    if (good_text(what, 200) && call->length <= 16384) {
        serve_note(call->s, who, what, json_deep_copy(json_object_get(body, "state")));
        serve_say_json(call, MHD_HTTP_OK, json_object());
    } else
        serve_say_error(call, MHD_HTTP_BAD_REQUEST, "what must be a text of 1 to 200 bytes", "shorten it");
    json_decref(body);
}

/* ---- variants --------------------------------------------------------------------------------------------------------- */

static size_t place_of(const json_t *list, const char *name)
{
    for (size_t i = 0; i < json_array_size(list); i++) {
        const char *other = json_string_value(json_object_get(json_array_get(list, i), "name"));
        if (other != NULL && strcmp(other, name) == 0) return i;
    }
    return SIZE_MAX;
}

/* entry NULL: the variant of that name goes. Takes entry. *found: there was one. */
static sw_status change_variants(serve *s, sw_run *run, const char *name, json_t *entry, bool *found)
{
    sw_status status = SW_OK;
    (void)pthread_mutex_lock(&s->own_lock); /* reading and writing are one step */
    json_t *list = serve_own_read(s, run, variants_name);
    if (list == NULL && run->error_count == 0) list = json_array();
    size_t at = place_of(list, name);
    *found = at != SIZE_MAX;
    if (list == NULL)
        status = SW_IO;
    else if (entry != NULL && !*found && json_array_size(list) >= SERVE_VARIANTS_MOST)
        status = sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "name", "there are %d variants already; drop some",
                         SERVE_VARIANTS_MOST);
    else if (entry != NULL && *found)
        (void)json_array_set(list, at, entry);
    else if (entry != NULL)
        (void)json_array_append(list, entry);
    else if (*found)
        (void)json_array_remove(list, at);
    if (status == SW_OK) status = serve_own_write(s, run, variants_name, list);
    json_decref(list);
    (void)pthread_mutex_unlock(&s->own_lock);
    json_decref(entry);
    return status;
}

static void change(serve_call *call, const char *name, json_t *entry, const char *what)
{
    sw_run run;
    bool found = false, keeps = entry != NULL;
    char who[64];
    if (sw_run_open(&run, (size_t)64 << 20) != SW_OK) {
        json_decref(entry);
        serve_say_error(call, MHD_HTTP_INSUFFICIENT_STORAGE, "no memory for this", "wait a little and ask again");
        return;
    }
    sw_status status = change_variants(call->s, &run, name, entry, &found);
    if (status != SW_OK)
        serve_say_errors(call, &run, status);
    else if (!keeps && !found)
        serve_say_error(call, MHD_HTTP_NOT_FOUND, "there is no such variant", "see /api/variants");
    else {
        serve_caller(call, who);
        serve_note(call->s, who, what, json_string(name));
        serve_say_json(call, MHD_HTTP_OK, json_object());
    }
    sw_run_close(&run);
}

void serve_variant_list(serve_call *call)
{
    sw_run run;
    serve *s = call->s;
    json_t *list = NULL;
    if (sw_run_open(&run, (size_t)64 << 20) == SW_OK) {
        (void)pthread_mutex_lock(&s->own_lock);
        list = serve_own_read(s, &run, variants_name);
        (void)pthread_mutex_unlock(&s->own_lock);
        sw_run_close(&run);
    }
    serve_say_json(call, MHD_HTTP_OK, list == NULL ? json_array() : list);
}

/* The state stands under "state" or beside the name. */
static json_t *state_of(const json_t *body)
{
    json_t *given = json_object_get(body, "state");
    json_t *state = json_deep_copy(given == NULL ? body : given);
    (void)json_object_del(state, "name");
    return state;
}

void serve_variant_keep(serve_call *call)
{
    char when[40];
    json_t *body = serve_body(call);
    if (body == NULL) return;
    const char *name = json_string_value(json_object_get(body, "name"));
    serve_now(when);
    if (good_text(name, 80) && call->length <= 16384)
        change(call, name, json_pack("{s:s, s:s, s:o}", "name", name, "when", when, "state", state_of(body)),
               "variant kept");
    else
        serve_say_error(call, MHD_HTTP_BAD_REQUEST, "name must be a text of 1 to 80 bytes, the whole at most 16 KiB",
                        "shorten it");
    json_decref(body);
}

void serve_variant_drop(serve_call *call)
{
    if (good_text(call->rest, 80))
        change(call, call->rest, NULL, "variant dropped");
    else
        serve_say_error(call, MHD_HTTP_NOT_FOUND, "there is no such variant", "see /api/variants");
}
