/* read_joint.c: joint {...}: which edge meets what, and how it is welded. Names are looked up when all is read. */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

static const char *const kind_words[] = {"butt", "corner", "lap", "tee", "slot and tab", "interlock", NULL};
static const char *const seam_words[] = {"none", "fillet", "square butt", "outside corner", "plug", NULL};

typedef struct joint_fields {
    const char *name;
    int kind, seam;
    double throat_mm, gap_mm, stitch_mm, pitch_mm;
    bool tight;
} joint_fields;

static void read_end(const design_scope *s, const char *name, bool needs_edge, design_joint_end *end)
{
    static const design_field fields[] = {
        {DESIGN_FIELD(design_joint_end, piece, DESIGN_TEXT), .needed = true, .position = 1},
        {DESIGN_FIELD(design_joint_end, edge, DESIGN_TEXT)},
        {DESIGN_FIELD(design_joint_end, face, DESIGN_TEXT)},
        {DESIGN_FIELD(design_joint_end, place, DESIGN_COUNT), .low = 1, .high = 1000},
    };
    lua_State *L = s->d->L;
    *end = (design_joint_end){.piece = "", .edge = "", .face = "", .place = 1};
    int type = lua_getfield(L, s->table, name);
    design_scope inner = design_within(s, name, 0);
    if (type != LUA_TTABLE)
        design_fault(s, name, "is %s, but a piece and its edge are needed, e.g. { \"left side\", edge = \"right\" }",
                     type == LUA_TNIL ? "missing" : design_describe(s, inner.table));
    else if (design_read_fields(&inner, fields, DESIGN_COUNT_OF(fields), false, end)) {
        if (end->edge[0] != '\0' && end->face[0] != '\0')
            design_fault(&inner, "face", "and edge are both given; give one of them");
        if (needs_edge && end->edge[0] == '\0')
            design_fault(&inner, "edge", "is missing; the first end of a joint is an edge");
    }
    lua_pop(L, 1);
}

static void check_seam(const design_scope *s, const joint_fields *f)
{
    if (f->seam == SW_SEAM_NONE && f->throat_mm > 0.0) design_fault(s, "throat", "is given, but the seam is \"none\"");
    if (f->seam == SW_SEAM_FILLET && f->throat_mm <= 0.0)
        design_fault(s, "throat", "is missing; a fillet seam needs one, e.g. 2.5*mm");
    if ((f->stitch_mm > 0.0) != (f->pitch_mm > 0.0))
        design_fault(s, f->stitch_mm > 0.0 ? "pitch" : "stitch",
                     "is missing; an interrupted seam needs both stitch and pitch");
    else if (f->stitch_mm > 0.0 && f->pitch_mm <= f->stitch_mm)
        design_fault(s, "pitch", "is %g mm, it must be more than the stitch %g mm", f->pitch_mm, f->stitch_mm);
    else if (f->stitch_mm > 0.0 && f->tight)
        design_fault(s, "tight", "is true, but an interrupted seam is not gas-tight; leave stitch and pitch out");
}

int design_joint_call(lua_State *L)
{
    static const design_field fields[] = {
        {DESIGN_FIELD(joint_fields, name, DESIGN_TEXT), .needed = true},
        {DESIGN_FIELD(joint_fields, kind, DESIGN_WORD), .needed = true, .words = kind_words},
        {DESIGN_FIELD(joint_fields, seam, DESIGN_WORD), .words = seam_words},
        {.name = "throat",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(joint_fields, throat_mm),
         .low = 0.5,
         .high = 20.0},
        {.name = "gap", .kind = DESIGN_LENGTH, .offset = offsetof(joint_fields, gap_mm), .low = 0.0, .high = 50.0},
        {.name = "stitch", .kind = DESIGN_LENGTH, .offset = offsetof(joint_fields, stitch_mm), .low = 1.0, .high = 1e4},
        {.name = "pitch", .kind = DESIGN_LENGTH, .offset = offsetof(joint_fields, pitch_mm), .low = 1.0, .high = 1e4},
        {DESIGN_FIELD(joint_fields, tight, DESIGN_FLAG)},
        {.name = "a", .kind = DESIGN_BY_HAND},
        {.name = "b", .kind = DESIGN_BY_HAND},
    };
    design_scope s;
    if (!design_open(L, "joint", "", &s)) return 0;
    if (lua_getfield(L, 1, "name") == LUA_TSTRING) s.subject = design_shown(s.d, -1);
    lua_pop(L, 1);
    joint_fields f = {.name = "", .gap_mm = 0.5};
    if (design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &f)) check_seam(&s, &f);
    design_joint joint = {.scope = s};
    joint.made = (sw_joint){.name = f.name,
                            .kind = (sw_joint_kind)f.kind,
                            .seam = (sw_seam_kind)f.seam,
                            .throat_mm = f.throat_mm,
                            .gap_max_mm = f.gap_mm,
                            .stitch_mm = f.stitch_mm,
                            .pitch_mm = f.pitch_mm,
                            .tight = f.tight,
                            .place = s.place};
    read_end(&s, "a", true, &joint.a);
    read_end(&s, "b", false, &joint.b);
    *(design_joint *)design_add(s.d, &s.d->joints, sizeof joint, "joints") = joint;
    return 0;
}
