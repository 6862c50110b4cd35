-- expect: is missing; it is needed here
house { name = "h" }
recess { width = 900*mm, height = 1000*mm, depth = 400*mm } -- here
