/* air.c: the steps of the study of a stove's air. */
#include "burning/air/air.h"

#include "burning/air/air_parts.h"

#include <math.h>
#include <string.h>

static bool from_room(const sw_air_way *way)
{
    return way->from == SW_AIR_ROOM;
}

double sw_air_entering_kg_s(const sw_air_network *network, const sw_air_solution *solution)
{
    double sum = 0;
    for (size_t i = 0; i < network->way_count; i++)
        if (from_room(&network->ways[i]) && !(solution->flows[i].kg_s < 0)) sum += solution->flows[i].kg_s;
    return sum;
}

double sw_air_share_of(const sw_air_network *network, const sw_air_solution *solution, const char *kind)
{
    double sum = 0, whole = sw_air_entering_kg_s(network, solution);
    for (size_t i = 0; i < network->way_count; i++)
        if (strcmp(network->ways[i].kind, kind) == 0) sum += solution->flows[i].kg_s;
    return whole > 0 ? sum / whole : (double)NAN;
}

double air_lambda(const sw_air_input *in, double air_kg_s)
{
    return in->fuel_kg_s > 0 ? air_kg_s / (in->fuel_kg_s * in->air_min_kg) : (double)NAN;
}

static void sum_up(const sw_air_input *in, sw_air_result *r)
{
    r->air_kg_s = sw_air_entering_kg_s(&r->network, &r->solution);
    r->lambda = air_lambda(in, r->air_kg_s);
    r->primary_share = sw_air_share_of(&r->network, &r->solution, "primary");
    r->wash_share = sw_air_share_of(&r->network, &r->solution, "wash");
    r->rear_share = sw_air_share_of(&r->network, &r->solution, "rear jet");
    r->secondary_share = sw_air_share_of(&r->network, &r->solution, "secondary");
    r->leak_share = sw_air_share_of(&r->network, &r->solution, "leak");
}

sw_status sw_air_network_make(sw_run *run, const sw_air_input *in, const sw_air_options *opt, sw_air_network *network)
{
    SW_TRY(air_check(run, in, opt));        /* air_check.c */
    return air_make(run, in, opt, network); /* air_make.c */
}

sw_status sw_air_tell(sw_run *run, const sw_air_input *in, sw_air_result *r)
{
    sum_up(in, r);
    SW_TRY(sw_air_judge(run, in, &r->network, &r->solution, &r->findings)); /* air_findings.c */
    sw_findings_sort(&r->findings);
    return SW_OK;
}

sw_status sw_air_solve(sw_run *run, const sw_air_input *in, const sw_air_options *opt, const sw_air_result **result)
{
    *result = NULL;
    sw_air_result *r = SW_KEEP(run, 1, sw_air_result);
    if (r == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_air_network_make(run, in, opt, &r->network));
    SW_TRY(sw_air_network_solve(run, &r->network, &r->solution)); /* network.c */
    SW_TRY(sw_air_tell(run, in, r));
    *result = r;
    return SW_OK;
}
