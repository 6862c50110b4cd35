-- expect: is 900 mm, but the recess is only 900 mm wide
house { name = "h" }
recess { width = 900*mm, height = 1000*mm, depth = 400*mm, back = 50*mm, left = 900*mm } -- here
