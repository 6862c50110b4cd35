/* chart_parts.h: line charts and the stove's section coloured by temperature. For this folder's files. */
#ifndef SW_PAPERS_CHART_PARTS_H
#define SW_PAPERS_CHART_PARTS_H

#include "papers/papers_parts.h"

typedef struct chart_line {
    const char *name;
    const double *x, *y; /* [count] NAN = a gap */
    size_t count;
    size_t tone; /* look_line */
} chart_line;

typedef struct chart {
    const char *title, *x_name, *y_name; /* names with their units */
    const chart_line *lines;
    size_t line_count;
    double x_low, x_high, y_low, y_high; /* NAN = from the data */
    const double *marks;                 /* [mark_count] upright lines: refuels */
    size_t mark_count;
    bool last; /* names x below; else only the ticks' lines, for a chart above another */
} chart;

/* Into the box, with ticks, light lines and the names of the lines at the top. */
sw_status draw_chart(sw_run *run, sw_pen *pen, sw_box box, const chart *c);
sw_ink look_line(size_t tone, double width_mm); /* told apart by dashes, too */

/* The colour of a temperature: pale grey-blue (cold) over ochre and rust to dark red (hot). share 0..1. */
sw_ink look_heat(double share, double width_mm);
sw_status draw_heat_scale(sw_run *run, sw_pen *pen, sw_box box, double low_c, double high_c);

/* The stove cut through the plane x = 0, seen from the right: parts coloured by temperature, the main ones named. */
sw_status draw_section(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box);
/* The same section in grey with the air's ways, arrows as wide as the flow. */
sw_status draw_air(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box);
sw_status draw_burn(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box);

#endif
