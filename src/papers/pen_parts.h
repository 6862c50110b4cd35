/* pen_parts.h: the inside of the pen, for this folder's files.
 *
 * A pen kind is a table of few functions; a shape is told as a path (move, line, arc, shut) and then painted.
 * Page coordinates mm, origin top left, y down. Text heights are heights of capitals (as ISO 3098 counts them). */
#ifndef SW_PAPERS_PEN_PARTS_H
#define SW_PAPERS_PEN_PARTS_H

#include "papers/papers.h"

#include <cairo.h>
#include <pango/pangocairo.h>

/* ---- lettering: one font, two weights, measured and shown at one size and scaled ----------- */

typedef struct lettering {
    PangoContext *context;
    PangoLayout *layouts[2]; /* plain, bold */
    double advances[2][128]; /* of single ASCII letters, capitals of 1 mm; 0 = not measured yet */
} lettering;

bool lettering_open(lettering *letters);
void lettering_close(lettering *letters);
/* Width of the text for capitals of 1 mm, mm. Leaves the text set in the layout. */
double lettering_width(lettering *letters, bool bold, const char *text);
/* Sum of the letters' own widths: near enough to break lines, without laying the text out. */
double lettering_estimate(lettering *letters, bool bold, const char *text, size_t length);
/* Shows the text last measured, baseline start at the current transform's (0,0), capitals 1 unit high, y down. */
void lettering_show(lettering *letters, bool bold, cairo_t *cairo);
/* Em size for capitals of 1 mm, ascent and descent of the em box for SVG and bounds, all in mm a mm of capital height. */
#define LETTER_EM      (1.0 / 0.729) /* DejaVu Sans: capitals are 0.729 em high (OS/2 sCapHeight 1493 of 2048) */
#define LETTER_DESCENT 0.33          /* DejaVu Sans: descender 0.24 em */

/* ---- paint and type ------------------------------------------------------------------------ */

typedef struct pen_paint {
    bool fill, stroke;
    sw_ink fill_ink, stroke_ink;
} pen_paint;

typedef struct pen_type { /* how a text stands */
    double height_mm;
    sw_align align;
    double turn_rad; /* counter-clockwise on the page */
    bool bold;
    sw_ink ink;
} pen_type;

typedef struct pen_picture { /* opaque pixels, 0x00RRGGBB, row after row from the top */
    const uint32_t *pixels;
    int columns, rows;
} pen_picture;

typedef struct pen_kind {
    sw_status (*open)(sw_run *run, sw_pen *pen);
    void (*page)(sw_pen *pen);
    void (*begin)(sw_pen *pen);
    void (*move)(sw_pen *pen, sw_point to);
    void (*line)(sw_pen *pen, sw_point to);
    void (*arc)(sw_pen *pen, sw_arc arc, sw_point to);
    void (*shut)(sw_pen *pen);
    void (*paint)(sw_pen *pen, const pen_paint *paint);
    void (*text)(sw_pen *pen, sw_point start, const pen_type *type, double width_mm, const char *text);
    void (*picture)(sw_pen *pen, sw_box box, const pen_picture *picture);
    sw_status (*close)(sw_run *run, sw_pen *pen); /* finishes the document; the writer is closed by the caller */
    void (*drop)(sw_pen *pen);                    /* frees what the kind holds */
} pen_kind;

struct sw_pen {
    const pen_kind *kind;
    sw_writer *writer;
    bool lent;                  /* the writer belongs to someone else and stays open */
    double width_mm, height_mm; /* of the current page */
    lettering letters;
    const char *path, *title, *date; /* date "2026-11-25" */
    cairo_surface_t *surface;
    cairo_t *cairo;
    bool no_memory;
    sw_box shape; /* trace: box of the path so far */
};

extern const pen_kind pen_svg, pen_pdf, pen_png, pen_trace;

/* An SVG element written into an open writer (which stays open): for pages that hold their figures. */
sw_status pen_open_within(sw_run *run, sw_writer *writer, double width_mm, double height_mm, sw_pen **pen);
void pen_about(sw_pen *pen, const char *title, const char *date); /* document title and date, before the first mark */
void pen_write(sw_pen *pen, sw_point at, pen_type type, const char *text);
double pen_width(sw_pen *pen, double height_mm, bool bold, const char *text);
void pen_vertices(sw_pen *pen, const sw_vertex *v, size_t n, bool closed); /* page coordinates, bulge in page axes */
void pen_shape(sw_pen *pen, const pen_paint *paint, const sw_vertex *v, size_t n, bool closed);
void pen_lines(sw_pen *pen, sw_ink ink, const sw_point (*lines)[2], size_t count); /* many strokes as one path */
void pen_box(sw_pen *pen, const pen_paint *paint, sw_box box);
void pen_circle(sw_pen *pen, const pen_paint *paint, sw_point centre, double radius_mm);
void pen_show(sw_pen *pen, sw_box box, const pen_picture *picture);

/* Where a point of a drawing (y up, under motion) comes to lie on the page. */
sw_point pen_on_page(sw_motion motion, double scale, sw_point at, sw_point p);

#endif
