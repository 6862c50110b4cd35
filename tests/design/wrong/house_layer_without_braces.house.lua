-- expect: is the text "brick", but { "mineral wool", 25*mm } is needed
house { name = "h" }
flue { diameter = 150*mm, length = 3*m, surface = "clay", around = "heated", layers = { "brick" } } -- here
