/* arena.c: memory in growing blocks, given back together.
 *
 * Invariant: `used` is the sum of what was handed out from all blocks of the chain, padding included, and
 * equals block->before + block->used of the newest block. A mark is such a sum; rewinding drops newer blocks.
 * Memory is cleared a stretch ahead of what is taken: data[used .. cleared) of the newest block is zero. */
#include "base/beside.h"

#include <stdlib.h>
#include <string.h>

enum { ALIGN = 16, FIRST_BLOCK = 1 << 16, LARGEST_STEP = 1 << 24, CLEARED_AHEAD = 512 };

typedef struct block {
    struct block *older;
    size_t size, used, before; /* bytes of data[]; handed out of it; handed out of all older blocks */
    size_t cleared;            /* at least used */
    _Alignas(ALIGN) unsigned char data[];
} block;

struct sw_arena {
    block *newest;
    size_t ceiling, held;  /* held: bytes of all blocks */
    size_t takes, fail_in; /* fail_in: requests until the one refused on purpose, 0 = never */
};

static block *new_block(sw_arena *arena, size_t least)
{
    size_t size = arena->newest == NULL ? FIRST_BLOCK : arena->newest->size * 2;
    if (size > LARGEST_STEP) size = LARGEST_STEP;
    if (size < least) size = least;
    if (size > arena->ceiling - arena->held) size = arena->ceiling - arena->held;
    if (size < least) return NULL;
    block *b = malloc(sizeof *b + size);
    if (b == NULL) return NULL;
    b->older = arena->newest;
    b->size = size;
    b->used = b->cleared = 0;
    b->before = b->older == NULL ? 0 : b->older->before + b->older->used;
    arena->newest = b;
    arena->held += size;
    return b;
}

sw_arena *sw_arena_open(size_t ceiling_bytes)
{
    sw_arena *arena = calloc(1, sizeof *arena);
    if (arena == NULL) return NULL;
    arena->ceiling = ceiling_bytes;
    if (new_block(arena, ALIGN) == NULL) {
        free(arena);
        return NULL;
    }
    return arena;
}

void sw_arena_close(sw_arena *arena)
{
    if (arena == NULL) return;
    while (arena->newest != NULL) {
        block *older = arena->newest->older;
        free(arena->newest);
        arena->newest = older;
    }
    free(arena);
}

static bool refused_on_purpose(sw_arena *arena)
{
    arena->takes++;
    if (arena->fail_in == 0) return false;
    return --arena->fail_in == 0;
}

static void clear_ahead(block *b, size_t bytes)
{
    size_t ahead = bytes < b->size - b->used ? b->size - b->used - bytes : 0;
    size_t end = b->used + bytes + (ahead < CLEARED_AHEAD ? ahead : CLEARED_AHEAD);
    memset(b->data + b->cleared, 0, end - b->cleared);
    b->cleared = end;
}

/* Apart from the few instructions of most requests. Gives whether bytes can now be taken from the newest block. */
__attribute__((noinline)) static bool make_room(sw_arena *arena, size_t bytes)
{
    block *b = arena->newest;
    if (bytes > b->size - b->used) b = new_block(arena, bytes);
    if (b == NULL) return false;
    if (bytes > b->cleared - b->used) clear_ahead(b, bytes);
    return true;
}

void *sw_arena_take(sw_arena *arena, size_t count, size_t size)
{
    size_t bytes;
    if (refused_on_purpose(arena)) return NULL;
    if (__builtin_mul_overflow(count, size, &bytes) || bytes > SIZE_MAX - ALIGN) return NULL;
    bytes = bytes == 0 ? ALIGN : (bytes + ALIGN - 1) / ALIGN * ALIGN;
    if (bytes > arena->newest->cleared - arena->newest->used && !make_room(arena, bytes)) return NULL;
    block *b = arena->newest;
    void *taken = b->data + b->used;
    b->used += bytes;
    return taken;
}

size_t sw_arena_mark(const sw_arena *arena)
{
    return arena->newest->before + arena->newest->used;
}

void sw_arena_rewind(sw_arena *arena, size_t mark)
{
    SW_ASSERT(mark <= sw_arena_mark(arena));
    while (arena->newest->before > mark || (arena->newest->before == mark && arena->newest->older != NULL)) {
        block *gone = arena->newest;
        arena->newest = gone->older;
        arena->held -= gone->size;
        free(gone);
    }
    block *b = arena->newest;
    size_t used = mark - b->before;
    if (used < b->used) b->cleared = used; /* what was handed out may hold anything */
    b->used = used;
}

size_t sw_arena_room(const sw_arena *arena)
{
    return arena->ceiling - arena->held;
}

void sw_arena_adopt(sw_arena *into, sw_arena *from)
{
    size_t before = sw_arena_mark(into);
    block *oldest = from->newest;
    SW_ASSERT(from->held <= into->ceiling - into->held);
    for (block *b = from->newest; b != NULL; b = b->older) {
        b->before += before;
        oldest = b;
    }
    oldest->older = into->newest;
    into->newest = from->newest;
    into->held += from->held;
    into->takes += from->takes;
    free(from);
}

size_t sw_arena_bytes(const sw_arena *arena)
{
    return sw_arena_mark(arena);
}
size_t sw_arena_takes(const sw_arena *arena)
{
    return arena->takes;
}
void sw_arena_fail_at(sw_arena *arena, size_t nth)
{
    arena->fail_in = nth;
}
