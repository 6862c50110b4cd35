/* form_stroke.c: one stroke looked at from the flat sheet to the angle under load.
 *
 * Where a unit of the sheet (a face with its zone) stands in the press depends only on the lines between it and the bend
 * line. So what is found of a unit, or of a pair of units that might meet, is remembered for these lines, and a stroke
 * with other lines made elsewhere looks only at what it does not know yet. */
#include "making/form/form_parts.h"

#include <string.h>

enum { MEMO_ROOM = 1 << 15 };
enum { NOT_KNOWN, IS_CLEAR, IS_BLOCKED };

struct form_memo {
    uint64_t *keys; /* [MEMO_ROOM] 0 = free */
    unsigned char *found, *thing;
    size_t count;
    bool ask_units, ask_pairs;             /* a stroke must look at any of them */
    unsigned char *units, *pairs, *paired; /* [faces], [faces x faces], [faces] what a stroke must look at */
};

int form_unit_of(const form_body *body, int part)
{
    int faces = (int)body->piece->face_count;
    return part < faces ? part : body->piece->bends[part - faces].child;
}

double form_share_set(const form_line *line)
{
    return line->angle_rad > 0.0 ? line->set_rad / line->angle_rad : 1.0;
}

/* ---- what is remembered ---- */

typedef struct stroke {
    form_job *job;
    uint32_t made;
    int line;
    sw_form_punch punch;
} stroke;

/* b < 0: unit a against the tools. */
static uint64_t key_of(const stroke *s, int a, int b)
{
    const form_body *body = s->job->body;
    const form_line *l = &body->lines[s->line];
    uint32_t asked = body->route[a] | body->route[body->piece->bends[l->bends[0]].parent];
    if (b >= 0) asked |= body->route[b];
    uint64_t key = s->made & asked;
    key = key << 16 | (uint64_t)(a & 0xffff);
    key = key << 16 | (uint64_t)((b + 1) & 0xffff);
    return (key << 8 | (uint64_t)s->line << 3 | (b < 0 ? (uint64_t)s->punch << 1 : 0u)) | 1u;
}

static size_t slot_of(const form_memo *m, uint64_t key)
{
    size_t at = (size_t)((key * 0x9e3779b97f4a7c15u) >> 49) % MEMO_ROOM;
    while (m->keys[at] != 0 && m->keys[at] != key) at = (at + 1) % MEMO_ROOM;
    return at;
}

static int recall(const form_memo *m, uint64_t key, sw_form_thing *thing)
{
    size_t at = slot_of(m, key);
    if (m->keys[at] == 0) return NOT_KNOWN;
    *thing = (sw_form_thing)m->thing[at];
    return m->found[at];
}

static void remember(form_memo *m, uint64_t key, int found, sw_form_thing thing)
{
    if (m->count > MEMO_ROOM / 2) return; /* what does not fit is looked at again */
    size_t at = slot_of(m, key);
    m->count += m->keys[at] == 0;
    m->keys[at] = key;
    m->found[at] = (unsigned char)found;
    m->thing[at] = (unsigned char)thing;
}

static void take_pairs(form_memo *m, const form_memo *from)
{
    for (size_t i = 0; i < MEMO_ROOM; i++) /* a pair's key holds its second unit + 1 */
        if ((from->keys[i] >> 8 & 0xffff) != 0)
            remember(m, from->keys[i], from->found[i], (sw_form_thing)from->thing[i]);
}

sw_status form_memo_make(sw_run *run, const form_body *body, const form_memo *from, form_memo **memo)
{
    size_t faces = body->piece->face_count;
    form_memo *m = SW_SCRATCH(run, 1, form_memo);
    if (m == NULL) return SW_NO_MEMORY;
    m->keys = SW_SCRATCH(run, MEMO_ROOM, uint64_t);
    m->found = SW_SCRATCH(run, MEMO_ROOM, unsigned char);
    m->thing = SW_SCRATCH(run, MEMO_ROOM, unsigned char);
    m->units = SW_SCRATCH(run, faces, unsigned char);
    m->pairs = SW_SCRATCH(run, faces * faces, unsigned char);
    m->paired = SW_SCRATCH(run, faces, unsigned char);
    bool good = m->keys != NULL && m->found != NULL && m->thing != NULL && m->units != NULL && m->pairs != NULL;
    if (!good || m->paired == NULL) return SW_NO_MEMORY;
    if (from != NULL) take_pairs(m, from);
    *memo = m;
    return SW_OK;
}

static bool hangs(const form_body *body, int line, int face)
{
    return (body->route[face] >> line & 1u) != 0;
}

/* Fills what must be looked at. False: something is known to clash. */
static bool asked_of(const stroke *s, form_clash *clash)
{
    form_memo *m = s->job->memo;
    size_t faces = s->job->body->piece->face_count;
    sw_form_thing thing = SW_FORM_SHEET;
    m->ask_units = m->ask_pairs = false;
    memset(m->pairs, 0, faces * faces);
    memset(m->paired, 0, faces);
    for (size_t a = 0; a < faces; a++) {
        int known = recall(m, key_of(s, (int)a, -1), &thing);
        if (known == IS_BLOCKED) {
            *clash = (form_clash){1.0, (int)a, -1, thing};
            return false;
        }
        m->units[a] = known == NOT_KNOWN;
        m->ask_units = m->ask_units || known == NOT_KNOWN;
        for (size_t b = 0; b < faces && hangs(s->job->body, s->line, (int)a); b++) {
            if (hangs(s->job->body, s->line, (int)b)) continue;
            known = recall(m, key_of(s, (int)a, (int)b), &thing);
            if (known == IS_BLOCKED) {
                *clash = (form_clash){1.0, (int)a, (int)b, thing};
                return false;
            }
            if (known == NOT_KNOWN) m->pairs[a * faces + b] = m->paired[a] = m->paired[b] = 1;
            m->ask_pairs = m->ask_pairs || known == NOT_KNOWN;
        }
    }
    return true;
}

static void all_clear(const stroke *s)
{
    form_memo *m = s->job->memo;
    size_t faces = s->job->body->piece->face_count;
    for (size_t a = 0; a < faces; a++) {
        if (m->units[a] != 0) remember(m, key_of(s, (int)a, -1), IS_CLEAR, SW_FORM_SHEET);
        for (size_t b = 0; b < faces; b++)
            if (m->pairs[a * faces + b] != 0) remember(m, key_of(s, (int)a, (int)b), IS_CLEAR, SW_FORM_SHEET);
    }
}

/* ---- what is looked at ---- */

/* The zone under the punch and, where it flattens, its legs touch the tools by their task. */
static bool at_work(const form_body *body, const form_line *line, const form_slab *s, sw_form_stroke kind)
{
    int faces = (int)body->piece->face_count;
    for (size_t i = 0; i < line->count; i++) {
        const sw_bend *b = &body->piece->bends[line->bends[i]];
        if (s->part == faces + line->bends[i]) return true;
        if (kind != SW_FORM_BEND && kind != SW_FORM_PREBEND && (s->part == b->child || s->part == b->parent))
            return true;
    }
    return false;
}

static void against_tools(form_job *job, const form_line *line, form_tooling with, size_t count, form_clash *worst)
{
    form_slab tools[FORM_TOOLS];
    size_t n = form_tools(job, line, with, tools);
    for (size_t i = 0; i < count; i++) {
        const form_slab *s = &job->slabs[i];
        if (s->high_mm - s->low_mm < job->opt->contact_mm || at_work(job->body, line, s, with.stroke)) continue;
        for (size_t k = 0; k < n; k++) {
            double depth_mm = form_overlap_mm(s, &tools[k]);
            if (depth_mm > fmax(job->opt->contact_mm, worst->depth_mm))
                *worst = (form_clash){depth_mm, s->part, -1, tools[k].thing};
        }
    }
}

/* Parts joined by a bend meet by their nature. */
static bool joined(const form_body *body, int a, int b)
{
    int faces = (int)body->piece->face_count;
    if (a > b) return joined(body, b, a);
    if (b >= faces) { /* a zone with its faces; two zones on one face without room between them */
        const sw_bend *z = &body->piece->bends[b - faces];
        if (a < faces) return z->parent == a || z->child == a;
        const sw_bend *y = &body->piece->bends[a - faces];
        return z->parent == y->child || y->parent == z->child;
    }
    return (body->bend_of[b] >= 0 && body->piece->bends[body->bend_of[b]].parent == a) ||
           (body->bend_of[a] >= 0 && body->piece->bends[body->bend_of[a]].parent == b);
}

/* Chords stick out of the arcs they stand for, so parts must share more than half a thickness along the bend to meet. */
static void against_itself(form_job *job, size_t count, form_clash *worst)
{
    double contact_mm = job->opt->contact_mm, along_mm = job->body->piece->thickness_mm / 2.0;
    for (size_t i = 0; i < count; i++) {
        const form_slab *a = &job->slabs[i];
        for (size_t k = 0; k < count && a->moves; k++) {
            const form_slab *b = &job->slabs[k];
            if (b->moves || fmin(a->high_mm, b->high_mm) - fmax(a->low_mm, b->low_mm) < along_mm) continue;
            double depth_mm = form_overlap_mm(a, b);
            if (depth_mm > fmax(contact_mm, worst->depth_mm) && !joined(job->body, a->part, b->part))
                *worst = (form_clash){depth_mm, a->part, b->part, SW_FORM_SHEET};
        }
    }
}

static bool clear_at(const stroke *s, form_pose pose, form_tooling with, form_clash *worst)
{
    form_job *job = s->job;
    const form_memo *memo = job->memo;
    const form_line *line = &job->body->lines[pose.line];
    *worst = (form_clash){.depth_mm = 0.0};
    pose.share = with.share;
    if (memo == NULL || memo->ask_units) {
        pose.clip_low_mm = line->from_mm;
        pose.clip_high_mm = line->to_mm;
        size_t count = form_section(job, &pose, memo == NULL ? NULL : memo->units);
        against_tools(job, line, with, count, worst);
    }
    if (worst->depth_mm > 0.0) return false;
    if (pose.share <= 0.0 || with.stroke != SW_FORM_BEND || (memo != NULL && !memo->ask_pairs)) return true;
    pose.clip_low_mm = -INFINITY;
    pose.clip_high_mm = INFINITY;
    size_t count = form_section(job, &pose, memo == NULL ? NULL : memo->paired);
    against_itself(job, count, worst);
    return worst->depth_mm <= 0.0;
}

/* The end of the stroke first: most clashes are there. */
static bool looked_at(const stroke *s, form_clash *clash)
{
    form_job *job = s->job;
    const form_line *l = &job->body->lines[s->line];
    form_pose pose = {.made = s->made, .line = s->line, .level = l->kind == SW_FORM_JOGGLE};
    int steps = l->kind == SW_FORM_JOGGLE ? 1 : (int)ceil(l->set_rad / sw_rad_from_deg(job->opt->step_deg));
    job->looked++;
    for (int i = steps; i >= 0; i--) {
        form_tooling with = {l->kind, s->punch, form_share_set(l) * i / steps};
        if (!clear_at(s, pose, with, clash)) return false;
    }
    if (l->kind != SW_FORM_PREBEND) return true;
    pose.level = true;
    return clear_at(s, pose, (form_tooling){SW_FORM_FLATTEN, SW_FORM_FLAT, 1.0}, clash);
}

bool form_stroke_clear(form_job *job, uint32_t made, int line, sw_form_punch punch, form_clash *clash)
{
    stroke s = {job, made, line, punch};
    if (job->memo == NULL) return looked_at(&s, clash);
    if (!asked_of(&s, clash)) return false;
    if (!job->memo->ask_units && !job->memo->ask_pairs) return true;
    if (looked_at(&s, clash)) {
        all_clear(&s);
        return true;
    }
    int a = form_unit_of(job->body, clash->part), b = clash->other < 0 ? -1 : form_unit_of(job->body, clash->other);
    remember(job->memo, key_of(&s, a, b), IS_BLOCKED, clash->thing);
    return false;
}
