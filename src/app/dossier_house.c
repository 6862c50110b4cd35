/* dossier_house.c: the stove in the house: what the chimney's calculation asks of the burn, clearances of the stove's own
 * surfaces, the operating point on the real chimney. */
#include "app/house_faces.h"

#include <math.h>
#include <string.h>

enum { RECORD_MOST = 1 << 22, MAP_SIDE = 25 };

typedef struct house_job {
    sw_run *run;
    const sw_request *request;
    sw_dossier *d;
    unsigned work;
    sw_housed *housed;
    sw_flue_options flue_options;
    sw_house_conditions asked;
} house_job;

static const double mild_c = 15; /* the pressure condition's day, EN 13384-1 (from memory) */

static sw_status note(house_job *job, size_t first_error, const char *study, sw_verdict verdict)
{
    const char *why = NULL;
    const sw_finding finding = {.study = study,
                                .where = job->d->model.house->name,
                                .verdict = verdict,
                                .remedy = "mend the house's description, or give the stove's declared values",
                                .place = job->d->model.house->place};
    return sw_dossier_tell_missing(job->run, job->d, first_error, finding, &why);
}

/* Faults of the input and of memory end the work; what does not settle is a finding that fails. */
static sw_status settled(house_job *job, sw_status status, size_t first_error, const char *study)
{
    return status == SW_NO_SOLUTION ? note(job, first_error, study, SW_FAILS) : status;
}

/* ---- what the chimney is asked for -------------------------------------------------------------------------- */

static bool burnt(const sw_dossier *d)
{
    return d->burned != NULL && d->burned->point != NULL;
}

static bool flue_solved(const sw_housed *h)
{
    return h->flue != NULL && h->flue->solved;
}

static double either(double declared, double computed)
{
    return isnan(declared) ? computed : declared;
}

/* What of the type test is told stands; the rest is the model's, and the answer says so. */
static void fill_up(const sw_dossier *d, sw_flue_appliance *a)
{
    const sw_burn_point *p = d->burned->point;
    a->kg_s = either(a->kg_s, p->gas_kg_s);
    a->t_k = either(a->t_k, p->flue_k);
    a->need_pa = either(a->need_pa, d->burned->options->draught_pa);
    a->co2_dry = either(a->co2_dry, p->gas.co2_dry);
}

static sw_status tell_source(house_job *job, bool declared, bool mixed)
{
    sw_finding f = sw_finding_of("flue", "stove_data", "stove", job->d->model.house->place);
    f.what = declared ? "gas flow, temperature, CO2 and draught are declared from a type test"
             : mixed ? "some of gas flow, temperature, CO2 and draught is declared, the rest from the stove's own model"
                     : "gas flow, temperature and CO2 are from the stove's own model; no type test has proved them";
    f.verdict = mixed ? SW_WATCH : SW_HOLDS;
    f.source = declared ? "declared { ... } of the house" : "the study of the burn, docs/studies/burn.md";
    f.remedy = mixed ? "give all of flow, temperature, co2 and draught from the same test, or none" : "";
    return sw_finding_add(job->run, &job->d->findings, f, 0);
}

/* The stove's fault, not the house's, so the rest of the answer stands. */
static sw_status no_fire(house_job *job, const char *study, const char *what, const char *remedy)
{
    const sw_dossier *d = job->d;
    const char *why = d->burned == NULL || d->burned->why == NULL ? "" : d->burned->why;
    sw_finding f = sw_finding_of(study, "computed", d->model.house->name, d->model.stove->place);
    f.what = sw_text_format(job->run, job->run->keep, "not computed: %s, as the stove's own fire was not computed%s%s",
                            what, why[0] == '\0' ? "" : ": ", why);
    f.verdict = SW_UNKNOWN;
    f.source = "ours: an answer that does not settle is no answer";
    f.remedy = remedy;
    return f.what == NULL ? SW_NO_MEMORY : sw_finding_add(job->run, &job->d->findings, f, 0);
}

static sw_status no_data(house_job *job)
{
    job->housed->why =
        "what the stove asks of the chimney is not known, as its own fire was not computed: see the findings";
    return no_fire(
        job, "flue", "what the stove asks of the chimney is not known",
        "mend the stove's description, or give declared { flow, temperature, draught, co2 } from its type test");
}

static sw_status appliance(house_job *job, sw_flue_appliance *a)
{
    const sw_house *h = job->d->model.house;
    bool declared = sw_flue_declared(h, a);
    bool mixed = !declared &&
                 !(isnan(h->declared_kg_s) && isnan(h->declared_k) && isnan(h->declared_pa) && isnan(h->declared_co2));
    a->declared = declared;
    if (!declared && !burnt(job->d)) return no_data(job);
    if (!declared) fill_up(job->d, a);
    return tell_source(job, declared, mixed);
}

/* The wood of the stove's own fire; a declared gas is of the test's, which nobody told. */
static sw_flue_wood wood_of(const sw_dossier *d, bool declared)
{
    const sw_fuel *known = sw_fuel_find(d->model.stove->duty.fuel);
    if (declared || !burnt(d) || known == NULL) return sw_flue_wood_reference();
    sw_fuel fuel = *known;
    fuel.moisture = d->burned->options->moisture;
    double share = (1 - fuel.ash) * (1 - fuel.moisture);
    return (sw_flue_wood){fuel.c * share, fuel.h * share, fuel.o * share, fuel.moisture, sw_fuel_lhv(&fuel)};
}

static double collar_mm(const sw_dossier *d)
{
    if (d->burned == NULL || d->burned->scene == NULL || !(d->burned->scene->collar_m2 > 0)) return 0;
    return sw_mm_from_m(2 * sqrt(d->burned->scene->collar_m2 / SW_PI));
}

static bool tabled(const sw_request *request)
{
    return request->command != NULL && (strcmp(request->command, "flue") == 0 || strcmp(request->command, "make") == 0);
}

/* A dossier holds the calculation sheet without being asked. */
static bool explained(const sw_request *request)
{
    return request->explain || (request->command != NULL && strcmp(request->command, "make") == 0);
}

/* What the air of the fire costs on its way in, with `more_kg_s` through a stabiliser as well. */
static void supply(house_job *job, sw_flue_input *in, double more_kg_s)
{
    sw_flue_gas gas = sw_flue_gas_of(&in->wood, in->nominal.co2_dry);
    sw_site_supply s = sw_site_supply_of(in->house, in->nominal.kg_s * gas.air_kg_per_kg / gas.kg_per_kg + more_kg_s);
    job->housed->supply = s;
    in->supply_computed = !isnan(s.pa);
    in->supply_pa = in->supply_computed ? s.pa : 0;
    in->room_pa = isfinite(s.quiet_pa) ? s.quiet_pa : 0;
    if (job->asked.supply_pa > 0) in->supply_computed = false;
}

/* A stabiliser's air of a mild day comes through the room as well, and the lower room takes some of it back: in turns. */
static sw_status settle_supply(house_job *job, sw_flue_input *in)
{
    enum { ROUNDS = 8 };
    static const double settled_pa = 0.01;
    double air_kg_s = 0;
    for (int i = 0; i < ROUNDS; i++) {
        double before_pa = i == 0 ? (double)INFINITY : in->supply_pa;
        supply(job, in, air_kg_s);
        SW_TRY(sw_flue_solve(job->run, in, &job->flue_options, &job->housed->flue));
        const sw_flue_result *r = job->housed->flue;
        if (!r->solved) return SW_OK;
        in->hold_pa = r->stabiliser_pa > 0 ? r->stabiliser_pa : 0;
        bool opens = r->pressure.air_kg_s > 0;
        if ((!opens && !(air_kg_s > 0)) || !in->supply_computed || fabs(in->supply_pa - before_pa) < settled_pa)
            return SW_OK;
        air_kg_s = opens ? r->pressure.air_kg_s : air_kg_s / 2; /* shut by its own air */
    }
    return sw_fail(job->run, SW_NO_SOLUTION, in->house->place, "stabiliser",
                   "its air and the room's supply do not settle in %d rounds; last supply %.2f Pa", ROUNDS,
                   in->supply_pa);
}

static sw_status flue(house_job *job)
{
    sw_run *run = job->run;
    sw_flue_input *in = SW_KEEP(run, 1, sw_flue_input);
    if (in == NULL) return SW_NO_MEMORY;
    *in = (sw_flue_input){.house = job->d->model.house, .collar_mm = collar_mm(job->d)};
    job->housed->flue_in = in;
    SW_TRY(sw_flue_check_house(run, in->house));
    SW_TRY(appliance(job, &in->nominal));
    if (!in->nominal.declared && !burnt(job->d)) return SW_OK;
    in->wood = wood_of(job->d, in->nominal.declared);
    sw_door_of(job->d, &in->door_width_mm, &in->door_height_mm);
    if (job->d->burned != NULL && job->d->burned->scene != NULL) in->throat_m2 = job->d->burned->scene->throat_m2;
    if (job->asked.supply_pa > 0) job->flue_options.supply_pa = job->asked.supply_pa;
    size_t first = run->error_count;
    sw_status status = settle_supply(job, in);
    bool stoves = !in->nominal.declared && (status == SW_BAD_INPUT || status == SW_OUT_OF_RANGE);
    if (job->housed->flue == NULL) return stoves ? note(job, first, "flue", SW_UNKNOWN) : status;
    SW_TRY(settled(job, status, first, "flue"));
    SW_TRY(sw_dossier_tell(run, job->d, &job->housed->flue->findings));
    if (!explained(job->request)) return SW_OK;
    return sw_flue_explain(run, job->housed->flue, &job->housed->steps, &job->housed->step_count);
}

/* The stove's own burn from cold, where it was reckoned. */
static sw_status lighting(house_job *job, const sw_flue_course **out)
{
    const sw_burn_run *burn = job->d->burned == NULL ? NULL : job->d->burned->through;
    if (burn == NULL || job->housed->flue_in->nominal.declared) return SW_OK;
    size_t n = burn->sample_count, count = 0;
    double *time_s = SW_KEEP(job->run, n, double), *kg_s = SW_KEEP(job->run, n, double),
           *t_k = SW_KEEP(job->run, n, double);
    sw_flue_course *course = SW_KEEP(job->run, 1, sw_flue_course);
    if (time_s == NULL || kg_s == NULL || t_k == NULL || course == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) { /* a refuel gives two samples of one time: the first counts */
        const sw_burn_sample *s = &burn->samples[i];
        if (!(s->gas_kg_s > 0) || (count > 0 && s->time_s <= time_s[count - 1])) continue;
        time_s[count] = s->time_s;
        kg_s[count] = s->gas_kg_s;
        t_k[count++] = s->flue_k;
    }
    if (count == 0) return SW_OK;
    *course = (sw_flue_course){time_s, kg_s, t_k, count};
    *out = course;
    return SW_OK;
}

/* Not without a burn: a stove that was lit a moment ago does not give its steady gas. */
static sw_status light_it(house_job *job)
{
    sw_run *run = job->run;
    double mild_k = sw_k_from_c(mild_c);
    sw_flue_input in = *job->housed->flue_in;
    SW_TRY(lighting(job, &in.lighting));
    if (in.lighting == NULL && !in.nominal.declared) return SW_OK;
    sw_flue_start *start = SW_KEEP(run, 1, sw_flue_start);
    if (start == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_flue_start_up(run, &in, &job->flue_options, mild_k, mild_k, start));
    job->housed->start = start;
    return SW_OK;
}

static sw_status more_flue(house_job *job)
{
    sw_run *run = job->run;
    SW_TRY(light_it(job));
    if ((job->work & SW_DO_SIZE) == 0) return SW_OK;
    return sw_flue_size(run, job->housed->flue_in, &job->flue_options, &job->housed->tries, &job->housed->try_count);
}

/* ---- the real chimney ---------------------------------------------------------------------------------------------- */

static sw_draw_input draw_input(house_job *job)
{
    sw_draw_input in = {.flue = job->housed->flue_in,
                        .flue_options = &job->flue_options,
                        .limits = sw_draw_limits_defaults(),
                        .burn = *job->d->burned->options,
                        .heat = sw_heat_model_defaults()};
    in.burn.fuel_kg_h = job->d->burned->point->fuel_kg_s * sw_s_from_h(1);
    return in;
}

static sw_status draw_at(house_job *job, double outside_k, double wind_pa, const sw_draw_point **out)
{
    const sw_draw_input in = draw_input(job);
    const sw_burn_input stove = {job->d->model.stove, job->d->sheet, job->d->burned->scene};
    sw_draw_point *p = SW_KEEP(job->run, 1, sw_draw_point);
    sw_burn *burn = NULL;
    if (p == NULL) return SW_NO_MEMORY;
    const sw_draw_weather w = {outside_k, wind_pa, (double)NAN, (double)NAN, (double)NAN};
    size_t first = job->run->error_count;
    SW_TRY(sw_burn_open(job->run, &stove, &in.burn, &in.heat, &burn));
    sw_status status = sw_draw_solve(job->run, &in, burn, w, p);
    if (status == SW_OK) *out = p;
    return settled(job, status, first, "flue");
}

/* What is asked, as a pressure on the outlet: told, or of a speed at the house's wind position, on a mild day. */
static double wind_of(const house_job *job)
{
    const sw_house *house = job->d->model.house;
    if (job->asked.wind_pa > 0) return job->asked.wind_pa;
    if (!(job->asked.wind_m_s > 0)) return job->request->wind_pa;
    double mild_k = sw_k_from_c(mild_c);
    double density = sw_flue_air_density(sw_flue_air_pressure_pa(house->altitude_m, mild_k), mild_k);
    return sw_flue_gust_pa(house->wind, job->asked.wind_m_s, density);
}

/* Four weathers by the winds by three places of the wash slide: each point begins at the last one's air. */
static sw_status draw_table(house_job *job)
{
    enum { WEATHERS = 4, WINDS = 3, SLIDES = 3 };
    const double outside_k[WEATHERS] = {job->d->model.house->least_k, sw_k_from_c(0), sw_k_from_c(mild_c),
                                        sw_k_from_c(25)};
    static const double shares[SLIDES] = {1, 0.5, 0.2};
    double winds_pa[WINDS] = {0, sw_flue_wind_pa(SW_WIND_INLAND), sw_flue_wind_pa(SW_WIND_COAST)};
    size_t winds = WINDS;
    if (wind_of(job) > 0) winds_pa[1] = wind_of(job), winds = 2;
    const sw_draw_input in = draw_input(job);
    const sw_burn_input stove = {job->d->model.stove, job->d->sheet, job->d->burned->scene};
    sw_draw_row *rows = SW_KEEP(job->run, WEATHERS * WINDS * SLIDES, sw_draw_row);
    sw_burn *burn = NULL;
    size_t count = 0;
    if (rows == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_burn_open(job->run, &stove, &in.burn, &in.heat, &burn));
    for (size_t i = 0; i < WEATHERS * winds * SLIDES; i++) {
        sw_draw_row *row = &rows[count];
        *row = (sw_draw_row){outside_k[i % WEATHERS],
                             winds_pa[i / WEATHERS % winds],
                             shares[i / WEATHERS / winds],
                             {.lambda = count > 0 ? row[-1].point.lambda : 0}};
        const sw_draw_weather w = {row->outside_k, row->wind_pa, (double)NAN, row->wash_share, (double)NAN};
        size_t first = job->run->error_count;
        sw_status status = sw_draw_solve(job->run, &in, burn, w, &row->point);
        SW_TRY(settled(job, status, first, "flue"));
        count++;
    }
    job->housed->draws = rows;
    job->housed->draw_count = count;
    return SW_OK;
}

static sw_status draw_map(house_job *job)
{
    const sw_draw_input in = draw_input(job);
    const sw_burn_input stove = {job->d->model.stove, job->d->sheet, job->d->burned->scene};
    sw_draw_map *map = SW_KEEP(job->run, 1, sw_draw_map);
    if (map == NULL) return SW_NO_MEMORY;
    *map = (sw_draw_map){.columns = MAP_SIDE,
                         .rows = MAP_SIDE,
                         .outside_low_k = fmin(job->d->model.house->least_k, sw_k_from_c(-15)),
                         .outside_high_k = sw_k_from_c(25),
                         .share_low = 0.1,
                         .share_high = 1};
    SW_TRY(sw_draw_map_solve(job->run, &in, &stove, wind_of(job), map));
    job->housed->map = map;
    return SW_OK;
}

static sw_verdict verdict_of(sw_draw_state state)
{
    if (state == SW_DRAW_SAFE) return SW_HOLDS;
    if (state == SW_DRAW_UNSOLVED) return SW_UNKNOWN;
    return state == SW_DRAW_WASTE || state == SW_DRAW_WET ? SW_WATCH : SW_FAILS;
}

static const char *point_told(sw_run *run, const sw_draw_point *p)
{
    if (p->state == SW_DRAW_NONE) return "the chimney does not draw with this stove";
    if (p->state == SW_DRAW_STRONG)
        return sw_text_format(run, run->keep,
                              "the chimney draws more than %g times the air the wood needs through these openings",
                              SW_DRAW_MOST_LAMBDA);
    if (p->state == SW_DRAW_UNSOLVED) return "stove and chimney found no balance: not known";
    return sw_text_format(
        run, run->keep, "%s: draught %.1f Pa, excess air %.2f, %.2f kW, flue gas %.0f degC with the wood of the duty",
        sw_draw_state_name(p->state), p->draught_pa, p->lambda, p->output_w * 1e-3, sw_c_from_k(p->flue_k));
}

static sw_status tell_draw(house_job *job, const sw_draw_point *p, const char *day)
{
    if (p == NULL) return SW_OK;
    sw_finding f = sw_finding_of("flue", "operating_point", day, job->d->model.house->place);
    f.what = point_told(job->run, p);
    f.verdict = verdict_of(p->state);
    f.source = "stove and chimney solved together, without the standard's safety factors (ours)";
    f.remedy = f.verdict == SW_HOLDS ? "" : "less or more wash air, a draught stabiliser, another liner or height";
    return f.what == NULL ? SW_NO_MEMORY : sw_finding_add(job->run, &job->d->findings, f, 0);
}

/* All fans at full, inner doors open: the room so far below outside takes from the draught. */
static sw_status with_fans(house_job *job)
{
    const sw_site_supply *s = &job->housed->supply;
    sw_flue_input fans = *job->housed->flue_in;
    const sw_flue_input *usual = job->housed->flue_in;
    if (!(job->d->model.house->extract_m3_s > 0) || !(s->open_pa > fans.room_pa) || isinf(s->open_pa)) return SW_OK;
    fans.room_pa = s->open_pa;
    job->housed->flue_in = &fans;
    sw_status status = draw_at(job, sw_k_from_c(mild_c), 0, &job->housed->fans);
    job->housed->flue_in = usual;
    SW_TRY(status);
    return tell_draw(job, job->housed->fans, "a mild day, all fans at full");
}

static sw_status real_chimney(house_job *job)
{
    SW_TRY(draw_at(job, sw_k_from_c(mild_c), 0, &job->housed->mild));
    SW_TRY(draw_at(job, job->d->model.house->least_k, 0, &job->housed->cold));
    SW_TRY(tell_draw(job, job->housed->mild, "a mild day, 15 degC"));
    SW_TRY(tell_draw(job, job->housed->cold, "the coldest day"));
    SW_TRY(with_fans(job));
    if ((job->work & SW_DO_SIZE) != 0 && tabled(job->request)) SW_TRY(draw_table(job));
    return job->request->map && (job->work & SW_DO_SIZE) != 0 ? draw_map(job) : SW_OK;
}

/* ---- the site ------------------------------------------------------------------------------------------------------ */

/* On the real chimney the fire gets the air that its draught draws in: CO2 as excess air thins it (ours). */
static void expect_of_chimney(const house_job *job, sw_site_input *in)
{
    const sw_draw_point *mild = job->housed->mild;
    if (mild == NULL || !sw_draw_is_point(mild->state)) return;
    in->chimney_pa = mild->draught_pa;
    if (!job->housed->flue_in->nominal.declared)
        in->co2_dry = job->d->burned->point->gas.co2_dry * job->d->burned->point->lambda / mild->lambda;
}

static sw_status site(house_job *job)
{
    const sw_dossier *d = job->d;
    sw_site_input *kept = SW_KEEP(job->run, 1, sw_site_input);
    if (kept == NULL) return SW_NO_MEMORY;
    *kept = (sw_site_input){.house = d->model.house,
                            .stove = d->model.stove,
                            .output_w = d->model.stove->duty.output_w,
                            .mass_kg = d->heft == NULL ? (double)NAN : d->heft->stove.mass_kg,
                            .leg_count = 4,
                            .collar_mm = collar_mm(d),
                            .pipe_k = NAN,
                            .pipe_diameter_m = NAN,
                            .floor_k = NAN,
                            .air_kg_s = NAN,
                            .standing_pa = job->housed->start == NULL ? (double)NAN : job->housed->start->standing_pa,
                            .draught_pa = job->housed->flue_in->nominal.need_pa,
                            .flue_k = job->housed->flue_in->nominal.t_k,
                            .co2_dry = job->housed->flue_in->nominal.co2_dry,
                            .room_k = sw_k_from_c(20)};
    if (burnt(d))
        kept->air_kg_s = d->burned->point->fire.air_kg_s;
    else
        SW_TRY(no_fire(job, "site",
                       "what the stove's faces and its air do to the house; rules and sizes alone are judged",
                       "mend the stove's description"));
    if (flue_solved(job->housed)) kept->stabiliser_kg_s = job->housed->flue->over.air_kg_s;
    expect_of_chimney(job, kept);
    SW_TRY(sw_faces_of(job->run, d, kept));
    sw_faces_of_pipe(d->model.house, kept->flue_k, kept);
    job->housed->site_in = kept;
    SW_TRY(sw_site_solve(job->run, kept, &job->housed->site));
    return sw_dossier_tell(job->run, job->d, &job->housed->site->findings);
}

static sw_status record(house_job *job)
{
    const char *bytes = NULL, *path = job->request->record;
    size_t length = 0;
    sw_findings findings = {0};
    SW_TRY(sw_file_read(job->run, path, RECORD_MOST, &bytes, &length));
    SW_TRY(sw_site_record(job->run, job->housed->site, path, bytes, length, &findings));
    return sw_dossier_tell(job->run, job->d, &findings);
}

/* A recess is measured from the stove that stands in it. */
static sw_status place(house_job *job)
{
    double width_mm = 0, depth_mm = 0, height_mm = 0;
    sw_box_of(job->d, &width_mm, &depth_mm, &height_mm);
    return sw_site_placed(job->run, job->d->model.house, width_mm, depth_mm, height_mm, &job->d->model.house);
}

sw_status sw_dossier_house(sw_run *run, const sw_request *request, sw_dossier *d, unsigned work)
{
    sw_housed *housed = SW_KEEP(run, 1, sw_housed);
    if (housed == NULL) return SW_NO_MEMORY;
    house_job job = {.run = run, .request = request, .d = d, .work = work, .housed = housed};
    job.flue_options = sw_flue_options_defaults();
    job.asked = sw_house_conditions_of(run, request);
    housed->why = "";
    SW_TRY(place(&job));
    SW_TRY(flue(&job));
    d->housed = housed;
    if (flue_solved(housed)) SW_TRY(more_flue(&job));
    if (flue_solved(housed) && burnt(d)) SW_TRY(real_chimney(&job));
    SW_TRY(site(&job));
    return request->record == NULL ? SW_OK : record(&job);
}

/* ---- any weather ---------------------------------------------------------------------------------------------------- */

static sw_status no_chimney(sw_run *run, const sw_dossier *d)
{
    const char *why = d->burned == NULL ? "" : d->burned->why;
    if (d->model.house == NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "house", "is missing: give the name of a *.house.lua file");
    if (d->housed == NULL || !flue_solved(d->housed))
        return sw_fail(run, SW_NO_SOLUTION, d->model.house->place, "flue",
                       "the chimney has no solution; see the findings");
    return sw_fail(run, SW_NO_SOLUTION, (sw_place){0}, "stove", "the stove's own fire was not computed%s%s",
                   why == NULL || why[0] == '\0' ? "" : ": ", why == NULL ? "" : why);
}

sw_status sw_dossier_operating(sw_run *run, const sw_request *request, sw_dossier *d, double outside_k, double wind_pa,
                               sw_operating *operating)
{
    house_job job = {.run = run, .request = request, .d = d, .housed = d->housed};
    *operating = (sw_operating){0};
    if (d->housed == NULL || !flue_solved(d->housed) || !burnt(d)) return no_chimney(run, d);
    job.flue_options = sw_flue_options_defaults();
    SW_TRY(draw_at(&job, outside_k, wind_pa, &operating->point));
    const sw_draw_point *p = operating->point;
    if (p == NULL || !sw_draw_is_point(p->state)) return SW_OK;
    const sw_flue_now now = {outside_k, wind_pa, p->gas_kg_s, p->flue_k, p->co2_dry};
    size_t first = run->error_count;
    sw_status status = sw_flue_along(run, d->housed->flue_in, &job.flue_options, now, &operating->along);
    return settled(&job, status, first, "flue");
}
