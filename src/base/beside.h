/* beside.h: part of the work of a run done beside it, on another thread: a run of its own, whose answers then belong to the
 * first. Opened and joined by the thread of the first run, which asks for nothing in between. */
#ifndef SW_BASE_BESIDE_H
#define SW_BASE_BESIDE_H

#include "base/base.h"

/* Each of `shares` such runs may take its share of what the first may still take. SW_NO_MEMORY or SW_OK. */
sw_status sw_run_open_beside(sw_run *beside, const sw_run *run, size_t shares);

/* What beside->keep holds lives on in run->keep; its errors come behind those of run. Closes beside. */
void sw_run_join(sw_run *run, sw_run *beside);

size_t sw_arena_room(const sw_arena *arena); /* bytes it may still ask the system for */
/* Everything handed out by `from` stays where it is and belongs to `into`, as if taken last. Frees from. The ceilings must
 * have been one: from's at most what into had left. */
void sw_arena_adopt(sw_arena *into, sw_arena *from);

#endif
