/* bench_map_plate.c: one heated sheet that conducts, loses to air and radiates: the map's plate solver and CalculiX (ccx, when
 * there is one) on the same problem, with their errors against a grid so fine that it no longer matters.
 *   bench_map_plate [FOLDER]      decks and results of ccx go there; default: the present one
 * A quarter of 0.4 x 0.4 m, 3 mm, k 45 W/(m K), heated with 5000 W/m2, outer edges at 100 degC, losing 7 W/(m2 K) and radiation of
 * emissivity 0.9 to 20 degC. n x n squares (two triangles each), or bricks. */
#include "burning/heat/map_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double side_m = 0.2, thickness_m = 0.003, k = 45.0, heat_w_m2 = 5000.0, film = 7.0, emissivity = 0.9;
static const double edge_c = 100.0, sink_c = 20.0;

typedef struct plate {
    map_system sys;
    bool *held;
    map_matter matter;
    map_patch patch;
    map_film film;
    size_t start[4];
    uint32_t column[2];
    double view[2], rows[5][3];
} plate;

static void add_triangle(plate *p, const sw_point *points, uint32_t a, uint32_t b, uint32_t c)
{
    map_triangle *t = &p->sys.triangles[p->sys.triangle_count++];
    sw_point corner[3] = {points[a], points[b], points[c]};
    *t = (map_triangle){{a, b, c}, 0, thickness_m, {0}};
    map_half_cots(corner, t->half_cot);
    double area_m2 = sw_m2_from_mm2(0.5 * ((corner[1].x_mm - corner[0].x_mm) * (corner[2].y_mm - corner[0].y_mm) -
                                           (corner[1].y_mm - corner[0].y_mm) * (corner[2].x_mm - corner[0].x_mm)));
    for (int i = 0; i < 3; i++) {
        p->sys.load_w[t->node[i]] += heat_w_m2 * area_m2 / 3.0;
        p->sys.shares[t->node[i]].area_m2 += area_m2 / 3.0;
    }
}

static void see_room(plate *p)
{
    double area_m2 = side_m * side_m;
    map_space *o = &p->sys.spaces[MAP_OUTER];
    p->start[1] = p->start[2] = 1, p->start[3] = 2;
    p->column[0] = 2;
    p->view[0] = p->view[1] = area_m2;
    *o = (map_space){.patches = 1, .rows = 3, .start = p->start, .column = p->column, .view = p->view};
    o->area = p->rows[0], o->e = p->rows[1], o->E = p->rows[2], o->H = p->rows[3], o->dH = p->rows[4];
    o->area[0] = o->area[2] = area_m2;
    o->e[0] = emissivity, o->e[1] = o->e[2] = 1.0;
    p->patch = (map_patch){.area_m2 = area_m2, .e = emissivity};
    p->film = (map_film){.medium = SW_MEDIUM_ROOM, .h = film, .air_k = sw_k_from_c(sink_c)};
    p->matter = (map_matter){NULL, k, 1.0};
}

static sw_status make(sw_run *run, uint32_t n, plate *p)
{
    size_t nodes = (size_t)(n + 1) * (n + 1);
    sw_point *points = SW_SCRATCH(run, nodes, sw_point);
    map_system *s = &p->sys;
    *s = (map_system){.nodes = nodes, .unknowns = nodes, .bed = MAP_NONE, .walls_k = sw_k_from_c(sink_c)};
    s->x = SW_SCRATCH(run, nodes, double), s->load_w = SW_SCRATCH(run, nodes, double);
    s->triangles = SW_SCRATCH(run, 2 * (size_t)n * n, map_triangle), s->shares = SW_SCRATCH(run, nodes, map_share);
    p->held = SW_SCRATCH(run, nodes, bool);
    if (!points || !s->x || !s->load_w || !s->triangles || !s->shares || !p->held) return SW_NO_MEMORY;
    s->held = p->held, s->share_count = nodes;
    s->matters = &p->matter, s->patches = &p->patch, s->films = &p->film, s->patch_count = s->film_count = 1;
    for (uint32_t i = 0; i < nodes; i++) {
        points[i] = (sw_point){sw_mm_from_m(side_m) * (i / (n + 1)) / n, sw_mm_from_m(side_m) * (i % (n + 1)) / n};
        s->shares[i] = (map_share){i, 0, 0.0};
        p->held[i] = i / (n + 1) == n || i % (n + 1) == n;
        s->x[i] = sw_k_from_c(p->held[i] ? edge_c : 200.0);
    }
    for (uint32_t i = 0; i < n; i++)
        for (uint32_t j = 0; j < n; j++) {
            uint32_t a = i * (n + 1) + j, b = a + n + 1;
            add_triangle(p, points, a, b, b + 1);
            add_triangle(p, points, a, b + 1, a + 1);
        }
    see_room(p);
    return map_system_room(run, s);
}

/* Temperature in the middle of the whole sheet, degC. */
static double ours_c(sw_run *run, uint32_t n, double *seconds)
{
    plate p = {0};
    map_settled settled = {0};
    size_t mark = sw_arena_mark(run->scratch);
    double start_s = sw_seconds();
    sw_status status = make(run, n, &p);
    if (status == SW_OK) status = map_newton(run, &p.sys, 1e-3, &settled);
    *seconds = sw_seconds() - start_s;
    double middle_c = status == SW_OK ? sw_c_from_k(p.sys.x[0]) : (double)NAN;
    sw_arena_rewind(run->scratch, mark);
    return middle_c;
}

/* ---- ccx ---- */

static void write_deck(FILE *f, uint32_t n)
{
    uint32_t layer = (n + 1) * (n + 1);
    fprintf(f, "*NODE, NSET=NALL\n");
    for (uint32_t i = 0; i < 2 * layer; i++)
        fprintf(f, "%u, %.9g, %.9g, %g\n", i + 1, side_m * (i % layer / (n + 1)) / n,
                side_m * (i % layer % (n + 1)) / n, i < layer ? 0.0 : thickness_m);
    fprintf(f, "*ELEMENT, TYPE=C3D8, ELSET=SHEET\n");
    for (uint32_t i = 0; i < n * n; i++) {
        uint32_t a = i / n * (n + 1) + i % n + 1, b = a + n + 1;
        fprintf(f, "%u, %u, %u, %u, %u, %u, %u, %u, %u\n", i + 1, a, b, b + 1, a + 1, a + layer, b + layer,
                b + 1 + layer, a + 1 + layer);
    }
    fprintf(f, "*NSET, NSET=EDGES\n");
    for (uint32_t i = 0; i < 2 * layer; i++)
        if (i % layer / (n + 1) == n || i % layer % (n + 1) == n) fprintf(f, "%u,\n", i + 1);
    fprintf(f, "*NSET, NSET=PROBE\n%u,\n*MATERIAL, NAME=M\n*CONDUCTIVITY\n%g, 0\n", layer + 1, k);
    fprintf(f, "*SOLID SECTION, ELSET=SHEET, MATERIAL=M\n*PHYSICAL CONSTANTS, ABSOLUTE ZERO=-273.15, STEFAN "
               "BOLTZMANN=5.670374e-8\n*INITIAL CONDITIONS, TYPE=TEMPERATURE\nNALL, 200.\n*STEP, INC=200\n"
               "*HEAT TRANSFER, STEADY STATE\n1., 1.\n");
    fprintf(f, "*BOUNDARY\nEDGES, 11, 11, %g\n*DFLUX\nSHEET, S1, %g\n*FILM\nSHEET, F2, %g, %g\n", edge_c, heat_w_m2,
            sink_c, film);
    fprintf(f, "*RADIATE\nSHEET, R2, %g, %g\n*NODE PRINT, NSET=PROBE\nNT\n*END STEP\n", sink_c, emissivity);
}

static double last_number(const char *path)
{
    char line[256];
    double value = (double)NAN;
    FILE *f = fopen(path, "r");
    while (f != NULL && fgets(line, sizeof line, f) != NULL) {
        char *end = NULL;
        long node = strtol(line, &end, 10);
        if (node > 0 && end != line) value = strtod(end, NULL);
    }
    if (f != NULL) (void)fclose(f);
    return value;
}

static double theirs_c(const char *folder, uint32_t n, double *seconds)
{
    char path[512], command[768];
    snprintf(path, sizeof path, "%s/plate.inp", folder);
    FILE *f = fopen(path, "w");
    *seconds = (double)NAN;
    if (f == NULL) return (double)NAN;
    write_deck(f, n);
    (void)fclose(f);
    snprintf(command, sizeof command, "cd '%s' && OMP_NUM_THREADS=1 ccx plate >plate.log 2>&1", folder);
    double start_s = sw_seconds();
    if (system(command) != 0) return (double)NAN; /* NOLINT(cert-env33-c): a bench that runs another program */
    *seconds = sw_seconds() - start_s;
    snprintf(path, sizeof path, "%s/plate.dat", folder);
    return last_number(path);
}

int main(int argc, char **argv)
{
    const char *folder = argc > 1 ? argv[1] : ".";
    sw_run run;
    double seconds, coarse_c, fine_c;
    if (sw_run_open(&run, (size_t)2 << 30) != SW_OK) return 2;
    coarse_c = ours_c(&run, 256, &seconds);
    fine_c = ours_c(&run, 512, &seconds);
    double exact_c = fine_c + (fine_c - coarse_c) / 3.0;
    printf("middle %.5f degC (256 and 512 squares, extrapolated)\n", exact_c);
    printf("  n   map: degC   error K        s    ccx: degC   error K        s   times\n");
    for (uint32_t n = 8; n <= 128; n *= 2) {
        double ours_s, theirs_s, own = ours_c(&run, n, &ours_s), other = theirs_c(folder, n, &theirs_s);
        printf("%3u %11.5f %9.5f %8.4f %12.5f %9.5f %8.4f %7.0f\n", n, own, own - exact_c, ours_s, other,
               other - exact_c, theirs_s, theirs_s / ours_s);
    }
    sw_run_close(&run);
    return 0;
}
