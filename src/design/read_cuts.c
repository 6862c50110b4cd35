/* read_cuts.c: hole, slot, window, row, grid, etch and line: what is cut out of a face or etched on it. */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

enum { MOST_CUTS = 10000, MOST_MARKS = 1000 };

static int push_cuts(const design_scope *s, design_cuts cuts)
{
    design_cuts *held = DESIGN_TAKE(s->d, 1, design_cuts);
    *held = cuts;
    design_push_box(s->d->L, DESIGN_CUTS_BOX, held);
    return 1;
}

static int push_bad_cuts(const design_scope *s)
{
    return push_cuts(s, (design_cuts){.bad = true});
}

/* A hole runs clockwise. */
static int push_one(const design_scope *s, sw_contour c, const char *edge)
{
    sw_contour *one = DESIGN_TAKE(s->d, 1, sw_contour);
    const char **name = DESIGN_TAKE(s->d, 1, const char *);
    *name = edge;
    if (sw_contour_area(c) > 0.0)
        design_must(s->d, sw_contour_reversed(s->d->run, c, one));
    else
        *one = c;
    return push_cuts(s, (design_cuts){one, name, 1, false});
}

typedef struct hole {
    const char *edge;
    sw_point at;
    double d_mm;
} hole;

static int make_hole(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "at", .kind = DESIGN_POINT, .offset = offsetof(hole, at)},
        {.name = "d", .kind = DESIGN_LENGTH, .offset = offsetof(hole, d_mm), .needed = true, .low = 0.1, .high = 1e4},
        {DESIGN_FIELD(hole, edge, DESIGN_TEXT)},
    };
    design_scope s;
    hole h = {.edge = ""};
    if (!design_open(L, "", "hole", &s)) return push_bad_cuts(&s);
    if (!design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &h)) return push_bad_cuts(&s);
    sw_contour c;
    design_must(s.d, sw_contour_circle(s.d->run, h.at, h.d_mm / 2.0, &c));
    return push_one(&s, c, h.edge);
}

typedef struct slot {
    const char *edge;
    sw_point at;
    double length_mm, width_mm, turn_rad;
} slot;

static int make_slot(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "at", .kind = DESIGN_POINT, .offset = offsetof(slot, at)},
        {.name = "length",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(slot, length_mm),
         .needed = true,
         .low = 0.1,
         .high = 1e4},
        {.name = "width",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(slot, width_mm),
         .needed = true,
         .low = 0.1,
         .high = 1e4},
        {.name = "turn",
         .kind = DESIGN_ANGLE,
         .offset = offsetof(slot, turn_rad),
         .low = -2 * SW_PI,
         .high = 2 * SW_PI},
        {DESIGN_FIELD(slot, edge, DESIGN_TEXT)},
    };
    design_scope s;
    slot g = {.edge = ""};
    if (!design_open(L, "", "slot", &s)) return push_bad_cuts(&s);
    if (!design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &g)) return push_bad_cuts(&s);
    double half_mm = (g.length_mm - g.width_mm) / 2.0;
    if (half_mm < SW_SHORTEST_MM) {
        design_fault(&s, "length", "is %g mm over all, it must be more than the width %g mm; use hole for a round one",
                     g.length_mm, g.width_mm);
        return push_bad_cuts(&s);
    }
    double dx = half_mm * cos(g.turn_rad), dy = half_mm * sin(g.turn_rad);
    sw_point from = {g.at.x_mm - dx, g.at.y_mm - dy}, to = {g.at.x_mm + dx, g.at.y_mm + dy};
    sw_contour c;
    design_must(s.d, sw_contour_slot(s.d->run, from, to, g.width_mm, &c));
    return push_one(&s, c, g.edge);
}

typedef struct window {
    const char *edge;
    sw_point at;
    double turn_rad;
} window;

static int make_window(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "outline", .kind = DESIGN_BY_HAND, .position = 1},
        {.name = "at", .kind = DESIGN_POINT, .offset = offsetof(window, at)},
        {.name = "turn",
         .kind = DESIGN_ANGLE,
         .offset = offsetof(window, turn_rad),
         .low = -2 * SW_PI,
         .high = 2 * SW_PI},
        {DESIGN_FIELD(window, edge, DESIGN_TEXT)},
    };
    design_scope s;
    window w = {.edge = ""};
    if (!design_open(L, "", "window", &s)) return push_bad_cuts(&s);
    bool good = design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &w);
    if (lua_getfield(L, 1, "outline") == LUA_TNIL) (void)lua_geti(L, 1, 1);
    const design_outline *o = design_box(L, -1, DESIGN_OUTLINE_BOX);
    if (o == NULL)
        design_fault(&s, "outline", "is %s, but an outline is needed, e.g. rectangle {40*mm, 20*mm}",
                     design_describe(&s, -1));
    if (!good || o == NULL || o->bad) return push_bad_cuts(&s);
    sw_contour c;
    design_outline_contour(s.d, o, &c);
    if (c.n == 0) return push_bad_cuts(&s);
    sw_motion motion = {.turn_rad = w.turn_rad, .dx_mm = w.at.x_mm, .dy_mm = w.at.y_mm};
    design_must(s.d, sw_contour_moved(s.d->run, c, motion, &c));
    return push_one(&s, c, w.edge);
}

/* ---- repeated ---- */

typedef struct repeat {
    sw_point step;
    double step_x_mm, step_y_mm;
    size_t count, count_x, count_y;
} repeat;

static const design_cuts *repeated_one(const design_scope *s)
{
    lua_State *L = s->d->L;
    (void)lua_geti(L, s->table, 1);
    const design_cuts *one = design_box(L, -1, DESIGN_CUTS_BOX);
    if (one == NULL)
        design_fault(
            s, "[1]",
            "is %s, but a hole, slot or window is needed first, e.g. row { hole {...}, step = ..., count = 5 }",
            design_describe(s, -1));
    lua_pop(L, 1);
    return one;
}

static int push_repeated(const design_scope *s, const design_cuts *one, sw_point step_x, size_t nx, sw_point step_y,
                         size_t ny)
{
    size_t total = one->count * nx * ny, n = 0;
    if (total > MOST_CUTS) {
        design_fault(s, "count", "gives %zu holes, allowed is %d at most", total, MOST_CUTS);
        return push_bad_cuts(s);
    }
    for (size_t i = 0; i < nx * ny; i++) design_charge_contours(s->d, one->c, one->count);
    sw_contour *all = DESIGN_TAKE(s->d, total, sw_contour);
    const char **edge = DESIGN_TAKE(s->d, total, const char *);
    for (size_t y = 0; y < ny; y++)
        for (size_t x = 0; x < nx; x++)
            for (size_t i = 0; i < one->count; i++) {
                double fx = (double)x, fy = (double)y;
                sw_motion motion = {.dx_mm = fx * step_x.x_mm + fy * step_y.x_mm,
                                    .dy_mm = fx * step_x.y_mm + fy * step_y.y_mm};
                design_must(s->d, sw_contour_moved(s->d->run, one->c[i], motion, &all[n]));
                bool named = one->edge[i][0] != '\0';
                edge[n] = named ? design_text(s->d, "%s %zu", one->edge[i], n / one->count + 1) : "";
                n++;
            }
    return push_cuts(s, (design_cuts){all, edge, total, false});
}

static int make_row(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "hole", .kind = DESIGN_BY_HAND, .position = 1},
        {.name = "step", .kind = DESIGN_POINT, .offset = offsetof(repeat, step), .needed = true},
        {.name = "count", .kind = DESIGN_COUNT, .offset = offsetof(repeat, count), .needed = true},
    };
    design_scope s;
    repeat r = {0};
    if (!design_open(L, "", "row", &s)) return push_bad_cuts(&s);
    bool good = design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &r);
    const design_cuts *one = repeated_one(&s);
    if (!good || one == NULL || one->bad) return push_bad_cuts(&s);
    return push_repeated(&s, one, r.step, r.count, (sw_point){0}, 1);
}

static int make_grid(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "hole", .kind = DESIGN_BY_HAND, .position = 1},
        {.name = "step_x", .kind = DESIGN_LENGTH, .offset = offsetof(repeat, step_x_mm), .needed = true},
        {.name = "step_y", .kind = DESIGN_LENGTH, .offset = offsetof(repeat, step_y_mm), .needed = true},
        {.name = "count_x", .kind = DESIGN_COUNT, .offset = offsetof(repeat, count_x), .needed = true},
        {.name = "count_y", .kind = DESIGN_COUNT, .offset = offsetof(repeat, count_y), .needed = true},
    };
    design_scope s;
    repeat r = {0};
    if (!design_open(L, "", "grid", &s)) return push_bad_cuts(&s);
    bool good = design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &r);
    const design_cuts *one = repeated_one(&s);
    if (!good || one == NULL || one->bad) return push_bad_cuts(&s);
    return push_repeated(&s, one, (sw_point){r.step_x_mm, 0.0}, r.count_x, (sw_point){0.0, r.step_y_mm}, r.count_y);
}

/* ---- marks ---- */

static int push_mark(const design_scope *s, sw_mark mark)
{
    sw_mark *held = DESIGN_TAKE(s->d, 1, sw_mark);
    *held = mark;
    design_push_box(s->d->L, DESIGN_MARK_BOX, held);
    return 1;
}

static int make_etch(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "text", .kind = DESIGN_TEXT, .offset = offsetof(sw_mark, text), .needed = true, .position = 1},
        {.name = "at", .kind = DESIGN_POINT, .offset = offsetof(sw_mark, at), .needed = true},
        {.name = "height", .kind = DESIGN_LENGTH, .offset = offsetof(sw_mark, height_mm), .low = 1.0, .high = 200.0},
        {.name = "turn",
         .kind = DESIGN_ANGLE,
         .offset = offsetof(sw_mark, turn_rad),
         .low = -2 * SW_PI,
         .high = 2 * SW_PI},
    };
    design_scope s;
    sw_mark mark = {.text = "", .height_mm = 8.0};
    if (design_open(L, "", "etch", &s)) (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &mark);
    return push_mark(&s, mark);
}

static int make_line(lua_State *L)
{
    design_scope s;
    sw_mark mark = {.text = ""};
    if (!design_open(L, "", "line", &s)) return push_mark(&s, mark);
    size_t n = lua_rawlen(L, 1);
    bool good = design_read_fields(&s, NULL, 0, true, NULL);
    if (n < 2 || n > MOST_CUTS) {
        design_fault(&s, "", "has %zu points, allowed is 2 to %d", n, MOST_CUTS);
        return push_mark(&s, mark);
    }
    sw_vertex *v = DESIGN_TAKE(s.d, n, sw_vertex);
    for (size_t i = 0; i < n; i++) {
        sw_point p = {0};
        (void)lua_geti(L, 1, (lua_Integer)i + 1);
        if (!design_read_point(&s, design_text(s.d, "[%zu]", i + 1), lua_gettop(L), &p)) good = false;
        lua_pop(L, 1);
        v[i] = (sw_vertex){p.x_mm, p.y_mm, 0.0};
    }
    if (good) mark.path = (sw_path){v, n};
    return push_mark(&s, mark);
}

/* ---- lists of them in a face ---- */

typedef struct cut {
    sw_contour c;
    const char *edge;
} cut;

static void append_cuts(design *d, design_list *list, const design_cuts *more)
{
    design_charge_contours(d, more->c, more->count);
    for (size_t i = 0; i < more->count; i++)
        *(cut *)design_append(d, list, sizeof(cut)) = (cut){more->c[i], more->edge[i]};
}

static void keep_cuts(design *d, const design_list *list, design_cuts *cuts)
{
    const cut *all = list->items;
    cuts->count = list->count;
    cuts->c = DESIGN_TAKE(d, list->count, sw_contour);
    cuts->edge = DESIGN_TAKE(d, list->count, const char *);
    for (size_t i = 0; i < list->count; i++) {
        cuts->c[i] = all[i].c;
        cuts->edge[i] = all[i].edge;
    }
}

bool design_read_cuts(const design_scope *s, const char *name, design_cuts *cuts)
{
    lua_State *L = s->d->L;
    design_list list = {0};
    bool good = true;
    int type = lua_getfield(L, s->table, name);
    design_scope inner = design_within(s, name, 0);
    if (type != LUA_TNIL && type != LUA_TTABLE) {
        design_fault(s, name, "is %s, but a list in braces is needed, e.g. { hole {...}, slot {...} }",
                     design_describe(s, inner.table));
        good = false;
    }
    size_t n = type == LUA_TTABLE ? lua_rawlen(L, -1) : 0;
    if (type == LUA_TTABLE) good = design_read_fields(&inner, NULL, 0, true, NULL);
    for (size_t i = 1; i <= n && list.count <= MOST_CUTS; i++) {
        design_charge(L, DESIGN_CALL_STEPS);
        (void)lua_geti(L, inner.table, (lua_Integer)i);
        const design_cuts *one = design_box(L, -1, DESIGN_CUTS_BOX);
        if (one == NULL)
            design_fault(&inner, design_text(s->d, "[%zu]", i),
                         "is %s, but a hole, slot, window, row or grid is needed", design_describe(s, -1));
        if (one == NULL || one->bad)
            good = false;
        else
            append_cuts(s->d, &list, one);
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
    if (list.count > MOST_CUTS) {
        design_fault(s, name, "has more than %d holes, allowed is %d at most", MOST_CUTS, MOST_CUTS);
        good = false;
    }
    keep_cuts(s->d, &list, cuts);
    cuts->bad = !good;
    return good;
}

void design_read_marks(const design_scope *s, design_face *face)
{
    lua_State *L = s->d->L;
    design_list list = {0};
    int type = lua_getfield(L, s->table, "marks");
    int marks = lua_gettop(L);
    if (type != LUA_TNIL && type != LUA_TTABLE)
        design_fault(s, "marks", "is %s, but a list in braces is needed, e.g. { etch {...}, line {...} }",
                     design_describe(s, marks));
    size_t n = type == LUA_TTABLE ? lua_rawlen(L, marks) : 0;
    if (n > MOST_MARKS) design_fault(s, "marks", "has %zu marks, allowed is %d at most", n, MOST_MARKS);
    for (size_t i = 1; i <= n && i <= MOST_MARKS; i++) {
        design_charge(L, DESIGN_CALL_STEPS);
        (void)lua_geti(L, marks, (lua_Integer)i);
        const sw_mark *mark = design_box(L, -1, DESIGN_MARK_BOX);
        if (mark == NULL)
            design_fault(s, design_text(s->d, "marks[%zu]", i), "is %s, but etch {...} or line {...} is needed",
                         design_describe(s, -1));
        else
            *(sw_mark *)design_append(s->d, &list, sizeof *mark) = *mark;
        lua_pop(L, 1);
    }
    lua_pop(L, 1);
    face->mark_count = list.count;
    face->marks = (sw_mark *)design_kept(s->d, &list, sizeof(sw_mark));
}

sw_region design_read_shape(const design_scope *s, const char *outline_name)
{
    lua_State *L = s->d->L;
    sw_region none = {{NULL, 0}, NULL, 0}, shape = none;
    design_cuts holes;
    bool good = design_read_cuts(s, "holes", &holes);
    int type = lua_getfield(L, s->table, outline_name);
    const design_outline *o = design_box(L, -1, DESIGN_OUTLINE_BOX);
    if (type != LUA_TNIL && o == NULL)
        design_fault(s, outline_name, "is %s, but an outline is needed, e.g. rectangle {40*mm, 20*mm}",
                     design_describe(s, -1));
    lua_pop(L, 1);
    if (o != NULL) design_outline_contour(s->d, o, &shape.outline);
    if (shape.outline.n == 0 || !good) return none;
    const char *fault = NULL;
    shape.holes = holes.c;
    shape.hole_count = holes.count;
    design_must(s->d, sw_region_fault(s->d->run, &shape, &fault));
    if (fault == NULL) return shape;
    design_fault(s, outline_name, "cannot be cut: %s", fault);
    return none;
}

int design_setup_cuts(lua_State *L)
{
    lua_register(L, "hole", make_hole);
    lua_register(L, "slot", make_slot);
    lua_register(L, "window", make_window);
    lua_register(L, "row", make_row);
    lua_register(L, "grid", make_grid);
    lua_register(L, "etch", make_etch);
    lua_register(L, "line", make_line);
    return 0;
}
