#include "app/app.h"

#include <signal.h>
#include <string.h>
#include <unistd.h>

/* Counts Ctrl-C: at the first, work stops soon; a third one kills. A signal handler needs state outside sw_app. */
static atomic_int stop_wanted;

static void on_interrupt(int number)
{
    if (atomic_fetch_add(&stop_wanted, 1) < 2) return;
    (void)signal(number, SIG_DFL);
    (void)raise(number);
}

static void listen_to_signals(void)
{
    struct sigaction action = {.sa_handler = on_interrupt};
    (void)sigemptyset(&action.sa_mask);
    (void)sigaction(SIGINT, &action, NULL);
    (void)sigaction(SIGTERM, &action, NULL);
    (void)signal(SIGPIPE, SIG_IGN); /* a closed pipe is a failed write, told by the writer */
}

typedef struct command_entry {
    const char *name;
    int (*run)(sw_run *run, const sw_request *request, sw_writer *out);
} command_entry;

static const command_entry commands[] = {
    {"check", sw_command_check}, {"make", sw_command_make},     {"sheet", sw_command_study},
    {"nest", sw_command_nest},   {"cut", sw_command_study},     {"heft", sw_command_study},
    {"trial", sw_command_trial}, {"reckon", sw_command_reckon}, {"new", sw_command_new},
    {"fire", sw_command_study},  {"air", sw_command_study},     {"heat", sw_command_study},
    {"sweep", sw_command_sweep}, {"flue", sw_command_study},    {"site", sw_command_study},
    {"form", sw_command_study},  {"join", sw_command_study},    {"serve", sw_command_serve},
    {"fit", sw_command_study},   {"coat", sw_command_study},    {"line", sw_command_study},
    {"log", sw_command_log},
};

static bool has_own_help(const sw_request *request)
{
    if (request->command == NULL) return false;
    return strcmp(request->command, "log") == 0 || (strcmp(request->command, "reckon") == 0 && request->word_count > 0);
}

static int dispatch(sw_run *run, const sw_request *request, sw_writer *out)
{
    if (request->version) {
        sw_request_version(out);
        return SW_EXIT_HOLDS;
    }
    if ((request->help && !has_own_help(request)) || request->command == NULL) {
        sw_request_help(out, request->command);
        return request->help ? SW_EXIT_HOLDS : SW_EXIT_INPUT;
    }
    for (size_t i = 0; i < sizeof commands / sizeof *commands; i++)
        if (strcmp(commands[i].name, request->command) == 0) return commands[i].run(run, request, out);
    return SW_EXIT_INPUT; /* unknown commands were refused while reading */
}

static int read_and_work(sw_run *run, int argc, char **argv, sw_request *request, sw_writer *out)
{
    sw_status status = sw_request_read(run, argc, argv, request);
    if (status != SW_OK) return sw_exit_of_status(status);
    run->threads = (int)request->threads;
    run->cancel = &stop_wanted;
    request->stop = &stop_wanted;
    sw_progress_listen(run);
    return dispatch(run, request, out);
}

/* The memory limit must be known before the arenas are opened. */
static double memory_wanted_mb(sw_run *probe, int argc, char **argv)
{
    sw_request request;
    (void)sw_request_read(probe, argc, argv, &request);
    return request.memory_mb;
}

static int with_writers(sw_run *run, int argc, char **argv)
{
    sw_writer *out = NULL, *errors = NULL;
    sw_request request = {0};
    if (sw_writer_to_stream(run, STDOUT_FILENO, &out) != SW_OK ||
        sw_writer_to_stream(run, STDERR_FILENO, &errors) != SW_OK)
        return SW_EXIT_TROUBLE;
    int code = read_and_work(run, argc, argv, &request, out);
    sw_progress_end(run);
    if (code == SW_EXIT_TROUBLE && run->error_count == 0 && sw_run_cancelled(run))
        (void)sw_fail(run, SW_CANCELLED, (sw_place){0}, request.command, "stopped before the answer was whole");
    if (run->error_count > 0 && code >= SW_EXIT_INPUT) sw_report_errors(run, &request, errors, out);
    (void)sw_writer_close(run, errors);
    return sw_writer_close(run, out) == SW_OK ? code : SW_EXIT_TROUBLE;
}

int sw_app(int argc, char **argv)
{
    sw_keep_memory();
    listen_to_signals();
    sw_run run;
    if (sw_run_open(&run, (size_t)1 << 26) != SW_OK) return SW_EXIT_TROUBLE;
    double limit_mb = memory_wanted_mb(&run, argc, argv);
    sw_run_close(&run);
    if (sw_run_open(&run, (size_t)limit_mb << 20) != SW_OK) return SW_EXIT_TROUBLE;
    int code = with_writers(&run, argc, argv);
    sw_run_close(&run);
    return code;
}
