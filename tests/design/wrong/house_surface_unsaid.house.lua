-- expect: give the inner surface
house { name = "h" }
flue { diameter = 150*mm, length = 3*m, resistance = 0.4*m2*K/W, outer = 300*mm, around = "heated" } -- here
