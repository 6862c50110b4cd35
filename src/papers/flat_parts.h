/* flat_parts.h: between the files that make the drawing of a flat. Flat frame mm, origin lower left, y up; the page
 * is reached by `at` (where the flat's origin lies) and `scale` (page mm per mm). */
#ifndef SW_PAPERS_FLAT_PARTS_H
#define SW_PAPERS_FLAT_PARTS_H

#include "papers/papers_parts.h"

typedef struct hole_place {
    double x_mm, y_mm, half_x_mm, half_y_mm;
    size_t hole;
} hole_place; /* middle and half sides of its box */

typedef struct hole_group { /* holes of one shape and size */
    char tag[8];            /* "a", "b", ... */
    const char *what;       /* "ø9", "slot 40 x 8" */
    const hole_place *places;
    size_t count;
    bool round;
    double size_mm; /* greater side of the box */
} hole_group;

typedef struct flat_sheet { /* one drawing while it is made */
    const paper_desk *desk;
    const sw_dossier *d;
    const sw_sheet_piece *piece;
    const solid_shape *shape;
    sw_pen *pen;
    bool lying; /* landscape */
    double scale;
    const char *scale_text; /* "1:5" */
    sw_point at;            /* page point of the flat's (0,0) */
    sw_box area;            /* page box left for the flat with its dimensions */
    const hole_group *groups;
    size_t group_count;
    const char **rules;    /* [rule_count] the different rules of the bends */
    const size_t *rule_of; /* [bend_count] */
    size_t rule_count;
    taken taken;
} flat_sheet;

#define FLAT_LEFT_MM   24.0 /* room for dimensions round the flat, page mm */
#define FLAT_BOTTOM_MM 24.0
#define FLAT_TOP_MM    11.0
#define FLAT_RIGHT_MM  13.0
#define FLAT_ROW_MM    4.3 /* height of a table row */

sw_point flat_page(const flat_sheet *f, sw_point p);

sw_status flat_holes(sw_run *run, flat_sheet *f);             /* fills groups; flat_holes.c */
sw_status flat_rules(sw_run *run, flat_sheet *f);             /* fills rules; flat_rules.c */
size_t flat_rule_lines(const flat_sheet *f, double width_mm); /* that all rules take below the bend table */
sw_status flat_rule_write(sw_run *run, flat_sheet *f, size_t rule, sw_box box, double *y_mm);
double flat_tables_height(const flat_sheet *f, double page_width_mm); /* page mm for the tables below the flat */
sw_status flat_tables(sw_run *run, flat_sheet *f, sw_box box);        /* flat_tables.c */
sw_status flat_shape(sw_run *run, flat_sheet *f);                     /* the outline, zones, bend lines; flat_shape.c */
sw_status flat_dimensions(sw_run *run, flat_sheet *f);                /* flat_dimensions.c */
sw_status flat_labels(sw_run *run, flat_sheet *f);                    /* flat_labels.c: bends and holes */

#endif
