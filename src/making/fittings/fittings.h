/* fittings.h: lining boards, pane, ropes and grate: what to cut, whether it fits cold and hot, and the ball-drop test.
 *
 * Lengths mm, masses kg, energies J, temperatures K inside and degC in options. A gap is the way from the edge of a board,
 * pane or grate to what lies beside it in its own plane, found by rays; INFINITY: nothing within 30 mm. Method, ranges and
 * worked example: docs/studies/fittings.md. */
#ifndef SW_MAKING_FITTINGS_FITTINGS_H
#define SW_MAKING_FITTINGS_FITTINGS_H

#include "model/model.h"

/* ---- single formulas, NAN outside their range -------------------------------------------------------------------------- */

/* dL/L from 20 degC: carbon steel EN 1993-1-2, stainless 1.4301, grey iron; board 9e-6/K and glass-ceramic 0.5e-6/K. */
double sw_fit_elongation(sw_matter_kind kind, double t_k);
double sw_fit_growth_mm(double length_mm, double per_k, double rise_k);
/* Least sum of cold gaps: growth of the inner part less that of the outer, tolerances, 0.5 mm; 0 when the outer outgrows it. */
double sw_fit_clearance_mm(double inner_mm, double outer_mm, double tolerance_mm);
double sw_rope_compression(double rope_mm, double groove_mm, double joint_mm); /* (d - g - j)/d */
double sw_rope_fill(double rope_mm, double width_mm, double depth_mm);       /* rope's section over groove's, closed */
double sw_rope_length_mm(double centre_line_mm, double share);               /* share 1.00 to 1.02 */
double sw_grate_clearance_mm(double length_mm, double per_k, double rise_k); /* a side: half the growth and 1 mm */
double sw_bolt_factor(double t_k);     /* strength of bolts, share of that at 20 degC; EN 1993-1-2 table D.1 */
double sw_ball_kg(double diameter_mm); /* steel, 7850 kg/m3 */
double sw_ball_mm(double mass_kg);
double sw_drop_j(double mass_kg, double height_mm);
double sw_drop_m_s(double height_mm);
double sw_drop_height_mm(double energy, double mass_kg); /* of a ball of that mass for an energy in J */

typedef struct sw_impact_level { /* a published level to compare with */
    const char *name, *body;     /* "IK08", "hammer or 1.7 kg falling body" */
    double energy;               /* J */
    const char *source;
} sw_impact_level;
const sw_impact_level *sw_impact_levels(size_t *count); /* by energy, rising */

/* ---- the study ---------------------------------------------------------------------------------------------------------- */

typedef struct sw_fittings_options {
    double gap_mm_m;                        /* boards are cut smaller by this for each metre; 0 = drawn as cut */
    double step_mm;                         /* cut sizes are rounded down to this */
    double sheet_length_mm, sheet_width_mm; /* board as bought */
    double saw_mm;                          /* width of the saw's cut */
    double stoves;                          /* boards of so many stoves are cut together */
    double board_c, wall_c;                 /* hot: lining on the mean, steel around it */
    double pane_c, frame_c;                 /* pane, door around it */
    double grate_c, seat_c;                 /* grate, floor around it */
    double tolerance_mm;                    /* of opening and part together */
    double pane_clear_mm;                   /* least beside the pane, each edge */
    double opens_mm;                        /* by which a rope's joint opens hot */
    double ball_mm, drop_mm;                /* glazing test */
    uint32_t made_by_defaults;
} sw_fittings_options;
sw_fittings_options sw_fittings_options_defaults(void);
const sw_option *sw_fittings_option_table(size_t *count);

typedef struct sw_fit_heat { /* of one item by the heat study; NAN = not known: the options hold */
    double part_k;           /* itself, a board or pane on the mean of its sides: the hottest of its places */
    double round_k;          /* the sheet that holds it: the coolest of its places */
} sw_fit_heat;

typedef struct sw_fittings_input {
    const sw_stove *stove;
    const sw_mesh *const
        *meshes;             /* [stove->piece_count] one of each folded, in its own frame; NULL = gaps stay unknown */
    const sw_fit_heat *heat; /* [stove->item_count]; NULL = not known */
} sw_fittings_input;

typedef enum sw_side { SW_SIDE_LEFT, SW_SIDE_RIGHT, SW_SIDE_BELOW, SW_SIDE_ABOVE, SW_SIDES } sw_side; /* -x +x -y +y */

typedef struct sw_fit { /* one board, pane or grate in its place: the tightest of its places */
    const sw_item *item;
    double size_mm[2];                        /* box of its shape, drawn: along its x, its y */
    double gap_mm[SW_SIDES];                  /* drawn, cold; NAN unknown */
    const char *beside[SW_SIDES];             /* "" = nothing found */
    double inner_k, outer_k;                  /* hot: the part, what holds it */
    bool inner_found, outer_found;            /* by the heat study; else an option */
    double cut_mm[2];                         /* what a board is cut smaller */
    double inner_mm[2], outer_mm[2];          /* growth of the part, of what holds it */
    double need_mm[2], cold_mm[2], hot_mm[2]; /* sums of both gaps: asked for, there cold, there hot */
} sw_fit;

typedef struct sw_board_cut { /* a line of the cut list */
    const sw_item *item;
    size_t count;               /* in one stove */
    double length_mm, width_mm; /* as cut */
    size_t holes;
    double mass_kg; /* of one, as cut */
} sw_board_cut;

typedef struct sw_board_place {
    size_t cut;  /* index of the line of the cut list */
    sw_box box;  /* on the sheet, from (0,0) */
    bool turned; /* its length lies across the sheet */
} sw_board_place;

typedef struct sw_board_sheet {
    const char *material;
    double thickness_mm, length_mm, width_mm;
    const sw_board_place *places; /* [count], every one reached by cuts from edge to edge */
    size_t count;
    double used; /* share of its area */
} sw_board_sheet;

typedef struct sw_board_nest { /* one material and thickness */
    const char *material;
    double thickness_mm;
    size_t first, sheets; /* in result->sheets */
    size_t bound;         /* fewer sheets than this cannot do, by area and by large boards */
    size_t left_out;      /* boards larger than a sheet */
} sw_board_nest;

typedef struct sw_fit_pane {
    const sw_item *item;
    double width_mm, height_mm, thickness_mm, area_m2, mass_kg; /* of one; sizes NAN without a shape */
    double round_mm;                                            /* its edge */
    double least_mm;       /* least gap beside it but for the lower edge; NAN unknown, INFINITY nothing near */
    double under_mm;       /* gap under its lower edge */
    const char *stands_on; /* what is there; "" = nothing found */
} sw_fit_pane;

typedef struct sw_rope_seat {      /* shares; NAN: the description tells no diameter, groove or joint */
    double compression, hot, fill; /* new and cold; joint open; of the closed groove */
} sw_rope_seat;

typedef struct sw_rope {
    const sw_item *item;
    size_t count;
    double length_mm, mass_kg; /* of one */
    sw_rope_seat seat;
} sw_rope;

typedef struct sw_grate {
    const sw_item *item;
    double need_mm[2];                /* clearance a side, along x and y */
    double bar_least_mm, bar_most_mm; /* gaps between bars: least width of the holes; NAN without holes */
} sw_grate;

typedef struct sw_drop_level {
    const sw_impact_level *level;
    double height_mm; /* from which options.ball does the same */
    bool reached;     /* by options.drop */
} sw_drop_level;

typedef struct sw_drop {
    double mass_kg, energy, speed_m_s; /* energy J */
    const sw_drop_level *levels;       /* [level_count] */
    size_t level_count;
} sw_drop;

typedef struct sw_fittings_result {
    const sw_board_cut *cuts;
    size_t cut_count;
    const sw_board_nest *nests;
    size_t nest_count;
    const sw_board_sheet *sheets;
    size_t sheet_count;
    double board_m2, sheet_m2; /* cut of options.stoves; of the sheets used */
    const sw_fit *fits;        /* boards, panes, grates with a shape */
    size_t fit_count;
    const sw_fit_pane *panes;
    size_t pane_count;
    const sw_rope *ropes;
    size_t rope_count;
    const sw_grate *grates;
    size_t grate_count;
    sw_drop drop;
    sw_fittings_options options; /* as used */
    const char *const *cautions;
    size_t caution_count;
    sw_findings findings; /* "hot_gap" "board_size" "pane_edge" "rope" "rope_hot" "rope_fill" "bar_gap" "drop" */
} sw_fittings_result;

/* result in run->keep; items lend from the stove. SW_OUT_OF_RANGE: an option, or an item whose size is no number, named;
 * SW_NO_MEMORY. */
sw_status sw_fittings_solve(sw_run *run, const sw_fittings_input *in, const sw_fittings_options *opt,
                            const sw_fittings_result **result);

#endif
