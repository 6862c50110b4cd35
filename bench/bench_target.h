/* bench_target.h: a figure beside its target. Targets hold for two cores of a present-day desktop machine; a figure is one
 * machine's and no test asks for it. */
#ifndef BENCH_BENCH_TARGET_H
#define BENCH_BENCH_TARGET_H

static inline const char *target_met(double value, double below)
{
    return value < below ? "met" : "missed";
}

#endif
