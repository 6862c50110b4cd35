// conditions.js: what a burn can be asked under, with the bounds the server keeps (stovewright heat --help).
export const conditions = [
    { name: "draught_pa", label: "draught", preset: 12, low: 0, high: 100, show: [4, 40], unit: "Pa", meaning: "draught at the collar" },
    { name: "fuel_kg_h", label: "wood", preset: 0, low: 0, high: 30, show: [0, 6], unit: "kg/h",
        meaning: "wood burnt; 0 = what gives the duty's output" },
    { name: "moisture", label: "moisture", preset: 0.16, low: 0, high: 0.6, show: [0.08, 0.4], unit: "", meaning: "of the wood, share of the whole" },
    { name: "room_c", label: "room", preset: 20, low: -20, high: 45, unit: "degC", meaning: "temperature of the room" },
    { name: "primary_share", label: "primary slide", preset: 0.1, low: 0, high: 1, unit: "", meaning: "primary slide, share open" },
    { name: "wash_share", label: "airwash slide", preset: 1, low: 0, high: 1, unit: "", meaning: "airwash slide, share open" },
    { name: "rear_share", label: "rear jets", preset: 1, low: 0, high: 1, unit: "", meaning: "rear jets, share open" },
    { name: "co_ppm13", label: "carbon monoxide", preset: 1000, low: 0, high: 20000, show: [0, 5000], unit: "ppm",
        meaning: "carbon monoxide, dry at 13 % oxygen" },
    { name: "lambda", label: "excess air", preset: 0, low: 0, high: 20, show: [0, 6], unit: "",
        meaning: "excess air ratio instead of what the openings let in; 0 = they do" },
];

/** What a sweep can report of a design. */
export const quantities = [
    ["mass_kg", "mass of the stove", "kg"], ["sheet_kg", "mass of the sheet pieces", "kg"],
    ["output_kw", "heat into the room", "kW"], ["efficiency", "efficiency", "%"], ["lambda", "excess air ratio", ""],
    ["fuel_kg_h", "wood burnt", "kg/h"], ["air_g_s", "combustion air", "g/s"], ["gas_g_s", "flue gas", "g/s"],
    ["flue_c", "flue gas at the collar", "degC"], ["pane_c", "hottest pane", "degC"],
    ["wall_c", "hottest wall of the furnace", "degC"], ["shell_c", "hottest part of the shell", "degC"],
    ["lining_c", "hottest lining", "degC"], ["handle_c", "hottest handle", "degC"],
    ["gap_g_s", "air through the convection gap", "g/s"], ["glass_share", "share that leaves by the pane", "%"],
].map(([name, meaning, unit]) => ({ name, meaning, unit }));
