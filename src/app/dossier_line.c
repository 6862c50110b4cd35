/* dossier_line.c: what the workshop's studies found, as pieces, bodies, steps and materials of the line. */
#include "app/app.h"

#include <math.h>
#include <string.h>

/* Hand work after coating, and a leak test's points: common practice, no source. Handling comes from the works' stations. */
static const double some_rounds = 30, some_nodes = 2e3; /* ours: of the schedule's searches, among other studies */
static const double board_s = 60, glass_s = 180, rope_s = 240, item_s = 90, test_s = 600, pack_s = 480,
                    leak_point_s = 10;

typedef struct line_job {
    sw_run *run;
    const sw_request *request;
    sw_dossier *d;
    bool alone; /* `line` itself: the schedule is improved for longer */
    sw_line_piece *pieces;
    sw_line_body *bodies;
    size_t body_count;
    const char **welded; /* [body of join] its own name: several may be called the same */
    double *cut_s_mm;    /* [piece] laser time for each mm of its contours */
} line_job;

/* ---- pieces ---------------------------------------------------------------------------------------------------------- */

/* Laser time of all sheets of a nest over all its contours. */
static double nest_s_mm(const sw_nested *n, const sw_sheet_result *sheet)
{
    double time_s = 0, cut_mm = 0;
    if (n->result == NULL || n->plans == NULL) return 0;
    for (size_t k = 0; k < n->result->sheet_count; k++)
        if (n->plans[k] != NULL) time_s += n->plans[k]->total_s * (double)n->result->sheets[k].repeat;
    for (size_t i = 0; i < n->input->shape_count; i++)
        cut_mm += sheet->pieces[n->input->shapes[i].tag].flat.cut_mm * (double)n->input->shapes[i].count;
    return cut_mm > 0 ? time_s / cut_mm : 0;
}

static void share_cutting(line_job *job)
{
    for (size_t k = 0; k < job->d->nest_count; k++) {
        const sw_nested *n = &job->d->nests[k];
        double s_mm = nest_s_mm(n, job->d->sheet);
        for (size_t i = 0; n->input != NULL && i < n->input->shape_count; i++)
            job->cut_s_mm[n->input->shapes[i].tag] = s_mm;
    }
}

/* The body it goes into first; else its group stays loose until it is put together. */
static const char *body_of(const line_job *job, size_t piece)
{
    const sw_join_result *join = job->d->shop.join;
    for (size_t b = 0; b < join->body_count; b++)
        for (size_t i = 0; i < join->bodies[b].piece_count; i++)
            if (join->bodies[b].pieces[i] == piece) return job->welded[b];
    return NULL;
}

/* Tools that several pieces share, all that makes a set-up another one (form_steps.c); "" = what needs more than one set-up
 * is a group of its own. */
static const char *tools_of(sw_run *run, const sw_form_piece *f)
{
    if (f->step_count == 0 || f->dies > 1) return "";
    const sw_form_step *s = &f->steps[0];
    const char *punch = s->punch == SW_FORM_STRAIGHT ? "punch" : sw_form_punch_name(s->punch);
    const char *joggle = s->stroke == SW_FORM_JOGGLE ? "joggle, " : "";
    return sw_text_format(run, run->keep, "%sV %g, %s %.0f\xc2\xb0", joggle, s->die_mm, punch,
                          sw_deg_from_rad(s->punch_wedge_rad));
}

static sw_status take_piece(line_job *job, size_t i)
{
    sw_run *run = job->run;
    const sw_sheet_piece *p = &job->d->sheet->pieces[i];
    const sw_form_piece *f = &job->d->shop.form->pieces[i];
    const char *body = body_of(job, i);
    sw_line_piece *made = &job->pieces[i];
    *made = (sw_line_piece){
        .name = sw_text_format(run, run->keep, "%s %s", p->piece->number, p->piece->name),
        .body = body != NULL ? body : sw_text_format(run, run->keep, "loose of the %s", p->piece->group),
        .count = p->piece->count,
        .mass_kg = p->mass_kg,
        .cut_s = p->flat.cut_mm * job->cut_s_mm[i],
        .cut_group = sw_text_format(run, run->keep, "%g mm %s", p->piece->thickness_mm, p->piece->grade->name),
        .edge_mm = p->flat.cut_mm,
        .bend_s = f->press_s,
        .bend_set_up_s = f->press_setup_s,
        .bend_group = tools_of(run, f),
        .roll_s = f->rolls_s,
        .roll_set_up_s = f->rolls_setup_s,
        .roll_group = ""};
    if (f->roll_count > 0)
        made->roll_group =
            sw_text_format(run, run->keep, "%g mm, radius %.0f", p->piece->thickness_mm, f->rolls[0].radius_mm);
    bool good = made->name != NULL && made->body != NULL && made->cut_group != NULL && made->bend_group != NULL &&
                made->roll_group != NULL;
    return good ? SW_OK : SW_NO_MEMORY;
}

/* ---- bodies ---------------------------------------------------------------------------------------------------------- */

static bool holds(const sw_join_body *b, size_t piece, size_t placement)
{
    for (size_t i = 0; i < b->piece_count; i++)
        if (b->pieces[i] == piece && b->placements[i] == placement) return true;
    return false;
}

/* The next body that holds its first piece; SIZE_MAX = none: it is welded last. */
static size_t next_body(const sw_join_result *join, size_t body)
{
    const sw_join_body *b = &join->bodies[body];
    for (size_t k = body + 1; k < join->body_count && b->piece_count > 0; k++)
        if (holds(&join->bodies[k], b->pieces[0], b->placements[0])) return k;
    return SIZE_MAX;
}

static const char *built_into(const line_job *job, size_t body)
{
    size_t next = next_body(job->d->shop.join, body);
    return next == SIZE_MAX ? "" : job->welded[next];
}

static size_t last_body(const sw_join_result *join, size_t body)
{
    for (size_t next = next_body(join, body); next != SIZE_MAX; next = next_body(join, body)) body = next;
    return body;
}

/* What is welded ahead stands open and holds no pressure: the points of all that is built into a body are looked at in the
 * one test of that body. */
static size_t leak_points(const sw_join_result *join, size_t body)
{
    size_t count = 0;
    for (size_t i = 0; i < join->leak_count; i++)
        count += last_body(join, join->seams[join->leaks[i].seam].body) == body;
    return count;
}

static sw_line_body *find_body(line_job *job, const char *name)
{
    for (size_t i = 0; i < job->body_count; i++)
        if (strcmp(job->bodies[i].name, name) == 0) return &job->bodies[i];
    return NULL;
}

static sw_status name_bodies(line_job *job)
{
    const sw_join_result *join = job->d->shop.join;
    job->welded = SW_KEEP(job->run, join->body_count + 1, const char *);
    if (job->welded == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < join->body_count; i++) {
        job->welded[i] = sw_text_format(job->run, job->run->keep, "body %zu, %s", i + 1, join->bodies[i].name);
        if (job->welded[i] == NULL) return SW_NO_MEMORY;
    }
    return SW_OK;
}

static void take_bodies(line_job *job)
{
    const sw_join_result *join = job->d->shop.join;
    for (size_t i = 0; i < join->body_count; i++) {
        const sw_join_body *b = &join->bodies[i];
        double fixture_s = job->d->model.works->welding.fixture_s;
        job->bodies[job->body_count++] =
            (sw_line_body){.name = job->welded[i],
                           .into = built_into(job, i),
                           .mass_kg = b->mass_kg,
                           .tack_s = b->tack_s,
                           .weld_s = b->robot_s,
                           .weld_unattended = b->robot_s > 0 ? fmax(0, 1 - fixture_s / b->robot_s) : 0,
                           .hand_weld_s = b->hand_s,
                           .weld_station = "",
                           .hand_station = "",
                           .leak_s = leak_point_s * (double)leak_points(join, i),
                           .coat_group = "",
                           .cure_together = 1};
    }
    for (size_t i = 0; i < job->d->sheet->piece_count; i++)
        if (find_body(job, job->pieces[i].body) == NULL)
            job->bodies[job->body_count++] = (sw_line_body){.name = job->pieces[i].body,
                                                            .into = "",
                                                            .weld_station = "",
                                                            .hand_station = "",
                                                            .coat_group = "",
                                                            .cure_together = 1};
}

/* All parts of a stove go through blasting, paint and oven as one set. */
static void take_finish(line_job *job)
{
    static const char *const set = "parts of the stove";
    const sw_coat_result *coat = job->d->shop.coat;
    const sw_works *works = job->d->model.works;
    const sw_coating *paint = &works->coating;
    for (size_t i = 0; i < job->body_count; i++)
        if (job->bodies[i].into[0] == '\0') job->bodies[i].into = set;
    sw_line_body *b = &job->bodies[job->body_count++];
    *b = (sw_line_body){.name = set,
                        .into = "",
                        .mass_kg = job->d->sheet->mass_kg,
                        .weld_station = "",
                        .hand_station = "",
                        .blast_s = coat->blast_s,
                        .blast_set_up_s = works->blasting.setup_s,
                        .coat_s = coat->coat_s,
                        .coat_set_up_s = paint->setup_s,
                        .coat_group = "paint",
                        .dry_s = paint->dry_s * (double)paint->coats,
                        .cure_s = coat->cure_s,
                        .cure_together = (size_t)fmax(1, paint->oven_load)};
    if (!(b->blast_s >= 0)) b->blast_s = 0; /* no table in the works: the study of coating says so */
    if (!(b->coat_s >= 0)) b->coat_s = 0;
    if (!(b->cure_s >= 0)) b->cure_s = 0;
}

/* ---- hand work after coating ------------------------------------------------------------------------------------------- */

static size_t items_of(const sw_stove *s, sw_item_kind kind)
{
    size_t count = 0;
    for (size_t i = 0; i < s->item_count; i++) count += s->items[i].kind == kind ? s->items[i].count : 0;
    return count;
}

static size_t take_steps(const line_job *job, sw_line_step *steps)
{
    const sw_stove *s = job->d->model.stove;
    double boards = (double)items_of(s, SW_ITEM_BOARD), panes = (double)items_of(s, SW_ITEM_GLASS),
           ropes = (double)items_of(s, SW_ITEM_ROPE),
           others = (double)(items_of(s, SW_ITEM_CAST) + items_of(s, SW_ITEM_BOUGHT));
    size_t n = 0;
    steps[n++] = (sw_line_step){"put together", "", SW_OP_ASSEMBLE, item_s * fmax(1, others), ""};
    if (boards > 0) steps[n++] = (sw_line_step){"line the firebox", "", SW_OP_LINE, board_s * boards, "put together"};
    if (panes + ropes > 0)
        steps[n++] =
            (sw_line_step){"glaze and rope the door", "", SW_OP_ASSEMBLE, glass_s * panes + rope_s * ropes, ""};
    steps[n++] = (sw_line_step){"test", "", SW_OP_TEST, test_s,
                                boards > 0 && panes + ropes > 0 ? "line the firebox, glaze and rope the door"
                                : boards > 0                    ? "line the firebox"
                                : panes + ropes > 0             ? "put together, glaze and rope the door"
                                                                : "put together"};
    steps[n++] = (sw_line_step){"pack", "", SW_OP_PACK, pack_s, "test"};
    return n;
}

/* ---- materials --------------------------------------------------------------------------------------------------------- */

static double sheet_price(const sw_nested *n)
{
    double price = 0;
    for (size_t k = 0; k < n->result->sheet_count; k++)
        price += n->result->sheets[k].stock->price * (double)n->result->sheets[k].repeat;
    return price;
}

static double laser_gas(const sw_nested *n)
{
    double money = 0;
    for (size_t k = 0; n->plans != NULL && k < n->result->sheet_count; k++)
        if (n->plans[k] != NULL && n->cuts[k]->row != NULL)
            money += n->plans[k]->gas_m3 * n->cuts[k]->row->gas_price * (double)n->result->sheets[k].repeat;
    return money;
}

static double sheet_kg(const sw_nested *n)
{
    return n->result->sheet_area_mm2 * n->input->density_kg_mm2;
}

static size_t take_materials(const line_job *job, sw_line_material *m)
{
    const sw_dossier *d = job->d;
    const sw_join_result *join = d->shop.join;
    const sw_coat_result *coat = d->shop.coat;
    double batch = (double)d->batch, gas = 0;
    size_t n = 0;
    for (size_t k = 0; k < d->nest_count; k++) {
        const sw_nested *nest = &d->nests[k];
        if (nest->result == NULL) continue;
        double price = sheet_price(nest);
        m[n++] = (sw_line_material){nest->name, SW_MONEY_SHEET, sheet_kg(nest) / batch,
                                    "kg",       price / batch,  fmax(0, price - nest->result->cost) / batch};
        gas += laser_gas(nest) / batch;
    }
    for (size_t i = 0; i < d->model.stove->item_count; i++) {
        const sw_item *it = &d->model.stove->items[i];
        double count = (double)it->count;
        if (it->price > 0) m[n++] = (sw_line_material){it->name, SW_MONEY_ITEM, count, "pieces", it->price * count, 0};
    }
    m[n++] = (sw_line_material){"cutting gas", SW_MONEY_CONSUMABLE, NAN, "", gas, 0};
    m[n++] = (sw_line_material){"welding wire", SW_MONEY_CONSUMABLE, join->wire_kg, "kg", join->cost_wire, 0};
    m[n++] = (sw_line_material){"shielding gas", SW_MONEY_CONSUMABLE, join->gas_m3, "m3", join->cost_gas, 0};
    m[n++] = (sw_line_material){
        "power of the arc", SW_MONEY_CONSUMABLE, sw_kwh_from_j(join->energy_j), "kWh", join->cost_energy, 0};
    m[n++] = (sw_line_material){"blasting media", SW_MONEY_CONSUMABLE, coat->media_kg, "kg", coat->media_cost, 0};
    m[n++] = (sw_line_material){"paint", SW_MONEY_CONSUMABLE, coat->litres, "l", coat->paint_cost, 0};
    for (size_t i = 0; i < n; i++) {
        if (!(m[i].cost >= 0)) m[i].cost = 0; /* no table of it in the works: its own study says so */
        if (!(m[i].quantity >= 0)) m[i].quantity = 0;
    }
    return n;
}

/* ---- all ---------------------------------------------------------------------------------------------------------------- */

static sw_status solve(line_job *job, const sw_line_figures *figures)
{
    sw_run *run = job->run;
    sw_dossier *d = job->d;
    enum { CONSUMABLES = 6 };
    sw_line_input *in = SW_KEEP(run, 1, sw_line_input);
    sw_line_material *materials =
        SW_KEEP(run, d->nest_count + d->model.stove->item_count + CONSUMABLES, sw_line_material);
    if (in == NULL || materials == NULL) return SW_NO_MEMORY;
    in->name = d->model.stove->name;
    SW_TRY(sw_line_tasks_make(run, figures, &in->tasks, &in->task_count));
    in->materials = materials;
    in->material_count = take_materials(job, materials);
    in->works = d->model.works;
    in->batch = d->batch < SW_LINE_BATCH ? d->batch : SW_LINE_BATCH;
    sw_line_options opt = sw_line_options_defaults();
    if (!job->alone) opt.rounds = some_rounds, opt.exact_nodes = some_nodes, opt.what_if_rounds = 0;
    SW_TRY(sw_shop_options(run, job->request, "line", &opt));
    SW_TRY(sw_line_solve(run, in, &opt, &d->shop.line));
    d->shop.line_in = in;
    return sw_dossier_tell(run, d, &d->shop.line->findings);
}

static sw_status tell_no_stations(sw_run *run, sw_dossier *d)
{
    sw_finding f = sw_finding_of("line", "stations", "works", d->model.works->place);
    f.what = "the works describes no stations: no route, schedule or cost";
    f.verdict = SW_UNKNOWN;
    f.source = "works description";
    f.remedy = "give the works its stations, in the order of the route";
    return sw_finding_add(run, &d->findings, f, 0);
}

sw_status sw_dossier_line(sw_run *run, const sw_request *request, sw_dossier *d)
{
    enum { STEPS = 5 };
    if (d->model.works->station_count == 0) return tell_no_stations(run, d);
    size_t n = d->sheet->piece_count;
    line_job job = {.run = run,
                    .request = request,
                    .d = d,
                    .alone = strcmp(request->command, "line") == 0,
                    .pieces = SW_KEEP(run, n + 1, sw_line_piece),
                    .bodies = SW_KEEP(run, n + d->shop.join->body_count + 2, sw_line_body),
                    .cut_s_mm = SW_KEEP(run, n + 1, double)};
    if (job.pieces == NULL || job.bodies == NULL || job.cut_s_mm == NULL) return SW_NO_MEMORY;
    sw_line_step steps[STEPS];
    share_cutting(&job);
    SW_TRY(name_bodies(&job));
    for (size_t i = 0; i < n; i++) SW_TRY(take_piece(&job, i));
    take_bodies(&job);
    take_finish(&job);
    const sw_line_figures figures = {.pieces = job.pieces,
                                     .piece_count = n,
                                     .bodies = job.bodies,
                                     .body_count = job.body_count,
                                     .steps = steps,
                                     .step_count = take_steps(&job, steps),
                                     .works = d->model.works};
    return solve(&job, &figures);
}
