/* mesh.c: volume, area and box of meshes. */
#include "geometry/geometry.h"

#include <math.h>

/* Sum of the signed tetrahedra from the first point (divergence theorem). */
double sw_mesh_volume(const sw_mesh *m)
{
    double six = 0.0;
    for (size_t i = 0; i < m->triangle_count; i++) {
        sw_triangle t = m->triangles[i];
        sw_vec3 base = m->points[0];
        sw_vec3 a = sw_vec3_sub(m->points[t.a], base), b = sw_vec3_sub(m->points[t.b], base);
        six += sw_vec3_dot(sw_vec3_cross(a, b), sw_vec3_sub(m->points[t.c], base));
    }
    return six / 6.0;
}

double sw_mesh_area(const sw_mesh *m)
{
    double twice = 0.0;
    for (size_t i = 0; i < m->triangle_count; i++) {
        sw_triangle t = m->triangles[i];
        sw_vec3 ab = sw_vec3_sub(m->points[t.b], m->points[t.a]), ac = sw_vec3_sub(m->points[t.c], m->points[t.a]);
        twice += sw_vec3_length(sw_vec3_cross(ab, ac));
    }
    return 0.5 * twice;
}

/* A mesh without points gives low > high. */
void sw_mesh_box(const sw_mesh *m, sw_vec3 *low, sw_vec3 *high)
{
    *low = (sw_vec3){INFINITY, INFINITY, INFINITY};
    *high = (sw_vec3){-INFINITY, -INFINITY, -INFINITY};
    for (size_t i = 0; i < m->point_count; i++) {
        sw_vec3 p = m->points[i];
        *low = (sw_vec3){fmin(low->x_mm, p.x_mm), fmin(low->y_mm, p.y_mm), fmin(low->z_mm, p.z_mm)};
        *high = (sw_vec3){fmax(high->x_mm, p.x_mm), fmax(high->y_mm, p.y_mm), fmax(high->z_mm, p.z_mm)};
    }
}
