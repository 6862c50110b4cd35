/* bench_sheet.c: time of one unfold, of one fold and of the whole study of a stove of 46 pieces, on one thread.
 *   bench_sheet                       the made-up stove below
 *   bench_sheet STOVE.lua WORKS.lua   a described stove: its study, then its masses
 *
 * The stove is a stack of invented pieces: plates with rows of holes lying in trays of four flanges, channels, joggled
 * strips and rolled shells, in three layers, placed so that neighbours touch. */
#include "design/design.h"
#include "making/heft/heft.h"
#include "making/sheet/sheet.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

enum { PIECES = 46, JOINTS = 60, FACES = 6, UNFOLDS = 2000, FOLDS = 50, STUDIES = 5, ROUNDS = 30 };

typedef struct part { /* one piece with room for its tree */
    sw_face faces[FACES];
    sw_bend bends[FACES];
    sw_edge edges[4];
    sw_contour holes[24];
    sw_frame place;
} part;

static const sw_grade grade = {.name = "S235",
                               .standard = "EN 10025-2",
                               .kind = SW_STEEL,
                               .density = 7850.0,
                               .rm_min_mpa = 360.0,
                               .source = "bench"};

static sw_contour kept(sw_run *run, const sw_vertex *v, size_t n)
{
    sw_vertex *copy = SW_KEEP(run, n, sw_vertex);
    if (copy != NULL) memcpy(copy, v, n * sizeof *v);
    return (sw_contour){copy, n};
}

static int add_face(sw_run *run, sw_piece *p, part *q, double w_mm, double h_mm)
{
    const sw_vertex v[4] = {{0, 0, 0}, {w_mm, 0, 0}, {w_mm, h_mm, 0}, {0, h_mm, 0}};
    int f = (int)p->face_count++;
    q->faces[f] = (sw_face){.name = "face", .region.outline = kept(run, v, h_mm > 0.0 ? 4 : 2)};
    return f;
}

static void add_flange(sw_run *run, sw_piece *p, part *q, int parent, size_t segment, double end_mm, double h_mm)
{
    sw_contour c = q->faces[parent].region.outline;
    sw_vertex a = c.v[segment], b = c.v[(segment + 1) % c.n];
    double l = hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm), ux = (b.x_mm - a.x_mm) / l, uy = (b.y_mm - a.y_mm) / l;
    sw_bend *d = &q->bends[p->bend_count++];
    *d = (sw_bend){.name = "bend", .parent = parent, .radius_mm = 4, .angle_rad = SW_PI / 2, .k = NAN};
    d->from = (sw_point){a.x_mm + ux * end_mm, a.y_mm + uy * end_mm};
    d->to = (sw_point){b.x_mm - ux * end_mm, b.y_mm - uy * end_mm};
    d->child = add_face(run, p, q, l - 2 * end_mm, h_mm);
}

static void add_holes(sw_run *run, part *q, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        double x = 60.0 + 40.0 * (double)(i % 6), y = 60.0 + 40.0 * (double)(i / 6);
        const sw_vertex v[2] = {{x - 4, y, -1}, {x + 4, y, -1}};
        q->holes[i] = kept(run, v, 2);
    }
    q->faces[0].region.holes = q->holes;
    q->faces[0].region.hole_count = count;
}

static void shape(sw_run *run, sw_piece *p, part *q, size_t kind)
{
    if (kind == 4) { /* shell */
        add_face(run, p, q, 400, 0);
        add_flange(run, p, q, 0, 0, 0.0, 0.0);
        q->bends[0].kind = SW_ROLLED;
        q->bends[0].radius_mm = 150;
        q->bends[0].angle_rad = SW_PI;
        return;
    }
    add_face(run, p, q, kind == 0 ? 340 : 400, kind == 0 ? 240 : 300);
    if (kind == 0) add_holes(run, q, 18);
    if (kind == 1)
        for (size_t i = 0; i < 4; i++) add_flange(run, p, q, 0, i, 12.0, 40.0);
    if (kind == 2) add_flange(run, p, q, 0, 0, 0.0, 40.0);
    if (kind == 2 || kind == 3) add_flange(run, p, q, 0, 2, 0.0, 40.0);
    if (kind == 3) {
        q->bends[0].angle_rad = 0.8;
        add_flange(run, p, q, 1, 2, 0.0, 40.0);
        q->bends[1].angle_rad = -0.8;
    }
}

static sw_piece make_piece(sw_run *run, part *q, size_t i)
{
    sw_piece p = {.number = "B-01",
                  .name = "bench piece",
                  .group = "g",
                  .role = "other",
                  .grade = &grade,
                  .thickness_mm = 3,
                  .faces = q->faces,
                  .bends = q->bends,
                  .edges = q->edges,
                  .edge_count = 4,
                  .count = 1,
                  .mirror_of = -1};
    p.placements = &q->place;
    shape(run, &p, q, i % 5);
    for (size_t e = 0; e < 4; e++)
        q->edges[e] = (sw_edge){.name = "edge", .first = e % q->faces[0].region.outline.n, .count = 1};
    q->place = sw_frame_world();
    return p;
}

/* Rows along x of touching boxes; a plate lies in the tray after it. */
static sw_status place_pieces(sw_run *run, const sw_sheet_options *opt, part *parts, const sw_piece *pieces)
{
    double x_mm = 0.0, z_mm = 0.0, high_mm = 0.0;
    for (size_t i = 0; i < PIECES; i++) {
        sw_solid solid;
        sw_status status = sw_sheet_fold(run, &pieces[i], opt, &solid);
        if (status != SW_OK) return status;
        if (i % 15 == 0) {
            z_mm += high_mm;
            x_mm = high_mm = 0.0;
        }
        parts[i].place.origin = (sw_vec3){x_mm - solid.low.x_mm, -solid.low.y_mm, z_mm - solid.low.z_mm};
        if (i % 5 == 0) parts[i].place.origin = (sw_vec3){x_mm + 20.0, 20.0, z_mm + 4.5};
        if (i % 5 != 0) x_mm += solid.high.x_mm - solid.low.x_mm;
        high_mm = fmax(high_mm, solid.high.z_mm - solid.low.z_mm);
    }
    return SW_OK;
}

static void report(const char *what, double seconds, double times, const char *unit, double factor)
{
    printf("%-34s %10.2f %s\n", what, seconds / times * factor, unit);
}

static double time_unfolds(sw_run *run, const sw_piece *p, const sw_works *works)
{
    double start = sw_seconds();
    for (int i = 0; i < UNFOLDS; i++) {
        size_t mark = sw_arena_mark(run->keep);
        sw_flat flat;
        if (sw_sheet_unfold(run, p, works, &flat) != SW_OK) return NAN;
        sw_arena_rewind(run->keep, mark);
    }
    return sw_seconds() - start;
}

static double time_folds(sw_run *run, const sw_piece *p, const sw_sheet_options *opt)
{
    double start = sw_seconds();
    for (int i = 0; i < FOLDS; i++) {
        size_t mark = sw_arena_mark(run->keep);
        sw_solid solid;
        if (sw_sheet_fold(run, p, opt, &solid) != SW_OK) return NAN;
        sw_arena_rewind(run->keep, mark);
    }
    return sw_seconds() - start;
}

static double time_studies(sw_run *run, const sw_model *model, const sw_sheet_options *opt, size_t *findings,
                           size_t *failing)
{
    double start = sw_seconds();
    for (int i = 0; i < STUDIES; i++) {
        const sw_sheet_result *r = NULL;
        if (sw_sheet_solve(run, model, opt, &r) != SW_OK) return NAN;
        *findings = r->findings.count;
        *failing = 0;
        for (size_t k = 0; k < r->findings.count; k++)
            *failing +=
                strcmp(r->findings.items[k].check, "collision") == 0 && r->findings.items[k].verdict == SW_FAILS;
    }
    return sw_seconds() - start;
}

static void bench(sw_run *run, part *parts, sw_piece *pieces, sw_joint *joints)
{
    static const double dies[] = {16, 24, 32};
    static const sw_stock stock = {
        .name = "sheet", .grade = &grade, .thickness_mm = 3, .length_mm = 3000, .width_mm = 1500};
    const sw_works works = {.name = "w", .stock = &stock, .stock_count = 1, .press = {.dies_mm = dies, .die_count = 3}};
    sw_sheet_options opt = sw_sheet_options_defaults();
    size_t findings = 0, failing = 0;
    for (size_t i = 0; i < PIECES; i++) pieces[i] = make_piece(run, &parts[i], i);
    for (int i = 0; i < JOINTS; i++)
        joints[i] = (sw_joint){
            .name = "joint", .a = {i % PIECES, 0, i % 2, -1}, .b = {(i + 1) % PIECES, 0, -1, -1}, .gap_max_mm = 1.0};
    const sw_stove stove = {
        .name = "bench", .pieces = pieces, .piece_count = PIECES, .joints = joints, .joint_count = JOINTS};
    const sw_model model = {.stove = &stove, .works = &works};
    if (place_pieces(run, &opt, parts, pieces) != SW_OK) return;
    report("unfold a tray of four flanges", time_unfolds(run, &pieces[1], &works), UNFOLDS, "us", 1e6);
    report("unfold a plate with 18 holes", time_unfolds(run, &pieces[0], &works), UNFOLDS, "us", 1e6);
    report("fold a tray of four flanges", time_folds(run, &pieces[1], &opt), FOLDS, "us", 1e6);
    report("fold a plate with 18 holes", time_folds(run, &pieces[0], &opt), FOLDS, "us", 1e6);
    report("fold a rolled half shell", time_folds(run, &pieces[4], &opt), FOLDS, "us", 1e6);
    report("study of 46 pieces, 60 joints", time_studies(run, &model, &opt, &findings, &failing), STUDIES, "ms", 1e3);
    printf("%-34s %10zu, %zu collisions\n", "findings", findings, failing);
}

/* ---- a described stove --------------------------------------------------------------------- */

typedef struct timing {
    double best_s, cpu_s;
} timing;

static void add_round(timing *t, double wall_s, clock_t cpu)
{
    t->best_s = fmin(t->best_s, wall_s);
    t->cpu_s += (double)cpu / CLOCKS_PER_SEC / ROUNDS;
}

static sw_status weigh(sw_run *run, const sw_stove *stove, const sw_sheet_result *sheet)
{
    sw_body *bodies = SW_KEEP(run, sheet->piece_count, sw_body);
    const sw_mesh **meshes = SW_KEEP(run, sheet->piece_count, const sw_mesh *);
    const sw_heft_result *heft = NULL;
    if (bodies == NULL || meshes == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < sheet->piece_count; i++) {
        const sw_solid *solid = &sheet->pieces[i].solid;
        meshes[i] = &solid->mesh;
        bodies[i] = (sw_body){sheet->pieces[i].mass_kg, solid->centroid, {0}};
        memcpy(bodies[i].inertia_kg_mm2, solid->inertia_kg_mm2, sizeof bodies[i].inertia_kg_mm2);
    }
    return sw_heft_solve(run, &(sw_heft_input){stove, bodies, meshes}, &heft);
}

static sw_status time_round(sw_run *run, const sw_model *model, timing *study, timing *masses)
{
    const sw_sheet_result *sheet = NULL;
    sw_sheet_options opt = sw_sheet_options_defaults();
    double start_s = sw_seconds();
    clock_t cpu = clock();
    SW_TRY(sw_sheet_solve(run, model, &opt, &sheet));
    add_round(study, sw_seconds() - start_s, clock() - cpu);
    start_s = sw_seconds();
    cpu = clock();
    SW_TRY(weigh(run, model->stove, sheet));
    add_round(masses, sw_seconds() - start_s, clock() - cpu);
    return SW_OK;
}

static sw_status bench_files(sw_run *run, const char *stove, const char *works)
{
    const sw_model *model = NULL;
    timing study = {INFINITY, 0.0}, masses = {INFINITY, 0.0};
    SW_TRY(sw_design_read(run, &(sw_design_input){.stove_path = stove, .works_path = works}, &model));
    size_t takes = 0;
    for (int i = 0; i < ROUNDS; i++) {
        size_t mark = sw_arena_mark(run->keep), before = sw_arena_takes(run->keep) + sw_arena_takes(run->scratch);
        SW_TRY(time_round(run, model, &study, &masses));
        takes = sw_arena_takes(run->keep) + sw_arena_takes(run->scratch) - before;
        sw_arena_rewind(run->keep, mark);
    }
    printf("what,pieces,best_ms,mean_cpu_ms\n");
    printf("sheet study,%zu,%.3f,%.3f\n", model->stove->piece_count, study.best_s * 1e3, study.cpu_s * 1e3);
    printf("masses,%zu,%.3f,%.3f\n", model->stove->piece_count, masses.best_s * 1e3, masses.cpu_s * 1e3);
    printf("requests for memory,%zu\n", takes);
    return SW_OK;
}

static bool bench_made_up(sw_run *run)
{
    part *parts = SW_KEEP(run, PIECES, part);
    sw_piece *pieces = SW_KEEP(run, PIECES, sw_piece);
    sw_joint *joints = SW_KEEP(run, JOINTS, sw_joint);
    if (parts == NULL || pieces == NULL || joints == NULL) return false;
    bench(run, parts, pieces, joints);
    return run->error_count == 0;
}

int main(int argc, char **argv)
{
    sw_run run;
    if (sw_run_open(&run, (size_t)1 << 30) != SW_OK) return 3;
    bool good = argc > 2 ? bench_files(&run, argv[1], argv[2]) == SW_OK : bench_made_up(&run);
    for (size_t i = 0; i < run.error_count && i < 3; i++) fprintf(stderr, "%s\n", run.errors[i].text);
    sw_run_close(&run);
    return good ? 0 : 3;
}
