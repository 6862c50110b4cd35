-- line: flue demo/a.stove.lua --house FILE
-- exit: 2
-- says: width: is -200 mm, allowed is 40 mm to 2000 mm
house { name = "t", note = "Invented for a test.", wind = "free" }
pipe { name = "pipe", diameter = 150*mm, length = 1*m, rise = 1*m, layers = { { "mild steel", 2*mm } } }
flue { name = "stack", width = -200*mm, depth = 200*mm, length = 6*m, surface = "clay", layers = { { "clay", 20*mm }, { "brick", 112*mm } }, around = "heated" }
terminal { cowl = "rain cap" }
