/* dossier_burning.c: fire, air and heat in the dossier: figures, balance, temperatures, a whole burn. */
#include "papers/chart_parts.h"
#include "papers/doc_parts.h"

#include <math.h>

static const char *celsius(sw_run *run, double t_k)
{
    return words_number(run, sw_c_from_k(t_k), 0);
}

static const char *fixed(sw_run *run, double value, int decimals)
{
    return isfinite(value) ? sw_text_format(run, run->scratch, "%.*f", decimals, value) : "\xe2\x80\x93";
}

/* A share that ought to be nothing, in %, rounded up. */
static const char *closed(sw_run *run, double share)
{
    static const double told = 1e-3; /* % */
    double percent = 100 * fabs(share);
    if (percent < told) return "0.001";
    return sw_text_format(run, run->scratch, "%.2g", percent);
}

typedef struct fact {
    const char *name, *value, *unit;
} fact;

/* Two columns of facts, the first half to the left. */
static sw_status fact_table(sw_run *run, doc_book *doc, const fact *facts, size_t count)
{
    static const doc_column columns[] = {
        {"at the duty", 2.6, SW_LEFT},         {"", 0.8, SW_RIGHT}, {"", 0.8, SW_LEFT},
        {"where the heat goes", 2.6, SW_LEFT}, {"", 0.8, SW_RIGHT}, {"", 0.8, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = 6, .dense = true};
    size_t half = (count + 1) / 2;
    for (size_t i = 0; i < half; i++) {
        const fact *a = &facts[i], none = {"", "", ""}, *b = half + i < count ? &facts[half + i] : &none;
        const char *const cells[] = {a->name, a->value, a->unit, b->name, b->value, b->unit};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

static sw_status fire_table(sw_run *run, doc_book *doc, const sw_burned *b)
{
    const sw_burn_point *p = b->point;
    double refuel_s = doc->d->model.stove->duty.refuel_s;
    const fact facts[] = {
        {"wood burnt", fixed(run, p->fuel_kg_s * sw_s_from_h(1), 2), "kg/h"},
        {"charge at each refuelling", fixed(run, p->fuel_kg_s * refuel_s, 2), "kg"},
        {"excess air ratio", fixed(run, p->lambda, 2), ""},
        {"combustion air", fixed(run, p->fire.air_kg_s * 1e3, 2), "g/s"},
        {"flue gas", fixed(run, p->gas_kg_s * 1e3, 2), "g/s"},
        {"flue gas at the collar", celsius(run, p->flue_k), CELSIUS},
        {"dew point of the flue gas", celsius(run, p->gas.dew_point_k), CELSIUS},
        {"CO\xe2\x82\x82, dry", fixed(run, p->gas.co2_dry * 100, 1), "%"},
        {"efficiency", fixed(run, p->efficiency * 100, 1), "%"},
        {"into the room", fixed(run, p->output_w * 1e-3, 2), "kW"},
        {"through the pane as radiation", words_number(run, p->heat.transmitted_w, 0), "W"},
        {"from the pane's surface", words_number(run, p->heat.glass_w, 0), "W"},
        {"from shell and other surfaces", words_number(run, p->heat.shell_w, 0), "W"},
        {"by the air of the gap", words_number(run, p->heat.gap_w, 0), "W"},
        {"into the floor", words_number(run, p->heat.below_w, 0), "W"},
        {"up the flue", words_number(run, p->heat.flue_w, 0), "W"},
        {"the balance closes within", closed(run, p->balance), "%"},
    };
    return fact_table(run, doc, facts, sizeof facts / sizeof *facts);
}

static sw_status part_table(sw_run *run, doc_book *doc, const sw_burned *b)
{
    static const doc_column columns[] = {{"part", 2.6, SW_LEFT},
                                         {"material", 2.0, SW_LEFT},
                                         {"hot side, " CELSIUS, 1.0, SW_RIGHT},
                                         {"cold side, " CELSIUS, 1.0, SW_RIGHT},
                                         {"most in a burn, " CELSIUS, 1.2, SW_RIGHT}};
    doc_table table = {.columns = columns, .column_count = 5, .dense = true};
    for (size_t i = 0; i < b->scene->part_count; i++) {
        const sw_scene_part *part = &b->scene->parts[i];
        if (part->kind == SW_PART_SMALL) continue;
        const char *const cells[] = {part->name, part->material == NULL ? "" : part->material->name,
                                     celsius(run, b->hot_k[i]), celsius(run, b->cold_k[i]),
                                     b->through == NULL ? "-" : celsius(run, b->through->most_k[i])};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

static sw_status section_figure(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a, (void)b;
    return draw_section(run, doc->desk, pen, box);
}

static sw_status air_figure(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a, (void)b;
    return draw_air(run, doc->desk, pen, box);
}

static sw_status burn_figure(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a, (void)b;
    return draw_burn(run, doc->d, pen, box);
}

static sw_status figure(sw_run *run, doc_book *doc, doc_figure shape, const char *text)
{
    return doc_add(run, doc, (doc_block){.kind = DOC_FIGURE, .text = text, .figure = shape});
}

static sw_status burn_pages(sw_run *run, doc_book *doc, const sw_burn_run *r)
{
    if (!heat_has_burn(doc->d)) return SW_OK;
    SW_TRY(doc_heading(run, doc, 2, "A burn from cold"));
    SW_TRY(doc_paragraph(
        run, doc,
        sw_text_format(
            run, run->scratch,
            "Lit with one charge, then a charge at every refuelling time. Of the wood's heat %.1f %% goes into "
            "the room, %.1f %% up the flue and %.1f %% is still stored in the stove at the end; mean excess air "
            "ratio %.2f, mean flue gas %.0f " CELSIUS ". The balance closes within %s %%.",
            100 * r->output_j / r->fuel_j, 100 * r->flue_j / r->fuel_j, 100 * r->stored_j / r->fuel_j, r->mean_lambda,
            sw_c_from_k(r->mean_flue_k), closed(run, r->balance))));
    return figure(run, doc, (doc_figure){burn_figure, 0, 0, 170, 116},
                  "Power, temperatures, excess air and wood over the burn.");
}

sw_status dossier_burning(sw_run *run, doc_book *doc)
{
    const sw_burned *b = doc->d->burned;
    if (!heat_is_known(doc->d)) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "Fire, air and heat"));
    SW_TRY(doc_paragraph(run, doc,
                         sw_text_format(run, run->scratch,
                                        "%s with %.0f %% water, draught %.1f Pa at the collar, room %.0f " CELSIUS
                                        ". Computed from the parts as "
                                        "they stand; supports and never replaces the type test.",
                                        b->fire->fuel.name, 100 * b->options->moisture, b->options->draught_pa,
                                        b->options->room_c)));
    SW_TRY(fire_table(run, doc, b));
    double parts_mm = section_height(doc->desk, DOC_WIDTH_MM - 2 * SECTION_LABELS_MM, 134) + 12,
           air_mm = section_height(doc->desk, DOC_WIDTH_MM - 2 * AIR_LABELS_MM, 86) + 8;
    SW_TRY(figure(run, doc, (doc_figure){section_figure, 0, 0, parts_mm, 0.8 * parts_mm},
                  "Section through the middle, front to the left: temperatures of the parts at the duty (hot sides of "
                  "boards)."));
    SW_TRY(figure(run, doc, (doc_figure){air_figure, 0, 0, air_mm, 0.8 * air_mm},
                  "Where the air comes in and the gas goes; width of arrows by mass flow."));
    SW_TRY(burn_pages(run, doc, b->through));
    SW_TRY(doc_heading(run, doc, 2, "Temperatures of the parts"));
    return part_table(run, doc, b);
}
