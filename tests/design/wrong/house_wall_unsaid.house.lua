-- expect: give the layers from inside to outside
house { name = "h" }
flue { diameter = 150*mm, length = 3*m, surface = "clay", around = "heated" } -- here
