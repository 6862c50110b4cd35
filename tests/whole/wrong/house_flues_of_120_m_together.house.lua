-- line: flue demo/a.stove.lua --house FILE
-- exit: 2
-- says: the chimney's height must be above 0 and at most 100 m
house { name = "t", note = "Invented for a test.", wind = "free" }
pipe { name = "pipe", diameter = 150*mm, length = 1*m, rise = 1*m, layers = { { "mild steel", 2*mm } } }
flue { name = "low", diameter = 200*mm, length = 60*m, surface = "clay", layers = { { "clay", 20*mm }, { "brick", 112*mm } }, around = "heated" }
flue { name = "high", diameter = 200*mm, length = 60*m, surface = "clay", layers = { { "clay", 20*mm }, { "brick", 112*mm } }, around = "heated" }
terminal { cowl = "rain cap" }
