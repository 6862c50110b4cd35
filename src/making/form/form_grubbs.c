/* form_grubbs.c: how far off a trial may lie: Grubbs 1969 as in ISO 5725-2 (from memory). */
#include "making/form/form.h"

#include <math.h>

/* G = (n - 1)/sqrt(n) sqrt(t2/(n - 2 + t2)), t of n - 2 at 1 - alpha/(2 n) */
double sw_grubbs_limit(size_t count, double significance)
{
    if (count < 3 || !(significance > 0.0 && significance < 1.0)) return NAN;
    double n = (double)count, t = sw_student_t(1.0 - significance / (2.0 * n), count - 2);
    return (n - 1.0) / sqrt(n) * sqrt(t * t / (n - 2.0 + t * t));
}
