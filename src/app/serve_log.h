/* serve_log.h: what serve_log.c and serve_log_enter.c share. */
#ifndef SW_APP_SERVE_LOG_H
#define SW_APP_SERVE_LOG_H

#include "app/serve.h"
#include "log/log.h"

typedef struct log_call { /* one call to /api/log */
    serve_call *call;
    sw_run *run;
    sw_log *log;        /* NULL: the call needs none */
    const char *what;   /* what follows the verb in the path */
    const json_t *body; /* of a POST */
    json_t *list;       /* an empty list to fill; released by who made the call */
} log_call;

/* Adds, corrects, withdraws; each says its answer when it gives SW_OK. */
sw_status serve_log_add(log_call *c);
sw_status serve_log_correct(log_call *c);
sw_status serve_log_withdraw(log_call *c);

/* One field of a record from text; a fault is recorded. Unlike on the command line @ names no file. */
void serve_log_take_text(sw_run *run, sw_place place, sw_log_record *record, const char *name, const char *text);

#endif
