/* form_tools.c: punch, die, beam and table as convex polygons of the section. */
#include "making/form/form_parts.h"

static const double room_mm = 3e3;                               /* beam and table go on so far. ours */
static const double finger_deep_mm = 60.0, finger_high_mm = 8.0; /* stop of the back gauge. ours */

const char *form_thing_name(sw_form_thing thing)
{
    static const char *const names[] = {"sheet", "punch", "die", "beam", "table", "back gauge"};
    return names[thing];
}

sw_form_punch form_punch_turned(sw_form_punch punch, bool parent_to_gauge)
{
    if (!parent_to_gauge || punch == SW_FORM_STRAIGHT) return punch;
    return punch == SW_FORM_NECK_FRONT ? SW_FORM_NECK_REAR : SW_FORM_NECK_FRONT;
}

static form_slab *begin(form_slab *tools, size_t *n, sw_form_thing thing)
{
    form_slab *s = &tools[(*n)++];
    *s = (form_slab){.thing = thing, .part = -1, .low_mm = -INFINITY, .high_mm = INFINITY};
    return s;
}

static void corner(form_slab *s, double x_mm, double y_mm)
{
    s->p[s->n++] = (sw_point){x_mm, y_mm};
}

static void block(form_slab *tools, size_t *n, sw_form_thing thing, sw_box b)
{
    form_slab *s = begin(tools, n, thing);
    corner(s, b.x0_mm, b.y0_mm);
    corner(s, b.x1_mm, b.y0_mm);
    corner(s, b.x1_mm, b.y1_mm);
    corner(s, b.x0_mm, b.y1_mm);
    form_slab_box(s);
}

/* Wedge from the tip up to the body and the body on to high_mm. */
static void straight(form_slab *tools, size_t *n, const form_line *line, double half_mm, sw_point tip_high)
{
    double tip_mm = tip_high.x_mm, top_mm = tip_high.y_mm, wedge_mm = half_mm / tan(line->wedge_rad / 2.0);
    form_slab *s = begin(tools, n, SW_FORM_PUNCH);
    corner(s, 0.0, tip_mm);
    corner(s, half_mm, tip_mm + fmin(wedge_mm, top_mm));
    corner(s, half_mm, tip_mm + top_mm);
    corner(s, -half_mm, tip_mm + top_mm);
    corner(s, -half_mm, tip_mm + fmin(wedge_mm, top_mm));
    form_slab_box(s);
}

static void link(form_slab *tools, size_t *n, const double x[2], const double y[2], double half_mm)
{
    form_slab *s = begin(tools, n, SW_FORM_PUNCH);
    corner(s, x[0] - half_mm, y[0]);
    corner(s, x[0] + half_mm, y[0]);
    corner(s, x[1] + half_mm, y[1]);
    corner(s, x[1] - half_mm, y[1]);
    form_slab_box(s);
}

/* Tip as straight, then drawn aside by the relief: room on the side `open`. */
static void neck(form_slab *tools, size_t *n, const form_job *job, const form_line *line, double tip_mm, double open)
{
    const form_machine *m = &job->machine;
    double half_mm = m->punch_body_mm / 2.0, wedge_mm = half_mm / tan(line->wedge_rad / 2.0);
    double y1 = wedge_mm + 2.0, relief_mm = fmin(m->neck_mm, fmax(0.0, (m->punch_high_mm - y1) / 3.0));
    double aside = -open * relief_mm, y2 = y1 + relief_mm, y4 = m->punch_high_mm, y3 = fmax(y2, y4 - relief_mm);
    straight(tools, n, line, half_mm, (sw_point){tip_mm, y1});
    link(tools, n, (double[]){0.0, aside}, (double[]){tip_mm + y1, tip_mm + y2}, half_mm);
    link(tools, n, (double[]){aside, aside}, (double[]){tip_mm + y2, tip_mm + y3}, half_mm);
    link(tools, n, (double[]){aside, 0.0}, (double[]){tip_mm + y3, tip_mm + y4}, half_mm);
}

static void die(form_slab *tools, size_t *n, const form_machine *m, const form_line *line)
{
    double half_mm = line->die_mm / 2.0, deep_mm = half_mm / tan(line->wedge_rad / 2.0);
    double high_mm = fmax(m->die_high_mm, deep_mm + 5.0);
    for (int k = 0; k < 2; k++) {
        double side = k == 0 ? 1.0 : -1.0;
        form_slab *s = begin(tools, n, SW_FORM_DIE);
        const sw_point p[] = {{0.0, -high_mm},
                              {half_mm + m->die_block_mm, -high_mm},
                              {half_mm + m->die_block_mm, 0.0},
                              {half_mm, 0.0},
                              {0.0, -deep_mm}};
        for (int i = 0; i < 5; i++) { /* mirrored: the other way round */
            sw_point at = p[side > 0.0 ? i : 4 - i];
            corner(s, side * at.x_mm, at.y_mm);
        }
        form_slab_box(s);
    }
    block(tools, n, SW_FORM_TABLE, (sw_box){-m->beam_mm / 2.0, -high_mm - room_mm, m->beam_mm / 2.0, -high_mm});
}

/* Flat tools over and under a fold that lies towards -x. */
static size_t flat_tools(const form_job *job, const form_line *line, form_slab *tools)
{
    size_t n = 0;
    const form_machine *m = &job->machine;
    double s_mm = job->body->piece->thickness_mm, out_mm = line->radius_mm + s_mm;
    double leg_mm = form_leg_mm(job->body, line->bends[0], true), top_mm = 2.0 * s_mm + 2.0 * line->radius_mm;
    double middle_mm = (out_mm - leg_mm) / 2.0;
    block(tools, &n, SW_FORM_PUNCH, (sw_box){-leg_mm, top_mm, out_mm, top_mm + m->punch_high_mm});
    block(tools, &n, SW_FORM_DIE, (sw_box){-leg_mm, -m->die_high_mm, out_mm, 0.0});
    double low_mm = middle_mm - m->beam_mm / 2.0, high_mm = middle_mm + m->beam_mm / 2.0;
    double beam_mm = top_mm + m->punch_high_mm;
    block(tools, &n, SW_FORM_BEAM, (sw_box){low_mm, beam_mm, high_mm, beam_mm + room_mm});
    block(tools, &n, SW_FORM_TABLE, (sw_box){low_mm, -m->die_high_mm - room_mm, high_mm, -m->die_high_mm});
    return n;
}

/* How far the step of a joggle runs and rises, along the mid-surface: two arcs of the same angle and the web between. */
static sw_point step_of(const form_job *job, const form_line *line)
{
    const form_body *body = job->body;
    double web_mm = form_leg_mm(body, line->bends[0], true), a = line->angle_rad;
    double arcs_mm = body->zones[line->bends[0]].middle_mm + body->zones[line->bends[1]].middle_mm;
    return (sw_point){arcs_mm * sin(a) + web_mm * cos(a), arcs_mm * (1.0 - cos(a)) + web_mm * sin(a)};
}

/* A joggle's own tools, closed: over and under the sheet on both sides of the step, as wide as the die beside its V (ours: no
 * standard gives them). What they press touches them by its task; the rest must clear them, the beam and the table. */
static size_t joggle_tools(const form_job *job, const form_line *line, bool closed, form_slab *tools)
{
    size_t n = 0;
    const form_machine *m = &job->machine;
    double half_mm = m->beam_mm / 2.0, high_mm = m->punch_high_mm, low_mm = -m->die_high_mm;
    block(tools, &n, SW_FORM_BEAM, (sw_box){-half_mm, high_mm, half_mm, high_mm + room_mm});
    block(tools, &n, SW_FORM_TABLE, (sw_box){-half_mm, low_mm - room_mm, half_mm, low_mm});
    if (!closed) return n;
    sw_point step = step_of(job, line);
    double wide_mm = m->die_block_mm, s_mm = job->body->piece->thickness_mm, far_mm = step.x_mm + wide_mm;
    block(tools, &n, SW_FORM_DIE, (sw_box){-wide_mm, low_mm, 0.0, 0.0});
    block(tools, &n, SW_FORM_DIE, (sw_box){step.x_mm, low_mm, far_mm, step.y_mm});
    block(tools, &n, SW_FORM_PUNCH, (sw_box){-wide_mm, s_mm, 0.0, fmax(high_mm, 2.0 * s_mm)});
    block(tools, &n, SW_FORM_PUNCH,
          (sw_box){step.x_mm, step.y_mm + s_mm, far_mm, fmax(high_mm, step.y_mm + 2.0 * s_mm)});
    return n;
}

size_t form_tools(const form_job *job, const form_line *line, form_tooling with, form_slab *tools)
{
    size_t n = 0;
    const form_machine *m = &job->machine;
    if (with.stroke == SW_FORM_FLATTEN) return flat_tools(job, line, tools);
    if (with.stroke == SW_FORM_JOGGLE) return joggle_tools(job, line, with.share > 0.5, tools);
    double tip_mm = job->body->piece->thickness_mm - form_depth_mm(job->body, line, with.share);
    if (with.punch == SW_FORM_STRAIGHT)
        straight(tools, &n, line, m->punch_body_mm / 2.0, (sw_point){tip_mm, m->punch_high_mm});
    else
        neck(tools, &n, job, line, tip_mm, with.punch == SW_FORM_NECK_REAR ? 1.0 : -1.0);
    die(tools, &n, m, line);
    double half_mm = m->beam_mm / 2.0, top_mm = tip_mm + m->punch_high_mm;
    block(tools, &n, SW_FORM_BEAM, (sw_box){-half_mm, top_mm, half_mm, top_mm + room_mm});
    return n;
}

form_slab form_finger(double gauge_mm)
{
    size_t n = 0;
    form_slab slab;
    block(&slab, &n, SW_FORM_GAUGE,
          (sw_box){gauge_mm, -finger_high_mm / 2.0, gauge_mm + finger_deep_mm, finger_high_mm});
    return slab;
}
