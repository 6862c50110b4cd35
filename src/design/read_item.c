/* read_item.c: item {...}: what is bought, cast or cut elsewhere. */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

static const char *const kind_words[] = {"cast", "bought", "board", "glass", "rope", NULL};

typedef struct item_fields {
    const char *number, *name, *group, *role, *material;
    int kind;
    double mass_kg, price, thickness_mm, length_mm, mass_per_m;
    double rope_mm, groove_depth_mm, groove_width_mm, joint_mm; /* of a rope; NAN = not given */
} item_fields;

static bool read_fields(const design_scope *s, item_fields *f)
{
    static const design_field fields[] = {
        {DESIGN_FIELD(item_fields, number, DESIGN_TEXT), .needed = true},
        {DESIGN_FIELD(item_fields, name, DESIGN_TEXT), .needed = true},
        {DESIGN_FIELD(item_fields, group, DESIGN_TEXT), .needed = true},
        {DESIGN_FIELD(item_fields, role, DESIGN_TEXT)},
        {DESIGN_FIELD(item_fields, material, DESIGN_TEXT)},
        {DESIGN_FIELD(item_fields, kind, DESIGN_WORD), .needed = true, .words = kind_words},
        {.name = "mass", .kind = DESIGN_MASS, .offset = offsetof(item_fields, mass_kg), .low = 0.0, .high = 2e3},
        {DESIGN_FIELD(item_fields, price, DESIGN_NUMBER), .low = 0.0, .high = 1e6},
        {.name = "thickness",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(item_fields, thickness_mm),
         .low = 0.1,
         .high = 1e3},
        {.name = "length", .kind = DESIGN_LENGTH, .offset = offsetof(item_fields, length_mm), .low = 1.0, .high = 1e5},
        {DESIGN_FIELD(item_fields, mass_per_m, DESIGN_MASS_PER_LENGTH), .low = 0.001, .high = 100.0},
        {DESIGN_RANGED(item_fields, "d", rope_mm, DESIGN_LENGTH, 1.0, 100.0)},
        {DESIGN_RANGED(item_fields, "joint", joint_mm, DESIGN_LENGTH, 0.0, 100.0)},
        {.name = "groove", .kind = DESIGN_BY_HAND},
        {.name = "shape", .kind = DESIGN_BY_HAND},
        {.name = "holes", .kind = DESIGN_BY_HAND},
        {.name = "place", .kind = DESIGN_BY_HAND},
        {.name = "places", .kind = DESIGN_BY_HAND},
    };
    *f = (item_fields){
        .number = "", .name = "", .group = "", .role = "other", .material = "", .mass_kg = NAN, .price = NAN};
    f->rope_mm = f->groove_depth_mm = f->groove_width_mm = f->joint_mm = NAN;
    return design_read_fields(s, fields, DESIGN_COUNT_OF(fields), false, f);
}

/* ---- a rope in its groove ---- */

static void refuse_seat(const design_scope *s, const char *field, bool given)
{
    if (given) design_fault(s, field, "is for a rope alone; leave it out, or give kind = \"rope\"");
}

static void want_for_groove(const design_scope *s, const char *field, double value)
{
    if (isnan(value)) design_fault(s, field, "is missing; a rope in a groove needs d, groove and joint");
}

/* Where the rope lies and how far from it the closed joint is: all of it or nothing. */
static void read_seat(const design_scope *s, item_fields *f)
{
    static const design_field fields[] = {
        {DESIGN_RANGED(item_fields, "depth", groove_depth_mm, DESIGN_LENGTH, 0.0, 100.0), .needed = true},
        {DESIGN_RANGED(item_fields, "width", groove_width_mm, DESIGN_LENGTH, 1.0, 200.0), .needed = true}};
    size_t before = s->d->faults;
    bool groove = design_read_part(s, "groove", "{ depth = 6*mm, width = 14*mm }", fields, DESIGN_COUNT_OF(fields), f);
    if (before != s->d->faults) return;
    if (f->kind != (int)SW_ITEM_ROPE) {
        refuse_seat(s, "d", !isnan(f->rope_mm));
        refuse_seat(s, "groove", groove);
        refuse_seat(s, "joint", !isnan(f->joint_mm));
    } else if (groove || !isnan(f->joint_mm)) {
        want_for_groove(s, "d", f->rope_mm);
        want_for_groove(s, "groove", f->groove_width_mm);
        want_for_groove(s, "joint", f->joint_mm);
    }
}

static double or_none(double given_mm)
{
    return isnan(given_mm) ? 0 : given_mm;
}

static double density_of(const design_scope *s, const item_fields *f)
{
    const char *names[32];
    size_t n = 0;
    const sw_grade *grade = sw_grade_find(f->material);
    if (grade != NULL && grade->density > 0.0) return grade->density;
    for (; n < sw_grade_count() && n < DESIGN_COUNT_OF(names); n++) names[n] = sw_grade_at(n)->name;
    if (grade != NULL || f->material[0] == '\0')
        design_fault(s, "mass", "is missing and cannot be found: the material \"%s\" has no density; give mass",
                     f->material);
    else
        design_fault(s, "material",
                     "\"%s\" is not a known material, so its mass cannot be found; give mass, or another material%s",
                     f->material, design_hint(s->d, f->material, names, n));
    return NAN;
}

/* Given, or length x mass per metre, or area x thickness x density. */
static double mass_of(const design_scope *s, const item_fields *f, const sw_region *shape)
{
    if (!isnan(f->mass_kg)) return f->mass_kg;
    if (f->length_mm > 0.0 && f->mass_per_m > 0.0) return sw_m_from_mm(f->length_mm) * f->mass_per_m;
    if (shape->outline.n > 0 && f->thickness_mm > 0.0)
        return sw_m3_from_mm3(sw_region_area(shape) * f->thickness_mm) * density_of(s, f);
    design_fault(s, "mass", "is missing; give mass, or shape and thickness, or length and mass_per_m");
    return NAN;
}

int design_item_call(lua_State *L)
{
    design_scope s;
    item_fields f;
    if (!design_open(L, "item", "", &s)) return 0;
    if (lua_getfield(L, 1, "name") == LUA_TSTRING) s.subject = design_shown(s.d, -1);
    lua_pop(L, 1);
    size_t before = s.d->faults;
    bool good = read_fields(&s, &f);
    if (good) read_seat(&s, &f);
    sw_region shape = design_read_shape(&s, "shape");
    if (good && shape.outline.n > 0 && f.thickness_mm <= 0.0)
        design_fault(&s, "thickness", "is missing; an item with a shape needs one");
    design_place *places = NULL;
    size_t place_count = 0;
    (void)design_read_places(&s, &places, &place_count);
    if (before == s.d->faults) f.mass_kg = mass_of(&s, &f, &shape);
    design_item *item = design_add(s.d, &s.d->items, sizeof *item, "items");
    *item = (design_item){.places = places, .place_count = place_count, .scope = s, .bad = before != s.d->faults};
    item->made = (sw_item){.number = f.number,
                           .name = f.name,
                           .group = f.group,
                           .role = f.role,
                           .material = f.material,
                           .kind = (sw_item_kind)f.kind,
                           .mass_kg = f.mass_kg,
                           .price = f.price,
                           .shape = shape,
                           .thickness_mm = f.thickness_mm,
                           .length_mm = f.length_mm,
                           .rope_mm = or_none(f.rope_mm),
                           .groove_depth_mm = or_none(f.groove_depth_mm),
                           .groove_width_mm = or_none(f.groove_width_mm),
                           .joint_mm = or_none(f.joint_mm),
                           .place = s.place};
    return 0;
}
