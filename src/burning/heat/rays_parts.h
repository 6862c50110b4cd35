/* rays_parts.h: first hits of rays on triangles, over Embree 3 (https://www.embree.org, Apache-2.0; chosen in the
 * libraries list of the project). Lengths mm; single precision inside, so coordinates up to 2e4 mm are good to 1e-3 mm.
 * Made on one thread and read only afterwards: threads may share one. Same input, same hits, whatever the threads. */
#ifndef SW_HEAT_RAYS_PARTS_H
#define SW_HEAT_RAYS_PARTS_H

#include "geometry/geometry.h"

typedef struct rays rays;

typedef struct ray_hit {
    uint32_t triangle; /* of all given, in the order of the meshes */
    double length_mm;  /* INFINITY: nothing hit; the other fields are unset */
    sw_vec3 normal;    /* unit, of the triangle as it is wound */
    bool back;         /* hit from behind, that is from within a closed mesh */
} ray_hit;

/* Tree over the triangles of all meshes, NULL ones passed over. To be closed by whoever opened it; NULL: no memory. cost n log n */
rays *rays_open(const sw_mesh *const *meshes, size_t count);
sw_status rays_told(sw_run *run, const rays *r); /* SW_NO_MEMORY for NULL */
void rays_close(rays *r);                        /* NULL is allowed */
/* First triangle within most_mm along the unit vector. */
ray_hit rays_first(const rays *r, sw_vec3 from, sw_vec3 unit, double most_mm);

#endif
