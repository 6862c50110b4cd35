/* trial_rules.h: limits of rules as rows; for proving/trial alone. */
#ifndef SW_PROVING_TRIAL_TRIAL_RULES_H
#define SW_PROVING_TRIAL_TRIAL_RULES_H

#include "proving/trial/trial_parts.h"

typedef enum trial_regime { TRIAL_EN, TRIAL_EU, TRIAL_GERMANY, TRIAL_UK, TRIAL_US } trial_regime;
typedef enum trial_of {
    TRIAL_EFFICIENCY,
    TRIAL_SEASON,
    TRIAL_CO_13,
    TRIAL_OGC_13,
    TRIAL_NOX_13,
    TRIAL_PM_13,
    TRIAL_PM_RATE,
    TRIAL_SMOKE /* as PM_RATE; the limit grows with the output */
} trial_of;
typedef struct trial_rule {
    trial_regime regime;
    const char *rules, *name, *key, *unit;
    trial_of of;
    sw_sense sense;
    double limits[3]; /* closed, open fronted, pellets */
    const char *source;
} trial_rule;
const trial_rule *trial_rules(size_t *count);

#endif
