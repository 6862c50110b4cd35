/* trial_sheets.c: what stands on the rating plate, in the technical documentation and on the fiche, as far as it was measured.
 *
 * Fields: EN 13240 (a summary seen), EN 16510-1 (from memory); Regulation (EU) 2015/1185 annex II point 3 and 2015/1186
 * annexes IV and V (seen). A field nobody measured is left open and says so. */
#include "proving/trial/trial_parts.h"

#include <math.h>

enum { LINES_MOST = 32 };
typedef struct sheet {
    sw_run *run;
    const trial_job *job;
    sw_trial_line *lines;
    size_t count;
    bool full; /* no memory */
} sheet;

static void text(sheet *s, const char *label, const char *value, const char *note)
{
    SW_ASSERT(s->count < LINES_MOST);
    bool open = value[0] == '\0';
    s->lines[s->count++] =
        (sw_trial_line){label, open ? "________" : value, open && note[0] == '\0' ? "to be filled in" : note};
}

static void number(sheet *s, const char *label, double value, int decimals, const char *unit)
{
    const char *written = isnan(value) ? ""
                                       : sw_text_format(s->run, s->run->keep, "%.*f%s%s", decimals, value,
                                                        unit[0] == '\0' ? "" : " ", unit);
    if (written == NULL) s->full = true;
    text(s, label, written == NULL ? "" : written, isnan(value) ? "not measured" : "");
}

/* A result of the whole test, its half width beside it: nothing better than value and half width to the bad side should be
 * declared (common practice, no source). */
static void answer(sheet *s, const char *label, size_t which, int decimals)
{
    const sw_trial_answer *a = &s->job->result->answers[which];
    number(s, label, a->value, decimals, a->unit);
    if (isnan(a->half95)) return;
    int places = a->half95 < 1 ? 2 : a->half95 < 10 ? 1 : 0;
    const char *note = sw_text_format(s->run, s->run->keep, "+- %.*f %s at 95 %%", places, a->half95, a->unit);
    if (note == NULL)
        s->full = true;
    else
        s->lines[s->count - 1].note = note;
}

static void emissions(sheet *s)
{
    static const char *const labels[] = {"CO at 13 % O2", "OGC at 13 % O2", "NOx at 13 % O2", "PM at 13 % O2"};
    static const int order[] = {SW_EMISSION_PM, SW_EMISSION_OGC, SW_EMISSION_CO, SW_EMISSION_NOX};
    for (size_t i = 0; i < SW_EMISSIONS; i++) answer(s, labels[order[i]], SW_ANSWER_CO + (size_t)order[i], 0);
}

static const char *model(const trial_job *job)
{
    if (job->record->model[0] != '\0') return job->record->model;
    return job->in->stove == NULL ? "" : job->in->stove->name;
}

static void plate(sheet *s)
{
    const sw_trial_result *r = s->job->result;
    text(s, "maker", s->job->record->maker, "");
    text(s, "model", model(s->job), "");
    text(s, "standard", "EN 16510-1, EN 16510-2-1", "with year, after the type test");
    text(s, "notified body, declaration of performance", "", "after the type test");
    answer(s, "heat output to the room", SW_ANSWER_OUTPUT, 1);
    text(s, "heat output to water", "none", "no water jacket evaluated");
    answer(s, "efficiency", SW_ANSWER_EFFICIENCY, 1);
    emissions(s);
    number(s, "flue gas temperature", sw_c_from_k(r->declared.flue_k), 0, "degC");
    number(s, "flue gas mass flow", TRIAL_KILO * r->declared.flow_kg_s, 1, "g/s");
    number(s, "least draught", r->declared.draught_pa, 0, "Pa");
    text(s, "recommended fuel", s->job->fuel.name, "");
    text(s, "distances to what burns: rear, sides, front, ceiling, floor", "", "as in the temperature-safety test");
    text(s, "shared flue", "", "");
    text(s, "continuous or intermittent", "intermittent", "evaluated by charges");
    text(s, "read and follow the instructions", "yes", "");
}

static void technical(sheet *s)
{
    const sw_trial_result *r = s->job->result;
    const sw_trial_features *f = &r->features;
    text(s, "model identifier", model(s->job), "");
    text(s, "indirect heating", "no", "no water jacket evaluated");
    answer(s, "direct heat output", SW_ANSWER_OUTPUT, 1);
    text(s, "preferred fuel", s->job->fuel.name, "one fuel only");
    number(s, "seasonal space heating efficiency", 100 * r->season.efficiency, 1, "%");
    emissions(s);
    answer(s, "nominal heat output P_nom", SW_ANSWER_OUTPUT, 1);
    number(s, "least heat output P_min", NAN, 1, "kW");
    answer(s, "useful efficiency at nominal output", SW_ANSWER_EFFICIENCY, 1);
    number(s, "useful efficiency at least output", NAN, 1, "%");
    number(s, "electricity at nominal output", f->el_most_w / TRIAL_KILO, 3, "kW");
    number(s, "electricity at least output", f->el_least_w / TRIAL_KILO, 3, "kW");
    number(s, "electricity in standby", f->el_standby_w / TRIAL_KILO, 3, "kW");
    number(s, "permanent pilot flame", f->pilot_w / TRIAL_KILO, 3, "kW");
    text(s, "type of control", sw_trial_control_name(f->control),
         f->low_tested || f->control == SW_CONTROL_NONE ? "" : "counts only with emissions measured at least output");
    text(s, "presence detection", f->presence ? "yes" : "no", "");
    text(s, "open-window detection", f->window ? "yes" : "no", "");
    text(s, "distance control", f->distance ? "yes" : "no", "");
    text(s, "contact", s->job->record->maker, "");
    text(s, "precautions for assembly, installation, maintenance, disposal", "", "in the instructions");
}

static void fiche(sheet *s)
{
    const sw_trial_result *r = s->job->result;
    text(s, "supplier", s->job->record->maker, "");
    text(s, "model", model(s->job), "");
    text(s, "energy efficiency class", r->season.class_[0] == '?' ? "" : r->season.class_, "");
    answer(s, "direct heat output", SW_ANSWER_OUTPUT, 1);
    text(s, "indirect heat output", "none", "");
    number(s, "energy efficiency index", r->season.index, 0, "");
    answer(s, "useful efficiency at nominal output", SW_ANSWER_EFFICIENCY, 1);
    number(s, "useful efficiency at least output", NAN, 1, "%");
    text(s, "precautions", "", "in the instructions");
}

sw_status trial_sheets(sw_run *run, trial_job *job)
{
    static const struct {
        const char *title;
        void (*fill)(sheet *s);
    } kinds[SW_SHEETS] = {{"Rating plate (draft)", plate},
                          {"Technical documentation, table 1 (draft)", technical},
                          {"Fiche (draft)", fiche}};
    for (size_t i = 0; i < SW_SHEETS; i++) {
        sheet s = {.run = run, .job = job, .lines = SW_KEEP(run, LINES_MOST, sw_trial_line)};
        if (s.lines == NULL) return SW_NO_MEMORY;
        kinds[i].fill(&s);
        if (s.full) return SW_NO_MEMORY;
        job->result->sheets[i] = (sw_trial_sheet){kinds[i].title, s.lines, s.count};
    }
    return SW_OK;
}
