/* dossier.c: runs the studies one after another over one model. The only place that knows their order. */
#include "app/app.h"
#include "app/stock_of_log.h"
#include "base/beside.h"

#include <math.h>
#include <string.h>

typedef struct dossier_job {
    sw_run *run;
    const sw_request *request;
    sw_dossier *d;
    bool request_stopped; /* Ctrl-C while nests were improved */
} dossier_job;

static bool told_already(const sw_findings *told, const sw_finding *f)
{
    for (size_t i = 0; i < told->count; i++) {
        const sw_finding *t = &told->items[i];
        if (strcmp(t->check, f->check) == 0 && strcmp(t->where, f->where) == 0 && strcmp(t->what, f->what) == 0 &&
            strcmp(t->study, f->study) == 0)
            return true;
    }
    return false;
}

/* What is said of a piece is said once, however many sheets carry it. Verdicts are taken over as the study gave them. */
sw_status sw_dossier_tell(sw_run *run, sw_dossier *dossier, const sw_findings *from)
{
    sw_findings *into = &dossier->findings;
    for (size_t i = 0; i < from->count; i++) {
        if (told_already(into, &from->items[i])) continue;
        sw_finding *items = sw_grow(run, run->keep, into->items, into->count, &into->room, sizeof *items);
        if (items == NULL) return SW_NO_MEMORY;
        into->items = items;
        into->items[into->count++] = from->items[i];
    }
    return SW_OK;
}

/* All reasons in one sentence, because a finding has one line; NULL without memory. Copied: errors that come later
 * take the same slots. */
static const char *reasons(sw_run *run, size_t first_error)
{
    const char *all = "";
    for (size_t i = first_error; i < run->error_count && i < SW_ERROR_MAX && all != NULL; i++)
        all = sw_text_format(run, run->keep, "%s%s%s", all, all[0] == '\0' ? "" : "; ", run->errors[i].text);
    return all != NULL && all[0] == '\0' ? "no reason told" : all;
}

sw_status sw_dossier_tell_missing(sw_run *run, sw_dossier *dossier, size_t first_error, sw_finding finding,
                                  const char **why)
{
    const char *all = reasons(run, first_error);
    if (all == NULL) return SW_NO_MEMORY;
    run->error_count = first_error; /* told as a finding instead */
    *why = all;
    finding.check = "computed";
    finding.sense = SW_STATED;
    finding.value = finding.limit = NAN;
    finding.unit = "";
    finding.what = sw_text_format(run, run->keep, "not computed: %s", all);
    finding.source = "ours: an answer that does not settle is no answer";
    return finding.what == NULL ? SW_NO_MEMORY : sw_finding_add(run, &dossier->findings, finding, 0);
}

static sw_status read_descriptions(dossier_job *job)
{
    const sw_request *q = job->request;
    if (q->word_count != 1)
        return sw_fail(job->run, SW_BAD_INPUT, (sw_place){0}, q->command,
                       "needs one stove description, %zu given; e.g. stovewright %s demo/a.stove.lua", q->word_count,
                       q->command);
    const sw_design_input in = {.stove_path = q->words[0],
                                .works_path = q->works,
                                .house_path = q->house,
                                .declared_path = q->declared,
                                .house_text = q->house_text,
                                .settings = q->settings,
                                .setting_count = q->setting_count};
    const sw_model *model = NULL;
    SW_TRY(sw_design_read(job->run, &in, &model));
    job->d->model = *model;
    return SW_OK;
}

static sw_status run_sheet(dossier_job *job)
{
    sw_sheet_options opt = sw_sheet_options_defaults();
    SW_TRY(sw_sheet_solve(job->run, &job->d->model, &opt, &job->d->sheet));
    return sw_dossier_tell(job->run, job->d, &job->d->sheet->findings);
}

static sw_status run_solids(dossier_job *job)
{
    sw_sheet_options opt = sw_sheet_options_defaults();
    if (job->request->chord_mm > 0) opt.chord_mm = job->request->chord_mm;
    return sw_sheet_solids(job->run, &job->d->model, &opt, &job->d->sheet);
}

static sw_status run_heft(dossier_job *job)
{
    const sw_sheet_result *sheet = job->d->sheet;
    sw_body *bodies = SW_KEEP(job->run, sheet->piece_count, sw_body);
    const sw_mesh **meshes = SW_KEEP(job->run, sheet->piece_count, const sw_mesh *);
    if (bodies == NULL || meshes == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < sheet->piece_count; i++) {
        meshes[i] = &sheet->pieces[i].solid.mesh;
        bodies[i].mass_kg = sheet->pieces[i].mass_kg;
        bodies[i].centre = sheet->pieces[i].solid.centroid;
        memcpy(bodies[i].inertia_kg_mm2, sheet->pieces[i].solid.inertia_kg_mm2, sizeof bodies[i].inertia_kg_mm2);
    }
    const sw_heft_input in = {.stove = job->d->model.stove, .pieces = bodies, .meshes = meshes};
    SW_TRY(sw_heft_solve(job->run, &in, &job->d->heft));
    return sw_dossier_tell(job->run, job->d, &job->d->heft->findings);
}

/* ---- nests ---------------------------------------------------------------------------- */

static bool same_sheet(const sw_grade *a, double a_mm, const sw_grade *b, double b_mm)
{
    return a == b && fabs(a_mm - b_mm) < SW_SAME_POINT_MM;
}

/* One entry for each material and thickness, in the order of the stove. */
static sw_status list_sheets(dossier_job *job)
{
    const sw_stove *stove = job->d->model.stove;
    sw_nested *nests = SW_KEEP(job->run, stove->piece_count, sw_nested);
    if (nests == NULL) return SW_NO_MEMORY;
    size_t count = 0;
    for (size_t i = 0; i < stove->piece_count; i++) {
        const sw_piece *p = &stove->pieces[i];
        size_t k = 0;
        while (k < count && !same_sheet(nests[k].grade, nests[k].thickness_mm, p->grade, p->thickness_mm)) k++;
        if (k < count) continue;
        nests[count].grade = p->grade;
        nests[count].thickness_mm = p->thickness_mm;
        nests[count].name = sw_text_format(job->run, job->run->keep, "%g mm %s", p->thickness_mm, p->grade->name);
        if (nests[count++].name == NULL) return SW_NO_MEMORY;
    }
    job->d->nests = nests;
    job->d->nest_count = count;
    return SW_OK;
}

static sw_status list_shapes(dossier_job *job, const sw_nested *nest, sw_nest_input *in)
{
    const sw_sheet_result *sheet = job->d->sheet;
    sw_nest_shape *shapes = SW_KEEP(job->run, sheet->piece_count, sw_nest_shape);
    if (shapes == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < sheet->piece_count; i++) {
        const sw_piece *p = sheet->pieces[i].piece;
        if (!same_sheet(nest->grade, nest->thickness_mm, p->grade, p->thickness_mm)) continue;
        if (sheet->pieces[i].flat.unruled != NULL) continue; /* told by the sheet study: its flat is a guess */
        const char *fault = NULL;
        SW_TRY(sw_region_fault(job->run, &sheet->pieces[i].flat.region, &fault));
        if (fault != NULL) continue; /* told by the sheet study: such a flat cannot be cut */
        shapes[in->shape_count++] = (sw_nest_shape){.name = p->name,
                                                    .tag = (int)i,
                                                    .region = sheet->pieces[i].flat.region,
                                                    .count = p->count * job->d->batch,
                                                    .turns = p->turns,
                                                    .may_flip = p->may_flip};
    }
    in->shapes = shapes;
    return SW_OK;
}

static sw_status list_stock(dossier_job *job, const sw_nested *nest, sw_nest_input *in)
{
    const sw_works *works = job->d->model.works;
    const sw_stock **stock = SW_KEEP(job->run, works->stock_count, const sw_stock *);
    if (stock == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < works->stock_count; i++)
        if (same_sheet(nest->grade, nest->thickness_mm, works->stock[i].grade, works->stock[i].thickness_mm))
            stock[in->stock_count++] = &works->stock[i];
    in->stock = stock;
    return SW_OK;
}

static sw_status describe_nest(dossier_job *job, sw_nested *nest)
{
    const sw_works *works = job->d->model.works;
    sw_nest_input *in = SW_KEEP(job->run, 1, sw_nest_input);
    if (in == NULL) return SW_NO_MEMORY;
    const sw_laser_row *row = sw_works_laser_row(works, nest->grade, nest->thickness_mm);
    in->name = nest->name;
    in->density_kg_mm2 = nest->grade->density * sw_m3_from_mm3(nest->thickness_mm);
    in->scrap_price = works->scrap_price;
    in->remnant_factor = works->remnant_factor;
    in->web_mm = row == NULL ? nest->thickness_mm : row->web_mm;
    in->margin_mm = row == NULL ? nest->thickness_mm : row->margin_mm;
    in->remnant_least_length_mm = works->remnant_length_mm;
    in->remnant_least_width_mm = works->remnant_width_mm;
    SW_TRY(list_shapes(job, nest, in));
    SW_TRY(list_stock(job, nest, in));
    in->stoves = job->d->batch;
    in->lot = (size_t)job->request->lot;
    nest->input = in;
    nest->why = "";
    return SW_OK;
}

static sw_status note_unnested(dossier_job *job, sw_nested *nest, size_t first_error)
{
    sw_run *run = job->run;
    const char *why =
        first_error < run->error_count && first_error < SW_ERROR_MAX ? run->errors[first_error].text : "no stock given";
    run->error_count = first_error; /* told as a finding instead */
    nest->why = why;
    sw_finding finding = sw_finding_of("nest", "placed", nest->name, (sw_place){0});
    finding.what = sw_text_format(run, run->keep, "pieces of %s are not nested: %s", nest->name, why);
    finding.verdict = SW_FAILS;
    finding.source = "the works' stock";
    finding.remedy = "add a larger or another sheet to the works, or split the piece";
    if (finding.what == NULL) return SW_NO_MEMORY;
    return sw_finding_add(run, &job->d->findings, finding, 0);
}

static sw_status note_nested(dossier_job *job, const sw_nested *nest)
{
    sw_run *run = job->run;
    const sw_nest_result *r = nest->result;
    sw_finding finding = sw_finding_of("nest", "density", nest->name, (sw_place){0});
    finding.unit = "%";
    finding.what = sw_text_format(
        run, run->keep,
        "every piece is placed on %zu sheet%s: %.1f %% of the steel used, no layout can use more than %.1f %%",
        r->sheets_total, sw_plural(r->sheets_total), r->density * 100, r->bound_density * 100);
    finding.source = "every layout checked apart from the search; bound: area of pieces against whole sheets";
    if (finding.what == NULL) return SW_NO_MEMORY;
    return sw_finding_add(run, &job->d->findings, finding, 0);
}

static sw_status solve_nest(dossier_job *job, sw_nested *nest, double budget_s)
{
    sw_nest_options opt = sw_nest_options_defaults();
    opt.budget_s = budget_s;
    opt.seed = (uint64_t)job->request->seed;
    size_t errors = job->run->error_count;
    sw_status status =
        nest->input->stock_count == 0 ? SW_NO_SOLUTION : sw_nest_solve(job->run, nest->input, &opt, &nest->result);
    if (status == SW_NO_SOLUTION) return note_unnested(job, nest, errors);
    SW_TRY(status);
    if (nest->result->stopped && sw_run_cancelled(job->run) && job->request->stop != NULL) {
        job->request_stopped = true; /* what there is, is good enough to go on with; later nests get no time */
        atomic_store(job->request->stop, 0);
    }
    SW_TRY(note_nested(job, nest));
    return sw_dossier_tell_nest(job->run, job->d, nest);
}

static double piece_area_mm2(const sw_nest_input *in)
{
    double area_mm2 = 0;
    for (size_t i = 0; i < in->shape_count; i++)
        area_mm2 += (double)in->shapes[i].count * sw_region_area(&in->shapes[i].region);
    return area_mm2;
}

/* The one with least steel that has not been solved: what it leaves of its time helps the larger. */
static size_t next_nest(const sw_nested *nests, size_t count)
{
    size_t best = SIZE_MAX;
    for (size_t i = 0; i < count; i++) {
        if (nests[i].result != NULL || nests[i].why[0] != '\0') continue;
        if (best == SIZE_MAX || piece_area_mm2(nests[i].input) < piece_area_mm2(nests[best].input)) best = i;
    }
    return best;
}

/* Improvement time is shared out by area: where most steel lies, most can be saved. */
static sw_status solve_nests(dossier_job *job, sw_nested *nests, double left_mm2)
{
    double left_s = job->request->seconds;
    for (size_t i = next_nest(nests, job->d->nest_count); i != SIZE_MAX; i = next_nest(nests, job->d->nest_count)) {
        double area_mm2 = piece_area_mm2(nests[i].input), begun_s = sw_seconds();
        double share_s = left_mm2 > 0 ? left_s * fmin(area_mm2 / left_mm2, 1.0) : 0;
        SW_TRY(solve_nest(job, &nests[i], job->request_stopped ? 0 : share_s));
        left_s = fmax(left_s - (job->request->seconds > 0 ? sw_seconds() - begun_s : 0), 0);
        left_mm2 -= area_mm2;
    }
    return SW_OK;
}

static sw_status run_nests(dossier_job *job)
{
    if (job->request->log != NULL) SW_TRY(sw_stock_of_log(job->run, job->request->log, job->d));
    if (job->d->model.works == NULL) return SW_OK;
    SW_TRY(list_sheets(job));
    sw_nested *nests = (sw_nested *)job->d->nests;
    double all_mm2 = 0;
    for (size_t i = 0; i < job->d->nest_count; i++) {
        SW_TRY(describe_nest(job, &nests[i]));
        all_mm2 += piece_area_mm2(nests[i].input);
    }
    for (size_t i = 0; i < job->d->nest_count; i++)
        if (nests[i].input->shape_count == 0) nests[i].why = "no piece of it can be cut";
    return solve_nests(job, nests, all_mm2);
}

/* ---- side by side -------------------------------------------------------------------------------------------------- */

/* Chains of studies that need nothing of each other, in the order in which their findings come. */
static const unsigned chains[] = {SW_DO_BURN | SW_DO_HOUSE, SW_DO_NEST | SW_DO_CUT, SW_DO_FORM, SW_DO_JOIN, SW_DO_FIT};
enum { CHAINS = sizeof chains / sizeof *chains };
static const size_t longest_first[CHAINS] = {0, 4, 3, 1, 2};

static sw_status run_chain(dossier_job *job, unsigned work)
{
    sw_run *run = job->run;
    sw_dossier *d = job->d;
    if ((work & SW_DO_BURN) != 0) SW_TRY(sw_dossier_burn(run, job->request, d, work));
    if ((work & SW_DO_HOUSE) != 0 && d->model.house != NULL) SW_TRY(sw_dossier_house(run, job->request, d, work));
    if ((work & SW_DO_NEST) != 0) SW_TRY(run_nests(job));
    if ((work & SW_DO_CUT) != 0) SW_TRY(sw_dossier_cut(run, d));
    return (work & SW_DO_SHOP) != 0 ? sw_dossier_shop(run, job->request, d, work) : SW_OK;
}

typedef struct side {
    dossier_job job;
    sw_run run;
    sw_dossier d; /* as it was when the sides parted; the chain fills in its own */
    unsigned work;
    sw_status status;
} side;

static void run_side(void *context, size_t i)
{
    side *s = &((side *)context)[longest_first[i]];
    if (s->work != 0) s->status = run_chain(&s->job, s->work);
}

static sw_status open_sides(dossier_job *job, unsigned work, side *sides)
{
    static const unsigned depth = SW_DO_THROUGH | SW_DO_MAP | SW_DO_POINT | SW_DO_SIZE; /* of the burn and the house */
    sw_status status = SW_OK;
    for (size_t i = 0; i < CHAINS && status == SW_OK; i++) {
        side *s = &sides[i];
        if ((work & chains[i]) == 0) continue;
        status = sw_run_open_beside(&s->run, job->run, CHAINS);
        s->work = work & (chains[i] | depth);
        s->d = *job->d;
        s->d.findings = (sw_findings){0};
        if (i == 0) s->run.on_progress = job->run->on_progress; /* one at a time */
        s->run.progress_context = job->run->progress_context;
        s->job = (dossier_job){&s->run, job->request, &s->d, false};
    }
    return status;
}

static void take_results(sw_dossier *into, const side *s)
{
    const sw_dossier *from = &s->d;
    if ((s->work & SW_DO_BURN) != 0) into->burned = from->burned;
    if ((s->work & SW_DO_HOUSE) != 0) into->housed = from->housed;
    if ((s->work & SW_DO_FIT) != 0) into->shop.fit = from->shop.fit;
    if ((s->work & SW_DO_JOIN) != 0) into->shop.join = from->shop.join;
    if ((s->work & SW_DO_FORM) != 0) into->shop.form = from->shop.form;
    if ((s->work & SW_DO_NEST) == 0) return;
    into->nests = from->nests;
    into->nest_count = from->nest_count;
}

static sw_status join_sides(dossier_job *job, side *sides)
{
    sw_status status = SW_OK;
    bool ran[CHAINS];
    for (size_t i = 0; i < CHAINS; i++) {
        ran[i] = sides[i].run.keep != NULL;
        if (ran[i]) sw_run_join(job->run, &sides[i].run);
    }
    for (side *s = sides; s < sides + CHAINS; s++) {
        if (!ran[s - sides]) continue;
        if (status == SW_OK) status = s->status;
        if (status == SW_OK) status = sw_dossier_tell(job->run, job->d, &s->d.findings);
        take_results(job->d, s);
    }
    return status;
}

static sw_status run_sides(dossier_job *job, unsigned work)
{
    side *sides = SW_KEEP(job->run, CHAINS, side);
    if (sides == NULL) return SW_NO_MEMORY;
    sw_status status = open_sides(job, work, sides);
    if (status == SW_OK) sw_parallel_for(job->run->threads, CHAINS, run_side, sides);
    sw_status joined = join_sides(job, sides);
    return status == SW_OK ? joined : status;
}

/* Not with long work that uses all cores by itself: a nest that is improved (whose search alone a stop ends), the surface map,
 * bands. */
static bool goes_side_by_side(const dossier_job *job, unsigned work)
{
    const sw_request *q = job->request;
    size_t count = 0;
    for (size_t i = 0; i < CHAINS; i++) count += (work & chains[i]) != 0;
    return count > 1 && job->run->threads > 1 && !(q->seconds > 0) && !(q->bands >= 1) && (work & SW_DO_MAP) == 0;
}

sw_status sw_dossier_make(sw_run *run, const sw_request *request, unsigned work, const char *date, sw_dossier *dossier)
{
    *dossier = (sw_dossier){.batch = (size_t)request->batch, .date = date};
    dossier_job job = {run, request, dossier, false};
    unsigned after = work & (SW_DO_LIFT | SW_DO_COAT | SW_DO_FITTINGS);
    SW_TRY(read_descriptions(&job));
    if ((work & SW_DO_SOLIDS) != 0) return run_solids(&job);
    SW_TRY(sw_conditions_check(run, request));
    SW_TRY(sw_dossier_trials(run, dossier));
    SW_TRY(run_sheet(&job));
    if ((work & SW_DO_HEFT) != 0) SW_TRY(run_heft(&job));
    if (goes_side_by_side(&job, work)) {
        SW_TRY(run_sides(&job, work));
        if (after != 0) SW_TRY(sw_dossier_shop(run, request, dossier, after));
    } else
        SW_TRY(run_chain(&job, work));
    if ((work & SW_DO_LINE) != 0 && dossier->model.works != NULL) SW_TRY(sw_dossier_line(run, request, dossier));
    sw_findings_sort(&dossier->findings);
    return SW_OK;
}
