/* trial_rules_table.c: limits by rule and kind of stove. NAN: none.
 *
 * Regulation (EU) 2015/1185 annex II, from 1 January 2022, biomass (seen); 1. BImSchV annex 4 and stage 2 (seen);
 * 40 CFR 60.532, from 15 May 2020 (seen); BS PD 6434: 5 g/h seen, 0.1 g/h for every 0.3 kW from memory; EN 13240: 50 % and 1 %
 * CO, a summary seen. */
#include "proving/trial/trial_rules.h"

#include <math.h>

#define EU      "Regulation (EU) 2015/1185 annex II (seen)"
#define GERMANY "1. BImSchV annex 4, stage 2 (seen)"
#define EN      "EN 13240 (a summary seen)"
#define NONE    (double)NAN

/* closed, open fronted, pellets */
static const trial_rule rules[] = {
    {TRIAL_EN, "EN 13240", "efficiency", "efficiency", "%", TRIAL_EFFICIENCY, SW_AT_LEAST, {50, NONE, NONE}, EN},
    {TRIAL_EN, "EN 13240", "CO at 13 % O2", "co", "mg/m3n", TRIAL_CO_13, SW_AT_MOST, {12497, NONE, NONE}, EN ": 1 %"},
    {TRIAL_EU, "EU 2015/1185", "seasonal efficiency", "season", "%", TRIAL_SEASON, SW_AT_LEAST, {65, 30, 79}, EU},
    {TRIAL_EU,
     "EU 2015/1185",
     "dust at 13 % O2",
     "pm",
     "mg/m3n",
     TRIAL_PM_13,
     SW_AT_MOST,
     {40, 50, 20},
     EU ", heated filter"},
    {TRIAL_EU, "EU 2015/1185", "OGC at 13 % O2", "ogc", "mg/m3n", TRIAL_OGC_13, SW_AT_MOST, {120, 120, 60}, EU},
    {TRIAL_EU, "EU 2015/1185", "CO at 13 % O2", "co", "mg/m3n", TRIAL_CO_13, SW_AT_MOST, {1500, 2000, 300}, EU},
    {TRIAL_EU, "EU 2015/1185", "NOx at 13 % O2", "nox", "mg/m3n", TRIAL_NOX_13, SW_AT_MOST, {200, 200, 200}, EU},
    {TRIAL_GERMANY,
     "1. BImSchV",
     "efficiency",
     "efficiency",
     "%",
     TRIAL_EFFICIENCY,
     SW_AT_LEAST,
     {73, NONE, 85},
     GERMANY},
    {TRIAL_GERMANY,
     "1. BImSchV",
     "CO at 13 % O2",
     "co",
     "mg/m3n",
     TRIAL_CO_13,
     SW_AT_MOST,
     {1250, NONE, NONE},
     GERMANY},
    {TRIAL_GERMANY,
     "1. BImSchV",
     "dust at 13 % O2",
     "pm",
     "mg/m3n",
     TRIAL_PM_13,
     SW_AT_MOST,
     {40, NONE, NONE},
     GERMANY},
    {TRIAL_UK,
     "UK smoke control",
     "smoke",
     "smoke",
     "g/h",
     TRIAL_SMOKE,
     SW_AT_MOST,
     {5, 5, 5},
     "BS PD 6434: 5 g/h (seen) + 0.1 g/h per 0.3 kW (from memory); its own precipitator, mean of five"},
    {TRIAL_US,
     "US 40 CFR 60.532",
     "dust",
     "pm",
     "g/h",
     TRIAL_PM_RATE,
     SW_AT_MOST,
     {2.5, NONE, NONE},
     "40 CFR 60.532 cord wood (seen); a weighted mean by its own tunnel"},
};

const trial_rule *trial_rules(size_t *count)
{
    *count = sizeof rules / sizeof *rules;
    return rules;
}
