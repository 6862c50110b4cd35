/* demo_scene.h: the demo stoves with their works, unfolded and folded, for studies that need both. */
#ifndef DEMO_SCENE_H
#define DEMO_SCENE_H

#include "design/design.h"
#include "making/heft/heft.h"
#include "making/sheet/sheet.h"
#include "sw_test.h"

#include <string.h>

typedef struct demo {
    const sw_model *model;
    const sw_sheet_result *sheet;
    sw_body *bodies;
    sw_lift_box *boxes;
    const sw_region **flats;
    const sw_mesh **meshes;
    sw_works works; /* the model's with machines of the test: the works file may change */
    sw_hoist hoists[2];
} demo;

/* Rates of the order of the handbook's: 24.4 kg of media and the middle nozzle, silicone of 600 degC. */
static inline void demo_equip(demo *d)
{
    d->works = *d->model->works;
    d->works.blasting =
        (sw_blasting){.media_kg_m2 = 0.6, .m2_s = sw_h_from_s(15), .media_price_kg = 1.2, .least_mm = 2};
    d->works.blasting.grade = "Sa 2 1/2";
    d->works.coating =
        (sw_coating){.name = "silicone", .class_k = sw_k_from_c(600), .solids = 0.3, .film_um = 25, .coats = 2};
    d->works.coating.transfer = 0.55;
    d->works.coating.voc_kg_m3 = 480;
    d->works.coating.m2_s = sw_h_from_s(20);
    d->works.coating.dry_s = sw_s_from_min(30);
    d->works.coating.cure_k = sw_k_from_c(230);
    d->works.coating.cure_s = sw_s_from_min(45);
    d->works.coating.oven_load = 4;
    for (int i = 0; i < 2; i++) {
        d->hoists[i] =
            (sw_hoist){.name = i == 0 ? "hoist" : "crane", .swl_kg = i == 0 ? 250 : 500, .rigging_kg = 12, .legs = 2};
        d->hoists[i].leg_angle_rad = sw_rad_from_deg(30);
        d->hoists[i].station = "";
    }
    d->works.hoists = d->hoists;
    d->works.hoist_count = 2;
    d->works.trolley = (sw_trolley){900, 650, 300, 2};
    d->works.labour.mixed = true;
}

static inline bool demo_read(sw_test *t, const char *name, demo *d)
{
    const char *stove = sw_text_format(&t->run, t->run.keep, SW_SOURCE_DIR "/demo/%s.stove.lua", name);
    const sw_design_input in = {.stove_path = stove, .works_path = SW_SOURCE_DIR "/demo/demo.works.lua"};
    sw_sheet_options opt = sw_sheet_options_defaults();
    memset(d, 0, sizeof *d);
    if (!sw_ok(t, sw_design_read(&t->run, &in, &d->model))) return false;
    if (!sw_ok(t, sw_sheet_solve(&t->run, d->model, &opt, &d->sheet))) return false;
    size_t n = d->sheet->piece_count;
    d->bodies = SW_KEEP(&t->run, n, sw_body);
    d->boxes = SW_KEEP(&t->run, n, sw_lift_box);
    d->flats = SW_KEEP(&t->run, n, const sw_region *);
    d->meshes = SW_KEEP(&t->run, n, const sw_mesh *);
    for (size_t i = 0; i < n; i++) {
        const sw_sheet_piece *p = &d->sheet->pieces[i];
        d->bodies[i] = (sw_body){.mass_kg = p->mass_kg, .centre = p->solid.centroid};
        memcpy(d->bodies[i].inertia_kg_mm2, p->solid.inertia_kg_mm2, sizeof p->solid.inertia_kg_mm2);
        d->boxes[i] = (sw_lift_box){p->solid.low, p->solid.high};
        d->flats[i] = &p->flat.region;
        d->meshes[i] = &p->solid.mesh;
    }
    demo_equip(d);
    return true;
}

#endif
