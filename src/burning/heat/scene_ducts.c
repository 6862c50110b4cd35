/* scene_ducts.c: which air ways of a stove lead to which of its openings, by their roles and places.
 *
 * An air way leads to the highest opening of the fire's own air (wash, jets, secondary) that lies between its foot and its head:
 * ducts end where they blow. What holds none of them (ash box, air box, spigot) or leads primary air is not a duct here. Ours. */
#include "burning/heat/scene_parts.h"

#include <math.h>
#include <string.h>

static const double beyond_mm = 10; /* an opening may lie so far past the duct's end: a slot below its floor */

sw_duct sw_duct_of(const char *kind)
{
    if (strcmp(kind, "wash") == 0) return SW_DUCT_WASH;
    if (strcmp(kind, "rear jet") == 0 || strcmp(kind, "secondary") == 0) return SW_DUCT_JETS;
    return SW_DUCT_NONE;
}

static bool leads_air(const scene_body *b)
{
    return b->kind == SW_PART_AIRWAY && b->mesh.triangle_count > 0 && strcmp(b->role->word, "ash pan") != 0 &&
           strcmp(b->role->word, "ash box") != 0;
}

sw_duct scene_duct_of(const scene_job *job, const scene_body *b)
{
    double highest_mm = -(double)INFINITY;
    sw_duct found = SW_DUCT_NONE;
    for (size_t i = 0; leads_air(b) && i < job->stove->opening_count; i++) {
        const sw_opening *o = &job->stove->openings[i];
        sw_duct duct = sw_duct_of(o->kind);
        bool holds = o->height_mm > b->low.z_mm - beyond_mm && o->height_mm < b->high.z_mm + beyond_mm;
        if (duct == SW_DUCT_NONE || !holds || !(o->height_mm > highest_mm)) continue;
        highest_mm = o->height_mm;
        found = duct;
    }
    return found;
}
