/* form_picture.c: a stroke as convex polygons of the section, for cards. */
#include "making/form/form_parts.h"

static sw_box joined(sw_box a, sw_box b)
{
    return (sw_box){fmin(a.x0_mm, b.x0_mm), fmin(a.y0_mm, b.y0_mm), fmax(a.x1_mm, b.x1_mm), fmax(a.y1_mm, b.y1_mm)};
}

static sw_status put(sw_run *run, const form_slab *s, bool mirrored, const char *name, sw_form_shape *out)
{
    sw_point *p = SW_KEEP(run, s->n, sw_point);
    if (p == NULL || name == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->n; i++) {
        sw_point at = s->p[mirrored ? s->n - 1 - i : i];
        p[i] = (sw_point){mirrored ? -at.x_mm : at.x_mm, at.y_mm};
    }
    *out = (sw_form_shape){.thing = s->thing, .name = name, .points = p, .count = s->n};
    return SW_OK;
}

static void widen(sw_form_picture *pic, const sw_form_shape *s)
{
    for (size_t i = 0; i < s->count; i++) {
        sw_point p = s->points[i];
        pic->box = joined(pic->box, (sw_box){p.x_mm, p.y_mm, p.x_mm, p.y_mm});
    }
}

static sw_status put_tools(sw_run *run, form_job *job, const form_move *move, form_tooling with, sw_form_picture *pic,
                           sw_form_shape *shapes)
{
    form_slab tools[FORM_TOOLS];
    size_t n = form_tools(job, &job->body->lines[move->line], with, tools);
    for (size_t i = 0; i < n; i++) {
        sw_form_shape *shape = &shapes[pic->count++];
        SW_TRY(put(run, &tools[i], move->parent_to_gauge, form_thing_name(tools[i].thing), shape));
        if (tools[i].thing != SW_FORM_BEAM && tools[i].thing != SW_FORM_TABLE) widen(pic, shape);
    }
    return SW_OK;
}

sw_status form_picture(sw_run *run, form_job *job, const form_move *move, form_tooling with,
                       const form_rest_found *rest, sw_form_picture *out)
{
    const form_line *line = &job->body->lines[move->line];
    form_pose pose = {.made = move->made, .line = move->line, .share = with.share};
    pose.level = with.stroke == SW_FORM_FLATTEN || with.stroke == SW_FORM_JOGGLE;
    pose.clip_low_mm = -INFINITY;
    pose.clip_high_mm = INFINITY;
    size_t count = form_section(job, &pose, NULL);
    sw_form_shape *shapes = SW_KEEP(run, count + FORM_TOOLS + 1, sw_form_shape);
    if (shapes == NULL) return SW_NO_MEMORY;
    *out = (sw_form_picture){.shapes = shapes, .box = {INFINITY, INFINITY, -INFINITY, -INFINITY}};
    for (size_t i = 0; i < count; i++) {
        const form_slab *s = &job->slabs[i];
        sw_form_shape *shape = &shapes[out->count++];
        SW_TRY(put(run, s, move->parent_to_gauge, form_part_name(run, job->body, s->part), shape));
        shape->beside = s->high_mm <= line->from_mm || s->low_mm >= line->to_mm;
        widen(out, shape);
    }
    SW_TRY(put_tools(run, job, move, with, out, shapes));
    if (rest == NULL || isnan(rest->gauge_mm)) return SW_OK;
    form_slab finger = form_finger(rest->gauge_mm);
    sw_form_shape *shape = &shapes[out->count++];
    SW_TRY(put(run, &finger, false, form_thing_name(SW_FORM_GAUGE), shape));
    widen(out, shape);
    return SW_OK;
}
