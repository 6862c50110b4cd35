/* sandbox.c: runs one text as Lua within bounds of memory, steps and time, and turns what went wrong into errors.
 *
 * Memory: sandbox_memory.c counts it. Steps: a count hook, and design_charge for what constructors do in C. The description has no pcall, no coroutines and no metatables, so an error raised by
 * the hook ends it for good. Wall time is only the last guard: what ends there has already done absurd work. */
#include "design/design_parts.h"
#include "design/sandbox_parts.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

enum { STEPS_BETWEEN_LOOKS = 1000 };
#define CHUNK_NAME "=line" /* syntax errors then read "line:12: ..." */

design *design_of(lua_State *L)
{
    return *(design **)lua_getextraspace(L);
}

_Noreturn void design_leave(design *d)
{
    lua_pushlightuserdata(d->L, d); /* needs no memory; the handler knows it as ours */
    (void)lua_error(d->L);
    abort(); /* lua_error does not return */
}

void design_charge(lua_State *L, double steps)
{
    design *d = design_of(L);
    d->steps_left -= steps;
    if (sw_run_cancelled(d->run)) {
        d->cancelled = true;
        design_leave(d);
    }
    if (d->steps_left < 0.0)
        luaL_error(L, "the description took more than %d steps; does a loop never end?", (int)d->options->steps);
    if (sw_seconds() > d->deadline_s)
        luaL_error(L, "the description ran longer than %d s; does a loop never end?", (int)d->options->seconds);
}

void design_charge_contours(design *d, const sw_contour *c, size_t count)
{
    double vertices = 0.0;
    for (size_t i = 0; i < count; i++) vertices += (double)c[i].n;
    design_charge(d->L, DESIGN_VERTEX_STEPS * (vertices + (double)count));
}

/* Lua begins to look for what nobody needs any more when a good part of the memory is in use; most descriptions never
 * get there. When the allocator refuses, Lua looks too before it gives up. */
static void look(lua_State *L, lua_Debug *record)
{
    (void)record;
    const sandbox_memory *memory = design_of(L)->memory;
    if (memory->used > memory->most / 8 && lua_gc(L, LUA_GCISRUNNING) == 0) (void)lua_gc(L, LUA_GCRESTART);
    design_charge(L, STEPS_BETWEEN_LOOKS);
}

/* ---- errors of the run itself ---- */

static int line_of_level(lua_State *L, int level)
{
    lua_Debug record;
    for (; lua_getstack(L, level, &record) != 0; level++)
        if (lua_getinfo(L, "l", &record) != 0 && record.currentline > 0) return record.currentline;
    return 0;
}

sw_place design_line(lua_State *L)
{
    return (sw_place){.file = design_of(L)->file, .line = line_of_level(L, 1)};
}

/* "line:12: text" -> 12 and the text; a text without that start keeps the line given. */
static const char *split_message(const char *message, int *line)
{
    static const char start[] = "line:";
    if (strncmp(message, start, sizeof start - 1) != 0) return message;
    char *end = NULL;
    long found = strtol(message + sizeof start - 1, &end, 10);
    if (found < 1 || found > INT_MAX || strncmp(end, ": ", 2) != 0) return message;
    *line = (int)found;
    return end + 2;
}

static void note_run_error(lua_State *L, const char *message, int line)
{
    design *d = design_of(L);
    const char *text = split_message(message, &line);
    sw_place place = {.file = d->file, .line = line};
    if (strstr(text, "stack overflow") != NULL)
        text = "functions call each other, or tables nest, too deeply; does a function call itself without end?";
    design_note(d, SW_BAD_INPUT, place, "", "%s", text);
}

static int handler(lua_State *L)
{
    if (lua_islightuserdata(L, 1)) return 1;
    const char *message = lua_type(L, 1) == LUA_TSTRING ? lua_tostring(L, 1) : "error(...) was called without a text";
    note_run_error(L, message, line_of_level(L, 0));
    lua_pushnil(L);
    return 1;
}

/* ---- the protected part ---- */

typedef struct job {
    design *d;
    const char *text;
    size_t length;
    const lua_CFunction *setups;
    size_t setup_count;
    void (*finish)(design *d);
} job;

static void run_text(lua_State *L, const job *j)
{
    if (luaL_loadbufferx(L, j->text, j->length, CHUNK_NAME, "t") != LUA_OK) {
        note_run_error(L, lua_tostring(L, -1), 0);
        return;
    }
    lua_pushcfunction(L, handler);
    lua_insert(L, -2);
    lua_sethook(L, look, LUA_MASKCOUNT, STEPS_BETWEEN_LOOKS);
    int outcome = lua_pcall(L, 0, 0, -2);
    lua_sethook(L, NULL, 0, 0);
    j->d->ran = outcome == LUA_OK;
    if (outcome == LUA_ERRMEM) j->d->lua_full = true;
    if (outcome == LUA_ERRERR) note_run_error(L, "stack overflow", 0);
    if (outcome == LUA_ERRRUN && lua_islightuserdata(L, -1)) (void)lua_error(L);
}

static int protected_run(lua_State *L)
{
    const job *j = lua_touserdata(L, 1);
    design_library_open(L);
    for (size_t i = 0; i < j->setup_count; i++) {
        lua_pushcfunction(L, j->setups[i]);
        lua_call(L, 0, 0);
    }
    run_text(L, j);
    lua_settop(L, 0);
    if (!j->d->lua_full) j->finish(j->d);
    return 0;
}

static sw_status outcome_of(design *d, int outcome)
{
    if (d->cancelled) return sw_fail(d->run, SW_CANCELLED, (sw_place){.file = d->file}, "", "stopped on request");
    if (d->left != SW_OK) return d->left; /* base or geometry recorded it */
    if (outcome == LUA_OK && !d->lua_full) return d->faults == 0 ? SW_OK : SW_BAD_INPUT;
    return sw_fail(d->run, SW_NO_MEMORY, (sw_place){.file = d->file}, "",
                   "the description needs more than the %g MB it may use; does a table or text grow without end?",
                   d->options->memory_mb);
}

static int run_job(design *d, sandbox_memory *memory, job *j)
{
    d->L = lua_newstate(sandbox_allocate, memory);
    if (d->L == NULL) return LUA_ERRMEM;
    (void)lua_gc(d->L, LUA_GCSTOP);
    *(design **)lua_getextraspace(d->L) = d;
    lua_pushcfunction(d->L, protected_run);
    lua_pushlightuserdata(d->L, j);
    int outcome = lua_pcall(d->L, 1, 0, 0);
    if (outcome != LUA_ERRRUN || lua_type(d->L, -1) != LUA_TSTRING) return outcome;
    note_run_error(d->L, lua_tostring(d->L, -1), 0); /* of the work after the description has run */
    return LUA_OK;
}

sw_status design_run(design *d, const char *text, size_t length, const lua_CFunction *setups, size_t setup_count,
                     void (*finish)(design *d))
{
    job j = {d, text, length, setups, setup_count, finish};
    sandbox_memory memory;
    sandbox_memory_open(&memory, (size_t)d->options->memory_mb << 20);
    d->steps_left = d->options->steps;
    d->deadline_s = sw_seconds() + d->options->seconds;
    d->memory = &memory;
    int outcome = run_job(d, &memory, &j);
    sandbox_memory_close(&memory);
    d->L = NULL;
    d->memory = NULL;
    return outcome_of(d, outcome);
}
