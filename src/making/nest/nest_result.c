/* nest_result.c: the plan in the caller's terms, in run->keep. */
#include "making/nest/nest_parts.h"

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

sw_status nest_result_make(nest_core *core, const nest_plan *plan, sw_nest_result **result)
{
    sw_nest_result *r = SW_KEEP(core->run, 1, sw_nest_result);
    sw_nest_sheet *sheets = SW_KEEP(core->run, plan->layout_count, sw_nest_sheet);
    if (r == NULL || sheets == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < plan->layout_count; i++) {
        const nest_layout *layout = &plan->layouts[i];
        bool last = i + 1 == plan->layout_count;
        sheets[i] = (sw_nest_sheet){
            .stock = core->in->stock[layout->stock], .repeat = layout->repeat, .lot = 1, .completes = last ? 1 : 0};
        SW_TRY(make_places(core, plan, layout, &sheets[i]));
    }
    SW_TRY(nest_remnants_keep(core->run, core->in, sheets, plan->layout_count, r));
    if (r->piece_area_mm2 > 0) r->bound_density = r->piece_area_mm2 / nest_bound_area(core);
    r->tests = core->tests;
    *result = r;
    return SW_OK;
}
