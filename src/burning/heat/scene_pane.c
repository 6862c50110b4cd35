/* scene_pane.c: a pane that the description only weighs (a bent glass, say) gets the shape of the window it closes: the
 * largest hole of the doors of its group, with a rim all round, hung on the inner side. */
#include "burning/heat/scene_parts.h"

#include <math.h>
#include <string.h>

#define RIM_MM   10.0 /* beyond the hole on each side; common practice, no source */
#define GLASS_MM 4.0  /* usual glass-ceramic */
#define OFF_MM   1.0  /* between sheet and pane, where the tape lies */
enum { STRIPS = 12 };

typedef struct window {
    const scene_body *door; /* NULL = none */
    const sw_bend *bend;    /* of a zone; NULL = a hole of `face` */
    int face;
    sw_box box; /* of the hole in the face, or along and round (mm of arc) the zone */
    double area_mm2;
} window;

static void take_larger(window *best, window w)
{
    w.area_mm2 = (w.box.x1_mm - w.box.x0_mm) * (w.box.y1_mm - w.box.y0_mm);
    if (w.area_mm2 > best->area_mm2) *best = w;
}

static double middle_radius_mm(const sw_piece *p, const sw_bend *bend)
{
    return bend->radius_mm + p->thickness_mm / 2.0;
}

static void look_through(const sw_piece *p, const scene_body *door, window *best)
{
    for (size_t f = 0; f < p->face_count; f++)
        for (size_t h = 0; h < p->faces[f].region.hole_count; h++)
            take_larger(best, (window){door, NULL, (int)f, sw_contour_box(p->faces[f].region.holes[h]), 0.0});
    for (size_t i = 0; i < p->bend_count; i++) {
        const sw_bend *bend = &p->bends[i];
        for (size_t h = 0; h < bend->hole_count; h++) {
            const sw_zone_hole *z = &bend->holes[h];
            sw_box c = sw_contour_box(z->contour);
            double round_mm = z->angle_rad * middle_radius_mm(p, bend);
            sw_box box = {z->along_mm + c.x0_mm, round_mm + c.y0_mm, z->along_mm + c.x1_mm, round_mm + c.y1_mm};
            take_larger(best, (window){door, bend, bend->parent, box, 0.0});
        }
    }
}

/* Point of a zone of `bend` at `along` the child's x and `round` the zone, `in` towards its inner side of the middle;
 * parent's frame. */
static sw_vec3 zone_point(const sw_piece *p, const sw_bend *bend, double along_mm, double round_mm, double in_mm)
{
    double R_mm = middle_radius_mm(p, bend), angle = round_mm / R_mm, sign = bend->angle_rad < 0.0 ? -1.0 : 1.0;
    double dx = bend->from.x_mm - bend->to.x_mm, dy = bend->from.y_mm - bend->to.y_mm, w = hypot(dx, dy);
    double ux = dx / w, uy = dy / w; /* the child's x; the way off the parent is to the right of `from` to `to` */
    double off_mm = (R_mm - in_mm) * sin(angle), up_mm = R_mm - (R_mm - in_mm) * cos(angle);
    return (sw_vec3){bend->to.x_mm + along_mm * ux - off_mm * uy, bend->to.y_mm + along_mm * uy + off_mm * ux,
                     sign * up_mm};
}

static sw_vec3 window_point(const sw_piece *p, const window *w, double x_mm, double y_mm, double in_mm)
{
    if (w->bend != NULL) return zone_point(p, w->bend, x_mm, y_mm, in_mm);
    return (sw_vec3){x_mm, y_mm, in_mm};
}

/* A band of quads from one edge of the window to the other, closed all round. */
static void lay_pane(const sw_piece *p, const window *w, double in_mm, double out_mm, sw_vec3 *points, sw_triangle *t)
{
    double x0 = w->box.x0_mm - RIM_MM, x1 = w->box.x1_mm + RIM_MM;
    double y0 = w->box.y0_mm - RIM_MM, y1 = w->box.y1_mm + RIM_MM;
    for (uint32_t i = 0; i <= STRIPS; i++) {
        double y = y0 + (y1 - y0) * i / STRIPS;
        points[4 * i] = window_point(p, w, x0, y, in_mm);
        points[4 * i + 1] = window_point(p, w, x1, y, in_mm);
        points[4 * i + 2] = window_point(p, w, x1, y, out_mm);
        points[4 * i + 3] = window_point(p, w, x0, y, out_mm);
    }
    for (uint32_t i = 0; i < STRIPS; i++)
        for (uint32_t k = 0; k < 4; k++) {
            uint32_t a = 4 * i + k, b = 4 * i + (k + 1) % 4;
            *t++ = (sw_triangle){a, b, b + 4};
            *t++ = (sw_triangle){a, b + 4, a + 4};
        }
    *t++ = (sw_triangle){0, 3, 2};
    *t++ = (sw_triangle){0, 2, 1};
    uint32_t e = 4 * STRIPS;
    *t++ = (sw_triangle){e, e + 1, e + 2};
    *t++ = (sw_triangle){e, e + 2, e + 3};
}

static void turn_inside_out(sw_triangle *t, size_t count)
{
    for (size_t i = 0; i < count; i++) t[i] = (sw_triangle){t[i].a, t[i].c, t[i].b};
}

/* The side of a flat window that the stove lies on: towards the back. */
static double inner_sign(const window *w, const sw_frame *frame)
{
    if (w->bend != NULL) return 1.0;
    return frame->z.y_mm < 0.0 ? -1.0 : 1.0;
}

static window window_of_group(const scene_job *job, const char *group)
{
    window w = {0};
    for (size_t i = 0; i < job->body_count; i++) {
        const scene_body *b = &job->bodies[i];
        if (b->piece >= 0 && b->kind == SW_PART_DOOR && strcmp(b->group, group) == 0)
            look_through(&job->stove->pieces[b->piece], b, &w);
    }
    return w;
}

sw_status scene_pane_shape(sw_run *run, scene_job *job, scene_body *pane)
{
    const window w = window_of_group(job, pane->group);
    if (w.door == NULL) return SW_OK;
    const sw_piece *p = &job->stove->pieces[w.door->piece];
    sw_vec3 *points = SW_SCRATCH(run, 4 * (STRIPS + 1), sw_vec3);
    const size_t count = 8 * STRIPS + 4;
    sw_triangle *triangles = SW_SCRATCH(run, count, sw_triangle);
    if (points == NULL || triangles == NULL) return SW_NO_MEMORY;
    double thick_mm = pane->thickness_m > 0.0 ? sw_mm_from_m(pane->thickness_m) : GLASS_MM;
    sw_frame in_door = sw_frame_in(w.door->frame, job->sheet->pieces[w.door->piece].solid.faces[w.face]);
    double sign = inner_sign(&w, &in_door), near_mm = sign * (p->thickness_mm / 2.0 + OFF_MM);
    lay_pane(p, &w, near_mm + sign * thick_mm, near_mm, points, triangles);
    sw_mesh local = {points, 4 * (STRIPS + 1), triangles, count};
    if (sw_mesh_volume(&local) < 0.0) turn_inside_out(triangles, count);
    SW_TRY(scene_mesh_placed(run, &local, &in_door, &pane->mesh));
    pane->thickness_m = sw_m_from_mm(thick_mm);
    pane->area_m2 = sw_m2_from_mm2(sw_mesh_volume(&pane->mesh) / thick_mm);
    return SW_OK;
}

/* ---- doors without one ------------------------------------------------------------------------------------------- */

static bool has_pane(const scene_job *job, const char *group)
{
    for (size_t i = 0; i < job->body_count; i++)
        if (job->bodies[i].kind == SW_PART_PANE && strcmp(job->bodies[i].group, group) == 0) return true;
    return false;
}

sw_status scene_pane_findings(sw_run *run, scene_job *job)
{
    static const double least_mm2 = 5000; /* slots for air and holes for pins are smaller. Ours */
    for (size_t i = 0; i < job->body_count; i++) {
        const scene_body *b = &job->bodies[i];
        window w = {0};
        if (b->piece < 0 || b->kind != SW_PART_DOOR || has_pane(job, b->group)) continue;
        look_through(&job->stove->pieces[b->piece], b, &w);
        if (!(w.area_mm2 > least_mm2)) continue;
        const char *what = sw_text_format(
            run, run->keep, "its window of %.0f by %.0f mm has no pane; the air that it lets in is in no sum",
            w.box.x1_mm - w.box.x0_mm, w.box.y1_mm - w.box.y0_mm);
        SW_TRY(scene_note(run, job,
                          (scene_remark){"open_window", b->name, b->place, SW_FAILS, what,
                                         "an item of the role \"glass\" in the door's group"}));
    }
    return SW_OK;
}
