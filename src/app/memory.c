/* memory.c: how the process holds its memory. */
#define _DEFAULT_SOURCE /* madvise; NOLINT(bugprone-reserved-identifier,cert-dcl37-c,cert-dcl51-cpp) */
#include "app/app.h"

#ifdef __GLIBC__
#include <malloc.h>
#include <stdint.h>
#include <stdlib.h>
#include <sys/mman.h>

/* Asks for the heap's first stretch in huge pages: a small page's first touch costs microseconds on a virtual machine. Only a
 * wish; without it everything works as before. */
static void wish_huge_pages(size_t ahead_bytes)
{
    enum { HUGE_PAGE = 2 << 20 };
    char *stretch = malloc(ahead_bytes);
    if (stretch == NULL) return;
    size_t past = (uintptr_t)stretch % HUGE_PAGE;
    size_t from = past == 0 ? 0 : HUGE_PAGE - past;
    (void)madvise(stretch + from, (ahead_bytes - from) / HUGE_PAGE * HUGE_PAGE, MADV_HUGEPAGE);
    free(stretch);
}
#endif

void sw_keep_memory(void)
{
#ifdef __GLIBC__
    enum { LARGEST = 256 << 20, KEPT = 512 << 20, AHEAD = 64 << 20 };
    (void)mallopt(M_MMAP_THRESHOLD, LARGEST);
    (void)mallopt(M_TRIM_THRESHOLD, KEPT);
    (void)mallopt(M_TOP_PAD, AHEAD);
    wish_huge_pages(AHEAD);
#endif
}
