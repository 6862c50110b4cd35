-- expect: needs its outer diameter
house { name = "h" }
flue { diameter = 150*mm, length = 3*m, surface = "clay", resistance = 0.4*m2*K/W, around = "heated" } -- here
