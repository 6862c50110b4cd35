/* dxf_join.c: loose lines and arcs into paths. The ends are sorted by x, so that an end's neighbours are
 * found among those within join_mm in x. From a first piece the path grows forward to the nearest free end
 * of its layer, then, if it did not close, backward. */
#include "dxf/dxf_parts.h"

#include <stdlib.h>
#include <string.h>

typedef struct end {
    sw_point at;
    size_t piece;
    bool first; /* the piece's start, else its end */
} end;

typedef struct joiner {
    dxf_found *found;
    end *ends; /* [2 loose_count], by x */
    bool *used;
    sw_vertex *v; /* path under way: vertices with the bulge of the segment after them */
    size_t n;
} joiner;

static int by_x(const void *a, const void *b)
{
    const end *p = a, *q = b;
    if (p->at.x_mm != q->at.x_mm) return p->at.x_mm < q->at.x_mm ? -1 : 1;
    if (p->piece != q->piece) return p->piece < q->piece ? -1 : 1;
    return (int)q->first - (int)p->first;
}

static size_t first_from(const joiner *j, double x_mm)
{
    size_t low = 0, high = 2 * j->found->loose_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (j->ends[middle].at.x_mm < x_mm)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* The nearest free end of the layer within join_mm of p; NULL when there is none. */
static const end *find_end(const joiner *j, sw_point p, const char *layer)
{
    const end *best = NULL;
    double best_mm = j->found->join_mm;
    for (size_t i = first_from(j, p.x_mm - best_mm); i < 2 * j->found->loose_count; i++) {
        const end *e = &j->ends[i];
        if (e->at.x_mm > p.x_mm + j->found->join_mm) break;
        double away_mm = hypot(e->at.x_mm - p.x_mm, e->at.y_mm - p.y_mm);
        if (j->used[e->piece] || away_mm > best_mm || (best != NULL && away_mm >= best_mm)) continue;
        if (strcmp(j->found->loose[e->piece].layer, layer) != 0) continue;
        best = e;
        best_mm = away_mm;
    }
    return best;
}

static void put_piece(joiner *j, const dxf_loose *piece, bool forward)
{
    j->v[j->n - 1].bulge = forward ? piece->from.bulge : -piece->from.bulge;
    sw_point to = forward ? piece->to : (sw_point){piece->from.x_mm, piece->from.y_mm};
    j->v[j->n++] = (sw_vertex){to.x_mm, to.y_mm, 0.0};
}

/* Grows the path at its last vertex until it is back at its start (true) or nothing goes on. */
static bool grow_path(joiner *j, const char *layer)
{
    for (;;) {
        sw_vertex last = j->v[j->n - 1];
        if (j->n > 2 && hypot(last.x_mm - j->v[0].x_mm, last.y_mm - j->v[0].y_mm) <= j->found->join_mm) return true;
        const end *next = find_end(j, (sw_point){last.x_mm, last.y_mm}, layer);
        if (next == NULL) return false;
        j->used[next->piece] = true;
        put_piece(j, &j->found->loose[next->piece], next->first);
    }
}

static void turn_path(joiner *j)
{
    for (size_t i = 0, k = j->n - 1; i < k; i++, k--) {
        sw_vertex swap = j->v[i];
        j->v[i] = j->v[k];
        j->v[k] = swap;
    }
    for (size_t i = 0; i + 1 < j->n; i++) j->v[i].bulge = -j->v[i + 1].bulge;
    j->v[j->n - 1].bulge = 0.0;
}

static sw_status path_from(joiner *j, size_t piece)
{
    const dxf_loose *start = &j->found->loose[piece];
    j->used[piece] = true;
    j->v[0] = start->from;
    j->n = 1;
    put_piece(j, start, true);
    bool closed = grow_path(j, start->layer);
    if (!closed) {
        turn_path(j);
        closed = grow_path(j, start->layer);
        turn_path(j);
    }
    return dxf_add_path(j->found, start->layer, closed, j->v, closed ? j->n - 1 : j->n);
}

sw_status dxf_join(dxf_found *found)
{
    size_t n = found->loose_count;
    joiner j = {.found = found};
    j.ends = SW_SCRATCH(found->run, 2 * n, end);
    j.used = SW_SCRATCH(found->run, n, bool);
    j.v = SW_SCRATCH(found->run, n + 2, sw_vertex);
    if (j.ends == NULL || j.used == NULL || j.v == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) {
        const dxf_loose *piece = &found->loose[i];
        j.ends[2 * i] = (end){{piece->from.x_mm, piece->from.y_mm}, i, true};
        j.ends[2 * i + 1] = (end){piece->to, i, false};
    }
    qsort(j.ends, 2 * n, sizeof *j.ends, by_x);
    for (size_t i = 0; i < n; i++)
        if (!j.used[i]) SW_TRY(path_from(&j, i));
    return SW_OK;
}

sw_status dxf_add_path(dxf_found *found, const char *layer, bool closed, const sw_vertex *v, size_t n)
{
    sw_dxf_path *grown =
        sw_grow(found->run, found->run->scratch, found->paths, found->path_count, &found->path_room, sizeof *grown);
    sw_vertex *kept = SW_KEEP(found->run, n, sw_vertex);
    if (grown == NULL || kept == NULL) return SW_NO_MEMORY;
    memcpy(kept, v, n * sizeof *kept);
    found->paths = grown;
    grown[found->path_count++] = (sw_dxf_path){layer, closed, kept, n};
    return SW_OK;
}
