/* Whole dossier of demo stove (a), batch 20, stage by stage, on one thread: read, studies, papers. Figures are one machine's;
 * TMPDIR says where the files go, and a folder in memory leaves the disk's share out. Target: the workshop's part, which
 * is what its stage takes above the making core's, below 0.5 s. */
#include "app/app.h"
#include "bench_target.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { ROUNDS = 5 };

typedef struct stage {
    const char *name;
    unsigned work;
    bool papers;
    int above;        /* the stage whose time is taken off for the target; -1 = it has none */
    double target_ms; /* of the rest */
} stage;

enum { CORE = 1 }; /* below: the making core */

static const stage stages[] = {
    {"sheet study (read, unfold, fold, fit)", SW_DO_SHEET, false, -1, 0},
    {"making core: and masses, nests, cutting paths", SW_DO_HEFT | SW_DO_NEST | SW_DO_CUT, false, -1, 0},
    {"making core with its papers", SW_DO_HEFT | SW_DO_NEST | SW_DO_CUT, true, -1, 0},
    {"fire, air, heat and a whole burn beside sheet", SW_DO_BURN | SW_DO_THROUGH, false, -1, 0},
    {"workshop beside the making core", SW_DO_HEFT | SW_DO_NEST | SW_DO_CUT | SW_DO_SHOP, false, CORE, 500},
    {"everything with all papers", SW_DO_MAKE, true, -1, 0},
};
enum { STAGES = sizeof stages / sizeof *stages };

static const sw_request request = {.command = "make",
                                   .words = {SW_SOURCE_DIR "/demo/a.stove.lua"},
                                   .word_count = 1,
                                   .works = SW_SOURCE_DIR "/demo/demo.works.lua",
                                   .batch = 20,
                                   .seconds = 0,
                                   .seed = 1,
                                   .threads = 1,
                                   .memory_mb = 2048};

static sw_status papers(sw_run *run, const sw_dossier *d)
{
    const char *base = getenv("TMPDIR");
    const char *path = sw_text_format(run, run->keep, "%s/sw-bench-%ld", base == NULL ? "/tmp" : base, (long)getpid());
    sw_folder folder = {0};
    const sw_paper_file *files = NULL;
    size_t count = 0;
    SW_TRY(sw_folder_open(run, path, &folder));
    sw_status status = sw_papers_write(run, d, &folder, &files, &count);
    sw_folder_discard(&folder);
    return status;
}

/* Seconds of one stage and all before it; negative when it failed. *nest_s: of that, the nests' own time. */
static double once(const stage *s, double *nest_s)
{
    sw_run run;
    sw_dossier d;
    if (sw_run_open(&run, (size_t)2 << 30) != SW_OK) return -1;
    double begun_s = sw_seconds();
    sw_status status = sw_dossier_make(&run, &request, s->work, "2026-01-01", &d);
    if (status == SW_OK && s->papers) status = papers(&run, &d);
    double took_s = sw_seconds() - begun_s;
    *nest_s = 0;
    for (size_t i = 0; status == SW_OK && i < d.nest_count; i++)
        if (d.nests[i].result != NULL) *nest_s += d.nests[i].result->seconds;
    if (status != SW_OK) printf("failed: %s\n", run.error_count > 0 ? run.errors[0].text : sw_status_name(status));
    sw_run_close(&run);
    return status == SW_OK ? took_s : -1;
}

static void tell(size_t k, double best_s, double nest_s, const double *all_ms)
{
    const stage *s = &stages[k];
    printf("%-48s %10.1f %22.1f", s->name, best_s * 1e3, (best_s - nest_s) * 1e3);
    if (s->above >= 0) {
        double part_ms = all_ms[k] - all_ms[s->above];
        printf("   its part %.1f, target %.0f, %s", part_ms, s->target_ms, target_met(part_ms, s->target_ms));
    }
    printf("\n");
}

int main(void)
{
    double all_ms[STAGES];
    sw_keep_memory();
    printf("%-48s %10s %22s\n", "stove (a), batch 20, one thread", "best ms", "less first nests, ms");
    for (size_t k = 0; k < STAGES; k++) {
        double best_s = 1e9, best_nest_s = 0;
        for (int i = 0; i < ROUNDS; i++) {
            double nest_s = 0, took_s = once(&stages[k], &nest_s);
            if (took_s < 0) return 1;
            if (took_s < best_s) best_s = took_s, best_nest_s = nest_s;
        }
        all_ms[k] = best_s * 1e3;
        tell(k, best_s, best_nest_s, all_ms);
    }
    return 0;
}
