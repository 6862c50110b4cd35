/* flue_findings_draught.c: enough draught, none of the smoke into the room, not too much on the coldest day, wind. */
#include "siting/flue/flue_parts.h"

#include <math.h>

#define EN_PRESSURE "EN 13384-1 cl. 5.2, 5.10, 5.11 (from memory)"

/* An output that is only estimated warns, it does not fail. */
static void soften(sw_finding *f)
{
    if (f->verdict == SW_FAILS) f->verdict = SW_WATCH;
}

static sw_status add(sw_run *run, sw_flue_result *r, sw_finding f, bool soft)
{
    if (f.what == NULL || f.remedy == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_finding_add(run, &r->findings, f, 0));
    if (soft) soften(&r->findings.items[r->findings.count - 1]);
    return SW_OK;
}

/* ---- draught ---- */

static const char *taller(sw_run *run, const sw_flue_result *r, const sw_flue_case *c)
{
    if (c->P_Z < 0 && c->wind_pa > 0)
        return "wind blows down this flue: raise the outlet out of the adverse zone (0.4 m over the ridge, or 2.3 m clear of the roof)";
    if (c->air_kg_s > 0)
        return sw_text_format(run, run->keep,
                              "the stabiliser lets in air before the stove has its draught: set it to %.1f Pa or more",
                              c->P_W + c->P_FV);
    if (isnan(r->least_height_m))
        return "no height up to 100 m is enough: insulate the flue, fewer bends, a wider section or more gas";
    return sw_text_format(
        run, run->keep,
        "at least %.2f m of chimney with everything else equal; or insulate it, fewer bends, a freer top",
        r->least_height_m);
}

static sw_status judge_one(sw_run *run, const sw_flue_input *in, sw_flue_result *r, const sw_flue_case *c,
                           const char *where, bool soft)
{
    sw_finding f = flue_finding(in, "draught", where);
    f.what = sw_text_format(
        run, run->keep,
        "on a mild day the chimney gives %.1f Pa; the stove needs %.1f, the pipe %.1f, the air supply %.1f: %.1f Pa%s",
        c->P_Z, c->P_W, c->P_FV, c->P_B, c->P_Ze, soft ? " (this output is estimated, not declared)" : "");
    f.sense = SW_AT_LEAST;
    f.value = c->P_Z;
    f.limit = c->P_Ze;
    f.unit = "Pa";
    f.source = EN_PRESSURE ": P_Z >= P_Ze with S_E, S_H and 15 degC outside";
    f.remedy = c->P_Z >= c->P_Ze ? "" : taller(run, r, c);
    SW_TRY(add(run, r, f, soft));
    f = flue_finding(in, "room", where);
    f.what = sw_text_format(
        run, run->keep, "with the door open the chimney gives %.1f Pa; the air supply takes %.1f Pa", c->P_Z, c->P_B);
    f.sense = SW_AT_LEAST;
    f.value = c->P_Z;
    f.limit = c->P_B;
    f.unit = "Pa";
    f.source = EN_PRESSURE ": P_Z >= P_B";
    f.remedy = c->P_Z >= c->P_B
                   ? ""
                   : "smoke comes into the room: do not use it so; more height, or an air opening that takes less";
    return add(run, r, f, soft);
}

/* ---- too much ---- */

/* A plate in the pipe that would take the excess. */
static double plate_zeta(const sw_flue_result *r, double excess_pa)
{
    const sw_flue_line *l = &r->over.lines[0];
    return excess_pa / (l->density * l->velocity_m_s * l->velocity_m_s / 2);
}

static const char *stabiliser(sw_run *run, const sw_flue_input *in, const sw_flue_result *r, double excess_pa)
{
    if (excess_pa <= 0) return "";
    if (in->house->stabiliser)
        return sw_text_format(
            run, run->keep,
            "with the stabiliser as it is %.1f Pa are still too much: set it lower, or take a wider one or a second",
            excess_pa);
    return sw_text_format(
        run, run->keep,
        "a self-acting draught stabiliser that takes %.1f Pa; a fixed plate in the pipe would need zeta %.0f, which blocks the flue on a mild day",
        excess_pa, plate_zeta(r, excess_pa));
}

static sw_status judge_over(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    const sw_flue_case *c = &r->over;
    double limit_pa = in->nominal.most_pa + c->P_FV + c->P_B;
    sw_finding f = flue_finding(in, "over_draught", "coldest day");
    f.what = sw_text_format(run, run->keep, "at %.0f degC outside the warm chimney gives up to %.1f Pa%s%s",
                            sw_c_from_k(c->outside_k), c->P_Z, c->air_kg_s > 0 ? " behind the stabiliser" : "",
                            isnan(in->nominal.most_pa) ? "; the largest draught the stove may have is not stated" : "");
    f.source = "EN 13384-1 cl. 5.2 (from memory): P_H - P_R with S_E 1, no wind <= P_Wmax + P_FV + P_B";
    f.sense = SW_AT_MOST;
    f.value = c->P_Z;
    f.limit = limit_pa;
    f.unit = "Pa";
    f.remedy = isnan(limit_pa) ? "declare most_draught from the type test, or fit a draught stabiliser"
                               : stabiliser(run, in, r, c->P_Z - limit_pa);
    return add(run, r, f, false);
}

static sw_status judge_strong(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    static const double times = 2.5;
    const sw_flue_case *c = &r->pressure;
    if (!(c->P_Z > times * c->P_W)) return SW_OK;
    sw_finding f = flue_finding(in, "strong_draught", "nominal output");
    f.what =
        sw_text_format(run, run->keep, "%.1f Pa even on a mild day, more than %.1f times the %.1f Pa the stove needs",
                       c->P_Z, times, c->P_W);
    f.verdict = SW_WATCH;
    f.source = "handbook S1.12; " FLUE_HABIT;
    f.remedy = "measure the hot draught at the first fire; a draught stabiliser keeps the burn even";
    return add(run, r, f, false);
}

/* ---- refuelling ---- */

/* Common practice judges open fires so; a stove's door is open for seconds and can be opened a little, so it only warns. */
static sw_status judge_door(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    const sw_flue_open_door *d = &r->door;
    if (!(in->door_width_mm > 0) || isnan(d->lift_pa)) return SW_OK;
    sw_finding f = flue_finding(in, "open_door", "fire door");
    f.sense = SW_AT_LEAST;
    f.value = isnan(d->velocity_m_s) ? 0 : d->velocity_m_s;
    f.limit = d->wanted_m_s;
    f.unit = "m/s";
    f.source =
        "0.8 ft/s in the opening of a fireplace: ASHRAE Handbook, HVAC Systems and Equipment, chimney chapter (from "
        "memory); for a stove's door " FLUE_HABIT;
    f.what = sw_text_format(
        run, run->keep,
        "door of %.0f x %.0f mm wide open on embers on a mild day: room air goes in at %.2f m/s (%.1f g/s); at "
        "%.2f m/s the flue lifts %.1f Pa, and door and stove take %.1f Pa",
        in->door_width_mm, in->door_height_mm, f.value, isnan(d->air_kg_s) ? 0 : d->air_kg_s * 1e3, d->wanted_m_s,
        d->lift_pa, d->loss_pa);
    if (f.value < f.limit)
        f.remedy = sw_text_format(
            run, run->keep, "open the air first, then the door slowly and to some %.0f %% until the smoke is drawn in",
            100 * fmax(f.value / f.limit, 0.1));
    return add(run, r, f, true);
}

/* ---- air on its way in ---- */

static sw_status judge_supply(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    sw_finding f = flue_finding(in, "air_supply", "room");
    f.what =
        in->supply_computed
            ? sw_text_format(run, run->keep,
                             "P_B is %.2f Pa, computed from the room's leaks, opening and fans (S_EB 1.2)",
                             r->pressure.P_B)
            : sw_text_format(
                  run, run->keep,
                  "P_B is taken as %.1f Pa: given, or tightness, opening and fans are not all described, or the air is piped",
                  r->pressure.P_B);
    f.source = in->supply_computed ? "EN 13384-1 cl. 5.11.4 (from memory), flows by handbook S4.2"
                                   : "given, or EN 13384-1 cl. 5.11.4: 4 Pa unless calculated (from memory)";
    return add(run, r, f, false);
}

/* ---- wind ---- */

static sw_status judge_wind(sw_run *run, const sw_flue_input *in, sw_flue_result *r)
{
    const double inland_pa = sw_flue_wind_pa(SW_WIND_INLAND);
    const sw_roof *roof = &in->house->roof;
    bool known = roof->pitch_rad >= 0 && roof->ridge_m >= 0 && roof->above_m >= 0,
         adverse = known && sw_flue_adverse(roof);
    sw_finding f = flue_finding(in, "wind", "outlet");
    f.source = "EN 13384-1 cl. 5.10.4, annex C (from memory, the geometry doubtful)";
    f.what = sw_text_format(run, run->keep, "%.0f Pa of wind are counted at the outlet%s", r->wind_pa,
                            !known    ? "; the roof is not described, so this was not proved"
                            : adverse ? "; by the roof's geometry it stands in an adverse zone"
                                      : "; by the roof's geometry it stands in the free stream");
    if (!known && r->wind_pa == 0) {
        f.verdict = SW_UNKNOWN;
        f.remedy = "describe pitch, distance to the ridge and height of the outlet";
    } else if (adverse && r->wind_pa == 0) {
        f.verdict = r->reserve_pa >= inland_pa ? SW_HOLDS : SW_WATCH;
        f.remedy =
            f.verdict == SW_HOLDS
                ? ""
                : "raise the outlet 0.4 m over the ridge or 2.3 m clear of the roof; wind may blow smoke back, 25 Pa inland";
    }
    return add(run, r, f, false);
}

sw_status flue_judge_draught(sw_run *run, const sw_flue_input *in, const sw_flue_options *opt, sw_flue_result *r)
{
    (void)opt;
    SW_TRY(judge_one(run, in, r, &r->pressure, "nominal output", false));
    SW_TRY(judge_one(run, in, r, &r->pressure_low, "lowest output", !flue_lowest_declared(in)));
    SW_TRY(judge_over(run, in, r));
    SW_TRY(judge_strong(run, in, r));
    SW_TRY(judge_door(run, in, r));
    SW_TRY(judge_supply(run, in, r));
    return judge_wind(run, in, r);
}
