/* motion_parts.h: lines of a motion program as clean text and as words. */
#ifndef SW_PAPERS_MOTION_PARTS_H
#define SW_PAPERS_MOTION_PARTS_H

#include "papers/papers.h"

enum { MOTION_LINE = 256, MOTION_CODES = 8 };

/* A line without blanks, comments and N word, in capitals. */
typedef struct motion_line {
    size_t length;
    char text[MOTION_LINE]; /* NUL at the end */
} motion_line;

/* False with a reason when a comment is open, the line too long or a byte no program has. */
bool motion_clean(const char *line, size_t length, motion_line *out, const char **why);
bool motion_same(const motion_line *a, const motion_line *b);

/* The words of one line. */
typedef struct motion_block {
    uint32_t given;   /* bit of a letter: 0 = A */
    double value[26]; /* by letter, set where given */
    int g[MOTION_CODES], m[MOTION_CODES];
    int g_count, m_count;
} motion_block;

/* False with the fault recorded at the place: no word, a letter twice, too many or broken codes. */
bool motion_words(sw_run *run, sw_place place, const motion_line *line, motion_block *block);
/* The words of a line that is nothing but words, none of them N, with blanks between them, and how many signs it has
 * without the blanks. False: look the general way, which also tells what is wrong. */
bool motion_plain(const char *line, size_t length, motion_block *block, size_t *signs);
static inline bool motion_has(const motion_block *block, char letter)
{
    return (block->given >> (letter - 'A') & 1u) != 0;
}
static inline double motion_word(const motion_block *block, char letter)
{
    return motion_has(block, letter) ? block->value[letter - 'A'] : 0;
}

#endif
