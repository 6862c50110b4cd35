/* house_words.c: figures of chimney and site as they stand on paper. Texts live in run->scratch. */
#include "papers/house_parts.h"

#include <math.h>
#include <string.h>

bool house_is_known(const sw_dossier *d)
{
    return d->housed != NULL && d->housed->flue != NULL && d->model.house != NULL;
}

bool house_is_placed(const sw_dossier *d)
{
    return house_is_known(d) && d->housed->site != NULL && d->housed->site_in != NULL;
}

const char *house_fixed(sw_run *run, double value, int decimals)
{
    if (!isfinite(value)) return "\xe2\x80\x93";
    double zero = 0.5 * pow(10, -decimals);
    return sw_text_format(run, run->scratch, "%.*f", decimals, fabs(value) < zero ? 0.0 : value);
}

const char *house_celsius(sw_run *run, double t_k)
{
    return house_fixed(run, sw_c_from_k(t_k), 0);
}

const char *house_metres(sw_run *run, double m)
{
    return words_number(run, m, 2);
}

const char *house_section(sw_run *run, const sw_flue_part *part)
{
    if (part->round) return sw_text_format(run, run->scratch, "%.0f round", part->width_mm);
    return sw_text_format(run, run->scratch, "%.0f \xc3\x97 %.0f", part->width_mm, part->depth_mm);
}

double house_need_mm(const sw_housed *h, const char *what, const char *where)
{
    double most = NAN;
    for (size_t i = 0; h->site != NULL && i < h->site->need_count; i++) {
        const sw_site_need *n = &h->site->needs[i];
        if (strcmp(n->where, where) != 0) continue;
        if (what == NULL || strncmp(n->what, what, strlen(what)) == 0) most = fmax(most, n->needed_mm);
    }
    return most;
}

const char *house_need_words(sw_run *run, double needed_mm, double there_mm)
{
    if (isnan(needed_mm)) return "no least told";
    if (!isfinite(needed_mm)) return "no distance is enough";
    if (needed_mm <= 0) return "no least found";
    return sw_text_format(run, run->scratch, "at least %.0f%s", ceil(needed_mm - SW_SAME_POINT_MM),
                          there_mm < needed_mm ? ": too little" : "");
}
