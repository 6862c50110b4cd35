/* bench_line.c: planning of 20 stoves of 46 pieces over 12 stations.
 *   bench_line [STOVES]   default 20. Target: the plan of 20 stoves x 46 pieces x 12 stations below 1 s. Figures are one
 *   machine's. */
#include "bench_target.h"
#include "making/line/line.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { PIECES = 46, STATIONS = 12, ROUNDS = 3 };

static const double target_ms = 1000;

static const sw_station stations[STATIONS] = {
    {.name = "laser", .operation = SW_OP_CUT, .machines = 1, .rate_h = 95},
    {.name = "deburring", .operation = SW_OP_DEBURR, .machines = 1, .people = 1, .each_s = 6, .deburr_mm_s = 80},
    {.name = "press brake", .operation = SW_OP_BEND, .machines = 1, .people = 1, .rate_h = 60, .each_s = 8},
    {.name = "rolls", .operation = SW_OP_ROLL, .machines = 1, .people = 1, .rate_h = 50},
    {.name = "tacking", .operation = SW_OP_TACK, .machines = 2, .people = 1, .buffer = 4},
    {.name = "robot", .operation = SW_OP_WELD, .machines = 1, .people = 1, .rate_h = 70, .buffer = 4},
    {.name = "blasting", .operation = SW_OP_BLAST, .machines = 1, .people = 1, .rate_h = 55},
    {.name = "coating", .operation = SW_OP_COAT, .machines = 1, .people = 1, .rate_h = 52},
    {.name = "oven", .operation = SW_OP_CURE, .machines = 1, .rate_h = 20},
    {.name = "lining", .operation = SW_OP_LINE, .machines = 1, .people = 1},
    {.name = "assembly", .operation = SW_OP_ASSEMBLE, .machines = 2, .people = 1},
    {.name = "packing", .operation = SW_OP_PACK, .machines = 1, .people = 1, .per_kg_s = 1}};

static void fill_pieces(sw_line_piece *pieces, char (*names)[16])
{
    static const char *const sheets[] = {"3 mm", "4 mm", "6 mm"}, *const dies[] = {"V 16", "V 24"};
    for (size_t i = 0; i < PIECES; i++) {
        (void)snprintf(names[i], sizeof names[i], "piece %zu", i + 1);
        pieces[i] = (sw_line_piece){.name = names[i], .body = i % 2 == 0 ? "furnace" : "casing", .count = 1};
        pieces[i].mass_kg = 2;
        pieces[i].cut_s = 20 + (double)(i * 7 % 23);
        pieces[i].cut_group = sheets[i % 3];
        pieces[i].cut_set_up_s = 300;
        pieces[i].edge_mm = 800;
        pieces[i].bend_s = i % 5 == 1 || i % 5 == 2 ? 40 + (double)(i % 7) * 10 : 0;
        pieces[i].bend_group = dies[i % 2];
        pieces[i].bend_set_up_s = 600;
        pieces[i].roll_s = i % 5 == 3 ? 90 : 0;
        pieces[i].roll_group = "radius 180";
        pieces[i].roll_set_up_s = 420;
    }
}

static sw_status plan(sw_run *run, size_t batch)
{
    static const sw_line_step steps[] = {{"line", "furnace", SW_OP_LINE, 600, ""},
                                         {"fit door", "", SW_OP_ASSEMBLE, 900, ""},
                                         {"fit grate", "", SW_OP_ASSEMBLE, 200, ""},
                                         {"pack", "", SW_OP_PACK, 420, "fit door, fit grate"}};
    sw_line_body bodies[2] = {{.name = "furnace",
                               .mass_kg = 55,
                               .tack_s = 900,
                               .weld_s = 720,
                               .weld_set_up_s = 300,
                               .weld_unattended = 0.6,
                               .blast_s = 900,
                               .coat_s = 420,
                               .coat_group = "black",
                               .coat_set_up_s = 600,
                               .dry_s = 1800,
                               .cure_s = 3600,
                               .cure_together = 4}};
    sw_works works = {.name = "w", .stations = stations, .station_count = STATIONS};
    sw_line_piece pieces[PIECES];
    char names[PIECES][16];
    bodies[1] = bodies[0];
    bodies[1].name = "casing";
    bodies[1].into = "furnace";
    works.labour =
        (sw_labour){.shift_s = sw_s_from_h(8), .shifts_day = 1, .days_week = 5, .rate_h = 42, .wanted_week = 12};
    fill_pieces(pieces, names);
    sw_line_figures figures = {pieces, PIECES, bodies, 2, steps, 4, &works};
    sw_line_input in = {.name = "stove", .works = &works, .batch = batch, .people = 6};
    sw_line_options opt = sw_line_options_defaults();
    const sw_line_result *r = NULL;
    for (int i = 0; i < ROUNDS; i++) {
        SW_TRY(sw_line_tasks_make(run, &figures, &in.tasks, &in.task_count));
        double start_s = sw_seconds();
        SW_TRY(sw_line_solve(run, &in, &opt, &r));
        double took_ms = 1e3 * (sw_seconds() - start_s);
        printf("plan %zu stoves of %d pieces over %d stations: %zu tasks each,%.0f,ms,%.0f,%s\n", batch, PIECES,
               STATIONS, in.task_count, took_ms, target_ms, target_met(took_ms, target_ms));
    }
    printf("makespan over bound,%.2f,%%,,\nschedules before the what-ifs,%.0f,,,\n", 100 * r->plan->gap,
           r->plan->tried);
    return SW_OK;
}

int main(int argc, char **argv)
{
    sw_run run;
    long batch = argc > 1 ? strtol(argv[1], NULL, 10) : 20;
    if (sw_run_open(&run, (size_t)1 << 30) != SW_OK) return 3;
    printf("what,value,unit,target,target met\n");
    bool good = plan(&run, batch > 0 ? (size_t)batch : 20) == SW_OK;
    for (size_t i = 0; i < run.error_count && i < 3; i++) fprintf(stderr, "%s\n", run.errors[i].text);
    sw_run_close(&run);
    return good ? 0 : 3;
}
