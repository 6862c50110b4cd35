/* card_rolls_picture.c: three rolls seen from their end with the sheet between them: straight where it comes in, round
 * under load between the rolls, sprung back to the wanted radius where it leaves. */
#include "papers/cards_parts.h"

#include <math.h>

enum { ARC_STEPS = 48 };

typedef struct stand { /* centre of the loaded round at (0,0), y up, mm */
    double lower_x_mm, lower_y_mm, top_y_mm, lower_mm, top_mm;
    double half_rad; /* from the middle to where the sheet touches a lower roll */
} stand;

typedef struct ribbon { /* middle line of the sheet */
    sw_point p[2 * ARC_STEPS + 2];
    size_t n;
} ribbon;

static bool stand_of(const sw_rolls *rolls, const sw_form_roll *roll, double s_mm, stand *out)
{
    double a_mm = rolls->centres_mm / 2.0, far_mm = roll->loaded_mm + s_mm + rolls->lower_radius_mm;
    if (!(a_mm > 0.0 && far_mm > a_mm && rolls->top_radius_mm > 0.0)) return false;
    double y_mm = -sqrt(far_mm * far_mm - a_mm * a_mm);
    *out = (stand){a_mm,
                   y_mm,
                   rolls->top_radius_mm - roll->loaded_mm,
                   rolls->lower_radius_mm,
                   rolls->top_radius_mm,
                   atan2(a_mm, -y_mm)};
    return true;
}

static sw_point round_at(sw_point centre, double radius_mm, double angle_rad) /* from below, to the right positive */
{
    return (sw_point){centre.x_mm + radius_mm * sin(angle_rad), centre.y_mm - radius_mm * cos(angle_rad)};
}

static void sheet_line(const stand *s, const sw_form_roll *roll, double thick_mm, double swing_rad, ribbon *out)
{
    double loaded_mm = roll->loaded_mm + thick_mm / 2.0, free_mm = roll->radius_mm + thick_mm / 2.0;
    sw_point in = round_at((sw_point){0, 0}, loaded_mm, -s->half_rad), o = {0, 0};
    double in_mm = 1.6 * s->lower_x_mm;
    out->p[out->n++] = (sw_point){in.x_mm - in_mm * cos(s->half_rad), in.y_mm + in_mm * sin(s->half_rad)};
    for (int i = 0; i <= ARC_STEPS; i++)
        out->p[out->n++] = round_at(o, loaded_mm, s->half_rad * (2.0 * i / ARC_STEPS - 1.0));
    /* the free round goes on without a kink */
    o = round_at(o, loaded_mm - free_mm, s->half_rad);
    for (int i = 1; i <= ARC_STEPS; i++)
        out->p[out->n++] = round_at(o, free_mm, s->half_rad + swing_rad * i / ARC_STEPS);
}

static sw_box box_of(const stand *s, const ribbon *r)
{
    sw_box b = {-s->lower_x_mm - s->lower_mm, s->lower_y_mm - s->lower_mm, s->lower_x_mm + s->lower_mm,
                s->top_y_mm + s->top_mm};
    for (size_t i = 0; i < r->n; i++)
        b = (sw_box){fmin(b.x0_mm, r->p[i].x_mm), fmin(b.y0_mm, r->p[i].y_mm), fmax(b.x1_mm, r->p[i].x_mm),
                     fmax(b.y1_mm, r->p[i].y_mm)};
    return b;
}

typedef struct eye {
    sw_point at;
    double scale;
} eye;

static sw_point seen(const eye *e, sw_point p)
{
    return (sw_point){e->at.x_mm + e->scale * p.x_mm, e->at.y_mm - e->scale * p.y_mm};
}

static eye eye_of(sw_box page, sw_box b)
{
    double scale = fmin((page.x1_mm - page.x0_mm - 6.0) / (b.x1_mm - b.x0_mm),
                        (page.y1_mm - page.y0_mm - 6.0) / (b.y1_mm - b.y0_mm));
    return (eye){{(page.x0_mm + page.x1_mm) / 2.0 - scale * (b.x0_mm + b.x1_mm) / 2.0,
                  (page.y0_mm + page.y1_mm) / 2.0 + scale * (b.y0_mm + b.y1_mm) / 2.0},
                 scale};
}

static void one_roll(sw_pen *pen, const eye *e, sw_point centre, double radius_mm)
{
    const pen_paint paint = {.fill = true, .fill_ink = look_light(0.0), .stroke = true, .stroke_ink = look_grey(0.25)};
    sw_point c = seen(e, centre);
    double r_mm = e->scale * radius_mm, arm_mm = r_mm + 1.5;
    int dashes = 0;
    const double *chain = look_chain(&dashes);
    pen_circle(pen, &paint, c, r_mm);
    sw_ink axis = look_dashed(look_grey(0.13), chain, dashes);
    sw_pen_line(pen, axis, (sw_point){c.x_mm - arm_mm, c.y_mm}, (sw_point){c.x_mm + arm_mm, c.y_mm});
    sw_pen_line(pen, axis, (sw_point){c.x_mm, c.y_mm - arm_mm}, (sw_point){c.x_mm, c.y_mm + arm_mm});
}

static void show_sheet(sw_pen *pen, const eye *e, const ribbon *r, double thick_mm)
{
    sw_point page[2 * ARC_STEPS + 2];
    for (size_t i = 0; i < r->n; i++) page[i] = seen(e, r->p[i]);
    sw_pen_polygon(pen, look_dark(fmax(0.5, thick_mm * e->scale)), page, r->n, false);
}

void card_rolls(const card_sheet *c, const sw_form_roll *roll, sw_box box)
{
    stand s;
    ribbon line = {.n = 0};
    const sw_works *works = c->d->model.works;
    double thick_mm = c->piece->piece->thickness_mm;
    const pen_paint edge = {.fill = true, .fill_ink = look_white(), .stroke = true, .stroke_ink = look_light(0.13)};
    pen_box(c->pen, &edge, box);
    if (works == NULL || !stand_of(&works->rolls, roll, thick_mm, &s)) return;
    double swing_rad = fmin(fabs(roll->bend->angle_rad), 1.1 * SW_PI);
    sheet_line(&s, roll, thick_mm, swing_rad, &line);
    eye e = eye_of(box, box_of(&s, &line));
    one_roll(c->pen, &e, (sw_point){0.0, s.top_y_mm}, s.top_mm);
    one_roll(c->pen, &e, (sw_point){-s.lower_x_mm, s.lower_y_mm}, s.lower_mm);
    one_roll(c->pen, &e, (sw_point){s.lower_x_mm, s.lower_y_mm}, s.lower_mm);
    show_sheet(c->pen, &e, &line, thick_mm);
}
