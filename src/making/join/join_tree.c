/* join_tree.c: the triangles of each piece in a box tree; a cylinder goes down where it meets a box: the boxes' axes and its
 * own part them (Gottschalk, Lin, Manocha 1996, without the crossed axes). */
#include "making/join/join_parts.h"

sw_status join_grow_trees(sw_run *run, join_job *job)
{
    for (size_t i = 0; i < job->instance_count; i++)
        SW_TRY(sw_mesh_tree_scratch(run, &job->instances[i].mesh, &job->instances[i].tree));
    return SW_OK;
}

/* ---- a cylinder against it ------------------------------------------------------------------------------- */

static inline double along_axis(sw_vec3 axis, double x, double y, double z) /* the hot path: no call */
{
    return axis.x_mm * x + axis.y_mm * y + axis.z_mm * z;
}

static inline double reach_of(sw_vec3 axis, double x, double y, double z)
{
    return fabs(axis.x_mm) * x + fabs(axis.y_mm) * y + fabs(axis.z_mm) * z;
}

typedef struct meeting {
    const join_cylinder *cylinder;
    const join_face *faces;
} meeting;

static bool boxes_apart(const join_box *a, const sw_vec3 *low, const sw_vec3 *high)
{
    return a->low.x_mm > high->x_mm || low->x_mm > a->high.x_mm || a->low.y_mm > high->y_mm ||
           low->y_mm > a->high.y_mm || a->low.z_mm > high->z_mm || low->z_mm > a->high.z_mm;
}

static bool parted(const void *context, const sw_vec3 *low, const sw_vec3 *high)
{
    const join_cylinder *c = ((const meeting *)context)->cylinder;
    if (boxes_apart(&c->box, low, high)) return true;
    double x = (high->x_mm - low->x_mm) / 2, y = (high->y_mm - low->y_mm) / 2, z = (high->z_mm - low->z_mm) / 2;
    double dx = low->x_mm + x - c->from.x_mm, dy = low->y_mm + y - c->from.y_mm, dz = low->z_mm + z - c->from.z_mm,
           half_mm = c->long_mm / 2;
    const sw_vec3 *h = &c->axes[0], *u = &c->axes[1], *v = &c->axes[2];
    return fabs(along_axis(*u, dx, dy, dz)) > c->radius_mm + reach_of(*u, x, y, z) ||
           fabs(along_axis(*v, dx, dy, dz)) > c->radius_mm + reach_of(*v, x, y, z) ||
           fabs(along_axis(*h, dx, dy, dz) - half_mm) > half_mm + reach_of(*h, x, y, z);
}

static bool met(const void *context, size_t face)
{
    const meeting *m = context;
    const join_face *f = &m->faces[face];
    return !boxes_apart(&m->cylinder->box, &f->box.low, &f->box.high) && join_cylinder_meets(m->cylinder, f);
}

const join_face *join_met(const join_instance *one, const join_cylinder *c)
{
    const meeting m = {c, one->faces};
    const sw_mesh_query query = {&m, parted, met};
    size_t face = one->tree == NULL ? SIZE_MAX : sw_mesh_tree_find(one->tree, &query);
    return face == SIZE_MAX ? NULL : &one->faces[face];
}
