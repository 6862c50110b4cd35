/* write_all.c: every paper of the dossier into the folder. The list of steps stands at the bottom; each file is
 * listed with what it is for, and a file for a machine counts only after it was read back and compared. */
#include "papers/cards_parts.h"
#include "papers/chart_parts.h"
#include "papers/gltf_parts.h"
#include "papers/house_parts.h"
#include "papers/machine_parts.h"
#include "papers/sheets_parts.h"
#include "papers/shop_parts.h"

#include <string.h>

typedef struct clerk { /* one call's state */
    const sw_dossier *d;
    const sw_folder *folder;
    paper_desk desk;
    sw_pen *flats, *sheets; /* documents with a page a flat, a page a nested sheet */
    sw_paper_file *files;
    size_t count, room, done, total;
} clerk;

/* Small letters of ASCII and Latin-1, as file systems that know no case compare them. */
static unsigned char small(const char *at, bool after_c3)
{
    unsigned char c = (unsigned char)*at;
    bool large = (c >= 'A' && c <= 'Z') || (after_c3 && c >= 0x80 && c <= 0x9E && c != 0x97);
    return large ? (unsigned char)(c + 0x20) : c;
}

static bool same_file(const char *a, const char *b)
{
    for (bool c3 = false; small(a, c3) == small(b, c3); a++, b++) {
        if (*a == '\0') return true;
        c3 = (unsigned char)*a == 0xC3;
    }
    return false;
}

static bool is_listed(const clerk *c, const char *relative)
{
    for (size_t i = 0; i < c->count; i++)
        if (same_file(c->files[i].path, relative)) return true;
    return false;
}

/* Names of two pieces may come out as one file's: "1" "2 side" and "1 2" "side". The later one is called "1 2 side (2)". */
static sw_status own_name(sw_run *run, const clerk *c, const char **relative)
{
    const char *first = *relative, *ending = strrchr(first, '.');
    for (size_t n = 2; is_listed(c, *relative); n++) {
        *relative = sw_text_format(run, run->scratch, "%.*s (%zu)%s", (int)(ending - first), first, n, ending);
        if (*relative == NULL) return SW_NO_MEMORY;
    }
    return SW_OK;
}

/* Path inside the working folder, and a note in the list. */
static sw_status enter(sw_run *run, clerk *c, const char *relative, const char *what, const char **path)
{
    if (relative == NULL) return SW_NO_MEMORY;
    sw_paper_file *files = sw_grow(run, run->keep, c->files, c->count, &c->room, sizeof *files);
    if (files == NULL) return SW_NO_MEMORY;
    c->files = files;
    SW_TRY(own_name(run, c, &relative));
    files[c->count].path = sw_text_copy(run, run->keep, relative);
    files[c->count].what = what;
    *path = sw_text_format(run, run->keep, "%s/%s", c->folder->working, relative);
    return files[c->count++].path == NULL || *path == NULL ? SW_NO_MEMORY : SW_OK;
}

static sw_status step(sw_run *run, clerk *c, const char *note)
{
    sw_run_progress(run, "papers", (double)c->done++, (double)c->total, note);
    if (!sw_run_cancelled(run)) return SW_OK;
    return sw_fail(run, SW_CANCELLED, (sw_place){0}, "papers",
                   "stopped on request after %zu of %zu papers; nothing was published", c->done - 1, c->total);
}

static sw_status flat_files(sw_run *run, clerk *c, size_t index)
{
    const sw_sheet_piece *p = &c->d->sheet->pieces[index];
    const char *number = p->piece->number, *name = p->piece->name, *path = NULL;
    SW_TRY(step(run, c, name));
    SW_TRY(enter(run, c, words_file(run, "flats", number, name, ".svg"), "drawing of the flat, for screens", &path));
    SW_TRY(paper_flat(run, &c->desk, index, path, c->flats));
    SW_TRY(enter(run, c, words_file(run, "flats", number, name, ".dxf"),
                 "the flat for any cutting machine, mm, read back and compared", &path));
    SW_TRY(sw_paper_flat_dxf(run, p, path));
    return machine_check_flat_dxf(run, p, path);
}

static bool is_rolled(const sw_flat *flat)
{
    for (size_t i = 0; i < flat->bend_count; i++)
        if (flat->bends[i].bend->kind == SW_ROLLED) return true;
    return false;
}

static sw_status template_file(sw_run *run, clerk *c, size_t index)
{
    const sw_sheet_piece *p = &c->d->sheet->pieces[index];
    const char *path = NULL;
    if (!is_rolled(&p->flat)) return SW_OK;
    SW_TRY(enter(run, c, words_file(run, "templates", p->piece->number, p->piece->name, ".pdf"),
                 "curvature template 1:1, print at 100 %", &path));
    return paper_template(run, &c->desk, index, path);
}

static sw_status machine_files(sw_run *run, clerk *c, const sw_nested *n, size_t sheet, const char *number)
{
    const char *path = NULL;
    if (n->cuts == NULL || n->cuts[sheet] == NULL) return SW_OK;
    SW_TRY(enter(run, c, words_file(run, "sheets", number, "", ".dxf"),
                 "the nested sheet for any cutting machine, mm, read back and compared", &path));
    SW_TRY(sw_paper_sheet_dxf(run, n->cuts[sheet], path));
    SW_TRY(machine_check_sheet_dxf(run, n->cuts[sheet], path));
    if (n->plans == NULL || n->plans[sheet] == NULL) return SW_OK;
    SW_TRY(enter(run, c, words_file(run, "sheets", number, "", ".nc"),
                 "motion program, ISO 6983 words, read back and compared", &path));
    SW_TRY(sw_paper_motion(run, n->cuts[sheet], n->plans[sheet], path));
    return machine_check_motion(run, n->cuts[sheet], n->plans[sheet], path);
}

static sw_status sheet_files(sw_run *run, clerk *c, size_t nest, size_t sheet)
{
    const sw_nested *n = &c->d->nests[nest];
    const char *number = sw_text_format(run, run->scratch, "%s sheet %zu", n->name, sheet + 1), *path = NULL;
    if (number == NULL) return SW_NO_MEMORY;
    SW_TRY(step(run, c, number));
    SW_TRY(enter(run, c, words_file(run, "sheets", number, "", ".svg"), "map of the nested sheet, for screens", &path));
    SW_TRY(paper_nest_map(run, &c->desk, nest, sheet, path, c->sheets));
    return machine_files(run, c, n, sheet, number);
}

static sw_status json_file(sw_run *run, clerk *c)
{
    const char *path = NULL;
    sw_writer *w = NULL;
    SW_TRY(enter(run, c, "findings.json", "findings and figures for other programs", &path));
    SW_TRY(sw_writer_to_file(run, path, &w));
    sw_status status = sw_paper_json(run, c->d, w);
    if (status == SW_OK) return sw_writer_close(run, w);
    sw_writer_abandon(w);
    return status;
}

static sw_status solids(sw_run *run, clerk *c)
{
    const char *path = NULL;
    gltf_parts from = {.parts = c->desk.assembled.parts, .count = c->desk.assembled.part_count};
    SW_TRY(gltf_shapes_make(run, from.parts, from.count, &from.shapes));
    SW_TRY(enter(run, c, "stove.glb", "the stove as a solid picture, glTF 2.0", &path));
    SW_TRY(gltf_write(run, c->d, from, path));
    if (!heat_is_known(c->d)) return SW_OK;
    SW_TRY(enter(run, c, "stove-heat.glb", "the stove coloured by temperature, glTF 2.0", &path));
    return gltf_write_heat(run, c->d, from, path);
}

static sw_status whole_files(sw_run *run, clerk *c)
{
    const char *path = NULL;
    SW_TRY(step(run, c, "dossier"));
    SW_TRY(enter(run, c, "dossier.html", "everything on one page for the browser", &path));
    SW_TRY(enter(run, c, "dossier.pdf", "everything, to print", &path));
    SW_TRY(paper_dossier(run, &c->desk, c->folder->working));
    SW_TRY(step(run, c, "solid and lists"));
    SW_TRY(solids(run, c));
    SW_TRY(enter(run, c, "pieces.csv", "piece list for spreadsheets", &path));
    SW_TRY(sw_paper_piece_list_csv(run, c->d, path));
    return json_file(run, c);
}

static sw_status view_files(sw_run *run, clerk *c, bool exploded)
{
    const char *name = exploded ? "views/exploded" : "views/assembled", *svg = NULL, *png = NULL;
    const char *what = exploded ? "the stove exploded, with numbers" : "the stove assembled";
    SW_TRY(step(run, c, name));
    SW_TRY(enter(run, c, sw_text_format(run, run->scratch, "%s.svg", name), what, &svg));
    SW_TRY(enter(run, c, sw_text_format(run, run->scratch, "%s.png", name), what, &png));
    return paper_view(run, &c->desk, exploded ? &c->desk.exploded : &c->desk.assembled, svg, png);
}

static sw_status burning_views(sw_run *run, clerk *c)
{
    const char *path = NULL;
    if (c->desk.section == NULL) return SW_OK;
    SW_TRY(enter(run, c, "views/section.svg", "temperatures of the parts in the middle section", &path));
    SW_TRY(paper_section(run, &c->desk, path));
    SW_TRY(enter(run, c, "views/air.svg", "where air comes in and gas goes", &path));
    SW_TRY(paper_air(run, &c->desk, path));
    if (!heat_has_burn(c->d)) return SW_OK;
    SW_TRY(enter(run, c, "views/burn.svg", "a burn from cold over time", &path));
    return paper_burn(run, &c->desk, path);
}

static sw_status house_files(sw_run *run, clerk *c)
{
    const char *path = NULL;
    if (!house_is_placed(c->d)) return SW_OK;
    SW_TRY(step(run, c, "fitter's sheet"));
    SW_TRY(sw_folder_sub(run, c->folder, "house", &path));
    SW_TRY(enter(run, c, "house/fitter.pdf", "for the fitter: distances, the flue, record of the first fire", &path));
    return paper_fitter(run, &c->desk, path);
}

static sw_status bending_files(sw_run *run, clerk *c)
{
    const char *path = NULL;
    if (!cards_bent(c->d) && !cards_rolled(c->d)) return SW_OK;
    SW_TRY(sw_folder_sub(run, c->folder, "bending", &path));
    if (cards_bent(c->d)) {
        SW_TRY(enter(run, c, "bending/bends.pdf", "bend cards: each stroke with its tools, stop and angle", &path));
        SW_TRY(paper_bends(run, &c->desk, path));
    }
    if (!cards_rolled(c->d)) return SW_OK;
    SW_TRY(enter(run, c, "bending/rolls.pdf", "rolling cards: passes, feed, flat ends, template", &path));
    return paper_rolls(run, &c->desk, path);
}

static sw_status welding_files(sw_run *run, clerk *c)
{
    const sw_join_result *join = c->d->shop.join;
    const char *path = NULL;
    if (join == NULL || join->seam_count == 0) return SW_OK;
    SW_TRY(sw_folder_sub(run, c->folder, "welding", &path));
    SW_TRY(enter(run, c, "welding/welding.pdf", "welding cards: tacks, seams, order, leak test", &path));
    SW_TRY(paper_welding(run, &c->desk, path));
    SW_TRY(enter(run, c, "welding/seams.csv",
                 "the seams point by point for the robot's teacher, read back and compared", &path));
    SW_TRY(sw_paper_seams_csv(run, join, path));
    return machine_check_seams(run, join, path);
}

static sw_status card_files(sw_run *run, clerk *c)
{
    SW_TRY(step(run, c, "cards of press, rolls and welders"));
    SW_TRY(bending_files(run, c));
    return welding_files(run, c);
}

static sw_status line_files(sw_run *run, clerk *c)
{
    const char *path = NULL;
    if (!shop_has_line(c->d)) return SW_OK;
    SW_TRY(step(run, c, "route and cost"));
    SW_TRY(sw_folder_sub(run, c->folder, "line", &path));
    SW_TRY(enter(run, c, "line/route.pdf", "route, load, schedule and cost of the batch, to print", &path));
    SW_TRY(paper_route(run, &c->desk, path));
    if (!shop_has_plan(c->d)) return SW_OK;
    SW_TRY(enter(run, c, "line/schedule.csv", "the schedule for spreadsheets", &path));
    return paper_schedule_csv(run, c->d, path);
}

static sw_status sheet_file(sw_run *run, clerk *c, const char *relative, const char *what,
                            sw_status (*paper)(sw_run *run, const paper_desk *desk, const char *path))
{
    const char *path = NULL;
    SW_TRY(enter(run, c, relative, what, &path));
    return paper(run, &c->desk, path);
}

static sw_status workshop_sheets(sw_run *run, clerk *c)
{
    const sw_shopped *s = &c->d->shop;
    const char *path = NULL;
    if (s->fit != NULL) SW_TRY(sw_folder_sub(run, c->folder, "inspection", &path));
    if (s->lift != NULL) SW_TRY(sw_folder_sub(run, c->folder, "lifting", &path));
    if (s->coat != NULL || s->fittings != NULL) SW_TRY(sw_folder_sub(run, c->folder, "finishing", &path));
    if (s->fit != NULL)
        SW_TRY(sheet_file(run, c, "inspection/inspection.pdf",
                          "what to measure, whether the joints fit, control charts", paper_inspection));
    if (s->lift != NULL)
        SW_TRY(sheet_file(run, c, "lifting/lifting.pdf", "who lifts what, slings and hoists", paper_lifting));
    if (s->coat != NULL)
        SW_TRY(sheet_file(run, c, "finishing/coating.pdf", "blasting, masking, coating, curing, first fires",
                          paper_coating));
    if (s->fittings == NULL) return SW_OK;
    return sheet_file(run, c, "finishing/fittings.pdf", "boards to cut, gaps, glass, rope, grate", paper_fittings);
}

static size_t steps_of(const sw_dossier *d)
{
    size_t n = d->sheet->piece_count + 5 + (heat_flat_pages(d) > 0 ? 1 : 0) + (house_is_placed(d) ? 1 : 0) +
               (shop_has_line(d) ? 1 : 0);
    for (size_t i = 0; i < d->nest_count; i++) n += d->nests[i].result == NULL ? 0 : d->nests[i].result->sheet_count;
    return n;
}

static sw_status folders(sw_run *run, const sw_folder *folder)
{
    static const char *const names[] = {"flats", "sheets", "templates", "views"};
    const char *path = NULL;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) SW_TRY(sw_folder_sub(run, folder, names[i], &path));
    return SW_OK;
}

/* A document whose first page is still to come. */
static sw_status open_document(sw_run *run, clerk *c, const char *name, const char *what, const char *title,
                               sw_pen **pen)
{
    const char *path = NULL, *stove = c->d->model.stove->title;
    SW_TRY(enter(run, c, name, what, &path));
    const char *full = sw_text_format(run, run->scratch, "%s: %s", stove, title);
    if (full == NULL) return SW_NO_MEMORY;
    SW_TRY(pen_open_lettered(run, path, c->desk.letters, 0.0, 0.0, pen));
    pen_about(*pen, full, c->d->date);
    return SW_OK;
}

static sw_status close_document(sw_run *run, sw_pen **pen)
{
    sw_pen *done = *pen;
    *pen = NULL;
    return sw_pen_close(run, done);
}

static sw_status all_flats(sw_run *run, clerk *c)
{
    if (c->d->sheet->piece_count == 0) return SW_OK;
    SW_TRY(open_document(run, c, "flats/flats.pdf", "drawings of all flats, to print", "flats", &c->flats));
    for (size_t i = 0; i < c->d->sheet->piece_count; i++) SW_TRY(flat_files(run, c, i));
    SW_TRY(close_document(run, &c->flats));
    for (size_t i = 0; i < c->d->sheet->piece_count; i++) SW_TRY(template_file(run, c, i));
    return SW_OK;
}

static sw_status heat_maps(sw_run *run, clerk *c)
{
    if (heat_flat_pages(c->d) == 0) return SW_OK;
    SW_TRY(step(run, c, "temperatures on the flats"));
    SW_TRY(
        open_document(run, c, "flats/heat.pdf", "lines of equal temperature on the flats", "temperatures", &c->flats));
    SW_TRY(paper_heat_flats(run, &c->desk, c->flats));
    return close_document(run, &c->flats);
}

static size_t layouts_of(const sw_nested *n)
{
    return n->result == NULL ? 0 : n->result->sheet_count;
}

static sw_status all_sheets(sw_run *run, clerk *c)
{
    size_t count = 0;
    for (size_t i = 0; i < c->d->nest_count; i++) count += layouts_of(&c->d->nests[i]);
    if (count == 0) return SW_OK;
    SW_TRY(
        open_document(run, c, "sheets/sheets.pdf", "maps of all nested sheets, to print", "nested sheets", &c->sheets));
    for (size_t i = 0; i < c->d->nest_count; i++)
        for (size_t j = 0; j < layouts_of(&c->d->nests[i]); j++) SW_TRY(sheet_files(run, c, i, j));
    return close_document(run, &c->sheets);
}

static sw_status all(sw_run *run, clerk *c)
{
    c->total = steps_of(c->d);
    SW_TRY(folders(run, c->folder));
    SW_TRY(desk_whole(run, c->d, &c->desk));
    SW_TRY(whole_files(run, c));
    SW_TRY(all_flats(run, c));
    SW_TRY(all_sheets(run, c));
    SW_TRY(view_files(run, c, false));
    SW_TRY(view_files(run, c, true));
    SW_TRY(burning_views(run, c));
    SW_TRY(heat_maps(run, c));
    SW_TRY(house_files(run, c));
    SW_TRY(line_files(run, c));
    SW_TRY(card_files(run, c));
    SW_TRY(workshop_sheets(run, c));
    sw_run_progress(run, "papers", (double)c->total, (double)c->total, "");
    return SW_OK;
}

sw_status sw_papers_write(sw_run *run, const sw_dossier *d, const sw_folder *folder, const sw_paper_file **files,
                          size_t *count)
{
    size_t mark = sw_arena_mark(run->scratch);
    clerk c = {.d = d, .folder = folder};
    *files = NULL;
    *count = 0;
    sw_status status = all(run, &c);
    sw_pen_abandon(c.flats);
    sw_pen_abandon(c.sheets);
    desk_close(&c.desk);
    sw_arena_rewind(run->scratch, mark);
    if (status != SW_OK) return status;
    *files = c.files;
    *count = c.count;
    return SW_OK;
}
