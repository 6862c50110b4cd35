/* dossier_cut.c: from nested sheets to cutting plans: contours and etched marks moved to where the nest put them. */
#include "app/app.h"
#include "lettering/lettering.h"

#include <string.h>

/* Etched strokes of one piece in its flat frame, for lying face up and turned over. */
typedef struct etching {
    const sw_path *paths[2];
    size_t count[2];
} etching;

typedef struct cut_job {
    sw_run *run;
    sw_dossier *d;
    const etching *etchings; /* [stove->piece_count] */
} cut_job;

static double text_width_mm(const sw_path *strokes, size_t count)
{
    double width_mm = 0;
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < strokes[i].n; k++)
            if (strokes[i].v[k].x_mm > width_mm) width_mm = strokes[i].v[k].x_mm;
    return width_mm;
}

static sw_status add_path(sw_run *run, etching *e, int side, size_t *room, sw_path path)
{
    sw_path *paths = sw_grow(run, run->keep, (void *)e->paths[side], e->count[side], room, sizeof *paths);
    if (paths == NULL) return SW_NO_MEMORY;
    paths[e->count[side]++] = path;
    e->paths[side] = paths;
    return SW_OK;
}

/* A text on a piece that lies turned over is mirrored about its own middle first, so that it still reads. */
static sw_status add_text(sw_run *run, etching *e, int side, size_t *room, const sw_flat_mark *mark)
{
    const sw_path *strokes = NULL;
    size_t count = 0;
    SW_TRY(sw_lettering(run, mark->text, (sw_point){0, 0}, mark->height_mm, 0, &strokes, &count));
    const sw_motion over = {.dx_mm = text_width_mm(strokes, count), .mirror = true};
    const sw_motion onto = {.turn_rad = mark->turn_rad, .dx_mm = mark->at.x_mm, .dy_mm = mark->at.y_mm};
    for (size_t i = 0; i < count; i++) {
        sw_path path;
        SW_TRY(sw_path_moved(run, strokes[i], side == 1 ? sw_motion_then(over, onto) : onto, &path));
        SW_TRY(add_path(run, e, side, room, path));
    }
    return SW_OK;
}

static sw_status etch_piece(sw_run *run, const sw_flat *flat, bool may_flip, etching *e)
{
    for (int side = 0; side <= (may_flip ? 1 : 0); side++) {
        size_t room = 0;
        for (size_t i = 0; i < flat->mark_count; i++) {
            const sw_flat_mark *mark = &flat->marks[i];
            if (mark->text[0] != '\0')
                SW_TRY(add_text(run, e, side, &room, mark));
            else
                SW_TRY(add_path(run, e, side, &room, mark->path));
        }
    }
    return SW_OK;
}

static sw_status etch_all(cut_job *job)
{
    const sw_sheet_result *sheet = job->d->sheet;
    etching *etchings = SW_KEEP(job->run, sheet->piece_count, etching);
    if (etchings == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < sheet->piece_count; i++)
        SW_TRY(etch_piece(job->run, &sheet->pieces[i].flat, sheet->pieces[i].piece->may_flip, &etchings[i]));
    job->etchings = etchings;
    return SW_OK;
}

static sw_status place_part(cut_job *job, const sw_nest_input *in, const sw_nest_place *place, sw_cut_part *part)
{
    size_t piece = (size_t)in->shapes[place->shape].tag;
    const etching *e = &job->etchings[piece];
    int side = place->motion.mirror ? 1 : 0;
    part->label = job->d->model.stove->pieces[piece].number;
    SW_TRY(sw_region_moved(job->run, &in->shapes[place->shape].region, place->motion, &part->region));
    sw_path *etches = SW_KEEP(job->run, e->count[side], sw_path);
    if (etches == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < e->count[side]; i++)
        SW_TRY(sw_path_moved(job->run, e->paths[side][i], place->motion, &etches[i]));
    part->etches = etches;
    part->etch_count = e->count[side];
    return SW_OK;
}

static sw_status describe_sheet(cut_job *job, const sw_nested *nest, size_t index, sw_cut_input **made)
{
    const sw_nest_sheet *sheet = &nest->result->sheets[index];
    sw_cut_input *in = SW_KEEP(job->run, 1, sw_cut_input);
    sw_cut_part *parts = SW_KEEP(job->run, sheet->place_count, sw_cut_part);
    if (in == NULL || parts == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < sheet->place_count; i++) SW_TRY(place_part(job, nest->input, &sheet->places[i], &parts[i]));
    in->name = sw_text_format(job->run, job->run->keep, "%s sheet %zu", nest->name, index + 1);
    if (in->name == NULL) return SW_NO_MEMORY;
    in->parts = parts;
    in->part_count = sheet->place_count;
    in->stock = sheet->stock;
    in->laser = &job->d->model.works->laser;
    in->row = sw_works_laser_row(job->d->model.works, nest->grade, nest->thickness_mm);
    *made = in;
    return SW_OK;
}

static sw_status cut_nest(cut_job *job, sw_nested *nest)
{
    size_t count = nest->result->sheet_count;
    const sw_cut_plan **plans = SW_KEEP(job->run, count, const sw_cut_plan *);
    const sw_cut_input **cuts = SW_KEEP(job->run, count, const sw_cut_input *);
    if (plans == NULL || cuts == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) {
        sw_cut_input *in = NULL;
        SW_TRY(describe_sheet(job, nest, i, &in));
        cuts[i] = in;
    }
    nest->plans = plans;
    nest->cuts = cuts;
    if (count == 0 || cuts[0]->row == NULL) return SW_OK; /* told by note_no_row */
    SW_TRY(sw_cut_solve_all(job->run, cuts, count, plans));
    for (size_t i = 0; i < count; i++) SW_TRY(sw_dossier_tell(job->run, job->d, &plans[i]->findings));
    return SW_OK;
}

static sw_status note_no_row(cut_job *job, const sw_nested *nest)
{
    sw_run *run = job->run;
    sw_finding finding = sw_finding_of("cut", "laser_row", nest->name, (sw_place){0});
    finding.what =
        sw_text_format(run, run->keep, "the works' laser has no row for %s: no cut file can be made", nest->name);
    finding.verdict = SW_FAILS;
    finding.source = "the works' laser table";
    finding.remedy = "add a row with feed, pierce time, kerf and gas to laser { rows = ... }";
    if (finding.what == NULL) return SW_NO_MEMORY;
    return sw_finding_add(run, &job->d->findings, finding, 0);
}

sw_status sw_dossier_cut(sw_run *run, sw_dossier *dossier)
{
    cut_job job = {.run = run, .d = dossier};
    if (dossier->model.works == NULL) return SW_OK;
    SW_TRY(etch_all(&job));
    sw_nested *nests = (sw_nested *)dossier->nests;
    for (size_t i = 0; i < dossier->nest_count; i++) {
        if (nests[i].result == NULL) continue;
        if (sw_works_laser_row(dossier->model.works, nests[i].grade, nests[i].thickness_mm) == NULL)
            SW_TRY(note_no_row(&job, &nests[i]));
        SW_TRY(cut_nest(&job, &nests[i]));
    }
    return SW_OK;
}
