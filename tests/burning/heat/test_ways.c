/* Ways of heat in sheets between their joints: against the fin in closed form, and what the network makes of them. */
#include "burning/heat/net_parts.h"
#include "scene_maker.h"

static const double k_at = 473.15; /* K */

/* Of a rectangle: across its x axis, at its beginning and its end. */
static const sw_edge ends_of_plate[2] = {{.name = "left", .first = 3, .count = 1},
                                         {.name = "right", .first = 1, .count = 1}};

typedef struct strip { /* apart from a box, its ends welded to the box's front and back, wherever these are */
    const sw_scene *scene;
    size_t part, ends[2]; /* contacts */
} strip;

static bool strip_made(sw_test *t, double length_mm, strip *out)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = sw_scene_options_defaults();
    maker_box(m, "firebox wall", (sw_vec3){-200, 0, 0}, (sw_vec3){400, 300, 400}, 4.0);
    sw_piece *p = maker_plate(m, "strip", "shell", length_mm, 40, 3, maker_frame(-2000, 0, 300, 'y', 'z'));
    p->edges = ends_of_plate;
    p->edge_count = 2;
    for (int i = 0; i < 2; i++)
        m->joints[m->stove.joint_count++] =
            (sw_joint){.name = "j", .seam = SW_SEAM_FILLET, .a = {6, 0, i, -1}, .b = {i, 0, -1, 0}};
    maker_fold(m);
    if (!sw_ok(t, sw_scene_make(&t->run, &m->stove, &m->sheet, &opt, &out->scene))) return false;
    out->part = scene_part_named(out->scene, "strip");
    size_t found = 0;
    for (size_t i = 0; i < out->scene->contact_count && found < 2; i++)
        if (out->scene->contacts[i].a == out->part || out->scene->contacts[i].b == out->part) out->ends[found++] = i;
    return sw_true(t, found == 2);
}

/* What one end of a fin falls below its mean for a watt that leaves it at the other: m L from short to long. */
static void the_far_end_of_a_strip_falls_as_a_fin_does(sw_test *t)
{
    static const double length_mm[3] = {60, 150, 400};
    for (int i = 0; i < 3; i++) {
        strip s;
        if (!strip_made(t, length_mm[i], &s)) return;
        const sw_scene_part *p = &s.scene->parts[s.part];
        double kt = sw_material_conductivity(p->material, k_at) * p->thickness_m, w = 0.04;
        double h = 2 * net_side_h(SW_MEDIUM_ROOM), m = sqrt(h / kt), l = sw_m_from_mm(length_mm[i]);
        double far = 1 / (kt * w * m * sinh(m * l)) - 1 / (h * w * l),
               near = 1 / (kt * w * m * tanh(m * l)) - 1 / (h * w * l);
        double got = s.scene->way_k_w[s.ends[0] * s.scene->contact_count + s.ends[1]];
        double own = s.scene->way_k_w[s.ends[0] * s.scene->contact_count + s.ends[0]];
        sw_near(t, got / far, 1, 0.05, "derived: fin that loses h, Incropera ch. 3 (from memory)");
        sw_true(t, own > near); /* the box's plate has a way, too */
    }
}

static void ways_are_as_long_in_both_directions(sw_test *t)
{
    strip s;
    if (!strip_made(t, 150, &s)) return;
    size_t n = s.scene->contact_count;
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < i; k++)
            if (!sw_near(t, s.scene->way_k_w[i * n + k], s.scene->way_k_w[k * n + i], 1e-9, "reciprocity")) return;
}

static void a_sheet_that_is_warmed_evenly_has_no_warmer_end(sw_test *t)
{
    strip s;
    if (!strip_made(t, 150, &s)) return;
    size_t n = s.scene->contact_count;
    bool of_b = s.scene->contacts[s.ends[0]].b == s.part;
    double rise = s.scene->rise_k_w[(2 * s.ends[0] + of_b) * SW_MEDIA + SW_MEDIUM_ROOM];
    double own = s.scene->way_k_w[s.ends[0] * n + s.ends[0]];
    sw_near(t, rise / own, 0, 0.05, "derived: an even load has its mean everywhere; scatter of points");
}

static void heat_on_its_ways_is_neither_made_nor_lost(sw_test *t)
{
    strip s;
    sw_heat_net *net = NULL;
    sw_heat_model constants = sw_heat_model_defaults();
    if (!strip_made(t, 150, &s)) return;
    if (!sw_ok(t, sw_heat_net_make(&t->run, s.scene, &constants, &net)) || !sw_true(t, net->spread != NULL)) return;
    size_t wide = net->solids + 2;
    for (size_t j = 0; j < wide; j++) {
        double sum = 0;
        for (size_t i = 0; i < net->solids; i++) sum += net->spread[i * wide + j];
        if (!sw_near(t, sum, 0, 1e-9, "conservation of energy")) return;
    }
}

SW_TESTS(SW_CASE(the_far_end_of_a_strip_falls_as_a_fin_does), SW_CASE(ways_are_as_long_in_both_directions),
         SW_CASE(a_sheet_that_is_warmed_evenly_has_no_warmer_end), SW_CASE(heat_on_its_ways_is_neither_made_nor_lost))
