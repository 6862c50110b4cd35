/* read_hinge.c: hinge {...}: a door that swings about an upright axis. */
#include "design/design_parts.h"

static void read_name(const design_scope *entry, size_t i, void *context)
{
    const char **names = context;
    names[i] = "";
    if (lua_type(entry->d->L, entry->table) == LUA_TSTRING)
        names[i] = design_text(entry->d, "%s", lua_tostring(entry->d->L, entry->table));
    else
        design_fault(entry, "", "is %s, but the name of a piece or item is needed, e.g. \"door\"",
                     design_describe(entry, entry->table));
}

int design_hinge_call(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "name", .kind = DESIGN_TEXT, .offset = offsetof(sw_hinge, name), .needed = true},
        {.name = "at", .kind = DESIGN_POINT, .offset = offsetof(sw_hinge, at), .needed = true},
        {DESIGN_RANGED(sw_hinge, "opens", open_rad, DESIGN_ANGLE, -3.15, 3.15), .needed = true},
        {.name = "carries", .kind = DESIGN_BY_HAND, .needed = true},
    };
    design_scope s;
    if (!design_open(L, "hinge", "", &s)) return 0;
    sw_hinge made = {.name = "", .place = s.place};
    bool good = design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &made);
    const char **names = DESIGN_TAKE(s.d, design_entries(&s, "carries") + 1, const char *);
    made.carried = design_each(&s, "carries", read_name, names);
    made.carries = names;
    if (good && made.carried == 0) design_fault(&s, "carries", "is empty; name the door and what hangs on it");
    *(sw_hinge *)design_add(s.d, &s.d->hinges, sizeof made, "hinges") = made;
    return 0;
}
