/* trial_column.c: what a column's name says: quantity and unit. */
#include "proving/trial/trial_parts.h"

#include <math.h>
#include <string.h>

static const struct {
    const char *name;
    sw_trial_quantity of; /* SW_TRIAL_QUANTITIES: the time */
} words[] = {
    {"time", SW_TRIAL_QUANTITIES},
    {"timestamp", SW_TRIAL_QUANTITIES},
    {"date_time", SW_TRIAL_QUANTITIES},
    {"datetime", SW_TRIAL_QUANTITIES},
    {"elapsed", SW_TRIAL_QUANTITIES},
    {"clock", SW_TRIAL_QUANTITIES},
    {"t", SW_TRIAL_QUANTITIES},
    {"co2", SW_TRIAL_CO2},
    {"o2", SW_TRIAL_O2},
    {"co", SW_TRIAL_CO},
    {"flue", SW_TRIAL_FLUE},
    {"flue_gas", SW_TRIAL_FLUE},
    {"t_flue", SW_TRIAL_FLUE},
    {"flue_temperature", SW_TRIAL_FLUE},
    {"room", SW_TRIAL_ROOM},
    {"ambient", SW_TRIAL_ROOM},
    {"t_room", SW_TRIAL_ROOM},
    {"t_ambient", SW_TRIAL_ROOM},
    {"room_air", SW_TRIAL_ROOM},
    {"draught", SW_TRIAL_DRAUGHT},
    {"draft", SW_TRIAL_DRAUGHT},
    {"mass", SW_TRIAL_SCALE},
    {"scale", SW_TRIAL_SCALE},
    {"weight", SW_TRIAL_SCALE},
    {"ogc", SW_TRIAL_OGC},
    {"thc", SW_TRIAL_OGC},
    {"nox", SW_TRIAL_NOX},
    {"pm", SW_TRIAL_PM},
    {"dust", SW_TRIAL_PM},
};

typedef enum measure { OF_NOTHING, OF_SHARE, OF_MASS, OF_HEAT, OF_PRESSURE, OF_WEIGHT, OF_TIME } measure;
static const struct {
    const char *name;
    measure of;
    double scale, offset;
} units[] = {
    {"%", OF_SHARE, 1e-2, 0},
    {"pct", OF_SHARE, 1e-2, 0},
    {"percent", OF_SHARE, 1e-2, 0},
    {"vol-%", OF_SHARE, 1e-2, 0},
    {"vol%", OF_SHARE, 1e-2, 0},
    {"vol.-%", OF_SHARE, 1e-2, 0},
    {"ppm", OF_SHARE, 1e-6, 0},
    {"mg/m3", OF_MASS, 1, 0},
    {"mg/m3n", OF_MASS, 1, 0},
    {"mg_m3", OF_MASS, 1, 0},
    {"mg_m3n", OF_MASS, 1, 0},
    {"degc", OF_HEAT, 1, 1},
    {"c", OF_HEAT, 1, 1},
    {"\xc2\xb0"
     "c",
     OF_HEAT, 1, 1},
    {"k", OF_HEAT, 1, 0},
    {"pa", OF_PRESSURE, 1, 0},
    {"mbar", OF_PRESSURE, 100, 0},
    {"kg", OF_WEIGHT, 1, 0},
    {"g", OF_WEIGHT, 1e-3, 0},
    {"s", OF_TIME, 1, 0},
    {"sec", OF_TIME, 1, 0},
    {"seconds", OF_TIME, 1, 0},
    {"min", OF_TIME, 60, 0},
    {"minutes", OF_TIME, 60, 0},
    {"h", OF_TIME, 60 * 60.0, 0},
};
enum { UNITS = sizeof units / sizeof *units, WORDS = sizeof words / sizeof *words };

/* What each quantity is measured in when the file does not say (UNITS: it must), and where a sensor is at fault. */
typedef struct kind {
    const char *name;
    measure of;
    const char *usual;
    double low, high; /* SI */
} kind;
static const kind kinds[] = {
    [SW_TRIAL_CO2] = {"CO2", OF_SHARE, "%", -0.005, 0.25},
    [SW_TRIAL_O2] = {"O2", OF_SHARE, "%", -0.005, 0.25},
    [SW_TRIAL_CO] = {"CO", OF_SHARE, "", -0.001, 0.2},
    [SW_TRIAL_FLUE] = {"flue gas", OF_HEAT, "degc", 233.15, 1473.15},
    [SW_TRIAL_ROOM] = {"room", OF_HEAT, "degc", 233.15, 333.15},
    [SW_TRIAL_DRAUGHT] = {"draught", OF_PRESSURE, "pa", -100, 300},
    [SW_TRIAL_SCALE] = {"scale", OF_WEIGHT, "kg", -50, 5000},
    [SW_TRIAL_OGC] = {"OGC", OF_SHARE, "", -1e-4, 0.1},
    [SW_TRIAL_NOX] = {"NOx", OF_SHARE, "", -1e-4, 0.02},
    [SW_TRIAL_PM] = {"dust", OF_MASS, "mg/m3", -5, 1e5},
    [SW_TRIAL_SURFACE] = {"surface", OF_HEAT, "degc", 233.15, 1473.15},
};
static const kind time_kind = {"time", OF_TIME, "s", 0, 0};
static const double mass_high = 2e5, mass_low = -100; /* mg/m3n */

const char *sw_trial_quantity_name(sw_trial_quantity of)
{
    return (size_t)of < SW_TRIAL_QUANTITIES ? kinds[of].name : "?";
}

static size_t unit_of(trial_text text)
{
    for (size_t i = 0; i < UNITS; i++)
        if (trial_same(text, units[i].name)) return i;
    return UNITS;
}

bool trial_is_unit(trial_text text)
{
    return unit_of(text) < UNITS;
}

static size_t usual_unit(const char *name)
{
    return unit_of((trial_text){name, strlen(name)});
}

/* "CO [ppm]", "flue gas (degC)", "mass_kg", "CO2 %": cuts the unit off the name. */
static size_t split_unit(trial_text *name)
{
    trial_text t = *name;
    char last = t.length > 0 ? t.at[t.length - 1] : '\0', open = last == ']' ? '[' : last == ')' ? '(' : '\0';
    for (size_t i = t.length; open != '\0' && i-- > 0;) {
        if (t.at[i] != open) continue;
        *name = trial_trimmed((trial_text){t.at, i});
        return unit_of(trial_trimmed((trial_text){t.at + i + 1, t.length - i - 2}));
    }
    for (size_t i = 1; i < t.length; i++) { /* the longest tail that is a unit */
        if (t.at[i] != '_' && t.at[i] != ' ') continue;
        size_t unit = unit_of((trial_text){t.at + i + 1, t.length - i - 1});
        if (unit == UNITS) continue;
        *name = trial_trimmed((trial_text){t.at, i});
        return unit;
    }
    return UNITS;
}

static bool same_word(trial_text text, const char *word)
{
    char copy[32];
    if (text.length >= sizeof copy) return false;
    for (size_t i = 0; i < text.length; i++) copy[i] = text.at[i] == ' ' ? '_' : text.at[i];
    return trial_same((trial_text){copy, text.length}, word);
}

static size_t word_of(trial_text text)
{
    for (size_t i = 0; i < WORDS; i++)
        if (same_word(text, words[i].name)) return i;
    return WORDS;
}

static trial_column_kind with_unit(trial_column_kind k, const kind *of, size_t unit)
{
    k.known = true;
    if (unit == UNITS && of->usual[0] != '\0') unit = usual_unit(of->usual);
    bool gas = k.of == SW_TRIAL_CO || k.of == SW_TRIAL_OGC || k.of == SW_TRIAL_NOX;
    bool fits = unit < UNITS && (units[unit].of == of->of || (gas && !k.is_time && units[unit].of == OF_MASS));
    k.unit_missing = !fits;
    if (!fits) return k;
    k.scale = units[unit].scale;
    k.offset = units[unit].offset > 0 ? sw_k_from_c(0) : 0;
    k.by_mass = units[unit].of == OF_MASS;
    k.low = k.by_mass ? mass_low : of->low;
    k.high = k.by_mass ? mass_high : of->high;
    return k;
}

trial_column_kind trial_column_of_name(trial_text name, trial_text unit)
{
    trial_column_kind k = {.scale = 1};
    name = trial_trimmed(name);
    size_t own = split_unit(&name), word = word_of(name);
    if (own == UNITS && unit.length > 0) own = unit_of(trial_trimmed(unit));
    k.place = name;
    if (word == WORDS) {
        k.of = SW_TRIAL_SURFACE;
        return own < UNITS && units[own].of == OF_HEAT && name.length > 0 ? with_unit(k, &kinds[k.of], own) : k;
    }
    k.is_time = words[word].of == SW_TRIAL_QUANTITIES;
    k.of = k.is_time ? SW_TRIAL_QUANTITIES : words[word].of;
    return with_unit(k, k.is_time ? &time_kind : &kinds[k.of], own);
}
