/* dossier_burning.c: fire, air and heat in the dossier: figures, balance, temperatures, a whole burn. */
#include "papers/chart_parts.h"
#include "papers/doc_parts.h"

#include <math.h>

static const char *celsius(sw_run *run, double t_k)
{
    return words_number(run, sw_c_from_k(t_k), 0);
}

static sw_status pair_row(sw_run *run, doc_table *table, const char *name, const char *value, const char *unit)
{
    const char *const cells[] = {name, value, unit};
    return doc_row(run, table, cells);
}

static sw_status fire_table(sw_run *run, doc_book *doc, const sw_burned *b)
{
    static const doc_column columns[] = {
        {"at the duty", 3.4, SW_LEFT}, {"value", 1.0, SW_RIGHT}, {"unit", 1.6, SW_LEFT}};
    const sw_burn_point *p = b->point;
    doc_table table = {.columns = columns, .column_count = 3};
    double refuel_s = doc->d->model.stove->duty.refuel_s;
    SW_TRY(pair_row(run, &table, "heat into the room", words_number(run, p->output_w * 1e-3, 2), "kW"));
    SW_TRY(pair_row(run, &table, "wood burnt", words_number(run, p->fuel_kg_s * sw_s_from_h(1), 2), "kg/h"));
    SW_TRY(pair_row(run, &table, "charge at each refuelling", words_number(run, p->fuel_kg_s * refuel_s, 2), "kg"));
    SW_TRY(pair_row(run, &table, "efficiency", words_number(run, p->efficiency * 100, 1), "%"));
    SW_TRY(pair_row(run, &table, "excess air ratio", words_number(run, p->lambda, 2), ""));
    SW_TRY(pair_row(run, &table, "combustion air", words_number(run, p->fire.air_kg_s * 1e3, 2), "g/s"));
    SW_TRY(pair_row(run, &table, "flue gas", words_number(run, p->gas_kg_s * 1e3, 2), "g/s"));
    SW_TRY(pair_row(run, &table, "flue gas at the collar", celsius(run, p->flue_k),
                    "\xc2\xb0"
                    "C"));
    SW_TRY(pair_row(run, &table, "CO2, dry", words_number(run, p->gas.co2_dry * 100, 1), "%"));
    SW_TRY(pair_row(run, &table, "dew point of the flue gas", celsius(run, p->gas.dew_point_k),
                    "\xc2\xb0"
                    "C"));
    SW_TRY(pair_row(run, &table, "through the pane as radiation", words_number(run, p->heat.transmitted_w, 0), "W"));
    SW_TRY(pair_row(run, &table, "from the pane's surface", words_number(run, p->heat.glass_w, 0), "W"));
    SW_TRY(pair_row(run, &table, "from shell and other surfaces", words_number(run, p->heat.shell_w, 0), "W"));
    SW_TRY(pair_row(run, &table, "by the air of the convection gap", words_number(run, p->heat.gap_w, 0), "W"));
    SW_TRY(pair_row(run, &table, "into the floor", words_number(run, p->heat.below_w, 0), "W"));
    SW_TRY(pair_row(run, &table, "up the flue", words_number(run, p->heat.flue_w, 0), "W"));
    SW_TRY(pair_row(run, &table, "balance closes to", words_number(run, p->balance * 100, 4), "% of the fire"));
    return doc_put_table(run, doc, &table);
}

static sw_status part_table(sw_run *run, doc_book *doc, const sw_burned *b)
{
    static const doc_column columns[] = {{"part", 2.6, SW_LEFT},
                                         {"material", 2.0, SW_LEFT},
                                         {"hot side, \xc2\xb0"
                                          "C",
                                          1.0, SW_RIGHT},
                                         {"cold side, \xc2\xb0"
                                          "C",
                                          1.0, SW_RIGHT},
                                         {"most in a burn, \xc2\xb0"
                                          "C",
                                          1.2, SW_RIGHT}};
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
    return draw_section(run, doc->d, pen, box);
}

static sw_status air_figure(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a, (void)b;
    return draw_air(run, doc->d, pen, box);
}

static sw_status burn_figure(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a, (void)b;
    return draw_burn(run, doc->d, pen, box);
}

static sw_status figure(sw_run *run, doc_book *doc, doc_draw *draw, double height_mm, const char *text)
{
    return doc_add(run, doc, (doc_block){.kind = DOC_FIGURE, .text = text, .figure = {draw, 0, 0, height_mm}});
}

static sw_status burn_pages(sw_run *run, doc_book *doc, const sw_burn_run *r)
{
    if (r == NULL || r->sample_count < 2) return SW_OK;
    SW_TRY(doc_heading(run, doc, 2, "A burn from cold"));
    SW_TRY(doc_paragraph(
        run, doc,
        sw_text_format(
            run, run->scratch,
            "Lit with one charge, then a charge at every refuelling time. Of the wood's heat %.1f %% goes into "
            "the room, %.1f %% up the flue and %.1f %% is still stored in the stove at the end; mean excess air "
            "ratio %.2f, mean flue gas %.0f \xc2\xb0"
            "C. The balance closes to %.3f %%.",
            100 * r->output_j / r->fuel_j, 100 * r->flue_j / r->fuel_j, 100 * r->stored_j / r->fuel_j, r->mean_lambda,
            sw_c_from_k(r->mean_flue_k), 100 * r->balance)));
    return figure(run, doc, burn_figure, 170, "Power, temperatures, excess air and wood over the burn.");
}

sw_status dossier_burning(sw_run *run, doc_book *doc)
{
    const sw_burned *b = doc->d->burned;
    if (b == NULL || b->point == NULL || b->fire == NULL || b->air == NULL) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "Fire, air and heat"));
    SW_TRY(doc_paragraph(run, doc,
                         sw_text_format(run, run->scratch,
                                        "%s with %.0f %% water, draught %.1f Pa at the collar, room %.0f \xc2\xb0"
                                        "C. Computed from the parts as "
                                        "they stand; supports and never replaces the type test.",
                                        b->fire->fuel.name, 100 * b->options->moisture, b->options->draught_pa,
                                        b->options->room_c)));
    SW_TRY(fire_table(run, doc, b));
    SW_TRY(figure(
        run, doc, section_figure, 150,
        "Section through the middle, front to the left: temperatures of the parts at the duty (hot sides of boards)."));
    SW_TRY(figure(run, doc, air_figure, 110, "Where the air comes in and the gas goes; width of arrows by mass flow."));
    SW_TRY(burn_pages(run, doc, b->through));
    SW_TRY(doc_heading(run, doc, 2, "Temperatures of the parts"));
    return part_table(run, doc, b);
}
