/* Every description in this folder is wrong in one way: as a stove that a study finds fault with, as a setting, or as
 * a program. Its first lines say what is typed (FILE stands for the file itself), the exit code, and words of the
 * answer:
 *     -- line: check FILE --works demo/demo.works.lua
 *     -- exit: 1
 *     -- says: run into each other */
#include "whole/program.h"

#include <dirent.h>

#define FOLDER "tests/whole/wrong"

enum { NAME_ROOM = 128, LINE_ROOM = 256, MOST_FILES = 200 };

typedef struct wrong {
    char line[LINE_ROOM], says[LINE_ROOM];
    int code;
} wrong;

static bool is_description(const char *name)
{
    size_t length = strlen(name);
    return length > 4 && length < NAME_ROOM && strcmp(name + length - 4, ".lua") == 0;
}

/* Copies what follows the label on this line of text; false when the line has another label. */
static bool take(const char *text, const char *label, char *out)
{
    if (strncmp(text, label, strlen(label)) != 0) return false;
    (void)snprintf(out, LINE_ROOM, "%s", text + strlen(label));
    out[strcspn(out, "\r\n")] = '\0';
    return true;
}

static bool read_head(sw_test *t, const char *name, wrong *w)
{
    char text[LINE_ROOM], code[LINE_ROOM] = "";
    FILE *file = fopen(sw_text_format(&t->run, t->run.keep, "%s/%s/%s", SW_SOURCE_DIR, FOLDER, name), "r");
    if (file == NULL) return false;
    *w = (wrong){.code = -1};
    for (int i = 0; i < 3 && fgets(text, sizeof text, file) != NULL; i++)
        if (!take(text, "-- line: ", w->line) && !take(text, "-- exit: ", code)) (void)take(text, "-- says: ", w->says);
    (void)fclose(file);
    w->code = code[0] == '\0' ? -1 : (int)strtol(code, NULL, 10);
    return w->line[0] != '\0' && w->says[0] != '\0' && w->code >= 0;
}

/* The line with every FILE replaced. */
static void write_words(const wrong *w, const char *name, char *out, size_t room)
{
    size_t n = 0;
    for (const char *p = w->line; *p != '\0' && n + NAME_ROOM + 32 < room;) {
        bool file = strncmp(p, "FILE", 4) == 0;
        n +=
            (size_t)(file ? snprintf(out + n, room - n, "%s/%s", FOLDER, name) : snprintf(out + n, room - n, "%c", *p));
        p += file ? 4 : 1;
    }
}

static void try_one(sw_test *t, const char *name)
{
    wrong w;
    char words[2048] = "";
    if (!sw_true(t, read_head(t, name, &w))) {
        printf("    %s: lacks one of its three head lines\n", name);
        return;
    }
    write_words(&w, name, words, sizeof words);
    expect(t, words, w.code, w.says);
}

static void every_wrong_description_is_refused_in_words(sw_test *t)
{
    DIR *folder = opendir(SW_SOURCE_DIR "/" FOLDER);
    size_t count = 0;
    if (sw_true(t, folder != NULL)) {
        for (const struct dirent *e = readdir(folder); e != NULL && count < MOST_FILES; e = readdir(folder)) {
            if (!is_description(e->d_name)) continue;
            try_one(t, e->d_name);
            count++;
        }
        sw_true(t, count >= 20);
    }
    if (folder != NULL) (void)closedir(folder);
}

SW_TESTS(SW_CASE(every_wrong_description_is_refused_in_words))
