#include "base/base.h"

#include <stdio.h>
#include <stdlib.h>

#define ROW_NAME(name, stable, text, remedy)   stable,
#define ROW_TEXT(name, stable, text, remedy)   text,
#define ROW_REMEDY(name, stable, text, remedy) remedy,

static const char *const names[] = {SW_STATUS_LIST(ROW_NAME)};
static const char *const texts[] = {SW_STATUS_LIST(ROW_TEXT)};
static const char *const remedies[] = {SW_STATUS_LIST(ROW_REMEDY)};

static size_t row(sw_status status)
{
    return (unsigned)status < SW_STATUS_COUNT ? (size_t)status : (size_t)SW_INTERNAL;
}

const char *sw_status_name(sw_status status)
{
    return names[row(status)];
}
const char *sw_status_text(sw_status status)
{
    return texts[row(status)];
}
const char *sw_status_remedy(sw_status status)
{
    return remedies[row(status)];
}

_Noreturn void sw_assert_failed(const char *condition, const char *file, int line)
{
    (void)fprintf(stderr, "stovewright: programmer's mistake at %s:%d: not so: %s\n", file, line, condition);
    abort();
}
