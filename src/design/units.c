/* units.c: the units a description knows, and quantities in words.
 *
 * Base units are mm, rad, kg, s, K, A: drawn lengths stay exactly as written. A unit is a power of ten of these
 * (SI Brochure, 9th edition), times 60 or 60 x 60 for minutes and hours, times pi/180 for degrees. */
#include "design/design_parts.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct unit_row {
    const char *name;
    signed char dim[DESIGN_DIMENSIONS];
    int ten;      /* power of ten */
    double scale; /* further factor */
} unit_row;

static const unit_row units[] = {
    {"um", {1}, -3, 1.0},
    {"mm", {1}, 0, 1.0},
    {"cm", {1}, 1, 1.0},
    {"m", {1}, 3, 1.0},
    {"mm2", {2}, 0, 1.0},
    {"m2", {2}, 6, 1.0},
    {"mm3", {3}, 0, 1.0},
    {"m3", {3}, 9, 1.0},
    {"l", {3}, 6, 1.0},
    {"deg", {0, 1}, 0, SW_PI / 180.0},
    {"rad", {0, 1}, 0, 1.0},
    {"g", {0, 0, 1}, -3, 1.0},
    {"kg", {0, 0, 1}, 0, 1.0},
    {"s", {0, 0, 0, 1}, 0, 1.0},
    {"min", {0, 0, 0, 1}, 0, 60.0},
    {"h", {0, 0, 0, 1}, 0, 60.0 * 60.0},
    {"W", {2, 0, 1, -3}, 6, 1.0},
    {"kW", {2, 0, 1, -3}, 9, 1.0},
    {"Pa", {-1, 0, 1, -2}, -3, 1.0},
    {"hPa", {-1, 0, 1, -2}, -1, 1.0},
    {"kPa", {-1, 0, 1, -2}, 0, 1.0},
    {"bar", {-1, 0, 1, -2}, 2, 1.0},
    {"MPa", {-1, 0, 1, -2}, 3, 1.0},
    {"N", {1, 0, 1, -2}, 3, 1.0},
    {"kN", {1, 0, 1, -2}, 6, 1.0},
    {"K", {0, 0, 0, 0, 1}, 0, 1.0},
    {"degC", {0, 0, 0, 0, 1}, 0, 1.0},
    {"J", {2, 0, 1, -2}, 6, 1.0},
    {"kJ", {2, 0, 1, -2}, 9, 1.0},
    {"MJ", {2, 0, 1, -2}, 12, 1.0},
    {"A", {0, 0, 0, 0, 0, 1}, 0, 1.0},
    {"V", {2, 0, 1, -3, 0, -1}, 6, 1.0},
    {"percent", {0}, -2, 1.0},
};

typedef struct kind_row {
    const char *words, *unit;
    double least;
} kind_row; /* unit used from |value| = least on */

static const kind_row kinds[] = {
    {"a length", "mm", 0.0},
    {"an area", "mm2", 0.0},
    {"a volume", "mm3", 0.0},
    {"an angle", "deg", 0.0},
    {"a mass", "kg", 0.0},
    {"a time", "s", 0.0},
    {"a power", "kW", 1.0},
    {"a power", "W", 0.0},
    {"a pressure", "Pa", 0.0},
    {"a force", "N", 0.0},
    {"an energy", "MJ", 1.0},
    {"an energy", "J", 0.0},
    {"a temperature difference", "K", 0.0},
    {"a speed", "mm/s", 0.0},
    {"an acceleration", "mm/s/s", 0.0},
    {"a price by mass", "1/kg", 0.0},
    {"a price by time", "1/h", 0.0},
    {"a price by volume", "1/m3", 0.0},
    {"a flow", "m3/h", 0.0},
    {"a mass by length", "kg/m", 0.0},
    {"a density", "kg/m3", 0.0},
    {"a mass flow", "g/s", 0.0},
    {"a thermal resistance", "m2*K/W", 0.0},
    {"a conductivity", "W/m/K", 0.0},
    {"a price by energy", "1/kW/h", 0.0},
    {"an area by time", "m2/h", 0.0},
    {"a mass by area", "kg/m2", 0.0},
    {"a time by mass", "s/kg", 0.0},
    {"a current", "A", 0.0},
    {"a voltage", "V", 0.0},
};

static double ten_to(int power)
{
    double value = 1.0;
    for (int i = 0; i < abs(power); i++) value *= 10.0;
    return power < 0 ? 1.0 / value : value;
}

static void set_unit(const unit_row *row, design_quantity *unit)
{
    *unit = (design_quantity){.value = row->scale * ten_to(row->ten)};
    memcpy(unit->dim, row->dim, sizeof unit->dim);
    unit->degc = strcmp(row->name, "degC") == 0;
}

const char *design_unit_at(size_t i, design_quantity *unit)
{
    if (i >= sizeof units / sizeof *units) return NULL;
    set_unit(&units[i], unit);
    return units[i].name;
}

bool design_unit_find(const char *name, size_t length, design_quantity *unit)
{
    for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
        const unit_row *row = &units[i];
        if (strlen(row->name) != length || memcmp(row->name, name, length) != 0) continue;
        set_unit(row, unit);
        return true;
    }
    return false;
}

bool design_same_kind(const design_quantity *a, const design_quantity *b)
{
    return memcmp(a->dim, b->dim, sizeof a->dim) == 0 && a->point == b->point && a->degc == b->degc;
}

bool design_is_number(const design_quantity *q)
{
    static const signed char none[DESIGN_DIMENSIONS];
    return memcmp(q->dim, none, sizeof none) == 0;
}

/* ---- reading "420mm" ---- */

static const char *skip_blanks(const char *p)
{
    while (*p == ' ' || *p == '\t') p++;
    return p;
}

static void unknown_unit(const char *p, size_t length, char *problem, size_t room)
{
    const char *names[sizeof units / sizeof *units];
    for (size_t i = 0; i < sizeof units / sizeof *units; i++) names[i] = units[i].name;
    char wrong[24];
    (void)snprintf(wrong, sizeof wrong, "%.*s", length < sizeof wrong ? (int)length : 20, p);
    const char *near = sw_text_nearest(wrong, names, sizeof names / sizeof *names);
    (void)snprintf(problem, room, "unknown unit '%s'%s%s%s", wrong, near == NULL ? "" : "; did you mean '",
                   near == NULL ? "" : near, near == NULL ? "" : "'?");
}

/* One factor: a number or a unit. Gives the place after it, NULL when it is neither. */
static const char *read_factor(const char *p, design_quantity *factor, char *problem, size_t room)
{
    char *end = NULL;
    *factor = (design_quantity){.value = strtod(p, &end)};
    if (end != p && !isalpha((unsigned char)*p) && isfinite(factor->value)) return end;
    size_t length = 0;
    while (isalnum((unsigned char)p[length])) length++;
    if (length == 0)
        (void)snprintf(problem, room, "a number or a unit is missing at '%.12s'", p);
    else if (design_unit_find(p, length, factor))
        return p + length;
    else
        unknown_unit(p, length, problem, room);
    return NULL;
}

static bool fold_in(design_quantity *product, const design_quantity *factor, bool divide)
{
    if (product->point || (factor->degc && (divide || !design_is_number(product)))) return false;
    if (factor->degc) {
        *product = (design_quantity){.value = sw_k_from_c(product->value), .point = true};
        memcpy(product->dim, factor->dim, sizeof product->dim);
        return true;
    }
    product->value = divide ? product->value / factor->value : product->value * factor->value;
    for (int i = 0; i < DESIGN_DIMENSIONS; i++) {
        int sum = product->dim[i] + (divide ? -factor->dim[i] : factor->dim[i]);
        if (abs(sum) > 12) return false;
        product->dim[i] = (signed char)sum;
    }
    return true;
}

bool design_quantity_parse(design_quantity *out, const char *text, char *problem, size_t room)
{
    const char *p = skip_blanks(text);
    if (!isdigit((unsigned char)*p) && *p != '-' && *p != '+' && *p != '.') {
        (void)snprintf(problem, room, "it must begin with a number, e.g. 420mm");
        return false;
    }
    *out = (design_quantity){.value = 1.0};
    bool divide = false;
    for (;;) {
        design_quantity factor;
        p = read_factor(p, &factor, problem, room);
        if (p == NULL) return false;
        if (!fold_in(out, &factor, divide)) {
            (void)snprintf(problem, room, "these units cannot be joined");
            return false;
        }
        p = skip_blanks(p);
        if (*p == '\0') break;
        divide = *p == '/';
        if (*p == '/' || *p == '*') p = skip_blanks(p + 1);
    }
    if (isfinite(out->value)) return true;
    (void)snprintf(problem, room, "it is not a finite number");
    return false;
}

/* ---- words ---- */

static const kind_row *kind_of(const design_quantity *q, double *value)
{
    char ignored[64];
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        design_quantity unit;
        char one[16];
        const char *text = kinds[i].unit;
        if (text[0] != '1') {
            (void)snprintf(one, sizeof one, "1%s", text);
            text = one;
        }
        if (!design_quantity_parse(&unit, text, ignored, sizeof ignored)) continue;
        if (memcmp(unit.dim, q->dim, sizeof unit.dim) != 0) continue;
        *value = q->value / unit.value;
        if (fabs(*value) >= kinds[i].least || !isfinite(*value)) return &kinds[i];
    }
    return NULL;
}

static void composed_unit(const design_quantity *q, char *out, size_t room)
{
    static const char *const bases[DESIGN_DIMENSIONS] = {"mm", "rad", "kg", "s", "K", "A"};
    size_t used = 0;
    out[0] = '\0';
    for (int i = 0; i < DESIGN_DIMENSIONS; i++) {
        if (q->dim[i] == 0 || used >= room) continue;
        const char *gap = used > 0 ? " " : "";
        int wrote = q->dim[i] == 1 ? snprintf(out + used, room - used, "%s%s", gap, bases[i])
                                   : snprintf(out + used, room - used, "%s%s^%d", gap, bases[i], q->dim[i]);
        used += wrote > 0 ? (size_t)wrote : 0;
    }
}

const char *design_quantity_unit(const design_quantity *q, double *value, char *room_for_unit, size_t room)
{
    *value = q->value;
    if (design_is_number(q)) return "";
    if (q->point) {
        *value = sw_c_from_k(q->value);
        return "degC";
    }
    const kind_row *kind = kind_of(q, value);
    if (kind != NULL) return kind->unit;
    composed_unit(q, room_for_unit, room);
    return room_for_unit;
}

void design_quantity_text(const design_quantity *q, char *out, size_t room)
{
    char composed[64];
    double value;
    const char *unit = design_quantity_unit(q, &value, composed, sizeof composed);
    if (unit[0] == '1')
        (void)snprintf(out, room, "%.7g %s", value, unit + 1);
    else
        (void)snprintf(out, room, "%.7g%s%s", value, unit[0] == '\0' ? "" : " ", unit);
}

void design_quantity_words(const design_quantity *q, char *out, size_t room)
{
    char text[96];
    double value;
    design_quantity_text(q, text, sizeof text);
    if (q->degc) {
        (void)snprintf(out, room, "the bare unit degC");
        return;
    }
    const kind_row *kind = q->point || design_is_number(q) ? NULL : kind_of(q, &value);
    const char *words = kind != NULL ? kind->words : q->point ? "a temperature" : "a quantity";
    (void)snprintf(out, room, "%s (%s)", design_is_number(q) ? "a plain number" : words, text);
}
