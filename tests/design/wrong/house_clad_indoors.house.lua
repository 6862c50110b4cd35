-- expect: only what stands outdoors is clad
house { name = "h" }
flue { length = 2*m, clad = true, diameter = 150*mm, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" } -- here
