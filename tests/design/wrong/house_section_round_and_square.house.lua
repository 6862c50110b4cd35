-- expect: a round flue has a diameter, a square one two sides
house { name = "h" }
flue { diameter = 150*mm, depth = 200*mm, length = 3*m, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" } -- here
