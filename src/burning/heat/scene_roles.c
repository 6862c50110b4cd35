/* scene_roles.c: which word of a role is which class of part. docs/description.md repeats the table for those who write
 * descriptions. Ours: the words are those of the demo stoves and of the trade. */
#include "burning/heat/scene_parts.h"

#include <string.h>

static const scene_role roles[] = {
    {"firebox wall", SW_PART_WALL, SCENE_HOLDS}, {"firebox floor", SW_PART_WALL, SCENE_HOLDS},
    {"firebox roof", SW_PART_WALL, SCENE_HOLDS}, {"front", SW_PART_WALL, SCENE_HOLDS},
    {"flue collar", SW_PART_WALL, SCENE_FREE},   {"oven", SW_PART_WALL, SCENE_FREE},
    {"lining", SW_PART_LINING, SCENE_FIRE},      {"insulation", SW_PART_LINING, SCENE_FREE},
    {"baffle", SW_PART_BAFFLE, SCENE_FIRE},      {"log guard", SW_PART_BAFFLE, SCENE_FIRE},
    {"grate", SW_PART_GRATE, SCENE_FIRE},        {"glass", SW_PART_PANE, SCENE_HOLDS},
    {"glazing", SW_PART_PANE, SCENE_HOLDS},      {"door", SW_PART_DOOR, SCENE_HOLDS},
    {"ash door", SW_PART_DOOR, SCENE_FREE},      {"shell", SW_PART_SHELL, SCENE_OUT},
    {"top", SW_PART_SHELL, SCENE_OUT},           {"shield", SW_PART_SHELL, SCENE_OUT},
    {"heat shield", SW_PART_SHELL, SCENE_OUT},   {"base", SW_PART_BASE, SCENE_OUT},
    {"stand", SW_PART_BASE, SCENE_OUT},          {"log tray", SW_PART_BASE, SCENE_OUT},
    {"handle", SW_PART_HANDLE, SCENE_FREE},      {"air box", SW_PART_AIRWAY, SCENE_FREE},
    {"air duct", SW_PART_AIRWAY, SCENE_FREE},    {"air way", SW_PART_AIRWAY, SCENE_FREE},
    {"ash box", SW_PART_AIRWAY, SCENE_FREE},     {"ash pan", SW_PART_AIRWAY, SCENE_FREE},
    {"air slide", SW_PART_SMALL, SCENE_FREE},    {"air control", SW_PART_SMALL, SCENE_FREE},
    {"bracket", SW_PART_SMALL, SCENE_FREE},      {"fastener", SW_PART_SMALL, SCENE_FREE},
    {"foot", SW_PART_SMALL, SCENE_FREE},         {"glass clamp", SW_PART_SMALL, SCENE_FREE},
    {"grate seat", SW_PART_SMALL, SCENE_FREE},   {"guide", SW_PART_SMALL, SCENE_FREE},
    {"gusset", SW_PART_SMALL, SCENE_FREE},       {"heat store", SW_PART_SMALL, SCENE_FREE},
    {"hinge", SW_PART_SMALL, SCENE_FREE},        {"knob", SW_PART_SMALL, SCENE_FREE},
    {"latch", SW_PART_SMALL, SCENE_FREE},        {"rope", SW_PART_SMALL, SCENE_FREE},
    {"screw", SW_PART_SMALL, SCENE_FREE},        {"support", SW_PART_SMALL, SCENE_FREE},
    {"other", SW_PART_SMALL, SCENE_FREE},
};

const scene_role *scene_role_find(const char *word)
{
    for (size_t i = 0; i < sizeof roles / sizeof *roles; i++)
        if (strcmp(roles[i].word, word) == 0) return &roles[i];
    return NULL;
}

const scene_role *scene_role_table(size_t *count)
{
    *count = sizeof roles / sizeof *roles;
    return roles;
}
