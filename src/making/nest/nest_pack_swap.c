/* nest_pack_swap.c: a piece of the sheet being emptied changes places with one or two smaller ones of another sheet, which
 * so holds more. What comes out goes into gaps elsewhere or, where there are none, onto the sheet being emptied: its load
 * shrinks with every change, and everything stays legal. Ejection of smaller pieces until all find a place is known from
 * vehicle routing (Nagata & Braysy 2009, from memory); the score of a change is ours. */
#include "making/nest/nest_pack_parts.h"

#include <string.h>

enum { VAIN_MOST = 40, HOST_VAIN = 12, BACK_PASSES = 20, IN_PASSES = 25, LOOKS_MOST = 60000 };

static const double fullest = 0.985;     /* claims' share of a room beyond which no change is tried. Ours */
static const double least_gain = -0.004; /* of the room, taken over by a change: some lead sideways. Ours */
static const double worth = 0.6;         /* of a gain against fullness. Ours */
static const double nothing_mm2 = 0.5;   /* a sheet that holds less is empty: rounding */
static const double per_try = 0.04, jitter = 0.08, second_share = 0.3; /* Ours */

typedef struct change {
    uint32_t in, sheet, out[2];
    size_t out_count, key;
    double score;
} change;

typedef struct changes { /* while the best is looked for */
    nest_packer *w;
    uint32_t from;
    size_t kinds;
    double chance;            /* of a second piece being looked for beside a first */
    uint32_t *first, *second; /* [sheet_count*kinds] two pieces of the kind on the sheet, NEST_LOOSE = none */
    change best;
} changes;

static double claim_of(const nest_packer *w, uint32_t piece)
{
    return w->pack->own.kinds[w->now.kind[piece]].claim_mm2;
}

static double room_of(const nest_packer *w, uint32_t sheet)
{
    return w->pack->core->sheets[w->now.stock[sheet]].room_mm2;
}

static size_t key_of(const nest_packer *w, const change *c)
{
    size_t kinds = w->pack->core->in->shape_count + 1, key = w->now.kind[c->in];
    key = key * w->pack->sheet_room + c->sheet;
    for (size_t i = 0; i < 2; i++) key = key * kinds + (i < c->out_count ? w->now.kind[c->out[i]] + 1 : 0);
    return (size_t)((key * 0x9E3779B97F4A7C15u + w->version[c->sheet] * 0xC2B2AE3D27D4EB4Fu) >> 40) % NEST_SWAPS;
}

static void consider(changes *all, change c)
{
    nest_packer *w = all->w;
    double room_mm2 = room_of(w, c.sheet), gain_mm2 = claim_of(w, c.in);
    for (size_t i = 0; i < c.out_count; i++) gain_mm2 -= claim_of(w, c.out[i]);
    if (gain_mm2 < least_gain * room_mm2 || w->now.claim_mm2[c.sheet] + gain_mm2 > fullest * room_mm2) return;
    c.key = key_of(w, &c);
    double full = (w->now.claim_mm2[c.sheet] + gain_mm2) / room_mm2;
    c.score = full - worth * gain_mm2 / room_mm2 + per_try * w->swaps[c.key] + jitter * sw_random_unit(&w->random);
    if (c.score < all->best.score) all->best = c;
}

/* All pairs of the sheet's pieces that may come out for one piece. */
static void consider_sheet(changes *all, uint32_t in, uint32_t sheet)
{
    nest_packer *w = all->w;
    const uint32_t *first = all->first + sheet * all->kinds, *second = all->second + sheet * all->kinds;
    consider(all, (change){.in = in, .sheet = sheet});
    for (size_t a = 0; a < all->kinds; a++) {
        if (first[a] == NEST_LOOSE || w->now.kind[first[a]] == w->now.kind[in]) continue;
        if (!nest_fits_box(&w->pack->own, a, w->now.stock[all->from])) continue;
        consider(all, (change){.in = in, .sheet = sheet, .out = {first[a]}, .out_count = 1});
        if (sw_random_unit(&w->random) > all->chance) continue;
        for (size_t b = a; b < all->kinds; b++) {
            uint32_t other = a == b ? second[a] : first[b];
            if (other == NEST_LOOSE || !nest_fits_box(&w->pack->own, b, w->now.stock[all->from])) continue;
            consider(all, (change){.in = in, .sheet = sheet, .out = {first[a], other}, .out_count = 2});
        }
    }
}

/* Two pieces of every kind on every sheet, any of them with the same chance for the first. */
static void note_pieces(changes *all, uint32_t *seen)
{
    nest_packer *w = all->w;
    memset(all->first, 0xff, w->now.sheet_count * all->kinds * sizeof *all->first);
    memset(all->second, 0xff, w->now.sheet_count * all->kinds * sizeof *all->second);
    for (size_t i = 0; i < w->now.count; i++) {
        if (w->now.sheet[i] == NEST_LOOSE) continue;
        size_t at = w->now.sheet[i] * all->kinds + w->now.kind[i];
        bool takes = sw_random_below(&w->random, ++seen[at]) == 0;
        if (takes) all->second[at] = all->first[at];
        *(takes ? &all->first[at] : &all->second[at]) = (uint32_t)i;
    }
}

static sw_status choose(nest_packer *w, uint32_t from, change *chosen)
{
    changes all = {.w = w, .from = from, .kinds = w->pack->core->in->shape_count, .best = {.score = INFINITY}};
    size_t room = w->now.sheet_count * all.kinds;
    all.chance = fmin(second_share, LOOKS_MOST / (double)(room * all.kinds * all.kinds));
    all.first = SW_SCRATCH(&w->run, room, uint32_t);
    all.second = SW_SCRATCH(&w->run, room, uint32_t);
    uint32_t *seen = SW_SCRATCH(&w->run, room, uint32_t);
    if (all.first == NULL || all.second == NULL || seen == NULL) return SW_NO_MEMORY;
    note_pieces(&all, seen);
    for (size_t k = 0; k < all.kinds; k++) {
        uint32_t in = all.first[from * all.kinds + k];
        for (uint32_t s = 0; s < w->now.sheet_count && in != NEST_LOOSE; s++)
            if (s != from && nest_pack_may_hold(w, s, in)) consider_sheet(&all, in, s);
    }
    *chosen = all.best;
    return SW_OK;
}

/* ---- making the change --------------------------------------------------------------------------------- */

static sw_point corner_of(const nest_packer *w, uint32_t piece)
{
    const nest_turned *t = &w->pack->own.turned[w->now.state.turned[piece]];
    return (sw_point){w->now.state.x_mm[piece] + t->base.x_mm, w->now.state.y_mm[piece] + t->base.y_mm};
}

static void put_corner(nest_packer *w, uint32_t piece, sw_point at)
{
    const nest_turned *t = &w->pack->own.turned[w->now.state.turned[piece]];
    w->now.state.x_mm[piece] = at.x_mm - t->base.x_mm;
    w->now.state.y_mm[piece] = at.y_mm - t->base.y_mm;
}

static void take_out(nest_packer *w, const change *c)
{
    if (c->out_count > 0) put_corner(w, c->in, corner_of(w, c->out[0]));
    for (size_t i = 0; i < c->out_count; i++) {
        w->now.sheet[c->out[i]] = NEST_LOOSE;
        nest_packing_count(w->pack, &w->now, c->out[i], c->sheet, -1);
    }
}

/* The piece joins those on the sheet; `placed`: it starts where it is noted. */
static bool join_sheet(nest_packer *w, uint32_t piece, uint32_t sheet, bool placed, int passes)
{
    size_t n = nest_packing_list(&w->now, sheet, w->list);
    nest_attempt a = {sheet, piece, w->list, n, nest_pack_length(w, sheet), passes, placed};
    if (!nest_pack_attempt(w, &a)) return false;
    nest_packing_count(w->pack, &w->now, piece, sheet, 1);
    return true;
}

/* Into a gap somewhere, or onto the sheet being emptied. */
static bool settle(nest_packer *w, uint32_t piece, uint32_t from)
{
    return nest_pack_insert(w, piece) || join_sheet(w, piece, from, false, BACK_PASSES);
}

static bool make(nest_packer *w, const change *c, uint32_t from)
{
    nest_packing_copy(&w->now, &w->kept);
    take_out(w, c);
    if (w->swaps[c->key] < UINT8_MAX) w->swaps[c->key]++;
    bool done = join_sheet(w, c->in, c->sheet, c->out_count > 0, IN_PASSES);
    if (done) nest_packing_count(w->pack, &w->now, c->in, from, -1);
    for (size_t i = 0; i < c->out_count && done; i++) done = settle(w, c->out[i], from);
    if (!done) nest_packing_copy(&w->kept, &w->now);
    return done;
}

static bool choose_change(nest_packer *w, uint32_t from, change *chosen)
{
    size_t mark = sw_arena_mark(w->run.scratch);
    sw_status status = choose(w, from, chosen);
    sw_arena_rewind(w->run.scratch, mark);
    if (status != SW_OK) w->status = status;
    return status == SW_OK && isfinite(chosen->score);
}

/* Until the sheet holds no more than most_mm2, or a number of changes one after the other did not help. */
static void unload(nest_packer *w, uint32_t from, double most_mm2, int vain_most)
{
    bool closed = w->closed[from];
    double least_mm2 = w->now.claim_mm2[from];
    w->closed[from] = true;
    for (int vain = 0; vain < vain_most && !nest_pack_over(w) && w->now.claim_mm2[from] > most_mm2;) {
        change c;
        if (!choose_change(w, from, &c)) break;
        vain = make(w, &c, from) && w->now.claim_mm2[from] < least_mm2 - 1 ? 0 : vain + 1;
        least_mm2 = fmin(least_mm2, w->now.claim_mm2[from]);
    }
    w->closed[from] = closed;
}

static double largest_on(const nest_packer *w, uint32_t sheet)
{
    double largest_mm2 = 0;
    for (size_t i = 0; i < w->now.count; i++)
        if (w->now.sheet[i] == sheet) largest_mm2 = fmax(largest_mm2, claim_of(w, (uint32_t)i));
    return largest_mm2;
}

/* An open sheet, one with more room more often. */
static uint32_t choose_host(nest_packer *w)
{
    double most_mm2 = 0;
    uint32_t host = NEST_LOOSE;
    for (uint32_t s = 0; s < w->now.sheet_count; s++) {
        double free_mm2 = w->closed[s] ? 0 : (room_of(w, s) - w->now.claim_mm2[s]) * sw_random_unit(&w->random);
        if (free_mm2 > most_mm2) most_mm2 = free_mm2, host = s;
    }
    return host;
}

/* Another sheet is unloaded until it should hold the largest piece left here. */
static void make_room(nest_packer *w, uint32_t from)
{
    uint32_t host = choose_host(w);
    if (host == NEST_LOOSE) return;
    double want_mm2 = largest_on(w, from) * sw_random_between(&w->random, 1.1, 1.8);
    unload(w, host, room_of(w, host) - want_mm2, HOST_VAIN);
}

void nest_pack_swap(nest_packer *w, uint32_t from, double until_s)
{
    double kept_s = w->until_s;
    w->until_s = fmin(until_s, kept_s);
    w->closed[from] = true;
    unload(w, from, nothing_mm2, VAIN_MOST);
    while (!nest_pack_over(w) && w->now.claim_mm2[from] > nothing_mm2) {
        make_room(w, from);
        unload(w, from, nothing_mm2, HOST_VAIN);
    }
    w->closed[from] = false;
    w->until_s = kept_s;
}
