/* scene_ducts.c: which air ways of a stove lead to which of its openings, by their roles and places.
 *
 * An air way leads to the highest opening of wash, jets or secondary air that lies between its foot and its head: ducts end
 * where they blow. What holds ash leads primary air alone, when an opening of it lies above its foot and no higher than the
 * grate. What holds none (air box, spigot) is not a duct here. Ours. */
#include "burning/heat/scene_parts.h"

#include <math.h>
#include <string.h>

static const double beyond_mm = 10; /* an opening may lie so far past the duct's end: a slot below its floor */

sw_duct sw_duct_of(const char *kind)
{
    if (strcmp(kind, "wash") == 0) return SW_DUCT_WASH;
    if (strcmp(kind, "rear jet") == 0 || strcmp(kind, "secondary") == 0) return SW_DUCT_JETS;
    return strcmp(kind, "primary") == 0 ? SW_DUCT_PRIMARY : SW_DUCT_NONE;
}

static bool holds_ash(const scene_body *b)
{
    return strcmp(b->role->word, "ash pan") == 0 || strcmp(b->role->word, "ash box") == 0;
}

static bool holds(const scene_job *job, const scene_body *b, const sw_opening *o)
{
    double head_mm = holds_ash(b) ? job->bed_mm : b->high.z_mm;
    return o->height_mm > b->low.z_mm - beyond_mm && o->height_mm < head_mm + beyond_mm;
}

static sw_duct duct_of(const scene_job *job, const scene_body *b)
{
    double highest_mm = -(double)INFINITY;
    sw_duct found = SW_DUCT_NONE;
    if (b->kind != SW_PART_AIRWAY || b->mesh.triangle_count == 0) return found;
    for (size_t i = 0; i < job->stove->opening_count; i++) {
        const sw_opening *o = &job->stove->openings[i];
        sw_duct duct = sw_duct_of(o->kind);
        bool leads = duct != SW_DUCT_NONE && holds_ash(b) == (duct == SW_DUCT_PRIMARY);
        if (!leads || !holds(job, b, o) || !(o->height_mm > highest_mm)) continue;
        highest_mm = o->height_mm;
        found = duct;
    }
    return found;
}

void scene_find_ducts(scene_job *job)
{
    for (size_t i = 0; i < job->body_count; i++)
        if (job->bodies[i].kind != SW_PART_SMALL) job->parts[job->bodies[i].part].duct = duct_of(job, &job->bodies[i]);
}
