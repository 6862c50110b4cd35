-- expect: is 0 mm, allowed is 0.5 mm to 1000 mm
house { name = "h" }
hearth { width = 840*mm, depth = 840*mm, thickness = 0*mm, front = 300*mm, side = 150*mm } -- here
