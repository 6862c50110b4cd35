/* The study of a stove's place: worked examples through the findings, codes, unknowns, wrong input, memory. */
#include "site_house.h"

/* ---- a good house -------------------------------------------------------------------------------------------------- */

static void good_house_has_no_failing_finding(sw_test *t)
{
    const sw_site_result *r = solved(t, placed_stove(t));
    for (size_t i = 0; i < r->findings.count; i++) {
        const sw_finding *f = &r->findings.items[i];
        sw_true_at(t, f->verdict != SW_FAILS, f->what, __FILE__, __LINE__);
        sw_true_at(t, strstr(f->what, "nan") == NULL && strstr(f->what, "inf ") == NULL, f->what, __FILE__, __LINE__);
        sw_true_at(t, f->source[0] != '\0' && (f->verdict == SW_HOLDS) == (f->remedy[0] == '\0'), f->what, __FILE__,
                   __LINE__);
    }
    sw_true(t, r->findings.count > 20);
}

/* ---- walls ----------------------------------------------------------------------------------------------------------- */

static void combustible_wall_needs_the_computed_distance_and_a_fifth(sw_test *t)
{
    placed *p = placed_stove(t);
    const sw_site_need *n = need(t, solved(t, p), "wall, by computed temperature");
    sw_near(t, n->needed_mm, 1.2 * 517.5, 0.1, "handbook FS-21, computed; handbook S5.2: a fifth more");
    p->near[0].distance_mm = 630;
    judged(t, p, "wall_temperature", "wall", SW_WATCH);
    p->near[0].distance_mm = 615;
    judged(t, p, "wall_temperature", "wall", SW_FAILS);
    p->near[0].shield_mm = 30;
    p->near[0].shield_emissivity = 0.25;
    judged(t, p, "wall_temperature", "wall", SW_HOLDS);
}

static void pane_counts_when_it_warms_more_than_the_front(sw_test *t)
{
    placed *p = placed_stove(t);
    p->front.t_k = 400;
    const sw_site_need *n = need(t, solved(t, p), "chair, by computed temperature");
    sw_near(t, n->needed_mm, 1.2 * 510.6, 0.1, "handbook FS-21, computed: glass; a fifth more");
}

static void side_without_a_computed_face_is_unknown(sw_test *t)
{
    placed *p = placed_stove(t);
    p->near[0].side = "left";
    judged(t, p, "wall_temperature", "wall", SW_UNKNOWN);
    p->near[0].side = "above";
    judged(t, p, "wall_temperature", "wall", SW_UNKNOWN);
}

static void ceiling_is_warmed_by_the_top_and_by_the_air_that_rises(sw_test *t)
{
    placed *p = placed_stove(t);
    const sw_hot_panel top = {"top", 0.5, 0.4, 473.15, 0.9};
    p->near[0].side = "above";
    p->near[0].distance_mm = 1500;
    p->in.top = &top;
    p->in.warm_air_w = NAN;
    judged(t, p, "wall_temperature", "wall", SW_UNKNOWN);
    p->in.warm_air_w = 5000;
    judged(t, p, "wall_temperature", "wall", SW_HOLDS);
    p->near[0].distance_mm = 150;
    judged(t, p, "wall_temperature", "wall", SW_FAILS);
    double needed_mm = need(t, solved(t, p), "wall, by computed temperature")->needed_mm;
    sw_true(t, needed_mm > 150 && needed_mm < 1500);
    p->in.warm_air_w = 6000;
    sw_true(t, need(t, solved(t, p), "wall, by computed temperature")->needed_mm > needed_mm);
}

static void brush_needs_few_bends_or_a_door(sw_test *t)
{
    placed *p = placed_stove(t);
    judged(t, p, "bends", "flue", SW_HOLDS);
    judged(t, p, "sweeping", "flue", SW_WATCH);
    p->parts[0].bends = 1;
    p->parts[0].sharpest_rad = SW_PI / 2;
    judged(t, p, "bends", "flue", SW_WATCH);
    p->parts[1].soot_door = true;
    judged(t, p, "bends", "flue", SW_HOLDS);
    judged(t, p, "sweeping", "flue", SW_HOLDS);
    p->parts[0].bends = 5;
    judged(t, p, "bends", "flue", SW_WATCH);
}

static void near_wall_of_england_must_be_solid(sw_test *t)
{
    placed *p = placed_stove(t);
    p->near[0].distance_mm = 250;
    judged(t, p, "solid_wall", "wall", SW_FAILS);
    p->near[0].combustible = false;
    judged(t, p, "solid_wall", "wall", SW_UNKNOWN);
    p->near[0].thickness_mm = 60;
    judged(t, p, "solid_wall", "wall", SW_FAILS);
    p->near[0].thickness_mm = 100;
    judged(t, p, "solid_wall", "wall", SW_HOLDS);
    p->near[0].thickness_mm = NAN;
    sw_contains(t, finding(&solved(t, p)->findings, "solid_wall", "wall")->what, "75 mm");
    p->near[0].distance_mm = 40;
    sw_contains(t, finding(&solved(t, p)->findings, "solid_wall", "wall")->what, "200 mm");
    p->near[0].distance_mm = 301;
    sw_true(t, finding(&solved(t, p)->findings, "solid_wall", "wall") == NULL);
}

/* ---- hearth and floor ------------------------------------------------------------------------------------------------- */

static void hearth_plate_is_the_handbooks(sw_test *t)
{
    placed *p = placed_stove(t);
    const char *book = "handbook FS-24: Approved Document J, section 2";
    sw_near(t, need(t, solved(t, p), "hearth plate, width")->needed_mm, 800, 1e-9, book);
    sw_near(t, need(t, solved(t, p), "hearth plate, depth")->needed_mm, 775, 1e-9, book);
    sw_near(t, need(t, solved(t, p), "hearth, thickness")->needed_mm, 12, 1e-9, book);
    p->in.floor_k = sw_k_from_c(130);
    sw_near(t, need(t, solved(t, p), "hearth plate, width")->needed_mm, 840, 1e-9, "Approved Document J, section 2");
    judged(t, p, "hearth_thickness", "hearth", SW_FAILS);
    p->in.floor_k = NAN;
    judged(t, p, "hearth_thickness", "hearth", SW_FAILS);
    p->house.hearth_mm = 125;
    judged(t, p, "hearth_thickness", "hearth", SW_HOLDS);
}

static void plate_too_short_or_missing_fails(sw_test *t)
{
    placed *p = placed_stove(t);
    p->house.hearth_front_mm = 200;
    judged(t, p, "hearth_front_mm", "hearth", SW_FAILS);
    p->house.hearth_mm = 0;
    judged(t, p, "hearth", "floor", SW_FAILS);
    p->house.floor_combustible = false;
    judged(t, p, "hearth", "floor", SW_WATCH);
}

static void plate_may_end_at_a_wall_that_cannot_burn(sw_test *t)
{
    placed *p = placed_stove(t);
    p->house.hearth_depth_mm = 780;
    p->house.hearth_front_mm = 300;
    judged(t, p, "hearth_back_mm", "hearth", SW_FAILS);
    p->near[0].combustible = false;
    p->near[0].distance_mm = 80;
    sw_true(t, finding(&solved(t, p)->findings, "hearth_back_mm", "hearth") == NULL);
}

static void floor_load_is_the_handbooks(sw_test *t)
{
    placed *p = placed_stove(t);
    const char *book = "handbook FS-25, computed (g rounded to 9.81)";
    const sw_site_result *r = solved(t, p);
    sw_near(t, r->floor_load_pa, 2774, 2, book);
    sw_near(t, r->leg_n, 392.4, 0.4, book);
    p->house.floor_pa = NAN;
    judged(t, p, "floor_load", "floor", SW_WATCH);
    sw_near(t, finding(&solved(t, p)->findings, "floor_load", "floor")->limit, 1500, 1e-9,
            "EN 1991-1-1, category A (from memory)");
}

/* ---- air and alarm ----------------------------------------------------------------------------------------------------- */

static void opening_for_the_fire_is_the_codes(sw_test *t)
{
    placed *p = placed_stove(t);
    judged(t, p, "combustion_air", "room", SW_HOLDS); /* handbook FS-16: 1100 mm2 */
    p->house.permeability_m_s = sw_h_from_s(4);
    judged(t, p, "combustion_air", "room", SW_FAILS);
    sw_near(t, sw_mm2_from_m2(solved(t, p)->vent_needed_m2), 3850, 1e-6, "handbook FS-16, computed");
    p->house.direct_air = true;
    judged(t, p, "combustion_air", "room", SW_HOLDS);
    p->house.direct_air = false;
    p->house.code = "Germany";
    sw_near(t, finding(&solved(t, p)->findings, "combustion_air", "room")->limit, 28, 1e-9, "handbook FS-16, computed");
    p->house.room_m3 = 20;
    judged(t, p, "combustion_air", "room", SW_FAILS);
    p->house.joined_m3 = 10;
    judged(t, p, "combustion_air", "room", SW_HOLDS);
    p->house.joined_m3 = 0;
    p->house.vent_m2 = 0.015;
    judged(t, p, "combustion_air", "room", SW_HOLDS);
}

static void fans_and_stove_share_the_leaks(sw_test *t)
{
    placed *p = placed_stove(t);
    p->house.permeability_m_s = sw_h_from_s(5);
    p->house.vent_m2 = 0;
    p->house.extract_m3_s = sw_h_from_s(150);
    sw_near(t, solved(t, p)->fans_pa, 1.916, 6e-4, "handbook FS-18, computed");
    sw_true(t, solved(t, p)->depression_pa > 1.916);
    judged(t, p, "room_depression", "room", SW_HOLDS);
    judged(t, p, "fans", "room", SW_WATCH);
    p->house.extract_m3_s = sw_h_from_s(300);
    p->house.vent_m2 = 3850e-6;
    sw_near(t, solved(t, p)->fans_pa, 4.901, 6e-4, "handbook FS-18, computed");
    judged(t, p, "room_depression", "room", SW_FAILS);
    p->house.vent_m2 = solved(t, p)->vent_needed_m2;
    sw_near(t, solved(t, p)->depression_pa, 4, 1e-6, "the opening asked keeps 4 Pa");
    p->house.extract_m3_s = NAN;
    judged(t, p, "room_depression", "room", SW_UNKNOWN);
    p->house.extract_m3_s = p->house.vent_m2 = p->house.permeability_m_s = 0;
    judged(t, p, "room_depression", "room", SW_FAILS);
}

static void alarms_are_the_handbooks(sw_test *t)
{
    placed *p = placed_stove(t); /* handbook FS-19 */
    p->house.alarm = (sw_alarm){.there = true, .on_ceiling = true, .from_stove_mm = 2000, .from_wall_mm = 250};
    judged(t, p, "alarm_ceiling_wall_mm", "from the wall", SW_FAILS);
    p->house.alarm = (sw_alarm){.there = true, .from_stove_mm = 2900, .below_ceiling_mm = 160};
    judged(t, p, "alarm_wall_ceiling_mm", "below the ceiling", SW_HOLDS);
    judged(t, p, "alarm_far_mm", "from the stove", SW_HOLDS);
    p->house.alarm = (sw_alarm){.there = true, .from_stove_mm = 2000, .below_ceiling_mm = 100};
    judged(t, p, "alarm_wall_ceiling_mm", "below the ceiling", SW_FAILS);
    p->house.alarm = (sw_alarm){.there = true, .on_ceiling = true, .from_stove_mm = 800, .from_wall_mm = 400};
    judged(t, p, "alarm_near_mm", "from the stove", SW_FAILS);
    p->house.alarm.there = false;
    judged(t, p, "alarm", "room", SW_FAILS);
    p->house.code = "Germany";
    judged(t, p, "alarm", "room", SW_WATCH);
}

/* ---- codes ------------------------------------------------------------------------------------------------------------- */

static void spoil_everything(placed *p)
{
    p->near[0].distance_mm = 100;
    p->near[1].distance_mm = 100;
    p->parts[0].combustible_mm = p->parts[1].combustible_mm = 5;
    p->parts[1].width_mm = 60;
    p->house.roof.above_m = 0.1;
    p->house.extract_m3_s = 1;
    p->house.vent_m2 = 1e-5;
    p->house.room_m3 = 5;
    p->house.hearth_front_mm = p->house.hearth_side_mm = 10;
    p->house.hearth_mm = 2;
}

static void findings_of_a_code_never_cite_another(sw_test *t)
{
    for (size_t k = 0; k < sw_site_code_count(); k++) {
        placed *p = placed_stove(t);
        spoil_everything(p);
        p->house.code = sw_site_code_at(k);
        const sw_site_result *r = solved(t, p);
        for (size_t i = 0; i < r->findings.count; i++)
            for (size_t n = 0; n < sw_site_rule_count(); n++) {
                const sw_site_rule *rule = sw_site_rule_at(n);
                bool shared = strncmp(rule->edition, "EN ", 3) == 0; /* a European standard is in several codes */
                bool cited = strstr(r->findings.items[i].source, rule->edition) != NULL;
                if (strcmp(rule->code, p->house.code) != 0 && !shared && cited)
                    sw_same_text(t, rule->code, p->house.code);
            }
    }
}

static void unknown_code_leaves_physics_and_says_so(sw_test *t)
{
    placed *p = placed_stove(t);
    spoil_everything(p);
    p->house.code = "Engalnd";
    const sw_site_result *r = solved(t, p);
    has_verdict(t, &r->findings, "code", "house", SW_UNKNOWN);
    sw_contains(t, finding(&r->findings, "code", "house")->what, "did you mean England");
    for (size_t i = 0; i < r->findings.count; i++)
        sw_true_at(t, strstr(r->findings.items[i].source, "Approved Document") == NULL, r->findings.items[i].what,
                   __FILE__, __LINE__);
    has_verdict(t, &r->findings, "wall_temperature", "wall", SW_FAILS);
    has_verdict(t, &r->findings, "room_depression", "room", SW_FAILS);
    p->house.code = "";
    sw_contains(t, finding(&solved(t, p)->findings, "code", "house")->what, "no code is named");
}

static void germany_caps_the_wall_at_85_degrees(sw_test *t)
{
    placed *p = placed_stove(t);
    p->in.room_k = sw_k_from_c(25);
    sw_near(t, finding(&solved(t, p)->findings, "wall_temperature", "wall")->limit, 65, 1e-9, "EN 13240, 5.9");
    p->house.code = "Germany";
    sw_near(t, finding(&solved(t, p)->findings, "wall_temperature", "wall")->limit, 60, 1e-9,
            "model firing ordinance, 4");
    judged(t, p, "wall_rule", "chair", SW_HOLDS); /* 800 mm before the pane */
    p->near[1].distance_mm = 790;
    judged(t, p, "wall_rule", "chair", SW_FAILS);
}

static void usa_lets_the_wall_stand_nearer_behind_a_proper_shield(sw_test *t)
{
    placed *p = placed_stove(t);
    p->house.code = "USA";
    judged(t, p, "wall_rule", "wall", SW_FAILS);
    p->near[0].shield_emissivity = 0.9;
    p->near[0].shield_mm = 20;
    judged(t, p, "wall_rule", "wall", SW_FAILS);
    p->near[0].shield_mm = 25;
    judged(t, p, "wall_rule", "wall", SW_HOLDS);
}

/* ---- wrong input and memory ----------------------------------------------------------------------------------------------- */

static void every_impossible_figure_is_named_with_its_place(sw_test *t)
{
    placed *p = placed_stove(t);
    const sw_site_result *r = NULL;
    p->near[0].side = "bakc";
    p->near[1].shield_mm = 1300;
    p->near[1].shield_emissivity = 0.9;
    p->parts[0].rise_m = 2;
    p->back.emissivity = 1.4;
    p->house.vent_m2 = -1;
    p->in.mass_kg = NAN;
    p->in.output_w = INFINITY;
    sw_true(t, sw_site_solve(&t->run, &p->in, &r) != SW_OK && r == NULL);
    sw_near(t, (double)t->run.error_count, 7, 0, "one fault each");
    bool side = false, shield = false;
    for (size_t i = 0; i < t->run.error_count; i++) {
        const sw_error *e = &t->run.errors[i];
        side = side || (strstr(e->text, "did you mean back") != NULL && e->place.line == 20);
        shield = shield || strcmp(e->field, "shield_mm") == 0;
    }
    sw_true(t, side && shield);
}

static void house_of_unknowns_is_judged_without_a_number(sw_test *t)
{
    placed *p = placed_stove(t);
    p->house = (sw_house){.name = "bare", .note = "", .code = "England", .floor_combustible = true};
    p->house.roof = (sw_roof){NAN, NAN, NAN, NAN, NAN, NAN, NAN, false};
    p->house.room_m3 = p->house.joined_m3 = p->house.permeability_m_s = p->house.envelope_m2 = NAN;
    p->house.extract_m3_s = p->house.vent_m2 = p->house.hearth_density = p->house.floor_pa = NAN;
    p->house.declared_k = p->house.declared_pa = p->house.declared_most_pa = p->house.declared_co2 = NAN;
    p->house.alarm = (sw_alarm){true, false, NAN, NAN, NAN, {0}};
    p->in.pipe_k = p->in.pipe_diameter_m = p->in.floor_k = p->in.air_kg_s = p->in.draught_pa = NAN;
    p->in.flue_k = p->in.co2_dry = p->in.leg_count = NAN;
    for (size_t k = 0; k <= sw_site_code_count(); k++) {
        p->house.code = k == sw_site_code_count() ? "" : sw_site_code_at(k);
        const sw_site_result *r = solved(t, p);
        sw_true(t, r->findings.count > 3);
        for (size_t i = 0; i < r->findings.count; i++)
            sw_true_at(t, strstr(r->findings.items[i].what, "nan") == NULL, r->findings.items[i].what, __FILE__,
                       __LINE__);
    }
}

static void every_failed_allocation_is_survived(sw_test *t)
{
    placed *p = placed_stove(t);
    spoil_everything(p);
    const sw_site_result *r = NULL;
    sw_status status = SW_NO_MEMORY;
    size_t nth = 0;
    for (nth = 1; nth < 1000 && status == SW_NO_MEMORY; nth++) {
        sw_arena_fail_at(t->run.keep, nth);
        status = sw_site_solve(&t->run, &p->in, &r);
        sw_arena_fail_at(t->run.keep, 0);
        sw_true(t, (status == SW_OK) == (r != NULL));
        sw_run_clear_errors(&t->run);
    }
    sw_true(t, status == SW_OK && nth > 50);
}

/* ---- recess ---- */

static sw_recess recess_of(double width_mm)
{
    return (sw_recess){.width_mm = width_mm,
                       .height_mm = 1000,
                       .depth_mm = 450,
                       .left_mm = NAN,
                       .back_mm = 100,
                       .thickness_mm = 230,
                       .lintel_resistance = NAN};
}

static void a_recess_is_near_on_every_side(sw_test *t)
{
    placed *p = placed_stove(t);
    const sw_house *in_it = NULL;
    sw_ok(t, sw_site_placed(&t->run, &p->house, 500, 400, 700, &in_it));
    sw_true(t, in_it == &p->house);
    p->house.recess = recess_of(900);
    p->house.recess.lintel_combustible = true;
    sw_ok(t, sw_site_placed(&t->run, &p->house, 500, 400, 700, &in_it));
    if (!sw_true(t, in_it->near_count == SITE_NEARS + 4)) return;
    const sw_near *n = &in_it->near[SITE_NEARS];
    sw_near(t, n[0].distance_mm, 100, 0, "derived: as told");
    sw_near(t, n[1].distance_mm, 200, 0, "derived: in the middle, (900 - 500)/2");
    sw_near(t, n[2].distance_mm, 200, 0, "derived: in the middle, (900 - 500)/2");
    sw_near(t, n[3].distance_mm, 300, 0, "derived: 1000 - 700");
    sw_true(t, n[3].combustible && !n[0].combustible && n[1].thickness_mm == 230);
}

static void a_stove_must_fit_its_recess(sw_test *t)
{
    placed *p = placed_stove(t);
    p->house.recess = recess_of(900);
    sw_true(t, finding(&solved(t, p)->findings, "recess_fit", "recess")->verdict == SW_HOLDS);
    p->house.recess.width_mm = 560;
    sw_true(t, finding(&solved(t, p)->findings, "recess_fit", "recess")->verdict == SW_WATCH);
    p->house.recess.width_mm = 480;
    const sw_finding *f = finding(&solved(t, p)->findings, "recess_fit", "recess");
    sw_true(t, f->verdict == SW_FAILS);
    sw_contains(t, f->remedy, "larger opening");
}

static void the_hearth_of_a_recess_stands_out_before_the_jambs(sw_test *t)
{
    placed *p = placed_stove(t);
    p->house.recess = recess_of(700);
    p->house.hearth_front_mm = 450; /* the stove stands 50 mm out of the opening */
    p->house.hearth_width_mm = 1000;
    sw_near(t, finding(&solved(t, p)->findings, "hearth_recess_front_mm", "recess")->value, 500, 1e-9,
            "derived: 450 + 50");
    sw_true(t, finding(&solved(t, p)->findings, "hearth_recess_front_mm", "recess")->verdict == SW_HOLDS);
    sw_near(t, finding(&solved(t, p)->findings, "hearth_recess_side_mm", "recess")->limit, 150, 0,
            "handbook S5.4 (from memory)");
    p->house.hearth_front_mm = 449;
    sw_true(t, finding(&solved(t, p)->findings, "hearth_recess_front_mm", "recess")->verdict == SW_FAILS);
}

static void the_hearth_of_a_recess_is_taken_in_its_middle_and_says_so(sw_test *t)
{
    placed *p = placed_stove(t);
    p->house.recess = recess_of(700);
    p->house.recess.left_mm = 60; /* the stove stands aside, the plate need not */
    p->house.hearth_width_mm = 980;
    const sw_finding *f = finding(&solved(t, p)->findings, "hearth_recess_side_mm", "recess");
    sw_near(t, f->value, 140, 1e-9, "derived: (980 - 700)/2");
    sw_true(t, f->verdict == SW_FAILS);
    sw_contains(t, f->what, "if it lies in its middle");
}

static void the_floor_is_cooled_by_plate_and_boards(sw_test *t)
{
    placed *p = placed_stove(t);
    const sw_hot_panel under = {"underside", 0.5, 0.4, 423.15, 0.9};
    p->in.underside = &under;
    p->in.floor_k = under.t_k;
    p->in.under_m = 0.1;
    p->house.hearth_conductivity = p->house.floor_resistance = NAN;
    const sw_finding *bare = finding(&solved(t, p)->findings, "floor_temperature", "floor");
    sw_true(t, bare->verdict == SW_WATCH && bare->value < 130);
    sw_contains(t, bare->what, "insulated");
    p->house.hearth_conductivity = 0.1;
    p->house.floor_resistance = 0.3;
    const sw_finding *told = finding(&solved(t, p)->findings, "floor_temperature", "floor");
    sw_true(t, told->verdict == SW_HOLDS && told->value < bare->value - 20);
    p->house.hearth_conductivity = 3;
    sw_true(t, finding(&solved(t, p)->findings, "floor_temperature", "floor")->verdict == SW_FAILS);
}

SW_TESTS(SW_CASE(a_recess_is_near_on_every_side), SW_CASE(a_stove_must_fit_its_recess),
         SW_CASE(the_hearth_of_a_recess_stands_out_before_the_jambs),
         SW_CASE(the_hearth_of_a_recess_is_taken_in_its_middle_and_says_so),
         SW_CASE(the_floor_is_cooled_by_plate_and_boards), SW_CASE(good_house_has_no_failing_finding),
         SW_CASE(combustible_wall_needs_the_computed_distance_and_a_fifth),
         SW_CASE(pane_counts_when_it_warms_more_than_the_front), SW_CASE(side_without_a_computed_face_is_unknown),
         SW_CASE(ceiling_is_warmed_by_the_top_and_by_the_air_that_rises), SW_CASE(brush_needs_few_bends_or_a_door),
         SW_CASE(near_wall_of_england_must_be_solid), SW_CASE(hearth_plate_is_the_handbooks),
         SW_CASE(plate_too_short_or_missing_fails), SW_CASE(plate_may_end_at_a_wall_that_cannot_burn),
         SW_CASE(floor_load_is_the_handbooks), SW_CASE(opening_for_the_fire_is_the_codes),
         SW_CASE(fans_and_stove_share_the_leaks), SW_CASE(alarms_are_the_handbooks),
         SW_CASE(findings_of_a_code_never_cite_another), SW_CASE(unknown_code_leaves_physics_and_says_so),
         SW_CASE(germany_caps_the_wall_at_85_degrees), SW_CASE(usa_lets_the_wall_stand_nearer_behind_a_proper_shield),
         SW_CASE(every_impossible_figure_is_named_with_its_place),
         SW_CASE(house_of_unknowns_is_judged_without_a_number), SW_CASE(every_failed_allocation_is_survived))
