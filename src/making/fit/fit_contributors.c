/* fit_contributors.c: the list of everything that can be off and touches a joint. Thickness once a grade and thickness (one
 * sheet), everything else once a specimen. */
#include "making/fit/fit_parts.h"

#include <math.h>
#include <string.h>

static bool same_cut(const fit_cut *a, const fit_cut *b)
{
    return a->face == b->face && a->zone == b->zone && a->hole == b->hole && a->segment == b->segment;
}

size_t fit_find_cut(const fit_job *job, size_t specimen, const fit_cut *cut)
{
    const fit_specimen *s = &job->specimens[specimen];
    for (size_t i = 0; i < job->contributor_count; i++) {
        const sw_fit_contributor *c = &job->contributors[i];
        if (c->operation == SW_FIT_CUT && c->piece == s->piece && c->placement == s->placement &&
            same_cut(&job->cuts[i], cut))
            return i;
    }
    return SIZE_MAX;
}

/* ---- groups: what one measurement covers ---- */

static bool same_group(const fit_job *job, size_t a, size_t b)
{
    const sw_fit_contributor *p = &job->contributors[a], *q = &job->contributors[b];
    if (p->operation != q->operation || p->piece != q->piece) return false;
    if (p->operation == SW_FIT_THICKNESS) return false; /* each is its own */
    return p->bend == q->bend && (p->operation != SW_FIT_CUT || same_cut(&job->cuts[a], &job->cuts[b]));
}

static void find_group(fit_job *job, size_t i)
{
    for (size_t k = i; k-- > 0;)
        if (same_group(job, i, k)) {
            job->groups[i] = job->groups[k];
            return;
        }
    job->groups[i] = job->group_count++;
}

static sw_status add(sw_run *run, fit_job *job, sw_fit_contributor c, fit_cut cut)
{
    SW_ASSERT(job->contributor_count < job->contributor_room);
    SW_TRY(fit_tolerance(run, job, &cut, &c));
    size_t i = job->contributor_count++;
    job->contributors[i] = c;
    job->cuts[i] = cut;
    find_group(job, i);
    return SW_OK;
}

static const fit_cut no_cut = {.face = -1};

static sw_fit_contributor plain(const fit_specimen *s, sw_fit_operation operation)
{
    return (sw_fit_contributor){
        .operation = operation, .piece = s->piece, .placement = s->placement, .bend = -1, .axis = -1};
}

/* ---- what belongs to what ---- */

static sw_status add_thickness(sw_run *run, fit_job *job, const fit_specimen *s)
{
    const sw_piece *p = job->in->sheet->pieces[s->piece].piece;
    for (size_t i = 0; i < job->contributor_count; i++) {
        const sw_fit_contributor *c = &job->contributors[i];
        if (c->operation != SW_FIT_THICKNESS) continue;
        const sw_piece *q = job->in->sheet->pieces[c->piece].piece;
        if (q->grade == p->grade && fabs(q->thickness_mm - p->thickness_mm) < SW_SAME_POINT_MM) return SW_OK;
    }
    return add(run, job, plain(s, SW_FIT_THICKNESS), no_cut);
}

static sw_status add_bends(sw_run *run, fit_job *job, const fit_specimen *s)
{
    const sw_piece *p = job->in->sheet->pieces[s->piece].piece;
    for (size_t b = 0; b < p->bend_count; b++) {
        sw_fit_contributor c = plain(s, SW_FIT_ROLL);
        c.bend = (int)b;
        if (p->bends[b].kind == SW_ROLLED) {
            SW_TRY(add(run, job, c, no_cut));
            continue;
        }
        c.operation = SW_FIT_ANGLE; /* a hem is pressed flat: no angle */
        if (p->bends[b].kind == SW_PRESSED) SW_TRY(add(run, job, c, no_cut));
        c.operation = SW_FIT_LINE;
        SW_TRY(add(run, job, c, no_cut));
    }
    return SW_OK;
}

static sw_status add_placing(sw_run *run, fit_job *job, fit_specimen *s)
{
    s->place = job->contributor_count;
    for (int axis = 0; axis < 6; axis++) {
        sw_fit_contributor c = plain(s, SW_FIT_PLACE);
        c.axis = axis;
        SW_TRY(add(run, job, c, no_cut));
    }
    return SW_OK;
}

static sw_status add_cut(sw_run *run, fit_job *job, const fit_foot *foot)
{
    if (foot->cut.face < 0 || fit_find_cut(job, foot->specimen, &foot->cut) != SIZE_MAX) return SW_OK;
    return add(run, job, plain(&job->specimens[foot->specimen], SW_FIT_CUT), foot->cut);
}

static sw_status make_room(sw_run *run, fit_job *job)
{
    size_t room = 2 * job->row_count;
    for (size_t i = 0; i < job->specimen_count; i++)
        room += 7 + 2 * job->in->sheet->pieces[job->specimens[i].piece].piece->bend_count;
    job->contributor_room = room;
    job->contributors = SW_KEEP(run, room, sw_fit_contributor);
    job->cuts = SW_SCRATCH(run, room, fit_cut);
    job->groups = SW_SCRATCH(run, room, size_t);
    return job->contributors == NULL || job->cuts == NULL || job->groups == NULL ? SW_NO_MEMORY : SW_OK;
}

sw_status fit_contributors(sw_run *run, fit_job *job)
{
    SW_TRY(make_room(run, job));
    bool *joined = SW_SCRATCH(run, job->specimen_count + 1, bool);
    if (joined == NULL) return SW_NO_MEMORY;
    for (size_t r = 0; r < job->row_count; r++)
        joined[job->rows[r].a.specimen] = joined[job->rows[r].b.specimen] = true;
    for (size_t i = 0; i < job->specimen_count; i++)
        if (joined[i]) SW_TRY(add_thickness(run, job, &job->specimens[i]));
    for (size_t r = 0; r < job->row_count; r++) {
        SW_TRY(add_cut(run, job, &job->rows[r].a));
        SW_TRY(add_cut(run, job, &job->rows[r].b));
    }
    for (size_t i = 0; i < job->specimen_count; i++)
        if (joined[i]) SW_TRY(add_bends(run, job, &job->specimens[i]));
    for (size_t i = 0; i < job->specimen_count; i++)
        if (joined[i]) SW_TRY(add_placing(run, job, &job->specimens[i]));
    return SW_OK;
}
