-- line: flue demo/a.stove.lua --house FILE
-- exit: 1
-- says: wind blows down this flue
house { name = "t", note = "Invented for a test.", wind = "coast" }
pipe { name = "pipe", diameter = 150*mm, length = 1*m, rise = 1*m, layers = { { "mild steel", 2*mm } } }
flue { name = "stack", diameter = 200*mm, length = 2*m, surface = "clay", layers = { { "clay", 20*mm }, { "brick", 112*mm } }, around = "heated" }
terminal { cowl = "rain cap" }
