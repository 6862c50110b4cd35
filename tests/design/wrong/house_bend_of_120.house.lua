-- expect: is 120 deg, allowed is above 0 to 90 deg
house { name = "h" }
flue { length = 2*m, bends = { 45*deg, 120*deg }, diameter = 150*mm, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" } -- here
