/* heft_open.c: when the stove tips with its doors open. What a hinge carries, and what seams hold to that, is turned about
 * the hinge's axis; the centre of gravity goes with it. */
#include "making/heft/heft_parts.h"

#include <math.h>
#include <string.h>

enum { STEPS = 6, MOST = 6 }; /* ours: of the opening; of doors that open one by one, more open together */

typedef struct opener {
    const heft_job *job;
    bool **swings; /* [hinges][placed] */
    size_t *first; /* [pieces] its first place among the placed */
    double least_rad;
    unsigned open; /* doors that are open then, a bit each */
    bool hangs;    /* a hinge carries more than half of the stove */
} opener;

static bool carries(const sw_hinge *hinge, const char *name)
{
    for (size_t i = 0; i < hinge->carried; i++)
        if (strcmp(hinge->carries[i], name) == 0) return true;
    return false;
}

static void mark_named(const opener *o, const sw_hinge *hinge, bool *swings)
{
    const sw_stove *s = o->job->in->stove;
    size_t at = 0;
    for (size_t i = 0; i < s->piece_count; i++)
        for (size_t k = 0; k < s->pieces[i].count; k++)
            swings[at++] = carries(hinge, s->pieces[i].name) || carries(hinge, s->pieces[i].number);
    for (size_t i = 0; i < s->item_count; i++)
        for (size_t k = 0; k < s->items[i].count; k++) swings[at++] = carries(hinge, s->items[i].name);
}

static bool held(const opener *o, const sw_joint *j, size_t *a, size_t *b)
{
    if (j->seam == SW_SEAM_NONE || j->a.piece < 0 || j->b.piece < 0) return false;
    *a = o->first[j->a.piece] + (size_t)j->a.placement;
    *b = o->first[j->b.piece] + (size_t)j->b.placement;
    return true;
}

static void mark_welded(const opener *o, bool *swings)
{
    const sw_stove *s = o->job->in->stove;
    for (bool more = true; more;) {
        more = false;
        for (size_t i = 0; i < s->joint_count; i++) {
            size_t a = 0, b = 0;
            if (!held(o, &s->joints[i], &a, &b) || swings[a] == swings[b]) continue;
            swings[a] = swings[b] = more = true;
        }
    }
}

static sw_status mark(sw_run *run, opener *o)
{
    const sw_stove *s = o->job->in->stove;
    o->swings = SW_SCRATCH(run, s->hinge_count, bool *);
    o->first = SW_SCRATCH(run, s->piece_count + 1, size_t);
    if (o->swings == NULL || o->first == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->piece_count; i++) o->first[i + 1] = o->first[i] + s->pieces[i].count;
    for (size_t h = 0; h < s->hinge_count; h++) {
        double mass_kg = 0;
        o->swings[h] = SW_SCRATCH(run, o->job->placed_count, bool);
        if (o->swings[h] == NULL) return SW_NO_MEMORY;
        mark_named(o, &s->hinges[h], o->swings[h]);
        mark_welded(o, o->swings[h]);
        for (size_t i = 0; i < o->job->placed_count; i++)
            if (o->swings[h][i]) mass_kg += o->job->placed[i].mass_kg;
        o->hangs = o->hangs || mass_kg > o->job->result->stove.mass_kg / 2;
    }
    return SW_OK;
}

static sw_vec3 swung(sw_vec3 p, const sw_hinge *hinge, double share)
{
    double c = cos(share * hinge->open_rad), s = sin(share * hinge->open_rad);
    double x = p.x_mm - hinge->at.x_mm, y = p.y_mm - hinge->at.y_mm;
    return (sw_vec3){hinge->at.x_mm + c * x - s * y, hinge->at.y_mm + s * x + c * y, p.z_mm};
}

/* Centre of gravity with the doors of `open` a share of their way open. */
static sw_vec3 centre_of(const opener *o, unsigned open, double share)
{
    const sw_stove *s = o->job->in->stove;
    const sw_body *all = &o->job->result->stove;
    sw_vec3 centre = all->centre;
    for (size_t h = 0; h < s->hinge_count; h++)
        for (size_t i = 0; i < o->job->placed_count; i++) {
            const sw_body *one = &o->job->placed[i];
            if ((open >> (h < MOST ? h : MOST - 1) & 1) == 0 || !o->swings[h][i]) continue;
            sw_vec3 moved = sw_vec3_sub(swung(one->centre, &s->hinges[h], share), one->centre);
            centre = sw_vec3_add(centre, sw_vec3_scaled(moved, one->mass_kg / all->mass_kg));
        }
    return centre;
}

static void open_all_ways(opener *o)
{
    const sw_heft_result *r = o->job->result;
    size_t doors = o->job->in->stove->hinge_count < MOST ? o->job->in->stove->hinge_count : MOST, edge = 0;
    for (unsigned open = 1; open < 1u << doors; open++)
        for (int k = 1; k <= STEPS; k++) {
            sw_vec3 centre = centre_of(o, open, (double)k / STEPS);
            double tip_rad = sw_tip_angle_over_rad(r->support, r->support_count, centre, &edge);
            if (!(tip_rad < o->least_rad)) continue;
            o->least_rad = tip_rad;
            o->open = open;
        }
}

static const char *names_of(sw_run *run, const opener *o)
{
    const sw_stove *s = o->job->in->stove;
    const char *text = NULL;
    for (size_t h = 0; h < s->hinge_count; h++) {
        if ((o->open >> (h < MOST ? h : MOST - 1) & 1) == 0) continue;
        text = text == NULL ? s->hinges[h].name : sw_text_format(run, run->keep, "%s, %s", text, s->hinges[h].name);
        if (text == NULL) return NULL;
    }
    return text == NULL ? "" : text;
}

sw_status heft_open(sw_run *run, heft_job *job)
{
    opener o = {.job = job, .least_rad = INFINITY};
    job->result->open_rad = NAN;
    job->result->open = "";
    if (job->in->stove->hinge_count == 0 || isnan(job->result->tip_rad)) return SW_OK;
    SW_TRY(mark(run, &o));
    if (o.hangs) return SW_OK;
    open_all_ways(&o);
    job->result->open_rad = o.least_rad;
    job->result->open = names_of(run, &o);
    return job->result->open == NULL ? SW_NO_MEMORY : SW_OK;
}
