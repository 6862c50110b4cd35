/* motion_words.c: a line of a motion program into clean text, and that into words. */
#include "papers/motion_parts.h"

#include <math.h>
#include <string.h>

#define LARGEST_WORD 1e6 /* no coordinate or feed of a cutting table is larger (ours) */
enum { LONGEST_NUMBER = 32 };

/* ---- a line into clean text ---- */

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static void drop_number_word(motion_line *line)
{
    size_t digits = 1;
    if (line->text[0] != 'N' || !is_digit(line->text[1])) return;
    while (is_digit(line->text[digits])) digits++;
    line->length -= digits;
    memmove(line->text, line->text + digits, line->length + 1);
}

/* Digits, point, signs, capitals and what stands between them in ASCII: kept as they are. */
static bool is_kept(char c)
{
    return c >= '*' && c <= 'Z' && c != ';';
}

typedef enum judgement { KEPT, DROPPED, REFUSED } judgement;

/* Of the other signs, and all within comments. */
static judgement judge(char c, bool *comment, const char **why)
{
    if (c == '(' || c == ')') {
        *why = "a bracket of a comment has no partner";
        if (*comment == (c == '(')) return REFUSED;
        *comment = c == '(';
        return DROPPED;
    }
    *why = "a byte that is no text";
    if (c < ' ' && c != '\t' && c != '\r') return REFUSED;
    return *comment || c == ' ' || c == '\t' || c == '\r' ? DROPPED : KEPT;
}

bool motion_clean(const char *line, size_t length, motion_line *out, const char **why)
{
    size_t n = 0;
    bool comment = false;
    for (size_t i = 0; i < length && (line[i] != ';' || comment); i++) {
        char c = line[i];
        if (comment || !is_kept(c)) {
            judgement j = judge(c, &comment, why);
            if (j == REFUSED) return false;
            if (j == DROPPED) continue;
        }
        if (n + 1 >= MOTION_LINE) return *why = "the line is longer than 255 signs", false;
        out->text[n++] = c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : c;
    }
    out->text[n] = '\0';
    out->length = n;
    if (comment) return *why = "a comment is not closed", false;
    drop_number_word(out);
    return true;
}

bool motion_same(const motion_line *a, const motion_line *b)
{
    return a->length == b->length && memcmp(a->text, b->text, a->length) == 0;
}

/* ---- words ---- */

static bool add_code(int *codes, int *count, double value)
{
    int code = (int)value; /* no word is larger than LARGEST_WORD */
    if (code != value || code < 0 || *count >= MOTION_CODES) return false;
    codes[(*count)++] = code;
    return true;
}

static bool add_word(sw_run *run, sw_place place, motion_block *b, char letter, double value)
{
    uint32_t bit = 1u << (letter - 'A');
    if (letter == 'G' || letter == 'M') {
        bool taken = letter == 'G' ? add_code(b->g, &b->g_count, value) : add_code(b->m, &b->m_count, value);
        if (!taken)
            (void)sw_fail(run, SW_BAD_INPUT, place, "motion",
                          "%c%g is not understood; allowed are whole codes, at most %d a line", letter, value,
                          MOTION_CODES);
        return taken;
    }
    if ((b->given & bit) != 0) {
        (void)sw_fail(run, SW_BAD_INPUT, place, "motion", "%c stands twice in one line; give it once", letter);
        return false;
    }
    b->given |= bit;
    b->value[letter - 'A'] = value;
    return true;
}

static bool no_word(sw_run *run, sw_place place, const char *at)
{
    (void)sw_fail(run, SW_BAD_INPUT, place, "motion", "\"%.20s\" is no word; a word is a letter and a number up to %g",
                  at, LARGEST_WORD);
    return false;
}

bool motion_words(sw_run *run, sw_place place, const motion_line *line, motion_block *block)
{
    block->given = 0;
    block->g_count = block->m_count = 0;
    for (size_t at = 0; at < line->length;) {
        const char *word = line->text + at;
        double value = 0;
        if (*word < 'A' || *word > 'Z') return no_word(run, place, word);
        size_t taken = sw_number_read(word + 1, line->length - at - 1, &value);
        if (taken == 0 || taken >= LONGEST_NUMBER || !(fabs(value) <= LARGEST_WORD)) return no_word(run, place, word);
        if (!add_word(run, place, block, *word, value)) return false;
        at += 1 + taken;
    }
    return true;
}

/* ---- both at once, for plain lines ---- */

static const char *add_digits(const char *at, const char *end, uint64_t *digits)
{
    for (; at < end; at++) {
        unsigned digit = (unsigned)(unsigned char)*at - '0';
        if (digit > 9) break;
        *digits = *digits * 10 + digit;
    }
    return at;
}

/* Sign, digits, at most one point; gives the bytes taken, 0 where the general way must look. With 15 digits at most the
 * quotient is rounded once, hence correctly. */
static size_t plain_number(const char *text, const char *end, double *value)
{
    static const double tens[] = {1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
    enum { MOST_DIGITS = 15 };
    bool negative = text < end && *text == '-';
    const char *first = text + (negative ? 1 : 0);
    uint64_t digits = 0;
    const char *point = add_digits(first, end, &digits), *last = point;
    if (point < end && *point == '.') last = add_digits(point + 1, end, &digits);
    size_t after_point = last == point ? 0 : (size_t)(last - point - 1), count = (size_t)(point - first) + after_point;
    if (count == 0 || count > MOST_DIGITS) return 0;
    double size = (double)digits / tens[after_point];
    *value = negative ? -size : size;
    return size <= LARGEST_WORD ? (size_t)(last - text) : 0;
}

static bool plain_word(motion_block *b, char letter, double value)
{
    uint32_t bit = 1u << (letter - 'A');
    if (letter == 'G') return add_code(b->g, &b->g_count, value);
    if (letter == 'M') return add_code(b->m, &b->m_count, value);
    if (letter == 'N' || (b->given & bit) != 0) return false;
    b->given |= bit;
    b->value[letter - 'A'] = value;
    return true;
}

bool motion_plain(const char *line, size_t length, motion_block *block, size_t *signs)
{
    block->given = 0;
    block->g_count = block->m_count = 0;
    *signs = 0;
    for (const char *at = line, *end = line + length; at < end;) {
        char letter = *at++;
        double value = 0;
        if (letter == ' ') continue;
        if (letter < 'A' || letter > 'Z') return false;
        size_t taken = plain_number(at, end, &value);
        if (taken == 0 || !plain_word(block, letter, value)) return false;
        at += taken;
        *signs += 1 + taken;
    }
    return *signs > 0 && *signs < MOTION_LINE;
}
