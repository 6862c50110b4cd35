/* watertight.h: whether a mesh is a closed surface. */
#ifndef SW_TESTS_WATERTIGHT_H
#define SW_TESTS_WATERTIGHT_H

#include "tree_maker.h"

#include "sw_test.h"

#include <stdlib.h>

static inline int compare_keys(const void *a, const void *b)
{
    uint64_t x = *(const uint64_t *)a, y = *(const uint64_t *)b;
    return (x > y) - (x < y);
}

/* Each directed edge once, and its reverse once: a closed surface, turned the same way everywhere. */
static inline bool watertight(sw_test *t, const sw_mesh *m)
{
    size_t n = 3 * m->triangle_count;
    uint64_t *keys = SW_SCRATCH(&t->run, n, uint64_t);
    for (size_t i = 0; i < m->triangle_count; i++) {
        const uint32_t c[4] = {m->triangles[i].a, m->triangles[i].b, m->triangles[i].c, m->triangles[i].a};
        for (int k = 0; k < 3; k++) keys[3 * i + (size_t)k] = (uint64_t)c[k] << 32 | c[k + 1];
    }
    qsort(keys, n, sizeof *keys, compare_keys);
    for (size_t i = 0; i < n; i++) {
        uint64_t reverse = keys[i] << 32 | keys[i] >> 32;
        bool once = i == 0 || keys[i] != keys[i - 1];
        if (!once || bsearch(&reverse, keys, n, sizeof *keys, compare_keys) == NULL) return false;
    }
    return true;
}

#endif
