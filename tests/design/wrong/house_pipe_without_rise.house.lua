-- expect: say how much higher the pipe ends
house { name = "h" }
pipe { diameter = 150*mm, length = 1*m } -- here
flue { length = 2*m, diameter = 150*mm, surface = "clay", layers = { { "brick", 112*mm } }, around = "heated" }
