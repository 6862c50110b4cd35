-- expect: more than the length of 2 m
house { name = "h" }
flue { length = 2*m, rise = 2.1*m, diameter = 150*mm, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" } -- here
