/* read_flue.c: pipe {...}, flue {...}, liner {...}: the stretches of a chimney, from the stove upwards. */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

enum { PARTS_MOST = 40, LAYERS_MOST = 12, BENDS_MOST = 12 };

static const char *const around_words[] = {"heated", "boiler room", "unheated", "outdoors", NULL};
_Static_assert(DESIGN_COUNT_OF(around_words) == SW_AROUNDS + 1, "one word for each sw_around");

/* Mean roughness: EN 13384-1 table B.4; from memory. */
static const char *const surface_words[] = {"welded steel",     "clay", "seamed metal", "concrete", "brick",
                                            "corrugated metal", NULL};
static const double surface_mm[] = {1.0, 1.5, 2.0, 3.0, 5.0, 5.0};
_Static_assert(DESIGN_COUNT_OF(surface_words) == DESIGN_COUNT_OF(surface_mm) + 1, "one roughness for each surface");

/* What a layer may be without its own conductivity, beside the materials of matter/: the flue study has a row for each. */
static const char *const layer_words[] = {
    "air gap", "brick",           "clay",  "concrete", "lightweight concrete", "mineral wool",      "mild steel",
    "pumice",  "stainless steel", "steel", "stone",    "vermiculite",          "vermiculite mortar"};

typedef struct part_fields {
    sw_flue_part made;
    double diameter_mm;
    int around, surface; /* -1 = not given */
    bool tee;
} part_fields;

/* ---- losses ---- */

/* Round elbows of 45 and 90 degrees 0.3 and 0.75: ASHRAE Handbook, HVAC Systems and Equipment, chimney chapter; from memory.
 * Straight lines between: ours. */
static double bend_zeta(double angle_rad)
{
    double quarters = angle_rad / (SW_PI / 2.0);
    return quarters <= 0.5 ? 0.6 * quarters : 0.3 + 0.9 * (quarters - 0.5);
}

static const double tee_zeta = 1.25; /* 90 degrees, same chapter; from memory */

static void read_flue_bend(const design_scope *s, size_t i, void *context)
{
    double angle_rad;
    sw_flue_part *part = context;
    (void)i;
    if (!design_read_quantity(s, "", s->table, DESIGN_ANGLE, &angle_rad)) return;
    if (!(angle_rad > 0.0) || angle_rad > SW_PI / 2.0 * (1.0 + 1e-9))
        design_fault(s, "", "is %g deg, allowed is above 0 to 90 deg; two bends make a sharper turn",
                     sw_deg_from_rad(angle_rad));
    else {
        part->zeta += bend_zeta(angle_rad);
        part->sharpest_rad = fmax(part->sharpest_rad, angle_rad);
        part->bends++;
    }
}

/* False and noted when the list is too long. */
static bool is_short(const design_scope *s, const char *name, size_t most)
{
    size_t n = design_entries(s, name);
    if (n > most) design_fault(s, name, "has %zu entries, allowed are %zu", n, most);
    return n <= most;
}

/* ---- layers ---- */

static bool knows_layer(const char *material)
{
    if (sw_material_find(material) != NULL) return true;
    for (size_t i = 0; i < DESIGN_COUNT_OF(layer_words); i++)
        if (strcmp(layer_words[i], material) == 0) return true;
    return false;
}

static void refuse_layer(const design_scope *s, const char *material)
{
    const char *all = "";
    for (size_t i = 0; i < DESIGN_COUNT_OF(layer_words); i++)
        all = design_text(s->d, "%s%s\"%s\"", all, i > 0 ? ", " : "", layer_words[i]);
    design_fault(s, "conductivity",
                 "is missing, and \"%.60s\" is none of %s; give conductivity, e.g. 0.07*W/m/K, or one of these%s",
                 material, all, design_hint(s->d, material, layer_words, DESIGN_COUNT_OF(layer_words)));
}

static void read_layer(const design_scope *s, size_t i, void *context)
{
    static const design_field fields[] = {
        {DESIGN_FIELD(sw_flue_layer, material, DESIGN_TEXT), .needed = true, .position = 1},
        {.name = "thickness",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(sw_flue_layer, thickness_mm),
         .needed = true,
         .low = 0.05,
         .high = 1e3,
         .position = 2},
        {DESIGN_FIELD(sw_flue_layer, conductivity, DESIGN_CONDUCTIVITY), .low = 0.005, .high = 500.0},
    };
    sw_flue_layer *layer = (sw_flue_layer *)context + i;
    *layer = (sw_flue_layer){.material = "", .conductivity = NAN};
    if (!design_is_table(s, "{ \"mineral wool\", 25*mm }")) return;
    if (!design_read_fields(s, fields, DESIGN_COUNT_OF(fields), false, layer)) return;
    if (isnan(layer->conductivity) && !knows_layer(layer->material)) refuse_layer(s, layer->material);
}

/* ---- one part ---- */

static void check_section(const design_scope *s, part_fields *f)
{
    sw_flue_part *p = &f->made;
    bool sides = !isnan(p->width_mm) || !isnan(p->depth_mm);
    p->round = !isnan(f->diameter_mm);
    if (p->round && sides)
        design_fault(s, "diameter",
                     "is given beside width or depth; a round flue has a diameter, a square one two sides");
    else if (!p->round && !sides)
        design_fault(s, "diameter", "is missing; give diameter = 150*mm, or width and depth");
    else if (!p->round && (isnan(p->width_mm) || isnan(p->depth_mm)))
        design_fault(s, isnan(p->width_mm) ? "width" : "depth", "is missing; a square flue needs width and depth");
    if (p->round) p->width_mm = p->depth_mm = f->diameter_mm;
}

static void check_run(const design_scope *s, part_fields *f)
{
    sw_flue_part *p = &f->made;
    if (isnan(p->rise_m)) {
        p->rise_m = p->length_m;
        if (p->pipe)
            design_fault(s, "rise", "is missing; say how much higher the pipe ends than it begins, e.g. 0.7*m");
    } else if (fabs(p->rise_m) > p->length_m * (1.0 + 1e-9))
        design_fault(s, "rise", "is %g m, more than the length of %g m; the length counts along the flue", p->rise_m,
                     p->length_m);
    else if (!p->pipe && p->rise_m < 0.0)
        design_fault(s, "rise", "is %g m; a chimney does not fall", p->rise_m);
    p->rise_m = fmin(p->rise_m, p->length_m); /* rounding */
}

static void check_surroundings(const design_scope *s, part_fields *f)
{
    sw_flue_part *p = &f->made;
    if (f->surface >= 0 && !isnan(p->roughness_mm))
        design_fault(s, "surface", "is given beside roughness; give one of them");
    else if (f->surface >= 0 || (p->pipe && isnan(p->roughness_mm)))
        p->roughness_mm = surface_mm[f->surface < 0 ? 0 : f->surface];
    else if (isnan(p->roughness_mm))
        design_fault(s, "surface", "is missing; give the inner surface, e.g. \"welded steel\", or roughness = 1*mm");
    if (f->around < 0 && !p->pipe)
        design_fault(s, "around",
                     "is missing; one of \"heated\", \"boiler room\", \"unheated\", \"outdoors\" is needed");
    p->around = f->around < 0 ? SW_HEATED : (sw_around)f->around;
    if (p->clad && p->around != SW_OUTDOORS)
        design_fault(s, "clad", "is true, but only what stands outdoors is clad; write around = \"outdoors\"");
}

/* Inside to outside: what holds the heat. A pipe of which nothing is said is bare sheet. */
static void check_wall(const design_scope *s, const sw_flue_part *p)
{
    double inner_mm = 2.0 * p->width_mm * p->depth_mm / (p->width_mm + p->depth_mm); /* 4 A/U; round: the diameter */
    bool layered = design_entries(s, "layers") > 0;
    if (!layered && !p->pipe && isnan(p->resistance))
        design_fault(s, "layers",
                     "is missing; give the layers from inside to outside, e.g. { { \"mild steel\", 2*mm } }, or the "
                     "declared resistance and the outer size");
    else if (!layered && !p->pipe && isnan(p->outer_mm))
        design_fault(s, "outer",
                     "is missing; a part with a declared resistance and no layers needs its outer diameter");
    if (p->outer_mm < inner_mm) design_fault(s, "outer", "is %g mm, less than the %g mm inside", p->outer_mm, inner_mm);
}

static void read_part_fields(const design_scope *s, part_fields *f)
{
#define AT(member) .offset = offsetof(part_fields, made.member)
    static const design_field fields[] = {
        {.name = "name", .kind = DESIGN_TEXT, AT(name)},
        {.name = "diameter",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(part_fields, diameter_mm),
         .low = 40,
         .high = 2e3},
        {.name = "width", .kind = DESIGN_LENGTH, AT(width_mm), .low = 40, .high = 2e3},
        {.name = "depth", .kind = DESIGN_LENGTH, AT(depth_mm), .low = 40, .high = 2e3},
        {.name = "length", .kind = DESIGN_METRES, AT(length_m), .needed = true, .low = 0.01, .high = 100.0},
        {.name = "rise", .kind = DESIGN_METRES, AT(rise_m), .low = -100.0, .high = 100.0},
        {.name = "roughness", .kind = DESIGN_LENGTH, AT(roughness_mm), .low = 0.0, .high = 20.0},
        {DESIGN_FIELD(part_fields, surface, DESIGN_WORD), .words = surface_words},
        {.name = "zeta", .kind = DESIGN_NUMBER, AT(zeta), .low = 0.0, .high = 100.0},
        {.name = "bends", .kind = DESIGN_BY_HAND},
        {DESIGN_FIELD(part_fields, tee, DESIGN_FLAG)},
        {.name = "soot_door", .kind = DESIGN_FLAG, AT(soot_door)},
        {.name = "layers", .kind = DESIGN_BY_HAND},
        {.name = "resistance", .kind = DESIGN_RESISTANCE, AT(resistance), .low = 0.0, .high = 20.0},
        {.name = "outer", .kind = DESIGN_LENGTH, AT(outer_mm), .low = 40, .high = 5e3},
        {DESIGN_FIELD(part_fields, around, DESIGN_WORD), .words = around_words},
        {.name = "clad", .kind = DESIGN_FLAG, AT(clad)},
        {.name = "designation", .kind = DESIGN_TEXT, AT(designation)},
        {.name = "combustible", .kind = DESIGN_LENGTH, AT(combustible_mm), .low = 0.0, .high = 1e4},
    };
#undef AT
    sw_flue_part *p = &f->made;
    bool good = design_read_fields(s, fields, DESIGN_COUNT_OF(fields), false, f);
    if (f->tee) p->zeta += tee_zeta, p->bends++, p->sharpest_rad = SW_PI / 2.0;
    if (is_short(s, "bends", BENDS_MOST)) (void)design_each(s, "bends", read_flue_bend, p);
    if (is_short(s, "layers", LAYERS_MOST)) {
        sw_flue_layer *layers = DESIGN_TAKE(s->d, design_entries(s, "layers"), sw_flue_layer);
        p->layer_count = design_each(s, "layers", read_layer, layers);
        p->layers = layers;
    }
    if (!good) return; /* a faulty field is told once */
    check_section(s, f);
    check_run(s, f);
    check_surroundings(s, f);
    check_wall(s, p);
}

/* ---- all parts ---- */

static void keep_part(const design_scope *s, const sw_flue_part *made)
{
    design *d = s->d;
    const sw_flue_part *all = d->parts.items;
    size_t n = d->parts.count;
    if (n >= PARTS_MOST) design_fault(s, "", "is part number %zu; a house may have %d", n + 1, PARTS_MOST);
    for (size_t i = 0; i < n; i++)
        if (strcmp(all[i].name, made->name) == 0)
            design_fault(s, "name", "\"%s\" is already taken by the part in line %d; give each its own", made->name,
                         all[i].place.line);
    if (made->pipe && n > 0 && !all[n - 1].pipe)
        design_fault(s, "", "stands after the chimney's first part; list pipes first, then the chimney upwards");
    if (n < PARTS_MOST) *(sw_flue_part *)design_append(d, &d->parts, sizeof *made) = *made;
}

static int read_part(lua_State *L, const char *kind, bool pipe, bool liner)
{
    design_scope s;
    if (!design_open(L, kind, "", &s)) return 0;
    part_fields f = {.made = {.name = "",
                              .pipe = pipe,
                              .liner = liner,
                              .width_mm = NAN,
                              .depth_mm = NAN,
                              .rise_m = NAN,
                              .roughness_mm = NAN,
                              .resistance = NAN,
                              .outer_mm = NAN,
                              .combustible_mm = NAN,
                              .designation = "",
                              .place = s.place},
                     .diameter_mm = NAN,
                     .around = -1,
                     .surface = -1};
    if (lua_getfield(L, 1, "name") == LUA_TSTRING) s.subject = design_shown(s.d, -1);
    lua_pop(L, 1);
    read_part_fields(&s, &f);
    if (f.made.name[0] == '\0')
        f.made.name = design_numbered(s.d, design_joined(s.d, kind, " ", ""), s.d->parts.count + 1, "");
    keep_part(&s, &f.made);
    return 0;
}

int design_pipe_call(lua_State *L)
{
    return read_part(L, "pipe", true, false);
}

int design_flue_call(lua_State *L)
{
    return read_part(L, "flue", false, false);
}

int design_liner_call(lua_State *L)
{
    return read_part(L, "liner", false, true);
}
