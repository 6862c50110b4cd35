/* net_links.c: conduction between nodes: through a lining, where parts touch or nearly touch, along joints of sheets.
 *
 * Lining: A k(T_m)/d, exact for k linear in temperature. Sheet on sheet: a dry metal joint, 1 to 5e-4 m2 K/W (common practice,
 * no source); board on anything: the model's contact_r; over a thin gap: still air and radiation between the faces.
 *
 * Joint (ours): each sheet is one temperature, its mean. From the joint heat spreads into the sheet as into a fin that loses h
 * on both sides: over a length 1/m = sqrt(k t/(2 h)), but never more than a third of the sheet's width A/edge, which is the
 * way from the edge to the mean of an evenly heated plate. Two such ways in line:
 *   G = edge/(l_a/(k_a t_a) + l_b/(k_b t_b)) */
#include "burning/heat/net_parts.h"

#include <math.h>

static const double metal_joint_r = 3e-4; /* m2 K/W */
static const double fin_h = 15;           /* W/(m2 K), of one side of a warm sheet: film and radiation; ours */
static const double thinnest_m = 1e-4;    /* of an air gap */

static double held_air_k(double t_k)
{
    return net_held(t_k, 200, 1500);
}

double net_link_w_k(const sw_heat_net *net, const net_link *link, double a_k, double b_k)
{
    double mean_k = 0.5 * (a_k + b_k);
    if (link->kind == NET_LINK_FIXED) return link->g;
    if (link->kind == NET_LINK_LAYER)
        return link->g * net->model.lining_k_factor * sw_material_conductivity(link->material, mean_k);
    double radiant = SW_STEFAN_BOLTZMANN * (a_k * a_k + b_k * b_k) * (a_k + b_k);
    return link->g * sw_air_at(held_air_k(mean_k)).conductivity + link->radiant_m2 * radiant - link->less_w_k;
}

static double way_m_k_w(const sw_scene_part *p, double edge_m)
{
    double kt = sw_material_conductivity(p->material, HEAT_JOINT_K) * p->thickness_m;
    if (!(kt > 0)) return INFINITY;
    return fmin(p->area_m2 / edge_m / 3, sqrt(kt / (2 * fin_h))) / kt;
}

static double joint_w_k(const sw_scene *scene, const sw_scene_contact *c)
{
    double way = way_m_k_w(&scene->parts[c->a], c->edge_m) + way_m_k_w(&scene->parts[c->b], c->edge_m);
    return way > 0 ? c->edge_m / way : 0;
}

static double usual_emissivity(const sw_scene_part *p)
{
    return p->material->emissivity > 0 ? p->material->emissivity : 1;
}

net_link net_touch(const sw_heat_net *net, const sw_scene_contact *c)
{
    const sw_scene_part *a = &net->scene->parts[c->a], *b = &net->scene->parts[c->b];
    net_link link = {.kind = NET_LINK_FIXED, .contact = NET_NO_CONTACT};
    if (c->gap_m > 0) {
        link.kind = NET_LINK_AIR;
        link.g = c->area_m2 / fmax(c->gap_m, thinnest_m);
        link.radiant_m2 = c->area_m2 / (1 / usual_emissivity(a) + 1 / usual_emissivity(b) - 1);
    } else {
        double r = a->layered || b->layered ? net->model.contact_r : metal_joint_r;
        link.g = 1 / (r / c->area_m2 + c->between_k_w);
    }
    return link;
}

double net_bead_w_m_k(const sw_scene_part *a, const sw_scene_part *b)
{
    return fmin(sw_material_conductivity(a->material, HEAT_JOINT_K),
                sw_material_conductivity(b->material, HEAT_JOINT_K));
}

static net_link link_of(const sw_heat_net *net, const sw_scene_contact *c)
{
    const sw_scene *s = net->scene;
    if (!(c->edge_m > 0)) return net_touch(net, c);
    double bead = c->edge_m * net_bead_w_m_k(&s->parts[c->a], &s->parts[c->b]);
    return (net_link){.kind = NET_LINK_FIXED, .g = s->way_k_w != NULL && bead > 0 ? bead : joint_w_k(s, c)};
}

static void add(sw_heat_net *net, net_link link, size_t a, size_t b, double share)
{
    link.a = a;
    link.b = b;
    link.g *= share;
    link.radiant_m2 *= share;
    link.share = share;
    if (a != b) net->links[net->link_count++] = link;
}

/* A lining lies with its cold side against sheet; two linings meet, and a baffle or grate meets a lining, with both. */
static bool lies_behind(const sw_scene_part *p)
{
    return !p->layered && p->kind != SW_PART_BAFFLE && p->kind != SW_PART_GRATE;
}

static void add_contact(sw_heat_net *net, const sw_scene_contact *c)
{
    const sw_scene_part *a = &net->scene->parts[c->a], *b = &net->scene->parts[c->b];
    net_link link = link_of(net, c);
    link.contact = (size_t)(c - net->scene->contacts);
    bool sheet_behind = (a->layered && lies_behind(b)) || (b->layered && lies_behind(a));
    if ((!a->layered && !b->layered) || sheet_behind) {
        add(net, link, net->cold[c->a], net->cold[c->b], 1);
        return;
    }
    add(net, link, net->cold[c->a], net->cold[c->b], 0.5);
    add(net, link, net->hot[c->a], net->hot[c->b], 0.5);
}

sw_status net_links_make(sw_run *run, sw_heat_net *net)
{
    const sw_scene *scene = net->scene;
    net->links = SW_KEEP(run, net->parts + 2 * scene->contact_count, net_link);
    if (net->links == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < net->parts; i++) {
        const sw_scene_part *p = &scene->parts[i];
        net_link layer = {.kind = NET_LINK_LAYER, .material = p->material, .contact = NET_NO_CONTACT};
        if (p->layered) layer.g = p->area_m2 / p->thickness_m;
        if (p->layered) add(net, layer, net->hot[i], net->cold[i], 1);
    }
    for (size_t i = 0; i < scene->contact_count; i++) add_contact(net, &scene->contacts[i]);
    return scene->way_k_w != NULL ? net_ways_make(run, net) : SW_OK;
}
