-- expect: is 500 mm, but the recess is only 400 mm deep
house { name = "h" }
recess { width = 900*mm, height = 1000*mm, depth = 400*mm, back = 500*mm } -- here
