/* nest_result.c: the plan in the caller's terms, in run->keep. */
#include "making/nest/nest_parts.h"

#include <math.h>

static sw_status make_places(nest_core *core, const nest_plan *plan, const nest_layout *layout, sw_nest_sheet *sheet)
{
    sw_nest_place *places = SW_KEEP(core->run, layout->count, sw_nest_place);
    if (places == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < layout->count; i++) {
        nest_spot spot = plan->spots[layout->first + i];
        const nest_turned *t = &core->turned[spot.turned];
        places[i] = (sw_nest_place){.shape = t->shape,
                                    .motion = {.turn_rad = t->turn_rad,
                                               .dx_mm = spot.at.x_mm - t->base.x_mm,
                                               .dy_mm = spot.at.y_mm - t->base.y_mm,
                                               .mirror = t->mirror}};
    }
    sheet->places = places;
    sheet->place_count = layout->count;
    return SW_OK;
}

static sw_status make_sheet(nest_core *core, const nest_plan *plan, const nest_layout *layout, sw_nest_sheet *sheet)
{
    const sw_stock *stock = core->in->stock[layout->stock];
    sw_box box = sw_contour_box(stock->shape.outline);
    nest_rest rest = nest_rest_of(core, layout);
    *sheet = (sw_nest_sheet){.stock = stock,
                             .used_length_mm = fmin(layout->reach_mm + core->in->margin_mm, box.x1_mm),
                             .piece_area_mm2 = layout->area_mm2,
                             .density = layout->area_mm2 / core->sheets[layout->stock].area_mm2,
                             .remnant_length_mm = rest.length_mm,
                             .remnant_width_mm = rest.width_mm,
                             .repeat = layout->repeat};
    return make_places(core, plan, layout, sheet);
}

static void add_up(const nest_core *core, const nest_layout *layout, sw_nest_result *result)
{
    double n = (double)layout->repeat;
    result->sheets_total += layout->repeat;
    result->piece_area_mm2 += n * layout->area_mm2;
    result->sheet_area_mm2 += n * core->sheets[layout->stock].area_mm2;
    double price = core->in->stock[layout->stock]->price;
    result->cost += n * nest_layout_cost(core, layout, price > 0 ? price : 0);
    result->scrap_kg += n * nest_layout_scrap_kg(core, layout);
}

sw_status nest_result_make(nest_core *core, const nest_plan *plan, sw_nest_result **result)
{
    sw_nest_result *r = SW_KEEP(core->run, 1, sw_nest_result);
    sw_nest_sheet *sheets = SW_KEEP(core->run, plan->layout_count, sw_nest_sheet);
    if (r == NULL || sheets == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < plan->layout_count; i++) {
        SW_TRY(make_sheet(core, plan, &plan->layouts[i], &sheets[i]));
        add_up(core, &plan->layouts[i], r);
    }
    r->sheets = sheets;
    r->sheet_count = plan->layout_count;
    if (r->sheet_area_mm2 > 0) r->density = r->piece_area_mm2 / r->sheet_area_mm2;
    if (r->piece_area_mm2 > 0) r->bound_density = r->piece_area_mm2 / nest_bound_area(core);
    r->tests = core->tests;
    *result = r;
    return SW_OK;
}
