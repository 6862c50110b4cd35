/* fitter.c: the fitter's sheet: cautions, what must be mended, distances, the stove in its place, the flue's way, what was assumed; then
 * the form of the first fire. Cautions: common practice, no source, unless the text names one. */
#include "papers/house_parts.h"

#include <math.h>
#include <string.h>

static const char *const cautions[] = {
    "Carbon monoxide has no smell and kills. No fire without an alarm that sounds (EN 50291-1), and none while smoke comes into the room or air cannot come in.",
    "The flue is swept, looked through and tested for leaks before the stove is joined to it, whatever its age; afterwards it is swept at least once a year.",
    "The local building code, the chimney sweep and the stove's own instructions come first; where they ask for more than this sheet, theirs holds.",
    "Fitting is the work of a licensed fitter, and in many places must be told to the authority before the first fire.",
    "Nothing that burns stands, hangs or is stored within the distances below, not for one evening either. Timber hidden in walls, floor and ceiling counts.",
    "The first fires cure paint and lining and smell: small, with windows open, nobody asleep in the house.",
    "This sheet is computed from a description. Measure on site; where the house differs, the description is mended and the sheet made again.",
};

static sw_status items(sw_run *run, doc_book *doc, const char *const *texts, size_t count)
{
    for (size_t i = 0; i < count; i++) SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_ITEM, .text = texts[i]}));
    return SW_OK;
}

static bool concerns(const sw_finding *f)
{
    return f->verdict != SW_HOLDS && (strcmp(f->study, "flue") == 0 || strcmp(f->study, "site") == 0);
}

static sw_status open_points(sw_run *run, doc_book *doc)
{
    const sw_findings *all = &doc->d->findings;
    size_t count = 0;
    SW_TRY(doc_heading(run, doc, 1, "To be mended, watched or found out"));
    for (size_t i = 0; i < all->count; i++) {
        if (!concerns(&all->items[i])) continue;
        SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_FINDING, .finding = &all->items[i]}));
        count++;
    }
    return count > 0 ? SW_OK : doc_paragraph(run, doc, "Nothing: every check of chimney and site holds.");
}

/* ---- what was assumed ------------------------------------------------------------------------------------------- */

static const char *stove_words(sw_run *run, const sw_flue_appliance *a)
{
    return sw_text_format(run, run->scratch,
                          "The stove, %s: %.2f g/s of gas at %.0f " CELSIUS_C
                          ", %.1f %% CO\xe2\x82\x82, needs %.1f Pa.",
                          a->declared ? "as declared from its type test" : "by its own model, not from a type test",
                          a->kg_s * 1e3, sw_c_from_k(a->t_k), a->co2_dry * 100, a->need_pa);
}

static const char *place_words(sw_run *run, const sw_house *h)
{
    static const char *const winds[] = {[SW_WIND_FREE] = "the outlet stands in free wind",
                                        [SW_WIND_INLAND] = "adverse wind at the outlet, inland",
                                        [SW_WIND_COAST] = "adverse wind at the outlet, at the coast"};
    return sw_text_format(run, run->scratch,
                          "%.0f m above the sea, outside from %.0f " CELSIUS_C " to 15 " CELSIUS_C
                          " for the draught; %s.",
                          h->altitude_m, sw_c_from_k(h->least_k), winds[h->wind]);
}

static const char *room_words(sw_run *run, const sw_house *h)
{
    const char *volume = words_number(run, h->room_m3, 0), *vent = words_number(run, sw_mm2_from_m2(h->vent_m2), 0),
               *fans = words_number(run, h->extract_m3_s * sw_s_from_h(1), 0);
    if (volume == NULL || vent == NULL || fans == NULL) return NULL;
    return sw_text_format(
        run, run->scratch,
        "Room of %s m\xc2\xb3, opening to the outside %s mm\xc2\xb2, fans %s m\xc2\xb3/h; %s; air for the fire %s.",
        volume, vent, fans, h->stabiliser ? "with a draught stabiliser" : "no draught stabiliser",
        h->direct_air ? "by its own pipe" : "from the room");
}

static const char *shaft_words(sw_run *run, const sw_survey *s)
{
    const char *leak =
        isnan(s->leak_m3_s_m2)
            ? "not tested for leaks"
            : sw_text_format(run, run->scratch, "leak test %.3g m\xc2\xb3/(s m\xc2\xb2)", s->leak_m3_s_m2);
    if (leak == NULL) return NULL;
    return sw_text_format(run, run->scratch, "Survey of the shaft: %s, %s%s%s%s%s%s.", s->swept ? "swept" : "not swept",
                          leak, s->tar ? ", tar" : "", s->damp ? ", damp" : "", s->cracked ? ", cracked" : "",
                          s->shared ? ", shared with another appliance" : "", s->timber_inside ? ", timber in it" : "");
}

static const char *alarm_words(sw_run *run, const sw_alarm *a)
{
    if (!a->there) return "No carbon monoxide alarm is described: fit one before the first fire.";
    const char *from = words_number(run, a->from_stove_mm, 0), *wall = words_number(run, a->from_wall_mm, 0),
               *below = words_number(run, a->below_ceiling_mm, 0);
    if (from == NULL || wall == NULL || below == NULL) return NULL;
    return a->on_ceiling
               ? sw_text_format(run, run->scratch,
                                "Carbon monoxide alarm on the ceiling, %s mm from the stove, %s mm from the wall.",
                                from, wall)
               : sw_text_format(run, run->scratch,
                                "Carbon monoxide alarm on the wall, %s mm from the stove, %s mm below the ceiling.",
                                from, below);
}

static const char distances[] =
    "Distances by computed temperature: the hottest face of each side at the duty, the worst point of the "
    "thing, 65 K above a room of 20 " CELSIUS_C ". A thing not described is not checked.";

static sw_status assumed(sw_run *run, doc_book *doc)
{
    const sw_house *h = doc->d->model.house;
    const char *const texts[] = {
        sw_text_format(run, run->scratch, "Rules: %s.",
                       h->code[0] == '\0' ? "none given; distances come from computed temperatures alone" : h->code),
        stove_words(run, &doc->d->housed->flue_in->nominal),
        place_words(run, h),
        room_words(run, h),
        shaft_words(run, &h->survey),
        alarm_words(run, &h->alarm),
        distances,
    };
    SW_TRY(doc_heading(run, doc, 1, "What was assumed"));
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        if (texts[i] == NULL) return SW_NO_MEMORY;
    return items(run, doc, texts, sizeof texts / sizeof *texts);
}

/* ---- the whole ----------------------------------------------------------------------------------------------------- */

static sw_status form_page(sw_run *run, const doc_book *doc, size_t first, size_t count, sw_pen *pen, sw_box box)
{
    return draw_record(run, doc->desk, first, count, pen, box);
}

static sw_status form(sw_run *run, doc_book *doc)
{
    size_t total = doc->d->housed->site->expected_count;
    for (size_t first = 0, count = 0; first < total; first += count) {
        double high_mm = 0;
        SW_TRY(record_rows(run, doc->desk, first, &count, &high_mm));
        SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_PAGE}));
        SW_TRY(doc_heading(run, doc, 2, first == 0 ? "First fire: record" : "First fire: record, continued"));
        SW_TRY(doc_add(
            run, doc,
            (doc_block){.kind = DOC_FIGURE,
                        .text =
                            "The small names are those that stovewright site --record reads from a file: name, value.",
                        .figure = {.draw = form_page, .a = first, .b = count, .height_mm = high_mm}}));
    }
    return SW_OK;
}

static sw_status content(sw_run *run, doc_book *doc)
{
    SW_TRY(doc_heading(run, doc, 1, "Before anything else"));
    SW_TRY(items(run, doc, cautions, sizeof cautions / sizeof *cautions));
    SW_TRY(open_points(run, doc));
    SW_TRY(doc_heading(run, doc, 1, "Distances and sizes"));
    SW_TRY(house_needs_table(run, doc));
    SW_TRY(assumed(run, doc));
    SW_TRY(doc_heading(run, doc, 1, "The stove in its place"));
    SW_TRY(house_plan_figures(run, doc));
    SW_TRY(doc_heading(run, doc, 1, "The flue"));
    SW_TRY(house_route_figure(run, doc));
    SW_TRY(house_parts_table(run, doc));
    return form(run, doc);
}

static sw_status rendered(sw_run *run, const paper_desk *desk, const char *path)
{
    const sw_dossier *d = desk->d;
    doc_book doc = {.d = d, .desk = desk};
    doc.title = sw_text_format(run, run->scratch, "Fitter's sheet: %s", d->model.stove->title);
    doc.subtitle =
        sw_text_format(run, run->scratch, "%s. %s From %s and %s, %s. stovewright " SW_VERSION ".",
                       d->model.house->name, d->model.house->note, d->model.stove_file, d->model.house_file, d->date);
    if (doc.title == NULL || doc.subtitle == NULL) return SW_NO_MEMORY;
    SW_TRY(content(run, &doc));
    return doc_to_pdf(run, &doc, path);
}

sw_status paper_fitter(sw_run *run, const paper_desk *desk, const char *path)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = rendered(run, desk, path);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
