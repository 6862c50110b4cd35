/* wood.h: fuels the tests of fire burn. */
#ifndef SW_TESTS_BURNING_FIRE_WOOD_H
#define SW_TESTS_BURNING_FIRE_WOOD_H

#include "burning/fire/fire.h"

#include <math.h>

static inline sw_fuel beech(double moisture)
{
    sw_fuel f = *sw_fuel_find("beech logs");
    f.moisture = moisture;
    return f;
}

/* Any wood: composition, ash and moisture at random inside the ranges of ISO 17225-1 and beyond. */
static inline sw_fuel random_wood(sw_random *r)
{
    sw_fuel f = beech(sw_random_between(r, 0, 0.6));
    f.c = sw_random_between(r, 0.45, 0.55);
    f.h = sw_random_between(r, 0.05, 0.075);
    f.n = sw_random_between(r, 0, 0.01);
    f.s = sw_random_between(r, 0, 0.001);
    f.o = 1 - f.c - f.h - f.n - f.s;
    f.ash = sw_random_between(r, 0, 0.05);
    return f;
}

#endif
