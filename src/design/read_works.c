/* read_works.c: works {...}, sheet {...}, remnant {...}. */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

/* ---- works ---- */

typedef struct works_fields {
    sw_works made;
    sw_point remnant_least;
} works_fields;

static int make_works(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "name", .kind = DESIGN_TEXT, .offset = offsetof(works_fields, made.name), .needed = true},
        {.name = "note", .kind = DESIGN_TEXT, .offset = offsetof(works_fields, made.note)},
        {.name = "currency", .kind = DESIGN_TEXT, .offset = offsetof(works_fields, made.currency)},
        {.name = "scrap_price",
         .kind = DESIGN_PER_MASS,
         .offset = offsetof(works_fields, made.scrap_price),
         .low = 0.0,
         .high = 100.0},
        {.name = "remnant_factor",
         .kind = DESIGN_NUMBER,
         .offset = offsetof(works_fields, made.remnant_factor),
         .low = 0.0,
         .high = 1.0},
        {.name = "remnant_least", .kind = DESIGN_POINT, .offset = offsetof(works_fields, remnant_least)},
    };
    design_scope s;
    if (!design_open(L, "works", "", &s)) return 0;
    design *d = s.d;
    if (d->has_works) {
        design_fault(&s, "", "is described a second time; the first stands in line %d", d->works.place.line);
        return 0;
    }
    d->has_works = true;
    /* least remnant 500 x 300 mm: common practice, no source */
    works_fields f = {.made = {.name = "", .note = "", .currency = "EUR", .place = s.place},
                      .remnant_least = {500.0, 300.0}};
    (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &f);
    d->works.name = f.made.name;
    d->works.note = f.made.note;
    d->works.currency = f.made.currency;
    d->works.scrap_price = f.made.scrap_price;
    d->works.remnant_factor = f.made.remnant_factor;
    d->works.remnant_length_mm = f.remnant_least.x_mm;
    d->works.remnant_width_mm = f.remnant_least.y_mm;
    d->works.place = s.place;
    return 0;
}

/* ---- stock ---- */

typedef struct stock_fields {
    const char *material, *name;
    double thickness_mm, price;
    sw_point size;
    size_t count;
} stock_fields;

const sw_grade *design_works_grade(const design_scope *s, const char *name)
{
    const char *names[32];
    size_t n = 0;
    const sw_grade *grade = sw_grade_find(name);
    if (grade != NULL && (grade->kind == SW_STEEL || grade->kind == SW_STAINLESS)) return grade;
    for (size_t i = 0; i < sw_grade_count() && n < DESIGN_COUNT_OF(names); i++)
        if (sw_grade_at(i)->kind == SW_STEEL || sw_grade_at(i)->kind == SW_STAINLESS) names[n++] = sw_grade_at(i)->name;
    design_fault(s, "material", "\"%s\" is not a known grade of sheet%s", name, design_hint(s->d, name, names, n));
    return NULL;
}

/* `price` of a sheet: by mass (1.05/kg) or of one sheet (a plain number). */
static bool read_price(const design_scope *s, stock_fields *f, double *by_mass)
{
    lua_State *L = s->d->L;
    design_quantity q;
    bool good = true;
    int type = lua_getfield(L, s->table, "price");
    if (type == LUA_TNIL)
        f->price = NAN;
    else if (design_to_quantity(L, -1, &q) && design_is_number(&q) && isfinite(q.value) && q.value >= 0.0)
        f->price = q.value;
    else
        good = design_read_quantity(s, "price", lua_gettop(L), DESIGN_PER_MASS, by_mass);
    lua_pop(L, 1);
    if (good && *by_mass < 0.0) {
        design_fault(s, "price", "is negative; a price is 0 or more");
        good = false;
    }
    return good;
}

static bool read_stock(const design_scope *s, const design_field *fields, size_t count, stock_fields *f, sw_stock *made,
                       double *by_mass)
{
    *f = (stock_fields){.material = "", .name = ""};
    *by_mass = 0.0;
    if (!design_read_fields(s, fields, count, false, f) || !read_price(s, f, by_mass)) return false;
    const sw_grade *grade = design_works_grade(s, f->material);
    if (grade == NULL) return false;
    *made = (sw_stock){.name = f->name,
                       .grade = grade,
                       .thickness_mm = f->thickness_mm,
                       .count = f->count,
                       .price = f->price,
                       .place = s->place};
    return true;
}

static void set_shape(sw_stock *stock, sw_region shape, double by_mass)
{
    sw_box box = sw_contour_box(shape.outline);
    stock->shape = shape;
    stock->length_mm = box.x1_mm - box.x0_mm;
    stock->width_mm = box.y1_mm - box.y0_mm;
    double mass_kg = sw_m3_from_mm3(sw_region_area(&shape) * stock->thickness_mm) * stock->grade->density;
    if (by_mass > 0.0) stock->price = by_mass * mass_kg;
    if (isnan(stock->price)) stock->price = 0.0;
}

static void keep_stock(const design_scope *s, sw_stock made)
{
    design_stock *stock = design_add(s->d, &s->d->stock, sizeof *stock, "sheets and remnants");
    if (made.name[0] == '\0')
        made.name =
            design_text(s->d, "%s %g %gx%g", made.grade->name, made.thickness_mm, made.length_mm, made.width_mm);
    *stock = (design_stock){.made = made, .scope = *s};
}

#define STOCK_FIELDS                                                                                                   \
    {DESIGN_FIELD(stock_fields, material, DESIGN_TEXT), .needed = true, .position = 1},                                \
        {.name = "thickness",                                                                                          \
         .kind = DESIGN_LENGTH,                                                                                        \
         .offset = offsetof(stock_fields, thickness_mm),                                                               \
         .needed = true,                                                                                               \
         .low = 0.3,                                                                                                   \
         .high = 50.0,                                                                                                 \
         .position = 2},                                                                                               \
        {DESIGN_FIELD(stock_fields, name, DESIGN_TEXT)}, {DESIGN_FIELD(stock_fields, count, DESIGN_COUNT)},            \
        {.name = "zones", .kind = DESIGN_BY_HAND},                                                                     \
    {                                                                                                                  \
        .name = "price", .kind = DESIGN_BY_HAND                                                                        \
    }

static int make_sheet(lua_State *L)
{
    static const design_field fields[] = {STOCK_FIELDS,
                                          {DESIGN_FIELD(stock_fields, size, DESIGN_POINT), .needed = true}};
    design_scope s;
    stock_fields f;
    sw_stock made;
    double by_mass;
    s.d = design_of(L);
    s.d->stock_declared++;
    if (!design_open(L, "sheet", "", &s)) return 0;
    if (!read_stock(&s, fields, DESIGN_COUNT_OF(fields), &f, &made, &by_mass)) return 0;
    if (f.size.x_mm < 10.0 || f.size.y_mm < 10.0 || f.size.x_mm > 2e4 || f.size.y_mm > 2e4) {
        design_fault(&s, "size", "is %g by %g mm, allowed is 10 to 20000 mm each; x runs along the rolling direction",
                     f.size.x_mm, f.size.y_mm);
        return 0;
    }
    sw_region shape = {0};
    design_must(s.d, sw_contour_rectangle(s.d->run, (sw_box){0.0, 0.0, f.size.x_mm, f.size.y_mm}, 0.0, &shape.outline));
    if (!design_read_zones(&s, &shape, &made.zones, &made.zone_count)) return 0;
    set_shape(&made, shape, by_mass);
    keep_stock(&s, made);
    return 0;
}

static void move_zones(design *d, sw_stock *stock, double dx_mm, double dy_mm)
{
    sw_stock_zone *moved = DESIGN_TAKE(d, stock->zone_count, sw_stock_zone);
    for (size_t i = 0; i < stock->zone_count; i++) {
        sw_box b = stock->zones[i].box;
        moved[i] = (sw_stock_zone){{b.x0_mm + dx_mm, b.y0_mm + dy_mm, b.x1_mm + dx_mm, b.y1_mm + dy_mm},
                                   stock->zones[i].reason};
    }
    stock->zones = moved;
}

static int make_remnant(lua_State *L)
{
    static const design_field fields[] = {STOCK_FIELDS,
                                          {.name = "outline", .kind = DESIGN_BY_HAND, .needed = true},
                                          {.name = "holes", .kind = DESIGN_BY_HAND}};
    design_scope s;
    stock_fields f;
    sw_stock made;
    double by_mass;
    s.d = design_of(L);
    s.d->stock_declared++;
    if (!design_open(L, "remnant", "", &s)) return 0;
    bool good = read_stock(&s, fields, DESIGN_COUNT_OF(fields), &f, &made, &by_mass);
    sw_region shape, given = design_read_shape(&s, "outline");
    if (!good || given.outline.n == 0 || !design_read_zones(&s, &given, &made.zones, &made.zone_count)) return 0;
    sw_box box = sw_contour_box(given.outline);
    sw_motion motion = {.dx_mm = -box.x0_mm, .dy_mm = -box.y0_mm};
    design_must(s.d, sw_region_moved(s.d->run, &given, motion, &shape));
    move_zones(s.d, &made, motion.dx_mm, motion.dy_mm);
    made.remnant = true;
    if (made.count == 0) made.count = 1;
    set_shape(&made, shape, by_mass);
    keep_stock(&s, made);
    return 0;
}

int design_setup_works(lua_State *L)
{
    lua_register(L, "works", make_works);
    lua_register(L, "sheet", make_sheet);
    lua_register(L, "remnant", make_remnant);
    lua_register(L, "laser", design_laser_call);
    lua_register(L, "press", design_press_call);
    lua_register(L, "rolls", design_rolls_call);
    lua_register(L, "welding", design_welding_call);
    lua_register(L, "blasting", design_blasting_call);
    lua_register(L, "coating", design_coating_call);
    lua_register(L, "hoist", design_hoist_call);
    lua_register(L, "trolley", design_trolley_call);
    lua_register(L, "station", design_station_call);
    lua_register(L, "labour", design_labour_call);
    sw_works *works = &design_of(L)->works;
    works->welding.process = works->blasting.grade = works->coating.name = "";
    return 0;
}
