/* dossier_finishing.c: lifting and coating in the dossier's chapter on the workshop. */
#include "papers/chart_parts.h"
#include "papers/shop_parts.h"

#include <math.h>

/* ---- lifting -------------------------------------------------------------------------------------------------------------- */

static const char *gear_words(sw_run *run, const sw_lift_step *s)
{
    if (s->way != SW_LIFT_GEAR) return "";
    if (s->hoist == NULL && !isfinite(s->need_kg)) return "none of the works at that place";
    if (s->hoist == NULL) return sw_text_format(run, run->scratch, "none of the works; asks for %.0f kg", s->need_kg);
    if (s->legs > 1)
        return sw_text_format(run, run->scratch, "%s, %zu legs at %.0f\xc2\xb0, %.0f N in each", s->hoist->name,
                              s->legs, sw_deg_from_rad(s->leg_angle_rad), s->leg_n);
    return s->hoist->name;
}

static sw_status lift_row(sw_run *run, doc_table *table, const sw_lift_step *s)
{
    const char *index = isfinite(s->index) ? shop_fixed(run, s->index, 2) : "no limit holds";
    const char *const cells[] = {s->load,
                                 s->action,
                                 shop_fixed(run, s->mass_kg, 1),
                                 shop_fixed(run, s->single_kg, 1),
                                 shop_fixed(run, s->team_kg, 1),
                                 index,
                                 sw_lift_way_name(s->way),
                                 gear_words(run, s)};
    return doc_row(run, table, cells);
}

sw_status workshop_lifting(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"load", 2.2, SW_LEFT},         {"where", 1.8, SW_LEFT},
                                         {"mass, kg", 0.8, SW_RIGHT},    {"one may, kg", 0.8, SW_RIGHT},
                                         {"two may, kg", 0.8, SW_RIGHT}, {"index", 0.8, SW_RIGHT},
                                         {"lifted by", 1.0, SW_LEFT},    {"gear", 2.2, SW_LEFT}};
    const sw_lift_result *l = doc->d->shop.lift;
    doc_table table = {.columns = columns, .column_count = 8, .dense = true};
    if (l == NULL || l->step_count == 0) return SW_OK;
    for (size_t i = 0; i < l->step_count; i++) SW_TRY(lift_row(run, &table, &l->steps[i]));
    SW_TRY(doc_heading(run, doc, 2, "Lifting"));
    SW_TRY(doc_paragraph(
        run, doc,
        sw_text_format(run, run->scratch,
                       "Reference mass of one person %.0f kg. Index: mass over what one person may lift so "
                       "(NIOSH equation); above 1 two people or gear.",
                       l->single_kg)));
    return doc_put_table(run, doc, &table);
}

/* ---- coating -------------------------------------------------------------------------------------------------------------- */

static const char *blast_words(sw_run *run, const sw_coat_result *c)
{
    const char *area = shop_fixed(run, c->blast_m2, 2), *media = shop_fixed(run, c->media_kg, 2),
               *time = shop_minutes(run, c->blast_s);
    if (area == NULL || media == NULL || time == NULL) return NULL;
    return sw_text_format(run, run->scratch, "Blasting to %s: %s m\xc2\xb2, %s min, %s kg of media used up.", c->grade,
                          area, time, media);
}

static const char *paint_words(sw_run *run, const sw_coat_result *c)
{
    const char *area = shop_fixed(run, c->coat_m2, 2), *masked = shop_fixed(run, c->masked_m2, 3),
               *litres = shop_fixed(run, c->litres, 2), *film = shop_fixed(run, c->film_um, 0),
               *time = shop_minutes(run, c->coat_s), *air = shop_fixed(run, c->air_m3_s * sw_s_from_h(1), 0);
    if (area == NULL || masked == NULL || litres == NULL || film == NULL || time == NULL || air == NULL) return NULL;
    return sw_text_format(
        run, run->scratch,
        "Coating: %s m\xc2\xb2 in %zu coat%s, %s \xc2\xb5m of dry film, %s l of paint, %s min of "
        "spraying; %zu places masked (%s m\xc2\xb2). The booth needs at least %s m\xc2\xb3/h of air by "
        "the explosive limit alone.",
        area, c->coat_count, sw_plural(c->coat_count), film, litres, time, c->mask_count, masked, air);
}

static sw_status cure_rows(sw_run *run, doc_table *table, const char *what, const sw_coat_step *steps, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const sw_coat_step *s = &steps[i];
        const char *const cells[] = {what, s->name,
                                     s->temperature_k > 0 ? shop_fixed(run, sw_c_from_k(s->temperature_k), 0) : "",
                                     s->time_s > 0 ? shop_fixed(run, sw_min_from_s(s->time_s), 0) : "", s->text};
        SW_TRY(doc_row(run, table, cells));
    }
    return SW_OK;
}

static sw_status cure_table(sw_run *run, doc_book *doc, const sw_coat_result *c)
{
    static const doc_column columns[] = {{"", 1.0, SW_LEFT},
                                         {"step", 1.3, SW_LEFT},
                                         {CELSIUS, 0.6, SW_RIGHT},
                                         {"min", 0.6, SW_RIGHT},
                                         {"what to do", 5.0, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = 5, .dense = true};
    SW_TRY(cure_rows(run, &table, "oven", c->cure, c->cure_count));
    SW_TRY(cure_rows(run, &table, "first fires", c->fires, c->fire_count));
    return table.rows == 0 ? SW_OK : doc_put_table(run, doc, &table);
}

/* Parts that are coated, the least margin first, are judged in the findings; here the hottest is told. */
static const char *rating_words(sw_run *run, const sw_coat_result *c)
{
    const sw_coat_rating *least = NULL;
    for (size_t i = 0; i < c->rating_count; i++)
        if (c->ratings[i].coated && isfinite(c->ratings[i].margin_k) &&
            (least == NULL || c->ratings[i].margin_k < least->margin_k))
            least = &c->ratings[i];
    if (least == NULL) return "";
    return sw_text_format(run, run->scratch,
                          "Hottest coated part: %s with %.0f " CELSIUS "; the coating stands %.0f " CELSIUS ".",
                          least->name, sw_c_from_k(least->temperature_k), sw_c_from_k(least->class_k));
}

sw_status workshop_coating(sw_run *run, doc_book *doc)
{
    const sw_coat_result *c = doc->d->shop.coat;
    if (c == NULL) return SW_OK;
    const char *blast = blast_words(run, c), *paint = paint_words(run, c), *rating = rating_words(run, c);
    if (blast == NULL || paint == NULL || rating == NULL) return SW_NO_MEMORY;
    SW_TRY(doc_heading(run, doc, 2, "Blasting and coating"));
    SW_TRY(doc_paragraph(run, doc, sw_text_format(run, run->scratch, "%s %s %s", blast, paint, rating)));
    return cure_table(run, doc, c);
}
