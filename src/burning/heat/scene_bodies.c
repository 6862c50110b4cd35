/* scene_bodies.c: every placed piece and item as a body: role, material, mass; and the parts of the scene made of
 * those that are not small. */
#include "burning/heat/scene_parts.h"

#include <math.h>

#define INSULATING 2.0 /* W/(m K): boards and bricks conduct less, metals ten times more */

/* A conductivity for the question whether a part insulates; any temperature would do. */
static bool insulates(const sw_material *m)
{
    return sw_material_conductivity(m, sw_k_from_c(500.0)) < INSULATING;
}

static sw_status find_role(sw_run *run, scene_job *job, scene_body *b, const char *word)
{
    b->role = scene_role_find(word);
    if (b->role == NULL) {
        const char *what =
            sw_text_format(run, run->keep, "role \"%s\" is not known to heat: counted as \"other\"", word);
        b->role = scene_role_find("other");
        scene_remark r = {"role", b->name, b->place, SW_UNKNOWN, what, "give one of the roles of docs/description.md"};
        if (b->placement == 0) SW_TRY(scene_note(run, job, r));
    }
    b->kind = b->role->kind;
    return SW_OK;
}

static sw_status find_material(sw_run *run, scene_job *job, scene_body *b, const char *name)
{
    b->material = sw_material_find(name);
    const char *fault = b->material == NULL                ? "is not known: taken as S235"
                        : !(b->material->emissivity > 0.0) ? "has no known emissivity: taken as 0.9"
                                                           : NULL;
    if (fault != NULL && b->kind != SW_PART_SMALL && b->placement == 0) {
        const char *what = sw_text_format(run, run->keep, "material \"%s\" %s", name, fault);
        scene_remark r = {"material", b->name, b->place, SW_UNKNOWN, what, "name a material that the program knows"};
        SW_TRY(scene_note(run, job, r));
    }
    if (b->material == NULL) b->material = sw_material_find("S235");
    b->layered = b->thickness_m > job->opt->layered_above_m && insulates(b->material);
    return SW_OK;
}

static sw_status name_body(sw_run *run, scene_body *b, const char *name, size_t count)
{
    b->name = name;
    if (count > 1) b->name = sw_text_format(run, run->keep, "%s %zu", name, b->placement + 1);
    return b->name == NULL ? SW_NO_MEMORY : SW_OK;
}

static sw_status add_piece(sw_run *run, scene_job *job, size_t i, size_t placement)
{
    const sw_piece *p = &job->stove->pieces[i];
    const sw_sheet_piece *s = &job->sheet->pieces[i];
    scene_body *b = &job->bodies[job->body_count++];
    *b = (scene_body){.group = p->group,
                      .piece = (int)i,
                      .item = -1,
                      .placement = placement,
                      .thickness_m = sw_m_from_mm(p->thickness_mm),
                      .mass_kg = s->mass_kg,
                      .area_m2 = sw_m2_from_mm2(s->solid.mid_area_mm2),
                      .frame = p->placements[placement],
                      .part = SCENE_NONE,
                      .place = p->place};
    SW_TRY(name_body(run, b, p->name, p->count));
    SW_TRY(find_role(run, job, b, p->role));
    return find_material(run, job, b, p->grade == NULL ? "" : p->grade->name);
}

static sw_status add_item(sw_run *run, scene_job *job, size_t i, size_t placement)
{
    const sw_item *q = &job->stove->items[i];
    scene_body *b = &job->bodies[job->body_count++];
    *b = (scene_body){.group = q->group,
                      .piece = -1,
                      .item = (int)i,
                      .placement = placement,
                      .thickness_m = sw_m_from_mm(q->thickness_mm),
                      .mass_kg = q->mass_kg,
                      .area_m2 = sw_m2_from_mm2(sw_region_area(&q->shape)),
                      .frame = q->placements[placement],
                      .middle_mm = q->thickness_mm / 2.0,
                      .part = SCENE_NONE,
                      .place = q->place};
    SW_TRY(name_body(run, b, q->name, q->count));
    SW_TRY(find_role(run, job, b, q->role));
    return find_material(run, job, b, q->material);
}

sw_status scene_bodies(sw_run *run, scene_job *job)
{
    const sw_stove *stove = job->stove;
    SW_ASSERT(job->sheet->piece_count == stove->piece_count);
    size_t count = 0;
    for (size_t i = 0; i < stove->piece_count; i++) count += stove->pieces[i].count;
    for (size_t i = 0; i < stove->item_count; i++) count += stove->items[i].count;
    job->bodies = SW_SCRATCH(run, count + 1, scene_body);
    job->piece_first = SW_SCRATCH(run, stove->piece_count + 1, size_t);
    if (job->bodies == NULL || job->piece_first == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->piece_count; i++) {
        job->piece_first[i] = job->body_count;
        for (size_t k = 0; k < stove->pieces[i].count; k++) SW_TRY(add_piece(run, job, i, k));
    }
    for (size_t i = 0; i < stove->item_count; i++)
        for (size_t k = 0; k < stove->items[i].count; k++) SW_TRY(add_item(run, job, i, k));
    return SW_OK;
}
