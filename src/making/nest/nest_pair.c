/* nest_pair.c: forbidden positions of one turned piece beside another, made when first asked for.
 *
 * B overlaps A when some part b, moved to B's position, meets a part a: the position lies inside a (+) -b.
 * The Minkowski sum of two convex polygons is their edges merged by slope. Source: Bennell & Oliveira, EJOR 184
 * (2008), tutorial on the geometry of nesting; handbook workshop.md 6.2. */
#include "making/nest/nest_parts.h"

static const size_t pair_limit_bytes = (size_t)96 << 20; /* then all are dropped and made anew. Ours */

/* -b, starting from its leftmost, lowest corner; q[b->n]. */
static void negated(const nest_poly *b, sw_point *q)
{
    uint32_t first = b->right; /* rightmost; the highest of these becomes the lowest */
    while (b->p[(first + 1) % b->n].x_mm == b->p[first].x_mm) first = (first + 1) % b->n;
    for (uint32_t i = 0; i < b->n; i++) {
        sw_point p = b->p[(first + i) % b->n];
        q[i] = (sw_point){-p.x_mm, -p.y_mm};
    }
}

static sw_point edge(const sw_point *p, uint32_t n, uint32_t i)
{
    sw_point a = p[i < n ? i : 0], b = p[i + 1 < n ? i + 1 : 0];
    return (sw_point){b.x_mm - a.x_mm, b.y_mm - a.y_mm};
}

/* Both start at their leftmost, lowest corner. out[n + m]; gives the number of corners. */
static size_t minkowski(const nest_poly *a, const sw_point *q, uint32_t m, sw_point *out)
{
    uint32_t i = 0, j = 0;
    size_t k = 0;
    sw_point at = {a->p[0].x_mm + q[0].x_mm, a->p[0].y_mm + q[0].y_mm};
    while (i < a->n || j < m) {
        out[k++] = at;
        sw_point e = edge(a->p, a->n, i), f = edge(q, m, j);
        double turn = e.x_mm * f.y_mm - e.y_mm * f.x_mm;
        bool take_e = j == m || (i < a->n && turn >= 0), take_f = i == a->n || (j < m && turn <= 0);
        if (take_e) at.x_mm += e.x_mm, at.y_mm += e.y_mm, i++;
        if (take_f) at.x_mm += f.x_mm, at.y_mm += f.y_mm, j++;
    }
    return k;
}

static sw_status sum_of(nest_core *core, const nest_poly *a, const nest_poly *b, nest_poly *out)
{
    sw_point small[256], *room = small;
    size_t mark = sw_arena_mark(core->run->scratch);
    if (a->n + 2 * b->n > 256) room = SW_SCRATCH(core->run, a->n + 2 * (size_t)b->n, sw_point);
    if (room == NULL) return SW_NO_MEMORY;
    negated(b, room);
    size_t n = minkowski(a, room, b->n, room + b->n);
    sw_status status = nest_poly_make(core->run, core->pair_arena, room + b->n, n, out);
    sw_arena_rewind(core->run->scratch, mark);
    return status;
}

static sw_status no_room(nest_core *core)
{
    return sw_fail(core->run, SW_NO_MEMORY, (sw_place){0}, "", "the memory limit is reached comparing two pieces");
}

/* Which parts of a matter to b: the filled ones when b can be in none of a's holes. */
static int parts_for(const nest_core *core, const nest_turned *a, const nest_turned *b)
{
    if (a->shape == SIZE_MAX || b->shape == SIZE_MAX) return NEST_OPEN;
    const nest_kind *kind = &core->kinds[a->shape];
    for (size_t i = 0; i < kind->hole_count; i++)
        if (nest_may_enter(&core->kinds[b->shape], kind->holes[i])) return NEST_OPEN;
    return NEST_SOLID;
}

static sw_status make_pair(nest_core *core, const nest_turned *a, const nest_turned *b, const nest_pair **pair)
{
    int p = parts_for(core, a, b), q = parts_for(core, b, a);
    nest_pair *made = sw_arena_take(core->pair_arena, 1, sizeof *made);
    nest_poly *parts = sw_arena_take(core->pair_arena, a->part_count[p] * b->part_count[q], sizeof *parts);
    if (made == NULL || parts == NULL) return no_room(core);
    for (size_t i = 0; i < a->part_count[p]; i++)
        for (size_t j = 0; j < b->part_count[q]; j++)
            SW_TRY(sum_of(core, &a->parts[p][i], &b->parts[q][j], &parts[made->count++]));
    made->parts = parts;
    *pair = made;
    return SW_OK;
}

static sw_status row_of(nest_core *core, size_t a, nest_slot **row)
{
    if (core->pairs[a] == NULL) core->pairs[a] = sw_arena_take(core->pair_arena, core->turned_count, sizeof(nest_slot));
    *row = core->pairs[a];
    return *row == NULL ? no_room(core) : SW_OK;
}

sw_status nest_pair_find(nest_core *core, size_t a, size_t b, const nest_pair **pair)
{
    nest_slot *row = NULL;
    SW_TRY(row_of(core, a, &row));
    if (row[b].pair == NULL) SW_TRY(make_pair(core, &core->turned[a], &core->turned[b], &row[b].pair));
    *pair = row[b].pair;
    return SW_OK;
}

void nest_pair_trim(nest_core *core)
{
    if (sw_arena_bytes(core->pair_arena) < pair_limit_bytes) return;
    for (size_t i = 0; i < core->turned_count; i++) core->pairs[i] = NULL;
    sw_arena_rewind(core->pair_arena, 0);
}
