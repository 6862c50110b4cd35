/* read_finish.c: blasting {...}, coating {...}. */
#include "design/design_parts.h"

int design_blasting_call(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "grade", .kind = DESIGN_TEXT, .offset = offsetof(sw_blasting, grade)},
        {DESIGN_RANGED(sw_blasting, "media", media_kg_m2, DESIGN_MASS_PER_AREA, 0.0, 1e3)},
        {DESIGN_RANGED(sw_blasting, "media_price", media_price_kg, DESIGN_PER_MASS, 0.0, 1e3)},
        {DESIGN_RANGED(sw_blasting, "speed", m2_s, DESIGN_AREA_RATE, 0.0, 0.1), .needed = true},
        {DESIGN_RANGED(sw_blasting, "least", least_mm, DESIGN_LENGTH, 0.0, 50.0)},
        {DESIGN_RANGED(sw_blasting, "setup", setup_s, DESIGN_TIME, 0.0, DESIGN_DAY_S)},
        {DESIGN_RANGED(sw_blasting, "rate", rate_h, DESIGN_PER_HOUR, 0.0, 1e4)},
    };
    design_scope s;
    if (!design_open(L, "blasting", "", &s) || !design_once(&s, &s.d->has_blasting, "works")) return 0;
    s.d->works.blasting.place = s.place;
    (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &s.d->works.blasting);
    return 0;
}

int design_coating_call(lua_State *L)
{
    /* a coating stands 100 to 1200 degC; metal is cured at 20 to 400 degC. Ours: wide around what there is */
    static const design_field fields[] = {
        {.name = "name", .kind = DESIGN_TEXT, .offset = offsetof(sw_coating, name), .needed = true},
        {DESIGN_RANGED(sw_coating, "class", class_k, DESIGN_TEMPERATURE, 373.15, 1473.15), .needed = true},
        {DESIGN_RANGED(sw_coating, "solids", solids, DESIGN_NUMBER, 0.01, 1.0), .needed = true},
        {DESIGN_RANGED(sw_coating, "film", film_um, DESIGN_MICRON, 1.0, 2e3), .needed = true},
        {.name = "coats",
         .kind = DESIGN_COUNT,
         .offset = offsetof(sw_coating, coats),
         .needed = true,
         .low = 1.0,
         .high = 10.0},
        {DESIGN_RANGED(sw_coating, "transfer", transfer, DESIGN_NUMBER, 0.01, 1.0), .needed = true},
        {DESIGN_RANGED(sw_coating, "price", price_l, DESIGN_PER_LITRE, 0.0, 1e4)},
        {DESIGN_RANGED(sw_coating, "solvent", voc_kg_m3, DESIGN_DENSITY, 0.0, 1500.0)},
        {DESIGN_RANGED(sw_coating, "speed", m2_s, DESIGN_AREA_RATE, 0.0, 0.1)},
        {DESIGN_RANGED(sw_coating, "setup", setup_s, DESIGN_TIME, 0.0, DESIGN_DAY_S)},
        {DESIGN_RANGED(sw_coating, "rate", rate_h, DESIGN_PER_HOUR, 0.0, 1e4)},
        {DESIGN_RANGED(sw_coating, "dry_time", dry_s, DESIGN_TIME, 0.0, 6e5)},
        {DESIGN_RANGED(sw_coating, "cure", cure_k, DESIGN_TEMPERATURE, 293.15, 673.15)},
        {DESIGN_RANGED(sw_coating, "cure_time", cure_s, DESIGN_TIME, 0.0, 6e5)},
        {DESIGN_RANGED(sw_coating, "oven", oven_load, DESIGN_NUMBER, 0.0, 1e3)},
    };
    design_scope s;
    if (!design_open(L, "coating", "", &s) || !design_once(&s, &s.d->has_coating, "works")) return 0;
    sw_coating *coating = &s.d->works.coating;
    coating->place = s.place;
    bool good = design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, coating);
    if (good && coating->cure_k > coating->class_k)
        design_fault(&s, "cure", "is %g degC, above the class of the coating (%g degC); take both from its data sheet",
                     sw_c_from_k(coating->cure_k), sw_c_from_k(coating->class_k));
    return 0;
}
