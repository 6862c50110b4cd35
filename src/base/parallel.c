#include "base/base.h"

#include <time.h>

void sw_parallel_for(int threads, size_t count, void (*body)(void *context, size_t i), void *context)
{
#pragma omp parallel for schedule(dynamic, 1) num_threads(threads < 1 ? 1 : threads) if (threads > 1)
    for (size_t i = 0; i < count; i++) body(context, i);
}

double sw_seconds(void)
{
    struct timespec now;
    if (clock_gettime(CLOCK_MONOTONIC, &now) != 0) return 0;
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}
