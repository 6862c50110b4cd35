/* Machines, stations and people of a works, and its trials in CSV files. */
#include "reading.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

/* ---- the demonstration works ---- */

static const sw_works *read_demo(sw_test *t)
{
    const sw_design_input in = {.works_path = SW_SOURCE_DIR "/demo/demo.works.lua"};
    const sw_model *model = NULL;
    return sw_ok(t, sw_design_read(&t->run, &in, &model)) ? model->works : NULL;
}

static void the_demo_works_has_every_machine_and_station(sw_test *t)
{
    const sw_works *w = read_demo(t);
    if (w == NULL) return;
    sw_true(t, w->press.strip_count == 18 && w->rolls.trial_count == 12);
    sw_true(t, w->welding.row_count == 5 && w->welding.robot && w->hoist_count == 3);
    sw_true(t, w->station_count == SW_OPERATIONS);
    for (size_t i = 0; i < w->station_count; i++) sw_true(t, w->stations[i].operation == (sw_operation)i);
}

/* K = (BA/A - r)/s of one strip; the legs stand as the model says. source: derived, as handbook 1.3 */
static double strip_k(const sw_strip *p)
{
    double A = p->got_rad, s = p->thickness_mm, r = p->radius_mm;
    double setback_mm = (r + s) * (A <= SW_PI / 2.0 ? tan(A / 2.0) : 1.0);
    return ((p->flat_mm - p->leg_a_mm - p->leg_b_mm + 2.0 * setback_mm) / A - r) / s;
}

static void the_demo_strips_agree_with_din_6935(sw_test *t)
{
    static const struct {
        double thickness_mm, k;
    } want[] = {{2.0, 0.369}, {3.0, 0.3805}, {4.0, 0.37}}; /* k/2 of DIN 6935 for r 3, 5 and 6 mm */
    const sw_works *w = read_demo(t);
    for (size_t i = 0; w != NULL && i < 3; i++) {
        double sum = 0.0, count = 0.0;
        for (size_t j = 0; j < w->press.strip_count; j++)
            if (w->press.strips[j].thickness_mm == want[i].thickness_mm) {
                sum += strip_k(&w->press.strips[j]);
                count += 1.0;
            }
        sw_near(t, sum / count, want[i].k, 0.02, "DIN 6935:2011-10, k = 0.65 + 0.5 log10(r/s), K = k/2");
    }
}

/* ---- every field ---- */

#define BASE                                                                                                           \
    "works { name = 'w' }\n"                                                                                           \
    "sheet { 'S235', 4*mm, size = { 3000*mm, 1500*mm } }\n"
#define LASER(more)                                                                                                    \
    "laser { rapid = 60*m/min, acceleration = 10*m/s/s, etch = 10*m/min, rows = { { 'S235', 4*mm, feed = 3.4*m/min, "  \
    "pierce = 0.5*s, kerf = 0.25*mm, lead = 4*mm, web = 8*mm, margin = 10*mm } }" more " }\n"
#define PRESS(more)  "press { dies = { 16*mm }, length = 3000*mm, force = 1000*kN" more " }\n"
#define ROLLS(more)  "rolls { length = 1*m, top_radius = 45*mm, lower_radius = 45*mm, centres = 130*mm" more " }\n"
#define WHOLE(press) BASE LASER("") PRESS(press)

static const sw_works *read_works(sw_test *t, const char *text)
{
    const sw_model *model = NULL;
    return sw_ok(t, read_status(t, NULL, text, &model)) ? model->works : NULL;
}

static void a_works_without_machines_has_none(sw_test *t)
{
    const sw_works *w = read_works(t, WHOLE(""));
    if (w == NULL) return;
    sw_true(t, w->press.strip_count == 0 && w->press.punch_radius_mm == 0.0 && w->rolls.trial_count == 0);
    sw_true(t, w->welding.row_count == 0 && !w->welding.robot && w->hoist_count == 0 && w->station_count == 0);
    sw_true(t, w->blasting.m2_s == 0.0 && w->coating.coats == 0 && w->labour.shift_s == 0.0 && w->cut_sigma_mm == 0.0);
    sw_same_text(t, w->welding.process, "");
    sw_same_text(t, w->blasting.grade, "");
    sw_same_text(t, w->coating.name, "");
}

static void press_and_rolls_keep_tools_times_and_capability(sw_test *t)
{
    const sw_works *w = read_works(
        t, BASE LASER(", capability = { edge = 50*um }") PRESS(
               ", punch = { radius = 1*mm, body = 12*mm, height = 160*mm, neck = 45*mm }, die_block = { beside = "
               "14*mm, height = 100*mm }, beam = 80*mm, gauge = { least = 8*mm, most = 750*mm }, bend_time = 14*s, "
               "turn_time = 8*s, gauge_time = 10*s, setup = 12*min, rate = 52/h, capability = { angle = 0.3*deg, line "
               "= 0.15*mm }")
               ROLLS(", force = 90*kN, speed = 6*m/min, setup = 15*min, rate = 48/h, capability = { radius = "
                     "1*percent }"));
    if (w == NULL) return;
    const sw_press *p = &w->press;
    sw_near(t, w->cut_sigma_mm, 0.05, 1e-15, "50 um");
    sw_true(t,
            p->punch_radius_mm == 1.0 && p->punch_body_mm == 12.0 && p->punch_high_mm == 160.0 && p->neck_mm == 45.0);
    sw_true(t, p->die_block_mm == 14.0 && p->die_high_mm == 100.0 && p->beam_mm == 80.0);
    sw_true(t, p->gauge_least_mm == 8.0 && p->gauge_most_mm == 750.0);
    sw_true(t, p->bend_s == 14.0 && p->turn_s == 8.0 && p->gauge_s == 10.0 && p->setup_s == 720.0);
    sw_near(t, p->rate_h, 52.0, 1e-12, "as written");
    sw_near(t, p->angle_sigma_rad, sw_rad_from_deg(0.3), 1e-15, "0.3 deg");
    sw_near(t, p->line_sigma_mm, 0.15, 1e-15, "as written");
    sw_near(t, w->rolls.force_n, 9e4, 1e-9, "90 kN");
    sw_near(t, w->rolls.pass_mm_s, 100.0, 1e-12, "6 m/min");
    sw_true(t, w->rolls.setup_s == 900.0 && w->rolls.radius_sigma == 0.01);
}

#define WELDING(more)                                                                                                  \
    "welding { process = '135', rows = { { 2.5*mm, from = 2*mm, to = 3*mm, wire = 1*mm, feed = 6*m/min, voltage = "    \
    "19.5*V, current = 120*A, flow = 12*l/min, hand = 50*cm/min, robot = 60*cm/min } }" more " }\n"

static void welding_keeps_its_rows_and_ways(sw_test *t)
{
    const sw_works *w = read_works(
        t, WHOLE("") WELDING(
               ", wire_price = 2.4/kg, gas_price = 6.5/m3, power_price = 0.36/kW/h, tack = { time = 6*s, length = "
               "12*mm }, torch = { radius = 12*mm, length = 120*mm }, hand = { arc_on = 28*percent, rate = 50/h }, "
               "robot = { air_speed = 400*mm/s, start_time = 1.5*s, turn_time = 4*s, fixture_time = 4*min, load = "
               "250*kg, reach = 1.4*m, bridges = 0.3, rate = 58/h }, capability = { placing = 0.3*mm }"));
    if (w == NULL) return;
    const sw_welding *d = &w->welding;
    sw_same_text(t, d->process, "135");
    if (!sw_true(t, d->row_count == 1)) return;
    const sw_weld_row *r = d->rows;
    sw_true(t, r->throat_mm == 2.5 && r->thick_least_mm == 2.0 && r->thick_most_mm == 3.0 && r->wire_mm == 1.0);
    sw_near(t, r->feed_m_s, 0.1, 1e-15, "6 m/min");
    sw_near(t, r->volts, 19.5, 1e-12, "as written");
    sw_near(t, r->amps, 120.0, 1e-12, "as written");
    sw_near(t, r->gas_m3_s, 2e-4, 1e-15, "12 l/min");
    sw_near(t, r->hand_mm_s, 500.0 / 60.0, 1e-12, "50 cm/min");
    sw_near(t, r->robot_mm_s, 10.0, 1e-12, "60 cm/min");
    sw_near(t, d->power_price_j, 1e-7, 1e-20, "0.36 a kWh");
    sw_true(t, d->robot && d->fixture_s == 240.0 && d->robot_load_kg == 250.0 && d->gap_bridged == 0.3);
    sw_true(t, d->tack_s == 6.0 && d->hand_torch.nozzle_long_mm == 120.0 && d->robot_torch.nozzle_radius_mm == 12.0 &&
                   d->robot_start_s == 1.5 && d->turn_s == 4.0);
    sw_near(t, d->hand_share, 0.28, 1e-15, "28 percent");
    sw_true(t, d->place_sigma_mm == 0.3 && d->reach_mm == 1400.0);
}

static void hand_and_robot_have_their_own_torches(sw_test *t)
{
    const sw_works *w = read_works(
        t, WHOLE("") WELDING(
               ", hand = { torch = { radius = 10*mm, length = 60*mm } }, robot = { torch = { radius = 12*mm, length = "
               "90*mm, neck = { bend = 22*deg, radius = 11*mm, length = 120*mm }, body = { radius = 30*mm, length = "
               "110*mm }, wrist = { radius = 55*mm, length = 120*mm }, arm = { bend = 90*deg, radius = 80*mm, length = "
               "500*mm } } }"));
    if (w == NULL) return;
    const sw_torch *hand = &w->welding.hand_torch, *robot = &w->welding.robot_torch;
    sw_true(t, hand->nozzle_radius_mm == 10.0 && hand->nozzle_long_mm == 60.0 && hand->neck_long_mm == 0.0);
    sw_near(t, robot->neck_rad, sw_rad_from_deg(22), 1e-12, "as written");
    sw_near(t, robot->arm_rad, sw_rad_from_deg(90), 1e-12, "as written");
    sw_true(t, robot->neck_radius_mm == 11.0 && robot->neck_long_mm == 120.0 && robot->body_radius_mm == 30.0);
    sw_true(t, robot->body_long_mm == 110.0 && robot->wrist_radius_mm == 55.0 && robot->wrist_long_mm == 120.0);
    sw_true(t, robot->arm_radius_mm == 80.0 && robot->arm_long_mm == 500.0);
}

static void welding_without_a_robot_is_by_hand(sw_test *t)
{
    const sw_works *w = read_works(t, WHOLE("") WELDING(", hand = { arc_on = 0.3 }"));
    if (w != NULL) sw_true(t, !w->welding.robot && w->welding.robot_rate_h == 0.0);
}

#define COATING(more)                                                                                                  \
    "coating { name = 'silicone', class = 600*degC, solids = 30*percent, film = 25*um, coats = 2, transfer = "         \
    "55*percent" more " }\n"

static void blasting_and_coating_keep_their_figures(sw_test *t)
{
    const sw_works *w = read_works(
        t, WHOLE("") "blasting { grade = 'Sa 2 1/2', media = 0.6*kg/m2, media_price = 1.2/kg, speed = 18*m2/h, least = "
                     "2*mm, setup = 5*min, rate = 46/h }\n" COATING(
                         ", price = 28/l, solvent = 480*g/l, speed = 36*m2/h, setup = 10*min, rate = 44/h, dry_time = "
                         "30*min, cure = 230*degC, cure_time = 45*min, oven = 4"));
    if (w == NULL) return;
    sw_near(t, w->blasting.m2_s, 0.005, 1e-15, "18 m2/h");
    sw_near(t, w->blasting.media_kg_m2, 0.6, 1e-12, "as written");
    sw_true(t, w->blasting.least_mm == 2.0 && w->blasting.setup_s == 300.0);
    const sw_coating *c = &w->coating;
    sw_near(t, c->class_k, 873.15, 1e-9, "600 degC");
    sw_near(t, c->film_um, 25.0, 1e-12, "as written");
    sw_near(t, c->price_l, 28.0, 1e-12, "as written");
    sw_near(t, c->voc_kg_m3, 480.0, 1e-9, "480 g/l");
    sw_near(t, c->m2_s, 0.01, 1e-15, "36 m2/h");
    sw_near(t, c->cure_k, 503.15, 1e-9, "230 degC");
    sw_true(t, c->coats == 2 && c->cure_s == 2700.0 && c->dry_s == 1800.0 && c->oven_load == 4.0);
}

static void lifting_stations_and_labour_keep_their_figures(sw_test *t)
{
    const sw_works *w = read_works(
        t, WHOLE("") "hoist { name = 'crane', load = 250*kg, rigging = 12*kg, legs = 2, leg_angle = 30*deg, station = "
                     "'bench' }\n"
                     "trolley { length = 900*mm, width = 650*mm, height = 300*mm, stop = 2*m/s/s }\n"
                     "station { name = 'bench', operation = 'deburr', machines = 2, people = 3, rate = 44/h, each = "
                     "8*s, by_mass = 1.5*s/kg, deburring = 60*mm/s, up = 95*percent, buffer = 6 }\n"
                     "station { name = 'robot', operation = 'weld' }\n"
                     "labour { shift = 7.5*h, shifts = 2, days = 5, rate = 42/h, overhead = 18*percent, stoves_week = "
                     "15, lifted_by = 'working adults' }\n");
    if (w == NULL || !sw_true(t, w->hoist_count == 1 && w->station_count == 2)) return;
    sw_true(t, w->hoists[0].swl_kg == 250.0 && w->hoists[0].rigging_kg == 12.0 && w->hoists[0].legs == 2.0);
    sw_near(t, w->hoists[0].leg_angle_rad, SW_PI / 6.0, 1e-12, "30 deg");
    sw_same_text(t, w->hoists[0].station, "bench");
    sw_near(t, w->trolley.stop_m_s2, 2.0, 1e-12, "as written");
    sw_true(t, w->trolley.length_mm == 900.0 && w->trolley.width_mm == 650.0 && w->trolley.high_mm == 300.0);
    const sw_station *s = &w->stations[0];
    sw_true(t, s->machines == 2 && s->people == 3 && s->buffer == 6 && s->each_s == 8.0);
    sw_near(t, s->up, 0.95, 1e-12, "95 percent");
    sw_near(t, s->per_kg_s, 1.5, 1e-12, "as written");
    sw_near(t, s->deburr_mm_s, 60.0, 1e-12, "as written");
    sw_true(t, w->stations[1].machines == 1 && w->stations[1].people == 1 && w->stations[1].up == 1.0);
    sw_true(t, w->labour.shift_s == 27000.0 && w->labour.shifts_day == 2.0 && w->labour.mixed);
    sw_true(t, w->labour.overhead == 0.18 && w->labour.wanted_week == 15.0);
}

static void a_station_knows_every_operation_by_its_name(sw_test *t)
{
    for (int i = 0; i < SW_OPERATIONS; i++) {
        const char *text = sw_text_format(&t->run, t->run.keep, "%sstation { name = 's', operation = '%s' }\n",
                                          WHOLE(""), sw_operation_name((sw_operation)i));
        const sw_works *w = read_works(t, text);
        if (w != NULL) sw_true(t, w->stations[0].operation == (sw_operation)i);
    }
}

static void a_station_without_a_machine_is_kept_for_the_study(sw_test *t)
{
    const sw_works *w = read_works(t, WHOLE("") "station { name = 's', operation = 'weld', machines = 0 }\n");
    if (w != NULL) sw_true(t, w->station_count == 1 && w->stations[0].machines == 0);
}

/* ---- wrong forms ---- */

typedef struct wrong {
    const char *text, *field, *part;
} wrong;

static bool has_fault(const sw_run *run, const char *field, const char *part)
{
    for (size_t i = 0; i < run->error_count && i < SW_ERROR_MAX; i++)
        if (strcmp(run->errors[i].field, field) == 0 && strstr(run->errors[i].text, part) != NULL &&
            run->errors[i].place.line > 0)
            return true;
    return false;
}

static void check_wrong(sw_test *t, const wrong *cases, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const sw_model *model = NULL;
        const char *text = sw_text_format(&t->run, t->run.keep, "%s%s", BASE, cases[i].text);
        sw_status status = read_status(t, NULL, text, &model);
        bool good = sw_true(t, status == SW_BAD_INPUT && model == NULL) &
                    sw_true(t, has_fault(&t->run, cases[i].field, cases[i].part));
        if (good && sw_true(t, t->run.error_count <= 2)) continue;
        printf("    %s: %s\n", cases[i].field, cases[i].part);
        for (size_t k = 0; k < t->run.error_count && k < 5; k++)
            printf("      %d: %s: %s\n", t->run.errors[k].place.line, t->run.errors[k].field, t->run.errors[k].text);
    }
}

#define REST LASER("") PRESS("")

static void wrong_tools_are_refused(sw_test *t)
{
    static const wrong cases[] = {
        {LASER("") PRESS(", bend_time = -5*s"), "press: bend_time", "is -5 s, allowed is 0 s to 3600 s"},
        {LASER("") PRESS(", rate = -52/h"), "press: rate", "is -52 /h, allowed is 0 /h to 10000 /h"},
        {LASER("") PRESS(", setup = 12"), "press: setup", "but a time is needed, e.g. 45*min"},
        {LASER("") PRESS(", bend_tim = 5*s"), "press: bend_tim", "did you mean 'bend_time'?"},
        {LASER("") PRESS(", punch = 12*mm"), "press: punch", "but a table is needed, e.g. { radius = 1*mm"},
        {LASER("") PRESS(", punch = { bodi = 12*mm }"), "press: punch.bodi", "did you mean 'body'?"},
        {LASER("") PRESS(", gauge = { least = 80*mm, most = 60*mm }"), "press: gauge.most", "not beyond least"},
        {LASER("") PRESS(", capability = { angle = 0.3*mm }"), "press: capability.angle", "but an angle is needed"},
        {LASER(", capability = { edge = -1*mm }") PRESS(""), "laser: capability.edge", "allowed is 0 mm to 5 mm"},
        {REST ROLLS(", speed = -4*m/min"), "rolls: speed", "allowed is 0 mm/s"},
        {REST ROLLS(", force = 90"), "rolls: force", "but a force is needed"},
        {REST ROLLS(", capability = { radius = 30*percent }"), "rolls: capability.radius", "is 0.3, allowed is 0 to"},
    };
    check_wrong(t, cases, sizeof cases / sizeof *cases);
}

#define ROW(more)   "{ 2.5*mm, wire = 1*mm, feed = 6*m/min, voltage = 19.5*V, current = 120*A, flow = 12*l/min" more " }"
#define WELDS(rows) REST "welding { process = '135', rows = { " rows " } }"

static void wrong_welding_is_refused(sw_test *t)
{
    static const wrong cases[] = {
        {REST "welding { process = '153', rows = { " ROW(", hand = 8*mm/s, from = 2*mm, to = 3*mm") " } }",
         "welding: process", "one of \"111\""},
        {WELDS(""), "welding: rows", "is empty; give one row"},
        {WELDS("3"), "welding: rows[1]", "but { 2.5*mm, from = 2*mm"},
        {WELDS(ROW(", hand = 8*mm/s, from = 3*mm, to = 2*mm")), "welding: rows[1].to", "is 2 mm, below from (3 mm)"},
        {WELDS(ROW(", from = 2*mm, to = 3*mm")), "welding: rows[1].hand", "travel of one of them at least"},
        {WELDS(ROW(", hand = -8*mm/s, from = 2*mm, to = 3*mm")), "welding: rows[1].hand", "is -8 mm/s, allowed is 0"},
        {WELDS(ROW(", hand = 8*mm/s, from = 2*mm, to = 3*mm, voltag = 3")), "welding: rows[1].voltag",
         "did you mean 'voltage'?"},
        {WELDS(ROW(", hand = 8*mm/s, from = 2*mm, to = 3*mm") ", " ROW(", hand = 8*mm/s, from = 2.5*mm, to = 4*mm")),
         "welding: rows[2]", "gives throat 2.5 mm for sheets that an earlier row has"},
        {REST WELDING(", hand = { arc_on = 28 }"), "welding: hand.arc_on", "is 28, allowed is 0 to 1"},
        {REST WELDING(", robot = true"), "welding: robot", "but a table is needed"},
        {REST WELDING(", robot = { start_time = -1*s }"), "welding: robot.start_time", "allowed is 0 s"},
        {REST WELDING(", power_price = 0.3/h"), "welding: power_price", "but a price by energy is needed"},
        {REST WELDING(", power_price = -0.3/kW/h"), "welding: power_price", "is -0.3 /kW/h, allowed is 0 /kW/h"},
        {REST WELDING("") WELDING(""), "welding", "is described a second time; a works has one"},
        {REST "welding { process = '135', rows = { { 2.5*mm, from = 2*mm, to = 3*mm, wire = 1*mm, feed = 6*m/min, "
              "voltage = 19.5, current = 120*A, hand = 8*mm/s } } }",
         "welding: rows[1].voltage", "but a voltage is needed, e.g. 19.5*V"},
        {REST "welding { process = '135', rows = { { 2.5*mm, from = 2*mm, to = 3*mm, wire = 1*mm, feed = 90*m/min, "
              "voltage = 19.5*V, current = 120*A, hand = 8*mm/s } } }",
         "welding: rows[1].feed", "is 1.5 m/s, allowed is 0 m/s to 1 m/s"},
    };
    check_wrong(t, cases, sizeof cases / sizeof *cases);
}

static void wrong_finish_is_refused(sw_test *t)
{
    static const wrong cases[] = {
        {REST "blasting { speed = -15*m2/h }", "blasting: speed", "is -15 m2/h, allowed is 0 m2/h to 360 m2/h"},
        {REST "blasting { grade = 'Sa 2' }", "blasting: speed", "is missing"},
        {REST "blasting { speed = 15*m/h }", "blasting: speed", "but an area by time is needed, e.g. 15*m2/h"},
        {REST "blasting { speed = 15*m2/h, media = 24*kg }", "blasting: media", "but a mass by area is needed"},
        {REST COATING(", film_um = 3"), "coating: film_um", "did you mean 'film'?"},
        {REST COATING(", price = -28/l"), "coating: price", "is -28 /l, allowed is 0 /l"},
        {REST COATING(", dry_time = -1*min"), "coating: dry_time", "allowed is 0 s"},
        {REST COATING(", cure = 800*degC"), "coating: cure", "is 800 degC, allowed is 20 degC to 400 degC"},
        {REST "coating { name = 'c', class = 200*degC, solids = 0.3, film = 25*um, coats = 2, transfer = 0.5, cure = "
              "250*degC }",
         "coating: cure", "above the class of the coating (200 degC)"},
        {REST "coating { name = 'c', class = 600*K, solids = 0.3, film = 25*um, coats = 2, transfer = 0.5 }",
         "coating: class", "but a temperature is needed"},
        {REST "coating { name = 'c', class = 600*degC, solids = 30, film = 25*um, coats = 2, transfer = 0.5 }",
         "coating: solids", "is 30, allowed is 0.01 to 1"},
        {REST "coating { name = 'c', class = 600*degC, solids = 0.3, film = 25*mm, coats = 2, transfer = 0.5 }",
         "coating: film", "is 25000 um, allowed is 1 um to 2000 um"},
        {REST "coating { name = 'c', class = 600*degC, solids = 0.3, film = 25*um, coats = 1.5, transfer = 0.5 }",
         "coating: coats", "is 1.5, allowed is a whole number from 1 to 10"},
    };
    check_wrong(t, cases, sizeof cases / sizeof *cases);
}

static void wrong_lifting_and_stations_are_refused(sw_test *t)
{
    static const wrong cases[] = {
        {REST "hoist { name = 'h', load = -250*kg }", "hoist: load", "allowed is 1 kg"},
        {REST "hoist { name = 'h', load = 250*kg, legs = 2.5 }", "hoist: legs", "a sling has 1, 2, 3 or 4"},
        {REST "hoist { name = 'h', load = 250*kg, leg_angle = 85*deg }", "hoist: leg_angle", "allowed is 0 deg to 80"},
        {REST "station { name = 'bench', operation = 'tack' } hoist { name = 'h', load = 9*kg, station = 'bensh' }",
         "hoist: station", "there is no station \"bensh\"; did you mean 'bench'?"},
        {REST "trolley { length = 900*mm, width = 650*mm, height = 300*mm, stop = 2*m/s }", "trolley: stop",
         "but an acceleration is needed, e.g. 2*m/s/s"},
        {REST "station { name = 's', operation = 'welding' }", "station: operation", "did you mean 'weld"},
        {REST "station { name = 's', operation = 'weld', machines = -1 }", "station: machines",
         "is -1, allowed is a whole number from 0 to 1000"},
        {REST "station { name = 's', operation = 'weld', each = -9*s }", "station: each", "is -9 s, allowed is 0 s"},
        {REST "station { name = 's', operation = 'weld', by_mass = -1*s/kg }", "station: by_mass",
         "is -1 s/kg, allowed is 0 s/kg"},
        {REST "station { name = 's', operation = 'weld', up = 95 }", "station: up", "is 95, allowed is 0.01 to 1"},
        {REST "station { name = 's', operation = 'weld', deburring = 5*mm/s }", "station: deburring",
         "belongs to a station that deburrs"},
        {REST "station { name = 's', operation = 'weld' } station { name = 's', operation = 'tack' }", "station: name",
         "\"s\" is already taken by the station in line"},
        {REST "labour { shift = 25*h, shifts = 1, days = 5 }", "labour: shift", "allowed is 60 s to 86400 s"},
        {REST "labour { shift = 8*h, shifts = 4, days = 5 }", "labour: shifts", "4 of 8 h do not fit into a day"},
        {REST "labour { shift = 8*h, shifts = 1, days = 8 }", "labour: days", "is 8, allowed is 0.1 to 7"},
        {REST "labour { shift = 8*h, shifts = 1, days = 5, overhead = -0.1 }", "labour: overhead", "is -0.1, allowed"},
        {REST "labour { shift = 8*h, shifts = 1, days = 5, lifted_by = 'robots' }", "labour: lifted_by",
         "one of \"anyone\", \"working adults\""},
    };
    check_wrong(t, cases, sizeof cases / sizeof *cases);
}

static void all_faults_of_a_works_come_at_once(sw_test *t)
{
    const sw_model *model = NULL;
    sw_true(t, read_status(t, NULL,
                           BASE LASER("") PRESS(", setup = -1*s, rate = -1/h, capability = { angel = 1*deg }")
                               COATING(", oven = -1") "station { name = 's', operation = 'wield', each = -1*s }\n",
                           &model) == SW_BAD_INPUT);
    sw_true(t, t->run.error_count == 6);
}

/* ---- files of trials ---- */

static bool write_file(sw_test *t, const char *path, const char *text)
{
    sw_writer *writer = NULL;
    if (!sw_ok(t, sw_writer_to_file(&t->run, path, &writer))) return false;
    sw_print(writer, "%s", text);
    return sw_ok(t, sw_writer_close(&t->run, writer));
}

typedef struct beside { /* a folder of a works and its trials; removed by put_away */
    const char *folder, *works, *bends, *rolls;
    const sw_works *read;
    sw_status status;
} beside;

static bool read_beside(sw_test *t, const char *bends, const char *rolls, beside *b)
{
    char *name = (char *)sw_text_format(&t->run, t->run.keep, "%s/sw_trials_XXXXXX",
                                        getenv("TMPDIR") == NULL ? "/tmp" : getenv("TMPDIR"));
    *b = (beside){.folder = name};
    if (!sw_true(t, mkdtemp(name) != NULL)) return false;
    b->works = sw_text_format(&t->run, t->run.keep, "%s/w.works.lua", name);
    b->bends = sw_text_format(&t->run, t->run.keep, "%s/bends.csv", name);
    b->rolls = sw_text_format(&t->run, t->run.keep, "%s/rolls.csv", name);
    if (!write_file(t, b->bends, bends) || !write_file(t, b->rolls, rolls) ||
        !write_file(t, b->works, BASE LASER("") PRESS(", strips = 'bends.csv'") ROLLS(", trials = 'rolls.csv'")))
        return false;
    const sw_model *model = NULL;
    sw_run_clear_errors(&t->run);
    b->status = sw_design_read(&t->run, &(sw_design_input){.works_path = b->works, .stove_path = NULL}, &model);
    b->read = model == NULL ? NULL : model->works;
    return true;
}

static void put_away(const beside *b)
{
    (void)remove(b->works);
    (void)remove(b->bends);
    (void)remove(b->rolls);
    (void)rmdir(b->folder);
}

#define GOOD_BENDS                                                                                                     \
    "material,thickness_mm,die_mm,flat_mm,leg_a_mm,leg_b_mm,angle_deg,set_deg,radius_mm\n"                             \
    "S235,4,40,140,81.5,66.7,90,91,6\nS235,4,40,140,81.5,66.7,90,,\n"
#define GOOD_ROLLS "material;thickness_mm;feed_mm;radius_mm\nDC01;2;8,5;200,5\n"

static void trials_come_from_files_beside_the_works(sw_test *t)
{
    beside b;
    if (!read_beside(t, GOOD_BENDS, GOOD_ROLLS, &b)) return;
    if (sw_ok(t, b.status) && sw_true(t, b.read->press.strip_count == 2 && b.read->rolls.trial_count == 1)) {
        const sw_strip *p = b.read->press.strips;
        sw_same_text(t, p->grade->name, "S235");
        sw_true(t, p->thickness_mm == 4.0 && p->die_mm == 40.0 && p->flat_mm == 140.0 && p->leg_a_mm == 81.5 &&
                       p->leg_b_mm == 66.7 && p->radius_mm == 6.0 && p->place.line == 2);
        sw_near(t, p->got_rad, SW_PI / 2.0, 1e-12, "90 deg");
        sw_near(t, p->set_rad, sw_rad_from_deg(91.0), 1e-12, "91 deg");
        sw_true(t, p[1].set_rad == 0.0 && p[1].radius_mm == 0.0);
        sw_true(t, b.read->rolls.trials[0].feed_mm == 8.5 && b.read->rolls.trials[0].radius_mm == 200.5);
    }
    put_away(&b);
}

static bool has_line(const sw_run *run, const char *file, int line, const char *field, const char *part)
{
    for (size_t i = 0; i < run->error_count && i < SW_ERROR_MAX; i++) {
        const sw_error *e = &run->errors[i];
        if (e->place.line == line && e->place.file != NULL && strstr(e->place.file, file) != NULL &&
            strcmp(e->field, field) == 0 && strstr(e->text, part) != NULL)
            return true;
    }
    return false;
}

typedef struct wrong_line {
    const char *bends, *field, *part;
    int line;
} wrong_line;

#define BEND_NAMES "material,thickness_mm,die_mm,flat_mm,leg_a_mm,leg_b_mm,angle_deg\n"

static void wrong_lines_are_told_with_their_number(sw_test *t)
{
    static const wrong_line cases[] = {
        {BEND_NAMES "S235,4,40,140,81,66,90\nS23,4,40,140,81,66,90\n", "material", "did you mean 'S235'?", 3},
        {BEND_NAMES "S235,four,40,140,81,66,90\n", "thickness_mm", "\"four\" is no number from 0.3 to 50", 2},
        {BEND_NAMES "S235,4,40,140,81,66,190\n", "angle_deg", "no number from 1 to 180", 2},
        {BEND_NAMES "S235,4,40,-140,81,66,90\n", "flat_mm", "no number from 5 to 5000", 2},
        {BEND_NAMES "S235,4,40,140,81,,90\n", "leg_b_mm", "\"\" is no number", 2},
        {BEND_NAMES "S235,4,40,140,81,66\n", "", "6 cells where the first line names 7 columns", 2},
        {"material,thickness_mm,die_mm,flat_mm,leg_a_mm,leg_b_mm\nS235,4,40,140,81,66\n", "angle_deg",
         "is missing among the columns", 1},
        {"material,thicknes_mm,die_mm,flat_mm,leg_a_mm,leg_b_mm,angle_deg\nS235,4,40,140,81,66,90\n", "thicknes_mm",
         "is not a column known here; did you mean 'thickness_mm'?", 1},
        {"material,die_mm,thickness_mm,die_mm,flat_mm,leg_a_mm,leg_b_mm,angle_deg\nS235,40,4,40,140,81,66,90\n",
         "die_mm", "names two columns", 1},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        beside b;
        if (!read_beside(t, cases[i].bends, GOOD_ROLLS, &b)) return;
        bool good = sw_true(t, b.status == SW_BAD_INPUT && b.read == NULL) &
                    sw_true(t, has_line(&t->run, "bends.csv", cases[i].line, cases[i].field, cases[i].part)) &
                    sw_true(t, has_line(&t->run, "w.works.lua", 4, "press: strips", "bends.csv"));
        for (size_t k = 0; !good && k < t->run.error_count; k++)
            printf("      %zu: %s:%d: %s: %s\n", i, t->run.errors[k].place.file, t->run.errors[k].place.line,
                   t->run.errors[k].field, t->run.errors[k].text);
        put_away(&b);
    }
}

static void every_wrong_line_of_both_files_comes_at_once(sw_test *t)
{
    beside b;
    if (!read_beside(t, BEND_NAMES "S235,0,40,140,81,66,90\nS235,4,40,140,81,66,0\n",
                     "material,thickness_mm,feed_mm,radius_mm\nS235,2,8,200\nS235,2,-8,200\n", &b))
        return;
    sw_true(t, b.status == SW_BAD_INPUT && t->run.error_count == 5);
    sw_true(t, has_line(&t->run, "bends.csv", 2, "thickness_mm", "") &&
                   has_line(&t->run, "bends.csv", 3, "angle_deg", ""));
    sw_true(t, has_line(&t->run, "rolls.csv", 3, "feed_mm", "\"-8\" is no number from 0.01 to 500"));
    sw_true(t, has_line(&t->run, "w.works.lua", 4, "press: strips", "has 2 faults"));
    sw_true(t, has_line(&t->run, "w.works.lua", 5, "rolls: trials", "has 1 fault,"));
    put_away(&b);
}

static void a_file_without_trials_or_with_too_many_is_refused(sw_test *t)
{
    beside b;
    if (!read_beside(t, BEND_NAMES, GOOD_ROLLS, &b)) return;
    sw_true(t, has_line(&t->run, "w.works.lua", 4, "press: strips", "holds 0 trials, allowed is 1 to 2000"));
    put_away(&b);
    sw_writer *writer = NULL;
    const char *many = NULL;
    size_t length;
    if (!sw_ok(t, sw_writer_to_memory(&t->run, &writer))) return;
    sw_print(writer, "%s", BEND_NAMES);
    for (int i = 0; i < 60000; i++) sw_print(writer, "S235,4,40,140,81,66,90\n");
    if (!sw_ok(t, sw_writer_take(&t->run, writer, &many, &length)) || !read_beside(t, many, GOOD_ROLLS, &b)) return;
    sw_true(t, b.status == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "bytes long; at most 1048576 are read");
    put_away(&b);
}

static void trials_lie_nowhere_but_beside_the_works(sw_test *t)
{
    static const wrong cases[] = {
        {LASER("") PRESS(", strips = '../bends.csv'"), "press: strips", "beside this one, without folders"},
        {LASER("") PRESS(", strips = '/etc/passwd'"), "press: strips", "beside this one, without folders"},
        {LASER("") PRESS(", strips = '.hidden'"), "press: strips", "beside this one, without folders"},
        {LASER("") PRESS(", strips = 'a\\\\b.csv'"), "press: strips", "beside this one, without folders"},
        {LASER("") PRESS(", strips = 'a.csv\\0.txt'"), "press: strips", "beside this one, without folders"},
        {LASER("") PRESS(", strips = ''"), "press: strips", "beside this one, without folders"},
        {LASER("") PRESS(", strips = { 'bends.csv' }"), "press: strips", "got a table value"},
        {LASER("") PRESS(", strips = 'bends.csv'"), "press: strips", "was not read from a folder"},
        {REST ROLLS(", trials = '../rolls.csv'"), "rolls: trials", "beside this one, without folders"},
    };
    check_wrong(t, cases, sizeof cases / sizeof *cases);
}

static void trials_that_are_not_there_are_told_by_name(sw_test *t)
{
    static const char text[] = BASE LASER("") PRESS(", strips = 'no_such.csv'");
    sw_design_texts in = {.works = {"w", text, sizeof text - 1}, .folder = "elsewhere", .works_folder = "."};
    const sw_model *model = NULL;
    sw_true(t, sw_design_read_texts(&t->run, &in, &model) == SW_BAD_INPUT && t->run.error_count == 2);
    sw_same_text(t, t->run.errors[0].field, "./no_such.csv");
    sw_contains(t, t->run.errors[0].text, "cannot be read");
    sw_contains(t, t->run.errors[1].text, "see the message before");
}

/* ---- memory ---- */

static void every_refused_allocation_ends_in_no_memory(sw_test *t)
{
    const sw_design_input in = {.works_path = SW_SOURCE_DIR "/demo/demo.works.lua"};
    for (int scratch = 0; scratch < 2; scratch++) {
        size_t step = 1;
        for (size_t nth = 1; nth < 100000; nth += step) {
            sw_run run;
            const sw_model *model = NULL;
            if (!sw_true(t, sw_run_open(&run, (size_t)1 << 24) == SW_OK)) return;
            sw_arena_fail_at(scratch ? run.scratch : run.keep, nth);
            sw_status status = sw_design_read(&run, &in, &model);
            bool fits =
                status == SW_NO_MEMORY || (status == SW_OK && sw_arena_takes(scratch ? run.scratch : run.keep) < nth);
            sw_run_close(&run);
            if (!sw_true(t, fits)) return;
            if (status == SW_OK) break;
            if (nth > 60) step = 7; /* all of the first ones, then every seventh */
        }
    }
}

SW_TESTS(SW_CASE(the_demo_works_has_every_machine_and_station), SW_CASE(the_demo_strips_agree_with_din_6935),
         SW_CASE(a_works_without_machines_has_none), SW_CASE(press_and_rolls_keep_tools_times_and_capability),
         SW_CASE(welding_keeps_its_rows_and_ways), SW_CASE(hand_and_robot_have_their_own_torches),
         SW_CASE(welding_without_a_robot_is_by_hand), SW_CASE(blasting_and_coating_keep_their_figures),
         SW_CASE(lifting_stations_and_labour_keep_their_figures), SW_CASE(a_station_knows_every_operation_by_its_name),
         SW_CASE(a_station_without_a_machine_is_kept_for_the_study), SW_CASE(wrong_tools_are_refused),
         SW_CASE(wrong_welding_is_refused), SW_CASE(wrong_finish_is_refused),
         SW_CASE(wrong_lifting_and_stations_are_refused), SW_CASE(all_faults_of_a_works_come_at_once),
         SW_CASE(trials_come_from_files_beside_the_works), SW_CASE(wrong_lines_are_told_with_their_number),
         SW_CASE(every_wrong_line_of_both_files_comes_at_once),
         SW_CASE(a_file_without_trials_or_with_too_many_is_refused), SW_CASE(trials_lie_nowhere_but_beside_the_works),
         SW_CASE(trials_that_are_not_there_are_told_by_name), SW_CASE(every_refused_allocation_ends_in_no_memory))
