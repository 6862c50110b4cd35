/* nest_cuts.c: the division of a sheet by cuts from edge to edge that is worth most. Every part's best division is worked out once,
 * smallest first: the best box that fits, or two parts beside or above each other. Cuts are tried at sums of the boxes' sides
 * alone. Gilmore & Gomory, Multistage cutting stock problems of two and more dimensions, Oper. Res. 13 (1965); Herz, Recursive
 * computational procedure for two-dimensional stock cutting, IBM J. R&D 16 (1972), both from memory. */
#include "making/nest/nest_cuts_parts.h"

#include <math.h>
#include <string.h>

enum { NOTHING = -1, UPRIGHT = 1 << 20, LEVEL = 2 << 20 };

static const double steps_most = 2e7;   /* of one table: some 20 ms. Ours */
static const double least_share = 0.01; /* of the sheet: smaller kinds fill what is left. Ours */

/* ---- kinds and items ------------------------------------------------------------------------------- */

static double box_mm2(const nest_core *core, size_t kind)
{
    return core->kinds[kind].least_mm * core->kinds[kind].most_mm;
}

/* Whether its box goes into a rectangle of the hole's area and least side. */
static bool goes_into(const nest_kind *kind, nest_hole hole)
{
    return kind->least_mm <= hole.least_mm && kind->most_mm <= hole.area_mm2 / hole.least_mm;
}

/* Whether it may lie in a cut-out of another kind, and so need no room of its own. */
static bool is_guest(const nest_core *core, size_t kind)
{
    for (size_t i = 0; i < core->in->shape_count; i++)
        for (size_t h = 0; core->in->shapes[i].count > 0 && h < core->kinds[i].hole_count; h++)
            if (i != kind && goes_into(&core->kinds[kind], core->kinds[i].holes[h])) return true;
    return false;
}

static int units_up(double mm)
{
    return (int)ceil(mm / NEST_CUT_MM - 1e-6);
}

static void add_items(nest_cuts *cuts, size_t own)
{
    const nest_core *core = cuts->core;
    const nest_kind *k = &core->kinds[cuts->kinds[own]];
    size_t first = cuts->item_count;
    for (size_t e = k->first; e < k->first + k->quick && cuts->item_count < NEST_CUT_ITEMS; e++) {
        sw_box box = core->turned[e].box;
        nest_cut_item item = {own, e, units_up(box.x1_mm - box.x0_mm), units_up(box.y1_mm - box.y0_mm)};
        bool known = false;
        for (size_t i = first; i < cuts->item_count; i++)
            known = known || (cuts->items[i].long_u == item.long_u && cuts->items[i].high_u == item.high_u);
        if (!known) cuts->items[cuts->item_count++] = item;
    }
}

static void drop_last_kind(nest_cuts *cuts)
{
    cuts->kind_count--;
    while (cuts->item_count > 0 && cuts->items[cuts->item_count - 1].kind == cuts->kind_count) cuts->item_count--;
}

/* The largest by their boxes. */
static void choose_kinds(nest_cuts *cuts)
{
    const nest_core *core = cuts->core;
    for (size_t i = 0; i < core->in->shape_count; i++) {
        if (core->in->shapes[i].count == 0 || box_mm2(core, i) < least_share * core->largest_mm2 || is_guest(core, i))
            continue;
        size_t at = cuts->kind_count < NEST_CUT_KINDS ? cuts->kind_count++ : NEST_CUT_KINDS;
        for (; at > 0 && box_mm2(core, cuts->kinds[at - 1]) < box_mm2(core, i); at--)
            if (at < NEST_CUT_KINDS) cuts->kinds[at] = cuts->kinds[at - 1];
        if (at < NEST_CUT_KINDS) cuts->kinds[at] = i;
    }
    for (size_t k = 0; k < cuts->kind_count; k++) add_items(cuts, k);
}

/* ---- boards ---------------------------------------------------------------------------------------- */

static void list_sums(const nest_cuts *cuts, int units, bool along, nest_grid *grid)
{
    grid->count = 0;
    grid->under[0] = NOTHING;
    for (int u = 1; u <= units; u++) {
        bool is_sum = false;
        for (size_t i = 0; i < cuts->item_count && !is_sum; i++) {
            int rest = u - (along ? cuts->items[i].long_u : cuts->items[i].high_u);
            is_sum = rest == 0 || (rest > 0 && grid->under[rest] >= 0 && grid->at[grid->under[rest]] == rest);
        }
        if (is_sum) grid->at[grid->count++] = u;
        grid->under[u] = grid->count - 1;
    }
}

/* Sums up to half the sheet, and of those above the ones that another sum leaves of it: mostly a tenth of all (raster
 * points: Scheithauer & Terno, The G4-heuristic for the pallet loading problem, J. Oper. Res. Soc. 47, 1996, from memory). */
static void thin_sums(int units, bool *stays, nest_grid *grid)
{
    for (int k = 0; k < grid->count; k++) {
        int rest = grid->under[units - grid->at[k]];
        stays[grid->at[k]] = stays[grid->at[k]] || 2 * grid->at[k] <= units;
        if (rest >= 0) stays[grid->at[rest]] = true;
    }
    if (grid->count > 0) stays[grid->at[grid->count - 1]] = true;
    grid->count = 0;
    for (int u = 1; u <= units; u++) {
        if (stays[u]) grid->at[grid->count++] = u;
        grid->under[u] = grid->count - 1;
    }
}

static sw_status make_grid(nest_cuts *cuts, int units, bool along, nest_grid *grid)
{
    sw_run *run = cuts->core->run;
    bool *stays = SW_SCRATCH(run, (size_t)units + 1, bool);
    grid->under = SW_SCRATCH(run, (size_t)units + 1, int);
    grid->at = SW_SCRATCH(run, (size_t)units + 1, int);
    if (grid->under == NULL || grid->at == NULL || stays == NULL) return SW_NO_MEMORY;
    list_sums(cuts, units, along, grid);
    thin_sums(units, stays, grid);
    return SW_OK;
}

static sw_status make_board(nest_cuts *cuts, size_t stock, nest_board *board)
{
    sw_box u = cuts->core->sheets[stock].usable;
    double web_mm = cuts->core->in->web_mm;
    *board = (nest_board){.stock = stock};
    SW_TRY(make_grid(cuts, (int)((u.x1_mm - u.x0_mm + web_mm) / NEST_CUT_MM + 1e-6), true, &board->along));
    return make_grid(cuts, (int)((u.y1_mm - u.y0_mm + web_mm) / NEST_CUT_MM + 1e-6), false, &board->across);
}

static bool is_cheap(const nest_board *b)
{
    double n = b->along.count, m = b->across.count;
    return n * m * (n + m) / 2 <= steps_most;
}

static sw_status open_board(sw_run *run, nest_board *board)
{
    size_t cells = (size_t)board->along.count * (size_t)board->across.count;
    if (cells == 0) return SW_OK;
    board->value = SW_SCRATCH(run, cells, double);
    board->cut = SW_SCRATCH(run, cells, int);
    return board->value == NULL || board->cut == NULL ? SW_NO_MEMORY : SW_OK;
}

/* A rectangle that holds anything at all. */
static bool is_open(const nest_sheet *s)
{
    return s->block == SIZE_MAX && s->usable.x1_mm > s->usable.x0_mm && s->usable.y1_mm > s->usable.y0_mm;
}

static sw_status make_boards(nest_cuts *cuts, bool *cheap)
{
    const sw_nest_input *in = cuts->core->in;
    cuts->board_count = 0;
    *cheap = true;
    for (size_t s = 0; s < in->stock_count && *cheap; s++) {
        if (in->stock[s]->remnant || !is_open(&cuts->core->sheets[s])) continue;
        nest_board *board = &cuts->boards[cuts->board_count++];
        SW_TRY(make_board(cuts, s, board));
        *cheap = is_cheap(board);
    }
    return SW_OK;
}

static double grown_box_mm2(const nest_core *core, size_t kind)
{
    double web_mm = core->in->web_mm;
    return (core->kinds[kind].least_mm + web_mm) * (core->kinds[kind].most_mm + web_mm);
}

static bool is_planned(const nest_cuts *cuts, size_t kind)
{
    for (size_t k = 0; k < cuts->kind_count; k++)
        if (cuts->kinds[k] == kind) return true;
    return false;
}

static void measure(nest_cuts *cuts)
{
    const nest_core *core = cuts->core;
    for (size_t k = 0; k < cuts->kind_count; k++) cuts->box_mm2[k] = grown_box_mm2(core, cuts->kinds[k]);
    for (size_t i = 0; i < core->in->shape_count; i++)
        if (!is_planned(cuts, i) && !is_guest(core, i))
            cuts->rest_mm2 += grown_box_mm2(core, i) * (double)core->in->shapes[i].count;
}

sw_status nest_cuts_make(nest_core *core, nest_cuts *cuts)
{
    bool cheap = false;
    *cuts = (nest_cuts){.core = core};
    cuts->boards = SW_SCRATCH(core->run, core->in->stock_count, nest_board);
    if (cuts->boards == NULL) return SW_NO_MEMORY;
    choose_kinds(cuts);
    while (cuts->kind_count > 0) {
        SW_TRY(make_boards(cuts, &cheap));
        if (cheap) break;
        drop_last_kind(cuts);
    }
    measure(cuts);
    for (size_t b = 0; cuts->kind_count > 0 && b < cuts->board_count; b++)
        SW_TRY(open_board(core->run, &cuts->boards[b]));
    return SW_OK;
}

/* ---- the table ------------------------------------------------------------------------------------- */

static void best_item(const nest_cuts *cuts, const double *worth, int long_u, int high_u, double *value, int *cut)
{
    *value = 0;
    *cut = NOTHING;
    for (size_t i = 0; i < cuts->item_count; i++) {
        const nest_cut_item *item = &cuts->items[i];
        if (item->long_u > long_u || item->high_u > high_u || worth[item->kind] <= *value) continue;
        *value = worth[item->kind];
        *cut = (int)i;
    }
}

static void best_division(nest_board *b, int i, int j)
{
    const nest_grid *x = &b->along, *y = &b->across;
    const int m = y->count;
    double *value = b->value + (size_t)i * (size_t)m;
    for (int a = 0; 2 * x->at[a] <= x->at[i]; a++) {
        int rest = x->under[x->at[i] - x->at[a]]; /* a itself at least */
        double both = b->value[(size_t)a * (size_t)m + (size_t)j] + b->value[(size_t)rest * (size_t)m + (size_t)j];
        if (both > value[j] + 1e-12) value[j] = both, b->cut[i * m + j] = UPRIGHT + a;
    }
    for (int a = 0; 2 * y->at[a] <= y->at[j]; a++) {
        double both = value[a] + value[y->under[y->at[j] - y->at[a]]];
        if (both > value[j] + 1e-12) value[j] = both, b->cut[i * m + j] = LEVEL + a;
    }
}

static sw_status fill_table(const nest_cuts *cuts, nest_board *b, const double *worth)
{
    const int m = b->across.count;
    for (int i = 0; i < b->along.count; i++) {
        if (nest_time_is_up(cuts->core)) return SW_CANCELLED;
        for (int j = 0; j < m; j++) {
            size_t at = (size_t)i * (size_t)m + (size_t)j;
            best_item(cuts, worth, b->along.at[i], b->across.at[j], &b->value[at], &b->cut[at]);
            best_division(b, i, j);
        }
    }
    return SW_OK;
}

/* ---- from the table to a pattern ------------------------------------------------------------------- */

typedef struct part { /* of the sheet, in places of the grids */
    int i, j;
    int x_u, y_u; /* its lower left corner */
} part;

static void put_item(const nest_cuts *cuts, const nest_board *b, const part *p, nest_pattern *pattern)
{
    const nest_core *core = cuts->core;
    const nest_cut_item *item = &cuts->items[b->cut[p->i * b->across.count + p->j]];
    const nest_turned *t = &core->turned[item->turned];
    sw_box usable = core->sheets[b->stock].usable;
    double half_mm = core->in->web_mm / 2;
    double x_mm = usable.x0_mm - half_mm + p->x_u * NEST_CUT_MM - t->box.x0_mm;
    double y_mm = usable.y0_mm - half_mm + p->y_u * NEST_CUT_MM - t->box.y0_mm;
    /* the grown box may stick out of the room by the shape's exactness, the piece may not */
    x_mm = fmin(fmax(x_mm, usable.x0_mm), usable.x1_mm - t->width_mm);
    y_mm = fmin(fmax(y_mm, usable.y0_mm), usable.y1_mm - t->height_mm);
    pattern->spots[pattern->spot_count++] = (nest_spot){item->turned, {x_mm, y_mm}};
    pattern->count[item->kind]++;
    pattern->box_mm2 += cuts->box_mm2[item->kind];
}

/* The two parts of a division. */
static void divide(const nest_board *b, const part *p, int cut, part *low, part *high)
{
    *low = *high = *p;
    if (cut < LEVEL) {
        low->i = cut - UPRIGHT;
        high->x_u += b->along.at[low->i];
        high->i = b->along.under[b->along.at[p->i] - b->along.at[low->i]];
    } else {
        low->j = cut - LEVEL;
        high->y_u += b->across.at[low->j];
        high->j = b->across.under[b->across.at[p->j] - b->across.at[low->j]];
    }
}

static void push(const nest_board *b, part p, part *stack, size_t *n)
{
    if (b->cut[p.i * b->across.count + p.j] != NOTHING) stack[(*n)++] = p;
}

/* Every part waiting has a box of its own, so there are never more of them than boxes. */
static void walk(const nest_cuts *cuts, const nest_board *b, part *stack, nest_pattern *pattern)
{
    size_t n = 0;
    push(b, (part){b->along.count - 1, b->across.count - 1, 0, 0}, stack, &n);
    while (n > 0) {
        part p = stack[--n], low, high;
        int cut = b->cut[p.i * b->across.count + p.j];
        if (cut < UPRIGHT) {
            put_item(cuts, b, &p, pattern);
            continue;
        }
        divide(b, &p, cut, &low, &high);
        push(b, low, stack, &n);
        push(b, high, stack, &n);
    }
}

/* No more boxes than the smallest goes into the sheet. */
static size_t boxes_most(const nest_cuts *cuts, const nest_board *b)
{
    double least = INFINITY;
    for (size_t i = 0; i < cuts->item_count; i++)
        least = fmin(least, (double)cuts->items[i].long_u * cuts->items[i].high_u);
    return (size_t)((double)b->along.at[b->along.count - 1] * b->across.at[b->across.count - 1] / least) + 2;
}

sw_status nest_cuts_best(nest_cuts *cuts, nest_board *board, const double *value, nest_pattern *pattern)
{
    sw_run *run = cuts->core->run;
    *pattern = (nest_pattern){.stock = board->stock};
    if (board->along.count == 0 || board->across.count == 0) return SW_OK;
    SW_TRY(fill_table(cuts, board, value));
    size_t most = boxes_most(cuts, board);
    part *stack = SW_SCRATCH(run, most, part);
    pattern->spots = SW_SCRATCH(run, most, nest_spot);
    if (stack == NULL || pattern->spots == NULL) return SW_NO_MEMORY;
    walk(cuts, board, stack, pattern);
    return SW_OK;
}
