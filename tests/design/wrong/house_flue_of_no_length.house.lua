-- expect: is missing; it is needed here
house { name = "h" }
flue { diameter = 150*mm, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" } -- here
