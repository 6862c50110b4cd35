/* Every description in the folder wrong/ is refused with the message its first line tells, at the line that ends in
 * "-- here" (none: no line). */
#include "reading.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>

#define FOLDER SW_SOURCE_DIR "/tests/design/wrong"

static int marked_line(const char *text)
{
    const char *mark = strstr(text, "-- here");
    int line = 1;
    if (mark == NULL) return 0;
    for (const char *p = text; p < mark; p++) line += *p == '\n';
    return line;
}

static sw_status read_wrong(sw_test *t, const char *name, const char *path)
{
    const sw_model *model = NULL;
    sw_design_input in = {0};
    if (strstr(name, ".stove.") != NULL) in.stove_path = path;
    if (strstr(name, ".works.") != NULL) in.works_path = path;
    if (strstr(name, ".house.") != NULL) in.house_path = path;
    sw_design_options few = sw_design_options_defaults();
    few.steps = 1e5;
    in.options = &few;
    sw_run_clear_errors(&t->run);
    sw_status status = sw_design_read(&t->run, &in, &model);
    sw_true(t, model == NULL);
    return status;
}

static bool has_error(const sw_run *run, const char *part, int line)
{
    for (size_t i = 0; i < run->error_count && i < SW_ERROR_MAX; i++)
        if (strstr(run->errors[i].text, part) != NULL && run->errors[i].place.line == line &&
            run->errors[i].status != SW_INTERNAL)
            return true;
    return false;
}

static void check_file(sw_test *t, const char *name)
{
    static const char start[] = "-- expect: ";
    const char *path = sw_text_format(&t->run, t->run.keep, "%s/%s", FOLDER, name), *bytes;
    size_t length;
    if (!sw_ok(t, sw_file_read(&t->run, path, 100000, &bytes, &length))) return;
    if (!sw_true(t, strncmp(bytes, start, sizeof start - 1) == 0)) return;
    const char *end = strchr(bytes, '\n');
    const char *part = sw_text_format(&t->run, t->run.keep, "%.*s", (int)(end - bytes - (long)sizeof start + 1),
                                      bytes + sizeof start - 1);
    sw_status status = read_wrong(t, name, path);
    bool good = sw_true(t, status == SW_BAD_INPUT) & sw_true(t, has_error(&t->run, part, marked_line(bytes)));
    if (good && sw_true(t, t->run.error_count <= 3)) return;
    printf("    in %s (%zu errors), line %d, \"%s\"\n", name, t->run.error_count, marked_line(bytes), part);
    for (size_t i = 0; i < t->run.error_count && i < 5; i++)
        printf("      %d: %s: %s\n", t->run.errors[i].place.line, t->run.errors[i].field, t->run.errors[i].text);
}

static void every_wrong_description_is_refused_with_its_message_and_line(sw_test *t)
{
    DIR *folder = opendir(FOLDER);
    if (!sw_true(t, folder != NULL)) return;
    size_t count = 0;
    for (const struct dirent *entry = readdir(folder); entry != NULL; entry = readdir(folder)) {
        if (strstr(entry->d_name, ".lua") == NULL) continue;
        check_file(t, entry->d_name);
        count++;
    }
    (void)closedir(folder);
    sw_true(t, count >= 45);
}

SW_TESTS(SW_CASE(every_wrong_description_is_refused_with_its_message_and_line))
