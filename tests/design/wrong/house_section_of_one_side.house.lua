-- expect: a square flue needs width and depth
house { name = "h" }
flue { width = 200*mm, length = 3*m, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" } -- here
