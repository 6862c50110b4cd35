-- line: flue demo/a.stove.lua --house FILE
-- exit: 2
-- says: there is no chimney
house { name = "t", note = "Invented for a test.", wind = "free" }

terminal { cowl = "rain cap" }
