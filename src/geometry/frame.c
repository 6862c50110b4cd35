/* frame.c: vectors and rigid frames in space. */
#include "geometry/geometry.h"

#include <math.h>

sw_vec3 sw_vec3_add(sw_vec3 a, sw_vec3 b)
{
    return (sw_vec3){a.x_mm + b.x_mm, a.y_mm + b.y_mm, a.z_mm + b.z_mm};
}
sw_vec3 sw_vec3_sub(sw_vec3 a, sw_vec3 b)
{
    return (sw_vec3){a.x_mm - b.x_mm, a.y_mm - b.y_mm, a.z_mm - b.z_mm};
}
sw_vec3 sw_vec3_scaled(sw_vec3 a, double k)
{
    return (sw_vec3){a.x_mm * k, a.y_mm * k, a.z_mm * k};
}
sw_vec3 sw_vec3_cross(sw_vec3 a, sw_vec3 b)
{
    return (sw_vec3){a.y_mm * b.z_mm - a.z_mm * b.y_mm, a.z_mm * b.x_mm - a.x_mm * b.z_mm,
                     a.x_mm * b.y_mm - a.y_mm * b.x_mm};
}
double sw_vec3_dot(sw_vec3 a, sw_vec3 b)
{
    return a.x_mm * b.x_mm + a.y_mm * b.y_mm + a.z_mm * b.z_mm;
}
double sw_vec3_length(sw_vec3 a)
{
    return sqrt(sw_vec3_dot(a, a));
}

/* The zero vector has no direction and stays zero. */
sw_vec3 sw_vec3_unit(sw_vec3 a)
{
    double length = sw_vec3_length(a);
    return length > 0.0 ? sw_vec3_scaled(a, 1.0 / length) : a;
}

sw_frame sw_frame_world(void)
{
    return (sw_frame){{1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, 1.0}, {0.0, 0.0, 0.0}};
}

sw_vec3 sw_frame_direction(sw_frame f, sw_vec3 d)
{
    sw_vec3 in_plane = sw_vec3_add(sw_vec3_scaled(f.x, d.x_mm), sw_vec3_scaled(f.y, d.y_mm));
    return sw_vec3_add(in_plane, sw_vec3_scaled(f.z, d.z_mm));
}

sw_vec3 sw_frame_point(sw_frame f, sw_vec3 p)
{
    return sw_vec3_add(f.origin, sw_frame_direction(f, p));
}

sw_vec3 sw_frame_local(sw_frame f, sw_vec3 world)
{
    sw_vec3 out = sw_vec3_sub(world, f.origin);
    return (sw_vec3){sw_vec3_dot(out, f.x), sw_vec3_dot(out, f.y), sw_vec3_dot(out, f.z)};
}

sw_frame sw_frame_in(sw_frame outer, sw_frame inner)
{
    return (sw_frame){sw_frame_direction(outer, inner.x), sw_frame_direction(outer, inner.y),
                      sw_frame_direction(outer, inner.z), sw_frame_point(outer, inner.origin)};
}

/* v cos + (k x v) sin + k (k.v)(1 - cos), k the unit axis (Rodrigues' rotation formula). */
static sw_vec3 turned(sw_vec3 v, sw_vec3 k, double angle_rad)
{
    double c = cos(angle_rad), s = sin(angle_rad);
    sw_vec3 across = sw_vec3_add(sw_vec3_scaled(v, c), sw_vec3_scaled(sw_vec3_cross(k, v), s));
    return sw_vec3_add(across, sw_vec3_scaled(k, sw_vec3_dot(k, v) * (1.0 - c)));
}

sw_frame sw_frame_turned(sw_frame f, sw_vec3 axis, double angle_rad)
{
    sw_vec3 k = sw_vec3_unit(axis);
    return (sw_frame){turned(f.x, k, angle_rad), turned(f.y, k, angle_rad), turned(f.z, k, angle_rad),
                      turned(f.origin, k, angle_rad)};
}
