/* resolve.c: when a description has run, joins what refers to each other by name. */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

static design_piece *pieces_of(const design *d)
{
    return d->pieces.items;
}

static void unknown_piece(const design_scope *s, const char *field, const char *wrong)
{
    design *d = s->d;
    const char **names = DESIGN_TAKE(d, d->pieces.count, const char *);
    for (size_t i = 0; i < d->pieces.count; i++) names[i] = pieces_of(d)[i].made.name;
    design_fault(s, field, "\"%s\" is no piece of this stove%s", wrong, design_hint(d, wrong, names, d->pieces.count));
}

/* ---- names ---- */

static void check_hinges(design *d)
{
    const sw_hinge *all = d->hinges.items;
    for (size_t i = 0; i < d->hinges.count; i++) {
        design_charge(d->L, DESIGN_NAME_STEPS * (double)all[i].carried);
        for (size_t k = 0; k < all[i].carried; k++)
            if (!design_name_known(d, all[i].carries[k]))
                design_note(d, SW_BAD_INPUT, all[i].place, design_text(d, "hinge.carries[%zu]", k + 1),
                            "\"%s\" is no piece and no item of this stove; name what swings with the door",
                            all[i].carries[k]);
    }
}

/* ---- places ---- */

/* The frame `relative_to` means; false when it cannot be had (noted, or noted at the other piece). */
static bool base_frame(design *d, const design_place *place, sw_frame *base)
{
    *base = sw_frame_world();
    if (place->relative_to[0] == '\0') return true;
    design_piece *other = design_piece_find(d, place->relative_to);
    if (other == NULL) {
        unknown_piece(&place->scope, "relative_to", place->relative_to);
        return false;
    }
    if (other->visit == 1) {
        design_fault(&place->scope, "relative_to",
                     "goes round in a circle: \"%s\" itself stands relative to this piece", place->relative_to);
        return false;
    }
    if (other->made.placements == NULL) return false;
    *base = other->made.placements[0];
    return true;
}

static const sw_frame *resolve_places(design *d, const design_place *places, size_t count, double thickness_mm)
{
    sw_frame *frames = DESIGN_TAKE(d, count, sw_frame);
    design_charge(d->L, DESIGN_NAME_STEPS * (double)count);
    for (size_t i = 0; i < count; i++) {
        sw_frame base;
        if (!base_frame(d, &places[i], &base)) return NULL;
        frames[i] = design_place_frame(&places[i], thickness_mm, base);
    }
    return frames;
}

static void resolve_mirror(design *d, design_piece *copy)
{
    design_piece *original = design_piece_find(d, copy->original);
    if (original == NULL) {
        unknown_piece(&copy->scope, "", copy->original);
    } else if (original->visit == 1) {
        design_fault(&copy->scope, "", "goes round in a circle: \"%s\" is made from this piece", copy->original);
    } else {
        copy->bad = copy->bad || original->bad || original->made.placements == NULL;
        if (copy->bad) return;
        design_build_mirror(d, copy, original);
        copy->made.mirror_of = (int)(original - pieces_of(d));
        return;
    }
    copy->bad = true;
}

/* What it stands on is resolved, or goes round in a circle to it. */
static void place_piece(design *d, design_piece *piece)
{
    if (piece->original[0] != '\0')
        resolve_mirror(d, piece);
    else if (piece->place_count > 0) {
        piece->made.placements = resolve_places(d, piece->places, piece->place_count, piece->made.thickness_mm);
        piece->made.count = piece->place_count;
    }
    if (piece->made.placements == NULL) piece->bad = true;
    piece->visit = 2;
}

typedef struct waiting { /* a piece under way */
    design_piece *piece;
    size_t next; /* of its places: which to look at */
} waiting;

/* The next piece it stands on that nobody has looked at yet; NULL = none is left. */
static design_piece *stands_on(const design *d, waiting *w)
{
    const design_piece *piece = w->piece;
    bool mirrored = piece->original[0] != '\0';
    for (size_t count = mirrored ? 1 : piece->place_count; w->next < count;) {
        const char *name = mirrored ? piece->original : piece->places[w->next].relative_to;
        design_piece *other = name[0] == '\0' ? NULL : design_piece_find(d, name);
        w->next++;
        if (other != NULL && other->visit == 0) return other;
    }
    return NULL;
}

/* Pieces on which others stand come first; the chain may be as long as there are pieces. */
static void resolve_piece(design *d, design_piece *piece, waiting *chain)
{
    size_t n = 0;
    if (piece->visit == 0) chain[n++] = (waiting){piece, 0};
    while (n > 0) {
        waiting *last = &chain[n - 1];
        last->piece->visit = 1;
        design_piece *other = stands_on(d, last);
        if (other != NULL) {
            chain[n++] = (waiting){other, 0};
        } else {
            place_piece(d, last->piece);
            n--;
        }
    }
}

static void resolve_pieces(design *d)
{
    waiting *chain = DESIGN_TAKE(d, d->pieces.count, waiting);
    for (size_t i = 0; i < d->pieces.count; i++) resolve_piece(d, &pieces_of(d)[i], chain);
}

/* An item lies from z = 0 to z = thickness of its frame: "rear" (default "mid" too) puts `at` on z = 0. */
static void resolve_item(design *d, design_item *item)
{
    if (item->bad) return;
    for (size_t i = 0; i < item->place_count; i++)
        if (item->places[i].surface == 2) item->places[i].surface = 0;
    item->made.placements = resolve_places(d, item->places, item->place_count, 2.0 * item->made.thickness_mm);
    item->made.count = item->place_count;
}

/* ---- joints ---- */

static int edge_index(const sw_piece *piece, const char *edge)
{
    const char *main_name = piece->faces[0].name;
    size_t prefix = strlen(main_name);
    for (int round = 0; round < 2; round++) {
        for (size_t i = 0; i < piece->edge_count; i++)
            if (strcmp(piece->edges[i].name, edge) == 0) return (int)i;
        if (strncmp(edge, main_name, prefix) != 0 || edge[prefix] != '.') break;
        edge += prefix + 1; /* "main.left" is "left" */
    }
    return -1;
}

static void unknown_edge(const design_scope *s, const char *field, const sw_piece *piece, const char *edge)
{
    const char **names = DESIGN_TAKE(s->d, piece->edge_count, const char *);
    for (size_t i = 0; i < piece->edge_count; i++) names[i] = piece->edges[i].name;
    const char *hint = design_hint(s->d, edge, names, piece->edge_count);
    design_fault(
        s, field, "\"%s\" is no free edge of \"%s\"%s%s", edge, piece->name, hint,
        hint[0] == '\0' && piece->bend_count > 0
            ? "; an edge that carries a bend over its whole length is not free, name one of the flange, e.g. \"bend 1.tip\""
            : "");
}

static bool resolve_end(design *d, const design_joint *joint, const char *field, const design_joint_end *end,
                        sw_joint_end *made)
{
    design_piece *piece = design_piece_find(d, end->piece);
    *made = (sw_joint_end){.piece = -1, .placement = (int)end->place - 1, .edge = -1, .face = -1};
    if (end->piece[0] == '\0') return false;
    if (piece == NULL) {
        unknown_piece(&joint->scope, field, end->piece);
        return false;
    }
    made->piece = (int)(piece - pieces_of(d));
    if (piece->bad) return true; /* its own faults are enough */
    if (end->place > piece->made.count) {
        design_fault(&joint->scope, design_text(d, "%s.place", field), "is %zu, but \"%s\" has %zu", end->place,
                     piece->made.name, piece->made.count);
        return false;
    }
    if (end->edge[0] != '\0') {
        made->edge = edge_index(&piece->made, end->edge);
        if (made->edge < 0)
            unknown_edge(&joint->scope, design_text(d, "%s.edge", field), &piece->made, end->edge);
        else
            made->face = piece->made.edges[made->edge].face;
    }
    for (size_t i = 0; i < piece->made.face_count && end->face[0] != '\0'; i++)
        if (strcmp(piece->made.faces[i].name, end->face) == 0) made->face = (int)i;
    if (end->face[0] != '\0' && made->face < 0)
        design_fault(&joint->scope, design_text(d, "%s.face", field),
                     "\"%s\" is no face of \"%s\"; its root face is \"%s\"", end->face, piece->made.name,
                     piece->made.faces[0].name);
    return true;
}

static void resolve_joint(design *d, size_t index)
{
    design_joint *all = d->joints.items, *joint = &all[index];
    design_charge(d->L, DESIGN_NAME_STEPS + (double)index);
    for (size_t i = 0; i < index; i++)
        if (joint->made.name[0] != '\0' && strcmp(all[i].made.name, joint->made.name) == 0)
            design_fault(&joint->scope, "name", "is already taken by the joint in line %d", all[i].scope.place.line);
    bool both = resolve_end(d, joint, "a", &joint->a, &joint->made.a);
    both = resolve_end(d, joint, "b", &joint->b, &joint->made.b) && both;
    bool same =
        both && joint->made.a.piece == joint->made.b.piece && joint->made.a.placement == joint->made.b.placement;
    if (same && joint->made.a.edge == joint->made.b.edge)
        design_fault(&joint->scope, "b", "is the same edge as a; a joint needs two");
}

/* ---- all of it ---- */

void design_check_settings(design *d)
{
    const design *both[2] = {d->before, d};
    size_t n = 0, most = d->parameters.count + (d->before == NULL ? 0 : d->before->parameters.count);
    if (!d->last || (d->before != NULL && !d->before->ran)) return;
    const char **names = DESIGN_TAKE(d, most, const char *);
    for (size_t k = 0; k < 2; k++)
        for (size_t i = 0; both[k] != NULL && i < both[k]->parameters.count; i++)
            names[n++] = ((const sw_parameter *)both[k]->parameters.items)[i].name;
    for (size_t i = 0; i < d->setting_count; i++)
        if (!d->settings[i].used)
            design_note(d, SW_BAD_INPUT, (sw_place){0}, design_text(d, "--set %s", d->settings[i].name),
                        "no parameter of %s%s%s has this name%s", d->before == NULL ? "" : d->before->file,
                        d->before == NULL ? "" : " or ", d->file, design_hint(d, d->settings[i].name, names, n));
}

static void keep_stove(design *d)
{
    sw_piece *pieces = DESIGN_TAKE(d, d->pieces.count, sw_piece);
    sw_item *items = DESIGN_TAKE(d, d->items.count, sw_item);
    sw_joint *joints = DESIGN_TAKE(d, d->joints.count, sw_joint);
    for (size_t i = 0; i < d->pieces.count; i++) pieces[i] = pieces_of(d)[i].made;
    for (size_t i = 0; i < d->items.count; i++) items[i] = ((design_item *)d->items.items)[i].made;
    for (size_t i = 0; i < d->joints.count; i++) joints[i] = ((design_joint *)d->joints.items)[i].made;
    sw_stove *s = &d->stove;
    s->parameters = design_kept(d, &d->parameters, sizeof(sw_parameter));
    s->parameter_count = d->parameters.count;
    s->groups = design_kept(d, &d->groups, sizeof(sw_group));
    s->group_count = d->groups.count;
    s->pieces = pieces;
    s->piece_count = d->pieces.count;
    s->items = items;
    s->item_count = d->items.count;
    s->joints = joints;
    s->joint_count = d->joints.count;
    s->openings = design_kept(d, &d->openings, sizeof(sw_opening));
    s->opening_count = d->openings.count;
    s->hinges = design_kept(d, &d->hinges, sizeof(sw_hinge));
    s->hinge_count = d->hinges.count;
}

void design_finish_stove(design *d)
{
    if (!d->ran) return; /* what is missing may stand after the line that failed */
    if (!d->has_stove)
        design_note(d, SW_BAD_INPUT, (sw_place){.file = d->file}, "stove",
                    "is missing: a stove description needs stove { name = ..., duty = {...} }");
    design_names_make(d);
    design_names_check(d);
    resolve_pieces(d);
    for (size_t i = 0; i < d->items.count; i++) resolve_item(d, (design_item *)d->items.items + i);
    for (size_t i = 0; i < d->joints.count; i++) resolve_joint(d, i);
    check_hinges(d);
    design_check_settings(d);
    if (d->faults == 0) keep_stove(d);
}

void design_finish_works(design *d)
{
    if (!d->ran) return;
    sw_place place = {.file = d->file};
    if (!d->has_works)
        design_note(d, SW_BAD_INPUT, place, "works", "is missing: a works description needs works { name = ... }");
    if (d->stock_declared == 0)
        design_note(d, SW_BAD_INPUT, place, "stock", "is empty: give at least one sheet { ... } or remnant { ... }");
    if (!d->has_laser)
        design_note(d, SW_BAD_INPUT, place, "laser", "is missing: a works description needs laser { ... }");
    if (!d->has_press)
        design_note(d, SW_BAD_INPUT, place, "press", "is missing: a works description needs press { ... }");
    const design_stock *all = d->stock.items;
    sw_stock *stock = DESIGN_TAKE(d, d->stock.count, sw_stock);
    for (size_t i = 0; i < d->stock.count; i++) {
        stock[i] = all[i].made;
        design_charge(d->L, (double)i);
        for (size_t j = 0; j < i; j++)
            if (strcmp(all[i].made.name, all[j].made.name) == 0)
                design_fault(&all[i].scope, "name",
                             "\"%s\" is already taken by the sheet in line %d; give each its own", all[i].made.name,
                             all[j].scope.place.line);
    }
    d->works.stock = stock;
    d->works.stock_count = d->stock.count;
    design_finish_stations(d);
}
