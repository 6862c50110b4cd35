/* rays.c: Embree behind four names. All triangles are one geometry of one scene; a device of its own and one thread a
 * scene, so that the answer depends on nothing else. */
#include "burning/heat/rays_parts.h"

#include <embree3/rtcore.h>
#include <math.h>
#include <stdlib.h>

struct rays {
    RTCDevice device;
    RTCScene scene;
};

static void count(const sw_mesh *const *meshes, size_t mesh_count, size_t *points, size_t *triangles)
{
    for (size_t i = 0; i < mesh_count; i++) {
        if (meshes[i] == NULL) continue;
        *points += meshes[i]->point_count;
        *triangles += meshes[i]->triangle_count;
    }
}

static void fill(const sw_mesh *const *meshes, size_t mesh_count, float *points, uint32_t *corners)
{
    uint32_t base = 0;
    for (size_t i = 0; i < mesh_count; i++) {
        const sw_mesh *m = meshes[i];
        if (m == NULL) continue;
        for (size_t k = 0; k < m->point_count; k++) {
            *points++ = (float)m->points[k].x_mm;
            *points++ = (float)m->points[k].y_mm;
            *points++ = (float)m->points[k].z_mm;
        }
        for (size_t k = 0; k < m->triangle_count; k++) {
            *corners++ = base + m->triangles[k].a;
            *corners++ = base + m->triangles[k].b;
            *corners++ = base + m->triangles[k].c;
        }
        base += (uint32_t)m->point_count;
    }
}

/* Buffers are Embree's own: it pads them as it needs. */
static bool build(rays *r, const sw_mesh *const *meshes, size_t mesh_count)
{
    size_t points = 0, triangles = 0;
    count(meshes, mesh_count, &points, &triangles);
    r->device = rtcNewDevice("threads=1,set_affinity=0");
    if (r->device == NULL) return false;
    r->scene = rtcNewScene(r->device);
    RTCGeometry all = rtcNewGeometry(r->device, RTC_GEOMETRY_TYPE_TRIANGLE);
    float *places = rtcSetNewGeometryBuffer(all, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3, 3 * sizeof(float),
                                            points + (points == 0));
    uint32_t *corners = rtcSetNewGeometryBuffer(all, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 3 * sizeof(uint32_t),
                                                triangles + (triangles == 0));
    if (places != NULL && corners != NULL) {
        fill(meshes, mesh_count, places, corners);
        rtcCommitGeometry(all);
        rtcAttachGeometry(r->scene, all);
        rtcSetSceneFlags(r->scene, RTC_SCENE_FLAG_ROBUST);
        rtcCommitScene(r->scene);
    }
    rtcReleaseGeometry(all);
    return rtcGetDeviceError(r->device) == RTC_ERROR_NONE;
}

rays *rays_open(const sw_mesh *const *meshes, size_t mesh_count)
{
    rays *r = calloc(1, sizeof *r);
    if (r != NULL && build(r, meshes, mesh_count)) return r;
    rays_close(r);
    return NULL;
}

sw_status rays_told(sw_run *run, const rays *r)
{
    return r != NULL ? SW_OK : sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "no memory for the tree of the rays");
}

void rays_close(rays *r)
{
    if (r == NULL) return;
    if (r->scene != NULL) rtcReleaseScene(r->scene);
    if (r->device != NULL) rtcReleaseDevice(r->device);
    free(r);
}

ray_hit rays_first(const rays *r, sw_vec3 from, sw_vec3 unit, double most_mm)
{
    struct RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    struct RTCRayHit q = {.ray = {.org_x = (float)from.x_mm,
                                  .org_y = (float)from.y_mm,
                                  .org_z = (float)from.z_mm,
                                  .dir_x = (float)unit.x_mm,
                                  .dir_y = (float)unit.y_mm,
                                  .dir_z = (float)unit.z_mm,
                                  .tfar = (float)most_mm,
                                  .mask = UINT32_MAX},
                          .hit = {.geomID = RTC_INVALID_GEOMETRY_ID}};
    rtcIntersect1(r->scene, &context, &q);
    if (q.hit.geomID == RTC_INVALID_GEOMETRY_ID) return (ray_hit){.length_mm = (double)INFINITY};
    sw_vec3 n = sw_vec3_unit((sw_vec3){(double)q.hit.Ng_x, (double)q.hit.Ng_y, (double)q.hit.Ng_z});
    return (ray_hit){q.hit.primID, (double)q.ray.tfar, n, sw_vec3_dot(n, unit) > 0.0};
}
