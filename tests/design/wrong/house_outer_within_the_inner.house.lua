-- expect: less than the 150 mm inside
house { name = "h" }
flue { diameter = 150*mm, length = 3*m, surface = "clay", resistance = 0.4*m2*K/W, outer = 120*mm, around = "heated" } -- here
