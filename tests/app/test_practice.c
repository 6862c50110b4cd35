/* What demo/README.md tells of stove (a) beside what the trade says: masses, numbers of pieces, walls on a sheet. */
#include "demo_request.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

static const sw_request request = DEMO_REQUEST;

static bool made(sw_test *t, sw_dossier *d)
{
    return sw_ok(t, sw_dossier_make(&t->run, &request, SW_DO_HEFT, "", d));
}

static double group_kg(const sw_dossier *d, const char *name)
{
    for (size_t i = 0; i < d->model.stove->group_count; i++)
        if (strcmp(d->model.stove->groups[i].name, name) == 0) return d->heft->groups[i].body.mass_kg;
    return NAN;
}

static void stove_a_is_heavier_than_the_trade_says_by_its_second_wall(sw_test *t)
{
    const char *source = "demo/README.md, as written";
    sw_dossier d;
    if (!made(t, &d)) return;
    double all_kg = d.heft->stove.mass_kg, furnace_kg = group_kg(&d, "furnace"), shell_kg = group_kg(&d, "shell"),
           base_kg = group_kg(&d, "base");
    sw_near(t, all_kg, 118, 0.6, source);
    sw_near(t, furnace_kg, 48, 0.6, source);
    sw_near(t, shell_kg, 29, 0.6, source);
    sw_near(t, base_kg, 18, 0.6, source);
    sw_near(t, group_kg(&d, "air") + group_kg(&d, "door"), 14, 0.6, source);
    sw_near(t, group_kg(&d, "lining"), 8, 0.6, source);
    sw_true(t, all_kg > 80 && all_kg - shell_kg - base_kg < 80);
}

static void stove_a_has_as_many_pieces_as_the_trade_says_once_small_ones_are_left_out(sw_test *t)
{
    sw_dossier d;
    size_t all = 0, large = 0;
    if (!made(t, &d)) return;
    for (size_t i = 0; i < d.sheet->piece_count; i++) {
        const sw_sheet_piece *p = &d.sheet->pieces[i];
        all += p->piece->count;
        if (p->mass_kg > 0.15) large += p->piece->count;
    }
    sw_near(t, (double)d.sheet->piece_count, 51, 0, "demo/README.md, as written");
    sw_near(t, (double)all, 77, 0, "demo/README.md, as written");
    sw_near(t, (double)large, 46, 3, "about 46 sheet pieces: common practice, no source");
}

static bool of_furnace(const sw_dossier *d, const sw_joint *j)
{
    const sw_piece *all = d->model.stove->pieces;
    return strcmp(all[j->a.piece].group, "furnace") == 0 && strcmp(all[j->b.piece].group, "furnace") == 0;
}

/* The trade has 12 minutes for 6.2 m; this furnace is larger, so the pace is compared. */
static void the_robot_welds_the_furnaces_own_seams_at_the_pace_of_the_trade(sw_test *t)
{
    const char *source = "demo/README.md, as written";
    sw_dossier d;
    double took_s = 0, laid_mm = 0;
    size_t by_hand = 0;
    if (!sw_ok(t, sw_dossier_make(&t->run, &request, SW_DO_HEFT | SW_DO_NEST | SW_DO_CUT | SW_DO_SHOP, "", &d))) return;
    const sw_join_result *join = d.shop.join;
    for (size_t b = 0; b < join->body_count; b++)
        for (size_t i = 0; i < join->bodies[b].robot_count; i++) {
            const sw_join_step *step = &join->bodies[b].robot[i];
            if (!of_furnace(&d, join->seams[step->seam].joint)) continue;
            took_s += step->weld_s + step->air_s;
            laid_mm += join->seams[step->seam].weld_mm;
        }
    for (size_t i = 0; i < join->seam_count; i++)
        by_hand += strstr(join->seams[i].why, "the robot's torch does not get past") != NULL;
    sw_near(t, sw_min_from_s(took_s) / sw_m_from_mm(laid_mm) * 6.2, 12, 2.5,
            "common practice, no source: 6.2 m of seam");
    sw_near(t, sw_min_from_s(took_s), 15.0, 0.3, source);
    sw_near(t, sw_m_from_mm(laid_mm), 7.1, 0.1, source);
    sw_near(t, (double)by_hand, 0, 0, source);
}

/* Rows of boxes of one turn, with the web between them and the margin at the edge. */
static double in_rows(double sheet_mm, double other_mm, double w_mm, double h_mm, const sw_laser_row *row)
{
    double along = floor((sheet_mm - 2 * row->margin_mm + row->web_mm) / (w_mm + row->web_mm));
    return along * floor((other_mm - 2 * row->margin_mm + row->web_mm) / (h_mm + row->web_mm));
}

static void walls_of_fifteen_stoves_lie_on_a_large_sheet(sw_test *t)
{
    const double length_mm = 3000, width_mm = 1500;
    sw_dossier d;
    if (!made(t, &d)) return;
    int i = sw_stove_piece_index(d.model.stove, "left side");
    if (!sw_true(t, i >= 0)) return;
    const sw_flat *flat = &d.sheet->pieces[i].flat;
    const sw_piece *p = d.sheet->pieces[i].piece;
    const sw_laser_row *row = sw_works_laser_row(d.model.works, p->grade, p->thickness_mm);
    double w_mm = flat->box.x1_mm - flat->box.x0_mm, h_mm = flat->box.y1_mm - flat->box.y0_mm;
    sw_true(t, row != NULL);
    if (row == NULL) return;
    double most = fmax(in_rows(length_mm, width_mm, w_mm, h_mm, row), in_rows(width_mm, length_mm, w_mm, h_mm, row));
    sw_near(t, most, 15, 0, "demo/README.md, as written");
    sw_near(t, floor(length_mm * width_mm / flat->area_mm2), 18, 0, "demo/README.md, as written");
}

SW_TESTS(SW_CASE(stove_a_is_heavier_than_the_trade_says_by_its_second_wall),
         SW_CASE(the_robot_welds_the_furnaces_own_seams_at_the_pace_of_the_trade),
         SW_CASE(stove_a_has_as_many_pieces_as_the_trade_says_once_small_ones_are_left_out),
         SW_CASE(walls_of_fifteen_stoves_lie_on_a_large_sheet))
