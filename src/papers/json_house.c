/* json_house.c: chimney and site in the answer for machines. Temperatures degC, lengths as their keys say, all else SI. */
#include "papers/json_parts.h"

#include <math.h>

static void celsius(json_out *j, const char *key, double t_k)
{
    json_number(j, key, sw_c_from_k(t_k));
}

/* ---- the chimney ------------------------------------------------------------------------------------------------ */

static void appliance(json_out *j, const sw_flue_appliance *a)
{
    json_begin(j, "stove", '{');
    json_truth(j, "declared", a->declared);
    json_number(j, "gas_kg_s", a->kg_s);
    celsius(j, "gas_c", a->t_k);
    json_number(j, "needs_pa", a->need_pa);
    json_number(j, "most_pa", a->most_pa);
    json_number(j, "co2_dry", a->co2_dry);
    json_end(j, '}');
}

static void line(json_out *j, const sw_flue_line *l)
{
    json_begin(j, NULL, '{');
    json_text(j, "name", l->part->name);
    celsius(j, "entry_c", l->entry_k);
    celsius(j, "mean_c", l->mean_k);
    celsius(j, "exit_c", l->exit_k);
    celsius(j, "around_c", l->around_k);
    celsius(j, "wall_entry_c", l->wall_entry_k);
    celsius(j, "wall_c", l->wall_k);
    json_number(j, "cp", l->cp);
    json_number(j, "conductivity", l->conductivity);
    json_number(j, "viscosity", l->viscosity);
    json_number(j, "density", l->density);
    json_number(j, "velocity_m_s", l->velocity_m_s);
    json_number(j, "re", l->re);
    json_number(j, "pr", l->pr);
    json_number(j, "psi", l->psi);
    json_number(j, "psi_smooth", l->psi_smooth);
    json_number(j, "nu", l->nu);
    json_number(j, "inner_h", l->inner_h);
    json_number(j, "outer_h", l->outer_h);
    json_number(j, "resistance", l->resistance);
    json_number(j, "k", l->k);
    json_number(j, "K", l->K);
    json_number(j, "draught_pa", l->draught_pa);
    json_number(j, "friction_pa", l->friction_pa);
    json_number(j, "entry_pa", l->entry_pa);
    json_number(j, "step_pa", l->step_pa);
    json_number(j, "exit_pa", l->exit_pa);
    json_end(j, '}');
}

static void sums(json_out *j, const sw_flue_case *c)
{
    json_number(j, "P_H", c->P_H);
    json_number(j, "P_E", c->P_E);
    json_number(j, "P_G", c->P_G);
    json_number(j, "P_R", c->P_R);
    json_number(j, "P_L", c->wind_pa);
    json_number(j, "P_Z", c->P_Z);
    json_number(j, "P_HV", c->P_HV);
    json_number(j, "P_EV", c->P_EV);
    json_number(j, "P_GV", c->P_GV);
    json_number(j, "P_RV", c->P_RV);
    json_number(j, "P_FV", c->P_FV);
    json_number(j, "P_B", c->P_B);
    json_number(j, "P_W", c->P_W);
    json_number(j, "P_Ze", c->P_Ze);
}

static void condition(json_out *j, const char *key, const sw_flue_case *c)
{
    json_begin(j, key, '{');
    celsius(j, "outside_c", c->outside_k);
    json_number(j, "outside_pa", c->outside_pa);
    json_number(j, "S_H", c->s_h);
    json_number(j, "S_E", c->s_e);
    sums(j, c);
    json_number(j, "stabiliser_kg_s", c->air_kg_s);
    celsius(j, "foot_c", c->mixed_k);
    celsius(j, "outlet_c", c->outlet_k);
    celsius(j, "outlet_wall_c", c->outlet_wall_k);
    celsius(j, "dew_point_c", c->dew_point_k);
    json_number(j, "least_velocity_m_s", c->velocity_m_s);
    json_begin(j, "parts", '[');
    for (size_t i = 0; i < c->line_count; i++) line(j, &c->lines[i]);
    json_end(j, ']');
    json_end(j, '}');
}

static void conditions(json_out *j, const sw_flue_result *f)
{
    json_begin(j, "conditions", '{');
    condition(j, "pressure", &f->pressure);
    condition(j, "temperature", &f->temperature);
    condition(j, "over_draught", &f->over);
    condition(j, "pressure_lowest", &f->pressure_low);
    condition(j, "temperature_lowest", &f->temperature_low);
    json_end(j, '}');
}

static void flue(json_out *j, const sw_flue_result *f)
{
    if (f == NULL) {
        json_nothing(j, "flue");
        return;
    }
    json_begin(j, "flue", '{');
    json_truth(j, "solved", f->solved);
    json_truth(j, "draws", f->draws);
    json_truth(j, "dry", f->dry);
    json_truth(j, "over_draught", f->over_draught);
    json_number(j, "reserve_pa", f->reserve_pa);
    json_number(j, "least_height_m", f->least_height_m);
    json_number(j, "first_wet_m", f->first_wet_m);
    json_number(j, "stabiliser_pa", f->stabiliser_pa);
    json_number(j, "door_velocity_m_s", f->door.velocity_m_s);
    json_number(j, "door_wanted_m_s", f->door.wanted_m_s);
    json_number(j, "door_margin_pa", f->door.lift_pa - f->door.loss_pa);
    json_text(j, "designation_needed", f->needed);
    json_text(j, "designation_offered", f->offered);
    if (f->solved) conditions(j, f);
    json_end(j, '}');
}

static void tries(json_out *j, const sw_housed *h)
{
    json_begin(j, "sizes", '[');
    for (size_t i = 0; i < h->try_count; i++) {
        json_begin(j, NULL, '{');
        json_text(j, "what", h->tries[i].what);
        json_number(j, "diameter_mm", h->tries[i].diameter_mm);
        json_number(j, "height_m", h->tries[i].height_m);
        json_number(j, "least_m", h->tries[i].least_m);
        json_number(j, "reserve_pa", h->tries[i].reserve_pa);
        json_number(j, "wall_over_dew_k", h->tries[i].wall_over_dew_k);
        json_number(j, "over_pa", h->tries[i].over_pa);
        json_truth(j, "holds", h->tries[i].holds);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void start(json_out *j, const sw_flue_start *s)
{
    if (s == NULL) {
        json_nothing(j, "start");
        return;
    }
    json_begin(j, "start", '{');
    json_number(j, "standing_pa", s->standing_pa);
    json_number(j, "draws_after_s", s->draws_after_s);
    json_begin(j, "samples", '[');
    for (size_t i = 0; i < s->count; i++) {
        json_begin(j, NULL, '{');
        json_number(j, "time_s", s->time_s[i]);
        json_number(j, "draught_pa", s->draught_pa[i]);
        json_end(j, '}');
    }
    json_end(j, ']');
    json_end(j, '}');
}

static void operating(json_out *j, const char *key, const sw_draw_point *p)
{
    if (p == NULL) {
        json_nothing(j, key);
        return;
    }
    json_begin(j, key, '{');
    json_text(j, "state", sw_draw_state_name(p->state));
    json_number(j, "draught_pa", p->draught_pa);
    json_number(j, "output_w", p->output_w);
    json_number(j, "efficiency", p->efficiency);
    json_number(j, "lambda", p->lambda);
    json_number(j, "gas_kg_s", p->gas_kg_s);
    json_number(j, "co2_dry", p->co2_dry);
    celsius(j, "flue_c", p->flue_k);
    celsius(j, "outlet_c", p->outlet_k);
    celsius(j, "wall_c", p->wall_k);
    celsius(j, "dew_point_c", p->dew_point_k);
    json_number(j, "residual_pa", p->residual_pa);
    json_end(j, '}');
}

static void draws(json_out *j, const sw_housed *h)
{
    json_begin(j, "operating", '[');
    for (size_t i = 0; i < h->draw_count; i++) {
        json_begin(j, NULL, '{');
        celsius(j, "outside_c", h->draws[i].outside_k);
        json_number(j, "wind_pa", h->draws[i].wind_pa);
        json_number(j, "wash_share", h->draws[i].wash_share);
        operating(j, "point", &h->draws[i].point);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void map(json_out *j, const sw_draw_map *m)
{
    if (m == NULL) {
        json_nothing(j, "map");
        return;
    }
    json_begin(j, "map", '{');
    json_count(j, "columns", m->columns);
    json_count(j, "rows", m->rows);
    celsius(j, "outside_low_c", m->outside_low_k);
    celsius(j, "outside_high_c", m->outside_high_k);
    json_number(j, "share_low", m->share_low);
    json_number(j, "share_high", m->share_high);
    json_number(j, "wind_pa", m->wind_pa);
    json_begin(j, "points", '[');
    for (size_t i = 0; i < m->columns * m->rows; i++) operating(j, NULL, &m->points[i]);
    json_end(j, ']');
    json_end(j, '}');
}

/* ---- as it is described ------------------------------------------------------------------------------------------ */

static void layers(json_out *j, const sw_flue_part *p)
{
    json_begin(j, "layers", '[');
    for (size_t i = 0; i < p->layer_count; i++) {
        json_begin(j, NULL, '{');
        json_text(j, "material", p->layers[i].material);
        json_number(j, "thickness_mm", p->layers[i].thickness_mm);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void part(json_out *j, const sw_flue_part *p)
{
    json_begin(j, NULL, '{');
    json_text(j, "name", p->name);
    json_text(j, "kind", p->pipe ? "pipe" : p->liner ? "liner" : "flue");
    json_truth(j, "round", p->round);
    json_number(j, "width_mm", p->width_mm);
    json_number(j, "depth_mm", p->depth_mm);
    json_number(j, "length_m", p->length_m);
    json_number(j, "rise_m", p->rise_m);
    json_text(j, "around", sw_around_name(p->around));
    json_count(j, "bends", p->bends);
    json_number(j, "zeta", p->zeta);
    json_number(j, "roughness_mm", p->roughness_mm);
    json_number(j, "resistance", sw_flue_resistance(p));
    json_number(j, "outer_mm", sw_mm_from_m(sw_flue_outer_m(p)));
    json_number(j, "combustible_mm", p->combustible_mm);
    json_text(j, "designation", p->designation);
    json_whole(j, "line", p->place.line);
    layers(j, p);
    json_end(j, '}');
}

static void parts(json_out *j, const sw_house *h)
{
    json_begin(j, "parts", '[');
    for (size_t i = 0; i < h->part_count; i++) part(j, &h->parts[i]);
    json_end(j, ']');
}

/* ---- the site ---------------------------------------------------------------------------------------------------- */

static void needs(json_out *j, const sw_site_result *s)
{
    json_begin(j, "needs", '[');
    for (size_t i = 0; i < s->need_count; i++) {
        json_begin(j, NULL, '{');
        json_text(j, "what", s->needs[i].what);
        json_text(j, "where", s->needs[i].where);
        json_number(j, "needed_mm", s->needs[i].needed_mm);
        json_number(j, "there_mm", s->needs[i].there_mm);
        json_text(j, "source", s->needs[i].source);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void expected(json_out *j, const sw_site_result *s)
{
    json_begin(j, "first_fire", '[');
    for (size_t i = 0; i < s->expected_count; i++) {
        const sw_expected *e = &s->expected[i];
        json_begin(j, NULL, '{');
        json_text(j, "name", e->name);
        json_text(j, "unit", e->unit);
        json_text(j, "when", e->when);
        json_truth(j, "yes_no", e->yes_no);
        json_number(j, "expected", e->expected);
        json_number(j, "low", e->low);
        json_number(j, "high", e->high);
        json_number(j, "stop_low", e->stop_low);
        json_number(j, "stop_high", e->stop_high);
        json_text(j, "source", e->source);
        json_text(j, "remedy", e->remedy);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void site(json_out *j, const sw_site_result *s)
{
    if (s == NULL) {
        json_nothing(j, "site");
        return;
    }
    json_begin(j, "site", '{');
    json_number(j, "fans_pa", s->fans_pa);
    json_number(j, "depression_pa", s->depression_pa);
    json_number(j, "vent_needed_mm2", sw_mm2_from_m2(s->vent_needed_m2));
    json_number(j, "floor_load_pa", s->floor_load_pa);
    json_number(j, "leg_n", s->leg_n);
    needs(j, s);
    expected(j, s);
    json_end(j, '}');
}

void json_housed(json_out *j, const sw_dossier *d)
{
    const sw_housed *h = d->housed;
    if (h == NULL) {
        json_nothing(j, "house");
        return;
    }
    json_begin(j, "house", '{');
    json_text(j, "name", d->model.house->name);
    json_text(j, "note", d->model.house->note);
    json_text(j, "code", d->model.house->code);
    json_text(j, "file", d->model.house_file);
    json_text(j, "why_not", h->why[0] == '\0' ? NULL : h->why);
    parts(j, d->model.house);
    if (h->flue_in != NULL) appliance(j, &h->flue_in->nominal);
    flue(j, h->flue);
    tries(j, h);
    start(j, h->start);
    operating(j, "mild", h->mild);
    operating(j, "cold", h->cold);
    operating(j, "fans", h->fans);
    draws(j, h);
    map(j, h->map);
    site(j, h->site);
    json_end(j, '}');
}

sw_status sw_paper_json_operating(sw_run *run, const sw_operating *o, sw_writer *writer)
{
    json_out j = {.out = writer};
    json_begin(&j, NULL, '{');
    operating(&j, "point", o->point);
    if (o->along == NULL)
        json_nothing(&j, "along");
    else
        condition(&j, "along", o->along);
    json_end(&j, '}');
    if (!j.broken) return SW_OK;
    return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "name", "a name is not UTF-8; write the description in UTF-8");
}
