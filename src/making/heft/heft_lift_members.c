/* heft_lift_members.c: every placed piece and item with its box, and bodies put together of them. */
#include "making/heft/heft_lift_parts.h"
#include "making/heft/heft_parts.h"

#include <math.h>

static sw_lift_box empty_box(void)
{
    const double far = INFINITY;
    return (sw_lift_box){{far, far, far}, {-far, -far, -far}};
}

static void widen(sw_lift_box *box, sw_vec3 p)
{
    box->low = (sw_vec3){fmin(box->low.x_mm, p.x_mm), fmin(box->low.y_mm, p.y_mm), fmin(box->low.z_mm, p.z_mm)};
    box->high = (sw_vec3){fmax(box->high.x_mm, p.x_mm), fmax(box->high.y_mm, p.y_mm), fmax(box->high.z_mm, p.z_mm)};
}

static sw_lift_box moved_box(sw_lift_box box, sw_frame frame)
{
    sw_lift_box moved = empty_box();
    for (int k = 0; k < 8; k++) {
        sw_vec3 corner = {k & 1 ? box.high.x_mm : box.low.x_mm, k & 2 ? box.high.y_mm : box.low.y_mm,
                          k & 4 ? box.high.z_mm : box.low.z_mm};
        widen(&moved, sw_frame_point(frame, corner));
    }
    return moved;
}

static sw_lift_box item_box(const sw_item *item)
{
    if (item->shape.outline.n == 0) return (sw_lift_box){0};
    sw_box b = sw_contour_box(item->shape.outline);
    return (sw_lift_box){{b.x0_mm, b.y0_mm, 0}, {b.x1_mm, b.y1_mm, item->thickness_mm}};
}

static void add(lift_job *job, const lift_member *one, const sw_frame *frames, size_t count)
{
    for (size_t k = 0; k < count; k++) {
        lift_member *m = &job->members[job->member_count++];
        *m = *one;
        m->body = sw_body_moved(one->body, frames[k]);
        m->box = moved_box(one->box, frames[k]);
    }
}

sw_status lift_members(sw_run *run, lift_job *job)
{
    const sw_stove *stove = job->in->stove;
    size_t total = 0;
    for (size_t i = 0; i < stove->piece_count; i++) total += stove->pieces[i].count;
    for (size_t i = 0; i < stove->item_count; i++) total += stove->items[i].count;
    job->members = SW_SCRATCH(run, total, lift_member);
    job->first = SW_SCRATCH(run, stove->piece_count, size_t);
    if (job->members == NULL || job->first == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->piece_count; i++) {
        const sw_piece *p = &stove->pieces[i];
        const lift_member one = {.body = job->in->pieces[i], .box = job->in->boxes[i], .group = p->group};
        job->first[i] = job->member_count;
        add(job, &one, p->placements, p->count);
    }
    for (size_t i = 0; i < stove->item_count; i++) {
        const sw_item *item = &stove->items[i];
        bool loose = item->kind == SW_ITEM_BOARD || item->kind == SW_ITEM_CAST;
        const lift_member one = {heft_item_body(item), item_box(item), item->group, loose};
        add(job, &one, item->placements, item->count);
    }
    return SW_OK;
}

sw_status lift_gather(sw_run *run, const lift_job *job, const bool *in, sw_lift_step *step)
{
    sw_body *bodies = SW_SCRATCH(run, job->member_count, sw_body);
    if (bodies == NULL) return SW_NO_MEMORY;
    size_t count = 0;
    step->box = empty_box();
    for (size_t i = 0; i < job->member_count; i++) {
        if (!in[i]) continue;
        bodies[count++] = job->members[i].body;
        widen(&step->box, job->members[i].box.low);
        widen(&step->box, job->members[i].box.high);
    }
    sw_body sum = sw_body_sum(bodies, count);
    step->mass_kg = sum.mass_kg;
    step->centre = sum.centre;
    return SW_OK;
}

/* ---- what seams hold together ---- */

static size_t root_of(const size_t *up, size_t i)
{
    while (up[i] != i) i = up[i];
    return i;
}

static bool placed(const sw_stove *stove, const sw_joint_end *end)
{
    if (end->piece < 0 || (size_t)end->piece >= stove->piece_count) return false;
    return end->placement >= 0 && (size_t)end->placement < stove->pieces[end->piece].count;
}

static void join_all(const lift_job *job, size_t *up)
{
    const sw_stove *stove = job->in->stove;
    for (size_t i = 0; i < job->member_count; i++) up[i] = i;
    for (size_t i = 0; i < stove->joint_count; i++) {
        const sw_joint *j = &stove->joints[i];
        if (j->seam == SW_SEAM_NONE || !placed(stove, &j->a) || !placed(stove, &j->b)) continue;
        size_t a = root_of(up, job->first[j->a.piece] + (size_t)j->a.placement);
        size_t b = root_of(up, job->first[j->b.piece] + (size_t)j->b.placement);
        up[a > b ? a : b] = a > b ? b : a;
    }
}

sw_status lift_welded(sw_run *run, const lift_job *job, bool *in)
{
    size_t *up = SW_SCRATCH(run, job->member_count, size_t), best = 0, most = 0;
    double *mass_kg = SW_SCRATCH(run, job->member_count, double);
    size_t *sizes = SW_SCRATCH(run, job->member_count, size_t);
    if (up == NULL || mass_kg == NULL || sizes == NULL) return SW_NO_MEMORY;
    join_all(job, up);
    for (size_t i = 0; i < job->member_count; i++) {
        size_t r = root_of(up, i);
        mass_kg[r] += job->members[i].body.mass_kg;
        sizes[r]++;
    }
    for (size_t i = 0; i < job->member_count; i++)
        if (sizes[i] > 1 && (most == 0 || mass_kg[i] > mass_kg[best])) {
            best = i;
            most = sizes[i];
        }
    for (size_t i = 0; i < job->member_count; i++) in[i] = most > 0 && root_of(up, i) == best;
    return SW_OK;
}
