/* fittings.c: the steps of the study of fittings. */
#include "making/fittings/fittings.h"

#include "making/fittings/fittings_parts.h"

#include <math.h>

#define PRACTICE "common practice, no source"

static const sw_option options[] = {
    SW_OPTION(sw_fittings_options, gap_mm_m, "mm/m", 2.5, 0, 20, "boards are cut smaller by this; 0 = drawn as cut",
              "2 to 3 mm for a panel of a metre: " PRACTICE),
    SW_OPTION(sw_fittings_options, step_mm, "mm", 0.5, 0.01, 10, "cut sizes are rounded down to this", "ours"),
    SW_OPTION(sw_fittings_options, sheet_length_mm, "mm", 1000, 100, 5000, "board as bought: length", PRACTICE),
    SW_OPTION(sw_fittings_options, sheet_width_mm, "mm", 610, 100, 5000, "board as bought: width", PRACTICE),
    SW_OPTION(sw_fittings_options, saw_mm, "mm", 3, 0, 20, "width of the saw's cut", PRACTICE),
    SW_OPTION(sw_fittings_options, stoves, "", 1, 1, 100, "boards of so many stoves are cut together", "ours"),
    SW_OPTION(sw_fittings_options, board_c, "degC", 500, 20, 800, "lining, mean of hot and cold side", PRACTICE),
    SW_OPTION(sw_fittings_options, wall_c, "degC", 250, 20, 800, "steel round the lining", PRACTICE),
    SW_OPTION(sw_fittings_options, pane_c, "degC", 500, 20, 800, "pane", PRACTICE),
    SW_OPTION(sw_fittings_options, frame_c, "degC", 300, 20, 800, "door round the pane", PRACTICE),
    SW_OPTION(sw_fittings_options, grate_c, "degC", 600, 20, 1000, "grate", PRACTICE),
    SW_OPTION(sw_fittings_options, seat_c, "degC", 300, 20, 1000, "floor round the grate", PRACTICE),
    SW_OPTION(sw_fittings_options, tolerance_mm, "mm", 0.5, 0, 10, "of opening and part together", PRACTICE),
    SW_OPTION(sw_fittings_options, pane_clear_mm, "mm", 2, 0, 20, "least beside the pane, each edge",
              "2 to 3 mm, never metal on glass: " PRACTICE ", found in part in a fitting note"),
    SW_OPTION(sw_fittings_options, opens_mm, "mm", 0.5, 0, 20, "by which a rope's joint opens hot",
              "ours: a door bows"),
    SW_OPTION(sw_fittings_options, ball_mm, "mm", 134.5, 5, 500, "steel ball of the glazing test", "10 kg; ours"),
    SW_OPTION(sw_fittings_options, drop_mm, "mm", 200, 0, 10000, "height it falls", "ours"),
};

const sw_option *sw_fittings_option_table(size_t *count)
{
    *count = sizeof options / sizeof *options;
    return options;
}

sw_fittings_options sw_fittings_options_defaults(void)
{
    sw_fittings_options o = {.made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(options, sizeof options / sizeof *options, &o);
    return o;
}

static const char *const cautions[] = {
    "Cut board and rope with extraction, goggles and a dust mask; wet the dust. Ceramic fibre is not needed for any of it.",
    "Boards are held by their neighbours and lips, never screwed tight; a crack is no fault as long as nothing falls out.",
    "Metal never touches the pane; clamp screws finger-tight over a soft gasket; a scratched or chipped edge is scrap.",
    "Glass test: full visor and gloves, pane framed as in the door, a net or box round it, nobody beside the falling ball.",
    "No impact test of the pane is known in the stove standards: the drop is a comparison and proves no conformity.",
    "Pins and screws in the fire: free holes and anti-seize; strength near 500 degC is about half.",
};

static sw_status check_item(sw_run *run, const sw_item *item)
{
    sw_box b = sw_contour_box(item->shape.outline);
    bool shaped = item->shape.outline.n > 0;
    bool finite = !shaped || (isfinite(b.x0_mm) && isfinite(b.x1_mm) && isfinite(b.y0_mm) && isfinite(b.y1_mm) &&
                              item->thickness_mm > 0);
    if (finite && isfinite(item->length_mm)) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, item->place, item->name,
                   "its size is no number; give shape, thickness, length");
}

static sw_status check(sw_run *run, const sw_fittings_input *in)
{
    sw_status status = SW_OK;
    for (size_t i = 0; i < in->stove->item_count; i++)
        if (check_item(run, &in->stove->items[i]) != SW_OK) status = SW_OUT_OF_RANGE;
    return status;
}

static sw_status steps(sw_run *run, const sw_fittings_input *in, const sw_fittings_options *opt,
                       const sw_fittings_result **result)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    SW_TRY(sw_options_check(run, options, sizeof options / sizeof *options, opt));
    SW_TRY(check(run, in));
    fittings_job job = {.in = in, .opt = opt, .result = SW_KEEP(run, 1, sw_fittings_result)};
    if (job.result == NULL) return SW_NO_MEMORY;
    job.result->options = *opt;
    job.result->cautions = cautions;
    job.result->caution_count = sizeof cautions / sizeof *cautions;
    SW_TRY(fittings_fits(run, &job));
    SW_TRY(fittings_boards(run, &job));
    SW_TRY(fittings_nest(run, &job));
    SW_TRY(fittings_glass(run, &job));
    SW_TRY(fittings_grates(run, &job));
    SW_TRY(fittings_findings(run, &job));
    *result = job.result;
    return SW_OK;
}

sw_status sw_fittings_solve(sw_run *run, const sw_fittings_input *in, const sw_fittings_options *opt,
                            const sw_fittings_result **result)
{
    size_t mark = sw_arena_mark(run->scratch);
    *result = NULL;
    sw_status status = steps(run, in, opt, result);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
