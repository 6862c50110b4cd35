/* read_machines.c: laser {...}. */
#include "design/design_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- laser ---- */

typedef struct row_fields {
    sw_laser_row made;
    const char *material;
} row_fields;

static void read_row(const design_scope *s, size_t i, void *context)
{
#define ROW(label, member, sort, least, most)                                                                          \
    {                                                                                                                  \
        .name = label, .kind = sort, .offset = offsetof(row_fields, made.member), .needed = true, .low = least,        \
        .high = most                                                                                                   \
    }
    static const design_field fields[] = {
        {DESIGN_FIELD(row_fields, material, DESIGN_TEXT), .needed = true, .position = 1},
        {.name = "thickness",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(row_fields, made.thickness_mm),
         .needed = true,
         .low = 0.3,
         .high = 50.0,
         .position = 2},
        ROW("feed", feed_mm_s, DESIGN_SPEED, 0.1, 5e3),
        ROW("pierce", pierce_s, DESIGN_TIME, 0.0, 60.0),
        ROW("kerf", kerf_mm, DESIGN_LENGTH, 0.0, 3.0),
        ROW("lead", lead_mm, DESIGN_LENGTH, 0.0, 50.0),
        {.name = "gas", .kind = DESIGN_TEXT, .offset = offsetof(row_fields, made.gas)},
        {.name = "flow", .kind = DESIGN_FLOW, .offset = offsetof(row_fields, made.gas_m3_s), .low = 0.0, .high = 1.0},
        {.name = "gas_price",
         .kind = DESIGN_PER_VOLUME,
         .offset = offsetof(row_fields, made.gas_price),
         .low = 0.0,
         .high = 1e3},
        ROW("web", web_mm, DESIGN_LENGTH, 0.0, 100.0),
        ROW("margin", margin_mm, DESIGN_LENGTH, 0.0, 200.0),
    };
#undef ROW
    sw_laser_row *row = (sw_laser_row *)context + i;
    row_fields f = {.made = {.gas = "", .place = s->place}, .material = ""};
    if (!design_is_table(s, "{ \"S235\", 4*mm, feed = 3.4*m/min, ... }")) return;
    bool good = design_read_fields(s, fields, DESIGN_COUNT_OF(fields), false, &f);
    if (f.material[0] != '\0') f.made.grade = design_works_grade(s, f.material);
    if (!good) return;
    *row = f.made;
    design_charge(s->d->L, (double)i); /* for the loop */
    for (const sw_laser_row *other = context; other < row; other++)
        if (row->grade != NULL && other->grade == row->grade &&
            fabs(other->thickness_mm - row->thickness_mm) <= SW_SAME_POINT_MM)
            design_fault(s, "", "gives %s %g mm a second time; one row for each material and thickness",
                         row->grade->name, row->thickness_mm);
}

/* ---- the program's first and last words ---- */

enum { MOST_LINES = 100, MOST_LINE_BYTES = 200 };

/* Line i of the table at `table`, behind those before it. */
static void add_line(const design_scope *s, const char *name, int table, size_t i, const char **lines)
{
    const char *line = NULL, *field = design_text(s->d, "%s[%zu]", name, i);
    (void)lua_geti(s->d->L, table, (lua_Integer)i);
    if (design_read_line(s, field, lua_gettop(s->d->L), (design_line_limits){MOST_LINE_BYTES, false, "G21"}, &line))
        *lines = i > 1 ? design_joined(s->d, *lines, "\n", line) : line;
    lua_pop(s->d->L, 1);
}

/* A text with line ends as a list of its lines, in its place. */
static void split_lines(lua_State *L, int text)
{
    size_t length = 0;
    lua_Integer count = 0;
    const char *at = lua_tolstring(L, text, &length), *end = at + length;
    lua_newtable(L);
    for (bool more = true; more; at++) {
        const char *stop = memchr(at, '\n', (size_t)(end - at));
        more = stop != NULL;
        if (stop == NULL) stop = end;
        lua_pushlstring(L, at, (size_t)(stop - at));
        lua_rawseti(L, -2, ++count);
        at = stop;
    }
    lua_replace(L, text);
}

/* `start` or `stop`: a text or a list of lines, joined by line ends. */
static void read_lines(const design_scope *s, const char *name, const char **lines)
{
    lua_State *L = s->d->L;
    int type = lua_getfield(L, s->table, name), table = lua_gettop(L);
    if (type == LUA_TSTRING)
        split_lines(L, table);
    else if (type != LUA_TNIL && type != LUA_TTABLE)
        design_fault(s, name, "is %s, but a list of lines is needed, e.g. { \"G21\", \"G90\" }",
                     design_describe(s, table));
    size_t count = lua_istable(L, table) ? lua_rawlen(L, table) : 0;
    if (count > MOST_LINES)
        design_fault(s, name, "has %zu lines, allowed is %d at most", count, MOST_LINES);
    else if (lua_istable(L, table)) {
        *lines = "";
        for (size_t i = 1; i <= count; i++) add_line(s, name, table, i, lines);
    }
    lua_pop(L, 1);
}

static void read_program(const design_scope *s, sw_laser *laser)
{
    static const design_field fields[] = {
        {.name = "start", .kind = DESIGN_BY_HAND},      {.name = "stop", .kind = DESIGN_BY_HAND},
        {DESIGN_FIELD(sw_laser, beam_on, DESIGN_TEXT)}, {DESIGN_FIELD(sw_laser, beam_off, DESIGN_TEXT)},
        {DESIGN_FIELD(sw_laser, etch_on, DESIGN_TEXT)}, {DESIGN_FIELD(sw_laser, etch_off, DESIGN_TEXT)},
    };
    lua_State *L = s->d->L;
    int type = lua_getfield(L, s->table, "program");
    design_scope inner = design_within(s, "program", 0);
    if (type == LUA_TTABLE) {
        (void)design_read_fields(&inner, fields, DESIGN_COUNT_OF(fields), false, laser);
        read_lines(&inner, "start", &laser->program_start);
        read_lines(&inner, "stop", &laser->program_end);
    } else if (type != LUA_TNIL)
        design_fault(s, "program", "is %s, but a table is needed, e.g. { beam_on = \"M3\", beam_off = \"M5\" }",
                     design_describe(s, inner.table));
    lua_pop(L, 1);
}

int design_laser_call(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "rapid",
         .kind = DESIGN_SPEED,
         .offset = offsetof(sw_laser, rapid_mm_s),
         .needed = true,
         .low = 1.0,
         .high = 1e4},
        {.name = "acceleration",
         .kind = DESIGN_ACCELERATION,
         .offset = offsetof(sw_laser, accel_mm_s2),
         .needed = true,
         .low = 1.0,
         .high = 1e6},
        {.name = "etch",
         .kind = DESIGN_SPEED,
         .offset = offsetof(sw_laser, etch_mm_s),
         .needed = true,
         .low = 0.1,
         .high = 1e4},
        {.name = "rate", .kind = DESIGN_PER_HOUR, .offset = offsetof(sw_laser, rate_h), .low = 0.0, .high = 1e4},
        {.name = "micro_joint",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(sw_laser, micro_joint_mm),
         .low = 0.0,
         .high = 5.0},
        {.name = "micro_below",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(sw_laser, micro_below_mm),
         .low = 0.0,
         .high = 1e3},
        {.name = "rows", .kind = DESIGN_BY_HAND, .needed = true},
        {.name = "program", .kind = DESIGN_BY_HAND},
        {.name = "capability", .kind = DESIGN_BY_HAND},
    };
    static const design_field capability[] = {
        {DESIGN_RANGED(sw_works, "edge", cut_sigma_mm, DESIGN_LENGTH, 0.0, 5.0)},
    };
    design_scope s;
    if (!design_open(L, "laser", "", &s) || !design_once(&s, &s.d->has_laser, "works")) return 0;
    sw_laser *laser = &s.d->works.laser;
    /* words of ISO 6983-1 and EIA RS-274; which M words switch a beam is the machine's affair: ours */
    *laser = (sw_laser){.program_start = "G21\nG90",
                        .program_end = "M2",
                        .beam_on = "M3",
                        .beam_off = "M5",
                        .etch_on = "M13",
                        .etch_off = "M15",
                        .place = s.place};
    (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, laser);
    sw_laser_row *rows = DESIGN_TAKE(s.d, design_entries(&s, "rows"), sw_laser_row);
    laser->row_count = design_each(&s, "rows", read_row, rows);
    laser->rows = rows;
    if (laser->row_count == 0)
        design_fault(&s, "rows", "is empty; give one row for each material and thickness that is cut");
    read_program(&s, laser);
    (void)design_read_part(&s, "capability", "{ edge = 0.05*mm }", capability, DESIGN_COUNT_OF(capability),
                           &s.d->works);
    return 0;
}
