/* fit_parts.h: what the steps of this study share. Nobody else includes it. All arrays live in run->scratch unless said.
 *
 * A specimen is one placement of one piece. A row is one distance between two specimens, looked at along a direction; its
 * sensitivities stand in a dense line of `coefficients`, one a contributor. */
#ifndef SW_MAKING_FIT_FIT_PARTS_H
#define SW_MAKING_FIT_FIT_PARTS_H

#include "making/fit/fit.h"

typedef struct fit_cut { /* which cut line: a run of segments of a closed line of a face or zone */
    int face;            /* -1 = none */
    size_t zone, hole, segment;
} fit_cut;

typedef struct fit_foot { /* a point of a specimen that a distance is measured from */
    size_t specimen;
    int face;    /* of the piece; a zone's: its bend's child */
    size_t zone; /* 0, or of bends[zone - 1] */
    sw_vec3 at;  /* piece frame */
    fit_cut cut;
    sw_vec3 cut_way;  /* where it moves when the sheet is cut larger there; piece frame, unit */
    sw_vec3 skin_way; /* where it moves a mm that the sheet gets thicker; piece frame; 0.5 long on a skin, else 0 */
} fit_foot;

typedef enum fit_row_kind { FIT_GAP, FIT_SLOT, FIT_ACROSS, FIT_ALONG } fit_row_kind;

typedef struct fit_row {
    fit_row_kind kind;
    size_t joint;
    fit_foot a, b;
    sw_vec3 way;  /* unit, stove frame: the distance is way . (a - b) */
    double value; /* as drawn, mm; 0 across and along */
} fit_row;

typedef struct fit_specimen {
    int piece, placement;
    sw_vec3 middle;     /* stove frame */
    double lever_mm[3]; /* how far its ends are from the axes x y z through the middle */
    size_t place;       /* its first of six placing contributors; SIZE_MAX = in no joint */
    bool closed;        /* a joint closes it on itself: what is rolled takes its radius from its length */
} fit_specimen;

typedef struct fit_job {
    const sw_fit_input *in;
    const sw_fit_options *opt;
    sw_fit_result *result;
    fit_specimen *specimens;
    size_t specimen_count;
    size_t *specimen_first; /* [piece_count] of placement 0 */
    fit_row *rows;
    size_t row_count, row_room;
    size_t *joint_first;              /* [joint_count + 1] rows of each joint, gap rows before across and along */
    sw_fit_contributor *contributors; /* in run->keep */
    fit_cut *cuts;                    /* [contributor_room] of each, face -1 = not a cut */
    size_t *groups;                   /* [contributor_room] */
    size_t contributor_count, contributor_room, group_count;
    double *coefficients; /* [row_count * contributor_count] */
    sw_fit_joint *joints; /* in run->keep */
} fit_job;

static inline const sw_sheet_piece *fit_piece(const fit_job *job, size_t specimen)
{
    return &job->in->sheet->pieces[job->specimens[specimen].piece];
}
static inline sw_frame fit_frame(const fit_job *job, size_t specimen)
{
    const fit_specimen *s = &job->specimens[specimen];
    return job->in->model->stove->pieces[s->piece].placements[s->placement];
}
static inline double *fit_line(const fit_job *job, size_t row)
{
    return job->coefficients + row * job->contributor_count;
}
static inline sw_vec3 fit_along(sw_vec3 p, sw_vec3 way, double by)
{
    return sw_vec3_add(p, sw_vec3_scaled(way, by));
}

/* fit_points.c: specimens, and the rows of every joint. */
sw_status fit_specimens(sw_run *run, fit_job *job);
sw_status fit_points(sw_run *run, fit_job *job);

/* fit_partner.c: what edge a is near to. */
typedef struct fit_near {
    fit_foot foot;
    sw_vec3 way;   /* unit, piece frame of b, from b to the point */
    double gap_mm; /* below 0: inside */
} fit_near;
typedef struct fit_partner {
    const fit_job *job;
    size_t specimen;
    int face;            /* -1 = any */
    const sw_edge *edge; /* NULL = any wall; else that one alone */
    int not_face;        /* a piece is nowhere apart from itself: the face of edge a; -1 = all count */
    bool walls_first;    /* where a skin and a wall are as near */
} fit_partner;
fit_near fit_nearest(const fit_partner *partner, sw_vec3 p); /* gap INFINITY: nothing */
size_t fit_slot_walls(const fit_partner *partner, sw_vec3 p, double reach_mm, fit_near *out, size_t most);

/* fit_contributors.c */
sw_status fit_contributors(sw_run *run, fit_job *job);
size_t fit_find_cut(const fit_job *job, size_t specimen, const fit_cut *cut); /* SIZE_MAX = none */
/* fit_tolerance.c: tolerance, sigma, nominal, texts of a contributor of known place. SW_NO_MEMORY */
sw_status fit_tolerance(sw_run *run, const fit_job *job, const fit_cut *cut, sw_fit_contributor *c);

double fit_outside_height_mm(const sw_piece *p, size_t bend); /* of the flange that the bend carries */

sw_status fit_sensitivities(sw_run *run, fit_job *job);     /* fit_sensitivities.c */
sw_status fit_settle(sw_run *run, fit_job *job);            /* fit_settle.c: the pieces moved to their joints */
sw_status fit_judge(sw_run *run, fit_job *job);             /* fit_judge.c: chains, shares, tolerance needed */
sw_status fit_draw(sw_run *run, fit_job *job);              /* fit_draw.c: stoves at random */
sw_status fit_plan(sw_run *run, fit_job *job);              /* fit_plan.c */
sw_status fit_findings(sw_run *run, fit_job *job);          /* fit_findings.c */
sw_status fit_measured_findings(sw_run *run, fit_job *job); /* fit_measured.c */

/* It is on one of the two pieces that the row lies between, or their sheet: others only move them. fit_judge.c */
bool fit_of_chain(const fit_job *job, size_t row, const sw_fit_contributor *c);

/* Standard deviation of a row, mm. */
double fit_row_sigma(const fit_job *job, size_t row);

/* fit_normals.c: normal numbers by a table of 256 layers (Marsaglia & Tsang 2000). */
typedef struct fit_normals {
    double x[257], y[257];
} fit_normals;
void fit_normals_make(fit_normals *table);
double fit_normal(const fit_normals *table, sw_random *random);

#endif
