/* The file of the log: what happens to it when disk, rights, other processes, older and newer programs or chance go against it. */
#include "log_help.h"

#include <fcntl.h>
#include <signal.h>
#include <sqlite3.h>
#include <stdio.h>
#include <sys/resource.h>
#include <sys/wait.h>

static const char *bytes_of(sw_test *t, const char *path, size_t *length)
{
    const char *bytes = NULL;
    sw_ok(t, sw_file_read(&t->run, path, (size_t)1 << 28, &bytes, length));
    return bytes;
}

static void write_bytes(sw_test *t, const char *path, const char *bytes, size_t length)
{
    FILE *file = fopen(path, "wb");
    if (!sw_true(t, file != NULL)) return;
    sw_true(t, length == 0 || fwrite(bytes, 1, length, file) == length);
    sw_true(t, fclose(file) == 0);
}

static sw_status try_open(sw_test *t, const char *path, sw_log_mode mode)
{
    sw_log *log = NULL;
    sw_log_options options = sw_log_defaults(mode);
    options.wait_s = 0.05;
    sw_status status = sw_log_open(&t->run, path, &options, &log);
    sw_log_close(log);
    return status;
}

static bool is_sound(sw_test *t, sw_log *log)
{
    const char *const *faults = NULL;
    size_t count = 1;
    sw_ok(t, sw_log_check(&t->run, log, &faults, &count));
    return sw_true(t, count == 0);
}

/* Past the program, as only someone with the file can. */
static void meddle(sw_test *t, const char *path, const char *sql)
{
    sqlite3 *db = NULL;
    sw_true(t, sqlite3_open(path, &db) == SQLITE_OK);
    sw_true(t, sqlite3_exec(db, sql, NULL, NULL, NULL) == SQLITE_OK);
    (void)sqlite3_close(db);
}

/* What a check finds, which is so many faults; NULL when it is not. */
static const char *const *faults_of(sw_test *t, const char *path, size_t wanted)
{
    const char *const *faults = NULL;
    size_t count = 0;
    sw_log *log = open_as(t, path, SW_LOG_READ);
    sw_ok(t, sw_log_check(&t->run, log, &faults, &count));
    sw_log_close(log);
    return sw_true(t, count == wanted) ? faults : NULL;
}

static void a_file_that_is_not_there_is_made_only_on_request(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    refused(t, try_open(t, path, SW_LOG_READ), SW_IO, "is not there");
    refused(t, try_open(t, path, SW_LOG_WRITE), SW_IO, "is not there");
    sw_true(t, access(path, F_OK) != 0);
    sw_ok(t, try_open(t, path, SW_LOG_CREATE));
    refused(t, try_open(t, path, SW_LOG_CREATE), SW_IO, "is there already");
    sw_ok(t, try_open(t, path, SW_LOG_WRITE));
    remove_log(t, path);
}

static void what_is_no_log_is_left_untouched(sw_test *t)
{
    const char *path = new_path(t, "notes.txt");
    static const char text[] =
        "a letter to a customer, longer than the header of a database, which is one hundred bytes, "
        "so that it is not taken for a short file";
    size_t length = 0;
    write_bytes(t, path, text, sizeof text - 1);
    for (sw_log_mode mode = SW_LOG_READ; mode <= SW_LOG_CREATE; mode++)
        refused(t, try_open(t, path, mode), SW_IO, "is no log");
    sw_same_text(t, bytes_of(t, path, &length), text);
    write_bytes(t, path, "", 0);
    refused(t, try_open(t, path, SW_LOG_WRITE), SW_IO, "holds no log yet");
    sw_ok(t, try_open(t, path, SW_LOG_CREATE));
    remove_log(t, path);
}

static void another_programs_database_is_left_untouched(sw_test *t)
{
    const char *path = new_path(t, "other.db");
    meddle(t, path, "CREATE TABLE x(y); PRAGMA application_id=7");
    for (sw_log_mode mode = SW_LOG_READ; mode <= SW_LOG_CREATE; mode++)
        refused(t, try_open(t, path, mode), SW_IO, "another program's");
    remove_log(t, path);
}

static void a_newer_log_is_refused_and_left_untouched(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    size_t before = 0, after = 0;
    sw_log_close(new_log(t, path));
    meddle(t, path, "PRAGMA user_version=99");
    const char *first = bytes_of(t, path, &before);
    for (sw_log_mode mode = SW_LOG_READ; mode <= SW_LOG_CREATE; mode++)
        refused(t, try_open(t, path, mode), SW_OUT_OF_RANGE, "use the newer program");
    const char *then = bytes_of(t, path, &after);
    sw_true(t, before == after && memcmp(first, then, before) == 0);
    remove_log(t, path);
}

static void an_older_log_is_read_as_it_is_and_brought_up_to_date_for_writing(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_log *log = NULL;
    sw_log_options options = sw_log_defaults(SW_LOG_CREATE);
    options.version = 1;
    sw_ok(t, sw_log_open(&t->run, path, &options, &log));
    add_works(t, log);
    sw_ok(t, add_words(&t->run, log, "house name=H-1 flue=holds by=ab", NULL));
    sw_log_close(log);
    log = open_as(t, path, SW_LOG_READ);
    sw_true(t, sw_log_version(log) == 1 && count_of(t, log, "house", true) == 1);
    sw_log_close(log);
    log = open_as(t, path, SW_LOG_WRITE);
    sw_true(t, sw_log_version(log) == SW_LOG_VERSION && count_of(t, log, "house", true) == 1);
    sw_ok(t, add_words(&t->run, log, "house name=H-2 flue=holds reserve_pa=4 by=ab", NULL));
    is_sound(t, log);
    sw_log_close(log);
    remove_log(t, path);
}

static void a_locked_log_says_so_and_loses_nothing(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_log_close(new_log(t, path));
    sqlite3 *db = NULL;
    sw_true(t, sqlite3_open(path, &db) == SQLITE_OK);
    sw_true(t, sqlite3_exec(db, "BEGIN IMMEDIATE", NULL, NULL, NULL) == SQLITE_OK);
    sw_log_options options = sw_log_defaults(SW_LOG_WRITE);
    options.wait_s = 0.05;
    sw_log *log = NULL;
    sw_ok(t, sw_log_open(&t->run, path, &options, &log));
    refused(t, add_words(&t->run, log, "serial number=S-3 batch=B-7 by=ab", NULL), SW_IO, "another program holds it");
    sw_true(t, count_of(t, log, "serial", true) == 2);
    (void)sqlite3_exec(db, "ROLLBACK", NULL, NULL, NULL);
    (void)sqlite3_close(db);
    sw_ok(t, add_words(&t->run, log, "serial number=S-3 batch=B-7 by=ab", NULL));
    sw_log_close(log);
    remove_log(t, path);
}

/* Adds stoves until one is refused; gives how many were confirmed. */
static size_t add_until_refused(sw_run *run, sw_log *log, size_t most)
{
    for (size_t i = 0; i < most; i++) {
        const char *line = sw_text_format(run, run->keep, "serial number=N-%zu batch=B-7 by=ab note=%0200zu", i, i);
        if (add_words(run, log, line, NULL) != SW_OK) return i;
    }
    return most;
}

static void a_full_file_says_so_and_keeps_what_was_confirmed(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_log_close(new_log(t, path));
    sw_log_options options = sw_log_defaults(SW_LOG_WRITE);
    struct stat about;
    sw_log *log = NULL;
    sw_true(t, stat(path, &about) == 0);
    options.most_bytes = about.st_size + 65536;
    sw_ok(t, sw_log_open(&t->run, path, &options, &log));
    size_t confirmed = add_until_refused(&t->run, log, 5000);
    sw_true(t, confirmed > 10 && confirmed < 5000);
    if (sw_true(t, t->run.error_count == 1)) sw_contains(t, t->run.errors[0].text, "disk is full");
    sw_run_clear_errors(&t->run);
    sw_true(t, count_of(t, log, "serial", true) == confirmed + 2);
    is_sound(t, log);
    sw_log_close(log);
    remove_log(t, path);
}

/* The child's writes fail in the middle of the file, as on a full disk; it tells how many were confirmed. */
static size_t fill_in_child(sw_test *t, const char *path, size_t most_bytes, bool *clear)
{
    int ends[2];
    size_t told[2] = {0, 0};
    if (!sw_true(t, pipe(ends) == 0)) return 0;
    pid_t child = fork();
    if (child == 0) {
        struct rlimit limit = {most_bytes, most_bytes};
        sw_log *log = NULL;
        sw_log_options options = sw_log_defaults(SW_LOG_WRITE);
        (void)signal(SIGXFSZ, SIG_IGN);
        sw_status status = sw_log_open(&t->run, path, &options, &log);
        (void)setrlimit(RLIMIT_FSIZE, &limit);
        if (status == SW_OK) told[0] = add_until_refused(&t->run, log, 5000);
        told[1] = t->run.error_count == 1 && t->run.errors[0].status == SW_IO &&
                  strstr(t->run.errors[0].text, "recorded") != NULL;
        ssize_t n = write(ends[1], told, sizeof told);
        _exit(n == (ssize_t)sizeof told ? 0 : 1); /* no close: as if it died */
    }
    (void)close(ends[1]);
    sw_true(t, read(ends[0], told, sizeof told) == (ssize_t)sizeof told);
    (void)close(ends[0]);
    (void)waitpid(child, NULL, 0);
    *clear = told[1] != 0;
    return told[0];
}

static void a_full_disk_says_so_and_keeps_what_was_confirmed(sw_test *t)
{
    for (size_t i = 0; i < 6; i++) {
        const char *path = new_path(t, "works.log");
        bool clear = false;
        sw_log_close(new_log(t, path));
        size_t confirmed = fill_in_child(t, path, 40000 + 33333 * i, &clear);
        sw_true(t, clear && confirmed < 5000);
        sw_log *log = open_as(t, path, SW_LOG_WRITE);
        sw_true(t, count_of(t, log, "serial", true) == confirmed + 2);
        is_sound(t, log);
        sw_log_close(log);
        remove_log(t, path);
    }
}

static void a_read_only_log_is_read_and_refuses_records(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_log *log = new_log(t, path);
    sw_log_close(log);
    log = open_as(t, path, SW_LOG_READ);
    refused(t, add_words(&t->run, log, "serial number=S-3 batch=B-7 by=ab", NULL), SW_IO, "opened to be read");
    sw_log_close(log);
    remove_log(t, path);
}

/* As a user who may only read file and folder: 0 both as they should be, else which was not. */
static int judge_as_stranger(sw_test *t, const char *path)
{
    sw_log *log = NULL;
    sw_log_options options = sw_log_defaults(SW_LOG_READ);
    if (geteuid() == 0 && setuid(65534) != 0) return 0;
    if (sw_log_open(&t->run, path, &options, &log) != SW_OK) return 1;
    sw_log_records h;
    if (sw_log_history(&t->run, log, "S-1", &h) != SW_OK) return 2;
    sw_log_close(log);
    if (try_open(t, path, SW_LOG_WRITE) != SW_IO) return 3;
    return strstr(t->run.errors[0].text, "read-only") == NULL ? 4 : 0;
}

static void a_log_on_a_read_only_disk_is_read(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    char *folder = strdup(path);
    int code = 0;
    *strrchr(folder, '/') = '\0';
    sw_log_close(new_log(t, path));
    sw_true(t, chmod(path, 0444) == 0 && chmod(folder, 0555) == 0);
    pid_t child = fork();
    if (child == 0) _exit(judge_as_stranger(t, path));
    (void)waitpid(child, &code, 0);
    sw_true(t, WIFEXITED(code) && WEXITSTATUS(code) == 0);
    sw_true(t, chmod(folder, 0755) == 0);
    free(folder);
    remove_log(t, path);
}

/* Opening or checking says that something is wrong; neither may crash, nor may reading. */
static bool is_told(sw_test *t, const char *path)
{
    const char *const *faults = NULL;
    size_t count = 0;
    sw_log *log = NULL;
    sw_log_records h;
    sw_log_options options = sw_log_defaults(SW_LOG_READ);
    sw_status status = sw_log_open(&t->run, path, &options, &log);
    if (status == SW_OK) status = sw_log_check(&t->run, log, &faults, &count);
    sw_true(t, status == SW_OK || t->run.error_count > 0);
    if (log != NULL) (void)sw_log_history(&t->run, log, "S-1", &h);
    sw_log_close(log);
    sw_run_clear_errors(&t->run);
    return status != SW_OK || count > 0;
}

static void damage_anywhere_is_told_and_never_crashes(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_random random = sw_random_seeded(7);
    size_t length = 0, told = 0;
    sw_log *log = new_log(t, path);
    (void)add_until_refused(&t->run, log, 50);
    sw_log_close(log);
    const char *whole = bytes_of(t, path, &length);
    char *broken = malloc(length);
    for (size_t round = 0; round < 60 && broken != NULL; round++) {
        size_t at = 100 + sw_random_below(&random, length - 4800);
        memcpy(broken, whole, length);
        for (size_t i = 0; i < 4608; i++) broken[at + i] = (char)sw_random_next(&random);
        write_bytes(t, path, broken, length);
        told += is_told(t, path) ? 1 : 0;
    }
    sw_true(t, told == 60);                                         /* a page and more is hit: its head always */
    for (size_t cut = 0; cut + 4096 <= length; cut += length / 9) { /* a page at least is gone */
        write_bytes(t, path, whole, cut);
        sw_true(t, is_told(t, path));
    }
    free(broken);
    remove_log(t, path);
}

/* Zeros over the middle page: what a disk gives back that lost a block. Two sizes: read through on opening, and only measured. */
static void damage_is_told_on_opening_and_the_file_stays_as_it_was(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    size_t length = 0, after = 0;
    sw_log *log = new_log(t, path);
    (void)add_until_refused(&t->run, log, 50);
    sw_log_close(log);
    const char *whole = bytes_of(t, path, &length);
    char *broken = malloc(length);
    if (broken == NULL) return;
    memcpy(broken, whole, length);
    memset(broken + length / 8192 * 4096, 0, 4096);
    static const sw_log_mode modes[] = {SW_LOG_READ, SW_LOG_WRITE};
    for (size_t i = 0; i < sizeof modes / sizeof *modes; i++) {
        write_bytes(t, path, broken, length);
        refused(t, try_open(t, path, modes[i]), SW_IO, "is damaged");
        const char *left = bytes_of(t, path, &after);
        sw_true(t, after == length && memcmp(left, broken, length) == 0);
    }
    sw_log_options options = sw_log_defaults(SW_LOG_READ);
    options.look_most_bytes = 1; /* too large to be read through */
    write_bytes(t, path, whole, length - 8192);
    refused(t, sw_log_open(&t->run, path, &options, &log), SW_IO, "is damaged");
    write_bytes(t, path, whole, length);
    sw_ok(t, sw_log_open(&t->run, path, &options, &log));
    sw_log_close(log);
    free(broken);
    remove_log(t, path);
}

static void a_guard_of_names_that_is_gone_is_told(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_log_close(new_log(t, path));
    meddle(t, path, "DROP TRIGGER serial_name_no_DELETE; DROP TRIGGER serial_named");
    const char *const *faults = faults_of(t, path, 2);
    if (faults != NULL) {
        sw_contains(t, faults[0], "serial_named is missing");
        sw_contains(t, faults[1], "serial_name_no_DELETE is missing");
    }
    remove_log(t, path);
}

static void a_text_that_was_changed_behind_our_back_is_found(sw_test *t)
{
    const char *path = new_path(t, "works.log");
    sw_log_close(new_log(t, path));
    meddle(t, path, "DROP TRIGGER design_no_UPDATE; UPDATE design SET text='other'");
    const char *const *faults = faults_of(t, path, 1);
    if (faults != NULL) sw_contains(t, faults[0], "design_no_UPDATE is missing");
    meddle(t, path, "CREATE TRIGGER design_no_UPDATE BEFORE UPDATE ON design BEGIN SELECT 1; END");
    faults = faults_of(t, path, 1);
    if (faults != NULL) sw_contains(t, faults[0], "not the one that was hashed");
    remove_log(t, path);
}

static void a_backup_is_whole_and_overwrites_nothing(sw_test *t)
{
    const char *path = new_path(t, "works.log"), *copy = new_path(t, "copy.log");
    sw_log *log = new_log(t, path);
    sw_ok(t, sw_log_backup(&t->run, log, copy));
    refused(t, sw_log_backup(&t->run, log, copy), SW_IO, "is there already");
    refused(t, sw_log_backup(&t->run, log, "/nowhere/copy.log"), SW_IO, "cannot be written");
    sw_log_close(log);
    log = open_as(t, copy, SW_LOG_WRITE);
    sw_true(t, count_of(t, log, "serial", true) == 2);
    is_sound(t, log);
    sw_log_close(log);
    remove_log(t, path);
    remove_log(t, copy);
}

static void odd_names_of_files_are_only_names(sw_test *t)
{
    static const char *const names[] = {":memory:", "a b?mode=memory#c%41.log", "file:x.log"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        const char *path = new_path(t, names[i]);
        sw_log_close(new_log(t, path));
        sw_true(t, access(path, F_OK) == 0);
        sw_ok(t, try_open(t, path, SW_LOG_READ));
        remove_log(t, path);
    }
}

SW_TESTS(SW_CASE(a_file_that_is_not_there_is_made_only_on_request), SW_CASE(what_is_no_log_is_left_untouched),
         SW_CASE(another_programs_database_is_left_untouched), SW_CASE(a_newer_log_is_refused_and_left_untouched),
         SW_CASE(an_older_log_is_read_as_it_is_and_brought_up_to_date_for_writing),
         SW_CASE(a_locked_log_says_so_and_loses_nothing), SW_CASE(a_full_file_says_so_and_keeps_what_was_confirmed),
         SW_CASE(a_full_disk_says_so_and_keeps_what_was_confirmed),
         SW_CASE(a_read_only_log_is_read_and_refuses_records), SW_CASE(a_log_on_a_read_only_disk_is_read),
         SW_CASE(damage_anywhere_is_told_and_never_crashes),
         SW_CASE(damage_is_told_on_opening_and_the_file_stays_as_it_was),
         SW_CASE(a_guard_of_names_that_is_gone_is_told), SW_CASE(a_text_that_was_changed_behind_our_back_is_found),
         SW_CASE(a_backup_is_whole_and_overwrites_nothing), SW_CASE(odd_names_of_files_are_only_names))
