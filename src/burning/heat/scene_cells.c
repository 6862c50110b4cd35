/* scene_cells.c: which skins have fire gas before them. What a ray joins lies before the same gas, so the likelihood
 * of a cell (one body, one of six facings, a box of some 40 mm that moves with the body) is the mean of what its rays meet: 1 where a part stands
 * in the fire, 0 at the shell and in the open, else that of the cell met. The odds that a walk from ray to ray comes
 * to the fire first. Solved by sweeps (Gauss-Seidel). Ours. */
#include "burning/heat/scene_parts.h"

#include <math.h>

#define CUBE_MM     40.0
#define HELD_INSIDE 0.05 /* weight of "inside" for a ray between two parts of a bare box */
#define WAY_OUTSIDE 0.5  /* weight of "outside" for a ray between air ways: their insides lead air, not fire gas */
enum { SWEEPS = 8 };

/* ---- table ---- */

static const uint64_t cubes_most = 1000; /* an index has ten bits */

static size_t cubes_along(double low_mm, double high_mm)
{
    return (size_t)fmin(fmax(1.0, round((high_mm - low_mm) / CUBE_MM)), (double)cubes_most);
}

static void cut_boxes(scene_job *job)
{
    for (size_t i = 0; i < job->body_count; i++) {
        scene_body *b = &job->bodies[i];
        b->cubes[0] = cubes_along(b->low.x_mm, b->high.x_mm);
        b->cubes[1] = cubes_along(b->low.y_mm, b->high.y_mm);
        b->cubes[2] = cubes_along(b->low.z_mm, b->high.z_mm);
    }
}

/* 1 and up, so that there is room for one before the first. */
static uint64_t step_of(float mm, double low_mm, double high_mm, size_t cubes)
{
    double size = high_mm - low_mm, share = size > 0.0 ? ((double)mm - low_mm) / size : 0.0;
    return 1 + (uint64_t)fmin(fmax(floor(share * (double)cubes), 0.0), (double)cubes - 1.0);
}

static uint64_t facing(const float n[3])
{
    float x = fabsf(n[0]), y = fabsf(n[1]), z = fabsf(n[2]);
    unsigned axis = z >= x && z >= y ? 2 : y >= x ? 1 : 0;
    return 2 * axis + (n[axis] < 0.0F);
}

static uint64_t key_of(const scene_job *job, uint32_t body, const scene_spot *at)
{
    const scene_body *b = &job->bodies[body];
    uint64_t key = ((uint64_t)body * 6 + facing(at->normal)) << 30;
    return key | step_of(at->x_mm, b->low.x_mm, b->high.x_mm, b->cubes[0]) << 20 |
           step_of(at->y_mm, b->low.y_mm, b->high.y_mm, b->cubes[1]) << 10 |
           step_of(at->z_mm, b->low.z_mm, b->high.z_mm, b->cubes[2]);
}

static size_t slot_of(const scene_cells *c, uint64_t key)
{
    size_t slot = (size_t)((key * 0x9E3779B97F4A7C15u) >> 20) & c->mask;
    while (c->slots[slot] != 0 && c->items[c->slots[slot] - 1].key != key) slot = (slot + 1) & c->mask;
    return slot;
}

/* The cell itself, or one beside it that a ray has met. */
uint32_t scene_cell_find(const scene_job *job, uint32_t body, const scene_spot *at)
{
    static const uint64_t beside[] = {1, (uint64_t)1 << 20, (uint64_t)1 << 10}; /* z, x, y */
    uint64_t key = key_of(job, body, at);
    uint32_t found = job->cells.slots[slot_of(&job->cells, key)];
    for (int i = 0; found == 0 && i < 3; i++) {
        found = job->cells.slots[slot_of(&job->cells, key + beside[i])];
        if (found == 0) found = job->cells.slots[slot_of(&job->cells, key - beside[i])];
    }
    return found != 0 ? found - 1 : SCENE_NONE;
}

static uint32_t enter(scene_job *job, uint32_t body, const scene_spot *at)
{
    scene_cells *c = &job->cells;
    uint64_t key = key_of(job, body, at);
    size_t slot = slot_of(c, key);
    if (c->slots[slot] == 0) {
        c->items[c->count] = (scene_cell){.key = key, .body = body};
        c->slots[slot] = (uint32_t)++c->count;
    }
    return c->slots[slot] - 1;
}

static sw_status open_table(sw_run *run, scene_job *job)
{
    size_t slots = 64;
    while (slots < 4 * job->sample_count) slots *= 2;
    job->cells = (scene_cells){.items = SW_SCRATCH(run, 2 * job->sample_count + 1, scene_cell),
                               .slots = SW_SCRATCH(run, slots, uint32_t),
                               .mask = slots - 1};
    return job->cells.items == NULL || job->cells.slots == NULL ? SW_NO_MEMORY : SW_OK;
}

static void enter_samples(scene_job *job)
{
    for (size_t i = 0; i < job->sample_count; i++) {
        scene_sample *s = &job->samples[i];
        if (!scene_open(s) || job->bodies[s->body].kind == SW_PART_SMALL) continue;
        s->cell = enter(job, s->body, &s->at);
        job->cells.items[s->cell].rays++;
        if (s->hit != SCENE_NONE) s->hit_cell = enter(job, s->hit, &s->to);
        job->cells.items[s->cell].room += isinf(s->length_mm) ? 1.0F : 0.0F;
    }
}

/* ---- share of rays that leave ---- */

/* Cells are small; each is helped by two rays of the mean of its body and facing. */
static sw_status find_room_shares(sw_run *run, scene_job *job)
{
    double *sums = SW_SCRATCH(run, 12 * job->body_count + 1, double);
    if (sums == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->cells.count; i++) {
        const scene_cell *c = &job->cells.items[i];
        sums[2 * (c->key >> 30)] += (double)c->rays;
        sums[2 * (c->key >> 30) + 1] += (double)c->room;
    }
    for (size_t i = 0; i < job->cells.count; i++) {
        scene_cell *c = &job->cells.items[i];
        double *sum = &sums[2 * (c->key >> 30)], mean = sum[0] > 0.0 ? sum[1] / sum[0] : 0.0;
        c->room = (float)(((double)c->room + 2.0 * mean) / ((double)c->rays + 2.0));
    }
    return SW_OK;
}

/* ---- likelihood of fire gas ---- */

typedef struct meeting {
    uint32_t cell;
    float weight; /* of the other cell's likelihood */
} meeting;

typedef struct web {
    uint32_t *first; /* [count + 1] of a cell's meetings */
    meeting *meetings;
    float *known; /* [count] sum of what is known beforehand */
    float *all;   /* [count] sum of weights */
    bool bare;    /* no part stands in the fire: the box alone has to tell inside from outside */
} web;

static bool is_fixed(const scene_job *job, const scene_cell *c)
{
    scene_hint hint = job->bodies[c->body].role->hint;
    return hint == SCENE_FIRE || hint == SCENE_OUT;
}

/* How a ray between two cells is to be read: the weight left for the cell at the other end, and what is added. */
static float reading(const scene_job *job, const web *w, const scene_cell *a, const scene_cell *b, float *known)
{
    const scene_body *p = &job->bodies[a->body], *q = &job->bodies[b->body];
    *known = 0.0F;
    if (p->kind == SW_PART_AIRWAY && q->kind == SW_PART_AIRWAY) return (float)(1.0 - WAY_OUTSIDE);
    if (!w->bare || p->role->hint != SCENE_HOLDS || q->role->hint != SCENE_HOLDS || a->body == b->body) return 1.0F;
    *known = (float)HELD_INSIDE;
    return (float)(1.0 - HELD_INSIDE);
}

static void note(const scene_job *job, web *w, uint32_t at, uint32_t met, uint32_t *next)
{
    float known = 0.0F;
    const scene_cell *cells = job->cells.items;
    w->meetings[next[at]++] = (meeting){met, reading(job, w, &cells[at], &cells[met], &known)};
    w->known[at] += known;
    w->all[at] += 1.0F;
}

static sw_status open_web(sw_run *run, const scene_job *job, web *w)
{
    size_t n = job->cells.count;
    *w = (web){.first = SW_SCRATCH(run, n + 2, uint32_t),
               .meetings = SW_SCRATCH(run, 2 * job->sample_count + 1, meeting),
               .known = SW_SCRATCH(run, n + 1, float),
               .all = SW_SCRATCH(run, n + 1, float)};
    w->bare = true;
    for (size_t i = 0; i < job->body_count; i++)
        if (job->bodies[i].part != SCENE_NONE && job->bodies[i].role->hint == SCENE_FIRE) w->bare = false;
    bool whole = w->first != NULL && w->meetings != NULL && w->known != NULL && w->all != NULL;
    return whole ? SW_OK : SW_NO_MEMORY;
}

/* Each ray is noted at both of its ends. */
static sw_status weave(sw_run *run, const scene_job *job, web *w)
{
    SW_TRY(open_web(run, job, w));
    uint32_t *next = SW_SCRATCH(run, job->cells.count + 1, uint32_t);
    if (next == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->sample_count; i++) {
        const scene_sample *s = &job->samples[i];
        if (s->hit_cell == SCENE_NONE || s->hit_cell == s->cell) continue;
        w->first[s->cell + 1]++;
        w->first[s->hit_cell + 1]++;
    }
    for (size_t i = 0; i < job->cells.count; i++) next[i] = w->first[i + 1] += w->first[i];
    for (size_t i = job->cells.count; i-- > 0;) next[i] = w->first[i];
    for (size_t i = 0; i < job->sample_count; i++) {
        const scene_sample *s = &job->samples[i];
        if (s->hit_cell != SCENE_NONE && s->hit_cell != s->cell) {
            note(job, w, s->cell, s->hit_cell, next);
            note(job, w, s->hit_cell, s->cell, next);
        } else if (s->cell != SCENE_NONE && s->hit == SCENE_NONE) {
            w->all[s->cell] += 1.0F;
            w->known[s->cell] += s->leaves_flue ? 1.0F : 0.0F;
        }
    }
    return SW_OK;
}

static void settle(const scene_job *job, const web *w, size_t i)
{
    scene_cell *c = &job->cells.items[i];
    if (is_fixed(job, c) || !(w->all[i] > 0.0F)) return;
    float sum = w->known[i];
    for (uint32_t k = w->first[i]; k < w->first[i + 1]; k++)
        sum += w->meetings[k].weight * job->cells.items[w->meetings[k].cell].inside;
    c->inside = sum / w->all[i];
}

static void sweep(const scene_job *job, const web *w)
{
    for (size_t i = 0; i < job->cells.count; i++)
        job->cells.items[i].inside = job->bodies[job->cells.items[i].body].role->hint == SCENE_FIRE ? 1.0F : 0.0F;
    for (int round = 0; round < SWEEPS; round++) {
        for (size_t i = 0; i < job->cells.count; i++) settle(job, w, i);
        for (size_t i = job->cells.count; i-- > 0;) settle(job, w, i);
    }
}

sw_status scene_cells_make(sw_run *run, scene_job *job)
{
    web w;
    SW_TRY(open_table(run, job));
    cut_boxes(job);
    enter_samples(job);
    SW_TRY(find_room_shares(run, job));
    SW_TRY(weave(run, job, &w));
    sweep(job, &w);
    return SW_OK;
}

/* ---- what a cell says ---- */

bool scene_inside(const scene_job *job, uint32_t cell)
{
    return cell != SCENE_NONE && job->cells.items[cell].inside > 0.5F;
}

/* Below the grate the air is as cool as in the gap. */
sw_medium scene_medium(const scene_job *job, uint32_t cell, double z_mm)
{
    if (cell == SCENE_NONE) return SW_MEDIUM_GAP;
    if (scene_inside(job, cell)) {
        if (z_mm < job->bed_mm) return SW_MEDIUM_GAP;
        return z_mm < job->level_mm ? SW_MEDIUM_FIRE : SW_MEDIUM_UPPER;
    }
    return job->cells.items[cell].room > 0.5F ? SW_MEDIUM_ROOM : SW_MEDIUM_GAP;
}
