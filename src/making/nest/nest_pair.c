/* nest_pair.c: forbidden positions of one turned piece beside another, made when first asked for.
 *
 * B overlaps A when some part b, moved to B's position, meets a part a: the position lies inside a (+) -b.
 * The Minkowski sum of two convex polygons is their edges merged by slope. Source: Bennell & Oliveira, EJOR 184
 * (2008), tutorial on the geometry of nesting; handbook 6.2. */
#include "making/nest/nest_parts.h"

static const size_t pair_limit_bytes = (size_t)96 << 20; /* then all are dropped and made anew. Ours */

static uint32_t after(const nest_poly *poly, uint32_t i)
{
    return i + 1 < poly->n ? i + 1 : 0;
}

/* The highest of the rightmost corners: the leftmost, lowest of -b. */
static uint32_t first_of_negated(const nest_poly *b)
{
    uint32_t first = b->right;
    while (b->p[after(b, first)].x_mm == b->p[first].x_mm) first = after(b, first);
    return first;
}

static bool further_right(sw_point a, sw_point b)
{
    return a.x_mm > b.x_mm || (a.x_mm == b.x_mm && a.y_mm < b.y_mm);
}

/* a (+) -b; p[a->n + b->n] becomes its corners. */
static nest_poly sum_of(const nest_poly *a, const nest_poly *b, sw_point *p)
{
    uint32_t i = 0, j = first_of_negated(b), left_a = a->n, left_b = b->n, n = 0, right = 0;
    while (left_a + left_b > 0) {
        uint32_t next_i = after(a, i), next_j = after(b, j);
        sw_point pa = a->p[i], pb = b->p[j], qa = a->p[next_i], qb = b->p[next_j];
        p[n] = (sw_point){pa.x_mm - pb.x_mm, pa.y_mm - pb.y_mm};
        if (further_right(p[n], p[right])) right = n;
        n++;
        double turn = (qa.x_mm - pa.x_mm) * (pb.y_mm - qb.y_mm) - (qa.y_mm - pa.y_mm) * (pb.x_mm - qb.x_mm);
        bool on_a = left_b == 0 || (left_a > 0 && turn >= 0), on_b = left_a == 0 || (left_b > 0 && turn <= 0);
        if (on_a) i = next_i, left_a--;
        if (on_b) j = next_j, left_b--;
    }
    sw_box box = {p[0].x_mm, a->box.y0_mm - b->box.y1_mm, p[right].x_mm, a->box.y1_mm - b->box.y0_mm};
    return (nest_poly){.p = p, .n = n, .right = right, .box = box};
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

static size_t corners_of(const nest_poly *parts, size_t count)
{
    size_t corners = 0;
    for (size_t i = 0; i < count; i++) corners += parts[i].n;
    return corners;
}

/* Sums that lie within another forbid nothing more and are left out. */
static sw_status make_pair(nest_core *core, const nest_turned *a, const nest_turned *b, const nest_pair **pair)
{
    int p = parts_for(core, a, b), q = parts_for(core, b, a);
    size_t m = a->part_count[p], n = b->part_count[q];
    nest_pair *made = sw_arena_take(core->pair_arena, 1, sizeof *made);
    nest_poly *parts = sw_arena_take(core->pair_arena, m * n, sizeof *parts);
    size_t corners = n * corners_of(a->parts[p], m) + m * corners_of(b->parts[q], n);
    sw_point *at = sw_arena_take(core->pair_arena, corners, sizeof *at);
    if (made == NULL || parts == NULL || at == NULL) return no_room(core);
    for (size_t i = 0; i < m; i++)
        for (size_t j = 0; j < n; j++) {
            parts[made->count] = sum_of(&a->parts[p][i], &b->parts[q][j], at);
            at += parts[made->count++].n;
        }
    made->count = nest_poly_drop_inner(parts, made->count);
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
