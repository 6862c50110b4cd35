/* read_press.c: press {...}, rolls {...}. */
#include "design/design_parts.h"

#include <math.h>

/* ---- press ---- */

typedef struct trial_fields {
    sw_bend_trial made;
    const char *material;
} trial_fields;

static void read_trial(const design_scope *s, size_t i, void *context)
{
    static const design_field fields[] = {
        {DESIGN_FIELD(trial_fields, material, DESIGN_TEXT), .needed = true, .position = 1},
        {.name = "thickness",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(trial_fields, made.thickness_mm),
         .needed = true,
         .low = 0.3,
         .high = 50.0,
         .position = 2},
        {.name = "radius",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(trial_fields, made.radius_mm),
         .needed = true,
         .low = 0.0,
         .high = 1e3},
        {.name = "k",
         .kind = DESIGN_NUMBER,
         .offset = offsetof(trial_fields, made.k),
         .needed = true,
         .low = 0.05,
         .high = 0.6},
        {.name = "note", .kind = DESIGN_TEXT, .offset = offsetof(trial_fields, made.note)},
    };
    sw_bend_trial *trial = (sw_bend_trial *)context + i;
    trial_fields f = {.made = {.note = "", .place = s->place}, .material = ""};
    if (!design_is_table(s, "{ \"S235\", 4*mm, radius = 5*mm, k = 0.41 }")) return;
    bool good = design_read_fields(s, fields, DESIGN_COUNT_OF(fields), false, &f);
    if (f.material[0] != '\0') f.made.grade = design_works_grade(s, f.material);
    if (!good) return;
    *trial = f.made;
    design_charge(s->d->L, (double)i); /* for the loop */
    for (const sw_bend_trial *other = context; other < trial; other++)
        if (trial->grade != NULL && other->grade == trial->grade &&
            fabs(other->thickness_mm - trial->thickness_mm) <= SW_SAME_POINT_MM &&
            fabs(other->radius_mm - trial->radius_mm) <= SW_SAME_POINT_MM)
            design_fault(s, "", "gives %s %g mm with radius %g mm a second time; average the trials into one",
                         trial->grade->name, trial->thickness_mm, trial->radius_mm);
}

static void read_die(const design_scope *s, size_t i, void *context)
{
    double *die_mm = (double *)context + i;
    if (!design_read_quantity(s, "", s->table, DESIGN_LENGTH, die_mm)) return;
    if (*die_mm < 2.0 || *die_mm > 500.0) design_fault(s, "", "is %g mm, allowed is 2 to 500 mm", *die_mm);
    if (i > 0 && *die_mm <= die_mm[-1])
        design_fault(s, "", "is %g mm after %g mm; list the V openings from narrow to wide", *die_mm, die_mm[-1]);
}

/* Punch, die block, back gauge and capability: a table each. */
static void read_tools(const design_scope *s, sw_press *press)
{
    static const design_field punch[] = {
        {DESIGN_RANGED(sw_press, "radius", punch_radius_mm, DESIGN_LENGTH, 0.0, 100.0)},
        {DESIGN_RANGED(sw_press, "body", punch_body_mm, DESIGN_LENGTH, 0.0, 500.0)},
        {DESIGN_RANGED(sw_press, "height", punch_high_mm, DESIGN_LENGTH, 0.0, 1e3)},
        {DESIGN_RANGED(sw_press, "neck", neck_mm, DESIGN_LENGTH, 0.0, 500.0)},
    };
    static const design_field block[] = {
        {DESIGN_RANGED(sw_press, "beside", die_block_mm, DESIGN_LENGTH, 0.0, 500.0)},
        {DESIGN_RANGED(sw_press, "height", die_high_mm, DESIGN_LENGTH, 0.0, 1e3)},
    };
    static const design_field gauge[] = {
        {DESIGN_RANGED(sw_press, "least", gauge_least_mm, DESIGN_LENGTH, 0.0, 1e4)},
        {DESIGN_RANGED(sw_press, "most", gauge_most_mm, DESIGN_LENGTH, 0.0, 1e4)},
    };
    static const design_field capability[] = {
        {DESIGN_RANGED(sw_press, "angle", angle_sigma_rad, DESIGN_ANGLE, 0.0, SW_PI / 18.0)},
        {DESIGN_RANGED(sw_press, "line", line_sigma_mm, DESIGN_LENGTH, 0.0, 5.0)},
    };
    (void)design_read_part(s, "punch", "{ radius = 1*mm, body = 12*mm, height = 130*mm }", punch,
                           DESIGN_COUNT_OF(punch), press);
    (void)design_read_part(s, "die_block", "{ beside = 15*mm, height = 90*mm }", block, DESIGN_COUNT_OF(block), press);
    (void)design_read_part(s, "gauge", "{ least = 8*mm, most = 600*mm }", gauge, DESIGN_COUNT_OF(gauge), press);
    (void)design_read_part(s, "capability", "{ angle = 0.3*deg, line = 0.15*mm }", capability,
                           DESIGN_COUNT_OF(capability), press);
    if (press->gauge_most_mm > 0.0 && press->gauge_most_mm <= press->gauge_least_mm)
        design_fault(s, "gauge.most", "is %g mm, not beyond least (%g mm); give the travel from near to far",
                     press->gauge_most_mm, press->gauge_least_mm);
}

int design_press_call(lua_State *L)
{
    static const char *const rules[] = {"DIN 6935", "K", NULL};
    static const design_field fields[] = {
        {.name = "rule", .kind = DESIGN_WORD, .offset = offsetof(sw_press, rule), .words = rules},
        {.name = "k", .kind = DESIGN_NUMBER, .offset = offsetof(sw_press, k), .low = 0.05, .high = 0.6},
        {.name = "length",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(sw_press, length_mm),
         .needed = true,
         .low = 100.0,
         .high = 2e4},
        {.name = "force",
         .kind = DESIGN_FORCE,
         .offset = offsetof(sw_press, force_n),
         .needed = true,
         .low = 100.0,
         .high = 5e7},
        {.name = "joggle_least",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(sw_press, joggle_least_mm),
         .low = 0.0,
         .high = 100.0},
        {DESIGN_RANGED(sw_press, "beam", beam_mm, DESIGN_LENGTH, 0.0, 1e3)},
        {DESIGN_RANGED(sw_press, "bend_time", bend_s, DESIGN_TIME, 0.0, DESIGN_HOUR_S)},
        {DESIGN_RANGED(sw_press, "turn_time", turn_s, DESIGN_TIME, 0.0, DESIGN_HOUR_S)},
        {DESIGN_RANGED(sw_press, "gauge_time", gauge_s, DESIGN_TIME, 0.0, DESIGN_HOUR_S)},
        {DESIGN_RANGED(sw_press, "setup", setup_s, DESIGN_TIME, 0.0, DESIGN_DAY_S)},
        {DESIGN_RANGED(sw_press, "rate", rate_h, DESIGN_PER_HOUR, 0.0, 1e4)},
        {.name = "dies", .kind = DESIGN_BY_HAND, .needed = true},
        {.name = "trials", .kind = DESIGN_BY_HAND},
        {.name = "strips", .kind = DESIGN_BY_HAND},
        {.name = "punch", .kind = DESIGN_BY_HAND},
        {.name = "die_block", .kind = DESIGN_BY_HAND},
        {.name = "gauge", .kind = DESIGN_BY_HAND},
        {.name = "capability", .kind = DESIGN_BY_HAND},
    };
    design_scope s;
    if (!design_open(L, "press", "", &s) || !design_once(&s, &s.d->has_press, "works")) return 0;
    sw_press *press = &s.d->works.press;
    bool good = design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, press);
    if (good && (press->rule == SW_ALLOW_K) != (press->k > 0.0))
        design_fault(&s, "k",
                     press->k > 0.0 ? "is given, but the rule is \"DIN 6935\"; write rule = \"K\""
                                    : "is missing; the rule \"K\" needs one, e.g. k = 0.38");
    double *dies = DESIGN_TAKE(s.d, design_entries(&s, "dies"), double);
    press->die_count = design_each(&s, "dies", read_die, dies);
    press->dies_mm = dies;
    if (press->die_count == 0 && good)
        design_fault(&s, "dies", "is empty; give the V openings at hand, e.g. { 16*mm, 24*mm }");
    sw_bend_trial *trials = DESIGN_TAKE(s.d, design_entries(&s, "trials"), sw_bend_trial);
    press->trial_count = design_each(&s, "trials", read_trial, trials);
    press->trials = trials;
    read_tools(&s, press);
    design_read_strips(&s, press);
    return 0;
}

/* ---- rolls ---- */

int design_rolls_call(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "length",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(sw_rolls, length_mm),
         .needed = true,
         .low = 100.0,
         .high = 2e4},
        {.name = "top_radius",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(sw_rolls, top_radius_mm),
         .needed = true,
         .low = 5.0,
         .high = 1e3},
        {.name = "lower_radius",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(sw_rolls, lower_radius_mm),
         .needed = true,
         .low = 5.0,
         .high = 1e3},
        {.name = "centres",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(sw_rolls, centres_mm),
         .needed = true,
         .low = 10.0,
         .high = 5e3},
        {.name = "flat_end",
         .kind = DESIGN_NUMBER,
         .offset = offsetof(sw_rolls, flat_end_s),
         .low = 0.0,
         .high = 100.0},
        {DESIGN_RANGED(sw_rolls, "force", force_n, DESIGN_FORCE, 0.0, 5e7)},
        {DESIGN_RANGED(sw_rolls, "speed", pass_mm_s, DESIGN_SPEED, 0.0, 1e3)},
        {DESIGN_RANGED(sw_rolls, "setup", setup_s, DESIGN_TIME, 0.0, DESIGN_DAY_S)},
        {DESIGN_RANGED(sw_rolls, "rate", rate_h, DESIGN_PER_HOUR, 0.0, 1e4)},
        {.name = "trials", .kind = DESIGN_BY_HAND},
        {.name = "capability", .kind = DESIGN_BY_HAND},
    };
    static const design_field capability[] = {
        {DESIGN_RANGED(sw_rolls, "radius", radius_sigma, DESIGN_NUMBER, 0.0, 0.2)},
    };
    design_scope s;
    if (!design_open(L, "rolls", "", &s) || !design_once(&s, &s.d->has_rolls, "works")) return 0;
    sw_rolls *rolls = &s.d->works.rolls;
    (void)design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, rolls);
    (void)design_read_part(&s, "capability", "{ radius = 1*percent }", capability, DESIGN_COUNT_OF(capability), rolls);
    design_read_roll_trials(&s, rolls);
    return 0;
}
