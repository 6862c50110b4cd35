/* scene_findings.c: what the scene shows to be wrong with the description. */
#include "burning/heat/scene_parts.h"

#include <math.h>

sw_status scene_note(sw_run *run, scene_job *job, scene_remark r)
{
    if (r.what == NULL) return SW_NO_MEMORY;
    sw_finding f = {.study = "heat",
                    .check = r.check,
                    .what = r.what,
                    .where = r.where,
                    .sense = SW_STATED,
                    .value = (double)NAN,
                    .limit = (double)NAN,
                    .unit = "",
                    .margin = (double)NAN,
                    .verdict = r.verdict,
                    .source = "roles, materials and rays over the placed parts",
                    .remedy = r.remedy,
                    .place = r.place};
    return sw_finding_add(run, &job->scene->findings, f, 0.0);
}

static double shown_m2(const sw_scene *s, size_t part, sw_medium medium)
{
    double sum_m2 = 0;
    for (size_t i = 0; i < s->surface_count; i++)
        if (s->surfaces[i].part == part && s->surfaces[i].medium == medium) sum_m2 += s->surfaces[i].area_m2;
    return sum_m2;
}

static sw_status pane_findings(sw_run *run, scene_job *job, size_t part)
{
    const sw_scene_part *p = &job->parts[part];
    const double least = 0.5; /* of what it shows inside the stove; behind a slit it is no window. Ours */
    double fire_m2 = shown_m2(job->scene, part, SW_MEDIUM_FIRE) + shown_m2(job->scene, part, SW_MEDIUM_UPPER);
    if (!(fire_m2 > 0) || fire_m2 < least * (fire_m2 + shown_m2(job->scene, part, SW_MEDIUM_GAP)))
        SW_TRY(scene_note(run, job,
                          (scene_remark){"pane", p->name, p->place, SW_UNKNOWN, "the pane faces little or no fire",
                                         "place it in the window of its door"}));
    if (!(shown_m2(job->scene, part, SW_MEDIUM_ROOM) > 0))
        SW_TRY(scene_note(run, job,
                          (scene_remark){"pane", p->name, p->place, SW_UNKNOWN, "the pane faces no room",
                                         "place it in the window of its door"}));
    return SW_OK;
}

static sw_status part_findings(sw_run *run, scene_job *job, size_t part)
{
    const sw_scene_part *p = &job->parts[part];
    if (p->kind == SW_PART_PANE) SW_TRY(pane_findings(run, job, part));
    if (job->held[part]) return SW_OK;
    return scene_note(run, job,
                      (scene_remark){"held", p->name, p->place, SW_WATCH,
                                     "nothing touches or holds it: no heat is conducted to it",
                                     "check its place, or join it"});
}

static sw_status shapeless_findings(sw_run *run, scene_job *job)
{
    for (size_t i = 0; i < job->body_count; i++) {
        const scene_body *b = &job->bodies[i];
        if (b->mesh.triangle_count > 0 || b->role->kind == SW_PART_SMALL || b->role->kind == SW_PART_HANDLE) continue;
        SW_TRY(scene_note(run, job,
                          (scene_remark){"shape", b->name, b->place, SW_UNKNOWN,
                                         "it has no shape: its mass counts, its surface does not",
                                         "give shape and thickness"}));
    }
    return SW_OK;
}

static sw_status stove_findings(sw_run *run, scene_job *job)
{
    sw_place place = job->stove->place;
    if (isnan(job->flue.radius_mm))
        SW_TRY(scene_note(run, job,
                          (scene_remark){"flue_collar", "stove", place, SW_UNKNOWN,
                                         "no part is a flue collar: its section is unknown",
                                         "give the tube that the flue pipe is put on the role \"flue collar\""}));
    if (job->flue.blocked)
        SW_TRY(scene_note(run, job,
                          (scene_remark){"flue_collar", job->bodies[job->flue.body].name,
                                         job->bodies[job->flue.body].place, SW_FAILS,
                                         "it is blocked: nothing in the stove sees out through it",
                                         "cut its opening into what it stands on"}));
    if (isinf(job->level_mm))
        return scene_note(run, job,
                          (scene_remark){"baffle", "stove", place, SW_WATCH, "no baffle: all gas counts as firebox",
                                         "give the plate above the fire the role \"baffle\""});
    if (isnan(job->scene->throat_m2))
        return scene_note(run, job,
                          (scene_remark){"throat", "stove", place, SW_UNKNOWN,
                                         "no free section beside the lowest baffle was found",
                                         "check the place of the baffle"});
    return SW_OK;
}

/* Roles that make a firebox, for the message. */
static sw_status no_firebox(sw_run *run, const scene_job *job)
{
    const char *words = "";
    size_t count = 0;
    const scene_role *table = scene_role_table(&count);
    for (size_t i = 0; i < count && words != NULL; i++)
        if (table[i].kind == SW_PART_WALL && table[i].hint == SCENE_HOLDS)
            words = sw_text_format(run, run->scratch, "%s%s\"%s\"", words, *words == '\0' ? "" : ", ", table[i].word);
    if (words == NULL) return SW_NO_MEMORY;
    return sw_fail(run, SW_BAD_INPUT, job->stove->place, "role",
                   "no firebox: no two skins with fire gas between them; give its sheets the roles %s", words);
}

sw_status scene_findings(sw_run *run, scene_job *job)
{
    sw_scene *s = job->scene;
    bool firebox = false;
    for (size_t i = 0; i < s->surface_count; i++) firebox = firebox || s->surfaces[i].medium == SW_MEDIUM_FIRE;
    bool walls = false;
    for (size_t i = 0; i < s->part_count; i++) walls = walls || s->parts[i].kind == SW_PART_WALL;
    if (!firebox || !walls || !(s->firebox_m3 > 0.0)) return no_firebox(run, job);
    for (size_t i = 0; i < s->part_count; i++) SW_TRY(part_findings(run, job, i));
    SW_TRY(shapeless_findings(run, job));
    SW_TRY(scene_pane_findings(run, job));
    SW_TRY(stove_findings(run, job));
    sw_findings_sort(&s->findings);
    return SW_OK;
}
