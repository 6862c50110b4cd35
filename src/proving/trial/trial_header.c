/* trial_header.c: the lines "# key = value" above the table: what was tested, with which wood, when it was charged. */
#include "proving/trial/trial_parts.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

typedef enum sort { SORT_TEXT, SORT_NUMBER, SORT_TIME, SORT_CHARGE, SORT_FILTER, SORT_SURFACE } sort;
typedef struct key {
    const char *name;
    sort sort;
    size_t offset; /* in the record */
    const char *unit;
    double scale, low, high; /* low, high in the file's unit */
} key;
#define AT(field) offsetof(sw_trial_record, field)
static const key keys[] = {
    {"note", SORT_TEXT, AT(note), "", 0, 0, 0},
    {"model", SORT_TEXT, AT(model), "", 0, 0, 0},
    {"maker", SORT_TEXT, AT(maker), "", 0, 0, 0},
    {"fuel", SORT_TEXT, AT(fuel), "", 0, 0, 0},
    {"moisture", SORT_NUMBER, AT(moisture), "%", 1e-2, 0, 60},
    {"carbon", SORT_NUMBER, AT(c), "%", 1e-2, 20, 95},
    {"hydrogen", SORT_NUMBER, AT(h), "%", 1e-2, 0.5, 15},
    {"lhv", SORT_NUMBER, AT(lhv), "kJ/kg", TRIAL_KILO, 5000, 40000},
    {"lhv_dry", SORT_NUMBER, AT(lhv_dry), "kJ/kg", TRIAL_KILO, 10000, 40000},
    {"residue", SORT_NUMBER, AT(residue), "%", 1e-2, 0, 30},
    {"residue_combustible", SORT_NUMBER, AT(residue_c), "%", 1e-2, 0, 100},
    {"end", SORT_TIME, AT(end_s), "min", 60, 0, 1e5},
    {"charge", SORT_CHARGE, 0, "", 0, 0, 0},
    {"filter", SORT_FILTER, 0, "", 0, 0, 0},
    {"surface", SORT_SURFACE, 0, "", 0, 0, 0},
};
enum { KEYS = sizeof keys / sizeof *keys, NAME_MOST = 64 };

static void fault(trial_header *h, int line, trial_text key_name, const char *text)
{
    char name[NAME_MOST];
    size_t n = key_name.length < NAME_MOST - 1 ? key_name.length : NAME_MOST - 1;
    memcpy(name, key_name.at, n);
    name[n] = '\0';
    h->status = sw_fail(h->run, SW_BAD_INPUT, (sw_place){.file = h->record->file, .line = line}, name, "%s", text);
}

static const char *kept(trial_header *h, trial_text t)
{
    const char *text = sw_text_format(h->run, h->run->keep, "%.*s", (int)(t.length < 400 ? t.length : 400), t.at);
    if (text == NULL) h->status = SW_NO_MEMORY;
    return text == NULL ? "" : text;
}

/* The next word of *rest, up to a blank or comma-and-blank. */
static trial_text word(trial_text *rest)
{
    trial_text t = trial_trimmed(*rest);
    size_t n = 0;
    while (n < t.length && t.at[n] != ' ' && t.at[n] != '\t') n++;
    *rest = (trial_text){t.at + n, t.length - n};
    if (n > 0 && (t.at[n - 1] == ',' || t.at[n - 1] == ';')) return (trial_text){t.at, n - 1};
    return (trial_text){t.at, n};
}

/* A number and, if there is one, its unit, which must be `unit`; false otherwise. */
static bool measured(trial_text *rest, const char *unit, double *value)
{
    trial_text first = word(rest);
    if (!trial_number(first, value)) {
        size_t n = sw_number_read(first.at, first.length, value); /* "16%" */
        return n > 0 && trial_same((trial_text){first.at + n, first.length - n}, unit);
    }
    trial_text after = *rest, second = word(&after);
    if (second.length == 0) return true;
    if (!trial_same(second, unit)) return false;
    *rest = after;
    return true;
}

static void take_number(trial_header *h, const key *k, trial_text value, int line)
{
    double x = 0;
    trial_text rest = value;
    bool good = measured(&rest, k->unit, &x) && trial_trimmed(rest).length == 0 && x >= k->low && x <= k->high;
    if (!good) {
        const char *text =
            sw_text_format(h->run, h->run->scratch, "\"%.*s\" is no number from %g to %g %s",
                           (int)(value.length < 40 ? value.length : 40), value.at, k->low, k->high, k->unit);
        fault(h, line, (trial_text){k->name, strlen(k->name)}, text == NULL ? "is no number" : text);
        return;
    }
    x *= k->scale;
    memcpy((char *)h->record + k->offset, &x, sizeof x);
}

static bool take_time(trial_text *rest, double *time_s, bool *stamped)
{
    bool dated = false;
    trial_text after = *rest, first = word(&after);
    *stamped = trial_stamp(first, time_s, &dated);
    if (*stamped) {
        *rest = after;
        return true;
    }
    trial_text again = *rest;
    if (measured(rest, "min", time_s)) {
        *time_s = sw_s_from_min(*time_s);
        return *time_s >= 0;
    }
    *rest = again;
    return measured(rest, "s", time_s) && *time_s >= 0;
}

static void take_charge(trial_header *h, trial_text value, int line)
{
    sw_trial_record *r = h->record;
    trial_text rest = value, name = {"charge", 6};
    double time_s = 0, kg = 0;
    bool stamped = false;
    if (r->charge_count == SW_TRIAL_CHARGES) {
        fault(h, line, name, "more than 64 charges");
        return;
    }
    bool good = take_time(&rest, &time_s, &stamped) && measured(&rest, "kg", &kg) && trial_trimmed(rest).length == 0;
    if (!good || !(kg > 0 && kg <= 50)) {
        fault(h, line, name, "give a time and the wood laid in, as \"12 min, 1.85 kg\" or \"10:35, 1.85 kg\"");
        return;
    }
    h->stamped[r->charge_count] = stamped;
    r->charges[r->charge_count++] = (sw_trial_charge){time_s, kg};
}

static void take_filter(trial_header *h, trial_text value, int line)
{
    sw_trial_record *r = h->record;
    trial_text rest = value, name = {"filter", 6};
    double mg = 0, m3n = 0;
    bool good = r->filter_count < SW_TRIAL_CHARGES && measured(&rest, "mg", &mg) && measured(&rest, "m3", &m3n);
    if (!good || trial_trimmed(rest).length > 0 || !(mg >= 0 && mg <= 1e5 && m3n > 0 && m3n <= 1e3)) {
        fault(h, line, name,
              "give dust and dry gas drawn (0 degC, 101 325 Pa), as \"24.6 mg, 0.750 m3\"; one a charge");
        return;
    }
    r->filters[r->filter_count++] = (sw_trial_filter){mg, m3n};
}

static void take_surface(trial_header *h, trial_text value, int line)
{
    sw_trial_record *r = h->record;
    const char *colon = memchr(value.at, ':', value.length);
    if (colon != NULL && r->surface_count < SW_TRIAL_COLUMNS) {
        trial_text name = trial_trimmed((trial_text){value.at, (size_t)(colon - value.at)});
        trial_text kind = trial_trimmed((trial_text){colon + 1, value.length - (size_t)(colon - value.at) - 1});
        for (size_t i = 0; i < SW_SPOTS; i++) {
            if (!trial_same(kind, sw_trial_rise_limit_of((sw_trial_spot)i)->name)) continue;
            r->surfaces[r->surface_count++] = (sw_trial_surface_kind){kept(h, name), (sw_trial_spot)i};
            return;
        }
    }
    fault(
        h, line, (trial_text){"surface", 7},
        "give a column and what it is: \"handle: metal handle\"; known are part, metal handle, enamel handle, plastic "
        "handle, fuel store, test corner and hearth");
}

static void unknown_key(trial_header *h, trial_text name, int line)
{
    const char *names[KEYS], *wrong = kept(h, name);
    for (size_t i = 0; i < KEYS; i++) names[i] = keys[i].name;
    const char *near = sw_text_nearest(wrong, names, KEYS);
    const char *text = sw_text_format(h->run, h->run->scratch, "is not known%s%s; a line without = is a remark",
                                      near == NULL ? "" : "; did you mean ", near == NULL ? "" : near);
    fault(h, line, name, text == NULL ? "is not known" : text);
}

static void take_key(trial_header *h, const key *k, trial_text value, int line)
{
    double time_s = 0;
    bool stamped = false;
    if (k->sort == SORT_NUMBER) take_number(h, k, value, line);
    if (k->sort == SORT_CHARGE) take_charge(h, value, line);
    if (k->sort == SORT_FILTER) take_filter(h, value, line);
    if (k->sort == SORT_SURFACE) take_surface(h, value, line);
    if (k->sort == SORT_TIME) {
        if (!take_time(&value, &time_s, &stamped) || stamped || trial_trimmed(value).length > 0)
            fault(h, line, (trial_text){k->name, strlen(k->name)}, "give minutes from the first row, as \"360 min\"");
        else
            memcpy((char *)h->record + k->offset, &time_s, sizeof time_s);
    }
    if (k->sort == SORT_TEXT) {
        const char *text = kept(h, value);
        memcpy((char *)h->record + k->offset, &text, sizeof text);
    }
}

sw_status trial_header_line(trial_header *h, trial_text line, int number)
{
    const char *sign = memchr(line.at, '=', line.length);
    if (sign == NULL) return SW_OK;
    trial_text name = trial_trimmed((trial_text){line.at, (size_t)(sign - line.at)});
    trial_text value = trial_trimmed((trial_text){sign + 1, line.length - (size_t)(sign - line.at) - 1});
    for (size_t i = 0; i < KEYS; i++) {
        if (!trial_same(name, keys[i].name)) continue;
        take_key(h, &keys[i], value, number);
        return h->status;
    }
    unknown_key(h, name, number);
    return h->status;
}
