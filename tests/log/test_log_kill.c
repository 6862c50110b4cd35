/* Writers are killed at any instant, hundreds of times: every confirmed record is there, whole, and nothing is there by halves. */
#include "log_help.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <sys/wait.h>
#include <time.h>

enum { KILLS = 300, WRITERS = 3, TABLES = 40 };

/* One transaction: a stove and two readings of it. */
static sw_status add_stove(sw_run *run, sw_log *log, const char *number)
{
    sw_log_record records[3];
    const char *name = sw_text_format(run, run->keep, "number=%s", number);
    const char *serial = sw_text_format(run, run->keep, "serial=%s", number);
    const char *stove[] = {name, "batch=B-7", "by=ab"}, *first[] = {serial, "feature=gap", "value=1", "by=ab"},
               *second[] = {serial, "feature=door", "value=2", "by=ab"};
    SW_TRY(sw_log_record_read(run, sw_log_kind_find("serial"), stove, 3, &records[0]));
    SW_TRY(sw_log_record_read(run, sw_log_kind_find("inspection"), first, 4, &records[1]));
    SW_TRY(sw_log_record_read(run, sw_log_kind_find("inspection"), second, 4, &records[2]));
    return sw_log_add(run, log, records, 3, NULL);
}

/* The writer: adds stoves for ever and says each number when it is confirmed. */
static void write_for_ever(const char *path, int tell, int writer)
{
    sw_run run;
    sw_log *log = NULL;
    sw_log_options options = sw_log_defaults(SW_LOG_WRITE);
    if (sw_run_open(&run, (size_t)1 << 28) != SW_OK || sw_log_open(&run, path, &options, &log) != SW_OK) _exit(3);
    for (int i = 0;; i++) {
        char line[64];
        int length = snprintf(line, sizeof line, "W%d-%d", writer, i);
        if (add_stove(&run, log, line) != SW_OK) _exit(4);
        line[length] = '\n';
        if (write(tell, line, (size_t)length + 1) != (ssize_t)length + 1) _exit(5);
    }
}

typedef struct writer {
    pid_t id;
    int ear;
    char *said; /* all it confirmed, a line each */
    size_t length;
} writer;

static bool start(writer *w, const char *path, int number)
{
    int ends[2];
    if (pipe(ends) != 0) return false;
    w->id = fork();
    if (w->id == 0) {
        (void)close(ends[0]);
        write_for_ever(path, ends[1], number);
    }
    (void)close(ends[1]);
    (void)fcntl(ends[0], F_SETFD, FD_CLOEXEC);
    w->ear = ends[0];
    return w->id > 0;
}

/* Takes what it says for some time, so that the pipe never fills. */
static void listen_to(writer *w, int ms)
{
    struct pollfd ear = {.fd = w->ear, .events = POLLIN};
    char bytes[4096];
    while (poll(&ear, 1, ms) > 0) {
        ssize_t n = read(w->ear, bytes, sizeof bytes);
        if (n <= 0) return;
        char *more = realloc(w->said, w->length + (size_t)n + 1);
        if (more == NULL) return;
        memcpy(more + w->length, bytes, (size_t)n);
        w->said = more;
        w->length += (size_t)n;
        more[w->length] = '\0';
        if (ms > 0) return;
    }
}

/* How it ended: true when by our kill and by no fault of its own. */
static bool end(writer *w)
{
    int code = 0;
    (void)kill(w->id, SIGKILL);
    (void)waitpid(w->id, &code, 0);
    listen_to(w, 0);
    (void)close(w->ear);
    return WIFSIGNALED(code) && WTERMSIG(code) == SIGKILL;
}

static size_t readings_of(sw_test *t, sw_log *log, const char *number)
{
    sw_log_records found = {0};
    sw_log_query query = {.like = {.kind = sw_log_kind_find("inspection")}};
    query.like.values[0] = (sw_log_value){.there = true, .text = number};
    sw_ok(t, sw_log_find(&t->run, log, &query, &found));
    return found.count;
}

static void check_said(sw_test *t, sw_log *log, const writer *w, size_t *confirmed)
{
    char *rest = NULL;
    for (char *line = w->length == 0 ? NULL : strtok_r(w->said, "\n", &rest); line != NULL;
         line = strtok_r(NULL, "\n", &rest)) {
        sw_true(t, readings_of(t, log, line) == 2);
        (*confirmed)++;
    }
}

/* Every stove has both readings, confirmed or not. */
static void check_whole(sw_test *t, sw_log *log)
{
    const char *const *faults = NULL;
    size_t count = 1, stoves = count_of(t, log, "serial", true) - 2;
    sw_true(t, count_of(t, log, "inspection", true) == 2 * stoves);
    sw_ok(t, sw_log_check(&t->run, log, &faults, &count));
    sw_true(t, count == 0);
}

static void killed_writers_lose_nothing_confirmed_and_leave_no_half(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_random random = sw_random_seeded(t->seed = 11);
    sw_log_close(new_log(t, path));
    writer writers[WRITERS] = {0};
    int started = 0, kills = 0;
    size_t confirmed = 0;
    for (int i = 0; i < WRITERS; i++) sw_true(t, start(&writers[i], path, started++));
    while (kills < KILLS) {
        struct timespec nap = {0, (long)sw_random_below(&random, 12000000)};
        (void)nanosleep(&nap, NULL);
        for (int i = 0; i < WRITERS; i++) listen_to(&writers[i], 0);
        writer *w = &writers[kills % WRITERS];
        sw_true(t, end(w));
        sw_log *log = kills % 10 == 0 ? open_as(t, path, SW_LOG_READ) : NULL;
        if (log != NULL) check_said(t, log, w, &confirmed);
        sw_log_close(log);
        if (log != NULL) w->length = 0;
        sw_true(t, start(w, path, started++));
        kills++;
    }
    for (int i = 0; i < WRITERS; i++) sw_true(t, end(&writers[i]));
    sw_log *log = open_as(t, path, SW_LOG_WRITE);
    for (int i = 0; i < WRITERS; i++) {
        check_said(t, log, &writers[i], &confirmed);
        free(writers[i].said);
    }
    sw_true(t, confirmed > KILLS / 4);
    check_whole(t, log);
    sw_log_close(log);
    remove_log(t, path);
}

/* Made and killed: then there is a log, or one can be made at the same place. */
static void a_log_whose_making_was_killed_can_be_made(sw_test *t)
{
    sw_random random = sw_random_seeded(t->seed = 13);
    for (int i = 0; i < TABLES; i++) {
        const char *path = new_path(t, "works.log");
        struct timespec nap = {0, (long)sw_random_below(&random, 20000000)};
        sw_log_options options = sw_log_defaults(SW_LOG_CREATE);
        sw_log *log = NULL;
        pid_t child = fork();
        if (child == 0) _exit(sw_log_open(&t->run, path, &options, &log) == SW_OK ? 0 : 1);
        (void)nanosleep(&nap, NULL);
        (void)kill(child, SIGKILL);
        (void)waitpid(child, NULL, 0);
        if (sw_log_open(&t->run, path, &options, &log) != SW_OK) {
            sw_run_clear_errors(&t->run);
            options.mode = SW_LOG_WRITE;
            sw_ok(t, sw_log_open(&t->run, path, &options, &log));
        }
        add_works(t, log);
        sw_log_close(log);
        remove_log(t, path);
    }
}

/* A file as power loss leaves it: the log of what is being written cut off anywhere. */
static void a_write_ahead_log_cut_anywhere_leaves_whole_records(sw_test *t)
{
    const char *path = new_path(t, "works.log"), *torn = new_path(t, "torn.log"), *main_bytes = NULL, *wal_bytes = NULL;
    size_t main_length = 0, wal_length = 0, last = 0;
    sw_log *log = new_log(t, path);
    sw_log_close(log);
    log = open_as(t, path, SW_LOG_WRITE);
    for (int i = 0; i < 20; i++) sw_ok(t, add_stove(&t->run, log, sw_text_format(&t->run, t->run.keep, "C-%d", i)));
    sw_ok(t, sw_file_read(&t->run, path, (size_t)1 << 26, &main_bytes, &main_length));
    sw_ok(t, sw_file_read(&t->run, sw_text_format(&t->run, t->run.keep, "%s-wal", path), (size_t)1 << 26, &wal_bytes,
                          &wal_length));
    sw_log_close(log);
    const char *torn_wal = sw_text_format(&t->run, t->run.keep, "%s-wal", torn);
    for (size_t cut = 0; cut <= wal_length; cut += wal_length / 97 + 1) {
        FILE *file = fopen(torn, "wb"), *wal = fopen(torn_wal, "wb");
        sw_true(t, fwrite(main_bytes, 1, main_length, file) == main_length && fwrite(wal_bytes, 1, cut, wal) == cut);
        (void)fclose(file);
        (void)fclose(wal);
        log = open_as(t, torn, SW_LOG_WRITE);
        size_t stoves = count_of(t, log, "serial", true);
        sw_true(t, stoves >= last);
        last = stoves;
        check_whole(t, log);
        sw_log_close(log);
    }
    sw_true(t, last > 10);
    remove_log(t, path);
    remove_log(t, torn);
}

SW_TESTS(SW_CASE(killed_writers_lose_nothing_confirmed_and_leave_no_half),
         SW_CASE(a_log_whose_making_was_killed_can_be_made),
         SW_CASE(a_write_ahead_log_cut_anywhere_leaves_whole_records))
