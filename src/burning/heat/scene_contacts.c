/* scene_contacts.c: what touches what: skins nearer than contact_below by rays, seams by the joints, and small parts:
 * their mass goes to the part they touch, and a small part between two holds them together. */
#include "burning/heat/scene_parts.h"

#include <math.h>
#include <string.h>

#define LEAST_M2  1e-4 /* smaller touches carry no heat worth a row */
#define BRIDGE_MM 40.0 /* a small part joins two parts whose touches are no further apart; ours */
#define RIM_SHARE 1.5  /* a touch of no more than this share of the seam's rim is the seam itself */

typedef struct touch { /* between two bodies, sums over the samples of both */
    uint32_t a, b;
    double counts; /* rays of mean weight */
    double gap_mm, edge_m;
} touch;

typedef struct touches {
    touch *items;
    size_t count, room;
} touches;

static touch *touch_of(sw_run *run, touches *all, uint32_t a, uint32_t b)
{
    uint32_t low = a < b ? a : b, high = a < b ? b : a;
    for (size_t i = 0; i < all->count; i++)
        if (all->items[i].a == low && all->items[i].b == high) return &all->items[i];
    touch *grown = sw_grow(run, run->scratch, all->items, all->count, &all->room, sizeof *grown);
    if (grown == NULL) return NULL;
    all->items = grown;
    grown[all->count] = (touch){.a = low, .b = high};
    return &grown[all->count++];
}

static bool is_small(const scene_job *job, uint32_t body)
{
    return job->bodies[body].part == SCENE_NONE;
}

/* Samples of one body one after the other: the last touch is most often the next one's. */
static sw_status find_touches(sw_run *run, scene_job *job, touches *all)
{
    for (size_t i = 0; i < job->sample_count; i++) {
        const scene_sample *s = &job->samples[i];
        if (s->pressed == SCENE_NONE) continue;
        touch *t = touch_of(run, all, s->body, s->pressed);
        if (t == NULL) return SW_NO_MEMORY;
        double counts = (double)s->weight_m2 / job->bodies[s->body].weight_m2;
        t->counts += counts;
        t->gap_mm += counts * (double)s->clear_mm;
    }
    return SW_OK;
}

static double rays_per_m2(const scene_body *b)
{
    return b->part == SCENE_NONE || b->count == 0 ? 0.0 : 1.0 / b->weight_m2;
}

/* Both skins count the same area; a small body's samples are too few to weigh beside a part's. */
static double touch_m2(const scene_job *job, const touch *t)
{
    double shares = rays_per_m2(&job->bodies[t->a]) + rays_per_m2(&job->bodies[t->b]);
    if (is_small(job, t->a)) return t->counts * job->bodies[t->a].weight_m2;
    if (is_small(job, t->b)) return t->counts * job->bodies[t->b].weight_m2;
    return shares > 0.0 ? t->counts / shares : 0.0;
}

/* ---- joints ---- */

static uint32_t body_of_end(const scene_job *job, const sw_joint_end *end)
{
    return (uint32_t)(job->piece_first[end->piece] + (size_t)end->placement);
}

static double seam_m(const sw_joint *j, double length_mm)
{
    if (j->seam == SW_SEAM_NONE) return 0.0;
    double share = j->pitch_mm > 0.0 ? fmin(1.0, j->stitch_mm / j->pitch_mm) : 1.0;
    return sw_m_from_mm(length_mm) * share;
}

/* A joint that is only laid or screwed is a touch without edge: its parts hold each other even where no ray is near
 * enough. */
static sw_status find_seams(sw_run *run, scene_job *job, touches *all)
{
    for (size_t i = 0; i < job->stove->joint_count; i++) {
        const sw_joint *j = &job->stove->joints[i];
        uint32_t a = body_of_end(job, &j->a), b = body_of_end(job, &j->b);
        if (a == b) continue;
        touch *t = touch_of(run, all, a, b);
        if (t == NULL) return SW_NO_MEMORY;
        t->edge_m += seam_m(j, job->sheet->joints[i].length_mm);
    }
    return SW_OK;
}

/* ---- small parts ---- */

static bool owns_better(const scene_job *job, const touch *t, const touch *best)
{
    if (best == NULL) return true;
    double area = touch_m2(job, t), other = touch_m2(job, best);
    return area > other || (!(area < other) && t->edge_m > best->edge_m);
}

static uint32_t heaviest(const scene_job *job, const char *group)
{
    uint32_t best = SCENE_NONE;
    for (uint32_t i = 0; i < job->body_count; i++) {
        const scene_body *b = &job->bodies[i];
        if (b->part == SCENE_NONE || (group != NULL && strcmp(b->group, group) != 0)) continue;
        if (best == SCENE_NONE || b->mass_kg > job->bodies[best].mass_kg) best = i;
    }
    return best;
}

static uint32_t owner_of(const scene_job *job, const touches *all, uint32_t small)
{
    const touch *best = NULL;
    for (size_t i = 0; i < all->count; i++) {
        const touch *t = &all->items[i];
        if (t->a != small && t->b != small) continue;
        uint32_t other = t->a == small ? t->b : t->a;
        if (!is_small(job, other) && owns_better(job, t, best)) best = t;
    }
    if (best != NULL) return best->a == small ? best->b : best->a;
    uint32_t found = heaviest(job, job->bodies[small].group);
    return found != SCENE_NONE ? found : heaviest(job, NULL);
}

static void give_masses(scene_job *job, const touches *all)
{
    for (uint32_t i = 0; i < job->body_count; i++) {
        if (!is_small(job, i)) continue;
        uint32_t owner = owner_of(job, all, i);
        if (owner != SCENE_NONE) job->parts[job->bodies[owner].part].mass_kg += job->bodies[i].mass_kg;
    }
}

/* ---- contacts ---- */

static sw_status add(sw_run *run, scene_job *job, sw_scene_contact c, uint32_t small)
{
    sw_scene *s = job->scene;
    uint32_t *by = sw_grow(run, run->scratch, job->contact_by, s->contact_count, &job->contact_by_room, sizeof *by);
    if (by == NULL) return SW_NO_MEMORY;
    job->contact_by = by;
    by[s->contact_count] = small;
    sw_scene_contact *grown =
        sw_grow(run, run->keep, job->contacts, s->contact_count, &job->contact_room, sizeof *grown);
    if (grown == NULL) return SW_NO_MEMORY;
    s->contacts = job->contacts = grown;
    grown[s->contact_count++] = c;
    job->held[c.a] = job->held[c.b] = true;
    return SW_OK;
}

/* A seam's own rim is not counted beside it; a loose joint without touch is taken as its rim pressed on. */
static sw_status add_touch(sw_run *run, scene_job *job, const touch *t)
{
    const scene_body *a = &job->bodies[t->a], *b = &job->bodies[t->b];
    sw_scene_contact c = {.a = a->part, .b = b->part, .area_m2 = touch_m2(job, t)};
    if (t->counts > 0.0) c.gap_m = sw_m_from_mm(t->gap_mm / t->counts);
    double rim_m2 = t->edge_m * fmax(a->thickness_m, b->thickness_m);
    if (c.area_m2 > LEAST_M2 && c.area_m2 > RIM_SHARE * rim_m2) SW_TRY(add(run, job, c, SCENE_NONE));
    if (!(t->edge_m > 0.0)) return SW_OK;
    return add(run, job, (sw_scene_contact){.a = a->part, .b = b->part, .edge_m = t->edge_m}, SCENE_NONE);
}

typedef struct spots { /* of a small body's samples on one part: how many, where in the mean */
    size_t count;
    sw_vec3 middle;
} spots;

static spots spots_on(const scene_job *job, const scene_body *small, uint32_t part)
{
    spots s = {0};
    for (size_t i = small->first; i < small->first + small->count; i++) {
        if (job->samples[i].pressed != part) continue;
        s.middle = sw_vec3_add(s.middle, scene_place(&job->samples[i].at));
        s.count++;
    }
    if (s.count > 0) s.middle = sw_vec3_scaled(s.middle, 1.0 / (double)s.count);
    return s;
}

static double nearest_mm(const scene_job *job, const scene_body *small, uint32_t a, uint32_t b)
{
    double nearest = (double)INFINITY;
    const scene_sample *first = &job->samples[small->first], *end = first + small->count;
    for (const scene_sample *s = first; s < end; s++)
        for (const scene_sample *q = first; s->pressed == a && q < end; q++)
            if (q->pressed == b)
                nearest = fmin(nearest, sw_vec3_length(sw_vec3_sub(scene_place(&s->at), scene_place(&q->at))));
    return nearest;
}

/* Through the small part from the middle of one touch to that of the other, l in the straight: an angle or strip of sheet is
 * some 2 l long between its touches' outer ends, so its section is A t/(2 l) and the way l/(k A t/(2 l)); ours. */
static double through_k_w(const scene_body *small, double way_mm)
{
    double l = sw_m_from_mm(way_mm), k = sw_material_conductivity(small->material, HEAT_JOINT_K);
    double carries = k * 0.5 * small->skin_m2 * small->thickness_m;
    return carries > 0.0 ? 2.0 * l * l / carries : 0.0;
}

/* Whether the small body touches both parts within a short way: two dry touches in a row, and the way through it. */
static bool joins(const scene_job *job, const scene_body *small, uint32_t a, uint32_t b, sw_scene_contact *c)
{
    spots on_a = spots_on(job, small, a), on_b = spots_on(job, small, b);
    double a_m2 = (double)on_a.count * small->weight_m2, b_m2 = (double)on_b.count * small->weight_m2;
    *c = (sw_scene_contact){.a = job->bodies[a].part, .b = job->bodies[b].part, .between = true};
    if (!(fmin(a_m2, b_m2) > LEAST_M2) || !(nearest_mm(job, small, a, b) < BRIDGE_MM)) return false;
    c->area_m2 = 1.0 / (1.0 / a_m2 + 1.0 / b_m2);
    c->between_k_w = through_k_w(small, sw_vec3_length(sw_vec3_sub(on_b.middle, on_a.middle)));
    return true;
}

enum { MOST_TOUCHED = 8 };

static size_t touched_by(const scene_job *job, const scene_body *small, uint32_t touched[MOST_TOUCHED])
{
    size_t count = 0;
    for (size_t i = small->first; i < small->first + small->count; i++) {
        uint32_t body = job->samples[i].pressed;
        size_t k = 0;
        while (k < count && touched[k] != body) k++;
        if (body != SCENE_NONE && k == count && count < MOST_TOUCHED) touched[count++] = body;
    }
    return count;
}

static sw_status bridge(sw_run *run, scene_job *job, uint32_t small)
{
    uint32_t touched[MOST_TOUCHED];
    const scene_body *body = &job->bodies[small];
    size_t count = touched_by(job, body, touched);
    for (size_t i = 0; i < count; i++) {
        job->held[job->bodies[touched[i]].part] = true;
        for (size_t k = i + 1; k < count; k++) {
            sw_scene_contact c;
            if (joins(job, body, touched[i], touched[k], &c)) SW_TRY(add(run, job, c, small));
        }
    }
    return SW_OK;
}

/* The part of the group with a sample nearest to the place. */
static uint32_t nearest_of_group(const scene_job *job, const scene_body *bar)
{
    uint32_t best = SCENE_NONE;
    double least_mm = (double)INFINITY;
    for (size_t i = 0; i < job->sample_count; i++) {
        const scene_sample *s = &job->samples[i];
        double way_mm = sw_vec3_length(sw_vec3_sub(scene_place(&s->at), bar->frame.origin));
        if (way_mm >= least_mm || is_small(job, s->body) || strcmp(job->bodies[s->body].group, bar->group) != 0)
            continue;
        least_mm = way_mm;
        best = s->body;
    }
    return best;
}

/* A handle without shape hangs on the nearest part of its group by the section of its bar. */
static sw_status add_bars(sw_run *run, scene_job *job)
{
    for (uint32_t i = 0; i < job->body_count; i++) {
        const scene_body *b = &job->bodies[i];
        if (is_small(job, i) || b->mesh.triangle_count > 0) continue;
        uint32_t holder = nearest_of_group(job, b);
        if (holder == SCENE_NONE) continue;
        double section = SW_PI / 4.0 * b->thickness_m * b->thickness_m;
        sw_scene_contact c = {.a = b->part, .b = job->bodies[holder].part, .area_m2 = section};
        SW_TRY(add(run, job, c, SCENE_NONE));
    }
    return SW_OK;
}

sw_status scene_contacts(sw_run *run, scene_job *job)
{
    touches all = {0};
    job->held = SW_SCRATCH(run, job->scene->part_count + 1, bool);
    if (job->held == NULL) return SW_NO_MEMORY;
    SW_TRY(find_touches(run, job, &all));
    SW_TRY(find_seams(run, job, &all));
    give_masses(job, &all);
    for (size_t i = 0; i < all.count; i++)
        if (!is_small(job, all.items[i].a) && !is_small(job, all.items[i].b))
            SW_TRY(add_touch(run, job, &all.items[i]));
    for (uint32_t i = 0; i < job->body_count; i++)
        if (is_small(job, i) && job->bodies[i].count > 0) SW_TRY(bridge(run, job, i));
    return add_bars(run, job);
}
