/* air_make.c: the spaces and ways of a stove. */
#include "burning/air/air_parts.h"

#include <math.h>
#include <string.h>

static double slide_of(const char *kind, const sw_air_options *opt)
{
    if (strcmp(kind, "primary") == 0) return opt->primary_share;
    return strcmp(kind, "wash") == 0 ? opt->wash_share : opt->rear_share;
}

static bool is_primary(const sw_opening *o)
{
    return strcmp(o->kind, "primary") == 0;
}

static double primary_m2(const sw_stove *stove)
{
    double sum = 0;
    for (size_t i = 0; i < stove->opening_count; i++)
        if (is_primary(&stove->openings[i])) sum += sw_m2_from_mm2(stove->openings[i].area_mm2);
    return sum;
}

/* Primary air passes its opening and then the embers, which all primary openings have in common: with flows as the areas their
 * flows together are sum A/A_i times one's, so each way has the loss of the whole bed at the area of all of them. As one
 * coefficient, of openings fully open, so that a slide changes the area alone. */
static double with_bed(const sw_air_options *opt, double all_m2, double base_m2)
{
    if (!(base_m2 > 0)) return opt->opening_cd;
    double loss = sw_bed_loss(sw_m_from_mm(opt->bed_mm), sw_m_from_mm(opt->bed_piece_mm), opt->bed_void);
    double share = all_m2 / base_m2;
    return 1 / sqrt(1 / (opt->opening_cd * opt->opening_cd) + loss * share * share);
}

static sw_air_way opening_way(const sw_opening *o, const sw_air_options *opt, double primary_cd)
{
    bool primary = is_primary(o);
    double area_m2 = slide_of(o->kind, opt) * sw_m2_from_mm2(o->area_mm2);
    return (sw_air_way){.name = o->name,
                        .kind = o->kind,
                        .from = SW_AIR_ROOM,
                        .to = SW_AIR_FIREBOX,
                        .area_m2 = area_m2,
                        .height_m = sw_m_from_mm(o->height_mm),
                        .cd = primary ? primary_cd : opt->opening_cd,
                        .hole_m = sw_m_from_mm(o->hole_mm),
                        .gas_k = primary ? (double)NAN : sw_k_from_c(opt->preheat_c)};
}

static void make_spaces(const sw_air_input *in, const sw_air_options *opt, sw_air_space *spaces)
{
    const sw_air_geometry *g = &in->geometry;
    double made_kg_s = in->made_kg_s > 0 ? in->made_kg_s : in->fuel_kg_s;
    spaces[SW_AIR_ROOM] = (sw_air_space){.name = "room", .t_k = sw_k_from_c(opt->room_c), .fixed = true};
    spaces[SW_AIR_FIREBOX] = (sw_air_space){.name = "firebox",
                                            .t_k = sw_k_from_c(opt->firebox_c),
                                            .height_m = g->bed_height_m,
                                            .source_kg_s = isnan(made_kg_s) ? 0 : made_kg_s};
    spaces[SW_AIR_UPPER] =
        (sw_air_space){.name = "above the baffle", .t_k = sw_k_from_c(opt->upper_c), .height_m = g->throat_height_m};
    spaces[SW_AIR_COLLAR] = (sw_air_space){.name = "collar",
                                           .t_k = sw_k_from_c(opt->flue_c),
                                           .pressure_pa = -opt->draught_pa,
                                           .fixed = true,
                                           .height_m = g->collar_height_m};
}

/* Leaks lie about the door: halfway between fire bed and throat. */
static void make_other_ways(const sw_air_geometry *g, const sw_air_options *opt, sw_air_way *ways)
{
    ways[SW_AIR_LEAK] = (sw_air_way){.name = "leaks",
                                     .kind = "leak",
                                     .from = SW_AIR_ROOM,
                                     .to = SW_AIR_FIREBOX,
                                     .area_m2 = sw_m2_from_mm2(opt->leak_mm2),
                                     .height_m = (g->bed_height_m + g->throat_height_m) / 2,
                                     .cd = opt->opening_cd,
                                     .gas_k = NAN};
    ways[SW_AIR_THROAT] = (sw_air_way){.name = "throat",
                                       .kind = "throat",
                                       .from = SW_AIR_FIREBOX,
                                       .to = SW_AIR_UPPER,
                                       .area_m2 = g->throat_m2,
                                       .height_m = g->throat_height_m,
                                       .cd = opt->throat_cd,
                                       .gas_k = NAN};
    ways[SW_AIR_OUTLET] = (sw_air_way){.name = "collar",
                                       .kind = "collar",
                                       .from = SW_AIR_UPPER,
                                       .to = SW_AIR_COLLAR,
                                       .area_m2 = g->collar_m2,
                                       .height_m = g->collar_height_m,
                                       .cd = opt->collar_cd,
                                       .gas_k = NAN};
}

sw_status air_make(sw_run *run, const sw_air_input *in, const sw_air_options *opt, sw_air_network *network)
{
    size_t openings = in->stove->opening_count, count = openings + SW_AIR_OTHER_WAYS;
    sw_air_space *spaces = SW_KEEP(run, SW_AIR_SPACES, sw_air_space);
    sw_air_way *ways = SW_KEEP(run, count, sw_air_way);
    if (spaces == NULL || ways == NULL) return SW_NO_MEMORY;
    make_spaces(in, opt, spaces);
    double primary_cd = with_bed(opt, primary_m2(in->stove), in->geometry.base_m2);
    for (size_t i = 0; i < openings; i++) ways[i] = opening_way(&in->stove->openings[i], opt, primary_cd);
    make_other_ways(&in->geometry, opt, ways + openings);
    *network = (sw_air_network){.spaces = spaces, .space_count = SW_AIR_SPACES, .ways = ways, .way_count = count};
    return SW_OK;
}
