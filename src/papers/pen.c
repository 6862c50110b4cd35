/* pen.c: opens the pen that the file name asks for, and turns shapes into paths for it. */
#include "papers/pen_parts.h"

#include <math.h>
#include <string.h>

static const pen_kind *kind_of(const char *path)
{
    static const struct {
        const char *ending;
        const pen_kind *kind;
    } kinds[] = {{".svg", &pen_svg}, {".pdf", &pen_pdf}, {".png", &pen_png}, {".trace", &pen_trace}};
    size_t length = strlen(path);
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        size_t n = strlen(kinds[i].ending);
        if (length > n && strcmp(path + length - n, kinds[i].ending) == 0) return kinds[i].kind;
    }
    return NULL;
}

static sw_status started(sw_run *run, sw_pen *pen)
{
    pen->title = "";
    pen->date = "2000-01-01"; /* a fixed day when none is told, so that bytes repeat */
    if (pen->stamps == NULL) pen->stamps = &pen->own_stamps;
    if (pen->letters == NULL) {
        SW_TRY(lettering_open(run, &pen->letters));
        pen->own_letters = true;
    }
    return pen->kind->open(run, pen);
}

static sw_status opened(sw_run *run, sw_pen *p, sw_pen **pen)
{
    sw_status status = started(run, p);
    if (status != SW_OK) sw_pen_abandon(p);
    if (status == SW_OK) *pen = p;
    return status;
}

sw_status pen_open_lettered(sw_run *run, const char *path, lettering *letters, double width_mm, double height_mm,
                            sw_pen **pen)
{
    *pen = NULL;
    const pen_kind *kind = kind_of(path);
    if (kind == NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, path,
                       "is no drawing file; its name must end in .svg, .pdf or .png");
    sw_pen *p = SW_KEEP(run, 1, sw_pen);
    if (p == NULL) return SW_NO_MEMORY;
    *p = (sw_pen){.kind = kind, .width_mm = width_mm, .height_mm = height_mm, .path = path, .letters = letters};
    SW_TRY(sw_writer_to_file(run, path, &p->writer));
    return opened(run, p, pen);
}

sw_status sw_pen_open(sw_run *run, const char *path, double width_mm, double height_mm, sw_pen **pen)
{
    return pen_open_lettered(run, path, NULL, width_mm, height_mm, pen);
}

sw_status pen_open_within(sw_run *run, const pen_host *host, double width_mm, double height_mm, sw_pen **pen)
{
    *pen = NULL;
    sw_pen *p = SW_KEEP(run, 1, sw_pen);
    if (p == NULL) return SW_NO_MEMORY;
    *p = (sw_pen){.kind = &pen_svg,
                  .width_mm = width_mm,
                  .height_mm = height_mm,
                  .path = "figure",
                  .writer = host->writer,
                  .letters = host->letters,
                  .stamps = host->stamps,
                  .lent = true};
    return opened(run, p, pen);
}

/* Frees all but the writer. */
static void let_go(sw_pen *pen)
{
    if (pen->kind->drop != NULL) pen->kind->drop(pen);
    bytes_free(&pen->out);
    pen_stamps_free(&pen->own_stamps);
    if (pen->own_letters) lettering_close(pen->letters);
    pen->letters = NULL;
    pen->own_letters = false;
}

void sw_pen_abandon(sw_pen *pen)
{
    if (pen == NULL) return;
    let_go(pen);
    if (!pen->lent) sw_writer_abandon(pen->writer);
    pen->writer = NULL;
}

sw_status sw_pen_close(sw_run *run, sw_pen *pen)
{
    sw_status status = SW_OK;
    if (!pen->no_memory && !pen->stamps->no_memory) status = pen->kind->close(run, pen);
    if (status == SW_OK && (pen->no_memory || pen->out.no_memory || pen->stamps->no_memory))
        status = sw_fail(run, SW_NO_MEMORY, (sw_place){0}, pen->path,
                         "no memory for a drawing; a smaller input, or --memory");
    sw_writer *writer = pen->lent ? NULL : pen->writer;
    if (status != SW_OK) {
        sw_pen_abandon(pen);
        return status;
    }
    pen->writer = NULL;
    let_go(pen);
    return writer == NULL ? SW_OK : sw_writer_close(run, writer);
}

void sw_pen_page(sw_pen *pen, double width_mm, double height_mm)
{
    pen->width_mm = width_mm;
    pen->height_mm = height_mm;
    if (pen->kind->page != NULL) pen->kind->page(pen);
}

void pen_entry(sw_pen *pen, const char *title, const char *label)
{
    if (pen->kind->entry != NULL) pen->kind->entry(pen, title, label);
}

bool pen_turn(sw_pen *pen, sw_point at, pen_type type, const char *note)
{
    if (pen->kind == &pen_pair) { /* the one that cannot turn gets no further marks */
        for (int i = 0; i < 2; i++)
            if (pen->pair[i] != NULL && !pen_turn(pen->pair[i], at, type, note)) pen->pair[i] = NULL;
        return pen->pair[0] != NULL || pen->pair[1] != NULL;
    }
    if (pen->kind->page == NULL) {
        pen_write(pen, at, type, note);
        return false;
    }
    pen->kind->page(pen);
    return true;
}

void pen_about(sw_pen *pen, const char *title, const char *date)
{
    pen->title = title;
    pen->date = date;
}

sw_point pen_on_page(sw_motion motion, double scale, sw_point at, sw_point p)
{
    sw_point moved = sw_motion_point(motion, p);
    return (sw_point){at.x_mm + scale * moved.x_mm, at.y_mm - scale * moved.y_mm};
}

static sw_point point_of(sw_vertex v)
{
    return (sw_point){v.x_mm, v.y_mm};
}

static void segment(sw_pen *pen, sw_vertex from, sw_point to)
{
    if (fabs(from.bulge) <= SW_FLAT_BULGE)
        pen->kind->line(pen, to);
    else
        pen->kind->arc(pen, sw_segment_arc(from, to), to);
}

void pen_vertices(sw_pen *pen, const sw_vertex *v, size_t n, bool closed)
{
    if (n == 0) return;
    pen->kind->move(pen, point_of(v[0]));
    for (size_t i = 0; i + 1 < n; i++) segment(pen, v[i], point_of(v[i + 1]));
    if (!closed) return;
    if (fabs(v[n - 1].bulge) > SW_FLAT_BULGE) segment(pen, v[n - 1], point_of(v[0]));
    pen->kind->shut(pen);
}

/* The page's y runs down, so a turn changes its sense unless the motion mirrors as well. */
static void contour(sw_pen *pen, sw_motion motion, double scale, sw_point at, sw_contour c)
{
    double sense = motion.mirror ? 1.0 : -1.0;
    if (c.n == 0) return;
    sw_vertex first = c.v[0];
    sw_point start = pen_on_page(motion, scale, at, point_of(first));
    sw_vertex from = {start.x_mm, start.y_mm, sense * first.bulge};
    pen->kind->move(pen, start);
    for (size_t i = 1; i <= c.n; i++) {
        sw_vertex next = c.v[i % c.n];
        sw_point to = i == c.n ? start : pen_on_page(motion, scale, at, point_of(next));
        segment(pen, from, to);
        from = (sw_vertex){to.x_mm, to.y_mm, sense * next.bulge};
    }
    pen->kind->shut(pen);
}

void pen_region(sw_pen *pen, const pen_paint *paint, sw_motion motion, double scale, sw_point at, const sw_region *r)
{
    pen->kind->begin(pen);
    contour(pen, motion, scale, at, r->outline);
    for (size_t i = 0; i < r->hole_count; i++) contour(pen, motion, scale, at, r->holes[i]);
    pen->kind->paint(pen, paint);
}

static pen_paint paint_of(sw_ink ink)
{
    if (ink.width_mm > 0.0) return (pen_paint){.stroke = true, .stroke_ink = ink};
    return (pen_paint){.fill = true, .fill_ink = ink};
}

void sw_pen_line(sw_pen *pen, sw_ink ink, sw_point a, sw_point b)
{
    pen_paint paint = paint_of(ink);
    pen->kind->begin(pen);
    pen->kind->move(pen, a);
    pen->kind->line(pen, b);
    pen->kind->paint(pen, &paint);
}

void sw_pen_contour(sw_pen *pen, sw_ink ink, sw_motion motion, double scale, sw_point at, sw_contour c)
{
    pen_paint paint = paint_of(ink);
    pen->kind->begin(pen);
    contour(pen, motion, scale, at, c);
    pen->kind->paint(pen, &paint);
}

void sw_pen_region(sw_pen *pen, sw_ink fill, sw_ink stroke, sw_motion motion, double scale, sw_point at,
                   const sw_region *r)
{
    pen_paint paint = {.fill = true, .fill_ink = fill, .stroke = stroke.width_mm > 0.0, .stroke_ink = stroke};
    pen_region(pen, &paint, motion, scale, at, r);
}

void sw_pen_polygon(sw_pen *pen, sw_ink ink, const sw_point *points, size_t count, bool closed)
{
    pen_paint paint = paint_of(ink);
    if (count == 0) return;
    pen->kind->begin(pen);
    pen->kind->move(pen, points[0]);
    for (size_t i = 1; i < count; i++) pen->kind->line(pen, points[i]);
    if (closed) pen->kind->shut(pen);
    pen->kind->paint(pen, &paint);
}

void pen_shape(sw_pen *pen, const pen_paint *paint, const sw_vertex *v, size_t n, bool closed)
{
    pen->kind->begin(pen);
    pen_vertices(pen, v, n, closed);
    pen->kind->paint(pen, paint);
}

void pen_lines(sw_pen *pen, sw_ink ink, const sw_point (*lines)[2], size_t count)
{
    pen_paint paint = paint_of(ink);
    if (count == 0) return;
    pen->kind->begin(pen);
    for (size_t i = 0; i < count; i++) {
        pen->kind->move(pen, lines[i][0]);
        pen->kind->line(pen, lines[i][1]);
    }
    pen->kind->paint(pen, &paint);
}

void pen_box(sw_pen *pen, const pen_paint *paint, sw_box b)
{
    const sw_vertex v[4] = {{b.x0_mm, b.y0_mm, 0}, {b.x1_mm, b.y0_mm, 0}, {b.x1_mm, b.y1_mm, 0}, {b.x0_mm, b.y1_mm, 0}};
    pen_shape(pen, paint, v, 4, true);
}

void pen_circle(sw_pen *pen, const pen_paint *paint, sw_point c, double r)
{
    const sw_vertex v[2] = {{c.x_mm - r, c.y_mm, 1.0}, {c.x_mm + r, c.y_mm, 1.0}};
    pen_shape(pen, paint, v, 2, true);
}

double pen_width(sw_pen *pen, double height_mm, bool bold, const char *text)
{
    return height_mm * lettering_width(pen->letters, bold, text);
}

void pen_write(sw_pen *pen, sw_point at, pen_type type, const char *text)
{
    if (text[0] == '\0') return;
    double width_mm = pen_width(pen, type.height_mm, type.bold, text);
    double back_mm = type.align == SW_LEFT ? 0.0 : type.align == SW_RIGHT ? width_mm : width_mm / 2.0;
    sw_point start = {at.x_mm - back_mm * cos(type.turn_rad), at.y_mm + back_mm * sin(type.turn_rad)};
    pen->kind->text(pen, start, &type, width_mm, text);
}

void sw_pen_text(sw_pen *pen, sw_point at, double height_mm, sw_align align, double turn_rad, const char *text)
{
    const pen_type type = {.height_mm = height_mm, .align = align, .turn_rad = turn_rad};
    pen_write(pen, at, type, text);
}

double sw_pen_text_width(sw_pen *pen, double height_mm, const char *text)
{
    return pen_width(pen, height_mm, false, text);
}

void pen_show(sw_pen *pen, sw_box box, const pen_picture *picture)
{
    pen->kind->picture(pen, box, picture);
}
