/* fields.c: reads tables by lists of fields, so that every constructor refuses the same faults in the same words. */
#include "design/design_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct quantity_kind {
    const char *words, *unit, *example;
    const char *shown; /* the unit of ranges; NULL = as any other quantity of its dimension */
} quantity_kind;

static const quantity_kind quantity_kinds[] = {
    [DESIGN_NUMBER] = {"a plain number", "1", "0.8"},
    [DESIGN_LENGTH] = {"a length", "1 mm", "40*mm"},
    [DESIGN_ANGLE] = {"an angle", "1 rad", "45*deg"},
    [DESIGN_AREA] = {"an area", "1 mm2", "900*mm2"},
    [DESIGN_MASS] = {"a mass", "1 kg", "3.2*kg"},
    [DESIGN_TIME] = {"a time", "1 s", "45*min"},
    [DESIGN_POWER] = {"a power", "1 W", "6.5*kW"},
    [DESIGN_FORCE] = {"a force", "1 N", "1000*kN"},
    [DESIGN_SPEED] = {"a speed", "1 mm/s", "3.2*m/min"},
    [DESIGN_ACCELERATION] = {"an acceleration", "1 mm/s/s", "10*m/s/s"},
    [DESIGN_PER_MASS] = {"a price by mass", "1/kg", "1.05/kg"},
    [DESIGN_PER_HOUR] = {"a price by time", "1/h", "95/h"},
    [DESIGN_PER_VOLUME] = {"a price by volume", "1/m3", "1.2/m3"},
    [DESIGN_FLOW] = {"a flow", "1 m3/s", "1.6*m3/h"},
    [DESIGN_MASS_PER_LENGTH] = {"a mass by length", "1 kg/m", "0.08*kg/m"},
    [DESIGN_METRES] = {"a length", "1 m", "5*m", "m"},
    [DESIGN_VOLUME] = {"a volume", "1 m3", "60*m3", "m3"},
    [DESIGN_DENSITY] = {"a density", "1 kg/m3", "2800*kg/m3"},
    [DESIGN_PRESSURE] = {"a pressure", "1 Pa", "12*Pa"},
    [DESIGN_TEMPERATURE] = {"a temperature", "1 degC", "20*degC"},
    [DESIGN_MASS_FLOW] = {"a mass flow", "1 kg/s", "6*g/s"},
    [DESIGN_RESISTANCE] = {"a thermal resistance", "1 m2*K/W", "0.38*m2*K/W"},
    [DESIGN_CONDUCTIVITY] = {"a conductivity", "1 W/m/K", "0.07*W/m/K"},
    [DESIGN_PER_AREA] = {"a flow by area", "1 m3/h/m2", "5*m3/h/m2", "m3/h/m2"},
    [DESIGN_PER_ENERGY] = {"a price by energy", "1/J", "0.30/kW/h"},
    [DESIGN_PER_LITRE] = {"a price by volume", "1/l", "28/l", "/l"},
    [DESIGN_AREA_RATE] = {"an area by time", "1 m2/s", "15*m2/h"},
    [DESIGN_MASS_PER_AREA] = {"a mass by area", "1 kg/m2", "0.6*kg/m2"},
    [DESIGN_TIME_PER_MASS] = {"a time by mass", "1 s/kg", "2*s/kg"},
    [DESIGN_METRE_SPEED] = {"a speed", "1 m/s", "8*m/min", "m/s"},
    [DESIGN_METRE_ACCELERATION] = {"an acceleration", "1 m/s/s", "2*m/s/s", "m/s/s"},
    [DESIGN_MICRON] = {"a length", "1 um", "25*um", "um"},
    [DESIGN_CURRENT] = {"a current", "1 A", "120*A"},
    [DESIGN_VOLTAGE] = {"a voltage", "1 V", "19.5*V"},
};

const char *design_describe(const design_scope *s, int index)
{
    design_quantity q;
    char words[128];
    lua_State *L = s->d->L;
    if (design_to_quantity(L, index, &q)) {
        design_quantity_words(&q, words, sizeof words);
        return design_text(s->d, "%s", words);
    }
    if (lua_type(L, index) == LUA_TSTRING) return design_text(s->d, "the text \"%s\"", design_shown(s->d, index));
    if (lua_isuserdata(L, index) && luaL_getmetafield(L, index, "__name") == LUA_TSTRING) {
        const char *name = design_text(s->d, "a value made by another constructor (%s)", lua_tostring(L, -1));
        lua_pop(L, 1);
        return name;
    }
    return design_text(s->d, "a %s value", luaL_typename(L, index));
}

/* Parsed once for each description. */
static design_quantity unit_of(design *d, design_kind kind)
{
    design_quantity *unit = &d->units[kind];
    char ignored[32];
    if (unit->value == 0.0) {
        bool known = design_quantity_parse(unit, quantity_kinds[kind].unit, ignored, sizeof ignored);
        SW_ASSERT(known);
        if (unit->point) unit->value = 1.0; /* K */
    }
    return *unit;
}

/* False when it is not a finite quantity of the kind; notes nothing. */
static bool take_quantity(const design_scope *s, int index, design_kind kind, double *value)
{
    design_quantity q, unit = unit_of(s->d, kind);
    if (!design_to_quantity(s->d->L, index, &q) || !design_same_kind(&q, &unit) || !isfinite(q.value)) return false;
    *value = q.value / unit.value;
    return true;
}

bool design_read_quantity(const design_scope *s, const char *name, int index, design_kind kind, double *value)
{
    const quantity_kind *wanted = &quantity_kinds[kind];
    design_quantity q, unit = unit_of(s->d, kind);
    if (take_quantity(s, index, kind, value)) return true;
    if (design_to_quantity(s->d->L, index, &q) && design_same_kind(&q, &unit))
        design_fault(s, name, "is not a finite number; look for a division by zero");
    else
        design_fault(s, name, "is %s, but %s is needed, e.g. %s", design_describe(s, index), wanted->words,
                     wanted->example);
    return false;
}

/* Reads names[0..count-1] of the table at `index` as lengths. */
static bool read_lengths(const design_scope *s, const char *name, int index, double *values, int count)
{
    lua_State *L = s->d->L;
    if (!lua_istable(L, index) || (int)lua_rawlen(L, index) != count) {
        design_fault(s, name, "is %s, but %d lengths in braces are needed, e.g. %s", design_describe(s, index), count,
                     count == 2 ? "{20*mm, 30*mm}" : "{0*mm, 0*mm, 40*mm}");
        return false;
    }
    bool good = true;
    for (int i = 0; i < count && good; i++) {
        (void)lua_geti(L, index, i + 1);
        good = take_quantity(s, lua_gettop(L), DESIGN_LENGTH, &values[i]);
        if (!good) /* once more, for the message */
            (void)design_read_quantity(s, design_text(s->d, "%s[%d]", name, i + 1), lua_gettop(L), DESIGN_LENGTH,
                                       &values[i]);
        lua_pop(L, 1);
    }
    return good;
}

bool design_read_point(const design_scope *s, const char *name, int index, sw_point *point)
{
    double xy[2];
    if (!read_lengths(s, name, index, xy, 2)) return false;
    *point = (sw_point){xy[0], xy[1]};
    return true;
}

bool design_read_vector(const design_scope *s, const char *name, int index, sw_vec3 *vector)
{
    double xyz[3];
    if (!read_lengths(s, name, index, xyz, 3)) return false;
    *vector = (sw_vec3){xyz[0], xyz[1], xyz[2]};
    return true;
}

/* ---- one field ---- */

static const char *in_unit(const design_scope *s, design_kind kind, double value)
{
    design_quantity unit = unit_of(s->d, kind);
    char text[96];
    if (quantity_kinds[kind].shown != NULL) return design_text(s->d, "%.7g %s", value, quantity_kinds[kind].shown);
    unit.value *= value;
    design_quantity_text(&unit, text, sizeof text);
    return design_text(s->d, "%s", text);
}

static bool in_range(const design_scope *s, const char *name, const design_field *f, double value)
{
    bool ranged = f->low != 0.0 || f->high != 0.0;
    double slack = 1e-9 * (fabs(f->low) + fabs(f->high)); /* 180*deg is within 180 degrees */
    if (!ranged || (value >= f->low - slack && value <= f->high + slack)) return true;
    design_fault(s, name, "is %s, allowed is %s to %s", in_unit(s, f->kind, value), in_unit(s, f->kind, f->low),
                 in_unit(s, f->kind, f->high));
    return false;
}

/* Every word that is allowed, as the message lists them. */
static bool refuse_word(const design_scope *s, const char *name, const design_field *f, int index)
{
    lua_State *L = s->d->L;
    char all[300] = "";
    size_t count = 0;
    for (; f->words[count] != NULL; count++) {
        size_t used = strlen(all);
        (void)snprintf(all + used, sizeof all - used, "%s\"%s\"", count > 0 ? ", " : "", f->words[count]);
    }
    const char *hint =
        lua_type(L, index) == LUA_TSTRING ? design_hint(s->d, lua_tostring(L, index), f->words, count) : "";
    design_fault(s, name, "is %s, but one of %s is needed%s", design_describe(s, index), all, hint);
    return false;
}

static bool read_word(const design_scope *s, const char *name, const design_field *f, int index, int *word)
{
    lua_State *L = s->d->L;
    const char *given = lua_type(L, index) == LUA_TSTRING ? lua_tostring(L, index) : NULL;
    for (int i = 0; given != NULL && f->words[i] != NULL; i++)
        if (strcmp(f->words[i], given) == 0) {
            *word = i;
            return true;
        }
    return refuse_word(s, name, f, index);
}

bool design_read_line(const design_scope *s, const char *name, int index, design_line_limits limits, const char **text)
{
    lua_State *L = s->d->L;
    size_t length = 0;
    const char *given = lua_type(L, index) == LUA_TSTRING ? lua_tolstring(L, index, &length) : NULL;
    if (given == NULL) {
        design_fault(s, name, "is %s, but a text is needed, e.g. \"%s\"", design_describe(s, index), limits.example);
        return false;
    }
    bool plain = length <= limits.most_bytes && strlen(given) == length && sw_text_is_utf8(given, length);
    for (size_t i = 0; plain && i < length; i++) plain = (unsigned char)given[i] >= ' ' && given[i] != 0x7f;
    if (!plain || (limits.needed && length == 0)) {
        design_fault(s, name,
                     "is empty, longer than %zu bytes, not UTF-8, or holds control characters; "
                     "allowed is one line of text",
                     limits.most_bytes);
        return false;
    }
    *text = memcpy(design_take(s->d, length + 1, 1), given, length + 1);
    return true;
}

static bool read_count(const design_scope *s, const char *name, const design_field *f, int index, size_t *count)
{
    double value;
    if (!design_read_quantity(s, name, index, DESIGN_NUMBER, &value)) return false;
    double low = f->high > 0.0 ? f->low : 1.0, high = f->high > 0.0 ? f->high : 1e5;
    if (value != floor(value) || value < low || value > high) {
        design_fault(s, name, "is %g, allowed is a whole number from %g to %g", value, low, high);
        return false;
    }
    *count = (size_t)value;
    return true;
}

static bool read_value(const design_scope *s, const char *name, const design_field *f, int index, void *into)
{
    if (f->kind == DESIGN_BY_HAND) return true;
    void *at = (char *)into + f->offset;
    switch (f->kind) {
    case DESIGN_TEXT:
        return design_read_line(s, name, index, (design_line_limits){DESIGN_TEXT_BYTES, f->needed, "left side"}, at);
    case DESIGN_WORD:
        return read_word(s, name, f, index, at);
    case DESIGN_COUNT:
        return read_count(s, name, f, index, at);
    case DESIGN_POINT:
        return design_read_point(s, name, index, at);
    case DESIGN_VECTOR:
        return design_read_vector(s, name, index, at);
    case DESIGN_FLAG:
        if (lua_isboolean(s->d->L, index)) return *(bool *)at = lua_toboolean(s->d->L, index), true;
        design_fault(s, name, "is %s, but true or false is needed", design_describe(s, index));
        return false;
    default:
        break;
    }
    double value;
    if (!design_read_quantity(s, name, index, f->kind, &value) || !in_range(s, name, f, value)) return false;
    *(double *)at = value;
    return true;
}

/* Stack index of the field's value, 0 = not given. named: that of the value given by name. */
static int value_of(const design_scope *s, const design_field *f, int named)
{
    lua_State *L = s->d->L;
    if (f->position == 0 || lua_geti(L, s->table, f->position) == LUA_TNIL) return named;
    if (named != 0) design_fault(s, f->name, "is given twice: by its name and as value number %d", f->position);
    return lua_gettop(L);
}

static void read_field(const design_scope *s, const design_field *f, int named, void *into)
{
    if (named == 0 && f->position == 0 && !f->needed) return;
    int top = lua_gettop(s->d->L), index = value_of(s, f, named);
    if (index != 0)
        (void)read_value(s, f->name, f, index, into);
    else if (f->needed)
        design_fault(s, f->name, "is missing; it is needed here");
    lua_settop(s->d->L, top);
}

/* ---- names that nobody knows ---- */

enum { MOST_UNKNOWN = 16, MOST_FIELDS = 64 };
typedef struct key_list {              /* what a table holds, seen once from end to end */
    int given[MOST_FIELDS];            /* stack index of each field's value given by name, 0 = none */
    const char *unknown[MOST_UNKNOWN]; /* the first of the alphabet, since a Lua table has no order of its own */
    size_t unknown_count;
    size_t seen;
    bool unnamed; /* a value without a name where none is expected */
} key_list;

static void add_unknown(key_list *k, const char *name)
{
    size_t i = k->unknown_count < MOST_UNKNOWN ? k->unknown_count++ : MOST_UNKNOWN;
    for (; i > 0 && strcmp(k->unknown[i - 1], name) > 0; i--)
        if (i < MOST_UNKNOWN) k->unknown[i] = k->unknown[i - 1];
    if (i < MOST_UNKNOWN) k->unknown[i] = name;
}

/* The key and then its value are at the stack's top: a known field's value stays below the key, any other goes. */
static void add_name(lua_State *L, key_list *k, const design_field *fields, size_t count)
{
    const char *name = lua_tostring(L, -2);
    for (size_t i = 0; i < count; i++)
        if (fields[i].name[0] == name[0] && strcmp(fields[i].name, name) == 0) {
            lua_insert(L, -2);
            k->given[i] = lua_gettop(L) - 1;
            return;
        }
    add_unknown(k, name);
    lua_pop(L, 1);
}

static bool known_position(const design_field *fields, size_t count, lua_Integer position)
{
    for (size_t i = 0; i < count; i++)
        if (fields[i].position == position && position > 0) return true;
    return false;
}

/* Leaves the values of known names on the stack. Numbered entries of a list are read elsewhere; light keys are ours. */
static key_list list_keys(const design_scope *s, const design_field *fields, size_t count, bool list)
{
    lua_State *L = s->d->L;
    key_list k = {.unknown_count = 0};
    lua_pushnil(L);
    while (lua_next(L, s->table) != 0) {
        int type = lua_type(L, -2);
        k.seen++;
        if (type == LUA_TSTRING) {
            add_name(L, &k, fields, count);
            continue;
        }
        lua_pop(L, 1);
        if (type != LUA_TLIGHTUSERDATA && !(list && type == LUA_TNUMBER))
            k.unnamed = k.unnamed || !lua_isinteger(L, -1) || !known_position(fields, count, lua_tointeger(L, -1));
    }
    return k;
}

static void note_unknown(const design_scope *s, const design_field *fields, size_t count, const key_list *k)
{
    const char *names[MOST_FIELDS];
    for (size_t n = 0; n < count; n++) names[n] = fields[n].name;
    for (size_t i = 0; i < k->unknown_count; i++)
        design_fault(s, k->unknown[i], "is not a field known here%s", design_hint(s->d, k->unknown[i], names, count));
    if (k->unnamed) design_fault(s, "", "holds a value without a name where none is expected; write name = value");
}

bool design_read_fields(const design_scope *s, const design_field *fields, size_t count, bool list, void *into)
{
    luaL_checkstack(s->d->L, 20 + MOST_FIELDS, "tables nest too deeply");
    SW_ASSERT(count <= MOST_FIELDS);
    size_t before = s->d->faults;
    int top = lua_gettop(s->d->L);
    key_list k = list_keys(s, fields, count, list);
    design_charge(s->d->L, DESIGN_CALL_STEPS + DESIGN_FIELD_STEPS * (double)(count + k.seen));
    for (size_t i = 0; i < count; i++) read_field(s, &fields[i], k.given[i], into);
    note_unknown(s, fields, count, &k);
    lua_settop(s->d->L, top);
    return before == s->d->faults;
}

/* ---- lists ---- */

bool design_once(const design_scope *s, bool *seen, const char *whole)
{
    if (*seen) design_fault(s, "", "is described a second time; a %s has one", whole);
    bool first = !*seen;
    *seen = true;
    return first;
}

size_t design_each(const design_scope *s, const char *name,
                   void (*read)(const design_scope *entry, size_t i, void *context), void *context)
{
    lua_State *L = s->d->L;
    int type = lua_getfield(L, s->table, name);
    design_scope list = design_within(s, name, 0);
    size_t n = type == LUA_TTABLE ? lua_rawlen(L, -1) : 0, done = 0;
    if (type != LUA_TNIL && type != LUA_TTABLE)
        design_fault(s, name, "is %s, but a list in braces is needed", design_describe(s, list.table));
    if (type == LUA_TTABLE) (void)design_read_fields(&list, NULL, 0, true, NULL);
    for (size_t i = 1; i <= n; i++) {
        design_charge(L, DESIGN_CALL_STEPS);
        (void)lua_geti(L, list.table, (lua_Integer)i);
        design_scope entry = design_within(s, name, i);
        read(&entry, done++, context);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
    return done;
}

size_t design_entries(const design_scope *s, const char *name)
{
    size_t n = lua_getfield(s->d->L, s->table, name) == LUA_TTABLE ? lua_rawlen(s->d->L, -1) : 0;
    lua_pop(s->d->L, 1);
    return n;
}

bool design_is_table(const design_scope *entry, const char *example)
{
    if (lua_istable(entry->d->L, entry->table)) return true;
    design_fault(entry, "", "is %s, but %s is needed", design_describe(entry, entry->table), example);
    return false;
}

bool design_read_part(const design_scope *s, const char *name, const char *example, const design_field *fields,
                      size_t count, void *into)
{
    int type = lua_getfield(s->d->L, s->table, name);
    design_scope inner = design_within(s, name, 0);
    if (type == LUA_TTABLE)
        (void)design_read_fields(&inner, fields, count, false, into);
    else if (type != LUA_TNIL)
        design_fault(s, name, "is %s, but a table is needed, e.g. %s", design_describe(s, inner.table), example);
    lua_pop(s->d->L, 1);
    return type == LUA_TTABLE;
}

/* ---- scopes and boxes ---- */

design_scope design_within(const design_scope *s, const char *name, size_t number)
{
    design_scope inner = *s;
    luaL_checkstack(s->d->L, 20, "tables nest too deeply");
    inner.table = lua_gettop(s->d->L);
    const char *dot = s->path[0] != '\0' && name[0] != '\0' ? "." : "";
    inner.path = design_joined(s->d, s->path, dot, name);
    if (number > 0) inner.path = design_numbered(s->d, design_joined(s->d, inner.path, "[", ""), number, "]");
    return inner;
}

bool design_open(lua_State *L, const char *subject, const char *path, design_scope *s)
{
    lua_settop(L, 1);
    *s = (design_scope){.d = design_of(L), .table = 1, .place = design_line(L), .subject = subject, .path = path};
    design_charge(L, DESIGN_CALL_STEPS);
    if (lua_istable(L, 1)) return true;
    design_fault(s, "", "was called with %s, but a table in braces is needed: %s { ... }", design_describe(s, 1),
                 subject[0] != '\0' ? subject : path);
    return false;
}

void design_push_box(lua_State *L, const char *kind, void *pointer)
{
    void **held = lua_newuserdatauv(L, sizeof pointer, 0);
    *held = pointer;
    (void)luaL_newmetatable(L, kind);
    lua_setmetatable(L, -2);
}

void *design_box(lua_State *L, int index, const char *kind)
{
    void **held = luaL_testudata(L, index, kind);
    return held == NULL ? NULL : *held;
}
