#include "sw_test.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static FILE *record;

static void fail_line(sw_test *t, const char *file, int line)
{
    t->failures++;
    printf("  %s:%d: in %s", file, line, t->name);
    if (t->seed != 0) printf(" (seed %llu)", (unsigned long long)t->seed);
    printf("\n");
}

bool sw_near_at(sw_test *t, const char *what, double got, double want, double tolerance, const char *source,
                const char *file, int line)
{
    bool holds = fabs(got - want) <= tolerance;
    if (record != NULL && t->seed == 0)
        (void)fprintf(record, "%s\t%s\t%.10g\t%.10g\t%.3g\t%s\n", t->name, what, want, got, tolerance, source);
    if (holds) return true;
    fail_line(t, file, line);
    printf("    %s: got %.12g, want %.12g within %.3g (%s)\n", what, got, want, tolerance, source);
    return false;
}

bool sw_true_at(sw_test *t, bool holds, const char *what, const char *file, int line)
{
    if (holds) return true;
    fail_line(t, file, line);
    printf("    not so: %s\n", what);
    return false;
}

bool sw_same_text_at(sw_test *t, const char *got, const char *want, const char *file, int line)
{
    if (got != NULL && strcmp(got, want) == 0) return true;
    fail_line(t, file, line);
    printf("    got  \"%s\"\n    want \"%s\"\n", got == NULL ? "(null)" : got, want);
    return false;
}

bool sw_contains_at(sw_test *t, const char *text, const char *part, const char *file, int line)
{
    if (text != NULL && strstr(text, part) != NULL) return true;
    fail_line(t, file, line);
    printf("    \"%.2000s\"\n    does not contain \"%s\"\n", text == NULL ? "(null)" : text, part);
    return false;
}

bool sw_ok_at(sw_test *t, sw_status status, const char *what, const char *file, int line)
{
    if (status == SW_OK) return true;
    fail_line(t, file, line);
    printf("    %s: %s\n", what, sw_status_name(status));
    for (size_t i = 0; i < t->run.error_count && i < SW_ERROR_MAX; i++) {
        const sw_error *e = &t->run.errors[i];
        printf("    %s:%d: %s: %s\n", e->place.file == NULL ? "" : e->place.file, e->place.line, e->field, e->text);
    }
    return false;
}

static bool run_case(const sw_test_case *c)
{
    sw_test t = {.name = c->name};
    if (sw_run_open(&t.run, (size_t)1 << 30) != SW_OK) {
        printf("FAILED %s: no memory for the run\n", c->name);
        return false;
    }
    t.run.threads = 2;
    c->body(&t);
    sw_run_close(&t.run);
    printf("%s %s\n", t.failures == 0 ? "  ok  " : "FAILED", c->name);
    return t.failures == 0;
}

int sw_test_main(const sw_test_case *cases, size_t count, int argc, char **argv)
{
    const char *only = NULL;
    for (int i = 1; i + 1 < argc; i += 2) {
        if (strcmp(argv[i], "--record") == 0) record = fopen(argv[i + 1], "w");
        if (strcmp(argv[i], "--only") == 0) only = argv[i + 1];
    }
    size_t passed = 0, failed = 0;
    for (size_t i = 0; i < count; i++) {
        if (only != NULL && strstr(cases[i].name, only) == NULL) continue;
        if (run_case(&cases[i]))
            passed++;
        else
            failed++;
        (void)fflush(stdout);
    }
    if (record != NULL) (void)fclose(record);
    printf("%zu passed, %zu failed\n", passed, failed);
    return failed == 0 ? 0 : 1;
}
