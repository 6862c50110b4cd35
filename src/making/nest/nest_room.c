/* nest_room.c: room in growing arrays. */
#include "making/nest/nest_parts.h"

#include <string.h>

void *nest_room(sw_run *run, void *items, size_t wanted, size_t *room, size_t size)
{
    size_t least = wanted < 16 ? 16 : wanted, doubled = 2 * *room, next = least > doubled ? least : doubled;
    void *larger = sw_scratch(run, next, size);
    if (larger == NULL) return NULL;
    if (*room > 0) memcpy(larger, items, *room * size);
    *room = next;
    return larger;
}
