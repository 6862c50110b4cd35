/* solve.c: the study: every piece unfolded and folded, then the checks one after the other. */
#include "making/sheet/sheet_parts.h"

/* Tree, flat, triangles and solid of one piece. */
static sw_status solve_piece(sw_run *run, const sw_sheet_study *study, const sw_piece *piece, sw_sheet_piece *out,
                             sw_sheet_case *c)
{
    sw_tree *tree = SW_SCRATCH(run, 1, sw_tree);
    sw_complex *complex = SW_SCRATCH(run, 1, sw_complex);
    if (tree == NULL || complex == NULL) return SW_NO_MEMORY;
    out->piece = piece;
    SW_TRY(sw_sheet_tree(run, piece, study->model->works, false, tree));
    SW_TRY(sw_sheet_unfold_tree(run, tree, &out->flat));
    SW_TRY(sw_sheet_fold_tree(run, tree, study->opt, complex, &out->solid));
    const sw_space_box *boxes = NULL;
    SW_TRY(sw_sheet_boxes(run, complex, &out->solid.mesh, &boxes));
    double density = piece->grade == NULL ? 0.0 : piece->grade->density;
    out->mass_kg = sw_m3_from_mm3(out->flat.area_mm2 * piece->thickness_mm) * density;
    *c = (sw_sheet_case){tree, complex, boxes, out};
    return SW_OK;
}

/* Goes on after a bad piece so that one run names them all; the first failure is the answer. */
static sw_status solve_pieces(sw_run *run, sw_sheet_study *study, sw_sheet_piece *pieces, double *mass_kg)
{
    const sw_stove *stove = study->model->stove;
    sw_status first = SW_OK;
    for (size_t i = 0; i < stove->piece_count; i++) {
        sw_status status = solve_piece(run, study, &stove->pieces[i], &pieces[i], &study->cases[i]);
        if (status == SW_NO_MEMORY) return status;
        if (first == SW_OK) first = status;
        *mass_kg += pieces[i].mass_kg * (double)stove->pieces[i].count;
    }
    return first;
}

static sw_status check_pieces(sw_run *run, const sw_sheet_study *study)
{
    static sw_status (*const checks[])(sw_run *, const sw_sheet_study *, const sw_sheet_case *) = {
        sw_check_flat, sw_check_rule, sw_check_radius, sw_check_flange, sw_check_holes, sw_check_relief};
    for (size_t i = 0; i < study->case_count; i++)
        for (size_t k = 0; k < sizeof checks / sizeof *checks; k++) SW_TRY(checks[k](run, study, &study->cases[i]));
    return SW_OK;
}

static sw_status solve(sw_run *run, const sw_model *model, const sw_sheet_options *opt, sw_sheet_result *result)
{
    size_t count = 0, pieces = model->stove->piece_count;
    const sw_option *table = sw_sheet_option_table(&count);
    SW_TRY(sw_options_check(run, table, count, opt));
    sw_sheet_study study = {.model = model, .opt = opt, .case_count = pieces, .findings = &result->findings};
    sw_sheet_piece *out = SW_KEEP(run, pieces, sw_sheet_piece);
    sw_joint_fit *fits = SW_KEEP(run, model->stove->joint_count, sw_joint_fit);
    study.cases = SW_SCRATCH(run, pieces, sw_sheet_case);
    if (out == NULL || fits == NULL || study.cases == NULL) return SW_NO_MEMORY;
    result->pieces = out;
    result->piece_count = pieces;
    result->joints = fits;
    result->joint_count = model->stove->joint_count;
    result->chord_mm = opt->chord_mm;
    SW_TRY(solve_pieces(run, &study, out, &result->mass_kg));
    SW_TRY(check_pieces(run, &study));
    SW_TRY(sw_check_marks(run, &study));
    SW_TRY(sw_check_stock(run, &study));
    SW_TRY(sw_check_collision(run, &study));
    SW_TRY(sw_check_joints(run, &study, fits));
    sw_findings_sort(&result->findings);
    return SW_OK;
}

sw_status sw_sheet_solve(sw_run *run, const sw_model *model, const sw_sheet_options *opt,
                         const sw_sheet_result **result)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    *result = NULL;
    sw_sheet_result *r = SW_KEEP(run, 1, sw_sheet_result);
    if (r == NULL) return SW_NO_MEMORY;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = solve(run, model, opt, r);
    sw_arena_rewind(run->scratch, mark);
    if (status == SW_OK) *result = r;
    return status;
}
