/* chart_parts.h: line charts, the stove's section, and the colours of temperatures. For this folder's files. */
#ifndef SW_PAPERS_CHART_PARTS_H
#define SW_PAPERS_CHART_PARTS_H

#include "papers/papers_parts.h"

#define CELSIUS                                                                                                        \
    "\xc2\xb0"                                                                                                         \
    "C"

/* ---- line charts: chart.c ------------------------------------------------------------------- */

typedef struct chart_line {
    const char *name;
    const double *x, *y; /* [count] NAN = a gap */
    size_t count;
    size_t tone; /* look_line */
    bool dots;   /* every point marked, too */
} chart_line;

typedef struct chart {
    const char *title, *x_name, *y_name; /* names with their units */
    const chart_line *lines;
    size_t line_count;
    double x_low, x_high, y_low, y_high; /* NAN = from the data */
    const double *marks;                 /* [mark_count] upright lines: refuels */
    size_t mark_count;
    bool last; /* names x below; else only the ticks' lines, for a chart above another */
    bool bare; /* the lines' names stand elsewhere */
} chart;

/* Into the box, with ticks, light lines and the names of the lines at the top. */
sw_status draw_chart(sw_run *run, sw_pen *pen, sw_box box, const chart *c);
enum { LINE_TONES = SW_CHART_LINES };
sw_ink look_line(size_t tone, double width_mm); /* told apart by dashes, too */
/* The step 1, 2 or 5 x 10^n that gives at most `most` ticks over the span. */
double chart_step(double span, double most);
const char *chart_tick(sw_run *run, double value, double step); /* NULL: no memory */

/* ---- temperatures: look_heat.c --------------------------------------------------------------- */

/* The colour of a temperature: pale grey-blue (cold) over ochre and rust to dark red (hot). share 0..1. */
sw_ink look_heat(double share, double width_mm);

typedef struct heat_span { /* what the colours go over, the same on all papers of a dossier */
    double low_c, high_c;
} heat_span;
heat_span heat_span_of(const sw_burned *b);
double heat_share(heat_span span, double c);
sw_status draw_heat_scale(sw_run *run, sw_pen *pen, sw_box box, heat_span span);

/* Part of the scene that is this placement of a solid_part's tag; SIZE_MAX = none. */
size_t heat_part_of(const sw_scene *scene, int tag, size_t placement);
/* What the map says of a part, when it has a mesh; else NULL. */
const sw_heat_map_part *heat_map_of(const sw_burned *b, size_t part);
bool heat_is_known(const sw_dossier *d); /* fire, air and temperatures of the parts */
bool heat_has_burn(const sw_dossier *d); /* a whole burn besides */

/* ---- the section: section.c, section_air.c ----------------------------------------------------- */

typedef struct cut_part {
    sw_point (*lines)[2]; /* y to the back, z up, mm of the stove */
    size_t count, room;
    size_t part; /* of the scene; SIZE_MAX = none */
    double c;    /* degC, NAN = not known */
    sw_point middle;
} cut_part;

struct stove_section { /* cut through the plane x = 0, seen from the right: front to the left */
    cut_part *parts;
    size_t count;
    double low_y, high_y, low_z, high_z;
};

typedef struct section_view { /* where it lies on the page */
    const stove_section *s;
    sw_point origin; /* of (low_y, low_z) */
    double scale;
} section_view;

section_view section_in(const stove_section *s, sw_box box);
sw_point section_on_page(const section_view *v, sw_point p);
void section_stroke(sw_pen *pen, const section_view *v, const cut_part *part, sw_ink ink);
/* The place on the part's cut nearest to its middle, where a leader ends; mm of the stove. */
sw_point section_place(const cut_part *part);

typedef struct side_label { /* beside the picture, with a leader to `from` */
    sw_point from;
    const char *text;
    double y_mm;
    size_t which; /* the caller's */
} side_label;
/* Moves the labels of one side so far that they stand apart; sorts them from the top. */
void spread_labels(side_label *labels, size_t count, double top_mm, double bottom_mm, double apart_mm);

/* Height in which the section fills the width between its labels, at most most_mm. */
double section_height(const paper_desk *desk, double margins_mm, double most_mm);
#define SECTION_LABELS_MM 45.0 /* of the column beside the section, on either side */
#define AIR_LABELS_MM     52.0

/* Parts coloured by temperature, named. */
sw_status draw_section(sw_run *run, const paper_desk *desk, sw_pen *pen, sw_box box);
/* The same section in grey with the air's ways, arrows as wide as the flow. */
sw_status draw_air(sw_run *run, const paper_desk *desk, sw_pen *pen, sw_box box);
sw_status draw_burn(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box);

/* ---- meshes of the map: heat_mesh.c ------------------------------------------------------------- */

#define HEAT_OPEN UINT32_MAX
/* [3 x triangle_count] of each directed edge 3 t + e (from corner e to the next) the same edge of the neighbour; HEAT_OPEN at
 * the border. In run->scratch; NULL = no memory. */
const uint32_t *heat_twins(sw_run *run, const sw_mesh *mesh);

typedef struct heat_loop {  /* closed; around what is at least as hot, to the left */
    const sw_point *points; /* [count] mm of the flat */
    const bool *inside;     /* [count] whether the way to the next point is an isotherm, not the border */
    size_t count;
} heat_loop;
typedef struct heat_field {
    const sw_mesh *mesh;
    const sw_point *at; /* [mesh->point_count] */
    const double *c;    /* [mesh->point_count] degC */
    const uint32_t *twins;
} heat_field;
/* Linear over the triangles; level -INFINITY gives the border. In run->scratch. */
sw_status heat_loops(sw_run *run, const heat_field *field, double level_c, const heat_loop **loops, size_t *count);

/* ---- files -------------------------------------------------------------------------------------- */

sw_status paper_section(sw_run *run, const paper_desk *desk, const char *path);
sw_status paper_air(sw_run *run, const paper_desk *desk, const char *path);
sw_status paper_burn(sw_run *run, const paper_desk *desk, const char *path);

/* Isotherms on the flats: the sheet pieces, then the items with a shape, each in its hottest place. */
size_t heat_flat_pages(const sw_dossier *d);
sw_status paper_heat_flats(sw_run *run, const paper_desk *desk, sw_pen *document); /* pages of an open document */

#endif
