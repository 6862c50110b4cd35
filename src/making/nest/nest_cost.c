/* nest_cost.c: what is left of a sheet and what it cost.
 *   cost = p_sheet - p_scrap m_skeleton - f p_sheet A_remnant / A_sheet,  m_skeleton = m_sheet - m_parts - m_remnant
 * Source: handbook 5.4; that a remnant counts only from 300 x 500 mm is common practice, no source. */
#include "making/nest/nest_parts.h"

#include <math.h>

static const double usual_length_mm = 500, usual_width_mm = 300;

bool nest_rest_counts(const sw_nest_input *in, double length_mm, double width_mm)
{
    double least_length_mm = in->remnant_least_length_mm > 0 ? in->remnant_least_length_mm : usual_length_mm;
    double least_width_mm = in->remnant_least_width_mm > 0 ? in->remnant_least_width_mm : usual_width_mm;
    return fmax(length_mm, width_mm) >= fmax(least_length_mm, least_width_mm) &&
           fmin(length_mm, width_mm) >= fmin(least_length_mm, least_width_mm);
}

nest_rest nest_rest_of(const nest_core *core, const nest_layout *layout)
{
    const sw_nest_input *in = core->in;
    if (core->sheets[layout->stock].block != SIZE_MAX) return (nest_rest){0, 0};
    sw_box box = sw_contour_box(in->stock[layout->stock]->shape.outline);
    double length_mm = box.x1_mm - layout->reach_mm - in->margin_mm, width_mm = box.y1_mm - box.y0_mm;
    return nest_rest_counts(in, length_mm, width_mm) ? (nest_rest){length_mm, width_mm} : (nest_rest){0, 0};
}

double sw_steel_cost(double price, double sheet_kg, double parts_kg, double remnant_kg, double remnant_factor,
                     double scrap_price)
{
    if (sheet_kg <= 0) return price;
    double skeleton_kg = fmax(sheet_kg - parts_kg - remnant_kg, 0);
    return price - scrap_price * skeleton_kg - remnant_factor * price * remnant_kg / sheet_kg;
}

double nest_layout_cost(const nest_core *core, const nest_layout *layout, double price)
{
    const sw_nest_input *in = core->in;
    nest_rest rest = nest_rest_of(core, layout);
    double kg = in->density_kg_mm2;
    return sw_steel_cost(price, core->sheets[layout->stock].area_mm2 * kg, layout->area_mm2 * kg,
                         rest.length_mm * rest.width_mm * kg, in->remnant_factor, in->scrap_price);
}
