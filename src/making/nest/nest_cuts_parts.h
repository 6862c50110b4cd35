/* nest_cuts_parts.h: plans of the large kinds alone, taken for rectangles. For making/nest alone.
 *
 * A pattern is a sheet divided by cuts from edge to edge, each part again, until every part holds one box: what is placed so
 * is legal whatever the pieces' outlines. Lengths in whole units of NEST_CUT_MM, boxes rounded up, sheets down. */
#ifndef SW_MAKING_NEST_NEST_CUTS_PARTS_H
#define SW_MAKING_NEST_NEST_CUTS_PARTS_H

#include "making/nest/nest_parts.h"

#define NEST_CUT_MM 0.5

enum { NEST_CUT_KINDS = 8, NEST_CUT_ITEMS = 32, NEST_CUT_POOL = 256 };

typedef struct nest_cut_item { /* a kind at one turn */
    size_t kind, turned;       /* kind: in nest_cuts.kinds */
    int long_u, high_u;        /* of the grown parts' box */
} nest_cut_item;

typedef struct nest_pattern {
    size_t stock;
    size_t count[NEST_CUT_KINDS];
    nest_spot *spots; /* [spot_count] */
    size_t spot_count;
    double box_mm2; /* of its pieces */
} nest_pattern;

typedef struct nest_grid { /* where cuts can be: sums of items' sides, upwards; 0 is not among them */
    int *at;
    int count;
    int *under; /* [units + 1] the last place at or below, -1 = none */
} nest_grid;

typedef struct nest_board { /* one stock's table of best divisions */
    size_t stock;
    nest_grid along, across;
    double *value; /* [along.count * across.count] */
    int *cut;      /* the same: -1 nothing, an item, or a cut */
} nest_board;

typedef struct nest_cuts {
    nest_core *core;
    size_t kinds[NEST_CUT_KINDS], kind_count; /* of the input; largest first */
    double box_mm2[NEST_CUT_KINDS];           /* of the grown parts */
    double rest_mm2;                          /* the same of all pieces of other kinds that go into no cut-out */
    nest_cut_item items[NEST_CUT_ITEMS];
    size_t item_count;
    nest_board *boards; /* [board_count] plain sheets that are no remnants */
    size_t board_count;
    nest_pattern pool[NEST_CUT_POOL];
    size_t pool_count;
} nest_cuts;

/* nest_cuts.c: kinds, items and boards; kind_count 0 = nothing to plan. */
sw_status nest_cuts_make(nest_core *core, nest_cuts *cuts);
/* The pattern of one board that is worth most, each kind at value[kind]; each may be on it any number of times. */
sw_status nest_cuts_best(nest_cuts *cuts, nest_board *board, const double *value, nest_pattern *pattern);

#endif
