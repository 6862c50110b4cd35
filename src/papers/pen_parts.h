/* pen_parts.h: the inside of the pen, for this folder's files.
 *
 * A pen kind is a table of few functions; a shape is told as a path (move, line, arc, shut) and then painted.
 * Page coordinates mm, origin top left, y down. Text heights are heights of capitals (as ISO 3098 counts them). */
#ifndef SW_PAPERS_PEN_PARTS_H
#define SW_PAPERS_PEN_PARTS_H

#include "papers/lettering_parts.h"
#include "papers/papers.h"
#include "papers/png_parts.h"

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
    const png_packed *packed; /* the same pixels packed already; NULL = not yet */
} pen_picture;

typedef struct pen_stamp { /* a region drawn often in one size: told once, then only placed */
    const sw_region *region;
    double scale;
    pen_paint paint;
    size_t number; /* in the document, from 1 */
} pen_stamp;

typedef struct pen_kind {
    sw_status (*open)(sw_run *run, sw_pen *pen);
    void (*page)(sw_pen *pen); /* NULL: one page only */
    void (*begin)(sw_pen *pen);
    void (*move)(sw_pen *pen, sw_point to);
    void (*line)(sw_pen *pen, sw_point to);
    void (*arc)(sw_pen *pen, sw_arc arc, sw_point to);
    void (*shut)(sw_pen *pen);
    void (*paint)(sw_pen *pen, const pen_paint *paint);
    void (*text)(sw_pen *pen, sw_point start, const pen_type *type, double width_mm, const char *text);
    void (*picture)(sw_pen *pen, sw_box box, const pen_picture *picture);
    void (*tell)(sw_pen *pen, const pen_stamp *stamp); /* NULL: stamps are drawn each time */
    void (*stamp)(sw_pen *pen, const pen_stamp *stamp, sw_motion motion, sw_point at);
    void (*entry)(sw_pen *pen, const char *title, const char *label); /* of the page, in the contents; may be NULL */
    sw_status (*close)(sw_run *run, sw_pen *pen); /* finishes the document; the writer is closed by the caller */
    void (*drop)(sw_pen *pen);                    /* frees what the kind holds; NULL = nothing */
} pen_kind;

typedef struct pen_stamps { /* those of one document, on the heap */
    pen_stamp *items;
    size_t count, room;
    bool no_memory;
} pen_stamps;

struct sw_pen {
    const pen_kind *kind;
    sw_writer *writer;
    bool lent;                  /* the writer belongs to someone else and stays open */
    double width_mm, height_mm; /* of the current page */
    lettering *letters;
    bool own_letters;
    const char *path, *title, *date; /* date "2026-11-25" */
    pen_stamps own_stamps, *stamps;  /* stamps: own or lent */
    byte_run out;                    /* SVG: what is not yet in the writer */
    struct pen_pdf_state *pdf;
    struct pen_png_state *png;
    sw_pen *pair[2]; /* both get every mark; NULL = has no more pages */
    bool no_memory;
    sw_box shape; /* trace: box of the path so far */
};

#define PEN_PIXELS_PER_MM (120.0 / 25.4) /* of PNG pages: 120 dpi, an A4 page on a screen */

extern const pen_kind pen_svg, pen_pdf, pen_png, pen_trace, pen_pair;

/* As sw_pen_open, with lettering that is shared; width 0: the first page begins at sw_pen_page (PDF). */
sw_status pen_open_lettered(sw_run *run, const char *path, lettering *letters, double width_mm, double height_mm,
                            sw_pen **pen);
/* An SVG element written into an open writer (which stays open): for pages that hold their figures. */
typedef struct pen_host {
    sw_writer *writer;
    lettering *letters;
    pen_stamps *stamps; /* of the whole page */
} pen_host;
sw_status pen_open_within(sw_run *run, const pen_host *host, double width_mm, double height_mm, sw_pen **pen);
void pen_stamps_free(pen_stamps *stamps);
/* Every mark goes to both; the two are closed by their owner, the pair needs no closing. */
sw_pen pen_pair_of(sw_pen *a, sw_pen *b);

void pen_about(sw_pen *pen, const char *title, const char *date); /* document title and date, before the first mark */
/* Names the page in the document's contents, and in the viewer's page count. */
void pen_entry(sw_pen *pen, const char *title, const char *label);
/* The next page as large as this one. A pen of one page writes `note` at the place instead; false when no pen goes on. */
bool pen_turn(sw_pen *pen, sw_point at, pen_type type, const char *note);
void pen_region(sw_pen *pen, const pen_paint *paint, sw_motion motion, double scale, sw_point at, const sw_region *r);
/* As pen_region; the document tells the region once for each scale and paint. */
void pen_region_stamp(sw_pen *pen, const pen_paint *paint, sw_motion motion, double scale, sw_point at,
                      const sw_region *r);
void pen_write(sw_pen *pen, sw_point at, pen_type type, const char *text);
double pen_width(sw_pen *pen, double height_mm, bool bold, const char *text);
/* For kinds: the matrix a b c d of a motion's turn and mirror in page axes (x' = a x + c y, y' = b x + d y); the
 * picture packed as it is or into `made` (NULL: no memory). */
void pen_turned_axes(sw_motion motion, double matrix[4]);
const png_packed *pen_packed(const pen_picture *picture, byte_run *rows, png_packed *made);
void pen_told(sw_pen *pen, const pen_stamp *stamp); /* for kinds: the stamp's path about (0,0) and its paint */
void pen_vertices(sw_pen *pen, const sw_vertex *v, size_t n, bool closed); /* page coordinates, bulge in page axes */
void pen_shape(sw_pen *pen, const pen_paint *paint, const sw_vertex *v, size_t n, bool closed);
void pen_lines(sw_pen *pen, sw_ink ink, const sw_point (*lines)[2], size_t count); /* many strokes as one path */
void pen_box(sw_pen *pen, const pen_paint *paint, sw_box box);
void pen_circle(sw_pen *pen, const pen_paint *paint, sw_point centre, double radius_mm);
void pen_show(sw_pen *pen, sw_box box, const pen_picture *picture);

/* Where a point of a drawing (y up, under motion) comes to lie on the page. */
sw_point pen_on_page(sw_motion motion, double scale, sw_point at, sw_point p);

#endif
