/* dossier_figures.c: the pictures of the stove, as high as the stove needs at the width of the column. */
#include "papers/doc_parts.h"

#include <math.h>

static sw_status view_figure(sw_run *run, const doc_book *doc, size_t exploded, size_t unused, sw_pen *pen, sw_box box)
{
    (void)unused;
    return draw_view(run, doc->desk, exploded != 0 ? &doc->desk->exploded : &doc->desk->assembled, pen, box);
}

static double height_of(const stove_view *view, double most_mm)
{
    const solid_picture *p = &view->picture;
    double wide_mm = DOC_WIDTH_MM - (view->exploded ? 80.0 : 8.0);
    if (!(p->width_mm > 0.0)) return 10.0;
    return fmin(most_mm, 4.0 + wide_mm * p->height_mm / p->width_mm);
}

sw_status dossier_figures(sw_run *run, doc_book *doc)
{
    double assembled_mm = height_of(&doc->desk->assembled, 150.0), exploded_mm = height_of(&doc->desk->exploded, 236.0);
    SW_TRY(doc_heading(run, doc, 1, "The stove"));
    SW_TRY(doc_add(run, doc,
                   (doc_block){.kind = DOC_FIGURE,
                               .text = "Assembled, from the front right.",
                               .figure = {view_figure, 0, 0, assembled_mm, 0}}));
    exploded_mm = fmax(exploded_mm, 110.0); /* room for the labels */
    return doc_add(run, doc,
                   (doc_block){.kind = DOC_FIGURE,
                               .text = "Exploded by subassembly; numbers as in the piece list.",
                               .figure = {view_figure, 1, 0, exploded_mm, 0}});
}
