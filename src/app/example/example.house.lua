-- The house the stove is meant for. Invented for demonstration: put your own figures here.
house {
    name = "example house", note = "Invented for demonstration.",
    code = "England", -- "Germany", "France", "Czechia", "USA"; leave it out for physics alone
    altitude = 200*m, least_temperature = -10*degC, wind = "free",
}

-- From the stove upwards: pipes, then the chimney with a part for each surrounding. Layers run from inside to outside.
pipe { diameter = 150*mm, length = 1*m, rise = 0.9*m, bends = { 45*deg, 45*deg }, soot_door = true, layers = { { "mild steel", 2*mm } } }
local wall = { { "stainless steel", 0.5*mm }, { "mineral wool", 25*mm, conductivity = 0.07*W/m/K }, { "stainless steel", 0.5*mm } }
flue { diameter = 150*mm, length = 4*m, tee = true, surface = "welded steel", layers = wall, around = "heated",
       designation = "T450 N1 D V3 L50050 G60", combustible = 70*mm }
flue { diameter = 150*mm, length = 1.5*m, surface = "welded steel", layers = wall, around = "outdoors",
       designation = "T450 N1 D V3 L50050 G60" }
terminal { cowl = "rain cap", pitch = 40*deg, ridge = 0.4*m, above = 1.1*m }

room { volume = 60*m3, permeability = 8*m3/h/m2, envelope = 220*m2, extract = 0*m3/h, vent = 1100*mm2 }
near { name = "wall behind", side = "back", distance = 550*mm, combustible = true }
hearth { width = 900*mm, depth = 1000*mm, thickness = 20*mm, front = 300*mm, side = 230*mm, density = 2800*kg/m3 }
floor { combustible = true, load = 1.5*kPa }
alarm { on = "ceiling", from_stove = 2*m, from_wall = 400*mm }
