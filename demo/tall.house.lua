-- A three-storey house with 12 m of well insulated chimney: on a cold day it pulls twice what the stove stands.
-- Invented for demonstration; no real building.
house {
    name = "three storeys with a tall chimney", note = "Invented for demonstration.",
    code = "Germany", altitude = 200*m, least_temperature = -10*degC, wind = "free",
}
local stabilised = parameter("stabilised", 0, { min = 0, max = 1 }, "1: with a draught stabiliser")

pipe {
    name = "connecting pipe", diameter = 150*mm, length = 1.0*m, rise = 0.7*m, bends = { 45*deg, 45*deg },
    layers = { { "mild steel", 2*mm } }, combustible = 400*mm,
}
-- twin wall, 50 mm of wool
local wall = { { "stainless steel", 0.5*mm }, { "mineral wool", 49*mm, conductivity = 0.06*W/m/K }, { "stainless steel", 0.5*mm } }
flue { name = "in the rooms", diameter = 150*mm, length = 8*m, tee = true, soot_door = true, surface = "welded steel", layers = wall,
       around = "heated", designation = "T600 N1 D V3 L50060 G50", combustible = 50*mm }
flue { name = "in the loft", diameter = 150*mm, length = 2*m, surface = "welded steel", layers = wall, around = "unheated",
       designation = "T600 N1 D V3 L50060 G50", combustible = 50*mm }
flue { name = "above the roof", diameter = 150*mm, length = 2*m, surface = "welded steel", layers = wall, around = "outdoors",
       clad = true, designation = "T600 N1 D V3 L50060 G50" }
terminal { cowl = "rain cap", pitch = 45*deg, ridge = 0.5*m, above = 2*m }

room { volume = 75*m3, joined = 0*m3, permeability = 6*m3/h/m2, envelope = 320*m2, vent = 15000*mm2, stabiliser = stabilised > 0.5 }
near { name = "wall behind", side = "back", distance = 450*mm, combustible = true, resistance = 2.5*m2*K/W }
near { name = "armchair", side = "front", distance = 1200*mm, combustible = true }
hearth { width = 1200*mm, depth = 1100*mm, thickness = 45*mm, front = 500*mm, side = 300*mm, density = 1600*kg/m3,
         conductivity = 0.25*W/m/K } -- slate on a board of calcium silicate
floor { combustible = true, load = 2*kPa, resistance = 0.5*m2*K/W } -- boards over a heated room
alarm { on = "ceiling", from_stove = 1.8*m, from_wall = 900*mm }
declared { most_draught = 30*Pa } -- all else is taken from the stove's own model
