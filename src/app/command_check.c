/* command_check.c: `check`, and one study alone: figures and findings on one screen. */
#include "app/app.h"
#include "app/stock_of_log.h"

#include <string.h>

static size_t sheet_pieces(const sw_stove *stove)
{
    size_t count = 0;
    for (size_t i = 0; i < stove->piece_count; i++) count += stove->pieces[i].count;
    return count;
}

static void print_headline(sw_writer *out, const sw_dossier *d)
{
    const sw_stove *stove = d->model.stove;
    sw_print(out, "%s\n", stove->title[0] != '\0' ? stove->title : stove->name);
    if (stove->note[0] != '\0') sw_print(out, "%s\n", stove->note);
    sw_print(out, "%zu sheet pieces of %zu kinds, %.1f kg of sheet", sheet_pieces(stove), stove->piece_count,
             d->sheet->mass_kg);
    if (d->heft != NULL) sw_print(out, "; stove %.1f kg with fittings and lining", d->heft->stove.mass_kg);
    sw_print(out, "\n");
}

static void print_sheet(sw_writer *out, const sw_dossier *d)
{
    int name = 28;
    for (size_t i = 0; i < d->sheet->piece_count; i++) sw_widen(&name, d->sheet->pieces[i].piece->name);
    sw_print(out, "\n%-8s %-*s %3s %-8s %5s %5s %9s %9s %8s\n", "number", name, "piece", "n", "grade", "t mm", "bends",
             "flat x mm", "flat y mm", "mass kg");
    for (size_t i = 0; i < d->sheet->piece_count; i++) {
        const sw_sheet_piece *p = &d->sheet->pieces[i];
        sw_print(out, "%-8s %-*s %3zu %-8s %5g %5zu %9.1f %9.1f %8.3f\n", p->piece->number, name, p->piece->name,
                 p->piece->count, p->piece->grade->name, p->piece->thickness_mm, p->flat.bend_count,
                 p->flat.box.x1_mm - p->flat.box.x0_mm, p->flat.box.y1_mm - p->flat.box.y0_mm, p->mass_kg);
    }
}

static void print_body(sw_writer *out, int width, const char *name, const sw_body *b)
{
    sw_print(out, "%-*s %8.2f   %7.1f %7.1f %7.1f\n", width, name, b->mass_kg, sw_without_sign(b->centre.x_mm, 1),
             sw_without_sign(b->centre.y_mm, 1), sw_without_sign(b->centre.z_mm, 1));
}

static void print_heft(sw_writer *out, const sw_dossier *d)
{
    int group = 28;
    for (size_t i = 0; i < d->heft->group_count; i++) sw_widen(&group, d->heft->groups[i].name);
    sw_print(out, "\n%-*s %8s   centre of gravity x, y, z mm\n", group, "group", "mass kg");
    for (size_t i = 0; i < d->heft->group_count; i++)
        print_body(out, group, d->heft->groups[i].name, &d->heft->groups[i].body);
    print_body(out, group, "whole stove", &d->heft->stove);
    sw_print_lift(out, d);
}

static void print_nests(sw_writer *out, const sw_dossier *d)
{
    sw_print(out, "\nNests for a batch of %zu\n%-14s %7s %9s %9s %9s %11s\n", d->batch, "sheet", "sheets", "used %",
             "bound %", "seconds", "cost");
    for (size_t i = 0; i < d->nest_count; i++) {
        const sw_nest_result *r = d->nests[i].result;
        if (r == NULL)
            sw_print(out, "%-14s not nested: %s\n", d->nests[i].name, d->nests[i].why);
        else
            sw_print(out, "%-14s %7zu %9.1f %9.1f %9.2f %11.2f\n", d->nests[i].name, r->sheets_total, r->density * 100,
                     r->bound_density * 100, r->seconds, r->cost);
    }
}

static void print_cuts(sw_writer *out, const sw_dossier *d)
{
    int name = 22;
    for (size_t i = 0; i < d->nest_count; i++)
        for (size_t k = 0;
             d->nests[i].plans != NULL && d->nests[i].result != NULL && k < d->nests[i].result->sheet_count; k++)
            if (d->nests[i].plans[k] != NULL) sw_widen(&name, d->nests[i].cuts[k]->name);
    sw_print(out, "\n%-*s %5s %6s %8s %8s %8s %8s %9s\n", name, "cut", "times", "pieces", "cut m", "pierces", "min",
             "gas m3", "cost");
    for (size_t i = 0; i < d->nest_count; i++) {
        const sw_nested *n = &d->nests[i];
        for (size_t k = 0; n->result != NULL && n->plans != NULL && k < n->result->sheet_count; k++) {
            const sw_cut_plan *p = n->plans[k];
            if (p == NULL) continue;
            sw_print(out, "%-*s %5zu %6zu %8.2f %8zu %8.2f %8.2f %9.2f\n", name, n->cuts[k]->name,
                     n->result->sheets[k].repeat, n->cuts[k]->part_count, sw_m_from_mm(p->cut_mm), p->pierces,
                     sw_min_from_s(p->total_s), p->gas_m3, p->cost);
        }
    }
}

typedef struct study_row {
    const char *name;
    unsigned work;
    bool needs_works, needs_house;
    void (*print)(sw_writer *out, const sw_dossier *d);
} study_row;

static const study_row studies[] = {
    {"sheet", SW_DO_SHEET, false, false, print_sheet},
    {"heft", SW_DO_HEFT | SW_DO_LIFT, false, false, print_heft},
    {"form", SW_DO_FORM, true, false, sw_print_form},
    {"join", SW_DO_JOIN, false, false, sw_print_join},
    {"fit", SW_DO_FIT, false, false, sw_print_fit},
    {"coat", SW_DO_BURN | SW_DO_COAT, false, false, sw_print_coat},
    {"line", SW_DO_HEFT | SW_DO_NEST | SW_DO_CUT | SW_DO_FORM | SW_DO_JOIN | SW_DO_COAT | SW_DO_LINE, true, false,
     sw_print_line},
    {"nest", SW_DO_NEST, true, false, print_nests},
    {"cut", SW_DO_NEST | SW_DO_CUT, true, false, print_cuts},
    {"fire", SW_DO_BURN, false, false, sw_print_fire},
    {"air", SW_DO_BURN, false, false, sw_print_air},
    {"heat", SW_DO_BURN | SW_DO_THROUGH, false, false, sw_print_heat},
    {"flue", SW_DO_HEFT | SW_DO_BURN | SW_DO_THROUGH | SW_DO_HOUSE | SW_DO_SIZE, false, true, sw_print_flue},
    {"site", SW_DO_HEFT | SW_DO_BURN | SW_DO_THROUGH | SW_DO_HOUSE, false, true, sw_print_site},
};

/* A study of the fire or the chimney asked for by name that has no answer does not end well: where the description lacks something
 * nothing has failed, but the input is wrong. */
static int exit_of(const sw_dossier *d, const study_row *study)
{
    int code = sw_exit_of_findings(&d->findings, study == NULL ? NULL : study->name);
    bool fire = study != NULL && (study->work & SW_DO_BURN) != 0 && !study->needs_house;
    bool answered = d->burned != NULL && d->burned->point != NULL;
    bool chimney = study != NULL && (study->work & SW_DO_SIZE) != 0,
         solved = d->housed != NULL && d->housed->flue != NULL;
    return ((fire && !answered) || (chimney && !solved)) && code == SW_EXIT_HOLDS ? SW_EXIT_INPUT : code;
}

static int answer(sw_run *run, const sw_request *request, sw_writer *out, const sw_dossier *d, const study_row *study)
{
    const char *name = study == NULL ? NULL : study->name;
    if (request->json) {
        sw_status status = sw_paper_json(run, d, out);
        return status == SW_OK ? exit_of(d, study) : sw_exit_of_status(status);
    }
    print_headline(out, d);
    if (study != NULL) study->print(out, d);
    if (study == NULL && d->nest_count > 0) print_nests(out, d);
    if (study == NULL && d->nest_count > 0) print_cuts(out, d);
    sw_report_findings(out, d, name, request->all);
    return exit_of(d, study);
}

int sw_command_check(sw_run *run, const sw_request *request, sw_writer *out)
{
    sw_dossier d;
    sw_status status = sw_dossier_make(run, request, SW_DO_CHECK, "", &d);
    return status == SW_OK ? answer(run, request, out, &d, NULL) : sw_exit_of_status(status);
}

int sw_command_study(sw_run *run, const sw_request *request, sw_writer *out)
{
    const study_row *study = studies;
    while (strcmp(study->name, request->command) != 0) study++;
    if (study->needs_works && request->works == NULL)
        return sw_exit_of_status(sw_fail(run, SW_BAD_INPUT, (sw_place){0}, request->command,
                                         "needs the works: add --works FILE, e.g. --works demo/demo.works.lua"));
    if (study->needs_house && request->house == NULL)
        return sw_exit_of_status(sw_fail(run, SW_BAD_INPUT, (sw_place){0}, request->command,
                                         "needs the house: add --house FILE, e.g. --house demo/demo.house.lua"));
    sw_dossier d;
    sw_status status = sw_conditions_heeded(run, request, study->work);
    if (status == SW_OK) status = sw_dossier_make(run, request, study->work | (request->map ? SW_DO_MAP : 0), "", &d);
    bool list = request->out != NULL && strcmp(study->name, "nest") == 0;
    bool seams = request->out != NULL && strcmp(study->name, "join") == 0;
    if (status == SW_OK && list) status = sw_cut_list_write(run, &d, request->out);
    if (status == SW_OK && seams) status = sw_paper_seams_csv(run, d.shop.join, request->out);
    return status == SW_OK ? answer(run, request, out, &d, study) : sw_exit_of_status(status);
}
