/* reckon_lifting.c: lifting, slings and tipping by hand. Sources stand in each row; the functions are those of making/heft. */
#include "making/heft/heft.h"
#include "reckon/reckon_parts.h"

#include <math.h>

#define NIOSH  "NIOSH 94-110, Applications Manual, 1994 (tables seen in a textbook chapter; frequencies from memory)"
#define SLINGS "derived; no leg beyond 60 degrees: EN 818-4 (from memory)"

static const double pound_kg = 0.45359237, inch_mm = 25.4, cm_mm = 10;

static sw_niosh_task task_of(const double *in, double unit_mm)
{
    sw_niosh_task task = {.h_mm = in[0] * unit_mm, .v_mm = in[1] * unit_mm, .d_mm = in[2] * unit_mm, .per_min = in[4]};
    task.turn_rad = sw_rad_from_deg(in[3]);
    task.spell = in[5] <= 1 ? SW_SPELL_1_H : in[5] <= 2 ? SW_SPELL_2_H : SW_SPELL_8_H;
    task.coupling = in[6] < 0.5 ? SW_COUPLING_GOOD : in[6] < 1.5 ? SW_COUPLING_FAIR : SW_COUPLING_POOR;
    return task;
}

static void limits(const double *in, double *out, double unit_mm, double unit_kg, sw_niosh_form formula,
                   sw_niosh_form table)
{
    sw_niosh_task task = task_of(in, unit_mm);
    sw_niosh exact = sw_niosh_limit(&task, formula), tabled = sw_niosh_limit(&task, table);
    out[0] = exact.rwl_kg / unit_kg;
    out[1] = sw_niosh_index(in[7] * unit_kg, exact.rwl_kg);
    out[2] = tabled.rwl_kg / unit_kg;
    out[3] = sw_niosh_index(in[7] * unit_kg, tabled.rwl_kg);
    out[4] = exact.fm;
    out[5] = exact.cm;
}

static void lift(const double *in, double *out)
{
    limits(in, out, cm_mm, 1, SW_NIOSH_CM, SW_NIOSH_CM_TABLE);
}

static void lift_inch(const double *in, double *out)
{
    limits(in, out, inch_mm, pound_kg, SW_NIOSH_INCH, SW_NIOSH_INCH_TABLE);
}

static void carried_by(const double *in, double *out)
{
    out[0] = sw_reference_mass_kg(SW_PEOPLE_MIXED);
    out[1] = sw_reference_mass_kg(SW_PEOPLE_GENERAL);
    out[2] = sw_reference_mass_kg(SW_PEOPLE_FRAIL);
    out[3] = sw_team_mass_kg(2, in[0]);
    out[4] = sw_team_mass_kg(3, in[0]);
}

static void sling(const double *in, double *out)
{
    double n = sw_sling_legs_counted((size_t)in[1]), beta_rad = sw_rad_from_deg(in[2]);
    out[0] = sw_sling_leg_n(in[0], in[1], beta_rad);
    out[1] = sw_sling_pull_n(in[0], in[1], beta_rad);
    out[2] = sw_sling_leg_n(in[0], n, beta_rad);
    out[3] = sw_sling_mode_factor(SW_HITCH_STRAIGHT, (size_t)in[1], beta_rad);
}

static void pick(const double *in, double *out)
{
    out[0] = sw_pick_load_n(in[0], in[1], in[2]);
    out[1] = sw_pick_load_n(in[0], in[1], in[1] - in[2]);
}

static void hoist(const double *in, double *out)
{
    out[0] = sw_hoist_need_kg(in[0], in[1], in[2]);
    out[1] = sw_hoist_size_kg(out[0]);
}

static void tipping(const double *in, double *out)
{
    out[0] = sw_deg_from_rad(sw_tip_angle_rad(in[1], in[2]));
    out[1] = sw_tip_stop_m_s2(in[1], in[2]);
    out[2] = sw_tip_push_n(in[0], in[1], in[3]);
}

/* clang-format off */
#define IN_LOAD {"m", "kg", "load", NAN, 0, 1e5}

static const sw_reckon rows[] = {
    {"lift", "what one person may lift, metric", "RWL = 23 kg HM VM DM AM FM CM; index = load/RWL", "H to 63, V and D to 175 cm, A to 135 degrees, else 0", NIOSH,
     {{"H", "cm", "hands from the ankles, level", NAN, 1, 200}, {"V", "cm", "hands over the floor", NAN, 0, 250}, {"D", "cm", "way up or down", 25, 0, 250}, {"A", "deg", "turn of the trunk", 0, 0, 180}, {"F", "1/min", "lifts a minute", 0.2, 0, 30}, {"spell", "h", "lifting goes on for", 1, 0, 8}, {"grip", "", "0 = good, 1 = fair, 2 = poor", 0, 0, 2}, {"m", "kg", "load", 0, 0, 1e4}},
     {{"RWL", "kg", "limit, by formula"}, {"LI", "", "index, by formula"}, {"RWL_t", "kg", "limit, by printed tables"}, {"LI_t", "", "index, by printed tables"}, {"FM", "", "multiplier of frequency"}, {"CM", "", "multiplier of the grip"}}, lift},
    {"lift_inch", "what one person may lift, inches and pounds", "RWL = 51 lb HM VM DM AM FM CM; index = load/RWL", "H to 25, V and D to 70 in, A to 135 degrees, else 0", NIOSH,
     {{"H", "in", "hands from the ankles, level", NAN, 1, 80}, {"V", "in", "hands over the floor", NAN, 0, 100}, {"D", "in", "way up or down", 10, 0, 100}, {"A", "deg", "turn of the trunk", 0, 0, 180}, {"F", "1/min", "lifts a minute", 0.2, 0, 30}, {"spell", "h", "lifting goes on for", 1, 0, 8}, {"grip", "", "0 = good, 1 = fair, 2 = poor", 0, 0, 2}, {"m", "lb", "load", 0, 0, 2e4}},
     {{"RWL", "lb", "limit, by formula"}, {"LI", "", "index, by formula"}, {"RWL_t", "lb", "limit, by printed tables"}, {"LI_t", "", "index, by printed tables"}, {"FM", "", "multiplier of frequency"}, {"CM", "", "multiplier of the grip"}}, lift_inch},
    {"carried_by", "reference masses, and what a team may lift", "two people 2/3, three 1/2 of the sum of their limits", "up to three people", "ISO 11228-1 and EN 1005-2 (from memory); teams: safety guides quoting the British HSE (found)",
     {{"m1", "kg", "what one of them may lift", 25, 0, 100}},
     {{"work", "kg", "men and women at work"}, {"public", "kg", "adult public"}, {"frail", "kg", "children and the elderly"}, {"two", "kg", "two people"}, {"three", "kg", "three people"}}, carried_by},
    {"sling", "pull in the legs of a sling", "T = m g/(n cos beta), H = m g/n tan beta", "0 to 60 degrees from upright", SLINGS "; factors: EN 818-4 (from memory) and a sling table (found)",
     {IN_LOAD, {"n", "", "legs", 2, 1, 4}, {"beta", "deg", "legs from upright", 30, 0, 60}},
     {{"T", "N", "pull in a leg, all alike"}, {"H", "N", "level pull on a point"}, {"stiff", "N", "pull in a leg when two of three or four carry"}, {"factor", "", "of the limit of one straight leg"}}, sling},
    {"pick", "load on two lifting points", "R_A = m g (L - e)/L", "centre of gravity between the points", "derived: moments",
     {IN_LOAD, {"L", "mm", "between the points", NAN, 1, 1e5}, {"e", "mm", "centre of gravity from A", NAN, 0, 1e5}}, {{"A", "N", "on point A"}, {"B", "N", "on point B"}}, pick},
    {"hoist", "hoist for a load", "SWL at least (load + rigging) phi", "to 2000 kg", "idea of EN 13001; allowance and sizes common practice, no source",
     {IN_LOAD, {"rig", "kg", "rigging", 0, 0, 1e4}, {"phi", "", "allowance for jerks", 1.15, 1, 2}}, {{"need", "kg", "asked for"}, {"size", "kg", "usual size"}}, hoist},
    {"tipping", "slope, stop and push at which a load tips", "atan(e/h); g e/h; m g e/y", "stiff load on a level floor", "derived: moments about the edge",
     {IN_LOAD, {"e", "mm", "edge from the centre of gravity, level", NAN, 0, 1e5}, {"h", "mm", "height of the centre of gravity", NAN, 1, 1e5}, {"y", "mm", "height of the push", 1000, 1, 1e4}},
     {{"angle", "deg", "slope"}, {"stop", "m/s2", "sudden stop"}, {"push", "N", "push"}}, tipping},
};
/* clang-format on */

const sw_reckon *sw_reckon_lifting(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
