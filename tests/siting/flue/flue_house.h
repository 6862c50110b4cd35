/* flue_house.h: the worked examples FS-8 to FS-11 as houses, for the tests of the flue. */
#ifndef SW_TESTS_FLUE_HOUSE_H
#define SW_TESTS_FLUE_HOUSE_H

#include "siting/flue/flue.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

#define EXACT "handbook FS-8 (computed)"

enum { HOUSE_PARTS = 6 };

typedef struct flue_house {
    sw_flue_part parts[HOUSE_PARTS];
    sw_house house;
    sw_flue_input in;
    sw_flue_options opt;
} flue_house;

typedef struct flue_shaft {
    bool round;
    double width_mm, roughness_mm, resistance, outer_mm, zeta, terminal_zeta;
    double heated_m, loft_m, outside_m;
} flue_shaft;

static const flue_shaft fs8_shaft = {true, 150, 1, 0.384232, 449, 1.25, 0.5, 3, 1, 1};

static inline sw_flue_part chimney_part(const flue_shaft *s, const char *name, double length_m, sw_around around)
{
    sw_flue_part p = {.name = name, .round = s->round, .width_mm = s->width_mm, .depth_mm = s->width_mm};
    p.length_m = p.rise_m = length_m;
    p.roughness_mm = s->roughness_mm;
    p.resistance = s->resistance;
    p.outer_mm = s->outer_mm;
    p.around = around;
    p.designation = "T450 N1 D V3 L50060 G50";
    p.combustible_mm = (double)NAN;
    p.place = (sw_place){"house.lua", 10, 1};
    return p;
}

static inline sw_flue_part pipe_part(void)
{
    sw_flue_part p = {.name = "pipe", .pipe = true, .round = true, .width_mm = 150, .depth_mm = 150, .length_m = 1};
    p.rise_m = 0.7;
    p.roughness_mm = 1;
    p.zeta = 0.75;
    p.outer_mm = 154;
    p.designation = "";
    p.combustible_mm = (double)NAN;
    p.place = (sw_place){"house.lua", 9, 1};
    return p;
}

static inline flue_house *house_with(sw_test *t, const flue_shaft *s)
{
    flue_house *h = SW_KEEP(&t->run, 1, flue_house);
    h->parts[0] = pipe_part();
    h->parts[1] = chimney_part(s, "in the rooms", s->heated_m, SW_HEATED);
    h->parts[2] = chimney_part(s, "loft", s->loft_m, SW_UNHEATED);
    h->parts[3] = chimney_part(s, "over the roof", s->outside_m, SW_OUTDOORS);
    h->parts[1].zeta = s->zeta;
    h->house = (sw_house){.name = "worked example", .note = "", .code = "", .altitude_m = 200, .least_k = 263.15};
    h->house.parts = h->parts;
    h->house.part_count = 4;
    h->house.terminal_zeta = s->terminal_zeta;
    h->house.roof =
        (sw_roof){(double)NAN, (double)NAN, (double)NAN, (double)NAN, (double)NAN, (double)NAN, (double)NAN, false};
    h->house.place = (sw_place){"house.lua", 1, 1};
    h->in.house = &h->house;
    h->in.nominal = (sw_flue_appliance){0.006, 553.15, 12, (double)NAN, 0.11, true};
    h->in.wood = sw_flue_wood_reference();
    h->opt = sw_flue_options_defaults();
    return h;
}

static inline flue_house *fs8(sw_test *t)
{
    return house_with(t, &fs8_shaft);
}

static inline const sw_flue_result *solved(sw_test *t, const flue_house *h)
{
    static const sw_flue_result none;
    const sw_flue_result *r = NULL;
    return sw_ok(t, sw_flue_solve(&t->run, &h->in, &h->opt, &r)) ? r : &none;
}

/* The finding of a check, at a place that holds `where`. */
static inline const sw_finding *found(sw_test *t, const sw_flue_result *r, const char *check, const char *where)
{
    static const sw_finding none = {.what = "", .where = "", .source = "", .remedy = ""};
    for (size_t i = 0; i < r->findings.count; i++)
        if (strcmp(r->findings.items[i].check, check) == 0 && strstr(r->findings.items[i].where, where) != NULL)
            return &r->findings.items[i];
    sw_true_at(t, false, check, __FILE__, __LINE__);
    return &none;
}

#endif
