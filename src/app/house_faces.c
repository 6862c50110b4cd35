/* house_faces.c: what the house sees of a stove. Panels are read from the placed pieces and the temperatures of the network. */
#include "app/house_faces.h"

#include <math.h>
#include <string.h>

static const double emissivity = 0.9; /* painted steel, glass: as the walls of handbook S5.2 */

typedef struct extent { /* mm, stove frame */
    double low[3], high[3];
} extent;

static const extent nothing = {{INFINITY, INFINITY, INFINITY}, {-INFINITY, -INFINITY, -INFINITY}};

static void grow(extent *e, sw_vec3 p)
{
    const double v[3] = {p.x_mm, p.y_mm, p.z_mm};
    for (size_t k = 0; k < 3; k++) {
        e->low[k] = fmin(e->low[k], v[k]);
        e->high[k] = fmax(e->high[k], v[k]);
    }
}

static extent extent_of(const sw_dossier *d, size_t piece, size_t placement)
{
    extent e = nothing;
    const sw_mesh *m = &d->sheet->pieces[piece].solid.mesh;
    for (size_t i = 0; i < m->point_count; i++)
        grow(&e, sw_frame_point(d->model.stove->pieces[piece].placements[placement], m->points[i]));
    return e;
}

static extent whole_of(const sw_dossier *d)
{
    extent all = nothing;
    for (size_t i = 0; i < d->sheet->piece_count; i++)
        for (size_t k = 0; k < d->model.stove->pieces[i].count; k++) {
            extent e = extent_of(d, i, k);
            grow(&all, (sw_vec3){e.low[0], e.low[1], e.low[2]});
            grow(&all, (sw_vec3){e.high[0], e.high[1], e.high[2]});
        }
    return all;
}

/* ---- sides ---- */

/* Of the steady fire and, where one was followed, of a whole burn. */
static double warmest_k(const sw_dossier *d, size_t part)
{
    const sw_burned *b = d->burned;
    return b->through == NULL ? b->hot_k[part] : fmax(b->hot_k[part], b->through->most_k[part]);
}

typedef struct side {
    const char *name;
    int axis; /* 0 x, 1 y */
    bool high;
} side;

/* What a wall 300 mm off gets of it in the middle: of two faces the one that warms the house more. */
static double warming(const sw_hot_panel *p)
{
    static const double off_m = 0.3;
    double t2 = p->t_k * p->t_k;
    return p->t_k > 0 ? sw_wall_view(p, off_m) * t2 * t2 : 0;
}

static void take_warmer(sw_hot_panel *best, sw_hot_panel p)
{
    if (warming(&p) > warming(best)) *best = p;
}

/* A sheet of that size, less what hides behind another sheet: the panel shrinks to the area that the room sees of it. */
static sw_hot_panel panel_of(const sw_dossier *d, const char *name, size_t part, double width_mm, double height_mm)
{
    double area_m2 = sw_m2_from_mm2(width_mm * height_mm);
    double shown = fmin(sw_scene_shown_m2(d->burned->scene, part, SW_MEDIUM_ROOM) / area_m2, 1);
    return (sw_hot_panel){name, sw_m_from_mm(width_mm) * sqrt(shown), sw_m_from_mm(height_mm) * sqrt(shown),
                          warmest_k(d, part), emissivity};
}

/* Faces of a side: sheets that the room sees and that reach to the stove's outside there. */
static sw_hot_panel look_at_side(const sw_dossier *d, const extent *all, side s)
{
    /* of the stove's outside; of its width and height that a face must cover. Ours */
    static const double near_mm = 80, width_share = 0.25, height_share = 0.1;
    const sw_scene *scene = d->burned->scene;
    int along = s.axis == 0 ? 1 : 0;
    sw_hot_panel best = {.name = s.name};
    for (size_t i = 0; i < scene->part_count; i++) {
        const sw_scene_part *part = &scene->parts[i];
        if (part->piece < 0 || !sw_scene_shows(scene, i, SW_MEDIUM_ROOM)) continue;
        extent e = extent_of(d, (size_t)part->piece, part->placement);
        double off_mm = s.high ? all->high[s.axis] - e.high[s.axis] : e.low[s.axis] - all->low[s.axis];
        double width_mm = e.high[along] - e.low[along], height_mm = e.high[2] - e.low[2];
        bool wide = width_mm > width_share * (all->high[along] - all->low[along]) &&
                    height_mm > height_share * (all->high[2] - all->low[2]);
        if (off_mm > near_mm || !wide) continue;
        take_warmer(&best, panel_of(d, s.name, i, width_mm, height_mm));
    }
    return best;
}

static sw_hot_panel look_at_pane(const sw_dossier *d)
{
    const sw_scene *scene = d->burned->scene;
    sw_hot_panel best = {.name = "pane"};
    for (size_t i = 0; i < scene->part_count; i++) {
        double side_m = sqrt(scene->parts[i].area_m2);
        if (scene->parts[i].kind == SW_PART_PANE && sw_scene_shows(scene, i, SW_MEDIUM_ROOM))
            take_warmer(&best, (sw_hot_panel){"pane", side_m, side_m, warmest_k(d, i), emissivity});
    }
    return best;
}

/* Sheets near the top that the room sees and that cover a good share of it. */
static sw_hot_panel look_at_top(const sw_dossier *d, const extent *all)
{
    static const double near_mm = 80, share = 0.2;
    const sw_scene *scene = d->burned->scene;
    double box_mm2 = (all->high[0] - all->low[0]) * (all->high[1] - all->low[1]);
    sw_hot_panel best = {.name = "top"};
    for (size_t i = 0; i < scene->part_count; i++) {
        const sw_scene_part *part = &scene->parts[i];
        if (part->piece < 0 || !sw_scene_shows(scene, i, SW_MEDIUM_ROOM)) continue;
        extent e = extent_of(d, (size_t)part->piece, part->placement);
        double width_mm = e.high[0] - e.low[0], depth_mm = e.high[1] - e.low[1];
        if (all->high[2] - e.high[2] > near_mm || width_mm * depth_mm < share * box_mm2) continue;
        take_warmer(&best, panel_of(d, "top", i, width_mm, depth_mm));
    }
    return best;
}

static const sw_hot_panel *seen(const sw_hot_panel *panel)
{
    return panel->t_k > 0 ? panel : NULL;
}

/* ---- underside ---- */

/* The lowest base part whose face is as large as a good share of the stove's box: what the floor sees. t_k 0: none. */
static sw_hot_panel look_at_underside(const sw_dossier *d, const extent *all, double *under_m)
{
    static const double share = 0.5; /* ours: leaves out feet, stands and rings */
    const sw_scene *scene = d->burned->scene;
    double lowest_mm = INFINITY;
    sw_hot_panel found = {.name = "underside"};
    double box_m2 = sw_m2_from_mm2((all->high[0] - all->low[0]) * (all->high[1] - all->low[1]));
    for (size_t i = 0; i < scene->part_count; i++) {
        const sw_scene_part *part = &scene->parts[i];
        if (part->kind != SW_PART_BASE || part->piece < 0 || part->area_m2 < share * box_m2) continue;
        extent e = extent_of(d, (size_t)part->piece, part->placement);
        if (e.low[2] >= lowest_mm) continue;
        lowest_mm = e.low[2];
        found = (sw_hot_panel){"underside", sw_m_from_mm(e.high[0] - e.low[0]), sw_m_from_mm(e.high[1] - e.low[1]),
                               warmest_k(d, i), emissivity};
        *under_m = sw_m_from_mm(e.low[2] - all->low[2]);
    }
    return found;
}

/* ---- box and door ---- */

void sw_box_of(const sw_dossier *d, double *width_mm, double *depth_mm, double *height_mm)
{
    const extent all = whole_of(d);
    *width_mm = all.high[0] - all.low[0];
    *depth_mm = all.high[1] - all.low[1];
    *height_mm = all.high[2] - all.low[2];
}

void sw_door_of(const sw_dossier *d, double *width_mm, double *height_mm)
{
    *width_mm = *height_mm = 0;
    for (size_t i = 0; i < d->sheet->piece_count; i++) {
        const sw_piece *piece = &d->model.stove->pieces[i];
        if (strcmp(piece->role, "door") != 0 || piece->count == 0) continue;
        extent e = extent_of(d, i, 0);
        double wide_mm = e.high[0] - e.low[0], high_mm = e.high[2] - e.low[2];
        if (wide_mm * high_mm <= *width_mm * *height_mm) continue;
        *width_mm = wide_mm;
        *height_mm = high_mm;
    }
}

/* ---- all ---- */

sw_status sw_faces_of(sw_run *run, const sw_dossier *d, sw_site_input *in)
{
    static const side sides[] = {
        {"back", 1, true}, {"left side", 0, false}, {"right side", 0, true}, {"front", 1, false}};
    enum { SIDES = sizeof sides / sizeof *sides };
    const extent all = whole_of(d);
    sw_hot_panel *panels = SW_KEEP(run, SIDES + 3, sw_hot_panel);
    if (panels == NULL) return SW_NO_MEMORY;
    sw_box_of(d, &in->width_mm, &in->depth_mm, &in->height_mm);
    if (d->burned == NULL || d->burned->point == NULL) return SW_OK;
    for (size_t i = 0; i < SIDES; i++) panels[i] = look_at_side(d, &all, sides[i]);
    panels[SIDES] = look_at_pane(d);
    panels[SIDES + 1] = look_at_top(d, &all);
    in->back = seen(&panels[0]), in->left = seen(&panels[1]), in->right = seen(&panels[2]);
    in->front = seen(&panels[3]), in->pane = seen(&panels[SIDES]);
    in->top = seen(&panels[SIDES + 1]);
    in->warm_air_w = d->burned->point->heat.gap_w + d->burned->point->heat.shell_w + d->burned->point->heat.glass_w;
    panels[SIDES + 2] = look_at_underside(d, &all, &in->under_m);
    in->underside = seen(&panels[SIDES + 2]);
    if (in->underside != NULL) in->floor_k = in->underside->t_k;
    return SW_OK;
}

void sw_faces_of_pipe(const sw_house *house, double gas_k, sw_site_input *in)
{
    for (size_t i = 0; i < house->part_count; i++) {
        const sw_flue_part *p = &house->parts[i];
        if (!p->pipe) continue;
        double t_k =
            sw_pipe_surface_k(sw_flue_hydraulic_m(p), sw_flue_outer_m(p), sw_flue_resistance(p), gas_k, in->room_k);
        if (!(t_k > in->pipe_k) && !isnan(in->pipe_k)) continue;
        in->pipe_k = t_k;
        in->pipe_diameter_m = sw_flue_outer_m(p);
    }
}
