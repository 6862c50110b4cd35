/* site_check.c: are the figures of house and stove possible? What is NAN counts as not known and passes where it may. */
#include "siting/site/site_parts.h"

#include <math.h>
#include <string.h>

static const char *const sides[] = {"back", "left", "right", "front", "above"};
enum { SIDES = sizeof sides / sizeof *sides };

typedef struct bound {
    const char *field;
    double value, low, high;
    bool must; /* may not be unknown */
} bound;

static sw_status check_bound(sw_run *run, sw_place place, const char *owner, const bound *b)
{
    if ((isnan(b->value) && !b->must) || (b->value >= b->low && b->value <= b->high)) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, place, b->field, "%s: %s %g is outside %g to %g", owner, b->field, b->value,
                   b->low, b->high);
}

static sw_status check_bounds(sw_run *run, sw_place place, const char *owner, const bound *bounds, size_t count)
{
    sw_status status = SW_OK;
    for (size_t i = 0; i < count; i++) {
        sw_status one = check_bound(run, place, owner, &bounds[i]);
        if (one != SW_OK) status = one;
    }
    return status;
}
#define CHECK(run, place, owner, bounds) check_bounds(run, place, owner, bounds, sizeof(bounds) / sizeof *(bounds))

static sw_status check_stove(sw_run *run, const sw_site_input *in)
{
    const bound bounds[] = {
        {"output_w", in->output_w, 100, 1e5, true},
        {"mass_kg", in->mass_kg, 1, 1e4, true},
        {"leg_count", in->leg_count, 0, 100, false},
        {"width_mm", in->width_mm, 50, 5000, true},
        {"depth_mm", in->depth_mm, 50, 5000, true},
        {"height_mm", in->height_mm, 50, 5000, true},
        {"room_k", in->room_k, sw_k_from_c(-30), sw_k_from_c(50), true},
        {"pipe_k", in->pipe_k, in->room_k, sw_k_from_c(1500), false},
        {"pipe_diameter_m", in->pipe_diameter_m, 0.02, 2, false},
        {"floor_k", in->floor_k, in->room_k, sw_k_from_c(1500), false},
        {"under_m", in->under_m, 0, 3, true},
        {"stabiliser_kg_s", in->stabiliser_kg_s, 0, 10, true},
        {"air_kg_s", in->air_kg_s, 0, 1, false},
        {"draught_pa", in->draught_pa, 0, 500, false},
        {"chimney_pa", in->chimney_pa, -500, 500, false},
        {"standing_pa", in->standing_pa, -500, 500, false},
        {"flue_k", in->flue_k, in->room_k, sw_k_from_c(1500), false},
        {"co2_dry", in->co2_dry, 0, 0.21, false},
    };
    return CHECK(run, in->stove->place, "stove", bounds);
}

static sw_status check_panel(sw_run *run, const sw_site_input *in, const sw_hot_panel *p)
{
    if (p == NULL) return SW_OK;
    const bound bounds[] = {
        {"width_m", p->width_m, 1e-3, 10, true},
        {"height_m", p->height_m, 1e-3, 10, true},
        {"t_k", p->t_k, in->room_k, sw_k_from_c(1500), true},
        {"emissivity", p->emissivity, 1e-3, 1, true},
    };
    return CHECK(run, in->stove->place, p->name, bounds);
}

static sw_status check_house(sw_run *run, const sw_house *h)
{
    const bound bounds[] = {
        {"room_m3", h->room_m3, 0, 1e6, false},
        {"joined_m3", h->joined_m3, 0, 1e6, false},
        {"permeability_m_s", h->permeability_m_s, 0, 1, false},
        {"envelope_m2", h->envelope_m2, 0, 1e6, false},
        {"extract_m3_s", h->extract_m3_s, 0, 1e3, false},
        {"vent_m2", h->vent_m2, 0, 1e3, false},
        {"hearth_width_mm", h->hearth_width_mm, 0, 1e5, false},
        {"hearth_depth_mm", h->hearth_depth_mm, 0, 1e5, false},
        {"hearth_mm", h->hearth_mm, 0, 1e4, false},
        {"hearth_front_mm", h->hearth_front_mm, 0, 1e5, false},
        {"hearth_side_mm", h->hearth_side_mm, 0, 1e5, false},
        {"hearth_density", h->hearth_density, 0, 2e4, false},
        {"hearth_conductivity", h->hearth_conductivity, 0, 500, false},
        {"floor_resistance", h->floor_resistance, 0, 1e3, false},
        {"recess width_mm", h->recess.width_mm, 0, 1e5, false},
        {"recess height_mm", h->recess.height_mm, 0, 1e5, false},
        {"recess depth_mm", h->recess.depth_mm, 0, 1e5, false},
        {"recess left_mm", h->recess.left_mm, 0, 1e5, false},
        {"recess back_mm", h->recess.back_mm, 0, 1e5, false},
        {"floor_pa", h->floor_pa, 0, 1e7, false},
        {"roof pitch_rad", h->roof.pitch_rad, 0, sw_rad_from_deg(85), false},
        {"roof ridge_m", h->roof.ridge_m, 0, 1000, false},
        {"roof above_m", h->roof.above_m, 0, 100, false},
        {"roof window_m", h->roof.window_m, 0, 1e4, false},
        {"roof window_top_m", h->roof.window_top_m, -100, 100, false},
        {"roof neighbour_m", h->roof.neighbour_m, 0, 1e4, false},
        {"roof neighbour_top_m", h->roof.neighbour_top_m, -100, 1000, false},
        {"declared_k", h->declared_k, sw_k_from_c(20), sw_k_from_c(1500), false},
        {"declared_pa", h->declared_pa, 0, 500, false},
        {"declared_most_pa", h->declared_most_pa, 0, 500, false},
    };
    return CHECK(run, h->place, "house", bounds);
}

static sw_status check_alarm(sw_run *run, const sw_alarm *a)
{
    const bound bounds[] = {
        {"from_stove_mm", a->from_stove_mm, 0, 1e5, false},
        {"from_wall_mm", a->from_wall_mm, 0, 1e5, false},
        {"below_ceiling_mm", a->below_ceiling_mm, 0, 1e5, false},
    };
    return a->there ? CHECK(run, a->place, "alarm", bounds) : SW_OK;
}

static sw_status check_side(sw_run *run, const sw_near *n)
{
    for (size_t i = 0; i < SIDES; i++)
        if (strcmp(n->side, sides[i]) == 0) return SW_OK;
    const char *near = sw_text_nearest(n->side, sides, SIDES);
    return sw_fail(run, SW_BAD_INPUT, n->place, "side",
                   "%s: side \"%.40s\" is not known%s%s; use back, left, right, front or above", n->name, n->side,
                   near == NULL ? "" : ", did you mean ", near == NULL ? "" : near);
}

static sw_status check_near(sw_run *run, const sw_near *n)
{
    const bound bounds[] = {
        {"distance_mm", n->distance_mm, 0, 1e5, true},
        {"resistance", n->resistance, 1e-6, 1e3, false},
        {"shield_mm", n->shield_mm, 0, 1e5, false},
        {"shield_emissivity", n->shield_mm > 0 ? n->shield_emissivity : 1, 1e-3, 1, true},
    };
    sw_status status = CHECK(run, n->place, n->name, bounds), side = check_side(run, n);
    if (n->shield_mm > 0 && n->shield_mm >= n->distance_mm)
        status = sw_fail(run, SW_BAD_INPUT, n->place, "shield_mm",
                         "%s: a shield %g mm from the wall does not fit before a stove %g mm from it", n->name,
                         n->shield_mm, n->distance_mm);
    return side != SW_OK ? side : status;
}

static sw_status check_part(sw_run *run, const sw_flue_part *p)
{
    const bound bounds[] = {
        {"width_mm", p->width_mm, 10, 5000, true},
        {"depth_mm", p->round ? p->width_mm : p->depth_mm, 10, 5000, true},
        {"length_m", p->length_m, 0, 200, true},
        {"rise_m", p->rise_m, -p->length_m, p->length_m, true},
        {"combustible_mm", p->combustible_mm, 0, 1e5, false},
        {"resistance", p->resistance, 0, 1e3, false},
        {"outer_mm", p->outer_mm, p->width_mm / 2, 1e4, false},
    };
    return CHECK(run, p->place, p->name, bounds);
}

sw_status site_check(sw_run *run, const sw_site_input *in)
{
    SW_ASSERT(in->house != NULL && in->stove != NULL);
    enum { PANELS = 7 };
    const sw_hot_panel *const panels[PANELS] = {in->back, in->left, in->right,    in->front,
                                                in->pane, in->top,  in->underside};
    sw_status status = check_stove(run, in), one = check_house(run, in->house);
    if (one != SW_OK) status = one;
    if ((one = check_alarm(run, &in->house->alarm)) != SW_OK) status = one;
    for (size_t i = 0; i < PANELS; i++)
        if ((one = check_panel(run, in, panels[i])) != SW_OK) status = one;
    for (size_t i = 0; i < in->house->near_count; i++)
        if ((one = check_near(run, &in->house->near[i])) != SW_OK) status = one;
    for (size_t i = 0; i < in->house->part_count; i++)
        if ((one = check_part(run, &in->house->parts[i])) != SW_OK) status = one;
    return status;
}
