/* fit_points.c: the points along edge a of every joint at which distances are looked at, each with what it is near to. */
#include "making/fit/fit_parts.h"

#include <math.h>

enum { POINTS = 5, SLOT_WALLS = 8 };
static const double shares_along[POINTS] = {0.02, 0.26, 0.5, 0.74, 0.98}; /* ours: off the corners */

/* ---- specimens ---- */

static void find_middle(const fit_job *job, fit_specimen *s)
{
    const sw_solid *solid = &job->in->sheet->pieces[s->piece].solid;
    sw_frame f = job->in->model->stove->pieces[s->piece].placements[s->placement];
    sw_vec3 half = sw_vec3_scaled(sw_vec3_sub(solid->high, solid->low), 0.5);
    s->middle = sw_frame_point(f, sw_vec3_scaled(sw_vec3_add(solid->high, solid->low), 0.5));
    double x = fabs(f.x.x_mm) * half.x_mm + fabs(f.y.x_mm) * half.y_mm + fabs(f.z.x_mm) * half.z_mm;
    double y = fabs(f.x.y_mm) * half.x_mm + fabs(f.y.y_mm) * half.y_mm + fabs(f.z.y_mm) * half.z_mm;
    double z = fabs(f.x.z_mm) * half.x_mm + fabs(f.y.z_mm) * half.y_mm + fabs(f.z.z_mm) * half.z_mm;
    const double least_mm = 5; /* ours: small parts are held by more than their size */
    s->lever_mm[0] = fmax(least_mm, fmax(y, z));
    s->lever_mm[1] = fmax(least_mm, fmax(z, x));
    s->lever_mm[2] = fmax(least_mm, fmax(x, y));
}

sw_status fit_specimens(sw_run *run, fit_job *job)
{
    const sw_stove *stove = job->in->model->stove;
    size_t total = 0;
    job->specimen_first = SW_SCRATCH(run, stove->piece_count + 1, size_t);
    if (job->specimen_first == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->piece_count; i++) {
        job->specimen_first[i] = total;
        total += stove->pieces[i].count;
    }
    job->specimens = SW_SCRATCH(run, total + 1, fit_specimen);
    if (job->specimens == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->piece_count; i++)
        for (size_t k = 0; k < stove->pieces[i].count; k++) {
            fit_specimen *s = &job->specimens[job->specimen_count++];
            *s = (fit_specimen){.piece = (int)i, .placement = (int)k, .place = SIZE_MAX};
            find_middle(job, s);
        }
    return SW_OK;
}

/* ---- edge a ---- */

typedef struct place { /* a point of an edge, piece frame */
    sw_vec3 at, normal, way;
} place;

/* Where the chain bends a little at point i it follows an arc. */
static bool on_arc(const sw_folded_edge *e, size_t i)
{
    const double least = 1e-9, most = 0.35; /* radians, nearly: more is a corner */
    if (i == 0 || i + 1 >= e->count) return false;
    sw_vec3 before = sw_vec3_unit(sw_vec3_sub(e->points[i], e->points[i - 1]));
    sw_vec3 after = sw_vec3_unit(sw_vec3_sub(e->points[i + 1], e->points[i]));
    double turn = sw_vec3_length(sw_vec3_sub(after, before));
    return turn > least && turn < most;
}

/* Between the ends of a chord a point is off the arc, so the nearer end is taken. */
static place at_vertex(const sw_folded_edge *e, size_t i)
{
    sw_vec3 before = sw_vec3_sub(e->points[i > 0 ? i : 1], e->points[i > 0 ? i - 1 : 0]);
    sw_vec3 after = on_arc(e, i) ? sw_vec3_sub(e->points[i + 1], e->points[i]) : before;
    sw_vec3 way = sw_vec3_unit(sw_vec3_add(sw_vec3_unit(before), sw_vec3_unit(after)));
    return (place){e->points[i], e->normals[i], way};
}

static double step_mm(const sw_folded_edge *e, size_t i)
{
    return sw_vec3_length(sw_vec3_sub(e->points[i + 1], e->points[i]));
}

static place along(const sw_folded_edge *e, double share)
{
    double left_mm = 0;
    size_t i = 0;
    for (size_t k = 0; k + 1 < e->count; k++) left_mm += share * step_mm(e, k);
    while (i + 2 < e->count && left_mm > step_mm(e, i)) left_mm -= step_mm(e, i++);
    double length_mm = step_mm(e, i), t = length_mm > 0 ? fmin(1, left_mm / length_mm) : 0;
    if (on_arc(e, i) || on_arc(e, i + 1)) return at_vertex(e, t < 0.5 ? i : i + 1);
    sw_vec3 step = sw_vec3_sub(e->points[i + 1], e->points[i]), turn = sw_vec3_sub(e->normals[i + 1], e->normals[i]);
    return (place){fit_along(e->points[i], step, t), sw_vec3_unit(fit_along(e->normals[i], turn, t)),
                   sw_vec3_unit(step)};
}

typedef struct side { /* one joint while its points are sought */
    fit_job *job;
    size_t joint, a, b; /* specimens */
    const sw_edge *edge;
    sw_frame from, to;
    double half_mm, reach_mm;
    fit_partner partner;
} side;

/* Height -1, 0, +1: back skin, middle, front skin. The cut wall of a moves along the sheet, out of it. */
static fit_foot foot_of(const side *s, const place *p, int height)
{
    fit_foot foot = {.specimen = s->a, .face = s->edge->face, .zone = s->edge->zone};
    foot.at = fit_along(p->at, p->normal, height * s->half_mm);
    foot.cut = (fit_cut){s->edge->face, s->edge->zone, s->edge->hole, s->edge->first};
    foot.cut_way = sw_vec3_cross(p->way, p->normal);
    foot.skin_way = sw_vec3_scaled(p->normal, height / 2.0);
    return foot;
}

static sw_status add_row(sw_run *run, fit_job *job, fit_row row)
{
    job->rows = sw_grow(run, run->scratch, job->rows, job->row_count, &job->row_room, sizeof *job->rows);
    if (job->rows == NULL) return SW_NO_MEMORY;
    job->rows[job->row_count++] = row;
    return SW_OK;
}

static sw_vec3 seen_from_b(const side *s, sw_vec3 p)
{
    return sw_frame_local(s->to, sw_frame_point(s->from, p));
}

/* ---- gaps ---- */

/* The skin or the middle of edge a that is nearest; of equal ones the middle. */
static bool find_gap(const side *s, const place *p, fit_row *row)
{
    static const int heights[] = {0, -1, 1};
    double best_mm = INFINITY;
    for (size_t k = 0; k < 3; k++) {
        fit_foot a = foot_of(s, p, heights[k]);
        fit_near near = fit_nearest(&s->partner, seen_from_b(s, a.at));
        if (!(fabs(near.gap_mm) < best_mm - SW_SAME_POINT_MM)) continue;
        best_mm = fabs(near.gap_mm);
        *row = (fit_row){.kind = FIT_GAP, .joint = s->joint, .a = a, .b = near.foot, .value = near.gap_mm};
        row->way = sw_frame_direction(s->to, near.way);
    }
    return best_mm <= s->reach_mm;
}

static sw_status add_gaps(sw_run *run, const side *s, const sw_folded_edge *edge, fit_row *middle, bool *found)
{
    for (size_t k = 0; k < POINTS; k++) {
        place p = along(edge, shares_along[k]);
        fit_row row;
        if (!find_gap(s, &p, &row)) continue;
        SW_TRY(add_row(run, s->job, row));
        if (!*found || k <= POINTS / 2) *middle = row;
        *found = true;
    }
    return SW_OK;
}

/* ---- tabs in slots ---- */

/* The end of the tab nearest to the point moves with the cut line beside the edge. */
static void end_cut(const side *s, const place *p, double share, fit_foot *foot)
{
    const sw_piece *piece = fit_piece(s->job, s->a)->piece;
    if (s->edge->zone != 0) return;
    const sw_region *r = &piece->faces[s->edge->face].region;
    size_t n = s->edge->hole == 0 ? r->outline.n : r->holes[s->edge->hole - 1].n, first = s->edge->first;
    size_t beside = share < 0.5 ? (first + n - 1) % n : (first + s->edge->count) % n;
    foot->cut.segment = beside;
    foot->cut_way = sw_vec3_scaled(p->way, share < 0.5 ? -1 : 1);
}

static sw_status add_slot_rows(sw_run *run, const side *s, const sw_folded_edge *edge, fit_row *middle, bool *found)
{
    for (size_t k = 0; k < POINTS; k += POINTS / 2)
        for (int height = -1; height <= 1; height += 2) {
            place p = along(edge, shares_along[k] == 0.5 ? 0.5 : k == 0 ? 0 : 1);
            fit_near walls[SLOT_WALLS];
            fit_foot a = foot_of(s, &p, height);
            if (k != POINTS / 2) end_cut(s, &p, shares_along[k], &a);
            size_t count = fit_slot_walls(&s->partner, seen_from_b(s, a.at), s->reach_mm, walls, SLOT_WALLS);
            for (size_t w = 0; w < count; w++) {
                fit_row row = {.kind = FIT_SLOT, .joint = s->joint, .a = a, .b = walls[w].foot};
                row.way = sw_frame_direction(s->to, walls[w].way);
                row.value = walls[w].gap_mm;
                SW_TRY(add_row(run, s->job, row));
                if (!*found) *middle = row;
                *found = true;
            }
        }
    return SW_OK;
}

/* ---- a joint ---- */

static sw_status add_offsets(sw_run *run, const side *s, const sw_folded_edge *edge, const fit_row *middle)
{
    place p = along(edge, 0.5);
    fit_row row = *middle;
    sw_vec3 tangent = sw_frame_direction(s->from, p.way);
    sw_vec3 across = sw_vec3_cross(middle->way, tangent);
    row.value = 0;
    if (sw_vec3_length(across) < 0.5) return SW_OK; /* the gap runs along the edge: a tab's end */
    row.kind = FIT_ACROSS;
    row.way = sw_vec3_unit(across);
    SW_TRY(add_row(run, s->job, row));
    row.kind = FIT_ALONG;
    row.way = sw_vec3_unit(sw_vec3_cross(row.way, middle->way));
    return add_row(run, s->job, row);
}

static void find_partner(side *s, const sw_joint *joint)
{
    const sw_piece *b = fit_piece(s->job, s->b)->piece;
    s->partner =
        (fit_partner){s->job, s->b, -1, NULL, -1, joint->kind == SW_JOINT_BUTT}; /* all of b, as the sheet study */
    if (s->a != s->b) return;
    const sw_edge *edge = joint->b.edge >= 0 ? &b->edges[joint->b.edge] : NULL;
    s->partner.edge = edge;
    s->partner.not_face = s->edge->face;
    s->partner.face = edge != NULL ? edge->face : joint->b.face;
    if (edge != NULL && edge->face == s->edge->face) s->partner.not_face = edge->face;
}

static bool end_exists(const fit_job *job, const sw_joint_end *end, bool needs_edge)
{
    const sw_stove *stove = job->in->model->stove;
    if (end->piece < 0 || (size_t)end->piece >= stove->piece_count) return false;
    const sw_piece *p = &stove->pieces[end->piece];
    if (end->placement < 0 || (size_t)end->placement >= p->count || end->face >= (int)p->face_count) return false;
    return end->edge >= 0 ? (size_t)end->edge < p->edge_count : !needs_edge;
}

static sw_status joint_points(sw_run *run, fit_job *job, size_t j)
{
    const sw_joint *joint = &job->in->model->stove->joints[j];
    if (!end_exists(job, &joint->a, true) || !end_exists(job, &joint->b, false))
        return sw_fail(run, SW_BAD_INPUT, joint->place, joint->name,
                       "joint '%s' names a piece, place, face or edge that is not there", joint->name);
    side s = {.job = job, .joint = j};
    s.a = job->specimen_first[joint->a.piece] + (size_t)joint->a.placement;
    s.b = job->specimen_first[joint->b.piece] + (size_t)joint->b.placement;
    const sw_sheet_piece *a = fit_piece(job, s.a);
    const sw_folded_edge *edge = &a->solid.edges[joint->a.edge];
    s.edge = &a->piece->edges[joint->a.edge];
    if (s.a == s.b) job->specimens[s.a].closed = true;
    s.from = fit_frame(job, s.a);
    s.to = fit_frame(job, s.b);
    s.half_mm = a->piece->thickness_mm / 2;
    s.reach_mm = joint->gap_max_mm + 3; /* ours: farther off there is no partner */
    find_partner(&s, joint);
    fit_row middle;
    bool found = false;
    if (joint->kind == SW_JOINT_SLOT_TAB) SW_TRY(add_slot_rows(run, &s, edge, &middle, &found));
    if (!found) SW_TRY(add_gaps(run, &s, edge, &middle, &found));
    return found ? add_offsets(run, &s, edge, &middle) : SW_OK;
}

sw_status fit_points(sw_run *run, fit_job *job)
{
    size_t count = job->in->model->stove->joint_count;
    job->joint_first = SW_SCRATCH(run, count + 1, size_t);
    if (job->joint_first == NULL) return SW_NO_MEMORY;
    for (size_t j = 0; j < count; j++) {
        job->joint_first[j] = job->row_count;
        SW_TRY(joint_points(run, job, j));
    }
    job->joint_first[count] = job->row_count;
    return SW_OK;
}
