/* json_burn.c: fire, air and heat in the answer for machines. Temperatures degC, flows and powers SI. */
#include "papers/json_parts.h"

#include <math.h>

static void celsius(json_out *j, const char *key, double t_k)
{
    json_number(j, key, sw_c_from_k(t_k));
}

static void conditions(json_out *j, const sw_burn_options *opt)
{
    size_t count = 0;
    const sw_option *table = sw_burn_option_table(&count);
    json_begin(j, "conditions", '{');
    for (size_t i = 0; i < count; i++)
        json_number(j, table[i].name, *(const double *)(const void *)((const char *)opt + table[i].offset));
    json_end(j, '}');
}

static void fire(json_out *j, const sw_burned *b)
{
    const sw_burn_point *p = b->point;
    json_begin(j, "fire", '{');
    json_text(j, "fuel", b->fire->fuel.name);
    json_number(j, "moisture", b->fire->fuel.moisture);
    json_number(j, "lhv_j_kg", p->gas.lhv);
    json_number(j, "fuel_kg_s", p->fuel_kg_s);
    json_number(j, "fuel_w", p->fuel_w);
    json_number(j, "output_w", p->output_w);
    json_number(j, "efficiency", p->efficiency);
    json_number(j, "lambda", p->lambda);
    json_number(j, "air_kg_s", p->fire.air_kg_s);
    json_number(j, "gas_kg_s", p->gas_kg_s);
    json_number(j, "co2_dry", p->gas.co2_dry);
    json_number(j, "o2_dry", p->gas.o2_dry);
    celsius(j, "dew_point_c", p->gas.dew_point_k);
    celsius(j, "flue_c", p->flue_k);
    json_end(j, '}');
}

static void air(json_out *j, const sw_air_result *a)
{
    json_begin(j, "air", '[');
    for (size_t i = 0; i < a->network.way_count; i++) {
        json_begin(j, NULL, '{');
        json_text(j, "name", a->network.ways[i].name);
        json_text(j, "kind", a->network.ways[i].kind);
        json_number(j, "area_m2", a->network.ways[i].area_m2);
        json_number(j, "kg_s", a->solution.flows[i].kg_s);
        json_number(j, "velocity_m_s", a->solution.flows[i].velocity_m_s);
        json_number(j, "pressure_pa", a->solution.flows[i].pressure_pa);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void balance(json_out *j, const sw_burn_point *p)
{
    const sw_heat_state *h = &p->heat;
    json_begin(j, "balance", '{');
    json_number(j, "transmitted_w", h->transmitted_w);
    json_number(j, "glass_w", h->glass_w);
    json_number(j, "shell_w", h->shell_w);
    json_number(j, "gap_w", h->gap_w);
    json_number(j, "below_w", h->below_w);
    json_number(j, "flue_w", h->flue_w);
    json_number(j, "preheat_w", h->preheat_w);
    json_number(j, "gap_kg_s", h->gap_kg_s);
    celsius(j, "gap_out_c", h->gap_out_k);
    json_number(j, "closure", p->balance);
    json_end(j, '}');
}

static void gases(json_out *j, const sw_burned *b)
{
    if (b->burn == NULL || b->point == NULL) return;
    json_begin(j, "gases", '{');
    celsius(j, "firebox_c", sw_burn_gas_k(b->burn, b->point, SW_GAS_FIREBOX));
    celsius(j, "entering_c", b->point->heat.entering_k);
    celsius(j, "leaving_c", b->point->heat.leaving_k);
    celsius(j, "upper_c", sw_burn_gas_k(b->burn, b->point, SW_GAS_UPPER));
    celsius(j, "gap_c", sw_burn_gas_k(b->burn, b->point, SW_GAS_GAP));
    celsius(j, "embers_c", sw_burn_gas_k(b->burn, b->point, SW_GAS_BED));
    json_end(j, '}');
}

/* The hottest pane; null without one. */
static void pane(json_out *j, const sw_burned *b)
{
    double hottest_k = NAN;
    for (size_t i = 0; i < b->scene->part_count; i++)
        if (b->scene->parts[i].kind == SW_PART_PANE) hottest_k = fmax(hottest_k, b->hot_k[i]);
    celsius(j, "pane_c", hottest_k);
}

static void parts(json_out *j, const sw_burned *b)
{
    json_begin(j, "parts", '[');
    for (size_t i = 0; i < b->scene->part_count; i++) {
        const sw_scene_part *part = &b->scene->parts[i];
        json_begin(j, NULL, '{');
        json_text(j, "name", part->name);
        json_text(j, "material", part->material == NULL ? NULL : part->material->name);
        celsius(j, "hot_c", b->hot_k[i]);
        celsius(j, "cold_c", b->cold_k[i]);
        if (b->through != NULL) celsius(j, "most_c", b->through->most_k[i]);
        json_end(j, '}');
    }
    json_end(j, ']');
}

/* To a tenth of a kelvin: nobody measures more, and there are thousands. */
static void parts_now(json_out *j, const double *parts_k, size_t count)
{
    json_begin(j, "parts_c", '[');
    for (size_t i = 0; i < count; i++) json_number(j, NULL, round(10 * sw_c_from_k(parts_k[i])) / 10);
    json_end(j, ']');
}

static void sample(json_out *j, const sw_burn_sample *s, const double *parts_k, size_t parts)
{
    json_begin(j, NULL, '{');
    json_number(j, "time_s", s->time_s);
    json_number(j, "fuel_w", s->fuel_w);
    json_number(j, "output_w", s->output_w);
    celsius(j, "flue_c", s->flue_k);
    json_number(j, "lambda", s->lambda);
    json_number(j, "gas_kg_s", s->gas_kg_s);
    json_number(j, "co2_dry", s->co2_dry);
    json_number(j, "wood_kg", s->wood_kg);
    celsius(j, "firebox_c", s->firebox_k);
    celsius(j, "pane_c", s->pane_k);
    celsius(j, "shell_c", s->shell_k);
    celsius(j, "lining_c", s->lining_k);
    parts_now(j, parts_k, parts);
    json_end(j, '}');
}

static void through(json_out *j, const sw_burn_run *r, size_t parts)
{
    if (r == NULL) {
        json_nothing(j, "burn");
        return;
    }
    json_begin(j, "burn", '{');
    json_number(j, "fuel_j", r->fuel_j);
    json_number(j, "output_j", r->output_j);
    json_number(j, "flue_j", r->flue_j);
    json_number(j, "stored_j", r->stored_j);
    json_number(j, "unburnt_j", r->unburnt_j);
    json_number(j, "efficiency", r->efficiency);
    json_number(j, "mean_lambda", r->mean_lambda);
    celsius(j, "mean_flue_c", r->mean_flue_k);
    json_number(j, "closure", r->balance);
    json_begin(j, "samples", '[');
    for (size_t i = 0; i < r->sample_count; i++) sample(j, &r->samples[i], r->parts_k + i * parts, parts);
    json_end(j, ']');
    json_end(j, '}');
}

static void map(json_out *j, const sw_burned *b)
{
    if (b->map == NULL) {
        json_nothing(j, "map");
        return;
    }
    json_begin(j, "map", '{');
    json_count(j, "triangles", b->map->triangles);
    json_number(j, "output_w", b->map->useful_w);
    celsius(j, "flue_c", b->map->flue_k);
    json_number(j, "closure", b->map->hot_balance);
    json_begin(j, "parts", '[');
    for (size_t i = 0; i < b->map->part_count; i++) {
        const sw_heat_map_part *m = &b->map->parts[i];
        if (m->mesh.point_count == 0) continue;
        json_begin(j, NULL, '{');
        json_text(j, "name", b->scene->parts[m->part].name);
        celsius(j, "mean_c", m->mean_k);
        celsius(j, "most_c", m->most_k);
        json_number(j, "hottest_x_mm", m->hottest.x_mm);
        json_number(j, "hottest_y_mm", m->hottest.y_mm);
        json_number(j, "hottest_z_mm", m->hottest.z_mm);
        json_end(j, '}');
    }
    json_end(j, ']');
    json_end(j, '}');
}

static void bands(json_out *j, const sw_burned *b)
{
    static const char *const names[SW_BANDS] = {"output_w", "efficiency", "lambda", "flue_k",
                                                "pane_k",   "wall_k",     "shell_k"};
    if (b->bands == NULL) {
        json_nothing(j, "bands");
        return;
    }
    json_begin(j, "bands", '{');
    json_count(j, "samples", b->band_samples);
    for (size_t i = 0; i < SW_BANDS; i++) {
        json_begin(j, names[i], '{');
        json_number(j, "mean", b->bands[i].mean);
        json_number(j, "sigma", b->bands[i].sigma);
        json_number(j, "low", b->bands[i].low);
        json_number(j, "high", b->bands[i].high);
        json_end(j, '}');
    }
    json_end(j, '}');
}

static void fit(json_out *j, const sw_burn_fit *f)
{
    if (f == NULL) {
        json_nothing(j, "hot_test");
        return;
    }
    json_begin(j, "hot_test", '{');
    json_number(j, "rms_before_k", f->rms_before_k);
    json_number(j, "rms_after_k", f->rms_after_k);
    json_begin(j, "constants", '[');
    for (size_t i = 0; i < f->constant_count; i++) {
        json_begin(j, NULL, '{');
        json_text(j, "name", f->constants[i].option->name);
        json_number(j, "before", f->constants[i].before);
        json_number(j, "after", f->constants[i].after);
        json_number(j, "sigma", f->constants[i].sigma);
        json_truth(j, "at_bound", sw_fitted_at_bound(&f->constants[i]));
        json_end(j, '}');
    }
    json_end(j, ']');
    json_end(j, '}');
}

void json_burned(json_out *j, const sw_burned *b)
{
    if (b == NULL) {
        json_nothing(j, "burning");
        return;
    }
    json_begin(j, "burning", '{');
    json_text(j, "why_not", b->why[0] == '\0' ? NULL : b->why);
    conditions(j, b->options);
    if (b->point != NULL && b->fire != NULL && b->air != NULL) {
        fire(j, b);
        air(j, b->air);
        balance(j, b->point);
        gases(j, b);
        pane(j, b);
        parts(j, b);
        through(j, b->through, b->scene->part_count);
        map(j, b);
        bands(j, b);
        fit(j, b->fit);
    }
    json_end(j, '}');
}
