/* bench_join.c: figures of the welding study on a described stove: bench_join [STOVE WORKS [all]]. */
#include "design/design.h"
#include "making/join/join.h"

#include <stdio.h>
#include <string.h>

enum { ROUNDS = 5 };

static void tell_body(const sw_join_result *r, const sw_join_body *b)
{
    printf(
        "%s: %zu pieces, %.1f kg, %zu seams; hand %zu (%.2f m, %.1f min), robot %zu (%.2f m, %.1f min: fixture %.0f, "
        "arc %.0f, %zu starts %.0f, air %.0f, %zu turns %.0f s), same side %zu%s; %zu tacks %.1f min\n",
        b->name, b->piece_count, b->mass_kg, b->seam_count, b->hand_count, sw_m_from_mm(b->hand_mm),
        sw_min_from_s(b->hand_s), b->robot_count, sw_m_from_mm(b->robot_mm), sw_min_from_s(b->robot_s), b->fixture_s,
        b->robot_arc_s, b->starts, b->starts_s, b->air_s, b->turns, b->turns_s, b->same_side,
        b->proved ? ", proved" : "", b->tack_count, sw_min_from_s(b->tack_s));
    for (size_t i = 0; i < b->hand_count; i++) {
        const sw_join_seam *s = &r->seams[b->hand[i]];
        printf("    by hand: %-32s %5.0f of %5.0f mm  %s; ahead of %s\n", s->joint->name, s->weld_mm, s->touch_mm,
               s->why, s->ahead_of);
    }
    for (size_t i = 0; i < b->robot_count; i++) {
        const sw_join_seam *s = &r->seams[b->robot[i].seam];
        sw_vec3 up = sw_join_up(b->robot[i].up);
        printf("    robot:   %-32s %5.0f of %5.0f mm  %s up %.1f %.1f %.1f ups %x pull %.2f\n", s->joint->name,
               s->weld_mm, s->touch_mm, b->robot[i].turned ? "turn" : "    ", up.x_mm, up.y_mm, up.z_mm, s->ups,
               b->robot[i].pull);
    }
}

static void tell(const sw_join_result *r)
{
    for (size_t i = 0; i < r->body_count; i++) tell_body(r, &r->bodies[i]);
    for (size_t i = 0; i < r->findings.count; i++) {
        const sw_finding *f = &r->findings.items[i];
        printf("%-7s %-14s %s [%s] %s\n", sw_verdict_name(f->verdict), f->check, f->what, f->where, f->remedy);
    }
}

static sw_status bench(sw_run *run, const char *stove, const char *works, bool all)
{
    const sw_model *model = NULL;
    const sw_sheet_result *sheet = NULL;
    const sw_join_result *r = NULL;
    sw_sheet_options sheet_options = sw_sheet_options_defaults();
    sw_join_options opt = sw_join_options_defaults();
    SW_TRY(sw_design_read(run, &(sw_design_input){.stove_path = stove, .works_path = works}, &model));
    SW_TRY(sw_sheet_solve(run, model, &sheet_options, &sheet));
    double best_s = 1e9;
    for (int i = 0; i < ROUNDS; i++) {
        double start_s = sw_seconds();
        SW_TRY(sw_join_solve(run, &(sw_join_input){model->stove, model->works, sheet}, &opt, &r));
        double took_s = sw_seconds() - start_s;
        if (took_s < best_s) best_s = took_s;
    }
    if (all) tell(r);
    printf("what,value\nseams,%zu\nbodies,%zu\nbest_ms,%.2f\n", r->seam_count, r->body_count, best_s * 1e3);
    printf("weld_m,%.3f\ntight_m,%.3f\nwire_kg,%.3f\ngas_m3,%.3f\nenergy_mj,%.3f\n", sw_m_from_mm(r->weld_mm),
           sw_m_from_mm(r->tight_mm), r->wire_kg, r->gas_m3, r->energy_j / 1e6);
    printf("tack_min,%.2f\nhand_min,%.2f\nrobot_min,%.2f\nfixture_min,%.2f\n",
           sw_min_from_s(r->station_s[SW_JOIN_TACK]), sw_min_from_s(r->station_s[SW_JOIN_HAND]),
           sw_min_from_s(r->station_s[SW_JOIN_ROBOT]), sw_min_from_s(r->setup_s[SW_JOIN_ROBOT]));
    return SW_OK;
}

int main(int argc, char **argv)
{
    const char *stove = argc > 1 ? argv[1] : SW_SOURCE_DIR "/demo/a.stove.lua";
    const char *works = argc > 2 ? argv[2] : SW_SOURCE_DIR "/demo/demo.works.lua";
    sw_run run;
    if (sw_run_open(&run, (size_t)1 << 30) != SW_OK) return 3;
    bool good = bench(&run, stove, works, argc > 3) == SW_OK;
    for (size_t i = 0; i < run.error_count && i < 3; i++) fprintf(stderr, "%s\n", run.errors[i].text);
    sw_run_close(&run);
    return good ? 0 : 3;
}
