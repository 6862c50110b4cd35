/* dossier_nest.c: what the nests have to tell beside their density: lots and remnants. */
#include "app/app.h"

#include <math.h>

static sw_status tell(sw_run *run, sw_dossier *d, const sw_nested *nest, const char *check, const char *what,
                      const char *source)
{
    sw_finding finding = sw_finding_of("nest", check, nest->name, (sw_place){0});
    finding.what = what;
    finding.source = source;
    return what == NULL ? SW_NO_MEMORY : sw_finding_add(run, &d->findings, finding, 0);
}

/* "3 remnants, worth 41.20 EUR: 2 of 900 x 1500 mm (layout 4), ..." */
static sw_status tell_remnants(sw_run *run, sw_dossier *d, const sw_nested *nest)
{
    const sw_nest_result *r = nest->result;
    size_t count = 0;
    double worth = 0;
    const char *list = "";
    for (size_t i = 0; i < r->remnant_count; i++) {
        const sw_nest_remnant *k = &r->remnants[i];
        count += k->count;
        worth += (double)k->count * k->worth;
        list = sw_text_format(run, run->keep, "%s%s %zu of %.0f x %.0f mm (layout %zu)", list, i == 0 ? "" : ",",
                              k->count, k->length_mm, k->width_mm, k->sheet + 1);
        if (list == NULL) return SW_NO_MEMORY;
    }
    if (count == 0) return SW_OK;
    const char *what = sw_text_format(run, run->keep, "%zu remnant%s of %s to be kept, worth %.2f %s:%s", count,
                                      sw_plural(count), nest->name, worth, d->model.works->currency, list);
    return tell(run, d, nest, "remnants", what, "the works' least remnant and remnant factor");
}

/* "lot 1 is complete with layout 3, ..." */
static sw_status tell_lots(sw_run *run, sw_dossier *d, const sw_nested *nest)
{
    const sw_nest_result *r = nest->result;
    const char *list = "";
    if (nest->input->lot == 0 || nest->input->lot >= nest->input->stoves) return SW_OK;
    for (size_t i = 0; i < r->sheet_count; i++) {
        if (r->sheets[i].completes == 0) continue;
        list = sw_text_format(run, run->keep, "%s%s lot %zu with layout %zu", list, list[0] == '\0' ? "" : ",",
                              r->sheets[i].completes, i + 1);
        if (list == NULL) return SW_NO_MEMORY;
    }
    const char *what = sw_text_format(run, run->keep, "sheets are cut in the order of the layouts; complete:%s", list);
    return tell(run, d, nest, "lots", what, "lots of --lot stoves");
}

sw_status sw_dossier_tell_nest(sw_run *run, sw_dossier *dossier, const sw_nested *nest)
{
    SW_TRY(tell_lots(run, dossier, nest));
    return tell_remnants(run, dossier, nest);
}
