-- A tight new house whose kitchen extract works against the stove: at full it puts the room further under pressure than a
-- stove that breathes from the room stands.
-- Invented for demonstration; no real building.
local direct = parameter("direct_air", 0, { min = 0, max = 1 }, "1: combustion air is piped to the stove")

local extract = parameter("extract", 300*m3/h, { min = 0*m3/h, max = 600*m3/h }, "all fans at full")

house {
    name = "tight house with an extract fan", note = "Invented for demonstration.",
    code = "England", altitude = 50*m, least_temperature = -8*degC, wind = "free",
}

pipe {
    name = "connecting pipe", diameter = 150*mm, length = 1.2*m, rise = 1.2*m,
    layers = { { "mild steel", 2*mm } }, combustible = 500*mm,
}
local wall = { { "stainless steel", 0.5*mm }, { "mineral wool", 25*mm, conductivity = 0.07*W/m/K }, { "stainless steel", 0.5*mm } }
flue { name = "in the rooms", diameter = 150*mm, length = 3*m, surface = "welded steel", layers = wall, around = "heated",
       soot_door = true,
       designation = "T450 N1 D V3 L50050 G60", combustible = 70*mm }
flue { name = "above the roof", diameter = 150*mm, length = 2*m, surface = "welded steel", layers = wall, around = "outdoors",
       designation = "T450 N1 D V3 L50050 G60" }
terminal { cowl = "rain cap", pitch = 30*deg, ridge = 0.3*m, above = 1.2*m }

room { volume = 90*m3, permeability = 5*m3/h/m2, envelope = 250*m2, extract = extract, vent = 4400*mm2, direct_air = direct > 0.5 }
near { name = "plasterboard wall", side = "back", distance = 400*mm, combustible = true, resistance = 3.0*m2*K/W }
near { name = "kitchen units", side = "right", distance = 1500*mm, combustible = true }
hearth { width = 840*mm, depth = 900*mm, thickness = 130*mm, front = 230*mm, side = 170*mm, density = 2800*kg/m3 }
floor { combustible = false, load = 6*kPa }
alarm { on = "ceiling", from_stove = 2*m, from_wall = 400*mm }
