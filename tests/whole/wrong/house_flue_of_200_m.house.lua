-- line: flue demo/a.stove.lua --house FILE
-- exit: 2
-- says: length: is 200 m, allowed is 0.01 m to 100 m
house { name = "t", note = "Invented for a test.", wind = "free" }
pipe { name = "pipe", diameter = 150*mm, length = 1*m, rise = 1*m, layers = { { "mild steel", 2*mm } } }
flue { name = "stack", diameter = 200*mm, length = 200*m, surface = "clay", layers = { { "clay", 20*mm }, { "brick", 112*mm } }, around = "heated" }
terminal { cowl = "rain cap" }
