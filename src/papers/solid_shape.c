/* solid_shape.c: prepares a body for pictures once, from wherever it is seen later: its triangles joined to flats, the
 * borders of these, and the edges that can ever be drawn. An edge between two triangles of one plane can not. */
#include "papers/papers_parts.h"

#include <math.h>

#define SHARP_COSINE 0.92 /* edges flatter than about 23 degrees are not drawn: facets of a roll stay unseen */
#define PLANE_COSINE (1.0 - 1e-9)

/* ---- corners at one place become one ---- */

static size_t slots_for(size_t count)
{
    size_t n = 64;
    while (n < 2 * count) n *= 2;
    return n;
}

static uint64_t mixed(uint64_t x)
{
    x ^= x >> 30;
    x *= 0xbf58476d1ce4e5b9u;
    x ^= x >> 27;
    x *= 0x94d049bb133111ebu;
    return x ^ (x >> 31);
}

static uint64_t place_key(sw_vec3 p)
{
    const double fineness = 64.0; /* steps a mm: finer than any line on paper, coarser than rounding */
    uint64_t x = (uint64_t)(int64_t)llround(p.x_mm * fineness), y = (uint64_t)(int64_t)llround(p.y_mm * fineness);
    uint64_t z = (uint64_t)(int64_t)llround(p.z_mm * fineness);
    return mixed(x + 0x9e3779b97f4a7c15u * mixed(y + 0x9e3779b97f4a7c15u * mixed(z)));
}

static sw_status welded(sw_run *run, const sw_mesh *s, const uint32_t **out)
{
    size_t n = slots_for(s->point_count);
    uint32_t *same = SW_SCRATCH(run, s->point_count + 1, uint32_t), *slots = SW_SCRATCH(run, n, uint32_t);
    uint64_t *keys = SW_SCRATCH(run, s->point_count + 1, uint64_t);
    if (same == NULL || slots == NULL || keys == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->point_count; i++) {
        keys[i] = place_key(s->points[i]);
        size_t slot = (size_t)keys[i] & (n - 1);
        while (slots[slot] != 0 && keys[slots[slot] - 1] != keys[i]) slot = (slot + 1) & (n - 1);
        if (slots[slot] == 0) slots[slot] = (uint32_t)i + 1;
        same[i] = slots[slot] - 1;
    }
    *out = same;
    return SW_OK;
}

/* ---- seams: edges with their one or two triangles ---- */

typedef struct seam {
    uint32_t a, b;          /* points, the lower number first */
    uint32_t first, second; /* triangles + 1; 0 = none */
    bool within, sharp;     /* within one plane */
} seam;

typedef struct joiner {
    const sw_mesh *mesh;
    const uint32_t *same; /* [point_count] the first point at the same place */
    seam *seams;          /* [seam_count], at most 3 x triangle_count */
    size_t seam_count;
    uint32_t *slots; /* [mask + 1] seam + 1; 0 = free */
    size_t mask;
    uint32_t *sides;   /* [3 x triangle_count] seam + 1 of the sides ab, bc, ca; 0 = the seam has two already */
    sw_vec3 *normals;  /* [triangle_count] outward, unit; 0 of a triangle without area */
    uint32_t *leaders; /* [triangle_count] a lower triangle of the same flat, or itself */
    uint32_t *flat_of; /* [triangle_count] */
} joiner;

static sw_status joiner_open(sw_run *run, const sw_mesh *m, joiner *j)
{
    size_t n = m->triangle_count + 1, slots = slots_for(2 * n);
    *j = (joiner){.mesh = m,
                  .seams = SW_SCRATCH(run, 3 * n, seam),
                  .slots = SW_SCRATCH(run, slots, uint32_t),
                  .mask = slots - 1,
                  .sides = SW_SCRATCH(run, 3 * n, uint32_t),
                  .normals = SW_SCRATCH(run, n, sw_vec3),
                  .leaders = SW_SCRATCH(run, n, uint32_t),
                  .flat_of = SW_SCRATCH(run, n, uint32_t)};
    bool whole = j->seams != NULL && j->slots != NULL && j->sides != NULL && j->normals != NULL && j->leaders != NULL &&
                 j->flat_of != NULL;
    return whole ? welded(run, m, &j->same) : SW_NO_MEMORY;
}

/* The seam between two points, made if there is none. */
static seam *seam_at(joiner *j, uint32_t a, uint32_t b)
{
    uint32_t low = a < b ? a : b, high = a < b ? b : a;
    size_t slot = (size_t)mixed((uint64_t)low << 32 | high) & j->mask;
    for (; j->slots[slot] != 0; slot = (slot + 1) & j->mask) {
        seam *known = &j->seams[j->slots[slot] - 1];
        if (known->a == low && known->b == high) return known;
    }
    seam *made = &j->seams[j->seam_count++];
    *made = (seam){.a = low, .b = high};
    j->slots[slot] = (uint32_t)j->seam_count;
    return made;
}

static void note_side(joiner *j, uint32_t a, uint32_t b, size_t triangle, uint32_t *side)
{
    seam *s = seam_at(j, j->same[a], j->same[b]);
    if (s->second != 0) return;
    *(s->first == 0 ? &s->first : &s->second) = (uint32_t)triangle + 1;
    *side = (uint32_t)(s - j->seams) + 1;
}

static void find_seams(joiner *j)
{
    for (size_t i = 0; i < j->mesh->triangle_count; i++) {
        const sw_triangle *t = &j->mesh->triangles[i];
        note_side(j, t->a, t->b, i, &j->sides[3 * i]);
        note_side(j, t->b, t->c, i, &j->sides[3 * i + 1]);
        note_side(j, t->c, t->a, i, &j->sides[3 * i + 2]);
    }
}

/* ---- flats: triangles joined over the seams within a plane ---- */

static void find_normals(joiner *j)
{
    for (size_t i = 0; i < j->mesh->triangle_count; i++) {
        const sw_triangle *t = &j->mesh->triangles[i];
        sw_vec3 a = j->mesh->points[t->a];
        sw_vec3 n = sw_vec3_cross(sw_vec3_sub(j->mesh->points[t->b], a), sw_vec3_sub(j->mesh->points[t->c], a));
        double length = sw_vec3_length(n);
        if (length > 0.0) j->normals[i] = sw_vec3_scaled(n, 1.0 / length);
    }
}

static uint32_t leader_of(const joiner *j, uint32_t triangle)
{
    while (j->leaders[triangle] != triangle) {
        j->leaders[triangle] = j->leaders[j->leaders[triangle]];
        triangle = j->leaders[triangle];
    }
    return triangle;
}

static void join(joiner *j)
{
    for (uint32_t i = 0; i < j->mesh->triangle_count; i++) j->leaders[i] = i;
    for (size_t i = 0; i < j->seam_count; i++) {
        seam *s = &j->seams[i];
        if (s->second == 0) continue;
        double cosine = sw_vec3_dot(j->normals[s->first - 1], j->normals[s->second - 1]);
        s->sharp = cosine < SHARP_COSINE;
        s->within = cosine > PLANE_COSINE;
        if (!s->within) continue;
        uint32_t one = leader_of(j, s->first - 1), other = leader_of(j, s->second - 1);
        j->leaders[one > other ? one : other] = one < other ? one : other;
    }
}

static bool is_border(const joiner *j, size_t side)
{
    return j->sides[side] == 0 || !j->seams[j->sides[side] - 1].within;
}

/* Numbers the flats and counts their borders, into `end`; gives how many flats. A leader comes before its flock. */
static size_t number_flats(const joiner *j, solid_flat *flats)
{
    size_t count = 0;
    for (uint32_t i = 0; i < j->mesh->triangle_count; i++) {
        uint32_t leader = leader_of(j, i);
        if (leader == i) flats[count] = (solid_flat){.normal = j->normals[i]};
        j->flat_of[i] = leader == i ? (uint32_t)count++ : j->flat_of[leader];
        for (size_t k = 0; k < 3; k++) flats[j->flat_of[i]].end += is_border(j, 3 * (size_t)i + k);
    }
    return count;
}

static void list_borders(const joiner *j, solid_flat *flats, size_t count, solid_border *borders)
{
    uint32_t sum = 0;
    for (size_t i = 0; i < count; i++) {
        flats[i].first = sum;
        sum += flats[i].end;
        flats[i].end = flats[i].first;
    }
    for (size_t i = 0; i < j->mesh->triangle_count; i++) {
        const sw_triangle *t = &j->mesh->triangles[i];
        const uint32_t corners[4] = {t->a, t->b, t->c, t->a};
        for (size_t k = 0; k < 3; k++)
            if (is_border(j, 3 * i + k))
                borders[flats[j->flat_of[i]].end++] = (solid_border){j->same[corners[k]], j->same[corners[k + 1]]};
    }
}

/* ---- the shape ---- */

static sw_status flats_of(sw_run *run, const joiner *j, solid_shape *shape)
{
    size_t triangles = j->mesh->triangle_count;
    solid_flat *flats = SW_SCRATCH(run, triangles + 1, solid_flat);
    if (flats == NULL) return SW_NO_MEMORY;
    size_t count = number_flats(j, flats), sides = 0;
    for (size_t i = 0; i < count; i++) sides += flats[i].end;
    solid_border *borders = SW_SCRATCH(run, sides + 1, solid_border);
    if (borders == NULL) return SW_NO_MEMORY;
    list_borders(j, flats, count, borders);
    shape->flats = flats;
    shape->flat_count = count;
    shape->borders = borders;
    return SW_OK;
}

/* The seams that may be drawn. */
static sw_status edges_of(sw_run *run, const joiner *j, solid_shape *shape)
{
    size_t count = 0;
    for (size_t i = 0; i < j->seam_count; i++) count += !j->seams[i].within;
    solid_edge *edges = SW_SCRATCH(run, count + 1, solid_edge);
    if (edges == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < j->seam_count; i++) {
        const seam *s = &j->seams[i];
        if (s->within || s->a == s->b) continue;
        edges[shape->edge_count++] = (solid_edge){s->a, s->b, j->flat_of[s->first - 1] + 1,
                                                  s->second == 0 ? 0 : j->flat_of[s->second - 1] + 1, s->sharp};
    }
    shape->edges = edges;
    return SW_OK;
}

sw_status solid_shape_make(sw_run *run, sw_mesh mesh, const solid_shape **out)
{
    joiner j;
    solid_shape *shape = SW_SCRATCH(run, 1, solid_shape);
    if (shape == NULL) return SW_NO_MEMORY;
    shape->mesh = mesh;
    SW_TRY(joiner_open(run, &mesh, &j));
    find_normals(&j);
    find_seams(&j);
    join(&j);
    SW_TRY(flats_of(run, &j, shape));
    SW_TRY(edges_of(run, &j, shape));
    *out = shape;
    return SW_OK;
}
