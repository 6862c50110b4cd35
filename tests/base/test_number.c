/* Numbers to text and back, against the C library's own. */
#include "base/base.h"
#include "sw_test.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static double random_value(sw_random *r)
{
    double size = pow(10, sw_random_between(r, -6, 13));
    double value = sw_random_between(r, -size, size);
    size_t kind = sw_random_below(r, 4);
    if (kind == 0) return floor(value);
    if (kind == 1) return floor(value) + 0.5; /* ties of no decimals */
    if (kind == 2) return round(value * 1e3) / 1e3;
    return value;
}

static bool fixed_like_printf(sw_test *t, double value, int decimals)
{
    char got[SW_NUMBER_ROOM + 1], want[SW_NUMBER_ROOM + 1];
    got[sw_number_fixed(got, value, decimals)] = '\0';
    (void)snprintf(want, sizeof want, "%.*f", decimals, value);
    bool nothing = want[0] == '-' && strspn(want + 1, "0.") == strlen(want + 1); /* "-0.00": no sign here */
    return sw_same_text(t, got, nothing ? want + 1 : want);
}

static void fixed_decimals_agree_with_printf_to_the_last_digit(sw_test *t)
{
    sw_random r = sw_random_seeded(11);
    for (int i = 0; i < 50000; i++) {
        double value = random_value(&r);
        if (!fixed_like_printf(t, value, (int)sw_random_below(&r, SW_MOST_DECIMALS + 1))) return;
    }
}

/* Multiples of 2^-k lie half way between decimals; printf rounds them to even. */
static void ties_go_to_the_even_digit(sw_test *t)
{
    for (int k = 1; k < 16; k++)
        for (int i = -300; i < 300; i++)
            if (!fixed_like_printf(t, ldexp(i, -k), k - 1)) return;
}

static void numbers_beyond_whole_doubles_are_left_to_printf(sw_test *t)
{
    const double values[] = {
        9007199254740991.0,   9007199254740992.0, -9007199254740993.0, 1.7976931348623157e308, 1e22,
        9.007199254740992e12, 9007.199254740991};
    for (size_t i = 0; i < sizeof values / sizeof *values; i++)
        for (int decimals = 0; decimals <= SW_MOST_DECIMALS; decimals += 3)
            if (!fixed_like_printf(t, values[i], decimals)) return;
    char text[SW_NUMBER_ROOM + 1];
    text[sw_number_fixed(text, INFINITY, 3)] = '\0';
    sw_same_text(t, text, "inf");
}

static void writer_takes_whole_scaled_and_trimmed_numbers(sw_test *t)
{
    sw_writer *w = NULL;
    const char *text = NULL;
    size_t length = 0;
    sw_ok(t, sw_writer_to_memory(&t->run, &w));
    sw_write_scaled(w, -1500, 3);
    sw_write_text(w, " ");
    sw_write_scaled(w, 7, 0);
    sw_write_text(w, " ");
    sw_write_scaled(w, INT64_MIN, 2);
    sw_write_text(w, " ");
    sw_write_trimmed(w, 12.5, 9);
    sw_write_text(w, " ");
    sw_write_trimmed(w, -1e-12, 9);
    sw_write_text(w, " ");
    sw_write_trimmed(w, 1200, 4);
    sw_write_text(w, " ");
    sw_write_fixed(w, -0.0625, 3);
    sw_ok(t, sw_writer_take(&t->run, w, &text, &length));
    sw_same_text(t, text, "-1.500 7 -92233720368547758.08 12.5 0 1200 -0.062");
}

static bool read_like_strtod(sw_test *t, const char *text)
{
    double got = NAN;
    size_t taken = sw_number_read(text, strlen(text), &got);
    return sw_true(t, taken == strlen(text)) && sw_true(t, got == strtod(text, NULL));
}

static void decimals_are_read_correctly_rounded(sw_test *t)
{
    sw_random r = sw_random_seeded(12);
    char text[SW_NUMBER_ROOM];
    for (int i = 0; i < 50000; i++) {
        (void)snprintf(text, 60, "%.*f", (int)sw_random_below(&r, 30), random_value(&r));
        if (!read_like_strtod(t, text)) return;
    }
    const char *const more[] = {"9007199254740993",
                                ".5",
                                "5.",
                                "+7",
                                "-0",
                                "000000000000000000000000001.5",
                                "0.00000000000000000000000000000000001",
                                "18446744073709551617"};
    for (size_t i = 0; i < sizeof more / sizeof *more; i++) read_like_strtod(t, more[i]);
}

static void what_is_no_number_is_not_read(sw_test *t)
{
    const char *const none[] = {"",    "-",   ".",
                                "+.",  "e5",  "x",
                                "nan", "--1", "1111111111111111111111111111111111111111111111111111111111111111"};
    double value = 0;
    for (size_t i = 0; i < sizeof none / sizeof *none; i++)
        sw_true(t, sw_number_read(none[i], strlen(none[i]), &value) == 0);
    sw_true(t, sw_number_read("1.5.2", 5, &value) == 3 && value == 1.5);
    sw_true(t, sw_number_read("0x10", 4, &value) == 1 && value == 0);
    sw_true(t, sw_number_read("12345", 2, &value) == 2 && value == 12);
}

SW_TESTS(SW_CASE(fixed_decimals_agree_with_printf_to_the_last_digit), SW_CASE(ties_go_to_the_even_digit),
         SW_CASE(numbers_beyond_whole_doubles_are_left_to_printf),
         SW_CASE(writer_takes_whole_scaled_and_trimmed_numbers), SW_CASE(decimals_are_read_correctly_rounded),
         SW_CASE(what_is_no_number_is_not_read))
