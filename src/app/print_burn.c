/* print_burn.c: fire, air and heat on one screen. */
#include "app/app.h"

#include <math.h>

static bool missing(sw_writer *out, const sw_burned *b)
{
    if (b == NULL) return true;
    if (b->why[0] != '\0') sw_print(out, "\nNot computed: %s\n", b->why);
    return b->point == NULL;
}

static double percent(double share)
{
    return share * 100;
}

void sw_print_fire(sw_writer *out, const sw_dossier *d)
{
    const sw_burned *b = d->burned;
    if (missing(out, b)) return;
    const sw_burn_point *p = b->point;
    const sw_fire_losses *l = &b->fire->losses;
    sw_print(out, "\nFire: %s, %.0f %% water, %.2f MJ/kg as fired\n", b->fire->fuel.name,
             percent(b->fire->fuel.moisture), p->gas.lhv * 1e-6);
    sw_print(out, "  wood            %8.2f kg/h   %.2f kW; a charge of %.2f kg every %.0f min\n",
             p->fuel_kg_s * sw_s_from_h(1), p->fuel_w * 1e-3, p->fuel_kg_s * d->model.stove->duty.refuel_s,
             sw_min_from_s(d->model.stove->duty.refuel_s));
    sw_print(out, "  air             %8.2f g/s    excess air ratio %.2f\n", p->fire.air_kg_s * 1e3, p->lambda);
    sw_print(out, "  flue gas        %8.2f g/s    CO2 %.1f %%, O2 %.1f %% dry; dew point %.0f degC\n",
             p->gas_kg_s * 1e3, percent(p->gas.co2_dry), percent(p->gas.o2_dry), sw_c_from_k(p->gas.dew_point_k));
    sw_print(out, "  at the collar   %8.0f degC\n", sw_c_from_k(p->flue_k));
    sw_print(out, "  losses          %8.1f %%      flue %.1f, CO %.1f, residue %.1f", percent(1 - p->efficiency),
             percent(l->sensible), percent(l->co), percent(l->residue));
    if (l->unburnt > 0) sw_print(out, ", without air %.1f", percent(l->unburnt));
    sw_print(out, " %% of the wood's heat\n");
    sw_print(out, "  efficiency      %8.1f %%      output %.2f kW\n", percent(p->efficiency), p->output_w * 1e-3);
    sw_print(out, "  flame, no loss  %8.0f degC   adiabatic\n", sw_c_from_k(b->fire->flame_k));
}

void sw_print_air(sw_writer *out, const sw_dossier *d)
{
    const sw_burned *b = d->burned;
    if (missing(out, b)) return;
    const sw_air_network *n = &b->air->network;
    sw_print(out, "\nAir at %.1f Pa draught, room %.0f degC: %.2f g/s, excess air ratio %.2f\n", b->options->draught_pa,
             b->options->room_c, b->point->fire.air_kg_s * 1e3, b->point->lambda);
    int way = 20;
    for (size_t i = 0; i < n->way_count; i++) sw_widen(&way, n->ways[i].name);
    sw_print(out, "%-*s %-10s %9s %9s %9s %9s\n", way, "way", "kind", "area mm2", "g/s", "m/s", "Pa");
    for (size_t i = 0; i < n->way_count; i++) {
        const sw_air_flow *f = &b->air->solution.flows[i];
        sw_print(out, "%-*s %-10s %9.0f %9.3f %9.2f %9.2f\n", way, n->ways[i].name, n->ways[i].kind,
                 sw_mm2_from_m2(n->ways[i].area_m2), f->kg_s * 1e3, f->velocity_m_s, f->pressure_pa);
    }
}

static void print_balance(sw_writer *out, const sw_burned *b)
{
    const sw_burn_point *p = b->point;
    const sw_heat_state *h = &p->heat;
    sw_print(out, "\nHeat at %s: %.2f kW to the room of %.2f kW in the wood, %.1f %%\n",
             b->options->fuel_kg_h > 0 ? "this much wood" : "the duty", p->output_w * 1e-3, p->fuel_w * 1e-3,
             percent(p->efficiency));
    sw_print(out, "  through the pane as radiation   %8.0f W\n  from the pane's surface         %8.0f W\n",
             h->transmitted_w, h->glass_w);
    sw_print(out,
             "  from shell and other surfaces   %8.0f W\n  convection gap, %4.1f g/s        %8.0f W   air leaves at "
             "%.0f degC\n",
             h->shell_w, h->gap_kg_s * 1e3, h->gap_w, sw_c_from_k(h->gap_out_k));
    sw_print(out,
             "  into the floor                  %8.0f W\n  up the flue                     %8.0f W   at %.0f degC\n",
             h->below_w, h->flue_w, sw_c_from_k(h->flue_k));
    sw_print(
        out,
        "  gas in the flame, no heat off   %8.0f degC; mean over the fire %.0f, leaving the firebox %.0f, above the "
        "baffle %.0f; embers %.0f degC\n",
        sw_c_from_k(h->entering_k), sw_c_from_k(sw_burn_gas_k(b->burn, p, SW_GAS_FIREBOX)), sw_c_from_k(h->leaving_k),
        sw_c_from_k(sw_burn_gas_k(b->burn, p, SW_GAS_UPPER)), sw_c_from_k(sw_burn_gas_k(b->burn, p, SW_GAS_BED)));
    if (h->preheat_w > 0) sw_print(out, "  ducts warm the fire's air by    %8.0f W\n", h->preheat_w);
    sw_print(out, "  balance closes to               %8.4f %%\n", percent(p->balance));
}

static void print_parts(sw_writer *out, const sw_burned *b)
{
    int name = 28, material = 22;
    for (size_t i = 0; i < b->scene->part_count; i++) {
        sw_widen(&name, b->scene->parts[i].name);
        if (b->scene->parts[i].material != NULL) sw_widen(&material, b->scene->parts[i].material->name);
    }
    sw_print(out, "\n%-*s %-*s %9s %9s\n", name, "part", material, "material", "hot degC", "cold degC");
    for (size_t i = 0; i < b->scene->part_count; i++) {
        const sw_scene_part *part = &b->scene->parts[i];
        if (part->kind == SW_PART_SMALL) continue;
        sw_print(out, "%-*s %-*s %9.0f %9.0f\n", name, part->name, material,
                 part->material == NULL ? "-" : part->material->name, sw_c_from_k(b->hot_k[i]),
                 sw_c_from_k(b->cold_k[i]));
    }
}

static void print_through(sw_writer *out, const sw_burn_run *r)
{
    if (r == NULL) return;
    sw_print(out,
             "\nA burn from cold, %.1f h: %.1f %% of the wood's heat into the room, %.1f %% up the flue, %.1f %% "
             "stored in the stove at the end\n",
             sw_h_from_s(r->samples[r->sample_count - 1].time_s), percent(r->output_j / r->fuel_j),
             percent(r->flue_j / r->fuel_j), percent(r->stored_j / r->fuel_j));
    sw_print(out, "  mean excess air %.2f, mean flue gas %.0f degC, balance closes to %.3f %%\n", r->mean_lambda,
             sw_c_from_k(r->mean_flue_k), percent(r->balance));
    sw_print(out, "%8s %8s %8s %8s %8s %8s %8s\n", "min", "fire kW", "room kW", "flue C", "pane C", "shell C",
             "lambda");
    size_t every = r->sample_count / 24 + 1;
    for (size_t i = 0; i < r->sample_count; i += every) {
        const sw_burn_sample *s = &r->samples[i];
        sw_print(out, "%8.0f %8.2f %8.2f %8.0f %8.0f %8.0f %8.2f\n", sw_min_from_s(s->time_s), s->fuel_w * 1e-3,
                 s->output_w * 1e-3, sw_c_from_k(s->flue_k), sw_c_from_k(s->pane_k), sw_c_from_k(s->shell_k),
                 s->lambda);
    }
}

static void print_map(sw_writer *out, const sw_burned *b)
{
    if (b->map == NULL) return;
    sw_print(out, "\nSurface map: %zu triangles, balance closes to %.3f %%, output %.2f kW, flue %.0f degC\n",
             b->map->triangles, percent(b->map->hot_balance), b->map->useful_w * 1e-3, sw_c_from_k(b->map->flue_k));
    int name = 28;
    for (size_t i = 0; i < b->map->part_count; i++) sw_widen(&name, b->scene->parts[b->map->parts[i].part].name);
    sw_print(out, "%-*s %9s %9s   hottest at x, y, z mm\n", name, "part", "mean degC", "most degC");
    for (size_t i = 0; i < b->map->part_count; i++) {
        const sw_heat_map_part *m = &b->map->parts[i];
        if (m->mesh.point_count == 0) continue;
        sw_print(out, "%-*s %9.0f %9.0f   %6.0f %6.0f %6.0f\n", name, b->scene->parts[m->part].name,
                 sw_c_from_k(m->mean_k), sw_c_from_k(m->most_k), m->hottest.x_mm, m->hottest.y_mm, m->hottest.z_mm);
    }
}

static void print_bands(sw_writer *out, const sw_burned *b)
{
    static const struct {
        const char *name, *unit;
        double scale, shift_k;
    } rows[SW_BANDS] = {{"output", "kW", 1e-3, 0},      {"efficiency", "%", 100, 0},    {"excess air ratio", "", 1, 0},
                        {"flue gas", "degC", 1, 1},     {"hottest pane", "degC", 1, 1}, {"hottest wall", "degC", 1, 1},
                        {"hottest shell", "degC", 1, 1}};
    size_t count = 0;
    if (b->bands == NULL) return;
    sw_print(out, "\nHow sure: %zu draws; in nine of ten cases between\n", b->band_samples);
    for (size_t i = 0; i < SW_BANDS; i++) {
        const sw_band *band = &b->bands[i];
        double low = rows[i].shift_k > 0 ? sw_c_from_k(band->low) : band->low * rows[i].scale;
        double high = rows[i].shift_k > 0 ? sw_c_from_k(band->high) : band->high * rows[i].scale;
        sw_print(out, "  %-18s %8.2f and %8.2f %s\n", rows[i].name, low, high, rows[i].unit);
    }
    const sw_spread *spreads = sw_burn_spreads(&count);
    sw_print(out, "Taken as uncertain (one standard deviation):\n");
    for (size_t i = 0; i < count; i++)
        sw_print(out, "  %-18s %8g%s   %s\n", spreads[i].name, spreads[i].sigma * (spreads[i].relative ? 100 : 1),
                 spreads[i].relative ? " %" : "", spreads[i].source);
}

static void print_fit(sw_writer *out, const sw_burn_fit *fit)
{
    if (fit == NULL) return;
    sw_print(out, "\nHot test: computed less measured %.1f K before, %.1f K after %d rounds (root mean square)\n",
             fit->rms_before_k, fit->rms_after_k, fit->rounds);
    sw_print(out, "%-18s %10s %10s %10s\n", "constant", "before", "after", "+-");
    for (size_t i = 0; i < fit->constant_count; i++) {
        const sw_fitted *c = &fit->constants[i];
        sw_print(out, "%-18s %10.4g %10.4g", c->option->name, c->before, c->after);
        sw_print_cell(out, 10, -2, sw_fitted_at_bound(c) ? (double)NAN : c->sigma);
        sw_print(out, "   %s%s\n", c->option->meaning, sw_fitted_at_bound(c) ? ": AT ITS BOUND" : "");
    }
    sw_print(out, "To go on with them: ");
    for (size_t i = 0; i < fit->constant_count; i++)
        sw_print(out, "--with %s=%.4g ", fit->constants[i].option->name, fit->constants[i].after);
    sw_print(out, "\n");
}

void sw_print_heat(sw_writer *out, const sw_dossier *d)
{
    const sw_burned *b = d->burned;
    if (missing(out, b)) return;
    print_balance(out, b);
    print_parts(out, b);
    print_through(out, b->through);
    print_map(out, b);
    print_bands(out, b);
    print_fit(out, b->fit);
}
