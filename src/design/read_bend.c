/* read_bend.c: the bends of a face as declared, with the short forms joggle and hem. */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

enum { MOST_BENDS = 200 };

static const char *const kind_words[] = {"press", "roll", "hem", NULL};
static const char *const relief_words[] = {"round", "square", "none", NULL};
static const char *const dims_words[] = {"outside", "tangent", NULL};
static const char *const side_words[] = {"front", "rear", NULL};

/* Keys that joggle {...} and hem {...} leave in their table: addresses no description can write. */
static char form_key, line_key;

#define LENGTH(member, label, least, most)                                                                             \
    {                                                                                                                  \
        .name = label, .kind = DESIGN_LENGTH, .offset = offsetof(design_bend, member), .low = least, .high = most      \
    }
#define ANGLE(member, label, least, most)                                                                              \
    {                                                                                                                  \
        .name = label, .kind = DESIGN_ANGLE, .offset = offsetof(design_bend, member), .low = least, .high = most       \
    }
#define WORD(member, list)                                                                                             \
    {                                                                                                                  \
        .name = #member, .kind = DESIGN_WORD, .offset = offsetof(design_bend, member), .words = list                   \
    }
#define ON                                                                                                             \
    {                                                                                                                  \
        .name = "on", .kind = DESIGN_TEXT, .offset = offsetof(design_bend, on), .needed = true                         \
    }
#define WHERE                                                                                                          \
    LENGTH(from_mm, "from", 0.0, 2e4), LENGTH(to_mm, "to", 0.0, 2e4), LENGTH(gap_start_mm, "gap_start", 0.0, 2e4),     \
        LENGTH(gap_end_mm, "gap_end", 0.0, 2e4), WORD(relief, relief_words),                                           \
        LENGTH(relief_width_mm, "relief_width", 0.1, 500.0), LENGTH(relief_depth_mm, "relief_depth", 0.1, 500.0),      \
        {.name = "name", .kind = DESIGN_TEXT, .offset = offsetof(design_bend, name)},                                  \
        {.name = "k", .kind = DESIGN_NUMBER, .offset = offsetof(design_bend, k), .low = 0.05, .high = 0.6},            \
    {                                                                                                                  \
        .name = "face", .kind = DESIGN_BY_HAND                                                                         \
    }

static const design_field plain_fields[] = {
    ON,
    WHERE,
    ANGLE(angle_rad, "angle", -2 * SW_PI, 2 * SW_PI),
    LENGTH(radius_mm, "radius", 0.0, 1e4),
    LENGTH(height_mm, "height", 0.0, 1e4),
    WORD(dims, dims_words),
    WORD(kind, kind_words),
    ANGLE(slope_start_rad, "slope_start", -1.4, 1.4),
    ANGLE(slope_end_rad, "slope_end", -1.4, 1.4),
    LENGTH(corner_mm, "corner", 0.0, 1e4),
    {.name = "holes", .kind = DESIGN_BY_HAND},
};
static const design_field joggle_fields[] = {
    ON,
    WHERE,
    {.name = "offset",
     .kind = DESIGN_LENGTH,
     .offset = offsetof(design_bend, offset_mm),
     .needed = true,
     .low = -500.0,
     .high = 500.0},
    ANGLE(angle_rad, "angle", 0.01, SW_PI / 2),
    LENGTH(radius_mm, "radius", 0.0, 1e4),
    LENGTH(length_mm, "length", 0.0, 1e4),
};
static const design_field hem_fields[] = {
    ON,
    WHERE,
    {.name = "height",
     .kind = DESIGN_LENGTH,
     .offset = offsetof(design_bend, height_mm),
     .needed = true,
     .low = 0.1,
     .high = 1e3},
    LENGTH(gap_mm, "gap", 0.0, 100.0),
    WORD(side, side_words),
};

static design_bend fresh(const design_scope *s, design_form form)
{
    return (design_bend){.form = form,
                         .on = "",
                         .name = "",
                         .from_mm = NAN,
                         .to_mm = NAN,
                         .angle_rad = form == DESIGN_JOGGLE ? SW_PI / 4 : SW_PI / 2,
                         .radius_mm = NAN,
                         .height_mm = NAN,
                         .relief_width_mm = NAN,
                         .relief_depth_mm = NAN,
                         .gap_start_mm = NAN,
                         .gap_end_mm = NAN,
                         .k = NAN,
                         .length_mm = 20.0,
                         .kind = form == DESIGN_HEM ? SW_HEMMED : SW_PRESSED,
                         .dims = DESIGN_DIMS_BY_KIND,
                         .at = *s};
}

/* ---- holes anchored round the zone ---- */

static bool read_zone_hole(const design_scope *s, design_zone_hole *hole)
{
    static const design_field fields[] = {
        {.name = "hole", .kind = DESIGN_BY_HAND, .position = 1},
        {.name = "along",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(design_zone_hole, along_mm),
         .needed = true,
         .low = 0.0,
         .high = 2e4},
        {.name = "angle",
         .kind = DESIGN_ANGLE,
         .offset = offsetof(design_zone_hole, angle_rad),
         .needed = true,
         .low = 0.0,
         .high = 2 * SW_PI},
    };
    lua_State *L = s->d->L;
    if (!lua_istable(L, s->table)) {
        design_fault(s, "", "is %s, but { hole {...}, along = 30*mm, angle = 45*deg } is needed",
                     design_describe(s, s->table));
        return false;
    }
    bool good = design_read_fields(s, fields, DESIGN_COUNT_OF(fields), false, hole);
    (void)lua_geti(L, s->table, 1);
    hole->cuts = design_box(L, -1, DESIGN_CUTS_BOX);
    if (hole->cuts == NULL)
        design_fault(s, "[1]", "is %s, but a hole, slot or window is needed", design_describe(s, -1));
    lua_pop(L, 1);
    return good && hole->cuts != NULL && !hole->cuts->bad;
}

static bool read_zone_holes(const design_scope *s, design_bend *bend)
{
    lua_State *L = s->d->L;
    int type = lua_getfield(L, s->table, "holes");
    design_scope list = design_within(s, "holes", 0);
    bool good = type == LUA_TNIL || type == LUA_TTABLE;
    if (!good) design_fault(s, "holes", "is %s, but a list in braces is needed", design_describe(s, list.table));
    size_t n = type == LUA_TTABLE ? lua_rawlen(L, -1) : 0;
    bend->holes = DESIGN_TAKE(s->d, n, design_zone_hole);
    for (size_t i = 1; i <= n; i++) {
        (void)lua_geti(L, list.table, (lua_Integer)i);
        design_scope inner = design_within(s, "holes", i);
        if (read_zone_hole(&inner, &bend->holes[bend->hole_count]))
            bend->hole_count++;
        else
            good = false;
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
    return good;
}

/* ---- one bend ---- */

static bool read_child(const design_scope *s, design_bend *bend, int depth)
{
    lua_State *L = s->d->L;
    int type = lua_getfield(L, s->table, "face");
    bool good = true;
    if (type != LUA_TNIL) {
        design_scope inner = design_within(s, "face", 0);
        bend->face = design_read_face(&inner, depth + 1);
        good = bend->face != NULL && !bend->face->bad;
    }
    lua_pop(L, 1);
    return good;
}

static design_form form_of(lua_State *L, int table, int *line)
{
    lua_rawgetp(L, table, &form_key);
    design_form form = (design_form)lua_tointeger(L, -1);
    lua_rawgetp(L, table, &line_key);
    if (form != DESIGN_PLAIN) *line = (int)lua_tointeger(L, -1);
    lua_pop(L, 2);
    return form;
}

static bool read_bend(design_scope *s, design_bend *bend, int depth)
{
    lua_State *L = s->d->L;
    design_form form = form_of(L, s->table, &s->place.line);
    *bend = fresh(s, form);
    bool good;
    if (form == DESIGN_JOGGLE)
        good = design_read_fields(s, joggle_fields, DESIGN_COUNT_OF(joggle_fields), false, bend);
    else if (form == DESIGN_HEM)
        good = design_read_fields(s, hem_fields, DESIGN_COUNT_OF(hem_fields), false, bend);
    else
        good =
            design_read_fields(s, plain_fields, DESIGN_COUNT_OF(plain_fields), false, bend) && read_zone_holes(s, bend);
    if (!read_child(s, bend, depth)) good = false;
    bool roll = bend->kind == SW_ROLLED;
    if (bend->dims == DESIGN_DIMS_BY_KIND) bend->dims = roll || form == DESIGN_JOGGLE ? DESIGN_TANGENT : DESIGN_OUTSIDE;
    double most_rad = roll ? 2 * SW_PI : SW_PI;
    if (good && (fabs(bend->angle_rad) > most_rad + 1e-9 || fabs(bend->angle_rad) < 1e-4)) {
        design_fault(s, "angle", "is %g deg, allowed is more than 0 up to %g deg either way for a %s",
                     sw_deg_from_rad(bend->angle_rad), sw_deg_from_rad(most_rad), roll ? "roll" : "bend");
        good = false;
    }
    return good;
}

design_bend *design_read_bends(const design_scope *s, int depth, size_t *count)
{
    lua_State *L = s->d->L;
    int type = lua_getfield(L, s->table, "bends");
    design_scope list = design_within(s, "bends", 0);
    *count = 0;
    if (type != LUA_TNIL && type != LUA_TTABLE)
        design_fault(s, "bends", "is %s, but a list in braces is needed, e.g. { { on = \"left\", height = 30*mm } }",
                     design_describe(s, list.table));
    if (type == LUA_TTABLE) (void)design_read_fields(&list, NULL, 0, true, NULL);
    size_t n = type == LUA_TTABLE ? lua_rawlen(L, list.table) : 0;
    if (n > MOST_BENDS) {
        design_fault(s, "bends", "has %zu bends, allowed is %d at most", n, MOST_BENDS);
        n = 0;
    }
    design_bend *bends = DESIGN_TAKE(s->d, n, design_bend);
    for (size_t i = 1; i <= n; i++) {
        (void)lua_geti(L, list.table, (lua_Integer)i);
        design_scope inner = design_within(s, "bends", i);
        if (!lua_istable(L, -1))
            design_fault(&inner, "", "is %s, but a bend is needed, e.g. { on = \"left\", height = 30*mm }",
                         design_describe(s, inner.table));
        else if (read_bend(&inner, &bends[*count], depth))
            (*count)++;
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
    return bends;
}

/* ---- short forms ---- */

static int short_form(lua_State *L, const char *word, design_form form)
{
    design_scope s;
    if (!design_open(L, "", word, &s)) return 0;
    lua_pushinteger(L, form);
    lua_rawsetp(L, 1, &form_key);
    lua_pushinteger(L, s.place.line);
    lua_rawsetp(L, 1, &line_key);
    return 1; /* the table itself, marked */
}

int design_joggle_call(lua_State *L)
{
    return short_form(L, "joggle", DESIGN_JOGGLE);
}
int design_hem_call(lua_State *L)
{
    return short_form(L, "hem", DESIGN_HEM);
}
