/* fuzz_measured.c: the reader of measured values takes any bytes; what it accepts has charts within its counts. */
#include "making/fit/fit.h"

#include <math.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check(const sw_fit_feature *f)
{
    if (f->count == 0 || !isfinite(f->mean)) abort();
    if (!f->charted) return;
    if (f->chart.count * f->chart.size != f->count) abort();
    for (size_t i = 0; i < f->chart.break_count; i++)
        if (f->chart.breaks[i].point >= f->chart.count) abort();
    if (!(f->chart.low <= f->chart.high)) abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    sw_run run;
    sw_fit_measured m;
    if (sw_run_open(&run, (size_t)1 << 26) != SW_OK) return 0;
    if (sw_fit_read_measured(&run, NULL, "fuzz.csv", (const char *)data, size, &m) == SW_OK)
        for (size_t i = 0; i < m.feature_count; i++) check(&m.features[i]);
    sw_run_close(&run);
    return 0;
}
