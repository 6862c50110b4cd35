/* fit_sampling.c: sampling by attributes, ISO 2859-1, general level II, normal inspection, single sampling. Letters and sample
 * sizes to K seen in a chart, the rest of the letters and the acceptance numbers from memory: along the diagonals of the
 * table they run 0, two arrows, 1 2 3 5 7 10 14 21. */
#include "making/fit/fit.h"

#include <math.h>
#include <string.h>

static const char letters[] = "ABCDEFGHJKLM";
static const size_t sizes[] = {2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315};
static const size_t lots[] = {8, 15, 25, 50, 90, 150, 280, 500, 1200, 3200, 10000, 35000};
enum { LETTERS = sizeof sizes / sizeof *sizes };

char sw_sampling_letter(size_t lot)
{
    if (lot < 2) return '\0';
    for (size_t i = 0; i < LETTERS; i++)
        if (lot <= lots[i]) return letters[i];
    return '\0';
}

/* Index of the letter whose plan accepts no bad one: where the diagonal of this AQL begins; -1 = not in the table. */
static int zero_letter(double aql)
{
    static const double aqls[] = {6.5, 4, 2.5, 1.5, 1, 0.65};
    for (int i = 0; i < 6; i++)
        if (fabs(aql - aqls[i]) < 1e-9) return i;
    return -1;
}

sw_sampling sw_sampling_plan(size_t lot, double aql)
{
    static const size_t accepts[] = {1, 2, 3, 5, 7, 10, 14, 21};
    enum { LAST = sizeof accepts / sizeof *accepts - 1 };
    sw_sampling plan = {.letter = sw_sampling_letter(lot)};
    int zero = zero_letter(aql);
    if (plan.letter == '\0' || zero < 0) return (sw_sampling){0};
    int at = (int)(strchr(letters, plan.letter) - letters);
    if (at <= zero + 1) at = zero; /* arrows down above, one up just below */
    if (at == zero + 2) at = zero + 3;
    if (at >= LETTERS) at = LETTERS - 1;
    int step = at - zero - 3;
    if (step > LAST) step = LAST;
    plan.accept = step < 0 ? 0 : accepts[step];
    plan.reject = plan.accept + 1;
    plan.sample = step == LAST ? sizes[zero + 3 + LAST < LETTERS ? zero + 3 + LAST : LETTERS - 1] : sizes[at];
    if (plan.sample >= lot) {
        plan.sample = lot;
        plan.all = true;
        plan.accept = 0;
        plan.reject = 1;
    }
    return plan;
}

double sw_accept_probability(size_t sample, size_t accept, double bad)
{
    if (!(bad >= 0 && bad <= 1)) return NAN;
    if (accept >= sample || bad <= 0) return 1;
    if (bad >= 1) return 0;
    double sum = 0, n = (double)sample;
    for (size_t k = 0; k <= accept; k++) {
        double i = (double)k;
        double ways = lgamma(n + 1) - lgamma(i + 1) - lgamma(n - i + 1);
        sum += exp(ways + i * log(bad) + (n - i) * log1p(-bad));
    }
    return fmin(sum, 1);
}
