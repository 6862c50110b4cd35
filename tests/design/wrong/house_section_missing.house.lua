-- expect: give diameter = 150*mm, or width and depth
house { name = "h" }
flue { length = 3*m, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" } -- here
