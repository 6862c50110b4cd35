/* check_joints.c: how wide do the declared joints gape? Points along edge a, on both skins and between, against the
 * folded piece of b; where a piece closes on itself, against the wall of edge b and the face that has it. */
#include "making/sheet/sheet_parts.h"

#include <math.h>

typedef struct feeler {
    sw_run *run;
    const sw_sheet_study *study;
    sw_gauge **gauges; /* [piece_count] NULL = not made yet */
} feeler;

static const sw_sheet_piece *piece_of(const feeler *f, const sw_joint_end *end)
{
    return f->study->cases[end->piece].piece;
}

static bool end_exists(const sw_sheet_study *study, const sw_joint_end *end, bool needs_edge)
{
    if (end->piece < 0 || (size_t)end->piece >= study->case_count) return false;
    const sw_piece *p = study->cases[end->piece].piece->piece;
    if (end->placement < 0 || (size_t)end->placement >= p->count || end->face >= (int)p->face_count) return false;
    if (end->edge >= 0) return (size_t)end->edge < p->edge_count;
    return !needs_edge;
}

static sw_status find_gauge(feeler *f, int piece, sw_gauge **gauge)
{
    const sw_sheet_study *study = f->study;
    if (f->gauges[piece] == NULL)
        SW_TRY(sw_gauge_make(f->run, &study->cases[piece], study->opt->chord_mm, &f->gauges[piece]));
    *gauge = f->gauges[piece];
    return SW_OK;
}

/* ---- what edge a shall touch -------------------------------------------------------------------- */

typedef struct partner {
    sw_gauge *gauge;
    int part;                   /* the face that counts; whole = all of the piece, no_part = none */
    const sw_folded_edge *wall; /* with it the sheet's cut edge along this one; NULL = none */
    double half_mm, reach_mm;   /* of the wall; how far tabs may stand out of their slots, negative = no slots */
} partner;

enum { whole = -1, no_part = -2 };

/* A piece is never apart from itself: there only what end b names counts. False when it names nothing that can be
 * told from edge a. */
static bool own_partner(const sw_piece *p, const sw_solid *solid, const sw_joint *joint, partner *to)
{
    SW_ASSERT(p->edges != NULL); /* end a has an edge: end_exists */
    const sw_edge *a = &p->edges[joint->a.edge], *b = joint->b.edge >= 0 ? &p->edges[joint->b.edge] : NULL;
    int face = b != NULL ? b->face : joint->b.face;
    bool other_face = face >= 0 && (face != a->face || a->zone != 0) && (b == NULL || b->zone == 0);
    to->part = other_face ? face : no_part;
    to->wall = b != NULL ? &solid->edges[joint->b.edge] : NULL;
    return other_face || (b != NULL && joint->b.edge != joint->a.edge);
}

static double gap_to(const partner *to, sw_vec3 p)
{
    if (to->part == whole) {
        double gap_mm = sw_gauge_gap(to->gauge, p);
        return gap_mm > 0.0 && to->reach_mm >= 0.0 && sw_gauge_in_slot(to->gauge, p, to->reach_mm) ? 0.0 : gap_mm;
    }
    double gap_mm = to->wall != NULL ? sw_wall_gap(to->wall, to->half_mm, p) : (double)INFINITY;
    return to->part >= 0 && gap_mm > 0.0 ? fmin(gap_mm, sw_gauge_part_gap(to->gauge, to->part, p)) : gap_mm;
}

/* ---- along edge a -------------------------------------------------------------------------------- */

typedef struct probe { /* from the frame of piece a to that of b */
    partner to;
    sw_frame a, b;
    double half_mm;
} probe;

static void feel(const probe *q, sw_vec3 middle, sw_vec3 normal, sw_joint_fit *fit)
{
    double gap_mm = INFINITY;
    for (int side = -1; side <= 1 && gap_mm > 0.0; side++) {
        sw_vec3 p = sw_vec3_add(middle, sw_vec3_scaled(normal, side * q->half_mm));
        double at_mm = gap_to(&q->to, sw_frame_local(q->b, sw_frame_point(q->a, p)));
        gap_mm = at_mm <= SW_SAME_POINT_MM ? 0.0 : fmin(gap_mm, at_mm);
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
        sw_vec3 turn = sw_vec3_sub(edge->normals[i + 1], edge->normals[i]);
        size_t steps = (size_t)fmax(1.0, ceil(sw_vec3_length(way) / step_mm));
        for (size_t k = i == 0 ? 0 : 1; k <= steps; k++) {
            double t = (double)k / (double)steps;
            feel(q, sw_vec3_add(edge->points[i], sw_vec3_scaled(way, t)),
                 sw_vec3_add(edge->normals[i], sw_vec3_scaled(turn, t)), fit);
        }
    }
}

static bool closes_on_itself(const sw_joint *joint)
{
    return joint->a.piece == joint->b.piece && joint->a.placement == joint->b.placement;
}

/* A joint that proves nothing has no gaps: NAN. */
static sw_status fit_joint(feeler *f, const sw_joint *joint, sw_joint_fit *fit)
{
    if (!end_exists(f->study, &joint->a, true) || !end_exists(f->study, &joint->b, false))
        return sw_fail(f->run, SW_BAD_INPUT, joint->place, joint->name,
                       "joint '%s' names a piece, place, face or edge that is not there", joint->name);
    const sw_sheet_piece *a = piece_of(f, &joint->a), *b = piece_of(f, &joint->b);
    const sw_folded_edge *edge = &a->solid.edges[joint->a.edge];
    probe q = {.a = a->piece->placements[joint->a.placement], .b = b->piece->placements[joint->b.placement]};
    q.half_mm = a->piece->thickness_mm / 2.0;
    q.to = (partner){.part = whole, .half_mm = q.half_mm, .reach_mm = -1.0};
    if (joint->kind == SW_JOINT_SLOT_TAB) q.to.reach_mm = a->piece->thickness_mm + b->piece->thickness_mm;
    *fit = (sw_joint_fit){.joint = joint, .gap_least_mm = NAN, .gap_most_mm = NAN, .length_mm = edge->length_mm};
    if (closes_on_itself(joint) && !own_partner(a->piece, &a->solid, joint, &q.to)) return SW_OK;
    SW_TRY(find_gauge(f, joint->b.piece, &q.to.gauge));
    fit->gap_least_mm = INFINITY;
    fit->gap_most_mm = -1.0;
    feel_edge(&q, edge, f->study->opt->edge_step_mm, fit);
    return SW_OK;
}

static sw_status measure(sw_run *run, const sw_sheet_study *study, sw_joint_fit *fits)
{
    const sw_stove *stove = study->model->stove;
    feeler f = {run, study, SW_SCRATCH(run, stove->piece_count, sw_gauge *)};
    if (f.gauges == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->joint_count; i++) SW_TRY(fit_joint(&f, &stove->joints[i], &fits[i]));
    return SW_OK;
}

/* ---- findings -------------------------------------------------------------------------------------- */

static sw_status report_unproved(sw_run *run, const sw_sheet_study *study, const sw_joint_fit *fit)
{
    sw_finding f = {.check = "joint_gap",
                    .sense = SW_AT_MOST,
                    .value = NAN,
                    .limit = fit->joint->gap_max_mm,
                    .unit = "mm",
                    .source = "stove description, gap of the joint",
                    .where = fit->joint->name,
                    .place = fit->joint->place};
    f.what = "the piece closes on itself, but end b does not say where: a piece is nowhere apart from itself";
    f.remedy = "name the other edge, or the face that edge a meets, in end b";
    return sw_sheet_report(run, study, f, 0.0);
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

static bool closes(const sw_joint_fit *fit)
{
    return fit->gap_most_mm <= fit->joint->gap_max_mm;
}

/* Each joint that gapes; all others in one line, with the one nearest to its limit. */
static sw_status report(sw_run *run, const sw_sheet_study *study, const sw_joint_fit *fits)
{
    const sw_joint_fit *tightest = NULL;
    size_t good = 0;
    for (size_t i = 0; i < study->model->stove->joint_count; i++) {
        const sw_joint_fit *fit = &fits[i];
        if (!closes(fit)) {
            SW_TRY(isnan(fit->gap_most_mm) ? report_unproved(run, study, fit) : report_joint(run, study, fit));
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
