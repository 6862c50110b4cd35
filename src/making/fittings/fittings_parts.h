/* fittings_parts.h: what the steps of the study of fittings share. For this folder only. */
#ifndef SW_MAKING_FITTINGS_FITTINGS_PARTS_H
#define SW_MAKING_FITTINGS_FITTINGS_PARTS_H

#include "making/fittings/fittings.h"

typedef struct fittings_job {
    const sw_fittings_input *in;
    const sw_fittings_options *opt;
    sw_fittings_result *result;
} fittings_job;

/* fittings_gaps.c: gaps and neighbours of one place of an item; NAN and "" without meshes. */
typedef struct fittings_gaps fittings_gaps;
sw_status fittings_gaps_make(sw_run *run, const fittings_job *job, fittings_gaps **gaps); /* in run->scratch */
sw_status fittings_gaps_of(sw_run *run, const fittings_gaps *gaps, const sw_item *item, size_t placement,
                           double gap_mm[SW_SIDES], const char *beside[SW_SIDES]);

/* fittings_fit.c: how hot a board, pane or casting gets, and what holds it: by the heat study, else (*found false) an option. */
double fittings_hot_k(const fittings_job *job, const sw_item *item, bool outer, bool *found);
double fittings_cut_mm(const fittings_job *job, double drawn_mm); /* fittings_boards.c: as cut */
sw_status fittings_fits(sw_run *run, fittings_job *job);          /* fittings_fit.c */
sw_status fittings_boards(sw_run *run, fittings_job *job);        /* fittings_boards.c: the cut list */
sw_status fittings_nest(sw_run *run, fittings_job *job);          /* fittings_nest.c: boards onto sheets */
sw_status fittings_glass(sw_run *run, fittings_job *job);         /* fittings_glass.c: panes, ropes, ball drop */
sw_status fittings_grates(sw_run *run, fittings_job *job);        /* fittings_grate.c */
sw_status fittings_findings(sw_run *run, fittings_job *job);      /* fittings_findings.c */

/* fittings_pack.c: boards of one kind onto equal sheets, by cuts from edge to edge. */
typedef struct pack_part {
    double w_mm, h_mm;
    size_t cut; /* the caller's */
} pack_part;
typedef struct pack_place {
    size_t part, sheet;
    double x_mm, y_mm;
    bool turned;
} pack_place;
typedef struct pack_stock {
    double length_mm, width_mm, saw_mm;
} pack_stock;
/* places [count] in the order of the parts; every part fits a sheet. Gives the sheets used in *sheets. SW_NO_MEMORY. */
sw_status fittings_pack(sw_run *run, const pack_part *parts, size_t count, pack_stock stock, pack_place *places,
                        size_t *sheets);
size_t fittings_pack_bound(const pack_part *parts, size_t count, pack_stock stock);

#endif
