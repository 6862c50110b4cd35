-- A low garden room with a short chimney on its outer wall: the gas stays hot, but 1.9 m do not lift enough.
-- Invented for demonstration; no real building.
house {
    name = "garden room with a short chimney", note = "Invented for demonstration.",
    code = "England", altitude = 200*m, least_temperature = -10*degC, wind = "free",
}

pipe {
    name = "through the wall", diameter = 150*mm, length = 1.0*m, rise = 0.7*m, bends = { 90*deg },
    layers = { { "mild steel", 2*mm } }, combustible = 480*mm,
}
-- twin wall, 25 mm of wool
flue {
    name = "up the outer wall", diameter = 150*mm, length = 1.2*m, tee = true, soot_door = true, surface = "welded steel",
    layers = { { "stainless steel", 0.5*mm }, { "mineral wool", 25*mm, conductivity = 0.07*W/m/K }, { "stainless steel", 0.5*mm } },
    around = "outdoors", designation = "T450 N1 D V3 L50050 G60", combustible = 60*mm,
}
terminal { cowl = "rain cap", pitch = 10*deg, ridge = 3*m, above = 0.6*m, window = { distance = 2*m, top = -0.8*m },
           neighbour = { distance = 6*m, top = 4*m } }

room { volume = 32*m3, permeability = 12*m3/h/m2, envelope = 90*m2, vent = 1650*mm2 }
near { name = "timber wall behind", side = "back", distance = 400*mm, combustible = true, shield = 30*mm }
near { name = "log store", side = "right", distance = 300*mm, combustible = true }
hearth { width = 900*mm, depth = 900*mm, thickness = 130*mm, front = 250*mm, side = 150*mm, density = 2600*kg/m3 }
floor { combustible = false, load = 5*kPa }
alarm { on = "wall", from_stove = 2*m, below_ceiling = 160*mm }
