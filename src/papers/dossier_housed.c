/* dossier_housed.c: the stove in the house in the dossier: will the chimney do, what happens along it, sizes compared, the stove on
 * the real chimney, distances, first fire; and at the end the calculation, line by line. */
#include "papers/house_parts.h"

#include <math.h>
#include <string.h>

static sw_status drawn_profile(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a, (void)b;
    return draw_profile(run, doc->d, pen, box);
}

static sw_status drawn_start(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a, (void)b;
    return draw_start(run, doc->d, pen, box);
}

static sw_status drawn_map(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a, (void)b;
    return draw_operating(run, doc->d, pen, box);
}

static sw_status drawn_plan(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a, (void)b;
    return draw_plan(run, doc->desk, pen, box);
}

static sw_status drawn_elevation(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a, (void)b;
    return draw_elevation(run, doc->desk, pen, box);
}

static sw_status drawn_route(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a, (void)b;
    return draw_route(run, doc->d, pen, box);
}

static sw_status figure(sw_run *run, doc_book *doc, doc_draw *draw, double height_mm, const char *text)
{
    if (text == NULL) return SW_NO_MEMORY;
    return doc_add(run, doc,
                   (doc_block){.kind = DOC_FIGURE, .text = text, .figure = {.draw = draw, .height_mm = height_mm}});
}

/* ---- will the chimney do ------------------------------------------------------------------------------------------ */

typedef struct test_row {
    const char *what;
    double there, limit;
    const char *unit;
    bool at_most;
} test_row;

static sw_status test_table(sw_run *run, doc_book *doc, const sw_housed *h)
{
    const sw_flue_result *f = h->flue;
    const sw_flue_appliance *a = &h->flue_in->nominal;
    const char *low = h->flue_in->lowest.kg_s > 0 ? "the same at the lowest output"
                                                  : "the same at the lowest output, which is estimated";
    static const doc_column columns[] = {{"asked of the chimney", 4.2, SW_LEFT},
                                         {"there", 0.9, SW_RIGHT},
                                         {"limit", 1.3, SW_RIGHT},
                                         {"", 0.5, SW_LEFT},
                                         {"answer", 1.1, SW_LEFT}};
    const test_row rows[] = {
        {"draught at the chimney's foot, P_Z against P_Ze", f->pressure.P_Z, f->pressure.P_Ze, "Pa", false},
        {low, f->pressure_low.P_Z, f->pressure_low.P_Ze, "Pa", false},
        {"wall at the outlet against the dew point, T_iob and T_p", sw_c_from_k(f->temperature.outlet_wall_k),
         sw_c_from_k(f->temperature.dew_point_k), CELSIUS_C, false},
        {low, sw_c_from_k(f->temperature_low.outlet_wall_k), sw_c_from_k(f->temperature_low.dew_point_k), CELSIUS_C,
         false},
        {"most draught on the coldest day, no wind", f->over.P_Z, a->most_pa + f->over.P_FV + f->over.P_B, "Pa", true},
    };
    doc_table table = {.columns = columns, .column_count = 5};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const test_row *r = &rows[i];
        if (!isfinite(r->there)) continue;
        const char *there = house_fixed(run, r->there, 1), *limit = house_fixed(run, r->limit, 1);
        if (there == NULL || limit == NULL) return SW_NO_MEMORY;
        const char *asked =
            isnan(r->limit) ? "not stated"
                            : sw_text_format(run, run->scratch, "%s %s", r->at_most ? "at most" : "at least", limit);
        bool good = r->at_most ? r->there <= r->limit : r->there >= r->limit;
        const char *const cells[] = {r->what, there, asked, r->unit,
                                     isnan(r->limit) ? "unknown"
                                     : good          ? "holds"
                                                     : "does not hold"};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

static sw_status opening(sw_run *run, doc_book *doc, const sw_housed *h)
{
    const sw_house *house = doc->d->model.house;
    const sw_flue_appliance *a = &h->flue_in->nominal;
    SW_TRY(doc_paragraph(
        run, doc,
        sw_text_format(run, run->scratch,
                       "%s%s%s Rules: %s. %.0f m above the sea, down to %.0f " CELSIUS_C
                       " outside. The stove, %s, gives %.2f g/s of gas at %.0f " CELSIUS_C
                       " and needs %.1f Pa. Method: EN 13384-1, from memory where the findings say so.",
                       house->name, house->note[0] == '\0' ? "." : ": ", house->note,
                       house->code[0] == '\0' ? "none given, physics alone" : house->code, house->altitude_m,
                       sw_c_from_k(house->least_k), a->declared ? "as declared from its type test" : "by its own model",
                       a->kg_s * 1e3, sw_c_from_k(a->t_k), a->need_pa)));
    if (!h->flue->solved)
        return doc_paragraph(run, doc,
                             "The chimney's conditions could not be solved; the findings on the front page say why.");
    return SW_OK;
}

static sw_status in_words(sw_run *run, doc_book *doc, const sw_flue_result *f)
{
    const char *height = isnan(f->least_height_m)
                             ? "no height up to 100 m would do with all else the same"
                             : sw_text_format(run, run->scratch, "with all else the same it could be as low as %.1f m",
                                              f->least_height_m);
    const char *wet =
        isnan(f->first_wet_m)
            ? ""
            : sw_text_format(run, run->scratch, " The wall is first wet %.1f m along the chimney.", f->first_wet_m);
    if (height == NULL || wet == NULL) return SW_NO_MEMORY;
    return doc_paragraph(
        run, doc,
        sw_text_format(run, run->scratch,
                       "The chimney has %.1f Pa in reserve; %s.%s Designation needed: %s; offered: %s.", f->reserve_pa,
                       height, wet, f->needed, f->offered));
}

static sw_status segment_table(sw_run *run, doc_book *doc, const sw_flue_case *c)
{
    static const doc_column columns[] = {{"part", 2.2, SW_LEFT},
                                         {"length, m", 0.8, SW_RIGHT},
                                         {"rise, m", 0.8, SW_RIGHT},
                                         {"clear, mm", 1.1, SW_RIGHT},
                                         {"gas in, " CELSIUS_C, 0.8, SW_RIGHT},
                                         {"gas out, " CELSIUS_C, 0.8, SW_RIGHT},
                                         {"wall, " CELSIUS_C, 0.8, SW_RIGHT},
                                         {"speed, m/s", 0.8, SW_RIGHT},
                                         {"draught, Pa", 0.9, SW_RIGHT},
                                         {"resistance, Pa", 1.1, SW_RIGHT}};
    doc_table table = {.columns = columns, .column_count = 10, .dense = true};
    for (size_t i = 0; i < c->line_count; i++) {
        const sw_flue_line *l = &c->lines[i];
        const char *const cells[] = {l->part->name,
                                     house_fixed(run, l->part->length_m, 2),
                                     house_fixed(run, l->part->rise_m, 2),
                                     house_section(run, l->part),
                                     house_celsius(run, l->entry_k),
                                     house_celsius(run, l->exit_k),
                                     house_celsius(run, l->wall_k),
                                     house_fixed(run, l->velocity_m_s, 2),
                                     house_fixed(run, l->draught_pa, 1),
                                     house_fixed(run, l->friction_pa, 1)};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

static sw_status along(sw_run *run, doc_book *doc, const sw_flue_result *f)
{
    SW_TRY(doc_heading(run, doc, 2, "Along the flue"));
    SW_TRY(figure(
        run, doc, drawn_profile, 100,
        "Parts, temperatures and draught over the height above the collar. Draught: at nominal output on the mild day of the standard; ring: what is needed where the pipe enters."));
    SW_TRY(
        doc_paragraph(run, doc,
                      sw_text_format(run, run->scratch, "On the mild day, %.0f " CELSIUS_C " outside, for the draught:",
                                     sw_c_from_k(f->pressure.outside_k))));
    SW_TRY(segment_table(run, doc, &f->pressure));
    SW_TRY(doc_paragraph(run, doc,
                         sw_text_format(run, run->scratch, "At %.0f " CELSIUS_C " outside, for the wall's temperature:",
                                        sw_c_from_k(f->temperature.outside_k))));
    return segment_table(run, doc, &f->temperature);
}

/* ---- sizes, operating points, start ------------------------------------------------------------------------------- */

static sw_status sizes(sw_run *run, doc_book *doc, const sw_housed *h)
{
    static const doc_column columns[] = {{"size or liner", 3.4, SW_LEFT},
                                         {"diameter, mm", 1.1, SW_RIGHT},
                                         {"height, m", 0.9, SW_RIGHT},
                                         {"reserve, Pa", 1, SW_RIGHT},
                                         {"wall over dew point, K", 1.4, SW_RIGHT},
                                         {"over the most, Pa", 1.2, SW_RIGHT},
                                         {"holds", 0.7, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = 7, .dense = true};
    if (h->try_count == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 2, "Sizes and liners compared"));
    for (size_t i = 0; i < h->try_count; i++) {
        const sw_flue_try *t = &h->tries[i];
        const char *const cells[] = {t->what,
                                     words_number(run, t->diameter_mm, 0),
                                     house_fixed(run, t->height_m, 1),
                                     house_fixed(run, t->reserve_pa, 1),
                                     house_fixed(run, t->wall_over_dew_k, 1),
                                     house_fixed(run, t->over_pa, 1),
                                     t->holds ? "yes" : "no"};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

static sw_status operating_row(sw_run *run, doc_table *table, const char *day, const sw_draw_point *p)
{
    if (p == NULL) return SW_OK;
    bool none = !sw_draw_is_point(p->state);
    const char *dash = "\xe2\x80\x93";
    const char *const cells[] = {day,
                                 sw_draw_state_name(p->state),
                                 none ? dash : house_fixed(run, p->draught_pa, 1),
                                 none ? dash : house_fixed(run, p->lambda, 2),
                                 none ? dash : house_fixed(run, p->output_w * 1e-3, 2),
                                 none ? dash : house_fixed(run, p->efficiency * 100, 1),
                                 none ? dash : house_celsius(run, p->flue_k),
                                 none ? dash : house_celsius(run, p->outlet_k),
                                 none ? dash : house_celsius(run, p->wall_k),
                                 none ? dash : house_celsius(run, p->dew_point_k)};
    return doc_row(run, table, cells);
}

static const char *point_words(sw_run *run, const sw_draw_point *p)
{
    if (!sw_draw_is_point(p->state)) return sw_draw_state_name(p->state);
    return sw_text_format(run, run->scratch, "%s%s%.0f Pa, %.2f, %.1f kW, %.0f %%, %.0f " CELSIUS_C,
                          p->state == SW_DRAW_SAFE ? "" : sw_draw_state_name(p->state),
                          p->state == SW_DRAW_SAFE ? "" : ": ", p->draught_pa, p->lambda, p->output_w * 1e-3,
                          p->efficiency * 100, sw_c_from_k(p->flue_k));
}

enum { WEATHERS = 4 };

/* A row for each wind and slide; the draws come weather by weather within them. */
static sw_status weathers(sw_run *run, doc_book *doc, const sw_housed *h)
{
    if (h->draw_count == 0 || h->draw_count % WEATHERS != 0) return SW_OK;
    doc_column *columns = SW_SCRATCH(run, WEATHERS + 1, doc_column); /* the table is drawn later */
    if (columns == NULL) return SW_NO_MEMORY;
    columns[0] = (doc_column){"wind, wash slide", 1.1, SW_LEFT};
    for (size_t k = 0; k < WEATHERS; k++) {
        const char *head =
            sw_text_format(run, run->scratch, "%.0f " CELSIUS_C " outside", sw_c_from_k(h->draws[k].outside_k));
        if (head == NULL) return SW_NO_MEMORY;
        columns[k + 1] = (doc_column){head, 1.3, SW_LEFT};
    }
    doc_table table = {.columns = columns, .column_count = WEATHERS + 1, .dense = true};
    SW_TRY(doc_paragraph(run, doc,
                         "Over weather, wind pressing on the outlet and wash slide: draught, excess air, output, "
                         "efficiency, flue gas; the state first where it is not safe."));
    for (size_t i = 0; i < h->draw_count; i += WEATHERS) {
        const sw_draw_row *r = &h->draws[i];
        const char *cells[WEATHERS + 1] = {
            sw_text_format(run, run->scratch, "%.0f Pa, %.0f %%", r->wind_pa, 100 * r->wash_share)};
        for (size_t k = 0; k < WEATHERS; k++) cells[k + 1] = point_words(run, &r[k].point);
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

static sw_status operating(sw_run *run, doc_book *doc, const sw_housed *h)
{
    static const doc_column columns[] = {{"outside", 1.9, SW_LEFT},
                                         {"state", 1.3, SW_LEFT},
                                         {"draught, Pa", 0.9, SW_RIGHT},
                                         {"excess air", 0.8, SW_RIGHT},
                                         {"into the room, kW", 1, SW_RIGHT},
                                         {"efficiency, %", 1.1, SW_RIGHT},
                                         {"flue gas, " CELSIUS_C, 0.9, SW_RIGHT},
                                         {"at the outlet, " CELSIUS_C, 0.9, SW_RIGHT},
                                         {"its wall, " CELSIUS_C, 0.8, SW_RIGHT},
                                         {"dew point, " CELSIUS_C, 0.8, SW_RIGHT}};
    doc_table table = {.columns = columns, .column_count = 10, .dense = true};
    if (h->mild == NULL && h->cold == NULL) return SW_OK;
    SW_TRY(doc_heading(run, doc, 2, "On the real chimney"));
    SW_TRY(doc_paragraph(
        run, doc,
        "The wood of the duty burnt on the real chimney, without the standard's safety factors: stove and chimney agree on draught and gas."));
    const char *cold =
        sw_text_format(run, run->scratch, "coldest day, %.0f " CELSIUS_C, sw_c_from_k(doc->d->model.house->least_k));
    if (cold == NULL) return SW_NO_MEMORY;
    SW_TRY(operating_row(run, &table, "mild day, 15 " CELSIUS_C, h->mild));
    SW_TRY(operating_row(run, &table, cold, h->cold));
    SW_TRY(operating_row(run, &table, "mild day, all fans at full", h->fans));
    SW_TRY(doc_put_table(run, doc, &table));
    SW_TRY(weathers(run, doc, h));
    if (h->map == NULL) return SW_OK;
    return figure(
        run, doc, drawn_map, 92,
        "Operating map without wind: what the stove does at each outside temperature and opening of the wash slide. Thick frame: safe.");
}

static sw_status lighting(sw_run *run, doc_book *doc, const sw_housed *h)
{
    const sw_flue_start *s = h->start;
    if (s == NULL) return SW_OK;
    bool declared = h->flue_in->nominal.declared; /* else the gas is that of the stove's own burn from cold */
    const char *gas =
        declared ? "With gas of the nominal temperature" : "With the gas of the stove's own burn from cold";
    SW_TRY(doc_heading(run, doc, 2, "Lit cold on a mild day"));
    const char *after = words_time(run, s->draws_after_s);
    if (after == NULL) return SW_NO_MEMORY;
    const char *words =
        isinf(s->draws_after_s) ? "It does not reach what the stove needs within two hours: preheat it, or raise it"
        : s->draws_after_s < 1
            ? sw_text_format(run, run->scratch, "%s it gives what the stove needs at once", gas)
            : sw_text_format(run, run->scratch, "%s it gives what the stove needs after %s", gas, after);
    if (words == NULL) return SW_NO_MEMORY;
    SW_TRY(doc_paragraph(run, doc,
                         sw_text_format(run, run->scratch, "Before lighting the chimney gives %.1f Pa. %s.",
                                        fabs(s->standing_pa) < 0.05 ? 0.0 : s->standing_pa, words)));
    return s->count == 0 ? SW_OK
                         : figure(run, doc, drawn_start, 52,
                                  declared ? "Draught after lighting, chimney and house at 15 " CELSIUS_C
                                             ", gas of the nominal temperature from the start."
                                           : "Draught after lighting, chimney, house and stove at 15 " CELSIUS_C ".");
}

/* ---- the site ------------------------------------------------------------------------------------------------------ */

sw_status house_needs_table(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"distance or size", 2.9, SW_LEFT}, {"where", 1.6, SW_LEFT},
                                         {"needed, mm", 0.8, SW_RIGHT},      {"there, mm", 0.8, SW_RIGHT},
                                         {"enough", 0.9, SW_LEFT},           {"source", 3, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = 6, .dense = true};
    const sw_site_result *s = doc->d->housed->site;
    for (size_t i = 0; i < s->need_count; i++) {
        const sw_site_need *n = &s->needs[i];
        bool known = !isnan(n->needed_mm) && !isnan(n->there_mm);
        const char *const cells[] = {n->what,
                                     strcmp(n->what, n->where) == 0 ? "" : n->where,
                                     isinf(n->needed_mm) ? "no distance"
                                     : n->needed_mm <= 0 ? "none found"
                                                         : words_number(run, ceil(n->needed_mm - SW_SAME_POINT_MM), 0),
                                     words_number(run, n->there_mm, 0),
                                     !known                                          ? "unknown"
                                     : n->there_mm < n->needed_mm - SW_SAME_POINT_MM ? "too little"
                                                                                     : "yes",
                                     n->source};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

sw_status house_parts_table(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"part, from the stove upwards", 2, SW_LEFT},
                                         {"length, m", 0.7, SW_RIGHT},
                                         {"rise, m", 0.6, SW_RIGHT},
                                         {"clear, mm", 1, SW_RIGHT},
                                         {"wall, from inside", 2.6, SW_LEFT},
                                         {"round it", 0.9, SW_LEFT},
                                         {"designation", 2, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = 7, .dense = true};
    const sw_house *h = doc->d->model.house;
    for (size_t i = 0; i < h->part_count; i++) {
        const sw_flue_part *p = &h->parts[i];
        const char *wall = "";
        for (size_t k = 0; k < p->layer_count && wall != NULL; k++)
            wall = sw_text_format(run, run->scratch, "%s%s%.4g %s", wall, k > 0 ? ", " : "", p->layers[k].thickness_mm,
                                  p->layers[k].material);
        if (p->layer_count == 0 && isfinite(p->resistance))
            wall = sw_text_format(run, run->scratch, "declared, %.3g m\xc2\xb2K/W", p->resistance);
        const char *const cells[] = {p->name,
                                     house_fixed(run, p->length_m, 2),
                                     house_fixed(run, p->rise_m, 2),
                                     house_section(run, p),
                                     wall,
                                     sw_around_name(p->around),
                                     p->designation};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

sw_status house_plan_figures(sw_run *run, doc_book *doc)
{
    SW_TRY(figure(run, doc, drawn_plan, 120,
                  "The stove from above. Each figure is what there is; below it the least asked for."));
    return figure(run, doc, drawn_elevation, 107, "The stove from its right side.");
}

sw_status house_route_figure(sw_run *run, doc_book *doc)
{
    if (doc->d->model.house->part_count == 0) return SW_OK;
    return figure(run, doc, drawn_route, 168, "The flue from the stove to the outlet.");
}

static sw_status room(sw_run *run, doc_book *doc, const sw_site_result *s)
{
    return doc_paragraph(
        run, doc,
        sw_text_format(
            run, run->scratch,
            "All fans at full bring the room %.1f Pa below outside, with the stove %.1f Pa. A permanent opening of %.0f mm\xc2\xb2 is wanted; %.0f mm\xc2\xb2 is there. Stove and hearth press on the floor with %.2f kPa.",
            s->fans_pa, s->depression_pa, sw_mm2_from_m2(s->vent_needed_m2),
            sw_mm2_from_m2(doc->d->model.house->vent_m2), s->floor_load_pa * 1e-3));
}

static sw_status first_fire(sw_run *run, doc_book *doc, const sw_site_result *s)
{
    static const doc_column columns[] = {
        {"reading", 2, SW_LEFT}, {"expected", 0.8, SW_RIGHT}, {"from", 0.7, SW_RIGHT},          {"to", 0.7, SW_RIGHT},
        {"", 0.6, SW_LEFT},      {"when", 3.4, SW_LEFT},      {"when it is not so", 3, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = 7, .dense = true};
    SW_TRY(doc_heading(run, doc, 2, "First fire: what this house should give"));
    for (size_t i = 0; i < s->expected_count; i++) {
        const sw_expected *e = &s->expected[i];
        bool celsius = strcmp(e->unit, "degC") == 0;
        const char *const cells[] = {e->name,
                                     e->yes_no ? (e->expected > 0.5 ? "yes" : "no") : words_number(run, e->expected, 1),
                                     e->yes_no ? "" : words_number(run, e->low, 1),
                                     e->yes_no ? "" : words_number(run, e->high, 1),
                                     celsius ? CELSIUS_C : e->unit,
                                     e->when,
                                     e->remedy};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

static sw_status site(sw_run *run, doc_book *doc)
{
    if (!house_is_placed(doc->d)) return SW_OK;
    SW_TRY(doc_heading(run, doc, 2, "Distances and sizes"));
    SW_TRY(house_needs_table(run, doc));
    SW_TRY(room(run, doc, doc->d->housed->site));
    SW_TRY(doc_heading(run, doc, 2, "The stove in its place"));
    SW_TRY(house_plan_figures(run, doc));
    SW_TRY(house_route_figure(run, doc));
    return first_fire(run, doc, doc->d->housed->site);
}

sw_status dossier_housed(sw_run *run, doc_book *doc)
{
    const sw_housed *h = doc->d->housed;
    if (!house_is_known(doc->d)) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "The house"));
    SW_TRY(opening(run, doc, h));
    if (h->flue->solved) {
        SW_TRY(test_table(run, doc, h));
        SW_TRY(in_words(run, doc, h->flue));
        SW_TRY(along(run, doc, h->flue));
    }
    SW_TRY(sizes(run, doc, h));
    SW_TRY(operating(run, doc, h));
    SW_TRY(lighting(run, doc, h));
    return site(run, doc);
}

/* ---- the calculation, line by line ----------------------------------------------------------------------------------- */

static sw_status step_table(sw_run *run, doc_book *doc, const sw_flue_step *steps, size_t count)
{
    static const doc_column columns[] = {{"symbol", 1, SW_LEFT},
                                         {"value", 1.1, SW_RIGHT},
                                         {"unit", 0.8, SW_LEFT},
                                         {"formula or meaning", 4.4, SW_LEFT},
                                         {"source", 3.3, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = 5, .dense = true};
    for (size_t i = 0; i < count; i++) {
        const sw_flue_step *s = &steps[i];
        const char *const cells[] = {
            s->symbol, isfinite(s->value) ? sw_text_format(run, run->scratch, "%.5g", s->value) : "\xe2\x80\x93",
            s->unit, s->formula, s->source};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

sw_status dossier_reckoned(sw_run *run, doc_book *doc)
{
    const sw_housed *h = doc->d->housed;
    if (!house_is_known(doc->d) || h->step_count == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "The chimney, line by line"));
    for (size_t i = 0, end = 0; i < h->step_count; i = end) {
        for (end = i; end < h->step_count && strcmp(h->steps[end].where, h->steps[i].where) == 0; end++) {}
        SW_TRY(doc_heading(run, doc, 2, h->steps[i].where));
        SW_TRY(step_table(run, doc, &h->steps[i], end - i));
    }
    return SW_OK;
}
