/* solid_stove.c: gathers the placed pieces and the extruded items of a stove for pictures and for glTF. */
#include "papers/papers_parts.h"

#include <string.h>

/* Walls of one closed chain of points between the two copies of the flat mesh. */
static void walls(sw_triangle *out, uint32_t first, uint32_t count, uint32_t lift)
{
    for (uint32_t i = 0; i < count; i++) {
        uint32_t a = first + i, b = first + (i + 1) % count;
        out[2 * i] = (sw_triangle){a, b, b + lift};
        out[2 * i + 1] = (sw_triangle){a, b + lift, a + lift};
    }
}

static sw_status chain_count(sw_run *run, sw_contour c, uint32_t *count)
{
    sw_contour flat = {0};
    SW_TRY(sw_contour_flattened(run, c, SW_CHORD_MM * 5.0, &flat));
    *count = (uint32_t)flat.n;
    return SW_OK;
}

/* The flat mesh's first points are the flattened outline and holes, in order. */
static sw_status extrude(sw_run *run, const sw_region *r, const sw_mesh *flat, double low_mm, double high_mm,
                         sw_mesh *out)
{
    uint32_t *counts = SW_SCRATCH(run, r->hole_count + 1, uint32_t), rim = 0;
    if (counts == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i <= r->hole_count; i++) {
        SW_TRY(chain_count(run, i == 0 ? r->outline : r->holes[i - 1], &counts[i]));
        rim += counts[i];
    }
    size_t n = flat->point_count, m = flat->triangle_count;
    sw_vec3 *points = SW_KEEP(run, 2 * n + 1, sw_vec3);
    sw_triangle *triangles = SW_KEEP(run, 2 * m + 2 * (size_t)rim + 1, sw_triangle);
    if (points == NULL || triangles == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) {
        points[i] = (sw_vec3){flat->points[i].x_mm, flat->points[i].y_mm, low_mm};
        points[n + i] = (sw_vec3){flat->points[i].x_mm, flat->points[i].y_mm, high_mm};
    }
    uint32_t lift = (uint32_t)n, first = 0;
    for (size_t i = 0; i < m; i++) {
        sw_triangle t = flat->triangles[i];
        triangles[i] = (sw_triangle){t.a, t.c, t.b};
        triangles[m + i] = (sw_triangle){t.a + lift, t.b + lift, t.c + lift};
    }
    for (size_t i = 0; i <= r->hole_count; i++) {
        walls(triangles + 2 * m + 2 * (size_t)first, first, counts[i], lift);
        first += counts[i];
    }
    *out = (sw_mesh){points, 2 * n, triangles, 2 * m + 2 * (size_t)rim};
    return SW_OK;
}

sw_status solid_extruded(sw_run *run, const sw_region *r, double low_mm, double high_mm, sw_mesh *out)
{
    sw_mesh flat;
    *out = (sw_mesh){0};
    SW_TRY(sw_region_triangles(run, r, SW_CHORD_MM * 5.0, 0.0, &flat));
    return extrude(run, r, &flat, low_mm, high_mm, out);
}

static size_t group_of(const sw_stove *stove, const char *name)
{
    for (size_t i = 0; i < stove->group_count; i++)
        if (strcmp(stove->groups[i].name, name) == 0) return i;
    return stove->group_count;
}

static sw_vec3 shift_of(const sw_stove *stove, size_t group, bool exploded)
{
    if (!exploded || group >= stove->group_count) return (sw_vec3){0};
    return stove->groups[group].explode;
}

static size_t placed_count(const sw_stove *stove)
{
    size_t n = 0;
    for (size_t i = 0; i < stove->piece_count; i++) n += stove->pieces[i].count;
    for (size_t i = 0; i < stove->item_count; i++) n += stove->items[i].count;
    return n;
}

static void add_piece(solid_part *parts, size_t *count, const sw_dossier *d, size_t index, bool exploded)
{
    const sw_stove *stove = d->model.stove;
    const sw_piece *piece = &stove->pieces[index];
    size_t group = group_of(stove, piece->group);
    for (size_t i = 0; i < piece->count; i++)
        parts[(*count)++] = (solid_part){.mesh = d->sheet->pieces[index].solid.mesh,
                                         .frame = piece->placements[i],
                                         .shift_mm = shift_of(stove, group, exploded),
                                         .colour = look_group(group),
                                         .tag = (int)index};
}

static sw_status add_item(sw_run *run, solid_part *parts, size_t *count, const sw_stove *stove, size_t index,
                          bool exploded)
{
    const sw_item *item = &stove->items[index];
    size_t group = group_of(stove, item->group);
    sw_mesh mesh;
    if (item->shape.outline.n == 0) return SW_OK;
    SW_TRY(solid_extruded(run, &item->shape, 0.0, item->thickness_mm, &mesh));
    sw_ink colour = item->kind == SW_ITEM_GLASS   ? look_glass()
                    : item->kind == SW_ITEM_BOARD ? look_group(3)
                                                  : look_group(group + 4);
    for (size_t i = 0; i < item->count; i++)
        parts[(*count)++] = (solid_part){.mesh = mesh,
                                         .frame = item->placements[i],
                                         .shift_mm = shift_of(stove, group, exploded),
                                         .colour = colour,
                                         .tag = -1 - (int)index};
    return SW_OK;
}

sw_status solid_stove(sw_run *run, const sw_dossier *d, bool exploded, const solid_part **parts, size_t *count)
{
    const sw_stove *stove = d->model.stove;
    solid_part *all = SW_SCRATCH(run, placed_count(stove) + 1, solid_part);
    *count = 0;
    *parts = all;
    if (all == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->piece_count; i++) add_piece(all, count, d, i, exploded);
    for (size_t i = 0; i < stove->item_count; i++) SW_TRY(add_item(run, all, count, stove, i, exploded));
    return SW_OK;
}
