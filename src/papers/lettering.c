/* lettering.c: measures and shows text through Pango. Everything is laid out at one large size with unhinted
 * metrics and scaled, so that widths are the same on every kind of page. */
#include "papers/pen_parts.h"

enum { EM = 64 }; /* layout size, in units of the context: large enough that rounding does not show */

static PangoLayout *layout_of(PangoContext *context, PangoWeight weight)
{
    PangoLayout *layout = pango_layout_new(context);
    PangoFontDescription *font = pango_font_description_new();
    if (layout == NULL || font == NULL) return layout;
    pango_font_description_set_family_static(font, "DejaVu Sans");
    pango_font_description_set_weight(font, weight);
    pango_font_description_set_absolute_size(font, (double)EM * PANGO_SCALE);
    pango_layout_set_font_description(layout, font);
    pango_layout_set_single_paragraph_mode(layout, TRUE);
    pango_font_description_free(font);
    return layout;
}

bool lettering_open(lettering *letters)
{
    letters->context = pango_font_map_create_context(pango_cairo_font_map_get_default());
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(letters->context, options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(letters->context, FALSE);
    letters->layouts[0] = layout_of(letters->context, PANGO_WEIGHT_NORMAL);
    letters->layouts[1] = layout_of(letters->context, PANGO_WEIGHT_BOLD);
    return letters->layouts[0] != NULL && letters->layouts[1] != NULL;
}

void lettering_close(lettering *letters)
{
    for (int i = 0; i < 2; i++)
        if (letters->layouts[i] != NULL) g_object_unref(letters->layouts[i]);
    if (letters->context != NULL) g_object_unref(letters->context);
    *letters = (lettering){0};
}

double lettering_width(lettering *letters, bool bold, const char *text)
{
    PangoLayout *layout = letters->layouts[bold ? 1 : 0];
    int width = 0;
    pango_layout_set_text(layout, text, -1);
    pango_layout_get_size(layout, &width, NULL);
    return (double)width / PANGO_SCALE / EM * LETTER_EM;
}

static double letter_width(lettering *letters, bool bold, unsigned char c)
{
    double *advance = &letters->advances[bold ? 1 : 0][c];
    const char text[2] = {(char)c, '\0'};
    if (*advance == 0.0) *advance = lettering_width(letters, bold, text);
    return *advance;
}

double lettering_estimate(lettering *letters, bool bold, const char *text, size_t length)
{
    double sum = 0.0;
    for (size_t i = 0; i < length; i++) {
        unsigned char c = (unsigned char)text[i];
        if (c < 128) sum += letter_width(letters, bold, c);
        if (c >= 0xc0) sum += letter_width(letters, bold, 'n'); /* any other letter: about this wide */
    }
    return sum;
}

void lettering_show(lettering *letters, bool bold, cairo_t *cairo)
{
    PangoLayout *layout = letters->layouts[bold ? 1 : 0];
    cairo_scale(cairo, LETTER_EM / EM, LETTER_EM / EM);
    cairo_move_to(cairo, 0.0, 0.0);
    pango_cairo_show_layout_line(cairo, pango_layout_get_line_readonly(layout, 0));
}
