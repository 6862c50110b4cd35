/* map_seams.c: seams join the edge of one sheet to the sheet it meets: along the seam, step by step, the nearest nodes of both
 * share heat as through a bead as thick as it is wide, k a metre (ours; beside the way in the sheets it hardly resists). */
#include "burning/heat/map_parts.h"

#include <math.h>

uint32_t map_nearest_point(const map_sheet *s, sw_vec3 at)
{
    double least = (double)INFINITY;
    uint32_t best = 0;
    for (uint32_t i = 0; i < s->plane.point_count; i++) {
        const sw_vec3 *p = &s->points[i];
        double x = p->x_mm - at.x_mm, y = p->y_mm - at.y_mm, z = p->z_mm - at.z_mm, far = x * x + y * y + z * z;
        if (far < least) least = far, best = i;
    }
    return best;
}

static uint32_t sheet_of_end(const map_job *job, const sw_joint_end *end)
{
    if (end->piece < 0 || end->placement < 0) return SCENE_NONE;
    return job->seen.bodies[job->seen.piece_first[end->piece] + (size_t)end->placement].part;
}

static double seam_share(const sw_joint *j)
{
    return j->pitch_mm > 0.0 ? fmin(1.0, j->stitch_mm / j->pitch_mm) : 1.0;
}

/* One straight of the edge; its steps are half a triangle's side. */
static sw_status join_straight(sw_run *run, map_job *job, const uint32_t ends[2], const sw_vec3 from_to[2],
                               double w_m_k)
{
    const map_sheet *p = &job->sheets[ends[0]], *q = &job->sheets[ends[1]];
    sw_vec3 way = sw_vec3_sub(from_to[1], from_to[0]);
    double length_mm = sw_vec3_length(way);
    size_t steps = (size_t)ceil(length_mm / (0.5 * p->side_mm));
    for (size_t i = 0; i < steps; i++) {
        sw_vec3 at = sw_vec3_add(from_to[0], sw_vec3_scaled(way, ((double)i + 0.5) / (double)steps));
        net_link bead = {.kind = NET_LINK_FIXED, .g = w_m_k * sw_m_from_mm(length_mm) / (double)steps};
        SW_TRY(map_join(run, job, bead, p->first + map_nearest_point(p, at), q->first + map_nearest_point(q, at)));
    }
    return SW_OK;
}

static sw_status join(sw_run *run, map_job *job, const sw_joint *j)
{
    uint32_t ends[2] = {sheet_of_end(job, &j->a), sheet_of_end(job, &j->b)};
    if (ends[0] == SCENE_NONE || ends[1] == SCENE_NONE || ends[0] == ends[1] || j->a.edge < 0) return SW_OK;
    const map_sheet *p = &job->sheets[ends[0]], *q = &job->sheets[ends[1]];
    if (p->plane.point_count == 0 || q->plane.point_count == 0) return SW_OK;
    const sw_folded_edge *edge = &job->result->pieces[j->a.piece].solid.edges[j->a.edge];
    double k = net_bead_w_m_k(&job->scene->parts[ends[0]], &job->scene->parts[ends[1]]);
    for (size_t i = 0; i + 1 < edge->count; i++) {
        sw_vec3 from_to[2] = {sw_frame_point(p->body->frame, edge->points[i]),
                              sw_frame_point(p->body->frame, edge->points[i + 1])};
        SW_TRY(join_straight(run, job, ends, from_to, k * seam_share(j)));
    }
    return SW_OK;
}

sw_status map_seams(sw_run *run, map_job *job)
{
    for (size_t i = 0; i < job->stove->joint_count; i++)
        if (job->stove->joints[i].seam != SW_SEAM_NONE) SW_TRY(join(run, job, &job->stove->joints[i]));
    return SW_OK;
}
