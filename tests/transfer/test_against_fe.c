/* Our formulas against the recorded answers of an independent finite-element program: tests/heat_decks. */
#include "sw_test.h"
#include "transfer/transfer.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- the record ------------------------------------------------------------------------------------------------ */

/* Line number `at` (from 0) of a deck in reference.txt: "deck what place value". NAN when there is none. */
static double recorded(sw_test *t, const char *deck, size_t at)
{
    const char *text = NULL;
    size_t length = 0;
    if (!sw_ok(t, sw_file_read(&t->run, SW_SOURCE_DIR "/tests/heat_decks/reference.txt", 1 << 20, &text, &length)))
        return NAN;
    for (const char *line = text; line != NULL && *line != '\0'; line = strchr(line, '\n')) {
        if (*line == '\n') line++;
        char name[64], what[64], place[64];
        double value = NAN;
        if (sscanf(line, "%63s %63s %63s %lf", name, what, place, &value) != 4 || strcmp(name, deck) != 0) continue;
        if (at-- == 0) return value;
    }
    return NAN;
}

/* ---- conduction -------------------------------------------------------------------------------------------------- */

static void a_layered_wall_takes_the_temperatures_of_the_deck(sw_test *t)
{
    double r[5] = {1.0 / 40, 0.025 / 0.18, 0.02, 0.004 / 45, 1.0 / 18}, sum = 0, t_c = 800;
    for (size_t i = 0; i < 5; i++) sum += r[i];
    for (size_t i = 0; i < 4; i++) {
        t_c -= r[i] * (800 - 20) / sum;
        sw_near(t, t_c, recorded(t, "layered_wall", i), 1e-3, "deck layered_wall (the wall of handbook E18)");
    }
}

static void a_lining_that_conducts_better_when_hot_is_exact_at_its_mean(sw_test *t)
{
    double mean_k = 0.14 + 1e-4 * (700 + 200) / 2, q = mean_k * (700 - 200) / 0.030;
    sw_near(t, q, recorded(t, "rising_lining", 0) / 1e-4, 0.05, "deck rising_lining: k at the mean of the faces");
}

static void a_lining_heated_from_one_side_follows_the_series(sw_test *t)
{
    double bi = 30 * 0.025 / 0.18, a = 0.18 / (700.0 * 900.0), fo = a / (0.025 * 0.025);
    static const double when_s[2] = {300, 1800};
    for (size_t i = 0; i < 2; i++)
        for (size_t face = 0; face < 2; face++) {
            double theta = sw_slab_theta(bi, fo * when_s[i], (double)face);
            sw_near(t, 700 + (20 - 700) * theta, recorded(t, "lining_heating", 2 * i + face), 0.25,
                    "deck lining_heating (the lining of handbook E21)");
        }
}

static void a_heated_sheet_follows_the_series(sw_test *t)
{
    static const double at[3][2] = {{0.5, 0.5}, {0.25, 0.25}, {0.5, 0.25}};
    double scale_k = 5000 * 0.4 * 0.4 / (45 * 0.003), m2 = 15 * 0.4 * 0.4 / (45 * 0.003);
    for (size_t i = 0; i < 3; i++) {
        double bare = scale_k * sw_plate_flux_series(at[i][0], at[i][1], 0);
        double losing = scale_k * sw_plate_flux_series(at[i][0], at[i][1], m2);
        sw_near(t, 100 + bare, recorded(t, "heated_sheet", i), 0.001 * bare, "deck heated_sheet");
        sw_near(t, 100 + losing, recorded(t, "losing_sheet", i), 0.001 * losing, "deck losing_sheet (handbook E23)");
    }
}

/* ---- radiation between facets -------------------------------------------------------------------------------------- */

enum { MOST = 6 * 8 * 8 + 1 };

typedef struct facet {
    int axis;             /* of its normal */
    double at;            /* on that axis */
    double low[3], up[3]; /* on the two others */
} facet;

static double face_m2(const facet *f)
{
    int u = (f->axis + 1) % 3, v = (f->axis + 2) % 3;
    return (f->up[u] - f->low[u]) * (f->up[v] - f->low[v]);
}

/* A F of two aligned rectangles from (0, 0), and of floor x y and wall x z with the common edge x; even in x. */
static double parallel_m2(double x, double y, double apart)
{
    x = fabs(x), y = fabs(y);
    return x < 1e-12 || y < 1e-12 ? 0 : x * y * sw_view_parallel(x, y, apart);
}

static double corner_m2(double x, double y, double z)
{
    x = fabs(x);
    return x < 1e-12 || y < 1e-12 || z < 1e-12 ? 0 : x * y * sw_view_corner(x, y, z);
}

/* The double integral of an even g(u1 - u2) over [a0, a1] x [b0, b1] by that over [0, X]2: the four signed distances. */
static double distance(const facet *p, const facet *q, int axis, int k)
{
    return (k < 2 ? p->up[axis] : p->low[axis]) - (k % 2 == 0 ? q->low[axis] : q->up[axis]);
}

static double sign_of(int k)
{
    return k == 0 || k == 3 ? 0.5 : -0.5;
}

static double opposite_m2(const facet *p, const facet *q)
{
    int u = (p->axis + 1) % 3, v = (p->axis + 2) % 3;
    double sum = 0, apart = fabs(p->at - q->at);
    for (int i = 0; i < 4; i++)
        for (int k = 0; k < 4; k++)
            sum += sign_of(i) * sign_of(k) * parallel_m2(distance(p, q, u, i), distance(p, q, v, k), apart);
    return sum;
}

/* p's distance from the edge runs along q's normal and the other way round. */
static double square_m2(const facet *p, const facet *q)
{
    int common = 3 - p->axis - q->axis;
    double y0 = fabs(p->low[q->axis] - q->at), y1 = fabs(p->up[q->axis] - q->at);
    double z0 = fabs(q->low[p->axis] - p->at), z1 = fabs(q->up[p->axis] - p->at), sum = 0;
    for (int i = 0; i < 4; i++) {
        double x = distance(p, q, common, i);
        double one = corner_m2(x, fmax(y0, y1), fmax(z0, z1)) + corner_m2(x, fmin(y0, y1), fmin(z0, z1));
        sum += sign_of(i) * (one - corner_m2(x, fmin(y0, y1), fmax(z0, z1)) - corner_m2(x, fmax(y0, y1), fmin(z0, z1)));
    }
    return sum;
}

static double exchange_m2(const facet *p, const facet *q)
{
    if (p->axis != q->axis) return square_m2(p, q);
    return p->at == q->at ? 0 : opposite_m2(p, q);
}

typedef struct room {
    facet facets[MOST];
    double F[MOST * MOST], area_m2[MOST], emissivity[MOST], t_k[MOST], q[MOST], J[MOST];
    bool known_t[MOST];
    sw_enclosure e;
    size_t side; /* facets along each side of a wall */
} room;

/* A wall of side x side facets normal to `axis`; u runs slowly, as the deck numbers them. */
static void add_wall(room *r, int axis, double at, int u, const double *size)
{
    int v = 3 - axis - u;
    double step_u = size[u] / (double)r->side, step_v = size[v] / (double)r->side;
    for (size_t i = 0; i < r->side; i++)
        for (size_t k = 0; k < r->side; k++) {
            facet *f = &r->facets[r->e.n++];
            f->axis = axis, f->at = at;
            f->low[u] = step_u * (double)i, f->up[u] = step_u * (double)(i + 1);
            f->low[v] = step_v * (double)k, f->up[v] = step_v * (double)(k + 1);
        }
}

static void open_room(room *r, size_t side)
{
    *r = (room){.e = {.n = 0}, .side = side};
    r->e.F = r->F, r->e.area_m2 = r->area_m2, r->e.emissivity = r->emissivity, r->e.known_t = r->known_t;
    r->e.t_k = r->t_k, r->e.q = r->q, r->e.J = r->J;
}

/* View factors of the facets in a matrix of `rows` rows. */
static void see(room *r, size_t rows)
{
    for (size_t i = 0; i < r->e.n; i++) {
        r->area_m2[i] = face_m2(&r->facets[i]);
        for (size_t k = 0; k < r->e.n; k++)
            r->F[i * rows + k] = exchange_m2(&r->facets[i], &r->facets[k]) / r->area_m2[i];
    }
}

static void open_box(room *r, size_t side)
{
    static const double size[3] = {0.40, 0.30, 0.40};
    open_room(r, side);
    add_wall(r, 2, 0, 1, size);       /* floor */
    add_wall(r, 2, size[2], 0, size); /* top */
    add_wall(r, 1, 0, 0, size);       /* front */
    add_wall(r, 1, size[1], 2, size); /* back */
    add_wall(r, 0, 0, 2, size);       /* left */
    add_wall(r, 0, size[0], 1, size); /* right */
    see(r, r->e.n);
}

static double wall_w(const room *r, size_t wall)
{
    double sum = 0;
    for (size_t i = 0; i < r->side * r->side; i++) {
        size_t k = wall * r->side * r->side + i;
        sum += r->area_m2[k] * r->q[k];
    }
    return sum;
}

static void hold(room *r, size_t wall, double t_c, double emissivity)
{
    size_t count = r->side * r->side;
    for (size_t i = wall * count; i < (wall + 1) * count; i++)
        r->known_t[i] = true, r->t_k[i] = sw_k_from_c(t_c), r->emissivity[i] = emissivity;
}

static void a_box_of_six_held_walls_exchanges_what_the_deck_says(sw_test *t)
{
    static const double t_c[6] = {900, 600, 450, 700, 650, 750}, e[6] = {0.9, 0.8, 0.85, 0.7, 0.6, 0.5};
    room *r = SW_SCRATCH(&t->run, 1, room);
    if (!sw_true(t, r != NULL)) return;
    open_box(r, 8);
    for (size_t i = 0; i < 6; i++) hold(r, i, t_c[i], e[i]);
    if (!sw_ok(t, sw_enclosure_solve(&t->run, &r->e))) return;
    for (size_t i = 0; i < 6; i++) /* the deck's own view factors leave its sum 9 W from nothing */
        sw_near(t, wall_w(r, i), recorded(t, "box_of_six", i), 8, "deck box_of_six");
}

static void insulated_walls_of_a_firebox_take_the_temperatures_of_the_deck(sw_test *t)
{
    room *r = SW_SCRATCH(&t->run, 1, room);
    if (!sw_true(t, r != NULL)) return;
    open_box(r, 4);
    for (size_t i = 0; i < r->e.n; i++) r->emissivity[i] = 0.9;
    hold(r, 0, 900, 0.9), hold(r, 2, 450, 0.9);
    if (!sw_ok(t, sw_enclosure_solve(&t->run, &r->e))) return;
    sw_near(t, wall_w(r, 0), recorded(t, "firebox", 0), 45, "deck firebox: 1 %, its own sum is 52 W off");
    sw_near(t, wall_w(r, 2), recorded(t, "firebox", 1), 45, "deck firebox");
    sw_near(t, wall_w(r, 0), -wall_w(r, 2), 1e-7, "law: what the embers lose the front gains");
    double squares = 0;
    for (size_t i = 0, at = 2; i < r->e.n; i++) {
        if (r->known_t[i]) continue;
        double off_k = sw_c_from_k(r->t_k[i]) - recorded(t, "firebox", at++);
        squares += off_k * off_k;
    }
    sw_near(t, sqrt(squares / (4.0 * 16.0)), 0, 1.5, "deck firebox: temperatures of 64 facets, root mean square");
}

/* The room round the plates as one black surface far larger than they. */
static void add_surroundings(room *r, double area_m2, double t_c)
{
    size_t n = r->e.n, rows = n + 1;
    r->area_m2[n] = area_m2, r->emissivity[n] = 1, r->known_t[n] = true, r->t_k[n] = sw_k_from_c(t_c);
    r->F[n * rows + n] = 1;
    for (size_t i = 0; i < n; i++) {
        double seen = 0;
        for (size_t k = 0; k < n; k++) seen += r->F[i * rows + k];
        r->F[i * rows + n] = 1 - seen;
        r->F[n * rows + i] = (1 - seen) * r->area_m2[i] / area_m2;
        r->F[n * rows + n] -= r->F[n * rows + i];
    }
    r->e.n++;
}

static void two_plates_in_the_open_exchange_what_the_deck_says(sw_test *t)
{
    static const double size[3] = {0.4, 0.4, 0.1};
    room *r = SW_SCRATCH(&t->run, 1, room);
    if (!sw_true(t, r != NULL)) return;
    open_room(r, 8);
    add_wall(r, 2, 0, 1, size), add_wall(r, 2, size[2], 0, size);
    see(r, r->e.n + 1);
    add_surroundings(r, 100, 20);
    hold(r, 0, 500, 0.8), hold(r, 1, 100, 0.6);
    if (!sw_ok(t, sw_enclosure_solve(&t->run, &r->e))) return;
    sw_near(t, wall_w(r, 0), recorded(t, "two_plates", 0), 0.003 * 2151, "deck two_plates");
    sw_near(t, wall_w(r, 1), recorded(t, "two_plates", 1), 0.007 * 941, "deck two_plates");
}

static void facets_of_a_box_see_all_of_it(sw_test *t)
{
    room *r = SW_SCRATCH(&t->run, 1, room);
    if (!sw_true(t, r != NULL)) return;
    open_box(r, 4);
    for (size_t i = 0; i < r->e.n; i++) {
        double sum = 0;
        for (size_t k = 0; k < r->e.n; k++) sum += r->F[i * r->e.n + k];
        if (!sw_near(t, sum, 1, 1e-9, "law: rows sum to one")) return;
    }
}

SW_TESTS(SW_CASE(a_layered_wall_takes_the_temperatures_of_the_deck),
         SW_CASE(a_lining_that_conducts_better_when_hot_is_exact_at_its_mean),
         SW_CASE(a_lining_heated_from_one_side_follows_the_series), SW_CASE(a_heated_sheet_follows_the_series),
         SW_CASE(facets_of_a_box_see_all_of_it), SW_CASE(a_box_of_six_held_walls_exchanges_what_the_deck_says),
         SW_CASE(insulated_walls_of_a_firebox_take_the_temperatures_of_the_deck),
         SW_CASE(two_plates_in_the_open_exchange_what_the_deck_says))
