/* nest.h: places flat pieces on stock sheets.
 *
 * Given shapes of one material and thickness and how many of each, finds positions and turns that keep the
 * web between pieces and the margin to the sheet's edge, and wastes little steel. Lengths mm in the sheet's
 * frame (x along rolling, origin lower left), angles radians. Same input, options, seed and threads give the
 * same result. Method and literature: docs/nesting.md. */
#ifndef SW_MAKING_NEST_NEST_H
#define SW_MAKING_NEST_NEST_H

#include "model/model.h"

typedef struct sw_nest_shape {
    const char *name; /* for messages */
    int tag;          /* the caller's; carried through */
    sw_region region; /* sound, mm */
    size_t count;     /* how many to place */
    sw_turns turns;
    bool may_flip;
} sw_nest_shape;

typedef struct sw_nest_place {
    size_t shape;
    sw_motion motion;
} sw_nest_place; /* flat frame -> sheet frame */

typedef struct sw_nest_input {
    const char *name; /* "4 mm S235" for messages and progress */
    const sw_nest_shape *shapes;
    size_t shape_count;
    const sw_stock *const *stock;
    size_t stock_count; /* all of that material and thickness; remnants are used first */
    double web_mm, margin_mm;
    double remnant_least_length_mm,
        remnant_least_width_mm; /* smaller leftovers are scrap, not remnants; 0 = 500, 300 */
    double remnant_factor;      /* share of the sheet's price that a kept remnant is worth, 0..1 */
    double density_kg_mm2;      /* kg per mm2 of this sheet: for costs of scrap */
    double scrap_price;         /* per kg */
    size_t stoves, lot; /* the counts are for so many stoves, of which so many leave together: sheets are cut lot by
                                   lot. 0 = all at once; else every count is a multiple of stoves */
    size_t begun_stock; /* of this one a sheet lies begun: on it, and to stay, are */
    const sw_nest_place *begun; /* [begun_count] these */
    size_t begun_count;         /* 0 = none is begun */
} sw_nest_input;

typedef struct sw_nest_options {
    double budget_s;     /* wall time for improvement after the first answer; 0 = first answer only */
    double pocket_share; /* pockets that small beside the piece's box are filled */
    double parts_most;   /* a piece cut into more convex parts than this is made coarser */
    double exactness_mm; /* chord error of arcs in the shapes searched with, on the safe side */
    double
        sheets_first; /* 1 = a cheaper choice of sheets comes before what remnants are worth; 0 = all counts as money */
    uint64_t seed;
    uint32_t made_by_defaults;
} sw_nest_options;
sw_nest_options sw_nest_options_defaults(void);
const sw_option *sw_nest_option_table(size_t *count);

typedef struct sw_nest_sheet {
    const sw_stock *stock;
    const sw_nest_place *places;
    size_t place_count;
    double used_length_mm;                      /* from x = 0 to the last piece plus margin */
    double piece_area_mm2, density;             /* of the whole sheet's area */
    double remnant_length_mm, remnant_width_mm; /* largest rectangle left over the full width at the far end or over the
                                                   full length along the upper edge; 0 if below the works' least */
    double remnant_x_mm, remnant_y_mm;          /* its lower left corner */
    size_t repeat;                              /* this very layout is cut so many times, at least 1 */
    size_t lot,
        completes; /* from 1: the first lot on it; the last lot complete once all sheets to this one are cut, or 0 */
} sw_nest_sheet;

typedef struct sw_nest_remnant { /* a rectangle to be kept, for the stock list */
    size_t sheet;                /* in sheets */
    size_t count;                /* one from each repeat */
    double x_mm, y_mm, length_mm, width_mm;
    double worth; /* of one, works currency */
} sw_nest_remnant;

typedef struct sw_nest_result {
    const sw_nest_sheet *sheets;
    size_t sheet_count;                             /* different layouts */
    size_t sheets_total;                            /* with repeats */
    double piece_area_mm2, sheet_area_mm2, density; /* over all sheets */
    double bound_density;                           /* no layout can beat it: area bound with whole sheets */
    double cost, scrap_kg;
    const sw_nest_remnant *remnants;
    size_t remnant_count;
    uint64_t tests; /* placement candidates tried */
    double seconds;
    bool stopped; /* by cancel or budget before it was done */
} sw_nest_result;

/* What the steel of some sheets costs, works currency: price paid, less what is paid for the skeleton as scrap and what a kept
 * remnant is worth (factor 0..1 of its share of the price). skeleton = sheet - parts - remnant, kg. */
double sw_steel_cost(double price, double sheet_kg, double parts_kg, double remnant_kg, double remnant_factor,
                     double scrap_price);

/* SW_OUT_OF_RANGE (option named), SW_NO_SOLUTION (a shape fits no sheet at any turn: named with the largest usable
 * sheet; or the stock runs out: how many are left over), SW_INTERNAL (the verifier refused: never a result).
 * Every result has passed sw_nest_verify. A cancel returns the best complete answer so far, or SW_CANCELLED. */
sw_status sw_nest_solve(sw_run *run, const sw_nest_input *in, const sw_nest_options *opt,
                        const sw_nest_result **result);

/* Independent of the search (GEOS only): every piece present the right number of times, allowed turn, inside its
 * sheet less margin, at least web apart, not on a cut-out. SW_INTERNAL says what and where. */
sw_status sw_nest_verify(sw_run *run, const sw_nest_input *in, const sw_nest_result *result);

/* ---- the strip: one width, shortest length, as the literature compares methods ------------------------- */

typedef struct sw_strip_input {
    const char *name;
    const sw_nest_shape *shapes;
    size_t shape_count; /* turns: fixed, half or quarter */
    double width_mm;
} sw_strip_input;

typedef struct sw_strip_options {
    double budget_s; /* wall time, all in */
    double rounds;   /* instead of a time; 0 = by time */
    uint64_t seed;
    int threads;
    uint32_t made_by_defaults;
} sw_strip_options;
sw_strip_options sw_strip_options_defaults(void);
const sw_option *sw_strip_option_table(size_t *count);

typedef struct sw_strip_result {
    const sw_nest_place *places;
    size_t place_count; /* x along the strip, 0..length; y across, 0..width */
    double length_mm, density, seconds;
    uint64_t looks, rounds; /* positions evaluated, rounds of the search */
} sw_strip_result;

/* Statuses as sw_nest_solve. Same seed, threads and rounds: same answer. A cancel returns the best so far. */
sw_status sw_strip_solve(sw_run *run, const sw_strip_input *in, const sw_strip_options *opt,
                         const sw_strip_result **result);
sw_status sw_strip_verify(sw_run *run, const sw_strip_input *in, const sw_strip_result *result); /* by sw_nest_verify */

#endif
