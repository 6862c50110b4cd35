/* skin.c: the flat triangles folded up as a closed solid: upper skin, lower skin, walls along the border. */
#include "making/sheet/sheet_parts.h"

#include <math.h>
#include <string.h>

typedef struct plane { /* plane coordinates of a part -> flat: turned by (cosine, sine), then moved */
    double c, s, dx_mm, dy_mm;
} plane;

typedef struct skinner {
    sw_run *run;
    const sw_tree *tree;
    const sw_frame *frames;
    const sw_complex *complex;
    const sw_skin_choice *choice;
    const sw_triangle *triangles; /* of the chosen part or all */
    size_t triangle_count;
    const uint32_t *rim;
    size_t rim_count;
    uint32_t *index; /* node -> its number in the solid */
    uint32_t *nodes; /* and back */
    size_t count;
    plane *planes;   /* [part_count] where each part lies in the flat */
    sw_point *shift; /* [node_count] in the flat, from drawing in; NULL = none */
} skinner;

static const uint32_t unused = UINT32_MAX;

static void *take(const skinner *s, size_t count, size_t size)
{
    return s->choice->keep ? sw_keep(s->run, count, size) : sw_scratch(s->run, count, size);
}

static void choose(skinner *s)
{
    const sw_complex *c = s->complex;
    int part = s->choice->part;
    s->triangles = part < 0 ? c->triangles : c->triangles + c->part_first[part];
    s->triangle_count = part < 0 ? c->triangle_count : c->part_first[part + 1] - c->part_first[part];
    s->rim = part < 0 ? c->rim : c->part_rim + 2 * c->part_rim_first[part];
    s->rim_count = part < 0 ? c->rim_count : c->part_rim_first[part + 1] - c->part_rim_first[part];
}

static void number_node(skinner *s, uint32_t node)
{
    if (s->index[node] != unused) return;
    s->index[node] = (uint32_t)s->count;
    s->nodes[s->count++] = node;
}

static sw_status number_nodes(skinner *s)
{
    s->index = SW_SCRATCH(s->run, s->complex->node_count, uint32_t);
    s->nodes = SW_SCRATCH(s->run, s->complex->node_count, uint32_t);
    if (s->index == NULL || s->nodes == NULL) return SW_NO_MEMORY;
    for (size_t n = 0; n < s->complex->node_count; n++) s->index[n] = unused;
    for (size_t i = 0; i < s->triangle_count; i++) {
        number_node(s, s->triangles[i].a);
        number_node(s, s->triangles[i].b);
        number_node(s, s->triangles[i].c);
    }
    return SW_OK;
}

static sw_status find_planes(skinner *s)
{
    size_t parts = s->complex->part_count;
    s->planes = SW_SCRATCH(s->run, parts, plane);
    if (s->planes == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < parts; i++) {
        sw_motion m = sw_sheet_part_motion(s->tree, (int)i);
        s->planes[i] = (plane){cos(m.turn_rad), sin(m.turn_rad), m.dx_mm, m.dy_mm};
    }
    return SW_OK;
}

static sw_point to_flat(const plane *p, sw_point at)
{
    return (sw_point){p->c * at.x_mm - p->s * at.y_mm + p->dx_mm, p->s * at.x_mm + p->c * at.y_mm + p->dy_mm};
}

static sw_point from_flat(const plane *p, sw_point flat)
{
    double x = flat.x_mm - p->dx_mm, y = flat.y_mm - p->dy_mm;
    return (sw_point){p->c * x + p->s * y, p->c * y - p->s * x};
}

static sw_point flat_of(const skinner *s, uint32_t node)
{
    const sw_node *n = &s->complex->nodes[node];
    return to_flat(&s->planes[n->part], n->at);
}

/* Inward shift of a border corner between two border edges with unit left normals n1, n2: the meeting point of both
 * edges drawn in by d is d (n1 + n2)/(1 + n1.n2); very sharp corners are drawn in less. */
static sw_point mitre(sw_point n1, sw_point n2, double d_mm)
{
    double share = d_mm / fmax(0.2, 1.0 + n1.x_mm * n2.x_mm + n1.y_mm * n2.y_mm);
    return (sw_point){share * (n1.x_mm + n2.x_mm), share * (n1.y_mm + n2.y_mm)};
}

static sw_point left_normal(sw_point a, sw_point b)
{
    double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, length_mm = hypot(dx, dy);
    return length_mm > 0.0 ? (sw_point){-dy / length_mm, dx / length_mm} : (sw_point){0.0, 0.0};
}

static sw_status find_shifts(skinner *s)
{
    if (s->choice->inset_mm == 0.0) return SW_OK;
    size_t count = s->complex->node_count;
    sw_point *in = SW_SCRATCH(s->run, count, sw_point), *out = SW_SCRATCH(s->run, count, sw_point);
    s->shift = SW_SCRATCH(s->run, count, sw_point);
    if (in == NULL || out == NULL || s->shift == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->rim_count; i++) {
        uint32_t a = s->rim[2 * i], b = s->rim[2 * i + 1];
        out[a] = in[b] = left_normal(flat_of(s, a), flat_of(s, b));
    }
    for (size_t i = 0; i < s->rim_count; i++) {
        uint32_t a = s->rim[2 * i];
        s->shift[a] = mitre(in[a], out[a], s->choice->inset_mm);
    }
    return SW_OK;
}

/* Plane coordinates of a node in the part that carries it here, drawn in. */
static sw_point place_of(const skinner *s, uint32_t node, int *part)
{
    const sw_node *n = &s->complex->nodes[node];
    *part = s->choice->part < 0 ? n->part : s->choice->part;
    bool drawn_in = s->shift != NULL && (s->shift[node].x_mm != 0.0 || s->shift[node].y_mm != 0.0);
    if (!drawn_in && *part == n->part) return n->at;
    sw_point p = flat_of(s, node);
    if (drawn_in) p = (sw_point){p.x_mm + s->shift[node].x_mm, p.y_mm + s->shift[node].y_mm};
    return from_flat(&s->planes[*part], p);
}

static sw_status lay_points(skinner *s, sw_mesh *mesh)
{
    sw_vec3 *points = take(s, 2 * s->count, sizeof *points);
    if (points == NULL) return SW_NO_MEMORY;
    double half_mm = s->tree->piece->thickness_mm / 2.0 - s->choice->inset_mm;
    sw_part_axes axes = {.part = -1};
    for (size_t i = 0; i < s->count; i++) {
        int part = 0;
        sw_point p = place_of(s, s->nodes[i], &part);
        if (part != axes.part) axes = sw_sheet_part_axes(s->tree, s->frames, part);
        points[2 * i] = sw_part_axes_point(&axes, p, half_mm);
        points[2 * i + 1] = sw_part_axes_point(&axes, p, -half_mm);
    }
    mesh->points = points;
    mesh->point_count = 2 * s->count;
    return SW_OK;
}

static sw_status lay_triangles(skinner *s, sw_mesh *mesh)
{
    size_t n = 0;
    sw_triangle *t = take(s, 2 * (s->triangle_count + s->rim_count), sizeof *t);
    if (t == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->triangle_count; i++) {
        uint32_t a = 2 * s->index[s->triangles[i].a], b = 2 * s->index[s->triangles[i].b];
        uint32_t c = 2 * s->index[s->triangles[i].c];
        t[n++] = (sw_triangle){a, b, c};
        t[n++] = (sw_triangle){a + 1, c + 1, b + 1};
    }
    for (size_t i = 0; i < s->rim_count; i++) {
        uint32_t a = 2 * s->index[s->rim[2 * i]], b = 2 * s->index[s->rim[2 * i + 1]];
        t[n++] = (sw_triangle){a + 1, b + 1, b};
        t[n++] = (sw_triangle){a + 1, b, a};
    }
    mesh->triangles = t;
    mesh->triangle_count = n;
    return SW_OK;
}

static sw_status skin(skinner *s, sw_mesh *mesh)
{
    choose(s);
    SW_TRY(find_planes(s));
    SW_TRY(number_nodes(s));
    SW_TRY(find_shifts(s));
    SW_TRY(lay_points(s, mesh));
    return lay_triangles(s, mesh);
}

sw_status sw_sheet_skin(sw_run *run, const sw_tree *tree, const sw_frame *frames, const sw_complex *complex,
                        const sw_skin_choice *choice, sw_mesh *mesh)
{
    skinner s = {.run = run, .tree = tree, .frames = frames, .complex = complex, .choice = choice};
    *mesh = (sw_mesh){0};
    return skin(&s, mesh);
}
