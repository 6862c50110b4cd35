/* papers.h: what goes on paper and to machines, from results already computed. A paper computes nothing.
 *
 * Drawings go through one pen of few calls; SVG, PDF, PNG, bounds and trace are pens. Page coordinates are mm,
 * origin at the top left, y down. Every file is written whole or not at all. */
#ifndef SW_PAPERS_PAPERS_H
#define SW_PAPERS_PAPERS_H

#include "burning/burn/burn.h"
#include "dxf/dxf.h"
#include "log/log.h"
#include "making/coat/coat.h"
#include "making/cut/cut.h"
#include "making/fit/fit.h"
#include "making/fittings/fittings.h"
#include "making/form/form.h"
#include "making/heft/heft.h"
#include "making/join/join.h"
#include "making/line/line.h"
#include "making/nest/nest.h"
#include "making/sheet/sheet.h"
#include "proving/trial/trial.h"
#include "siting/draw/draw.h"
#include "siting/flue/flue.h"
#include "siting/site/site.h"

/* ---- everything one dossier tells ------------------------------------------------------ */

typedef struct sw_nested { /* one material and thickness */
    const char *name;      /* "4 mm S235" */
    const sw_grade *grade;
    double thickness_mm;
    const sw_nest_input *input;   /* shapes' tag = piece index */
    const sw_nest_result *result; /* NULL when it could not be nested: `why` tells */
    const char *why;
    const sw_cut_plan *const *plans; /* [result->sheet_count] */
    const sw_cut_input *const *cuts; /* [result->sheet_count] */
} sw_nested;

typedef struct sw_burned { /* fire, air and heat of the stove at its duty */
    const char *why;       /* not computed because: "" when it was */
    const sw_burn_options *options;
    const sw_scene *scene;
    const sw_fire_result *fire;
    const sw_air_result *air;
    const sw_burn_point *point;
    const double *hot_k, *cold_k; /* [scene->part_count] */
    const sw_burn_run *through;   /* a whole burn from cold; NULL = not asked */
    const sw_heat_map *map;       /* NULL = not asked */
    const sw_burn_fit *fit;       /* a hot test; NULL = none given */
    const sw_band *bands;         /* [SW_BANDS]; NULL = not asked */
    size_t band_samples;
    sw_burn *burn; /* to go on from, under other conditions */
} sw_burned;

typedef struct sw_draw_row { /* an operating point under one weather with one slide */
    double outside_k, wind_pa, wash_share;
    sw_draw_point point;
} sw_draw_row;

typedef struct sw_housed { /* the stove in the house */
    const char *why;       /* not computed because: "" when it was */
    const sw_flue_input *flue_in;
    const sw_flue_result *flue;
    const sw_flue_step *steps; /* the calculation sheet */
    size_t step_count;
    const sw_flue_try *tries; /* sizes and liners compared; NULL = not asked */
    size_t try_count;
    const sw_flue_start *start;   /* lit cold on a mild day; NULL = not computed */
    const sw_site_input *site_in; /* the stove's box as it stands, its hot faces; NULL with site */
    const sw_site_result *site;
    const sw_draw_point *mild, *cold; /* on the real chimney at 15 degC and at the site's lowest; NULL = not computed */
    const sw_draw_point *fans;        /* mild, all fans at full; NULL = no fans, or not computed */
    const sw_draw_row *draws;         /* weather by wind by wash slide; NULL = not asked */
    size_t draw_count;
    sw_site_supply supply;  /* of the air that the fire takes from the room */
    const sw_draw_map *map; /* NULL = not asked */
} sw_housed;

typedef struct sw_operating { /* the stove on its real chimney under one weather */
    const sw_draw_point *point;
    const sw_flue_case *along; /* NULL = no operating point */
} sw_operating;

typedef struct sw_shopped { /* the workshop; what was not asked is NULL */
    const sw_form_fit_result *trials;
    const sw_form_result *form;
    const sw_join_result *join;
    const sw_fit_result *fit;
    const sw_lift_result *lift;
    const sw_coat_result *coat;
    const sw_fittings_result *fittings;
    const sw_line_input *line_in;
    const sw_line_result *line;
} sw_shopped;

typedef struct sw_dossier {
    sw_model model;
    size_t batch;
    const sw_sheet_result *sheet;
    const sw_heft_result *heft;
    sw_shopped shop;
    sw_housed *housed; /* NULL = no house given */
    sw_burned *burned; /* NULL = not asked */
    const sw_nested *nests;
    size_t nest_count;
    sw_findings findings; /* all studies, sorted worst first */
    const char *date;     /* "2026-11-25", given so that bytes repeat */
} sw_dossier;

/* ---- the pen ---------------------------------------------------------------------------- */

typedef struct sw_pen sw_pen;
typedef struct sw_ink {
    double r, g, b, width_mm;
    const double *dash_mm;
    int dashes;
} sw_ink; /* width 0 = fill */
typedef enum sw_align { SW_LEFT, SW_CENTRE, SW_RIGHT } sw_align;

/* Pages of one document. Kinds by file name: .svg (one page), .pdf, .png (one page, 120 dpi). SW_IO at close. */
sw_status sw_pen_open(sw_run *run, const char *path, double width_mm, double height_mm, sw_pen **pen);
void sw_pen_page(sw_pen *pen, double width_mm, double height_mm); /* starts the next page (PDF) */
void sw_pen_line(sw_pen *pen, sw_ink ink, sw_point a, sw_point b);
void sw_pen_contour(sw_pen *pen, sw_ink ink, sw_motion motion, double scale, sw_point at,
                    sw_contour c); /* y up inside, drawn about `at` */
void sw_pen_region(sw_pen *pen, sw_ink fill, sw_ink stroke, sw_motion motion, double scale, sw_point at,
                   const sw_region *r);
void sw_pen_polygon(sw_pen *pen, sw_ink ink, const sw_point *points, size_t count, bool closed);
void sw_pen_text(sw_pen *pen, sw_point at, double height_mm, sw_align align, double turn_rad,
                 const char *text); /* baseline at `at` */
double sw_pen_text_width(sw_pen *pen, double height_mm, const char *text);
sw_status sw_pen_close(sw_run *run, sw_pen *pen);
void sw_pen_abandon(sw_pen *pen);

/* ---- single papers: each writes one file ------------------------------------------------- */

sw_status sw_paper_flat(sw_run *run, const sw_dossier *d, size_t piece, const char *path); /* A4 drawing of a flat */
sw_status sw_paper_template(sw_run *run, const sw_dossier *d, size_t piece,
                            const char *path); /* 1:1 curvature template, PDF pages tiled on A4 with check scale */
sw_status sw_paper_nest_map(sw_run *run, const sw_dossier *d, size_t nest, size_t sheet, const char *path);
sw_status sw_paper_views(sw_run *run, const sw_dossier *d, bool exploded,
                         const char *path); /* assembled or exploded picture */
sw_status sw_paper_piece_list_csv(sw_run *run, const sw_dossier *d, const char *path);
sw_status sw_paper_gltf(sw_run *run, const sw_dossier *d,
                        const char *path); /* glTF 2.0, binary .glb: one named node a placed piece */
/* The same small and fast to show, for who asks again and again: no materials or masses; positions as whole numbers of the node's
 * scale (KHR_mesh_quantization); every node's `extras.shape` names its geometry by a mark of its bytes, and a geometry
 * whose mark is among held[held_count] is left out. Marks are 16 hex digits, equal for equal geometry. */
sw_status sw_paper_gltf_light(sw_run *run, const sw_dossier *d, const uint64_t *held, size_t held_count, sw_writer *w);
sw_status sw_paper_flat_dxf(sw_run *run, const sw_sheet_piece *piece, const char *path); /* layers CUT ETCH BEND */
sw_status sw_paper_sheet_dxf(sw_run *run, const sw_cut_input *cut, const char *path);
sw_status sw_paper_motion(sw_run *run, const sw_cut_input *cut, const sw_cut_plan *plan,
                          const char *path); /* ISO 6983 words */

sw_status sw_paper_seams_csv(sw_run *run, const sw_join_result *join, const char *path); /* for the robot's teacher */

sw_status sw_paper_gltf_heat(sw_run *run, const sw_dossier *d,
                             const char *path); /* the same coloured by temperature: a vertex with a map, else a part */

/* Line charts on one sheet (PDF: pages of A4), all with the same lines, named once. .svg, .pdf or .png. */
typedef struct sw_chart_line {
    const char *name;
    const double *x, *y; /* [count] NAN = a gap */
    size_t count;
} sw_chart_line;
typedef struct sw_line_chart {
    const char *title, *x_name, *y_name; /* names with their units */
    const sw_chart_line *lines;
    size_t line_count; /* at most SW_CHART_LINES: more are not told apart */
} sw_line_chart;
enum { SW_CHART_LINES = 6 };
sw_status sw_paper_charts(sw_run *run, const char *title, const sw_line_chart *charts, size_t count, const char *path);

/* Reads a motion program back (words G0 G1 G2 G3 X Y I J, G20/G21 G90/G91, beam words as given by the laser) into
 * beam-on paths, and compares with the plan: largest distance between the two in *worst_mm. SW_BAD_INPUT with
 * file and line where the program is not understood. */
sw_status sw_motion_read(sw_run *run, const char *file, const char *bytes, size_t length, const sw_laser *laser,
                         const sw_cut_pass **passes, size_t *count);
sw_status sw_motion_compare(sw_run *run, const sw_cut_plan *plan, const sw_cut_pass *passes, size_t count,
                            double *worst_mm);

/* Findings and figures as JSON (schema: docs/json.md), newline at the end. */
sw_status sw_paper_json(sw_run *run, const sw_dossier *d, sw_writer *writer);
/* Without the newline. */
sw_status sw_paper_json_operating(sw_run *run, const sw_operating *operating, sw_writer *writer);

/* The dossier: one source makes dossier.html and dossier.pdf in the folder. */
sw_status sw_paper_dossier(sw_run *run, const sw_dossier *d, const char *folder);

/* All files of the dossier into the open folder, each machine file read back and compared before it counts as
 * written. *files lists them, relative, with what each is for. */
typedef struct sw_paper_file {
    const char *path, *what;
} sw_paper_file;
sw_status sw_papers_write(sw_run *run, const sw_dossier *d, const sw_folder *folder, const sw_paper_file **files,
                          size_t *count);

/* ---- a test on the stand ---------------------------------------------------------------- */

typedef struct sw_tested {
    const sw_dossier
        *d; /* findings: the test's, sorted; stove and burned: of the stove it was compared with, or NULL */
    const sw_trial_record *record;
    const sw_trial_result *result;
} sw_tested;

/* Into the folder: report and plate and, with a stove, plan, each as HTML and PDF; hot_test.csv for `heat --test`,
 * declared.lua for `flue --declared` (not without a charge that counts), measured.csv to begin the next file with.
 * *files lists them, relative, with what each is for. */
sw_status sw_papers_trial(sw_run *run, const sw_tested *tested, const char *folder, const sw_paper_file **files,
                          size_t *count);
sw_status sw_paper_trial_json(sw_run *run, const sw_tested *tested, sw_writer *writer); /* docs/json.md */

/* ---- the works' records ------------------------------------------------------------------- */

typedef struct sw_label { /* of one stove; texts may be "" but the serial number */
    const char *serial, *model, *batch, *works;
} sw_label;
/* A page of 100 x 50 mm a label, PDF: the serial number in letters and as a QR code (ISO/IEC 18004, level M). SW_BAD_INPUT:
 * a number too long for a code. */
sw_status sw_paper_labels(sw_run *run, const sw_label *labels, size_t count, const char *date, const char *path);

typedef struct sw_logged {  /* what a page of the log tells; one of history and statistics */
    const char *log, *date; /* the log's name as the user gave it; "2026-11-25" */
    const char *serial;     /* with a history */
    const sw_log_records *history;
    const sw_log_statistics *statistics;
} sw_logged;
/* HTML or PDF by the ending of the path; SW_BAD_INPUT: neither. */
sw_status sw_paper_log(sw_run *run, const sw_logged *logged, const char *path);

#endif
