/* form_student.c: quantiles that trials are judged with. Sources: Abramowitz and Stegun, 26.7.3 and 26.7.4 (Student's
 * distribution of whole degrees of freedom), 26.4.4 and 26.4.5 (chi-square); Grubbs 1969 as in ISO 5725-2 (from memory). */
#include "making/form/form.h"

#include <math.h>

/* P(|T| < t). */
static double within(double t, size_t freedom)
{
    double theta = atan(t / sqrt((double)freedom)), c = cos(theta), sum = 0.0, term;
    if (freedom % 2 == 1) {
        term = c;
        for (size_t k = 3; k <= freedom; k += 2) {
            sum += term;
            term *= c * c * (double)(k - 1) / (double)k;
        }
        return 2.0 / SW_PI * (theta + sin(theta) * sum);
    }
    term = 1.0;
    for (size_t k = 2; k <= freedom; k += 2) {
        sum += term;
        term *= c * c * (double)(k - 1) / (double)k;
    }
    return sin(theta) * sum;
}

double sw_student_t(double probability, size_t freedom)
{
    double low = 0.0, high = 1e6, wanted = 2.0 * probability - 1.0;
    if (!(probability >= 0.5 && probability < 1.0) || freedom < 1 || freedom > 1000) return NAN;
    for (int i = 0; i < 200; i++) {
        double middle = (low + high) / 2.0;
        if (within(middle, freedom) < wanted)
            low = middle;
        else
            high = middle;
    }
    return (low + high) / 2.0;
}

/* P(chi2 > x). */
static double chi_above(double x, size_t freedom)
{
    double chi = sqrt(x), bell = exp(-x / 2.0) / sqrt(2.0 * SW_PI), sum = 0.0, term;
    if (freedom % 2 == 1) {
        term = chi;
        for (size_t r = 3; r <= freedom; r += 2) {
            sum += term;
            term *= x / (double)r;
        }
        return erfc(chi / sqrt(2.0)) + 2.0 * bell * sum;
    }
    term = 1.0;
    for (size_t r = 2; r <= freedom; r += 2) {
        sum += term;
        term *= x / (double)r;
    }
    return exp(-x / 2.0) * sum;
}

double sw_chi_square(double probability, size_t freedom)
{
    double low = 0.0, high = 1e4;
    if (!(probability > 0.0 && probability < 1.0) || freedom < 1 || freedom > 1000) return NAN;
    for (int i = 0; i < 200; i++) {
        double middle = (low + high) / 2.0;
        if (chi_above(middle, freedom) > 1.0 - probability)
            low = middle;
        else
            high = middle;
    }
    return (low + high) / 2.0;
}

/* G = (n - 1)/sqrt(n) sqrt(t2/(n - 2 + t2)), t of n - 2 at 1 - alpha/(2 n) */
double sw_grubbs_limit(size_t count, double significance)
{
    if (count < 3 || !(significance > 0.0 && significance < 1.0)) return NAN;
    double n = (double)count, t = sw_student_t(1.0 - significance / (2.0 * n), count - 2);
    return (n - 1.0) / sqrt(n) * sqrt(t * t / (n - 2.0 + t * t));
}
