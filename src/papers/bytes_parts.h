/* bytes_parts.h: a growing run of bytes on the heap, for what is built in pieces and written at once (page contents,
 * packed pictures): arenas would move or rewind it. A refused request sticks in no_memory; later calls do nothing. */
#ifndef SW_PAPERS_BYTES_PARTS_H
#define SW_PAPERS_BYTES_PARTS_H

#include "base/base.h"

typedef struct byte_run {
    unsigned char *at; /* [used] */
    size_t used, room;
    bool no_memory;
} byte_run;

/* Makes room for `more` bytes behind the used ones; false when refused. */
bool bytes_reserve(byte_run *b, size_t more);
void bytes_put(byte_run *b, const void *data, size_t length);
void bytes_text(byte_run *b, const char *text);
void bytes_print(byte_run *b, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* A number in plain decimals, without trailing zeros; 0 for what is not finite. */
void bytes_number(byte_run *b, double value, int decimals);
void bytes_numbers(byte_run *b, const double *values, size_t count, int decimals); /* with a blank behind each */
void bytes_free(byte_run *b);

/* Room for one more in a growing array on the heap; NULL (and *no_memory) when refused, the old array stays. */
void *heap_grow(void *items, size_t count, size_t *room, size_t size, bool *no_memory);

#endif
