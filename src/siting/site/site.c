/* site.c: the steps of the study of a stove's place in the house. */
#include "siting/site/site.h"

#include "siting/site/site_parts.h"

#include <math.h>

sw_status sw_site_solve(sw_run *run, const sw_site_input *in, const sw_site_result **result)
{
    *result = NULL;
    SW_TRY(site_check(run, in));
    sw_site_result *r = SW_KEEP(run, 1, sw_site_result);
    if (r == NULL) return SW_NO_MEMORY;
    r->fans_pa = r->depression_pa = r->vent_needed_m2 = r->floor_load_pa = r->leg_n = NAN;
    site_job job = {.in = in, .house = in->house, .code = "", .r = r, .surroundings_k = NAN, .hearth_mm = NAN};
    SW_TRY(site_find_code(run, &job));
    SW_TRY(site_find_unruled(run, &job));
    SW_TRY(site_find_walls(run, &job));
    SW_TRY(site_find_hearth(run, &job));
    SW_TRY(site_find_recess(run, &job));
    SW_TRY(site_find_pipes(run, &job));
    SW_TRY(site_find_outlet(run, &job));
    SW_TRY(site_find_air(run, &job));
    SW_TRY(site_expect(run, &job));
    sw_findings_sort(&r->findings);
    *result = r;
    return SW_OK;
}
