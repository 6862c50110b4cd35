/* print_house.c: the chimney and the site on one screen. */
#include "app/app.h"

#include <math.h>

static void print_steps(sw_writer *out, const sw_housed *h)
{
    const char *where = "";
    for (size_t i = 0; i < h->step_count; i++) {
        const sw_flue_step *s = &h->steps[i];
        if (s->where != where) sw_print(out, "\n%s\n", s->where);
        where = s->where;
        sw_print(out, "  %-12s %14.6g %-10s %s\n", s->symbol, s->value, s->unit, s->formula);
    }
}

static void print_lines(sw_writer *out, const sw_flue_case *c)
{
    int part = 22;
    for (size_t i = 0; i < c->line_count; i++) sw_widen(&part, c->lines[i].part->name);
    sw_print(out, "\n%s condition, %.0f degC outside\n%-*s %8s %8s %8s %8s %8s\n", c->name, sw_c_from_k(c->outside_k),
             part, "part", "in C", "mean C", "out C", "m/s", "wall C");
    for (size_t i = 0; i < c->line_count; i++) {
        const sw_flue_line *l = &c->lines[i];
        sw_print(out, "%-*s %8.0f %8.0f %8.0f %8.2f %8.0f\n", part, l->part->name, sw_c_from_k(l->entry_k),
                 sw_c_from_k(l->mean_k), sw_c_from_k(l->exit_k), l->velocity_m_s, sw_c_from_k(l->wall_k));
    }
}

static void print_draw(sw_writer *out, const char *day, const sw_draw_point *p)
{
    if (p == NULL) return;
    if (!sw_draw_is_point(p->state)) {
        sw_print(out, "  %-20s %s\n", day, sw_draw_state_name(p->state));
        return;
    }
    sw_print(out,
             "  %-20s %-16s %6.1f Pa, excess air %5.2f, %5.2f kW, %5.1f %%, flue gas %3.0f degC, outlet %3.0f degC\n",
             day, sw_draw_state_name(p->state), p->draught_pa, p->lambda, p->output_w * 1e-3, p->efficiency * 100,
             sw_c_from_k(p->flue_k), sw_c_from_k(p->outlet_k));
}

static void print_draws(sw_writer *out, const sw_housed *h)
{
    if (h->draw_count == 0) return;
    sw_print(out, "\n%-9s %8s %8s  %-16s %9s %7s %7s %6s %9s %9s\n", "outside C", "wind Pa", "wash %", "state",
             "draught", "excess", "kW", "%", "flue C", "outlet C");
    for (size_t i = 0; i < h->draw_count; i++) {
        const sw_draw_row *r = &h->draws[i];
        const sw_draw_point *p = &r->point;
        sw_print(out, "%9.0f %8.0f %8.0f  %-16s", sw_c_from_k(r->outside_k), r->wind_pa, 100 * r->wash_share,
                 sw_draw_state_name(p->state));
        if (sw_draw_is_point(p->state))
            sw_print(out, " %9.1f %7.2f %7.2f %6.1f %9.0f %9.0f", p->draught_pa, p->lambda, p->output_w * 1e-3,
                     p->efficiency * 100, sw_c_from_k(p->flue_k), sw_c_from_k(p->outlet_k));
        sw_print(out, "\n");
    }
}

/* The smallest that holds comes first. */
static void print_smallest(sw_writer *out, const sw_housed *h)
{
    if (h->tries[0].holds)
        sw_print(out, "Smallest that holds: %s, %.0f mm, %.2f m of chimney\n", h->tries[0].what,
                 h->tries[0].diameter_mm, h->tries[0].height_m);
    else
        sw_print(out, "None of them holds\n");
}

static void print_tries(sw_writer *out, const sw_housed *h)
{
    if (h->try_count == 0) return;
    int what = 34;
    for (size_t i = 0; i < h->try_count; i++) sw_widen(&what, h->tries[i].what);
    sw_print(out, "\n%-*s %8s %8s %8s %10s %12s %10s %s\n", what, "size or liner", "mm", "height m", "least m",
             "reserve Pa", "wall over dew", "too much", "holds");
    for (size_t i = 0; i < h->try_count; i++) {
        const sw_flue_try *t = &h->tries[i];
        sw_print(out, "%-*s %8.0f %8.2f", what, t->what, t->diameter_mm, t->height_m);
        sw_print_cell(out, 8, 2, t->least_m);
        sw_print_cell(out, 10, 1, t->reserve_pa);
        sw_print_cell(out, 12, 1, t->wall_over_dew_k);
        sw_print_cell(out, 10, 1, isnan(t->over_pa) ? t->over_pa : fmax(t->over_pa, 0));
        sw_print(out, " %s\n", t->holds ? "yes" : "no");
    }
    print_smallest(out, h);
}

/* One letter a point; rows: share of the wash slide, columns: outside temperature. */
static void print_map(sw_writer *out, const sw_draw_map *m)
{
    static const char letters[SW_DRAW_STATES] = {'.', 'w', 's', 'x', 'd', '-', '+', '?'};
    if (m == NULL) return;
    sw_print(out, "\nOperating map, %.0f to %.0f degC outside from left to right, wash slide down:",
             sw_c_from_k(m->outside_low_k), sw_c_from_k(m->outside_high_k));
    for (size_t i = 0; i < SW_DRAW_STATES; i++)
        sw_print(out, " %c %s%s", letters[i], sw_draw_state_name((sw_draw_state)i),
                 i + 1 < SW_DRAW_STATES ? "," : "\n");
    for (size_t r = 0; r < m->rows; r++) {
        double share = m->share_low + (m->share_high - m->share_low) * (double)r / (double)(m->rows - 1);
        sw_print(out, "  %3.0f %%  ", 100 * share);
        for (size_t k = 0; k < m->columns; k++) sw_print(out, "%c", letters[m->points[r * m->columns + k].state]);
        sw_print(out, "\n");
    }
}

/* What room, stabiliser and door do to it. */
static void print_around(sw_writer *out, const sw_housed *h)
{
    const sw_flue_result *f = h->flue;
    sw_print(out, "Air supply P_B %.2f Pa, %s\n", f->pressure.P_B,
             h->flue_in->supply_computed ? "computed from the room" : "as told, or the standard's");
    if (!isnan(f->stabiliser_pa))
        sw_print(
            out,
            "Stabiliser holds %.1f Pa at the chimney's foot: %.1f g/s of room air on a mild day, %.1f on the coldest\n",
            f->stabiliser_pa, f->pressure.air_kg_s * 1e3, f->over.air_kg_s * 1e3);
    if (!isnan(f->door.lift_pa))
        sw_print(
            out,
            "Fire door wide open on embers: air goes in at %.2f m/s (smoke stays in from %.2f); margin there %.1f Pa\n",
            isnan(f->door.velocity_m_s) ? 0 : f->door.velocity_m_s, f->door.wanted_m_s,
            f->door.lift_pa - f->door.loss_pa);
}

static void print_start(sw_writer *out, const sw_flue_start *s)
{
    if (s == NULL) return;
    sw_print(out, "\nBefore lighting the chimney gives %.1f Pa; it ", s->standing_pa);
    if (isfinite(s->draws_after_s))
        sw_print(out, "draws enough after %.0f min\n", sw_min_from_s(s->draws_after_s));
    else
        sw_print(out, "does not draw enough within %.0f min of lighting\n", sw_min_from_s(s->time_s[s->count - 1]));
}

void sw_print_flue(sw_writer *out, const sw_dossier *d)
{
    const sw_housed *h = d->housed;
    if (h == NULL || h->flue == NULL) return;
    const sw_flue_appliance *a = &h->flue_in->nominal;
    const sw_flue_result *f = h->flue;
    sw_print(out, "\nHouse: %s\nStove %s: %.2f g/s at %.0f degC, needs %.1f Pa\n", d->model.house->name,
             a->declared ? "as declared" : "by its own model", a->kg_s * 1e3, sw_c_from_k(a->t_k), a->need_pa);
    if (!f->solved) {
        sw_print(out, "The chimney has no solution: see the findings\n");
        return;
    }
    sw_print(out, "Draught there is %.1f Pa, needed %.1f Pa: reserve %.1f Pa; ", f->pressure.P_Z, f->pressure.P_Ze,
             f->reserve_pa);
    sw_print(out, isnan(f->least_height_m) ? "no height up to 100 m is enough\n" : "least height %.1f m\n",
             f->least_height_m);
    sw_print(out, "Wall at the outlet %.0f degC, dew point %.0f degC\nDesignation needed %s, offered %s\n",
             sw_c_from_k(f->temperature.outlet_wall_k), sw_c_from_k(f->temperature.dew_point_k), f->needed, f->offered);
    print_around(out, h);
    print_lines(out, &f->pressure);
    print_lines(out, &f->temperature);
    if (h->mild != NULL || h->cold != NULL) sw_print(out, "\nOn the real chimney, with the wood of the duty\n");
    print_draw(out, "mild, 15 degC", h->mild);
    print_draw(out, "coldest day", h->cold);
    print_draw(out, "mild, fans at full", h->fans);
    print_draws(out, h);
    print_start(out, h->start);
    print_tries(out, h);
    print_map(out, h->map);
    print_steps(out, h);
}

static void print_expected(sw_writer *out, const sw_expected *e)
{
    sw_print(out, "%-34s", e->name);
    if (e->yes_no)
        sw_print(out, " %10s", e->expected > 0.5 ? "yes" : "no");
    else
        sw_print_cell(out, 10, -4, e->expected);
    sw_print_cell(out, 10, -4, e->low);
    sw_print_cell(out, 10, -4, e->high);
    sw_print(out, " %-6s %s\n", e->unit, e->when);
}

static void print_face(sw_writer *out, const char *name, const sw_hot_panel *p)
{
    if (p == NULL) return;
    sw_print(out, "  %-16s %4.0f degC on %.0f x %.0f mm\n", name, sw_c_from_k(p->t_k), sw_mm_from_m(p->width_m),
             sw_mm_from_m(p->height_m));
}

static void print_spot(sw_writer *out, const char *name, double t_k)
{
    if (!isnan(t_k)) sw_print(out, "  %-16s %4.0f degC\n", name, sw_c_from_k(t_k));
}

static void print_faces(sw_writer *out, const sw_site_input *in)
{
    sw_print(out, "\nWhat the house sees of the stove, %.0f x %.0f x %.0f mm:%s\n", in->width_mm, in->depth_mm,
             in->height_mm, in->back == NULL && in->front == NULL ? " no fire computed" : "");
    print_face(out, "back", in->back);
    print_face(out, "left side", in->left);
    print_face(out, "right side", in->right);
    print_face(out, "front", in->front);
    print_face(out, "pane", in->pane);
    print_face(out, "underside", in->underside);
    print_spot(out, "connecting pipe", in->pipe_k);
}

static void print_known(sw_writer *out, const char *words, double value, int decimals, const char *unit)
{
    if (isfinite(value))
        sw_print(out, "%s %.*f %s", words, decimals, value, unit);
    else
        sw_print(out, "%s not known", words);
}

static void print_needs(sw_writer *out, const sw_site_result *s)
{
    int what = 30, where = 20;
    for (size_t i = 0; i < s->need_count; i++) {
        sw_widen(&what, s->needs[i].what);
        sw_widen(&where, s->needs[i].where);
    }
    sw_print(out, "\n%-*s %-*s %10s %10s   source\n", what, "distance or size", where, "where", "needed mm",
             "there mm");
    for (size_t i = 0; i < s->need_count; i++) {
        sw_print(out, "%-*s %-*s", what, s->needs[i].what, where, s->needs[i].where);
        sw_print_cell(out, 10, 0, s->needs[i].needed_mm);
        sw_print_cell(out, 10, 0, s->needs[i].there_mm);
        sw_print(out, "   %s\n", s->needs[i].source);
    }
}

void sw_print_site(sw_writer *out, const sw_dossier *d)
{
    const sw_housed *h = d->housed;
    if (h == NULL || h->site == NULL) return;
    const sw_site_result *s = h->site;
    print_faces(out, h->site_in);
    print_needs(out, s);
    print_known(out, "\nRoom below outside: fans alone", s->fans_pa, 1, "Pa");
    print_known(out, ", with the stove", s->depression_pa, 1, "Pa");
    print_known(out, "; opening wanted in all", sw_mm2_from_m2(s->vent_needed_m2), 0, "mm2");
    print_known(out, "; floor", s->floor_load_pa * 1e-3, 2, "kPa");
    sw_print(out, "\n");
    sw_print(out, "\nFirst fire: what this house should give\n%-34s %10s %10s %10s %-6s %s\n", "reading", "expected",
             "from", "to", "", "when");
    for (size_t i = 0; i < s->expected_count; i++) print_expected(out, &s->expected[i]);
}
