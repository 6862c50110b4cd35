/* heft_body.c: mass, centre and moments of bodies put together.
 *
 * Between the bodies' tensors the plain second moments int x x dm, int x y dm, ... are summed and turned: no signs to
 * mind. Source: parallel-axis theorem (Huygens, Steiner), any text on mechanics. */
#include "making/heft/heft.h"

#include <math.h>

/* Integrals of x x, x y, ... over the mass, kg mm2. */
typedef struct second_moments {
    double m[3][3];
} second_moments;

static second_moments moments_of(const double i[6])
{
    double half = (i[0] + i[1] + i[2]) / 2;
    return (second_moments){{{half - i[0], -i[3], -i[5]}, {-i[3], half - i[1], -i[4]}, {-i[5], -i[4], half - i[2]}}};
}

static void inertia_of(const second_moments *s, double i[6])
{
    i[0] = s->m[1][1] + s->m[2][2];
    i[1] = s->m[2][2] + s->m[0][0];
    i[2] = s->m[0][0] + s->m[1][1];
    i[3] = -s->m[0][1];
    i[4] = -s->m[1][2];
    i[5] = -s->m[2][0];
}

static void add_point(second_moments *s, double mass_kg, sw_vec3 d)
{
    const double r[3] = {d.x_mm, d.y_mm, d.z_mm};
    for (int a = 0; a < 3; a++)
        for (int b = 0; b < 3; b++) s->m[a][b] += mass_kg * r[a] * r[b];
}

static void add_moments(second_moments *sum, const second_moments *s)
{
    for (int a = 0; a < 3; a++)
        for (int b = 0; b < 3; b++) sum->m[a][b] += s->m[a][b];
}

sw_body sw_body_sum(const sw_body *bodies, size_t count)
{
    sw_body sum = {0};
    sw_vec3 first = {0};
    for (size_t i = 0; i < count; i++) {
        sum.mass_kg += bodies[i].mass_kg;
        first = sw_vec3_add(first, sw_vec3_scaled(bodies[i].centre, bodies[i].mass_kg));
    }
    if (!(sum.mass_kg > 0)) return sum;
    sum.centre = sw_vec3_scaled(first, 1 / sum.mass_kg);
    second_moments s = {0};
    for (size_t i = 0; i < count; i++) {
        second_moments own = moments_of(bodies[i].inertia_kg_mm2);
        add_moments(&s, &own);
        add_point(&s, bodies[i].mass_kg, sw_vec3_sub(bodies[i].centre, sum.centre));
    }
    inertia_of(&s, sum.inertia_kg_mm2);
    return sum;
}

/* R S R^T with the frame's axes as the columns of R. */
static second_moments turned(const second_moments *s, sw_frame f)
{
    const double r[3][3] = {
        {f.x.x_mm, f.y.x_mm, f.z.x_mm}, {f.x.y_mm, f.y.y_mm, f.z.y_mm}, {f.x.z_mm, f.y.z_mm, f.z.z_mm}};
    second_moments out = {0};
    for (int a = 0; a < 9; a++)
        for (int b = 0; b < 9; b++) out.m[a / 3][a % 3] += r[a / 3][b / 3] * s->m[b / 3][b % 3] * r[a % 3][b % 3];
    return out;
}

sw_body sw_body_moved(sw_body body, sw_frame frame)
{
    second_moments own = moments_of(body.inertia_kg_mm2), out = turned(&own, frame);
    sw_body moved = {.mass_kg = body.mass_kg, .centre = sw_frame_point(frame, body.centre)};
    inertia_of(&out, moved.inertia_kg_mm2);
    return moved;
}

/* Source: derived; the weight's line passes the edge when the base is tilted by atan(e/h). pi/2 at h = 0. */
double sw_tip_angle_rad(double e_mm, double h_mm)
{
    return atan2(e_mm, h_mm);
}

sw_body sw_body_plate(double mass_kg, const sw_region *region, double thickness_mm)
{
    double xx_mm4, yy_mm4, xy_mm4, area_mm2 = sw_region_area(region);
    sw_body body = {.mass_kg = mass_kg};
    if (!(area_mm2 > 0)) return body;
    sw_point c = sw_region_centroid(region);
    sw_region_moments(region, &xx_mm4, &yy_mm4, &xy_mm4);
    body.centre = (sw_vec3){c.x_mm, c.y_mm, thickness_mm / 2};
    double k = mass_kg / area_mm2, zz = mass_kg * thickness_mm * thickness_mm / 12;
    second_moments s = {{{k * xx_mm4, k * xy_mm4, 0}, {k * xy_mm4, k * yy_mm4, 0}, {0, 0, zz}}};
    inertia_of(&s, body.inertia_kg_mm2);
    return body;
}
