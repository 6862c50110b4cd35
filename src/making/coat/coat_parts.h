/* coat_parts.h: what the steps of the coating study share. For this folder only. */
#ifndef SW_MAKING_COAT_COAT_PARTS_H
#define SW_MAKING_COAT_COAT_PARTS_H

#include "making/coat/coat.h"

typedef struct coat_job {
    const sw_coat_input *in;
    const sw_coat_options *opt;
    const sw_blasting *blasting; /* NULL = the works has none */
    const sw_coating *coating;
    sw_coat_result *result;
} coat_job;

sw_status coat_check(sw_run *run, const coat_job *job); /* coat_check.c */
sw_status coat_areas(sw_run *run, coat_job *job);       /* coat_areas.c */
sw_status coat_masks(sw_run *run, coat_job *job);       /* coat_masks.c */
void coat_blast(const coat_job *job);                   /* coat_blast.c: media, time, cost */
sw_status coat_paint(sw_run *run, coat_job *job);       /* coat_paint.c: coats, solvent, air, cost */
sw_status coat_cure(sw_run *run, coat_job *job);        /* coat_cure.c: oven and first fires */
sw_status coat_ratings(sw_run *run, coat_job *job);     /* coat_ratings.c: hot parts and their findings */
sw_status coat_findings(sw_run *run, coat_job *job);    /* coat_findings.c */
sw_finding coat_finding(const coat_job *job, const char *check, const char *where);

#endif
