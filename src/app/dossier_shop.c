/* dossier_shop.c: the workshop of one dossier: trials of the works, forming, welding, fit, lifting and coating. */
#include "app/app.h"

#include <math.h>
#include <string.h>

enum { MEASURED_MOST = 32 << 20 };

static const double stoves_drawn = 2000; /* of the fit among other studies: a share of 1 % to 0.2 % */

static const double stoves_sawn = 100; /* boards are laid for no more at once: ours, the study's own range */

typedef struct shop_job {
    sw_run *run;
    const sw_request *request;
    sw_dossier *d;
} shop_job;

/* ---- trials ------------------------------------------------------------------------------------------------------- */

sw_status sw_dossier_trials(sw_run *run, sw_dossier *d)
{
    const sw_works *works = d->model.works;
    if (works == NULL || works->press.strip_count + works->rolls.trial_count == 0) return SW_OK;
    sw_works *fitted = SW_KEEP(run, 1, sw_works);
    if (fitted == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_form_fit(run, works, &d->shop.trials));
    *fitted = *works;
    fitted->press.trials = d->shop.trials->trials;
    fitted->press.trial_count = d->shop.trials->trial_count;
    d->model.works = fitted;
    return SW_OK;
}

/* ---- forming ------------------------------------------------------------------------------------------------------- */

static sw_status form(shop_job *job)
{
    sw_form_options opt = sw_form_options_defaults();
    SW_TRY(sw_shop_options(job->run, job->request, "form", &opt));
    const sw_form_input in = {&job->d->model, job->d->sheet, job->d->shop.trials};
    SW_TRY(sw_form_solve(job->run, &in, &opt, &job->d->shop.form));
    if (in.fit != NULL) SW_TRY(sw_dossier_tell(job->run, job->d, &in.fit->findings));
    return sw_dossier_tell(job->run, job->d, &job->d->shop.form->findings);
}

static sw_status join(shop_job *job)
{
    sw_join_options opt = sw_join_options_defaults();
    SW_TRY(sw_shop_options(job->run, job->request, "join", &opt));
    const sw_join_input in = {job->d->model.stove, job->d->model.works, job->d->sheet};
    SW_TRY(sw_join_solve(job->run, &in, &opt, &job->d->shop.join));
    return sw_dossier_tell(job->run, job->d, &job->d->shop.join->findings);
}

/* ---- fit ----------------------------------------------------------------------------------------------------------- */

static sw_status read_measured(shop_job *job, sw_fit_measured *measured)
{
    const char *path = job->request->measured, *bytes = NULL;
    size_t length = 0;
    SW_TRY(sw_file_read(job->run, path, MEASURED_MOST, &bytes, &length));
    return sw_fit_read_measured(job->run, job->d->model.stove, path, bytes, length, measured);
}

static sw_status fit(shop_job *job)
{
    sw_fit_measured measured = {0};
    bool given = job->request->measured != NULL, alone = strcmp(job->request->command, "fit") == 0;
    if (given) SW_TRY(read_measured(job, &measured));
    sw_fit_options opt = sw_fit_options_defaults();
    opt.seed = job->request->seed;
    if (!alone) opt.stoves = fmin(opt.stoves, stoves_drawn);
    SW_TRY(sw_shop_options(job->run, job->request, "fit", &opt));
    const sw_fit_input in = {
        .model = &job->d->model, .sheet = job->d->sheet, .batch = job->d->batch, .measured = given ? &measured : NULL};
    SW_TRY(sw_fit_solve(job->run, &in, &opt, &job->d->shop.fit));
    return sw_dossier_tell(job->run, job->d, &job->d->shop.fit->findings);
}

/* ---- lifting ------------------------------------------------------------------------------------------------------- */

static sw_status lift(shop_job *job)
{
    const sw_sheet_result *sheet = job->d->sheet;
    size_t n = sheet->piece_count;
    sw_body *bodies = SW_KEEP(job->run, n, sw_body);
    sw_lift_box *boxes = SW_KEEP(job->run, n, sw_lift_box);
    const sw_region **flats = SW_KEEP(job->run, n, const sw_region *);
    if (bodies == NULL || boxes == NULL || flats == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) {
        const sw_solid *s = &sheet->pieces[i].solid;
        bodies[i] = (sw_body){.mass_kg = sheet->pieces[i].mass_kg, .centre = s->centroid};
        memcpy(bodies[i].inertia_kg_mm2, s->inertia_kg_mm2, sizeof bodies[i].inertia_kg_mm2);
        boxes[i] = (sw_lift_box){s->low, s->high};
        flats[i] = &sheet->pieces[i].flat.region;
    }
    sw_lift_options opt = sw_lift_options_defaults();
    SW_TRY(sw_shop_options(job->run, job->request, "lift", &opt));
    const sw_lift_input in = {job->d->model.stove, job->d->model.works, job->d->heft, bodies, boxes, flats};
    SW_TRY(sw_lift_solve(job->run, &in, &opt, &job->d->shop.lift));
    return sw_dossier_tell(job->run, job->d, &job->d->shop.lift->findings);
}

/* ---- coating ------------------------------------------------------------------------------------------------------- */

/* Parts of sheet as hot as the steady fire or a whole burn makes them. */
static size_t hot_parts(const sw_dossier *d, sw_coat_part *parts)
{
    const sw_burned *b = d->burned;
    size_t count = 0;
    if (b == NULL || b->scene == NULL || b->point == NULL) return 0;
    for (size_t i = 0; i < b->scene->part_count; i++) {
        const sw_scene_part *p = &b->scene->parts[i];
        if (p->piece < 0) continue;
        double t_k = b->through == NULL ? b->hot_k[i] : fmax(b->hot_k[i], b->through->most_k[i]);
        parts[count++] = (sw_coat_part){p->name, d->model.stove->pieces[p->piece].role, t_k};
    }
    return count;
}

static sw_status coat(shop_job *job)
{
    const sw_dossier *d = job->d;
    size_t n = d->sheet->piece_count,
           most = d->burned == NULL || d->burned->scene == NULL ? 0 : d->burned->scene->part_count;
    sw_coat_sheet *sheets = SW_KEEP(job->run, n + 1, sw_coat_sheet);
    sw_coat_part *parts = SW_KEEP(job->run, most + 1, sw_coat_part);
    if (sheets == NULL || parts == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++)
        sheets[i] = (sw_coat_sheet){d->sheet->pieces[i].flat.area_mm2, d->sheet->pieces[i].flat.cut_mm};
    sw_coat_options opt = sw_coat_options_defaults();
    double oven = d->model.works == NULL ? 0 : d->model.works->coating.oven_load;
    opt.stoves = fmax(1, fmin((double)d->batch, oven)); /* no more at once than the oven takes */
    SW_TRY(sw_shop_options(job->run, job->request, "coat", &opt));
    const sw_coat_input in = {d->model.stove, d->model.works, sheets, parts, hot_parts(d, parts)};
    SW_TRY(sw_coat_solve(job->run, &in, &opt, &job->d->shop.coat));
    return sw_dossier_tell(job->run, job->d, &job->d->shop.coat->findings);
}

/* ---- lining, glass and fittings --------------------------------------------------------------------------------------- */

static double mean_k(const sw_burned *b, size_t part)
{
    return (b->hot_k[part] + b->cold_k[part]) / 2;
}

/* At the height of a whole burn, where one was reckoned, with the same difference of its sides as in the steady fire: ours. */
static double hottest_mean_k(const sw_burned *b, size_t part)
{
    if (b->through == NULL) return mean_k(b, part);
    return fmax(mean_k(b, part), b->through->most_k[part] - (b->hot_k[part] - b->cold_k[part]) / 2);
}

/* Sheet that a part touches, by area, in the steady fire; NAN: it touches none. */
static double touching_k(const sw_burned *b, size_t part)
{
    double sum = 0, area_m2 = 0;
    for (size_t i = 0; i < b->scene->contact_count; i++) {
        const sw_scene_contact *c = &b->scene->contacts[i];
        if (c->a != part && c->b != part) continue;
        size_t other = c->a == part ? c->b : c->a;
        if (b->scene->parts[other].piece < 0 || !(c->area_m2 > 0)) continue;
        sum += c->area_m2 * mean_k(b, other);
        area_m2 += c->area_m2;
    }
    return area_m2 > 0 ? sum / area_m2 : (double)NAN;
}

/* Doors round a pane, walls of the firebox round all else, by area. */
static double round_k(const sw_burned *b, bool pane)
{
    sw_part_class kind = pane ? SW_PART_DOOR : SW_PART_WALL;
    double sum = 0, area_m2 = 0;
    for (size_t i = 0; i < b->scene->part_count; i++) {
        const sw_scene_part *p = &b->scene->parts[i];
        if (p->kind != kind || p->piece < 0) continue;
        sum += p->area_m2 * mean_k(b, i);
        area_m2 += p->area_m2;
    }
    return area_m2 > 0 ? sum / area_m2 : (double)NAN;
}

/* What --with gives goes before what the heat study found. */
static sw_fit_heat heat_left(const sw_request *q, const sw_item *item, sw_fit_heat found)
{
    static const char *const names[3][2] = {{"fittings.board_c", "fittings.wall_c"},
                                            {"fittings.pane_c", "fittings.frame_c"},
                                            {"fittings.grate_c", "fittings.seat_c"}};
    const char *const *own = names[item->kind == SW_ITEM_BOARD ? 0 : item->kind == SW_ITEM_GLASS ? 1 : 2];
    if (sw_shop_asks(q, own[0])) found.part_k = NAN;
    if (sw_shop_asks(q, own[1])) found.round_k = NAN;
    return found;
}

/* Boards, panes and castings as the fire was found to heat them; NAN where it was not reckoned. */
static void heat_items(const shop_job *job, sw_fit_heat *heat)
{
    const sw_burned *b = job->d->burned;
    const sw_stove *stove = job->d->model.stove;
    bool known = b != NULL && b->scene != NULL && b->point != NULL;
    for (size_t i = 0; i < stove->item_count; i++) heat[i] = (sw_fit_heat){NAN, NAN};
    for (size_t i = 0; known && i < b->scene->part_count; i++) {
        const sw_scene_part *p = &b->scene->parts[i];
        if (p->item < 0) continue;
        sw_fit_heat *h = &heat[p->item];
        double holds_k = touching_k(b, i);
        if (isnan(holds_k)) holds_k = round_k(b, p->kind == SW_PART_PANE);
        h->part_k = fmax(h->part_k, hottest_mean_k(b, i)); /* NAN at first: the other counts */
        h->round_k = fmin(h->round_k, holds_k);
    }
    for (size_t i = 0; known && i < stove->item_count; i++)
        heat[i] = heat_left(job->request, &stove->items[i], heat[i]);
}

static sw_status fittings(shop_job *job)
{
    const sw_sheet_result *sheet = job->d->sheet;
    const sw_mesh **meshes = SW_KEEP(job->run, sheet->piece_count + 1, const sw_mesh *);
    if (meshes == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < sheet->piece_count; i++) meshes[i] = &sheet->pieces[i].solid.mesh;
    sw_fittings_options opt = sw_fittings_options_defaults();
    opt.stoves = fmin(fmax(1, (double)job->d->batch), stoves_sawn); /* of a larger batch the first of them */
    SW_TRY(sw_shop_options(job->run, job->request, "fittings", &opt));
    sw_fit_heat *heat = SW_KEEP(job->run, job->d->model.stove->item_count + 1, sw_fit_heat);
    if (heat == NULL) return SW_NO_MEMORY;
    heat_items(job, heat);
    const sw_fittings_input in = {job->d->model.stove, meshes, heat};
    SW_TRY(sw_fittings_solve(job->run, &in, &opt, &job->d->shop.fittings));
    return sw_dossier_tell(job->run, job->d, &job->d->shop.fittings->findings);
}

sw_status sw_dossier_shop(sw_run *run, const sw_request *request, sw_dossier *d, unsigned work)
{
    shop_job job = {run, request, d};
    if ((work & SW_DO_FORM) != 0) SW_TRY(form(&job));
    if ((work & SW_DO_JOIN) != 0) SW_TRY(join(&job));
    if ((work & SW_DO_FIT) != 0) SW_TRY(fit(&job));
    if ((work & SW_DO_LIFT) != 0) SW_TRY(lift(&job));
    if ((work & SW_DO_COAT) != 0) SW_TRY(coat(&job));
    if ((work & SW_DO_FITTINGS) != 0) SW_TRY(fittings(&job));
    return SW_OK;
}
