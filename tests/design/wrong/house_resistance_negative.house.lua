-- expect: is -0.1 m2*K/W, allowed is 0 m2*K/W to 20 m2*K/W
house { name = "h" }
flue { diameter = 150*mm, length = 3*m, surface = "clay", resistance = -0.1*m2*K/W, outer = 300*mm, around = "heated" } -- here
