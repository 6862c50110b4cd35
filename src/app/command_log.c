/* command_log.c: the works' records: `log FILE VERB ...`. */
#include "app/app.h"
#include "app/print_log.h"
#include "app/stock_of_log.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

enum { TABLE_MOST = 1 << 28 };

typedef struct log_call {
    sw_run *run;
    const sw_request *request;
    sw_writer *out;
    const char *path;
    const char *const *words; /* after the verb */
    size_t word_count;
} log_call;

typedef struct log_verb {
    const char *name, *words, *meaning, *example; /* example: after `stovewright log` */
    size_t least;                                 /* words it needs */
    int (*work)(const log_call *call);
} log_verb;

static int ended(sw_log *log, sw_status status)
{
    sw_log_close(log);
    return sw_exit_of_status(status);
}

static sw_status open_log(const log_call *call, sw_log_mode mode, sw_log **log)
{
    sw_log_options options = sw_log_defaults(mode);
    return sw_log_open(call->run, call->path, &options, log);
}

static sw_status read_id(const log_call *call, const char *text, int64_t *id)
{
    char *end = NULL;
    errno = 0;
    long long value = strtoll(text, &end, 10);
    if (end == text || *end != '\0' || errno != 0 || value < 1)
        return sw_fail(call->run, SW_BAD_INPUT, (sw_place){0}, text,
                       "is no number of a record; `log FILE list` shows them");
    *id = value;
    return SW_OK;
}

static int do_new(const log_call *call)
{
    sw_log *log = NULL;
    sw_status status = open_log(call, SW_LOG_CREATE, &log);
    if (status == SW_OK) sw_log_print_done(call->out, "made", call->path, SW_LOG_VERSION, call->request->json);
    return ended(log, status);
}

static int do_kinds(const log_call *call)
{
    sw_log_print_kinds(call->out, call->request->json);
    return SW_EXIT_HOLDS;
}

static void tell_added(const log_call *call, const char *done, const sw_log_record *record, int64_t id)
{
    const char *verdict = sw_log_verdict(record);
    sw_log_print_done(call->out, done, record->kind->name, id, call->request->json);
    if (!call->request->json && verdict != NULL && strcmp(verdict, "outside") == 0)
        sw_print(call->out, "  outside its limits: add a nonconformity that says what is done with it\n");
}

static sw_status add_one(const log_call *call, sw_log **log)
{
    sw_log_record record;
    const sw_log_kind *kind = NULL;
    int64_t id = 0;
    SW_TRY(sw_log_kind_named(call->run, call->words[0], &kind));
    SW_TRY(sw_log_record_read(call->run, kind, call->words + 1, call->word_count - 1, &record));
    SW_TRY(open_log(call, SW_LOG_WRITE, log));
    SW_TRY(sw_log_add(call->run, *log, &record, 1, &id));
    tell_added(call, "recorded", &record, id);
    return SW_OK;
}

static int do_add(const log_call *call)
{
    sw_log *log = NULL;
    sw_status status = add_one(call, &log);
    return ended(log, status);
}

static sw_status correct_one(const log_call *call, bool withdraw, sw_log **log)
{
    sw_log_record record;
    const sw_log_kind *kind = NULL;
    int64_t id = 0, new_id = 0;
    SW_TRY(sw_log_kind_named(call->run, call->words[0], &kind));
    SW_TRY(read_id(call, call->words[1], &id));
    SW_TRY(sw_log_record_read(call->run, kind, call->words + 2, call->word_count - 2, &record));
    record.withdrawn = withdraw;
    SW_TRY(open_log(call, SW_LOG_WRITE, log));
    SW_TRY(sw_log_correct(call->run, *log, id, &record, &new_id));
    sw_log_print_done(call->out, withdraw ? "withdrawn by" : "corrected by", kind->name, new_id, call->request->json);
    return SW_OK;
}

static int do_correct(const log_call *call)
{
    sw_log *log = NULL;
    sw_status status = correct_one(call, false, &log);
    return ended(log, status);
}

static int do_withdraw(const log_call *call)
{
    sw_log *log = NULL;
    sw_status status = correct_one(call, true, &log);
    return ended(log, status);
}

/* Filters of list and export: from=, to= and values of fields. */
static sw_status read_query(const log_call *call, sw_log_query *query)
{
    const char *fields[SW_WORDS_MAX];
    const sw_log_kind *kind = NULL;
    size_t count = 0;
    *query = (sw_log_query){.all = call->request->all};
    SW_TRY(sw_log_kind_named(call->run, call->words[0], &kind));
    for (size_t i = 1; i < call->word_count; i++) {
        const char *word = call->words[i];
        if (strncmp(word, "from=", 5) == 0)
            SW_TRY(sw_log_time_read(call->run, (sw_place){0}, "from", word + 5, &query->from_ms));
        else if (strncmp(word, "to=", 3) == 0 && sw_log_field_find(kind, "to") == SIZE_MAX)
            SW_TRY(sw_log_time_read(call->run, (sw_place){0}, "to", word + 3, &query->to_ms));
        else if (strncmp(word, "until=", 6) == 0)
            SW_TRY(sw_log_time_read(call->run, (sw_place){0}, "until", word + 6, &query->to_ms));
        else
            fields[count++] = word;
    }
    SW_TRY(sw_log_record_read(call->run, kind, fields, count, &query->like));
    if (query->like.by != NULL || query->like.why != NULL || query->like.at_ms != 0)
        return sw_fail(call->run, SW_BAD_INPUT, (sw_place){0}, kind->name,
                       "is chosen by its fields and from=, until=; not by at, by or why");
    return SW_OK;
}

static sw_status list_some(const log_call *call, sw_log **log)
{
    sw_log_query query;
    sw_log_records found;
    SW_TRY(read_query(call, &query));
    SW_TRY(open_log(call, SW_LOG_READ, log));
    SW_TRY(sw_log_find(call->run, *log, &query, &found));
    sw_log_print_records(call->out, &found, call->request->json);
    return SW_OK;
}

static int do_list(const log_call *call)
{
    sw_log *log = NULL;
    sw_status status = list_some(call, &log);
    return ended(log, status);
}

/* ---- papers ----------------------------------------------------------------------------------------------------------- */

static sw_status write_page(const log_call *call, sw_logged *page)
{
    const char *date = sw_today(call->run);
    if (date == NULL) return SW_NO_MEMORY;
    page->log = call->path;
    page->date = date;
    SW_TRY(sw_paper_log(call->run, page, call->request->out));
    sw_log_print_done(call->out, "written", call->request->out, 1, call->request->json);
    return SW_OK;
}

static sw_status show_history(const log_call *call, sw_log **log)
{
    sw_log_records history;
    SW_TRY(open_log(call, SW_LOG_READ, log));
    SW_TRY(sw_log_history(call->run, *log, call->words[0], &history));
    if (call->request->out != NULL)
        return write_page(call, &(sw_logged){.serial = call->words[0], .history = &history});
    sw_log_print_records(call->out, &history, call->request->json);
    return SW_OK;
}

static int do_history(const log_call *call)
{
    sw_log *log = NULL;
    sw_status status = show_history(call, &log);
    return ended(log, status);
}

/* The records that hold whose `field` is the text. */
static sw_status find_by(const log_call *call, sw_log *log, const char *kind, const char *field, const char *text,
                         sw_log_records *found)
{
    sw_log_query query = {.like = {.kind = sw_log_kind_find(kind)}};
    query.like.values[sw_log_field_find(query.like.kind, field)] = (sw_log_value){.there = true, .text = text};
    return sw_log_find(call->run, log, &query, found);
}

/* What the word names: one stove, or the stoves of "batch=NAME". */
static sw_status stoves_of(const log_call *call, sw_log *log, const char *word, sw_log_records *found)
{
    bool batch = strncmp(word, "batch=", 6) == 0;
    const char *name = batch ? word + 6 : word;
    SW_TRY(find_by(call, log, "serial", batch ? "batch" : "number", name, found));
    if (found->count > 0) return SW_OK;
    return sw_fail(call->run, SW_BAD_INPUT, (sw_place){0}, name, "%s; `log FILE list serials` shows them",
                   batch ? "is no batch with stoves that have numbers" : "is no serial number of this log");
}

enum { LABELS_MOST = 10000 };

static sw_status add_label(const log_call *call, sw_log *log, const sw_log_record *stove, sw_label *label)
{
    sw_log_records batch;
    *label = (sw_label){
        .serial = sw_log_text(stove, "number"), .batch = sw_log_text(stove, "batch"), .model = "", .works = ""};
    SW_TRY(find_by(call, log, "batch", "name", label->batch, &batch));
    if (batch.count == 0) return SW_OK;
    label->model = sw_log_text(&batch.items[0], "design");
    label->works = sw_log_text(&batch.items[0], "works");
    return SW_OK;
}

static sw_status write_labels(const log_call *call, sw_log **log)
{
    size_t count = 0;
    const char *date = sw_today(call->run), *to = call->request->out == NULL ? "labels.pdf" : call->request->out;
    sw_label *labels = SW_KEEP(call->run, LABELS_MOST, sw_label);
    if (labels == NULL || date == NULL) return SW_NO_MEMORY;
    SW_TRY(open_log(call, SW_LOG_READ, log));
    for (size_t i = 0; i < call->word_count; i++) {
        sw_log_records found;
        SW_TRY(stoves_of(call, *log, call->words[i], &found));
        if (found.count > LABELS_MOST - count)
            return sw_fail(call->run, SW_BAD_INPUT, (sw_place){0}, "label",
                           "more than %d labels; ask for fewer at once", LABELS_MOST);
        for (size_t k = 0; k < found.count; k++) SW_TRY(add_label(call, *log, &found.items[k], &labels[count++]));
    }
    SW_TRY(sw_paper_labels(call->run, labels, count, date, to));
    sw_log_print_done(call->out, "labels written to", to, (int64_t)count, call->request->json);
    return SW_OK;
}

static int do_label(const log_call *call)
{
    sw_log *log = NULL;
    sw_status status = write_labels(call, &log);
    return ended(log, status);
}

static int do_stock(const log_call *call)
{
    sw_log *log = NULL;
    const sw_log_remnant *stock = NULL;
    size_t count = 0;
    sw_status status = open_log(call, SW_LOG_READ, &log);
    if (status == SW_OK) status = sw_log_stock(call->run, log, &stock, &count);
    if (status == SW_OK) sw_log_print_stock(call->out, stock, count, call->request->json);
    return ended(log, status);
}

static sw_status import_table(const log_call *call, sw_log **log)
{
    const sw_log_kind *kind = NULL;
    const char *bytes = NULL, *by = NULL;
    size_t length = 0, added = 0;
    sw_csv csv;
    SW_TRY(sw_log_kind_named(call->run, call->words[0], &kind));
    for (size_t i = 2; i < call->word_count; i++) {
        if (strncmp(call->words[i], "by=", 3) != 0)
            return sw_fail(call->run, SW_BAD_INPUT, (sw_place){0}, call->words[i],
                           "is not understood; only by=NAME may follow");
        by = call->words[i] + 3;
    }
    SW_TRY(sw_file_read(call->run, call->words[1], TABLE_MOST, &bytes, &length));
    SW_TRY(sw_csv_read(call->run, call->words[1], bytes, length, &csv));
    SW_TRY(open_log(call, SW_LOG_WRITE, log));
    SW_TRY(sw_log_import(call->run, *log, kind, &csv, by, &added));
    sw_log_print_done(call->out, "recorded", kind->plural, (int64_t)added, call->request->json);
    return SW_OK;
}

static int do_import(const log_call *call)
{
    sw_log *log = NULL;
    sw_status status = import_table(call, &log);
    return ended(log, status);
}

/* What was cut: a list of `nest --out`, with the names of the sheets filled in. */
static sw_status record_cut(const log_call *call, sw_log **log)
{
    const char *bytes = NULL, *by = NULL, *batch = NULL;
    size_t length = 0, lines = 0;
    sw_csv csv;
    for (size_t i = 1; i < call->word_count; i++) {
        if (strncmp(call->words[i], "by=", 3) == 0)
            by = call->words[i] + 3;
        else if (strncmp(call->words[i], "batch=", 6) == 0)
            batch = call->words[i] + 6;
        else
            return sw_fail(call->run, SW_BAD_INPUT, (sw_place){0}, call->words[i],
                           "is not understood; batch=NAME and by=NAME may follow");
    }
    if (by == NULL || batch == NULL)
        return sw_fail(call->run, SW_BAD_INPUT, (sw_place){0}, "cut", "needs batch=NAME and by=NAME");
    SW_TRY(sw_file_read(call->run, call->words[0], TABLE_MOST, &bytes, &length));
    SW_TRY(sw_csv_read(call->run, call->words[0], bytes, length, &csv));
    SW_TRY(open_log(call, SW_LOG_WRITE, log));
    SW_TRY(sw_cut_list_record(call->run, *log, &csv, batch, by, &lines));
    sw_log_print_done(call->out, "recorded", "sheets cut", (int64_t)lines, call->request->json);
    return SW_OK;
}

static int do_cut(const log_call *call)
{
    sw_log *log = NULL;
    sw_status status = record_cut(call, &log);
    return ended(log, status);
}

static sw_status export_to(const log_call *call, sw_log *log, const sw_log_query *query, const char *path)
{
    sw_writer *file = NULL;
    SW_TRY(sw_writer_to_file(call->run, path, &file));
    sw_status status = sw_log_export(call->run, log, query, file);
    if (status == SW_OK) return sw_writer_close(call->run, file);
    sw_writer_abandon(file);
    return status;
}

static sw_status export_table(const log_call *call, sw_log **log)
{
    sw_log_query query;
    SW_TRY(read_query(call, &query));
    SW_TRY(open_log(call, SW_LOG_READ, log));
    if (call->request->out == NULL) return sw_log_export(call->run, *log, &query, call->out);
    return export_to(call, *log, &query, call->request->out);
}

static int do_export(const log_call *call)
{
    sw_log *log = NULL;
    sw_status status = export_table(call, &log);
    return ended(log, status);
}

static int do_backup(const log_call *call)
{
    sw_log *log = NULL;
    const char *to = call->request->out;
    if (to == NULL) {
        (void)sw_fail(call->run, SW_BAD_INPUT, (sw_place){0}, "backup", "needs --out FILE: a name that is not taken");
        return SW_EXIT_INPUT;
    }
    sw_status status = open_log(call, SW_LOG_READ, &log);
    if (status == SW_OK) status = sw_log_backup(call->run, log, to);
    if (status == SW_OK) sw_log_print_done(call->out, "copied to", to, sw_log_version(log), call->request->json);
    return ended(log, status);
}

static int do_check(const log_call *call)
{
    sw_log *log = NULL;
    const char *const *faults = NULL;
    size_t count = 0;
    sw_log_options options = sw_log_defaults(SW_LOG_READ);
    options.look_most_bytes = 0; /* each fault is told below */
    sw_status status = sw_log_open(call->run, call->path, &options, &log);
    if (status == SW_OK) status = sw_log_check(call->run, log, &faults, &count);
    if (status == SW_OK) sw_log_print_faults(call->out, faults, count, call->request->json);
    int code = ended(log, status);
    return code == SW_EXIT_HOLDS && count > 0 ? SW_EXIT_FAILS : code;
}

static int do_stats(const log_call *call)
{
    sw_log *log = NULL;
    sw_log_statistics statistics;
    sw_status status = open_log(call, SW_LOG_READ, &log);
    if (status == SW_OK) status = sw_log_reckon(call->run, log, &statistics);
    if (status == SW_OK && call->request->out != NULL)
        status = write_page(call, &(sw_logged){.statistics = &statistics});
    else if (status == SW_OK)
        sw_log_print_statistics(call->out, &statistics, call->request->json);
    return ended(log, status);
}

static const log_verb verbs[] = {
    {"new", "", "makes an empty log; refuses a file that holds anything", "works.log new", 0, do_new},
    {"kinds", "", "the kinds of records; `log FILE add KIND --help` lists the fields of one", "works.log kinds", 0,
     do_kinds},
    {"add", "KIND FIELD=VALUE ... by=NAME", "adds a record; with at=TIME when it held earlier",
     "works.log add serial number=S-0001 batch=B-7 by=ab", 1, do_add},
    {"correct", "KIND NUMBER FIELD=VALUE ... by=NAME why=TEXT",
     "adds a record that replaces number NUMBER in the fields given; the old one stays readable",
     "works.log correct inspection 17 value=1.6 by=ab why=misread", 2, do_correct},
    {"withdraw", "KIND NUMBER by=NAME why=TEXT", "says that a record does not hold; it stays readable",
     "works.log withdraw inspection 17 by=ab why=wrong-stove", 2, do_withdraw},
    {"list", "KIND [FIELD=VALUE ...] [from=TIME] [until=TIME]",
     "the records that hold; --all: also those corrected or withdrawn",
     "works.log list inspections serial=S-0001 from=2026-03-01", 1, do_list},
    {"history", "SERIAL", "all that is known of one stove, by time; --out FILE.html or FILE.pdf: as a page",
     "works.log history S-0001 --out S-0001.pdf", 1, do_history},
    {"label", "SERIAL ... | batch=NAME",
     "labels with the serial number as a QR code, a page each; --out FILE.pdf (default labels.pdf)",
     "works.log label batch=B-7 --out labels.pdf", 1, do_label},
    {"stock", "", "the remnants in stock", "works.log stock", 0, do_stock},
    {"cut", "FILE.csv batch=NAME by=NAME",
     "records what was cut, from the list that `nest ... --out FILE.csv` wrote: remnants out of stock, steel and scrap, remnants kept",
     "works.log cut cut.csv batch=B-7 by=ab", 1, do_cut},
    {"import", "KIND FILE.csv [by=NAME]", "adds every line of a table, or none; the first line names the fields",
     "works.log import inspections readings.csv by=ab", 2, do_import},
    {"export", "KIND [FIELD=VALUE ...] [--out FILE.csv]", "the records as a table that import reads; --all as in list",
     "works.log export inspections --out x.csv", 1, do_export},
    {"backup", "--out FILE", "a checked copy, while others go on working", "works.log backup --out friday.log", 0,
     do_backup},
    {"check", "", "is the file whole: pages, links, guards, hashes", "works.log check", 0, do_check},
    {"stats", "",
     "Cpk over batches, scrap over months, time actual against planned; --out FILE.html or FILE.pdf: as a page",
     "works.log stats", 0, do_stats},
};
enum { VERB_COUNT = sizeof verbs / sizeof *verbs };

static void print_verb(sw_writer *out, const log_verb *v)
{
    sw_print(out, "stovewright log FILE %s %s\n\n%s.\nExample: stovewright log %s\n", v->name, v->words, v->meaning,
             v->example);
}

static void print_help(sw_writer *out)
{
    sw_print(
        out,
        "stovewright log FILE VERB ...\n\n"
        "The works' records in one file that several people may use at once on one machine. Every record says when "
        "and by whom;\nnothing is overwritten or deleted: a correction is a record of its own.\n\nVerbs:\n");
    for (size_t i = 0; i < VERB_COUNT; i++)
        sw_print(out, "  %-8s %s\n           %s\n", verbs[i].name, verbs[i].words, verbs[i].meaning);
    sw_print(out, "\nKinds:\n");
    sw_log_print_kinds(out, false);
    sw_print(out, "\nStart here:\n");
    static const char *const start[] = {"design", "batch", "serial", "inspection"};
    sw_print(out, "  stovewright log works.log new\n");
    for (size_t i = 0; i < sizeof start / sizeof *start; i++)
        sw_print(out, "  stovewright log works.log add %s %s by=ab\n", start[i], sw_log_kind_find(start[i])->example);
    sw_print(
        out,
        "  stovewright log works.log history S-0001\n\n"
        "--json on every verb. Exit codes: 0 done, 1 check found a fault, 2 the input is wrong, 3 could not work.\n");
}

static const log_verb *find_verb(sw_run *run, const char *word)
{
    const char *names[VERB_COUNT];
    for (size_t i = 0; i < VERB_COUNT; i++) {
        names[i] = verbs[i].name;
        if (strcmp(word, names[i]) == 0) return &verbs[i];
    }
    const char *near = sw_text_nearest(word, names, VERB_COUNT);
    if (near != NULL)
        (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, word, "is no verb of log; did you mean %s?", near);
    else
        (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, word, "is no verb of log; stovewright log --help lists them");
    return NULL;
}

/* The page of a kind, of a verb, or of the command. `log add serial --help` works without FILE, too. */
static int help(const sw_request *request, sw_writer *out)
{
    for (size_t i = request->word_count; i-- > 0;) {
        const sw_log_kind *kind = i > 0 ? sw_log_kind_find(request->words[i]) : NULL;
        if (kind != NULL) {
            sw_log_print_kind(out, kind, request->json);
            return SW_EXIT_HOLDS;
        }
        for (size_t k = 0; k < VERB_COUNT; k++) {
            if (strcmp(verbs[k].name, request->words[i]) != 0) continue;
            print_verb(out, &verbs[k]);
            return SW_EXIT_HOLDS;
        }
    }
    print_help(out);
    return SW_EXIT_HOLDS;
}

int sw_command_log(sw_run *run, const sw_request *request, sw_writer *out)
{
    if (request->help) return help(request, out);
    if (request->word_count < 2) {
        print_help(out);
        return SW_EXIT_INPUT;
    }
    const log_verb *verb = find_verb(run, request->words[1]);
    if (verb == NULL) return SW_EXIT_INPUT;
    log_call call = {run, request, out, request->words[0], request->words + 2, request->word_count - 2};
    bool fixed = strchr(verb->words, '=') == NULL;
    if (call.word_count < verb->least || (fixed && call.word_count > verb->least)) {
        (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, verb->name, "is written: log FILE %s %s", verb->name,
                      verb->words);
        return SW_EXIT_INPUT;
    }
    return verb->work(&call);
}
