/* check_flange.c: does each leg of a bend reach over the shoulder of the die? Also joggles and hems, which need
 * tools of their own. */
#include "making/sheet/sheet_parts.h"

#include <math.h>

#define FLANGE_SOURCE "air bending chart of a tool maker: least flange, outside, at 90 degrees"

typedef struct leg { /* the leg with the least room on one piece */
    const sw_bend *bend;
    const char *face;
    double flange_mm, least_mm, die_mm;
    double margin;
} leg;

/* V opening, least outside flange at 90 degrees, mm. source: toolmaker's air bending chart, mild steel Rm 450 MPa */
static const double chart[][2] = {{6, 4},     {8, 5.5}, {10, 7},  {12, 8.5}, {16, 11}, {20, 14},
                                  {25, 17.5}, {32, 22}, {40, 28}, {50, 35},  {63, 45}, {80, 55}};
enum { CHART_ROWS = sizeof chart / sizeof *chart };

/* V = 6 s to 2.5 mm, 8 s to 8 mm, 10 s to 10 mm, 12 s above. source: press-brake maker's V rule */
static double wanted_die_mm(double s_mm)
{
    double factor = s_mm <= 2.5 ? 6.0 : s_mm <= 8.0 ? 8.0 : s_mm <= 10.0 ? 10.0 : 12.0;
    return factor * s_mm;
}

/* The smallest die at hand that is wide enough; without a list of dies the wanted width; NAN = none fits. */
static double find_die_mm(const sw_works *works, double s_mm)
{
    double wanted_mm = wanted_die_mm(s_mm);
    if (works == NULL || works->press.die_count == 0) return wanted_mm;
    for (size_t i = 0; i < works->press.die_count; i++)
        if (works->press.dies_mm[i] >= wanted_mm - SW_SAME_POINT_MM) return works->press.dies_mm[i];
    return NAN;
}

/* Between rows by straight line, beyond them 0.7 V. */
static double least_flange_mm(double die_mm)
{
    if (isnan(die_mm)) return NAN;
    for (int i = 0; i + 1 < CHART_ROWS; i++) {
        if (die_mm < chart[i][0] || die_mm > chart[i + 1][0]) continue;
        double t = (die_mm - chart[i][0]) / (chart[i + 1][0] - chart[i][0]);
        return chart[i][1] + t * (chart[i + 1][1] - chart[i][1]);
    }
    return 0.7 * die_mm;
}

/* How far the material reaches from p in direction d, to the first edge met; straight edges and arcs by chord. */
static double reach_mm(const sw_contour *c, sw_point p, sw_point d)
{
    double best_mm = INFINITY;
    sw_vertex a = {p.x_mm + d.x_mm * 0.01, p.y_mm + d.y_mm * 0.01, 0.0};
    sw_point far = {p.x_mm + d.x_mm * 4e4, p.y_mm + d.y_mm * 4e4}, at[2];
    for (size_t i = 0; i < c->n; i++) {
        sw_vertex next = c->v[(i + 1) % c->n];
        size_t n = sw_segment_crossings(a, far, c->v[i], (sw_point){next.x_mm, next.y_mm}, at);
        for (size_t k = 0; k < n; k++) best_mm = fmin(best_mm, hypot(at[k].x_mm - p.x_mm, at[k].y_mm - p.y_mm));
    }
    return isinf(best_mm) ? 0.0 : best_mm;
}

/* Least depth of a face seen from its bend edge start -> end, measured to the side d at five stations. */
static double depth_mm(const sw_contour *c, sw_point start, sw_point end, sw_point d)
{
    double least_mm = INFINITY;
    for (int i = 1; i <= 9; i += 2) {
        double t = 0.1 * i;
        sw_point p = {start.x_mm + t * (end.x_mm - start.x_mm), start.y_mm + t * (end.y_mm - start.y_mm)};
        least_mm = fmin(least_mm, reach_mm(c, p, d));
    }
    return least_mm;
}

/* The other bend of a joggle: on the child, of the same angle the other way. */
static const sw_bend *find_twin(const sw_piece *p, const sw_bend *b)
{
    for (size_t i = 0; i < p->bend_count; i++) {
        const sw_bend *other = &p->bends[i];
        bool related = other->parent == b->child || other->child == b->parent;
        if (related && other->kind == SW_PRESSED && fabs(other->angle_rad + b->angle_rad) < 1e-6) return other;
    }
    return NULL;
}

static void weigh(leg *worst, const sw_tree *tree, const sw_bend *b, bool of_child, double die_mm)
{
    const sw_face *face = &tree->piece->faces[of_child ? b->child : b->parent];
    double w_mm = tree->zones[b - tree->piece->bends].width_mm;
    sw_point u = {(b->to.x_mm - b->from.x_mm) / w_mm, (b->to.y_mm - b->from.y_mm) / w_mm};
    double depth = of_child ? depth_mm(&face->region.outline, (sw_point){0, 0}, (sw_point){w_mm, 0}, (sw_point){0, 1})
                            : depth_mm(&face->region.outline, b->from, b->to, (sw_point){-u.y_mm, u.x_mm});
    leg l = {.bend = b, .face = face->name, .die_mm = die_mm, .least_mm = least_flange_mm(die_mm)};
    l.flange_mm = depth + sw_bend_setback_mm(b->radius_mm, tree->piece->thickness_mm, b->angle_rad);
    l.margin = (l.flange_mm - l.least_mm) / l.least_mm;
    const sw_bend *twin = find_twin(tree->piece, b);
    bool inside_joggle = twin != NULL && twin->parent == b->child ? of_child : twin != NULL && !of_child;
    if (inside_joggle && !(l.margin >= 0.0)) return; /* check_joggle judges it */
    if (worst->bend == NULL || !(l.margin >= worst->margin)) *worst = l;
}

static sw_status report_leg(sw_run *run, const sw_sheet_study *study, const sw_piece *p, const leg *l)
{
    sw_finding f = {.check = "least_flange",
                    .sense = SW_AT_LEAST,
                    .value = l->flange_mm,
                    .limit = l->least_mm,
                    .unit = "mm",
                    .source = FLANGE_SOURCE,
                    .place = l->bend->place};
    f.remedy = "a longer flange, a narrower die with a trial bend, or bend it before the one beside it";
    f.where = sw_text_format(run, run->keep, "%s %s, %s, face %s", p->number, p->name, l->bend->name, l->face);
    f.what = sw_text_format(run, run->keep, "flange %.1f mm outside, die V %.3g mm needs %.1f mm", f.value, l->die_mm,
                            f.limit);
    if (isnan(l->die_mm)) {
        f.limit = NAN;
        f.what = sw_text_format(run, run->keep, "no die for %.3g mm: V of at least %.3g mm wanted", p->thickness_mm,
                                wanted_die_mm(p->thickness_mm));
        f.remedy = "list a wider die in the works description, or have the piece bent elsewhere";
    }
    return sw_sheet_report(run, study, f, 0.0);
}

/* Offset between the outer faces of a joggle, its bends by one straight. */
static double joggle_offset_mm(const sw_piece *p, const sw_bend *b, double straight_mm)
{
    double A = fabs(b->angle_rad);
    return 2.0 * (b->radius_mm + p->thickness_mm / 2.0) * (1.0 - cos(A)) + straight_mm * sin(A);
}

static sw_status check_joggle(sw_run *run, const sw_sheet_study *study, const sw_tree *tree, const sw_bend *b)
{
    const sw_piece *p = tree->piece;
    const sw_bend *twin = find_twin(p, b);
    if (twin == NULL || twin->parent != b->child) return SW_OK;
    double w_mm = tree->zones[b - p->bends].width_mm;
    double straight_mm =
        depth_mm(&p->faces[b->child].region.outline, (sw_point){0, 0}, (sw_point){w_mm, 0}, (sw_point){0, 1});
    double setback_mm = sw_bend_setback_mm(b->radius_mm, p->thickness_mm, b->angle_rad);
    double die_mm = find_die_mm(study->model->works, p->thickness_mm);
    if (straight_mm + setback_mm >= least_flange_mm(die_mm)) return SW_OK; /* two plain bends do */
    double least_mm = study->model->works == NULL ? 0.0 : study->model->works->press.joggle_least_mm;
    sw_finding f = {.check = "joggle",
                    .sense = SW_AT_LEAST,
                    .value = joggle_offset_mm(p, b, straight_mm),
                    .unit = "mm",
                    .limit = least_mm > 0.0 ? least_mm : (double)NAN,
                    .source = "works description, least joggle offset",
                    .place = b->place};
    f.remedy = least_mm > 0.0 ? "a larger offset, a smaller angle, or other joggle tools"
                              : "give the least joggle the tools make (joggle_least) in the works description";
    f.where = sw_text_format(run, run->keep, "%s %s, %s", p->number, p->name, b->name);
    f.what = sw_text_format(run, run->keep,
                            "joggle of %.2f mm offset is too short for two bends in a V die and needs tools "
                            "of its own",
                            f.value);
    return sw_sheet_report(run, study, f, 0.0);
}

/* Least leg before a hem is pressed flat: 4 s. common practice, no source */
static sw_status check_hem(sw_run *run, const sw_sheet_study *study, const sw_tree *tree, const sw_bend *b)
{
    const sw_piece *p = tree->piece;
    double w_mm = tree->zones[b - p->bends].width_mm;
    double depth =
        depth_mm(&p->faces[b->child].region.outline, (sw_point){0, 0}, (sw_point){w_mm, 0}, (sw_point){0, 1});
    sw_finding f = {.check = "hem_leg",
                    .sense = SW_AT_LEAST,
                    .limit = 4.0 * p->thickness_mm,
                    .unit = "mm",
                    .source = "common practice, no source: 4 x thickness",
                    .place = b->place};
    f.value = depth + b->radius_mm + p->thickness_mm;
    f.remedy = "a longer hem leg";
    f.where = sw_text_format(run, run->keep, "%s %s, %s", p->number, p->name, b->name);
    f.what = sw_text_format(run, run->keep, "hem leg %.1f mm outside, at least %.1f mm", f.value, f.limit);
    return sw_sheet_report(run, study, f, 0.0);
}

sw_status sw_check_flange(sw_run *run, const sw_sheet_study *study, const sw_sheet_case *c)
{
    const sw_piece *p = c->piece->piece;
    leg worst = {.bend = NULL};
    double die_mm = find_die_mm(study->model->works, p->thickness_mm);
    for (size_t i = 0; i < p->bend_count; i++) {
        const sw_bend *b = &p->bends[i];
        if (b->kind == SW_HEMMED) SW_TRY(check_hem(run, study, c->tree, b));
        if (b->kind != SW_PRESSED) continue;
        weigh(&worst, c->tree, b, true, die_mm);
        weigh(&worst, c->tree, b, false, die_mm);
        SW_TRY(check_joggle(run, study, c->tree, b));
    }
    return worst.bend == NULL ? SW_OK : report_leg(run, study, p, &worst);
}
