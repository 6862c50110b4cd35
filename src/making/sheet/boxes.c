/* boxes.c: what room each part of the folded piece takes up. */
#include "making/sheet/sheet_parts.h"

#include <math.h>

static void take_in(sw_space_box *b, sw_vec3 p)
{
    b->low = (sw_vec3){fmin(b->low.x_mm, p.x_mm), fmin(b->low.y_mm, p.y_mm), fmin(b->low.z_mm, p.z_mm)};
    b->high = (sw_vec3){fmax(b->high.x_mm, p.x_mm), fmax(b->high.y_mm, p.y_mm), fmax(b->high.z_mm, p.z_mm)};
}

/* The solid has two triangles, upper and lower skin, for each one of the flat and in the same order. */
sw_status sw_sheet_boxes(sw_run *run, const sw_complex *complex, const sw_mesh *solid, const sw_space_box **boxes)
{
    sw_space_box *out = SW_SCRATCH(run, complex->part_count, sw_space_box);
    if (out == NULL) return SW_NO_MEMORY;
    for (size_t part = 0; part < complex->part_count; part++) {
        out[part] = (sw_space_box){{INFINITY, INFINITY, INFINITY}, {-INFINITY, -INFINITY, -INFINITY}};
        for (size_t i = 2 * complex->part_first[part]; i < 2 * complex->part_first[part + 1]; i++) {
            take_in(&out[part], solid->points[solid->triangles[i].a]);
            take_in(&out[part], solid->points[solid->triangles[i].b]);
            take_in(&out[part], solid->points[solid->triangles[i].c]);
        }
    }
    *boxes = out;
    return SW_OK;
}
