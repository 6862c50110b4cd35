/* form_lines.c: which bends one stroke makes, and how long their legs are. */
#include "making/form/form_parts.h"

/* How far the material reaches from p in direction d, to the first edge met. */
static double reach_mm(const form_outline *o, sw_point p, sw_point d)
{
    double best_mm = INFINITY;
    for (size_t i = 0; i < o->count; i++) {
        sw_point a = o->points[i], b = o->points[(i + 1) % o->count];
        double ex = b.x_mm - a.x_mm, ey = b.y_mm - a.y_mm, cross = d.x_mm * ey - d.y_mm * ex;
        if (fabs(cross) < 1e-12) continue;
        double ax = a.x_mm - p.x_mm, ay = a.y_mm - p.y_mm;
        double t = (ax * ey - ay * ex) / cross, s = (ax * d.y_mm - ay * d.x_mm) / cross;
        if (s >= 0.0 && s <= 1.0 && t > 0.01) best_mm = fmin(best_mm, t);
    }
    return isinf(best_mm) ? 0.0 : best_mm;
}

double form_leg_mm(const form_body *body, int bend, bool of_child)
{
    const sw_bend *b = &body->piece->bends[bend];
    double w_mm = body->zones[bend].width_mm, least_mm = INFINITY;
    sw_point u = {(b->to.x_mm - b->from.x_mm) / w_mm, (b->to.y_mm - b->from.y_mm) / w_mm};
    for (int i = 1; i <= 9; i += 2) {
        double t = 0.1 * i * w_mm;
        sw_point at = of_child ? (sw_point){t, 0.0} : (sw_point){b->from.x_mm + t * u.x_mm, b->from.y_mm + t * u.y_mm};
        sw_point d = of_child ? (sw_point){0.0, 1.0} : (sw_point){-u.y_mm, u.x_mm};
        least_mm = fmin(least_mm, reach_mm(&body->faces[of_child ? b->child : b->parent], at, d));
    }
    return least_mm;
}

static bool on_one_line(const form_body *body, int first, int other)
{
    const sw_bend *a = &body->piece->bends[first], *b = &body->piece->bends[other];
    const form_zone *z = &body->zones[first];
    if (a->parent != b->parent || a->kind != b->kind || fabs(a->angle_rad - b->angle_rad) > 1e-9) return false;
    if (fabs(a->radius_mm - b->radius_mm) > SW_SAME_POINT_MM) return false;
    sw_vec3 from = sw_frame_local(z->axes, (sw_vec3){b->from.x_mm, b->from.y_mm, 0.0});
    sw_vec3 to = sw_frame_local(z->axes, (sw_vec3){b->to.x_mm, b->to.y_mm, 0.0});
    return fabs(from.y_mm) < SW_SHORTEST_MM && fabs(to.y_mm) < SW_SHORTEST_MM && from.x_mm > to.x_mm;
}

/* The bend on this one's child that makes it a joggle: same angle the other way, too near for two strokes. */
static int joggle_twin(const form_body *body, int bend)
{
    const sw_piece *p = body->piece;
    const sw_bend *b = &p->bends[bend];
    double straight_mm = form_leg_mm(body, bend, true);
    double setback_mm = sw_bend_setback_mm(b->radius_mm, p->thickness_mm, b->angle_rad);
    if (b->kind != SW_PRESSED || straight_mm + setback_mm >= sw_least_flange_mm(sw_die_wanted_mm(p->thickness_mm)))
        return -1;
    for (size_t i = 0; i < p->bend_count; i++) {
        const sw_bend *other = &p->bends[i];
        if (other->parent == b->child && other->kind == SW_PRESSED && fabs(other->angle_rad + b->angle_rad) < 1e-6)
            return (int)i;
    }
    return -1;
}

static void measure(form_body *body, form_line *line, bool joggle)
{
    int first = line->bends[0];
    const sw_bend *b = &body->piece->bends[first];
    const form_zone *z = &body->zones[first];
    double turn = body->sheet->flat.faces == NULL ? 0.0 : body->sheet->flat.faces[b->parent].turn_rad;
    line->side = z->side;
    line->angle_rad = z->angle_rad;
    line->heading_rad = atan2(z->axes.y.y_mm, z->axes.y.x_mm) + turn;
    line->from_mm = 0.0;
    line->to_mm = z->width_mm;
    line->kind = joggle ? SW_FORM_JOGGLE : b->kind == SW_HEMMED ? SW_FORM_PREBEND : SW_FORM_BEND;
    line->flange_mm = INFINITY;
    for (size_t i = 0; i < line->count; i++) {
        int k = line->bends[i];
        const sw_bend *other = &body->piece->bends[k];
        double setback_mm = sw_bend_setback_mm(other->radius_mm, body->piece->thickness_mm, other->angle_rad);
        if (joggle && i > 0) break;
        line->bent_mm += body->zones[k].width_mm;
        sw_vec3 to = sw_frame_local(z->axes, (sw_vec3){other->to.x_mm, other->to.y_mm, 0.0});
        line->from_mm = fmin(line->from_mm, to.x_mm);
        line->to_mm = fmax(line->to_mm, to.x_mm + body->zones[k].width_mm);
        line->flange_mm =
            fmin(line->flange_mm, setback_mm + fmin(form_leg_mm(body, k, true), form_leg_mm(body, k, false)));
    }
}

static sw_status collect(sw_run *run, form_body *body, int *line_of, int first)
{
    const sw_piece *p = body->piece;
    int *bends = SW_SCRATCH(run, p->bend_count, int);
    if (bends == NULL) return SW_NO_MEMORY;
    form_line *line = &body->lines[body->line_count];
    *line = (form_line){.bends = bends, .over_source = ""};
    int twin = joggle_twin(body, first);
    for (int k = first; k < (int)p->bend_count; k++) {
        bool same =
            k == first || (twin < 0 && line_of[k] == -2 && on_one_line(body, first, k) && joggle_twin(body, k) < 0);
        if (!same) continue;
        bends[line->count++] = k;
        line_of[k] = (int)body->line_count;
    }
    if (twin >= 0) {
        bends[line->count++] = twin;
        line_of[twin] = (int)body->line_count;
    }
    measure(body, line, twin >= 0);
    body->line_count++;
    return SW_OK;
}

/* A tool shorter than the bend by the allowed rest; the whole machine's length where tools are not made up. */
static void cut_tools(const sw_form_options *opt, form_body *body)
{
    for (size_t i = 0; i < body->line_count; i++) {
        form_line *l = &body->lines[i];
        double short_mm = fmin(opt->tool_short_mm, (l->to_mm - l->from_mm) / 4.0);
        l->from_mm = opt->segmented > 0.5 ? l->from_mm + short_mm : (double)-INFINITY;
        l->to_mm = opt->segmented > 0.5 ? l->to_mm - short_mm : (double)INFINITY;
    }
}

sw_status form_lines(sw_run *run, const sw_form_options *opt, form_body *body)
{
    const sw_piece *p = body->piece;
    int *line_of = SW_SCRATCH(run, p->bend_count, int);
    body->lines = SW_SCRATCH(run, p->bend_count, form_line);
    if (p->bend_count == 0) return SW_OK;
    if (line_of == NULL || body->lines == NULL) return SW_NO_MEMORY;
    for (size_t b = 0; b < p->bend_count; b++) line_of[b] = p->bends[b].kind == SW_ROLLED ? -1 : -2;
    for (size_t b = 0; b < p->bend_count; b++)
        if (line_of[b] == -2) SW_TRY(collect(run, body, line_of, (int)b));
    body->line_of = line_of;
    cut_tools(opt, body);
    return SW_OK;
}
