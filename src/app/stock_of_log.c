/* stock_of_log.c: remnants of the works' log as stock for nests. */
#include "app/stock_of_log.h"

#include <math.h>

/* Price of a square millimetre of the cheapest whole sheet of the same steel; NAN = the works has none. */
static double price_mm2(const sw_works *works, const sw_grade *grade, double thickness_mm)
{
    double least = (double)NAN;
    for (size_t i = 0; i < works->stock_count; i++) {
        const sw_stock *s = &works->stock[i];
        double area_mm2 = sw_region_area(&s->shape);
        bool same = s->grade == grade && fabs(s->thickness_mm - thickness_mm) < SW_SAME_POINT_MM;
        if (!same || s->remnant || !(area_mm2 > 0)) continue;
        least = fmin(least, s->price / area_mm2); /* the first beside NAN */
    }
    return least;
}

static sw_status tell_left_out(sw_run *run, sw_dossier *d, const sw_log_remnant *r)
{
    sw_finding f = sw_finding_of("nest", "remnant_of_log", sw_text_copy(run, run->keep, r->name), (sw_place){0});
    f.what =
        sw_text_format(run, run->keep, "remnant %s of %g mm %s is in stock and not used: the works has no sheet of it",
                       r->name, r->thickness_mm, r->material);
    f.source = "the works' log";
    return f.where == NULL || f.what == NULL ? SW_NO_MEMORY : sw_finding_add(run, &d->findings, f, 0);
}

static sw_status add_remnant(sw_run *run, sw_works *works, const sw_log_remnant *r, sw_stock *into, double each_mm2)
{
    *into = (sw_stock){.name = r->name,
                       .grade = sw_grade_find(r->material),
                       .thickness_mm = r->thickness_mm,
                       .length_mm = r->length_mm,
                       .width_mm = r->width_mm,
                       .remnant = true,
                       .count = 1,
                       .price = each_mm2 * works->remnant_factor * r->length_mm * r->width_mm,
                       .place = {.file = "the works' log"}};
    return sw_contour_rectangle(run, (sw_box){0, 0, r->length_mm, r->width_mm}, 0, &into->shape.outline);
}

static sw_status read_remnants(sw_run *run, const char *path, const sw_log_remnant **remnants, size_t *count)
{
    sw_log *log = NULL;
    const sw_log_options options = sw_log_defaults(SW_LOG_READ);
    SW_TRY(sw_log_open(run, path, &options, &log));
    sw_status status = sw_log_stock(run, log, remnants, count);
    sw_log_close(log);
    return status;
}

sw_status sw_stock_of_log(sw_run *run, const char *path, sw_dossier *dossier)
{
    const sw_log_remnant *remnants = NULL;
    size_t count = 0;
    if (dossier->model.works == NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--log", "remnants are cut at a works: add --works FILE");
    SW_TRY(read_remnants(run, path, &remnants, &count));
    sw_works *works = SW_KEEP(run, 1, sw_works);
    sw_stock *stock = SW_KEEP(run, dossier->model.works->stock_count + count, sw_stock);
    if (works == NULL || stock == NULL) return SW_NO_MEMORY;
    *works = *dossier->model.works;
    size_t n = 0;
    for (; n < works->stock_count; n++) stock[n] = works->stock[n];
    for (size_t i = 0; i < count; i++) {
        const sw_grade *grade = sw_grade_find(remnants[i].material);
        double each_mm2 = grade == NULL ? (double)NAN : price_mm2(works, grade, remnants[i].thickness_mm);
        if (isnan(each_mm2))
            SW_TRY(tell_left_out(run, dossier, &remnants[i]));
        else
            SW_TRY(add_remnant(run, works, &remnants[i], &stock[n++], each_mm2));
    }
    works->stock = stock;
    works->stock_count = n;
    dossier->model.works = works;
    return SW_OK;
}
