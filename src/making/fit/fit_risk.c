/* fit_risk.c: how near a joint comes to its limit over the stoves, in four words. */
#include "making/fit/fit_parts.h"

static const double half = 0.5; /* of the limit: ours, what is looser than that needs no second look */

const char *sw_fit_risk_name(sw_fit_risk risk)
{
    static const char *const names[SW_FIT_RISKS] = {"loose", "close", "at risk", "fails"};
    return names[risk];
}

sw_fit_risk sw_fit_risk_of(const sw_fit_joint *j, double allowed)
{
    if (j->over > allowed) return SW_FIT_FAILS;
    if (j->over > 0 || j->p95_mm > j->limit_mm) return SW_FIT_AT_RISK;
    return j->p95_mm > half * j->limit_mm ? SW_FIT_CLOSE : SW_FIT_LOOSE;
}
