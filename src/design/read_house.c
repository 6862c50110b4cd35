/* read_house.c: house {...} and what stands, lies and blows in and around it; the flue's parts are read_flue.c.
 *
 * What nobody said stays NAN, so that a study can tell "not known" from "none". */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

enum { NEAR_MOST = 60 };

static const char *const code_words[] = {"physics", "England", "Germany", "France", "Czechia", "USA", NULL};
static const char *const wind_words[] = {"free", "inland", "coast", NULL}; /* in the order of sw_wind_site */

/* Range of a field of sw_house. */
#define HOUSE(label, sort, member, least, most)                                                                        \
    {                                                                                                                  \
        .name = label, .kind = sort, .offset = offsetof(sw_house, member), .low = least, .high = most                  \
    }
#define HOUSE_NEEDED(label, sort, member, least, most)                                                                 \
    {                                                                                                                  \
        .name = label, .kind = sort, .offset = offsetof(sw_house, member), .low = least, .high = most, .needed = true  \
    }
#define HOUSE_FLAG(label, member)                                                                                      \
    {                                                                                                                  \
        .name = label, .kind = DESIGN_FLAG, .offset = offsetof(sw_house, member)                                       \
    }

/* ---- house ---- */

static const double least_c = -15.0; /* where no national value is known: EN 13384-1, 5.7.1; from memory */

static sw_house house_unsaid(void)
{
    return (sw_house){
        .name = "",
        .note = "",
        .code = "",
        .least_k = sw_k_from_c(least_c),
        .roof = {NAN, NAN, NAN, NAN, NAN, NAN, NAN, false},
        .survey = {.leak_m3_s_m2 = NAN, .open_share = NAN},
        .room_m3 = NAN,
        .joined_m3 = NAN,
        .permeability_m_s = NAN,
        .envelope_m2 = NAN,
        .extract_m3_s = NAN,
        .vent_m2 = NAN,
        .floor_combustible = true,
        .hearth_density = NAN,
        .hearth_conductivity = NAN,
        .floor_resistance = NAN,
        .recess = {.left_mm = NAN, .thickness_mm = NAN, .lintel_resistance = NAN},
        .floor_pa = NAN,
        .alarm = {.from_stove_mm = NAN, .from_wall_mm = NAN, .below_ceiling_mm = NAN},
        .declared_kg_s = NAN,
        .declared_k = NAN,
        .declared_pa = NAN,
        .declared_most_pa = NAN,
        .declared_co2 = NAN,
    };
}

typedef struct house_fields {
    const char *name, *note;
    int code, wind;
    double altitude_m, least_k;
} house_fields;

static int make_house(lua_State *L)
{
    static const design_field fields[] = {
        {DESIGN_FIELD(house_fields, name, DESIGN_TEXT), .needed = true},
        {DESIGN_FIELD(house_fields, note, DESIGN_TEXT)},
        {DESIGN_FIELD(house_fields, code, DESIGN_WORD), .words = code_words},
        {DESIGN_FIELD(house_fields, wind, DESIGN_WORD), .words = wind_words},
        {.name = "altitude",
         .kind = DESIGN_METRES,
         .offset = offsetof(house_fields, altitude_m),
         .low = -430.0,
         .high = 5000.0},
        {.name = "least_temperature",
         .kind = DESIGN_TEMPERATURE,
         .offset = offsetof(house_fields, least_k),
         .low = 213.15, /* -60 degC */
         .high = 288.15},
    };
    design_scope s;
    if (!design_open(L, "house", "", &s)) return 0;
    design *d = s.d;
    if (d->has_house) {
        design_fault(&s, "", "is described a second time; the first stands in line %d", d->house.place.line);
        return 0;
    }
    d->has_house = true;
    house_fields f = {.name = "", .note = "", .least_k = d->house.least_k};
    (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &f);
    d->house.name = f.name;
    d->house.note = f.note;
    d->house.code = f.code == 0 ? "" : code_words[f.code];
    d->house.wind = (sw_wind_site)f.wind;
    d->house.altitude_m = f.altitude_m;
    d->house.least_k = f.least_k;
    d->house.place = s.place;
    return 0;
}

/* ---- where the flue leaves, and what was there before ---- */

/* Losses at the outlet: ASHRAE Handbook, HVAC Systems and Equipment (2016), quoted in a public calculation sheet. */
static const char *const cowl_words[] = {"open", "rain cap", "spark screen", NULL};
static const double cowl_zeta[] = {0.0, 0.5, 0.5};
_Static_assert(DESIGN_COUNT_OF(cowl_words) == DESIGN_COUNT_OF(cowl_zeta) + 1, "one loss for each cowl");

typedef struct over_there {
    double distance_m, top_m;
} over_there;

/* `window` or `neighbour`: how far away and how high its top is over where the flue leaves the roof. */
static void read_over_there(const design_scope *s, const char *name, double *distance_m, double *top_m)
{
    static const design_field fields[] = {
        {.name = "distance",
         .kind = DESIGN_METRES,
         .offset = offsetof(over_there, distance_m),
         .needed = true,
         .low = 0.0,
         .high = 1e3},
        {.name = "top",
         .kind = DESIGN_METRES,
         .offset = offsetof(over_there, top_m),
         .needed = true,
         .low = -100.0,
         .high = 100.0},
    };
    over_there f = {NAN, NAN};
    if (lua_getfield(s->d->L, s->table, name) != LUA_TNIL) {
        design_scope inner = design_within(s, name, 0);
        if (design_is_table(&inner, "{ distance = 4*m, top = -1*m }"))
            (void)design_read_fields(&inner, fields, DESIGN_COUNT_OF(fields), false, &f);
    }
    lua_pop(s->d->L, 1);
    *distance_m = f.distance_m;
    *top_m = f.top_m;
}

typedef struct terminal_fields {
    double zeta;
    int cowl; /* -1 = not given */
    sw_roof roof;
} terminal_fields;

static int make_terminal(lua_State *L)
{
#define ROOF(member) .offset = offsetof(terminal_fields, roof.member)
    static const design_field fields[] = {
        {DESIGN_FIELD(terminal_fields, zeta, DESIGN_NUMBER), .low = 0.0, .high = 20.0},
        {DESIGN_FIELD(terminal_fields, cowl, DESIGN_WORD), .words = cowl_words},
        {.name = "pitch", .kind = DESIGN_ANGLE, ROOF(pitch_rad), .low = 0.0, .high = 80.0 * SW_PI / 180.0},
        {.name = "ridge", .kind = DESIGN_METRES, ROOF(ridge_m), .low = 0.0, .high = 100.0},
        {.name = "above", .kind = DESIGN_METRES, ROOF(above_m), .low = 0.0, .high = 30.0},
        {.name = "window", .kind = DESIGN_BY_HAND},
        {.name = "neighbour", .kind = DESIGN_BY_HAND},
        {.name = "thatched", .kind = DESIGN_FLAG, ROOF(thatched)},
    };
#undef ROOF
    design_scope s;
    if (!design_open(L, "terminal", "", &s) || !design_once(&s, &s.d->seen.terminal, "house")) return 0;
    sw_house *house = &s.d->house;
    terminal_fields f = {.zeta = NAN, .cowl = -1, .roof = house->roof};
    (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &f);
    read_over_there(&s, "window", &f.roof.window_m, &f.roof.window_top_m);
    read_over_there(&s, "neighbour", &f.roof.neighbour_m, &f.roof.neighbour_top_m);
    if (f.cowl >= 0 && !isnan(f.zeta)) design_fault(&s, "cowl", "is given beside zeta; give one of them");
    if (f.cowl < 0 && isnan(f.zeta))
        design_fault(&s, "cowl", "is missing; give \"open\", \"rain cap\", \"spark screen\", or its zeta");
    house->terminal_zeta = f.cowl >= 0 ? cowl_zeta[f.cowl] : f.zeta;
    house->roof = f.roof;
    return 0;
}

static const double s_per_h = 60.0 * 60.0;

static int make_survey(lua_State *L)
{
    static const design_field fields[] = {
        HOUSE("leak", DESIGN_PER_AREA, survey.leak_m3_s_m2, 0.0, 1e5),
        HOUSE("open", DESIGN_NUMBER, survey.open_share, 0.0, 1.0),
        HOUSE_FLAG("swept", survey.swept),
        HOUSE_FLAG("tar", survey.tar),
        HOUSE_FLAG("damp", survey.damp),
        HOUSE_FLAG("cracked", survey.cracked),
        HOUSE_FLAG("shared", survey.shared),
        HOUSE_FLAG("timber_inside", survey.timber_inside),
    };
    design_scope s;
    if (!design_open(L, "survey", "", &s) || !design_once(&s, &s.d->seen.survey, "house")) return 0;
    sw_survey *survey = &s.d->house.survey;
    (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &s.d->house);
    survey->leak_m3_s_m2 /= s_per_h;
    survey->old_shaft = true;
    return 0;
}

/* ---- the room ---- */

static int make_room(lua_State *L)
{
    static const design_field fields[] = {
        HOUSE("volume", DESIGN_VOLUME, room_m3, 1.0, 1e4),
        HOUSE("joined", DESIGN_VOLUME, joined_m3, 0.0, 1e5),
        HOUSE("permeability", DESIGN_PER_AREA, permeability_m_s, 0.0, 100.0),
        HOUSE("envelope", DESIGN_AREA, envelope_m2, 1e6, 1e10),
        HOUSE("extract", DESIGN_FLOW, extract_m3_s, 0.0, 2.0),
        HOUSE("vent", DESIGN_AREA, vent_m2, 0.0, 1e6),
        HOUSE_FLAG("stabiliser", stabiliser),
        HOUSE_FLAG("direct_air", direct_air),
    };
    design_scope s;
    if (!design_open(L, "room", "", &s) || !design_once(&s, &s.d->seen.room, "house")) return 0;
    sw_house *house = &s.d->house;
    house->joined_m3 = house->extract_m3_s = house->vent_m2 = 0.0; /* a room that was looked at has none unless said */
    (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, house);
    house->permeability_m_s /= s_per_h;
    house->envelope_m2 = sw_m2_from_mm2(house->envelope_m2);
    house->vent_m2 = sw_m2_from_mm2(house->vent_m2);
    return 0;
}

typedef struct alarm_fields {
    sw_alarm made;
    int on;
} alarm_fields;

static int make_alarm(lua_State *L)
{
    static const char *const on_words[] = {"wall", "ceiling", NULL};
#define AT(member) .offset = offsetof(alarm_fields, made.member), .low = 0.0
    static const design_field fields[] = {
        {DESIGN_FIELD(alarm_fields, on, DESIGN_WORD), .needed = true, .words = on_words},
        {.name = "from_stove", .kind = DESIGN_LENGTH, AT(from_stove_mm), .high = 5e4, .needed = true},
        {.name = "from_wall", .kind = DESIGN_LENGTH, AT(from_wall_mm), .high = 2e4},
        {.name = "below_ceiling", .kind = DESIGN_LENGTH, AT(below_ceiling_mm), .high = 2e4},
    };
#undef AT
    design_scope s;
    if (!design_open(L, "alarm", "", &s) || !design_once(&s, &s.d->seen.alarm, "house")) return 0;
    alarm_fields f = {.made = s.d->house.alarm};
    bool good = design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &f);
    f.made.there = true;
    f.made.on_ceiling = f.on == 1;
    f.made.place = s.place;
    if (good && f.made.on_ceiling && isnan(f.made.from_wall_mm))
        design_fault(&s, "from_wall", "is missing; an alarm on the ceiling needs it");
    if (good && !f.made.on_ceiling && isnan(f.made.below_ceiling_mm))
        design_fault(&s, "below_ceiling", "is missing; an alarm on a wall needs it");
    s.d->house.alarm = f.made;
    return 0;
}

/* ---- what stands near ---- */

typedef struct near_fields {
    sw_near made;
    int side;
} near_fields;

static void check_near(const design_scope *s, const sw_near *made)
{
    const sw_near *all = s->d->near.items;
    size_t n = s->d->near.count;
    if (made->shield_mm > 0.0 && made->shield_mm >= made->distance_mm)
        design_fault(s, "shield",
                     "stands %g mm from the wall, but the stove only %g mm; the shield stands between them",
                     made->shield_mm, made->distance_mm);
    for (size_t i = 0; i < n; i++)
        if (strcmp(all[i].name, made->name) == 0)
            design_fault(s, "name", "\"%s\" is already taken in line %d; give each its own", made->name,
                         all[i].place.line);
    if (n == NEAR_MOST) design_fault(s, "", "is number %zu; a house may have %d", n + 1, NEAR_MOST);
}

static int make_near(lua_State *L)
{
    static const char *const side_words[] = {"back", "left", "right", "front", "above", NULL};
#define AT(member) .offset = offsetof(near_fields, made.member)
    static const design_field fields[] = {
        {.name = "name", .kind = DESIGN_TEXT, AT(name), .needed = true},
        {DESIGN_FIELD(near_fields, side, DESIGN_WORD), .needed = true, .words = side_words},
        {.name = "distance", .kind = DESIGN_LENGTH, AT(distance_mm), .needed = true, .low = 0.0, .high = 2e4},
        {.name = "combustible", .kind = DESIGN_FLAG, AT(combustible), .needed = true},
        {.name = "resistance", .kind = DESIGN_RESISTANCE, AT(resistance), .low = 1e-3, .high = 50.0},
        {.name = "thickness", .kind = DESIGN_LENGTH, AT(thickness_mm), .low = 1.0, .high = 5e3},
        {.name = "shield", .kind = DESIGN_LENGTH, AT(shield_mm), .low = 0.0, .high = 1e3},
        {.name = "shield_emissivity", .kind = DESIGN_NUMBER, AT(shield_emissivity), .low = 0.02, .high = 1.0},
    };
#undef AT
    design_scope s;
    if (!design_open(L, "near", "", &s)) return 0;
    /* a dull back, which radiates most: Incropera, table A.11, from memory */
    near_fields f = {.made = {.name = "",
                              .side = "",
                              .resistance = NAN,
                              .thickness_mm = NAN,
                              .shield_emissivity = 0.9,
                              .place = s.place}};
    bool good = design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &f);
    if (good) check_near(&s, &f.made);
    if (s.d->near.count >= NEAR_MOST) return 0;
    f.made.side = side_words[f.side];
    *(sw_near *)design_append(s.d, &s.d->near, sizeof f.made) = f.made;
    return 0;
}

static int make_hearth(lua_State *L)
{
    static const design_field fields[] = {
        HOUSE_NEEDED("width", DESIGN_LENGTH, hearth_width_mm, 100.0, 1e4),
        HOUSE_NEEDED("depth", DESIGN_LENGTH, hearth_depth_mm, 100.0, 1e4),
        HOUSE_NEEDED("thickness", DESIGN_LENGTH, hearth_mm, 0.5, 1e3),
        HOUSE_NEEDED("front", DESIGN_LENGTH, hearth_front_mm, 0.0, 1e4),
        HOUSE_NEEDED("side", DESIGN_LENGTH, hearth_side_mm, 0.0, 1e4),
        HOUSE("density", DESIGN_DENSITY, hearth_density, 100.0, 1e4),
        HOUSE("conductivity", DESIGN_CONDUCTIVITY, hearth_conductivity, 0.02, 500.0),
    };
    design_scope s;
    if (!design_open(L, "hearth", "", &s) || !design_once(&s, &s.d->seen.hearth, "house")) return 0;
    (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &s.d->house);
    return 0;
}

/* An old fireplace the stove stands in; sizes over its hearth. */
static int make_recess(lua_State *L)
{
    static const design_field fields[] = {
        HOUSE_NEEDED("width", DESIGN_LENGTH, recess.width_mm, 200.0, 1e4),
        HOUSE_NEEDED("height", DESIGN_LENGTH, recess.height_mm, 200.0, 1e4),
        HOUSE_NEEDED("depth", DESIGN_LENGTH, recess.depth_mm, 50.0, 1e4),
        HOUSE_NEEDED("back", DESIGN_LENGTH, recess.back_mm, 0.0, 1e4),
        HOUSE("left", DESIGN_LENGTH, recess.left_mm, 0.0, 1e4),
        HOUSE("thickness", DESIGN_LENGTH, recess.thickness_mm, 1.0, 5e3),
        HOUSE_FLAG("combustible", recess.combustible),
        HOUSE_FLAG("timber_lintel", recess.lintel_combustible),
        HOUSE("lintel_shield", DESIGN_LENGTH, recess.lintel_shield_mm, 0.0, 1e3),
        HOUSE("lintel_resistance", DESIGN_RESISTANCE, recess.lintel_resistance, 1e-3, 50.0),
    };
    design_scope s;
    if (!design_open(L, "recess", "", &s) || !design_once(&s, &s.d->seen.recess, "house")) return 0;
    sw_recess *r = &s.d->house.recess;
    if (!design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &s.d->house)) return 0;
    r->place = s.place;
    if (r->left_mm >= r->width_mm)
        design_fault(&s, "left", "is %g mm, but the recess is only %g mm wide", r->left_mm, r->width_mm);
    if (r->back_mm >= r->depth_mm)
        design_fault(&s, "back", "is %g mm, but the recess is only %g mm deep", r->back_mm, r->depth_mm);
    return 0;
}

/* A self-acting draught stabiliser at the chimney's foot. */
static int make_stabiliser(lua_State *L)
{
    static const design_field fields[] = {
        HOUSE("set", DESIGN_PRESSURE, stabiliser_pa, 1.0, 100.0),
        HOUSE("diameter", DESIGN_LENGTH, stabiliser_mm, 40.0, 500.0),
    };
    design_scope s;
    if (!design_open(L, "stabiliser", "", &s) || !design_once(&s, &s.d->seen.stabiliser, "house")) return 0;
    (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &s.d->house);
    s.d->house.stabiliser = true;
    return 0;
}

static int make_floor(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "combustible", .kind = DESIGN_FLAG, .offset = offsetof(sw_house, floor_combustible), .needed = true},
        HOUSE("load", DESIGN_PRESSURE, floor_pa, 100.0, 1e6),
        HOUSE("resistance", DESIGN_RESISTANCE, floor_resistance, 1e-3, 50.0),
    };
    design_scope s;
    if (!design_open(L, "floor", "", &s) || !design_once(&s, &s.d->seen.floor, "house")) return 0;
    (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &s.d->house);
    return 0;
}

/* ---- what the stove's type test declares ---- */

static int make_declared(lua_State *L)
{
    static const design_field fields[] = {
        HOUSE("flow", DESIGN_MASS_FLOW, declared_kg_s, 1e-4, 0.5),
        HOUSE("temperature", DESIGN_TEMPERATURE, declared_k, 323.15, 1273.15), /* 50 to 1000 degC */
        HOUSE("draught", DESIGN_PRESSURE, declared_pa, 0.0, 100.0),
        HOUSE("most_draught", DESIGN_PRESSURE, declared_most_pa, 1.0, 500.0),
        HOUSE("co2", DESIGN_NUMBER, declared_co2, 0.02, 0.2), /* dry; wood reaches 20 % without any air over */
    };
    design_scope s;
    if (!design_open(L, "declared", "", &s) || !design_once(&s, &s.d->seen.declared, "house")) return 0;
    sw_house *house = &s.d->house;
    if (!design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, house)) return 0;
    if (house->declared_most_pa < house->declared_pa)
        design_fault(&s, "most_draught", "is %g Pa, less than the draught of %g Pa that the stove needs",
                     house->declared_most_pa, house->declared_pa);
    return 0;
}

/* ---- all ---- */

int design_setup_house(lua_State *L)
{
    static const luaL_Reg constructors[] = {
        {"house", make_house},           {"parameter", design_parameter},
        {"pipe", design_pipe_call},      {"flue", design_flue_call},
        {"liner", design_liner_call},    {"terminal", make_terminal},
        {"survey", make_survey},         {"room", make_room},
        {"alarm", make_alarm},           {"near", make_near},
        {"hearth", make_hearth},         {"floor", make_floor},
        {"declared", make_declared},     {"recess", make_recess},
        {"stabiliser", make_stabiliser}, {NULL, NULL},
    };
    design_of(L)->house = house_unsaid();
    lua_pushglobaltable(L);
    luaL_setfuncs(L, constructors, 0);
    lua_pop(L, 1);
    return 0;
}

/* What a stove declares, in a file of its own. */
int design_setup_declared(lua_State *L)
{
    design_of(L)->house = house_unsaid();
    lua_register(L, "declared", make_declared);
    return 0;
}

void design_finish_declared(design *d)
{
    if (d->ran && !d->seen.declared)
        design_note(d, SW_BAD_INPUT, (sw_place){.file = d->file}, "declared",
                    "is missing: write declared { flow = ..., temperature = ..., draught = ..., co2 = ... }");
}

static void keep_parts(design *d)
{
    const sw_flue_part *parts = d->parts.items;
    size_t n = d->parts.count;
    if (n > 0 && parts[n - 1].pipe)
        design_note(d, SW_BAD_INPUT, parts[n - 1].place, parts[n - 1].name,
                    "leads into no chimney; give at least one flue { ... } or liner { ... } after it");
    for (size_t i = 0; i < n; i++)
        if (parts[i].liner) d->house.survey.old_shaft = true; /* a liner is put into one */
    d->house.parts = design_kept(d, &d->parts, sizeof *parts);
    d->house.part_count = n;
}

void design_finish_house(design *d)
{
    if (!d->ran) return;
    if (!d->has_house)
        design_note(d, SW_BAD_INPUT, (sw_place){.file = d->file}, "house",
                    "is missing: a house description needs house { name = ... }");
    keep_parts(d);
    d->house.near = design_kept(d, &d->near, sizeof(sw_near));
    d->house.near_count = d->near.count;
    design_check_settings(d);
}
