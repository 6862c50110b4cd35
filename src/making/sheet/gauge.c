/* gauge.c: how far a point lies from a folded piece. Each face is a plate of even thickness and each zone a sector of a
 * tube, so the distance to the nearest of them is exact; no mesh, no chords. Only the walls of a zone's cut-outs are
 * chords, within SW_CHORD_MM.
 *
 * The part that was nearest to the last point is asked first, then those whose box is nearer than what was found. */
#include "making/sheet/sheet_parts.h"

#include <math.h>

typedef struct gauge_part {
    sw_space_box box;            /* piece frame; low > high = nothing there */
    sw_frame frame;              /* face or zone axes */
    const sw_edges *edges;       /* of a face's region; of a zone's cut-outs, plane axes; NULL = none */
    const sw_folded_edge *walls; /* [hole_count of the bend] of a zone's cut-outs */
} gauge_part;

struct sw_gauge {
    const sw_tree *tree;
    gauge_part *parts;
    size_t count, last; /* last: the part nearest to the last point asked for */
    double half_mm;
};

/* ---- made once a piece -------------------------------------------------------------------------- */

static sw_status zone_holes(sw_run *run, const sw_sheet_case *c, int bend, gauge_part *out)
{
    const sw_bend *b = &c->tree->piece->bends[bend];
    sw_contour *holes = SW_SCRATCH(run, b->hole_count, sw_contour);
    sw_folded_edge *walls = SW_SCRATCH(run, b->hole_count, sw_folded_edge);
    sw_edge_tracer t = {run, run->scratch, c->tree, c->piece->solid.faces, SW_CHORD_MM};
    if (holes == NULL || walls == NULL) return SW_NO_MEMORY;
    for (size_t h = 0; h < b->hole_count; h++) {
        size_t n = b->holes[h].contour.n;
        sw_vertex *room = SW_SCRATCH(run, n, sw_vertex);
        if (room == NULL) return SW_NO_MEMORY;
        holes[h] = sw_sheet_zone_hole(c->tree, bend, h, room);
        sw_edge round = {.name = "", .face = b->child, .count = n, .hole = h + 1, .zone = (size_t)bend + 1};
        SW_TRY(sw_sheet_trace(&t, &round, &walls[h]));
    }
    out->walls = walls;
    return sw_edges_make(run, run->scratch, holes, b->hole_count, &out->edges);
}

static sw_space_box wider(sw_space_box b, double by_mm)
{
    sw_vec3 by = {by_mm, by_mm, by_mm};
    return (sw_space_box){sw_vec3_sub(b.low, by), sw_vec3_add(b.high, by)};
}

static sw_status make_part(sw_run *run, const sw_sheet_case *c, size_t part, double chord_mm, gauge_part *out)
{
    const sw_piece *p = c->tree->piece;
    const sw_frame *frames = c->piece->solid.faces;
    out->box = c->boxes[part];
    if (part < p->face_count) {
        out->frame = frames[part];
        return sw_edges_of_region(run, run->scratch, &p->faces[part].region, &out->edges);
    }
    int bend = (int)(part - p->face_count);
    out->frame = sw_sheet_zone_frame(c->tree, frames, bend);
    out->box = wider(out->box, chord_mm);
    return p->bends[bend].hole_count > 0 ? zone_holes(run, c, bend, out) : SW_OK;
}

sw_status sw_gauge_make(sw_run *run, const sw_sheet_case *c, double chord_mm, sw_gauge **out)
{
    size_t count = c->complex->part_count;
    sw_gauge *gauge = SW_SCRATCH(run, 1, sw_gauge);
    gauge_part *parts = SW_SCRATCH(run, count, gauge_part);
    if (gauge == NULL || parts == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) SW_TRY(make_part(run, c, i, chord_mm, &parts[i]));
    *gauge = (sw_gauge){.tree = c->tree, .parts = parts, .count = count, .half_mm = c->tree->piece->thickness_mm / 2.0};
    *out = gauge;
    return SW_OK;
}

/* ---- one part ------------------------------------------------------------------------------------ */

static double beyond(double x, double low, double high)
{
    return x < low ? low - x : x > high ? x - high : 0.0;
}

/* q in the face's frame. */
static double face_gap(const gauge_part *part, double half_mm, sw_vec3 q, double most_mm)
{
    double over_mm = beyond(q.z_mm, -half_mm, half_mm);
    sw_point foot = {q.x_mm, q.y_mm};
    if (over_mm >= most_mm) return most_mm;
    if (sw_edges_side(part->edges, foot) >= 0) return over_mm;
    return hypot(over_mm, sw_edges_distance(part->edges, foot, most_mm));
}

/* Rectangles along the chords. */
double sw_wall_gap(const sw_folded_edge *e, double half_mm, sw_vec3 p)
{
    double least_mm = INFINITY;
    for (size_t i = 0; i + 1 < e->count; i++) {
        sw_vec3 along = sw_vec3_sub(e->points[i + 1], e->points[i]), from = sw_vec3_sub(p, e->points[i]);
        sw_vec3 normal = sw_vec3_unit(sw_vec3_add(e->normals[i], e->normals[i + 1]));
        double length_mm = sw_vec3_length(along), x_mm = sw_vec3_dot(from, along) / length_mm;
        double z_mm = sw_vec3_dot(from, normal);
        double dx = x_mm - fmin(length_mm, fmax(0.0, x_mm)), dz = z_mm - fmin(half_mm, fmax(-half_mm, z_mm));
        double across2 = fmax(0.0, sw_vec3_dot(from, from) - x_mm * x_mm - z_mm * z_mm);
        least_mm = fmin(least_mm, sqrt(across2 + dx * dx + dz * dz));
    }
    return least_mm;
}

typedef struct round_point { /* a point in the axes of a zone */
    double x_mm, rho_mm;     /* along the bend; from its axis */
    double theta_rad;        /* from the parent's tangent line, nearest to the middle of the zone */
} round_point;

static round_point round_of(const sw_bend *b, double middle_mm, sw_vec3 q)
{
    double out_mm = q.y_mm, up_mm = middle_mm - (b->angle_rad > 0.0 ? q.z_mm : -q.z_mm),
           mid_rad = fabs(b->angle_rad) / 2.0;
    return (round_point){q.x_mm, hypot(out_mm, up_mm),
                         mid_rad + remainder(atan2(out_mm, up_mm) - mid_rad, 2.0 * SW_PI)};
}

/* From the end plane at the angle off_rad away, in the plane across the bend. */
static double end_gap(round_point p, double off_rad, double low_mm, double high_mm)
{
    return hypot(p.rho_mm * sin(off_rad), beyond(p.rho_mm * cos(off_rad), low_mm, high_mm));
}

static double hole_gap(const sw_gauge *gauge, const sw_bend *b, const gauge_part *part, sw_vec3 p)
{
    double least_mm = INFINITY;
    for (size_t h = 0; h < b->hole_count; h++)
        least_mm = fmin(least_mm, sw_wall_gap(&part->walls[h], gauge->half_mm, p));
    return least_mm;
}

static double zone_gap(const sw_gauge *gauge, size_t bend, const gauge_part *part, sw_vec3 p)
{
    const sw_bend *b = &gauge->tree->piece->bends[bend];
    const sw_zone *z = &gauge->tree->zones[bend];
    double low_mm = b->radius_mm, high_mm = low_mm + 2.0 * gauge->half_mm, angle_rad = fabs(b->angle_rad);
    round_point q = round_of(b, z->middle_mm, sw_frame_local(part->frame, p));
    double along_mm = beyond(q.x_mm, 0.0, z->width_mm);
    if (q.theta_rad < 0.0 || q.theta_rad > angle_rad) {
        double near_end_mm = end_gap(q, q.theta_rad, low_mm, high_mm);
        return hypot(along_mm, fmin(near_end_mm, end_gap(q, q.theta_rad - angle_rad, low_mm, high_mm)));
    }
    sw_point foot = {q.x_mm, q.theta_rad / angle_rad * z->allowance_mm};
    bool in_hole = part->edges != NULL && sw_edges_side(part->edges, foot) > 0;
    return in_hole ? hole_gap(gauge, b, part, p) : hypot(along_mm, beyond(q.rho_mm, low_mm, high_mm));
}

static double part_gap(const sw_gauge *gauge, size_t i, sw_vec3 p, double most_mm)
{
    const gauge_part *part = &gauge->parts[i];
    size_t faces = gauge->tree->piece->face_count;
    if (!(part->box.low.x_mm <= part->box.high.x_mm)) return INFINITY;
    return i < faces ? face_gap(part, gauge->half_mm, sw_frame_local(part->frame, p), most_mm)
                     : zone_gap(gauge, i - faces, part, p);
}

double sw_gauge_part_gap(const sw_gauge *gauge, int part, sw_vec3 p)
{
    return part_gap(gauge, (size_t)part, p, INFINITY);
}

/* ---- the piece ------------------------------------------------------------------------------------ */

/* Square of the distance to the box, mm2. */
static double box_gap2(const sw_space_box *b, sw_vec3 p)
{
    double dx = beyond(p.x_mm, b->low.x_mm, b->high.x_mm), dy = beyond(p.y_mm, b->low.y_mm, b->high.y_mm);
    double dz = beyond(p.z_mm, b->low.z_mm, b->high.z_mm);
    return dx * dx + dy * dy + dz * dz;
}

double sw_gauge_gap(sw_gauge *gauge, sw_vec3 p)
{
    double least_mm = part_gap(gauge, gauge->last, p, INFINITY);
    size_t asked = gauge->last;
    for (size_t i = 0; i < gauge->count && least_mm > 0.0; i++) {
        if (i == asked || box_gap2(&gauge->parts[i].box, p) >= least_mm * least_mm) continue;
        double gap_mm = part_gap(gauge, i, p, least_mm);
        if (gap_mm >= least_mm) continue;
        least_mm = gap_mm;
        gauge->last = i;
    }
    return least_mm;
}

/* ---- slots ------------------------------------------------------------------------------------------ */

bool sw_gauge_in_slot(const sw_gauge *gauge, sw_vec3 p, double reach_mm)
{
    const sw_piece *piece = gauge->tree->piece;
    for (size_t f = 0; f < piece->face_count; f++) {
        const gauge_part *part = &gauge->parts[f];
        sw_vec3 q = sw_frame_local(part->frame, p);
        sw_point foot = {q.x_mm, q.y_mm};
        if (piece->faces[f].region.hole_count == 0 || fabs(q.z_mm) > gauge->half_mm + reach_mm) continue;
        if (sw_edges_side(part->edges, foot) < 0 && sw_contour_side(piece->faces[f].region.outline, foot) > 0)
            return true;
    }
    return false;
}
