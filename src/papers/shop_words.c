/* shop_words.c: what of the workshop is known, and its numbers as they stand on paper. */
#include "papers/shop_parts.h"

#include <math.h>

bool shop_is_known(const sw_dossier *d)
{
    const sw_shopped *s = &d->shop;
    return s->form != NULL || s->join != NULL || s->fit != NULL || s->lift != NULL || s->coat != NULL ||
           s->line != NULL;
}

bool shop_has_line(const sw_dossier *d)
{
    return d->shop.line != NULL && d->shop.line_in != NULL && d->model.works != NULL;
}

bool shop_has_plan(const sw_dossier *d)
{
    return shop_has_line(d) && d->shop.line->plan != NULL && d->shop.line->plan->makespan_s > 0;
}

const char *shop_fixed(sw_run *run, double value, int decimals)
{
    return isfinite(value) ? sw_text_format(run, run->scratch, "%.*f", decimals, value) : "\xe2\x80\x93";
}

const char *shop_money(sw_run *run, const sw_dossier *d, double value)
{
    const char *currency = d->model.works == NULL ? "" : d->model.works->currency;
    if (!isfinite(value)) return "\xe2\x80\x93";
    return sw_text_format(run, run->scratch, "%.2f%s%s", value, currency[0] == '\0' ? "" : " ", currency);
}

const char *shop_minutes(sw_run *run, double s)
{
    return shop_fixed(run, sw_min_from_s(s), 1);
}

const char *shop_share(sw_run *run, double share, int places)
{
    double percent = 100 * share, least = 0.5 * pow(10, -places);
    if (!isfinite(share)) return "\xe2\x80\x93";
    if (percent > 0 && percent < least) return sw_text_format(run, run->scratch, "< %.*f %%", places, pow(10, -places));
    return sw_text_format(run, run->scratch, "%.*f %%", places, percent);
}

/* None of n drawn: with 95 % confidence at most 3 / n of all (Hanley and Lippman-Hand, JAMA 249, 1983; from memory). */
const char *shop_sure(sw_run *run, const sw_fit_result *fit)
{
    bool all = fit->all_fit >= 1;
    if (fit->stoves == 0 || !isfinite(fit->all_fit)) return "nothing known";
    if (!all && fit->all_fit > 0)
        return sw_text_format(run, run->scratch, "\xc2\xb1 %.1f %% (two standard errors)", 200 * fit->all_fit_error);
    return sw_text_format(run, run->scratch, "%s of them: at most %.2g %% of others %s, with 95 %% confidence",
                          all ? "all" : "none", fmin(100, 300 / (double)fit->stoves), all ? "fail" : "fit");
}
