/* quantity.c: quantities as Lua values: arithmetic that minds dimensions, the units, and the few functions. */
#include "design/design_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char quantity_type[] = "quantity";

/* The quantity at `index`, NULL = something else. As luaL_testudata, without looking the type up by its name. */
static const design_quantity *held_at(lua_State *L, int index)
{
    if (lua_type(L, index) != LUA_TUSERDATA || lua_getmetatable(L, index) == 0) return NULL;
    bool ours = lua_topointer(L, -1) == design_of(L)->quantity_table;
    lua_pop(L, 1);
    return ours ? lua_touserdata(L, index) : NULL;
}

bool design_to_quantity(lua_State *L, int index, design_quantity *q)
{
    int type = lua_type(L, index);
    if (type == LUA_TNUMBER) {
        *q = (design_quantity){.value = lua_tonumber(L, index)};
        return true;
    }
    const design_quantity *held = type == LUA_TUSERDATA ? held_at(L, index) : NULL;
    if (held == NULL) return false;
    *q = *held;
    return true;
}

void design_push_quantity(lua_State *L, design_quantity q)
{
    if (design_is_number(&q)) {
        lua_pushnumber(L, q.value);
        return;
    }
    design_quantity *held = lua_newuserdatauv(L, sizeof q, 0);
    *held = q;
    (void)lua_rawgeti(L, LUA_REGISTRYINDEX, design_of(L)->quantity_slot);
    lua_setmetatable(L, -2);
}

static const char *words_of(lua_State *L, int index, char *out, size_t room)
{
    design_quantity q;
    if (design_to_quantity(L, index, &q))
        design_quantity_words(&q, out, room);
    else if (lua_isnoneornil(L, index))
        (void)snprintf(out, room, "nothing (nil; is a name misspelt?)");
    else
        (void)snprintf(out, room, "a %s value", luaL_typename(L, index));
    return out;
}

static int refuse(lua_State *L, const char *verb, const char *link)
{
    char a[128], b[128];
    return luaL_error(L, "cannot %s %s %s %s", verb, words_of(L, 1, a, sizeof a), link, words_of(L, 2, b, sizeof b));
}

static bool both(lua_State *L, design_quantity *a, design_quantity *b)
{
    return design_to_quantity(L, 1, a) && design_to_quantity(L, 2, b) && !a->degc && !b->degc;
}

static bool same_dimension(const design_quantity *a, const design_quantity *b)
{
    return memcmp(a->dim, b->dim, sizeof a->dim) == 0;
}

static int add(lua_State *L)
{
    design_quantity a, b;
    if (!both(L, &a, &b) || !same_dimension(&a, &b) || (a.point && b.point)) return refuse(L, "add", "and");
    a.value += b.value;
    a.point = a.point || b.point;
    design_push_quantity(L, a);
    return 1;
}

static int subtract(lua_State *L)
{
    design_quantity a, b;
    if (!both(L, &a, &b) || !same_dimension(&a, &b) || (b.point && !a.point)) {
        lua_insert(L, 1); /* the words name the second first */
        return refuse(L, "subtract", "from");
    }
    a.value -= b.value;
    a.point = a.point && !b.point;
    design_push_quantity(L, a);
    return 1;
}

/* a * b or a / b; false when the exponents leave their range. */
static bool joined(design_quantity *a, const design_quantity *b, int sign)
{
    for (int i = 0; i < DESIGN_DIMENSIONS; i++) {
        int sum = a->dim[i] + sign * b->dim[i];
        if (abs(sum) > 12) return false;
        a->dim[i] = (signed char)sum;
    }
    a->value = sign > 0 ? a->value * b->value : a->value / b->value;
    return true;
}

static int degrees_celsius(lua_State *L, const design_quantity *number)
{
    design_quantity point = {.value = sw_k_from_c(number->value), .dim = {0, 0, 0, 0, 1}, .point = true};
    design_push_quantity(L, point);
    return 1;
}

static int multiply(lua_State *L)
{
    design_quantity a, b;
    if (!design_to_quantity(L, 1, &a) || !design_to_quantity(L, 2, &b)) return refuse(L, "multiply", "by");
    if (b.degc && design_is_number(&a)) return degrees_celsius(L, &a);
    if (a.degc && design_is_number(&b)) return degrees_celsius(L, &b);
    if (a.point || b.point || a.degc || b.degc || !joined(&a, &b, 1)) return refuse(L, "multiply", "by");
    design_push_quantity(L, a);
    return 1;
}

static int divide(lua_State *L)
{
    design_quantity a, b;
    if (!both(L, &a, &b) || a.point || b.point || !joined(&a, &b, -1)) return refuse(L, "divide", "by");
    design_push_quantity(L, a);
    return 1;
}

static int divide_whole(lua_State *L)
{
    design_quantity a, b;
    if (!both(L, &a, &b) || a.point || b.point || !same_dimension(&a, &b))
        return refuse(L, "count in", "how often fits");
    lua_pushnumber(L, floor(a.value / b.value));
    return 1;
}

static int remainder_of(lua_State *L)
{
    design_quantity a, b;
    if (!both(L, &a, &b) || a.point || b.point || !same_dimension(&a, &b)) return refuse(L, "take the rest of", "over");
    a.value -= b.value * floor(a.value / b.value);
    design_push_quantity(L, a);
    return 1;
}

static int negate(lua_State *L)
{
    design_quantity a;
    if (!design_to_quantity(L, 1, &a) || a.point || a.degc) return luaL_error(L, "a temperature has no negative");
    a.value = -a.value;
    design_push_quantity(L, a);
    return 1;
}

/* q raised to an exponent that leaves whole dimensions: q^2, area^0.5. */
static bool raised(design_quantity *q, double exponent)
{
    for (int i = 0; i < DESIGN_DIMENSIONS; i++) {
        double dim = q->dim[i] * exponent;
        if (dim != floor(dim) || fabs(dim) > 12.0) return false;
        q->dim[i] = (signed char)dim;
    }
    q->value = exponent == 0.5 ? sqrt(q->value) : pow(q->value, exponent);
    return true;
}

static int power(lua_State *L)
{
    design_quantity a, b;
    if (!both(L, &a, &b) || a.point || !design_is_number(&b) || !raised(&a, b.value)) return refuse(L, "raise", "to");
    design_push_quantity(L, a);
    return 1;
}

static bool comparable(lua_State *L, design_quantity *a, design_quantity *b)
{
    return both(L, a, b) && design_same_kind(a, b);
}

static int equal(lua_State *L)
{
    design_quantity a, b;
    if (!comparable(L, &a, &b)) return refuse(L, "compare", "with");
    lua_pushboolean(L, a.value == b.value);
    return 1;
}

static int less(lua_State *L)
{
    design_quantity a, b;
    if (!comparable(L, &a, &b)) return refuse(L, "compare", "with");
    lua_pushboolean(L, a.value < b.value);
    return 1;
}

static int less_or_equal(lua_State *L)
{
    design_quantity a, b;
    if (!comparable(L, &a, &b)) return refuse(L, "compare", "with");
    lua_pushboolean(L, a.value <= b.value);
    return 1;
}

static int as_text(lua_State *L)
{
    char text[96];
    design_quantity q;
    if (!design_to_quantity(L, 1, &q)) return luaL_error(L, "not a quantity");
    design_quantity_text(&q, text, sizeof text);
    lua_pushstring(L, text);
    return 1;
}

static int joined_text(lua_State *L)
{
    for (int i = 1; i <= 2; i++) {
        if (held_at(L, i) != NULL || lua_isstring(L, i)) continue;
        return luaL_error(L, "cannot join a quantity and a %s value to a text", luaL_typename(L, i));
    }
    (void)luaL_tolstring(L, 1, NULL);
    (void)luaL_tolstring(L, 2, NULL);
    lua_concat(L, 2);
    return 1;
}

/* ---- functions ---- */

static design_quantity wanted(lua_State *L, int index)
{
    design_quantity q;
    char words[128];
    if (!design_to_quantity(L, index, &q) || q.degc)
        luaL_error(L, "a number or a quantity is needed, got %s", words_of(L, index, words, sizeof words));
    return q;
}

static int extreme(lua_State *L, int sign)
{
    int count = lua_gettop(L), best = 1;
    if (count == 0) return luaL_error(L, "min and max need at least one value");
    design_quantity kept = wanted(L, 1);
    for (int i = 2; i <= count; i++) {
        design_quantity q = wanted(L, i);
        if (!design_same_kind(&kept, &q)) {
            lua_pushvalue(L, i);
            lua_replace(L, 2);
            return refuse(L, "compare", "with");
        }
        if (sign * (q.value < kept.value) - sign * (q.value > kept.value) <= 0) continue;
        kept = q;
        best = i;
    }
    lua_pushvalue(L, best);
    return 1;
}

static int least(lua_State *L)
{
    return extreme(L, 1);
}
static int greatest(lua_State *L)
{
    return extreme(L, -1);
}

static int absolute(lua_State *L)
{
    design_quantity q = wanted(L, 1);
    if (q.point) return luaL_error(L, "abs of a temperature has no meaning; subtract two temperatures first");
    q.value = fabs(q.value);
    design_push_quantity(L, q);
    return 1;
}

static int square_root(lua_State *L)
{
    char words[128];
    design_quantity q = wanted(L, 1);
    if (q.point || q.value < 0.0 || !raised(&q, 0.5))
        return luaL_error(L, "cannot take the square root of %s", words_of(L, 1, words, sizeof words));
    design_push_quantity(L, q);
    return 1;
}

static int rounded(lua_State *L)
{
    design_quantity q = wanted(L, 1), step = wanted(L, 2);
    if (q.point || !design_same_kind(&q, &step) || !(step.value > 0.0)) return refuse(L, "round", "to steps of");
    q.value = floor(q.value / step.value + 0.5) * step.value;
    design_push_quantity(L, q);
    return 1;
}

static double angle_rad(lua_State *L)
{
    char words[128];
    design_quantity q = wanted(L, 1), right = {.dim = {0, 1}};
    if (!design_same_kind(&q, &right))
        luaL_error(L, "an angle is needed, e.g. 30*deg, got %s", words_of(L, 1, words, sizeof words));
    return q.value;
}

static int sine(lua_State *L)
{
    lua_pushnumber(L, sin(angle_rad(L)));
    return 1;
}
static int cosine(lua_State *L)
{
    lua_pushnumber(L, cos(angle_rad(L)));
    return 1;
}
static int tangent(lua_State *L)
{
    lua_pushnumber(L, tan(angle_rad(L)));
    return 1;
}

static int push_angle(lua_State *L, double value_rad)
{
    design_push_quantity(L, (design_quantity){.value = value_rad, .dim = {0, 1}});
    return 1;
}

static double ratio(lua_State *L)
{
    design_quantity q = wanted(L, 1);
    if (!design_is_number(&q) || !(fabs(q.value) <= 1.0)) luaL_error(L, "a plain number from -1 to 1 is needed");
    return q.value;
}

static int arc_sine(lua_State *L)
{
    return push_angle(L, asin(ratio(L)));
}
static int arc_cosine(lua_State *L)
{
    return push_angle(L, acos(ratio(L)));
}

static int arc_tangent(lua_State *L)
{
    design_quantity y = wanted(L, 1);
    if (lua_isnoneornil(L, 2)) {
        if (!design_is_number(&y)) return luaL_error(L, "atan of one value needs a plain number; use atan(y, x)");
        return push_angle(L, atan(y.value));
    }
    design_quantity x = wanted(L, 2);
    if (y.point || !design_same_kind(&y, &x)) return refuse(L, "take the angle of", "over");
    return push_angle(L, atan2(y.value, x.value));
}

static const luaL_Reg metamethods[] = {
    {"__add", add},
    {"__sub", subtract},
    {"__mul", multiply},
    {"__div", divide},
    {"__idiv", divide_whole},
    {"__mod", remainder_of},
    {"__unm", negate},
    {"__pow", power},
    {"__eq", equal},
    {"__lt", less},
    {"__le", less_or_equal},
    {"__tostring", as_text},
    {"__concat", joined_text},
    {NULL, NULL},
};

static const luaL_Reg functions[] = {
    {"min", least},  {"max", greatest}, {"abs", absolute},  {"sqrt", square_root}, {"round", rounded},    {"sin", sine},
    {"cos", cosine}, {"tan", tangent},  {"asin", arc_sine}, {"acos", arc_cosine},  {"atan", arc_tangent}, {NULL, NULL},
};

/* `min` is both the unit minute and the function least: a quantity that can be called. */
static int called(lua_State *L)
{
    const design_quantity *q = held_at(L, 1);
    static const design_quantity minute = {.value = 60.0, .dim = {0, 0, 0, 1}};
    if (q == NULL || !design_same_kind(q, &minute) || q->value != minute.value)
        return luaL_error(L, "a quantity is not a function");
    lua_remove(L, 1);
    return least(L);
}

static void open_metatable(lua_State *L)
{
    (void)luaL_newmetatable(L, quantity_type);
    luaL_setfuncs(L, metamethods, 0);
    lua_pushcfunction(L, called);
    lua_setfield(L, -2, "__call");
    design_of(L)->quantity_table = lua_topointer(L, -1);
    design_of(L)->quantity_slot = luaL_ref(L, LUA_REGISTRYINDEX);
}

int design_setup_common(lua_State *L)
{
    open_metatable(L);
    lua_pushglobaltable(L);
    luaL_setfuncs(L, functions, 0);
    design_quantity unit;
    const char *name;
    for (size_t i = 0; (name = design_unit_at(i, &unit)) != NULL; i++) {
        design_push_quantity(L, unit);
        lua_setfield(L, -2, name);
    }
    lua_pushnumber(L, SW_PI);
    lua_setfield(L, -2, "pi");
    lua_pop(L, 1);
    return 0;
}
