/* program.h: the program run through the shell, as a person or a script meets it, for tests of its words, exit codes and files. */
#ifndef TESTS_WHOLE_PROGRAM_H
#define TESTS_WHOLE_PROGRAM_H

#include "sw_test.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

enum { OUTCOME_MOST = 1 << 20 };

typedef struct outcome {
    int code;         /* exit code, or 128 + signal; -1: the shell could not be started */
    const char *text; /* what was printed, cut at 1 MiB */
} outcome;

/* A shell command, in the folder of the sources; what it says on standard error only where the command sends it to the output. */
static inline outcome shell(sw_test *t, const char *command)
{
    const char *there = sw_text_format(&t->run, t->run.keep, "cd '%s' && { %s\n}", SW_SOURCE_DIR, command);
    outcome o = {-1, ""};
    size_t mark = sw_arena_mark(t->run.scratch);
    char *text = SW_SCRATCH(&t->run, OUTCOME_MOST, char);
    FILE *pipe = there == NULL || text == NULL ? NULL : popen(there, "r");
    if (pipe != NULL) {
        text[fread(text, 1, OUTCOME_MOST - 1, pipe)] = '\0';
        int status = pclose(pipe);
        o.code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
        o.text = sw_text_copy(&t->run, t->run.keep, text);
    }
    sw_arena_rewind(t->run.scratch, mark);
    if (o.text == NULL) o = (outcome){-1, ""};
    sw_true(t, o.code >= 0);
    return o;
}

/* The program with these words; standard output and standard error together. */
static inline outcome said(sw_test *t, const char *words)
{
    return shell(t, sw_text_format(&t->run, t->run.keep, "'%s' %s 2>&1", SW_PROGRAM, words));
}

/* `what` was run and gave `o`. */
static inline bool ended(sw_test *t, const char *what, outcome o, int code, const char *part)
{
    if (o.code != code) printf("    %s -> exit %d, want %d\n    %.600s\n", what, o.code, code, o.text);
    bool as_wanted = sw_true(t, o.code == code);
    return sw_contains(t, o.text, part) && as_wanted;
}

static inline bool expect(sw_test *t, const char *words, int code, const char *part)
{
    return ended(t, words, said(t, words), code, part);
}

/* A new folder under TMPDIR. */
static inline const char *folder_made(sw_test *t)
{
    const char *where = getenv("TMPDIR");
    char *path = (char *)sw_text_format(&t->run, t->run.keep, "%s/sw-program-XXXXXX", where == NULL ? "/tmp" : where);
    return sw_true(t, path != NULL && mkdtemp(path) != NULL) ? path : "/tmp/sw-program-none";
}

static inline void clear_away(sw_test *t, const char *path)
{
    (void)shell(t, sw_text_format(&t->run, t->run.keep, "chmod -Rf u+w '%s'; rm -rf '%s'", path, path));
}

#endif
