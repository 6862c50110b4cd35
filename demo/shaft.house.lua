-- A stove for an old fireplace: the shaft is 300 by 300 mm and has stood unused. It would draw, but the gas cools so far
-- that its water runs down the bricks; with --set lined=1 a liner is put into it, and it stays dry.
-- Invented for demonstration; no real building.
local lined = parameter("lined", 0, { min = 0, max = 1 }, "0: the bare shaft, 1: with a liner of 150 mm")

house {
    name = lined > 0.5 and "terrace with a lined shaft" or "terrace with a disused shaft", note = "Invented for demonstration.",
    code = "England", altitude = 200*m, least_temperature = -10*degC, wind = "free",
}

pipe {
    name = "connecting pipe", diameter = 150*mm, length = 1.0*m, rise = 0.7*m, bends = { 90*deg },
    layers = { { "mild steel", 2*mm } }, combustible = 500*mm,
}

-- The shaft runs through three surroundings; each is a part of its own.
local stretches = {
    { name = "in the rooms", length = 5.0*m, around = "heated" },
    { name = "in the loft", length = 1.5*m, around = "unheated" },
    { name = "above the roof", length = 1.5*m, around = "outdoors" },
}
for i, stretch in ipairs(stretches) do
    if lined > 0.5 then
        liner { name = stretch.name, length = stretch.length, around = stretch.around, tee = i == 1, soot_door = i == 1,
                diameter = 150*mm, roughness = 1*mm, designation = "T450 N1 D V3 L50060 G50",
                layers = { { "stainless steel", 1*mm }, { "mineral wool", 24*mm, conductivity = 0.07*W/m/K },
                           { "air gap", 50*mm }, { "brick", 115*mm } } }
    else
        flue { name = stretch.name, length = stretch.length, around = stretch.around, tee = i == 1, soot_door = i == 1,
               width = 300*mm, depth = 300*mm, surface = "brick", layers = { { "brick", 115*mm } } }
    end
end
terminal { cowl = lined > 0.5 and "rain cap" or "open", pitch = 35*deg, ridge = 0*m, above = 1.5*m,
           neighbour = { distance = 5*m, top = -1*m } }
survey { open = 100*percent, swept = true, tar = false, damp = true, shared = false } -- the leak test is still to be made

room { volume = 48*m3, joined = 30*m3, permeability = 9*m3/h/m2, envelope = 180*m2, vent = 1650*mm2 }
-- The old fireplace the stove stands in, in the middle, with an oak beam over it behind a shield.
recess { width = 950*mm, height = 1800*mm, depth = 450*mm, back = 140*mm, thickness = 230*mm, timber_lintel = true,
         lintel_shield = 30*mm, lintel_resistance = 1.2*m2*K/W }
hearth { width = 1300*mm, depth = 1200*mm, thickness = 150*mm, front = 550*mm, side = 250*mm, density = 2400*kg/m3 }
floor { combustible = false, load = 5*kPa }
alarm { on = "ceiling", from_stove = 2*m, from_wall = 350*mm }
