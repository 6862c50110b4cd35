/* nest_verify_counts.c: counts of pieces and sheets in a finished nest. */
#include "making/nest/nest_verify_parts.h"

static sw_status check_counts(sw_run *run, const sw_nest_input *in, const sw_nest_result *result)
{
    size_t *seen = SW_SCRATCH(run, in->shape_count, size_t);
    if (seen == NULL) return SW_NO_MEMORY;
    for (size_t s = 0; s < result->sheet_count; s++) {
        const sw_nest_sheet *sheet = &result->sheets[s];
        for (size_t i = 0; i < sheet->place_count; i++) {
            if (sheet->places[i].shape >= in->shape_count)
                return sw_fail(run, SW_INTERNAL, (sw_place){0}, in->name, "sheet %zu holds a piece of no shape", s + 1);
            seen[sheet->places[i].shape] += sheet->repeat;
        }
    }
    for (size_t i = 0; i < in->shape_count; i++)
        if (seen[i] != in->shapes[i].count)
            return sw_fail(run, SW_INTERNAL, (sw_place){0}, in->name, "piece \"%s\" is placed %zu times, wanted %zu",
                           in->shapes[i].name, seen[i], in->shapes[i].count);
    return SW_OK;
}

static sw_status check_stock(sw_run *run, const sw_nest_input *in, const sw_nest_result *result)
{
    for (size_t i = 0; i < in->stock_count; i++) {
        const sw_stock *stock = in->stock[i];
        size_t used = 0;
        for (size_t s = 0; s < result->sheet_count; s++)
            if (result->sheets[s].stock == stock) used += result->sheets[s].repeat;
        bool endless = stock->count == 0 && !stock->remnant;
        if (!endless && used > stock->count)
            return sw_fail(run, SW_INTERNAL, (sw_place){0}, in->name, "sheet \"%s\" is used %zu times, there are %zu",
                           stock->name, used, stock->count);
    }
    return SW_OK;
}

sw_status nest_verify_counts(sw_run *run, const sw_nest_input *in, const sw_nest_result *result)
{
    SW_TRY(check_counts(run, in, result));
    return check_stock(run, in, result);
}
