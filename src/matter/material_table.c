/* material_table.c: what the parts of a stove, and what stands near it, conduct, store, radiate and bear.
 *
 * Carbon steel and austenitic stainless: EN 1993-1-2:2005, 3.4.1 and annex C; formulas (seen in public source files that quote
 * the clauses) in material.c.
 * Ferritic stainless: EN 10088-1, from memory. 1.4828: EN 10095, from memory. Grey iron: EN 1561 annex, from memory; mean heat
 * capacities 460 (20 to 200 degC) and 535 (20 to 600 degC) turned into the line that has these means.
 * Refractories (fireclay, insulating brick): VDI Heat Atlas, D6, as tabled in a public heat-transfer library, seen.
 * Boards, blanket, glass-ceramic, woods: makers' usual data, from memory, board conductivities +-25 %. Board 600 to 700 kg/m3:
 * k = 0.12 + 1.1e-4 t, drawn through 0.14, 0.16, 0.18, 0.21 at 200, 400, 600, 800 degC.
 * Emissivities: tables of total hemispherical emissivity in Incropera (A.11), Cengel and Hottel, from memory, the middle
 * of the published band for the usual surface.
 * Long-term limits: scaling in air (EN 10095 and ASM, from memory), makers' limits, common practice where it says so. */
#include "matter/material_parts.h"

/* clang-format off */
enum law {
    LAW_CARBON, LAW_AUSTENITE, LAW_FERRITE, LAW_1_4828, LAW_GREY_IRON,
    LAW_LIGHT_BOARD, LAW_BOARD, LAW_DENSE_BOARD, LAW_SILICATE, LAW_DENSE_SILICATE,
    LAW_FIRECLAY, LAW_HIGH_FIRECLAY, LAW_BRICK_1260, LAW_BRICK_1400, LAW_BLANKET,
    LAW_CERAMIC, LAW_ROPE, LAW_SPRUCE, LAW_BEECH
};

#define ONE(value) {1, {{20.0, value}}}

const material_law material_laws[] = {
    [LAW_CARBON]    = {MATERIAL_CARBON_STEEL, {0}, {0}, {0}},
    [LAW_AUSTENITE] = {MATERIAL_AUSTENITE, {0}, {0}, {0}},
    [LAW_FERRITE]   = {MATERIAL_CURVES, ONE(25.0), ONE(460.0), {3, {{100.0, 10.0e-6}, {200.0, 10.0e-6}, {400.0, 10.5e-6}}}},
    [LAW_1_4828]    = {MATERIAL_CURVES, {2, {{20.0, 15.0}, {500.0, 21.0}}}, ONE(500.0),
                       {2, {{200.0, 16.5e-6}, {800.0, 18.5e-6}}}},
    [LAW_GREY_IRON] = {MATERIAL_CURVES, {2, {{100.0, 49.0}, {400.0, 46.0}}}, {2, {{20.0, 426.25}, {600.0, 643.75}}},
                       {2, {{200.0, 11.7e-6}, {400.0, 13.0e-6}}}},
    [LAW_LIGHT_BOARD]    = {MATERIAL_CURVES, {3, {{200.0, 0.10}, {400.0, 0.12}, {600.0, 0.15}}}, ONE(950.0), {0}},
    [LAW_BOARD]          = {MATERIAL_CURVES, {2, {{20.0, 0.1222}, {1000.0, 0.23}}}, ONE(950.0), {0}},
    [LAW_DENSE_BOARD]    = {MATERIAL_CURVES, {2, {{200.0, 0.25}, {800.0, 0.35}}}, ONE(950.0), {0}},
    [LAW_SILICATE]       = {MATERIAL_CURVES, {4, {{200.0, 0.07}, {400.0, 0.09}, {600.0, 0.11}, {800.0, 0.15}}}, ONE(950.0), {0}},
    [LAW_DENSE_SILICATE] = {MATERIAL_CURVES, {2, {{200.0, 0.17}, {800.0, 0.24}}}, ONE(900.0), {0}},
    [LAW_FIRECLAY]       = {MATERIAL_CURVES, {5, {{400.0, 1.05}, {600.0, 1.10}, {800.0, 1.15}, {1000.0, 1.18}, {1200.0, 1.22}}},
                            {5, {{400.0, 956.0}, {600.0, 997.0}, {800.0, 1021.0}, {1000.0, 1037.0}, {1200.0, 1054.0}}}, {0}},
    [LAW_HIGH_FIRECLAY]  = {MATERIAL_CURVES, {5, {{400.0, 1.20}, {600.0, 1.27}, {800.0, 1.33}, {1000.0, 1.38}, {1200.0, 1.42}}},
                            {5, {{400.0, 958.0}, {600.0, 999.0}, {800.0, 1024.0}, {1000.0, 1040.0}, {1200.0, 1058.0}}}, {0}},
    [LAW_BRICK_1260]     = {MATERIAL_CURVES, {5, {{400.0, 0.14}, {600.0, 0.16}, {800.0, 0.18}, {1000.0, 0.20}, {1200.0, 0.22}}},
                            {5, {{400.0, 942.0}, {600.0, 979.0}, {800.0, 1002.0}, {1000.0, 1017.0}, {1200.0, 1033.0}}}, {0}},
    [LAW_BRICK_1400]     = {MATERIAL_CURVES, {5, {{400.0, 0.27}, {600.0, 0.30}, {800.0, 0.32}, {1000.0, 0.34}, {1200.0, 0.36}}},
                            {5, {{400.0, 954.0}, {600.0, 994.0}, {800.0, 1018.0}, {1000.0, 1034.0}, {1200.0, 1050.0}}}, {0}},
    [LAW_BLANKET]        = {MATERIAL_CURVES, {4, {{200.0, 0.06}, {400.0, 0.09}, {600.0, 0.14}, {800.0, 0.20}}}, ONE(1065.0), {0}},
    [LAW_CERAMIC]        = {MATERIAL_CURVES, ONE(1.6), {2, {{60.0, 830.0}, {500.0, 1000.0}}}, ONE(0.0)},
    [LAW_ROPE]           = {MATERIAL_CURVES, ONE(0.15), ONE(840.0), {0}},
    [LAW_SPRUCE]         = {MATERIAL_CURVES, ONE(0.11), ONE(1600.0), {0}},
    [LAW_BEECH]          = {MATERIAL_CURVES, ONE(0.16), ONE(1600.0), {0}},
};

#define SCALING    "scaling in air: EN 10095 and ASM; from memory"
#define SCALED_LOW "scaling and creep of unalloyed steel: design limit 500 to 530 degC, never above 570; from memory"
#define MAKERS     "makers' usual limit; from memory"
#define PRACTICE   "common practice, no source"
#define LADDER     "load-time ladder of LAS glass-ceramic, 560 degC for 5000 h, 660 for 100 h on the outer side; from memory, ask the supplier"
#define WOOD_85    "EN 13240: 65 K over the room, as the 85 degC of Swedish rules for combustible building parts"
#define ATLAS      "VDI Heat Atlas, D6; emissivity from memory"
#define EUROCODE   "EN 1993-1-2:2005, 3.4.1; emissivity of oxidised rolled steel, Incropera A.11, from memory"
#define ANNEX_C    "EN 1993-1-2:2005, annex C; emissivity lightly oxidised, Incropera A.11, from memory"
#define FERRITIC   "EN 10088-1; emissivity lightly oxidised, Incropera A.11; from memory"
#define MEMORY     "makers' usual data, +-25 %; from memory"

const sw_material material_rows[] = {
    {"S235",            7850.0, 0.85, 500.0, 570.0,  SCALED_LOW, EUROCODE, LAW_CARBON},
    {"steel",           7850.0, 0.85, 500.0, 570.0,  SCALED_LOW, EUROCODE, LAW_CARBON},
    {"S355",            7850.0, 0.85, 500.0, 570.0,  SCALED_LOW, EUROCODE, LAW_CARBON},
    {"DC01",            7850.0, 0.85, 500.0, 570.0,  SCALED_LOW, EUROCODE, LAW_CARBON},
    {"16Mo3",           7850.0, 0.85, 530.0, 570.0,  SCALING, EUROCODE " (taken as carbon steel)", LAW_CARBON},
    {"aluminised steel", 7850.0, 0.15, 650.0, 650.0, SCALING, "EN 1993-1-2:2005, 3.4.1; emissivity from memory", LAW_CARBON},
    {"galvanised steel", 7850.0, 0.25, 200.0, 200.0, PRACTICE ": the zinc", "EN 1993-1-2:2005, 3.4.1; emissivity new, Incropera A.11, "
     "from memory", LAW_CARBON},
    {"1.4301",          7900.0, 0.37, 850.0, 850.0,  SCALING, ANNEX_C, LAW_AUSTENITE},
    {"1.4016",          7700.0, 0.37, 800.0, 800.0,  SCALING, FERRITIC, LAW_FERRITE},
    {"1.4509",          7700.0, 0.37, 950.0, 950.0,  SCALING, FERRITIC, LAW_FERRITE},
    {"1.4828",          7900.0, 0.37, 1000.0, 1000.0, SCALING, "EN 10095; emissivity Incropera A.11; from memory", LAW_1_4828},
    {"EN-GJL-200",      7150.0, 0.70, 550.0, 600.0,  "growth and scaling of grey iron, 550 to 600 degC; from memory",
     "EN 1561 annex; emissivity oxidised, Incropera A.11; from memory", LAW_GREY_IRON},
    {"EN-GJL-250",      7200.0, 0.70, 550.0, 600.0,  "growth and scaling of grey iron, 550 to 600 degC; from memory",
     "EN 1561 annex; emissivity oxidised, Incropera A.11; from memory", LAW_GREY_IRON},
    {"vermiculite board",       650.0,  0.90, 1000.0, 1000.0, MAKERS, MEMORY, LAW_BOARD},
    {"light vermiculite board", 400.0,  0.90, 1000.0, 1000.0, MAKERS, MEMORY, LAW_LIGHT_BOARD},
    {"dense vermiculite board", 1100.0, 0.90, 1100.0, 1100.0, MAKERS, MEMORY, LAW_DENSE_BOARD},
    {"calcium silicate board",  250.0,  0.90, 1000.0, 1000.0, MAKERS, MEMORY, LAW_SILICATE},
    {"dense calcium silicate board", 875.0, 0.90, 1000.0, 1000.0, MAKERS, MEMORY, LAW_DENSE_SILICATE},
    {"fireclay",                2150.0, 0.75, 1300.0, 1300.0, "VDI Heat Atlas, D6", ATLAS, LAW_FIRECLAY},
    {"high-duty fireclay",      2320.0, 0.75, 1400.0, 1400.0, "VDI Heat Atlas, D6", ATLAS, LAW_HIGH_FIRECLAY},
    {"insulating brick",        490.0,  0.75, 1260.0, 1260.0, "VDI Heat Atlas, D6: L1260", ATLAS, LAW_BRICK_1260},
    {"strong insulating brick", 790.0,  0.75, 1400.0, 1400.0, "VDI Heat Atlas, D6: L1400", ATLAS, LAW_BRICK_1400},
    {"fibre blanket",           128.0,  0.90, 1000.0, 1000.0, MAKERS, MEMORY, LAW_BLANKET},
    {"glass-ceramic",           2600.0, 0.87, 560.0, 660.0,  LADDER, "a pane maker's technical page (expansion, density); k, c from memory",
     LAW_CERAMIC},
    {"glass rope",              800.0,  0.90, 550.0, 550.0,  PRACTICE, PRACTICE, LAW_ROPE},
    {"spruce",                  430.0,  0.90, 85.0, 85.0,   WOOD_85, "Wood Handbook, DIN 68364; from memory", LAW_SPRUCE},
    {"beech",                   680.0,  0.90, 85.0, 85.0,   WOOD_85, "Wood Handbook, DIN 68364; from memory", LAW_BEECH},
};
const size_t material_count = sizeof material_rows / sizeof *material_rows;

/* EN 1993-1-2:2005, table 3.1, seen as quoted; at 1000 degC and above from memory. */
const material_factors_row material_factors[MATERIAL_FACTORS] = {
    {20.0, 1.0, 1.0, 1.0},        {100.0, 1.0, 1.0, 1.0},       {200.0, 1.0, 0.807, 0.90},     {300.0, 1.0, 0.613, 0.80},
    {400.0, 1.0, 0.420, 0.70},    {500.0, 0.78, 0.360, 0.60},   {600.0, 0.47, 0.180, 0.31},    {700.0, 0.23, 0.075, 0.13},
    {800.0, 0.11, 0.050, 0.09},   {900.0, 0.06, 0.0375, 0.0675}, {1000.0, 0.04, 0.0250, 0.0450}, {1100.0, 0.02, 0.0125, 0.0225},
    {1200.0, 0.0, 0.0, 0.0},
};

/* ISO 13732-1:2006, degC by contact time, the lower end where a band is given. Bare metal from 1 to 5 s, wood and plastic from
 * 1 to 5 s: as reproduced by an insulation maker, seen; metal at 0.5 s: 4.2.1.2 as cited on two pages, seen; 10 min and 8 h: seen
 * twice; glass, wood and plastic at 0.5 and 10 s: from memory. */
const double material_contact_s[MATERIAL_CONTACTS] = {0.5, 1.0, 2.0, 5.0, 10.0, 60.0, 600.0, 28800.0};
const double material_burn_c[MATERIAL_SURFACES][MATERIAL_CONTACTS] = {
    [SW_TOUCH_METAL]   = {65.0,  62.0,  60.0,  56.0, 55.0, 51.0, 48.0, 43.0},
    [SW_TOUCH_WOOD]    = {128.0, 110.0, 104.0, 92.0, 89.0, 60.0, 48.0, 43.0},
    [SW_TOUCH_PLASTIC] = {91.0,  85.0,  80.0,  74.0, 71.0, 60.0, 48.0, 43.0},
    [SW_TOUCH_GLASS]   = {84.0,  80.0,  0.0,   0.0,  66.0, 56.0, 48.0, 43.0},
};
/* clang-format on */
