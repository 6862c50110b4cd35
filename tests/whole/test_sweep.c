/* Many designs in one command: the same numbers on any number of threads, and wrong axes told. */
#include "app/sweep.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

static sw_request request_of(const char *first, const char *second, const char *report, double threads)
{
    return (sw_request){.command = "sweep",
                        .words = {SW_SOURCE_DIR "/demo/a.stove.lua"},
                        .word_count = 1,
                        .axes = {first, second},
                        .axis_count = second == NULL ? 1 : 2,
                        .report = report,
                        .batch = 1,
                        .seed = 1,
                        .threads = threads,
                        .memory_mb = 512};
}

static double *solved(sw_test *t, const sw_request *request, sw_sweep *s, size_t *failed)
{
    const char *why = "";
    if (!sw_ok(t, sw_sweep_read(&t->run, request, s))) return NULL;
    double *values = SW_KEEP(&t->run, s->designs * s->quantity_count, double);
    return values != NULL && sw_ok(t, sw_sweep_solve(&t->run, s, values, failed, &why)) ? values : NULL;
}

static void threads_change_no_bit(sw_test *t)
{
    sw_request one = request_of("draught_pa=8:16:3", "lining=24mm:30mm:2", "output_kw,flue_c,shell_c", 1), two = one;
    two.threads = 2;
    sw_sweep a, b;
    size_t failed = 0;
    double *first = solved(t, &one, &a, &failed), *second = solved(t, &two, &b, &failed);
    if (first == NULL || second == NULL) return;
    sw_true(t, failed == 0 && a.designs == 6 && memcmp(first, second, 18 * sizeof *first) == 0);
    sw_same_text(t, a.axes[0].name, "lining"); /* geometry changes least often */
}

static void a_design_is_what_the_study_of_it_alone_says(sw_test *t)
{
    sw_request q = request_of("draught_pa=15:15:1", NULL, "flue_c,lambda", 1), alone = q;
    sw_sweep s;
    size_t failed = 0;
    sw_dossier d;
    double *values = solved(t, &q, &s, &failed);
    if (values == NULL) return;
    alone.conditions[alone.condition_count++] = "draught_pa=15";
    if (!sw_ok(t, sw_dossier_make(&t->run, &alone, SW_DO_BURN, "", &d))) return;
    sw_near(t, values[0], sw_c_from_k(d.burned->point->flue_k), 1e-6, "the same computation");
    sw_near(t, values[1], d.burned->point->lambda, 1e-9, "the same computation");
}

static void designs_without_an_answer_are_counted_and_told(sw_test *t)
{
    sw_request q = request_of("lining=24mm:48mm:3", NULL, "sheet_kg", 1);
    sw_sweep s;
    size_t failed = 0;
    double *values = solved(t, &q, &s, &failed);
    if (values == NULL) return;
    sw_true(t, failed == 2 && isfinite(values[0]) && isnan(values[1]) && isnan(values[2]));
}

/* A thousand geometries: most are laid between the computed ones, and each of those asked is where it would be computed. */
static void of_many_geometries_most_lie_between_computed_ones(sw_test *t)
{
    sw_request q = request_of("lining=24mm:30mm:40", "convection_gap=36mm:50mm:25", "efficiency,flue_c,mass_kg", 2);
    sw_request one = request_of("lining=27.2307692308mm:27.2307692308mm:1", "convection_gap=41.25mm:41.25mm:1",
                                "efficiency,flue_c,mass_kg", 1);
    sw_sweep s, alone;
    sw_sweep_surface surface;
    size_t failed = 0;
    const char *why = "";
    if (!sw_ok(t, sw_sweep_read(&t->run, &q, &s))) return;
    double *values = SW_KEEP(&t->run, s.designs * s.quantity_count, double);
    if (!sw_ok(t, sw_sweep_solve_between(&t->run, &s, values, &failed, &why, &surface))) return;
    sw_true(t, surface.degree > 0 && surface.computed < 150 && surface.held > 10 && failed == 0);
    double *computed = solved(t, &one, &alone, &failed);
    if (computed == NULL) return;
    const double *between = &values[(21 * 25 + 9) * s.quantity_count];
    sw_near(t, sw_sweep_value(&s, 0, 21 * 25 + 9), 27.2307692308, 1e-9, "derived: step 21 of 39");
    sw_near(t, between[0], computed[0], 0.5, "what the surface may miss");
    sw_near(t, between[1], computed[1], 3.0, "what the surface may miss");
    sw_near(t, between[2], computed[2], 0.01 * computed[2], "what the surface may miss");
}

typedef struct listener { /* who has heard enough */
    atomic_int enough;
    double total; /* designs to compute, as told first */
} listener;

static void hear(void *context, const sw_progress *progress)
{
    listener *l = context;
    if (atomic_exchange(&l->enough, 1) == 0) l->total = progress->total;
}

/* Of so many geometries a surface would be laid otherwise. That each is to be computed is told with the first of them. */
static void all_asks_for_each_design(sw_test *t)
{
    enum { DESIGNS = 1000 };
    sw_request q = request_of("lining=24mm:30mm:1000", NULL, "mass_kg", 2);
    listener l = {0};
    sw_sweep s;
    sw_sweep_surface surface;
    size_t failed = 0;
    const char *why = "";
    if (!sw_ok(t, sw_sweep_read(&t->run, &q, &s))) return;
    double *values = SW_KEEP(&t->run, s.designs, double);
    if (!sw_ok(t, sw_sweep_solve_between(&t->run, &s, values, &failed, &why, &surface))) return;
    sw_true(t, surface.degree > 0 && surface.computed < DESIGNS / 2 && failed == 0);
    q.all = true;
    t->run.on_progress = hear;
    t->run.progress_context = &l;
    t->run.cancel = &l.enough;
    sw_true(t, sw_sweep_solve_between(&t->run, &s, values, &failed, &why, &surface) == SW_CANCELLED);
    sw_true(t, l.total == DESIGNS && surface.degree == 0);
}

static void wrong_axes_and_quantities_are_refused(sw_test *t)
{
    static const char *const wrong[][2] = {{"lining=24mm:30:3", "flue_c"},     {"lining=24mm:30mm:0", "flue_c"},
                                           {"lining=24mm:30mm:2.5", "flue_c"}, {"lining=:30mm:2", "flue_c"},
                                           {"lining=24mm", "flue_c"},          {"draught_pa=8:16:99999999", "flue_c"},
                                           {"draught_pa=8:16:3", "flu_c"},     {"draught_pa=nan:16:3", "flue_c"}};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        sw_request q = request_of(wrong[i][0], NULL, wrong[i][1], 1);
        sw_sweep s;
        sw_true(t, sw_sweep_read(&t->run, &q, &s) == SW_BAD_INPUT && t->run.error_count > 0);
        sw_run_clear_errors(&t->run);
    }
}

static void a_wider_firebox_costs_more_and_says_so(sw_test *t)
{
    sw_request q = request_of("firebox_width=360mm:430mm:2", NULL, "cost,sheet_cost,weld_m,mass_kg", 1), alone = q;
    sw_sweep s;
    size_t failed = 0;
    sw_dossier d;
    q.works = alone.works = SW_SOURCE_DIR "/demo/demo.works.lua";
    q.batch = alone.batch = 20;
    double *values = solved(t, &q, &s, &failed);
    if (values == NULL) return;
    sw_true(t, failed == 0);
    for (size_t k = 0; k < 4; k++) sw_true(t, values[4 + k] > values[k]);
    unsigned work = SW_DO_HEFT | SW_DO_NEST | SW_DO_CUT | SW_DO_FORM | SW_DO_JOIN | SW_DO_COAT | SW_DO_LINE;
    if (!sw_ok(t, sw_dossier_make(&t->run, &alone, work, "", &d))) return;
    sw_near(t, values[0], d.shop.line->cost.base, 1e-9, "the same computation");
}

static void costs_without_a_works_are_refused(sw_test *t)
{
    sw_request q = request_of("firebox_width=360mm:430mm:2", NULL, "cost", 1);
    sw_sweep s;
    sw_true(t, sw_sweep_read(&t->run, &q, &s) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "add --works FILE");
}

SW_TESTS(SW_CASE(a_wider_firebox_costs_more_and_says_so), SW_CASE(costs_without_a_works_are_refused),
         SW_CASE(threads_change_no_bit), SW_CASE(a_design_is_what_the_study_of_it_alone_says),
         SW_CASE(designs_without_an_answer_are_counted_and_told),
         SW_CASE(of_many_geometries_most_lie_between_computed_ones), SW_CASE(all_asks_for_each_design),
         SW_CASE(wrong_axes_and_quantities_are_refused))
