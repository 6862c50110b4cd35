-- expect: but a thermal resistance is needed, e.g. 0.38*m2*K/W
house { name = "h" }
flue { diameter = 150*mm, length = 3*m, surface = "clay", resistance = 0.4, outer = 300*mm, around = "heated" } -- here
