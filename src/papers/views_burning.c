/* views_burning.c: section, air and a whole burn as files of their own. */
#include "papers/chart_parts.h"

typedef struct page {
    const char *title;
    double width_mm, height_mm;
    sw_status (*draw)(sw_run *run, const paper_desk *desk, sw_pen *pen, sw_box box);
} page;

static sw_status burn_of(sw_run *run, const paper_desk *desk, sw_pen *pen, sw_box box)
{
    return draw_burn(run, desk->d, pen, box);
}

static sw_status marked(sw_run *run, const paper_desk *desk, const page *p, sw_pen *pen)
{
    const double edge_mm = 8, head_mm = 8;
    const char *title = sw_text_format(run, run->scratch, "%s: %s", desk->d->model.stove->title, p->title);
    if (title == NULL) return SW_NO_MEMORY;
    const pen_paint ground = {.fill = true, .fill_ink = look_white()};
    const sw_box box = {edge_mm, edge_mm + head_mm, p->width_mm - edge_mm, p->height_mm - edge_mm};
    pen_about(pen, title, desk->d->date);
    pen_box(pen, &ground, (sw_box){0, 0, p->width_mm, p->height_mm});
    const char *line = words_within(run, pen, 2.6, true, box.x1_mm - box.x0_mm, title);
    if (line == NULL) return SW_NO_MEMORY;
    pen_write(pen, (sw_point){edge_mm, edge_mm + 2.6}, look_type_bold(2.6, SW_LEFT), line);
    return p->draw(run, desk, pen, box);
}

static sw_status written(sw_run *run, const paper_desk *desk, const page *p, const char *path)
{
    sw_pen *pen = NULL;
    size_t mark = sw_arena_mark(run->scratch);
    SW_TRY(pen_open_lettered(run, path, desk->letters, p->width_mm, p->height_mm, &pen));
    sw_status status = marked(run, desk, p, pen);
    sw_arena_rewind(run->scratch, mark);
    if (status == SW_OK) return sw_pen_close(run, pen);
    sw_pen_abandon(pen);
    return status;
}

sw_status paper_section(sw_run *run, const paper_desk *desk, const char *path)
{
    double high_mm = section_height(desk, 100, 150) + 36;
    const page p = {"temperatures in the middle section at the duty", 190 + 16, high_mm, draw_section};
    return written(run, desk, &p, path);
}

sw_status paper_air(sw_run *run, const paper_desk *desk, const char *path)
{
    double high_mm = section_height(desk, 80, 150) + 32;
    const page p = {"air and gas at the duty", 184 + 16, high_mm, draw_air};
    return written(run, desk, &p, path);
}

sw_status paper_burn(sw_run *run, const paper_desk *desk, const char *path)
{
    const page p = {"a burn from cold", 190, 200, burn_of};
    return written(run, desk, &p, path);
}
