/* solids.c: every piece folded and nothing else, for a picture that follows a hand: nothing is weighed or judged. */
#include "making/sheet/sheet_parts.h"

#include <math.h>

static sw_status fold(sw_run *run, const sw_model *model, const sw_sheet_options *opt, sw_sheet_piece *out)
{
    sw_tree tree;
    sw_complex complex;
    SW_TRY(sw_sheet_tree(run, out->piece, model->works, false, &tree));
    sw_frame *frames = SW_SCRATCH(run, out->piece->face_count, sw_frame);
    if (frames == NULL) return SW_NO_MEMORY;
    sw_sheet_frames(&tree, frames);
    SW_TRY(sw_sheet_complex(run, &tree, opt->chord_mm, &complex));
    const sw_skin_choice whole = {.part = -1, .keep = true};
    return sw_sheet_skin(run, &tree, frames, &complex, &whole, &out->solid.mesh);
}

static sw_status fold_alone(sw_run *run, const sw_model *model, const sw_sheet_options *opt, sw_sheet_piece *out)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = fold(run, model, opt, out);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

sw_status sw_sheet_solids(sw_run *run, const sw_model *model, const sw_sheet_options *opt,
                          const sw_sheet_result **result)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    *result = NULL;
    size_t options = 0, count = model->stove->piece_count;
    const sw_option *table = sw_sheet_option_table(&options);
    SW_TRY(sw_options_check(run, table, options, opt));
    sw_sheet_result *r = SW_KEEP(run, 1, sw_sheet_result);
    sw_sheet_piece *pieces = SW_KEEP(run, count + 1, sw_sheet_piece);
    if (r == NULL || pieces == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) {
        if (sw_run_cancelled(run)) return sw_fail(run, SW_CANCELLED, (sw_place){0}, "picture", "stopped on request");
        pieces[i] = (sw_sheet_piece){.piece = &model->stove->pieces[i], .mass_kg = NAN};
        SW_TRY(fold_alone(run, model, opt, &pieces[i]));
    }
    *r = (sw_sheet_result){.pieces = pieces, .piece_count = count, .mass_kg = NAN, .chord_mm = opt->chord_mm};
    *result = r;
    return SW_OK;
}
