/* nest_pack_insert.c: one more piece onto a sheet that is nearly full: it is put where it overlaps least and all are
 * pulled apart. */
#include "making/nest/nest_pack_parts.h"

enum { FIRST_MOVES = 3, PASSES = 20, PIECES_MOST = 900 };

static const double fullest = 0.985; /* share of the room beyond which no try is made. Ours */

bool nest_pack_over(const nest_packer *w)
{
    return w->status != SW_OK || sw_seconds() > w->until_s || nest_time_is_up(&w->pack->own);
}

/* ---- one attempt --------------------------------------------------------------------------------- */

typedef struct group { /* the pieces of an attempt, and the sheet's block last */
    nest_crowd *crowd;
    uint32_t *kind;
    nest_state start, best;
    size_t count, pieces;
    sw_box usable;
} group;

static bool fits(const nest_turned *t, double length_mm, double height_mm)
{
    return t->width_mm <= length_mm + NEST_TOUCH_MM && t->height_mm <= height_mm + NEST_TOUCH_MM;
}

bool nest_pack_turn_to_fit(nest_packer *w, uint32_t kind, double length_mm, double height_mm, uint32_t *turned)
{
    const nest_core *own = &w->pack->own;
    const nest_kind *k = &own->kinds[kind];
    size_t fitting = 0;
    if (fits(&own->turned[*turned], length_mm, height_mm)) return true;
    for (size_t e = k->first; e < k->first + k->count; e++)
        if (fits(&own->turned[e], length_mm, height_mm) && sw_random_below(&w->random, ++fitting) == 0)
            *turned = (uint32_t)e; /* each of them with the same chance */
    return fitting > 0;
}

static uint32_t piece_at(const nest_attempt *a, size_t i)
{
    return i < a->count ? a->list[i] : a->piece;
}

/* Whether the fields between the kinds on the sheet are there. */
bool nest_pack_kinds_ready(nest_packer *w, const uint32_t *kind, size_t count)
{
    uint32_t *distinct = SW_SCRATCH(&w->run, count, uint32_t);
    bool *seen = SW_SCRATCH(&w->run, w->pack->kind_count, bool);
    size_t n = 0;
    if (distinct == NULL || seen == NULL) return false;
    for (size_t i = 0; i < count; i++) {
        if (!seen[kind[i]]) distinct[n++] = kind[i];
        seen[kind[i]] = true;
    }
    return nest_pack_ready(w->pack, distinct, n);
}

/* false = a piece fits what may be used of the sheet at no turn. Pieces that fit stay so: they only go to places that
 * hold
 * them. */
static bool start_at(nest_packer *w, const nest_attempt *a, group *g)
{
    const nest_packing *p = &w->now;
    double height_mm = g->usable.y1_mm - g->usable.y0_mm;
    for (size_t i = 0; i < g->pieces; i++) {
        uint32_t piece = piece_at(a, i);
        g->kind[i] = p->kind[piece];
        g->start.turned[i] = p->state.turned[piece];
        if (!nest_pack_turn_to_fit(w, g->kind[i], a->length_mm, height_mm, &g->start.turned[i])) return false;
        g->start.x_mm[i] = p->state.x_mm[piece];
        g->start.y_mm[i] = p->state.y_mm[piece];
    }
    if (g->pieces == g->count) return true;
    size_t block = w->pack->core->in->shape_count + p->stock[a->sheet];
    g->kind[g->pieces] = (uint32_t)block;
    g->start.turned[g->pieces] = (uint32_t)w->pack->own.kinds[block].first;
    return true;
}

static sw_status make_group(nest_packer *w, const nest_attempt *a, group *g)
{
    const nest_sheet *sheet = &w->pack->core->sheets[w->now.stock[a->sheet]];
    g->usable = sheet->usable;
    g->pieces = a->count + (a->piece == NEST_LOOSE ? 0 : 1);
    g->count = g->pieces + (sheet->block == SIZE_MAX ? 0 : 1);
    g->kind = SW_SCRATCH(&w->run, g->count, uint32_t);
    if (g->kind == NULL) return SW_NO_MEMORY;
    SW_TRY(nest_state_make(&w->run, g->count, &g->start));
    SW_TRY(nest_state_make(&w->run, g->count, &g->best));
    if (!start_at(w, a, g)) return SW_OUT_OF_RANGE;
    double width_mm = g->usable.y1_mm - g->usable.y0_mm;
    SW_TRY(nest_crowd_make(&w->run, nest_table_of(w->pack->work), g->kind, g->count, width_mm, &g->crowd));
    g->crowd->fixed = g->count - g->pieces;
    g->crowd->random = sw_random_seeded(sw_random_next(&w->random));
    return SW_OK;
}

/* A piece from elsewhere starts at random and looks for where it overlaps least. */
static void put_in(group *g, const nest_attempt *a)
{
    nest_crowd *c = g->crowd;
    size_t last = g->pieces - 1;
    if (a->piece != NEST_LOOSE && !a->placed) {
        g->start.x_mm[last] = sw_random_unit(&c->random) * a->length_mm;
        g->start.y_mm[last] = sw_random_unit(&c->random) * c->width_mm;
    }
    nest_crowd_set(c, &g->start, a->length_mm);
    nest_crowd_forget(c);
    for (int i = 0; i < FIRST_MOVES && a->piece != NEST_LOOSE; i++) nest_crowd_move(c, last);
}

static void take_over(nest_packer *w, const nest_attempt *a, const group *g)
{
    nest_packing *p = &w->now;
    for (size_t i = 0; i < g->pieces; i++) {
        uint32_t piece = piece_at(a, i);
        p->sheet[piece] = a->sheet;
        p->state.turned[piece] = g->best.turned[i];
        p->state.x_mm[piece] = g->best.x_mm[i];
        p->state.y_mm[piece] = g->best.y_mm[i];
    }
    w->version[a->sheet]++;
}

static bool attempt(nest_packer *w, const nest_attempt *a)
{
    group g = {.count = 0};
    sw_status status = make_group(w, a, &g);
    if (status == SW_NO_MEMORY) w->status = status;
    if (status != SW_OK || !nest_pack_kinds_ready(w, g.kind, g.count)) return false;
    put_in(&g, a);
    const nest_patience patience = {a->passes, 1, w->until_s, &w->run};
    double overlap_mm = 0;
    bool won = nest_separate(g.crowd, &patience, &g.best, &overlap_mm);
    w->looks += g.crowd->looks;
    if (won) take_over(w, a, &g);
    return won;
}

bool nest_pack_attempt(nest_packer *w, const nest_attempt *a)
{
    if (a->count >= PIECES_MOST) return false;
    size_t mark = sw_arena_mark(w->run.scratch);
    bool won = attempt(w, a);
    sw_arena_rewind(w->run.scratch, mark);
    return won;
}

/* ---- which sheet ------------------------------------------------------------------------------------- */

static double claim_of(const nest_packer *w, uint32_t piece)
{
    return w->pack->own.kinds[w->now.kind[piece]].claim_mm2;
}

double nest_pack_length(const nest_packer *w, uint32_t sheet)
{
    sw_box u = w->pack->core->sheets[w->now.stock[sheet]].usable;
    return u.x1_mm - u.x0_mm;
}

bool nest_pack_may_hold(const nest_packer *w, uint32_t sheet, uint32_t piece)
{
    return !w->closed[sheet] && nest_fits_box(&w->pack->own, w->now.kind[piece], w->now.stock[sheet]);
}

static double room_on(const nest_packer *w, uint32_t sheet)
{
    return fullest * w->pack->core->sheets[w->now.stock[sheet]].room_mm2 - w->now.claim_mm2[sheet];
}

static uint32_t *failed_at(nest_packer *w, uint32_t sheet, uint32_t piece)
{
    return &w->failed[sheet * w->pack->core->in->shape_count + w->now.kind[piece]];
}

static void order_by_room(const nest_packer *w, uint32_t *sheets, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        uint32_t s = sheets[i];
        size_t k = i;
        for (; k > 0 && room_on(w, sheets[k - 1]) < room_on(w, s); k--) sheets[k] = sheets[k - 1];
        sheets[k] = s;
    }
}

/* Sheets with room for the piece on which its kind has not failed as they are, most room first. */
static size_t list_sheets(nest_packer *w, uint32_t piece, uint32_t *sheets)
{
    size_t n = 0;
    for (uint32_t s = 0; s < w->now.sheet_count; s++)
        if (nest_pack_may_hold(w, s, piece) && room_on(w, s) >= claim_of(w, piece) &&
            *failed_at(w, s, piece) != w->version[s] + 1)
            sheets[n++] = s;
    order_by_room(w, sheets, n);
    return n;
}

static bool insert_on(nest_packer *w, uint32_t piece, uint32_t sheet)
{
    size_t n = nest_packing_list(&w->now, sheet, w->list);
    nest_attempt a = {sheet, piece, w->list, n, nest_pack_length(w, sheet), PASSES, false};
    bool won = nest_pack_attempt(w, &a);
    if (won)
        nest_packing_count(w->pack, &w->now, piece, sheet, 1);
    else
        *failed_at(w, sheet, piece) = w->version[sheet] + 1;
    return won;
}

bool nest_pack_insert(nest_packer *w, uint32_t piece)
{
    size_t n = list_sheets(w, piece, w->sheets);
    for (size_t i = 0; i < n && !nest_pack_over(w); i++)
        if (insert_on(w, piece, w->sheets[i])) return true;
    return false;
}
