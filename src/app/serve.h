/* serve.h: the workbench's server: the same studies as the command line, asked over HTTP. Interface: docs/workbench.md.
 *
 * One thread talks with all connections (libmicrohttpd) and answers what it knows. What must be computed becomes a task: the
 * call rests, a hand (one of few threads) makes the answer in a run of its own with the memory limit of --memory, and all who
 * asked the same get the same. Long work goes one after another in the background. Who is not allowed gets no answer: Host,
 * Origin, the session cookie and a header of our own are checked before a body is read. Requests are bounded in size and
 * time. One more thread looks after files, deadlines and callers who went away. For src/app alone. */
#ifndef SW_APP_SERVE_H
#define SW_APP_SERVE_H

#include "app/app.h"

#include <jansson.h>
#include <microhttpd.h>
#include <pthread.h>

enum {
    SERVE_CONNECTIONS = 512,
    SERVE_PER_ADDRESS = 64, /* of another machine */
    SERVE_AT_ONCE = 2,      /* studies computed at the same time */
    SERVE_HANDS = SERVE_AT_ONCE + 2,
    SERVE_QUEUE_MOST = 256,
    SERVE_ANSWERS_KEPT = 64, /* for who asks the same again */
    SERVE_ANSWER_BYTES = 64 << 20,
    SERVE_BODY_MOST = 1 << 20,
    SERVE_BODIES_MOST = 32 << 20, /* of all calls together */
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

typedef struct serve_call serve_call;
typedef struct serve_task serve_task;

typedef struct serve_hand { /* one thread that makes answers */
    struct serve *s;
    pthread_t thread;
    bool started;
    unsigned
        kind; /* SERVE_HEAVY: for studies; SERVE_PICTURE: for pictures, which studies must not hold up; 0: for what is
                      quick but touches files */
    atomic_int cancel;
    serve_task *task; /* NULL = idle */
} serve_hand;

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
    double patience_s;          /* for a head; a body and an answer get twice that */
    int threads;                /* of one study */
    struct MHD_Daemon *daemon;
    atomic_bool stopping;

    pthread_mutex_t log_lock; /* who has the works' log open */
    pthread_mutex_t own_lock; /* who has the activity or a file of DIR/.stovewright */
    pthread_mutex_t lock;     /* for all below */
    pthread_cond_t changed;
    serve_line lines[SERVE_CONNECTIONS];
    serve_hand hands[SERVE_HANDS];
    serve_task *tasks;    /* waiting, being made, and made ones that are kept */
    serve_call *watching; /* calls that wait for the project to change */
    size_t waiting_tasks, body_bytes;
    unsigned long asked; /* counts the tasks asked for: their age */
    serve_file files[SERVE_FILES_MOST];
    size_t file_count;
    long version;
    serve_job jobs[SERVE_JOBS_KEPT];
    unsigned last_job, last_file;
    json_t *activity; /* newest last; under own_lock */
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

struct serve_call {
    serve *s;
    struct MHD_Connection *connection; /* NULL in a shared task's own call */
    serve_line *line;
    const char *method, *path, *rest; /* rest: what of the path follows the route */
    char *body;
    size_t length, room;
    bool judged, too_large, no_room, routed, resting;
    serve_hand *hand; /* that makes the answer */
    serve_task *task; /* whose answer is sent */
    serve_call *next; /* in the list it rests in */
    long since;       /* while it watches */
    double due_s;
    serve_reply reply;
};

/* How a route is answered: a sum of these. */
enum {
    SERVE_ALONE = 0,        /* by the light hand, for this call alone */
    SERVE_AT_ONCE_HERE = 1, /* by the thread of the connections: no file, no waiting */
    SERVE_SHARED = 2,       /* the answer depends on path, body and the project's files alone: one for all who ask */
    SERVE_HEAVY = 4,        /* a study */
    SERVE_PICTURE = 8       /* the solid: by the hand for pictures */
};

struct serve_task {
    serve_task *next;
    unsigned how;
    bool running, made, spoilt; /* spoilt: not for who asks later */
    unsigned weight;
    unsigned long age;
    long version; /* of the project */
    double due_s;
    void (*answer)(serve_call *call);
    serve_call *asking; /* who waits */
    size_t holders;     /* calls that have the answer still to send */
    serve_call own;     /* a shared answer is made in its name */
    struct MHD_Response *response;
    size_t length;
};

/* ---- answers: serve_answer.c ----------------------------------------------------------------------------------- */

void serve_say_bytes(serve_call *call, unsigned status, const char *type, const void *bytes, size_t length);
/* What was written into memory; a writer that failed is given up, and its status comes back. */
sw_status serve_say_written(serve_call *call, sw_run *run, sw_writer *written, sw_status status, const char *type);
void serve_say_json(serve_call *call, unsigned status, json_t *root); /* takes root, NULL = no memory */
void serve_say_error(serve_call *call, unsigned status, const char *what, const char *remedy);
void serve_say_errors(serve_call *call, const sw_run *run, sw_status status); /* all errors of a run */
json_t *serve_json_of_errors(const serve *s, const sw_run *run, sw_status status);
json_t *serve_body(serve_call *call);                  /* the body as an object; NULL: the fault is said */
struct MHD_Response *serve_response(serve_call *call); /* of its reply, which is used up; NULL = no memory */
enum MHD_Result serve_send(serve_call *call);

/* ---- who may ask: serve_gate.c ------------------------------------------------------------------------------------ */

bool serve_gate(serve_call *call); /* false: the refusal is said */
bool serve_token_fits(const serve *s, const char *given);
bool serve_has_cookie(const serve_call *call);
sw_status serve_make_token(sw_run *run, const char **token);

/* ---- tasks and studies: serve_tasks.c, serve_work.c, serve_state.c ------------------------------------------------------------------------- */

/* Lets the call rest until a hand has made the answer, or has it ready; a refusal is said. */
void serve_ask(serve_call *call, void (*answer)(serve_call *call), unsigned how);
void serve_release(serve_call *call); /* of its task, if it has one */
bool serve_hands_start(serve *s);
void serve_hands_stop(serve *s); /* also lets every call go on that rests */
void serve_tasks_end(serve *s);  /* when no call is left */
/* Stops what nobody waits for or what takes too long, and lets go who went away. */
void serve_look_after_tasks(serve *s);
bool serve_went_away(const serve_call *call);
/* Lets the calls of a list go on; without the lock. */
void serve_resume(serve_call *list);

typedef struct serve_work { /* one computation for a caller */
    serve *s;
    sw_run run;
    sw_request request;
    unsigned studies; /* sum of sw_work */
} serve_work;

bool serve_work_open(serve_call *call, serve_work *work); /* false: no memory, which is said */
void serve_work_close(serve_work *work);
const char *serve_scratch_path(serve *s, sw_run *run, const char *ending); /* a new name; NULL = no memory */

typedef sw_status (*serve_answer_of)(serve_call *call, serve_work *work, const json_t *state);
/* The body read, a place to compute in, make called, and every fault told. */
void serve_answer_study(serve_call *call, serve_answer_of make);

/* Stove, works, house, settings, conditions and batch of a page's state into the request. SW_BAD_INPUT: every fault. */
sw_status serve_state_read(const serve *s, sw_run *run, const json_t *state, sw_request *request);
sw_status serve_number_read(sw_run *run, const json_t *state, const char *field, double low, double high,
                            double *number); /* missing: as it was */
/* The pairs under `field` as texts name=value, text and numbers alike; every fault is recorded. */
void serve_pairs_read(sw_run *run, const json_t *state, const char *field, const char *list[SW_WORDS_MAX],
                      size_t *count);
unsigned serve_weight(const serve_call *call); /* of a study: 0 is made before 1, 1 before 2 */
sw_status serve_studies_read(sw_run *run, const json_t *state, unsigned *work);
/* "name" as it stands in the project, with the folder before it; NULL when there is no such description. */
const char *serve_find_file(const serve *s, sw_run *run, const char *name, const char *ending);

/* ---- watching: serve_watch.c ------------------------------------------------------------------------------------------ */

void serve_scan(serve *s);          /* looks at the project's files */
void serve_tell_watchers(serve *s); /* whose files have changed, or who waited long enough */
long serve_version(serve *s);       /* of the project */
void serve_now(char text[40]);      /* "2026-11-25T10:15:00Z" */
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
void serve_picture(serve_call *call);
void serve_flat(serve_call *call);
void serve_house_text(serve_call *call); /* serve_house.c */
void serve_operating(serve_call *call);
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
