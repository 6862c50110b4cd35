/* nest_remnant.c: what rectangle of each finished sheet is worth keeping, and what the sheets cost with it.
 * Of a plain rectangular sheet: all beyond the last piece, or all above the highest, whichever is larger and reaches the
 * works' least size; zones where nothing may be cut are no part of it. Sheets are cropped straight across or along:
 * common practice, no source. */
#include "making/nest/nest_parts.h"

#include <math.h>

typedef struct used {
    double x_mm, y_mm; /* up to where the sheet is used, margin included */
    double area_mm2, piece_x_mm;
} used;

static sw_status piece_box(sw_run *run, const sw_nest_shape *shape, sw_motion motion, sw_box *box)
{
    sw_contour moved;
    size_t mark = sw_arena_mark(run->keep);
    sw_status status = sw_contour_moved(run, shape->region.outline, motion, &moved);
    if (status != SW_OK) return status;
    *box = sw_contour_box(moved);
    sw_arena_rewind(run->keep, mark);
    return SW_OK;
}

static sw_status measure(sw_run *run, const sw_nest_input *in, const sw_nest_sheet *sheet, used *u)
{
    *u = (used){0};
    for (size_t i = 0; i < sheet->place_count; i++) {
        const sw_nest_shape *shape = &in->shapes[sheet->places[i].shape];
        sw_box box;
        SW_TRY(piece_box(run, shape, sheet->places[i].motion, &box));
        u->piece_x_mm = fmax(u->piece_x_mm, box.x1_mm);
        u->y_mm = fmax(u->y_mm, box.y1_mm + in->margin_mm);
        u->area_mm2 += sw_region_area(&shape->region);
    }
    u->x_mm = u->piece_x_mm + in->margin_mm;
    for (size_t i = 0; i < sheet->stock->zone_count; i++) {
        u->x_mm = fmax(u->x_mm, sheet->stock->zones[i].box.x1_mm);
        u->y_mm = fmax(u->y_mm, sheet->stock->zones[i].box.y1_mm);
    }
    return SW_OK;
}

static void keep_larger(const sw_nest_input *in, sw_box box, sw_nest_sheet *sheet)
{
    double length_mm = box.x1_mm - box.x0_mm, width_mm = box.y1_mm - box.y0_mm;
    if (!nest_rest_counts(in, length_mm, width_mm)) return;
    if (length_mm * width_mm <= sheet->remnant_length_mm * sheet->remnant_width_mm) return;
    sheet->remnant_x_mm = box.x0_mm, sheet->remnant_y_mm = box.y0_mm;
    sheet->remnant_length_mm = length_mm, sheet->remnant_width_mm = width_mm;
}

static sw_status finish(sw_run *run, const sw_nest_input *in, sw_nest_sheet *sheet)
{
    used u;
    sw_box box = sw_contour_box(sheet->stock->shape.outline);
    SW_TRY(measure(run, in, sheet, &u));
    sheet->used_length_mm = fmin(u.piece_x_mm + in->margin_mm, box.x1_mm);
    sheet->piece_area_mm2 = u.area_mm2;
    sheet->density = u.area_mm2 / sw_region_area(&sheet->stock->shape);
    sheet->remnant_x_mm = sheet->remnant_y_mm = sheet->remnant_length_mm = sheet->remnant_width_mm = 0;
    if (!nest_is_plain(sheet->stock)) return SW_OK;
    keep_larger(in, (sw_box){u.x_mm, box.y0_mm, box.x1_mm, box.y1_mm}, sheet);
    keep_larger(in, (sw_box){box.x0_mm, u.y_mm, box.x1_mm, box.y1_mm}, sheet);
    return SW_OK;
}

static double paid_for(const sw_stock *stock)
{
    return stock->price > 0 ? stock->price : 0;
}

static void add_up(const sw_nest_input *in, const sw_nest_sheet *sheet, sw_nest_result *r)
{
    double n = (double)sheet->repeat, kg = in->density_kg_mm2, all_mm2 = sw_region_area(&sheet->stock->shape);
    double kept_mm2 = sheet->remnant_length_mm * sheet->remnant_width_mm;
    r->sheets_total += sheet->repeat;
    r->piece_area_mm2 += n * sheet->piece_area_mm2;
    r->sheet_area_mm2 += n * all_mm2;
    r->scrap_kg += n * fmax(all_mm2 - sheet->piece_area_mm2 - kept_mm2, 0) * kg;
    r->cost += n * sw_steel_cost(paid_for(sheet->stock), all_mm2 * kg, sheet->piece_area_mm2 * kg, kept_mm2 * kg,
                                 in->remnant_factor, in->scrap_price);
}

static void list_remnant(const sw_nest_input *in, const sw_nest_sheet *s, size_t index, sw_nest_result *r,
                         sw_nest_remnant *list)
{
    double share = s->remnant_length_mm * s->remnant_width_mm / sw_region_area(&s->stock->shape);
    if (share <= 0) return;
    list[r->remnant_count++] = (sw_nest_remnant){.sheet = index,
                                                 .count = s->repeat,
                                                 .x_mm = s->remnant_x_mm,
                                                 .y_mm = s->remnant_y_mm,
                                                 .length_mm = s->remnant_length_mm,
                                                 .width_mm = s->remnant_width_mm,
                                                 .worth = in->remnant_factor * paid_for(s->stock) * share};
}

sw_status nest_remnants_keep(sw_run *run, const sw_nest_input *in, sw_nest_sheet *sheets, size_t count,
                             sw_nest_result *r)
{
    sw_nest_remnant *list = SW_KEEP(run, count, sw_nest_remnant);
    if (list == NULL) return SW_NO_MEMORY;
    r->sheets = sheets;
    r->sheet_count = count;
    r->sheets_total = r->remnant_count = 0;
    r->piece_area_mm2 = r->sheet_area_mm2 = r->scrap_kg = r->cost = r->density = 0;
    for (size_t i = 0; i < count; i++) {
        SW_TRY(finish(run, in, &sheets[i]));
        add_up(in, &sheets[i], r);
        list_remnant(in, &sheets[i], i, r, list);
    }
    r->remnants = list;
    if (r->sheet_area_mm2 > 0) r->density = r->piece_area_mm2 / r->sheet_area_mm2;
    return SW_OK;
}
