/* finding.c: judging a value against its limit, and putting findings in order of worry. */
#include "model/model.h"

#include <math.h>
#include <string.h>

static double margin_of(const sw_finding *f)
{
    double room = f->sense == SW_AT_LEAST ? f->value - f->limit : f->limit - f->value;
    return f->limit == 0.0 ? room : room / fabs(f->limit);
}

static sw_verdict verdict_of(double margin, double watch_margin)
{
    if (isnan(margin)) return SW_UNKNOWN;
    if (margin < 0.0) return SW_FAILS;
    return margin < watch_margin ? SW_WATCH : SW_HOLDS;
}

sw_finding sw_finding_of(const char *study, const char *check, const char *where, sw_place place)
{
    return (sw_finding){.study = study,
                        .check = check,
                        .what = "",
                        .where = where,
                        .sense = SW_STATED,
                        .value = NAN,
                        .limit = NAN,
                        .margin = NAN,
                        .unit = "",
                        .verdict = SW_HOLDS,
                        .source = "",
                        .remedy = "",
                        .place = place};
}

sw_status sw_finding_add(sw_run *run, sw_findings *findings, sw_finding finding, double watch_margin)
{
    sw_finding *items = sw_grow(run, run->keep, findings->items, findings->count, &findings->room, sizeof finding);
    if (items == NULL) return SW_NO_MEMORY;
    findings->items = items;
    if (finding.sense == SW_STATED) {
        finding.margin = NAN;
    } else {
        finding.margin = margin_of(&finding);
        finding.verdict = verdict_of(finding.margin, watch_margin);
    }
    items[findings->count++] = finding;
    return SW_OK;
}

const char *sw_verdict_name(sw_verdict verdict)
{
    static const char *const names[] = {"fails", "watch", "unknown", "holds"};
    return (size_t)verdict < sizeof names / sizeof *names ? names[verdict] : "unknown";
}

void sw_findings_count(const sw_findings *findings, size_t counts[SW_VERDICTS])
{
    memset(counts, 0, SW_VERDICTS * sizeof *counts);
    for (size_t i = 0; i < findings->count; i++) counts[findings->items[i].verdict]++;
}

/* ---- order ---- */

static int compare_margins(double a, double b) /* NAN last */
{
    if (isnan(a) || isnan(b)) return (int)isnan(a) - (int)isnan(b);
    return (a > b) - (a < b);
}

static int compare(const sw_finding *a, const sw_finding *b)
{
    if (a->verdict != b->verdict) return a->verdict < b->verdict ? -1 : 1;
    int order = compare_margins(a->margin, b->margin);
    if (order == 0) order = strcmp(a->study, b->study);
    if (order == 0) order = strcmp(a->check, b->check);
    return order != 0 ? order : strcmp(a->where, b->where);
}

static void turn_round(sw_finding *f, size_t low, size_t high)
{
    while (low < high && low < --high) {
        sw_finding other = f[low];
        f[low++] = f[high];
        f[high] = other;
    }
}

static void swap_blocks(sw_finding *f, size_t low, size_t middle, size_t high)
{
    turn_round(f, low, middle);
    turn_round(f, middle, high);
    turn_round(f, low, high);
}

/* First index in [low, high) that must stand after `key` (after_equals) or not before it. */
static size_t bound(const sw_finding *f, size_t low, size_t high, const sw_finding *key, bool after_equals)
{
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        int order = compare(&f[middle], key);
        if (order < 0 || (order == 0 && after_equals))
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* Merges two sorted runs in place by exchanging blocks: stable, no memory. cost n log n */
static void merge(sw_finding *f, size_t low, size_t middle, size_t high)
{
    if (low >= middle || middle >= high) return;
    if (high - low == 2) {
        if (compare(&f[middle], &f[low]) < 0) swap_blocks(f, low, middle, high);
        return;
    }
    size_t left, right;
    if (middle - low > high - middle) {
        left = low + (middle - low) / 2;
        right = bound(f, middle, high, &f[left], false);
    } else {
        right = middle + (high - middle) / 2;
        left = bound(f, low, middle, &f[right], true);
    }
    swap_blocks(f, left, middle, right);
    size_t joint = left + (right - middle);
    merge(f, low, left, joint);
    merge(f, joint, right, high);
}

void sw_findings_sort(sw_findings *findings)
{
    size_t count = findings->count;
    for (size_t run = 1; run < count; run *= 2)
        for (size_t low = 0; low + run < count; low += 2 * run)
            merge(findings->items, low, low + run, low + 2 * run < count ? low + 2 * run : count);
}
