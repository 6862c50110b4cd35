/* scene_ask.c: small questions about a scene. */
#include "burning/heat/heat.h"

bool sw_scene_shows(const sw_scene *scene, size_t part, sw_medium medium)
{
    for (size_t i = 0; i < scene->surface_count; i++)
        if (scene->surfaces[i].part == part && scene->surfaces[i].medium == medium) return true;
    return false;
}

double sw_scene_shown_m2(const sw_scene *scene, size_t part, sw_medium medium)
{
    double area_m2 = 0;
    for (size_t i = 0; i < scene->surface_count; i++)
        if (scene->surfaces[i].part == part && scene->surfaces[i].medium == medium)
            area_m2 += scene->surfaces[i].area_m2;
    return area_m2;
}
