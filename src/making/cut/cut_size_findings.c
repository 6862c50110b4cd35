/* cut_size_findings.c: holes, webs and gaps against the thickness and the laser row. */
#include "making/cut/cut_findings.h"

typedef struct piece {
    cut_job *job;
    size_t part;
    const cut_shape *shape;
} piece;

/* ---- least width of a contour ---- */

static double width_across(const sw_edges *e, sw_point u)
{
    return sw_edges_reach(e, u) + sw_edges_reach(e, (sw_point){-u.x_mm, -u.y_mm});
}

/* Least distance of two parallel lines that hold the contour between them: the diameter of a circle, the width of a
 * slot at any turn. Looked for square to every straight edge and in steps of 2 degrees. For a hole that bends round
 * a corner it is more than the width of its arms. */
static double least_width(sw_contour c, const sw_edges *e)
{
    double best = INFINITY;
    for (int k = 0; k < 90; k++) {
        double angle_rad = sw_rad_from_deg(2.0 * k);
        best = fmin(best, width_across(e, (sw_point){cos(angle_rad), sin(angle_rad)}));
    }
    for (size_t i = 0; i < c.n; i++) {
        const sw_vertex *next = &c.v[(i + 1) % c.n];
        if (fabs(c.v[i].bulge) >= SW_FLAT_BULGE) continue;
        sw_point d = sw_segment_direction(c.v[i], (sw_point){next->x_mm, next->y_mm}, 0);
        best = fmin(best, width_across(e, (sw_point){-d.y_mm, d.x_mm}));
    }
    return best;
}

/* What the least width is not below: a contour lies in a strip that wide and no longer than its box's diagonal. */
static double width_bound(sw_contour c, const sw_edges *e)
{
    sw_box box = sw_edges_box(e);
    double longest_mm = cut_distance((sw_point){box.x0_mm, box.y0_mm}, (sw_point){box.x1_mm, box.y1_mm});
    return longest_mm > 0 ? fabs(sw_contour_area(c)) / longest_mm : 0;
}

/* ---- the checks ---- */

typedef struct kerf_words {
    const char *before, *after;
} kerf_words;

static sw_status lost(sw_run *run, const piece *p, int contour, kerf_words told)
{
    cut_job *job = p->job;
    sw_finding f = cut_finding(job, "kerf", cut_loop_name(run, job, p->part, contour));
    if (f.where == NULL) return SW_NO_MEMORY;
    f.what =
        sw_text_format(run, run->keep, "%s narrower than the kerf of %g mm%s", told.before, job->kerf_mm, told.after);
    if (f.what == NULL) return SW_NO_MEMORY;
    f.verdict = SW_FAILS;
    f.source = "derived: path half a kerf off the contour";
    f.remedy = "make it wider than the kerf";
    return sw_finding_add(run, &job->plan->findings, f, 0);
}

/* The beam's path follows the contour everywhere at half a kerf, in sharp inner corners at a little more. */
static bool followed(const piece *p, int contour, sw_point at)
{
    double most_mm = 3 * sw_kerf_offset_mm(p->job->kerf_mm) + 5 * SW_CHORD_MM;
    for (size_t i = 0; i < p->shape->track_count; i++) {
        const cut_track *track = &p->shape->tracks[i];
        if (track->contour == contour && sw_edges_distance(track->edges, at, 2 * most_mm) <= most_mm) return true;
    }
    return false;
}

static bool followed_all_along(const piece *p, int contour, sw_contour c)
{
    for (size_t i = 0; i < c.n; i++) {
        const sw_vertex *next = &c.v[(i + 1) % c.n];
        for (int quarter = 1; quarter < 4; quarter++) {
            sw_point at = sw_segment_point(c.v[i], (sw_point){next->x_mm, next->y_mm}, quarter / 4.0);
            if (!followed(p, contour, at)) return false;
        }
    }
    return true;
}

static bool has_track(const cut_shape *shape, int contour)
{
    for (size_t i = 0; i < shape->track_count; i++)
        if (shape->tracks[i].contour == contour) return true;
    return false;
}

static cut_lost lost_of(const piece *p, int contour, sw_contour c)
{
    if (!has_track(p->shape, contour)) return CUT_WHOLLY_LOST;
    return followed_all_along(p, contour, c) ? CUT_FOLLOWED : CUT_PARTLY_LOST;
}

/* A moved copy of a hole before it is as wide. */
static bool is_repeated(const sw_region *region, size_t hole)
{
    sw_contour c = region->holes[hole];
    for (size_t h = hole; h-- > 0;) {
        sw_contour before = region->holes[h];
        sw_point by = {c.v[0].x_mm - before.v[0].x_mm, c.v[0].y_mm - before.v[0].y_mm};
        if (cut_same_moved(before, c, by)) return true;
    }
    return false;
}

static void find_narrowest(const piece *p, cut_sizes *sizes)
{
    const sw_region *region = p->shape->region;
    sizes->narrowest_mm = INFINITY;
    for (size_t h = 0; h < region->hole_count; h++) {
        if (is_repeated(region, h)) continue;
        if (width_bound(region->holes[h], p->shape->contours[h + 1]) >= sizes->narrowest_mm) continue;
        double width_mm = least_width(region->holes[h], p->shape->contours[h + 1]);
        if (width_mm >= sizes->narrowest_mm - SW_SAME_POINT_MM) continue; /* of equal ones the first */
        sizes->narrowest_mm = width_mm;
        sizes->narrowest = h;
    }
}

static double thinnest_web(const piece *p)
{
    const sw_point still = {0, 0};
    double least_mm = INFINITY;
    for (size_t b = 1; b <= p->shape->region->hole_count; b++)
        for (size_t a = 0; a < b; a++)
            least_mm = sw_edges_gap(p->shape->contours[a], p->shape->contours[b], still, least_mm);
    return least_mm;
}

/* Of the shape, for all sheets. */
static void find_sizes(const piece *p, cut_sizes *sizes)
{
    const sw_region *region = p->shape->region;
    sizes->lost[0] = lost_of(p, -1, region->outline);
    for (size_t h = 0; h < region->hole_count; h++) sizes->lost[h + 1] = lost_of(p, (int)h, region->holes[h]);
    find_narrowest(p, sizes);
    sizes->web_mm = thinnest_web(p);
    sizes->known = true;
}

static sw_status lost_findings(sw_run *run, const piece *p)
{
    const cut_sizes *sizes = &p->shape->sizes;
    if (sizes->lost[0] != CUT_FOLLOWED)
        SW_TRY(lost(run, p, -1, (kerf_words){"a slot of the outline is", " and is not cut"}));
    for (size_t h = 0; h < p->shape->region->hole_count; h++) {
        if (sizes->lost[h + 1] == CUT_FOLLOWED) continue;
        const char *what = sizes->lost[h + 1] == CUT_WHOLLY_LOST ? "the hole is" : "part of the hole is";
        SW_TRY(lost(run, p, (int)h, (kerf_words){what, " and is not cut"}));
    }
    return SW_OK;
}

/* At least 0.7 s (a laser shop's published least sizes), watched below s (design rule of two published guides). */
static sw_status hole_finding(sw_run *run, const piece *p)
{
    const double process_share = 0.7;
    cut_job *job = p->job;
    if (p->shape->region->hole_count == 0) return SW_OK;
    double least_mm = p->shape->sizes.narrowest_mm;
    sw_finding f = cut_finding(job, "least_hole", cut_loop_name(run, job, p->part, (int)p->shape->sizes.narrowest));
    f.sense = SW_AT_LEAST;
    f.value = least_mm;
    f.limit = process_share * job->thickness_mm;
    f.unit = "mm";
    f.source = "common practice: hole at least the thickness by design rules, 0.7 of it by process";
    f.what = sw_text_format(run, run->keep, "the narrowest hole is %.2f mm wide in %g mm sheet", least_mm,
                            job->thickness_mm);
    if (least_mm < job->thickness_mm) f.remedy = "make the hole at least as wide as the sheet is thick, or drill it";
    if (f.what == NULL || f.where == NULL) return SW_NO_MEMORY;
    return sw_finding_add(run, &job->plan->findings, f, (1 - process_share) / process_share);
}

static sw_status web_finding(sw_run *run, const piece *p)
{
    cut_job *job = p->job;
    if (p->shape->region->hole_count == 0) return SW_OK;
    sw_finding f = cut_finding(job, "web", job->in->parts[p->part].label);
    f.sense = SW_AT_LEAST;
    f.value = p->shape->sizes.web_mm;
    f.limit = job->thickness_mm;
    f.unit = "mm";
    f.source = "common practice: web at least the thickness by design rules";
    f.what = sw_text_format(run, run->keep, "the thinnest web beside a hole is %.2f mm in %g mm sheet", f.value,
                            job->thickness_mm);
    if (f.value < f.limit) f.remedy = "move the holes apart or away from the edge";
    f.where = sw_text_copy(run, run->keep, f.where);
    if (f.what == NULL || f.where == NULL) return SW_NO_MEMORY;
    return sw_finding_add(run, &job->plan->findings, f, 0);
}

sw_status cut_piece_findings(sw_run *run, cut_job *job, size_t part)
{
    cut_shape *shape = job->places[part].shape;
    const piece p = {job, part, shape};
    if (!shape->sizes.known) find_sizes(&p, &shape->sizes);
    SW_TRY(lost_findings(run, &p));
    SW_TRY(hole_finding(run, &p));
    return web_finding(run, &p);
}

/* ---- between pieces ---- */

/* A piece may lie in a hole of another: the holes' edges count. */
static double least_gap(const cut_job *job, size_t *one, size_t *other)
{
    double least_mm = INFINITY;
    for (size_t a = 0; a < job->in->part_count; a++)
        for (size_t b = a + 1; b < job->in->part_count; b++) {
            const cut_place *p = &job->places[a], *q = &job->places[b];
            if (!cut_boxes_near(p->box, q->box, least_mm)) continue;
            double gap_mm = sw_edges_gap(p->shape->edges, q->shape->edges, cut_minus(q->by, p->by), least_mm);
            if (gap_mm >= least_mm - SW_SAME_POINT_MM) continue; /* of equal ones the first */
            least_mm = gap_mm;
            *one = a;
            *other = b;
        }
    return least_mm;
}

sw_status cut_gap_finding(sw_run *run, cut_job *job)
{
    const sw_cut_input *in = job->in;
    size_t one = 0, other = 0;
    double least_mm = least_gap(job, &one, &other);
    if (in->part_count < 2) return SW_OK;
    sw_finding f = cut_finding(job, "gap", "");
    f.where = sw_text_format(run, run->keep, "%s beside %s", in->parts[one].label, in->parts[other].label);
    f.sense = SW_AT_LEAST;
    f.limit = in->row->web_mm;
    f.value =
        least_mm < f.limit && least_mm >= f.limit - SW_CHORD_MM ? f.limit : least_mm; /* nests place to a hundredth */
    f.unit = "mm";
    f.source = "works description, laser row";
    f.what = sw_text_format(run, run->keep, "the least gap between pieces is %.2f mm, the laser row wants %.2f mm",
                            least_mm, in->row->web_mm);
    if (f.value < f.limit) f.remedy = "nest the sheet with the laser row's web";
    if (f.what == NULL || f.where == NULL) return SW_NO_MEMORY;
    return sw_finding_add(run, &job->plan->findings, f, 0);
}
