/* instance.h: a strip-packing instance as the literature gives them: pieces, allowed turns and a strip width in one
 * JSON file. Format: docs/nesting.md, "Instances". For src/app alone. */
#ifndef SW_APP_INSTANCE_H
#define SW_APP_INSTANCE_H

#include "making/nest/nest.h"

typedef struct sw_instance {
    sw_strip_input
        input;          /* scaled: its mm are file units times `scale`, so that tolerances are small beside the strip */
    const char *source; /* "" = not said */
    double width, scale; /* strip width in file units; a power of two */
    size_t pieces;
} sw_instance;

/* Everything in run->keep. SW_BAD_INPUT: every wrong piece is recorded with its place in the file and what is allowed;
 * SW_IO, SW_NO_MEMORY. */
sw_status sw_instance_read(sw_run *run, const char *path, sw_instance *instance);

#endif
