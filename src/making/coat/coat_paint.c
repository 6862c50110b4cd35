/* coat_paint.c: coats, solvent, least air and cost of one stove.
 *
 * Solvent leaves in the time of spraying or in options.flash_s, whichever is longer; overspray's solvent leaves as well. */
#include "making/coat/coat_parts.h"

#include <math.h>

static const double litre_m3 = 1e-3;

static sw_coat_coat coat_of(const coat_job *job, bool first)
{
    const sw_coating *c = job->coating;
    double area_m2 = job->result->coat_m2;
    sw_coat_coat coat = {.film_um = c->film_um, .wet_um = sw_coat_wet_um(c->solids, c->film_um), .dry_s = c->dry_s};
    coat.landed_litres = sw_coat_litres(area_m2, c->film_um, c->solids, 1);
    if (first) coat.landed_litres += sw_coat_valley_litres(area_m2, job->opt->rz_um);
    coat.litres = coat.landed_litres / c->transfer;
    coat.solvent_kg = coat.litres * litre_m3 * c->voc_kg_m3;
    coat.spray_s = area_m2 / c->m2_s;
    return coat;
}

static void add_coat(const coat_job *job, const sw_coat_coat *coat)
{
    sw_coat_result *r = job->result;
    r->litres += coat->litres;
    r->film_um += coat->film_um;
    r->solvent_kg += coat->solvent_kg;
    r->coat_s += coat->spray_s;
    r->solvent_kg_s = fmax(r->solvent_kg_s, coat->solvent_kg / fmax(coat->spray_s, job->opt->flash_s));
}

static void unknown(sw_coat_result *r)
{
    r->cover_m2_l = r->litres = r->film_um = r->film_kg = r->solvent_kg = r->solvent_kg_s = r->air_m3_s = NAN;
    r->coat_s = r->coat_setup_s = r->paint_cost = r->coat_cost = r->pot_s = r->blast_to_coat_s = NAN;
}

/* A batch is blasted stove by stove and then sprayed: the first blasted waits longest for the end of the first coat. */
static void batch_times(const coat_job *job)
{
    sw_coat_result *r = job->result;
    r->pot_s = job->opt->stoves * r->coat_s;
    r->blast_to_coat_s = job->opt->stoves * (r->blast_s + r->coats[0].spray_s) + r->coat_setup_s;
}

sw_status coat_paint(sw_run *run, coat_job *job)
{
    sw_coat_result *r = job->result;
    const sw_coating *c = job->coating;
    r->lel_kg_m3 = sw_coat_lel_kg_m3(job->opt->lel_share, job->opt->lel_kg_kmol, sw_k_from_c(20));
    if (c == NULL) {
        unknown(r);
        return SW_OK;
    }
    sw_coat_coat *coats = SW_KEEP(run, c->coats, sw_coat_coat);
    if (coats == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < c->coats; i++) {
        coats[i] = coat_of(job, i == 0);
        add_coat(job, &coats[i]);
    }
    r->coats = coats;
    r->coat_count = c->coats;
    r->cover_m2_l = sw_coat_cover_m2_l(c->solids, c->film_um);
    r->film_kg = sw_coat_film_kg(r->coat_m2, r->film_um, job->opt->film_kg_m3);
    r->air_m3_s = sw_coat_air_m3_s(r->solvent_kg_s, r->lel_kg_m3, job->opt->lel_part);
    r->coat_setup_s = c->setup_s;
    r->paint_cost = r->litres * c->price_l;
    r->coat_cost = sw_h_from_s(r->coat_s) * c->rate_h;
    batch_times(job);
    return SW_OK;
}
