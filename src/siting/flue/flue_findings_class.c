/* flue_findings_class.c: the designation the stove needs and the one each part of the flue has; wood beside masonry. */
#include "siting/flue/flue_parts.h"

#include <math.h>

#define EN_1443                                                                                                        \
    "EN 1443: each field at least as good (seen in summaries); T400 N2 D 3 G for wood: chimney supplier, seen"

enum { highest_c = 600 };
static const int steps_c[] = {400, 450, highest_c};

static sw_status add(sw_run *run, sw_flue_result *r, sw_finding f)
{
    if (f.what == NULL || f.remedy == NULL) return SW_NO_MEMORY;
    return sw_finding_add(run, &r->findings, f, 0);
}

/* ---- needed ---- */

static double nearest_wood_mm(const sw_house *house)
{
    double least_mm = NAN;
    for (size_t i = 0; i < house->part_count; i++)
        if (!house->parts[i].pipe) least_mm = fmin(least_mm, house->parts[i].combustible_mm); /* fmin passes NAN over */
    return least_mm;
}

static double hottest_c(const sw_flue_input *in)
{
    return sw_c_from_k(fmax(in->nominal.t_k, flue_lowest_of(in).t_k));
}

/* Gas hotter than the highest class: no class suffices. handbook S1.12 */
static bool beyond_classes(const sw_flue_input *in)
{
    return hottest_c(in) > highest_c;
}

static sw_chimney_class needed_class(const sw_flue_input *in, const sw_flue_result *r)
{
    sw_chimney_class c = {.pressure = 'N', .tightness = 2, .corrosion = 3, .soot_fire = true};
    double gas_c = hottest_c(in);
    c.temperature_c = beyond_classes(in) ? highest_c + 1 : highest_c; /* which none offers */
    for (size_t i = sizeof steps_c / sizeof *steps_c; i-- > 0;)
        if (steps_c[i] >= gas_c) c.temperature_c = steps_c[i];
    c.wet = r->solved && !r->dry;
    c.distance_mm = nearest_wood_mm(in->house);
    return c;
}

static const char *write_class(sw_run *run, const sw_chimney_class *c)
{
    const char *text =
        sw_text_format(run, run->keep, "EN 1443 %sT%03d %c%d %c %d %c", c->temperature_c > highest_c ? "over " : "",
                       c->temperature_c > highest_c ? highest_c : c->temperature_c, c->pressure, c->tightness,
                       c->wet ? 'W' : 'D', c->corrosion, c->soot_fire ? 'G' : 'O');
    if (text == NULL || isnan(c->distance_mm)) return text;
    return sw_text_format(run, run->keep, "%s%.0f", text, floor(c->distance_mm));
}

/* ---- each part ---- */

static const char *what_lacks(const sw_chimney_class *has, const sw_chimney_class *need, double on_site_mm)
{
    if (!has->soot_fire) return "it does not stand a soot fire (O): not for wood";
    if (need->temperature_c > highest_c) return "the gas is hotter than any class allows";
    if (has->temperature_c < need->temperature_c) return "its temperature class is too low";
    if (has->corrosion > 0 && has->corrosion < need->corrosion) return "its corrosion class is below 3, solid fuel";
    if (need->wet && !has->wet) return "the flue gets wet and it is for dry use (D)";
    if (!isnan(on_site_mm) && !(has->distance_mm <= on_site_mm)) return "what can burn stands nearer than it allows";
    return "its pressure class is too low";
}

/* All is well but that the corrosion class is declared only (Vm): it would suit with class 3. */
static bool lacks_corrosion_alone(sw_chimney_class has, const sw_chimney_class *need, double on_site_mm)
{
    if (has.corrosion != 0) return false;
    has.corrosion = 3;
    return sw_chimney_class_suits(&has, need, on_site_mm);
}

static const char *remedy_of(const sw_flue_input *in)
{
    return beyond_classes(in) ? "cooler gas: no chimney is made for it"
                              : "a liner or chimney of the class needed, with the distance its maker states";
}

static sw_status judge_designation(sw_run *run, const sw_flue_input *in, sw_flue_result *r, const sw_flue_part *part,
                                   const sw_chimney_class *need)
{
    sw_chimney_class has, wanted = *need;
    sw_finding f = flue_finding(in, "designation", part->name);
    f.place = part->place;
    f.source = EN_1443;
    wanted.distance_mm = part->combustible_mm;
    if (!sw_chimney_class_read(part->designation, &has)) {
        f.verdict = SW_UNKNOWN;
        f.what = sw_text_format(run, run->keep, "\"%s\" is no designation of a chimney; %s is needed",
                                part->designation, r->needed);
        f.remedy = "write it as on the notice plate, such as T450 N1 D V3 L50060 G50";
        return add(run, r, f);
    }
    bool suits = sw_chimney_class_suits(&has, &wanted, part->combustible_mm),
         declared = !suits && lacks_corrosion_alone(has, &wanted, part->combustible_mm);
    const char *lack =
        declared ? "its corrosion class is declared only (Vm): the national rule for the liner's steel decides"
        : suits  ? ""
                 : what_lacks(&has, &wanted, part->combustible_mm);
    f.what = sw_text_format(run, run->keep, "%s is offered, %s is needed%s%s", part->designation, r->needed,
                            suits ? "" : ": ", lack);
    f.verdict = suits ? SW_HOLDS : declared ? SW_WATCH : SW_FAILS;
    f.remedy = suits ? "" : remedy_of(in);
    return add(run, r, f);
}

static bool masonry(const sw_flue_part *part)
{
    for (size_t i = 0; i < part->layer_count; i++) {
        const sw_flue_material *m = sw_flue_material_find(part->layers[i].material);
        if (m != NULL && m->masonry) return true;
    }
    return false;
}

/* Wood that touches a masonry stack: FS-7. */
static sw_status judge_wood(sw_run *run, const sw_flue_input *in, sw_flue_result *r, const sw_flue_part *part)
{
    if (!(part->combustible_mm < 1) || !masonry(part)) return SW_OK;
    double limit_k = sw_flue_wood_limit_k(sw_flue_hydraulic_m(part), sw_flue_outer_m(part), sw_flue_resistance(part));
    sw_finding f = flue_finding(in, "wood_contact", part->name);
    f.sense = SW_AT_MOST;
    f.value = sw_c_from_k(in->nominal.t_k);
    f.limit = sw_c_from_k(limit_k);
    f.unit = "degC";
    f.what = sw_text_format(run, run->keep,
                            "wood touches the stack: gas up to %.0f degC keeps it below 85 degC, the stove gives %.0f",
                            f.limit, f.value);
    f.source = "steady state by EN 15287-1+A1 as in a Czech article of 2016 (seen); 85 degC: EN 1443 (from memory)";
    f.remedy = f.value > f.limit ? "wood away from the stack: 40 mm and more, by the code that applies" : "";
    f.place = part->place;
    return add(run, r, f);
}

/* ---- the whole ---- */

/* The worst part's designation, or the first that is given. */
static const char *offered_by(const sw_flue_input *in, const sw_chimney_class *need)
{
    const char *first = "";
    for (size_t i = 0; i < in->house->part_count; i++) {
        const sw_flue_part *part = &in->house->parts[i];
        sw_chimney_class has;
        if (part->pipe || part->designation[0] == '\0') continue;
        if (first[0] == '\0') first = part->designation;
        if (!sw_chimney_class_read(part->designation, &has) ||
            !sw_chimney_class_suits(&has, need, part->combustible_mm))
            return part->designation;
    }
    return first;
}

static sw_status judge_missing(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    if (r->offered[0] != '\0') return SW_OK;
    sw_finding f = flue_finding(in, "designation", "chimney");
    f.what = sw_text_format(run, run->keep, "no part of the chimney has a designation; %s is needed", r->needed);
    f.verdict = beyond_classes(in) ? SW_FAILS : SW_UNKNOWN;
    f.source = EN_1443;
    f.remedy = beyond_classes(in)
                   ? remedy_of(in)
                   : "read the notice plate; without one the chimney is surveyed and classed (EN 15287-1, from memory)";
    return add(run, r, f);
}

sw_status flue_judge_class(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    sw_chimney_class need = needed_class(in, r);
    r->needed = write_class(run, &need);
    if (r->needed == NULL) return SW_NO_MEMORY;
    r->offered = offered_by(in, &need);
    SW_TRY(judge_missing(run, in, r));
    for (size_t i = 0; i < in->house->part_count; i++) {
        const sw_flue_part *part = &in->house->parts[i];
        if (part->designation[0] != '\0') SW_TRY(judge_designation(run, in, r, part, &need));
        SW_TRY(judge_wood(run, in, r, part));
    }
    return SW_OK;
}
