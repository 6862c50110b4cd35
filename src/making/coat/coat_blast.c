/* coat_blast.c: media, time and cost of blasting one stove. */
#include "making/coat/coat_parts.h"

#include <math.h>

void coat_blast(const coat_job *job)
{
    sw_coat_result *r = job->result;
    const sw_blasting *b = job->blasting;
    r->media_kg = r->nozzle_kg = r->blast_s = r->blast_setup_s = r->media_cost = r->blast_cost = NAN;
    r->grade = "";
    if (b == NULL) return;
    r->grade = b->grade == NULL ? "" : b->grade;
    r->media_kg = sw_blast_media_kg(r->blast_m2, b->media_kg_m2);
    r->nozzle_kg = sw_blast_media_kg(r->blast_m2, job->opt->nozzle_kg_m2);
    r->blast_s = sw_blast_time_s(r->blast_m2, b->m2_s);
    r->blast_setup_s = b->setup_s;
    r->media_cost = r->media_kg * b->media_price_kg;
    r->blast_cost = sw_h_from_s(r->blast_s) * b->rate_h;
}
