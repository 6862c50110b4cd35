/* sheet_parts.h: what the files of this folder share. Nobody else includes it.
 *
 * A `part` of a piece is a face (index 0 .. face_count-1) or a zone (face_count + bend index). Zone axes: x along
 * the child's x from 0 to the width, y from the parent's tangent line (0) to the child's (allowance). */
#ifndef SW_MAKING_SHEET_SHEET_PARTS_H
#define SW_MAKING_SHEET_SHEET_PARTS_H

#include "making/sheet/sheet.h"

/* ---- the face tree, checked and measured (tree.c, rule.c) --------------------------------- */

typedef struct sw_seat { /* where a bend sits on its parent's outline */
    int face, bend;
    size_t segment;
    double from_mm, to_mm; /* along the straight segment */
} sw_seat;

typedef struct sw_zone {
    double width_mm, allowance_mm, k;
    double middle_mm; /* radius of the mid-surface */
    const char *rule; /* where k comes from */
    bool unruled;     /* nothing gives k: a guess, the flat is no good */
} sw_zone;

typedef struct sw_tree {
    const sw_piece *piece;
    const sw_seat *seats;   /* [bend_count] by face, then along the outline */
    const size_t *first;    /* [face_count + 1] seats of face f: first[f] .. first[f+1]-1 */
    const size_t *open_at;  /* [face_count] outline vertex (w,0) of a child; 0 for the root */
    const size_t *close_at; /* [face_count] outline vertex (0,0) of a child; 0 for the root */
    const int *bend_of;     /* [face_count] the bend that carries it; -1 for the root */
    const sw_zone *zones;   /* [bend_count] */
    sw_motion *faces;       /* [face_count] face frame -> flat; the root's is the identity until unfold moves it */
} sw_tree;

/* In run->scratch. SW_BAD_INPUT names the fault in the tree; SW_OUT_OF_RANGE a bend no rule covers (with
 * needs_rule; without it such a zone gets the length of the mid-surface). */
sw_status sw_sheet_tree(sw_run *run, const sw_piece *piece, const sw_works *works, bool needs_rule, sw_tree *tree);
sw_status sw_sheet_rule(sw_run *run, const sw_piece *piece, const sw_bend *bend, const sw_works *works, bool needs_rule,
                        sw_zone *zone);
size_t sw_sheet_steps(const sw_tree *tree, int face);           /* segments walked from open_at round to close_at */
sw_motion sw_sheet_child_motion(const sw_tree *tree, int bend); /* child frame -> parent frame, in the flat */
sw_motion sw_sheet_part_motion(const sw_tree *tree, int part);  /* plane coordinates of a part -> flat */
sw_motion sw_sheet_zone_motion(const sw_tree *tree, int bend);  /* zone axes -> flat */
sw_contour sw_sheet_zone_hole(const sw_tree *tree, int bend, size_t hole, sw_vertex *room); /* moved to zone axes */
sw_point sw_motion_back(sw_motion motion, sw_point p); /* the inverse; motions without mirror */
bool sw_same_point(sw_point a, sw_point b);

/* ---- plane triangles of each part joined (complex.c), skins and walls (skin.c) -------------- */

/* Chords of a segment so that none is farther than chord_mm from its arc (frames.c). */
size_t sw_sheet_chords(sw_vertex from, sw_point to, double chord_mm);
sw_status sw_sheet_rings(sw_run *run, const sw_region *r, double chord_mm, sw_rings *out); /* run->scratch (frames.c) */
/* Triangles of the rings, with extra vertices so that none spans more than one of the bands between y = 0 and top_mm;
 * vertices on y = 0 and top_mm are just those of the outline. Ring points come first. out->points NULL when the rings
 * touch or cross. */
sw_status sw_sheet_slice(sw_run *run, const sw_rings *rings, double top_mm, size_t bands, sw_mesh *out);

typedef struct sw_node {
    int part;
    sw_point at;
} sw_node; /* at: plane coordinates of the part */

typedef struct sw_complex { /* the flat as triangles, parts joined along the tangent lines */
    const sw_node *nodes;
    size_t node_count;
    const sw_triangle *triangles;
    size_t triangle_count;    /* by part */
    const size_t *part_first; /* [part count + 1] triangles of each part */
    const uint32_t *rim;      /* [2 rim_count] border edges, material to the left */
    size_t rim_count;
    const uint32_t *part_rim;     /* [2 part_rim_count] border edges of the parts taken one by one */
    const size_t *part_rim_first; /* [part count + 1] */
    size_t part_count;
} sw_complex;

sw_status sw_sheet_complex(sw_run *run, const sw_tree *tree, double chord_mm, sw_complex *out); /* in run->scratch */
typedef struct sw_skin_choice {
    int part;        /* -1 = the whole piece */
    double inset_mm; /* below half the thickness */
    bool keep;       /* the mesh goes to run->keep, else to run->scratch */
} sw_skin_choice;

/* Closed solid of the whole piece (part < 0) or one part, every skin drawn in by inset_mm; piece frame. */
sw_status sw_sheet_skin(sw_run *run, const sw_tree *tree, const sw_frame *frames, const sw_complex *complex,
                        const sw_skin_choice *choice, sw_mesh *mesh);

/* ---- unfold and fold from a tree ------------------------------------------------------------ */

sw_status sw_sheet_unfold_tree(sw_run *run, const sw_tree *tree, sw_flat *flat);
/* complex: in run->scratch, for further skins. */
sw_status sw_sheet_fold_tree(sw_run *run, const sw_tree *tree, const sw_sheet_options *opt, sw_complex *complex,
                             sw_solid *solid);

/* Frames of all faces in the root's (frames.c); into frames[face_count]. */
void sw_sheet_frames(const sw_tree *tree, sw_frame *frames);
sw_frame sw_sheet_zone_frame(const sw_tree *tree, const sw_frame *frames, int bend); /* x along, y out of the parent */
typedef struct sw_part_axes { /* a part's place in the folded piece, for many points */
    int part;
    sw_frame frame;
    double round_rad, middle_mm, side; /* of a zone: angle a mm of its y; middle radius; +1 folds to the front, -1 */
} sw_part_axes;
sw_part_axes sw_sheet_part_axes(const sw_tree *tree, const sw_frame *frames, int part);
/* Point at the part's plane coordinates, height_mm above (+) the mid-surface; piece frame. */
sw_vec3 sw_part_axes_point(const sw_part_axes *axes, sw_point p, double height_mm);
sw_status sw_sheet_edges(sw_run *run, const sw_tree *tree, const sw_frame *frames, double chord_mm,
                         const sw_folded_edge **edges); /* of the piece, in run->keep (edges.c) */
typedef struct sw_edge_tracer {
    sw_run *run;
    sw_arena *into; /* run->keep or run->scratch */
    const sw_tree *tree;
    const sw_frame *frames;
    double chord_mm;
} sw_edge_tracer;
/* One edge. SW_BAD_INPUT when it names no segments of the piece. */
sw_status sw_sheet_trace(const sw_edge_tracer *t, const sw_edge *edge, sw_folded_edge *out);

/* Exact mid-surface area, centroid and inertia (mass.c). */
void sw_sheet_mass(const sw_tree *tree, const sw_frame *frames, sw_solid *solid);

/* ---- boxes and distances of the parts (boxes.c, gauge.c) --------------------------------------- */

typedef struct sw_space_box {
    sw_vec3 low, high;
} sw_space_box; /* low > high: empty */

/* What each part of the folded piece takes up, piece frame; boxes[part count] in run->scratch. Zones by their chords. */
sw_status sw_sheet_boxes(sw_run *run, const sw_complex *complex, const sw_mesh *solid, const sw_space_box **boxes);

/* ---- checks: each appends to findings -------------------------------------------------------- */

typedef struct sw_sheet_case { /* one piece under study; all of it lives to the end of the study */
    const sw_tree *tree;
    const sw_complex *complex;
    const sw_space_box *boxes; /* [part count] */
    const sw_sheet_piece *piece;
} sw_sheet_case;

/* Distances from one piece, in its own frame. A question changes where the next one starts: one thread. */
typedef struct sw_gauge sw_gauge;
/* In run->scratch. chord_mm: of the boxes. */
sw_status sw_gauge_make(sw_run *run, const sw_sheet_case *c, double chord_mm, sw_gauge **out);
double sw_gauge_gap(sw_gauge *gauge, sw_vec3 p); /* 0 inside */
/* From the cut wall of the sheet along an edge; half_mm: half the thickness. */
double sw_wall_gap(const sw_folded_edge *e, double half_mm, sw_vec3 p);
double sw_gauge_part_gap(const sw_gauge *gauge, int part, sw_vec3 p);
/* Whether p lies in a hole of a face, or above or below it by at most reach_mm. */
bool sw_gauge_in_slot(const sw_gauge *gauge, sw_vec3 p, double reach_mm);

typedef struct sw_sheet_study {
    const sw_model *model;
    const sw_sheet_options *opt;
    sw_sheet_case *cases; /* [piece_count] */
    size_t case_count;
    sw_findings *findings;
} sw_sheet_study;

/* Judges and appends; what and where may be NULL from a failed sw_text_format (SW_NO_MEMORY). The remedy is dropped
 * when the finding holds. */
sw_status sw_sheet_report(sw_run *run, const sw_sheet_study *study, sw_finding finding, double watch_margin);
const char *sw_piece_label(sw_run *run, const sw_piece *piece); /* "A-01 left side", run->keep; NULL on no memory */

sw_status sw_check_radius(sw_run *run, const sw_sheet_study *study, const sw_sheet_case *c); /* check_radius.c */
sw_status sw_check_flange(sw_run *run, const sw_sheet_study *study, const sw_sheet_case *c); /* check_flange.c */
sw_status sw_check_holes(sw_run *run, const sw_sheet_study *study, const sw_sheet_case *c);  /* check_holes.c */
sw_status sw_check_relief(sw_run *run, const sw_sheet_study *study, const sw_sheet_case *c); /* check_relief.c */
sw_status sw_check_flat(sw_run *run, const sw_sheet_study *study, const sw_sheet_case *c);   /* check_flat.c */
sw_status sw_check_rule(sw_run *run, const sw_sheet_study *study, const sw_sheet_case *c);   /* rule.c */
sw_status sw_check_marks(sw_run *run, const sw_sheet_study *study);                          /* check_marks.c */
sw_status sw_check_stock(sw_run *run, const sw_sheet_study *study);                          /* check_stock.c */
sw_status sw_check_collision(sw_run *run, const sw_sheet_study *study);                      /* check_collision.c */
sw_status sw_check_joints(sw_run *run, const sw_sheet_study *study, sw_joint_fit *fits);     /* check_joints.c */

#endif
