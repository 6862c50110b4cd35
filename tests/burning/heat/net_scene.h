/* net_scene.h: small scenes for the tests of the heat network, put together surface by surface. */
#ifndef SW_TESTS_NET_SCENE_H
#define SW_TESTS_NET_SCENE_H

#include "sw_test.h"
#include "wood_fire.h"

#include <math.h>

enum { NS_PARTS = 40, NS_SURFACES = 90, NS_CONTACTS = 60 };

typedef struct net_scene {
    sw_scene_part parts[NS_PARTS];
    sw_scene_surface surfaces[NS_SURFACES];
    sw_scene_contact contacts[NS_CONTACTS];
    double view_m2[(NS_SURFACES + 1) * (NS_SURFACES + 1)];
    sw_scene s;
    sw_heat_model model;
    sw_heat_fire fire;
    sw_heat_room room;
} net_scene;

/* Wet gas of air alone, of no radiation. */
static inline sw_heat_fire ns_air_fire(double heat_w, double kg_s, double air_k)
{
    double kmol = 1 / (0.21 * sw_gas_kg_kmol(SW_GAS_O2) + 0.79 * sw_gas_kg_kmol(SW_GAS_N2));
    sw_heat_fire f = {.heat_w = heat_w, .air_kg_s = kg_s, .gas_kg_s = kg_s, .air_k = air_k};
    f.gas.kmol[SW_GAS_O2] = 0.21 * kmol;
    f.gas.kmol[SW_GAS_N2] = 0.79 * kmol;
    return f;
}

static inline net_scene *ns_new(sw_test *t)
{
    net_scene *n = SW_KEEP(&t->run, 1, net_scene);
    n->s = (sw_scene){.parts = n->parts, .surfaces = n->surfaces, .contacts = n->contacts, .view_m2 = n->view_m2};
    n->s.gap_in_m2 = n->s.gap_out_m2 = NAN;
    n->s.throat_m2 = n->s.base_m2 = 0.02;
    n->model = sw_heat_model_defaults();
    n->room = (sw_heat_room){sw_k_from_c(20), sw_k_from_c(20)};
    n->fire = ns_air_fire(0, 0, sw_k_from_c(20));
    return n;
}

static inline size_t ns_part(net_scene *n, const char *name, sw_part_class kind, const char *material, double m2,
                             double thick_m)
{
    const sw_material *m = sw_material_find(material);
    n->parts[n->s.part_count] = (sw_scene_part){.name = name,
                                                .piece = -1,
                                                .item = -1,
                                                .kind = kind,
                                                .material = m,
                                                .thickness_m = thick_m,
                                                .mass_kg = m ? m2 * thick_m * m->density : 1,
                                                .area_m2 = m2,
                                                .layered = kind == SW_PART_LINING};
    return n->s.part_count++;
}

/* An upright surface that sees only itself until told otherwise. */
static inline size_t ns_surface(net_scene *n, size_t part, sw_medium medium, double m2, double e, double height_m)
{
    n->surfaces[n->s.surface_count] = (sw_scene_surface){.part = part,
                                                         .medium = medium,
                                                         .area_m2 = m2,
                                                         .emissivity = e,
                                                         .height_m = height_m,
                                                         .side = 1,
                                                         .middle_z_m = 1};
    n->surfaces[n->s.surface_count].hot_side = n->parts[part].layered && medium == SW_MEDIUM_FIRE;
    return n->s.surface_count++;
}

/* Views are told when all surfaces are there. b == surface_count: the room. */
static inline void ns_view(net_scene *n, size_t a, size_t b, double m2)
{
    size_t w = n->s.surface_count + 1;
    n->view_m2[a * w + b] = n->view_m2[b * w + a] = m2;
}

/* Every surface of a medium sees the others of it as their areas: F_ij = A_j/A. */
static inline void ns_mix_views(net_scene *n, sw_medium medium)
{
    double sum = 0;
    for (size_t i = 0; i < n->s.surface_count; i++)
        if (n->surfaces[i].medium == medium) sum += n->surfaces[i].area_m2;
    for (size_t i = 0; i < n->s.surface_count; i++)
        for (size_t j = 0; j <= i; j++)
            if (n->surfaces[i].medium == medium && n->surfaces[j].medium == medium)
                ns_view(n, i, j, n->surfaces[i].area_m2 * n->surfaces[j].area_m2 / sum);
}

static inline void ns_view_room(net_scene *n)
{
    for (size_t i = 0; i < n->s.surface_count; i++)
        if (n->surfaces[i].medium == SW_MEDIUM_ROOM) ns_view(n, i, n->s.surface_count, n->surfaces[i].area_m2);
}

static inline void ns_contact(net_scene *n, size_t a, size_t b, double m2, double gap_m, double edge_m)
{
    n->contacts[n->s.contact_count++] =
        (sw_scene_contact){.a = a, .b = b, .area_m2 = m2, .gap_m = gap_m, .edge_m = edge_m};
}

static inline double ns_part_c(const sw_heat_net *net, const sw_heat_state *s, size_t part, bool hot)
{
    return sw_c_from_k(s->t_k[sw_heat_net_node(net, part, hot)]);
}

static inline bool ns_steady(sw_test *t, const net_scene *n, sw_heat_net **net, sw_heat_state *state)
{
    *state = (sw_heat_state){0};
    return sw_ok(t, sw_heat_net_make(&t->run, &n->s, &n->model, net)) &&
           sw_ok(t, sw_heat_net_steady(&t->run, *net, &n->fire, &n->room, state));
}

/* A whole stove of eight parts: lined sides, back, roof, pane, baffle and a shell round a gap. */
typedef struct ns_stove {
    size_t board, wall, roof, baffle, pane, front, shell, top;
} ns_stove;

static inline ns_stove ns_box_in_box(net_scene *n, double board_m, double size)
{
    double a = size * size;
    ns_stove p = {.board = ns_part(n, "board", SW_PART_LINING, "vermiculite board", 0.40 * a, board_m),
                  .wall = ns_part(n, "wall", SW_PART_WALL, "S235", 0.55 * a, 0.004),
                  .roof = ns_part(n, "roof", SW_PART_WALL, "S235", 0.12 * a, 0.005),
                  .baffle = ns_part(n, "baffle", SW_PART_BAFFLE, "1.4301", 0.10 * a, 0.004),
                  .pane = ns_part(n, "pane", SW_PART_PANE, "glass-ceramic", 0.12 * a, 0.004),
                  .front = ns_part(n, "front", SW_PART_DOOR, "S235", 0.06 * a, 0.004),
                  .shell = ns_part(n, "shell", SW_PART_SHELL, "S235", 0.70 * a, 0.002),
                  .top = ns_part(n, "top", SW_PART_SHELL, "S235", 0.14 * a, 0.003)};
    ns_surface(n, p.board, SW_MEDIUM_FIRE, 0.40 * a, 0.90, 0.30);
    ns_surface(n, p.pane, SW_MEDIUM_FIRE, 0.12 * a, 0.87, 0.35);
    ns_surface(n, p.front, SW_MEDIUM_FIRE, 0.06 * a, 0.85, 0.35);
    ns_surface(n, p.baffle, SW_MEDIUM_FIRE, 0.10 * a, 0.70, 0.05);
    ns_surface(n, p.baffle, SW_MEDIUM_UPPER, 0.10 * a, 0.70, 0.05);
    ns_surface(n, p.wall, SW_MEDIUM_UPPER, 0.12 * a, 0.85, 0.10);
    ns_surface(n, p.roof, SW_MEDIUM_UPPER, 0.12 * a, 0.85, 0.10);
    ns_surface(n, p.wall, SW_MEDIUM_GAP, 0.55 * a, 0.90, 0.60);
    ns_surface(n, p.shell, SW_MEDIUM_GAP, 0.60 * a, 0.90, 0.80);
    ns_surface(n, p.roof, SW_MEDIUM_GAP, 0.12 * a, 0.90, 0.05);
    ns_surface(n, p.top, SW_MEDIUM_GAP, 0.12 * a, 0.90, 0.05);
    ns_surface(n, p.shell, SW_MEDIUM_ROOM, 0.70 * a, 0.90, 0.80);
    ns_surface(n, p.top, SW_MEDIUM_ROOM, 0.14 * a, 0.90, 0.05);
    ns_surface(n, p.pane, SW_MEDIUM_ROOM, 0.12 * a, 0.87, 0.35);
    ns_surface(n, p.front, SW_MEDIUM_ROOM, 0.06 * a, 0.90, 0.35);
    ns_mix_views(n, SW_MEDIUM_FIRE);
    ns_mix_views(n, SW_MEDIUM_UPPER);
    ns_mix_views(n, SW_MEDIUM_GAP);
    ns_view_room(n);
    ns_contact(n, p.board, p.wall, 0.40 * a, 0, 0);
    ns_contact(n, p.roof, p.wall, 0, 0, 1.2 * size);
    ns_contact(n, p.front, p.wall, 0.02 * a, 0.003, 0);
    ns_contact(n, p.shell, p.top, 0, 0, 1.2 * size);
    n->s.firebox_m3 = 0.045 * a * size;
    n->s.firebox_m2 = 0.68 * a;
    n->s.base_m2 = 0.11 * a;
    n->s.upper_m3 = 0.012 * a * size;
    n->s.upper_m2 = 0.34 * a;
    n->s.throat_m2 = 0.016 * a;
    n->s.gap_height_m = 0.8 * size;
    n->s.gap_width_m = 0.03 * size;
    n->s.gap_m2 = 0.03 * a;
    n->fire = wood_fire(9000 * a);
    return p;
}

#endif
