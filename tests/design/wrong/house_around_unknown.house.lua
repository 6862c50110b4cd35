-- expect: "heated", "boiler room", "unheated", "outdoors" is needed
house { name = "h" }
flue { diameter = 150*mm, length = 3*m, surface = "clay", layers = { { "brick", 112*mm } }, around = "loft" } -- here
