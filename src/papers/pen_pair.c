/* pen_pair.c: two pens as one: a drawing is laid out once and marked on both, a file of its own and a page of a
 * document. */
#include "papers/pen_parts.h"

/* Calls the kind's function of both pens that still go on. */
#define EACH(pen, call)                                                                                                \
    for (int i = 0; i < 2; i++) {                                                                                      \
        sw_pen *one = (pen)->pair[i];                                                                                  \
        if (one != NULL) one->kind->call;                                                                              \
    }

static sw_status open(sw_run *run, sw_pen *pen)
{
    (void)run;
    (void)pen;
    return SW_OK;
}

static void page(sw_pen *pen)
{
    for (int i = 0; i < 2; i++)
        if (pen->pair[i] != NULL) sw_pen_page(pen->pair[i], pen->width_mm, pen->height_mm);
}

static void begin(sw_pen *pen)
{
    EACH(pen, begin(one));
}

static void move(sw_pen *pen, sw_point to)
{
    EACH(pen, move(one, to));
}

static void line(sw_pen *pen, sw_point to)
{
    EACH(pen, line(one, to));
}

static void arc(sw_pen *pen, sw_arc a, sw_point to)
{
    EACH(pen, arc(one, a, to));
}

static void shut(sw_pen *pen)
{
    EACH(pen, shut(one));
}

static void paint(sw_pen *pen, const pen_paint *p)
{
    EACH(pen, paint(one, p));
}

static void text(sw_pen *pen, sw_point start, const pen_type *type, double width_mm, const char *words)
{
    EACH(pen, text(one, start, type, width_mm, words));
}

static void picture(sw_pen *pen, sw_box box, const pen_picture *p)
{
    EACH(pen, picture(one, box, p));
}

static void entry(sw_pen *pen, const char *title, const char *label)
{
    for (int i = 0; i < 2; i++)
        if (pen->pair[i] != NULL) pen_entry(pen->pair[i], title, label);
}

static sw_status close(sw_run *run, sw_pen *pen)
{
    (void)run;
    (void)pen;
    return SW_OK;
}

const pen_kind pen_pair = {.open = open,
                           .page = page,
                           .begin = begin,
                           .move = move,
                           .line = line,
                           .arc = arc,
                           .shut = shut,
                           .paint = paint,
                           .text = text,
                           .picture = picture,
                           .entry = entry,
                           .close = close};

sw_pen pen_pair_of(sw_pen *a, sw_pen *b)
{
    return (sw_pen){.kind = &pen_pair,
                    .width_mm = a->width_mm,
                    .height_mm = a->height_mm,
                    .letters = a->letters,
                    .path = a->path,
                    .title = a->title,
                    .date = a->date,
                    .pair = {a, b}};
}
