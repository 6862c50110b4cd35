/* map.c: temperatures over every part: one screen of steps; each is a file. */
#include "burning/heat/map_parts.h"

#include <math.h>

static const sw_option options[] = {
    SW_OPTION(sw_heat_map_options, triangles, "", 20000.0, 500.0, 200000.0, "triangles of all parts together, about",
              "ours: sides of some 20 mm"),
    SW_OPTION(sw_heat_map_options, rays_per_triangle, "", 16.0, 1.0, 1000.0, "rays of each side of a triangle",
              "ours: some hundreds a patch of ten"),
};

const sw_option *sw_heat_map_option_table(size_t *count)
{
    *count = sizeof options / sizeof *options;
    return options;
}

sw_heat_map_options sw_heat_map_options_defaults(void)
{
    sw_heat_map_options o = {.seed = 1, .threads = 1, .made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(options, sizeof options / sizeof *options, &o);
    return o;
}

/* ---- seen by rays ---- */

static sw_status see(sw_run *run, map_job *job)
{
    scene_job *seen = &job->seen;
    SW_TRY(scene_bodies(run, seen));
    SW_TRY(scene_body_shapes(run, seen));
    SW_TRY(scene_find_flue(run, seen));
    scene_find_level(seen);
    scene_find_ducts(seen);
    SW_TRY(map_sheets(run, job));
    SW_TRY(map_facets(run, job));
    SW_TRY(scene_open_rays(run, seen));
    sw_status status = map_cast(run, job);
    rays_close(seen->rays);
    return status;
}

/* ---- solved ---- */

static const char *part_name(void *context, uint32_t node)
{
    const map_job *job = context;
    return job->part_of[node] == MAP_NONE ? "the bed of embers" : job->scene->parts[job->part_of[node]].name;
}

static void start_from(map_job *job, const sw_heat_state *state)
{
    map_system *sys = &job->sys;
    for (size_t i = 0; i < sys->nodes; i++) {
        if (i == sys->bed) {
            sys->x[i] = state->t_k[sw_heat_net_gas(job->net, SW_GAS_BED)];
            continue;
        }
        const map_sheet *s = &job->sheets[job->part_of[i]];
        bool upper = i - s->first >= s->plane.point_count;
        sys->x[i] = state->t_k[sw_heat_net_node(job->net, job->part_of[i], upper != s->body->cold_above)];
    }
    for (int g = 0; g < 2; g++) sys->x[sys->nodes + (size_t)g] = state->t_k[sw_heat_net_gas(job->net, g)];
}

static sw_status judge(sw_run *run, map_job *job, const map_settled *s, double enough_w)
{
    const map_system *sys = &job->sys;
    double whole_w = job->net->now.heat_w - sys->useful_w - sys->flue_w;
    if (s->left_w <= enough_w && fabs(whole_w) <= enough_w) return SW_OK;
    const char *where = s->worst < sys->nodes ? part_name(job, (uint32_t)s->worst) : "the gas";
    return sw_fail(run, SW_NO_SOLUTION, (sw_place){0}, "heat map",
                   "temperatures not settled after %d rounds: %.3g W left (want %.3g), most of it %.3g W at %s, %.3g W "
                   "over the whole of %.4g W; nothing of it is a result",
                   s->rounds, s->left_w, enough_w, s->worst_w, where, whole_w, job->net->now.heat_w);
}

/* ---- told ---- */

static sw_status tell_part(sw_run *run, const map_job *job, size_t part, sw_heat_map_part *out)
{
    const map_sheet *s = &job->sheets[part];
    size_t n = s->plane.point_count, low = s->body->layered && s->body->cold_above ? n : 0;
    const double *x = &job->sys.x[s->first];
    *out = (sw_heat_map_part){.part = part, .mean_k = x[0], .most_k = x[0], .hottest = s->body->frame.origin};
    if (n == 0) return SW_OK;
    sw_vec3 *points = SW_KEEP(run, n, sw_vec3);
    sw_point *flat = SW_KEEP(run, n, sw_point);
    sw_triangle *triangles = SW_KEEP(run, s->plane.triangle_count, sw_triangle);
    double *t_k = SW_KEEP(run, n, double), *hot_k = s->body->layered ? SW_KEEP(run, n, double) : NULL;
    if (points == NULL || flat == NULL || triangles == NULL || t_k == NULL) return SW_NO_MEMORY;
    if (s->body->layered && hot_k == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) {
        points[i] = s->points[i];
        flat[i] = s->plane.points[i];
        t_k[i] = x[low + i];
        if (hot_k != NULL) hot_k[i] = x[n - low + i];
        double most_k = hot_k != NULL ? fmax(hot_k[i], t_k[i]) : t_k[i];
        if (i == 0 || most_k > out->most_k) out->most_k = most_k, out->hottest = points[i];
    }
    for (size_t i = 0; i < s->plane.triangle_count; i++) triangles[i] = s->plane.triangles[i];
    out->mesh = (sw_mesh){points, n, triangles, s->plane.triangle_count};
    out->flat = flat;
    out->hot_above = !s->body->cold_above;
    out->t_k = t_k;
    out->hot_k = hot_k;
    return SW_OK;
}

/* Over the area; of a lining, both sides. */
static double mean_k(const map_job *job, const map_sheet *s)
{
    double sum = 0.0, area = 0.0;
    for (uint32_t i = s->facet; i < s->facet + s->facets; i++) {
        const map_facet *f = &job->facets[i];
        for (uint32_t k = 0; f->side != 0 && k < 3; k++) sum += f->area_m2 / 3.0 * job->sys.x[f->node[k]];
        area += f->side != 0 ? f->area_m2 : 0.0;
    }
    return area > 0.0 ? sum / area : job->sys.x[s->first];
}

static sw_status tell(sw_run *run, const map_job *job, const map_settled *s, sw_heat_map *map)
{
    const map_system *sys = &job->sys;
    sw_heat_map_part *parts = SW_KEEP(run, job->scene->part_count + 1, sw_heat_map_part);
    if (parts == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->scene->part_count; i++) {
        SW_TRY(tell_part(run, job, i, &parts[i]));
        parts[i].mean_k = mean_k(job, &job->sheets[i]);
        map->triangles += job->sheets[i].plane.triangle_count;
    }
    map->parts = parts;
    map->part_count = job->scene->part_count;
    map->useful_w = sys->useful_w;
    map->flue_w = sys->flue_w;
    map->residual_w = job->net->now.heat_w - sys->useful_w - sys->flue_w;
    map->flue_k = job->net->flows.flue_k;
    map->firebox_k = sys->x[sys->nodes];
    map->preheat_w = job->net->flows.preheat_w;
    map->leaving_k = job->net->flows.leaving_k;
    map->upper_k = sys->x[sys->nodes + 1];
    map->gap_out_k = sys->gap_out_k;
    map->hot_balance = job->net->now.heat_w > 0.0 ? fabs(map->residual_w) / job->net->now.heat_w : 0.0;
    map->rounds = s->rounds;
    return SW_OK;
}

/* ---- all ---- */

static void tell_step(sw_run *run, int done, const char *next)
{
    enum { STEPS = 5 };
    sw_run_progress(run, "surface map", done, STEPS, next);
}

sw_status map_make(sw_run *run, map_job *job)
{
    SW_TRY(see(run, job));
    tell_step(run, 1, "mesh");
    SW_TRY(map_patches(run, job));
    tell_step(run, 2, "who sees whom");
    SW_TRY(map_views(run, job));
    tell_step(run, 3, "links");
    SW_TRY(map_links(run, job));
    SW_TRY(map_fill(run, job));
    tell_step(run, 4, "balance");
    return map_check_ways(run, &job->sys, part_name, job);
}

static sw_status solve(sw_run *run, map_job *job, const sw_heat_state *state, sw_heat_map *map)
{
    static const double closed = 1e-3, least_w = 0.1;
    map_settled settled;
    SW_TRY(map_make(run, job));
    start_from(job, state);
    double enough_w = fmax(closed * job->net->now.heat_w, least_w);
    SW_TRY(map_newton(run, &job->sys, enough_w, &settled));
    SW_TRY(judge(run, job, &settled, enough_w));
    return tell(run, job, &settled, map);
}

/* NOLINTNEXTLINE(readability-function-size): what a stove, its scene and a moment are */
sw_status sw_heat_map_solve(sw_run *run, const sw_stove *stove, const sw_sheet_result *sheet, const sw_scene *scene,
                            const sw_heat_model *model, const sw_heat_fire *fire, const sw_heat_room *room,
                            const sw_heat_map_options *opt, const sw_heat_map **map)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    sw_scene_options scene_opt = sw_scene_options_defaults();
    sw_heat_state state = {0};
    map_job job = {.stove = stove, .result = sheet, .scene = scene, .opt = opt};
    job.seen = (scene_job){.stove = stove, .sheet = sheet, .opt = &scene_opt, .scene = &job.own};
    *map = NULL;
    SW_TRY(sw_options_check(run, options, sizeof options / sizeof *options, opt));
    SW_TRY(sw_heat_net_make(run, scene, model, &job.net));
    SW_TRY(sw_heat_net_steady(run, job.net, fire, room, &state));
    sw_heat_map *made = SW_KEEP(run, 1, sw_heat_map);
    if (made == NULL) return SW_NO_MEMORY;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = solve(run, &job, &state, made);
    sw_arena_rewind(run->scratch, mark);
    if (status == SW_OK) *map = made;
    return status;
}
