/* scene_ways.c: how heat runs in a sheet between the places where others touch it.
 *
 * Each sheet that is not layered is meshed coarsely in its flat and loses h, of both sides together. One watt leaves it
 * at contact j, spread over where the contact lies (weights p_j); its temperature falls by u_j, in the mean by 1/(h A).
 * What contact i falls below that mean is
 *   W_ij = p_i . u_j - 1/(h A),   (K + h M) u_j = p_j,   K: k t cot(angle)/2 over linear triangles, M: their areas
 * For a long strip with contacts on both ends that is l/(3 k t w) and -l/(6 k t w) while little is lost on the way, and the fin's
 * 1/(m k t w), 0 less the mean when all is (Incropera ch. 3, from memory). What the sheet takes up through a surface enters
 * where that surface lies: the contact rises by p_m . u_j less the same mean. k at HEAT_JOINT_K. */
#include "burning/heat/map_parts.h"

#include <math.h>
#include <stdlib.h>

/* Ours: twice as many change means of the demo stoves by some kelvin, up to 9 K, and of narrow strips up to 13 K. */
static const double triangles_each = 80;

typedef struct ways {
    scene_job *job;
    map_job shapes;
    double *way, *rise;      /* [contacts^2], [contacts][2][SW_MEDIA] */
    const scene_body **body; /* [parts] */
    /* of the sheet at hand */
    map_sheet sheet;
    size_t part, nodes;
    double h;         /* W/(m2 K), of both sides */
    double *L;        /* [nodes^2] lower triangle, factored */
    size_t *first;    /* [nodes] of each row of L the first column that is not nothing */
    double *load, *u; /* [contacts * nodes] of those on it, [nodes] */
    size_t *on;       /* [contacts] on it */
    size_t on_count;
    double *shown[SW_MEDIA]; /* [nodes] weights of what it shows to each medium */
} ways;

/* ---- plate ---- */

/* Gives its area, m2. */
static double add_triangle(ways *w, const sw_triangle *v, double kt)
{
    const sw_point *p = w->sheet.plane.points;
    uint32_t node[3] = {v->a, v->b, v->c};
    sw_point corner[3] = {p[v->a], p[v->b], p[v->c]};
    double cot[3], ux = corner[1].x_mm - corner[0].x_mm, uy = corner[1].y_mm - corner[0].y_mm;
    double twice_mm2 = ux * (corner[2].y_mm - corner[0].y_mm) - uy * (corner[2].x_mm - corner[0].x_mm);
    double area_m2 = 0.5 * sw_m2_from_mm2(twice_mm2);
    map_half_cots(corner, cot);
    for (int e = 0; e < 3; e++) {
        uint32_t a = node[e], b = node[(e + 1) % 3];
        w->L[a * w->nodes + a] += kt * cot[e] + w->h * area_m2 / 3.0;
        w->L[b * w->nodes + b] += kt * cot[e];
        w->L[(a > b ? a : b) * w->nodes + (a > b ? b : a)] -= kt * cot[e];
    }
    return area_m2;
}

static void find_first(ways *w)
{
    for (size_t i = 0; i < w->nodes; i++) {
        size_t k = 0;
        while (k < i && w->L[i * w->nodes + k] == 0.0) k++;
        w->first[i] = k;
    }
}

/* Cholesky in place, lower, within the envelope; false: not positive. */
static bool factor(ways *w)
{
    double *L = w->L;
    size_t n = w->nodes;
    find_first(w);
    for (size_t i = 0; i < n; i++)
        for (size_t k = w->first[i]; k <= i; k++) {
            double sum = L[i * n + k];
            size_t from = w->first[i] > w->first[k] ? w->first[i] : w->first[k];
            for (size_t m = from; m < k; m++) sum -= L[i * n + m] * L[k * n + m];
            if (i == k && !(sum > 0.0)) return false;
            L[i * n + k] = i == k ? sqrt(sum) : sum / L[k * n + k];
        }
    return true;
}

static void solve(const ways *w, const double *b, double *x)
{
    const double *L = w->L;
    size_t n = w->nodes;
    for (size_t i = 0; i < n; i++) {
        double sum = b[i];
        for (size_t k = w->first[i]; k < i; k++) sum -= L[i * n + k] * x[k];
        x[i] = sum / L[i * n + i];
    }
    for (size_t i = n; i-- > 0;) {
        x[i] /= L[i * n + i];
        for (size_t k = w->first[i]; k < i; k++) x[k] -= L[i * n + k] * x[i];
    }
}

/* ---- mesh in order along its longer side, so that the envelope is narrow ---- */

typedef struct place_in_row {
    double along_mm;
    uint32_t node;
} place_in_row;

static int by_place(const void *a, const void *b)
{
    const place_in_row *p = a, *q = b;
    if (p->along_mm < q->along_mm) return -1;
    if (p->along_mm > q->along_mm) return 1;
    return p->node < q->node ? -1 : p->node > q->node;
}

static sw_status put_in_order(sw_run *run, map_sheet *s)
{
    size_t n = s->plane.point_count;
    sw_box box = sw_contour_box(s->region.outline);
    bool wide = box.x1_mm - box.x0_mm > box.y1_mm - box.y0_mm;
    place_in_row *order = SW_SCRATCH(run, n + 1, place_in_row);
    sw_point *flat = SW_SCRATCH(run, n + 1, sw_point);
    sw_vec3 *points = SW_SCRATCH(run, n + 1, sw_vec3);
    uint32_t *rank = SW_SCRATCH(run, n + 1, uint32_t);
    if (order == NULL || flat == NULL || points == NULL || rank == NULL) return SW_NO_MEMORY;
    for (uint32_t i = 0; i < n; i++)
        order[i] = (place_in_row){wide ? s->plane.points[i].x_mm : s->plane.points[i].y_mm, i};
    qsort(order, n, sizeof *order, by_place);
    for (uint32_t i = 0; i < n; i++) {
        flat[i] = s->plane.points[order[i].node];
        points[i] = s->points[order[i].node];
        rank[order[i].node] = i;
    }
    for (size_t i = 0; i < s->plane.triangle_count; i++) {
        sw_triangle *t = &s->plane.triangles[i];
        *t = (sw_triangle){rank[t->a], rank[t->b], rank[t->c]};
    }
    s->plane.points = flat;
    s->points = points;
    return SW_OK;
}

/* ---- where contacts lie ---- */

static void put(const ways *w, sw_vec3 at, double weight, double *load)
{
    load[map_nearest_point(&w->sheet, at)] += weight;
}

static void load_samples(const ways *w, const scene_body *of, uint32_t pressed, double *load)
{
    for (size_t i = of->first; i < of->first + of->count; i++)
        if (w->job->samples[i].pressed == pressed)
            put(w, scene_place(&w->job->samples[i].at), (double)w->job->samples[i].weight_m2, load);
}

static void load_straight(const ways *w, sw_vec3 from, sw_vec3 to, double *load)
{
    sw_vec3 way = sw_vec3_sub(to, from);
    double length_mm = sw_vec3_length(way);
    size_t steps = (size_t)ceil(length_mm / (0.5 * w->sheet.side_mm));
    for (size_t i = 0; i < steps; i++)
        put(w, sw_vec3_add(from, sw_vec3_scaled(way, ((double)i + 0.5) / (double)steps)), length_mm / (double)steps,
            load);
}

static uint32_t body_at(const scene_job *job, const sw_joint_end *end)
{
    if (end->piece < 0 || end->placement < 0) return SCENE_NONE;
    return (uint32_t)(job->piece_first[end->piece] + (size_t)end->placement);
}

static bool has_edge(const scene_job *job, const sw_joint_end *end)
{
    return end->edge >= 0 && (size_t)end->edge < job->stove->pieces[end->piece].edge_count;
}

static void load_seams(const ways *w, const scene_body *a, const scene_body *b, double *load)
{
    const scene_job *job = w->job;
    for (size_t i = 0; i < job->stove->joint_count; i++) {
        const sw_joint *j = &job->stove->joints[i];
        uint32_t p = body_at(job, &j->a), q = body_at(job, &j->b);
        if (j->seam == SW_SEAM_NONE || p == SCENE_NONE || q == SCENE_NONE || !has_edge(job, &j->a)) continue;
        const scene_body *x = &job->bodies[p], *y = &job->bodies[q];
        if (!((x == a && y == b) || (x == b && y == a))) continue;
        const sw_folded_edge *edge = &job->sheet->pieces[j->a.piece].solid.edges[j->a.edge];
        for (size_t k = 0; k + 1 < edge->count; k++)
            load_straight(w, sw_frame_point(x->frame, edge->points[k]), sw_frame_point(x->frame, edge->points[k + 1]),
                          load);
    }
}

static void to_one(double *weights, size_t count)
{
    double sum = 0.0;
    for (size_t i = 0; i < count; i++) sum += weights[i];
    for (size_t i = 0; i < count; i++) weights[i] = sum > 0.0 ? weights[i] / sum : 0.0;
}

/* Weights of one contact over the sheet's nodes; they sum to 1. Where nothing tells, it is spread evenly and has no way. */
static void fill_load(const ways *w, size_t contact, double *load)
{
    const scene_job *job = w->job;
    const sw_scene_contact *c = &job->contacts[contact];
    const scene_body *a = w->body[c->a], *b = w->body[c->b], *own = w->body[w->part], *other = own == a ? b : a;
    uint32_t small = job->contact_by[contact];
    if (c->edge_m > 0.0) {
        load_seams(w, a, b, load);
    } else if (small != SCENE_NONE) {
        load_samples(w, &job->bodies[small], (uint32_t)(own - job->bodies), load);
    } else if (other->mesh.triangle_count == 0) {
        put(w, other->frame.origin, 1.0, load);
    } else {
        load_samples(w, own, (uint32_t)(other - job->bodies), load);
        load_samples(w, other, (uint32_t)(own - job->bodies), load);
    }
    to_one(load, w->nodes);
}

static size_t mixed(size_t i)
{
    return (size_t)((uint32_t)i * 2654435761U >> 16);
}

static void fill_shown(const ways *w)
{
    enum { ENOUGH = 150 }; /* of its points; ours */
    const scene_body *own = w->body[w->part];
    size_t step = own->count > ENOUGH ? own->count / ENOUGH : 1;
    for (size_t i = 0; i < own->count; i++) {
        const scene_sample *s = &w->job->samples[own->first + i];
        if (mixed(i) % step != 0) continue; /* both skins lie in turns: a plain step would miss one */
        if (!scene_open(s) || s->cell == SCENE_NONE) continue;
        uint32_t surface = scene_surface_of(w->job, s->body, s->cell, &s->at);
        if (surface != SCENE_NONE) put(w, scene_place(&s->at), 1.0, w->shown[w->job->surfaces[surface].medium]);
    }
    for (int m = 0; m < SW_MEDIA; m++) to_one(w->shown[m], w->nodes);
}

/* ---- one sheet ---- */

static void list_contacts(ways *w)
{
    const sw_scene *s = w->job->scene;
    w->on_count = 0;
    for (size_t i = 0; i < s->contact_count; i++)
        if (s->contacts[i].a == w->part || s->contacts[i].b == w->part) w->on[w->on_count++] = i;
}

/* Two sides, each by what it faces; a rim or a side against another part counts as the mean of the rest. */
static double both_sides_h(const ways *w)
{
    const sw_scene *s = w->job->scene;
    double sum = 0.0, area_m2 = 0.0;
    for (size_t i = 0; i < s->surface_count; i++) {
        if (s->surfaces[i].part != w->part) continue;
        sum += s->surfaces[i].area_m2 * net_side_h(s->surfaces[i].medium);
        area_m2 += s->surfaces[i].area_m2;
    }
    return 2.0 * (area_m2 > 0.0 ? sum / area_m2 : net_side_h(SW_MEDIUM_GAP));
}

static double sign_of(const ways *w, size_t contact)
{
    return w->job->contacts[contact].a == w->part ? 1.0 : -1.0;
}

static bool is_known(const ways *w, const double *load)
{
    double met = 0.0;
    for (size_t k = 0; k < w->nodes; k++) met += load[k];
    return met > 0.0;
}

/* p . u less the mean, W_ij of the opening comment; 0 where no weights are known: spread evenly, it has no way. */
static double over_mean(const ways *w, const double *p, double mean)
{
    double sum = 0.0, met = 0.0;
    for (size_t k = 0; k < w->nodes; k++) sum += p[k] * w->u[k], met += p[k];
    return met > 0.0 ? sum - mean : 0.0;
}

/* Without a mesh or a place: a seam's way as net_links.c has it, and of other contacts none. */
static void add_plain(ways *w, size_t contact, double kt)
{
    const sw_scene *s = w->job->scene;
    const sw_scene_contact *c = &s->contacts[contact];
    if (c->edge_m > 0.0 && kt > 0.0)
        w->way[contact * s->contact_count + contact] +=
            fmin(s->parts[w->part].area_m2 / c->edge_m / 3.0, sqrt(kt / w->h)) / (kt * c->edge_m);
}

static void add_ways(ways *w, double area_m2, double kt)
{
    size_t all = w->job->scene->contact_count;
    double mean = 1.0 / (w->h * area_m2);
    for (size_t j = 0; j < w->on_count; j++) {
        size_t own = w->on[j];
        const double *load = &w->load[j * w->nodes];
        double *rise = &w->rise[(2 * own + (w->job->contacts[own].a == w->part ? 0 : 1)) * SW_MEDIA];
        if (!is_known(w, load)) {
            add_plain(w, own, kt);
            continue;
        }
        solve(w, load, w->u);
        for (size_t i = 0; i < w->on_count; i++)
            w->way[w->on[i] * all + own] +=
                sign_of(w, w->on[i]) * sign_of(w, own) * over_mean(w, &w->load[i * w->nodes], mean);
        for (int m = 0; m < SW_MEDIA; m++) rise[m] = over_mean(w, w->shown[m], mean);
    }
}

static sw_status open_sheet(sw_run *run, ways *w)
{
    size_t n = w->nodes = w->sheet.plane.point_count;
    w->L = SW_SCRATCH(run, n * n + 1, double);
    w->first = SW_SCRATCH(run, n + 1, size_t);
    w->load = SW_SCRATCH(run, n * w->on_count + 1, double);
    w->u = SW_SCRATCH(run, n + 1, double);
    for (int m = 0; m < SW_MEDIA; m++)
        if ((w->shown[m] = SW_SCRATCH(run, n + 1, double)) == NULL) return SW_NO_MEMORY;
    return w->L == NULL || w->first == NULL || w->load == NULL || w->u == NULL ? SW_NO_MEMORY : SW_OK;
}

/* false: no shape, or one beyond the mesh. */
static sw_status mesh_sheet(sw_run *run, ways *w, double kt, double *area_m2, bool *done)
{
    SW_TRY(map_sheet_alone(run, &w->shapes, w->body[w->part], triangles_each, &w->sheet));
    *done = false;
    if (w->sheet.plane.point_count == 0) return SW_OK;
    SW_TRY(put_in_order(run, &w->sheet));
    SW_TRY(open_sheet(run, w));
    for (size_t i = 0; i < w->sheet.plane.triangle_count; i++)
        *area_m2 += add_triangle(w, &w->sheet.plane.triangles[i], kt);
    *done = factor(w);
    return SW_OK;
}

static sw_status one_sheet(sw_run *run, ways *w)
{
    const scene_body *b = w->body[w->part];
    double kt = sw_material_conductivity(b->material, HEAT_JOINT_K) * b->thickness_m, area_m2 = 0.0;
    bool meshed;
    list_contacts(w);
    w->h = both_sides_h(w);
    if (b->layered || w->on_count == 0 || !(kt > 0.0)) return SW_OK;
    SW_TRY(mesh_sheet(run, w, kt, &area_m2, &meshed));
    if (!meshed) {
        for (size_t i = 0; i < w->on_count; i++) add_plain(w, w->on[i], kt);
        return SW_OK;
    }
    for (size_t i = 0; i < w->on_count; i++) fill_load(w, w->on[i], &w->load[i * w->nodes]);
    fill_shown(w);
    add_ways(w, area_m2, kt);
    return SW_OK;
}

static sw_status one_sheet_in_scratch(sw_run *run, ways *w)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = one_sheet(run, w);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

sw_status scene_ways(sw_run *run, scene_job *job)
{
    size_t parts = job->scene->part_count, contacts = job->scene->contact_count;
    ways w = {.job = job, .shapes = {.stove = job->stove, .result = job->sheet}};
    w.way = SW_KEEP(run, contacts * contacts + 1, double);
    w.rise = SW_KEEP(run, 2 * SW_MEDIA * contacts + 1, double);
    w.body = SW_SCRATCH(run, parts + 1, const scene_body *);
    w.on = SW_SCRATCH(run, contacts + 1, size_t);
    if (w.way == NULL || w.rise == NULL || w.body == NULL || w.on == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->body_count; i++)
        if (job->bodies[i].part != SCENE_NONE) w.body[job->bodies[i].part] = &job->bodies[i];
    for (w.part = 0; w.part < parts; w.part++) SW_TRY(one_sheet_in_scratch(run, &w));
    job->scene->way_k_w = w.way;
    job->scene->rise_k_w = w.rise;
    return SW_OK;
}
