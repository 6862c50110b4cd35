/* read_place.c: where pieces and items stand. */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

enum { MOST_PLACES = 1000 };

static const char *const directions[] = {"right", "left", "back", "front", "up", "down", NULL};
static const char *const surfaces[] = {"mid", "front", "rear", NULL};

static const sw_vec3 direction_vectors[] = {{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}};

typedef struct turn {
    int axis;
    double angle_rad;
    sw_vec3 about;
} turn;

static bool read_turn(const design_scope *s, design_place *place)
{
    static const design_field fields[] = {
        {.name = "axis", .kind = DESIGN_WORD, .offset = offsetof(turn, axis), .needed = true, .words = directions},
        {.name = "angle",
         .kind = DESIGN_ANGLE,
         .offset = offsetof(turn, angle_rad),
         .needed = true,
         .low = -2 * SW_PI,
         .high = 2 * SW_PI},
        {.name = "about", .kind = DESIGN_VECTOR, .offset = offsetof(turn, about)},
    };
    lua_State *L = s->d->L;
    int type = lua_getfield(L, s->table, "turn");
    bool good = true;
    if (type != LUA_TNIL) {
        turn t = {.about = place->at};
        design_scope inner = design_within(s, "turn", 0);
        if (type == LUA_TTABLE)
            good = design_read_fields(&inner, fields, DESIGN_COUNT_OF(fields), false, &t);
        else {
            design_fault(s, "turn", "is %s, but { axis = \"up\", angle = 30*deg } is needed",
                         design_describe(s, inner.table));
            good = false;
        }
        place->turned = good;
        place->axis = direction_vectors[t.axis];
        place->angle_rad = t.angle_rad;
        place->about = t.about;
    }
    lua_pop(L, 1);
    return good;
}

static bool read_place(const design_scope *s, design_place *place)
{
    static const design_field fields[] = {
        {DESIGN_FIELD(design_place, at, DESIGN_VECTOR), .needed = true},
        {DESIGN_FIELD(design_place, x, DESIGN_WORD), .words = directions},
        {DESIGN_FIELD(design_place, y, DESIGN_WORD), .words = directions},
        {DESIGN_FIELD(design_place, surface, DESIGN_WORD), .words = surfaces},
        {DESIGN_FIELD(design_place, relative_to, DESIGN_TEXT)},
        {.name = "turn", .kind = DESIGN_BY_HAND},
    };
    *place = (design_place){.x = 0, .y = 2, .relative_to = "", .scope = *s};
    if (!lua_istable(s->d->L, s->table)) {
        design_fault(s, "", "is %s, but { at = {0*mm, 0*mm, 0*mm}, x = \"right\", y = \"up\" } is needed",
                     design_describe(s, s->table));
        return false;
    }
    if (!design_read_fields(s, fields, DESIGN_COUNT_OF(fields), false, place)) return false;
    if (!read_turn(s, place)) return false;
    if (place->x / 2 != place->y / 2) return true;
    design_fault(s, "y", "is \"%s\" while x is \"%s\": they lie along one line, but must stand square to each other",
                 directions[place->y], directions[place->x]);
    return false;
}

static bool read_list(const design_scope *s, design_place **places, size_t *count)
{
    lua_State *L = s->d->L;
    int table = lua_gettop(L);
    size_t n = lua_istable(L, table) ? lua_rawlen(L, table) : 0;
    if (n < 1 || n > MOST_PLACES) {
        design_fault(s, "places",
                     "is %s with %zu entries, but 1 to %d places in braces are needed, e.g. { {at = ...}, {at = ...} }",
                     design_describe(s, table), n, MOST_PLACES);
        return false;
    }
    *places = DESIGN_TAKE(s->d, n, design_place);
    for (size_t i = 1; i <= n; i++) {
        (void)lua_geti(L, table, (lua_Integer)i);
        design_scope inner = design_within(s, "places", i);
        if (read_place(&inner, &(*places)[*count])) (*count)++;
        lua_pop(L, 1);
    }
    return *count == n;
}

bool design_read_places(const design_scope *s, design_place **places, size_t *count)
{
    lua_State *L = s->d->L;
    *places = NULL;
    *count = 0;
    bool single = lua_getfield(L, s->table, "place") != LUA_TNIL, good;
    bool several = lua_getfield(L, s->table, "places") != LUA_TNIL;
    if (single == several) {
        design_fault(
            s, "place",
            single
                ? "and places are both given; give one of them"
                : "is missing: say where it stands, e.g. place = { at = {0*mm, 0*mm, 0*mm}, x = \"right\", y = \"up\" }");
        good = false;
    } else if (several)
        good = read_list(s, places, count);
    else {
        lua_pop(L, 1);
        design_scope inner = design_within(s, "place", 0);
        *places = DESIGN_TAKE(s->d, 1, design_place);
        good = read_place(&inner, *places);
        if (good) *count = 1;
        lua_pushnil(L);
    }
    lua_pop(L, 2);
    return good;
}

sw_frame design_place_frame(const design_place *p, double thickness_mm, sw_frame base)
{
    sw_frame f = {.x = direction_vectors[p->x], .y = direction_vectors[p->y], .origin = p->at};
    f.z = sw_vec3_cross(f.x, f.y);
    double up_mm = p->surface == 1 ? -thickness_mm / 2.0 : p->surface == 2 ? thickness_mm / 2.0 : 0.0;
    f.origin = sw_vec3_add(f.origin, sw_vec3_scaled(f.z, up_mm));
    if (p->turned) {
        f.origin = sw_vec3_sub(f.origin, p->about);
        f = sw_frame_turned(f, p->axis, p->angle_rad);
        f.origin = sw_vec3_add(f.origin, p->about);
    }
    return sw_frame_in(base, f);
}
