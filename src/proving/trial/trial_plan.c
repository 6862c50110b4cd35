/* trial_plan.c: the next test of this stove: what to place where, how long, how much wood. */
#include "proving/trial/trial_parts.h"

#include <math.h>
#include <string.h>

#define EN "EN 13240 (from memory)"

enum { STEPS_MOST = 16, SENSORS_OF_THE_STAND = 9 };
typedef struct plan {
    sw_run *run;
    sw_trial_plan *out;
    sw_trial_step *steps;
    sw_trial_sensor *sensors; /* [room] */
    size_t room;
    double at_s;
} plan;

static void step(plan *p, const char *phase, double lasts_s, double wood_kg, double draught_pa, const char *what)
{
    SW_ASSERT(p->out->step_count < STEPS_MOST);
    p->steps[p->out->step_count++] = (sw_trial_step){phase, p->at_s, lasts_s, wood_kg, draught_pa, what};
    p->at_s += lasts_s;
}

static void add_sensor(plan *p, sw_trial_sensor s)
{
    SW_ASSERT(p->out->sensor_count < p->room);
    p->sensors[p->out->sensor_count++] = s;
}

static void sensor(plan *p, sw_trial_spot_at at, const char *quantity, const char *place, const char *instrument)
{
    add_sensor(p, (sw_trial_sensor){quantity, place, instrument, at, -1, -1});
}

static bool touched(const char *role)
{
    static const char *const hot[] = {"firebox wall", "shell", "baffle", "door", "top", "pane", "glass", "lining"};
    for (size_t i = 0; i < sizeof hot / sizeof *hot; i++)
        if (trial_same((trial_text){role, strnlen(role, 64)}, hot[i])) return true;
    return false;
}

static void surfaces(plan *p, const sw_stove *stove)
{
    for (size_t i = 0; i < stove->piece_count; i++)
        if (touched(stove->pieces[i].role))
            add_sensor(p, (sw_trial_sensor){"surface", stove->pieces[i].name,
                                            "type K, class 1, spot welded or clamped; column named as the part",
                                            SW_AT_PART, (int)i, -1});
    for (size_t i = 0; i < stove->item_count; i++)
        if (touched(stove->items[i].role))
            add_sensor(p, (sw_trial_sensor){"surface", stove->items[i].name,
                                            "type K, class 1, pressed on; column named as the part", SW_AT_PART, -1,
                                            (int)i});
}

static void place_sensors(plan *p, const sw_stove *stove)
{
    sensor(p, SW_AT_SECTION, "flue gas temperature",
           "measuring section, insulated, on the axis of the flue, beyond the collar",
           "suction thermocouple; 5 K, " EN);
    sensor(p, SW_AT_SECTION, "CO2, O2, CO", "measuring section, sampled after a heated filter and a dryer",
           "CO2 and O2 2 % of range, CO 6 % of range, " EN);
    sensor(p, SW_AT_SECTION, "OGC, NOx, dust", "measuring section; OGC and dust by heated lines",
           "flame ionisation, chemiluminescence, heated filter; optional");
    sensor(p, SW_AT_SECTION, "draught", "measuring section, wall tapping", "2 Pa, " EN);
    sensor(p, SW_AT_ROOM, "room", "beside the stove, out of its radiation", "0.5 K; 20 +- 5 degC and no draughts, " EN);
    sensor(p, SW_AT_SCALE, "scale", "under the stove, nothing rigid to the flue", "0.02 kg, " EN);
    sensor(p, SW_AT_HANDLE, "surface", "each handle, where the hand takes it",
           "tell its kind: # surface = NAME: metal handle");
    sensor(p, SW_AT_STORE, "surface", "fuel store, hottest place", "# surface = NAME: fuel store");
    sensor(p, SW_AT_CORNER, "surface", "test corner: walls, floor and ceiling at the distances to be declared, a grid",
           "# surface = NAME: test corner");
    surfaces(p, stove);
}

static void place_steps(plan *p, const sw_stove *stove)
{
    static const double nominal_pa = 12, safety_pa = 15; /* up to 25 kW: EN 13240 (from memory, to be confirmed) */
    double kg = p->out->charge_kg, refuel_s = stove->duty.refuel_s;
    step(p, "cold check", sw_s_from_min(15), NAN, NAN,
         "zero the analysers, check the line for leaks, read everything cold");
    step(p, "lighting", sw_s_from_min(30), kg, nominal_pa, "kindling and a first charge; all air open");
    step(p, "warming up", refuel_s, kg, nominal_pa,
         "one charge at the test's setting, down to the basic firebed; note its mass on the scale");
    for (int i = 0; i < 3; i++)
        step(p, "test charge", refuel_s, kg, nominal_pa,
             "laid in within a minute, door shut; ends when the scale is back at the firebed; weigh and note");
    step(p, "safety test", 2 * refuel_s, p->out->safety_kg, safety_pa,
         "a larger and hotter load, refuelled until handles, store and corner stop rising");
    step(p, "draught cut back", refuel_s, kg, NAN,
         "gas-tight room instrument: CO must not leak as the draught falls; air the room, wear an alarm");
    step(p, "burn-out", sw_s_from_h(1), NAN, nominal_pa,
         "let the embers burn out; weigh the residue, keep a sample of it and of the wood");
}

static sw_status header(plan *p, const sw_stove *stove)
{
    p->out->header = sw_text_format(
        p->run, p->run->keep,
        "# model = %s\n# maker = ...\n# fuel = %s\n# moisture = 16 %%\n# charge = 0 min, %.2f kg\n# charge = ... min, ... kg\n"
        "time_s,CO2 [%%],O2 [%%],CO [ppm],flue gas [degC],room [degC],draught [Pa],mass [kg]\n",
        stove->name, stove->duty.fuel, p->out->charge_kg);
    return p->out->header == NULL ? SW_NO_MEMORY : SW_OK;
}

static sw_status check(sw_run *run, const sw_stove *stove)
{
    const sw_duty *d = &stove->duty;
    bool good = d->output_w > 0 && d->output_w <= 100e3 && d->refuel_s > 0 && d->refuel_s <= sw_s_from_h(24) &&
                d->efficiency > 0 && d->efficiency <= 1;
    if (!good)
        return sw_fail(
            run, SW_OUT_OF_RANGE, stove->place, "duty",
            "no charge can be planned from %g W, %g s, %g; output above 0 to 100 kW, refuel above 0 to 24 h, efficiency above 0 to 1",
            d->output_w, d->refuel_s, d->efficiency);
    if (d->fuel != NULL && sw_fuel_find(d->fuel) != NULL) return SW_OK;
    return sw_fail(run, SW_BAD_INPUT, stove->place, "duty.fuel", "\"%s\" is not known", d->fuel == NULL ? "" : d->fuel);
}

sw_status sw_trial_plan_of(sw_run *run, const sw_stove *stove, const sw_trial_plan **plan_out)
{
    static const double safety_more = 1.25; /* ours: the standard's larger load is not at hand */
    *plan_out = NULL;
    SW_TRY(check(run, stove));
    size_t room = SENSORS_OF_THE_STAND + stove->piece_count + stove->item_count;
    plan p = {.run = run,
              .out = SW_KEEP(run, 1, sw_trial_plan),
              .steps = SW_KEEP(run, STEPS_MOST, sw_trial_step),
              .sensors = SW_KEEP(run, room, sw_trial_sensor),
              .room = room};
    if (p.out == NULL || p.steps == NULL || p.sensors == NULL) return SW_NO_MEMORY;
    const sw_duty *d = &stove->duty;
    *p.out = (sw_trial_plan){.steps = p.steps, .sensors = p.sensors};
    p.out->charge_kg = sw_fire_batch_kg(d->output_w, d->refuel_s, sw_fuel_lhv(sw_fuel_find(d->fuel)), d->efficiency);
    p.out->safety_kg = safety_more * p.out->charge_kg;
    place_steps(&p, stove);
    p.out->lasts_s = p.at_s;
    place_sensors(&p, stove);
    SW_TRY(header(&p, stove));
    *plan_out = p.out;
    return SW_OK;
}
