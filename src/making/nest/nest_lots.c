/* nest_lots.c: sheets cut lot by lot, so that the stoves of a lot can leave while later ones are cut. Each lot is a nest
 * of its own; the emptiest sheet of the lots before is offered to it as a sheet already begun and paid for, whose
 * pieces stay. First every lot gets its first answer; then, with time to improve, all are made anew, and the cheaper
 * answer counts. */
#include "making/nest/nest_parts.h"

#include <math.h>
#include <string.h>

typedef struct lots {
    sw_run *run;
    const sw_nest_input *in;
    sw_nest_options opt;    /* of one lot */
    sw_nest_shape *shapes;  /* [shape_count] counts of the lot */
    sw_stock *stock;        /* [stock_count + 1] what is left; the last the begun sheet */
    size_t *left;           /* [stock_count] SIZE_MAX = endless */
    const sw_stock **offer; /* [stock_count + 1] those there are */
    sw_nest_sheet *sheets;  /* growing */
    size_t sheet_count, sheet_room;
    size_t begun; /* in sheets, SIZE_MAX = none */
    uint64_t tests;
    double bound_mm2;
    bool stopped;
} lots;

static sw_status make_room(lots *l)
{
    size_t shapes = l->in->shape_count, stock = l->in->stock_count;
    l->shapes = SW_SCRATCH(l->run, shapes, sw_nest_shape);
    l->stock = SW_SCRATCH(l->run, stock + 1, sw_stock);
    l->left = SW_SCRATCH(l->run, stock, size_t);
    l->offer = SW_SCRATCH(l->run, stock + 1, const sw_stock *);
    if (l->shapes == NULL || l->stock == NULL || l->left == NULL || l->offer == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < shapes; i++) l->shapes[i] = l->in->shapes[i];
    for (size_t i = 0; i < stock; i++) {
        const sw_stock *s = l->in->stock[i];
        l->stock[i] = *s;
        l->left[i] = s->count == 0 && !s->remnant ? SIZE_MAX : s->count;
    }
    return SW_OK;
}

/* ---- one lot ------------------------------------------------------------------------------------------ */

/* The begun sheet first; its price is paid. Sizes used up are left out: a count of 0 would mean endless. */
static void offer_stock(lots *l, sw_nest_input *in)
{
    size_t n = 0;
    in->begun_count = 0;
    if (l->begun != SIZE_MAX) {
        const sw_nest_sheet *begun = &l->sheets[l->begun];
        sw_stock *own = &l->stock[l->in->stock_count];
        *own = *begun->stock;
        own->remnant = true;
        own->count = 1;
        own->price = 0;
        in->begun_stock = n;
        in->begun = begun->places;
        in->begun_count = begun->place_count;
        l->offer[n++] = own;
    }
    for (size_t i = 0; i < l->in->stock_count; i++) {
        if (l->left[i] == 0) continue;
        if (l->left[i] != SIZE_MAX) l->stock[i].count = l->left[i];
        l->offer[n++] = &l->stock[i];
    }
    in->stock = l->offer;
    in->stock_count = n;
}

/* The sheet that goes on being filled: its places are joined. */
static sw_status add_to_begun(lots *l, const sw_nest_sheet *more)
{
    sw_nest_sheet *begun = &l->sheets[l->begun];
    size_t n = begun->place_count + more->place_count;
    sw_nest_place *places = SW_KEEP(l->run, n, sw_nest_place);
    if (places == NULL) return SW_NO_MEMORY;
    memcpy(places, begun->places, begun->place_count * sizeof *places);
    memcpy(places + begun->place_count, more->places, more->place_count * sizeof *places);
    begun->places = places;
    begun->place_count = n;
    return SW_OK;
}

static sw_status add_sheet(lots *l, const sw_nest_sheet *made, size_t repeat, size_t lot)
{
    size_t index = (size_t)(made->stock - l->stock);
    NEST_MAKE_ROOM(l->run, l->sheets, l->sheet_count, l->sheet_room, 1);
    sw_nest_sheet *sheet = &l->sheets[l->sheet_count++];
    *sheet = *made;
    sheet->stock = l->in->stock[index];
    sheet->repeat = repeat;
    sheet->lot = lot;
    sheet->completes = 0;
    if (l->left[index] != SIZE_MAX) l->left[index] -= repeat;
    return SW_OK;
}

static size_t emptiest(const sw_nest_result *r, const sw_stock *but)
{
    size_t best = SIZE_MAX;
    for (size_t i = 0; i < r->sheet_count; i++) {
        if (r->sheets[i].stock == but) continue;
        if (best == SIZE_MAX || r->sheets[i].density <= r->sheets[best].density) best = i;
    }
    return best;
}

/* Full sheets first, the emptiest last: that one is begun for the next lot. */
static sw_status take_over(lots *l, const sw_nest_result *r, size_t lot)
{
    const sw_stock *begun = &l->stock[l->in->stock_count];
    size_t last = emptiest(r, begun);
    for (size_t i = 0; i < r->sheet_count; i++) {
        const sw_nest_sheet *s = &r->sheets[i];
        if (s->stock == begun) SW_TRY(add_to_begun(l, s));
        size_t repeat = s->repeat - (i == last ? 1 : 0);
        if (s->stock != begun && repeat > 0) SW_TRY(add_sheet(l, s, repeat, lot));
    }
    if (last != SIZE_MAX) {
        SW_TRY(add_sheet(l, &r->sheets[last], 1, lot));
        l->begun = l->sheet_count - 1;
    }
    l->sheets[l->sheet_count - 1].completes = lot; /* all sheets before it are cut by then */
    l->tests += r->tests;
    l->stopped = l->stopped || r->stopped;
    return SW_OK;
}

static sw_status solve_lot(lots *l, size_t lot, size_t stoves)
{
    sw_nest_input in = *l->in;
    const sw_nest_result *r = NULL;
    for (size_t i = 0; i < in.shape_count; i++) l->shapes[i].count = l->in->shapes[i].count / l->in->stoves * stoves;
    in.shapes = l->shapes;
    in.lot = in.stoves = 0;
    offer_stock(l, &in);
    SW_TRY(nest_solve_whole(l->run, &in, &l->opt, &r));
    return r->sheet_count == 0 ? SW_OK : take_over(l, r, lot);
}

/* ---- all lots -------------------------------------------------------------------------------------------- */

static sw_status bound_of(lots *l)
{
    nest_core core = {.run = l->run, .in = l->in, .opt = &l->opt, .stop_at_s = INFINITY};
    sw_status status = nest_core_make(&core);
    if (status == SW_OK) l->bound_mm2 = nest_bound_area(&core);
    nest_core_close(&core);
    return status;
}

static sw_status finish(lots *l, sw_nest_result **result)
{
    sw_nest_result *r = SW_KEEP(l->run, 1, sw_nest_result);
    sw_nest_sheet *sheets = SW_KEEP(l->run, l->sheet_count, sw_nest_sheet);
    if (r == NULL || sheets == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < l->sheet_count; i++) sheets[i] = l->sheets[i];
    SW_TRY(nest_remnants_keep(l->run, l->in, sheets, l->sheet_count, r));
    SW_TRY(bound_of(l));
    if (r->piece_area_mm2 > 0) r->bound_density = r->piece_area_mm2 / l->bound_mm2;
    r->tests = l->tests;
    r->stopped = l->stopped;
    *result = r;
    return sw_nest_verify(l->run, l->in, r);
}

/* Until until_s, shared equally by the lots still to come. */
static sw_status all_lots(sw_run *run, const sw_nest_input *in, const sw_nest_options *opt, double until_s,
                          sw_nest_result **result)
{
    size_t count = (in->stoves + in->lot - 1) / in->lot;
    lots l = {.run = run, .in = in, .opt = *opt, .begun = SIZE_MAX};
    SW_TRY(make_room(&l));
    for (size_t k = 0; k < count; k++) {
        size_t before = k * in->lot, rest = in->stoves - before;
        l.opt.budget_s = fmax(until_s - sw_seconds(), 0) / (double)(count - k);
        SW_TRY(solve_lot(&l, k + 1, rest < in->lot ? rest : in->lot));
    }
    return finish(&l, result);
}

static sw_status steps(sw_run *run, const sw_nest_input *in, const sw_nest_options *opt, const sw_nest_result **result)
{
    sw_nest_result *first = NULL, *better = NULL;
    double begun_s = sw_seconds();
    SW_TRY(nest_check(run, in, opt));
    SW_TRY(all_lots(run, in, opt, 0, &first));
    *result = first;
    size_t errors = run->error_count;
    sw_status status = opt->budget_s > 0 ? all_lots(run, in, opt, sw_seconds() + opt->budget_s, &better) : SW_OK;
    if (status == SW_CANCELLED || status == SW_NO_SOLUTION) {
        run->error_count = errors; /* there is an answer already */
        first->stopped = status == SW_CANCELLED;
        status = SW_OK;
    }
    if (better != NULL && better->cost < first->cost) *result = first = better;
    first->seconds = sw_seconds() - begun_s;
    return status;
}

sw_status nest_solve_lots(sw_run *run, const sw_nest_input *in, const sw_nest_options *opt,
                          const sw_nest_result **result)
{
    *result = NULL;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = steps(run, in, opt, result);
    sw_arena_rewind(run->scratch, mark);
    if (status != SW_OK) *result = NULL;
    return status;
}
