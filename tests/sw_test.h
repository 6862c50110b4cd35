/* sw_test.h: the thin test harness. A test is a function named as a sentence; a file lists its tests with
 * SW_TESTS. Check values carry their published source; with --record FILE they are kept for docs/validation.md. */
#ifndef SW_TEST_H
#define SW_TEST_H

#include "base/base.h"

typedef struct sw_test {
    sw_run run; /* fresh arenas for every test, 1 GiB ceiling, 2 threads */
    const char *name;
    int failures;
    uint64_t seed; /* printed on failure when not 0 */
} sw_test;

typedef struct sw_test_case {
    const char *name;
    void (*body)(sw_test *t);
} sw_test_case;

/* Each gives whether it held, and reports the first failure with file and line. */
bool sw_near_at(sw_test *t, const char *what, double got, double want, double tolerance, const char *source,
                const char *file, int line);
bool sw_true_at(sw_test *t, bool holds, const char *what, const char *file, int line);
bool sw_same_text_at(sw_test *t, const char *got, const char *want, const char *file, int line);
bool sw_contains_at(sw_test *t, const char *text, const char *part, const char *file, int line);
bool sw_ok_at(sw_test *t, sw_status status, const char *what, const char *file, int line); /* prints run errors */

/* A number against a published (or derived) one; source: "DIN 6935:2011, ..." or "derived: ..." */
#define sw_near(t, got, want, tolerance, source) sw_near_at(t, #got, got, want, tolerance, source, __FILE__, __LINE__)
#define sw_true(t, condition)                    sw_true_at(t, condition, #condition, __FILE__, __LINE__)
#define sw_same_text(t, got, want)               sw_same_text_at(t, got, want, __FILE__, __LINE__)
#define sw_contains(t, text, part)               sw_contains_at(t, text, part, __FILE__, __LINE__)
#define sw_ok(t, call)                           sw_ok_at(t, call, #call, __FILE__, __LINE__)

int sw_test_main(const sw_test_case *cases, size_t count, int argc, char **argv); /* [--record FILE] [--only PART] */

#define SW_CASE(function)                                                                                              \
    {                                                                                                                  \
#function, function                                                                                            \
    }
#define SW_TESTS(...)                                                                                                  \
    int main(int argc, char **argv)                                                                                    \
    {                                                                                                                  \
        const sw_test_case cases[] = {__VA_ARGS__};                                                                    \
        return sw_test_main(cases, sizeof cases / sizeof *cases, argc, argv);                                          \
    }

#endif
