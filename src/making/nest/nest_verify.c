/* nest_verify.c: an independent look at a finished nest. Shares nothing with the search: the exact flat regions,
 * as chords of 0.01 mm, moved as the result says, and measured by GEOS. */
#include "making/nest/nest.h"

#include <geos_c.h>
#include <math.h>

static const double slack_mm = 0.02;    /* two chord errors of SW_CHORD_MM */
static const double angle_slack = 1e-9; /* rad: 2e-5 mm at the largest sheet */

typedef struct flat {
    sw_point *points;
    size_t *ends;
    size_t rings;
} flat; /* rings as of nest_rings; ring 0 outline */

typedef struct laid { /* one piece on the sheet */
    GEOSGeometry *shape;
    const GEOSGeometry *rim; /* its outline */
    const GEOSPreparedGeometry *prepared, *prepared_rim;
    size_t place;
    sw_box box;
} laid;

typedef struct table { /* the sheet being looked at */
    sw_run *run;
    const sw_nest_input *in;
    const flat *flats;
    GEOSContextHandle_t geos;
    const sw_nest_sheet *sheet;
    size_t number; /* of the sheet, from 1 */
    laid *pieces;  /* [sheet->place_count], NULLs until made */
    GEOSGeometry *plate, *rim;
    const GEOSPreparedGeometry *prepared_plate, *prepared_rim;
    sw_box plain; /* of a rectangular sheet without cut-outs; else empty */
    GEOSSTRtree *tree;
    size_t looking; /* the piece whose neighbours are asked for */
    sw_status status;
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

/* ---- counts, turns, motions ------------------------------------------------------------------------ */

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

static sw_status check_counts(sw_run *run, const sw_nest_input *in, const sw_nest_result *result)
{
    size_t *seen = SW_SCRATCH(run, in->shape_count, size_t);
    if (seen == NULL) return SW_NO_MEMORY;
    for (size_t s = 0; s < result->sheet_count; s++) {
        const sw_nest_sheet *sheet = &result->sheets[s];
        for (size_t i = 0; i < sheet->place_count; i++) {
            if (sheet->places[i].shape >= in->shape_count)
                return sw_fail(run, SW_INTERNAL, (sw_place){0}, in->name, "sheet %zu holds a piece of no shape", s + 1);
            seen[sheet->places[i].shape] += sheet->repeat;
        }
    }
    for (size_t i = 0; i < in->shape_count; i++)
        if (seen[i] != in->shapes[i].count)
            return sw_fail(run, SW_INTERNAL, (sw_place){0}, in->name, "piece \"%s\" is placed %zu times, wanted %zu",
                           in->shapes[i].name, seen[i], in->shapes[i].count);
    return SW_OK;
}

static sw_status check_stock(sw_run *run, const sw_nest_input *in, const sw_nest_result *result)
{
    for (size_t i = 0; i < in->stock_count; i++) {
        const sw_stock *stock = in->stock[i];
        size_t used = 0;
        for (size_t s = 0; s < result->sheet_count; s++)
            if (result->sheets[s].stock == stock) used += result->sheets[s].repeat;
        bool endless = stock->count == 0 && !stock->remnant;
        if (!endless && used > stock->count)
            return sw_fail(run, SW_INTERNAL, (sw_place){0}, in->name, "sheet \"%s\" is used %zu times, there are %zu",
                           stock->name, used, stock->count);
    }
    return SW_OK;
}

/* ---- geometry ---------------------------------------------------------------------------------------- */

static GEOSGeometry *ring_of(GEOSContextHandle_t geos, const sw_point *p, size_t n, sw_motion m)
{
    GEOSCoordSequence *s = GEOSCoordSeq_create_r(geos, (unsigned)n + 1, 2);
    if (s == NULL) return NULL;
    for (size_t i = 0; i <= n; i++) {
        sw_point q = sw_motion_point(m, p[i % n]);
        (void)GEOSCoordSeq_setXY_r(geos, s, (unsigned)i, q.x_mm, q.y_mm);
    }
    return GEOSGeom_createLinearRing_r(geos, s);
}

static GEOSGeometry *polygon_of(sw_run *run, GEOSContextHandle_t geos, const flat *f, sw_motion m)
{
    GEOSGeometry **rings = SW_SCRATCH(run, f->rings, GEOSGeometry *);
    size_t made = 0, first = 0;
    for (; rings != NULL && made < f->rings; made++) {
        rings[made] = ring_of(geos, f->points + first, f->ends[made] - first, m);
        if (rings[made] == NULL) break;
        first = f->ends[made];
    }
    if (rings != NULL && made == f->rings)
        return GEOSGeom_createPolygon_r(geos, rings[0], rings + 1, (unsigned)(f->rings - 1));
    while (made > 0) GEOSGeom_destroy_r(geos, rings[--made]);
    return NULL;
}

static sw_status no_geometry(const table *t)
{
    return sw_fail(t->run, SW_NO_MEMORY, (sw_place){0}, t->in->name, "no memory to check the nest with");
}

static sw_status add_ring(sw_run *run, sw_contour c, flat *f, size_t *points)
{
    sw_contour chords;
    SW_TRY(sw_contour_flattened(run, c, SW_CHORD_MM, &chords));
    if (f->points != NULL)
        for (size_t i = 0; i < chords.n; i++) f->points[*points + i] = (sw_point){chords.v[i].x_mm, chords.v[i].y_mm};
    *points += chords.n;
    f->ends[f->rings++] = *points;
    return SW_OK;
}

static sw_status add_rings(sw_run *run, const sw_region *r, flat *f, size_t *points)
{
    *points = f->rings = 0;
    SW_TRY(add_ring(run, r->outline, f, points));
    for (size_t i = 0; i < r->hole_count; i++) SW_TRY(add_ring(run, r->holes[i], f, points));
    return SW_OK;
}

static sw_status flat_steps(sw_run *run, const sw_region *r, flat *f)
{
    size_t points = 0;
    *f = (flat){.ends = SW_SCRATCH(run, r->hole_count + 1, size_t)};
    if (f->ends == NULL) return SW_NO_MEMORY;
    SW_TRY(add_rings(run, r, f, &points));
    f->points = SW_SCRATCH(run, points, sw_point);
    if (f->points == NULL) return SW_NO_MEMORY;
    return add_rings(run, r, f, &points);
}

/* The region's rings in scratch; what flattening put into keep is given back. */
static sw_status flat_make(sw_run *run, const sw_region *r, flat *f)
{
    size_t mark = sw_arena_mark(run->keep);
    sw_status status = flat_steps(run, r, f);
    if (status == SW_OK) sw_arena_rewind(run->keep, mark);
    return status;
}

static sw_status lay_pieces(table *t)
{
    for (size_t i = 0; i < t->sheet->place_count; i++) {
        const sw_nest_place *p = &t->sheet->places[i];
        laid *l = &t->pieces[i];
        l->place = i;
        l->shape = polygon_of(t->run, t->geos, &t->flats[p->shape], p->motion);
        l->rim = l->shape == NULL ? NULL : GEOSGetExteriorRing_r(t->geos, l->shape);
        if (l->rim == NULL) return no_geometry(t);
        l->prepared = GEOSPrepare_r(t->geos, l->shape);
        l->prepared_rim = GEOSPrepare_r(t->geos, l->rim);
        if (l->prepared == NULL || l->prepared_rim == NULL) return no_geometry(t);
        GEOSSTRtree_insert_r(t->geos, t->tree, l->shape, l);
        (void)GEOSGeom_getExtent_r(t->geos, l->shape, &l->box.x0_mm, &l->box.y0_mm, &l->box.x1_mm, &l->box.y1_mm);
    }
    return SW_OK;
}

/* The plate's box when the plate fills it, else an empty box. */
static sw_box plain_box(GEOSContextHandle_t geos, const GEOSGeometry *plate, size_t rings)
{
    sw_box b = {1, 1, -1, -1};
    double area_mm2 = 0;
    bool known = rings == 1 && GEOSArea_r(geos, plate, &area_mm2) == 1 &&
                 GEOSGeom_getExtent_r(geos, plate, &b.x0_mm, &b.y0_mm, &b.x1_mm, &b.y1_mm) == 1;
    double whole_mm2 = (b.x1_mm - b.x0_mm) * (b.y1_mm - b.y0_mm);
    return known && area_mm2 >= whole_mm2 * (1 - 1e-12) ? b : (sw_box){1, 1, -1, -1};
}

static sw_status lay_plate(table *t)
{
    flat f;
    SW_TRY(flat_make(t->run, &t->sheet->stock->shape, &f));
    t->plate = polygon_of(t->run, t->geos, &f, (sw_motion){0});
    if (t->plate == NULL) return no_geometry(t);
    t->plain = plain_box(t->geos, t->plate, f.rings);
    t->rim = GEOSBoundary_r(t->geos, t->plate);
    t->prepared_plate = GEOSPrepare_r(t->geos, t->plate);
    t->prepared_rim = t->rim == NULL ? NULL : GEOSPrepare_r(t->geos, t->rim);
    t->tree = GEOSSTRtree_create_r(t->geos, 10);
    bool whole = t->prepared_plate != NULL && t->prepared_rim != NULL && t->tree != NULL;
    return whole ? SW_OK : no_geometry(t);
}

/* Inside the sheet (and off its cut-outs), and at least the margin from its rim: on a rectangular sheet when its
 * box is. A piece touching the rim with no margin asked for is inside when none of it beyond slack x its box is
 * outside. */
static sw_status check_inside(const table *t, const laid *l)
{
    double away_mm = fmin(fmin(l->box.x0_mm - t->plain.x0_mm, t->plain.x1_mm - l->box.x1_mm),
                          fmin(l->box.y0_mm - t->plain.y0_mm, t->plain.y1_mm - l->box.y1_mm));
    if (t->plain.x1_mm > t->plain.x0_mm && away_mm >= t->in->margin_mm - slack_mm) return SW_OK;
    if (GEOSPreparedDistance_r(t->geos, t->prepared_rim, l->shape, &away_mm) != 1) return no_geometry(t);
    if (away_mm < t->in->margin_mm - slack_mm) return refuse(t, l->place, "it is nearer to the sheet's edge", away_mm);
    if (GEOSPreparedContainsProperly_r(t->geos, t->prepared_plate, l->shape) == 1) return SW_OK;
    GEOSGeometry *out = GEOSDifference_r(t->geos, l->shape, t->plate);
    double area_mm2 = 0;
    bool known = out != NULL && GEOSArea_r(t->geos, out, &area_mm2) == 1;
    if (out != NULL) GEOSGeom_destroy_r(t->geos, out);
    double allowed_mm2 = slack_mm * (l->box.x1_mm - l->box.x0_mm + l->box.y1_mm - l->box.y0_mm);
    if (known && area_mm2 <= allowed_mm2) return SW_OK;
    return refuse(t, l->place, "it reaches over the sheet's edge", away_mm);
}

/* With no web asked for, pieces may touch: overlap of more than slack x the box's sides is refused. */
static sw_status check_overlap(const table *t, const laid *a, const laid *b)
{
    GEOSGeometry *common = GEOSIntersection_r(t->geos, a->shape, b->shape);
    double area_mm2 = 0;
    bool known = common != NULL && GEOSArea_r(t->geos, common, &area_mm2) == 1;
    if (common != NULL) GEOSGeom_destroy_r(t->geos, common);
    double sides_mm = fmin(b->box.x1_mm - b->box.x0_mm + b->box.y1_mm - b->box.y0_mm,
                           a->box.x1_mm - a->box.x0_mm + a->box.y1_mm - a->box.y0_mm);
    return known && area_mm2 <= slack_mm * sides_mm ? SW_OK : refuse(t, a->place, "it overlaps another piece", 0);
}

static bool box_holds(sw_box a, sw_box b)
{
    return b.x0_mm >= a.x0_mm && b.x1_mm <= a.x1_mm && b.y0_mm >= a.y0_mm && b.y1_mm <= a.y1_mm;
}

/* Pieces whose boxes do not hold one another are not within one another: their outlines tell. */
static bool apart(const table *t, const laid *a, const laid *b, double least_mm)
{
    if (box_holds(a->box, b->box) || box_holds(b->box, a->box))
        return GEOSPreparedDistanceWithin_r(t->geos, a->prepared, b->shape, least_mm) == 0;
    return GEOSPreparedDistanceWithin_r(t->geos, a->prepared_rim, b->rim, least_mm) == 0;
}

static sw_status check_pair(const table *t, const laid *a, const laid *b)
{
    double least_mm = t->in->web_mm - slack_mm;
    if (least_mm <= 0) return check_overlap(t, a, b);
    if (apart(t, a, b, least_mm)) return SW_OK;
    double apart_mm = 0;
    (void)GEOSPreparedDistance_r(t->geos, a->prepared, b->shape, &apart_mm);
    return refuse(t, a->place, "it is nearer to another piece than the web", apart_mm);
}

static void meet_neighbour(void *item, void *context)
{
    table *t = context;
    const laid *other = item, *self = &t->pieces[t->looking];
    if (other->place <= t->looking || t->status != SW_OK) return;
    t->status = check_pair(t, self, other);
}

static sw_status check_neighbours(table *t, size_t i)
{
    double w = fmax(t->in->web_mm - slack_mm, 0);
    sw_box b = t->pieces[i].box;
    const sw_point corners[] = {{b.x0_mm - w, b.y0_mm - w}, {b.x1_mm + w, b.y0_mm - w}, {b.x1_mm + w, b.y1_mm + w}};
    GEOSGeometry *around = ring_of(t->geos, corners, 3, (sw_motion){0});
    if (around == NULL) return no_geometry(t);
    t->looking = i;
    GEOSSTRtree_query_r(t->geos, t->tree, around, meet_neighbour, t);
    GEOSGeom_destroy_r(t->geos, around);
    return t->status;
}

static sw_status check_sheet(table *t)
{
    SW_TRY(check_turns(t));
    SW_TRY(lay_plate(t));
    t->pieces = SW_SCRATCH(t->run, t->sheet->place_count, laid);
    if (t->pieces == NULL) return SW_NO_MEMORY;
    SW_TRY(lay_pieces(t));
    for (size_t i = 0; i < t->sheet->place_count; i++) {
        SW_TRY(check_inside(t, &t->pieces[i]));
        SW_TRY(check_neighbours(t, i));
    }
    return SW_OK;
}

static void clear_table(table *t)
{
    for (size_t i = 0; t->pieces != NULL && i < t->sheet->place_count; i++) {
        if (t->pieces[i].prepared != NULL) GEOSPreparedGeom_destroy_r(t->geos, t->pieces[i].prepared);
        if (t->pieces[i].prepared_rim != NULL) GEOSPreparedGeom_destroy_r(t->geos, t->pieces[i].prepared_rim);
        if (t->pieces[i].shape != NULL) GEOSGeom_destroy_r(t->geos, t->pieces[i].shape);
    }
    if (t->tree != NULL) GEOSSTRtree_destroy_r(t->geos, t->tree);
    if (t->prepared_rim != NULL) GEOSPreparedGeom_destroy_r(t->geos, t->prepared_rim);
    if (t->prepared_plate != NULL) GEOSPreparedGeom_destroy_r(t->geos, t->prepared_plate);
    if (t->rim != NULL) GEOSGeom_destroy_r(t->geos, t->rim);
    if (t->plate != NULL) GEOSGeom_destroy_r(t->geos, t->plate);
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
    SW_TRY(check_counts(run, in, result));
    SW_TRY(check_stock(run, in, result));
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
