-- expect: or one of these; did you mean 'mineral wool'?
house { name = "h" }
flue { diameter = 150*mm, length = 3*m, surface = "clay", around = "heated", layers = { { "mineral wol", 25*mm } } } -- here
