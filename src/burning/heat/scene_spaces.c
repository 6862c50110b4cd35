/* scene_spaces.c: volumes and enclosing areas of the spaces below and above the baffle, and the bed.
 *
 * The mean length of chords with cosine-weighted directions from the skin of any space is 4 V/S (Cauchy; Dirac 1943,
 * from memory). A ray that crosses the level between two spaces, or goes up the flue, or down through the grate, ends
 * there; the opening's own rays are those same chords the other way round, so they count twice, and their number gives
 * the opening's area. */
#include "burning/heat/scene_parts.h"

#include <math.h>

typedef struct space {
    double low_mm, high_mm;
    double skin_m2, open_m2; /* of parts, of openings */
    double chords;           /* sum of w l over both, m3 */
} space;

static bool in_space(const space *e, double z_mm)
{
    return z_mm >= e->low_mm && z_mm < e->high_mm;
}

/* Length up to where the ray leaves the slab; *leaves when it does before its end. */
static double within_slab(const space *e, const scene_sample *s, double length_mm, bool *leaves)
{
    double from = (double)s->at.z_mm, dz = (double)s->to.z_mm - from;
    double end = from + dz, limit = dz > 0.0 ? e->high_mm : e->low_mm;
    *leaves = dz > 0.0 ? end > limit : end < limit;
    return *leaves ? length_mm * (limit - from) / dz : length_mm;
}

/* Rays that find their way out by joints of the doors are left out: too few to matter, of no length. */
static void add_ray(const scene_job *job, space *e, const scene_sample *s)
{
    double w = (double)s->weight_m2;
    e->skin_m2 += w;
    if (s->leaves_flue) {
        e->chords += 2.0 * w * sw_m_from_mm((double)s->length_mm);
        e->open_m2 += w;
        return;
    }
    if (s->hit == SCENE_NONE || !scene_inside(job, s->hit_cell)) return;
    bool leaves = false;
    double length_mm = within_slab(e, s, (double)s->length_mm, &leaves);
    e->chords += (leaves ? 2.0 : 1.0) * w * sw_m_from_mm(length_mm);
    e->open_m2 += leaves ? w : 0.0;
}

static space measure(const scene_job *job, double low_mm, double high_mm)
{
    space e = {.low_mm = low_mm, .high_mm = high_mm};
    for (size_t i = 0; i < job->sample_count; i++) {
        const scene_sample *s = &job->samples[i];
        if (s->cell != SCENE_NONE && scene_inside(job, s->cell) && in_space(&e, (double)s->at.z_mm))
            add_ray(job, &e, s);
    }
    return e;
}

/* Skin that looks up from no more than this above the lowest such skin; grates by their outline, since they are
 * holes. */
static void measure_bed(const scene_job *job)
{
    const double thick_mm = 60.0; /* lining of the floor above the grate's seat; ours */
    double lowest = (double)INFINITY, area = 0.0, moment = 0.0;
    sw_scene *scene = job->scene;
    for (int pass = 0; pass < 2; pass++)
        for (size_t i = 0; i < job->sample_count; i++) {
            const scene_sample *s = &job->samples[i];
            double z = (double)s->at.z_mm, w = (double)s->weight_m2;
            if (s->cell == SCENE_NONE || (double)s->at.normal[2] < 0.7 || !scene_inside(job, s->cell)) continue;
            if (z < job->bed_mm || z > job->level_mm) continue;
            if (pass == 0) lowest = fmin(lowest, z);
            if (pass == 0 || z > lowest + thick_mm || job->bodies[s->body].kind == SW_PART_GRATE) continue;
            area += w;
            moment += w * z;
        }
    for (size_t i = 0; i < job->body_count; i++) {
        const scene_body *b = &job->bodies[i];
        if (b->kind != SW_PART_GRATE || b->mesh.triangle_count == 0) continue;
        sw_vec3 low, high;
        sw_mesh_box(&b->mesh, &low, &high);
        double outline = b->item >= 0 ? fabs(sw_contour_area(job->stove->items[b->item].shape.outline))
                                      : (high.x_mm - low.x_mm) * (high.y_mm - low.y_mm);
        area += sw_m2_from_mm2(outline);
        moment += sw_m2_from_mm2(outline) * high.z_mm;
    }
    scene->base_m2 = area;
    scene->bed_height_m = area > 0.0 ? sw_m_from_mm(moment / area) : (double)NAN;
}

void scene_spaces(const scene_job *job)
{
    sw_scene *s = job->scene;
    space below = measure(job, job->bed_mm, job->level_mm);
    s->firebox_m3 = below.chords / 4.0;
    s->firebox_m2 = below.skin_m2 + below.open_m2;
    s->upper_m3 = s->upper_m2 = 0.0;
    if (isfinite(job->level_mm)) {
        space above = measure(job, job->level_mm, (double)INFINITY);
        s->upper_m3 = above.chords / 4.0;
        s->upper_m2 = above.skin_m2 + above.open_m2;
    }
    measure_bed(job);
}
