/* slice.c: triangles of a zone in narrow bands across y, so that folded chords stay near the arc. The region is cut into
 * trapezoids at every band and every corner's height; corners on a trapezoid's long sides become corners of its
 * triangles, so there are no T-joints. The result is proved by its area. */
#include "making/sheet/sheet_parts.h"

#include <math.h>
#include <stdlib.h>

typedef struct spot { /* a corner of the triangles */
    double x_mm;
    uint32_t level, id;
} spot;

typedef struct side {          /* part of a border edge from one level to the next */
    uint32_t level, low, high; /* the lower level; spot ids */
    double middle_mm;
} side;

typedef struct slicer {
    sw_run *run;
    const sw_rings *rings;
    size_t ring_points;
    double *levels_mm;
    size_t level_count;
    uint32_t *level_of; /* [ring_points] */
    spot *spots;        /* by id */
    size_t spot_count, spot_room;
    side *sides;
    size_t side_count, side_room;
    spot *row;      /* spots by level, then x */
    uint32_t *rank; /* place in row by id */
    sw_triangle *triangles;
    size_t triangle_count, triangle_room;
    bool broken; /* borders that touch or cross: no answer */
} slicer;

static int compare_numbers(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

static int compare_spots(const void *left, const void *right)
{
    const spot *a = left, *b = right;
    if (a->level != b->level) return a->level < b->level ? -1 : 1;
    if (a->x_mm != b->x_mm) return a->x_mm < b->x_mm ? -1 : 1;
    return (a->id > b->id) - (a->id < b->id);
}

static int compare_sides(const void *left, const void *right)
{
    const side *a = left, *b = right;
    if (a->level != b->level) return a->level < b->level ? -1 : 1;
    return (a->middle_mm > b->middle_mm) - (a->middle_mm < b->middle_mm);
}

/* ---- levels ----------------------------------------------------------------------------------- */

static uint32_t find_level(const slicer *s, double y_mm)
{
    size_t low = 0, high = s->level_count - 1;
    while (low < high) {
        size_t middle = (low + high + 1) / 2;
        if (s->levels_mm[middle] <= y_mm + SW_SAME_POINT_MM)
            low = middle;
        else
            high = middle - 1;
    }
    return (uint32_t)low;
}

static sw_status find_levels(slicer *s, double top_mm, size_t bands)
{
    size_t n = 0, kept = 1;
    s->levels_mm = SW_SCRATCH(s->run, bands + 1 + s->ring_points, double);
    s->level_of = SW_SCRATCH(s->run, s->ring_points, uint32_t);
    if (s->levels_mm == NULL || s->level_of == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i <= bands; i++) s->levels_mm[n++] = top_mm * (double)i / (double)bands;
    for (size_t i = 0; i < s->ring_points; i++) s->levels_mm[n++] = s->rings->points[i].y_mm;
    qsort(s->levels_mm, n, sizeof *s->levels_mm, compare_numbers);
    for (size_t i = 1; i < n; i++)
        if (s->levels_mm[i] - s->levels_mm[kept - 1] > 2.0 * SW_SAME_POINT_MM) s->levels_mm[kept++] = s->levels_mm[i];
    s->level_count = kept;
    for (size_t i = 0; i < s->ring_points; i++)
        s->level_of[i] = find_level(s, s->rings->points[i].y_mm + SW_SAME_POINT_MM);
    return SW_OK;
}

/* ---- spots and sides ---------------------------------------------------------------------------- */

static sw_status add_spot(slicer *s, double x_mm, uint32_t level)
{
    spot *grown = sw_grow(s->run, s->run->scratch, s->spots, s->spot_count, &s->spot_room, sizeof *grown);
    if (grown == NULL) return SW_NO_MEMORY;
    s->spots = grown;
    grown[s->spot_count] = (spot){x_mm, level, (uint32_t)s->spot_count};
    s->spot_count++;
    return SW_OK;
}

static sw_status add_side(slicer *s, uint32_t from, uint32_t to)
{
    side *grown = sw_grow(s->run, s->run->scratch, s->sides, s->side_count, &s->side_room, sizeof *grown);
    if (grown == NULL) return SW_NO_MEMORY;
    s->sides = grown;
    bool up = s->spots[from].level < s->spots[to].level;
    uint32_t low = up ? from : to, high = up ? to : from;
    double middle_mm = (s->spots[low].x_mm + s->spots[high].x_mm) / 2.0;
    grown[s->side_count++] = (side){s->spots[low].level, low, high, middle_mm};
    return SW_OK;
}

/* The edge between two ring points, cut at every level it crosses. */
static sw_status cut_edge(slicer *s, uint32_t from, uint32_t to)
{
    sw_point a = s->rings->points[from], b = s->rings->points[to];
    int64_t level = s->level_of[from], end = s->level_of[to], step = end > level ? 1 : -1;
    uint32_t last = from;
    if (level == end) return SW_OK;
    for (level += step; level != end; level += step) {
        double t = (s->levels_mm[level] - a.y_mm) / (b.y_mm - a.y_mm);
        SW_TRY(add_spot(s, a.x_mm + t * (b.x_mm - a.x_mm), (uint32_t)level));
        SW_TRY(add_side(s, last, (uint32_t)s->spot_count - 1));
        last = (uint32_t)s->spot_count - 1;
    }
    return add_side(s, last, to);
}

static sw_status cut_rings(slicer *s)
{
    for (size_t i = 0; i < s->ring_points; i++) SW_TRY(add_spot(s, s->rings->points[i].x_mm, s->level_of[i]));
    for (size_t r = 0; r < s->rings->count; r++) {
        size_t first = r == 0 ? 0 : s->rings->ends[r - 1], end = s->rings->ends[r];
        for (size_t i = first; i < end; i++) SW_TRY(cut_edge(s, (uint32_t)i, (uint32_t)(i + 1 < end ? i + 1 : first)));
    }
    return SW_OK;
}

static sw_status sort_rows(slicer *s)
{
    s->row = SW_SCRATCH(s->run, s->spot_count, spot);
    s->rank = SW_SCRATCH(s->run, s->spot_count, uint32_t);
    if (s->row == NULL || s->rank == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->spot_count; i++) s->row[i] = s->spots[i];
    qsort(s->row, s->spot_count, sizeof *s->row, compare_spots);
    for (size_t i = 0; i < s->spot_count; i++) s->rank[s->row[i].id] = (uint32_t)i;
    qsort(s->sides, s->side_count, sizeof *s->sides, compare_sides);
    return SW_OK;
}

/* ---- trapezoids -------------------------------------------------------------------------------- */

static sw_status add_triangle(slicer *s, uint32_t a, uint32_t b, uint32_t c)
{
    sw_triangle *grown =
        sw_grow(s->run, s->run->scratch, s->triangles, s->triangle_count, &s->triangle_room, sizeof *grown);
    if (grown == NULL) return SW_NO_MEMORY;
    s->triangles = grown;
    grown[s->triangle_count++] = (sw_triangle){a, b, c};
    return SW_OK;
}

/* Between a left and a right side: zips the spots along the lower and the upper level, the nearer next one first. */
static sw_status fill(slicer *s, const side *left, const side *right)
{
    uint32_t low = s->rank[left->low], low_end = s->rank[right->low];
    uint32_t high = s->rank[left->high], high_end = s->rank[right->high];
    s->broken = s->broken || low > low_end || high > high_end;
    while (!s->broken && (low < low_end || high < high_end)) {
        bool along_low = high == high_end || (low < low_end && s->row[low + 1].x_mm <= s->row[high + 1].x_mm);
        if (along_low) {
            SW_TRY(add_triangle(s, s->row[low].id, s->row[low + 1].id, s->row[high].id));
            low++;
        } else {
            SW_TRY(add_triangle(s, s->row[low].id, s->row[high + 1].id, s->row[high].id));
            high++;
        }
    }
    return SW_OK;
}

static sw_status fill_all(slicer *s)
{
    for (size_t i = 0; i + 1 < s->side_count; i += 2) {
        s->broken = s->broken || s->sides[i].level != s->sides[i + 1].level;
        SW_TRY(fill(s, &s->sides[i], &s->sides[i + 1]));
    }
    s->broken = s->broken || s->side_count % 2 != 0;
    return SW_OK;
}

static sw_status read_mesh(slicer *s, sw_mesh *out)
{
    sw_vec3 *points = SW_SCRATCH(s->run, s->spot_count, sw_vec3);
    if (points == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->spot_count; i++) {
        bool given = i < s->ring_points;
        double y_mm = given ? s->rings->points[i].y_mm : s->levels_mm[s->spots[i].level];
        points[i] = (sw_vec3){s->spots[i].x_mm, y_mm, 0.0};
    }
    *out = (sw_mesh){points, s->spot_count, s->triangles, s->triangle_count};
    double want_mm2 = sw_rings_area(s->rings), got_mm2 = sw_mesh_area(out);
    if (s->broken || fabs(want_mm2 - got_mm2) > 1e-6 * (1.0 + want_mm2)) *out = (sw_mesh){0};
    return SW_OK;
}

sw_status sw_sheet_slice(sw_run *run, const sw_rings *rings, double top_mm, size_t bands, sw_mesh *out)
{
    slicer s = {.run = run, .rings = rings, .ring_points = rings->ends[rings->count - 1]};
    SW_TRY(find_levels(&s, top_mm, bands));
    SW_TRY(cut_rings(&s));
    SW_TRY(sort_rows(&s));
    SW_TRY(fill_all(&s));
    return read_mesh(&s, out);
}
