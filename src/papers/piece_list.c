/* piece_list.c: the piece list as CSV (RFC 4180: commas, CRLF, quotes doubled), UTF-8, one line a piece or item. */
#include "papers/papers_parts.h"

#include <math.h>

static void field(sw_writer *w, const char *text, bool last)
{
    sw_csv_write_text(w, text);
    sw_write_text(w, last ? "\r\n" : ",");
}

static const char *const titles[] = {
    "number",       "name",         "group",        "kind",           "material",
    "thickness_mm", "in_a_stove",   "in_the_batch", "flat_length_mm", "flat_width_mm",
    "flat_area_m2", "cut_length_m", "bends",        "mass_of_one_kg", "mass_in_a_stove_kg"};
enum { TITLES = sizeof titles / sizeof *titles };

static void piece_line(sw_writer *w, const sw_dossier *d, const sw_sheet_piece *p)
{
    const sw_piece *piece = p->piece;
    field(w, piece->number, false);
    field(w, piece->name, false);
    field(w, piece->group, false);
    field(w, "sheet", false);
    field(w, piece->grade->name, false);
    sw_print(w, "%.10g,%zu,%zu,%.3f,%.3f,%.6f,%.4f,%zu,%.4f,%.4f\r\n", piece->thickness_mm, piece->count,
             piece->count * d->batch, p->flat.box.x1_mm, p->flat.box.y1_mm, sw_m2_from_mm2(p->flat.area_mm2),
             sw_m_from_mm(p->flat.cut_mm), p->flat.bend_count, p->mass_kg, p->mass_kg * (double)piece->count);
}

static const char *kind_name(sw_item_kind kind)
{
    static const char *const names[] = {[SW_ITEM_CAST] = "cast",
                                        [SW_ITEM_BOUGHT] = "bought",
                                        [SW_ITEM_BOARD] = "board",
                                        [SW_ITEM_GLASS] = "glass",
                                        [SW_ITEM_ROPE] = "rope"};
    return names[kind];
}

static void item_line(sw_writer *w, const sw_dossier *d, const sw_item *item)
{
    field(w, item->number, false);
    field(w, item->name, false);
    field(w, item->group, false);
    field(w, kind_name(item->kind), false);
    field(w, item->material, false);
    if (item->thickness_mm > 0.0) sw_print(w, "%.10g", item->thickness_mm);
    sw_print(w, ",%zu,%zu,,,,,,", item->count, item->count * d->batch);
    if (isfinite(item->mass_kg)) sw_print(w, "%.4f,%.4f\r\n", item->mass_kg, item->mass_kg * (double)item->count);
    if (!isfinite(item->mass_kg)) sw_print(w, ",\r\n");
}

sw_status sw_paper_piece_list_csv(sw_run *run, const sw_dossier *d, const char *path)
{
    sw_writer *w = NULL;
    SW_TRY(sw_writer_to_file(run, path, &w));
    for (size_t i = 0; i < TITLES; i++) field(w, titles[i], i + 1 == TITLES);
    for (size_t i = 0; i < d->sheet->piece_count; i++) piece_line(w, d, &d->sheet->pieces[i]);
    for (size_t i = 0; i < d->model.stove->item_count; i++) item_line(w, d, &d->model.stove->items[i]);
    return sw_writer_close(run, w);
}
