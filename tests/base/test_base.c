#include "sw_test.h"

#include <fcntl.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static void arena_gives_zeroed_aligned_memory_and_takes_it_back(sw_test *t)
{
    sw_arena *arena = t->run.scratch;
    size_t start = sw_arena_mark(arena);
    for (int round = 0; round < 3; round++) {
        for (size_t i = 1; i < 2000; i += 37) {
            unsigned char *p = sw_arena_take(arena, i, 3);
            if (!sw_true(t, p != NULL && (uintptr_t)p % 16 == 0)) return;
            for (size_t k = 0; k < 3 * i; k++)
                if (!sw_true(t, p[k] == 0)) return;
            memset(p, 0xAA, 3 * i);
        }
        sw_arena_rewind(arena, start);
        sw_true(t, sw_arena_mark(arena) == start);
    }
}

static void arena_refuses_above_its_ceiling_and_on_overflow(sw_test *t)
{
    sw_arena *arena = sw_arena_open(100000);
    sw_true(t, sw_arena_take(arena, 1, 200000) == NULL);
    sw_true(t, sw_arena_take(arena, SIZE_MAX / 2, 3) == NULL);
    sw_true(t, sw_arena_take(arena, 1, 1000) != NULL);
    sw_arena_close(arena);
}

static void arena_refuses_the_nth_request_when_told_so(sw_test *t)
{
    sw_arena_fail_at(t->run.keep, 3);
    sw_true(t, sw_keep(&t->run, 1, 8) != NULL);
    sw_true(t, sw_keep(&t->run, 1, 8) != NULL);
    sw_true(t, sw_keep(&t->run, 1, 8) == NULL);
    sw_true(t, t->run.error_count == 1 && t->run.errors[0].status == SW_NO_MEMORY);
    sw_true(t, sw_keep(&t->run, 1, 8) != NULL);
}

static void growing_array_keeps_its_items(sw_test *t)
{
    int *items = NULL;
    size_t room = 0;
    for (size_t i = 0; i < 1000; i++) {
        items = sw_grow(&t->run, t->run.scratch, items, i, &room, sizeof *items);
        items[i] = (int)i;
    }
    for (size_t i = 0; i < 1000; i++)
        if (!sw_true(t, items[i] == (int)i)) return;
}

static void errors_beyond_the_list_are_counted(sw_test *t)
{
    for (int i = 0; i < SW_ERROR_MAX + 5; i++)
        (void)sw_fail(&t->run, SW_BAD_INPUT, (sw_place){"x.lua", i, 1}, "field", "fault %d", i);
    sw_true(t, t->run.error_count == SW_ERROR_MAX + 5);
    sw_same_text(t, t->run.errors[7].text, "fault 7");
}

static void nearest_name_is_found_by_edit_distance(sw_test *t)
{
    const char *names[] = {"length", "width", "thickness"};
    sw_same_text(t, sw_text_nearest("lenght", names, 3), "length");
    sw_true(t, sw_text_nearest("colour", names, 3) == NULL);
    sw_near(t, sw_text_distance("kitten", "sitting"), 3, 0, "Levenshtein distance, textbook example, from memory");
}

static void a_message_holds_no_part_of_a_letter(sw_test *t)
{
    (void)sw_fail(&t->run, SW_BAD_INPUT, (sw_place){0}, "", "\"%.4s\" \xFF and \xE2\x82\xAC", "aaa\xC3\xA4");
    sw_same_text(t, t->run.errors[0].text, "\"aaa\"  and \xE2\x82\xAC");
    sw_run_clear_errors(&t->run);
}

static void a_text_is_cut_between_letters(sw_test *t)
{
    static const char text[] = "a\xC3\xA4\xE2\x82\xAC\xF0\x9F\x94\xA5z"; /* of 1, 2, 3, 4 and 1 bytes */
    static const size_t cuts[] = {0, 1, 1, 3, 3, 3, 6, 6, 6, 6, 10, 11, 11};
    for (size_t most = 0; most < sizeof cuts / sizeof *cuts; most++)
        sw_true(t, sw_text_cut(text, sizeof text - 1, most) == cuts[most]);
    sw_true(t, sw_text_cut("\x80\x80\x80\x80\x80\x80", 6, 5) == 5); /* no UTF-8 */
}

static void utf8_is_judged_by_rfc_3629(sw_test *t)
{
    sw_true(t, sw_text_is_utf8("grate \xC3\xB8 12", 11));
    sw_true(t, !sw_text_is_utf8("\xC0\xAF", 2));         /* overlong */
    sw_true(t, !sw_text_is_utf8("\xED\xA0\x80", 3));     /* surrogate */
    sw_true(t, !sw_text_is_utf8("\xF4\x90\x80\x80", 4)); /* above U+10FFFF */
    sw_true(t, !sw_text_is_utf8("\xE2\x82", 2));         /* cut short */
}

typedef struct choice {
    double web_mm, budget_s;
} choice;
static const sw_option choices[] = {
    SW_OPTION(choice, web_mm, "mm", 4, 0, 50, "least gap", "ours"),
    SW_OPTION(choice, budget_s, "s", 2, 0, 60, "time", "ours"),
};

static void options_fill_and_refuse_values_outside_their_range(sw_test *t)
{
    choice c;
    sw_options_fill(choices, 2, &c);
    sw_near(t, c.web_mm, 4, 0, "its own table");
    sw_ok(t, sw_options_check(&t->run, choices, 2, &c));
    c.web_mm = NAN;
    c.budget_s = 61;
    sw_true(t, sw_options_check(&t->run, choices, 2, &c) == SW_OUT_OF_RANGE);
    sw_true(t, t->run.error_count == 2);
    sw_same_text(t, t->run.errors[1].field, "budget_s");
}

/* The state 1, 2, 3, 4 gives 11520, 0, 1509978240, 1215971899390074240 (the Rust rand_xoshiro crate's reference vector,
 * made with the authors' C code; from memory). */
static void random_numbers_match_the_authors_first_outputs(sw_test *t)
{
    sw_random r = {{1, 2, 3, 4}};
    const uint64_t want[] = {11520, 0, 1509978240, 1215971899390074240};
    for (int i = 0; i < 4; i++) sw_true(t, sw_random_next(&r) == want[i]);
}

static void random_units_are_even(sw_test *t)
{
    sw_random r = sw_random_seeded(7);
    double sum = 0;
    for (int i = 0; i < 100000; i++) sum += sw_random_unit(&r);
    sw_near(t, sum / 100000, 0.5, 0.004, "derived: mean of the uniform law, 4 standard errors");
    for (int i = 0; i < 1000; i++) sw_true(t, sw_random_below(&r, 7) < 7);
}

static void writer_to_memory_gives_back_what_went_in(sw_test *t)
{
    sw_writer *w = NULL;
    const char *text = NULL;
    size_t length = 0;
    sw_ok(t, sw_writer_to_memory(&t->run, &w));
    for (int i = 0; i < 20000; i++) sw_print(w, "%d,%600d\n", i, i);
    sw_ok(t, sw_writer_take(&t->run, w, &text, &length));
    sw_true(t, strncmp(text, "0,", 2) == 0 && length == strlen(text) && length > 12000000);
}

static const char *temporary(sw_test *t, const char *name)
{
    const char *base = getenv("TMPDIR");
    return sw_text_format(&t->run, t->run.keep, "%s/swt-%ld-%s", base == NULL ? "/tmp" : base, (long)getpid(), name);
}

static void file_is_written_whole_and_read_back(sw_test *t)
{
    const char *path = temporary(t, "file"), *bytes = NULL;
    size_t length = 0;
    sw_writer *w = NULL;
    sw_ok(t, sw_writer_to_file(&t->run, path, &w));
    sw_write(w, "a\0b", 3);
    sw_true(t, access(path, F_OK) != 0); /* not there before close */
    sw_ok(t, sw_writer_close(&t->run, w));
    sw_ok(t, sw_file_read(&t->run, path, 100, &bytes, &length));
    sw_true(t, length == 3 && memcmp(bytes, "a\0b", 4) == 0);
    sw_true(t, sw_file_read(&t->run, path, 2, &bytes, &length) == SW_OUT_OF_RANGE);
    (void)unlink(path);
    sw_true(t, sw_file_read(&t->run, path, 100, &bytes, &length) == SW_IO);
}

static void full_disk_is_reported_at_close(sw_test *t)
{
    int full = open("/dev/full", O_WRONLY);
    sw_writer *w = NULL;
    sw_ok(t, sw_writer_to_stream(&t->run, full, &w));
    sw_print(w, "something");
    sw_true(t, sw_writer_close(&t->run, w) == SW_IO);
    sw_contains(t, t->run.errors[0].text, "No space left");
    (void)close(full);
}

static void unwritable_place_is_reported_at_open(sw_test *t)
{
    sw_writer *w = NULL;
    sw_true(t, sw_writer_to_file(&t->run, "/nowhere/at/all", &w) == SW_IO && w == NULL);
    sw_contains(t, t->run.errors[0].text, "choose another place");
}

static void touch(const char *path)
{
    int d = open(path, O_CREAT | O_WRONLY, 0600);
    (void)close(d);
}

static void folder_appears_only_when_published(sw_test *t)
{
    const char *path = temporary(t, "folder");
    sw_folder folder = {0};
    sw_ok(t, sw_folder_open(&t->run, path, &folder));
    const char *sub = NULL;
    sw_ok(t, sw_folder_sub(&t->run, &folder, "flats", &sub));
    touch(sw_text_format(&t->run, t->run.keep, "%s/a.svg", sub));
    sw_true(t, access(path, F_OK) != 0);
    sw_ok(t, sw_folder_publish(&t->run, &folder));
    const char *inside = sw_text_format(&t->run, t->run.keep, "%s/flats/a.svg", path);
    sw_true(t, access(inside, F_OK) == 0);
    sw_ok(t, sw_folder_open(&t->run, path, &folder)); /* ours: may be replaced */
    sw_ok(t, sw_folder_publish(&t->run, &folder));
    sw_true(t, access(inside, F_OK) != 0);
    sw_ok(t, sw_folder_open(&t->run, path, &folder));
    const char *working = folder.working;
    sw_folder_discard(&folder);
    sw_true(t, access(working, F_OK) != 0 && access(path, F_OK) == 0);
    (void)unlink(sw_text_format(&t->run, t->run.keep, "%s/.stovewright", path));
    sw_true(t, rmdir(path) == 0);
}

static void folder_with_foreign_files_is_left_alone(sw_test *t)
{
    const char *path = temporary(t, "foreign");
    (void)mkdir(path, 0700);
    const char *file = sw_text_format(&t->run, t->run.keep, "%s/mine.txt", path);
    touch(file);
    sw_folder folder = {0};
    sw_true(t, sw_folder_open(&t->run, path, &folder) == SW_IO);
    sw_contains(t, t->run.errors[0].text, "left alone");
    sw_true(t, access(file, F_OK) == 0);
    (void)unlink(file);
    (void)rmdir(path);
}

static void add_own_index(void *context, size_t i)
{
    ((size_t *)context)[i] = i * i;
}

static void parallel_loop_visits_every_index_once(sw_test *t)
{
    size_t squares[1000] = {0};
    sw_parallel_for(2, 1000, add_own_index, squares);
    for (size_t i = 0; i < 1000; i++)
        if (!sw_true(t, squares[i] == i * i)) return;
}

static void every_status_has_its_words(sw_test *t)
{
    for (int s = 0; s < SW_STATUS_COUNT; s++) {
        sw_true(t, strlen(sw_status_name((sw_status)s)) > 0);
        sw_true(t, strlen(sw_status_text((sw_status)s)) > 0);
    }
    sw_same_text(t, sw_status_name(SW_OUT_OF_RANGE), "out_of_range");
}

SW_TESTS(SW_CASE(arena_gives_zeroed_aligned_memory_and_takes_it_back),
         SW_CASE(arena_refuses_above_its_ceiling_and_on_overflow), SW_CASE(arena_refuses_the_nth_request_when_told_so),
         SW_CASE(growing_array_keeps_its_items), SW_CASE(errors_beyond_the_list_are_counted),
         SW_CASE(nearest_name_is_found_by_edit_distance), SW_CASE(utf8_is_judged_by_rfc_3629),
         SW_CASE(a_text_is_cut_between_letters), SW_CASE(a_message_holds_no_part_of_a_letter),
         SW_CASE(options_fill_and_refuse_values_outside_their_range),
         SW_CASE(random_numbers_match_the_authors_first_outputs), SW_CASE(random_units_are_even),
         SW_CASE(writer_to_memory_gives_back_what_went_in), SW_CASE(file_is_written_whole_and_read_back),
         SW_CASE(full_disk_is_reported_at_close), SW_CASE(unwritable_place_is_reported_at_open),
         SW_CASE(folder_appears_only_when_published), SW_CASE(folder_with_foreign_files_is_left_alone),
         SW_CASE(parallel_loop_visits_every_index_once), SW_CASE(every_status_has_its_words))
