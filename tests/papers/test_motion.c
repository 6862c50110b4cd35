/* Motion programs: written, read back, compared; faults by file and line. */
#include "papers/papers.h"
#include "sw_test.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static sw_laser laser_words(void)
{
    return (sw_laser){.rapid_mm_s = 1000,
                      .accel_mm_s2 = 10000,
                      .etch_mm_s = 150,
                      .program_start = "G21\nG90\nM8",
                      .program_end = "M9\nM2",
                      .beam_on = "M3 S1",
                      .beam_off = "M5",
                      .etch_on = "M13",
                      .etch_off = "M15"};
}

static const char head[] = "G21\nG90\n";

static sw_status read_text(sw_test *t, const char *text, const sw_cut_pass **passes, size_t *count)
{
    static sw_laser laser;
    laser = laser_words();
    sw_run_clear_errors(&t->run);
    return sw_motion_read(&t->run, "a.nc", text, strlen(text), &laser, passes, count);
}

/* ---- random plans ---- */

typedef struct small_plan {
    sw_cut_plan plan;
    sw_cut_input cut;
    sw_laser laser;
    sw_laser_row row;
    sw_stock stock;
} small_plan;

static sw_point random_point(sw_random *r)
{
    return (sw_point){sw_random_between(r, 0, 3000), sw_random_between(r, 0, 1500)};
}

static double random_bulge(sw_random *r)
{
    double kind = sw_random_unit(r);
    if (kind < 0.3) return 0;
    if (kind < 0.4) return sw_random_between(r, -1e-5, 1e-5);
    if (kind < 0.5) return sw_random_unit(r) < 0.5 ? 1 : -1;
    return sw_random_between(r, -3, 3);
}

/* Steps of 0.005 to 300 mm, lines and arcs of every kind. */
static sw_cut_pass random_pass(sw_test *t, sw_random *r, bool etch)
{
    size_t count = 1 + sw_random_below(r, 12);
    sw_move *moves = SW_KEEP(&t->run, count, sw_move);
    sw_point at = random_point(r);
    sw_cut_pass pass = {.moves = moves, .move_count = count, .start = at, .contour = -1};
    for (size_t i = 0; i < count; i++) {
        double step = 0.005 * pow(10, sw_random_between(r, 0, 4.7)), turn = sw_random_between(r, 0, 6.28);
        sw_point to = {at.x_mm + step * cos(turn), at.y_mm + step * sin(turn)};
        double bulge = step < 0.1 ? 0 : random_bulge(r);
        moves[i] = (sw_move){etch ? SW_MOVE_ETCH : SW_MOVE_CUT, {at.x_mm, at.y_mm, bulge}, to};
        at = to;
    }
    return pass;
}

static small_plan *random_plan(sw_test *t, uint64_t seed)
{
    sw_random r = sw_random_seeded(seed);
    small_plan *s = SW_KEEP(&t->run, 1, small_plan);
    size_t count = 1 + sw_random_below(&r, 6);
    sw_cut_pass *passes = SW_KEEP(&t->run, count, sw_cut_pass);
    for (size_t i = 0; i < count; i++) passes[i] = random_pass(t, &r, i == 0 && seed % 2 == 0);
    s->laser = laser_words();
    s->row = (sw_laser_row){.feed_mm_s = 56.7, .thickness_mm = 4};
    s->plan = (sw_cut_plan){.passes = passes, .pass_count = count};
    s->cut = (sw_cut_input){.name = "sheet 1 (4 mm)", .laser = &s->laser, .row = &s->row, .stock = &s->stock};
    return s;
}

static const char *program_path(char path[128])
{
    (void)snprintf(path, 128, "/tmp/stovewright_motion_%ld.nc", (long)getpid());
    return path;
}

static bool written(sw_test *t, const small_plan *s, const char **bytes, size_t *length)
{
    char path[128];
    bool held = sw_ok(t, sw_paper_motion(&t->run, &s->cut, &s->plan, program_path(path))) &&
                sw_ok(t, sw_file_read(&t->run, path, (size_t)1 << 24, bytes, length));
    (void)unlink(path);
    return held;
}

static bool read_back(sw_test *t, const small_plan *s, const char *bytes, size_t length, double *worst_mm)
{
    const sw_cut_pass *passes = NULL;
    size_t count = 0;
    return sw_ok(t, sw_motion_read(&t->run, "a.nc", bytes, length, &s->laser, &passes, &count)) &&
           sw_ok(t, sw_motion_compare(&t->run, &s->plan, passes, count, worst_mm));
}

static void random_paths_come_back_within_a_thousandth(sw_test *t)
{
    double worst_mm = 0;
    for (uint64_t seed = 1; seed <= 200; seed++) {
        t->seed = seed;
        small_plan *s = random_plan(t, seed);
        const char *bytes = NULL;
        size_t length = 0;
        double off_mm = INFINITY;
        if (!written(t, s, &bytes, &length) || !read_back(t, s, bytes, length, &off_mm)) return;
        if (!sw_true(t, off_mm <= 1e-3)) {
            printf("    off by %g mm\n%.3000s\n", off_mm, bytes);
            return;
        }
        worst_mm = fmax(worst_mm, off_mm);
    }
    t->seed = 0;
    sw_near(t, worst_mm, 0, 1e-3, "round trip: 3 decimals, 200 random programs");
}

/* Two plates, one with a hole and a mark, one small and held by bridges. */
static void plan_of_a_sheet_comes_back_within_a_thousandth(sw_test *t)
{
    static const sw_vertex line[] = {{20.1234, 20.4321, 0}, {40.5678, 20.4321, 0.3}, {40.5678, 30, 0}};
    static const sw_path mark = {line, 3};
    small_plan *s = random_plan(t, 2);
    sw_contour hole = {0};
    sw_cut_part parts[2] = {{.label = "A-01", .etches = &mark, .etch_count = 1}, {.label = "A-02"}};
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){10.37, 10.11, 211.9, 150.77}, 12.3, &parts[0].region.outline));
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){101.234, 77.777}, 23.456, &hole));
    sw_ok(t, sw_contour_reversed(&t->run, hole, &hole));
    parts[0].region.holes = &hole;
    parts[0].region.hole_count = 1;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){230.3, 10, 270.7, 190}, 3, &parts[1].region.outline));
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0, 0, 1000, 500}, 0, &s->stock.shape.outline));
    s->row = (sw_laser_row){.thickness_mm = 4, .feed_mm_s = 56.7, .kerf_mm = 0.25, .lead_mm = 4, .web_mm = 8};
    s->laser.micro_joint_mm = 0.4;
    s->laser.micro_below_mm = 60;
    s->cut.parts = parts;
    s->cut.part_count = 2;
    const sw_cut_plan *plan = NULL;
    if (!sw_ok(t, sw_cut_solve(&t->run, &s->cut, &plan))) return;
    sw_true(t, plan->micro_joints == 2 && plan->pass_count == 5);
    s->plan = *plan;
    const char *bytes = NULL;
    size_t length = 0;
    double off_mm = INFINITY;
    if (!written(t, s, &bytes, &length) || !read_back(t, s, bytes, length, &off_mm)) return;
    sw_near(t, off_mm, 0, 1e-3, "round trip of a whole plan: 3 decimals");
}

static void every_cut_short_program_is_refused(sw_test *t)
{
    small_plan *s = random_plan(t, 4);
    const char *bytes = NULL;
    size_t length = 0, count = 0;
    const sw_cut_pass *passes = NULL;
    if (!written(t, s, &bytes, &length)) return;
    sw_true(t, bytes[length - 1] == '\n');
    for (size_t n = 0; n + 1 < length; n++) {
        char *exact = SW_KEEP(&t->run, n == 0 ? 1 : n, char);
        memcpy(exact, bytes, n);
        sw_run_clear_errors(&t->run);
        if (!sw_true(t, sw_motion_read(&t->run, "a.nc", exact, n, &s->laser, &passes, &count) == SW_BAD_INPUT)) return;
        if (!sw_true(t, passes == NULL && count == 0)) return;
    }
}

static void program_has_the_laser_s_lines_and_plain_words(sw_test *t)
{
    static const sw_move moves[] = {{SW_MOVE_CUT, {10, 0, 0}, {10, 5}},
                                    {SW_MOVE_CUT, {10, 5, 0.41421356237309503}, {0, 15}}};
    static const sw_point via[] = {{1, 2}};
    const sw_cut_pass pass = {.moves = moves, .move_count = 2, .start = {10, 0}, .via = via, .via_count = 1};
    small_plan *s = random_plan(t, 1);
    s->plan.passes = &pass;
    s->plan.pass_count = 1;
    const char *bytes = NULL;
    size_t length = 0;
    if (!written(t, s, &bytes, &length)) return;
    sw_same_text(t, bytes,
                 "(sheet 1 4 mm)\nG21\nG90\nM8\nG0 X1.000 Y2.000\nG0 X10.000 Y0.000\nM3 S1\nG1 X10.000 Y5.000 F3402\n"
                 "G3 X0.000 Y15.000 I-10.000 J0.000\nM5\nM9\nM2\n");
}

static void quarter_circle_has_the_published_length(sw_test *t)
{
    const sw_cut_pass *passes = NULL;
    size_t count = 0;
    if (!sw_ok(t, read_text(t, "G21 G90 F100\nG0 X10 Y0\nM3 S1\nG3 X0 Y10 I-10 J0\nM5\nM9\nM2\n", &passes, &count)))
        return;
    sw_near(t, sw_segment_length(passes[0].moves[0].from, passes[0].moves[0].to), 15.708, 5e-4,
            "handbook 4.6: from (10,0) G3 X0 Y10 I-10 J0");
}

static void full_circle_and_incremental_inches_are_understood(sw_test *t)
{
    const sw_cut_pass *passes = NULL;
    size_t count = 0;
    const char *text = "%\nN10 G20 G91 (inch)\nN20 g0 x1. y1 ; go\nM3S1\nG2 I.5 F10\nG1X+1\nM5\nM9\nM2\n%\n";
    if (!sw_ok(t, read_text(t, text, &passes, &count))) return;
    sw_true(t, count == 1 && passes[0].move_count == 3);
    double circle_mm = sw_segment_length(passes[0].moves[0].from, passes[0].moves[0].to) +
                       sw_segment_length(passes[0].moves[1].from, passes[0].moves[1].to);
    sw_near(t, circle_mm, SW_PI * 25.4, 1e-9, "derived: circle of one inch, clockwise");
    sw_true(t, passes[0].moves[0].from.bulge < 0);
    sw_near(t, passes[0].moves[2].to.x_mm, 50.8, 1e-9, "derived: 1 + 1 inch");
}

static void long_arcs_become_two_that_meet(sw_test *t)
{
    const sw_cut_pass *passes = NULL;
    size_t count = 0;
    if (!sw_ok(t, read_text(t, "G21 G90\nG0 X10 Y0\nM3 S1\nG3 X0 Y-10 I-10 J0 F1\nM5\nM9\nM2\n", &passes, &count)))
        return;
    sw_true(t, passes[0].move_count == 2);
    double length_mm = sw_segment_length(passes[0].moves[0].from, passes[0].moves[0].to) +
                       sw_segment_length(passes[0].moves[1].from, passes[0].moves[1].to);
    sw_near(t, length_mm, 15 * SW_PI, 1e-9, "derived: three quarters of a circle of radius 10");
}

/* ---- faults ---- */

typedef struct fault_case {
    const char *text;
    int line;
    const char *says;
} fault_case;

static const fault_case faults[] = {
    {"G0 X1\n", 3, "M2"},
    {"G1 X1 Y1\n", 3, "before any F"},
    {"X1\n", 3, "before any of G0"},
    {"G0 X\n", 3, "\"X\" is no word"},
    {"G0 X1e5\n", 3, "E is not understood"},
    {"G0 X0x10\n", 3, "X stands twice"},
    {"G0 X1 X2\n", 3, "X stands twice"},
    {"G0 X9999999\n", 3, "no word"},
    {"G0 Xnan\n", 3, "no word"},
    {"G5 X1\n", 3, "G5 is not understood"},
    {"G0.5 X1\n", 3, "not understood"},
    {"G41 X1\n", 3, "G41 is not understood"},
    {"M77\n", 3, "M77 is not one of the laser's words"},
    {"T1\n", 3, "T is not understood"},
    {"G0 X1 (open\n", 3, "a comment is not closed"},
    {"G0 X1)\n", 3, "no partner"},
    {"M3 S1\nG0 X5\n", 4, "a rapid with the beam on"},
    {"M3 S1\nM3 S1\n", 4, "on already"},
    {"M3 S1\nM5\n", 4, "without a move"},
    {"M13\nG1 X1 F1\nM5\n", 5, "other kind"},
    {"M3 S1\nG1 X1 F100\n", 0, "beam on"},
    {"G1 X1 F0\n", 3, "a feed of 0"},
    {"G1 X1 F100 I2\n", 3, "I or J on a straight move"},
    {"G2 X1 F100\n", 3, "no I and J"},
    {"G2 X10 Y0 I4 J0 F100\n", 3, "must agree within 0.002"},
    {"G2 X10 Y0 R5 F100\n", 3, "R is not understood"},
    {"M2\nG0 X1\n", 4, "after the program's end"},
    {"hello\n", 3, "no word"},
};

static void every_fault_is_told_with_file_and_line(sw_test *t)
{
    for (size_t i = 0; i < sizeof faults / sizeof *faults; i++) {
        const sw_cut_pass *passes = NULL;
        size_t count = 0;
        const char *text =
            sw_text_format(&t->run, t->run.keep, "%s%s%s", head, faults[i].text, i == 0 ? "" : "M9\nM2\n");
        bool refused = sw_true(t, read_text(t, text, &passes, &count) == SW_BAD_INPUT);
        const sw_error *e = &t->run.errors[0];
        bool told = refused && sw_contains(t, e->text, faults[i].says) && sw_same_text(t, e->place.file, "a.nc");
        if (!told || (faults[i].line > 0 && !sw_true(t, e->place.line == faults[i].line)))
            printf("    for %s\n", faults[i].text);
    }
}

static void moves_before_units_or_distance_mode_are_refused(sw_test *t)
{
    const sw_cut_pass *passes = NULL;
    size_t count = 0;
    sw_true(t, read_text(t, "G90\nG0 X1\nM9\nM2\n", &passes, &count) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "before G21 or G20");
    sw_true(t, read_text(t, "G21\nG0 X1\nM9\nM2\n", &passes, &count) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "before G90 or G91");
}

static void all_faults_of_a_program_are_listed(sw_test *t)
{
    const sw_cut_pass *passes = NULL;
    size_t count = 0;
    sw_true(t, read_text(t, "G21\nG90\nG0 X\nM77\nG0 Y1Y2\nM9\nM2\n", &passes, &count) == SW_BAD_INPUT);
    sw_true(t, t->run.error_count == 3);
}

static void bytes_that_are_no_text_are_refused(sw_test *t)
{
    sw_laser laser = laser_words();
    const sw_cut_pass *passes = NULL;
    size_t count = 0;
    sw_true(t, sw_motion_read(&t->run, "a.nc", "G21\0G90\n", 8, &laser, &passes, &count) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "no text");
}

static void beam_words_that_cannot_be_told_apart_are_refused(sw_test *t)
{
    sw_laser laser = laser_words();
    laser.etch_on = "m3s1";
    const sw_cut_pass *passes = NULL;
    size_t count = 0;
    sw_true(t, sw_motion_read(&t->run, "a.nc", "M2", 2, &laser, &passes, &count) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "are the same line");
    small_plan *s = random_plan(t, 2);
    s->laser.beam_on = "";
    sw_true(t, sw_paper_motion(&t->run, &s->cut, &s->plan, "unused.nc") == SW_BAD_INPUT);
}

/* ---- comparison ---- */

static void changed_programs_are_told_from_the_plan(sw_test *t)
{
    static const sw_move there[] = {{SW_MOVE_CUT, {0, 0, 0}, {50, 0}}, {SW_MOVE_CUT, {50, 0, 0}, {50, 50}}};
    static const sw_move bent[] = {{SW_MOVE_CUT, {0, 0, 0.01}, {50, 0}}, {SW_MOVE_CUT, {50, 0, 0}, {50, 50}}};
    static const sw_move etched[] = {{SW_MOVE_ETCH, {0, 0, 0}, {50, 0}}, {SW_MOVE_ETCH, {50, 0, 0}, {50, 50}}};
    const sw_cut_pass a = {.moves = there, .move_count = 2}, b = {.moves = bent, .move_count = 2},
                      e = {.moves = etched, .move_count = 2};
    const sw_cut_plan plan = {.passes = &a, .pass_count = 1};
    double worst_mm;
    sw_ok(t, sw_motion_compare(&t->run, &plan, &a, 1, &worst_mm));
    sw_near(t, worst_mm, 0, 1e-12, "derived: the same path");
    sw_ok(t, sw_motion_compare(&t->run, &plan, &b, 1, &worst_mm));
    sw_near(t, worst_mm, 0.01 * 50 / 2, 1e-6, "derived: sagitta b c / 2");
    sw_true(t, sw_motion_compare(&t->run, &plan, &e, 1, &worst_mm) == SW_BAD_INPUT);
    sw_true(t, sw_motion_compare(&t->run, &plan, NULL, 0, &worst_mm) == SW_BAD_INPUT);
}

static void circle_the_other_way_round_is_told(sw_test *t)
{
    static const sw_move left[] = {{SW_MOVE_CUT, {0, 0, 1}, {20, 0}}, {SW_MOVE_CUT, {20, 0, 1}, {0, 0}}};
    static const sw_move right[] = {{SW_MOVE_CUT, {0, 0, -1}, {20, 0}}, {SW_MOVE_CUT, {20, 0, -1}, {0, 0}}};
    const sw_cut_pass a = {.moves = left, .move_count = 2}, b = {.moves = right, .move_count = 2};
    const sw_cut_plan plan = {.passes = &a, .pass_count = 1};
    double worst_mm;
    sw_true(t, sw_motion_compare(&t->run, &plan, &b, 1, &worst_mm) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "another way round");
}

static void every_failed_request_for_memory_is_reported(sw_test *t)
{
    small_plan *s = random_plan(t, 6);
    const char *bytes = NULL;
    size_t length = 0;
    if (!written(t, s, &bytes, &length)) return;
    for (int arena = 0; arena < 2; arena++)
        for (size_t nth = 1; nth < 500; nth++) {
            const sw_cut_pass *passes = NULL;
            size_t count = 0;
            sw_arena *from = arena == 0 ? t->run.keep : t->run.scratch;
            sw_run_clear_errors(&t->run);
            sw_arena_fail_at(from, nth);
            sw_status status = sw_motion_read(&t->run, "a.nc", bytes, length, &s->laser, &passes, &count);
            sw_arena_fail_at(from, 0);
            if (status == SW_OK) break;
            if (!sw_true(t, status == SW_NO_MEMORY && passes == NULL)) return;
        }
}

SW_TESTS(SW_CASE(random_paths_come_back_within_a_thousandth), SW_CASE(plan_of_a_sheet_comes_back_within_a_thousandth),
         SW_CASE(every_cut_short_program_is_refused), SW_CASE(program_has_the_laser_s_lines_and_plain_words),
         SW_CASE(quarter_circle_has_the_published_length), SW_CASE(full_circle_and_incremental_inches_are_understood),
         SW_CASE(long_arcs_become_two_that_meet), SW_CASE(every_fault_is_told_with_file_and_line),
         SW_CASE(moves_before_units_or_distance_mode_are_refused), SW_CASE(all_faults_of_a_program_are_listed),
         SW_CASE(bytes_that_are_no_text_are_refused), SW_CASE(beam_words_that_cannot_be_told_apart_are_refused),
         SW_CASE(changed_programs_are_told_from_the_plan), SW_CASE(circle_the_other_way_round_is_told),
         SW_CASE(every_failed_request_for_memory_is_reported))
