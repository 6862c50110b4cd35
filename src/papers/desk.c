/* desk.c: what all papers of one dossier share: lettering, the pieces' shapes, the places of labels, the two views, the
 * section. */
#include "papers/papers_parts.h"

sw_status desk_open(sw_run *run, const sw_dossier *d, paper_desk *desk)
{
    *desk = (paper_desk){.d = d,
                         .shapes = SW_SCRATCH(run, d->sheet->piece_count + 1, const solid_shape *),
                         .labels = SW_SCRATCH(run, d->nest_count + 1, const nest_label *)};
    if (desk->shapes == NULL || desk->labels == NULL) return SW_NO_MEMORY;
    return lettering_open(run, &desk->letters);
}

void desk_close(paper_desk *desk)
{
    lettering_close(desk->letters);
    desk->letters = NULL;
}

sw_status desk_shape(sw_run *run, paper_desk *desk, size_t piece)
{
    if (desk->shapes[piece] != NULL) return SW_OK;
    return solid_shape_make(run, desk->d->sheet->pieces[piece].solid.mesh, &desk->shapes[piece]);
}

sw_status desk_labels(sw_run *run, paper_desk *desk, size_t nest)
{
    if (desk->labels[nest] != NULL) return SW_OK;
    return nest_labels_make(run, &desk->d->nests[nest], &desk->labels[nest]);
}

sw_status desk_views(sw_run *run, paper_desk *desk)
{
    const solid_part *parts = NULL;
    size_t count = 0;
    for (size_t i = 0; i < desk->d->sheet->piece_count; i++) SW_TRY(desk_shape(run, desk, i));
    SW_TRY(view_parts(run, desk, &parts, &count));
    SW_TRY(view_make(run, parts, count, false, &desk->assembled));
    return view_make(run, parts, count, true, &desk->exploded);
}

sw_status desk_whole(sw_run *run, const sw_dossier *d, paper_desk *desk)
{
    SW_TRY(desk_open(run, d, desk));
    for (size_t i = 0; i < d->nest_count; i++)
        if (d->nests[i].result != NULL) SW_TRY(desk_labels(run, desk, i));
    SW_TRY(desk_views(run, desk));
    return desk_section(run, desk);
}
