/* form.c: the steps of the bending study, piece by piece. */
#include "making/form/form.h"

#include "making/form/form_parts.h"

/* Rolled zones are rolled while the sheet is flat; only where no order of strokes suits that they come last. */
static sw_status find_order(sw_run *run, form_job *job, form_order *order, bool *rolls_first)
{
    bool rolled = false;
    for (size_t i = 0; i < job->body->piece->bend_count; i++) rolled = rolled || job->body->line_of[i] < 0;
    *rolls_first = rolled;
    SW_TRY(form_search(run, job, order));
    if (order->found || !rolled || !form_rolls_last_clear(job->body, &job->works->rolls)) return SW_OK;
    form_order last;
    job->body->rolls_made = false;
    SW_TRY(form_search(run, job, &last));
    if (last.found) {
        *order = last;
        *rolls_first = false;
        return SW_OK;
    }
    job->body->rolls_made = true;
    job->kept = NULL;
    return SW_OK;
}

static sw_status study_piece(sw_run *run, const sw_form_input *in, const sw_form_options *opt,
                             const sw_sheet_piece *piece, sw_form_piece *out, sw_findings *findings)
{
    form_body body;
    form_order order;
    form_job job = {.opt = opt, .works = in->model->works, .body = &body};
    *out = (sw_form_piece){.piece = piece->piece, .bendable = piece->piece->bend_count == 0};
    if (piece->piece->bend_count == 0 || job.works == NULL) return SW_OK;
    SW_TRY(form_body_make(run, opt, piece, &body));
    job.machine = form_machine_of(&job.works->press, opt);
    job.frames = SW_SCRATCH(run, piece->piece->face_count, sw_frame);
    job.slabs = SW_SCRATCH(run, body.slab_room, form_slab);
    if (job.frames == NULL || job.slabs == NULL) return SW_NO_MEMORY;
    form_dies(&job, in->fit);
    out->line_count = body.line_count;
    SW_TRY(find_order(run, &job, &order, &out->rolls_first));
    out->bendable = order.found;
    out->looked = order.looked;
    if (order.found) SW_TRY(form_steps(run, &job, &order, out));
    SW_TRY(form_rolls(run, &job, in->fit, out));
    if (!order.found) SW_TRY(form_blocked(run, &job, &order, findings));
    return form_piece_findings(run, &job, out, findings);
}

/* What is worked out for one piece goes when it is done. */
static sw_status one_piece(sw_run *run, const sw_form_input *in, const sw_form_options *opt,
                           const sw_sheet_piece *piece, sw_form_piece *out, sw_findings *findings)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = study_piece(run, in, opt, piece, out, findings);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

static void sum_up(const sw_works *works, sw_form_result *r)
{
    for (size_t i = 0; i < r->piece_count; i++) {
        r->press_s += r->pieces[i].press_s * (double)r->pieces[i].piece->count;
        r->rolls_s += r->pieces[i].rolls_s * (double)r->pieces[i].piece->count;
    }
    if (works == NULL) return;
    r->cost = works->press.rate_h * sw_h_from_s(r->press_s) + works->rolls.rate_h * sw_h_from_s(r->rolls_s);
}

static sw_status steps(sw_run *run, const sw_form_input *in, const sw_form_options *opt, const sw_form_result **result)
{
    size_t count = 0;
    const sw_option *table = sw_form_option_table(&count);
    SW_TRY(sw_options_check(run, table, count, opt));
    if (in->model->works != NULL) SW_TRY(form_check(run, in->model->works));
    sw_form_result *r = SW_KEEP(run, 1, sw_form_result);
    sw_form_piece *pieces = SW_KEEP(run, in->sheet->piece_count, sw_form_piece);
    if (r == NULL || (pieces == NULL && in->sheet->piece_count > 0)) return SW_NO_MEMORY;
    r->pieces = pieces;
    r->piece_count = in->sheet->piece_count;
    SW_TRY(form_works_findings(run, in, &r->findings));
    for (size_t i = 0; i < r->piece_count; i++) {
        if (sw_run_cancelled(run)) return SW_CANCELLED;
        SW_TRY(one_piece(run, in, opt, &in->sheet->pieces[i], &pieces[i], &r->findings));
    }
    sum_up(in->model->works, r);
    *result = r;
    return SW_OK;
}

sw_status sw_form_solve(sw_run *run, const sw_form_input *in, const sw_form_options *opt, const sw_form_result **result)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    size_t mark = sw_arena_mark(run->scratch);
    *result = NULL;
    sw_status status = steps(run, in, opt, result);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
