/* form_search.c: the order of the bend lines: A* over the sets of lines made.
 *
 * A node is (lines made, last line, which side of it lay at the gauge). A stroke's clashes depend on the set and the line
 * alone and are looked at when the search gets there. Weights (ours): a die changed before a turn over before a turn round
 * before the kind of stop, so the order has fewest of each in this order. Source of the method: Hart, Nilsson, Raphael
 * 1968; of the setting: Duflou, Vancza, Aerens, Computers in Industry 56 (2005), from memory. */
#include "making/form/form_parts.h"

static const double die_cost = 1e6, over_cost = 1e4, quarter_cost = 300.0, half_cost = 400.0, neck_cost = 10.0;

enum { UNKNOWN, STRAIGHT, FRONT, REAR, BLOCKED };

typedef struct node {
    double cost;
    uint32_t from; /* node before it */
    bool closed, reached;
} node;

typedef struct entry {
    double total;
    uint32_t node, made_count;
} entry;

typedef struct search {
    sw_run *run;
    form_job *job;
    uint32_t lines, full;
    node *nodes;          /* [2^lines (2 lines)], +1: the start */
    unsigned char *clear; /* [2^lines lines] */
    double *rest;         /* [2^lines 2 lines] cost of the stop, NAN unknown */
    entry *heap;
    size_t heap_count, heap_room;
    uint32_t start;
} search;

static uint32_t node_of(const search *s, uint32_t made, uint32_t line, uint32_t side)
{
    return made * 2 * s->lines + line * 2 + side;
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

static double change_cost(const form_line *a, uint32_t side_a, const form_line *b, uint32_t side_b)
{
    int q = quarters(a, side_a, b, side_b);
    double cost = q == 0 ? 0.0 : q == 1 ? quarter_cost : half_cost;
    if (other_tools(a, b)) cost += die_cost;
    return a->side * b->side < 0.0 ? cost + over_cost : cost;
}

/* Never above what the rest costs: a die change a further die, one turn over where the other side is still wanted. */
static double rest_bound(const search *s, uint32_t made, const form_line *last)
{
    double bound = 0.0;
    bool over = false;
    for (uint32_t i = 0; i < s->lines; i++) {
        const form_line *l = &s->job->body->lines[i];
        if ((made >> i & 1u) != 0 || last == NULL) continue;
        over = over || l->side * last->side < 0.0;
        bool fresh = other_tools(l, last);
        for (uint32_t k = 0; k < i && fresh; k++)
            fresh = (made >> k & 1u) != 0 || other_tools(l, &s->job->body->lines[k]);
        if (fresh) bound += die_cost;
    }
    return over ? bound + over_cost : bound;
}

static unsigned char clear_of(search *s, uint32_t made, uint32_t line)
{
    unsigned char *known = &s->clear[made * s->lines + line];
    form_clash clash;
    if (*known != UNKNOWN) return *known;
    const form_line *l = &s->job->body->lines[line];
    *known = BLOCKED;
    if (isnan(l->die_mm) || isnan(l->set_rad) || l->wedge_rad + l->set_rad > SW_PI) return BLOCKED;
    if (form_stroke_clear(s->job, made, (int)line, SW_FORM_STRAIGHT, &clash)) return *known = STRAIGHT;
    bool punch = clash.other < 0 && clash.thing == SW_FORM_PUNCH; /* a relief helps against nothing else */
    if (s->job->machine.neck_mm <= 0.0 || l->kind == SW_FORM_JOGGLE || !punch) return BLOCKED;
    if (form_stroke_clear(s->job, made, (int)line, SW_FORM_NECK_REAR, &clash)) return *known = REAR;
    if (form_stroke_clear(s->job, made, (int)line, SW_FORM_NECK_FRONT, &clash)) return *known = FRONT;
    return BLOCKED;
}

static double stop_cost(search *s, uint32_t made, uint32_t line, uint32_t side)
{
    double *known = &s->rest[(made * s->lines + line) * 2 + side];
    if (isnan(*known)) *known = form_rest_of(s->job, made, (int)line, side != 0).cost;
    return *known;
}

static sw_status reach(search *s, uint32_t from, uint32_t made, uint32_t line, uint32_t side)
{
    const form_line *l = &s->job->body->lines[line];
    uint32_t id = node_of(s, made | 1u << line, line, side);
    double cost = s->nodes[from].cost + stop_cost(s, made, line, side);
    if (s->clear[made * s->lines + line] != STRAIGHT) cost += neck_cost;
    if (from != s->start) {
        const form_line *last = &s->job->body->lines[from % (2 * s->lines) / 2];
        cost += change_cost(last, from % 2, l, side);
    }
    if (s->nodes[id].reached && cost >= s->nodes[id].cost) return SW_OK;
    s->nodes[id] = (node){cost, from, false, true};
    uint32_t count = 0;
    for (uint32_t m = made; m != 0; m &= m - 1) count++;
    return push(s, (entry){cost + rest_bound(s, made | 1u << line, l), id, count + 1});
}

static sw_status expand(search *s, uint32_t id)
{
    uint32_t made = id == s->start ? 0 : id / (2 * s->lines);
    for (uint32_t line = 0; line < s->lines; line++) {
        if ((made >> line & 1u) != 0 || clear_of(s, made, line) == BLOCKED) continue;
        for (uint32_t side = 0; side < 2; side++) SW_TRY(reach(s, id, made, line, side));
    }
    return SW_OK;
}

static void read_back(search *s, uint32_t id, form_order *order)
{
    static const sw_form_punch punches[] = {SW_FORM_STRAIGHT, SW_FORM_STRAIGHT, SW_FORM_NECK_FRONT, SW_FORM_NECK_REAR};
    order->found = true;
    order->count = s->lines;
    for (size_t i = s->lines; i-- > 0; id = s->nodes[id].from) {
        uint32_t line = id % (2 * s->lines) / 2, made = id / (2 * s->lines) & ~(1u << line);
        order->moves[i] = (form_move){(int)line, id % 2 != 0, punches[s->clear[made * s->lines + line]], made};
    }
}

static uint32_t bits(uint32_t m)
{
    uint32_t n = 0;
    for (; m != 0; m &= m - 1) n++;
    return n;
}

static sw_status steps(search *s, form_order *order)
{
    SW_TRY(expand(s, s->start));
    while (s->heap_count > 0) {
        entry e = pop(s);
        uint32_t made = e.node / (2 * s->lines);
        if (s->nodes[e.node].closed) continue;
        s->nodes[e.node].closed = true;
        if (made == s->full) {
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
    s->start = (uint32_t)(sets * 2 * s->lines);
    s->clear = SW_SCRATCH(run, sets * s->lines, unsigned char);
    return s->clear == NULL ? SW_NO_MEMORY : form_memo_make(run, job->body, &job->memo);
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
        if (next == made || seen[next] != 0 || clear_of(s, made, line) == BLOCKED) continue;
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

static sw_status best(search *s, form_order *order)
{
    size_t sets = (size_t)s->full + 1;
    s->nodes = SW_SCRATCH(s->run, s->start + 1, node);
    s->rest = SW_SCRATCH(s->run, sets * s->lines * 2, double);
    if (s->nodes == NULL || s->rest == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < sets * s->lines * 2; i++) s->rest[i] = NAN;
    return steps(s, order);
}

sw_status form_search(sw_run *run, form_job *job, form_order *order)
{
    search s;
    bool found = false;
    *order = (form_order){.found = job->body->line_count == 0};
    if (job->body->line_count == 0 || job->body->line_count > FORM_LINES) return SW_OK;
    job->looked = 0;
    SW_TRY(prepare(run, job, &s));
    sw_status status = any(&s, &found, order);
    if (status == SW_OK && found) status = best(&s, order);
    job->memo = NULL;
    order->looked = job->looked;
    return status;
}
