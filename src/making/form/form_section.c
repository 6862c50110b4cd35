/* form_section.c: the piece as it stands in the press, seen along the bend line. */
#include "making/form/form_parts.h"

static const double chord_rad = 0.53; /* zones are drawn in chords of at most 30 degrees. ours */

static double share_of(const form_body *body, const form_pose *pose, int bend)
{
    int line = body->line_of[bend];
    if (line < 0) return body->rolls_made ? 1.0 : 0.0;
    if (line == pose->line) return pose->share;
    return (pose->made >> line & 1u) != 0 ? 1.0 : 0.0;
}

/* Straight on each side of the arc while the bend is under way. */
static double rest_mm(const form_zone *z, double share)
{
    return fmax(0.0, (1.0 - share) * z->allowance_mm / 2.0);
}

/* After the first rest and theta of the arc, in the bend's axes. */
static sw_frame frame_round(const form_zone *z, double before_mm, double theta_rad)
{
    double c = cos(theta_rad), s = sin(theta_rad);
    return (sw_frame){{1.0, 0.0, 0.0},
                      {0.0, c, z->side * s},
                      {0.0, -z->side * s, c},
                      {0.0, before_mm + z->middle_mm * s, z->side * z->middle_mm * (1.0 - c)}};
}

static sw_frame ahead(sw_frame f, double by_mm)
{
    f.origin = sw_vec3_add(f.origin, sw_vec3_scaled(f.y, by_mm));
    return f;
}

sw_frame form_child_frame(const form_zone *z, double share)
{
    double rest = rest_mm(z, share);
    return sw_frame_in(z->axes, ahead(frame_round(z, rest, share * z->angle_rad), rest));
}

void form_frames(const form_body *body, const form_pose *pose, sw_frame *frames)
{
    frames[0] = sw_frame_world();
    for (size_t f = 1; f < body->piece->face_count; f++) {
        int bend = body->bend_of[f], line = body->line_of[bend];
        const form_zone *z = &body->zones[bend];
        bool bent = line < 0 ? body->rolls_made : (pose->made >> line & 1u) != 0;
        sw_frame local = line >= 0 && line == pose->line ? form_child_frame(z, pose->share)
                         : bent                          ? z->child_bent
                                                         : z->child_flat;
        frames[f] = sw_frame_in(frames[body->piece->bends[bend].parent], local);
    }
}

double form_depth_mm(const form_body *body, const form_line *line, double share)
{
    double drawn_mm =
        body->piece->bends[line->bends[0]].radius_mm; /* the sheet is drawn with it, so the tools must be */
    double half = share * line->angle_rad / 2.0, outer_mm = drawn_mm + body->piece->thickness_mm;
    return line->die_mm / 2.0 * tan(half) - outer_mm * (1.0 / cos(half) - 1.0);
}

form_stance form_stance_of(const form_body *body, const form_pose *pose, const sw_frame *frames)
{
    const form_line *line = &body->lines[pose->line];
    int bend = line->bends[0];
    const form_zone *z = &body->zones[bend];
    sw_frame at = sw_frame_in(frames[body->piece->bends[bend].parent], z->axes);
    double share = pose->level ? 0.0 : pose->share, rest = rest_mm(z, share);
    sw_frame middle = sw_frame_in(at, frame_round(z, rest, share * z->angle_rad / 2.0));
    form_stance st = {
        .origin = middle.origin, .across = middle.y, .up = sw_vec3_scaled(middle.z, z->side), .along = middle.x};
    st.lift_mm = body->piece->thickness_mm / 2.0 - (pose->level ? 0.0 : form_depth_mm(body, line, share));
    return st;
}

typedef struct tracer {
    form_job *job;
    const form_pose *pose;
    form_stance stance;
    size_t count;
    int part; /* of the slabs that are added */
    bool moves;
} tracer;

static sw_vec3 seen(const form_stance *st, sw_vec3 p)
{
    sw_vec3 d = sw_vec3_sub(p, st->origin);
    return (sw_vec3){sw_vec3_dot(d, st->across), sw_vec3_dot(d, st->up) + st->lift_mm, sw_vec3_dot(d, st->along)};
}

/* Ends of a stretch of a flat part, thickened: p to q in the section. */
static void bar(form_slab *s, sw_point p, sw_point q, double half_mm)
{
    double l = hypot(q.x_mm - p.x_mm, q.y_mm - p.y_mm);
    double nx = l > 0.0 ? -(q.y_mm - p.y_mm) / l * half_mm : 0.0,
           ny = l > 0.0 ? (q.x_mm - p.x_mm) / l * half_mm : half_mm;
    s->p[0] = (sw_point){p.x_mm - nx, p.y_mm - ny};
    s->p[1] = (sw_point){q.x_mm - nx, q.y_mm - ny};
    s->p[2] = (sw_point){q.x_mm + nx, q.y_mm + ny};
    s->p[3] = (sw_point){p.x_mm + nx, p.y_mm + ny};
    s->n = 4;
}

typedef struct cloud { /* points of a part that lie within the clip */
    sw_point *points;  /* [FORM_CLOUD] */
    size_t count;
    double low_mm, high_mm;
} cloud;
enum { FORM_CLOUD = 400 };

static void drop_in(cloud *c, sw_vec3 p)
{
    c->low_mm = p.z_mm < c->low_mm ? p.z_mm : c->low_mm;
    c->high_mm = p.z_mm > c->high_mm ? p.z_mm : c->high_mm;
    if (c->count < FORM_CLOUD) c->points[c->count] = (sw_point){p.x_mm, p.y_mm};
    c->count++;
}

static sw_vec3 cut_at(sw_vec3 a, sw_vec3 b, double z_mm)
{
    double t = (z_mm - a.z_mm) / (b.z_mm - a.z_mm);
    return (sw_vec3){a.x_mm + t * (b.x_mm - a.x_mm), a.y_mm + t * (b.y_mm - a.y_mm), z_mm};
}

/* Corners of a flat part within the clip, and where its edges cross the clip's ends. */
static void clip_in(cloud *c, const form_pose *pose, const sw_vec3 *ring, size_t n)
{
    const double ends[2] = {pose->clip_low_mm, pose->clip_high_mm};
    for (size_t i = 0; i < n; i++) {
        sw_vec3 a = ring[i], b = ring[(i + 1) % n];
        if (a.z_mm >= ends[0] && a.z_mm <= ends[1]) drop_in(c, a);
        for (int e = 0; e < 2; e++)
            if ((a.z_mm < ends[e]) != (b.z_mm < ends[e])) drop_in(c, cut_at(a, b, ends[e]));
    }
}

/* A hull of too many corners gives way to its box. */
static void hull_of(form_slab *s, cloud *c)
{
    sw_point hull[2 * FORM_CLOUD];
    size_t kept = c->count < FORM_CLOUD ? c->count : FORM_CLOUD, n = sw_points_hull(c->points, kept, hull);
    sw_box b = {INFINITY, INFINITY, -INFINITY, -INFINITY};
    if (n <= FORM_CORNERS) {
        for (size_t i = 0; i < n; i++) s->p[i] = hull[i];
        s->n = n;
        return;
    }
    for (size_t i = 0; i < n; i++) {
        b.x0_mm = fmin(b.x0_mm, hull[i].x_mm);
        b.x1_mm = fmax(b.x1_mm, hull[i].x_mm);
        b.y0_mm = fmin(b.y0_mm, hull[i].y_mm);
        b.y1_mm = fmax(b.y1_mm, hull[i].y_mm);
    }
    s->p[0] = (sw_point){b.x0_mm, b.y0_mm};
    s->p[1] = (sw_point){b.x1_mm, b.y0_mm};
    s->p[2] = (sw_point){b.x1_mm, b.y1_mm};
    s->p[3] = (sw_point){b.x0_mm, b.y1_mm};
    s->n = 4;
}

/* A flat ring in space with unit normal (section frame) as a slab. */
static void add_ring(tracer *t, const sw_vec3 *ring, size_t n, sw_vec3 normal)
{
    form_slab *slab = &t->job->slabs[t->count];
    sw_point points[FORM_CLOUD];
    double half_mm = t->job->body->piece->thickness_mm / 2.0;
    cloud c = {points, 0, INFINITY, -INFINITY};
    if (fabs(normal.z_mm) < 1e-9) { /* lies along the bend: a bar */
        clip_in(&c, t->pose, ring, n);
        double ux = normal.y_mm, uy = -normal.x_mm, low = INFINITY, high = -INFINITY;
        size_t kept = c.count < FORM_CLOUD ? c.count : FORM_CLOUD;
        if (kept == 0) return;
        for (size_t i = 0; i < kept; i++) {
            double along = points[i].x_mm * ux + points[i].y_mm * uy;
            low = fmin(low, along);
            high = fmax(high, along);
        }
        double off = ring[0].x_mm * normal.x_mm + ring[0].y_mm * normal.y_mm;
        sw_point p = {low * ux + off * normal.x_mm, low * uy + off * normal.y_mm};
        sw_point q = {high * ux + off * normal.x_mm, high * uy + off * normal.y_mm};
        bar(slab, p, q, half_mm);
    } else {
        for (int side = -1; side <= 1; side += 2) {
            sw_vec3 moved[FORM_CLOUD];
            size_t m = n < FORM_CLOUD ? n : FORM_CLOUD;
            for (size_t i = 0; i < m; i++) moved[i] = sw_vec3_add(ring[i], sw_vec3_scaled(normal, side * half_mm));
            clip_in(&c, t->pose, moved, m);
        }
        if (c.count < 3) return;
        hull_of(slab, &c);
    }
    slab->thing = SW_FORM_SHEET;
    slab->part = t->part;
    slab->moves = t->moves;
    slab->low_mm = c.low_mm;
    slab->high_mm = c.high_mm;
    form_slab_box(slab);
    t->count++;
}

static sw_vec3 seen_direction(const form_stance *st, sw_vec3 d)
{
    return (sw_vec3){sw_vec3_dot(d, st->across), sw_vec3_dot(d, st->up), sw_vec3_dot(d, st->along)};
}

/* A frame's axes and origin as they are seen in the section. */
static sw_frame seen_frame(const form_stance *st, sw_frame f)
{
    return (sw_frame){seen_direction(st, f.x), seen_direction(st, f.y), seen_direction(st, f.z), seen(st, f.origin)};
}

static sw_vec3 in_plane(const sw_frame *f, double x_mm, double y_mm)
{
    return (sw_vec3){f->origin.x_mm + x_mm * f->x.x_mm + y_mm * f->y.x_mm,
                     f->origin.y_mm + x_mm * f->x.y_mm + y_mm * f->y.y_mm,
                     f->origin.z_mm + x_mm * f->x.z_mm + y_mm * f->y.z_mm};
}

static void add_face(tracer *t, int face)
{
    const form_outline *o = &t->job->body->faces[face];
    sw_vec3 ring[FORM_CLOUD];
    sw_frame f = seen_frame(&t->stance, t->job->frames[face]);
    size_t n = 0, stride = (o->count + FORM_CLOUD - 1) / FORM_CLOUD; /* every corner unless there are very many */
    if (o->count < 3) return;
    for (size_t i = 0; i < o->count; i += stride) ring[n++] = in_plane(&f, o->points[i].x_mm, o->points[i].y_mm);
    t->part = face;
    add_ring(t, ring, n, f.z);
}

/* From a to b of the zone's profile (y out of the parent, z up), over its width; base as seen. */
static void add_strip(tracer *t, const sw_frame *base, double width_mm, const sw_point profile[2])
{
    sw_vec3 ring[4], across = sw_vec3_scaled(base->x, width_mm);
    for (int i = 0; i < 2; i++) {
        sw_vec3 p = sw_vec3_add(base->origin, sw_vec3_scaled(base->y, profile[i].x_mm));
        ring[i == 0 ? 0 : 3] = p = sw_vec3_add(p, sw_vec3_scaled(base->z, profile[i].y_mm));
        ring[i == 0 ? 1 : 2] = sw_vec3_add(p, across);
    }
    double dy = profile[1].x_mm - profile[0].x_mm, dz = profile[1].y_mm - profile[0].y_mm, l = hypot(dy, dz);
    if (l < SW_SAME_POINT_MM) return;
    sw_vec3 normal = sw_vec3_add(sw_vec3_scaled(base->z, dy / l), sw_vec3_scaled(base->y, -dz / l));
    add_ring(t, ring, 4, normal);
}

static void add_zone(tracer *t, int bend)
{
    const form_body *body = t->job->body;
    const form_zone *z = &body->zones[bend];
    double share = share_of(body, t->pose, bend), rest = rest_mm(z, share), round = share * z->angle_rad;
    sw_frame base = seen_frame(&t->stance, sw_frame_in(t->job->frames[body->piece->bends[bend].parent], z->axes));
    size_t chords = round > 1e-9 ? (size_t)ceil(round / chord_rad) : 0;
    t->part = (int)(body->piece->face_count) + bend;
    sw_point from_to[2] = {{0.0, 0.0}, {rest, 0.0}};
    if (rest > SW_SHORTEST_MM) add_strip(t, &base, z->width_mm, from_to);
    for (size_t k = 1; k <= chords; k++) {
        double theta = round * (double)k / (double)chords;
        from_to[0] = from_to[1];
        from_to[1] = (sw_point){rest + z->middle_mm * sin(theta), z->side * z->middle_mm * (1.0 - cos(theta))};
        add_strip(t, &base, z->width_mm, from_to);
    }
    from_to[0] = from_to[1];
    from_to[1] = (sw_point){from_to[0].x_mm + rest * cos(round), from_to[0].y_mm + z->side * rest * sin(round)};
    if (rest > SW_SHORTEST_MM) add_strip(t, &base, z->width_mm, from_to);
}

/* Whether the face hangs on one of the line's bends. */
static bool hangs(const form_body *body, int line, int face)
{
    while (body->bend_of[face] >= 0) {
        if (body->line_of[body->bend_of[face]] == line) return true;
        face = body->piece->bends[body->bend_of[face]].parent;
    }
    return false;
}

size_t form_section(form_job *job, const form_pose *pose, const unsigned char *wanted)
{
    const form_body *body = job->body;
    form_frames(body, pose, job->frames);
    tracer t = {.job = job, .pose = pose, .stance = form_stance_of(body, pose, job->frames)};
    for (size_t f = 0; f < body->piece->face_count; f++) {
        if (wanted != NULL && wanted[f] == 0) continue;
        t.moves = hangs(body, pose->line, (int)f);
        add_face(&t, (int)f);
        if (body->bend_of[f] >= 0) add_zone(&t, body->bend_of[f]);
    }
    return t.count;
}
