-- expect: is given beside roughness
house { name = "h" }
flue { length = 2*m, roughness = 1*mm, diameter = 150*mm, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" } -- here
