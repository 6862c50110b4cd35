#include "lettering/lettering.h"

#include <hersheyfont.h>
#include <string.h>

/* In font units, y up from the line capitals stand on. Hershey's roman simplex. */
static const double capital_height = 21;
static const char font_file[] = "/usr/share/hershey-fonts/futural.jhf";

typedef struct setting {
    sw_run *run;
    double scale;     /* mm a font unit */
    sw_motion motion; /* text frame -> target */
    sw_path *paths;
    size_t count, room;
} setting;

static sw_status add_stroke(setting *s, const struct hershey_path *stroke, double pen_x)
{
    sw_vertex *v = SW_KEEP(s->run, stroke->nverts, sw_vertex);
    s->paths = sw_grow(s->run, s->run->keep, s->paths, s->count, &s->room, sizeof *s->paths);
    if (v == NULL || s->paths == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stroke->nverts; i++) {
        sw_point p = {(pen_x + stroke->verts[i].x) * s->scale, stroke->verts[i].y * s->scale};
        p = sw_motion_point(s->motion, p);
        v[i] = (sw_vertex){p.x_mm, p.y_mm, 0};
    }
    s->paths[s->count++] = (sw_path){v, stroke->nverts};
    return SW_OK;
}

static sw_status set_text(setting *s, struct hershey_font *font, const char *text)
{
    double pen_x = 0;
    for (const char *c = text; *c != '\0'; c++) {
        unsigned char code = (unsigned char)*c;
        if ((code & 0xC0u) == 0x80u) continue; /* further bytes of one UTF-8 character */
        const struct hershey_glyph *glyph = hershey_font_glyph(font, code < 0x7F ? code : '?');
        for (const struct hershey_path *p = glyph->paths; p != NULL; p = p->next)
            if (p->nverts > 1) SW_TRY(add_stroke(s, p, pen_x));
        pen_x += glyph->width;
    }
    return SW_OK;
}

sw_status sw_lettering(sw_run *run, const char *text, sw_point at, double height_mm, double turn_rad,
                       const sw_path **strokes, size_t *count)
{
    *strokes = NULL;
    *count = 0;
    struct hershey_font *font = hershey_jhf_font_load(font_file);
    if (font == NULL)
        return sw_fail(run, SW_IO, (sw_place){0}, font_file,
                       "the stroke font cannot be read; install the package hershey-fonts-data");
    setting s = {.run = run, .scale = height_mm / capital_height, .motion = {turn_rad, at.x_mm, at.y_mm, false}};
    sw_status status = set_text(&s, font, text);
    hershey_font_free(font);
    *strokes = s.paths;
    *count = s.count;
    return status;
}
