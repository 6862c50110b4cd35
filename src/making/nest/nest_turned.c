/* nest_turned.c: every piece at every turn the search may use, as convex parts about its lower left corner. */
#include "making/nest/nest_parts.h"

#include <math.h>

enum { TURNS_MOST = 72, LONG_EDGES = 4, EVEN_TURNS = 24 };

static const double coarser = 5, first_coarse = 2e-4; /* pockets filled in a piece of too many parts. Ours */

typedef struct turn {
    double rad;
    bool mirror;
} turn;
typedef struct turns {
    turn at[TURNS_MOST];
    size_t count, quick;
} turns;

typedef struct base { /* one shape before turning */
    const sw_nest_shape *shape;
    nest_rings rings;
    const nest_poly *parts[2];
    size_t part_count[2];
} base;

/* ---- which turns --------------------------------------------------------------------------- */

static double whole_turn(double rad)
{
    double r = fmod(rad, 2 * SW_PI);
    if (r < 0) r += 2 * SW_PI;
    return 2 * SW_PI - r < 1e-9 ? 0 : r;
}

static void add_turn(turns *list, double rad, bool flip)
{
    for (int mirror = 0; mirror <= (flip ? 1 : 0) && list->count < TURNS_MOST; mirror++)
        list->at[list->count++] = (turn){whole_turn(rad), mirror == 1};
}

static void add_quarters(turns *list, double rad, bool flip)
{
    for (int i = 0; i < 4; i++) add_turn(list, rad + i * SW_PI / 2, flip);
}

static double ring_edge(const nest_rings *rings, size_t i, double *angle_rad)
{
    size_t n = rings->ends[0];
    sw_point a = rings->points[i], b = rings->points[(i + 1) % n];
    *angle_rad = atan2(b.y_mm - a.y_mm, b.x_mm - a.x_mm);
    return hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
}

static double box_area_turned(const nest_rings *rings, double rad)
{
    double c = cos(rad), s = sin(rad), x0 = INFINITY, x1 = -INFINITY, y0 = INFINITY, y1 = -INFINITY;
    for (size_t i = 0; i < rings->ends[0]; i++) {
        double x = c * rings->points[i].x_mm - s * rings->points[i].y_mm;
        double y = s * rings->points[i].x_mm + c * rings->points[i].y_mm;
        x0 = fmin(x0, x), x1 = fmax(x1, x), y0 = fmin(y0, y), y1 = fmax(y1, y);
    }
    return (x1 - x0) * (y1 - y0);
}

/* The turn that lays one edge along x and makes the box smallest; 0 unless it saves a thousandth. */
static double tightest_turn(const nest_rings *rings)
{
    double best_rad = 0, best = box_area_turned(rings, 0) * 0.999;
    for (size_t i = 0; i < rings->ends[0]; i++) {
        double angle_rad = 0;
        (void)ring_edge(rings, i, &angle_rad);
        double area = box_area_turned(rings, -angle_rad);
        if (area >= best) continue;
        best = area;
        best_rad = -angle_rad;
    }
    return best_rad;
}

/* Turns that lay one of the longest edges along x or y. */
static void add_long_edges(turns *list, const nest_rings *rings, bool flip)
{
    double below_mm = INFINITY;
    for (int k = 0; k < LONG_EDGES; k++) {
        double longest_mm = 0, rad = 0, angle_rad = 0;
        for (size_t i = 0; i < rings->ends[0]; i++) {
            double length_mm = ring_edge(rings, i, &angle_rad);
            if (length_mm >= below_mm || length_mm <= longest_mm) continue;
            longest_mm = length_mm;
            rad = -angle_rad;
        }
        if (longest_mm == 0) return;
        below_mm = longest_mm;
        add_quarters(list, rad, flip);
    }
}

static void list_turns(turns *list, const sw_nest_shape *shape, const nest_rings *rings)
{
    bool flip = shape->may_flip;
    if (shape->turns == SW_TURN_FIXED) add_turn(list, 0, flip);
    if (shape->turns == SW_TURN_HALF) {
        add_turn(list, 0, flip);
        add_turn(list, SW_PI, flip);
    }
    if (shape->turns == SW_TURN_QUARTER || shape->turns == SW_TURN_FREE) add_quarters(list, 0, flip);
    if (shape->turns == SW_TURN_FREE) add_quarters(list, tightest_turn(rings), flip);
    list->quick = list->count;
    if (shape->turns != SW_TURN_FREE) return;
    add_long_edges(list, rings, flip);
    for (int i = 0; i < EVEN_TURNS; i++) add_turn(list, i * 2 * SW_PI / EVEN_TURNS, flip);
}

/* ---- turning --------------------------------------------------------------------------------- */

typedef struct rotor {
    double c, s;
    bool mirror;
} rotor;

/* Quarter turns are exact, so that squares tile. */
static rotor rotor_of(turn t)
{
    double quarters = t.rad / (SW_PI / 2), whole = nearbyint(quarters);
    if (fabs(quarters - whole) > 1e-12) return (rotor){cos(t.rad), sin(t.rad), t.mirror};
    static const double cosines[] = {1, 0, -1, 0};
    int q = (int)whole % 4;
    return (rotor){cosines[q], cosines[(q + 3) % 4], t.mirror};
}

static sw_point rotated(rotor r, sw_point p)
{
    double x = r.mirror ? -p.x_mm : p.x_mm;
    return (sw_point){r.c * x - r.s * p.y_mm, r.s * x + r.c * p.y_mm};
}

static sw_status turned_box(nest_core *core, const base *b, turn t, nest_turned *out)
{
    sw_contour moved;
    sw_motion motion = {.turn_rad = t.rad, .mirror = t.mirror};
    size_t mark = sw_arena_mark(core->run->keep);
    sw_status status = sw_contour_moved(core->run, b->shape->region.outline, motion, &moved);
    sw_box box = status == SW_OK ? sw_contour_box(moved) : (sw_box){0};
    if (status == SW_OK) sw_arena_rewind(core->run->keep, mark);
    out->base = (sw_point){box.x0_mm, box.y0_mm};
    out->width_mm = box.x1_mm - box.x0_mm;
    out->height_mm = box.y1_mm - box.y0_mm;
    return status;
}

static sw_status turned_part(nest_core *core, const nest_poly *part, rotor r, sw_point base_point, nest_poly *out)
{
    sw_point *p = SW_SCRATCH(core->run, part->n, sw_point);
    if (p == NULL) return SW_NO_MEMORY;
    for (uint32_t i = 0; i < part->n; i++) {
        sw_point q = rotated(r, part->p[r.mirror ? part->n - 1 - i : i]);
        p[i] = (sw_point){q.x_mm - base_point.x_mm, q.y_mm - base_point.y_mm};
    }
    return nest_poly_make(core->run, core->run->scratch, p, part->n, out);
}

/* Whether the rings at turn t, about their lower left corner, are those at an earlier turn u. */
static bool same_picture(const nest_rings *rings, const nest_turned *t, const nest_turned *u)
{
    if (fabs(t->width_mm - u->width_mm) > NEST_TOUCH_MM || fabs(t->height_mm - u->height_mm) > NEST_TOUCH_MM)
        return false;
    rotor rt = rotor_of((turn){t->turn_rad, t->mirror}), ru = rotor_of((turn){u->turn_rad, u->mirror});
    for (size_t i = 0; i < rings->point_count; i++) {
        sw_point p = rotated(rt, rings->points[i]);
        bool met = false;
        for (size_t j = 0; j < rings->point_count && !met; j++) {
            sw_point q = rotated(ru, rings->points[j]);
            met = fabs(p.x_mm - t->base.x_mm - q.x_mm + u->base.x_mm) < NEST_TOUCH_MM &&
                  fabs(p.y_mm - t->base.y_mm - q.y_mm + u->base.y_mm) < NEST_TOUCH_MM;
        }
        if (!met) return false;
    }
    return true;
}

static sw_box box_of_parts(const nest_poly *parts, size_t count)
{
    sw_box box = {INFINITY, INFINITY, -INFINITY, -INFINITY};
    for (size_t i = 0; i < count; i++) {
        box.x0_mm = fmin(box.x0_mm, parts[i].box.x0_mm), box.x1_mm = fmax(box.x1_mm, parts[i].box.x1_mm);
        box.y0_mm = fmin(box.y0_mm, parts[i].box.y0_mm), box.y1_mm = fmax(box.y1_mm, parts[i].box.y1_mm);
    }
    return box;
}

sw_status nest_turned_add(nest_core *core, nest_turned t)
{
    t.box = box_of_parts(t.parts[NEST_OPEN], t.part_count[NEST_OPEN]);
    NEST_MAKE_ROOM(core->run, core->turned, core->turned_count, core->turned_room, 1);
    core->turned[core->turned_count++] = t;
    return SW_OK;
}

static sw_status turned_parts(nest_core *core, const base *b, turn t, int which, nest_turned *out)
{
    size_t n = b->part_count[which];
    nest_poly *parts = SW_SCRATCH(core->run, n, nest_poly);
    if (parts == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) SW_TRY(turned_part(core, &b->parts[which][i], rotor_of(t), out->base, &parts[i]));
    out->parts[which] = parts;
    out->part_count[which] = n;
    return SW_OK;
}

static sw_status add_turned(nest_core *core, const base *b, size_t shape, turn t)
{
    nest_kind *kind = &core->kinds[shape];
    nest_turned out = {.shape = shape, .turn_rad = t.rad, .mirror = t.mirror};
    SW_TRY(turned_box(core, b, t, &out));
    for (size_t i = 0; i < kind->count; i++)
        if (same_picture(&b->rings, &out, &core->turned[kind->first + i])) return SW_OK;
    SW_TRY(turned_parts(core, b, t, NEST_SOLID, &out));
    out.parts[NEST_OPEN] = out.parts[NEST_SOLID];
    out.part_count[NEST_OPEN] = out.part_count[NEST_SOLID];
    if (b->parts[NEST_OPEN] != b->parts[NEST_SOLID]) SW_TRY(turned_parts(core, b, t, NEST_OPEN, &out));
    kind->count++;
    return nest_turned_add(core, out);
}

/* ---- one shape ---------------------------------------------------------------------------------- */

/* A piece that goes into a hole has no more area, and the least width it can have (area over the diagonal of its box)
 * is less than the hole's. A piece cut from the hole has its area but for rounding. Derived. */
bool nest_may_enter(const nest_kind *kind, nest_hole hole)
{
    const double rounding = 1e-9;
    return kind->area_mm2 <= hole.area_mm2 * (1 + rounding) &&
           kind->area_mm2 / hypot(kind->least_mm, kind->most_mm) <= hole.least_mm;
}

static nest_hole measured_hole(const nest_core *core, sw_contour c)
{
    sw_box box = sw_contour_box(c);
    double least_mm = fmin(box.x1_mm - box.x0_mm, box.y1_mm - box.y0_mm) - 2 * core->in->web_mm;
    return (nest_hole){fabs(sw_contour_area(c)), least_mm};
}

static bool hole_is_useful(const nest_core *core, nest_hole hole)
{
    for (size_t i = 0; i < core->in->shape_count; i++)
        if (core->in->shapes[i].count > 0 && nest_may_enter(&core->kinds[i], hole)) return true;
    return false;
}

static sw_status useful_region(nest_core *core, const sw_region *r, nest_kind *kind, sw_region *out)
{
    sw_contour *holes = SW_SCRATCH(core->run, r->hole_count, sw_contour);
    kind->holes = SW_SCRATCH(core->run, r->hole_count, nest_hole);
    if (holes == NULL || kind->holes == NULL) return SW_NO_MEMORY;
    *out = (sw_region){.outline = r->outline, .holes = holes};
    for (size_t i = 0; i < r->hole_count; i++) {
        nest_hole hole = measured_hole(core, r->holes[i]);
        if (!hole_is_useful(core, hole)) continue;
        kind->holes[kind->hole_count++] = hole;
        holes[out->hole_count++] = r->holes[i];
    }
    return SW_OK;
}

static sw_status cut_once(nest_core *core, const sw_region *region, double fill_mm2, base *b)
{
    double grow_mm = core->in->web_mm / 2;
    SW_TRY(nest_outline(core->run, region, core->opt->exactness_mm, fill_mm2, &b->rings));
    nest_rings solid = b->rings;
    solid.ring_count = 1;
    solid.point_count = solid.ends[0];
    SW_TRY(nest_convex(core->run, &solid, grow_mm, &b->parts[NEST_SOLID], &b->part_count[NEST_SOLID]));
    b->parts[NEST_OPEN] = b->parts[NEST_SOLID];
    b->part_count[NEST_OPEN] = b->part_count[NEST_SOLID];
    if (b->rings.ring_count == 1) return SW_OK;
    return nest_convex(core->run, &b->rings, grow_mm, &b->parts[NEST_OPEN], &b->part_count[NEST_OPEN]);
}

/* Pairs cost parts x parts: a shape of very many is made coarser, at last solid. */
static sw_status cut_base(nest_core *core, const sw_region *region, double box_mm2, base *b)
{
    double share = core->opt->pocket_share, most = core->opt->parts_most;
    SW_TRY(cut_once(core, region, share * box_mm2, b));
    for (int i = 0; i < 4 && (double)b->part_count[NEST_OPEN] > most; i++) {
        share = fmax(coarser * share, first_coarse);
        SW_TRY(cut_once(core, region, share * box_mm2, b));
    }
    if ((double)b->part_count[NEST_OPEN] <= most) return SW_OK;
    b->parts[NEST_OPEN] = b->parts[NEST_SOLID];
    b->part_count[NEST_OPEN] = b->part_count[NEST_SOLID];
    if ((double)b->part_count[NEST_SOLID] <= most) return SW_OK;
    SW_TRY(nest_convex_hull(core->run, &b->rings, core->in->web_mm / 2, &b->parts[NEST_SOLID]));
    b->parts[NEST_OPEN] = b->parts[NEST_SOLID];
    b->part_count[NEST_OPEN] = b->part_count[NEST_SOLID] = 1;
    return SW_OK;
}

static sw_status shape_turned(nest_core *core, size_t shape)
{
    base b = {.shape = &core->in->shapes[shape]};
    nest_kind *kind = &core->kinds[shape];
    sw_region region;
    SW_TRY(useful_region(core, &b.shape->region, kind, &region));
    SW_TRY(cut_base(core, &region, kind->least_mm * kind->most_mm, &b));
    turns list = {.count = 0};
    list_turns(&list, b.shape, &b.rings);
    kind->first = core->turned_count;
    for (size_t i = 0; i < list.count; i++) {
        if (i == list.quick) kind->quick = kind->count;
        SW_TRY(add_turned(core, &b, shape, list.at[i]));
    }
    if (list.quick == list.count) kind->quick = kind->count;
    return SW_OK;
}

sw_status nest_turned_make(nest_core *core)
{
    core->kinds = SW_SCRATCH(core->run, core->in->shape_count, nest_kind);
    if (core->kinds == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < core->in->shape_count; i++) {
        const sw_region *r = &core->in->shapes[i].region;
        sw_box box = sw_contour_box(r->outline);
        double w_mm = box.x1_mm - box.x0_mm, h_mm = box.y1_mm - box.y0_mm;
        core->kinds[i] =
            (nest_kind){.area_mm2 = sw_region_area(r), .least_mm = fmin(w_mm, h_mm), .most_mm = fmax(w_mm, h_mm)};
    }
    for (size_t i = 0; i < core->in->shape_count; i++)
        if (core->in->shapes[i].count > 0) SW_TRY(shape_turned(core, i));
    return SW_OK;
}
