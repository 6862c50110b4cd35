/* nest_sheets.c: what of each stock sheet may be used. A sheet that is no plain rectangle gets blocks: convex
 * polygons over everything in its box that is not sheet, grown so that the margin is kept; and over zones where
 * nothing may
 * be cut, grown so that the web is. */
#include "making/nest/nest_parts.h"

#include <math.h>
#include <string.h>

/* Frame of blocked ground laid round the sheet's box, so that no block is thin where the outline meets it. Ours. */
static const double frame_mm = 20;

bool nest_is_plain(const sw_stock *stock)
{
    sw_box box = sw_contour_box(stock->shape.outline);
    double box_area = (box.x1_mm - box.x0_mm) * (box.y1_mm - box.y0_mm);
    return stock->shape.hole_count == 0 && fabs(box_area - sw_contour_area(stock->shape.outline)) <= 1e-9 * box_area;
}

typedef struct blocks { /* a growing list */
    nest_poly *polys;
    size_t count, room;
} blocks;

/* Blocks are grown by what the distance to keep exceeds the half web that the pieces already carry. */
static sw_status add_blocks(nest_core *core, const nest_rings *rings, double clear_mm, blocks *all)
{
    const nest_poly *parts = NULL;
    size_t n = 0;
    double grow_mm = fmax(clear_mm - core->in->web_mm / 2, 0);
    SW_TRY(nest_convex(core->run, rings, grow_mm, &parts, &n));
    NEST_MAKE_ROOM(core->run, all->polys, all->count, all->room, n);
    memcpy(all->polys + all->count, parts, n * sizeof *parts);
    all->count += n;
    return SW_OK;
}

static sw_status box_ring(nest_core *core, sw_box b, double more_mm, nest_rings *rings)
{
    double x0 = b.x0_mm - more_mm, x1 = b.x1_mm + more_mm, y0 = b.y0_mm - more_mm, y1 = b.y1_mm + more_mm;
    const sw_vertex v[] = {{x0, y0, 0}, {x1, y0, 0}, {x1, y1, 0}, {x0, y1, 0}};
    return nest_outline_ring(core->run, (sw_contour){v, 4}, false, core->opt->exactness_mm, rings);
}

static sw_status list_outside(nest_core *core, const sw_stock *stock, blocks *all)
{
    nest_rings rings = {0};
    double error_mm = core->opt->exactness_mm, margin_mm = core->in->margin_mm;
    SW_TRY(box_ring(core, sw_contour_box(stock->shape.outline), frame_mm, &rings));
    SW_TRY(nest_outline_ring(core->run, stock->shape.outline, true, error_mm, &rings));
    SW_TRY(add_blocks(core, &rings, margin_mm, all));
    for (size_t i = 0; i < stock->shape.hole_count; i++) {
        rings.point_count = rings.ring_count = 0;
        SW_TRY(nest_outline_ring(core->run, stock->shape.holes[i], true, error_mm, &rings));
        SW_TRY(add_blocks(core, &rings, margin_mm, all));
    }
    return SW_OK;
}

static sw_status list_zones(nest_core *core, const sw_stock *stock, blocks *all)
{
    for (size_t i = 0; i < stock->zone_count; i++) {
        nest_rings rings = {0};
        SW_TRY(box_ring(core, stock->zones[i].box, 0, &rings));
        SW_TRY(add_blocks(core, &rings, core->in->web_mm, all));
    }
    return SW_OK;
}

/* Pieces that lie there already, with their cut-outs open. */
static sw_status add_begun(nest_core *core, const sw_nest_place *place, blocks *all)
{
    nest_rings rings = {0};
    sw_region moved;
    double web_mm = core->in->web_mm;
    size_t mark = sw_arena_mark(core->run->keep);
    sw_status status = sw_region_moved(core->run, &core->in->shapes[place->shape].region, place->motion, &moved);
    if (status == SW_OK) status = nest_outline(core->run, &moved, core->opt->exactness_mm, 0, &rings);
    sw_arena_rewind(core->run->keep, mark);
    return status == SW_OK ? add_blocks(core, &rings, web_mm, all) : status;
}

static bool is_begun(const nest_core *core, size_t stock)
{
    return core->in->begun_count > 0 && core->in->begun_stock == stock;
}

static sw_status list_begun(nest_core *core, size_t stock, blocks *all)
{
    for (size_t i = 0; is_begun(core, stock) && i < core->in->begun_count; i++)
        SW_TRY(add_begun(core, &core->in->begun[i], all));
    return SW_OK;
}

static sw_status block_sheet(nest_core *core, size_t index, nest_sheet *sheet)
{
    const sw_stock *stock = core->in->stock[index];
    nest_turned block = {.shape = SIZE_MAX};
    blocks all = {.polys = NULL};
    if (!nest_is_plain(stock)) SW_TRY(list_outside(core, stock, &all));
    SW_TRY(list_zones(core, stock, &all));
    SW_TRY(list_begun(core, index, &all));
    block.parts[NEST_OPEN] = block.parts[NEST_SOLID] = all.polys;
    block.part_count[NEST_OPEN] = block.part_count[NEST_SOLID] = all.count;
    sheet->block = core->turned_count;
    return nest_turned_add(core, block);
}

/* The works' price; without one a full sheet counts by its area and a remnant is free, so that it is used first. */
static double choice_price(const sw_stock *stock, double area_mm2)
{
    if (stock->price > 0) return stock->price;
    return stock->remnant ? 0 : sw_m2_from_mm2(area_mm2);
}

sw_status nest_sheets_make(nest_core *core)
{
    core->sheets = SW_SCRATCH(core->run, core->in->stock_count, nest_sheet);
    if (core->sheets == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < core->in->stock_count; i++) {
        const sw_stock *stock = core->in->stock[i];
        nest_sheet *sheet = &core->sheets[i];
        sw_box box = sw_contour_box(stock->shape.outline);
        double m = core->in->margin_mm;
        *sheet = (nest_sheet){.block = SIZE_MAX, .area_mm2 = sw_region_area(&stock->shape)};
        sheet->usable = (sw_box){box.x0_mm + m, box.y0_mm + m, box.x1_mm - m, box.y1_mm - m};
        sheet->usable_area_mm2 =
            fmax(sheet->usable.x1_mm - sheet->usable.x0_mm, 0) * fmax(sheet->usable.y1_mm - sheet->usable.y0_mm, 0);
        sheet->usable_area_mm2 = fmin(sheet->usable_area_mm2, sheet->area_mm2);
        sheet->price = choice_price(stock, sheet->area_mm2);
        if (!stock->remnant) core->largest_mm2 = fmax(core->largest_mm2, sheet->usable_area_mm2);
        bool blocked = !nest_is_plain(stock) || stock->zone_count > 0 || is_begun(core, i);
        if (blocked) SW_TRY(block_sheet(core, i, sheet));
    }
    return SW_OK;
}

bool nest_fits_box(const nest_core *core, size_t kind, size_t stock)
{
    const nest_kind *k = &core->kinds[kind];
    sw_box u = core->sheets[stock].usable;
    for (size_t i = 0; i < k->count; i++) {
        const nest_turned *t = &core->turned[k->first + i];
        if (t->width_mm <= u.x1_mm - u.x0_mm + NEST_TOUCH_MM && t->height_mm <= u.y1_mm - u.y0_mm + NEST_TOUCH_MM)
            return true;
    }
    return false;
}
