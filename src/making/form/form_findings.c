/* form_findings.c: findings of the works: what it does not say; and the tools of all findings here. */
#include "making/form/form_parts.h"

sw_finding form_finding(const char *check, const sw_piece *piece)
{
    sw_finding f = sw_finding_of("form", check, "", piece != NULL ? piece->place : (sw_place){0});
    f.verdict = SW_FAILS;
    return f;
}

sw_status form_add(sw_run *run, sw_findings *findings, sw_finding finding, double watch)
{
    if (finding.what == NULL || finding.where == NULL || finding.remedy == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_finding_add(run, findings, finding, watch));
    sw_finding *kept = &findings->items[findings->count - 1];
    if (kept->verdict == SW_HOLDS) kept->remedy = "";
    return SW_OK;
}

const char *form_piece_label(sw_run *run, const sw_piece *piece)
{
    return sw_text_format(run, run->keep, "%s %s", piece->number, piece->name);
}

const char *form_part_name(sw_run *run, const form_body *body, int part)
{
    int faces = (int)body->piece->face_count;
    if (part < 0) return "the tools";
    if (part < faces) return body->piece->faces[part].name;
    return sw_text_format(run, run->keep, "bend %s", body->piece->bends[part - faces].name);
}

typedef struct wanted {
    const char *name;
    bool given;
} wanted;

static sw_status missing(sw_run *run, const wanted *list, size_t count, const char **text)
{
    *text = "";
    for (size_t i = 0; i < count; i++) {
        if (list[i].given) continue;
        *text = sw_text_format(run, run->keep, "%s%s%s", *text, (*text)[0] == '\0' ? "" : ", ", list[i].name);
        if (*text == NULL) return SW_NO_MEMORY;
    }
    return SW_OK;
}

static sw_status say(sw_run *run, const sw_works *works, const char *check, const char *where, const char *what,
                     sw_findings *findings)
{
    sw_finding f = form_finding(check, NULL);
    f.where = where;
    f.what = what;
    f.verdict = SW_UNKNOWN;
    f.source = "works description";
    f.remedy = "give these figures in the works description";
    if (works != NULL) f.place = works->place;
    return form_add(run, findings, f, 0.0);
}

static sw_status press_figures(sw_run *run, const sw_works *works, sw_findings *findings)
{
    const sw_press *p = &works->press;
    const wanted machine[] = {{"dies", p->die_count > 0}, {"length", p->length_mm > 0.0}, {"force", p->force_n > 0.0}};
    const wanted tools[] = {{"punch_body", p->punch_body_mm > 0.0},
                            {"punch_high", p->punch_high_mm > 0.0},
                            {"die_block", p->die_block_mm > 0.0},
                            {"die_high", p->die_high_mm > 0.0},
                            {"beam", p->beam_mm > 0.0},
                            {"gauge_most", p->gauge_most_mm > 0.0}};
    const wanted times[] = {{"bend_time", p->bend_s > 0.0}, {"setup", p->setup_s > 0.0}};
    const char *text = "";
    SW_TRY(missing(run, machine, 3, &text));
    if (text[0] != '\0')
        SW_TRY(say(run, works, "press_figures", "press",
                   sw_text_format(run, run->keep, "the press has no %s: not everything could be judged", text),
                   findings));
    SW_TRY(missing(run, tools, 6, &text));
    if (text[0] != '\0')
        SW_TRY(say(run, works, "press_tools", "press",
                   sw_text_format(run, run->keep, "the press has no %s: usual sizes are assumed for collisions", text),
                   findings));
    SW_TRY(missing(run, times, 2, &text));
    if (text[0] == '\0') return SW_OK;
    return say(run, works, "press_times", "press",
               sw_text_format(run, run->keep, "the press has no %s: times count without", text), findings);
}

static sw_status rolls_figures(sw_run *run, const sw_works *works, sw_findings *findings)
{
    const sw_rolls *r = &works->rolls;
    const wanted list[] = {{"length", r->length_mm > 0.0},
                           {"top_radius", r->top_radius_mm > 0.0},
                           {"lower_radius", r->lower_radius_mm > 0.0},
                           {"centres", r->centres_mm > 0.0},
                           {"force", r->force_n > 0.0},
                           {"speed", r->pass_mm_s > 0.0}};
    const char *text = "";
    SW_TRY(missing(run, list, 6, &text));
    if (text[0] == '\0') return SW_OK;
    return say(run, works, "rolls_figures", "rolls",
               sw_text_format(run, run->keep, "the rolls have no %s: not everything could be judged", text), findings);
}

sw_status form_works_findings(sw_run *run, const sw_form_input *in, sw_findings *findings)
{
    const sw_works *works = in->model->works;
    bool pressed = false, rolled = false;
    for (size_t i = 0; i < in->sheet->piece_count; i++) {
        const sw_piece *p = in->sheet->pieces[i].piece;
        for (size_t b = 0; b < p->bend_count; b++) {
            pressed = pressed || p->bends[b].kind != SW_ROLLED;
            rolled = rolled || p->bends[b].kind == SW_ROLLED;
        }
    }
    if (works == NULL && (pressed || rolled))
        return say(run, NULL, "works", "stove", "no works is given: neither press nor rolls are known", findings);
    if (pressed) SW_TRY(press_figures(run, works, findings));
    return rolled ? rolls_figures(run, works, findings) : SW_OK;
}
