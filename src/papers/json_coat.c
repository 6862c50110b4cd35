/* json_coat.c: blasting, coating, curing and first fires in the answer for machines. */
#include "papers/json_shop_parts.h"

static void lines(json_out *j, const sw_coat_result *c)
{
    json_begin(j, "pieces", '[');
    for (size_t i = 0; i < c->line_count; i++) {
        const sw_coat_line *l = &c->lines[i];
        json_begin(j, NULL, '{');
        json_text(j, "number", l->piece->number);
        json_truth(j, "outer", l->sides.outer);
        json_truth(j, "inner", l->sides.inner);
        json_text(j, "why", l->sides.why);
        json_number(j, "coat_m2", l->coat_m2);
        json_number(j, "blast_m2", l->blast_m2);
        json_number(j, "blast_s", l->blast_s);
        json_number(j, "coat_s", l->coat_s);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void masks(json_out *j, const sw_coat_result *c)
{
    json_begin(j, "masks", '[');
    for (size_t i = 0; i < c->mask_count; i++) {
        const sw_coat_mask *m = &c->masks[i];
        json_begin(j, NULL, '{');
        json_text(j, "kind", sw_mask_kind_name(m->kind));
        json_text(j, "where", m->where);
        json_text(j, "group", m->group);
        json_text(j, "how", m->how);
        json_count(j, "count", m->count);
        json_number(j, "length_mm", m->length_mm);
        json_number(j, "area_m2", m->area_m2);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void steps(json_out *j, const char *key, const sw_coat_step *s, size_t count)
{
    json_begin(j, key, '[');
    for (size_t i = 0; i < count; i++) {
        json_begin(j, NULL, '{');
        json_text(j, "name", s[i].name);
        json_text(j, "text", s[i].text);
        json_number(j, "temperature_c", sw_c_from_k(s[i].temperature_k));
        json_number(j, "time_s", s[i].time_s);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void coats(json_out *j, const sw_coat_result *c)
{
    json_begin(j, "coats", '[');
    for (size_t i = 0; i < c->coat_count; i++) {
        const sw_coat_coat *k = &c->coats[i];
        json_begin(j, NULL, '{');
        json_number(j, "film_um", k->film_um);
        json_number(j, "wet_um", k->wet_um);
        json_number(j, "litres", k->litres);
        json_number(j, "solvent_kg", k->solvent_kg);
        json_number(j, "spray_s", k->spray_s);
        json_number(j, "dry_s", k->dry_s);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void ratings(json_out *j, const sw_coat_result *c)
{
    json_begin(j, "ratings", '[');
    for (size_t i = 0; i < c->rating_count; i++) {
        const sw_coat_rating *r = &c->ratings[i];
        json_begin(j, NULL, '{');
        json_text(j, "name", r->name);
        json_truth(j, "coated", r->coated);
        json_number(j, "temperature_c", sw_c_from_k(r->temperature_k));
        json_number(j, "class_c", sw_c_from_k(r->class_k));
        json_number(j, "margin_k", r->margin_k);
        json_end(j, '}');
    }
    json_end(j, ']');
}

void json_coat(json_out *j, const sw_coat_result *c)
{
    if (c == NULL) {
        json_nothing(j, "coat");
        return;
    }
    json_begin(j, "coat", '{');
    json_number(j, "blast_m2", c->blast_m2);
    json_number(j, "blast_s", c->blast_s);
    json_number(j, "blast_setup_s", c->blast_setup_s);
    json_number(j, "media_kg", c->media_kg);
    json_number(j, "media_cost", c->media_cost);
    json_number(j, "blast_cost", c->blast_cost);
    json_text(j, "grade", c->grade);
    json_number(j, "coat_m2", c->coat_m2);
    json_number(j, "masked_m2", c->masked_m2);
    json_number(j, "litres", c->litres);
    json_number(j, "film_um", c->film_um);
    json_number(j, "film_kg", c->film_kg);
    json_number(j, "solvent_kg", c->solvent_kg);
    json_number(j, "air_m3_s", c->air_m3_s);
    json_number(j, "coat_s", c->coat_s);
    json_number(j, "coat_setup_s", c->coat_setup_s);
    json_number(j, "paint_cost", c->paint_cost);
    json_number(j, "coat_cost", c->coat_cost);
    json_number(j, "cure_s", c->cure_s);
    json_number(j, "cure_each_s", c->cure_each_s);
    lines(j, c);
    masks(j, c);
    coats(j, c);
    steps(j, "cure", c->cure, c->cure_count);
    steps(j, "first_fires", c->fires, c->fire_count);
    ratings(j, c);
    json_end(j, '}');
}
