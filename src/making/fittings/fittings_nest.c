/* fittings_nest.c: boards of one material and thickness onto sheets of board. */
#include "making/fittings/fittings_parts.h"

#include <math.h>
#include <string.h>

static bool same_board(const sw_item *a, const sw_item *b)
{
    return strcmp(a->material, b->material) == 0 && fabs(a->thickness_mm - b->thickness_mm) < SW_SAME_POINT_MM;
}

static bool fits_sheet(const fittings_job *job, const sw_board_cut *cut)
{
    double longer_mm = fmax(job->opt->sheet_length_mm, job->opt->sheet_width_mm);
    double shorter_mm = fmin(job->opt->sheet_length_mm, job->opt->sheet_width_mm);
    return cut->length_mm <= longer_mm && cut->width_mm <= shorter_mm;
}

/* All boards of a kind, options.stoves times; parts NULL: only counted. */
static size_t list_parts(const fittings_job *job, const sw_item *kind, pack_part *parts, size_t *left_out)
{
    size_t count = 0, stoves = (size_t)job->opt->stoves;
    *left_out = 0;
    for (size_t i = 0; i < job->result->cut_count; i++) {
        const sw_board_cut *cut = &job->result->cuts[i];
        if (!same_board(cut->item, kind)) continue;
        for (size_t k = 0; k < cut->count * stoves; k++) {
            if (!fits_sheet(job, cut))
                (*left_out)++;
            else if (parts != NULL)
                parts[count++] = (pack_part){cut->length_mm, cut->width_mm, i};
            else
                count++;
        }
    }
    return count;
}

static sw_status make_sheet(sw_run *run, const fittings_job *job, const pack_part *parts, const pack_place *places,
                            size_t count, size_t index, sw_board_sheet *sheet)
{
    sw_board_place *out = SW_KEEP(run, count, sw_board_place);
    if (out == NULL) return SW_NO_MEMORY;
    double area_mm2 = 0;
    for (size_t i = 0; i < count; i++) {
        const pack_place *p = &places[i];
        if (p->sheet != index) continue;
        double w_mm = p->turned ? parts[i].h_mm : parts[i].w_mm, h_mm = p->turned ? parts[i].w_mm : parts[i].h_mm;
        sw_box box = {p->x_mm, p->y_mm, p->x_mm + w_mm, p->y_mm + h_mm};
        out[sheet->count++] = (sw_board_place){parts[i].cut, box, p->turned};
        area_mm2 += w_mm * h_mm;
    }
    sheet->places = out;
    sheet->length_mm = job->opt->sheet_length_mm;
    sheet->width_mm = job->opt->sheet_width_mm;
    sheet->used = area_mm2 / (sheet->length_mm * sheet->width_mm);
    return SW_OK;
}

typedef struct sheet_list {
    sw_board_sheet *items;
    size_t count, room;
} sheet_list;

static sw_status nest_kind(sw_run *run, fittings_job *job, const sw_item *kind, sheet_list *list, sw_board_nest *nest)
{
    const pack_stock stock = {job->opt->sheet_length_mm, job->opt->sheet_width_mm, job->opt->saw_mm};
    size_t left_out, count = list_parts(job, kind, NULL, &left_out), sheets = 0;
    pack_part *parts = SW_SCRATCH(run, count, pack_part);
    pack_place *places = SW_SCRATCH(run, count, pack_place);
    if (parts == NULL || places == NULL) return SW_NO_MEMORY;
    (void)list_parts(job, kind, parts, &left_out);
    if (count > 0) SW_TRY(fittings_pack(run, parts, count, stock, places, &sheets));
    *nest = (sw_board_nest){kind->material, kind->thickness_mm, list->count, sheets, 0, left_out};
    nest->bound = fittings_pack_bound(parts, count, stock);
    for (size_t k = 0; k < sheets; k++) {
        sw_board_sheet *items = sw_grow(run, run->keep, list->items, list->count, &list->room, sizeof *items);
        if (items == NULL) return SW_NO_MEMORY;
        list->items = items;
        sw_board_sheet sheet = {.material = kind->material, .thickness_mm = kind->thickness_mm};
        SW_TRY(make_sheet(run, job, parts, places, count, k, &sheet));
        list->items[list->count++] = sheet;
        job->result->board_m2 += sw_m2_from_mm2(sheet.used * sheet.length_mm * sheet.width_mm);
        job->result->sheet_m2 += sw_m2_from_mm2(sheet.length_mm * sheet.width_mm);
    }
    return SW_OK;
}

static bool seen(const fittings_job *job, size_t i)
{
    for (size_t k = 0; k < i; k++)
        if (same_board(job->result->cuts[k].item, job->result->cuts[i].item)) return true;
    return false;
}

sw_status fittings_nest(sw_run *run, fittings_job *job)
{
    sheet_list list = {0};
    sw_board_nest *nests = SW_KEEP(run, job->result->cut_count, sw_board_nest);
    if (nests == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->result->cut_count; i++)
        if (!seen(job, i))
            SW_TRY(nest_kind(run, job, job->result->cuts[i].item, &list, &nests[job->result->nest_count++]));
    job->result->nests = nests;
    job->result->sheets = list.items;
    job->result->sheet_count = list.count;
    return SW_OK;
}
