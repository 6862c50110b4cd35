/* read_welding.c: welding {...}: settings by throat, tacks, by hand and by robot. */
#include "design/design_parts.h"

#include <math.h>

/* ---- rows ---- */

static void check_row(const design_scope *s, const sw_weld_row *rows, const sw_weld_row *row)
{
    if (row->thick_least_mm > row->thick_most_mm)
        design_fault(s, "to", "is %g mm, below from (%g mm); give the thinnest sheet first", row->thick_most_mm,
                     row->thick_least_mm);
    if (row->hand_mm_s == 0.0 && row->robot_mm_s == 0.0)
        design_fault(s, "hand", "is missing, and so is robot; give the travel of one of them at least");
    for (const sw_weld_row *other = rows; other < row; other++)
        if (fabs(other->throat_mm - row->throat_mm) <= SW_SAME_POINT_MM && other->thick_least_mm < row->thick_most_mm &&
            row->thick_least_mm < other->thick_most_mm)
            design_fault(s, "",
                         "gives throat %g mm for sheets that an earlier row has, too; let the thicknesses of one "
                         "throat follow each other",
                         row->throat_mm);
}

static void read_row(const design_scope *s, size_t i, void *context)
{
    static const design_field fields[] = {
        {DESIGN_RANGED(sw_weld_row, "throat", throat_mm, DESIGN_LENGTH, 0.5, 30.0), .needed = true, .position = 1},
        {DESIGN_RANGED(sw_weld_row, "from", thick_least_mm, DESIGN_LENGTH, 0.3, 50.0), .needed = true},
        {DESIGN_RANGED(sw_weld_row, "to", thick_most_mm, DESIGN_LENGTH, 0.3, 50.0), .needed = true},
        {DESIGN_RANGED(sw_weld_row, "wire", wire_mm, DESIGN_LENGTH, 0.4, 5.0), .needed = true},
        {DESIGN_RANGED(sw_weld_row, "feed", feed_m_s, DESIGN_METRE_SPEED, 0.0, 1.0), .needed = true},
        {DESIGN_RANGED(sw_weld_row, "voltage", volts, DESIGN_VOLTAGE, 5.0, 60.0), .needed = true},
        {DESIGN_RANGED(sw_weld_row, "current", amps, DESIGN_CURRENT, 5.0, 1000.0), .needed = true},
        {DESIGN_RANGED(sw_weld_row, "flow", gas_m3_s, DESIGN_FLOW, 0.0, 0.01)},
        {DESIGN_RANGED(sw_weld_row, "hand", hand_mm_s, DESIGN_SPEED, 0.0, 200.0)},
        {DESIGN_RANGED(sw_weld_row, "robot", robot_mm_s, DESIGN_SPEED, 0.0, 200.0)},
    };
    sw_weld_row *row = (sw_weld_row *)context + i;
    *row = (sw_weld_row){.place = s->place};
    if (!design_is_table(s, "{ 2.5*mm, from = 2*mm, to = 3*mm, wire = 1*mm, ... }")) return;
    if (!design_read_fields(s, fields, DESIGN_COUNT_OF(fields), false, row)) return;
    design_charge(s->d->L, (double)i); /* for the rows before it */
    check_row(s, context, row);
}

/* ---- by hand and by robot ---- */

static void read_ways(const design_scope *s, sw_welding *w)
{
    static const design_field tack[] = {
        {DESIGN_RANGED(sw_welding, "time", tack_s, DESIGN_TIME, 0.0, 600.0)},
        {DESIGN_RANGED(sw_welding, "length", tack_mm, DESIGN_LENGTH, 0.0, 200.0)},
    };
    static const design_field hand[] = {
        {DESIGN_RANGED(sw_welding, "arc_on", hand_share, DESIGN_NUMBER, 0.0, 1.0)},
        {DESIGN_RANGED(sw_welding, "rate", hand_rate_h, DESIGN_PER_HOUR, 0.0, 1e4)},
        {.name = "torch", .kind = DESIGN_BY_HAND},
    };
    static const design_field robot[] = {
        {DESIGN_RANGED(sw_welding, "air_speed", robot_air_mm_s, DESIGN_SPEED, 0.0, 1e4)},
        {DESIGN_RANGED(sw_welding, "start_time", robot_start_s, DESIGN_TIME, 0.0, 600.0)},
        {DESIGN_RANGED(sw_welding, "turn_time", turn_s, DESIGN_TIME, 0.0, 600.0)},
        {DESIGN_RANGED(sw_welding, "fixture_time", fixture_s, DESIGN_TIME, 0.0, DESIGN_DAY_S)},
        {DESIGN_RANGED(sw_welding, "load", robot_load_kg, DESIGN_MASS, 0.0, 1e5)},
        {DESIGN_RANGED(sw_welding, "reach", reach_mm, DESIGN_LENGTH, 0.0, 2e4)},
        {DESIGN_RANGED(sw_welding, "bridges", gap_bridged, DESIGN_NUMBER, 0.0, 2.0)},
        {DESIGN_RANGED(sw_welding, "rate", robot_rate_h, DESIGN_PER_HOUR, 0.0, 1e4)},
        {.name = "torch", .kind = DESIGN_BY_HAND},
    };
    static const design_field capability[] = {
        {DESIGN_RANGED(sw_welding, "placing", place_sigma_mm, DESIGN_LENGTH, 0.0, 10.0)},
    };
    (void)design_read_part(s, "tack", "{ time = 6*s, length = 12*mm }", tack, DESIGN_COUNT_OF(tack), w);
    (void)design_read_part(s, "hand", "{ arc_on = 30*percent, rate = 50/h }", hand, DESIGN_COUNT_OF(hand), w);
    w->robot = design_read_part(s, "robot", "{ air_speed = 300*mm/s, rate = 60/h }", robot, DESIGN_COUNT_OF(robot), w);
    (void)design_read_part(s, "capability", "{ placing = 0.3*mm }", capability, DESIGN_COUNT_OF(capability), w);
    design_read_torches(s, w);
}

typedef struct welding_fields {
    sw_welding made;
    int process;
} welding_fields;

int design_welding_call(lua_State *L)
{
    /* arc processes of ISO 4063 for which EN 1011-1 has an efficiency */
    static const char *const processes[] = {"111", "121", "131", "135", "136", "138", "141", NULL};
    static const design_field fields[] = {
        {.name = "process",
         .kind = DESIGN_WORD,
         .offset = offsetof(welding_fields, process),
         .needed = true,
         .words = processes},
        {DESIGN_RANGED(welding_fields, "wire_price", made.wire_price_kg, DESIGN_PER_MASS, 0.0, 1e3)},
        {DESIGN_RANGED(welding_fields, "gas_price", made.gas_price_m3, DESIGN_PER_VOLUME, 0.0, 1e3)},
        {DESIGN_RANGED(welding_fields, "power_price", made.power_price_j, DESIGN_PER_ENERGY, 0.0, 1e-5)},
        {.name = "rows", .kind = DESIGN_BY_HAND, .needed = true},
        {.name = "tack", .kind = DESIGN_BY_HAND},
        {.name = "torch", .kind = DESIGN_BY_HAND},
        {.name = "hand", .kind = DESIGN_BY_HAND},
        {.name = "robot", .kind = DESIGN_BY_HAND},
        {.name = "capability", .kind = DESIGN_BY_HAND},
    };
    design_scope s;
    if (!design_open(L, "welding", "", &s) || !design_once(&s, &s.d->has_welding, "works")) return 0;
    welding_fields f = {.process = 0};
    bool good = design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &f);
    sw_weld_row *rows = DESIGN_TAKE(s.d, design_entries(&s, "rows"), sw_weld_row);
    f.made.row_count = design_each(&s, "rows", read_row, rows);
    f.made.rows = rows;
    f.made.process = processes[f.process];
    if (f.made.row_count == 0 && good)
        design_fault(&s, "rows", "is empty; give one row for each throat that is welded");
    read_ways(&s, &f.made);
    s.d->works.welding = f.made;
    return 0;
}
