/* names.c: pieces and items found by name and number once a description has run, and each name and number taken once. */
#include "design/design_parts.h"

#include <stdlib.h>
#include <string.h>

typedef struct named {
    const char *name, *number, *group;
    const design_scope *scope;
    size_t at; /* pieces first, then items, as declared */
} named;

struct design_names {
    named *declared, *by_name, *by_number; /* [count]; of equal ones the first declared stands first */
    size_t pieces, count;
};

static int order(const char *a, const char *b, size_t at_a, size_t at_b)
{
    int text = strcmp(a, b);
    return text != 0 ? text : at_a < at_b ? -1 : at_a > at_b;
}

static int by_name(const void *a, const void *b)
{
    const named *p = a, *q = b;
    return order(p->name, q->name, p->at, q->at);
}

static int by_number(const void *a, const void *b)
{
    const named *p = a, *q = b;
    return order(p->number, q->number, p->at, q->at);
}

static named *sorted(design *d, const design_names *names, int (*compare)(const void *a, const void *b))
{
    named *copy = DESIGN_TAKE(d, names->count, named);
    if (names->count == 0) return copy;
    memcpy(copy, names->declared, names->count * sizeof *copy);
    qsort(copy, names->count, sizeof *copy, compare);
    return copy;
}

void design_names_make(design *d)
{
    const design_piece *pieces = d->pieces.items;
    const design_item *items = d->items.items;
    design_names *names = DESIGN_TAKE(d, 1, design_names);
    names->pieces = d->pieces.count;
    names->count = d->pieces.count + d->items.count;
    design_charge(d->L, DESIGN_NAME_STEPS * (double)names->count);
    names->declared = DESIGN_TAKE(d, names->count, named);
    for (size_t i = 0; i < d->pieces.count; i++) {
        const sw_piece *p = &pieces[i].made;
        names->declared[i] = (named){p->name, p->number, p->group, &pieces[i].scope, i};
    }
    for (size_t i = 0, at = d->pieces.count; i < d->items.count; i++, at++) {
        const sw_item *p = &items[i].made;
        names->declared[at] = (named){p->name, p->number, p->group, &items[i].scope, at};
    }
    names->by_name = sorted(d, names, by_name);
    names->by_number = sorted(d, names, by_number);
    d->names = names;
}

/* The first declared with this name (or number); NULL = none. */
static const named *first_of(const design_names *names, const char *text, bool is_number)
{
    const named *all = is_number ? names->by_number : names->by_name;
    size_t low = 0, high = names->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (strcmp(is_number ? all[middle].number : all[middle].name, text) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    if (low == names->count || strcmp(is_number ? all[low].number : all[low].name, text) != 0) return NULL;
    return &all[low];
}

design_piece *design_piece_find(const design *d, const char *name_or_number)
{
    for (int round = 0; round < 2; round++) {
        const named *found = first_of(d->names, name_or_number, round == 1);
        if (found != NULL && found->at < d->names->pieces) return (design_piece *)d->pieces.items + found->at;
    }
    return NULL;
}

bool design_name_known(const design *d, const char *name)
{
    return first_of(d->names, name, false) != NULL || design_piece_find(d, name) != NULL;
}

static void check_twice(const design_names *names, const named *one)
{
    const named *first = one->number[0] == '\0' ? NULL : first_of(names, one->number, true);
    if (first != NULL && first->at < one->at)
        design_fault(one->scope, "number", "\"%s\" is already taken by \"%s\" in line %d; each number stands once",
                     one->number, first->name, first->scope->place.line);
    first = one->name[0] == '\0' ? NULL : first_of(names, one->name, false);
    if (first != NULL && first->at < one->at)
        design_fault(one->scope, "name", "\"%s\" is already taken in line %d; each name stands once", one->name,
                     first->scope->place.line);
}

static void check_group(design *d, const named *one)
{
    const sw_group *all = d->groups.items;
    const char *group = one->group;
    if (group[0] == '\0') return; /* noted as missing */
    design_charge(d->L, (double)d->groups.count);
    for (size_t i = 0; i < d->groups.count; i++)
        if (strcmp(all[i].name, group) == 0) return;
    const char **names = DESIGN_TAKE(d, d->groups.count, const char *);
    for (size_t i = 0; i < d->groups.count; i++) names[i] = all[i].name;
    design_fault(one->scope, "group", "\"%s\" is not declared%s; write group(\"%s\", { title = \"...\" }) first", group,
                 design_hint(d, group, names, d->groups.count), group);
}

void design_names_check(design *d)
{
    for (size_t i = 0; i < d->names->count; i++) check_twice(d->names, &d->names->declared[i]);
    for (size_t i = 0; i < d->names->count; i++) check_group(d, &d->names->declared[i]);
}
