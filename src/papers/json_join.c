/* json_join.c: seams, bodies and sums of welding in the answer for machines. */
#include "papers/json_shop_parts.h"

static void seam(json_out *j, const sw_join_result *r, const sw_join_seam *s)
{
    json_begin(j, NULL, '{');
    json_count(j, "number", s->number);
    json_text(j, "joint", s->joint->name);
    json_text(j, "a", s->a);
    json_text(j, "b", s->b);
    json_text(j, "kind", sw_seam_kind_name(s->kind));
    json_number(j, "throat_mm", s->throat_mm);
    json_number(j, "weld_mm", s->weld_mm);
    json_number(j, "arc_mm", s->arc_mm);
    json_truth(j, "reached", s->reached);
    json_number(j, "blocked_mm", s->blocked_mm);
    json_text(j, "in_the_way", s->in_the_way[0] == '\0' ? NULL : s->in_the_way);
    json_text(j, "body", s->body < r->body_count ? r->bodies[s->body].name : NULL);
    json_text(j, "station", sw_join_station_name(s->station));
    json_text(j, "why", s->why[0] == '\0' ? NULL : s->why);
    json_number(j, "travel_mm_s", s->travel_mm_s);
    json_number(j, "heat_kj_mm", s->heat_kj_mm);
    json_number(j, "wire_kg", s->wire_kg);
    json_number(j, "gas_m3", s->gas_m3);
    json_number(j, "energy_j", s->energy_j);
    json_number(j, "arc_s", s->arc_s);
    json_number(j, "shrink_across_mm", s->transverse_mm);
    json_number(j, "shrink_along_mm", s->along_mm);
    json_number(j, "rise_mm", s->rise_mm);
    json_count(j, "tacks", s->tack_count);
    json_end(j, '}');
}

static void robot_order(json_out *j, const sw_join_result *r, const sw_join_body *b)
{
    json_begin(j, "robot", '[');
    for (size_t i = 0; i < b->robot_count; i++) {
        const sw_join_step *s = &b->robot[i];
        json_begin(j, NULL, '{');
        json_count(j, "seam", r->seams[s->seam].number);
        json_truth(j, "backwards", s->backwards);
        json_truth(j, "turned", s->turned);
        json_number(j, "air_s", s->air_s);
        json_number(j, "weld_s", s->weld_s);
        json_number(j, "pull", s->pull);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void body(json_out *j, const sw_join_result *r, const sw_join_body *b)
{
    json_begin(j, NULL, '{');
    json_text(j, "name", b->name);
    json_text(j, "group", b->group);
    json_count(j, "pieces", b->piece_count);
    json_number(j, "mass_kg", b->mass_kg);
    json_number(j, "span_mm", b->span_mm);
    json_count(j, "tacks", b->tack_count);
    json_number(j, "hand_mm", b->hand_mm);
    json_number(j, "robot_mm", b->robot_mm);
    json_number(j, "tack_s", b->tack_s);
    json_number(j, "hand_s", b->hand_s);
    json_number(j, "robot_s", b->robot_s);
    json_number(j, "robot_arc_s", b->robot_arc_s);
    json_number(j, "starts_s", b->starts_s);
    json_number(j, "air_s", b->air_s);
    json_number(j, "turns_s", b->turns_s);
    json_number(j, "fixture_s", b->fixture_s);
    json_count(j, "turns", b->turns);
    json_truth(j, "proved", b->proved);
    json_begin(j, "hand", '[');
    for (size_t i = 0; i < b->hand_count; i++) json_count(j, NULL, r->seams[b->hand[i]].number);
    json_end(j, ']');
    robot_order(j, r, b);
    json_end(j, '}');
}

static void sums(json_out *j, const sw_join_result *r)
{
    json_number(j, "weld_mm", r->weld_mm);
    json_number(j, "tight_mm", r->tight_mm);
    json_number(j, "leak_area_mm2", r->leak_area_mm2);
    json_count(j, "leak_points", r->leak_count);
    json_number(j, "wire_kg", r->wire_kg);
    json_number(j, "gas_m3", r->gas_m3);
    json_number(j, "energy_j", r->energy_j);
    json_number(j, "arc_s", r->arc_s);
    json_number(j, "cost_wire", r->cost_wire);
    json_number(j, "cost_gas", r->cost_gas);
    json_number(j, "cost_energy", r->cost_energy);
    json_number(j, "cost_time", r->cost_time);
    json_count(j, "seams_without_row", r->unknown);
    json_begin(j, "stations", '[');
    for (int i = 0; i < SW_JOIN_STATIONS; i++) {
        json_begin(j, NULL, '{');
        json_text(j, "name", sw_join_station_name((sw_join_station)i));
        json_number(j, "run_s", r->station_s[i]);
        json_number(j, "setup_s", r->setup_s[i]);
        json_end(j, '}');
    }
    json_end(j, ']');
}

void json_join(json_out *j, const sw_join_result *r)
{
    if (r == NULL) {
        json_nothing(j, "join");
        return;
    }
    json_begin(j, "join", '{');
    sums(j, r);
    json_begin(j, "seams", '[');
    for (size_t i = 0; i < r->seam_count; i++) seam(j, r, &r->seams[i]);
    json_end(j, ']');
    json_begin(j, "bodies", '[');
    for (size_t i = 0; i < r->body_count; i++) body(j, r, &r->bodies[i]);
    json_end(j, ']');
    json_end(j, '}');
}
