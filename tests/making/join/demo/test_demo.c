/* The demonstration stoves welded in the demonstration works. */
#include "design/design.h"
#include "making/join/join.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

static const sw_join_result *welded(sw_test *t, const char *stove)
{
    const sw_model *model = NULL;
    const sw_sheet_result *sheet = NULL;
    const sw_join_result *r = NULL;
    sw_sheet_options sheet_options = sw_sheet_options_defaults();
    sw_join_options opt = sw_join_options_defaults();
    sw_design_input files = {.stove_path = stove, .works_path = SW_SOURCE_DIR "/demo/demo.works.lua"};
    if (!sw_ok(t, sw_design_read(&t->run, &files, &model))) return NULL;
    if (!sw_ok(t, sw_sheet_solve(&t->run, model, &sheet_options, &sheet))) return NULL;
    sw_ok(t, sw_join_solve(&t->run, &(sw_join_input){model->stove, model->works, sheet}, &opt, &r));
    return r;
}

static void every_seam_belongs_to_one_body_and_one_station(sw_test *t)
{
    static const char *const stoves[] = {SW_SOURCE_DIR "/demo/a.stove.lua", SW_SOURCE_DIR "/demo/b.stove.lua",
                                         SW_SOURCE_DIR "/demo/c.stove.lua"};
    for (size_t i = 0; i < 3; i++) {
        const sw_join_result *r = welded(t, stoves[i]);
        size_t told = 0;
        double laid_mm = 0;
        if (!sw_true(t, r != NULL && r->seam_count > 0)) return;
        for (size_t b = 0; b < r->body_count; b++) {
            told += r->bodies[b].hand_count + r->bodies[b].robot_count;
            laid_mm += r->bodies[b].hand_mm + r->bodies[b].robot_mm;
        }
        sw_true(t, told == r->seam_count);
        double all_mm = 0;
        for (size_t k = 0; k < r->seam_count; k++) all_mm += r->seams[k].weld_mm;
        sw_near(t, laid_mm, all_mm, 1e-6 * all_mm, "derived: all seams have a station");
        for (size_t k = 0; k < r->seam_count; k++) sw_true(t, r->seams[k].touch_mm > 1);
    }
}

static void the_furnace_of_stove_a_takes_the_robot_about_twelve_minutes(sw_test *t)
{
    const sw_join_result *r = welded(t, SW_SOURCE_DIR "/demo/a.stove.lua");
    const sw_join_body *furnace = NULL;
    for (size_t b = 0; r != NULL && b < r->body_count; b++)
        if (furnace == NULL || r->bodies[b].robot_mm > furnace->robot_mm) furnace = &r->bodies[b];
    if (!sw_true(t, furnace != NULL)) return;
    sw_near(t, sw_min_from_s(furnace->robot_s - furnace->fixture_s), 12, 3,
            "common practice, no source: a furnace's seams");
}

static void a_rolled_collar_is_welded_all_round(sw_test *t)
{
    const sw_join_result *r = welded(t, SW_SOURCE_DIR "/demo/a.stove.lua");
    size_t collars = 0;
    for (size_t i = 0; r != NULL && i < r->seam_count; i++) {
        if (strcmp(r->seams[i].joint->name, "collar on roof") != 0) continue;
        sw_near(t, r->seams[i].touch_mm, SW_PI * 153, 2, "derived: round the middle of the collar's sheet");
        collars++;
    }
    sw_true(t, collars > 0);
}

SW_TESTS(SW_CASE(every_seam_belongs_to_one_body_and_one_station),
         SW_CASE(the_furnace_of_stove_a_takes_the_robot_about_twelve_minutes),
         SW_CASE(a_rolled_collar_is_welded_all_round))
