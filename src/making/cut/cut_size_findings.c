/* cut_size_findings.c: holes, webs and gaps against the thickness and the laser row. */
#include "making/cut/cut_findings.h"

#include <math.h>

/* ---- least width of a contour ---- */

static double reach(sw_contour c, sw_point u)
{
    double best = -INFINITY;
    for (size_t i = 0; i < c.n; i++) {
        const sw_vertex *next = &c.v[(i + 1) % c.n];
        best = fmax(best, c.v[i].x_mm * u.x_mm + c.v[i].y_mm * u.y_mm);
        if (fabs(c.v[i].bulge) < SW_FLAT_BULGE) continue;
        sw_arc arc = sw_segment_arc(c.v[i], (sw_point){next->x_mm, next->y_mm});
        double turned_rad = atan2(u.y_mm, u.x_mm) - arc.from_rad;
        if (arc.sweep_rad < 0) turned_rad = -turned_rad;
        turned_rad -= floor(turned_rad / (2 * SW_PI)) * 2 * SW_PI;
        if (turned_rad > fabs(arc.sweep_rad)) continue;
        best = fmax(best, arc.centre.x_mm * u.x_mm + arc.centre.y_mm * u.y_mm + arc.radius_mm);
    }
    return best;
}

static double width_across(sw_contour c, sw_point u)
{
    return reach(c, u) + reach(c, (sw_point){-u.x_mm, -u.y_mm});
}

/* Least distance of two parallel lines that hold the contour between them: the diameter of a circle, the width of a
 * slot at any turn. Looked for square to every straight edge and in steps of 2 degrees. For a hole that bends round
 * a corner it is more than the width of its arms. */
static double least_width(sw_contour c)
{
    double best = INFINITY;
    for (int k = 0; k < 90; k++) {
        double angle_rad = sw_rad_from_deg(2.0 * k);
        best = fmin(best, width_across(c, (sw_point){cos(angle_rad), sin(angle_rad)}));
    }
    for (size_t i = 0; i < c.n; i++) {
        const sw_vertex *next = &c.v[(i + 1) % c.n];
        if (fabs(c.v[i].bulge) >= SW_FLAT_BULGE) continue;
        sw_point d = sw_segment_direction(c.v[i], (sw_point){next->x_mm, next->y_mm}, 0);
        best = fmin(best, width_across(c, (sw_point){-d.y_mm, d.x_mm}));
    }
    return best;
}

/* ---- the checks ---- */

static size_t loops_of(const cut_job *job, size_t part, int contour)
{
    size_t count = 0;
    for (size_t i = 0; i < job->loop_count; i++)
        if (job->loops[i].part == part && job->loops[i].contour == contour) count++;
    return count;
}

typedef struct kerf_words {
    const char *before, *after;
} kerf_words;

static sw_status lost(sw_run *run, cut_job *job, size_t part, int contour, kerf_words told)
{
    sw_finding f = cut_finding(job, "kerf", cut_loop_name(run, job, part, contour));
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
static bool followed(const cut_job *job, size_t part, int contour, sw_point p)
{
    double most_mm = 3 * sw_kerf_offset_mm(job->kerf_mm) + 5 * SW_CHORD_MM;
    for (size_t i = 0; i < job->loop_count; i++) {
        const cut_loop *loop = &job->loops[i];
        if (loop->part == part && loop->contour == contour && sw_contour_distance(loop->path, p) <= most_mm)
            return true;
    }
    return false;
}

static bool followed_all_along(const cut_job *job, size_t part, int contour, sw_contour c)
{
    for (size_t i = 0; i < c.n; i++) {
        const sw_vertex *next = &c.v[(i + 1) % c.n];
        for (int quarter = 1; quarter < 4; quarter++) {
            sw_point p = sw_segment_point(c.v[i], (sw_point){next->x_mm, next->y_mm}, quarter / 4.0);
            if (!followed(job, part, contour, p)) return false;
        }
    }
    return true;
}

sw_status cut_lost_findings(sw_run *run, cut_job *job, size_t part)
{
    const sw_region *region = &job->in->parts[part].region;
    if (!followed_all_along(job, part, -1, region->outline))
        SW_TRY(lost(run, job, part, -1, (kerf_words){"a slot of the outline is", " and is not cut"}));
    for (size_t h = 0; h < region->hole_count; h++) {
        if (loops_of(job, part, (int)h) == 0)
            SW_TRY(lost(run, job, part, (int)h, (kerf_words){"the hole is", " and is not cut"}));
        else if (!followed_all_along(job, part, (int)h, region->holes[h]))
            SW_TRY(lost(run, job, part, (int)h, (kerf_words){"part of the hole is", " and is not cut"}));
    }
    return SW_OK;
}

/* At least 0.7 s (a laser shop's published least sizes), watched below s (design rule of two published guides). */
sw_status cut_hole_finding(sw_run *run, cut_job *job, size_t part)
{
    const double process_share = 0.7;
    const sw_region *region = &job->in->parts[part].region;
    double least_mm = INFINITY;
    size_t narrowest = 0;
    for (size_t h = 0; h < region->hole_count; h++) {
        double width_mm = least_width(region->holes[h]);
        if (width_mm >= least_mm) continue;
        least_mm = width_mm;
        narrowest = h;
    }
    if (region->hole_count == 0) return SW_OK;
    sw_finding f = cut_finding(job, "least_hole", cut_loop_name(run, job, part, (int)narrowest));
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

static double thinnest_web(const sw_region *r)
{
    double least_mm = INFINITY;
    for (size_t a = 0; a < r->hole_count; a++) {
        least_mm = fmin(least_mm, sw_contours_distance(r->outline, r->holes[a]));
        for (size_t b = a + 1; b < r->hole_count; b++)
            least_mm = fmin(least_mm, sw_contours_distance(r->holes[a], r->holes[b]));
    }
    return least_mm;
}

sw_status cut_web_finding(sw_run *run, cut_job *job, size_t part)
{
    const sw_region *region = &job->in->parts[part].region;
    if (region->hole_count == 0) return SW_OK;
    sw_finding f = cut_finding(job, "web", job->in->parts[part].label);
    f.sense = SW_AT_LEAST;
    f.value = thinnest_web(region);
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

static double box_gap(sw_box a, sw_box b)
{
    double dx = fmax(fmax(a.x0_mm - b.x1_mm, b.x0_mm - a.x1_mm), 0);
    double dy = fmax(fmax(a.y0_mm - b.y1_mm, b.y0_mm - a.y1_mm), 0);
    return hypot(dx, dy);
}

/* A piece may lie in a hole of another: then the gap is to the hole. */
static double regions_gap(const sw_region *a, const sw_region *b)
{
    double gap_mm = sw_contours_distance(a->outline, b->outline);
    for (size_t h = 0; h < a->hole_count; h++) gap_mm = fmin(gap_mm, sw_contours_distance(a->holes[h], b->outline));
    for (size_t h = 0; h < b->hole_count; h++) gap_mm = fmin(gap_mm, sw_contours_distance(b->holes[h], a->outline));
    return gap_mm;
}

sw_status cut_gap_finding(sw_run *run, cut_job *job)
{
    const sw_cut_input *in = job->in;
    double least_mm = INFINITY;
    size_t one = 0, other = 0;
    for (size_t a = 0; a < in->part_count; a++)
        for (size_t b = a + 1; b < in->part_count; b++) {
            if (box_gap(job->part_boxes[a], job->part_boxes[b]) >= least_mm) continue;
            double gap_mm = regions_gap(&in->parts[a].region, &in->parts[b].region);
            if (gap_mm >= least_mm) continue;
            least_mm = gap_mm;
            one = a;
            other = b;
        }
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
