/* First-order kinematics of a bent piece against folding it again with the deviation put in. */
#include "fit_scene.h"

static bool fold(sw_test *t, const sw_piece *p, sw_sheet_piece *out)
{
    sw_sheet_options opt = sw_sheet_options_defaults();
    *out = (sw_sheet_piece){.piece = p};
    return sw_ok(t, sw_sheet_unfold(&t->run, p, NULL, &out->flat)) &&
           sw_ok(t, sw_sheet_fold(&t->run, p, &opt, &out->solid));
}

/* Every named edge's points move as foretold when bend b of the piece becomes `low` or `high`, `step` apart. Gives how many
 * were looked at, -1 when one did not. */
static int moves_as_foretold(sw_test *t, const sw_sheet_piece *at, const sw_solid *low, const sw_solid *high,
                             double step, size_t bend, sw_fit_bend_change change)
{
    int looked = 0;
    for (size_t e = 0; e < at->piece->edge_count; e++) {
        const sw_edge *edge = &at->piece->edges[e];
        const sw_folded_edge *middle = &at->solid.edges[e];
        bool alike = low->edges[e].count == middle->count && high->edges[e].count == middle->count;
        for (size_t i = 0; alike && i < middle->count; i++, looked++) {
            sw_vec3 seen = sw_vec3_sub(high->edges[e].points[i], low->edges[e].points[i]);
            sw_vec3 told = sw_fit_moved(at, bend, change, edge->face, edge->zone, middle->points[i]);
            double off = sw_vec3_length(sw_vec3_sub(sw_vec3_scaled(seen, 1 / step), told));
            if (!sw_near(t, off, 0, 1e-4, "law: central difference of the folded piece")) return -1;
        }
    }
    return looked;
}

static void angle_of_any_bend_of_any_tree(sw_test *t)
{
    int looked = 0;
    for (uint64_t seed = 1; seed <= 40; seed++) {
        t->seed = seed;
        maker *m = maker_random(&t->run, seed, 0.4);
        for (size_t b = 0; b < m->piece.bend_count; b++) {
            const double h = 1e-6, angle_rad = m->bends[b].angle_rad, side = angle_rad > 0 ? 1 : -1;
            sw_sheet_piece at, low, high;
            if (m->bends[b].hole_count > 0) continue;
            if (!fold(t, &m->piece, &at)) return;
            m->bends[b].angle_rad = angle_rad - side * h;
            bool ok = fold(t, &m->piece, &low);
            m->bends[b].angle_rad = angle_rad + side * h;
            ok = ok && fold(t, &m->piece, &high);
            m->bends[b].angle_rad = angle_rad;
            sw_fit_bend_change change = {.angle_rad = 1};
            int points = ok ? moves_as_foretold(t, &at, &low.solid, &high.solid, 2 * h, b, change) : -1;
            if (points < 0) return;
            looked += points;
        }
    }
    t->seed = 0;
    sw_true(t, looked > 0);
}

static void radius_of_any_bend_of_any_tree(sw_test *t)
{
    int looked = 0;
    for (uint64_t seed = 41; seed <= 80; seed++) {
        t->seed = seed;
        maker *m = maker_random(&t->run, seed, 0.4);
        for (size_t b = 0; b < m->piece.bend_count; b++) {
            const double h = 1e-5, radius_mm = m->bends[b].radius_mm;
            sw_sheet_piece at, low, high;
            if (m->bends[b].hole_count > 0) continue;
            if (!fold(t, &m->piece, &at)) return;
            m->bends[b].radius_mm = radius_mm - h;
            bool ok = fold(t, &m->piece, &low);
            m->bends[b].radius_mm = radius_mm + h;
            ok = ok && fold(t, &m->piece, &high);
            m->bends[b].radius_mm = radius_mm;
            sw_fit_bend_change change = {.radius_mm = 1};
            int points = ok ? moves_as_foretold(t, &at, &low.solid, &high.solid, 2 * h, b, change) : -1;
            if (points < 0) return;
            looked += points;
        }
    }
    t->seed = 0;
    sw_true(t, looked > 0);
}

/* ---- deviations: the flat stays as it was cut ---- */

typedef struct bracket { /* legs beyond the tangent lines, mm */
    double s_mm, r_mm, angle_rad, parent_mm, child_mm;
    sw_bend_kind kind;
} bracket;

static const double width_mm = 50, factor = 0.4;

static sw_piece *bracket_piece(sw_test *t, bracket b)
{
    maker *m = maker_new(&t->run, 1, b.s_mm);
    sw_vertex main[4] = {{0, -b.parent_mm, 0}, {width_mm, -b.parent_mm, 0}, {width_mm, 60, 0}, {0, 60, 0}};
    maker_face(m, "main", main, 4);
    sw_bend *bend = maker_bend(m, 0, 0, 0, width_mm);
    bend->radius_mm = b.r_mm;
    bend->angle_rad = b.angle_rad;
    bend->kind = b.kind;
    bend->k = factor;
    maker_rectangle(m, "flange", width_mm, b.child_mm);
    maker_add_edge(m, 1, 2, 1);
    return &m->piece;
}

/* `off` turns the drawn bracket into one that is off by h but has the same flat. */
static void follows(sw_test *t, bracket drawn, bracket (*off)(bracket, double),
                    sw_fit_bend_change (*told)(const sw_sheet_piece *))
{
    const double h = 1e-5;
    sw_sheet_piece at, low, high;
    if (!fold(t, bracket_piece(t, drawn), &at) || !fold(t, bracket_piece(t, off(drawn, -h)), &low) ||
        !fold(t, bracket_piece(t, off(drawn, h)), &high))
        return;
    sw_near(t, high.flat.box.y1_mm, at.flat.box.y1_mm, 1e-9, "law: the flat is cut to the drawn length");
    sw_true(t, moves_as_foretold(t, &at, &low.solid, &high.solid, 2 * h, 0, told(&at)) > 0);
}

static bracket angle_off(bracket b, double h)
{
    double taken_mm = h * (b.r_mm + factor * b.s_mm), side = b.angle_rad > 0 ? 1 : -1;
    b.angle_rad += side * h;
    b.parent_mm -= taken_mm / 2;
    b.child_mm -= taken_mm / 2;
    return b;
}

static bracket line_off(bracket b, double h)
{
    b.parent_mm += h;
    b.child_mm -= h;
    return b;
}

static bracket thickness_off(bracket b, double h)
{
    double taken_mm = fabs(b.angle_rad) * factor * h;
    b.s_mm += h;
    b.parent_mm -= taken_mm / 2;
    b.child_mm -= taken_mm / 2;
    return b;
}

static bracket roll_off(bracket b, double h)
{
    double neutral_mm = b.r_mm + factor * b.s_mm;
    b.angle_rad *= neutral_mm / (neutral_mm + h);
    b.r_mm += h;
    return b;
}

static sw_fit_bend_change told_angle(const sw_sheet_piece *p)
{
    return sw_fit_angle_off(p, 0, 1);
}
static sw_fit_bend_change told_line(const sw_sheet_piece *p)
{
    (void)p;
    return sw_fit_line_off(1);
}
static sw_fit_bend_change told_thickness(const sw_sheet_piece *p)
{
    return sw_fit_thickness_off(p, 0, 1);
}
static sw_fit_bend_change told_roll(const sw_sheet_piece *p)
{
    return sw_fit_roll_off(p, 0, 1);
}

static void deviations_keep_the_flat(sw_test *t)
{
    for (int side = -1; side <= 1; side += 2)
        for (double angle_rad = 0.4; angle_rad < 2.8; angle_rad += 0.6) {
            bracket b = {3, 4, side * angle_rad, 20, 40, SW_PRESSED};
            follows(t, b, angle_off, told_angle);
            follows(t, b, line_off, told_line);
            follows(t, b, thickness_off, told_thickness);
            b.r_mm = 80;
            b.kind = SW_ROLLED;
            follows(t, b, roll_off, told_roll);
        }
}

static void nothing_before_the_bend_moves(sw_test *t)
{
    sw_sheet_piece at;
    bracket b = {3, 4, SW_PI / 2, 20, 40, SW_PRESSED};
    if (!fold(t, bracket_piece(t, b), &at)) return;
    sw_vec3 moved = sw_fit_moved(&at, 0, sw_fit_angle_off(&at, 0, 1), 0, 0, (sw_vec3){10, 60, 0});
    sw_near(t, sw_vec3_length(moved), 0, 0, "law: the root stays");
}

static void a_bend_line_farther_out_shortens_the_flange(sw_test *t)
{
    sw_sheet_piece at;
    bracket b = {3, 4, SW_PI / 2, 20, 40, SW_PRESSED};
    if (!fold(t, bracket_piece(t, b), &at)) return;
    sw_vec3 moved = sw_fit_moved(&at, 0, sw_fit_line_off(1), 1, 0, at.solid.edges[0].points[0]);
    sw_near(t, moved.y_mm, -1, 1e-12, "derived: the flange stands 1 mm farther out");
    sw_near(t, moved.z_mm, -1, 1e-12, "derived: and is 1 mm lower");
}

SW_TESTS(SW_CASE(angle_of_any_bend_of_any_tree), SW_CASE(radius_of_any_bend_of_any_tree),
         SW_CASE(deviations_keep_the_flat), SW_CASE(nothing_before_the_bend_moves),
         SW_CASE(a_bend_line_farther_out_shortens_the_flange))
