/* options.c: what can be set in the study of sheet pieces. */
#include "making/sheet/sheet.h"

static const sw_option options[] = {
    SW_OPTION(sw_sheet_options, chord_mm, "mm", SW_CONTACT_MM, 0.001, 2.0,
              "largest distance between an arc and its chord in folded pieces", "ours: no more than the contact depth"),
    SW_OPTION(sw_sheet_options, contact_mm, "mm", SW_CONTACT_MM, 0.0, 0.5,
              "folded pieces deeper in each other than this collide", "ours: below what laser and press can hold"),
    SW_OPTION(sw_sheet_options, edge_step_mm, "mm", 10.0, 0.5, 500.0, "spacing of gap samples along a joint",
              "ours: below the length of a tack weld"),
};

const sw_option *sw_sheet_option_table(size_t *count)
{
    *count = sizeof options / sizeof *options;
    return options;
}

sw_sheet_options sw_sheet_options_defaults(void)
{
    sw_sheet_options o = {.made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(options, sizeof options / sizeof *options, &o);
    return o;
}
