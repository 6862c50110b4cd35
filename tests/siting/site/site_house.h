/* site_house.h: a stove of 7 kW in a house of England where everything holds; each test spoils one thing. */
#ifndef SITE_HOUSE_H
#define SITE_HOUSE_H

#include "siting/site/site.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

enum { SITE_PARTS = 2, SITE_NEARS = 2 };

typedef struct placed {
    sw_flue_part parts[SITE_PARTS];
    sw_near near[SITE_NEARS];
    sw_hot_panel back, front, pane;
    sw_house house;
    sw_stove stove;
    sw_site_input in;
} placed;

static void place_house(placed *p)
{
    p->parts[0] = (sw_flue_part){.name = "pipe",
                                 .pipe = true,
                                 .round = true,
                                 .width_mm = 150,
                                 .depth_mm = 150,
                                 .length_m = 1.0,
                                 .rise_m = 0.9,
                                 .resistance = NAN,
                                 .outer_mm = NAN,
                                 .designation = "",
                                 .combustible_mm = 480,
                                 .place = {"a.house.lua", 10, 1}};
    p->parts[1] = p->parts[0];
    p->parts[1].name = "liner";
    p->parts[1].pipe = false;
    p->parts[1].length_m = p->parts[1].rise_m = 5;
    p->parts[1].outer_mm = 449;
    p->parts[1].combustible_mm = 50;
    p->near[0] = (sw_near){.name = "wall",
                           .side = "back",
                           .distance_mm = 700,
                           .combustible = true,
                           .resistance = NAN,
                           .thickness_mm = NAN,
                           .place = {"a.house.lua", 20, 1}};
    p->near[1] = p->near[0];
    p->near[1].name = "chair";
    p->near[1].side = "front";
    p->near[1].distance_mm = 1200;
    p->house = (sw_house){.name = "house", .note = "", .code = "England", .parts = p->parts, .part_count = SITE_PARTS};
    p->house.near = p->near;
    p->house.near_count = SITE_NEARS;
    p->house.roof = (sw_roof){sw_rad_from_deg(40), 0.4, 1.0, NAN, NAN, NAN, NAN, false};
    p->house.room_m3 = 60;
    p->house.permeability_m_s = sw_h_from_s(8);
    p->house.envelope_m2 = 250;
    p->house.vent_m2 = 1100e-6;
    p->house.floor_combustible = true;
    p->house.hearth_width_mm = 840;
    p->house.hearth_depth_mm = 840;
    p->house.hearth_mm = 20;
    p->house.hearth_front_mm = 280;
    p->house.hearth_side_mm = 160;
    p->house.hearth_density = 2800;
    p->house.floor_pa = 3000;
    p->house.alarm = (sw_alarm){true, true, 2000, 400, NAN, {"a.house.lua", 30, 1}};
    p->house.declared_kg_s = p->house.declared_k = p->house.declared_pa = p->house.declared_most_pa = NAN;
    p->house.declared_co2 = NAN;
}

static placed *placed_stove(sw_test *t)
{
    placed *p = SW_KEEP(&t->run, 1, placed);
    place_house(p);
    p->back = (sw_hot_panel){"back", 0.5, 0.6, 523.15, 0.9};
    p->front = (sw_hot_panel){"front", 0.5, 0.6, 523.15, 0.9};
    p->pane = (sw_hot_panel){"pane", 0.35, 0.35, 623.15, 0.85};
    p->stove = (sw_stove){.name = "box"};
    p->in = (sw_site_input){.house = &p->house, .stove = &p->stove, .output_w = 7000, .mass_kg = 160, .leg_count = 4};
    p->in.width_mm = 500;
    p->in.depth_mm = 400;
    p->in.height_mm = 700;
    p->in.back = &p->back;
    p->in.front = &p->front;
    p->in.pane = &p->pane;
    p->in.pipe_k = 573.15;
    p->in.pipe_diameter_m = 0.15;
    p->in.floor_k = sw_k_from_c(70);
    p->in.air_kg_s = 5.4176e-3;
    p->in.draught_pa = 12;
    p->in.flue_k = sw_k_from_c(280);
    p->in.co2_dry = 0.11;
    p->in.standing_pa = NAN;
    p->in.room_k = 293.15;
    return p;
}

static const sw_site_result *solved(sw_test *t, const placed *p)
{
    static const sw_site_result none;
    const sw_site_result *r = NULL;
    return sw_ok(t, sw_site_solve(&t->run, &p->in, &r)) ? r : &none;
}

static const sw_finding *finding(const sw_findings *f, const char *check, const char *where)
{
    for (size_t i = 0; i < f->count; i++)
        if (strcmp(f->items[i].check, check) == 0 && strcmp(f->items[i].where, where) == 0) return &f->items[i];
    return NULL;
}

static bool has_verdict(sw_test *t, const sw_findings *f, const char *check, const char *where, sw_verdict verdict)
{
    const sw_finding *found = finding(f, check, where);
    if (!sw_true_at(t, found != NULL, check, __FILE__, __LINE__)) return false;
    return sw_true_at(t, found->verdict == verdict, found->what, __FILE__, __LINE__);
}

static inline bool judged(sw_test *t, const placed *p, const char *check, const char *where, sw_verdict verdict)
{
    return has_verdict(t, &solved(t, p)->findings, check, where, verdict);
}

static inline const sw_site_need *need(sw_test *t, const sw_site_result *r, const char *what)
{
    for (size_t i = 0; i < r->need_count; i++)
        if (strcmp(r->needs[i].what, what) == 0) return &r->needs[i];
    static const sw_site_need none;
    sw_true_at(t, false, what, __FILE__, __LINE__);
    return &none;
}

#endif
