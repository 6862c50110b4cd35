/* form_search.c: the order of the bend lines: A* over the sets of lines made.
 *
 * A node is (lines made, last line, which side of it lay at the gauge, the punch that stands in the press). A stroke's
 * clashes depend on the set, the line and the punch alone and are looked at when the search gets there. Weights (ours):
 * tools changed before a turn over before a turn round before the kind of stop, so the order has fewest of each in this
 * order, among those searched. The punch that stands stays while it clears: for a given order of lines a change put off never
 * makes one more. A first search takes the goose-neck only where the straight punch is struck; if its order needs one, a
 * second tries each punch wherever tools change. An order of straight punches alone is therefore the best of those that
 * take the straight punch wherever it clears: one with the goose-neck from the start is not looked for. Source of the method: Hart, Nilsson, Raphael 1968; of the setting: Duflou, Vancza, Aerens,
 * Computers in Industry 56 (2005), from memory. */
#include "making/form/form_parts.h"

#include <string.h>

static const double tools_cost = 1e6, over_cost = 1e4, quarter_cost = 300.0, half_cost = 400.0, neck_cost = 10.0;

enum { UNKNOWN, CLEAR, STRUCK, BLOCKED }; /* struck: by the punch, so that another one may help */

typedef struct node {
    double cost;
    uint32_t from; /* node before it */
    bool closed, reached;
} node;

typedef struct move { /* what a node stands for */
    uint32_t made, line, side;
    sw_form_punch stands; /* in the press: turned round with the piece */
} move;

typedef struct entry {
    double total;
    uint32_t node, made_count;
} entry;

typedef struct search {
    sw_run *run;
    form_job *job;
    uint32_t lines, full, punches; /* punches: 1 without a goose-neck, else 3 */
    bool each_punch;               /* all are tried where tools change; else the straight one first */
    node *nodes;                   /* [2^lines (2 lines punches)], +1: the start */
    unsigned char *clear;          /* [2^lines lines punches] */
    double *rest;                  /* [2^lines 2 lines] cost of the stop, NAN unknown */
    double *bound;                 /* [2^lines lines] rest_bound, NAN unknown */
    entry *heap;
    size_t heap_count, heap_room;
    uint32_t start;
} search;

static uint32_t node_of(const search *s, const move *m)
{
    return ((m->made * s->lines + m->line) * 2 + m->side) * s->punches + (uint32_t)m->stands;
}

static move move_of(const search *s, uint32_t id)
{
    uint32_t side = id / s->punches % 2, at = id / (2 * s->punches);
    return (move){at / s->lines, at % s->lines, side, (sw_form_punch)(id % s->punches)};
}

static const form_line *line_of(const search *s, uint32_t line)
{
    return &s->job->body->lines[line];
}

static bool before(const entry *a, const entry *b)
{
    if (a->total < b->total || a->total > b->total) return a->total < b->total;
    if (a->made_count != b->made_count) return a->made_count > b->made_count;
    return a->node < b->node;
}

static sw_status push(search *s, entry e)
{
    s->heap = sw_grow(s->run, s->run->scratch, s->heap, s->heap_count, &s->heap_room, sizeof *s->heap);
    if (s->heap == NULL) return SW_NO_MEMORY;
    size_t i = s->heap_count++;
    for (; i > 0 && before(&e, &s->heap[(i - 1) / 2]); i = (i - 1) / 2) s->heap[i] = s->heap[(i - 1) / 2];
    s->heap[i] = e;
    return SW_OK;
}

static entry pop(search *s)
{
    entry top = s->heap[0], last = s->heap[--s->heap_count];
    size_t i = 0;
    for (size_t k = 1; k < s->heap_count; k = 2 * i + 1) {
        if (k + 1 < s->heap_count && before(&s->heap[k + 1], &s->heap[k])) k++;
        if (!before(&s->heap[k], &last)) break;
        s->heap[i] = s->heap[k];
        i = k;
    }
    s->heap[i] = last;
    return top;
}

static bool other_tools(const form_line *a, const form_line *b)
{
    return a->kind != b->kind || a->kind == SW_FORM_PREBEND || fabs(a->die_mm - b->die_mm) > SW_SHORTEST_MM ||
           fabs(a->wedge_rad - b->wedge_rad) > 1e-9;
}

/* Quarter turns about the vertical between two strokes; turning over swaps front and rear for nothing. */
static int quarters(const form_line *a, uint32_t side_a, const form_line *b, uint32_t side_b)
{
    double da = a->heading_rad + (side_a != 0 ? SW_PI : 0.0), db = b->heading_rad + (side_b != 0 ? SW_PI : 0.0);
    double off = fabs(remainder(db - da, 2.0 * SW_PI));
    int q = (int)lround(off / (SW_PI / 2.0));
    return a->side * b->side < 0.0 && q == 2 ? 0 : q;
}

static double change_cost(const search *s, const move *m, const move *n)
{
    const form_line *a = line_of(s, m->line), *b = line_of(s, n->line);
    int q = quarters(a, m->side, b, n->side);
    double cost = q == 0 ? 0.0 : q == 1 ? quarter_cost : half_cost;
    if (m->stands != n->stands || other_tools(a, b)) cost += tools_cost;
    return a->side * b->side < 0.0 ? cost + over_cost : cost;
}

/* Never above what the rest costs: a change for each further die, one turn over where the other side is still wanted. */
static double rest_bound_anew(const search *s, uint32_t made, const form_line *last)
{
    double bound = 0.0;
    bool over = false;
    for (uint32_t i = 0; i < s->lines; i++) {
        const form_line *l = line_of(s, i);
        if ((made >> i & 1u) != 0) continue;
        over = over || l->side * last->side < 0.0;
        bool fresh = other_tools(l, last);
        for (uint32_t k = 0; k < i && fresh; k++) fresh = (made >> k & 1u) != 0 || other_tools(l, line_of(s, k));
        if (fresh) bound += tools_cost;
    }
    return over ? bound + over_cost : bound;
}

static double rest_bound(const search *s, uint32_t made, uint32_t last)
{
    double *known = &s->bound[made * s->lines + last];
    if (isnan(*known)) *known = rest_bound_anew(s, made, line_of(s, last));
    return *known;
}

/* ---- which punch clears -------------------------------------------------------------------------------------------- */

static unsigned char look(const search *s, uint32_t made, uint32_t line, sw_form_punch punch)
{
    form_clash clash;
    const form_line *l = line_of(s, line);
    if (isnan(l->die_mm) || isnan(l->set_rad) || l->wedge_rad + l->set_rad > SW_PI) return BLOCKED;
    if (punch != SW_FORM_STRAIGHT && l->kind == SW_FORM_JOGGLE) return BLOCKED;
    if (form_stroke_clear(s->job, made, (int)line, punch, &clash)) return CLEAR;
    return clash.other < 0 && clash.thing == SW_FORM_PUNCH ? STRUCK : BLOCKED;
}

/* Punch of the standard section. What strikes something else than the straight punch does so with any. */
static bool clears(const search *s, uint32_t made, uint32_t line, sw_form_punch punch)
{
    unsigned char *known = &s->clear[(made * s->lines + line) * s->punches];
    if (known[SW_FORM_STRAIGHT] == BLOCKED) return false;
    if (known[punch] == UNKNOWN) known[punch] = look(s, made, line, punch);
    return known[punch] == CLEAR;
}

static bool clears_somehow(const search *s, uint32_t made, uint32_t line)
{
    for (uint32_t p = 0; p < s->punches; p++)
        if (clears(s, made, line, (sw_form_punch)p)) return true;
    return false;
}

/* ---- the search ---------------------------------------------------------------------------------------------------- */

static double stop_cost(const search *s, uint32_t made, uint32_t line, uint32_t side)
{
    double *known = &s->rest[(made * s->lines + line) * 2 + side];
    if (isnan(*known)) *known = form_rest_of(s->job, made, (int)line, side != 0).cost;
    return *known;
}

static uint32_t bits(uint32_t m)
{
    uint32_t n = 0;
    for (; m != 0; m &= m - 1) n++;
    return n;
}

/* to.made: with its line. */
static sw_status reach(search *s, uint32_t from, const move *to)
{
    uint32_t id = node_of(s, to);
    double cost = s->nodes[from].cost + stop_cost(s, to->made & ~(1u << to->line), to->line, to->side);
    if (to->stands != SW_FORM_STRAIGHT) cost += neck_cost;
    if (from != s->start) {
        move last = move_of(s, from);
        cost += change_cost(s, &last, to);
    }
    if (s->nodes[id].reached && cost >= s->nodes[id].cost) return SW_OK;
    s->nodes[id] = (node){cost, from, false, true};
    return push(s, (entry){cost + rest_bound(s, to->made, to->line), id, bits(to->made)});
}

static bool stands_clear(const search *s, const move *to)
{
    return clears(s, to->made & ~(1u << to->line), to->line, form_punch_turned(to->stands, to->side != 0));
}

static sw_status next_stroke(search *s, uint32_t from, move to)
{
    if (from != s->start) {
        move last = move_of(s, from);
        to.stands = last.stands;
        if (!other_tools(line_of(s, last.line), line_of(s, to.line)) && stands_clear(s, &to))
            return reach(s, from, &to);
    }
    for (uint32_t p = 0; p < s->punches; p++) {
        to.stands = (sw_form_punch)p;
        if (!stands_clear(s, &to)) continue;
        SW_TRY(reach(s, from, &to));
        if (p == SW_FORM_STRAIGHT && !s->each_punch) break;
    }
    return SW_OK;
}

static sw_status expand(search *s, uint32_t id)
{
    uint32_t made = id == s->start ? 0 : move_of(s, id).made;
    for (uint32_t line = 0; line < s->lines; line++)
        for (uint32_t side = 0; side < 2 && (made >> line & 1u) == 0; side++)
            SW_TRY(next_stroke(s, id, (move){made | 1u << line, line, side, SW_FORM_STRAIGHT}));
    return SW_OK;
}

static void read_back(const search *s, uint32_t id, form_order *order)
{
    order->found = true;
    order->count = s->lines;
    for (size_t i = s->lines; i-- > 0; id = s->nodes[id].from) {
        move m = move_of(s, id);
        order->moves[i] =
            (form_move){(int)m.line, m.side != 0, form_punch_turned(m.stands, m.side != 0), m.made & ~(1u << m.line)};
    }
}

/* From nodes all zero. */
static sw_status steps(search *s, form_order *order)
{
    s->heap_count = 0;
    SW_TRY(expand(s, s->start));
    while (s->heap_count > 0) {
        entry e = pop(s);
        if (s->nodes[e.node].closed) continue;
        s->nodes[e.node].closed = true;
        if (move_of(s, e.node).made == s->full) {
            read_back(s, e.node, order);
            return SW_OK;
        }
        if (sw_run_cancelled(s->run)) return SW_CANCELLED;
        SW_TRY(expand(s, e.node));
    }
    return SW_OK;
}

static sw_status prepare(sw_run *run, form_job *job, search *s)
{
    *s = (search){.run = run, .job = job, .lines = (uint32_t)job->body->line_count};
    size_t sets = (size_t)1 << s->lines;
    s->full = (uint32_t)sets - 1;
    s->punches = job->machine.neck_mm > 0.0 ? SW_FORM_NECK_REAR + 1 : 1;
    s->start = (uint32_t)(sets * 2 * s->lines * s->punches);
    s->clear = SW_SCRATCH(run, sets * s->lines * s->punches, unsigned char);
    return s->clear == NULL ? SW_NO_MEMORY : form_memo_make(run, job->body, job->kept, &job->memo);
}

static void keep_deepest(form_order *order, uint32_t made)
{
    if (order->deepest_count > 0 && bits(made) > bits(order->deepest[0])) order->deepest_count = 0;
    if (order->deepest_count > 0 && bits(made) < bits(order->deepest[0])) return;
    if (order->deepest_count < FORM_DEEPEST) order->deepest[order->deepest_count++] = made;
}

/* Depth first over the sets; seen [2^lines]. Keeps the largest sets reached. */
static bool any_order(search *s, uint32_t made, unsigned char *seen, form_order *order)
{
    keep_deepest(order, made);
    if (made == s->full) return true;
    seen[made] = 1;
    for (uint32_t line = 0; line < s->lines; line++) {
        uint32_t next = made | 1u << line;
        if (next == made || seen[next] != 0 || !clears_somehow(s, made, line)) continue;
        if (any_order(s, next, seen, order)) return true;
    }
    return false;
}

static sw_status any(search *s, bool *found, form_order *order)
{
    unsigned char *seen = SW_SCRATCH(s->run, (size_t)s->full + 1, unsigned char);
    if (seen == NULL) return SW_NO_MEMORY;
    *found = any_order(s, 0, seen, order);
    return SW_OK;
}

sw_status form_any_order(sw_run *run, form_job *job, bool *found)
{
    search s;
    form_order order = {.count = 0};
    SW_TRY(prepare(run, job, &s));
    sw_status status = any(&s, found, &order);
    job->memo = NULL;
    return status;
}

static bool straight_alone(const form_order *order)
{
    for (size_t i = 0; i < order->count; i++)
        if (order->moves[i].punch != SW_FORM_STRAIGHT) return false;
    return true;
}

static sw_status best(search *s, form_order *order)
{
    size_t sets = (size_t)s->full + 1;
    s->nodes = SW_SCRATCH(s->run, s->start + 1, node);
    s->rest = SW_SCRATCH(s->run, sets * s->lines * 2, double);
    s->bound = SW_SCRATCH(s->run, sets * s->lines, double);
    if (s->nodes == NULL || s->rest == NULL || s->bound == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < sets * s->lines * 2; i++) s->rest[i] = (double)NAN;
    for (size_t i = 0; i < sets * s->lines; i++) s->bound[i] = (double)NAN;
    SW_TRY(steps(s, order));
    if (straight_alone(order)) return SW_OK;
    s->each_punch = true;
    memset(s->nodes, 0, (s->start + 1) * sizeof *s->nodes);
    return steps(s, order);
}

sw_status form_search(sw_run *run, form_job *job, form_order *order)
{
    search s;
    bool found = false;
    *order = (form_order){.found = job->body->line_count == 0};
    if (job->body->line_count == 0 || job->body->line_count > FORM_LINES) return SW_OK;
    job->looked = 0;
    job->kept = NULL; /* rolled zones may stand otherwise than before */
    SW_TRY(prepare(run, job, &s));
    sw_status status = any(&s, &found, order);
    if (status == SW_OK && found) status = best(&s, order);
    job->kept = job->memo;
    job->memo = NULL;
    order->looked = job->looked;
    return status;
}
