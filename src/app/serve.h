/* serve.h: the workbench's server: the same studies as the command line, asked over HTTP. Interface: docs/workbench.md.
 *
 * One thread a connection (libmicrohttpd), each request in a run of its own with the memory limit of --memory; few studies
 * at once, long work one after another in the background. Who is not allowed gets no answer: Host, Origin, the session
 * cookie and a header of our own are checked before a body is read. Requests are bounded in size and time. One more
 * thread looks after files, deadlines and callers who went away. For src/app alone. */
#ifndef SW_APP_SERVE_H
#define SW_APP_SERVE_H

#include "app/app.h"

#include <jansson.h>
#include <microhttpd.h>
#include <pthread.h>

enum {
    SERVE_CONNECTIONS = 64,
    SERVE_PER_ADDRESS = 32,
    SERVE_AT_ONCE = 2, /* studies computed at the same time */
    SERVE_BODY_MOST = 1 << 20,
    SERVE_FILES_MOST = 500,
    SERVE_JOBS_KEPT = 20,
    SERVE_ACTIVITY_KEPT = 200,
    SERVE_VARIANTS_MOST = 200
};

/* ---- what the server holds ------------------------------------------------------------------------------- */

typedef struct serve_line { /* one connection */
    bool open;
    int socket;
    double due_s; /* when it is cut off unless it has got on; 0 = not watched */
} serve_line;

typedef struct serve_slot { /* one study being computed */
    bool busy;
    int socket; /* of who asked: whoever went away needs no answer */
    atomic_int cancel;
    double due_s;
} serve_slot;

typedef struct serve_file { /* one file of the project */
    char name[256];
    int64_t changed_ms, size;
    long version; /* of the project, at which it changed last */
    bool there;
} serve_file;

typedef enum serve_job_state { JOB_WAITING, JOB_RUNNING, JOB_DONE, JOB_FAILED, JOB_CANCELLED } serve_job_state;

typedef struct serve_job {
    unsigned id; /* 0 = free place */
    serve_job_state state;
    const char *kind;
    json_t *body; /* as it was asked */
    char task[200], when[40];
    double done, total;
    atomic_int cancel;
    json_t *files, *errors; /* NULL = none */
    char *result;           /* JSON text, NULL = none */
    char *folder;           /* where its files lie */
} serve_job;

typedef struct serve {
    const sw_request *request; /* of the command line */
    const char *folder;        /* DIR */
    const char *log;           /* the works' log; need not be there */
    const char *web;           /* NULL = the built-in page */
    const char *scratch;       /* temporary folder of this server */
    const char *address, *token;
    int port, listening;
    bool loopback, token_asked; /* asked: the page does not hand out the cookie by itself */
    struct MHD_Daemon *daemon;
    atomic_bool stopping;

    pthread_mutex_t log_lock; /* who has the works' log open */
    pthread_mutex_t lock;     /* for all below */
    pthread_cond_t changed;
    serve_line lines[SERVE_CONNECTIONS];
    serve_slot slots[SERVE_AT_ONCE];
    serve_file files[SERVE_FILES_MOST];
    size_t file_count;
    long version;
    serve_job jobs[SERVE_JOBS_KEPT];
    unsigned last_job, last_file;
    json_t *activity; /* newest last */
} serve;

/* ---- one request -------------------------------------------------------------------------------------------- */

typedef struct serve_reply {
    unsigned status; /* 0 = nothing said yet */
    const char *type;
    char *bytes; /* from malloc, handed over */
    size_t length;
    int file;           /* sent instead of bytes when 0 or more */
    const char *policy; /* content security policy other than the page's; NULL = the page's */
    char *name;         /* of a file to be saved, from malloc; NULL = shown */
    bool gives_cookie;
    const char *location; /* with a redirect */
} serve_reply;

typedef struct serve_call {
    serve *s;
    struct MHD_Connection *connection;
    serve_line *line;
    const char *method, *path, *rest; /* rest: what of the path follows the route */
    char *body;
    size_t length, room;
    bool judged, too_large;
    serve_reply reply;
} serve_call;

/* ---- answers: serve_answer.c ----------------------------------------------------------------------------------- */

void serve_say_bytes(serve_call *call, unsigned status, const char *type, const void *bytes, size_t length);
void serve_say_json(serve_call *call, unsigned status, json_t *root); /* takes root, NULL = no memory */
void serve_say_error(serve_call *call, unsigned status, const char *what, const char *remedy);
void serve_say_errors(serve_call *call, const sw_run *run, sw_status status); /* all errors of a run */
json_t *serve_json_of_errors(const serve *s, const sw_run *run, sw_status status);
json_t *serve_body(serve_call *call); /* the body as an object; NULL: the fault is said */
enum MHD_Result serve_send(serve_call *call);

/* ---- who may ask: serve_gate.c ------------------------------------------------------------------------------------ */

bool serve_gate(serve_call *call); /* false: the refusal is said */
bool serve_token_fits(const serve *s, const char *given);
bool serve_has_cookie(const serve_call *call);
sw_status serve_make_token(sw_run *run, const char **token);

/* ---- studies: serve_work.c, serve_state.c ------------------------------------------------------------------------- */

typedef struct serve_work { /* one computation for a caller */
    serve *s;
    serve_slot *slot;
    sw_run run;
    sw_request request;
    unsigned studies; /* sum of sw_work */
} serve_work;

bool serve_work_open(serve_call *call, serve_work *work); /* false: no place was free, which is said */
void serve_work_close(serve_work *work);
const char *serve_scratch_path(serve *s, sw_run *run, const char *ending); /* a new name; NULL = no memory */

/* Stove, works, house, settings, conditions and batch of a page's state into the request. SW_BAD_INPUT: every fault. */
sw_status serve_state_read(const serve *s, sw_run *run, const json_t *state, sw_request *request);
sw_status serve_studies_read(sw_run *run, const json_t *state, unsigned *work);
/* "name" as it stands in the project, with the folder before it; NULL when there is no such description. */
const char *serve_find_file(const serve *s, sw_run *run, const char *name, const char *ending);

/* ---- watching: serve_watch.c ------------------------------------------------------------------------------------------ */

void serve_scan(serve *s);                 /* looks at the project's files; wakes who waits when one changed */
bool serve_wait(serve *s, double until_s); /* with the lock: until something changed; false when it is too late */
void serve_now(char text[40]);             /* "2026-11-25T10:15:00Z" */
void serve_note(serve *s, const char *who, const char *what, json_t *about); /* into the activity; takes about */
void serve_read_activity(serve *s, sw_run *run);
void serve_caller(const serve_call *call, char text[64]);        /* the address it comes from */
json_t *serve_own_read(serve *s, sw_run *run, const char *name); /* DIR/.stovewright/name; NULL = none */
sw_status serve_own_write(serve *s, sw_run *run, const char *name, const json_t *root);

/* ---- jobs: serve_jobs.c, serve_job_work.c ------------------------------------------------------------------------------- */

void serve_jobs_end(serve *s);
void *serve_jobs_thread(void *server);
bool serve_job_kind(const char *name);
/* Does the work of one job; *result in run->keep, files into the job. */
sw_status serve_job_work(serve *s, sw_run *run, serve_job *job, const char **result);

/* ---- routes --------------------------------------------------------------------------------------------------------------- */

void serve_route(serve_call *call);
void serve_static(serve_call *call);
void serve_send_file(serve_call *call, const char *folder, const char *path); /* path: judged by the caller */
const char *serve_type_of(const char *path);
void serve_project(serve_call *call);
void serve_compute(serve_call *call);
void serve_model(serve_call *call);
void serve_flat(serve_call *call);
void serve_reckon_list(serve_call *call);
void serve_reckon(serve_call *call);
void serve_watch(serve_call *call);
void serve_job_start(serve_call *call);
void serve_job_tell(serve_call *call);
void serve_job_list(serve_call *call);
void serve_job_cancel(serve_call *call);
void serve_variant_list(serve_call *call);
void serve_variant_keep(serve_call *call);
void serve_variant_drop(serve_call *call);
void serve_activity(serve_call *call);
void serve_activity_add(serve_call *call);
void serve_log(serve_call *call); /* serve_log.c */

enum MHD_Result serve_handle(void *server, struct MHD_Connection *connection, const char *url, const char *method,
                             const char *version, const char *upload, size_t *upload_size, void **context);
size_t serve_unescape(void *server, struct MHD_Connection *connection, char *text);
void serve_ended(void *server, struct MHD_Connection *connection, void **context, enum MHD_RequestTerminationCode why);
void serve_connected(void *server, struct MHD_Connection *connection, void **context,
                     enum MHD_ConnectionNotificationCode what);

#endif
