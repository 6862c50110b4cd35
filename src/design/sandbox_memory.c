/* sandbox_memory.c: the memory of one Lua state, counted and given back whole.
 *
 * Small objects come from chunks, cut to multiples of GRAIN and kept in a list of their size once Lua gives them up;
 * large ones are the system's, in one ring. Lua's own count is kept to the byte: what is held, and what was ever asked
 * for (so that a loop joining long texts ends too). Chunks together may take twice the ceiling, since sizes are rounded
 * up and a freed size serves only its like. */
#include "design/sandbox_parts.h"

#include <stdlib.h>
#include <string.h>

enum { FIRST_CHUNK = 1 << 16, LARGEST_CHUNK = 1 << 20, TRAFFIC_FACTOR = 32 };

struct sandbox_chunk {
    sandbox_chunk *older;
    _Alignas(SANDBOX_GRAIN) unsigned char data[];
};

struct sandbox_large {
    sandbox_large *before, *after;
    _Alignas(SANDBOX_GRAIN) unsigned char data[];
};

struct sandbox_free {
    sandbox_free *next;
};

void sandbox_memory_open(sandbox_memory *m, size_t most_bytes)
{
    *m = (sandbox_memory){.most = most_bytes, .most_traffic = (double)most_bytes * TRAFFIC_FACTOR};
}

void sandbox_memory_close(sandbox_memory *m)
{
    for (sandbox_chunk *c = m->chunks, *older; c != NULL; c = older) {
        older = c->older;
        free(c);
    }
    for (sandbox_large *l = m->large, *after; l != NULL; l = after) {
        after = l->after;
        free(l);
    }
    *m = (sandbox_memory){0};
}

/* ---- small ---- */

static size_t class_of(size_t size)
{
    return (size - 1) / SANDBOX_GRAIN;
}

static bool new_chunk(sandbox_memory *m)
{
    size_t size = m->in_chunks < FIRST_CHUNK ? FIRST_CHUNK : m->in_chunks;
    if (size > LARGEST_CHUNK) size = LARGEST_CHUNK;
    if (size > 2 * m->most - m->in_chunks) return false;
    sandbox_chunk *c = malloc(sizeof *c + size);
    if (c == NULL) return false;
    c->older = m->chunks;
    m->chunks = c;
    m->in_chunks += size;
    m->at = c->data;
    m->end = c->data + size;
    return true;
}

static void *take_small(sandbox_memory *m, size_t size)
{
    size_t class = class_of(size), rounded = (class + 1) * SANDBOX_GRAIN;
    sandbox_free *found = m->free[class];
    if (found != NULL) {
        m->free[class] = found->next;
        return found;
    }
    if (rounded > (size_t)(m->end - m->at) && !new_chunk(m)) return NULL; /* the rest of the old one is lost */
    void *taken = m->at;
    m->at += rounded;
    return taken;
}

static void give_small(sandbox_memory *m, void *block, size_t size)
{
    sandbox_free *given = block;
    given->next = m->free[class_of(size)];
    m->free[class_of(size)] = given;
}

/* ---- large ---- */

static sandbox_large *large_of(void *block)
{
    return (sandbox_large *)((unsigned char *)block - offsetof(sandbox_large, data));
}

static void *link_large(sandbox_memory *m, sandbox_large *l)
{
    l->before = NULL;
    l->after = m->large;
    if (l->after != NULL) l->after->before = l;
    m->large = l;
    return l->data;
}

static void unlink_large(sandbox_memory *m, sandbox_large *l)
{
    if (l->after != NULL) l->after->before = l->before;
    if (l->before != NULL)
        l->before->after = l->after;
    else
        m->large = l->after;
}

/* ---- either ---- */

static void *take(sandbox_memory *m, size_t size)
{
    if (size <= SANDBOX_SMALL) return take_small(m, size);
    sandbox_large *l = malloc(sizeof *l + size);
    return l == NULL ? NULL : link_large(m, l);
}

static void give(sandbox_memory *m, void *block, size_t size)
{
    if (size <= SANDBOX_SMALL) {
        give_small(m, block, size);
        return;
    }
    unlink_large(m, large_of(block));
    free(large_of(block));
}

static void *resize_large(sandbox_memory *m, void *block, size_t size)
{
    sandbox_large *old = large_of(block);
    unlink_large(m, old);
    sandbox_large *moved = realloc(old, sizeof *moved + size);
    if (moved != NULL) return link_large(m, moved);
    (void)link_large(m, old);
    return NULL;
}

static void *resize(sandbox_memory *m, void *block, size_t old_size, size_t size)
{
    bool was_small = old_size <= SANDBOX_SMALL, small = size <= SANDBOX_SMALL;
    if (was_small && small && class_of(old_size) == class_of(size)) return block;
    if (!was_small && !small) return resize_large(m, block, size);
    void *moved = take(m, size);
    if (moved == NULL) return NULL;
    memcpy(moved, block, old_size < size ? old_size : size);
    give(m, block, old_size);
    return moved;
}

static bool refused(const sandbox_memory *m, size_t more)
{
    return more > m->most - m->used || m->traffic + (double)more > m->most_traffic;
}

void *sandbox_allocate(void *context, void *block, size_t old_size, size_t size)
{
    sandbox_memory *m = context;
    if (block == NULL) old_size = 0; /* Lua passes a kind of object there */
    if (size == 0) {
        if (block != NULL) give(m, block, old_size);
        m->used -= old_size;
        return NULL;
    }
    if (size > old_size && refused(m, size - old_size)) return NULL;
    void *moved = block == NULL ? take(m, size) : resize(m, block, old_size, size);
    if (moved == NULL) return NULL;
    m->used = m->used - old_size + size;
    if (size > old_size) m->traffic += (double)(size - old_size);
    return moved;
}
