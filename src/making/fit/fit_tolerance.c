/* fit_tolerance.c: tolerance, sigma and texts of one contributor: the works' own capability where it gives one, else a third
 * of what a standard allows. */
#include "making/cut/cut.h"
#include "making/fit/fit_parts.h"

#include <math.h>

#define CAPABILITY "works description, capability; tolerance 3 sigma"

typedef struct wanted { /* what a contributor is given */
    double nominal, tolerance, works_sigma;
    const char *source, *unit, *feature;
    double size_mm; /* where the table is read; 0 by another table */
    bool outside;   /* of it */
} wanted;

/* Where both tables of general tolerances end. The draws go on with their last row; what leans on it is not judged. */
static const double table_ends_mm = 4000;
#define BEYOND "the standard's table ends at 4000 mm: "

static double in_table_mm(double size_mm, double least_mm, wanted *w)
{
    w->size_mm = size_mm;
    w->outside = size_mm > table_ends_mm;
    return fmin(table_ends_mm, fmax(least_mm, size_mm));
}

const char *sw_fit_operation_name(sw_fit_operation operation)
{
    static const char *const names[SW_FIT_OPERATIONS] = {"thickness", "cut",  "bend angle",
                                                         "bend line", "roll", "placing"};
    return names[operation];
}

static const sw_works *works_of(const fit_job *job)
{
    return job->in->model->works;
}

/* ---- thickness ---- */

static double sheet_width_mm(const fit_job *job, const sw_piece *p)
{
    const double usual_mm = 1500; /* common practice, no source */
    double widest_mm = 0;
    const sw_works *w = works_of(job);
    for (size_t i = 0; w != NULL && i < w->stock_count; i++)
        if (w->stock[i].grade == p->grade && fabs(w->stock[i].thickness_mm - p->thickness_mm) < SW_SAME_POINT_MM)
            widest_mm = fmax(widest_mm, fmin(w->stock[i].width_mm, w->stock[i].length_mm));
    return widest_mm > 0 ? widest_mm : usual_mm;
}

static wanted of_thickness(const fit_job *job, const sw_piece *p)
{
    wanted w = {.nominal = p->thickness_mm, .feature = "thickness", .unit = "mm"};
    w.tolerance = sw_thickness_tolerance_mm(p->grade, p->thickness_mm, sheet_width_mm(job, p));
    w.source = "EN 10051:2010 or EN 10131:2006, thickness; sigma a third of it";
    if (isfinite(w.tolerance)) return w;
    w.tolerance = 0.06 * p->thickness_mm;
    w.source = "no standard at hand for this sheet: 6 % of the thickness (ours); sigma a third of it";
    return w;
}

/* ---- cut ---- */

static void stretch(sw_contour c, sw_point way, double *low_mm, double *high_mm)
{
    for (size_t i = 0; i < c.n; i++) {
        double at_mm = c.v[i].x_mm * way.x_mm + c.v[i].y_mm * way.y_mm;
        *low_mm = fmin(*low_mm, at_mm);
        *high_mm = fmax(*high_mm, at_mm);
    }
}

/* Size across the cut line: of the flat for an outline, of the hole itself for a hole. */
static double size_across_mm(const sw_sheet_piece *piece, const fit_cut *cut)
{
    const sw_piece *p = piece->piece;
    if (cut->zone != 0) return piece->flat.box.x1_mm - piece->flat.box.x0_mm;
    const sw_region *r = &p->faces[cut->face].region;
    sw_contour c = cut->hole == 0 ? r->outline : r->holes[cut->hole - 1];
    sw_vertex from = c.v[cut->segment % c.n], next = c.v[(cut->segment + 1) % c.n];
    sw_point d = sw_segment_direction(from, (sw_point){next.x_mm, next.y_mm}, 0.5), way = {d.y_mm, -d.x_mm};
    double low_mm = INFINITY, high_mm = -INFINITY;
    if (cut->hole == 0) {
        double turn_rad = piece->flat.faces[cut->face].turn_rad, cs = cos(turn_rad), sn = sin(turn_rad);
        way = (sw_point){cs * way.x_mm - sn * way.y_mm, sn * way.x_mm + cs * way.y_mm};
        c = piece->flat.region.outline;
    }
    stretch(c, way, &low_mm, &high_mm);
    return high_mm - low_mm;
}

static const char *cut_feature(sw_run *run, const sw_piece *p, const fit_cut *cut)
{
    for (size_t e = 0; e < p->edge_count; e++) {
        const sw_edge *edge = &p->edges[e];
        if (edge->face == cut->face && edge->zone == cut->zone && edge->hole == cut->hole &&
            edge->first == cut->segment)
            return sw_text_format(run, run->keep, "%s: cut", edge->name);
    }
    if (cut->hole > 0)
        return sw_text_format(run, run->keep, "%s, hole %zu, side %zu: cut", p->faces[cut->face].name, cut->hole,
                              cut->segment + 1);
    return sw_text_format(run, run->keep, "%s, side %zu: cut", p->faces[cut->face].name, cut->segment + 1);
}

/* The standard's deviation is that of a size between two edges: one of them has 1/sqrt 2 of it (derived). */
static wanted of_cut(sw_run *run, const fit_job *job, const sw_sheet_piece *piece, const fit_cut *cut)
{
    double size_mm = size_across_mm(piece, cut);
    const sw_works *works = works_of(job);
    wanted w = {.nominal = size_mm, .unit = "mm", .works_sigma = works == NULL ? 0 : works->cut_sigma_mm};
    w.feature = cut_feature(run, piece->piece, cut);
    w.tolerance = sw_iso9013_deviation_mm(1, piece->piece->thickness_mm, size_mm) * sqrt(0.5);
    w.source = "ISO 9013:2017 class 1, half the variance of the size; sigma a third of it";
    if (isfinite(w.tolerance)) return w;
    w.tolerance = sw_iso2768_length_mm('m', in_table_mm(size_mm, 0.5, &w)) * sqrt(0.5);
    w.source = w.outside
                   ? BEYOND "ISO 2768-1"
                   : "ISO 2768-1 m (the sheet is outside ISO 9013's table), half the variance; sigma a third of it";
    return w;
}

/* ---- bends ---- */

static double depth_mm(const sw_face *face)
{
    double most_mm = 0;
    for (size_t i = 0; i < face->region.outline.n; i++) most_mm = fmax(most_mm, face->region.outline.v[i].y_mm);
    return most_mm;
}

/* Outside height of the child: its flat, the setback of its bend and of one at its far end. */
double fit_outside_height_mm(const sw_piece *p, size_t bend)
{
    const sw_bend *b = &p->bends[bend];
    double flat_mm = depth_mm(&p->faces[b->child]);
    double sum_mm = flat_mm + sw_bend_setback_mm(b->radius_mm, p->thickness_mm, fabs(b->angle_rad));
    for (size_t i = 0; i < p->bend_count; i++)
        if (p->bends[i].parent == b->child && p->bends[i].from.y_mm > flat_mm - SW_SHORTEST_MM &&
            p->bends[i].to.y_mm > flat_mm - SW_SHORTEST_MM)
            return sum_mm + sw_bend_setback_mm(p->bends[i].radius_mm, p->thickness_mm, fabs(p->bends[i].angle_rad));
    return sum_mm;
}

/* The shorter leg: of the child's depth and the parent's reach back from the bend. */
static double shorter_leg_mm(const sw_piece *p, size_t bend)
{
    const sw_bend *b = &p->bends[bend];
    double dx = b->to.x_mm - b->from.x_mm, dy = b->to.y_mm - b->from.y_mm, w_mm = hypot(dx, dy), back_mm = 0;
    const sw_contour *c = &p->faces[b->parent].region.outline;
    for (size_t i = 0; i < c->n; i++)
        back_mm = fmax(back_mm, ((c->v[i].y_mm - b->from.y_mm) * dx - (c->v[i].x_mm - b->from.x_mm) * dy) / w_mm);
    return fmin(fit_outside_height_mm(p, bend), back_mm + b->radius_mm + p->thickness_mm);
}

static wanted of_angle(sw_run *run, const fit_job *job, const sw_piece *p, size_t bend)
{
    const sw_works *works = works_of(job);
    wanted w = {.nominal = fabs(p->bends[bend].angle_rad), .unit = "rad"};
    w.works_sigma = works == NULL ? 0 : works->press.angle_sigma_rad;
    w.feature = sw_text_format(run, run->keep, "%s: bend angle", p->bends[bend].name);
    w.tolerance = sw_bend_angle_deviation_rad(fmax(1, shorter_leg_mm(p, bend)));
    w.source = "DIN 6935, angle by the shorter leg (from memory); sigma a third of it";
    return w;
}

static wanted of_line(sw_run *run, const fit_job *job, const sw_piece *p, size_t bend)
{
    const sw_works *works = works_of(job);
    wanted w = {.nominal = fit_outside_height_mm(p, bend), .unit = "mm"};
    w.works_sigma = works == NULL ? 0 : works->press.line_sigma_mm;
    w.feature = sw_text_format(run, run->keep, "%s: bend line", p->bends[bend].name);
    w.tolerance = sw_iso2768_length_mm('m', in_table_mm(w.nominal, 0.5, &w));
    w.source = w.outside ? BEYOND "ISO 2768-1" : "ISO 2768-1 m for the flange's height; sigma a third of it";
    return w;
}

static wanted of_roll(sw_run *run, const fit_job *job, const sw_piece *p, size_t bend)
{
    const sw_works *works = works_of(job);
    double r_mm = p->bends[bend].radius_mm;
    wanted w = {.nominal = r_mm, .unit = "mm", .works_sigma = works == NULL ? 0 : works->rolls.radius_sigma * r_mm};
    w.feature = sw_text_format(run, run->keep, "%s: roll", p->bends[bend].name);
    w.tolerance = sw_iso2768_radius_mm('m', fmax(0.5, r_mm));
    w.source = "ISO 2768-1 m for radii (from memory); sigma a third of it";
    return w;
}

/* ---- placing ---- */

static wanted of_place(sw_run *run, const fit_job *job, const sw_fit_contributor *c)
{
    static const char *const ways[6] = {"shift right",  "shift back",   "shift up",
                                        "turn about x", "turn about y", "turn about z"};
    const sw_works *works = works_of(job);
    const fit_specimen *s = &job->specimens[job->specimen_first[c->piece] + (size_t)c->placement];
    double per = c->axis < 3 ? 1 : 1 / s->lever_mm[c->axis - 3], size_mm = 2 * fmax(s->lever_mm[0], s->lever_mm[1]);
    wanted w = {.unit = c->axis < 3 ? "mm" : "rad", .nominal = 0};
    w.works_sigma = works == NULL ? 0 : works->welding.place_sigma_mm * per;
    w.feature = sw_text_format(run, run->keep, "placing, %s", ways[c->axis]);
    w.tolerance = sw_iso13920_length_mm('B', in_table_mm(size_mm, 2, &w)) * per;
    w.source = w.outside ? BEYOND "ISO 13920" : "ISO 13920 B for the piece's size; sigma a third of it";
    return w;
}

/* ---- all ---- */

static wanted wanted_of(sw_run *run, const fit_job *job, const fit_cut *cut, const sw_fit_contributor *c)
{
    const sw_sheet_piece *piece = &job->in->sheet->pieces[c->piece];
    switch (c->operation) {
    case SW_FIT_THICKNESS:
        return of_thickness(job, piece->piece);
    case SW_FIT_CUT:
        return of_cut(run, job, piece, cut);
    case SW_FIT_ANGLE:
        return of_angle(run, job, piece->piece, (size_t)c->bend);
    case SW_FIT_LINE:
        return of_line(run, job, piece->piece, (size_t)c->bend);
    case SW_FIT_ROLL:
        return of_roll(run, job, piece->piece, (size_t)c->bend);
    default:
        return of_place(run, job, c);
    }
}

static const char *name_of(sw_run *run, const sw_piece *p, const sw_fit_contributor *c)
{
    if (c->operation == SW_FIT_THICKNESS)
        return sw_text_format(run, run->keep, "%s %g mm: thickness", p->grade == NULL ? "sheet" : p->grade->name,
                              p->thickness_mm);
    if (p->count > 1)
        return sw_text_format(run, run->keep, "%s %s (place %d), %s", p->number, p->name, c->placement + 1, c->feature);
    return sw_text_format(run, run->keep, "%s %s, %s", p->number, p->name, c->feature);
}

sw_status fit_tolerance(sw_run *run, const fit_job *job, const fit_cut *cut, sw_fit_contributor *c)
{
    const sw_piece *p = job->in->sheet->pieces[c->piece].piece;
    wanted w = wanted_of(run, job, cut, c);
    if (w.feature == NULL) return SW_NO_MEMORY;
    c->of_works = w.works_sigma > 0;
    c->sigma = c->of_works ? w.works_sigma : w.tolerance / 3;
    c->size_mm = w.size_mm;
    c->outside = w.outside && !c->of_works;
    c->tolerance = c->of_works ? 3 * w.works_sigma : c->outside ? (double)NAN : w.tolerance;
    c->source = c->of_works ? CAPABILITY : w.source;
    c->nominal = w.nominal;
    c->unit = w.unit;
    c->feature = w.feature;
    c->name = name_of(run, p, c);
    return c->name == NULL ? SW_NO_MEMORY : SW_OK;
}
