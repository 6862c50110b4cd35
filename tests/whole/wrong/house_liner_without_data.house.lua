-- line: flue demo/a.stove.lua --house FILE
-- exit: 2
-- says: layers: is missing; give the layers from inside to outside
house { name = "t", note = "Invented for a test.", wind = "free" }
pipe { name = "pipe", diameter = 150*mm, length = 1*m, rise = 1*m, layers = { { "mild steel", 2*mm } } }
liner { name = "liner", diameter = 150*mm, length = 6*m, roughness = 1*mm, around = "heated" }
terminal { cowl = "rain cap" }
