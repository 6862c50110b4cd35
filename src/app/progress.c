/* progress.c: one line on the terminal that tells how far long work is; nothing when stderr is no terminal. */
#include "app/app.h"

#include <string.h>
#include <unistd.h>

static const double quiet_s = 0.4, step_s = 0.1; /* ours: shorter work needs no line; ten looks a second are enough */

typedef struct progress_line {
    double started_s, shown_s;
    bool shown;
} progress_line;

static void show(progress_line *line, const sw_progress *p)
{
    sw_run probe = {0};
    sw_writer *w = NULL;
    if (sw_writer_to_stream(&probe, STDERR_FILENO, &w) != SW_OK) return;
    sw_print(w, "\r\033[K%s", p->task);
    if (p->total > 0) sw_print(w, " %3.0f %%", 100 * p->done / p->total);
    if (p->note != NULL && p->note[0] != '\0') sw_print(w, "  %s", p->note);
    (void)sw_writer_close(&probe, w);
    line->shown = true;
}

static void on_progress(void *context, const sw_progress *p)
{
    progress_line *line = context;
    double now_s = sw_seconds();
    if (line->started_s == 0) line->started_s = now_s;
    if (now_s - line->started_s < quiet_s || now_s - line->shown_s < step_s) return;
    line->shown_s = now_s;
    show(line, p);
}

void sw_progress_listen(sw_run *run)
{
    if (isatty(STDERR_FILENO) == 0) return;
    run->progress_context = SW_KEEP(run, 1, progress_line);
    if (run->progress_context != NULL) run->on_progress = on_progress;
}

void sw_progress_end(sw_run *run)
{
    progress_line *line = run->progress_context;
    if (line == NULL || !line->shown) return;
    (void)!write(STDERR_FILENO, "\r\033[K", 4);
}
