/* nest_fillings.c: pieces joined with those that fill their holes tightly. Every hole is tried with every piece of
 * nearly its area; a fit found makes a new piece, tried in its turn, so that a filled filler may fill another. Derived. */
#include "making/nest/nest_fillings_parts.h"

#include <math.h>

static const double spare_most = 0.10;         /* share of a hole that may stay empty in a tight filling. Ours */
static const double equal_share = 1e-9;        /* areas and shares nearer than this differ by rounding alone */
static const double corners_exact_mm = 1e-6;   /* no corner of a straight-edged hole may be cut off */
static const double arcs_exact_mm = 0.01;      /* as in the strip's search */
enum { TRIALS_MOST = 4000, PARTS_MOST = 300 }; /* some seconds of work. Ours */

typedef struct fit { /* a way to join two pieces */
    size_t host, hole, filler;
    sw_motion motion; /* filler's flat -> host's */
    double hole_mm2, spare_share;
} fit;

typedef struct joint { /* the work on one strip */
    sw_run *run;
    sw_arena *pairs;
    sw_nest_shape *shapes; /* those given, then those joined; counts: what is left of each */
    size_t shape_count, shape_room;
    nest_members *members;
    size_t member_count, member_room; /* as many as shapes */
    fit *fits;
    size_t fit_count, fit_room, trials;
} joint;

/* ---- one trial: the hole in a frame, the filler by the scan ------------------------------------------------ */

typedef struct trial {
    sw_vertex frame[4]; /* about the hole, in the host's flat frame */
    sw_nest_shape shapes[2];
    sw_nest_input in;
    sw_nest_options opt;
    nest_core core;
    sw_box hole;
} trial;

static bool is_curved(sw_contour c)
{
    for (size_t i = 0; i < c.n; i++)
        if (c.v[i].bulge != 0) return true;
    return false;
}

static void set_frame(trial *t)
{
    sw_box b = t->hole;
    double w_mm = b.x1_mm - b.x0_mm, h_mm = b.y1_mm - b.y0_mm;
    b = (sw_box){b.x0_mm - w_mm, b.y0_mm - h_mm, b.x1_mm + w_mm, b.y1_mm + h_mm};
    t->frame[0] = (sw_vertex){b.x0_mm, b.y0_mm, 0};
    t->frame[1] = (sw_vertex){b.x1_mm, b.y0_mm, 0};
    t->frame[2] = (sw_vertex){b.x1_mm, b.y1_mm, 0};
    t->frame[3] = (sw_vertex){b.x0_mm, b.y1_mm, 0};
}

static sw_status trial_make(const joint *j, const sw_contour *hole, const sw_nest_shape *filler, trial *t)
{
    t->hole = sw_contour_box(*hole);
    set_frame(t);
    t->shapes[0] =
        (sw_nest_shape){.name = "hole", .region = {{t->frame, 4}, hole, 1}, .count = 1, .turns = SW_TURN_FIXED};
    t->shapes[1] = *filler;
    t->shapes[1].region.hole_count = 0;
    t->in = (sw_nest_input){.name = "filling", .shapes = t->shapes, .shape_count = 2};
    t->opt = sw_nest_options_defaults();
    t->opt.pocket_share = 0;
    t->opt.parts_most = PARTS_MOST;
    t->opt.exactness_mm = is_curved(*hole) || is_curved(filler->region.outline) ? arcs_exact_mm : corners_exact_mm;
    t->core = (nest_core){.run = j->run, .in = &t->in, .opt = &t->opt, .pair_arena = j->pairs, .stop_at_s = INFINITY};
    SW_TRY(nest_turned_make(&t->core));
    t->core.pairs = SW_SCRATCH(j->run, t->core.turned_count, nest_slot *);
    return t->core.pairs == NULL ? SW_NO_MEMORY : SW_OK;
}

/* Where rounding makes the piece a hair longer than the hole, it has one position. */
static void close_up(double *from_mm, double *to_mm)
{
    if (*to_mm<*from_mm && * to_mm> * from_mm - NEST_TOUCH_MM) *from_mm = *to_mm = (*from_mm + *to_mm) / 2;
}

/* All in the host's flat frame: the frame lies at its own lower left corner. */
static sw_status try_turn(trial *t, size_t turned, fit *made, bool *found)
{
    const nest_turned *piece = &t->core.turned[turned];
    size_t host = t->core.kinds[0].first;
    nest_spot spot = {host, t->core.turned[host].base};
    nest_scan scan = {
        .turned = turned,
        .fit = {t->hole.x0_mm, t->hole.y0_mm, t->hole.x1_mm - piece->width_mm, t->hole.y1_mm - piece->height_mm}};
    sw_point at = {0, 0};
    close_up(&scan.fit.x0_mm, &scan.fit.x1_mm);
    close_up(&scan.fit.y0_mm, &scan.fit.y1_mm);
    SW_TRY(nest_scan_open(&t->core, &scan, &spot, 1));
    SW_TRY(nest_scan_find(&t->core, &scan, INFINITY, &at, found));
    made->motion = (sw_motion){.turn_rad = piece->turn_rad,
                               .dx_mm = at.x_mm - piece->base.x_mm,
                               .dy_mm = at.y_mm - piece->base.y_mm,
                               .mirror = piece->mirror};
    return SW_OK;
}

static sw_status trial_steps(const joint *j, fit *made, bool *found)
{
    trial t;
    SW_TRY(trial_make(j, &j->shapes[made->host].region.holes[made->hole], &j->shapes[made->filler], &t));
    const nest_kind *kind = &t.core.kinds[1];
    for (size_t i = kind->first; i < kind->first + kind->count && !*found; i++) SW_TRY(try_turn(&t, i, made, found));
    return SW_OK;
}

static sw_status try_fit(const joint *j, fit *made, bool *found)
{
    size_t mark = sw_arena_mark(j->run->scratch), pair_mark = sw_arena_mark(j->pairs);
    *found = false;
    sw_status status = trial_steps(j, made, found);
    sw_arena_rewind(j->pairs, pair_mark);
    sw_arena_rewind(j->run->scratch, mark);
    return status;
}

/* ---- which pairs are tried --------------------------------------------------------------------------------- */

/* Whether the filler may turn along with the host: quarter turns hold half turns, and so on. */
static bool turns_along(const sw_nest_shape *host, const sw_nest_shape *filler)
{
    return filler->turns <= host->turns && (filler->may_flip || !host->may_flip);
}

/* Sides of the boxes; a piece that may be turned freely may lie across. */
static bool sides_fit(sw_contour hole, const sw_nest_shape *filler)
{
    sw_box a = sw_contour_box(hole), b = sw_contour_box(filler->region.outline);
    double aw_mm = a.x1_mm - a.x0_mm, ah_mm = a.y1_mm - a.y0_mm, bw_mm = b.x1_mm - b.x0_mm, bh_mm = b.y1_mm - b.y0_mm;
    return filler->turns == SW_TURN_FREE || (fmin(bw_mm, bh_mm) <= fmin(aw_mm, ah_mm) + NEST_TOUCH_MM &&
                                             fmax(bw_mm, bh_mm) <= fmax(aw_mm, ah_mm) + NEST_TOUCH_MM);
}

/* Fillers of nearly the hole's area, their own holes counted in: those stay open. */
static bool is_likely(const joint *j, fit *f)
{
    const sw_nest_shape *host = &j->shapes[f->host], *filler = &j->shapes[f->filler];
    sw_contour hole = host->region.holes[f->hole];
    f->hole_mm2 = fabs(sw_contour_area(hole));
    f->spare_share = 1 - sw_contour_area(filler->region.outline) / f->hole_mm2;
    bool near = f->spare_share >= -equal_share && f->spare_share < spare_most;
    return near && sides_fit(hole, filler);
}

static sw_status consider(joint *j, size_t host, size_t filler)
{
    if (host == filler || j->shapes[host].count == 0 || j->shapes[filler].count == 0) return SW_OK;
    if (!turns_along(&j->shapes[host], &j->shapes[filler])) return SW_OK;
    for (size_t i = 0; i < j->shapes[host].region.hole_count; i++) {
        fit made = {.host = host, .hole = i, .filler = filler};
        bool found = false;
        if (!is_likely(j, &made) || j->trials >= TRIALS_MOST) continue;
        j->trials++;
        SW_TRY(try_fit(j, &made, &found));
        if (!found) continue;
        NEST_MAKE_ROOM(j->run, j->fits, j->fit_count, j->fit_room, 1);
        j->fits[j->fit_count++] = made;
    }
    return SW_OK;
}

/* ---- joining ----------------------------------------------------------------------------------------------- */

static sw_status put_shape(joint *j, sw_nest_shape shape, nest_members members)
{
    NEST_MAKE_ROOM(j->run, j->shapes, j->shape_count, j->shape_room, 1);
    NEST_MAKE_ROOM(j->run, j->members, j->member_count, j->member_room, 1);
    size_t added = j->shape_count++;
    j->members[j->member_count++] = members;
    j->shapes[added] = shape;
    for (size_t i = 0; i < added; i++) {
        SW_TRY(consider(j, added, i));
        SW_TRY(consider(j, i, added));
    }
    return SW_OK;
}

/* Tighter, or as tight and larger. */
static bool is_better(const fit *a, const fit *b)
{
    double gain = b->spare_share - a->spare_share;
    return fabs(gain) > equal_share ? gain > 0 : a->hole_mm2 > b->hole_mm2;
}

static const fit *best_fit(const joint *j)
{
    const fit *best = NULL;
    for (size_t i = 0; i < j->fit_count; i++) {
        const fit *f = &j->fits[i];
        if (j->shapes[f->host].count == 0 || j->shapes[f->filler].count == 0) continue;
        if (best == NULL || is_better(f, best)) best = f;
    }
    return best;
}

/* The host's holes but the filled one, and the filler's own. */
static sw_status joined_holes(const joint *j, const fit *f, sw_region *region)
{
    const sw_region *host = &j->shapes[f->host].region, *filler = &j->shapes[f->filler].region;
    size_t n = 0;
    sw_contour *holes = SW_SCRATCH(j->run, host->hole_count + filler->hole_count, sw_contour);
    if (holes == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < host->hole_count; i++)
        if (i != f->hole) holes[n++] = host->holes[i];
    for (size_t i = 0; i < filler->hole_count; i++)
        SW_TRY(sw_contour_moved(j->run, filler->holes[i], f->motion, &holes[n++]));
    *region = (sw_region){.outline = host->outline, .holes = holes, .hole_count = n};
    return SW_OK;
}

static sw_status joined_members(const joint *j, const fit *f, nest_members *out)
{
    nest_members host = j->members[f->host], filler = j->members[f->filler];
    sw_nest_place *places = SW_SCRATCH(j->run, host.count + filler.count, sw_nest_place);
    if (places == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < host.count; i++) places[i] = host.places[i];
    for (size_t i = 0; i < filler.count; i++) {
        sw_nest_place p = filler.places[i];
        places[host.count + i] = (sw_nest_place){p.shape, sw_motion_then(p.motion, f->motion)};
    }
    *out = (nest_members){places, host.count + filler.count};
    return SW_OK;
}

static sw_status join(joint *j, const fit *f)
{
    sw_nest_shape *host = &j->shapes[f->host], *filler = &j->shapes[f->filler], joined = *host;
    nest_members members;
    SW_TRY(joined_holes(j, f, &joined.region));
    SW_TRY(joined_members(j, f, &members));
    joined.count = host->count < filler->count ? host->count : filler->count;
    host->count -= joined.count;
    filler->count -= joined.count;
    return put_shape(j, joined, members);
}

/* ---- there and back ---------------------------------------------------------------------------------------- */

static sw_status put_given(joint *j, const sw_strip_input *given)
{
    for (size_t i = 0; i < given->shape_count; i++) {
        sw_nest_place *self = SW_SCRATCH(j->run, 1, sw_nest_place);
        if (self == NULL) return SW_NO_MEMORY;
        self->shape = i;
        SW_TRY(put_shape(j, given->shapes[i], (nest_members){self, 1}));
    }
    return SW_OK;
}

/* Pieces all used up are left out. */
static void drop_used(joint *j)
{
    size_t kept = 0;
    for (size_t i = 0; i < j->shape_count; i++) {
        if (j->shapes[i].count == 0) continue;
        j->shapes[kept] = j->shapes[i];
        j->members[kept++] = j->members[i];
    }
    j->shape_count = j->member_count = kept;
}

sw_status nest_fillings_make(sw_run *run, sw_arena *pairs, const sw_strip_input *given, nest_fillings *out)
{
    const sw_nest_options opt = sw_nest_options_defaults();
    const sw_nest_input in = {.name = given->name, .shapes = given->shapes, .shape_count = given->shape_count};
    joint j = {.run = run, .pairs = pairs};
    SW_TRY(nest_check(run, &in, &opt));
    SW_TRY(put_given(&j, given));
    for (const fit *best = best_fit(&j); best != NULL; best = best_fit(&j)) SW_TRY(join(&j, best));
    if (j.shape_count > given->shape_count) drop_used(&j);
    *out = (nest_fillings){.in = *given, .members = j.members};
    out->in.shapes = j.shapes;
    out->in.shape_count = j.shape_count;
    return SW_OK;
}

sw_status nest_fillings_expand(sw_run *run, const sw_strip_input *given, const nest_fillings *fillings,
                               const sw_nest_place *places, size_t count, sw_nest_place *all)
{
    size_t *next = SW_SCRATCH(run, given->shape_count + 1, size_t);
    if (next == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < given->shape_count; i++) next[i + 1] = next[i] + given->shapes[i].count;
    for (size_t i = 0; i < count; i++) {
        nest_members members = fillings->members[places[i].shape];
        for (size_t k = 0; k < members.count; k++) {
            sw_nest_place p = members.places[k];
            all[next[p.shape]++] = (sw_nest_place){p.shape, sw_motion_then(p.motion, places[i].motion)};
        }
    }
    return SW_OK;
}
