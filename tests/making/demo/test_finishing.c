/* Lifting, coating and fittings on the demo stoves: sensible figures, plausible by common practice. */
#include "making/coat/coat.h"
#include "making/demo/demo_scene.h"
#include "making/fittings/fittings.h"

#include <math.h>

static const char *const stoves[] = {"a", "b", "c"};

static const sw_lift_result *lifted(sw_test *t, const demo *d)
{
    const sw_heft_input in = {.stove = d->model->stove, .pieces = d->bodies, .meshes = d->meshes};
    const sw_heft_result *heft = NULL;
    const sw_lift_result *r = NULL;
    sw_lift_options opt = sw_lift_options_defaults();
    if (!sw_ok(t, sw_heft_solve(&t->run, &in, &heft))) return NULL;
    const sw_lift_input lift = {d->model->stove, &d->works, heft, d->bodies, d->boxes, d->flats};
    return sw_ok(t, sw_lift_solve(&t->run, &lift, &opt, &r)) ? r : NULL;
}

static void every_lift_of_the_demo_stoves_has_somebody_to_do_it(sw_test *t)
{
    for (int i = 0; i < 3; i++) {
        demo d;
        if (!demo_read(t, stoves[i], &d)) return;
        const sw_lift_result *r = lifted(t, &d);
        if (r == NULL) return;
        for (size_t k = 0; k < r->findings.count; k++) sw_true(t, r->findings.items[k].verdict != SW_FAILS);
        for (size_t k = 0; k < r->step_count; k++) {
            const sw_lift_step *s = &r->steps[k];
            sw_true(t, s->mass_kg > 0 && s->single_kg > 5 && s->single_kg <= 25);
            sw_true(t, s->way != SW_LIFT_GEAR || s->hoist != NULL || s->kind == SW_LIFT_HOUSE);
            sw_true(t, s->hoist == NULL || s->point_count > 0);
        }
        const sw_lift_step *pack = &r->steps[r->step_count - 2];
        sw_true(t, pack->kind == SW_LIFT_PACK && pack->mass_kg > 80 && pack->mass_kg < 150);
        sw_true(t, r->trolley.stop_feet_m_s2 > 2 && r->trolley.stop_wheels_m_s2 > 2);
    }
}

static const sw_coat_result *coated(sw_test *t, const demo *d)
{
    const sw_sheet_result *sheet = d->sheet;
    sw_coat_sheet *sheets = SW_KEEP(&t->run, sheet->piece_count, sw_coat_sheet);
    for (size_t i = 0; i < sheet->piece_count; i++)
        sheets[i] = (sw_coat_sheet){sheet->pieces[i].flat.area_mm2, sheet->pieces[i].flat.cut_mm};
    const sw_coat_input in = {.stove = d->model->stove, .works = &d->works, .sheets = sheets};
    sw_coat_options opt = sw_coat_options_defaults();
    const sw_coat_result *r = NULL;
    return sw_ok(t, sw_coat_solve(&t->run, &in, &opt, &r)) ? r : NULL;
}

static void stoves_are_blasted_in_about_a_quarter_of_an_hour(sw_test *t)
{
    for (int i = 0; i < 3; i++) {
        demo d;
        if (!demo_read(t, stoves[i], &d)) return;
        const sw_coat_result *r = coated(t, &d);
        if (r == NULL) return;
        sw_near(t, sw_min_from_s(r->blast_s), 15, 5, "common practice, no source: about 15 minutes");
        sw_true(t, r->litres > 0.5 && r->litres < 3 && r->film_kg > 0.1 && r->film_kg < 1);
        double lines_m2 = 0;
        for (size_t k = 0; k < r->line_count; k++) lines_m2 += r->lines[k].coat_m2;
        sw_near(t, r->coat_m2 + r->masked_m2, lines_m2, 1e-9, "derived: lines add up");
    }
}

static void linings_of_the_demo_stoves_have_room_to_grow(sw_test *t)
{
    for (int i = 0; i < 3; i++) {
        demo d;
        if (!demo_read(t, stoves[i], &d)) return;
        const sw_fittings_input in = {d.model->stove, d.meshes, NULL};
        sw_fittings_options opt = sw_fittings_options_defaults();
        const sw_fittings_result *r = NULL;
        if (!sw_ok(t, sw_fittings_solve(&t->run, &in, &opt, &r))) return;
        for (size_t k = 0; k < r->findings.count; k++) sw_true(t, r->findings.items[k].verdict != SW_FAILS);
        for (size_t k = 0; k < r->nest_count; k++)
            sw_true(t, r->nests[k].sheets == r->nests[k].bound && r->nests[k].left_out == 0);
        sw_true(t, r->fit_count >= 4 && r->cut_count >= 3 && r->grate_count == 1 && r->pane_count == 1);
    }
}

SW_TESTS(SW_CASE(every_lift_of_the_demo_stoves_has_somebody_to_do_it),
         SW_CASE(stoves_are_blasted_in_about_a_quarter_of_an_hour),
         SW_CASE(linings_of_the_demo_stoves_have_room_to_grow))
