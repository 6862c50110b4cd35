-- expect: is already taken in line 3
house { name = "h" }
near { name = "n", side = "back", distance = 1*m, combustible = true }
near { name = "n", side = "left", distance = 1*m, combustible = true } -- here
