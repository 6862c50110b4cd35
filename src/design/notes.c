/* notes.c: memory and messages of one description. */
#include "design/design_parts.h"

#include <stdio.h>
#include <string.h>

void *design_take(design *d, size_t count, size_t size)
{
    void *taken = sw_keep(d->run, count, size);
    if (taken == NULL) design_must(d, SW_NO_MEMORY);
    return taken;
}

void *design_append(design *d, design_list *list, size_t size)
{
    void *items = sw_grow(d->run, d->run->scratch, list->items, list->count, &list->room, size);
    if (items == NULL) design_must(d, SW_NO_MEMORY);
    list->items = items;
    return memset((char *)items + size * list->count++, 0, size);
}

void *design_add(design *d, design_list *list, size_t size, const char *what)
{
    if (list->count >= DESIGN_LISTED_MOST)
        luaL_error(d->L, "more than %d %s are described; allowed are %d at most", (int)DESIGN_LISTED_MOST, what,
                   (int)DESIGN_LISTED_MOST);
    return design_append(d, list, size);
}

const void *design_kept(design *d, const design_list *list, size_t size)
{
    void *copy = design_take(d, list->count, size);
    if (list->count > 0) memcpy(copy, list->items, list->count * size);
    return copy;
}

/* Most texts fit into one go; a longer one is written again. */
const char *design_text(design *d, const char *format, ...)
{
    char shown[256];
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(shown, sizeof shown, format, arguments);
    va_end(arguments);
    size_t room = length < 0 ? 1 : (size_t)length + 1;
    char *text = design_take(d, room, 1);
    if (room <= sizeof shown) return memcpy(text, length < 0 ? "" : shown, room);
    va_start(arguments, format);
    (void)vsnprintf(text, room, format, arguments);
    va_end(arguments);
    return text;
}

const char *design_shown(design *d, int index)
{
    size_t length = 0;
    const char *text = lua_tolstring(d->L, index, &length);
    return design_text(d, "%.*s", (int)sw_text_cut(text, length, DESIGN_NAME_BYTES), text);
}

const char *design_joined(design *d, const char *a, const char *b, const char *c)
{
    size_t la = strlen(a), lb = strlen(b), lc = strlen(c);
    char *text = design_take(d, la + lb + lc + 1, 1);
    memcpy(text, a, la);
    memcpy(text + la, b, lb);
    memcpy(text + la + lb, c, lc);
    return text;
}

const char *design_numbered(design *d, const char *a, size_t number, const char *b)
{
    char digits[24] = "";
    size_t at = sizeof digits - 1;
    do {
        digits[--at] = (char)('0' + number % 10);
        number /= 10;
    } while (number > 0);
    return design_joined(d, a, digits + at, b);
}

void design_must(design *d, sw_status status)
{
    if (status == SW_OK) return;
    d->left = status; /* recorded where it arose */
    design_leave(d);
}

static void note(design *d, sw_status status, sw_place place, const char *field, const char *format, va_list arguments)
{
    char text[900];
    if (vsnprintf(text, sizeof text, format, arguments) < 0) text[0] = '\0';
    for (char *p = text; *p != '\0'; p++)
        if (*p == '\n' || *p == '\r') *p = ' ';
    d->faults++;
    (void)sw_fail(d->run, status, place, field, "%s", text);
}

void design_note(design *d, sw_status status, sw_place place, const char *field, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    note(d, status, place, field, format, arguments);
    va_end(arguments);
}

/* "left side: face.bends[2].radius" */
static void field_path(const design_scope *s, const char *field, char *out, size_t room)
{
    const char *colon = s->subject[0] != '\0' && (s->path[0] != '\0' || field[0] != '\0') ? ": " : "";
    const char *dot = s->path[0] != '\0' && field[0] != '\0' && field[0] != '[' ? "." : "";
    (void)snprintf(out, room, "%s%s%s%s%s", s->subject, colon, s->path, dot, field);
}

void design_fault(const design_scope *s, const char *field, const char *format, ...)
{
    char path[300];
    va_list arguments;
    field_path(s, field, path, sizeof path);
    va_start(arguments, format);
    note(s->d, SW_BAD_INPUT, s->place, path, format, arguments);
    va_end(arguments);
}

const char *design_hint(design *d, const char *wrong, const char *const *names, size_t count)
{
    design_charge(d->L, DESIGN_NAME_STEPS * (double)count);
    const char *near = sw_text_nearest(wrong, names, count);
    return near == NULL ? "" : design_text(d, "; did you mean '%s'?", near);
}
