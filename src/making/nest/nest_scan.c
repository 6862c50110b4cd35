/* nest_scan.c: finds the leftmost, then lowest free position of one turned piece.
 *
 * A vertical line walks right over the positions at which the piece's box stays on the sheet. On a line, each
 * forbidden polygon is one interval of y; climbing from one to the highest that overlaps it ends in the first gap.
 * When the line is full, the polygons climbed over say where the first gap can open: where one of them ends or two
 * of them part. The line goes there at once. So positions are exact: straight edges touch, and a slot that fits
 * to the last hundredth is found. Sheets only fill up, so a full line stays full and the walk never goes back.
 * Derived; the leftmost, lowest vertex of the free region of no-fit polygons: Sato, Martins & Tsuzuki 2012 as told
 * in handbook 6.2. Cost of a line: the polygons that
 * cross it, for each step of the climb that was not there on the line before. */
#include "making/nest/nest_parts.h"

#include <math.h>
#include <string.h>

static const double least_step_mm = 1e-4; /* between two lines, so that rounding cannot hold the walk up */

/* ---- intervals ------------------------------------------------------------------------------ */

static double on_edge(sw_point a, sw_point b, double x)
{
    double dx = b.x_mm - a.x_mm;
    return dx > 0 ? a.y_mm + (b.y_mm - a.y_mm) * ((x - a.x_mm) / dx) : a.y_mm;
}

typedef struct span {
    double from_mm, to_mm;
} span;

static bool is_over(const nest_block *b, double x_mm)
{
    return x_mm > b->box.x0_mm + NEST_TOUCH_MM && x_mm < b->box.x1_mm - NEST_TOUCH_MM;
}

/* Lower and upper end of the forbidden y at x, moving the edges only to the right. */
static inline double lower_at(nest_block *b, double x_mm)
{
    const nest_poly *p = b->poly;
    double x = x_mm - b->at.x_mm;
    while (b->low + 1 < p->right && p->p[b->low + 1].x_mm < x) b->low++;
    return b->at.y_mm + on_edge(p->p[b->low], p->p[b->low + 1], x);
}

static inline double upper_at(nest_block *b, double x_mm)
{
    const nest_poly *p = b->poly;
    double x = x_mm - b->at.x_mm;
    while (b->high - 1 > p->right && p->p[b->high - 1].x_mm < x) b->high--;
    return b->at.y_mm + on_edge(p->p[b->high == p->n ? 0 : b->high], p->p[b->high - 1], x);
}

/* ---- the heap of those that wait ------------------------------------------------------------------ */

static void sink(nest_start *heap, size_t count, size_t at)
{
    nest_start moved = heap[at];
    for (size_t child = 2 * at + 1; child < count; child = 2 * at + 1) {
        if (child + 1 < count && heap[child + 1].x0_mm < heap[child].x0_mm) child++;
        if (heap[child].x0_mm >= moved.x0_mm) break;
        heap[at] = heap[child];
        at = child;
    }
    heap[at] = moved;
}

static sw_status put_wait(nest_core *core, nest_scan *scan, nest_start added)
{
    NEST_MAKE_ROOM(core->run, scan->wait, scan->wait_count, scan->wait_room, 1);
    nest_start *wait = scan->wait;
    size_t at = scan->wait_count++;
    for (; at > 0 && wait[(at - 1) / 2].x0_mm > added.x0_mm; at = (at - 1) / 2) wait[at] = wait[(at - 1) / 2];
    wait[at] = added;
    return SW_OK;
}

static nest_spot take_first(nest_scan *scan)
{
    nest_spot spot = scan->wait[0].spot;
    scan->wait[0] = scan->wait[--scan->wait_count];
    sink(scan->wait, scan->wait_count, 0);
    return spot;
}

/* ---- opening, going on, adding --------------------------------------------------------------------- */

/* Whether a box of forbidden positions matters on this line or one further right. */
static bool matters(const nest_scan *scan, sw_box b)
{
    return b.x1_mm > scan->x_mm + NEST_TOUCH_MM && b.x0_mm < scan->fit.x1_mm - NEST_TOUCH_MM &&
           b.y1_mm > scan->fit.y0_mm && b.y0_mm < scan->fit.y1_mm;
}

static sw_box moved(sw_box b, sw_point by)
{
    return (sw_box){b.x0_mm + by.x_mm, b.y0_mm + by.y_mm, b.x1_mm + by.x_mm, b.y1_mm + by.y_mm};
}

/* The band that holds y; the first and last go on without end. */
static int band_of(const nest_scan *scan, double y_mm)
{
    double band = (y_mm - scan->fit.y0_mm) * scan->bands_per_mm;
    return band <= 0 ? 0 : band >= NEST_BANDS - 1 ? NEST_BANDS - 1 : (int)band;
}

static sw_status put_block(nest_core *core, nest_scan *scan, const nest_poly *poly, sw_point at)
{
    sw_box b = moved(poly->box, at);
    if (!matters(scan, b)) return SW_OK;
    NEST_MAKE_ROOM(core->run, scan->seats, scan->seat_count, scan->seat_room, NEST_BANDS);
    uint32_t block = (uint32_t)scan->block_count++;
    scan->blocks[block] = (nest_block){.poly = poly, .at = at, .box = b, .high = poly->n};
    for (int i = band_of(scan, b.y0_mm), last = band_of(scan, b.y1_mm); i <= last; i++) {
        scan->seats[scan->seat_count] = (nest_seat){block, scan->bands[i]};
        scan->bands[i] = (uint32_t)scan->seat_count++;
    }
    return SW_OK;
}

static sw_status put_pair(nest_core *core, nest_scan *scan, nest_spot spot)
{
    const nest_pair *pair = NULL;
    SW_TRY(nest_pair_find(core, spot.turned, scan->turned, &pair));
    NEST_MAKE_ROOM(core->run, scan->blocks, scan->block_count, scan->block_room, pair->count);
    for (size_t k = 0; k < pair->count; k++) SW_TRY(put_block(core, scan, &pair->parts[k], spot.at));
    return SW_OK;
}

/* The box about all polygons of a pair. */
static sw_box pair_box(const nest_core *core, const nest_scan *scan, nest_spot spot)
{
    sw_box a = core->turned[spot.turned].box, b = core->turned[scan->turned].box;
    return moved((sw_box){a.x0_mm - b.x1_mm, a.y0_mm - b.y1_mm, a.x1_mm - b.x0_mm, a.y1_mm - b.y0_mm}, spot.at);
}

static sw_status put_piece(nest_core *core, nest_scan *scan, nest_spot spot)
{
    sw_box box = pair_box(core, scan, spot);
    if (!matters(scan, box)) return SW_OK;
    if (box.x0_mm < scan->x_mm) return put_pair(core, scan, spot);
    return put_wait(core, scan, (nest_start){box.x0_mm, spot});
}

static sw_status go_to(nest_core *core, nest_scan *scan, double x_mm)
{
    scan->x_mm = x_mm;
    while (scan->wait_count > 0 && scan->wait[0].x0_mm < x_mm) SW_TRY(put_pair(core, scan, take_first(scan)));
    return SW_OK;
}

sw_status nest_scan_open(nest_core *core, nest_scan *scan, const nest_spot *spots, size_t count)
{
    double height_mm = scan->fit.y1_mm - scan->fit.y0_mm;
    scan->block_count = scan->seat_count = scan->wait_count = scan->chain_count = 0;
    for (size_t i = 0; i < NEST_BANDS; i++) scan->bands[i] = NEST_NONE;
    scan->bands_per_mm = height_mm > 0 ? NEST_BANDS / height_mm : 0;
    scan->x_mm = scan->fit.x0_mm;
    scan->done = scan->fit.x1_mm < scan->fit.x0_mm || scan->fit.y1_mm < scan->fit.y0_mm;
    for (size_t i = 0; i < count; i++) SW_TRY(put_piece(core, scan, spots[i]));
    return SW_OK;
}

sw_status nest_scan_add(nest_core *core, nest_scan *scan, nest_spot spot)
{
    return scan->done ? SW_OK : put_piece(core, scan, spot);
}

/* ---- finding ---------------------------------------------------------------------------------- */

/* One side of the overlap that closes a line: a polygon's upper or lower chain from its current edge on, or (b NULL)
 * the straight end of the sheet. */
typedef struct rail {
    const nest_block *b;
    bool upper;
    uint32_t at;
} rail;

static rail lower_rail(const nest_block *b)
{
    return (rail){b, false, b == NULL ? 0 : b->low};
}

static rail upper_rail(const nest_block *b)
{
    return (rail){b, true, b == NULL ? 0 : b->high};
}

static double rail_slope(rail r)
{
    if (r.b == NULL) return 0;
    const nest_poly *p = r.b->poly;
    sw_point a = p->p[r.at == p->n ? 0 : r.at], b = p->p[r.upper ? r.at - 1 : r.at + 1];
    double dx = b.x_mm - a.x_mm;
    return dx > 0 ? (b.y_mm - a.y_mm) / dx : 0;
}

static double rail_end(rail r)
{
    return r.b == NULL ? (double)INFINITY : r.b->at.x_mm + r.b->poly->p[r.upper ? r.at - 1 : r.at + 1].x_mm;
}

/* To the next edge; false at the polygon's right end. */
static bool rail_on(rail *r)
{
    if (r->b == NULL) return false;
    uint32_t right = r->b->poly->right;
    if (r->upper ? r->at <= right + 1 : r->at + 1 >= right) return false;
    r->at = r->upper ? r->at - 1 : r->at + 1;
    return true;
}

/* x at which the chain below falls under the chain above, now `overlap_mm` over it; INFINITY when one ends before. */
static double parting(double x_mm, double overlap_mm, rail below, rail above)
{
    for (;;) {
        double closing = rail_slope(below) - rail_slope(above), end_below = rail_end(below),
               end_above = rail_end(above);
        double end = end_below < end_above ? end_below : end_above;
        if (closing < 0 && x_mm - overlap_mm / closing <= end) return x_mm - overlap_mm / closing;
        if (!isfinite(end)) return INFINITY;
        overlap_mm += closing * (end - x_mm);
        x_mm = end;
        if (end_below <= end && !rail_on(&below)) return INFINITY;
        if (end_above <= end && !rail_on(&above)) return INFINITY;
    }
}

/* ---- climbing a line --------------------------------------------------------------------------- */

#define TOP UINT32_MAX /* the link beyond the highest position */

typedef struct step {
    uint32_t block;
    span forbidden;
    bool found;
} step;

/* The polygon over y that reaches highest. Those left behind are dropped on the way. */
static step highest_over(nest_scan *scan, double y)
{
    step best = {.forbidden = {0, y + NEST_TOUCH_MM}};
    double below = y - NEST_TOUCH_MM, behind_mm = scan->x_mm + NEST_TOUCH_MM, ahead_mm = scan->x_mm - NEST_TOUCH_MM;
    for (uint32_t *link = &scan->bands[band_of(scan, y)]; *link != NEST_NONE;) {
        nest_seat *seat = &scan->seats[*link];
        nest_block *b = &scan->blocks[seat->block];
        if (b->box.x1_mm <= behind_mm) {
            *link = seat->next;
            continue;
        }
        link = &seat->next;
        if (b->box.y0_mm >= below || b->box.y1_mm <= best.forbidden.to_mm || b->box.x0_mm >= ahead_mm) continue;
        span s = {.from_mm = lower_at(b, scan->x_mm)};
        if (s.from_mm >= below) continue;
        s.to_mm = upper_at(b, scan->x_mm);
        if (s.to_mm <= best.forbidden.to_mm) continue;
        best = (step){seat->block, s, true};
    }
    return best;
}

/* The next polygon over y: first those of the line before, which mostly still serve, then all. */
static step step_over(nest_scan *scan, double y, size_t *older)
{
    for (; *older < scan->older_count && scan->older[*older].block != TOP; ++*older) {
        nest_block *b = &scan->blocks[scan->older[*older].block];
        if (!is_over(b, scan->x_mm)) continue;
        span s = {lower_at(b, scan->x_mm), upper_at(b, scan->x_mm)};
        if (s.to_mm <= y + NEST_TOUCH_MM) continue;
        if (s.from_mm >= y - NEST_TOUCH_MM) break;
        return (step){scan->older[(*older)++].block, s, true};
    }
    return highest_over(scan, y);
}

static sw_status put_link(nest_core *core, nest_scan *scan, nest_link link)
{
    NEST_MAKE_ROOM(core->run, scan->chain, scan->chain_count, scan->chain_room, 1);
    nest_link *at = &scan->chain[scan->chain_count];
    *at = link;
    at->opens_mm = scan->chain_count > 0 && at[-1].opens_mm < link.until_mm ? at[-1].opens_mm : link.until_mm;
    scan->chain_count++;
    return SW_OK;
}

/* The links from the first that no longer holds go from the chain to `older`. */
static sw_status loosen(nest_core *core, nest_scan *scan)
{
    size_t kept = scan->chain_count;
    while (kept > 0 && scan->chain[kept - 1].opens_mm <= scan->x_mm + NEST_TOUCH_MM) kept--;
    scan->older_count = scan->chain_count - kept;
    scan->chain_count = kept;
    if (scan->older_count == 0) return SW_OK;
    NEST_MAKE_ROOM(core->run, scan->older, 0, scan->older_room, scan->older_count);
    memcpy(scan->older, scan->chain + kept, scan->older_count * sizeof *scan->older);
    return SW_OK;
}

/* Takes over the next links of the line before that still hold. */
static sw_status take_older(nest_core *core, nest_scan *scan, size_t *older)
{
    while (*older < scan->older_count && scan->older[*older].until_mm > scan->x_mm + NEST_TOUCH_MM)
        SW_TRY(put_link(core, scan, scan->older[(*older)++]));
    return SW_OK;
}

typedef struct ledge {
    double y_mm;
    const nest_block *b;
} ledge; /* b NULL: the lowest position itself */

/* What the last link reaches on the current line; it may have sunk below the lowest position. */
static ledge chain_ledge(nest_scan *scan)
{
    ledge floor = {scan->fit.y0_mm, NULL};
    if (scan->chain_count == 0) return floor;
    nest_block *b = &scan->blocks[scan->chain[scan->chain_count - 1].block];
    double to_mm = is_over(b, scan->x_mm) ? upper_at(b, scan->x_mm) : (double)INFINITY;
    return to_mm > floor.y_mm ? (ledge){to_mm, b} : floor;
}

static nest_link link_to(const nest_scan *scan, ledge below, step s)
{
    const nest_block *above = s.block == TOP ? NULL : &scan->blocks[s.block];
    double part_mm = parting(scan->x_mm, below.y_mm - s.forbidden.from_mm, upper_rail(below.b), lower_rail(above));
    double until_mm = above == NULL ? part_mm : fmin(part_mm, above->box.x1_mm);
    return (nest_link){.block = s.block, .until_mm = until_mm};
}

static bool is_full(const nest_scan *scan)
{
    return scan->chain_count > 0 && scan->chain[scan->chain_count - 1].block == TOP;
}

/* A chain of polygons from the lowest position up: to the first gap (y_mm) or to the highest position (is_full).
 * Each link holds until its until_mm, so that a full line stays full up to the least of them. */
static sw_status climb(nest_core *core, nest_scan *scan)
{
    size_t older = 0;
    core->tests++;
    SW_TRY(loosen(core, scan));
    while (!is_full(scan)) {
        ledge below = chain_ledge(scan);
        step s = {TOP, {scan->fit.y1_mm, INFINITY}, true};
        bool above_all = below.y_mm > scan->fit.y1_mm + NEST_TOUCH_MM;
        if (!above_all) s = step_over(scan, below.y_mm, &older);
        scan->y_mm = below.y_mm;
        if (!s.found) return SW_OK;
        SW_TRY(put_link(core, scan, link_to(scan, below, s)));
        bool as_before = !above_all && older > 0 && scan->older[older - 1].block == s.block;
        if (as_before) SW_TRY(take_older(core, scan, &older));
    }
    return SW_OK;
}

sw_status nest_scan_find(nest_core *core, nest_scan *scan, double most_x_mm, sw_point *at, bool *found)
{
    *found = false;
    while (!scan->done && scan->x_mm <= most_x_mm) {
        SW_TRY(climb(core, scan));
        if (!is_full(scan)) {
            *at = (sw_point){scan->x_mm, fmin(scan->y_mm, scan->fit.y1_mm)};
            *found = true;
            return SW_OK;
        }
        double next_mm = fmax(scan->chain[scan->chain_count - 1].opens_mm, scan->x_mm + least_step_mm);
        scan->done = next_mm > scan->fit.x1_mm + NEST_TOUCH_MM;
        if (!scan->done) SW_TRY(go_to(core, scan, fmin(next_mm, fmax(scan->fit.x1_mm, scan->x_mm))));
    }
    return SW_OK;
}
