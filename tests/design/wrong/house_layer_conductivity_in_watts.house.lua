-- expect: is a power (0.07 W), but a conductivity is needed, e.g. 0.07*W/m/K
house { name = "h" }
flue { diameter = 150*mm, length = 3*m, surface = "clay", around = "heated", layers = { { "wool", 25*mm, conductivity = 0.07*W } } } -- here
