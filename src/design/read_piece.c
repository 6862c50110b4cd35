/* read_piece.c: piece {...} and mirror(...). */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

static const char *const turn_words[] = {"free", "quarter", "half", "fixed", NULL};
static const char *const plane_words[] = {"x", "y", "z", NULL};

typedef struct piece_fields {
    const char *number, *name, *group, *role, *material;
    double thickness_mm, at_mm;
    int turns, plane;
    bool flip;
} piece_fields;

/* What the messages call it: its name, else its number. Read before anything is checked. */
static const char *subject_of(lua_State *L, int table, const char *fallback)
{
    static const char *const keys[] = {"name", "number"};
    for (int i = 0; i < 2; i++) {
        int type = lua_getfield(L, table, keys[i]);
        const char *text = type == LUA_TSTRING ? design_shown(design_of(L), -1) : NULL;
        lua_pop(L, 1);
        if (text != NULL) return text;
    }
    return fallback;
}

static const sw_grade *sheet_grade(const design_scope *s, const char *name)
{
    const sw_grade *grade = sw_grade_find(name);
    if (grade != NULL && (grade->kind == SW_STEEL || grade->kind == SW_STAINLESS)) return grade;
    const char *names[32];
    size_t n = 0;
    for (size_t i = 0; i < sw_grade_count() && n < DESIGN_COUNT_OF(names); i++) names[n++] = sw_grade_at(i)->name;
    if (grade == NULL)
        design_fault(s, "material", "\"%s\" is not a known grade%s", name, design_hint(s->d, name, names, n));
    else
        design_fault(s, "material", "\"%s\" is no sheet steel; describe it with item { ... }", name);
    return NULL;
}

static bool read_piece_fields(const design_scope *s, piece_fields *p)
{
    static const design_field fields[] = {
        {DESIGN_FIELD(piece_fields, number, DESIGN_TEXT), .needed = true},
        {DESIGN_FIELD(piece_fields, name, DESIGN_TEXT), .needed = true},
        {DESIGN_FIELD(piece_fields, group, DESIGN_TEXT), .needed = true},
        {DESIGN_FIELD(piece_fields, role, DESIGN_TEXT)},
        {DESIGN_FIELD(piece_fields, material, DESIGN_TEXT), .needed = true},
        {.name = "thickness",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(piece_fields, thickness_mm),
         .needed = true,
         .low = 0.3,
         .high = 50.0},
        {DESIGN_FIELD(piece_fields, turns, DESIGN_WORD), .words = turn_words},
        {DESIGN_FIELD(piece_fields, flip, DESIGN_FLAG)},
        {.name = "face", .kind = DESIGN_BY_HAND, .needed = true},
        {.name = "place", .kind = DESIGN_BY_HAND},
        {.name = "places", .kind = DESIGN_BY_HAND},
    };
    *p = (piece_fields){
        .number = "", .name = "", .group = "", .role = "other", .material = "", .turns = SW_TURN_QUARTER};
    return design_read_fields(s, fields, DESIGN_COUNT_OF(fields), false, p);
}

static void read_root(design_piece *piece)
{
    lua_State *L = piece->scope.d->L;
    int type = lua_getfield(L, piece->scope.table, "face");
    if (type == LUA_TNIL) {
        piece->bad = true;
    } else {
        size_t before = piece->scope.d->faults;
        bool sheet_known = piece->made.thickness_mm > 0.0;
        design_scope inner = design_within(&piece->scope, "face", 0);
        design_face *root = design_read_face(&inner, 0);
        if (root != NULL && root->outline == NULL && !root->bad)
            design_fault(&inner, "outline", "is missing; a root face needs one, e.g. rectangle {400*mm, 500*mm}");
        bool whole = before == piece->scope.d->faults && root != NULL && !root->bad;
        if (!whole) piece->bad = true; /* noted already, perhaps where the outline was made */
        if (whole && sheet_known) design_build_piece(piece->scope.d, piece, root);
    }
    lua_pop(L, 1);
}

int design_piece_call(lua_State *L)
{
    design_scope s;
    piece_fields p;
    if (!design_open(L, "piece", "", &s)) return 0;
    s.subject = subject_of(L, 1, "piece");
    design_piece *piece = DESIGN_TAKE(s.d, 1, design_piece);
    piece->scope = s;
    piece->original = "";
    s.d->faces_read = 0;
    piece->bad = !read_piece_fields(&s, &p);
    piece->made = (sw_piece){.number = p.number,
                             .name = p.name,
                             .group = p.group,
                             .role = p.role,
                             .thickness_mm = p.thickness_mm,
                             .turns = (sw_turns)p.turns,
                             .may_flip = p.flip,
                             .mirror_of = -1,
                             .place = s.place};
    if (p.material[0] != '\0') piece->made.grade = sheet_grade(&s, p.material);
    if (piece->made.grade == NULL) piece->bad = true;
    if (!design_read_places(&s, &piece->places, &piece->place_count)) piece->bad = true;
    read_root(piece);
    design_piece *kept = design_add(s.d, &s.d->pieces, sizeof *kept, "pieces");
    *kept = *piece;
    return 0;
}

static bool read_mirror_fields(const design_scope *s, piece_fields *p)
{
    static const design_field fields[] = {
        {DESIGN_FIELD(piece_fields, number, DESIGN_TEXT), .needed = true},
        {DESIGN_FIELD(piece_fields, name, DESIGN_TEXT), .needed = true},
        {DESIGN_FIELD(piece_fields, group, DESIGN_TEXT)},
        {DESIGN_FIELD(piece_fields, role, DESIGN_TEXT)},
        {DESIGN_FIELD(piece_fields, plane, DESIGN_WORD), .needed = true, .words = plane_words},
        {.name = "at", .kind = DESIGN_LENGTH, .offset = offsetof(piece_fields, at_mm), .low = -2e4, .high = 2e4},
    };
    *p = (piece_fields){.number = "", .name = "", .group = "", .role = ""};
    return design_read_fields(s, fields, DESIGN_COUNT_OF(fields), false, p);
}

int design_mirror_call(lua_State *L)
{
    lua_settop(L, 2);
    design_scope s = {.d = design_of(L), .table = 2, .place = design_line(L), .subject = "mirror", .path = ""};
    if (lua_type(L, 1) != LUA_TSTRING || !lua_istable(L, 2)) {
        design_fault(
            &s, "",
            "needs the name of a piece and a table, e.g. mirror(\"left side\", { number = \"A-02\", name = \"right side\", plane = \"x\" })");
        return 0;
    }
    piece_fields p;
    const char *original = NULL;
    s.subject = subject_of(L, 2, "mirror");
    if (!design_read_line(&s, "", 1, (design_line_limits){DESIGN_TEXT_BYTES, true, "left side"}, &original)) return 0;
    design_piece *piece = design_add(s.d, &s.d->pieces, sizeof *piece, "pieces");
    piece->scope = s;
    piece->bad = !read_mirror_fields(&s, &p);
    piece->original = original;
    piece->plane = p.plane;
    piece->plane_mm = p.at_mm;
    piece->made = (sw_piece){.number = p.number, .name = p.name, .group = p.group, .role = p.role, .place = s.place};
    return 0;
}
