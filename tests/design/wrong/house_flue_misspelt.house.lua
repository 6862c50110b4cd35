-- expect: did you mean 'length'?
house { name = "h" }
flue { length = 2*m, lenght = 2*m, diameter = 150*mm, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" } -- here
