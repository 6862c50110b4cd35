/* nest_pack_join.c: many sheets pulled apart together: they stand side by side in one crowd, so that pieces that
 * overlap may go to any of them, and the room left here and there is brought together. */
#include "making/nest/nest_pack_parts.h"

enum { PASSES = 60, LOOSE_PASSES = 150, FIRST_MOVES = 2, JOINED_MOST = 500 };

static const double chance = 0.3; /* by which the order of sheets varies, so that others come together. Ours */

typedef struct joint { /* pieces of all open sheets, those without a place, then the blocks */
    nest_crowd *crowd;
    nest_bin *bins;
    uint32_t *open; /* [bin_count] sheets */
    size_t bin_count;
    uint32_t *piece, *kind; /* [count] */
    size_t count, pieces, settled;
    nest_state start, best;
} joint;

static sw_box usable_of(const nest_packer *w, uint32_t sheet)
{
    return w->pack->core->sheets[w->now.stock[sheet]].usable;
}

/* Pieces never reach further than their box and the web. */
static double gap_of(const nest_pack *pack)
{
    return 4 * (pack->core->in->web_mm + pack->core->opt->exactness_mm) + 1;
}

static double room_of(const nest_packer *w, uint32_t sheet)
{
    return w->pack->core->sheets[w->now.stock[sheet]].room_mm2 - w->now.claim_mm2[sheet];
}

static size_t pieces_on(const nest_packer *w, uint32_t sheet)
{
    size_t n = 0;
    for (size_t i = 0; i < w->now.count; i++) n += w->now.sheet[i] == sheet;
    return n;
}

/* The sheet being cut first, then those with most room, more or less. */
static size_t order_sheets(nest_packer *w, uint32_t cut, double *room, uint32_t *order)
{
    size_t n = 0;
    for (uint32_t s = 0; s < w->now.sheet_count; s++)
        room[s] = s == cut ? (double)INFINITY : room_of(w, s) * sw_random_between(&w->random, 1 - chance, 1 + chance);
    for (uint32_t s = 0; s < w->now.sheet_count; s++) {
        if (w->closed[s]) continue;
        size_t k = n++;
        for (; k > 0 && room[order[k - 1]] < room[s]; k--) order[k] = order[k - 1];
        order[k] = s;
    }
    return n;
}

static void add_bin(const nest_packer *w, joint *j, uint32_t sheet, double most_mm)
{
    const nest_bin *last = j->bin_count == 0 ? NULL : &j->bins[j->bin_count - 1];
    double x0_mm = last == NULL ? 0 : last->x1_mm + gap_of(w->pack);
    sw_box u = usable_of(w, sheet);
    j->bins[j->bin_count] = (nest_bin){x0_mm, x0_mm + fmin(u.x1_mm - u.x0_mm, most_mm), u.y1_mm - u.y0_mm};
    j->open[j->bin_count++] = sheet;
}

/* As many sheets as a crowd of bearable size holds. */
static sw_status lay_out_bins(nest_packer *w, uint32_t cut, double cut_mm, joint *j)
{
    size_t pieces = w->loose_count;
    uint32_t *order = SW_SCRATCH(&w->run, w->now.sheet_count, uint32_t);
    j->bins = SW_SCRATCH(&w->run, w->now.sheet_count, nest_bin);
    j->open = SW_SCRATCH(&w->run, w->now.sheet_count, uint32_t);
    double *room = SW_SCRATCH(&w->run, w->now.sheet_count, double);
    if (order == NULL || room == NULL || j->bins == NULL || j->open == NULL) return SW_NO_MEMORY;
    size_t sheets = order_sheets(w, cut, room, order);
    for (size_t i = 0; i < sheets; i++) {
        pieces += pieces_on(w, order[i]);
        if (pieces > JOINED_MOST && j->bin_count > 1) break;
        add_bin(w, j, order[i], order[i] == cut ? cut_mm : (double)INFINITY);
    }
    return SW_OK;
}

static void add_piece(const nest_packer *w, joint *j, uint32_t piece, double x0_mm)
{
    j->piece[j->pieces] = piece;
    j->kind[j->pieces] = w->now.kind[piece];
    j->start.turned[j->pieces] = w->now.state.turned[piece];
    j->start.x_mm[j->pieces] = w->now.state.x_mm[piece] + x0_mm;
    j->start.y_mm[j->pieces++] = w->now.state.y_mm[piece];
}

/* Pieces of the bins that fit into them, or those that are too long for what is left of one. */
static void add_settled(const nest_packer *w, joint *j, bool fitting)
{
    for (size_t b = 0; b < j->bin_count; b++)
        for (size_t i = 0; i < w->now.count; i++) {
            double long_mm = w->pack->own.turned[w->now.state.turned[i]].width_mm;
            bool fits = long_mm <= j->bins[b].x1_mm - j->bins[b].x0_mm + NEST_TOUCH_MM;
            if (w->now.sheet[i] == j->open[b] && fits == fitting) add_piece(w, j, (uint32_t)i, j->bins[b].x0_mm);
        }
}

static void add_blocks(const nest_packer *w, joint *j)
{
    j->count = j->pieces;
    for (size_t b = 0; b < j->bin_count; b++) {
        uint32_t stock = w->now.stock[j->open[b]];
        size_t kind = w->pack->core->in->shape_count + stock;
        if (w->pack->core->sheets[stock].block == SIZE_MAX) continue;
        j->kind[j->count] = (uint32_t)kind;
        j->start.turned[j->count] = (uint32_t)w->pack->own.kinds[kind].first;
        j->start.x_mm[j->count++] = j->bins[b].x0_mm;
    }
}

static sw_status gather(nest_packer *w, joint *j)
{
    size_t room = w->now.count + w->now.sheet_count;
    j->piece = SW_SCRATCH(&w->run, room, uint32_t);
    j->kind = SW_SCRATCH(&w->run, room, uint32_t);
    if (j->piece == NULL || j->kind == NULL) return SW_NO_MEMORY;
    SW_TRY(nest_state_make(&w->run, room, &j->start));
    SW_TRY(nest_state_make(&w->run, room, &j->best));
    add_settled(w, j, true);
    j->settled = j->pieces;
    add_settled(w, j, false);
    for (size_t i = 0; i < w->loose_count; i++) add_piece(w, j, w->loose[i], 0);
    add_blocks(w, j);
    return SW_OK;
}

static sw_status make_crowd(nest_packer *w, joint *j)
{
    double width_mm = 0;
    for (size_t b = 0; b < j->bin_count; b++) width_mm = fmax(width_mm, j->bins[b].height_mm);
    SW_TRY(nest_crowd_make(&w->run, nest_table_of(w->pack->work), j->kind, j->count, width_mm, &j->crowd));
    j->crowd->fixed = j->count - j->pieces;
    j->crowd->bins = j->bins;
    j->crowd->bin_count = j->bin_count;
    j->crowd->random = sw_random_seeded(sw_random_next(&w->random));
    return SW_OK;
}

/* A bin that holds the piece at some turn, the first from a random one on; false = there is none. */
static bool choose_bin(nest_packer *w, joint *j, size_t i, const nest_bin **bin)
{
    size_t first = sw_random_below(&j->crowd->random, j->bin_count);
    for (size_t k = 0; k < j->bin_count; k++) {
        *bin = &j->bins[(first + k) % j->bin_count];
        double long_mm = (*bin)->x1_mm - (*bin)->x0_mm;
        if (nest_pack_turn_to_fit(w, j->kind[i], long_mm, (*bin)->height_mm, &j->start.turned[i])) return true;
    }
    return false;
}

/* Those without a place start at random and look for where they overlap least, one after the other. */
static bool put_in(nest_packer *w, joint *j)
{
    nest_crowd *c = j->crowd;
    double length_mm = j->bins[j->bin_count - 1].x1_mm;
    for (size_t i = j->settled; i < j->pieces; i++) {
        const nest_bin *b = NULL;
        if (!choose_bin(w, j, i, &b)) return false;
        const nest_turned *t = &w->pack->own.turned[j->start.turned[i]];
        j->start.x_mm[i] = b->x0_mm - t->base.x_mm + sw_random_unit(&c->random) * (b->x1_mm - b->x0_mm - t->width_mm);
        j->start.y_mm[i] = sw_random_unit(&c->random) * b->height_mm;
    }
    nest_crowd_set(c, &j->start, length_mm);
    nest_crowd_forget(c);
    for (int k = 0; k < FIRST_MOVES; k++)
        for (size_t i = j->settled; i < j->pieces; i++) nest_crowd_move(c, i);
    return true;
}

static size_t bin_of(const nest_packer *w, const joint *j, size_t i)
{
    const nest_turned *t = &w->pack->own.turned[j->best.turned[i]];
    double middle_mm = j->best.x_mm[i] + t->base.x_mm + t->width_mm / 2;
    size_t b = 0;
    while (b + 1 < j->bin_count && j->bins[b + 1].x0_mm <= middle_mm) b++;
    return b;
}

static bool is_inside(const nest_turned *t, const nest_bin *b, double x_mm, double y_mm)
{
    double low_x_mm = x_mm + t->base.x_mm, low_y_mm = y_mm + t->base.y_mm;
    return low_x_mm >= b->x0_mm - NEST_TOUCH_MM && low_x_mm + t->width_mm <= b->x1_mm + NEST_TOUCH_MM &&
           low_y_mm >= -NEST_TOUCH_MM && low_y_mm + t->height_mm <= b->height_mm + NEST_TOUCH_MM;
}

/* A piece that never fitted where it was put sticks out. */
static bool all_inside(const nest_packer *w, const joint *j)
{
    for (size_t i = 0; i < j->pieces; i++)
        if (!is_inside(&w->pack->own.turned[j->best.turned[i]], &j->bins[bin_of(w, j, i)], j->best.x_mm[i],
                       j->best.y_mm[i]))
            return false;
    return true;
}

static void take_over(nest_packer *w, const joint *j)
{
    for (size_t i = 0; i < j->pieces; i++) {
        size_t b = bin_of(w, j, i);
        w->now.sheet[j->piece[i]] = j->open[b];
        w->now.state.turned[j->piece[i]] = j->best.turned[i];
        w->now.state.x_mm[j->piece[i]] = j->best.x_mm[i] - j->bins[b].x0_mm;
        w->now.state.y_mm[j->piece[i]] = j->best.y_mm[i];
    }
    w->loose_count = 0;
}

static sw_status prepare(nest_packer *w, uint32_t cut, double cut_mm, joint *j)
{
    SW_TRY(lay_out_bins(w, cut, cut_mm, j));
    SW_TRY(gather(w, j));
    return j->bin_count == 0 ? SW_OUT_OF_RANGE : make_crowd(w, j);
}

static bool join(nest_packer *w, uint32_t cut, double cut_mm)
{
    joint j = {.count = 0};
    sw_status status = prepare(w, cut, cut_mm, &j);
    if (status == SW_NO_MEMORY) w->status = status;
    if (status != SW_OK || !nest_pack_kinds_ready(w, j.kind, j.count)) return false;
    if (!put_in(w, &j)) return false;
    bool cutting = cut != NEST_LOOSE; /* a failed cut is followed by a lesser one */
    const nest_patience patience = {cutting ? PASSES : LOOSE_PASSES, cutting ? 1 : 2, w->until_s, &w->run};
    double overlap_mm = 0;
    bool won = nest_separate(j.crowd, &patience, &j.best, &overlap_mm) && all_inside(w, &j);
    w->looks += j.crowd->looks;
    if (won) take_over(w, &j);
    return won;
}

bool nest_pack_join(nest_packer *w, uint32_t cut, double cut_mm)
{
    size_t mark = sw_arena_mark(w->run.scratch);
    bool won = join(w, cut, cut_mm);
    sw_arena_rewind(w->run.scratch, mark);
    return won;
}
