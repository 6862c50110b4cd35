/* rule.c: which neutral-axis factor a bend gets: the designer's, a works trial, the works' rule; a finding where none
 * of them covers it. */
#include "making/sheet/sheet_parts.h"

#include <math.h>
#include <string.h>

static const double least_ratio = 0.3; /* r/s from which DIN 6935 holds: as sw_din6935_k */
static const double trial_reach = 0.2; /* a trial speaks for radii within 20 % of its own. ours */

static bool same_grade(const sw_grade *a, const sw_grade *b)
{
    return a == b || (a != NULL && b != NULL && strcmp(a->name, b->name) == 0);
}

/* The trial of this grade and thickness whose radius is nearest, NULL = none near enough. */
static const sw_bend_trial *find_trial(const sw_press *press, const sw_piece *piece, double radius_mm)
{
    const sw_bend_trial *best = NULL;
    double best_mm = trial_reach * radius_mm;
    for (size_t i = 0; i < press->trial_count; i++) {
        const sw_bend_trial *t = &press->trials[i];
        double off_mm = fabs(t->radius_mm - radius_mm);
        if (!same_grade(t->grade, piece->grade) || fabs(t->thickness_mm - piece->thickness_mm) > SW_SHORTEST_MM)
            continue;
        if (off_mm > best_mm || (best != NULL && off_mm >= best_mm)) continue;
        best = t;
        best_mm = off_mm;
    }
    return best;
}

static sw_status no_rule(sw_run *run, const sw_piece *piece, const sw_bend *bend)
{
    return sw_fail(
        run, SW_OUT_OF_RANGE, bend->place, "k",
        "%s %s, %s: no rule gives the developed length, inside radius %g mm is %.3g x thickness and DIN 6935 "
        "holds from 0.3 x on; give k (a closed hem has about 0.30 to 0.33), a works trial or a larger radius",
        piece->number, piece->name, bend->name, bend->radius_mm, bend->radius_mm / piece->thickness_mm);
}

/* From the works (may be NULL) or DIN 6935. NAN = nothing covers it. */
static double ruled_k(const sw_piece *piece, const sw_bend *bend, const sw_works *works, const char **rule)
{
    double ratio = bend->radius_mm / piece->thickness_mm;
    *rule = "DIN 6935";
    if (bend->kind == SW_ROLLED && ratio > 5.0) return 0.5; /* DIN 6935:2011-10, k = 1 above r/s = 5 */
    if (works != NULL && works->press.rule == SW_ALLOW_K) {
        *rule = "K factor of the works";
        return works->press.k;
    }
    return sw_din6935_k(bend->radius_mm, piece->thickness_mm) / 2.0;
}

sw_status sw_sheet_rule(sw_run *run, const sw_piece *piece, const sw_bend *bend, const sw_works *works, bool needs_rule,
                        sw_zone *zone)
{
    const sw_bend_trial *trial = works == NULL ? NULL : find_trial(&works->press, piece, bend->radius_mm);
    if (!isnan(bend->k)) {
        zone->k = bend->k;
        zone->rule = "designer";
    } else if (trial != NULL) {
        zone->k = trial->k;
        zone->rule = sw_text_format(run, run->keep, "works trial: %s", trial->note == NULL ? "" : trial->note);
        if (zone->rule == NULL) return SW_NO_MEMORY;
    } else {
        zone->k = ruled_k(piece, bend, works, &zone->rule);
    }
    if (isnan(zone->k) && needs_rule) return no_rule(run, piece, bend);
    if (isnan(zone->k)) { /* the folded mid-surface does not depend on it */
        zone->unruled = true;
        zone->rule = "no rule, K 0.5 assumed";
        zone->k = 0.5;
    }
    if (zone->k < 0.0 || zone->k > 1.0)
        return sw_fail(run, SW_OUT_OF_RANGE, bend->place, "k", "%s %s, %s: neutral-axis factor %g is outside 0 to 1",
                       piece->number, piece->name, bend->name, zone->k);
    zone->middle_mm = bend->radius_mm + piece->thickness_mm / 2.0;
    zone->allowance_mm = sw_bend_allowance_mm(bend->radius_mm, piece->thickness_mm, zone->k, bend->angle_rad);
    return SW_OK;
}

/* Where no rule covers a bend the flat is a guess: the first such bend of the piece, with how many there are. */
sw_status sw_check_rule(sw_run *run, const sw_sheet_study *study, const sw_sheet_case *c)
{
    const sw_piece *p = c->piece->piece;
    const sw_bend *first = c->piece->flat.unruled;
    size_t count = 0;
    if (first == NULL) return SW_OK;
    for (size_t i = 0; i < p->bend_count; i++) count += c->tree->zones[i].unruled;
    sw_finding f = {.check = "bend_rule",
                    .sense = SW_AT_LEAST,
                    .value = first->radius_mm / p->thickness_mm,
                    .limit = least_ratio,
                    .unit = "x thickness",
                    .source = "DIN 6935:2011-10; below the limit its k runs to 0 and turns negative",
                    .place = first->place};
    f.where = sw_text_format(run, run->keep, "%s %s, %s", p->number, p->name, first->name);
    f.what = sw_text_format(
        run, run->keep,
        "no rule gives the developed length at inside radius %.3g mm in %.3g mm (%zu bend%s); the flat is "
        "a guess and must not be cut",
        first->radius_mm, p->thickness_mm, count, sw_plural(count));
    f.remedy = "give k (a closed hem has about 0.30 to 0.33), a works trial or a larger radius";
    return sw_sheet_report(run, study, f, 0.0);
}
