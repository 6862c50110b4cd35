/* fit_sensitivities.c: how much each row changes a unit of each contributor, before the pieces are moved to their joints. */
#include "making/fit/fit_parts.h"

#include <math.h>

typedef struct half { /* one end of a row: side +1 for a, -1 for b */
    const fit_job *job;
    const fit_row *row;
    const fit_foot *foot;
    double side;
} half;

static double felt(const half *h, sw_vec3 moved_in_piece)
{
    sw_vec3 moved = sw_frame_direction(fit_frame(h->job, h->foot->specimen), moved_in_piece);
    return h->side * sw_vec3_dot(h->row->way, moved);
}

static double of_bend(const half *h, size_t bend, sw_fit_bend_change change)
{
    const sw_sheet_piece *piece = fit_piece(h->job, h->foot->specimen);
    bool closed = h->job->specimens[h->foot->specimen].closed;
    if (closed && piece->piece->bends[bend].kind == SW_ROLLED) return 0; /* its ends are drawn together first */
    return felt(h, sw_fit_moved(piece, bend, change, h->foot->face, h->foot->zone, h->foot->at));
}

static double of_thickness(const half *h)
{
    const sw_sheet_piece *piece = fit_piece(h->job, h->foot->specimen);
    double sum = felt(h, h->foot->skin_way);
    for (size_t b = 0; b < piece->piece->bend_count; b++) sum += of_bend(h, b, sw_fit_thickness_off(piece, b, 1));
    return sum;
}

static double of_place(const half *h, int axis)
{
    const sw_vec3 axes[3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    sw_vec3 moved = axes[axis % 3];
    if (axis >= 3) {
        sw_vec3 at = sw_frame_point(fit_frame(h->job, h->foot->specimen), h->foot->at);
        moved = sw_vec3_cross(moved, sw_vec3_sub(at, h->job->specimens[h->foot->specimen].middle));
    }
    return h->side * sw_vec3_dot(h->row->way, moved);
}

static bool same_sheet(const fit_job *job, const sw_fit_contributor *c, int piece)
{
    const sw_piece *p = job->in->sheet->pieces[c->piece].piece, *q = job->in->sheet->pieces[piece].piece;
    return p->grade == q->grade && fabs(p->thickness_mm - q->thickness_mm) < SW_SAME_POINT_MM;
}

static double sensitivity(const half *h, size_t i)
{
    const sw_fit_contributor *c = &h->job->contributors[i];
    const fit_specimen *s = &h->job->specimens[h->foot->specimen];
    if (c->operation == SW_FIT_THICKNESS) return same_sheet(h->job, c, s->piece) ? of_thickness(h) : 0;
    if (c->piece != s->piece || c->placement != s->placement) return 0;
    const sw_sheet_piece *piece = fit_piece(h->job, h->foot->specimen);
    switch (c->operation) {
    case SW_FIT_CUT:
        return fit_find_cut(h->job, h->foot->specimen, &h->foot->cut) == i ? felt(h, h->foot->cut_way) : 0;
    case SW_FIT_ANGLE:
        return of_bend(h, (size_t)c->bend, sw_fit_angle_off(piece, (size_t)c->bend, 1));
    case SW_FIT_LINE:
        return of_bend(h, (size_t)c->bend, sw_fit_line_off(1));
    case SW_FIT_ROLL:
        return of_bend(h, (size_t)c->bend, sw_fit_roll_off(piece, (size_t)c->bend, 1));
    default:
        return of_place(h, c->axis);
    }
}

sw_status fit_sensitivities(sw_run *run, fit_job *job)
{
    size_t rows = job->row_count > 0 ? job->row_count : 1, columns = job->contributor_count;
    job->coefficients = SW_SCRATCH(run, rows * (columns > 0 ? columns : 1), double);
    if (job->coefficients == NULL) return SW_NO_MEMORY;
    for (size_t r = 0; r < job->row_count; r++) {
        const fit_row *row = &job->rows[r];
        half ends[2] = {{job, row, &row->a, 1}, {job, row, &row->b, -1}};
        double *line = fit_line(job, r);
        for (size_t i = 0; i < columns; i++) line[i] = sensitivity(&ends[0], i) + sensitivity(&ends[1], i);
    }
    return SW_OK;
}

double fit_row_sigma(const fit_job *job, size_t row)
{
    const double *line = fit_line(job, row);
    double sum = 0;
    for (size_t i = 0; i < job->contributor_count; i++) {
        double part = line[i] * job->contributors[i].sigma;
        sum += part * part;
    }
    return sqrt(sum);
}
