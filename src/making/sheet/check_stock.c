/* check_stock.c: is there a sheet of the grade and thickness, and does the flat go onto it? */
#include "making/sheet/sheet_parts.h"

#include <math.h>
#include <string.h>

typedef struct room { /* the best a sheet offers: side of the flat against side of the sheet */
    const sw_stock *stock;
    double need_mm, have_mm, margin;
} room;

static bool is_of(const sw_stock *s, const sw_piece *p)
{
    bool same =
        s->grade == p->grade || (s->grade != NULL && p->grade != NULL && strcmp(s->grade->name, p->grade->name) == 0);
    return same && fabs(s->thickness_mm - p->thickness_mm) <= SW_SHORTEST_MM;
}

/* The tighter of both sides when the flat lies l x w on the sheet with the laser's margin all round. */
static room fit(const sw_stock *s, double margin_mm, double l_mm, double w_mm)
{
    double L = s->length_mm - 2.0 * margin_mm, W = s->width_mm - 2.0 * margin_mm;
    room along = {s, l_mm, L, (L - l_mm) / l_mm}, across = {s, w_mm, W, (W - w_mm) / w_mm};
    return along.margin < across.margin ? along : across;
}

static void keep_better(room *best, room r)
{
    if (best->stock == NULL || r.margin > best->margin) *best = r;
}

/* Box sides of the outline turned by the angle, from its flattened corners. */
static void turned_box(sw_contour c, double angle_rad, double *l_mm, double *w_mm)
{
    double co = cos(angle_rad), si = sin(angle_rad), x0 = INFINITY, x1 = -INFINITY, y0 = INFINITY, y1 = -INFINITY;
    for (size_t i = 0; i < c.n; i++) {
        sw_vertex next = c.v[(i + 1) % c.n];
        for (int k = 0; k < 4; k++) { /* quarter points of an arc: near enough for a first look */
            sw_point p = sw_segment_point(c.v[i], (sw_point){next.x_mm, next.y_mm}, 0.25 * k);
            double x = co * p.x_mm - si * p.y_mm, y = si * p.x_mm + co * p.y_mm;
            x0 = fmin(x0, x);
            x1 = fmax(x1, x);
            y0 = fmin(y0, y);
            y1 = fmax(y1, y);
        }
    }
    *l_mm = x1 - x0;
    *w_mm = y1 - y0;
}

static room best_turn(const sw_stock *s, double margin_mm, const sw_sheet_piece *piece)
{
    const sw_flat *flat = &piece->flat;
    sw_turns turns = piece->piece->turns;
    room best = {.stock = NULL};
    keep_better(&best, fit(s, margin_mm, flat->box.x1_mm, flat->box.y1_mm));
    bool quarter = turns == SW_TURN_FREE || turns == SW_TURN_QUARTER;
    if (quarter) keep_better(&best, fit(s, margin_mm, flat->box.y1_mm, flat->box.x1_mm));
    for (int deg = 1; deg < 180 && turns == SW_TURN_FREE && best.margin < 0.0; deg++) {
        double l_mm, w_mm;
        turned_box(flat->region.outline, sw_rad_from_deg(deg), &l_mm, &w_mm);
        keep_better(&best, fit(s, margin_mm, l_mm, w_mm));
    }
    return best;
}

static room best_sheet(const sw_works *works, const sw_sheet_piece *piece)
{
    const sw_piece *p = piece->piece;
    const sw_laser_row *row = sw_works_laser_row(works, p->grade, p->thickness_mm);
    room best = {.stock = NULL};
    for (size_t i = 0; i < works->stock_count; i++) {
        if (!is_of(&works->stock[i], p)) continue;
        keep_better(&best, best_turn(&works->stock[i], row == NULL ? 0.0 : row->margin_mm, piece));
    }
    return best;
}

static sw_status report_missing(sw_run *run, const sw_sheet_study *study, const sw_piece *p)
{
    sw_finding f = sw_finding_of("sheet", "stock", sw_piece_label(run, p), p->place);
    f.verdict = SW_FAILS;
    f.source = "works description, stock";
    f.what = sw_text_format(run, run->keep, "the works has no sheet of %s %.3g mm",
                            p->grade == NULL ? "?" : p->grade->name, p->thickness_mm);
    f.remedy = "add such a sheet to the works description, or choose a stocked grade and thickness";
    return sw_sheet_report(run, study, f, 0.0);
}

static sw_status report_room(sw_run *run, const sw_sheet_study *study, const sw_sheet_piece *piece, room r)
{
    const sw_piece *p = piece->piece;
    sw_finding f = {.check = "fits_stock",
                    .sense = SW_AT_MOST,
                    .value = r.need_mm,
                    .limit = r.have_mm,
                    .unit = "mm",
                    .source = "works description, stock and laser margins",
                    .place = p->place,
                    .where = sw_piece_label(run, p)};
    f.what = sw_text_format(run, run->keep, "flat %.1f x %.1f mm; its tighter side %.1f mm has %.1f mm on %s",
                            piece->flat.box.x1_mm, piece->flat.box.y1_mm, r.need_mm, r.have_mm, r.stock->name);
    f.remedy = "a larger sheet, another turn, or make it of two pieces";
    return sw_sheet_report(run, study, f, 0.0);
}

sw_status sw_check_stock(sw_run *run, const sw_sheet_study *study)
{
    const sw_works *works = study->model->works;
    if (works == NULL) {
        sw_finding f = sw_finding_of("sheet", "stock", "all pieces", (sw_place){0});
        f.what = "no works description given: stock, dies and margins are not checked";
        f.verdict = SW_UNKNOWN;
        f.source = "works description";
        f.remedy = "give the works description (--works)";
        return sw_sheet_report(run, study, f, 0.0);
    }
    for (size_t i = 0; i < study->case_count; i++) {
        const sw_sheet_piece *piece = study->cases[i].piece;
        room best = best_sheet(works, piece);
        if (best.stock == NULL)
            SW_TRY(report_missing(run, study, piece->piece));
        else
            SW_TRY(report_room(run, study, piece, best));
    }
    return SW_OK;
}
