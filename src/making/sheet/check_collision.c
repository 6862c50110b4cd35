/* check_collision.c: do folded pieces run into each other, or into themselves? Pairs whose boxes are apart are
 * left out; the others are compared as meshes drawn in on every skin, so that touching does not count. Each is drawn
 * in by a hair more or less than all others: skins that lie in one plane would cross nowhere. */
#include "making/sheet/sheet_parts.h"

#include <math.h>

typedef struct body { /* one placed piece, or one part of a piece */
    size_t piece, placement;
    int part;
    sw_mesh mesh;
    const sw_mesh_tree *tree; /* made when first needed */
    sw_vec3 low, high;
} body;

typedef struct hit {
    size_t a, b; /* bodies */
    sw_vec3 where;
    double depth_mm;
} hit;

typedef struct clash {
    sw_run *run;
    const sw_sheet_study *study;
    body *bodies;
    size_t count, room, pairs;
    hit *hits;
    size_t hit_count, hit_room;
} clash;

static bool apart(const body *a, const body *b)
{
    return a->low.x_mm >= b->high.x_mm || b->low.x_mm >= a->high.x_mm || a->low.y_mm >= b->high.y_mm ||
           b->low.y_mm >= a->high.y_mm || a->low.z_mm >= b->high.z_mm || b->low.z_mm >= a->high.z_mm;
}

/* ---- depth, only for pairs that collide ------------------------------------------------------- */

static bool in_box(const body *b, sw_vec3 p)
{
    return p.x_mm > b->low.x_mm && p.x_mm < b->high.x_mm && p.y_mm > b->low.y_mm && p.y_mm < b->high.y_mm &&
           p.z_mm > b->low.z_mm && p.z_mm < b->high.z_mm;
}

/* The deepest corner of a inside b, mm; at least depth_mm. */
static double deepest_corner(const body *a, const body *b, const sw_mesh_tree *tree_b, double depth_mm)
{
    for (size_t i = 0; i < a->mesh.point_count; i++) {
        sw_vec3 p = a->mesh.points[i];
        if (!in_box(b, p)) continue;
        double d_mm = sw_mesh_tree_distance(tree_b, p, NULL);
        if (d_mm > depth_mm && sw_mesh_tree_side(tree_b, p) > 0) depth_mm = d_mm;
    }
    return depth_mm;
}

static double depth_of(const body *a, const body *b, sw_vec3 where)
{
    double least_mm = fmin(sw_mesh_tree_distance(a->tree, where, NULL), sw_mesh_tree_distance(b->tree, where, NULL));
    return deepest_corner(b, a, a->tree, deepest_corner(a, b, b->tree, least_mm));
}

/* ---- pairs ------------------------------------------------------------------------------------- */

static sw_status add_hit(clash *c, size_t a, size_t b, sw_vec3 where)
{
    hit *grown = sw_grow(c->run, c->run->scratch, c->hits, c->hit_count, &c->hit_room, sizeof *grown);
    if (grown == NULL) return SW_NO_MEMORY;
    c->hits = grown;
    double depth_mm = depth_of(&c->bodies[a], &c->bodies[b], where) + c->study->opt->contact_mm;
    grown[c->hit_count++] = (hit){a, b, where, depth_mm};
    return SW_OK;
}

static sw_status plant(clash *c, body *b)
{
    return b->tree != NULL ? SW_OK : sw_mesh_tree_make(c->run, &b->mesh, &b->tree);
}

static sw_status compare_pairs(clash *c)
{
    for (size_t a = 0; a < c->count; a++)
        for (size_t b = a + 1; b < c->count; b++) {
            if (apart(&c->bodies[a], &c->bodies[b])) continue;
            sw_vec3 where = {0};
            c->pairs++;
            SW_TRY(plant(c, &c->bodies[a]));
            SW_TRY(plant(c, &c->bodies[b]));
            if (sw_mesh_trees_collide(c->bodies[a].tree, c->bodies[b].tree, &where)) SW_TRY(add_hit(c, a, b, where));
        }
    return SW_OK;
}

/* The trees go into run->keep and are given back; the hits stay. */
static sw_status try_pairs(clash *c)
{
    size_t mark = sw_arena_mark(c->run->keep);
    sw_status status = compare_pairs(c);
    if (status == SW_OK) sw_arena_rewind(c->run->keep, mark);
    return status;
}

/* Half the contact depth, each body a little different (by at least a nanometre of the 1e4 there may be). */
static double inset_of(const clash *c, const sw_piece *piece)
{
    double share = (double)(c->count + 1) / (double)(c->room + 1);
    return fmin(c->study->opt->contact_mm / 2.0, piece->thickness_mm / 4.0) * (1.0 - 0.01 * share) + 1e-4 * share;
}

/* ---- placed pieces against each other ----------------------------------------------------------- */

static sw_status place_body(sw_run *run, const sw_mesh *local, sw_frame place, body *out)
{
    sw_vec3 *points = SW_SCRATCH(run, local->point_count, sw_vec3);
    if (points == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < local->point_count; i++) points[i] = sw_frame_point(place, local->points[i]);
    out->mesh = *local;
    out->mesh.points = points;
    sw_mesh_box(&out->mesh, &out->low, &out->high);
    return SW_OK;
}

static sw_status place_piece(clash *c, size_t piece)
{
    const sw_sheet_case *k = &c->study->cases[piece];
    const sw_piece *p = k->piece->piece;
    for (size_t i = 0; i < p->count; i++) {
        sw_skin_choice choice = {.part = -1, .inset_mm = inset_of(c, p)};
        sw_mesh local;
        SW_TRY(sw_sheet_skin(c->run, k->tree, k->piece->solid.faces, k->complex, &choice, &local));
        c->bodies[c->count] = (body){.piece = piece, .placement = i, .part = -1};
        SW_TRY(place_body(c->run, &local, p->placements[i], &c->bodies[c->count]));
        c->count++;
    }
    return SW_OK;
}

static const char *place_name(sw_run *run, const sw_piece *p, size_t placement)
{
    if (p->count == 1) return sw_piece_label(run, p);
    return sw_text_format(run, run->keep, "%s %s (place %zu)", p->number, p->name, placement + 1);
}

static sw_status report_hit(clash *c, const hit *h)
{
    sw_run *run = c->run;
    const body *a = &c->bodies[h->a], *b = &c->bodies[h->b];
    const sw_piece *pa = c->study->cases[a->piece].piece->piece, *pb = c->study->cases[b->piece].piece->piece;
    const char *first = place_name(run, pa, a->placement), *second = place_name(run, pb, b->placement);
    if (first == NULL || second == NULL) return SW_NO_MEMORY;
    sw_finding f = {.check = "collision",
                    .sense = SW_AT_MOST,
                    .value = h->depth_mm,
                    .limit = c->study->opt->contact_mm,
                    .unit = "mm",
                    .source = "geometry of the folded pieces",
                    .place = pa->place};
    f.what =
        sw_text_format(run, run->keep, "%s and %s run into each other, at least %.2f mm deep at (%.1f, %.1f, %.1f)",
                       first, second, f.value, h->where.x_mm, h->where.y_mm, h->where.z_mm);
    f.where = sw_text_format(run, run->keep, "%s / %s", first, second);
    f.remedy = "shorten or move one of the two, or cut the other out";
    return sw_sheet_report(run, c->study, f, 0.0);
}

/* Whether an earlier hit of the same two pieces is as deep, or a later one deeper: then that one is reported. */
static bool outdone(const clash *c, size_t i)
{
    const hit *h = &c->hits[i];
    for (size_t k = 0; k < c->hit_count; k++) {
        const hit *o = &c->hits[k];
        bool pair = c->bodies[o->a].piece == c->bodies[h->a].piece && c->bodies[o->b].piece == c->bodies[h->b].piece;
        if (pair && (o->depth_mm > h->depth_mm || (o->depth_mm == h->depth_mm && k < i))) return true;
    }
    return false;
}

static sw_status report_clear(clash *c)
{
    sw_finding f = {.check = "collision",
                    .sense = SW_STATED,
                    .verdict = SW_HOLDS,
                    .value = NAN,
                    .limit = NAN,
                    .unit = "",
                    .source = "geometry of the folded pieces",
                    .remedy = "",
                    .where = "all pieces"};
    f.what = sw_text_format(c->run, c->run->keep,
                            "%zu folded pieces in place, none deeper than contact in another (%zu near pairs)",
                            c->count, c->pairs);
    return sw_sheet_report(c->run, c->study, f, 0.0);
}

static sw_status check_pairs(sw_run *run, const sw_sheet_study *study)
{
    clash c = {.run = run, .study = study};
    for (size_t i = 0; i < study->case_count; i++) c.room += study->cases[i].piece->piece->count;
    c.bodies = SW_SCRATCH(run, c.room, body);
    if (c.bodies == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < study->case_count; i++) SW_TRY(place_piece(&c, i));
    SW_TRY(try_pairs(&c));
    for (size_t i = 0; i < c.hit_count; i++)
        if (!outdone(&c, i)) SW_TRY(report_hit(&c, &c.hits[i]));
    return c.hit_count > 0 ? SW_OK : report_clear(&c);
}

/* ---- the parts of one piece against each other ---------------------------------------------------- */

static sw_status find_self_hits(clash *c, size_t piece)
{
    const sw_sheet_case *k = &c->study->cases[piece];
    const sw_piece *p = k->piece->piece;
    c->count = c->hit_count = 0;
    c->room = k->complex->part_count;
    c->bodies = SW_SCRATCH(c->run, c->room, body);
    if (c->bodies == NULL) return SW_NO_MEMORY;
    for (size_t part = 0; part < k->complex->part_count; part++) {
        body *b = &c->bodies[c->count];
        sw_skin_choice choice = {.part = (int)part, .inset_mm = inset_of(c, p)};
        *b = (body){.piece = piece, .part = (int)part};
        SW_TRY(sw_sheet_skin(c->run, k->tree, k->piece->solid.faces, k->complex, &choice, &b->mesh));
        if (b->mesh.triangle_count == 0) continue;
        sw_mesh_box(&b->mesh, &b->low, &b->high);
        c->count++;
    }
    return try_pairs(c);
}

static const char *part_name(const sw_piece *p, int part)
{
    return part < (int)p->face_count ? p->faces[part].name : p->bends[part - (int)p->face_count].name;
}

static sw_status report_self(clash *c, size_t piece)
{
    sw_run *run = c->run;
    const sw_piece *p = c->study->cases[piece].piece->piece;
    hit worst = c->hits[0];
    for (size_t i = 1; i < c->hit_count; i++)
        if (c->hits[i].depth_mm > worst.depth_mm) worst = c->hits[i];
    sw_finding f = {.check = "self_collision",
                    .sense = SW_AT_MOST,
                    .value = worst.depth_mm,
                    .limit = c->study->opt->contact_mm,
                    .unit = "mm",
                    .source = "geometry of the folded pieces",
                    .place = p->place,
                    .where = sw_piece_label(run, p)};
    f.what = sw_text_format(
        run, run->keep, "%s and %s of the folded piece run into each other, at least %.2f mm deep (%zu pairs)",
        part_name(p, c->bodies[worst.a].part), part_name(p, c->bodies[worst.b].part), f.value, c->hit_count);
    f.remedy = "shorten or slope the flanges that meet, or leave a gap";
    return sw_sheet_report(run, c->study, f, 0.0);
}

static sw_status check_selves(sw_run *run, const sw_sheet_study *study)
{
    clash c = {.run = run, .study = study};
    size_t bent = 0, bad = 0;
    for (size_t i = 0; i < study->case_count; i++) {
        if (study->cases[i].piece->piece->bend_count == 0) continue;
        SW_TRY(find_self_hits(&c, i));
        bent++;
        if (c.hit_count == 0) continue;
        SW_TRY(report_self(&c, i));
        bad++;
    }
    if (bad > 0 || bent == 0) return SW_OK;
    sw_finding f = {.check = "self_collision",
                    .sense = SW_STATED,
                    .verdict = SW_HOLDS,
                    .value = NAN,
                    .limit = NAN,
                    .unit = "",
                    .source = "geometry of the folded pieces",
                    .remedy = "",
                    .where = "all pieces"};
    f.what = sw_text_format(run, run->keep, "none of %zu bent pieces runs into itself when folded", bent);
    return sw_sheet_report(run, study, f, 0.0);
}

static sw_status check(sw_run *run, const sw_sheet_study *study)
{
    SW_TRY(check_selves(run, study));
    return check_pairs(run, study);
}

sw_status sw_check_collision(sw_run *run, const sw_sheet_study *study)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = check(run, study);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
