/* flue_case.c: a whole flue under one condition: parts one by one, then draught and resistance of each stretch of one section. */
#include "siting/flue/flue_parts.h"

#include <math.h>

static const double pressure_outside_k = 288.15;        /* cl. 5.7.1 (from memory): a mild day */
static const double boiler_room_c = 15, unheated_c = 0; /* the same */
static const double quarter =
    0.25; /* so much of a chimney may be outdoors and still count as indoors (from memory, doubtful) */

/* ---- conditions ---- */

flue_condition flue_weather(const sw_house *house, const sw_flue_options *opt, double outside_k, double wind_pa)
{
    flue_condition c = {.name = "weather", .outside_k = outside_k, .s_h = 1, .s_e = 1, .wind_pa = wind_pa, .scale = 1};
    c.outside_pa = sw_flue_air_pressure_pa(house->altitude_m, outside_k);
    c.outside_density = sw_flue_air_density(c.outside_pa, outside_k);
    c.supply_pa = opt->supply_pa; /* unless it is computed */
    c.around_k[SW_HEATED] = sw_k_from_c(opt->room_c);
    c.around_k[SW_BOILER_ROOM] = sw_k_from_c(boiler_room_c);
    c.around_k[SW_UNHEATED] = sw_k_from_c(unheated_c);
    c.around_k[SW_OUTDOORS] = outside_k;
    return c;
}

flue_condition flue_pressure(const sw_house *house, const sw_flue_options *opt)
{
    flue_condition c = flue_weather(house, opt, pressure_outside_k, sw_flue_wind_pa(house->wind));
    c.name = "pressure";
    c.s_h = opt->s_h_pressure;
    c.s_e = opt->s_e;
    c.mild = true;
    for (int i = 0; i < SW_AROUNDS; i++) c.around_k[i] = pressure_outside_k;
    return c;
}

flue_condition flue_temperature(const sw_house *house, const sw_flue_options *opt)
{
    flue_condition c = flue_weather(house, opt, house->least_k, 0);
    c.name = "temperature";
    c.s_e = opt->s_e;
    return c;
}

flue_condition flue_over(const sw_house *house, const sw_flue_options *opt)
{
    flue_condition c = flue_weather(house, opt, house->least_k, 0);
    c.name = "over-draught";
    return c;
}

/* ---- the walk ---- */

typedef struct stretch { /* parts of one section, so far */
    size_t first;
    double area_m2, length_m, rise_m, kelvin_m, friction, zeta;
} stretch;

typedef struct walk {
    const sw_flue_input *in;
    const sw_flue_gas *gas;
    const flue_condition *condition;
    sw_flue_case *c;
    double kg_s;
    sw_flue_gas thinned;      /* with a stabiliser's air */
    double pipe_m, chimney_m; /* whole lengths */
    bool outdoors_count;      /* the film of outdoor parts is the outdoor one */
    double before_pa;         /* dynamic pressure of the stretch before; NAN = none */
    stretch now;
} walk;

static double scale_of(const walk *w, const sw_flue_part *part)
{
    return part->pipe ? 1 : w->condition->scale;
}

static void set_lengths(walk *w)
{
    const sw_house *house = w->in->house;
    double outdoors_m = 0;
    for (size_t i = 0; i < house->part_count; i++) {
        const sw_flue_part *part = &house->parts[i];
        double length_m = part->length_m * scale_of(w, part);
        *(part->pipe ? &w->pipe_m : &w->chimney_m) += length_m;
        if (!part->pipe && part->around == SW_OUTDOORS) outdoors_m += length_m;
    }
    w->outdoors_count = !w->condition->mild || outdoors_m > quarter * w->chimney_m * (1 + 1e-9);
}

static sw_flue_duct duct_of(const walk *w, const sw_flue_part *part)
{
    sw_flue_duct d = {.hydraulic_m = sw_flue_hydraulic_m(part), .area_m2 = sw_flue_area_m2(part)};
    d.perimeter_m = 4 * d.area_m2 / d.hydraulic_m;
    d.outer_m = sw_flue_outer_m(part);
    d.length_m = part->length_m * scale_of(w, part);
    d.whole_m = part->pipe ? w->pipe_m : w->chimney_m;
    d.roughness_m = sw_m_from_mm(part->roughness_mm);
    d.resistance = sw_flue_resistance(part);
    d.outer_h = part->pipe || w->outdoors_count ? flue_film(part) : 8;
    d.around_k = w->condition->around_k[part->around];
    d.s_h = w->condition->s_h;
    return d;
}

static bool same_section(const sw_flue_part *a, const sw_flue_part *b)
{
    return a->pipe == b->pipe && a->round == b->round && a->width_mm == b->width_mm &&
           (a->round || a->depth_mm == b->depth_mm);
}

static bool same_wall(const sw_flue_duct *a, const sw_flue_duct *b)
{
    return a->outer_m == b->outer_m && a->roughness_m == b->roughness_m && a->resistance == b->resistance &&
           a->outer_h == b->outer_h && a->around_k == b->around_k;
}

/* Ends the stretch: draught and losses of its mean temperature, on each of its lines, too. */
static void close_stretch(walk *w, size_t end)
{
    const sw_house *house = w->in->house;
    const stretch *s = &w->now;
    sw_flue_case *c = w->c;
    bool pipe = house->parts[s->first].pipe, last = end == house->part_count;
    double mean_k = s->kelvin_m / s->length_m, density = c->outside_pa / (w->gas->gas_constant * mean_k);
    double flow = w->kg_s / s->area_m2, dynamic_pa = flow * flow / (2 * density), velocity_m_s = fabs(flow) / density;
    double loss_pa = (s->friction + s->zeta + (last ? house->terminal_zeta : 0)) * dynamic_pa;
    double change_pa = isnan(w->before_pa) ? 0 : dynamic_pa - w->before_pa;
    double step_pa = (change_pa >= 0 ? c->s_e : 1) * change_pa, all_pa = c->s_e * loss_pa + step_pa;
    double draught_pa = sw_flue_draught_pa(s->rise_m, c->outside_density, density);
    *(pipe ? &c->P_HV : &c->P_H) += draught_pa;
    *(pipe ? &c->P_EV : &c->P_E) += loss_pa;
    *(pipe ? &c->P_GV : &c->P_G) += change_pa;
    *(pipe ? &c->P_RV : &c->P_R) += all_pa;
    w->before_pa = dynamic_pa;
    if (!pipe && !(velocity_m_s >= c->velocity_m_s)) c->velocity_m_s = velocity_m_s;
    for (size_t i = s->first; c->lines != NULL && i < end; i++) {
        const sw_flue_part *part = &house->parts[i];
        sw_flue_line *l = &c->lines[i];
        double by_d = part->length_m * scale_of(w, part) / sw_flue_hydraulic_m(part);
        double zeta = part->zeta + (i + 1 == house->part_count ? house->terminal_zeta : 0);
        l->draught_pa = sw_flue_draught_pa(part->rise_m * scale_of(w, part), c->outside_density, density);
        l->friction_pa = (l->psi * by_d + zeta) * dynamic_pa;
        l->step_pa = i == s->first ? step_pa : 0;
    }
}

/* From the outlet down, where the wind alone presses: each part draws by what lifts there less what resists. */
static void set_pressures(sw_flue_case *c)
{
    double exit_pa = -c->wind_pa;
    for (size_t i = c->line_count; i-- > 0;) {
        sw_flue_line *l = &c->lines[i];
        l->exit_pa = exit_pa;
        l->entry_pa = exit_pa + l->draught_pa - c->s_e * l->friction_pa - l->step_pa;
        exit_pa = l->entry_pa;
    }
}

/* Lines of parts first .. end-1, which were reckoned as one: each with its own share of the length. */
static void set_lines(const walk *w, const sw_flue_line *whole, double whole_m, size_t first, size_t end)
{
    double entry_k = whole->entry_k;
    for (size_t i = first; i < end; i++) {
        const sw_flue_part *part = &w->in->house->parts[i];
        sw_flue_line *l = &w->c->lines[i];
        *l = *whole;
        l->part = part;
        l->entry_k = entry_k;
        l->K = whole->K * part->length_m * scale_of(w, part) / whole_m;
        l->exit_k = l->around_k + (entry_k - l->around_k) * exp(-l->K);
        l->mean_k = l->around_k + (entry_k - l->around_k) * (l->K > 0 ? -expm1(-l->K) / l->K : 1);
        double by_k = (whole->exit_k - whole->wall_k) / (whole->exit_k - whole->around_k); /* k_b/alpha_i */
        if (isfinite(by_k)) {
            l->wall_k = l->exit_k - by_k * (l->exit_k - l->around_k);
            l->wall_entry_k = l->entry_k - by_k * (l->entry_k - l->around_k);
        }
        entry_k = l->exit_k;
    }
}

static void add_to_stretch(walk *w, const sw_flue_duct *d, const sw_flue_line *l, size_t first, size_t end)
{
    stretch *s = &w->now;
    if (s->length_m == 0) {
        s->first = first;
        s->area_m2 = d->area_m2;
    }
    s->length_m += d->length_m;
    s->kelvin_m += d->length_m * l->mean_k;
    s->friction += l->psi * d->length_m / d->hydraulic_m;
    for (size_t i = first; i < end; i++) {
        const sw_flue_part *part = &w->in->house->parts[i];
        s->rise_m += part->rise_m * scale_of(w, part);
        s->zeta += part->zeta;
    }
}

/* The parts from i on that are alike, as one duct; gives the first that is not. */
static size_t gather(const walk *w, size_t i, sw_flue_duct *d)
{
    const sw_flue_part *parts = w->in->house->parts;
    size_t end = i + 1;
    *d = duct_of(w, &parts[i]);
    for (; end < w->in->house->part_count && same_section(&parts[i], &parts[end]); end++) {
        sw_flue_duct next = duct_of(w, &parts[end]);
        if (!same_wall(d, &next)) break;
        d->length_m += next.length_m;
    }
    return end;
}

/* At the chimney's foot the air of a stabiliser joins; gives the temperature of both. */
static double join_air(walk *w, double gas_k)
{
    const flue_condition *condition = w->condition;
    double air = condition->air_kg_s / w->kg_s;
    w->thinned = sw_flue_gas_thinned(&w->in->wood, w->gas, air);
    double mixed_k = sw_flue_mixed_k(w->gas, &w->thinned, air, gas_k, condition->around_k[SW_HEATED]);
    w->gas = &w->thinned;
    w->kg_s += condition->air_kg_s;
    return mixed_k;
}

static bool walk_parts(walk *w, double entry_k)
{
    const sw_house *house = w->in->house;
    for (size_t i = 0, end = 0; i < house->part_count; i = end) {
        sw_flue_duct d;
        if (!house->parts[i].pipe && (i == 0 || house->parts[i - 1].pipe)) {
            if (w->condition->air_kg_s > 0) entry_k = join_air(w, entry_k);
            w->c->mixed_k = entry_k;
        }
        end = gather(w, i, &d);
        sw_flue_line l = sw_flue_cool(&d, w->gas, w->kg_s, entry_k, w->c->outside_pa);
        if (!isfinite(l.exit_k) || !isfinite(l.mean_k)) return false;
        if (w->c->lines != NULL) set_lines(w, &l, d.length_m, i, end);
        add_to_stretch(w, &d, &l, i, end);
        entry_k = l.exit_k;
        w->c->outlet_k = l.exit_k;
        w->c->outlet_wall_k = l.wall_k;
        if (end < house->part_count && same_section(&house->parts[i], &house->parts[end])) continue;
        close_stretch(w, end);
        w->now = (stretch){0};
    }
    return true;
}

double flue_collar_m2(const sw_flue_input *in)
{
    if (in->collar_mm > 0) return SW_PI / 4 * sw_m2_from_mm2(in->collar_mm * in->collar_mm);
    return in->house->part_count > 0 ? sw_flue_area_m2(&in->house->parts[0]) : (double)NAN;
}

/* Dynamic pressure at the stove's outlet, where the change of velocity starts. */
static double collar_pa(const walk *w, double entry_k)
{
    double flow = w->kg_s / flue_collar_m2(w->in);
    if (!(w->in->collar_mm > 0)) return NAN; /* as wide as what follows */
    return flow * flow / (2 * w->c->outside_pa / (w->gas->gas_constant * entry_k));
}

bool flue_walk(const sw_flue_input *in, const sw_flue_gas *gas, const sw_flue_appliance *a,
               const flue_condition *condition, sw_flue_case *c)
{
    sw_flue_line *lines = c->lines;
    *c = (sw_flue_case){.name = condition->name,
                        .outside_k = condition->outside_k,
                        .outside_pa = condition->outside_pa,
                        .outside_density = condition->outside_density,
                        .s_h = condition->s_h,
                        .s_e = condition->s_e,
                        .wind_pa = condition->wind_pa,
                        .lines = lines,
                        .line_count = lines != NULL ? in->house->part_count : 0};
    c->velocity_m_s = NAN;
    walk w = {.in = in, .gas = gas, .condition = condition, .c = c, .kg_s = a->kg_s};
    c->gas_kg_s = a->kg_s;
    c->gas_k = a->t_k;
    c->air_kg_s = condition->air_kg_s;
    w.before_pa = collar_pa(&w, a->t_k);
    set_lengths(&w);
    if (!walk_parts(&w, a->t_k)) return false;
    set_pressures(c);
    c->P_FV = c->P_RV - c->P_HV;
    c->P_B = condition->supply_pa;
    c->P_W = a->need_pa;
    c->P_Ze = c->P_W + c->P_FV + c->P_B;
    c->P_Z = c->P_H - c->P_R - c->wind_pa;
    c->co2_dry = w.gas->co2_dry;
    c->vapour_pa = w.gas->h2o_wet * c->outside_pa;
    c->dew_point_k = sw_flue_dew_point_k(w.gas->h2o_wet, c->outside_pa);
    return true;
}
