/* map_system.c: room for a system, and whether all its heat can leave. */
#include "burning/heat/map_parts.h"

#include <math.h>

sw_status map_system_room(sw_run *run, map_system *sys)
{
    size_t rows = 4;
    for (int s = 0; s < MAP_SPACES; s++) rows += sys->spaces[s].rows;
    double **arrays[] = {&sys->R, &sys->through, &sys->outer_m2};
    for (size_t i = 0; i < sizeof arrays / sizeof *arrays; i++)
        if ((*arrays[i] = SW_SCRATCH(run, sys->unknowns + 1, double)) == NULL) return SW_NO_MEMORY;
    sys->spare = SW_SCRATCH(run, rows + sys->patch_count, double);
    sys->spare_rows = SW_SCRATCH(run, rows, double);
    sys->thru = SW_SCRATCH(run, rows, double);
    if (sys->x == NULL) sys->x = SW_SCRATCH(run, sys->unknowns + 1, double);
    if (!sys->spare || !sys->spare_rows || !sys->thru || !sys->x) return SW_NO_MEMORY;
    for (size_t i = 0; i < sys->share_count; i++) {
        const map_share *s = &sys->shares[i];
        if (s->patch >= sys->spaces[MAP_OUTER].first) sys->outer_m2[s->node] += s->area_m2;
    }
    return SW_OK;
}

void map_half_cots(const sw_point corner[3], double out[3])
{
    for (int e = 0; e < 3; e++) {
        sw_point a = corner[e], b = corner[(e + 1) % 3], c = corner[(e + 2) % 3];
        double ux = a.x_mm - c.x_mm, uy = a.y_mm - c.y_mm, vx = b.x_mm - c.x_mm, vy = b.y_mm - c.y_mm;
        out[e] = 0.5 * (ux * vx + uy * vy) / (ux * vy - uy * vx);
    }
}

/* ---- ways ---- */

static uint32_t root(uint32_t *parent, uint32_t i)
{
    while (parent[i] != i) i = parent[i] = parent[parent[i]];
    return i;
}

static void unite(uint32_t *parent, uint32_t a, uint32_t b)
{
    a = root(parent, a), b = root(parent, b);
    parent[a > b ? a : b] = a > b ? b : a;
}

sw_status map_check_ways(sw_run *run, const map_system *sys, const char *(*name_of)(void *context, uint32_t node),
                         void *context)
{
    sw_status status = SW_OK;
    uint32_t *parent = SW_SCRATCH(run, sys->nodes + 1, uint32_t);
    bool *open = SW_SCRATCH(run, sys->nodes + 1, bool);
    if (parent == NULL || open == NULL) return SW_NO_MEMORY;
    for (uint32_t i = 0; i < sys->nodes; i++) parent[i] = i;
    for (size_t i = 0; i < sys->triangle_count; i++) {
        unite(parent, sys->triangles[i].node[0], sys->triangles[i].node[1]);
        unite(parent, sys->triangles[i].node[0], sys->triangles[i].node[2]);
    }
    for (size_t i = 0; i < sys->link_count; i++) unite(parent, (uint32_t)sys->links[i].a, (uint32_t)sys->links[i].b);
    for (size_t i = 0; i < sys->share_count; i++) open[root(parent, sys->shares[i].node)] = true;
    for (uint32_t i = 0; i < sys->nodes; i++)
        if (sys->held != NULL && sys->held[i]) open[root(parent, i)] = true;
    for (uint32_t i = 0; i < sys->nodes; i++) {
        uint32_t r = root(parent, i);
        if (open[r]) continue;
        open[r] = true;
        status = sw_fail(run, SW_BAD_INPUT, (sw_place){0}, name_of(context, i),
                         "exchanges heat with nothing: no gas, air or surface faces it and it touches no other part; "
                         "check its place and role");
    }
    return status;
}
