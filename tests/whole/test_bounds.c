/* What the designer may change: at each bound of each parameter, and at mixes of bounds and values between, the demonstration
 * stoves still fit. All three unfold and close their joints; (a) and (b) are also bent and welded. */
#include "demo_request.h"
#include "sw_test.h"

#include <stdio.h>
#include <string.h>

enum { MIXES = 8 };

static const sw_request about_a = DEMO_REQUEST;

static bool nothing_fails(sw_test *t, const sw_findings *all, const sw_request *q)
{
    for (size_t i = 0; i < all->count; i++) {
        const sw_finding *f = &all->items[i];
        if (sw_true_at(t, f->verdict != SW_FAILS, f->what, __FILE__, __LINE__)) continue;
        printf("    %s", q->words[0]);
        for (size_t k = 0; k < q->setting_count; k++) printf(" %s", q->settings[k]);
        printf("\n");
        return false;
    }
    return true;
}

static bool fits(sw_test *t, sw_request *q, bool made)
{
    sw_dossier d;
    if (!sw_ok(t, sw_dossier_make(&t->run, q, made ? SW_DO_FORM | SW_DO_JOIN : SW_DO_SHEET, "", &d))) return false;
    return nothing_fails(t, &d.sheet->findings, q) &&
           (!made || (nothing_fails(t, &d.shop.form->findings, q) && nothing_fails(t, &d.shop.join->findings, q)));
}

static const char *set(sw_test *t, const sw_parameter *p, double value)
{
    return sw_text_format(&t->run, t->run.keep, "%s=%.9g%s", p->name, value, p->unit);
}

/* A count is whole, and a sheet is one that the works has. */
static double drawn(sw_random *random, const sw_parameter *p)
{
    if (strncmp(p->meaning, "sheet ", 6) == 0) return sw_random_below(random, 2) == 0 ? p->low : p->high;
    size_t which = sw_random_below(random, 3);
    if (which < 2 && p->unit[0] != '\0') return which == 0 ? p->low : p->high;
    if (p->unit[0] == '\0') return p->low + (double)sw_random_below(random, (size_t)(p->high - p->low) + 1);
    return sw_random_between(random, p->low, p->high);
}

static void fits_at_bounds_and_mixes(sw_test *t, const char *stove, bool made)
{
    sw_request q = about_a;
    sw_dossier d;
    q.words[0] = stove;
    if (!sw_ok(t, sw_dossier_make(&t->run, &q, SW_DO_SHEET, "", &d))) return;
    const sw_parameter *all = d.model.stove->parameters;
    size_t count = d.model.stove->parameter_count;
    sw_true(t, count >= 10 && count <= SW_WORDS_MAX);
    for (size_t i = 0; i < 2 * count; i++) {
        const sw_parameter *p = &all[i / 2];
        sw_true(t, p->low <= p->preset && p->preset <= p->high && p->low < p->high);
        q.settings[0] = set(t, p, i % 2 == 0 ? p->low : p->high);
        q.setting_count = 1;
        (void)fits(t, &q, made);
    }
    sw_random random = sw_random_seeded(7);
    q.setting_count = count;
    for (int n = 0; n < MIXES; n++) {
        for (size_t i = 0; i < count; i++) q.settings[i] = set(t, &all[i], drawn(&random, &all[i]));
        (void)fits(t, &q, made);
    }
}

static void the_convection_heater_fits_and_is_made_at_bounds_and_mixes(sw_test *t)
{
    fits_at_bounds_and_mixes(t, SW_SOURCE_DIR "/demo/a.stove.lua", true);
}

static void the_round_stove_fits_and_is_made_at_bounds_and_mixes(sw_test *t)
{
    fits_at_bounds_and_mixes(t, SW_SOURCE_DIR "/demo/b.stove.lua", true);
}

static void the_cooker_fits_at_bounds_and_mixes(sw_test *t)
{
    fits_at_bounds_and_mixes(t, SW_SOURCE_DIR "/demo/c.stove.lua", false);
}

SW_TESTS(SW_CASE(the_convection_heater_fits_and_is_made_at_bounds_and_mixes),
         SW_CASE(the_round_stove_fits_and_is_made_at_bounds_and_mixes), SW_CASE(the_cooker_fits_at_bounds_and_mixes))
