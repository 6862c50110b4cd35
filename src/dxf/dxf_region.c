/* dxf_region.c: the closed paths of a layer as one region. */
#include "dxf/dxf_parts.h"

#include <string.h>

static sw_status refuse(sw_run *run, const char *file, const char *layer, const char *why)
{
    return sw_fail(run, SW_BAD_INPUT, (sw_place){file, 0, 0}, "", "layer %s: %s", layer == NULL ? "(any)" : layer, why);
}

static sw_status open_path(sw_run *run, const char *file, const char *layer, const sw_dxf_path *path)
{
    sw_vertex a = path->v[0], b = path->v[path->n - 1];
    const char *why = sw_text_format(
        run, run->keep, "a path from (%.6g, %.6g) to (%.6g, %.6g) is open, its ends %.6g mm apart; close it", a.x_mm,
        a.y_mm, b.x_mm, b.y_mm, hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm));
    return why == NULL ? SW_NO_MEMORY : refuse(run, file, layer, why);
}

static bool on_layer(const sw_dxf_path *path, const char *layer)
{
    return layer == NULL || strcmp(path->layer, layer) == 0;
}

static sw_status collect(sw_run *run, const char *file, const sw_dxf_drawing *drawing, const char *layer,
                         sw_contour *found, size_t *count)
{
    *count = 0;
    for (size_t i = 0; i < drawing->path_count; i++) {
        const sw_dxf_path *path = &drawing->paths[i];
        if (!on_layer(path, layer)) continue;
        if (!path->closed) return open_path(run, file, layer, path);
        found[(*count)++] = (sw_contour){path->v, path->n};
    }
    return *count > 0 ? SW_OK : refuse(run, file, layer, "no closed path is drawn; one outline is needed");
}

static size_t largest(const sw_contour *contours, size_t count)
{
    size_t best = 0;
    for (size_t i = 1; i < count; i++)
        if (fabs(sw_contour_area(contours[i])) > fabs(sw_contour_area(contours[best]))) best = i;
    return best;
}

static sw_status turned(sw_run *run, sw_contour c, bool ccw, sw_contour *out)
{
    *out = c;
    if ((sw_contour_area(c) > 0.0) == ccw) return SW_OK;
    return sw_contour_reversed(run, c, out);
}

static sw_status as_region(sw_run *run, const char *file, const sw_dxf_drawing *drawing, const char *layer,
                           sw_region *out)
{
    size_t count, holes = 0;
    const char *fault = NULL;
    sw_contour *found = SW_SCRATCH(run, drawing->path_count, sw_contour);
    if (found == NULL) return SW_NO_MEMORY;
    SW_TRY(collect(run, file, drawing, layer, found, &count));
    size_t outline = largest(found, count);
    sw_contour *hole = SW_KEEP(run, count, sw_contour);
    sw_region made = {.holes = hole};
    if (hole == NULL) return SW_NO_MEMORY;
    SW_TRY(turned(run, found[outline], true, &made.outline));
    for (size_t i = 0; i < count; i++)
        if (i != outline) SW_TRY(turned(run, found[i], false, &hole[holes++]));
    made.hole_count = holes;
    SW_TRY(sw_region_fault(run, &made, &fault));
    if (fault != NULL) return refuse(run, file, layer, fault);
    *out = made;
    return SW_OK;
}

sw_status sw_dxf_region(sw_run *run, const char *file, const sw_dxf_drawing *drawing, const char *layer,
                        sw_region *region)
{
    size_t mark = sw_arena_mark(run->scratch);
    *region = (sw_region){0};
    sw_status status = as_region(run, file, drawing, layer, region);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
