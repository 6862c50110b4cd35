/* join_leaks.c: where a tight seam is looked at in the leak test: its ends, every restart, the middles of long stretches. */
#include "making/join/join_parts.h"

typedef struct list {
    sw_run *run;
    sw_join_leak_point *items;
    size_t count, room;
} list;

static sw_status add(list *l, size_t seam, sw_vec3 at, const char *what)
{
    sw_join_leak_point *items = sw_grow(l->run, l->run->keep, l->items, l->count, &l->room, sizeof *items);
    if (items == NULL) return SW_NO_MEMORY;
    l->items = items;
    items[l->count++] = (sw_join_leak_point){seam, at, what};
    return SW_OK;
}

static sw_status look_at(list *l, size_t index, const sw_join_seam *s)
{
    for (size_t i = 0; i < s->stretch_count; i++) {
        const sw_join_stretch *one = &s->stretches[i];
        SW_TRY(add(l, index, one->points[0].at, i == 0 ? "start" : "restart"));
        if (s->stretch_count == 1) SW_TRY(add(l, index, one->points[one->count / 2].at, "middle"));
        SW_TRY(add(l, index, one->points[one->count - 1].at, i + 1 == s->stretch_count ? "end" : "restart"));
    }
    return SW_OK;
}

sw_status join_leaks(sw_run *run, join_job *job)
{
    sw_join_result *r = job->result;
    list l = {.run = run};
    const double orifice_cd = 0.6; /* derived: sharp-edged orifice */
    for (size_t i = 0; i < job->seam_count; i++) {
        const sw_join_seam *s = job->seams[i].out;
        if (!s->joint->tight) continue;
        r->tight_mm += s->touch_mm;
        SW_TRY(look_at(&l, i, s));
    }
    r->leaks = l.items;
    r->leak_count = l.count;
    r->leak_area_mm2 = sw_leak_area_mm2(job->opt->leak_m3_s, job->opt->leak_pa, orifice_cd);
    r->leak_gap_mm = r->tight_mm > 0 ? r->leak_area_mm2 / r->tight_mm : (double)NAN;
    return SW_OK;
}
