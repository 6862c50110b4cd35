-- expect: is 0 mm, allowed is 40 mm to 2000 mm
house { name = "h" }
flue { diameter = 0*mm, length = 3*m, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" } -- here
