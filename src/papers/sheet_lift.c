/* sheet_lift.c: who lifts what, how, and where it may tip. */
#include "papers/sheets_parts.h"

#include <math.h>

/* ---- steps ---------------------------------------------------------------------------------------------------------------- */

static const char *who(sw_run *run, const sw_lift_step *s)
{
    if (s->way != SW_LIFT_GEAR) return sw_lift_way_name(s->way);
    if (s->kind == SW_LIFT_HOUSE) return "lifting gear: stair climber or loader, no hoist there";
    return s->hoist == NULL ? "lifting gear: none strong enough in the works"
                            : sw_text_format(run, run->scratch, "lifting gear: %s", s->hoist->name);
}

static sw_status step_row(sw_run *run, doc_table *table, size_t index, const sw_lift_step *s)
{
    bool may = s->single_kg > 0 && isfinite(s->index);
    const char *const cells[] = {sw_text_format(run, run->scratch, "%zu", index + 1),
                                 sw_text_format(run, run->scratch, "%s, %s", s->load, s->action),
                                 s->station,
                                 sheet_fixed(run, s->mass_kg, 1),
                                 sheet_place(run, s->centre),
                                 may ? sheet_fixed(run, s->single_kg, 1) : "none",
                                 may ? sheet_fixed(run, s->index, 2) : "\xe2\x80\x93",
                                 who(run, s)};
    return doc_row(run, table, cells);
}

static sw_status steps(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"", 0.5, SW_RIGHT},
                                         {"what", 4.2, SW_LEFT},
                                         {"where", 2.0, SW_LEFT},
                                         {"mass, kg", 1.0, SW_RIGHT},
                                         {"centre x, y, z, mm", 2.2, SW_RIGHT},
                                         {"one may, kg", 1.1, SW_RIGHT},
                                         {"index", 0.9, SW_RIGHT},
                                         {"who lifts", 3.4, SW_LEFT}};
    const sw_lift_result *r = doc->d->shop.lift;
    doc_table table = {.columns = columns, .column_count = 8, .dense = true};
    for (size_t i = 0; i < r->step_count; i++) SW_TRY(step_row(run, &table, i, &r->steps[i]));
    SW_TRY(doc_heading(run, doc, 1, "Steps"));
    SW_TRY(doc_paragraph(
        run, doc,
        sw_text_format(
            run, run->scratch,
            "In the order of the route. One may: the lesser of the NIOSH limit where the lift begins and ends and "
            "of the reference mass of the works' people, %.0f kg (ISO 11228-1). Index: mass over that limit; "
            "above 1 more people or gear. Centre of gravity in the stove's frame; of sheets, flats and single "
            "pieces in their own.",
            r->single_kg)));
    return doc_put_table(run, doc, &table);
}

/* ---- gear ----------------------------------------------------------------------------------------------------------------- */

static const char points_words[] =
    "Round mark: centre of gravity, with its distances from the left and from below in mm. Red dots: lifting points, set on "
    "the top of the load's box; where no sheet is there a beam or frame carries the sling. The hook stands over the centre of "
    "gravity, else the load swings as it leaves the ground. Of three or four legs two are counted.";

static sw_status gear(sw_run *run, doc_book *doc)
{
    const sw_lift_result *r = doc->d->shop.lift;
    bool first = true;
    for (size_t i = 0; i < r->step_count; i++) {
        if (!lift_is_drawn(r, i)) continue;
        if (first) SW_TRY(doc_heading(run, doc, 1, "By gear"));
        if (first) SW_TRY(doc_paragraph(run, doc, points_words));
        first = false;
        SW_TRY(doc_add(run, doc,
                       (doc_block){.kind = DOC_FIGURE,
                                   .text = r->steps[i].held,
                                   .figure = {.draw = draw_lift,
                                              .a = i,
                                              .height_mm = lift_high_mm(&r->steps[i]),
                                              .least_mm = lift_is_flat(&r->steps[i]) ? 0 : LIFT_LEAST_MM}}));
    }
    return SW_OK;
}

/* ---- trolley -------------------------------------------------------------------------------------------------------------- */

static const char *with_unit(sw_run *run, double value, int decimals, const char *unit)
{
    const char *text = sheet_fixed(run, value, decimals);
    if (text == NULL || !isfinite(value)) return text;
    return sw_text_format(run, run->scratch, "%s %s", text, unit);
}

static sw_status trolley(sw_run *run, doc_book *doc)
{
    const sw_lift_trolley *t = &doc->d->shop.lift->trolley;
    const sw_trolley *works = doc->d->model.works == NULL ? NULL : &doc->d->model.works->trolley;
    double stop = works == NULL || !(works->stop_m_s2 > 0) ? (double)NAN : works->stop_m_s2;
    const sheet_fact facts[] = {
        {"sudden stop at which it tips over its feet", with_unit(run, t->stop_feet_m_s2, 2, "m/s\xc2\xb2")},
        {"trolley and stove tip together", with_unit(run, t->stop_wheels_m_s2, 2, "m/s\xc2\xb2")},
        {"stop the trolley must stand", with_unit(run, stop, 2, "m/s\xc2\xb2")},
        {"centre of gravity over the floor", with_unit(run, t->centre_mm, 0, "mm")},
        {"push that tips the stove on the floor", with_unit(run, t->push_feet_n, 0, "N")},
        {"push that tips it on the trolley", with_unit(run, t->push_wheels_n, 0, "N")},
        {"tips at a slope of", isfinite(t->tip_rad)
                                   ? sw_text_format(run, run->scratch, "%.1f\xc2\xb0", sw_deg_from_rad(t->tip_rad))
                                   : "\xe2\x80\x93"}};
    if (isnan(t->stop_feet_m_s2) && isnan(t->stop_wheels_m_s2)) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "On the trolley"));
    return sheet_facts(run, doc, facts, sizeof facts / sizeof *facts);
}

static sw_status content(sw_run *run, doc_book *doc)
{
    const sw_lift_result *r = doc->d->shop.lift;
    SW_TRY(doc_heading(run, doc, 1, "Before anything else"));
    SW_TRY(sheet_items(run, doc, r->cautions, r->caution_count));
    SW_TRY(steps(run, doc));
    SW_TRY(trolley(run, doc));
    SW_TRY(gear(run, doc));
    return sheet_open_points(run, doc, &r->findings);
}

sw_status paper_lifting(sw_run *run, const paper_desk *desk, const char *path)
{
    return sheet_write(run, desk, "Lifting", content, path);
}
