/* form_blocked.c: a piece no order bends: which bend, what it strikes, and what would help. */
#include "making/form/form_parts.h"

static const double try_neck_mm = 45.0, try_higher = 2.0, try_slim = 0.5,
                    try_block_mm = 5.0; /* what is tried as a remedy. ours */
enum { TRY_LINES = 10 };                /* above this no remedies are searched. ours */

typedef struct block {
    int line;
    form_clash clash;
} block;

/* Of the lines left where the search got farthest, the one that lies least deep in something. */
static block find_block(form_job *job, const form_order *order)
{
    block best = {.line = -1, .clash = {.depth_mm = INFINITY}};
    for (size_t d = 0; d < order->deepest_count; d++)
        for (int i = 0; i < (int)job->body->line_count; i++) {
            form_clash clash;
            const form_line *l = &job->body->lines[i];
            if ((order->deepest[d] >> i & 1u) != 0 || isnan(l->die_mm) || isnan(l->set_rad)) continue;
            if (l->wedge_rad + l->set_rad > SW_PI) continue;
            if (form_stroke_clear(job, order->deepest[d], i, SW_FORM_STRAIGHT, &clash)) continue;
            if (clash.depth_mm < best.clash.depth_mm) best = (block){i, clash};
        }
    return best;
}

static sw_status helps(sw_run *run, form_job *job, bool *found)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = form_any_order(run, job, found);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

/* Another die at hand, for all lines that had the same. */
static sw_status try_dies(sw_run *run, form_job *job, const block *b, double *die_mm)
{
    const sw_press *p = &job->works->press;
    form_body *body = job->body;
    double had_mm = body->lines[b->line].die_mm, had[FORM_LINES];
    bool found = false;
    for (size_t i = 0; i < body->line_count; i++) had[i] = body->lines[i].die_mm;
    for (size_t d = 0; d < p->die_count && !found; d++) {
        double ratio = p->dies_mm[d] / body->piece->thickness_mm;
        if (p->dies_mm[d] == had_mm || ratio < 6.0 - SW_SAME_POINT_MM || ratio > 15.0 + SW_SAME_POINT_MM) continue;
        for (size_t i = 0; i < body->line_count; i++)
            if (had[i] == had_mm) body->lines[i].die_mm = p->dies_mm[d];
        *die_mm = p->dies_mm[d];
        SW_TRY(helps(run, job, &found));
    }
    for (size_t i = 0; i < body->line_count; i++) body->lines[i].die_mm = had[i];
    if (!found) *die_mm = NAN;
    return SW_OK;
}

typedef struct attempt { /* a change of the tools and what to say when it helps */
    double *figure, value;
    const char *before, *after;
} attempt;

static sw_status try_tools(sw_run *run, form_job *job, const attempt *list, size_t count, const char **text)
{
    form_machine kept = job->machine;
    for (size_t i = 0; i < count; i++) {
        bool found = false;
        *list[i].figure = list[i].value;
        SW_TRY(helps(run, job, &found));
        job->machine = kept;
        if (!found) continue;
        *text = sw_text_format(run, run->keep, "%s %.0f mm%s bends it", list[i].before, list[i].value, list[i].after);
        return *text == NULL ? SW_NO_MEMORY : SW_OK;
    }
    return SW_OK;
}

static sw_status try_slim_dies(sw_run *run, form_job *job, const block *b, const char **text)
{
    form_machine kept = job->machine;
    double die_mm = NAN;
    job->machine.die_block_mm = fmin(kept.die_block_mm, try_block_mm);
    sw_status status = try_dies(run, job, b, &die_mm);
    if (status == SW_OK && !isnan(die_mm))
        *text =
            sw_text_format(run, run->keep, "a slim %g die with %.0f mm beside its V bends it; mind the radius it makes",
                           die_mm, job->machine.die_block_mm);
    job->machine = kept;
    return status;
}

static sw_status remedy_of(sw_run *run, form_job *job, const block *b, const char **text)
{
    form_machine *m = &job->machine;
    const attempt over[] = {{&m->neck_mm, fmax(m->neck_mm, try_neck_mm), "a goose-neck punch with a relief of", ""},
                            {&m->punch_high_mm, m->punch_high_mm * try_higher, "a punch with a height of", ""},
                            {&m->punch_body_mm, m->punch_body_mm * try_slim, "a punch with a body of", ""}};
    const attempt under[] = {
        {&m->die_block_mm, fmin(m->die_block_mm, try_block_mm), "a slim die with", " beside its V"},
        {&m->die_high_mm, m->die_high_mm * try_higher, "a die with a height of", ""}};
    bool above = b->clash.thing == SW_FORM_PUNCH || b->clash.thing == SW_FORM_BEAM;
    const char *found = NULL, *name = job->body->piece->bends[job->body->lines[b->line].bends[0]].name;
    double die_mm = NAN;
    *text = sw_text_format(run, run->keep, "shorten %s by some %.0f mm, or split the piece at %s and weld it",
                           form_part_name(run, job->body, b->clash.part), ceil(b->clash.depth_mm), name);
    if (*text == NULL) return SW_NO_MEMORY;
    if (job->body->line_count > TRY_LINES || b->clash.other >= 0) return SW_OK;
    SW_TRY(try_tools(run, job, above ? over : under, above ? 3 : 2, &found));
    if (found == NULL) SW_TRY(try_dies(run, job, b, &die_mm));
    if (!isnan(die_mm)) found = sw_text_format(run, run->keep, "the %g die bends it; mind the radius it makes", die_mm);
    if (found == NULL && !above) SW_TRY(try_slim_dies(run, job, b, &found));
    if (found != NULL) *text = found;
    return SW_OK;
}

/* No die or no punch for one of the lines, or too many lines: there is nothing to simulate. */
static sw_status no_tools(sw_run *run, form_job *job, sw_finding f, sw_findings *findings)
{
    const form_body *body = job->body;
    if (body->line_count > FORM_LINES) {
        f.verdict = SW_UNKNOWN;
        f.what = sw_text_format(run, run->keep, "%zu bend lines are more than the search takes (%d)", body->line_count,
                                FORM_LINES);
        f.remedy = "split the piece, or find the order on the shop floor";
        return form_add(run, findings, f, 0.0);
    }
    for (size_t i = 0; i < body->line_count; i++) {
        const form_line *l = &body->lines[i];
        const char *name = body->piece->bends[l->bends[0]].name;
        if (!isnan(l->die_mm) && !isnan(l->set_rad) && l->wedge_rad + l->set_rad <= SW_PI) continue;
        f.what = isnan(l->die_mm)
                     ? sw_text_format(run, run->keep, "%s: no die from 6 to 15 times the %g mm of the sheet", name,
                                      body->piece->thickness_mm)
                     : sw_text_format(run, run->keep, "%s: %.0f deg are more than an air bend makes", name,
                                      sw_deg_from_rad(l->angle_rad));
        f.remedy = isnan(l->die_mm) ? "list a die that suits the sheet, or have the piece bent elsewhere"
                                    : "a smaller angle, or a hem";
        return form_add(run, findings, f, 0.0);
    }
    return SW_OK;
}

sw_status form_blocked(sw_run *run, form_job *job, const form_order *order, sw_findings *findings)
{
    const form_body *body = job->body;
    sw_finding f = form_finding("sequence", body->piece);
    f.verdict = SW_FAILS;
    f.where = form_piece_label(run, body->piece);
    f.source = "section simulated stroke by stroke, handbook 2.7";
    block b = find_block(job, order);
    if (b.line < 0) return no_tools(run, job, f, findings);
    const char *struck = b.clash.other >= 0 ? form_part_name(run, body, b.clash.other) : form_thing_name(b.clash.thing);
    const sw_bend *bend = &body->piece->bends[body->lines[b.line].bends[0]];
    f.place = bend->place;
    f.what = sw_text_format(run, run->keep, "no order of its %zu bend lines: bending %s drives %s %.1f mm into %s%s",
                            body->line_count, bend->name, form_part_name(run, body, b.clash.part), b.clash.depth_mm,
                            b.clash.other < 0 ? "the " : "", struck);
    SW_TRY(remedy_of(run, job, &b, &f.remedy));
    return form_add(run, findings, f, 0.0);
}
