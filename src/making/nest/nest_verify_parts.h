/* nest_verify_parts.h: what the files of the independent check share. Nothing of the search. */
#ifndef SW_MAKING_NEST_NEST_VERIFY_PARTS_H
#define SW_MAKING_NEST_NEST_VERIFY_PARTS_H

#include "making/nest/nest.h"

/* Every piece as often as wanted, no sheet more often than there are. SW_INTERNAL says which. Leaves its list in
 * scratch. */
sw_status nest_verify_counts(sw_run *run, const sw_nest_input *in, const sw_nest_result *result);

#endif
