/* join_check.c: figures of the works that cannot be, each named. 0 is not given. */
#include "making/join/join_parts.h"

static sw_status figure(sw_run *run, sw_place place, const char *field, double value, double most)
{
    if (value >= 0 && value <= most) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, place, field,
                   "%g is outside 0 to %g; give a figure in that range, or leave it out", value, most);
}

static sw_status worse(sw_status a, sw_status b)
{
    return a != SW_OK ? a : b;
}

static sw_status check_row(sw_run *run, const sw_weld_row *r)
{
    sw_status s = r->throat_mm > 0 && r->throat_mm <= 50
                      ? SW_OK
                      : sw_fail(run, SW_OUT_OF_RANGE, r->place, "weld row throat",
                                "%g mm is outside 0 (without) to 50 mm", r->throat_mm);
    s = worse(s, figure(run, r->place, "weld row thick_least", r->thick_least_mm, 1e3));
    s = worse(s, figure(run, r->place, "weld row thick_most", r->thick_most_mm, 1e3));
    s = worse(s, figure(run, r->place, "weld row wire", r->wire_mm, 10));
    s = worse(s, figure(run, r->place, "weld row feed", r->feed_m_s, 10));
    s = worse(s, figure(run, r->place, "weld row volts", r->volts, 200));
    s = worse(s, figure(run, r->place, "weld row amps", r->amps, 2e3));
    s = worse(s, figure(run, r->place, "weld row gas", r->gas_m3_s, 0.1));
    s = worse(s, figure(run, r->place, "weld row hand speed", r->hand_mm_s, 500));
    s = worse(s, figure(run, r->place, "weld row robot speed", r->robot_mm_s, 500));
    bool moves = (r->wire_mm > 0 && r->feed_m_s > 0) || (r->hand_mm_s > 0 && r->robot_mm_s > 0);
    if (!moves)
        s = worse(s,
                  sw_fail(run, SW_OUT_OF_RANGE, r->place, "weld row",
                          "throat %g mm: neither speeds of hand and robot nor wire and feed are given", r->throat_mm));
    return s;
}

static sw_status check_torch(sw_run *run, sw_place place, const char *whose, const sw_torch *t)
{
    const struct {
        const char *part;
        double radius_mm, long_mm, bend_rad;
    } tubes[] = {{"nozzle", t->nozzle_radius_mm, t->nozzle_long_mm, 0},
                 {"neck", t->neck_radius_mm, t->neck_long_mm, t->neck_rad},
                 {"body", t->body_radius_mm, t->body_long_mm, 0},
                 {"wrist", t->wrist_radius_mm, t->wrist_long_mm, 0},
                 {"arm", t->arm_radius_mm, t->arm_long_mm, t->arm_rad}};
    const double most_mm = 5e3, most_rad = 1.6;
    sw_status status = SW_OK;
    for (size_t i = 0; i < sizeof tubes / sizeof *tubes; i++) {
        const char *field = sw_text_format(run, run->keep, "welding.%s.torch.%s", whose, tubes[i].part);
        if (field == NULL) return SW_NO_MEMORY;
        status = worse(status, figure(run, place, field, tubes[i].radius_mm, most_mm));
        status = worse(status, figure(run, place, field, tubes[i].long_mm, most_mm));
        status = worse(status, figure(run, place, field, tubes[i].bend_rad, most_rad));
    }
    return status;
}

/* Seams that one of them alone may weld would be told as reached by the other. */
static sw_status check_both_torches(sw_run *run, sw_place place, const sw_welding *w)
{
    if ((w->hand_torch.nozzle_long_mm > 0) == (w->robot_torch.nozzle_long_mm > 0)) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, place, "welding.torch", "only the torch of %s is given; give both, or none",
                   w->hand_torch.nozzle_long_mm > 0 ? "the hand" : "the robot");
}

static sw_status check_works(sw_run *run, const sw_works *works)
{
    const sw_welding *w = &works->welding;
    const struct {
        const char *field;
        double value, most;
    } figures[] = {{"welding.wire_price", w->wire_price_kg, 1e6}, {"welding.gas_price", w->gas_price_m3, 1e6},
                   {"welding.power_price", w->power_price_j, 1},  {"welding.hand_share", w->hand_share, 1},
                   {"welding.tack_time", w->tack_s, 1e5},         {"welding.tack", w->tack_mm, 500},
                   {"welding.robot_air", w->robot_air_mm_s, 1e5}, {"welding.robot_start", w->robot_start_s, 1e4},
                   {"welding.turn_time", w->turn_s, 1e5},         {"welding.robot_load", w->robot_load_kg, 1e6},
                   {"welding.reach", w->reach_mm, 1e5},           {"welding.fixture_time", w->fixture_s, 1e6},
                   {"welding.hand_rate", w->hand_rate_h, 1e6},    {"welding.robot_rate", w->robot_rate_h, 1e6},
                   {"welding.gap_bridged", w->gap_bridged, 10}};
    sw_status status = SW_OK;
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        status = worse(status, figure(run, works->place, figures[i].field, figures[i].value, figures[i].most));
    for (size_t i = 0; i < w->row_count; i++) status = worse(status, check_row(run, &w->rows[i]));
    status = worse(status, check_torch(run, works->place, "hand", &w->hand_torch));
    status = worse(status, check_torch(run, works->place, "robot", &w->robot_torch));
    return w->robot ? worse(status, check_both_torches(run, works->place, w)) : status;
}

sw_status join_check(sw_run *run, const sw_join_input *in, const sw_join_options *opt)
{
    size_t count = 0;
    const sw_option *table = sw_join_option_table(&count);
    sw_status status = sw_options_check(run, table, count, opt);
    SW_ASSERT(in->sheet->piece_count == in->stove->piece_count && in->sheet->joint_count == in->stove->joint_count);
    if (in->works != NULL) status = worse(status, check_works(run, in->works));
    return status;
}
