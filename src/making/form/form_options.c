/* form_options.c: what may be chosen, and figures of the machines that cannot be. */
#include "making/form/form_parts.h"

#include <math.h>

#define TRADE "common practice, no source"

static const sw_option table[] = {
    SW_OPTION(sw_form_options, force_factor, "", 1.5, 1.0, 3.0, "constant of the bending force for capacity",
              "a toolmaker's air bending chart"),
    SW_OPTION(sw_form_options, re_factor, "", 1.2, 1.0, 1.6, "real yield stress over the grade's least", TRADE),
    SW_OPTION(sw_form_options, contact_mm, "mm", 0.2, 0.01, 5.0, "deeper than this is a collision", "ours"),
    SW_OPTION(sw_form_options, step_deg, "deg", 15.0, 1.0, 45.0, "a stroke is looked at every so many degrees", "ours"),
    SW_OPTION(sw_form_options, segmented, "", 1.0, 0.0, 1.0, "1: tools are made up of lengths", TRADE),
    SW_OPTION(sw_form_options, tool_short_mm, "mm", 1.0, 0.0, 20.0, "a tool may end so far inside the bend", TRADE),
    SW_OPTION(sw_form_options, punch_angle_deg, "deg", 86.0, 30.0, 90.0, "wedge of the usual punch", TRADE),
    SW_OPTION(sw_form_options, acute_deg, "deg", 26.0, 15.0, 60.0, "wedge of the acute punch and die", TRADE),
    SW_OPTION(sw_form_options, punch_body_mm, "mm", 16.0, 4.0, 80.0, "thickness of the punch where none is given",
              TRADE),
    SW_OPTION(sw_form_options, punch_high_mm, "mm", 150.0, 30.0, 400.0, "height of the punch where none is given",
              TRADE),
    SW_OPTION(sw_form_options, die_block_mm, "mm", 10.0, 1.0, 100.0, "die beside its V where none is given", TRADE),
    SW_OPTION(sw_form_options, die_high_mm, "mm", 80.0, 20.0, 300.0, "height of the die where none is given", TRADE),
    SW_OPTION(sw_form_options, beam_mm, "mm", 60.0, 10.0, 400.0, "thickness of the beam where none is given", TRADE),
    SW_OPTION(sw_form_options, finger_mm, "mm", 20.0, 2.0, 200.0, "least length of edge at the back gauge", TRADE),
    SW_OPTION(sw_form_options, leg_off_mm, "mm", 0.5, 0.05, 5.0, "allowed shift of a leg by another radius", TRADE),
    SW_OPTION(sw_form_options, pass_strain, "", 0.01, 0.001, 0.1, "bending strain of one pass of the rolls", TRADE),
    SW_OPTION(sw_form_options, least_shell, "", 1.1, 1.0, 2.0, "least inside radius over the top roll's", TRADE),
    SW_OPTION(sw_form_options, radius_tolerance, "", 0.02, 0.001, 0.2, "tolerance of a rolled radius", TRADE),
};

const sw_option *sw_form_option_table(size_t *count)
{
    *count = sizeof table / sizeof *table;
    return table;
}

sw_form_options sw_form_options_defaults(void)
{
    sw_form_options o = {.made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(table, sizeof table / sizeof *table, &o);
    return o;
}

const char *sw_form_stroke_name(sw_form_stroke stroke)
{
    static const char *const names[] = {"bend", "bend before flattening", "flatten", "joggle"};
    return names[stroke];
}

const char *sw_form_punch_name(sw_form_punch punch)
{
    static const char *const names[] = {"straight", "goose-neck, relief to the operator",
                                        "goose-neck, relief to the gauge", "flat"};
    return names[punch];
}

const char *sw_form_rest_name(sw_form_rest rest)
{
    static const char *const names[] = {"cut edge", "bent edge", "marked line"};
    return names[rest];
}

typedef struct figure {
    const char *field, *unit;
    double value, high;
} figure;

static sw_status check_figures(sw_run *run, sw_place place, const figure *figures, size_t count)
{
    sw_status status = SW_OK;
    for (size_t i = 0; i < count; i++)
        if (!(figures[i].value >= 0.0 && figures[i].value <= figures[i].high))
            status = sw_fail(run, SW_BAD_INPUT, place, figures[i].field,
                             "%g %s is outside 0 to %g %s; 0 means not given; mend the works description",
                             figures[i].value, figures[i].unit, figures[i].high, figures[i].unit);
    return status;
}

static sw_status check_dies(sw_run *run, const sw_works *works)
{
    sw_status status = SW_OK;
    const sw_press *p = &works->press;
    for (size_t i = 0; i < p->die_count; i++) {
        bool rises = i == 0 || p->dies_mm[i] > p->dies_mm[i - 1];
        if (!(p->dies_mm[i] > 0.0 && p->dies_mm[i] <= 500.0) || !rises)
            status = sw_fail(run, SW_BAD_INPUT, works->place, "press.dies",
                             "die %zu is %g mm; V openings lie between 0 and 500 mm and rise", i + 1, p->dies_mm[i]);
    }
    return status;
}

sw_status form_check(sw_run *run, const sw_works *works)
{
    const sw_press *p = &works->press;
    const sw_rolls *r = &works->rolls;
    const figure figures[] = {
        {"press.length", "mm", p->length_mm, 2e4},
        {"press.force", "N", p->force_n, 1e8},
        {"press.punch_radius", "mm", p->punch_radius_mm, 100},
        {"press.punch_body", "mm", p->punch_body_mm, 200},
        {"press.punch_high", "mm", p->punch_high_mm, 1e4},
        {"press.neck", "mm", p->neck_mm, 200},
        {"press.die_block", "mm", p->die_block_mm, 500},
        {"press.die_high", "mm", p->die_high_mm, 1e4},
        {"press.beam", "mm", p->beam_mm, 2e3},
        {"press.gauge_least", "mm", p->gauge_least_mm, 1e4},
        {"press.gauge_most", "mm", p->gauge_most_mm, 1e4},
        {"press.bend_time", "s", p->bend_s, 1e5},
        {"press.turn_time", "s", p->turn_s, 1e5},
        {"press.gauge_time", "s", p->gauge_s, 1e5},
        {"press.setup", "s", p->setup_s, 1e6},
        {"press.rate", "per h", p->rate_h, 1e6},
        {"press.angle_sigma", "rad", p->angle_sigma_rad, 1},
        {"press.line_sigma", "mm", p->line_sigma_mm, 100},
        {"rolls.length", "mm", r->length_mm, 2e4},
        {"rolls.top_radius", "mm", r->top_radius_mm, 2e3},
        {"rolls.lower_radius", "mm", r->lower_radius_mm, 2e3},
        {"rolls.centres", "mm", r->centres_mm, 1e4},
        {"rolls.flat_end", "x thickness", r->flat_end_s, 100},
        {"rolls.force", "N", r->force_n, 1e8},
        {"rolls.speed", "mm/s", r->pass_mm_s, 1e4},
        {"rolls.setup", "s", r->setup_s, 1e6},
        {"rolls.rate", "per h", r->rate_h, 1e6},
        {"rolls.radius_sigma", "", r->radius_sigma, 1},
    };
    sw_status first = check_figures(run, works->place, figures, sizeof figures / sizeof *figures);
    sw_status second = check_dies(run, works);
    return first != SW_OK ? first : second;
}
