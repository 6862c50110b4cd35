/* read_face.c: a face as declared: outline, holes, marks, bends. */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

enum { DEEPEST_FACE = 24, MOST_FACES = 400 };

static void read_number_at(const design_scope *s, design_face *face)
{
    lua_State *L = s->d->L;
    int type = lua_getfield(L, s->table, "number_at");
    if (type == LUA_TBOOLEAN)
        face->no_number = !lua_toboolean(L, -1);
    else if (type != LUA_TNIL)
        face->has_number_at = design_read_point(s, "number_at", lua_gettop(L), &face->number_at);
    lua_pop(L, 1);
}

static void read_outline(const design_scope *s, design_face *face)
{
    lua_State *L = s->d->L;
    int type = lua_getfield(L, s->table, "outline");
    face->outline = design_box(L, -1, DESIGN_OUTLINE_BOX);
    if (type != LUA_TNIL && face->outline == NULL) {
        design_fault(s, "outline", "is %s, but an outline is needed, e.g. rectangle {400*mm, 500*mm}",
                     design_describe(s, -1));
        face->bad = true;
    }
    if (face->outline != NULL && face->outline->bad) face->bad = true;
    lua_pop(L, 1);
}

/* The table to read is at the top of the stack and scope s names it. */
design_face *design_read_face(const design_scope *s, int depth)
{
    static const design_field fields[] = {
        {DESIGN_FIELD(design_face, name, DESIGN_TEXT)}, {.name = "outline", .kind = DESIGN_BY_HAND},
        {.name = "holes", .kind = DESIGN_BY_HAND},      {.name = "marks", .kind = DESIGN_BY_HAND},
        {.name = "bends", .kind = DESIGN_BY_HAND},      {.name = "number_at", .kind = DESIGN_BY_HAND},
    };
    design *d = s->d;
    if (!lua_istable(d->L, s->table)) {
        design_fault(s, "", "is %s, but a table is needed, e.g. { outline = rectangle {400*mm, 500*mm} }",
                     design_describe(s, s->table));
        return NULL;
    }
    if (depth > DEEPEST_FACE) {
        design_fault(s, "", "lies more than %d bends away from the root face, or contains itself", DEEPEST_FACE);
        return NULL;
    }
    if (d->faces_read++ >= MOST_FACES) {
        if (d->faces_read == MOST_FACES + 1)
            design_fault(s, "", "is one face more than the %d a piece may have; does a face contain itself?",
                         MOST_FACES);
        return NULL;
    }
    design_face *face = DESIGN_TAKE(d, 1, design_face);
    face->name = "";
    face->at = *s;
    face->bad = !design_read_fields(s, fields, DESIGN_COUNT_OF(fields), false, face);
    read_outline(s, face);
    if (!design_read_cuts(s, "holes", &face->holes)) face->bad = true;
    design_read_marks(s, face);
    read_number_at(s, face);
    face->bends = design_read_bends(s, depth, &face->bend_count);
    return face;
}
