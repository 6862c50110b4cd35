-- expect: is 101 m, allowed is 0.01 m to 100 m
house { name = "h" }
flue { length = 101*m, diameter = 150*mm, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" } -- here
