/* Laws that hold of every plan, on random sheets with pieces in the windows of others. */
#include "cut_scenes.h"

enum { SEEDS = 4 };

static const sw_cut_plan *solved(sw_test *t, const scene *s)
{
    const sw_cut_plan *plan = NULL;
    sw_ok(t, sw_cut_solve(&t->run, &s->in, &plan));
    return plan;
}

static const scene *sheet(sw_test *t, uint64_t seed)
{
    t->seed = seed;
    return scene_random(t, seed, 3 + (int)(seed % 2), 2);
}

static bool every_contour_once(sw_test *t, const scene *s, const sw_cut_plan *plan)
{
    for (size_t p = 0; p < s->in.part_count; p++)
        for (int c = -1; c < (int)s->parts[p].region.hole_count; c++)
            if (!sw_true(t, scene_last_pass(plan, p, c) != SIZE_MAX)) return false;
    return true;
}

static void every_contour_is_cut_and_closed_but_for_its_bridges(sw_test *t)
{
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        const scene *s = sheet(t, seed);
        const sw_cut_plan *plan = solved(t, s);
        if (plan == NULL || !every_contour_once(t, s, plan)) return;
        double contours_mm = 0, want_mm = -(double)plan->micro_joints * (0.4 + 0.25);
        for (size_t i = 0; i < plan->pass_count; i++) {
            const sw_cut_pass *pass = &plan->passes[i];
            for (size_t k = scene_lead_moves(pass); k < pass->move_count; k++)
                contours_mm += sw_segment_length(pass->moves[k].from, pass->moves[k].to);
        }
        for (size_t p = 0; p < s->in.part_count; p++) {
            const sw_region *r = &s->parts[p].region;
            want_mm += sw_contour_length(r->outline) + SW_PI * 0.25;
            for (size_t h = 0; h < r->hole_count; h++) want_mm += sw_contour_length(r->holes[h]) - SW_PI * 0.25;
        }
        if (!sw_near(t, contours_mm, want_mm, 1e-3, "derived: Steiner's parallels less the bridges")) return;
    }
}

static void passes_hang_together(sw_test *t)
{
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        const sw_cut_plan *plan = solved(t, sheet(t, seed));
        for (size_t i = 0; plan != NULL && i < plan->pass_count; i++) {
            const sw_cut_pass *pass = &plan->passes[i];
            if (!sw_true(t,
                         pass->start.x_mm == pass->moves[0].from.x_mm && pass->start.y_mm == pass->moves[0].from.y_mm))
                return;
            for (size_t k = 1; k < pass->move_count; k++) {
                const sw_move *a = &pass->moves[k - 1], *b = &pass->moves[k];
                if (!sw_true(t, hypot(a->to.x_mm - b->from.x_mm, a->to.y_mm - b->from.y_mm) < 1e-9)) return;
            }
        }
    }
}

static void holes_are_cut_before_the_outline_of_their_piece(sw_test *t)
{
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        const scene *s = sheet(t, seed);
        const sw_cut_plan *plan = solved(t, s);
        if (plan == NULL) return;
        for (size_t p = 0; p < s->in.part_count; p++)
            for (int h = 0; h < (int)s->parts[p].region.hole_count; h++)
                if (!sw_true(t, scene_last_pass(plan, p, h) < scene_last_pass(plan, p, -1))) return;
    }
}

/* Every pass of a piece that lies in a hole comes before the first pass of that hole. */
static bool nested_before_hole(sw_test *t, const scene *s, const sw_cut_plan *plan, size_t *nested)
{
    for (size_t p = 0; p < s->in.part_count; p++) {
        sw_point at = sw_region_centroid(&s->parts[p].region);
        for (size_t q = 0; q < s->in.part_count; q++)
            for (size_t h = 0; q != p && h < s->parts[q].region.hole_count; h++) {
                if (sw_contour_side(s->parts[q].region.holes[h], at) <= 0) continue;
                if (sw_contour_area(s->parts[q].region.outline) < sw_contour_area(s->parts[p].region.outline)) continue;
                (*nested)++;
                if (!sw_true(t, scene_last_pass(plan, p, -1) < scene_last_pass(plan, q, (int)h))) return false;
            }
    }
    return true;
}

static void pieces_in_a_window_are_cut_before_the_window(sw_test *t)
{
    size_t nested = 0;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        const scene *s = sheet(t, seed);
        const sw_cut_plan *plan = solved(t, s);
        if (plan == NULL || !nested_before_hole(t, s, plan, &nested)) return;
    }
    t->seed = 0;
    sw_true(t, nested > 3);
}

/* Distance of p from the piece, negative inside. */
static double off_piece(const sw_region *r, sw_point p)
{
    double d = sw_contour_distance(r->outline, p);
    for (size_t h = 0; h < r->hole_count; h++) d = fmin(d, sw_contour_distance(r->holes[h], p));
    return sw_region_side(r, p) >= 0 ? -d : d;
}

static bool lead_is_clear(sw_test *t, const scene *s, const sw_cut_pass *pass)
{
    for (size_t k = 0; k < scene_lead_moves(pass); k++)
        for (int i = 0; i <= 40; i++) {
            sw_point p = sw_segment_point(pass->moves[k].from, pass->moves[k].to, i / 40.0);
            for (size_t q = 0; q < s->in.part_count; q++) {
                double need_mm = q == pass->part ? 0.125 : 0.25;
                if (!sw_true(t, off_piece(&s->parts[q].region, p) >= need_mm - 0.02)) return false;
            }
            if (!sw_true(t, p.x_mm > 0.25 && p.y_mm > 0.25 && p.x_mm < 2999.75 && p.y_mm < 1499.75)) return false;
        }
    return true;
}

static void lead_ins_stay_clear_of_all_pieces_and_the_edge(sw_test *t)
{
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        const scene *s = sheet(t, seed);
        const sw_cut_plan *plan = solved(t, s);
        if (plan == NULL) return;
        const sw_finding *f = scene_finding(plan, "lead_in");
        if (!sw_true(t, f != NULL && f->verdict != SW_FAILS)) return;
        for (size_t i = 0; i < plan->pass_count; i++)
            if (!lead_is_clear(t, s, &plan->passes[i])) return;
    }
}

/* Whether the leg from a to b lies more than 1 mm within what was cut out before and may tip. */
static bool leg_over(const scene *s, const sw_cut_plan *plan, size_t now, sw_point a, sw_point b)
{
    for (size_t p = 0; p < s->in.part_count; p++) {
        sw_contour outline = s->parts[p].region.outline;
        sw_box box = sw_contour_box(outline);
        bool held = fmin(box.x1_mm - box.x0_mm, box.y1_mm - box.y0_mm) + 0.25 < s->laser.micro_below_mm;
        if (held || scene_last_pass(plan, p, -1) >= now) continue;
        for (int i = 1; i < 100; i++) {
            sw_point at = {a.x_mm + (b.x_mm - a.x_mm) * i / 100, a.y_mm + (b.y_mm - a.y_mm) * i / 100};
            if (sw_contour_side(outline, at) > 0 && sw_contour_distance(outline, at) > 1) return true;
        }
    }
    return false;
}

static void head_passes_over_finished_pieces_only_where_the_finding_says_so(sw_test *t)
{
    size_t ways = 0, over = 0;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        const scene *s = sheet(t, seed);
        const sw_cut_plan *plan = solved(t, s);
        size_t counted = 0;
        sw_point at = {0, 0};
        for (size_t i = 0; plan != NULL && i < plan->pass_count; i++) {
            bool crossed = false;
            for (size_t k = 0; k <= plan->passes[i].via_count; k++) {
                sw_point to = k < plan->passes[i].via_count ? plan->passes[i].via[k] : plan->passes[i].start;
                crossed = crossed || leg_over(s, plan, i, at, to);
                at = to;
            }
            counted += crossed ? 1 : 0;
            at = plan->passes[i].moves[plan->passes[i].move_count - 1].to;
            ways++;
        }
        if (plan == NULL || !sw_true(t, counted <= plan->rapids_over)) return;
        over += plan->rapids_over;
    }
    t->seed = 0;
    sw_true(t, over * 50 <= ways);
}

/* Two rows of plates with holes, near to each other. */
static const sw_cut_plan *two_rows(sw_test *t)
{
    scene *s = scene_make(t);
    sw_contour *holes = SW_KEEP(&t->run, 48, sw_contour);
    for (size_t i = 0; i < 8; i++) {
        double x = 10 + (double)(i % 4) * 747, y = 10 + (double)(i / 4) * 744;
        for (size_t k = 0; k < 6; k++)
            holes[6 * i + k] = scene_hole(t, x + 12 + 143 * (double)k, y + 368, k % 2 == 1 ? 8 : 20);
        scene_add(s, "A-11", scene_rectangle(t, x, y, 739, 736), holes + 6 * i, 6);
    }
    return solved(t, s);
}

static size_t ways_round(const sw_cut_plan *plan)
{
    size_t round = 0;
    for (size_t i = 0; i < plan->pass_count; i++) round += plan->passes[i].via_count > 0;
    return round;
}

static void way_round_a_finished_piece_is_found_where_it_is_cheap(sw_test *t)
{
    size_t round = 0;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        t->seed = seed;
        const sw_cut_plan *plan = solved(t, scene_random(t, seed, 8, 4));
        if (plan == NULL || !sw_true(t, plan->rapids_over == 0)) return;
        round += ways_round(plan);
    }
    t->seed = 0;
    const sw_cut_plan *plan = two_rows(t);
    if (plan != NULL) sw_true(t, round > 0 && plan->rapids_over == 0);
}

/* Lower left corners first, row by row: what a planner without any search would do. */
static double naive_rapid_mm(const sw_cut_plan *plan, const scene *s)
{
    double sum_mm = 0;
    sw_point at = {0, 0};
    for (size_t p = 0; p < s->in.part_count; p++)
        for (size_t i = 0; i < plan->pass_count; i++) {
            const sw_cut_pass *pass = &plan->passes[i];
            if (pass->part != p) continue;
            sum_mm += hypot(pass->start.x_mm - at.x_mm, pass->start.y_mm - at.y_mm);
            at = pass->moves[pass->move_count - 1].to;
        }
    return sum_mm;
}

static void rapids_are_no_longer_than_row_by_row(sw_test *t)
{
    double ours_mm = 0, naive_mm = 0;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        const scene *s = sheet(t, seed);
        const sw_cut_plan *plan = solved(t, s);
        if (plan == NULL) return;
        ours_mm += plan->rapid_mm;
        naive_mm += naive_rapid_mm(plan, s);
    }
    t->seed = 0;
    sw_true(t, ours_mm < 0.8 * naive_mm);
}

/* A block of equal plates a web apart, every third turned by a quarter, in the middle of the sheet and at its edge. */
static const scene *copies(sw_test *t, double x_mm, double y_mm)
{
    scene *s = scene_make(t);
    sw_contour holes[2] = {scene_hole(t, 30, 30, 20), scene_hole(t, 60, 70, 6)};
    sw_region flat = {.outline = scene_rectangle(t, 0, 0, 92, 92), .holes = holes, .hole_count = 2};
    for (int i = 0; i < 20; i++) {
        sw_motion motion = {.dx_mm = x_mm + i % 5 * 100, .dy_mm = y_mm + i / 5 * 100};
        if (i % 3 == 2) {
            motion.turn_rad = SW_PI / 2;
            motion.dx_mm += 92;
        }
        sw_cut_part *part = scene_add(s, "C", flat.outline, NULL, 0);
        sw_ok(t, sw_region_moved(&t->run, &flat, motion, &part->region));
    }
    return s;
}

static void copies_of_a_piece_are_each_cut_whole_and_clear_of_their_neighbours(sw_test *t)
{
    const sw_point corners[2] = {{10, 10}, {1200, 600}};
    for (size_t k = 0; k < 2; k++) {
        const scene *s = copies(t, corners[k].x_mm, corners[k].y_mm);
        const sw_cut_plan *plan = solved(t, s);
        if (plan == NULL || !every_contour_once(t, s, plan)) return;
        sw_true(t, plan->pass_count == 60 && plan->rapids_over == 0);
        double outline_mm = 4 * 92 + SW_PI * 0.25, holes_mm = SW_PI * (20 - 0.25 + 6 - 0.25), contours_mm = 0;
        for (size_t i = 0; i < plan->pass_count; i++) {
            const sw_cut_pass *pass = &plan->passes[i];
            if (!lead_is_clear(t, s, pass)) return;
            for (size_t m = scene_lead_moves(pass); m < pass->move_count; m++)
                contours_mm += sw_segment_length(pass->moves[m].from, pass->moves[m].to);
        }
        sw_near(t, contours_mm, 20 * (outline_mm + holes_mm), 1e-6, "derived: Steiner, 4 a + pi k and pi (d - k)");
    }
}

static bool passes_lie_on_their_contours(sw_test *t, const scene *s, const sw_cut_plan *plan)
{
    for (size_t i = 0; i < plan->pass_count; i++) {
        const sw_cut_pass *pass = &plan->passes[i];
        const sw_region *r = &s->parts[pass->part].region;
        sw_contour c = pass->contour < 0 ? r->outline : r->holes[pass->contour];
        for (size_t m = scene_lead_moves(pass); m < pass->move_count; m++)
            if (!sw_near(t, sw_contour_distance(c, pass->moves[m].to), 0.125, 1e-6, "derived: half the kerf"))
                return false;
    }
    return true;
}

static void the_beam_runs_half_a_kerf_off_the_contour_of_its_own_piece(sw_test *t)
{
    const scene *grid = copies(t, 10, 10);
    const sw_cut_plan *plan = solved(t, grid);
    if (plan == NULL || !passes_lie_on_their_contours(t, grid, plan)) return;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        const scene *s = sheet(t, seed);
        plan = solved(t, s);
        if (plan == NULL || !passes_lie_on_their_contours(t, s, plan)) return;
    }
    t->seed = 0;
}

static void same_sheet_gives_the_same_plan(sw_test *t)
{
    const scene *s = sheet(t, 3);
    const sw_cut_plan *a = solved(t, s), *b = solved(t, s);
    if (a == NULL || b == NULL) return;
    sw_true(t, a->pass_count == b->pass_count && a->total_s == b->total_s && a->rapid_mm == b->rapid_mm);
    for (size_t i = 0; i < a->pass_count; i++)
        if (!sw_true(t, memcmp(a->passes[i].moves, b->passes[i].moves, a->passes[i].move_count * sizeof(sw_move)) == 0))
            return;
    t->seed = 0;
}

static bool close_at_all(const sw_cut_plan *a, const sw_cut_plan *b)
{
    return a->pass_count == b->pass_count && a->pierces == b->pierces && fabs(a->cut_mm - b->cut_mm) < 1e-6 &&
           a->findings.count == b->findings.count && fabs(a->rapid_mm - b->rapid_mm) < 0.1 * b->rapid_mm;
}

static void sheets_of_a_nest_are_planned_together_as_each_by_itself(sw_test *t)
{
    const scene *first = copies(t, 1200, 600), *second = copies(t, 700, 300), *third = sheet(t, 2);
    sw_cut_input in[4] = {first->in, second->in, third->in, second->in};
    const sw_cut_input *all[4] = {&in[0], &in[1], &in[2], &in[3]};
    const sw_cut_plan *plans[4], *alone;
    for (int i = 0; i < 4; i++) in[i].row = first->in.row, in[i].laser = first->in.laser;
    sw_ok(t, sw_cut_solve_all(&t->run, all, 4, plans));
    for (int i = 0; i < 4; i++) {
        sw_ok(t, sw_cut_solve(&t->run, &in[i], &alone));
        if (!sw_true(t, close_at_all(plans[i], alone))) return;
    }
    sw_true(t, passes_lie_on_their_contours(t, first, plans[0]) && passes_lie_on_their_contours(t, second, plans[1]) &&
                   passes_lie_on_their_contours(t, third, plans[2]));
    t->seed = 0;
}

static void no_sheet_of_a_nest_has_a_plan_when_memory_ends(sw_test *t)
{
    const scene *s = copies(t, 700, 300);
    const sw_cut_input *all[2] = {&s->in, &s->in};
    const sw_cut_plan *plans[2];
    for (size_t nth = 1, step = 1;; nth += step++) {
        sw_run_clear_errors(&t->run);
        sw_arena_fail_at(t->run.keep, nth);
        sw_status status = sw_cut_solve_all(&t->run, all, 2, plans);
        sw_arena_fail_at(t->run.keep, 0);
        if (status == SW_OK) break;
        if (!sw_true(t, status == SW_NO_MEMORY && plans[0] == NULL && plans[1] == NULL)) return;
    }
    sw_true(t, plans[0] != NULL && plans[1] != NULL);
}

SW_TESTS(SW_CASE(every_contour_is_cut_and_closed_but_for_its_bridges), SW_CASE(passes_hang_together),
         SW_CASE(holes_are_cut_before_the_outline_of_their_piece),
         SW_CASE(pieces_in_a_window_are_cut_before_the_window), SW_CASE(lead_ins_stay_clear_of_all_pieces_and_the_edge),
         SW_CASE(head_passes_over_finished_pieces_only_where_the_finding_says_so),
         SW_CASE(way_round_a_finished_piece_is_found_where_it_is_cheap), SW_CASE(rapids_are_no_longer_than_row_by_row),
         SW_CASE(copies_of_a_piece_are_each_cut_whole_and_clear_of_their_neighbours),
         SW_CASE(the_beam_runs_half_a_kerf_off_the_contour_of_its_own_piece), SW_CASE(same_sheet_gives_the_same_plan),
         SW_CASE(sheets_of_a_nest_are_planned_together_as_each_by_itself),
         SW_CASE(no_sheet_of_a_nest_has_a_plan_when_memory_ends))
