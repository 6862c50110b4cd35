/* read_stations.c: hoist {...}, trolley {...}, station {...}, labour {...}. A station without a machine (0) is kept, so
 * that the study of the line can tell what it stops. */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

/* ---- lifting ---- */

int design_hoist_call(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "name", .kind = DESIGN_TEXT, .offset = offsetof(sw_hoist, name), .needed = true},
        {DESIGN_RANGED(sw_hoist, "load", swl_kg, DESIGN_MASS, 1.0, 1e5), .needed = true},
        {DESIGN_RANGED(sw_hoist, "rigging", rigging_kg, DESIGN_MASS, 0.0, 1e4)},
        {DESIGN_RANGED(sw_hoist, "legs", legs, DESIGN_NUMBER, 1.0, 4.0)},
        {DESIGN_RANGED(sw_hoist, "leg_angle", leg_angle_rad, DESIGN_ANGLE, 0.0, 4.0 * SW_PI / 9.0)},
        {.name = "station", .kind = DESIGN_TEXT, .offset = offsetof(sw_hoist, station)},
    };
    design_scope s;
    sw_hoist made = {.name = "", .station = "", .legs = 1.0};
    if (!design_open(L, "hoist", "", &s)) return 0;
    made.place = s.place;
    (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &made);
    if (made.legs != floor(made.legs)) design_fault(&s, "legs", "is %g; a sling has 1, 2, 3 or 4", made.legs);
    design_hoist *hoist = design_add(s.d, &s.d->hoists, sizeof *hoist, "hoists");
    *hoist = (design_hoist){made, s};
    return 0;
}

int design_trolley_call(lua_State *L)
{
    static const design_field fields[] = {
        {DESIGN_RANGED(sw_trolley, "length", length_mm, DESIGN_LENGTH, 100.0, 1e4), .needed = true},
        {DESIGN_RANGED(sw_trolley, "width", width_mm, DESIGN_LENGTH, 100.0, 1e4), .needed = true},
        {DESIGN_RANGED(sw_trolley, "height", high_mm, DESIGN_LENGTH, 0.0, 3e3), .needed = true},
        {DESIGN_RANGED(sw_trolley, "stop", stop_m_s2, DESIGN_METRE_ACCELERATION, 0.0, 20.0)},
    };
    design_scope s;
    if (!design_open(L, "trolley", "", &s) || !design_once(&s, &s.d->has_trolley, "works")) return 0;
    (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &s.d->works.trolley);
    return 0;
}

/* ---- stations and people ---- */

typedef struct station_fields {
    sw_station made;
    int operation;
} station_fields;

int design_station_call(lua_State *L)
{
    /* as sw_operation_name, in the order of sw_operation */
    static const char *const operations[SW_OPERATIONS + 1] = {
        "cut",   "deburr", "bend", "roll", "tack",     "weld", "weld by hand", "leak test",
        "blast", "coat",   "cure", "line", "assemble", "test", "pack",         NULL};
    static const design_field fields[] = {
        {.name = "name", .kind = DESIGN_TEXT, .offset = offsetof(station_fields, made.name), .needed = true},
        {.name = "operation",
         .kind = DESIGN_WORD,
         .offset = offsetof(station_fields, operation),
         .needed = true,
         .words = operations},
        {DESIGN_RANGED(station_fields, "machines", made.machines, DESIGN_COUNT, 0.0, 1e3)},
        {DESIGN_RANGED(station_fields, "people", made.people, DESIGN_COUNT, 0.0, 1e3)},
        {DESIGN_RANGED(station_fields, "rate", made.rate_h, DESIGN_PER_HOUR, 0.0, 1e4)},
        {DESIGN_RANGED(station_fields, "each", made.each_s, DESIGN_TIME, 0.0, 6e5)},
        {DESIGN_RANGED(station_fields, "by_mass", made.per_kg_s, DESIGN_TIME_PER_MASS, 0.0, DESIGN_HOUR_S)},
        {DESIGN_RANGED(station_fields, "deburring", made.deburr_mm_s, DESIGN_SPEED, 0.0, 1e4)},
        {DESIGN_RANGED(station_fields, "up", made.up, DESIGN_NUMBER, 0.01, 1.0)},
        {DESIGN_RANGED(station_fields, "buffer", made.buffer, DESIGN_COUNT, 0.0, 1e5)},
    };
    design_scope s;
    station_fields f = {.made = {.name = "", .machines = 1, .people = 1, .up = 1.0}};
    if (!design_open(L, "station", "", &s)) return 0;
    f.made.place = s.place;
    bool good = design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &f);
    f.made.operation = (sw_operation)f.operation;
    if (good && f.made.deburr_mm_s > 0.0 && f.made.operation != SW_OP_DEBURR)
        design_fault(&s, "deburring", "is given, but the operation is \"%s\"; it belongs to a station that deburrs",
                     operations[f.operation]);
    design_station *station = design_add(s.d, &s.d->stations, sizeof *station, "stations");
    *station = (design_station){f.made, s};
    return 0;
}

typedef struct labour_fields {
    sw_labour made;
    int lifted_by;
} labour_fields;

int design_labour_call(lua_State *L)
{
    static const char *const people[] = {"anyone", "working adults", NULL};
    static const design_field fields[] = {
        {DESIGN_RANGED(labour_fields, "shift", made.shift_s, DESIGN_TIME, 60.0, DESIGN_DAY_S), .needed = true},
        {DESIGN_RANGED(labour_fields, "shifts", made.shifts_day, DESIGN_NUMBER, 0.1, 24.0), .needed = true},
        {DESIGN_RANGED(labour_fields, "days", made.days_week, DESIGN_NUMBER, 0.1, 7.0), .needed = true},
        {DESIGN_RANGED(labour_fields, "rate", made.rate_h, DESIGN_PER_HOUR, 0.0, 1e4)},
        {DESIGN_RANGED(labour_fields, "overhead", made.overhead, DESIGN_NUMBER, 0.0, 10.0)},
        {DESIGN_RANGED(labour_fields, "stoves_week", made.wanted_week, DESIGN_NUMBER, 0.0, 1e5)},
        {.name = "lifted_by", .kind = DESIGN_WORD, .offset = offsetof(labour_fields, lifted_by), .words = people},
    };
    design_scope s;
    labour_fields f = {.lifted_by = 0};
    if (!design_open(L, "labour", "", &s) || !design_once(&s, &s.d->has_labour, "works")) return 0;
    bool good = design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &f);
    if (good && f.made.shift_s * f.made.shifts_day > DESIGN_DAY_S)
        design_fault(&s, "shifts", "%g of %g h do not fit into a day of 24 h", f.made.shifts_day,
                     sw_h_from_s(f.made.shift_s));
    f.made.mixed = f.lifted_by == 1;
    s.d->works.labour = f.made;
    return 0;
}

/* ---- all of them ---- */

static const sw_station *named_station(const design *d, size_t count, const char *name)
{
    const design_station *all = d->stations.items;
    for (size_t i = 0; i < count; i++)
        if (strcmp(all[i].made.name, name) == 0) return &all[i].made;
    return NULL;
}

static void keep_stations(design *d)
{
    const design_station *all = d->stations.items;
    sw_station *stations = DESIGN_TAKE(d, d->stations.count, sw_station);
    for (size_t i = 0; i < d->stations.count; i++) {
        stations[i] = all[i].made;
        const sw_station *other = named_station(d, i, all[i].made.name);
        if (other != NULL && other->name[0] != '\0')
            design_fault(&all[i].scope, "name",
                         "\"%s\" is already taken by the station in line %d; several machines of one kind are one "
                         "station with machines = 2",
                         other->name, other->place.line);
    }
    d->works.stations = stations;
    d->works.station_count = d->stations.count;
}

/* A hoist stands at a station of that name; without any station the name is only told. */
static void check_hoist(design *d, const design_hoist *hoist)
{
    const design_station *all = d->stations.items;
    size_t n = d->stations.count;
    if (hoist->made.station[0] == '\0' || n == 0 || named_station(d, n, hoist->made.station) != NULL) return;
    const char **names = DESIGN_TAKE(d, n, const char *);
    for (size_t i = 0; i < n; i++) names[i] = all[i].made.name;
    design_fault(&hoist->scope, "station", "there is no station \"%s\"%s", hoist->made.station,
                 design_hint(d, hoist->made.station, names, n));
}

void design_finish_stations(design *d)
{
    const design_hoist *all = d->hoists.items;
    sw_hoist *hoists = DESIGN_TAKE(d, d->hoists.count, sw_hoist);
    for (size_t i = 0; i < d->hoists.count; i++) {
        hoists[i] = all[i].made;
        check_hoist(d, &all[i]);
    }
    d->works.hoists = hoists;
    d->works.hoist_count = d->hoists.count;
    keep_stations(d);
}
