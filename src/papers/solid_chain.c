/* solid_chain.c: joins the visible stretches of a picture into long lines and drops points that a pen of its width
 * would not show: fewer marks on paper, smaller files. */
#include "papers/solid_parts.h"

#include <math.h>

#define SAME_MM 2e-3 /* ends closer than this are one */
#define FLAT_MM 0.03 /* points nearer than this to the line between their neighbours are left out */
#define TINY_MM 0.12 /* lone specks shorter than this are rounding of the depth buffer */

typedef struct end {
    int64_t x, y;
    uint32_t line;
    uint32_t next;
} end; /* next: same slot, +1 */

typedef struct joints {
    const solid_lines *lines;
    uint32_t *slots; /* end + 1 */
    end *ends;       /* [2 x lines] start and stop of line i at 2i, 2i+1 */
    bool *used;      /* [lines] */
    size_t mask;
} joints;

static double length_of(double x_mm, double y_mm)
{
    return sqrt(x_mm * x_mm + y_mm * y_mm);
}

static int64_t step_of(double mm)
{
    return (int64_t)(mm / SAME_MM + 0.5); /* the picture's lengths are positive */
}

static size_t slot_of(const joints *j, int64_t x, int64_t y)
{
    uint64_t h = (uint64_t)x * 0x9e3779b97f4a7c15u ^ (uint64_t)y * 0xc2b2ae3d27d4eb4fu;
    return (size_t)(h ^ (h >> 29)) & j->mask;
}

static sw_status joints_make(sw_run *run, const solid_lines *lines, joints *j)
{
    size_t n = 64;
    while (n < 2 * lines->count) n *= 2;
    *j = (joints){lines, SW_SCRATCH(run, n, uint32_t), SW_SCRATCH(run, 2 * lines->count + 1, end),
                  SW_SCRATCH(run, lines->count + 1, bool), n - 1};
    if (j->slots == NULL || j->ends == NULL || j->used == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < 2 * lines->count; i++) {
        sw_point p = lines->items[i / 2][i % 2];
        end *e = &j->ends[i];
        *e = (end){step_of(p.x_mm), step_of(p.y_mm), (uint32_t)(i / 2), 0};
        uint32_t *slot = &j->slots[slot_of(j, e->x, e->y)];
        e->next = *slot;
        *slot = (uint32_t)i + 1;
    }
    return SW_OK;
}

/* An unused line that ends at p and goes on most nearly straight from the direction (dx, dy); false = none. */
static bool go_on(const joints *j, sw_point p, double dx, double dy, size_t *line, int *far_end)
{
    int64_t x = step_of(p.x_mm), y = step_of(p.y_mm);
    double best = 0.3; /* cosine: sharper turns start a line of their own */
    for (uint32_t k = j->slots[slot_of(j, x, y)]; k != 0; k = j->ends[k - 1].next) {
        const end *e = &j->ends[k - 1];
        if (e->x != x || e->y != y || j->used[e->line]) continue;
        int other = (k - 1) % 2 == 0 ? 1 : 0;
        sw_point q = j->lines->items[e->line][other];
        double length = length_of(q.x_mm - p.x_mm, q.y_mm - p.y_mm) * length_of(dx, dy);
        double cosine = ((q.x_mm - p.x_mm) * dx + (q.y_mm - p.y_mm) * dy) / fmax(length, 1e-12);
        if (cosine <= best) continue;
        best = cosine;
        *line = e->line;
        *far_end = other;
    }
    return best > 0.3;
}

typedef struct thread {
    sw_point *points;
    size_t count, room;
} thread;

static sw_status add_point(sw_run *run, thread *t, sw_point p)
{
    sw_point *points = sw_grow(run, run->scratch, t->points, t->count, &t->room, sizeof *points);
    if (points == NULL) return SW_NO_MEMORY;
    t->points = points;
    points[t->count++] = p;
    return SW_OK;
}

static sw_status follow(sw_run *run, joints *j, thread *t)
{
    size_t line = 0;
    int far_end = 0;
    for (;;) {
        sw_point a = t->points[t->count - 2], b = t->points[t->count - 1];
        if (!go_on(j, b, b.x_mm - a.x_mm, b.y_mm - a.y_mm, &line, &far_end)) return SW_OK;
        j->used[line] = true;
        SW_TRY(add_point(run, t, j->lines->items[line][far_end]));
    }
}

static void turn_round(thread *t)
{
    for (size_t i = 0, k = t->count - 1; i < k; i++, k--) {
        sw_point keep = t->points[i];
        t->points[i] = t->points[k];
        t->points[k] = keep;
    }
}

static double off_line(sw_point p, sw_point a, sw_point b)
{
    double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, length = length_of(dx, dy);
    if (length < SAME_MM) return length_of(p.x_mm - a.x_mm, p.y_mm - a.y_mm);
    return fabs((p.x_mm - a.x_mm) * dy - (p.y_mm - a.y_mm) * dx) / length;
}

/* Greedy: goes on from the last kept point as long as all points between stay near the straight line. */
static void thin_out(thread *t)
{
    size_t kept = 1, last = 0;
    for (size_t i = 2; i < t->count; i++) {
        bool flat = i - last < 24;
        for (size_t k = last + 1; k < i && flat; k++)
            flat = off_line(t->points[k], t->points[last], t->points[i]) <= FLAT_MM;
        if (flat) continue;
        last = i - 1;
        t->points[kept++] = t->points[last]; /* kept <= last: never overwrites what is still read */
    }
    t->points[kept++] = t->points[t->count - 1];
    t->count = kept;
}

static double thread_length(const thread *t)
{
    double sum = 0.0;
    for (size_t i = 1; i < t->count; i++)
        sum += length_of(t->points[i].x_mm - t->points[i - 1].x_mm, t->points[i].y_mm - t->points[i - 1].y_mm);
    return sum;
}

sw_status solid_chains(sw_run *run, const solid_lines *lines, const solid_chain **chains, size_t *count)
{
    joints j;
    SW_TRY(joints_make(run, lines, &j));
    solid_chain *all = SW_SCRATCH(run, lines->count + 1, solid_chain);
    if (all == NULL) return SW_NO_MEMORY;
    *chains = all;
    *count = 0;
    for (size_t i = 0; i < lines->count; i++) {
        if (j.used[i]) continue;
        j.used[i] = true;
        thread t = {0};
        SW_TRY(add_point(run, &t, lines->items[i][0]));
        SW_TRY(add_point(run, &t, lines->items[i][1]));
        SW_TRY(follow(run, &j, &t));
        turn_round(&t);
        SW_TRY(follow(run, &j, &t));
        if (thread_length(&t) < TINY_MM) continue;
        if (t.count > 2) thin_out(&t);
        all[(*count)++] = (solid_chain){t.points, t.count};
    }
    return SW_OK;
}
