/* fuel_table.c: firewood. Composition of dry, ash-free wood and ash of dry mass.
 *
 * Source: ISO 17225-1:2021 annex B, typical values of virgin conifer and broad-leaved wood (from memory); oxygen is the rest to
 * 1, inside the standard's ranges 0.40..0.44 (conifer) and 0.41..0.45 (broad-leaved). Beech: chosen inside the ranges so
 * that the heating value meets published tables of beech to 1 %. Moisture: middle of the type-test fuel, 16 % (EN 13240 annex B,
 * from memory). Species of one group differ less from each other than from the log beside them, so they share a row's
 * figures. */
#include "burning/fire/fire.h"

#include <math.h>
#include <string.h>

#define CONIFER "ISO 17225-1 annex B, typical conifer wood (from memory)"
#define BROAD   "ISO 17225-1 annex B, typical broad-leaved wood (from memory)"
#define BEECH   "chosen inside the ranges of ISO 17225-1 annex B (from memory), heating value as published for beech"

static const sw_fuel fuels[] = {
    {"beech logs", 0.495, 0.062, 0.441, 0.002, 0, 0.005, 0.16, NAN, BEECH},
    {"ash logs", 0.49, 0.062, 0.4468, 0.001, 0.0002, 0.005, 0.16, NAN, BROAD},
    {"birch logs", 0.49, 0.062, 0.4468, 0.001, 0.0002, 0.005, 0.16, NAN, BROAD},
    {"hornbeam logs", 0.49, 0.062, 0.4468, 0.001, 0.0002, 0.005, 0.16, NAN, BROAD},
    {"oak logs", 0.49, 0.062, 0.4468, 0.001, 0.0002, 0.005, 0.16, NAN, BROAD},
    {"fir logs", 0.51, 0.063, 0.426, 0.001, 0, 0.003, 0.16, NAN, CONIFER},
    {"larch logs", 0.51, 0.063, 0.426, 0.001, 0, 0.003, 0.16, NAN, CONIFER},
    {"pine logs", 0.51, 0.063, 0.426, 0.001, 0, 0.003, 0.16, NAN, CONIFER},
    {"spruce logs", 0.51, 0.063, 0.426, 0.001, 0, 0.003, 0.16, NAN, CONIFER},
};

size_t sw_fuel_count(void)
{
    return sizeof fuels / sizeof *fuels;
}

const sw_fuel *sw_fuel_at(size_t i)
{
    return i < sw_fuel_count() ? &fuels[i] : NULL;
}

const sw_fuel *sw_fuel_find(const char *name)
{
    for (size_t i = 0; i < sw_fuel_count(); i++)
        if (strcmp(fuels[i].name, name) == 0) return &fuels[i];
    return NULL;
}
