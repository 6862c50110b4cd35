/* log_help.h: files and records for the tests of the log. */
#ifndef SW_TESTS_LOG_HELP_H
#define SW_TESTS_LOG_HELP_H

#include "log/log.h"
#include "sw_test.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* A folder of the test's own; path: a file in it that is not there yet. */
static inline const char *new_path(sw_test *t, const char *name)
{
    char folder[] = "sw_log_XXXXXX";
    const char *where = getenv("TMPDIR");
    const char *pattern = sw_text_format(&t->run, t->run.keep, "%s/%s", where == NULL ? "/tmp" : where, folder);
    char *made = strdup(pattern);
    sw_true(t, made != NULL && mkdtemp(made) != NULL);
    const char *path = sw_text_format(&t->run, t->run.keep, "%s/%s", made, name);
    free(made);
    return path;
}

static inline void remove_log(sw_test *t, const char *path)
{
    static const char *const ends[] = {"", "-wal", "-shm", "-journal"};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++)
        (void)unlink(sw_text_format(&t->run, t->run.keep, "%s%s", path, ends[i]));
    char *folder = strdup(path);
    *strrchr(folder, '/') = '\0';
    (void)rmdir(folder);
    free(folder);
}

static inline sw_log *open_as(sw_test *t, const char *path, sw_log_mode mode)
{
    sw_log *log = NULL;
    sw_log_options options = sw_log_defaults(mode);
    sw_ok(t, sw_log_open(&t->run, path, &options, &log));
    return log;
}

/* Adds "KIND field=value ..." (parted by blanks); gives the status. */
static inline sw_status add_words(sw_run *run, sw_log *log, const char *line, int64_t *id)
{
    const char *words[32];
    size_t count = 0;
    sw_log_record record;
    char *copy = strdup(line), *rest = NULL;
    for (char *w = strtok_r(copy, " ", &rest); w != NULL; w = strtok_r(NULL, " ", &rest)) words[count++] = w;
    sw_status status = sw_log_record_read(run, sw_log_kind_find(words[0]), words + 1, count - 1, &record);
    if (status == SW_OK) status = sw_log_add(run, log, &record, 1, id);
    free(copy);
    return status;
}

/* A design, a batch, a sheet and two stoves. */
static inline void add_works(sw_test *t, sw_log *log)
{
    static const char *const lines[] = {
        "design name=A-3 part=stove text=stove{} by=ab at=2026-01-01",
        "batch name=B-7 design=A-3 stoves=2 by=ab at=2026-01-02",
        "sheet name=P-1 heat=4711 material=S235 thickness_mm=4 length_mm=3000 width_mm=1500 by=ab at=2026-01-03",
        "serial number=S-1 batch=B-7 by=ab at=2026-01-04",
        "serial number=S-2 batch=B-7 by=ab at=2026-01-04",
    };
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) sw_ok(t, add_words(&t->run, log, lines[i], NULL));
}

static inline sw_log *new_log(sw_test *t, const char *path)
{
    sw_log *log = open_as(t, path, SW_LOG_CREATE);
    if (log != NULL) add_works(t, log);
    return log;
}

static inline size_t count_of(sw_test *t, sw_log *log, const char *kind, bool all)
{
    sw_log_records found = {0};
    sw_ok(t, sw_log_find(&t->run, log, &(sw_log_query){.like = {.kind = sw_log_kind_find(kind)}, .all = all}, &found));
    return found.count;
}

/* The call must fail with the status and a message that holds the part. */
static inline void refused(sw_test *t, sw_status got, sw_status want, const char *part)
{
    sw_true(t, got == want);
    if (sw_true(t, t->run.error_count > 0)) sw_contains(t, t->run.errors[0].text, part);
    sw_run_clear_errors(&t->run);
}

#endif
