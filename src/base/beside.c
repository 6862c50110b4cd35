#include "base/beside.h"

sw_status sw_run_open_beside(sw_run *beside, const sw_run *run, size_t shares)
{
    size_t room =
        sw_arena_room(run->keep) < sw_arena_room(run->scratch) ? sw_arena_room(run->keep) : sw_arena_room(run->scratch);
    SW_ASSERT(shares > 0);
    sw_status status = sw_run_open(beside, room / shares);
    beside->cancel = run->cancel;
    return status;
}

void sw_run_join(sw_run *run, sw_run *beside)
{
    for (size_t i = 0; i < beside->error_count; i++, run->error_count++)
        if (i < SW_ERROR_MAX && run->error_count < SW_ERROR_MAX) run->errors[run->error_count] = beside->errors[i];
    sw_arena_adopt(run->keep, beside->keep);
    beside->keep = NULL;
    sw_run_close(beside);
}
