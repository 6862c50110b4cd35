/* form_gauge.c: where the back gauge stops the sheet: which edge rests on it and how far behind the bend line. */
#include "making/form/form_parts.h"

#include <string.h>

/* What a stop is worth in the search (ours): a cut edge is as good as the cut, a bent one carries the bend before, a marked
 * line is set by eye; short distances are surer. */
static const double bent_cost = 20.0, line_cost = 60.0, far_cost = 5.0;

typedef struct seeker {
    form_job *job;
    uint32_t made;
    int line, face;
    double toward; /* +1: the child's side lies at the gauge, -1: the parent's */
    form_stance stance;
    form_rest_found best;
} seeker;

static double across_mm(const seeker *s, sw_vec3 p)
{
    return s->toward * sw_vec3_dot(sw_vec3_sub(p, s->stance.origin), s->stance.across);
}

static void offer(seeker *s, form_rest_found found)
{
    const sw_press *p = &s->job->works->press;
    if (found.length_mm < s->job->opt->finger_mm || found.gauge_mm <= 0.0) return;
    if (found.gauge_mm < p->gauge_least_mm || (p->gauge_most_mm > 0.0 && found.gauge_mm > p->gauge_most_mm)) return;
    double most_mm = p->gauge_most_mm > 0.0 ? p->gauge_most_mm : 1e3;
    found.cost = (found.rest == SW_FORM_BENT_EDGE ? bent_cost : 0.0) + far_cost * fmin(1.0, found.gauge_mm / most_mm);
    if (found.cost < s->best.cost) s->best = found;
}

static const char *edge_name(const sw_piece *p, int face, size_t segment)
{
    for (size_t i = 0; i < p->edge_count; i++) {
        const sw_edge *e = &p->edges[i];
        size_t n = p->faces[face].region.outline.n;
        if (e->face != face || e->hole != 0 || e->zone != 0) continue;
        if ((segment + n - e->first % n) % n < e->count) return e->name;
    }
    return p->faces[face].name;
}

/* Length of the segment that bends sit on; offers the made ones as bent edges. */
static double seated_mm(seeker *s, sw_point a, sw_point b, double x_mm)
{
    const form_body *body = s->job->body;
    double l = hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm), sum_mm = 0.0;
    for (size_t i = 0; i < body->piece->bend_count; i++) {
        const sw_bend *bend = &body->piece->bends[i];
        if (bend->parent != s->face) continue;
        double off =
            ((b.x_mm - a.x_mm) * (bend->from.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (bend->from.x_mm - a.x_mm)) / l;
        double along =
            ((b.x_mm - a.x_mm) * (bend->from.x_mm - a.x_mm) + (b.y_mm - a.y_mm) * (bend->from.y_mm - a.y_mm)) / l;
        if (fabs(off) > SW_SHORTEST_MM || along < -SW_SHORTEST_MM || along > l + SW_SHORTEST_MM) continue;
        int line = body->line_of[i];
        double w_mm = body->zones[i].width_mm, out_mm = bend->radius_mm + body->piece->thickness_mm;
        sum_mm += w_mm;
        if (line < 0 || line == s->line || (s->made >> line & 1u) == 0 || body->zones[i].angle_rad < SW_PI / 3.0)
            continue;
        double setback_mm =
            body->zones[i].angle_rad >= SW_PI / 2.0 ? out_mm : out_mm * tan(body->zones[i].angle_rad / 2.0);
        offer(s, (form_rest_found){SW_FORM_BENT_EDGE, x_mm + setback_mm, w_mm, 0.0, bend->name, (int)i});
    }
    return sum_mm;
}

static void look_at(seeker *s, sw_frame f, size_t segment)
{
    const sw_piece *p = s->job->body->piece;
    const sw_contour *c = &p->faces[s->face].region.outline;
    sw_vertex v = c->v[segment], w = c->v[(segment + 1) % c->n];
    sw_point a = {v.x_mm, v.y_mm}, b = {w.x_mm, w.y_mm};
    double l = hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
    if (fabs(v.bulge) > SW_FLAT_BULGE || l < SW_SHORTEST_MM) return;
    sw_vec3 out = sw_frame_direction(f, (sw_vec3){(b.y_mm - a.y_mm) / l, -(b.x_mm - a.x_mm) / l, 0.0});
    if (s->toward * sw_vec3_dot(out, s->stance.across) < 1.0 - 1e-6) return;
    double x_mm = across_mm(s, sw_frame_point(f, (sw_vec3){a.x_mm, a.y_mm, 0.0}));
    int own = s->job->body->bend_of[s->face];
    if (own >= 0 && fabs(a.y_mm) < SW_SHORTEST_MM && fabs(b.y_mm) < SW_SHORTEST_MM) return;
    double cut_mm = l - seated_mm(s, a, b, x_mm);
    offer(s, (form_rest_found){SW_FORM_CUT_EDGE, x_mm, cut_mm, 0.0, edge_name(p, s->face, segment), -1});
}

/* Sheet that lies level with the bend line can rest on the stop. */
static bool level(const seeker *s, sw_frame f)
{
    double height = sw_vec3_dot(sw_vec3_sub(f.origin, s->stance.origin), s->stance.up);
    return fabs(height) < SW_CONTACT_MM && fabs(sw_vec3_dot(f.z, s->stance.up)) > 1.0 - 1e-9;
}

form_rest_found form_rest_of(form_job *job, uint32_t made, int line, bool parent_to_gauge)
{
    form_pose pose = {.made = made, .line = line, .share = 0.0};
    const form_body *body = job->body;
    seeker s = {.job = job, .made = made, .line = line, .toward = parent_to_gauge ? -1.0 : 1.0};
    s.best = (form_rest_found){SW_FORM_BY_LINE, NAN, 0.0, line_cost, "", -1};
    form_frames(body, &pose, job->frames);
    s.stance = form_stance_of(body, &pose, job->frames);
    for (size_t f = 0; f < body->piece->face_count; f++) {
        if (!level(&s, job->frames[f])) continue;
        s.face = (int)f;
        for (size_t i = 0; i < body->piece->faces[f].region.outline.n; i++) look_at(&s, job->frames[f], i);
    }
    return s.best;
}
