#include "app/print_log.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Takes root, NULL = no memory. */
static void print_root(sw_writer *out, json_t *root)
{
    char *text = root == NULL ? NULL : json_dumps(root, JSON_INDENT(1) | JSON_REAL_PRECISION(15));
    if (text != NULL) sw_print(out, "%s\n", text);
    free(text);
    json_decref(root);
}

static json_t *number_or_null(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

static json_t *text_or_null(const char *text)
{
    return text == NULL ? json_null() : json_string(text);
}

static json_t *id_or_null(int64_t id)
{
    return id == 0 ? json_null() : json_integer(id);
}

/* ---- kinds ------------------------------------------------------------------------------- */

static const char *type_word(sw_log_type type)
{
    static const char *const words[] = {
        [SW_LOG_TEXT] = "text",     [SW_LOG_DOCUMENT] = "document", [SW_LOG_HASH] = "hash",
        [SW_LOG_NUMBER] = "number", [SW_LOG_WHOLE] = "whole",       [SW_LOG_TIME] = "time",
        [SW_LOG_CHOICE] = "choice", [SW_LOG_NAME] = "name",         [SW_LOG_LINK] = "link",
    };
    return words[type];
}

static json_t *json_of_field(const sw_log_field *f)
{
    bool bound = f->low != 0 || f->high != 0;
    return json_pack("{s:s, s:s, s:o, s:o, s:b, s:o, s:o, s:s}", "name", f->name, "type", type_word(f->type), "of",
                     text_or_null(f->of), "unit", text_or_null(f->unit), "needed", f->needed, "low",
                     bound ? json_real(f->low) : json_null(), "high", bound ? json_real(f->high) : json_null(),
                     "meaning", f->meaning);
}

static json_t *json_of_kind(const sw_log_kind *kind)
{
    json_t *fields = json_array();
    for (size_t i = 0; i < kind->field_count; i++) (void)json_array_append_new(fields, json_of_field(&kind->fields[i]));
    return json_pack("{s:s, s:s, s:s, s:s, s:o}", "name", kind->name, "plural", kind->plural, "meaning", kind->meaning,
                     "example", kind->example, "fields", fields);
}

json_t *sw_log_json_kinds(void)
{
    json_t *list = json_array();
    for (size_t i = 0; i < sw_log_kind_count(); i++) (void)json_array_append_new(list, json_of_kind(sw_log_kind_at(i)));
    return json_pack("{s:i, s:o}", "schema", 1, "kinds", list);
}

void sw_log_print_kinds(sw_writer *out, bool json)
{
    if (json) {
        print_root(out, sw_log_json_kinds());
        return;
    }
    for (size_t i = 0; i < sw_log_kind_count(); i++)
        sw_print(out, "  %-14s %s\n", sw_log_kind_at(i)->name, sw_log_kind_at(i)->meaning);
}

static void print_field(sw_writer *out, const sw_log_field *f)
{
    sw_print(out, "  %-14s %-6s %s", f->name, f->needed ? "needed" : "", f->meaning);
    if (f->type == SW_LOG_CHOICE) sw_print(out, "%s%s", f->meaning[0] == '\0' ? "" : ": ", f->of);
    if (f->type == SW_LOG_LINK) sw_print(out, "%s(a %s recorded before)", f->meaning[0] == '\0' ? "" : " ", f->of);
    if (f->type == SW_LOG_NAME) sw_print(out, " (given once)");
    if (f->unit != NULL) sw_print(out, " [%s]", f->unit);
    if (f->low != 0 || f->high != 0) sw_print(out, " %g to %g", f->low, f->high);
    sw_print(out, "\n");
}

void sw_log_print_kind(sw_writer *out, const sw_log_kind *kind, bool json)
{
    if (json) {
        print_root(out, json_pack("{s:i, s:[o]}", "schema", 1, "kinds", json_of_kind(kind)));
        return;
    }
    sw_print(out, "%s: %s\n\n", kind->name, kind->meaning);
    for (size_t i = 0; i < kind->field_count; i++) print_field(out, &kind->fields[i]);
    sw_print(out,
             "  %-14s %-6s who enters it\n  %-14s %-6s when it held, UTC, e.g. 2026-03-05T14:20:00Z; none said: now\n",
             "by", "needed", "at", "");
    sw_print(out, "\nExample: stovewright log works.log add %s %s by=ab\n", kind->name, kind->example);
}

/* ---- records ------------------------------------------------------------------------------ */

static const sw_log_value *value_of(const sw_log_record *r, const char *name)
{
    size_t i = sw_log_field_find(r->kind, name);
    return i == SIZE_MAX || !r->values[i].there ? NULL : &r->values[i];
}

const char *sw_log_verdict(const sw_log_record *r)
{
    const sw_log_value *value = value_of(r, "value"), *low = value_of(r, "low"), *high = value_of(r, "high");
    if (value == NULL) value = value_of(r, "flow_m3_h");
    if (high == NULL) high = value_of(r, "limit_m3_h");
    if (value == NULL || (low == NULL && high == NULL)) return NULL;
    bool outside = (low != NULL && value->number < low->number) || (high != NULL && value->number > high->number);
    return outside ? "outside" : "holds";
}

void sw_log_print_record(sw_writer *out, const sw_log_record *r)
{
    char at[SW_LOG_TIME_ROOM];
    const char *verdict = sw_log_verdict(r);
    sw_log_time_text(r->at_ms, at);
    sw_print(out, "%s  %-13s %5lld ", at, r->kind->name, (long long)r->id);
    for (size_t i = 0; i < r->kind->field_count; i++) {
        const sw_log_field *f = &r->kind->fields[i];
        if (!r->values[i].there) continue;
        sw_print(out, " %s=", f->name);
        if (f->type == SW_LOG_DOCUMENT)
            sw_print(out, "(%zu bytes)", strlen(r->values[i].text));
        else
            sw_log_write_value(out, f, &r->values[i]);
    }
    sw_print(out, "  by %s", r->by);
    if (verdict != NULL) sw_print(out, "  %s", verdict);
    if (r->corrected_by != 0) sw_print(out, "  [corrected by %lld]", (long long)r->corrected_by);
    if (r->corrects != 0)
        sw_print(out, "  [%s %lld: %s]", r->withdrawn ? "withdraws" : "corrects", (long long)r->corrects, r->why);
    sw_print(out, "\n");
}

static json_t *json_of_value(const sw_log_field *f, const sw_log_value *v)
{
    char time[SW_LOG_TIME_ROOM];
    if (!v->there) return json_null();
    if (f->type == SW_LOG_NUMBER) return number_or_null(v->number);
    if (f->type == SW_LOG_WHOLE) return json_integer(v->whole);
    if (f->type != SW_LOG_TIME) return text_or_null(v->text);
    sw_log_time_text(v->whole, time);
    return json_string(time);
}

json_t *sw_log_json_record(const sw_log_record *r)
{
    char at[SW_LOG_TIME_ROOM], entered[SW_LOG_TIME_ROOM];
    json_t *values = json_object();
    sw_log_time_text(r->at_ms, at);
    sw_log_time_text(r->entered_ms, entered);
    for (size_t i = 0; i < r->kind->field_count; i++)
        (void)json_object_set_new(values, r->kind->fields[i].name, json_of_value(&r->kind->fields[i], &r->values[i]));
    return json_pack("{s:s, s:I, s:s, s:s, s:s, s:o, s:o, s:b, s:o, s:o, s:o}", "kind", r->kind->name, "id",
                     (json_int_t)r->id, "at", at, "entered", entered, "by", r->by, "corrects", id_or_null(r->corrects),
                     "corrected_by", id_or_null(r->corrected_by), "withdrawn", r->withdrawn, "why",
                     text_or_null(r->why), "verdict", text_or_null(sw_log_verdict(r)), "values", values);
}

void sw_log_print_records(sw_writer *out, const sw_log_records *records, bool json)
{
    json_t *list = json ? json_array() : NULL;
    for (size_t i = 0; i < records->count; i++) {
        if (json)
            (void)json_array_append_new(list, sw_log_json_record(&records->items[i]));
        else
            sw_log_print_record(out, &records->items[i]);
    }
    if (json)
        print_root(out, json_pack("{s:i, s:o}", "schema", 1, "records", list));
    else if (records->count == 0)
        sw_print(out, "none\n");
}

/* ---- the rest ------------------------------------------------------------------------------ */

static json_t *json_of_remnant(const sw_log_remnant *r)
{
    return json_pack("{s:s, s:s, s:s, s:s, s:f, s:f, s:f, s:o}", "name", r->name, "sheet", r->sheet, "heat", r->heat,
                     "material", r->material, "thickness_mm", r->thickness_mm, "length_mm", r->length_mm, "width_mm",
                     r->width_mm, "place", text_or_null(r->place));
}

json_t *sw_log_json_stock(const sw_log_remnant *stock, size_t count)
{
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++) (void)json_array_append_new(list, json_of_remnant(&stock[i]));
    return json_pack("{s:i, s:o}", "schema", 1, "stock", list);
}

void sw_log_print_stock(sw_writer *out, const sw_log_remnant *stock, size_t count, bool json)
{
    if (json) {
        print_root(out, sw_log_json_stock(stock, count));
        return;
    }
    for (size_t i = 0; i < count; i++) {
        const sw_log_remnant *r = &stock[i];
        sw_print(out, "  %-10s %s %g mm, %g x %g mm, sheet %s, heat %s%s%s\n", r->name, r->material, r->thickness_mm,
                 r->length_mm, r->width_mm, r->sheet, r->heat, r->place == NULL ? "" : ", ",
                 r->place == NULL ? "" : r->place);
    }
    if (count == 0) sw_print(out, "no remnant is in stock\n");
}

static json_t *json_of_capability(const sw_log_capability *c)
{
    return json_pack("{s:s, s:s, s:s, s:I, s:I, s:o, s:o, s:o, s:o, s:o}", "feature", c->feature, "batch", c->batch,
                     "unit", c->unit, "count", (json_int_t)c->count, "outside", (json_int_t)c->outside, "mean",
                     number_or_null(c->mean), "sigma", number_or_null(c->sigma), "low", number_or_null(c->low), "high",
                     number_or_null(c->high), "cpk", number_or_null(c->cpk));
}

json_t *sw_log_json_statistics(const sw_log_statistics *s)
{
    json_t *capability = json_array(), *scrap = json_array(), *pace = json_array();
    for (size_t i = 0; i < s->capability_count; i++)
        (void)json_array_append_new(capability, json_of_capability(&s->capability[i]));
    for (size_t i = 0; i < s->scrap_count; i++)
        (void)json_array_append_new(scrap, json_pack("{s:s, s:f, s:f}", "month", s->scrap[i].month, "sheet_kg",
                                                     s->scrap[i].sheet_kg, "scrap_kg", s->scrap[i].scrap_kg));
    for (size_t i = 0; i < s->pace_count; i++)
        (void)json_array_append_new(pace, json_pack("{s:s, s:I, s:f, s:f}", "operation", s->pace[i].operation, "count",
                                                    (json_int_t)s->pace[i].count, "planned_s", s->pace[i].planned_s,
                                                    "actual_s", s->pace[i].actual_s));
    return json_pack("{s:i, s:o, s:o, s:o}", "schema", 1, "capability", capability, "scrap", scrap, "pace", pace);
}

static void print_capability(sw_writer *out, const sw_log_statistics *s)
{
    if (s->capability_count == 0) return;
    sw_print(out, "Inspections (Cpk after ISO 22514-2):\n  %-24s %-10s %6s %7s %10s %10s %10s %10s %10s\n", "feature",
             "batch", "count", "outside", "mean", "sigma", "low", "high", "Cpk");
    for (size_t i = 0; i < s->capability_count; i++) {
        const sw_log_capability *c = &s->capability[i];
        const double figures[] = {c->mean, c->sigma, c->low, c->high, c->cpk};
        sw_print(out, "  %-24s %-10s %6zu %7zu", c->feature, c->batch, c->count, c->outside);
        for (size_t k = 0; k < sizeof figures / sizeof *figures; k++) sw_print_cell(out, 10, -4, figures[k]);
        sw_print(out, " %s\n", c->unit);
    }
}

void sw_log_print_statistics(sw_writer *out, const sw_log_statistics *s, bool json)
{
    if (json) {
        print_root(out, sw_log_json_statistics(s));
        return;
    }
    print_capability(out, s);
    if (s->scrap_count > 0) sw_print(out, "Scrap:\n");
    for (size_t i = 0; i < s->scrap_count; i++) {
        const sw_log_scrap *m = &s->scrap[i];
        sw_print(out, "  %s  %.1f kg of %.1f kg", m->month, m->scrap_kg, m->sheet_kg);
        if (m->sheet_kg > 0) sw_print(out, ", %.1f %%", 100 * m->scrap_kg / m->sheet_kg);
        sw_print(out, "\n");
    }
    if (s->pace_count > 0) sw_print(out, "Time, actual against planned:\n");
    for (size_t i = 0; i < s->pace_count; i++) {
        const sw_log_pace *p = &s->pace[i];
        sw_print(out, "  %-16s %6zu  %.0f s against %.0f s", p->operation, p->count, p->actual_s, p->planned_s);
        if (p->planned_s > 0) sw_print(out, ", %.0f %%", 100 * p->actual_s / p->planned_s);
        sw_print(out, "\n");
    }
    if (s->capability_count + s->scrap_count + s->pace_count == 0) sw_print(out, "nothing to count yet\n");
}

void sw_log_print_faults(sw_writer *out, const char *const *faults, size_t count, bool json)
{
    json_t *list = json ? json_array() : NULL;
    for (size_t i = 0; i < count; i++) {
        if (json)
            (void)json_array_append_new(list, text_or_null(faults[i]));
        else
            sw_print(out, "  %s\n", faults[i]);
    }
    if (json)
        print_root(out, json_pack("{s:i, s:b, s:o}", "schema", 1, "sound", count == 0, "faults", list));
    else if (count == 0)
        sw_print(out, "sound: file, links, guards and hashes\n");
    else
        sw_print(out, "Keep this file with its -wal file as it is, and go on with the last sound backup.\n");
}

void sw_log_print_done(sw_writer *out, const char *done, const char *what, int64_t number, bool json)
{
    if (json)
        print_root(out, json_pack("{s:i, s:s, s:s, s:I}", "schema", 1, "done", done, "what", what, "number",
                                  (json_int_t)number));
    else
        sw_print(out, "%s %s %lld\n", done, what, (long long)number);
}
