/* read_torch.c: the torch of hand and robot: a nozzle, and behind it neck, body, wrist and arm. */
#include "design/design_parts.h"

/* ---- one torch ---- */

/* What lies nearer the nozzle must be there, too: nothing hangs in the air. */
static void check_chain(const design_scope *s, const sw_torch *t)
{
    const struct {
        const char *name;
        double radius_mm;
    } chain[] = {{"neck", t->neck_radius_mm},
                 {"body", t->body_radius_mm},
                 {"wrist", t->wrist_radius_mm},
                 {"arm", t->arm_radius_mm}};
    for (size_t i = 1; i < DESIGN_COUNT_OF(chain); i++)
        if (chain[i].radius_mm > 0.0 && !(chain[i - 1].radius_mm > 0.0)) {
            design_fault(s, chain[i].name,
                         "is given, but the %s before it is not; give it, or leave out what it carries",
                         chain[i - 1].name);
            return;
        }
}

static void read_parts(const design_scope *s, sw_torch *t)
{
    static const design_field neck[] = {
        {DESIGN_RANGED(sw_torch, "bend", neck_rad, DESIGN_ANGLE, 0.0, 1.4)},
        {DESIGN_RANGED(sw_torch, "radius", neck_radius_mm, DESIGN_LENGTH, 1.0, 200.0), .needed = true},
        {DESIGN_RANGED(sw_torch, "length", neck_long_mm, DESIGN_LENGTH, 1.0, 1e3), .needed = true},
    };
    static const design_field body[] = {
        {DESIGN_RANGED(sw_torch, "radius", body_radius_mm, DESIGN_LENGTH, 1.0, 500.0), .needed = true},
        {DESIGN_RANGED(sw_torch, "length", body_long_mm, DESIGN_LENGTH, 1.0, 2e3), .needed = true},
    };
    static const design_field wrist[] = {
        {DESIGN_RANGED(sw_torch, "radius", wrist_radius_mm, DESIGN_LENGTH, 1.0, 500.0), .needed = true},
        {DESIGN_RANGED(sw_torch, "length", wrist_long_mm, DESIGN_LENGTH, 1.0, 2e3), .needed = true},
    };
    static const design_field arm[] = {
        {DESIGN_RANGED(sw_torch, "bend", arm_rad, DESIGN_ANGLE, 0.0, 1.6)},
        {DESIGN_RANGED(sw_torch, "radius", arm_radius_mm, DESIGN_LENGTH, 1.0, 500.0), .needed = true},
        {DESIGN_RANGED(sw_torch, "length", arm_long_mm, DESIGN_LENGTH, 1.0, 5e3), .needed = true},
    };
    (void)design_read_part(s, "neck", "{ bend = 22*deg, radius = 11*mm, length = 90*mm }", neck, DESIGN_COUNT_OF(neck),
                           t);
    (void)design_read_part(s, "body", "{ radius = 25*mm, length = 120*mm }", body, DESIGN_COUNT_OF(body), t);
    (void)design_read_part(s, "wrist", "{ radius = 50*mm, length = 120*mm }", wrist, DESIGN_COUNT_OF(wrist), t);
    (void)design_read_part(s, "arm", "{ bend = 60*deg, radius = 50*mm, length = 300*mm }", arm, DESIGN_COUNT_OF(arm),
                           t);
}

/* The table `torch` of a table; false when it has none. */
static bool read_torch(const design_scope *s, sw_torch *t)
{
    static const design_field fields[] = {
        {DESIGN_RANGED(sw_torch, "radius", nozzle_radius_mm, DESIGN_LENGTH, 1.0, 200.0), .needed = true},
        {DESIGN_RANGED(sw_torch, "length", nozzle_long_mm, DESIGN_LENGTH, 1.0, 1e3), .needed = true},
        {.name = "neck", .kind = DESIGN_BY_HAND},
        {.name = "body", .kind = DESIGN_BY_HAND},
        {.name = "wrist", .kind = DESIGN_BY_HAND},
        {.name = "arm", .kind = DESIGN_BY_HAND},
    };
    size_t before = s->d->faults;
    if (!design_read_part(s, "torch", "{ radius = 10*mm, length = 60*mm }", fields, DESIGN_COUNT_OF(fields), t))
        return false;
    (void)lua_getfield(s->d->L, s->table, "torch");
    design_scope inner = design_within(s, "torch", 0);
    read_parts(&inner, t);
    if (s->d->faults == before) check_chain(&inner, t);
    lua_pop(s->d->L, 1);
    return true;
}

/* ---- whose it is ---- */

static bool torch_of(const design_scope *s, const char *station, sw_torch *t)
{
    bool given = lua_getfield(s->d->L, s->table, station) == LUA_TTABLE;
    design_scope inner = design_within(s, station, 0);
    if (given) given = read_torch(&inner, t);
    lua_pop(s->d->L, 1);
    return given;
}

/* Hand and robot have their own, or the one of the table. */
void design_read_torches(const design_scope *s, sw_welding *w)
{
    sw_torch both = {0};
    bool of_both = read_torch(s, &both), of_hand = torch_of(s, "hand", &w->hand_torch),
         of_robot = torch_of(s, "robot", &w->robot_torch);
    if (!of_hand) w->hand_torch = both;
    if (!of_robot) w->robot_torch = both;
    if (of_robot && !of_hand && !of_both)
        design_fault(s, "hand.torch", "is missing, but the robot has one; give the torch that is held by hand, too");
    if (of_hand && !of_robot && !of_both && w->robot)
        design_fault(s, "robot.torch", "is missing, but the hand has one; give the robot's torch, too");
}
