/* paper.c: what all drawings share: the strip of values at the foot and the caution line. */
#include "papers/papers_parts.h"

sw_status draw_strip(sw_run *run, sw_pen *pen, sw_box box, const strip_cell *cells, size_t count)
{
    const pen_paint ground = {.fill = true, .fill_ink = look_pale()};
    double share = 0.0, x_mm = box.x0_mm, wide_mm = box.x1_mm - box.x0_mm;
    pen_box(pen, &ground, box);
    sw_pen_line(pen, look_rust(0.5), (sw_point){box.x0_mm, box.y0_mm}, (sw_point){box.x1_mm, box.y0_mm});
    for (size_t i = 0; i < count; i++) share += cells[i].share;
    for (size_t i = 0; i < count; i++) {
        double cell_mm = wide_mm * cells[i].share / share;
        const char *value = words_within(run, pen, 2.6, false, cell_mm - 3.0, cells[i].value);
        if (value == NULL) return SW_NO_MEMORY;
        pen_write(pen, (sw_point){x_mm + 2.0, box.y0_mm + 4.2}, look_type_grey(1.7, SW_LEFT), cells[i].label);
        pen_write(pen, (sw_point){x_mm + 2.0, box.y0_mm + 9.4}, look_type(2.6, SW_LEFT), value);
        x_mm += cell_mm;
        if (i + 1 < count)
            sw_pen_line(pen, look_light(0.2), (sw_point){x_mm, box.y0_mm + 2.0}, (sw_point){x_mm, box.y1_mm - 2.0});
    }
    return SW_OK;
}

sw_status draw_caution(sw_run *run, sw_pen *pen, sw_point at, const char *text)
{
    const char *line = words_within(run, pen, 1.7, false, pen->width_mm - 2.0 * at.x_mm, text);
    if (line == NULL) return SW_NO_MEMORY;
    pen_write(pen, at, look_type_grey(1.7, SW_LEFT), line);
    return SW_OK;
}
