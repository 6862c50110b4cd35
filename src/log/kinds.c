/* kinds.c: the table of kinds. A new kind or field is a row here with `since` = SW_LOG_VERSION, raised by one; nothing is ever
 * taken out or made stricter, for older logs hold it. */
#include "log/log.h"

#include <string.h>

#define NAME(field, text)                                                                                              \
    {                                                                                                                  \
        .name = field, .type = SW_LOG_NAME, .needed = true, .meaning = text                                            \
    }
#define LINK(field, kind, must, text)                                                                                  \
    {                                                                                                                  \
        .name = field, .type = SW_LOG_LINK, .of = kind, .needed = must, .meaning = text                                \
    }
#define CHOICE(field, words, text)                                                                                     \
    {                                                                                                                  \
        .name = field, .type = SW_LOG_CHOICE, .of = words, .needed = true, .meaning = text                             \
    }
#define TEXT(field, must, text)                                                                                        \
    {                                                                                                                  \
        .name = field, .type = SW_LOG_TEXT, .needed = must, .meaning = text                                            \
    }
#define NUMBER(field, in, must, least, most, text)                                                                     \
    {                                                                                                                  \
        .name = field, .unit = in, .type = SW_LOG_NUMBER, .needed = must, .low = least, .high = most, .meaning = text  \
    }
#define NOTE TEXT("note", false, "anything else worth keeping")

static const sw_log_field design_fields[] = {
    NAME("name", "of this version, e.g. A-3"),
    CHOICE("part", "stove|works|house", "what the text describes"),
    {.name = "text",
     .type = SW_LOG_DOCUMENT,
     .needed = true,
     .meaning = "the description word for word; @FILE takes a file"},
    {.name = "sha256", .type = SW_LOG_HASH, .of = "text", .meaning = "of the text; reckoned"},
    TEXT("settings", false, "what was overridden, as after --set"),
    NOTE,
};
static const sw_log_field batch_fields[] = {
    NAME("name", "of the batch, e.g. B-7"),
    LINK("design", "design", true, "the stove's description"),
    LINK("works", "design", false, "the works' description"),
    {.name = "stoves", .type = SW_LOG_WHOLE, .needed = true, .low = 1, .high = 100000, .meaning = "how many"},
    NOTE,
};
static const sw_log_field sheet_fields[] = {
    NAME("name", "of the sheet, e.g. P-118"),
    TEXT("heat", true, "heat number on the mill's certificate"),
    TEXT("material", true, "as in the works' description"),
    NUMBER("thickness_mm", "mm", true, 0.1, 200, "nominal"),
    NUMBER("length_mm", "mm", true, 1, 50000, ""),
    NUMBER("width_mm", "mm", true, 1, 10000, ""),
    LINK("batch", "batch", false, "what it was cut for"),
    TEXT("certificate", false, "number of the inspection document (EN 10204)"),
    NOTE,
};
static const sw_log_field remnant_fields[] = {
    NAME("name", "of the remnant, e.g. R-12"),
    LINK("sheet", "sheet", true, "what it is left of"),
    NUMBER("length_mm", "mm", true, 1, 50000, "of the rectangle to use"),
    NUMBER("width_mm", "mm", true, 1, 10000, "of the rectangle to use"),
    NOTE,
};
static const sw_log_field move_fields[] = {
    LINK("remnant", "remnant", true, ""),
    CHOICE("way", "in|out", "into stock or out of it"),
    LINK("batch", "batch", false, "for which it went out"),
    TEXT("place", false, "where it stands"),
    NOTE,
};
static const sw_log_field serial_fields[] = {
    NAME("number", "serial number on the plate, e.g. S-0001"),
    LINK("batch", "batch", true, ""),
    NOTE,
};
static const sw_log_field piece_fields[] = {
    LINK("serial", "serial", true, "the stove it went into"),
    TEXT("piece", true, "number in the piece list"),
    LINK("sheet", "sheet", true, "what it was cut from"),
    LINK("remnant", "remnant", false, "when it came from a remnant of the sheet"),
    {.name = "count", .type = SW_LOG_WHOLE, .low = 1, .high = 1000, .meaning = "how many of them; none said: 1"},
};
static const sw_log_field inspection_fields[] = {
    LINK("serial", "serial", true, ""),
    TEXT("feature", true, "what was measured, as on the inspection sheet"),
    NUMBER("value", "as unit", true, 0, 0, "as read"),
    NUMBER("low", "as unit", false, 0, 0, "least allowed"),
    NUMBER("high", "as unit", false, 0, 0, "most allowed"),
    TEXT("unit", false, "mm, degC, ..."),
    TEXT("gauge", false, "with what"),
    NOTE,
};
static const sw_log_field weld_fields[] = {
    LINK("serial", "serial", true, ""),
    TEXT("seam", true, "as in the seam table"),
    CHOICE("method", "visual|penetrant|magnetic|ultrasonic|radiographic|break", "how it was tested (EN ISO 17635)"),
    CHOICE("result", "pass|fail", ""),
    TEXT("welder", false, "who or what welded it"),
    TEXT("found", false, "imperfections seen (ISO 6520-1)"),
    NOTE,
};
static const sw_log_field leak_fields[] = {
    LINK("serial", "serial", true, ""),
    NUMBER("pressure_pa", "Pa", true, -5000, 5000, "in the firebox over the room"),
    NUMBER("flow_m3_h", "m3/h", true, 0, 1000, "what leaked"),
    NUMBER("limit_m3_h", "m3/h", false, 0, 1000, "most allowed"),
    NOTE,
};
static const sw_log_field fault_fields[] = {
    LINK("serial", "serial", false, "one stove; none said: the whole batch"),
    LINK("batch", "batch", true, ""),
    TEXT("what", true, "what is not as it should be"),
    CHOICE("weight", "minor|major|critical", ""),
    CHOICE("decision", "open|use|rework|scrap|return", "what is done with it; correct the record when it is decided"),
    TEXT("cause", false, ""),
    NOTE,
};
static const sw_log_field trial_fields[] = {
    CHOICE("station", "press|rolls|laser|weld|coat|burn|other", ""),
    TEXT("what", true, "e.g. bend 3 mm V16"),
    TEXT("setting", false, "what was set"),
    NUMBER("value", "as unit", true, 0, 0, "what came out"),
    TEXT("unit", false, ""),
    LINK("batch", "batch", false, ""),
    NOTE,
};
static const sw_log_field work_fields[] = {
    LINK("batch", "batch", true, ""),
    LINK("serial", "serial", false, "one stove; none said: the batch"),
    TEXT("operation", true, "as in the route: cut, bend, weld ..."),
    NUMBER("planned_s", "s", false, 0, 1e8, "from the line study"),
    NUMBER("actual_s", "s", true, 0, 1e8, "by the clock"),
    NOTE,
};
static const sw_log_field cutting_fields[] = {
    LINK("sheet", "sheet", true, ""),
    LINK("batch", "batch", true, ""),
    NUMBER("sheet_kg", "kg", true, 0, 1e5, "that went on the table"),
    NUMBER("scrap_kg", "kg", true, 0, 1e5, "that is neither piece nor remnant"),
    NOTE,
};
static const sw_log_field house_fields[] = {
    NAME("name", "of the house, e.g. H-31"),
    TEXT("where", false, "address, or how to find it"),
    LINK("design", "design", false, "the house's description"),
    CHOICE("flue", "holds|watch|fails|unknown", "the flue study's answer"),
    TEXT("designation", false, "of the chimney (EN 1443)"),
    TEXT("answer", false, "the flue study's words"),
    {.name = "reserve_pa",
     .unit = "Pa",
     .type = SW_LOG_NUMBER,
     .low = -500,
     .high = 500,
     .since = 2,
     .meaning = "draught to spare, from the flue study"},
};
static const sw_log_field delivery_fields[] = {
    LINK("serial", "serial", true, ""),
    LINK("house", "house", false, ""),
    TEXT("to", true, "who took it"),
    TEXT("paper", false, "number of the delivery note"),
    NOTE,
};
static const sw_log_field reading_fields[] = {
    LINK("serial", "serial", true, ""),
    LINK("house", "house", true, ""),
    TEXT("reading", true, "as in the first-fire record"),
    NUMBER("value", "as unit", true, 0, 0, "yes = 1"),
    NUMBER("low", "as unit", false, 0, 0, "least expected"),
    NUMBER("high", "as unit", false, 0, 0, "most expected"),
    TEXT("unit", false, ""),
    NOTE,
};
static const sw_log_field service_fields[] = {
    LINK("serial", "serial", true, ""),
    TEXT("what", true, "what was done"),
    TEXT("parts", false, "what was put in"),
    CHOICE("state", "good|watch|stop", "how it was left"),
    NOTE,
    {.name = "next", .type = SW_LOG_TIME, .since = 2, .meaning = "when to come again"},
};

#define KIND(one, many, table, text, words)                                                                            \
    {                                                                                                                  \
        .name = one, .plural = many, .fields = table, .field_count = sizeof table / sizeof *table, .meaning = text,    \
        .example = words                                                                                               \
    }

static const sw_log_kind kinds[] = {
    KIND("design", "designs", design_fields, "a version of a description, word for word and hashed",
         "name=A-3 part=stove text=@a.stove.lua"),
    KIND("batch", "batches", batch_fields, "stoves made together", "name=B-7 design=A-3 stoves=20"),
    KIND("sheet", "sheets", sheet_fields, "a sheet of steel and its heat number",
         "name=P-118 heat=482913 material=S235 thickness_mm=4 length_mm=3000 width_mm=1500"),
    KIND("remnant", "remnants", remnant_fields, "what is left of a sheet and worth keeping",
         "name=R-12 sheet=P-118 length_mm=900 width_mm=640"),
    KIND("move", "moves", move_fields, "a remnant into stock or out of it", "remnant=R-12 way=in place=rack-2"),
    KIND("serial", "serials", serial_fields, "a stove with a number of its own", "number=S-0001 batch=B-7"),
    KIND("piece", "pieces", piece_fields, "which piece of a stove came from which sheet",
         "serial=S-0001 piece=14 sheet=P-118"),
    KIND("inspection", "inspections", inspection_fields, "a measured value against its limits",
         "serial=S-0001 feature=door-gap value=1.4 low=1 high=2 unit=mm"),
    KIND("weld", "welds", weld_fields, "a test of a seam", "serial=S-0001 seam=N4 method=visual result=pass"),
    KIND("leak", "leaks", leak_fields, "a leak test of a stove",
         "serial=S-0001 pressure_pa=10 flow_m3_h=1.1 limit_m3_h=2"),
    KIND("nonconformity", "nonconformities", fault_fields, "something that is not as it should be",
         "batch=B-7 serial=S-0001 what=dent weight=minor decision=rework"),
    KIND("trial", "trials", trial_fields, "a trial on a machine",
         "station=press what=bend-3mm-V16 value=88.6 unit=deg"),
    KIND("work", "works", work_fields, "time taken against time planned",
         "batch=B-7 operation=weld planned_s=3300 actual_s=3525"),
    KIND("cutting", "cuttings", cutting_fields, "steel that went in and scrap that came out",
         "sheet=P-118 batch=B-7 sheet_kg=141 scrap_kg=22"),
    KIND("house", "houses", house_fields, "a house and what its flue said", "name=H-31 flue=holds reserve_pa=4.2"),
    KIND("delivery", "deliveries", delivery_fields, "a stove that left", "serial=S-0001 house=H-31 to=J.Doe"),
    KIND("firstfire", "firstfires", reading_fields, "a reading of the first fire",
         "serial=S-0001 house=H-31 reading=draught_pa value=13 low=10 high=20 unit=Pa"),
    KIND("service", "services", service_fields, "later service",
         "serial=S-0001 what=gasket state=good next=2027-09-01"),
};
enum { KIND_COUNT = sizeof kinds / sizeof *kinds };

size_t sw_log_kind_count(void)
{
    return KIND_COUNT;
}

const sw_log_kind *sw_log_kind_at(size_t index)
{
    SW_ASSERT(index < KIND_COUNT);
    return &kinds[index];
}

const sw_log_kind *sw_log_kind_find(const char *name)
{
    for (size_t i = 0; i < KIND_COUNT; i++)
        if (strcmp(kinds[i].name, name) == 0 || strcmp(kinds[i].plural, name) == 0) return &kinds[i];
    return NULL;
}

sw_status sw_log_kind_named(sw_run *run, const char *name, const sw_log_kind **kind)
{
    const char *names[2 * KIND_COUNT];
    *kind = sw_log_kind_find(name);
    if (*kind != NULL) return SW_OK;
    for (size_t i = 0; i < KIND_COUNT; i++) {
        names[2 * i] = kinds[i].name;
        names[2 * i + 1] = kinds[i].plural;
    }
    const char *near = sw_text_nearest(name, names, sizeof names / sizeof *names);
    if (near != NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, name, "is no kind of record; did you mean %s?", near);
    return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, name, "is no kind of record; `log kinds` lists them");
}

size_t sw_log_field_find(const sw_log_kind *kind, const char *name)
{
    for (size_t i = 0; i < kind->field_count; i++)
        if (strcmp(kind->fields[i].name, name) == 0) return i;
    return SIZE_MAX;
}

const char *sw_log_text(const sw_log_record *record, const char *field)
{
    size_t i = sw_log_field_find(record->kind, field);
    bool there = i != SIZE_MAX && record->values[i].there && record->values[i].text != NULL;
    return there ? record->values[i].text : "";
}
