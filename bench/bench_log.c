/* bench_log.c: 100,000 inspections inserted durably in batches, and one stove's history in a log of many records.
 *   bench_log [FILE [RECORDS]]   default ./bench.log, 1000000; FILE must not be there, and is removed. One machine's figures. */
#include "log/log.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { INSPECTIONS = 100000, BATCH = 1000, EACH = 100, LOOKS = 20 }; /* EACH: inspections of one stove */

static void must(sw_run *run, sw_status status)
{
    if (status == SW_OK) return;
    printf("failed: %s\n", run->error_count > 0 ? run->errors[0].text : "");
    exit(1);
}

static sw_log_value text(const char *words)
{
    return (sw_log_value){.there = true, .text = words};
}

static sw_log_value number(double value)
{
    return (sw_log_value){.there = true, .number = value};
}

static void fill_inspection(sw_log_record *r, const char *serial, size_t i)
{
    static const char *const features[] = {"door gap", "pane recess", "flange flatness", "spigot diameter"};
    *r = (sw_log_record){.kind = sw_log_kind_find("inspection"), .by = "ab"};
    r->values[0] = text(serial);
    r->values[1] = text(features[i % 4]);
    r->values[2] = number(1.5 + 0.001 * (double)(i % 700));
    r->values[3] = number(1);
    r->values[4] = number(2);
    r->values[5] = text("mm");
}

static void add_words(sw_run *run, sw_log *log, const char *kind, const char *const *words, size_t count)
{
    sw_log_record record;
    must(run, sw_log_record_read(run, sw_log_kind_find(kind), words, count, &record));
    must(run, sw_log_add(run, log, &record, 1, NULL));
}

/* Stoves from `first` on and their inspections, BATCH in a transaction. */
static void fill(sw_run *run, sw_log *log, size_t first, size_t inspections)
{
    static sw_log_record records[BATCH + BATCH / EACH];
    static char names[BATCH / EACH][24];
    for (size_t done = 0; done < inspections; done += BATCH) {
        size_t count = 0, mark = sw_arena_mark(run->keep);
        for (size_t i = 0; i < BATCH; i++) {
            size_t stove = i / EACH;
            if (i % EACH == 0) {
                (void)snprintf(names[stove], sizeof names[stove], "S-%06zu", first + done / EACH + stove);
                records[count] = (sw_log_record){.kind = sw_log_kind_find("serial"), .by = "ab"};
                records[count].values[0] = text(names[stove]);
                records[count++].values[1] = text("B-1");
            }
            fill_inspection(&records[count++], names[stove], i);
        }
        must(run, sw_log_add(run, log, records, count, NULL));
        sw_arena_rewind(run->keep, mark);
    }
}

static void time_histories(sw_run *run, const char *path, size_t stoves)
{
    double worst_s = 0, sum_s = 0;
    size_t found = 0;
    sw_random random = sw_random_seeded(1);
    for (size_t i = 0; i < LOOKS; i++) {
        char serial[24];
        sw_log *log = NULL;
        sw_log_records history;
        sw_log_options options = sw_log_defaults(SW_LOG_READ);
        (void)snprintf(serial, sizeof serial, "S-%06zu", sw_random_below(&random, stoves));
        double begun_s = sw_seconds();
        must(run, sw_log_open(run, path, &options, &log));
        must(run, sw_log_history(run, log, serial, &history));
        sw_log_close(log);
        double took_s = sw_seconds() - begun_s;
        worst_s = took_s > worst_s ? took_s : worst_s;
        sum_s += took_s;
        found = history.count;
    }
    printf(
        "history of a serial, opening and closing the file with it: mean %.2f ms, worst of %d %.2f ms (%zu records)\n",
        1000 * sum_s / LOOKS, LOOKS, 1000 * worst_s, found);
}

static void remove_all(const char *path)
{
    static const char *const ends[] = {"", "-wal", "-shm"};
    char name[512];
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        (void)snprintf(name, sizeof name, "%s%s", path, ends[i]);
        (void)unlink(name);
    }
}

int main(int argc, char **argv)
{
    const char *path = argc > 1 ? argv[1] : "bench.log";
    size_t wanted = argc > 2 ? (size_t)strtoul(argv[2], NULL, 10) : 1000000;
    static const char *const design[] = {"name=A", "part=stove", "text=x", "by=ab"};
    static const char *const batch[] = {"name=B-1", "design=A", "stoves=10000", "by=ab"};
    sw_run run;
    sw_log *log = NULL;
    sw_log_options options = sw_log_defaults(SW_LOG_CREATE);
    if (sw_run_open(&run, (size_t)1 << 30) != SW_OK) return 1;
    must(&run, sw_log_open(&run, path, &options, &log));
    add_words(&run, log, "design", design, 4);
    add_words(&run, log, "batch", batch, 4);
    double begun_s = sw_seconds();
    fill(&run, log, 0, INSPECTIONS);
    printf("%d inspections and their stoves, %d in a transaction: %.2f s\n", INSPECTIONS, BATCH,
           sw_seconds() - begun_s);
    size_t more = wanted > INSPECTIONS ? wanted - INSPECTIONS : 0;
    fill(&run, log, INSPECTIONS / EACH, more);
    printf("%zu records: %.2f s in all\n", INSPECTIONS + more, sw_seconds() - begun_s);
    time_histories(&run, path, (INSPECTIONS + more) / EACH);
    sw_log_close(log);
    remove_all(path);
    sw_run_close(&run);
    return 0;
}
