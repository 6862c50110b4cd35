/* read_stove.c: stove {...}, parameter(...), group(...), opening {...}. */
#include "design/design_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *const opening_words[] = {"primary", "secondary", "wash", "rear jet", NULL};

/* ---- stove ---- */

static void read_duty(const design_scope *s, sw_duty *duty)
{
    static const design_field fields[] = {
        {.name = "output",
         .kind = DESIGN_POWER,
         .offset = offsetof(sw_duty, output_w),
         .needed = true,
         .low = 500.0,
         .high = 50e3},
        {.name = "refuel",
         .kind = DESIGN_TIME,
         .offset = offsetof(sw_duty, refuel_s),
         .needed = true,
         .low = 60.0 * 5,
         .high = 60.0 * 60.0 * 12},
        {.name = "efficiency",
         .kind = DESIGN_NUMBER,
         .offset = offsetof(sw_duty, efficiency),
         .needed = true,
         .low = 0.1,
         .high = 1.0},
        {.name = "fuel", .kind = DESIGN_TEXT, .offset = offsetof(sw_duty, fuel)},
    };
    lua_State *L = s->d->L;
    int type = lua_getfield(L, s->table, "duty");
    *duty = (sw_duty){.fuel = "beech logs"};
    design_scope inner = design_within(s, "duty", 0);
    if (type == LUA_TTABLE)
        (void)design_read_fields(&inner, fields, DESIGN_COUNT_OF(fields), false, duty);
    else
        design_fault(s, "duty", "is %s, but { output = 7*kW, refuel = 45*min, efficiency = 0.8 } is needed",
                     type == LUA_TNIL ? "missing" : design_describe(s, inner.table));
    lua_pop(L, 1);
}

static int make_stove(lua_State *L)
{
    static const design_field fields[] = {
        {DESIGN_FIELD(sw_stove, name, DESIGN_TEXT), .needed = true},
        {DESIGN_FIELD(sw_stove, title, DESIGN_TEXT)},
        {DESIGN_FIELD(sw_stove, note, DESIGN_TEXT)},
        {.name = "duty", .kind = DESIGN_BY_HAND},
    };
    design_scope s;
    if (!design_open(L, "stove", "", &s)) return 0;
    design *d = s.d;
    if (d->has_stove) {
        design_fault(&s, "", "is described a second time; the first stands in line %d", d->stove.place.line);
        return 0;
    }
    d->has_stove = true;
    d->stove = (sw_stove){.name = "", .title = "", .note = "", .place = s.place};
    (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &d->stove);
    read_duty(&s, &d->stove.duty);
    return 0;
}

/* ---- parameter ---- */

typedef struct parameter_call {
    design_scope scope;
    const char *name, *meaning;
    design_quantity preset, low, high, value;
} parameter_call;

static bool read_bound(parameter_call *c, const char *name, design_quantity *bound)
{
    lua_State *L = c->scope.d->L;
    bool good = true;
    if (lua_getfield(L, 3, name) != LUA_TNIL) {
        design_quantity q;
        good = design_to_quantity(L, -1, &q) && design_same_kind(&q, &c->preset) && !isnan(q.value);
        if (good)
            *bound = q;
        else
            design_fault(&c->scope, name, "is %s, but the same kind as the value is needed",
                         design_describe(&c->scope, -1));
    }
    lua_pop(L, 1);
    return good;
}

static bool read_bounds(parameter_call *c)
{
    static const design_field fields[] = {{.name = "min", .kind = DESIGN_BY_HAND},
                                          {.name = "max", .kind = DESIGN_BY_HAND}};
    lua_State *L = c->scope.d->L;
    c->low = c->high = c->preset;
    c->low.value = -INFINITY;
    c->high.value = INFINITY;
    if (lua_isnil(L, 3)) return true;
    if (!lua_istable(L, 3)) {
        design_fault(&c->scope, "",
                     "the third argument is %s, but bounds are needed, e.g. { min = 340*mm, max = 520*mm }",
                     design_describe(&c->scope, 3));
        return false;
    }
    design_scope bounds = c->scope;
    bounds.table = 3;
    return design_read_fields(&bounds, fields, DESIGN_COUNT_OF(fields), false, NULL) && read_bound(c, "min", &c->low) &&
           read_bound(c, "max", &c->high);
}

static bool in_bounds(const parameter_call *c, const design_quantity *q)
{
    return q->value >= c->low.value && q->value <= c->high.value;
}

static const char *bounds_text(const parameter_call *c)
{
    char low[64], high[64];
    design_quantity_text(&c->low, low, sizeof low);
    design_quantity_text(&c->high, high, sizeof high);
    return design_text(c->scope.d, "%s to %s", isinf(c->low.value) ? "anything" : low,
                       isinf(c->high.value) ? "anything" : high);
}

static design_setting *setting_of(design *d, const char *name)
{
    for (size_t i = 0; i < d->setting_count; i++)
        if (strcmp(d->settings[i].name, name) == 0) return &d->settings[i];
    return NULL;
}

/* The value from --set, when there is one and it will do. */
static void take_setting(parameter_call *c)
{
    design *d = c->scope.d;
    char problem[160] = "", words[128];
    design_setting *setting = setting_of(d, c->name);
    c->value = c->preset;
    if (setting == NULL) return;
    setting->used = true;
    design_quantity q;
    sw_place none = {0};
    const char *field = design_text(d, "--set %s", c->name);
    if (!design_quantity_parse(&q, setting->value, problem, sizeof problem)) {
        design_note(d, SW_BAD_INPUT, none, field, "\"%s\" is no value: %s", setting->value, problem);
    } else if (!design_same_kind(&q, &c->preset)) {
        design_quantity_words(&q, words, sizeof words);
        design_quantity_words(&c->preset, problem, sizeof problem);
        design_note(d, SW_BAD_INPUT, none, field, "is %s, but the parameter is %s; give the same kind with its unit",
                    words, problem);
    } else if (!in_bounds(c, &q)) {
        design_quantity_text(&q, words, sizeof words);
        design_note(d, SW_OUT_OF_RANGE, none, field, "is %s, allowed is %s", words, bounds_text(c));
    } else {
        c->value = q;
    }
}

static double in_unit_of(const parameter_call *c, double value)
{
    char ignored[64];
    design_quantity one = c->preset;
    one.point = false;
    double scaled;
    (void)design_quantity_unit(&one, &scaled, ignored, sizeof ignored);
    if (c->preset.point) return sw_c_from_k(value);
    return one.value == 0.0 || !isfinite(value) ? value : value * (scaled / one.value);
}

static void keep_parameter(const parameter_call *c)
{
    char room[64];
    double shown;
    const char *unit = design_quantity_unit(&c->preset, &shown, room, sizeof room);
    sw_parameter *p = design_add(c->scope.d, &c->scope.d->parameters, sizeof *p, "parameters");
    *p = (sw_parameter){
        .name = c->name, .meaning = c->meaning, .unit = design_text(c->scope.d, "%s", unit), .place = c->scope.place};
    p->preset = in_unit_of(c, c->preset.value);
    p->value = in_unit_of(c, c->value.value);
    p->low = in_unit_of(c, c->low.value);
    p->high = in_unit_of(c, c->high.value);
}

static bool name_is_new(const parameter_call *c)
{
    const sw_parameter *all = c->scope.d->parameters.items;
    for (size_t i = 0; i < c->scope.d->parameters.count; i++) {
        if (strcmp(all[i].name, c->name) != 0) continue;
        design_fault(&c->scope, "", "is declared a second time; the first stands in line %d", all[i].place.line);
        return false;
    }
    return true;
}

/* The name, and what it means when that is told. */
static bool read_words(parameter_call *c)
{
    const design_line_limits name = {DESIGN_NAME_BYTES, true, "width"};
    const design_line_limits meaning = {DESIGN_TEXT_BYTES, false, "clear width"};
    if (!design_read_line(&c->scope, "name", 1, name, &c->name)) return false;
    c->scope.subject = design_text(c->scope.d, "parameter %s", c->name);
    if (lua_type(c->scope.d->L, 4) == LUA_TSTRING)
        (void)design_read_line(&c->scope, "meaning", 4, meaning, &c->meaning);
    return true;
}

/* parameter(name, value, bounds, meaning): gives the value back, or the preset where anything is wrong. */
int design_parameter(lua_State *L)
{
    lua_settop(L, 4);
    parameter_call c = {
        .scope = {.d = design_of(L), .table = 3, .place = design_line(L), .subject = "parameter", .path = ""},
        .meaning = ""};
    design *d = c.scope.d;
    if (lua_type(L, 1) != LUA_TSTRING) {
        design_fault(
            &c.scope, "",
            "needs a name first, e.g. parameter(\"width\", 400*mm, { min = 340*mm, max = 520*mm }, \"clear width\")");
        lua_pushvalue(L, 2);
        return 1;
    }
    if (!read_words(&c)) {
        lua_pushvalue(L, 2);
        return 1;
    }
    if (!design_to_quantity(L, 2, &c.preset) || !isfinite(c.preset.value) || c.preset.degc) {
        design_fault(&c.scope, "", "is %s, but a finite number or quantity is needed", design_describe(&c.scope, 2));
        design_setting *setting = setting_of(d, c.name);
        if (setting != NULL) setting->used = true;
    } else if (read_bounds(&c) && name_is_new(&c)) {
        if (!in_bounds(&c, &c.preset))
            design_fault(&c.scope, "", "is %s, outside its own bounds %s", design_describe(&c.scope, 2),
                         bounds_text(&c));
        take_setting(&c);
        keep_parameter(&c);
        design_push_quantity(L, c.value);
        return 1;
    }
    lua_pushvalue(L, 2);
    return 1;
}

/* ---- group and opening ---- */

/* group("furnace", { title = ..., explode = {...} }) */
static int make_group(lua_State *L)
{
    static const design_field fields[] = {
        {DESIGN_FIELD(sw_group, title, DESIGN_TEXT)},
        {DESIGN_FIELD(sw_group, explode, DESIGN_VECTOR)},
    };
    lua_settop(L, 2);
    design_scope s = {.d = design_of(L), .table = 2, .place = design_line(L), .subject = "group", .path = ""};
    if (lua_type(L, 1) != LUA_TSTRING || !(lua_istable(L, 2) || lua_isnil(L, 2))) {
        design_fault(&s, "", "needs a name and a table, e.g. group(\"furnace\", { title = \"Inner furnace\" })");
        return 0;
    }
    sw_group group = {.name = "", .title = ""};
    if (!design_read_line(&s, "name", 1, (design_line_limits){DESIGN_NAME_BYTES, true, "furnace"}, &group.name))
        return 0;
    s.subject = design_text(s.d, "group %s", group.name);
    const sw_group *all = s.d->groups.items;
    for (size_t i = 0; i < s.d->groups.count; i++)
        if (strcmp(all[i].name, group.name) == 0)
            design_fault(&s, "", "is declared a second time; a group needs one call only");
    if (lua_istable(L, 2)) (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &group);
    if (group.title[0] == '\0') group.title = group.name;
    *(sw_group *)design_add(s.d, &s.d->groups, sizeof group, "groups") = group;
    return 0;
}

typedef struct opening_fields {
    sw_opening made;
    int kind;
} opening_fields;

static int make_opening(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "name", .kind = DESIGN_TEXT, .offset = offsetof(opening_fields, made.name), .needed = true},
        {.name = "kind",
         .kind = DESIGN_WORD,
         .offset = offsetof(opening_fields, kind),
         .needed = true,
         .words = opening_words},
        {.name = "area",
         .kind = DESIGN_AREA,
         .offset = offsetof(opening_fields, made.area_mm2),
         .needed = true,
         .low = 1.0,
         .high = 1e6},
        {.name = "height",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(opening_fields, made.height_mm),
         .needed = true,
         .low = 0.0,
         .high = 5e3},
        {.name = "hole",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(opening_fields, made.hole_mm),
         .low = 0.5,
         .high = 200},
    };
    design_scope s;
    if (!design_open(L, "opening", "", &s)) return 0;
    opening_fields f = {.made = {.name = "", .kind = "", .place = s.place}};
    (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &f);
    f.made.kind = opening_words[f.kind];
    *(sw_opening *)design_add(s.d, &s.d->openings, sizeof f.made, "openings") = f.made;
    return 0;
}

int design_setup_stove(lua_State *L)
{
    static const luaL_Reg constructors[] = {
        {"stove", make_stove},          {"parameter", design_parameter}, {"group", make_group},
        {"opening", make_opening},      {"hinge", design_hinge_call},    {"piece", design_piece_call},
        {"mirror", design_mirror_call}, {"item", design_item_call},      {"joint", design_joint_call},
        {"joggle", design_joggle_call}, {"hem", design_hem_call},        {NULL, NULL},
    };
    lua_pushglobaltable(L);
    luaL_setfuncs(L, constructors, 0);
    lua_pop(L, 1);
    return 0;
}
