/* nest_verify.c: an independent look at a finished nest. Shares nothing with the search: the exact flat regions,
 * as chords of 0.01 mm, moved as the result says, and their distances by GEOS. Of two pieces only those edges are measured that
 * reach into both boxes, grown by the web: nearer ones there are none. */
#include "making/nest/nest_verify_parts.h"

#include <geos_c.h>
#include <math.h>
#include <stdlib.h>

static const double slack_mm = 0.02;    /* two chord errors of SW_CHORD_MM */
static const double angle_slack = 1e-9; /* rad: 2e-5 mm at the largest sheet */

static const size_t zone_place = SIZE_MAX; /* in place of a piece's place */

typedef struct flat {
    sw_point *points;
    size_t *ends;
    size_t rings;
} flat; /* rings as of nest_rings; ring 0 outline */

typedef struct laid { /* one piece on the sheet, or the sheet itself */
    const flat *flat;
    sw_point *points;    /* those of the flat, moved */
    sw_box box;          /* of the points */
    GEOSGeometry *shape; /* NULL until asked for */
    size_t place;        /* or zone_place */
} laid;

typedef struct table { /* the sheet being looked at */
    sw_run *run;
    const sw_nest_input *in;
    const flat *flats;
    GEOSContextHandle_t geos;
    const sw_nest_sheet *sheet;
    size_t number; /* of the sheet, from 1 */
    laid *pieces;  /* [count] and zones where nothing may be cut, by their left ends */
    size_t count;
    laid plate;
    flat plate_flat;
    sw_box plain;          /* of a rectangular sheet without cut-outs; else empty */
    GEOSGeometry **chains; /* [most_runs] for runs of edges */
} table;

static const char *name_of(const table *t, size_t place)
{
    return t->in->shapes[t->sheet->places[place].shape].name;
}

static sw_status refuse(const table *t, size_t place, const char *what, double value)
{
    sw_motion m = t->sheet->places[place].motion;
    return sw_fail(t->run, SW_INTERNAL, (sw_place){0}, t->in->name,
                   "sheet %zu, place %zu, piece \"%s\" at (%.2f, %.2f) mm: %s (%.4f mm); this nest is not given out",
                   t->number, place + 1, name_of(t, place), m.dx_mm, m.dy_mm, what, value);
}

/* ---- turns, motions ------------------------------------------------------------------------ */

static bool turn_allowed(const sw_nest_shape *shape, sw_motion m)
{
    if (!isfinite(m.turn_rad) || !isfinite(m.dx_mm) || !isfinite(m.dy_mm)) return false;
    if (m.mirror && !shape->may_flip) return false;
    double step = shape->turns == SW_TURN_FREE      ? 0
                  : shape->turns == SW_TURN_QUARTER ? SW_PI / 2
                  : shape->turns == SW_TURN_HALF    ? SW_PI
                                                    : 2 * SW_PI;
    return step == 0 || fabs(remainder(m.turn_rad, step)) <= angle_slack;
}

static sw_status check_turns(const table *t)
{
    for (size_t i = 0; i < t->sheet->place_count; i++) {
        const sw_nest_place *p = &t->sheet->places[i];
        if (!turn_allowed(&t->in->shapes[p->shape], p->motion))
            return refuse(t, i, "its turn or flip is not allowed", 0);
    }
    return SW_OK;
}

/* ---- flats ------------------------------------------------------------------------------------------- */

static sw_status no_geometry(const table *t)
{
    return sw_fail(t->run, SW_NO_MEMORY, (sw_place){0}, t->in->name, "no memory to check the nest with");
}

static sw_status flattened_rings(sw_run *run, const sw_region *r, sw_contour *rings)
{
    SW_TRY(sw_contour_flattened(run, r->outline, SW_CHORD_MM, &rings[0]));
    for (size_t i = 0; i < r->hole_count; i++)
        SW_TRY(sw_contour_flattened(run, r->holes[i], SW_CHORD_MM, &rings[i + 1]));
    return SW_OK;
}

static sw_status flat_steps(sw_run *run, const sw_region *r, flat *f)
{
    *f = (flat){.ends = SW_SCRATCH(run, r->hole_count + 1, size_t), .rings = r->hole_count + 1};
    sw_contour *rings = SW_SCRATCH(run, f->rings, sw_contour);
    if (f->ends == NULL || rings == NULL) return SW_NO_MEMORY;
    SW_TRY(flattened_rings(run, r, rings));
    for (size_t i = 0; i < f->rings; i++) f->ends[i] = (i == 0 ? 0 : f->ends[i - 1]) + rings[i].n;
    f->points = SW_SCRATCH(run, f->ends[f->rings - 1], sw_point);
    if (f->points == NULL) return SW_NO_MEMORY;
    sw_point *p = f->points;
    for (size_t i = 0; i < f->rings; i++)
        for (size_t k = 0; k < rings[i].n; k++) *p++ = (sw_point){rings[i].v[k].x_mm, rings[i].v[k].y_mm};
    return SW_OK;
}

/* The region's rings in scratch; what flattening put into keep is given back. */
static sw_status flat_make(sw_run *run, const sw_region *r, flat *f)
{
    size_t mark = sw_arena_mark(run->keep);
    sw_status status = flat_steps(run, r, f);
    if (status == SW_OK) sw_arena_rewind(run->keep, mark);
    return status;
}

static void stretch(sw_box *b, sw_point p)
{
    if (p.x_mm < b->x0_mm) b->x0_mm = p.x_mm;
    if (p.x_mm > b->x1_mm) b->x1_mm = p.x_mm;
    if (p.y_mm < b->y0_mm) b->y0_mm = p.y_mm;
    if (p.y_mm > b->y1_mm) b->y1_mm = p.y_mm;
}

static sw_status lay(sw_run *run, const flat *f, sw_motion m, laid *l)
{
    size_t n = f->ends[f->rings - 1];
    double c = cos(m.turn_rad), s = sin(m.turn_rad);
    l->flat = f;
    l->box = (sw_box){INFINITY, INFINITY, -INFINITY, -INFINITY};
    l->points = SW_SCRATCH(run, n, sw_point);
    if (l->points == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) {
        double x = m.mirror ? -f->points[i].x_mm : f->points[i].x_mm, y = f->points[i].y_mm;
        l->points[i] = (sw_point){c * x - s * y + m.dx_mm, s * x + c * y + m.dy_mm};
        stretch(&l->box, l->points[i]);
    }
    return SW_OK;
}

static int by_left_end(const void *a, const void *b)
{
    const laid *p = a, *q = b;
    if (p->box.x0_mm != q->box.x0_mm) return p->box.x0_mm < q->box.x0_mm ? -1 : 1;
    return p->place < q->place ? -1 : p->place > q->place;
}

static sw_status lay_zone(table *t, const sw_stock_zone *zone, laid *l)
{
    sw_box b = zone->box;
    flat *f = SW_SCRATCH(t->run, 1, flat);
    sw_point *corners = SW_SCRATCH(t->run, 4, sw_point);
    size_t *ends = SW_SCRATCH(t->run, 1, size_t);
    if (f == NULL || corners == NULL || ends == NULL) return SW_NO_MEMORY;
    corners[0] = (sw_point){b.x0_mm, b.y0_mm}, corners[1] = (sw_point){b.x1_mm, b.y0_mm};
    corners[2] = (sw_point){b.x1_mm, b.y1_mm}, corners[3] = (sw_point){b.x0_mm, b.y1_mm};
    *ends = 4;
    *f = (flat){corners, ends, 1};
    l->place = zone_place;
    return lay(t->run, f, (sw_motion){0}, l);
}

static sw_status lay_pieces(table *t)
{
    const sw_stock *stock = t->sheet->stock;
    for (size_t i = 0; i < t->sheet->place_count; i++) {
        const sw_nest_place *p = &t->sheet->places[i];
        t->pieces[i].place = i;
        SW_TRY(lay(t->run, &t->flats[p->shape], p->motion, &t->pieces[i]));
    }
    for (size_t i = 0; i < stock->zone_count; i++)
        SW_TRY(lay_zone(t, &stock->zones[i], &t->pieces[t->sheet->place_count + i]));
    if (t->count > 0) qsort(t->pieces, t->count, sizeof *t->pieces, by_left_end);
    return SW_OK;
}

/* The plate's box when the plate fills it, else an empty box. */
static sw_box plain_box(const laid *plate)
{
    size_t n = plate->flat->ends[0];
    double twice_mm2 = 0;
    for (size_t i = 0; i < n; i++) {
        sw_point a = plate->points[i], b = plate->points[(i + 1) % n];
        twice_mm2 += a.x_mm * b.y_mm - b.x_mm * a.y_mm;
    }
    double whole_mm2 = (plate->box.x1_mm - plate->box.x0_mm) * (plate->box.y1_mm - plate->box.y0_mm);
    bool plain = plate->flat->rings == 1 && twice_mm2 / 2 >= whole_mm2 * (1 - 1e-12);
    return plain ? plate->box : (sw_box){1, 1, -1, -1};
}

/* ---- geometry of GEOS -------------------------------------------------------------------------------- */

/* Points from .. from + count - 1 of a ring of n, as a ring (closed) or a line. */
static GEOSCoordSequence *sequence_of(GEOSContextHandle_t geos, const sw_point *p, size_t n, size_t from, size_t count)
{
    GEOSCoordSequence *s = GEOSCoordSeq_create_r(geos, (unsigned)count, 2);
    for (size_t i = 0; s != NULL && i < count; i++) {
        sw_point q = p[(from + i) % n];
        (void)GEOSCoordSeq_setXY_r(geos, s, (unsigned)i, q.x_mm, q.y_mm);
    }
    return s;
}

static GEOSGeometry *polygon_of(const table *t, const laid *l)
{
    GEOSGeometry **rings = SW_SCRATCH(t->run, l->flat->rings, GEOSGeometry *);
    size_t made = 0, first = 0;
    for (; rings != NULL && made < l->flat->rings; made++) {
        size_t n = l->flat->ends[made] - first;
        GEOSCoordSequence *s = sequence_of(t->geos, l->points + first, n, 0, n + 1);
        rings[made] = s == NULL ? NULL : GEOSGeom_createLinearRing_r(t->geos, s);
        if (rings[made] == NULL) break;
        first = l->flat->ends[made];
    }
    if (rings != NULL && made == l->flat->rings)
        return GEOSGeom_createPolygon_r(t->geos, rings[0], rings + 1, (unsigned)(made - 1));
    while (made > 0) GEOSGeom_destroy_r(t->geos, rings[--made]);
    return NULL;
}

static sw_status want_shape(const table *t, laid *l)
{
    if (l->shape == NULL) l->shape = polygon_of(t, l);
    return l->shape == NULL ? no_geometry(t) : SW_OK;
}

/* By boxes. */
static bool edge_reaches(sw_point a, sw_point b, sw_box into)
{
    if ((a.x_mm < into.x0_mm && b.x_mm < into.x0_mm) || (a.x_mm > into.x1_mm && b.x_mm > into.x1_mm)) return false;
    return (a.y_mm >= into.y0_mm || b.y_mm >= into.y0_mm) && (a.y_mm <= into.y1_mm || b.y_mm <= into.y1_mm);
}

/* Adds the runs of a ring's edges that reach into the box to t->chains. */
static sw_status add_runs(const table *t, const sw_point *p, size_t n, sw_box into, size_t *count)
{
    for (size_t i = 0; i < n;) {
        size_t from = i;
        while (i < n && edge_reaches(p[i], p[i + 1 < n ? i + 1 : 0], into)) i++;
        if (i++ == from) continue;
        GEOSCoordSequence *s = sequence_of(t->geos, p, n, from, i - from);
        t->chains[*count] = s == NULL ? NULL : GEOSGeom_createLineString_r(t->geos, s);
        if (t->chains[*count] == NULL) return no_geometry(t);
        ++*count;
    }
    return SW_OK;
}

/* The edges that reach into the box, as lines; NULL when there are none. */
static sw_status edges_within(const table *t, const laid *l, sw_box into, GEOSGeometry **lines)
{
    size_t count = 0;
    sw_status status = SW_OK;
    *lines = NULL;
    for (size_t r = 0, first = 0; status == SW_OK && r < l->flat->rings; first = l->flat->ends[r++])
        status = add_runs(t, l->points + first, l->flat->ends[r] - first, into, &count);
    if (status == SW_OK && count > 0) {
        *lines = GEOSGeom_createCollection_r(t->geos, GEOS_MULTILINESTRING, t->chains, (unsigned)count);
        return *lines == NULL ? no_geometry(t) : SW_OK;
    }
    while (count > 0) GEOSGeom_destroy_r(t->geos, t->chains[--count]);
    return status;
}

static sw_box grown(sw_box b, double by_mm)
{
    return (sw_box){b.x0_mm - by_mm, b.y0_mm - by_mm, b.x1_mm + by_mm, b.y1_mm + by_mm};
}

static sw_box common(sw_box a, sw_box b)
{
    return (sw_box){fmax(a.x0_mm, b.x0_mm), fmax(a.y0_mm, b.y0_mm), fmin(a.x1_mm, b.x1_mm), fmin(a.y1_mm, b.y1_mm)};
}

/* Whether the rims of the two, holes too, are at least so far apart. */
static sw_status rims_apart(const table *t, const laid *a, const laid *b, double least_mm, bool *apart)
{
    sw_box both = common(grown(a->box, least_mm), grown(b->box, least_mm));
    GEOSGeometry *p = NULL, *q = NULL;
    sw_status status = edges_within(t, a, both, &p);
    if (status == SW_OK && p != NULL) status = edges_within(t, b, both, &q);
    *apart = p == NULL || q == NULL || GEOSDistanceWithin_r(t->geos, p, q, least_mm) == 0;
    if (p != NULL) GEOSGeom_destroy_r(t->geos, p);
    if (q != NULL) GEOSGeom_destroy_r(t->geos, q);
    return status;
}

static bool crosses_ray(sw_point a, sw_point b, sw_point p)
{
    if ((a.y_mm > p.y_mm) == (b.y_mm > p.y_mm)) return false;
    double x_mm = a.x_mm + (b.x_mm - a.x_mm) * ((p.y_mm - a.y_mm) / (b.y_mm - a.y_mm));
    return x_mm > p.x_mm;
}

/* Whether p, known to be off the rims, lies on the material: a ray to the right crosses an odd number of edges. */
static bool holds_point(const laid *l, sw_point p)
{
    bool holds = false;
    for (size_t r = 0, first = 0; r < l->flat->rings; first = l->flat->ends[r++])
        for (size_t i = first, last = l->flat->ends[r] - 1; i <= last; i++)
            holds ^= crosses_ray(l->points[i], l->points[i < last ? i + 1 : first], p);
    return holds;
}

/* ---- on the sheet, and apart --------------------------------------------------------------------------- */

/* No margin asked for, or near a rim: the piece is inside when none of it beyond slack x its box is outside. */
static sw_status check_difference(table *t, laid *l)
{
    double area_mm2 = 0, away_mm = 0;
    SW_TRY(want_shape(t, l));
    SW_TRY(want_shape(t, &t->plate));
    GEOSGeometry *out = GEOSDifference_r(t->geos, l->shape, t->plate.shape);
    bool known = out != NULL && GEOSArea_r(t->geos, out, &area_mm2) == 1;
    if (out != NULL) (void)GEOSDistance_r(t->geos, out, t->plate.shape, &away_mm);
    if (out != NULL) GEOSGeom_destroy_r(t->geos, out);
    double allowed_mm2 = slack_mm * (l->box.x1_mm - l->box.x0_mm + l->box.y1_mm - l->box.y0_mm);
    return known && area_mm2 <= allowed_mm2 ? SW_OK : refuse(t, l->place, "it reaches over the sheet's edge", away_mm);
}

static sw_status too_near_the_rim(table *t, laid *l)
{
    double away_mm = 0;
    SW_TRY(want_shape(t, l));
    SW_TRY(want_shape(t, &t->plate));
    GEOSGeometry *rim = GEOSBoundary_r(t->geos, t->plate.shape);
    if (rim != NULL) (void)GEOSDistance_r(t->geos, rim, l->shape, &away_mm);
    if (rim != NULL) GEOSGeom_destroy_r(t->geos, rim);
    return refuse(t, l->place, "it is nearer to the sheet's edge", away_mm);
}

/* A piece that meets no rim of the sheet is inside when its first point is and no cut-out lies on its material. */
static sw_status check_rims_clear(const table *t, const laid *l)
{
    bool inside = holds_point(&t->plate, l->points[0]), over = false;
    for (size_t r = 1; r < t->plate.flat->rings; r++)
        over = over || holds_point(l, t->plate.points[t->plate.flat->ends[r - 1]]);
    return inside && !over ? SW_OK : refuse(t, l->place, "it reaches over the sheet's edge", 0);
}

/* Inside the sheet (and off its cut-outs), and at least the margin from its rim: on a rectangular sheet when its
 * box is. */
static sw_status check_inside(table *t, laid *l)
{
    bool apart = false;
    double least_mm = t->in->margin_mm - slack_mm;
    double away_mm = fmin(fmin(l->box.x0_mm - t->plain.x0_mm, t->plain.x1_mm - l->box.x1_mm),
                          fmin(l->box.y0_mm - t->plain.y0_mm, t->plain.y1_mm - l->box.y1_mm));
    if (t->plain.x1_mm > t->plain.x0_mm && away_mm >= least_mm) return SW_OK;
    if (least_mm <= 0) return check_difference(t, l);
    SW_TRY(rims_apart(t, &t->plate, l, least_mm, &apart));
    return apart ? check_rims_clear(t, l) : too_near_the_rim(t, l);
}

static sw_status refuse_pair(const table *t, const laid *a, const laid *b, bool overlap, double value)
{
    static const char *const whats[2][2] = {{"it is nearer to another piece than the web", "it overlaps another piece"},
                                            {"it is nearer to a zone where nothing may be cut than the web",
                                             "it overlaps a zone where nothing may be cut"}};
    bool zone = a->place == zone_place || b->place == zone_place;
    return refuse(t, a->place == zone_place ? b->place : a->place, whats[zone][overlap], value);
}

/* With no web asked for, pieces may touch: overlap of more than slack x the box's sides is refused. */
static sw_status check_overlap(table *t, laid *a, laid *b)
{
    double area_mm2 = 0;
    SW_TRY(want_shape(t, a));
    SW_TRY(want_shape(t, b));
    GEOSGeometry *both = GEOSIntersection_r(t->geos, a->shape, b->shape);
    bool known = both != NULL && GEOSArea_r(t->geos, both, &area_mm2) == 1;
    if (both != NULL) GEOSGeom_destroy_r(t->geos, both);
    double sides_mm = fmin(b->box.x1_mm - b->box.x0_mm + b->box.y1_mm - b->box.y0_mm,
                           a->box.x1_mm - a->box.x0_mm + a->box.y1_mm - a->box.y0_mm);
    return known && area_mm2 <= slack_mm * sides_mm ? SW_OK : refuse_pair(t, a, b, true, 0);
}

static sw_status check_web(table *t, laid *a, laid *b, double least_mm)
{
    bool apart = false;
    double apart_mm = 0;
    SW_TRY(rims_apart(t, a, b, least_mm, &apart));
    if (apart && !holds_point(a, b->points[0]) && !holds_point(b, a->points[0])) return SW_OK;
    SW_TRY(want_shape(t, a));
    SW_TRY(want_shape(t, b));
    (void)GEOSDistance_r(t->geos, a->shape, b->shape, &apart_mm);
    return refuse_pair(t, a, b, false, apart_mm);
}

/* Against the pieces whose left ends are further right. */
static sw_status check_neighbours(table *t, size_t i)
{
    laid *a = &t->pieces[i];
    double least_mm = t->in->web_mm - slack_mm;
    sw_box near = grown(a->box, fmax(least_mm, 0));
    for (size_t j = i + 1; j < t->count && t->pieces[j].box.x0_mm <= near.x1_mm; j++) {
        laid *b = &t->pieces[j];
        if (b->box.y0_mm > near.y1_mm || b->box.y1_mm < near.y0_mm) continue;
        if (a->place == zone_place && b->place == zone_place) continue;
        SW_TRY(least_mm > 0 ? check_web(t, a, b, least_mm) : check_overlap(t, a, b));
    }
    return SW_OK;
}

/* ---- sheets -------------------------------------------------------------------------------------------- */

/* A ring has at most as many runs of edges as points. */
static size_t most_runs(const table *t)
{
    size_t most = t->plate_flat.ends[t->plate_flat.rings - 1];
    if (most < 4) most = 4; /* a zone's */
    for (size_t i = 0; i < t->sheet->place_count; i++) {
        const flat *f = &t->flats[t->sheet->places[i].shape];
        if (f->ends[f->rings - 1] > most) most = f->ends[f->rings - 1];
    }
    return most;
}

static sw_status check_sheet(table *t)
{
    SW_TRY(check_turns(t));
    SW_TRY(flat_make(t->run, &t->sheet->stock->shape, &t->plate_flat));
    SW_TRY(lay(t->run, &t->plate_flat, (sw_motion){0}, &t->plate));
    t->plain = plain_box(&t->plate);
    t->count = t->sheet->place_count + t->sheet->stock->zone_count;
    t->pieces = SW_SCRATCH(t->run, t->count, laid);
    t->chains = SW_SCRATCH(t->run, most_runs(t), GEOSGeometry *);
    if (t->pieces == NULL || t->chains == NULL) return SW_NO_MEMORY;
    SW_TRY(lay_pieces(t));
    for (size_t i = 0; i < t->count; i++) {
        if (t->pieces[i].place != zone_place) SW_TRY(check_inside(t, &t->pieces[i]));
        SW_TRY(check_neighbours(t, i));
    }
    return SW_OK;
}

static void clear_table(table *t)
{
    for (size_t i = 0; t->pieces != NULL && i < t->count; i++)
        if (t->pieces[i].shape != NULL) GEOSGeom_destroy_r(t->geos, t->pieces[i].shape);
    if (t->plate.shape != NULL) GEOSGeom_destroy_r(t->geos, t->plate.shape);
}

static sw_status check_sheets(sw_run *run, const sw_nest_input *in, const sw_nest_result *result,
                              GEOSContextHandle_t geos, const flat *flats)
{
    for (size_t s = 0; s < result->sheet_count; s++) {
        size_t mark = sw_arena_mark(run->scratch);
        table t = {.run = run, .in = in, .flats = flats, .geos = geos, .sheet = &result->sheets[s], .number = s + 1};
        sw_status status = check_sheet(&t);
        clear_table(&t);
        sw_arena_rewind(run->scratch, mark);
        if (status != SW_OK) return status;
    }
    return SW_OK;
}

static sw_status verify(sw_run *run, const sw_nest_input *in, const sw_nest_result *result, GEOSContextHandle_t geos)
{
    SW_TRY(nest_verify_counts(run, in, result));
    flat *flats = SW_SCRATCH(run, in->shape_count, flat);
    if (flats == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < in->shape_count; i++)
        if (in->shapes[i].count > 0) SW_TRY(flat_make(run, &in->shapes[i].region, &flats[i]));
    return check_sheets(run, in, result, geos, flats);
}

sw_status sw_nest_verify(sw_run *run, const sw_nest_input *in, const sw_nest_result *result)
{
    GEOSContextHandle_t geos = GEOS_init_r();
    if (geos == NULL) return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, in->name, "no memory to check the nest with");
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = verify(run, in, result, geos);
    sw_arena_rewind(run->scratch, mark);
    GEOS_finish_r(geos);
    return status;
}
