/* bytes_parts.h: a growing run of bytes on the heap, for what is built in pieces and written at once (page contents,
 * packed pictures): arenas would move or rewind it. A refused request sticks in no_memory; later calls do nothing. */
#ifndef SW_PAPERS_BYTES_PARTS_H
#define SW_PAPERS_BYTES_PARTS_H

#include "base/base.h"

#include <string.h>

typedef struct byte_run {
    unsigned char *at; /* [used] */
    size_t used, room;
    bool no_memory;
} byte_run;

bool bytes_grow(byte_run *b, size_t more);
/* Makes room for `more` bytes behind the used ones; false when refused. */
static inline bool bytes_reserve(byte_run *b, size_t more)
{
    return more <= b->room - b->used ? !b->no_memory : bytes_grow(b, more);
}
static inline void bytes_put(byte_run *b, const void *data, size_t length)
{
    if (length == 0 || !bytes_reserve(b, length)) return;
    memcpy(b->at + b->used, data, length);
    b->used += length;
}
static inline void bytes_text(byte_run *b, const char *text)
{
    bytes_put(b, text, strlen(text));
}
void bytes_count(byte_run *b, size_t count);             /* in decimals */
void bytes_hex(byte_run *b, uint32_t value, int digits); /* so many, the last ones; at most 8 */
void bytes_print(byte_run *b, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* A number in plain decimals, without trailing zeros; 0 for what is not finite. */
void bytes_number(byte_run *b, double value, int decimals);
void bytes_numbers(byte_run *b, const double *values, size_t count, int decimals); /* with blanks between them */
/* The whole number of thousandths with its three decimals; gives how many bytes. */
size_t bytes_thousandths(char out[SW_SCALED_ROOM], int64_t value);
void bytes_free(byte_run *b);

/* Room for one more in a growing array on the heap; NULL (and *no_memory) when refused, the old array stays. */
void *heap_grow(void *items, size_t count, size_t *room, size_t size, bool *no_memory);

#endif
