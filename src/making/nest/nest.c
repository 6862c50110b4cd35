#include "making/nest/nest.h"

#include "making/nest/nest_parts.h"

#include <math.h>

static const sw_option table[] = {
    SW_OPTION(sw_nest_options, budget_s, "s", 2.0, 0.0, 86400.0, "time for improvement after the first answer", "ours"),
    SW_OPTION(sw_nest_options, pocket_share, "", 0.004, 0.0, 0.1,
              "pockets that together are a smaller share of a piece's box are filled: of less use than they cost",
              "ours"),
    SW_OPTION(sw_nest_options, parts_most, "", 96.0, 4.0, 1000.0,
              "convex parts of a piece; one of more gets larger pockets filled, at last its hull", "ours"),
    SW_OPTION(sw_nest_options, sheets_first, "", 0.0, 0.0, 1.0,
              "1 = a cheaper choice of sheets comes before what remnants are worth; 0 = all counts as money", "ours"),
    SW_OPTION(sw_nest_options, exactness_mm, "mm", 0.2, 0.01, 5.0, "chord error of the shapes searched with", "ours"),
};
enum { TABLE_ROWS = sizeof table / sizeof *table };

static const size_t pair_ceiling_bytes = (size_t)512 << 20; /* of the pairs' own arena; trimmed long before */

const sw_option *sw_nest_option_table(size_t *count)
{
    *count = TABLE_ROWS;
    return table;
}

sw_nest_options sw_nest_options_defaults(void)
{
    sw_nest_options options = {.seed = 1, .made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(table, TABLE_ROWS, &options);
    return options;
}

static bool anything_to_place(const sw_nest_input *in)
{
    for (size_t i = 0; i < in->shape_count; i++)
        if (in->shapes[i].count > 0) return true;
    return false;
}

/* ---- a piece that fits no sheet ------------------------------------------------------------------ */

static bool fits_some_sheet(const nest_core *core, size_t kind)
{
    for (size_t i = 0; i < core->in->stock_count; i++)
        if (nest_fits_box(core, kind, i)) return true;
    return false;
}

static sw_box largest_usable(const nest_core *core)
{
    size_t best = 0;
    for (size_t i = 1; i < core->in->stock_count; i++)
        if (core->sheets[i].usable_area_mm2 > core->sheets[best].usable_area_mm2) best = i;
    return core->sheets[best].usable;
}

static const nest_turned *tightest(const nest_core *core, size_t kind)
{
    const nest_turned *t = &core->turned[core->kinds[kind].first], *best = t;
    for (size_t i = 1; i < core->kinds[kind].count; i++)
        if (t[i].width_mm * t[i].height_mm < best->width_mm * best->height_mm - 1e-6) best = &t[i];
    return best;
}

static sw_status too_large(nest_core *core, size_t kind)
{
    const nest_turned *t = tightest(core, kind);
    double m = 2 * core->in->margin_mm;
    if (core->in->stock_count == 0)
        return sw_fail(
            core->run, SW_NO_SOLUTION, (sw_place){0}, "stock",
            "there is no stock of %s for piece \"%s\" %.1f x %.1f mm; add a sheet of at least %.1f x %.1f mm",
            core->in->name, core->in->shapes[kind].name, t->width_mm, t->height_mm, t->width_mm + m, t->height_mm + m);
    sw_box u = largest_usable(core);
    return sw_fail(core->run, SW_NO_SOLUTION, (sw_place){0}, "stock",
                   "piece \"%s\" %.1f x %.1f mm fits no sheet of %s at any turn; largest usable %.1f x %.1f mm (sheet "
                   "less margins); a sheet of %.1f x %.1f mm would do",
                   core->in->shapes[kind].name, t->width_mm, t->height_mm, core->in->name, u.x1_mm - u.x0_mm,
                   u.y1_mm - u.y0_mm, t->width_mm + m, t->height_mm + m);
}

static sw_status check_sizes(nest_core *core)
{
    sw_status status = SW_OK;
    for (size_t i = 0; i < core->in->shape_count; i++)
        if (core->in->shapes[i].count > 0 && !fits_some_sheet(core, i)) status = too_large(core, i);
    return status;
}

/* ---- the steps ------------------------------------------------------------------------------------ */

sw_status nest_core_make(nest_core *core)
{
    core->pair_arena = sw_arena_open(pair_ceiling_bytes);
    if (core->pair_arena == NULL) return sw_fail(core->run, SW_NO_MEMORY, (sw_place){0}, "", "no memory to nest with");
    SW_TRY(nest_turned_make(core));
    SW_TRY(nest_sheets_make(core));
    SW_TRY(nest_claims_make(core));
    core->pairs = SW_SCRATCH(core->run, core->turned_count, nest_slot *);
    return core->pairs == NULL ? SW_NO_MEMORY : check_sizes(core);
}

void nest_core_close(nest_core *core)
{
    sw_arena_close(core->pair_arena);
    core->pair_arena = NULL;
}

static sw_status stock_ran_out(nest_core *core, const nest_plan *plan)
{
    double pieces = 0;
    for (size_t i = 0; i < core->in->shape_count; i++) pieces += (double)core->in->shapes[i].count;
    return sw_fail(core->run, SW_NO_SOLUTION, (sw_place){0}, "stock",
                   "the stock of %s runs out: %zu of %.0f pieces are left over; add sheets or nest a smaller batch",
                   core->in->name, plan->left_over, pieces);
}

static sw_status search(nest_core *core, const nest_plan **plan, bool *stopped)
{
    nest_bench *bench = SW_SCRATCH(core->run, 1, nest_bench);
    nest_way *way = SW_SCRATCH(core->run, 1, nest_way);
    nest_plan *best = SW_SCRATCH(core->run, 1, nest_plan);
    if (bench == NULL || way == NULL || best == NULL) return SW_NO_MEMORY;
    SW_TRY(nest_bench_make(core, bench));
    SW_TRY(nest_way_first(core, way));
    SW_TRY(nest_plan_make(core, bench, way, (nest_keep){NULL, NULL},
                          best)); /* an answer already: what follows may be stopped */
    SW_TRY(nest_improve(core, bench, way, best, stopped));
    *plan = best;
    return best->left_over > 0 ? stock_ran_out(core, best) : SW_OK;
}

static sw_status solve(nest_core *core, const sw_nest_result **result)
{
    double begun_s = sw_seconds();
    const nest_plan empty = {0}, *plan = &empty;
    sw_nest_result *made = NULL;
    bool stopped = false;
    SW_TRY(nest_check(core->run, core->in, core->opt));
    if (anything_to_place(core->in)) {
        SW_TRY(nest_core_make(core));
        SW_TRY(search(core, &plan, &stopped));
    }
    SW_TRY(nest_result_make(core, plan, &made));
    SW_TRY(sw_nest_verify(core->run, core->in, made));
    made->stopped = stopped;
    made->seconds = sw_seconds() - begun_s;
    *result = made;
    return SW_OK;
}

sw_status nest_solve_whole(sw_run *run, const sw_nest_input *in, const sw_nest_options *opt,
                           const sw_nest_result **result)
{
    *result = NULL;
    nest_core core = {.run = run, .in = in, .opt = opt, .stop_at_s = INFINITY};
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = solve(&core, result);
    sw_arena_rewind(run->scratch, mark);
    nest_core_close(&core);
    return status;
}

sw_status sw_nest_solve(sw_run *run, const sw_nest_input *in, const sw_nest_options *opt, const sw_nest_result **result)
{
    bool lots = in->lot > 0 && in->lot < in->stoves;
    return lots ? nest_solve_lots(run, in, opt, result) : nest_solve_whole(run, in, opt, result);
}
