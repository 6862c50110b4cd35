/* check_collision.c: do folded pieces run into each other, into items that have a shape, or into themselves? */
#include "making/sheet/clash.h"

#include <math.h>

static const char *const geometry_source = "geometry of the folded pieces";

/* ---- items as plates ---------------------------------------------------------------------------- */

/* The item as a plate of sheet with its middle where the item's is. */
static sw_status plate_of(sw_run *run, const sw_item *item, sw_piece *plate)
{
    sw_face *face = SW_SCRATCH(run, 1, sw_face);
    sw_frame *places = SW_SCRATCH(run, item->count, sw_frame);
    if (face == NULL || places == NULL) return SW_NO_MEMORY;
    *face = (sw_face){.name = item->name, .region = item->shape};
    for (size_t i = 0; i < item->count; i++) {
        places[i] = item->placements[i];
        places[i].origin = sw_frame_point(places[i], (sw_vec3){0.0, 0.0, item->thickness_mm / 2.0});
    }
    *plate = (sw_piece){.number = item->number,
                        .name = item->name,
                        .thickness_mm = item->thickness_mm,
                        .faces = face,
                        .face_count = 1,
                        .placements = places,
                        .count = item->count,
                        .place = item->place};
    return SW_OK;
}

static sw_status item_case(sw_run *run, const sw_item *item, double chord_mm, sw_sheet_case *c)
{
    sw_piece *plate = SW_SCRATCH(run, 1, sw_piece);
    sw_sheet_piece *sheet = SW_SCRATCH(run, 1, sw_sheet_piece);
    sw_tree *tree = SW_SCRATCH(run, 1, sw_tree);
    sw_complex *complex = SW_SCRATCH(run, 1, sw_complex);
    sw_frame *frame = SW_SCRATCH(run, 1, sw_frame);
    sw_skin_choice whole = {.part = -1};
    if (plate == NULL || sheet == NULL || tree == NULL || complex == NULL || frame == NULL) return SW_NO_MEMORY;
    *frame = sw_frame_world();
    SW_TRY(plate_of(run, item, plate));
    sheet->piece = plate;
    sheet->solid.faces = frame;
    SW_TRY(sw_sheet_tree(run, plate, NULL, false, tree));
    SW_TRY(sw_sheet_complex(run, tree, chord_mm, complex));
    SW_TRY(sw_sheet_skin(run, tree, frame, complex, &whole, &sheet->solid.mesh));
    *c = (sw_sheet_case){.tree = tree, .complex = complex, .piece = sheet};
    return sw_sheet_boxes(run, complex, &sheet->solid.mesh, &c->boxes);
}

static bool has_shape(const sw_item *item)
{
    return item->shape.outline.n > 0 && item->thickness_mm > 0.0;
}

/* ---- placed pieces and items against each other ------------------------------------------------- */

typedef struct placed { /* all that stands in the stove */
    clash clash;
    const sw_sheet_study *study;
    sw_sheet_case *items; /* [item_count] those with a shape */
    size_t item_count, item_bodies;
} placed;

static sw_status find_items(placed *p)
{
    const sw_stove *stove = p->study->model->stove;
    p->items = SW_SCRATCH(p->clash.run, stove->item_count, sw_sheet_case);
    if (p->items == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->item_count; i++) {
        if (!has_shape(&stove->items[i])) continue;
        SW_TRY(item_case(p->clash.run, &stove->items[i], p->study->opt->chord_mm, &p->items[p->item_count++]));
        p->item_bodies += stove->items[i].count;
    }
    return SW_OK;
}

static sw_status place_case(clash *c, const sw_sheet_case *k)
{
    for (size_t i = 0; i < k->piece->piece->count; i++) {
        sw_space_box *boxes = SW_SCRATCH(c->run, k->complex->part_count, sw_space_box);
        if (boxes == NULL) return SW_NO_MEMORY;
        c->bodies[c->count++] = clash_placed(k, i, boxes);
    }
    return SW_OK;
}

static sw_status place_all(placed *p)
{
    const sw_sheet_study *study = p->study;
    size_t room = p->item_bodies;
    for (size_t i = 0; i < study->case_count; i++) room += study->cases[i].piece->piece->count;
    p->clash.bodies = SW_SCRATCH(p->clash.run, room, clash_body);
    if (p->clash.bodies == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < study->case_count; i++) SW_TRY(place_case(&p->clash, &study->cases[i]));
    for (size_t i = 0; i < p->item_count; i++) SW_TRY(place_case(&p->clash, &p->items[i]));
    return SW_OK;
}

static const char *place_name(sw_run *run, const sw_piece *p, size_t placement)
{
    if (p->count == 1) return sw_piece_label(run, p);
    return sw_text_format(run, run->keep, "%s %s (place %zu)", p->number, p->name, placement + 1);
}

static sw_status report_hit(const placed *p, const clash_hit *h)
{
    sw_run *run = p->clash.run;
    const clash_body *a = &p->clash.bodies[h->a], *b = &p->clash.bodies[h->b];
    const sw_piece *pa = a->of->piece->piece, *pb = b->of->piece->piece;
    const char *first = place_name(run, pa, a->placement), *second = place_name(run, pb, b->placement);
    if (first == NULL || second == NULL) return SW_NO_MEMORY;
    sw_finding f = {.check = "collision",
                    .sense = SW_AT_MOST,
                    .value = h->depth_mm,
                    .limit = p->study->opt->contact_mm,
                    .unit = "mm",
                    .source = geometry_source,
                    .place = pa->place};
    f.what =
        sw_text_format(run, run->keep, "%s and %s run into each other, at least %.2f mm deep at (%.1f, %.1f, %.1f)",
                       first, second, f.value, h->where.x_mm, h->where.y_mm, h->where.z_mm);
    f.where = sw_text_format(run, run->keep, "%s / %s", first, second);
    f.remedy = "shorten or move one of the two, or cut the other out";
    return sw_sheet_report(run, p->study, f, 0.0);
}

/* Whether an earlier hit of the same two pieces is as deep, or a later one deeper: then that one is reported. */
static bool outdone(const clash *c, size_t i)
{
    const clash_hit *h = &c->hits[i];
    for (size_t k = 0; k < c->hit_count; k++) {
        const clash_hit *o = &c->hits[k];
        bool pair = c->bodies[o->a].of == c->bodies[h->a].of && c->bodies[o->b].of == c->bodies[h->b].of;
        if (pair && (o->depth_mm > h->depth_mm || (o->depth_mm == h->depth_mm && k < i))) return true;
    }
    return false;
}

static sw_finding blank(const char *check)
{
    sw_finding f = sw_finding_of("sheet", check, "all pieces", (sw_place){0});
    f.source = geometry_source;
    return f;
}

static sw_status report_clear(const placed *p)
{
    sw_run *run = p->clash.run;
    sw_finding f = blank("collision");
    f.what =
        sw_text_format(run, run->keep,
                       "%zu folded pieces and %zu items with a shape in place, none deeper than contact in another "
                       "(%zu near pairs)",
                       p->clash.count - p->item_bodies, p->item_bodies, p->clash.pairs);
    return sw_sheet_report(run, p->study, f, 0.0);
}

static sw_status check_pairs(sw_run *run, const sw_sheet_study *study)
{
    placed p = {.clash = {.run = run, .opt = study->opt, .meet_mm = SW_SAME_POINT_MM}, .study = study};
    SW_TRY(find_items(&p));
    SW_TRY(place_all(&p));
    SW_TRY(clash_find(&p.clash));
    for (size_t i = 0; i < p.clash.hit_count; i++)
        if (!outdone(&p.clash, i)) SW_TRY(report_hit(&p, &p.clash.hits[i]));
    return p.clash.hit_count > 0 ? SW_OK : report_clear(&p);
}

/* ---- the parts of one piece against each other ---------------------------------------------------- */

/* Parts collide when a ball of SW_CONTACT_MM fits into both: their boxes then share at least as much every way. */
static sw_status find_self_hits(clash *c, const sw_sheet_case *k)
{
    size_t parts = k->complex->part_count;
    *c = (clash){.run = c->run, .opt = c->opt, .meet_mm = 0.99 * SW_CONTACT_MM};
    c->bodies = SW_SCRATCH(c->run, parts, clash_body);
    if (c->bodies == NULL) return SW_NO_MEMORY;
    for (size_t part = 0; part < parts; part++) {
        c->bodies[c->count] = clash_part(k, (int)part);
        if (!clash_empty(&c->bodies[c->count])) c->count++;
    }
    return clash_find(c);
}

static const char *part_name(const sw_piece *p, int part)
{
    return part < (int)p->face_count ? p->faces[part].name : p->bends[part - (int)p->face_count].name;
}

static sw_status report_self(const clash *c, const sw_sheet_study *study, const sw_piece *p)
{
    sw_run *run = c->run;
    clash_hit worst = c->hits[0];
    for (size_t i = 1; i < c->hit_count; i++)
        if (c->hits[i].depth_mm > worst.depth_mm) worst = c->hits[i];
    sw_finding f = {.check = "self_collision",
                    .sense = SW_AT_MOST,
                    .value = worst.depth_mm,
                    .limit = study->opt->contact_mm,
                    .unit = "mm",
                    .source = geometry_source,
                    .place = p->place,
                    .where = sw_piece_label(run, p)};
    f.what = sw_text_format(
        run, run->keep, "%s and %s of the folded piece run into each other, at least %.2f mm deep (%zu pairs)",
        part_name(p, c->bodies[worst.a].part), part_name(p, c->bodies[worst.b].part), f.value, c->hit_count);
    f.remedy = "shorten or slope the flanges that meet, or leave a gap";
    return sw_sheet_report(run, study, f, 0.0);
}

static sw_status check_selves(sw_run *run, const sw_sheet_study *study)
{
    clash c = {.run = run, .opt = study->opt};
    size_t bent = 0, bad = 0;
    for (size_t i = 0; i < study->case_count; i++) {
        const sw_piece *p = study->cases[i].piece->piece;
        if (p->bend_count == 0) continue;
        SW_TRY(find_self_hits(&c, &study->cases[i]));
        bent++;
        if (c.hit_count == 0) continue;
        SW_TRY(report_self(&c, study, p));
        bad++;
    }
    if (bad > 0 || bent == 0) return SW_OK;
    sw_finding f = blank("self_collision");
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
