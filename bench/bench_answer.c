/* bench_answer.c: one answer of the workbench by parts: descriptions, studies, JSON, the solid. Processor time and time by the clock
 * of the best of ROUNDS.
 *   bench_answer [STUDIES] [ROUNDS]   of demo a; STUDIES a word of the table below, default all. Figures are one machine's. */
#include "../tests/demo_request.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

typedef struct question {
    const char *name;
    unsigned work;
} question;

/* What the page asks for once a slider rests: all but nests and what comes from them. */
static const unsigned at_rest = SW_DO_CHECK & ~(unsigned)(SW_DO_NEST | SW_DO_CUT | SW_DO_LINE);

static double processor_s(void)
{
    struct timespec now;
    if (clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now) != 0) return 0;
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static sw_status answer(unsigned work, size_t *bytes)
{
    sw_run run;
    sw_dossier d;
    sw_writer *w = NULL;
    const char *text = NULL;
    sw_request request = DEMO_REQUEST;
    request.command = "serve";
    request.house = SW_SOURCE_DIR "/demo/demo.house.lua";
    request.threads = 2;
    SW_TRY(sw_run_open(&run, (size_t)1 << 30));
    run.threads = 2;
    sw_status status = sw_dossier_make(&run, &request, work, "", &d);
    if (status == SW_OK) status = sw_writer_to_memory(&run, &w);
    if (status == SW_OK) status = sw_paper_json(&run, &d, w);
    if (status == SW_OK) status = sw_writer_take(&run, w, &text, bytes);
    for (size_t i = 0; i < run.error_count && i < 3; i++) fprintf(stderr, "%s\n", run.errors[i].text);
    sw_run_close(&run);
    return status;
}

static bool measure(const question *q, int rounds)
{
    double best_s = 1e9, least_s = 1e9;
    size_t bytes = 0;
    for (int i = 0; i < rounds; i++) {
        double begun_s = sw_seconds(), used_s = processor_s();
        if (answer(q->work, &bytes) != SW_OK) return false;
        used_s = processor_s() - used_s;
        begun_s = sw_seconds() - begun_s;
        if (begun_s < best_s) best_s = begun_s;
        if (used_s < least_s) least_s = used_s;
    }
    printf("%s,%.1f,ms processor\n%s,%.1f,ms clock\n%s,%.0f,kB\n", q->name, least_s * 1e3, q->name, best_s * 1e3,
           q->name, (double)bytes / 1e3);
    return true;
}

int main(int argc, char **argv)
{
    const question questions[] = {
        {"sheet", SW_DO_SHEET},
        {"heft", SW_DO_HEFT},
        {"lift", SW_DO_HEFT | SW_DO_LIFT},
        {"burn", SW_DO_BURN},
        {"quick", SW_DO_HEFT | SW_DO_BURN},
        {"house", SW_DO_HEFT | SW_DO_BURN | SW_DO_HOUSE},
        {"form", SW_DO_FORM},
        {"join", SW_DO_JOIN},
        {"fit", SW_DO_FIT},
        {"coat", SW_DO_COAT},
        {"fittings", SW_DO_FITTINGS},
        {"rest", at_rest},
        {"cut", SW_DO_NEST | SW_DO_CUT},
        {"line", SW_DO_HEFT | SW_DO_NEST | SW_DO_CUT | SW_DO_FORM | SW_DO_JOIN | SW_DO_COAT | SW_DO_LINE},
    };
    int rounds = argc > 2 ? (int)strtol(argv[2], NULL, 10) : 20;
    bool good = true;
    sw_keep_memory();
    printf("what,value,unit\n");
    for (size_t i = 0; i < sizeof questions / sizeof *questions; i++)
        if (argc < 2 || strcmp(argv[1], "all") == 0 || strcmp(argv[1], questions[i].name) == 0)
            good = measure(&questions[i], rounds < 1 ? 1 : rounds) && good;
    return good ? 0 : 3;
}
