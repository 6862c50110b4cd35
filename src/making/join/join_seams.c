/* join_seams.c: the declared joints as paths in space. Edge a is walked; where it touches its partner there is a seam,
 * with the two faces the torch stands between. */
#include "making/join/join_parts.h"

typedef struct walker {
    const join_job *job;
    join_seam *seam;
    const sw_joint *joint;
    const join_instance *a, *b;
    double half_mm, reach_mm;
    bool own; /* the piece closes on itself */
    bool gap; /* the last sample did not touch */
} walker;

typedef struct sample { /* of edge a, stove frame */
    sw_vec3 p, along, normal, out;
    double from_mm;
} sample;

/* ---- the two faces at one place ----------------------------------------------------------------- */

typedef struct corner { /* up to two sides; both NULL vectors = one side */
    sw_vec3 at[2], u[2], v[2];
    size_t sides;
} corner;

static void upright_corner(const walker *w, const sample *s, corner *c)
{
    c->sides = 2;
    for (int k = 0; k < 2; k++) {
        c->u[k] = c->v[k] = sw_vec3_scaled(s->normal, k == 0 ? 1 : -1);
        c->at[k] = sw_vec3_add(s->p, sw_vec3_scaled(c->u[k], w->half_mm));
    }
}

static void outside_corner(const walker *w, const sample *s, corner *c)
{
    upright_corner(w, s, c);
    c->v[0] = c->v[1] = s->out;
}

/* The slot is filled over the end of the tab. */
static void tab_end(const sample *s, corner *c)
{
    c->sides = 1;
    c->at[0] = s->p;
    c->u[0] = c->v[0] = s->out;
}

/* Edge a stands on the face: a corner on either side of its sheet, where its skin meets the face. */
static void standing_corner(const walker *w, const sample *s, const join_face *f, sw_vec3 q, corner *c)
{
    double slope = sw_vec3_dot(s->out, f->normal);
    upright_corner(w, s, c);
    for (int k = 0; k < 2; k++) {
        double on = sw_vec3_dot(sw_vec3_sub(q, c->at[k]), f->normal) / slope;
        c->at[k] = sw_vec3_add(c->at[k], sw_vec3_scaled(s->out, on));
        c->v[k] = f->normal;
    }
}

/* Edge a lies on the face: one corner between its cut wall and the face. */
static void lying_corner(const sample *s, const join_face *f, sw_vec3 q, corner *c)
{
    double over_mm = sw_vec3_dot(sw_vec3_sub(s->p, q), f->normal);
    c->sides = 1;
    c->at[0] = sw_vec3_sub(s->p, sw_vec3_scaled(f->normal, over_mm));
    c->u[0] = s->out;
    c->v[0] = f->normal;
}

static bool find_corner(const walker *w, const sample *s, corner *c)
{
    sw_seam_kind kind = w->joint->seam;
    bool tab = w->joint->kind == SW_JOINT_SLOT_TAB; /* welded where it comes out of its slot */
    *c = (corner){.sides = 0};
    sw_vec3 q = s->p;
    const join_face *f = w->own && kind == SW_SEAM_SQUARE ? NULL : join_touched(w->b, s->p, s->out, w->reach_mm, &q);
    if (f == NULL && !(w->own && kind == SW_SEAM_SQUARE)) return false;
    if (kind == SW_SEAM_SQUARE)
        upright_corner(w, s, c);
    else if (tab && kind == SW_SEAM_PLUG)
        tab_end(s, c);
    else if (kind == SW_SEAM_OUTSIDE || tab)
        outside_corner(w, s, c);
    else if (f != NULL && sw_vec3_dot(f->normal, s->out) < -0.5 && kind != SW_SEAM_PLUG)
        standing_corner(w, s, f, q, c);
    else
        lying_corner(s, f, q, c);
    if (kind == SW_SEAM_PLUG && !tab && f != NULL) c->u[0] = f->normal;
    return sw_vec3_length(sw_vec3_add(c->u[0], c->v[0])) > 0.1;
}

/* ---- along the edge --------------------------------------------------------------------------------- */

static sw_join_point point_of(const sample *s, const corner *c, int k)
{
    return (sw_join_point){.at = c->at[k],
                           .along = s->along,
                           .torch = sw_vec3_unit(sw_vec3_add(c->u[k], c->v[k])),
                           .sheet_a = c->u[k],
                           .sheet_b = c->v[k],
                           .from_mm = s->from_mm,
                           .reached = true};
}

static void feel(walker *w, const sample *s)
{
    corner c;
    join_seam *seam = w->seam;
    if (!find_corner(w, s, &c) || (seam->count > 0 && seam->sides[1] != NULL && c.sides < 2)) {
        w->gap = true;
        return;
    }
    if (seam->count == 0 && c.sides < 2) seam->sides[1] = NULL;
    for (int k = 0; k < 2; k++)
        if (seam->sides[k] != NULL) seam->sides[k][seam->count] = point_of(s, &c, k);
    seam->starts[seam->count] = seam->count == 0 || w->gap;
    seam->count++;
    w->gap = false;
}

static size_t steps_of(const walker *w, const sw_folded_edge *e, size_t i)
{
    return (size_t)fmax(1, ceil(join_apart(e->points[i], e->points[i + 1]) / w->job->opt->step_mm - 1e-9));
}

static sample sample_at(const walker *w, const sw_folded_edge *e, size_t i, double t, double from_mm)
{
    sw_vec3 along = sw_vec3_unit(sw_vec3_sub(e->points[i + 1], e->points[i]));
    sw_vec3 normal = sw_vec3_unit(join_mix(e->normals[i], e->normals[i + 1], t));
    sample s = {.p = sw_frame_point(w->a->frame, join_mix(e->points[i], e->points[i + 1], t)),
                .along = sw_frame_direction(w->a->frame, along),
                .normal = sw_frame_direction(w->a->frame, normal)};
    s.out = sw_vec3_unit(sw_vec3_cross(s.along, s.normal)); /* the sheet lies to the left of its outline */
    s.from_mm = from_mm + t * join_apart(e->points[i], e->points[i + 1]);
    return s;
}

/* Corners of the edge get a sample of either direction. */
static void walk(walker *w, const sw_folded_edge *e)
{
    double from_mm = 0;
    for (size_t i = 0; i + 1 < e->count; i++) {
        size_t steps = steps_of(w, e, i);
        sw_vec3 way = sw_vec3_unit(sw_vec3_sub(e->points[i + 1], e->points[i]));
        bool smooth = i > 0 && sw_vec3_dot(way, sw_vec3_unit(sw_vec3_sub(e->points[i], e->points[i - 1]))) > 0.9;
        for (size_t k = smooth ? 1 : 0; k <= steps; k++) {
            sample s = sample_at(w, e, i, (double)k / (double)steps, from_mm);
            feel(w, &s);
        }
        from_mm += join_apart(e->points[i], e->points[i + 1]);
    }
}

static double touching(const join_seam *seam)
{
    double sum_mm = 0;
    for (size_t i = 1; i < seam->count; i++)
        if (!seam->starts[i]) sum_mm += seam->sides[0][i].from_mm - seam->sides[0][i - 1].from_mm;
    return sum_mm;
}

static sw_status room_for(sw_run *run, const walker *w, const sw_folded_edge *e)
{
    size_t most = 0;
    for (size_t i = 0; i + 1 < e->count; i++) most += steps_of(w, e, i) + 1;
    for (int k = 0; k < 2; k++) {
        w->seam->sides[k] = SW_KEEP(run, most, sw_join_point);
        if (w->seam->sides[k] == NULL) return SW_NO_MEMORY;
    }
    w->seam->starts = SW_SCRATCH(run, most, bool);
    return w->seam->starts == NULL ? SW_NO_MEMORY : SW_OK;
}

static sw_status trace(sw_run *run, const join_job *job, const sw_joint *joint, join_seam *seam)
{
    const join_instance *a = &job->instances[seam->a], *b = &job->instances[seam->b];
    const sw_piece *pa = a->piece->piece, *pb = b->piece->piece;
    sw_folded_edge e;
    walker w = {job, seam, joint, a, b, pa->thickness_mm / 2, 0, seam->a == seam->b, false};
    const double slack_mm = 0.5; /* ours: a seam goes on where the joint gapes a little more than it should */
    w.reach_mm = w.half_mm + joint->gap_max_mm + slack_mm;
    if (joint->seam == SW_SEAM_OUTSIDE || joint->kind == SW_JOINT_SLOT_TAB) w.reach_mm += pb->thickness_mm;
    SW_TRY(join_whole_edge(run, a->piece, (size_t)joint->a.edge, &e));
    SW_TRY(room_for(run, &w, &e));
    walk(&w, &e);
    seam->butt = joint->seam == SW_SEAM_SQUARE;
    seam->blocker = SIZE_MAX;
    seam->bars_robot = SIZE_MAX;
    *seam->out = (sw_join_seam){.joint = joint,
                                .a = a->label,
                                .b = b->label,
                                .kind = joint->seam,
                                .throat_mm = joint->throat_mm,
                                .thick_a_mm = pa->thickness_mm,
                                .thick_b_mm = pb->thickness_mm,
                                .points = seam->sides[0],
                                .count = seam->count,
                                .touch_mm = touching(seam),
                                .in_the_way = "",
                                .ahead_of = "",
                                .why = ""};
    bool too_wide = join_gap_mm(job, seam->out) > join_gap_bridged_mm(job, seam->out); /* not known: it may be narrow */
    seam->for_robot = !too_wide && join_row_of(job, seam->out) != NULL;
    return SW_OK;
}

static bool end_there(const join_job *job, const sw_joint_end *end)
{
    const sw_stove *stove = job->in->stove;
    if (end->piece < 0 || (size_t)end->piece >= stove->piece_count) return false;
    const sw_piece *p = &stove->pieces[end->piece];
    return end->placement >= 0 && (size_t)end->placement < p->count && end->edge < (int)p->edge_count;
}

sw_status join_find_seams(sw_run *run, join_job *job)
{
    const sw_stove *stove = job->in->stove;
    sw_status status = SW_OK;
    job->seams = SW_SCRATCH(run, stove->joint_count, join_seam);
    job->told_seams = SW_KEEP(run, stove->joint_count, sw_join_seam);
    if (job->seams == NULL || job->told_seams == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->joint_count; i++) {
        const sw_joint *joint = &stove->joints[i];
        if (joint->seam == SW_SEAM_NONE) continue;
        if (!end_there(job, &joint->a) || !end_there(job, &joint->b) || joint->a.edge < 0) {
            status = sw_fail(run, SW_BAD_INPUT, joint->place, joint->name,
                             "joint '%s' names a piece, place or edge that is not there", joint->name);
            continue;
        }
        join_seam *seam = &job->seams[job->seam_count];
        *seam = (join_seam){.out = &job->told_seams[job->seam_count]};
        seam->a = job->first[joint->a.piece] + (size_t)joint->a.placement;
        seam->b = job->first[joint->b.piece] + (size_t)joint->b.placement;
        SW_TRY(trace(run, job, joint, seam));
        seam->out->number = ++job->seam_count;
    }
    return status;
}
