/* test_limits.c: what parts bear, and what is said when they do not. */
#include "burning/heat/limits_parts.h"
#include "net_scene.h"

#include <string.h>

typedef struct setting {
    net_scene *n;
    ns_stove p;
    size_t handle;
    sw_piece pieces[1];
    sw_item items[1];
    sw_frame place;
    sw_stove stove;
    double hot_k[NS_PARTS], cold_k[NS_PARTS];
    sw_heat_limits_input in;
    sw_findings found;
} setting;

/* The stove of the network's tests; its shell is a piece of steel behind it, everything at 100 degC. */
static setting *set_up(sw_test *t)
{
    setting *s = SW_KEEP(&t->run, 1, setting);
    s->n = ns_new(t);
    s->p = ns_box_in_box(s->n, 0.03, 1);
    s->handle = ns_part(s->n, "handle", SW_PART_HANDLE, "S235", 0.01, 0.004);
    s->place = sw_frame_world();
    s->place.z = (sw_vec3){0, 1, 0};
    s->place.y = (sw_vec3){0, 0, -1};
    s->pieces[0] = (sw_piece){.name = "shell", .grade = sw_grade_find("S235"), .count = 1, .placements = &s->place};
    s->items[0] = (sw_item){.name = "rope", .kind = SW_ITEM_ROPE};
    s->stove = (sw_stove){.pieces = s->pieces, .piece_count = 1, .items = s->items, .item_count = 1};
    s->n->parts[s->p.shell].piece = 0;
    for (size_t i = 0; i < NS_PARTS; i++) s->hot_k[i] = s->cold_k[i] = sw_k_from_c(100);
    s->hot_k[s->handle] = sw_k_from_c(40);
    s->in = (sw_heat_limits_input){.stove = &s->stove, .scene = &s->n->s, .hot_k = s->hot_k, .cold_k = s->cold_k};
    s->in.flue_k = sw_k_from_c(270);
    s->in.dew_point_k = sw_k_from_c(45);
    s->in.room_k = sw_k_from_c(20);
    s->in.back_distance_m = s->in.side_distance_m = NAN;
    return s;
}

static const sw_finding *found(sw_test *t, setting *s, const char *check)
{
    s->found = (sw_findings){0};
    if (!sw_ok(t, sw_heat_limits(&t->run, &s->in, &s->found))) return NULL;
    for (size_t i = 0; i < s->found.count; i++)
        if (strcmp(s->found.items[i].check, check) == 0) return &s->found.items[i];
    return NULL;
}

static void expect(sw_test *t, setting *s, const char *check, sw_verdict verdict)
{
    const sw_finding *f = found(t, s, check);
    if (!sw_true(t, f != NULL)) return;
    if (!sw_same_text(t, sw_verdict_name(f->verdict), sw_verdict_name(verdict))) return;
    sw_true(t, f->source[0] != 0 && f->where[0] != 0 && (verdict == SW_HOLDS) == (f->remedy[0] == 0));
}

static void a_cool_stove_holds_everywhere(sw_test *t)
{
    setting *s = set_up(t);
    found(t, s, "");
    for (size_t i = 0; i < s->found.count; i++)
        if (!sw_same_text(t, sw_verdict_name(s->found.items[i].verdict), "holds")) return;
    sw_true(t, s->found.count >= 8);
}

static void a_steel_handle_may_be_35_k_over_the_room(sw_test *t)
{
    setting *s = set_up(t);
    s->hot_k[s->handle] = s->in.room_k + 36;
    expect(t, s, "handle_rise", SW_WATCH); /* with a tool supplied */
    sw_true(t, found(t, s, "handle_rise")->margin < 0);
    sw_near(t, found(t, s, "handle_rise")->limit, 35, 0, "EN 13240: metal (from memory)");
    s->hot_k[s->handle] = s->in.room_k + 34;
    expect(t, s, "handle_rise", SW_WATCH);
    s->hot_k[s->handle] = sw_k_from_c(57);
    expect(t, s, "handle_burn", SW_WATCH);
    sw_near(t, found(t, s, "handle_burn")->limit, 56, 0, "ISO 13732-1: metal, 5 s");
}

static void a_wooden_handle_may_be_60_k_over_the_room(sw_test *t)
{
    setting *s = set_up(t);
    s->n->parts[s->handle].material = sw_material_find("beech");
    s->hot_k[s->handle] = s->in.room_k + 50;
    s->n->parts[s->handle].kind = SW_PART_HANDLE;
    expect(t, s, "handle_rise", SW_HOLDS);
    sw_near(t, found(t, s, "handle_rise")->limit, 60, 0, "EN 13240: wood (from memory)");
}

static void paint_bears_600_and_is_watched_from_500_on(sw_test *t)
{
    setting *s = set_up(t);
    s->hot_k[s->p.shell] = sw_k_from_c(510);
    expect(t, s, "coating", SW_WATCH);
    s->hot_k[s->p.shell] = sw_k_from_c(601);
    expect(t, s, "coating", SW_FAILS);
    sw_contains(t, found(t, s, "coating")->what, "shell: 601 degC; stove paint");
}

static void steel_scales_lining_pane_and_rope_have_their_limits(sw_test *t)
{
    setting *s = set_up(t);
    s->hot_k[s->p.shell] = sw_k_from_c(540);
    expect(t, s, "scaling", SW_FAILS);
    s->hot_k[s->p.board] = sw_k_from_c(1010);
    expect(t, s, "lining", SW_FAILS);
    s->hot_k[s->p.pane] = sw_k_from_c(561);
    expect(t, s, "pane", SW_FAILS);
    expect(t, s, "rope", SW_FAILS);
    s->hot_k[s->p.pane] = sw_k_from_c(450);
    expect(t, s, "pane", SW_HOLDS);
    expect(t, s, "rope", SW_HOLDS);
}

static void peaks_of_a_burn_are_judged_by_what_is_borne_for_short(sw_test *t)
{
    setting *s = set_up(t);
    double most_k[NS_PARTS];
    for (size_t i = 0; i < NS_PARTS; i++) most_k[i] = sw_k_from_c(120);
    sw_true(t, found(t, s, "scaling_peak") == NULL && found(t, s, "rope_peak") == NULL); /* no burn was followed */
    s->in.most_k = most_k;
    expect(t, s, "scaling_peak", SW_HOLDS);
    most_k[s->p.shell] = sw_k_from_c(560);
    expect(t, s, "scaling_peak", SW_WATCH);
    expect(t, s, "scaling", SW_HOLDS);
    most_k[s->p.shell] = sw_k_from_c(571);
    expect(t, s, "scaling_peak", SW_FAILS);
    expect(t, s, "coating_peak", SW_WATCH);
    most_k[s->p.shell] = sw_k_from_c(601);
    expect(t, s, "coating_peak", SW_FAILS);
    most_k[s->p.pane] = sw_k_from_c(661);
    expect(t, s, "pane_peak", SW_FAILS);
    expect(t, s, "rope_peak", SW_FAILS);
    most_k[s->p.board] = sw_k_from_c(1010);
    expect(t, s, "lining_peak", SW_FAILS);
    expect(t, s, "lining", SW_HOLDS);
}

static void a_flue_is_too_cold_or_too_hot(sw_test *t)
{
    setting *s = set_up(t);
    s->in.flue_k = sw_k_from_c(40);
    expect(t, s, "flue_dew_point", SW_FAILS);
    s->in.flue_k = sw_k_from_c(115);
    expect(t, s, "flue_tar", SW_FAILS);
    s->in.flue_k = sw_k_from_c(140);
    expect(t, s, "flue_tar", SW_WATCH);
    s->in.flue_k = sw_k_from_c(410);
    expect(t, s, "flue_waste", SW_WATCH); /* practice, not a rule */
    s->in.dew_point_k = NAN;
    expect(t, s, "flue_dew_point", SW_UNKNOWN);
}

static void a_flame_too_cold_for_co_is_told(sw_test *t)
{
    setting *s = set_up(t);
    sw_true(t, found(t, s, "flame_cold") == NULL); /* not asked */
    s->in.flame_k = sw_k_from_c(900);
    expect(t, s, "flame_cold", SW_HOLDS);
    s->in.flame_k = sw_k_from_c(800);
    expect(t, s, "flame_cold", SW_WATCH);
    s->in.flame_k = sw_k_from_c(600);
    expect(t, s, "flame_cold", SW_WATCH); /* practice, not a rule */
    sw_true(t, found(t, s, "flame_cold")->margin < 0);
}

static void every_part_that_does_not_hold_is_told(sw_test *t)
{
    setting *s = set_up(t);
    size_t lining = 0;
    s->n->parts[s->p.wall].kind = SW_PART_LINING;
    s->n->parts[s->p.wall].material = s->n->parts[s->p.board].material;
    s->hot_k[s->p.board] = s->hot_k[s->p.wall] = sw_k_from_c(1100);
    found(t, s, "");
    for (size_t i = 0; i < s->found.count; i++) lining += strcmp(s->found.items[i].check, "lining") == 0;
    sw_true(t, lining == 2);
}

/* ---- wood ------------------------------------------------------------------------------------------------------------- */

static void wood_far_away_stays_cool_and_near_gets_as_warm_as_the_panel(sw_test *t)
{
    limits_panel p = {.t_k = 400, .emissivity = 0.9, .width_m = 0.5, .height_m = 0.8, .room_k = 293.15};
    double before_k = 400;
    for (p.distance_m = 0.01; p.distance_m < 3; p.distance_m *= 1.5) {
        double wood_k = limits_wood_k(p);
        if (!sw_true(t, wood_k < before_k && wood_k > p.room_k)) return;
        before_k = wood_k;
    }
    sw_near(t, before_k, 293.15, 2, "derived: view falls with the square");
}

static void wood_before_a_wide_panel_is_in_balance(sw_test *t)
{
    limits_panel p = {
        .t_k = 450, .emissivity = 1, .width_m = 500, .height_m = 2, .distance_m = 0.001, .room_k = 293.15};
    double T = limits_wood_k(p), h = sw_free_h(SW_FACING_SIDE, T, p.room_k, p.height_m);
    double in = 0.9 * SW_STEFAN_BOLTZMANN * (pow(450, 4) - pow(T, 4));
    sw_near(t, in, h * (T - p.room_k), 1, "derived: all it sees is the panel");
    sw_true(t, isnan(limits_wood_k((limits_panel){0})));
}

static void a_hot_back_needs_distance_and_a_hot_bottom_feet(sw_test *t)
{
    setting *s = set_up(t);
    s->hot_k[s->p.shell] = sw_k_from_c(200);
    s->in.back_distance_m = s->in.side_distance_m = 0.1;
    expect(t, s, "wall_of_wood", SW_FAILS);
    sw_same_text(t, found(t, s, "wall_of_wood")->where, "wall behind");
    s->in.back_distance_m = 2;
    expect(t, s, "wall_of_wood", SW_HOLDS);
    sw_scene_surface *top = &s->n->surfaces[12];
    top->side = 0, top->down = 1, top->middle_z_m = 0.02;
    expect(t, s, "floor_of_wood", SW_WATCH); /* on a hearth */
    sw_true(t, found(t, s, "floor_of_wood")->margin < 0);
}

/* ---- input ---------------------------------------------------------------------------------------------------------- */

static void temperatures_that_cannot_be_are_refused(sw_test *t)
{
    setting *s = set_up(t);
    s->hot_k[2] = NAN;
    s->in.room_k = -3;
    sw_true(t, sw_heat_limits(&t->run, &s->in, &s->found) == SW_OUT_OF_RANGE && t->run.error_count == 2);
    sw_contains(t, t->run.errors[0].text, "cannot be");
}

static void every_allocation_may_fail(sw_test *t)
{
    setting *s = set_up(t);
    s->in.back_distance_m = 0.3;
    sw_status status = SW_NO_MEMORY;
    for (size_t nth = 1; status == SW_NO_MEMORY && nth < 200; nth++) {
        sw_findings findings = {0};
        sw_arena_fail_at(t->run.keep, nth);
        status = sw_heat_limits(&t->run, &s->in, &findings);
        sw_arena_fail_at(t->run.keep, 0);
        sw_run_clear_errors(&t->run);
    }
    sw_true(t, status == SW_OK);
}

SW_TESTS(SW_CASE(a_cool_stove_holds_everywhere), SW_CASE(a_steel_handle_may_be_35_k_over_the_room),
         SW_CASE(a_wooden_handle_may_be_60_k_over_the_room), SW_CASE(paint_bears_600_and_is_watched_from_500_on),
         SW_CASE(steel_scales_lining_pane_and_rope_have_their_limits),
         SW_CASE(peaks_of_a_burn_are_judged_by_what_is_borne_for_short), SW_CASE(a_flue_is_too_cold_or_too_hot),
         SW_CASE(a_flame_too_cold_for_co_is_told), SW_CASE(every_part_that_does_not_hold_is_told),
         SW_CASE(wood_far_away_stays_cool_and_near_gets_as_warm_as_the_panel),
         SW_CASE(wood_before_a_wide_panel_is_in_balance), SW_CASE(a_hot_back_needs_distance_and_a_hot_bottom_feet),
         SW_CASE(temperatures_that_cannot_be_are_refused), SW_CASE(every_allocation_may_fail))
