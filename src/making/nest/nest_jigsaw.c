/* nest_jigsaw.c: depth-first covering of a strip whose length is guessed: that of a full cover first, then one with an
 * open end. Always the side of a corner that fewest pieces fit; begun anew in another order when it fails too often
 * (restarts: Luby, Sinclair & Zuckerman 1993). Derived. */
#include "making/nest/nest_jigsaw_parts.h"

#include <math.h>
#include <stdlib.h>

enum { PIECES_MOST = 200, POINTS_MOST = 4000, FITS_MOST = 200, CORNERS_MOST = 512, FIRST_FAILS = 100 };

static const double exact_share = 5e-6, rounded_share = 2e-4, coarse_share = 1.5e-3,
                    rough_share = 3e-3; /* tolerances, of the width. Ours */
static const double open_share = 0.03;  /* of the length that an open end may waste. Ours */
static const double corner_worth = 0.3; /* of a met corner beside a met edge. Ours */
static const double order_noise = 0.3;  /* from the second attempt on. Ours */

typedef struct fit {
    uint32_t shape;
    sw_point at;
    double worth;
} fit;

typedef struct level { /* so many pieces lie */
    jigsaw_region region;
    fit fits[FITS_MOST]; /* what is tried here, the best last */
    size_t fit_count;
    fit laid; /* the one tried now */
    bool opened;
} level;

typedef struct fits {
    fit at[FITS_MOST];
    size_t count;
} fits;

typedef struct guess {
    double off_mm, length_mm;
    bool solid; /* no hole is filled */
    bool open;  /* corners that nothing fits stay empty */
    bool sums;  /* lengths are exact enough to be added up */
} guess;

typedef struct job {
    const nest_jigsaw *asked;
    nest_cover *best;
    jigsaw_shape *shapes;
    size_t shape_count, points;
    jigsaw_sides sides;
    jigsaw_cutter *cutter;
    jigsaw_region trial;
    fits found;
    level *levels; /* [count + 1] */
    jigsaw_corner *corners, *corners_trial;
    size_t *counts, *left; /* [shapes of the strip] */
    guess guess;
    double noise;
    uint64_t work, work_most;
    size_t fails, fails_most;
    sw_random random;
} job;

/* ---- what fits a side ------------------------------------------------------------------------------------------------ */

static double least_area_left(const job *j, uint32_t without)
{
    double least = INFINITY;
    for (size_t i = 0; i < j->shape_count; i++) {
        const jigsaw_shape *s = &j->shapes[i];
        if (j->left[s->kind] > (s->kind == without ? 1U : 0U)) least = fmin(least, s->area_mm2);
    }
    return least;
}

/* ---- edges that must be filled exactly ----------------------------------------------------------------------------- */

enum { SUM_WORDS = 64, LENGTHS_MOST = 14 };

typedef struct sums { /* bit k: some of the lengths add up to about k of 64 * SUM_WORDS - 8 equal parts of the edge */
    uint64_t bits[SUM_WORDS];
} sums;

static void add_length(sums *s, size_t parts)
{
    size_t words = parts / 64, bits = parts % 64;
    for (size_t w = SUM_WORDS; w-- > words;) {
        uint64_t moved = s->bits[w - words] << bits;
        if (bits > 0 && w > words) moved |= s->bits[w - words - 1] >> (64 - bits);
        s->bits[w] |= moved | moved << 1 | moved >> 1; /* the parts are rounded */
    }
}

/* How many edges of pieces left, each once, lie along the edge and are no longer; their lengths, up to so many. */
static size_t list_lengths(const job *j, const jigsaw_corner *c, uint32_t without, double *lengths_mm, size_t most)
{
    size_t first = 0, found = 0, count = jigsaw_sides_along(&j->sides, JIGSAW_OUT, c->dir_rad[JIGSAW_OUT], 0.1, &first);
    double off_mm = j->guess.off_mm;
    for (size_t k = 0; k < count && found < most; k++) {
        const jigsaw_side *side = &j->sides.on[JIGSAW_OUT][(first + k) % j->sides.count];
        uint32_t kind = j->shapes[side->shape].kind;
        double slack = c->slack_rad + 4 * off_mm / side->length_mm;
        if (side->length_mm > c->length_mm[JIGSAW_OUT] + 4 * off_mm) continue;
        if (fabs(remainder(side->dir_rad - c->dir_rad[JIGSAW_OUT], 2 * SW_PI)) > slack) continue;
        for (size_t n = kind == without ? 1 : 0; n < j->left[kind] && found < most; n++)
            lengths_mm[found++] = side->length_mm;
    }
    return found;
}

/* Whether edges of pieces left can add up to the edge from one corner to the next. Of many some always do. */
static bool can_be_filled(job *j, const jigsaw_corner *c, uint32_t without)
{
    const double whole = 64 * SUM_WORDS - 8;
    const size_t last = 64 * SUM_WORDS - 8;
    double lengths_mm[LENGTHS_MOST];
    size_t count = list_lengths(j, c, without, lengths_mm, LENGTHS_MOST);
    j->work += 20 + count * 4;
    if (count == LENGTHS_MOST) return true;
    sums s = {{1}};
    for (size_t k = 0; k < count; k++)
        add_length(&s, (size_t)nearbyint(whole * lengths_mm[k] / c->length_mm[JIGSAW_OUT]));
    for (size_t k = last - 2; k <= last + 2; k++)
        if ((s.bits[k / 64] >> (k % 64) & 1) != 0) return true;
    return false;
}

/* An edge between two corners below a half turn: pieces along it end where it ends. */
static bool edges_can_be_filled(job *j, uint32_t without)
{
    size_t count = jigsaw_corners(&j->trial, j->guess.off_mm, j->corners_trial, CORNERS_MOST);
    for (size_t i = 0; i < count; i++) {
        const jigsaw_corner *c = &j->corners_trial[i];
        bool between = false;
        for (size_t k = 0; k < count && !between; k++)
            between = j->corners_trial[k].at.x_mm == c->end.x_mm && j->corners_trial[k].at.y_mm == c->end.y_mm;
        if (between && !can_be_filled(j, c, without)) return false;
    }
    return true;
}

/* Whether every free ring may still hold a piece. */
static bool rings_hold(const job *j, uint32_t without)
{
    const jigsaw_region *r = &j->trial;
    double least = least_area_left(j, without);
    if (j->guess.open) return true;
    if (!isfinite(least)) return r->rings == 0;
    for (size_t ring = 0, from = 0; ring < r->rings; from = r->ends[ring++]) {
        double spare = j->guess.off_mm * 4 * sqrt(least);
        if (jigsaw_ring_area(r->p + from, r->ends[ring] - from) < least - spare) return false;
    }
    return true;
}

static bool sticks_out(const job *j, const jigsaw_shape *s, sw_point at)
{
    double off = 2 * j->guess.off_mm;
    return s->box.x0_mm + at.x_mm < -off || s->box.y0_mm + at.y_mm < -off ||
           s->box.x1_mm + at.x_mm > j->guess.length_mm + off || s->box.y1_mm + at.y_mm > j->asked->width_mm + off;
}

/* Lays a shape on trial: j->trial is what stays free. */
static bool lay(job *j, const jigsaw_region *region, fit *f, bool settle)
{
    const jigsaw_shape *s = &j->shapes[f->shape];
    jigsaw_contact contact;
    if (sticks_out(j, s, f->at)) return false;
    jigsaw_cut cut = {region, s, f->at, j->guess.off_mm};
    if (!jigsaw_region_cut(j->cutter, &cut, &j->trial, &contact, &j->work)) return false;
    if (settle && hypot(contact.drift.x_mm, contact.drift.y_mm) > NEST_TOUCH_MM) {
        cut.at.x_mm += contact.drift.x_mm, cut.at.y_mm += contact.drift.y_mm;
        jigsaw_contact better;
        if (jigsaw_region_cut(j->cutter, &cut, &j->trial, &better, &j->work))
            f->at = cut.at, contact = better;
        else if (!jigsaw_region_cut(j->cutter, &(jigsaw_cut){region, s, f->at, j->guess.off_mm}, &j->trial, &contact,
                                    &j->work))
            return false;
    }
    f->worth = contact.length_mm / s->length_mm + corner_worth * (double)contact.corners / (double)s->points;
    return true;
}

static bool may_fit(const job *j, const jigsaw_corner *c, int way, const jigsaw_side *side)
{
    double slack = c->slack_rad + 4 * j->guess.off_mm / side->length_mm;
    if (j->left[j->shapes[side->shape].kind] == 0 || side->angle_rad > c->angle_rad + slack) return false;
    return fabs(remainder(side->dir_rad - c->dir_rad[way], 2 * SW_PI)) <= slack;
}

static bool fits_side(job *j, const jigsaw_region *region, const jigsaw_corner *c, const jigsaw_side *side, fit *f)
{
    const jigsaw_shape *s = &j->shapes[side->shape];
    sw_point p = s->p[side->point];
    *f = (fit){.shape = side->shape, .at = {c->at.x_mm - p.x_mm, c->at.y_mm - p.y_mm}};
    if (!lay(j, region, f, true) || !rings_hold(j, s->kind)) return false;
    if (j->guess.sums && !edges_can_be_filled(j, s->kind)) return false;
    if (j->noise > 0) f->worth *= 1 + j->noise * (sw_random_unit(&j->random) - 0.5);
    return true;
}

/* More than enough are not asked for. */
static void list_fits(job *j, const jigsaw_region *region, const jigsaw_corner *c, int way, size_t enough, fits *out)
{
    const double widest_rad = 0.3; /* no slack is taken for more. Ours */
    size_t first = 0, count = jigsaw_sides_along(&j->sides, way, c->dir_rad[way], widest_rad, &first);
    out->count = 0;
    for (size_t k = 0; k < count; k++) {
        const jigsaw_side *side = &j->sides.on[way][(first + k) % j->sides.count];
        if (j->work > j->work_most) return;
        if (!may_fit(j, c, way, side)) continue;
        fit f;
        if (!fits_side(j, region, c, side, &f)) continue;
        if (out->count == enough || out->count == FITS_MOST) return;
        out->at[out->count++] = f;
    }
}

static int by_worth(const void *a, const void *b)
{
    const fit *x = a, *y = b;
    if (x->worth != y->worth) return x->worth < y->worth ? -1 : 1;
    return x->shape > y->shape ? -1 : x->shape < y->shape;
}

/* Takes for the level the side that fewest pieces fit; none where there is no side or one that nothing fits. */
static void open_level(job *j, level *l)
{
    size_t corners = jigsaw_corners(&l->region, j->guess.off_mm, j->corners, CORNERS_MOST), least = FITS_MOST + 1;
    l->opened = true;
    l->fit_count = 0;
    for (size_t i = 0; i < corners && least > 1; i++) {
        const jigsaw_corner *c = &j->corners[i];
        if (j->guess.open && c->at.x_mm > j->guess.length_mm - 2 * j->guess.off_mm) continue;
        for (int way = JIGSAW_OUT; way <= JIGSAW_BACK && least > 1; way++) {
            fits *found = &j->found;
            list_fits(j, &l->region, c, way, least, found);
            if (found->count >= least || (found->count == 0 && j->guess.open)) continue;
            least = l->fit_count = found->count;
            for (size_t k = 0; k < found->count; k++) l->fits[k] = found->at[k];
        }
    }
    qsort(l->fits, l->fit_count, sizeof *l->fits, by_worth);
}

/* ---- the search --------------------------------------------------------------------------------------------------- */

static void copy_region(const jigsaw_region *from, jigsaw_region *to)
{
    for (size_t i = 0; i < from->points; i++) to->p[i] = from->p[i];
    for (size_t i = 0; i < from->rings; i++) to->ends[i] = from->ends[i];
    to->points = from->points;
    to->rings = from->rings;
}

static void start_region(job *j, jigsaw_region *r)
{
    double x = j->guess.length_mm, y = j->asked->width_mm;
    r->p[0] = (sw_point){0, 0}, r->p[1] = (sw_point){x, 0}, r->p[2] = (sw_point){x, y}, r->p[3] = (sw_point){0, y};
    r->ends[0] = 4;
    r->points = 4;
    r->rings = 1;
}

/* Gives laid shapes to pieces of their kind, the first that is not laid. */
static void keep_best(job *j, size_t depth)
{
    const nest_jigsaw *a = j->asked;
    double area = 0;
    for (size_t d = 0; d < depth; d++) area += j->shapes[j->levels[d].laid.shape].area_mm2;
    if (area <= j->best->area_mm2) return;
    nest_cover *b = j->best;
    b->area_mm2 = area;
    b->laid_count = depth;
    b->off_mm = j->guess.off_mm;
    for (size_t i = 0; i < a->count; i++) {
        b->laid[i] = false;
        b->state.turned[i] = (uint32_t)a->core->kinds[a->kind[i]].first;
        b->state.x_mm[i] = b->state.y_mm[i] = 0;
    }
    for (size_t d = 0; d < depth; d++) {
        const fit *f = &j->levels[d].laid;
        size_t i = 0;
        while (b->laid[i] || a->kind[i] != j->shapes[f->shape].kind) i++;
        b->laid[i] = true;
        b->state.turned[i] = j->shapes[f->shape].turned;
        b->state.x_mm[i] = f->at.x_mm;
        b->state.y_mm[i] = f->at.y_mm;
    }
}

typedef enum ending { COVERED, NONE, GIVEN_UP } ending;

/* One way down from an open level; false = nothing is left to try there. */
static bool go_down(job *j, size_t depth)
{
    level *l = &j->levels[depth];
    while (l->fit_count > 0) {
        l->laid = l->fits[--l->fit_count];
        if (!lay(j, &l->region, &l->laid, false)) continue;
        level *next = &j->levels[depth + 1];
        copy_region(&j->trial, &next->region);
        next->opened = false;
        j->left[j->shapes[l->laid.shape].kind]--;
        return true;
    }
    return false;
}

static ending attempt(job *j)
{
    size_t depth = 0, count = j->asked->count;
    for (size_t i = 0; i < j->asked->core->in->shape_count; i++) j->left[i] = j->counts[i];
    j->fails = 0;
    start_region(j, &j->levels[0].region);
    j->levels[0].opened = false;
    while (depth < count) {
        level *l = &j->levels[depth];
        if (!l->opened) open_level(j, l);
        if (j->work > j->work_most || j->fails > j->fails_most || sw_run_cancelled(j->asked->run)) return GIVEN_UP;
        if (go_down(j, depth)) {
            keep_best(j, ++depth);
        } else {
            if (depth == 0) return NONE;
            j->fails++;
            depth--;
            j->left[j->shapes[j->levels[depth].laid.shape].kind]++;
        }
    }
    return COVERED;
}

static double length_wanted(const job *j)
{
    double area = 0;
    for (size_t i = 0; i < j->asked->count; i++)
        area += j->shapes[j->asked->core->kinds[j->asked->kind[i]].first].area_mm2;
    return area / j->asked->width_mm;
}

/* One guess at length and tolerance, in several orders, until it is proved wrong or its share of the work is done. */
static bool try_guess(job *j, guess g, uint64_t work_most)
{
    j->guess = g;
    j->guess.length_mm = length_wanted(j) * (g.open ? 1 + open_share : 1);
    j->work_most = j->work + work_most;
    j->noise = 0;
    for (j->fails_most = FIRST_FAILS; j->work < j->work_most; j->fails_most *= 2) {
        ending end = attempt(j);
        if (end == COVERED) return true;
        if (end == NONE || sw_run_cancelled(j->asked->run)) return false;
        j->noise = order_noise;
    }
    return false;
}

/* ---- set-up ------------------------------------------------------------------------------------------------------- */

static sw_status make_region(sw_run *run, size_t room, jigsaw_region *r)
{
    *r = (jigsaw_region){.room = room};
    r->p = SW_SCRATCH(run, room, sw_point);
    r->ends = SW_SCRATCH(run, room, uint32_t);
    return r->p == NULL || r->ends == NULL ? SW_NO_MEMORY : SW_OK;
}

static sw_status make_cover(const nest_jigsaw *a, nest_cover *c)
{
    *c = (nest_cover){.laid = SW_SCRATCH(a->run, a->count, bool)};
    if (c->laid == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < a->count; i++) c->laid[i] = false;
    return nest_state_make(a->run, a->count, &c->state);
}

static sw_status make_job(job *j)
{
    sw_run *run = j->asked->run;
    size_t shapes = j->asked->core->in->shape_count, room = 2 * j->points + 64;
    j->shape_count = j->asked->core->turned_count;
    j->counts = SW_SCRATCH(run, shapes, size_t);
    j->left = SW_SCRATCH(run, shapes, size_t);
    j->levels = SW_SCRATCH(run, j->asked->count + 1, level);
    j->corners = SW_SCRATCH(run, CORNERS_MOST, jigsaw_corner);
    j->corners_trial = SW_SCRATCH(run, CORNERS_MOST, jigsaw_corner);
    if (j->counts == NULL || j->left == NULL || j->levels == NULL || j->corners == NULL || j->corners_trial == NULL)
        return SW_NO_MEMORY;
    for (size_t i = 0; i < shapes; i++) j->counts[i] = 0;
    for (size_t i = 0; i < j->asked->count; i++) j->counts[j->asked->kind[i]]++;
    for (size_t i = 0; i <= j->asked->count; i++) SW_TRY(make_region(run, room, &j->levels[i].region));
    SW_TRY(make_region(run, room, &j->trial));
    return jigsaw_cutter_make(run, j->points + 64, &j->cutter);
}

static bool has_arcs(sw_contour c)
{
    for (size_t i = 0; i < c.n; i++)
        if (c.v[i].bulge != 0) return true;
    return false;
}

/* Whether it is a strip for this search; counts the corners of all pieces. */
static bool is_suited(const nest_jigsaw *a, size_t *points)
{
    *points = 0;
    if (a->count == 0 || a->count > PIECES_MOST) return false;
    for (size_t i = 0; i < a->count && *points <= POINTS_MOST; i++) {
        const sw_region *r = &a->core->in->shapes[a->kind[i]].region;
        if (has_arcs(r->outline)) return false;
        *points += r->outline.n;
        for (size_t h = 0; h < r->hole_count; h++) *points += r->holes[h].n;
    }
    return *points <= POINTS_MOST;
}

static bool has_free_holes(const job *j)
{
    for (size_t i = 0; i < j->shape_count; i++)
        if (j->shapes[i].rings > 1) return true;
    return false;
}

typedef struct plan {
    double off_share, work_share; /* tolerance, of the width; of all work at most */
    bool solid, open;
} plan;

/* All that is guessed, in this order. */
static sw_status guesses(job *j)
{
    const plan plans[] = {
        {exact_share, 0.5, false, false},  {rounded_share, 0.08, false, false}, {coarse_share, 0.08, false, false},
        {rough_share, 0.08, false, false}, {exact_share, 0.08, true, false},    {coarse_share, 0.05, true, false},
        {exact_share, 0.08, false, true},  {coarse_share, 0.05, false, true},
    };
    SW_TRY(jigsaw_shapes_make(j->asked->run, j->asked->core, false, &j->shapes));
    bool holes = has_free_holes(j);
    for (size_t i = 0; i < sizeof plans / sizeof *plans; i++) {
        guess g = {.off_mm = plans[i].off_share * j->asked->width_mm,
                   .solid = plans[i].solid,
                   .open = plans[i].open,
                   .sums = plans[i].off_share == exact_share && !plans[i].open};
        if (g.solid && !holes) continue;
        if (g.solid != j->guess.solid) {
            j->guess = g;
            SW_TRY(jigsaw_shapes_make(j->asked->run, j->asked->core, g.solid, &j->shapes));
        }
        SW_TRY(jigsaw_sides_make(j->asked->run, j->shapes, j->shape_count, g.off_mm, &j->sides));
        if (try_guess(j, g, (uint64_t)(plans[i].work_share * (double)j->asked->work_most))) return SW_OK;
    }
    return SW_OK;
}

static sw_status steps(job *j)
{
    if (!is_suited(j->asked, &j->points)) return SW_OK;
    SW_TRY(make_job(j));
    return guesses(j);
}

sw_status nest_jigsaw_cover(const nest_jigsaw *asked, nest_cover *cover)
{
    job j = {.asked = asked, .best = cover, .random = sw_random_seeded(asked->seed)};
    sw_status status = make_cover(asked, cover);
    if (status != SW_OK) return status;
    size_t mark = sw_arena_mark(asked->run->scratch);
    status = steps(&j);
    sw_arena_rewind(asked->run->scratch, mark);
    cover->work = j.work;
    return status;
}
