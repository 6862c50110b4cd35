/* sheet_lift_parts.c: what hangs on the hook in a step of lifting, as parts for pictures. */
#include "papers/sheets_parts.h"

#include <string.h>

bool lift_is_flat(const sw_lift_step *s)
{
    return s->kind == SW_LIFT_SHEET || s->kind == SW_LIFT_FLAT;
}

/* ---- what hangs there ---------------------------------------------------------------------------------------------------- */

static size_t group_index(const sw_stove *stove, const char *name)
{
    for (size_t i = 0; i < stove->group_count; i++)
        if (strcmp(stove->groups[i].name, name) == 0) return i;
    return stove->group_count;
}

sw_vec3 lift_placed(const solid_part *p, size_t i)
{
    return sw_frame_point(p->frame, p->mesh.points[i]);
}

static bool within(const solid_part *p, const sw_lift_box *b)
{
    const double spare_mm = 1;
    for (size_t i = 0; i < p->mesh.point_count; i++) {
        sw_vec3 q = lift_placed(p, i);
        if (q.x_mm < b->low.x_mm - spare_mm || q.x_mm > b->high.x_mm + spare_mm || q.y_mm < b->low.y_mm - spare_mm ||
            q.y_mm > b->high.y_mm + spare_mm || q.z_mm < b->low.z_mm - spare_mm || q.z_mm > b->high.z_mm + spare_mm)
            return false;
    }
    return true;
}

/* ---- what seams hold together, by number of the part ---- */

static size_t part_of(const stove_view *view, const sw_joint_end *end)
{
    int before = 0;
    for (size_t i = 0; i < view->part_count; i++)
        if (view->parts[i].tag == end->piece && before++ == end->placement) return i;
    return view->part_count;
}

static size_t root_of(const size_t *up, size_t i)
{
    while (up[i] != i) i = up[i];
    return i;
}

/* up[part_count]: parts of one body have one root. */
static void join_parts(const sw_stove *stove, const stove_view *view, size_t *up)
{
    for (size_t i = 0; i < view->part_count; i++) up[i] = i;
    for (size_t k = 0; k < stove->joint_count; k++) {
        const sw_joint *j = &stove->joints[k];
        size_t a = part_of(view, &j->a), b = part_of(view, &j->b);
        if (j->seam == SW_SEAM_NONE || a == view->part_count || b == view->part_count) continue;
        up[root_of(up, a)] = root_of(up, b);
    }
}

/* Root of the heaviest body of sheet. */
static size_t heaviest(const doc_book *doc, const size_t *up, double *mass_kg)
{
    const stove_view *view = &doc->desk->assembled;
    size_t best = 0;
    for (size_t i = 0; i < view->part_count; i++)
        if (view->parts[i].tag >= 0) mass_kg[root_of(up, i)] += doc->d->sheet->pieces[view->parts[i].tag].mass_kg;
    for (size_t i = 0; i < view->part_count; i++)
        if (mass_kg[i] > mass_kg[best]) best = i;
    return best;
}

static sw_status welded(sw_run *run, const doc_book *doc, bool *in)
{
    const stove_view *view = &doc->desk->assembled;
    size_t *up = SW_SCRATCH(run, view->part_count + 1, size_t);
    double *mass_kg = SW_SCRATCH(run, view->part_count + 1, double);
    if (up == NULL || mass_kg == NULL) return SW_NO_MEMORY;
    join_parts(doc->d->model.stove, view, up);
    size_t body = heaviest(doc, up, mass_kg);
    for (size_t i = 0; i < view->part_count; i++) in[i] = root_of(up, i) == body;
    return SW_OK;
}

/* A subassembly by its name, grown ones by those before; else what lies within the load's box. */
static bool hangs(const sw_stove *stove, const sw_lift_result *r, size_t step, const solid_part *p)
{
    const sw_lift_step *s = &r->steps[step];
    const char *name = p->tag >= 0 ? stove->pieces[p->tag].group : stove->items[-1 - p->tag].group;
    if (s->kind == SW_LIFT_GROUP) return strcmp(name, s->load) == 0;
    if (s->kind == SW_LIFT_GROWN && step > 0)
        return group_index(stove, name) <= group_index(stove, r->steps[step - 1].load);
    return within(p, &s->box);
}

/* Which parts of the assembled view hang there. */
static sw_status members(sw_run *run, const doc_book *doc, size_t step, bool *in)
{
    const sw_lift_result *r = doc->d->shop.lift;
    const stove_view *view = &doc->desk->assembled;
    sw_lift_kind kind = r->steps[step].kind;
    if (kind == SW_LIFT_POSITIONER || kind == SW_LIFT_BLAST) return welded(run, doc, in);
    for (size_t i = 0; i < view->part_count; i++) in[i] = hangs(doc->d->model.stove, r, step, &view->parts[i]);
    return SW_OK;
}

size_t lift_piece_named(const sw_stove *stove, const char *name)
{
    size_t i = 0;
    while (i < stove->piece_count && strcmp(stove->pieces[i].name, name) != 0) i++;
    return i;
}

sw_status lift_parts(sw_run *run, const doc_book *doc, size_t step, solid_part **out, size_t *count)
{
    const sw_lift_result *r = doc->d->shop.lift;
    const sw_lift_step *s = &r->steps[step];
    const sw_stove *stove = doc->d->model.stove;
    const stove_view *view = &doc->desk->assembled;
    *count = 0;
    *out = SW_SCRATCH(run, view->part_count + 1, solid_part);
    if (*out == NULL) return SW_NO_MEMORY;
    if (lift_is_flat(s)) return SW_OK;
    if (s->kind == SW_LIFT_PRESS || s->kind == SW_LIFT_ROLLS) {
        size_t piece = lift_piece_named(stove, s->load);
        const sw_frame own = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0, 0, 0}};
        if (piece == stove->piece_count || doc->desk->shapes[piece] == NULL) return SW_OK;
        (*out)[(*count)++] = (solid_part){.mesh = doc->d->sheet->pieces[piece].solid.mesh,
                                          .shape = doc->desk->shapes[piece],
                                          .frame = own,
                                          .colour = look_group(0)};
        return SW_OK;
    }
    bool *in = SW_SCRATCH(run, view->part_count + 1, bool);
    if (in == NULL) return SW_NO_MEMORY;
    SW_TRY(members(run, doc, step, in));
    for (size_t i = 0; i < view->part_count; i++) {
        if (view->parts[i].shape == NULL || !in[i]) continue;
        (*out)[*count] = view->parts[i];
        (*out)[(*count)++].shift_mm = (sw_vec3){0, 0, 0};
    }
    return SW_OK;
}
