/* check_joints.c: how wide do the declared joints gape? Points along edge a, on both skins and between, against the
 * solid of b. */
#include "making/sheet/sheet_parts.h"

#include <math.h>

typedef struct feeler {
    sw_run *run;
    const sw_sheet_study *study;
    const sw_mesh_tree **trees; /* [piece_count] NULL = not made yet */
} feeler;

static const sw_sheet_piece *piece_of(const feeler *f, const sw_joint_end *end)
{
    return f->study->cases[end->piece].piece;
}

static bool end_exists(const sw_sheet_study *study, const sw_joint_end *end, bool needs_edge)
{
    if (end->piece < 0 || (size_t)end->piece >= study->case_count) return false;
    const sw_piece *p = study->cases[end->piece].piece->piece;
    if (end->placement < 0 || (size_t)end->placement >= p->count) return false;
    if (end->edge >= 0) return (size_t)end->edge < p->edge_count;
    return !needs_edge;
}

static sw_status find_tree(feeler *f, int piece, const sw_mesh_tree **tree)
{
    if (f->trees[piece] == NULL)
        SW_TRY(sw_mesh_tree_make(f->run, &f->study->cases[piece].piece->solid.mesh, &f->trees[piece]));
    *tree = f->trees[piece];
    return SW_OK;
}

/* Distance of a point from the solid, 0 inside. */
static double gap_at(const sw_mesh_tree *tree, sw_vec3 p)
{
    double gap_mm = sw_mesh_tree_distance(tree, p, NULL);
    if (gap_mm <= SW_SAME_POINT_MM) return 0.0;
    return sw_mesh_tree_side(tree, p) > 0 ? 0.0 : gap_mm;
}

typedef struct probe { /* from the frame of piece a to that of b */
    const sw_mesh_tree *tree;
    sw_frame a, b;
    sw_vec3 normal; /* of the face with edge a, in a's frame */
    double half_mm;
} probe;

static void feel(const probe *q, sw_vec3 middle, sw_joint_fit *fit)
{
    double gap_mm = INFINITY;
    for (int side = -1; side <= 1 && gap_mm > 0.0; side++) {
        sw_vec3 p = sw_vec3_add(middle, sw_vec3_scaled(q->normal, side * q->half_mm));
        gap_mm = fmin(gap_mm, gap_at(q->tree, sw_frame_local(q->b, sw_frame_point(q->a, p))));
    }
    fit->gap_least_mm = fmin(fit->gap_least_mm, gap_mm);
    if (gap_mm <= fit->gap_most_mm) return;
    fit->gap_most_mm = gap_mm;
    fit->worst = sw_frame_point(q->a, middle);
}

static void feel_edge(const probe *q, const sw_folded_edge *edge, double step_mm, sw_joint_fit *fit)
{
    for (size_t i = 0; i + 1 < edge->count; i++) {
        sw_vec3 way = sw_vec3_sub(edge->points[i + 1], edge->points[i]);
        size_t steps = (size_t)fmax(1.0, ceil(sw_vec3_length(way) / step_mm));
        for (size_t k = i == 0 ? 0 : 1; k <= steps; k++)
            feel(q, sw_vec3_add(edge->points[i], sw_vec3_scaled(way, (double)k / (double)steps)), fit);
    }
}

static sw_status fit_joint(feeler *f, const sw_joint *joint, sw_joint_fit *fit)
{
    if (!end_exists(f->study, &joint->a, true) || !end_exists(f->study, &joint->b, false))
        return sw_fail(f->run, SW_BAD_INPUT, joint->place, joint->name,
                       "joint '%s' names a piece, place or edge that is not there", joint->name);
    const sw_sheet_piece *a = piece_of(f, &joint->a), *b = piece_of(f, &joint->b);
    const sw_edge *edge = &a->piece->edges[joint->a.edge];
    probe q = {.a = a->piece->placements[joint->a.placement], .b = b->piece->placements[joint->b.placement]};
    q.normal = a->solid.faces[edge->face].z;
    q.half_mm = a->piece->thickness_mm / 2.0;
    SW_TRY(find_tree(f, joint->b.piece, &q.tree));
    *fit = (sw_joint_fit){.joint = joint, .gap_least_mm = INFINITY, .gap_most_mm = -1.0};
    fit->length_mm = a->solid.edges[joint->a.edge].length_mm;
    feel_edge(&q, &a->solid.edges[joint->a.edge], f->study->opt->edge_step_mm, fit);
    return SW_OK;
}

static sw_status fit_joints(feeler *f, sw_joint_fit *fits)
{
    const sw_stove *stove = f->study->model->stove;
    f->trees = SW_SCRATCH(f->run, stove->piece_count, const sw_mesh_tree *);
    if (f->trees == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->joint_count; i++) SW_TRY(fit_joint(f, &stove->joints[i], &fits[i]));
    return SW_OK;
}

/* The trees go into run->keep and are given back; the fits stay. */
static sw_status measure(sw_run *run, const sw_sheet_study *study, sw_joint_fit *fits)
{
    feeler f = {.run = run, .study = study};
    size_t mark = sw_arena_mark(run->keep);
    sw_status status = fit_joints(&f, fits);
    if (status == SW_OK) sw_arena_rewind(run->keep, mark);
    return status;
}

static sw_status report_joint(sw_run *run, const sw_sheet_study *study, const sw_joint_fit *fit)
{
    sw_finding f = {.check = "joint_gap",
                    .sense = SW_AT_MOST,
                    .value = fit->gap_most_mm,
                    .limit = fit->joint->gap_max_mm,
                    .unit = "mm",
                    .source = "stove description, gap of the joint",
                    .where = fit->joint->name,
                    .place = fit->joint->place};
    f.what = sw_text_format(run, run->keep, "gap %.2f to %.2f mm along %.0f mm, widest at (%.1f, %.1f, %.1f)",
                            fit->gap_least_mm, fit->gap_most_mm, fit->length_mm, fit->worst.x_mm, fit->worst.y_mm,
                            fit->worst.z_mm);
    f.remedy = "move the edge to its partner, or allow a wider gap if the seam can fill it";
    return sw_sheet_report(run, study, f, 0.0);
}

static bool too_wide(const sw_joint_fit *fit)
{
    return fit->gap_most_mm > fit->joint->gap_max_mm;
}

/* Each joint that gapes; all others in one line, with the one nearest to its limit. */
static sw_status report(sw_run *run, const sw_sheet_study *study, const sw_joint_fit *fits)
{
    const sw_joint_fit *tightest = NULL;
    size_t good = 0;
    for (size_t i = 0; i < study->model->stove->joint_count; i++) {
        const sw_joint_fit *fit = &fits[i];
        if (too_wide(fit)) {
            SW_TRY(report_joint(run, study, fit));
            continue;
        }
        good++;
        double room = fit->joint->gap_max_mm - fit->gap_most_mm;
        if (tightest == NULL || room < tightest->joint->gap_max_mm - tightest->gap_most_mm) tightest = fit;
    }
    if (tightest == NULL) return SW_OK;
    sw_finding f = {.check = "joint_gap",
                    .sense = SW_AT_MOST,
                    .value = tightest->gap_most_mm,
                    .limit = tightest->joint->gap_max_mm,
                    .unit = "mm",
                    .source = "stove description, gap of the joint",
                    .where = "joints that close",
                    .place = tightest->joint->place};
    f.what = sw_text_format(run, run->keep,
                            "%zu joints close within their gaps; nearest to its limit is %s with %.2f of %.2f mm", good,
                            tightest->joint->name, f.value, f.limit);
    return sw_sheet_report(run, study, f, 0.0);
}

sw_status sw_check_joints(sw_run *run, const sw_sheet_study *study, sw_joint_fit *fits)
{
    SW_TRY(measure(run, study, fits));
    return report(run, study, fits);
}
