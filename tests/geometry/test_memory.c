/* Every allocation of every function fails once: SW_NO_MEMORY each time, and the same answer afterwards. */
#include "gen.h"
#include "sw_test.h"

typedef struct inputs {
    sw_contour a, b;
    sw_region r;
    sw_mesh mesh;
    double radii_mm[64];
} inputs;

typedef sw_status (*call)(sw_run *run, const inputs *in);

static sw_status moved(sw_run *run, const inputs *in)
{
    sw_contour out;
    return sw_contour_moved(run, in->a, (sw_motion){.mirror = true}, &out);
}
static sw_status region_moved(sw_run *run, const inputs *in)
{
    sw_region out;
    return sw_region_moved(run, &in->r, (sw_motion){.turn_rad = 1.0}, &out);
}
static sw_status reversed(sw_run *run, const inputs *in)
{
    sw_contour out;
    return sw_contour_reversed(run, in->a, &out);
}
static sw_status rectangle(sw_run *run, const inputs *in)
{
    sw_contour out;
    (void)in;
    return sw_contour_rectangle(run, (sw_box){0, 0, 2, 1}, 0.1, &out);
}
static sw_status circle(sw_run *run, const inputs *in)
{
    sw_contour out;
    (void)in;
    return sw_contour_circle(run, (sw_point){0, 0}, 1.0, &out);
}
static sw_status slot(sw_run *run, const inputs *in)
{
    sw_contour out;
    (void)in;
    return sw_contour_slot(run, (sw_point){0, 0}, (sw_point){9, 0}, 1.0, &out);
}
static sw_status rounded(sw_run *run, const inputs *in)
{
    sw_contour out;
    return sw_contour_rounded(run, in->b, in->radii_mm, &out);
}
static sw_status flattened(sw_run *run, const inputs *in)
{
    sw_contour out;
    return sw_contour_flattened(run, in->a, 0.01, &out);
}
static sw_status tidied(sw_run *run, const inputs *in)
{
    sw_contour out;
    return sw_contour_tidied(run, in->a, &out);
}
static sw_status offset(sw_run *run, const inputs *in)
{
    const sw_contour *out;
    size_t n;
    return sw_contour_offset(run, in->a, -6.0, true, &out, &n);
}
static sw_status fault(sw_run *run, const inputs *in)
{
    const char *text;
    const sw_vertex bow[4] = {{0, 0, 0}, {10, 10, 0}, {10, 0, 0}, {0, 10, 0}};
    SW_TRY(sw_region_fault(run, &in->r, &text));
    return sw_contour_fault(run, (sw_contour){bow, 4}, &text);
}
static sw_status overlap(sw_run *run, const inputs *in)
{
    double area;
    return sw_geos_overlap_area(run, &in->r, &in->r, 0.1, &area);
}
static sw_status buffer(sw_run *run, const inputs *in)
{
    const sw_region *parts;
    size_t n;
    return sw_geos_buffer(run, &in->r, 1.0, 0.1, &parts, &n);
}
static sw_status triangles(sw_run *run, const inputs *in)
{
    sw_mesh out;
    return sw_region_triangles(run, &in->r, 0.5, 20.0, &out);
}
static sw_status collide(sw_run *run, const inputs *in)
{
    bool hit;
    sw_vec3 where;
    return sw_meshes_collide(run, &in->mesh, &in->mesh, &hit, &where);
}
static sw_status tree(sw_run *run, const inputs *in)
{
    const sw_mesh_tree *out;
    return sw_mesh_tree_make(run, &in->mesh, &out);
}
static sw_status tree_for_now(sw_run *run, const inputs *in)
{
    const sw_mesh_tree *out;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = sw_mesh_tree_scratch(run, &in->mesh, &out);
    sw_arena_rewind(run->scratch, mark); /* the tree was to stay there */
    return status;
}
static sw_status edges(sw_run *run, const inputs *in)
{
    const sw_edges *out;
    return sw_edges_of_region(run, run->keep, &in->r, &out);
}

static const struct {
    const char *name;
    call function;
} calls[] = {{"moved", moved},
             {"region moved", region_moved},
             {"reversed", reversed},
             {"rectangle", rectangle},
             {"circle", circle},
             {"slot", slot},
             {"rounded", rounded},
             {"flattened", flattened},
             {"tidied", tidied},
             {"offset", offset},
             {"fault", fault},
             {"overlap", overlap},
             {"buffer", buffer},
             {"triangles", triangles},
             {"collide", collide},
             {"tree", tree},
             {"tree in scratch", tree_for_now},
             {"edges", edges}};

static void prepare(sw_test *t, inputs *in)
{
    sw_contour hole, circle_ccw;
    in->a = gen_bowed_star(&t->run, 1, 12, (sw_point){0, 0}, 100.0);
    in->b = gen_convex(&t->run, 2, 9, 100.0);
    for (size_t i = 0; i < 64; i++) in->radii_mm[i] = 1.0;
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){0, 0}, 20.0, &circle_ccw));
    sw_ok(t, sw_contour_reversed(&t->run, circle_ccw, &hole));
    sw_contour *holes = SW_KEEP(&t->run, 1, sw_contour);
    holes[0] = hole;
    in->r = (sw_region){in->a, holes, 1};
    sw_ok(t, sw_region_triangles(&t->run, &in->r, 0.5, 0.0, &in->mesh));
}

/* Fails request number n of one arena until the call gets through. */
static bool fails_cleanly(sw_test *t, sw_run *run, sw_arena *arena, const inputs *in, size_t which)
{
    for (size_t n = 1; n < 2000; n++) {
        sw_run_clear_errors(run);
        size_t scratch = sw_arena_mark(run->scratch);
        sw_arena_fail_at(arena, n);
        sw_status status = calls[which].function(run, in);
        sw_arena_fail_at(arena, 0);
        if (!sw_true(t, sw_arena_mark(run->scratch) == scratch)) return false;
        if (status == SW_OK) return true;
        if (!sw_true(t, status == SW_NO_MEMORY)) return false;
    }
    return sw_true(t, !"the call never got through");
}

static void every_allocation_may_fail(sw_test *t)
{
    static sw_run run;
    inputs in;
    prepare(t, &in);
    sw_ok(t, sw_run_open(&run, (size_t)1 << 28));
    for (size_t k = 0; k < sizeof calls / sizeof *calls; k++) {
        t->seed = k + 1;
        if (!fails_cleanly(t, &run, run.keep, &in, k) || !fails_cleanly(t, &run, run.scratch, &in, k)) break;
    }
    sw_run_close(&run);
}

SW_TESTS(SW_CASE(every_allocation_may_fail))
