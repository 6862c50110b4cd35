/* dxf_read.c: the sections of a DXF file, the unit in its header, and the answer put together. */
#include "dxf/dxf_parts.h"

#include <stdio.h>
#include <string.h>

/* In the order in which they may come (DXF reference, general file structure). */
static const char *const sections[] = {"HEADER",   "CLASSES", "TABLES",         "BLOCKS",
                                       "ENTITIES", "OBJECTS", "THUMBNAILIMAGE", "ACDSDATA"};
enum { SECTION_COUNT = sizeof sections / sizeof *sections, HEADER = 0, ENTITIES = 4 };

static const char *const unit_names[] = {"none",       "inch",  "foot",      "mile",      "millimetre",
                                         "centimetre", "metre", "kilometre", "microinch", "thousandth of an inch"};

static sw_status check_unit(const dxf_pairs *in)
{
    int unit;
    SW_TRY(dxf_integer(in, &unit));
    if (unit == 0 || unit == 4) return SW_OK;
    const char *name = unit > 0 && unit < 10 ? unit_names[unit] : "not known here";
    return dxf_fail(in, in->value_line,
                    "the drawing's unit is %d (%s); only 4 (millimetre) or 0 (none) is read: convert it", unit, name);
}

static sw_status skip_section(dxf_pairs *in)
{
    for (;;) {
        SW_TRY(dxf_next(in));
        if (in->code != 0) continue;
        if (dxf_is(in, "ENDSEC")) return SW_OK;
        if (dxf_is(in, "EOF") || dxf_is(in, "SECTION"))
            return dxf_fail(in, in->value_line, "%.*s inside a section; ENDSEC is missing before it",
                            (int)in->value_length, in->value);
    }
}

static sw_status read_header(dxf_pairs *in)
{
    bool unit_next = false;
    for (;;) {
        SW_TRY(dxf_next(in));
        if (in->code == 0 && dxf_is(in, "ENDSEC")) return SW_OK;
        if (in->code == 0)
            return dxf_fail(in, in->value_line, "\"%.*s\" inside HEADER; ENDSEC is missing before it",
                            (int)(in->value_length < 40 ? in->value_length : 40), in->value);
        if (in->code == 70 && unit_next) SW_TRY(check_unit(in));
        if (in->code == 9) unit_next = dxf_is(in, "$INSUNITS");
    }
}

static sw_status section_number(dxf_pairs *in, int *number)
{
    SW_TRY(dxf_next(in));
    if (in->code != 2)
        return dxf_fail(in, in->code_line, "group %d after SECTION; group 2 with its name is needed", in->code);
    for (int k = 0; k < SECTION_COUNT; k++) {
        if (!dxf_is(in, sections[k])) continue;
        *number = k;
        return SW_OK;
    }
    return dxf_fail(in, in->value_line,
                    "section \"%.*s\" is not known; HEADER, TABLES, BLOCKS, ENTITIES and the like are",
                    (int)(in->value_length < 40 ? in->value_length : 40), in->value);
}

static sw_status read_section(dxf_pairs *in, dxf_found *found, int *last)
{
    int number = 0;
    SW_TRY(section_number(in, &number));
    if (number <= *last)
        return dxf_fail(in, in->value_line,
                        "section %s comes %s; each comes once, in the order HEADER, TABLES, BLOCKS, ENTITIES",
                        sections[number], number == *last ? "twice" : "too late");
    *last = number;
    if (number == HEADER) return read_header(in);
    if (number == ENTITIES) return dxf_read_entities(in, found);
    return skip_section(in);
}

static sw_status check_rest(const dxf_pairs *in)
{
    for (size_t i = in->at; i < in->length; i++)
        if (strchr(" \t\r\n\x1a", in->bytes[i]) == NULL || in->bytes[i] == '\0')
            return dxf_fail(in, in->line + 1, "%zu bytes follow EOF; nothing may", in->length - in->at);
    return SW_OK;
}

static sw_status read_sections(dxf_pairs *in, dxf_found *found)
{
    int last = -1;
    for (;;) {
        SW_TRY(dxf_next(in));
        if (in->code == 0 && dxf_is(in, "EOF")) break;
        if (in->code != 0 || !dxf_is(in, "SECTION"))
            return dxf_fail(in, in->code_line, "group %d \"%.*s\" between sections; only SECTION or EOF stands there",
                            in->code, (int)(in->value_length < 40 ? in->value_length : 40), in->value);
        SW_TRY(read_section(in, found, &last));
    }
    if (last < ENTITIES) return dxf_fail(in, in->line, "the file has no ENTITIES section: nothing is drawn in it");
    return check_rest(in);
}

static sw_status skipped_text(const dxf_found *found, const char **skipped)
{
    const char *text = "";
    for (size_t k = 0; k < found->kind_count; k++) {
        text = sw_text_format(found->run, found->run->keep, "%s%s%zu %s", text, k == 0 ? "" : ", ",
                              found->kinds[k].count, found->kinds[k].name);
        if (text == NULL) return SW_NO_MEMORY;
    }
    *skipped = text;
    return SW_OK;
}

static sw_status keep_drawing(const dxf_found *found, sw_dxf_drawing *drawing)
{
    sw_dxf_path *paths = SW_KEEP(found->run, found->path_count, sw_dxf_path);
    sw_dxf_text *texts = SW_KEEP(found->run, found->text_count, sw_dxf_text);
    if (paths == NULL || texts == NULL) return SW_NO_MEMORY;
    if (found->path_count > 0) memcpy(paths, found->paths, found->path_count * sizeof *paths);
    if (found->text_count > 0) memcpy(texts, found->texts, found->text_count * sizeof *texts);
    *drawing = (sw_dxf_drawing){paths, found->path_count, texts, found->text_count};
    return SW_OK;
}

static sw_status read_drawing(dxf_pairs *in, dxf_found *found, sw_dxf_drawing *drawing, const char **skipped)
{
    if (in->length == 0) return dxf_fail(in, 0, "the file is empty");
    if (memchr(in->bytes, '\0', in->length) != NULL)
        return dxf_fail(in, 0, "the file is binary; only the text form of DXF is read: save it as ASCII DXF");
    if (in->length >= 3 && memcmp(in->bytes, "\xEF\xBB\xBF", 3) == 0) in->at = 3; /* UTF-8 mark */
    SW_TRY(read_sections(in, found));
    SW_TRY(dxf_join(found));
    SW_TRY(skipped_text(found, skipped));
    if (found->path_count == 0)
        return dxf_fail(in, in->line, "no line, arc, circle or polyline is drawn in the file (%s)",
                        **skipped == '\0' ? "it is empty" : *skipped);
    return keep_drawing(found, drawing);
}

sw_status sw_dxf_read(sw_run *run, const char *file, const char *bytes, size_t length, double join_mm,
                      sw_dxf_drawing *drawing, const char **skipped)
{
    size_t mark = sw_arena_mark(run->scratch);
    dxf_pairs in = {.run = run, .file = file, .bytes = bytes, .length = length};
    dxf_found found = {.run = run, .join_mm = join_mm};
    *drawing = (sw_dxf_drawing){0};
    *skipped = "";
    sw_status status = read_drawing(&in, &found, drawing, skipped);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
