// formulas.js: what each check reckons, in one line, as its page under docs/studies/ has it. Sources of limits are the findings' own.

const of_check = {
    // sheet
    "sheet.flat_sound": "no two parts of the flat share an area",
    "sheet.bend_rule": "r/s ≥ 0.3, r inside radius, s thickness",
    "sheet.least_radius": "r ≥ the table's least radius for grade, thickness and rolling direction",
    "sheet.least_flange": "depth of the face + setback ≥ least flange of the die; die V = 6 s to 2.5 mm, 8 s to 8 mm, 10 s to 10 mm, then 12 s",
    "sheet.hem_leg": "leg of the hem ≥ 4 s",
    "sheet.hole_to_bend": "edge of the hole to the bend line ≥ 2 s + r",
    "sheet.least_hole": "least width of a hole ≥ s",
    "sheet.relief": "notch at least s wide and r + s deep from the bend line",
    "sheet.fits_stock": "box of the flat within the sheet less the laser's margins, in any turn allowed",
    "sheet.collision": "depth of one placed body in another ≤ contact",
    "sheet.self_collision": "depth of a bent piece in itself ≤ contact",
    "sheet.joint_gap": "widest distance from edge a to the folded piece b ≤ the joint's gap",
    "sheet.mark_inside": "the box of every mark lies on its face, off holes",
    // form
    "form.press_force": "F = C Rm s² l / V, C 1.5 in air bending; F ≤ the press",
    "form.press_length": "length of the bend ≤ the press",
    "form.die_flange": "shortest leg ≥ least flange of the die",
    "form.radius_made": "legs off by half the change of the bend deduction, made radius against drawn one",
    "form.back_gauge": "every stroke finds a straight edge at the stops",
    "form.sequence": "some order of strokes keeps clear of tools and sheet, looked at every 15°",
    "form.flat_end": "flat end drawn ≥ what the rolls leave flat",
    "form.roll_force": "force from curvature under load ≤ the rolls",
    "form.roll_length": "width ≤ the rolls",
    "form.roll_radius": "radius ≥ least multiple of the top roll",
    // heft
    "heft.mass": "m = Σ mᵢ ≤ 25 kg for one person, 2/3 of the sum for two",
    "heft.tipping_open": "θ with the centre of gravity moved by Σ m_i d_i/m of what swings, the worst set of open doors",
    "heft.tipping": "θ = atan(e/h), e from the edge of the support, h height of the centre of gravity",
    "heft.lift": "RWL = 23 kg · HM · VM · DM · AM · FM · CM; load ≤ RWL",
    "heft.hoist": "safe load ≥ (load + rigging) · 1.15",
    "heft.sling": "T = m g / (n cos β), n legs that carry",
    "heft.points": "R = m g (L − e)/L at the worse of two points",
    "heft.stop": "a = g e/h, the sudden stop that tips it on the trolley",
    "heft.push": "F = m g e/y, the push at height y that tips it",
    // join
    "join.access": "a torch with neck, body, wrist and arm, as cylinders, meets no piece in place: tilted up to its limit, turned any way",
    "join.hand_access": "seams where a hand's torch is free and the robot's is not",
    "join.throat_most": "a ≤ 0.7 t of the thinner sheet",
    "join.throat_least": "tight seam: a ≥ 0.5 t of the thinner sheet",
    "join.heat_least": "k U I/v ≥ 0.03 kJ/mm for each mm of the thicker sheet",
    "join.heat_most": "k U I/v ≤ 0.15 kJ/mm for each mm of the thinner sheet",
    "join.deposit": "η · wire feed · wire area / speed ≥ 0.9 of the throat's area",
    "join.preheat": "CET = C + (Mn + Mo)/10 + (Cr + Cu)/20 + Ni/40; none needed below 0.36 and 10 mm",
    "join.shrinkage": "across = α/(ρ c) q/t, q = Q 2t/(2t + t_foot); rise of a flange = 0.02 W z^1.3/t² in inches, at most 0.03 W; ± 50 %",
    "join.leak_test": "V = c_d A √(2 Δp/ρ)",
    // fit
    "fit.joint_fit": "share of stoves drawn at random in which the widest gap passes the joint's limit; RSS = √Σ(S² T²), worst case Σ|S| T",
    "fit.stove_fit": "share of stoves in which every joint fits",
    // air
    "air.excess_air": "λ = air let in / air the wood needs at least",
    "air.air_share": "share = ṁ of the opening / Σ ṁ of what enters; ṁ = c_d A √(2 ρ Δp)",
    "air.inlet_pressure": "Δp over the openings / draught ≥ 5/12",
    "air.reversed_flow": "ṁ ≥ 0 into the stove at every opening; p(z) = p + g (ρ₀ − ρ)(z − h)",
    "air.wash_velocity": "w = ṁ/(ρ A) in the slot over the glass",
    "air.gas_velocity": "w = ṁ/(ρ A) in throat and collar",
    "air.jet_reach": "u/u₀ = 6.3 d_e/(x + 0.6 d_e); reach = x where u falls to 1 m/s",
    "air.opening": "ṁ = c_d A √(2 ρ Δp)",
    // fire
    "fire.moisture": "w = water / wood as fired",
    "fire.heating_value": "HHV = 0.3491 C + 1.1783 H + 0.1005 S − 0.1034 O − 0.0151 N − 0.0211 A, MJ/kg of % dry",
    "fire.lambda": "λ = air / least air of complete combustion",
    "fire.co2": "CO₂ = CO₂,max k/(λ − 1 + k), dry",
    "fire.co": "ppm · 28.01/22.414 at 13 % O₂",
    "fire.dew_point": "Magnus, above 60 °C Antoine, of the steam's partial pressure",
    "fire.tar": "flue gas ≥ 120 °C, watched below 150 °C",
    "fire.volume_loading": "heat of the fire / volume of the firebox",
    "fire.base_loading": "heat of the fire / area of its floor",
    "fire.charge": "mass of a charge / volume of the firebox",
    "fire.refuelling": "time between charges",
    "fire.efficiency": "η = 1 − sensible − CO − residue, shares of LHV",
    // heat
    "heat.handle_rise": "T of the handle − T of the room",
    "heat.handle_burn": "T of the handle ≤ what skin bears for the time of touch",
    "heat.pane": "T of the pane ≤ the material's limit in long use",
    "heat.lining": "T of the lining ≤ the material's limit in long use",
    "heat.scaling": "T of the sheet ≤ where it scales",
    "heat.coating": "T of the sheet ≤ class of its paint",
    "heat.rope": "T at the rope ≤ its limit",
    "heat.flue_dew_point": "flue gas − dew point",
    "heat.flue_tar": "flue gas ≥ 150 °C",
    "heat.flue_waste": "flue gas ≤ where heat is wasted",
    "heat.floor_of_wood": "T of the base − T of the room",
    // flue
    "flue.draught": "P_Z = P_H − P_R − P_L ≥ P_Ze = P_W + P_FV + P_B",
    "flue.room": "P_Z ≥ P_B",
    "flue.over_draught": "P_H − P_R ≤ P_Wmax + P_FV + P_B on the coldest day",
    "flue.condensation": "wall at the outlet T_iob ≥ dew point T_p; T_p = 4077.9/(23.6448 − ln p_D) − 236.67 °C",
    "flue.wet_wall": "T_iob = T − k/α_i (T − T_u) along the flue against T_p",
    "flue.velocity": "w = ṁ/(ρ A) ≥ 0.5 m/s",
    "flue.area_ratio": "area of the flue / area of the stove's outlet ≤ 3",
    "flue.height": "height of the chimney ≥ 4.5 m",
    "flue.designation": "each field of the designation at least that of the stove",
    "flue.operating_point": "draught the chimney gives for a gas flow = draught the stove needs for it",
    // site
    "site.wall_temperature": "a [F (e σ T_p⁴ + (1 − e) σ T_r⁴) + (1 − F) σ T_r⁴] = a σ T_w⁴ + 1.31 (T_w − T_r)^(4/3) + (T_w − T_r)/R",
    "site.pipe_temperature": "as the wall, with F = r/s of a long pipe",
    "site.combustion_air": "opening to the outside ≥ what the code asks for the output",
    "site.room_depression": "0.6 A √(2 Δp/ρ) + C Δp^0.65 = what fans and stove draw; Δp ≤ 4 Pa",
    "site.floor_load": "p = (m_stove + m_hearth) g/A",
    "site.leg_load": "F = m g/n",
    // coat, fittings
    "coat.rating": "T of the part ≤ class of the coat",
    "coat.solvent": "Q = (m/t)/(0.25 LEL), LEL = x p M/(R T)",
    "fittings.hot_gap": "gap ≥ growth of the part − growth of the opening + tolerance + 0.5 mm",
    "fittings.rope": "c = (d − g − j)/d, 20 to 40 %",
    "fittings.rope_hot": "c with the joint open ≥ 15 %",
    "fittings.rope_fill": "(π d²/4)/(w (g + j)) ≤ 105 %",
    "fittings.pane_edge": "clear width beside the pane",
    "fittings.drop": "E = m g h, v = √(2 g h)",
    "fittings.bar_gap": "least distance of two parallel lines round a hole of the grate",
    "fittings.board_size": "cut board within a sheet of board",
    // nest, cut, line
    "nest.density": "area of the pieces / area of the sheets",
    "cut.web": "least web beside a hole ≥ thickness of the sheet",
    "cut.gap": "least gap between pieces ≥ the web of the laser's row",
    "line.takt": "time of work in a week / stoves wanted in it",
};
const pages = { nest: "docs/nesting.md" };

/** {formula, page}: formula null where a check states a fact rather than reckons. */
export function explained(f) {
    return { formula: of_check[`${f.study}.${f.check}`] ?? null, page: f.check === "operating_point" ? "docs/studies/draw.md" : pages[f.study] ?? `docs/studies/${f.study}.md` };
}

/** How value, limit and margin hang together, with the finding's own numbers. */
export function judged(f, number) {
    if (f.sense === "stated" || ![f.value, f.limit, f.margin].every(Number.isFinite)) return null;
    const [a, b] = f.sense === "at_least" ? [f.value, f.limit] : [f.limit, f.value];
    if (f.limit === 0) return `margin = ${number(a)} − ${number(b)} = ${number(f.margin, 3)}`;
    return `margin = (${number(a)} − ${number(b)}) / ${number(Math.abs(f.limit))} = ${number(f.margin * 100, 3)} %`;
}
