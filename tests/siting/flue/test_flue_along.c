/* A chimney told part by part. */
#include "flue_house.h"

static const sw_flue_case *told(sw_test *t, const flue_house *h, double wind_pa)
{
    const sw_flue_case *c = NULL;
    (void)sw_ok(t, sw_flue_along(&t->run, &h->in, &h->opt, (sw_flue_now){280, wind_pa, 0.006, 553.15, 0.11}, &c));
    return c;
}

static flue_house *fs8_house(sw_test *t)
{
    return house_with(t, &fs8_shaft);
}

static void every_part_is_told_and_hands_its_gas_on(sw_test *t)
{
    flue_house *h = fs8_house(t);
    const sw_flue_case *c = told(t, h, 0);
    if (!sw_true(t, c != NULL && c->line_count == h->house.part_count)) return;
    sw_near(t, c->lines[0].entry_k, 553.15, 1e-12, "what was asked");
    for (size_t i = 1; i < c->line_count; i++)
        sw_near(t, c->lines[i].entry_k, c->lines[i - 1].exit_k, 1e-9, "one stream of gas");
    sw_near(t, c->lines[c->line_count - 1].exit_k, c->outlet_k, 1e-9, "the last part ends at the outlet");
}

static void its_pressures_are_those_of_the_pull(sw_test *t)
{
    flue_house *h = fs8_house(t);
    const sw_flue_case *c = told(t, h, 25);
    sw_flue_pull p = sw_flue_pull_of(&h->in, NULL, &h->opt, (sw_flue_now){280, 25, 0.006, 553.15, 0.11});
    double sum_pa = -c->wind_pa - c->P_G - c->P_GV;
    for (size_t i = 0; i < c->line_count; i++) sum_pa += c->lines[i].draught_pa - c->lines[i].friction_pa;
    sw_near(t, sum_pa, p.draught_pa, 1e-9, "agreement of parts and whole");
}

static void along(sw_test *t, const sw_flue_case *c)
{
    const char *name = "P_Z at the chimney's foot, P_Z - P_FV at the stove, the wind at the outlet";
    size_t foot = 0;
    while (foot + 1 < c->line_count && c->lines[foot].part->pipe) foot++;
    sw_near(t, c->lines[0].entry_pa, c->P_Z - c->P_FV, 1e-9, name);
    sw_near(t, c->lines[foot].entry_pa, c->P_Z, 1e-9, name);
    sw_near(t, c->lines[c->line_count - 1].exit_pa, -c->wind_pa, 1e-12, name);
    for (size_t i = 1; i < c->line_count; i++)
        sw_near(t, c->lines[i].entry_pa, c->lines[i - 1].exit_pa, 1e-12, "one stream of gas");
}

static void pressures_along_it_are_those_that_were_judged(sw_test *t)
{
    flue_house *h = fs8_house(t);
    h->house.wind = SW_WIND_COAST;
    h->parts[0].width_mm = 130; /* the gas slows down behind it */
    const sw_flue_result *r = solved(t, h);
    sw_true(t, r->pressure.s_e > 1 && r->pressure.wind_pa > 0 && r->pressure.P_G < 0);
    along(t, &r->pressure);
    along(t, &r->temperature);
    along(t, &r->over);
    along(t, told(t, h, 25));
}

static void a_flow_that_does_not_settle_is_an_error_and_no_number(sw_test *t)
{
    flue_house *h = fs8_house(t);
    const sw_flue_case *c = NULL;
    const sw_flue_now cold = {280, 0, 0.006, (double)NAN, 0.11};
    sw_true(t, sw_flue_along(&t->run, &h->in, &h->opt, cold, &c) == SW_NO_SOLUTION && c == NULL);
}

SW_TESTS(SW_CASE(every_part_is_told_and_hands_its_gas_on), SW_CASE(its_pressures_are_those_of_the_pull),
         SW_CASE(pressures_along_it_are_those_that_were_judged),
         SW_CASE(a_flow_that_does_not_settle_is_an_error_and_no_number))
