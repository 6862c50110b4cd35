/* nest_crowd_parts.h: pieces in a rectangle that may overlap for the moment, and what it costs. For making/nest alone.
 *
 * The cost of a layout is the sum over pairs of weight x depth. Every piece stays inside the rectangle 0..length x
 * 0..width; a layout of cost 0 is legal. Positions are translations of the turned flat (sw_motion's dx, dy), mm. */
#ifndef SW_MAKING_NEST_NEST_CROWD_PARTS_H
#define SW_MAKING_NEST_NEST_CROWD_PARTS_H

#include "making/nest/nest_field_parts.h"

typedef struct nest_relation {     /* where to look up how deep entry b lies in entry a */
    const nest_field *field;       /* NULL: not needed */
    double shift_x_mm, shift_y_mm; /* added to the turned-back vector */
    double c, s;                   /* of minus the turn of a */
    bool swapped;                  /* the field is that of a beside b */
} nest_relation;

typedef struct nest_table { /* of all turned entries of the core; read only once made */
    const nest_core *core;
    size_t count;                   /* turned entries */
    const nest_relation *relations; /* [count*count], row a */
} nest_table;

/* All fields between the entries `core` has; equal relative turns share one. SW_CANCELLED when the run is stopped
 * or core->stop_at_s is past. */
sw_status nest_table_make(nest_core *core, uint32_t cells, const nest_table **table);
/* The same table made a relation at a time: fields go to an arena of their own, the pairs they were made of are dropped.
 * For one thread at once; relations made are not touched again. */
typedef struct nest_table_work nest_table_work;
sw_status nest_table_start(nest_core *core, sw_arena *fields, uint32_t cells, nest_table_work **work);
const nest_table *nest_table_of(const nest_table_work *work);
sw_status nest_table_relate(nest_table_work *work, size_t a, size_t b);

/* How deep the piece b lies in a; b's position less a's. */
static inline double nest_table_depth(const nest_table *table, uint32_t a, uint32_t b, double dx_mm, double dy_mm)
{
    const nest_relation *r = &table->relations[(size_t)a * table->count + b];
    if (r->swapped) dx_mm = -dx_mm, dy_mm = -dy_mm;
    double x = r->c * dx_mm - r->s * dy_mm + r->shift_x_mm, y = r->s * dx_mm + r->c * dy_mm + r->shift_y_mm;
    return nest_field_depth(r->field, x, y);
}

double nest_table_slope(const nest_table *table, uint32_t a, uint32_t b, double dx_mm, double dy_mm,
                        nest_slope *slope); /* the same depth, and how it grows with a's place */

typedef struct nest_state { /* where everything is: what is saved and restored */
    uint32_t *turned;       /* [count] */
    double *x_mm, *y_mm;    /* [count] */
} nest_state;

enum { NEST_CROWD_LANES = 8 }; /* boxes looked at in one go */

/* Sheets side by side in one crowd: rectangles along x, apart by more than any piece can reach beyond its own. */
typedef struct nest_bin {
    double x0_mm, x1_mm, height_mm;
} nest_bin;

typedef struct nest_crowd {
    const nest_table *table;
    size_t count, padded; /* pieces; the same up to a multiple of 8 */
    const uint32_t *kind; /* [count] shape */
    nest_state now;
    float *x0, *x1, *y0, *y1; /* [padded] boxes, grown by grow_mm; padding is empty */
    double grow_mm;           /* so that all of the grown parts lie in the grown box */
    float *weight;            /* [count*count], symmetric */
    float *depth;             /* [count*count] of the last nest_crowd_measure */
    uint32_t *met, *near;     /* [padded] pieces at a spot, round a walk */
    uint32_t *order;          /* [count] */
    size_t fixed;             /* the last so many never move: what blocks a sheet; 0 unless set */
    const nest_bin *bins;     /* [bin_count] by x; 0 = the whole rectangle */
    size_t bin_count;
    double length_mm, width_mm;
    sw_random random;
    uint64_t looks; /* positions evaluated */
} nest_crowd;

sw_status nest_state_make(sw_run *run, size_t count, nest_state *state);
void nest_state_copy(size_t count, const nest_state *from, nest_state *to);
sw_status nest_crowd_make(sw_run *run, const nest_table *table, const uint32_t *kind, size_t count, double width_mm,
                          nest_crowd **crowd);

/* Takes the state over, pushes every piece into the rectangle and brings the boxes up to date. */
void nest_crowd_set(nest_crowd *crowd, const nest_state *state, double length_mm);
void nest_crowd_forget(nest_crowd *crowd);                        /* all weights back to 1 */
double nest_crowd_measure(nest_crowd *crowd, double *deepest_mm); /* sum of depths; fills depth */
void nest_crowd_reweigh(nest_crowd *crowd, double deepest_mm);    /* pairs that overlap weigh more, the others less */
double nest_crowd_reach(const nest_crowd *crowd, const nest_state *state); /* x of the last piece's end */
bool nest_crowd_overlaps(const nest_crowd *crowd, size_t piece);           /* by the last measure */

static inline const nest_turned *nest_crowd_entry(const nest_crowd *crowd, uint32_t turned)
{
    return &crowd->table->core->turned[turned];
}

void nest_crowd_set_box(nest_crowd *crowd, size_t piece);
const nest_bin *nest_crowd_bin(const nest_crowd *crowd, double x_mm); /* where x lies, or the last before it */
/* Pushes a piece into the rectangle, or into the bin where its middle lies; false = it is too large for that. */
bool nest_crowd_push_in(const nest_crowd *crowd, uint32_t turned, double *x_mm, double *y_mm);

/* nest_move.c: looks for a better place for one piece, all others standing still: samples, slides down the slope, then walks.
 * Never worse. */
void nest_crowd_move(nest_crowd *crowd, size_t piece);

#endif
