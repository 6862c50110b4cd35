/* join_instances.c: every placed piece as triangles in the stove's frame. */
#include "making/join/join_parts.h"

static join_face placed_face(const sw_mesh *m, sw_triangle t)
{
    join_face f = {m->points[t.a], m->points[t.b], m->points[t.c], {0, 0, 0}, {{0, 0, 0}, {0, 0, 0}}};
    f.normal = sw_vec3_unit(sw_vec3_cross(sw_vec3_sub(f.b, f.a), sw_vec3_sub(f.c, f.a)));
    f.box = join_box_with(join_box_with(join_box_with(join_box_empty(), f.a), f.b), f.c);
    return f;
}

static sw_status place(sw_run *run, join_instance *one)
{
    const sw_mesh *m = &one->piece->solid.mesh;
    join_face *faces = SW_SCRATCH(run, m->triangle_count, join_face);
    sw_vec3 *points = SW_SCRATCH(run, m->point_count, sw_vec3);
    if (faces == NULL || points == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < m->point_count; i++) points[i] = sw_frame_point(one->frame, m->points[i]);
    one->mesh = (sw_mesh){points, m->point_count, m->triangles, m->triangle_count};
    one->box = join_box_empty();
    for (size_t i = 0; i < m->triangle_count; i++) {
        faces[i] = placed_face(&one->mesh, m->triangles[i]);
        one->box = join_box_with(join_box_with(one->box, faces[i].box.low), faces[i].box.high);
    }
    one->faces = faces;
    one->face_count = m->triangle_count;
    return SW_OK;
}

sw_status join_instances(sw_run *run, join_job *job)
{
    const sw_stove *stove = job->in->stove;
    size_t count = 0;
    for (size_t p = 0; p < stove->piece_count; p++) count += stove->pieces[p].count;
    job->instances = SW_SCRATCH(run, count, join_instance);
    job->first = SW_SCRATCH(run, stove->piece_count, size_t);
    if (job->instances == NULL || job->first == NULL) return SW_NO_MEMORY;
    for (size_t p = 0; p < stove->piece_count; p++) {
        const sw_piece *piece = &stove->pieces[p];
        job->first[p] = job->instance_count;
        const char *label = sw_text_format(run, run->keep, "%s %s", piece->number, piece->name);
        if (label == NULL) return SW_NO_MEMORY;
        for (size_t k = 0; k < piece->count; k++) {
            join_instance *one = &job->instances[job->instance_count++];
            *one = (join_instance){.piece = &job->in->sheet->pieces[p],
                                   .frame = piece->placements[k],
                                   .piece_index = p,
                                   .placement = k,
                                   .label = label};
            SW_TRY(place(run, one));
        }
    }
    return SW_OK;
}
