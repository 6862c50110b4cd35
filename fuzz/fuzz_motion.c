/* fuzz_motion.c: the motion reader takes any bytes; what it accepts must write and read back as the same path. */
#include "papers/papers.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static sw_laser words(void)
{
    return (sw_laser){.etch_mm_s = 150,
                      .program_start = "G21\nG90",
                      .program_end = "M2",
                      .beam_on = "M3",
                      .beam_off = "M5",
                      .etch_on = "M13",
                      .etch_off = "M15"};
}

/* Moves below the last decimal are not written: such a pass may vanish. */
static bool fit_to_write(const sw_cut_pass *passes, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        bool visible = false;
        for (size_t k = 0; k < passes[i].move_count; k++)
            visible = visible || sw_segment_length(passes[i].moves[k].from, passes[i].moves[k].to) > 0.1;
        if (!visible) return false;
    }
    return count > 0;
}

static void round_trip(sw_run *run, sw_laser *laser, const sw_cut_pass *passes, size_t count)
{
    sw_laser_row row = {.feed_mm_s = 50};
    sw_cut_input cut = {.name = "", .laser = laser, .row = &row};
    sw_cut_plan plan = {.passes = passes, .pass_count = count};
    const sw_cut_pass *again = NULL;
    const char *bytes = NULL;
    size_t length = 0, again_count = 0;
    double worst_mm = 0;
    char path[64];
    (void)snprintf(path, sizeof path, "fuzz_motion_%ld.nc", (long)getpid());
    if (sw_paper_motion(run, &cut, &plan, path) != SW_OK) return;
    if (sw_file_read(run, path, (size_t)1 << 24, &bytes, &length) != SW_OK) abort();
    (void)unlink(path);
    if (sw_motion_read(run, path, bytes, length, laser, &again, &again_count) != SW_OK) abort();
    if (sw_motion_compare(run, &plan, again, again_count, &worst_mm) != SW_OK) abort();
    if (worst_mm > 0.01) abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    sw_run run;
    sw_laser laser = words();
    const sw_cut_pass *passes = NULL;
    size_t count = 0;
    if (sw_run_open(&run, (size_t)1 << 26) != SW_OK) return 0;
    sw_status status = sw_motion_read(&run, "fuzz.nc", (const char *)data, size, &laser, &passes, &count);
    if (status == SW_OK && fit_to_write(passes, count)) round_trip(&run, &laser, passes, count);
    sw_run_close(&run);
    return 0;
}
