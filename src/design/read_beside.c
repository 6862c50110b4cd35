/* read_beside.c: names of files that lie beside a description: drawings, trials. Nothing else of the file system is
 * within a description's reach. */
#include "design/design_parts.h"

#include <string.h>

static bool plain_name(const char *name, size_t length)
{
    return length > 0 && strlen(name) == length && name[0] != '.' && strchr(name, '/') == NULL &&
           strchr(name, '\\') == NULL;
}

const char *design_beside(const design_scope *s, const char *field, int index)
{
    design *d = s->d;
    size_t length = 0;
    const char *name = lua_type(d->L, index) == LUA_TSTRING ? lua_tolstring(d->L, index, &length) : "";
    if (!plain_name(name, length))
        design_fault(s, field, "needs the name of a file beside this one, without folders; got %s",
                     design_describe(s, index));
    else if (d->folder == NULL)
        design_fault(s, field, "this description was not read from a folder, so there is no file \"%s\" beside it",
                     name);
    else
        return design_text(d, "%s%s%s", d->folder, d->folder[0] == '\0' ? "" : "/", name);
    return NULL;
}
