/* Edges of holes and of bent zones as the description names them. */
#include "reading.h"

static void a_hole_with_an_edge_name_is_an_edge(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t, "{ outline = rectangle {300*mm, 200*mm}, holes = { hole { at = {50*mm, 50*mm}, d = 8*mm },"
           "  hole { at = {150*mm, 100*mm}, d = 150*mm, edge = 'flue hole' } },"
           "  bends = { { on = 'left', name = 'flange', height = 60*mm, face = { holes = {"
           "    window { outline = rectangle {20*mm, 10*mm}, at = {60*mm, 20*mm}, edge = 'port' } } } } } }");
    if (p == NULL) return;
    const sw_edge *e = edge_of(p, "flue hole"), *port = edge_of(p, "flange.port");
    if (!sw_true(t, e != NULL && port != NULL)) return;
    sw_true(t, e->face == 0 && e->hole == 2 && e->first == 0 && e->count == p->faces[0].region.holes[1].n);
    sw_true(t, port->face == 1 && port->hole == 1 && port->count == 4);
}

static void the_edges_of_a_row_are_numbered(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t, "{ outline = rectangle {300*mm, 200*mm}, holes = { slot { at = {30*mm, 30*mm}, length = 20*mm, width = 5*mm,"
           "  edge = 'first' }, row { hole { at = {50*mm, 50*mm}, d = 8*mm, edge = 'jet' }, step = {20*mm, 0*mm},"
           "  count = 3 } } }");
    if (p == NULL) return;
    sw_true(t, edge_of(p, "first") != NULL && edge_of(p, "first")->hole == 1);
    sw_true(t, edge_of(p, "jet 1") != NULL && edge_of(p, "jet 1")->hole == 2);
    sw_true(t, edge_of(p, "jet 3") != NULL && edge_of(p, "jet 3")->hole == 4);
    sw_true(t, edge_of(p, "jet") == NULL);
}

static void an_edge_name_stands_once_in_a_piece(sw_test *t)
{
    int line = 0;
    const char *text = first_error(t,
                                   PIECE("1", "p",
                                         "{ outline = rectangle {300*mm, 200*mm},\n"
                                         "  holes = { hole { at = {50*mm, 50*mm}, d = 8*mm, edge = 'left' } } }"),
                                   &line);
    sw_contains(t, text, "edge name \"left\" is already taken");
    sw_true(t, line == 3);
}

#define SHELL                                                                                                          \
    "piece { number = 'S', name = 'shell', group = 'g', material = 'S235', thickness = 3*mm, turns = 'half',\n"        \
    "  face = { outline = rectangle { 20*mm, 500*mm }, bends = { { on = 'right', name = 'roll', kind = 'roll',\n"      \
    "    radius = 150*mm, angle = 300*deg, holes = { { hole { d = 60*mm, edge = 'spigot hole' }, along = 200*mm,\n"    \
    "    angle = 90*deg } } } } }, place = { at = {0*mm, 0*mm, 0*mm}, x = 'right', y = 'up' } }\n"

static void a_roll_has_two_rims_and_names_its_cut_outs(sw_test *t)
{
    const sw_stove *s = read_stove(t, SHELL);
    if (s == NULL) return;
    const sw_piece *p = &s->pieces[0];
    const sw_edge *start = edge_of(p, "roll.start rim"), *end = edge_of(p, "roll.end rim");
    const sw_edge *hole = edge_of(p, "roll.spigot hole");
    if (!sw_true(t, start != NULL && end != NULL && hole != NULL)) return;
    sw_true(t, start->zone == 1 && start->first == 1 && start->count == 1); /* at `from`: x = width of the zone */
    sw_true(t, end->zone == 1 && end->first == 3 && end->count == 1);
    sw_true(t, hole->zone == 1 && hole->hole == 1 && hole->count == p->bends[0].holes[0].contour.n);
}

static void rims_change_ends_in_a_mirrored_copy(sw_test *t)
{
    const sw_stove *s = read_stove(t, SHELL "mirror('shell', { number = 'T', name = 'other', plane = 'x' })");
    if (s == NULL) return;
    const sw_piece *p = &s->pieces[1];
    const sw_edge *start = edge_of(p, "roll.start rim"), *end = edge_of(p, "roll.end rim");
    if (!sw_true(t, start != NULL && end != NULL)) return;
    sw_true(t, start->first == 3 && end->first == 1);
    sw_true(t, edge_of(p, "roll.spigot hole") != NULL && edge_of(p, "roll.spigot hole")->hole == 1);
}

static void a_joint_takes_the_edge_of_a_hole(sw_test *t)
{
    const sw_stove *s = read_stove(
        t, SHELL PIECE("P", "plate",
                       "{ outline = rectangle {400*mm, 400*mm}, holes = { hole { at = {200*mm, 200*mm}, "
                       "d = 310*mm, edge = 'opening' } } }") //
        "joint { name = 'shell in plate', kind = 'tee', gap = 3*mm, a = { 'plate', edge = 'opening' }, b = { 'shell' } }\n"
        "joint { name = 'rim on plate', kind = 'tee', a = { 'shell', edge = 'roll.end rim' }, b = { 'plate' } }");
    if (s == NULL) return;
    sw_true(t, s->joint_count == 2);
    sw_same_text(t, s->pieces[1].edges[s->joints[0].a.edge].name, "opening");
    sw_same_text(t, s->pieces[0].edges[s->joints[1].a.edge].name, "roll.end rim");
}

SW_TESTS(SW_CASE(a_hole_with_an_edge_name_is_an_edge), SW_CASE(the_edges_of_a_row_are_numbered),
         SW_CASE(an_edge_name_stands_once_in_a_piece), SW_CASE(a_roll_has_two_rims_and_names_its_cut_outs),
         SW_CASE(rims_change_ends_in_a_mirrored_copy), SW_CASE(a_joint_takes_the_edge_of_a_hole))
