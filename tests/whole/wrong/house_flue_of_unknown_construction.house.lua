-- line: flue demo/a.stove.lua --house FILE
-- exit: 2
-- says: straw
house { name = "t", note = "Invented for a test.", wind = "free" }
pipe { name = "pipe", diameter = 150*mm, length = 1*m, rise = 1*m, layers = { { "mild steel", 2*mm } } }
flue { name = "stack", diameter = 200*mm, length = 6*m, surface = "clay", layers = { { "straw", 100*mm } }, around = "heated" }
terminal { cowl = "rain cap" }
