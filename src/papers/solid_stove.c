/* solid_stove.c: gathers the placed pieces and the extruded items of a stove for pictures and for glTF. */
#include "papers/papers_parts.h"

#include <math.h>
#include <string.h>

/* An item of one outline as a plate: folded by the sheet study like a piece without bends, then set on its back. */
static sw_status plate_of(sw_run *run, const sw_item *item, double chord_mm, sw_mesh *out)
{
    const sw_face face = {.name = item->name, .region = item->shape};
    const sw_piece plate = {.number = item->number,
                            .name = item->name,
                            .thickness_mm = fmax(item->thickness_mm, SW_SHORTEST_MM),
                            .faces = &face,
                            .face_count = 1,
                            .place = item->place};
    sw_sheet_options options = sw_sheet_options_defaults();
    sw_solid solid;
    options.chord_mm = chord_mm;
    SW_TRY(sw_sheet_fold(run, &plate, &options, &solid));
    sw_vec3 *points = SW_SCRATCH(run, solid.mesh.point_count + 1, sw_vec3);
    if (points == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < solid.mesh.point_count; i++)
        points[i] = sw_vec3_add(solid.mesh.points[i], (sw_vec3){0.0, 0.0, plate.thickness_mm / 2.0});
    *out = solid.mesh;
    out->points = points;
    return SW_OK;
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

static sw_status add_item(sw_run *run, solid_part *parts, size_t *count, const sw_dossier *d, size_t index,
                          bool exploded)
{
    const sw_stove *stove = d->model.stove;
    const sw_item *item = &stove->items[index];
    size_t group = group_of(stove, item->group);
    sw_mesh mesh;
    if (item->shape.outline.n == 0) return SW_OK;
    SW_TRY(plate_of(run, item, d->sheet->chord_mm, &mesh));
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
    for (size_t i = 0; i < stove->item_count; i++) SW_TRY(add_item(run, all, count, d, i, exploded));
    return SW_OK;
}
