/* rule_tables.c: what codes ask, as printed. handbook S3.3 to S3.5, S4.1, S4.3, S5.1, S5.4.
 *
 * `seen`: read in the text or reprint named; `from memory`: confirm before relying on it. A name means the same thing in every
 * code; a code without a row says nothing on it here, and no other code's row stands in for it. */
#include "siting/site/site.h"

#include <string.h>

/* clang-format off */
#define AD_J      "England", "Approved Document J, 2010 as amended (year from memory)"
#define SUMMARIES "seen in installers' summaries"
#define STOVE_BOOK "seen as reprinted in a stove manual"
#define BROCHURE  "seen as reprinted in a flue brochure"
#define MEMORY    "from memory"
#define IRC       "USA", "International Residential Code 2018, 2024"
#define NFPA      "USA", "NFPA 211 (edition not told)"
#define ARTICLES  "seen in articles that quote it"
#define BIMSCHV   "Germany", "1. BImSchV, text of 2010"
#define MFEUV     "Germany", "model firing ordinance and its state texts"
#define STATE     "seen in summaries of the states' ordinances"
#define FRENCH    "France", "order of 22 October 1969"
#define FRENCH_GUIDE "seen in a stove installer's guide"
#define EN_50292  "EN 50292 (edition not told)", "siting"
#define THREE     "seen in three independent summaries"

static const sw_site_rule rules[] = {
    /* outlet above the roof */
    {AD_J, "diagram 17 A", "outlet_ridge_near_mm", 600, SUMMARIES},
    {AD_J, "diagram 17 A", "outlet_above_ridge_mm", 600, SUMMARIES},
    {AD_J, "diagram 17 B", "outlet_from_roof_mm", 2300, SUMMARIES},
    {AD_J, "diagram 17 B", "outlet_above_roof_mm", 1000, MEMORY},
    {AD_J, "diagram 17 C", "outlet_window_within_mm", 2300, SUMMARIES},
    {AD_J, "diagram 17 C", "outlet_above_window_mm", 1000, MEMORY},
    {AD_J, "diagram 17 D", "outlet_things_within_mm", 2300, SUMMARIES},
    {AD_J, "diagram 17 D", "outlet_above_things_mm", 600, SUMMARIES},
    {AD_J, "thatch and shingles", "outlet_thatch_roof_mm", 1800, SUMMARIES},
    {AD_J, "thatch and shingles", "outlet_thatch_ridge_mm", 600, SUMMARIES},
    {AD_J, "2.8", "chimney_height_mm", 4500, "seen in a district council's guidance note"},
    {IRC, "R1003.9", "outlet_above_roof_mm", 914, "seen in a town's code and in commentaries"},
    {IRC, "R1003.9", "outlet_above_things_mm", 610, "seen in a town's code and in commentaries"},
    {IRC, "R1003.9", "outlet_things_within_mm", 3048, "seen in a town's code and in commentaries"},
    {BIMSCHV, "19", "outlet_flat_deg", 20, "seen"},
    {BIMSCHV, "19", "outlet_above_ridge_mm", 400, "seen"},
    {BIMSCHV, "19", "outlet_above_roof_mm", 1000, "seen"},
    {BIMSCHV, "19", "outlet_from_roof_mm", 2300, "seen"},
    {BIMSCHV, "19", "outlet_window_within_mm", 15000, "seen"},
    {BIMSCHV, "19", "outlet_above_window_mm", 1000, "seen"},
    {BIMSCHV, "19", "outlet_most_kw", 50, "seen"},
    {"Germany", "1. BImSchV, change of 2022", "19", "outlet_near_ridge", 1, "from memory, doubtful"},
    {FRENCH, "outlet", "outlet_above_things_mm", 400, FRENCH_GUIDE},
    {FRENCH, "outlet", "outlet_things_within_mm", 8000, FRENCH_GUIDE},

    /* size and way of the flue */
    {AD_J, "table 2", "flue_exempt_mm", 125, STOVE_BOOK},
    {AD_J, "table 2", "flue_exempt_side_mm", 125, STOVE_BOOK},
    {AD_J, "table 2", "flue_exempt_most_kw", 20, STOVE_BOOK},
    {AD_J, "table 2", "flue_mm", 150, STOVE_BOOK},
    {AD_J, "table 2", "flue_side_mm", 125, STOVE_BOOK},
    {AD_J, "table 2", "flue_most_kw", 30, STOVE_BOOK},
    {AD_J, "table 2", "flue_large_mm", 175, STOVE_BOOK},
    {AD_J, "table 2", "flue_large_side_mm", 150, STOVE_BOOK},
    {AD_J, "table 2", "flue_large_most_kw", 50, STOVE_BOOK},
    {AD_J, "table 2", "flue_share_of_outlet", 1, "seen in several"},
    {AD_J, "1.47 to 1.49", "bends_most", 4, "from memory; twin-wall makers' instructions, seen"},
    {AD_J, "1.47 to 1.49", "bend_deg", 45, "from memory; twin-wall makers' instructions, seen"},
    {NFPA, "flue area", "flue_share_of_outlet", 1, MEMORY},
    {NFPA, "flue area", "flue_most_share", 3, MEMORY},
    {NFPA, "flue area", "flue_most_share_outside", 2, MEMORY},
    {"Germany", "older rule (edition not told)", "flue size", "flue_least_mm2", 10000, "seen in a stove guide"},
    {"Germany", "older rule (edition not told)", "flue size", "flue_side_least_mm", 100, "seen in a stove guide"},
    {"Germany", "older rule (edition not told)", "flue size", "flue_side_brick_mm", 125, "seen in a stove guide"},
    {"Germany", "older rule (edition not told)", "flue size", "flue_aspect_most", 1.5, "seen in a stove guide"},
    {"Germany", "older practice", "flue", "velocity_least_m_s", 0.5, "seen in a stove guide"},
    {FRENCH, "connecting pipe", "flue_share_of_outlet", 1, FRENCH_GUIDE},
    {FRENCH, "bends", "bends_most", 2, FRENCH_GUIDE},
    {FRENCH, "bends", "bend_deg", 45, FRENCH_GUIDE},
    {"Czechia", "trade practice", "flue", "velocity_least_m_s", 0.5, "seen in trade articles"},

    /* clearance of pipes and stacks */
    {AD_J, "diagram 19", "pipe_diameters", 3, "seen in two manuals"},
    {AD_J, "diagram 19", "pipe_diameters_shielded", 1.5, MEMORY},
    {AD_J, "connecting pipe", "pipe_level_mm", 150, "from memory; seen for oil appliances"},
    {AD_J, "connecting pipe", "pipe_steep_deg", 45, "from memory; seen for oil appliances"},
    {AD_J, "2.18", "stack_outside_mm", 40, MEMORY},
    {AD_J, "2.18", "stack_from_flue_mm", 200, MEMORY},
    {NFPA, "connectors", "pipe_mm", 457, ARTICLES},
    {NFPA, "connectors", "pipe_shielded_mm", 229, ARTICLES},
    {IRC, "masonry chimneys", "stack_inside_mm", 51, "seen"},
    {IRC, "masonry chimneys", "stack_outdoors_mm", 25, "seen"},
    {MFEUV, "8", "pipe_mm", 400, "seen in an article and a training page"},
    {MFEUV, "8", "pipe_sheathed_mm", 100, "seen in an article and a training page"},
    {MFEUV, "8", "pipe_sheath_mm", 20, "seen in an article and a training page"},
    {MFEUV, "8", "stack_insulated_mm", 50, "seen in an article and a training page; asks 90 min of fire resistance as well"},
    {MFEUV, "8", "stack_insulated_m2k_w", 0.12, "seen in an article and a training page"},
    {MFEUV, "8", "stack_bare_mm", 400, "seen in an article and a training page"},
    {"Czechia", "EN 15287-1+A1 as applied", "distance to combustibles", "combustible_c", 85, "seen in an article of 2016"},

    /* air of the room */
    {AD_J, "table 1", "vent_tight_m3_h_m2", 5, BROCHURE},
    {AD_J, "table 1", "vent_free_kw", 5, "seen on an installer's page"},
    {AD_J, "table 1", "vent_leaky_mm2_kw", 550, "from memory (the reprint seen breaks off before it)"},
    {AD_J, "table 1", "vent_tight_mm2_kw", 550, "from memory (the reprint seen breaks off before it)"},
    {AD_J, "table 1", "vent_stabiliser_first_mm2_kw", 300, BROCHURE},
    {AD_J, "table 1", "vent_stabiliser_rest_mm2_kw", 850, BROCHURE},
    {AD_J, "table 1", "vent_stabiliser_tight_mm2_kw", 850, BROCHURE},
    {AD_J, "1.20 to 1.21", "extract_spillage_test", 1, "seen as quoted in a stove manual"},
    {MFEUV, "3", "room_m3_kw", 4, STATE},
    {MFEUV, "3", "room_most_kw", 35, STATE},
    {MFEUV, "3", "room_opening_mm2", 15000, MEMORY},
    {MFEUV, "4", "extract_interlock", 1, "seen in an extract"},
    {"Germany", "procedure for simultaneous operation", "depression", "depression_pa", 4, "seen in a flue-gas instrument's handbook"},
    {"Germany", "procedure for simultaneous operation", "depression", "depression_direct_pa", 8, "seen in a flue-gas instrument's handbook"},

    /* carbon monoxide alarm */
    {"England", "Building Regulations J3, 2022", "J3", "alarm_required", 1, "seen"},
    {"England", EN_50292, "alarm_near_mm", 1000, THREE},
    {"England", EN_50292, "alarm_far_mm", 3000, THREE},
    {"England", EN_50292, "alarm_ceiling_wall_mm", 300, THREE},
    {"England", EN_50292, "alarm_wall_ceiling_mm", 150, THREE},
    {"Germany", EN_50292, "alarm_near_mm", 1000, THREE},
    {"Germany", EN_50292, "alarm_far_mm", 3000, THREE},
    {"Germany", EN_50292, "alarm_ceiling_wall_mm", 300, THREE},
    {"Germany", EN_50292, "alarm_wall_ceiling_mm", 150, THREE},
    {"France", EN_50292, "alarm_near_mm", 1000, THREE},
    {"France", EN_50292, "alarm_far_mm", 3000, THREE},
    {"France", EN_50292, "alarm_ceiling_wall_mm", 300, THREE},
    {"France", EN_50292, "alarm_wall_ceiling_mm", 150, THREE},
    {"Czechia", EN_50292, "alarm_near_mm", 1000, THREE},
    {"Czechia", EN_50292, "alarm_far_mm", 3000, THREE},
    {"Czechia", EN_50292, "alarm_ceiling_wall_mm", 300, THREE},
    {"Czechia", EN_50292, "alarm_wall_ceiling_mm", 150, THREE},

    /* hearth, wall, combustibles round the stove */
    {AD_J, "section 2", "hearth_front_mm", 225, "seen"},
    {AD_J, "section 2", "hearth_front_open_mm", 300, "seen"},
    {AD_J, "section 2", "hearth_side_mm", 150, "seen"},
    {AD_J, "section 2", "hearth_back_mm", 150, "seen"},
    {AD_J, "section 2", "hearth_hot_mm", 125, "seen"},
    {AD_J, "section 2", "hearth_cool_mm", 12, "seen"},
    {AD_J, "section 2", "hearth_cool_c", 100, "seen"},
    {AD_J, "section 2", "hearth_plate_mm", 840, "seen"},
    {AD_J, "section 2", "hearth_recess_front_mm", 500, MEMORY},
    {AD_J, "section 2", "hearth_recess_side_mm", 150, MEMORY},
    {AD_J, "section 2", "wall_touching_mm", 50, "seen"},
    {AD_J, "section 2", "wall_touching_thick_mm", 200, "seen"},
    {AD_J, "section 2", "wall_near_mm", 300, "from memory; one manual prints 50 mm thick within 150 mm"},
    {AD_J, "section 2", "wall_near_thick_mm", 75, "from memory; one manual prints 50 mm thick within 150 mm"},
    {AD_J, "section 2", "wall_above_stove_mm", 300, "seen"},
    {AD_J, "section 2", "wall_above_hearth_mm", 1200, "seen"},
    {AD_J, "section 2", "wall_hearth_clear_mm", 150, "seen"},
    {NFPA, "stoves", "hearth_front_mm", 457, ARTICLES},
    {NFPA, "stoves", "hearth_side_mm", 305, ARTICLES},
    {NFPA, "fireplaces", "hearth_fireplace_front_mm", 406, MEMORY},
    {NFPA, "fireplaces", "hearth_fireplace_side_mm", 203, "seen"},
    {NFPA, "fireplaces, opening from 0.56 m2", "hearth_fireplace_large_front_mm", 508, MEMORY},
    {NFPA, "fireplaces, opening from 0.56 m2", "hearth_fireplace_large_side_mm", 305, "seen"},
    {NFPA, "stoves without a listed distance", "wall_mm", 914, ARTICLES},
    {NFPA, "stoves without a listed distance, sheet 24 gauge on 25 mm spacers", "wall_shielded_mm", 305, ARTICLES},
    {NFPA, "stoves without a listed distance, sheet 24 gauge on 25 mm spacers", "wall_shield_gap_mm", 25, ARTICLES},
    {"Germany", "Brandenburg firing ordinance", "4(8)", "hearth_front_mm", 500, "seen"},
    {"Germany", "Brandenburg firing ordinance", "4(8)", "hearth_side_mm", 300, "seen"},
    {MFEUV, "4", "combustible_c", 85, "seen"},
    {MFEUV, "4, where the maker proves no distance", "wall_mm", 400, MEMORY},
    {"Czechia", "CSN 06 1008 (edition not told)", "plate under the stove", "hearth_front_mm", 300, MEMORY},
    {"Czechia", "CSN 06 1008 (edition not told)", "plate under the stove", "hearth_side_mm", 100, MEMORY},
    {"Germany", "sweeps' practice", "radiation of the pane", "pane_mm", 800, "seen on a chimney sweeps' page"},
};
/* clang-format on */

static const char *const codes[] = {"England", "USA", "Germany", "France", "Czechia"};

size_t sw_site_code_count(void)
{
    return sizeof codes / sizeof *codes;
}

const char *sw_site_code_at(size_t i)
{
    return i < sw_site_code_count() ? codes[i] : NULL;
}

size_t sw_site_rule_count(void)
{
    return sizeof rules / sizeof *rules;
}

const sw_site_rule *sw_site_rule_at(size_t i)
{
    return i < sw_site_rule_count() ? &rules[i] : NULL;
}

const sw_site_rule *sw_site_rule_find(const char *code, const char *what)
{
    for (size_t i = 0; i < sw_site_rule_count(); i++)
        if (strcmp(rules[i].code, code) == 0 && strcmp(rules[i].what, what) == 0) return &rules[i];
    return NULL;
}
