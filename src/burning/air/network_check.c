/* network_check.c: is every number of a network in its range, and does every space hang on a known pressure? */
#include "burning/air/air_parts.h"

#include <math.h>

/* Ideal gas, incompressible: a few per cent of the atmosphere at most. Ours. */
static const double coldest_k = 200, hottest_k = 2500, pressure_most_pa = 5000, height_most_m = 1000;
static const double area_most_m2 = 100, cd_most = 10, source_most_kg_s = 100;

static const char *named(const char *name)
{
    return name == NULL || name[0] == '\0' ? "?" : name;
}

static bool within(double value, double low, double high)
{
    return value >= low && value <= high; /* false for NAN */
}

static sw_status out(sw_run *run, const char *kind, const char *name, const char *what, double value, double low,
                     double high)
{
    return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, named(name), "%s \"%s\": %s %g is outside %g to %g", kind,
                   named(name), what, value, low, high);
}

static sw_status check_space(sw_run *run, const sw_air_space *s)
{
    sw_status status = SW_OK;
    if (!within(s->t_k, coldest_k, hottest_k))
        status = out(run, "space", s->name, "temperature in K", s->t_k, coldest_k, hottest_k);
    if (s->fixed && !within(s->pressure_pa, -pressure_most_pa, pressure_most_pa))
        status = out(run, "space", s->name, "pressure in Pa", s->pressure_pa, -pressure_most_pa, pressure_most_pa);
    if (!within(s->height_m, -height_most_m, height_most_m))
        status = out(run, "space", s->name, "height in m", s->height_m, -height_most_m, height_most_m);
    if (!within(s->source_kg_s, -source_most_kg_s, source_most_kg_s))
        status = out(run, "space", s->name, "source in kg/s", s->source_kg_s, -source_most_kg_s, source_most_kg_s);
    return status;
}

static sw_status check_duct(sw_run *run, const sw_air_way *w)
{
    if (!within(w->length_m, 0, height_most_m))
        return out(run, "way", w->name, "length in m", w->length_m, 0, height_most_m);
    if (w->length_m > 0 && !(w->hydraulic_m > 0 && isfinite(w->hydraulic_m)))
        return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, named(w->name),
                       "way \"%s\": a duct of %g m needs its hydraulic diameter above 0, not %g m", named(w->name),
                       w->length_m, w->hydraulic_m);
    return SW_OK;
}

static sw_status check_way(sw_run *run, const sw_air_network *network, const sw_air_way *w)
{
    sw_status status = check_duct(run, w);
    if (w->from >= network->space_count || w->to >= network->space_count || w->from == w->to)
        status = sw_fail(run, SW_BAD_INPUT, (sw_place){0}, named(w->name),
                         "way \"%s\" joins spaces %zu and %zu; give two different ones of the %zu", named(w->name),
                         w->from, w->to, network->space_count);
    if (!within(w->area_m2, 0, area_most_m2))
        status = out(run, "way", w->name, "area in m2", w->area_m2, 0, area_most_m2);
    if (!within(w->height_m, -height_most_m, height_most_m))
        status = out(run, "way", w->name, "height in m", w->height_m, -height_most_m, height_most_m);
    if (!(w->cd > 0 && w->cd <= cd_most))
        status = out(run, "way", w->name, "discharge coefficient (above 0)", w->cd, 0, cd_most);
    if (!isnan(w->gas_k) && !within(w->gas_k, coldest_k, hottest_k))
        status = out(run, "way", w->name, "gas temperature in K", w->gas_k, coldest_k, hottest_k);
    return status;
}

static bool some_known(const sw_air_network *network)
{
    for (size_t i = 0; i < network->space_count; i++)
        if (network->spaces[i].fixed) return true;
    return false;
}

static bool some_open(const sw_air_network *network)
{
    for (size_t i = 0; i < network->way_count; i++)
        if (network->ways[i].area_m2 > 0) return true;
    return false;
}

sw_status air_network_check(sw_run *run, const sw_air_network *network)
{
    sw_status status = SW_OK, one;
    if (!some_known(network))
        status =
            sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "spaces",
                    "none of the %zu spaces has a known pressure; fix at least one, the room", network->space_count);
    for (size_t i = 0; i < network->space_count; i++)
        if ((one = check_space(run, &network->spaces[i])) != SW_OK) status = one;
    for (size_t i = 0; i < network->way_count; i++)
        if ((one = check_way(run, network, &network->ways[i])) != SW_OK) status = one;
    if (status == SW_OK && !some_open(network))
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "ways", "no opening at all: none of the %zu ways is open",
                       network->way_count);
    return status;
}

/* Spreads from the known pressures along open ways until nothing new is reached. */
static void spread(const sw_air_network *network, bool *reached)
{
    for (size_t i = 0; i < network->space_count; i++) reached[i] = network->spaces[i].fixed;
    for (bool again = true; again;) {
        again = false;
        for (size_t i = 0; i < network->way_count; i++) {
            const sw_air_way *w = &network->ways[i];
            if (!(w->area_m2 > 0) || reached[w->from] == reached[w->to]) continue;
            reached[w->from] = reached[w->to] = again = true;
        }
    }
}

sw_status air_network_reach(sw_run *run, const sw_air_network *network, struct sw_air_work *work)
{
    sw_status status = SW_OK;
    spread(network, work->reached);
    for (size_t i = 0; i < network->space_count; i++)
        if (!work->reached[i])
            status = sw_fail(run, SW_BAD_INPUT, (sw_place){0}, named(network->spaces[i].name),
                             "space \"%s\": no open way leads from it to a known pressure; open one or leave it out",
                             named(network->spaces[i].name));
    return status;
}
