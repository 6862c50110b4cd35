/* bench_scene.c: time and make-up of the heat scene of a described stove.
 *   bench_scene [STOVE.lua WORKS.lua [list] [RAYS_PER_PART]]   without: the demo's stove (a)
 * list: parts with their surfaces by medium, contacts and measures, to be looked through by eye. */
#include "burning/heat/heat.h"
#include "design/design.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { ROUNDS = 20 };

static const char *const media[] = {"FIRE", "UPPER", "GAP", "ROOM"};
static const char *const classes[] = {"wall",  "lining", "baffle", "grate",  "pane", "door",
                                      "shell", "base",   "handle", "airway", "small"};

static void list_parts(const sw_scene *s)
{
    for (size_t p = 0; p < s->part_count; p++) {
        const sw_scene_part *q = &s->parts[p];
        printf("%2zu %-24s %-7s %6.2f kg %6.4f m2 %4.1f mm\n", p, q->name, classes[q->kind], q->mass_kg, q->area_m2,
               sw_mm_from_m(q->thickness_m));
        for (size_t i = 0; i < s->surface_count; i++) {
            const sw_scene_surface *f = &s->surfaces[i];
            if (f->part != p) continue;
            printf("     %-5s %s %.4f m2, high %.3f, side %.2f up %.2f down %.2f, z %.3f, e %.2f, room %.3f\n",
                   media[f->medium], q->layered ? f->hot_side ? "hot " : "cold" : "    ", f->area_m2, f->height_m,
                   f->side, f->up, f->down, f->middle_z_m, f->emissivity,
                   s->view_m2[i * (s->surface_count + 1) + s->surface_count] / f->area_m2);
        }
    }
}

static void list_contacts(const sw_scene *s)
{
    for (size_t i = 0; i < s->contact_count; i++) {
        const sw_scene_contact *c = &s->contacts[i];
        printf("   %-24s %-24s %7.1f cm2 gap %.2f mm edge %.3f m\n", s->parts[c->a].name, s->parts[c->b].name,
               sw_mm2_from_m2(c->area_m2) / 100.0, sw_mm_from_m(c->gap_m), c->edge_m);
    }
}

static void list_measures(const sw_scene *s)
{
    printf("firebox %.5f m3 %.4f m2 bed %.4f m2 at %.3f m; upper %.5f m3 %.4f m2\n", s->firebox_m3, s->firebox_m2,
           s->base_m2, s->bed_height_m, s->upper_m3, s->upper_m2);
    printf("throat %.5f m2 at %.3f m; collar %.5f m2 (%.1f mm) at %.3f m\n", s->throat_m2, s->throat_height_m,
           s->collar_m2, sw_mm_from_m(2.0 * sqrt(s->collar_m2 / SW_PI)), s->collar_height_m);
    printf("gap %.3f m high %.4f m wide %.4f m2, in %.4f out %.4f m2\n", s->gap_height_m, s->gap_width_m, s->gap_m2,
           s->gap_in_m2, s->gap_out_m2);
    printf("%zu parts %zu surfaces %zu contacts, %llu rays, closure %.2e\n", s->part_count, s->surface_count,
           s->contact_count, (unsigned long long)s->rays, s->closure);
    for (size_t i = 0; i < s->findings.count; i++)
        printf("finding %s, %s: %s\n", s->findings.items[i].check, s->findings.items[i].where,
               s->findings.items[i].what);
}

static sw_status bench(sw_run *run, const char *stove, const char *works, double rays, bool list)
{
    const sw_model *model = NULL;
    const sw_sheet_result *sheet = NULL;
    const sw_scene *scene = NULL;
    sw_sheet_options sheet_opt = sw_sheet_options_defaults();
    sw_scene_options opt = sw_scene_options_defaults();
    if (rays > 0.0) opt.rays_per_part = rays;
    SW_TRY(sw_design_read(run, &(sw_design_input){.stove_path = stove, .works_path = works}, &model));
    SW_TRY(sw_sheet_solve(run, model, &sheet_opt, &sheet));
    double best_s = (double)INFINITY, cpu_s = 0.0;
    for (int i = 0; i < (list ? 1 : ROUNDS); i++) {
        size_t mark = sw_arena_mark(run->keep);
        double start_s = sw_seconds();
        clock_t cpu = clock();
        SW_TRY(sw_scene_make(run, model->stove, sheet, &opt, &scene));
        best_s = fmin(best_s, sw_seconds() - start_s);
        cpu_s += (double)(clock() - cpu) / CLOCKS_PER_SEC / ROUNDS;
        if (list) list_parts(scene), list_contacts(scene), list_measures(scene);
        sw_arena_rewind(run->keep, mark);
    }
    printf("what,best_ms,mean_cpu_ms\nscene,%.3f,%.3f\n", best_s * 1e3, cpu_s * 1e3);
    return SW_OK;
}

int main(int argc, char **argv)
{
    const char *stove = argc > 1 ? argv[1] : SW_SOURCE_DIR "/demo/a.stove.lua";
    const char *works = argc > 2 ? argv[2] : SW_SOURCE_DIR "/demo/demo.works.lua";
    sw_run run;
    if (sw_run_open(&run, (size_t)1 << 30) != SW_OK) return 3;
    bool list = argc > 3 && strcmp(argv[3], "list") == 0;
    double rays = argc > 3 ? strtod(argv[argc - 1], NULL) : 0.0;
    sw_status status = bench(&run, stove, works, rays, list);
    for (size_t i = 0; i < run.error_count && i < 5; i++) fprintf(stderr, "%s\n", run.errors[i].text);
    sw_run_close(&run);
    return status == SW_OK ? 0 : 3;
}
