/* coat.c: the steps of the coating study. */
#include "making/coat/coat.h"

#include "making/coat/coat_parts.h"

#include <math.h>

#define PRACTICE "common practice, no source"

static const sw_option options[] = {
    SW_OPTION(sw_coat_options, fire_side, "", 0, 0, 1, "1 = surfaces facing the fire are coated too", PRACTICE),
    SW_OPTION(sw_coat_options, inner_side, "", 0, 0, 1, "1 = inner sides of shells, doors, air ways are coated too",
              PRACTICE),
    SW_OPTION(sw_coat_options, nozzle_kg_m2, "kg/m2", 24.4, 0, 200, "media through the nozzle, most of it comes back",
              "5 lb/ft2, an abrasive-blasting nozzle chart"),
    SW_OPTION(sw_coat_options, rz_um, "um", 35, 5, 150, "profile after blasting",
              "25 to 40 um under thin silicone films: " PRACTICE),
    SW_OPTION(sw_coat_options, film_kg_m3, "kg/m3", 1600, 800, 4000, "density of the dry film", PRACTICE),
    SW_OPTION(sw_coat_options, lel_share, "", 0.01, 0.001, 0.2, "lower explosive limit of the solvent, share of volume",
              "xylene, IEC 60079-20-1 (from memory); the product's data sheet counts"),
    SW_OPTION(sw_coat_options, lel_kg_kmol, "kg/kmol", 106.17, 10, 500, "molar mass of the solvent", "xylene, C8H10"),
    SW_OPTION(sw_coat_options, lel_part, "", 0.25, 0.01, 0.5, "part of the explosive limit that is allowed",
              "EN 16985 and EN 1539: 25 % (from memory)"),
    SW_OPTION(sw_coat_options, flash_s, "s", 300, 10, 36000, "time in which most solvent of a coat leaves", PRACTICE),
    SW_OPTION(sw_coat_options, pot_h, "h", 8, 0.1, 720, "how long an opened, stirred pot is used", PRACTICE),
    SW_OPTION(sw_coat_options, stoves, "", 4, 1, 100, "stoves blasted and sprayed in one go", PRACTICE),
    SW_OPTION(sw_coat_options, rope_land_mm, "mm", 12, 1, 50, "width kept bare under a rope", PRACTICE),
    SW_OPTION(sw_coat_options, glass_land_mm, "mm", 12, 1, 50, "width kept bare under the pane's edge", PRACTICE),
    SW_OPTION(sw_coat_options, heat_up_k_min, "K/min", 10, 0.5, 100, "heating up of the oven", PRACTICE),
    SW_OPTION(sw_coat_options, coat_within_h, "h", 4, 0.5, 48, "from blasting to the first coat", PRACTICE),
};

const sw_option *sw_coat_option_table(size_t *count)
{
    *count = sizeof options / sizeof *options;
    return options;
}

sw_coat_options sw_coat_options_defaults(void)
{
    sw_coat_options o = {.made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(options, sizeof options / sizeof *options, &o);
    return o;
}

static const char *const cautions[] = {
    "Blasting: supplied-air hood or closed cabinet, no free silica in the media, earth the hose, never point it at people.",
    "Spraying: no flame, spark or hot surface near; extract at the booth; mask with filter for organic vapour and mist.",
    "Air by the explosive limit is far more than lungs may breathe: the limits of the product's data sheet count.",
    "Rags and overspray go into closed metal bins.",
    "Oven: solvent must have left before pieces go in; the oven's own air change and interlocks are checked.",
    "First fires smell and smoke: open windows, nobody sleeps in the room, children and pets stay out, alarm is on.",
    "Hot film is soft: nothing is put on the stove and nobody wipes it until the last first fire has gone cold.",
};

static sw_status steps(sw_run *run, const sw_coat_input *in, const sw_coat_options *opt, const sw_coat_result **result)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    SW_TRY(sw_options_check(run, options, sizeof options / sizeof *options, opt));
    coat_job job = {.in = in, .opt = opt, .result = SW_KEEP(run, 1, sw_coat_result)};
    if (job.result == NULL) return SW_NO_MEMORY;
    if (in->works != NULL && in->works->blasting.m2_s != 0) job.blasting = &in->works->blasting;
    if (in->works != NULL && in->works->coating.solids != 0) job.coating = &in->works->coating;
    job.result->cautions = cautions;
    job.result->caution_count = sizeof cautions / sizeof *cautions;
    SW_TRY(coat_check(run, &job));
    SW_TRY(coat_areas(run, &job));
    SW_TRY(coat_masks(run, &job));
    coat_blast(&job);
    SW_TRY(coat_paint(run, &job));
    SW_TRY(coat_cure(run, &job));
    SW_TRY(coat_findings(run, &job));
    SW_TRY(coat_ratings(run, &job));
    *result = job.result;
    return SW_OK;
}

sw_status sw_coat_solve(sw_run *run, const sw_coat_input *in, const sw_coat_options *opt, const sw_coat_result **result)
{
    size_t mark = sw_arena_mark(run->scratch);
    *result = NULL;
    sw_status status = steps(run, in, opt, result);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
