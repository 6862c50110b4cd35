/* nest_strip.c: the shortest strip of a given width: tight fillings of holes first, then the constructive fill, then
 * what matches edge to edge (nest_jigsaw.c), then the search of nest_search.c. */
#include "making/nest/nest_fillings_parts.h"
#include "making/nest/nest_jigsaw_parts.h"
#include "making/nest/nest_search_parts.h"

#include <math.h>

static const sw_option table_rows[] = {
    SW_OPTION(sw_strip_options, budget_s, "s", 10.0, 0.0, 86400.0, "wall time", "ours"),
    SW_OPTION(sw_strip_options, rounds, "", 0.0, 0.0, 1e9, "rounds of the search instead of a time; 0 = by time",
              "ours"),
};
enum { TABLE_ROWS = sizeof table_rows / sizeof *table_rows };

static const double full_strip_spare = 1e-6; /* of the length: rounding. Ours */

typedef struct strip {
    sw_run *run;
    const sw_strip_input *given, *in; /* in: with its tight fillings joined */
    const sw_strip_options *opt;
    nest_fillings fillings;
    nest_core core;
    sw_nest_input nest_in; /* the same shapes as a nest on one long sheet */
    sw_nest_options nest_opt;
    sw_stock stock;
    const sw_stock *stocks[1];
    const nest_table *table;
    uint32_t *kind;       /* [count] */
    size_t count, pieces; /* of the search; of the strip as given */
    nest_state best;
    nest_cover cover; /* what matches edge to edge */
    double best_mm, area_mm2, begun_s;
    bool covered; /* best comes from that */
    uint64_t looks, rounds;
} strip;

const sw_option *sw_strip_option_table(size_t *count)
{
    *count = TABLE_ROWS;
    return table_rows;
}

sw_strip_options sw_strip_options_defaults(void)
{
    sw_strip_options options = {.seed = 1, .threads = 1, .made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(table_rows, TABLE_ROWS, &options);
    return options;
}

/* ---- set-up ------------------------------------------------------------------------------------------- */

/* How many fields the table will hold: pairs of kinds at each relative turn. */
static double fields_wanted(const sw_strip_input *in)
{
    double turns = 1, kinds = (double)in->shape_count;
    for (size_t i = 0; i < in->shape_count; i++) {
        double own = in->shapes[i].turns == SW_TURN_QUARTER ? 4 : in->shapes[i].turns == SW_TURN_HALF ? 2 : 1;
        turns = fmax(turns, own);
    }
    return turns * kinds * (kinds + 1) / 2;
}

/* Convex parts a piece may have so that all fields together join about a given number of sums of two parts. */
static double parts_most(const sw_strip_input *in)
{
    const double sums_most = 4e5, least = 24, most = 96; /* some seconds of GEOS. Ours */
    return fmin(most, fmax(least, sqrt(sums_most / fields_wanted(in))));
}

/* Cells along a field's longer side: fewer where the fields are many. */
static uint32_t grid_cells(const sw_strip_input *in)
{
    const double fields_most = 1500, least = 16, most = 40; /* some seconds, some 100 MB. Ours */
    return (uint32_t)fmin(most, fmax(least, most * sqrt(fields_most / fields_wanted(in))));
}

static sw_status fill_holes(strip *s)
{
    SW_TRY(nest_fillings_make(s->run, s->core.pair_arena, s->given, &s->fillings));
    s->in = &s->fillings.in;
    for (size_t i = 0; i < s->given->shape_count; i++) {
        const sw_nest_shape *shape = &s->given->shapes[i];
        s->area_mm2 += (double)shape->count * sw_region_area(&shape->region);
        s->pieces += shape->count;
    }
    return SW_OK;
}

static sw_status long_sheet(strip *s)
{
    double length_mm = 0;
    for (size_t i = 0; i < s->in->shape_count; i++) {
        const sw_nest_shape *shape = &s->in->shapes[i];
        sw_box box = sw_contour_box(shape->region.outline);
        length_mm += (double)shape->count * hypot(box.x1_mm - box.x0_mm, box.y1_mm - box.y0_mm);
        s->count += shape->count;
    }
    sw_region *region = &s->stock.shape;
    SW_TRY(sw_contour_rectangle(s->run, (sw_box){0, 0, length_mm, s->in->width_mm}, 0, &region->outline));
    s->stock.name = "strip";
    s->stock.length_mm = length_mm;
    s->stock.width_mm = s->in->width_mm;
    s->stock.count = 1;
    s->stocks[0] = &s->stock;
    s->nest_in = (sw_nest_input){.name = s->in->name,
                                 .shapes = s->in->shapes,
                                 .shape_count = s->in->shape_count,
                                 .stock = s->stocks,
                                 .stock_count = 1};
    s->nest_opt = sw_nest_options_defaults();
    s->nest_opt.budget_s = 0;
    s->nest_opt.exactness_mm = 0.01;
    s->nest_opt.pocket_share = 0;
    s->nest_opt.parts_most = parts_most(s->in);
    return SW_OK;
}

static uint32_t turned_of(const nest_core *core, const sw_nest_place *place)
{
    const nest_kind *kind = &core->kinds[place->shape];
    size_t best = kind->first;
    double least = INFINITY;
    for (size_t i = kind->first; i < kind->first + kind->count; i++) {
        double d = fabs(remainder(core->turned[i].turn_rad - place->motion.turn_rad, 2 * SW_PI));
        if (core->turned[i].mirror != place->motion.mirror || d >= least) continue;
        least = d;
        best = i;
    }
    return (uint32_t)best;
}

static sw_status first_answer(strip *s)
{
    const sw_nest_result *first = NULL;
    SW_TRY(sw_nest_solve(s->run, &s->nest_in, &s->nest_opt, &first));
    SW_TRY(nest_state_make(s->run, s->count, &s->best));
    s->kind = SW_SCRATCH(s->run, s->count, uint32_t);
    if (s->kind == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->count; i++) {
        const sw_nest_place *place = &first->sheets[0].places[i];
        s->kind[i] = (uint32_t)place->shape;
        s->best.turned[i] = turned_of(&s->core, place);
        s->best.x_mm[i] = place->motion.dx_mm;
        s->best.y_mm[i] = place->motion.dy_mm;
    }
    return SW_OK;
}

static sw_status make_core(strip *s)
{
    s->core.run = s->run;
    s->core.in = &s->nest_in;
    s->core.opt = &s->nest_opt;
    s->core.stop_at_s = INFINITY;
    SW_TRY(nest_check(s->run, &s->nest_in, &s->nest_opt));
    SW_TRY(nest_turned_make(&s->core));
    s->core.pairs = SW_SCRATCH(s->run, s->core.turned_count, nest_slot *);
    return s->core.pairs == NULL ? SW_NO_MEMORY : SW_OK;
}

static double reach_of(const strip *s, const nest_state *state)
{
    double reach_mm = 0;
    for (size_t i = 0; i < s->count; i++) {
        const nest_turned *t = &s->core.turned[state->turned[i]];
        reach_mm = fmax(reach_mm, state->x_mm[i] + t->base.x_mm + t->width_mm);
    }
    return reach_mm;
}

static sw_status keep_result(strip *s, const sw_strip_result **result)
{
    sw_strip_result *made = SW_KEEP(s->run, 1, sw_strip_result);
    sw_nest_place *all = SW_KEEP(s->run, s->pieces, sw_nest_place);
    sw_nest_place *places = SW_SCRATCH(s->run, s->count, sw_nest_place);
    if (made == NULL || all == NULL || places == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->count; i++) {
        const nest_turned *t = &s->core.turned[s->best.turned[i]];
        places[i] = (sw_nest_place){s->kind[i], {t->turn_rad, s->best.x_mm[i], s->best.y_mm[i], t->mirror}};
    }
    SW_TRY(nest_fillings_expand(s->run, s->given, &s->fillings, places, s->count, all));
    made->looks = s->looks;
    made->places = all;
    made->place_count = s->pieces;
    made->length_mm = s->best_mm;
    made->density = s->area_mm2 / (s->in->width_mm * s->best_mm);
    made->rounds = s->rounds;
    made->seconds = sw_seconds() - s->begun_s;
    *result = made;
    return sw_strip_verify(s->run, s->given, made);
}

/* ---- edge to edge ------------------------------------------------------------------------------------- */

/* Steps of some 13 ns: 2 % of the time; by rounds as if each took a tenth of a second, but at least 0.2 s. Ours. */
static uint64_t steps_for_cover(const sw_strip_options *opt)
{
    const double steps_per_s = 1.5e6, least = 1.5e7, most = 9e7;
    if (opt->rounds <= 0) return (uint64_t)(steps_per_s * opt->budget_s);
    return (uint64_t)fmin(most, fmax(least, steps_per_s * opt->rounds / 10));
}

static sw_status cover(strip *s)
{
    const nest_jigsaw jigsaw = {.run = s->run,
                                .core = &s->core,
                                .kind = s->kind,
                                .count = s->count,
                                .width_mm = s->in->width_mm,
                                .seed = s->opt->seed,
                                .work_most = steps_for_cover(s->opt)};
    return nest_jigsaw_cover(&jigsaw, &s->cover);
}

static bool is_full_strip(const strip *s)
{
    return s->best_mm <= s->area_mm2 / s->in->width_mm * (1 + full_strip_spare);
}

/* A full cover that the verifier accepts as it is; *result NULL: none, or it may be made shorter yet. */
static sw_status take_cover(strip *s, const sw_strip_result **result)
{
    nest_state first = s->best;
    size_t errors = s->run->error_count;
    double first_mm = s->best_mm;
    if (s->cover.laid_count < s->count) return SW_OK;
    s->best = s->cover.state;
    s->best_mm = fmax(reach_of(s, &s->best), s->area_mm2 / s->in->width_mm);
    sw_status status = keep_result(s, result);
    s->covered = status == SW_OK;
    if (s->covered && is_full_strip(s)) return SW_OK;
    *result = NULL;
    if (status != SW_INTERNAL) return status;
    s->run->error_count = errors; /* outlines rounded too much for that: they are pulled apart */
    s->best = first;
    s->best_mm = first_mm;
    return SW_OK;
}

/* Any other starts the search if it is worth that. */
static sw_status start_from_cover(strip *s)
{
    const double area_least = 0.7, time_share = 0.2; /* of all pieces' area; of the time. Ours */
    double length_mm = 0;
    nest_state settled;
    if (s->covered || s->cover.area_mm2 < area_least * s->area_mm2) return SW_OK;
    const nest_settling settling = {.run = s->run,
                                    .table = s->table,
                                    .kind = s->kind,
                                    .count = s->count,
                                    .width_mm = s->in->width_mm,
                                    .area_mm2 = s->area_mm2,
                                    .until_s = s->opt->rounds > 0 ? (double)INFINITY
                                                                  : sw_seconds() + time_share * s->opt->budget_s,
                                    .seed = s->opt->seed};
    SW_TRY(nest_state_make(s->run, s->count, &settled));
    SW_TRY(nest_jigsaw_settle(&settling, &s->cover, &settled, &length_mm));
    if (length_mm >= s->best_mm) return SW_OK;
    s->best = settled;
    s->best_mm = length_mm;
    s->covered = true;
    return SW_OK;
}

static sw_status search(strip *s)
{
    nest_search search = {.run = s->run,
                          .name = s->in->name,
                          .table = s->table,
                          .kind = s->kind,
                          .count = s->count,
                          .width_mm = s->in->width_mm,
                          .area_mm2 = s->area_mm2,
                          .workers = s->opt->threads < 1 ? 1 : (size_t)s->opt->threads,
                          .seed = s->opt->seed,
                          .rounds = (uint64_t)s->opt->rounds,
                          .begun_s = s->begun_s,
                          .until_s = s->begun_s + s->opt->budget_s,
                          .best = s->best,
                          .best_mm = s->best_mm,
                          .best_counts = s->covered};
    SW_TRY(nest_search_run(&search));
    s->best_mm = search.best_mm;
    s->looks = search.looks;
    s->rounds = search.round;
    return SW_OK;
}

static sw_status steps(strip *s, const sw_strip_result **result)
{
    SW_TRY(fill_holes(s));
    SW_TRY(long_sheet(s));
    SW_TRY(make_core(s));
    SW_TRY(first_answer(s));
    s->best_mm = reach_of(s, &s->best);
    SW_TRY(cover(s));
    SW_TRY(take_cover(s, result));
    if (*result != NULL) return SW_OK;
    s->core.stop_at_s = s->opt->rounds > 0 ? (double)INFINITY : s->begun_s + s->opt->budget_s;
    sw_status status = nest_table_make(&s->core, grid_cells(s->in), &s->table);
    if (status == SW_CANCELLED) return keep_result(s, result); /* the first answer is all there is time for */
    if (status != SW_OK) return status;
    SW_TRY(start_from_cover(s));
    SW_TRY(search(s));
    return keep_result(s, result);
}

sw_status sw_strip_solve(sw_run *run, const sw_strip_input *in, const sw_strip_options *opt,
                         const sw_strip_result **result)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    *result = NULL;
    SW_TRY(sw_options_check(run, table_rows, TABLE_ROWS, opt));
    if (!(in->width_mm > 0))
        return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "width_mm", "%g is no strip width; more than 0 is wanted",
                       in->width_mm);
    strip s = {.run = run, .given = in, .opt = opt, .begun_s = sw_seconds()};
    s.core.pair_arena = sw_arena_open((size_t)1 << 30);
    if (s.core.pair_arena == NULL) return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "no memory to nest with");
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = steps(&s, result);
    sw_arena_rewind(run->scratch, mark);
    sw_arena_close(s.core.pair_arena);
    return status;
}

sw_status sw_strip_verify(sw_run *run, const sw_strip_input *in, const sw_strip_result *result)
{
    sw_stock stock = {.name = "strip", .length_mm = result->length_mm, .width_mm = in->width_mm, .count = 1};
    SW_TRY(sw_contour_rectangle(run, (sw_box){0, 0, result->length_mm, in->width_mm}, 0, &stock.shape.outline));
    const sw_stock *stocks[] = {&stock};
    const sw_nest_input nest_in = {
        .name = in->name, .shapes = in->shapes, .shape_count = in->shape_count, .stock = stocks, .stock_count = 1};
    const sw_nest_sheet sheet = {
        .stock = &stock, .places = result->places, .place_count = result->place_count, .repeat = 1};
    const sw_nest_result nest = {.sheets = &sheet, .sheet_count = 1, .sheets_total = 1};
    return sw_nest_verify(run, &nest_in, &nest);
}
