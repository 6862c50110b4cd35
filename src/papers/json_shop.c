/* json_shop.c: the workshop in the answer for machines: forming, fit, lifting, coating. Welding and the line have files of
 * their own. Angles in degrees, temperatures degC, all else in the studies' units. */
#include "papers/json_parts.h"
#include "papers/json_shop_parts.h"

#include <math.h>

static void degrees(json_out *j, const char *key, double rad)
{
    json_number(j, key, sw_deg_from_rad(rad));
}

/* ---- form --------------------------------------------------------------------------------------------------------------- */

static void trials(json_out *j, const sw_form_fit_result *t)
{
    if (t == NULL) {
        json_nothing(j, "trials");
        return;
    }
    json_begin(j, "trials", '{');
    json_begin(j, "bends", '[');
    for (size_t i = 0; i < t->bend_count; i++) {
        const sw_form_bend_fit *b = &t->bends[i];
        json_begin(j, NULL, '{');
        json_text(j, "material", b->grade->name);
        json_number(j, "thickness_mm", b->thickness_mm);
        json_number(j, "die_mm", b->die_mm);
        json_count(j, "strips", b->strips);
        json_count(j, "used", b->used);
        json_number(j, "radius_mm", b->radius_mm);
        json_number(j, "k", b->k);
        json_number(j, "k_plus_minus", b->k_plus_minus);
        json_number(j, "over", b->over);
        json_number(j, "over_plus_minus", b->over_plus_minus);
        json_truth(j, "good", b->good);
        json_end(j, '}');
    }
    json_end(j, ']');
    json_begin(j, "rolls", '[');
    for (size_t i = 0; i < t->roll_count; i++) {
        const sw_form_roll_fit *r = &t->rolls[i];
        json_begin(j, NULL, '{');
        json_text(j, "material", r->grade->name);
        json_number(j, "thickness_mm", r->thickness_mm);
        json_count(j, "rolls", r->rolls);
        json_count(j, "used", r->used);
        json_number(j, "re_mpa", r->re_mpa);
        json_number(j, "re_plus_minus_mpa", r->re_plus_minus_mpa);
        json_truth(j, "good", r->good);
        json_end(j, '}');
    }
    json_end(j, ']');
    json_end(j, '}');
}

static void stroke(json_out *j, const sw_form_step *s)
{
    json_begin(j, NULL, '{');
    json_text(j, "stroke", sw_form_stroke_name(s->stroke));
    json_begin(j, "bends", '[');
    for (size_t i = 0; i < s->bend_count; i++) json_text(j, NULL, s->bends[i]->name);
    json_end(j, ']');
    json_number(j, "die_mm", s->die_mm);
    json_text(j, "punch", sw_form_punch_name(s->punch));
    json_number(j, "tool_mm", s->length_mm);
    json_number(j, "force_n", s->force_n);
    degrees(j, "angle_deg", s->angle_rad);
    degrees(j, "over_deg", s->over_rad);
    degrees(j, "set_deg", s->set_rad);
    json_text(j, "over_source", s->over_source);
    json_number(j, "depth_mm", s->depth_mm);
    json_number(j, "slope_mm_deg", s->slope_mm * SW_PI / 180);
    json_number(j, "radius_drawn_mm", s->radius_drawn_mm);
    json_number(j, "radius_made_mm", s->radius_made_mm);
    json_number(j, "leg_shift_mm", s->leg_shift_mm);
    json_number(j, "flange_mm", s->flange_mm);
    json_number(j, "least_flange_mm", s->least_flange_mm);
    json_text(j, "rest", sw_form_rest_name(s->rest));
    json_number(j, "gauge_mm", s->gauge_mm);
    json_text(j, "gauge_edge", s->gauge_edge);
    json_truth(j, "front_up", s->front_up);
    json_truth(j, "new_die", s->new_die);
    json_truth(j, "turn_over", s->turn_over);
    degrees(j, "turn_round_deg", s->turn_round_rad);
    json_number(j, "seconds", s->seconds);
    json_end(j, '}');
}

static void passes(json_out *j, const sw_form_roll *r)
{
    json_begin(j, "passes", '[');
    for (size_t i = 0; i < r->pass_count; i++) {
        json_begin(j, NULL, '{');
        json_number(j, "feed_mm", r->passes[i].feed_mm);
        json_number(j, "loaded_mm", r->passes[i].loaded_mm);
        json_number(j, "radius_mm", r->passes[i].radius_mm);
        json_number(j, "force_n", r->passes[i].force_n);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void roll(json_out *j, const sw_form_roll *r)
{
    json_begin(j, NULL, '{');
    json_text(j, "bend", r->bend->name);
    json_number(j, "width_mm", r->width_mm);
    json_number(j, "radius_mm", r->radius_mm);
    json_number(j, "loaded_mm", r->loaded_mm);
    json_number(j, "feed_mm", r->feed_mm);
    json_number(j, "force_n", r->force_n);
    json_number(j, "re_mpa", r->re_mpa);
    json_text(j, "re_source", r->re_source);
    json_number(j, "flat_needed_mm", r->flat_needed_mm);
    json_number(j, "extra_parent_mm", r->extra_mm[0]);
    json_number(j, "extra_child_mm", r->extra_mm[1]);
    passes(j, r);
    json_number(j, "chord_mm", r->chord_mm);
    json_number(j, "sagitta_mm", r->sagitta_mm);
    json_number(j, "sagitta_low_mm", r->sagitta_low_mm);
    json_number(j, "sagitta_high_mm", r->sagitta_high_mm);
    json_number(j, "seconds", r->seconds);
    json_end(j, '}');
}

static void formed_piece(json_out *j, const sw_form_piece *p)
{
    json_begin(j, NULL, '{');
    json_text(j, "number", p->piece->number);
    json_truth(j, "bendable", p->bendable);
    json_truth(j, "rolls_first", p->rolls_first);
    json_count(j, "dies", p->dies);
    json_count(j, "turns_over", p->turns_over);
    json_count(j, "turns_round", p->turns_round);
    json_number(j, "force_n", p->force_n);
    json_number(j, "length_mm", p->length_mm);
    json_number(j, "press_s", p->press_s);
    json_number(j, "press_setup_s", p->press_setup_s);
    json_number(j, "rolls_s", p->rolls_s);
    json_number(j, "rolls_setup_s", p->rolls_setup_s);
    json_begin(j, "strokes", '[');
    for (size_t i = 0; i < p->step_count; i++) stroke(j, &p->steps[i]);
    json_end(j, ']');
    json_begin(j, "rolls", '[');
    for (size_t i = 0; i < p->roll_count; i++) roll(j, &p->rolls[i]);
    json_end(j, ']');
    json_end(j, '}');
}

static void form(json_out *j, const sw_shopped *s)
{
    const sw_form_result *f = s->form;
    if (f == NULL) {
        json_nothing(j, "form");
        return;
    }
    json_begin(j, "form", '{');
    json_number(j, "press_s", f->press_s);
    json_number(j, "rolls_s", f->rolls_s);
    json_number(j, "cost", f->cost);
    trials(j, s->trials);
    json_begin(j, "pieces", '[');
    for (size_t i = 0; i < f->piece_count; i++)
        if (f->pieces[i].step_count + f->pieces[i].roll_count > 0 || !f->pieces[i].bendable)
            formed_piece(j, &f->pieces[i]);
    json_end(j, ']');
    json_end(j, '}');
}

/* ---- lift --------------------------------------------------------------------------------------------------------------- */

static void lift_point(json_out *j, const char *key, sw_vec3 p)
{
    json_begin(j, key, '[');
    json_number(j, NULL, p.x_mm);
    json_number(j, NULL, p.y_mm);
    json_number(j, NULL, p.z_mm);
    json_end(j, ']');
}

static void lift_step(json_out *j, const sw_lift_step *s)
{
    json_begin(j, NULL, '{');
    json_text(j, "kind", sw_lift_kind_name(s->kind));
    json_text(j, "load", s->load);
    json_text(j, "action", s->action);
    json_text(j, "station", s->station);
    json_text(j, "held", s->held);
    json_number(j, "mass_kg", s->mass_kg);
    lift_point(j, "centre_mm", s->centre);
    json_number(j, "single_kg", s->single_kg);
    json_number(j, "team_kg", s->team_kg);
    json_number(j, "index", s->index);
    json_text(j, "way", sw_lift_way_name(s->way));
    json_text(j, "hoist", s->hoist == NULL ? NULL : s->hoist->name);
    json_number(j, "need_kg", s->need_kg);
    json_count(j, "legs", s->legs);
    degrees(j, "leg_angle_deg", s->leg_angle_rad);
    json_number(j, "leg_n", s->leg_n);
    json_number(j, "leg_mm", s->leg_mm);
    json_begin(j, "points_mm", '[');
    for (size_t i = 0; i < s->point_count; i++) lift_point(j, NULL, s->points[i]);
    json_end(j, ']');
    json_end(j, '}');
}

static void lift(json_out *j, const sw_lift_result *l)
{
    if (l == NULL) {
        json_nothing(j, "lift");
        return;
    }
    json_begin(j, "lift", '{');
    json_number(j, "single_kg", l->single_kg);
    json_begin(j, "steps", '[');
    for (size_t i = 0; i < l->step_count; i++) lift_step(j, &l->steps[i]);
    json_end(j, ']');
    json_begin(j, "trolley", '{');
    json_number(j, "stop_feet_m_s2", l->trolley.stop_feet_m_s2);
    json_number(j, "stop_wheels_m_s2", l->trolley.stop_wheels_m_s2);
    json_number(j, "push_feet_n", l->trolley.push_feet_n);
    json_number(j, "push_wheels_n", l->trolley.push_wheels_n);
    degrees(j, "tip_deg", l->trolley.tip_rad);
    json_number(j, "centre_mm", l->trolley.centre_mm);
    json_end(j, '}');
    json_end(j, '}');
}

void json_shopped(json_out *j, const sw_dossier *d)
{
    json_begin(j, "shop", '{');
    form(j, &d->shop);
    json_join(j, d->shop.join);
    json_fit(j, d->shop.fit);
    lift(j, d->shop.lift);
    json_coat(j, d->shop.coat);
    json_line(j, d);
    json_end(j, '}');
}
