/* bench_air.c: a stove's own network solved again and again with other temperatures and slides, as steady points and burns
 * do; and larger networks from cold. */
#include "burning/air/air.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { WARM = 1000000, COLD = 100000, CHAINS = 2000, CHAIN = 40 };

static void report(const char *what, double seconds, double times, double rounds)
{
    printf("%-38s %8.3f us, %.2f rounds\n", what, seconds / times * 1e6, rounds / times);
}

static const sw_opening openings[] = {{"ash slots", "primary", 2200, 190, 0, {0}},
                                      {"airwash slot", "wash", 1500, 620, 0, {0}},
                                      {"rear jets", "rear jet", 500, 450, 0, {0}}};
static const sw_stove stove = {.name = "bench", .openings = openings, .opening_count = 3};

static sw_status make(sw_run *run, sw_air_network *network)
{
    const sw_air_input in = {
        .stove = &stove, .geometry = {0.012, 0.65, 0.0177, 0.85, 0.3, 0.09}, .fuel_kg_s = 0.59e-3, .air_min_kg = 4.946};
    sw_air_options opt = sw_air_options_defaults();
    return sw_air_network_make(run, &in, &opt, network);
}

/* A burn's step: gases 2 K apart from the last, the primary slide moved by a thousandth. */
static sw_status warm(sw_run *run, sw_air_network network, int times)
{
    sw_air_space spaces[SW_AIR_SPACES];
    sw_air_way ways[8];
    sw_air_solution solution = {0};
    double rounds = 0;
    for (size_t i = 0; i < network.space_count; i++) spaces[i] = network.spaces[i];
    for (size_t i = 0; i < network.way_count; i++) ways[i] = network.ways[i];
    network.spaces = spaces;
    network.ways = ways;
    SW_TRY(sw_air_network_solve(run, &network, &solution));
    size_t takes = sw_arena_takes(run->keep) + sw_arena_takes(run->scratch);
    double start_s = sw_seconds();
    for (int i = 0; i < times; i++) {
        spaces[SW_AIR_FIREBOX].t_k = 1000 + 300 * sin(i / 150.0);
        spaces[SW_AIR_UPPER].t_k = 700 + 200 * sin(i / 150.0);
        ways[0].area_m2 = network.ways[0].area_m2 * (1 + 1e-3 * ((i & 1) == 0 ? 1 : -1));
        SW_TRY(sw_air_network_solve(run, &network, &solution));
        rounds += solution.rounds;
    }
    report("stove, warm start", sw_seconds() - start_s, times, rounds);
    printf("%-38s %8zu\n", "requests for memory of these",
           sw_arena_takes(run->keep) + sw_arena_takes(run->scratch) - takes);
    return SW_OK;
}

static sw_status cold(sw_run *run, const sw_air_network *network)
{
    sw_air_solution solution = {0};
    double rounds = 0, start_s = sw_seconds();
    for (int i = 0; i < COLD; i++) {
        SW_TRY(sw_air_network_solve(run, network, &solution));
        rounds += solution.rounds;
        for (size_t k = 0; k < network->space_count; k++) solution.pressure_pa[k] = (double)NAN; /* no start */
    }
    report("stove, cold start", sw_seconds() - start_s, COLD, rounds);
    return SW_OK;
}

static sw_status chain(sw_run *run)
{
    static sw_air_space spaces[CHAIN];
    static sw_air_way ways[2 * CHAIN];
    const sw_air_network network = {spaces, CHAIN, ways, 2 * CHAIN - 2};
    sw_air_solution solution = {0};
    double rounds = 0;
    for (size_t i = 0; i < CHAIN; i++)
        spaces[i] = (sw_air_space){.name = "space", .t_k = 300 + 10 * (double)i, .height_m = 0.1 * (double)i};
    spaces[0].fixed = spaces[CHAIN - 1].fixed = true;
    for (size_t i = 0; i + 1 < CHAIN; i++)
        for (size_t k = 0; k < 2; k++)
            ways[2 * i + k] = (sw_air_way){.name = "way",
                                           .kind = "leak",
                                           .from = k == 0 ? i : (7 * i) % CHAIN,
                                           .to = i + 1,
                                           .area_m2 = 1e-3 + 1e-4 * (double)i,
                                           .height_m = 0.05 * (double)(i + k),
                                           .cd = 0.62,
                                           .gas_k = (double)NAN};
    for (size_t i = 0; i < network.way_count; i++)
        if (ways[i].from == ways[i].to) ways[i].from = (ways[i].to + 2) % CHAIN;
    double start_s = sw_seconds();
    for (int i = 0; i < CHAINS; i++) {
        spaces[CHAIN - 1].pressure_pa = -5 - 0.01 * i;
        SW_TRY(sw_air_network_solve(run, &network, &solution));
        rounds += solution.rounds;
    }
    report("40 spaces, 78 ways, warm start", sw_seconds() - start_s, CHAINS, rounds);
    return SW_OK;
}

static sw_status bench(sw_run *run, int times)
{
    sw_air_network network;
    SW_TRY(make(run, &network));
    SW_TRY(warm(run, network, times));
    if (times < WARM) return SW_OK; /* to count instructions of the warm solves alone */
    SW_TRY(cold(run, &network));
    return chain(run);
}

int main(int argc, char **argv)
{
    sw_run run;
    if (sw_run_open(&run, (size_t)1 << 28) != SW_OK) return 3;
    sw_status status = bench(&run, argc > 1 ? (int)strtol(argv[1], NULL, 10) : WARM);
    for (size_t i = 0; i < run.error_count && i < 3; i++) fprintf(stderr, "%s\n", run.errors[i].text);
    sw_run_close(&run);
    return status == SW_OK ? 0 : 3;
}
