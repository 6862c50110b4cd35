/* taillard.h: times of published flow shops. */
#ifndef SW_TESTS_LINE_TAILLARD_H
#define SW_TESTS_LINE_TAILLARD_H

#include <math.h>
#include <stddef.h>
#include <stdint.h>

/* Times 1 .. 99, machine by machine, into times_s [machines * jobs]. Schrage's form of 16807 x mod (2^31 - 1), Taillard,
 * EJOR 64 (1993) 278-285; workshop handbook 12.3. */
static inline void taillard_times(int32_t seed, size_t jobs, size_t machines, double *times_s)
{
    const int32_t a = 16807, b = 127773, c = 2836, m = 2147483647;
    int32_t x = seed;
    for (size_t i = 0; i < machines * jobs; i++) {
        int32_t k = x / b;
        x = a * (x % b) - k * c;
        if (x < 0) x += m;
        times_s[i] = 1 + floor((double)x / (double)m * 99);
    }
}

#endif
