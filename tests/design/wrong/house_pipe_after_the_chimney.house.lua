-- expect: list pipes first
house { name = "h" }
flue { length = 2*m, diameter = 150*mm, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" }
pipe { diameter = 150*mm, length = 1*m, rise = 1*m } -- here
flue { length = 2*m, diameter = 150*mm, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" }
