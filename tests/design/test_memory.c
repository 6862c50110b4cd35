/* The memory of a Lua state: counted to the byte, blocks keep what is in them, and nothing lies in anything else. */
#include "design/sandbox_parts.h"
#include "sw_test.h"

#include <string.h>

enum { BLOCKS = 200 };

typedef struct held {
    unsigned char *at;
    size_t size;
} held;

static bool filled_with(held h, size_t count, unsigned char mark)
{
    for (size_t i = 0; i < count; i++)
        if (h.at[i] != mark) return false;
    return true;
}

static void blocks_of_any_size_keep_their_bytes_and_are_counted(sw_test *t)
{
    static held blocks[BLOCKS];
    sandbox_memory memory;
    sandbox_memory_open(&memory, (size_t)1 << 22);
    memset(blocks, 0, sizeof blocks);
    sw_random random = sw_random_seeded(11);
    size_t used = 0;
    for (int round = 0; round < 20000; round++) {
        size_t i = sw_random_below(&random, BLOCKS), most = sw_random_below(&random, 4) == 0 ? 5000 : 300;
        size_t size = sw_random_below(&random, most), kept = size < blocks[i].size ? size : blocks[i].size;
        unsigned char *moved = sandbox_allocate(&memory, blocks[i].at, blocks[i].size, size);
        used = used - blocks[i].size + size;
        blocks[i] = (held){moved, size};
        if (!sw_true(t, (moved != NULL) == (size > 0) && memory.used == used && (uintptr_t)moved % 16 == 0)) break;
        if (!sw_true(t, filled_with(blocks[i], kept, (unsigned char)i))) break;
        if (size > 0) memset(moved, (int)i, size);
    }
    for (size_t i = 0; i < BLOCKS; i++) sw_true(t, filled_with(blocks[i], blocks[i].size, (unsigned char)i));
    sandbox_memory_close(&memory);
}

static void nothing_is_given_above_the_ceiling(sw_test *t)
{
    sandbox_memory memory;
    sandbox_memory_open(&memory, 100000);
    void *large = sandbox_allocate(&memory, NULL, 0, 99900);
    sw_true(t, large != NULL && sandbox_allocate(&memory, NULL, 0, 101) == NULL);
    sw_true(t, sandbox_allocate(&memory, large, 99900, 100001) == NULL && memory.used == 99900);
    sw_true(t, sandbox_allocate(&memory, NULL, 0, 100) != NULL && memory.used == 100000);
    sw_true(t, sandbox_allocate(&memory, large, 99900, 0) == NULL && memory.used == 100);
    sandbox_memory_close(&memory);
}

static void asking_again_and_again_comes_to_an_end(sw_test *t)
{
    sandbox_memory memory;
    sandbox_memory_open(&memory, 100000);
    int rounds = 0;
    for (void *p; rounds < 1000 && (p = sandbox_allocate(&memory, NULL, 0, 50000)) != NULL; rounds++)
        (void)sandbox_allocate(&memory, p, 50000, 0);
    sw_true(t, rounds == 64); /* 32 times the ceiling in all */
    sandbox_memory_close(&memory);
}

SW_TESTS(SW_CASE(blocks_of_any_size_keep_their_bytes_and_are_counted), SW_CASE(nothing_is_given_above_the_ceiling),
         SW_CASE(asking_again_and_again_comes_to_an_end))
