-- expect: is missing; it is needed here
house { name = "h" }
near { name = "n", side = "back", distance = 1*m } -- here
