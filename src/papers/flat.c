/* flat.c: the drawing of a flat on A4: chooses the page's direction and scale, then lets its parts draw. */
#include "papers/flat_parts.h"

#include <math.h>

enum { HEADER_MM = 48, STRIP_MM = 13, EDGE_MM = 10, FOOT_MM = 8 };

/* ISO 5455: recommended scales. */
static const struct {
    double scale;
    const char *text;
} scales[] = {{5.0, "5:1"},  {2.0, "2:1"},   {1.0, "1:1"},   {0.5, "1:2"},   {0.2, "1:5"},
              {0.1, "1:10"}, {0.05, "1:20"}, {0.02, "1:50"}, {0.01, "1:100"}};
enum { SCALES = sizeof scales / sizeof *scales };

sw_point flat_page(const flat_sheet *f, sw_point p)
{
    return (sw_point){f->at.x_mm + f->scale * p.x_mm, f->at.y_mm - f->scale * p.y_mm};
}

static sw_box area_of(bool lying, double tables_mm)
{
    double wide_mm = lying ? A4_LONG_MM : A4_SHORT_MM, high_mm = lying ? A4_SHORT_MM : A4_LONG_MM;
    return (sw_box){EDGE_MM, EDGE_MM + HEADER_MM, wide_mm - EDGE_MM,
                    high_mm - EDGE_MM - FOOT_MM - STRIP_MM - tables_mm};
}

static int scale_for(const flat_sheet *f, sw_box area)
{
    double room_x_mm = area.x1_mm - area.x0_mm - FLAT_LEFT_MM - FLAT_RIGHT_MM;
    double room_y_mm = area.y1_mm - area.y0_mm - FLAT_TOP_MM - FLAT_BOTTOM_MM;
    const sw_box *box = &f->piece->flat.box;
    for (int i = 0; i < SCALES; i++)
        if (box->x1_mm * scales[i].scale <= room_x_mm && box->y1_mm * scales[i].scale <= room_y_mm) return i;
    return SCALES - 1;
}

/* Picks the direction of the page that allows the larger scale; upright when both do. */
static void choose_page(flat_sheet *f, double *tables_mm)
{
    double upright_mm = flat_tables_height(f, A4_SHORT_MM - 2.0 * EDGE_MM),
           lying_mm = flat_tables_height(f, A4_LONG_MM - 2.0 * EDGE_MM);
    sw_box upright = area_of(false, upright_mm), lying = area_of(true, lying_mm);
    int i = scale_for(f, upright), j = scale_for(f, lying);
    const sw_box *box = &f->piece->flat.box;
    f->lying = j < i || (j == i && box->x1_mm > 1.6 * box->y1_mm);
    f->area = f->lying ? lying : upright;
    f->scale = scales[f->lying ? j : i].scale;
    f->scale_text = scales[f->lying ? j : i].text;
    *tables_mm = f->lying ? lying_mm : upright_mm;
    double free_x_mm = f->area.x1_mm - f->area.x0_mm - FLAT_LEFT_MM - FLAT_RIGHT_MM - f->scale * box->x1_mm;
    double free_y_mm = f->area.y1_mm - f->area.y0_mm - FLAT_TOP_MM - FLAT_BOTTOM_MM - f->scale * box->y1_mm;
    f->at.x_mm = f->area.x0_mm + FLAT_LEFT_MM + fmax(0.0, free_x_mm / 2.0);
    f->at.y_mm = f->area.y1_mm - FLAT_BOTTOM_MM - fmax(0.0, free_y_mm / 2.0);
}

static const char *turns_text(sw_turns turns)
{
    static const char *const texts[] = {[SW_TURN_FREE] = "any turn on the sheet",
                                        [SW_TURN_QUARTER] = "quarter turns on the sheet",
                                        [SW_TURN_HALF] = "half turns on the sheet (rolling direction along x)",
                                        [SW_TURN_FIXED] = "no turn on the sheet (rolling direction along x)"};
    return texts[turns];
}

static const char *facts(sw_run *run, const flat_sheet *f, int line)
{
    const sw_flat *flat = &f->piece->flat;
    const sw_piece *piece = f->piece->piece;
    const char *wide = words_mm(run, flat->box.x1_mm), *high = words_mm(run, flat->box.y1_mm);
    if (wide == NULL || high == NULL) return NULL;
    if (line == 0)
        return sw_text_format(run, run->scratch, "flat %s \xc3\x97 %s mm, cut length %.2f m, area %.3f m\xc2\xb2", wide,
                              high, sw_m_from_mm(flat->cut_mm), sw_m2_from_mm2(flat->area_mm2));
    if (line == 1)
        return sw_text_format(run, run->scratch, "%zu bend%s, %zu cut-out%s", flat->bend_count,
                              sw_plural(flat->bend_count), flat->region.hole_count, sw_plural(flat->region.hole_count));
    if (line == 2)
        return sw_text_format(run, run->scratch, "%s%s", turns_text(piece->turns),
                              piece->may_flip ? "; either face up" : "");
    if (piece->mirror_of < 0 || (size_t)piece->mirror_of >= f->d->model.stove->piece_count) return "";
    const sw_piece *other = &f->d->model.stove->pieces[piece->mirror_of];
    return sw_text_format(run, run->scratch, "mirror of %s %s", other->number, other->name);
}

static sw_status header(sw_run *run, flat_sheet *f)
{
    const sw_piece *piece = f->piece->piece;
    double right_mm = f->pen->width_mm - EDGE_MM;
    sw_point at = {EDGE_MM, EDGE_MM + 8.0};
    const char *number = words_within(run, f->pen, 6.5, true, right_mm - 76.0, piece->number);
    const char *name = words_within(run, f->pen, 3.6, false, right_mm - 76.0, piece->name);
    if (number == NULL || name == NULL) return SW_NO_MEMORY;
    pen_write(f->pen, at, look_type_bold(6.5, SW_LEFT), number);
    pen_write(f->pen, (sw_point){at.x_mm, at.y_mm + 7.5}, look_type(3.6, SW_LEFT), name);
    for (int line = 0; line < 4; line++) {
        double y_mm = at.y_mm + 14.0 + 4.4 * line;
        const char *text = facts(run, f, line);
        if (text == NULL) return SW_NO_MEMORY;
        text = words_within(run, f->pen, 2.0, false, right_mm - 76.0, text);
        if (text == NULL) return SW_NO_MEMORY;
        pen_write(f->pen, (sw_point){at.x_mm, y_mm}, look_type_grey(2.0, SW_LEFT), text);
    }
    return SW_OK;
}

/* The folded piece in the upper right corner. */
static sw_status folded(sw_run *run, flat_sheet *f)
{
    double right_mm = f->pen->width_mm - EDGE_MM;
    const solid_part part = {
        .mesh = f->piece->solid.mesh, .shape = f->shape, .frame = sw_frame_world(), .colour = look_group(0)};
    const solid_wish wish = {58.0, 43.0, 5.0, false};
    solid_picture picture;
    if (part.mesh.triangle_count == 0) return SW_OK;
    SW_TRY(solid_draw(run, &part, 1, solid_view_piece(), wish, &picture));
    sw_point at = {right_mm - 59.0 + (58.0 - picture.width_mm) / 2.0, EDGE_MM + (43.0 - picture.height_mm) / 2.0};
    SW_TRY(solid_packed(run, &picture));
    solid_show(f->pen, at, 1.0, &picture, 0.18);
    return SW_OK;
}

static sw_status strip(sw_run *run, flat_sheet *f)
{
    const sw_piece *piece = f->piece->piece;
    double y_mm = f->pen->height_mm - EDGE_MM - FOOT_MM - STRIP_MM;
    const char *thick = words_number(run, piece->thickness_mm, 2), *mass = words_number(run, f->piece->mass_kg, 3);
    if (thick == NULL || mass == NULL) return SW_NO_MEMORY;
    const strip_cell cells[] = {{"material", sw_text_format(run, run->scratch, "%s", piece->grade->name), 1.0},
                                {"thickness", sw_text_format(run, run->scratch, "%s mm", thick), 0.8},
                                {"quantity",
                                 sw_text_format(run, run->scratch, "%zu \xc3\x97 %zu = %zu", piece->count, f->d->batch,
                                                piece->count * f->d->batch),
                                 1.2},
                                {"mass of one", sw_text_format(run, run->scratch, "%s kg", mass), 1.1},
                                {"scale", f->scale_text, 0.7},
                                {"stove", f->d->model.stove->title, 2.4},
                                {"date", f->d->date, 1.1}};
    enum { CELLS = sizeof cells / sizeof *cells };
    for (size_t i = 0; i < CELLS; i++)
        if (cells[i].value == NULL) return SW_NO_MEMORY;
    const sw_box box = {EDGE_MM, y_mm, f->pen->width_mm - EDGE_MM, y_mm + STRIP_MM};
    SW_TRY(draw_strip(run, f->pen, box, cells, CELLS));
    SW_TRY(draw_caution(
        run, f->pen, (sw_point){EDGE_MM, box.y1_mm + 3.6},
        "Dimensions in mm from the lower left corner, front side up; bend lines at the middle of the bend. Measure the first piece after bending."));
    return draw_caution(
        run, f->pen, (sw_point){EDGE_MM, box.y1_mm + 7.0},
        "Cut edges are sharp: gloves. Press brake and rolls: pinch points, whipping sheet, guards in place. Laser: class 4 beam, enclosure shut.");
}

static sw_status drawn(sw_run *run, flat_sheet *f, double tables_mm)
{
    SW_TRY(header(run, f));
    SW_TRY(folded(run, f));
    SW_TRY(flat_shape(run, f));
    SW_TRY(flat_dimensions(run, f));
    SW_TRY(flat_labels(run, f));
    SW_TRY(strip(run, f));
    const sw_box tables = {EDGE_MM, f->area.y1_mm, f->pen->width_mm - EDGE_MM, f->area.y1_mm + tables_mm};
    return flat_tables(run, f, tables);
}

/* On the file's page, and on the document's next one where there is a document. */
static sw_status marked(sw_run *run, flat_sheet *f, double tables_mm, const char *title, sw_pen *file, sw_pen *document)
{
    sw_pen both;
    pen_about(file, title, f->d->date);
    f->pen = file;
    if (document != NULL) {
        both = pen_pair_of(file, document);
        f->pen = &both;
        sw_pen_page(document, file->width_mm, file->height_mm);
        pen_entry(document, title, f->piece->piece->number);
    }
    return drawn(run, f, tables_mm);
}

static sw_status made(sw_run *run, flat_sheet *f, const char *path, sw_pen *document)
{
    double tables_mm = 0.0;
    sw_pen *file = NULL;
    SW_TRY(flat_holes(run, f));
    SW_TRY(flat_rules(run, f));
    choose_page(f, &tables_mm);
    const char *title = sw_text_format(run, run->scratch, "%s %s", f->piece->piece->number, f->piece->piece->name);
    if (title == NULL) return SW_NO_MEMORY;
    SW_TRY(pen_open_lettered(run, path, f->desk->letters, f->lying ? A4_LONG_MM : A4_SHORT_MM,
                             f->lying ? A4_SHORT_MM : A4_LONG_MM, &file));
    sw_status status = marked(run, f, tables_mm, title, file, document);
    if (status == SW_OK) return sw_pen_close(run, file);
    sw_pen_abandon(file);
    return status;
}

sw_status paper_flat(sw_run *run, const paper_desk *desk, size_t piece, const char *path, sw_pen *document)
{
    size_t mark = sw_arena_mark(run->scratch);
    flat_sheet f = {.desk = desk, .d = desk->d, .piece = &desk->d->sheet->pieces[piece], .shape = desk->shapes[piece]};
    sw_status status = made(run, &f, path, document);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

sw_status sw_paper_flat(sw_run *run, const sw_dossier *d, size_t piece, const char *path)
{
    SW_ASSERT(piece < d->sheet->piece_count);
    size_t mark = sw_arena_mark(run->scratch);
    paper_desk desk;
    sw_status status = desk_open(run, d, &desk);
    if (status == SW_OK) status = desk_shape(run, &desk, piece);
    if (status == SW_OK) status = paper_flat(run, &desk, piece, path, NULL);
    desk_close(&desk);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
