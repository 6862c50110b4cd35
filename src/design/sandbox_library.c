/* sandbox_library.c: the part of Lua's own library that a description may use.
 *
 * Kept are pure functions whose work is bounded by what they are given; those that work in one C call on a whole
 * table or text are charged steps for it, since the count hook does not see inside. pairs is our own, in sorted
 * order, so that no answer depends on where a table lies in memory. Pattern matching is left out: it can run for
 * hours inside one call. */
#include "design/design_parts.h"

#include <lualib.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *const base_names[] = {"assert", "error", "ipairs", "select", "tonumber", NULL};
static const char *const math_names[] = {"abs", "acos",       "asin", "atan", "ceil", "cos", "deg",
                                         "exp", "floor",      "fmod", "huge", "log",  "max", "maxinteger",
                                         "min", "mininteger", "modf", "pi",   "rad",  "sin", "sqrt",
                                         "tan", "tointeger",  "type", "ult",  NULL};
static const char *const string_names[] = {"byte", "char", "len", "lower", "upper", "reverse", "sub", NULL};
static const char *const table_names[] = {"pack", NULL};
static const char *const charged_names[] = {"concat", "insert", "remove", "sort", "unpack", NULL};

/* Copies names of the table at `from` to the table at `into` (absolute indices). */
static void copy_names(lua_State *L, int from, int into, const char *const *names)
{
    for (size_t i = 0; names[i] != NULL; i++) {
        lua_getfield(L, from, names[i]);
        lua_setfield(L, into, names[i]);
    }
}

static int charged_call(lua_State *L)
{
    double n = lua_istable(L, 1) ? (double)lua_rawlen(L, 1) : 0.0;
    design_charge(L, n * (1.0 + log2(n + 1.0)));
    return lua_tocfunction(L, lua_upvalueindex(1))(L);
}

static void copy_charged(lua_State *L, int from, int into, const char *const *names)
{
    for (size_t i = 0; names[i] != NULL; i++) {
        lua_getfield(L, from, names[i]);
        lua_pushcclosure(L, charged_call, 1);
        lua_setfield(L, into, names[i]);
    }
}

/* ---- our own ---- */

static int compare_keys(lua_State *L, int a, int b)
{
    bool a_number = lua_type(L, a) == LUA_TNUMBER, b_number = lua_type(L, b) == LUA_TNUMBER;
    if (a_number != b_number) return a_number ? -1 : 1;
    if (lua_compare(L, a, b, LUA_OPLT)) return -1;
    return lua_rawequal(L, a, b) ? 0 : 1;
}

static int key_before(lua_State *L)
{
    lua_pushboolean(L, compare_keys(L, 1, 2) < 0);
    return 1;
}

/* upvalues: sorted keys, table, position */
static int next_pair(lua_State *L)
{
    lua_Integer i = lua_tointeger(L, lua_upvalueindex(3));
    for (;;) {
        if (lua_rawgeti(L, lua_upvalueindex(1), ++i) == LUA_TNIL) return 1;
        lua_pushvalue(L, -1);
        if (lua_rawget(L, lua_upvalueindex(2)) != LUA_TNIL) break; /* taken out meanwhile */
        lua_pop(L, 2);
    }
    lua_pushinteger(L, i);
    lua_replace(L, lua_upvalueindex(3));
    return 2;
}

/* Keys of the table at index 1 that are numbers or texts, sorted, as a new table. */
static void push_sorted_keys(lua_State *L)
{
    lua_newtable(L);
    lua_Integer count = 0;
    lua_pushnil(L);
    while (lua_next(L, 1) != 0) {
        lua_pop(L, 1);
        if (lua_type(L, -1) != LUA_TNUMBER && lua_type(L, -1) != LUA_TSTRING) continue;
        lua_pushvalue(L, -1);
        lua_rawseti(L, -3, ++count);
    }
    design_charge(L, (double)count * 4.0);
    lua_pushvalue(L, lua_upvalueindex(1)); /* table.sort */
    lua_pushvalue(L, -2);
    lua_pushcfunction(L, key_before);
    lua_call(L, 2, 0);
}

static int pairs_in_order(lua_State *L)
{
    luaL_checktype(L, 1, LUA_TTABLE);
    lua_settop(L, 1);
    push_sorted_keys(L);
    lua_pushvalue(L, 1);
    lua_pushinteger(L, 0);
    lua_pushcclosure(L, next_pair, 3);
    return 1;
}

static int text_of(lua_State *L)
{
    if (lua_isnoneornil(L, 1) || lua_istable(L, 1) || lua_isfunction(L, 1))
        lua_pushstring(L, luaL_typename(L, 1)); /* no addresses */
    else if (lua_isuserdata(L, 1) && luaL_getmetafield(L, 1, "__tostring") == LUA_TNIL)
        lua_pushliteral(L, "value");
    else
        (void)luaL_tolstring(L, 1, NULL);
    return 1;
}

static int type_of(lua_State *L)
{
    luaL_checkany(L, 1);
    design_quantity q;
    bool quantity = lua_isuserdata(L, 1) && design_to_quantity(L, 1, &q);
    lua_pushstring(L, quantity ? "quantity" : luaL_typename(L, 1));
    return 1;
}

/* Texts may hold NULs, and string.format goes on behind them. */
static bool asks_for_address(const char *format, size_t length)
{
    static const char flags[] = "-+ #0123456789.";
    for (size_t i = 0; i < length; i++) {
        if (format[i] != '%') continue;
        for (i++; i < length && memchr(flags, format[i], sizeof flags - 1) != NULL;) i++;
        if (i < length && format[i] == 'p') return true;
    }
    return false;
}

static int format_text(lua_State *L)
{
    size_t length = 0;
    const char *format = luaL_checklstring(L, 1, &length);
    if (asks_for_address(format, length)) return luaL_error(L, "string.format: %%p is not known here");
    int count = lua_gettop(L);
    for (int i = 2; i <= count; i++) {
        if (!lua_istable(L, i) && !lua_isfunction(L, i) && !lua_isuserdata(L, i)) continue;
        lua_pushcfunction(L, text_of);
        lua_pushvalue(L, i);
        lua_call(L, 1, 1);
        lua_replace(L, i);
    }
    return lua_tocfunction(L, lua_upvalueindex(1))(L);
}

static int repeat_text(lua_State *L)
{
    size_t length;
    (void)luaL_checklstring(L, 1, &length);
    double times = luaL_checknumber(L, 2);
    if (times > 0.0) design_charge(L, times * (double)(length + 1));
    return lua_tocfunction(L, lua_upvalueindex(1))(L);
}

static int unknown_name(lua_State *L)
{
    const char *names[1024];
    size_t count = 0;
    const char *wrong = lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "?";
    lua_settop(L, 2);
    lua_pushnil(L);
    while (lua_next(L, 1) != 0) {
        if (lua_type(L, -2) == LUA_TSTRING && count < DESIGN_COUNT_OF(names)) names[count++] = lua_tostring(L, -2);
        lua_pop(L, 1);
    }
    for (size_t i = 1; i < count; i++) /* sorted: the nearest of equals must not depend on the table's order */
        for (size_t j = i; j > 0 && strcmp(names[j - 1], names[j]) > 0; j--) {
            const char *other = names[j];
            names[j] = names[j - 1];
            names[j - 1] = other;
        }
    const char *near = sw_text_nearest(wrong, names, count);
    if (near == NULL) return luaL_error(L, "unknown name '%s'", wrong);
    return luaL_error(L, "unknown name '%s'; did you mean '%s'?", wrong, near);
}

/* ---- opening ---- */

static void open_base(lua_State *L, int from, int into, int table_library)
{
    copy_names(L, from, into, base_names);
    lua_pushcfunction(L, text_of);
    lua_setfield(L, into, "tostring");
    lua_pushcfunction(L, type_of);
    lua_setfield(L, into, "type");
    lua_getfield(L, table_library, "sort");
    lua_pushcclosure(L, pairs_in_order, 1);
    lua_setfield(L, into, "pairs");
}

static void open_string(lua_State *L, int from, int into)
{
    copy_names(L, from, into, string_names);
    lua_getfield(L, from, "format");
    lua_pushcclosure(L, format_text, 1);
    lua_setfield(L, into, "format");
    lua_getfield(L, from, "rep");
    lua_pushcclosure(L, repeat_text, 1);
    lua_setfield(L, into, "rep");
    lua_pushliteral(L, ""); /* texts find their methods in the clean table only */
    (void)lua_getmetatable(L, -1);
    lua_pushvalue(L, into);
    lua_setfield(L, -2, "__index");
    lua_pop(L, 2);
}

static void push_library(lua_State *L, lua_CFunction opener, const char *name)
{
    lua_pushcfunction(L, opener);
    lua_pushstring(L, name);
    lua_call(L, 1, 1);
}

void design_library_open(lua_State *L)
{
    int base = lua_gettop(L) + 1;
    push_library(L, luaopen_base, "_G");
    push_library(L, luaopen_math, "math");
    push_library(L, luaopen_string, "string");
    push_library(L, luaopen_table, "table");
    for (int i = 0; i < 4; i++) lua_newtable(L);
    int clean = base + 4;
    open_base(L, base, clean, base + 3);
    copy_names(L, base + 1, clean + 1, math_names);
    open_string(L, base + 2, clean + 2);
    copy_names(L, base + 3, clean + 3, table_names);
    copy_charged(L, base + 3, clean + 3, charged_names);
    static const char *const libraries[] = {"math", "string", "table"};
    for (int i = 0; i < 3; i++) {
        lua_pushvalue(L, clean + 1 + i);
        lua_setfield(L, clean, libraries[i]);
    }
    lua_createtable(L, 0, 1);
    lua_pushcfunction(L, unknown_name);
    lua_setfield(L, -2, "__index");
    lua_setmetatable(L, clean);
    lua_pushvalue(L, clean);
    lua_rawseti(L, LUA_REGISTRYINDEX, LUA_RIDX_GLOBALS);
    lua_settop(L, base - 1);
}
