/* cut.h: in what order and on what path the laser cuts a nested sheet, how long it takes and costs.
 *
 * Lengths mm in the sheet's frame, times s. The path is the beam's centre: contours moved off by half the kerf to
 * the scrap side, entered by a lead-in that stays clear of pieces. Outlines run counter-clockwise and holes
 * clockwise, so the scrap is always to the right of travel. The head starts at the sheet's origin (0,0) and is left
 * where the last pass ends. Method: docs/studies/cut.md. */
#ifndef SW_MAKING_CUT_CUT_H
#define SW_MAKING_CUT_CUT_H

#include "model/model.h"

typedef struct sw_cut_part { /* one placed piece: contours already in the sheet's frame */
    const char *label;       /* piece number */
    sw_region region;
    const sw_path *etches;
    size_t etch_count; /* open paths to etch first */
} sw_cut_part;

typedef struct sw_cut_input {
    const char *name; /* program name: "sheet 1, 4 mm S235" */
    const sw_cut_part *parts;
    size_t part_count;
    const sw_stock *stock;
    const sw_laser *laser;
    const sw_laser_row *row;
} sw_cut_input;

typedef enum sw_move_kind { SW_MOVE_RAPID, SW_MOVE_CUT, SW_MOVE_ETCH } sw_move_kind;

typedef struct sw_move {
    sw_move_kind kind;
    sw_vertex from;
    sw_point to;
} sw_move; /* bulge of `from` bends the move */

typedef struct sw_cut_pass { /* one beam-on stretch (between micro-joints a contour has several) */
    const sw_move *moves;
    size_t move_count; /* lead-in, contour; all SW_MOVE_CUT or all SW_MOVE_ETCH */
    sw_point start;    /* where it pierces */
    size_t part;       /* index of the part */
    int contour;       /* -1 outline, else the hole's index; -1 for an etch */
    const sw_point *via;
    size_t via_count; /* the head's way here, beam off: straight lines through these points */
} sw_cut_pass;

typedef struct sw_cut_plan {
    const sw_cut_pass *passes;
    size_t pass_count; /* in order */
    double cut_mm, etch_mm, rapid_mm;
    size_t pierces, micro_joints;
    double cut_s, pierce_s, rapid_s, etch_s, total_s; /* total: sum of the four before it */
    double corner_s;     /* part of cut_s: what corners, small arcs, starts and stops cost over cut_mm / feed */
    double gas_m3, cost; /* at 0 C, 1.013 bar; cost: machine time and gas, works currency */
    size_t rapids_over;  /* rapids that cross a finished opening or piece and found no cheap way round */
    sw_findings findings;
} sw_cut_plan;

/* Single formulas, also for reckon (sources in cut_formulas.c and cut_iso9013_table.c). NAN where an argument is
 * outside the formula's range. */
double sw_move_time_s(double d_mm, double v_mm_s, double a_mm_s2); /* straight move from rest to rest */
double sw_corner_speed_mm_s(double radius_mm, double accel_mm_s2);
double sw_laser_speed_mm_s(double share, double power_w, double density, double melt_j_kg, double kerf_mm, double s_mm);
double sw_nozzle_flow_kg_s(double cd, double d_mm, double p0_pa, double pb_pa, double t0_k, double gas_r,
                           double gamma); /* choked or not */
bool sw_nozzle_choked(double p0_pa, double pb_pa, double gamma);
double sw_normal_m3_s(double flow_kg_s, double gas_r);              /* at 0 C, 101325 Pa */
double sw_common_cut_length_mm(size_t n, double w_mm, double h_mm); /* a row of n sharing cuts of height h */
double sw_kerf_offset_mm(double kerf_mm);                           /* path off the contour, to the scrap side */
double sw_cut_time_s(double cut_mm, double feed_mm_s, size_t pierces, double pierce_s, double rapid_mm,
                     double rapid_mm_s);
double sw_cut_cost_per_m(double rate_h, double time_s, double cut_mm); /* currency of the rate, per metre cut */
double sw_iso9013_u_mm(int range, double thickness_mm);                /* NAN outside 1..5 */
double sw_iso9013_rz5_um(int range, double thickness_mm);
double sw_iso9013_deviation_mm(int class_, double thickness_mm, double nominal_mm); /* NAN outside the table */

/* plan         in run->keep; points to nothing of the input
 * returns      SW_OUT_OF_RANGE (a laser figure or part that cannot be, named), SW_CANCELLED, SW_NO_MEMORY. A lead-in
 *              with no room, a hole too small for the sheet and the like are findings; without a laser row the plan
 *              is empty and a finding says so.
 * cost         parts^2 for the order, contours x stations for lead-ins; shapes and their tracks once a shape */
sw_status sw_cut_solve(sw_run *run, const sw_cut_input *in, const sw_cut_plan **plan);

/* As sw_cut_solve for the sheets of a nest, in[count], of one laser and one row: what belongs to a shape is worked out
 * once for all of them. plans[count], all NULL on failure; progress is told sheet by sheet. */
sw_status sw_cut_solve_all(sw_run *run, const sw_cut_input *const *in, size_t count, const sw_cut_plan **plans);

#endif
