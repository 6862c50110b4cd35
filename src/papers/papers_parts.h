/* papers_parts.h: what the files of this folder share: the look, small text helpers, the picture of solids, the
 * label placer, and the drawings that appear both as files and inside the dossier. */
#ifndef SW_PAPERS_PARTS_H
#define SW_PAPERS_PARTS_H

#include "papers/pen_parts.h"

/* ---- the look: warm grey and rust on white ------------------------------------------------- */

#define A4_SHORT_MM 210.0 /* ISO 216 */
#define A4_LONG_MM  297.0

sw_ink look_dark(double width_mm);  /* outlines, text */
sw_ink look_grey(double width_mm);  /* dimensions, second voice */
sw_ink look_light(double width_mm); /* frames, hatches */
sw_ink look_pale(void);             /* grounds */
sw_ink look_rust(double width_mm);  /* accent */
sw_ink look_white(void);
sw_ink look_piece(size_t index); /* calm fill of a piece number */
sw_ink look_group(size_t index); /* colour of a subassembly */
sw_ink look_glass(void);
sw_ink look_verdict(sw_verdict verdict);
sw_ink look_dashed(sw_ink plain, const double *dash_mm, int dashes);
const double *look_chain(int *dashes); /* dash-dotted, as for bend lines and axes */

pen_type look_type(double height_mm, sw_align align);
pen_type look_type_grey(double height_mm, sw_align align);
pen_type look_type_bold(double height_mm, sw_align align);

/* ---- words and numbers, in the arena given -------------------------------------------------- */

/* Each gives NULL on no memory (recorded). */
const char *words_number(sw_run *run, double value, int decimals); /* "12.5"; "-" for NaN; no trailing zeros */
const char *words_mm(sw_run *run, double mm);                      /* a length on a drawing: one decimal at most */
const char *words_bend(sw_run *run, const sw_flat_bend *bend);     /* "90° up R4" */
const char *words_margin(sw_run *run, const sw_finding *finding);  /* "+12 %", "+0.4 mm"; "-" */
const char *words_limit(sw_run *run, const sw_finding *finding);   /* "at least 8 mm"; "-" */
const char *words_time(sw_run *run, double s);                     /* "1 h 04 min", "12.5 min", "34 s" */
const char *words_file(sw_run *run, const char *folder, const char *number, const char *name,
                       const char *ending); /* file name without surprises */
/* The text cut with an ellipsis so that it is at most most_mm wide. */
const char *words_within(sw_run *run, sw_pen *pen, double height_mm, bool bold, double most_mm, const char *text);

/* ---- label placer: boxes and lines that are taken -------------------------------------------- */

typedef struct taken { /* page mm */
    sw_box *boxes;
    size_t box_count, box_room;
    sw_point (*lines)[2];
    size_t line_count, line_room;
} taken;

sw_status taken_box(sw_run *run, taken *t, sw_box box);
sw_status taken_line(sw_run *run, taken *t, sw_point a, sw_point b);
bool taken_free(const taken *t, sw_box box); /* whether the box touches nothing taken */

/* ---- picture of solids: parallel view, hidden parts removed through a depth buffer ------------ */

/* What is the same from wherever a body is seen: its flat faces and the edges that may be drawn. */
typedef struct solid_edge {
    uint32_t a, b;          /* points of the mesh */
    uint32_t first, second; /* flats + 1; second 0 = an open edge */
    bool sharp;             /* always drawn where one side faces the viewer; others only where front turns to back */
} solid_edge;
typedef struct solid_border {
    uint32_t a, b; /* points of the mesh */
} solid_border;
typedef struct solid_flat { /* neighbouring triangles of one plane: what an odd number of its borders goes around */
    sw_vec3 normal;         /* outward, unit; 0 without area */
    uint32_t first, end;    /* borders first .. end - 1 */
} solid_flat;
typedef struct solid_shape {
    sw_mesh mesh; /* outward triangles */
    const solid_flat *flats;
    size_t flat_count;
    const solid_border *borders;
    const solid_edge *edges;
    size_t edge_count;
} solid_shape;
sw_status solid_shape_make(sw_run *run, sw_mesh mesh, const solid_shape **out); /* in scratch */

typedef struct solid_part {
    sw_mesh mesh;             /* outward triangles */
    const solid_shape *shape; /* of the mesh, for pictures; NULL = not prepared */
    sw_frame frame;           /* mesh -> world */
    sw_vec3 shift_mm;         /* added in the world (exploded views) */
    sw_ink colour;
    int tag; /* the caller's */
} solid_part;

typedef struct solid_view {
    sw_vec3 towards_viewer, up;
} solid_view;
solid_view solid_view_stove(void); /* from the front, a little right and above */
solid_view solid_view_piece(void);

typedef struct solid_chain {
    const sw_point *points;
    size_t count;
} solid_chain; /* an open line */

typedef struct solid_anchor { /* a visible pixel of a part near the middle of what is seen of it */
    bool seen;
    sw_point at; /* mm from the picture's top left */
    double off;  /* square of the distance from the middle, pixels */
} solid_anchor;

typedef struct solid_sight {    /* how a picture was seen, for points of the world that are drawn into it */
    sw_vec3 right, up, near;    /* unit */
    double x0_mm, y1_mm, z0_mm; /* of the world along these: at the picture's left, its top, behind all */
    const float *depths;        /* [rows x columns of the pixels] page mm before what is behind all; 0 = nothing */
} solid_sight;

typedef struct solid_picture {
    pen_picture pixels; /* shaded */
    solid_sight sight;
    const solid_chain *chains; /* visible edges, mm from the picture's top left */
    size_t chain_count;
    const solid_anchor *anchors; /* [parts drawn] */
    double width_mm, height_mm;  /* of the picture on the page */
    double scale;                /* page mm per mm of the world */
    double pixels_per_mm;
} solid_picture;

typedef struct solid_wish {
    double width_mm, height_mm, pixels_per_mm;
    bool anchors; /* else the picture's are NULL */
} solid_wish;     /* fits inside width x height */

/* In run->scratch. cost: triangles, pixels covered and edges. Nothing to see gives a picture of no size. */
sw_status solid_draw(sw_run *run, const solid_part *parts, size_t count, solid_view view, solid_wish wish,
                     solid_picture *out);
/* Depths alone: what is seen from there, without colours and lines. */
sw_status solid_look(sw_run *run, const solid_part *parts, size_t count, solid_view view, solid_wish wish,
                     solid_picture *out);
sw_point solid_at(const solid_picture *picture, sw_vec3 world); /* mm from the picture's top left */
/* Whether nothing stands more than slack_mm (of the world) before the point. */
bool solid_sees(const solid_picture *picture, sw_vec3 world, double slack_mm);
/* Marks the picture with its top left at `at`. */
void solid_show(sw_pen *pen, sw_point at, double zoom, const solid_picture *picture,
                double line_mm);                             /* zoom 1: as wished */
sw_status solid_packed(sw_run *run, solid_picture *picture); /* packs its pixels, for documents that show it often */

/* ---- the desk: what all papers of one dossier share, made once ------------------------------------ */

typedef struct stove_view { /* the stove seen once, drawn on as many pages as want it */
    bool exploded;
    const solid_part *parts;
    size_t part_count;
    solid_picture picture;
} stove_view;

typedef struct nest_label { /* where the number of a shape stands best: roomy, in its own frame */
    sw_point at;
    double room_mm;  /* to the nearest edge */
    double along_mm; /* free to both sides along the shape's longer side, in a band BAND_SHARE room_mm either way */
    bool upright;    /* that side is y */
} nest_label;
#define BAND_SHARE 0.6

typedef struct stove_section stove_section; /* chart_parts.h */

typedef struct paper_desk {
    const sw_dossier *d;
    lettering *letters;
    const solid_shape **shapes;     /* [piece_count] NULL = not prepared */
    const nest_label **labels;      /* [nest_count][shape_count] NULL = not prepared */
    stove_view assembled, exploded; /* picture of no size = not made */
    const stove_section *section;   /* NULL = temperatures are not known */
} paper_desk;

/* All in run->scratch, which the caller rewinds; desk_close frees the fonts. */
sw_status desk_open(sw_run *run, const sw_dossier *d, paper_desk *desk);
void desk_close(paper_desk *desk);
sw_status desk_shape(sw_run *run, paper_desk *desk, size_t piece);
sw_status desk_labels(sw_run *run, paper_desk *desk, size_t nest);
sw_status desk_views(sw_run *run, paper_desk *desk); /* both, with the pieces' shapes */

sw_status desk_section(sw_run *run, paper_desk *desk);                    /* of the assembled view's parts; section.c */
sw_status desk_whole(sw_run *run, const sw_dossier *d, paper_desk *desk); /* open, labels, both views, section */

/* ---- drawings used in several papers --------------------------------------------------------------- */

/* All placed pieces and shaped items of the stove as parts (run->scratch). tag: piece index, or -1 - item index. */
sw_status solid_stove(sw_run *run, const sw_dossier *d, bool exploded, const solid_part **parts, size_t *count);
/* The view of parts that have their shapes; in the assembled one the shifts are left out. */
sw_status view_make(sw_run *run, const solid_part *parts, size_t count, bool exploded, stove_view *view);
sw_status view_parts(sw_run *run, const paper_desk *desk, const solid_part **parts, size_t *count);
sw_status nest_labels_make(sw_run *run, const sw_nested *nest, const nest_label **labels);
sw_status draw_view(sw_run *run, const paper_desk *desk, const stove_view *view, sw_pen *pen, sw_box box);
/* With the head's ways between the cuts where wanted and planned. */
sw_status draw_nest(sw_run *run, const paper_desk *desk, size_t nest_index, size_t index, bool rapids, sw_pen *pen,
                    sw_box box);

/* Each draws into a file of its own; where `document` is not NULL, also as its next page. Rewind scratch. */
sw_status paper_flat(sw_run *run, const paper_desk *desk, size_t piece, const char *path, sw_pen *document);
sw_status paper_nest_map(sw_run *run, const paper_desk *desk, size_t nest, size_t sheet, const char *path,
                         sw_pen *document);
sw_status paper_view(sw_run *run, const paper_desk *desk, const stove_view *view, const char *path, const char *second);
sw_status paper_template(sw_run *run, const paper_desk *desk, size_t piece, const char *path);
sw_status paper_dossier(sw_run *run, const paper_desk *desk, const char *folder);

/* The same strip at the foot of every drawing: a line of labelled values. */
typedef struct strip_cell {
    const char *label, *value;
    double share;
} strip_cell;
sw_status draw_strip(sw_run *run, sw_pen *pen, sw_box box, const strip_cell *cells, size_t count);
sw_status draw_caution(sw_run *run, sw_pen *pen, sw_point at, const char *text);

#endif
