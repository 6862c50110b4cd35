/* The log: what goes in comes out, is corrected by appending, and is counted right. */
#include "log_help.h"

#include <math.h>
#include <sqlite3.h>

static void a_hash_is_the_published_one(sw_test *t)
{
    static const char *const texts[] = {"abc", "", "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"};
    static const char *const digests[] = {"ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
                                          "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
                                          "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"};
    for (size_t i = 0; i < 3; i++) { /* FIPS 180-4 example messages */
        char digest[SW_LOG_HASH_ROOM];
        sw_log_sha256(texts[i], strlen(texts[i]), digest);
        sw_same_text(t, digest, digests[i]);
    }
}

static void times_come_back_as_written(sw_test *t)
{
    static const char *const texts[] = {"1970-01-01T00:00:01Z", "2024-02-29T23:59:59Z", "2026-03-05T14:20:00.125Z",
                                        "2100-03-01T00:00:00Z"};
    for (size_t i = 0; i < 4; i++) {
        int64_t ms = 0;
        char back[SW_LOG_TIME_ROOM];
        sw_ok(t, sw_log_time_read(&t->run, (sw_place){0}, "at", texts[i], &ms));
        sw_log_time_text(ms, back);
        sw_same_text(t, back, texts[i]);
    }
}

static void wrong_times_are_refused(sw_test *t)
{
    static const char *const wrong[] = {"",           "yesterday",        "2026-13-01",  "2026-02-30",
                                        "2026-02-29", "2026-01-01T24:00", "2026-01-01x", "1969-12-31",
                                        "2026-1-01",  "2026-+1-01"};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        int64_t ms = 0;
        refused(t, sw_log_time_read(&t->run, (sw_place){0}, "at", wrong[i], &ms), SW_BAD_INPUT, "is no time");
    }
}

static void each_kind_takes_its_own_example(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_log *log = open_as(t, path, SW_LOG_CREATE);
    for (size_t i = 0; i < sw_log_kind_count() && log != NULL; i++) {
        const sw_log_kind *kind = sw_log_kind_at(i);
        const char *example = kind->example;
        if (strcmp(kind->name, "design") == 0) example = "name=A-3 part=stove text=stove{}";
        /* houses stand after deliveries in no example, so the order of the table must do */
        if (!sw_ok(t, add_words(&t->run, log, sw_text_format(&t->run, t->run.keep, "%s %s by=ab", kind->name, example),
                                NULL)))
            continue;
        sw_true(t, count_of(t, log, kind->plural, false) == 1);
    }
    sw_log_close(log);
    remove_log(t, path);
}

static void a_wrong_record_is_told_with_every_fault(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_log *log = new_log(t, path);
    sw_true(t, add_words(&t->run, log, "weld serial=S-1 method=smell", NULL) == SW_BAD_INPUT);
    sw_true(t, t->run.error_count == 4); /* by, seam, method, result */
    sw_run_clear_errors(&t->run);
    refused(t, add_words(&t->run, log, "inspection serial=S-1 featur=gap value=1 by=ab", NULL), SW_BAD_INPUT,
            "did you mean feature?");
    refused(t, add_words(&t->run, log, "inspection serial=S-9 feature=gap value=1 by=ab", NULL), SW_BAD_INPUT,
            "there is no serial \"S-9\"");
    refused(t, add_words(&t->run, log, "serial number=S-1 batch=B-7 by=ab", NULL), SW_BAD_INPUT, "recorded already");
    refused(t, add_words(&t->run, log, "inspection serial=S-1 feature=gap value=inf by=ab", NULL), SW_BAD_INPUT,
            "is no number");
    refused(t, add_words(&t->run, log, "batch name=B-8 design=A-3 stoves=0 by=ab", NULL), SW_BAD_INPUT, "outside 1 to");
    sw_true(t, count_of(t, log, "inspection", true) == 0);
    sw_log_close(log);
    remove_log(t, path);
}

static void a_correction_appends_and_the_old_stays(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_log *log = new_log(t, path);
    const sw_log_kind *kind = sw_log_kind_find("inspection");
    static const char *const change_words[] = {"value=1.6", "by=cd", "why=misread"};
    sw_log_record change;
    sw_log_records found = {0};
    int64_t id = 0, new_id = 0;
    sw_ok(t, add_words(&t->run, log, "inspection serial=S-1 feature=gap value=1.5 unit=mm by=ab", &id));
    sw_ok(t, sw_log_record_read(&t->run, kind, change_words, 3, &change));
    sw_ok(t, sw_log_correct(&t->run, log, id, &change, &new_id));
    sw_true(t, count_of(t, log, "inspection", false) == 1 && count_of(t, log, "inspection", true) == 2);
    sw_ok(t, sw_log_find(&t->run, log, &(sw_log_query){.like = {.kind = kind}, .all = true}, &found));
    if (sw_true(t, found.count == 2)) {
        sw_near(t, found.items[0].values[sw_log_field_find(kind, "value")].number, 1.5, 0, "as entered");
        sw_near(t, found.items[1].values[sw_log_field_find(kind, "value")].number, 1.6, 0, "as corrected");
        sw_same_text(t, found.items[1].values[sw_log_field_find(kind, "unit")].text, "mm");
        sw_true(t, found.items[0].corrected_by == new_id && found.items[1].corrects == id);
    }
    refused(t, sw_log_correct(&t->run, log, id, &change, &new_id), SW_BAD_INPUT, "correct that one");
    refused(t, sw_log_correct(&t->run, log, 99, &change, &new_id), SW_BAD_INPUT, "there is no inspection number 99");
    change.why = NULL;
    refused(t, sw_log_correct(&t->run, log, new_id, &change, &new_id), SW_BAD_INPUT, "says why");
    sw_log_close(log);
    remove_log(t, path);
}

static void a_withdrawn_record_does_not_hold_but_stays(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_log *log = new_log(t, path);
    int64_t id = 0, new_id = 0;
    sw_log_record change = {.kind = sw_log_kind_find("leak"), .by = "ab", .why = "wrong stove", .withdrawn = true};
    sw_ok(t, add_words(&t->run, log, "leak serial=S-1 pressure_pa=10 flow_m3_h=1 by=ab", &id));
    sw_ok(t, sw_log_correct(&t->run, log, id, &change, &new_id));
    sw_true(t, count_of(t, log, "leak", false) == 0 && count_of(t, log, "leak", true) == 2);
    sw_log_close(log);
    remove_log(t, path);
}

static void the_file_itself_refuses_change_and_deletion(sw_test *t)
{
    static const char *const attacks[] = {
        "UPDATE inspection SET value=9",
        "DELETE FROM inspection",
        "DELETE FROM serial_name",
        "UPDATE serial_name SET name='x'",
        "INSERT OR REPLACE INTO serial(number,batch,at,entered,\"by\",withdrawn) VALUES('S-1','B-7',1,1,'x',0)",
        "INSERT OR IGNORE INTO serial(number,batch,at,entered,\"by\",withdrawn) VALUES('S-1','B-7',1,1,'x',0)",
        "INSERT OR REPLACE INTO inspection(id,serial,feature,value,at,entered,\"by\",withdrawn) "
        "VALUES(1,'S-1','f',9,1,1,'x',0)",
        "INSERT INTO serial(number,batch,at,entered,\"by\",withdrawn,corrects,why) VALUES('S-3','B-7',1,1,'x',0,1,'y')",
        "INSERT INTO inspection(serial,feature,value,at,entered,\"by\",withdrawn) VALUES('S-1','f','high',1,1,'x',0)",
    };
    const char *path = new_path(t, "works.log");
    sw_log *log = new_log(t, path);
    sw_ok(t, add_words(&t->run, log, "inspection serial=S-1 feature=gap value=1.5 by=ab", NULL));
    sqlite3 *db = NULL;
    sw_true(t, sqlite3_open(path, &db) == SQLITE_OK);
    for (size_t i = 0; i < sizeof attacks / sizeof *attacks; i++)
        sw_true(t, sqlite3_exec(db, attacks[i], NULL, NULL, NULL) == SQLITE_CONSTRAINT);
    (void)sqlite3_close(db);
    sw_true(t, count_of(t, log, "inspection", true) == 1 && count_of(t, log, "serial", true) == 2);
    sw_log_close(log);
    remove_log(t, path);
}

static void a_list_is_recorded_whole_or_not_at_all(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_log *log = new_log(t, path);
    sw_log_record records[2];
    static const char *const good[] = {"number=S-3", "batch=B-7", "by=ab"}, *const bad[] = {"number=S-1", "batch=B-7",
                                                                                            "by=ab"};
    sw_ok(t, sw_log_record_read(&t->run, sw_log_kind_find("serial"), good, 3, &records[0]));
    sw_ok(t, sw_log_record_read(&t->run, sw_log_kind_find("serial"), bad, 3, &records[1]));
    refused(t, sw_log_add(&t->run, log, records, 2, NULL), SW_BAD_INPUT, "recorded already");
    sw_true(t, count_of(t, log, "serial", true) == 2);
    sw_log_close(log);
    remove_log(t, path);
}

static bool holds_kind(const sw_log_records *r, const char *kind)
{
    for (size_t i = 0; i < r->count; i++)
        if (strcmp(r->items[i].kind->name, kind) == 0) return true;
    return false;
}

/* Reads one inspection and adds it as who may ask twice; the id, 0 = refused. *appended: was it new. */
static int64_t added_once(sw_test *t, sw_log *log, const char *value, const char *at, size_t *appended)
{
    const char *const words[] = {"serial=S-1", "feature=foot", value, "by=ab", at};
    sw_log_record record;
    int64_t id = 0;
    if (!sw_ok(t, sw_log_record_read(&t->run, sw_log_kind_find("inspection"), words, at == NULL ? 4 : 5, &record)))
        return 0;
    sw_status status = sw_log_add_once(&t->run, log, &record, 1, &id, appended);
    return status == SW_OK ? id : 0;
}

static void what_is_added_again_with_its_time_stands_once(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_log *log = new_log(t, path);
    size_t appended = 0;
    int64_t first = added_once(t, log, "value=1.4", "at=2026-03-05T12:00:00.250Z", &appended);
    sw_true(t, first == 1 && appended == 1);
    sw_true(t, added_once(t, log, "value=1.4", "at=2026-03-05T12:00:00.250Z", &appended) == first && appended == 0);
    sw_true(t, added_once(t, log, "value=1.4", "at=2026-03-05T12:00:00.251Z", &appended) != first && appended == 1);
    sw_true(t, added_once(t, log, "value=1.5", "at=2026-03-05T12:00:00.250Z", &appended) != first && appended == 1);
    sw_true(t, count_of(t, log, "inspection", true) == 3);
    sw_true(t, added_once(t, log, "value=1.4", NULL, &appended) == 0);
    sw_contains(t, t->run.errors[0].text, "when it held");
    sw_run_clear_errors(&t->run);
    sw_log_close(log);
    remove_log(t, path);
}

static sw_status corrected(sw_test *t, sw_log *log, const char *kind, const char *words[2], int64_t id, bool withdrawn,
                           int64_t *new_id)
{
    sw_log_record change;
    const char *const all[] = {"by=cd", "why=misread", words[0], words[1]};
    size_t count = words[0] == NULL ? 2 : words[1] == NULL ? 3 : 4;
    SW_TRY(sw_log_record_read(&t->run, sw_log_kind_find(kind), all, count, &change));
    change.withdrawn = withdrawn;
    return sw_log_correct(&t->run, log, id, &change, new_id);
}

static void what_was_corrected_and_then_withdrawn_may_be_added_again(sw_test *t)
{
    const char *path = new_path(t, "works.log"), *at = "at=2026-03-05T12:00:00.250Z", *none[2] = {NULL, NULL};
    sw_log *log = new_log(t, path);
    size_t appended = 0;
    int64_t first = added_once(t, log, "value=1.4", at, &appended), second = 0, third = 0, last = 0;
    sw_ok(t, corrected(t, log, "inspection", (const char *[2]){"value=1.6", NULL}, first, false, &second));
    sw_true(t, added_once(t, log, "value=1.4", at, &appended) == first && appended == 0);
    sw_ok(t, corrected(t, log, "inspection", none, second, true, &third));
    sw_true(t, count_of(t, log, "inspection", false) == 0);
    int64_t again = added_once(t, log, "value=1.4", at, &appended);
    sw_true(t, again > third && appended == 1 && count_of(t, log, "inspection", false) == 1);
    sw_true(t, added_once(t, log, "value=1.4", at, &appended) == again && appended == 0);
    /* a withdrawal taken back: it stands, and is not added a second time */
    sw_ok(t, corrected(t, log, "inspection", none, again, true, &last));
    sw_ok(t, corrected(t, log, "inspection", none, last, false, &last));
    sw_true(t, added_once(t, log, "value=1.4", at, &appended) == again && appended == 0);
    sw_log_close(log);
    remove_log(t, path);
}

static void a_history_holds_what_the_stove_is_made_of(sw_test *t)
{
    static const char *const wanted[] = {"serial",     "batch",         "design",   "sheet", "piece",
                                         "inspection", "nonconformity", "delivery", "house"};
    const char *path = new_path(t, "works.log");
    sw_log *log = new_log(t, path);
    sw_log_records h = {0};
    sw_ok(t, add_words(&t->run, log, "piece serial=S-1 piece=14 sheet=P-1 by=ab", NULL));
    sw_ok(t, add_words(&t->run, log, "inspection serial=S-1 feature=gap value=1 by=ab", NULL));
    sw_ok(t, add_words(&t->run, log, "inspection serial=S-2 feature=gap value=1 by=ab", NULL));
    sw_ok(t, add_words(&t->run, log, "nonconformity batch=B-7 what=hue weight=minor decision=use by=ab", NULL));
    sw_ok(t, add_words(&t->run, log, "nonconformity batch=B-7 serial=S-2 what=dent weight=minor decision=use by=ab",
                       NULL));
    sw_ok(t, add_words(&t->run, log, "house name=H-1 flue=holds by=ab", NULL));
    sw_ok(t, add_words(&t->run, log, "delivery serial=S-1 house=H-1 to=x by=ab", NULL));
    sw_ok(t, sw_log_history(&t->run, log, "S-1", &h));
    sw_true(t, h.count == 9);
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) sw_true(t, holds_kind(&h, wanted[i]));
    for (size_t i = 1; i < h.count; i++) sw_true(t, h.items[i - 1].at_ms <= h.items[i].at_ms);
    refused(t, sw_log_history(&t->run, log, "S-9", &h), SW_BAD_INPUT, "no stove");
    sw_log_close(log);
    remove_log(t, path);
}

static void a_remnant_is_in_stock_until_it_goes_out(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_log *log = new_log(t, path);
    const sw_log_remnant *stock = NULL;
    size_t count = 9;
    sw_ok(t, add_words(&t->run, log, "remnant name=R-1 sheet=P-1 length_mm=900 width_mm=600 by=ab", NULL));
    sw_ok(t, sw_log_stock(&t->run, log, &stock, &count));
    sw_true(t, count == 0);
    sw_ok(t, add_words(&t->run, log, "move remnant=R-1 way=in place=rack by=ab at=2026-02-01", NULL));
    sw_ok(t, sw_log_stock(&t->run, log, &stock, &count));
    if (sw_true(t, count == 1)) sw_same_text(t, stock[0].heat, "4711");
    sw_ok(t, add_words(&t->run, log, "move remnant=R-1 way=out batch=B-7 by=ab at=2026-02-02", NULL));
    sw_ok(t, sw_log_stock(&t->run, log, &stock, &count));
    sw_true(t, count == 0);
    sw_log_close(log);
    remove_log(t, path);
}

static void a_corrected_move_does_not_jump_ahead_of_a_later_one_of_the_same_time(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_log *log = new_log(t, path);
    const sw_log_remnant *stock = NULL;
    size_t count = 9;
    int64_t in = 0, out = 0;
    sw_ok(t, add_words(&t->run, log, "remnant name=R-1 sheet=P-1 length_mm=900 width_mm=600 by=ab", NULL));
    sw_ok(t, add_words(&t->run, log, "move remnant=R-1 way=in place=rack by=ab at=2026-02-01", &in));
    sw_ok(t, add_words(&t->run, log, "move remnant=R-1 way=out batch=B-7 by=ab at=2026-02-01", &out));
    sw_ok(t, corrected(t, log, "move", (const char *[2]){"place=shelf", NULL}, in, false, &in));
    sw_ok(t, corrected(t, log, "move", (const char *[2]){"place=floor", NULL}, in, false, &in));
    sw_ok(t, sw_log_stock(&t->run, log, &stock, &count));
    sw_true(t, count == 0);
    sw_ok(t, corrected(t, log, "move", (const char *[2]){"way=in", "place=rack"}, out, false, &out));
    sw_ok(t, sw_log_stock(&t->run, log, &stock, &count));
    if (sw_true(t, count == 1)) sw_same_text(t, stock[0].place, "rack");
    sw_log_close(log);
    remove_log(t, path);
}

static const char *exported(sw_test *t, sw_log *log, const char *kind)
{
    sw_writer *out = NULL;
    const char *text = NULL;
    size_t length = 0;
    sw_ok(t, sw_writer_to_memory(&t->run, &out));
    sw_ok(t, sw_log_export(&t->run, log, &(sw_log_query){.like = {.kind = sw_log_kind_find(kind)}, .all = true}, out));
    sw_ok(t, sw_writer_take(&t->run, out, &text, &length));
    return text;
}

static sw_status import_table(sw_test *t, sw_log *log, const sw_log_kind *kind, const char *table, const char *by,
                              size_t *added)
{
    sw_csv csv;
    sw_ok(t, sw_csv_read(&t->run, "t.csv", table, strlen(table), &csv));
    return sw_log_import(&t->run, log, kind, &csv, by, added);
}

static void a_table_that_went_out_comes_in_again(sw_test *t)
{
    static const char *const kinds[] = {"design", "batch", "sheet", "serial", "inspection"};
    const char *path = new_path(t, "a.log"), *other = new_path(t, "b.log");
    sw_log *log = new_log(t, path), *second = open_as(t, other, SW_LOG_CREATE);
    sw_log_record change = {
        .kind = sw_log_kind_find("inspection"), .by = "ab", .why = "a \"q\", b;\nc", .withdrawn = true};
    int64_t id = 0;
    sw_ok(t, add_words(&t->run, log, "inspection serial=S-2 feature=x,\"y\" value=0.1 by=ab", &id));
    sw_ok(t, sw_log_correct(&t->run, log, id, &change, &id));
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        const char *table = exported(t, log, kinds[i]);
        size_t added = 0;
        sw_ok(t, import_table(t, second, sw_log_kind_find(kinds[i]), table, NULL, &added));
        sw_true(t, count_of(t, second, kinds[i], true) == added && count_of(t, log, kinds[i], true) == added);
    }
    sw_true(t, count_of(t, second, "inspection", false) == 0);
    sw_log_close(log);
    sw_log_close(second);
    remove_log(t, path);
    remove_log(t, other);
}

/* What a spreadsheet would run goes out as a text, and every text comes back as it was. */
static void no_cell_of_a_table_is_run_and_none_is_changed(sw_test *t)
{
    static const char *const texts[] = {"=1+1", "+1", "-1", "@a",   "'=1",    "''@a", "'quoted'",
                                        "a=b",  "-",  "'",  "end ", " both ", "=1 ",  " "};
    const char *path = new_path(t, "a.log"), *other = new_path(t, "b.log");
    sw_log *log = new_log(t, path), *second = new_log(t, other);
    const sw_log_kind *kind = sw_log_kind_find("service");
    size_t note = sw_log_field_find(kind, "note"), what = sw_log_field_find(kind, "what"), added = 0,
           count = sizeof texts / sizeof *texts;
    for (size_t i = 0; i < count; i++) {
        sw_log_record r = {.kind = kind, .by = texts[i]};
        const char *words[] = {"serial=S-1", "what=gasket", "state=good"};
        sw_ok(t, sw_log_record_read(&t->run, kind, words, 3, &r));
        r.by = texts[i];
        r.values[what] = r.values[note] = (sw_log_value){.there = true, .text = texts[i]};
        sw_ok(t, sw_log_add(&t->run, log, &r, 1, NULL));
    }
    const char *table = exported(t, log, "service");
    static const char *const run[] = {",=", ",+", ",-", ",@", ",\"=", ",\"+", ",\"-", ",\"@", ",\t", "\n="};
    for (size_t i = 0; i < sizeof run / sizeof *run; i++) sw_true(t, strstr(table, run[i]) == NULL);
    sw_contains(t, table, ",'=1+1");
    sw_ok(t, import_table(t, second, kind, table, NULL, &added));
    sw_log_records found = {0};
    sw_ok(t, sw_log_find(&t->run, second, &(sw_log_query){.like = {.kind = kind}}, &found));
    if (!sw_true(t, found.count == count)) return;
    for (size_t i = 0; i < count; i++) {
        sw_same_text(t, found.items[i].values[note].text, texts[i]);
        sw_same_text(t, found.items[i].by, texts[i]);
    }
    sw_log_close(log);
    sw_log_close(second);
    remove_log(t, path);
    remove_log(t, other);
}

static void a_table_of_what_holds_stands_alone(sw_test *t)
{
    const char *path = new_path(t, "works.log"), *table = NULL;
    sw_log *log = new_log(t, path);
    sw_log_query query = {.like = {.kind = sw_log_kind_find("leak")}};
    sw_log_record change = {.kind = query.like.kind, .by = "ab", .why = "misread"};
    sw_writer *out = NULL;
    size_t length = 0, added = 0;
    int64_t id = 0;
    sw_ok(t, add_words(&t->run, log, "leak serial=S-1 pressure_pa=10 flow_m3_h=1 by=ab", &id));
    sw_ok(t, sw_log_correct(&t->run, log, id, &change, &id));
    sw_ok(t, sw_writer_to_memory(&t->run, &out));
    sw_ok(t, sw_log_export(&t->run, log, &query, out));
    sw_ok(t, sw_writer_take(&t->run, out, &table, &length));
    sw_ok(t, import_table(t, log, query.like.kind, table, NULL, &added));
    sw_true(t, added == 1 && count_of(t, log, "leak", false) == 2);
    sw_log_close(log);
    remove_log(t, path);
}

static void an_import_with_a_fault_adds_nothing_and_tells_every_line(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_log *log = new_log(t, path);
    const char *table = "serial;feature;value;at\nS-1;gap;1,5;2026-01-05\nS-9;gap;1;2026-01-05\nS-2;gap;x;2026-01-05\n"
                        "S-2;;2;never\n";
    size_t added = 1;
    sw_true(t, import_table(t, log, sw_log_kind_find("inspection"), table, "ab", &added) == SW_BAD_INPUT);
    sw_true(t, t->run.error_count == 3 && added == 0);
    sw_true(t,
            t->run.errors[0].place.line == 3 && t->run.errors[1].place.line == 4 && t->run.errors[2].place.line == 5);
    sw_run_clear_errors(&t->run);
    sw_true(t, count_of(t, log, "inspection", true) == 0);
    table = "serial,featur,value\nS-1,gap,1\n";
    refused(t, import_table(t, log, sw_log_kind_find("inspection"), table, "ab", &added), SW_BAD_INPUT,
            "did you mean feature?");
    sw_log_close(log);
    remove_log(t, path);
}

static void readings_in_different_units_are_not_mixed(sw_test *t)
{
    static const char *const lines[] = {"inspection serial=S-1 feature=gap value=1.4 unit=mm by=ab",
                                        "inspection serial=S-1 feature=gap value=0.14 unit=cm by=ab",
                                        "inspection serial=S-2 feature=gap value=1.6 unit=mm by=ab"};
    const char *path = new_path(t, "works.log");
    sw_log *log = new_log(t, path);
    sw_log_statistics s;
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) sw_ok(t, add_words(&t->run, log, lines[i], NULL));
    sw_ok(t, sw_log_reckon(&t->run, log, &s));
    if (sw_true(t, s.capability_count == 2)) {
        sw_same_text(t, s.capability[0].unit, "cm");
        sw_near(t, s.capability[0].mean, 0.14, 1e-12, "derived: one reading");
        sw_near(t, s.capability[1].mean, 1.5, 1e-12, "derived: middle of two");
    }
    sw_log_close(log);
    remove_log(t, path);
}

static void capability_scrap_and_time_are_counted_from_what_holds(sw_test *t)
{
    static const char *const lines[] = {"inspection serial=S-1 feature=gap value=1.4 low=1 high=2 by=ab",
                                        "inspection serial=S-2 feature=gap value=1.6 low=1 high=2 by=ab",
                                        "cutting sheet=P-1 batch=B-7 sheet_kg=140 scrap_kg=20 by=ab at=2026-03-05",
                                        "cutting sheet=P-1 batch=B-7 sheet_kg=60 scrap_kg=5 by=ab at=2026-03-09",
                                        "work batch=B-7 operation=weld planned_s=100 actual_s=120 by=ab",
                                        "work batch=B-7 operation=weld actual_s=999 by=ab"};
    const char *path = new_path(t, "works.log");
    sw_log *log = new_log(t, path);
    sw_log_statistics s;
    int64_t id = 0;
    sw_log_record change = {.kind = sw_log_kind_find("inspection"), .by = "ab", .why = "slip", .withdrawn = true};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) sw_ok(t, add_words(&t->run, log, lines[i], NULL));
    sw_ok(t, add_words(&t->run, log, "inspection serial=S-2 feature=gap value=9 low=1 high=2 by=ab", &id));
    sw_ok(t, sw_log_correct(&t->run, log, id, &change, &id));
    sw_ok(t, sw_log_reckon(&t->run, log, &s));
    if (sw_true(t, s.capability_count == 1 && s.scrap_count == 1 && s.pace_count == 1)) {
        sw_true(t, s.capability[0].count == 2 && s.capability[0].outside == 0);
        sw_near(t, s.capability[0].sigma, sqrt(0.02), 1e-12, "derived: two values 0.2 apart");
        sw_near(t, s.capability[0].cpk, 0.5 / (3 * sqrt(0.02)), 1e-12, "derived: min side 0.5 over 3 sigma");
        sw_same_text(t, s.scrap[0].month, "2026-03");
        sw_near(t, s.scrap[0].scrap_kg, 25, 1e-12, "derived: sum");
        sw_near(t, s.pace[0].actual_s, 120, 1e-12, "derived: records without a plan are left out");
    }
    sw_log_close(log);
    remove_log(t, path);
}

SW_TESTS(SW_CASE(a_hash_is_the_published_one), SW_CASE(times_come_back_as_written), SW_CASE(wrong_times_are_refused),
         SW_CASE(each_kind_takes_its_own_example), SW_CASE(a_wrong_record_is_told_with_every_fault),
         SW_CASE(a_correction_appends_and_the_old_stays), SW_CASE(a_withdrawn_record_does_not_hold_but_stays),
         SW_CASE(the_file_itself_refuses_change_and_deletion), SW_CASE(a_list_is_recorded_whole_or_not_at_all),
         SW_CASE(what_is_added_again_with_its_time_stands_once),
         SW_CASE(what_was_corrected_and_then_withdrawn_may_be_added_again),
         SW_CASE(a_history_holds_what_the_stove_is_made_of), SW_CASE(a_remnant_is_in_stock_until_it_goes_out),
         SW_CASE(a_corrected_move_does_not_jump_ahead_of_a_later_one_of_the_same_time),
         SW_CASE(a_table_that_went_out_comes_in_again), SW_CASE(no_cell_of_a_table_is_run_and_none_is_changed),
         SW_CASE(a_table_of_what_holds_stands_alone), SW_CASE(an_import_with_a_fault_adds_nothing_and_tells_every_line),
         SW_CASE(readings_in_different_units_are_not_mixed),
         SW_CASE(capability_scrap_and_time_are_counted_from_what_holds))
