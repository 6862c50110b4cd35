-- line: flue demo/a.stove.lua --house FILE
-- exit: 2
-- says: "straw" is none of
house { name = "t", note = "Invented for a test.", wind = "free" }
flue { name = "stack", diameter = 0*mm, length = 200*m, surface = "clay", layers = { { "straw", 100*mm } } }
terminal { cowl = "rain cap" }
