/* fold.c: the folded piece: frames, solid, named edges, mass figures. */
#include "making/sheet/sheet_parts.h"

sw_status sw_sheet_fold_tree(sw_run *run, const sw_tree *tree, const sw_sheet_options *opt, sw_complex *complex,
                             sw_solid *solid)
{
    *solid = (sw_solid){0};
    sw_frame *frames = SW_KEEP(run, tree->piece->face_count, sw_frame);
    if (frames == NULL) return SW_NO_MEMORY;
    sw_sheet_frames(tree, frames);
    solid->faces = frames;
    SW_TRY(sw_sheet_complex(run, tree, opt->chord_mm, complex));
    sw_skin_choice whole = {.part = -1, .inset_mm = 0.0, .keep = true};
    SW_TRY(sw_sheet_skin(run, tree, frames, complex, &whole, &solid->mesh));
    SW_TRY(sw_sheet_edges(run, tree, frames, opt->chord_mm, &solid->edges));
    sw_mesh_box(&solid->mesh, &solid->low, &solid->high);
    sw_sheet_mass(tree, frames, solid);
    return SW_OK;
}

static sw_status fold(sw_run *run, const sw_piece *piece, const sw_sheet_options *opt, sw_solid *solid)
{
    sw_tree tree;
    sw_complex complex;
    size_t count = 0;
    const sw_option *table = sw_sheet_option_table(&count);
    SW_TRY(sw_options_check(run, table, count, opt));
    SW_TRY(sw_sheet_tree(run, piece, NULL, false, &tree));
    return sw_sheet_fold_tree(run, &tree, opt, &complex, solid);
}

sw_status sw_sheet_fold(sw_run *run, const sw_piece *piece, const sw_sheet_options *opt, sw_solid *solid)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = fold(run, piece, opt, solid);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
