-- expect: a chimney does not fall
house { name = "h" }
flue { length = 2*m, rise = -1*m, diameter = 150*mm, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" } -- here
