-- expect: is already taken by the part in line 3
house { name = "h" }
flue { name = "a", length = 2*m, diameter = 150*mm, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" }
flue { name = "a", length = 2*m, diameter = 150*mm, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" } -- here
