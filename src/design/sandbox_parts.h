/* sandbox_parts.h: the memory of one Lua state, for sandbox.c and sandbox_memory.c only. */
#ifndef SW_DESIGN_SANDBOX_PARTS_H
#define SW_DESIGN_SANDBOX_PARTS_H

#include <stdbool.h>
#include <stddef.h>

enum { SANDBOX_GRAIN = 16, SANDBOX_SMALL = 512 }; /* bytes: step of the small sizes, largest of them */

typedef struct sandbox_chunk sandbox_chunk;
typedef struct sandbox_large sandbox_large;
typedef struct sandbox_free sandbox_free;

typedef struct sandbox_memory {
    size_t used, most;            /* bytes Lua holds; may hold */
    double traffic, most_traffic; /* bytes it ever asked for; may ask for */
    unsigned char *at, *end;      /* what is left of the newest chunk */
    size_t in_chunks;
    sandbox_chunk *chunks;
    sandbox_large *large;
    sandbox_free *free[SANDBOX_SMALL / SANDBOX_GRAIN]; /* by size */
} sandbox_memory;

void sandbox_memory_open(sandbox_memory *m, size_t most_bytes);
/* Gives back everything at once: the state needs no lua_close, as nothing in it can have a finaliser. */
void sandbox_memory_close(sandbox_memory *m);
/* As lua_Alloc; context: the sandbox_memory. NULL above its bounds. */
void *sandbox_allocate(void *context, void *block, size_t old_size, size_t size);

#endif
