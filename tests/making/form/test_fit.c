/* Trial strips, trial rolls, and rolled zones. */
#include "form_scenes.h"

static sw_strip strip(double s_mm, double die_mm, double r_mm, double k, double got_deg)
{
    double A = sw_rad_from_deg(got_deg), setback_mm = sw_bend_setback_mm(r_mm, s_mm, A);
    sw_strip b = {.grade = &maker_grade, .thickness_mm = s_mm, .die_mm = die_mm, .radius_mm = r_mm, .got_rad = A};
    b.leg_a_mm = 50;
    b.leg_b_mm = 40;
    b.flat_mm = 90 - 2 * setback_mm + sw_bend_allowance_mm(r_mm, s_mm, k, A);
    b.set_rad = 1.01 * A;
    return b;
}

static const sw_form_fit_result *fitted(sw_test *t, const sw_works *works)
{
    const sw_form_fit_result *fit = NULL;
    sw_ok(t, sw_form_fit(&t->run, works, &fit));
    return fit;
}

static const sw_finding *told(const sw_form_fit_result *fit, const char *check)
{
    for (size_t i = 0; fit != NULL && i < fit->findings.count; i++)
        if (strcmp(fit->findings.items[i].check, check) == 0) return &fit->findings.items[i];
    return NULL;
}

static void strip_of_the_worked_example_gives_its_factor(sw_test *t)
{
    sw_strip strips[2];
    for (int i = 0; i < 2; i++) {
        strips[i] = strip(3, 25, 3.2, 0.4, 90);
        strips[i].leg_a_mm = 50;
        strips[i].leg_b_mm = 30;
        strips[i].flat_mm = 74.40;
    }
    sw_works works = {.press = {.strips = strips, .strip_count = 2}};
    const sw_form_fit_result *fit = fitted(t, &works);
    if (fit == NULL || !sw_true(t, fit->bend_count == 1 && fit->bends[0].good)) return;
    sw_near(t, fit->bends[0].k, 0.3763, 5e-5, "handbook W1.5");
    sw_near(t, fit->trials[0].k, 0.3763, 5e-5, "handbook W1.5");
}

static void exact_strips_give_back_factor_and_over_bend(sw_test *t)
{
    sw_strip strips[4];
    for (int i = 0; i < 4; i++) strips[i] = strip(4, 40, 6, 0.36, 60 + 20 * i);
    sw_works works = {.press = {.strips = strips, .strip_count = 4}};
    const sw_form_fit_result *fit = fitted(t, &works);
    if (fit == NULL || !sw_true(t, fit->bend_count == 1 && fit->trial_count == 1)) return;
    sw_near(t, fit->bends[0].k, 0.36, 1e-9, "round trip");
    sw_near(t, fit->bends[0].over, 1.01, 1e-9, "round trip");
    sw_true(t, fit->bends[0].k_plus_minus > 0 && fit->bends[0].over_plus_minus > 0 && fit->findings.count == 0);
    sw_contains(t, fit->trials[0].note, "4 strips on the 40 die");
}

static void fitted_trials_drive_the_flat(sw_test *t)
{
    sw_strip strips[3];
    for (int i = 0; i < 3; i++) strips[i] = strip(4, 32, 5, 0.42, 90);
    form_scene *s = scene_new(t);
    s->works.press.strips = strips;
    s->works.press.strip_count = 3;
    s->fit = fitted(t, &s->works);
    if (s->fit == NULL) return;
    s->works.press.trials = s->fit->trials;
    s->works.press.trial_count = s->fit->trial_count;
    scene_add(s, maker_bracket(&t->run, 60, 40, 300, 4, 5));
    const sw_form_result *r = scene_solved(s);
    if (r == NULL) return;
    sw_near(t, s->sheet->pieces[0].flat.bends[0].k, 0.42, 1e-9, "round trip");
    sw_contains(t, r->pieces[0].steps[0].allowance_rule, "works trial: 3 strips on the 32 die");
    sw_same_text(t, r->pieces[0].steps[0].over_source, "works trial strips");
    sw_near(t, r->pieces[0].steps[0].set_rad, 1.01 * SW_PI / 2, 1e-9, "derived: the strips' ratio");
}

static void uncertainty_falls_with_more_strips(sw_test *t)
{
    sw_strip strips[12];
    double last = INFINITY;
    for (int i = 0; i < 12; i++) strips[i] = strip(4, 40, 6, i % 2 == 0 ? 0.35 : 0.37, 90);
    for (size_t n = 2; n <= 12; n += 2) {
        sw_works works = {.press = {.strips = strips, .strip_count = n}};
        const sw_form_fit_result *fit = fitted(t, &works);
        if (fit == NULL || !sw_true(t, fit->bends[0].k_plus_minus < last)) return;
        last = fit->bends[0].k_plus_minus;
    }
}

static void one_strip_is_too_few(sw_test *t)
{
    sw_strip strips[1] = {strip(4, 40, 6, 0.36, 90)};
    sw_works works = {.press = {.strips = strips, .strip_count = 1}};
    const sw_form_fit_result *fit = fitted(t, &works);
    if (fit == NULL || !sw_true(t, fit->trial_count == 0 && isnan(fit->bends[0].k))) return;
    sw_true(t, told(fit, "trials_too_few") != NULL && told(fit, "trials_too_few")->verdict == SW_FAILS);
}

static void wild_strip_among_good_ones_is_left_out_by_grubbs(sw_test *t)
{
    sw_strip strips[6];
    for (int i = 0; i < 6; i++) strips[i] = strip(4, 40, 6, 0.36 + 0.002 * i, 90);
    strips[3].flat_mm += 3;
    sw_works works = {.press = {.strips = strips, .strip_count = 6}};
    const sw_form_fit_result *fit = fitted(t, &works);
    if (fit == NULL || !sw_true(t, fit->bends[0].left_out == 1 && fit->bends[0].good)) return;
    const sw_finding *f = told(fit, "trial_outlier");
    if (!sw_true(t, f != NULL && f->verdict == SW_WATCH)) return;
    sw_contains(t, f->what, "4");
    sw_contains(t, f->source, "Grubbs");
    sw_near(t, fit->bends[0].k, 0.365, 5e-3, "derived: mean of the others");
}

static void strips_that_contradict_each_other_are_not_used(sw_test *t)
{
    sw_strip strips[4];
    for (int i = 0; i < 4; i++) strips[i] = strip(4, 40, 6, i < 2 ? 0.25 : 0.55, 90);
    sw_works works = {.press = {.strips = strips, .strip_count = 4}};
    const sw_form_fit_result *fit = fitted(t, &works);
    if (fit == NULL || !sw_true(t, !fit->bends[0].good && fit->trial_count == 0)) return;
    sw_true(t, told(fit, "trials_contradict") != NULL && told(fit, "trials_contradict")->verdict == SW_FAILS);
}

static void fitted_row_replaces_the_works_own_of_its_radius_only(sw_test *t)
{
    sw_strip strips[2] = {strip(4, 40, 6, 0.36, 90), strip(4, 40, 6, 0.36, 90)};
    const sw_bend_trial own[] = {{&maker_grade, 4, 6.2, 0.39, "old", {0}}, {&maker_grade, 4, 10, 0.4, "wide", {0}}};
    sw_works works = {.press = {.strips = strips, .strip_count = 2, .trials = own, .trial_count = 2}};
    const sw_form_fit_result *fit = fitted(t, &works);
    if (fit == NULL || !sw_true(t, fit->trial_count == 2)) return;
    sw_contains(t, fit->trials[0].note, "2 strips");
    sw_same_text(t, fit->trials[1].note, "wide");
}

static void strips_that_cannot_be_are_refused_each(sw_test *t)
{
    sw_strip strips[3] = {strip(4, 40, 6, 0.36, 90), strip(4, 40, 6, 0.36, 90), strip(4, 40, 6, 0.36, 90)};
    strips[0].flat_mm = -1;
    strips[2].got_rad = NAN;
    sw_works works = {.press = {.strips = strips, .strip_count = 3}};
    const sw_form_fit_result *fit = NULL;
    sw_true(t, sw_form_fit(&t->run, &works, &fit) == SW_BAD_INPUT && fit == NULL && t->run.error_count == 2);
}

/* ---- rolls ---- */

static sw_roll_trial rolled(const sw_rolls *r, double s_mm, double radius_mm, double re_mpa)
{
    sw_strip_steel m = {re_mpa, maker_grade.young_mpa, maker_grade.poisson, true};
    double kappa = sw_loaded_curvature(1 / (radius_mm + s_mm / 2), sw_yield_curvature(&m, s_mm));
    double feed_mm = sw_roll_feed_mm(1 / kappa - s_mm / 2, s_mm, r->lower_radius_mm, r->centres_mm / 2);
    return (sw_roll_trial){&maker_grade, s_mm, feed_mm, radius_mm, {0}};
}

static void trial_rolls_give_back_the_yield_stress(sw_test *t)
{
    form_scene *s = scene_new(t);
    sw_roll_trial trials[3];
    for (int i = 0; i < 3; i++) trials[i] = rolled(&s->works.rolls, 3, 120 + 60 * i, 290);
    s->works.rolls.trials = trials;
    s->works.rolls.trial_count = 3;
    const sw_form_fit_result *fit = fitted(t, &s->works);
    if (fit == NULL || !sw_true(t, fit->roll_count == 1 && fit->rolls[0].good)) return;
    sw_near(t, fit->rolls[0].re_mpa, 290, 1e-3, "round trip");
    sw_true(t, fit->rolls[0].re_plus_minus_mpa > 0);
}

static maker *shell(sw_test *t, double radius_mm, double flat_mm)
{
    maker *m = maker_new(&t->run, 1, 3);
    int base = maker_rectangle(m, "base", flat_mm, 600);
    sw_bend *b = maker_bend(m, base, 1, 0, 600);
    b->kind = SW_ROLLED;
    b->name = "roll";
    b->radius_mm = radius_mm;
    (void)maker_rectangle(m, "end", 600, flat_mm);
    return m;
}

static void rolled_zone_has_the_downfeed_that_springs_back_to_it(sw_test *t)
{
    form_scene *s = scene_new(t);
    scene_add(s, shell(t, 250, 20));
    const sw_form_result *r = scene_solved(s);
    if (r == NULL || !sw_true(t, r->pieces[0].roll_count == 1 && r->pieces[0].bendable)) return;
    const sw_form_roll *roll = &r->pieces[0].rolls[0];
    double loaded = sw_roll_radius_mm(roll->feed_mm, 3, 45, 65);
    sw_near(t, loaded, roll->loaded_mm, 1e-6, "round trip: feed to radius under load");
    sw_near(t, 1 / sw_sprung_curvature(1 / (loaded + 1.5), roll->kappa_e) - 1.5, 250, 1e-4, "round trip: springback");
    sw_near(t, roll->sagitta_mm, sw_sagitta_mm(250, roll->chord_mm), 1e-12, "handbook 3.4");
    sw_true(t, roll->sagitta_low_mm < roll->sagitta_mm && roll->sagitta_mm < roll->sagitta_high_mm);
    sw_near(t, roll->flat_drawn_mm[0], 20, 1e-6, "derived: drawn");
    sw_near(t, roll->flat_drawn_mm[1], 20, 1e-6, "derived: drawn");
    sw_near(t, roll->extra_mm[0], 0, 1e-12, "derived: 20 mm are more than 2 s");
    scene_judged(s, r, "roll_force", SW_HOLDS);
    scene_judged(s, r, "flat_end", SW_HOLDS);
}

/* Two thicknesses are what stays of an end that is bent before; the three rolls alone leave several times that. */
static void ends_told_shorter_than_the_rolls_leave_them_are_said_to_be_bent_before(sw_test *t)
{
    form_scene *s = scene_new(t);
    scene_add(s, shell(t, 250, 20));
    const sw_form_result *r = scene_solved(s);
    if (r == NULL || !sw_true(t, r->pieces[0].roll_count == 1)) return;
    const sw_form_roll *roll = &r->pieces[0].rolls[0];
    sw_near(t, roll->flat_rolls_mm, sw_roll_flat_mm(roll->loaded_mm, 3, roll->contact_rad), 1e-9, "handbook 3.1");
    sw_true(t, roll->pre_bent && roll->flat_rolls_mm > 5 * roll->flat_needed_mm);
    const sw_finding *f = NULL;
    for (size_t i = 0; i < r->findings.count; i++)
        if (strcmp(r->findings.items[i].check, "flat_end") == 0) f = &r->findings.items[i];
    if (sw_true(t, f != NULL)) sw_contains(t, f->what, "once it is bent before (the rolls alone leave");
    s->works.rolls.flat_end_s = 0;
    r = scene_solved(s);
    if (r == NULL) return;
    sw_true(t, !r->pieces[0].rolls[0].pre_bent);
    sw_near(t, r->pieces[0].rolls[0].flat_needed_mm, roll->flat_rolls_mm, 1e-9, "handbook 3.1");
    scene_judged(s, r, "flat_end", SW_WATCH);
}

static void a_rolled_zone_is_checked_over_the_chord_of_its_template(sw_test *t)
{
    form_scene *s = scene_new(t);
    scene_add(s, shell(t, 250, 20));
    const sw_form_result *r = scene_solved(s);
    if (r == NULL || !sw_true(t, r->pieces[0].roll_count == 1)) return;
    const sw_form_roll *roll = &r->pieces[0].rolls[0];
    sw_near(t, roll->chord_mm, sw_roll_template_mm(250, roll->bend->angle_rad), 1e-12, "ours: one chord in both");
    sw_near(t, sw_roll_template_mm(75, 6), 106.066, 1e-3, "derived: 2 R sin 45 deg, R = 75");
    sw_near(t, sw_roll_template_mm(1000, 3), 500, 0, "ours: two pages wide");
}

static void passes_end_at_the_radius_and_press_ever_harder(sw_test *t)
{
    form_scene *s = scene_new(t);
    scene_add(s, shell(t, 60, 20));
    const sw_form_result *r = scene_solved(s);
    if (r == NULL || !sw_true(t, r->pieces[0].roll_count == 1 && r->pieces[0].rolls[0].pass_count > 1)) return;
    const sw_form_roll *roll = &r->pieces[0].rolls[0];
    for (size_t i = 1; i < roll->pass_count; i++)
        sw_true(t, roll->passes[i].feed_mm > roll->passes[i - 1].feed_mm &&
                       roll->passes[i].radius_mm < roll->passes[i - 1].radius_mm);
    sw_near(t, roll->passes[roll->pass_count - 1].radius_mm, 60, 1e-9, "derived: the last pass is the radius wanted");
}

static void weak_rolls_round_ends_and_tight_radii_are_findings(sw_test *t)
{
    form_scene *s = scene_new(t);
    s->works.rolls.force_n = 500;
    s->works.rolls.length_mm = 500;
    scene_add(s, shell(t, 48, 2));
    const sw_form_result *r = scene_solved(s);
    scene_judged(s, r, "roll_force", SW_FAILS);
    scene_judged(s, r, "roll_length", SW_FAILS);
    scene_judged(s, r, "roll_radius", SW_FAILS);
    if (!scene_judged(s, r, "flat_end", SW_WATCH)) return;
    sw_near(t, r->pieces[0].rolls[0].extra_mm[0], 4, 1e-6, "derived: 2 s less the 2 mm drawn");
}

static void trials_refuse_without_memory(sw_test *t)
{
    sw_strip strips[3] = {strip(4, 40, 6, 0.36, 90), strip(4, 40, 6, 0.37, 90), strip(4, 40, 6, 0.9, 90)};
    sw_works works = {.press = {.strips = strips, .strip_count = 3}};
    sw_arena *arenas[2] = {t->run.keep, t->run.scratch};
    for (int a = 0; a < 2; a++) {
        size_t nth = 1;
        for (; nth < 2000; nth++) {
            const sw_form_fit_result *fit = NULL;
            sw_arena_fail_at(arenas[a], nth);
            sw_status status = sw_form_fit(&t->run, &works, &fit);
            sw_arena_fail_at(arenas[a], 0);
            if (status == SW_OK) break;
            if (!sw_true(t, status == SW_NO_MEMORY && fit == NULL)) return;
        }
        sw_true(t, nth > 1 && nth < 2000);
    }
}

SW_TESTS(SW_CASE(strip_of_the_worked_example_gives_its_factor), SW_CASE(exact_strips_give_back_factor_and_over_bend),
         SW_CASE(fitted_trials_drive_the_flat), SW_CASE(uncertainty_falls_with_more_strips),
         SW_CASE(one_strip_is_too_few), SW_CASE(wild_strip_among_good_ones_is_left_out_by_grubbs),
         SW_CASE(strips_that_contradict_each_other_are_not_used),
         SW_CASE(fitted_row_replaces_the_works_own_of_its_radius_only), SW_CASE(strips_that_cannot_be_are_refused_each),
         SW_CASE(trial_rolls_give_back_the_yield_stress), SW_CASE(rolled_zone_has_the_downfeed_that_springs_back_to_it),
         SW_CASE(ends_told_shorter_than_the_rolls_leave_them_are_said_to_be_bent_before),
         SW_CASE(a_rolled_zone_is_checked_over_the_chord_of_its_template),
         SW_CASE(passes_end_at_the_radius_and_press_ever_harder),
         SW_CASE(weak_rolls_round_ends_and_tight_radii_are_findings), SW_CASE(trials_refuse_without_memory))
