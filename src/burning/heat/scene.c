/* scene.c: the stove as heat sees it: parts, what each shows to fire, gap and room, and how these see and touch each
 * other. One screen of steps; each is a file. */
#include "burning/heat/scene_parts.h"

static const sw_option options[] = {
    SW_OPTION(sw_scene_options, rays_per_part, "", 400.0, 50.0, 50000.0,
              "rays of a part on average; larger parts cast more", "ours: views good to some per cent"),
    SW_OPTION(sw_scene_options, layered_above_m, "m", 0.010, 0.001, 0.1,
              "insulating parts thicker than this have a temperature on each side",
              "ours: lining boards are 20 to 40 mm, glass is 4 mm"),
    SW_OPTION(sw_scene_options, contact_below_m, "m", 0.003, 0.0001, 0.01,
              "surfaces nearer to each other than this conduct and do not radiate",
              "ours: joints of lining are 1 to 2 mm, rope beds 2 to 3 mm"),
};

const sw_option *sw_scene_option_table(size_t *count)
{
    *count = sizeof options / sizeof *options;
    return options;
}

sw_scene_options sw_scene_options_defaults(void)
{
    sw_scene_options o = {.seed = 1, .made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(options, sizeof options / sizeof *options, &o);
    return o;
}

/* The rays are open. */
static sw_status seen(sw_run *run, scene_job *job)
{
    scene_look_into_flue(job);
    SW_TRY(scene_samples(run, job));
    SW_TRY(scene_cells_make(run, job));
    SW_TRY(scene_surfaces(run, job));
    SW_TRY(scene_views(run, job));
    SW_TRY(scene_contacts(run, job));
    SW_TRY(scene_ways(run, job));
    scene_spaces(job);
    scene_gap(job);
    SW_TRY(scene_throat(run, job));
    return scene_findings(run, job);
}

/* ---- solids drawn in by a little ---- */

typedef struct corner { /* of a solid: the directions that its faces there look in */
    sw_vec3 normal[3];
    int count;
} corner;

static void note_face(corner *c, sw_vec3 normal)
{
    const double the_same = 0.9; /* cosine: facets of one bend */
    for (int i = 0; i < c->count; i++)
        if (sw_vec3_dot(c->normal[i], normal) > the_same) return;
    if (c->count < 3) c->normal[c->count++] = normal;
}

static void note_faces(const sw_mesh *m, corner *corners)
{
    for (size_t i = 0; i < m->triangle_count; i++) {
        const sw_triangle *t = &m->triangles[i];
        sw_vec3 a = m->points[t->a];
        sw_vec3 n = sw_vec3_cross(sw_vec3_sub(m->points[t->b], a), sw_vec3_sub(m->points[t->c], a));
        double twice = sw_vec3_length(n);
        if (!(twice > 0.0)) continue;
        n = sw_vec3_scaled(n, 1.0 / twice);
        note_face(&corners[t->a], n);
        note_face(&corners[t->b], n);
        note_face(&corners[t->c], n);
    }
}

/* Where one solid stands on another their skins are one plane, and a ray from within would meet either: so each is drawn in. */
static sw_status drawn_in(sw_run *run, const sw_mesh *m, sw_mesh *out)
{
    sw_vec3 *points = SW_SCRATCH(run, m->point_count + 1, sw_vec3);
    corner *corners = SW_SCRATCH(run, m->point_count + 1, corner);
    *out = *m;
    out->points = points;
    if (points == NULL || corners == NULL) return SW_NO_MEMORY;
    note_faces(m, corners);
    for (size_t i = 0; i < m->point_count; i++) {
        points[i] = m->points[i];
        for (int k = 0; k < corners[i].count; k++)
            points[i] = sw_vec3_sub(points[i], sw_vec3_scaled(corners[i].normal[k], SCENE_DRAWN_IN_MM));
    }
    return SW_OK;
}

/* The meshes of the rays, [body_count + 1], in run->scratch. */
static sw_status list_solids(sw_run *run, scene_job *job, const sw_mesh ***list)
{
    const sw_mesh **meshes = *list = SW_SCRATCH(run, job->body_count + 1, const sw_mesh *);
    sw_mesh *solids = SW_SCRATCH(run, job->body_count + 1, sw_mesh);
    size_t triangles = job->cap.triangle_count;
    if (meshes == NULL || solids == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->body_count; i++) {
        if (job->bodies[i].kind == SW_PART_SMALL) continue;
        SW_TRY(drawn_in(run, &job->bodies[i].mesh, &solids[i]));
        meshes[i] = &solids[i];
        triangles += meshes[i]->triangle_count;
    }
    meshes[job->body_count] = &job->cap;
    job->body_of = SW_SCRATCH(run, triangles + 1, uint32_t);
    if (job->body_of == NULL) return SW_NO_MEMORY;
    for (size_t i = 0, t = 0; i <= job->body_count; i++)
        for (size_t k = 0; meshes[i] != NULL && k < meshes[i]->triangle_count; k++) job->body_of[t++] = (uint32_t)i;
    return SW_OK;
}

sw_status scene_open_rays(sw_run *run, scene_job *job)
{
    const sw_mesh **meshes = NULL;
    SW_TRY(list_solids(run, job, &meshes));
    job->rays = rays_open(meshes, job->body_count + 1);
    return rays_told(run, job->rays);
}

/* ---- points and rays ---- */

typedef struct start { /* the tree of the rays and the points they start from need nothing of each other */
    sw_run *run;       /* of the points; the tree asks none for memory */
    scene_job *job;
    const sw_mesh **meshes;
    rays *rays;
    sw_status status; /* of the points */
} start;

static void start_one(void *context, size_t i)
{
    start *s = context;
    if (i == 0) s->rays = rays_open(s->meshes, s->job->body_count + 1);
    if (i == 1) s->status = scene_spots(s->run, s->job);
}

static sw_status open_rays_and_spots(sw_run *run, scene_job *job)
{
    start s = {.run = run, .job = job};
    SW_TRY(list_solids(run, job, &s.meshes));
    sw_parallel_for(run->threads, 2, start_one, &s);
    job->rays = s.rays;
    return s.status != SW_OK ? s.status : rays_told(run, s.rays);
}

static sw_status make(sw_run *run, scene_job *job)
{
    size_t count = 0;
    const sw_option *table = sw_scene_option_table(&count);
    SW_TRY(sw_options_check(run, table, count, job->opt));
    SW_TRY(scene_bodies(run, job));
    SW_TRY(scene_body_shapes(run, job));
    SW_TRY(scene_find_flue(run, job));
    scene_find_level(job);
    scene_find_ducts(job);
    sw_status status = open_rays_and_spots(run, job);
    if (status == SW_OK) status = seen(run, job);
    rays_close(job->rays);
    return status;
}

sw_status sw_scene_make(sw_run *run, const sw_stove *stove, const sw_sheet_result *sheet, const sw_scene_options *opt,
                        const sw_scene **scene)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    *scene = NULL;
    sw_scene *made = SW_KEEP(run, 1, sw_scene);
    if (made == NULL) return SW_NO_MEMORY;
    size_t mark = sw_arena_mark(run->scratch);
    scene_job job = {.stove = stove, .sheet = sheet, .opt = opt, .scene = made};
    sw_status status = make(run, &job);
    sw_arena_rewind(run->scratch, mark);
    if (status == SW_OK) *scene = made;
    return status;
}
