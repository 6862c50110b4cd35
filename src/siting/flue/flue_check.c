/* flue_check.c: is there a chimney, is every part described, and are the figures possible? Every fault, not the first. */
#include "siting/flue/flue_parts.h"

#include <math.h>
#include <string.h>

typedef struct checking {
    sw_run *run;
    sw_status status;
    sw_place place;
    const char *name; /* of the part */
} checking;

static void fault(checking *k, sw_status status, const char *field, const char *text, double value)
{
    k->status = sw_fail(k->run, status, k->place, field, "%s: %s, got %g", k->name, text, value);
}

/* NAN is within no range. */
static void range(checking *k, const char *field, double value, double low, double high, const char *unit)
{
    if (value >= low && value <= high) return;
    k->status =
        sw_fail(k->run, isnan(value) ? SW_BAD_INPUT : SW_OUT_OF_RANGE, k->place, field,
                "%s: %s is %g, allowed %g to %g%s%s", k->name, field, value, low, high, unit[0] ? " " : "", unit);
}

/* ---- walls ---- */

static void check_material(checking *k, const char *name)
{
    const char *names[64];
    size_t count = 0;
    if (sw_flue_material_find(name) != NULL || sw_material_find(name) != NULL) return;
    for (size_t i = 0; i < sw_flue_material_count() && count < 64; i++) names[count++] = sw_flue_material_at(i)->name;
    for (size_t i = 0; i < sw_material_count() && count < 64; i++) names[count++] = sw_material_at(i)->name;
    const char *near = sw_text_nearest(name, names, count);
    k->status = sw_fail(k->run, SW_BAD_INPUT, k->place, "layers",
                        "%s: the material \"%s\" is not known%s%s; give its conductivity, W/(m K)", k->name, name,
                        near != NULL ? "; did you mean " : "", near != NULL ? near : "");
}

static void check_layers(checking *k, const sw_flue_part *part)
{
    for (size_t i = 0; i < part->layer_count; i++) {
        const sw_flue_layer *layer = &part->layers[i];
        range(k, "layer thickness", layer->thickness_mm, 0.01, 1000, "mm");
        if (isnan(layer->conductivity))
            check_material(k, layer->material);
        else
            range(k, "layer conductivity", layer->conductivity, 0.005, 500, "W/(m K)");
    }
}

static void check_wall(checking *k, const sw_flue_part *part)
{
    bool known = part->layer_count > 0 || !isnan(part->resistance);
    check_layers(k, part);
    if (!isnan(part->resistance)) range(k, "resistance", part->resistance, 0, INFINITY, "m2 K/W");
    if (!known && part->liner)
        fault(k, SW_BAD_INPUT, "layers",
              "the liner's wall is not described; give its layers or its declared resistance", part->resistance);
    else if (!known && !part->pipe)
        fault(k, SW_BAD_INPUT, "layers",
              "how it is built is not known; give the layers from inside to outside, or the declared resistance",
              part->resistance);
    if (isnan(part->outer_mm)) {
        if (!isnan(part->resistance) && part->layer_count == 0 && !part->pipe)
            fault(k, SW_BAD_INPUT, "outer", "with a declared resistance the outer diameter is needed, too",
                  part->outer_mm);
    } else if (!(part->outer_mm >= sw_mm_from_m(sw_flue_hydraulic_m(part)) && part->outer_mm <= 5000))
        fault(k, SW_OUT_OF_RANGE, "outer", "the outer diameter is less than the inner, or above 5000 mm",
              part->outer_mm);
}

/* ---- parts ---- */

static void check_section(checking *k, const sw_flue_part *part)
{
    range(k, "width", part->width_mm, 40, 2000, "mm");
    if (!part->round) range(k, "depth", part->depth_mm, 40, 2000, "mm");
    range(k, "roughness", part->roughness_mm, 0, 20, "mm");
    range(k, "zeta", part->zeta, 0, 100, "");
}

static void check_lengths(checking *k, const sw_flue_part *part)
{
    range(k, "length", part->length_m, 1e-6, SW_FLUE_MOST_M, "m");
    range(k, "rise", part->rise_m, part->pipe ? -SW_FLUE_MOST_M : 0, SW_FLUE_MOST_M, "m");
    if (fabs(part->rise_m) > part->length_m * (1 + 1e-9))
        fault(k, SW_BAD_INPUT, "rise", "it rises more than it is long", part->rise_m);
}

static void check_part(checking *k, const sw_house *house, size_t i)
{
    const sw_flue_part *part = &house->parts[i];
    k->place = part->place;
    k->name = part->name != NULL && part->name[0] != '\0' ? part->name : "a part of the flue";
    check_section(k, part);
    check_lengths(k, part);
    check_wall(k, part);
    if ((int)part->around < 0 || part->around >= SW_AROUNDS)
        fault(k, SW_BAD_INPUT, "around", "what is round it is not known; use heated, boiler room, unheated or outdoors",
              (double)part->around);
    if (part->pipe && i > 0 && !house->parts[i - 1].pipe)
        fault(k, SW_BAD_INPUT, "parts", "a connecting pipe cannot follow a chimney; put it before", (double)i);
}

double flue_chimney_rise_m(const sw_house *house)
{
    double sum = 0;
    for (size_t i = 0; i < house->part_count; i++)
        if (!house->parts[i].pipe) sum += house->parts[i].rise_m;
    return sum;
}

static void check_house(checking *k, const sw_house *house)
{
    bool chimney = false;
    for (size_t i = 0; i < house->part_count; i++) {
        check_part(k, house, i);
        chimney = chimney || !house->parts[i].pipe;
    }
    k->place = house->place;
    k->name = "house";
    range(k, "altitude", house->altitude_m, -430, 5000, "m");
    range(k, "least outside temperature", house->least_k, 200, 310, "K");
    range(k, "terminal zeta", house->terminal_zeta, 0, 100, "");
    if ((int)house->wind < 0 || house->wind > SW_WIND_COAST)
        fault(k, SW_BAD_INPUT, "wind", "the site is not known; use free, inland or coast", (double)house->wind);
    k->name = "stabiliser";
    range(k, "set", house->stabiliser_pa, 0, 200, "Pa");
    range(k, "diameter", house->stabiliser_mm, 0, 1000, "mm");
    k->name = "house";
    if (!chimney) {
        fault(k, SW_BAD_INPUT, "parts", "there is no chimney; describe at least one part of it", 0);
        return;
    }
    double rise_m = flue_chimney_rise_m(house);
    if (!(rise_m > 0 && rise_m <= SW_FLUE_MOST_M))
        fault(k, SW_OUT_OF_RANGE, "rise", "the chimney's height must be above 0 and at most 100 m", rise_m);
}

/* ---- stove ---- */

static void check_appliance(checking *k, const sw_flue_appliance *a, const char *name)
{
    k->name = name;
    range(k, "gas flow", a->kg_s, 1e-6, 1, "kg/s");
    range(k, "gas temperature", a->t_k, 200, 1500, "K");
    range(k, "draught needed", a->need_pa, 0, 200, "Pa");
    if (!isnan(a->most_pa)) range(k, "largest draught", a->most_pa, 1, 200, "Pa");
    range(k, "share of CO2", a->co2_dry, 0.02, 0.25, "");
}

static void check_around(checking *k, const sw_flue_input *in)
{
    k->name = "stove";
    range(k, "outlet", in->collar_mm, 0, 1000, "mm");
    range(k, "width of the door", in->door_width_mm, 0, 3000, "mm");
    range(k, "height of the door", in->door_height_mm, 0, 3000, "mm");
    if (!isnan(in->throat_m2)) range(k, "throat", in->throat_m2, 0, 10, "m2"); /* NAN: a stove without a baffle */
    k->name = "room";
    if (in->supply_computed) range(k, "supply of air", in->supply_pa, 0, 1000, "Pa");
}

static void check_wood(checking *k, const sw_flue_input *in)
{
    const sw_flue_wood *w = &in->wood;
    k->name = "wood";
    range(k, "carbon", w->c, 0.05, 1, "");
    range(k, "hydrogen", w->h, 0, 1, "");
    range(k, "oxygen", w->o, 0, 1, "");
    range(k, "water", w->water, 0, 0.8, "");
    range(k, "heating value", w->lhv, 1e6, 1e8, "J/kg");
    range(k, "sum of shares", w->c + w->h + w->o + w->water, 0, 1 + 1e-9, "");
    double most = sw_flue_gas_of(w, in->nominal.co2_dry).co2_max;
    if (in->nominal.co2_dry > most)
        k->status = sw_fail(k->run, SW_OUT_OF_RANGE, k->place, "co2", "%g of CO2 is more than this wood can make, %g",
                            in->nominal.co2_dry, most);
}

sw_status sw_flue_check_house(sw_run *run, const sw_house *house)
{
    checking k = {.run = run, .status = SW_OK, .name = ""};
    check_house(&k, house);
    return k.status;
}

sw_status sw_flue_check(sw_run *run, const sw_flue_input *in, const sw_flue_options *opt)
{
    size_t count = 0;
    const sw_option *table = sw_flue_option_table(&count);
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    checking k = {.run = run, .status = sw_options_check(run, table, count, opt), .name = ""};
    if (in->house == NULL)
        return sw_fail(run, SW_BAD_INPUT, k.place, "house", "there is no house, so no chimney; describe one");
    check_house(&k, in->house);
    k.place = in->house->place;
    check_appliance(&k, &in->nominal, "stove at nominal output");
    if (in->lowest.kg_s != 0) check_appliance(&k, &in->lowest, "stove at lowest output");
    check_wood(&k, in);
    check_around(&k, in);
    return k.status;
}
