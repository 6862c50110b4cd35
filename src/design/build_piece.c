/* build_piece.c: walks a declared piece from its root face outward and makes the tree of tangent faces. */
#include "design/build_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static bool same_name(const char *a, const char *b)
{
    return a != NULL && b != NULL && strcmp(a, b) == 0;
}

/* ---- a finished face ---- */

/* Starts the ring where a named run starts, so that no run goes over the end of the array. */
static void turn_to_run_start(design *d, design_ring *ring)
{
    size_t first = 0, n = ring->n;
    while (first < n && same_name(ring->edge[first], ring->edge[(first + n - 1) % n])) first++;
    if (first == 0 || first == n) return;
    design_ring turned = {DESIGN_TAKE(d, n, sw_vertex), NULL, DESIGN_TAKE(d, n, const char *), DESIGN_TAKE(d, n, int),
                          n};
    for (size_t i = 0; i < n; i++) {
        turned.v[i] = ring->v[(first + i) % n];
        turned.edge[i] = ring->edge[(first + i) % n];
        turned.bend[i] = ring->bend[(first + i) % n];
    }
    *ring = turned;
}

typedef struct edge_run { /* of segments with one name */
    const char *name;
    size_t first, count, edge;
} edge_run;

static int by_name(const void *a, const void *b)
{
    const edge_run *p = a, *q = b;
    int text = strcmp(p->name, q->name);
    return text != 0 ? text : p->first < q->first ? -1 : p->first > q->first;
}

static size_t find_runs(const design_ring *ring, edge_run *runs)
{
    size_t n = 0;
    for (size_t i = 0, count = 1; i < ring->n; i += count) {
        count = 1;
        if (ring->edge[i] == NULL) continue;
        while (i + count < ring->n && same_name(ring->edge[i], ring->edge[i + count])) count++;
        runs[n] = (edge_run){ring->edge[i], i, count, n};
        n++;
    }
    return n;
}

/* The second free stretch of the edge "left" is called "left 2", and so on. */
static void add_edges(build_tree *t, const design_ring *ring, int face, const char *face_name)
{
    const char *prefix = face == 0 ? "" : design_joined(t->d, face_name, ".", "");
    edge_run *runs = DESIGN_TAKE(t->d, ring->n, edge_run);
    size_t count = find_runs(ring, runs), before = t->edges.count, number = 1;
    for (size_t i = 0; i < count; i++) {
        sw_edge *edge = design_append(t->d, &t->edges, sizeof *edge);
        *edge = (sw_edge){.face = face, .first = runs[i].first, .count = runs[i].count};
    }
    qsort(runs, count, sizeof *runs, by_name);
    for (size_t i = 0; i < count; i++) {
        sw_edge *edge = (sw_edge *)t->edges.items + before + runs[i].edge;
        number = i > 0 && same_name(runs[i - 1].name, runs[i].name) ? number + 1 : 1;
        edge->name = number == 1 ? design_joined(t->d, prefix, runs[i].name, "")
                                 : design_text(t->d, "%s%s %zu", prefix, runs[i].name, number);
    }
}

/* An edge with a name of its own: of a hole, or of a bent zone. */
static bool add_named_edge(build_tree *t, const design_scope *at, sw_edge edge)
{
    const sw_edge *edges = t->edges.items;
    design_charge(t->d->L, (double)t->edges.count / DESIGN_FIELD_STEPS);
    for (size_t i = 0; i < t->edges.count; i++) {
        if (strcmp(edges[i].name, edge.name) != 0) continue;
        design_fault(at, "holes", "the edge name \"%s\" is already taken in this piece; each needs its own", edge.name);
        return false;
    }
    *(sw_edge *)design_append(t->d, &t->edges, sizeof edge) = edge;
    return true;
}

static bool add_hole_edges(build_face *f, int face, const char *face_name)
{
    build_tree *t = f->tree;
    bool good = true;
    for (size_t h = 0; f->decl != NULL && h < f->decl->holes.count; h++) {
        const char *own = f->decl->holes.edge[h];
        sw_edge edge = {.name = own, .face = face, .count = f->decl->holes.c[h].n, .hole = h + 1};
        if (own[0] == '\0') continue;
        if (face > 0) edge.name = design_joined(t->d, face_name, ".", own);
        if (!add_named_edge(t, f->at, edge)) good = false;
    }
    return good;
}

static bool sound_region(build_face *f, const sw_region *region)
{
    const char *fault = NULL;
    sw_run *run = f->tree->d->run;
    if (f->flat) {
        if (region->hole_count == 0) return true;
        design_fault(f->at, "holes", "stand on a face of no depth; put them into the bend's own holes");
        return false;
    }
    if (f->decl == NULL) return true; /* a plain flange is sound by its making */
    design_charge_contours(f->tree->d, &region->outline, 1);
    design_charge_contours(f->tree->d, region->holes, region->hole_count);
    design_must(f->tree->d, sw_region_fault(run, region, &fault));
    if (fault == NULL) return true;
    design_fault(f->at, "", "the face, cut back for its bends, cannot be cut: %s", fault);
    return false;
}

static bool new_name(build_tree *t, const design_scope *at, const char *name)
{
    const sw_face *faces = t->faces.items;
    for (size_t i = 0; i < t->faces.count; i++) {
        if (strcmp(faces[i].name, name) != 0) continue;
        design_fault(at, "name", "\"%s\" is already the name of another face or bend of this piece; each needs its own",
                     name);
        return false;
    }
    return true;
}

static bool add_face(build_face *f, design_ring *ring, const char *name)
{
    build_tree *t = f->tree;
    sw_region region = {.outline = {ring->v, ring->n}};
    if (f->decl != NULL) {
        region.holes = f->decl->holes.c;
        region.hole_count = f->decl->holes.count;
    }
    if (!new_name(t, f->at, name) || !sound_region(f, &region)) return false;
    int index = (int)t->faces.count;
    sw_face *face = design_append(t->d, &t->faces, sizeof *face);
    *face = (sw_face){.name = name, .region = region};
    if (f->decl != NULL) {
        face->marks = f->decl->marks;
        face->mark_count = f->decl->mark_count;
    }
    add_edges(t, ring, index, name);
    return add_hole_edges(f, index, name);
}

/* ---- bends ---- */

static bool new_bend_name(build_tree *t, const design_scope *at, const char *name)
{
    const sw_bend *bends = t->bends.items;
    for (size_t i = 0; i < t->bends.count; i++) {
        if (strcmp(bends[i].name, name) != 0) continue;
        design_fault(at, "name", "\"%s\" is already the name of another face or bend of this piece; each needs its own",
                     name);
        return false;
    }
    return true;
}

static bool copy_zone_holes(build_tree *t, const design_bend *decl, double width_mm, sw_bend *bend)
{
    size_t total = 0, n = 0;
    for (size_t i = 0; i < decl->hole_count; i++) total += decl->holes[i].cuts->count;
    sw_zone_hole *holes = DESIGN_TAKE(t->d, total, sw_zone_hole);
    for (size_t i = 0; i < decl->hole_count; i++) {
        const design_zone_hole *h = &decl->holes[i];
        if (h->angle_rad > fabs(decl->angle_rad) + 1e-9) {
            design_fault(&decl->at, design_text(t->d, "holes[%zu].angle", i + 1),
                         "is %g deg, but the bend ends at %g deg", sw_deg_from_rad(h->angle_rad),
                         sw_deg_from_rad(fabs(decl->angle_rad)));
            return false;
        }
        for (size_t j = 0; j < h->cuts->count; j++) {
            sw_box box = sw_contour_box(h->cuts->c[j]);
            holes[n++] = (sw_zone_hole){h->along_mm, h->angle_rad, h->cuts->c[j]};
            if (box.x0_mm + h->along_mm > 0.0 && box.x1_mm + h->along_mm < width_mm) continue;
            design_fault(&decl->at, design_text(t->d, "holes[%zu].along", i + 1),
                         "puts the hole over the end of the bent zone, which is %.6g mm wide", width_mm);
            return false;
        }
    }
    bend->holes = holes;
    bend->hole_count = n;
    return true;
}

/* "shell.start rim" and "shell.end rim" of a roll, where its edge begins and ends; cut-outs as they are called. */
static bool add_zone_edges(build_tree *t, const design_bend *decl, const sw_bend *bend)
{
    size_t zone = t->bends.count, hole = 0;
    bool good = true;
    if (bend->kind == SW_ROLLED) {
        sw_edge start = {.face = bend->child, .first = 1, .count = 1, .zone = zone}, end = start;
        start.name = design_joined(t->d, bend->name, ".", "start rim");
        end.name = design_joined(t->d, bend->name, ".", "end rim");
        end.first = 3;
        good = add_named_edge(t, &decl->at, start) && add_named_edge(t, &decl->at, end);
    }
    for (size_t i = 0; i < decl->hole_count; i++)
        for (size_t j = 0; j < decl->holes[i].cuts->count; j++, hole++) {
            const char *own = decl->holes[i].cuts->edge[j];
            if (own[0] == '\0') continue;
            sw_edge edge = {.name = design_joined(t->d, bend->name, ".", own), .face = bend->child, .zone = zone};
            edge.hole = hole + 1;
            edge.count = bend->holes[hole].contour.n;
            if (!add_named_edge(t, &decl->at, edge)) good = false;
        }
    return good;
}

static bool build_face_tree(build_tree *t, const design_face *decl, const design_scope *at,
                            const design_outline *outline, size_t root, const char *name);

/* Its own, or "bend N": the N-th declared bend of the piece, a bend before those on its child. A joggle counts as
 * one: its flat end bears the name, the web between its two bends that name and "web". */
static const char *bend_name(build_tree *t, const design_bend *decl)
{
    if (decl->second) return decl->name;
    t->bend_number++;
    const char *name = decl->name[0] != '\0' ? decl->name : design_numbered(t->d, "bend ", t->bend_number, "");
    if (decl->partner == NULL) return name;
    decl->partner->name = name;
    return design_joined(t->d, name, " web", "");
}

static bool build_child(build_tree *t, const build_bend *b, int parent, sw_point from, sw_point to)
{
    const design_bend *decl = b->decl;
    size_t root;
    double width_mm = hypot(to.x_mm - from.x_mm, to.y_mm - from.y_mm);
    const char *name = bend_name(t, decl);
    const design_outline *outline = build_child_outline(t, b, width_mm, &root);
    if (outline == NULL) return false;
    sw_bend made = {.name = name,
                    .kind = (sw_bend_kind)decl->kind,
                    .parent = parent,
                    .child = (int)t->faces.count,
                    .from = from,
                    .to = to,
                    .radius_mm = b->radius_mm,
                    .angle_rad = decl->angle_rad,
                    .k = decl->k,
                    .place = decl->at.place};
    if (!new_bend_name(t, &decl->at, name)) return false;
    if (!copy_zone_holes(t, decl, width_mm, &made)) return false;
    sw_bend *bend = design_append(t->d, &t->bends, sizeof *bend);
    *bend = made;
    if (!add_zone_edges(t, decl, &made)) return false;
    const design_face *face = decl->face;
    const char *face_name = face != NULL && face->name[0] != '\0' ? face->name : name;
    return build_face_tree(t, face, face != NULL ? &face->at : &decl->at, outline, root, face_name);
}

static bool build_children(build_face *f, const design_ring *ring, int parent)
{
    build_tree *t = f->tree;
    bool good = true;
    for (size_t declared = 0; f->decl != NULL && declared < f->decl->bend_count; declared++)
        for (size_t i = 0; i < ring->n; i++) {
            if (ring->bend[i] < 0) continue;
            const build_bend *b = &f->bends[ring->bend[i]];
            if (b->order != declared) continue;
            sw_vertex v = ring->v[i], next = ring->v[(i + 1) % ring->n];
            if (!build_child(t, b, parent, (sw_point){v.x_mm, v.y_mm}, (sw_point){next.x_mm, next.y_mm})) good = false;
        }
    return good;
}

static bool build_face_tree(build_tree *t, const design_face *decl, const design_scope *at,
                            const design_outline *outline, size_t root, const char *name)
{
    build_face f = {.tree = t,
                    .decl = decl,
                    .at = at,
                    .outline = outline,
                    .root = root,
                    .flat = outline->n == 2 && root != SIZE_MAX && fabs(outline->v[1].bulge) < SW_FLAT_BULGE};
    design_ring ring;
    if (!build_find_sides(&f) || !build_find_ends(&f) || !build_find_corners(&f) || !build_ring(&f, &ring))
        return false;
    if (root == SIZE_MAX) turn_to_run_start(t->d, &ring);
    int index = (int)t->faces.count;
    return add_face(&f, &ring, name) && build_children(&f, &ring, index);
}

void design_build_piece(design *d, design_piece *piece, const design_face *root)
{
    build_tree t = {.d = d, .piece = piece, .thickness_mm = piece->made.thickness_mm};
    const char *name = root->name[0] != '\0' ? root->name : "main";
    if (!build_face_tree(&t, root, &root->at, root->outline, SIZE_MAX, name)) piece->bad = true;
    sw_piece *made = &piece->made;
    made->face_count = t.faces.count;
    made->faces = design_kept(d, &t.faces, sizeof(sw_face));
    made->bend_count = t.bends.count;
    made->bends = design_kept(d, &t.bends, sizeof(sw_bend));
    made->edge_count = t.edges.count;
    made->edges = design_kept(d, &t.edges, sizeof(sw_edge));
    if (!piece->bad) design_build_number(d, made, root);
}
