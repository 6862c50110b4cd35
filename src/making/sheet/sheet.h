/* sheet.h: unfolds and folds every sheet piece, and checks that it can be bent and fits its neighbours.
 *
 * One walk over the face tree gives the flat pattern (exact lines and arcs, lower left corner of its box at
 * (0,0)) and one gives the solid in the stove's frame. Lengths mm, angles radians, mass kg.
 * Method, ranges and worked examples: docs/studies/sheet.md. */
#ifndef SW_MAKING_SHEET_SHEET_H
#define SW_MAKING_SHEET_SHEET_H

#include "model/model.h"

/* ---- developed length: single formulas, all from DIN 6935 unless said ------------------- */

/* Correction factor k of DIN 6935 for inside radius r and thickness s (mm): 0.65 + 0.5 log10(r/s), 1 above
 * r/s = 5. NAN below r/s = 0.3, where the formula does not hold. K = k/2. */
double sw_din6935_k(double r_mm, double s_mm);
/* Compensation v, mm (negative = shorter than the sum of the legs), for opening angle beta (pi = flat).
 * Legs to the outer tangent for beta <= 90 deg, to the outside intersection above. step_above_165: the
 * standard's v = 0 above 165 deg, else the formula goes on. NAN outside 0..pi or where k is. */
double sw_din6935_v(double r_mm, double s_mm, double beta_rad, bool step_above_165);
double sw_bend_allowance_mm(double r_mm, double s_mm, double k, double angle_rad); /* |angle| (r + K s) */
double sw_bend_setback_mm(double r_mm, double s_mm,
                          double angle_rad); /* (r+s) tan(A/2); r+s above 90 deg (tangent convention) */
double sw_bend_deduction_mm(double r_mm, double s_mm, double k, double angle_rad); /* 2 (r+s) tan(A/2) - BA */
double sw_k_from_strip(double a_mm, double b_mm, double s_mm, double r_mm, double angle_rad, double flat_mm);
/* Joggle of two equal opposite bends: straight between tangents, run, least offset. NAN straight when h is below the least. */
typedef struct sw_joggle {
    double straight_mm, run_mm, least_offset_mm, developed_mm;
} sw_joggle; /* developed: both bends and the straight */
sw_joggle sw_joggle_of(double offset_mm, double s_mm, double r_mm, double k, double angle_rad);
double sw_hem_length_mm(double a_mm, double h_mm, double s_mm, double k); /* closed: a + h - 2 s + pi K s */
double sw_slot_width_mm(double s1_mm, double s2_mm, double crossing_rad, double clearance_mm);
double sw_sagitta_mm(double radius_mm, double chord_mm);
double sw_radius_from_sagitta_mm(double sagitta_mm, double chord_mm);

/* ---- the study --------------------------------------------------------------------------- */

typedef struct sw_sheet_options {
    double chord_mm;     /* chord error of folded meshes */
    double contact_mm;   /* deeper than this is a collision (found for certain from SW_CONTACT_MM more) */
    double edge_step_mm; /* spacing of gap samples along joints */
    uint32_t made_by_defaults;
} sw_sheet_options;
sw_sheet_options sw_sheet_options_defaults(void);
const sw_option *sw_sheet_option_table(size_t *count);

typedef struct sw_flat_bend { /* a row of the bend table */
    const sw_bend *bend;
    sw_point from, to;   /* middle of the zone, flat frame */
    sw_point zone[4];    /* corners of the developed zone, counter-clockwise */
    double allowance_mm; /* developed length of the zone */
    double k;            /* neutral-axis factor used */
    const char *rule;    /* "DIN 6935", "K factor of the works", "works trial: ...", "designer" */
    bool up;             /* towards the viewer of the flat */
} sw_flat_bend;

typedef struct sw_flat_mark {
    const char *text;
    sw_point at;
    double height_mm, turn_rad;
    sw_path path;
} sw_flat_mark;

typedef struct sw_flat {
    sw_region region; /* what is cut */
    sw_box box;       /* from (0,0) */
    const sw_flat_bend *bends;
    size_t bend_count;
    const sw_flat_mark *marks;
    size_t mark_count;
    const sw_motion *faces;  /* [face_count of the piece] face frame -> flat */
    double area_mm2, cut_mm; /* cut_mm: all contours */
    const sw_bend *unruled;  /* the first bend whose developed length no rule gives: such a flat is a guess and must not
                                be cut; NULL = none */
} sw_flat;

typedef struct sw_folded_edge {
    const char *name;
    const sw_vec3 *points;  /* [count] mid-surface; a whole hole ends where it begins */
    const sw_vec3 *normals; /* [count] unit, out of the sheet's front side */
    size_t count;
    double length_mm;
} sw_folded_edge;

typedef struct sw_solid {        /* in the piece's own frame (= frame of face 0) */
    const sw_frame *faces;       /* [face_count] */
    sw_mesh mesh;                /* closed */
    const sw_folded_edge *edges; /* [edge_count of the piece], same order */
    sw_vec3 low, high;           /* box */
    sw_vec3 centroid;
    double inertia_kg_mm2[6]; /* xx yy zz xy yz zx about the centroid: tensor, xx = int (y2 + z2) dm, xy = -int x y dm;
                                 nominal density over mid_area x thickness */
    double mid_area_mm2;      /* of the mid-surface */
} sw_solid;

typedef struct sw_sheet_piece {
    const sw_piece *piece;
    sw_flat flat;
    sw_solid solid;
    double mass_kg; /* of one: flat area x thickness x density */
} sw_sheet_piece;

typedef struct sw_joint_fit {
    const sw_joint *joint;
    double gap_least_mm, gap_most_mm, length_mm;
    sw_vec3 worst;
} sw_joint_fit;

typedef struct sw_sheet_result {
    const sw_sheet_piece *pieces;
    size_t piece_count; /* as in the stove */
    const sw_joint_fit *joints;
    size_t joint_count; /* as in the stove */
    double mass_kg;     /* all sheet pieces of one stove */
    double chord_mm;    /* of the solids */
    sw_findings findings;
} sw_sheet_result;

/* Unfold and fold of one piece alone. works may be NULL (DIN 6935 then). SW_OUT_OF_RANGE when no rule covers a
 * bend and none is given (named); SW_NO_MEMORY. cost linear in vertices. */
sw_status sw_sheet_unfold(sw_run *run, const sw_piece *piece, const sw_works *works, sw_flat *flat);
sw_status sw_sheet_fold(sw_run *run, const sw_piece *piece, const sw_sheet_options *opt, sw_solid *solid);

/* All pieces, joints and checks of the model's stove. result in run->keep. A bend that no rule covers is a finding here
 * (flat.unruled); SW_BAD_INPUT names pieces that are no tree of faces. */
sw_status sw_sheet_solve(sw_run *run, const sw_model *model, const sw_sheet_options *opt,
                         const sw_sheet_result **result);
/* The meshes of the folded pieces alone: no flats, edges, masses (NAN), joints or findings. As sw_sheet_solve otherwise. */
sw_status sw_sheet_solids(sw_run *run, const sw_model *model, const sw_sheet_options *opt,
                          const sw_sheet_result **result);

#endif
