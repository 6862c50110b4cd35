/* nest_scan.c: finds the leftmost, then lowest free position of one turned piece.
 *
 * A vertical line walks right over the positions at which the piece's box stays on the sheet. On a line, each
 * forbidden polygon is one interval of y; climbing from one to the highest that overlaps it ends in the first gap.
 * When the line is full, the polygons climbed over say where the first gap can open: where one of them ends or two
 * of them part. The line goes there at once. So positions are exact: straight edges touch, and a slot that fits
 * to the last hundredth is found. Sheets only fill up, so a full line stays full and the walk never goes back.
 * Derived; the leftmost, lowest vertex of the free region of no-fit polygons: Sato, Martins & Tsuzuki 2012 as told
 * in handbook workshop.md 6.2. Cost of a line: the polygons that
 * cross it, for each step of the climb that was not there on the line before. */
#include "making/nest/nest_parts.h"

#include <math.h>

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

/* Forbidden y of the polygon at x, moving the edges only to the right. Empty: from = INFINITY. */
static span interval(nest_block *b, double x_mm)
{
    if (x_mm <= b->x0_mm + NEST_TOUCH_MM || x_mm >= b->x1_mm - NEST_TOUCH_MM) return (span){INFINITY, INFINITY};
    const nest_poly *p = b->poly;
    double x = x_mm - b->at.x_mm;
    while (b->low + 1 < p->right && p->p[b->low + 1].x_mm < x) b->low++;
    while (b->high - 1 > p->right && p->p[b->high - 1].x_mm < x) b->high--;
    return (span){b->at.y_mm + on_edge(p->p[b->low], p->p[b->low + 1], x),
                  b->at.y_mm + on_edge(p->p[b->high == p->n ? 0 : b->high], p->p[b->high - 1], x)};
}

static nest_block block_of(const nest_poly *poly, sw_point at)
{
    return (nest_block){.poly = poly,
                        .at = at,
                        .x0_mm = poly->box.x0_mm + at.x_mm,
                        .x1_mm = poly->box.x1_mm + at.x_mm,
                        .high = poly->n};
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

static sw_status put_wait(nest_core *core, nest_scan *scan, uint32_t block)
{
    sw_run *run = core->run;
    nest_start *wait = sw_grow(run, run->scratch, scan->wait, scan->wait_count, &scan->wait_room, sizeof *wait);
    if (wait == NULL) return SW_NO_MEMORY;
    scan->wait = wait;
    nest_start added = {scan->blocks[block].x0_mm, block};
    size_t at = scan->wait_count++;
    for (; at > 0 && wait[(at - 1) / 2].x0_mm > added.x0_mm; at = (at - 1) / 2) wait[at] = wait[(at - 1) / 2];
    wait[at] = added;
    return SW_OK;
}

static uint32_t take_first(nest_scan *scan)
{
    uint32_t block = scan->wait[0].block;
    scan->wait[0] = scan->wait[--scan->wait_count];
    sink(scan->wait, scan->wait_count, 0);
    return block;
}

/* ---- opening, going on, adding --------------------------------------------------------------------- */

static sw_status put_live(nest_core *core, nest_scan *scan, uint32_t block)
{
    sw_run *run = core->run;
    nest_live *live = sw_grow(run, run->scratch, scan->live, scan->live_count, &scan->live_room, sizeof *live);
    if (live == NULL) return SW_NO_MEMORY;
    scan->live = live;
    const nest_block *b = &scan->blocks[block];
    double y0_mm = b->at.y_mm + b->poly->box.y0_mm, y1_mm = b->at.y_mm + b->poly->box.y1_mm;
    live[scan->live_count++] = (nest_live){y0_mm, y1_mm, b->x1_mm, block};
    return SW_OK;
}

static bool reaches(const nest_scan *scan, const nest_block *b)
{
    return b->x1_mm > scan->fit.x0_mm + NEST_TOUCH_MM && b->x0_mm < scan->fit.x1_mm - NEST_TOUCH_MM &&
           b->at.y_mm + b->poly->box.y1_mm > scan->fit.y0_mm && b->at.y_mm + b->poly->box.y0_mm < scan->fit.y1_mm;
}

static sw_status put_block(nest_core *core, nest_scan *scan, nest_block block)
{
    sw_run *run = core->run;
    nest_block *all = sw_grow(run, run->scratch, scan->blocks, scan->block_count, &scan->block_room, sizeof *all);
    if (all == NULL) return SW_NO_MEMORY;
    scan->blocks = all;
    all[scan->block_count++] = block;
    return SW_OK;
}

static sw_status go_to(nest_core *core, nest_scan *scan, double x_mm)
{
    size_t kept = 0;
    for (size_t i = 0; i < scan->live_count; i++)
        if (scan->live[i].x1_mm > x_mm + NEST_TOUCH_MM) scan->live[kept++] = scan->live[i];
    scan->live_count = kept;
    scan->x_mm = x_mm;
    while (scan->wait_count > 0 && scan->wait[0].x0_mm < x_mm) SW_TRY(put_live(core, scan, take_first(scan)));
    return SW_OK;
}

static sw_status put_pair(nest_core *core, nest_scan *scan, nest_spot spot)
{
    const nest_pair *pair = NULL;
    SW_TRY(nest_pair_find(core, spot.turned, scan->turned, &pair));
    for (size_t k = 0; k < pair->count; k++) {
        nest_block block = block_of(&pair->parts[k], spot.at);
        if (!reaches(scan, &block) || block.x1_mm <= scan->x_mm + NEST_TOUCH_MM) continue;
        uint32_t at = (uint32_t)scan->block_count;
        SW_TRY(put_block(core, scan, block));
        SW_TRY(block.x0_mm < scan->x_mm ? put_live(core, scan, at) : put_wait(core, scan, at));
    }
    return SW_OK;
}

sw_status nest_scan_open(nest_core *core, nest_scan *scan, const nest_spot *spots, size_t count)
{
    scan->block_count = scan->wait_count = scan->live_count = scan->chain_count = 0;
    scan->x_mm = scan->fit.x0_mm;
    scan->done = scan->fit.x1_mm < scan->fit.x0_mm || scan->fit.y1_mm < scan->fit.y0_mm;
    for (size_t i = 0; i < count; i++) SW_TRY(put_pair(core, scan, spots[i]));
    return SW_OK;
}

sw_status nest_scan_add(nest_core *core, nest_scan *scan, nest_spot spot)
{
    return scan->done ? SW_OK : put_pair(core, scan, spot);
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
        double end = fmin(end_below, end_above);
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

/* The polygon over y that reaches highest. */
static step highest_over(nest_scan *scan, double y)
{
    step best = {.forbidden = {0, y + NEST_TOUCH_MM}};
    double below = y - NEST_TOUCH_MM;
    for (size_t i = 0; i < scan->live_count; i++) {
        const nest_live *l = &scan->live[i];
        if (l->y0_mm >= below || l->y1_mm <= best.forbidden.to_mm) continue;
        span s = interval(&scan->blocks[l->block], scan->x_mm);
        if (s.from_mm < below && s.to_mm > best.forbidden.to_mm) best = (step){l->block, s, true};
    }
    return best;
}

/* The next polygon over y: first those of the line before, which mostly still serve, then all. */
static step step_over(nest_scan *scan, double y, size_t *older)
{
    for (; *older < scan->older_count && scan->older[*older].block != TOP; ++*older) {
        uint32_t block = scan->older[*older].block;
        span s = interval(&scan->blocks[block], scan->x_mm);
        if (!isfinite(s.from_mm) || s.to_mm <= y + NEST_TOUCH_MM) continue;
        if (s.from_mm >= y - NEST_TOUCH_MM) break;
        ++*older;
        return (step){block, s, true};
    }
    return highest_over(scan, y);
}

static sw_status put_link(nest_core *core, nest_scan *scan, nest_link link)
{
    if (scan->chain_count == scan->chain_room) {
        size_t room = scan->chain_room == 0 ? 32 : 2 * scan->chain_room;
        nest_link *chain = SW_SCRATCH(core->run, room, nest_link), *older = SW_SCRATCH(core->run, room, nest_link);
        if (chain == NULL || older == NULL) return SW_NO_MEMORY;
        for (size_t i = 0; i < scan->chain_count; i++) chain[i] = scan->chain[i];
        for (size_t i = 0; i < scan->older_count; i++) older[i] = scan->older[i];
        scan->chain = chain;
        scan->older = older;
        scan->chain_room = room;
    }
    scan->chain[scan->chain_count++] = link;
    return SW_OK;
}

static void chain_to_older(nest_scan *scan)
{
    nest_link *swap = scan->older;
    scan->older = scan->chain;
    scan->older_count = scan->chain_count;
    scan->chain = swap;
    scan->chain_count = 0;
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
    double to_mm = interval(b, scan->x_mm).to_mm;
    return to_mm > floor.y_mm ? (ledge){to_mm, b} : floor;
}

static nest_link link_to(const nest_scan *scan, ledge below, step s)
{
    const nest_block *above = s.block == TOP ? NULL : &scan->blocks[s.block];
    double part_mm = parting(scan->x_mm, below.y_mm - s.forbidden.from_mm, upper_rail(below.b), lower_rail(above));
    return (nest_link){s.block, above == NULL ? part_mm : fmin(part_mm, above->x1_mm)};
}

/* Takes over the links of the line before that still hold; gives how many. */
static sw_status take_older(nest_core *core, nest_scan *scan, size_t *older)
{
    while (*older < scan->older_count && scan->older[*older].until_mm > scan->x_mm + NEST_TOUCH_MM)
        SW_TRY(put_link(core, scan, scan->older[(*older)++]));
    return SW_OK;
}

/* A chain of polygons from the lowest position up: to the first gap (y_mm, full = false) or to the highest position.
 * Each link holds until its until_mm, so that a full line stays full up to the least of them. */
static sw_status climb(nest_core *core, nest_scan *scan, bool *full)
{
    size_t older = 0;
    core->tests++;
    chain_to_older(scan);
    SW_TRY(take_older(core, scan, &older));
    for (;;) {
        *full = scan->chain_count > 0 && scan->chain[scan->chain_count - 1].block == TOP;
        if (*full) return SW_OK;
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
}

static double opens_at(const nest_scan *scan)
{
    double opens_mm = INFINITY;
    for (size_t i = 0; i < scan->chain_count; i++) opens_mm = fmin(opens_mm, scan->chain[i].until_mm);
    return opens_mm;
}

sw_status nest_scan_find(nest_core *core, nest_scan *scan, double most_x_mm, sw_point *at, bool *found)
{
    *found = false;
    while (!scan->done && scan->x_mm <= most_x_mm) {
        bool full = false;
        SW_TRY(climb(core, scan, &full));
        if (!full) {
            *at = (sw_point){scan->x_mm, fmin(scan->y_mm, scan->fit.y1_mm)};
            *found = true;
            return SW_OK;
        }
        double next_mm = fmax(opens_at(scan), scan->x_mm + least_step_mm);
        scan->done = next_mm > scan->fit.x1_mm + NEST_TOUCH_MM;
        if (!scan->done) SW_TRY(go_to(core, scan, fmin(next_mm, fmax(scan->fit.x1_mm, scan->x_mm))));
    }
    return SW_OK;
}
