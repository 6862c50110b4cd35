/* dxf_join.c: loose lines and arcs into paths. The ends are sorted by layer and by cells of twice join_mm, so that an
 * end's neighbours are found in nine cells; ends that are used up are stepped over. From a first piece the path grows
 * forward to the nearest free end of its layer, then, if it did not close, backward. */
#include "dxf/dxf_parts.h"

#include <stdlib.h>
#include <string.h>

typedef struct end {
    sw_point at;
    double cell_x, cell_y;
    size_t layer, piece; /* rank of the layer's name among all */
    bool first;          /* the piece's start, else its end */
} end;

typedef struct layer_of {
    const char *name;
    size_t piece;
} layer_of;

typedef struct joiner {
    dxf_found *found;
    end *ends;          /* [2 loose_count], by layer, cell, then x */
    size_t *layers;     /* [loose_count] rank of each piece's layer */
    size_t (*where)[2]; /* [loose_count] of each piece's two ends in `ends` */
    size_t *free_from;  /* [2 loose_count + 1] a free end at or behind this one, or one on the way there */
    bool *used;
    sw_vertex *v; /* path under way: vertices with the bulge of the segment after them */
    size_t n;
} joiner;

static int either(double a, double b)
{
    return a < b ? -1 : a > b;
}

/* The order in which ends that are equally near are taken. */
static int by_x(const end *p, const end *q)
{
    if (p->at.x_mm != q->at.x_mm) return either(p->at.x_mm, q->at.x_mm);
    if (p->piece != q->piece) return p->piece < q->piece ? -1 : 1;
    return (int)q->first - (int)p->first;
}

static int by_cell(const void *a, const void *b)
{
    const end *p = a, *q = b;
    if (p->layer != q->layer) return p->layer < q->layer ? -1 : 1;
    if (p->cell_x != q->cell_x) return either(p->cell_x, q->cell_x);
    if (p->cell_y != q->cell_y) return either(p->cell_y, q->cell_y);
    return by_x(p, q);
}

static int by_layer(const void *a, const void *b)
{
    const layer_of *p = a, *q = b;
    return p->name == q->name ? 0 : strcmp(p->name, q->name);
}

static double cell_of(const joiner *j, double mm)
{
    return floor(mm / (2.0 * j->found->join_mm));
}

/* The first end of the layer at or behind a cell. */
static size_t first_from(const joiner *j, size_t layer, double cell_x, double cell_y)
{
    const end wanted = {.at.x_mm = -INFINITY, .cell_x = cell_x, .cell_y = cell_y, .layer = layer};
    size_t low = 0, high = 2 * j->found->loose_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (by_cell(&j->ends[middle], &wanted) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

static size_t next_free(const joiner *j, size_t i)
{
    for (; j->free_from[i] != i; i = j->free_from[i]) j->free_from[i] = j->free_from[j->free_from[i]];
    return i;
}

static void use_piece(joiner *j, size_t piece)
{
    j->used[piece] = true;
    for (int i = 0; i < 2; i++) j->free_from[j->where[piece][i]] = j->where[piece][i] + 1;
}

/* The nearest free end of the layer within join_mm of p; NULL when there is none. */
static const end *find_end(const joiner *j, sw_point p, size_t layer)
{
    const end *best = NULL;
    double best_mm = j->found->join_mm, cell_x = cell_of(j, p.x_mm), cell_y = cell_of(j, p.y_mm);
    for (int dx = -1; dx <= 1; dx++) {
        size_t i = next_free(j, first_from(j, layer, cell_x + dx, cell_y - 1));
        for (; i < 2 * j->found->loose_count; i = next_free(j, i + 1)) {
            const end *e = &j->ends[i];
            if (e->layer != layer || e->cell_x != cell_x + dx || e->cell_y > cell_y + 1) break;
            double away_mm = hypot(e->at.x_mm - p.x_mm, e->at.y_mm - p.y_mm);
            if (away_mm > best_mm || (best != NULL && away_mm == best_mm && by_x(e, best) > 0)) continue;
            best = e;
            best_mm = away_mm;
            if (away_mm <= 0.0) return best;
        }
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
static bool grow_path(joiner *j, size_t layer)
{
    while (!sw_run_cancelled(j->found->run)) {
        sw_vertex last = j->v[j->n - 1];
        if (j->n > 2 && hypot(last.x_mm - j->v[0].x_mm, last.y_mm - j->v[0].y_mm) <= j->found->join_mm) return true;
        const end *next = find_end(j, (sw_point){last.x_mm, last.y_mm}, layer);
        if (next == NULL) return false;
        use_piece(j, next->piece);
        put_piece(j, &j->found->loose[next->piece], next->first);
    }
    return false;
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
    use_piece(j, piece);
    j->v[0] = start->from;
    j->n = 1;
    put_piece(j, start, true);
    bool closed = grow_path(j, j->layers[piece]);
    if (!closed) {
        turn_path(j);
        closed = grow_path(j, j->layers[piece]);
        turn_path(j);
    }
    if (sw_run_cancelled(j->found->run))
        return sw_fail(j->found->run, SW_CANCELLED, (sw_place){0}, "", "stopped on request");
    return dxf_add_path(j->found, start->layer, closed, j->v, closed ? j->n - 1 : j->n);
}

static sw_status rank_layers(joiner *j)
{
    size_t n = j->found->loose_count;
    layer_of *all = SW_SCRATCH(j->found->run, n, layer_of);
    if (all == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) all[i] = (layer_of){j->found->loose[i].layer, i};
    qsort(all, n, sizeof *all, by_layer);
    for (size_t i = 0, rank = 0; i < n; i++) {
        if (i > 0 && by_layer(&all[i - 1], &all[i]) != 0) rank++;
        j->layers[all[i].piece] = rank;
    }
    return SW_OK;
}

static void sort_ends(joiner *j)
{
    size_t n = j->found->loose_count;
    for (size_t i = 0; i < n; i++) {
        const dxf_loose *piece = &j->found->loose[i];
        j->ends[2 * i] =
            (end){.at = {piece->from.x_mm, piece->from.y_mm}, .layer = j->layers[i], .piece = i, .first = true};
        j->ends[2 * i + 1] = (end){.at = piece->to, .layer = j->layers[i], .piece = i};
    }
    for (size_t i = 0; i < 2 * n; i++) {
        j->ends[i].cell_x = cell_of(j, j->ends[i].at.x_mm);
        j->ends[i].cell_y = cell_of(j, j->ends[i].at.y_mm);
    }
    qsort(j->ends, 2 * n, sizeof *j->ends, by_cell);
    for (size_t i = 0; i < 2 * n; i++) j->where[j->ends[i].piece][j->ends[i].first ? 0 : 1] = i;
    for (size_t i = 0; i <= 2 * n; i++) j->free_from[i] = i;
}

sw_status dxf_join(dxf_found *found)
{
    size_t n = found->loose_count;
    joiner j = {.found = found};
    if (n == 0) return SW_OK;
    j.ends = SW_SCRATCH(found->run, 2 * n, end);
    j.layers = SW_SCRATCH(found->run, n, size_t);
    j.where = sw_scratch(found->run, n, sizeof *j.where);
    j.free_from = SW_SCRATCH(found->run, 2 * n + 1, size_t);
    j.used = SW_SCRATCH(found->run, n, bool);
    j.v = SW_SCRATCH(found->run, n + 2, sw_vertex);
    if (j.ends == NULL || j.layers == NULL || j.where == NULL || j.free_from == NULL || j.used == NULL || j.v == NULL)
        return SW_NO_MEMORY;
    SW_TRY(rank_layers(&j));
    sort_ends(&j);
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
