/* cut_list.c: what is cut from which sheet: as a table to take to the laser, and back into the works' log. */
#include "app/stock_of_log.h"

#include <math.h>
#include <string.h>

/* ---- out ------------------------------------------------------------------------------------------------------------- */

static bool is_of_log(const sw_stock *s)
{
    return s->remnant && s->place.file != NULL && strcmp(s->place.file, "the works' log") == 0;
}

static void write_line(sw_writer *w, const sw_nested *nest, size_t layout)
{
    const sw_nest_sheet *s = &nest->result->sheets[layout];
    double kg_mm2 = nest->input->density_kg_mm2, area_mm2 = sw_region_area(&s->stock->shape),
           kept_mm2 = s->remnant_length_mm * s->remnant_width_mm;
    sw_csv_write_text(w, nest->name);
    sw_print(w, ",%zu,", layout + 1);
    sw_csv_write_text(w, s->stock->name);
    sw_write_text(w, ",");
    sw_csv_write_text(w, nest->grade->name);
    sw_print(w, ",%g", nest->thickness_mm);
    sw_write_text(w, ",,"); /* the name of a whole sheet is filled in by who took it */
    if (is_of_log(s->stock)) sw_csv_write_text(w, s->stock->name);
    sw_print(w, ",%.0f,%.0f,%.3f,%.3f,", s->stock->length_mm, s->stock->width_mm, kg_mm2 * area_mm2,
             kg_mm2 * fmax(area_mm2 - s->piece_area_mm2 - kept_mm2, 0));
    if (kept_mm2 > 0) sw_print(w, "%.0f,%.0f", floor(s->remnant_length_mm), floor(s->remnant_width_mm));
    sw_write_text(w, kept_mm2 > 0 ? ",,\r\n" : ",,,\r\n");
}

static void write_nest(sw_writer *w, const sw_nested *nest)
{
    for (size_t k = 0; nest->result != NULL && k < nest->result->sheet_count; k++)
        for (size_t n = 0; n < nest->result->sheets[k].repeat; n++) write_line(w, nest, k);
}

sw_status sw_cut_list_write(sw_run *run, const sw_dossier *dossier, const char *path)
{
    sw_writer *w = NULL;
    SW_TRY(sw_writer_to_file(run, path, &w));
    sw_write_text(
        w,
        "nest,layout,stock,material,thickness_mm,sheet,remnant,length_mm,width_mm,sheet_kg,scrap_kg,kept_length_mm,kept_width_mm,"
        "kept_name,kept_place\r\n");
    for (size_t i = 0; i < dossier->nest_count; i++) write_nest(w, &dossier->nests[i]);
    return sw_writer_close(run, w);
}

/* ---- back into the log ------------------------------------------------------------------------------------------------- */

enum {
    MATERIAL,
    THICKNESS,
    SHEET,
    REMNANT,
    SHEET_KG,
    SCRAP_KG,
    KEPT_LENGTH,
    KEPT_WIDTH,
    KEPT_NAME,
    KEPT_PLACE,
    COLUMNS,
    RECORDS_A_LINE = 4
};
static const char *const column_names[COLUMNS] = {"material",  "thickness_mm", "sheet",          "remnant",
                                                  "sheet_kg",  "scrap_kg",     "kept_length_mm", "kept_width_mm",
                                                  "kept_name", "kept_place"};

typedef struct cut_list {
    sw_run *run;
    sw_log *log;
    const sw_csv *csv;
    const char *batch, *by;
    size_t columns[COLUMNS];
    sw_log_record *records; /* [RECORDS_A_LINE x row_count] */
    size_t count;
} cut_list;

static const char *cell(const cut_list *c, size_t row, int column)
{
    return sw_csv_as_it_was(sw_csv_cell(c->csv, row, c->columns[column]));
}

static sw_log_record *add(cut_list *c, const char *kind)
{
    sw_log_record *r = &c->records[c->count++];
    *r = (sw_log_record){.kind = sw_log_kind_find(kind), .by = c->by};
    return r;
}

static void put_text(sw_log_record *r, const char *field, const char *text)
{
    if (text[0] != '\0') r->values[sw_log_field_find(r->kind, field)] = (sw_log_value){.there = true, .text = text};
}

static void put_number(sw_log_record *r, const char *field, double value)
{
    r->values[sw_log_field_find(r->kind, field)] = (sw_log_value){.there = true, .number = value};
}

static sw_status find_columns(cut_list *c)
{
    sw_status worst = SW_OK;
    for (int i = 0; i < COLUMNS; i++) {
        c->columns[i] = sw_csv_column(c->csv, column_names[i]);
        if (c->columns[i] == SIZE_MAX)
            worst = sw_fail(c->run, SW_BAD_INPUT, (sw_place){.file = c->csv->file, .line = 1}, column_names[i],
                            "is no column of the list; `nest ... --out cut.csv` writes one");
    }
    return worst;
}

/* The sheet a remnant in stock is of. */
static sw_status sheet_of(const cut_list *c, size_t row, const char *remnant, const char **sheet)
{
    const sw_log_remnant *stock = NULL;
    size_t count = 0;
    SW_TRY(sw_log_stock(c->run, c->log, &stock, &count));
    for (size_t i = 0; i < count; i++) {
        if (strcmp(stock[i].name, remnant) != 0) continue;
        *sheet = stock[i].sheet;
        return SW_OK;
    }
    return sw_fail(c->run, SW_BAD_INPUT, sw_csv_place(c->csv, row), "remnant",
                   "\"%s\" is not in stock; `log FILE stock` lists what is", remnant);
}

/* Whether a whole sheet is what the list says was cut. */
static sw_status check_sheet(const cut_list *c, size_t row, const char *sheet)
{
    sw_log_query query = {.like = {.kind = sw_log_kind_find("sheet")}};
    sw_log_records found;
    double thickness_mm = 0;
    SW_TRY(sw_csv_number(c->run, c->csv, row, c->columns[THICKNESS], 0, 200, &thickness_mm));
    put_text(&query.like, "name", sheet);
    SW_TRY(sw_log_find(c->run, c->log, &query, &found));
    if (found.count == 0)
        return sw_fail(c->run, SW_BAD_INPUT, sw_csv_place(c->csv, row), "sheet",
                       "there is no sheet \"%s\" in the log; add it first", sheet);
    const sw_log_record *r = &found.items[0];
    const char *material = r->values[sw_log_field_find(r->kind, "material")].text;
    double is_mm = r->values[sw_log_field_find(r->kind, "thickness_mm")].number;
    if (strcmp(material, cell(c, row, MATERIAL)) == 0 && fabs(is_mm - thickness_mm) < SW_SAME_POINT_MM) return SW_OK;
    return sw_fail(c->run, SW_BAD_INPUT, sw_csv_place(c->csv, row), "sheet",
                   "\"%s\" is %g mm %s; the list cuts %g mm %s", sheet, is_mm, material, thickness_mm,
                   cell(c, row, MATERIAL));
}

static sw_status keep(cut_list *c, size_t row, const char *sheet)
{
    double length_mm = 0, width_mm = 0;
    if (cell(c, row, KEPT_LENGTH)[0] == '\0' && cell(c, row, KEPT_WIDTH)[0] == '\0') return SW_OK;
    SW_TRY(sw_csv_number(c->run, c->csv, row, c->columns[KEPT_LENGTH], 1, 50000, &length_mm));
    SW_TRY(sw_csv_number(c->run, c->csv, row, c->columns[KEPT_WIDTH], 1, 10000, &width_mm));
    const char *name = cell(c, row, KEPT_NAME);
    if (name[0] == '\0') name = sw_text_format(c->run, c->run->keep, "R-%s-%zu", c->batch, row + 1);
    if (name == NULL) return SW_NO_MEMORY;
    sw_log_record *r = add(c, "remnant");
    put_text(r, "name", name);
    put_text(r, "sheet", sheet);
    put_number(r, "length_mm", length_mm);
    put_number(r, "width_mm", width_mm);
    r = add(c, "move");
    put_text(r, "remnant", name);
    put_text(r, "way", "in");
    put_text(r, "batch", c->batch);
    put_text(r, "place", cell(c, row, KEPT_PLACE));
    return SW_OK;
}

static sw_status read_line(cut_list *c, size_t row)
{
    const char *sheet = cell(c, row, SHEET), *remnant = cell(c, row, REMNANT);
    double sheet_kg = 0, scrap_kg = 0;
    if (remnant[0] != '\0') SW_TRY(sheet_of(c, row, remnant, &sheet));
    if (sheet[0] == '\0')
        return sw_fail(c->run, SW_BAD_INPUT, sw_csv_place(c->csv, row), "sheet",
                       "which sheet was it? write its name in the log (`log FILE add sheet ...` first)");
    SW_TRY(check_sheet(c, row, sheet));
    SW_TRY(sw_csv_number(c->run, c->csv, row, c->columns[SHEET_KG], 0, 1e5, &sheet_kg));
    SW_TRY(sw_csv_number(c->run, c->csv, row, c->columns[SCRAP_KG], 0, sheet_kg, &scrap_kg));
    sw_log_record *r = NULL;
    if (remnant[0] != '\0') {
        r = add(c, "move");
        put_text(r, "remnant", remnant);
        put_text(r, "way", "out");
        put_text(r, "batch", c->batch);
    }
    r = add(c, "cutting");
    put_text(r, "sheet", sheet);
    put_text(r, "batch", c->batch);
    put_number(r, "sheet_kg", sheet_kg);
    put_number(r, "scrap_kg", scrap_kg);
    return keep(c, row, sheet);
}

sw_status sw_cut_list_record(sw_run *run, sw_log *log, const sw_csv *csv, const char *batch, const char *by,
                             size_t *lines)
{
    cut_list c = {.run = run, .log = log, .csv = csv, .batch = batch, .by = by};
    sw_status worst = SW_OK;
    *lines = 0;
    c.records = SW_KEEP(run, RECORDS_A_LINE * csv->row_count + 1, sw_log_record);
    if (c.records == NULL) return SW_NO_MEMORY;
    SW_TRY(find_columns(&c));
    for (size_t i = 0; i < csv->row_count; i++) {
        sw_status status = read_line(&c, i);
        if (status != SW_OK && status != SW_BAD_INPUT && status != SW_OUT_OF_RANGE) return status;
        if (status != SW_OK) worst = status;
    }
    if (worst != SW_OK) return worst;
    SW_TRY(sw_log_add(run, log, c.records, c.count, NULL));
    *lines = csv->row_count;
    return SW_OK;
}
