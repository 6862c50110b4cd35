/* coat_ratings.c: hot parts against the class of the coating. */
#include "making/coat/coat_parts.h"

#include <math.h>

static sw_status rating_finding(sw_run *run, coat_job *job, const sw_coat_rating *rating)
{
    sw_finding f = coat_finding(job, "rating", rating->name);
    f.sense = SW_AT_MOST;
    f.value = sw_c_from_k(rating->temperature_k);
    f.limit = sw_c_from_k(rating->class_k);
    f.unit = "degC";
    f.source = "works description: class of the coating; data sheet of the product";
    f.what = isnan(f.value)   ? "not computed how hot this coated part gets"
             : isnan(f.limit) ? "the works does not say what heat its coating bears"
                              : sw_text_format(run, run->keep, "%.0f degC, the coating bears %.0f degC: %.0f K apart",
                                               f.value, f.limit, rating->margin_k);
    if (f.what == NULL) return SW_NO_MEMORY;
    if (isnan(f.value)) f.remedy = "compute the heat study and hand its temperatures in";
    if (isnan(f.limit)) f.remedy = "give the coating's class in the works";
    if (f.value > f.limit) f.remedy = "leave it bare, a coating of a higher class, or a shield before it";
    return sw_finding_add(run, &job->result->findings, f, 0.1);
}

/* A part named as a piece has that piece's grade; stainless stays bare. */
static sw_matter_kind kind_of(const coat_job *job, const char *name)
{
    int i = sw_stove_piece_index(job->in->stove, name);
    return i < 0 ? SW_STEEL : job->in->stove->pieces[i].grade->kind;
}

sw_status coat_ratings(sw_run *run, coat_job *job)
{
    size_t count = job->in->part_count;
    sw_coat_rating *ratings = SW_KEEP(run, count, sw_coat_rating);
    if (ratings == NULL) return SW_NO_MEMORY;
    double class_k = job->coating != NULL && job->coating->class_k > 0 ? job->coating->class_k : (double)NAN;
    for (size_t i = 0; i < count; i++) {
        const sw_coat_part *p = &job->in->parts[i];
        sw_coat_sides sides = sw_coat_sides_of(p->role == NULL ? "" : p->role, kind_of(job, p->name), job->opt);
        ratings[i] = (sw_coat_rating){p->name, sides.outer || sides.inner, p->temperature_k, class_k, NAN};
        ratings[i].margin_k = class_k - p->temperature_k;
        if (ratings[i].coated) SW_TRY(rating_finding(run, job, &ratings[i]));
    }
    job->result->ratings = ratings;
    job->result->rating_count = count;
    return SW_OK;
}
