-- The house to try a stove in: a lined brick chimney of ordinary height that draws well, held in check by a draught stabiliser.
-- Invented for demonstration; no real building.
house {
    name = "cottage with a lined brick chimney", note = "Invented for demonstration.",
    code = "England", altitude = 200*m, least_temperature = -10*degC, wind = "free",
}

-- The flue from the stove upwards: the pipe, then a flexible liner in an insulating wrap, in a square half-brick stack. The
-- resistance is that of wrap and brick together, the outer size that of the stack.
pipe {
    name = "connecting pipe", diameter = 150*mm, length = 0.85*m, rise = 0.7*m, bends = { 90*deg },
    layers = { { "mild steel", 2*mm } }, combustible = 480*mm,
}
liner { name = "in the rooms", diameter = 150*mm, length = 3*m, tee = true, soot_door = true, roughness = 1*mm, resistance = 0.384*m2*K/W,
        outer = 449*mm, around = "heated", designation = "T450 N1 D V3 L50060 G50", combustible = 60*mm }
liner { name = "in the loft", diameter = 150*mm, length = 1*m, roughness = 1*mm, resistance = 0.384*m2*K/W, outer = 449*mm,
        around = "unheated", designation = "T450 N1 D V3 L50060 G50", combustible = 60*mm }
liner { name = "above the roof", diameter = 150*mm, length = 1*m, roughness = 1*mm, resistance = 0.384*m2*K/W, outer = 449*mm,
        around = "outdoors", designation = "T450 N1 D V3 L50060 G50" }
terminal { cowl = "rain cap", pitch = 40*deg, ridge = 0.4*m, above = 1.0*m, window = { distance = 6*m, top = -1.5*m } }
survey { leak = 2.0e-3*m3/s/m2, open = 100*percent, swept = true }

-- The chimney gives some 30 Pa hot, twice what the stove wants: a stabiliser at its foot holds 10 Pa, which leaves 14 Pa at the stove.
stabiliser { set = 10*Pa, diameter = 150*mm }

room { volume = 60*m3, permeability = 8*m3/h/m2, envelope = 220*m2, vent = 4500*mm2 }
near { name = "wall behind", side = "back", distance = 600*mm, combustible = false }
near { name = "bookcase", side = "left", distance = 900*mm, combustible = true }
hearth { width = 1000*mm, depth = 1000*mm, thickness = 130*mm, front = 350*mm, side = 220*mm, density = 2300*kg/m3 }
floor { combustible = false, load = 5*kPa }
alarm { on = "wall", from_stove = 2.9*m, below_ceiling = 160*mm }
declared { most_draught = 25*Pa } -- all else is taken from the stove's own model
