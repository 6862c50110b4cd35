/* Tables of text: what spreadsheets write, and what they should not. */
#include "base/base.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

static sw_status read_text(sw_test *t, const char *text, sw_csv *csv)
{
    return sw_csv_read(&t->run, "table.csv", text, strlen(text), csv);
}

static void cells_stand_under_their_names(sw_test *t)
{
    sw_csv csv;
    if (!sw_ok(t, read_text(t, "time_min,place,value\n1,flue,250\n\n2, pane ,300", &csv))) return;
    sw_true(t, csv.row_count == 2 && csv.column_count == 3);
    sw_same_text(t, sw_csv_cell(&csv, 1, sw_csv_column(&csv, "place")), "pane");
    sw_true(t, sw_csv_place(&csv, 1).line == 4);
    sw_true(t, sw_csv_column(&csv, "nothing") == SIZE_MAX);
}

static void quoted_cells_hold_signs_quotes_and_line_ends(sw_test *t)
{
    sw_csv csv;
    if (!sw_ok(t, read_text(t, "a,b\r\n\"x,\"\"y\"\"\nz\",2\r\nlast,3\r\n", &csv))) return;
    sw_same_text(t, sw_csv_cell(&csv, 0, 0), "x,\"y\"\nz");
    sw_true(t, csv.row_count == 2 && sw_csv_place(&csv, 1).line == 4);
}

static void semicolons_allow_decimal_commas(sw_test *t)
{
    sw_csv csv;
    double value = 0;
    if (!sw_ok(t, read_text(t, "\xef\xbb\xbfname;value\nx;12,5\n", &csv))) return;
    sw_same_text(t, csv.names[0], "name");
    sw_ok(t, sw_csv_number(&t->run, &csv, 0, 1, 0, 100, &value));
    sw_near(t, value, 12.5, 0, "as written");
}

static void every_ragged_line_is_told_at_once(sw_test *t)
{
    sw_csv csv;
    sw_true(t, read_text(t, "a,b\n1\n1,2\n1,2,3\n", &csv) == SW_BAD_INPUT);
    sw_true(t, t->run.error_count == 2 && t->run.errors[0].place.line == 2 && t->run.errors[1].place.line == 4);
    sw_run_clear_errors(&t->run);
}

static void wrong_tables_are_refused(sw_test *t)
{
    static const char *const wrong[] = {"", "\n\n", "a,b\n\"open,2\n", "a\n\"x\"y\n", "a,\xff\n1,2\n"};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        sw_csv csv;
        sw_true(t, read_text(t, wrong[i], &csv) == SW_BAD_INPUT);
        sw_true(t, t->run.error_count == 1);
        sw_run_clear_errors(&t->run);
    }
}

static void a_number_names_its_line_column_and_range(sw_test *t)
{
    static const char *const wrong[] = {"", "x", "1e999", "nan", "12 kg", "-1", "101", "0x"};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        sw_csv csv;
        double value = 0;
        const char *text = sw_text_format(&t->run, t->run.keep, "n,value\n1,%s\n", wrong[i]);
        sw_ok(t, read_text(t, text, &csv));
        sw_true(t, sw_csv_number(&t->run, &csv, 0, 1, 0, 100, &value) == SW_BAD_INPUT && isnan(value));
        sw_true(t, t->run.error_count == 1 && t->run.errors[0].place.line == 2);
        sw_same_text(t, t->run.errors[0].field, "value");
        sw_run_clear_errors(&t->run);
    }
}

/* A column of the texts, as text and as read again. */
static bool sent(sw_test *t, const char *const *cells, size_t count, const char **text, sw_csv *csv)
{
    sw_writer *w = NULL;
    size_t length = 0;
    sw_ok(t, sw_writer_to_memory(&t->run, &w));
    sw_write_text(w, "n,cell\n");
    for (size_t i = 0; i < count; i++) {
        sw_print(w, "%zu,", i);
        sw_csv_write_text(w, cells[i]);
        sw_write_text(w, "\n");
    }
    return sw_ok(t, sw_writer_take(&t->run, w, text, &length)) &&
           sw_ok(t, sw_csv_read(&t->run, "made", *text, length, csv)) && sw_true(t, csv->row_count == count);
}

static void what_is_written_is_read_again(sw_test *t)
{
    static const char *const cells[] = {"plain",           "a,b",           "a;b", "say \"so\"", "two\nlines",
                                        " led by a space", "ended by one ", "",    NULL};
    enum { COUNT = sizeof cells / sizeof *cells };
    const char *text = NULL;
    sw_csv csv;
    if (!sent(t, cells, COUNT, &text, &csv)) return;
    for (size_t i = 0; i < COUNT; i++) sw_same_text(t, sw_csv_cell(&csv, i, 1), cells[i] == NULL ? "" : cells[i]);
}

static void a_text_a_spreadsheet_would_run_goes_out_as_text_and_comes_back(sw_test *t)
{
    static const char *const texts[] = {"=1+1",  "+49", "-3 dB", "@home",    "'=1",  "''x",
                                        "plain", "",    "a=b",   "=a,\"b\"", "\ttab"};
    static const char *const cells[] = {"'=1+1", "'+49", "'-3 dB", "'@home",    "''=1",  "''x",
                                        "plain", "",     "a=b",    "'=a,\"b\"", "'\ttab"};
    enum { COUNT = sizeof texts / sizeof *texts };
    const char *text = NULL;
    sw_csv csv;
    if (!sent(t, texts, COUNT, &text, &csv)) return;
    for (size_t i = 0; i < COUNT; i++) {
        sw_same_text(t, sw_csv_cell(&csv, i, 1), cells[i]);
        sw_same_text(t, sw_csv_as_it_was(sw_csv_cell(&csv, i, 1)), texts[i]);
    }
}

SW_TESTS(SW_CASE(a_text_a_spreadsheet_would_run_goes_out_as_text_and_comes_back),
         SW_CASE(what_is_written_is_read_again), SW_CASE(cells_stand_under_their_names),
         SW_CASE(quoted_cells_hold_signs_quotes_and_line_ends), SW_CASE(semicolons_allow_decimal_commas),
         SW_CASE(every_ragged_line_is_told_at_once), SW_CASE(wrong_tables_are_refused),
         SW_CASE(a_number_names_its_line_column_and_range))
